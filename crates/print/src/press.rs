//! The press: typst as a library, with fonts held in the program and files held in memory.
//! Nothing is read from disk and nothing is asked of the network.

use std::collections::{BTreeMap, HashMap};

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::PdfOptions;

/// The press could not make the document.
#[derive(Debug, thiserror::Error)]
pub enum PressError {
    /// A file name cannot be used.
    #[error("the document's part `{0}` has a name that cannot be used")]
    Name(String),
    /// The document does not typeset: our fault.
    #[error("the document does not typeset: {0}")]
    Typeset(String),
    /// The PDF could not be written.
    #[error("the PDF could not be made: {0}")]
    Export(String),
}

/// One document to be made.
#[derive(Debug, Clone)]
pub struct Manuscript<'a> {
    /// The typst text.
    pub text: &'a str,
    /// Files it reads, by name.
    pub files: BTreeMap<String, Vec<u8>>,
    /// A text that stands for the document's contents, for its identity in the PDF.
    pub identity: String,
}

struct Desk {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    main: Source,
    files: HashMap<FileId, Bytes>,
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }
    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }
    fn main(&self) -> FileId {
        self.main.id()
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() { Ok(self.main.clone()) } else { Err(FileError::AccessDenied) }
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.get(&id).cloned().ok_or(FileError::AccessDenied)
    }
    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn fonts() -> Vec<Font> {
    let faces = [
        dejavu::sans::regular(),
        dejavu::sans::bold(),
        dejavu::sans_condensed::regular(),
        dejavu::sans_condensed::bold(),
    ];
    faces.into_iter().flat_map(|data| Font::iter(Bytes::new(data))).collect()
}

fn id(name: &str) -> Result<FileId, PressError> {
    let path = VirtualPath::new(name).map_err(|_| PressError::Name(name.to_string()))?;
    Ok(FileId::new(RootedPath::new(VirtualRoot::Project, path)))
}

/// Makes the PDF of a manuscript. The same manuscript gives the same bytes.
pub fn press(manuscript: Manuscript<'_>) -> Result<Vec<u8>, PressError> {
    let fonts = fonts();
    let files = manuscript
        .files
        .into_iter()
        .map(|(name, bytes)| Ok((id(&name)?, Bytes::new(bytes))))
        .collect::<Result<_, PressError>>()?;
    let desk = Desk {
        library: LazyHash::new(Library::default()),
        book: LazyHash::new(FontBook::from_fonts(&fonts)),
        fonts,
        main: Source::new(id("main.typ")?, manuscript.text.to_string()),
        files,
    };
    let first = |list: &[typst::diag::SourceDiagnostic]| {
        list.iter().map(|d| d.message.to_string()).collect::<Vec<_>>().join("; ")
    };
    let document =
        typst::compile::<PagedDocument>(&desk).output.map_err(|e| PressError::Typeset(first(&e)))?;
    let options = PdfOptions {
        ident: Smart::Custom(manuscript.identity),
        creator: Smart::Custom(Some("heelward".into())),
        ..PdfOptions::default()
    };
    typst_pdf::pdf(&document, &options).map_err(|e| PressError::Export(first(&e)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_manuscript_gives_the_same_bytes() {
        let manuscript = || {
            Manuscript {
            text: "#set text(font: \"DejaVu Sans\")\n= #json(\"a.json\").name\n#image(\"b.svg\")",
            files: BTreeMap::from([
                ("a.json".to_string(), br#"{"name":"plain"}"#.to_vec()),
                (
                    "b.svg".to_string(),
                    br#"<svg xmlns="http://www.w3.org/2000/svg" width="40" height="20"><rect width="40" height="20"/></svg>"#.to_vec(),
                ),
            ]),
            identity: "test".into(),
        }
        };
        let one = press(manuscript()).unwrap();
        assert!(one.starts_with(b"%PDF"));
        assert_eq!(one, press(manuscript()).unwrap());
        let broken = Manuscript { text: "#image(\"none.svg\")", ..manuscript() };
        assert!(matches!(press(broken), Err(PressError::Typeset(_))));
    }
}
