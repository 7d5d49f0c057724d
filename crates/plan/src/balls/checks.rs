//! Checks of the ball program.

use quantity::*;
use well::{Job, Severity};

use super::result::BallCard;
use crate::Ledger;

well::checks! {
    references: "practice";
    TRIP "ball-landing-trip" Stop "No landing rate keeps clear of the pump trip",
        "Surface pressure before landing, with the rise of the pressure wave until the sleeve opens at the top of its range, against the trip and the headroom.",
        "A trip at landing stops the pumps with sand in the pipe; raising the trip to make a ball land has hurt people and is never the answer.",
        "Land at a lower rate, pin the sleeve lower, or lower the treating pressure before landing. Never raise the trip.",
        "8,100 psi before landing and a rise of 1,400 psi against a trip of 8,800 psi.";
    LIMIT "ball-landing-limit" Stop "No landing rate keeps within the treating pressure",
        "Surface pressure before landing, with the rise of the pressure wave until the sleeve opens at the top of its range, against the treating pressure limit.",
        "The limit holds for the landing as for the stage; a rise that is expected is a pressure that is planned.",
        "Land at a lower rate, or pin the sleeve lower. The limit itself is not negotiable on location.",
        "7,900 psi before landing and a rise of 1,400 psi under a limit of 8,500 psi.";
    SPIKE "ball-landing-spike" Stop "The spike of a landing may lift the relief valve",
        "Surface pressure before landing, with the spike that stands as long as the sleeve takes to shift, against the relief setting.",
        "The spike is an upper bound without friction, and short; a relief valve that lifts empties the line all the same.",
        "Land at a lower rate, or lower the treating pressure before landing. Never raise the relief setting.",
        "5,864 psi before landing and a spike of 4,212 psi against a relief valve at 9,300 psi.";
    IMPACT "ball-landing-impact" Stop "The blow of the landing is too much for the ball",
        "Pressure difference on the ball at the moment of landing, both sides counted, against its rating and the share the job file allows.",
        "Balls have broken at landing; what lies below them is then treated twice and the stage not at all.",
        "Land at a lower rate, or take a stronger ball.",
        "6,900 psi across a ball rated 8,100 psi with a share of 0.8.";
    HIDDEN "ball-landing-hidden" Warn "The landing will not be seen on the recorder",
        "Rise at the surface and how long it lasts, against the least rise and number of samples; and whether the first step, counted on both sides of the ball, may open the sleeve on contact.",
        "Where the wave alone opens the sleeve the surface sees no plateau. Only the level after it, the next shut-in pressure or a step-down test then tells whether the sleeve opened.",
        "Plan a confirmation by step-down, land slower, or record faster.",
        "15 bbl/min against a shear of 1,500 psi: the first step opens the sleeve.";
    OVERTAKES "ball-spacer" Warn "The ball would catch up with the proppant",
        "The spacer ahead of the ball against how much the ball gains on the fluid before it lands.",
        "A ball in slurry is slow, may stick, and lands on a bed of sand. The program plans the longer spacer.",
        "Provide the clean fluid, and launch at the volume on the card.",
        "A gain of 36 bbl over 290 bbl against a spacer of 15 bbl.";
    FIRST "ball-first-path" Stop "The first ball needs somewhere for the fluid ahead of it to go",
        "Whether the first stage is opened by a ball with nothing open below it.",
        "In a closed string a ball only sinks; it must be pumped against a toe that takes fluid.",
        "Say in `toe.first_ball_path` how the toe takes fluid while ball 1 travels, as the supplier confirms it.",
        "A fluid-activated system: ball 1 goes to stage 1 above a plugged toe.";
    IDENTITY "ball-volume-identity" Note "Volume alone cannot tell neighbouring seats apart",
        "The volume between neighbouring seats against three standard deviations of the landing volume.",
        "Volume gives a window; only the ball's size says which seat it is on. Two people must measure and read back every ball.",
        "Never call a landing by volume alone; correct the meter factor after each landing.",
        "4.5 bbl between seats, 3.2 bbl one standard deviation.";
    UNCALIBRATED "ball-uncalibrated" Note "The landing volumes are not yet corrected by a landing of this job",
        "Whether the job factor has been set from landings.",
        "The motion of a ball is a model. Ten landings in a public data set fell at 0.92 to 0.97 of the swept volume, later than the model's middle; the window is wide enough for both.",
        "After each landing set `ball_program.job_factor` to the mean of observed over expected volume and plan again; until then trust the window, not its middle.",
        "Expected 272.7 bbl, seen at 284.0 bbl: factor 1.041.";
    OVER "ball-over-displacement" Note "Clean fluid goes into the finished stage",
        "Volume of clean fluid past the open sleeve behind the last proppant, against 50 bbl.",
        "Over-displacement can push proppant away from the wellbore.",
        "Shorten the spacer if the meter factor of earlier landings allows it.",
        "62 bbl past the sleeve of stage 3.";
}

