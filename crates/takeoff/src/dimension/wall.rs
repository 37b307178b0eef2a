//! Dimensions where roof meets wall.

use book::{Book, CLADDING, Detail, Layer, Look, LookupError, Material, Spot, Stands};
use detail::Place;
use measure::Length;
use roof::{Edge, EdgeId};

use super::{Bench, Dimension, Size, dimension, reach};
use crate::case::Ruled;
use crate::line::{input, packages, whole};
use crate::steps::{courses, up_the_slope};

const PLUMB: &str = "siding cut, plumb above the deck";

impl Bench<'_, '_> {
    pub(super) fn wall(
        &self,
        id: EdgeId,
        edge: &Edge,
        place: &Place,
        detail: &Detail,
    ) -> Result<Vec<Dimension>, LookupError> {
        let mut all = Vec::new();
        if place.spot == Spot::Sidewall {
            all.extend(self.steps(id, edge)?);
        } else {
            let end: Ruled<Length> = self.case.rule("headwall.end-return")?;
            let size = Size::Length(edge.length + end.value * 2.0);
            all.push(self.on_edge(
                id,
                "apron with its returns",
                size,
                vec![end.input()],
                "length + a return at each end",
            ));
        }
        all.extend(self.cut(id, edge, place, detail));
        all.extend(self.sills(id, detail)?);
        Ok(all)
    }

    /// Windows above the edge: how high their sills are, and how far up under them anything may be slipped in behind the siding.
    fn sills(&self, id: EdgeId, detail: &Detail) -> Result<Vec<Dimension>, LookupError> {
        let (leg, clear): (Ruled<Length>, Ruled<Length>) =
            (self.case.rule("sill.leg")?, self.case.rule("sill.clear")?);
        let loosened = opened(detail, self.case.book);
        let windows = self.case.roof.windows.iter().filter(|window| window.edge == id);
        let told = windows.flat_map(|window| {
            let what = format!("sill of `{}` above the roof", window.name);
            let sill = dimension(what, Size::Length(window.sill), Vec::new(), "as measured");
            let room = window.sill - clear.value;
            let size = if room < leg.value {
                Size::Refused(
                    "up under the sill pan: the sill is too low for the leg, which is not cut shorter",
                )
            } else {
                Size::Length(room)
            };
            let reaches = loosened.is_some_and(|up| up > room);
            let under = reaches.then(|| {
                let inputs =
                    vec![input("sill", self.case.words.tape(window.sill)), clear.input(), leg.input()];
                let what = format!("flashing behind the siding under `{}`, at most up to", window.name);
                dimension(what, size, inputs, "sill − clear of it, the leg's least height kept")
            });
            std::iter::once(sill).chain(under)
        });
        Ok(told.collect())
    }

    fn steps(&self, id: EdgeId, edge: &Edge) -> Result<Vec<Dimension>, LookupError> {
        let exposure = self.case.job.covering.exposure.value;
        let extra: Ruled<f64> = self.case.rule("step-flashing.extra")?;
        let over: Ruled<Length> = self.case.rule("step-flashing.over-exposure")?;
        let up = up_the_slope(self.case.roof, edge);
        let count = courses(up, exposure) + whole(extra.value);
        let inputs = vec![
            input("up the slope", self.case.words.run(up)),
            input("exposure", self.case.words.tape(exposure)),
            extra.input(),
        ];
        let rule = "one for each course that ends at the wall, the lowest on the kick-out";
        let count = self.on_edge(id, "step pieces", Size::Count(count), inputs, rule);
        let inputs = vec![input("exposure", self.case.words.tape(exposure)), over.input()];
        let long = self.on_edge(
            id,
            "step piece, length at least",
            Size::Length(exposure + over.value),
            inputs,
            "exposure + headlap",
        );
        let is_assumed = self.case.assumed("all planes", &self.case.job.covering.exposure).is_some();
        Ok([count, long].map(|one| Dimension { is_assumed: one.is_assumed || is_assumed, ..one }).into())
    }

