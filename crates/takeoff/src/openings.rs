//! One piece for each thing that pierces the roof and is there when the work is done, and crickets behind the wide ones.
//!
//! # Clause
//! IRC R903.2.2: a cricket on the ridge side of what is wider than 30 in. Crickets are measured, not ordered: sheet metal
//! or shingles on framing, by the crew.

use book::{LookupError, Package};
use job::{Opening, OpeningKind};
use measure::Length;
use roof::PlacedOpening;

use crate::case::Case;
use crate::line::{Item, Line, Quantity, because, input};
use crate::sticks::HAIR;
use crate::words::state_word;

/// Pipes closer than this in diameter take one boot.
const SAME_SIZE: Length = HAIR;

/// Why a cricket in a valley has no sizes.
pub(crate) const IN_VALLEY: &str = "no figure: it stands in a valley, and the water of two planes comes down on it; mason and metal shop decide";

/// Which package each kind of opening but pipes takes. Chimneys and skylights are flashed course by course: see [`crate::steps`].
const PACKAGES: [(&str, OpeningKind); 4] = [
    ("hood", OpeningKind::Hood),
    ("daylight-tube-flashing", OpeningKind::DaylightTube),
    ("roof-vent", OpeningKind::BoxVent),
    ("power-vent-flange", OpeningKind::PowerVent),
];

pub(crate) fn lines(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    let mut lines = boots(case)?;
    for (id, kind) in PACKAGES {
        let package = case.package(id)?;
        lines.extend(line(case, Item::new(id, &package.name), package, &of_kind(case, kind)));
    }
    lines.extend(crickets(case));
    Ok(lines)
}

/// Openings of a kind that are there when the work is done, on planes shingles may cover.
fn of_kind<'a>(case: &Case<'a>, kind: OpeningKind) -> Vec<(&'a Opening, &'a PlacedOpening)> {
    let mut openings = case.openings();
    openings.retain(|(opening, placed)| opening.kind == kind && case.takes_shingles(placed.plane));
    openings
}

/// Pipe boots, size by size.
fn boots(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    let (mut pipes, package) = (of_kind(case, OpeningKind::Pipe), case.package("pipe-boot")?);
    pipes.sort_by(|(a, _), (b, _)| a.across.m().total_cmp(&b.across.m()));
    let by_size = pipes.chunk_by(|(a, _), (b, _)| b.across - a.across < SAME_SIZE);
    let boots = |pipes: &[(&Opening, &PlacedOpening)]| {
        let (first, _) = pipes.first()?;
        let item = Item::new(
            format!("pipe-boot.{}in", (first.across.inches() * 100.0).round() / 100.0),
            format!("{} for a pipe of {}", package.name, case.words.tape(first.across)),
        );
        line(case, item, package, pipes)
    };
    Ok(by_size.filter_map(boots).collect())
}

/// Size of an opening on its plane: across the slope, and along it.
pub(crate) fn sizes(placed: &PlacedOpening) -> [Length; 2] {
    let [low, across, _, up] = placed.rim;
    let far = |to: [f64; 3]| {
        let d = [to[0] - low[0], to[1] - low[1], to[2] - low[2]];
        Length::from_m((d[0] * d[0] + d[1] * d[1] + d[2] * d[2]).sqrt())
    };
    [far(across), far(up)]
}

/// One piece for each of some openings; none where there is none.
fn line(
    case: &Case<'_>,
    item: Item,
    package: &Package,
    openings: &[(&Opening, &PlacedOpening)],
) -> Option<Line> {
    let inputs: Vec<_> = (openings.iter())
        .map(|(opening, placed)| {
            input(
                &opening.name,
                format!("on {}, {}", case.roof.plane(placed.plane).name, state_word(opening.state)),
            )
        })
        .collect();
    let count = inputs.len() as u64;
    let rule = "one for each that is there when the work is done; those that stay get a new one";
    let reasons = vec![because("pieces", inputs, rule, package.source.clone())];
    (count > 0).then(|| Line::ordered_as(item, package, Quantity::Count(count), count, reasons))
}

fn crickets(case: &Case<'_>) -> Option<Line> {
    let words = case.words;
    let inputs: Vec<_> = (case.roof.crickets.iter())
        .map(|cricket| {
            let placed = case.roof.openings.get(cricket.opening);
            let behind = placed.map_or("an opening", |opening| opening.name.as_str());
            if placed.is_some_and(|placed| case.roof.valley_under(placed).is_some()) {
                return input(format!("behind {behind}"), IN_VALLEY);
            }
            let value = format!(
                "{} high, ridge {}, valleys {} each, {}",
                words.inches(cricket.height),
                words.inches(cricket.ridge),
                words.inches(cricket.valley),
                words.area(cricket.slope_area)
            );
            input(format!("behind {behind}"), value)
        })
        .collect();
    let (count, clause) = (inputs.len() as u64, &case.edition.cricket);
    let rule = format!(
        "{} of {}: behind what is wider than {} across the slope, or as the job asks",
        clause.clause,
        case.edition.name,
        clause.wider_than.text()
    );
    let reasons = vec![because("crickets", inputs, rule, clause.source.clone())];
    (count > 0).then(|| Line::measured(Item::new("cricket", "cricket"), Quantity::Count(count), reasons))
}
