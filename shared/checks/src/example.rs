//! Examples of rules: how it's done, and how not. Both are run as tests, so that they can't lie.

/// A line or two of a design as they should be, and the same with the fault.
///
/// To be run they are put into [`BASE`]: `good` stands there word for word, once, after the changes of `after`.
#[derive(Debug)]
pub struct Example {
    /// As it should be.
    pub good: &'static str,
    /// With the fault.
    pub bad: &'static str,
    /// What is changed in [`BASE`] first: words that stand there once, and what replaces them.
    pub after: &'static [(&'static str, &'static str)],
    /// The `finwright.toml` that it's checked with.
    pub settings: &'static str,
}

impl Example {
    /// An example in the base design as it is.
    pub const fn new(good: &'static str, bad: &'static str) -> Example {
        Example { good, bad, after: &[], settings: "" }
    }

    /// An example in a base design that is changed first.
    pub const fn after(mut self, after: &'static [(&'static str, &'static str)]) -> Example {
        self.after = after;
        self
    }

    /// An example checked with a `finwright.toml`.
    pub const fn settings(mut self, settings: &'static str) -> Example {
        self.settings = settings;
        self
    }

    /// The design with the good lines.
    pub fn good_design(&self) -> String {
        self.after.iter().fold(BASE.to_string(), |text, (old, new)| text.replacen(old, new, 1))
    }

    /// The design with the bad lines.
    pub fn bad_design(&self) -> String {
        self.good_design().replacen(self.good, self.bad, 1)
    }
}

/// A design that meets every check, in which examples are run. Invented.
pub const BASE: &str = r#"finwright 1
let caliber = 24.8 mm
airframe {
  nose { shape: ogive; length: 70 mm; base: caliber; material: basswood
    shoulder { length: 20 mm; outer: 23.9 mm }
    ballast { mass: 1 g; at: 50 mm from front }
  }
  tube body {
    length: 230 mm; outer: caliber; inner: 24 mm; material: kraft_paper
    fins main { count: 3; root: 50 mm; tip: 30 mm; span: 40 mm; sweep: 25 mm; thickness: 1.6 mm; material: balsa; at: 0 mm from back }
    mount engine { bore: 18 mm; outer: 18.8 mm; length: 70 mm; sticks_out: 5 mm; material: kraft_paper
      rings { count: 2; thickness: 4 mm; material: cardboard }
    }
    parachute { diameter: 300 mm; mass: 4 g; at: 60 mm from front; drag: 0.75 }
    cord { length: 600 mm; mass: 1.5 g; at: 90 mm from front }
    lug only { bore: 3.6 mm; length: 40 mm; wall: 0.3 mm; at: balance; clock: 60 deg }
    lug fore { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 20 mm ahead of balance; clock: 60 deg }
    lug aft { bore: 3.6 mm; length: 20 mm; wall: 0.3 mm; at: 12 mm from back; clock: 60 deg }
    button nut { profile: 15 mm; at: 15 mm ahead of balance; clock: 180 deg }
    button peg { profile: 15 mm; at: 12 mm from back; clock: 180 deg }
  }
}
motor b8 {
  code: "B8-4"; diameter: 18 mm; length: 70 mm; mass: 19 g; propellant: 5.6 g; delay: 4 s
  curve: [0 s: 0 N, 0.05 s: 9 N, 0.1 s: 14 N, 0.2 s: 13 N, 0.3 s: 6 N, 0.55 s: 5 N, 0.6 s: 0 N]
}
pad stand { rod { diameter: 3.2 mm; length: 1 m; material: steel }; stop: 50 mm; tilt: 2 deg; end: capped }
pad track { rail { slot: slim; length: 1 m }; stop: 50 mm; tilt: 2 deg }
site meadow { elevation: 20 m; wind: 2 m/s; gust: 3 m/s }
flight one { motor: b8; pad: stand; guided_by: [only]; site: meadow }
flight two { motor: b8; pad: stand; guided_by: [aft, fore]; site: meadow }
flight slotted { motor: b8; pad: track; guided_by: [peg, nut]; site: meadow }
"#;
