//! What a winter takes of decks, ground and attics that no survey has: rules of the books, read once for a study.

use book::{Book, LookupError};

/// Figures of the trade and of physics that are the same for every house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// Heat that deck and roofing hold, J/(m²·K).
    pub deck_heat: f64,
    /// What they resist, m²·K/W.
    pub deck: f64,
    /// Film under a deck in an attic, m²·K/W.
    pub in_attic: f64,
    /// Film and soffit under a deck over an eave, m²·K/W.
    pub over_soffit: f64,
    /// Share of sunlight that roofing takes, and of long waves.
    pub dark: f64,
    /// Share of the sun that ground under snow throws back.
    pub snowy: f64,
    /// And bare ground.
    pub bare: f64,
    /// Surface of rafters or trusses for each m² of ceiling.
    pub framing: f64,
    /// Half their thickness, m.
    pub framing_depth: f64,
    /// Heat between air and deck by which vapor goes too, W/(m²·K).
    pub convective: f64,
    /// Relative humidity that wood is in balance with as winter begins.
    pub autumn: f64,
}

impl Taken {
    /// By the books.
    pub(crate) fn of(book: &Book) -> Result<Self, LookupError> {
        let number = |id: &str| book.rule(id)?.get();
        Ok(Self {
            deck_heat: number("deck.heat")?,
            deck: number("deck.resistance")?,
            in_attic: number("deck.film-in-attic")?,
            over_soffit: number("deck.film-over-soffit")?,
            dark: number("deck.absorbs")?,
            snowy: number("ground.snowy")?,
            bare: number("ground.bare")?,
            framing: number("attic.framing")?,
            framing_depth: number("attic.framing-depth")?,
            convective: number("attic.convection")?,
            autumn: number("attic.autumn")?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A figure of an overlay goes before that of the books, and moves no other; without it every figure of the books is one that can be.
    #[test]
    fn an_overlay_goes_before_the_books() {
        let usual = Taken::of(&Book::builtin()).expect("rules");
        let shares = [usual.dark, usual.snowy, usual.bare, usual.autumn];
        assert!(shares.iter().all(|share| (0.0..=1.0).contains(share)) && usual.bare < usual.snowy);
        let white = "[[rule]]\nid = \"deck.absorbs\"\nwhat = \"white metal\"\nvalue.number = 0.3\n\
            source = { text = \"its label\", confidence = \"published\" }\n";
        let book =
            Book::with_overlays(&[("white.toml", white)]).unwrap_or_else(|problems| panic!("{problems}"));
        let told = Taken::of(&book).expect("rules");
        assert_eq!(told, Taken { dark: 0.3, ..usual });
    }
}
