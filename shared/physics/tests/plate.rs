//! Flutter speed of a plate fin, NACA TN 4197 (from memory).

use finwright_physics::air::standard;
use finwright_physics::fins::FinShape;
use finwright_physics::plate::Plate;

/// A plywood fin: root 150 mm, tip 50 mm, span 100 mm, 3 mm thick, G 0.65 GPa.
fn plate() -> Plate {
    Plate { shear: 0.65e9, thickness: 3e-3, root: 0.150, span: 0.100, area: 0.5 * (0.150 + 0.050) * 0.100 }
}

/// By hand, in steps that a calculator gives:
///   A = span²/area = 0.01/0.01 = 1;  λ = 50/150 = 1/3;  t/c = 3/150 = 0.02
///   A³/((t/c)³ (A + 2)) = 1/(8e-6 · 3) = 41 666.667;  (λ + 1)/2 = 2/3
///   24 · 0.25 · 1.4/π = 8.4/3.14159265 = 2.6738030
///   denominator: 2.6738030 · 101 325 Pa · 41 666.667 · 0.6666667 = 7.5256e9 Pa
///   √(0.65e9/7.5256e9) = √0.0863719 = 0.2938910;  times 340.294 m/s = 100.009 m/s
#[test]
fn a_plywood_fin_by_hand() {
    let speed = plate().flutter_speed(&standard(0.0));
    assert!((speed - 100.009).abs() < 0.01, "{speed}");
}

/// The report's own form: G in psi, pressure in atmospheres, and its constant 39.3 (three digits).
#[test]
fn the_form_in_psi_with_its_constant_gives_the_same() {
    const PSI: f64 = 6_894.757_293_168;
    let air = standard(1500.0);
    let p = plate();
    let aspect = p.span * p.span / p.area;
    let ratio = p.thickness / p.root;
    let taper: f64 = 50.0 / 150.0;
    let below =
        39.3 * aspect.powi(3) / (ratio.powi(3) * (aspect + 2.0)) * (taper + 1.0) / 2.0 * air.pressure / 101_325.0;
    let theirs = air.sound_speed * (p.shear / PSI / below).sqrt();
    let ours = p.flutter_speed(&air);
    assert!((ours / theirs - 1.0).abs() < 1e-3, "{ours} {theirs}");
}

#[test]
fn the_thickness_for_a_speed_flutters_at_that_speed() {
    let (p, air) = (plate(), standard(300.0));
    for speed in [40.0, 100.0, 250.0] {
        let thicker = Plate { thickness: p.thickness_for(speed, &air), ..p };
        assert!((thicker.flutter_speed(&air) / speed - 1.0).abs() < 1e-12);
    }
}

/// Thinner air excites less; a stiffer, thicker or shorter fin bears more; size alone changes nothing.
#[test]
fn it_moves_the_right_way() {
    let (p, air) = (plate(), standard(0.0));
    let at = |p: Plate| p.flutter_speed(&air);
    // Only the ratio of pressures and the sound speed count: 4 times the modulus doubles the speed.
    assert!((at(Plate { shear: 4.0 * p.shear, ..p }) / at(p) - 2.0).abs() < 1e-12);
    assert!((at(Plate { thickness: 2.0 * p.thickness, ..p }) / at(p) - 2f64.powf(1.5)).abs() < 1e-12);
    let half = Plate { thickness: 0.5 * p.thickness, root: 0.5 * p.root, span: 0.5 * p.span, area: 0.25 * p.area, ..p };
    assert!((at(half) / at(p) - 1.0).abs() < 1e-12);
    let high = standard(3000.0);
    assert!(p.flutter_speed(&high) > at(p));
}

/// An ellipse stands in for the trapezoid of its root, span and area, tip π/2 − 1 of the root.
#[test]
fn an_ellipse_by_the_trapezoid_of_its_area() {
    let fin = FinShape::Ellipse { root: 0.08, span: 0.06 }.geometry();
    let Ok(fin) = fin else { unreachable!() };
    let plate = |area: f64| Plate { shear: 1e9, thickness: 2e-3, root: 0.08, span: 0.06, area };
    let same = 0.5 * 0.06 * 0.08 * (1.0 + (std::f64::consts::FRAC_PI_2 - 1.0));
    let air = standard(0.0);
    assert!((plate(fin.area).flutter_speed(&air) / plate(same).flutter_speed(&air) - 1.0).abs() < 1e-9);
}
