//! Median and least time of an assessment, of a flight to the ground and of a thousand runs; never part of the tests.
//!
//! `cargo run --release -p finwright-assess --example assess_timing -- DESIGN.finw`
#![allow(clippy::print_stdout)]

use finwright_assess::chances::{chances, Floors};
use finwright_assess::{assess, path, report};
use finwright_model::{build, Files};
use std::error::Error;
use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;
use std::time::Instant;

struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("a design for timing stands in one file".to_string())
    }
}

fn main() -> Result<(), Box<dyn Error>> {
    let file = std::env::args().nth(1).ok_or("which design?")?;
    let text: Arc<str> = Arc::from(std::fs::read_to_string(&file)?);
    let design = build(Path::new(&file), text, &NoFiles);
    let assessment = assess(&design);
    let numbers = assessment.flights.first().ok_or("no flight")?;
    let floors = Floors { exit_speed: 13.4, margin: 1.0, doubt: 0.0, push: 5.0, angle: 0.245 };
    println!("parts {}, flights {}", design.parts.len(), design.flights.len());
    println!("assessment, all flights   {}", timed(500, || assess(&design)));
    println!("one flight to the ground  {}", timed(500, || path(&design, &assessment.airframe, numbers)));
    println!("report with tolerances    {}", timed(50, || report::flights(&design, &assessment, 13.4)));
    println!("1000 runs of one flight   {}", timed(20, || chances(&design, &assessment, numbers, &floors, 1000, 1)));
    Ok(())
}

fn timed<T>(times: usize, mut call: impl FnMut() -> T) -> String {
    let mut taken: Vec<f64> = (0..times)
        .map(|_| {
            let start = Instant::now();
            black_box(call());
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    taken.sort_by(f64::total_cmp);
    format!("{:10.2} us median, {:10.2} us least", taken[times / 2], taken[0])
}
