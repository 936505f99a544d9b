//! Everything that decides how one run hangs.

use std::sync::Arc;

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
    pub spans: &'a [Arc<SpanInSpace>],
    /// What each kind of hanger costs.
    pub costs: KindCosts,
    /// The channel for cross channels.
    pub channel: ChannelStock,
    /// Number of the hanger that stays where it is while the tube grows, from 1; the
    /// last one if there are fewer.
    pub fixed_hanger: usize,
}
