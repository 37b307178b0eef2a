//! How far the roof reaches out over each edge, once it is known which edges are eaves.

use std::collections::BTreeMap;

use book::Kind;
use measure::Length;

use crate::read::node::child;
use crate::read::notation::{Reach, Reaches};
use crate::read::table::Table;
use crate::{EdgeSlope, Figure, Overhang, Problem, Side, Span};

/// Gives each edge its overhang, assuming each default once.
pub(super) struct OverhangReader<'b> {
    reaches: &'b Reaches,
    /// Defaults taken so far, by the field they stand in for.
    assumed: BTreeMap<String, Figure<Length>>,
}

impl<'b> OverhangReader<'b> {
    pub(super) fn new(reaches: &'b Reaches) -> Self {
        Self { reaches, assumed: BTreeMap::new() }
    }

    /// The overhang of a side: its own, or else that of eaves where it slopes and of rakes where it does not.
    pub(super) fn of(
        &mut self,
        side: Side,
        slope: &EdgeSlope,
        table: &mut Table<'_, '_>,
    ) -> Option<Overhang> {
        let (word, reach) = match slope {
            EdgeSlope::Pitch(_) => ("eave", self.reaches.at_eave(side)),
            EdgeSlope::Gable => ("rake", self.reaches.at_rake(side)),
        };
        let named = self.reaches.sides.iter().any(|(named, _)| named.value == side);
        let key = if named { side.to_string() } else { word.to_owned() };
        match reach {
            Some(Reach::Written(Overhang::LevelWith { span, .. })) if word == "rake" => {
                table.desk.refuse(level_rake(span, table))
            }
            Some(Reach::Written(overhang)) => Some(overhang.clone()),
            Some(Reach::Unknown(span)) => self.assume(word, &key, span, table),
            None => self.assume(word, &key, &table.span_of("overhang"), table),
        }
    }

    fn assume(&mut self, word: &str, key: &str, span: &Span, table: &mut Table<'_, '_>) -> Option<Overhang> {
        let path = child(&child(&table.path, "overhang"), key);
        let known = self.assumed.get(&path).cloned();
        let run = known.or_else(|| {
            let default = format!("block.overhang.{word}");
            table.desk.assume(&default, &path, span, |row| Length::of(&row.value))
        })?;
        self.assumed.insert(path, run.clone());
        Some(Overhang::Run(run))
    }
}

fn level_rake(span: &Span, table: &Table<'_, '_>) -> Problem {
    let message =
        format!("`{}` has sides without a slope, where no fascia can be level with another", table.path);
    Problem::error("level-rake", message, "give the overhang of rakes as a length").at(span.clone(), "")
}
