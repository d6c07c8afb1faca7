//! Topics: pages about the craft, in Markdown beside this module, laid out for a terminal.

use crate::layout::{hanging, paragraph};

/// A page about something that no rule and no field is about.
pub struct Topic {
    pub name: &'static str,
    text: &'static str,
}

/// The topics by name.
pub static TOPICS: &[Topic] = &[
    Topic { name: "beginning", text: include_str!("../topics/beginning.md") },
    Topic { name: "club", text: include_str!("../topics/club.md") },
    Topic { name: "hardware", text: include_str!("../topics/hardware.md") },
    Topic { name: "measuring", text: include_str!("../topics/measuring.md") },
    Topic { name: "measuring-flights", text: include_str!("../topics/measuring_flights.md") },
    Topic { name: "teaching", text: include_str!("../topics/teaching.md") },
];

impl Topic {
    /// The page's title.
    pub fn title(&self) -> &'static str {
        self.text.lines().next().unwrap_or("").trim_start_matches("# ")
    }

    /// The page in lines of at most `width` columns; what stands between fences is shown as it is.
    pub fn page(&self, width: usize) -> String {
        let mut out = String::new();
        for block in blocks(self.text) {
            if !out.is_empty() {
                out.push('\n');
            }
            match block {
                Block::Heading(text) => out += &(paragraph(&text, "", width) + "\n"),
                Block::Paragraph(text) => out += &(paragraph(&text, "", width) + "\n"),
                Block::List(items) => {
                    items.iter().for_each(|item| out += &(hanging(item, "  * ", "    ", width) + "\n"))
                }
                Block::Code(lines) => lines.iter().for_each(|line| out += &format!("  {line}\n")),
            }
        }
        out
    }
}

enum Block {
    Heading(String),
    Paragraph(String),
    List(Vec<String>),
    Code(Vec<String>),
}

/// The page's blocks, of the few kinds that our pages have; a paragraph's or an item's lines are one.
fn blocks(text: &str) -> Vec<Block> {
    let mut found = Vec::new();
    let mut lines = text.lines();
    // A block goes on until a line is empty.
    let mut is_new = true;
    while let Some(line) = lines.next() {
        if line.starts_with("```") {
            found.push(Block::Code(lines.by_ref().take_while(|line| *line != "```").map(String::from).collect()));
        } else if line.starts_with('#') {
            found.push(Block::Heading(line.trim_start_matches(['#', ' ']).to_string()));
        } else if !line.is_empty() {
            let item = line.strip_prefix("* ");
            match (found.last_mut().filter(|_| !is_new), item) {
                (Some(Block::List(items)), Some(item)) => items.push(item.to_string()),
                (Some(Block::List(items)), None) => {
                    items.iter_mut().last().into_iter().for_each(|last| *last += &format!(" {}", line.trim()));
                }
                (Some(Block::Paragraph(text)), None) => *text += &format!(" {line}"),
                (_, Some(item)) => found.push(Block::List(vec![item.to_string()])),
                (_, None) => found.push(Block::Paragraph(line.to_string())),
            }
        }
        is_new = line.is_empty();
    }
    found
}

#[cfg(test)]
mod tests {
    use super::TOPICS;
    use finwright_assess::bought::KITS;
    use finwright_units::show;

    /// The page's table is that of the code.
    #[test]
    fn the_hardware_is_as_advised() {
        let page = TOPICS.iter().find(|topic| topic.name == "hardware").map_or("", |topic| topic.text);
        for kit in KITS {
            let line = page.lines().find(|line| line.starts_with(&format!("{}, ", kit.section))).unwrap_or_default();
            let screws = format!("{} or {}", kit.metric.name, kit.unified.name);
            let drill = format!("{} or ", show::length(kit.metric.hole));
            let (block, most) = (show::length(kit.block), show::mass(kit.most_mass));
            assert!([screws, drill, block, most].iter().all(|told| line.contains(told)), "{kit:?}: {line}");
        }
    }
}
