//! An invented cross-gable house, as the study would hand it over: main gable 40 by 26 ft at 6/12, wing at 9/12, porch
//! at 3/12. The numbers are worked by hand from those measurements; the drawings are plain outlines.

use crate::*;

pub(super) const JOB: &str = "weathershed = 1\ntitle = \"Re-roof and ice cure\"   # invented\n";

pub(super) fn sheet() -> RoofSheet {
    RoofSheet {
        head: Head {
            title: "Re-roof and ice cure, 14 Orchard Lane".into(),
            keywords: vec!["roof sheet".into(), "cross-gable".into()],
            prepared: Prepared { year: 2026, month: 11, day: 25 },
            content_hash: "5b3f0c1d9a8e7f60514233445566778899aabbccddeeff00112233445566771f".into(),
        },
        units_note: "Lengths in feet and inches to 1/8 in; areas in ft²; a square is 100 ft². North is up."
            .into(),
        site: vec![
            fact("code", Stated::measured("IRC 2018")),
            fact("ground snow", Stated::measured("60 psf")),
            fact("rain", Stated::measured("6.0 in/h")),
            fact("built", Stated::assumed("1964")),
        ],
        key_numbers: vec![
            fact("squares", Stated::measured("17.50")),
            fact("plan area", Stated::measured("1,543.9 ft²")),
            fact("slope area", Stated::measured("1,749.7 ft²")),
            fact("planes", Stated::measured("5")),
            fact("edges", Stated::measured("17")),
            fact("pitches", Stated::measured("3, 6, 9 in 12")),
        ],
        edge_families: vec![
            family("divides", "65′-0″", "ridges 65′-0″"),
            family("gathers", "62′-7 7/8″", "valleys 34′-8 1/2″, sidewall 9′-3 3/8″, headwall 18′-8″"),
            family("lets go", "104′-2 5/8″", "eaves 104′-2 5/8″"),
            family("ends", "95′-7 1/4″", "rakes 95′-7 1/4″"),
        ],
        planes: planes(),
        plane_total: areas("1,543.9", "1,749.7", "17.50"),
        edges: edges(),
        openings: openings(),
        quantities: quantities(),
        ventilation: Some(ventilation()),
        readings: readings(),
        assumptions: assumptions(),
        cautions: standing_cautions(),
    }
}

/// The same house with every list emptied.
pub(super) fn empty_sheet() -> RoofSheet {
    RoofSheet {
        site: vec![],
        key_numbers: vec![],
        edge_families: vec![],
        planes: vec![],
        edges: vec![],
        openings: vec![],
        quantities: vec![],
        ventilation: None,
        readings: vec![],
        assumptions: vec![],
        cautions: vec![],
        ..sheet()
    }
}

/// A large house: the planes and edges of the small one over and over, with numbers of their own.
pub(super) fn large_sheet(planes: usize, edges: usize) -> RoofSheet {
    let mut large = sheet();
    large.planes = large.planes.into_iter().cycle().take(planes).collect();
    for (i, plane) in large.planes.iter_mut().enumerate() {
        plane.name = format!("block {} {}", i / 4 + 1, ["N", "E", "S", "W"][i % 4]);
        plane.edges = (0..5).map(|k| (5 * i + k + 1).to_string()).collect();
    }
    large.edges = large.edges.into_iter().cycle().take(edges).collect();
    for (i, edge) in large.edges.iter_mut().enumerate() {
        edge.number = (i + 1).to_string();
    }
    large
}

pub(super) fn figures(sheet: &RoofSheet) -> Figures {
    let plane = |row: &PlaneRow| Drawing {
        svg: svg(Room::PLANE, &row.name),
        alt: format!("True-length outline of plane {}", row.name),
        caption: "True lengths, 1/4 in = 1 ft".into(),
    };
    Figures {
        plan: Drawing {
            svg: svg(Room::PLAN, "roof plan"),
            alt: "Roof plan: main gable east to west, wing gable to the south, porch beside it".into(),
            caption: "Roof plan, 1:100. Numbers in circles are edges; arrows point down the slope.".into(),
        },
        view: Drawing {
            svg: svg(Room::VIEW, "view"),
            alt: "The roof seen from the southwest".into(),
            caption: "Seen from the southwest; hidden lines left out.".into(),
        },
        planes: sheet.planes.iter().map(plane).collect(),
    }
}

/// A drawing that fills its room: outline of the house at 1:100, a border that shows clipping, texts at the corners.
fn svg(room: Room, name: &str) -> String {
    let Room { width_mm: w, height_mm: h } = room;
    let name = name.replace('&', "&amp;").replace('<', "&lt;");
    format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}"
  font-family="{FONT_FAMILY}" font-size="3">
