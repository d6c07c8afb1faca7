//! The bench as it goes into a page.

use super::{title, told, Balanced, Lying};
use crate::draft::{Draft, Head};
use crate::font::cut;
use crate::rocket::{rocket, Spot};
use crate::scene::{Dash, Pen, Role, Scene, Style};
use crate::side::{draw, Detail};
use crate::subject::Subject;
use finwright_units::reader::alone;
use finwright_units::show;

const WIDTH: f64 = 126.0;

/// The small picture; `None` where the airframe has no shape.
pub fn small(subject: Subject) -> Option<Scene> {
    let rocket = rocket(subject.parts(), 0.0)?;
    let balanced = Balanced::of(subject);
    let (up, down) = rocket.reach;
    let overhang = super::overhang(subject, &rocket);
    let scale = (112.0 / (rocket.ahead() + overhang)).min(30.0 / (up + down));
    let axis = 9.0 + (up * scale).max(rocket.radius * scale + 4.0);
    let lying = Lying { rocket: &rocket, aft: 5.0 + overhang * scale, axis, scale };
    let mut draft = Draft::new("bench", WIDTH, 60.0);
    let foot = lying.under() + 6.5;
    let first = (axis + down * scale + 5.0).max(foot + 5.0);

    // What a builder asks: the balance point and the guides, the furthest ahead first.
    let mut marks: Vec<(f64, String, bool, Option<finwright_grammar::Place>)> = Vec::new();
    for guide in &rocket.guides {
        let name = subject.design().parts.get(guide.part).map_or(String::new(), |part| part.label());
        marks.push((guide.extent.middle(), name, false, subject.place(guide.part)));
    }
    marks.truncate(5);
    marks.extend(balanced.balance.map(|balance| (balance, "balance".to_string(), true, None)));
    marks.sort_by(|one, other| one.0.total_cmp(&other.0));
    let aft = lying.aft;
    for (i, (station, _, _, place)) in marks.iter().enumerate() {
        let (x, y) = (lying.x(*station), first + 4.6 * i as f64);
        draft.stands_for(*place);
        draft.line(&[(x, lying.under() + 0.8), (x, y)], Pen::HAIR.role(Role::Faint));
    }
    draft.stands_for(None);
    let last = first + 4.6 * marks.len().saturating_sub(1) as f64;
    draft.line(&[(aft, lying.under() + 1.0), (aft, last + 1.0)], Pen::HAIR.role(Role::Faint));
    draw(&mut draft, subject, &rocket, &|spot: &Spot| lying.at(*spot), Detail::Outside);
    knives(&mut draft, &lying, &balanced, foot);
    if let Some(pressure) = balanced.pressure {
        let x = lying.x(pressure).clamp(aft, aft + rocket.tail * scale);
        let hull = axis - rocket.radius * scale;
        draft.arrow((x, 3.6), (x, hull - 0.3), Pen::LINE.role(Role::Looks), Head(2.4, 0.3));
        let words = "a side wind pushes here";
        let style = Style::NOTE.role(Role::Looks);
        let right = x + 2.0 + crate::font::width(words, style) < WIDTH - 4.0;
        draft.text((if right { x + 2.0 } else { x - 2.0 }, 6.0), words, if right { style } else { style.end() });
    }
    for (i, (station, name, bold, place)) in marks.iter().enumerate() {
        let (x, y) = (lying.x(*station), first + 4.6 * i as f64);
        draft.stands_for(*place);
        draft.arrow((aft, y), (x, y), Pen::HAIR.role(Role::Ink), Head(1.4, 0.25));
        let far = alone(|| show::station(rocket.tail - station));
        let words = if i == 0 { format!("{name} {far} from the aft end") } else { format!("{name} {far}") };
        let style = if *bold { Style::NOTE.role(Role::Ink).bold() } else { Style::NOTE.role(Role::Ink) };
        let wide = crate::font::width(&words, style);
        match x + 1.6 + wide < WIDTH - 4.0 {
            true => draft.text((x + 1.6, y + 1.05), words, style),
            false => draft.text((WIDTH - 4.0, y + 1.05), cut(&words, style, WIDTH - 12.0), style.end().knock()),
        }
    }
    draft.stands_for(None);
    draft.set_height(last + 5.0);
    let rows = super::rulers::rows(subject, &rocket);
    Some(draft.done(title(subject), told(subject, &rocket, &balanced, &rows)))
}

fn knives(draft: &mut Draft, lying: &Lying, balanced: &Balanced, foot: f64) {
    let tip = lying.under() + 0.2;
    let blade = |x: f64| vec![(x, tip), (x - 2.0, foot), (x + 2.0, foot)];
    if let Some(computed) = balanced.computed {
        draft.outline(&blade(lying.x(computed)), Pen::THIN.role(Role::Looks).dash(Dash::Fine));
    }
    if let Some(balance) = balanced.balance {
        draft.area(&blade(lying.x(balance)), Role::Ink);
    }
}
