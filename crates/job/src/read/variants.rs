//! Tables whose other keys depend on one word, such as `roof = { form = "gable", .. }`.

use serde_json::{Value as Json, json};

use super::desk::Desk;
use super::field::{Notation, Section};
use super::node::{Node, child, shortened};
use super::table::Table;
use crate::Problem;
use crate::schema::Definitions;
use crate::suggest::listed;

/// One word and what it asks for.
pub(crate) struct Case<T> {
    pub(crate) word: &'static str,
    pub(crate) section: &'static Section,
    pub(crate) read: fn(&mut Table<'_, '_>) -> Option<T>,
}

/// The word's key and the cases.
pub(crate) struct Variants<T: 'static> {
    pub(crate) key: &'static str,
    pub(crate) cases: &'static [Case<T>],
    /// Words that are no case, for a reason worth telling.
    pub(crate) refused: Option<&'static Refused>,
}

/// Words that name what cannot be read, why, and what to do instead.
pub(crate) struct Refused {
    pub(crate) words: &'static [&'static str],
    pub(crate) code: &'static str,
    pub(crate) why: &'static str,
    pub(crate) mend: &'static str,
}

impl<T> Variants<T> {
    fn words(&self) -> impl Iterator<Item = &'static str> + Clone {
        self.cases.iter().map(|case| case.word)
    }

    fn case(&self, word: &str) -> Option<&'static Case<T>> {
        self.cases.iter().find(|case| case.word == word)
    }

    /// The case of a table; none after reporting why it cannot be told.
    fn chosen(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<&'static Case<T>> {
        let Some(table) = node.table() else {
            return desk.refuse(node.wrong_kind("a table", &self.example()));
        };
        let Some(value) = table.get(self.key) else {
            let message = format!("`{}` has no `{}`", node.path, self.key);
            return desk.refuse(node.error(
                "missing-key",
                message,
                format!("add it: {}", listed(self.words())),
            ));
        };
        let word = Node::new(value, child(&node.path, self.key));
        let Some(text) = word.text() else {
            return desk
                .refuse(word.wrong_kind(&format!("one of {}", listed(self.words())), &self.example()));
        };
        self.case(text).or_else(|| desk.refuse(self.unknown_word(&word, text)))
    }

    fn unknown_word(&self, node: &Node<'_>, word: &str) -> Problem {
        if let Some(refused) = self.refused.filter(|refused| refused.words.contains(&word)) {
            let message = format!("`{}` is `{word}`: such a thing is {}", node.path, refused.why);
            return node.error(refused.code, message, refused.mend);
        }
        let message =
            format!("`{}` is `{}`, which is not one of {}", node.path, shortened(word), listed(self.words()));
        let mend = match book::nearest(word, self.words()) {
            Some(meant) => format!("did you mean \"{meant}\"?"),
            None => format!("write one of {}", listed(self.words())),
        };
        node.error("unknown-word", message, mend)
    }

    fn example(&self) -> String {
        let case = self.cases.first();
        let fields =
            case.into_iter().flat_map(|case| case.section.fields.iter().filter(|field| field.is_required()));
        let keys = fields.map(|field| format!("{} = {}", field.key(), field.example()));
        let tag = format!("{} = \"{}\"", self.key, case.map_or("", |case| case.word));
        format!("{{ {} }}", std::iter::once(tag).chain(keys).collect::<Vec<_>>().join(", "))
    }
}

impl<T> Notation for Variants<T> {
    type Value = T;

    fn read(&self, node: &Node<'_>, desk: &mut Desk<'_>) -> Option<T> {
        let case = self.chosen(node, desk)?;
        let kin = self.cases.iter().map(|case| (case.word, case.section)).collect();
        let mut table = Table::open(case.section, node, desk)?.one_of(self.key, kin);
        let value = (case.read)(&mut table);
        table.close();
        value
    }

    fn schema(&self, definitions: &mut Definitions) -> Json {
        let cases: Vec<Json> =
            self.cases.iter().map(|case| definitions.refer_with(case.section, self.key, case.word)).collect();
        json!({ "oneOf": cases })
    }

    fn sections(&self) -> Vec<&'static Section> {
        self.cases.iter().map(|case| case.section).collect()
    }
}
