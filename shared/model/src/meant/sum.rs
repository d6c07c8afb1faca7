//! A sum that is hardly meant as one.

use crate::evaluate::Evaluator;
use crate::problem::{Problem, Replacement, WRONG_FORM};
use finwright_grammar::{Expr, ExprKind, FileId, Place, Span};
use finwright_units::show;

/// What is wrong with a sum such as `11-3/4 in`, `10-12 mm` or `5 mm +- 1 mm`; `None` where it may well be meant.
pub(crate) fn sum(ev: &Evaluator, file: FileId, whole: Span, terms: &[(bool, Expr)]) -> Option<Problem> {
    let place = Place { file, span: whole };
    let shown = ev.text(file, whole);
    for pair in terms.windows(2) {
        let [(_, before), (subtracts, after)] = pair else { continue };
        let sign = Span { start: before.span.end, end: after.span.end };
        let gap = ev.text(file, sign).trim_start();
        if !subtracts && gap.starts_with("+-") {
            let mut rest = gap.get(2..)?.trim_start().to_string();
            rest.insert_str(0, "± ");
            let text = format!(" {rest}");
            let mut problem = Problem::new(
                WRONG_FORM,
                place,
                "`+-` adds a negative here; give or take is `±` or `+/-`",
                format!("write `{}{text}`", ev.text(file, before.span)),
            );
            problem.replacement =
                Some(Replacement { title: "write `±`".to_string(), place: Place { file, span: sign }, text });
            return Some(problem);
        }
    }
    let [(false, first), (true, second)] = terms else { return None };
    let (ExprKind::Quantity { number: low, unit: None }, ExprKind::Quantity { number: high, unit: Some(unit) }) =
        (&first.kind, &second.kind)
    else {
        return None;
    };
    let (written, unit) = (ev.text(file, second.span), ev.text(file, *unit));
    let less = format!("`{shown}` reads as {} less {written}", ev.text(file, first.span));
    if written.contains('/') && low.fract() == 0.0 && *high < 1.0 {
        let meant = format!("{} {written}", ev.text(file, first.span));
        return Some(
            Problem::new(WRONG_FORM, place, less, format!("a whole number and a fraction take a space: `{meant}`"))
                .replaced_by(format!("write `{meant}`"), meant),
        );
    }
    let (middle, spread) = ((low + high) / 2.0, (high - low) / 2.0);
    (spread > 0.0 && *low > 0.0).then(|| {
        let number = |x: f64| show::trimmed(x, 4);
        let meant = format!("{} {unit} ± {} {unit}", number(middle), number(spread));
        Problem::new(WRONG_FORM, place, less, format!("a range is its middle, give or take: `{meant}`"))
            .replaced_by(format!("write `{meant}`"), meant)
    })
}
