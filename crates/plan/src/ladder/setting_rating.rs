//! What the setting ball holds on the seat of the isolation tool.

use physics::Result;
use physics::ball::ladder::Rung;
use quantity::*;
use well::Job;

use super::duty::Scene;
use super::result::RatingBasis;
use crate::layout::Layout;

/// The rating of a setting ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SettingBallRating {
    /// Ball.
    pub ball: Diameter,
    /// Seat.
    pub seat: Diameter,
    /// Temperature of the rock at the seat, which it is taken at.
    pub temperature: Temperature,
    /// Differential it holds at the worst of the tolerances, before the safety factor.
    pub pressure: Pressure,
    /// What it was made of.
    pub basis: RatingBasis,
}

/// Rating of the setting ball, as that of any ball of the ladder, fresh and without wear; none
/// where the job has no setting ball or nothing says what it holds.
pub fn setting_ball_rating(job: &Job, layout: &Layout) -> Result<Option<SettingBallRating>> {
    let (Some(ball), Some(seat)) = (job.file.toe.setting_ball, job.file.toe.setting_seat) else {
        return Ok(None);
    };
    let Some(scene) = Scene::new(job, layout)? else { return Ok(None) };
    let temperature = job.rock_temperature(job.trajectory.tvd_at(layout.toe_tool));
    let rating = scene.rating(Rung { ball, seat }, scene.tolerances(), temperature);
    Ok(rating.map(|(pressure, basis)| SettingBallRating { ball, seat, temperature, pressure, basis }))
}
