//! What is provided against what is asked.

use std::cmp::Ordering;

use job::Units;

use super::figure::{Figure, decimals_apart};

/// What a clause asks of a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Demand {
    /// So much or more.
    AtLeast(Figure),
    /// So much or less.
    AtMost(Figure),
    /// That it is so.
    Yes,
}

/// Whether a clause is met.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It is.
    Pass,
    /// It is not.
    Fail,
    /// Something nobody wrote down decides it.
    CannotTell {
        /// The field of the job document, or what the survey must find.
        missing: String,
    },
}

/// How many of a row's checks must hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// All of them.
    All,
    /// One of them.
    Any,
    /// The one by this index; the others are other readings of the clause.
    Taken(usize),
}

/// One thing held against a clause.
#[derive(Clone, Debug, PartialEq)]
pub struct Check {
    /// What of the clause; empty where there is nothing else.
    pub what: String,
    /// What is asked.
    pub demand: Demand,
    /// As found; none where nothing is there yet or nobody can know.
    pub found: Option<Judged>,
    /// Whether what is found is what the books say is usual at such a place, and nobody surveyed it here.
    pub is_usual: bool,
    /// As planned.
    pub planned: Judged,
}

/// What is provided, and what that makes of the demand.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// None where it is not known.
    pub provided: Option<Figure>,
    /// Whether it is enough.
    pub verdict: Verdict,
}

/// What is known of what is provided.
pub(super) enum Held {
    Is(Figure),
    Missing(String),
}

impl Held {
    pub(super) const fn yes_no(is: bool) -> Self {
        Self::Is(Figure::YesNo(is))
    }

    /// A figure that may not have been written, and what would tell.
    pub(super) fn or_missing(figure: Option<Figure>, missing: impl Into<String>) -> Self {
        figure.map_or_else(|| Self::Missing(missing.into()), Self::Is)
    }
}

impl Demand {
    /// The figure asked.
    pub const fn figure(self) -> Figure {
        match self {
            Self::AtLeast(figure) | Self::AtMost(figure) => figure,
            Self::Yes => Figure::YesNo(true),
        }
    }

    /// Before the figure, on papers.
    pub const fn word(self) -> &'static str {
        match self {
            Self::AtLeast(_) => "at least ",
            Self::AtMost(_) => "at most ",
            Self::Yes => "",
        }
    }

    fn is_met(self, provided: Figure) -> bool {
        let order = provided.compare(self.figure());
        match self {
            Self::AtLeast(_) => matches!(order, Some(Ordering::Greater | Ordering::Equal)),
            Self::AtMost(_) => matches!(order, Some(Ordering::Less | Ordering::Equal)),
            Self::Yes => order == Some(Ordering::Equal),
        }
    }

    /// What is provided, judged.
    pub(super) fn judge(self, held: Held) -> Judged {
        match held {
            Held::Is(figure) => Judged {
                provided: Some(figure),
                verdict: if self.is_met(figure) { Verdict::Pass } else { Verdict::Fail },
            },
            Held::Missing(missing) => Judged { provided: None, verdict: Verdict::CannotTell { missing } },
        }
    }
}

impl Verdict {
    /// In words, for papers.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Fail => "FAIL",
            Self::CannotTell { .. } => "cannot tell",
        }
    }

    /// Place in the order of rows, the worst first.
    pub(super) const fn rank(&self) -> usize {
        match self {
            Self::Fail => 0,
            Self::CannotTell { .. } => 1,
            Self::Pass => 2,
        }
    }

    /// What would settle it, where it cannot be told.
    pub fn missing(&self) -> Option<&str> {
        if let Self::CannotTell { missing } = self { Some(missing) } else { None }
    }
}

impl Need {
    /// The verdict of several; none where there is none.
    pub(super) fn of<'a>(self, verdicts: impl Iterator<Item = Option<&'a Verdict>>) -> Option<Verdict> {
        let all: Vec<Option<&Verdict>> = verdicts.collect();
        let known = || all.iter().copied().flatten();
        match self {
            Self::Taken(index) => all.get(index).copied().flatten().cloned(),
            Self::Any => known().max_by_key(|verdict| verdict.rank()).map(|_| any(known())),
            Self::All => known().min_by_key(|verdict| verdict.rank()).map(|_| every(known())),
        }
    }
}

/// One that holds is enough; else what is missing of those that may.
fn any<'a>(verdicts: impl Iterator<Item = &'a Verdict> + Clone) -> Verdict {
    if verdicts.clone().any(|verdict| *verdict == Verdict::Pass) {
        return Verdict::Pass;
    }
    lacking(verdicts).unwrap_or(Verdict::Fail)
}

