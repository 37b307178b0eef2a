//! What the season needs of a job: strips, attics, air.

use ::winter::column::Base;
use ::winter::house_air::{AtticAir, Bays, HouseAir, Last, VENT_DISCHARGE};
use ::winter::season::{Aspect, Attic as Space, Below, House, Season, Strip};
use ::winter::shape::{Fineness, Place, Shaped, strips};
use ::winter::slope::Plane;
use ::winter::snow::Law;
use ::winter::surface::Turbulence;
use heat::air::{Leak, station_pressure};
use job::{Attic, Problem};
use measure::{Area, Flow, Length, Pitch};
use roof::PlaneId;
use takeoff::Vented;

use super::falls::Falls;
use super::fans::{Fans, Running};
use super::parts::Parts;
use super::room::{LEFT, Room, attic_at, figures, heights, is_under, passages};
use super::unknown::Draw;
use super::{Closing, Fixes, Taken};
use crate::Study;

/// Bands over the attic in a plane.
pub(super) const BANDS: usize = 5;

/// An eave: pitch and cold zone over which its ice lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Eave {
    pub(super) strip: usize,
    pub(super) length: Length,
    pub(super) pitch: Pitch,
    pub(super) cold: Length,
    /// How far up the slope from the eave's edge membrane lies.
    pub(super) membrane: Length,
}

/// A job as the season sees it.
pub(crate) struct Model<'s> {
    pub(super) study: &'s Study,
    pub(super) shaped: Vec<Shaped>,
    pub(super) parts: Parts,
    pub(super) planes: Vec<Plane>,
    pub(super) eaves: Vec<Eave>,
    pub(crate) rooms: f64,
    pub(crate) pressure: f64,
    spaces: Vec<Room<'s>>,
    leakage: Flow,
    pub(super) falls: Falls,
    fans: Fans,
}

impl<'s> Model<'s> {
    pub(crate) fn of(study: &'s Study) -> Result<Self, Vec<Problem>> {
        Self::with(study, BANDS)
    }

    /// Cut into so many bands over the attic in a plane.
    pub(super) fn with(study: &'s Study, bands: usize) -> Result<Self, Vec<Problem>> {
        let job = &study.job;
        let mut problems = Vec::new();
        let mut needed = |path: String, what: &str| {
            let message = format!(
                "`{path}` is not written: without {what} nobody can say how much ice the house makes"
            );
            problems.push(Problem::error("winter-needs", message, format!("measure it and write `{path}`")));
        };
        let rooms = job.house.indoor_temperature.as_ref();
        if rooms.is_none() {
            needed("house.indoor_temperature".into(), "the temperature of the rooms");
        }
        let leakage = job.house.leakage.as_ref();
        if leakage.is_none() {
            needed("house.leakage".into(), "a blower-door reading");
        }
        let mut spaces = Vec::new();
        let envelope = &study.envelope;
        let beside = envelope.heels.iter().zip(&envelope.foams).zip(&envelope.channels);
        for (attic, ((heels, foam), channel)) in job.attics.iter().zip(beside) {
            let found = figures(&attic.found, None);
            let plan = figures(&attic.plan, found);
            for (name, state, is_there) in
                [("found", &attic.found, found.is_some()), ("plan", &attic.plan, plan.is_some())]
            {
                if !is_there && state.effective.is_none() {
                    needed(format!("attic.{}.{name}.effective", attic.name), "what its insulation resists");
                }
                if !is_there && state.leakage.is_none() {
                    needed(format!("attic.{}.{name}.leakage", attic.name), "what its ceiling leaks");
                }
            }
            let vents = study.takeoff.vents_of(attic);
            if let (Some(found), Some(plan), Some(vents)) = (found, plan, vents) {
                spaces.push(Room {
                    attic,
                    vents,
                    states: [found, plan],
                    heights: heights(&study.roof, attic),
                    heels: *heels,
                    foam: foam.as_ref().ok().copied(),
                    channel: *channel,
                });
            }
        }
        if job.attics.is_empty() {
            needed("attic".into(), "an attic");
        }
        let (Some(rooms), Some(leakage), true) = (rooms, leakage, problems.is_empty()) else {
            return Err(problems);
        };
        let under = |plane: PlaneId, at: [f64; 2]| {
            spaces.iter().position(|room| is_under(study, room.attic, plane, at))
        };
        let layers = water::Layers::of(&study.roof);
        let shaped = strips(&study.roof, Fineness { bands }, under, |at, z| layers.below(at, z));
        let is_bays: Vec<bool> = spaces.iter().map(|room| room.channel.is_some()).collect();
        let parts = Parts::of(&shaped, &is_bays, bands);
        let falls = Falls::of(study, &shaped, bands);
        let fans = Fans::of(job, &study.fan_hours, |at| attic_at(study, &spaces, at));
        let planes = study
            .roof
            .planes
            .iter()
            .map(|plane| Plane { tilt: plane.pitch.degrees(), azimuth: plane.azimuth_degrees });
        let pressure = station_pressure(job.site.elevation.map_or(0.0, Length::m));
        let eaves = eaves(study, &shaped);
        Ok(Self {
            study,
            planes: planes.collect(),
            eaves,
            rooms: rooms.value.c(),
            pressure,
            spaces,
            leakage: leakage.value,
            shaped,
            parts,
            falls,
            fans,
        })
    }

