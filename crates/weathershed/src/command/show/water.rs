//! Where water goes, as tables.

use job::Units;
use measure::{Area, Length, RainRate};
use roof::{EdgeId, Roof};
use study::Study;
use water::{Change, Discharge, Drainage, EdgeFlow, Finding, GutterNeed, HungGutter, OutletKind, Path, Way};

use super::roof::table;
use super::{gutters, walls};

/// What comes to each edge and opening, where it leaves, and what to look at; then the same with the job's gutters.
pub(super) fn text(study: &Study, drainage: &Drainage, changes: &[Change]) -> String {
    let page = Page { study, units: study.job.units, rain: study.job.site.rain.value };
    let mut parts = vec![page.edges()];
    parts.extend((!study.roof.openings.is_empty()).then(|| page.openings()));
    parts.push(page.leaving());
    parts.push(page.gutters());
    parts.extend(page.findings());
    let hung = gutters::Page { roof: &study.roof, drainage, units: page.units, rain: page.rain };
    parts.extend(gutters::text(&hung, changes));
    parts.extend(walls::text(&study.roof, drainage, page.units, page.rain));
    parts.push(format!(
        "At {} of rain on {} of roof in plan. Roofs that run in under an eave are counted whole. Gutters are sized as if none above caught anything; for them slopes count \
             more often the steeper they are, for driven rain. At points comes what gathered further up and falls on the edge there; at its ends what \
             valleys and walls that end beside an eave bring to its gutter. Edges are numbered as on the plan, left and right of an opening are \
             as one looks up the slope.",
        page.units.rain(page.rain),
        page.units.area(study.water.rain),
    ));
    parts.join("\n\n")
}

/// The way of one drop, step by step.
pub(in crate::command) fn way(roof: &Roof, gutters: &[HungGutter], path: &Path, units: Units) -> String {
    let at = |p: [f64; 3]| {
        let told = |v: f64, words: [&str; 2]| {
            format!("{} {}", units.length(Length::from_m(v.abs())), words[usize::from(v < 0.0)])
        };
        format!("{}, {}", told(p[0], ["east", "west"]), told(p[1], ["north", "south"]))
    };
    let mut lines: Vec<String> =
        path.steps.first().map(|s| format!("falls at {}", at(s.from))).into_iter().collect();
    lines.extend(path.steps.iter().map(|s| format!("{} to {}", on(roof, gutters, s.way), at(s.to))));
    let empties = match path.end {
        OutletKind::Downspout(id) => match gutters[id.gutter.0].downspouts[id.index].to {
            Discharge::Drain => " into a drain",
            _ => " to the ground",
        },
        _ => "",
    };
    lines.push(format!("{}{empties}", out(roof, gutters, path.end)));
    lines.join("\n")
}

fn on(roof: &Roof, gutters: &[HungGutter], way: Way) -> String {
    match way {
        Way::Gutter(id) => format!("along gutter {}", gutters[id.0].name),
        Way::Downspout(id) => out(roof, gutters, OutletKind::Downspout(id)),
        Way::Plane(p) => format!("down {}", roof.plane(p).name),
        Way::Aside(p) => format!("aside on {}", roof.plane(p).name),
        Way::Edge(e) => format!("along {} {}", roof.edge(e).kind.name(), e.number()),
        Way::Falls(p) => format!("drops onto {}", roof.plane(p).name),
    }
}

/// How water leaves.
pub(super) fn out(roof: &Roof, gutters: &[HungGutter], kind: OutletKind) -> String {
    let edge = |id: EdgeId| format!("{} {}", roof.edge(id).kind.name(), id.number());
    match kind {
        OutletKind::OffEdge(id) => format!("off {}", edge(id)),
        OutletKind::OffEnd(node) => {
            let edges: Vec<String> = roof.node(node).edges.iter().map(|e| edge(*e)).collect();
            format!("off the {} of {}", roof.node(node).kind.name(), edges.join(", "))
        }
        OutletKind::StandsAt(id) => format!("stands at {}", edge(id)),
        OutletKind::StandsOn(plane) => format!("stands on {}", roof.plane(plane).name),
        OutletKind::Downspout(id) => {
            format!("down {}", gutters[id.gutter.0].downspouts[id.index].name)
        }
    }
}

