//! What the winter takes for granted, each with where it comes from, for papers.

use ::winter::dam::MOST_SHAPED;
use ::winter::house_air::VENT_DISCHARGE;
use book::{Because, Confidence, Source};
use heat::moist::HANGS;
use job::Units;
use measure::RValue;

use super::damp::MILD;
use super::model::BANDS;
use super::run::COOL;
use super::taken::Taken;
use super::unknown::Draw;
use super::{design_air, design_words};
use crate::heat::CEILING;

/// Figures that stand in no survey, and sources of the laws.
pub fn parameters(taken: &Taken, units: Units) -> Vec<Because> {
    use Confidence::{CommonPractice, Published, PublishedFromMemory};
    let row = |what: &str, rule: String, source: &str, confidence| Because {
        what: what.to_owned(),
        inputs: Vec::new(),
        rule,
        source: Source { text: source.to_owned(), confidence },
    };
    let Draw { catch, shelter, .. } = Draw::as_written(0);
    let handbook = "ASHRAE Handbook Fundamentals, chapter 26";
    vec![
        row(
            design_air(units),
            format!("the air outdoors at which decks and melt are compared: {}, without sun, after ten days", design_words(units)),
            "Tobiasson, Buska and Greatorex, guidelines for ventilating attics and cathedral ceilings",
            Published,
        ),
        row("snow on the roof", format!("{catch} of what falls on open ground"), "0.6 to 0.8 by wind", CommonPractice),
        row(
            "snow that moves",
            "slides from roofing as steep as the books say once water lies at its foot and most of its way down is free; is blown off slopes that face the wind, where the weather \
             tells where that comes from, half of it behind the ridge"
                .into(),
            "ASCE 7, figure 7.4-1; Li and Pomeroy 1997; Tabler; Liston and Sturm 1998; O'Rourke",
            PublishedFromMemory,
        ),
        row(
            "deck and shingles",
            deck(taken, units),
            handbook,
            PublishedFromMemory,
        ),
        row("ceiling", format!("films and gypsum add R-{CEILING:.2} to the insulation"), handbook, PublishedFromMemory),
        row("wind", format!("{shelter} of it at the weather station reaches the house"), "0.4 to 0.8 in a suburb", PublishedFromMemory),
        row(
            "vapor of the rooms",
            format!(
                "over that outdoors as much as was read in a cold spell, more in a tighter house, none at {}; water past {} on a deck drips",
                degrees(MILD, units),
                hangs(units)
            ),
            "ISO 13788:2012, annex A and run-off",
            PublishedFromMemory,
        ),
        row("vents", format!("let through {VENT_DISCHARGE} of what their area would"), "0.4 to 0.7", CommonPractice),
        row("ground", format!("throws back {} of the sun under snow, {} bare", taken.snowy, taken.bare), "0.6 to 0.7, and 0.2", PublishedFromMemory),
        row(
            "ice",
            format!("lies as low as its mass can, or up to {MOST_SHAPED} times as high where it piles up"),
            "plane geometry; the factor is a rule of thumb",
            CommonPractice,
        ),
        row(
            "bands",
            format!("{BANDS} over the attic in each plane, one past the wall; months of a mean under {}", cool(units)),
            "a choice of this program",
            CommonPractice,
        ),
        row(
            "not reckoned",
            "heat along the deck, water that wicks up, wind in the snow, the strip of deck right over a low heel".into(),
            "half to twice the ice must be expected; trust the order of the states before their amounts",
            CommonPractice,
        ),
    ]
}

fn deck(Taken { deck_heat, deck, dark, .. }: &Taken, units: Units) -> String {
    let holds = match units {
        Units::Us => {
            let r = RValue::from_si(*deck).us();
            format!("hold {:.2} Btu/(ft²·°F), resist R-{r:.2}", deck_heat * BTU_PER_FT2_F)
        }
        Units::Si => format!("hold {deck_heat:.0} J/(m²·K), resist {deck} m²·K/W"),
    };
    format!("{holds}, take and send {dark} of light and heat")
}

/// 1 J/(m²·K).
const BTU_PER_FT2_F: f64 = 4.8919e-5;

fn hangs(units: Units) -> String {
    match units {
        Units::Us => format!("{:.0} lb on 100 ft²", HANGS * 20.4816),
        Units::Si => format!("{HANGS} kg/m²"),
    }
}

/// Months that count, as papers write it.
pub(super) fn cool(units: Units) -> String {
    degrees(COOL, units)
}

fn degrees(celsius: f64, units: Units) -> String {
    match units {
        Units::Us => format!("{:.0} °F", celsius * 1.8 + 32.0),
        Units::Si => format!("{celsius:.0} °C"),
    }
}
