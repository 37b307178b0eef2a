//! From the winter of a studied house to its sheet and to the owner's pages.

use draw::{ChartOptions, Figure, Quantity, WinterScene};
use job::{Units, VentClass};
use study::Study;
use study::heat::Bill;
use study::winter::{Ablation, Damp, Log, Measure, Spread, State, Winter, design_words, parameters};

use super::quantity::because;
use super::{drawing, fact, head};
use crate::{
    Caution, DossierError, Drawing, Fact, FixRow, Illustrated, NextRow, PictureText, Prepared, Room,
    SeasonRow, Stated, WinterFigures, WinterPage, WinterSheet, winter_sheet,
};

/// A winter worked out for a house, and the weather it was worked out with.
#[derive(Clone, Copy, Debug)]
pub struct Wintered<'a> {
    /// What it came to.
    pub winter: &'a Winter,
    /// Hour by hour.
    pub log: &'a Log,
    /// How far its figures may be off, where that was worked out.
    pub spread: Option<&'a Spread>,
    /// Name of the file of weather.
    pub file: &'a str,
    /// Its SHA-256.
    pub file_hash: &'a str,
}

impl Wintered<'_> {
    fn scene(&self, units: Units) -> WinterScene<'_> {
        WinterScene { winter: self.winter, log: self.log, units }
    }
}

/// Typesets the winter sheet of a job's results.
///
/// `job_document` is the text the results come from and `hash` its SHA-256; both stand on the paper.
///
/// # Errors
/// As [`crate::winter_sheet`].
pub fn winter_papers(
    study: &Study,
    wintered: &Wintered<'_>,
    job_document: &str,
    hash: &str,
    prepared: Prepared,
) -> Result<Illustrated, DossierError> {
    let figures = figures(study, wintered);
    let paper = winter_sheet(&sheet(study, wintered, hash, prepared), &figures, job_document)?;
    let WinterFigures { bands, fixes, season, profile } = figures;
    let charts = [("season", season), ("fixes", fixes), ("bands", bands)];
    let charts = charts.into_iter().chain(profile.map(|profile| ("profile", profile)));
    let charts = charts.map(|(name, chart)| (format!("winter-{name}"), chart.svg));
    let pictures = pictures(study, wintered).into_iter();
    let pictures = pictures.map(|(picture, drawing)| (format!("owner-{}", picture.name()), drawing.svg));
    Ok(Illustrated { paper, drawings: charts.chain(pictures).collect() })
}

pub(crate) fn figures(study: &Study, wintered: &Wintered<'_>) -> WinterFigures {
    let scene = wintered.scene(study.job.units);
    let options = |room: Room| ChartOptions { size_mm: room.size_mm() };
    let chart = |figure: Figure| drawing(figure, "");
    WinterFigures {
        bands: chart(draw::bands_chart(
            &scene,
            &draw::headline_bands(&scene, wintered.spread),
            &options(Room::CHART),
        )),
        fixes: chart(draw::fixes_chart(&scene, &options(Room::CHART))),
        season: chart(draw::season_chart(&scene, &options(Room::SEASON))),
        profile: draw::slope_profile(&scene, &options(Room::CHART)).map(chart),
    }
}

pub(crate) fn sheet(study: &Study, wintered: &Wintered<'_>, hash: &str, prepared: Prepared) -> WinterSheet {
    let (winter, units) = (wintered.winter, study.job.units);
    WinterSheet {
        head: head(study, ["winter", "ice"], hash, prepared),
        note: note(winter, units),
        design: design_words(units).to_owned(),
        site: site(study, wintered),
        fixes: winter.ablation.iter().map(|row| fix(row, units)).collect(),
        money: wintered.spread.and_then(|spread| spread.money(&winter.bill)).unwrap_or_default(),
        season_heads: season_heads(units),
        seasons: winter.rows().map(|(row, states)| season(&row.name, states, &winter.bill, units)).collect(),
        whys: whys(winter),
        made: made(winter, units),
        next: wintered.spread.map_or_else(Vec::new, next),
        filled: filled(winter),
        closing: closing(winter),
        parameters: because(&parameters(units)),
        cautions: cautions(study),
    }
}

