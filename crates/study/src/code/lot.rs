//! Eaves and rakes near the lot line.

use std::cmp::Ordering;

use measure::Length;
use roof::plan::{dot, flat, midpoint, outward, sub, to_segment, unit};
use roof::{Edge, EdgeKind, Roof, Wall};

use super::desk::{Ask, Desk, because, input, length, of_job};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};

/// An edge this near to where a wall's overhang ends is that overhang's, metres: walls are trued up by up to 1/4 in.
const NEAR: f64 = 0.02;

impl Desk<'_> {
    /// Every wall whose distance to the lot line was written down, with what reaches out over it.
    pub(super) fn lot_lines(&mut self) {
        let clause = &self.edition.lot_line;
        let ask = Ask {
            part: Part::LotLine,
            rule: "lot_line",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "what reaches out over a wall keeps {} off the lot line; less than {} off, its underside resists fire for an hour and its vents are limited",
                clause.none_within.text(),
                clause.rated_within.text()
            ),
        };
        let (roof, job) = (self.roof, self.job);
        let walls = job.walls.iter().flat_map(|(block, walls)| {
            walls.lot_line.iter().filter_map(move |(side, away)| Some((roof.wall(block, *side)?, *away)))
        });
        let walls = walls.filter(|(wall, _)| reaches_out(roof, wall));
        for (wall, away) in walls {
            self.near_lot_line(&ask, wall, away);
        }
        if !self.asks(ask.rule) {
            self.unasked(
                &clause.clause,
                "eaves near the lot line",
                "no walls.NAME.lot_line is written; measure it where it is near",
            );
        }
    }

    fn near_lot_line(&mut self, ask: &Ask<'_>, wall: &Wall, away: Length) {
        let clause = &self.edition.lot_line;
        let left = (away - wall.overhang).max(Length::ZERO);
        let least = Demand::AtLeast(Figure::Length(*clause.none_within));
        // as good as the limit is the limit: a hair of the arithmetic must not turn one verdict into another
        let reaches =
            |limit: Length| Figure::Length(left).compare(Figure::Length(limit)) != Some(Ordering::Less);
        let is_between = reaches(*clause.none_within) && !reaches(*clause.rated_within);
        let held = if is_between {
            Held::Missing(
                "whether its underside is rated for an hour, and where its vents may be: the official"
                    .to_owned(),
            )
        } else {
            length(left)
        };
        let inputs = [
            input("wall to lot line", Figure::Length(away).written(self.units())),
            input("overhang", Figure::Length(wall.overhang).written(self.units())),
        ];
        let said = because("as measured", inputs, "from the edge of the roof to the lot line", &of_job());
        self.one(ask, format!("{} {}", wall.block, wall.side), Check::new("", least, None, held), vec![said]);
    }
}

/// Whether the roof ends in the open along a wall: an eave or a rake runs there as far out as its overhang.
fn reaches_out(roof: &Roof, wall: &Wall) -> bool {
    let out = outward(unit(wall.from, wall.to));
    let middle = |edge: &Edge| midpoint(flat(roof.node(edge.from).at), flat(roof.node(edge.to).at));
    let is_out = |edge: &&Edge| {
        let (off, part) = to_segment(middle(edge), wall.from, wall.to);
        let side = dot(sub(middle(edge), wall.from), out);
        part > 0.0 && part < 1.0 && (off - wall.overhang.m()).abs() < NEAR && side >= -NEAR
    };
    let is_free = |edge: &&Edge| matches!(edge.kind, EdgeKind::Eave | EdgeKind::Rake | EdgeKind::HighEave);
    roof.edges.iter().filter(is_free).any(|edge| is_out(&edge))
}
