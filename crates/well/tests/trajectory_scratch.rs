use well::trajectory::*;
#[test]
fn show() {
    let base = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../shared/data");
    let jobs = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../jobs");
    let mut list: Vec<std::path::PathBuf> = ["survey/forge_16a.csv","survey/marcellus_5h.csv","survey/well_1515.csv","witsml/komle_v1411_trajectory.xml","witsml/volve_15_9-F-4_trajectory.xml"].iter().map(|n| base.join(n)).collect();
    for d in std::fs::read_dir(jobs).into_iter().flatten().flatten() { for f in std::fs::read_dir(d.path()).into_iter().flatten().flatten() { if f.file_name().to_string_lossy().contains("survey") { list.push(f.path()) } } }
    for n in list {
        let b = std::fs::read(&n).unwrap();
        let o = SurveyOptions { depth_unit: Some(DepthUnit::Foot), ..SurveyOptions::for_file(n.file_name().unwrap().to_string_lossy()) };
        let t = std::time::Instant::now();
        let r = read_survey(&b, &o);
        println!("== {} {:?} stations {:?}", n.display(), t.elapsed(), r.value.as_ref().map(|s| s.trajectory.stations().len()));
        for f in r.findings { println!("{:5} {:26} {:?} {:?} {}", f.severity.word(), f.id, f.place.line, f.place.depth.map(|d| d.to_string()), f.sentence(quantity::System::Field)); }
    }
}
