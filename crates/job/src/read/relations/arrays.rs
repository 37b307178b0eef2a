//! Solar arrays against the planes the blocks can have.

use super::planes::Lost;
use crate::read::desk::Desk;
use crate::{Array, Block, Problem};

/// Reports each array on a plane that its block cannot have.
pub(super) fn check_arrays(arrays: &[Array], blocks: &[Block], desk: &mut Desk<'_>) {
    for array in arrays {
        if let Some(lost) = Lost::of(&array.on, blocks) {
            let message = format!("an array stands on {}", Lost::told(&array.on));
            let mend = format!("write {}, or the dormer or wing it stands on", lost.offered());
            desk.report(Problem::error("unknown-plane", message, mend).at(array.on_span.clone(), ""));
        }
    }
}
