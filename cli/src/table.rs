//! A small table: a label, a value, and what the value rests on.

use unicode_width::UnicodeWidthStr;

/// Rows of label, value and remark under headings; columns as wide as they need to be, the same under all headings.
#[derive(Default)]
pub struct Table {
    lines: Vec<Line>,
}

enum Line {
    Heading(String),
    Row([String; 3]),
}

impl Table {
    /// Start a section. One that gets no rows isn't shown.
    pub fn heading(&mut self, text: impl Into<String>) {
        if matches!(self.lines.last(), Some(Line::Heading(_))) {
            self.lines.pop();
        }
        self.lines.push(Line::Heading(text.into()));
    }

    /// Add a row.
    pub fn row(&mut self, label: &str, value: impl Into<String>, remark: impl Into<String>) {
        self.lines.push(Line::Row([label.to_string(), value.into(), remark.into()]));
    }

    /// Headings are indented by two spaces, rows by two more where there are headings.
    pub fn text(&self) -> String {
        let rows = || {
            self.lines.iter().filter_map(|line| match line {
                Line::Row(row) => Some(row),
                Line::Heading(_) => None,
            })
        };
        let width = |i: usize| rows().map(|row| row[i].width()).max().unwrap_or(0);
        let (first, second) = (width(0), width(1));
        let pad = |text: &str, to: usize| format!("{text}{}", " ".repeat(to.saturating_sub(text.width())));
        let has_headings = self.lines.iter().any(|line| matches!(line, Line::Heading(_)));
        let indent = if has_headings { "    " } else { "  " };
        let last = self.lines.len().saturating_sub(1);
        let mut text = String::new();
        for (i, line) in self.lines.iter().enumerate() {
            match line {
                Line::Heading(_) if i == last => {}
                Line::Heading(heading) => text.push_str(&format!("  {heading}\n")),
                Line::Row([label, value, remark]) => {
                    let row = format!("{indent}{}  {}  {remark}", pad(label, first), pad(value, second));
                    text.push_str(row.trim_end());
                    text.push('\n');
                }
            }
        }
        text
    }
}
