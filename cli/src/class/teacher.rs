//! The teacher's page: who handed in what, what is found most often, how the numbers spread, what to look at together.

use super::alike::Alike;
use super::html::{list, page, sentence, with_code};
use super::looked::Looked;
use super::tally::{common, counted};
use super::verdicts::State;
use super::Report;
use crate::output::{plural, printable};
use finwright_checks::common::limits::{EXIT_SPEED, MARGIN};
use finwright_checks::Verdict;
use finwright_draw::marks::{marks, Marks};
use finwright_draw::svg::{escaped, inline_svg};
use finwright_submissions::file_name;
use finwright_units::reader::alone;
use finwright_units::show;

/// The page.
pub fn teacher(report: &Report) -> String {
    let looked = &report.looked;
    let mut body = String::from("<p class=\"where\">The teacher's page: everyone is on it. It is for no pupil.</p>\n");
    let what = if report.has_roster { "pupil" } else { "submission" };
    body += &format!("<h1>{}: {}.</h1>\n", plural(looked.len(), what), escaped(&counted(looked)));
    body += &format!("<h2>Who handed in what</h2>\n{}", table(looked));
    commonest(&mut body, looked);
    body += "<h2>How the numbers spread</h2>\n";
    spread(&mut body, report);
    together(&mut body, looked, &report.alike);
    let faults: Vec<String> = looked
        .iter()
        .flat_map(|one| one.faults.iter().map(move |fault| format!("{}: {}", escaped(&one.name), sentence(fault))))
        .collect();
    if !faults.is_empty() {
        body += &format!("<h2>What can't be read</h2>\n<p>In words that can be passed on.</p>\n{}", list(&faults));
    }
    unclaimed(&mut body, &report.class.unclaimed);
    body += "<h2>How the points come</h2>\n";
    body += &list(&report.rubric.in_words().iter().map(|words| escaped(words)).collect::<Vec<_>>());
    body += "<p><a href=\"grades.csv\">grades.csv</a> has every pupil's points and comment: it is the teacher's, for the \
             gradebook, and for no pupil. <code>pupils</code> and <code>feedback</code> have a file for each, by id.</p>\n";
    page("Class: who handed in what", &body)
}

fn table(looked: &[Looked]) -> String {
    let speed = alone(show::speed_unit);
    let mut out = format!(
        "<div class=\"wide\" tabindex=\"0\"><table>\n<thead><tr><th scope=\"col\">id</th><th scope=\"col\">who</th>\
         <th scope=\"col\">what came of it</th><th class=\"n\" scope=\"col\">margin, cal</th>\
         <th class=\"n\" scope=\"col\">exit, {speed}</th><th class=\"n\" scope=\"col\">points</th></tr></thead>\n<tbody>\n"
    );
    for one in looked {
        let fails = if one.state <= State::Judged(Verdict::NotChecked) { " class=\"fails\"" } else { "" };
        let reason = one.designs.iter().min_by_key(|design| design.verdict).and_then(|design| design.reason.as_ref());
        let fault = (one.state == State::Unreadable).then(|| one.faults.first()).flatten();
        let reason = reason.or(fault).map_or(String::new(), |reason| format!(": {}", with_code(reason)));
        let least = |of: fn(&super::looked::Design) -> Option<f64>| one.designs.iter().filter_map(of).reduce(f64::min);
        let number = |value: Option<f64>, how: fn(f64) -> String| value.map_or("–".to_string(), how);
        out += &format!(
            "<tr><td>{}</td><th class=\"who\" scope=\"row\"><a href=\"{}\">{}</a></th><td{fails}>{}{reason}</td><td class=\"n\">{}</td>\
             <td class=\"n\">{}</td><td class=\"n\">{}</td></tr>\n",
            escaped(&one.id),
            escaped(&address(&one.id)),
            escaped(&one.name),
            one.state.words(),
            number(least(|design| design.margin), show::number),
            alone(|| number(least(|design| design.exit), show::speed_number)),
            show::trimmed(one.grade.points, 2),
        );
    }
    out + "</tbody></table></div>\n"
}

