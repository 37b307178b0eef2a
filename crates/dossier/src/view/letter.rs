//! The owner's letter in plain words: where the rain goes, what stands in its way, what the work changes.

use std::collections::BTreeSet;

use book::Spot;
use detail::{At, Attack, Fit, Place};
use draw::{PlanOptions, Survey, WaterScene};
use job::Basis;
use roof::Roof;
use study::Study;
use water::{Drainage, Finding, Load};

use super::winter::{self, Wintered};
use super::{drawing, head};
use crate::{
    DossierError, Drawing, OwnerLetter, Prepared, Room, Typeset, WaterPage, WeakPlace, owner_cautions,
    owner_letter,
};

/// Rows of places at most: the worst.
const MOST_PLACES: usize = 5;

/// Typesets the letter to the owner of a job's house; with the winter where it was worked out.
///
/// # Errors
/// As [`crate::owner_letter`].
pub fn owner_papers(
    study: &Study,
    wintered: Option<&Wintered<'_>>,
    job_document: &str,
    hash: &str,
    prepared: Prepared,
) -> Result<Typeset, DossierError> {
    let pictures = wintered.map_or_else(Vec::new, |wintered| winter::pictures(study, wintered));
    let mut letter = letter(study, hash, prepared);
    letter.winter = wintered.map(|wintered| winter::page(wintered, &pictures, study.job.units));
    let pictures: Vec<Drawing> = pictures.into_iter().map(|(_, drawing)| drawing).collect();
    owner_letter(&letter, &picture(study), &pictures, job_document)
}

/// Of a job's results, without its winter.
pub(crate) fn letter(study: &Study, hash: &str, prepared: Prepared) -> OwnerLetter {
    OwnerLetter {
        head: head(study, ["letter", "water"], hash, prepared),
        water: WaterPage {
            picture: picture_words(study),
            counting: COUNTING.to_owned(),
            places: places(study),
            changes: changes(study),
            limits: LIMITS.map(str::to_owned).into(),
        },
        winter: None,
        no_winter: NO_WINTER.to_owned(),
        cautions: owner_cautions(),
    }
}

const NO_WINTER: &str = "Why ice comes at your eaves, and which work would stop it, was not worked out for this letter: it needs a year of weather near your house, and     measurements of the attic.";

const COUNTING: &str = "A roof keeps water off its wood by layers: if one lets go, the next catches the water. The number says how many \
    layers must fail before wood gets wet. At “nothing” the water gets there today. A bead of sealant is not counted: it ages too fast.";

const LIMITS: [&str; 5] = [
    "“Today” is what was seen of your roof and, for what lies hidden, how such roofs are found when they are opened. Yours may be better or \
        worse.",
    "The numbers say how many layers must fail, not when one will. Every layer ages, and a storm can break more than one at once.",
    "Gutters that leaves or ice have filled run over. Then the rain goes as in the picture.",
    "Against ice, layers only hold the water that ice keeps back. They do not keep the ice away.",
    "Behind old boards and siding there may be damage that nobody can see before they are taken off.",
];

pub(crate) fn picture(study: &Study) -> Drawing {
    let survey = Survey::of(&study.job, study.takeoff.assumed.clone());
    let rain = &study.job.site.rain;
    let scene = WaterScene {
        roof: &study.roof,
        survey: &survey,
        bare: &study.water,
        drainage: &study.drainage,
        rain: rain.value,
        is_rain_assumed: matches!(rain.basis, Basis::Assumed { .. }),
    };
    let options = PlanOptions { size_mm: Room::OWNER.size_mm(), units: study.job.units };
    drawing(draw::owner_water(&scene, &options), "")
}

/// What the picture shows, without a second number.
fn picture_words(study: &Study) -> Vec<String> {
    let rain = "The picture shows your roof from above in a cloudburst, with gutters that run over or are not there. Rain \
        runs down the arrows; the wider an arrow, the more water.";
    let ring = "A ring marks where much water comes to a wall, or stays. There a roof leaks first.";
    let has_ring = study.water.findings(&study.roof).iter().any(draw::meets_wall);
    std::iter::once(rain).chain(has_ring.then_some(ring)).map(str::to_owned).collect()
}

