//! `framing` and `deck` of a block.

use measure::Length;

use crate::read::field::{May, Section};
use crate::read::notation::{Known, List, Quantity, Survey, Text, Words};
use crate::read::table::Table;
use crate::{Deck, DeckKind, Framing, FramingKind, Lumber, Problem};

/// The section of the framing.
pub(crate) const FRAMING: Section = Section {
    name: "framing",
    what: "what carries the deck of a block",
    fields: &[&KIND, &SIZE, &SPACING, &HEEL, &JOIST, &SPECIES],
};

const KIND: May<Known<Words<FramingKind>>> = May::new(
    "kind",
    "rafters cut on site, or factory trusses",
    r#""rafter""#,
    Known(Words(&[("rafter", FramingKind::Rafter), ("truss", FramingKind::Truss)])),
);
const SIZE: May<Quantity<Lumber>> =
    May::new("size", "nominal size of the rafter or the truss's top chord", r#""2x8""#, Quantity::ANY);
const SPACING: May<Survey<Quantity<Length>>> = May::new(
    "spacing",
    "centre to centre",
    r#""16 in""#,
    Survey(Quantity::within("8 in", "96 in"), "attic.rafter_spacing"),
);
const HEEL: May<Survey<Quantity<Length>>> = May::new(
    "heel",
    "plate to top of rafter or truss, upright over the wall's outer face",
    r#""5 1/4 in""#,
    Survey(Quantity::within("0 in", "36 in"), "attic.heel_height"),
);
const JOIST: May<Quantity<Lumber>> =
    May::new("joist", "nominal size of the ceiling joist", r#""2x6""#, Quantity::ANY);
const SPECIES: May<Text> = May::new("species", "wood, as stamped", r#""spruce-pine-fir""#, Text::NOTE);

/// Reads the framing.
pub(crate) fn framing(table: &mut Table<'_, '_>) -> Framing {
    Framing {
        kind: table.may(&KIND),
        size: table.may(&SIZE),
        spacing: table.may(&SPACING),
        heel: table.may(&HEEL),
        joist: table.may(&JOIST),
        species: table.may(&SPECIES),
    }
}

/// The section of the deck.
pub(crate) const DECK: Section = Section {
    name: "deck",
    what: "what the roofing of a block lies on",
    fields: &[&DECK_KIND, &THICKNESS, &BOARD_WIDTH, &GAP, &WIDEST_GAP, &SAG, &SOFT_SPOTS],
};

const DECK_KIND: May<Survey<Words<DeckKind>>> = May::new(
    "kind",
    "boards or panels",
    r#""board""#,
    Survey(
        Words(&[("board", DeckKind::Boards), ("plywood", DeckKind::Plywood), ("osb", DeckKind::Osb)]),
        "deck.kind",
    ),
);
const THICKNESS: May<Quantity<Length>> =
    May::new("thickness", "thickness", r#""3/4 in""#, Quantity::within("1/4 in", "3 in"));
const BOARD_WIDTH: May<Quantity<Length>> =
    May::new("board_width", "width of one board", r#""7 1/4 in""#, Quantity::within("2 in", "16 in"));
const GAP: May<Survey<Quantity<Length>>> = May::new(
    "gap",
    "mean gap between boards",
    r#""5/16 in""#,
    Survey(Quantity::within("0 in", "12 in"), "deck.gap"),
);
const WIDEST_GAP: May<Quantity<Length>> =
    May::new("widest_gap", "widest gap seen", r#""1/2 in""#, Quantity::within("0 in", "12 in"));

const SAG: May<Quantity<Length>> = May::new(
    "sag",
    "farthest the roof is out of plane under a straightedge of 10 ft",
    r#""3/4 in""#,
    Quantity::within("0 in", "24 in"),
);

const SOFT_SPOTS: May<List<Text>> = May::new(
    "soft_spots",
    "soft or delaminated places",
    r#"["2 ft x 4 ft at the north eave"]"#,
    List(Text::NOTE, 0),
);

/// Reads the deck.
pub(crate) fn deck(table: &mut Table<'_, '_>) -> Deck {
    let deck = read_deck(table);
    check_gaps(table, &deck);
    deck
}

/// The widest gap is no narrower than the mean.
fn check_gaps(table: &mut Table<'_, '_>, deck: &Deck) {
    let gaps = deck.gap.as_ref().map(|gap| gap.value).zip(deck.widest_gap);
    let Some((mean, widest)) = gaps.filter(|(mean, widest)| widest < mean) else { return };
    let message =
        format!("`{}` has a widest gap of {widest}, narrower than its mean gap of {mean}", table.path);
    let problem = Problem::error("mean-over-most", message, "check the two, or swap them");
    let (one, other) = (table.span_of(WIDEST_GAP.0.key), table.span_of(GAP.0.key));
    table.desk.report(problem.at(one, "").at(other, "the mean gap"));
}

fn read_deck(table: &mut Table<'_, '_>) -> Deck {
    Deck {
        kind: table.may(&DECK_KIND),
        thickness: table.may(&THICKNESS),
        board_width: table.may(&BOARD_WIDTH),
        gap: table.may(&GAP),
        widest_gap: table.may(&WIDEST_GAP),
        sag: table.may(&SAG),
        soft_spots: table.may(&SOFT_SPOTS).unwrap_or_default(),
    }
}
