//! Which insulation of the books a job's words mean.

use book::thermal::Insulation;
use book::{Book, LookupError};
use measure::{Length, RValue};

/// Words by which an insulation is known, all of them in the text; the first row that fits is meant.
const WORDS: [(&[&str], &str); 10] = [
    (&["cellulose"], "cellulose"),
    (&["closed", "foam"], "foam-closed"),
    (&["foam"], "foam-open"),
    (&["rock wool", "batt"], "mineral-batts"),
    (&["mineral wool", "batt"], "mineral-batts"),
    (&["rock wool"], "rock-wool"),
    (&["mineral wool"], "rock-wool"),
    (&["batt"], "glass-batts"),
    (&["blanket"], "glass-batts"),
    (&["glass"], "glass-fiber"),
];

/// An insulation of the books, and whether the job names it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Kind<'b> {
    /// Its row.
    pub(super) row: &'b Insulation,
    /// Whether the job's words say so; else it is the one that takes most depth, so that nothing is promised that does not fit.
    pub(super) is_named: bool,
}

impl<'b> Kind<'b> {
    /// What words mean.
    ///
    /// # Errors
    /// A row the books lack.
    pub(super) fn of(words: Option<&str>, book: &'b Book) -> Result<Self, LookupError> {
        let said = words.unwrap_or_default().to_lowercase();
        let meant = WORDS.iter().find(|(all, _)| all.iter().all(|word| said.contains(word)));
        let id = meant.map_or("glass-fiber", |(_, id)| id);
        Ok(Self { row: book.thermal().insulation(id)?, is_named: meant.is_some() })
    }

    /// What a metre of it resists, (m²·K/W)/m.
    pub(super) fn per_metre(&self) -> f64 {
        self.row.per_inch.si() / Length::from_in(1.0).m()
    }

    /// Depth for a resistance.
    pub(super) fn depth(&self, wanted: RValue) -> Length {
        Length::from_m(wanted.si() / self.per_metre())
    }

    /// For messages: its name, and that it was taken where nobody named it.
    pub(super) fn told(&self) -> String {
        if self.is_named {
            self.row.name.clone()
        } else {
            format!("{} (taken, since none is named)", self.row.name)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_a_survey_name_a_row_and_none_is_taken_for_said() {
        let book = Book::builtin();
        let row = |words: &str| Kind::of(Some(words), &book).map(|kind| (kind.row.id.clone(), kind.is_named));
        for (words, id) in [
            ("3.5 in glass-fibre batt", "glass-batts"),
            ("R-60 blown glass-fibre", "glass-fiber"),
            ("6 in Cellulose, settled", "cellulose"),
            ("closed-cell spray foam", "foam-closed"),
            ("mineral wool batts R-30", "mineral-batts"),
        ] {
            assert_eq!(row(words).unwrap(), (id.to_owned(), true), "{words}");
        }
        assert_eq!(row("R-49").unwrap(), ("glass-fiber".to_owned(), false));
    }
}
