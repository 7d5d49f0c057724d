//! Writes the data files of the invented example jobs below `jobs/`.
//!
//! `cargo run -p well --example make_jobs` rewrites them byte for byte: every number comes from
//! a seeded, named generator. The job files themselves are written by hand.

#[path = "make_jobs/files.rs"]
mod files;

fn main() -> std::io::Result<()> {
    let jobs = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs");
    for file in files::all() {
        let path = jobs.join(&file.path);
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder)?;
        }
        std::fs::write(&path, &file.text)?;
        println!("{}: {} bytes", file.path, file.text.len());
    }
    Ok(())
}
