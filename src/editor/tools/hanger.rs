//! Picks and drags single hangers of the picked run on the plan.

use super::sketch::{Ghost, Stand};
use crate::editor::Editor;
use crate::editor::camera::Camera;
use crate::editor::canvas::hangers::spacing_m;
use crate::editor::hangers::{Aim, HangerDrag, aimed, stations};
use crate::editor::intent::Intent;
use crate::geometry::DVec2;
use crate::hanging::Candidate;
use crate::site::RunId;

/// How near the pointer must be to a hanger, points.
const REACH: f32 = 7.0;
/// Hangers that are drawn nearer to each other than this can't be told apart by a hand,
/// points: the whole run is meant.
const APART: f32 = 22.0;
/// From how far a hang point draws a dragged hanger to itself, points.
const DRAWS: f32 = 12.0;

/// The hanger of the only picked run under a plan point.
pub(crate) fn hanger_at(stand: &Stand<'_>, at: DVec2) -> Option<(RunId, usize)> {
    let study = stand.editor.hung_run()?;
    let axis = study.geometry.axis();
    let hangers = &study.hanging.hangers;
    if stand.camera.screen_length(spacing_m(study)) < APART {
        return None;
    }
    let reach = stand.camera.site_length(REACH);
    hangers
        .iter()
        .map(|hanger| (axis.point(hanger.at.station_m).truncate() - at).length())
        .enumerate()
        .filter(|(_, off)| *off <= reach)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(place, _)| (study.run.id.clone(), place))
}

/// The hang point of the only picked run near a plan point, where nothing hangs yet.
pub(crate) fn free_point_at(editor: &Editor, camera: &Camera, at: DVec2) -> Option<Candidate> {
    let study = editor.hung_run()?;
    let axis = study.geometry.axis();
    let reach_m = camera.site_length(DRAWS);
    let aim = Aim::at(&axis, at, reach_m);
    let all = editor.hang_points.of(&study.run.id);
    let found = aimed(all, &stations(study), &axis, &aim)?;
    let is_near =
        (found.station_m - aim.station_m).abs() <= reach_m && aim.left_m.abs() <= 2.0 * reach_m;
    is_near.then(|| found.clone())
}

/// The pointer moved with a hanger in the hand.
pub(super) fn drag(drag: &mut HangerDrag, stand: &Stand<'_>, at: DVec2) -> Vec<Intent> {
    let reach_m = stand.camera.site_length(DRAWS);
    drag.follow(&Aim::at(&drag.axis(), at, reach_m))
}

/// What is said while a hanger is dragged.
pub(super) fn ghost(drag: &HangerDrag) -> Ghost {
    Ghost::hint(format!(
        "Let go to keep {} here, Escape to leave it where it was",
        drag.name()
    ))
}
