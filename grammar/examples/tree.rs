//! Prints a file's tree and problems, for looking at what the grammar makes of it.
#![allow(clippy::print_stdout)]

fn main() -> std::io::Result<()> {
    for path in std::env::args().skip(1) {
        let tree = finwright_grammar::parse(&std::fs::read_to_string(path)?);
        println!("{:#?}\n{:#?}", tree.items, tree.problems);
    }
    Ok(())
}
