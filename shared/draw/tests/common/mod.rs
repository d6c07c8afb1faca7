//! Designs to draw: the corpus, and generated ones of every size and shape.
#![allow(clippy::unwrap_used, clippy::panic)]

use finwright_checks::settings::settings_for;
use finwright_checks::{analyze, Analysis, Settings, Snapshot};
use finwright_disk::{read_text, real_path, DiskFiles};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Every design of the corpus, sound or not, by its path.
pub fn corpus() -> Vec<PathBuf> {
    let root = real_path(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs"));
    let mut found = Vec::new();
    let mut folders = vec![root];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()) {
            match entry.is_dir() {
                true => folders.push(entry),
                false if entry.extension().is_some_and(|ending| ending == "finw") => found.push(entry),
                false => {}
            }
        }
    }
    found.sort();
    found
}

/// Everything known about a file's design.
pub fn analysis_of(path: &Path) -> Option<Analysis> {
    let text = read_text(path).ok()?;
    let files = Arc::new(DiskFiles::below([path.parent()?.parent()?.to_path_buf()]));
    let settings = Arc::new(settings_for(path, |path| path.exists().then(|| read_text(path))));
    Some(analyze(&Snapshot { path: path.to_path_buf(), text, files, settings }))
}

/// Everything known about a design by its text.
pub fn analysis(text: &str) -> Analysis {
    let (files, settings) = (Arc::new(DiskFiles::below([])), Arc::new(Settings::default()));
    analyze(&Snapshot { path: PathBuf::from("made.finw"), text: text.into(), files, settings })
}

/// The corpus' trainer, with some of its words replaced.
pub fn trainer(changes: &[(&str, &str)]) -> Analysis {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/designs/good/reed_heron.finw");
    let mut text = std::fs::read_to_string(path).unwrap();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    analysis(&text)
}

/// A generator whose numbers are the same everywhere: Knuth's 64-bit linear congruential one, from memory.
pub struct Dice(pub u64);

impl Dice {
    /// A number from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    /// One of several.
    pub fn of<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.between(0.0, of.len() as f64 - 1e-9) as usize]
    }
}

