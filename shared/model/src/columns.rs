//! Two columns of numbers from another file, with the units that its header says.
//!
//! A comma, a semicolon, a tab or spaces part the columns. A line before the numbers is the header; lines that begin
//! with `#`, `;` or `//` are comments, and so is what stands behind `#`.

use crate::problem::{MISSING_UNIT, UNKNOWN_UNIT, WRONG_DIMENSION, WRONG_FORM};
use finwright_units::{find_unit, readings, Dimension, Unit, UnitError};

/// More points than this aren't a curve, nor an outline.
const MOST_POINTS: usize = 10_000;

/// What is wrong with a file of numbers.
#[derive(Debug, PartialEq)]
pub(crate) struct Fault {
    /// The rule that it's reported under; `None` for the one that is about the points.
    pub rule: Option<&'static str>,
    /// The line, from 1; `None` for the file as a whole.
    pub line: Option<usize>,
    /// What is wrong.
    pub message: String,
    /// What to do.
    pub help: String,
}

/// More lines than this an instrument doesn't write about one flight or one burn.
const MOST_RECORDED: usize = 100_000;

/// What the two columns are to be.
#[derive(Clone, Copy)]
pub(crate) struct Columns {
    /// What each measures.
    pub dimensions: (Dimension, Dimension),
    /// The units that are meant where the file says none, where any are.
    pub usual: Option<(&'static str, &'static str)>,
    /// A header that says the units, as an example.
    pub header: &'static str,
    /// A line's two numbers, in words.
    pub pair: &'static str,
}

/// A thrust curve's time and thrust: in s and N where the file doesn't say, as in a motor's data the world over.
pub(crate) const THRUST: Columns = Columns {
    dimensions: (Dimension::TIME, Dimension::FORCE),
    usual: Some(("s", "N")),
    header: "t [s], F [N]",
    pair: "a time and a thrust",
};

/// An outline's corners, how far back and how far out. No unit is usual: a drawing may be in mm, cm or in.
pub(crate) const CORNERS: Columns = Columns {
    dimensions: (Dimension::LENGTH, Dimension::LENGTH),
    usual: None,
    header: "x [mm], y [mm]",
    pair: "how far back and how far out",
};

/// What a test stand recorded.
pub(crate) const TRACE: Columns = Columns { pair: "a time and a load", ..THRUST };

/// What an altimeter recorded. No unit is usual: heights are in m or in ft.
pub(crate) const LOG: Columns = Columns {
    dimensions: (Dimension::TIME, Dimension::LENGTH),
    usual: None,
    header: "t [s], height [m]",
    pair: "a time and a height",
};

/// The points of an instrument's record in SI: of its columns the first whose unit is a time and the first that
/// measures what is wanted, by its header. A record of two columns is read like any other file of points.
pub(crate) fn recorded(text: &str, columns: Columns) -> Result<Vec<(f64, f64)>, Fault> {
    let text = text.trim_start_matches('\u{FEFF}');
    let mut lines = text.lines().enumerate().filter_map(|(i, line)| Some((i + 1, without_comment(line)?)));
    let of_wide = |line: &str| parted(line).len() > 2 && line.contains([';', '\t', ',']);
    let Some((at, header)) = lines.next().filter(|(_, line)| of_wide(line)) else {
        return points_up_to(text, columns, MOST_RECORDED);
    };
    let names = parted(header);
    let unit = |name: &&str| unit_of(name).flatten().and_then(|spelling| find_unit(spelling).ok());
    let column = |due: Dimension| {
        let mut found = names.iter().enumerate().filter_map(|(i, name)| Some((i, unit(name)?)));
        found.find(|(_, unit)| unit.dimension == due)
    };
    let (x, y) = columns.dimensions;
    let (Some((x, of_x)), Some((y, of_y))) = (column(x), column(y)) else {
        let lacking = if column(x).is_none() { x } else { y };
        return Err(Fault {
            rule: Some(MISSING_UNIT),
            line: Some(at),
            message: format!("no column of the header is {} with a unit", lacking.phrase()),
            help: format!("name the units in the header, such as `{}`", columns.header),
        });
    };
    let mut found = Vec::new();
    for (at, line) in lines {
        let parts = parted(line);
        let pair = parts.get(x).zip(parts.get(y)).and_then(|(x, y)| Some((number(x)?, number(y)?)));
        let Some((a, b)) = pair else { return Err(Fault { line: Some(at), ..not_numbers(line, columns) }) };
        found.push((a * of_x.factor, b * of_y.factor));
        if found.len() > MOST_RECORDED {
            return Err(fault(
                format!("more than {MOST_RECORDED} points"),
                "cut off what isn't the flight".to_string(),
            ));
        }
    }
    Ok(found)
}

