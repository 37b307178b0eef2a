//! What a winter comes to, in figures.

use ::winter::season::{Hour, Season};

use super::model::Model;
use super::{Closing, Damp, Fixes, pond};

/// A state at 22 °F under a foot of snow, after ten days.
#[derive(Clone, Debug, PartialEq)]
pub struct Ablation {
    /// What is done.
    pub fixes: Fixes,
    /// And in words.
    pub name: String,
    /// Mean of the decks over attics, °C.
    pub deck: f64,
    /// Of the first attic, °C.
    pub attic: f64,
    /// Snow melted from below in a day, kg.
    pub melt_day: f64,
    /// Deck of every strip, °C.
    pub(super) decks: Vec<f64>,
    /// What the ceilings let through, W/K.
    pub ceiling: f64,
    /// Air from outdoors through the attics, kg/s.
    pub vent: f64,
    /// Air from the rooms into them, kg/s.
    pub leak: f64,
}

/// A state through a winter.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct State {
    /// Ice the building makes, at its most, kg on a metre of eave.
    pub ice: f64,
    /// Ice that cold rooms leave, at its most, kg on a metre of eave.
    pub sun_ice: f64,
    /// Snow melted from below, less what cold rooms melt, kg.
    pub melt: f64,
    /// Days on which water stands past the membrane behind the lowest dam of that mass.
    pub pond_days: f64,
    /// Heat from the rooms into the attics while it is colder than 65 °F outdoors, kWh.
    pub heat: f64,
    /// Heat that the heater gives for ceilings and for the air that goes up through them, which comes in as cold as it is outdoors, kWh.
    pub heating: f64,
    /// Air from outdoors through the attics, mean over freezing hours, kg/s.
    pub vent: f64,
    /// Air from the rooms into them, mean over freezing hours, kg/s.
    pub leak: f64,
    /// Mean of the decks at 22 °F, °C.
    pub deck_at_design: f64,
    /// Attic at 22 °F, °C.
    pub attic_at_design: f64,
    /// Water off the roof while it froze outdoors, of what the building melts, kg: of it icicles grow.
    pub icicles: f64,
    /// Snow that slid off to the ground, kg.
    pub slid: f64,
    /// Snow that the wind blew off, kg.
    pub blown: f64,
    /// What the vapor of each attic did.
    pub damp: Vec<Damp>,
    /// Heat and mass that did not close, as shares.
    pub closure: [f64; 2],
    freezing: f64,
}

impl Ablation {
    /// Whether it is as another is: then the job plans none of what its name says.
    pub fn is_as(&self, other: &Self) -> bool {
        (self.attic - other.attic).abs() < 1e-9
    }

    /// Why it takes nothing that could be seen off the melt; none where it does, where the job plans none of it, and where nothing melts as found.
    pub(super) fn why_useless(&self, found: &Self) -> Option<&'static str> {
        let is_useless = found.melt_day > 0.0 && self.melt_day > (1.0 - SEEN) * found.melt_day;
        let lets_out = self.fixes.high_vents && !self.fixes.low_vents && self.leak > found.leak;
        let why = if lets_out {
            "what it lets out it draws from the rooms, for the way in from outdoors is as narrow as before"
        } else {
            "it changes too little of what warms the deck"
        };
        (is_useless && !self.is_as(found)).then_some(why)
    }

    /// Why it helps or does not, by what it changes.
    pub(super) fn why(&self, found: &Self) -> String {
        if self.is_as(found) {
            return "the job plans none of it".to_owned();
        }
        let changes = self.changes(found);
        let changes =
            if changes.is_empty() { "next to nothing changes".to_owned() } else { changes.join(", ") };
        let kept = self.melt_day / found.melt_day;
        let verdict = match self.why_useless(found) {
            Some(why) => format!("helps nothing: {why}"),
            None if found.melt_day <= 0.0 => "nothing melts from below as found".to_owned(),
            None if kept > HARDLY => "hardly helps the ice".to_owned(),
            None if kept > HALF => "helps some".to_owned(),
            None if kept > NEARLY => "helps much, and still melts".to_owned(),
            None => "the deck stays frozen".to_owned(),
        };
        let floor = if self.fixes.cantilevers == Closing::All {
            "; the floor over it turns warm, whose own heat is not counted here"
        } else {
            ""
        };
        format!("{verdict} ({changes}){floor}")
    }

    /// What of heat and air it changes, where that can be seen.
    fn changes(&self, found: &Self) -> Vec<String> {
        let change = |now: f64, before: f64, what: &str| {
            let more = (now - before) / before.max(1e-9);
            if more.abs() < SEEN {
                None
            } else if more > 1.0 {
                Some(format!("{:.1} times the {what}", now / before.max(1e-9)))
            } else {
                let way = if more > 0.0 { "more" } else { "less" };
                Some(format!("{:.0} % {way} {what}", 100.0 * more.abs()))
            }
        };
        let through = change(self.ceiling, found.ceiling, "heat through the ceiling for each degree");
        let leak = change(self.leak, found.leak, "air up from the rooms");
        let vent = change(self.vent, found.vent, "air from outdoors");
        [through, leak, vent].into_iter().flatten().collect()
    }
}

