//! How long a rod or rail must be: of each usual size the shortest that meets everything, wind by wind, and the rule
//! that decides.

use crate::asked::{is_of_the_rocket, Asked};
use crate::candidate::trials;
use crate::ceiling::Limit;
use crate::supposed::{amount, in_wind, Supposed};
use crate::usual::usual_pads;
use finwright_checks::{Finding, Level};
use finwright_model::{Design, Pad, Rail};
use finwright_units::show;
use serde::Serialize;
use std::sync::Arc;

/// The shortest usual rods and rails for one motor at one site.
#[derive(Clone, Debug, Serialize)]
pub struct Lengths {
    /// The steady winds, m/s; gusts keep the site's proportion to them.
    pub winds_m_s: Vec<f64>,
    /// The sizes that the rocket's own guides run on, then those that it would need others for; rods before rails, the
    /// smaller before the larger.
    pub sizes: Vec<Size>,
}

/// A size of rod or rail.
#[derive(Clone, Debug, Serialize)]
pub struct Size {
    /// What it is: "4 mm rod".
    pub rail: String,
    /// Whether it's a rail.
    pub is_rail: bool,
    /// The guides that run on it: the rocket's own by name, or what it would need.
    pub guides: Vec<String>,
    /// Whether the rocket has these guides.
    pub fits: bool,
    /// The shortest in each of the winds.
    pub least: Vec<Least>,
}

/// The shortest of a size in one wind.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Least {
    /// The steady wind, m/s.
    pub wind_m_s: f64,
    /// The shortest length that meets everything, m, up to the next centimetre; `None` where no length does.
    pub length_m: Option<f64>,
    /// What is found a centimetre below it; where no length does, what is against the one that comes nearest. `None`
    /// where even the shortest that is tried would do.
    pub limit: Option<Limit>,
    /// What this wind does besides, whatever the flight begins from.
    pub besides: Option<Limit>,
}

/// The shortest and the longest lengths that are tried, m: nobody puts up more at a club's field (common practice, no
/// source).
const SHORTEST: f64 = 0.3;
const LONGEST_ROD: f64 = 2.4;
const LONGEST_RAIL: f64 = 6.0;
/// Lengths tried one after the other, m, before the shortest is closed in on.
const STEP: f64 = 0.1;
/// Lengths are found to this, m.
const CLOSE: f64 = 0.01;

/// The shortest of each usual size in each of the winds.
pub(crate) fn lengths(asked: &Asked, like: Option<&Pad>, winds: &[f64]) -> Lengths {
    let of = |pads: Vec<Pad>| size(asked, pads.last()?, winds);
    let mut sizes: Vec<Size> = usual_pads(&asked.bare.design, like).into_iter().filter_map(of).collect();
    sizes.sort_by_key(|size| !size.fits);
    Lengths { winds_m_s: winds.to_vec(), sizes }
}

fn size(asked: &Asked, pad: &Pad, winds: &[f64]) -> Option<Size> {
    let trial = trials(asked, pad).into_iter().next()?;
    let candidate = trial.candidate;
    let rail = size_in_words(&trial.supposed.design, pad)?;
    let most = if candidate.is_rail { LONGEST_RAIL } else { LONGEST_ROD };
    let least = |wind: &f64| least(asked, &trial.supposed, *wind, most);
    let least = winds.iter().map(least).collect();
    Some(Size { rail, is_rail: candidate.is_rail, guides: candidate.guides, fits: candidate.fits, least })
}

