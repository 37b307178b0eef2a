//! `set`: one value of a job changed, and not a byte more.

use std::fs;
use std::io::Write;
use std::path::Path;

use book::Book;
use job::{Job, edit};

use crate::failure::Failure;
use crate::output::Output;
use crate::text::text_of;

/// Comments, layout and line ends stay. A change that would give a sound document an error is refused and nothing is written.
pub(crate) fn run(path: &Path, at: &str, value: &str, books: &Book, out: &Output) -> Result<(), Failure> {
    let text = text_of(path)?;
    let failed =
        |text: &str, problems| Failure::Job { path: path.to_path_buf(), text: text.to_owned(), problems };
    let edited = edit::set(&text, at, value).map_err(|problem| failed(&text, vec![problem]))?;
    if let (Ok(_), Err(problems)) = (Job::read(&text, books), Job::read(&edited, books)) {
        return Err(failed(&edited, problems));
    }
    let is_new = edited != text;
    if is_new {
        replace(path, &edited)?;
    }
    out.note(&format!("{}: {at} is {} {value}", path.display(), if is_new { "now" } else { "already" }));
    Ok(())
}

/// Puts a text in the place of a file that is there, whole or not at all.
pub(super) fn replace(path: &Path, text: &str) -> Result<(), Failure> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let cannot = |error| Failure::file("cannot write", path)(error);
    let mut new = tempfile::Builder::new().prefix(".weathershed-").tempfile_in(folder).map_err(cannot)?;
    new.write_all(text.as_bytes()).map_err(cannot)?;
    let permissions = fs::metadata(path).map_err(cannot)?.permissions();
    new.as_file().set_permissions(permissions).map_err(cannot)?;
    new.persist(path).map_err(|error| cannot(error.error))?;
    Ok(())
}
