//! `guide/screw-too-long`: a button's screw that reaches the motor mount.

use crate::common::seated::{each, Seated};
use crate::example::Example;
use crate::finding::{Finding, Level};
use crate::rule::{Concern, Context, Family, Rule};
use finwright_model::fit::SAME;
use finwright_model::PartKind;
use finwright_units::show;

/// A screw that reaches the mount.
pub static SCREW_TOO_LONG: Rule = Rule {
    name: "guide/screw-too-long",
    family: Family::Guide,
    concerns: Concern::Pad,
    wind: None,
    level: Level::Error,
    summary: "a button's screw that reaches the motor mount",
    why: "A screw that dents the mount keeps the motor out, or cuts into its case.",
    prose: include_str!("screw_too_long.md"),
    thresholds: &[],
    example: Example::new(
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg; screw: 2.5 mm }",
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg; screw: 6 mm }",
    )
    .after(&[(
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg }",
        "button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg; screw: 2.5 mm }",
    )]),
    check: Some(|cx, out| each(cx, out, screw_too_long)),
};

fn screw_too_long(_: &Context, seated: &Seated) -> Option<Finding> {
    let PartKind::Button { screw: Some(screw), .. } = &seated.part.kind else { return None };
    let depth = seated.seat.depth.filter(|_| seated.seat.backing.is_none())?;
    if screw.si <= depth + SAME {
        return None;
    }
    let [reaches, begins] = show::lengths_apart(screw.si, depth);
    let room = format!("{} mm", show::trimmed((depth * 1e4).floor() / 10.0, 1));
    Some(
        SCREW_TOO_LONG
            .finding(
                screw.place,
                format!(
                    "{}'s screw reaches {reaches} inward, and the mount begins {begins} from the outside",
                    seated.part.label()
                ),
            )
            .help(format!("{room} of screw and nut, or place the button over a ring"))
            .fix(format!("shorten it to {room}"), screw.place, room),
    )
}
