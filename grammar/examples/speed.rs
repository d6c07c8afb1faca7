//! Times the parser on files given on the command line: microseconds and bytes a second, the median of many runs.
#![allow(clippy::print_stdout)]

use std::time::Instant;

fn main() -> std::io::Result<()> {
    for path in std::env::args().skip(1) {
        let text = std::fs::read_to_string(&path)?;
        let mut times: Vec<f64> = (0..301)
            .map(|_| {
                let start = Instant::now();
                std::hint::black_box(finwright_grammar::parse(std::hint::black_box(&text)));
                start.elapsed().as_secs_f64()
            })
            .collect();
        times.sort_by(f64::total_cmp);
        let median = times[times.len() / 2];
        println!("{path}: {:.0} us, {:.1} MB/s", median * 1e6, text.len() as f64 / median / 1e6);
    }
    Ok(())
}
