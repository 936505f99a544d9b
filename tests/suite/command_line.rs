//! The commands, run as a user runs them: exit code and both streams.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn sample(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("sample-sites")
        .join(name)
        .with_extension("ron");
    path.to_str().unwrap().to_owned()
}

/// A folder of its own for one test.
fn folder(name: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR"))
        .join("command-line")
        .join(name);
    if path.exists() {
        std::fs::remove_dir_all(&path).unwrap();
    }
    std::fs::create_dir_all(&path).unwrap();
    path
}

fn rafterglow(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_rafterglow"))
        .args(arguments)
        .current_dir(env!("CARGO_TARGET_TMPDIR"))
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .output()
        .unwrap()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

fn message(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

fn check(arguments: &[&str], code: i32) -> Output {
    let output = rafterglow(arguments);
    assert_eq!(
        output.status.code(),
        Some(code),
        "{arguments:?}: {}",
        message(&output)
    );
    output
}

fn json(arguments: &[&str], code: i32) -> serde_json::Value {
    serde_json::from_str(&out(&check(arguments, code))).unwrap()
}

#[test]
fn check_tells_breaches_by_its_exit_code_and_findings_on_standard_output() {
    for (name, code) in [("freight-shed", 0), ("boat-hall", 0), ("net-store", 1)] {
        let output = check(&["check", &sample(name)], code);
        assert!(
            out(&output).contains("certified installation manual"),
            "{name} carries the cautions"
        );
        assert_eq!(message(&output), "", "{name} has nothing to complain about");
    }
}

#[test]
fn json_has_the_documented_shape() {
    let report = json(&["check", &sample("net-store"), "--json"], 1);
    assert_eq!(report["format"], "rafterglow-check");
    assert_eq!(report["version"], 1);
    assert_eq!(report["scheme"], "A");
    let run = &report["runs"][0];
    assert_eq!(run["id"], "R1");
    assert_eq!(run["hanging"]["status"], "solved");
    let hanger = &run["hangers"][0];
    assert_eq!(hanger["kind"], "line");
    assert_eq!(hanger["members"][0], "P-01/12");
    for field in [
        "station_m",
        "suspension_m",
        "load_n",
        "allowed_n",
        "lean_deg",
    ] {
        assert!(hanger[field].is_f64(), "{field}: {hanger}");
    }
    assert_eq!(hanger["point_m"].as_array().unwrap().len(), 3);
    // What nobody knows is null, never a number.
    let unknown = &report["runs"][2]["hangers"][0];
    assert!(unknown["allowed_n"].is_null(), "{unknown}");
    let finding = &report["findings"][0];
    assert_eq!(finding["severity"], "breach");
    for field in [
        "rule", "subjects", "at_m", "measured", "required", "bound", "unit", "source", "text",
        "accepted",
    ] {
        assert!(finding.get(field).is_some(), "{field}: {finding}");
    }
    assert!(
        run["hanging"].get("candidates").is_none(),
        "only --full lists what was considered"
    );
}

/// Anybody can check the choice from what `--full` prints: here by the plainest search.
#[test]
fn full_json_lets_anybody_check_the_choice() {
    let report = json(&["check", &sample("freight-shed"), "--json", "--full"], 0);
    for run in report["runs"].as_array().unwrap() {
        let number = |value: &serde_json::Value| value.as_f64().unwrap();
        let limits = &run["hanging"]["limits"];
        let within = |at: f64, window: &serde_json::Value| {
            number(&window[0]) - 1e-6 <= at && at <= number(&window[1]) + 1e-6
        };
        let usable: Vec<(f64, f64)> = run["hanging"]["candidates"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|candidate| candidate.get("refused").is_none())
            .map(|candidate| (number(&candidate["station_m"]), number(&candidate["cost"])))
            .collect();
        // Cheapest way to end at each candidate, as first hanger or after another.
        let mut best = vec![[f64::INFINITY; 2]; usable.len()];
        for (i, &(at, cost)) in usable.iter().enumerate() {
            if within(at, &limits["first_m"]) {
                best[i][0] = cost;
            }
            for (j, &(earlier, _)) in usable[..i].iter().enumerate() {
                if within(at - earlier, &limits["second_after_first_m"]) {
                    best[i][1] = best[i][1].min(best[j][0] + cost);
                }
                if within(at - earlier, &limits["spacing_m"]) {
                    best[i][1] = best[i][1].min(best[j][1] + cost);
                }
            }
        }
        let tube = number(&limits["tube_length_m"]);
        let ends = |at: f64| tube - at <= number(&limits["greatest_overhang_m"]) + 1e-6;
        let least = usable
            .iter()
            .zip(&best)
            .filter(|((at, _), _)| ends(*at))
            .map(|(_, both)| both[0].min(both[1]))
            .fold(f64::INFINITY, f64::min);
        assert!(
            (number(&run["hanging"]["cost"]) - least).abs() < 1e-9,
            "{}",
            run["id"]
        );
    }
}

#[test]
fn remedies_say_what_cures_a_breach_or_what_would_have_to_give() {
    let site = sample("net-store");
    let report = json(&["check", &site, "--json", "--remedies"], 1);
    let ways_out = |rule: &str, subject: &str| {
        let findings = report["findings"].as_array().unwrap();
        let finding = findings
            .iter()
            .find(|it| it["rule"] == rule && it["subjects"][0] == subject)
            .unwrap();
        finding["remedies"][0].clone()
    };
    // Least 2.88 m instead of 3.00 m: that much and 50 mm, up to 10 mm.
    let offers = ways_out("mounting-height-outside-range", "R4")["offers"].clone();
    let first = &offers[0];
    assert_eq!(first["way"], "raise or lower");
    let least = first["least_m"].as_f64().unwrap();
    let offered = first["offered_m"].as_f64().unwrap();
    assert!(
        least + 0.05 - 1e-6 <= offered && offered <= least + 0.06,
        "{first}"
    );
    let cost = first["cost"].as_array().unwrap();
    assert!(cost.iter().all(|it| it.as_f64().unwrap() > 0.0), "{first}");
    assert_eq!(first["off_panel"].as_array().unwrap().len(), 2);
    assert_eq!(first["rehung"], serde_json::json!([]));
    let blocked = ways_out("combustible-inside-keep-clear", "R1");
    assert_eq!(blocked["offers"], serde_json::json!([]));
    assert_eq!(blocked["closed"][0]["way"], "raise or lower");
    let by = blocked["closed"][0]["blocked_by"].as_str().unwrap();
    assert!(by.contains("roof"), "{by}");
    // Nobody asked, nothing is said.
    let plain = json(&["check", &site, "--json"], 1);
    assert!(plain["findings"][0].get("remedies").is_none());
    let text = out(&check(&["check", &site, "--remedies"], 1));
    assert!(text.contains("way out: Raise R4 by "), "{text}");
    assert!(text.contains("no way out for R1 within the limits; in the way: "));
}

#[test]
fn a_scheme_is_chosen_by_id_or_name() {
    let by_id = json(
        &["check", &sample("freight-shed"), "--json", "--scheme", "B"],
        0,
    );
    let by_name = json(
        &[
            "check",
            &sample("freight-shed"),
            "--json",
            "--scheme",
            "two rows, larger burners",
        ],
        0,
    );
    assert_eq!(by_id, by_name);
    assert_eq!(by_id["scheme"], "B");
    let output = check(&["check", &sample("freight-shed"), "--scheme", "Z"], 2);
    assert!(
        message(&output).contains("it has A"),
        "{}",
        message(&output)
    );
}

#[test]
fn hang_writes_kept_hangers_that_check_the_same() {
    let folder = folder("hang");
    for name in ["freight-shed", "boat-hall"] {
        let written = folder.join(name).with_extension("ron");
        let written = written.to_str().unwrap();
        check(&["hang", &sample(name), "-o", written], 0);
        let before = json(&["check", &sample(name), "--json"], 0);
        let after = json(&["check", written, "--json"], 0);
        for (one, other) in before["runs"]
            .as_array()
            .unwrap()
            .iter()
            .zip(after["runs"].as_array().unwrap())
        {
            assert_eq!(other["hanging"]["status"], "locked");
            assert_eq!(one["hangers"], other["hangers"]);
        }
    }
}

#[test]
fn hang_shifts_runs_first_where_that_is_asked_for() {
    let folder = folder("hang-shifted");
    let site = sample("net-store");
    let as_drawn = std::fs::read_to_string(&site).unwrap();
    let written = folder.join("shifted.ron");
    let written = written.to_str().unwrap();
    let output = rafterglow(&["hang", &site, "--shift-at-most", "0.3 m", "-o", written]);
    assert!(output.status.code().is_some_and(|code| code < 2));
    let text = out(&output);
    assert!(text.contains("shifted by at most 0.30 m"), "{text}");
    assert_eq!(std::fs::read_to_string(&site).unwrap(), as_drawn);
    let cost = |report: &serde_json::Value| -> f64 {
        let runs = report["runs"].as_array().unwrap();
        let costs = runs
            .iter()
            .filter_map(|run| run["hanging"]["cost"].as_f64());
        costs.sum()
    };
    let (before, after) = (
        json(&["check", &site, "--json"], 1),
        rafterglow(&["check", written, "--json"]),
    );
    let after: serde_json::Value = serde_json::from_str(&out(&after)).unwrap();
    let hung = |report: &serde_json::Value| report["totals"]["runs_hung"].as_u64();
    assert!(hung(&after) >= hung(&before));
    assert!(hung(&after) > hung(&before) || cost(&after) <= cost(&before) + 1e-9);
    for wrong in ["a bit", "-1 m", "40 m"] {
        let refused = check(
            &[
                "hang",
                &site,
                &format!("--shift-at-most={wrong}"),
                "-o",
                written,
            ],
            2,
        );
        assert!(message(&refused).contains("--shift-at-most"));
    }
}

#[test]
fn full_json_says_what_shift_would_help() {
    let report = json(&["check", &sample("net-store"), "--json", "--full"], 1);
    let findings = report["findings"].as_array().unwrap();
    let answered: Vec<_> = findings
        .iter()
        .filter(|it| it["rule"] == "run-cannot-be-hung" || it["rule"] == "cross-channel-needed")
        .collect();
    assert!(!answered.is_empty());
    for finding in answered {
        let shifts = &finding["shifts"];
        let offers = shifts["offers"].as_array().unwrap();
        assert_eq!(offers.is_empty(), shifts["none"].is_string(), "{shifts}");
        assert!(shifts["places_searched"].as_u64().is_some());
    }
}

#[test]
fn catalogue_prints_a_file_as_a_table_and_explains_what_is_wrong_with_one() {
    let families = Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/catalogue");
    for entry in std::fs::read_dir(&families).unwrap() {
        let path = entry.unwrap().path();
        let output = check(&["catalogue", path.to_str().unwrap()], 0);
        assert!(out(&output).contains("NOT CERTIFIED"), "{}", path.display());
    }
    let hairpin = families.join("generic-hairpin.ron");
    let hairpin = out(&check(&["catalogue", hairpin.to_str().unwrap()], 0));
    // A size with a table of its own prints it after the family's.
    let (family, own) = hairpin.split_once("keep clear of 18-6, m").unwrap();
    assert!(family.contains("keep clear, m") && family.contains("2.30"));
    assert!(
        own.contains("1.75") && own.contains("keep clear of 22-9, m"),
        "{own}"
    );
    let output = check(&["catalogue", &sample("net-store")], 2);
    assert!(out(&output).is_empty() && !message(&output).is_empty());
}

#[test]
fn explain_lists_every_rule_and_says_all_of_one() {
    let list = out(&check(&["explain"], 0));
    let first = list.split_whitespace().next().unwrap();
    let text = out(&check(&["explain", first], 0));
    for part in ["checks", "why", "cure", "source", "limits"] {
        assert!(text.contains(part), "{text}");
    }
    check(&["explain", "no-such-rule"], 2);
}

#[test]
fn without_a_display_the_window_says_so_and_names_what_needs_none() {
    let output = check(&[&sample("net-store")], 2);
    let said = message(&output);
    assert!(
        said.contains("check") && said.contains("sheets") && said.contains("no window"),
        "{said}"
    );
}

#[test]
fn sheets_writes_the_whole_set_and_the_same_bytes_again() {
    let folder = folder("sheets");
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let code = i32::from(name == "net-store");
        let (once, again) = (
            folder.join(name).join("once"),
            folder.join(name).join("again"),
        );
        for out in [&once, &again] {
            check(
                &[
                    "sheets",
                    &sample(name),
                    "--out",
                    out.to_str().unwrap(),
                    "--date",
                    "2031-03-02",
                    "--pdf",
                    "--svg",
                    "--dxf",
                    "--csv",
                ],
                code,
            );
        }
        let mut names: Vec<_> = std::fs::read_dir(&once)
            .unwrap()
            .map(|entry| entry.unwrap().file_name())
            .collect();
        names.sort();
        for ending in [".pdf", ".svg", ".dxf", ".csv"] {
            assert!(
                names
                    .iter()
                    .any(|name| name.to_str().unwrap().ends_with(ending)),
                "{ending}"
            );
        }
        for file in names {
            assert!(
                std::fs::read(once.join(&file)).unwrap()
                    == std::fs::read(again.join(&file)).unwrap(),
                "{} differs",
                file.display()
            );
        }
    }
    let output = check(
        &[
            "sheets",
            &sample("net-store"),
            "--out",
            folder.to_str().unwrap(),
            "--date",
            "tomorrow",
        ],
        2,
    );
    assert!(
        message(&output).contains("2031-03-02"),
        "{}",
        message(&output)
    );
}
