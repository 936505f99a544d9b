//! `check` as text for people.

use super::check::Studied;
use super::json::{kind_word, status_word};
use super::{shifts, ways_out};
use crate::findings::{CAUTIONS, Finding, Severity, cost_words};
use crate::hanging::{Candidate, Capacity, Hanger};
use crate::remedies::clearance::WaysOut;
use crate::remedies::hanging::Suggestions;
use crate::site::RunId;
use crate::study::{RunGroup, RunStudy};
use crate::units::{Force, Length, Precision, Quantity, Rounding, UnitSystem};
use std::fmt::Write;

/// What would help, for each finding in their order.
pub(super) struct Remedies {
    pub(super) ways_out: Vec<Vec<WaysOut>>,
    pub(super) shifts: Vec<Option<Suggestions>>,
}

/// The whole report.
pub(super) fn text(studied: &Studied, full: bool, remedies: Option<&Remedies>) -> String {
    let mut out = String::new();
    // Writing to a String can't fail.
    let _ok = write(&mut out, studied, full, remedies);
    out
}

fn write(
    out: &mut String,
    studied: &Studied,
    full: bool,
    remedies: Option<&Remedies>,
) -> std::fmt::Result {
    let (site, study) = (&studied.site, &studied.study);
    let units = site.units;
    let scheme = site.scheme();
    writeln!(out, "{} - scheme {} {}", site.name, scheme.id, scheme.name)?;
    let totals = &study.totals;
    writeln!(
        out,
        "{} runs, {} installed (net), {} of tube, {} hangers, {} cross channels",
        totals.n_runs,
        totals.input_net.show_with_unit(units),
        shown(totals.tube.as_metres(), units),
        totals.n_hangers(),
        totals.n_channel
    )?;
    for run in &study.runs {
        run_lines(out, run, units)?;
        if full {
            candidate_lines(out, &study.considered(run), units)?;
        }
    }
    for group in &study.groups {
        group_line(out, group)?;
    }
    for severity in [Severity::Breach, Severity::Caution, Severity::Note] {
        let these: Vec<(usize, &Finding)> = studied
            .findings
            .iter()
            .enumerate()
            .filter(|(_, finding)| finding.severity == severity)
            .collect();
        if these.is_empty() {
            continue;
        }
        writeln!(
            out,
            "\n{} ({})",
            severity.label().to_uppercase(),
            these.len()
        )?;
        for (position, finding) in these {
            let subjects: Vec<String> = finding.subjects.iter().map(ToString::to_string).collect();
            writeln!(
                out,
                "  {} [{}] {}",
                subjects.join(", "),
                finding.rule,
                finding.text_in(units)
            )?;
            writeln!(out, "      {}", finding.source)?;
            if let Some(reason) = &finding.accepted {
                writeln!(out, "      accepted: {reason}")?;
            }
            if let Some(found) = remedies.and_then(|all| all.ways_out.get(position)) {
                ways_out::lines(out, found, units)?;
            }
            if let Some(Some(found)) = remedies.and_then(|all| all.shifts.get(position)) {
                shifts::lines(out, found, units)?;
            }
        }
    }
    out.push_str(&super::survey_report::text(study, &studied.findings));
    writeln!(out)?;
    for caution in CAUTIONS {
        writeln!(out, "! {caution}")?;
    }
    Ok(())
}

fn shown(metres: f64, units: UnitSystem) -> String {
    let length = Length::metres(metres);
    let precision = Precision {
        decimals: 3,
        inch_parts: 16,
    };
    Length::with_unit(
        length.show_rounded(units, precision, Rounding::Nearest),
        units,
    )
}

fn run_lines(out: &mut String, run: &RunStudy, units: UnitSystem) -> std::fmt::Result {
    let hanging = &run.hanging;
    writeln!(
        out,
        "\n{}  {} {}, {}; goods below no higher than {}",
        run.run.id,
        run.family.name,
        run.run.size,
        status_word(hanging.status),
        shown(run.clearance.stacking.posted.as_metres(), units)
    )?;
    for (index, hanger) in hanging.hangers.iter().enumerate() {
        writeln!(out, "  {:<3}{}", index + 1, hanger_line(hanger, units))?;
    }
    if let Some(obstacle) = &hanging.obstacle {
        let helps: Vec<&str> = obstacle.helps.iter().map(|limit| limit.name()).collect();
        writeln!(
            out,
            "  can't be hung; lifting one of these limits would help: {}",
            helps.join(", ")
        )?;
    }
    Ok(())
}

/// What runs that had to be hung together come to.
fn group_line(out: &mut String, group: &RunGroup) -> std::fmt::Result {
    let names = |runs: &[RunId]| {
        let names: Vec<String> = runs.iter().map(ToString::to_string).collect();
        names.join(", ")
    };
    write!(out, "\n{} hung together", names(&group.runs))?;
    if !group.kept.is_empty() {
        write!(out, " beside kept {}", names(&group.kept))?;
    }
    if !group.left_out.is_empty() {
        write!(out, ", {} left out", names(&group.left_out))?;
    }
    let cost = cost_words(group.cost);
    if group.proven {
        writeln!(out, ": cost {cost}, proven the least")
    } else {
        let least = cost_words(group.least_cost);
        writeln!(out, ": cost {cost}, proven not to be less than {least}")
    }
}

fn hanger_line(hanger: &Hanger, units: UnitSystem) -> String {
    let at = &hanger.at;
    let members: Vec<String> = at
        .holds()
        .map(|hold| match hold.place.panel_point() {
            Some(number) => format!("{} pp {number}", hold.member),
            None => hold.member.to_string(),
        })
        .collect();
    let allowed = match hanger.load.allowed {
        Capacity::Known(force) => format!(
            "of {}",
            Force::with_unit(
                Force::newtons(force).show_rounded(units, Precision::decimals(0), Rounding::Down),
                units
            )
        ),
        Capacity::Unknown => "of unknown: engineer".to_owned(),
    };
    let load = Force::newtons(hanger.load.load_n).show_rounded(
        units,
        Precision::decimals(0),
        Rounding::Up,
    );
    format!(
        "at {:<10} {:<9} {:<28} suspension {:<10} load {} {allowed}{}",
        shown(at.station_m, units),
        kind_word(at.kind),
        members.join(" + "),
        shown(at.suspension_m, units),
        Force::with_unit(load, units),
        if hanger.load.slack { ", slack" } else { "" }
    )
}

fn candidate_lines(
    out: &mut String,
    candidates: &[Candidate],
    units: UnitSystem,
) -> std::fmt::Result {
    writeln!(out, "  {} hang points considered:", candidates.len())?;
    for candidate in candidates {
        let members: Vec<&str> = candidate.members().collect();
        writeln!(
            out,
            "    at {:<10} {:<9} {:<28} suspension {:<10} lean {:.1} deg{}",
            shown(candidate.station_m, units),
            kind_word(candidate.kind),
            members.join(" + "),
            shown(candidate.suspension_m, units),
            candidate.lean_rad.to_degrees(),
            candidate
                .refused
                .map_or_else(String::new, |refusal| format!(
                    ", refused: {}",
                    refusal.name()
                ))
        )?;
    }
    Ok(())
}
