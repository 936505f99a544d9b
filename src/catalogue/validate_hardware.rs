//! The door of the hardware table: its figures are checked here, once.

use super::Source;
use super::hardware::{Adjuster, Attachment, Form, HardwareTable, Strength, SuspensionSize};
use super::validate::{ID_BYTES, MOST_ENTRIES, NAME_BYTES};
use crate::problem::{Bounds, Check, Problems};
use std::collections::BTreeSet;

/// Lengths of parts and of what is cut.
const PART: Bounds = Bounds::metres(0.0, 2.0);
/// Lengths that may not be nothing.
const CUT: Bounds = Bounds::metres(0.005, 1_000.0);
/// Strengths: a hand's pull to a loaded lorry.
const LOAD: Bounds = Bounds::new(10.0, 1e6, "N");
/// Design factors.
const FACTOR: Bounds = Bounds::plain(1.0, 20.0);

/// Whether the hardware of one file can be used: each entry by itself, and ids unique.
///
/// # Errors
/// Every problem that was met, the first twenty of them in words.
pub fn check_hardware(table: &HardwareTable) -> Result<(), Problems> {
    let mut problems = Problems::default();
    let n_entries = table.sizes.len() + table.adjusters.len() + table.attachments.len();
    Check::new(&mut problems, "").count("hardware", n_entries, 1, MOST_ENTRIES);
    check_table(table, &mut problems);
    problems.into_result()
}

pub(super) fn check_table(table: &HardwareTable, problems: &mut Problems) {
    unique(
        "sizes",
        table.sizes.iter().map(|it| it.id.as_str()),
        problems,
    );
    unique(
        "adjusters",
        table.adjusters.iter().map(|it| it.id.as_str()),
        problems,
    );
    let ids = table.attachments.iter().map(|it| it.id.as_str());
    unique("attachments", ids, problems);
    for (i, size) in table.sizes.iter().enumerate() {
        check_size(size, i, problems);
    }
    for (i, adjuster) in table.adjusters.iter().enumerate() {
        check_adjuster(adjuster, i, problems);
    }
    for (i, attachment) in table.attachments.iter().enumerate() {
        check_attachment(attachment, i, problems);
    }
}

fn unique<'a>(list: &str, ids: impl Iterator<Item = &'a str>, problems: &mut Problems) {
    let mut seen = BTreeSet::new();
    for (i, id) in ids.enumerate() {
        if !seen.insert(id) {
            let mut check = Check::of(problems, format_args!("hardware.{list}[{i}]"), id);
            let found = format_args!("{id:?} again");
            check.refuse("id", found, "an id that no other entry of the list has");
        }
    }
}

fn check_size(size: &SuspensionSize, i: usize, problems: &mut Problems) {
    let mut check = Check::of(problems, format_args!("hardware.sizes[{i}]"), &size.id);
    let check = &mut check;
    check_head(&size.id, &size.name, &size.source, check);
    match &size.form {
        Form::Chain { link } => {
            let link_m = Bounds::metres(0.005, 0.5);
            check.number("form.link", link.as_metres(), link_m);
        }
        Form::Rod { thread } => check.given("form.thread", thread, NAME_BYTES),
        Form::Rope { loops } => check.number("form.loops", loops.as_metres(), PART),
    }
    check_strength(size.strength, check);
    check.number("ends", size.ends.as_metres(), PART);
    check.number("least", size.least.as_metres(), CUT);
    check.number("greatest", size.greatest.as_metres(), CUT);
    if size.greatest < size.least {
        let accepted = format_args!("no less than the least, {} m", size.least.as_metres());
        let found = format_args!("{} m", size.greatest.as_metres());
        check.refuse("greatest", found, accepted);
    }
}

fn check_adjuster(adjuster: &Adjuster, i: usize, problems: &mut Problems) {
    let at = format_args!("hardware.adjusters[{i}]");
    let mut check = Check::of(problems, at, &adjuster.id);
    let check = &mut check;
    check_head(&adjuster.id, &adjuster.name, &adjuster.source, check);
    check.count("serves", adjuster.serves.len(), 1, 3);
    check_strength(adjuster.strength, check);
    check.number("shortest", adjuster.shortest.as_metres(), PART);
    check.number("longest", adjuster.longest.as_metres(), PART);
    if adjuster.longest <= adjuster.shortest {
        let accepted = format_args!(
            "more than the shortest, {} m",
            adjuster.shortest.as_metres()
        );
        let found = format_args!("{} m", adjuster.longest.as_metres());
        check.refuse("longest", found, accepted);
    }
}

