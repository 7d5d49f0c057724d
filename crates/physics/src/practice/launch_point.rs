//! When the ball for the next stage is launched, and that the pumps go on.

use crate::ball::count::flag;
use crate::error::{Error, Result, require_not_negative, require_positive};
use crate::registry::{Input, Output, Outputs, Relation};
use quantity::{FlowRate, Ratio, Time, Volume};

const NAME: &str = "launch_point";

/// The end of a stage as pumped, all volumes counted from the start of the stage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StageEnd {
    /// Volume pumped when the last sand leaves the surface.
    pub sand_end: Volume,
    /// Clean volume between the last sand and the ball.
    pub spacer: Volume,
    /// Volume pumped from the launch to the landing on the next seat.
    pub landing: Volume,
    /// Volume of the string from the surface to the open sleeve.
    pub to_sleeve: Volume,
}

/// Launch and landing of the ball for the next stage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Launch {
    /// Volume pumped in the stage at the launch.
    pub launch_at: Volume,
    /// Volume pumped in the stage at the landing, which ends it.
    pub lands_at: Volume,
    /// Clean volume past the open sleeve at the landing; negative is sand left in the string.
    pub overflush: Volume,
}

/// Launch of the next ball: behind the sand and its spacer, before the stage has ended.
///
/// ```text
/// launch = sand end + spacer;   landing = launch + V_land;   overflush = spacer + V_land - V_sleeve
/// ```
///
/// - `V_land` volume from launch to landing, `V_sleeve` volume of the string to the open sleeve, m3
///
/// Range: slurry volumes at the wellhead, counted from the start of the stage.
///
/// Where it breaks: a negative overflush means that sand is still in the string when the ball lands,
/// above the open sleeve: lengthen the spacer.
///
/// Source: trade_practice, launch of the next ball.
///
/// ```
/// use physics::practice::launch_point::{StageEnd, launch_point};
/// use quantity::Volume;
/// let bbl = Volume::bbl;
/// let end = StageEnd { sand_end: bbl(900.0), spacer: bbl(30.0), landing: bbl(265.0), to_sleeve: bbl(290.0) };
/// let launch = launch_point(end)?;
/// assert!(launch.launch_at < launch.lands_at);
/// assert!((launch.overflush.in_bbl() - 5.0).abs() < 1e-9);
/// # Ok::<(), physics::Error>(())
/// ```
pub fn launch_point(end: StageEnd) -> Result<Launch> {
    require_not_negative(NAME, "sand_end", end.sand_end)?;
    require_not_negative(NAME, "spacer", end.spacer)?;
    require_positive(NAME, "landing", end.landing)?;
    require_positive(NAME, "to_sleeve", end.to_sleeve)?;
    let launch_at = end.sand_end + end.spacer;
    Ok(Launch {
        launch_at,
        lands_at: launch_at + end.landing,
        overflush: end.spacer + end.landing - end.to_sleeve,
    })
}

/// Whether the pumps never stop over the rates from launch to landing, and the least rate.
///
/// ```text
/// least rate > 0
/// ```
///
/// Range: at least one rate.
///
/// Where it breaks: a trip of the pumps is no plan; see what it does to the ball with the transit.
///
/// Source: trade_practice, pumps never stop between stages.
///
/// ```
/// use physics::practice::launch_point::keeps_pumping;
/// use quantity::FlowRate;
/// let rates = [25.0, 8.0, 25.0].map(FlowRate::bbl_per_min);
/// assert_eq!(keeps_pumping(&rates)?, (true, FlowRate::bbl_per_min(8.0)));
/// # Ok::<(), physics::Error>(())
/// ```
pub fn keeps_pumping(rates: &[FlowRate]) -> Result<(bool, FlowRate)> {
    let least = rates.iter().copied().reduce(FlowRate::min).ok_or_else(|| Error::NoSolution {
        relation: "keeps_pumping",
        what: "no rate is given".into(),
        hint: "List the rates from launch to landing.",
    })?;
    for rate in rates {
        require_not_negative("keeps_pumping", "rates", *rate)?;
    }
    Ok((least > FlowRate::ZERO, least))
}

/// Launch of the ball for the next stage.
///
/// ```text
/// launch = sand end + spacer;   landing = launch + V_land;   overflush = spacer + V_land - V_sleeve
/// ```
pub static LAUNCH_POINT: Relation = Relation {
    name: NAME,
    title: "Launch of the next ball toward the end of the stage being pumped, and the overflush it brings",
    equation: "launch = sand end + spacer; landing = launch + V_land; overflush = spacer + V_land - V_sleeve",
    source: "trade_practice, launch of the next ball",
    range: "slurry volumes at the wellhead, counted from the start of the stage",
    inputs: &[
        Input::new::<Volume>("sand_end", "volume pumped when the last sand leaves the surface"),
        Input::new::<Volume>("spacer", "clean volume between the last sand and the ball"),
        Input::new::<Volume>("landing", "volume from launch to landing on the next seat"),
        Input::new::<Volume>("to_sleeve", "volume of the string down to the open sleeve"),
        Input::new::<FlowRate>("rate", "mean rate from launch to landing"),
    ],
    outputs: &[
        Output::new::<Volume>("launch_at", "volume pumped in the stage at the launch"),
        Output::new::<Volume>("lands_at", "volume pumped in the stage at the landing, its end"),
        Output::new::<Ratio>("before_end", "1 when the ball is launched before the stage has ended"),
        Output::new::<Volume>(
            "overflush",
            "clean volume past the open sleeve; negative is sand left in the string",
        ),
        Output::new::<Time>("time", "from launch to landing"),
    ],
    evaluate: |a| {
        let end = StageEnd {
            sand_end: a.get("sand_end")?,
            spacer: a.get("spacer")?,
            landing: a.get("landing")?,
            to_sleeve: a.get("to_sleeve")?,
        };
        let rate: FlowRate = a.get("rate")?;
        require_positive(NAME, "rate", rate)?;
        let launch = launch_point(end)?;
        Ok(Outputs::new()
            .put("launch_at", launch.launch_at)
            .put("lands_at", launch.lands_at)
            .put("before_end", flag(launch.launch_at < launch.lands_at))
            .put("overflush", launch.overflush)
            .put("time", end.landing / rate))
    },
};

/// Whether the pumps go on from launch to landing.
///
/// ```text
/// least rate > 0
/// ```
pub static KEEPS_PUMPING: Relation = Relation {
    name: "keeps_pumping",
    title: "Whether the pumps never stop between two stages",
    equation: "least rate from launch to landing > 0",
    source: "trade_practice, pumps never stop between stages",
    range: "rates from the launch of a ball to its landing",
    inputs: &[Input::list::<FlowRate>("rates", "rates from launch to landing")],
    outputs: &[
        Output::new::<Ratio>("keeps_pumping", "1 when no rate is zero"),
        Output::new::<FlowRate>("least_rate", "least of the rates"),
    ],
    evaluate: |a| {
        let (keeps, least) = keeps_pumping(&a.list("rates")?)?;
        Ok(Outputs::new().put("keeps_pumping", flag(keeps)).put("least_rate", least))
    },
};
