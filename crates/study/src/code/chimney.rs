//! Height of chimneys.
//!
//! # Formula
//! required above the roof = the greater of the clause's least and what reaches so far above the highest roof within the clause's distance, level, from
//! the chimney. The highest point of a plane within a circle is a corner of it inside, a crossing of its border with the circle, or the circle's
//! point up the slope.

use job::Opening;
use measure::Length;
use roof::plan::{P2, contains, flat};
use roof::{PlacedOpening, Plane};

use super::desk::{Ask, Desk, because, input, of_job};
use super::judge::{Check, Demand, Held};
use super::{Figure, Part};

impl Desk<'_> {
    pub(super) fn chimney(&mut self, opening: &Opening, placed: &PlacedOpening) {
        let clause = &self.edition.chimney_height;
        let ask = Ask {
            part: Part::Standing,
            rule: "chimney_height",
            clause: &clause.clause,
            source: &clause.source,
            asked: format!(
                "chimneys end {} above where they pass the roof and {} above any part of the house within {}",
                clause.above_roof.text(),
                clause.above_near.text(),
                clause.near.text()
            ),
        };
        let foot = placed.rim.iter().map(|corner| corner[2]).fold(f64::NEG_INFINITY, f64::max);
        let near = self.highest_near(placed, clause.near.m());
        let required = clause.above_roof.max(*clause.above_near + Length::from_m(near - foot));
        let height = opening.height.map(Figure::Length);
        let held = || Held::or_missing(height, format!("opening.{}.height", opening.name));
        let written = Figure::Length(Length::from_m(near - foot)).written(self.units());
        let is_there = opening.state == job::State::Found;
        let check = Check::new(
            "above the roof beside it",
            Demand::AtLeast(Figure::Length(required)),
            is_there.then(held),
            held(),
        );
        let inputs = [input("highest roof near it, above its highest foot", written)];
        let rule = "the greater of the two, from where the roof is highest beside it";
        self.one(&ask, opening.name.clone(), check, vec![because("required", inputs, rule, &of_job())]);
    }

    /// Height of the highest roof within a distance of any corner of an opening.
    fn highest_near(&self, placed: &PlacedOpening, near: f64) -> f64 {
        let corners = placed.rim.iter().map(|corner| flat(*corner));
        let of = |centre: P2| self.roof.planes.iter().map(move |plane| highest(plane, centre, near));
        corners.flat_map(of).fold(f64::NEG_INFINITY, f64::max)
    }
}

/// Height of the highest point of a plane within a circle; none of it is as low as can be.
fn highest(plane: &Plane, centre: P2, radius: f64) -> f64 {
    let outline: Vec<P2> = plane.outline.iter().map(|corner| flat(*corner)).collect();
    let mut points: Vec<P2> = Vec::new();
    for (index, from) in outline.iter().enumerate() {
        points.extend(within(*from, outline[(index + 1) % outline.len()], centre, radius));
    }
    let fall = plane.fall();
    let up = [centre[0] - fall[0] * radius, centre[1] - fall[1] * radius];
    points.extend(contains(&outline, up).then_some(up));
    points.into_iter().map(|p| plane.height_at(p)).fold(f64::NEG_INFINITY, f64::max)
}

/// The ends of the part of a segment that lies within a circle.
fn within(from: P2, to: P2, centre: P2, radius: f64) -> Vec<P2> {
    let (d, f) = ([to[0] - from[0], to[1] - from[1]], [from[0] - centre[0], from[1] - centre[1]]);
    let (a, b) = (d[0] * d[0] + d[1] * d[1], f[0] * d[0] + f[1] * d[1]);
    let root = b * b - a * (f[0] * f[0] + f[1] * f[1] - radius * radius);
    if a <= 0.0 || root < 0.0 {
        return Vec::new();
    }
    let ends = [(-b - root.sqrt()) / a, (-b + root.sqrt()) / a].map(|part| part.clamp(0.0, 1.0));
    let is_within = ends[1] > ends[0];
    let at = |part: f64| [from[0] + d[0] * part, from[1] + d[1] * part];
    if is_within { ends.map(at).to_vec() } else { Vec::new() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_a_segment_the_part_within_a_circle_is_kept() {
        let centre = [0.0, 0.0];
        assert_eq!(within([-2.0, 0.0], [2.0, 0.0], centre, 1.0), [[-1.0, 0.0], [1.0, 0.0]]);
        assert_eq!(within([0.0, 0.0], [0.5, 0.0], centre, 1.0), [[0.0, 0.0], [0.5, 0.0]]);
        assert!(within([-2.0, 2.0], [2.0, 2.0], centre, 1.0).is_empty());
        assert!(within([2.0, 0.0], [3.0, 0.0], centre, 1.0).is_empty());
    }
}
