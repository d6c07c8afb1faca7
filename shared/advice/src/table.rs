//! The comparison as a table: the same cells in a terminal, on a page and in a hover.

use crate::candidate::Candidate;
use crate::compare::Comparison;
use crate::words::floor;
use finwright_checks::rules::pad::leans::BENDS_OVER;
use finwright_checks::Verdict;
use finwright_units::reader::alone;
use finwright_units::show;

/// A column of the table.
#[derive(Clone, Copy)]
pub struct Column {
    /// Its head without the unit: a word or two.
    pub word: &'static str,
    unit: Unit,
    /// What it shows, for the legend; empty where the head says it.
    pub means: &'static str,
    /// Where the table is too wide, the column with the lowest number gives way first; `None` never does.
    pub gives_way: Option<u8>,
    /// Whether it holds words, which are read from the left.
    pub is_words: bool,
    cell: fn(&Candidate) -> String,
}

/// What a column's numbers are in.
#[derive(Clone, Copy)]
enum Unit {
    None,
    Speed,
    Length,
    Sign(&'static str),
}

impl Column {
    /// The unit that the reader has its numbers in, if they have one.
    pub fn unit(&self) -> Option<&'static str> {
        match self.unit {
            Unit::None => None,
            Unit::Speed => Some(show::speed_unit()),
            Unit::Length => Some(show::ruler().1),
            Unit::Sign(sign) => Some(sign),
        }
    }

    /// Its head on one line: the word and the unit.
    pub fn head(&self) -> String {
        match self.unit() {
            Some(unit) => format!("{} {unit}", self.word),
            None => self.word.to_string(),
        }
    }
}

const fn number(
    word: &'static str,
    unit: Unit,
    means: &'static str,
    gives_way: Option<u8>,
    cell: fn(&Candidate) -> String,
) -> Column {
    Column { word, unit, means, gives_way, is_words: false, cell }
}

const fn words(
    word: &'static str,
    means: &'static str,
    gives_way: Option<u8>,
    cell: fn(&Candidate) -> String,
) -> Column {
    Column { word, unit: Unit::None, means, gives_way, is_words: true, cell }
}

/// The table's columns, in their order on the page.
pub static COLUMNS: [Column; 13] = [
    words("pad", "", None, |c| c.pad.clone()),
    words("rod or rail", "", Some(8), |c| c.rail.clone()),
    number("front", Unit::Speed, "speed when the front guide leaves", Some(7), |c| speed(c.front_release_m_s)),
    number("exit", Unit::Speed, "speed when the last guide leaves", None, |c| speed(c.exit_speed_m_s)),
    number("over", Unit::Speed, "exit speed over the least one", Some(9), |c| over(c.over_floor_m_s)),
    number("lean", Unit::Sign("°"), "slope of the tip in the steady wind, the rocket at rest", Some(5), |c| {
        lean(c.lean_wind_rad)
    }),
    number("gust", Unit::Sign("°"), "slope of the tip in a gust", Some(10), |c| lean(c.lean_gust_rad)),
    number("tip", Unit::Length, "how far a gust moves the tip", Some(1), |c| {
        some(c.tip_gust_m, |tip| show::significant(tip / show::ruler().0, 3, 1))
    }),
    number("swing", Unit::Sign("Hz"), "first frequency, the rocket at the end", Some(2), |c| {
        some(c.frequency_hz, |f| show::significant(f, 2, 1))
    }),
    number("play", Unit::Sign("°"), "how far the rocket can turn in its guides", Some(3), |c| {
        some(c.play_rad, |play| show::significant(play.to_degrees(), 2, 2))
    }),
    number("load", Unit::Sign("%"), "greatest load of a guide, of what it bears", Some(4), |c| {
        some(c.load_share, |share| show::trimmed(100.0 * share, 0))
    }),
    number("wind to", Unit::Speed, "strongest steady wind that passes", Some(11), wind),
    words("verdict", "", None, verdict),
];

/// What the comparison is of, in a line.
pub fn heading(comparison: &Comparison) -> String {
    let wind = match (comparison.wind_m_s, comparison.gust_m_s) {
        _ if comparison.in_still_air => "still air (no site is given)".to_string(),
        (0.0, 0.0) => "no wind".to_string(),
        (wind, gust) if gust > wind => format!("{} of wind, gusts of {}", show::speed(wind), show::speed(gust)),
        (wind, _) => format!("{} of wind", show::speed(wind)),
    };
    let weighed = &comparison.basis;
    format!("{} in {wind}, {weighed}; the least exit speed is {}", comparison.motor, show::speed(comparison.floor_m_s))
}

/// A row's cells, one for each of [`COLUMNS`].
pub fn cells(candidate: &Candidate) -> Vec<String> {
    alone(|| COLUMNS.iter().map(|column| (column.cell)(candidate)).collect())
}

