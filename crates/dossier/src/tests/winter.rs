//! Papers of the winter: what a reader sees of them, with a winter and without one.

use std::sync::LazyLock;

use book::Book;
use job::Job;
use study::Study;
use study::winter::{Log, Winter};

use super::{runs, squeezed, text_of};
use crate::view::diagnosis::sheet as diagnosis_of;
use crate::view::letter::{letter, picture};
use crate::view::winter::{Wintered, figures, page, pictures, sheet};
use crate::winter::{compose_diagnosis, compose_winter};
use crate::world::Compositor;
use crate::*;

const CROSS_GABLE: &str = include_str!("../../../../examples/cross-gable.toml");
const SPLIT_LEVEL: &str = include_str!("../../../../examples/hip-split-level.toml");
const NORMALS: &[u8] = include_bytes!("../../../../examples/snowy-town-normals.csv");
const DAY: Prepared = Prepared { year: 2026, month: 11, day: 28 };

struct House {
    study: Study,
    winter: Winter,
    log: Log,
}

impl House {
    fn of(text: &str) -> Self {
        let book = Book::builtin();
        let (job, _) = Job::read(text, &book).unwrap();
        let study = Study::of(&job, &book).unwrap();
        let (winter, log) =
            Winter::logged(&study, &exchange::weather::year(NORMALS, 1).unwrap(), &book).unwrap();
        Self { study, winter, log }
    }

    fn wintered(&self) -> Wintered<'_> {
        Wintered {
            winter: &self.winter,
            log: &self.log,
            spread: None,
            file: "snowy-town-normals.csv",
            file_hash: "86648238",
        }
    }
}

static HOUSES: LazyLock<[House; 2]> = LazyLock::new(|| [CROSS_GABLE, SPLIT_LEVEL].map(House::of));

fn pages(paper: &Compositor) -> Vec<String> {
    paper.pages().unwrap().pages().iter().map(|page| squeezed(&text_of(&page.frame))).collect()
}

fn owners(house: &House) -> Compositor {
    let pictures = pictures(&house.study, &house.wintered());
    let mut letter = letter(&house.study, "5b3f", DAY);
    letter.winter = Some(page(&house.wintered(), &pictures, house.study.job.units));
    let drawings: Vec<Drawing> = pictures.into_iter().map(|(_, drawing)| drawing).collect();
    compose_letter(&letter, &picture(&house.study), &drawings, CROSS_GABLE).unwrap()
}

#[test]
fn winter_pages_of_the_letter_are_as_large_as_the_rest_of_it() {
    for house in HOUSES.iter() {
        let document = owners(house).pages().unwrap();
        let sizes = document.pages().iter().flat_map(|page| runs(&page.frame)).map(|(size, _)| size);
        assert!(sizes.fold(f64::INFINITY, f64::min) >= 12.0 - 1e-9);
    }
}

#[test]
fn letter_shows_four_pictures_two_on_a_page_and_promises_nothing() {
    for house in HOUSES.iter() {
        let pages = pages(&owners(house));
        let page_of = |words: &str| pages.iter().position(|page| page.contains(words)).unwrap();
        let [house, melt, choices, breath] = [
            "Yourhouseisachimneywithalid",
            "Warmboards,coldedge",
            "Fourwaystospendmoney",
            "Inandoutmustmatch",
        ]
        .map(page_of);
        assert!(house == melt && choices == breath && choices == house + 1);
        let all = pages.concat();
        assert!(all.contains("Nobodycanpromise") && all.contains("beforeanyonesleeps"), "{all}");
        assert!(all.contains("Thisalonehelpsnothing:ridgeventalone"), "{all}");
    }
}

#[test]
fn letter_without_a_winter_says_so() {
    let house = &HOUSES[0];
    let letter = letter(&house.study, "5b3f", DAY);
    let paper = compose_letter(&letter, &picture(&house.study), &[], CROSS_GABLE).unwrap();
    let all = pages(&paper).concat();
    assert!(all.contains("wasnotworkedoutforthisletter") && !all.contains("chimneywithalid"));
    let drawings = [picture(&house.study)];
    let refused = compose_letter(&letter, &drawings[0], &drawings, CROSS_GABLE);
    assert!(matches!(refused.err(), Some(DossierError::WinterPictures { texts: 0, drawings: 1 })));
}

