//! `serve`: the local page of a job.

use std::net::{IpAddr, Ipv4Addr};

use ::plan::Program;
use ::serve::{Desk, Place, Printer, Token};
use quantity::System;
use report::Look;
use report::terminal::working;
use well::Job;

use super::Outcome;
use super::plan::as_json;
use crate::cli::Serve;
use crate::fault::{Ended, Fault};
use crate::screen::Screen;
use crate::{documents, embedded, input};

/// Bytes of a token.
const SECRET: usize = 16;

pub(crate) fn run(args: &Serve, screen: &mut Screen) -> Outcome {
    let folder = input::folder(&args.job)?;
    let token = args.share.then(secret).transpose()?;
    let address = if args.share { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
    let desk = Desk::new(&folder, Box::new(Press), token.clone());
    let place = Place { address: IpAddr::V4(address), port: args.port };
    ::serve::serve(desk, &place, |here| {
        let port = here.port();
        match &token {
            None => screen.say(&format!("http://127.0.0.1:{port}/")),
            Some(Token(secret)) => {
                screen.say(&format!("http://127.0.0.1:{port}/?token={secret}"));
                screen.talk(
                    "The page is open to this network to whoever has the token; the link is not encrypted. \
                     Stop it when the briefing is over.",
                );
            }
        }
        screen.talk("Press Ctrl+C to stop.");
    })
    .map_err(|e| Fault::input(e.to_string()))?;
    Ok(Ended::Done)
}

/// A token that nobody guesses.
fn secret() -> Result<Token, Fault> {
    let mut bytes = [0u8; SECRET];
    getrandom::fill(&mut bytes).map_err(|e| Fault::Own(format!("the system gives no random bytes: {e}")))?;
    Ok(Token(bytes.iter().map(|b| format!("{b:02x}")).collect()))
}

/// Prints what the page asks for.
struct Press;

impl Printer for Press {
    fn documents(&self, job: &Job, program: &Program) -> Result<Vec<(String, Vec<u8>)>, String> {
        let system = job.file.job.units.system();
        let program = program.clone().settled(system);
        let made = as_json(&program).and_then(|json| documents::all(job, &program, json, system));
        let made = made.map_err(|e| e.to_string())?;
        Ok(made.files().map(|(name, bytes)| (name.to_string(), bytes.to_vec())).collect())
    }

    fn working(&self, program: &Program, figure: &str, system: System) -> Option<String> {
        let sources = embedded::bibliography().ok()?;
        let look = Look { system, ..Look::default() };
        Some(working::page(figure, program.workings.get(figure)?, &sources, &look))
    }
}
