//! `hang`: solve the hanging and write the chosen hangers back as kept ones.

use super::arguments::Hang;
use super::check::{Studied, studied};
use super::shifts::text_in;
use super::{Failure, Outcome, answer};
use crate::findings::Finding;
use crate::remedies::Base;
use crate::remedies::hanging::site_suggestion;
use crate::site::{Run, Scheme};
use crate::store;
use crate::units::{Length, Quantity};
use std::sync::Arc;

/// The farthest that runs may be shifted, m: as far as a suggestion for one run goes.
const FARTHEST_SHIFT_M: f64 = 5.0;

pub(super) fn run(hang: &Hang) -> Result<Outcome, Failure> {
    let mut studied = studied(&hang.choice)?;
    let mut lines = String::new();
    if let Some(at_most) = &hang.shift_at_most {
        shift(&mut studied, at_most, &mut lines)?;
    }
    let shown = studied.site.scheme();
    let runs: Vec<Arc<Run>> = shown
        .runs
        .iter()
        .map(|run| match studied.study.run(&run.id) {
            Some(known) if !known.hanging.hangers.is_empty() => {
                lines += &format!("{}: {} hangers kept\n", run.id, known.hanging.hangers.len());
                Arc::new(known.with_kept_hangers())
            }
            _ => {
                lines += &format!("{}: can't be hung, left as it is\n", run.id);
                Arc::clone(run)
            }
        })
        .collect();
    // The file's own shown scheme stays: `--scheme` chose what to hang, not what to show.
    let mut site = store::open(&hang.choice.site).map_err(|error| Failure(error.to_string()))?;
    let kept = Arc::new(Scheme {
        runs,
        ..shown.as_ref().clone()
    });
    for scheme in &mut site.schemes {
        if scheme.id == kept.id {
            *scheme = Arc::clone(&kept);
        }
    }
    let target = hang.output.as_ref().unwrap_or(&hang.choice.site);
    store::save(target, &site).map_err(|error| Failure(error.to_string()))?;
    answer(&lines);
    Ok(if studied.findings.iter().any(Finding::is_open_breach) {
        Outcome::Breach
    } else {
        Outcome::Clean
    })
}

/// Shifts the runs as is suggested for the whole site, and says so.
fn shift(studied: &mut Studied, at_most: &str, lines: &mut String) -> Result<(), Failure> {
    let units = studied.site.units;
    let refused = |why: String| Failure(format!("--shift-at-most {at_most}: {why}"));
    let length = Length::parse(at_most, units).map_err(|error| refused(error.to_string()))?;
    if !(0.0 <= length.as_metres() && length.as_metres() <= FARTHEST_SHIFT_M) {
        return Err(refused(format!(
            "enter a length from 0 to {FARTHEST_SHIFT_M} m"
        )));
    }
    let base = Base {
        study: &studied.study,
        findings: &studied.findings,
    };
    let found = site_suggestion(&base, length.as_metres());
    for (id, moved) in &found.moved {
        *lines += &format!(
            "{id}: shifted {} along and {} across; {} instead of {} cross channels\n",
            Length::metres(moved.along_m).show_with_unit(units),
            Length::metres(moved.across_m).show_with_unit(units),
            moved.after.n_channels,
            moved.before.n_channels
        );
    }
    *lines += &format!("{}\n", text_in(&found.words, units));
    let tried = base
        .tried(&found.edit)
        .ok_or_else(|| refused("the shifted site is refused".to_owned()))?;
    studied.site = Arc::clone(&tried.study.site);
    studied.study = tried.study;
    studied.findings = tried.findings;
    Ok(())
}
