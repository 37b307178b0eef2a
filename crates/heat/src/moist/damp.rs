//! Vapor of an attic over the hours, with wood and insulation that take it up and give it off.
//!
//! # Method
//! Each [`Store`] has a skin in touch with the attic's air and a core behind it. Air over a skin is as moist as what the skin holds makes it (sorption of
//! wood), and never moister than saturation, over ice where it freezes: what a skin holds past what wood can bind is frost or water on it. What goes
//! between air and skin is taken at the end of the step, along the slope of the sorption curve at its start, so that every step is one linear balance
//! and no step is too long. Between skin and core moisture diffuses; frost does not.
//!
//! # Source
//! Analogy of heat and mass (Lewis; ASHRAE Handbook Fundamentals, chapter 6, from memory); sorption of wood (Wood Handbook, chapter 4, seen);
//! diffusion across the grain of softwood about 1e-10 m²/s at 20 °C, falling by 35 kJ/mol in the cold (J. F. Siau, Transport processes in wood, 1984, from memory).
//!
//! # Valid range
//! Hours to days. Hysteresis of sorption is left out, and so is the frost that falls off by itself.

use super::air::{MoistAir, saturation, saturation_over_water};
use super::wood::{humidity_over, wood_moisture};
use crate::air::SPECIFIC_HEAT;

/// Lewis number of vapor in air.
const LEWIS: f64 = 0.87;
/// Diffusion across the grain at 20 °C, m²/s, and how it falls in the cold, K: 35 kJ/mol over the gas constant.
const DIFFUSION: f64 = 1e-10;
const ACTIVATION: f64 = 4_210.0;
/// Difference of humidity over which the sorption curve's slope is taken.
const SLOPE_OVER: f64 = 0.01;

/// Water that hangs on a surface before it runs off, kg/m² (ISO 13788:2012 has 200 g/m² as what may run off a surface that takes up none; from memory).
pub const HANGS: f64 = 0.2;

/// How well vapor goes between air and a surface, kg/(s·m²) for each kg/kg of difference, by what heat does: W/(m²·K), 2 to 4 in attics.
pub fn exchange(convective: f64) -> f64 {
    convective / (SPECIFIC_HEAT * LEWIS.powf(2.0 / 3.0))
}

/// What a temperature makes of air and of wood: a step asks for it many times.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct At {
    /// °C.
    temperature: f64,
    /// Vapor over water and, where it freezes, over ice, Pa.
    over_water: f64,
    over_ice: f64,
    /// The most that wood binds, as a share of its dry weight.
    binds: f64,
}

impl At {
    /// A temperature, °C.
    pub fn of(temperature: f64) -> Self {
        Self {
            temperature,
            over_water: saturation_over_water(temperature),
            over_ice: saturation(temperature),
            binds: wood_moisture(temperature, 1.0),
        }
    }

    /// °C.
    pub const fn temperature(&self) -> f64 {
        self.temperature
    }

    /// Relative humidity over water of air that holds all it can.
    fn most(&self) -> f64 {
        (self.over_ice / self.over_water).min(1.0)
    }
}

/// Something in an attic that takes up moisture and gives it off; what cannot has no dry weight.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Store {
    /// Surface in touch with the air, m².
    pub area: f64,
    /// As [`exchange`] has it, kg/(s·m²).
    pub exchange: f64,
    /// Dry weight of skin and core, kg/m²; either may be 0.
    pub dry: [f64; 2],
    /// From the middle of the skin to that of the core, m.
    pub apart: f64,
}

/// Water of a store, kg/m², in skin and core.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Wet {
    /// In the skin, frost and water on it among it.
    pub skin: f64,
    /// In the core.
    pub core: f64,
}

impl Store {
    /// Softwood that thick, one face to the air: a skin of 4 mm, or a third of what is thinner; the density is that of dry wood, kg/m³.
    pub fn wood(area: f64, thickness: f64, density: f64, exchange: f64) -> Self {
        let skin = (thickness / 3.0).min(0.004);
        Self { area, exchange, dry: [skin * density, (thickness - skin) * density], apart: 0.5 * thickness }
    }

    /// A surface that takes up nothing.
    pub const fn bare(area: f64, exchange: f64) -> Self {
        Self { area, exchange, dry: [0.0; 2], apart: 1.0 }
    }