/// The points of a text in SI.
pub(crate) fn points(text: &str, columns: Columns) -> Result<Vec<(f64, f64)>, Fault> {
    points_up_to(text, columns, MOST_POINTS)
}

fn points_up_to(text: &str, columns: Columns, most: usize) -> Result<Vec<(f64, f64)>, Fault> {
    let mut found: Vec<(f64, f64)> = Vec::new();
    let mut header = Header::default();
    for (index, line) in text.trim_start_matches('\u{FEFF}').lines().enumerate() {
        let at = |fault: Fault| Fault { line: Some(index + 1), ..fault };
        let Some(line) = without_comment(line) else {
            // What writes numbers often marks its header as a comment; its units count all the same.
            if found.is_empty() && header.is_empty() {
                header = of_comment(line);
            }
            continue;
        };
        let numbers = numbers(line, columns).map_err(at);
        match numbers {
            Ok(Some(pair)) => found.push(pair),
            Ok(None) if found.is_empty() => header = header.and(line, columns).map_err(at)?,
            Ok(None) => return Err(at(not_numbers(line, columns))),
            Err(fault) => return Err(fault),
        }
        if found.len() > most {
            return Err(at(fault(format!("more than {most} points"), "thin them out".to_string())));
        }
    }
    // With no points at all there is something else to say.
    if found.is_empty() {
        return Ok(found);
    }
    let (x, y) = header.units(columns)?;
    Ok(found.into_iter().map(|(a, b)| (a * x.factor, b * y.factor)).collect())
}

/// The line without what is a comment; `None` where all of it is.
fn without_comment(line: &str) -> Option<&str> {
    let line = line.split('#').next().unwrap_or("").trim();
    let is_comment = line.is_empty() || line.starts_with(';') || line.starts_with("//");
    (!is_comment).then_some(line)
}

/// A line's two numbers; `None` where it begins with something else than a number.
fn numbers(line: &str, columns: Columns) -> Result<Option<(f64, f64)>, Fault> {
    let parts = parted(line);
    if let [a, b] = parts.as_slice() {
        if let (Some(a), Some(b)) = (number(a), number(b)) {
            return Ok(Some((a, b)));
        }
    }
    if has_decimal_commas(line, &parts) {
        let message = format!("`{}` has a decimal comma", shown(line));
        return Err(fault(message, "write decimals with a point: `0.2; 14.5`".to_string()));
    }
    let begins_with_a_number = line.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '+' | '.'));
    if !begins_with_a_number {
        return Ok(None);
    }
    let are_numbers = parts.iter().all(|part| number(part).is_some());
    Err(if are_numbers && parts.len() != 2 {
        let count = if parts.len() == 1 { "one column".to_string() } else { format!("{} columns", parts.len()) };
        fault(format!("`{}` has {count}, not two", shown(line)), format!("each line is {}", columns.pair))
    } else {
        not_numbers(line, columns)
    })
}

fn not_numbers(line: &str, columns: Columns) -> Fault {
    fault(format!("`{}` isn't two numbers", shown(line)), format!("each line is {}", columns.pair))
}

fn fault(message: String, help: String) -> Fault {
    Fault { rule: None, line: None, message, help }
}

fn number(text: &str) -> Option<f64> {
    text.parse::<f64>().ok().filter(|number| number.is_finite())
}

/// The columns of a line.
fn parted(line: &str) -> Vec<&str> {
    match [';', '\t', ','].into_iter().find(|mark| line.contains(*mark)) {
        Some(mark) => line.split(mark).map(|part| part.trim().trim_matches('"').trim()).collect(),
        None => line.split_whitespace().collect(),
    }
}