/// The worst places as found, those of one sort with the same answers in one row.
fn places(study: &Study) -> Vec<WeakPlace> {
    let mut rows: Vec<(WeakPlace, usize)> = Vec::new();
    for place in study.details.worst_first() {
        let Some((attack, today)) = weakest(place) else { continue };
        let row = WeakPlace {
            name: told(place, &study.roof),
            by: water(attack).to_owned(),
            today: layers(Some(today)),
            after: after(place, attack),
        };
        match rows.iter_mut().find(|(known, _)| *known == row) {
            Some((_, count)) => *count += 1,
            None => rows.push((row, 1)),
        }
    }
    let several = |(row, count): (WeakPlace, usize)| match count {
        1 => row,
        _ => WeakPlace { name: format!("{} ({count} places)", row.name), ..row },
    };
    rows.into_iter().take(MOST_PLACES).map(several).collect()
}

/// The water that gets in most easily as found, the everyday one first, and how many layers hold it.
fn weakest(place: &Place) -> Option<(Attack, usize)> {
    let found = place.found.as_ref()?;
    let counts = Attack::ALL.into_iter().filter_map(|attack| Some((attack, found.failures(attack)?)));
    counts.min_by_key(|(_, count)| *count)
}

/// What will hold the same water.
fn after(place: &Place, attack: Attack) -> String {
    match place.chosen() {
        None => "closed, roofed over".to_owned(),
        Some(fit) => match fit.stands.iter().find(|stood| stood.attack == attack) {
            None => "does not come there".to_owned(),
            Some(stood) => format!("{}{}", layers(stood.failures), weaker(fit, stood.failures)),
        },
    }
}

/// What gets in more easily than the water at hand, once the work is done.
fn weaker(fit: &Fit, count: Option<usize>) -> String {
    let fewest = |failures: Option<usize>| failures.unwrap_or(usize::MAX);
    let weakest = fit.stands.iter().min_by_key(|stood| fewest(stood.failures));
    let less = weakest.filter(|stood| fewest(stood.failures) < fewest(count));
    less.map_or_else(String::new, |stood| {
        format!("; {} against {}", layers(stood.failures), water(stood.attack))
    })
}

fn layers(count: Option<usize>) -> String {
    match count {
        Some(0) => "nothing".to_owned(),
        Some(1) => "1 layer".to_owned(),
        Some(count) => format!("{count} layers"),
        None => format!("more than {} layers", detail::MOST_FAILURES),
    }
}

const fn water(attack: Attack) -> &'static str {
    match attack {
        Attack::Rain => "rain that runs down",
        Attack::Wind => "rain that wind drives up",
        Attack::Ice => "water that ice keeps back",
        Attack::Gutter => "water of a blocked gutter",
    }
}

/// A place as an owner would point it out.
fn told(place: &Place, roof: &Roof) -> String {
    let wall = || {
        let edge = match place.at {
            At::Edge(id) | At::End(id, _) => Some(roof.edge(id)),
            At::Opening(_) => None,
        };
        edge.and_then(|edge| edge.wall_of.as_ref()).map_or_else(String::new, |block| format!(" of “{block}”"))
    };
    match place.spot {
        Spot::Eave => "low edges of the roof".to_owned(),
        Spot::Rake | Spot::HighEave => "edges of the roof up the gable and at the top".to_owned(),
        Spot::Ridge | Spot::Hip => "ridges".to_owned(),
        Spot::Valley | Spot::LevelValley => "valleys, where two slopes meet low".to_owned(),
        Spot::KickOut => format!("where the low edge of a roof ends at the wall{}", wall()),
        Spot::Sidewall => format!("slope beside the wall{}", wall()),
        Spot::Headwall | Spot::Step | Spot::Cantilever | Spot::Soffit => {
            format!("top of a roof under the wall{}", wall())
        }
        Spot::BackWall => format!("where a roof runs down to the wall{}", wall()),
        Spot::PitchBreakIn | Spot::PitchBreakOut | Spot::LowSlope => "where the slope changes".to_owned(),
        _ => place.name.clone(),
    }
}

