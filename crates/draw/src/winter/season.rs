//! The winter as a chart: the weather on top, below it snow, decks and ice as found, and under the same days the same as planned.

use job::Units;
use study::winter::{Log, LoggedState, Outdoors};

use super::plot::{FOUND, FREEZING, LINE, Plot, heading, told, upright};
use super::words::Quantity;
use super::{ICE, SNOW, WinterScene};
use crate::chart::ChartOptions;
use crate::figure::{Figure, sheet_size};
use crate::ink::{INK, Pen, WATER};
use crate::letter::Text;
use crate::svg::{Path, Svg};
use crate::symbol::SMALL;
use crate::vector::P2;

/// Borders, and the room of names and numbers beside the plots.
const BORDER: f64 = 2.0;
const SIDE: f64 = 34.0;
/// Hours of a day.
const DAY: usize = 24;
/// Shares of the height that plots have: air, snowfall; snow, decks, ice of a state.
const SKY: [f64; 2] = [0.15, 0.08];
const STATE: [f64; 3] = [0.1, 0.15, 0.12];
/// Ice of cold rooms.
const SUN: Pen = Pen { width: 0.3, dash: &[0.8, 0.6], colour: WATER };
const TONE: &str = "#cfcfcf";
const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

const READING: &str = "Air and decks: line, mean of each day; tone, its coldest to its warmest hour (of decks: coldest to warmest band over the attic). \
    Chain line: freezing. Snow: mean depth on the roof. Ice: what stands on the eave with most of it; dots, the part that rooms as cold as \
    outdoors would leave too. One winter, not a mean of many: trust the order before the amounts.";

/// Lowest, mean and highest of each day.
type Days = Vec<[f64; 3]>;

/// Draws the chart.
pub fn season_chart(scene: &WinterScene<'_>, options: &ChartOptions) -> Figure {
    let [width, height] = sheet_size(options.size_mm);
    let mut svg = Svg::default();
    let chart = Chart { scene, size: [width, height] };
    chart.draw(&mut svg);
    let alt = chart.told();
    Figure { svg: svg.finish([width, height], "The winter", &alt), width_mm: width, height_mm: height, alt }
}

struct Chart<'a> {
    scene: &'a WinterScene<'a>,
    size: P2,
}

