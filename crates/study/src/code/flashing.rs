//! Flashing at walls, valleys, changes of pitch and what goes through the roof.

use book::{Because, Cladding, Look, LookupError, Role, Spot};
use detail::{At, Place, Sheet};
use measure::Length;

use super::desk::{Ask, Desk, Laid, length};
use super::judge::{Check, Demand, Held, Need};
use super::{Figure, Part};

/// Spots at which walls or changes of slope are flashed.
const AT_WALLS_AND_BREAKS: [Spot; 9] = [
    Spot::Sidewall,
    Spot::Headwall,
    Spot::BackWall,
    Spot::Step,
    Spot::Cantilever,
    Spot::PitchBreakIn,
    Spot::PitchBreakOut,
    Spot::LowSlope,
    Spot::LevelValley,
];

/// Spots at which a wall stands over a roof.
const AT_WALLS: [Spot; 5] = [Spot::Sidewall, Spot::Headwall, Spot::BackWall, Spot::Step, Spot::Cantilever];

/// Spots round what goes through a roof.
const AT_OPENINGS: [Spot; 10] = [
    Spot::ChimneyLow,
    Spot::ChimneySide,
    Spot::ChimneyHigh,
    Spot::Pipe,
    Spot::Hood,
    Spot::BoxVent,
    Spot::DaylightTube,
    Spot::SkylightLow,
    Spot::SkylightSide,
    Spot::SkylightHigh,
];

