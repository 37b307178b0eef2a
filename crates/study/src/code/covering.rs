//! Covering, deck, underlayment and nails.

use book::{LookupError, Package};
use job::{Basis, Block, DeckKind, Units};
use measure::{Length, Pitch};
use roof::PlaneId;
use takeoff::Underlay;

use super::desk::{Ask, Desk, because, input, length, of_job};
use super::judge::{Check, Demand, Held, Need};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn covering(&mut self) -> Result<(), LookupError> {
        self.slopes();
        self.underlayment();
        self.decks();
        self.nail_count()?;
        self.nails()
    }

    fn planes(&self) -> Vec<(PlaneId, String, Pitch)> {
        let planes = self.roof.planes.iter().enumerate();
        planes.map(|(index, plane)| (PlaneId(index), plane.name.clone(), plane.pitch)).collect()
    }

    fn slopes(&mut self) {
        let clause = &self.edition.asphalt_shingles;
        let ask = Ask {
            part: Part::Covering,
            rule: "asphalt_shingles",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!("asphalt shingles lie on slopes of {} and more", clause.least_pitch.text()),
        };
        for (_, name, pitch) in self.planes() {
            let check = Check::new(
                "slope",
                Demand::AtLeast(Figure::Pitch(*clause.least_pitch)),
                None,
                Held::Is(Figure::Pitch(pitch)),
            );
            self.one(&ask, name, check, Vec::new());
        }
    }

    /// Two layers on flat slopes. Membrane on the whole of them counts as both, if it can reach the deck.
    fn underlayment(&mut self) {
        let clause = &self.edition.asphalt_shingles;
        let (least, single) = (*clause.least_pitch, *clause.single_underlayment_from);
        let number = clause.method_clause.as_ref().unwrap_or(&clause.clause);
        let ask = Ask {
            part: Part::Covering,
            rule: "asphalt_shingles",
            clause: number,
            source: &clause.source,
            asked: format!(
                "from {} to under {} the underlayment is doubled; self-adhered membrane on all of it counts as that",
                clause.least_pitch.text(),
                clause.single_underlayment_from.text()
            ),
        };
        let over = self.job.covering.over;
        let mut any = false;
        for (id, name, _) in
            self.planes().into_iter().filter(|(_, _, pitch)| is_within(*pitch, least, single))
        {
            any = true;
            let (is_double, words) = match self.takeoff.underlay[id.0] {
                _ if over => (false, "nothing: the old roof stays on the deck"),
                Underlay::Membrane => (true, "self-adhered membrane on all of it"),
                Underlay::Double => (true, "two layers"),
                Underlay::Single => (false, "one layer"),
                Underlay::Uncounted => (false, "nothing is counted"),
            };
            let check = Check::new("doubled", Demand::Yes, None, Held::yes_no(is_double));
            let laid = because("as planned", [input("laid", words)], "as counted in the takeoff", &of_job());
            self.one(&ask, name, check, vec![laid]);
        }
        if !any {
            let why = format!("no slope is flatter than {}", clause.single_underlayment_from.text());
            self.unasked(number, "doubled underlayment", why);
        }
    }

    fn decks(&mut self) {
        let asked = "asphalt shingles lie on a solidly sheathed deck";
        let ask = Ask::of(Part::Covering, "solid_deck", &self.edition.solid_deck, asked);
        for block in &self.job.blocks {
            let check = Check::new(
                "solid",
                Demand::Yes,
                Some(solid(block, self.units())),
                solid(block, self.units()),
            );
            let kind = block.deck.as_ref().and_then(|deck| deck.kind.as_ref());
            let words = kind.map_or("not written", |kind| deck_word(kind.value));
            let said = because("as found", [input("deck", words)], "as the job describes it", &of_job());
            self.one(&ask, format!("deck of {}", block.name), check, vec![said]);
        }
    }

    fn nail_count(&mut self) -> Result<(), LookupError> {
        let clause = &self.edition.nail_count;
        let rule = self.book.rule("nails.per-shingle")?;
        let planned: f64 = rule.get()?;
        let ask = Ask {
            part: Part::Covering,
            rule: "nail_count",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "nails to a shingle as the maker prints, never fewer than {}; above {} as the maker asks",
                clause.least,
                clause.by_maker_above.text()
            ),
        };
        let practice =
            because("as planned", [input(&rule.what, rule.value.to_string())], "as counted", &rule.source);
        for (_, name, pitch) in self.planes() {
            let is_steep = clause.by_maker_above.is_flatter_than(pitch);
            let held = if is_steep {
                Held::Missing(format!("what the maker asks above {}", clause.by_maker_above.text()))
            } else {
                Held::Is(Figure::Count(whole(planned)))
            };
            let least = Demand::AtLeast(Figure::Count(clause.least.into()));
            self.one(&ask, name, Check::new("nails", least, None, held), vec![practice.clone()]);
        }
        Ok(())
    }

    fn nails(&mut self) -> Result<(), LookupError> {
        let clause = &self.edition.fasteners;
        let package = self.book.package("roofing-nails")?;
        let nail = package.nail()?;
        let shingle = self.book.package(&self.job.covering.shingle)?;
        let ask = Ask {
            part: Part::Covering,
            rule: "fasteners",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "nails that do not rust, of {} shank and {} head, {} into the deck or through a thinner one",
                clause.shank.text(),
                clause.head.text(),
                clause.into_deck.text()
            ),
        };
        let least = |figure: Length| Demand::AtLeast(Figure::Length(figure));
        let through = self.nailed_through(shingle);
        let mut inputs = vec![input("nails", &package.name)];
        if let Ok(through) = &through {
            let written = |length: Length| Figure::Length(length).written(self.units());
            inputs.push(input("shingle and old roof at the nail", written(*through)));
            inputs.push(input("length that reaches", written(*through + *clause.into_deck)));
        }
        let bought = because("as planned", inputs, "nail less what it goes through", &package.source);
        let into = || match &through {
            Ok(through) => length(*nail.length - *through),
            Err(missing) => Held::Missing(missing.clone()),
        };
        for (id, name, _) in self.planes() {
            let deck = self.deck(id).unwrap_or(*clause.into_deck);
            let checks = vec![
                Check::new("shank", least(*clause.shank), None, length(*nail.shank)),
                Check::new("head", least(*clause.head), None, length(*nail.head)),
                Check::new("into the deck", least(deck.min(*clause.into_deck)), None, into()),
            ];
            self.row(&ask, name, checks, Need::All, vec![bought.clone()]);
        }
        Ok(())
    }

    /// What nails go through before they reach the deck, or what would tell: the shingle, and the old roof where that stays.
    fn nailed_through(&self, shingle: &Package) -> Result<Length, String> {
        let covering = &self.job.covering;
        let of_shingle = shingle.thickness.as_ref().map(|thickness| **thickness);
        let of_old = if covering.over { covering.old_thickness } else { Some(Length::ZERO) };
        let mut missing = Vec::new();
        if of_shingle.is_none() {
            missing.push(format!("thickness of {} at its nail line (its label)", shingle.id));
        }
        if of_old.is_none() {
            missing.push("covering.old_thickness".to_owned());
        }
        of_shingle.zip(of_old).map(|(new, old)| new + old).ok_or_else(|| missing.join("; "))
    }
}

