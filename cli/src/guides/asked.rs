//! What is asked of a design: with which motors, on whose pads, in which wind. Files named on the command line come to
//! the design as if it used them, and a design without a flight gets one.

use super::Wishes;
use crate::collect::read;
use finwright_advice::{Motors, Wish};
use finwright_checks::{analyze, Analysis, Files, Snapshot};
use finwright_disk::{read_text, real_path, DiskFiles};
use finwright_grammar::FileId;
use finwright_model::{Design, CATALOG};
use finwright_units::reader::with;
use finwright_units::{parse, show, Dimension, Units};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A design with what is asked of it.
pub struct Asked {
    /// The file as the reader knows it.
    pub shown: String,
    /// The file as it stands.
    pub own: Analysis,
    /// The same with what was added to it, where anything was.
    pub with_more: Option<Analysis>,
    /// Another wind than the site's, m/s.
    pub wind: Option<f64>,
    winds: Vec<f64>,
    motors: Option<Vec<usize>>,
    site: Option<usize>,
    pads_of: Option<FileId>,
    length: Option<f64>,
    ladder: bool,
}

impl Asked {
    /// What to compare in.
    pub fn analysis(&self) -> &Analysis {
        self.with_more.as_ref().unwrap_or(&self.own)
    }

    /// What to compare.
    pub fn wish(&self) -> Wish<'_> {
        Wish {
            winds: &self.winds,
            wind: self.wind,
            motors: self.motors.as_deref().map_or(Motors::Flown, Motors::These),
            site: self.site,
            pads_of: self.pads_of,
            length: self.length,
            ladder: self.ladder,
            weights: true,
        }
    }

    /// Whether the motors themselves are the question.
    pub fn is_about_motors(&self) -> bool {
        self.motors.as_ref().is_some_and(|motors| motors.len() > 1)
    }
}

/// Read the design and the files that are named beside it; in plain words why that can't be.
pub fn asked(path: &Path, wishes: &Wishes) -> Result<Asked, String> {
    let wind = wishes.wind.map(wind).transpose()?;
    let length = wishes.length.map(length).transpose()?;
    let input = read(path).in_units(wishes.units);
    let shown = input.shown;
    let snapshot = input.snapshot.map_err(|reason| format!("{shown}: {reason}"))?;
    let units = snapshot.settings.units;
    let own = analyze(&snapshot);
    let more = [wishes.motors, wishes.pads].into_iter().flatten().map(named_file).collect::<Result<Vec<_>, _>>()?;
    let used = used_too(snapshot, &more);
    let mut with_more = (!more.is_empty()).then(|| analyze(&used));
    let design = &with_more.as_ref().unwrap_or(&own).design;
    let site = wishes.site.map(|name| site(design, name, &shown)).transpose()?;
    let mut motors = wishes.motor.map(|name| motors(design, name, &shown)).transpose()?;
    if design.flights.is_empty() && design.airframe.is_some() {
        if motors.is_none() {
            motors = Some(motors_of(design)).filter(|motors| !motors.is_empty());
        }
        let first = motors.as_ref().and_then(|motors| design.motors.get(*motors.first()?));
        let first =
            first.ok_or_else(|| format!("{shown}: it has no motor; name a file of motors with --motors FILE"))?;
        let only_site = || (design.sites.len() == 1).then_some(0);
        let place = site.or_else(only_site).and_then(|site| design.sites.get(site));
        let place = place.map_or(String::new(), |site| format!("; site: {}", site.name.value));
        let flight = format!("\nflight {} {{ motor: {}{place} }}\n", free_name(design), first.name.value);
        with_more = Some(analyze(&Snapshot { text: (used.text.to_string() + &flight).into(), ..used }));
    }
    let pads_file = wishes.pads.map(named_file).transpose()?;
    let asked = with_more.as_ref().unwrap_or(&own);
    let pads_of = pads_file.and_then(|file| asked.sources.iter().position(|source| source.path == file));
    let (wind, winds) = match wind {
        Some(Wind::Steady(wind)) => (Some(wind), usual_winds(units)),
        Some(Wind::Range(from, to)) => {
            (None, (0..=STEPS).map(|i| from + (to - from) * i as f64 / STEPS as f64).collect())
        }
        None => (None, usual_winds(units)),
    };
    let pads_of = pads_of.map(|number| FileId(number as u32));
    Ok(Asked { shown, own, with_more, wind, winds, motors, site, pads_of, length, ladder: wishes.all })
}

