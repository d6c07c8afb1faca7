//! Volumes, areas and inertias: physics.md's tables 1.2, 2.1 and 2.2.
//!
//! [own] quadrature at 25 digits with mpmath, 9 digits kept; [mem] textbook formulas from memory.
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::mass::{combine, MassProps};
use finwright_physics::normal_force;
use finwright_physics::nose::{NoseError, NoseShape};
use finwright_physics::section::{Section, SectionError, TaperShape};

const R: f64 = 0.05;
const L: f64 = 0.3;

/// [own] Table 2.2, R 0.05 m and L 0.3 m: volume, centroid, squared radii of gyration, lateral
/// area, shell centroid, side view and its centroid, centre of pressure.
#[test]
fn table_2_2() {
    use NoseShape::*;
    #[rustfmt::skip]
    let rows = [
        (Cone, [7.85398163e-4, 0.225, 7.5e-4, 3.75e-3, 0.0477739052, 0.2, 0.015, 0.2, 0.2]),
        (Ogive, [1.26656466e-3, 0.205692955, 9.54410171e-4, 4.57687346e-3, 0.0638722131, 0.186258317, 0.0201106742, 0.187083182, 0.138735979]),
        (Ellipsoid, [1.57079633e-3, 0.1875, 1.0e-3, 5.84375e-3, 0.0749232883, 0.171212574, 0.0235619449, 0.172676046, 0.1]),
        (Power { n: 0.5 }, [1.17809725e-3, 0.2, 8.33333333e-4, 5.41666667e-3, 0.0634511255, 0.179269817, 0.02, 0.18, 0.15]),
        (Power { n: 0.75 }, [9.42477796e-4, 0.214285714, 7.8125e-4, 4.47225765e-3, 0.0544411648, 0.190651008, 0.0171428571, 0.190909091, 0.18]),
        (Parabola { k: 1.0 }, [1.25663706e-3, 0.20625, 9.52380952e-4, 4.54427083e-3, 0.0635219194, 0.186689144, 0.02, 0.1875, 0.14]),
        (Parabola { k: 0.75 }, [1.04929195e-3, 0.212874251, 8.52908469e-4, 4.30690121e-3, 0.0571554984, 0.191154467, 0.018, 0.191666667, 0.1664]),
        (Parabola { k: 0.5 }, [9.25024504e-4, 0.217924528, 8.0026455e-4, 4.09501607e-3, 0.0529635834, 0.194707198, 0.0166666667, 0.195, 0.182222222]),
        (Haack { c: 0.0 }, [1.17809725e-3, 0.20625, 8.89746903e-4, 4.78081095e-3, 0.0619932137, 0.185245546, 0.019536566, 0.185904936, 0.15]),
        (Haack { c: 1.0 / 3.0 }, [1.3253594e-3, 0.2, 9.41211631e-4, 5.05393915e-3, 0.0666771561, 0.180974216, 0.0210073423, 0.181869897, 0.13125]),
    ];
    for (shape, want) in rows {
        let section = Section::nose(shape, L, R).unwrap();
        let geometry = section.geometry();
        let solid = section.solid(1.0);
        let force = normal_force::body(&section, &geometry, 0.0, PI * R * R);
        let got = [
            geometry.volume,
            geometry.volume_centroid,
            solid.i_axial / solid.mass,
            solid.i_transverse / solid.mass,
            geometry.wetted_area,
            geometry.wetted_centroid,
            geometry.planform_area,
            geometry.planform_centroid,
            force.x().unwrap(),
        ];
        for (i, (got, want)) in got.iter().zip(want).enumerate() {
            assert!((got / want - 1.0).abs() < 5e-9, "{shape:?} column {i}: got {got}, want {want}");
        }
        assert_close(solid.mass, geometry.volume, 1e-13);
        assert_close(force.cna, 2.0, 1e-13);
    }
}

