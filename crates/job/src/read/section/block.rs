//! `[[block]]`: a part of the house with its own walls and roof form.

use measure::Length;

use super::edges::{Edging, edges};
use super::footprint::{Footprint, footprint};
use super::form::{FormDraft, ROOF, Slopes};
use super::framing::{DECK, FRAMING, deck, framing};
use crate::read::field::{May, Must, Nested, Section};
use crate::read::notation::{
    At, BlockName, BySide, Degrees, Flag, Known, List, Marked, Name, Overhangs, Pair, Quantity, Reaches,
    Sided, Survey,
};
use crate::read::table::Table;
use crate::read::variants::Variants;
use crate::{Block, Deck, Figure, FormName, Framing, Problem};

/// The section.
pub(crate) const BLOCK: Section = Section {
    name: "block",
    what: "a part of the house with its own walls and roof form; plan x east, y north, heights above the first floor",
    fields: &[
        &NAME,
        &ON,
        &AT,
        &SIZE,
        &OUTLINE,
        &HOLES,
        &TURN,
        &PLATE,
        &BASE,
        &ROOF_FIELD,
        &OVERHANG,
        &FASCIA,
        &OPEN,
        &DETACHED,
        &FRAMING_FIELD,
        &DECK_FIELD,
    ],
};

/// Where anything of a job may stand in plan.
pub(super) const PLAN: Quantity<Length> = Quantity::within("-1000'", "1000'");

