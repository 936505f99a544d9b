//! Channel list, cut list and loads table: everything once, and sums that agree.

use std::collections::BTreeSet;
use std::sync::Arc;

use rafterglow::findings::{Finding, Severity, rule};
use rafterglow::hanging::GRAVITY;
use rafterglow::sheets::Sheet;
use rafterglow::sheets::pages::csv;
use rafterglow::site::policy::{Override, PolicyItem};
use rafterglow::site::{Acceptance, Allowance};
use rafterglow::study::{channel_list, channel_plan, cut_list};
use rafterglow::units::{AreaLoad, Force};

use super::sites::Set;
use super::{assert_readable, texts};

const SAMPLES: [&str; 3] = ["freight-shed", "boat-hall", "net-store"];

/// The ids of a kind of subject on the sheets of a page, sorted.
fn subjects(sheets: &[Sheet], page: &str, kind: &str) -> Vec<String> {
    let prefix = format!("{kind}:");
    let mut found: Vec<String> = sheets
        .iter()
        .filter(|sheet| sheet.id.ends_with(page))
        .flat_map(|sheet| &sheet.marks)
        .filter_map(|mark| mark.subject.as_deref()?.strip_prefix(&prefix))
        .map(str::to_owned)
        .collect();
    found.sort();
    found
}

/// A table's records, by the names in its head.
struct Values {
    head: ::csv::StringRecord,
    records: Vec<::csv::StringRecord>,
}

impl Values {
    fn of(text: &str) -> Self {
        let mut reader = ::csv::Reader::from_reader(text.as_bytes());
        Self {
            head: reader.headers().unwrap().clone(),
            records: reader.records().map(Result::unwrap).collect(),
        }
    }

    fn column(&self, name: &str) -> impl Iterator<Item = &str> {
        let which = self.head.iter().position(|it| it == name).unwrap();
        self.records.iter().map(move |record| &record[which])
    }

    fn numbers(&self, name: &str) -> impl Iterator<Item = f64> {
        self.column(name).map(|text| text.parse().unwrap())
    }
}

#[test]
fn each_piece_of_channel_is_listed_once_and_named_on_the_plan() {
    let mut n_pieces = 0;
    for name in SAMPLES {
        let set = Set::sample(name);
        let sheets = set.sheets();
        let mut expected: Vec<String> = channel_list(set.study())
            .into_iter()
            .map(|piece| piece.name)
            .collect();
        expected.sort();
        n_pieces += expected.len();
        assert_eq!(subjects(&sheets, "channel-list", "channel"), expected);
        // A name may stand at the end of a leader.
        let mut named = subjects(&sheets, "hanging-plan", "channel-name");
        named.dedup();
        assert_eq!(named, expected, "{name}");
        let drawn: BTreeSet<String> = subjects(&sheets, "hanging-plan", "channel")
            .into_iter()
            .collect();
        assert_eq!(drawn.into_iter().collect::<Vec<_>>(), expected);
    }
    assert!(0 < n_pieces);
}

#[test]
fn stock_lengths_are_pieces_cuts_and_offcuts() {
    let set = Set::sample("net-store");
    let values = Values::of(&set.drawn_by(|input| csv::cutting_plan(input).unwrap()));
    let list = channel_list(set.study());
    assert_eq!(
        values.records.len(),
        channel_plan(set.study(), &list).bars.len()
    );
    let pieces: f64 = values
        .column("pieces (mm)")
        .flat_map(|lengths| lengths.split(' '))
        .map(|text| text.parse::<f64>().unwrap())
        .sum();
    let kerf: f64 = values.numbers("lost in cuts (mm)").sum();
    let offcut: f64 = values.numbers("offcut (mm)").sum();
    let stock: f64 = values.numbers("length (mm)").sum();
    assert_eq!(pieces + kerf + offcut, stock);
    let listed: f64 = list.iter().map(|piece| piece.length_m * 1000.0).sum();
    assert!((pieces - listed).abs() < 1e-6);
}

#[test]
fn each_suspension_is_cut_once() {
    for name in SAMPLES {
        let set = Set::sample(name);
        let mut expected: Vec<String> = cut_list(set.study())
            .pieces
            .iter()
            .map(|piece| format!("{}.{}{}", piece.run, piece.hanger, piece.leg.mark()))
            .collect();
        expected.sort();
        assert!(set.hangers().count() <= expected.len());
        assert_eq!(subjects(&set.sheets(), "cut-list", "suspension"), expected);
        let values = Values::of(&set.drawn_by(|input| csv::cut_list(input).unwrap()));
        let mut listed: Vec<String> = values.column("suspension").map(str::to_owned).collect();
        listed.sort();
        assert_eq!(listed, expected);
    }
}