/// How the columns that are shown are to be read: "front m/s: speed when the front guide leaves; …".
pub fn legend<'c>(shown: impl IntoIterator<Item = &'c Column>) -> String {
    let told = shown.into_iter().filter(|column| !column.means.is_empty());
    told.map(|column| format!("{}: {}", column.head(), column.means)).collect::<Vec<_>>().join("; ")
}

/// The table in Markdown, a line a row, with its legend below.
pub fn markdown(comparison: &Comparison) -> String {
    let line = |cells: Vec<String>| format!("| {} |", cells.join(" | "));
    let mut lines = vec![line(COLUMNS.iter().map(Column::head).collect())];
    lines.push(format!(
        "|{}",
        COLUMNS.iter().map(|c| if c.is_words { " --- |" } else { " ---: |" }).collect::<String>()
    ));
    lines.extend(comparison.candidates.iter().map(|candidate| line(cells(candidate))));
    format!("{}\n\n{}", lines.join("\n"), legend(&COLUMNS))
}

/// The same for a window, its columns in line. A row that would be wider than so many characters has
/// fewer columns; those that say least about which pad to take give way first.
pub fn markdown_within(comparison: &Comparison, width: usize) -> String {
    let rows: Vec<Vec<String>> = comparison.candidates.iter().map(cells).collect();
    let wide = |number: usize| {
        let all = rows.iter().filter_map(|row| row.get(number)).map(|cell| cell.chars().count());
        all.chain(COLUMNS.get(number).map(|column| column.head().chars().count())).max().unwrap_or(0)
    };
    let mut shown: Vec<usize> = (0..COLUMNS.len()).collect();
    let taken = |shown: &[usize]| 1 + shown.iter().map(|number| wide(*number) + 3).sum::<usize>();
    while taken(&shown) > width {
        let ways = |number: &&usize| COLUMNS.get(**number).and_then(|column| column.gives_way);
        let Some(least) = shown.iter().filter(|number| ways(number).is_some()).min_by_key(ways).copied() else { break };
        shown.retain(|number| *number != least);
    }
    let columns: Vec<(usize, &Column)> = shown.iter().filter_map(|at| Some((*at, COLUMNS.get(*at)?))).collect();
    let line = |cell: &dyn Fn(usize, &Column) -> String| {
        let padded = columns.iter().map(|(at, column)| match column.is_words {
            true => format!("{:<1$}", cell(*at, column), wide(*at)),
            false => format!("{:>1$}", cell(*at, column), wide(*at)),
        });
        format!("| {} |", padded.collect::<Vec<_>>().join(" | "))
    };
    let rule = |at: usize, column: &Column| "-".repeat(wide(at).max(3) - usize::from(!column.is_words)) + side(column);
    let mut lines = vec![line(&|_, column| column.head()), line(&rule)];
    lines.extend(rows.iter().map(|row| line(&|at, _| row.get(at).cloned().unwrap_or_default())));
    format!("{}\n\n{}", lines.join("\n"), legend(columns.into_iter().map(|(_, column)| column)))
}

/// The mark in the line below the heads for numbers, which stand at the right.
fn side(column: &Column) -> &'static str {
    if column.is_words {
        ""
    } else {
        ":"
    }
}

fn some(value: Option<f64>, how: impl Fn(f64) -> String) -> String {
    value.map_or("–".to_string(), how)
}

fn speed(value: Option<f64>) -> String {
    some(value, show::speed_number)
}

fn over(value: Option<f64>) -> String {
    some(value, |v| if v >= 0.0 { format!("+{}", show::speed_number(v)) } else { show::speed_number(v) })
}

/// A slope in degrees; past what the theory of small bends can tell, no number.
fn lean(value: Option<f64>) -> String {
    some(
        value,
        |v| {
            if v.abs() > BENDS_OVER {
                "bends over".to_string()
            } else {
                show::significant(v.to_degrees(), 2, 2)
            }
        },
    )
}

fn wind(candidate: &Candidate) -> String {
    let Some(ceiling) = &candidate.ceiling else { return "–".to_string() };
    if ceiling.in_still_air.is_empty() {
        show::speed_number_at_most(floor(ceiling.wind))
    } else {
        "none".to_string()
    }
}

/// The verdict with the rule behind it; a pad that the rocket has no guides for meets nothing yet.
fn verdict(candidate: &Candidate) -> String {
    let words = candidate.verdict.words();
    match (candidate.verdict, candidate.fits, candidate.reason_rule) {
        (Verdict::MeetsTheChecks, false, _) => "needs guides".to_string(),
        (Verdict::MeetsTheChecks, true, _) | (_, _, None) => words.to_string(),
        (_, _, Some(rule)) => format!("{words}: {rule}"),
    }
}
