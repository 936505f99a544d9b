//! A salesperson compares two schemes and takes the smaller one to the client.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::desk::{Desk, folder, words_of};
use eframe::egui::Key;
use rafterglow::study::Totals;
use std::sync::Arc;

#[test]
fn from_one_scheme_to_the_papers_of_a_smaller_one() {
    let mut desk = Desk::with_sample("boat-hall");
    let whole = desk.site().scheme();
    assert_eq!(whole.runs.len(), 9);
    let all = totals(&desk);
    let all_said = amounts(&desk);

    desk.click_button("Scheme A");
    desk.click("Copy this scheme");
    assert_eq!(desk.site().schemes.len(), 2);
    assert_eq!(desk.site().scheme().runs, whole.runs);
    assert_eq!(totals(&desk), all);
    desk.click_button("Scheme B");
    desk.fill("Name of this scheme", "without the slip");
    desk.key(Key::Escape);
    assert_eq!(desk.site().scheme().name, "without the slip");

    let (removed, kept): (Vec<_>, Vec<_>) = whole
        .runs
        .iter()
        .partition(|run| ["R4", "R8"].contains(&run.id.as_str()));
    let hangers: usize = removed
        .iter()
        .map(|run| desk.studied(run.id.as_str()).hanging.hangers.len())
        .sum();
    let input_w: f64 = removed
        .iter()
        .map(|run| desk.studied(run.id.as_str()).size.input_net.as_watts())
        .sum();
    desk.enter("Runs");
    desk.pick(&["R4", "R8"]);
    desk.key(Key::Delete);
    let left: Vec<_> = desk.site().scheme().runs.clone();
    assert_eq!(left.iter().collect::<Vec<_>>(), kept);

    // What the client pays for is less by what the two amount to.
    let fewer = totals(&desk);
    assert_eq!(fewer.n_runs, 7);
    assert_eq!(fewer.n_hangers(), all.n_hangers() - hangers);
    let saved_w = all.input_net.as_watts() - fewer.input_net.as_watts();
    assert!((saved_w - input_w).abs() < 1e-6);
    let fewer_said = amounts(&desk);
    assert_ne!(fewer_said, all_said);

    papers(&mut desk);

    // The first scheme is what it was, to the run, and so are its figures.
    show(&mut desk, "Scheme A");
    let shown = desk.site().scheme();
    assert_eq!(*shown, *whole);
    for (now, then) in shown.runs.iter().zip(&whole.runs) {
        assert!(Arc::ptr_eq(now, then));
    }
    assert_eq!(totals(&desk), all);
    assert_eq!(amounts(&desk), all_said);
    show(&mut desk, "Scheme B");
    assert_eq!(totals(&desk), fewer);
    assert_eq!(amounts(&desk), fewer_said);
}

fn totals(desk: &Desk) -> Totals {
    desk.editor().study().unwrap().totals.clone()
}

/// Hangers and installed input, as the status line says them.
fn amounts(desk: &Desk) -> [String; 2] {
    ["hangers · ", "installed "].map(|part| desk.said(part))
}

/// Opens the list of schemes, whichever is shown, and takes one of it.
fn show(desk: &mut Desk, scheme: &str) {
    let shown = format!("Scheme {}", desk.site().shown_scheme);
    desk.click_button(&shown);
    desk.click_button(scheme);
    assert!(scheme.ends_with(desk.site().shown_scheme.as_str()));
}

fn papers(desk: &mut Desk) {
    let folder = folder("salesperson");
    desk.write_set(folder.path(), "2031-05-20");
    let words = words_of(&folder.file("plan-set.pdf"));
    assert!(words.contains("without the slip"), "{words}");
    let has_hanger_of = |run: &str| {
        let first = format!("{run}.1");
        words.split_whitespace().any(|word| word == first)
    };
    for run in ["R1", "R2", "R3", "R5", "R6", "R7", "R9"] {
        assert!(has_hanger_of(run), "{run} in:\n{words}");
    }
    for run in ["R4", "R8"] {
        assert!(!has_hanger_of(run), "{run} in:\n{words}");
    }
}