<rect x="0.2" y="0.2" width="{bw}" height="{bh}" fill="none" stroke="black" stroke-width="0.2" stroke-dasharray="1 1"/>
<g transform="translate(20 {top})" fill="none" stroke="black">
<path stroke-width="0.5" d="M0 0H128V87.4H115.6V116H63.7V87.4H0Z"/>
<path stroke-width="0.9" d="M0 43.7H128M91.4 46.7V116"/>
<path stroke-width="0.5" stroke-dasharray="3 1 0.6 1" d="M63.7 87.4L91.4 46.7L115.6 87.4"/>
<path stroke-width="0.5" d="M7 87.4V107H63.7"/>
</g>
<text x="3" y="6">{name}: 42′-0″ × 28′-8″</text>
<text x="{right}" y="{bottom}" text-anchor="end">6/12 · 90° · 12.5 ft² · ½ → <tspan font-style="italic">assumed ◊</tspan></text>
</svg>"#,
        bw = w - 0.4,
        bh = h - 0.4,
        top = (h - 116.0) / 2.0,
        right = w - 3.0,
        bottom = h - 3.0,
    )
}

fn fact(label: &str, value: Stated) -> Fact {
    Fact { label: label.into(), value }
}

fn family(name: &str, length: &str, kinds: &str) -> EdgeFamily {
    EdgeFamily { name: name.into(), length: Stated::measured(length), kinds: kinds.into() }
}

fn areas(plan: &str, slope: &str, squares: &str) -> Areas {
    let square_feet = |text: &str| Stated::measured(format!("{text} ft²"));
    Areas { plan: square_feet(plan), slope: square_feet(slope), squares: Stated::measured(squares) }
}

fn planes() -> Vec<PlaneRow> {
    let row = |name: &str, pitch: &str, faces: &str, areas, edges: &[&str]| PlaneRow {
        name: name.into(),
        pitch: Stated::measured(pitch),
        faces: faces.into(),
        low: Stated::measured("16′-4″"),
        high: Stated::measured("23′-6″"),
        areas,
        edges: edges.iter().map(|e| (*e).into()).collect(),
    };
    vec![
        row("main N", "6/12", "north", areas("602.0", "673.1", "6.73"), &["1", "3", "7", "8"]),
        row(
            "main S",
            "6/12",
            "south",
            areas("483.5", "540.6", "5.41"),
            &["1", "4", "5", "9", "10", "11", "12"],
        ),
        row("wing W", "9/12", "west", areas("145.2", "181.5", "1.81"), &["2", "11", "13"]),
        row("wing E", "9/12", "east", areas("145.2", "181.5", "1.81"), &["2", "12", "14"]),
        row("porch", "3/12", "south", areas("168.0", "173.2", "1.73"), &["15", "16", "17", "18"]),
    ]
}

fn edges() -> Vec<EdgeRow> {
    let row = |number: &str, kind: &str, length, slope: &str, planes: &str, from: &str, to: &str| EdgeRow {
        number: number.into(),
        kind: kind.into(),
        length,
        slope: Stated::measured(slope),
        planes: planes.into(),
        from: from.into(),
        to: to.into(),
    };
    let m = |text: &str| Stated::measured(text);
    vec![
        row("1", "ridge", m("42′-0″"), "level", "main N, main S", "west rake", "east rake"),
        row(
            "2",
            "ridge",
            m("23′-0″"),
            "level",
            "wing W, wing E",
            "south rake",
            "valleys 11 and 12 on main S",
        ),
        row("3", "eave", m("42′-0″"), "level", "main N", "west rake", "east rake"),
        row("4", "eave", m("20′-1 3/8″"), "level", "main S above porch", "west rake", "foot of valley 11"),
        row("5", "eave", m("4′-1 3/8″"), "level", "main S", "foot of valley 12", "east rake"),
        row("7", "rake", m("16′-0 1/4″"), "6/12", "main N", "eave 3", "ridge 1"),
        row("8", "rake", m("16′-0 1/4″"), "6/12", "main N", "eave 3", "ridge 1"),
        row("9", "rake", m("16′-0 1/4″"), "6/12", "main S", "eave 4", "ridge 1"),
        row("10", "rake", m("16′-0 1/4″"), "6/12", "main S", "eave 5", "ridge 1"),
        row(
            "11",
            "valley",
            m("17′-4 1/4″"),
            "5/12",
            "main S, wing W",
            "valley ends on an eave 0.9 ft from a sidewall, above the porch",
            "ridge 2",
        ),
        row("12", "valley", m("17′-4 1/4″"), "5/12", "main S, wing E", "valley ends on an eave", "ridge 2"),
        row("13", "eave", m("9′-8″"), "level", "wing W above porch", "foot of valley 11", "south rake"),
        row("14", "eave", m("9′-8″"), "level", "wing E", "foot of valley 12", "south rake"),
        row("15", "eave", m("18′-8″"), "level", "porch", "west rake", "sidewall 17"),
        row(
            "16",
            "headwall",
            m("18′-8″"),
            "level",
            "porch under main S wall",
            "west rake",
            "corner with wing wall",
        ),
        row("17", "sidewall", m("9′-3 3/8″"), "3/12", "porch against wing W wall", "eave 15", "headwall 16"),
        row("18", "rake", Stated::assumed("9′-3 3/8″"), "3/12", "porch", "eave 15", "headwall 16"),
    ]
}

