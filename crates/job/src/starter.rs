//! The document a new job starts from.

/// A job document to start from: a plain gable house, every line explained. It reads without errors.
///
/// ```
/// let book = book::Book::builtin();
/// assert!(job::Job::read(job::starter(), &book).is_ok());
/// ```
pub const fn starter() -> &'static str {
    include_str!("starter.toml")
}
