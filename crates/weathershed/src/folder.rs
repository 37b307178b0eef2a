//! A folder of results that is replaced whole or not at all.
//!
//! Files are written into a new folder beside the target, `.NAME.new-XXXXXX`, with a list of their SHA-256 sums as any checksum
//! tool reads it (`SHA256SUMS`). At the end the old folder moves aside to `.NAME.before-N`, the new one into its place, and the old
//! one goes. An existing folder is replaced only when it holds nothing but what this program wrote, byte for byte: its own list
//! says so. Anything else in it, or changed since, stops the command, so nothing a person put there is lost.
//!
//! A run that is stopped halfway leaves folders of those two names; the next one into the same target puts them right
//! ([`leftovers`]). For that each file is listed before it is written, and the list is locked while it grows.

mod leftovers;
mod list;

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

use tempfile::TempDir;

use self::list::{entry, stranger};
use crate::failure::Failure;

/// A folder under construction.
pub(crate) struct Folder {
    target: PathBuf,
    building: TempDir,
    list: File,
    names: Vec<String>,
    told: Vec<String>,
}

impl Folder {
    /// Starts a folder that will end up at `target`, after what an earlier run left there is put right.
    pub(crate) fn begin(target: &Path) -> Result<Self, Failure> {
        let target = whole_path(target)?;
        let parent = match target.parent() {
            Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
            _ => PathBuf::from("."),
        };
        fs::create_dir_all(&parent).map_err(Failure::file("cannot make folder", &parent))?;
        let told = leftovers::put_right(&target, &parent)?;
        may_be_replaced(&target)?;
        let building = tempfile::Builder::new().prefix(&being_built(&target)).tempdir_in(&parent);
        let building = building.map_err(Failure::file("cannot write in", &parent))?;
        let list = list::begin(building.path())?;
        Ok(Self { target, building, list, names: Vec::new(), told })
    }

    /// What was found of an earlier run and done about it, in words.
    pub(crate) fn told(&self) -> &[String] {
        &self.told
    }

    /// Adds a file; `name` may hold `/` for a folder in the folder. Each name once.
    pub(crate) fn add(&mut self, name: &str, bytes: &[u8]) -> Result<(), Failure> {
        let path = self.building.path().join(name);
        if path.exists() {
            return Err(Failure::file("would write twice", &path)(io::ErrorKind::AlreadyExists.into()));
        }
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent).map_err(Failure::file("cannot make folder", parent))?;
        }
        entry(&mut self.list, name, bytes).map_err(Failure::file("cannot list", &path))?;
        fs::write(&path, bytes).map_err(Failure::file("cannot write", &path))?;
        self.names.push(name.to_owned());
        Ok(())
    }

    /// Puts the folder in its place; returns the names of its files.
    pub(crate) fn finish(mut self) -> Result<Vec<String>, Failure> {
        may_be_replaced(&self.target)?;
        drop(self.list); // some systems move no folder with an open file in it
        let building = self.building.keep();
        swap(&building, &self.target).inspect_err(|_| {
            // the new folder is of no use half placed; what was there before is back
            let _unplaced = fs::remove_dir_all(&building);
        })?;
        self.names.sort();
        Ok(self.names)
    }
}

/// Start of the name of a folder on its way to the target.
fn being_built(target: &Path) -> String {
    format!(".{}.new-", name_of(target))
}

/// Start of the name of a folder that was at the target.
fn moved_aside(target: &Path) -> String {
    format!(".{}.before-", name_of(target))
}

fn name_of(target: &Path) -> String {
    target.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
}

/// The path with what it leads through resolved, as far as it is there; it must end in a name that can be given to a new folder.
fn whole_path(target: &Path) -> Result<PathBuf, Failure> {
    if let Ok(there) = fs::canonicalize(target) {
        let here = std::env::current_dir().map_err(Failure::file("cannot find", Path::new(".")))?;
        if here.starts_with(&there) {
            return Err(Failure::InTheWay {
                path: target.to_path_buf(),
                why: "is the folder you work in, which cannot be replaced from within".to_owned(),
                mend: "name a folder in it or beside it".to_owned(),
            });
        }
        return Ok(there);
    }
    Ok(target.to_path_buf())
}