fn openings() -> Vec<OpeningRow> {
    let row = |name: &str, kind: &str, state: &str, distances: &[Stated]| OpeningRow {
        name: name.into(),
        kind: kind.into(),
        state: state.into(),
        plane: "main N".into(),
        distances: distances.to_vec(),
    };
    let m = |text: &str| Stated::measured(text);
    vec![
        row("brick chimney", "chimney", "found", &[m("3′-4 1/4″ to ridge 1"), m("10′-1 3/8″ to eave 3")]),
        row("stack 3 in", "pipe", "found", &[m("7′-9 7/8″ to ridge 1"), m("15′-0″ to east rake 8")]),
        row(
            "hall skylight",
            "skylight",
            "plan",
            &[m("4′-4″ to ridge 1"), Stated::assumed("6′-2″ to eave 3")],
        ),
    ]
}

fn because(inputs: &str, rule: &str, source: &str, confidence: Confidence) -> Because {
    Because {
        what: "step".into(),
        inputs: inputs.into(),
        rule: rule.into(),
        source: source.into(),
        confidence,
    }
}

fn quantities() -> Vec<QuantityRow> {
    let m = |text: &str| Stated::measured(text);
    vec![
        QuantityRow {
            item: "Ice barrier".into(),
            net: m("340.5 ft²"),
            ordered: m("5"),
            package: "roll of 200 ft²".into(),
            because: vec![
                because(
                    "overhang 16 in, inside line 24 in",
                    "from the lowest edge to 24 in inside the exterior wall line, measured level",
                    "IRC 2018 R905.1.2",
                    Confidence::FromMemory,
                ),
                because(
                    "40 in × slope factor 1.118",
                    "44.7 in on the slope: two courses of 36 in",
                    "",
                    Confidence::Computed,
                ),
                because(
                    "",
                    "side lap 3.5 in, end lap 6 in",
                    "usual maker's instruction",
                    Confidence::CommonPractice,
                ),
            ],
        },
        QuantityRow {
            item: "Shingles".into(),
            net: m("17.50 sq"),
            ordered: Stated::assumed("58"),
            package: "bundle, 3 to a square".into(),
            because: vec![
                because("sum of the planes 1,749.7 ft²", "÷ 100", "", Confidence::Computed),
                because("10 %", "cutting at valleys and rakes", "shop's own habit", Confidence::Assumed),
            ],
        },
        QuantityRow {
            item: "Step flashing at the porch sidewall".into(),
            net: m("20 pcs"),
            ordered: m("20"),
            package: "piece".into(),
            because: vec![because(
                "sidewall 9′-3 3/8″, exposure 5 5/8 in",
                "one piece for each course: 111.4 in ÷ 5.625 in, rounded up",
                "IRC 2018 R905.2.8.3",
                Confidence::Published,
            )],
        },
        QuantityRow {
            item: "Permit board".into(),
            net: m("1"),
            ordered: m("1"),
            package: "each".into(),
            because: vec![],
        },
    ]
}

fn ventilation() -> Ventilation {
    let row = |name: &str, found: &str, plan: &str, ratio: &str| VentRow {
        name: name.into(),
        found: Stated::measured(found),
        plan: Stated::measured(plan),
        ratio: ratio.into(),
    };
    Ventilation {
        rows: vec![
            row("high: ridge, box vents, louvers", "351.6 in²", "696.0 in²", "2.0"),
            row("low: soffit", "78.0 in²", "711.0 in²", "9.1"),
            row("together", "429.6 in²", "1,407.0 in²", "3.3"),
            row("in series", "76.2 in²", "497.4 in²", "6.5"),
            row("asked at 1/150", "1,152.0 in²", "1,152.0 in²", ""),
        ],
        because: vec![
            because("ceiling 1,200 ft²", "÷ 150, × 144 in²/ft²", "IRC 2018 R806.2", Confidence::FromMemory),
            because(
                "high H, low L",
                "in series: H L ÷ √(H² + L²)",
                "orifices in series",
                Confidence::Computed,
            ),
        ],
    }
}

fn readings() -> Vec<Reading> {
    let row = |name: &str, read: &str, residual: &str, verdict| Reading {
        name: name.into(),
        read: read.into(),
        adjusted: "47′-8 1/2″".into(),
        residual: residual.into(),
        verdict,
    };
    vec![
        row("diagonal of the main block", "47′-8 5/8″", "+1/8″", Verdict::Agrees),
        row("diagonal of the wing", "19′-2″", "+3 5/8″", Verdict::FirstSuspect),
    ]
}

fn assumptions() -> Vec<Assumption> {
    vec![
        Assumption {
            name: "rake overhang of the porch".into(),
            value: "8 in".into(),
            spread: "± 2 in".into(),
            source: "other rakes of this house".into(),
            confidence: Confidence::Assumed,
            touches: "plane porch, rake 18".into(),
        },
        Assumption {
            name: "waste at valleys and rakes".into(),
            value: "10 %".into(),
            spread: "7 to 13 %".into(),
            source: "habit of the trade for a cut-up roof".into(),
            confidence: Confidence::CommonPractice,
            touches: "shingles".into(),
        },
    ]
}