    /// Attics by name.
    pub(super) fn attics(&self) -> impl Iterator<Item = &str> {
        self.spaces.iter().map(|room| room.attic.name.as_str())
    }

    /// Strips and attics with the fixes done, unknowns as drawn.
    pub(super) fn house(&self, fixes: Fixes, draw: &Draw) -> House {
        let snow = Law {
            conductivity: draw.conductivity,
            denser: draw.denser,
            brighter: draw.brighter,
            ..Law::FULL
        };
        let Taken { deck_heat, deck, in_attic, over_soffit, dark, .. } = self.study.taken;
        let strips = self.shaped.iter().enumerate().map(|(strip, shaped)| {
            let cosine = self.study.roof.plane(shaped.plane).pitch.slope_factor().recip();
            let film = if shaped.below == Below::Outdoors { over_soffit } else { in_attic };
            let base = Base {
                capacity: deck_heat,
                inward: film + deck / 2.0,
                outward: deck / 2.0,
                absorbed: dark,
                emissivity: dark,
                turbulence: Turbulence::Film { still: 4.0, windy: 4.0 * draw.shelter },
                snow,
            };
            Strip {
                plane: shaped.plane.0,
                area: shaped.area.m2(),
                below: self.parts.below(strip),
                base,
                catch: draw.catch * cosine,
                to: shaped.to.iter().copied().chain(self.falls.dripped(shaped, fixes)).collect(),
            }
        });
        let aspects =
            self.study.roof.planes.iter().map(|plane| Aspect { cosine: plane.pitch.slope_factor().recip() });
        let lost = self.spaces.iter().zip(&draw.attics);
        let lost: Vec<f64> =
            lost.map(|(room, drawn)| room.to_rooms(fixes, [drawn.insulation, draw.laying])).collect();
        let attics = self.parts.all().map(|(space, share)| Space {
            to_rooms: lost[space] * share,
            to_outdoors: 0.0,
            capacity: 0.0,
        });
        House {
            strips: strips.collect(),
            planes: aspects.collect(),
            attics: attics.collect(),
            moves: self.falls.moves(&self.study.roof, &self.shaped, fixes, draw),
        }
    }

    /// Unknowns as the job has them.
    pub(super) fn as_written(&self) -> Draw {
        Draw::as_written(self.spaces.len())
    }

    /// Air with the fixes done, of the job as written.
    pub(crate) fn air_as_written(&self, fixes: Fixes) -> HouseAir {
        self.air(fixes, &self.as_written())
    }

    /// Air with the fixes done, of the job as written, while no fan runs and while all do.
    pub(crate) fn air_with_fans(&self, fixes: Fixes) -> [HouseAir; 2] {
        [Running::None, Running::All].map(|running| self.air_while(fixes, &self.as_written(), running))
    }

