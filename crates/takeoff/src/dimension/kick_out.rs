//! Dimensions where a roof ends at a wall.

use book::{Detail, LookupError, Role};
use measure::Length;
use roof::{EdgeId, NodeId};

use super::{Bench, Dimension, Size, dimension, reach};
use crate::case::Ruled;
use crate::line::input;

impl Bench<'_, '_> {
    /// Where a kick-out stands.
    pub(super) fn foot(
        &self,
        id: EdgeId,
        node: NodeId,
        detail: &Detail,
    ) -> Result<Vec<Dimension>, LookupError> {
        let mut all = self.stands(node);
        all.extend(Self::covers(detail));
        all.extend(self.shape()?);
        all.push(self.stream(id));
        all.extend(self.gutter_gap(node));
        let above = self.case.roof.edge(id).length;
        let rule = "true length of the edge";
        let above = self.on_edge(id, "wall above it, along the roof", Size::Length(above), Vec::new(), rule);
        all.push(above);
        Ok(all)
    }

    /// Where it stands on the house.
    fn stands(&self, node: NodeId) -> Vec<Dimension> {
        let at = self.case.roof.node(node).at;
        let rule = "from the job's origin, where the eave ends at the wall";
        let toward = |metres: f64, ways: [&str; 2]| {
            let way = ways[usize::from(metres < 0.0)];
            dimension(
                format!("foot, {way} the origin"),
                Size::Length(Length::from_m(metres.abs())),
                Vec::new(),
                rule,
            )
        };
        vec![
            toward(at[0], ["east of", "west of"]),
            toward(at[1], ["north of", "south of"]),
            toward(at[2], ["above", "below"]),
        ]
    }

    /// How far it goes up the slope along the wall, in the section.
    fn covers(detail: &Detail) -> Option<Dimension> {
        let layer = detail.of_role(Role::KickOut).next()?;
        let [from, to] = reach(detail, layer, &detail.faces.first()?.name)?;
        let rule = "what it covers in the section";
        Some(dimension("kick-out up the wall's foot", Size::Length(to - from), Vec::new(), rule))
    }

    /// Its own sizes.
    fn shape(&self) -> Result<Vec<Dimension>, LookupError> {
        let [leg, run, flare]: [Ruled<Length>; 3] = [
            self.case.rule("kick-out.wall-leg")?,
            self.case.rule("kick-out.run")?,
            self.case.rule("kick-out.flare")?,
        ];
        let ruled = |what: &str, rule: &Ruled<Length>| {
            let mut one =
                dimension(what, Size::Length(rule.value), vec![rule.input()], "as the trade makes it");
            one.because.source = rule.source.clone();
            one
        };
        let angle = flare.value.m().atan2(run.value.m()).to_degrees();
        let inputs = vec![flare.input(), run.input()];
        let rule = "off the wall's line, seen from above: what it stands out over what it runs; wider turns more aside";
        let mut turned = dimension("turned off the wall by, at least", Size::Angle(angle), inputs, rule);
        turned.because.source = flare.source.clone();
        Ok(vec![
            ruled("wall leg high, at least", &leg),
            ruled("long along the wall, at least", &run),
            ruled("low end off the wall, at least", &flare),
            turned,
        ])
    }

    /// What comes down the wall to it at the design rain.
    fn stream(&self, id: EdgeId) -> Dimension {
        let comes = self.drainage.comes_to(id);
        let rain = &self.case.job.site.rain;
        let inputs = vec![
            input("roof in plan, walls by their share", self.case.words.area(comes)),
            input("design rain", self.case.job.units.rain(rain.value)),
        ];
        let rule = "what runs to this wall from the roof and from the wall above it × design rain; the kick-out must pass it";
        let flow = Size::Flow(rain.value * comes);
        let one = self.on_edge(id, "comes down the wall at the design rain", flow, inputs, rule);
        let is_assumed = one.is_assumed || rain.basis != job::Basis::Measured;
        Dimension { is_assumed, ..one }
    }

    /// How far off the wall the gutter ends.
    fn gutter_gap(&self, node: NodeId) -> Option<Dimension> {
        let eaves = &self.case.roof.node(node).edges;
        let stays = self.case.job.gutters.iter().filter(|gutter| gutter.state != job::State::Remove);
        let mut hangs = stays
            .filter(|gutter| water::eave_of(self.case.roof, gutter).is_ok_and(|eave| eaves.contains(&eave)));
        let gap = hangs.find_map(|gutter| gutter.wall_gap)?;
        Some(dimension("gutter ends short of the wall", Size::Length(gap), Vec::new(), "as the job says"))
    }
}
