//! The rocket on a knife edge: where does it balance, and where do the guides go?

mod rulers;
mod small;

use crate::draft::{Draft, Head};
use crate::font::{cut, width};
use crate::lacking::lacking;
use crate::pose::scale;
use crate::rocket::{rocket, Rocket, Spot};
use crate::scene::{Dash, Pen, Point, Role, Scene, Style};
use crate::side::{draw, Detail};
use crate::subject::{sentence, Subject};
use finwright_checks::common::limits::MARGIN;
use finwright_checks::rules::measured::measured_differs::{BALANCE_DIFFERS, IMPOSSIBLE, MASS_DIFFERS};
use finwright_checks::rules::stability::low_margin::{LOW_MARGIN, UNSTABLE};
use finwright_checks::rules::stability::over_stable::OVER_STABLE;
use finwright_units::show;

pub use small::small;

/// Where the rocket lies on the paper.
pub struct Lying<'r> {
    /// The rocket from the side.
    pub rocket: &'r Rocket,
    /// Where its aft end is.
    pub aft: f64,
    /// Its axis.
    pub axis: f64,
    /// Paper over nature, mm a metre.
    pub scale: f64,
}

impl Lying<'_> {
    /// Where a station is across the paper, the nose to the right.
    pub fn x(&self, station: f64) -> f64 {
        self.aft + (self.rocket.tail - station) * self.scale
    }

    /// A spot of the rocket on the paper.
    pub fn at(&self, (station, above): Spot) -> Point {
        (self.x(station), self.axis - above * self.scale)
    }

    /// Where its body ends below the axis.
    pub fn under(&self) -> f64 {
        self.axis + self.rocket.radius * self.scale
    }
}

/// What the bench shows. Stations from the tip, m.
pub struct Balanced {
    /// Where it balances as it flies.
    pub balance: Option<f64>,
    /// Whether that was measured.
    pub measured: bool,
    /// Where it balances by the file, where that differs.
    pub computed: Option<f64>,
    /// Where the air pushes.
    pub pressure: Option<f64>,
    /// The margin, calibres.
    pub margin: Option<f64>,
    /// The body's diameter, m.
    pub calibre: Option<f64>,
}

impl Balanced {
    /// What is known of a flight.
    pub fn of(subject: Subject) -> Balanced {
        let (numbers, airframe) = (subject.numbers, &subject.analysis.assessment.airframe);
        let weighed = numbers.and_then(|numbers| numbers.weighed);
        let balance = weighed.map(|weighed| weighed.loaded.x);
        let computed = weighed.map(|weighed| weighed.computed.x);
        Balanced {
            measured: weighed.is_some_and(|weighed| weighed.basis.balance),
            computed: computed.filter(|x| balance.is_some_and(|balance| (balance - x).abs() > 0.4e-3)),
            balance,
            pressure: airframe.airflow.as_ref().and_then(|airflow| airflow.total.x()),
            margin: numbers.and_then(|numbers| numbers.margin()),
            calibre: airframe.calibre,
        }
    }
}

/// The most paper across, and the most for the rocket's height, mm.
const WIDTH: f64 = 270.0;
const TALL: f64 = 66.0;
const AFT: f64 = 34.0;

/// The picture; `None` where the airframe has no shape.
pub fn bench(subject: Subject) -> Option<Scene> {
    let rocket = rocket(subject.parts(), 0.0)?;
    let balanced = Balanced::of(subject);
    let (up, down) = rocket.reach;
    let behind = overhang(subject, &rocket);
    let aft = |scale: f64| (26.0 + behind * scale).max(AFT);
    let ahead = |scale: f64| aft(scale) + rocket.ahead() * scale;
    let fits = |scale: f64| ahead(scale) <= WIDTH - 22.0 && (up + down) * scale <= TALL;
    let (scale, written) = scale(fits);
    let (aft, wide) = (aft(scale), (ahead(scale) + 22.0).max(190.0));
    let mut draft = Draft::new("bench", wide, 200.0);
    let motor = subject.motor_words().map_or(String::new(), |motor| format!(" with its {motor}"));
    let over = format!("{}{motor}", subject.title());
    let top = draft.heading(&over, "Where does it balance, and where do the guides go?", &answers(subject, &balanced));
    let above = (up * scale).max(rocket.radius * scale + 9.0);
    let axis = top + 21.0 + above;
    let lying = Lying { rocket: &rocket, aft, axis, scale };
    let bottom = (axis + down * scale + 5.0).max(lying.under() + 20.0);

    let rows = rulers::rows(subject, &rocket);
    let first = bottom + 15.0;
    rulers::threads(&mut draft, &lying, &rows, first);
    slab(&mut draft, &lying, &balanced, bottom);
    draw(&mut draft, subject, &rocket, &|spot: &Spot| lying.at(*spot), Detail::Inside);
    gaps(&mut draft, subject, &lying);
    edges(&mut draft, subject, &lying, &balanced, bottom);
    pushed(&mut draft, subject, &lying, &balanced, top);
    wind(&mut draft, &lying, &balanced);
    if let Some(motor) = subject.motor_words() {
        let (style, end) = (Style::LABEL, aft - behind * scale - 4.0);
        draft.text((end, axis - 0.8), "motor", style.bold().end());
        draft.text((end, axis + 3.5), cut(&motor, style, end - 5.0), style.role(Role::Mid).end());
    }
    let y = rulers::draw(&mut draft, &lying, &rows, first);
    let (_, unit, _) = show::ruler();
    let note = format!("0 is the aft end; all in {unit} ahead of it, drawn {written}");
    draft.text((aft, y + 1.0), note, Style::NOTE);
    draft.foot(y + 8.0);
    draft.set_height(y + 12.5);
    Some(draft.done(title(subject), told(subject, &rocket, &balanced, &rows)))
}

