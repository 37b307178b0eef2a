//! From a block's wall lines and slopes to the faces of its roof over those walls.
//!
//! Over a convex outline a roof is the lower envelope of the planes that rise from its edges: the face of a plane is the
//! part of the outline where no other plane is lower. That is exact, and it carries unequal pitches, unequal plates, half-hips
//! and broken slopes alike, each being only more planes. Any other outline goes through the weighted straight [`skeleton`].

use job::{Block, BlockEdge, EdgeSlope, Form, Problem};

use crate::plan::{
    P2, Rise, area, clip, cross, dot, edges, flat, height, outward, same_plane, scale, sub, unit,
};
use crate::skeleton::{self, Contour};

/// Part of a roof surface over the walls.
#[derive(Clone, Debug)]
pub(crate) struct Face {
    /// Index into [`Shape::rises`].
    pub(crate) rise: usize,
    pub(crate) polygon: Vec<P2>,
}

/// A block's roof over its own walls.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    pub(crate) rises: Vec<Rise>,
    pub(crate) faces: Vec<Face>,
}

/// Builds the faces over the walls, or says why the outline has no roof.
pub(crate) fn shape(block: &Block) -> Result<Shape, Problem> {
    let [outline] = block.contours.as_slice() else { return by_skeleton(block) };
    if !is_convex(outline) {
        return by_skeleton(block);
    }
    let shape = envelope(outline, envelope_rises(block));
    let shape = match &block.form {
        Form::HipSkirt { run, ends } => {
            let shortened = without_skirts(block, ends, run.value.m());
            with_small_gable(shape, block, &shortened, ends)
        }
        _ => shape,
    };
    if shape.faces.is_empty() {
        return Err(no_roof(block, "none of its edges has a slope", "give at least one edge a pitch"));
    }
    if let Some((why, mend)) = missing_part(block, &shape) {
        return Err(no_roof(block, why, mend));
    }
    Ok(shape)
}

/// What the block's form promises and its figures do not leave room for, with what would mend it.
fn missing_part(block: &Block, shape: &Shape) -> Option<(&'static str, &'static str)> {
    let has_face = |rise: Rise| shape.faces.iter().any(|face| same_plane(shape.rises[face.rise], rise));
    let sides = || edges(&block.contours[0]).zip(&block.edges[0]);
    match &block.form {
        Form::Broken { .. } => {
            let upper =
                |((a, b), edge)| edge_rises(a, b, edge, &block.form).get(1).is_some_and(|r| has_face(*r));
            let found = sides().any(upper);
            (!found).then_some((
                "its pitch breaks no lower than where its slopes meet",
                "give it a smaller `break`",
            ))
        }
        Form::HalfHip { .. } => {
            let is_gable = |edge: &BlockEdge| matches!(edge.slope, EdgeSlope::Gable);
            let hip = |((a, b), edge)| {
                is_gable(edge) && edge_rises(a, b, edge, &block.form).iter().any(|r| has_face(*r))
            };
            let found = sides().any(hip);
            (!found).then_some(("its hips begin above its ridge", "give it a smaller `hip_from`"))
        }
        Form::HipSkirt { run, ends } => {
            let left = area(&without_skirts(block, ends, run.value.m()));
            (left < 1e-9)
                .then_some(("its skirts leave no room for the gable above them", "give it a smaller `skirt`"))
        }
        Form::Plain => None,
    }
}

/// The plane that rises inwards from an edge.
pub(crate) fn edge_rise(a: P2, b: P2, slope: f64, start: f64) -> Rise {
    let inwards = scale(outward(unit(a, b)), -slope);
    [inwards[0], inwards[1], start - dot(inwards, a)]
}

fn no_roof(block: &Block, why: &str, mend: &str) -> Problem {
    let message = format!("block `{}` has no roof: {why}", block.name);
    Problem::error("no-roof", message, mend).at(block.span.clone(), "this block")
}

/// Whether every corner of a counter-clockwise outline turns left or goes straight on.
fn is_convex(outline: &[P2]) -> bool {
    let n = outline.len();
    (0..n).all(|i| {
        let (a, b, c) = (outline[i], outline[(i + 1) % n], outline[(i + 2) % n]);
        cross(unit(a, b), unit(b, c)) > -1e-9
    })
}

/// Every plane that may bound the roof of a convex block.
fn envelope_rises(block: &Block) -> Vec<Rise> {
    let mut rises: Vec<Rise> = Vec::new();
    for ((a, b), edge) in edges(&block.contours[0]).zip(&block.edges[0]) {
        for rise in edge_rises(a, b, edge, &block.form) {
            if !rises.iter().any(|r| same_plane(*r, rise)) {
                rises.push(rise);
            }
        }
    }
    rises
}

fn edge_rises(a: P2, b: P2, edge: &BlockEdge, form: &Form) -> Vec<Rise> {
    let plate = edge.plate.value.m();
    match (&edge.slope, form) {
        (EdgeSlope::Pitch(pitch), Form::Broken { run, upper }) => {
            let (lower, upper, run) = (pitch.value.slope(), upper.value.slope(), run.value.m());
            vec![edge_rise(a, b, lower, plate), edge_rise(a, b, upper, plate + run * (lower - upper))]
        }
        (EdgeSlope::Pitch(pitch), _) => vec![edge_rise(a, b, pitch.value.slope(), plate)],
        (EdgeSlope::Gable, Form::HalfHip { from, pitch }) => {
            vec![edge_rise(a, b, pitch.value.slope(), plate + from.value.m())]
        }
        (EdgeSlope::Gable, _) => Vec::new(),
    }
}

