//! `schema`: the JSON Schema of a file, for editors and for other programs.

use report::text::json;

use super::Outcome;
use crate::cli::{Schema, SchemaFile};
use crate::fault::Ended;
use crate::screen::Screen;

pub(crate) fn run(args: &Schema, screen: &mut Screen) -> Outcome {
    screen.data(&text(args.file))?;
    Ok(Ended::Done)
}

/// The schema of a file as it is printed and committed.
pub(crate) fn text(file: SchemaFile) -> String {
    match file {
        SchemaFile::Job => {
            let root = well::job::JobFile::table();
            json::text(&well::record::json_schema(root, "The job file of heelward"))
        }
        SchemaFile::Program => json::text(schemars::schema_for!(plan::Program).as_value()),
    }
}
