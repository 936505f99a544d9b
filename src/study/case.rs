//! One run as the hanging engine wants it.

use super::heater;
use super::run::Setting;
use crate::catalogue::{Family, HeaterSize};
use crate::hanging::{
    Case, Hanging, HangingRule, LockedAt, LockedHanger, RunGeometry, RunWeight, SpanInSpace,
    check_locked, hang,
};
use crate::site::{self, Run};
use std::sync::Arc;

/// What decides how one run hangs, owned.
pub(super) struct RunCase {
    geometry: RunGeometry,
    rule: HangingRule,
    weight: RunWeight,
    spans: Vec<Arc<SpanInSpace>>,
    fixed_hanger: usize,
}

impl RunCase {
    pub(super) fn new(
        setting: &Setting<'_>,
        run: &Run,
        family: &Family,
        size: &HeaterSize,
    ) -> Self {
        Self::within(setting, run, family, size, 0.0)
    }

    /// The same with the spans that the run may reach from up to `farther_m` away.
    pub(super) fn within(
        setting: &Setting<'_>,
        run: &Run,
        family: &Family,
        size: &HeaterSize,
        farther_m: f64,
    ) -> Self {
        let geometry = heater::geometry(run, family, size);
        Self {
            rule: heater::hanging_rule(family, size, setting.least_suspension_m),
            weight: heater::weight(family, size),
            spans: setting.spans_near(&geometry, farther_m),
            fixed_hanger: run.fixed_hanger.unwrap_or(1),
            geometry,
        }
    }

    /// The members that it may reach.
    pub(super) fn members(&self) -> impl Iterator<Item = &str> {
        self.spans.iter().map(|span| &*span.id)
    }

    /// The run as if no other were there.
    pub(super) fn case<'a>(&'a self, setting: &Setting<'_>) -> Case<'a> {
        Case {
            run: &self.geometry,
            rule: &self.rule,
            weight: &self.weight,
            spans: &self.spans,
            costs: setting.costs,
            channel: setting.channel,
            fixed_hanger: self.fixed_hanger,
            level_error_m: setting.level_error_m,
            room: &[],
        }
    }
}

/// How a run hangs as if no other were there.
pub(super) fn hang_alone(
    setting: &Setting<'_>,
    run: &Run,
    family: &Family,
    size: &HeaterSize,
) -> Hanging {
    let run_case = RunCase::new(setting, run, family, size);
    let case = run_case.case(setting);
    match &run.hanging {
        site::Hanging::Solved => hang(&case),
        site::Hanging::Locked(hangers) => check_locked(&case, &locked(hangers)),
    }
}

fn locked(hangers: &[site::LockedHanger]) -> Vec<LockedHanger> {
    hangers
        .iter()
        .map(|hanger| LockedHanger {
            station_m: hanger.station.as_metres(),
            members: hanger
                .members
                .iter()
                .map(|id| Arc::from(id.as_str()))
                .collect(),
            at: hanger.at.map(|at| match at {
                site::LockedAt::PanelPoint(number) => LockedAt::PanelPoint(number),
                site::LockedAt::OffPanel => LockedAt::OffPanel,
            }),
        })
        .collect()
}
