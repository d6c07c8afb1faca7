//! Designs as text for the tests, and comparison by tolerance.
#![allow(clippy::panic)]

use finwright_assess::{assess, Assessment};
use finwright_model::{build, Design, Files};
use std::path::Path;
use std::sync::Arc;

struct Shelf<'a>(&'a [(&'a str, &'a str)]);

impl Files for Shelf<'_> {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        let found = self.0.iter().find(|(name, _)| Path::new(name) == path);
        found.map(|(_, text)| Arc::from(*text)).ok_or_else(|| format!("no {}", path.display()))
    }
}

/// A design and its numbers; the text must be understood whole.
pub fn assessed(text: &str) -> (Design, Assessment) {
    assessed_among(text, &[])
}

/// A design beside other files, and its numbers; the text must be understood whole.
pub fn assessed_among(text: &str, files: &[(&str, &str)]) -> (Design, Assessment) {
    let design = build(Path::new("design.finw"), Arc::from(text), &Shelf(files));
    assert!(design.problems.is_empty(), "{:?}", design.problems);
    let assessment = assess(&design);
    (design, assessment)
}

/// R1 of the reference values: 3 fins on a 24.8 mm tube, an ogive nose, a 24 g motor. Invented. The lug weighs next to
/// nothing, since R1 has none.
pub const R1: &str = r#"finwright 1
material light { density: 160 kg/m3 }
material paper { density: 680 kg/m3 }
airframe {
  nose { shape: ogive; length: 70 mm; base: 24.8 mm; material: light }
  tube body {
    length: 230 mm; outer: 24.8 mm; inner: 24 mm; material: paper
    fins { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; material: light; at: 0 mm from back }
    mount { bore: 18 mm; outer: 18.8 mm; length: 65 mm; material: paper }
    streamer { length: 600 mm; width: 50 mm; mass: 6 g; at: 105 mm from tip }
    lug only { bore: 3.6 mm; length: 30 mm; wall: 0.3 mm; mass: 0.000001 g; at: balance; clock: 60 deg }
  }
}
motor even { diameter: 18 mm; length: 70 mm; mass: 24 g; propellant: 6 g; delay: 4 s; curve: [0 s: 8 N, 0.6 s: 8 N] }
pad stand { rod { diameter: 1/8 in; length: 0.9144 m; material: steel }; stop: 50 mm; tilt: 5 deg; friction: 0 }
site field { wind: 5 m/s; gust: 8.94 m/s }
flight one { motor: even; pad: stand; guided_by: [only]; site: field }
"#;

/// `text` with one thing changed, which must stand there once.
pub fn but(text: &str, old: &str, new: &str) -> String {
    assert_eq!(text.matches(old).count(), 1, "`{old}` must stand once");
    text.replace(old, new)
}

/// Relative difference.
#[track_caller]
pub fn assert_close(ours: f64, theirs: f64, limit: f64) {
    assert!((ours - theirs).abs() <= limit * theirs.abs(), "ours {ours}, theirs {theirs}");
}