/// How far motor and fins stand out behind, m.
fn overhang(subject: Subject, rocket: &Rocket) -> f64 {
    let motor = subject.numbers.and_then(|numbers| numbers.motor()).map(|motor| motor.back);
    rocket.stations().chain(motor).fold(rocket.tail, f64::max) - rocket.tail
}

fn answers(subject: Subject, balanced: &Balanced) -> Vec<String> {
    let mut said = Vec::new();
    match (balanced.balance, balanced.pressure, balanced.margin) {
        (Some(balance), Some(pressure), Some(margin)) => {
            let apart = show::station((pressure - balance).abs());
            let calibres = show::number(margin.abs());
            let (side, so) = match pressure >= balance {
                true => ("behind", "it turns the nose into the wind"),
                false => ("ahead of", "it would turn the rocket over"),
            };
            said.push(format!("The wind pushes {apart} {side} the balance point, {calibres} calibres: {so}."));
        }
        _ => {
            said.push("Where it balances, or where the wind pushes, isn't known yet.".to_string());
            said.extend(lacking(subject).into_iter().take(2));
        }
    }
    let rules = [&MASS_DIFFERS, &BALANCE_DIFFERS, &IMPOSSIBLE, &UNSTABLE, &LOW_MARGIN, &OVER_STABLE];
    said.extend(subject.found(&rules).map(|finding| sentence("Look at it", &finding.message)));
    said
}

/// What stretches of the airframe aren't known, where they would be.
fn gaps(draft: &mut Draft, subject: Subject, lying: &Lying) {
    for (part, extent) in &lying.rocket.gaps {
        let (from, to) = (lying.x(extent.back), lying.x(extent.front));
        let name = subject.design().parts.get(*part).map_or(String::new(), |part| part.label());
        let style = Style::LABEL.role(Role::Looks).middle().knock();
        draft.stands_for(subject.place(*part));
        let words = cut(&format!("{name}: how wide it is isn't known"), style, to - from - 3.0);
        draft.text_if_free(((from + to) / 2.0, lying.axis + 1.1), words, style);
    }
    draft.stands_for(None);
}

/// The bench that the knife edges stand on.
fn slab(draft: &mut Draft, lying: &Lying, balanced: &Balanced, y: f64) {
    let length = lying.rocket.tail * lying.scale;
    let middle = lying.x(balanced.balance.unwrap_or(lying.rocket.tail / 2.0)).clamp(lying.aft, lying.aft + length);
    let half = (0.18 * length).clamp(24.0, 40.0);
    let (from, to) = ((middle - half).max(12.0), (middle + half).min(draft.width() - 12.0));
    let block = vec![(from, y), (to, y), (to, y + 2.6), (from, y + 2.6)];
    draft.area(&block, Role::Paper);
    draft.hatch(&[block], 1.5, 45.0, Pen::HAIR);
    draft.line(&[(from, y), (to, y)], Pen::BOLD);
}

