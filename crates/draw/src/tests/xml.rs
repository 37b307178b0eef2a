//! Just enough XML to tell whether a drawing is a document, and to read it back.

/// An element with its attributes and the text right inside it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Element {
    pub(super) name: String,
    pub(super) attributes: Vec<(String, String)>,
    pub(super) text: String,
}

impl Element {
    pub(super) fn get(&self, name: &str) -> Option<&str> {
        self.attributes.iter().find(|(key, _)| key == name).map(|(_, value)| value.as_str())
    }

    pub(super) fn number(&self, name: &str) -> f64 {
        let value = self.get(name).unwrap_or_else(|| panic!("{self:?} has no {name}"));
        value.parse().unwrap_or_else(|_| panic!("{name}={value} is no number"))
    }
}

/// All elements in order of their start tags; panics where the document is not well-formed.
pub(super) fn elements(document: &str) -> Vec<Element> {
    let (mut all, mut open): (Vec<Element>, Vec<usize>) = (Vec::new(), Vec::new());
    let mut rest = document;
    while let Some(at) = rest.find('<') {
        let text = unescaped(&rest[..at]);
        match open.last() {
            Some(&inside) => all[inside].text.push_str(&text),
            None => assert!(text.trim().is_empty(), "text outside the root: {text}"),
        }
        let end = rest[at..].find('>').map(|end| at + end).expect("every tag ends");
        let tag = &rest[at + 1..end];
        if let Some(name) = tag.strip_prefix('/') {
            let closed = open.pop().expect("an end tag has a start tag");
            assert_eq!(all[closed].name, name, "tags nest");
        } else {
            assert!(open.is_empty() == all.is_empty(), "there is one root");
            all.push(start_tag(tag.strip_suffix('/').unwrap_or(tag)));
            if !tag.ends_with('/') {
                open.push(all.len() - 1);
            }
        }
        rest = &rest[end + 1..];
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "the document ends where its root ends");
    all
}

fn start_tag(tag: &str) -> Element {
    let (name, mut rest) = tag.split_once(' ').unwrap_or((tag, ""));
    assert!(name.chars().all(char::is_alphanumeric), "name of {tag}");
    let mut element = Element { name: name.into(), ..Element::default() };
    while !rest.trim().is_empty() {
        let (key, after) =
            rest.split_once("=\"").unwrap_or_else(|| panic!("attribute without a value: {tag}"));
        let (value, after) = after.split_once('"').unwrap_or_else(|| panic!("value without an end: {tag}"));
        assert!(element.get(key.trim()).is_none(), "{key} twice in {tag}");
        element.attributes.push((key.trim().into(), unescaped(value)));
        rest = after;
    }
    element
}

/// The text with its entities resolved; panics at a bare `&` or a character XML 1.0 has no place for.
fn unescaped(text: &str) -> String {
    for c in text.chars() {
        assert!(
            !matches!(c, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}'),
            "{c:?}"
        );
    }
    let mut parts = text.split('&');
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let (name, after) = part.split_once(';').unwrap_or_else(|| panic!("bare & in {text}"));
        out.push(match name {
            "amp" => '&',
            "lt" => '<',
            "gt" => '>',
            _ => panic!("unknown entity {name}"),
        });
        out.push_str(after);
    }
    out
}

#[test]
fn reader_gives_elements_in_order_with_their_text() {
    let all = elements("<a b=\"1 &amp; 2\"><c/>x &lt; y<d e=\"\">z</d></a>\n");
    assert_eq!(
        all.iter().map(|e| (e.name.as_str(), e.text.as_str())).collect::<Vec<_>>(),
        [("a", "x < y"), ("c", ""), ("d", "z")]
    );
    assert_eq!(all[0].get("b"), Some("1 & 2"));
}

#[test]
fn reader_refuses_what_is_not_well_formed() {
    for broken in [
        "<a>",
        "<a></b>",
        "<a b=1/>",
        "<a>&x</a>",
        "<a/><b/>",
        "<a b=\"1\" b=\"2\"/>",
        "<a>\u{1}</a>",
        "x<a/>",
    ] {
        assert!(std::panic::catch_unwind(|| elements(broken)).is_err(), "{broken}");
    }
}
