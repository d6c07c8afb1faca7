//! The pictures by name, and the way from an analysis to a scene.

use crate::lacking::lacking;
use crate::scene::Scene;
use crate::subject::Subject;
use crate::{bench, end_on, margin, path, run, stand, window};
use finwright_assess::path as path_of;
use finwright_checks::lacking::not_flown_in_words;
use finwright_checks::Analysis;
use finwright_units::reader::with;

/// A picture, by the question that it answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Picture {
    /// Is it fast enough when it lets go, and will the wind move it?
    Stand,
    /// Where does it balance and where do the guides go?
    Bench,
    /// Do rod, rail, fins and every set of guides clear each other?
    EndOn,
    /// How does the speed grow along the guide?
    Run,
    /// Up to what wind?
    Window,
    /// Does it stay stable as the motor burns?
    Margin,
    /// Where does it go and come down?
    Path,
}

/// How much room there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// A picture by itself.
    Full,
    /// A picture in a page, with a layout and fewer words of its own.
    Small,
}

/// Why there is no picture, in a sentence without its full stop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal(pub String);

impl Picture {
    /// Every picture with its name and the question that it answers.
    pub const ALL: [(Picture, &'static str, &'static str); 7] = [
        (Picture::Stand, "stand", "is it fast enough when it lets go, and will the wind move it?"),
        (Picture::Bench, "bench", "where does it balance and where do the guides go?"),
        (Picture::EndOn, "end-on", "do rod, rail, fins and every set of guides clear each other?"),
        (Picture::Run, "run", "how does the speed grow along the guide?"),
        (Picture::Window, "window", "up to what wind?"),
        (Picture::Margin, "margin", "does it stay stable as the motor burns?"),
        (Picture::Path, "path", "where does it go and come down?"),
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        Picture::ALL.iter().find(|(known, ..)| *known == self).map_or("", |(_, name, _)| name)
    }

    /// The picture of a name.
    pub fn named(name: &str) -> Option<Picture> {
        Picture::ALL.iter().find(|(_, known, _)| *known == name).map(|(picture, ..)| *picture)
    }
}

/// A picture of one flight of a design. What isn't known is left out and said; where nothing can be drawn, the error
/// says why.
pub fn picture(analysis: &Analysis, picture: Picture, flight: usize, size: Size) -> Result<Scene, Refusal> {
    with(analysis.settings.units, || {
        let subject = Subject::new(analysis, flight);
        let drawn = match (picture, size) {
            (Picture::Stand, Size::Full) => stand::stand(subject),
            (Picture::Stand, Size::Small) => stand::small(subject),
            (Picture::Bench, Size::Full) => bench::bench(subject),
            (Picture::Bench, Size::Small) => bench::small(subject),
            (Picture::EndOn, _) => end_on::end_on(subject),
            (Picture::Run, Size::Full) => run::run(subject),
            (Picture::Run, Size::Small) => run::small(subject),
            (Picture::Window, Size::Full) => window::window(subject),
            (Picture::Window, Size::Small) => window::small(subject),
            (Picture::Margin, _) => margin::margin(subject),
            (Picture::Path, _) => path::path(subject),
        };
        drawn.ok_or_else(|| refusal(subject, picture))
    })
}

fn refusal(subject: Subject, picture: Picture) -> Refusal {
    let (design, airframe) = (subject.design(), &subject.analysis.assessment.airframe);
    let shaped = (0..design.parts.len()).any(|id| airframe.parts(design).body(id).is_some());
    let name = picture.name();
    let why = match (design.parts.is_empty(), shaped, subject.flight) {
        (true, ..) => "the file has no airframe".to_string(),
        (_, false, _) => "no stretch of the airframe has a length and a width yet".to_string(),
        (_, _, None) => "the file has no flight; add `flight my_day { motor: …; pad: …; guided_by: […] }`".to_string(),
        _ => {
            let lacks = lacking(subject);
            match lacks.first() {
                Some(first) => first.trim_end_matches('.').to_string(),
                None => not_drawn(subject, picture),
            }
        }
    };
    Refusal(format!("there is no {name} to draw: {why}"))
}

fn not_drawn(subject: Subject, picture: Picture) -> String {
    let airframe = &subject.analysis.assessment.airframe;
    let flown = subject.numbers.and_then(|numbers| path_of(subject.design(), airframe, numbers).err());
    match (picture, flown) {
        (Picture::Path, Some(why)) => not_flown_in_words(why),
        (Picture::Run, _) => "no flight of this file leaves its guide".to_string(),
        (Picture::Window, _) => "no pad can be compared for it".to_string(),
        _ => "what it shows isn't known".to_string(),
    }
}