/// [own] Table 1.2: the tangent ogive from one to ten diameters long.
#[test]
fn table_1_2_tangent_ogive() {
    #[rustfmt::skip]
    let rows = [
        (1.0, 0.4300297, 0.6710355, 0.5895295), (1.5, 0.4500370, 0.6801132, 0.6087596),
        (2.0, 0.4572399, 0.6833316, 0.6157630), (2.5, 0.4606115, 0.6848283, 0.6190571),
        (3.0, 0.4624533, 0.6856432, 0.6208611), (4.0, 0.4642919, 0.6864547, 0.6226651),
        (5.0, 0.4651454, 0.6868308, 0.6235036), (6.0, 0.4656097, 0.6870352, 0.6239601),
        (8.0, 0.4660718, 0.6872385, 0.6244146), (10.0, 0.4662859, 0.6873326, 0.6246252),
    ];
    for (fineness, pressure, solid, shell) in rows {
        let length = fineness * 2.0 * R;
        let section = Section::nose(NoseShape::Ogive, length, R).unwrap();
        let geometry = section.geometry();
        let force = normal_force::body(&section, &geometry, 0.0, PI * R * R);
        assert_near(force.x().unwrap() / length, pressure, 6e-8);
        assert_near(geometry.volume_centroid / length, solid, 6e-8);
        assert_near(geometry.wetted_centroid / length, shell, 6e-8);
    }
}

/// [own] An ogive as long as its radius is the hemisphere, by both outlines.
#[test]
fn hemisphere() {
    for shape in [NoseShape::Ogive, NoseShape::Ellipsoid] {
        let section = Section::nose(shape, 1.0, 1.0).unwrap();
        let geometry = section.geometry();
        assert_near(geometry.volume, 2.094395102, 1e-9);
        assert_near(geometry.volume_centroid, 0.625, 1e-9);
        assert_near(geometry.wetted_centroid, 0.5, 1e-9);
        assert_near(geometry.wetted_area, 2.0 * PI, 1e-9);
        let force = normal_force::body(&section, &geometry, 0.0, PI);
        assert_near(force.x().unwrap(), 1.0 / 3.0, 1e-9);
    }
}

/// [mem] Table 2.1: textbook inertias in closed form, per kg.
#[test]
fn table_2_1_closed_forms() {
    let n: f64 = 0.6;
    let power_x = (2.0 * n + 1.0) / (2.0 * n + 2.0) * L;
    #[rustfmt::skip]
    let rows = [
        (NoseShape::Cone, 0.75 * L, 0.3 * R * R, 3.0 * (4.0 * R * R + L * L) / 80.0),
        (NoseShape::Ellipsoid, 0.625 * L, 0.4 * R * R, R * R / 5.0 + 19.0 * L * L / 320.0),
        (NoseShape::Power { n: 0.5 }, 2.0 * L / 3.0, R * R / 3.0, R * R / 6.0 + L * L / 18.0),
        (NoseShape::Power { n }, power_x, R * R * (2.0 * n + 1.0) / (2.0 * (4.0 * n + 1.0)),
         R * R * (2.0 * n + 1.0) / (4.0 * (4.0 * n + 1.0)) + L * L * (2.0 * n + 1.0) / (2.0 * n + 3.0) - power_x * power_x),
    ];
    for (shape, x, axial, transverse) in rows {
        let mass = Section::nose(shape, L, R).unwrap().solid(700.0);
        assert_close(mass.x, x, 1e-10);
        assert_close(mass.i_axial / mass.mass, axial, 1e-10);
        assert_close(mass.i_transverse / mass.mass, transverse, 1e-10);
    }
    for c in [0.0, 0.2, 1.0 / 3.0] {
        let geometry = Section::nose(NoseShape::Haack { c }, L, R).unwrap().geometry();
        assert_close(geometry.volume, PI * R * R * L * (0.5 + 3.0 * c / 16.0), 1e-10);
        assert_close(geometry.volume_centroid, (11.0 + 3.0 * c) / (16.0 + 6.0 * c) * L, 1e-10);
    }
}