fn check_attachment(attachment: &Attachment, i: usize, problems: &mut Problems) {
    let at = format_args!("hardware.attachments[{i}]");
    let mut check = Check::of(problems, at, &attachment.id);
    let check = &mut check;
    check_head(&attachment.id, &attachment.name, &attachment.source, check);
    check.count("holds_to", attachment.holds_to.len(), 1, 5);
    check_strength(attachment.strength, check);
    check.number("make_up", attachment.make_up.as_metres(), PART);
}

fn check_head(id: &str, name: &str, source: &Source, check: &mut Check<'_>) {
    check.given("id", id, ID_BYTES);
    check.given("name", name, NAME_BYTES);
    check.given("source.document", &source.document, NAME_BYTES);
    check.text("source.revision", &source.revision, NAME_BYTES);
    check.text("source.date", &source.date, NAME_BYTES);
}

fn check_strength(strength: Strength, check: &mut Check<'_>) {
    match strength {
        Strength::Limit { load, factor } => {
            check.number("strength.load", load.as_newtons(), LOAD);
            check.number("strength.factor", factor, FACTOR);
        }
        Strength::Break { load, terminations } => {
            check.number("strength.load", load.as_newtons(), LOAD);
            let left = Bounds::plain(0.1, 1.0);
            check.number("strength.terminations", terminations, left);
        }
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::catalogue::{AttachedTo, SuspensionKind};
    use crate::units::{Force, Length};
    use std::sync::Arc;

    fn source() -> Source {
        Source {
            document: "test".to_owned(),
            revision: String::new(),
            date: String::new(),
            certified: false,
        }
    }

    fn strength() -> Strength {
        Strength::Limit {
            load: Force::newtons(1_000.0),
            factor: 5.0,
        }
    }

    fn size() -> SuspensionSize {
        SuspensionSize {
            id: "c".to_owned(),
            name: "chain".to_owned(),
            form: Form::Chain {
                link: Length::millimetres(25.0),
            },
            strength: strength(),
            ends: Length::ZERO,
            least: Length::millimetres(25.0),
            greatest: Length::metres(60.0),
            offered: true,
            source: source(),
        }
    }

    fn refused(table: &HardwareTable) -> Vec<String> {
        let problems = check_hardware(table).unwrap_err();
        problems.kept().iter().map(|it| it.path.clone()).collect()
    }

    #[test]
    fn what_cannot_be_used_is_named_by_its_field() {
        let good = HardwareTable {
            sizes: vec![Arc::new(size())],
            ..HardwareTable::default()
        };
        assert_eq!(check_hardware(&good), Ok(()));
        assert_eq!(refused(&HardwareTable::default()), ["hardware"]);
        let bad = SuspensionSize {
            form: Form::Chain { link: Length::ZERO },
            strength: Strength::Break {
                load: Force::newtons(f64::NAN),
                terminations: 1.2,
            },
            greatest: Length::millimetres(10.0),
            ..size()
        };
        let table = HardwareTable {
            sizes: vec![Arc::new(size()), Arc::new(bad)],
            adjusters: vec![Arc::new(Adjuster {
                id: "t".to_owned(),
                name: String::new(),
                serves: vec![SuspensionKind::Chain],
                shortest: Length::metres(0.2),
                longest: Length::metres(0.2),
                strength: strength(),
                source: source(),
            })],
            attachments: vec![Arc::new(Attachment {
                id: "a".to_owned(),
                name: "clamp".to_owned(),
                holds_to: vec![AttachedTo::Beam],
                make_up: Length::metres(-0.1),
                strength: strength(),
                source: source(),
            })],
        };
        assert_eq!(
            refused(&table),
            [
                "hardware.sizes[1].id",
                "hardware.sizes[1].form.link",
                "hardware.sizes[1].strength.load",
                "hardware.sizes[1].strength.terminations",
                "hardware.sizes[1].greatest",
                "hardware.adjusters[0].name",
                "hardware.adjusters[0].longest",
                "hardware.attachments[0].make_up",
            ]
        );
    }
}
