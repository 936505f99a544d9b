//! Surveys as tables: the checklist printed, filled in, taken up; bad lines named.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::site::as_built::COLUMNS;
use rafterglow::site::{HeightAt, Site};
use rafterglow::store;
use rafterglow::store::survey_list::taken_up;
use rafterglow::units::Length;
use std::path::PathBuf;
use std::process::{Command, Output};

fn sample() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("sample-sites/freight-shed.ron")
}

fn site() -> Site {
    store::open(&sample()).unwrap()
}

fn metres(length: Length) -> f64 {
    length.as_metres()
}

#[test]
fn a_filled_table_is_taken_up_and_says_the_same_however_it_is_separated() {
    let text = "member,from,distance,height,height at,missing,note\r\n\
                J-04,1,7.38,7.74,,,\r\n\
                J-05/AB,2,-2.9 m,7640 mm,B - 2 m,,\"low, on a bracket\"\r\n\
                J-06,,,,,yes,cut out\r\n\
                J-07,,,,,,\r\n";
    let (_, next) = taken_up(&site(), text).unwrap();
    let as_built = &next.framings[0].as_built;
    assert_eq!(as_built.len(), 3, "J-07 says nothing");
    let place = as_built[0].measured_at.as_ref().unwrap();
    assert_eq!((place.from.as_str(), metres(place.distance)), ("1", 7.38));
    assert_eq!(
        as_built[0].measured_height.as_ref().unwrap().at,
        HeightAt::LowEnd
    );
    let height = as_built[1].measured_height.as_ref().unwrap();
    assert!((metres(height.height) - 7.64).abs() < 1e-12);
    let HeightAt::FromLine { line, distance } = &height.at else {
        panic!("{height:?}");
    };
    assert_eq!((line.as_str(), metres(*distance)), ("B", -2.0));
    assert_eq!(as_built[1].notes, "low, on a bracket");
    assert!(as_built[2].missing);
    next.validate().unwrap();

    let lines: Vec<Vec<String>> = csv_rows(text);
    let semicolons: String = lines
        .iter()
        .map(|row| {
            row.iter()
                .map(|it| format!("\"{it}\""))
                .collect::<Vec<_>>()
                .join(";")
                + "\n"
        })
        .collect();
    assert_eq!(taken_up(&site(), &semicolons).unwrap().1, next);
    // Columns may stand in any order, and only the first is asked for.
    let few = "note,member,distance,from\n,J-04,7.38,1\n";
    let found = taken_up(&site(), few).unwrap().1;
    assert_eq!(
        found.framings[0].as_built[0].measured_at,
        as_built[0].measured_at
    );
    // What the table says replaces what was known; what it doesn't, stays.
    let again = taken_up(&next, "member,from,distance\nJ-05,2,-2.8\n")
        .unwrap()
        .1;
    assert_eq!(
        again.framings[0].as_built[1].measured_height.as_ref(),
        Some(height)
    );
}

