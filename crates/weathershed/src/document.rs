//! A job document on disk.

use std::path::{Path, PathBuf};

use book::Book;
use job::{Job, Problem};
use sha2::{Digest, Sha256};

use crate::failure::Failure;
use crate::text::text_of;

/// A document that reads without errors.
pub(crate) struct Document {
    pub(crate) path: PathBuf,
    pub(crate) text: String,
    pub(crate) job: Job,
    pub(crate) warnings: Vec<Problem>,
}

impl Document {
    pub(crate) fn read(path: &Path, books: &Book) -> Result<Self, Failure> {
        let text = text_of(path)?;
        match Job::read(&text, books) {
            Ok((job, warnings)) => Ok(Self { path: path.to_path_buf(), text, job, warnings }),
            Err(problems) => Err(Failure::Job { path: path.to_path_buf(), text, problems }),
        }
    }

    /// A failure that reports problems found in this document later on.
    pub(crate) fn failed(&self, problems: Vec<Problem>) -> Failure {
        Failure::Job { path: self.path.clone(), text: self.text.clone(), problems }
    }

    /// SHA-256 of the document's bytes, in hexadecimal.
    pub(crate) fn hash(&self) -> String {
        hash(self.text.as_bytes())
    }
}

/// SHA-256 in hexadecimal.
pub(crate) fn hash(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |text, byte| text + &format!("{byte:02x}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Test vector of FIPS 180-2, appendix B.1 (published, from memory).
    #[test]
    fn hash_of_abc_is_the_published_one() {
        assert_eq!(hash(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
