//! Drip edge at eaves and rakes.

use book::{DripEdge, LookupError, Role, Spot};
use detail::{Place, Sheet};
use measure::Length;

use super::desk::{Ask, Desk, Laid, length};
use super::judge::{Check, Demand, Held, Need};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn edges(&mut self) -> Result<(), LookupError> {
        let Some(clause) = &self.edition.drip_edge else {
            let why = format!("{} does not ask it; later ones do", self.edition.name);
            self.unasked("drip edge", "metal at eaves and rakes", why);
            return Ok(());
        };
        let details = self.details;
        for place in details.places.iter().filter(|place| matches!(place.spot, Spot::Eave | Spot::Rake)) {
            self.drip_edge(clause, place)?;
        }
        Ok(())
    }

    fn drip_edge(&mut self, clause: &DripEdge, place: &Place) -> Result<(), LookupError> {
        let is_eave = place.spot == Spot::Eave;
        let order = if is_eave { "under the underlayment" } else { "over the underlayment" };
        let ask = Ask {
            part: Part::Flashing,
            rule: "drip_edge",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "drip edge at {}s, {order}: lapped {}, {} below the deck, {} onto it, fastened every {}",
                if is_eave { "eave" } else { "rake" },
                clause.lap.text(),
                clause.below_deck.text(),
                clause.onto_deck.text(),
                clause.fastened_every.text()
            ),
        };
        let Some((found, planned)) = self.both(place)? else { return Ok(()) };
        let deck = self.plane_of(place).map_or(Ok(Length::ZERO), |plane| self.deck(plane));
        let old = found.as_ref().and_then(|laid| Some((laid, laid.sheet(is_drip_edge)?)));
        let new = planned.sheet(is_drip_edge).map(|sheet| (&planned, sheet));
        let is_there = Check::new(
            "there",
            Demand::Yes,
            found.is_some().then(|| Held::yes_no(old.is_some())),
            Held::yes_no(new.is_some()),
        )
        .usual();
        let mut checks = vec![is_there];
        if let Some(new) = new {
            checks.extend(sizes(clause, is_eave, &deck, old, new));
        }
        let reasons = Self::layers(found.as_ref(), &planned);
        let name = place.short();
        self.row(&ask, name, checks, Need::All, reasons);
        Ok(())
    }
}

/// A sheet of a place as laid out.
type Piece<'a, 'b> = (&'b Laid<'a>, &'b Sheet<'a>);

fn is_drip_edge(sheet: &Sheet<'_>) -> bool {
    sheet.layer.role == Some(Role::DripEdge)
}

/// The sizes the clause gives, of the piece found, if there is one, and of the one planned.
fn sizes(
    clause: &DripEdge,
    is_eave: bool,
    deck: &Result<Length, String>,
    old: Option<Piece<'_, '_>>,
    new: Piece<'_, '_>,
) -> Vec<Check> {
    // an eave is laid out from the deck out over the fascia, a rake from the barge board in over the deck
    let (over, down) = if is_eave { (0, 1) } else { (1, 0) };
    let check = |what: &str, demand: Demand, held: &dyn Fn(Piece<'_, '_>) -> Held| {
        Check::new(what, demand, old.map(held), held(new)).usual()
    };
    let least = |figure: Length| Demand::AtLeast(Figure::Length(figure));
    let below = |(laid, sheet): Piece<'_, '_>| match deck {
        Ok(thickness) => length(laid.on(sheet, down) - *thickness),
        Err(field) => Held::Missing(field.clone()),
    };
    vec![
        check(
            if is_eave { "under the underlayment" } else { "over the underlayment" },
            Demand::Yes,
            &|piece| Held::yes_no(is_in_order(piece, is_eave)),
        ),
        check("onto the deck", least(*clause.onto_deck), &|(laid, sheet)| length(laid.on(sheet, over))),
        check("below the deck", least(*clause.below_deck), &below),
        check("lap of its pieces", least(*clause.lap), &|(_, sheet)| {
            let lap = sheet.layer.pieces.as_ref().map(|pieces| Figure::Length(*pieces.lap));
            Held::or_missing(lap, "lap of the drip edge's pieces (its detail in the books)")
        }),
        check("fasteners apart", Demand::AtMost(Figure::Length(*clause.fastened_every)), &|(_, sheet)| {
            let apart = sheet
                .fixings
                .iter()
                .find_map(|(_, fixing)| fixing.apart.as_deref())
                .copied()
                .map(Figure::Length);
            Held::or_missing(apart, "how far apart the drip edge is fastened (its detail in the books)")
        }),
    ]
}

/// Whether the loose underlayment lies over the piece at eaves, under it at rakes.
fn is_in_order((laid, sheet): Piece<'_, '_>, is_eave: bool) -> bool {
    let underlayment = laid.sheet(|other| other.layer.role == Some(Role::Underlayment));
    let depths = underlayment.and_then(|underlayment| Some((laid.depth(underlayment)?, laid.depth(sheet)?)));
    depths.is_some_and(|(underlayment, metal)| (underlayment > metal) == is_eave)
}
