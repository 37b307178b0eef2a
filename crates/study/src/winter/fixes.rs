//! What is done about the ice, and which of it is worth looking at.

use crate::Study;

/// What is done about the ice. As found nothing is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[allow(clippy::struct_excessive_bools, reason = "each may be done without the others")]
pub struct Fixes {
    /// Leaks of the ceiling are sealed as planned.
    pub seal: bool,
    /// Insulation is laid as planned.
    pub insulate: bool,
    /// Vents at the eaves are opened as planned.
    pub low_vents: bool,
    /// Vents at the ridge are cut, others closed, as planned.
    pub high_vents: bool,
    /// Vents are what the code asks, half of it low and half of it high, whatever is planned.
    pub balanced: bool,
    /// Closed-cell foam that fits takes the place of what lies on the ceiling.
    pub foam: bool,
    /// Joist bays of cantilevers are blocked and sealed.
    pub cantilevers: Closing,
    /// The rest of the job is done: new roofing lies, new gutters hang, fans end where they will.
    pub rest: bool,
}

/// Which cantilevers are closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Closing {
    /// None that is open.
    #[default]
    AsFound,
    /// Those that the job plans to close.
    AsPlanned,
    /// All of them.
    All,
}

impl Fixes {
    /// Nothing.
    pub const NONE: Self = Self {
        seal: false,
        insulate: false,
        low_vents: false,
        high_vents: false,
        balanced: false,
        foam: false,
        cantilevers: Closing::AsFound,
        rest: false,
    };

    /// All that the job plans.
    pub const ALL: Self = Self {
        seal: true,
        insulate: true,
        low_vents: true,
        high_vents: true,
        cantilevers: Closing::AsPlanned,
        rest: true,
        ..Self::NONE
    };

    /// Each worth looking at alone, and together, in words for papers: as found first, as planned last.
    pub fn worth(study: &Study) -> Vec<(&'static str, Self)> {
        let none = Self::NONE;
        let envelope = &study.envelope;
        let has_foam = envelope.foams.iter().any(Result::is_ok);
        let mut all = vec![
            ("as found", none),
            ("ridge vent alone, eaves as found", Self { high_vents: true, ..none }),
            ("leaks sealed alone", Self { seal: true, ..none }),
            ("insulated alone", Self { insulate: true, ..none }),
            ("vented at eaves and ridge alone", Self { low_vents: true, high_vents: true, ..none }),
            ("balanced vents alone, as much as the code asks", Self { balanced: true, ..none }),
            ("sealed and insulated, vents as found", Self { seal: true, insulate: true, ..none }),
        ];
        all.extend(
            has_foam.then_some(("closed-cell foam alone, vents as found", Self { foam: true, ..none })),
        );
        let closed = Self { cantilevers: Closing::All, ..none };
        all.extend((!envelope.cantilevers.is_empty()).then_some(("cantilevers closed alone", closed)));
        all.push(("as planned", Self::ALL));
        all
    }

    /// Which of them cannot be told of for this house, and why.
    pub fn left_out(study: &Study) -> Vec<String> {
        let envelope = &study.envelope;
        let foams = envelope.foams.iter().filter_map(|foam| foam.as_ref().err());
        let foams = foams.map(|why| format!("closed-cell foam: {why}"));
        foams.chain(envelope.unseen.iter().map(|why| format!("cantilevers: {why}"))).collect()
    }
}
