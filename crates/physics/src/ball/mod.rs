//! Balls and seats: contact stress, ladders, transport, dissolution.

pub mod ball_lift;
pub mod ball_velocity;
pub mod bearing;
pub mod cap_shear;
pub mod carrying_factor;
pub mod clearance;
pub mod contact;
pub(crate) mod count;
pub mod dissolution;
pub mod drag;
pub mod equal_stress_ladder;
pub mod hertz;
pub mod keep_up;
pub mod ladder;
pub mod landing_window;
pub mod rating;
pub mod recession;
pub mod sand_erosion;
pub mod seat_erosion;
pub mod step_ladder;
pub mod terminal_velocity;
pub mod transit;
pub mod wall_factor;
pub mod wedge_release;

use crate::Relation;

/// The relations of this family.
pub(crate) static RELATIONS: &[&Relation] = &[
    &contact::SEAT_CONTACT,
    &bearing::PROJECTED_BEARING,
    &bearing::PROJECTED_BEARING_LIMIT,
    &cap_shear::CAP_SHEAR,
    &hertz::HERTZ_LINE,
    &hertz::ELASTIC_LINE_LOAD,
    &rating::BALL_RATING,
    &clearance::SEAT_INTERFERENCE,
    &clearance::SEAT_PASSAGE,
    &clearance::LADDER_FIT,
    &dissolution::DISSOLVING_BALL,
    &dissolution::DISSOLUTION_TIME,
    &recession::RECESSION_AT_TEMPERATURE,
    &recession::RECESSION_FROM_MASS_RATE,
    &recession::MASS_RATE_FROM_RECESSION,
    &wedge_release::WEDGE_RELEASE,
    &seat_erosion::SEAT_EROSION,
    &seat_erosion::SEAT_WEAR,
    &sand_erosion::IMPACT_ANGLE_FUNCTION,
    &sand_erosion::REDUCER_EROSION,
    &sand_erosion::EROSIONAL_VELOCITY,
    &step_ladder::LADDER_CAPACITY,
    &step_ladder::STEP_LADDER,
    &step_ladder::FRACTION_LADDER,
    &equal_stress_ladder::EQUAL_STRESS_LADDER,
    &drag::SPHERE_DRAG,
    &terminal_velocity::TERMINAL_VELOCITY,
    &wall_factor::WALL_FACTOR,
    &carrying_factor::CARRYING_FACTOR,
    &ball_velocity::BALL_VELOCITY,
    &ball_velocity::STALL_RATE,
    &ball_lift::BALL_LIFT,
    &keep_up::KEEP_UP,
    &transit::BALL_TRANSIT_UNIFORM,
    &landing_window::LANDING_VOLUME_SPREAD,
    &landing_window::LANDING_WINDOW,
    &landing_window::LANDING_FACTOR,
];
