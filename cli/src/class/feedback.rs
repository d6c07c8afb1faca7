//! The same in short, as Markdown: what a learning platform shows beside the points.

use super::good::good;
use super::looked::Looked;
use super::mend::{kind, line_of};
use crate::escape::markdown;
use crate::output::CAUTION;
use finwright_checks::{Analysis, Finding};

/// The feedback on what somebody handed in.
pub fn feedback(looked: &Looked, analyses: &[Analysis]) -> String {
    let mut out = format!(
        "# For {}\n\n{}. {}.\n",
        markdown(&looked.name),
        capital(looked.state.words()),
        looked.grade.in_words()
    );
    section(&mut out, "What can't be read", looked.faults.iter().map(|fault| markdown(fault)));
    for (analysis, design) in analyses.iter().zip(&looked.designs) {
        if analyses.len() > 1 {
            out += &format!("\n## {}\n", markdown(&design.path));
        }
        section(&mut out, "What is good", good(analysis, 0).iter().map(|line| markdown(line)));
        let mut found: Vec<&Finding> = analysis.findings.iter().collect();
        found.sort_by_key(|finding| finding.level);
        let line = |finding: &&Finding| {
            let help =
                if finding.help.is_empty() { String::new() } else { format!(" To pass: {}.", markdown(&finding.help)) };
            let (line, message) = (line_of(analysis, finding), markdown(finding.message.trim_end_matches('.')));
            format!("{}, line {line}: {message}.{help} {}", kind(finding.level), markdown(&finding.why))
        };
        section(&mut out, "What to mend", found.iter().map(line));
    }
    section(&mut out, "How the points come", looked.grade.lines.iter().map(|line| markdown(line)));
    out + &format!("\n{CAUTION}\n")
}

fn section(out: &mut String, title: &str, lines: impl Iterator<Item = String>) {
    for (number, line) in lines.enumerate() {
        if number == 0 {
            *out += &format!("\n**{title}**\n\n");
        }
        *out += &format!("* {line}\n");
    }
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().collect::<String>() + letters.as_str())
}
