//! The families of relations. A relation belongs to the family in whose folder its reference
//! cases stand.

use std::collections::BTreeMap;

use physics::Relation;

/// Name of a family's folder, and what it is about; in the order of the register.
const TITLES: &[(&str, &str)] = &[
    ("geometry", "Survey and hole"),
    ("tubular", "Pipe, loads and drag"),
    ("fluid", "Fluids and slurries"),
    ("hydraulics", "Flow and pressure"),
    ("hammer", "Water hammer"),
    ("ball", "Balls and seats"),
    ("packer", "Packers and swelling"),
    ("heat", "Temperature"),
    ("fracture", "Fracture"),
    ("practice", "Rules of practice"),
    (UNSORTED, "Without a reference case"),
];

/// The family of relations that have no reference case.
pub const UNSORTED: &str = "unsorted";

/// A family of relations.
#[derive(Debug, Clone)]
pub struct Family {
    /// Name, as in `calc --list --family NAME`.
    pub name: &'static str,
    /// What it is about.
    pub title: &'static str,
    /// Its relations, in the order of the register.
    pub relations: Vec<&'static Relation>,
}

/// The families that have a relation.
#[derive(Debug, Clone, Default)]
pub struct Families(pub Vec<Family>);

impl Families {
    /// Sorts the register by the folder of each relation's cases.
    pub fn sort<'a>(folders: &BTreeMap<&'a str, &'a str>) -> Self {
        let known = |name: &str| TITLES.iter().find(|(n, _)| *n == name).map(|(n, _)| *n);
        let home = |r: &Relation| folders.get(r.name).and_then(|f| known(f)).unwrap_or(UNSORTED);
        let family = |&(name, title): &(&'static str, &'static str)| Family {
            name,
            title,
            relations: physics::relations().filter(|r| home(r) == name).collect(),
        };
        Self(TITLES.iter().map(family).filter(|f| !f.relations.is_empty()).collect())
    }

    /// The family of that name.
    pub fn find(&self, name: &str) -> Option<&Family> {
        self.0.iter().find(|f| f.name == name)
    }

    /// The name of the family a relation belongs to.
    pub fn of(&self, relation: &str) -> &'static str {
        let holds = |f: &&Family| f.relations.iter().any(|r| r.name == relation);
        self.0.iter().find(holds).map_or(UNSORTED, |f| f.name)
    }

    /// All names, joined for a message.
    pub fn names(&self) -> String {
        self.0.iter().map(|f| f.name).collect::<Vec<_>>().join(", ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_relation_has_one_family() {
        let folders = physics::relations().take(1).map(|r| (r.name, "geometry")).collect();
        let families = Families::sort(&folders);
        let listed: usize = families.0.iter().map(|f| f.relations.len()).sum();
        assert_eq!(listed, physics::relations().count());
        assert_eq!(families.of("no_such_relation"), UNSORTED);
    }
}
