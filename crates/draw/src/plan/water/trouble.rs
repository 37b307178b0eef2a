//! What to look at: rings on the plan, and the list that tells what they are.

use roof::plan::{P2 as OnPlan, distance};
use water::Finding;

use super::WaterScene;
use super::gauge::Gauge;
use crate::letter::{Anchor, Cut, Text, shortened, wrapped};
use crate::svg::Svg;
use crate::symbol::SMALL;
use crate::vector::P2;

/// Most that are ringed and told; the worst come first.
const MOST: usize = 9;
/// Spots closer than this are one, metres: the points of a roof are one within it.
const SAME: f64 = 5e-4;
/// From line to line of the list.
const LINE: f64 = 4.3;
/// Key to words.
const INDENT: f64 = 6.0;

/// A finding on the plan.
#[derive(Clone, Debug)]
pub(super) struct Trouble {
    pub(super) at: OnPlan,
    /// Whether it comes only when the gutters run over.
    pub(super) when_over: bool,
    words: String,
}

/// Those with the gutters first, then those that come without.
pub(super) fn troubles(scene: &WaterScene<'_>, gauge: &Gauge) -> Vec<Trouble> {
    let (roof, drainage) = (scene.roof, scene.drainage);
    let told = |finding: &Finding, when_over: bool| {
        let amount = gauge.told(finding.amount());
        let over = if when_over { ", should the gutters run over" } else { "" };
        Trouble {
            at: finding.spot(roof, &drainage.gutters),
            when_over,
            words: format!("{}: {amount}{over}", finding.told(roof, &drainage.gutters, gauge.units()))
                .replace('`', "\""),
        }
    };
    let spot = |finding: &Finding| finding.spot(roof, &drainage.gutters);
    let same = |a: &Finding, b: &Finding| a.key() == b.key() && distance(spot(a), spot(b)) < SAME;
    let with = drainage.findings.iter().map(|finding| told(finding, false));
    let bare = scene.bare.findings(roof);
    let only_bare = bare.iter().filter(|bare| !drainage.findings.iter().any(|with| same(with, bare)));
    with.chain(only_bare.map(|finding| told(finding, true))).collect()
}

/// The key of a trouble on the plan and in the list.
pub(super) fn key(index: usize) -> String {
    format!("!{}", index + 1)
}

/// The list under the plan.
#[derive(Clone, Debug)]
pub(super) struct List {
    /// Lines, with the key where one begins.
    lines: Vec<(Option<String>, String)>,
    /// How many troubles it tells.
    pub(super) count: usize,
}

impl List {
    /// As many as a room holds.
    pub(super) fn new(troubles: &[Trouble], [width, height]: P2) -> Self {
        let lists = (0..=troubles.len().min(MOST)).rev().map(|count| Self::of(troubles, count, width));
        lists.into_iter().find(|list| list.height() <= height).unwrap_or(Self { lines: Vec::new(), count: 0 })
    }

    fn of(troubles: &[Trouble], most: usize, width: f64) -> Self {
        let mut lines = Vec::new();
        for (index, trouble) in troubles.iter().take(most).enumerate() {
            let parts = wrapped(&trouble.words, width - INDENT, SMALL);
            let keyed = parts.into_iter().enumerate();
            let line = |(i, words): (usize, String)| {
                ((i == 0).then(|| key(index)), shortened(&words, SMALL, width - INDENT))
            };
            lines.extend(keyed.map(line));
        }
        if troubles.len() > most {
            lines.push((None, format!("and {} more, less grave", troubles.len() - most)));
        }
        Self { lines, count: troubles.len().min(most) }
    }

    pub(super) fn height(&self) -> f64 {
        if self.lines.is_empty() { 0.0 } else { LINE * self.lines.len() as f64 + 1.5 }
    }

    pub(super) fn draw(&self, svg: &mut Svg, [x, y]: P2) {
        for (row, (key, words)) in self.lines.iter().enumerate() {
            let at = [x, y + LINE * (row as f64 + 0.5)];
            if let Some(key) = key {
                svg.text("trouble-key", &Text::new(key, at, SMALL).anchored(Anchor::Start).cut(Cut::Bold));
            }
            let at = [at[0] + INDENT, at[1]];
            svg.text("trouble-told", &Text::new(words, at, SMALL).anchored(Anchor::Start));
        }
    }

    pub(super) fn told(&self) -> String {
        let lines = self.lines.iter().map(|(key, words)| match key {
            Some(key) => format!("{key} {words}"),
            None => words.clone(),
        });
        lines.collect::<Vec<_>>().join(" ")
    }
}