const NAME: Must<At<Name>> = Must::new("name", "name, unique in the job", r#""main""#, At(Name));
const ON: May<BlockName> =
    May::new("on", "the block whose roof this one, a dormer, stands on", r#""main""#, BlockName);
pub(super) const AT: May<Pair<Length>> =
    May::new("at", "south-west corner of a rectangle, plan x and y", r#"["0'", "0'"]"#, Pair(PLAN));
pub(super) const SIZE: May<Pair<Length>> = May::new(
    "size",
    "size of a rectangle along its x and its y, wall face to wall face",
    r#"["40'", "26'"]"#,
    Pair(Quantity::within("1'", "300'")),
);
pub(super) const OUTLINE: May<List<At<Pair<Length>>>> = May::new(
    "outline",
    "wall line corners in order, instead of `at` and `size`",
    r#"[["0'", "0'"], ["30'", "0'"], ["30'", "20'"], ["0'", "20'"]]"#,
    List(At(Pair(PLAN)), 3),
);
pub(super) const HOLES: May<List<List<At<Pair<Length>>>>> = May::new(
    "holes",
    "outlines of courts inside the outline",
    r#"[[["10'", "5'"], ["20'", "5'"], ["20'", "15'"], ["10'", "15'"]]]"#,
    List(List(At(Pair(PLAN)), 3), 0),
);
pub(super) const TURN: May<Quantity<Degrees>> = May::new(
    "turn",
    "turn of the block counter-clockwise about `at`, or about the first point of its outline",
    r#""30 deg""#,
    Quantity::ANY,
);
const PLATE: Must<BySide<Survey<Quantity<Length>>>> = Must::new(
    "plate",
    "height of the wall plate's top outer edge, one for all sides or by side; of a shed, at its low side",
    r#""17'""#,
    BySide(Survey(Quantity::within("0'", "60'"), "block.plate")),
);
const BASE: May<Known<Quantity<Length>>> = May::new(
    "base",
    "underside of the block; left out, it reaches the ground",
    r#""9'""#,
    Known(Quantity::within("-60'", "60'")),
);
const ROOF_FIELD: Must<Variants<FormDraft>> =
    Must::new("roof", "form of the roof", r#"{ form = "gable", ridge = "x", pitch = "6/12" }"#, ROOF);
const OVERHANG: May<Overhangs> = May::new(
    "overhang",
    "how far the roof reaches out, level, wall face to roof edge: at eaves and rakes, or by side",
    r#"{ eave = "16 in", rake = "12 in" }"#,
    Overhangs,
);
const FASCIA: May<Survey<Quantity<Length>>> = May::new(
    "fascia",
    "upright depth of the roof edge, roof surface to soffit",
    r#""6 in""#,
    Survey(Quantity::within("1 in", "36 in"), "block.fascia"),
);
const OPEN: May<Flag> = May::new("open", "a roof on posts, without walls below it", "true", Flag);
const DETACHED: May<Flag> = May::new("detached", "meant to stand alone", "true", Flag);
const FRAMING_FIELD: May<Nested<Framing>> = May::new(
    "framing",
    "what carries the deck",
    r#"{ kind = "rafter", size = "2x8", spacing = "16 in" }"#,
    Nested { section: &FRAMING, read: |table| Some(framing(table)) },
);
const DECK_FIELD: May<Nested<Deck>> = May::new(
    "deck",
    "what the roofing lies on",
    r#"{ kind = "board", board_width = "7 1/4 in", gap = "1/4 in" }"#,
    Nested { section: &DECK, read: |table| Some(deck(table)) },
);

/// A block, and what only the document's order of its points can tell.
pub(crate) struct BlockDraft {
    pub(crate) block: Block,
    /// Whether the outline was written clockwise, so that its corners are now counted the other way round.
    pub(crate) was_clockwise: bool,
}

impl BlockDraft {
    /// Number in the block's contour of a corner as the document counts it, both from 1.
    pub(crate) fn corner(&self, written: usize) -> usize {
        let count = self.block.contours.first().map_or(0, Vec::len);
        if self.was_clockwise && written > 1 { count + 2 - written } else { written }
    }
}

/// Reads one block.
pub(crate) fn block(table: &mut Table<'_, '_>) -> Option<BlockDraft> {
    let name = table.must(&NAME);
    let on = table.may(&ON);
    let footprint = footprint(table);
    let plate = table.must(&PLATE);
    let base = table.may(&BASE);
    let roof = table.must(&ROOF_FIELD);
    let reaches = if table.has(OVERHANG.0.key) { table.may(&OVERHANG) } else { Some(Reaches::NONE) };
    let fascia = table.survey(&FASCIA);
    let (open, detached) = (table.may(&OPEN), table.may(&DETACHED));
    let (framing, deck) = (table.may(&FRAMING_FIELD), table.may(&DECK_FIELD));

    check_sides(table, footprint.as_ref(), plate.as_ref(), reaches.as_ref(), roof.as_ref());
    check_base(table, plate.as_ref(), base.as_ref());
    check_saltbox(table, roof.as_ref(), plate.as_ref());

    let (footprint, roof) = (footprint?, roof?);
    let edging = Edging { footprint: &footprint, roof: &roof, plate: plate?, reaches: reaches? };
    let edges = edges(&edging, table)?;
    let Marked { value: name, span } = name?;
    let was_clockwise = footprint.contours.first().is_some_and(|contour| contour.was_turned_over);
    let block = Block {
        name,
        span,
        contours: footprint.contours.into_iter().map(|contour| contour.points).collect(),
        edges,
        turn_degrees: footprint.turn_degrees,
        form_name: roof.name,
        form: roof.form,
        fascia: fascia?,
        base,
        on,
        open: open.unwrap_or_default(),
        detached: detached.unwrap_or_default(),
        framing,
        deck,
    };
    Some(BlockDraft { block, was_clockwise })
}

/// Every side named must be one of the block.
fn check_sides(
    table: &mut Table<'_, '_>,
    footprint: Option<&Footprint>,
    plate: Option<&Sided<Figure<Length>>>,
    reaches: Option<&Reaches>,
    roof: Option<&FormDraft>,
) {
    let Some(shape) = footprint.map(Footprint::shape) else { return };
    let plates = plate.into_iter().flat_map(Sided::named);
    let overhangs = reaches.into_iter().flat_map(|reaches| reaches.sides.iter().map(|(side, _)| side));
    let slopes = roof.into_iter().flat_map(|roof| roof.slopes.named_sides());
    plates.chain(overhangs).chain(slopes).for_each(|side| table.check_side(side, &shape));
}

/// A block must rise above its own underside.
fn check_base(
    table: &mut Table<'_, '_>,
    plate: Option<&Sided<Figure<Length>>>,
    base: Option<&Figure<Length>>,
) {
    let (Some(plate), Some(base)) = (plate, base) else { return };
    let plates = plate.all.iter().chain(plate.sides.iter().map(|(_, plate)| plate));
    if let Some(low) = plates.into_iter().find(|plate| plate.value <= base.value) {
        let message = format!(
            "`{}` has its plate at {} and its underside at {}, no lower",
            table.path, low.value, base.value
        );
        let problem =
            Problem::error("plate-below-base", message, "both count from the first floor: check the two");
        table.desk.report(problem.at(low.span.clone(), "").at(base.span.clone(), "the underside"));
    }
}

/// The two sides of a saltbox differ, or it is a gable.
fn check_saltbox(table: &mut Table<'_, '_>, roof: Option<&FormDraft>, plate: Option<&Sided<Figure<Length>>>) {
    let (Some(roof), Some(plate)) = (roof, plate) else { return };
    let (FormName::Saltbox, Slopes::Along { ridge, pitch }) = (roof.name, &roof.slopes) else { return };
    let [one, other] = ridge.eaves();
    let pitches = pitch.of(one).zip(pitch.of(other)).is_none_or(|(one, other)| one.value == other.value);
    let plates = plate.of(one).zip(plate.of(other)).is_none_or(|(one, other)| one.value == other.value);
    if pitches && plates {
        let message = format!("`{}` is a saltbox, but its two sides are alike", table.path);
        let mend = format!("give `pitch` or `plate` by side, {one} and {other}, or write form = \"gable\"");
        let span = table.span_of(ROOF_FIELD.0.key);
        table.desk.report(Problem::error("saltbox-alike", message, mend).at(span, ""));
    }
}
