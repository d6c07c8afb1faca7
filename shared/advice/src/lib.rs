//! The judgement that a practitioner asks for: which rod or rail, where the guides go, up to what wind, and why.
//!
//! * [`supposed`]: a design as it would be with another pad, other guides, another wind. Nothing here is guessed in
//!   prose: what is supposed is built, assessed and judged by the same rules as what stands in the file.
//! * [`placement`]: where one lug or two guides go on this airframe.
//! * [`candidate`]: one pad, judged.
//! * [`compare`](mod@compare): every pad at hand, or the usual rods and rails as they are sold, side by side and
//!   ranked.
//! * [`ceiling`](mod@ceiling): the strongest wind in which a flight still passes every rule.
//! * [`heaviest`](mod@heaviest): the most that the rocket may weigh on a pad.
//! * [`lengths`](mod@lengths): how long a rod or rail of each usual size must be, wind by wind.
//! * [`table`](mod@table) and [`words`]: the comparison in cells and in sentences.

mod asked;
pub mod candidate;
pub mod ceiling;
pub mod compare;
pub mod heaviest;
pub mod lengths;
pub mod placement;
pub mod supposed;
pub mod table;
mod usual;
pub mod words;

pub use candidate::Candidate;
pub use ceiling::{ceiling, Ceiling};
pub use compare::{choose, compare, compare_flight, Chosen, Comparison, Motors, Wish};
pub use heaviest::Heaviest;
pub use lengths::{Least, Lengths, Size};
pub use placement::{place, Hardware, Placement};
