//! Up to what wind does each pad meet the checks, and what ends it?

mod small;

use crate::draft::Draft;
use crate::font::{cut, width, wrapped};
use crate::plot::{level, Axis};
use crate::scene::{Dash, Pen, Role, Scene, Style};
use crate::subject::Subject;
use finwright_advice::candidate::Candidate;
use finwright_advice::compare::{compare_flight, Comparison};
use finwright_advice::words::floor;
use finwright_checks::{Level, Verdict};
use finwright_units::show;

pub use small::small;

const WIDTH: f64 = 170.0;
const NAMES: f64 = 36.0;
/// Beyond what it bears and what is today, this much more is shown, m/s.
const BEYOND: f64 = 2.0;

/// A pad's bar.
pub struct Bar {
    /// The pad.
    pub name: String,
    /// What stands on it.
    pub what: String,
    /// Up to what wind nothing is found, m/s; `None` where even still air doesn't do.
    pub to: Option<f64>,
    /// Whether nothing is known to end it below the strongest wind that is tried.
    pub endless: bool,
    /// How much what ends it matters.
    pub level: Option<Level>,
    /// What ends it.
    pub why: String,
    /// Whether it's this flight's pad.
    pub own: bool,
}

/// The bars of the pads at hand for a flight's rocket and motor; `None` where they can't be compared.
pub fn bars(subject: Subject) -> Option<(Comparison, Vec<Bar>)> {
    subject.flight?;
    let compared = compare_flight(subject.analysis, subject.number)?;
    let own = subject.pad().map(|pad| pad.name.value.clone());
    let bars: Vec<Bar> = compared.candidates.iter().take(6).map(|one| bar(one, own.as_deref())).collect();
    (!bars.is_empty()).then_some((compared, bars))
}

fn bar(one: &Candidate, own: Option<&str>) -> Bar {
    let name = if one.is_usual { one.rail.clone() } else { one.pad.clone() };
    let what = if one.is_usual { "not in the file".to_string() } else { one.rail.clone() };
    let own = own == Some(one.pad.as_str());
    let bar =
        |to: Option<f64>, level: Option<Level>, why: String| Bar { name, what, to, endless: false, level, why, own };
    let Some(ceiling) = &one.ceiling else {
        let level = (one.verdict == Verdict::NotAsItIs).then_some(Level::Error);
        return bar(None, level, one.reason.clone());
    };
    if one.verdict < Verdict::LookAtIt {
        return bar(None, Some(Level::Error), one.reason.clone());
    }
    if let Some(first) = ceiling.in_still_air.first() {
        return bar(None, Some(first.level), format!("in any wind: {}", first.message));
    }
    match &ceiling.limit {
        Some(limit) => {
            let why = format!("above {}: {}", show::speed_at_most(floor(ceiling.wind)), limit.message);
            bar(Some(floor(ceiling.wind)), Some(limit.level), why)
        }
        None => Bar {
            endless: true,
            ..bar(
                Some(ceiling.wind),
                None,
                format!("nothing is found up to {}, beyond which nobody launches", show::speed(ceiling.wind)),
            )
        },
    }
}

/// The scale's end, m/s.
fn scale_end(compared: &Comparison, bars: &[Bar]) -> f64 {
    let most = bars.iter().filter_map(|bar| bar.to).fold(compared.gust_m_s.max(4.0), f64::max);
    (most + BEYOND).min(17.0).max(compared.gust_m_s + 1.0).ceil()
}

/// The picture; `None` where the pads can't be compared.
pub fn window(subject: Subject) -> Option<Scene> {
    let (compared, bars) = bars(subject)?;
    let mut draft = Draft::new("window", WIDTH, 280.0);
    let over = format!(
        "{}, {}: how much steady wind each pad bears before a check speaks up",
        subject.title(),
        compared.motor
    );
    let top = draft.heading(&over, &headline(&compared, &bars), &[]);
    let x = Axis { from: 0.0, to: scale_end(&compared, &bars), start: 12.0 + NAMES, end: WIDTH - 14.0 };
    let today = [(compared.wind_m_s, "today"), (compared.gust_m_s, "gusts")];
    let today: Vec<(f64, &str)> = if compared.in_still_air { Vec::new() } else { today.to_vec() };
    let first = top + if today.is_empty() { 6.0 } else { 12.0 };
    let mut y = first;
    let mut rows = Vec::new();
    for bar in &bars {
        rows.push(y);
        y = row(&mut draft, bar, &x, y);
    }
    // Today's wind: thin lines that pause where words stand.
    for (i, (wind, word)) in today.iter().enumerate() {
        let at = x.at(*wind);
        for y in &rows {
            draft.line(&[(at, y - 1.6), (at, y - 0.2)], Pen::SMALL);
            draft.line(&[(at, y + 6.2), (at, y + 7.2)], Pen::SMALL);
        }
        draft.line(&[(at, first - 4.0), (at, first - 0.2)], Pen::SMALL);
        let words = format!("{word} {}", show::speed(*wind));
        let style = Style::NOTE.role(Role::Ink).bold();
        let wide = width(&words, style) / 2.0;
        let at = at.clamp(x.start + wide - 6.0, x.end - wide + 6.0);
        if !draft.text_if_free((at, first - 5.2), words.as_str(), style.middle()) {
            draft.text_if_free((at, first - 9.4 - 0.1 * i as f64), words, style.middle());
        }
    }
    let unit = show::speed_scale();
    level(&mut draft, y + 1.5, &x, unit, show::speed_unit());
    let share = if compared.wind_m_s > 0.0 {
        format!(", its gusts {} times as strong", show::number(compared.gust_m_s / compared.wind_m_s))
    } else {
        String::new()
    };
    draft.text((x.start, y + 11.4), format!("steady wind as the site's meter reads it{share}"), Style::NOTE);
    draft.foot(y + 19.0);
    draft.set_height(y + 23.5);
    let title = format!("{}: up to what wind each pad meets the checks", subject.title());
    Some(draft.done(title, told(&compared, &bars)))
}

