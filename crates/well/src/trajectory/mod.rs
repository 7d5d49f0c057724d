//! The survey: stations, readers for CSV and WITSML, position along the hole.
//!
//! ```
//! use quantity::{MeasuredDepth, TrueVerticalDepth};
//! use well::trajectory::{SurveyOptions, read_survey};
//! let file = b"MD (ft),Inc (deg),Azi (deg)\n0,0,0\n1000,0,0\n1900,90,45\n6900,90,45\n";
//! let read = read_survey(file, &SurveyOptions::for_file("survey.csv"));
//! let path = read.value.ok_or("no path")?.trajectory;
//! let toe = path.position_at(MeasuredDepth::ft(6900.0));
//! // A quarter circle of 900 ft has a radius of 572.96 ft.
//! assert!((toe.tvd.in_ft() - 1572.958).abs() < 0.001);
//! assert_eq!(path.mds_at_tvd(TrueVerticalDepth::ft(500.0)).len(), 1);
//! # Ok::<(), &str>(())
//! ```

mod blunder;
pub mod check;
mod path;
mod point;
mod read_csv;
mod read_witsml;
mod station;
mod survey;
mod survey_table;
mod walk;
mod witsml_station;
mod witsml_unit;

pub use check::CHECKS;
pub use path::{Course, LEAST_COURSE, PathError, Sharpest, Trajectory};
pub use physics::geometry::PathStart;
pub use point::{Coverage, PathPoint};
pub use read_csv::{MOST_ROWS, read_survey_csv};
pub use read_witsml::read_witsml_trajectory;
pub use station::{DepthDatum, Frame, Station};
pub use survey::{Survey, read_survey};
pub use survey_table::{DepthUnit, Reported, RowKind, SurveyOptions, SurveyRow, SurveyTable};
pub use walk::Walk;
