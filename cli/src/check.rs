//! `finwright check`: every finding of every design, a verdict for each, and a closing count. `finwright baseline`
//! writes down what it finds, so that only what is new counts.

mod baseline;
mod entry;
mod fails;
mod file;
mod forms;
mod line;
mod list;
mod look;
mod made;
mod mend;
mod report;
mod results;
mod run;
mod shared;
mod tally;

use crate::collect::pick::{Files, Shard};
use crate::output::{print, printable, unusable, Manners, UNUSABLE};
use crate::progress::Progress;
use crate::Reader;
use baseline::Baseline;
use clap::Args;
use fails::Fails;
use forms::{Format, Manner};
use look::Wanted;
use run::Run;
use std::path::PathBuf;
use std::process::ExitCode;

pub use line::FileResult;
pub use report::Report;

/// The options of `check`.
#[derive(Args)]
pub struct Check {
    #[command(flatten)]
    files: Files,
    /// How findings are written: text, line, json, jsonl, sarif, junit, github, gitlab or rdjson; NAME=FILE writes to a
    /// file, and several may be asked for at once.
    #[arg(long, value_name = "NAME", default_value = "text")]
    format: Vec<forms::Asked>,
    /// List the checks that were made, too; JSON has them always.
    #[arg(long)]
    made: bool,
    #[command(flatten)]
    fails: Fails,
    /// Count only what isn't in this baseline; `finwright baseline` writes one.
    #[arg(long, value_name = "FILE")]
    baseline: Option<PathBuf>,
    /// Mend what can be mended: each edit is tried, and kept where its finding goes and nothing new is found.
    #[arg(long, conflicts_with_all = ["from", "shard"])]
    fix: bool,
    /// With --fix: write nothing, and show what would change.
    #[arg(long, requires = "fix")]
    diff: bool,
    /// Only one part of several, such as 2/5: so many machines look at a fifth of the files each.
    #[arg(long, value_name = "N/M")]
    shard: Option<Shard>,
    /// Look at no design: put together what earlier runs have written as jsonl.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["paths", "files_from", "since", "shard", "stdin_filename"])]
    from: Option<PathBuf>,
    #[command(flatten)]
    reader: Reader,
}

pub fn check(options: &Check, manners: Manners) -> ExitCode {
    match checked(options, manners) {
        Ok(code) => code,
        Err(reason) => unusable(&printable(&reason)),
    }
}

fn checked(options: &Check, manners: Manners) -> Result<ExitCode, String> {
    if options.format.iter().filter(|asked| asked.file.is_none()).count() > 1 {
        return Err("only one format goes to standard output; NAME=FILE writes another to a file".to_string());
    }
    // A baseline that can't be read is told before anything is looked at.
    let baseline = options.baseline.as_deref().map(Baseline::read).transpose()?;
    let written = !options.fix || mend::mend(&options.files, options.diff, manners)?;
    if options.diff {
        return Ok(ExitCode::SUCCESS);
    }
    let mut run = run(options, manners)?;
    if let Some(baseline) = &baseline {
        run.without_known(baseline);
    }
    forms::write_all(&options.format, &run, Manner { quiet: manners.quiet, is_part: options.shard.is_some() })?;
    for (path, reason) in run.results.unusable() {
        eprintln!("finwright: {}: {}", printable(path), printable(reason));
    }
    if !written || run.results.unusable().next().is_some() {
        return Ok(ExitCode::from(UNUSABLE));
    }
    Ok(ExitCode::from(u8::from(options.fails.fails(&run.results))))
}

fn run(options: &Check, manners: Manners) -> Result<Run, String> {
    let asked = |wanted: fn(Format) -> bool| options.format.iter().any(|asked| wanted(asked.format));
    if let Some(from) = &options.from {
        if asked(|format| format == Format::Text) {
            let why =
                "text shows the designs' own lines, which a list of results doesn't have; ask for another --format";
            return Err(why.to_string());
        }
        return Ok(run::of_results(list::read(from)?));
    }
    let found = options.files.find()?;
    let (found, others) = match options.shard {
        Some(shard) => (shard.of(found.clone()), found),
        None => (found, Vec::new()),
    };
    let wanted = Wanted {
        drawn: asked(|format| format == Format::Text),
        lines: asked(|format| format == Format::Line),
        // A baseline holds whoever's units it's read in.
        for_programs: asked(Format::is_for_programs) || options.baseline.is_some(),
        fixes: asked(Format::has_fixes),
        made: options.made,
        units: options.reader.units(false),
        piped: options.files.stdin_filename.clone(),
    };
    let progress = Progress::of(found.len(), !manners.quiet);
    Ok(run::look_at_all(&found, &others, &wanted, &progress))
}

/// The options of `baseline`.
#[derive(Args)]
pub struct WriteBaseline {
    #[command(flatten)]
    files: Files,
    /// Where it's written.
    #[arg(short, long, value_name = "FILE", default_value = baseline::FILE)]
    output: PathBuf,
}

/// Write down what is found now.
pub fn write_baseline(options: &WriteBaseline, manners: Manners) -> ExitCode {
    let written = || -> Result<(usize, Run), String> {
        let found = options.files.find()?;
        let wanted = Wanted { for_programs: true, piped: options.files.stdin_filename.clone(), ..Wanted::default() };
        let run = run::look_at_all(&found, &[], &wanted, &Progress::of(found.len(), !manners.quiet));
        Ok((Baseline::write(&options.output, &run.results)?, run))
    };
    match written() {
        Ok((many, run)) => {
            if !manners.quiet {
                let (many, shown) = (crate::output::plural(many, "finding"), options.output.display().to_string());
                print(&format!("{} knows {many}\n", printable(&shown)));
            }
            for (path, reason) in run.results.unusable() {
                eprintln!("finwright: {}: {}", printable(path), printable(reason));
            }
            ExitCode::from(if run.results.unusable().next().is_some() { UNUSABLE } else { 0 })
        }
        Err(reason) => unusable(&printable(&reason)),
    }
}
