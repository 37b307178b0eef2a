//! The owner's picture of an attic that breathes: what comes in from outdoors and from the rooms, today and after.

use study::winter::Ablation;

use super::WinterScene;
use super::cut::{ROOF, TEXT, WALL, WORDS, arrow, label, number, picture_size};
use crate::figure::Figure;
use crate::ink::{PAPER, Pen};
use crate::letter::{Anchor, Cut as LetterCut, Text};
use crate::svg::{Path, Svg};
use crate::vector::P2;

/// Width of the largest flow, and of the least that is drawn, mm.
const WIDEST: f64 = 8.0;
const LEAST: f64 = 0.9;
/// Room of the arrow over the ridge, and of what lies below the ceiling.
const OUT: f64 = 12.0;
const FOOT: f64 = 26.0;
/// Less than this much more air is not worth a picture.
const MORE: f64 = 1.1;

/// Draws the attic today and after, arrows as wide as much air; none where the plan brings no more of it.
pub fn owner_breath(scene: &WinterScene<'_>, size_mm: (f64, f64)) -> Option<Figure> {
    let (found, plan) = (scene.found()?, scene.plan()?);
    let slope = scene.log.slope.as_ref()?;
    let times = plan.vent / found.vent.max(1e-9);
    if times < MORE {
        return None;
    }
    let size = picture_size(size_mm);
    let mut svg = Svg::default();
    let most = [found, plan].map(|state| state.vent + state.leak).into_iter().fold(1e-9, f64::max);
    let width = (size[0] - WORDS) / 2.0;
    let pitch = slope.pitch.slope();
    for (i, (state, name)) in [(found, "today"), (plan, "after")].into_iter().enumerate() {
        let low = [width * i as f64, 4.0];
        let attic = Attic { low, high: [low[0] + width, size[1]], pitch, most };
        attic.draw(&mut svg, state, name);
    }
    let decimals = usize::from(times < 2.5);
    let amount = if times > 99.5 { "100 times".to_owned() } else { format!("{times:.decimals$} times") };
    let less = plan.leak < 0.9 * found.leak;
    let lines: &[&str] = if less {
        &["as much outdoor air", "through the attic,", "less from your rooms"]
    } else {
        &["as much outdoor air", "through the attic"]
    };
    number(&mut svg, size, &amount, lines);
    let alt = format!(
        "Your attic today and after, arrows as wide as much air goes through. {amount} {}.",
        lines.join(" ")
    );
    let svg = svg.finish(size, "Breathing in and out", &alt);
    Some(Figure { svg, width_mm: size[0], height_mm: size[1], alt })
}

struct Attic {
    low: P2,
    high: P2,
    pitch: f64,
    /// The largest flow out of either.
    most: f64,
}

impl Attic {
    fn width(&self, flow: f64) -> f64 {
        (flow / self.most * WIDEST).max(LEAST)
    }

    fn draw(&self, svg: &mut Svg, state: &Ablation, name: &str) {
        let middle = f64::midpoint(self.low[0], self.high[0]);
        let half = (self.high[0] - self.low[0]) / 2.0 - 11.0;
        let rise = (half * self.pitch).clamp(9.0, (self.high[1] - self.low[1] - OUT - FOOT).max(9.0));
        let spare = (self.high[1] - self.low[1] - OUT - rise - FOOT).max(0.0);
        let plate = self.low[1] + spare / 2.0 + OUT + rise;
        let (peak, past) = ([middle, plate - rise], 7.0);
        let eaves = [-1.0, 1.0].map(|side| [middle + side * half, plate]);
        for eave in eaves {
            svg.stroke("roof", &Path::open(&[eave, peak]), &ROOF);
        }
        let walls = [-1.0, 1.0].map(|side| middle + side * (half - past));
        svg.stroke("ceiling", &Path::open(&walls.map(|x| [x, plate])), &WALL);
        for x in walls {
            svg.stroke("wall", &Path::open(&[[x, plate], [x, plate + 14.0]]), &WALL);
        }
        let [inward, up] = [state.vent / 2.0, state.leak].map(|flow| self.width(flow));
        for (eave, side) in eaves.into_iter().zip([1.0, -1.0]) {
            let from = [eave[0] + side * 2.5, plate + 10.0];
            arrow(svg, [from, [eave[0] + side * (past + 8.0), plate - rise * 0.22]], inward);
        }
        let gap = Pen { width: 1.6, dash: &[], colour: PAPER };
        svg.stroke(
            "gap",
            &Path::open(&[[middle - up / 2.0 - 0.6, plate], [middle + up / 2.0 + 0.6, plate]]),
            &gap,
        );
        arrow(svg, [[middle, plate + 11.0], [middle, plate - rise * 0.3]], up);
        let out = self.width(state.vent + state.leak);
        let mouth = out / 2.0 + 0.8;
        let cut = mouth * rise / half;
        svg.stroke(
            "gap",
            &Path::open(&[[middle - mouth, peak[1] + cut], peak, [middle + mouth, peak[1] + cut]]),
            &gap,
        );
        arrow(svg, [[middle, peak[1] + 5.0], [middle, peak[1] - 11.0]], out);
        label(svg, "from rooms", [middle, plate + 14.0], Anchor::Middle);
        let at = [middle, plate + 14.0 + 1.6 * TEXT];
        svg.text("words", &Text::new(name, at, TEXT * 1.1).cut(LetterCut::Bold));
    }
}
