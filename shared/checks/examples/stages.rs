//! Times each stage of the way from text to findings on files given on the command line: microseconds, medians.
#![allow(clippy::print_stdout)]

use finwright_assess::assess;
use finwright_checks::{analyze, Files, Snapshot};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Instant;

struct NoFiles;
impl Files for NoFiles {
    fn read(&self, _: &Path) -> Result<Arc<str>, String> {
        Err("none".to_string())
    }
}

fn median(mut work: impl FnMut()) -> f64 {
    let mut times: Vec<f64> = (0..201)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn main() -> std::io::Result<()> {
    for path in std::env::args().skip(1) {
        let text: Arc<str> = Arc::from(std::fs::read_to_string(&path)?);
        let snapshot = Snapshot {
            path: PathBuf::from(&path),
            text: text.clone(),
            files: Arc::new(NoFiles),
            settings: Arc::default(),
        };
        let design = finwright_model::build(&snapshot.path, text.clone(), &NoFiles);
        let parse = median(|| drop(std::hint::black_box(finwright_grammar::parse_shared(text.clone()))));
        let build =
            median(|| drop(std::hint::black_box(finwright_model::build(&snapshot.path, text.clone(), &NoFiles))));
        let assess = median(|| drop(std::hint::black_box(assess(&design))));
        let whole = median(|| drop(std::hint::black_box(analyze(&snapshot))));
        // As in the language server, where all lines but one are as they were.
        let again = std::thread::spawn(move || {
            finwright_grammar::remember_lines();
            finwright_assess::remember_flights();
            median(|| drop(std::hint::black_box(analyze(&snapshot))))
        });
        let again = again.join().unwrap_or(f64::NAN);
        println!(
            "{path}: parse {parse:.0}, build with it {build:.0}, assess {assess:.0}, analyze {whole:.0}, again \
                {again:.0} us"
        );
    }
    Ok(())
}
