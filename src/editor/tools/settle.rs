//! A run near members is placed so that its first hanger comes under one of them: with its
//! flange under a joist there is no place on that joist for the first hanger.

use crate::catalogue::Catalogue;
use crate::editor::camera::Camera;
use crate::geometry::DVec2;
use crate::site::Run;
use crate::site::bay::along;
use crate::structure::Member;
use std::sync::Arc;

/// Members nearer to the run's own direction than this are not crossed by it, sine of 15
/// degrees.
const CROSSES: f64 = 0.26;
/// The window is not used to its very ends, m: buildings are not exact.
const TO_SPARE: f64 = 0.05;

/// From how far a member draws a run's first hanger under itself: points on the screen,
/// and m where that is less.
const DRAWS: (f32, f64) = (12.0, 0.2);

/// How far a run may be drawn at a zoom, m.
pub(super) fn limit_m(camera: &Camera) -> f64 {
    camera.site_length(DRAWS.0).max(DRAWS.1)
}

/// How far a run is shifted so that a member falls into the window of its first hanger,
/// at most `limit_m`, and what it settles on. None where one is in the window already,
/// or none comes near it.
pub(super) fn settled(
    members: &[Arc<Member>],
    catalogue: &Catalogue,
    run: &Run,
    limit_m: f64,
) -> Option<(DVec2, String)> {
    let (family, _) = catalogue.size(&run.family, &run.size)?;
    let least_m = family.hanging.first_least.as_metres();
    let greatest_m = family.hanging.first_greatest.as_metres();
    let spare_m = TO_SPARE.min((greatest_m - least_m).max(0.0) / 2.0);
    let heading = along(run.bearing);
    let crossed: Vec<(f64, &Arc<Member>)> = members
        .iter()
        .filter_map(|member| Some((station(member, run.burner, heading)?, member)))
        .collect();
    let fits = |at: &f64| least_m <= *at && *at <= greatest_m;
    if crossed.iter().any(|(at, _)| fits(at)) {
        return None;
    }
    crossed
        .into_iter()
        .map(|(at, member)| {
            let to = at.max(least_m + spare_m).min(greatest_m - spare_m);
            (at - to, member)
        })
        .filter(|(by_m, _)| by_m.abs() <= limit_m)
        .min_by(|a, b| a.0.abs().total_cmp(&b.0.abs()))
        .map(|(by_m, member)| {
            let said = format!("first hanger under {}", member.id);
            (heading * by_m, said)
        })
}

/// The station at which a run crosses a member, if it does.
fn station(member: &Member, burner: DVec2, heading: DVec2) -> Option<f64> {
    let cross = heading.perp_dot(member.direction);
    if cross.abs() < CROSSES {
        return None;
    }
    let arm = member.start - burner;
    let position_m = arm.perp_dot(heading) / cross;
    let (from_m, to_m) = member.usable_m?;
    (from_m <= position_m && position_m <= to_m).then(|| arm.perp_dot(member.direction) / cross)
}
