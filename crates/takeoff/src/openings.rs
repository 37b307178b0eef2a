//! One piece for each thing that pierces the roof and is there when the work is done, and crickets behind the wide ones.
//!
//! # Clause
//! IRC R903.2.2: a cricket on the ridge side of what is wider than 30 in. Crickets are measured, not ordered: sheet metal
//! or shingles on framing, by the crew.

use book::LookupError;
use job::{OpeningKind, State};
use measure::Length;
use roof::PlacedOpening;

use crate::case::Case;
use crate::line::{Item, Line, Quantity, because, input};

/// Which package each kind of opening takes. Chimneys and skylights are flashed course by course: see [`crate::steps`].
const PACKAGES: [(&str, &[OpeningKind]); 5] = [
    ("pipe-boot", &[OpeningKind::Pipe]),
    ("hood", &[OpeningKind::Hood]),
    ("daylight-tube-flashing", &[OpeningKind::DaylightTube]),
    ("roof-vent", &[OpeningKind::BoxVent]),
    ("power-vent-flange", &[OpeningKind::PowerVent]),
];

pub(crate) fn lines(case: &Case<'_>) -> Result<Vec<Line>, LookupError> {
    let lines: Result<Vec<Option<Line>>, LookupError> =
        PACKAGES.iter().map(|(id, kinds)| line(case, id, kinds)).collect();
    Ok(lines?.into_iter().flatten().chain(crickets(case)).collect())
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

fn line(case: &Case<'_>, id: &str, kinds: &[OpeningKind]) -> Result<Option<Line>, LookupError> {
    let word = |state: State| if state == State::Plan { "new" } else { "stays" };
    let inputs: Vec<_> = (case.openings().into_iter())
        .filter(|(opening, placed)| kinds.contains(&opening.kind) && case.takes_shingles(placed.plane))
        .map(|(opening, placed)| {
            input(
                &opening.name,
                format!("on {}, {}", case.roof.plane(placed.plane).name, word(opening.state)),
            )
        })
        .collect();
    if inputs.is_empty() {
        return Ok(None);
    }
    let (package, count) = (case.package(id)?, inputs.len() as u64);
    let rule = "one for each that is there when the work is done; those that stay get a new one";
    let reasons = vec![because("pieces", inputs, rule, package.source.clone())];
    Ok(Some(Line::ordered_as(Item::new(id, &package.name), package, Quantity::Count(count), count, reasons)))
}

fn crickets(case: &Case<'_>) -> Option<Line> {
    let words = case.words;
    let inputs: Vec<_> = (case.roof.crickets.iter())
        .map(|cricket| {
            let behind =
                case.roof.openings.get(cricket.opening).map_or("an opening", |opening| opening.name.as_str());
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
