//! Thrust curves and impulse classes; standard and site air: physics.md's section 3 and 7.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assert_near};
use finwright_physics::air::{standard, Air, Atmosphere, Wind};
use finwright_physics::motor::{CurveError, ImpulseClass, ThrustCurve};

fn curve(points: &[(f64, f64)]) -> ThrustCurve {
    ThrustCurve::new(points.to_vec()).unwrap()
}

/// An invented curve; areas of trapezia by hand.
#[test]
fn impulse_of_straight_lines_is_exact() {
    let c = curve(&[(0.0, 0.0), (0.5, 8.0), (1.0, 4.0), (2.0, 4.0), (2.5, 0.0)]);
    assert_eq!(c.total_impulse(), 2.0 + 3.0 + 4.0 + 1.0);
    assert_eq!(c.peak(), (0.5, 8.0));
    assert_eq!(c.burn(), (0.0, 2.5));
    assert_eq!(c.average_thrust(), 4.0);
    assert_eq!(c.thrust(0.25), 4.0);
    assert_eq!(c.thrust(1.5), 4.0);
    assert_eq!(c.thrust(2.25), 2.0);
    assert_eq!((c.thrust(-1.0), c.thrust(3.0)), (0.0, 0.0));
    assert_eq!(c.impulse_to(0.25), 0.5);
    assert_eq!(c.impulse_to(1.5), 7.0);
    assert_eq!(c.impulse_to(2.25), 9.75);
    assert_eq!((c.impulse_to(-1.0), c.impulse_to(9.0)), (0.0, 10.0));
    assert_eq!(c.burnt_share(1.5), 0.7);
    // 5 % of the 8 N peak is 0.4 N: reached at 0.025 s, left 0.05 s before the end.
    let (start, end) = c.rated_burn();
    assert_near(start, 0.025, 1e-12);
    assert_near(end, 2.45, 1e-12);
    assert_near(c.rated_average_thrust(), (10.0 - 0.005 - 0.01) / 2.425, 1e-12);
}

/// Thrust that starts late or stops short of zero.
#[test]
fn burn_without_zero_ends() {
    let c = curve(&[(0.0, 0.0), (1.0, 0.0), (1.5, 6.0), (3.0, 6.0)]);
    assert_eq!(c.burn(), (1.0, 3.0));
    assert_eq!(c.thrust(3.0), 6.0);
    assert_eq!(c.thrust(3.0 + 1e-9), 0.0);
    assert_eq!(c.impulse_to(0.7), 0.0);
    assert_eq!(curve(&[(0.2, 5.0), (1.2, 5.0)]).burn(), (0.2, 1.2));
}

#[test]
fn scaled_curve_is_the_curve_of_scaled_points() {
    let plain = curve(&[(0.0, 0.0), (0.1, 12.0), (1.5, 0.0)]);
    assert_eq!(plain.scaled(2.0), Some(curve(&[(0.0, 0.0), (0.1, 24.0), (1.5, 0.0)])));
    assert_eq!((plain.scaled(0.0), plain.scaled(f64::NAN)), (None, None));
}

#[test]
fn impossible_curves_are_errors() {
    let try_curve = |points: &[(f64, f64)]| ThrustCurve::new(points.to_vec());
    assert_eq!(try_curve(&[]), Err(CurveError::TooFewPoints(0)));
    assert_eq!(try_curve(&[(0.0, 1.0), (0.5, 2.0), (0.5, 3.0)]), Err(CurveError::TimeNotRising { index: 2 }));
    assert_eq!(try_curve(&[(0.0, 1.0), (0.5, -2.0)]), Err(CurveError::NegativeThrust { index: 1 }));
    assert_eq!(try_curve(&[(-0.1, 1.0), (0.5, 2.0)]), Err(CurveError::BeforeIgnition(-0.1)));
    assert_eq!(try_curve(&[(0.0, f64::NAN), (0.5, 2.0)]), Err(CurveError::NotFinite { index: 0 }));
    assert_eq!(try_curve(&[(0.0, 0.0), (0.5, 0.0)]), Err(CurveError::NoImpulse));
}

