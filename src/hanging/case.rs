//! Everything that decides how one run hangs.

use std::sync::Arc;

use super::candidate::Place;
use super::run::{HangingRule, RunGeometry, RunWeight};
use super::steel::{ChannelStock, KindCosts, SpanInSpace};

/// The room that other runs leave at a place which they share with this one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Room {
    /// Which of the case's spans it is.
    pub span: usize,
    /// The part of it.
    pub place: Place,
    /// The most that all of this run's hangers together may put there, N, not negative.
    /// Nothing is added to it: tolerances are counted where it is worked out.
    pub left_n: f64,
}

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
    /// Where other runs leave less room than the steel alone.
    pub room: &'a [Room],
    /// How far a single hanger may hang low unnoticed, m. Doesn't enter the choice.
    pub level_error_m: f64,
}

impl Case<'_> {
    /// The room that other runs leave at a place, N; infinite where they take none.
    pub(super) fn room_at(&self, span: usize, place: Place) -> f64 {
        self.room
            .iter()
            .filter(|room| room.span == span && room.place == place)
            .fold(f64::INFINITY, |least, room| least.min(room.left_n))
    }
}
