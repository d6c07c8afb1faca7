//! Sheets for the bench and the field: what is marked out at true size, a card for each flight, a list of them, a
//! working as a page.

mod card;
mod clip;
pub mod html;
mod list;
mod marking;
mod working;

pub use card::{card, card_size, cards_on, far};
pub use list::{list, List, Row};
pub use marking::marking;
pub use working::working;
