//! What is told of gutters and downspouts that do not fit the roof.

use job::{Empties, Gutter, Problem, Span, Units};
use measure::Length;
use roof::plan::{flat, runs_north, unit};
use roof::{EdgeId, Roof};

pub(crate) fn told(to: &Empties) -> String {
    match to {
        Empties::Ground => "the ground".to_owned(),
        Empties::Drain => "a drain".to_owned(),
        Empties::Gutter(name) => name.clone(),
        Empties::Roof(plane) => plane.to_string(),
    }
}

pub(crate) fn no_eave(gutter: &Gutter) -> Problem {
    let message = format!("`{}` hangs at `{}`, which has no eave", gutter.name, gutter.eave);
    let mend =
        "name the plane whose low edge it hangs at: block and the way it faces, as `show roof` lists them";
    Problem::error("no-eave", message, mend).at(gutter.eave_span.clone(), "")
}

pub(crate) fn which_eave(roof: &Roof, gutter: &Gutter, eaves: &[EdgeId], units: Units) -> Problem {
    let count = eaves.len();
    let which = gutter.part.map_or_else(|| "an eave".to_owned(), |part| format!("eave {part}"));
    let message =
        format!("`{}` hangs at {which} of `{}`, which has {count} of them", gutter.name, gutter.eave);
    let lengths: Vec<String> = eaves.iter().map(|id| units.length(roof.edge(*id).length)).collect();
    let mend = format!(
        "write part = 1 to {count}, counted from the west, from the south where they run north: they are {} long",
        lengths.join(", ")
    );
    Problem::error("which-eave", message, mend).at(gutter.eave_span.clone(), "")
}

pub(crate) fn taken(gutter: &Gutter, other: &Gutter) -> Problem {
    let message = format!("`{}` hangs at the eave of `{}`", gutter.name, other.name);
    let mend = "write state = \"remove\" for the one that goes, or name another eave";
    Problem::error("eave-taken", message, mend)
        .at(gutter.eave_span.clone(), "")
        .at(other.eave_span.clone(), "the other one")
}

pub(crate) fn off_eave(downspout: &job::Downspout, at: Length, whole: Length, units: Units) -> Problem {
    let [at, whole] = [at, whole].map(|length| units.length(length));
    let message = format!("`{}` is at {at}, but its eave is {whole} long", downspout.name);
    problem_at(
        "off-eave",
        message,
        "measure along the eave, or write the name of its end",
        &downspout.at_span,
    )
}

pub(crate) fn no_end(roof: &Roof, edge: EdgeId, downspout: &job::Downspout) -> Problem {
    let [from, to] = roof.ends(edge).map(flat);
    let ends = if runs_north(unit(from, to)) { "south and north" } else { "west and east" };
    let message = format!("`{}` is at an end its eave does not have", downspout.name);
    problem_at("no-end", message, &format!("its ends are {ends}"), &downspout.at_span)
}

pub(crate) fn no_roof(gutter: &Gutter, downspout: &job::Downspout) -> Problem {
    let message = format!(
        "`{}` of `{}` empties on `{}`, of which nothing is to be seen",
        downspout.name,
        gutter.name,
        told(&downspout.to)
    );
    problem_at("empties-nowhere", message, "name a plane as `show roof` lists them", &downspout.to_span)
}

pub(crate) fn uphill(gutter: &Gutter, downspout: &job::Downspout, to: &str) -> Problem {
    let message =
        format!("`{}` of `{}` empties on `{to}`, which is not below it", downspout.name, gutter.name);
    problem_at(
        "empties-uphill",
        message,
        "name a lower gutter or roof, or `ground` or `drain`",
        &downspout.to_span,
    )
}

pub(crate) fn far(gutter: &Gutter, downspout: &job::Downspout, to: &str, away: &str) -> Problem {
    let message = format!("`{}` of `{}` empties on `{to}`, {away} away", downspout.name, gutter.name);
    let mend = "name the gutter or roof right below it; where a pipe leads that far, write `drain`, or `ground` if it ends there";
    problem_at("empties-far", message, mend, &downspout.to_span)
}

fn problem_at(code: &'static str, message: String, mend: &str, span: &Span) -> Problem {
    Problem::error(code, message, mend).at(span.clone(), "")
}
