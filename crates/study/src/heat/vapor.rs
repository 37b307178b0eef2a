//! What the job and the books say of vapor: how damp rooms are, what ceilings let through, what grows on a deck.

use book::thermal::MoldClass;
use book::{Book, Kind as _, LookupError, Share};
use job::{Attic, Block, Job};

/// One US perm, kg/(s·m²·Pa) (exact to what is printed).
pub(crate) const PERM: f64 = 5.7214e-11;
const USUAL_HUMIDITY: f64 = 0.35;

/// Humidity of the rooms in a cold spell, as read or as is usual.
pub(crate) fn humidity(job: &Job, book: &Book) -> f64 {
    let read = job.house.humidity.as_ref().map(|humidity| humidity.value.of_one());
    let usual = || book.default("house.humidity").and_then(|row| Share::of(&row.value)).map(Share::of_one);
    read.or_else(usual).unwrap_or(USUAL_HUMIDITY)
}

/// What a ceiling lets through, perms: its gypsum with paint, or the class of its retarder where that is tighter.
pub(crate) fn perms(attic: &Attic, book: &Book) -> Result<f64, LookupError> {
    let painted: f64 = book.rule("vapor.painted-gypsum")?.get()?;
    match attic.vapor_retarder {
        Some(class) => Ok(book.thermal().retarder(&format!("class-{class}"))?.most_perms.min(painted)),
        None => Ok(painted),
    }
}

/// Whether the deck over an attic is of boards.
pub(crate) fn has_boards(job: &Job, attic: &Attic) -> bool {
    job.blocks.iter().filter(|block| attic.under.contains(&block.name)).any(Block::is_boarded)
}

/// How readily mold grows on a deck: boards are sawn pine; panels and what nobody looked at are less so.
pub(crate) fn mold_class(has_boards: bool, book: &Book) -> Result<&MoldClass, LookupError> {
    book.thermal().mold(if has_boards { "very-sensitive" } else { "sensitive" })
}