/// Moves `new` to `target`; what was there goes only after that, and comes back if it fails.
fn swap(new: &Path, target: &Path) -> Result<(), Failure> {
    let aside = target.with_file_name(format!("{}{}", moved_aside(target), std::process::id()));
    let was_there = target.exists();
    if was_there {
        fs::rename(target, &aside).map_err(Failure::file("cannot move aside", target))?;
    }
    if let Err(error) = fs::rename(new, target) {
        if was_there {
            fs::rename(&aside, target).map_err(Failure::file("cannot move back", &aside))?;
        }
        return Err(Failure::file("cannot write", target)(error));
    }
    if was_there {
        fs::remove_dir_all(&aside).map_err(Failure::file("cannot remove", &aside))?;
    }
    Ok(())
}

/// Whether the target is free, empty, or holds only what its own list names.
fn may_be_replaced(target: &Path) -> Result<(), Failure> {
    if !target.exists() {
        return Ok(());
    }
    let in_the_way = |why: String| Failure::InTheWay {
        path: target.to_path_buf(),
        why,
        mend: "name another folder, or move away what is there".to_owned(),
    };
    if !target.is_dir() {
        return Err(in_the_way("is a file, not a folder".to_owned()));
    }
    stranger(target)?.map_or(Ok(()), |why| Err(in_the_way(why)))
}

#[cfg(test)]
mod tests {
    use super::list::files_below;
    use super::*;

    fn filled(target: &Path, names: &[&str]) -> Result<Vec<String>, Failure> {
        let mut folder = Folder::begin(target)?;
        for name in names {
            folder.add(name, name.as_bytes())?;
        }
        folder.finish()
    }

    #[test]
    fn second_run_replaces_the_first_whole() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("out put é");
        filled(&target, &["old.txt", "sub/old.svg"]).unwrap();
        filled(&target, &["new.txt"]).unwrap();
        assert_eq!(files_below(&target, "").unwrap().len(), 2);
        assert_eq!(fs::read_dir(home.path()).unwrap().count(), 1, "nothing is left beside it");
    }

    #[test]
    fn a_file_that_is_not_its_own_stops_it_and_stays() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("out");
        filled(&target, &["old.txt"]).unwrap();
        fs::write(target.join("notes.txt"), "mine").unwrap();
        let failure = filled(&target, &["new.txt"]).unwrap_err();
        assert!(failure.to_string().contains("notes.txt"), "{failure}");
        assert!(target.join("old.txt").exists() && target.join("notes.txt").exists());
    }

    #[test]
    fn a_file_of_its_own_that_was_changed_stops_it_and_stays() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("out");
        filled(&target, &["job.toml"]).unwrap();
        fs::write(target.join("job.toml"), "mine").unwrap();
        let failure = filled(&target, &["job.toml"]).unwrap_err();
        assert!(failure.to_string().contains("`job.toml`, which was changed"), "{failure}");
        assert_eq!(fs::read_to_string(target.join("job.toml")).unwrap(), "mine");
    }

    #[test]
    fn a_name_given_twice_is_refused() {
        let home = tempfile::tempdir().unwrap();
        assert!(filled(&home.path().join("out"), &["a.svg", "a.svg"]).is_err());
    }

    #[test]
    fn a_file_in_the_place_of_the_folder_stops_it() {
        let home = tempfile::tempdir().unwrap();
        let target = home.path().join("out");
        fs::write(&target, "mine").unwrap();
        assert!(matches!(filled(&target, &["new.txt"]), Err(Failure::InTheWay { .. })));
    }

    #[test]
    fn an_unfinished_folder_leaves_nothing() {
        let home = tempfile::tempdir().unwrap();
        let mut folder = Folder::begin(&home.path().join("out")).unwrap();
        folder.add("a.txt", b"a").unwrap();
        drop(folder);
        assert_eq!(fs::read_dir(home.path()).unwrap().count(), 0);
    }
}
