//! Design to numbers. Each number is computed once, here; rules, hovers, tables and JSON all read it from the
//! [`Assessment`].
//!
//! In the order in which they are computed:
//!
//! * [`shape`]: each part's outer shape. [`stage`]: the stages' mounts and motors. [`hardware`]: guides by themselves.
//! * [`weigh`]: each part's mass properties, and which of them rest on a default.
//! * [`place`]: where the parts sit, with those that are placed from the balance point. [`mounted`]: motors in the
//!   rocket.
//! * [`weighing`]: the rocket on the scale, which is the one that flies. [`bench`]: what explains that it differs from
//!   the computed one.
//! * [`misfit`]: what can't be about a part beside the others, so that nothing is computed from it.
//! * [`airflow`]: what the air sees: normal force and drag. [`second`]: another method's word on it.
//! * [`airframe`]: all of that together.
//! * [`flight`](mod@flight): one flight's numbers, from the scale over the pad to the ground.
//!
//! Beside them:
//!
//! * [`fit`]: whether a guide runs on what stands on a pad. [`sold`]: the sizes in which rods and rails are sold.
//! * [`motor`](mod@motor): a motor's curve in numbers, and whether its code agrees.
//! * [`field_rules`]: what a chosen jurisdiction limits, and which limits a flight exceeds.
//! * [`flown`](mod@flown): what flights did beside what was expected.
//! * [`spread`]: how far a flight's inputs may be off. [`likelihood`](mod@likelihood): how likely it meets its floors
//!   then, worked out; [`chances`](mod@chances): the same counted over many runs. [`tolerance`]: what the file's
//!   tolerances do to a number.
//! * [`inverse`]: what would just do.
//! * [`unknown`]: what isn't computed and what it needs; [`needed`](mod@needed): which numbers of a flight aren't
//!   known.
//! * [`assumed`](mod@assumed): what a number rests on that the file doesn't say; [`defaults`](mod@defaults): all of it
//!   for a flight.
//! * [`report`]: the numbers under stable names, for JSON. [`traced`]: lines that pictures draw.

mod abreast;
pub mod airflow;
pub mod airframe;
mod assessment;
pub mod assumed;
pub mod bench;
pub mod bought;
pub mod chances;
pub mod defaults;
pub mod field_rules;
pub mod flight;
mod floors;
pub mod flown;
pub mod hardware;
pub mod inverse;
pub mod likelihood;
mod memory;
pub mod misfit;
pub mod motor;
pub mod mounted;
pub mod needed;
pub mod place;
pub mod report;
mod retold;
pub mod second;
pub mod shape;
pub mod sold;
pub mod spread;
pub mod stage;
pub mod tolerance;
pub mod traced;
pub mod unknown;
pub mod weigh;
pub mod weighing;

pub use abreast::{abreast, abreast_over};
pub use airflow::Airflow;
pub use airframe::Airframe;
pub use assessment::{assess, assess_flights, first_balance, fly_ahead, moved_with_balance, Assessment};
pub use assumed::Assumed;
pub use finwright_model::fit;
pub use flight::air::Air;
pub use flight::clearance::Clearance;
pub use flight::flutter::Flutter;
pub use flight::in_gust::{in_gust, InGust};
pub use flight::loads::{GuideLoad, Loads};
pub use flight::pad::{GuideNumbers, InTower, OnPad};
pub use flight::path::{course, path, Landed, NotFlown, Opening, Path};
pub use flight::release::AtRelease;
pub use flight::run::Run;
pub use flight::seat::Seat;
pub use flight::sinking::{Bare, Sinking};
pub use flight::standing::Standing;
pub use flight::stiffness::{Lean, Stiffness};
pub use flight::weighed::{UpperStage, Weighed};
pub use flight::FlightNumbers;
pub use flown::{AllFlown, AsFlown};
pub use likelihood::{likelihood, Likelihood};
pub use memory::remember_flights;
pub use misfit::{Fault, FlightMisfit, Misfit};
pub use motor::MotorNumbers;
pub use needed::Needed;
pub use second::SecondOpinion;
pub use shape::Parts;
pub use spread::{Spread, Spreads};
pub use tolerance::tolerances;
pub use unknown::{Measure, Needs, Subject, Unknown};
pub use weigh::Weight;
pub use weighing::{Basis, Weighing};
