//! Whether gutters and downspouts carry what comes to them.
//!
//! A gutter is held against its rating at its fall by the outlet that takes most: what runs to it from both sides, slopes counted as
//! often as driven rain asks and walls by their share. A fall between two that are rated counts as the lesser; below the least, ratings go with its square root.
//!
//! # Source
//! Ratings and limits: `books/gutters.toml`, each row with its own. The square root: Manning's formula, flow as the root of the slope.

use book::{Book, LookupError};
use measure::{Area, Length, RainRate};
use roof::plan::{along, flat, line_crossing, sub, unit};
use roof::{EdgeId, EdgeKind, NodeId, Roof};

use crate::channel::legs;
use crate::desk::Desk;
use crate::eave::{height_of, point_at};
use crate::finding::{Finding, Splash, in_order};
use crate::flow::{DownspoutFlow, Water};
use crate::hung::{Discharge, DownspoutId, GutterId, HungGutter, Part};
use crate::route::Router;
use crate::walk::wets;
use crate::wall::WallWater;

/// How a gutter bears its water.
#[derive(Clone, Debug, PartialEq)]
pub struct Bearing {
    /// The gutter.
    pub gutter: GutterId,
    /// Catchment in plan of all that it takes.
    pub catchment: Area,
    /// What walls add to it.
    pub walls: Area,
    /// What it takes at the most to one outlet against its rating.
    pub load: Load,
    /// Its downspouts, in their order.
    pub downspouts: Vec<SpoutBearing>,
}

/// How a downspout bears its water.
#[derive(Clone, Debug, PartialEq)]
pub struct SpoutBearing {
    /// Catchment in plan of what it carries.
    pub catchment: Area,
    /// What walls add to it.
    pub walls: Area,
    /// Length of gutter that runs to it.
    pub serves: Length,
    /// What it carries against its rating.
    pub load: Load,
}

/// What comes against what can be carried, both as areas in plan at 1 in/h of rain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// What comes at the design rain, slopes counted as often as driven rain asks.
    pub comes: Area,
    /// What is carried at most.
    pub rating: Area,
}

impl Load {
    /// How many times over it is carried: 1 is just enough; none where nothing comes.
    pub fn margin(&self) -> Option<f64> {
        (self.comes.m2() > 0.0).then(|| self.rating / self.comes)
    }

    fn is_over(&self) -> bool {
        self.comes > self.rating
    }
}

/// Water with gutters hung, and how they bear it.
#[derive(Clone, Debug, PartialEq)]
pub struct Drainage {
    /// The gutters.
    pub gutters: Vec<HungGutter>,
    /// Which of them, and of their downspouts, are blocked.
    pub blocked: Vec<Part>,
    /// Where water goes.
    pub water: Water,
    /// Where rain on walls goes.
    pub walls: WallWater,
    /// How they bear it, in the same order.
    pub bearings: Vec<Bearing>,
    /// What of roof and gutters to look at, worst first.
    pub findings: Vec<Finding>,
}

impl Drainage {
    /// Of a roof with gutters, some of them or of their downspouts blocked, at a rate of rain.
    ///
    /// # Errors
    /// Rows the books do not have.
    pub fn of(
        roof: &Roof,
        gutters: &[HungGutter],
        blocked: &[Part],
        rain: RainRate,
        book: &Book,
    ) -> Result<Self, LookupError> {
        let router = Router::with(roof, gutters, blocked);
        let (water, walls) = (router.rain(), WallWater::over(&router, book)?);
        let desk = Desk { roof, water: &water, walls: &walls, rain, book };
        let mut bearings = Vec::new();
        let mut findings = water.findings(roof);
        for (i, hung) in gutters.iter().enumerate() {
            let bearing = desk.bearing(GutterId(i), hung)?;
            findings.extend(desk.findings(hung, &bearing)?);
            bearings.push(bearing);
        }
        let findings = in_order(findings);
        Ok(Self { gutters: gutters.to_vec(), blocked: blocked.to_vec(), water, walls, bearings, findings })
    }

    /// What comes to an edge from the roof and from walls, as an area of roof in plan.
    pub fn comes_to(&self, edge: EdgeId) -> Area {
        [&self.water, &self.walls.water].map(|water| water.edge(edge).catchment()).into_iter().sum()
    }
}

