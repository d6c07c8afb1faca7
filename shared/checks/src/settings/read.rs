//! A `finwright.toml` understood. What can't be is told, and the rest counts.

use super::{Settings, Trouble, ALLOWING};
use crate::finding::Level;
use crate::rules::{rule, thresholds, RULES};
use crate::threshold::{Threshold, PROFILES};
use finwright_assess::field_rules::{named, JURISDICTIONS};
use finwright_grammar::vocabulary::nearest;
use finwright_grammar::LineIndex;
use finwright_units::reader::UNITS;
use finwright_units::{parse, Dimension, Units};
use toml::de::{DeTable, DeValue};
use toml::Spanned;

/// Understand a `finwright.toml`, which is called `file` in what is said about it.
pub fn read(file: &str, text: &str) -> Settings {
    let lines = LineIndex::new(text);
    let line_of = |at: usize| lines.line_and_column(at.min(text.len()), text).0;
    let mut settings = Settings::default();
    let mut problems = Vec::new();
    let mut tell = |at: usize, message: String, help: String| {
        problems.push(Trouble { file: file.to_string(), line: line_of(at), message, help });
    };
    match DeTable::parse(text) {
        Ok(table) => {
            for (key, value) in table.get_ref() {
                top(key.get_ref(), value, key.span().start, &mut settings, &mut tell);
            }
        }
        Err(error) => {
            let at = error.span().map_or(0, |span| span.start);
            let help = "the usual levels and thresholds are used until it is mended";
            tell(at, format!("it isn't TOML: {}", error.message().replace('\n', ", ")), help.to_string());
        }
    }
    // A table gives its entries in the order of their names; a reader goes down the page.
    problems.sort_by_key(|trouble: &Trouble| trouble.line);
    settings.problems = problems;
    settings
}

type Tell<'a> = dyn FnMut(usize, String, String) + 'a;

const KEYS: [&str; 6] = ["profile", "code", "allowances", "units", "levels", "thresholds"];

fn top(key: &str, value: &Spanned<DeValue>, at: usize, settings: &mut Settings, tell: &mut Tell) {
    match (key, value.get_ref()) {
        ("profile", DeValue::String(name)) => match PROFILES.iter().find(|(known, _)| known == name) {
            Some((_, profile)) => settings.profile = *profile,
            None => tell(at, format!("there is no profile `{name}`"), list(PROFILES.iter().map(|(name, _)| *name))),
        },
        ("code", DeValue::String(name)) => match named(name) {
            Some(code) => settings.code = Some(code),
            None => tell(at, format!("there is no code `{name}`"), list(JURISDICTIONS.iter().map(|(name, ..)| *name))),
        },
        ("allowances", DeValue::String(name)) => match ALLOWING.iter().find(|(known, _)| known == name) {
            Some((_, allowing)) => settings.allowing = *allowing,
            None => tell(at, format!("nothing is allowed as `{name}`"), list(ALLOWING.iter().map(|(name, _)| *name))),
        },
        ("units", DeValue::String(name)) => match Units::named(name) {
            Some(units) => settings.units = units,
            None => tell(at, format!("there are no units `{name}`"), list(UNITS.iter().map(|(name, ..)| *name))),
        },
        ("levels", DeValue::Table(table)) => {
            table.iter().for_each(|(rule, level)| set_level(rule, level, settings, tell));
        }
        ("thresholds", DeValue::Table(table)) => {
            table.iter().for_each(|(name, value)| set_threshold(name, value, settings, tell));
        }
        ("profile" | "code" | "allowances" | "units", _) => {
            tell(at, format!("`{key}` takes a name in quotes"), format!("write `{key} = \"…\"`"))
        }
        ("levels" | "thresholds", _) => {
            tell(at, format!("`{key}` is a table"), format!("write `[{key}]` on a line of its own, its entries below"));
        }
        _ => tell(at, format!("there is no setting `{key}`"), suggestion(key, KEYS.into_iter())),
    }
}

fn set_level(key: &Spanned<std::borrow::Cow<str>>, value: &Spanned<DeValue>, settings: &mut Settings, tell: &mut Tell) {
    let (name, at) = (key.get_ref().as_ref(), key.span().start);
    let Some(rule) = rule(name) else {
        let hint = suggestion(name, RULES.iter().map(|r| r.name));
        return tell(at, format!("there is no rule `{name}`"), hint);
    };
    if !rule.may_be_set() {
        let help = "what can't be read isn't checked, and no setting changes that";
        return tell(at, format!("the level of `{name}` can't be set"), help.to_string());
    }
    let level = match value.get_ref().as_str() {
        Some("error") => Some(Level::Error),
        Some("warning") => Some(Level::Warning),
        Some("note") => Some(Level::Note),
        Some("off") => None,
        _ => {
            let help = "write \"error\", \"warning\", \"note\" or \"off\"";
            return tell(at, format!("that isn't a level for `{name}`"), help.to_string());
        }
    };
    settings.levels.push((rule.name, level));
}

fn set_threshold(
    key: &Spanned<std::borrow::Cow<str>>,
    value: &Spanned<DeValue>,
    settings: &mut Settings,
    tell: &mut Tell,
) {
    let (name, at) = (key.get_ref().as_ref(), key.span().start);
    let known = thresholds();
    let Some(threshold) = known.iter().find(|t| t.name == name) else {
        let hint = suggestion(name, known.iter().map(|t| t.name));
        return tell(at, format!("there is no threshold `{name}`"), hint);
    };
    match in_si(threshold, value.get_ref()) {
        Ok(value) => settings.thresholds.push((threshold.name, value)),
        Err(message) => {
            let usual = threshold.in_words(threshold.value(settings.profile));
            tell(at, format!("`{name}`: {message}"), format!("{}; usually {usual}", threshold.means));
        }
    }
}

/// A threshold's value in SI: `"14 m/s"`, or a bare number where it's a plain number or calibres.
fn in_si(threshold: &Threshold, value: &DeValue) -> Result<f64, String> {
    let is_plain = matches!(threshold.dimension, Dimension::NUMBER | Dimension::CALIBRES);
    let takes = match threshold.dimension {
        Dimension::CALIBRES => "a number of calibres".to_string(),
        Dimension::NUMBER => "a plain number".to_string(),
        other => format!("{} in quotes ({})", other.phrase(), other.fitting_units()),
    };
    let bare = match value {
        DeValue::Float(number) => number.as_str().replace('_', "").parse::<f64>().ok(),
        DeValue::Integer(number) => number.as_str().replace('_', "").parse::<f64>().ok(),
        _ => None,
    };
    let si = match (value, bare) {
        (_, Some(number)) if is_plain => number,
        (DeValue::String(text), _) => parse(text, threshold.dimension)?,
        _ => return Err(format!("it takes {takes}")),
    };
    // A threshold below zero would switch a rule off without saying so.
    if si.is_finite() && si >= 0.0 {
        Ok(si)
    } else {
        Err("it must be zero or more".to_string())
    }
}

fn suggestion<'a>(name: &str, known: impl Iterator<Item = &'a str> + Clone) -> String {
    nearest(name, known.clone()).map_or_else(|| list(known), |near| format!("did you mean `{near}`?"))
}

fn list<'a>(known: impl Iterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.collect();
    match known.len() {
        0..=8 => format!("known are {}", known.join(", ")),
        _ => "`finwright schema settings` lists what there is".to_string(),
    }
}