/// The shortest length in one wind. Lengths are tried from the shortest on, since a long rod fails again by its lean.
fn least(asked: &Asked, supposed: &Supposed, wind: f64, most: f64) -> Least {
    let mut design = in_wind(supposed.design.clone(), wind);
    // What is found speaks of the flight that was asked about.
    if let (Some(flight), Some(own)) = (design.flights.first_mut(), asked.bare.design.flights.first()) {
        flight.name = own.name.clone();
    }
    let in_this = supposed.again(design);
    let at = |length: f64| against(asked, &in_this, length);
    let mut below: Option<Box<Finding>> = None;
    let mut nearest: Option<Box<Finding>> = None;
    // In whole centimetres, so that what is told is what was tried.
    let centimetres = |length: f64| (length / CLOSE).round() as u32;
    for length in (centimetres(SHORTEST)..=centimetres(most)).step_by(centimetres(STEP) as usize) {
        match at(f64::from(length) * CLOSE) {
            Against::Found(found) => {
                if nearest.as_ref().is_none_or(|known| is_nearer(&found, known)) {
                    nearest = Some(found.clone());
                }
                below = Some(found);
            }
            Against::NotChecked => {}
            Against::Nothing => {
                let (mut good, mut bad) = (length, length - centimetres(STEP));
                while length > centimetres(SHORTEST) && good - bad > 1 {
                    let middle = (good + bad) / 2;
                    match at(f64::from(middle) * CLOSE) {
                        Against::Nothing => good = middle,
                        Against::Found(found) => (bad, below) = (middle, Some(found)),
                        Against::NotChecked => bad = middle,
                    }
                }
                let length = f64::from(good) * CLOSE;
                let (limit, besides) = (below.as_deref().map(Limit::of), besides(asked, &in_this, length));
                return Least { wind_m_s: wind, length_m: Some(length), limit, besides };
            }
        }
    }
    Least { wind_m_s: wind, length_m: None, limit: nearest.as_deref().map(Limit::of), besides: None }
}

/// What a wind brings that doesn't hang on the pad, and isn't found in still air.
fn besides(asked: &Asked, supposed: &Supposed, length: f64) -> Option<Limit> {
    let in_wind_of = |wind: Option<f64>| {
        let design = with_length(supposed.design.clone(), length);
        let supposed = supposed.again(wind.map_or(design.clone(), |wind| in_wind(design, wind)));
        asked.analysis.judge_supposed(&supposed.design, &supposed.assessment, asked.like).findings
    };
    let mut found = in_wind_of(None);
    found.retain(is_of_the_rocket);
    if found.is_empty() {
        return None;
    }
    let calm = in_wind_of(Some(0.0));
    found.iter().find(|f| !calm.iter().any(|known| known.rule == f.rule)).map(Limit::of)
}

/// What is against a length.
enum Against {
    Nothing,
    /// The gravest finding.
    Found(Box<Finding>),
    /// Something that is needed isn't known, as where the guides don't even reach the rod's end.
    NotChecked,
}

fn against(asked: &Asked, supposed: &Supposed, length: f64) -> Against {
    let supposed = supposed.again(with_length(supposed.design.clone(), length));
    let judged = asked.analysis.judge_supposed(&supposed.design, &supposed.assessment, asked.like);
    let grave = judged.findings.into_iter().filter(|f| f.level <= Level::Warning);
    let mut of_the_pad = grave.filter(|f| !is_of_the_rocket(f));
    match of_the_pad.next() {
        Some(found) => Against::Found(Box::new(found)),
        None if judged.judgement.unknown.is_empty() => Against::Nothing,
        None => Against::NotChecked,
    }
}

fn is_nearer(one: &Finding, other: &Finding) -> bool {
    (other.level, one.beyond) < (one.level, other.beyond)
}

/// The only flight, its rod or rail cut to another length.
pub(crate) fn with_length(mut design: Design, length: f64) -> Design {
    let number = design.flights.first().and_then(|flight| Some(flight.pad.as_ref()?.value));
    if let Some(pad) = number.and_then(|number| design.pads.get_mut(number)) {
        *pad = Arc::new(cut_to(pad.as_ref().clone(), length));
    }
    design
}

/// A pad whose rod or rail is cut to another length, m.
pub(crate) fn cut_to(mut pad: Pad, length: f64) -> Pad {
    let here = pad.header;
    if let Some(Rail::Rod { length: own, .. } | Rail::Slotted { length: own, .. } | Rail::Tower { length: own, .. }) =
        &mut pad.rail
    {
        *own = Some(amount(length, here));
    }
    pad
}

/// A rod or rail without its length, in words.
fn size_in_words(design: &Design, pad: &Pad) -> Option<String> {
    Some(match pad.rail.as_ref()? {
        Rail::Rod { diameter, .. } => format!("{} rod", show::length(diameter.as_ref()?.si)),
        Rail::Slotted { slot, .. } => {
            let width = design.sections.get(slot.as_ref()?.value)?.width.as_ref()?;
            format!("{} rail", show::length(width.si))
        }
        Rail::Tower { bore, .. } => format!("{} tower", show::length(bore.as_ref()?.si)),
    })
}
