//! Places with the same answers, and those answers.

use detail::{At, Attack, Details, Fit, MOST_FAILURES, Place};
use roof::Roof;

/// How many failures a place takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Count {
    Failures(usize),
    /// Not even the most that are counted together let water in.
    Never,
    /// It does not happen, or nothing is there.
    Nothing,
}

impl Count {
    fn of(fit: Option<&Fit>, attack: Attack) -> Self {
        let stood = fit.and_then(|fit| fit.stands.iter().find(|stood| stood.attack == attack));
        stood.map_or(Self::Nothing, |stood| stood.failures.map_or(Self::Never, Self::Failures))
    }

    fn told(self) -> String {
        match self {
            Self::Failures(count) => count.to_string(),
            Self::Never => format!("more than {MOST_FAILURES}"),
            Self::Nothing => "nothing".to_owned(),
        }
    }
}

/// A row of the chart.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    pub(super) name: String,
    /// Of each attack, as found and as planned.
    pub(super) stands: Vec<[Count; 2]>,
    /// Whether nobody surveyed how it is met with.
    pub(super) is_assumed: bool,
}

/// Sort of place, whether nobody surveyed it, and its answers: what makes places one row.
type Alike = (Sort, bool, Vec<[Count; 2]>);

/// What places of one row have in common.
#[derive(Clone, Debug, PartialEq)]
enum Sort {
    Edge(&'static str),
    End(&'static str),
    Opening,
}

impl Row {
    /// The worst first.
    pub(super) fn all(details: &Details, roof: &Roof) -> Vec<Self> {
        let mut rows: Vec<(Alike, Vec<String>)> = Vec::new();
        for place in details.worst_first() {
            let (sort, name) = named(place, roof);
            let is_assumed = place.found.as_ref().is_some_and(|fit| fit.is_assumed);
            let alike = (sort, is_assumed, stands(place));
            match rows.iter_mut().find(|(other, _)| *other == alike) {
                Some((_, names)) => names.push(name),
                None => rows.push((alike, vec![name])),
            }
        }
        rows.into_iter()
            .map(|((sort, is_assumed, stands), names)| Self { name: sort.with(&names), stands, is_assumed })
            .collect()
    }

    pub(super) fn counts(&self) -> impl Iterator<Item = Count> + '_ {
        self.stands.iter().flatten().copied()
    }

    /// In words.
    pub(super) fn told(&self) -> String {
        let stands = Attack::ALL.iter().zip(&self.stands);
        let happens = stands.filter(|(_, counts)| **counts != [Count::Nothing; 2]);
        let told = happens.map(|(attack, [found, planned])| {
            format!("{} found {}, planned {}", attack.name(), found.told(), planned.told())
        });
        let surveyed = if self.is_assumed { " (found: not surveyed)" } else { "" };
        format!("{}{surveyed}: {}.", self.name, told.collect::<Vec<_>>().join("; "))
    }
}

impl Sort {
    fn with(&self, names: &[String]) -> String {
        let list = names.join(", ");
        match self {
            Self::Edge(kind) => format!("{kind} {list}"),
            Self::End(kind) => format!("lower end of {kind} {list}"),
            Self::Opening => names.join("; "),
        }
    }
}

fn named(place: &Place, roof: &Roof) -> (Sort, String) {
    match place.at {
        At::Edge(id) => (Sort::Edge(roof.edge(id).kind.name()), id.number().to_string()),
        At::End(id, _) => (Sort::End(roof.edge(id).kind.name()), id.number().to_string()),
        At::Opening(_) => (Sort::Opening, place.name.clone()),
    }
}

fn stands(place: &Place) -> Vec<[Count; 2]> {
    let fits = [place.found.as_ref(), place.chosen()];
    Attack::ALL.iter().map(|attack| fits.map(|fit| Count::of(fit, *attack))).collect()
}