    /// In balance with air of a temperature, °C, and humidity, 0 to 1.
    pub fn in_balance(&self, temperature: f64, humidity: f64) -> Wet {
        let [skin, core] = self.dry.map(|dry| dry * wood_moisture(temperature, humidity));
        Wet { skin, core }
    }

    /// Share of its dry weight that is water, bound in the wood of the skin; none for what takes up nothing.
    pub fn skin_moisture(&self, wet: Wet, at: &At) -> Option<f64> {
        (self.dry[0] > 0.0).then(|| (wet.skin / self.dry[0]).min(at.binds))
    }

    /// Share of its dry weight that is water in skin and core together, frost and water on it apart; none for what takes up nothing.
    pub fn moisture(&self, wet: Wet, at: &At) -> Option<f64> {
        let dry = self.dry[0] + self.dry[1];
        (dry > 0.0).then(|| (wet.skin - self.free(wet, at) + wet.core) / dry)
    }

    /// Frost or water on the skin, past what it can bind, kg/m².
    pub fn free(&self, wet: Wet, at: &At) -> f64 {
        (wet.skin - self.dry[0] * at.binds).max(0.0)
    }

    /// Lets water past what hangs on it drip off, kg/m²; frost stays.
    pub fn drip(&self, wet: &mut Wet, at: &At) -> f64 {
        let over = if at.temperature > 0.0 { (self.free(*wet, at) - HANGS).max(0.0) } else { 0.0 };
        wet.skin -= over;
        over
    }

    /// Relative humidity over water, 0 to 1, of the air right at the skin.
    pub fn humidity(&self, wet: Wet, at: &At) -> f64 {
        let most = at.most();
        if self.dry[0] <= 0.0 {
            return most;
        }
        let moisture = wet.skin / self.dry[0];
        if moisture >= at.binds { most } else { humidity_over(at.temperature, moisture).min(most) }
    }

    /// Ratio of the air at the skin, and how it grows with each kg/m² more in the skin.
    fn over(&self, wet: Wet, at: &At, pressure: f64) -> (f64, f64) {
        let ratio =
            |humidity: f64| MoistAir::of_vapor(at.temperature, humidity * at.over_water, pressure).ratio;
        let humidity = self.humidity(wet, at);
        let over = ratio(humidity);
        let is_full = at.over_water * humidity >= at.over_ice;
        if self.dry[0] <= 0.0 || is_full {
            return (over, 0.0);
        }
        let more = humidity + if humidity > 0.5 { -SLOPE_OVER } else { SLOPE_OVER };
        let bound =
            self.dry[0] * (wood_moisture(at.temperature, more) - wood_moisture(at.temperature, humidity));
        (over, (ratio(more) - over) / bound)
    }

    /// Moisture on its way between skin and core, for a step.
    fn diffuse(&self, wet: &mut Wet, at: &At, seconds: f64) {
        let [skin, core] = self.dry;
        if skin <= 0.0 || core <= 0.0 {
            return;
        }
        let speed = DIFFUSION * (ACTIVATION * (1.0 / 293.15 - 1.0 / (at.temperature + 273.15))).exp();
        // kg/(s·m²) for all of the difference in moisture; density by skin and core over their thickness
        let density = (skin + core) / (2.0 * self.apart);
        let flow = speed * density / self.apart;
        let bound = (wet.skin / skin).min(at.binds);
        let evened = (bound - wet.core / core) / (1.0 / skin + 1.0 / core);
        let moved = evened * -(-flow * (1.0 / skin + 1.0 / core) * seconds).exp_m1();
        wet.skin -= moved;
        wet.core += moved;
    }
}

/// Air through an attic, and vapor through its ceiling, over a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moved {
    /// From rooms and outdoors, kg/s of dry air.
    pub air: [f64; 2],
    /// Vapor for each kg of dry air in rooms and outdoors.
    pub ratio: [f64; 2],
    /// Vapor through the ceiling for each Pa between rooms and attic, kg/(s·Pa).
    pub ceiling: f64,
    /// Pressure of the air, Pa.
    pub pressure: f64,
}

