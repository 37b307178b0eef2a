//! The whole way of an example, from the document to every paper on disk, as a person waits for it.

use std::path::Path;
use std::process::{Command, Stdio};

fn main() {
    divan::main();
}

#[divan::bench(args = ["cross-gable", "hip-split-level"], sample_count = 10)]
fn plan(house: &str) {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let folder = tempfile::tempdir().expect("a folder");
    let done = Command::new(env!("CARGO_BIN_EXE_weathershed"))
        .arg("plan")
        .arg(examples.join(house).with_extension("toml"))
        .arg("--output")
        .arg(folder.path().join("out"))
        .stdout(Stdio::null())
        .status()
        .expect("the binary runs");
    assert!(done.success(), "{house}");
}
