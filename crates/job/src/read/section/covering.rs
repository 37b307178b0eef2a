//! `[covering]`: what the roof is covered with.

use book::Stage;
use measure::{Fraction, Length};

use crate::read::field::{May, Must, Section};
use crate::read::notation::{At, Count, Flag, Many, Marked, Quantity, Survey, Text, Words};
use crate::read::table::Table;
use crate::{Basis, Condition, Covering, Figure, OldRoof, Problem, Wish};

/// The section.
pub(crate) const COVERING: Section = Section {
    name: "covering",
    what: "what the roof is covered with",
    fields: &[
        &SHINGLE,
        &EXPOSURE,
        &LAYERS,
        &OVER,
        &OLD,
        &BENEATH,
        &SOUND,
        &OLD_THICKNESS,
        &WOOD_COVERED,
        &BARRIER_STAYS,
        &KEPT_METAL,
        &EAVE_BARRIER,
        &EAVE_DRIP_EDGE,
        &DETAILS,
    ],
};

const SHINGLE: Must<At<Text>> = Must::new(
    "shingle",
    "package of the new shingles, as the books name it",
    r#""shingle-laminated-metric""#,
    At(Text::NOTE),
);
const EXPOSURE: May<Survey<Quantity<Length>>> = May::new(
    "exposure",
    "height of shingle left visible",
    r#""5 5/8 in""#,
    Survey(Quantity::within("3 in", "12 in"), "covering.exposure"),
);
const LAYERS: May<Survey<Count>> =
    May::new("layers", "layers of roofing found on the deck", "1", Survey(Count(0, 5), "covering.layers"));
const DETAILS: May<Many<At<Text>>> = May::new(
    "details",
    "details to be built instead of the usual ones wherever they fit, as the books name them",
    r#"["valley-closed-cut"]"#,
    Many(At(Text::NOTE)),
);

const OVER: May<Flag> =
    May::new("over", "the new roof is laid over the old one; left out, the old one comes off", "false", Flag);
