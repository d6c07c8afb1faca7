//! The near miss: which known word was probably meant.

/// The known word most like this one, if one is like it at all.
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let lower = word.to_lowercase();
    known
        .into_iter()
        .filter(|k| !k.is_empty())
        .map(|k| {
            let other = k.to_lowercase();
            let likeness =
                if lower.len() > 2 && (other.starts_with(&lower) || lower.starts_with(&other)) && other.len() > 2 {
                    // A word cut short or run on is likelier than a word with letters changed.
                    strsim::jaro_winkler(&lower, &other).max(0.9)
                } else {
                    strsim::jaro_winkler(&lower, &other)
                        .min(1.0 - strsim::damerau_levenshtein(&lower, &other) as f64 / 8.0)
                };
            (k, likeness)
        })
        .filter(|(_, likeness)| *likeness >= 0.7)
        .max_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(k, _)| k)
}
