//! Pictures of a design as plain data, and what writes them.
//!
//! * [`scene`]: what a picture is made of. [`svg`](mod@svg): its writer for screens; [`pdf`](mod@pdf): the one for
//!   paper.
//! * [`picture`](mod@picture): the seven pictures by name, each with the question that it answers, and the way to a
//!   scene.
//! * [`draft`]: the kit that they are drawn with; with it [`font`], [`hatch`](mod@hatch), [`column`] and
//!   [`spread`](mod@spread), which keep words apart.
//! * [`subject`]: the design and flight that a picture is of. [`rocket`](mod@rocket), [`side`] and [`pose`]: the rocket
//!   from the side, and on its pad.
//!
//! * [`sheet`]: what is marked out, flight cards, lists, workings; [`paper`] is what they are printed on.
//! * [`marks`](mod@marks): many values on one line, a mark each.
//!
//! No number is computed here: everything that a picture says is read in the analysis.

mod bench;
pub mod colour;
pub mod column;
pub mod draft;
mod end_on;
pub mod font;
pub mod hatch;
mod lacking;
mod margin;
pub mod marks;
pub mod paper;
mod path;
pub mod pdf;
pub mod picture;
pub mod plot;
pub mod pose;
pub mod rocket;
pub mod room;
mod run;
pub mod scene;
pub mod sheet;
pub mod side;
pub mod spread;
mod stand;
pub mod subject;
pub mod svg;
mod window;

pub use picture::{picture, Picture, Refusal, Size};
pub use scene::Scene;
pub use svg::svg;
