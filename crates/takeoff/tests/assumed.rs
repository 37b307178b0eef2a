//! Which figures rest on a reading that nobody took, held against the roof built again with that reading changed: what moves
//! with it is marked, and in plain cases nothing else is.

mod jobs;

use job::{Basis, Job, Overhang};
use jobs::{BOOKS, CROSS_GABLE, HIP_SPLIT_LEVEL, changed};
use measure::Length;
use roof::plan::{distance, flat, midpoint};
use roof::{Edge, EdgeId, Plane, PlaneId, Roof};
use takeoff::{Assumed, Of};

/// What moves more than this did not stay, metres or square metres.
const STAYS: f64 = 1e-6;

/// The job with every assumed overhang and plate taken longer.
fn longer(job: &Job, by: Length) -> Job {
    let mut job = job.clone();
    let is_assumed = |basis: &Basis| matches!(basis, Basis::Assumed { .. });
    for edge in job.blocks.iter_mut().flat_map(|block| block.edges.iter_mut().flatten()) {
        if is_assumed(&edge.plate.basis) {
            edge.plate.value += by;
        }
        if let Overhang::Run(run) = &mut edge.overhang
            && is_assumed(&run.basis)
        {
            run.value += by;
        }
    }
    job
}

/// A window stands over a roof, which may come off its wall where a reading changes.
fn without_windows(document: &str) -> String {
    let Some((before, window)) = document.split_once("[[window]]") else { return document.to_owned() };
    let end = window.find("\n[[").unwrap_or(window.len());
    format!("{before}{}", &window[end..])
}

/// A roof as the readings gave it, and with the untaken readings changed.
struct Both {
    assumed: Assumed,
    taken: Roof,
    moved: Roof,
}

impl Both {
    fn of(document: &str) -> Self {
        let (job, _) =
            Job::read(&without_windows(document), &BOOKS).unwrap_or_else(|problems| panic!("{problems:#?}"));
        let roof = |job: &Job| Roof::of(job, &BOOKS).unwrap_or_else(|problems| panic!("{problems:#?}"));
        let (taken, moved) = (roof(&job), roof(&longer(&job, Length::from_in(0.25))));
        Self { assumed: Assumed::of(&taken, &job, &BOOKS), taken, moved }
    }

    /// Figures as taken and as moved, by name.
    fn figures(&self) -> Vec<(Of, String, [f64; 2])> {
        let mut figures = Vec::new();
        for (i, edge) in self.taken.edges.iter().enumerate() {
            let other = self.counterpart(EdgeId(i));
            let name = format!("{} {}", edge.kind.name(), planes(&self.taken, edge).join("/"));
            figures.push((Of::Length(EdgeId(i)), name, [edge.length.m(), other.length.m()]));
        }
        for (i, (a, b)) in self.taken.planes.iter().zip(&self.moved.planes).enumerate() {
            let (id, top) = (PlaneId(i), [top(a), top(b)]);
            figures.push((Of::Area(id), a.name.clone(), [a, b].map(|plane| plane.slope_area.m2())));
            figures.push((Of::Height(id), format!("{}, height", a.name), top));
        }
        figures
    }

    /// The edge of the moved roof that is nearest among those of one kind between the same planes.
    fn counterpart(&self, id: EdgeId) -> &Edge {
        let edge = self.taken.edge(id);
        let middle =
            |roof: &Roof, edge: &Edge| midpoint(flat(roof.node(edge.from).at), flat(roof.node(edge.to).at));
        let off = |other: &&Edge| distance(middle(&self.moved, other), middle(&self.taken, edge));
        let alike = |other: &&Edge| {
            other.kind == edge.kind && planes(&self.moved, other) == planes(&self.taken, edge)
        };
        let alike = self.moved.edges.iter().filter(alike);
        alike.min_by(|a, b| off(a).total_cmp(&off(b))).expect("the change is too large to compare edges")
    }

    /// Names of marked figures; panics where one that is not marked moves.
    fn marked(&self) -> Vec<String> {
        let is_marked = |(of, name, [a, b]): &(Of, String, [f64; 2])| {
            let marked = self.assumed.touches(*of);
            assert!(marked || (a - b).abs() < STAYS, "{name} moves from {a} to {b} and is not marked");
            marked
        };
        self.figures().into_iter().filter(is_marked).map(|(_, name, _)| name).collect()
    }
}

fn planes<'a>(roof: &'a Roof, edge: &Edge) -> Vec<&'a str> {
    edge.planes.iter().map(|plane| roof.plane(*plane).name.as_str()).collect()
}

fn top(plane: &Plane) -> f64 {
    plane.outline.iter().map(|corner| corner[2]).fold(f64::NEG_INFINITY, f64::max)
}

/// The two houses, each with readings left untaken.
fn houses() -> Vec<String> {
    let main = r#"eave = "16 in", rake = "12 in""#;
    let wing = r#""level with main", rake = "12 in""#;
    let porch = r#"eave = "12 in", rake = "8 in""#;
    let upper = "plate = \"13'\"";
    vec![
        changed(CROSS_GABLE, main, r#"eave = "unknown", rake = "12 in""#),
        changed(CROSS_GABLE, main, r#"eave = "16 in", rake = "unknown""#),
        changed(CROSS_GABLE, wing, r#""level with main", rake = "unknown""#),
        changed(CROSS_GABLE, porch, r#"eave = "unknown", rake = "8 in""#),
        changed(CROSS_GABLE, "plate = \"7' 3\\\"\"", r#"plate = "unknown""#),
        changed(CROSS_GABLE, "plate = \"17'\"", r#"plate = "unknown""#),
        changed(HIP_SPLIT_LEVEL, upper, r#"plate = "unknown""#),
        changed(HIP_SPLIT_LEVEL, r#"overhang = "24 in""#, r#"overhang = "unknown""#),
        changed(
            &changed(HIP_SPLIT_LEVEL, r#"overhang = "24 in""#, r#"overhang = "unknown""#),
            upper,
            r#"plate = "unknown""#,
        ),
    ]
}

#[test]
fn what_moves_with_an_untaken_reading_is_marked() {
    for house in houses() {
        let marked = Both::of(&house).marked();
        assert!(!marked.is_empty(), "{house}");
    }
}

#[test]
fn what_stays_where_it_is_is_not_marked() {
    let all = houses();
    let marked = |house: usize| Both::of(&all[house]).marked();
    assert_eq!(marked(4), ["porch S, height"], "a plate that nothing meets lifts its plane");
    let rake = ["eave wing W", "eave wing E", "rake wing W", "rake wing E", "ridge wing W/wing E"];
    let wing = ["wing E", "wing E, height", "wing W", "wing W, height"];
    assert_eq!(marked(2), [rake.as_slice(), wing.as_slice()].concat());
    assert!(!marked(0).iter().any(|name| name.contains("porch") || name.starts_with("ridge")));
    assert!(!marked(6).iter().any(|name| name.contains("garage") || name == "ridge upper S/upper N"));
}
