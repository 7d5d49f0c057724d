//! The sources: what a bibliography key stands for.

use std::collections::BTreeMap;

/// How far a source has been read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Checked {
    /// In print.
    Print,
    /// Its abstract, or what others print of it.
    Abstract,
    /// Through a library that implements it.
    Library,
    /// Not at all: from memory.
    Memory,
}

impl Checked {
    /// Plain words.
    pub fn words(self) -> &'static str {
        match self {
            Checked::Print => "read in print",
            Checked::Abstract => "read in abstract",
            Checked::Library => "through a library",
            Checked::Memory => "from memory, not checked against print",
        }
    }
}

/// One source.
#[derive(Debug, Clone, PartialEq, serde::Deserialize, serde::Serialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Title.
    pub title: String,
    /// Authors, or the body that issued it.
    pub authors: String,
    /// Year, as a number or text such as "2009, reaffirmed 2015".
    pub year: toml::Value,
    /// Journal, standard or publisher, with pages.
    #[serde(rename = "where")]
    pub place: String,
    /// How far it has been read.
    pub checked: Checked,
}

impl Source {
    /// One line: authors, year, title, place.
    pub fn line(&self) -> String {
        let year = match &self.year {
            toml::Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        let parts = [self.authors.clone(), year, self.title.clone(), self.place.clone()];
        let parts: Vec<String> = parts.into_iter().filter(|p| !p.trim().is_empty()).collect();
        format!("{} ({})", parts.join(", "), self.checked.words())
    }
}

/// Sources by key.
#[derive(Debug, Clone, Default)]
pub struct Bibliography(pub BTreeMap<String, Source>);

impl Bibliography {
    /// Adds the sources of one file; a key that is there already is refused.
    pub fn add(&mut self, text: &str) -> Result<(), String> {
        let read: BTreeMap<String, Source> = toml::from_str(text).map_err(|e| e.to_string())?;
        for (key, source) in read {
            if self.0.contains_key(&key) {
                return Err(format!("the key `{key}` stands twice"));
            }
            self.0.insert(key, source);
        }
        Ok(())
    }

    /// The sources a text such as `taylor1972 eq. 3; api_d20` names, in its order.
    pub fn named<'a>(&'a self, text: &'a str) -> impl Iterator<Item = (&'a str, &'a Source)> {
        let keys = text.split(';').map(key);
        keys.filter_map(|key| self.0.get(key).map(|source| (key, source)))
    }
}

/// The key a source text begins with.
pub fn key(text: &str) -> &str {
    let first = text.split_whitespace().next().unwrap_or("");
    first.trim_end_matches([',', ';', ':', '.'])
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "[a1990]\ntitle = \"On seats\"\nauthors = \"A. Author\"\nyear = 1990\n\
                        where = \"Journal 1, 2-3\"\nchecked = \"print\"\n";

    #[test]
    fn a_source_text_leads_to_its_entry() {
        let mut all = Bibliography::default();
        all.add(TEXT).unwrap();
        let lines: Vec<String> = all.named("b1991; a1990, eq. 3").map(|(_, s)| s.line()).collect();
        assert_eq!(lines, ["A. Author, 1990, On seats, Journal 1, 2-3 (read in print)"]);
        assert_eq!(all.named("b1991").count(), 0);
        assert!(all.add(TEXT).unwrap_err().contains("stands twice"));
    }

    #[test]
    fn an_unknown_field_is_refused() {
        assert!(Bibliography::default().add(&TEXT.replace("where", "place")).is_err());
    }
}
