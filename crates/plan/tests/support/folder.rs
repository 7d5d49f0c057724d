//! A job folder in memory: an example's job file with fields set, and data files beside it.

use std::path::{Path, PathBuf};

use toml::Value;
use well::host::Memory;
use well::job::JOB_FILE;
use well::{Finding, Job, Severity, read_job};

/// Where the example jobs stand.
pub fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs")
}

/// A file of an example job, as text.
pub fn example_file(job: &str, file: &str) -> String {
    std::fs::read_to_string(examples().join(job).join(file)).unwrap()
}

/// A job folder that is being written.
#[derive(Clone)]
pub struct JobFolder {
    table: toml::Table,
    files: Memory,
}

impl JobFolder {
    /// With the job file of an example and no data files.
    pub fn of_example(job: &str) -> Self {
        let table = example_file(job, JOB_FILE).parse().unwrap();
        Self { table, files: Memory::default() }
    }

    /// With the data files of an example too.
    pub fn whole_example(job: &str) -> Self {
        let mut folder = Self::of_example(job);
        for entry in std::fs::read_dir(examples().join(job)).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if name != JOB_FILE {
                folder = folder.file(&name, std::fs::read(&path).unwrap());
            }
        }
        folder
    }

    /// Sets a field, such as `packer.largest_hole` or `string.2.bottom` (lists count from 0).
    pub fn set(mut self, field: &str, value: impl Into<Value>) -> Self {
        let (tables, key) = field.rsplit_once('.').unwrap();
        let value = value.into();
        match self.at(tables) {
            Value::Table(table) => drop(table.insert(key.to_string(), value)),
            Value::Array(list) => list[key.parse::<usize>().unwrap()] = value,
            other => panic!("{field} lies in {other}"),
        }
        self
    }

    /// Takes a field or a table away.
    pub fn without(mut self, field: &str) -> Self {
        match field.rsplit_once('.') {
            None => drop(self.table.remove(field)),
            Some((tables, key)) => drop(self.at(tables).as_table_mut().unwrap().remove(key)),
        }
        self
    }

    /// Puts a data file beside the job file.
    pub fn file(mut self, name: &str, bytes: impl Into<Vec<u8>>) -> Self {
        self.files.0.insert(name.to_string(), bytes.into());
        self
    }

    /// The folder as it would stand on disk.
    pub fn host(&self) -> Memory {
        let mut host = self.files.clone();
        host.0.insert(JOB_FILE.to_string(), self.table.to_string().into_bytes());
        host
    }

    /// The job, which must be complete, and what reading it found.
    pub fn job(&self) -> (Job, Vec<Finding>) {
        let read = read_job(&self.host());
        let stops: Vec<_> = read.findings.iter().filter(|f| f.severity == Severity::Stop).collect();
        match read.value {
            Some(job) => (job, read.findings),
            None => panic!("no job: {stops:#?}"),
        }
    }

    fn at(&mut self, tables: &str) -> &mut Value {
        let mut names = tables.split('.');
        let first = names.next().unwrap();
        let start = self.table.get_mut(first).unwrap_or_else(|| panic!("no table {first}"));
        names.fold(start, |at, name| match at {
            Value::Array(list) => &mut list[name.parse::<usize>().unwrap()],
            at => at.get_mut(name).unwrap_or_else(|| panic!("no table {name} of {tables}")),
        })
    }
}

/// A list of rows, each a list of names and values, as the job file takes it.
pub fn rows(list: impl IntoIterator<Item = Vec<(&'static str, Value)>>) -> Value {
    let row = |r: Vec<(&str, Value)>| Value::Table(r.into_iter().map(|(k, v)| (k.to_string(), v)).collect());
    Value::Array(list.into_iter().map(row).collect())
}
