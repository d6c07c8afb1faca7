//! The paper that a printer has.

use crate::pdf::Page;
use crate::scene::Scene;

/// A size of paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm × 297 mm: ISO 216.
    #[default]
    A4,
    /// 8.5 in × 11 in.
    Letter,
}

impl Paper {
    /// Its width and height, upright, mm.
    pub fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::Letter => (215.9, 279.4),
        }
    }
}

/// A picture on a page of its own, upright or across, at its own size; where the paper is too small, on one that isn't.
pub fn page_of(scene: &Scene, paper: Paper) -> Page<'_> {
    let (w, h) = paper.size();
    let fits = |(w, h): (f64, f64)| scene.width <= w && scene.height <= h;
    let (width, height) = [(w, h), (h, w)].into_iter().find(|size| fits(*size)).unwrap_or((scene.width, scene.height));
    let left = (width - scene.width) / 2.0;
    Page { width, height, scenes: vec![((left, 0.0), scene)] }
}