impl Desk<'_> {
    fn bearing(&self, gutter: GutterId, hung: &HungGutter) -> Result<Bearing, LookupError> {
        let flows = &self.water.gutters[gutter.0].downspouts;
        let walls = self.walls.water.gutters[gutter.0].downspouts.iter().map(DownspoutFlow::catchment);
        let serves = self.serves(gutter, hung);
        let downspouts: Vec<SpoutBearing> = (hung.downspouts.iter().zip(flows).zip(walls.zip(serves)))
            .map(|((spout, flow), (walls, serves))| self.spout(&spout.size, flow, walls, serves))
            .collect::<Result<_, _>>()?;
        let comes = downspouts.iter().map(|d| d.load.comes).fold(Area::ZERO, Area::max);
        Ok(Bearing {
            gutter,
            catchment: flows.iter().map(DownspoutFlow::catchment).sum(),
            walls: downspouts.iter().map(|d| d.walls).sum(),
            load: Load { comes, rating: self.rating(hung)? },
            downspouts,
        })
    }

    fn spout(
        &self,
        size: &str,
        flow: &DownspoutFlow,
        walls: Area,
        serves: Length,
    ) -> Result<SpoutBearing, LookupError> {
        let per_in2: f64 = self.book.rule("downspout.drains")?.get()?;
        let opening = *self.book.downspout(size)?.opening;
        let sources: Vec<_> = flow.sources.iter().map(|(plane, area)| (*plane, *area)).collect();
        let comes = (self.counted(&sources)? + walls) * self.rain.in_per_h();
        let rating = Area::from_ft2(per_in2 * opening.in2());
        Ok(SpoutBearing { catchment: flow.catchment(), walls, serves, load: Load { comes, rating } })
    }

    /// Length of gutter that runs to each downspout.
    fn serves(&self, gutter: GutterId, hung: &HungGutter) -> Vec<Length> {
        self.of_legs(gutter, hung, |[from, to], _| to - from)
    }

    /// The longer of the two lengths that fall to each downspout from its sides.
    fn ways(&self, gutter: GutterId, hung: &HungGutter) -> Vec<Length> {
        self.of_legs(gutter, hung, |[from, to], at| (at - from).max(to - at))
    }

    /// A length of each downspout, from the stretch it serves and its place.
    fn of_legs(
        &self,
        gutter: GutterId,
        hung: &HungGutter,
        length: impl Fn([f64; 2], f64) -> f64,
    ) -> Vec<Length> {
        let whole = self.roof.edge(hung.edge).plan_length.m();
        let mut lengths = vec![Length::ZERO; hung.downspouts.len()];
        for leg in legs(hung, gutter) {
            let index = leg.downspout.index;
            let at = hung.downspouts[index].at.m();
            lengths[index] = Length::from_m(length(leg.span.map(|end| end.clamp(0.0, whole)), at));
        }
        lengths
    }

    fn rating(&self, hung: &HungGutter) -> Result<Area, LookupError> {
        let drains = &self.book.gutter(&hung.kind)?.drains;
        let least = &drains[0];
        let below = drains.iter().rev().find(|d| *d.fall <= hung.fall);
        Ok(match below {
            Some(rated) => *rated.area,
            None => *least.area * (hung.fall / *least.fall).sqrt(),
        })
    }

    fn findings(&self, hung: &HungGutter, bearing: &Bearing) -> Result<Vec<Finding>, LookupError> {
        let gutter = bearing.gutter;
        let mut found = self.of_downspouts(hung, bearing)?;
        let amount = bearing.catchment;
        if hung.downspouts.is_empty() {
            let streams = self.water.edge(hung.edge).catchment();
            found.push(Finding::NoDownspout(gutter, streams));
        } else if bearing.load.is_over() {
            found.push(Finding::GutterOverloaded(gutter, amount));
        }
        let least: Length = self.book.rule("gutter.least-fall")?.get()?;
        let most: Length = self.book.rule("gutter.most-fall")?.get()?;
        if hung.fall < least || hung.fall > most {
            found.push(Finding::FallOutOfRange { gutter, is_steep: hung.fall > most, amount });
        }
        let gap: Length = self.book.rule("gutter.wall-gap")?.get()?;
        if self.ends_close_to_wall(hung, gap) {
            found.push(Finding::EndAtWall(gutter, amount));
        }
        found.extend(self.splashes(hung, bearing)?);
        Ok(found)
    }

    fn of_downspouts(&self, hung: &HungGutter, bearing: &Bearing) -> Result<Vec<Finding>, LookupError> {
        let longest: Length = self.book.rule("downspout.longest-run")?.get()?;
        let longest_way: Length = self.book.rule("gutter.longest-way")?.get()?;
        let ways = self.ways(bearing.gutter, hung);
        let mut found = Vec::new();
        for (index, (spout, borne)) in hung.downspouts.iter().zip(&bearing.downspouts).enumerate() {
            let id = DownspoutId { gutter: bearing.gutter, index };
            let amount = borne.catchment;
            if borne.load.is_over() {
                found.push(Finding::DownspoutOverloaded(id, amount));
            }
            if let Discharge::Roof { plane, .. } = spout.to {
                found.push(Finding::DownspoutOntoRoof { downspout: id, onto: plane, amount });
            }
            let at = point_at(self.roof, hung.edge, spout.at);
            let walks = self
                .roof
                .walks
                .iter()
                .enumerate()
                .filter(|(_, walk)| spout.to == Discharge::Ground && wets(walk, at));
            found.extend(walks.map(|(walk, _)| Finding::DownspoutOntoWalk { downspout: id, walk, amount }));
            let serves = (borne.serves > longest).then_some(longest);
            let one_way = (ways[index] > longest_way).then_some(longest_way);
            if serves.or(one_way).is_some() {
                found.push(Finding::RunTooLong { downspout: id, serves, one_way, amount });
            }
        }
        Ok(found)
    }

    /// What the throats of valleys into a gutter ask of it.
    fn splashes(&self, hung: &HungGutter, bearing: &Bearing) -> Result<Vec<Finding>, LookupError> {
        let area = |id: &str| Ok(Area::from_ft2(self.book.rule(id)?.get()?));
        let (guard, larger, split) =
            (area("splash.guard-from")?, area("splash.larger-from")?, area("splash.split-from")?);
        let width: Length = self.book.rule("splash.larger-width")?.get()?;
        let within: Length = self.book.rule("splash.outlet-within")?.get()?;
        let own = *self.book.gutter(&hung.kind)?.width;
        let mut found = Vec::new();
        for throat in &self.water.gutters[bearing.gutter.0].throats {
            let is_valley = |e: &EdgeId| self.roof.edge(*e).kind == EdgeKind::Valley;
            let amount = throat.amount;
            if amount <= guard || !self.roof.node(throat.node).edges.iter().any(is_valley) {
                continue;
            }
            let is_large = amount > larger;
            let asks = Splash {
                wider: (is_large && own < width).then_some(width),
                outlet_within: (is_large && self.nearest_outlet(hung, throat.node) > within)
                    .then_some(within),
                split: amount > split,
            };
            found.push(Finding::SplashOver { gutter: bearing.gutter, at: throat.node, asks, amount });
        }
        Ok(found)
    }

    /// From an end of the eave to the nearest outlet.
    fn nearest_outlet(&self, hung: &HungGutter, node: NodeId) -> Length {
        let edge = self.roof.edge(hung.edge);
        let end = if edge.from == node { Length::ZERO } else { edge.plan_length };
        let away = hung.downspouts.iter().map(|d| (d.at - end).abs());
        away.fold(edge.plan_length, Length::min)
    }

    /// Whether an end of a gutter runs toward a wall of another block and stops short of it by less than a gap.
    fn ends_close_to_wall(&self, hung: &HungGutter, gap: Length) -> bool {
        let [from, to] = self.roof.ends(hung.edge);
        let z = height_of(self.roof, hung.edge);
        let block = &self.roof.plane(self.roof.edge(hung.edge).planes[0]).block;
        let walls: Vec<_> =
            (self.roof.walls.iter()).filter(|w| !w.open && w.block != *block && w.plate.m() > z).collect();
        [[from, to], [to, from]].iter().any(|[inner, end]| {
            let (inner, end) = (flat(*inner), flat(*end));
            let out = unit(inner, end);
            walls.iter().any(|wall| {
                let Some(at) = line_crossing(end, out, wall.from, sub(wall.to, wall.from)) else {
                    return false;
                };
                let ahead = roof::plan::dot(sub(at, end), out);
                let stops = ahead + hung.wall_gap.m();
                let (off, _) = roof::plan::to_segment(along(end, out, ahead), wall.from, wall.to);
                off <= AT_WALL && ahead > -AT_WALL && stops < gap.m() - AT_WALL
            })
        })
    }
}

/// An eave that ends this close to a wall ends at it, metres: points of a roof are one within 0.5 mm.
const AT_WALL: f64 = 0.0005;
