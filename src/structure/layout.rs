//! Where members lie in plan: how many, where each is cut, which end comes first.

use super::member::MemberEnd;
use crate::geometry::polygon::Polygon;
use crate::geometry::{DVec2, tolerance};
use crate::site::bay::along;
use crate::site::id::natural_order;
use crate::site::{Framing, GridLine};
use std::sync::Arc;

/// Small counts are exact in `f64`.
#[expect(
    clippy::cast_precision_loss,
    reason = "member counts are capped far below 2^52"
)]
pub(super) const fn exact(count: usize) -> f64 {
    count as f64
}

/// How many members a framing has: as many as it says, or as many as fit into its bay.
/// Where nobody has said how many, none lies in the far wall. A checked site has at most 20,000; the bound also holds for one that was not.
pub(super) fn n_members(framing: &Framing, outline: &Polygon) -> usize {
    /// DESIGN: cap of the document.
    const CAP: f64 = 20_000.0;
    let right = -along(framing.bearing).perp();
    let farthest = outline
        .outline
        .iter()
        .map(|p| right.dot(*p - framing.anchor))
        .fold(f64::NEG_INFINITY, f64::max);
    let spacing = framing.spacing.as_metres();
    let to_wall = farthest - framing.first.as_metres();
    let room = match framing.count {
        Some(_) => to_wall + tolerance::SAME_POINT,
        None => to_wall - framing.width.as_metres() / 2.0,
    };
    let reach = room / spacing;
    if !reach.is_finite() || spacing <= 0.0 || reach < 0.0 {
        return 0;
    }
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "0 <= reach <= CAP"
    )]
    let fitting = reach.min(CAP).floor() as usize + 1;
    framing.count.map_or(fitting, |count| count.min(fitting))
}

/// The line whose side panel points are counted from: the first in the lettering of
/// those that the members bear on, else of all that cross them.
pub(super) fn lowest_line<'a>(
    cuts: &[&'a GridLine],
    grid: &'a [Arc<GridLine>],
    heading: DVec2,
) -> Option<&'a GridLine> {
    let first = |a: &&GridLine, b: &&GridLine| natural_order(a.id.as_str(), b.id.as_str());
    cuts.iter().copied().min_by(first).or_else(|| {
        grid.iter()
            .map(Arc::as_ref)
            .filter(|line| line.crosses(heading))
            .min_by(first)
    })
}

/// A span in plan, running from the end nearer the lowest line.
pub(super) struct PlanSpan {
    pub(super) start: DVec2,
    pub(super) direction: DVec2,
    pub(super) length_m: f64,
    pub(super) ends: [MemberEnd; 2],
}

pub(super) fn spans_of_line(
    outline: &Polygon,
    origin: DVec2,
    heading: DVec2,
    cuts: &[&GridLine],
    lowest: Option<&GridLine>,
) -> Vec<PlanSpan> {
    let mut crossings: Vec<(f64, &GridLine)> = cuts
        .iter()
        .map(|line| {
            let direction = line.direction();
            (
                direction.perp_dot(line.from - origin) / direction.perp_dot(heading),
                *line,
            )
        })
        .collect();
    crossings.sort_by(|a, b| a.0.total_cmp(&b.0));
    let end_at = |at: f64| {
        crossings
            .iter()
            .find(|(crossing, _)| (crossing - at).abs() <= tolerance::BEARING)
            .map_or(MemberEnd::AtWall, |(_, line)| {
                MemberEnd::OnLine(line.id.clone())
            })
    };
    let mut spans = Vec::new();
    for stretch in outline.clip_line(origin, heading) {
        let mut stations = vec![stretch.from_m];
        stations.extend(crossings.iter().map(|(at, _)| *at).filter(|at| {
            stretch.from_m + tolerance::BEARING < *at && *at < stretch.to_m - tolerance::BEARING
        }));
        stations.push(stretch.to_m);
        for pair in stations.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            // Without a line to count from, the bay's first corner decides: unlike the
            // bearing, it does not turn round when a site is mirrored.
            let away = |at: f64| {
                let end = origin + heading * at;
                lowest.map_or_else(
                    || end.distance(outline.outline.first().copied().unwrap_or(origin)),
                    |line| line.offset_of(end).abs(),
                )
            };
            // Equally far: the end that comes first along the bearing.
            let (near, far) = if away(from) <= away(to) {
                (from, to)
            } else {
                (to, from)
            };
            spans.push(PlanSpan {
                start: origin + heading * near,
                direction: heading * (far - near).signum(),
                length_m: to - from,
                ends: [end_at(near), end_at(far)],
            });
        }
    }
    spans
}
