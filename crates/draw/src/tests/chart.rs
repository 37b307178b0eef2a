//! The chart of layers says what the details say, at the places it says it.

use book::Book;
use detail::{Attack, Details};

use super::houses::{self, House};
use super::page::Page;
use super::readable::assert_readable;
use crate::{ChartOptions, Figure, layers_chart};

fn details(house: &House) -> Details {
    Details::of(&house.roof, &house.job, &Book::builtin()).unwrap()
}

fn chart(house: &House, size_mm: (f64, f64)) -> Vec<Figure> {
    layers_chart(&details(house), &house.roof, &ChartOptions { size_mm })
}

#[test]
fn charts_of_all_houses_can_be_read_at_any_size() {
    for house in houses::all() {
        for size in [(180.0, 216.0), (110.0, 110.0)] {
            for sheet in chart(&house, size) {
                assert_readable(house.name, &sheet);
            }
        }
    }
}

/// Marks by shape: as many rings as answers found, as many dots as planned, and what each key shows.
#[test]
fn every_row_has_its_rings_and_dots() {
    for house in [houses::cross_gable(), houses::hip_split_level()] {
        let sheets = chart(&house, (180.0, 400.0));
        let [sheet] = sheets.as_slice() else { panic!("one sheet is enough") };
        let page = Page::of(sheet);
        let details = details(&house);
        let mut rows: Vec<_> = Vec::new();
        for place in &details.places {
            let kind = match place.at {
                detail::At::Edge(id) => format!("edge {}", house.roof.edge(id).kind.name()),
                detail::At::End(id, _) => format!("end {}", house.roof.edge(id).kind.name()),
                detail::At::Opening(_) => "opening".to_owned(),
            };
            let stands = [place.found.as_ref(), place.chosen()].map(|fit| {
                fit.map(|fit| fit.stands.iter().map(|s| (s.attack, s.failures)).collect::<Vec<_>>())
            });
            let surveyed = place.found.as_ref().map(|fit| !fit.is_assumed);
            let kind = format!("{kind}, surveyed {surveyed:?}");
            if !rows.contains(&(kind.clone(), stands.clone())) {
                rows.push((kind, stands));
            }
        }
        let count =
            |which: usize| rows.iter().map(|(_, s)| s[which].as_ref().map_or(0, Vec::len)).sum::<usize>();
        assert_eq!(page.shapes("found").count(), count(0) + 4, "{}: and four in the key", house.name);
        assert_eq!(page.shapes("planned").count(), count(1) + 2, "{}: and two in the key", house.name);
        let nought =
            rows.iter().filter_map(|(_, s)| s[0].as_ref()).flatten().filter(|s| s.1 == Some(0)).count();
        assert_eq!(page.shapes("found-nought").count(), nought + 1, "{}", house.name);
    }
}

#[test]
fn worst_places_of_the_cross_gable_come_first() {
    let sheets = chart(&houses::cross_gable(), (180.0, 216.0));
    let page = Page::of(&sheets[0]);
    assert_eq!(page.words("place")[0], "lower end of sidewall 18");
    assert_eq!(page.words("attack").len(), Attack::ALL.len());
    // With wood bare behind the siding and no kick-out, rain gets in today; steps, membrane, wrap and kick-out make three.
    assert!(sheets[0].alt.contains("lower end of sidewall 18: running rain found 0, planned 3"));
}

#[test]
fn long_chart_goes_on_on_further_sheets_and_loses_no_row() {
    let house = houses::cross_gable();
    let (one, many) = (chart(&house, (180.0, 400.0)), chart(&house, (180.0, 110.0)));
    assert!(one.len() == 1 && many.len() > 1);
    let marks = |sheets: &[Figure], class: &str, keys: usize| {
        sheets.iter().map(|s| Page::of(s).shapes(class).count() - keys).sum::<usize>()
    };
    assert_eq!(marks(&one, "found", 4), marks(&many, "found", 4));
    assert_eq!(marks(&one, "planned", 2), marks(&many, "planned", 2));
}