    /// Air with the fixes done, unknowns as drawn, fans by their mean over the hours.
    pub(super) fn air(&self, fixes: Fixes, draw: &Draw) -> HouseAir {
        self.air_while(fixes, draw, Running::Usual(draw.exhaust))
    }

    /// How many times as much air goes through the house with the fixes done as through it as found, by its leaks.
    pub(super) fn aired(&self, fixes: Fixes) -> f64 {
        let leaks = |fixes: Fixes| {
            let HouseAir { shell, attics, .. } = self.air_as_written(fixes);
            shell.coefficient + attics.iter().map(|attic| attic.ceiling.coefficient).sum::<f64>()
        };
        leaks(fixes) / leaks(Fixes::NONE)
    }

    fn air_while(&self, fixes: Fixes, draw: &Draw, running: Running) -> HouseAir {
        let rooms = || self.spaces.iter().zip(&draw.attics);
        let leaks = rooms().map(|(room, drawn)| room.states[0].leakage.m3_s() * drawn.leakage);
        let all = self.leakage.m3_s() * draw.leakage;
        let shell = (all - leaks.sum::<f64>()).max(LEFT * all);
        let closed = |attic: Option<usize>| self.closed(fixes.cantilevers, attic) * draw.leakage;
        let shell = Flow::from_m3_s((shell - closed(None)).max(LEFT * shell));
        let through = draw.discharge / VENT_DISCHARGE;
        let attics = rooms().enumerate().map(|(i, (room, drawn))| AtticAir {
            ceiling: Leak::at_50_pa(room.leaks(fixes, [drawn.leakage, draw.sealing], closed(Some(i)))),
            low: room.open(fixes, |vents| vents.low, fixes.low_vents, [drawn.low, through]),
            high: room.open(fixes, |vents| vents.total - vents.low, fixes.high_vents, [drawn.high, through]),
            heights: room.heights,
            ceiling_at: room.heights[0],
            blown: 0.0,
            bays: self.bays(i, fixes),
        });
        let height = self.spaces.iter().map(|room| room.heights[0]).fold(Length::ZERO, Length::max);
        let mut air = HouseAir {
            shell: Leak::at_50_pa(shell),
            height,
            attics: attics.collect(),
            passages: passages(&self.spaces),
            pressure: self.pressure,
            exhaust: 0.0,
            shelter: draw.shelter,
            last: Last::default(),
        };
        self.fans.run(&mut air, usize::from(fixes.rest), running, self.rooms);
        air
    }

    /// Where a space is bays, their parts and the way through them.
    fn bays(&self, space: usize, fixes: Fixes) -> Option<Bays> {
        let channel = self.spaces[space].channel?;
        let over = self.shaped.iter().filter(|shaped| shaped.below == Below::Attic(space));
        let (area, rises) = over.fold((0.0, 0.0), |(area, rises), shaped| {
            let sine = self.study.roof.plane(shaped.plane).pitch.degrees().to_radians().sin();
            (area + shaped.area.m2(), rises + shaped.area.m2() * sine)
        });
        let [low, high] = self.spaces[space].heights;
        let length = (high - low) * (area / rises.max(1e-6));
        let way = channel.way(length, Area::from_m2(area), fixes.insulate);
        Some(Bays { parts: self.parts.shares(space).to_vec(), way })
    }

    /// What closing cantilevers takes off with the house at 50 Pa, of those open to an attic or to outdoors, m³/s.
    fn closed(&self, which: Closing, attic: Option<usize>) -> f64 {
        let is_done = |is_planned: bool| match which {
            Closing::AsFound => false,
            Closing::AsPlanned => is_planned,
            Closing::All => true,
        };
        let open = self.study.envelope.cantilevers.iter();
        open.filter(|open| open.attic == attic && is_done(open.is_planned))
            .map(|open| open.takes.m3_s())
            .sum()
    }

