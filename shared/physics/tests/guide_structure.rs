//! Beams, guide loads and clearances: physics.md's section 6.
//!
//! [mem] formulas (Roark; Timoshenko; Blevins; the drawer rule), [own] numbers.
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::beam::{
    round_second_moment, square_second_moment, tube_second_moment, wind_load, Cantilever, ROUND_CD,
};
use finwright_physics::beside_rod::{angle_to_fin, overlap, rail_distance, rod_distance, LugOnBody};
use finwright_physics::reactions::{
    binding_spacing, easy_spacing, lifted_level, slop_angle, time_over, two_guides, wind_side_force, Lean, OnLastGuide,
};

const INCH: f64 = 0.0254;

/// [own] Round rods by diameter, in mm⁴.
#[test]
fn round_rods() {
    for (inch, mm4) in [
        (0.125, 4.988211),
        (0.1875, 25.252818),
        (0.25, 79.811376),
        (0.3125, 194.851993),
        (0.375, 404.045092),
        (0.5, 1276.982020),
        (0.75, 6464.721478),
        (1.0, 20431.712326),
    ] {
        assert_near(round_second_moment(inch * INCH) * 1e12, mm4, 6e-7 * mm4.max(1.0));
    }
    for (mm, mm4) in [
        (3.0, 3.976078),
        (4.0, 12.566371),
        (5.0, 30.679616),
        (6.0, 63.617251),
        (8.0, 201.061930),
        (10.0, 490.873852),
        (12.0, 1017.876020),
    ] {
        assert_near(round_second_moment(mm), mm4, 6e-7);
    }
    // 1/4 in round and 1 in square, in inch⁴.
    assert_near(round_second_moment(0.25), 0.000192, 5e-7);
    assert_near(square_second_moment(1.0), 0.083333, 5e-7);
    assert_close(tube_second_moment(0.02, 0.016), PI * (0.02f64.powi(4) - 0.016f64.powi(4)) / 64.0, 1e-12);
}

struct Rod {
    inch: f64,
    modulus: f64,
    density: f64,
    length: f64,
    tip_mass: f64,
}

impl Rod {
    fn beam(&self) -> Cantilever {
        let d = self.inch * INCH;
        Cantilever {
            length: self.length,
            modulus: self.modulus,
            second_moment: round_second_moment(d),
            mass_per_length: self.density * 0.25 * PI * d * d,
        }
    }
}

const NOT_TABLED: f64 = -1.0;

/// [own] Rod cases: EI, bend and slope per N at the tip, bend in a wind of 8.94 m/s (20 mph, rounded), bare frequency,
/// frequency with the rocket at the tip (exact), bend under the rocket at 5 degrees of tilt.
/// Moduli and densities: steel 200 GPa and 7850, 304 193 GPa and 8000, glass rod 41 GPa and 1900.
#[test]
fn rods() {
    let rod = |inch, length, tip_mass| Rod { inch, modulus: 200e9, density: 7850.0, length, tip_mass };
    let steel_304 = Rod { modulus: 193e9, density: 8000.0, ..rod(0.125, 0.9144, 0.1) };
    let glass = Rod { modulus: 41e9, density: 1900.0, ..rod(0.125, 0.9144, 0.1) };
    #[rustfmt::skip]
    let rows = [
        (rod(0.125, 0.9144, 0.1), 0.997642, 255.454, 24.010, 16.337522, 2.681405, 0.934926, 21.833797),
        (steel_304, 0.962725, 264.719, 24.881, 16.930074, 2.609251, 0.917378, 22.625696),
        (rod(0.1875, 0.9144, 0.2), 5.050564, 50.460035, 4.742695, 4.840747, 4.022107, 1.476528, 8.625698),
        (rod(0.1875, 1.2192, 0.3), 5.050564, 119.609, 8.431, 15.299151, 2.262435, 0.788844, 30.669147),
        (rod(0.25, 1.2192, 0.5), 15.962275, 37.845026, 2.667766, 6.454330, 3.016580, 1.082007, 16.173183),
        (rod(0.375, 1.524, 1.5), 80.809018, 14.600705, 0.823385, 4.668931, 2.895917, 1.009720, 18.718962),
        (rod(0.5, 1.8288, 3.0), 255.396404, 7.982935, 0.375155, 4.084380, 2.681405, 0.961784, 20.469185),
        (glass, 0.204517, 1246.0, NOT_TABLED, 79.695, 2.467728, 0.443717, NOT_TABLED),
    ];
    for (rod, stiffness, tip, slope, windy, bare, loaded, tilted) in &rows {
        let beam = rod.beam();
        assert_near(beam.stiffness(), *stiffness, 6e-7);
        let push = beam.tip_load(1.0);
        assert_close(push.tip * 1e3, *tip, 3e-4);
        let wind = wind_load(1.225, 8.94, ROUND_CD, rod.inch * INCH);
        assert_close(beam.even_load(wind).tip * 1e3, *windy, 1e-5);
        assert_near(beam.first_frequency(0.0), *bare, 6e-7);
        assert_near(beam.first_frequency(rod.tip_mass), *loaded, 6e-7);
        if *slope != NOT_TABLED {
            assert_near(push.slope.to_degrees(), *slope, 6e-4);
            let load = rod.tip_mass * 9.80665 * 5f64.to_radians().sin();
            assert_close(beam.tip_load(load).tip * 1e3, *tilted, 1e-6);
        }
    }
    // Root stress of the first row, 24.87 MPa; its 1 N bend lies beyond linear theory.
    let first = &rows[0].0;
    let beam = first.beam();
    let load = first.tip_mass * 9.80665 * 5f64.to_radians().sin();
    let bend = beam.tip_load(load);
    let stress = beam.stress(bend.root_moment, 0.5 * first.inch * INCH);
    assert_near(stress / 1e6, 24.87, 5e-3);
    assert!(beam.is_beyond_linear(beam.tip_load(1.0).tip));
    assert!(!beam.is_beyond_linear(bend.tip));
}

