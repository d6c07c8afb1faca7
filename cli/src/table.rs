//! A small table: a label, a value, and what the value rests on.

use unicode_width::UnicodeWidthStr;

/// Rows of label, value and remark; columns as wide as they need to be.
#[derive(Default)]
pub struct Table {
    rows: Vec<[String; 3]>,
}

impl Table {
    /// Add a row.
    pub fn row(&mut self, label: &str, value: impl Into<String>, remark: impl Into<String>) {
        self.rows.push([label.to_string(), value.into(), remark.into()]);
    }

    /// The rows, each indented by two spaces.
    pub fn text(&self) -> String {
        let width = |i: usize| self.rows.iter().map(|r| r[i].width()).max().unwrap_or(0);
        let (first, second) = (width(0), width(1));
        let pad = |text: &str, to: usize| format!("{text}{}", " ".repeat(to.saturating_sub(text.width())));
        self.rows
            .iter()
            .map(|[label, value, remark]| {
                let line = format!("  {}  {}  {remark}", pad(label, first), pad(value, second));
                format!("{}\n", line.trim_end())
            })
            .collect()
    }
}