/// [mem] Table 2.1: cylinder, tube and frustum.
#[test]
fn table_2_1_straight_pieces() {
    let cylinder = Section::cylinder(L, R).unwrap();
    let mass = cylinder.solid(1.0);
    assert_close(mass.mass, PI * R * R * L, 1e-14);
    assert_close(mass.i_axial / mass.mass, R * R / 2.0, 1e-13);
    assert_close(mass.i_transverse / mass.mass, (3.0 * R * R + L * L) / 12.0, 1e-12);
    let inner: f64 = 0.046;
    let tube = cylinder.walled(R - inner, 1.0);
    let squares = R * R + inner * inner;
    assert_close(tube.mass, PI * (R * R - inner * inner) * L, 1e-12);
    assert_close(tube.i_axial / tube.mass, squares / 2.0, 1e-12);
    assert_close(tube.i_transverse / tube.mass, (3.0 * squares + L * L) / 12.0, 1e-12);
    let (r1, r2): (f64, f64) = (0.03, 0.05);
    let frustum = Section::taper(TaperShape::Straight, L, r1, r2).unwrap();
    let mass = frustum.solid(1.0);
    let squares = r1 * r1 + r1 * r2 + r2 * r2;
    assert_close(mass.mass, PI * L * squares / 3.0, 1e-13);
    assert_close(mass.x, L * (r1 * r1 + 2.0 * r1 * r2 + 3.0 * r2 * r2) / (4.0 * squares), 1e-13);
    assert_close(mass.i_axial / mass.mass, 3.0 * (r2.powi(5) - r1.powi(5)) / (10.0 * (r2.powi(3) - r1.powi(3))), 1e-12);
}

/// [mem] A cone's wall is a cone less the equal cone moved aft by thickness / sin(half angle), up
/// to the base: exact.
#[test]
fn walled_cone_is_exact() {
    let wall = 0.002;
    let cone = Section::nose(NoseShape::Cone, L, R).unwrap();
    let got = cone.walled(wall, 900.0);
    let cut = wall * (R * R + L * L).sqrt() / L;
    let (inner_r, inner_l) = (R - cut, L * (R - cut) / R);
    let inner = Section::nose(NoseShape::Cone, inner_l, inner_r).unwrap().solid(-900.0).shifted(L - inner_l);
    let want = combine([cone.solid(900.0), inner]);
    assert_close(got.mass, want.mass, 1e-11);
    assert_close(got.x, want.x, 1e-11);
    assert_close(got.i_axial, want.i_axial, 1e-11);
    assert_close(got.i_transverse, want.i_transverse, 1e-10);
}

/// A wall that gets thinner tends to the skin: [own] areas and centroids of table 2.2; and a
/// hemisphere's wall is the exact difference of two spheres [mem].
#[test]
fn walls_of_curved_noses() {
    for shape in [
        NoseShape::Ogive,
        NoseShape::Ellipsoid,
        NoseShape::Power { n: 0.5 },
        NoseShape::Parabola { k: 0.75 },
        NoseShape::Haack { c: 0.0 },
    ] {
        let section = Section::nose(shape, L, R).unwrap();
        let geometry = section.geometry();
        let thin = 1e-6;
        let wall = section.walled(thin, 1.0);
        assert_close(wall.mass / thin, geometry.wetted_area, 2e-4);
        assert_close(wall.x, geometry.wetted_centroid, 2e-4);
    }
    let (r, t): (f64, f64) = (1.0, 0.02);
    let hemisphere = Section::nose(NoseShape::Ellipsoid, r, r).unwrap();
    let exact = 2.0 / 3.0 * PI * (1.0 - (r - t).powi(3));
    assert_close(hemisphere.walled(t, 1.0).mass, exact, 1e-10);
    // As thick as the radius it is solid.
    assert_close(hemisphere.walled(2.0, 1.0).mass, hemisphere.solid(1.0).mass, 1e-12);
}

