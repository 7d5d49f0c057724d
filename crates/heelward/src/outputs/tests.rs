use super::*;

/// A folder of its own for a test, gone afterwards.
struct Scratch(std::path::PathBuf);

impl Scratch {
    fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("heelward-outputs-{}-{name}", std::process::id()));
        let _ = std::fs::remove_dir_all(&path);
        std::fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn names(&self) -> Vec<String> {
        names(&self.0, "")
    }

    fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.0.join(name)).unwrap()
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

fn names(folder: &Path, above: &str) -> Vec<String> {
    let mut out = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = format!("{above}{}", path.file_name().unwrap().to_string_lossy());
        if path.is_dir() {
            out.push(format!("{name}/"));
            out.extend(names(&path, &format!("{name}/")));
        } else {
            out.push(name);
        }
    }
    out.sort();
    out
}

fn outputs(files: &[(&str, &str)]) -> Outputs {
    let mut out = Outputs::default();
    files.iter().for_each(|(name, text)| out.add(name, *text).unwrap());
    out
}

#[test]
fn a_new_folder_is_made_and_filled() {
    let scratch = Scratch::new("new");
    let folder = scratch.0.join("program");
    let written = outputs(&[("a.txt", "one"), ("drawings/b.svg", "two")]).write(&folder);
    assert_eq!(written, Ok(2));
    assert_eq!(
        scratch.names(),
        ["program/", "program/a.txt", "program/drawings/", "program/drawings/b.svg", "program/written.json"]
    );
    assert_eq!(scratch.text("program/drawings/b.svg"), "two");
}

#[test]
fn a_second_run_replaces_its_own_documents_and_takes_away_those_it_no_longer_makes() {
    let scratch = Scratch::new("again");
    outputs(&[("a.txt", "one"), ("old.txt", "old")]).write(&scratch.0).unwrap();
    outputs(&[("a.txt", "two")]).write(&scratch.0).unwrap();
    assert_eq!(scratch.names(), ["a.txt", "written.json"]);
    assert_eq!(scratch.text("a.txt"), "two");
}

#[test]
fn files_of_others_are_never_overwritten() {
    let scratch = Scratch::new("others");
    std::fs::write(scratch.0.join("a.txt"), "mine").unwrap();
    std::fs::write(scratch.0.join("notes.txt"), "mine too").unwrap();
    let refused = outputs(&[("a.txt", "one"), ("b.txt", "two")]).write(&scratch.0).unwrap_err();
    assert!(matches!(&refused, WriteError::Occupied { names, .. } if names == "a.txt"), "{refused}");
    assert_eq!(scratch.names(), ["a.txt", "notes.txt"]);
    assert_eq!(scratch.text("a.txt"), "mine");
}

#[test]
fn a_document_changed_by_hand_is_not_overwritten_and_not_taken_away() {
    let scratch = Scratch::new("changed");
    outputs(&[("a.txt", "one"), ("b.txt", "two")]).write(&scratch.0).unwrap();
    std::fs::write(scratch.0.join("a.txt"), "noted by hand").unwrap();
    assert!(outputs(&[("a.txt", "three")]).write(&scratch.0).is_err());
    outputs(&[("b.txt", "three")]).write(&scratch.0).unwrap();
    assert_eq!(scratch.text("a.txt"), "noted by hand");
    assert_eq!(scratch.text("b.txt"), "three");
}

#[test]
fn a_failure_half_way_leaves_everything_as_it_was() {
    let scratch = Scratch::new("half");
    outputs(&[("a.txt", "one"), ("gone.txt", "still here")]).write(&scratch.0).unwrap();
    std::fs::write(scratch.0.join("sub"), "a file where a folder is wanted").unwrap();
    let refused = outputs(&[("a.txt", "two"), ("b.txt", "two"), ("sub/c.txt", "two")]).write(&scratch.0);
    assert!(refused.is_err());
    assert_eq!(scratch.names(), ["a.txt", "gone.txt", "sub", "written.json"]);
    assert_eq!(scratch.text("a.txt"), "one");
    assert_eq!(outputs(&[("a.txt", "three")]).write(&scratch.0), Ok(1));
}

