//! A detail cut through: its wood, and its layers numbered in the order they are laid.
//!
//! Lengths along the wood are to scale. Across it, layers are drawn apart so that each can be followed; how far they really lie apart is their
//! own thickness. A ruler along the inside of the wood counts from the joint.

mod bend;
mod legend;
mod marks;
mod short;
mod strip;
mod tags;
mod through;

use book::{Book, LookupError};
use detail::{Details, Section};
use job::Units;
use measure::Length;
use takeoff::{Dimension, drawn_short};

use self::bend::Bend;
pub use self::legend::{layer_covers, layer_held, layer_laps};
pub use self::strip::{laying_strip, laying_strips};
use self::tags::TagPlace;
use crate::figure::{Figure, file_name, sheet_size};
use crate::ink::{FAINT, FINE, INK, Pen, WATER};
use crate::polygon::Bounds;
use crate::scale::Scale;
use crate::svg::{Path, Svg};
use crate::vector::P2;

/// How to draw a section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionOptions {
    /// Width and height of the picture; at least 110 mm each way is used, and more height where the list of layers asks it.
    pub size_mm: (f64, f64),
    /// How numbers are written, and which rule the scale is from.
    pub units: Units,
    /// Who reads it.
    pub reader: Reader,
    /// How far layers that are drawn short reach on the house, from the least to the most; none where nobody asks.
    pub short: Option<[Length; 2]>,
}

/// Who reads a section.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reader {
    /// Somebody at a desk: the list of layers stands under the drawing.
    Desk,
    /// The crew: numbers in 14 pt, no list; it stands on the page, as large.
    Crew,
}

/// Sizes of what is written in a section and how far off it stands, mm.
#[derive(Clone, Copy, Debug)]
struct Hand {
    tag: f64,
    ruler: f64,
    /// Which tick of the ruler has a number: each so many inches, or times 25 mm.
    numbered: u32,
    /// How far outside the layers tags and water arrows stand.
    tag_off: f64,
    arrow_off: f64,
    /// Least distance between tags.
    tag_room: f64,
    /// Room around the drawing for tags and ruler.
    margin: f64,
    /// Room under it where nothing but the ruler stands.
    foot: f64,
}

impl Reader {
    const fn hand(self) -> Hand {
        match self {
            Self::Desk => Hand {
                tag: 3.4,
                ruler: 2.5,
                numbered: 6,
                tag_off: 6.0,
                arrow_off: 11.0,
                tag_room: 6.0,
                margin: 13.0,
                foot: 13.0,
            },
            Self::Crew => Hand {
                tag: 4.94,
                ruler: 4.94,
                numbered: 12,
                tag_off: 8.0,
                arrow_off: 14.5,
                tag_room: 8.2,
                margin: 17.0,
                foot: 9.5,
            },
        }
    }
}

/// Room between layers on paper, mm.
const GAP: f64 = 1.7;
/// Thickness of the wood on paper, mm.
const WOOD: f64 = 3.2;
/// Tone inside shingles, siding and the like.
const BAND: &str = "#bdbdbd";
/// Of layers that lie already.
const EARLIER: &str = "#8a8a8a";
/// Least room for an arrow of water, mm.
const LEAST_ARROW: f64 = 7.0;
/// Radius of the ring of water that runs towards the reader, mm.
const TOWARDS: f64 = 1.5;
/// Least height of the drawing itself, mm.
const LEAST_HEIGHT: f64 = 45.0;