fn csv_rows(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    reader
        .records()
        .map(|record| record.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

fn check_refused(text: &str, expected: &[&str]) {
    let refused = taken_up(&site(), text).unwrap_err().to_string();
    let lines: Vec<&str> = refused.lines().collect();
    assert_eq!(lines.len(), expected.len(), "{refused}");
    for (line, expected) in lines.iter().zip(expected) {
        assert!(
            line.starts_with(expected),
            "{line}\ndoes not begin with\n{expected}"
        );
    }
}

#[test]
fn every_bad_line_is_named_with_what_would_be_accepted() {
    check_refused(
        "member,from,distance,height,missing\n\
         K-04,1,7.38,,\n\
         J-05,1,a hand,7.7,maybe\n\
         J-06,,10.9,,\n\
         J-07,1,12.8,,\n\
         J-07,1,12.9,,\n",
        &[
            "line 2, member: found “K-04”; accepted: a member of a framing of this site, such as J-07",
            "line 3, distance: found “a hand”; accepted:",
            "line 3, missing: found “maybe”; accepted: yes, no, or nothing",
            "line 4, from: found nothing; accepted: the grid line",
            "line 6, member: found J-07 again; accepted: each member once: it stands in line 5",
        ],
    );
    check_refused(
        "member,from,distance,height,height at\nJ-04,1,7.3,,\nJ-05,1,7.2,7.7,B + 200 m\n",
        &[
            "line 3: found a place 200 m along J-05",
            "line 3: found J-05 at or before J-04",
        ],
    );
    check_refused(
        "member,place\nJ-04,1\n",
        &["line 1: found a column headed “place”"],
    );
    check_refused(
        "from,distance\n1,2\n",
        &["line 1: found no column headed “member”"],
    );
    check_refused("", &["line 1: found no column headed “member”"]);
}

fn rafterglow(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rafterglow"))
        .args(arguments)
        .output()
        .unwrap()
}

#[test]
fn the_checklist_is_printed_filled_in_and_taken_up_from_the_command_line() {
    let sample = sample();
    let sample = sample.to_str().unwrap();
    let printed = rafterglow(&["survey", sample]);
    assert_eq!(printed.status.code(), Some(0));
    let text = String::from_utf8(printed.stdout).unwrap();
    let mut rows = csv_rows(&text);
    let head: Vec<String> = rows.remove(0);
    assert_eq!(head[..COLUMNS.len()], COLUMNS.map(str::to_owned));
    assert!(rows.len() > 10);
    // Taken up as it is, a blank checklist changes nothing.
    assert_eq!(taken_up(&site(), &text).unwrap().1, site());

    // The first joist is found 20 mm farther from its line than it is drawn.
    let drawn: f64 = rows[0][8].trim_end_matches(" m").parse().unwrap();
    rows[0][2] = format!("{:.3}", drawn + 0.02);
    let folder = std::env::temp_dir().join(format!("rafterglow-survey-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let (list, made) = (folder.join("measured.csv"), folder.join("built.ron"));
    let mut writer = csv::Writer::from_path(&list).unwrap();
    writer.write_record(&head).unwrap();
    for row in &rows {
        writer.write_record(row).unwrap();
    }
    writer.flush().unwrap();
    let (list, made) = (list.to_str().unwrap(), made.to_str().unwrap());
    let done = rafterglow(&["survey", sample, list, "-o", made]);
    let said = String::from_utf8(done.stdout).unwrap();
    assert!(
        said.starts_with("as built: 1; still to be measured"),
        "{said}"
    );
    assert!(said.contains("0.020 m to the right"), "{said}");

    let report = rafterglow(&["check", made, "--json", "--full"]);
    let report: serde_json::Value = serde_json::from_slice(&report.stdout).unwrap();
    let member = &report["survey"]["members"][0];
    assert_eq!(member["id"], rows[0][0].as_str());
    assert!((member["moved_m"].as_f64().unwrap() - 0.02).abs() < 1e-9);
    assert!(report["survey"]["hangers_moved"].as_u64().unwrap() > 0);
    let rest = report["survey"]["unmeasured"].as_array().unwrap().len();
    assert_eq!(rest, rows.len() - 1);
    let plain = rafterglow(&["check", sample, "--json"]);
    let plain: serde_json::Value = serde_json::from_slice(&plain.stdout).unwrap();
    assert!(plain.get("survey").is_none());

    // A bad line: nothing is written, and the exit code says so.
    std::fs::write(list, "member,from,distance\nJ-04,1,far\n").unwrap();
    let kept = std::fs::read(made).unwrap();
    let refused = rafterglow(&["survey", sample, list, "-o", made]);
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8(refused.stderr).unwrap();
    assert!(
        said.contains("nothing was taken up") && said.contains("line 2, distance"),
        "{said}"
    );
    assert_eq!(std::fs::read(made).unwrap(), kept);
    std::fs::remove_dir_all(folder).unwrap();
}
