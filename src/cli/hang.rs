//! `hang`: solve the hanging and write the chosen hangers back as kept ones.

use super::arguments::Hang;
use super::check::studied;
use super::{Failure, Outcome, answer};
use crate::findings::Finding;
use crate::site::{Run, Scheme};
use crate::store;
use std::sync::Arc;

pub(super) fn run(hang: &Hang) -> Result<Outcome, Failure> {
    let studied = studied(&hang.choice)?;
    let shown = studied.site.scheme();
    let mut lines = String::new();
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
