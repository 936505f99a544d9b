//! What belongs to the site as a whole: names, conditions, policy, sheets, acceptances.

use super::{NAME_BYTES, NOTE_BYTES};
use crate::problem::{Bounds, Check, Problems};
use crate::site::{Acceptance, Conditions, Policy, SheetSettings, Site};

/// Outside design temperatures: beyond those of any inhabited place.
const OUTSIDE: Bounds = Bounds::new(-70.0, 50.0, "degC");
/// Operative temperatures that people work at.
const WANTED: Bounds = Bounds::new(-30.0, 50.0, "degC");
/// Heights above sea level.
const ALTITUDE: Bounds = Bounds::metres(-500.0, 6_000.0);
/// Gauge pressures at the delivery point: up to 7 bar.
const SUPPLY: Bounds = Bounds::new(0.0, 700_000.0, "Pa");
/// Most ids in one acceptance.
const MOST_SUBJECTS: usize = 100;

pub(super) fn check(site: &Site, problems: &mut Problems) {
    let mut check = Check::new(problems, "");
    check.text("name", &site.name, NAME_BYTES);
    check.text("place", &site.place, NAME_BYTES);
    check.text("notes", &site.notes, NOTE_BYTES);
    check_conditions(&site.conditions, &mut check);
    check_policy(&site.policy, &mut check);
    check_sheets(&site.sheets, &mut check);
    let is_known = site.schemes.iter().any(|it| it.id == site.shown_scheme);
    if !is_known {
        let accepted = "the id of a scheme of this site";
        check.refuse("shown_scheme", &site.shown_scheme, accepted);
    }
    for (i, acceptance) in site.acceptances.iter().enumerate() {
        let at = format_args!("acceptances[{i}]");
        check_acceptance(acceptance, &mut Check::new(problems, at));
    }
}

fn check_conditions(conditions: &Conditions, check: &mut Check<'_>) {
    let outside = conditions.outside.as_celsius();
    check.number("conditions.outside", outside, OUTSIDE);
    let wanted = conditions.wanted_operative.as_celsius();
    check.number("conditions.wanted_operative", wanted, WANTED);
    let altitude = conditions.altitude.as_metres();
    check.number("conditions.altitude", altitude, ALTITUDE);
    let supply = conditions.supply_pressure.as_pascals();
    check.number("conditions.supply_pressure", supply, SUPPLY);
}

fn check_policy(policy: &Policy, check: &mut Check<'_>) {
    for (item, given) in policy.overrides() {
        let facts = item.facts();
        let bounds = Bounds::new(facts.least, facts.greatest, facts.unit);
        let value = format_args!("policy[{}].value", facts.name);
        check.number(value, given.value, bounds);
        let reason = format_args!("policy[{}].reason", facts.name);
        check.given(reason, &given.reason, NOTE_BYTES);
    }
}

fn check_sheets(sheets: &SheetSettings, check: &mut Check<'_>) {
    if let Some(scale) = sheets.scale
        && !(1..=100_000).contains(&scale)
    {
        check.refuse("sheets.scale", format_args!("1:{scale}"), "1:1 to 1:100000");
    }
    let texts = [
        ("sheets.owner", &sheets.owner),
        ("sheets.document_number", &sheets.document_number),
        ("sheets.revision", &sheets.revision),
        ("sheets.made_by", &sheets.made_by),
        ("sheets.approved_by", &sheets.approved_by),
        ("sheets.status", &sheets.status),
    ];
    for (field, text) in texts {
        check.text(field, text, NAME_BYTES);
    }
}

fn check_acceptance(acceptance: &Acceptance, check: &mut Check<'_>) {
    check.given("rule", &acceptance.rule, NAME_BYTES);
    check.given("reason", &acceptance.reason, NOTE_BYTES);
    check.text("date", &acceptance.date, NAME_BYTES);
    check.count("subjects", acceptance.subjects.len(), 0, MOST_SUBJECTS);
    for (i, subject) in acceptance.subjects.iter().enumerate() {
        check.given(format_args!("subjects[{i}]"), subject, NAME_BYTES);
    }
}
