//! The cautions every program document and the page carry.

/// One caution: what it is about, and what to do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct Caution {
    /// What it is about.
    pub subject: &'static str,
    /// What to do.
    pub rule: &'static str,
}

/// What the program is and is not.
pub const STANDING: &str = "Decision support, not a safety system. Local codes, the supplier's ratings and the \
     engineer in charge go before anything printed here.";

/// The cautions, in the order they are met on the job.
pub const CAUTIONS: &[Caution] = &[
    Caution {
        subject: "line of fire",
        rule: "Nobody stands in line with the launcher, a union, a cap or a restrained line while anything is \
               under pressure.",
    },
    Caution {
        subject: "zero energy at the launcher",
        rule: "Before a launcher is opened or loaded, prove that it holds no pressure: isolate, bleed off, and \
               see the bleed stay dry. A gauge that reads zero is no proof.",
    },
    Caution {
        subject: "test exclusion zone",
        rule: "Clear and guard the exclusion zone before a pressure test or a pop-off check; nobody enters until \
               the pressure is off.",
    },
    Caution {
        subject: "trip pressures",
        rule: "Never raise a trip or a relief setting to make a ball land or a sleeve open. Stop, and find out \
               why.",
    },
    Caution {
        subject: "trapped pressure",
        rule: "A ball on its seat, a set packer or a closed valve can hold pressure below it. Treat both sides \
               as live until each has been bled off and proved.",
    },
    Caution {
        subject: "H2S",
        rule: "Take returns as sour until they are measured; wear detectors, know the wind and the muster point.",
    },
    Caution {
        subject: "lone work at flowback",
        rule: "Nobody works alone at a ball catcher, a choke or a tank during flowback.",
    },
];

/// The cautions as text lines, for a document's foot.
pub fn foot() -> Vec<String> {
    let rules = CAUTIONS.iter().map(|c| format!("{}: {}", c.subject, c.rule));
    std::iter::once(STANDING.to_string()).chain(rules).collect()
}