/// What a run leaves that is killed after so many of its moves: those of a second run that puts
/// `a.txt` and `b.txt` and takes `gone.txt` away.
fn killed_after(moves: usize, folder: &Path) {
    let staging = folder.join(".heelward-1-0");
    std::fs::create_dir(&staging).unwrap();
    let names = ["a.txt", "b.txt"];
    names.iter().enumerate().for_each(|(i, n)| {
        std::fs::write(staging.join(format!("new-{i}")), format!("new {n}")).unwrap();
    });
    let list = recover::Moves { placed: names.map(String::from).to_vec(), gone: vec!["gone.txt".into()] };
    list.write(&staging).unwrap();
    let steps = [
        (folder.join("gone.txt"), staging.join("gone-0")),
        (folder.join("a.txt"), staging.join("old-0")),
        (staging.join("new-0"), folder.join("a.txt")),
        (staging.join("new-1"), folder.join("b.txt")),
    ];
    steps.iter().take(moves).for_each(|(from, to)| std::fs::rename(from, to).unwrap());
    if moves > steps.len() {
        recover::Moves::done(&staging).unwrap();
    }
}

#[test]
fn a_run_that_was_killed_is_taken_back_by_the_next() {
    for moves in 0..=4 {
        let scratch = Scratch::new(&format!("killed-{moves}"));
        outputs(&[("a.txt", "one"), ("gone.txt", "still here")]).write(&scratch.0).unwrap();
        killed_after(moves, &scratch.0);
        recover::recover(&scratch.0).unwrap();
        assert_eq!(scratch.names(), ["a.txt", "gone.txt", "written.json"], "after {moves} moves");
        assert_eq!((scratch.text("a.txt"), scratch.text("gone.txt")), ("one".into(), "still here".into()));
        assert_eq!(outputs(&[("a.txt", "three")]).write(&scratch.0), Ok(1));
    }
}

#[test]
fn a_run_that_was_killed_after_its_last_move_stands() {
    let scratch = Scratch::new("killed-late");
    outputs(&[("a.txt", "one"), ("gone.txt", "still here")]).write(&scratch.0).unwrap();
    killed_after(5, &scratch.0);
    recover::recover(&scratch.0).unwrap();
    assert_eq!(scratch.names(), ["a.txt", "b.txt", "written.json"]);
    assert_eq!(scratch.text("a.txt"), "new a.txt");
}

#[test]
fn what_a_killed_run_left_beside_a_new_folder_goes() {
    let scratch = Scratch::new("beside");
    let at_work = Staging::new(&scratch.0).unwrap();
    std::fs::create_dir(scratch.0.join(".heelward-1-0")).unwrap();
    outputs(&[("a.txt", "one")]).write(&scratch.0.join("program")).unwrap();
    assert!(at_work.path().is_dir() && !scratch.0.join(".heelward-1-0").exists());
}

#[test]
fn a_run_at_work_is_left_alone() {
    let scratch = Scratch::new("busy");
    let _at_work = Staging::new(&scratch.0).unwrap();
    assert!(matches!(outputs(&[("a.txt", "one")]).write(&scratch.0), Err(WriteError::Busy(_))));
}

#[test]
fn a_folder_that_cannot_be_made_is_named() {
    let scratch = Scratch::new("nowhere");
    let one = outputs(&[("a.txt", "one")]);
    assert!(matches!(one.write(&scratch.0.join("x/y")), Err(WriteError::NoParent(_))));
    std::fs::write(scratch.0.join("file"), "").unwrap();
    assert!(matches!(one.write(&scratch.0.join("file")), Err(WriteError::NotAFolder(_))));
    assert_eq!(scratch.names(), ["file"]);
}

#[test]
fn a_list_of_another_program_is_left_alone() {
    let scratch = Scratch::new("list");
    std::fs::write(scratch.0.join(LIST), "shopping").unwrap();
    assert!(outputs(&[("a.txt", "one")]).write(&scratch.0).is_err());
    assert_eq!(scratch.text(LIST), "shopping");
}

#[test]
fn names_stay_below_the_folder() {
    let mut out = Outputs::default();
    for name in ["", "/a", "../a", "a/../b", "a//b", ".hidden", "a/.b", "a\\b", LIST, "./a"] {
        assert!(out.add(name, "x").is_err(), "{name}");
    }
    assert!(out.add("a/b.txt", "x").is_ok());
    assert_eq!(out.files().collect::<Vec<_>>(), [("a/b.txt", &b"x"[..])]);
}

#[test]
fn refusals_of_the_system_are_put_in_plain_words() {
    use std::io::{Error, ErrorKind};
    assert_eq!(words(&Error::from(ErrorKind::StorageFull)), "the disk is full");
    assert_eq!(words(&Error::from(ErrorKind::ReadOnlyFilesystem)), "the disk is read-only");
    assert_eq!(words(&Error::from(ErrorKind::PermissionDenied)), "you have no right to write there");
}
