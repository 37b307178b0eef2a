//! Angles at the corners of a flat plane that are not square.

use super::flat::Layout;
use crate::ink::FINE;
use crate::letter::Text;
use crate::place::{Board, Tilted};
use crate::svg::{Path, Svg};
use crate::vector::{P2, add, along, cross, dot, sub, turned, unit};

/// Size of the angles.
const SIZE: f64 = 3.6;
/// Radius of the arc in the corner.
const ARC: f64 = 4.0;
/// Corners this close to square or straight say nothing, degrees.
const PLAIN: f64 = 0.05;

/// An angle, where it stands.
pub(super) struct Corner {
    at: P2,
    /// Unit direction of the side the angle starts from, and the angle, clockwise on paper.
    from: P2,
    degrees: f64,
    text: Text,
}

impl Corner {
    /// Angles inside the plane at all corners; those without room are left out, since lengths fix the shape.
    pub(super) fn all(layout: &Layout, board: &mut Board) -> Vec<Self> {
        let corners = layout.rings.iter().flat_map(|ring| {
            let n = ring.len();
            (0..n).map(move |i| [ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]])
        });
        corners.filter_map(|corner| Self::place(corner, board)).collect()
    }

    /// On paper y points down, so the inside of a plane lies clockwise from the side that follows to the side
    /// before.
    fn place([before, at, after]: [P2; 3], board: &mut Board) -> Option<Self> {
        let (to_before, from) = (unit(sub(before, at))?, unit(sub(after, at))?);
        let turn = -cross(from, to_before).atan2(dot(from, to_before)).to_degrees();
        // Where the plane has a notch, the angle of the notch is what a square or bevel can be set to.
        let (from, degrees) = if turn < 0.0 { (to_before, -turn) } else { (from, turn) };
        let is_plain = [0.0, 90.0, 180.0].iter().any(|square| (degrees - square).abs() < PLAIN);
        if is_plain {
            return None;
        }
        let middle = turned(from, -degrees / 2.0);
        let text = |distance: f64| Text::new(format!("{degrees:.1}°"), along(at, middle, distance), SIZE);
        // The sharper the corner, the further in its angle finds room; behind the corner there is always some.
        let furthest = 3.0 + 8.0 / (degrees / 2.0).to_radians().sin();
        let inside = [7.0, 9.0, 11.0, 13.0, 16.0, 19.0, 23.0, 28.0].into_iter().filter(|&d| d <= furthest);
        let places = inside.chain([-5.0, -7.0, -9.0, -11.0]).map(text);
        let (text, _) = board.cheapest(places, |text| vec![text.room()]).filter(|&(_, cost)| cost == 0)?;
        board.take(text.room());
        board.take(Tilted::upright(along(at, middle, ARC / 2.0), [0.5; 2]));
        Some(Self { at, from, degrees, text })
    }

    pub(super) fn draw(&self, svg: &mut Svg) {
        const STEPS: u32 = 12;
        let spoke = |i: u32| turned(self.from, -self.degrees * f64::from(i) / f64::from(STEPS));
        let arc: Vec<P2> = (0..=STEPS).map(|i| add(self.at, spoke(i).map(|x| x * ARC))).collect();
        svg.stroke("corner", &Path::open(&arc), &FINE);
        svg.text("corner-angle", &self.text);
    }
}
