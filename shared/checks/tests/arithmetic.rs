//! Random arithmetic against the same arithmetic done in Rust.

use crate::support::analysis;
use proptest::prelude::*;

/// An expression as text, with its value; lengths throughout but for the factors.
#[derive(Clone, Debug)]
struct Sum {
    text: String,
    value: f64,
    /// The largest number that took part, which rounding is measured by.
    size: f64,
}

fn length() -> impl Strategy<Value = Sum> {
    let unit = proptest::sample::select(vec![("mm", 1e-3), ("cm", 1e-2), ("m", 1.0), ("in", 0.0254), ("ft", 0.3048)]);
    let leaf = (1u32..1000, unit).prop_map(|(n, (unit, factor))| {
        let number = f64::from(n) / 8.0;
        Sum { text: format!("{number} {unit}"), value: number * factor, size: number * factor }
    });
    leaf.prop_recursive(5, 40, 4, |inner| {
        let pair = (inner.clone(), inner.clone());
        prop_oneof![
            pair.clone().prop_map(|(a, b)| Sum {
                text: format!("{} + {}", a.text, b.text),
                value: a.value + b.value,
                size: a.size + b.size
            }),
            pair.clone().prop_map(|(a, b)| Sum {
                text: format!("{} - ({})", a.text, b.text),
                value: a.value - b.value,
                size: a.size + b.size
            }),
            (inner.clone(), 1u32..20).prop_map(|(a, n)| Sum {
                text: format!("({}) * {n}", a.text),
                value: a.value * f64::from(n),
                size: a.size * f64::from(n)
            }),
            (inner.clone(), 1u32..20).prop_map(|(a, n)| Sum {
                text: format!("({})/{n}", a.text),
                value: a.value / f64::from(n),
                size: a.size
            }),
            inner.clone().prop_map(|a| Sum { text: format!("-({})", a.text), value: -a.value, size: a.size }),
            pair.clone().prop_map(|(a, b)| Sum {
                text: format!("max({}, {})", a.text, b.text),
                value: a.value.max(b.value),
                size: a.size + b.size
            }),
            pair.prop_map(|(a, b)| Sum {
                text: format!("min({},{})", a.text, b.text),
                value: a.value.min(b.value),
                size: a.size + b.size
            }),
            inner.prop_map(|a| Sum { text: format!("abs({})", a.text), value: a.value.abs(), size: a.size }),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn text_and_value_agree(sum in length()) {
        // Our bound on brackets in one line is told, not computed.
        prop_assume!(sum.text.matches('(').count() < 20);
        let found = analysis(&format!("let probe = {}\n", sum.text));
        let value = found.design.values.first().map(|(_, q)| q.value);
        let value = value.ok_or_else(|| TestCaseError::fail(format!("{}: {:#?}", sum.text, found.findings)))?;
        prop_assert!((value - sum.value).abs() <= 1e-13 * sum.size, "{}: {value} and not {}", sum.text, sum.value);
    }
}
