//! What reading a document gathers on the way: problems, assumptions, and the names blocks go by.

use book::{Book, DefaultValue, LookupError};

use super::roll::Roll;
use crate::{Assumption, Basis, Figure, Problem, Span};

/// The reader's desk: books to look things up in, and what has been found so far.
pub(crate) struct Desk<'b> {
    book: &'b Book,
    roll: Roll,
    problems: Vec<Problem>,
    assumptions: Vec<Assumption>,
}

impl<'b> Desk<'b> {
    /// An empty desk with these books, for a document with these blocks.
    pub(crate) fn new(book: &'b Book, roll: Roll) -> Self {
        Self { book, roll, problems: Vec::new(), assumptions: Vec::new() }
    }

    /// The books.
    pub(crate) fn book(&self) -> &'b Book {
        self.book
    }

    /// The blocks of the document, by name.
    pub(crate) fn roll(&self) -> &Roll {
        &self.roll
    }

    /// Writes a problem down.
    pub(crate) fn report(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// Writes a problem down and gives nothing: the value it is about cannot be had.
    pub(crate) fn refuse<T>(&mut self, problem: Problem) -> Option<T> {
        self.report(problem);
        None
    }

    /// The books' default of `key`, written down as an assumption about the field at `path`.
    pub(crate) fn assume<T>(
        &mut self,
        key: &str,
        path: &str,
        span: &Span,
        take: impl FnOnce(&DefaultValue) -> Option<T>,
    ) -> Option<Figure<T>> {
        let row = self.default_row(key, path, span)?;
        let value = self.taken(row, path, span, take)?;
        self.assumptions.push(Assumption {
            path: path.to_owned(),
            value: row.value.to_string(),
            spread: row.spread.as_ref().map(ToString::to_string).unwrap_or_default(),
            source: row.source.clone(),
        });
        Some(Figure { value, basis: Basis::Assumed { key: key.to_owned() }, span: span.clone() })
    }

    /// The books' default of `key` where no result leans on it: not written down.
    pub(crate) fn derive<T>(
        &mut self,
        key: &str,
        path: &str,
        span: &Span,
        take: impl FnOnce(&DefaultValue) -> Option<T>,
    ) -> Option<Figure<T>> {
        let row = self.default_row(key, path, span)?;
        let value = self.taken(row, path, span, take)?;
        Some(Figure { value, basis: Basis::Derived, span: span.clone() })
    }

    /// What the books gave; none after reporting, at `span`, that they have no such row.
    pub(crate) fn looked_up<T>(
        &mut self,
        code: &'static str,
        found: Result<T, LookupError>,
        span: &Span,
    ) -> Option<T> {
        found.map_err(|error| self.report(lookup_problem(code, error).at(span.clone(), ""))).ok()
    }

    /// Everything gathered: problems sorted by place, assumptions in reading order.
    pub(crate) fn clear(self) -> (Vec<Problem>, Vec<Assumption>) {
        let Self { mut problems, assumptions, .. } = self;
        problems.sort_by_key(|problem| problem.places.first().map_or(0, |place| place.range.start));
        problems.dedup(); // one fault may show at several edges
        (problems, assumptions)
    }

    fn default_row(&mut self, key: &str, path: &str, span: &Span) -> Option<&'b DefaultValue> {
        self.book.default(key).or_else(|| self.refuse(no_default(key, path, span)))
    }

    fn taken<T>(
        &mut self,
        row: &DefaultValue,
        path: &str,
        span: &Span,
        take: impl FnOnce(&DefaultValue) -> Option<T>,
    ) -> Option<T> {
        let value = take(row);
        if value.is_none() {
            self.report(unfit_default(row, path, span));
        }
        value
    }
}

fn lookup_problem(code: &'static str, error: LookupError) -> Problem {
    match error {
        LookupError::Unknown { table, id, hint } => {
            Problem::error(code, format!("the books have no {table} `{id}`"), hint)
        }
        LookupError::Kind { row, wanted } => Problem::error(
            code,
            format!("{row} is not {wanted}"),
            "name another one, or mend the row in the books",
        ),
    }
}

fn no_default(key: &str, path: &str, span: &Span) -> Problem {
    let message = format!("`{path}` is not known, and the books have no default `{key}` to stand in for it");
    Problem::error("no-default", message, "measure it and write it here, or add the default to the books")
        .at(span.clone(), "not known")
}

fn unfit_default(row: &DefaultValue, path: &str, span: &Span) -> Problem {
    let message = format!("`{path}` cannot take the books' default `{}`, {}", row.id, row.value);
    Problem::error("unfit-default", message, "measure it and write it here, or mend the row in the books")
        .at(span.clone(), "not known")
}
