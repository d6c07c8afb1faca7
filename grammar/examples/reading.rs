//! Reads texts both ways, for counting: `reading plain|grammar|format|both TIMES FILE…`.
//!
//! With `both` it prints how many times the CPU time of reading by hand goes into that of the grammar alone, the median
//! of turns that follow each other. With one of the ways it only reads, and with `format` it lays out, so that an
//! instruction counter can be put around it.
#![allow(clippy::print_stdout)]

use finwright_grammar::{format, parse_by_grammar, parse_shared};
use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let usage = "usage: reading plain|grammar|format|both TIMES FILE…";
    let mut arguments = std::env::args().skip(1);
    let way = arguments.next().ok_or(usage)?;
    let times: usize = arguments.next().ok_or(usage)?.parse()?;
    let texts = arguments.map(std::fs::read_to_string).collect::<Result<Vec<String>, _>>()?;
    let shared: Vec<Arc<str>> = texts.iter().map(|text| Arc::from(text.as_str())).collect();
    let plain = || shared.iter().for_each(|text| drop(black_box(parse_shared(text.clone()))));
    let grammar = || texts.iter().for_each(|text| drop(black_box(parse_by_grammar(text))));
    match way.as_str() {
        "plain" => (0..times).for_each(|_| plain()),
        "grammar" => (0..times).for_each(|_| grammar()),
        "format" => (0..times).for_each(|_| texts.iter().for_each(|text| drop(black_box(format(text))))),
        "both" => {
            let timed = |work: &dyn Fn()| {
                let start = Instant::now();
                work();
                start.elapsed().as_secs_f64()
            };
            let mut ratios: Vec<f64> = (0..times).map(|_| timed(&grammar) / timed(&plain)).collect();
            ratios.sort_by(f64::total_cmp);
            let lines: usize = texts.iter().map(|text| text.lines().count()).sum();
            let each = timed(&plain) / lines as f64 * 1e9;
            println!("{lines} lines: {:.2} times as quick, {each:.0} ns a line", ratios.get(times / 2).ok_or(usage)?);
        }
        _ => return Err(usage.into()),
    }
    Ok(())
}
