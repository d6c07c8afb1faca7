//! Words that people use for the language's own. They are recognised so that a message can name the right one: nothing
//! here is accepted, completed or part of the reference.
//!
//! A word is looked up squeezed, so that one row covers `launch_lug`, `launchLug`, `Launch-Lug` and `launch lug`.

mod blocks;
mod fields;
mod values;

pub use blocks::{block_meant, block_with_a_colon, BlockMeant};
pub use fields::{field_anywhere, field_meant, field_spelled, is_field_word, FieldMeant};
pub use values::{choice_meant, is_yes_or_no, material_meant, number_word, place_meant, says_unknown, PlaceMeant};

/// A word without its capitals, spaces, hyphens and underscores.
pub fn squeezed(word: &str) -> String {
    letters(word).collect()
}

/// Whether a word is one of some that are [`squeezed`], for what is asked of every value.
pub(crate) fn is_squeezed_one(word: &str, of: &[&str]) -> bool {
    of.iter().any(|plain| letters(word).eq(plain.chars()))
}

fn letters(word: &str) -> impl Iterator<Item = char> + '_ {
    word.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase)
}

/// Whether a word could be a name in the language.
pub fn is_name(word: &str) -> bool {
    word.starts_with(|c: char| c.is_alphabetic() || c == '_') && word.chars().all(|c| c.is_alphanumeric() || c == '_')
}

/// What a name would be without the signs that a name can't have: `C7-5` as `c7_5`. `word` is put before one that
/// starts with a digit.
pub fn as_name(word: &str, written: &str) -> String {
    let parts: Vec<&str> = written.split(|c: char| !c.is_alphanumeric()).filter(|part| !part.is_empty()).collect();
    let joined = parts.join("_").to_lowercase();
    if joined.starts_with(|c: char| c.is_alphabetic()) {
        joined
    } else {
        format!("{word}_{joined}").trim_end_matches('_').to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_squeezed_and_names_mended() {
        assert_eq!(squeezed("Launch-Lug"), "launchlug");
        assert_eq!(squeezed("guidedBy"), squeezed("guided_by"));
        assert_eq!(as_name("motor", "C7-5"), "c7_5");
        assert_eq!(as_name("tube", "main body"), "main_body");
        assert_eq!(as_name("motor", "18mm"), "motor_18mm");
        assert!(is_name("c7_5") && !is_name("C7-5") && !is_name("7c") && !is_name(""));
    }
}