impl Chart<'_> {
    fn draw(&self, svg: &mut Svg) {
        let reading = crate::letter::wrapped(READING, self.size[0] - 2.0 * BORDER, SMALL).len() as f64;
        let room = self.size[1] - 2.0 * BORDER - 3.0 * 1.9 * LINE - (reading + 2.0) * LINE;
        let states = [("As found", &self.scene.log.found), ("As planned", &self.scene.log.plan)];
        let shares: f64 = SKY.iter().chain(&STATE).chain(&STATE).sum();
        let unit = room / shares;
        let mut top = BORDER + LINE * 0.7;
        let lines = top;
        heading(svg, &format!("Weather: {}", self.scene.winter.weather), [BORDER, top]);
        top = self.sky(svg, top + LINE * 0.9, unit) + LINE;
        let scales = self.scales();
        for (name, states) in states {
            heading(svg, name, [BORDER, top]);
            top = self.state(svg, states, &scales, top + LINE * 0.9, unit) + LINE;
        }
        self.months(svg, [lines + LINE, top - LINE]);
        told(svg, "reading", READING, [BORDER, top + 0.9 * LINE], self.size[0] - 2.0 * BORDER);
    }

    fn plot(&self, top: f64, height: f64, values: impl Iterator<Item = f64>) -> Plot {
        Plot::of([SIDE, top], [self.size[0] - BORDER, top + height], values)
    }

    /// Air and snowfall; where they end.
    fn sky(&self, svg: &mut Svg, top: f64, unit: f64) -> f64 {
        let (log, units) = (self.scene.log, self.scene.units);
        let air = days(log, |i| Quantity::Temperature.shown(log.weather[i].temperature, units));
        let gap = 1.2;
        let plot = self.plot(top, SKY[0] * unit - gap, air.iter().flatten().copied());
        plot.frame(svg, "air", Quantity::Temperature.unit(units));
        band(svg, &plot, &air);
        freezing(svg, &plot, units);
        let falls: Vec<f64> = log
            .weather
            .chunks(DAY)
            .map(|day| Quantity::Fall.shown(day.iter().map(|hour| hour.snow).sum(), units))
            .collect();
        let plot = self.plot(
            top + SKY[0] * unit,
            SKY[1] * unit - gap,
            falls.iter().copied().chain([0.0, falls_at_least(units)]),
        );
        plot.frame(svg, "snow that falls", Quantity::Fall.unit(units));
        let width = (plot.x(1.0) - plot.x(0.0)) / falls.len().max(1) as f64;
        let bars = falls.iter().enumerate().filter(|(_, fall)| **fall > 0.0).map(|(i, fall)| {
            let (x, y) = (plot.x(0.0) + width * i as f64, plot.y(*fall));
            [[x, plot.high[1]], [x, y], [x + width, y], [x + width, plot.high[1]]]
        });
        let path = bars.fold(Path::default(), |path, bar| path.and_closed(&bar));
        if !path.is_empty() {
            svg.fill("fall", &path, INK);
        }
        top + (SKY[0] + SKY[1]) * unit
    }

    /// What both states reach, so that they share their scales: snow, decks, ice.
    fn scales(&self) -> [Vec<f64>; 3] {
        let (log, units) = (self.scene.log, self.scene.units);
        let all = || log.found.iter().chain(&log.plan);
        let ends = |quantity: Quantity, values: &mut dyn Iterator<Item = f64>| {
            let ends = values.fold([f64::INFINITY, f64::NEG_INFINITY], |[a, b], v| [a.min(v), b.max(v)]);
            ends.map(|value| quantity.shown(value, units)).to_vec()
        };
        let snow = ends(Quantity::Depth, &mut all().map(|hour| hour.snow_depth).chain([0.0, 0.1]));
        let ice = ends(Quantity::Ice, &mut all().map(|hour| hour.ice).chain([0.0, 1.0]));
        let decks = ends(Quantity::Temperature, &mut all().flat_map(over_attic).chain([-1.0, 1.0]));
        [snow, decks, ice]
    }

    /// Snow, decks and ice of a state; where they end.
    fn state(
        &self,
        svg: &mut Svg,
        states: &[LoggedState],
        scales: &[Vec<f64>; 3],
        top: f64,
        unit: f64,
    ) -> f64 {
        let (log, units) = (self.scene.log, self.scene.units);
        let gap = 1.2;
        let mut tops = STATE.iter().scan(top, |at, share| {
            let here = *at;
            *at += share * unit;
            Some((here, share * unit - gap))
        });
        let mut next = |values: &[f64]| {
            let (at, height) = tops.next().unwrap_or((top, gap));
            self.plot(at, height, values.iter().copied())
        };
        let snow = days(log, |i| Quantity::Depth.shown(states[i].snow_depth, units));
        let plot = next(&scales[0]);
        plot.frame(svg, "snow on the roof", Quantity::Depth.unit(units));
        area(svg, "snow", &plot, &snow, SNOW);
        let plot = next(&scales[1]);
        plot.frame(svg, "deck", Quantity::Temperature.unit(units));
        let coldest = days(log, |i| shown(over_attic(&states[i]).fold(f64::INFINITY, f64::min), units));
        let warmest = days(log, |i| shown(over_attic(&states[i]).fold(f64::NEG_INFINITY, f64::max), units));
        let decks: Days =
            coldest.iter().zip(&warmest).map(|(a, b)| [a[0], f64::midpoint(a[1], b[1]), b[2]]).collect();
        band(svg, &plot, &decks);
        freezing(svg, &plot, units);
        let plot = next(&scales[2]);
        plot.frame(svg, "ice on the eave", Quantity::Ice.unit(units));
        let ice = days(log, |i| Quantity::Ice.shown(states[i].ice, units));
        area(svg, "ice", &plot, &ice, ICE);
        let sun = days(log, |i| Quantity::Ice.shown(states[i].sun_ice, units));
        svg.stroke("sun-ice", &Path::open(&line(&plot, &sun, 1)), &SUN);
        top + STATE.iter().sum::<f64>() * unit
    }

    /// Names of the months under the plots, and lines where they begin.
    fn months(&self, svg: &mut Svg, ends: P2) {
        let weather = &self.scene.log.weather;
        let plot = self.plot(0.0, 1.0, std::iter::empty());
        let x = |hour: usize| plot.x(hour as f64 / weather.len().max(1) as f64);
        let mut from = 0;
        for month in weather.chunk_by(|a, b| a.date.month() == b.date.month()) {
            let to = from + month.len();
            if from > 0 {
                upright(svg, "month", x(from), ends);
            }
            let name = month.first().map_or("", |hour| month_of(hour));
            let text = Text::new(name, [f64::midpoint(x(from), x(to)), ends[1] + 1.2 * LINE * 0.6], SMALL);
            if text.width() < x(to) - x(from) {
                svg.text("month", &text);
            }
            from = to;
        }
    }

    fn told(&self) -> String {
        let most = |states: &[LoggedState]| states.iter().map(|hour| hour.ice).fold(0.0, f64::max);
        let ice = |states: &[LoggedState]| super::written(Quantity::Ice, most(states), self.scene.units);
        let log = self.scene.log;
        format!(
            "The winter of {} day by day: air and snowfall; snow on the roof, deck temperature and ice on the worst eave as found and as planned. Most ice: {} \
             as found, {} as planned.",
            self.scene.winter.weather,
            ice(&log.found),
            ice(&log.plan)
        )
    }
}

