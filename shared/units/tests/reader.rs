//! Numbers in the words of a reader: SI alone, or theirs first.

use finwright_units::reader::{alone, in_both, with};
use finwright_units::{find_unit, show, Dimension, Units};

/// What a reader in the United States gets to read.
fn us(words: impl FnOnce() -> String) -> String {
    with(Units::Us, words)
}

#[test]
fn without_a_word_it_is_si() {
    assert_eq!(show::length(1.0), "1 m");
    assert_eq!(with(Units::Si, || show::speed_for_reader(13.4)), "13.4 m/s (48 km/h, 30 mph)");
}

#[test]
fn theirs_first_and_si_in_brackets() {
    assert_eq!(us(|| show::length(1.0)), "39.4 in (1 m)");
    assert_eq!(us(|| show::speed(13.4)), "30 mph (13.4 m/s)");
    assert_eq!(us(|| show::speed_for_reader(13.4)), "30 mph (13.4 m/s)");
    assert_eq!(us(|| show::mass(0.148)), "5.2 oz (148 g)");
    assert_eq!(us(|| show::force(53.4)), "12 lbf (53.4 N)");
    assert_eq!(us(|| show::quantity(287.15, Dimension::TEMPERATURE)), "57 °F (14 °C)");
}

#[test]
fn small_things_are_told_as_closely_as_they_are_made() {
    assert_eq!(us(|| show::length(3.2e-3)), "0.126 in (3.2 mm)");
    assert_eq!(us(|| show::length(0.4e-3)), "0.016 in (0.4 mm)");
    assert_eq!(us(|| show::mass(0.0012)), "0.042 oz (1.2 g)");
    assert_eq!(us(|| show::mass(0.0325)), "1.15 oz (32.5 g)");
    assert_eq!(us(|| show::station(0.345)), "13.58 in (345 mm)");
    assert_eq!(us(|| show::force(1.12)), "4 ozf (1.12 N)");
    assert_eq!(us(|| show::force(0.08)), "0.29 ozf (0.08 N)");
}

#[test]
fn heights_and_distances_are_in_feet_from_ten_feet_up() {
    assert_eq!(us(|| show::length(3.04)), "120 in (3.04 m)");
    assert_eq!(us(|| show::length(3.048)), "10 ft (3.05 m)");
    assert_eq!(us(|| show::length(328.0)), "1076 ft (328 m)");
}

#[test]
fn pounds_from_a_pound_on() {
    assert_eq!(us(|| show::mass(0.45)), "15.9 oz (450 g)");
    assert_eq!(us(|| show::mass(0.4535)), "1 lb (454 g)");
    assert_eq!(us(|| show::mass(1.5)), "3.31 lb (1.5 kg)");
}

#[test]
fn what_would_pass_is_rounded_to_the_passing_side() {
    // 260 mm are 10.236 in: 10.2 in would be too little, 10.24 in are enough.
    assert_eq!(us(|| show::length(0.26)), "10.2 in (260 mm)");
    assert_eq!(us(|| show::length_at_least(0.26)), "10.3 in (260 mm)");
    // 4.4 m/s are 9.843 mph.
    assert_eq!(us(|| show::speed_at_most(4.45)), "9.9 mph (4.5 m/s)");
    assert_eq!(us(|| show::mass_at_least(0.006)), "0.22 oz (6 g)");
    assert_eq!(us(|| show::mass_at_most(0.1)), "3.5 oz (100 g)");
    // What is exact stays.
    assert_eq!(us(|| show::length_at_least(0.0254)), "1 in (25.4 mm)");
    assert_eq!(us(|| show::speed_at_most(8.9408)), "20 mph (8.9 m/s)");
}

#[test]
fn numbers_that_belong_together_share_their_brackets() {
    let range = || in_both(|| format!("{} to {}", show::speed(20.1), show::speed(21.0)));
    assert_eq!(us(range), "45 mph to 47 mph (20.1 m/s to 21 m/s)");
    assert_eq!(range(), "20.1 m/s to 21 m/s");
    assert_eq!(us(|| in_both(|| show::speed_for_reader(13.4))), "30 mph (13.4 m/s)");
}

#[test]
fn a_narrow_column_has_theirs_alone() {
    assert_eq!(us(|| alone(|| show::length(1.0))), "39.4 in");
    assert_eq!(us(|| alone(|| format!("{} {}", show::speed_number(13.4), show::speed_unit()))), "30 mph");
    assert_eq!(alone(|| show::length(1.0)), "1 m");
    assert_eq!(format!("{} {}", show::speed_number(13.4), show::speed_unit()), "13.4 m/s");
}

