//! Which survey figures behind a quantity nobody measured.
//!
//! A figure the books filled in gets a because of its own, marked as assumed, in every line that rests on it.
//!
//! # What it does not judge
//! How far a quantity moves with the figure. Plates are taken to shape a roof wherever there are several blocks, fascias
//! only where a roof ends at another one's soffit or passes under it with little to spare.

use std::collections::BTreeMap;

use book::{Because, Confidence, Kind, Source};
use job::{Basis, Block, EdgeSlope, Figure, Form, Overhang};
use measure::Length;
use roof::EdgeKind;

use crate::case::Case;
use crate::line::{because, input};

/// Spreads of the assumed fascia within which a gap above a roof might close.
const SPREADS: f64 = 3.0;

impl Case<'_> {
    /// The because of a figure, if it is assumed.
    pub(crate) fn assumed<T>(&self, of: &str, figure: &Figure<T>) -> Option<Because> {
        Some(self.assumption(of, key(figure)?))
    }

    /// Because of what is assumed in the shape of the roof, each default once.
    pub(crate) fn assumed_shape(&self) -> Vec<Because> {
        let mut blocks: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        for block in &self.job.blocks {
            for key in self.assumed_keys(block) {
                let named = blocks.entry(key).or_default();
                if named.last() != Some(&block.name.as_str()) {
                    named.push(&block.name);
                }
            }
        }
        blocks.into_iter().map(|(key, named)| self.assumption(&named.join(", "), key)).collect()
    }

    fn assumption(&self, of: &str, key: &str) -> Because {
        let mut inputs = vec![input("of", of)];
        let (mut what, mut text) = (key.to_owned(), "the job says it is unknown".to_owned());
        if let Some(row) = self.book.default(key) {
            inputs.push(input("value taken", row.value.to_string()));
            inputs.extend(row.spread.as_ref().map(|spread| input("may be off by", spread.to_string())));
            (what, text) = (row.what.clone(), row.source.text.clone());
        }
        let source = Source { text, confidence: Confidence::Assumed };
        because(
            format!("assumed: {what}"),
            inputs,
            "not measured; the default of the books stands in",
            source,
        )
    }

    /// Keys of the defaults that stand in for figures of a block's roof.
    fn assumed_keys<'b>(&self, block: &'b Block) -> Vec<&'b str> {
        let is_alone = self.job.blocks.len() == 1;
        let mut keys: Vec<Option<&str>> = Vec::new();
        for edge in block.edges.iter().flatten() {
            if let Overhang::Run(run) = &edge.overhang {
                keys.push(key(run));
            }
            if let EdgeSlope::Pitch(pitch) = &edge.slope {
                keys.push(key(pitch));
            }
            keys.push(key(&edge.plate).filter(|_| !is_alone));
        }
        keys.push(key(&block.fascia).filter(|_| self.fascia_matters(block)));
        keys.extend(form_keys(&block.form));
        keys.into_iter().flatten().collect()
    }

    /// Whether a roof ends at a block's soffit, or passes under it so close that another fascia might meet it.
    fn fascia_matters(&self, block: &Block) -> bool {
        let spread = self.book.default("block.fascia").and_then(|row| Length::of(row.spread.as_ref()?));
        let close = |gap: Length| spread.is_none_or(|spread| gap < spread * SPREADS);
        let is_under =
            |edge: &roof::Edge| edge.kind == EdgeKind::Soffit && edge.wall_of.as_ref() == Some(&block.name);
        self.roof.passages.iter().any(|passage| passage.under == block.name && close(passage.gap))
            || self.roof.edges.iter().any(is_under)
    }
}

fn form_keys(form: &Form) -> Vec<Option<&str>> {
    match form {
        Form::Plain => Vec::new(),
        Form::HalfHip { from, pitch } => vec![key(from), key(pitch)],
        Form::HipSkirt { run, .. } => vec![key(run)],
        Form::Broken { run, upper } => vec![key(run), key(upper)],
    }
}

fn key<T>(figure: &Figure<T>) -> Option<&str> {
    if let Basis::Assumed { key } = &figure.basis { Some(key) } else { None }
}
