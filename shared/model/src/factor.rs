//! What flights have shown of drag and thrust, as the file says it.

use crate::design::{Design, Motor};
use crate::pad::Taken;

impl Design {
    /// What the drag is multiplied by: 1, unless said.
    pub fn drag_factor_or_one(&self) -> f64 {
        Taken::or(self.drag_factor.as_ref(), 1.0).si
    }
}

impl Motor {
    /// What the thrust is multiplied by: 1, unless said.
    pub fn thrust_factor_or_one(&self) -> f64 {
        Taken::or(self.thrust_factor.as_ref(), 1.0).si
    }
}
