//! One file a rule, and the list of them all.

pub mod ahead_of_balance;
pub mod allowances;
pub mod balance_shifts;
pub mod close_spacing;
pub mod code_mismatch;
pub mod descent_rate;
mod elsewhere;
pub mod field;
mod flown;
pub mod flutter;
pub mod hard_landing;
pub mod impossible;
pub mod in_the_way;
pub mod leans;
pub mod lone_guide_off_balance;
pub mod low_margin;
pub mod low_push;
pub mod margins;
pub mod measured_differs;
pub mod mistimed;
pub mod motor_misfit;
pub mod mount_place;
pub mod much_play;
pub mod no_recovery;
pub mod not_checked;
pub mod not_in_line;
pub mod not_straddling;
pub mod odd_size;
pub mod off_body;
pub mod open_curve;
pub mod outside_parent;
pub mod overlap;
pub mod overloaded;
pub mod pad;
pub mod rear_too_far_forward;
pub mod rod_for_body;
mod rounded;
pub mod seat;
pub mod settings_broken;
pub mod shadows;
pub mod short_cord;
pub mod shoulders;
pub mod slow_exit;
pub mod starts_above;
pub mod step;
pub mod tight_packing;
pub mod tip_off;
pub mod too_few_fins;
pub mod too_weak;
pub mod unused;
pub mod wind;
pub mod words;
pub mod wrong_hardware;

use crate::rule::Rule;

/// Every rule, by family.
pub static RULES: &[&Rule] = &[
    &words::UNREADABLE_LINE,
    &words::MISSING_VALUE,
    &words::UNCLOSED_BLOCK,
    &words::STRAY_BRACE,
    &words::UNCLOSED_LIST,
    &words::TOO_DEEP,
    &words::UNKNOWN_BLOCK,
    &words::UNKNOWN_FIELD,
    &words::UNKNOWN_NAME,
    &words::REPEATED_NAME,
    &words::REPEATED_FIELD,
    &words::CIRCULAR_VALUE,
    &words::UNKNOWN_UNIT,
    &words::MISSING_UNIT,
    &words::WRONG_DIMENSION,
    &words::WRONG_FORM,
    &words::OUT_OF_RANGE,
    &words::UNREADABLE_FILE,
    &words::CIRCULAR_USE,
    &words::EMPTY_FILE,
    &words::UNKNOWN_VERSION,
    &words::BROKEN_CURVE,
    &words::BROKEN_OUTLINE,
    &settings_broken::NOT_UNDERSTOOD,
    &not_checked::NOT_CHECKED,
    &unused::UNUSED,
    &shadows::SHADOWS,
    &odd_size::ODD_SIZE,
    &allowances::UNUSED,
    &allowances::BROKEN,
    &slow_exit::SLOW_EXIT,
    &too_weak::TOO_WEAK,
    &starts_above::STARTS_ABOVE,
    &wrong_hardware::WRONG_HARDWARE,
    &wrong_hardware::TIGHT_FIT,
    &wrong_hardware::LOOSE_FIT,
    &much_play::MUCH_PLAY,
    &close_spacing::BINDS,
    &close_spacing::CLOSE_SPACING,
    &not_in_line::NOT_IN_LINE,
    &in_the_way::FIN_IN_THE_WAY,
    &in_the_way::BODY_IN_THE_WAY,
    &seat::ON_TAPER,
    &seat::ACROSS_JOINT,
    &seat::NO_BACKING,
    &seat::SCREW_TOO_LONG,
    &seat::STICK_ON_HEAVY,
    &overloaded::OVERLOADED,
    &rod_for_body::ROD_TOO_THIN,
    &rod_for_body::WANTS_RAIL,
    &rod_for_body::RAIL_AT_HAND,
    &tip_off::TIP_OFF,
    &lone_guide_off_balance::LONE_GUIDE_OFF_BALANCE,
    &not_straddling::NOT_STRADDLING,
    &rear_too_far_forward::REAR_TOO_FAR_FORWARD,
    &pad::TILTED_FAR,
    &pad::LOW_STOP,
    &pad::END_AT_EYE_LEVEL,
    &leans::LEANS,
    &balance_shifts::BALLAST_BEHIND,
    &balance_shifts::SHIFTS_FAR,
    &low_margin::UNSTABLE,
    &low_margin::LOW_MARGIN,
    &margins::LOW_MARGIN_BURNT,
    &margins::LOW_MARGIN_AT_RELEASE,
    &margins::LOW_MARGIN_FOR_LENGTH,
    &margins::OVER_STABLE,
    &margins::WEAK_DAMPING,
    &wind::TOO_STRONG,
    &wind::STEEP_ANGLE,
    &wind::TURNS_FAR,
    &field::OVER_LIMIT,
    &field::TOO_SMALL,
    &field::PEOPLE_TOO_CLOSE,
    &field::DRIFTS_OUT,
    &motor_misfit::MOTOR_TOO_WIDE,
    &motor_misfit::MOTOR_TOO_LONG,
    &motor_misfit::MOTOR_LOOSE,
    &mount_place::TOO_WIDE_FOR_TUBE,
    &mount_place::RECESSED,
    &impossible::NO_WALL,
    &impossible::OGIVE_TOO_SHORT,
    &impossible::PROPELLANT_EXCEEDS_MASS,
    &step::STEP_RULE,
    &shoulders::TIGHT_SHOULDER,
    &shoulders::LOOSE_SHOULDER,
    &shoulders::SHORT_SHOULDER,
    &outside_parent::OUTSIDE_PARENT,
    &overlap::OVERLAP,
    &too_few_fins::TOO_FEW,
    &flutter::FLUTTER,
    &off_body::OFF_BODY,
    &ahead_of_balance::AHEAD_OF_BALANCE,
    &open_curve::OPEN_CURVE,
    &code_mismatch::CODE_MISMATCH,
    &low_push::LOW_PUSH,
    &no_recovery::NONE,
    &descent_rate::FAST_DESCENT,
    &descent_rate::SLOW_DESCENT,
    &mistimed::MISTIMED,
    &hard_landing::HARD_LANDING,
    &short_cord::SHORT_CORD,
    &tight_packing::TIGHT_PACKING,
    &measured_differs::MASS_DIFFERS,
    &measured_differs::BALANCE_DIFFERS,
];

/// The rule of that name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|r| r.name == name)
}