#[test]
fn loads_sum_to_the_weight_over_places_spans_and_bays() {
    for name in SAMPLES {
        let set = Set::sample(name);
        let values = Values::of(&set.drawn_by(|input| csv::loads_table(input).unwrap()));
        let weight = set.study().totals.mass.as_kilograms() * GRAVITY;
        for over in ["place", "member span", "bay"] {
            let sums: Vec<f64> = values
                .column("sum over")
                .zip(values.numbers("load level (N)"))
                .filter(|(of, _)| *of == over)
                .map(|(_, load_n)| load_n)
                .collect();
            // Each figure is rounded to a tenth.
            let within = 0.051 * f64::from(u32::try_from(sums.len()).unwrap());
            let sum: f64 = sums.iter().sum();
            assert!((sum - weight).abs() <= within, "{name}, {over}: {sum}");
        }
    }
}

#[test]
fn an_unknown_capacity_is_no_percentage_in_the_loads_table() {
    let mut set = Set::small();
    let page = |set: &Set| -> Vec<String> {
        let sheets = set.sheets();
        assert_readable(&sheets, "loads");
        let of_page = sheets.iter().filter(|it| it.id.ends_with("loads-table"));
        of_page.flat_map(texts).collect()
    };
    set.change(|site| {
        let mut framing = site.framings[0].as_ref().clone();
        framing.allowed_at_point = Allowance::Unknown;
        framing.allowed_off_panel = Allowance::Unknown;
        site.framings[0] = Arc::new(framing);
    });
    let said = page(&set);
    assert!(!said.iter().any(|text| text.ends_with(" %")));
    assert!(said.iter().any(|text| text == "unknown: engineer"));
    assert!(said.iter().any(|text| text.contains("engineer to confirm")));
    set.change(|site| {
        let mut framing = site.framings[0].as_ref().clone();
        framing.allowed_in_all = Some(Force::newtons(1500.0));
        site.framings[0] = Arc::new(framing);
        let mut bay = site.bays[0].as_ref().clone();
        bay.collateral = Some(AreaLoad::pascals(144.0));
        site.bays[0] = Arc::new(bay);
    });
    assert!(page(&set).iter().any(|text| text.ends_with(" %")));
}

#[test]
fn an_overloaded_hang_point_has_a_cross_on_the_plan() {
    let set = Set::sample("net-store");
    let sheets = set.sheets();
    let crossed: BTreeSet<String> = subjects(&sheets, "hanging-plan", "overloaded")
        .into_iter()
        .collect();
    assert_eq!(crossed.into_iter().collect::<Vec<_>>(), ["R2.1"]);
    let sound = Set::small().sheets();
    assert!(subjects(&sound, "hanging-plan", "overloaded").is_empty());
}

#[test]
fn what_is_accepted_stands_with_its_reason_and_numbers_set_otherwise_with_theirs() {
    let mut set = Set::small();
    let all = set.drawn_by(|input| input.findings.to_vec());
    let may_be_accepted = |finding: &&Finding| {
        finding.severity == Severity::Caution
            && rule(finding.rule).is_some_and(|rule| rule.can_be_accepted)
    };
    let finding = all.iter().find(may_be_accepted).unwrap().clone();
    let reason = "the harbour master has seen it";
    let number = "boats are towed by hand here";
    set.change(|site| {
        site.acceptances.push(Acceptance {
            rule: finding.rule.to_owned(),
            subjects: finding.subjects.iter().map(ToString::to_string).collect(),
            reason: reason.to_owned(),
            date: "2031-05-06".to_owned(),
        });
        let given = Override {
            value: 0.0625,
            reason: number.to_owned(),
        };
        site.policy = site.policy.with(PolicyItem::KeepClearMargin, Some(given));
    });
    let sheets = set.sheets();
    assert_readable(&sheets, "accepted");
    let of_findings = |sheet: &&Sheet| sheet.id.ends_with("findings");
    let said: Vec<String> = sheets.iter().filter(of_findings).flat_map(texts).collect();
    let said = said.join(" ");
    for wanted in ["harbour master", "2031-05-06", "towed by hand", "0.06"] {
        assert!(said.contains(wanted), "{wanted}: {said}");
    }
    let table = Values::of(&set.drawn_by(|input| csv::findings(input).unwrap()));
    let accepted = table.column("accepted because").zip(table.column("rule"));
    let of_rule: Vec<(&str, &str)> = accepted.filter(|(why, _)| !why.is_empty()).collect();
    assert_eq!(of_rule, [(reason, finding.rule)]);
    assert!(table.column("accepted on").any(|it| it == "2031-05-06"));
    let n_findings = set.drawn_by(|input| input.findings.len());
    assert_eq!(table.records.len(), n_findings);
}
