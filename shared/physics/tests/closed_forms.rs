//! Closed forms a calculator can check: boost and coast, guide exit, swing, descent.
//!
//! [own] numbers, each confirmed by an independent integrator; [mem] published formulas.
#![allow(clippy::unwrap_used)]

use std::f64::consts::PI;

use crate::common::{assert_close, assert_near};
use finwright_physics::closed_form::{boost, coast, exit_speed, guide_acceleration, travel_for_speed};
use finwright_physics::descent::{
    canopy_diameter, descent_speed, drift, fall_time, kinetic_energy, polygon_area, round_area,
};
use finwright_physics::normal_force::{total, NormalForce};
use finwright_physics::stability::{
    aerodynamic_damping, angle_of_attack, corrective_moment, jet_damping, normal_slope, Stream, Swing, Swinging,
};

/// [own] F1 to F4.
#[test]
fn f1_to_f4() {
    #[rustfmt::skip]
    let rows = [
        (0.100, 6.0, 0.85, 2.219016847e-4, 41.555595, 17.894251, 74.321910, 3.787177),
        (0.500, 30.0, 2.0, 7.715182144e-4, 91.161592, 95.594991, 270.963712, 6.928162),
        (3.0, 200.0, 3.0, 2.310032713e-3, 151.220419, 240.644354, 667.541349, 10.698552),
        (0.060, 3.0, 1.2, 9.878492662e-5, 46.756207, 28.490951, 94.945012, 4.286687),
    ];
    for (mass, thrust, burn, k, v, h, rise, time) in rows {
        let (speed, height) = boost(mass, thrust, k, burn);
        assert_near(speed, v, 1e-6);
        assert_near(height, h, 1e-6);
        let (more, coasting) = coast(mass, k, speed);
        assert_near(more, rise, 1e-6);
        assert_near(coasting, time, 1e-6);
    }
}

/// [own] G1 to G3 with the exact drag form.
#[test]
fn guide_exit() {
    for (mass, thrust, travel, k, a, v, dragged) in [
        (0.1, 6.0, 0.9, 2.219016847e-4, 50.193350, 9.505158, 9.495675),
        (3.0, 200.0, 2.0, 2.310032713e-3, 56.860017, 15.081116, 15.069511),
    ] {
        let acceleration = guide_acceleration(mass, thrust, 0.0, 0.0);
        assert_near(acceleration, a, 1e-6);
        assert_near(exit_speed(mass, acceleration, 0.0, travel), v, 1e-6);
        assert_near(exit_speed(mass, acceleration, k, travel), dragged, 1e-6);
    }
    let tilted = guide_acceleration(0.5, 30.0, 5f64.to_radians(), 0.2);
    assert_near(tilted, 50.059726, 1e-6);
    assert_near(travel_for_speed(13.4112, 5.0), 2.292581, 1e-6);
    assert_near(travel_for_speed(20.0, 10.0), 2.266036, 1e-6);
}

/// [own] Section 9: R1 at release. The swing from the eigenvalues of θ″ = (−C2 θ′ − C1 (θ − γ))/I, γ′ = L (θ − γ)/(m v)
/// by numpy 2.4 (an outside library): −2.420979532 ± 13.158150056 i.
#[test]
fn r1_swing_at_release() {
    let parts = [NormalForce::at(2.0, 0.032333682), NormalForce::at(15.673347, 0.271666667)];
    let stream = Stream { density: 1.225, speed: 17.405550, reference_area: PI * 0.0124 * 0.0124 };
    let balance = 0.216144654;
    let c1 = corrective_moment(&stream, total(parts), balance);
    let c2a = aerodynamic_damping(&stream, parts, balance);
    let c2r = jet_damping(0.01, 0.300, balance);
    assert_near(c1, 0.045049708, 2e-9);
    assert_near(c2a, 5.968011e-4, 5e-11);
    assert_near(c2r, 7.031719e-5, 5e-12);
    let normal = normal_slope(&stream, total(parts));
    assert_near(normal, 1.584140302, 1e-9);
    let swing = Swing::of(&Swinging {
        corrective: c1,
        damping: c2a + c2r,
        inertia: 2.601662e-4,
        normal,
        mass: 0.039957488,
        speed: stream.speed,
    })
    .unwrap();
    assert_near(swing.decay, 2.420979532, 1e-8);
    assert_near(swing.damped().unwrap(), 13.158150056, 1e-7);
    assert_near(swing.natural, 13.379015464, 1e-7);
    assert_near(swing.damping_ratio, 0.180953489, 1e-8);
    assert_near(swing.period().unwrap(), 0.477512818, 1e-8);
    assert_near(swing.wavelength(stream.speed).unwrap(), 8.311373222, 1e-7);
    assert_near(swing.overshoot().unwrap(), 0.561005607, 1e-8);
}

