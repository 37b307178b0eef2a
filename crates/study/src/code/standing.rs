//! Crickets, curbs and plumbing vents.

use book::{LookupError, PlumbingVent, Spot, Stands};
use job::{Mount, Opening, OpeningKind, Serves, Site, State, Units};
use measure::{Length, Load};
use roof::{Cricket, PlacedOpening};

use super::desk::{Ask, Desk, because, input, length, of_job};
use super::figure::apart;
use super::judge::{Check, Demand, Held, Need};
use super::{Figure, Part};

/// What is behind, across the slope, is in the way of water.
const IN_THE_WAY: [OpeningKind; 3] = [OpeningKind::Chimney, OpeningKind::Pipe, OpeningKind::Hood];

impl Desk<'_> {
    pub(super) fn standing(&mut self) -> Result<(), LookupError> {
        for (index, opening, placed) in self.openings() {
            self.cricket(index, opening, placed)?;
            match opening.kind {
                OpeningKind::Skylight => self.curb(index, opening, placed)?,
                _ if opening.carries() == Some(Serves::Plumbing) => self.pipe(opening),
                OpeningKind::Chimney => self.chimney(opening, placed),
                _ => {}
            }
        }
        let edition = self.edition;
        let clauses = [
            ("skylight_curb", &edition.skylight_curb.clause, "curbs of skylights", "no skylight"),
            (
                "plumbing_vent",
                &edition.plumbing_vent.clause,
                "plumbing vents",
                "no pipe of the plumbing comes through the roof",
            ),
            ("chimney_height", &edition.chimney_height.clause, "height of chimneys", "no chimney"),
        ];
        for (rule, clause, what, why) in clauses {
            if !self.asks(rule) && !self.is_told(clause) {
                self.unasked(clause, what, why);
            }
        }
        self.exhaust();
        self.reused()
    }

    fn cricket(
        &mut self,
        index: usize,
        opening: &Opening,
        placed: &PlacedOpening,
    ) -> Result<(), LookupError> {
        let clause = &self.edition.cricket;
        let [limit, across] =
            apart(Figure::Length(*clause.wider_than), Figure::Length(opening.across), self.units());
        if opening.across <= *clause.wider_than {
            if opening.kind == OpeningKind::Chimney {
                let by_practice = self.cricket_by_practice(index, opening)?;
                let why = format!("{} is {across} wide, not more than {limit}{by_practice}", opening.name);
                self.unasked(&clause.clause, "cricket", why);
            }
            return Ok(());
        }
        if !IN_THE_WAY.contains(&opening.kind) {
            let why =
                format!("{} is flashed as its maker prints; practice sets one all the same", opening.name);
            self.unasked(&clause.clause, "cricket", why);
            return Ok(());
        }
        if self.cuts_ridge(opening, placed) {
            self.unasked(&clause.clause, "cricket", format!("{} stands in the ridge", opening.name));
            return Ok(());
        }
        let ask = Ask {
            part: Part::Standing,
            rule: "cricket",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "a cricket on the ridge side of a chimney or the like more than {} wide across the slope",
                clause.wider_than.text()
            ),
        };
        let built = self.roof.crickets.iter().find(|cricket| cricket.opening == index);
        let check = Check::new("", Demand::Yes, None, Held::yes_no(built.is_some()));
        let wide = because(
            "asked here",
            [input("across the slope", across), input("asked above", limit)],
            "wider, so it is asked",
            &of_job(),
        );
        self.one(&ask, opening.name.clone(), check, vec![wide]);
        if let Some(built) = built.filter(|_| opening.kind == OpeningKind::Chimney) {
            self.cricket_height(opening, placed, built);
        }
        Ok(())
    }

    /// What practice says of a chimney that the code lets off; nothing of one that is narrower still.
    fn cricket_by_practice(&self, index: usize, opening: &Opening) -> Result<String, LookupError> {
        let rule = self.book.rule("cricket.by-practice")?;
        let from: Length = rule.get()?;
        if opening.across < from {
            return Ok(String::new());
        }
        let is_built = self.roof.crickets.iter().any(|cricket| cricket.opening == index);
        let built = if is_built { "one is planned" } else { "none is planned" };
        let from = Figure::Length(from).written(self.units());
        Ok(format!("; practice sets one from {from} ({}), and {built}", rule.source.text))
    }

    /// A cricket that is flatter than its roof is lower than the table has it.
    fn cricket_height(&mut self, opening: &Opening, placed: &PlacedOpening, built: &Cricket) {
        let asked = "a cricket behind a chimney is as high as half its width times the slope of the roof";
        let ask = Ask::of(Part::Standing, "cricket_height", &self.edition.cricket_height, asked);
        let pitch = self.roof.plane(placed.plane).pitch;
        let demand = Demand::AtLeast(Figure::Length(opening.across / 2.0 * pitch.slope()));
        let inputs = [
            input("across the slope", Figure::Length(opening.across).written(self.units())),
            input("slope of the roof", Figure::Pitch(pitch).written(self.units())),
            input("slope of the cricket", Figure::Pitch(built.pitch).written(self.units())),
        ];
        let said =
            because("as planned", inputs, "height of its ridge over the roof at the chimney", &of_job());
        self.one(
            &ask,
            opening.name.clone(),
            Check::new("height", demand, None, length(built.height)),
            vec![said],
        );
    }

    fn cuts_ridge(&self, opening: &Opening, placed: &PlacedOpening) -> bool {
        let is_ridge = |edge: roof::EdgeId| self.roof.edge(edge).kind == roof::EdgeKind::Ridge;
        let half = opening.along / 2.0;
        placed.distances.iter().any(|near| is_ridge(near.edge) && near.plan_from_centre < half)
    }

    /// A planned curb is as its detail draws it; one that stays is as it was measured. On the deck there is none, which the maker may allow.
    fn curb(&mut self, index: usize, opening: &Opening, placed: &PlacedOpening) -> Result<(), LookupError> {
        let clause = &self.edition.skylight_curb;
        let pitch = self.roof.plane(placed.plane).pitch;
        let [limit, slope] = apart(Figure::Pitch(*clause.flatter_than), Figure::Pitch(pitch), self.units());
        if !pitch.is_flatter_than(*clause.flatter_than) {
            let why = format!("{} lies on {slope}, not flatter than {limit}", opening.name);
            self.unasked(&clause.clause, "curbs of skylights", why);
            return Ok(());
        }
        let ask = Ask {
            part: Part::Standing,
            rule: "skylight_curb",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "on slopes flatter than {} skylights stand on curbs of {}, unless their makers' instructions say otherwise",
                clause.flatter_than.text(),
                clause.least_height.text()
            ),
        };
        let drawn = match opening.state {
            State::Plan => self.drawn_curb(index)?,
            State::Found | State::Remove => None,
        };
        let height = opening.height.or(drawn).map(Figure::Length);
        let is_on_deck = opening.mount.as_ref().is_some_and(|mount| mount.value == Mount::Deck);
        let held = || {
            if is_on_deck {
                let asked =
                    format!("the maker's instructions for `{}`, which lies on the deck", opening.name);
                return Held::Missing(asked);
            }
            Held::or_missing(height, format!("opening.{}.height", opening.name))
        };
        let found = (opening.state == State::Found).then(held);
        let check = Check::new("curb", Demand::AtLeast(Figure::Length(*clause.least_height)), found, held());
        let said = because(
            "asked here",
            [input("slope", slope), input("asked below", limit)],
            "flatter, so it is asked",
            &of_job(),
        );
        let mount = self.assumed(&format!("opening.{}.mount", opening.name));
        self.one(&ask, opening.name.clone(), check, std::iter::once(said).chain(mount).collect());
        Ok(())
    }

    fn drawn_curb(&self, index: usize) -> Result<Option<Length>, LookupError> {
        let laid = self.planned(Spot::SkylightLow, index)?;
        let upright = laid.and_then(|laid| {
            laid.section.faces.iter().find(|laid| laid.face.stands == Stands::Upright).map(|laid| laid.span)
        });
        Ok(upright.map(|span| Length::from_m(span.length())))
    }

    /// Pipes are taken to be plumbing vents: the job does not tell other pipes apart.
    fn pipe(&mut self, opening: &Opening) {
        let clause = &self.edition.plumbing_vent;
        let ask = Ask {
            part: Part::Standing,
            rule: "plumbing_vent",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "plumbing vents end {} above the roof, and as much above the snow expected on it; below {} in winter their end is {} wide, widened from {} inside",
                clause.above_roof.text(),
                clause.frost_below.text(),
                clause.frost_diameter.text(),
                clause.widened_inside.text()
            ),
        };
        let is_there = opening.state == State::Found;
        let least = |figure: Length| Demand::AtLeast(Figure::Length(figure));
        let height = || {
            Held::or_missing(opening.height.map(Figure::Length), format!("opening.{}.height", opening.name))
        };
        let clear = || self.above_snow(opening);
        let mut checks = vec![
            Check::new("above the roof", least(*clause.above_roof), is_there.then(height), height()),
            Check::new("above the snow", least(*clause.above_roof), is_there.then(clear), clear()),
        ];
        if let Some(end) = self.frost(clause, opening) {
            let end = || end().map_or_else(Held::Missing, length);
            checks.push(Check::new("end", least(*clause.frost_diameter), is_there.then(end), end()));
        }
        let snow = site_snow(&self.job.site, self.units());
        let said = because(
            "as planned",
            [input("snow expected", snow)],
            "as the job writes each pipe; one that does not say what it serves is taken to be a plumbing vent",
            &of_job(),
        );
        self.row(&ask, opening.name.clone(), checks, Need::All, vec![said]);
    }

    /// How far a pipe ends above the snow that is expected; without ground snow there is none. The load on the ground does not tell how deep
    /// snow lies on a roof.
    fn above_snow(&self, opening: &Opening) -> Held {
        let site = &self.job.site;
        let is_bare = site.ground_snow.is_some_and(|load| load <= Load::ZERO);
        let snow = site.snow_depth.or_else(|| is_bare.then_some(Length::ZERO));
        match (opening.height, snow) {
            (Some(height), Some(snow)) => length(height - snow),
            (_, None) => Held::Missing("site.snow_depth".to_owned()),
            (None, Some(_)) => Held::Missing(format!("opening.{}.height", opening.name)),
        }
    }

    /// The end of a pipe where frost may close it, or what would tell whether it may; none where it does not.
    fn frost(
        &self,
        clause: &PlumbingVent,
        opening: &Opening,
    ) -> Option<impl Fn() -> Result<Length, String> + use<>> {
        let site = &self.job.site;
        let across = opening.across;
        let is_wide = across >= *clause.frost_diameter;
        // 99 % of hours are warmer than the one, 97.5 % than the other: that one is never the colder
        let is_known = match (site.winter_temperature, site.design_temperature) {
            (Some(winter), _) if winter >= *clause.frost_below => return None,
            (Some(_), _) => true,
            (None, Some(colder)) if colder >= *clause.frost_below => return None,
            (None, _) => is_wide,
        };
        Some(move || if is_known { Ok(across) } else { Err("site.winter_temperature".to_owned()) })
    }
}

fn site_snow(site: &Site, units: Units) -> String {
    site.snow_depth.map_or("not written".to_owned(), |depth| Figure::Length(depth).written(units))
}