/// A pupil's page, from the teacher's.
fn address(id: &str) -> String {
    // The name itself has percent signs, which an address has to write as such.
    format!("pupils/{}.html", file_name(id).replace('%', "%25"))
}

/// More kinds of findings than these aren't listed; the pupils' own pages have all of theirs.
const MOST_KINDS: usize = 20;

fn commonest(body: &mut String, looked: &[Looked]) {
    let found = common(looked);
    if found.is_empty() {
        return;
    }
    *body += "<h2>What is found most often</h2>\n<div class=\"wide\" tabindex=\"0\"><table>\n<thead><tr>\
              <th class=\"n\" scope=\"col\">pupils</th><th scope=\"col\">rule</th><th scope=\"col\">for example</th></tr></thead>\n<tbody>\n";
    for kind in found.iter().take(MOST_KINDS) {
        let (message, name) = &kind.example;
        *body += &format!(
            "<tr><td class=\"n\">{}</td><th scope=\"row\">{} <code>{}</code></th><td>{}: {}</td></tr>\n",
            kind.count,
            kind.level.word(),
            kind.rule,
            escaped(name),
            with_code(message)
        );
    }
    *body += "</tbody></table></div>\n";
    if found.len() > MOST_KINDS {
        *body += &format!("<p>{} more rules find something.</p>\n", found.len() - MOST_KINDS);
    }
}

fn spread(body: &mut String, report: &Report) {
    let designs = || report.looked.iter().flat_map(|one| &one.designs);
    let margins: Vec<f64> = designs().filter_map(|design| design.margin).collect();
    let scale = alone(show::speed_scale);
    let speeds: Vec<f64> = designs().filter_map(|design| design.exit).map(|speed| speed / scale).collect();
    let unit = alone(show::speed_unit);
    let title = format!("Exit speed, {unit}, of the slowest flight of each");
    let of = [
        Marks {
            name: "margins",
            title: "Static margin, calibres, of the least stable flight of each",
            unit: "cal",
            values: &margins,
            least: report.settings.limit(&MARGIN),
        },
        Marks {
            name: "speeds",
            title: &title,
            unit,
            values: &speeds,
            least: report.settings.limit(&EXIT_SPEED) / scale,
        },
    ];
    for marked in &of {
        match marked.values.is_empty() {
            true => *body += &format!("<p class=\"gap\">{}: not known of any.</p>\n", escaped(marked.title)),
            false => *body += &format!("<figure tabindex=\"0\">{}</figure>\n", inline_svg(&marks(marked), marked.name)),
        }
    }
}

/// More pairs than these aren't listed.
const MOST_PAIRS: usize = 40;

fn together(body: &mut String, looked: &[Looked], pairs: &[Alike]) {
    if pairs.is_empty() {
        return;
    }
    *body += "<h2>Look at these together</h2>\n<p>By what they say, whatever their layout, names and order, and without what \
              most of the class says. It may be a shared start, a pair that worked together, or chance.</p>\n";
    let name = |number: usize| looked.get(number).map_or(String::new(), |one| escaped(&one.name));
    let lines: Vec<String> = pairs
        .iter()
        .take(MOST_PAIRS)
        .map(|pair| {
            let share = show::trimmed((100.0 * pair.likeness).floor(), 0);
            format!("{} and {}: {share} % alike", name(pair.one), name(pair.other))
        })
        .collect();
    *body += &list(&lines);
    if pairs.len() > MOST_PAIRS {
        *body += &format!("<p>And {} more pairs.</p>\n", pairs.len() - MOST_PAIRS);
    }
}

/// More names than these aren't listed.
const MOST_NAMES: usize = 100;

fn unclaimed(body: &mut String, names: &[String]) {
    if names.is_empty() {
        return;
    }
    let told: Vec<String> = names.iter().take(MOST_NAMES).map(|name| escaped(&printable(name))).collect();
    *body += &format!("<h2>Nobody's on the roster</h2>\n{}", list(&told));
    if names.len() > MOST_NAMES {
        *body += &format!("<p>And {} more.</p>\n", names.len() - MOST_NAMES);
    }
}
