//! The list of the files of a folder and their sums: how it is written, and what in a folder is not as listed.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;

use crate::document::hash;
use crate::failure::Failure;

/// Name of the list.
pub(super) const LIST: &str = "SHA256SUMS";

/// An empty list in a folder, locked for as long as it is open: whoever finds it locked knows that the folder is still being built.
pub(super) fn begin(folder: &Path) -> Result<File, Failure> {
    let path = folder.join(LIST);
    let list = File::create_new(&path).map_err(Failure::file("cannot write", &path))?;
    let _unlocked = list.try_lock(); // where the system has no locks, no one can take this folder for a leftover either
    Ok(list)
}

/// Lists a file that is about to be written.
pub(super) fn entry(list: &mut File, name: &str, bytes: &[u8]) -> io::Result<()> {
    list.write_all(format!("{}  {name}\n", hash(bytes)).as_bytes())
}

/// The first thing in a folder that is not as its list says, in words.
pub(super) fn stranger(folder: &Path) -> Result<Option<String>, Failure> {
    let found = files_below(folder, "").map_err(Failure::file("cannot read", folder))?;
    let listed = fs::read_to_string(folder.join(LIST)).unwrap_or_default();
    let own: BTreeMap<&str, &str> =
        listed.lines().filter_map(|line| line.split_once("  ")).map(|(sum, name)| (name, sum)).collect();
    for name in found.iter().filter(|name| *name != LIST) {
        let Some(sum) = own.get(name.as_str()) else {
            return Ok(Some(format!("holds `{name}`, which weathershed did not write")));
        };
        let path = folder.join(name);
        if hash(&fs::read(&path).map_err(Failure::file("cannot read", &path))?) != *sum {
            return Ok(Some(format!("holds `{name}`, which was changed since weathershed wrote it")));
        }
    }
    Ok(None)
}

/// Names of all files below a folder, with `/` between folders.
pub(super) fn files_below(folder: &Path, prefix: &str) -> io::Result<Vec<String>> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
        if entry.file_type()?.is_dir() {
            names.extend(files_below(&entry.path(), &format!("{name}/"))?);
        } else {
            names.push(name);
        }
    }
    Ok(names)
}