/// [std] NFPA 1125 letters as printed from A to O; [mem] the letters below A.
#[test]
fn impulse_classes() {
    let letter = |impulse: f64| ImpulseClass::of(impulse).map(|class| class.letter);
    for (letter_wanted, least, most) in [
        ("1/4A", 0.3126, 0.625),
        ("1/2A", 0.626, 1.25),
        ("A", 1.26, 2.50),
        ("B", 2.51, 5.0),
        ("C", 5.01, 10.0),
        ("D", 10.01, 20.0),
        ("E", 20.01, 40.0),
        ("F", 40.01, 80.0),
        ("G", 80.01, 160.0),
        ("H", 160.01, 320.0),
        ("I", 320.01, 640.0),
        ("J", 640.01, 1280.0),
        ("K", 1280.01, 2560.0),
        ("L", 2560.01, 5120.0),
        ("M", 5120.01, 10240.0),
        ("N", 10240.01, 20480.0),
        ("O", 20480.01, 40960.0),
    ] {
        assert_eq!(letter(least), Some(letter_wanted));
        assert_eq!(letter(most), Some(letter_wanted));
    }
    assert_eq!(letter(0.3125), Some("1/8A"));
    assert_eq!((letter(0.0), letter(40960.1)), (None, None));
    assert_eq!(ImpulseClass::of(15.0).unwrap().share(15.0), 0.5);
}

/// [own, three packages agree to 2e-6 of T, p, rho and a] US Standard Atmosphere 1976 by geometric
/// altitude. The packages round the sea-level density to 1.225, whence the share.
#[test]
fn standard_air_by_geometric_altitude() {
    for (z, t, p, rho, a) in [
        (0.0, 288.15, 101325.0, 1.22500, 340.294),
        (500.0, 284.9003, 95461.29, 1.167273, 338.3698),
        (1000.0, 281.6510, 89876.28, 1.111660, 336.4347),
        (1500.0, 278.4023, 84559.67, 1.058104, 334.4888),
        (2000.0, 275.1541, 79501.42, 1.006553, 332.5317),
        (3000.0, 268.6592, 70121.15, 0.909254, 328.5836),
        (5000.0, 255.6755, 54048.27, 0.736428, 320.5455),
        (11000.0, 216.7735, 22699.95, 0.364801, 295.1536),
    ] {
        let air = standard(z);
        assert_near(air.temperature, t, 6e-5);
        assert_close(air.pressure, p, 2e-6);
        assert_close(air.density, rho, 2e-6);
        assert_near(air.sound_speed, a, 3e-4);
    }
}

/// [own] The table by geopotential altitude H, with viscosity: Z = r0 H/(r0 − H).
#[test]
fn standard_air_by_geopotential_altitude() {
    for (h, t, p, rho, a, mu) in [
        (0.0, 288.150, 101325.0, 1.22500, 340.294, 1.78938e-5),
        (500.0, 284.900, 95460.84, 1.167268, 338.3696, 1.77366e-5),
        (1000.0, 281.650, 89874.57, 1.111642, 336.4341, 1.75785e-5),
        (1500.0, 278.400, 84556.00, 1.058067, 334.4874, 1.74195e-5),
        (2000.0, 275.150, 79495.22, 1.006490, 332.5293, 1.72596e-5),
        (3000.0, 268.650, 70108.54, 0.909121, 328.5780, 1.69372e-5),
        (5000.0, 255.650, 54019.91, 0.736115, 320.5295, 1.62812e-5),
        (11000.0, 216.650, 22632.06, 0.363918, 295.0696, 1.42161e-5),
    ] {
        let earth = 6_356_766.0;
        let air = standard(earth * h / (earth - h));
        assert_near(air.temperature, t, 6e-4);
        assert_near(air.pressure, p, 6e-3);
        assert_near(air.density, rho, 1e-6);
        assert_near(air.sound_speed, a, 3e-4);
        assert_near(air.viscosity, mu, 6e-11);
    }
}

