//! The cautions that stand on every paper which sends a person onto a roof or into an attic.
//!
//! # What it does not judge
//! Whether a caution applies to this house. The papers warn of all of them; the job's own findings may add more.

use serde::Serialize;

/// One caution: a short name and what to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// A few words.
    pub heading: String,
    /// What to do, or whom to ask.
    pub text: String,
}

/// The cautions every roof paper carries, in the order of the work.
pub fn standing_cautions() -> Vec<Caution> {
    STANDING
        .iter()
        .map(|(heading, text)| Caution { heading: (*heading).into(), text: (*text).into() })
        .collect()
}

/// The cautions of an owner's letter.
pub fn owner_cautions() -> Vec<Caution> {
    OWNER.iter().map(|(heading, text)| Caution { heading: (*heading).into(), text: (*text).into() }).collect()
}

const OWNER: [(&str, &str); 4] = [
    (
        "Stay on the ground",
        "Do not climb the roof to look, and keep ladders away from wires. What you can see from the ground or from a window is enough.",
    ),
    (
        "Icicles and snow",
        "Keep away from under them. Do not chop ice: it breaks the shingles. If doors begin to stick or ceilings to sag under snow, leave and \
         ask an engineer.",
    ),
    (
        "Water inside",
        "Photograph it with the day and the weather, keep away from wet lamps and outlets, and call.",
    ),
    (
        "Who decides",
        "This letter screens and explains. The local code, the makers' instructions and the licensed trade decide what is built.",
    ),
];

const STANDING: [(&str, &str); 9] = [
    (
        "Falls",
        "Guard against falls from the first step onto the roof: anchors, lines, guards or staging as the law and the \
         slope ask. Open decks, skylights and wet or icy planes are holes.",
    ),
    (
        "Wires",
        "Look for overhead and service wires before raising a ladder, staging or metal. Keep the distance the utility \
         asks, or have the line covered or cut off by the utility.",
    ),
    (
        "Framing",
        "Never cut, notch or drill a truss without an engineer's written repair. Cutting a rafter or joist needs \
         headers and a design the local code accepts.",
    ),
    (
        "Lead paint",
        "In a house built before 1978 take painted surfaces to hold lead until tested; then keep the dust \
         in, wet and swept up as the lead rules ask.",
    ),
    (
        "Suspect insulation",
        "Pebble-like loose fill, old pipe wrap and cement board may hold asbestos. Leave it untouched until a \
         laboratory has tested a sample.",
    ),
    (
        "Combustion",
        "Sealing a house changes how heaters and water heaters draw. Have each vented appliance tested after air \
         sealing, before the crew leaves.",
    ),
    (
        "Flues",
        "Keep foam, insulation and wood away from flues and chimneys by the distance their listing states; close the \
         gap with metal and sealant rated for it.",
    ),
    (
        "Snow load",
        "Sizes on this sheet are for covering and water, not for carrying. Where snow drifts, slides or gathers, or \
         where framing sags, ask an engineer before adding weight.",
    ),
    (
        "Who decides",
        "This sheet screens and explains. Verify every size on site before cutting or ordering; follow the local \
         code and the makers' instructions, and have the licensed trade decide.",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_caution_calls_anything_safe() {
        for Caution { heading, text } in standing_cautions().into_iter().chain(owner_cautions()) {
            let words = format!("{heading} {text}").to_lowercase();
            assert!(!words.contains("safe"), "{words}");
        }
    }
}