/// What was filled in of the year, and of the hard winter where that was read.
fn filled(winter: &Winter) -> Vec<String> {
    let hard = winter.hard.read.iter().flat_map(|read| &read.filled);
    winter.filled.iter().cloned().chain(hard.map(|told| format!("hard winter: {told}"))).collect()
}

fn note(winter: &Winter, units: Units) -> String {
    let of_eave = match units {
        Units::Us => "a foot",
        Units::Si => "a metre",
    };
    let hard = if winter.hard.read.is_some() { "a hard one that was" } else { "a hard one made of it" };
    format!(
        "For the desk. One winter of one year of weather, and {hard}: trust the order of the states before their amounts, and expect half to twice the ice. \
         Ice of the building is the most that stands on {of_eave} of eave, less that of the same winter with rooms as cold as outdoors."
    )
}

/// A hash as a title block has room for.
fn short(hash: &str) -> String {
    hash.chars().take(12).chain(['…']).collect()
}

fn site(study: &Study, wintered: &Wintered<'_>) -> Vec<Fact> {
    let Wintered { winter, log, spread, file, file_hash } = wintered;
    let measured = |label: &str, text: String| fact(label, Stated::measured(text));
    let mut facts = vec![
        measured("weather of", winter.weather.clone()),
        measured("file", (*file).to_owned()),
        measured("its hash", short(file_hash)),
        measured("hours of cold months", log.weather.len().to_string()),
    ];
    if let Some(read) = &winter.hard.read {
        facts.push(measured("hard winter from file", read.file.clone()));
        facts.push(measured("its hash", short(&read.hash)));
    }
    facts.extend(study.job.site.climate_zone.as_ref().map(|zone| measured("climate zone", zone.clone())));
    let snow: f64 = log.weather.iter().map(|hour| hour.snow).sum();
    facts.push(measured("snow that falls, as water", draw::written(Quantity::Fall, snow, study.job.units)));
    let runs = spread.map_or_else(
        || "not reckoned".to_owned(),
        |spread| format!("{} houses drawn anew", spread.sampling.runs),
    );
    facts.push(measured("ranges", runs));
    if let Some(slope) = &log.slope {
        facts.push(measured("most ice stands on", format!("eave of {}", slope.plane)));
    }
    facts
}

fn fix(row: &Ablation, units: Units) -> FixRow {
    let written = |quantity, value| draw::written(quantity, value, units);
    FixRow {
        name: row.name.clone(),
        attic: written(Quantity::Temperature, row.attic),
        deck: written(Quantity::Temperature, row.deck),
        melt: written(Quantity::Water, row.melt_day),
        vent: written(Quantity::Air, row.vent),
        leak: written(Quantity::Air, row.leak),
    }
}

fn season_heads(units: Units) -> Vec<String> {
    let of = |what: &str, quantity: Quantity| format!("{what}, {}", quantity.unit(units));
    vec![
        "What is done".to_owned(),
        of("Ice on the eaves", Quantity::Ice),
        of("Melted from below", Quantity::Water),
        "Days past membrane".to_owned(),
        of("Heat, ceilings and air", Quantity::Heat),
        "Its money".to_owned(),
        "Wettest deck, %".to_owned(),
    ]
}

fn season(name: &str, states: &[State; 2], bill: &Bill, units: Units) -> SeasonRow {
    let both = |of: &dyn Fn(&State) -> String| states.each_ref().map(of);
    let told = |quantity, value| draw::number(quantity, value, units);
    SeasonRow {
        name: name.to_owned(),
        ice: both(&|state| told(Quantity::Ice, state.ice)),
        melt: both(&|state| told(Quantity::Water, state.melt)),
        days: both(&|state| format!("{:.0}", state.pond_days)),
        heat: both(&|state| told(Quantity::Heat, state.heating)),
        money: both(&|state| bill.whole_dollars(state.heating).unwrap_or_else(|| "–".to_owned())),
        wood: both(&|state| {
            state.wettest().map_or_else(|| "–".to_owned(), |wood| format!("{:.0}", 100.0 * wood))
        }),
    }
}