fn month_of(hour: &Outdoors) -> &'static str {
    MONTHS.get(usize::from(hour.date.month()).wrapping_sub(1)).copied().unwrap_or("")
}

/// So that a dry winter has a scale too.
fn falls_at_least(units: Units) -> f64 {
    Quantity::Fall.shown(5.0, units)
}

fn shown(value: f64, units: Units) -> f64 {
    Quantity::Temperature.shown(value, units)
}

/// Decks over the attic: the first band is the overhang.
fn over_attic(state: &LoggedState) -> impl Iterator<Item = f64> {
    state.decks.iter().skip(1).copied()
}

/// Days of something by the number of the hour.
fn days(log: &Log, of: impl Fn(usize) -> f64) -> Days {
    let hours: Vec<usize> = (0..log.weather.len()).collect();
    let day = |hours: &[usize]| {
        let values = hours.iter().map(|hour| of(*hour));
        let (low, sum, high) = values.fold((f64::INFINITY, 0.0, f64::NEG_INFINITY), |(low, sum, high), v| {
            (low.min(v), sum + v, high.max(v))
        });
        [low, sum / hours.len() as f64, high]
    };
    hours.chunks(DAY).map(day).filter(|day| day.iter().all(|value| value.is_finite())).collect()
}

/// One of the three through the days.
fn line(plot: &Plot, days: &Days, which: usize) -> Vec<P2> {
    let count = days.len().max(1) as f64;
    days.iter().enumerate().map(|(i, day)| [plot.x((i as f64 + 0.5) / count), plot.y(day[which])]).collect()
}

/// From lowest to highest as a tone, the mean as a line.
fn band(svg: &mut Svg, plot: &Plot, days: &Days) {
    if days.is_empty() {
        return;
    }
    let low = line(plot, days, 0);
    let around: Vec<P2> = low.into_iter().chain(line(plot, days, 2).into_iter().rev()).collect();
    svg.fill("range", &Path::closed(&around), TONE);
    svg.stroke("mean", &Path::open(&line(plot, days, 1)), &Pen { width: 0.3, ..FOUND });
}

/// From nought to the mean as a tone.
fn area(svg: &mut Svg, class: &str, plot: &Plot, days: &Days, tone: &'static str) {
    let mean = line(plot, days, 1);
    let (Some(first), Some(last)) = (mean.first(), mean.last()) else { return };
    let foot = [[last[0], plot.high[1]], [first[0], plot.high[1]]];
    let around: Vec<P2> = mean.iter().copied().chain(foot).collect();
    svg.fill(class, &Path::closed(&around), tone);
    svg.stroke(class, &Path::open(&mean), &Pen { width: 0.3, ..FOUND });
}

fn freezing(svg: &mut Svg, plot: &Plot, units: Units) {
    let y = plot.y(Quantity::Temperature.shown(0.0, units));
    svg.stroke("freezing", &Path::open(&[[plot.low[0], y], [plot.high[0], y]]), &FREEZING);
}
