//! Why a paper could not be made, and what would mend it.

use crate::paper::Room;

/// Why a paper could not be made.
#[derive(Debug, thiserror::Error)]
pub enum DossierError {
    /// The SVG does not say how large it is on paper.
    #[error("{figure}: the svg element has no width and height in mm; write them, as in width=\"170mm\"")]
    FigureUnsized {
        /// Which drawing.
        figure: String,
    },
    /// The drawing does not fit; it is not shrunk, since its stated scale would then be wrong.
    #[error("{figure}: the drawing is {size} and its room is {room}; draw it at a smaller scale")]
    FigureTooLarge {
        /// Which drawing.
        figure: String,
        /// Size of the drawing.
        size: Room,
        /// Room it has.
        room: Room,
    },
    /// The drawing has nothing to be read aloud.
    #[error("{figure}: the drawing has no description; say in words what it shows")]
    FigureUndescribed {
        /// Which drawing.
        figure: String,
    },
    /// The plane pages cannot be laid out.
    #[error(
        "{planes} planes but {drawings} plane drawings; give one drawing for each plane, in the same order"
    )]
    PlaneDrawings {
        /// Number of planes.
        planes: usize,
        /// Number of drawings.
        drawings: usize,
    },
    /// The pages of the crew book cannot be laid out.
    #[error("{details} details but {drawings} sections; give one section for each detail, in the same order")]
    SectionDrawings {
        /// Number of details.
        details: usize,
        /// Number of drawings.
        drawings: usize,
    },
    /// The owner's letter cannot be laid out.
    #[error(
        "{texts} texts on the winter but {drawings} pictures; give one picture for each text, in the same order"
    )]
    WinterPictures {
        /// Number of texts.
        texts: usize,
        /// Number of drawings.
        drawings: usize,
    },
    /// The books lack a row.
    #[error(transparent)]
    Books(#[from] book::LookupError),
    /// The day of preparation is not in the calendar.
    #[error("the paper is dated {year}-{month:02}-{day:02}, which is not a day; give one that is")]
    Date {
        /// Year.
        year: i32,
        /// Month, 1 to 12.
        month: u8,
        /// Day of the month.
        day: u8,
    },
    /// The data could not be written for the typesetter.
    #[error("the data of the paper cannot be written down ({0}); this is a fault of the program")]
    Data(#[from] serde_json::Error),
    /// The typesetter refused or warned.
    #[error("the paper cannot be typeset; this is a fault of the program:\n{}", .messages.join("\n"))]
    Typesetting {
        /// One line for each message, with its place in the template.
        messages: Vec<String>,
    },
}