#[test]
fn winter_sheet_holds_every_fix_every_fill_the_closing_and_the_hold_point() {
    let house = &HOUSES[0];
    let wintered = house.wintered();
    let sheet = sheet(&house.study, &wintered, "5b3f", DAY);
    let paper = compose_winter(&sheet, &figures(&house.study, &wintered), CROSS_GABLE).unwrap();
    let all = pages(&paper).concat();
    for words in house.winter.ablation.iter().map(|row| &row.name).chain(&house.winter.filled) {
        assert!(all.contains(&squeezed(words)), "{words}");
    }
    for words in [
        "eavesasfound:helpsnothing",
        "Hardwinter:thesameyear",
        "Wholewinters",
        "waterheaterinthishouse",
        "Nobodyontheroof",
        "snowy-town-normals.csv",
    ] {
        assert!(all.contains(words), "{words}");
    }
    let closing = format!("{:.0e}", house.winter.closure[0]);
    assert!(all.contains(&squeezed(&closing)), "{closing}");
    paper.typeset().unwrap().pdf(Paper::A4).unwrap();
}

/// A hard winter that was is told by its file and hash, with what was filled in of it; the sheet no longer says that one was made.
#[test]
fn winter_sheet_tells_which_hard_winter_it_was() {
    let house = &HOUSES[0];
    let read = study::winter::Read {
        weather: "TOWN".into(),
        file: "winter-of-2014.epw".into(),
        hash: "0123456789abcdef".into(),
        filled: vec!["wind in 12 hours not read, assumed".into()],
    };
    let mut winter = house.winter.clone();
    winter.hard.read = Some(read);
    let wintered = Wintered { winter: &winter, ..house.wintered() };
    let sheet = sheet(&house.study, &wintered, "5b3f", DAY);
    let paper = compose_winter(&sheet, &figures(&house.study, &wintered), CROSS_GABLE).unwrap();
    let all = pages(&paper).concat();
    for words in [
        "ahardonethatwas",
        "0123456789ab…",
        "Hardwinter:TOWN,readfromwinter-of-2014.epw",
        "hardwinter:windin12hours",
    ] {
        assert!(all.contains(words), "{words} {all}");
    }
    assert!(!all.contains("Hardwinter:thesameyear") && !all.contains("ahardonemadeofit"));
}

/// The appliance of the cross-gable draws its air from the rooms; the split level tells of none, and has no hold.
#[test]
fn hold_point_stands_where_an_appliance_asks_for_it() {
    let hold = |house: &House| {
        let sheet = sheet(&house.study, &house.wintered(), "5b3f", DAY);
        sheet.cautions.iter().any(|caution| caution.heading.contains("Hold point"))
    };
    assert_eq!([hold(&HOUSES[0]), hold(&HOUSES[1])], [true, false]);
}

#[test]
fn diagnosis_tells_every_symptom_its_likeliest_cause_and_how_the_fix_is_proved() {
    for house in HOUSES.iter() {
        let wintered = house.wintered();
        let sheet = diagnosis_of(&house.study, Some(&wintered), &Book::builtin(), "5b3f", DAY).unwrap();
        let all = pages(&compose_diagnosis(&sheet, CROSS_GABLE).unwrap()).concat();
        for symptom in &house.study.job.symptoms {
            assert!(all.contains(&squeezed(&symptom.place)), "{}", symptom.place);
        }
        for part in &sheet.symptoms {
            let first = &part.causes[0];
            assert!(!first.fix.is_empty() && all.contains(&squeezed(&first.proof)), "{}", part.name);
        }
    }
}

#[test]
fn diagnosis_without_a_winter_names_the_field_and_prints_markup_as_typed() {
    let hostile = r#"#panic("x") *bold* $x$ <label> @ref [a]"#;
    let text = CROSS_GABLE.replace("place = \"hall light\"", &format!("place = '{hostile}'"));
    let book = Book::builtin();
    let (job, _) = Job::read(&text, &book).unwrap();
    let study = Study::of(&job, &book).unwrap();
    let sheet = diagnosis_of(&study, None, &book, "5b3f", DAY).unwrap();
    let all = pages(&compose_diagnosis(&sheet, &text).unwrap()).concat();
    assert!(all.contains("none:thejobnamesnoyearofweather(site.winter)"), "{all}");
    assert!(all.contains("wouldtellmore:site.winter") && all.contains(&squeezed(hostile)), "{all}");
}
