//! Thickness of the metal that is ordered for flashings.

use book::LookupError;

use super::desk::{Ask, Desk, because, input};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};

/// Packages of flashing metal, by the line of the takeoff that orders them.
const METALS: [(&str, &str); 4] = [
    ("step-flashing", "step-flashing"),
    ("kick-out", "kick-out"),
    ("headwall-apron", "headwall-apron"),
    ("chimney-apron", "headwall-apron"),
];

impl Desk<'_> {
    pub(super) fn metal(&mut self) -> Result<(), LookupError> {
        let edition = self.edition;
        for (item, id) in METALS {
            if self.takeoff.line(item).is_none() {
                continue;
            }
            let is_chimney = item == "chimney-apron";
            let (rule, clause, what) = if is_chimney {
                ("base_flashing", &edition.base_flashing, "base and cap flashing")
            } else {
                ("flashing_metal", &edition.flashing_metal, "flashing")
            };
            let ask = Ask {
                part: Part::Flashing,
                rule,
                clause: &clause.clause,
                source: &clause.source,
                asked: format!("{what} of metal that does not rust, {} thick", clause.least_thickness.text()),
            };
            let package = self.book.package(id)?;
            let thickness = package.thickness.as_ref().map(|thickness| Figure::Length(**thickness));
            let held = Held::or_missing(thickness, "thickness of the metal bought (its label, or a gauge)");
            let check =
                Check::new("thickness", Demand::AtLeast(Figure::Length(*clause.least_thickness)), None, held);
            let bought = package.thickness.as_ref().map(|thickness| {
                let inputs = [input("thickness", thickness.text())];
                because("as planned", inputs, "as ordered", &package.source)
            });
            let name = if is_chimney { "chimney apron".to_owned() } else { package.name.clone() };
            self.one(&ask, name, check, bought.into_iter().collect());
        }
        if !self.asks("base_flashing") {
            self.unasked(&edition.base_flashing.clause, "base and cap flashing", "no chimney");
        }
        Ok(())
    }
}