/// Whether commas stand in a line's numbers: `0,2; 14,5`, `0,2 14,5` or `0,2,14,5`.
fn has_decimal_commas(line: &str, parts: &[&str]) -> bool {
    let with_point = |part: &&str| part.contains(',') && number(&part.replacen(',', ".", 1)).is_some();
    let by_spaces: Vec<&str> = line.split_whitespace().collect();
    let of_two = |parts: &[&str]| {
        parts.len() == 2
            && parts.iter().any(with_point)
            && parts.iter().all(|part| with_point(part) || number(part).is_some())
    };
    let is_four = parts.len() == 4 && line.contains(',') && parts.iter().all(|part| number(part).is_some());
    of_two(parts) || of_two(&by_spaces) || is_four
}

/// What stands ahead of the numbers: the line, and the unit that each column has by it.
#[derive(Default)]
struct Header {
    units: [Option<Unit>; 2],
    names: Option<String>,
}

impl Header {
    fn is_empty(&self) -> bool {
        self.names.is_none() && self.units.iter().all(Option::is_none)
    }

    /// With another line ahead of the numbers: one that names the columns, one that says their units, or one for both.
    fn and(self, line: &str, columns: Columns) -> Result<Header, Fault> {
        let help = match columns.usual {
            Some((x, y)) => {
                format!("write `{}` with the units of the numbers, or no header for {x} and {y}", columns.header)
            }
            None => format!("write `{}` with the units of the numbers", columns.header),
        };
        let not_understood = || {
            let message = format!("the header `{}` isn't understood", shown(line));
            Fault { rule: Some(WRONG_FORM), ..fault(message, help.clone()) }
        };
        let (first, second) = of_header(line).ok_or_else(not_understood)?;
        let mut units = self.units;
        for (column, unit) in [first, second].into_iter().zip(&mut units) {
            let said = unit_of(column).ok_or_else(not_understood)?;
            // A second line may say the units of what the first one names, and no more.
            if unit.is_some() || (said.is_none() && self.names.is_some()) {
                return Err(not_understood());
            }
            *unit = said.map(|spelling| known(spelling, line, columns)).transpose()?;
        }
        let dimension = |unit: Option<Unit>| unit.map(|unit| unit.dimension);
        let (x, y) = columns.dimensions;
        for (unit, due) in [(units[0], x), (units[1], y)] {
            let Some(own) = dimension(unit).filter(|own| *own != due) else { continue };
            let message = format!("the header `{}` has {} for {}", shown(line), own.phrase(), due.phrase());
            let help = if dimension(units[0]) == Some(y) && dimension(units[1]) == Some(x) {
                format!("put the columns in this order: `{}`", columns.header)
            } else {
                format!("units that fit: {}", due.fitting_units())
            };
            return Err(Fault { rule: Some(WRONG_DIMENSION), ..fault(message, help) });
        }
        Ok(Header { units, names: Some(line.to_string()) })
    }

    /// Each column's unit: as said, else as usual.
    fn units(&self, columns: Columns) -> Result<(Unit, Unit), Fault> {
        let usual = columns.usual.map(|(x, y)| [find_unit(x).ok(), find_unit(y).ok()]).unwrap_or_default();
        match (self.units[0].or(usual[0]), self.units[1].or(usual[1])) {
            (Some(x), Some(y)) => Ok((x, y)),
            _ => Err(Fault {
                rule: Some(MISSING_UNIT),
                ..fault(
                    "no unit is said for its numbers".to_string(),
                    format!("let its first line be a header that says them: `{}`", columns.header),
                )
            }),
        }
    }
}

/// The units of a comment, where it's a header with units in brackets for two columns; else nothing.
fn of_comment(line: &str) -> Header {
    let line = line.trim().trim_start_matches(['#', ';', '/']).trim();
    let bracketed = |column: &str| column.ends_with([']', ')']);
    let found = of_header(line).filter(|(x, y)| bracketed(x) && bracketed(y));
    let unit = |column: &str| find_unit(unit_of(column)??).ok();
    match found.map(|(x, y)| [unit(x), unit(y)]) {
        Some(units @ [Some(_), Some(_)]) => Header { units, names: Some(line.to_string()) },
        _ => Header::default(),
    }
}