fn headline(compared: &Comparison, bars: &[Bar]) -> String {
    let own = bars.iter().find(|bar| bar.own).or(bars.first());
    let Some(own) = own else { return "No pad is known.".to_string() };
    let name = &own.name;
    match own.to {
        None => format!("{} doesn't meet the checks in any wind.", name),
        Some(_) if own.endless => format!("No wind in which anybody launches ends what {name} meets."),
        Some(to) if compared.in_still_air => {
            format!("{} meets the checks up to {}.", name, show::speed_at_most(to))
        }
        Some(to) if to >= compared.wind_m_s => format!(
            "Today's wind is {}; {name} meets the checks up to {}.",
            show::speed(compared.wind_m_s),
            show::speed_at_most(to)
        ),
        Some(to) => format!(
            "Today's {} is too much for {name}: it meets the checks up to {}.",
            show::speed(compared.wind_m_s),
            show::speed_at_most(to)
        ),
    }
}

/// One bar with its words. Gives the y of the next.
fn row(draft: &mut Draft, bar: &Bar, x: &Axis, y: f64) -> f64 {
    let high = 6.0;
    draft.text((12.0, y + 2.4), cut(&bar.name, Style::LABEL.bold(), NAMES - 3.0), Style::LABEL.bold());
    let mut left = y + 6.4;
    for line in wrapped(&bar.what, Style::NOTE, NAMES - 3.0).into_iter().take(2) {
        draft.text((12.0, left), line, Style::NOTE);
        left += 3.8;
    }
    let role = match bar.level {
        Some(Level::Error) => Role::Fails,
        _ => Role::Looks,
    };
    let word = match (bar.level, bar.to) {
        (Some(Level::Error), _) => "not",
        (None, None) => "not known",
        _ => "look at it",
    };
    let to = bar.to.map_or(x.start, |to| if bar.endless { x.end } else { x.at(to) });
    if to > x.start {
        draft.area(&[(x.start, y), (to, y), (to, y + high), (x.start, y + high)], Role::Ink);
        let words = "meets the checks";
        let style = Style::NOTE.role(Role::Paper);
        let number = bar.to.map_or(String::new(), show::speed_at_most);
        let bold = style.bold();
        let both = width(words, style) + width(&number, bold) + 8.0;
        if both < to - x.start {
            draft.text((x.start + 2.0, y + 4.1), words, style);
        }
        if width(&number, bold) + 3.0 < to - x.start {
            draft.text((to - 1.8, y + 4.1), number, bold.end());
        }
    }
    if to < x.end - 0.5 {
        rest(draft, (to, x.end, y, high), word, role, bar.to.is_some());
    }
    let lines = wrapped(&bar.why, Style::NOTE, x.end - x.start);
    let mut below = y + high + 4.4;
    let style = Style::NOTE.role(if bar.level.is_some() { role } else { Role::Mid });
    for line in lines.iter().take(4) {
        draft.text((x.start, below), line.as_str(), style);
        below += 3.9;
    }
    below.max(left) + 4.0
}

/// What comes after it: hatched where it's to be looked at, dashed and open where it fails.
fn rest(draft: &mut Draft, (from, to, y, high): (f64, f64, f64, f64), word: &str, role: Role, after: bool) {
    let style = Style::NOTE.role(role);
    let wide = width(word, style) + 4.0;
    let outline = |a: f64, b: f64| vec![(a, y), (b, y), (b, y + high), (a, y + high)];
    let room = to - from > wide + 4.0;
    if role == Role::Fails || (word == "not known") {
        draft.outline(&outline(from, to), Pen::SMALL.role(role).dash(Dash::Hidden));
        if room {
            let at = if after { to - 2.0 - wide + 4.0 } else { from + 2.0 };
            draft.text((at, y + 4.1), word, style.bold());
        }
        return;
    }
    let hatched = if room { to - wide } else { to };
    draft.hatch(&[outline(from, hatched)], 1.4, 45.0, Pen::SMALL.role(role));
    draft.outline(&outline(from, to), Pen::SMALL.role(role));
    if room {
        draft.line(&[(hatched, y), (hatched, y + high)], Pen::HAIR.role(role));
        draft.text((hatched + wide / 2.0, y + 4.1), word, style.middle());
    }
}

/// The bars in words.
pub fn told(compared: &Comparison, bars: &[Bar]) -> String {
    let mut said = "A bar a pad over steady wind.".to_string();
    for bar in bars {
        let to = match bar.to {
            Some(to) => format!("meets the checks up to {}", show::speed_at_most(to)),
            None => "meets them in no wind".to_string(),
        };
        said += &format!(" {} {to}; {}.", bar.name, bar.why.trim_end_matches('.'));
    }
    if !compared.in_still_air {
        said += &format!(" Today: {}, gusts of {}.", show::speed(compared.wind_m_s), show::speed(compared.gust_m_s));
    }
    said
}