/// What the work changes, counted.
fn changes(study: &Study) -> Vec<String> {
    let mut changes = Vec::new();
    let counted = study.details.places.iter().filter(|place| place.found.is_some());
    let bare =
        |fit: Option<&Fit>| fit.is_some_and(|fit| Attack::ALL.iter().any(|a| fit.failures(*a) == Some(0)));
    let open: Vec<&Place> = counted.clone().filter(|place| bare(place.found.as_ref())).collect();
    let left = open.iter().filter(|place| bare(place.chosen())).count();
    if !open.is_empty() {
        let rest = match left {
            0 => "After the work, at least one layer stands in its way at each of them.".to_owned(),
            1 => "After the work, this is still so at one of them.".to_owned(),
            left => format!("After the work, this is still so at {left} of them."),
        };
        changes.push(format!(
            "As such roofs are usually found, some kind of water gets to the wood at {} of the {} places counted. {rest}",
            open.len(),
            counted.count()
        ));
    }
    changes.extend(gutters(study));
    changes.extend(walks(study));
    if changes.is_empty() {
        changes.push("The roof is covered anew; nothing that holds water off is taken away.".to_owned());
    }
    changes
}

/// Where people walk below water that no gutter catches.
fn walks(study: &Study) -> Option<String> {
    let walk = |finding: &Finding| match finding {
        Finding::DripsOnWalk { walk, .. } | Finding::DownspoutOntoWalk { walk, .. } => Some(*walk),
        _ => None,
    };
    let walks: BTreeSet<usize> = study.drainage.findings.iter().filter_map(walk).collect();
    let names: Vec<String> = walks.into_iter().map(|i| format!("“{}”", study.roof.walks[i].name)).collect();
    (!names.is_empty()).then(|| {
        format!(
            "Water of the roof still comes down on {}, and in the cold it freezes there. A gutter above, or a downspout led elsewhere, would keep it clear: ask.",
            names.join(" and ")
        )
    })
}

/// What gutters take off the roofs below, and which of them cannot take what comes.
fn gutters(study: &Study) -> Option<String> {
    let gutters = study.drainage.gutters.len();
    let spouts: usize = study.drainage.gutters.iter().map(|gutter| gutter.downspouts.len()).sum();
    (gutters > 0).then(|| {
        let all = format!("{} with {}", several(gutters, "gutter"), several(spouts, "downspout"));
        let over = overloaded(&study.drainage);
        let off = if study.drainage.water.falls.len() < study.water.falls.len() {
            " Less water then falls from one roof onto another."
        } else {
            ""
        };
        if over.is_empty() {
            return format!("{all} lead the water off the roof.{off}");
        }
        format!(
            "{all} lead the water of everyday rain off the roof.{off} In the cloudburst they are reckoned for, more comes to some than they \
             carry, and they run over: {}. A larger one, or one downspout more, would mend that: ask before they are hung.",
            over.join("; ")
        )
    })
}

/// Gutters and downspouts to which more comes than they carry, and how many times as much.
fn overloaded(drainage: &Drainage) -> Vec<String> {
    let hung = drainage.gutters.iter().zip(&drainage.bearings);
    let parts = hung.flat_map(|(gutter, bearing)| {
        let spouts = gutter.downspouts.iter().zip(&bearing.downspouts);
        let spouts = spouts.map(|(spout, bearing)| ("downspout", &spout.name, &bearing.load));
        std::iter::once(("gutter", &gutter.name, &bearing.load)).chain(spouts)
    });
    let told = |(what, name, load): (&str, &String, &Load)| {
        let times = load.margin().map(f64::recip).filter(|times| *times > 1.0)?;
        let what = if name.contains(what) { String::new() } else { format!("{what} ") };
        Some(format!("{what}“{name}” gets {}", times_over(times)))
    };
    parts.filter_map(told).collect()
}

/// How much more comes than is carried, in plain words.
fn times_over(times: f64) -> String {
    let rounded = format!("{times:.1}");
    if rounded == "1.0" {
        "a little more than it carries".to_owned()
    } else {
        format!("{rounded} times what it carries")
    }
}

fn several(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}
