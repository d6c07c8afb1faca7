//! The digits on the page follow: a calculator that only reads the page gets every result, and the last one is the
//! program's within a stated share.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::calculator::{in_si, plain, quantity, Known, Value};
use crate::designs;
use finwright_assess::FlightNumbers;
use finwright_physics::guided::{GuidedOutcome, GuidedRun};
use finwright_working::{working, Block, Cell, Lack, Number, Quantity, Table, Working};

/// How far the hand's way may lie from the program's number, as a share. Drag, which it leaves out, takes up to half a
/// hundredth of the exit speed; elsewhere there is only rounding.
fn share(quantity: Quantity) -> f64 {
    match quantity {
        // Straight lines between the points of the curve, and one mean mass.
        Quantity::ExitSpeed => 0.003,
        // Differences of nearly equal loads.
        Quantity::Loads => 0.005,
        _ => 0.0005,
    }
}

#[test]
fn every_result_follows_from_the_page_in_every_good_design() {
    let mut worked = 0;
    for (name, analysis) in designs::good() {
        for flight in 0..analysis.design.flights.len() {
            for (quantity, word, _) in Quantity::ALL {
                match working(&analysis.design, &analysis.assessment, flight, quantity) {
                    Ok(page) => {
                        let at = format!("{name} {word}");
                        follow(&page, &at);
                        close_to_the_program(&page, &at);
                        if quantity == Quantity::ExitSpeed {
                            close_without_drag(&page, &analysis.assessment.flights[flight], &at);
                        }
                        worked += 1;
                    }
                    // A rocket beyond the method's speed has no descent, a tower neither bends nor bears, and few pads
                    // say how they stand.
                    Err(Lack(needs)) => {
                        let is_due = match quantity {
                            Quantity::Descent => needs.contains("Mach"),
                            Quantity::Lean | Quantity::Loads => needs.contains("tower"),
                            Quantity::Standing => needs.contains("`stance`"),
                            _ => false,
                        };
                        assert!(is_due, "{name} {word}: {needs}");
                    }
                }
            }
        }
    }
    assert!(worked > 200, "{worked}");
}

/// But for drag and the friction that grows with the speed the steps come within 0.15 % of the integrated run.
fn close_without_drag(page: &Working, numbers: &FlightNumbers, at: &str) {
    let (run, curve) = (numbers.run.as_ref().unwrap(), numbers.curve.as_ref().unwrap());
    let free = GuidedRun { drag: 0.0, side_slope: 0.0, ..run.inputs_on(curve) };
    let GuidedOutcome::Leaves { last, .. } = free.run() else { panic!("{at}") };
    let by_hand = page.ends[0].by_hand.value();
    assert!((by_hand / last.speed - 1.0).abs() < 0.0015, "{at}: {by_hand} isn't {}", last.speed);
}

/// Each number of some designs a tenth as large, and three times as large: the page still follows, or says why not.
#[test]
fn every_result_follows_when_any_number_is_another() {
    let mut worked = 0;
    for name in ["reed_heron", "two_stage", "marsh_harrier", "fen_raft_spider", "grey_crane", "stonechat", "whinchat"] {
        let text = designs::text_of_good(name);
        for (start, end) in designs::numbers(&text) {
            for factor in [0.1, 3.0] {
                let number: f64 = text[start..end].parse().unwrap();
                let changed = format!("{}{}{}", &text[..start], number * factor, &text[end..]);
                let analysis = designs::analysis(&changed);
                for (quantity, word, _) in Quantity::ALL {
                    if let Ok(page) = working(&analysis.design, &analysis.assessment, 0, quantity) {
                        follow(&page, &format!("{name} {word}, {number} times {factor} at {start}"));
                        worked += 1;
                    }
                }
            }
        }
    }
    assert!(worked > 1000, "{worked}");
}

/// Designs with something wrong: what can be worked is worked as well, and nothing stops the program.
#[test]
fn every_result_follows_from_the_page_in_every_bad_design() {
    for (name, analysis) in designs::corpus("bad") {
        for flight in 0..=analysis.design.flights.len() {
            for (quantity, word, _) in Quantity::ALL {
                match working(&analysis.design, &analysis.assessment, flight, quantity) {
                    Ok(page) => follow(&page, &format!("{name} {word}")),
                    Err(Lack(needs)) => assert!(!needs.is_empty(), "{name} {word}"),
                }
            }
        }
    }
}

