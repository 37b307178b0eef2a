//! The commands.

mod check;
mod new;
mod plan;
mod set;
mod show;
mod trace;
mod weather;
mod winter;

use std::path::{Path, PathBuf};

use book::Book;
use clap::CommandFactory;
use study::Study;
use study::winter::Sampling;

use crate::args::{Cli, Command};
use crate::document::Document;
use crate::failure::Failure;
use crate::output::Output;
use crate::text::text_of;

/// Does what the command line asks.
pub(crate) fn run(cli: &Cli, out: &Output) -> Result<(), Failure> {
    let books = || books(&cli.book);
    match &cli.command {
        Command::New { file } => new::run(file, out),
        Command::Check { job, json } => check::run(job, *json, &books()?, out),
        Command::Set { job, path, value } => set::run(job, path, value, &books()?, out),
        Command::Plan { job, output, json, runs } => {
            let asked = plan::Asked { json: *json, runs: *runs as usize };
            plan::run(job, output, &asked, &books()?, out)
        }
        Command::Show { part, job, json, blocked, weather, runs, seed } => {
            let sampling = Sampling { runs: *runs as usize, seed: *seed };
            let asked = show::Asked { json: *json, blocked, weather: weather.as_deref(), sampling };
            show::run(*part, job, &asked, &books()?, out)
        }
        Command::Trace { job, x, y, json, no_gutters, blocked } => {
            let hung = if *no_gutters { trace::Hung::None } else { trace::Hung::But(blocked) };
            trace::run(job, [*x, *y], *json, hung, &books()?, out)
        }
        Command::Winter { job, weather, hours, replace } => {
            let asked = winter::Asked { weather: weather.as_deref(), hours, replace: *replace };
            winter::run(job, &asked, &books()?, out)
        }
        Command::Schema => Output::result(&pretty(&job::schema())),
        Command::Completions { shell } => {
            let mut script = Vec::new();
            clap_complete::generate(*shell, &mut Cli::command(), "weathershed", &mut script);
            Output::result(&String::from_utf8_lossy(&script))
        }
    }
}

/// The books the program carries, with the contractor's own on top.
fn books(overlays: &[PathBuf]) -> Result<Book, Failure> {
    let named: Vec<(String, String)> = (overlays.iter())
        .map(|path| Ok((path.display().to_string(), text_of(path)?)))
        .collect::<Result<_, Failure>>()?;
    let named: Vec<(&str, &str)> = named.iter().map(|(name, text)| (name.as_str(), text.as_str())).collect();
    Book::with_overlays(&named).map_err(Failure::Books)
}

/// Reads a job and works it out.
fn studied(path: &Path, books: &Book) -> Result<(Document, Study), Failure> {
    let document = Document::read(path, books)?;
    match Study::of(&document.job, books) {
        Ok(study) => Ok((document, study)),
        Err(problems) => Err(document.failed(problems)),
    }
}

/// Shows the warnings of the document and of the results.
fn warn(document: &Document, study: &Study, out: &Output) {
    let name = document.path.display().to_string();
    out.warnings(&name, &document.text, &document.warnings);
    out.warnings(&name, &document.text, &study.warnings);
}

/// JSON as a person can read it too.
fn pretty(value: &serde_json::Value) -> String {
    format!("{value:#}")
}
