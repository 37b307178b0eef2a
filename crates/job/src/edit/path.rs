//! Dotted paths of values.

use crate::Problem;
use crate::read::node::child;

/// The steps of a path; names in double quotes may hold points.
pub(super) fn steps(path: &str) -> Result<Vec<String>, Problem> {
    let mut steps = vec![String::new()];
    let mut quoted = false;
    let mut letters = path.chars();
    while let Some(letter) = letters.next() {
        let last = steps.last_mut();
        match (letter, last) {
            ('"', _) => quoted = !quoted,
            ('\\', Some(step)) if quoted => step.extend(letters.next()),
            ('.', _) if !quoted => steps.push(String::new()),
            (letter, Some(step)) => step.push(letter),
            (_, None) => {}
        }
    }
    if quoted || steps.iter().any(String::is_empty) { Err(bad_path(path)) } else { Ok(steps) }
}

/// A path as messages write it.
pub(super) fn joined(steps: &[String]) -> String {
    steps.iter().fold(String::new(), |path, step| child(&path, step))
}

fn bad_path(path: &str) -> Problem {
    let message = format!("`{path}` is no path of a value");
    Problem::error("no-such-path", message, "write the keys with points between, like block.main.plate")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_part_steps_but_not_inside_quotes() {
        let parted = |path| steps(path).ok().map(|steps| steps.join("|"));
        assert_eq!(parted("block.main.roof.pitch").as_deref(), Some("block|main|roof|pitch"));
        assert_eq!(parted(r#"block."a.b \"c\"".plate"#).as_deref(), Some(r#"block|a.b "c"|plate"#));
        assert_eq!(parted("opening.vent pipe.size").as_deref(), Some("opening|vent pipe|size"));
        for bad in ["", ".", "a..b", "a.", "\"a"] {
            assert_eq!(parted(bad), None, "{bad}");
        }
    }

    #[test]
    fn a_joined_path_parts_into_the_same_steps() {
        let written = ["block", "a.b \"c\\d\"", "é"].map(str::to_owned);
        assert_eq!(steps(&joined(&written)).ok().as_deref(), Some(written.as_slice()));
    }
}
