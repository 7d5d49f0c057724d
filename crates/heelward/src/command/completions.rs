//! `completions`: what a shell needs to complete the command.

use clap::CommandFactory as _;

use super::Outcome;
use crate::cli::{Cli, Completions};
use crate::fault::{Ended, Fault};
use crate::screen::Screen;

pub(crate) fn run(args: &Completions, screen: &mut Screen) -> Outcome {
    let mut out = Vec::new();
    clap_complete::generate(args.shell, &mut Cli::command(), "heelward", &mut out);
    let text = String::from_utf8(out).map_err(|_| Fault::Own("the completions are not text".into()))?;
    screen.data(&text)?;
    Ok(Ended::Done)
}
