//! Gutters as hung, as tables.

use job::Units;
use measure::{Area, Fraction, Length, RainRate};
use roof::Roof;
use water::{Change, Discharge, Drainage, GutterId, Load, OutletKind, Part, Place};

use super::roof::table;
use super::water::out;

/// What each gutter and downspout carries, what is otherwise with some blocked, and what to look at. None where none hang.
pub(super) fn text(page: &Page<'_>, changes: &[Change]) -> Option<String> {
    if page.drainage.gutters.is_empty() {
        return None;
    }
    let mut parts = vec![page.heading(), page.gutters()];
    parts.extend(page.downspouts());
    parts.extend((!changes.is_empty()).then(|| page.changes(changes)));
    parts.extend(page.findings());
    Some(parts.join("\n\n"))
}

/// What the tables take.
pub(super) struct Page<'a> {
    pub(super) roof: &'a Roof,
    pub(super) drainage: &'a Drainage,
    pub(super) units: Units,
    pub(super) rain: RainRate,
}

impl Page<'_> {
    fn flow(&self, catchment: Area) -> String {
        self.units.water(self.rain * catchment)
    }

    /// What walls add to a flow, where they do.
    fn of_walls(&self, walls: Area) -> String {
        if walls.m2() > 1e-6 { self.flow(walls) } else { String::new() }
    }

    fn is_blocked(&self, part: Part) -> bool {
        self.drainage.blocked.contains(&part)
    }

    fn heading(&self) -> String {
        let name = |part: &Part| {
            let gutter = |id: GutterId| &self.drainage.gutters[id.0];
            match part {
                Part::Gutter(id) => gutter(*id).name.as_str(),
                Part::Downspout(id) => gutter(id.gutter).downspouts[id.index].name.as_str(),
            }
        };
        let blocked: Vec<&str> = self.drainage.blocked.iter().map(name).collect();
        match blocked.as_slice() {
            [] => "with the gutters hung".to_owned(),
            names => format!("with the gutters hung, blocked: {}", names.join(", ")),
        }
    }

    fn gutters(&self) -> String {
        let fall = if self.units == Units::Us { "fall in a foot" } else { "fall" };
        let heading = ["gutter", "hangs at", "kind", fall, "carries", "flow", "of walls", "margin"];
        let mut table = table(&heading, 4);
        for (hung, bearing) in self.drainage.gutters.iter().zip(&self.drainage.bearings) {
            let eave = self.roof.edge(hung.edge);
            table.add_row([
                hung.name.clone(),
                format!("{}, eave {}", self.roof.plane(eave.planes[0]).name, hung.edge.number()),
                hung.kind.clone(),
                self.fall(hung.fall),
                self.units.area(bearing.catchment),
                self.flow(bearing.catchment),
                self.of_walls(bearing.walls),
                self.margin(&bearing.load, &[Part::Gutter(bearing.gutter)]),
            ]);
        }
        table.to_string()
    }

    /// A fall in each foot, or each metre: finer than papers write lengths.
    fn fall(&self, fall: Length) -> String {
        let sixteenths = fall.inches() * 16.0;
        match self.units {
            Units::Us if (sixteenths - sixteenths.round()).abs() < 1e-6 => {
                fall.trade(Fraction::Sixteenth).to_string()
            }
            Units::Us => format!("{:.3}\"", fall.inches()),
            Units::Si => format!("{:.1} mm/m", 1000.0 * (fall / Length::from_ft(1.0))),
        }
    }

    fn downspouts(&self) -> Option<String> {
        let mut table =
            table(&["downspout", "empties", "size", "serves", "carries", "flow", "of walls", "margin"], 3);
        for (hung, bearing) in self.drainage.gutters.iter().zip(&self.drainage.bearings) {
            for (index, (spout, borne)) in hung.downspouts.iter().zip(&bearing.downspouts).enumerate() {
                let id = water::DownspoutId { gutter: bearing.gutter, index };
                table.add_row([
                    spout.name.clone(),
                    self.empties(spout.to),
                    spout.size.clone(),
                    self.units.length(borne.serves),
                    self.units.area(borne.catchment),
                    self.flow(borne.catchment),
                    self.of_walls(borne.walls),
                    self.margin(&borne.load, &[Part::Gutter(bearing.gutter), Part::Downspout(id)]),
                ]);
            }
        }
        (!table.is_empty()).then(|| table.to_string())
    }

    fn empties(&self, to: Discharge) -> String {
        match to {
            Discharge::Ground => "to ground".to_owned(),
            Discharge::Drain => "into a drain".to_owned(),
            Discharge::Gutter(id) => format!("into {}", self.drainage.gutters[id.0].name),
            Discharge::Roof { plane, .. } => format!("on {}", self.roof.plane(plane).name),
        }
    }

    /// How many times over a load is carried, or why it is not.
    fn margin(&self, load: &Load, parts: &[Part]) -> String {
        if parts.iter().any(|part| self.is_blocked(*part)) {
            return "blocked".to_owned();
        }
        load.margin().map_or_else(String::new, |margin| format!("{margin:.2}"))
    }

    fn changes(&self, changes: &[Change]) -> String {
        let mut table = table(&["otherwise than with none blocked", "before", "now"], 1);
        for change in changes {
            table.add_row([self.place(change.place), self.flow(change.before), self.flow(change.now)]);
        }
        table.to_string()
    }

    fn place(&self, place: Place) -> String {
        let told = |kind| out(self.roof, &self.drainage.gutters, kind);
        match place {
            Place::Edge(id) => format!("comes to {} {}", self.roof.edge(id).kind.name(), id.number()),
            Place::Downspout(id) => told(OutletKind::Downspout(id)),
            Place::Outlet(kind) => told(kind),
        }
    }

    fn findings(&self) -> Option<String> {
        let line = |f: &water::Finding| {
            format!("- {}: {}", f.told(self.roof, &self.drainage.gutters, self.units), self.flow(f.amount()))
        };
        let lines: Vec<String> = self.drainage.findings.iter().map(line).collect();
        (!lines.is_empty()).then(|| format!("look at, with the gutters hung\n{}", lines.join("\n")))
    }
}
