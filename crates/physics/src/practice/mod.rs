//! Facts of the trade that order the job: which ball, which seat, in which path.

pub mod casing_packer_duty;
pub mod flow_path;
pub mod launch_point;
pub mod setting_sequence;
pub mod stage_order;
pub mod system;
pub mod volume_identity;

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &system::BALL_COUNT,
    &system::STAGE_OPENING,
    &system::JOB_STEP,
    &stage_order::STAGE_ORDER,
    &stage_order::LANDING_SEAT,
    &flow_path::SEATS_IN_PATH,
    &flow_path::PRODUCTION_PATH,
    &flow_path::SEAT_BORE_LEFT,
    &launch_point::LAUNCH_POINT,
    &launch_point::KEEPS_PUMPING,
    &volume_identity::VOLUME_IDENTITY,
    &setting_sequence::SETTING_SEQUENCE,
    &casing_packer_duty::CASING_PACKER_DUTY,
];
