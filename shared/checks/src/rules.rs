//! One file a rule, and the list of them all.

pub mod allowances;
pub mod balance;
pub(crate) mod consequences;
pub mod field;
pub mod file;
pub mod fins;
pub mod flight;
pub mod guide;
pub mod measured;
pub(crate) mod misfit;
pub mod motor;
pub mod mount;
pub mod pad;
pub mod recovery;
mod rounded;
pub mod shape;
pub mod stability;
pub mod wind;
pub mod words;

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
    &file::settings_broken::NOT_UNDERSTOOD,
    &file::missing_field::MISSING_FIELD,
    &file::not_checked::NOT_CHECKED,
    &file::not_made::NOT_MADE,
    &file::unused::UNUSED,
    &file::shadows::SHADOWS,
    &file::odd_size::ODD_SIZE,
    &allowances::UNUSED,
    &allowances::BROKEN,
    &guide::slow_exit::SLOW_EXIT,
    &guide::slow_front::SLOW_FRONT,
    &motor::too_weak::TOO_WEAK,
    &guide::starts_above::STARTS_ABOVE,
    &guide::off_rocket::OFF_ROCKET,
    &guide::one_place::ONE_PLACE,
    &guide::wrong_hardware::WRONG_HARDWARE,
    &guide::wrong_hardware::TIGHT_FIT,
    &guide::wrong_hardware::LOOSE_FIT,
    &guide::much_play::MUCH_PLAY,
    &guide::close_spacing::BINDS,
    &guide::close_spacing::CLOSE_SPACING,
    &guide::not_in_line::NOT_IN_LINE,
    &guide::fin_in_the_way::FIN_IN_THE_WAY,
    &guide::body_in_the_way::BODY_IN_THE_WAY,
    &guide::on_taper::ON_TAPER,
    &guide::across_joint::ACROSS_JOINT,
    &guide::no_backing::NO_BACKING,
    &guide::screw_too_long::SCREW_TOO_LONG,
    &guide::stick_on_heavy::STICK_ON_HEAVY,
    &guide::overloaded::OVERLOADED,
    &guide::rod_too_thin::ROD_TOO_THIN,
    &guide::wants_rail::WANTS_RAIL,
    &guide::rail_at_hand::RAIL_AT_HAND,
    &guide::tip_off::TIP_OFF,
    &guide::lone_guide_off_balance::LONE_GUIDE_OFF_BALANCE,
    &guide::not_straddling::NOT_STRADDLING,
    &guide::rear_too_far_forward::REAR_TOO_FAR_FORWARD,
    &pad::tilted_far::TILTED_FAR,
    &pad::low_stop::LOW_STOP,
    &pad::end_at_eye_level::END_AT_EYE_LEVEL,
    &pad::leans::LEANS,
    &balance::ballast_behind::BALLAST_BEHIND,
    &balance::shifts_far::SHIFTS_FAR,
    &stability::low_margin::UNSTABLE,
    &stability::low_margin::LOW_MARGIN,
    &stability::low_margin_burnt::LOW_MARGIN_BURNT,
    &stability::low_margin_at_release::LOW_MARGIN_AT_RELEASE,
    &stability::low_margin_for_length::LOW_MARGIN_FOR_LENGTH,
    &stability::over_stable::OVER_STABLE,
    &stability::weak_damping::WEAK_DAMPING,
    &wind::too_strong::TOO_STRONG,
    &wind::steep_angle::STEEP_ANGLE,
    &wind::turns_far::TURNS_FAR,
    &field::over_limit::OVER_LIMIT,
    &field::odd_pressure::ODD_PRESSURE,
    &field::too_small::TOO_SMALL,
    &field::people_too_close::PEOPLE_TOO_CLOSE,
    &field::limit_not_checked::LIMIT_NOT_CHECKED,
    &field::drifts_out::DRIFTS_OUT,
    &mount::motor_misfit::MOTOR_TOO_WIDE,
    &mount::motor_misfit::MOTOR_TOO_LONG,
    &mount::motor_misfit::MOTOR_LOOSE,
    &mount::mount_place::TOO_WIDE_FOR_TUBE,
    &mount::mount_place::RECESSED,
    &mount::no_room::NO_ROOM,
    &shape::no_wall::NO_WALL,
    &shape::thick_wall::THICK_WALL,
    &shape::no_nose::NO_NOSE,
    &shape::nose_behind::NOSE_BEHIND,
    &shape::ogive_too_short::OGIVE_TOO_SHORT,
    &motor::propellant_exceeds_mass::PROPELLANT_EXCEEDS_MASS,
    &shape::step::STEP_RULE,
    &shape::shoulders::TIGHT_SHOULDER,
    &shape::shoulders::LOOSE_SHOULDER,
    &shape::shoulders::SHORT_SHOULDER,
    &shape::outside_parent::OUTSIDE_PARENT,
    &shape::overlap::OVERLAP,
    &shape::in_solid::IN_SOLID,
    &shape::too_wide_inside::TOO_WIDE_INSIDE,
    &shape::off_axis::OFF_AXIS,
    &shape::balance_outside::BALANCE_OUTSIDE,
    &flight::near_its_floors::NEAR_ITS_FLOORS,
    &fins::too_few_fins::TOO_FEW,
    &fins::crossing::CROSSING,
    &fins::crowded::CROWDED,
    &fins::tab_too_large::TAB_TOO_LARGE,
    &fins::fillet_too_large::FILLET_TOO_LARGE,
    &fins::flutter::FLUTTER,
    &fins::flutter_not_checked::FLUTTER_NOT_CHECKED,
    &fins::off_body::OFF_BODY,
    &fins::ahead_of_balance::AHEAD_OF_BALANCE,
    &motor::open_curve::OPEN_CURVE,
    &motor::code_mismatch::CODE_MISMATCH,
    &motor::low_push::LOW_PUSH,
    &motor::no_charge::NO_CHARGE,
    &recovery::no_recovery::NONE,
    &recovery::descent_rate::FAST_DESCENT,
    &recovery::descent_rate::SLOW_DESCENT,
    &recovery::mistimed::MISTIMED,
    &recovery::hard_opening::HARD_OPENING,
    &recovery::hard_landing::HARD_LANDING,
    &recovery::no_cord::NO_CORD,
    &recovery::short_cord::SHORT_CORD,
    &recovery::streamer_shape::STREAMER_SHAPE,
    &recovery::tight_packing::TIGHT_PACKING,
    &measured::measured_differs::MASS_DIFFERS,
    &measured::measured_differs::BALANCE_DIFFERS,
    &measured::measured_differs::IMPOSSIBLE,
    &measured::not_used::NOT_USED,
];

/// The rule of that name.
pub fn rule(name: &str) -> Option<&'static Rule> {
    RULES.iter().copied().find(|r| r.name == name)
}
