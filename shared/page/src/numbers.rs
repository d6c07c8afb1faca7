//! The numbers of all flights in a table that folds.

use finwright_assess::report::{self, Section, NUMBERS};
use finwright_checks::common::limits::EXIT_SPEED;
use finwright_checks::Analysis;
use finwright_draw::svg::escaped;
use finwright_units::reader::alone;

/// More flights than these don't fit beside one another.
const MOST: usize = 4;

/// The table: the flight that is looked at first, then others.
pub fn table(html: &mut String, analysis: &Analysis, number: usize) {
    let limit = analysis.settings.limit(&EXIT_SPEED);
    let reports = report::flights_as_they_are(&analysis.design, &analysis.assessment, limit);
    let mut order: Vec<usize> = (0..reports.len()).collect();
    order.sort_by_key(|at| *at != number);
    order.truncate(MOST);
    if order.is_empty() {
        return;
    }
    *html += "<details id=\"numbers\" open>\n<summary>Numbers <span class=\"folds\">of each flight</span></summary>\n";
    *html += "<table>\n<thead><tr><td></td>";
    for at in &order {
        let name = analysis.design.flights.get(*at).map_or("?", |flight| flight.name.value.as_str());
        *html += &format!("<th class=\"n\" scope=\"col\">{}</th>", escaped(name));
    }
    *html += "</tr></thead>\n";
    for section in [Section::OnThePad, Section::AlongTheGuide, Section::InTheAir, Section::ComingDown] {
        let mut rows = String::new();
        for known in NUMBERS {
            let Some(shown) = known.shown.filter(|shown| shown.section == section) else { continue };
            let values: Vec<Option<f64>> = order
                .iter()
                .map(|at| reports.get(*at).and_then(|report| report.get(known.name)).map(|(value, _)| value))
                .collect();
            if values.iter().all(Option::is_none) {
                continue;
            }
            rows += &format!("<tr><th scope=\"row\" title=\"{}\">{}</th>", escaped(known.means), escaped(shown.label));
            for value in values {
                let said = value.map_or("not known".to_string(), |value| alone(|| (shown.form)(value)));
                rows += &format!("<td class=\"n\">{}</td>", escaped(&said));
            }
            rows += "</tr>\n";
        }
        if !rows.is_empty() {
            let columns = order.len() + 1;
            let heading = section.heading();
            *html += "<tbody>\n<tr class=\"part\">";
            *html += &format!("<th colspan=\"{columns}\" scope=\"rowgroup\">{heading}</th></tr>\n{rows}</tbody>\n");
        }
    }
    *html += "</table>\n</details>\n";
}