/// [own] The inner side of an ogive taper is the arc about the same centre: by scipy's quad from 30 to 50 mm on 60 mm,
/// and from 20 to 50 mm on 30.5 mm, where a wall of 2 mm ends that arc before the narrow end. An ogive taper from a
/// point is the ogive nose.
#[test]
fn walls_of_ogive_tapers() {
    for (length, fore, wall, mass, x, axial) in [
        (0.06, 0.03, 0.002, 3.4143140122e-05, 3.1313097281e-02, 6.4364151965e-08),
        (0.06, 0.03, 0.0005, 8.6901302408e-06, 3.1264411476e-02, 1.6959990120e-08),
        (0.0305, 0.02, 0.002, 2.2297146105e-05, 1.3686242265e-02, 3.7999043170e-08),
        (0.09, 0.01, 0.008, 1.6283685287e-04, 5.2041519135e-02, 2.3791245888e-07),
    ] {
        let got = Section::taper(TaperShape::Ogive, length, fore, 0.05).unwrap().walled(wall, 1.0);
        assert_close(got.mass, mass, 1e-9);
        assert_close(got.x, x, 1e-9);
        assert_close(got.i_axial, axial, 1e-9);
    }
    let taper = Section::taper(TaperShape::Ogive, L, 0.0, R).unwrap();
    let nose = Section::nose(NoseShape::Ogive, L, R).unwrap();
    for wall in [0.0005, 0.002, 0.02, 0.2] {
        let (taper, nose) = (taper.walled(wall, 900.0), nose.walled(wall, 900.0));
        assert_close(taper.mass, nose.mass, 1e-9);
        assert_close(taper.x, nose.x, 1e-9);
        assert_close(taper.i_transverse, nose.i_transverse, 1e-9);
    }
}

/// A taper turned round is the same body seen from the other end.
#[test]
fn tapers_mirror() {
    for shape in [TaperShape::Straight, TaperShape::Ogive] {
        let wider = Section::taper(shape, L, 0.03, 0.05).unwrap();
        let narrower = Section::taper(shape, L, 0.05, 0.03).unwrap();
        for (a, b) in [(wider.solid(1.0), narrower.solid(1.0)), (wider.walled(0.001, 1.0), narrower.walled(0.001, 1.0))]
        {
            assert_close(a.mass, b.mass, 1e-12);
            assert_close(a.x, L - b.x, 1e-12);
            assert_close(a.i_axial, b.i_axial, 1e-12);
            assert_close(a.i_transverse, b.i_transverse, 1e-11);
        }
        let (a, b) = (wider.geometry(), narrower.geometry());
        assert_close(a.wetted_area, b.wetted_area, 1e-12);
        assert_close(a.planform_centroid, L - b.planform_centroid, 1e-12);
    }
    let ogive = Section::taper(TaperShape::Ogive, L, 0.03, 0.05).unwrap();
    let straight = Section::taper(TaperShape::Straight, L, 0.03, 0.05).unwrap();
    assert!(ogive.geometry().volume > straight.geometry().volume);
}

/// [mem] Parallel-axis theorem: two halves of a cylinder make the whole, points make a dumb-bell.
#[test]
fn combining() {
    let half = Section::cylinder(L / 2.0, R).unwrap().solid(500.0);
    let whole = Section::cylinder(L, R).unwrap().solid(500.0);
    let both = combine([half, half.shifted(L / 2.0)]);
    assert_close(both.mass, whole.mass, 1e-13);
    assert_close(both.x, whole.x, 1e-13);
    assert_close(both.i_transverse, whole.i_transverse, 1e-12);
    let bell = combine([MassProps::point(1.0, 0.0), MassProps::point(3.0, 4.0)]);
    assert_eq!((bell.mass, bell.x), (4.0, 3.0));
    assert_close(bell.i_transverse, 0.75 * 16.0, 1e-14);
    let off = MassProps::point_off_axis(2.0, 1.0, 0.1);
    assert_close(off.i_axial, 0.02, 1e-14);
    assert_close(off.i_transverse, 0.01, 1e-14);
    assert_eq!(MassProps::point(2.0, 1.0).off_axis(0.1), off);
    assert_eq!(combine([]), MassProps::ZERO);
}

#[test]
fn impossible_shapes_are_errors() {
    assert!(matches!(
        Section::nose(NoseShape::Ogive, 0.04, 0.05),
        Err(SectionError::Nose(NoseError::OgiveTooShort { .. }))
    ));
    assert!(matches!(
        Section::nose(NoseShape::Haack { c: 0.7 }, L, R),
        Err(SectionError::Nose(NoseError::Parameter { .. }))
    ));
    assert!(matches!(Section::nose(NoseShape::Cone, f64::NAN, R), Err(SectionError::Nose(NoseError::Size { .. }))));
    assert!(matches!(Section::taper(TaperShape::Ogive, 0.01, 0.05, 0.03), Err(SectionError::OgiveTooShort { .. })));
    assert!(matches!(Section::cylinder(L, 0.0), Err(SectionError::Size { .. })));
}