/// Moves moisture for a step, s: stores at their temperatures hold what they then hold; given is the ratio of the attic's air, 0 where no air,
/// ceiling or store is there.
pub fn dampen(moved: &Moved, stores: &[Store], at: &[At], wet: &mut [Wet], seconds: f64) -> f64 {
    let per_pascal = moved.pressure / 0.621_945; // of ratio: vapor ≈ ratio · pressure / 0.621945, as the ceiling sees it
    let ceiling = moved.ceiling * per_pascal;
    let mut ways: Vec<Way> = stores
        .iter()
        .zip(at)
        .zip(wet.iter())
        .map(|((store, at), wet)| Way::of(store, *wet, at, moved.pressure, seconds))
        .collect();
    let ratio = loop {
        let [rooms, outdoors] = moved.air;
        let mut comes = (rooms + ceiling) * moved.ratio[0] + outdoors * moved.ratio[1];
        let mut goes = rooms + outdoors + ceiling;
        for way in &ways {
            comes += way.area * way.from;
            goes += way.area * way.by;
        }
        let ratio = if goes > 0.0 { (comes / goes).max(0.0) } else { 0.0 };
        // what would give off more than it has gives off what it has; that only lowers the ratio, so that others may follow
        let short = ways.iter().position(|way| way.by > 0.0 && way.onto(ratio) < -way.most_off);
        match short {
            Some(i) => ways[i] = Way { from: ways[i].most_off, by: 0.0, ..ways[i] },
            None => break ratio,
        }
    };
    for (((store, at), wet), way) in stores.iter().zip(at).zip(wet.iter_mut()).zip(&ways) {
        wet.skin = (wet.skin + way.onto(ratio) * seconds).max(0.0);
        store.diffuse(wet, at, seconds);
    }
    ratio
}

/// What goes onto a store, kg/(s·m²): `by` for each of the attic's ratio, less `from`.
#[derive(Clone, Copy, Debug)]
struct Way {
    area: f64,
    by: f64,
    from: f64,
    /// All it has over the step.
    most_off: f64,
}

impl Way {
    fn of(store: &Store, wet: Wet, at: &At, pressure: f64, seconds: f64) -> Self {
        let (ratio, slope) = store.over(wet, at, pressure);
        let by = store.exchange / (1.0 + store.exchange * slope * seconds);
        Self { area: store.area, by, from: by * ratio, most_off: wet.skin / seconds }
    }

