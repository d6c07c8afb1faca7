//! `fins/fillet-too-large`: fillets larger than the fins leave room for.

use crate::common::misfit;
use crate::common::rounded::{down, mm, TENTH};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_assess::Fault;
use finwright_units::show;

/// The rule.
pub static FILLET_TOO_LARGE: Rule = Rule {
    name: "fins/fillet-too-large",
    family: Family::Fins,
    concerns: Concern::Rocket,
    wind: None,
    level: Level::Error,
    summary: "fillets larger than the fins leave room for",
    why: "What such fillets weigh can't be told, and epoxy at the tail moves the balance point back.",
    prose: include_str!("fillet_too_large.md"),
    thresholds: &[],
    example: Example::new("thickness: 1.6 mm; material: balsa", "thickness: 1.6 mm; fillet: 30 mm; material: balsa"),
    check: Some(check),
};

fn check(cx: &Context, out: &mut Vec<Finding>) {
    misfit::parts(cx, out, |part, misfit| {
        let (message, most) = match misfit.fault {
            Fault::FilletOverSpan { fillet, span } => {
                let (fillet, span) = (show::length(fillet), show::length(span));
                (format!("a fillet of {fillet} is more than all of {}, {span} from root to tip", part.label()), None)
            }
            Fault::FilletsMeet { fillet, most } => {
                let fillet = show::length(fillet);
                (format!("fillets of {fillet} on {} run into those of the next fin", part.label()), Some(most))
            }
            _ => return None,
        };
        let help = match most {
            Some(most) => {
                format!("there is room for {}; a few millimetres are usual", mm(down(most, TENTH)))
            }
            None => "a few millimetres are usual".to_string(),
        };
        Some(FILLET_TOO_LARGE.finding(misfit.place, message).help(help))
    });
}
