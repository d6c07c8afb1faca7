//! Who published the formulas.

pub const GEOMETRY: &str = "geometry";
pub const STATICS: &str = "statics: forces and moments in balance";
pub const NEWTON: &str = "Newton's second law";
pub const WEIGHT: &str = "weight is mass times gravity, 9.80665 m/s2 (standard gravity)";
pub const KINEMATICS: &str = "kinematics, acceleration taken as a straight line between two lines of the table";
pub const IMPULSE: &str = "impulse is the area under the curve: trapezoids between its points";
pub const MUNK: &str = "Munk, NACA TR 184, 1924 (from memory)";
pub const BARROWMAN: &str = "Barrowman, 1967 (from memory)";
pub const DIEDERICH: &str = "Diederich, NACA TN 2335, 1951 (from memory)";
pub const BEAM: &str = "Roark; Timoshenko: a cantilever (from memory)";
pub const DYNAMIC: &str = "drag: pressure of the wind times coefficient times area";
pub const GAS: &str = "ideal gas, p = ρ R T";
