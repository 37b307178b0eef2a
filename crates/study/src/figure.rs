//! The figures of a block that an adjustment may change: where they stand and what kind of number each is.

use book::Book;
use job::{Basis, Block, EdgeSlope, Figure, Form, Overhang, Span};
use measure::{Length, Pitch};

use crate::value::Value;

/// What an unknown is. Equal numbers of one kind are one unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Kind {
    /// A wall line along the house's y, at this x.
    LineX,
    /// A wall line along the house's x, at this y.
    LineY,
    /// Height of a wall plate.
    Plate,
    /// Pitch of a plane.
    Pitch,
    /// Overhang.
    Overhang,
    /// Run from wall line to the break of a slope, or to the foot of a small gable.
    Break,
    /// Height above the plate at which a half-hip starts.
    Start,
}

impl Kind {
    /// The trade's word, for naming a figure of a block.
    pub(crate) const fn word(self) -> &'static str {
        match self {
            Self::LineX | Self::LineY => "wall line",
            Self::Plate => "plate",
            Self::Pitch => "pitch",
            Self::Overhang => "overhang",
            Self::Break => "run to the break",
            Self::Start => "start of the half-hip",
        }
    }
}

/// A figure as written, or as the books filled it in.
#[derive(Clone, Debug)]
pub(crate) struct Written {
    pub(crate) kind: Kind,
    pub(crate) value: Value,
    pub(crate) basis: Basis,
    pub(crate) span: Span,
}

impl Written {
    /// Whether it was measured or assumed as something other than nothing. The rest follows from other figures, or says that
    /// there is none of it, and is held.
    pub(crate) fn is_free(&self) -> bool {
        self.basis != Basis::Derived && self.value.si() > 0.0
    }

    /// Key of the default that stands in for it.
    pub(crate) fn assumed(&self) -> Option<&str> {
        match &self.basis {
            Basis::Assumed { key } => Some(key),
            Basis::Measured | Basis::Derived => None,
        }
    }

    /// Spread of that default, where the books know one.
    pub(crate) fn assumed_spread(&self, book: &Book) -> Option<Value> {
        let spread = book.default(self.assumed()?)?.spread.as_ref()?;
        Value::of(spread)
    }
}

/// The figures of a block, in the order of its edges, those of its form last.
pub(crate) fn figures(block: &Block) -> Vec<Written> {
    let mut all = Vec::new();
    change(&mut block.clone(), |written| {
        all.push(written.clone());
        written.value
    });
    all
}

/// Gives each figure of a block the value `to` says.
pub(crate) fn change(block: &mut Block, mut to: impl FnMut(&Written) -> Value) {
    for edge in block.edges.iter_mut().flatten() {
        length(Kind::Plate, &mut edge.plate, &mut to);
        if let EdgeSlope::Pitch(figure) = &mut edge.slope {
            pitch(figure, &mut to);
        }
        if let Overhang::Run(run) = &mut edge.overhang {
            length(Kind::Overhang, run, &mut to);
        }
    }
    match &mut block.form {
        Form::Plain => {}
        Form::HalfHip { from, pitch: figure } => {
            length(Kind::Start, from, &mut to);
            pitch(figure, &mut to);
        }
        Form::HipSkirt { run, .. } => length(Kind::Break, run, &mut to),
        Form::Broken { run, upper } => {
            length(Kind::Break, run, &mut to);
            pitch(upper, &mut to);
        }
    }
}

fn length(kind: Kind, figure: &mut Figure<Length>, to: &mut impl FnMut(&Written) -> Value) {
    figure.value = Length::from_m(to(&written(kind, Value::Length(figure.value), figure)).si());
}

fn pitch(figure: &mut Figure<Pitch>, to: &mut impl FnMut(&Written) -> Value) {
    figure.value = Pitch::from_slope(to(&written(Kind::Pitch, Value::Pitch(figure.value), figure)).si());
}

fn written<T>(kind: Kind, value: Value, figure: &Figure<T>) -> Written {
    Written { kind, value, basis: figure.basis.clone(), span: figure.span.clone() }
}
