//! Names of places in short, with what they have in common said once: the one wording of papers and screens.

use super::{At, Place};

impl Place {
    /// In a word or two: `edge 16`, `lower end of edge 4`, an opening with its side.
    pub fn short(&self) -> String {
        match self.at {
            At::Edge(edge) => edge.to_string(),
            At::End(edge, _) => format!("lower end of {edge}"),
            At::Opening(_) => self.name.clone(),
        }
    }
}

/// Places in as few lines as there are kinds of them: `edges 3, 5`, `main N`. Their order stays.
pub fn listed(places: &[String]) -> Vec<String> {
    const KINDS: [(&str, &str); 4] = [
        ("edge ", "edges "),
        ("lower end of edge ", "lower ends of edges "),
        ("attic ", "attics "),
        ("deck of ", "decks of "),
    ];
    let mut lines: Vec<(Option<usize>, Vec<&str>)> = Vec::new();
    for place in places {
        let kind = KINDS.iter().position(|(one, _)| place.starts_with(one));
        let name = kind.map_or(place.as_str(), |kind| &place[KINDS[kind].0.len()..]);
        match lines.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, names)) => names.push(name),
            None => lines.push((kind, vec![name])),
        }
    }
    let line = |(kind, names): (Option<usize>, Vec<&str>)| {
        let (one, many) = kind.map_or(("", ""), |kind| KINDS[kind]);
        format!("{}{}", if names.len() > 1 { many } else { one }, names.join(", "))
    };
    lines.into_iter().map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_places_have_in_common_is_said_once() {
        let places = ["edge 3", "chimney", "edge 12", "lower end of edge 4", "stack"].map(str::to_owned);
        assert_eq!(listed(&places), ["edges 3, 12", "chimney, stack", "lower end of edge 4"]);
    }
}