/// What each fix changes and whether that helps; then what could not be looked at.
fn whys(winter: &Winter) -> Vec<String> {
    winter.whys().chain(winter.left_out.iter().map(|why| format!("not looked at: {why}"))).collect()
}

fn made(winter: &Winter, units: Units) -> Vec<String> {
    let heat = "Heat: what the heater gives for ceilings and for the air that goes up through them; walls, windows and floors are not in it. Wettest deck: moisture of its wood, of \
        its dry weight, frost on it apart; wood holds no more than some 30 %.";
    let money = winter.bill.lacks().map_or_else(
        || {
            winter.bill.burnt().map(|burnt| {
                format!("Money: {}, {:.0} % of which reaches the rooms.", burnt.name, 100.0 * burnt.gives.0)
            })
        },
        |lacks| Some(format!("Money is not told: {lacks}.")),
    );
    [Some(format!("{}.", winter.hard.told(units))), Some(heat.to_owned()), money, drips(winter, units)]
        .into_iter()
        .flatten()
        .collect()
}

/// What drips off decks where that is enough to wet a ceiling.
fn drips(winter: &Winter, units: Units) -> Option<String> {
    /// Less than a gallon nobody sees, kg.
    const SEEN: f64 = 3.8;
    let told = |kg| draw::written(Quantity::Water, kg, units);
    let of = |(found, plan): (&Damp, &Damp)| {
        let is_seen = found.dripped > SEEN;
        is_seen.then(|| {
            format!("attic {} {}, as planned {}", found.attic, told(found.dripped), told(plan.dripped))
        })
    };
    let all: Vec<String> = winter.found.damp.iter().zip(&winter.plan.damp).filter_map(of).collect();
    (!all.is_empty()).then(|| {
        format!(
            "Frost and vapor that drip off decks and framing in a typical winter, as found: {}. A spot on a ceiling may come of that and of no leak in the roof.",
            all.join("; ")
        )
    })
}

/// What narrows ice or heat by more than chance would.
fn next(spread: &Spread) -> Vec<NextRow> {
    let told = |[narrows, error]: [f64; 2]| format!("{:.0} ± {:.0} %", 100.0 * narrows, 100.0 * error);
    let row = |of: &Measure| NextRow {
        name: of.name.clone(),
        by: of.by.clone(),
        field: of.field.clone().unwrap_or_else(|| "no field: a note".to_owned()),
        ice: told([of.narrows, of.error]),
        heat: of.heating.map_or_else(|| "not told".to_owned(), told),
    };
    spread.next.iter().filter(|of| of.is_clear()).map(row).collect()
}

fn closing(winter: &Winter) -> Vec<Fact> {
    let [energy, mass] = winter.closure;
    let tiny =
        |label: &str, value: f64, unit: &str| fact(label, Stated::measured(format!("{value:.0e}{unit}")));
    vec![
        tiny("heat, of all that moved", energy, ""),
        tiny("water, of all that fell", mass, ""),
        tiny("a strip in a step, heat", winter.ledger.heat, " J/m²"),
        tiny("an attic in a step", winter.ledger.attic, " W"),
    ]
}

const CAUTIONS: [(&str, &str); 5] = [
    (
        "After air sealing",
        "A tighter house can turn the draft of burning appliances round. Have a qualified person test every vented appliance for spillage and carbon monoxide \
         before and after sealing, and before anyone sleeps there.",
    ),
    (
        "Nobody on the roof",
        "No one goes up on an icy or snowy roof, for this or any figure. Look from the ground, from windows and from the attic.",
    ),
    (
        "Flues and lamps",
        "Keep insulation and foam away from flues, chimneys and hot lamps by the distance their listing states.",
    ),
    (
        "Snow load",
        "Colder decks keep more snow. Where framing sags or is altered, ask an engineer how much it carries before snow stays longer on it.",
    ),
    (
        "Who decides",
        "This sheet screens and explains. Local code, makers' instructions and licensed practice decide what is built.",
    ),
];