/// [own] A load of 2 N at 0.8 m on a 1.2 m rod of 1/4 in steel.
#[test]
fn load_part_way_up() {
    let beam = Cantilever {
        length: 1.2,
        modulus: 200e9,
        second_moment: round_second_moment(0.25 * INCH),
        mass_per_length: 0.0,
    };
    let bend = beam.load_at(2.0, 0.8);
    assert_near(bend.tip * 1e3, 37.421566, 1e-6);
    assert_near(bend.slope.to_degrees(), 2.297248, 1e-6);
    assert_near(beam.movement_at_load(2.0, 0.8) * 1e3, 21.383752, 1e-6);
    assert_close(bend.root_moment, 1.6, 1e-14);
    let both = bend + beam.even_load(0.5);
    assert_close(both.root_moment, 1.6 + 0.25 * 1.44, 1e-14);
    // [mem] A mass on a massless beam: √(3EI/ML³)/2π.
    let want = (3.0 * beam.stiffness() / (0.4 * 1.2f64.powi(3))).sqrt() / (2.0 * PI);
    assert_close(beam.first_frequency(0.4), want, 1e-14);
    let light = Cantilever { mass_per_length: 1e-9, ..beam };
    assert_close(light.first_frequency(0.4), want, 1e-6);
}

/// [own] Rails as beams: 10 N at the tip, EI as tabled.
#[test]
fn rails() {
    for (mm4, stiffness, length, tip) in
        [(18314.0, 1261.85, 8.0 * 0.3048, 38.298947), (104058.0, 7169.59, 10.0 * 0.3048, 13.165263)]
    {
        let beam = Cantilever { length, modulus: 68.9e9, second_moment: mm4 * 1e-12, mass_per_length: 1.0 };
        assert_close(beam.stiffness(), stiffness, 2e-5);
        assert_close(beam.tip_load(10.0).tip * 1e3, tip, 2e-5);
    }
}

/// [own] 6.2: guides on either side of the force's station, and both behind it.
#[test]
fn guide_reactions() {
    let force = wind_side_force(1.225, 8.0, 1.6 * 0.098);
    assert_near(force, 7.375872, 1e-6);
    assert_near(wind_side_force(1.225, 5.0, 0.3 * 0.0248), 0.13671, 1e-6);
    assert_near(wind_side_force(1.225, 5.0, 1.0 * 0.054), 0.99225, 1e-6);
    let loads = two_guides(force, 0.85, 0.95, 1.52).unwrap();
    assert_near(loads.front, 8.669885, 1e-6);
    assert_near(loads.aft, -1.294013, 1e-6);
    assert_near(loads.friction(0.2), 1.992779, 1e-6);
    let level = lifted_level(3.0, 1.2, 0.95, 1.52).unwrap();
    assert_close(level.front + level.aft, 3.0 * 9.80665, 1e-14);
    assert_close(level.front * 0.25, level.aft * 0.32, 1e-12);
    assert_eq!(two_guides(1.0, 0.5, 0.9, 0.9), None);
}

/// [mem] The drawer rule, [own] numbers, in mm.
#[test]
fn binding_and_slop() {
    assert_near(binding_spacing(0.3, 14.65), 8.79, 1e-9);
    assert_near(binding_spacing(0.3, 30.0), 18.0, 1e-9);
    assert_near(binding_spacing(0.4, 50.0), 40.0, 1e-9);
    assert_near(easy_spacing(0.3, 30.0), 36.0, 1e-9);
    assert_near(slop_angle(0.4, 30.0).to_degrees(), 0.763898, 1e-6);
    assert_near(slop_angle(0.4, 50.0).to_degrees(), 0.458356, 1e-6);
    assert_near(slop_angle(0.8, 570.0).to_degrees(), 0.080415, 1e-6);
}