/// Draws a detail's section, for the desk with its list of layers.
pub fn section(section: &Section<'_>, options: &SectionOptions) -> Figure {
    let hand = options.reader.hand();
    let mut size = match options.reader {
        Reader::Desk => sheet_size(options.size_mm),
        Reader::Crew => [options.size_mm.0.max(110.0), options.size_mm.1],
    };
    let legend = legend::Legend::new(section, options, size[0] - 6.0);
    let listed = if options.reader == Reader::Desk { legend.height() } else { 0.0 };
    // A sheet too low for its legend grows: a drawing of no height would say nothing.
    size[1] = size[1].max(listed + 2.0 * hand.margin + LEAST_HEIGHT);
    let at = |scale: &Scale| Drawing {
        section,
        bend: Bend::new(section, scale.mm_per_m()),
        units: options.units,
        stack: Bend::deepest(section) * GAP,
        hand,
        short: options.short,
    };
    let fits = |scale: &Scale| {
        let is_in = |bounds: Bounds| bounds.width() <= size[0] && bounds.height() <= size[1] - listed;
        let drawing = at(scale);
        // where the wood alone has no room, numbers need not be placed
        is_in(drawing.bare()) && is_in(drawing.bounds())
    };
    let scale = Scale::first(options.units, fits);
    let drawing = at(&scale);
    let bounds = drawing.bounds();
    if options.reader == Reader::Crew {
        size[1] = bounds.height(); // the page is full: none of it is left bare
    }
    let middle = bounds.at([0.5, 0.5]);
    let drawing = drawing.moved([size[0] / 2.0 - middle[0], (size[1] - listed) / 2.0 - middle[1]]);
    let mut svg = Svg::default();
    drawing.draw(&mut svg);
    if options.reader == Reader::Desk {
        legend.draw(&mut svg, [3.0, size[1] - legend.height()], &scale.name);
    }
    let alt = legend.told();
    let svg = svg.finish(size, &section.detail.name, &alt);
    Figure { svg, width_mm: size[0], height_mm: size[1], alt }
}

/// Draws every detail that is to be built on a house, each once for each pitch it is cut at, with a name of its own. The dimensions are
/// those of the places, in their order.
///
/// # Errors
/// Rows the books do not have.
pub fn sections(
    details: &Details,
    dimensions: &[Vec<Dimension>],
    book: &Book,
    options: &SectionOptions,
) -> Result<Vec<(String, Figure)>, LookupError> {
    let drawn = each_planned(details, book, |cut, places| {
        let here = places.iter().filter_map(|place| dimensions.get(*place)).flatten();
        section(cut, &SectionOptions { short: drawn_short(here), ..*options })
    })?;
    Ok(drawn.into_iter().map(|(name, figure)| (file_name(&format!("section {name}")), figure)).collect())
}

/// What is drawn of every detail that is to be built, each once for each pitch it is cut at, with the names of both.
fn each_planned<T>(
    details: &Details,
    book: &Book,
    draw: impl Fn(&Section<'_>, &[usize]) -> T,
) -> Result<Vec<(String, T)>, LookupError> {
    let mut drawn = Vec::new();
    for built in details.built() {
        let section = Section::of(book.detail(&built.fit.detail)?, built.fit.at, book)?;
        drawn.push((built.fit.cut_name(), draw(&section, &built.places)));
    }
    Ok(drawn)
}

struct Drawing<'a> {
    section: &'a Section<'a>,
    bend: Bend,
    units: Units,
    /// Depth of all layers on paper.
    stack: f64,
    hand: Hand,
    short: Option<[Length; 2]>,
}

/// How heavy a layer is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Weight {
    /// As all the others.
    Even,
    /// The one a picture is about.
    New,
    /// One that lies already.
    Earlier,
}

impl Weight {
    const fn times(self) -> f64 {
        match self {
            Self::Even => 1.0,
            Self::New => 1.7,
            Self::Earlier => 0.6,
        }
    }

    const fn colour(self, own: &'static str) -> &'static str {
        match self {
            Self::Even => own,
            Self::New => INK,
            Self::Earlier => EARLIER,
        }
    }
}

impl Drawing<'_> {
    fn draw(&self, svg: &mut Svg) {
        self.wood(svg);
        let mut numbers = Vec::new();
        for face in 0..self.section.faces.len() {
            self.ruler(svg, face, &mut numbers);
        }
        self.through(svg);
        for index in 0..self.section.sheets.len() {
            self.layer(svg, index, Weight::Even);
        }
        self.fasteners(svg, 0..self.section.sheets.len());
        self.breaks(svg, 0..self.section.sheets.len());
        self.water(svg);
        self.tags(svg);
        for line in self.told_under() {
            svg.text("drawn-short", &line);
        }
    }

    /// The wood, by face.
    fn wood(&self, svg: &mut Svg) {
        for (face, laid) in self.section.faces.iter().enumerate() {
            let ring = self.bend.band(face, -WOOD);
            let fill = if laid.face.masonry { "#d9d9d9" } else { "#ececec" };
            svg.shape("wood", &Path::closed(&ring), fill, &FINE);
            self.grain(svg, face, laid.face.masonry);
        }
    }

