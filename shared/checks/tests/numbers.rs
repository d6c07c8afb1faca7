//! Thrust curves and fin outlines from files of two columns, as a design uses them.
#![allow(clippy::unwrap_used)]

use crate::support::{analysis_with, sound_but, told};

const CURVE: &str = "[0 s: 0 N, 0.1 s: 8 N, 0.2 s: 10 N, 0.3 s: 4 N, 0.4 s: 0 N]";
const FIN: &str = "root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm";

/// The findings for the sound design with the file of a curve or an outline in place of its own.
fn said(old: &str, field: &str, file: &str) -> Vec<(&'static str, String)> {
    let new = format!("{field}file \"x.csv\"");
    let found = analysis_with(&sound_but(old, &new), &[("x.csv", file)]);
    told(&found).iter().map(|f| (f.rule, format!("{} | {}", f.message, f.help))).collect()
}

#[test]
fn a_curve_in_other_units_is_the_same_curve() {
    let seconds = "0,0\n0.1,8\n0.2,10\n0.3,4\n0.4,0\n";
    let milliseconds = "t [ms]; F [kN]\n0; 0\n100; 0.008\n200; 0.010\n300; 0.004\n400; 0\n";
    let impulse = |file: &str| {
        let text = sound_but(CURVE, "file \"x.csv\"");
        let found = analysis_with(&text, &[("x.csv", file)]);
        assert!(told(&found).is_empty(), "{:?}", told(&found));
        found.assessment.airframe.motors[0].as_ref().unwrap().impulse
    };
    // Trapezoids: 0.1 s of 0, 8, 10, 4 and 0 N.
    assert!((impulse(seconds) - 2.2).abs() < 1e-12);
    assert!((impulse(milliseconds) - 2.2).abs() < 1e-12);
}

#[test]
fn an_outline_from_a_file_is_the_same_as_in_the_design() {
    let area = |outline: &str, file: &str| {
        let found = analysis_with(&sound_but(FIN, &format!("outline: {outline}")), &[("x.csv", file)]);
        assert!(told(&found).is_empty(), "{:?}", told(&found));
        found.assessment.airframe.airflow.as_ref().unwrap().aerodynamics.fins[0].fin.area
    };
    let own = area("[0 mm: 0 mm, 25 mm: 40 mm, 55 mm: 40 mm, 50 mm: 0 mm]", "");
    for file in ["x (mm); y (mm)\n0; 0\n25; 40\n55; 40\n50; 0\n", "# x [cm], y [cm]\n0 0\n2.5 4\n5.5 4\n5 0\n"] {
        assert!((area("file \"x.csv\"", file) / own - 1.0).abs() < 1e-12, "{file}");
    }
}

#[test]
fn an_outline_is_spoken_of_as_one() {
    for (file, rule, message) in [
        (
            "0,0\n25,40\n55,40\n50,0\n",
            "unit/missing-unit",
            "`x.csv`: no unit is said for its numbers | let its first line be a header that says them: `x [mm], y \
                [mm]`",
        ),
        (
            "x [mm], y [mm]\n0,0\n25,40\n55\n50,0\n",
            "fins/broken-outline",
            "line 4 of `x.csv`: `55` has one column, not two | each line is how far back and how far out",
        ),
        (
            "x [mm], y [mm]\n0,0\n25,40\n55,40\n",
            "fins/broken-outline",
            "the first and last corners lie on the body | begin and end the outline with `0 mm` outwards",
        ),
        (
            "x [mm], y [mm]\n50,0\n55,40\n25,40\n0,0\n",
            "fins/broken-outline",
            "an outline's last corner lies behind its first | go from the root's front around the tip to the root's \
                back",
        ),
        (
            "x [m], y [m]\n0,0\n25,40\n55,40\n50,0\n",
            "fins/broken-outline",
            "this corner lies beyond any fin that flies | check the unit and the decimal point",
        ),
    ] {
        assert_eq!(said(FIN, "outline: ", file), [(rule, message.to_string())], "{file}");
    }
}

#[test]
fn a_curve_that_cant_be_says_what_is_wrong_with_it() {
    for (file, rule, message) in [
        (
            "Zeit; Schub\n0;0\n1;5\n",
            "value/wrong-form",
            "line 1 of `x.csv`: the header `Zeit; Schub` isn't understood | \
             write `t [s], F [N]` with the units of the numbers, or no header for s and N",
        ),
        (
            "t [s], F [lbs]\n0,0\n1,5\n",
            "unit/unknown-unit",
            "line 1 of `x.csv`: `lbs` in the header `t [s], F [lbs]` isn't a unit | did you mean `lbf`?",
        ),
        (
            "0,0\n100,8\n400,0\n",
            "motor/broken-curve",
            "no motor burns for 400 s | \
             check the units and the decimal points; a file's header says its units: `t [ms], F [N]`",
        ),
        (
            "t [ms], F [N]\n0,0\n300,8\n100,0\n",
            "motor/broken-curve",
            "the curve's time goes back, from 0.3 s to 0.1 s | put the points in order of time, each time once",
        ),
    ] {
        assert_eq!(said(CURVE, "", file), [(rule, message.to_string())], "{file}");
    }
}