/// The knife edges: chisels back to back, so that two a hair apart stay two.
fn edges(draft: &mut Draft, subject: Subject, lying: &Lying, balanced: &Balanced, foot: f64) {
    let tip = lying.under() + 0.2;
    let level = tip + 9.0;
    let rocket = lying.rocket;
    let from_aft = |station: f64| format!("{} ahead of the aft end", show::station(rocket.tail - station));
    let Some(balance) = balanced.balance else {
        let words = "its balance point isn't known";
        let x = lying.x(rocket.tail / 2.0);
        draft.line(&[(x, tip), (x, foot)], Pen::LINE.role(Role::Looks).dash(Dash::Hidden));
        beside(draft, (x + 0.5, level), 1.0, &[words.to_string()], Role::Looks);
        return;
    };
    let computed_right = balanced.computed.is_some_and(|computed| computed < balance);
    let side = if computed_right { -1.0 } else { 1.0 };
    let x = lying.x(balance);
    let blade = vec![(x, tip), (x + 4.2 * side, foot), (x, foot)];
    draft.solid(&blade, Pen::LINE);
    draft.hatch(&[blade], 1.0, 45.0, Pen::HAIR.role(Role::Ink));
    let head = if balanced.measured { "balance point, motor in, as measured" } else { "balance point, motor in" };
    let lines = [head.to_string(), from_aft(balance)];
    beside(draft, (x + 1.5 * side, level), side, &lines, Role::Ink);
    if let Some(computed) = balanced.computed {
        let x = lying.x(computed);
        let blade = [(x, tip), (x - 4.2 * side, foot), (x, foot)];
        draft.solid(&blade, Pen::LINE.role(Role::Looks).dash(Dash::Hidden));
        let more = subject.numbers.and_then(|n| n.weighed).map(|w| w.loaded.mass - w.computed.mass);
        let more = more.filter(|more| more.abs() > 0.5e-3 * 0.5).map(|more| match more > 0.0 {
            true => format!("the scale says {} more", show::mass(more)),
            false => format!("the scale says {} less", show::mass(-more)),
        });
        let lines = [format!("by the file: {}", show::station(rocket.tail - computed)), more.unwrap_or_default()];
        beside(draft, (x - 1.3 * side, level), -side, &lines, Role::Looks);
    }
}

/// A label beside an edge, on the side where its foot is, with paper behind the words.
fn beside(draft: &mut Draft, (x, y): Point, side: f64, lines: &[String], role: Role) {
    let wide = lines.iter().map(|line| width(line, Style::LABEL.bold())).fold(0.0, f64::max);
    let room = if side > 0.0 { draft.width() - 6.0 - x } else { x - 6.0 };
    // Where there is no room on its side the label stands on the other one, lower down.
    let (side, y) = if room >= wide + 10.0 { (side, y) } else { (-side, y + 9.0) };
    let text = x + 9.0 * side;
    draft.line(&[(text - 1.5 * side, y), (x, y)], Pen::HAIR.role(if role == Role::Ink { Role::Mid } else { role }));
    let style = Style::LABEL.role(role).knock();
    let style = if side > 0.0 { style } else { style.end() };
    let lines: Vec<String> = lines.iter().filter(|line| !line.is_empty()).cloned().collect();
    draft.say((text, y + 1.1), &lines, style);
}

/// Where the side wind pushes as a whole, and the margin.
fn pushed(draft: &mut Draft, subject: Subject, lying: &Lying, balanced: &Balanced, top: f64) {
    let Some(pressure) = balanced.pressure else { return };
    let length = lying.rocket.tail * lying.scale;
    let x = lying.x(pressure).clamp(lying.aft, lying.aft + length);
    let hull = lying.axis - lying.rocket.radius * lying.scale;
    draft.arrow((x, top + 8.5), (x, hull - 0.3), Pen::BOLD.weight(1.1).role(Role::Looks), Head(5.0, 0.32));
    let lines = ["centre of pressure".to_string(), "here the side wind pushes as a whole".to_string()];
    let style = Style::LABEL.role(Role::Looks);
    let wide = width(&lines[1], style);
    let at = if x - 1.0 + wide > draft.width() - 12.0 {
        (draft.width() - 12.0 - wide, top + 2.4)
    } else {
        (x - 1.0, top + 2.4)
    };
    draft.say(at, &lines, style);
    let (Some(balance), Some(margin), Some(calibre)) = (balanced.balance, balanced.margin, balanced.calibre) else {
        return;
    };
    let (b, y) = (lying.x(balance), top + 17.0);
    let low = subject.level(&[&UNSTABLE, &LOW_MARGIN]);
    let role = match low {
        Some(finwright_checks::Level::Error) => Role::Fails,
        Some(_) => Role::Looks,
        None => Role::Ink,
    };
    draft.line(&[(b, hull - 1.0), (b, y - 2.0)], Pen::HAIR.role(Role::Ink));
    let gap = if b >= x { 1.0 } else { -1.0 };
    draft.dimension((x + gap, y), (b, y), role);
    let words = format!("{} calibres", show::number(margin));
    let bold = Style::LABEL.role(role).bold();
    let need = show::number(subject.analysis.settings.limit(&MARGIN));
    let rest = format!(
        "margin: {}; a calibre is {}; {need} or more is usual",
        show::station((pressure - balance).abs()),
        show::length(calibre)
    );
    let right = b.max(x) + 3.0;
    let between = (b - x).abs() - 2.0;
    if width(&words, bold) + 2.0 < between {
        draft.text(((x + b) / 2.0 + 0.5, y - 1.8), words, bold.middle());
        draft.text_if_free(
            (right, y + 1.1),
            cut(&rest, Style::LABEL, draft.width() - 12.0 - right),
            Style::LABEL.role(Role::Mid),
        );
    } else {
        let right = right + 6.0;
        let wide = width(&words, bold);
        draft.text((right, y + 1.1), words, bold);
        let right = right + wide + 3.0;
        draft.text_if_free(
            (right, y + 1.1),
            cut(&rest, Style::LABEL, draft.width() - 12.0 - right),
            Style::LABEL.role(Role::Mid),
        );
    }
}

