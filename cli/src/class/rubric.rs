//! How points come: a rubric in TOML.

use finwright_assess::report::{number, NUMBERS};
use finwright_checks::rule::Family;
use finwright_checks::{Finding, Level, RULES};
use finwright_disk::read_text;
use finwright_grammar::vocabulary::nearest;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::Path;

/// A rubric.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Rubric {
    /// The points of a design in which nothing is found.
    pub full: f64,
    /// What a rule's findings cost, by the rule, its family or their level; the first of these that is named counts,
    /// and a rule costs its points once, however often it finds something.
    pub takes: BTreeMap<String, f64>,
    /// Numbers that earn points where they lie between limits, in SI.
    pub numbers: BTreeMap<String, Between>,
    /// What a finding costs that the pupil allows with a reason.
    pub allowed: Allowed,
}

/// Limits of a number with what it earns between them.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Between {
    /// The least; none where it may be as little as it likes.
    pub from: Option<f64>,
    /// The most.
    pub to: Option<f64>,
    /// The points.
    pub gives: f64,
}

/// What a finding costs that the pupil allows with a reason.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Allowed {
    /// As much as any other.
    #[default]
    Full,
    /// Half of it.
    Half,
    /// Nothing: a reason will do.
    Nothing,
}

impl Default for Rubric {
    /// Ten points; an error costs three, a warning one.
    fn default() -> Rubric {
        let takes = [("error", 3.0), ("warning", 1.0)].map(|(name, points)| (name.to_string(), points));
        Rubric { full: 10.0, takes: BTreeMap::from(takes), numbers: BTreeMap::new(), allowed: Allowed::Full }
    }
}

impl Rubric {
    /// Read one; in words why it can't be used.
    pub fn read(path: &Path) -> Result<Rubric, String> {
        Rubric::of(&read_text(path)?)
    }

    fn of(text: &str) -> Result<Rubric, String> {
        let rubric: Rubric = toml::from_str(text).map_err(|error| {
            let before = error.span().and_then(|span| text.get(..span.start)).unwrap_or("");
            format!("line {}: {}", before.matches('\n').count() + 1, error.message().replace('\n', " "))
        })?;
        rubric.checked()
    }

    fn checked(self) -> Result<Rubric, String> {
        let levels = [Level::Error, Level::Warning, Level::Note].map(Level::word);
        let families = RULES.iter().map(|rule| rule.family.word());
        let known = || levels.into_iter().chain(families.clone()).chain(RULES.iter().map(|rule| rule.name));
        for (name, points) in &self.takes {
            if !known().any(|known| known == name) {
                let near = nearest(name, known().collect::<Vec<_>>());
                let hint = near
                    .map_or("`finwright explain` lists the rules".to_string(), |near| format!("did you mean {near}?"));
                return Err(format!("[takes] names no rule, family or level by `{name}`; {hint}"));
            }
            positive(&format!("[takes] {name}"), *points)?;
        }
        for (name, between) in &self.numbers {
            if number(name).is_none() {
                let near = nearest(name, NUMBERS.iter().map(|number| number.name));
                let hint =
                    near.map_or("`finwright schema` lists them".to_string(), |near| format!("did you mean {near}?"));
                return Err(format!("[numbers] knows no number `{name}`; {hint}"));
            }
            if between.from.is_none() && between.to.is_none() {
                return Err(format!("[numbers.{name}] needs `from`, `to` or both"));
            }
            positive(&format!("[numbers.{name}] gives"), between.gives)?;
        }
        positive("full", self.full)?;
        Ok(self)
    }

    /// What a finding costs where it isn't allowed.
    pub fn cost(&self, finding: &Finding) -> f64 {
        let family = finwright_checks::rule(finding.rule).map_or("", |rule| Family::word(rule.family));
        let named = [finding.rule, family, finding.level.word()];
        named.into_iter().find_map(|name| self.takes.get(name)).copied().unwrap_or(0.0)
    }

    /// The most that can be had.
    pub fn most(&self) -> f64 {
        self.full + self.numbers.values().map(|between| between.gives).sum::<f64>()
    }

    /// The rubric in sentences.
    pub fn in_words(&self) -> Vec<String> {
        let mut said = vec![format!("{} for a design in which nothing is found.", points(self.full))];
        let takes: Vec<String> = self.takes.iter().map(|(name, cost)| format!("{name} {cost}")).collect();
        if !takes.is_empty() {
            said.push(format!(
                "What is found takes, each rule once: {}; a rule by its own name before its family, and that before its level.",
                takes.join(", ")
            ));
        }
        for (name, Between { from, to, gives }) in &self.numbers {
            let limits = match (from, to) {
                (Some(from), Some(to)) => format!("from {from} to {to}"),
                (Some(from), None) => format!("from {from} on"),
                (None, Some(to)) => format!("up to {to}"),
                (None, None) => String::new(),
            };
            said.push(format!("{} where {name} is {limits} in every flight.", points(*gives)));
        }
        said.push(match self.allowed {
            Allowed::Full => "What a pupil allows with a comment costs as much as anything else.".to_string(),
            Allowed::Half => "What a pupil allows with a reason costs half.".to_string(),
            Allowed::Nothing => "What a pupil allows with a reason costs nothing.".to_string(),
        });
        said
    }
}

/// "1 point", "2.5 points".
pub fn points(n: f64) -> String {
    let digits = finwright_units::show::trimmed(n, 2);
    if digits == "1" {
        "1 point".to_string()
    } else {
        format!("{digits} points")
    }
}

fn positive(what: &str, value: f64) -> Result<(), String> {
    match value.is_finite() && value >= 0.0 {
        true => Ok(()),
        false => Err(format!("{what} is {value}; it must be 0 or more")),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_rubric_is_read() {
        let rubric = Rubric::of("full = 20\nallowed = \"half\"\n[takes]\nerror = 4\nstability = 2\n\"guide/slow-exit\" = 6\n[numbers.margin_cal]\nfrom = 1\nto = 2.5\ngives = 2\n").unwrap();
        assert!((rubric.full, rubric.most(), rubric.allowed) == (20.0, 22.0, Allowed::Half));
        let found = |name: &str| finwright_checks::rule(name).unwrap().finding(Default::default(), "");
        let costs = ["guide/slow-exit", "stability/unstable", "guide/off-rocket", "pad/leans"]
            .map(|name| rubric.cost(&found(name)));
        assert_eq!(costs, [6.0, 2.0, 4.0, 0.0]);
    }

    #[test]
    fn what_is_no_rubric_is_told_with_its_line() {
        let told = |text: &str| Rubric::of(text).unwrap_err();
        assert_eq!(
            told("full = 20\nfulll = 2\n"),
            "line 2: unknown field `fulll`, expected one of `full`, `takes`, `numbers`, `allowed`"
        );
        assert_eq!(
            told("[takes]\n\"guide/slow\" = 2\n"),
            "[takes] names no rule, family or level by `guide/slow`; did you mean guide/slow-exit?"
        );
        assert_eq!(
            told("[takes]\nerrors = 2\n"),
            "[takes] names no rule, family or level by `errors`; did you mean error?"
        );
        assert_eq!(
            told("[numbers.margin]\nfrom = 1\ngives = 1\n"),
            "[numbers] knows no number `margin`; did you mean margin_cal?"
        );
        assert_eq!(told("[numbers.margin_cal]\ngives = 1\n"), "[numbers.margin_cal] needs `from`, `to` or both");
        assert_eq!(told("full = -1\n"), "full is -1; it must be 0 or more");
    }
}