/// [own] A hot day at 1500 m, 308.15 K: 9.7 % thinner than standard.
#[test]
fn hot_day() {
    let site = Atmosphere::standard(1500.0).with_temperature(308.15);
    let air = site.at(0.0);
    assert_near(air.density, 0.955958, 1e-6);
    assert_near(1.0 - air.density / standard(1500.0).density, 0.097, 5e-4);
    assert_close(air.temperature, 308.15, 1e-14);
    // The offset is the same higher up, and a pressure reading scales the whole column.
    let offset = 308.15 - standard(1500.0).temperature;
    assert_near(site.at(500.0).temperature - standard(2000.0).temperature, offset, 1e-10);
    let low = Atmosphere::standard(1500.0).with_pressure(83_000.0);
    assert_close(low.at(0.0).pressure, 83_000.0, 1e-14);
    assert_close(low.at(800.0).pressure / standard(2300.0).pressure, 83_000.0 / standard(1500.0).pressure, 1e-13);
}

/// [own] Air in balance with its own weight over a site that isn't standard: ln p from ∫ g/(R T) dh over geopotential
/// height, by scipy's quad (an outside library), 1000 m over the site; the last lies in the layer above the site's.
#[test]
fn column_over_a_site() {
    for (elevation, temperature, height, pressure, density) in [
        (0.0, 308.15, 1000.0, 9.058598688e+04, 1.046150145e+00),
        (0.0, 268.15, 1000.0, 8.906628389e+04, 1.185847105e+00),
        (2500.0, 308.15, 900.0, 6.754039526e+04, 7.783151009e-01),
        (2500.0, 253.15, 1000.0, 6.515605255e+04, 9.202390346e-01),
        (2500.0, 308.15, 10_500.0, 2.024931320e+04, 2.789396425e-01),
    ] {
        let air = Atmosphere::standard(elevation).with_temperature(temperature).at(height);
        assert_close(air.pressure, pressure, 1e-9);
        assert_close(air.density, density, 1e-9);
    }
    // Said in either order it's the same air.
    let said = |site: Atmosphere| site.at(1000.0);
    let one = said(Atmosphere::standard(1200.0).with_pressure(87_000.0).with_temperature(300.0));
    let other = said(Atmosphere::standard(1200.0).with_temperature(300.0).with_pressure(87_000.0));
    assert_close(one.pressure, other.pressure, 1e-14);
    // A reading that says what standard air has leaves it standard.
    let same = Atmosphere::standard(1200.0).with_temperature(standard(1200.0).temperature);
    assert_close(same.at(15_000.0).pressure, standard(16_200.0).pressure, 1e-13);
}

/// [own] ν = 1.460718e-5 m²/s at sea level with the density rounded to 1.225.
#[test]
fn kinematic_viscosity() {
    let air = Air { density: 1.225, ..Air::new(288.15, 101325.0) };
    assert_near(air.kinematic_viscosity(), 1.460718e-5, 6e-12);
}

/// Layers meet without a step, and beyond the table's ends the air stays that of the end.
#[test]
fn layers_meet() {
    let earth = 6_356_766.0;
    for h in [11_000.0f64, 20_000.0] {
        let z = earth * h / (earth - h);
        let (below, above) = (standard(z - 1e-4), standard(z + 1e-4));
        assert_close(below.pressure, above.pressure, 1e-7);
        assert_close(below.temperature, above.temperature, 1e-7);
    }
    assert_eq!(standard(40_000.0), standard(32_000.0));
}

/// [mem] Power law: (80/10)^(1/3) = 2.
#[test]
fn wind_grows_with_height() {
    let wind = Wind { speed: 4.0, gust: 6.0, reference_height: 10.0, exponent: 1.0 / 3.0 };
    assert_close(wind.at(10.0), 4.0, 1e-14);
    assert_close(wind.at(80.0), 8.0, 1e-14);
    assert_close(wind.gust_at(80.0), 12.0, 1e-14);
    assert_eq!(wind.at(0.0), 0.0);
    assert_eq!(Wind::CALM.at(100.0), 0.0);
    let even = Wind { exponent: 0.0, ..wind };
    assert_eq!((even.at(0.0), even.at(500.0)), (4.0, 4.0));
}