impl Desk<'_> {
    pub(super) fn flashing(&mut self) -> Result<(), LookupError> {
        let details = self.details;
        for place in &details.places {
            match place.spot {
                Spot::Sidewall => self.sidewall(place)?,
                Spot::KickOut => self.kick_out(place)?,
                Spot::Valley => self.valley(place)?,
                _ => {}
            }
            self.flashed(place)?;
            self.veneer(place)?;
        }
        self.tell_unasked();
        self.metal()
    }

    fn tell_unasked(&mut self) {
        let edition = self.edition;
        let clauses = [
            (
                "sidewall_flashing",
                &edition.sidewall_flashing.clause,
                "legs of sidewall flashing",
                "no sidewall",
            ),
            ("kick_out", &edition.kick_out.clause, "diverter at a roof end", "no eave ends at a wall"),
            ("valley_metal", &edition.valley_metal.clause, "lining of valleys", "no valley"),
            ("veneer", &edition.veneer.clause, "veneer above a roof", "no veneer stands above a roof"),
        ];
        for (rule, clause, what, why) in clauses {
            let is_asked = self.asks(rule) || (rule == "valley_metal" && self.asks("closed_valley"));
            if !is_asked {
                self.unasked(clause, what, why);
            }
        }
    }

    fn sidewall(&mut self, place: &Place) -> Result<(), LookupError> {
        let clause = &self.edition.sidewall_flashing;
        let kind = if clause.continuous_allowed { "step or continuous flashing" } else { "step flashing" };
        let ask = Ask {
            part: Part::Flashing,
            rule: "sidewall_flashing",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "{kind} at sidewalls, {} up the wall behind the siding and {} onto the roof",
                clause.least_height.text(),
                clause.least_width.text()
            ),
        };
        let Some((found, planned)) = self.both(place)? else { return Ok(()) };
        let exposure = self.job.covering.exposure.value;
        let leg = |laid: &Laid<'_>, face: usize| {
            length(base(laid).map_or(Length::ZERO, |sheet| laid.on(sheet, face)))
        };
        let is_kind = |laid: &Laid<'_>| kind_of(base(laid), clause.continuous_allowed, exposure);
        let check = |what: &str, demand: Demand, held: &dyn Fn(&Laid<'_>) -> Held| {
            Check::new(what, demand, found.as_ref().map(held), held(&planned)).usual()
        };
        let least = |figure: Length| Demand::AtLeast(Figure::Length(figure));
        let checks = vec![
            check("up the wall", least(*clause.least_height), &|laid| leg(laid, 0)),
            check("onto the roof", least(*clause.least_width), &|laid| leg(laid, 1)),
            check(kind, Demand::Yes, &is_kind),
        ];
        let reasons = Self::layers(found.as_ref(), &planned);
        self.row(&ask, place.short(), checks, Need::All, reasons);
        Ok(())
    }

    fn kick_out(&mut self, place: &Place) -> Result<(), LookupError> {
        let clause = &self.edition.kick_out;
        let ask = Ask {
            part: Part::Flashing,
            rule: "kick_out",
            clause: &clause.clause,
            source: &clause.source,
            asked: "a flashing turns water off the wall where an eave ends at it".to_owned(),
        };
        let is_surveyed = self.is_kick_out_surveyed(place);
        self.yes_no(&ask, place, is_surveyed, |laid| {
            let last = laid.section.faces.len().saturating_sub(1);
            let turns_out = |sheet: &Sheet<'_>| sheet.layer.role == Some(Role::KickOut);
            laid.sheet(|sheet| turns_out(sheet) && laid.on(sheet, last) > Length::ZERO).is_some()
        })
    }

    /// Whether somebody wrote down if the wall at a roof end has a kick-out.
    fn is_kick_out_surveyed(&self, place: &Place) -> bool {
        let At::End(edge, _) = place.at else { return false };
        let wall = self.roof.edge(edge).wall_of.as_ref();
        wall.and_then(|block| self.job.walls.get(block)).is_some_and(|walls| walls.kick_out.is_some())
    }

    /// A valley as it is planned: open with metal, or closed over a lining.
    fn valley(&mut self, place: &Place) -> Result<(), LookupError> {
        let (open, closed) = (&self.edition.valley_metal, &self.edition.closed_valley);
        let Some((found, planned)) = self.both(place)? else { return Ok(()) };
        let width = |laid: &Laid<'_>, is_meant: fn(&Sheet<'_>) -> bool| {
            let sheets = laid.section.sheets.iter().filter(|sheet| !sheet.layer.spent && is_meant(sheet));
            Length::from_m(sheets.map(|sheet| sheet.span.length()).fold(0.0, f64::max))
        };
        let is_open = width(&planned, is_metal) > Length::ZERO;
        let (rule, clause, source, least, what) = if is_open {
            ("valley_metal", &open.clause, &open.source, &open.least_width, "open valley: metal")
        } else {
            let closed = (&closed.clause, &closed.source, &closed.least_width);
            (
                "closed_valley",
                closed.0,
                closed.1,
                closed.2,
                "closed valley: metal or a sheet under the shingles",
            )
        };
        let ask = Ask {
            part: Part::Flashing,
            rule,
            clause,
            source,
            asked: format!("{what}, at least {} wide", least.text()),
        };
        let meant: fn(&Sheet<'_>) -> bool = if is_open { is_metal } else { lines_valley };
        let check = Check::new(
            "width",
            Demand::AtLeast(Figure::Length(**least)),
            found.as_ref().map(|laid| length(width(laid, meant))),
            length(width(&planned, meant)),
        )
        .usual();
        let reasons = Self::layers(found.as_ref(), &planned);
        self.one(&ask, place.short(), check, reasons);
        Ok(())
    }

    fn flashed(&mut self, place: &Place) -> Result<(), LookupError> {
        let edition = self.edition;
        let ask = if AT_WALLS_AND_BREAKS.contains(&place.spot) {
            let asked = "flashing where a roof meets a wall and where slope or direction changes";
            Ask::of(Part::Flashing, "flashing_places", &edition.flashing_places, asked)
        } else if AT_OPENINGS.contains(&place.spot) {
            let asked = "flashing round what goes through the roof";
            Ask::of(Part::Flashing, "penetrations", &edition.penetrations, asked)
        } else {
            return Ok(());
        };
        self.yes_no(&ask, place, false, |laid| {
            laid.sheet(|sheet| is_flashing(sheet) && lies_over_joint(laid, sheet)).is_some()
        })
    }

    fn veneer(&mut self, place: &Place) -> Result<(), LookupError> {
        if !AT_WALLS.contains(&place.spot) || place.facts.cladding != Some(Cladding::Brick) {
            return Ok(());
        }
        let asked = "flashing and counter-flashing let into veneer above a roof";
        let ask = Ask::of(Part::Flashing, "veneer", &self.edition.veneer, asked);
        self.yes_no(&ask, place, false, is_counter_flashed)
    }

    /// A clause that asks something to be there; found it is as the details of the books have it, unless the survey chose between those.
    fn yes_no(
        &mut self,
        ask: &Ask<'_>,
        place: &Place,
        is_surveyed: bool,
        is_there: impl Fn(&Laid<'_>) -> bool,
    ) -> Result<(), LookupError> {
        let Some((found, planned)) = self.both(place)? else { return Ok(()) };
        let held = |laid: &Laid<'_>| Held::yes_no(is_there(laid));
        let check = Check::new("", Demand::Yes, found.as_ref().map(held), held(&planned));
        let check = if is_surveyed { check } else { check.usual() };
        let reasons = brief(Self::layers(found.as_ref(), &planned));
        self.one(ask, place.short(), check, reasons);
        Ok(())
    }
}

