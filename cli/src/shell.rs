//! `finwright completions` and `finwright manual`: what a shell and `man` know of the command, from its own options.

use crate::output::{print_as_it_is, unusable};
use clap::{Command, CommandFactory};
use clap_complete::Shell;
use clap_mangen::Man;
use std::process::ExitCode;

/// A script that completes the command in a shell.
pub fn completions<A: CommandFactory>(shell: Shell) -> ExitCode {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut A::command(), "finwright", &mut script);
    print_as_it_is(&String::from_utf8_lossy(&script));
    ExitCode::SUCCESS
}

/// A page for `man`: the command's own, or one of what it does.
pub fn manual<A: CommandFactory>(of: Option<&str>) -> ExitCode {
    let mut whole = A::command();
    // Each part then has the options that go with all of them.
    whole.build();
    let page = match of {
        None => Some(whole.clone()),
        Some(name) => whole.find_subcommand(name).map(|part| named(part, name)),
    };
    let Some(command) = page else {
        return unusable(&format!("there is no command {}", crate::output::printable(of.unwrap_or_default())));
    };
    let mut page = Vec::new();
    match Man::new(command).render(&mut page) {
        Ok(()) => print_as_it_is(&String::from_utf8_lossy(&page)),
        Err(error) => return unusable(&error.to_string()),
    }
    ExitCode::SUCCESS
}

/// A part as a command of its own, called as it's typed.
fn named(part: &Command, name: &str) -> Command {
    part.clone().display_name(format!("finwright-{name}"))
}
