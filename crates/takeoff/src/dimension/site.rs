//! Where an opening stands on its plane, as it is chalked: down from what is above it, and across from a rake or a wall.

use job::OpeningKind;
use measure::Length;
use roof::plan::{P2, cross, flat, sub};
use roof::{EdgeId, EdgeKind, PlacedOpening, Roof};

use super::{Bench, Dimension, Size, dimension};
use crate::openings::sizes;

/// Straight across the fall nothing is measured to an edge that is met at its very end, metres.
const HAIR: f64 = 1e-9;

impl Bench<'_, '_> {
    /// From the top of the opening up the slope, and from its near side across; round things from their centre.
    pub(super) fn chalked(&self, placed: &PlacedOpening) -> Vec<Dimension> {
        let plane = self.case.roof.plane(placed.plane);
        let fall = match plane.fall() {
            [0.0, 0.0] => return Vec::new(),
            fall => fall,
        };
        let is_framed = matches!(placed.kind, OpeningKind::Chimney | OpeningKind::Skylight);
        let [across, along] = sizes(placed).map(|size| if is_framed { size * 0.5 } else { Length::ZERO });
        let (top, side) = if is_framed { ("top", "near side") } else { ("centre", "centre") };
        let [up, left, right] = [fall.map(|part| -part), [-fall[1], fall[0]], [fall[1], -fall[0]]]
            .map(|way| met(self.case.roof, placed, way));
        let above = up.map(|(edge, far)| {
            let far = Length::from_m(far) * plane.pitch.slope_factor() - along;
            let what = format!("{top}, down the slope from {}", self.named(edge));
            let rule = "straight up the slope from the middle of it, less half its size where it is framed";
            (edge, what, far, rule)
        });
        // a rake or a wall stands straight up the slope; hips and valleys run aside
        let is_straight = |(edge, _): &(EdgeId, f64)| {
            let kind = self.case.roof.edge(*edge).kind;
            matches!(kind, EdgeKind::Rake) || kind.is_wall()
        };
        let nearest = left
            .into_iter()
            .chain(right)
            .min_by(|a, b| is_straight(b).cmp(&is_straight(a)).then(a.1.total_cmp(&b.1)));
        let beside = nearest.map(|(edge, far)| {
            let what = format!("{side}, across from {}", self.named(edge));
            let rule = "level across the slope from the middle of it, less half its size where it is framed";
            (edge, what, Length::from_m(far) - across, rule)
        });
        let measured = |(edge, what, far, rule): (EdgeId, String, Length, &str)| {
            let one = dimension(what, Size::Length(far), Vec::new(), rule);
            let is_assumed = self.case.assumed.touches(crate::assumed::Of::Length(edge));
            Dimension { is_assumed, ..one }
        };
        above.into_iter().chain(beside).filter(|(_, _, far, _)| *far >= Length::ZERO).map(measured).collect()
    }

    fn named(&self, edge: EdgeId) -> String {
        format!("edge {}, {}", edge.number(), self.case.roof.edge(edge).kind.name())
    }
}

/// The first edge of its plane straight from the middle of an opening in a direction, and how far it is in plan.
fn met(roof: &Roof, placed: &PlacedOpening, way: P2) -> Option<(EdgeId, f64)> {
    let from = flat(placed.at);
    let on = |edge: &EdgeId| {
        let [a, b] = roof.ends(*edge).map(flat);
        let (gap, run) = (sub(a, from), sub(b, a));
        let turn = cross(way, run);
        let (far, along) = (cross(gap, run) / turn, cross(gap, way) / turn);
        (far > 0.0 && (-HAIR..=1.0 + HAIR).contains(&along)).then_some((*edge, far))
    };
    roof.plane(placed.plane).edges.iter().filter_map(on).min_by(|a, b| a.1.total_cmp(&b.1))
}