/// [own] Section 9: the single case; the swing by numpy's eigenvalues as above.
#[test]
fn single_case_swing() {
    let parts = [NormalForce::at(2.0, 0.0323805), NormalForce::at(14.3, 0.28)];
    let stream = Stream { density: 1.225, speed: 15.0, reference_area: PI * 0.0124 * 0.0124 };
    let corrective = corrective_moment(&stream, total(parts), 0.19);
    let damping = aerodynamic_damping(&stream, parts, 0.19);
    assert_near(corrective, 0.064690621, 1e-9);
    assert_near(damping, 7.345736e-4, 5e-11);
    let normal = normal_slope(&stream, total(parts));
    let body = Swinging { corrective, damping, inertia: 4e-4, normal, mass: 0.06, speed: 15.0 };
    let swing = Swing::of(&body).unwrap();
    assert_near(swing.natural, 12.803932133, 1e-7);
    assert_near(swing.damping_ratio, 0.118795536, 1e-8);
    let alpha = angle_of_attack(5.0, 15.0).to_degrees();
    assert_near(alpha, 18.434949, 1e-6);
    assert_near(swing.overshoot().unwrap(), 0.686692420, 1e-8);
    // Pinned at its balance point it would have three fifths of that damping.
    let pinned = damping / (2.0 * (corrective * 4e-4).sqrt());
    assert_near(pinned, 0.072203, 1e-6);
    // A rocket too heavy to give way swings as a pinned one.
    let heavy = Swing::of(&Swinging { mass: 1e9, ..body }).unwrap();
    assert_near(heavy.damping_ratio, pinned, 1e-8);
    assert_near(heavy.natural, 12.717175, 1e-6);
}

/// [own] Angles of attack at R1's release speed; [cp] the quarter and fifth rules as angles.
#[test]
fn angles_of_attack() {
    for (wind, degrees) in [(2.0, 6.554874), (4.0, 12.942520), (6.0, 19.019976), (8.9408, 27.188443)] {
        assert_near(angle_of_attack(wind, 17.405550).to_degrees(), degrees, 1e-5);
    }
    assert_near(angle_of_attack(1.0, 4.0).to_degrees(), 14.0362, 5e-5);
    assert_near(angle_of_attack(1.0, 5.0).to_degrees(), 11.3099, 5e-5);
}

#[test]
fn no_swing_without_stability() {
    let body = Swinging { corrective: 1e-4, damping: 1.0, inertia: 1e-4, normal: 1.0, mass: 0.1, speed: 15.0 };
    assert_eq!(Swing::of(&Swinging { corrective: -0.01, ..body }), None);
    assert_eq!(Swing::of(&Swinging { mass: 0.0, ..body }), None);
    assert_eq!(Swing::of(&Swinging { speed: f64::NAN, ..body }), None);
    let overdamped = Swing::of(&body).unwrap();
    assert_eq!(overdamped.damped(), None);
    assert_eq!(overdamped.overshoot(), None);
}

/// [own] Descent at sea level and at a density of 1.007; [mem] Knacke's drag coefficients.
#[test]
fn descent_cases() {
    for (mass, cd, diameter, density, speed) in [
        (0.09, 0.75, 0.305, 1.225, 5.128060),
        (0.09, 1.5, 0.305, 1.225, 3.626086),
        (0.5, 0.75, 0.61, 1.225, 6.043477),
        (0.5, 0.75, 0.61, 1.007, 6.665615),
        (3.0, 1.5, 1.22, 1.225, 5.233805),
    ] {
        let got = descent_speed(mass, density, cd * round_area(diameter));
        assert_near(got, speed, 1e-6);
        assert_close(canopy_diameter(mass, density, cd, got), diameter, 1e-12);
    }
    assert_near(kinetic_energy(0.09, 5.128060), 1.183365, 1e-6);
    assert_near(kinetic_energy(0.5, 6.043477), 9.130904, 2e-6);
    assert_near(kinetic_energy(3.0, 5.233805), 41.089, 5e-4);
    assert_near(canopy_diameter(0.5, 1.225, 0.75, 5.0), 0.737304, 1e-6);
    assert_near(canopy_diameter(3.0, 1.225, 1.5, 5.5), 1.160953, 1e-6);
    assert_near(fall_time(100.0, 5.0), 20.353407, 1e-6);
    assert_near(drift(100.0, 5.128060, 5.0), 97.50, 5e-3);
    // [mem] A regular polygon tends to its circle; a square is its own width squared.
    assert_close(polygon_area(4, 0.5), 0.25, 1e-14);
    assert_close(polygon_area(4096, 0.5), round_area(0.5), 1e-6);
    // A long fall at once and in one go: no overflow.
    assert_near(fall_time(1e5, 5.0), 1e5 / 5.0 + 5.0 / 9.80665 * 2f64.ln(), 1e-6);
}
