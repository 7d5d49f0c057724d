//! One module a command.

mod briefing;
mod calc;
mod check;
mod completions;
mod explain;
mod new;
mod plan;
mod pump;
mod schema;
mod serve;
mod upkeep;
mod verify;
mod workings;

use crate::cli::Command;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;

pub(crate) use check::sections;
pub(crate) use plan::stamp;
pub(crate) use schema::text as schema_text;
pub(crate) use verify::built_in as built_in_cases;

/// What every command returns.
type Outcome = Result<Ended, Fault>;

/// Runs a command.
pub(crate) fn run(command: Command, screen: &mut Screen) -> Outcome {
    match command {
        Command::New(args) => new::run(&args, screen),
        Command::Check(args) => check::run(&args, screen),
        Command::Plan(args) => plan::run(&args, screen),
        Command::Briefing(args) => briefing::run(&args, screen),
        Command::Pump(args) => pump::run(&args, screen),
        Command::Workings(args) => workings::run(&args, screen),
        Command::Calc(args) => calc::run(&args, screen),
        Command::Verify(args) => verify::run(&args, screen),
        Command::Explain(args) => explain::run(&args, screen),
        Command::Serve(args) => serve::run(&args, screen),
        Command::Schema(args) => schema::run(&args, screen),
        Command::Completions(args) => completions::run(&args, screen),
        Command::Upkeep(args) => upkeep::run(&args, screen),
    }
}
