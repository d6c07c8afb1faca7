//! The rules that were applied to a file: mostly the same for all files of a run, so that they're kept once.

use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use std::sync::{Arc, Mutex, PoisonError};

/// The rules' names.
#[derive(Clone, Serialize, Deserialize)]
#[serde(from = "Vec<Cow<'static, str>>")]
pub struct Made(Arc<Vec<Cow<'static, str>>>);

impl Made {
    pub fn of(names: Vec<Cow<'static, str>>) -> Made {
        static KNOWN: Mutex<Vec<Made>> = Mutex::new(Vec::new());
        let mut known = KNOWN.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(same) = known.iter().find(|made| *made.0 == names) {
            return same.clone();
        }
        let new = Made(Arc::new(names));
        known.push(new.clone());
        new
    }
}

impl From<Vec<Cow<'static, str>>> for Made {
    fn from(names: Vec<Cow<'static, str>>) -> Made {
        Made::of(names)
    }
}