const OLD_ROOFS: Words<OldRoof> = Words(&[
    ("asphalt", OldRoof::Asphalt),
    ("wood shingle", OldRoof::WoodShingle),
    ("wood shake", OldRoof::WoodShake),
    ("slate", OldRoof::Slate),
    ("tile", OldRoof::Tile),
    ("asbestos cement", OldRoof::AsbestosCement),
    ("metal", OldRoof::Metal),
]);
const OLD: May<Words<OldRoof>> =
    May::new("old", "what the old roof is covered with", r#""asphalt""#, OLD_ROOFS);
const BENEATH: May<Words<OldRoof>> = May::new(
    "beneath",
    "what lies beneath the old roof, where anything does: it counts as a layer",
    r#""wood shingle""#,
    OLD_ROOFS,
);
const SOUND: May<Flag> =
    May::new("sound", "whether the old roof is dry and firm enough to lay another on", "true", Flag);
const OLD_THICKNESS: May<Quantity<Length>> = May::new(
    "old_thickness",
    "thickness of the old roof on the deck, all layers, at the new nail line",
    r#""1/2 in""#,
    Quantity::within("0 in", "6 in"),
);
const WOOD_COVERED: May<Flag> = May::new(
    "wood_covered",
    "whether old wood shingles or shakes are covered with gypsum board, mineral or glass fiber before a roof is laid over them",
    "true",
    Flag,
);
const BARRIER_STAYS: May<Flag> = May::new(
    "barrier_stays",
    "an old ice barrier that sticks to the deck stays; left out, it comes off with the old roof",
    "false",
    Flag,
);
const KEPT_METAL: May<Words<Condition>> = May::new(
    "kept_metal",
    "condition of the worst of the old flashings, edging and collars that are used again",
    r#""sound""#,
    Words(&[
        ("sound", Condition::Sound),
        ("rusted", Condition::Rusted),
        ("damaged", Condition::Damaged),
        ("worn", Condition::Worn),
    ]),
);

const EAVE_BARRIER: May<Survey<Quantity<Length>>> = May::new(
    "eave_barrier",
    "how far up the slope from the roof edge ice barrier is found at the eaves; `0 in` where there is none",
    r#""36 in""#,
    Survey(Quantity::within("0 in", "20 ft"), "covering.eave_barrier"),
);
const EAVE_DRIP_EDGE: May<Survey<Flag>> = May::new(
    "eave_drip_edge",
    "whether drip edge is found at the eaves",
    "false",
    Survey(Flag, "covering.eave_drip_edge"),
);

/// An exposure is read no closer than this.
const EXPOSURE_READ: Length = Length::from_m(0.003_175);

/// Reads the section.
pub(crate) fn covering(table: &mut Table<'_, '_>) -> Option<Covering> {
    let shingle = shingle(table);
    let exposure = table.survey(&EXPOSURE);
    let layers = table.may(&LAYERS);
    let details = table.may(&DETAILS).unwrap_or_default();
    let details = details.into_iter().filter_map(|named| wish(named, table)).collect();
    let over = table.may(&OVER).unwrap_or(false);
    let (old, sound) = (table.may(&OLD), table.may(&SOUND));
    let beneath = table.may(&BENEATH);
    let (old_thickness, wood_covered) = (table.may(&OLD_THICKNESS), table.may(&WOOD_COVERED));
    let barrier_stays = table.may(&BARRIER_STAYS).unwrap_or(false);
    let kept_metal = table.may(&KEPT_METAL);
    check_layers(table, layers.as_ref(), beneath.is_some());
    check_bare(table, layers.as_ref(), over);
    check_exposure(table, shingle.as_deref(), exposure.as_ref());
    let (eave_barrier, eave_drip_edge) = (table.may(&EAVE_BARRIER), table.may(&EAVE_DRIP_EDGE));
    Some(Covering {
        shingle: shingle?,
        exposure: exposure?,
        layers,
        over,
        old,
        beneath,
        sound,
        old_thickness,
        wood_covered,
        barrier_stays,
        kept_metal,
        eave_barrier,
        eave_drip_edge,
        details,
    })
}

/// A shingle is laid to the exposure it is made for: longer, and nails and joints lie bare; shorter, and more is bought.
fn check_exposure(table: &mut Table<'_, '_>, shingle: Option<&str>, exposure: Option<&Figure<Length>>) {
    let Some((id, exposure)) = shingle.zip(exposure.filter(|one| one.basis == Basis::Measured)) else {
        return;
    };
    let made_for = table.desk.book().package(id).and_then(|package| Ok(*package.shingle()?.exposure));
    let Some(made_for) = made_for.ok().filter(|made_for| (exposure.value - *made_for).abs() > EXPOSURE_READ)
    else {
        return;
    };
    let [written, made_for] =
        [exposure.value, made_for].map(|length| length.trade(Fraction::Eighth).to_string());
    let message = format!("`{}.exposure` is {written}, but `{id}` is made for {made_for}", table.path);
    let mend = "write the exposure printed on the package, or name the shingle that is laid; at more than its own a shingle leaves nails and joints bare";
    table.desk.report(Problem::warning("not-its-exposure", message, mend).at(exposure.span.clone(), ""));
}

/// What lies beneath the old roof is a layer of its own.
fn check_layers(table: &mut Table<'_, '_>, layers: Option<&Figure<u32>>, is_any_beneath: bool) {
    let Some(layers) =
        layers.filter(|layers| is_any_beneath && layers.basis == Basis::Measured && layers.value < 2)
    else {
        return;
    };
    let message = format!(
        "`{}` counts {} layer(s), but names an old roof beneath the old roof (wood shingles count)",
        table.path, layers.value
    );
    let problem =
        Problem::error("layer-beneath", message, "count both: `layers` is 2 or more, or take `beneath` out");
    let beneath = table.span_of(BENEATH.0.key);
    table.desk.report(problem.at(layers.span.clone(), "").at(beneath, "what lies beneath"));
}

/// Nothing is laid over a bare deck, nor is there an old roof on one that has not come off already.
fn check_bare(table: &mut Table<'_, '_>, layers: Option<&Figure<u32>>, over: bool) {
    let is_bare = |layers: &&Figure<u32>| layers.basis == Basis::Measured && layers.value == 0;
    let Some(layers) = layers.filter(is_bare) else { return };
    let count = "write how many layers there are, or";
    if over {
        let message = format!("`{}` lays the new roof over the old one, but counts no layers", table.path);
        let problem = Problem::error("over-nothing", message, format!("{count} take `over` out"));
        let over = table.span_of(OVER.0.key);
        table.desk.report(problem.at(over, "").at(layers.span.clone(), "no old roof"));
    } else if table.has(OLD.0.key) {
        let message = format!("`{}` says what the old roof is, but counts no layers", table.path);
        let mend = format!("{count} leave it so where the old roof has come off");
        let problem = Problem::warning("old-without-layers", message, mend);
        let old = table.span_of(OLD.0.key);
        table.desk.report(problem.at(old, "").at(layers.span.clone(), "no old roof"));
    }
}

/// A detail of the books that is to be built.
fn wish(Marked { value: id, span }: Marked<String>, table: &mut Table<'_, '_>) -> Option<Wish> {
    let known = table.desk.book().detail(&id).map(|detail| detail.stage);
    let stage = table.desk.looked_up("unknown-detail", known, &span)?;
    if stage == Stage::Found {
        let message = format!("`{id}` is how a roof is met with, not how one is built");
        let mend = "name a detail with `stage = \"planned\"`";
        return table.desk.refuse(Problem::error("found-detail", message, mend).at(span, ""));
    }
    Some(Wish { detail: id, span })
}

/// A package of the books that is a shingle.
fn shingle(table: &mut Table<'_, '_>) -> Option<String> {
    let Marked { value: id, span } = table.must(&SHINGLE)?;
    let shingle = table.desk.book().package(&id).and_then(|package| package.shingle().map(|_| id));
    table.desk.looked_up("unknown-package", shingle, &span)
}
