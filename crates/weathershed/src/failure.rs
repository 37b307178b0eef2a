//! Why a command could not do what it was asked.

use std::io;
use std::path::{Path, PathBuf};

use job::Problem;

use crate::text::NotText;

/// A failure and all that is needed to report it.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// The job document has errors.
    #[error("{}: {} {}", path.display(), problems.len(), if problems.len() == 1 { "problem" } else { "problems" })]
    Job { path: PathBuf, text: String, problems: Vec<Problem> },
    /// A file or folder could not be read or written.
    #[error("{doing} {}: {source}", path.display())]
    File { doing: &'static str, path: PathBuf, source: io::Error },
    /// A file or folder is in the way.
    #[error("{}: {why}", path.display())]
    InTheWay { path: PathBuf, why: String, mend: String },
    /// A file that is not text, or not in UTF-8.
    #[error("{} {}", path.display(), fault.why)]
    NotText { path: PathBuf, fault: NotText },
    /// Tables of the contractor's own do not read.
    #[error("{0}")]
    Books(book::Problems),
    /// A point beside the roof.
    #[error("there is no roof at {x} east, {y} north")]
    OffRoof { x: String, y: String },
    /// A gutter or downspout that does not hang.
    #[error("no gutter or downspout that hangs is named `{name}`")]
    NoSuchGutter { name: String, mend: String },
    /// `--blocked` where no water is shown.
    #[error("only water can be shown with a gutter blocked")]
    NothingToBlock,
    /// `--weather` where none is asked, or none where it is.
    #[error("{}", if *is_asked { "a winter asks a year of weather" } else { "only the winter asks weather" })]
    Weather { is_asked: bool },
    /// A file that the job names and that cannot be read, or does not hold what it should.
    #[error("{}: a file that it names does not read", path.display())]
    NamedFile { path: PathBuf, text: String, problem: Box<Problem> },
    /// A file out of which no year of weather comes.
    #[error("{}: {fault}", path.display())]
    NoYear { path: PathBuf, fault: String },
    /// A row the tables lack.
    #[error("{0}")]
    NotInBooks(#[from] book::LookupError),
    /// A paper could not be made; a fault of this program.
    #[error("a paper could not be made: {0}")]
    Paper(#[from] dossier::DossierError),
}

impl Failure {
    pub(crate) fn file(doing: &'static str, path: &Path) -> impl FnOnce(io::Error) -> Self {
        move |source| Self::File { doing, path: path.to_path_buf(), source }
    }

    /// What would mend it, where that is not said by the problems themselves.
    pub(crate) fn mend(&self) -> Option<String> {
        match self {
            Self::InTheWay { mend, .. } | Self::NoSuchGutter { mend, .. } => Some(mend.clone()),
            Self::NotText { fault, .. } => Some(fault.mend.to_owned()),
            Self::File { source, .. } if source.kind() == io::ErrorKind::NotFound => {
                Some("check the path; a new job is started with `weathershed new FILE`".to_owned())
            }
            Self::OffRoof { .. } => {
                Some("name a point on the plan of the job: distances east and north of its zero".to_owned())
            }
            Self::Paper(_) => {
                Some("this is a fault of weathershed: report it with the job document".to_owned())
            }
            Self::NothingToBlock => Some("write `show water`, or leave out `--blocked`".to_owned()),
            Self::Weather { is_asked: true } => {
                Some("add `--weather FILE`, or name it in the job (`site.winter`): an EPW or TMY3 file, or monthly climate normals, of the nearest station".to_owned())
            }
            Self::Weather { .. } => Some("write `show winter`, or leave out `--weather`".to_owned()),
            Self::NoYear { .. } => {
                Some("mend the line, or take another file of weather: EPW, TMY3 or monthly climate normals".to_owned())
            }
            Self::NotInBooks(_) => Some("add the row in an overlay".to_owned()),
            Self::Job { .. } | Self::NamedFile { .. } | Self::File { .. } | Self::Books(_) => None,
        }
    }

    /// 1 the job or the tables have errors, 2 what was asked has no answer, 3 a file could not be read or written, 4 a fault of this program.
    pub(crate) fn exit_status(&self) -> u8 {
        match self {
            Self::Job { .. } | Self::Books(_) | Self::NotInBooks(_) => 1,
            Self::OffRoof { .. }
            | Self::NoSuchGutter { .. }
            | Self::NothingToBlock
            | Self::Weather { .. } => 2,
            Self::File { .. }
            | Self::InTheWay { .. }
            | Self::NotText { .. }
            | Self::NamedFile { .. }
            | Self::NoYear { .. } => 3,
            Self::Paper(_) => 4,
        }
    }
}
