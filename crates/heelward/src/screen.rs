//! Data to standard output, talk to standard error, colour only where a person looks on.

use std::io::{ErrorKind, IsTerminal, Write};

use quantity::System;
use report::text::look::PLAIN_WIDTH;
use report::{Colour, Look, Role};
use well::job::Units;

use crate::fault::Fault;

/// Where a command prints.
pub(crate) struct Screen {
    /// How data is laid out.
    pub(crate) look: Look,
    talk_look: Look,
    /// Whether talk is left out.
    pub(crate) quiet: bool,
    /// Whether the reader of standard output has gone.
    closed: bool,
    /// Whether the units were asked for.
    asked: bool,
}

impl Screen {
    /// For the streams of this process; field units unless others are asked for.
    pub(crate) fn new(asked: Option<System>, quiet: bool) -> Self {
        let system = asked.unwrap_or_default();
        let (out, err) = (std::io::stdout(), std::io::stderr());
        let look = Look { system, width: columns(out.is_terminal()), colour: colour(&out) };
        let talk_look = Look { system, width: columns(err.is_terminal()), colour: colour(&err) };
        Self { look, talk_look, quiet, closed: false, asked: asked.is_some() }
    }

    /// Takes the units of a job, unless others were asked for.
    pub(crate) fn take_units(&mut self, units: Units) {
        if !self.asked {
            self.look.system = units.system();
        }
    }

    /// Prints data. A reader that has gone, as with `| head`, is no fault.
    pub(crate) fn data(&mut self, text: &str) -> Result<(), Fault> {
        if self.closed {
            return Ok(());
        }
        let mut out = anstream::stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Err(e) if e.kind() == ErrorKind::BrokenPipe => {
                self.closed = true;
                Ok(())
            }
            Err(e) => Err(Fault::input(format!("standard output cannot be written: {e}"))),
            Ok(()) => Ok(()),
        }
    }

    /// Prints a line of data from where it cannot be an error: a reader that has gone misses it.
    pub(crate) fn say(&mut self, line: &str) {
        let _ = self.data(&format!("{line}\n"));
    }

    /// Says something beside the data; nothing when quiet.
    pub(crate) fn talk(&self, text: &str) {
        if !self.quiet {
            let _ = anstream::stderr().lock().write_all(self.talk_look.wrap(0, text).as_bytes());
        }
    }

    /// Says why the command could not do what was asked.
    pub(crate) fn fault(&self, fault: &Fault) {
        let text = fault.text();
        let painted = match text.strip_prefix("error:") {
            Some(rest) => format!("{}{rest}", self.talk_look.paint(Role::Stop, "error:")),
            None => text,
        };
        let _ = writeln!(anstream::stderr().lock(), "{painted}");
    }
}

fn columns(terminal: bool) -> usize {
    let size = terminal.then(terminal_size::terminal_size).flatten();
    size.map_or(PLAIN_WIDTH, |(width, _)| usize::from(width.0))
}

fn colour(stream: &impl anstream::stream::RawStream) -> Colour {
    match anstream::AutoStream::choice(stream) {
        anstream::ColorChoice::Never => Colour::Plain,
        _ => Colour::Ansi,
    }
}