struct Page<'a> {
    study: &'a Study,
    units: Units,
    rain: RainRate,
}

impl Page<'_> {
    fn flow(&self, catchment: Area) -> String {
        self.units.water(self.rain * catchment)
    }

    fn edges(&self) -> String {
        let roof = &self.study.roof;
        let mut table = table(&["edge", "kind", "from", "catchment", "flow", "at points"], 3);
        for (i, flow) in self.study.water.edges.iter().enumerate().filter(|(_, f)| is_wet(f)) {
            let from: Vec<&str> = flow.sources().keys().map(|p| roof.plane(*p).name.as_str()).collect();
            let streams = flow.streams();
            table.add_row([
                EdgeId(i).number().to_string(),
                roof.edges[i].kind.name().to_owned(),
                from.join(", "),
                self.units.area(flow.catchment()),
                self.flow(flow.catchment()),
                if is_some(streams) { self.flow(streams) } else { String::new() },
            ]);
        }
        table.to_string()
    }

    fn openings(&self) -> String {
        let roof = &self.study.roof;
        let heading =
            ["opening", "plane", "parts at", "catchment behind", "flow", "to the left", "to the right"];
        let mut table = table(&heading, 3);
        for (i, (opening, flow)) in roof.openings.iter().zip(&self.study.water.openings).enumerate() {
            let has_cricket = roof.crickets.iter().any(|c| c.opening == i);
            table.add_row([
                opening.name.clone(),
                roof.plane(opening.plane).name.clone(),
                if has_cricket { "its cricket" } else { "its back" }.to_owned(),
                self.units.area(flow.behind),
                self.flow(flow.behind),
                self.flow(flow.sides[0]),
                self.flow(flow.sides[1]),
            ]);
        }
        table.to_string()
    }

    fn leaving(&self) -> String {
        let mut table = table(&["leaves", "catchment", "flow"], 1);
        let mut kinds: Vec<OutletKind> = self.study.water.outlets.iter().map(|o| o.kind).collect();
        kinds.dedup();
        for kind in kinds {
            let amount = self.study.water.leaving(kind);
            table.add_row([out(&self.study.roof, &[], kind), self.units.area(amount), self.flow(amount)]);
        }
        table.to_string()
    }

    fn gutters(&self) -> String {
        let mut table = table(
            &[
                "gutter at",
                "straight",
                "at its ends",
                "of walls",
                "counted",
                "flow",
                "gutter and fall in a foot",
                "downspouts",
            ],
            1,
        );
        for need in &self.study.gutters {
            table.add_row([
                format!("eave {}", need.edge.number()),
                self.units.area(need.straight),
                if is_some(need.streams) { self.units.area(need.streams) } else { String::new() },
                if is_some(need.walls) { self.units.area(need.walls) } else { String::new() },
                self.units.area(need.counted),
                self.units.water(need.flow),
                fitting(need),
                downspouts(need),
            ]);
        }
        table.to_string()
    }

    fn findings(&self) -> Option<String> {
        let findings = self.study.water.findings(&self.study.roof);
        let line = |f: &Finding| {
            format!("- {}: {}", f.told(&self.study.roof, &[], self.units), self.flow(f.amount()))
        };
        let lines: Vec<String> = findings.iter().map(line).collect();
        (!lines.is_empty()).then(|| format!("look at\n{}", lines.join("\n")))
    }
}

/// The least gutter that carries it.
fn fitting(need: &GutterNeed) -> String {
    need.gutters.first().map_or_else(
        || "none in the books: part the flow".to_owned(),
        |g| format!("{}, {}", g.name.trim_end_matches(" gutter"), g.fall),
    )
}

fn downspouts(need: &GutterNeed) -> String {
    let each =
        need.downspouts.iter().map(|d| format!("{} of {}", d.count, d.name.trim_end_matches(" downspout")));
    each.collect::<Vec<_>>().join(" or ")
}

fn is_wet(flow: &EdgeFlow) -> bool {
    is_some(flow.catchment())
}

/// Whether a catchment is more than rounding.
fn is_some(catchment: Area) -> bool {
    catchment.m2() > 1e-6
}
