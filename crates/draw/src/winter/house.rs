//! The owner's picture of the house as a chimney: air in low, up, and out through the ceiling.

use job::Units;

use super::cut::{Cut, WORDS, arrow, label, number, picture_size};
use super::words::Quantity;
use super::{WinterScene, plot};
use crate::figure::Figure;
use crate::letter::Anchor;
use crate::svg::{Path, Svg};

/// Height of wall that is shown at most, m: two storeys.
const WALL: f64 = 6.0;

/// Draws the house cut through, with the air that leaks into the attic at 22 °F; none where no eave reaches past its wall.
pub fn owner_house(scene: &WinterScene<'_>, size_mm: (f64, f64)) -> Option<Figure> {
    let slope = scene.log.slope.as_ref()?;
    let [width, height] = picture_size(size_mm);
    let room = [[8.0, 6.0], [width - WORDS - 8.0, height]];
    let cut = Cut::of(slope, room, WALL, false);
    let mut svg = Svg::default();
    cut.draw(&mut svg);
    air(&mut svg, &cut);
    let leak = scene.found()?.leak;
    let (amount, per) = match scene.units {
        Units::Us => (format!("{:.0} cubic feet", Quantity::Air.shown(leak, Units::Us)), "a minute leak up"),
        Units::Si => (format!("{:.0} liters", Quantity::Air.shown(leak, Units::Si)), "a second leak up"),
    };
    let lines = ["of warm room air", per, "into your attic", "on a freezing day"];
    number(&mut svg, [width, height], &amount, &lines);
    let alt = format!(
        "Your house cut through: cold air comes in low, warm air goes up and out through holes in the ceiling. {amount} {}.",
        lines.join(" ")
    );
    let svg = svg.finish([width, height], "Your house is a chimney", &alt);
    Some(Figure { svg, width_mm: width, height_mm: height, alt })
}

/// In at the foot of the walls, up through the ceiling, out at the top; between, where neither is so, a line.
fn air(svg: &mut Svg, cut: &Cut) {
    let far = cut.far_wall();
    let holes = [0.22, 0.5, 0.78].map(|share| share * far);
    let metre = cut.scale();
    cut.ceiling(svg, &holes, 6.0 / metre);
    for x in holes {
        let ends = [[x, cut.plate * 0.66], [x, cut.plate + cut.rise * 0.3]].map(|p| cut.at(p));
        arrow(svg, ends, 3.2);
    }
    let low = cut.plate * 0.1;
    let reach = 9.0 / metre;
    arrow(svg, [[-reach, low], [reach * 0.7, low]].map(|p| cut.at(p)), 3.2);
    arrow(svg, [[far + reach, low], [far - reach * 0.7, low]].map(|p| cut.at(p)), 3.2);
    let middle = [[0.0, cut.plate * 0.5], [far, cut.plate * 0.5]].map(|p| cut.at(p));
    svg.stroke("balance", &Path::open(&middle), &plot::FREEZING);
    let beside = |z: f64| cut.at([far / 2.0, z]);
    label(svg, "pushes out", [beside(0.0)[0], middle[0][1] - 4.2], Anchor::Middle);
    label(svg, "sucks in", [beside(0.0)[0], middle[0][1] + 4.4], Anchor::Middle);
    let top = cut.at(cut.on_roof(cut.half));
    arrow(svg, [[top[0], top[1] + 4.0], [top[0], top[1] - 6.0]], 3.2);
}