/// The two columns of a header. Where spaces part them, the first ends with its unit in brackets, or each is one word.
fn of_header(line: &str) -> Option<(&str, &str)> {
    if line.contains([';', '\t', ',']) {
        return match parted(line).as_slice() {
            [x, y] => Some((*x, *y)),
            _ => None,
        };
    }
    if let Some(end) = line.find([']', ')']) {
        return Some((line.get(..=end)?.trim(), line.get(end + 1..)?.trim())).filter(|(_, y)| !y.is_empty());
    }
    let mut words = line.split_whitespace();
    let (x, y) = (words.next()?, words.next()?);
    words.next().is_none().then_some((x, y))
}

/// What a column may be called without a unit.
const NAMES: &[&str] = &["t", "time", "f", "thrust", "force", "x", "y"];

/// The unit in a column's header: `t [ms]`, `t (ms)`, `t/ms`, `time_ms`, `t in ms` or `ms`. `Some(None)` where it's a
/// name alone, `None` where it isn't understood.
fn unit_of(column: &str) -> Option<Option<&str>> {
    if let Some(open) = column.find(['[', '(']) {
        let inside = column.get(open + 1..)?.strip_suffix([']', ')'])?;
        return Some(Some(inside.trim()));
    }
    if NAMES.contains(&column.to_lowercase().as_str()) {
        return Some(None);
    }
    let last = column.rsplit(char::is_whitespace).next().unwrap_or(column);
    let behind_mark = column.rsplit(['/', '_']).next().unwrap_or(column).trim();
    [last, behind_mark].into_iter().find(|word| find_unit(word).is_ok()).map(Some)
}

/// The unit of a spelling in a header.
fn known(spelling: &str, line: &str, columns: Columns) -> Result<Unit, Fault> {
    let is_due = |reading: &&&str| {
        let (x, y) = columns.dimensions;
        find_unit(reading).is_ok_and(|unit| unit.dimension == x || unit.dimension == y)
    };
    find_unit(spelling).map_err(|error| {
        let help = match (readings(spelling).iter().find(is_due), error) {
            (Some(reading), _) => format!("did you mean `{reading}`?"),
            (None, UnitError::Refused(reason)) => reason.to_string(),
            (None, UnitError::Unknown(Some(near))) => format!("did you mean `{near}`?"),
            (None, UnitError::Unknown(None)) => format!("for example `{}`", columns.header),
        };
        let message = format!("`{spelling}` in the header `{}` isn't a unit", shown(line));
        Fault { rule: Some(UNKNOWN_UNIT), ..fault(message, help) }
    })
}

/// As much of a line as a message has room for.
fn shown(line: &str) -> String {
    const MOST: usize = 24;
    if line.chars().count() <= MOST {
        return line.to_string();
    }
    line.chars().take(MOST - 1).chain(['…']).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used, clippy::panic)]
mod tests {
    use super::*;

    fn thrust(text: &str) -> Vec<(f64, f64)> {
        points(text, THRUST).unwrap()
    }

    fn corners(text: &str) -> Vec<(f64, f64)> {
        points(text, CORNERS).unwrap()
    }

    fn said(text: &str, columns: Columns) -> String {
        let fault = points(text, columns).unwrap_err();
        let line = fault.line.map_or(String::new(), |line| format!("{line}: "));
        format!("{line}{} | {}", fault.message, fault.help)
    }

    #[test]
    fn bare_columns_of_a_thrust_curve_are_in_s_and_newtons() {
        for text in
            ["0,0\n0.2,14.5\n", "0;0\n0.2;14.5", "0\t0\n0.2\t14.5\n", "0 0\r\n  0.2   14.5\r\n", "\u{FEFF}0,0\n.2,14.5"]
        {
            assert_eq!(thrust(text), [(0.0, 0.0), (0.2, 14.5)], "{text:?}");
        }
        for header in ["time,thrust", "time;thrust", "t F", "Time\tForce"] {
            assert_eq!(thrust(&format!("{header}\n0.2,14.5\n")), [(0.2, 14.5)], "{header}");
        }
    }

