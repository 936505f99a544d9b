//! What a set with a cross channel costs at least, wherever channels could be laid.

use super::ladder::{Limits, Rung};

/// More rungs than this, and pairs of them are not worth looking at: the least number of
/// hangers alone gives the bound.
const MOST_PAIRED: usize = 48;

/// A lower bound of the cost of every set that has one hanger at least on a channel and
/// all others on these rungs, channels costing `channel` each.
///
/// Proof: give up every least spacing, and let channels be anywhere. Then each set stays
/// a set, and what it costs is counted: between two rungs that follow each other, a gap g
/// apart, stand `ceil(g / G) - 1` channels at least, G being the greatest that any two
/// hangers may be apart, and the same from the first window to the first rung and from
/// the last rung to where the tube may end. The least of all that, with one channel
/// somewhere, is found by going through all pairs of rungs. Where there are too many,
/// the least number of hangers, all but one at the least cost of any, is the bound.
pub(super) fn least_with_channel(limits: &Limits, rungs: &[Rung], channel: u32) -> u64 {
    let channel = u64::from(channel);
    let greatest = limits.greatest_gap_nm();
    if greatest <= 0 {
        return channel;
    }
    // Channels that stand from just beyond one place up to another, the last of them there.
    let upto = |length_nm: i64| count(length_nm, greatest);
    let between = |gap_nm: i64| upto(gap_nm).saturating_sub(1);
    let (first_nm, last_nm) = (limits.first_upto_nm(), limits.last_from_nm());
    let alone = channel * (1 + upto(last_nm - first_nm));
    if rungs.len() > MOST_PAIRED {
        let cheapest = rungs.iter().map(|rung| u64::from(rung.cost)).min();
        let cheapest = cheapest.unwrap_or(channel).min(channel);
        return channel + cheapest * upto(last_nm - first_nm);
    }
    // From each rung on: the least without a channel, and with one.
    let mut rest = [(u64::MAX, u64::MAX); MOST_PAIRED];
    let mut least = alone;
    for (index, rung) in rungs.iter().enumerate().rev() {
        let cost = u64::from(rung.cost);
        let to_end = upto(last_nm - rung.station_nm);
        let mut without = if to_end == 0 { 0 } else { u64::MAX };
        let mut with = channel * to_end.max(1);
        for (next, &(next_without, next_with)) in
            rungs.iter().zip(&rest[..rungs.len()]).skip(index + 1)
        {
            let needed = between(next.station_nm - rung.station_nm);
            if needed == 0 {
                without = without.min(next_without);
                with = with.min(next_with);
            }
            let channels = channel * needed.max(1);
            with = with.min(channels.saturating_add(next_without.min(next_with)));
        }
        rest[index] = (without.saturating_add(cost), with.saturating_add(cost));
        let before = upto(rung.station_nm - first_nm);
        if before == 0 {
            least = least.min(rest[index].1);
        }
        let channels = channel * before.max(1);
        least = least.min(channels.saturating_add(rest[index].0.min(rest[index].1)));
    }
    least
}

/// How many hangers stand at least within a length, the last at its end; none where it
/// is no length.
fn count(length_nm: i64, greatest_nm: i64) -> u64 {
    u64::try_from(length_nm)
        .ok()
        .zip(u64::try_from(greatest_nm).ok())
        .map_or(0, |(length, greatest)| length.div_ceil(greatest))
}
