//! A detail cut through: its faces laid out in one line, and what lies on each stretch of it.
//!
//! The line runs along the wood from the far end of the first face to the far end of the last; zero is the first joint. Where any layer,
//! face or guarded stretch begins or ends, the line is divided: within a *stretch* the same layers lie on one another throughout.
//!
//! # Units
//! Metres along the wood, and metres of height above the first joint. Layers are listed from the wood outward; papers number them in the order they
//! are laid.

use std::collections::BTreeMap;
use std::fmt;

use book::{
    Act, Book, CLADDING, Cladding, Coming, Detail, Face, Falls, Fixing, Layer, LookupError, Material, Reach,
    Role, Stands,
};
use measure::{Length, Pitch};

/// Places closer than this are one, metres.
pub(crate) const SAME: f64 = 1e-6;

/// A run of the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Where it begins, towards the first face.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

impl Span {
    /// Its length.
    pub fn length(self) -> f64 {
        self.to - self.from
    }

    /// What it shares with another; of no or negative length if nothing.
    #[must_use]
    pub fn shared(self, other: Self) -> Self {
        Self { from: self.from.max(other.from), to: self.to.min(other.to) }
    }

    /// Whether all of another lies in it.
    pub fn holds(self, other: Self) -> bool {
        self.from <= other.from + SAME && self.to >= other.to - SAME
    }

    pub(crate) fn touches(self, other: Self) -> bool {
        self.shared(other).length() > SAME
    }
}

/// The pitches of the roof that a section is cut through: of its first pitched face, and of those after it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slopes {
    /// Of the first pitched face.
    pub first: Pitch,
    /// Of the others.
    pub then: Pitch,
}

impl From<Pitch> for Slopes {
    fn from(pitch: Pitch) -> Self {
        Self { first: pitch, then: pitch }
    }
}

impl fmt::Display for Slopes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { first, then } = self;
        if first == then { first.fmt(f) } else { write!(f, "{first} and {then}") }
    }
}

/// Where a section is cut: the pitches, and what the wall is clad with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// The pitches.
    pub slopes: Slopes,
    /// What layers of cladding are; none where there is no wall, or any will do: then it counts nothing.
    pub cladding: Option<Cladding>,
    /// How far up the slope ice barrier was found to reach at the eave; none where it lies as the detail draws it.
    pub barrier: Option<Length>,
}

impl From<Slopes> for Setting {
    fn from(slopes: Slopes) -> Self {
        Self { slopes, cladding: None, barrier: None }
    }
}

impl From<Pitch> for Setting {
    fn from(pitch: Pitch) -> Self {
        Slopes::from(pitch).into()
    }
}

/// A detail laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Section<'a> {
    /// The detail.
    pub detail: &'a Detail,
    /// Where its faces lie on the line, first to last.
    pub faces: Vec<Laid<'a>>,
    /// Its layers, from the wood outward.
    pub sheets: Vec<Sheet<'a>>,
    /// The line in pieces on which nothing changes, first to last.
    pub stretches: Vec<Stretch>,
}

/// A face in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid<'a> {
    /// The face.
    pub face: &'a Face,
    /// Where it lies.
    pub span: Span,
    /// Height of its start above the first joint, and of its end.
    pub heights: [f64; 2],
}

/// A layer in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet<'a> {
    /// The layer.
    pub layer: &'a Layer,
    /// What it is made of.
    pub material: &'a Material,
    /// Where it lies.
    pub span: Span,
    /// Where fasteners go through it.
    pub fixings: Vec<(Span, &'a Fixing)>,
}

impl Sheet<'_> {
    /// Whether it does that, in the state it is in.
    pub fn acts(&self, act: Act) -> bool {
        !self.layer.spent && self.material.does(act)
    }

    /// Whether it keeps out water that comes this way.
    pub fn stops(&self, coming: Coming) -> bool {
        !self.layer.spent && self.material.stops.contains(&coming)
    }
}

/// A piece of the line on which nothing changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Where it lies.
    pub span: Span,
    /// Height of its middle above the first joint.
    pub height: f64,
    /// Which face it is on.
    pub face: usize,
    /// Whether the wood here is the detail's to keep dry.
    pub guarded: bool,
    /// Layers on it, from the wood outward.
    pub layers: Vec<usize>,
}