fn follow(page: &Working, at: &str) {
    let mut known = Known::new();
    for block in &page.blocks {
        match block {
            Block::Known(list) => list.iter().for_each(|k| bind(&mut known, &k.symbol, &k.number)),
            Block::Step(step) => {
                let at = format!("{at}: {} = {} = {}", step.symbol, step.formula, step.values);
                agrees(plain(&step.values), &step.result, &at);
                agrees_in_si(in_si(&step.values, &Known::new()), &step.result, &at);
                agrees_in_si(in_si(&step.formula, &known), &step.result, &at);
                bind(&mut known, &step.symbol, &step.result);
                assert!(!step.source.is_empty() && !step.want.is_empty(), "{at}");
            }
            Block::Table(table) => follow_table(table, &mut known, at),
            Block::Note(text) => assert!(text.ends_with('.') || text.ends_with(':'), "{text}"),
        }
    }
}

fn close_to_the_program(page: &Working, at: &str) {
    assert!(!page.ends.is_empty());
    for end in &page.ends {
        let program = end.alike.unwrap_or(end.program);
        let off = (end.by_hand.value() - program).abs();
        assert!(off <= share(page.quantity) * program.abs() + 1e-4, "{at}: {}", end.in_words());
    }
}

fn follow_table(table: &Table, known: &mut Known, at: &str) {
    for (number, row) in table.rows.iter().enumerate() {
        let cells = || row.iter().zip(&table.columns);
        if row.iter().any(|cell| matches!(cell, Cell::Sum(_))) {
            for (column, (cell, head)) in cells().enumerate() {
                let Cell::Sum(sum) = cell else { continue };
                let above = table.rows[..number].iter().filter_map(|row| row[column].number());
                agrees(above.map(Number::value).sum(), sum, &format!("{at}: the sum of {}", head.heading));
                bind(known, &format!("Σ{}", head.symbol), sum);
            }
            continue;
        }
        if let Some(before) = number.checked_sub(1) {
            for (cell, head) in table.rows[before].iter().zip(&table.columns) {
                cell.number().into_iter().for_each(|n| bind(known, &format!("{}'", head.symbol), n));
            }
        }
        for (cell, head) in cells() {
            let Some(printed) = cell.number() else { continue };
            assert!(printed.unit().is_empty() || head.heading.ends_with(&format!(", {}", printed.unit())), "{head:?}");
            if let Cell::Worked(_) = cell {
                let at = format!("{at}: line {number}: {} = {}", head.symbol, head.formula);
                agrees_in_si(in_si(&head.formula, known), printed, &at);
            }
            bind(known, &head.symbol, printed);
        }
    }
}

fn bind(known: &mut Known, symbol: &str, number: &Number) {
    known.insert(symbol.to_string(), quantity(number.value(), number.unit()));
}

/// Rounded to the digits that are printed, five at most: half a unit of the fifth digit off.
fn agrees(worked: f64, printed: &Number, at: &str) {
    let half = half_a_digit(worked);
    assert!((worked - printed.value()).abs() <= half * 1.000_001, "{at}: a calculator shows {worked}, not {printed}");
    assert!(
        printed.digits().chars().filter(char::is_ascii_digit).collect::<String>().trim_start_matches('0').len() <= 12
    );
}

fn half_a_digit(value: f64) -> f64 {
    match value {
        0.0 => 0.0,
        _ => 0.5 * 10_f64.powf(value.abs().log10().floor() - 4.0).max(f64::MIN_POSITIVE) + 1e-14,
    }
}

fn agrees_in_si(worked: Value, printed: &Number, at: &str) {
    let one = quantity(1.0, printed.unit());
    assert_eq!(worked.powers, one.powers, "{at}: {} isn't its unit", printed.unit());
    agrees(worked.number / one.number, printed, at);
}

/// The calculator itself, against sums done by hand.
#[test]
fn the_calculator_reads_as_a_person_does() {
    for (expression, value) in [
        ("1 + 2 × 3", 7.0),
        ("(1 + 2) × 3 - (-4)", 13.0),
        ("8 N / 2 kg / 4", 1.0),
        ("(3 mm)² + 16 mm2", 25.0),
        ("√(9) × sin(30°)", 1.5),
        ("atan(5 m/s / 5 m/s)", 45.0),
    ] {
        assert!((plain(expression) - value).abs() < 1e-12, "{expression}");
    }
    assert_eq!(in_si("2 N / 4 mm", &Known::new()), Value { number: 500.0, powers: [2, 0, -4, 0] });
}

#[test]
#[should_panic(expected = "adds unlike things")]
fn the_calculator_refuses_to_add_a_length_to_a_force() {
    in_si("1 mm + 1 N", &Known::new());
}
