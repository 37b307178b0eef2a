//! The years of weather that a winter is reckoned for.

use std::path::{Path, PathBuf};

use ::winter::weather::Weather;
use job::{Climate, Problem};
use study::Study;
use study::winter::HardYear;

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

/// A typical year, and a hard one where the job names it.
pub(super) struct Years {
    pub(super) typical: Year,
    hard: Option<Year>,
}

impl Years {
    pub(super) fn both(&self) -> study::winter::Years<'_> {
        let hard = self.hard.as_ref();
        let hard = hard.map(|Year { weather, file, hash }| HardYear { weather, file, hash });
        study::winter::Years { typical: &self.typical.weather, hard }
    }
}

/// From the file that is asked for, or else from the one the job names; the hard one from the job.
pub(super) fn years(document: &Document, study: &Study, asked: Option<&Path>) -> Result<Years, Failure> {
    let hard = hard(document, study)?;
    Ok(Years { typical: year(document, study, asked)?, hard })
}

/// Those the job names; none where it names no typical one.
pub(super) fn named(document: &Document, study: &Study) -> Result<Option<Years>, Failure> {
    let Some(typical) = typical(document, study)? else { return Ok(None) };
    Ok(Some(Years { typical, hard: hard(document, study)? }))
}

/// The typical one alone.
pub(super) fn year(document: &Document, study: &Study, asked: Option<&Path>) -> Result<Year, Failure> {
    let read = match asked {
        Some(path) => Some(read(path).map_err(|fault| fault.of(path))?),
        None => typical(document, study)?,
    };
    read.ok_or(Failure::Weather { is_asked: true })
}

fn typical(document: &Document, study: &Study) -> Result<Option<Year>, Failure> {
    let without = "without it no paper tells of the winter";
    let climate = study.job.site.winter.as_ref();
    climate.map(|climate| of_job(document, climate, ("site.winter", without))).transpose()
}

fn hard(document: &Document, study: &Study) -> Result<Option<Year>, Failure> {
    let without = "without it the hard winter is made of the typical year";
    let climate = study.job.site.hard_winter.as_ref();
    climate.map(|climate| of_job(document, climate, ("site.hard_winter", without))).transpose()
}

/// From the file of a field of the job: beside the document, unless it is a whole path.
fn of_job(document: &Document, climate: &Climate, (field, without): (&str, &str)) -> Result<Year, Failure> {
    let path = document.path.parent().unwrap_or(Path::new("")).join(&climate.file);
    read(&path).map_err(|fault| {
        let (message, mend) = match fault {
            Fault::File(source) => (
                format!("`{field}` names {}, which cannot be read: {source}", path.display()),
                format!("put the file there (its name counts from the folder of this document), or name another; {without}"),
            ),
            Fault::NoYear(why) => (
                format!("`{field}` names {}, of which no year of weather comes: {why}", path.display()),
                format!("mend the line, or name another file: EPW, TMY3 or monthly climate normals; {without}"),
            ),
        };
        let problem = Problem::error("weather-file", message, mend).at(climate.span.clone(), "this file");
        let (path, text) = (document.path.clone(), document.text.clone());
        Failure::NamedFile { path, text, problem: Box::new(problem) }
    })
}

/// Why a file gives no year.
enum Fault {
    File(std::io::Error),
    NoYear(String),
}

impl Fault {
    /// Of a file that was named on the command line.
    fn of(self, path: &Path) -> Failure {
        match self {
            Self::File(source) => Failure::file("cannot read", path)(source),
            Self::NoYear(fault) => Failure::NoYear { path: PathBuf::from(path), fault },
        }
    }
}

fn read(path: &Path) -> Result<Year, Fault> {
    let bytes = std::fs::read(path).map_err(Fault::File)?;
    let weather = exchange::weather::year(&bytes, SEED).map_err(|fault| Fault::NoYear(fault.to_string()))?;
    let file = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy().into_owned();
    Ok(Year { weather, file, hash: hash(&bytes) })
}
