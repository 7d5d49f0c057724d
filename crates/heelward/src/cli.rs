//! What can be typed.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use clap_complete::Shell;

/// The foot of every help page.
const FOOT: &str = "Exit codes: 0 done; 1 a finding stops the job, a case missed, or the input is bad; 2 a fault of \
     the program.\nDecision support, not a safety system: local codes, the supplier's ratings and the engineer in \
     charge go first.";

/// Plans a ball-activated open-hole multistage completion.
#[derive(Debug, Parser)]
#[command(name = "heelward", version, about, after_help = FOOT, propagate_version = true)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Command,
    /// Units of printed figures; without it those of the job, else field units.
    #[arg(long, value_enum, global = true)]
    pub(crate) units: Option<Units>,
    /// Print the result alone, without remarks.
    #[arg(long, short, global = true)]
    pub(crate) quiet: bool,
}

/// Units of printed figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Units {
    /// Feet, inches, psi, barrels.
    Field,
    /// Metres, millimetres, megapascals, cubic metres.
    Metric,
}

impl From<Units> for quantity::System {
    fn from(units: Units) -> Self {
        match units {
            Units::Field => quantity::System::Field,
            Units::Metric => quantity::System::Metric,
        }
    }
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Start a job: write a commented example into a new folder.
    New(New),
    /// Read a job and judge its input, without planning.
    Check(Check),
    /// Plan a job from the input to the documents.
    Plan(Plan),
    /// Run the planned job in time and write the channels a recorder would keep.
    Pump(Pump),
    /// Write the briefing: one HTML file that plays the job in any browser, without this program.
    Briefing(Briefing),
    /// Open the local page of a job: the well to scale, the plan, the job played back.
    Serve(Serve),
    /// List the figures of a plan, or open one to its workings.
    Workings(Workings),
    /// Compute one relation and show its workings.
    Calc(Calc),
    /// Run reference cases and show how far the program is from them.
    Verify(Verify),
    /// Say what a check checks, why it matters and what to do.
    Explain(Explain),
    /// Print the JSON Schema of a file.
    Schema(Schema),
    /// Print the completions of a shell.
    Completions(Completions),
    /// Write the generated documents of the repository, or say which are stale.
    #[command(hide = true)]
    Upkeep(Upkeep),
}

#[derive(Debug, Args)]
pub(crate) struct New {
    /// Folder to make; it must not exist, or be empty.
    pub(crate) folder: PathBuf,
    /// How the packers of the example are set.
    #[arg(long, value_enum, default_value_t = SystemKind::FluidActivated)]
    pub(crate) system: SystemKind,
}

/// How the packers are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SystemKind {
    /// Packers that swell in a fluid.
    FluidActivated,
    /// Packers set by pressure.
    HydraulicSet,
}

impl From<SystemKind> for well::job::SystemKind {
    fn from(kind: SystemKind) -> Self {
        match kind {
            SystemKind::FluidActivated => well::job::SystemKind::FluidActivated,
            SystemKind::HydraulicSet => well::job::SystemKind::HydraulicSet,
        }
    }
}

#[derive(Debug, Args)]
pub(crate) struct Check {
    /// Folder of the job, or its job file.
    pub(crate) job: PathBuf,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Plan {
    /// Folder of the job, or its job file.
    pub(crate) job: PathBuf,
    /// Folder the documents are written to; without it only the summary is printed.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Pump {
    /// Folder of the job, or its job file.
    pub(crate) job: PathBuf,
    /// Folder the channels are written to; without it only the summary is printed.
    #[arg(long, value_name = "DIR")]
    pub(crate) out: Option<PathBuf>,
    /// Time between samples, with its unit, from 0.01 s to 10 s.
    #[arg(long, value_name = "TIME", default_value = "1 s")]
    pub(crate) sample: String,
    /// Time between samples while pressure waves run and shortly before a landing; the same without it.
    #[arg(long, value_name = "TIME")]
    pub(crate) fine: Option<String>,
    /// A fault the job is to have, as `NAME@STAGE,after=5 min,over=30 s,size=0.5`; may be given more than
    /// once. `list` describes them all.
    #[arg(long, value_name = "FAULT")]
    pub(crate) fault: Vec<String>,
    /// A scenario file with faults and noise.
    #[arg(long, value_name = "FILE")]
    pub(crate) scenario: Option<PathBuf>,
    /// Adds the usual noise of gauges and meters, drawn by the seed.
    #[arg(long)]
    pub(crate) noise: bool,
    /// Seed of what is drawn, such as where each sleeve shears; that of the plan without it.
    #[arg(long)]
    pub(crate) seed: Option<u64>,
    /// Print the run as JSON, without its samples.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Briefing {
    /// Folder of the job, or its job file.
    pub(crate) job: PathBuf,
    /// File that is written; a briefing of that name is replaced, another file is not.
    #[arg(long, value_name = "FILE")]
    pub(crate) out: PathBuf,
}

#[derive(Debug, Args)]
pub(crate) struct Serve {
    /// Folder of the job, or its job file.
    pub(crate) job: PathBuf,
    /// Port of the page; any free one without it.
    #[arg(long, default_value_t = 0)]
    pub(crate) port: u16,
    /// Open the page to the network, to whoever has the token that is printed; without it only this
    /// machine is answered.
    #[arg(long)]
    pub(crate) share: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Workings {
    /// Folder of the job, or its job file.
    pub(crate) job: PathBuf,
    /// Figure to open, such as `stage.3.rate_ceiling`; without it all are listed.
    pub(crate) figure: Option<String>,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Calc {
    /// Name of the relation.
    #[arg(required_unless_present = "list")]
    pub(crate) relation: Option<String>,
    /// Inputs as `name=value`, each value with its unit, such as `bore="3.92 in"`.
    #[arg(value_name = "NAME=VALUE", conflicts_with = "list")]
    pub(crate) inputs: Vec<String>,
    /// List all relations with their inputs, outputs, range and source; with a name, that one in full.
    #[arg(long)]
    pub(crate) list: bool,
    /// List one family only.
    #[arg(long, requires = "list", conflicts_with = "relation")]
    pub(crate) family: Option<String>,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Verify {
    /// Case files, or folders of them; without any, the built-in cases are run.
    pub(crate) paths: Vec<PathBuf>,
    /// Print JSON.
    #[arg(long, conflicts_with = "markdown")]
    pub(crate) json: bool,
    /// Print the accuracy tables of the book as Markdown.
    #[arg(long)]
    pub(crate) markdown: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Explain {
    /// Name of the check, as a finding shows it.
    #[arg(required_unless_present = "list")]
    pub(crate) check: Option<String>,
    /// List all checks.
    #[arg(long, conflicts_with = "check")]
    pub(crate) list: bool,
    /// Print JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Schema {
    /// Which file.
    #[arg(value_enum)]
    pub(crate) file: SchemaFile,
}

/// A file that has a schema.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SchemaFile {
    /// The job file that is read.
    Job,
    /// The program that `plan --json` prints.
    Program,
}

#[derive(Debug, Args)]
pub(crate) struct Completions {
    /// Which shell.
    #[arg(value_enum)]
    pub(crate) shell: Shell,
}

#[derive(Debug, Args)]
pub(crate) struct Upkeep {
    /// Write the documents that are stale.
    #[arg(long)]
    pub(crate) write: bool,
    /// Root of the repository.
    #[arg(long, default_value = ".")]
    pub(crate) root: PathBuf,
}