/// Volume of over-displacement from which a note is made.
const MUCH: Volume = Volume::bbl(50.0);

/// What there is to say of one card.
pub(super) fn judge(job: &Job, card: &BallCard, ledger: &mut Ledger) {
    let stage = card.stage;
    let program = &job.file.ball_program;
    let chosen = &card.chosen;
    if chosen.below_trip < program.headroom {
        let message = said!(
            "ball {stage}: no landing rate leaves the headroom below the trip (the limit is the trip less the headroom)"
        );
        let finding = TRIP.found(message).stage(stage).field("ball_program.landing_rate");
        ledger.say(finding.value(chosen.highest).limit(job.file.limits.trip - program.headroom));
    }
    let treating = job.file.limits.treating_pressure;
    if chosen.highest > treating {
        let message = said!("ball {stage}: landing passes the treating pressure at every landing rate");
        let finding = LIMIT.found(message).stage(stage).field("ball_program.landing_rate");
        ledger.say(finding.value(chosen.highest).limit(treating));
    }
    if chosen.highest_spike > job.file.limits.relief {
        let message = said!(
            "ball {stage}: the spike while the sleeve shifts may lift the relief valve at every landing rate"
        );
        let finding = SPIKE.found(message).stage(stage).field("ball_program.landing_rate");
        ledger.say(finding.value(chosen.highest_spike).limit(job.file.limits.relief));
    }
    if chosen.impact_share > program.impact_share {
        let message = said!("ball {stage}: the blow of landing at {} is too much", chosen.rate);
        let finding = IMPACT.found(message).stage(stage).field("ball_program.landing_rate");
        ledger.say(finding.value(chosen.impact_share).limit(program.impact_share));
    }
    if chosen.allowed && !chosen.visible {
        let message = said!("ball {stage}: no allowed landing rate shows at the surface");
        let finding = HIDDEN.found(message).stage(stage).field("ball_program.landing_rate");
        ledger.say(finding.value(chosen.signature.rise).limit(program.visible_rise));
    }
    if card.launched_during == 0 {
        let field = "toe.first_ball_path";
        ledger.say(match &job.file.toe.first_ball_path {
            None => {
                let message =
                    "the first ball is launched into a string with nothing known to be open below it";
                FIRST.found(message).stage(stage).field(field)
            }
            Some(path) => {
                let message = said!("the first ball is pumped against an open toe: {path}");
                FIRST.found(message).stage(stage).field(field).severity(Severity::Note)
            }
        });
    }
    if card.over_displacement > MUCH {
        let message = said!("clean fluid is pushed into stage {} behind its proppant", card.launched_during);
        ledger.say(OVER.found(message).stage(card.launched_during).value(card.over_displacement).limit(MUCH));
    }
}

/// What holds for the cards together, said once: the spacers made longer, and whether volume can
/// tell neighbouring seats apart.
pub(super) fn judge_together(job: &Job, cards: &[BallCard], ledger: &mut Ledger) {
    let wanted = job.file.ball_program.spacer_ahead;
    let longer: Vec<&BallCard> = cards.iter().filter(|c| c.spacer_ahead > wanted).collect();
    if let Some(most) = longer.iter().max_by(|a, b| a.spacer_ahead.total_cmp(&b.spacer_ahead)) {
        let message = said!(
            "{} of {} balls gain on the fluid more than the spacer ahead of them; their spacers are made longer, most for stage {}",
            longer.len(),
            cards.len(),
            most.stage
        );
        let finding = OVERTAKES.found(message).stage(most.stage).field("ball_program.spacer_ahead");
        ledger.say(finding.value(most.spacer_ahead).limit(wanted));
    }
    if job.file.ball_program.job_factor == Ratio::of(1.0) && !cards.is_empty() {
        let message = "no landing of this job has corrected the landing volumes yet";
        ledger.say(UNCALIBRATED.found(message).field("ball_program.job_factor"));
    }
    let close = cards.iter().filter_map(|c| Some((c, c.spacing?, c.spacing_sigmas?)));
    let worst = close.min_by(|a, b| a.2.total_cmp(&b.2));
    if let Some((card, spacing, sigmas)) = worst.filter(|w| w.2 < Ratio::of(3.0)) {
        let message = said!(
            "seats {} and {} are {:.1} standard deviations of landing volume apart at the closest",
            card.launched_during,
            card.stage,
            sigmas.in_one()
        );
        ledger.say(IDENTITY.found(message).stage(card.stage).value(spacing).limit(card.sigma * 3.0));
    }
}