/// Faces of the lower envelope of planes over a convex outline.
fn envelope(outline: &[P2], rises: Vec<Rise>) -> Shape {
    let faces = (0..rises.len()).filter_map(|i| face_of(outline, &rises, i)).collect();
    Shape { rises, faces }
}

fn face_of(outline: &[P2], rises: &[Rise], i: usize) -> Option<Face> {
    let mut polygon = outline.to_vec();
    for (j, other) in rises.iter().enumerate() {
        if j != i {
            polygon = clip(&polygon, |p| height(*other, p) - height(rises[i], p));
        }
    }
    (area(&polygon) > 1e-9).then_some(Face { rise: i, polygon })
}

/// The outline with both skirted ends moved in by the skirt's run.
fn without_skirts(block: &Block, ends: &[job::Side; 2], run: f64) -> Vec<P2> {
    let outline = &block.contours[0];
    edges(outline).zip(&block.edges[0]).filter(|(_, e)| ends.contains(&e.side)).fold(
        outline.clone(),
        |polygon, ((a, b), _)| {
            let n = outward(unit(a, b));
            clip(&polygon, |p| -dot(sub(p, a), n) - run)
        },
    )
}

/// Adds the small gable that stands on the skirts: the unskirted sides' planes run on under its ridge.
fn with_small_gable(mut shape: Shape, block: &Block, outline: &[P2], ends: &[job::Side; 2]) -> Shape {
    let sides: Vec<Rise> = edges(&block.contours[0])
        .zip(&block.edges[0])
        .filter(|(_, e)| !ends.contains(&e.side))
        .flat_map(|((a, b), e)| edge_rises(a, b, e, &Form::Plain))
        .collect();
    for i in 0..sides.len() {
        if let Some(mut face) = face_of(outline, &sides, i) {
            let known = shape.rises.iter().position(|r| same_plane(*r, sides[i]));
            face.rise = known.unwrap_or_else(|| {
                shape.rises.push(sides[i]);
                shape.rises.len() - 1
            });
            shape.faces.push(face);
        }
    }
    shape
}

/// The roof of an outline that is not convex or has holes.
fn by_skeleton(block: &Block) -> Result<Shape, Problem> {
    if !matches!(block.form, Form::Plain) {
        let mend = "divide it into blocks, or give each edge its pitch with `form = \"per-edge\"`";
        return Err(no_roof(block, "this form needs an outline without inside corners", mend));
    }
    let plate = common_plate(block)?;
    let slopes: Vec<Vec<skeleton::EdgeSlope>> =
        block.edges.iter().map(|c| c.iter().map(skeleton_slope).collect()).collect();
    let contour = |i: usize| Contour { points: &block.contours[i], slopes: &slopes[i] };
    let holes: Vec<Contour> = (1..block.contours.len()).map(contour).collect();
    let skeleton =
        skeleton::roof(contour(0), &holes).map_err(|error| no_roof(block, &error.cause(), error.mend()))?;
    let mut rises = Vec::new();
    let mut faces = Vec::new();
    for face in skeleton.faces {
        let (points, edge) = (&block.contours[face.contour], &block.edges[face.contour][face.edge]);
        let EdgeSlope::Pitch(pitch) = &edge.slope else { continue };
        let (a, b) = (points[face.edge], points[(face.edge + 1) % points.len()]);
        faces.push(Face { rise: rises.len(), polygon: keyholed(&face) });
        rises.push(edge_rise(a, b, pitch.value.slope(), plate));
    }
    Ok(Shape { rises, faces })
}

/// A face as one ring: holes are reached by a cut there and back, which counts for nothing when inside is told by the even-odd rule.
fn keyholed(face: &skeleton::Face) -> Vec<P2> {
    let plan = |ring: &[[f64; 3]]| ring.iter().map(|p| flat(*p)).collect::<Vec<P2>>();
    let mut ring = plan(&face.polygon);
    for hole in &face.holes {
        let hole = plan(hole);
        ring.extend(ring.first().copied());
        ring.extend(&hole);
        ring.extend(hole.first());
    }
    ring
}

fn skeleton_slope(edge: &BlockEdge) -> skeleton::EdgeSlope {
    match &edge.slope {
        EdgeSlope::Pitch(pitch) => skeleton::EdgeSlope::Rise(pitch.value.slope()),
        EdgeSlope::Gable => skeleton::EdgeSlope::Gable,
    }
}

/// The one plate height of a block whose outline needs the skeleton.
fn common_plate(block: &Block) -> Result<f64, Problem> {
    let plates: Vec<f64> = block.edges.iter().flatten().map(|e| e.plate.value.m()).collect();
    let first = plates.first().copied().unwrap_or_default();
    if plates.iter().all(|p| (p - first).abs() < 1e-9) {
        return Ok(first);
    }
    Err(Problem::error(
        "plates-differ",
        format!("block `{}` has inside corners and plates of different heights", block.name),
        "split it into blocks that each have one plate height or no inside corner",
    )
    .at(block.span.clone(), "this block"))
}
