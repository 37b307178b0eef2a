//! The owner's picture of four ways to spend money: what each alone leaves of the melt, and all together.

use job::Units;
use study::winter::{Ablation, Fixes};

use super::cut::{TEXT, WALL, label, picture_size};
use super::words::Quantity;
use super::{ICE, SNOW, WinterScene};
use crate::figure::Figure;
use crate::ink::{FINE, PAPER, Pen, WATER};
use crate::letter::{Anchor, Cut as LetterCut, Text};
use crate::svg::{Path, Svg};
use crate::vector::P2;

const NUMBER: f64 = 7.5;
/// Less than this share of today's melt counts as none.
const NONE: f64 = 0.02;
/// More than this helps nothing.
const ALL: f64 = 0.9;

/// The four, and their names on the picture.
const CHOICES: [(&str, Fixes); 4] = {
    let none = Fixes::NONE;
    [
        ("vents only", Fixes { low_vents: true, high_vents: true, ..none }),
        ("insulation only", Fixes { insulate: true, ..none }),
        ("sealing only", Fixes { seal: true, ..none }),
        ("all together", Fixes::ALL),
    ]
};

/// Draws the four; none where nothing melts today.
pub fn owner_choices(scene: &WinterScene<'_>, size_mm: (f64, f64)) -> Option<Figure> {
    let found = scene.found().filter(|found| found.melt_day > 0.0)?;
    let size = picture_size(size_mm);
    let mut svg = Svg::default();
    let unit = if scene.units == Units::Us { "gallons" } else { "liters" };
    let amount = format!("{:.0} {unit}", Quantity::Water.shown(found.melt_day, scene.units));
    let head = Text::new(amount.clone(), [3.0, 7.0], NUMBER).anchored(Anchor::Start).cut(LetterCut::Bold);
    let beside = [3.0 + head.width() + 3.0, 7.6];
    svg.text("number", &head);
    label(&mut svg, "melt on a freezing day today", beside, Anchor::Start);
    let mut told = Vec::new();
    let width = size[0] / CHOICES.len() as f64;
    for (i, (name, fixes)) in CHOICES.into_iter().enumerate() {
        let row = scene.winter.ablation.iter().find(|row| row.fixes == fixes)?;
        let verdict = verdict(row, found);
        let panel = Panel { low: [width * i as f64, 14.0], high: [width * (i + 1) as f64, size[1]] };
        panel.draw(&mut svg, name, verdict, (row.melt_day / found.melt_day).clamp(0.0, 1.0));
        told.push(format!("{name}: {verdict}."));
    }
    let alt = format!("{amount} melt on a freezing day today. {}", told.join(" "));
    let svg = svg.finish(size, "Four ways to spend money", &alt);
    Some(Figure { svg, width_mm: size[0], height_mm: size[1], alt })
}

/// What a choice comes to, in two words.
fn verdict(row: &Ablation, found: &Ablation) -> &'static str {
    let share = row.melt_day / found.melt_day;
    if row.is_as(found) {
        "not planned"
    } else if share < NONE {
        "stays frozen"
    } else if share > ALL {
        "helps nothing"
    } else {
        "still melts"
    }
}

struct Panel {
    low: P2,
    high: P2,
}

impl Panel {
    /// A roof under snow over a barrel: its rim is today's melt, its fill what is left of it.
    fn draw(&self, svg: &mut Svg, name: &str, verdict: &str, share: f64) {
        let middle = f64::midpoint(self.low[0], self.high[0]);
        let foot = self.high[1] - 2.6 * TEXT;
        let (half, top) = (15.0, self.low[1] + 2.0);
        let eave = top + 10.0;
        let snow = [
            [middle - half, eave],
            [middle, top],
            [middle + half, eave],
            [middle + half - 3.0, eave],
            [middle, top + 3.4],
            [middle - half + 3.0, eave],
        ];
        svg.shape("snow", &Path::closed(&snow), SNOW, &FINE);
        let roof = [[middle - half + 3.0, eave], [middle, top + 3.4], [middle + half - 3.0, eave]];
        svg.stroke("roof", &Path::open(&roof), &Pen { width: 0.9, ..WALL });
        let (wide, rim) = (9.0, eave + 5.0);
        let deep = foot - rim - 2.0;
        let level = foot - 2.0 - deep * share;
        let barrel = |from: f64, to: f64| {
            Path::closed(&[
                [middle - wide, from],
                [middle + wide, from],
                [middle + wide, to],
                [middle - wide, to],
            ])
        };
        svg.fill("barrel", &barrel(rim, foot - 2.0), PAPER);
        if share > 0.0 {
            svg.fill("left", &barrel(level, foot - 2.0), ICE);
        }
        svg.stroke("rim", &barrel(rim, foot - 2.0), &Pen { width: 0.7, ..WALL });
        if share > NONE {
            for x in [-4.0, 0.0, 4.0] {
                let at = [middle + x, eave + 2.6];
                svg.fill(
                    "drop",
                    &Path::closed(&[
                        [at[0], at[1] - 1.6],
                        [at[0] + 0.8, at[1]],
                        [at[0], at[1] + 0.9],
                        [at[0] - 0.8, at[1]],
                    ]),
                    WATER,
                );
            }
        }
        svg.text("words", &Text::new(name, [middle, foot + 1.6], TEXT));
        svg.text("words", &Text::new(verdict, [middle, foot + 1.6 + 1.3 * TEXT], TEXT).cut(LetterCut::Bold));
    }
}
