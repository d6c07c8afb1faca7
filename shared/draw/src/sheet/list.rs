//! A list over pages that lie across: what it comes to in sentences, then a row each under the columns' heads, which
//! stand on every page.

use crate::draft::Draft;
use crate::font::{tied, width, wrapped, LEAD};
use crate::paper::Paper;
use crate::scene::{Pen, Role, Scene, Style};

/// What is listed.
pub struct List {
    /// What it is a list of, in a line.
    pub title: String,
    /// What it comes to, a paragraph each.
    pub said: Vec<String>,
    /// The columns' heads.
    pub heads: Vec<String>,
    /// A row each.
    pub rows: Vec<Row>,
    /// What belongs to it, below.
    pub foot: Vec<String>,
}

/// One row.
pub struct Row {
    /// A cell for each column.
    pub cells: Vec<String>,
    /// Whether it doesn't pass: its first and its last cell say so.
    pub fails: bool,
}

const EDGE: f64 = 10.0;
const GAP: f64 = 2.2;
const STEP: f64 = 3.9;
/// A column is never narrower than this, mm, whatever else stands on the page.
const NARROWEST: f64 = 9.0;

/// Its pages.
pub fn list(list: &List, paper: Paper) -> Vec<Scene> {
    let (height, width) = paper.size();
    let mut sheet =
        Sheet { list, width, height, wide: columns(list, width - 2.0 * EDGE), done: Vec::new(), y: 0.0, draft: None };
    sheet.begin();
    for row in &list.rows {
        sheet.row(row);
    }
    sheet.y += 3.0;
    for line in &list.foot {
        sheet.flow(line, Style::NOTE);
    }
    sheet.turn();
    let of = sheet.done.len();
    let numbered = |(number, mut draft): (usize, Draft)| {
        let said = format!("page {} of {of}", number + 1);
        draft.text((width - EDGE, height - 6.0), said.as_str(), Style::NOTE.end());
        draft.done(list.title.clone(), format!("{} {said}.", list.said.join(" ")))
    };
    sheet.done.into_iter().enumerate().map(numbered).collect()
}

/// Pages being filled.
struct Sheet<'a> {
    list: &'a List,
    width: f64,
    height: f64,
    wide: Vec<f64>,
    done: Vec<Draft>,
    draft: Option<Draft>,
    y: f64,
}

impl Sheet<'_> {
    fn draft(&mut self) -> &mut Draft {
        let (width, height) = (self.width, self.height);
        self.draft.get_or_insert_with(|| Draft::new("list", width, height))
    }

    /// The first page, with what the list comes to.
    fn begin(&mut self) {
        self.y = EDGE + 4.0;
        let list = self.list;
        self.flow(&list.title, Style::SAY.bold());
        self.y += 1.0;
        for said in &list.said {
            self.flow(said, Style::LABEL);
        }
        self.y += 2.0;
        self.heads();
    }

    fn heads(&mut self) {
        let (list, wide) = (self.list, self.wide.clone());
        let style = Style::NOTE;
        let broken: Vec<Vec<String>> =
            list.heads.iter().zip(&wide).map(|(head, wide)| wrapped(head, style, wide - GAP)).collect();
        let deep = broken.iter().map(Vec::len).max().unwrap_or(1);
        let (mut x, y, right) = (EDGE, self.y, self.width - EDGE);
        for (lines, wide) in broken.iter().zip(&wide) {
            // The last line of every head stands over its column.
            let from = y + STEP * (deep - lines.len()) as f64;
            for (number, line) in lines.iter().enumerate() {
                self.draft().text((x, from + STEP * number as f64), line.as_str(), style);
            }
            x += wide;
        }
        self.y += STEP * deep as f64;
        let y = self.y - 2.4;
        self.draft().line(&[(EDGE, y), (right, y)], Pen::LINE);
        self.y += 1.4;
    }

    fn row(&mut self, row: &Row) {
        let (style, last) = (Style::NOTE.role(Role::Ink), row.cells.len().saturating_sub(1));
        let own = |at: usize| match at {
            at if row.fails && (at == 0 || at == last) => style.role(Role::Fails).bold(),
            0 => style.bold(),
            _ => style,
        };
        let wide = self.wide.clone();
        let cells = row.cells.iter().zip(&wide).enumerate();
        let broken: Vec<Vec<String>> = cells.map(|(at, (cell, wide))| wrapped(cell, own(at), wide - GAP)).collect();
        let deep = broken.iter().map(Vec::len).max().unwrap_or(1) as f64;
        // A row that is higher than a page goes on to the next one line by line.
        if self.y + STEP * deep > self.bottom() && STEP * deep < self.bottom() - 4.0 * EDGE {
            self.turn();
            self.y = EDGE + 4.0;
            self.heads();
        }
        for number in 0..deep as usize {
            if self.y > self.bottom() {
                self.turn();
                self.y = EDGE + 4.0;
                self.heads();
            }
            let (mut x, y) = (EDGE, self.y);
            for (at, (lines, wide)) in broken.iter().zip(&wide).enumerate() {
                if let Some(line) = lines.get(number) {
                    self.draft().text((x, y), line.as_str(), own(at));
                }
                x += wide;
            }
            self.y += STEP;
        }
        let (y, right) = (self.y - 2.5, self.width - EDGE);
        self.draft().line(&[(EDGE, y), (right, y)], Pen::HAIR);
        self.y += 1.2;
    }

    /// Words over the page's width.
    fn flow(&mut self, words: &str, style: Style) {
        for line in wrapped(words, style, self.width - 2.0 * EDGE) {
            if self.y > self.bottom() {
                self.turn();
                self.y = EDGE + 4.0;
            }
            let y = self.y;
            self.draft().text((EDGE, y), line, style);
            self.y += style.size * LEAD;
        }
    }

    fn bottom(&self) -> f64 {
        self.height - EDGE - 4.0
    }

    fn turn(&mut self) {
        self.done.extend(self.draft.take());
    }
}

/// How wide the columns are: as they would be by themselves where there is room for that; else the wide ones give way
/// to the narrow, for words can be broken and numbers can't.
fn columns(list: &List, room: f64) -> Vec<f64> {
    let style = Style::NOTE.role(Role::Ink).bold();
    let longest = |words: &str| tied(words).split(' ').map(|word| width(word, style)).fold(0.0, f64::max);
    let of = |at: usize, measure: &dyn Fn(&str) -> f64| {
        let cells = list.rows.iter().filter_map(|row| row.cells.get(at)).map(|cell| measure(cell));
        let head = list.heads.get(at).map_or(0.0, |head| longest(head));
        (cells.fold(head, f64::max) + GAP).max(NARROWEST)
    };
    let natural: Vec<f64> = (0..list.heads.len()).map(|at| of(at, &|cell| width(&tied(cell), style))).collect();
    let least: Vec<f64> = (0..list.heads.len()).map(|at| of(at, &longest)).collect();
    let (all, needed): (f64, f64) = (natural.iter().sum(), least.iter().sum());
    if all <= room {
        // What is left goes to the last column, which has words.
        let mut wide = natural;
        wide.last_mut().into_iter().for_each(|last| *last += room - all);
        return wide;
    }
    if needed >= room {
        return least.iter().map(|wide| wide * room / needed).collect();
    }
    // Every column has what it needs, and of the rest a share by what it would like.
    let share = (room - needed) / (all - needed);
    natural.iter().zip(&least).map(|(natural, least)| least + (natural - least) * share).collect()
}
