//! Rain on walls over roofs, as tables.

use job::Units;
use measure::{Area, RainRate};
use roof::Roof;
use water::{Drainage, OutletKind};

use super::roof::table;
use super::water::out;

/// What walls add to the roofs at their feet, and where it leaves with the gutters hung. None where no wall stands over a roof.
pub(super) fn text(roof: &Roof, drainage: &Drainage, units: Units, rain: RainRate) -> Option<String> {
    let walls = &drainage.walls;
    if walls.faces.is_empty() {
        return None;
    }
    let flow = |area: Area| units.water(rain * area);
    let mut given = table(&["wall over a roof", "kind", "of", "onto", "wall", "adds", "flow"], 4);
    for face in &walls.faces {
        let edge = roof.edge(face.edge);
        given.add_row([
            face.edge.number().to_string(),
            edge.kind.name().to_owned(),
            edge.wall_of.clone().unwrap_or_default(),
            roof.plane(edge.planes[0]).name.clone(),
            units.area(face.area),
            units.area(face.adds),
            flow(face.adds),
        ]);
    }
    let mut leaves = table(&["water of walls leaves", "adds", "flow"], 1);
    let mut kinds: Vec<OutletKind> = walls.water.outlets.iter().map(|o| o.kind).collect();
    kinds.dedup();
    for kind in kinds {
        let amount = walls.water.leaving(kind);
        leaves.add_row([out(roof, &drainage.gutters, kind), units.area(amount), flow(amount)]);
    }
    let told = "A share of a wall over a roof, as the books say, counts as roof when wind drives rain against it. It is not in the catchments above; gutters and \
                downspouts are sized for it too. Every wall counts, though wind meets one side at a time.";
    Some(format!("{given}\n\n{leaves}\n\n{told}"))
}
