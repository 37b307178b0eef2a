//! What an edge and a node are, from geometry alone.
//!
//! All tests are made in plan. `n` points from the plane in question out over the edge; `d = rise . n` is how fast the plane climbs
//! towards the edge. Two planes make a convex line where the climb lessens over it and a concave one where it grows.
//!
//! # Source
//! Definitions of eave, rake, ridge, hip, valley, headwall and sidewall as the trade uses them (common practice). Limits: an edge is
//! level below 2 % of fall along it; it runs along the fall within 2 degrees (common practice).

use crate::model::{EdgeKind, NodeKind};
use crate::plan::{P2, Rise, dot, outward, scale};
use crate::surface::SAME_SLOPE;

/// Fall along an edge below which it is level.
pub const LEVEL: f64 = 0.02;
/// Sine of the angle within which an edge runs along the fall: 2 degrees.
pub const ALONG_FALL: f64 = 0.035;

/// Cosine beyond which a line runs as its two planes meet: 60 degrees.
const ACROSS: f64 = 0.5;

/// Difference in climb below which two planes climb alike.
const ALIKE: f64 = 1e-6;

/// An edge as seen from one plane: direction with that plane on the left.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    pub(crate) direction: P2,
    pub(crate) rise: Rise,
}

impl Line {
    fn gradient(&self) -> P2 {
        [self.rise[0], self.rise[1]]
    }

    /// How steep the plane is.
    fn steepness(&self) -> f64 {
        self.rise[0].hypot(self.rise[1])
    }

    /// Climb of the plane towards the edge.
    fn climb(&self) -> f64 {
        dot(self.gradient(), outward(self.direction))
    }

    /// Climb of another plane going on in the same direction.
    fn climb_of(&self, other: Rise) -> f64 {
        dot([other[0], other[1]], outward(self.direction))
    }

    fn is_level(&self) -> bool {
        let along = dot(self.gradient(), self.direction).abs();
        along < LEVEL.min(0.25 * self.steepness()) || along < 1e-9
    }

    /// Part of the fall that points out over the edge, -1 to 1.
    fn fall_outwards(&self) -> f64 {
        let m = self.steepness();
        if m > 0.0 { -self.climb() / m } else { 0.0 }
    }

    /// The same line in the direction in which the two planes meet: the ends of a short one say little about it, being known no better
    /// than points are merged. `beyond` leads from this plane
    /// to the other: where the line lies across that direction it tells the sides apart.
    fn straightened(self, other: Rise, beyond: P2) -> Self {
        let turn = [self.rise[0] - other[0], self.rise[1] - other[1]];
        let by = turn[0].hypot(turn[1]);
        if by < SAME_SLOPE {
            return self;
        }
        let outwards = dot(turn, outward(self.direction)) / by;
        let is_convex = if outwards.abs() > ACROSS { outwards > 0.0 } else { dot(turn, beyond) > 0.0 };
        let out = scale(turn, if is_convex { 1.0 } else { -1.0 } / by);
        Self { direction: [-out[1], out[0]], ..self }
    }

    /// The kind of a line shared with another plane. `beyond` leads roughly from this one to it.
    pub(crate) fn shared_kind(self, other: Rise, beyond: P2) -> EdgeKind {
        let line = self.straightened(other, beyond);
        let (own, next) = (line.climb(), line.climb_of(other));
        let level = line.is_level();
        let turns_over = own > -ALONG_FALL * self.steepness() && next < ALONG_FALL * other[0].hypot(other[1]);
        let turns_under =
            own < ALONG_FALL * self.steepness() && next > -ALONG_FALL * other[0].hypot(other[1]);
        // planes that climb alike meet only by a step too low to matter, where either answer would be chance
        match (own - next > ALIKE, level) {
            (true, true) if turns_over => EdgeKind::Ridge,
            (true, false) if turns_over => EdgeKind::Hip,
            (true, _) => EdgeKind::PitchBreakConvex,
            (false, true) if turns_under => EdgeKind::LevelValley,
            (false, false) if turns_under => EdgeKind::Valley,
            (false, _) => EdgeKind::PitchBreakConcave,
        }
    }

    /// The kind of a line along a wall.
    pub(crate) fn wall_kind(&self) -> EdgeKind {
        let outwards = self.fall_outwards();
        match () {
            () if outwards.abs() < ALONG_FALL => EdgeKind::Sidewall,
            () if self.is_level() && outwards < 0.0 => EdgeKind::Headwall,
            () if self.is_level() => EdgeKind::BackWall,
            () => EdgeKind::SkewWall,
        }
    }

    /// The kind of a free line.
    pub(crate) fn free_kind(&self) -> EdgeKind {
        let outwards = self.fall_outwards();
        match () {
            () if outwards.abs() < ALONG_FALL => EdgeKind::Rake,
            () if self.is_level() && outwards > 0.0 => EdgeKind::Eave,
            () if self.is_level() => EdgeKind::HighEave,
            () if outwards > 0.0 => EdgeKind::SkewRake,
            () => EdgeKind::Rake,
        }
    }

