//! Drag: physics.md's tables and worked case of section 4.
//!
//! [own] numbers from [mem] formulas (Schlichting; Hoerner 1965; Barrowman 1967).
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::air::Air;
use finwright_physics::drag::{DragModel, Edge, FinDrag, Protrusion, LUG_CD};
use finwright_physics::fins::FinShape;
use finwright_physics::friction::{
    critical_reynolds, laminar, prandtl_schlichting, rough, skin_friction, turbulent, BoundaryLayer, BARE, PAINTED,
    POLISHED,
};
use finwright_physics::nose::NoseShape;
use finwright_physics::pressure_drag::{base_suction, leading_pressure, stagnation};
use finwright_physics::section::{Section, TaperShape};

/// [own] Friction of a smooth plate, four Reynolds numbers.
#[test]
fn friction_table() {
    for (reynolds, lam, ps, barrowman) in [
        (1e5, 0.00419950, 0.00715597, 0.00734351),
        (5e5, 0.00187808, 0.00510572, 0.00504169),
        (1e6, 0.00132800, 0.00447076, 0.00437229),
        (1e7, 0.00041995, 0.00300371, 0.00289762),
    ] {
        assert_near(laminar(reynolds), lam, 6e-9);
        assert_near(prandtl_schlichting(reynolds), ps, 6e-9);
        assert_near(turbulent(reynolds), barrowman, 6e-9);
    }
}

/// [own] Friction of a rough plate 0.3 m long.
#[test]
fn roughness_table() {
    for (height, cf, critical) in [
        (BARE, 0.00441513, 1.501e6),
        (PAINTED, 0.00467662, 1.113e6),
        (60e-6, 0.00582581, 3.555e5),
        (150e-6, 0.00699752, 1.372e5),
    ] {
        let relative = height / 0.3;
        assert_near(rough(relative), cf, 6e-9);
        assert_close(critical_reynolds(relative), critical, 5e-4);
        let below = skin_friction(0.9 * critical, relative, BoundaryLayer::Turbulent);
        let above = skin_friction(1.1 * critical, relative, BoundaryLayer::Turbulent);
        assert_eq!(below, turbulent(0.9 * critical));
        assert_eq!(above, rough(relative));
    }
}

/// [mem] The natural layer is laminar below 5e5 and mixed above it, always under the turbulent one.
#[test]
fn natural_boundary_layer() {
    let natural = |re: f64| skin_friction(re, 0.0, BoundaryLayer::Natural);
    assert_eq!(natural(4e5), laminar(4e5));
    assert_near(natural(1e6), 0.00447076 - 1700.0 / 1e6, 6e-9);
    for re in [2e4, 1e5, 6e5, 2e6] {
        assert!(natural(re) < skin_friction(re, 0.0, BoundaryLayer::Turbulent));
    }
}

/// [own] Base, stagnation and rounded edge by Mach number.
#[test]
fn pressure_terms() {
    assert_near(base_suction(0.3), 0.131700, 1e-9);
    assert_near(base_suction(0.6), 0.166800, 1e-9);
    assert_near(base_suction(0.9), 0.225300, 1e-9);
    let mach = 0.14693176;
    assert_near(base_suction(mach), 0.12280656, 1e-7);
    assert_near(stagnation(mach), 0.85459756, 1e-7);
    assert_near(leading_pressure(Edge::Rounded, mach), 0.00914273, 1e-7);
    // The published pieces meet: [mem] within their own rounding.
    for edge in [Edge::Blunt, Edge::Rounded, Edge::Sharp] {
        for joint in [0.9, 1.0] {
            let (below, above) = (joint - 1e-9, joint + 1e-9);
            assert_near(leading_pressure(edge, below), leading_pressure(edge, above), 6e-3);
        }
    }
    assert_near(base_suction(1.0 - 1e-9), base_suction(1.0 + 1e-9), 1e-8);
}

/// Sea-level air with the density rounded to 1.225, as the worked case has it.
fn sea_level() -> Air {
    Air { density: 1.225, ..Air::new(288.15, 101325.0) }
}

fn b1() -> DragModel {
    let nose = Section::nose(NoseShape::Ogive, 0.07, 0.0124).unwrap();
    let tube = Section::cylinder(0.23, 0.0124).unwrap();
    let fin = FinShape::Trapezoid { root: 0.05, tip: 0.03, span: 0.04, sweep: 0.025 };
    let mut model = DragModel::of_body(&[(nose, 0.0), (tube, 0.0)], PI * 0.0124 * 0.0124);
    model.fins.push(FinDrag {
        fin: fin.geometry().unwrap(),
        count: 3,
        thickness: 0.0016,
        roughness: 0.0,
        leading: Edge::Blunt,
        trailing: Edge::Blunt,
    });
    model
}