/// [own] 6.2: tip-off on the aft guide, the forces held.
#[test]
fn tip_off() {
    let time = time_over(1.52 - 0.95, 15.0, 56.860017).unwrap();
    assert_near(time, 0.035598, 1e-6);
    let on_guide = OnLastGuide {
        mass: 3.0,
        balance: 1.0,
        inertia: 0.45,
        last_guide: 1.52,
        reference_area: 0.25 * PI * 0.098 * 0.098,
        cna: 12.0,
        pressure: 1.18,
        time,
        speed: 15.0,
        acceleration: 0.0,
        wind: 5.0,
        density: 1.225,
        lean: Lean::default(),
    };
    let turn = on_guide.held();
    assert_near(turn.inertia, 1.261200, 1e-9);
    assert_near(turn.normal_force, 4.459526, 1e-6);
    assert_near(turn.moment, 1.516239, 1e-6);
    assert_near(turn.angle.to_degrees(), 0.043645, 1e-6);
    assert_near(turn.rate.to_degrees(), 2.452076, 1e-6);
    // A centre of pressure behind the guide turns the nose into the wind.
    let behind = OnLastGuide { pressure: 1.6, ..on_guide };
    assert!(behind.tip_off().rate < 0.0);
    assert_eq!((turn.angle_across, turn.rate_across), (0.0, 0.0));
    assert_eq!(time_over(1.0, 1.0, -5.0), None);
    assert_close(time_over(1.0, 4.0, 0.0).unwrap(), 0.25, 1e-14);
}

/// [own] The same with the weight: m g sin 5° (x_guide − x_balance) = 3 · 9.80665 · 0.0871557 · 0.52 = 1.333341 N m.
#[test]
fn tip_off_of_a_leaning_guide() {
    let upright = OnLastGuide {
        mass: 3.0,
        balance: 1.0,
        inertia: 0.45,
        last_guide: 1.52,
        reference_area: 0.25 * PI * 0.098 * 0.098,
        cna: 12.0,
        pressure: 1.18,
        time: 0.035598,
        speed: 15.0,
        acceleration: 0.0,
        wind: 5.0,
        density: 1.225,
        lean: Lean::default(),
    };
    let of = |into_wind: f64, across: f64| {
        let lean = Lean { into_wind: into_wind.to_radians(), across: across.to_radians() };
        OnLastGuide { lean, ..upright }.held()
    };
    assert_near(of(5.0, 0.0).moment, 1.516239 - 1.333341, 2e-6);
    assert_near(of(-5.0, 0.0).moment, 1.516239 + 1.333341, 2e-6);
    // The wind alone downwind, the weight alone to the side.
    let across = of(0.0, 5.0);
    assert_near(across.moment, 1.516239, 1e-6);
    assert_near(across.rate_across, 1.333341 / 1.2612 * 0.035598, 1e-7);
    assert_near(across.angle_across, 0.5 * across.rate_across * 0.035598, 1e-12);
    // A vector of 3 and 4 is one angle of 5.
    let both = of(3.0, 4.0);
    assert_near(1.516239 - both.moment, 0.6 * 1.333341, 2e-6);
    assert_near(both.rate_across / across.rate_across, 0.8, 1e-12);
    // A balance point behind the guide falls the other way.
    let behind = OnLastGuide { balance: 1.6, ..upright };
    let lean = Lean { into_wind: 0.1, across: 0.0 };
    assert!(OnLastGuide { lean, ..behind }.tip_off().moment > behind.tip_off().moment);
}

/// [own] 6.3: a body wider than where the lug sits, in mm.
#[test]
fn standoff() {
    let lug = LugOnBody { body_radius: 20.8, outer: 8.5, bore: 6.75, rod: 6.35 };
    let standoff = lug.least_standoff(33.0, 2.0);
    assert_near(standoff, 13.325, 1e-9);
    // At that standoff the rod's near side, at full play, is just the clearance off the body.
    let near = lug.axis_distance(standoff) - 0.5 * lug.rod - lug.play();
    assert_near(near, 35.0, 1e-9);
    assert!(lug.least_standoff(20.8, 2.0) < 2.0);
}

/// [own] 6.3: fins beside a rail and a rod with the guide in the middle of the gap, in mm.
#[test]
fn fins_beside_the_guide() {
    for (count, narrow, broad, sine) in [
        (3, 9.064, 12.731, 6.553),
        (4, 14.821, 21.171, 8.026),
        (5, 20.032, 28.772, 9.655),
        (6, 24.997, 35.996, 11.350),
        (8, 34.580, 49.910, 14.829),
    ] {
        let angle = PI / f64::from(count);
        assert_near(rail_distance(25.4, 3.0, angle), narrow, 6e-4);
        assert_near(rail_distance(38.1, 3.0, angle), broad, 6e-4);
        assert_near(rod_distance(3.175, 1.0, 3.0, angle), sine, 6e-4);
        assert_close(angle_to_fin(0.3 + angle, 0.3, count).unwrap(), angle, 1e-12);
    }
    assert_eq!(rail_distance(25.4, 3.0, 0.5 * PI), 0.0);
    assert_near(angle_to_fin(350f64.to_radians(), 0.0, 3).unwrap(), 10f64.to_radians(), 1e-12);
    assert_eq!(angle_to_fin(1.0, 0.0, 0), None);
    assert_eq!(overlap((1.0, 3.0), (2.0, 5.0)), 1.0);
    assert_eq!(overlap((1.0, 2.0), (2.5, 5.0)), -0.5);
}
