//! `winter`: a winter hour by hour as a table.

use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::Path;

use book::Book;
use study::winter::Winter;

use super::set::replace;
use super::{studied, warn, weather};
use crate::failure::Failure;
use crate::output::Output;

/// What to write, and where.
pub(crate) struct Asked<'a> {
    pub(crate) weather: Option<&'a Path>,
    pub(crate) hours: &'a Path,
    /// Whether a file of that name may be replaced.
    pub(crate) replace: bool,
}

pub(crate) fn run(path: &Path, asked: &Asked<'_>, books: &Book, out: &Output) -> Result<(), Failure> {
    let hours = asked.hours;
    if hours.exists() && !asked.replace {
        return Err(in_the_way(hours)); // before the work, not after it
    }
    let (document, study) = studied(path, books)?;
    warn(&document, &study, out);
    let year = weather::year(&document, &study, asked.weather)?;
    let log = Winter::hours(&study, &year.weather).map_err(|problems| document.failed(problems))?;
    write(hours, &exchange::hours(&log), asked.replace)?;
    out.note(&format!(
        "{}: {} hours of the winter of {}, as found and as planned",
        hours.display(),
        log.weather.len(),
        year.weather.site.name
    ));
    Ok(())
}

/// A file that is there stays unless it may be replaced; one that could not be written to its end goes.
fn write(path: &Path, text: &str, is_replaced: bool) -> Result<(), Failure> {
    if is_replaced && path.exists() {
        return replace(path, text);
    }
    let opened = OpenOptions::new().write(true).create_new(true).open(path);
    let mut opened = opened.map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => in_the_way(path),
        _ => Failure::file("cannot write", path)(error),
    })?;
    opened.write_all(text.as_bytes()).map_err(|error| {
        let _half = std::fs::remove_file(path);
        Failure::file("cannot write", path)(error)
    })
}

fn in_the_way(path: &Path) -> Failure {
    Failure::InTheWay {
        path: path.to_path_buf(),
        why: "is already there".to_owned(),
        mend: "name a new file, or add `--replace` to write over it".to_owned(),
    }
}