/// [own] The worked case: B1 at 50 m/s, turbulent, square fin edges.
#[test]
fn worked_case() {
    let model = b1();
    let wetted: Vec<f64> = model.skin.iter().map(|skin| skin.area).collect();
    assert_near(wetted[0], 0.003703821, 1e-9);
    assert_near(wetted[1], 0.017919644, 1e-9);
    assert_near(model.length / model.diameter, 12.096774, 1e-6);
    let terms = model.terms(50.0, &sea_level(), false);
    assert_near(terms.body_friction, 0.20230605, 1e-7);
    assert_near(terms.fin_friction, 0.14530297, 1e-7);
    assert_near(terms.base, 0.12280656, 1e-7);
    assert_near(terms.fin_leading, 0.24426408, 1e-7);
    assert_near(terms.fin_trailing, 0.04881233, 1e-7);
    assert_near(terms.fore_pressure, 0.0, 1e-12);
    assert_near(terms.total(), 0.763492, 1e-6);
    assert_eq!(model.coefficient(50.0, &sea_level(), false), terms.total());
}

/// [own] A lug of 4.5 mm on B1 adds 0.0395; the jet takes its area off the base.
#[test]
fn lug_and_jet() {
    let mut model = b1();
    let before = model.terms(50.0, &sea_level(), false);
    model.protrusions.push(Protrusion { frontal_area: PI * 0.00225 * 0.00225, cd: LUG_CD });
    let after = model.terms(50.0, &sea_level(), false);
    assert_near(after.total() - before.total(), 0.0395, 5e-5);
    model.jet_area = 0.4 * model.base_area;
    let burning = model.terms(50.0, &sea_level(), true);
    assert_close(burning.base, 0.6 * before.base, 1e-12);
    assert_eq!(model.terms(50.0, &sea_level(), false).base, before.base);
}

/// [mem] A cone's pressure 0.8 sin²(half angle); a long boat-tail has none, a short one the base's.
#[test]
fn nose_and_tapers() {
    let cone = Section::nose(NoseShape::Cone, 0.1, 0.02).unwrap();
    let area = PI * 0.02 * 0.02;
    let model = DragModel::of_body(&[(cone, 0.0)], area);
    let sin2 = 0.02 * 0.02 / (0.02 * 0.02 + 0.1 * 0.1);
    let terms = model.terms(30.0, &sea_level(), false);
    assert_close(terms.fore_pressure, 0.8 * sin2, 1e-12);
    let tail = |length: f64| {
        let taper = Section::taper(TaperShape::Straight, length, 0.02, 0.01).unwrap();
        DragModel::of_body(&[(cone, 0.0), (taper, 0.0)], area).terms(30.0, &sea_level(), false)
    };
    assert_eq!(tail(0.07).boat_tail, 0.0);
    let short = tail(0.015);
    assert_close(short.boat_tail + short.base, terms.base, 1e-12);
    assert!(tail(0.04).boat_tail > 0.0 && tail(0.04).boat_tail < short.boat_tail);
    let flat = Section::cylinder(0.2, 0.02).unwrap();
    let flat = DragModel::of_body(&[(flat, 0.0)], area).terms(30.0, &sea_level(), false);
    assert_close(flat.fore_pressure, stagnation(30.0 / sea_level().sound_speed), 1e-12);
}

/// Rounding and sharpening edges and smoothing the skin each lower the drag.
#[test]
fn better_edges_and_skin_lower_the_drag() {
    let with = |leading: Edge, trailing: Edge, roughness: f64| {
        let mut model = b1();
        model.fins[0].leading = leading;
        model.fins[0].trailing = trailing;
        for skin in &mut model.skin {
            skin.roughness = roughness;
        }
        model.coefficient(80.0, &sea_level(), false)
    };
    let worst = with(Edge::Blunt, Edge::Blunt, PAINTED);
    let rounded = with(Edge::Rounded, Edge::Rounded, PAINTED);
    let sharp = with(Edge::Rounded, Edge::Sharp, PAINTED);
    let smooth = with(Edge::Rounded, Edge::Sharp, POLISHED);
    assert!(worst > rounded && rounded > sharp && sharp > smooth);
}
