//! Which drops are worth following on paper.

use roof::Roof;
use roof::plan::{P2, distance, flat};

use crate::finding::Finding;
use crate::flow::Water;
use crate::hang::HungGutter;
use crate::route::Router;
use crate::spot::passes;
use crate::trace::Path;

/// Drops tried along the longer side of the house.
const TRIED: u32 = 24;

impl Path {
    /// The way on the plan, part by part.
    pub fn on_plan(&self) -> Vec<[P2; 2]> {
        self.steps.iter().map(|step| [flat(step.from), flat(step.to)]).collect()
    }

    fn length(&self) -> f64 {
        self.on_plan().iter().map(|[a, b]| distance(*a, *b)).sum()
    }
}

impl Water {
    /// The ways of a few drops that are worth seeing, of those that fall on an even grid over the house: the one with the longest way,
    /// and for each finding in turn the longest that comes to its spot, unless one does already. Gutters catch none of them.
    pub fn telling_drops(
        roof: &Roof,
        findings: &[Finding],
        gutters: &[HungGutter],
        most: usize,
    ) -> Vec<Path> {
        let (drops, step) = grid(roof);
        let router = Router::of(roof);
        let mut paths: Vec<Path> = drops.iter().filter_map(|p| router.trace(*p)).collect();
        paths.sort_by(|a, b| b.length().total_cmp(&a.length()));
        let mut told: Vec<&Path> = paths.iter().take(1).collect();
        for finding in findings {
            let spot = finding.spot(roof, gutters);
            let comes = |path: &&Path| passes(&path.on_plan(), spot, step);
            if !told.iter().any(comes) {
                told.extend(paths.iter().find(comes));
            }
        }
        told.into_iter().take(most).cloned().collect()
    }
}

/// Points over the house, each in the middle of a square, and how far apart they lie.
fn grid(roof: &Roof) -> (Vec<P2>, f64) {
    let corners: Vec<P2> = roof.planes.iter().flat_map(|plane| &plane.outline).map(|p| flat(*p)).collect();
    let least = |i: usize| corners.iter().map(|p| p[i]).fold(f64::INFINITY, f64::min);
    let most = |i: usize| corners.iter().map(|p| p[i]).fold(f64::NEG_INFINITY, f64::max);
    let size = [most(0) - least(0), most(1) - least(1)];
    let step = size[0].max(size[1]) / f64::from(TRIED);
    let place = |i: usize, n: u32| least(i) + step * (f64::from(n) + 0.5);
    let all = (0..TRIED).flat_map(|row| (0..TRIED).map(move |column| [column, row]));
    let on = all.map(|[column, row]| [place(0, column), place(1, row)]);
    (on.filter(|p| p[0] < most(0) && p[1] < most(1)).collect(), step)
}

#[cfg(test)]
mod tests {
    use book::Book;
    use job::Job;

    use super::*;
    use crate::{OutletKind, Way};

    fn cross_gable() -> Roof {
        let books = Book::builtin();
        let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &books).unwrap();
        Roof::of(&job, &books).unwrap()
    }

    #[test]
    fn longest_way_on_the_cross_gable_goes_down_a_valley_and_over_the_porch() {
        let roof = cross_gable();
        let findings = Water::of(&roof).findings(&roof);
        let drops = Water::telling_drops(&roof, &findings, &[], 4);
        let first = &drops[0];
        assert!(
            first.steps.iter().any(|s| matches!(s.way, Way::Falls(p) if roof.plane(p).name == "porch S"))
        );
        assert!(matches!(first.end, OutletKind::OffEnd(_)));
        for finding in &findings {
            let spot = finding.spot(&roof, &[]);
            assert!(drops.iter().any(|d| passes(&d.on_plan(), spot, 0.55)), "{finding:?} is seen");
        }
    }

    #[test]
    fn roof_without_planes_has_no_drops() {
        let roof = Roof {
            planes: vec![],
            edges: vec![],
            nodes: vec![],
            walls: vec![],
            openings: vec![],
            crickets: vec![],
            walks: vec![],
            windows: vec![],
            passages: vec![],
            warnings: vec![],
        };
        assert_eq!(Water::telling_drops(&roof, &[], &[], 3), vec![]);
    }
}