/// The standing ones, and a hold where an appliance draws its air from the rooms.
pub(super) fn cautions(study: &Study) -> Vec<Caution> {
    let caution = |heading: &str, text: String| Caution { heading: heading.to_owned(), text };
    let appliances = &study.job.house.appliances;
    let open: Vec<&str> = appliances
        .iter()
        .filter(|one| !matches!(one.vent.value, VentClass::Sealed))
        .map(|one| one.kind.as_str())
        .collect();
    let hold = (!open.is_empty()).then(|| {
        let text = format!(
            "{} in this house. Combustion test before and after sealing, on paper, signed: the job is not done without it.",
            open.join(", ")
        );
        caution("Hold point: takes its air from the rooms", text)
    });
    hold.into_iter().chain(CAUTIONS.map(|(heading, text)| caution(heading, text.to_owned()))).collect()
}

/// A picture of the winter for an owner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Picture {
    House,
    Melt,
    Choices,
    Breath,
}

impl Picture {
    const fn name(self) -> &'static str {
        match self {
            Self::House => "house",
            Self::Melt => "melt",
            Self::Choices => "choices",
            Self::Breath => "breath",
        }
    }

    fn text(self, units: Units) -> PictureText {
        let snow = match units {
            Units::Us => "a foot",
            Units::Si => "30 cm",
        };
        let (heading, words) = match self {
            Self::House => (
                "Your house is a chimney with a lid",
                "In the cold, warm room air rises. It pushes out through every hole in the ceiling (lamps, fans, wall tops, the hatch) and pulls cold air \
                 in below. What gets into the attic warms the roof from below. Insulation filters that air; it does not stop it.",
            ),
            Self::Melt => (
                "Warm boards, cold edge",
                "Under {snow} of snow on a freezing day, the boards over your attic melt snow from below. The water runs down until it meets the edge past the \
                 wall, which is as cold as the air. There it freezes, and what comes after stands behind the ice and looks for nails.",
            ),
            Self::Choices => (
                "Four ways to spend money",
                "Each barrel is as large as today's melt; its fill is what is left of it after that work alone, and after all of it together.",
            ),
            Self::Breath => (
                "In and out must match",
                "Arrows are as wide as much air goes through your attic. With little open at the eaves, the attic takes its air out of your rooms. Opened low \
                 and high, it takes cold air from outdoors and stays cold.",
            ),
        };
        PictureText { heading: heading.to_owned(), words: words.replace("{snow}", snow) }
    }
}

/// The owner's pictures that this house has.
pub(crate) fn pictures(study: &Study, wintered: &Wintered<'_>) -> Vec<(Picture, Drawing)> {
    let (scene, size) = (wintered.scene(study.job.units), Room::WINTER.size_mm());
    // two attics side by side are wider than high
    let low = (size.0, size.1 - 14.0);
    let all = [
        (Picture::House, draw::owner_house(&scene, size)),
        (Picture::Melt, draw::owner_melt(&scene, size)),
        (Picture::Choices, draw::owner_choices(&scene, size)),
        (Picture::Breath, draw::owner_breath(&scene, low)),
    ];
    all.into_iter().filter_map(|(picture, figure)| Some((picture, drawing(figure?, "")))).collect()
}

/// The part of the owner's letter for some pictures.
pub(crate) fn page(wintered: &Wintered<'_>, pictures: &[(Picture, Drawing)], units: Units) -> WinterPage {
    let useless = wintered.winter.useless().into_iter();
    let useless =
        useless.map(|(row, why)| format!("This alone helps nothing: {}. {}.", row.name, capital(why)));
    let sealing = "After the holes are closed, have everything that burns fuel tested before anyone sleeps in the house: a tighter house can draw its smoke back in.";
    let limits = LIMITS.iter().map(|words| (*words).to_owned());
    WinterPage {
        pictures: pictures.iter().map(|(picture, _)| picture.text(units)).collect(),
        limits: useless.chain(limits).chain([sealing.to_owned()]).collect(),
    }
}

const LIMITS: [&str; 2] = [
    "The pictures come from the measurements of your house and one winter of weather. The ice may be half as much or twice as much; which work helps and which does not is surer than \
     how much.",
    "Nobody can promise that there will never be ice: sun alone makes some. What the work changes is the ice your house makes.",
];

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
