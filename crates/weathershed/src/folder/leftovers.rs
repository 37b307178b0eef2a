//! What a run that was stopped halfway left beside the target, and how the next one puts it right.
//!
//! - Results moved aside, and nothing in their place: they move back.
//! - Results moved aside, and others in their place: they go, as they were about to.
//! - A folder that was still being built: it goes, unless its list is locked, for then another run is building it.
//!
//! Nothing goes but what its own list names, byte for byte. A folder that holds anything else, or has no list, stays, and
//! where it is and why is told.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use super::list::{LIST, stranger};
use super::{being_built, moved_aside};
use crate::failure::Failure;

/// Puts right what is left beside the target; what was done, in words.
pub(super) fn put_right(target: &Path, parent: &Path) -> Result<Vec<String>, Failure> {
    let mut told = Vec::new();
    for aside in folders(parent, &moved_aside(target))? {
        told.push(if target.exists() { removed(&aside)? } else { moved_back(&aside, target)? });
    }
    for unfinished in folders(parent, &being_built(target))? {
        if !is_being_built(&unfinished) {
            told.push(removed(&unfinished)?);
        }
    }
    Ok(told)
}

/// The folders in a folder whose names begin so, in order.
fn folders(parent: &Path, start: &str) -> Result<Vec<PathBuf>, Failure> {
    let cannot = || Failure::file("cannot read", parent);
    let mut found = Vec::new();
    for entry in fs::read_dir(parent).map_err(cannot())? {
        let entry = entry.map_err(cannot())?;
        let is_folder = entry.file_type().map_err(cannot())?.is_dir();
        if is_folder && entry.file_name().to_string_lossy().starts_with(start) {
            found.push(entry.path());
        }
    }
    found.sort();
    Ok(found)
}

/// Whether a run holds the lock of the folder's list, or may.
fn is_being_built(folder: &Path) -> bool {
    let list = folder.join(LIST);
    list.exists() && File::open(list).is_ok_and(|list| list.try_lock().is_err())
}

fn moved_back(aside: &Path, target: &Path) -> Result<String, Failure> {
    fs::rename(aside, target).map_err(Failure::file("cannot move back", aside))?;
    Ok(format!("{}: an earlier run was stopped and had moved it aside; it is back", target.display()))
}

fn removed(folder: &Path) -> Result<String, Failure> {
    let listed = folder.join(LIST).exists();
    let why = if listed { stranger(folder)? } else { Some(format!("has no {LIST}")) };
    if let Some(why) = why {
        return Ok(format!(
            "{}: left by an earlier run that was stopped; it {why}, so it stays: look into it and delete it",
            folder.display()
        ));
    }
    fs::remove_dir_all(folder).map_err(Failure::file("cannot remove", folder))?;
    Ok(format!("{}: left by an earlier run that was stopped; it is gone", folder.display()))
}

#[cfg(test)]
mod tests {
    use tempfile::TempDir;

    use super::super::Folder;
    use super::*;

    /// A folder with results as this program leaves them.
    fn results(home: &TempDir, name: &str) -> PathBuf {
        let path = home.path().join(name);
        let mut folder = Folder::begin(&path).unwrap();
        folder.add("roof.json", name.as_bytes()).unwrap();
        folder.finish().unwrap();
        path
    }

    fn names(home: &TempDir) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(home.path())
            .unwrap()
            .map(|e| e.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn results_moved_aside_come_back_when_nothing_is_in_their_place() {
        let home = tempfile::tempdir().unwrap();
        let aside = results(&home, ".out.before-17");
        fs::write(aside.join("mine.txt"), "mine").unwrap();
        let target = home.path().join("out");
        let told = put_right(&target, home.path()).unwrap();
        assert!(told.len() == 1 && told[0].contains("it is back"), "{told:?}");
        assert_eq!(names(&home), ["out"]);
        assert!(target.join("mine.txt").exists());
    }

    #[test]
    fn results_moved_aside_go_when_others_are_in_their_place_and_nobody_changed_them() {
        let home = tempfile::tempdir().unwrap();
        let target = results(&home, "out");
        results(&home, ".out.before-17");
        let changed = results(&home, ".out.before-18");
        fs::write(changed.join("roof.json"), "mine").unwrap();
        let told = put_right(&target, home.path()).unwrap();
        assert_eq!(names(&home), [".out.before-18", "out"]);
        assert!(told.len() == 2 && told[1].contains("`roof.json`, which was changed"), "{told:?}");
    }

    #[test]
    fn a_folder_half_built_goes_unless_a_person_put_something_there() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("out");
        let half_built = results(&home, ".out.new-abc");
        fs::remove_file(half_built.join("roof.json")).unwrap();
        fs::write(results(&home, ".out.new-abd").join("mine.txt"), "mine").unwrap();
        fs::create_dir(home.path().join(".out.new-abe")).unwrap();
        let told = put_right(&target, home.path()).unwrap();
        assert_eq!(names(&home), [".out.new-abd", ".out.new-abe"]);
        assert!(told[1].contains("`mine.txt`") && told[2].contains("has no SHA256SUMS"), "{told:?}");
    }

    #[test]
    fn a_folder_another_run_is_building_is_left_to_it() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("out");
        let mut first = Folder::begin(&target).unwrap();
        let second = Folder::begin(&target).unwrap();
        assert_eq!(second.told(), [""; 0]);
        first.add("a.txt", b"a").unwrap();
        first.finish().unwrap();
        second.finish().unwrap();
        assert_eq!(names(&home), ["out"]);
    }

    #[test]
    fn folders_of_other_targets_and_files_are_none_of_its_business() {
        let home = tempfile::tempdir().unwrap();
        results(&home, ".outer.before-17");
        fs::write(home.path().join(".out.new-note"), "mine").unwrap();
        assert_eq!(put_right(&home.path().join("out"), home.path()).unwrap(), [""; 0]);
        assert_eq!(names(&home), [".out.new-note", ".outer.before-17"]);
    }
}
