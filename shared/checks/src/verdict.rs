//! One verdict beside the findings: for each flight, for the file, and for every pad that is compared.

use crate::allowance::Allowed;
use crate::common::library::is_library;
use crate::finding::{Finding, Level};
use crate::lacking::unknown_in_words;
use crate::rule::{Concern, Context};
use crate::rules::field::limit_not_checked::LIMIT_NOT_CHECKED;
use crate::rules::file::not_checked::NOT_CHECKED;
use crate::rules::file::not_made::not_made;
use crate::rules::rule;
use finwright_assess::needed::open;
use finwright_assess::{Basis, Needed};
use finwright_grammar::{FileId, Place};
use finwright_model::Design;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Whether to fly, the worst first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// An error touches it.
    NotAsItIs,
    /// A number that is needed isn't known.
    NotChecked,
    /// A warning touches it, or something that its author allows.
    LookAtIt,
    /// None of these.
    MeetsTheChecks,
    /// A file of definitions for others, with nothing in it that would fly.
    Library,
}

impl Verdict {
    /// The verdict in words.
    pub fn words(self) -> &'static str {
        match self {
            Verdict::NotAsItIs => "not as it is",
            Verdict::NotChecked => "not checked",
            Verdict::LookAtIt => "look at it",
            Verdict::MeetsTheChecks => "meets the checks",
            Verdict::Library => "library",
        }
    }

    /// Whether it may fly as far as the checks can tell, or has nothing in it that would.
    pub fn may_pass(self) -> bool {
        self >= Verdict::LookAtIt
    }
}

/// The verdict on one flight, with what it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Judgement {
    /// The verdict.
    pub verdict: Verdict,
    /// The worst that speaks against it; `None` where nothing does.
    pub reason: Option<Reason>,
    /// What is needed for a verdict and isn't known.
    pub unknown: Vec<Needed>,
    /// What else wasn't made, which changes no verdict: each with what it needs.
    pub not_made: Vec<String>,
    /// Whether it's judged in still air, for want of a site.
    pub in_still_air: bool,
    /// Whether mass and balance are those of the bench.
    pub basis: Basis,
    /// What touches it and its author allows.
    pub allowed: Vec<&'static str>,
}

/// What speaks against a flight or a file.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Reason {
    /// The rule.
    pub rule: &'static str,
    /// How much it matters.
    pub level: Level,
    /// What it says.
    pub message: String,
    /// What would mend it; empty where nothing can be said.
    pub help: String,
    /// The author's reason for allowing it, where the author does.
    pub allowed: Option<String>,
}

impl Reason {
    fn of(finding: &Finding, allowed: Option<&str>) -> Reason {
        Reason {
            rule: finding.rule,
            level: finding.level,
            message: finding.message.clone(),
            help: finding.help.clone(),
            allowed: allowed.map(str::to_string),
        }
    }

    /// The rule and what it says, in a line.
    pub fn in_words(&self) -> String {
        match &self.allowed {
            Some(why) => format!("{} is allowed here ({why}): {}", self.rule, self.message),
            None => format!("{}: {}", self.rule, self.message),
        }
    }
}

/// The verdict on a flight that findings and allowed findings touch: all of `found` and `allowed` do.
pub(crate) fn judge(cx: &Context, flight: usize, found: &[&Finding], allowed: &[&Allowed]) -> Judgement {
    let numbers = cx.assessment.flights.iter().find(|n| n.flight == flight);
    let unknown = numbers.map_or(Needed::ALL.to_vec(), |n| open(cx.design, &cx.assessment.airframe, n));
    let (mut verdict, mut reason) = worst(found, allowed);
    if !unknown.is_empty() && verdict > Verdict::NotChecked {
        let help = found.iter().find(|f| f.rule == NOT_CHECKED.name).map_or(String::new(), |f| f.help.clone());
        (verdict, reason) = (Verdict::NotChecked, Some(Reason { help, ..not_known(&unknown) }));
    }
    Judgement {
        verdict,
        reason,
        unknown,
        not_made: not_made(cx).into_iter().map(|made| format!("{}; {}", made.what, made.needs)).collect(),
        in_still_air: cx.design.flights.get(flight).is_some_and(|f| f.site.is_none() && !f.broken.contains(&"site")),
        basis: numbers.map(|n| n.basis()).unwrap_or_default(),
        allowed: allowed.iter().map(|a| a.finding.rule).collect(),
    }
}