/// The winds in which lengths are told unless others are asked for: 0 to 8 m/s, or 0 to 20 mph, beyond which no code
/// lets anybody launch.
fn usual_winds(units: Units) -> Vec<f64> {
    let step = match units {
        Units::Si => 2.0,
        Units::Us => 5.0 * with(units, show::speed_scale),
    };
    (0..STEPS).map(|i| step * i as f64).collect()
}

/// Steps from the least to the greatest wind of a range.
const STEPS: usize = 5;

/// A wind as the command line names it.
enum Wind {
    Steady(f64),
    Range(f64, f64),
}

/// A speed as the language writes it, `6m/s` or `12mph`, or two of them: `0..15mph`.
fn wind(text: &str) -> Result<Wind, String> {
    let unclear = || format!("`{text}` isn't a speed; write it as 6m/s or 12mph, or as a range: 0..15mph");
    let speed = |text: &str| {
        let speed = parse(text, Dimension::SPEED).ok().filter(|speed| speed.is_finite() && *speed >= 0.0);
        speed.ok_or_else(unclear)
    };
    let Some((from, to)) = text.split_once("..") else { return speed(text).map(Wind::Steady) };
    // The unit may stand at the end alone.
    let unit = to.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
    let is_bare = from.trim().ends_with(|c: char| c.is_ascii_digit());
    let from = speed(&if is_bare { format!("{}{unit}", from.trim()) } else { from.to_string() })?;
    let to = speed(to)?;
    if to > from {
        Ok(Wind::Range(from, to))
    } else {
        Err(unclear())
    }
}

fn length(text: &str) -> Result<f64, String> {
    let length = parse(text, Dimension::LENGTH).ok().filter(|length| *length > 0.0 && length.is_finite());
    length.ok_or_else(|| format!("`{text}` isn't a length; write it as 1.2m or 4ft"))
}

/// A file that the command line names, from the root.
fn named_file(path: &Path) -> Result<PathBuf, String> {
    read_text(path).map_err(|reason| format!("{}: {reason}", path.display()))?;
    Ok(real_path(path))
}

/// The snapshot as if the design used these files.
fn used_too(snapshot: Snapshot, files: &[PathBuf]) -> Snapshot {
    if files.is_empty() {
        return snapshot;
    }
    let lines: String = files.iter().map(|file| format!("\nuse \"{}\"\n", file.display())).collect();
    let folders = files.iter().filter_map(|file| file.parent()).map(Path::to_path_buf);
    let more = Arc::new(AlsoBeside { own: snapshot.files.clone(), more: DiskFiles::below(folders) });
    Snapshot { text: (snapshot.text.to_string() + &lines).into(), files: more, ..snapshot }
}

/// What the design may read by itself, and what lies beside the files that the command line names.
struct AlsoBeside {
    own: Arc<dyn Files>,
    more: DiskFiles,
}

impl Files for AlsoBeside {
    fn read(&self, path: &Path) -> Result<Arc<str>, String> {
        self.own.read(path).or_else(|reason| self.more.read(path).map_err(|_| reason))
    }
}

fn site(design: &Design, name: &str, shown: &str) -> Result<usize, String> {
    let known = || design.sites.iter().map(|site| site.name.value.as_str());
    known().position(|known| known == name).ok_or_else(|| {
        let known = known().collect::<Vec<_>>().join(", ");
        let known = if known.is_empty() { "it knows none".to_string() } else { format!("known are {known}") };
        format!("{shown}: there is no site {name}; {known}")
    })
}

/// The motor of a name, or all of them.
fn motors(design: &Design, name: &str, shown: &str) -> Result<Vec<usize>, String> {
    let position = design.motors.iter().position(|motor| motor.name.value == name);
    match position {
        Some(motor) => Ok(vec![motor]),
        None if name == "all" && !motors_of(design).is_empty() => Ok(motors_of(design)),
        None => {
            let known: Vec<&str> = design.motors.iter().map(|m| m.name.value.as_str()).collect();
            Err(format!("{shown}: there is no motor {name}; known are {}", known.join(", ")))
        }
    }
}

fn motors_of(design: &Design) -> Vec<usize> {
    let own = design.motors.iter().enumerate().filter(|(_, motor)| motor.header.file != CATALOG);
    own.map(|(number, _)| number).collect()
}

/// A name for a flight that the design hasn't got.
fn free_name(design: &Design) -> String {
    let taken = |name: &str| {
        let named =
            [design.motors.iter().map(|m| &m.name).collect::<Vec<_>>(), design.sites.iter().map(|s| &s.name).collect()];
        named.concat().iter().any(|known| known.value == name)
    };
    (0..)
        .map(|i| if i == 0 { "today".to_string() } else { format!("today_{i}") })
        .find(|name| !taken(name))
        .unwrap_or_default()
}
