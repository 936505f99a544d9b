//! Everything that decides how one run hangs.

use super::run::{HangingRule, RunGeometry, RunWeight};
use super::steel::{ChannelStock, KindCosts, SpanInSpace};

/// One run, the steel over it and the rules for joining the two.
#[derive(Debug, Clone, Copy)]
pub struct Case<'a> {
    /// Where the tube is.
    pub run: &'a RunGeometry,
    /// What its maker asks.
    pub rule: &'a HangingRule,
    /// What it weighs.
    pub weight: &'a RunWeight,
    /// The spans to hang from; those out of reach are skipped, so that a rough
    /// choice by box is enough.
    pub spans: &'a [SpanInSpace],
    /// What each kind of hanger costs.
    pub costs: KindCosts,
    /// The channel for cross channels.
    pub channel: ChannelStock,
    /// The station that growth leaves where it is, m; none for the first hanger.
    pub fixed_station_m: Option<f64>,
}