/// The verdict on a file: the worst of its flights' and of everything that is found in it.
pub(crate) fn of_file(
    design: &Design,
    flights: &[Judgement],
    found: &[Finding],
    allowed: &[Allowed],
) -> (Verdict, Option<Reason>) {
    let (found, allowed): (Vec<&Finding>, Vec<&Allowed>) = (found.iter().collect(), allowed.iter().collect());
    let (mut verdict, mut reason) = worst(&found, &allowed);
    for judgement in flights {
        if judgement.verdict < verdict {
            (verdict, reason) = (judgement.verdict, judgement.reason.clone());
        }
    }
    if !design.flights.is_empty() || verdict == Verdict::NotAsItIs {
        return (verdict, reason);
    }
    if is_library(design) {
        let verdict = if verdict == Verdict::MeetsTheChecks { Verdict::Library } else { verdict };
        return (verdict, reason);
    }
    let told = found.iter().find(|f| f.rule == NOT_CHECKED.name).map(|f| Reason::of(f, None));
    (Verdict::NotChecked, Some(told.unwrap_or_else(|| not_known(&Needed::ALL))))
}

/// The worst that is found or allowed; of two alike the one further beyond what its rule allows.
fn worst(found: &[&Finding], allowed: &[&Allowed]) -> (Verdict, Option<Reason>) {
    let found = found.iter().filter_map(|f| Some((grade(f)?, *f, None)));
    let allowed = allowed.iter().filter(|a| a.finding.level <= Level::Warning);
    let allowed = allowed.map(|a| (Verdict::LookAtIt, &a.finding, Some(a.reason.as_str())));
    // What speaks for itself comes before what the author allows, and what can't be read before what follows from it.
    let rank = |(verdict, f, allowed): &(Verdict, &Finding, Option<&str>)| {
        let concern = rule(f.rule).map_or(Concern::Words, |rule| rule.concerns);
        (*verdict, allowed.is_some(), concern != Concern::Words, f.level)
    };
    let worst = found.chain(allowed).reduce(|best, next| {
        let (one, other) = (rank(&best), rank(&next));
        if other < one || (other == one && next.1.beyond > best.1.beyond) {
            next
        } else {
            best
        }
    });
    match worst {
        Some((verdict, finding, allowed)) => (verdict, Some(Reason::of(finding, allowed))),
        None => (Verdict::MeetsTheChecks, None),
    }
}

fn grade(finding: &Finding) -> Option<Verdict> {
    match finding.level {
        Level::Error => Some(Verdict::NotAsItIs),
        // What a flight lacks is judged by the flight.
        _ if finding.rule == NOT_CHECKED.name => None,
        // A limit that somebody stands behind is met or it isn't known to be.
        Level::Warning if finding.rule == LIMIT_NOT_CHECKED.name => Some(Verdict::NotChecked),
        Level::Warning => Some(Verdict::LookAtIt),
        Level::Note => None,
    }
}

fn not_known(unknown: &[Needed]) -> Reason {
    Reason {
        rule: NOT_CHECKED.name,
        level: NOT_CHECKED.level,
        message: unknown_in_words("its", unknown),
        help: String::new(),
        allowed: None,
    }
}

/// Whether words that can't be understood touch a flight: they don't where they stand in the block of a motor, pad,
/// site or flight that isn't its own.
pub(crate) fn words_touch(design: &Design, flight: usize, place: Place) -> bool {
    let (Some(flight), Some(file)) = (design.flights.get(flight), design.files.first()) else { return true };
    if place.file != FileId(0) {
        return true;
    }
    let blocks = file.tree.blocks_at(place.span.start as usize);
    let Some(block) = blocks.first() else { return true };
    let inside = |at: Place| at.file == FileId(0) && block.span.touches(at.span.start as usize);
    let named = |it: &Option<finwright_model::Named<usize>>| it.as_ref().map(|named| named.value);
    match file.tree.text(block.word) {
        "flight" => inside(flight.header),
        "motor" => match design.motors.iter().position(|motor| inside(motor.header)) {
            Some(id) => [named(&flight.motor), named(&flight.booster_motor)].contains(&Some(id)),
            None => true,
        },
        "pad" => match design.pads.iter().position(|pad| inside(pad.header)) {
            Some(id) => named(&flight.pad) == Some(id),
            None => true,
        },
        "site" => match design.sites.iter().position(|site| inside(site.name.place)) {
            Some(id) => named(&flight.site) == Some(id),
            None => true,
        },
        _ => true,
    }
}