impl<'a> Section<'a> {
    /// The detail laid out where it is cut: on a roof of a pitch or of two that meet, beside a wall of a cladding.
    ///
    /// # Errors
    /// Materials the books do not have.
    pub fn of(detail: &'a Detail, at: impl Into<Setting>, book: &'a Book) -> Result<Self, LookupError> {
        let Setting { slopes, cladding, barrier } = at.into();
        let faces = laid(&detail.faces, slopes);
        let material = |layer: &Layer| match cladding.filter(|_| layer.material == CLADDING) {
            Some(cladding) => book.cladding(cladding),
            None => book.material(&layer.material),
        };
        let sheets: Result<Vec<Sheet<'a>>, LookupError> =
            detail.layers.iter().map(|layer| Ok(sheet(layer, material(layer)?, &faces, barrier))).collect();
        let mut section = Self { detail, faces, sheets: sheets?, stretches: Vec::new() };
        section.stretches = section.divided();
        Ok(section)
    }

    /// Its layers' indices in the order they are laid.
    pub fn laying(&self) -> Vec<usize> {
        self.detail.laying()
    }

    /// The number of a layer on papers: its turn in the order they are laid.
    pub fn number(&self, layer: usize) -> usize {
        self.laying().iter().position(|other| *other == layer).map_or(layer + 1, |turn| turn + 1)
    }

    /// Spans on the line of what a table says by face.
    pub fn spans(&self, reaches: &BTreeMap<String, Reach>) -> Vec<Span> {
        spans(reaches, &self.faces)
    }

    /// The stretch that holds a place of the line.
    pub fn stretch_at(&self, place: f64) -> Option<usize> {
        self.stretches.iter().position(|stretch| stretch.span.from <= place && place < stretch.span.to)
    }

    /// Which way water runs on a stretch.
    pub fn falls(&self, stretch: usize) -> Falls {
        self.faces[self.stretches[stretch].face].face.falls
    }

    fn divided(&self) -> Vec<Stretch> {
        let guarded = self.spans(&self.detail.guards);
        let forbidden = self.spans(&self.detail.no_fasteners);
        let ponds = self.detail.ice.iter().chain(&self.detail.gutter).flat_map(|pond| self.spans(&pond.on));
        let fixings = self.sheets.iter().flat_map(|sheet| sheet.fixings.iter().map(|(span, _)| *span));
        let all = self.faces.iter().map(|laid| laid.span).chain(self.sheets.iter().map(|sheet| sheet.span));
        let mut cuts: Vec<f64> = all
            .chain(guarded.iter().copied())
            .chain(forbidden)
            .chain(ponds)
            .chain(fixings)
            .flat_map(|span| [span.from, span.to])
            .collect();
        cuts.extend(self.water_lines());
        cuts.sort_by(f64::total_cmp);
        cuts.dedup_by(|a, b| (*a - *b).abs() < SAME);
        let spans = cuts.windows(2).map(|ends| Span { from: ends[0], to: ends[1] });
        spans.filter_map(|span| self.stretch(span, &guarded)).collect()
    }

    /// Where standing water ends on the faces.
    fn water_lines(&self) -> Vec<f64> {
        let heights = self.detail.ice.iter().chain(&self.detail.gutter).map(|pond| pond.height.m());
        let on = |height: f64| self.faces.iter().filter_map(move |laid| laid.at(height));
        heights.flat_map(on).collect()
    }

    fn stretch(&self, span: Span, guarded: &[Span]) -> Option<Stretch> {
        let face = self.faces.iter().position(|laid| laid.span.touches(span))?;
        let on = |index: &usize| self.sheets[*index].span.touches(span);
        Some(Stretch {
            span,
            height: self.faces[face].height(f64::midpoint(span.from, span.to)),
            face,
            guarded: guarded.iter().any(|guard| guard.touches(span)) && !self.faces[face].face.masonry,
            layers: (0..self.sheets.len()).filter(on).collect(),
        })
    }
}

