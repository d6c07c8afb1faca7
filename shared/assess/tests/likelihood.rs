//! How likely a flight meets its floors, worked out, against the count over many runs and against a numerical library.
#![allow(clippy::unwrap_used)]

use crate::common::{assessed, but, R1};
use finwright_assess::chances::{chances, Floors};
use finwright_assess::likelihood::Input;
use finwright_assess::{likelihood, Likelihood, Spread};

const FLOORS: Floors = Floors { exit_speed: 13.4, margin: 1.0, doubt: 0.0, push: 5.0, angle: 0.245 };

fn worked(text: &str, floors: &Floors) -> Likelihood {
    let (design, assessment) = assessed(text);
    likelihood(&assessment.flights[0], &assessment.spreads(&design)[0].unwrap(), floors).unwrap()
}

fn counted(text: &str, floors: &Floors) -> f64 {
    let (design, assessment) = assessed(text);
    chances(&design, &assessment, &assessment.flights[0], floors, 4000, 1).unwrap().floors_met
}

/// The margin alone: 0.146692 calibres over the floor are 1.46692 standard deviations (scipy.stats.norm.cdf: 0.928801).
#[test]
fn the_margin_by_the_normal_integral() {
    let found = worked(R1, &FLOORS);
    assert!((found.margin - 0.928801).abs() < 1e-4, "{}", found.margin);
    assert!((found.all - found.margin).abs() < 1e-6, "the run has room to spare: {}", found.all);
    assert_eq!(found.most, Input::Balance);
}

/// Floors around what R1 does: exit speed and push hang on the same thrust and mass, so their joint chance isn't the
/// product.
#[test]
fn within_three_points_of_the_count() {
    let (_, assessment) = assessed(R1);
    let run = assessment.flights[0].run.as_ref().unwrap();
    let (speed, push) = (run.last().unwrap().speed, run.push.unwrap());
    for (v, p, m) in [(0.96, 0.90, 0.9), (0.98, 0.97, 1.0), (1.0, 1.0, 1.1), (1.02, 0.95, 0.5), (0.99, 1.03, 1.2)] {
        let floors = Floors { exit_speed: v * speed, push: p * push, margin: m, doubt: 0.0, angle: 1.0 };
        let (worked, counted) = (worked(R1, &floors).all, counted(R1, &floors));
        assert!((worked - counted).abs() < 0.03, "{v} {p} {m}: {worked} against {counted}");
    }
    let floors = Floors { exit_speed: speed, push, margin: 0.0, doubt: 0.0, angle: 1.0 };
    let found = worked(R1, &floors);
    assert!(found.all > found.exit_speed * found.push + 0.1, "{found:?}");
}

/// A tolerance in the file changes what is shown, and a wide one no verdict.
#[test]
fn a_wide_tolerance_is_no_worse_than_none() {
    let plain = worked(R1, &FLOORS);
    let wide = worked(&but(R1, "mass: 24 g;", "mass: 24 g ± 8 g;"), &FLOORS);
    assert!(wide.all < plain.all - 0.05, "{} {}", wide.all, plain.all);
    assert!((wide.all_at_most_usual - plain.all_at_most_usual).abs() < 1e-9);
    assert_eq!(plain.all, plain.all_at_most_usual);
}

/// A rocket balanced to a tolerance is as uncertain as that tolerance says: 1 mm of 24.8 mm, as two standard
/// deviations.
#[test]
fn a_measured_balance_point_is_as_good_as_its_tolerance() {
    let balanced = format!("{R1}measured {{ with: even; balance: 216.1 mm ± 1 mm from tip }}\n");
    let found = worked(&balanced, &FLOORS);
    assert!((found.margin_sd - 0.5 / 24.8).abs() < 1e-4, "{}", found.margin_sd);
    assert!(found.margin > 0.999);
}

/// A part weighed to a tolerance takes its own share out of what is usual: the motor is 24 g of 39.957 g.
#[test]
fn a_weighed_part_takes_its_share() {
    let (design, assessment) = assessed(&but(R1, "mass: 24 g;", "mass: 24 g ± 0.2 g;"));
    let spread = assessment.spreads(&design)[0].unwrap().mass;
    let loose = 0.02 * (39.957488e-3 - 24e-3);
    assert!((spread.value - (0.1e-3_f64).hypot(loose)).abs() < 2e-6, "{}", spread.value);
    assert!(spread.value < spread.usual && !spread.is_default);
}

/// What is taken for sure without the whole work is as likely by the whole work, however steep the curve, heavy the
/// rocket, short the guide and near the floor: the same inputs to the same formula, run once with all of them bad.
#[test]
fn what_is_sure_is_as_likely() {
    let (mut sure, mut unsure) = (0, 0);
    for text in variants() {
        let (design, assessment) = assessed(&text);
        let numbers = &assessment.flights[0];
        let Some(spreads) = assessment.spreads(&design)[0] else { continue };
        let Some(run) = numbers.run.as_ref().filter(|run| run.last().is_some()) else { continue };
        let (speed, push, margin) = (run.last().unwrap().speed, run.push.unwrap(), numbers.margin().unwrap());
        for share in [0.3, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1.0] {
            for (of_speed, of_push, off) in
                [(share, 0.2, 2.0), (0.2, share, 2.0), (share, share, 0.31), (0.2, 0.2, share)]
            {
                let floors = Floors {
                    exit_speed: of_speed * speed,
                    push: of_push * push,
                    margin: margin - off,
                    doubt: 0.0,
                    angle: 1.0,
                };
                let found = likelihood(numbers, &spreads, &floors).map_or(0.0, |found| found.all);
                for least in [0.5, 0.95, 0.995] {
                    let is_sure = assessment.surely_meets(&design, 0, &floors, least, Spread::AsGiven);
                    assert!(!is_sure || found >= least, "{found} for {least}, {floors:?}:\n{text}");
                    sure += usize::from(is_sure);
                    unsure += usize::from(!is_sure && found >= least);
                }
            }
        }
    }
    // It's of use: most that is likely is found so.
    assert!(sure > unsure, "{sure} sure, {unsure} that are likely and weren't");
}

/// R1 with other motors, heavier ones, on shorter and longer guides, with friction, and with tolerances wider than usual.
fn variants() -> Vec<String> {
    let curves = [
        "curve: [0 s: 8 N, 0.6 s: 8 N]",
        "curve: [0 s: 0 N, 0.05 s: 3 N, 0.3 s: 6 N, 0.6 s: 30 N, 0.7 s: 0 N]",
        "curve: [0 s: 0 N, 0.02 s: 30 N, 0.08 s: 6 N, 1.5 s: 5 N, 1.6 s: 0 N]",
        "curve: [0 s: 0 N, 0.02 s: 9 N, 0.2 s: 9 N, 0.22 s: 20 N, 0.9 s: 20 N, 0.95 s: 0 N]",
        "code: \"C6-4\"",
    ];
    let mut texts = Vec::new();
    for curve in curves {
        for mass in ["24 g", "50 g", "24 g ± 8 g"] {
            for length in ["0.9144 m", "0.4 m", "3 m"] {
                for friction in ["0", "0.3", "0.2 ± 0.15"] {
                    let text = but(R1, "curve: [0 s: 8 N, 0.6 s: 8 N]", curve);
                    let text = but(&text, "mass: 24 g;", &format!("mass: {mass};"));
                    let text = but(&text, "length: 0.9144 m", &format!("length: {length}"));
                    texts.push(but(&text, "friction: 0 ", &format!("friction: {friction} ")));
                }
            }
        }
    }
    texts
}
