//! A word that nothing defines.

use crate::evaluate::Evaluator;
use crate::problem::{Problem, Replacement, UNKNOWN_NAME};
use finwright_grammar::vocabulary::slips::{choice_meant, material_meant, number_word, says_unknown};
use finwright_grammar::vocabulary::{nearest, ChoiceWord, FieldWord};
use finwright_grammar::{Place, Span};

/// A name that nothing defines, in a value.
pub(crate) fn unknown_value(ev: &Evaluator, place: Place, name: &str) -> Problem {
    let problem = |message: String, help: String| Problem::new(UNKNOWN_NAME, place, message, help);
    if let Some(number) = number_word(name) {
        return problem(format!("`{name}` is a number in words"), format!("write it in digits: `{number}`"))
            .replaced_by(format!("write `{number}`"), number.to_string());
    }
    if says_unknown(name) {
        let help = "leave it out while it isn't known";
        return Problem::new(UNKNOWN_NAME, place, format!("`{name}` isn't a value"), help);
    }
    if let Some(remark) = remark_before(ev, place) {
        return remark;
    }
    let near = nearest(name, ev.value_names());
    problem(format!("nothing here is named `{name}`"), format!("name it first: `let {name} = …`")).did_you_mean(near)
}

/// A word that a field's list doesn't have.
pub(crate) fn choice(place: Place, written: &str, known: &FieldWord, choices: &'static [ChoiceWord]) -> Problem {
    let list: Vec<&str> = choices.iter().map(|c| c.word).collect();
    let problem = Problem::new(
        UNKNOWN_NAME,
        place,
        format!("`{}` can't be `{written}`", known.word),
        format!("it can be {}", list.join(", ")),
    );
    let meant = choice_meant(known.word, written).filter(|meant| list.contains(meant));
    problem.did_you_mean(meant.or_else(|| nearest(written, list)))
}

/// A material's name that nothing defines but that people use.
pub(crate) fn material(place: Place, name: &str) -> Option<Problem> {
    let meant = material_meant(name)?;
    let message = format!("there is no material `{name}`");
    Some(match meant {
        [one] => Problem::new(UNKNOWN_NAME, place, message, "").did_you_mean(Some(one)),
        several => Problem::new(
            UNKNOWN_NAME,
            place,
            format!("`{name}` can be several materials; which one matters for its mass"),
            format!("choose one: {}", several.join(", ")),
        ),
    })
}

/// A remark behind two dashes that reads as a value less a negative one: `12 mm --long`.
fn remark_before(ev: &Evaluator, place: Place) -> Option<Problem> {
    let text = &ev.files.get(place.file.0 as usize)?.tree.text;
    let before = text.get(..place.span.start as usize)?.trim_end();
    let dashes = before.strip_suffix("--")?;
    let after = text.get(place.span.end as usize..)?;
    let ends = after.lines().next().is_none_or(|rest| rest.trim().is_empty());
    let mark = Span::new(dashes.len(), before.len());
    ends.then(|| {
        let mut problem = Problem::new(
            UNKNOWN_NAME,
            Place { span: mark, ..place },
            "a comment starts with `#`, not with `--`",
            format!("write `# {}`", ev.text(place.file, place.span)),
        );
        let touches = mark.end == place.span.start;
        let text = if touches { "# " } else { "#" }.to_string();
        problem.replacement = Some(Replacement { title: "write `#`".to_string(), place: problem.place, text });
        problem
    })
}