    /// Whether another plane falls nearly the same way.
    pub(crate) fn falls_with(&self, other: Rise) -> bool {
        let m = self.steepness() * other[0].hypot(other[1]);
        m > 0.0 && dot(self.gradient(), [other[0], other[1]]) > 0.9 * m
    }
}

/// One edge at a node: its kind, and whether the node is its low end, its high end, or (level) either.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum End {
    Low,
    High,
    Level,
}

/// What a node is, from the ends of the edges that meet there. `turns_inwards` says whether two eaves at it make an inside corner.
pub(crate) fn node_kind(ends: &[(EdgeKind, End)], turns_inwards: bool) -> NodeKind {
    use EdgeKind as K;
    let has = |kinds: &[EdgeKind]| ends.iter().any(|(k, _)| kinds.contains(k));
    let has_end = |kinds: &[EdgeKind], end: End| ends.iter().any(|(k, e)| kinds.contains(k) && *e == end);
    let lets_go = [K::Eave, K::SkewRake];
    let walls = [K::Sidewall, K::Headwall, K::SkewWall, K::BackWall, K::Step];
    let wall_count = ends.iter().filter(|(k, _)| k.is_wall()).count();
    match () {
        () if has_end(&[K::Valley], End::Low) && has(&lets_go) => NodeKind::ValleyThroat,
        () if has_end(&[K::Valley], End::Low)
            && !has_end(&[K::Valley, K::Hip], End::High)
            && !has(&[K::Ridge]) =>
        {
            NodeKind::ValleyDeadEnd
        }
        () if has_end(&[K::Sidewall, K::SkewWall, K::Step], End::Low) && has(&lets_go) => NodeKind::WallFoot,
        () if wall_count >= 2 => NodeKind::WallCorner,
        () if has(&walls) => NodeKind::WallTop,
        () if has_end(&[K::Hip], End::Low) && has(&lets_go) => NodeKind::HipFoot,
        () if has(&[K::Ridge, K::Hip, K::Valley, K::LevelValley])
            && !has(&[K::Rake, K::HighEave, K::Eave]) =>
        {
            NodeKind::Peak
        }
        () if has(&[K::Ridge]) && has(&[K::Rake]) => NodeKind::GableTop,
        () if has(&lets_go) && has(&[K::Rake, K::HighEave]) => NodeKind::EaveEnd,
        () if has(&lets_go) && turns_inwards => NodeKind::InsideCorner,
        () if has(&lets_go) => NodeKind::OutsideCorner,
        () if has(&[K::Rake, K::HighEave]) => NodeKind::HighCorner,
        () => NodeKind::Other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOUTH_6: Rise = [0.0, 0.5, 0.0];
    const NORTH_6: Rise = [0.0, -0.5, 10.0];
    const WEST_9: Rise = [0.75, 0.0, 0.0];

    fn line(direction: P2, rise: Rise) -> Line {
        Line { direction, rise }
    }

    #[test]
    fn gable_planes_meet_in_a_ridge() {
        assert_eq!(line([-1.0, 0.0], SOUTH_6).shared_kind(NORTH_6, [0.0, 1.0]), EdgeKind::Ridge);
    }

    #[test]
    fn planes_falling_towards_each_other_meet_in_a_valley() {
        // south plane ends on a line running up to the north-east, beyond it a plane falling west
        let d = [0.554_700_196, 0.832_050_294];
        assert_eq!(line(d, SOUTH_6).shared_kind(WEST_9, [1.0, 1.0]), EdgeKind::Valley);
    }

    #[test]
    fn steeper_plane_below_a_flatter_one_is_a_convex_pitch_break() {
        assert_eq!(
            line([-1.0, 0.0], [0.0, 2.0, 0.0]).shared_kind([0.0, 0.5, 3.0], [1.0, 1.0]),
            EdgeKind::PitchBreakConvex
        );
        assert_eq!(
            line([-1.0, 0.0], [0.0, 0.25, 0.0]).shared_kind([0.0, 0.5, 0.0], [1.0, 1.0]),
            EdgeKind::PitchBreakConcave
        );
    }

    #[test]
    fn free_edges_of_a_south_plane_by_side() {
        assert_eq!(line([1.0, 0.0], SOUTH_6).free_kind(), EdgeKind::Eave);
        assert_eq!(line([0.0, 1.0], SOUTH_6).free_kind(), EdgeKind::Rake);
        assert_eq!(line([-1.0, 0.0], SOUTH_6).free_kind(), EdgeKind::HighEave);
        assert_eq!(line([0.8, -0.6], SOUTH_6).free_kind(), EdgeKind::SkewRake);
    }

    #[test]
    fn walls_along_a_south_plane_by_side() {
        assert_eq!(line([1.0, 0.0], SOUTH_6).wall_kind(), EdgeKind::BackWall);
        assert_eq!(line([0.0, 1.0], SOUTH_6).wall_kind(), EdgeKind::Sidewall);
        assert_eq!(line([-1.0, 0.0], SOUTH_6).wall_kind(), EdgeKind::Headwall);
        assert_eq!(line([0.8, 0.6], SOUTH_6).wall_kind(), EdgeKind::SkewWall);
    }
}
