//! The table of a flight's numbers: a label, a value, and what the value rests on.

use crate::layout::table::{Column, Table as Columns};

/// Rows of label, value and remark under headings; columns as wide as they need to be, the same under all headings.
pub struct Table(Columns);

impl Default for Table {
    fn default() -> Table {
        Table(Columns::new([Column::words(""), Column::words(""), Column::prose("", 24)]))
    }
}

impl Table {
    /// Start a section. One that gets no rows isn't shown.
    pub fn heading(&mut self, text: impl Into<String>) {
        self.0.section(text);
    }

    /// Add a row.
    pub fn row(&mut self, label: &str, value: impl Into<String>, remark: impl Into<String>) {
        self.0.row([label.to_string(), value.into(), remark.into()]);
    }

    /// The rows in lines that fit the reader's terminal. Its columns all stay: remarks are broken, or go below their
    /// row.
    pub fn text(&self) -> String {
        self.0.text(crate::layout::measure()).text
    }
}
