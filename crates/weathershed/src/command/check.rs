//! `check`: what is wrong with a job, where, and what would mend it.

use std::path::Path;

use book::Book;
use job::Assumption;

use super::{pretty, studied, warn};
use crate::failure::Failure;
use crate::output::Output;

pub(crate) fn run(path: &Path, json: bool, books: &Book, out: &Output) -> Result<(), Failure> {
    let result = studied(path, books);
    if json {
        match &result {
            Ok((document, study)) => {
                let warnings = [document.warnings.as_slice(), &study.warnings].concat();
                Output::result(&pretty(&exchange::problems(&warnings, &document.text)))?;
            }
            Err(Failure::Job { text, problems, .. }) => {
                Output::result(&pretty(&exchange::problems(problems, text)))?;
            }
            Err(_) => {}
        }
        return result.map(|_| ());
    }
    let (document, study) = result?;
    warn(&document, &study, out);
    let (blocks, openings) = (study.job.blocks.len(), study.job.openings.len());
    let assumed = study.job.assumptions.len();
    out.note(&format!(
        "{}: no errors; {blocks} blocks, {openings} openings, {} planes, {assumed} assumed figures",
        path.display(),
        study.roof.planes.len()
    ));
    for assumption in &study.assumptions {
        out.note(&told(assumption));
    }
    Ok(())
}

fn told(assumption: &Assumption) -> String {
    let spread =
        if assumption.spread.is_empty() { String::new() } else { format!(" ± {}", assumption.spread) };
    format!("  assumed ◊ {}: {}{spread} ({})", assumption.path, assumption.value, assumption.source.text)
}
