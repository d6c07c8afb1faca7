//! What several rules share: they borrow nothing from one another.

pub(crate) mod bays;
pub(crate) mod charge;
pub mod code;
pub(crate) mod deferred;
pub(crate) mod each_motor;
pub(crate) mod elsewhere;
pub(crate) mod fineness;
pub mod floors;
pub(crate) mod flown;
pub(crate) mod guides;
pub(crate) mod insert;
pub mod lacks;
pub(crate) mod library;
pub mod limits;
pub(crate) mod longer;
pub(crate) mod misfit;
pub(crate) mod named;
pub mod rods;
pub(crate) mod rounded;
pub(crate) mod seated;
pub(crate) mod slowed;
pub(crate) mod used;
