//! What the files say otherwise than before, block by block.

use super::change::{FieldChange, Kind, PartChange};
use crate::statements::{statements, Statement};
use finwright_checks::Analysis;
use finwright_model::CATALOG;

/// The blocks that changed, in the order of the page now; those that are gone at the end.
pub fn parts(old: &Analysis, new: &Analysis) -> Vec<PartChange> {
    compared(said(old), said(new))
}

fn compared(old: Vec<Statement>, new: Vec<Statement>) -> Vec<PartChange> {
    let stays = |statement: &Statement| new.iter().any(|other| other.path == statement.path);
    let (mut kept, mut gone): (Vec<Statement>, Vec<Statement>) = old.into_iter().partition(stays);
    let mut found = Vec::new();
    for statement in &new {
        if let Some(at) = kept.iter().position(|before| before.path == statement.path) {
            found.push(changed(&kept.remove(at), statement));
        } else if let Some(at) = gone.iter().position(|before| is_renamed(before, statement)) {
            let before = gone.remove(at);
            // What stands in it stands in the same block as before.
            gone.iter_mut().for_each(|inner| go_along(inner, &before, statement));
            if before.label() != statement.label() {
                let (part, was) = (statement.label(), Some(before.label()));
                found.push(PartChange { part, was, change: Kind::Renamed, fields: Vec::new() });
            }
        } else {
            found.push(told(statement, Kind::Added));
        }
    }
    found.extend(gone.iter().map(|before| told(before, Kind::Removed)));
    found.retain(|part| part.change != Kind::Changed || !part.fields.is_empty());
    found
}

/// A block inside of one that has another name now.
fn go_along(inner: &mut Statement, before: &Statement, now: &Statement) {
    let inside = inner.path.len() > before.path.len() && inner.path.starts_with(&before.path);
    if inside {
        inner.path.splice(..before.path.len(), now.path.iter().cloned());
    }
}

/// What all files of a design say but the catalogue.
fn said(analysis: &Analysis) -> Vec<Statement> {
    let files = analysis.design.files.iter().enumerate().filter(|(number, _)| *number as u32 != CATALOG.0);
    files.flat_map(|(_, file)| statements(&file.tree)).collect()
}

/// Whether a block has another name and says the same, in the same place.
fn is_renamed(before: &Statement, now: &Statement) -> bool {
    let around = |statement: &Statement| statement.path.split_last().map(|(_, around)| around.to_vec());
    before.words == now.words && before.fields == now.fields && !now.fields.is_empty() && around(before) == around(now)
}

fn changed(old: &Statement, new: &Statement) -> PartChange {
    let mut fields = Vec::new();
    let mut before = old.fields.clone();
    for (field, value) in &new.fields {
        let at = before.iter().position(|(known, _)| known == field);
        let was = at.map(|at| before.remove(at).1);
        if was.as_ref() != Some(value) {
            fields.push(FieldChange { field: field.clone(), old: was, new: Some(value.clone()) });
        }
    }
    let gone = |(field, value): (String, String)| FieldChange { field, old: Some(value), new: None };
    fields.extend(before.into_iter().map(gone));
    PartChange { part: new.label(), was: None, change: Kind::Changed, fields }
}

/// A block that is there on one side only, with all that it says.
fn told(statement: &Statement, change: Kind) -> PartChange {
    let field = |(field, value): &(String, String)| {
        let (field, value) = (field.clone(), Some(value.clone()));
        match change {
            Kind::Removed => FieldChange { field, old: value, new: None },
            _ => FieldChange { field, old: None, new: value },
        }
    };
    let fields = statement.fields.iter().map(field).collect();
    PartChange { part: statement.label(), was: None, change, fields }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(old: &str, new: &str) -> Vec<(Kind, String, Option<String>, Vec<String>)> {
        let said = |text: &str| statements(&finwright_grammar::parse(text));
        let one = |part: PartChange| {
            let fields = part.fields.iter().map(|field| format!("{}: {:?} {:?}", field.field, field.old, field.new));
            (part.change, part.part.clone(), part.was.clone(), fields.collect())
        };
        compared(said(old), said(new)).into_iter().map(one).collect()
    }

    const BODY: &str = "airframe { tube body { length: 230 mm; lug { bore: 4 mm } } }\n";

    #[test]
    fn a_value_that_changed_is_told_with_its_field() {
        let found = told(BODY, "airframe {\n  tube body { length: 240 mm; inner: 24 mm; lug { bore: 4 mm } }\n}\n");
        let fields = ["length: Some(\"230 mm\") Some(\"240 mm\")", "inner: None Some(\"24 mm\")"].map(String::from);
        assert_eq!(found, [(Kind::Changed, "tube body".to_string(), None, fields.to_vec())]);
    }

    #[test]
    fn a_part_with_another_name_is_renamed_and_what_is_in_it_stays() {
        let found = told(BODY, &BODY.replace("body", "main"));
        assert_eq!(found, [(Kind::Renamed, "tube main".to_string(), Some("tube body".to_string()), Vec::new())]);
    }

    #[test]
    fn a_part_is_new_and_another_is_gone() {
        let found = told(BODY, "airframe { tube body { length: 230 mm; cord { length: 1 m } } }\n");
        let kinds: Vec<(Kind, &str)> = found.iter().map(|(kind, part, ..)| (*kind, part.as_str())).collect();
        assert_eq!(kinds, [(Kind::Added, "cord in tube body"), (Kind::Removed, "lug in tube body")]);
    }

    #[test]
    fn nothing_changed_is_nothing_told() {
        assert!(told(BODY, &format!("# a note\n{BODY}")).is_empty());
    }
}
