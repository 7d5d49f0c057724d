//! The command: what is typed, what is read, what is printed and what is written. It computes
//! no figure of its own.

mod cli;
mod command;
mod documents;
mod embedded;
mod fault;
mod input;
mod outputs;
mod screen;
pub mod upkeep;

pub use fault::{Ended, Fault};
pub use outputs::{Outputs, WriteError};

use std::ffi::OsString;
use std::panic::AssertUnwindSafe;
use std::process::ExitCode;

use clap::Parser as _;

use cli::Cli;
use screen::Screen;

/// Version of the program.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");

/// Exit code when the job stops on a finding, or the input is bad.
const BAD_INPUT: u8 = 1;
/// Exit code when the program itself has failed.
const OWN_FAULT: u8 = 2;

/// Runs the command that was typed.
pub fn main() -> ExitCode {
    std::panic::set_hook(Box::new(|info| eprintln!("{}", fault::apology(info))));
    ExitCode::from(guarded(|| run(std::env::args_os())))
}

/// Runs `work`; a panic is the program's own fault.
fn guarded(work: impl FnOnce() -> u8) -> u8 {
    std::panic::catch_unwind(AssertUnwindSafe(work)).unwrap_or(OWN_FAULT)
}

fn run(arguments: impl Iterator<Item = OsString>) -> u8 {
    let cli = match Cli::try_parse_from(arguments) {
        Ok(cli) => cli,
        Err(usage) => {
            let _ = usage.print();
            return if usage.use_stderr() { BAD_INPUT } else { 0 };
        }
    };
    let mut screen = Screen::new(cli.units.map(Into::into), cli.quiet);
    match command::run(cli.command, &mut screen) {
        Ok(Ended::Done) => 0,
        Ok(Ended::Stopped) => BAD_INPUT,
        Err(fault) => {
            screen.fault(&fault);
            fault.exit_code()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_is_our_own_fault() {
        assert_eq!(guarded(|| panic!("a slip")), OWN_FAULT);
        assert_eq!(guarded(|| 0), 0);
    }
}
