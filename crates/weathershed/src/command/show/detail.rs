//! What stands between water and wood, as tables.

use book::Book;
use detail::{Attack, Details, Fit, Place};
use job::Units;
use study::Study;
use takeoff::Dimension;

use super::roof::table;

/// Layers to wet at every place, the worst found first, and what they hang on.
pub(super) fn text(study: &Study, book: &Book) -> String {
    let details = &study.details;
    let places = details.worst_first();
    let legend = "How many layers or fasteners must fail, each by itself, before water reaches wood; 0: water gets there as it is; all: not even six \
                  together let it in; -: does not happen there; ?: the books do not know how such a place is met with; \
                  ◊: nobody surveyed it: the books' usual case stands in for what is found, lap siding over a felt that does not lap for a wall \
                  whose siding nobody wrote down. Sealant counts nothing. Edges \
                  are numbered as on the plan.";
    [
        counts(&places, study.job.units),
        weakest(&places),
        dimensions(study),
        holds(details, book),
        legend.to_owned(),
    ]
    .join("\n\n")
}

fn counts(places: &[&Place], units: Units) -> String {
    let mut head = vec!["place"];
    head.extend(Attack::ALL.map(Attack::name));
    head.push("to be built");
    let mut table = table(&head, usize::MAX);
    for place in places {
        let cells = Attack::ALL.map(|attack| found_and_planned(place, attack));
        let mark = if place.is_wall_assumed { " ◊" } else { "" };
        table.add_row(
            [format!("{}{mark}", place.name)].into_iter().chain(cells).chain([to_be_built(place, units)]),
        );
    }
    format!("Layers to wet, as found > as planned\n{table}")
}

/// The detail to be built, and what is wrong with it.
fn to_be_built(place: &Place, units: Units) -> String {
    let Some(fit) = place.chosen() else {
        return if place.will_be { "?" } else { "goes" }.to_owned();
    };
    let faults = fit.all().flat_map(|one| &one.faults).map(|fault| format!("FAULT: {}", fault.told(units)));
    fit.all().map(|one| one.name.clone()).chain(faults).collect::<Vec<_>>().join("\n")
}

/// Such as `0 > 3`.
fn found_and_planned(place: &Place, attack: Attack) -> String {
    let unless = |known: bool| if known { "?" } else { "-" };
    let found = count(place.found.as_ref(), attack, unless(place.is_there));
    let is_counted = found.parse::<usize>().is_ok() || found == "all";
    let is_assumed = is_counted && place.found.as_ref().is_some_and(|fit| fit.is_assumed);
    let found = format!("{found}{}", if is_assumed { "◊" } else { "" });
    let planned = count(place.chosen(), attack, unless(place.will_be));
    format!("{found} > {planned}")
}

/// Failures a detail takes under an attack; `without` where there is no detail.
fn count(fit: Option<&Fit>, attack: Attack, without: &str) -> String {
    let Some(fit) = fit else { return without.to_owned() };
    let Some(stood) = fit.stands.iter().find(|stood| stood.attack == attack) else { return "-".to_owned() };
    stood.failures.map_or_else(|| "all".to_owned(), |failures| failures.to_string())
}

/// What the details measure at each place of the house.
fn dimensions(study: &Study) -> String {
    let mut table = table(&["at", "what", "how much"], usize::MAX);
    for (place, all) in study.details.places.iter().zip(&study.dimensions).filter(|(_, all)| !all.is_empty())
    {
        let lines = |line: fn(&Dimension, Units) -> String| {
            all.iter().map(|one| line(one, study.job.units)).collect::<Vec<_>>().join("\n")
        };
        let what = lines(|one, _| one.what.clone());
        let sizes = lines(|one, units| {
            let mark = if one.is_assumed { " ◊" } else { "" };
            format!("{}{mark}", one.size.written(units))
        });
        table.add_row([place.name.clone(), what, sizes]);
    }
    format!("What they measure on this house (◊: a reading nobody took is behind it)\n{table}")
}

/// What must be photographed before it is covered, and where.
fn holds(details: &Details, book: &Book) -> String {
    let mut table = table(&["photograph of", "passes when", "keeps away", "at"], usize::MAX);
    for (hold, places) in details.holds(book) {
        let at: Vec<String> = places.iter().map(|place| place.short()).collect();
        table.add_row([&hold.photo, &hold.passes, &hold.prevents, &detail::listed(&at).join("; ")]);
    }
    format!("Hold points: photograph before it is covered\n{table}")
}

/// Of each detail to be built, what it hangs on under running rain.
fn weakest(places: &[&Place]) -> String {
    let mut table = table(&["detail", "under", "what must fail together"], usize::MAX);
    let mut told: Vec<&Fit> = Vec::new();
    for fit in places.iter().filter_map(|place| place.chosen()) {
        if told.contains(&fit) {
            continue;
        }
        told.push(fit);
        for (row, stood) in fit.stands.iter().enumerate() {
            let sets: Vec<String> = stood.sets.iter().map(|set| set.join(" + ")).collect();
            let name = if row == 0 { fit.name.clone() } else { String::new() };
            table.add_row([name, stood.attack.name().to_owned(), sets.join("\n")]);
        }
    }
    format!("What each detail to be built hangs on\n{table}")
}
