//! What sets with a cross channel cost at least, wherever channels could be laid.

use super::ladder::{Limits, Rung};
use crate::geometry::tolerance;

/// More rungs than this, and pairs of them are not worth looking at: the least number of
/// hangers alone gives the bound.
const MOST_PAIRED: usize = 48;

/// Channels are bounded by stretches of the tube, as many to a metre as this: five of the
/// 50 mm steps at which they are tried.
const STRETCHES_PER_METRE: f64 = 4.0;
const STRETCH_NM: i64 = 250_000_000;

/// Lower bounds of the cost of sets with a channel.
///
/// Proof: give up every least spacing, and let channels be anywhere. Then each set stays
/// a set, and what it costs is counted: between two hangers that follow each other and
/// are no channels, a gap g apart, stand `ceil(g / G) - 1` channels at least, G being the
/// greatest that any two hangers may be apart, and the same from the first window to the
/// first such hanger and from the last one to where the tube may end. The least of all
/// that, with one channel somewhere, is found by going through all pairs of rungs. Where
/// there are too many, the least number of hangers, all but one at the least cost of any,
/// is the bound.
#[derive(Debug)]
pub(in crate::hanging) struct ChannelBounds {
    /// Of every set with a channel.
    pub(in crate::hanging) least: u64,
    /// Of every set with a channel in one of the tube's stretches; empty if not known.
    through: Vec<u64>,
    /// Where the first stretch begins, in stretches from the flange.
    from: f64,
}

impl ChannelBounds {
    /// The bounds among rungs, for channels from one station to another.
    pub(super) fn new(
        limits: &Limits,
        rungs: &[Rung],
        channel: u32,
        (from_m, to_m): (f64, f64),
    ) -> Self {
        let from = (from_m * STRETCHES_PER_METRE).floor();
        let greatest = limits.greatest_gap_nm();
        let work = Work {
            rungs,
            channel: u64::from(channel),
            greatest,
            from_nm: limits.first_from_nm(),
            first_nm: limits.first_upto_nm(),
            last_nm: limits.last_from_nm(),
        };
        if greatest <= 0 || rungs.len() > MOST_PAIRED {
            return Self {
                least: work.least_by_number(),
                through: Vec::new(),
                from,
            };
        }
        let (least, rest) = work.least_ahead();
        let before = work.least_behind();
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a tube has some hundred stretches"
        )]
        let (first, last) = (from as i64, (to_m * STRETCHES_PER_METRE).floor() as i64);
        let through = (first..=last)
            .map(|number| work.through(number * STRETCH_NM, &before, &rest))
            .collect();
        Self {
            least,
            through,
            from,
        }
    }

    /// The least bound of a stretch that is more than a budget.
    pub(in crate::hanging) fn next_above(&self, budget: u64) -> Option<u64> {
        self.through.iter().copied().filter(|&it| it > budget).min()
    }

    /// Whether a set with a channel at a station may cost no more than a budget.
    pub(in crate::hanging) fn allows(&self, station_m: f64, budget: u64) -> bool {
        // A 50 mm step on the boundary is in the stretch that begins there.
        let number = (station_m * STRETCHES_PER_METRE + tolerance::LIMIT).floor() - self.from;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "`as` saturates, and what is in no stretch is allowed"
        )]
        let through = self.through.get(number as usize);
        through.is_none_or(|&through| through <= budget)
    }
}

struct Work<'a> {
    rungs: &'a [Rung],
    channel: u64,
    greatest: i64,
    /// No hanger may be before this.
    from_nm: i64,
    first_nm: i64,
    last_nm: i64,
}

/// Of each rung, what is before it, or from it on.
type OfRungs<T> = [T; MOST_PAIRED];

