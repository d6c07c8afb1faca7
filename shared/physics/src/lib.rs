//! The numbers of a model rocket and its guide: mass, aerodynamics, motor, air, guided run.
//!
//! Everything is SI. Stations run in metres from the nose tip, positive aft; angles are in radians;
//! normal-force slopes are per radian. Functions know no text, files or clock, and the same inputs
//! give the same bits. What can't be computed comes back as a value that says why.
//!
//! The map, in the order in which a rocket is worked out:
//!
//! | module | holds |
//! |---|---|
//! | [`mass`] | mass properties and how they add up |
//! | [`nose`], [`section`] | shapes of revolution: volume, areas, mass as solid or wall |
//! | [`fins`] | plan-forms: area, chords, mass of the plates |
//! | [`normal_force`] | normal force and centre of pressure |
//! | [`ring_wing`] | the same of rings and tubes that work as fins |
//! | [`lattice`] | a second opinion on fins, and the lift that they put on the body |
//! | [`friction`], [`pressure_drag`], [`drag`] | drag, term by term |
//! | [`motor`] | thrust curve, impulse class, mass that burns away |
//! | [`air`] | standard atmosphere, a site's air, wind |
//! | [`guided`] | along the rod or rail until the last guide leaves |
//! | [`aerodynamics`], [`flight`] | the whole rocket in the air, from release to the ground |
//! | [`beam`], [`reactions`], [`beside_rod`] | the guide's lean and frequency, what the guides carry, room around them |
//! | [`whip`] | the rod or rail swinging in a gust |
//! | [`stability`] | the swing after release |
//! | [`plate`] | the speed that a thin fin bears |
//! | [`descent`] | canopies, descent speed, drift |
//! | [`closed_form`] | the same in formulas a calculator can check |
//! | [`monte_carlo`] | many runs with values drawn from their tolerances |
//! | [`normal`] | the normal distribution's integral |
//! | [`ode`], [`quadrature`], [`roots`], [`linear`] | the numerical methods underneath |

pub mod aerodynamics;
pub mod air;
pub mod beam;
pub mod beside_rod;
pub mod canopies;
pub mod closed_form;
pub mod descent;
pub mod drag;
pub mod fins;
pub mod flight;
pub mod friction;
pub mod guided;
pub mod lattice;
pub mod linear;
pub mod mass;
pub mod monte_carlo;
pub mod motor;
pub mod normal;
pub mod normal_force;
pub mod nose;
pub mod ode;
pub mod plate;
pub mod pressure_drag;
pub mod quadrature;
pub mod reactions;
pub mod ring_wing;
pub mod roots;
pub mod section;
pub mod stability;
pub mod thread;
pub mod whip;