    /// Fixes less those that change nothing of this house as written, so that alike houses are known as such.
    pub(super) fn done(&self, fixes: Fixes) -> Fixes {
        let differs = |of: &dyn Fn(&Room<'_>) -> bool| self.spaces.iter().any(of);
        let open = &self.study.envelope.cantilevers;
        let cantilevers = match fixes.cantilevers {
            Closing::AsPlanned if !open.iter().any(|open| open.is_planned) => Closing::AsFound,
            Closing::AsPlanned if open.iter().all(|open| open.is_planned) => Closing::All,
            other => other,
        };
        let high = |vents: &Vented| vents.total - vents.low;
        Fixes {
            seal: fixes.seal && differs(&|room| room.states[0].leakage != room.states[1].leakage),
            insulate: fixes.insulate
                && differs(&|room| {
                    room.states[0].insulation != room.states[1].insulation || room.heels[0] != room.heels[1]
                }),
            low_vents: fixes.low_vents && differs(&|room| room.vents.found.low != room.vents.plan.low),
            high_vents: fixes.high_vents
                && differs(&|room| high(&room.vents.found) != high(&room.vents.plan)),
            cantilevers,
            rest: fixes.rest && (self.falls.change() || self.fans.change()),
            ..fixes
        }
    }

    /// The ceiling under an attic.
    pub(super) fn ceiling(&self, attic: usize) -> Area {
        self.spaces[attic].heated()
    }

    /// An attic as the job has it.
    pub(super) fn surveyed(&self, attic: usize) -> &Attic {
        self.spaces[attic].attic
    }

    /// Thickness of the deck over an attic, of the first of its blocks where it was measured.
    pub(super) fn deck_thickness(&self, attic: usize) -> Option<Length> {
        let under = &self.spaces[attic].attic.under;
        let mut blocks = self.study.job.blocks.iter().filter(|block| under.contains(&block.name));
        blocks.find_map(|block| block.deck.as_ref()?.thickness)
    }

    /// Underside of a deck over an attic, by the temperature in its middle and that of the attic, °C.
    pub(super) fn underside(&self, deck: f64, attic: f64) -> f64 {
        let half = self.study.taken.deck / 2.0;
        deck + (attic - deck) * half / (self.study.taken.in_attic + half)
    }

    /// Mean temperature of the decks over attics, °C.
    pub(super) fn deck(&self, season: &Season<'_>) -> f64 {
        self.deck_where(season, |shaped| matches!(shaped.place, Place::Over { .. }))
    }

    /// Mean temperature of the deck over each attic, °C.
    pub(super) fn decks(&self, season: &Season<'_>) -> Vec<f64> {
        let over = |attic: usize| self.deck_where(season, |shaped| shaped.below == Below::Attic(attic));
        (0..self.spaces.len()).map(over).collect()
    }

    fn deck_where(&self, season: &Season<'_>, is_meant: impl Fn(&Shaped) -> bool) -> f64 {
        let over = self.shaped.iter().zip(season.columns()).filter(|(shaped, _)| is_meant(shaped));
        let (area, sum) = over.fold((0.0, 0.0), |(area, sum), (shaped, column)| {
            (area + shaped.area.m2(), sum + shaped.area.m2() * column.deck())
        });
        if area > 0.0 { sum / area } else { f64::NAN }
    }
}

/// Eaves with ice that may stand on them.
fn eaves(study: &Study, shaped: &[Shaped]) -> Vec<Eave> {
    let of = |(strip, shaped): (usize, &Shaped)| {
        let Place::Overhang { plane } = shaped.place else { return None };
        let pitch = study.roof.planes[plane].pitch;
        let cold = Length::from_m(shaped.area.m2() / shaped.eave.m());
        let on_plane = |edge: &&roof::EdgeId| study.roof.edge(**edge).kind == roof::EdgeKind::Eave;
        let edges: Vec<_> = study.roof.planes[plane].edges.iter().filter(on_plane).collect();
        let laid = study.takeoff.ice.eaves.iter().filter(|strip| edges.contains(&&strip.edge));
        let membrane = laid.map(|strip| strip.cover.m()).fold(0.0, f64::max);
        (shaped.eave > Length::ZERO).then(|| Eave {
            strip,
            length: shaped.eave,
            pitch,
            cold,
            membrane: Length::from_m(membrane),
        })
    };
    shaped.iter().enumerate().filter_map(of).collect()
}
