//! The window as it goes into a page.

use super::{bars, scale_end, told, Bar};
use crate::draft::Draft;
use crate::font::{cut, width};
use crate::plot::{level, Axis};
use crate::scene::{Dash, Pen, Role, Scene, Style};
use crate::subject::Subject;
use finwright_checks::Level;
use finwright_units::reader::alone;
use finwright_units::show;

const WIDTH: f64 = 88.0;

/// The small picture; `None` where the pads can't be compared.
pub fn small(subject: Subject) -> Option<Scene> {
    let (compared, bars) = bars(subject)?;
    let bars: Vec<Bar> = bars.into_iter().take(4).collect();
    let mut draft = Draft::new("window", WIDTH, 100.0);
    let x = Axis { from: 0.0, to: scale_end(&compared, &bars), start: 5.0, end: WIDTH - 13.0 };
    let first = if compared.in_still_air { 8.0 } else { 15.0 };
    let mut y = first;
    for bar in &bars {
        y = row(&mut draft, bar, &x, y);
    }
    if !compared.in_still_air {
        let mut taken = 0.0_f64;
        for (wind, word) in [(compared.wind_m_s, "today"), (compared.gust_m_s, "gusts")] {
            let at = x.at(wind);
            draft.line(&[(at, 7.2), (at, 9.0)], Pen::SMALL);
            let words = alone(|| format!("{word} {}", show::speed(wind)));
            let half = width(&words, Style::NOTE) / 2.0;
            let at = at.clamp(4.0 + half, WIDTH - 4.0 - half);
            // Where the gusts' words would touch the wind's, they begin a little further on.
            let at = at.max(taken + half + 2.0).min(WIDTH - 4.0 - half);
            if draft.text_if_free((at, 6.0), words, Style::NOTE.role(Role::Ink).middle()) {
                taken = at + half;
            }
            let mut y = first;
            for _ in &bars {
                draft.line(&[(x.at(wind), y - 0.6), (x.at(wind), y)], Pen::SMALL);
                draft.line(&[(x.at(wind), y + 4.0), (x.at(wind), y + 4.7)], Pen::SMALL);
                y += STEP;
            }
        }
    }
    let unit = show::speed_scale();
    level(&mut draft, y - 2.0, &x, unit, show::speed_unit());
    draft.set_height(y + 8.2);
    let title = format!("{}: up to what wind each pad meets the checks", subject.title());
    Some(draft.done(title, told(&compared, &bars)))
}

const STEP: f64 = 10.4;

fn row(draft: &mut Draft, bar: &Bar, x: &Axis, y: f64) -> f64 {
    let high = 4.0;
    let role = if bar.level == Some(Level::Error) { Role::Fails } else { Role::Looks };
    let style = Style::NOTE.role(Role::Ink).bold();
    let name = cut(&bar.name, style, 60.0);
    let wide = width(&name, style);
    draft.text((x.start, y - 1.3), name, style);
    let what = match (bar.to, bar.level) {
        (Some(to), _) => alone(|| format!("up to {}", show::speed_at_most(to))),
        (None, Some(Level::Error)) => "not in any wind".to_string(),
        (None, Some(_)) => "look at it in any wind".to_string(),
        (None, None) => "not known".to_string(),
    };
    let said = Style::NOTE.role(if bar.to.is_some() { Role::Mid } else { role });
    draft.text((x.start + wide + 2.5, y - 1.3), cut(&what, said, WIDTH - 6.0 - x.start - wide - 2.5), said);
    let to = bar.to.map_or(x.start, |to| if bar.endless { x.end } else { x.at(to) });
    let block = |a: f64, b: f64| vec![(a, y), (b, y), (b, y + high), (a, y + high)];
    if to > x.start {
        draft.area(&block(x.start, to), Role::Ink);
    }
    if to < x.end - 0.5 && role == Role::Fails {
        draft.outline(&block(to, x.end), Pen::THIN.role(role).dash(Dash::Hidden));
    } else if to < x.end - 0.5 {
        draft.hatch(&[block(to, x.end)], 1.4, 45.0, Pen::THIN.role(role));
        draft.outline(&block(to, x.end), Pen::THIN.role(role));
    }
    y + STEP
}
