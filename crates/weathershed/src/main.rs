//! weathershed, the command line: one job document in, measured roof, quantities, drawings and papers out.
//!
//! Results go to standard output, problems and progress to standard error. Exit status: 0 done, 1 the job or the books have
//! errors, 2 usage, 3 a file could not be read or written, 4 a fault of the program. Only this crate touches files, the clock and the terminal.

mod args;
mod command;
mod document;
mod failure;
mod folder;
mod output;
mod report;
mod text;

use std::process::ExitCode;

use clap::Parser;

use crate::args::Cli;

fn main() -> ExitCode {
    let cli = Cli::parse();
    let out = output::Output::new(cli.quiet, cli.color);
    match command::run(&cli, &out) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            out.failure(&failure);
            ExitCode::from(failure.exit_status())
        }
    }
}
