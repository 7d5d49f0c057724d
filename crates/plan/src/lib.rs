//! The phases of the job in job order. Each is a function of the job and of what came before;
//! what it has to say goes to the ledger.

pub mod balls;
pub mod casing_packer;
pub mod checks;
pub mod device;
pub mod ladder;
pub mod layout;
pub mod ledger;
pub mod path;
pub mod program;
pub mod rock;
pub mod setting;
pub mod stages;
pub mod strings;
pub mod swell;
pub mod words;

pub use ledger::{Band, Ledger, Named, Step, Working};
pub use program::{Header, Program, plan};
