//! The year of weather that a winter is reckoned for.

use std::path::{Path, PathBuf};

use ::winter::weather::Weather;
use study::Study;

use crate::document::{Document, hash};
use crate::failure::Failure;

/// Of the year that is made from normals: any will do, one is taken so that the same house has the same winter.
const SEED: u64 = 1;

/// A year of weather and the file it came from.
pub(super) struct Year {
    pub(super) weather: Weather,
    /// Name of the file.
    pub(super) file: String,
    /// SHA-256 of its bytes.
    pub(super) hash: String,
}

/// From the file that is asked for, or else from the one the job names.
pub(super) fn year(document: &Document, study: &Study, asked: Option<&Path>) -> Result<Year, Failure> {
    let path = asked.map(Path::to_path_buf).or_else(|| named(document, study));
    read(&path.ok_or(Failure::Weather { is_asked: true })?)
}

/// The file the job names: beside the document, unless it is a whole path.
pub(super) fn named(document: &Document, study: &Study) -> Option<PathBuf> {
    let file = &study.job.site.winter.as_ref()?.file;
    Some(document.path.parent().unwrap_or(Path::new("")).join(file))
}

/// From a file.
pub(super) fn read(path: &Path) -> Result<Year, Failure> {
    let bytes = std::fs::read(path).map_err(Failure::file("cannot read", path))?;
    let weather = exchange::weather::year(&bytes, SEED)
        .map_err(|fault| Failure::NoYear { path: path.to_path_buf(), fault: fault.to_string() })?;
    let file = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
    Ok(Year { weather, file, hash: hash(&bytes) })
}
