//! Vapor retarders on the warm side, held against what the adopted edition says of them in the climate zone; the code sheet tells the same judgement.
//!
//! # Source
//! IRC R702.7 by the rows of the books; it speaks of walls, and is the trade's yardstick for ceilings. A roof without vents: IRC R806.5 bars class I below its insulation.

use book::LookupError;
use book::thermal::RetarderCode;
use job::Attic;

use super::desk::Desk;
use super::sealed::Touching;

/// A retarder and what is said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Retarder {
    /// The space.
    pub space: String,
    /// Its class; none where there is none.
    pub class: Option<u8>,
    /// Whether nobody looked.
    pub is_assumed: bool,
    /// Edition and zone, as papers write them; the field that is missing where the zone is.
    pub by: String,
    /// How it stands.
    pub verdict: Standing,
}

/// How a retarder stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Nothing is asked, and nothing barred that is there.
    NothingAsked,
    /// As tight as is asked, or tighter.
    Meets,
    /// More open than this class, which is asked.
    TooOpen(u8),
    /// A class that is not permitted there.
    Barred,
    /// Class I below the insulation of a roof without vents.
    ShutIn,
    /// The climate zone is not written.
    ZoneUnknown,
}

impl Standing {
    /// In words, for papers.
    pub fn words(self) -> String {
        match self {
            Self::NothingAsked => "nothing is asked".to_owned(),
            Self::Meets => "as tight as is asked".to_owned(),
            Self::TooOpen(asks) => {
                format!(
                    "more open than class {asks}, which is asked of walls: paint of that class, and leaks sealed first"
                )
            }
            Self::Barred => "NOT permitted in walls there: it shuts in what cooling leaves".to_owned(),
            Self::ShutIn => "NOT permitted below a roof without vents: what gets in cannot dry".to_owned(),
            Self::ZoneUnknown => "cannot tell without `site.climate_zone`".to_owned(),
        }
    }
}

/// Of every space under the roof.
pub(super) fn of(desk: &Desk<'_>) -> Result<Vec<Retarder>, LookupError> {
    desk.job.attics.iter().map(|attic| retarder(desk, attic)).collect()
}

fn retarder(desk: &Desk<'_>, attic: &Attic) -> Result<Retarder, LookupError> {
    let path = format!("attic.{}.vapor_retarder", attic.name);
    let (row, verdict) = judged(desk, attic)?;
    let (edition, zone) = (desk.edition, desk.job.site.climate_zone.as_deref());
    let by = match (verdict, row.zip(zone)) {
        (Standing::ShutIn, _) => format!("{} of {}", edition.unvented.clause, edition.year),
        (_, Some((row, zone))) => format!("{} of {}, zone {zone}", row.clause, edition.year),
        (_, None) => "`site.climate_zone` is not written".to_owned(),
    };
    Ok(Retarder {
        space: attic.name.clone(),
        class: attic.vapor_retarder,
        is_assumed: desk.job.assumptions.iter().any(|assumption| assumption.path == path),
        by,
        verdict,
    })
}

/// How the retarder of a space stands, and the row of the books that says so; none where the zone is not written.
pub(crate) fn judged<'a>(
    desk: &Desk<'a>,
    attic: &Attic,
) -> Result<(Option<&'a RetarderCode>, Standing), LookupError> {
    let zone = desk.job.site.climate_zone.as_deref();
    let row = zone.map(|zone| desk.book.thermal().retarder_code_in(desk.edition.year, zone)).transpose()?;
    let check = desk.takeoff.vents_of(attic);
    let is_shut = match Touching::of(desk, attic)? {
        Some(touching) => !touching.is_vented,
        None => check.is_some_and(|check| check.plan.total.m2() <= 0.0),
    };
    if is_shut && attic.says_soffits() && attic.vapor_retarder == Some(1) {
        return Ok((row, Standing::ShutIn));
    }
    let Some(rule) = row else { return Ok((row, Standing::ZoneUnknown)) };
    let standing = match (rule.asks, attic.vapor_retarder) {
        (_, Some(class)) if rule.bars.contains(&class) => Standing::Barred,
        (Some(asks), Some(class)) if class <= asks => Standing::Meets,
        (Some(asks), _) => Standing::TooOpen(asks),
        (None, _) => Standing::NothingAsked,
    };
    Ok((row, standing))
}