/// Sources of layers without their details: places with different details that are met alike are one row.
fn brief(reasons: Vec<Because>) -> Vec<Because> {
    reasons
        .into_iter()
        .map(|reason| {
            let source = book::Source {
                text: "layers of its detail in the books".to_owned(),
                confidence: reason.source.confidence,
            };
            Because { inputs: Vec::new(), source, ..reason }
        })
        .collect()
}

/// Metal or another stiff piece; a gutter is none.
fn is_metal(sheet: &Sheet<'_>) -> bool {
    sheet.material.drawn == Look::Metal && !sheet.material.does(book::Act::Gutters)
}

/// Roof membrane, whose seams hold standing water, or ice barrier.
fn lines_valley(sheet: &Sheet<'_>) -> bool {
    is_metal(sheet) || sheet.material.drawn == Look::Membrane
}

/// A membrane that is a roof by itself; ice barrier under shingles is none.
fn is_membrane(sheet: &Sheet<'_>) -> bool {
    sheet.material.drawn == Look::Membrane && !sheet.material.does(book::Act::Heals)
}

/// What flashes a joint: metal, but for the drip edge of an eave or rake, or a membrane that is a roof by itself.
fn is_flashing(sheet: &Sheet<'_>) -> bool {
    (is_metal(sheet) || is_membrane(sheet)) && sheet.layer.role != Some(Role::DripEdge)
}

/// Whether a sheet runs over a joint between two faces: what lies on one of them alone flashes nothing.
fn lies_over_joint(laid: &Laid<'_>, sheet: &Sheet<'_>) -> bool {
    let reaches = |face: usize| laid.on(sheet, face) > Length::ZERO;
    (1..laid.section.faces.len()).any(|face| reaches(face - 1) && reaches(face))
}

/// Whether metal is let into the wall, or laps over the base flashing below it, of metal or roof membrane, as pans through a wall do.
fn is_counter_flashed(laid: &Laid<'_>) -> bool {
    let is_base = |id: &String| {
        laid.sheet(|sheet| (is_metal(sheet) || is_membrane(sheet)) && sheet.layer.id == *id).is_some()
    };
    laid.sheet(|sheet| is_metal(sheet) && (sheet.layer.let_in || sheet.layer.over.keys().any(is_base)))
        .is_some()
}

/// The metal that lies on both faces of a joint.
fn base<'b, 'a>(laid: &'b Laid<'a>) -> Option<&'b Sheet<'a>> {
    let reaches = |sheet: &Sheet<'_>, face: usize| laid.on(sheet, face) > Length::ZERO;
    laid.sheet(|sheet| is_metal(sheet) && reaches(sheet, 0) && reaches(sheet, 1))
}

/// Whether flashing is of a kind that is allowed: a piece that serves one course is shorter than two.
fn kind_of(base: Option<&Sheet<'_>>, continuous_allowed: bool, exposure: Length) -> Held {
    let Some(base) = base else { return Held::yes_no(false) };
    let piece = base.layer.pieces.as_ref().and_then(|pieces| pieces.length.as_ref());
    match piece {
        _ if continuous_allowed => Held::yes_no(true),
        Some(piece) => Held::yes_no(**piece < exposure * 2.0),
        None => Held::Missing("length of the flashing's pieces (its detail in the books)".to_owned()),
    }
}
