//! From a paper's head, body and drawings to the typesetter: the one way every paper goes.

use serde::Serialize;
use serde_json::{Value, json};

use crate::world::{Attribution, Compositor};
use crate::{DossierError, Drawing, Prepared, paper, printable};

/// What heads every paper of a job.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Head {
    /// Title of the job.
    pub title: String,
    /// Words by which a document store finds the paper.
    pub keywords: Vec<String>,
    /// Day of preparation.
    pub prepared: Prepared,
    /// Hash of the job document, in full.
    pub content_hash: String,
}

/// A paper as the typesetter takes it.
pub(crate) struct Manuscript<'a> {
    /// The template that makes it.
    pub(crate) template: &'static str,
    /// What it is, such as `roof sheet`.
    pub(crate) kind: &'static str,
    pub(crate) head: &'a Head,
    /// Its texts, each finished. The template has them as `data.sheet`.
    pub(crate) body: Value,
    /// Where the template finds its drawings and what it writes beside them: entries of [`Drawing::entry`], as `data.figures`.
    pub(crate) figures: Value,
    /// The drawings by path. Paths are fixed: the typesetter keeps each it has ever seen, so they must not grow with the number of jobs.
    pub(crate) drawings: Vec<(String, &'a Drawing)>,
}

impl Manuscript<'_> {
    /// The paper ready to be typeset, `job_document` attached unchanged.
    pub(crate) fn compose(self, job_document: &str) -> Compositor {
        let attribution = Attribution {
            kind: self.kind,
            content_hash: self.head.content_hash.clone(),
            prepared: self.head.prepared,
        };
        let mut compositor = Compositor::new(self.template, attribution);
        compositor.add("/data.json", self.data().into_bytes());
        compositor.add("/job.toml", job_document.into());
        for (path, drawing) in &self.drawings {
            compositor.add(path, printable::drawing(&drawing.svg).into_bytes());
        }
        compositor
    }

    /// The data file: `document` holds the metadata as typed, everything else is fit to print.
    fn data(&self) -> String {
        let keywords: Vec<String> = self.head.keywords.iter().map(|k| printable::metadata(k)).collect();
        let head = json!({
            "title": printable::line(&self.head.title), "prepared": self.head.prepared,
            "content_hash": self.head.content_hash,
        });
        json!({
            "document": { "title": printable::metadata(&self.head.title), "keywords": keywords },
            "page": paper::page(),
            "head": head,
            "sheet": printable::texts(self.body.clone()),
            "figures": self.figures,
        })
        .to_string()
    }
}

/// What a paper says, for [`Manuscript::body`].
pub(crate) fn body(sheet: &impl Serialize) -> Result<Value, DossierError> {
    Ok(serde_json::to_value(sheet)?)
}