impl Laid<'_> {
    /// Height above the first joint of a place on it.
    pub fn height(&self, place: f64) -> f64 {
        let [from, to] = self.heights;
        from + (to - from) * (place - self.span.from) / self.span.length()
    }

    /// The place on it at a height, if it passes through it.
    fn at(&self, height: f64) -> Option<f64> {
        let [from, to] = self.heights;
        let part = (height - from) / (to - from);
        (0.0..=1.0).contains(&part).then(|| self.span.from + part * self.span.length())
    }
}

/// Faces in line, the first joint at zero.
fn laid(faces: &[Face], slopes: Slopes) -> Vec<Laid<'_>> {
    let mut all: Vec<Laid<'_>> = Vec::with_capacity(faces.len());
    for (index, face) in faces.iter().enumerate() {
        let length = face.shown.m();
        let is_first = index == 0 && faces.len() > 1;
        let from = if is_first { -length } else { all.last().map_or(0.0, |before| before.span.to) };
        let is_first_pitched = !faces[..index].iter().any(|before| before.stands == Stands::Pitched);
        let pitch = if is_first_pitched { slopes.first } else { slopes.then };
        let down = fall(face, pitch) * length;
        let joint = all.last().map_or(0.0, |before| before.heights[1]);
        let heights = if is_first { [down, 0.0] } else { [joint, joint - down] };
        all.push(Laid { face, span: Span { from, to: from + length }, heights });
    }
    all
}

/// Height lost along a face towards its end, per length.
fn fall(face: &Face, pitch: Pitch) -> f64 {
    let steep = match face.stands {
        Stands::Level => 0.0,
        Stands::Upright => 1.0,
        Stands::Pitched => pitch.slope() / pitch.slope_factor(),
    };
    match face.falls {
        Falls::On => steep,
        Falls::Back => -steep,
        Falls::Along => 0.0,
    }
}

fn sheet<'a>(
    layer: &'a Layer,
    material: &'a Material,
    faces: &[Laid<'_>],
    barrier: Option<Length>,
) -> Sheet<'a> {
    let found = barrier.filter(|_| layer.role == Some(Role::EaveBarrier)).zip(layer.drawn_short.as_ref());
    let on = |(index, laid): (usize, &Laid<'_>)| {
        let reach = layer.covers.get(&laid.face.name)?;
        match (reach, found.filter(|(_, face)| **face == laid.face.name)) {
            (Reach::Between([from, _]), Some((up, _))) => {
                Some(placed((index, laid), from.m(), up.m().clamp(from.m() + SAME, laid.span.length())))
            }
            _ => Some(reached((index, laid), reach)),
        }
    };
    let covered: Vec<Span> = faces.iter().enumerate().filter_map(on).collect();
    let ends = covered.iter().copied().reduce(|a, b| Span { from: a.from.min(b.from), to: a.to.max(b.to) });
    let fixing = |fixing: &'a Fixing| {
        let laid = faces.iter().enumerate().find(|(_, laid)| laid.face.name == fixing.face)?;
        Some((placed(laid, fixing.between[0].m(), fixing.between[1].m()), fixing))
    };
    Sheet {
        layer,
        material,
        span: ends.unwrap_or(Span { from: 0.0, to: 0.0 }),
        fixings: layer.fixed.iter().filter_map(fixing).collect(),
    }
}

fn spans(reaches: &BTreeMap<String, Reach>, faces: &[Laid<'_>]) -> Vec<Span> {
    let on = |(index, laid): (usize, &Laid<'_>)| Some(reached((index, laid), reaches.get(&laid.face.name)?));
    faces.iter().enumerate().filter_map(on).collect()
}

fn reached(on: (usize, &Laid<'_>), reach: &Reach) -> Span {
    match reach {
        Reach::All => on.1.span,
        Reach::Between([from, to]) => placed(on, from.m(), to.m()),
    }
}

/// From places on a face to the line: the first face counts back from its joint with the next.
fn placed((index, laid): (usize, &Laid<'_>), from: f64, to: f64) -> Span {
    if index == 0 && laid.span.to.abs() < SAME {
        Span { from: -to, to: -from }
    } else {
        Span { from: laid.span.from + from, to: laid.span.from + to }
    }
}