    /// Where the siding is sawn.
    fn cut(&self, id: EdgeId, edge: &Edge, place: &Place, detail: &Detail) -> Vec<Dimension> {
        let is_siding = |material: &Material| material.id == CLADDING || material.clads.is_some();
        let is_board = |material: &Material| material.drawn == Look::Band;
        let [cut, clear] =
            [lowest(detail, self.case.book, is_siding), lowest(detail, self.case.book, is_board)];
        let Some((cut, clear)) = cut.zip(clear) else { return Vec::new() };
        // cut across the fall, the section's wall is measured square to the slope; at the top of a roof it is plumb
        let is_beside = place.spot == Spot::Sidewall;
        let factor = if is_beside { self.case.roof.plane(edge.planes[0]).pitch.slope_factor() } else { 1.0 };
        let loosened = opened(detail, self.case.book);
        let what = if is_beside { "siding cut, square to the deck" } else { PLUMB };
        let mut all = vec![self.on_edge(
            id,
            what,
            Size::Length(cut),
            Vec::new(),
            "where the siding begins in the section",
        )];
        if is_beside {
            let inputs = vec![
                input("square to the deck", self.case.words.tape(cut)),
                input("slope factor", format!("{factor:.4}")),
            ];
            all.push(self.on_edge(id, PLUMB, Size::Length(cut * factor), inputs, "square × slope factor"));
        }
        all.push(self.on_edge(
            id,
            "lowest board clear of the deck",
            Size::Length(clear),
            Vec::new(),
            "where the lowest board begins in the section",
        ));
        all.extend(loosened.map(|up| {
            let rule = "as high as anything reaches up behind the siding in the section";
            self.on_edge(id, "siding off or loosened, up to", Size::Length(up), Vec::new(), rule)
        }));
        let walls = edge.wall_of.as_ref().and_then(|block| self.case.job.walls.get(block));
        if let Some(exposure) = walls.and_then(|walls| walls.exposure) {
            let rise = edge.plan_length * edge.slope.abs();
            let up = loosened.map_or(cut, |up| up.max(cut)) * factor;
            let inputs = vec![
                input("rise along the wall", self.case.words.inches(rise)),
                input("height, plumb, to which it is cut or loosened", self.case.words.tape(up)),
                input("exposure of the siding", self.case.words.tape(exposure)),
            ];
            let count = Size::Count(packages((rise + up).m(), exposure.m()));
            all.push(self.on_edge(
                id,
                "courses of siding cut, loosened or taken off",
                count,
                inputs,
                "(rise + that height) ÷ exposure, rounded up",
            ));
        }
        all
    }
}

/// How high up the wall the siding must come off or be loosened: as high as what is slipped in behind it reaches.
fn opened(detail: &Detail, book: &Book) -> Option<Length> {
    let wall = detail.faces.iter().find(|face| face.stands == Stands::Upright)?;
    let is_behind =
        |layer: &&Layer| book.material(&layer.material).is_ok_and(|material| material.drawn != Look::Band);
    let tops = detail.layers.iter().filter(is_behind).filter_map(|layer| reach(detail, layer, &wall.name));
    tops.map(|[_, to]| to).filter(|to| *to < *wall.shown).reduce(Length::max)
}

/// How far above the joint the lowest layer that looks so begins on the wall.
fn lowest(detail: &Detail, book: &Book, is_meant: impl Fn(&Material) -> bool) -> Option<Length> {
    let wall = &detail.faces.iter().find(|face| face.stands == Stands::Upright)?.name;
    let meant = |layer: &&Layer| book.material(&layer.material).is_ok_and(&is_meant);
    let starts = detail.layers.iter().filter(meant).filter_map(|layer| reach(detail, layer, wall));
    starts.map(|[from, _]| from).reduce(Length::min)
}
