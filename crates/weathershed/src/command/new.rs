//! `new`: a starter job with comments.

use std::fs::OpenOptions;
use std::io::{self, Write};
use std::path::Path;

use crate::failure::Failure;
use crate::output::Output;

pub(crate) fn run(file: &Path, out: &Output) -> Result<(), Failure> {
    let opened = OpenOptions::new().write(true).create_new(true).open(file);
    let mut opened = opened.map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => Failure::InTheWay {
            path: file.to_path_buf(),
            why: "is already there".to_owned(),
            mend: "name a new file; an existing one is never written over".to_owned(),
        },
        _ => Failure::file("cannot write", file)(error),
    })?;
    opened.write_all(job::starter().as_bytes()).map_err(Failure::file("cannot write", file))?;
    out.note(&format!("wrote {}; next: weathershed check {}", file.display(), file.display()));
    Ok(())
}