/// One that does not hold is enough to fail; else what is missing.
fn every<'a>(verdicts: impl Iterator<Item = &'a Verdict> + Clone) -> Verdict {
    if verdicts.clone().any(|verdict| *verdict == Verdict::Fail) {
        return Verdict::Fail;
    }
    lacking(verdicts).unwrap_or(Verdict::Pass)
}

fn lacking<'a>(verdicts: impl Iterator<Item = &'a Verdict>) -> Option<Verdict> {
    let mut missing: Vec<&str> = Vec::new();
    for what in verdicts.filter_map(Verdict::missing) {
        if !missing.contains(&what) {
            missing.push(what);
        }
    }
    (!missing.is_empty()).then(|| Verdict::CannotTell { missing: missing.join("; ") })
}

impl Check {
    /// Of a demand: what is found, if that can be known, and what is planned.
    pub(super) fn new(what: impl Into<String>, demand: Demand, found: Option<Held>, planned: Held) -> Self {
        let found = found.map(|held| demand.judge(held));
        Self { what: what.into(), demand, found, is_usual: false, planned: demand.judge(planned) }
    }

    /// The same, what is found being what is usual at such a place.
    pub(super) fn usual(self) -> Self {
        Self { is_usual: self.found.is_some(), ..self }
    }

    /// What is provided beyond what is asked, or short of it; none where that is no number.
    pub fn margin(&self) -> Option<Figure> {
        let (asked, provided) = (self.demand.figure(), self.planned.provided?);
        match self.demand {
            Demand::AtLeast(_) => provided.less(asked),
            Demand::AtMost(_) => asked.less(provided),
            Demand::Yes => None,
        }
    }

    /// Required, provided as found and as planned: alike in print only where they are in fact. What is usual and was not surveyed is called so.
    pub fn written(&self, units: Units) -> [String; 3] {
        let asked = self.demand.figure();
        let provided = [self.found.as_ref(), Some(&self.planned)]
            .map(|judged| judged.and_then(|judged| judged.provided));
        let decimals = provided.iter().flatten().map(|figure| decimals_apart(asked, *figure, units)).max();
        let written = |figure: Figure| match decimals {
            Some(decimals) => figure.with_decimals(units, decimals),
            None => figure.written(units),
        };
        let [found, planned] = provided.map(|figure| figure.map_or_else(String::new, written));
        let found = if self.is_usual && !found.is_empty() { format!("usually {found}") } else { found };
        [format!("{}{}", self.demand.word(), written(asked)), found, planned]
    }
}

#[cfg(test)]
mod tests {
    use measure::Length;

    use super::*;

    const FOUR: Demand = Demand::AtLeast(Figure::Length(Length::from_in(4.0)));

    fn verdict(demand: Demand, inches: f64) -> Verdict {
        demand.judge(Held::Is(Figure::Length(Length::from_in(inches)))).verdict
    }

    #[test]
    fn just_enough_is_enough_and_a_hair_less_is_not() {
        assert_eq!(verdict(FOUR, 4.0), Verdict::Pass);
        assert_eq!(verdict(FOUR, 4.0 - 1e-12), Verdict::Pass);
        assert_eq!(verdict(FOUR, 3.9999), Verdict::Fail);
        let most = Demand::AtMost(FOUR.figure());
        assert_eq!(verdict(most, 4.0), Verdict::Pass);
        assert_eq!(verdict(most, 4.0001), Verdict::Fail);
        assert_eq!(Demand::Yes.judge(Held::yes_no(false)).verdict, Verdict::Fail);
    }

    #[test]
    fn what_is_missing_is_told_only_where_it_decides() {
        let unknown = Verdict::CannotTell { missing: "x".to_owned() };
        let of = |need: Need, all: &[&Verdict]| need.of(all.iter().map(|v| Some(*v))).unwrap();
        assert_eq!(of(Need::All, &[&Verdict::Pass, &unknown]), unknown);
        assert_eq!(of(Need::All, &[&Verdict::Fail, &unknown]), Verdict::Fail);
        assert_eq!(of(Need::All, &[&Verdict::Pass, &Verdict::Pass]), Verdict::Pass);
        assert_eq!(of(Need::Any, &[&Verdict::Pass, &unknown]), Verdict::Pass);
        assert_eq!(of(Need::Any, &[&Verdict::Fail, &unknown]), unknown);
        assert_eq!(of(Need::Any, &[&Verdict::Fail, &Verdict::Fail]), Verdict::Fail);
        assert_eq!(of(Need::Taken(1), &[&Verdict::Fail, &Verdict::Pass]), Verdict::Pass);
        assert_eq!(Need::All.of([None].into_iter()), None);
    }
}
