//! Which drops are worth following on paper.

use roof::Roof;
use roof::plan::{P2, distance, flat};

use crate::judge::Drainage;
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

impl Drainage {
    /// The ways of a few drops that are worth seeing, of those that fall on an even grid over the house: the one with the longest way,
    /// and for each finding in turn the longest that comes to its spot, unless one does already. They go through gutters and downspouts.
    pub fn telling_drops(&self, roof: &Roof, most: usize) -> Vec<Path> {
        let (drops, step) = grid(roof);
        let router = Router::with(roof, &self.gutters, &self.blocked);
        let mut paths: Vec<Path> = drops.iter().filter_map(|p| router.trace(*p)).collect();
        paths.sort_by(|a, b| b.length().total_cmp(&a.length()));
        let mut told: Vec<&Path> = paths.iter().take(1).collect();
        for finding in &self.findings {
            let spot = finding.spot(roof, &self.gutters);
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
    use crate::{OutletKind, Part, Way, hang};

    fn cross_gable(blocked: impl Fn(usize) -> Option<Part>, is_hung: bool) -> (Roof, Drainage) {
        let books = Book::builtin();
        let (job, _) = Job::read(include_str!("../../../examples/cross-gable.toml"), &books).unwrap();
        let roof = Roof::of(&job, &books).unwrap();
        let gutters = if is_hung { hang(&roof, &job.gutters, job.units).unwrap() } else { vec![] };
        let blocked: Vec<Part> = (0..gutters.len()).filter_map(blocked).collect();
        let drainage = Drainage::of(&roof, &gutters, &blocked, job.site.rain.value, &books).unwrap();
        (roof, drainage)
    }

    #[test]
    fn longest_way_on_the_cross_gable_goes_down_a_valley_and_over_the_porch() {
        let (roof, drainage) = cross_gable(|_| None, false);
        let drops = drainage.telling_drops(&roof, 4);
        let first = &drops[0];
        assert!(
            first.steps.iter().any(|s| matches!(s.way, Way::Falls(p) if roof.plane(p).name == "porch S"))
        );
        assert!(matches!(first.end, OutletKind::OffEnd(_)));
        for finding in &drainage.findings {
            let spot = finding.spot(&roof, &[]);
            assert!(drops.iter().any(|d| passes(&d.on_plan(), spot, 0.55)), "{finding:?} is seen");
        }
    }

    #[test]
    fn drops_run_along_gutters_that_hang_and_over_those_that_are_blocked() {
        let is_in_gutter = |drainage: &Drainage, roof: &Roof| {
            let drops = drainage.telling_drops(roof, 4);
            drops.iter().flat_map(|drop| &drop.steps).any(|step| matches!(step.way, Way::Gutter(_)))
        };
        let (roof, hung) = cross_gable(|_| None, true);
        assert!(is_in_gutter(&hung, &roof));
        let (roof, blocked) = cross_gable(|i| Some(Part::Gutter(crate::GutterId(i))), true);
        assert!(!is_in_gutter(&blocked, &roof));
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
        let (_, bare) = cross_gable(|_| None, false);
        let nothing = Drainage { findings: vec![], ..bare };
        assert_eq!(nothing.telling_drops(&roof, 3), vec![]);
    }
}