impl Work<'_> {
    /// How many hangers stand at least within a length, the last at its end.
    fn upto(&self, length_nm: i64) -> u64 {
        u64::try_from(length_nm)
            .ok()
            .zip(u64::try_from(self.greatest).ok())
            .map_or(0, |(length, greatest)| length.div_ceil(greatest))
    }

    /// How many stand at least strictly within a gap.
    fn between(&self, gap_nm: i64) -> u64 {
        self.upto(gap_nm).saturating_sub(1)
    }

    fn least_by_number(&self) -> u64 {
        if self.greatest <= 0 {
            return self.channel;
        }
        let cheapest = self.rungs.iter().map(|rung| u64::from(rung.cost)).min();
        let cheapest = cheapest.unwrap_or(self.channel).min(self.channel);
        self.channel + cheapest * self.upto(self.last_nm - self.first_nm)
    }

    /// The bound of all sets with a channel, and from each rung on the least without a
    /// channel, and with one.
    fn least_ahead(&self) -> (u64, OfRungs<(u64, u64)>) {
        let mut rest = [(u64::MAX, u64::MAX); MOST_PAIRED];
        let mut least = self.channel * (1 + self.upto(self.last_nm - self.first_nm));
        for (index, rung) in self.rungs.iter().enumerate().rev() {
            if rung.station_nm < self.from_nm {
                break;
            }
            let cost = u64::from(rung.cost);
            let to_end = self.upto(self.last_nm - rung.station_nm);
            let mut without = if to_end == 0 { 0 } else { u64::MAX };
            let mut with = self.channel * to_end.max(1);
            let later = self.rungs.iter().zip(&rest[..self.rungs.len()]);
            for (next, &(next_without, next_with)) in later.skip(index + 1) {
                let needed = self.between(next.station_nm - rung.station_nm);
                if needed == 0 {
                    without = without.min(next_without);
                    with = with.min(next_with);
                }
                let channels = self.channel * needed.max(1);
                with = with.min(channels.saturating_add(next_without.min(next_with)));
            }
            rest[index] = (without.saturating_add(cost), with.saturating_add(cost));
            let before = self.upto(rung.station_nm - self.first_nm);
            if before == 0 {
                least = least.min(rest[index].1);
            }
            let channels = self.channel * before.max(1);
            least = least.min(channels.saturating_add(rest[index].0.min(rest[index].1)));
        }
        (least, rest)
    }

    /// Up to and with each rung, the least.
    fn least_behind(&self) -> OfRungs<u64> {
        let mut before = [u64::MAX; MOST_PAIRED];
        for (index, rung) in self.rungs.iter().enumerate() {
            if rung.station_nm < self.from_nm {
                continue;
            }
            let mut least = self.channel * self.upto(rung.station_nm - self.first_nm);
            for (earlier, &cost) in self.rungs[..index].iter().zip(&before) {
                let channels = self.between(rung.station_nm - earlier.station_nm);
                least = least.min(cost.saturating_add(self.channel * channels));
            }
            before[index] = least.saturating_add(u64::from(rung.cost));
        }
        before
    }

    /// With a channel somewhere in the stretch that begins at a station.
    fn through(&self, from_nm: i64, before: &OfRungs<u64>, rest: &OfRungs<(u64, u64)>) -> u64 {
        let to_nm = from_nm + STRETCH_NM;
        if to_nm < self.from_nm {
            return u64::MAX;
        }
        let mut ahead = self.channel * self.upto(self.last_nm - to_nm);
        let mut behind = self.channel * self.upto(from_nm - self.first_nm);
        for ((rung, &cost), &(without, with)) in self.rungs.iter().zip(before).zip(rest) {
            if rung.station_nm <= to_nm {
                let channels = self.between(from_nm - rung.station_nm);
                behind = behind.min(cost.saturating_add(self.channel * channels));
            }
            if rung.station_nm >= from_nm {
                let channels = self.between(rung.station_nm - to_nm);
                ahead = ahead.min(without.min(with).saturating_add(self.channel * channels));
            }
        }
        behind.saturating_add(self.channel).saturating_add(ahead)
    }
}
