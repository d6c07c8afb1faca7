//! Prints a file in the one style.
#![allow(clippy::print_stdout)]

fn main() -> std::io::Result<()> {
    for path in std::env::args().skip(1) {
        print!("{}", finwright_grammar::format(&std::fs::read_to_string(path)?));
    }
    Ok(())
}