/// Side wind all along the body, where nothing else stands.
fn wind(draft: &mut Draft, lying: &Lying, balanced: &Balanced) {
    let rocket = lying.rocket;
    let count = ((rocket.tail * lying.scale - 8.0) / 7.2) as usize;
    for i in 0..count {
        let x = lying.aft + 6.0 + 7.2 * i as f64;
        let station = rocket.tail - (x - lying.aft) / lying.scale;
        let near = |other: Option<f64>, mm: f64| other.is_some_and(|other| (lying.x(other) - x).abs() < mm);
        let under_fin = rocket.fins.iter().any(|fin| {
            let along = || fin.outline.iter().map(|spot| spot.0);
            let (from, to) = (along().fold(f64::INFINITY, f64::min), along().fold(f64::NEG_INFINITY, f64::max));
            let tall = fin.outline.iter().any(|spot| spot.1 > rocket.radius * 1.02);
            tall && (lying.x(to) - 2.0..=lying.x(from) + 2.0).contains(&x)
        });
        if near(balanced.pressure, 4.0) || near(balanced.balance, 2.5) || under_fin {
            continue;
        }
        let hull = radius_at(rocket, station);
        let y = lying.axis - hull * lying.scale;
        draft.arrow((x, y - 7.6), (x, y - 1.4), Pen::THIN.role(Role::Faint), Head::SMALL);
    }
    let x = lying.x(0.0);
    draft.text_if_free((x + 2.0, lying.axis - 9.6), "side wind", Style::NOTE.end());
}

fn radius_at(rocket: &Rocket, station: f64) -> f64 {
    let on = rocket.bodies.iter().flat_map(|(_, spots)| spots.windows(2).take(spots.len() / 2));
    let mut between = on.filter(|pair| pair[0].0 <= station && station <= pair[1].0 && pair[1].0 > pair[0].0);
    let found = between.next().map(|pair| {
        let share = (station - pair[0].0) / (pair[1].0 - pair[0].0);
        pair[0].1 + share * (pair[1].1 - pair[0].1)
    });
    found.unwrap_or(rocket.radius)
}

fn title(subject: Subject) -> String {
    format!("{} on the bench: where it balances and where its guides go", subject.title())
}

fn told(subject: Subject, rocket: &Rocket, balanced: &Balanced, rows: &[rulers::Row]) -> String {
    let aft = |station: f64| show::station(rocket.tail - station);
    let mut said = "The rocket lies on a knife edge with its motor in, nose to the right.".to_string();
    match balanced.balance {
        Some(balance) => said += &format!(" It balances {} ahead of its aft end.", aft(balance)),
        None => said += " Where it balances isn't known.",
    }
    if let Some(computed) = balanced.computed {
        said += &format!(" By the file it would balance at {}, a second, dashed edge.", aft(computed));
    }
    if let Some(pressure) = balanced.pressure {
        said += &format!(" Side wind pushes at the centre of pressure, {} ahead of the aft end.", aft(pressure));
    }
    if let Some(margin) = balanced.margin {
        said += &format!(" Between the two lie {} calibres.", show::number(margin));
    }
    said += " Rulers below count from the aft end:";
    for row in rows {
        let stations: Vec<String> = row.stations.iter().map(|(station, _)| aft(*station)).collect();
        said += &format!(" {} {};", row.name, stations.join(", "));
    }
    let _ = subject;
    said.trim_end_matches(';').to_string() + "."
}