#[test]
fn what_has_no_customary_unit_stays_in_si() {
    for dimension in [Dimension::TIME, Dimension::IMPULSE, Dimension::ANGLE, Dimension::CALIBRES, Dimension::NUMBER] {
        let said = show::quantity(3.2, dimension);
        assert_eq!(us(|| show::quantity(3.2, dimension)), said);
    }
    assert_eq!(us(|| show::quantity(2e9, Dimension::PRESSURE)), "2 GPa");
}

#[test]
fn a_tolerance_of_a_temperature_has_no_zero_to_count_from() {
    assert_eq!(show::difference(2.0, Dimension::TEMPERATURE), "2 °C");
    assert_eq!(us(|| show::difference(2.0, Dimension::TEMPERATURE)), "3.6 °F (2 °C)");
}

#[test]
fn what_is_typed_stays_si() {
    assert_eq!(us(|| show::si::length(1.0)), "1 m");
    assert_eq!(us(|| show::si::mass(0.012)), "12 g");
}

/// Every unit that is shown is one that a design may use, and says the quantity to the last digit.
#[test]
fn both_sides_say_the_same() {
    let dimensions = [
        Dimension::LENGTH,
        Dimension::MASS,
        Dimension::SPEED,
        Dimension::FORCE,
        Dimension::ENERGY,
        Dimension::DENSITY,
        Dimension::AREA,
        Dimension::ACCELERATION,
    ];
    for dimension in dimensions {
        for power in -20..=20 {
            let value = 1.37 * 10f64.powf(f64::from(power) / 5.0);
            let said = us(|| show::quantity(value, dimension));
            let (theirs, si) = said.trim_end_matches(')').split_once(" (").unwrap_or(("", ""));
            for one in [theirs, si] {
                let (number, unit) = one.split_once(' ').unwrap_or((one, ""));
                let factor = find_unit(unit).map_or(f64::NAN, |unit| unit.factor);
                let last_digit = 10f64.powi(-(number.split_once('.').map_or(0, |(_, d)| d.len()) as i32));
                let off = (number.parse::<f64>().unwrap_or(f64::NAN) - value / factor).abs();
                assert!(off <= 0.5001 * last_digit, "{said} for {value}");
            }
        }
    }
}

#[test]
fn what_was_before_comes_back() {
    with(Units::Us, || {
        with(Units::Si, || assert_eq!(show::speed(1.0), "1 m/s"));
        assert_eq!(show::speed(1.0), "2.2 mph (1 m/s)");
    });
    assert_eq!(show::speed(1.0), "1 m/s");
    let broken = std::panic::catch_unwind(|| with(Units::Us, || std::panic::resume_unwind(Box::new("a fault"))));
    assert!(broken.is_err());
    assert_eq!(show::speed(1.0), "1 m/s");
}

#[test]
fn another_thread_knows_nothing_of_it() {
    let there = with(Units::Us, || std::thread::spawn(|| show::speed(1.0)).join());
    assert_eq!(there.ok().as_deref(), Some("1 m/s"));
}

#[test]
fn lengths_that_differ_are_seen_to() {
    assert_eq!(show::lengths_apart(0.029, 0.02903), ["29 mm", "29.03 mm"]);
    assert_eq!(show::lengths_apart(0.029, 0.031), ["29 mm", "31 mm"]);
    assert_eq!(show::lengths_apart(1.2001, 1.2), ["1.2001 m", "1.2 m"]);
    assert_eq!(show::lengths_apart(0.029, 0.029), ["29 mm", "29 mm"]);
    assert_eq!(show::si::lengths_apart(0.003, 0.0030004), ["3 mm", "3.0004 mm"]);
}

#[test]
fn speeds_and_masses_that_differ_are_seen_to() {
    assert_eq!(show::speeds_apart(13.38, 13.41), ["13.38 m/s", "13.41 m/s"]);
    assert_eq!(show::speeds_apart(11.8, 13.4), ["11.8 m/s", "13.4 m/s"]);
    assert_eq!(us(|| show::speeds_apart(13.409, 13.41)[0].clone()), "29.995 mph (13.409 m/s)");
    assert_eq!(show::masses_apart(3.5e-3, 3.493e-3), ["3.5 g", "3.49 g"]);
}