    #[test]
    fn a_header_says_the_units_in_every_usual_way() {
        for header in [
            "t [ms], F [lbf]",
            "t (ms); F (lbf)",
            "time [ms]\tthrust [lbf]",
            "burn time (ms) thrust (lbf)",
            "t/ms;F/lbf",
            "t / ms, F / lbf",
            "time_ms,thrust_lbf",
            "t in ms, F in lbf",
            "ms, lbf",
            "\"Zeit (ms)\";\"Schub (lbf)\"",
            "time,thrust\nms,lbf",
            "# t [ms], F [lbf]",
            "// t [ms]  F [lbf]",
            "; t [ms]; F [lbf]",
        ] {
            let found = thrust(&format!("# invented\n{header}\n250; 2\n"));
            assert_eq!(found, [(0.25, 2.0 * 4.448_221_615_260_5)], "{header}");
        }
        assert_eq!(thrust("t [ms], F\n250, 2\n"), [(0.25, 2.0)]);
        assert_eq!(corners("x (mm); y (mm)\n0; 0\n12.5; 8\n"), [(0.0, 0.0), (0.0125, 0.008)]);
        assert_eq!(corners("in in\n0 0\n2 1\n"), [(0.0, 0.0), (0.0508, 0.0254)]);
    }

    #[test]
    fn an_outline_without_units_says_what_to_write() {
        let due = "no unit is said for its numbers | let its first line be a header that says them: `x [mm], y [mm]`";
        assert_eq!(said("0,0\n10,20\n", CORNERS), due);
        assert_eq!(said("x,y\n0,0\n10,20\n", CORNERS), due);
        assert_eq!(said("x [mm], y\n0,0\n10,20\n", CORNERS), due);
    }

    #[test]
    fn a_header_that_isnt_understood_is_told() {
        let help = "write `t [s], F [N]` with the units of the numbers, or no header for s and N";
        for header in
            ["Zeit; Schub", "my best motor of all", "time sec; thrust", "t, F, note", "t [ms, F [N", "t; F\nx; y"]
        {
            let told = said(&format!("{header}\n0;0\n1;2\n"), THRUST);
            assert!(told.ends_with(help) && told.contains("isn't understood"), "{header}: {told}");
        }
        for (text, columns, expected) in [
            (
                "t [sec], F [N]\n0,0\n",
                THRUST,
                "1: `sec` in the header `t [sec], F [N]` isn't a unit | did you mean `s`?",
            ),
            (
                "t [s], F [lbs]\n0,0\n",
                THRUST,
                "1: `lbs` in the header `t [s], F [lbs]` isn't a unit | did you mean `lbf`?",
            ),
            (
                "t [mm], F [N]\n",
                THRUST,
                "1: the header `t [mm], F [N]` has a length for a time | units that fit: s, ms",
            ),
            (
                "F [N], t [s]\n",
                THRUST,
                "1: the header `F [N], t [s]` has a force for a time | put the columns in this order: `t [s], F [N]`",
            ),
            (
                "t [s], F [N]\n",
                CORNERS,
                "1: the header `t [s], F [N]` has a time for a length | units that fit: mm, cm, m, in, ft",
            ),
        ] {
            assert_eq!(said(text, columns), expected);
        }
    }

    #[test]
    fn commas_for_points_are_told_and_never_misread() {
        for line in ["0,2; 14,5", "0,2\t14,5", "0,2 14,5", "0,2 14", "0,2,14,5", "0;14,5"] {
            let told = said(&format!("t [s]; F [N]\n0 0\n{line}\n"), THRUST);
            assert_eq!(told, format!("3: `{line}` has a decimal comma | write decimals with a point: `0.2; 14.5`"));
        }
    }

    #[test]
    fn a_line_that_isnt_two_numbers_is_told() {
        for (line, expected) in [
            ("0.2", "2: `0.2` has one column, not two | each line is a time and a thrust"),
            ("0.2;3;4", "2: `0.2;3;4` has 3 columns, not two | each line is a time and a thrust"),
            ("0.2;", "2: `0.2;` isn't two numbers | each line is a time and a thrust"),
            ("0.2;3 N", "2: `0.2;3 N` isn't two numbers | each line is a time and a thrust"),
            ("end", "2: `end` isn't two numbers | each line is a time and a thrust"),
            ("0.2;inf", "2: `0.2;inf` isn't two numbers | each line is a time and a thrust"),
        ] {
            assert_eq!(said(&format!("0;0\n{line}\n"), THRUST), expected);
        }
        let many = "0;0\n".repeat(10_001);
        assert_eq!(said(&many, THRUST), "10001: more than 10000 points | thin them out");
    }
}
