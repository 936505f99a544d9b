//! Sums over the runs of a scheme.

use super::run::RunStudy;
use crate::hanging::Kind;
use crate::units::{Length, Mass, Power};
use std::sync::Arc;

/// Sums over the runs of a scheme.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Totals {
    /// Runs.
    pub n_runs: usize,
    /// Runs that have hangers.
    pub n_hung: usize,
    /// Installed heat input, net calorific value.
    pub input_net: Power,
    /// Tube, both legs of hairpins.
    pub tube: Length,
    /// Hangers at panel points.
    pub n_panel: usize,
    /// Hangers on beams and purlins.
    pub n_line: usize,
    /// Hangers off panel points.
    pub n_off_panel: usize,
    /// Cross channels.
    pub n_channel: usize,
    /// Length of all cross channels between their members.
    pub channel: Length,
    /// Length of all suspensions.
    pub suspension: Length,
    /// Weight that hangs from the structure.
    pub mass: Mass,
}

impl Totals {
    pub(super) fn new(runs: &[Arc<RunStudy>]) -> Self {
        let mut totals = Self {
            n_runs: runs.len(),
            ..Self::default()
        };
        for run in runs {
            totals.input_net = totals.input_net + run.size.input_net;
            totals.tube = totals.tube + run.size.tube_length;
            let hangers = &run.hanging.hangers;
            totals.n_hung += usize::from(!hangers.is_empty());
            for hanger in hangers {
                match hanger.at.kind {
                    Kind::Panel => totals.n_panel += 1,
                    Kind::Line => totals.n_line += 1,
                    Kind::OffPanel => totals.n_off_panel += 1,
                    Kind::Channel => totals.n_channel += 1,
                }
                let span_m = hanger.at.channel.map_or(0.0, |lay| lay.span_m);
                totals.channel = totals.channel + Length::metres(span_m);
                let lengths = hanger.suspensions.iter().map(|it| it.length_m);
                totals.suspension = totals.suspension + Length::metres(lengths.sum());
            }
            let carried: f64 = hangers.iter().map(|hanger| hanger.load.load_n).sum();
            totals.mass = totals.mass + Mass::kilograms(carried / crate::hanging::GRAVITY);
        }
        totals
    }

    /// All hangers.
    #[must_use]
    pub const fn n_hangers(&self) -> usize {
        self.n_panel + self.n_line + self.n_off_panel + self.n_channel
    }
}