/// A design of any size from a thumb's to a man's, thin or fat, with names as long as they come.
pub fn made(seed: u64) -> String {
    let mut d = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) + 1);
    let wide = 10.0_f64.powf(d.between(0.9, 2.3));
    let long = wide * d.between(3.0, 40.0);
    let nose = wide * d.between(0.3, 6.0);
    let root = (wide * d.between(0.4, 3.0)).min(long * 0.8);
    let span = wide * d.between(0.2, 3.0);
    let count = d.between(3.0, 8.99) as u32;
    let bore = (wide * d.between(0.3, 0.8)).max(3.0);
    let motor = (bore * d.between(2.0, 6.0)).min(long * 0.9);
    let mass = 5e-5 * motor * bore * bore;
    let push = mass * 9.8e-3 * d.between(1.0, 60.0);
    let burn = d.between(0.2, 4.0);
    let rail = if wide > 45.0 || d.between(0.0, 1.0) > 0.6 { "rail" } else { "rod" };
    let length = (long + nose) * d.between(0.5, 6.0);
    let wall = wide * d.between(0.005, 0.03);
    let (guide, pad) = match rail {
        "rail" => {
            let slot = d.of(&["10 mm", "15 mm", "20 mm", "25.4 mm"]);
            (
                format!("button NAME {{ profile: {slot}; AT; clock: CLOCK }}"),
                format!("rail {{ slot: {}; length: {length:.1} mm }}", d.of(&["mini", "wide"])),
            )
        }
        _ => {
            let rod = d.between(1.5, 10.0);
            let lug = format!(
                "lug NAME {{ bore: {:.2} mm; length: {:.1} mm; wall: 0.4 mm; AT; clock: CLOCK }}",
                rod * 1.1,
                long * 0.05
            );
            (lug, format!("rod {{ diameter: {rod:.2} mm; length: {length:.1} mm; material: steel }}"))
        }
    };
    let clock = format!("{:.0} deg", d.between(0.0, 359.0));
    let one = |name: &str, at: &str| guide.replace("NAME", name).replace("AT", at).replace("CLOCK", &clock);
    let rear = one("rear", &format!("at: {:.1} mm from back", long * 0.06));
    let front = one(d.of(&["front", "the_quite_remarkably_long_name_of_a_guide"]), "at: 10 mm ahead of balance");
    let front_name = front.split_whitespace().nth(1).unwrap().to_string();
    let title = d.of(&[
        "Marsh Wren",
        "A",
        "An improbably long title that goes on and on, since nobody told its author when to stop writing it down",
        "\u{5d0}\u{5d1}\u{5d2} \u{1f680} <b>Ω</b> & 'Жар-птица'",
        "Слон",
    ]);
    let (tilt, wind) = (d.between(0.0, 20.0), d.between(0.0, 12.0));
    format!(
        "finwright 1\ndesign \"{title}\" {{}}\nairframe {{\n  nose {{ shape: {shape}; length: {nose:.2} mm; \
         base: {wide:.2} mm; wall: {wall:.2} mm; material: polystyrene }}\n  tube body {{\n    length: {long:.2} mm; outer: {wide:.2} mm; \
         inner: {inner:.2} mm; material: kraft_paper\n    fins main {{ count: {count}; root: {root:.2} mm; \
         tip: {tip:.2} mm; span: {span:.2} mm; sweep: {sweep:.2} mm; thickness: {thick:.2} mm; \
         material: balsa; at: 0 mm from back }}\n    mount engine {{ bore: {bore:.2} mm; outer: {outer:.2} mm; length: {motor:.2} mm; \
         material: kraft_paper; sticks_out: {out:.2} mm }}\n    parachute {{ diameter: {chute:.1} mm; mass: 5 g; \
         at: {chute_at:.1} mm from front }}\n    {rear}\n    {front}\n  }}\n}}\n\
         motor m {{ diameter: {bore:.2} mm; length: {motor:.2} mm; mass: {mass:.3} g; propellant: {propellant:.3} g; \
         delay: {delay:.1} s; curve: [0 s: 0 N, 0.05 s: {push:.3} N, {burn:.2} s: {push:.3} N, {end:.2} s: 0 N] }}\n\
         pad p {{ {pad}; stop: {stop:.1} mm; tilt: {tilt:.1} deg; leans: {leans} }}\n\
         site s {{ elevation: 100 m; wind: {wind:.1} m/s; gust: {gust:.1} m/s; across: {across:.0} m; people: 30 m }}\n\
         flight f {{ motor: m; pad: p; guided_by: [rear, {front_name}]; site: s }}\n",
        shape = d.of(&["ogive", "cone", "ellipsoid"]),
        inner = wide - 2.0 * wall,
        tip = root * d.between(0.1, 1.0),
        sweep = root * d.between(-0.3, 1.2),
        thick = (wide * 0.05).max(0.5),
        outer = bore + wall,
        out = d.between(0.0, 8.0),
        chute = wide * 8.0,
        chute_at = long * 0.2,
        propellant = mass * d.between(0.2, 0.7),
        delay = d.between(0.0, 10.0),
        end = burn + 0.1,
        stop = d.between(0.0, 200.0),
        leans = d.of(&["into_wind", "with_wind", "across_wind"]),
        gust = wind * d.between(1.0, 1.8),
        across = d.between(50.0, 3000.0),
    )
}

/// What `faults` finds in all designs of the corpus, and how much it looked at: one line a fault, none may be left.
pub fn faultless_corpus(faults: impl Fn(&str, &Analysis, &mut Vec<String>) -> usize) -> usize {
    let mut out = Vec::new();
    let mut drawn = 0;
    for path in corpus() {
        let Some(analysis) = analysis_of(&path) else { continue };
        drawn += faults(&path.file_name().unwrap().to_string_lossy(), &analysis, &mut out);
    }
    assert!(out.is_empty(), "{} of {drawn}:\n{}", out.len(), out.join("\n"));
    drawn
}