    fn onto(&self, ratio: f64) -> f64 {
        self.by * ratio - self.from
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const SEA_LEVEL: f64 = 101_325.0;

    fn deck() -> Store {
        Store::wood(100.0, 0.0127, 500.0, exchange(3.0))
    }

    fn moved(air: [f64; 2], ratio: [f64; 2]) -> Moved {
        Moved { air, ratio, ceiling: 0.0, pressure: SEA_LEVEL }
    }

    fn water(stores: &[Store], wet: &[Wet]) -> f64 {
        stores.iter().zip(wet).map(|(store, wet)| store.area * (wet.skin + wet.core)).sum()
    }

    proptest! {
        /// What air brings and does not take away is in the stores.
        #[test]
        fn water_is_kept(
            leak in 0.0..0.1_f64, vent in 0.0..1.0_f64, rooms in 0.0..0.012_f64, outdoors in 0.0..0.02_f64,
            at in proptest::collection::vec((-30.0..50.0_f64, 0.05..1.0_f64, 0.0..0.5_f64), 1..5), seconds in 60.0..90_000.0_f64,
        ) {
            let stores: Vec<Store> = at.iter().enumerate().map(|(i, _)| match i % 3 {
                0 => deck(),
                1 => Store::bare(20.0, exchange(2.0)),
                _ => Store::wood(30.0, 0.002, 450.0, exchange(4.0)),
            }).collect();
            let temperatures: Vec<At> = at.iter().map(|at| At::of(at.0)).collect();
            let mut wet: Vec<Wet> = stores.iter().zip(&at).map(|(store, (t, h, frost))| {
                let dry = store.in_balance(*t, *h);
                Wet { skin: dry.skin + if *h > 0.9 { *frost } else { 0.0 }, ..dry }
            }).collect();
            let before = water(&stores, &wet);
            let moved = moved([leak, vent], [rooms, outdoors]);
            let ratio = dampen(&moved, &stores, &temperatures, &mut wet, seconds);
            let came = (leak * (rooms - ratio) + vent * (outdoors - ratio)) * seconds;
            let after = water(&stores, &wet);
            prop_assert!((after - before - came).abs() < 1e-9 * (before + came.abs() + 1.0), "{before} {came} {after}");
            prop_assert!(ratio >= 0.0 && wet.iter().all(|wet| wet.skin >= 0.0 && wet.core >= -1e-12));
        }

        /// Wood in balance with the air that comes in stays as it is, however long the step.
        #[test]
        fn what_is_in_balance_stays(t in 0.0..40.0_f64, h in 0.1..0.95_f64, seconds in 60.0..1e6_f64) {
            let ratio = MoistAir::of_vapor(t, h * saturation_over_water(t), SEA_LEVEL).ratio;
            let (stores, mut wet) = ([deck()], [deck().in_balance(t, h)]);
            let before = wet[0];
            let found = dampen(&moved([0.01, 0.1], [ratio, ratio]), &stores, &[At::of(t)], &mut wet, seconds);
            prop_assert!((found / ratio - 1.0).abs() < 1e-6);
            prop_assert!((wet[0].skin - before.skin).abs() < 1e-6 && (wet[0].core - before.core).abs() < 1e-6);
        }

        /// Damper rooms make the attic no drier.
        #[test]
        fn more_vapor_below_is_more_above(t in -20.0..30.0_f64, leak in 0.001..0.1_f64, rooms in 0.002..0.01_f64, more in 0.0..0.005_f64) {
            let run = |rooms: f64| {
                let mut wet = [deck().in_balance(t, 0.8)];
                dampen(&moved([leak, 0.05], [rooms, 0.001]), &[deck()], &[At::of(t)], &mut wet, 3600.0);
                wet[0].skin
            };
            prop_assert!(run(rooms + more) >= run(rooms) - 1e-12);
        }
    }

    /// In a steady stream of air wood comes to what its sorption says, through skin and core; in the cold more slowly.
    #[test]
    fn wood_comes_to_its_balance() {
        let days = |t: f64| {
            let ratio = MoistAir::of_vapor(t, 0.8 * saturation_over_water(t), SEA_LEVEL).ratio;
            let (stores, mut wet) = ([deck()], [deck().in_balance(t, 0.4)]);
            let wanted = wood_moisture(t, 0.8);
            let passed = (1..3000).find(|_| {
                dampen(&moved([0.0, 5.0], [0.0, ratio]), &stores, &[At::of(t)], &mut wet, 86_400.0);
                (stores[0].moisture(wet[0], &At::of(t)).unwrap() - wanted).abs() < 0.002
            });
            passed.expect("it comes to balance")
        };
        let (warm, cold) = (days(20.0), days(0.0));
        assert!(warm < cold && (5..200).contains(&warm), "{warm} and {cold} days");
    }

    /// Frost stays however much there is; once it thaws, all but what hangs drips, and no water is lost on the way.
    #[test]
    fn frost_drips_when_it_thaws() {
        let store = deck();
        let full = store.dry[0] * At::of(-5.0).binds;
        let mut wet = Wet { skin: full + 1.5, core: 0.5 };
        assert!(store.drip(&mut wet, &At::of(-5.0)) == 0.0);
        let before = wet.skin;
        let dripped = store.drip(&mut wet, &At::of(2.0));
        assert!((wet.skin + dripped - before).abs() < 1e-12 && dripped > 1.2, "{dripped}");
        assert!((store.free(wet, &At::of(2.0)) - HANGS).abs() < 1e-12);
        assert!(store.drip(&mut wet, &At::of(2.0)) < 1e-12);
    }

    /// Frost lies on the skin while it freezes, and goes on into the air when it thaws.
    #[test]
    fn frost_comes_and_goes() {
        let house = MoistAir::of_humidity(21.0, 0.4, SEA_LEVEL).ratio;
        let cold = MoistAir::of_humidity(-15.0, 0.8, SEA_LEVEL).ratio;
        let (stores, mut wet) = ([deck()], [deck().in_balance(-10.0, 0.85)]);
        for _ in 0..240 {
            dampen(&moved([0.03, 0.05], [house, cold]), &stores, &[At::of(-12.0)], &mut wet, 3600.0);
        }
        let frost = stores[0].free(wet[0], &At::of(-12.0));
        assert!(frost > 0.1, "{frost} kg/m²");
        let mild = MoistAir::of_humidity(5.0, 0.7, SEA_LEVEL).ratio;
        for _ in 0..(24 * 60) {
            dampen(&moved([0.003, 0.5], [house, mild]), &stores, &[At::of(8.0)], &mut wet, 3600.0);
        }
        assert!(stores[0].free(wet[0], &At::of(8.0)) == 0.0, "{:?}", wet[0]);
    }
}
