//! The near miss: which known word was probably meant.

/// The known word most like this one, if one is like it at all. Of words that are as like, it's the one with fewer
/// letters to change, then the first by the alphabet: never the one that happens to come first.
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
        .max_by(|a, b| {
            let changes = |k: &str| strsim::damerau_levenshtein(&lower, &k.to_lowercase());
            a.1.total_cmp(&b.1).then_with(|| changes(b.0).cmp(&changes(a.0))).then_with(|| b.0.cmp(a.0))
        })
        .map(|(k, _)| k)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn what_is_suggested_doesnt_hang_on_the_order_of_the_words() {
        for (word, known, expected) in [
            ("bod", ["body", "bode", "bodi"], Some("bode")),
            ("lug_c", ["lug_b", "lug_a", "lug_d"], Some("lug_a")),
            ("front_lug", ["front_lugs", "front", "front_lug_two"], Some("front_lugs")),
            ("xyz", ["body", "nose", "fins"], None),
        ] {
            let [a, b, c] = known;
            for order in [[a, b, c], [a, c, b], [b, a, c], [b, c, a], [c, a, b], [c, b, a]] {
                assert_eq!(nearest(word, order), expected, "{word} among {order:?}");
            }
        }
    }
}
