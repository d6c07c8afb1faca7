//! One file a rule, and the list of them all.

pub mod allowances;
pub mod code_mismatch;
pub mod impossible;
pub mod lone_guide_off_balance;
pub mod low_margin;
pub mod measured_differs;
pub mod motor_misfit;
pub mod not_checked;
pub mod not_straddling;
pub mod open_curve;
pub mod rear_too_far_forward;
pub mod settings_broken;
pub mod slow_exit;
pub mod starts_above;
pub mod too_few_fins;
pub mod too_weak;
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
    &allowances::UNUSED,
    &allowances::BROKEN,
    &slow_exit::SLOW_EXIT,
    &too_weak::TOO_WEAK,
    &starts_above::STARTS_ABOVE,
    &wrong_hardware::WRONG_HARDWARE,
    &wrong_hardware::TIGHT_FIT,
    &lone_guide_off_balance::LONE_GUIDE_OFF_BALANCE,
    &not_straddling::NOT_STRADDLING,
    &rear_too_far_forward::REAR_TOO_FAR_FORWARD,
    &low_margin::UNSTABLE,
    &low_margin::LOW_MARGIN,
    &motor_misfit::MOTOR_TOO_WIDE,
    &motor_misfit::MOTOR_TOO_LONG,
    &motor_misfit::MOTOR_LOOSE,
    &impossible::NO_WALL,
    &impossible::OGIVE_TOO_SHORT,
    &impossible::PROPELLANT_EXCEEDS_MASS,
    &too_few_fins::TOO_FEW,
    &open_curve::OPEN_CURVE,
    &code_mismatch::CODE_MISMATCH,
    &measured_differs::MASS_DIFFERS,
    &measured_differs::BALANCE_DIFFERS,
];

/// The rule of that name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|r| r.name == name)
}
