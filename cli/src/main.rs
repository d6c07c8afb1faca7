//! The command `finwright`. Exit status: 0 clean, 1 findings at error level, 2 something that couldn't be used.
#![allow(clippy::print_stdout, clippy::print_stderr)] // This crate is the one that prints.

mod chances;
mod check;
mod chosen;
#[cfg(feature = "pictures")]
mod class;
mod collect;
#[cfg(feature = "pictures")]
mod day;
mod diff;
#[cfg(feature = "pictures")]
mod draw;
mod escape;
mod explain;
mod fmt;
mod git;
mod guides;
mod init;
mod judged;
mod layout;
#[cfg(feature = "pictures")]
mod letters;
mod likeness;
mod more;
mod new;
mod object;
mod output;
#[cfg(feature = "pictures")]
mod preview;
mod progress;
mod render;
mod replace;
mod schema;
#[cfg(feature = "pictures")]
mod sheet;
mod shell;
mod show;
mod snippet;
mod statements;
mod table;
mod working;
mod written;

#[cfg(feature = "pictures")]
use clap::builder::TypedValueParser;
use clap::{Args, Parser, Subcommand, ValueEnum};
use finwright_units::Units;
use output::Manners;
use std::path::PathBuf;
use std::process::ExitCode;

/// Checks hobby rocket designs: will the rod or rail hold it straight until its fins can steer?
///
/// It computes what a design file says and meets the checks listed; the range safety officer and the local code decide.
#[derive(Parser)]
#[command(name = "finwright", version = env!("FINWRIGHT_VERSION"), max_term_width = 100)]
struct Arguments {
    #[command(flatten)]
    manners: Manners,
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Check designs and report what the rules find.
    Check(check::Check),
    /// Write down what is found now, so that `check --baseline` counts only what is new.
    Baseline(check::WriteBaseline),
    /// Lay designs out in the one style.
    Fmt(fmt::Fmt),
    /// Show a design's numbers: a table a flight.
    Show {
        /// The design, or - for standard input.
        file: PathBuf,
        /// How the numbers are written.
        #[arg(long, value_enum, default_value_t = ShowFormat::Text)]
        format: ShowFormat,
        /// Compare with a code's limits, in text: us-class-1, us-class-2, us-model, us-high-power,
        /// california-experimental. The flights are judged by them.
        #[arg(long, value_name = "CODE")]
        limits: Option<String>,
        #[command(flatten)]
        reader: Reader,
    },
    /// Compare every pad at hand: which rod or rail, where the guides go, up to what wind.
    Guides {
        /// The design, or - for standard input.
        file: PathBuf,
        /// Another wind than the site's, such as 6m/s or 12mph; gusts keep the site's proportion. A range, 0..15mph, gives
        /// the winds in which the lengths are told.
        #[arg(long, value_name = "SPEED")]
        wind: Option<String>,
        /// Another motor that the design knows; all: each of them, and which may fly.
        #[arg(long, value_name = "NAME")]
        motor: Option<String>,
        /// A file of motors, as if the design used it.
        #[arg(long, value_name = "FILE")]
        motors: Option<PathBuf>,
        /// A file of pads, a club's: they are compared instead of the design's own.
        #[arg(long, value_name = "FILE")]
        pads: Option<PathBuf>,
        /// Another site that the design or the file of pads knows.
        #[arg(long, value_name = "NAME")]
        site: Option<String>,
        /// The usual rods and rails cut to this length, such as 1.2m or 4ft, instead of those that are sold.
        #[arg(long, value_name = "LENGTH")]
        length: Option<String>,
        /// The usual rods and rails too, not only the pads that the design knows.
        #[arg(long)]
        all: bool,
        /// How the comparison is written.
        #[arg(long, value_enum, default_value_t = GuidesFormat::Text)]
        format: GuidesFormat,
        #[command(flatten)]
        reader: Reader,
    },
    /// Compare designs before and after a change: numbers, verdicts, findings, parts.
    Diff(diff::Diff),
    /// Count how often a flight meets its floors when thrust, mass, wind and the like vary.
    Chances {
        /// The design, or - for standard input.
        file: PathBuf,
        /// How many runs of each flight.
        #[arg(long, default_value_t = 1000, value_parser = clap::value_parser!(u64).range(1..=1_000_000))]
        runs: u64,
        /// Where the chance starts: the same seed gives the same answer.
        #[arg(long, default_value_t = 1)]
        seed: u64,
        /// How the numbers are written.
        #[arg(long, value_enum, default_value_t = ShowFormat::Text)]
        format: ShowFormat,
        #[command(flatten)]
        reader: Reader,
    },
    /// Work a number by hand, step by step, with a design's own values: for a class with calculators.
    Working {
        /// The design, or - for standard input.
        file: PathBuf,
        /// The number to work, such as exit-speed; without one, they are listed.
        quantity: Option<String>,
        /// The flight; the file's first one where none is named.
        #[arg(long, value_name = "NAME")]
        flight: Option<String>,
        /// How the page is written.
        #[arg(long, value_enum, default_value_t = WorkingFormat::Text)]
        format: WorkingFormat,
        #[command(flatten)]
        reader: Reader,
    },
    /// Draw a picture of a design, as SVG or PDF.
    #[cfg(feature = "pictures")]
    Draw {
        /// The design, or - for standard input.
        file: PathBuf,
        /// Which one: stand, bench, end-on, run, window, margin, path. Without a name, they are listed.
        #[arg(long, value_name = "NAME")]
        what: Option<String>,
        /// The flight; the file's first one where none is named.
        #[arg(long, value_name = "NAME")]
        flight: Option<String>,
        /// The file to write, .svg or .pdf; without one, SVG goes to standard output.
        #[arg(short, long, value_name = "FILE")]
        output: Option<PathBuf>,
        /// The paper of a PDF.
        #[arg(long, value_enum, default_value_t = PaperSize::A4)]
        paper: PaperSize,
        #[command(flatten)]
        reader: Reader,
    },
    /// Make sheets to print: what is marked out at true size, flight cards, a working.
    #[cfg(feature = "pictures")]
    Sheet {
        /// The design; for cards also several, or folders.
        #[arg(required = true)]
        files: Vec<PathBuf>,
        /// Which sheet.
        #[arg(long, value_enum, default_value_t = SheetOf::Marking)]
        what: SheetOf,
        /// The flight; for cards all of them where none is named, else the file's first one.
        #[arg(long, value_name = "NAME")]
        flight: Option<String>,
        /// The number that a working works, such as exit-speed.
        #[arg(long, value_name = "NAME")]
        quantity: Option<String>,
        /// How many cards a page: 1 or 4.
        #[arg(long, default_value_t = 4, value_parser = clap::builder::PossibleValuesParser::new(["1", "4"]).map(|n| n.parse::<usize>().unwrap_or(4)))]
        each: usize,
        /// The file to write, .pdf or .html.
        #[arg(short, long, value_name = "FILE")]
        output: PathBuf,
        /// The paper.
        #[arg(long, value_enum, default_value_t = PaperSize::A4)]
        paper: PaperSize,
        #[command(flatten)]
        reader: Reader,
    },
    /// List a flying day's rockets for the officer's table: a line each, in the order in which they stop as the wind
    /// rises.
    #[cfg(feature = "pictures")]
    Day(day::Day),
    /// Look at what a class handed in: a page for the teacher, one for each pupil, grades and feedback.
    #[cfg(feature = "pictures")]
    Class(class::Class),
    /// Show a design's live page: its pictures in a browser, following every save.
    #[cfg(feature = "pictures")]
    Preview {
        /// The design.
        file: PathBuf,
        /// Open it in the browser at once.
        #[arg(long)]
        open: bool,
        #[command(flatten)]
        reader: Reader,
    },
    /// Explain a rule, a block or a field of the language, or a topic; without a name, list them.
    Explain {
        /// Such as slow-exit (or guide/slow-exit), tube, tube.outer, measuring.
        name: Option<String>,
        #[command(flatten)]
        reader: Reader,
    },
    /// Print a JSON schema.
    Schema {
        /// Of the numbers that `show --format json` gives, of `check` or `diff --format json`, of a line of
        /// `check --format jsonl`, or of `finwright.toml`.
        #[arg(value_enum, default_value_t = SchemaOf::Numbers)]
        of: SchemaOf,
    },
    /// Begin a design: a small complete rocket that meets every check.
    New(new::New),
    /// Set a club's repository up: settings, workflows that check every change, hooks, a first design.
    Init {
        /// The folder.
        #[arg(default_value = ".")]
        folder: PathBuf,
    },
    /// Print a script that completes this command in a shell.
    Completions {
        /// The shell.
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
    /// Print a page for man.
    Manual {
        /// Of one command, such as check; without one, the whole's.
        command: Option<String>,
    },
    /// Serve an editor on standard input and output (Language Server Protocol).
    Lsp,
}

/// For whom the words are.
#[derive(Args)]
struct Reader {
    /// Whose units come first, instead of those that finwright.toml sets; JSON and CSV are SI always.
    #[arg(long, value_enum)]
    units: Option<UnitsFirst>,
}

#[derive(Clone, Copy, ValueEnum)]
enum UnitsFirst {
    /// SI alone.
    Si,
    /// Inches, ounces and miles an hour, SI in brackets behind.
    Us,
}

impl Reader {
    /// The units that are asked for. What a program reads is in SI, whoever asks.
    fn units(&self, is_for_programs: bool) -> Option<Units> {
        match self.units {
            _ if is_for_programs => Some(Units::Si),
            Some(UnitsFirst::Si) => Some(Units::Si),
            Some(UnitsFirst::Us) => Some(Units::Us),
            None => None,
        }
    }
}

/// A sheet.
#[cfg(feature = "pictures")]
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SheetOf {
    /// A strip at true size to wrap around the tube, with lines and places.
    Marking,
    /// A card for each flight.
    Card,
    /// A number worked by hand.
    Working,
}

/// A size of paper.
#[cfg(feature = "pictures")]
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PaperSize {
    /// 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

#[cfg(feature = "pictures")]
impl From<PaperSize> for finwright_draw::paper::Paper {
    fn from(size: PaperSize) -> Self {
        match size {
            PaperSize::A4 => Self::A4,
            PaperSize::Letter => Self::Letter,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum GuidesFormat {
    /// A table, the advice in sentences, and where guides go.
    Text,
    /// SI numbers, an object a motor and site.
    Json,
    /// The same as text, for a page.
    Markdown,
    /// SI numbers, a row a pad.
    Csv,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SchemaOf {
    /// The numbers of `show --format json`.
    Numbers,
    /// What `check --format json` prints.
    Check,
    /// A line of `check --format jsonl` about a file.
    File,
    /// What `diff --format json` prints.
    Diff,
    /// The settings in `finwright.toml`.
    Settings,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum ShowFormat {
    /// Tables.
    Text,
    /// SI numbers under stable names, an object a flight.
    Json,
}

#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum WorkingFormat {
    /// A page of plain text.
    Text,
    /// A page in Markdown, for a worksheet.
    Markdown,
    /// One JSON object: known values, steps, tables, and the program's own numbers.
    Json,
}

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let manners = arguments.manners;
    output::colour(manners.color);
    output::ended(run(arguments.command, manners))
}

fn run(command: Command, manners: Manners) -> ExitCode {
    match command {
        Command::Check(options) => check::check(&options, manners),
        Command::Baseline(options) => check::write_baseline(&options, manners),
        Command::Fmt(options) => fmt::fmt(&options, manners),
        Command::Show { file, format, limits, reader } => {
            show::show(&file, format, limits.as_deref(), reader.units(format == ShowFormat::Json))
        }
        Command::Guides { file, wind, motor, motors, pads, site, length, all, format, reader } => {
            let units = reader.units(matches!(format, GuidesFormat::Json | GuidesFormat::Csv));
            let wishes = guides::Wishes {
                wind: wind.as_deref(),
                motor: motor.as_deref(),
                motors: motors.as_deref(),
                pads: pads.as_deref(),
                site: site.as_deref(),
                length: length.as_deref(),
                all: all || length.is_some(),
                format,
                units,
            };
            guides::guides(&file, &wishes)
        }
        Command::Diff(options) => diff::diff(&options),
        Command::Chances { file, runs, seed, format, reader } => {
            chances::chances(&file, runs, seed, format, reader.units(format == ShowFormat::Json))
        }
        Command::Working { file, quantity, flight, format, reader } => {
            working::working(&file, quantity.as_deref(), flight.as_deref(), format, reader.units(false))
        }
        #[cfg(feature = "pictures")]
        Command::Draw { file, what, flight, output, paper, reader } => {
            let (what, flight, output) = (what.as_deref(), flight.as_deref(), output.as_deref());
            draw::draw(&file, &draw::Wish { what, flight, output, paper, units: reader.units(false) })
        }
        #[cfg(feature = "pictures")]
        Command::Sheet { files, what, flight, quantity, each, output, paper, reader } => {
            let (flight, quantity, units) = (flight.as_deref(), quantity.as_deref(), reader.units(false));
            sheet::sheet(&files, &sheet::Wish { what, flight, quantity, each, output: &output, paper, units })
        }
        #[cfg(feature = "pictures")]
        Command::Day(options) => day::day(&options),
        #[cfg(feature = "pictures")]
        Command::Class(options) => class::class(&options, manners),
        #[cfg(feature = "pictures")]
        Command::Preview { file, open, reader } => preview::preview(&file, open, reader.units(false)),
        Command::Explain { name, reader } => explain::explain(name.as_deref(), reader.units(false)),
        Command::Schema { of } => {
            let schema = match of {
                SchemaOf::Numbers => schema::numbers(),
                SchemaOf::Check => schema::check(),
                SchemaOf::File => schema::file(),
                SchemaOf::Diff => schema::diff(),
                SchemaOf::Settings => finwright_checks::settings::schema::schema(),
            };
            output::print(&format!("{schema:#}\n"));
            ExitCode::SUCCESS
        }
        Command::New(options) => new::new(&options, manners),
        Command::Init { folder } => init::init(&folder, manners),
        Command::Completions { shell } => shell::completions::<Arguments>(shell),
        Command::Manual { command } => shell::manual::<Arguments>(command.as_deref()),
        Command::Lsp => match finwright_server::run() {
            Ok(code) => code,
            Err(error) => output::unusable(&format!("the server can't start: {error}")),
        },
    }
}