/// Less of a change than this is not seen.
const SEEN: f64 = 0.02;
/// Shares of the melt that a fix leaves: more than the first hardly helps; to the second some; to the third much.
const HARDLY: f64 = 0.9;
const HALF: f64 = 0.5;
const NEARLY: f64 = 0.02;

/// Density of air at 0 °C at the sea, kg/m³.
pub const FREEZING_AIR: f64 = 1.292;
/// 65 °F, the base of heating degree-days.
const HEATED: f64 = 55.0 / 3.0;

impl State {
    /// Air from outdoors through the attics, mean over freezing hours, m³/s at 0 °C.
    pub fn vent_m3_s(&self) -> f64 {
        self.vent / FREEZING_AIR
    }

    /// Air from the rooms into the attics, likewise.
    pub fn leak_m3_s(&self) -> f64 {
        self.leak / FREEZING_AIR
    }

    pub(super) fn add(
        &mut self,
        model: &Model<'_>,
        lived: &Season<'_>,
        cold: &Season<'_>,
        hour: &Hour,
        rooms: f64,
    ) {
        let standing = |season: &[::winter::column::Column]| -> f64 {
            let ice: f64 = model
                .eaves
                .iter()
                .map(|eave| season[eave.strip].ice() * eave.cold.m() * eave.length.m())
                .sum();
            let length: f64 = model.eaves.iter().map(|eave| eave.length.m()).sum();
            if length > 0.0 { ice / length } else { 0.0 }
        };
        let (all, sun) = (standing(lived.columns()), standing(cold.columns()));
        self.ice = self.ice.max(all - sun);
        self.sun_ice = self.sun_ice.max(sun);
        let days = hour.seconds / 86_400.0;
        let is_over = model.eaves.iter().any(|eave| {
            let ice = lived.columns()[eave.strip].ice() * eave.cold.m();
            let reach = pond(ice, eave);
            reach > measure::Length::ZERO && reach + eave.cold > eave.membrane
        });
        self.pond_days += if is_over { days } else { 0.0 };
        if hour.sky.air < HEATED {
            let house = lived.house();
            let (mut from_rooms, mut given) = (0.0, 0.0);
            for ((attic, at), flow) in house.attics.iter().zip(lived.attics()).zip(lived.flows()) {
                let air = flow.leak * heat::air::SPECIFIC_HEAT;
                from_rooms += (attic.to_rooms + air) * (rooms - at);
                given += attic.to_rooms * (rooms - at) + air * (rooms - hour.sky.air);
            }
            self.heat += from_rooms * hour.seconds / 3.6e6;
            self.heating += given * hour.seconds / 3.6e6;
        }
        if hour.sky.air < 0.0 {
            let hours = hour.seconds / 3600.0;
            self.vent += lived.flows().iter().map(|flow| flow.vent).sum::<f64>() * hours;
            self.leak += lived.flows().iter().map(|flow| flow.leak).sum::<f64>() * hours;
            self.freezing += hours;
        }
    }

    /// Decks and attic at 22 °F.
    pub(super) fn take_design(&mut self, design: Option<&Ablation>) {
        if let Some(design) = design {
            (self.deck_at_design, self.attic_at_design) = (design.deck, design.attic);
        }
    }

    /// Wettest wood of all decks, share of its dry weight; none where it was not watched.
    pub fn wettest(&self) -> Option<f64> {
        self.damp.iter().map(|damp| damp.wood).reduce(f64::max)
    }

    pub(super) fn end(&mut self, lived: &Season<'_>, cold: &Season<'_>) {
        self.melt = lived.sums().base_melt - cold.sums().base_melt;
        self.icicles = lived.sums().cold_drip - cold.sums().cold_drip;
        (self.slid, self.blown) = (lived.sums().slid, lived.sums().blown);
        let [a, b] = [lived.closure(), cold.closure()];
        self.closure = [a[0].max(b[0]), a[1].max(b[1])];
        self.vent /= self.freezing.max(1.0);
        self.leak /= self.freezing.max(1.0);
    }
}