    /// Strokes that tell masonry, drawn aslant, from wood, drawn along.
    fn grain(&self, svg: &mut Svg, face: usize, is_masonry: bool) {
        let span = self.section.faces[face].span;
        let mut path = Path::default();
        if is_masonry {
            let count = (span.length() * self.bend.mm_per_m / 3.0).floor().max(1.0);
            let mut step = 0.5;
            while step < count {
                let at = span.from + span.length() * step / count;
                path = path.and_open(&[self.bend.at(face, at, 0.0), self.bend.at(face, at, -WOOD)]);
                step += 1.0;
            }
        } else {
            path =
                path.and_open(&[-WOOD / 2.0, -WOOD / 2.0].map(|depth| self.bend.at(face, span.from, depth)));
            path = path.and_open(&[span.from, span.to].map(|at| self.bend.at(face, at, -WOOD / 2.0)));
        }
        svg.stroke("grain", &path, &Pen { width: 0.12, dash: &[4.0, 1.5], colour: FAINT });
    }

    fn layer(&self, svg: &mut Svg, index: usize, weight: Weight) {
        if self.section.sheets[index].layer.let_in {
            self.let_in(svg, index, weight);
        }
        let lines = self.bend.lines(self.section, index);
        let line = lines.iter().fold(Path::default(), |path, line| path.and_open(line));
        let mut stroke = |width: f64, dash: &'static [f64], colour: &'static str| {
            let pen = Pen { width: width * weight.times(), dash, colour: weight.colour(colour) };
            svg.stroke("layer", &line, &pen);
        };
        match self.section.sheets[index].material.drawn {
            book::Look::Sheet => stroke(0.35, &[2.2, 0.9], INK),
            book::Look::Membrane => stroke(0.95, &[], INK),
            book::Look::Metal => {
                stroke(0.45, &[], WATER);
                let ends = lines.iter().flat_map(|line| line.first().into_iter().chain(line.last()));
                let radius = 0.6 * weight.times().min(1.3);
                ends.for_each(|end| {
                    svg.fill("layer-end", &Path::circle(*end, radius), weight.colour(WATER));
                });
            }
            book::Look::Band => {
                stroke(1.5, &[], INK);
                let pen = Pen { width: 1.5 * weight.times() - 0.4, dash: &[], colour: BAND };
                svg.stroke("layer", &line, &pen);
            }
        }
    }

    /// The high end of a layer that is let in goes on into the wall.
    fn let_in(&self, svg: &mut Svg, index: usize, weight: Weight) {
        let on =
            (0..self.section.stretches.len()).filter(|i| self.section.stretches[*i].layers.contains(&index));
        let height = |i: &usize| self.section.stretches[*i].height;
        let Some(highest) = on.max_by(|a, b| height(a).total_cmp(&height(b))) else { return };
        let Some(depth) = Bend::depth(self.section, highest, index) else { return };
        let stretch = &self.section.stretches[highest];
        let face = &self.section.faces[stretch.face];
        let ends = [stretch.span.from, stretch.span.to];
        let end = if face.height(ends[0]) > face.height(ends[1]) { ends[0] } else { ends[1] };
        let path = Path::open(&[depth, -WOOD * 0.6].map(|depth| self.bend.at(stretch.face, end, depth)));
        svg.stroke(
            "let-in",
            &path,
            &Pen { width: 0.45 * weight.times(), dash: &[], colour: weight.colour(WATER) },
        );
    }

    /// With its place on paper moved.
    fn moved(self, shift: P2) -> Self {
        Self { bend: self.bend.moved(shift), ..self }
    }

    /// What wood and layers take on paper, with the room around them.
    fn bare(&self) -> Bounds {
        let wood = self.bend.bounds(self.stack);
        let Hand { margin, foot, .. } = self.hand;
        let above = self.hand.arrow_off + 2.0;
        Bounds::of([
            [wood.low[0] - margin, wood.low[1] - above.min(margin)],
            [wood.high[0] + margin, wood.high[1] + foot],
        ])
    }

    /// All it takes on paper, tags and ruler with it.
    fn bounds(&self) -> Bounds {
        let bare = self.bare();
        let tag = self.hand.tag;
        let tags = self.placed_tags().into_iter();
        let rooms = tags.flat_map(|TagPlace { at: [x, y], .. }| [[x - tag, y - tag], [x + tag, y + tag]]);
        let told = self.told_under().into_iter();
        let told = told.flat_map(|line| [line.at, [line.at[0] + line.width(), line.at[1] + line.size]]);
        Bounds::of([bare.low, bare.high].into_iter().chain(rooms).chain(told))
    }
}
