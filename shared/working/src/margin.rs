//! The static margin.

use crate::page::Page;
use crate::{lacks, Lack, Number, Subject};
use finwright_assess::FlightNumbers;

/// The steps. Lengths in mm.
pub(crate) fn work(page: &mut Page, of: &Subject, numbers: &FlightNumbers) -> Result<(), Lack> {
    let pressure = of.assessment.airframe.airflow.as_ref().and_then(|airflow| airflow.total.x());
    let (Some(loaded), Some(burnt), Some(pressure), Some(calibre), Some(margin), Some(burnt_margin)) = (
        numbers.loaded(),
        numbers.burnt(),
        pressure,
        of.assessment.airframe.calibre,
        numbers.margin(),
        numbers.burnt_margin(),
    ) else {
        return Err(lacks(of, numbers, "the balance point and the centre of pressure"));
    };
    let mm = |m: f64| Number::result(m * 1e3, "mm");
    let cp = page.know("X", "centre of pressure, behind the tip", mm(pressure), "see the working of pressure-centre");
    let x = page.know("x", "balance point on the pad, behind the tip", mm(loaded.x), "see the working of balance");
    let xb = page.know("xb", "balance point at burnout", mm(burnt.x), "see the working of balance");
    let d = page.know("d", "the rocket's greatest diameter, one calibre", mm(calibre), "in the file");
    let source = "static margin in calibres, as Barrowman, 1967 (from memory)";
    let m = page.step("The margin on the pad", "M", &((&cp - x) / &d), source, "");
    let mb = page.step("The margin at burnout", "Mb", &((cp - xb) / d), source, "");
    page.note(
        "Positive means that the air's force acts behind the balance point and turns the nose back into the wind.",
    );
    page.end("static margin on the pad, calibres", &m, margin);
    page.end("static margin at burnout, calibres", &mb, burnt_margin);
    Ok(())
}