/// From a pitch on, to under another.
fn is_within(pitch: Pitch, from: Pitch, to: Pitch) -> bool {
    !pitch.is_flatter_than(from) && pitch.is_flatter_than(to)
}

/// Boards with gaps are solid to some officials and not to others.
fn solid(block: &Block, units: Units) -> Held {
    let field = |key: &str| Held::Missing(format!("block.{}.deck.{key}", block.name));
    let Some(deck) = &block.deck else { return field("kind") };
    let kind = deck.kind.as_ref().filter(|kind| kind.basis == Basis::Measured);
    let gap = deck.widest_gap.or_else(|| deck.gap.as_ref().map(|gap| gap.value));
    match (kind.map(|kind| kind.value), gap) {
        (None, _) => field("kind"),
        (Some(DeckKind::Plywood | DeckKind::Osb), _) => Held::yes_no(true),
        (Some(DeckKind::Boards), None) => field("gap"),
        (Some(DeckKind::Boards), Some(gap)) if gap <= Length::ZERO => Held::yes_no(true),
        (Some(DeckKind::Boards), Some(gap)) => Held::Missing(format!(
            "whether the official takes boards with gaps up to {} as solid",
            match units {
                Units::Us => gap.trade(measure::Fraction::Sixteenth).to_string(),
                Units::Si => units.length(gap),
            }
        )),
    }
}

const fn deck_word(kind: DeckKind) -> &'static str {
    match kind {
        DeckKind::Boards => "boards",
        DeckKind::Plywood => "plywood",
        DeckKind::Osb => "oriented strand board",
    }
}

/// A count of the books, which is whole.
#[expect(clippy::cast_possible_truncation, reason = "a count of nails is a small whole number")]
fn whole(count: f64) -> i64 {
    count.floor() as i64
}
