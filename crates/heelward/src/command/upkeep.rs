//! `upkeep`: the generated documents of the repository.

use super::Outcome;
use crate::cli::Upkeep;
use crate::fault::Ended;
use crate::screen::Screen;
use crate::upkeep;

pub(crate) fn run(args: &Upkeep, screen: &mut Screen) -> Outcome {
    let stale = upkeep::stale(&args.root)?;
    for document in &stale {
        if args.write {
            document.write(&args.root)?;
            screen.data(&format!("written  {}\n", document.path))?;
        } else {
            screen.data(&format!("stale    {}\n", document.path))?;
        }
    }
    if stale.is_empty() {
        screen.talk("All generated documents are up to date.");
    } else if !args.write {
        screen.talk(
            "Run `cargo run --release --locked -p heelward -- upkeep --write` and commit what it writes.",
        );
        return Ok(Ended::Stopped);
    }
    Ok(Ended::Done)
}
