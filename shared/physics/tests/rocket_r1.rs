//! physics.md's golden example R1, part by part: mass, balance, inertia and margin.
//!
//! [own] computed with mpmath; R1 is invented.
#![allow(clippy::unwrap_used)]

use crate::common::{assert_close, assert_near};
use finwright_physics::fins::FinShape;
use finwright_physics::mass::{bifilar_inertia, combine, MassProps};
use finwright_physics::motor::BurningMass;
use finwright_physics::nose::NoseShape;
use finwright_physics::section::Section;

/// The table's inertias carry seven digits.
const SEVEN_DIGITS: f64 = 5e-7;

fn solid_cylinder(mass: f64, length: f64, radius: f64, x: f64) -> MassProps {
    let unit = Section::cylinder(length, radius).unwrap().solid(1.0);
    unit.scaled(mass / unit.mass).shifted(x)
}

fn parts() -> [MassProps; 6] {
    let nose = Section::nose(NoseShape::Ogive, 0.07, 0.0124).unwrap();
    let tube = Section::cylinder(0.23, 0.0124).unwrap();
    let fin = FinShape::Trapezoid { root: 0.05, tip: 0.03, span: 0.04, sweep: 0.025 };
    let mount = Section::cylinder(0.065, 0.0094).unwrap();
    [
        nose.solid(160.0),
        tube.walled(0.0004, 680.0).shifted(0.07),
        fin.geometry().unwrap().plates(3, 0.0016, 160.0, 0.0124, 0.25),
        solid_cylinder(0.024, 0.07, 0.009, 0.23),
        mount.walled(0.0004, 680.0).shifted(0.235),
        MassProps::point(0.006, 0.105),
    ]
}

#[test]
fn every_part() {
    let rows = [
        (0.002911162, 0.047978203, 1.709316e-7, 7.359023e-7),
        (0.004795528, 0.185, 7.139582e-7, 2.149727e-5),
        (0.001228800, 0.281875, 1.321337e-6, 8.573084e-7),
        (0.024, 0.265, 9.72e-7, 1.0286e-5),
        (0.001021998, 0.2675, 8.654277e-8, 4.030998e-7),
        (0.006, 0.105, 0.0, 0.0),
    ];
    for (part, (mass, x, i_axial, i_transverse)) in parts().iter().zip(rows) {
        assert_near(part.mass, mass, 5e-10);
        assert_near(part.x, x, 5e-10);
        assert_close(part.i_axial, i_axial, SEVEN_DIGITS);
        assert_close(part.i_transverse, i_transverse, SEVEN_DIGITS);
    }
}

#[test]
fn loaded_and_burnt() {
    let parts = parts();
    let loaded = combine(parts);
    assert_near(loaded.mass, 0.039957488, 5e-10);
    assert_near(loaded.x, 0.216144654, 5e-10);
    assert_close(loaded.i_axial, 3.264769e-6, SEVEN_DIGITS);
    assert_close(loaded.i_transverse, 2.601662e-4, SEVEN_DIGITS);

    let propellant = parts[3].scaled(0.25);
    let burning = BurningMass {
        dry: combine([parts[0], parts[1], parts[2], parts[3].scaled(0.75), parts[4], parts[5]]),
        propellant,
    };
    let full = burning.at(0.0);
    assert_close(full.mass, loaded.mass, 1e-14);
    assert_close(full.x, loaded.x, 1e-14);
    assert_close(full.i_transverse, loaded.i_transverse, 1e-12);
    let burnt = burning.at(1.0);
    assert_near(burnt.mass, 0.033957488, 5e-10);
    assert_near(burnt.x, 0.207512329, 5e-10);
    assert_close(burnt.i_transverse, 2.407432e-4, SEVEN_DIGITS);

    let pressure = 0.244582608;
    let calibre = 0.0248;
    assert_near((pressure - loaded.x) / calibre, 1.146692, 1e-6);
    assert_near((pressure - burnt.x) / calibre, 1.494769, 1e-6);
    assert_near((pressure - loaded.x) / 0.300, 0.094793, 1e-6);
}

/// [own; formula mem] 2.5: R1 hung from wires 0.2 m apart and 1 m long swings in 1.618996 s.
#[test]
fn bifilar_swing() {
    let loaded = combine(parts());
    assert_close(bifilar_inertia(loaded.mass, 0.2, 1.0, 1.618996), loaded.i_transverse, 2e-6);
}
