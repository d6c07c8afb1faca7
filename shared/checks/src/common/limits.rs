//! The limits that several rules compare with.

use crate::threshold::Threshold;
use finwright_assess::inverse::EXIT_FLOOR;
use finwright_units::Dimension;

/// The least speed at which the last guide may leave: about 30 mph, where fins take over; more for larger rockets.
pub static EXIT_SPEED: Threshold =
    Threshold::new("exit_speed", Dimension::SPEED, EXIT_FLOOR, "the least speed at which the last guide may leave")
        .high_power(15.0);

/// The least thrust along the guide, in weights.
pub static THRUST_TO_WEIGHT: Threshold = Threshold::new(
    "thrust_to_weight",
    Dimension::NUMBER,
    5.0,
    "the least mean thrust along the guide, over the weight on the pad",
);

/// The least static margin.
pub static MARGIN: Threshold = Threshold::new("margin", Dimension::CALIBRES, 1.0, "the least static margin");

/// The steepest angle of attack.
pub static RELEASE_ANGLE: Threshold = Threshold::new(
    "release_angle",
    Dimension::ANGLE,
    // The arc tangent of a quarter.
    0.244_978_663_126_864_14,
    "the greatest angle of attack at release in the steady wind",
);

/// The steepest slope of the tip.
pub static TIP_SLOPE: Threshold = Threshold::new(
    "tip_slope",
    Dimension::ANGLE,
    1.0_f64.to_radians(),
    "how steeply the tip of a rod or rail may lean in the steady wind, the rocket at rest",
);

/// The greatest step.
pub static STEP: Threshold = Threshold::new(
    "step",
    Dimension::LENGTH,
    0.5e-3,
    "the greatest step between the diameters of neighbouring stretches",
);

/// From when on a rocket is long.
pub static LONG_BODY: Threshold =
    Threshold::new("long_body", Dimension::NUMBER, 18.0, "the length over the diameter from which a rocket is long");

/// The most energy at landing: 75 ft lbf, a rule of student competitions.
pub static LANDING_ENERGY: Threshold =
    Threshold::new("landing_energy", Dimension::ENERGY, 101.7, "the most energy at landing (75 ft lbf)")
        .beginners(20.0);

/// The fastest descent: 20 ft/s.
pub static DESCENT_MOST: Threshold =
    Threshold::new("descent_most", Dimension::SPEED, 6.1, "the fastest descent (20 ft/s)");

/// The fastest opening.
pub static OPENING_SPEED: Threshold =
    Threshold::new("opening_speed", Dimension::SPEED, 20.0, "the fastest opening of a parachute or streamer");

/// Below this top speed it's only noted: small balsa fins fly at it every day.
pub static FLUTTER_NOTE: Threshold = Threshold::new(
    "flutter_note",
    Dimension::SPEED,
    120.0,
    "the top speed up to which fins that may flutter are only noted",
);

/// The width from which a rail is usual.
pub static RAIL_BODY: Threshold = Threshold::new(
    "rail_body",
    Dimension::LENGTH,
    76e-3,
    "the width of body from which a rail is usual, unless it's light",
);

/// The width from which a rail is a must.
pub static RAIL_BODY_ALWAYS: Threshold =
    Threshold::new("rail_body_always", Dimension::LENGTH, 97e-3, "the width of body from which a rail is a must");

/// What is light.
pub static LIGHT_MASS: Threshold =
    Threshold::new("light_mass", Dimension::MASS, 0.5, "the mass on the pad up to which a wide rocket is light");

/// The most clearance of a lug on its rod.
pub static LUG_PLAY: Threshold =
    Threshold::new("lug_play", Dimension::LENGTH, 1.0e-3, "the most by which a lug's bore may exceed the rod");

/// The most that the flight turns.
pub static TURN: Threshold = Threshold::new(
    "turn",
    Dimension::ANGLE,
    20.0_f64.to_radians(),
    "how far the nose may turn into the wind between release and burnout",
);
