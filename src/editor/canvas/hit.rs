//! What lies under the pointer, and what lies in a box.

use crate::editor::Editor;
use crate::editor::carry_out::stage_of;
use crate::editor::extent::{Extent, RunPlan, jambs, outlines};
use crate::editor::stage::Stage;
use crate::editor::view::Layer;
use crate::geometry::DVec2;
use crate::geometry::polygon::{Polygon, ring_edges};
use crate::geometry::segment::distance_to_segment;
use crate::site::{Object, ObjectId};
use crate::structure::Member;
use std::collections::BTreeSet;
use std::sync::Arc;

/// The layer that an object is drawn in; bays are always drawn.
fn layer_of(id: &ObjectId) -> Option<Layer> {
    match id {
        ObjectId::GridLine(_) => Some(Layer::Grid),
        ObjectId::Bay(_) => None,
        ObjectId::Opening(_) => Some(Layer::Openings),
        ObjectId::Framing(_) => Some(Layer::Steel),
        ObjectId::Obstruction(_) => Some(Layer::Obstructions),
        ObjectId::WorkSpot(_) => Some(Layer::WorkSpots),
        ObjectId::SectionLine(_) => Some(Layer::Sections),
        ObjectId::Run(_) => Some(Layer::Runs),
    }
}

fn is_shown(editor: &Editor, id: &ObjectId) -> bool {
    layer_of(id).is_none_or(|layer| editor.view.shows(layer))
}

/// Kinds from the top of the drawing down.
fn height(id: &ObjectId) -> u8 {
    match id {
        ObjectId::Run(_) => 0,
        ObjectId::WorkSpot(_) => 1,
        ObjectId::Opening(_) => 2,
        ObjectId::Obstruction(_) => 3,
        ObjectId::GridLine(_) => 4,
        ObjectId::Framing(_) => 5,
        ObjectId::SectionLine(_) => 6,
        ObjectId::Bay(_) => 7,
    }
}

/// The object under a plan point: what the open stage puts forward first, then from the
/// top of the drawing down. Lines are met within `reach_m`.
pub(crate) fn object_at(
    editor: &Editor,
    members: &[Arc<Member>],
    at: DVec2,
    reach_m: f64,
) -> Option<ObjectId> {
    let reach = DVec2::splat(1.5 * reach_m);
    let here = Extent::of([at - reach, at + reach]);
    editor
        .placed
        .objects()
        .iter()
        .filter(|it| it.extent.meets(&here) && is_shown(editor, &it.id))
        .filter(|it| is_hit(editor, members, &it.object, at, reach_m))
        .map(|it| &it.id)
        .min_by_key(|id| (stage_of(id) != editor.stage, height(id)))
        .cloned()
}

fn is_hit(
    editor: &Editor,
    members: &[Arc<Member>],
    object: &Object,
    at: DVec2,
    reach_m: f64,
) -> bool {
    let site = editor.site();
    let near = |a: DVec2, b: DVec2| distance_to_segment(at, a, b) <= reach_m;
    match object {
        Object::Run(run) => {
            let plan = RunPlan::of(run, &editor.catalogue);
            Polygon::new(plan.corners().to_vec()).contains(at)
                || near(plan.at(-plan.burner_length_m, 0.0), plan.end())
        }
        Object::WorkSpot(spot) => (spot.at - at).length() <= 1.5 * reach_m,
        Object::Opening(opening) => site
            .bays
            .iter()
            .find(|bay| bay.id == opening.bay)
            .and_then(|bay| jambs(opening, bay))
            .is_some_and(|(a, b)| near(a, b)),
        Object::Obstruction(obstruction) => outlines(obstruction).into_iter().any(|ring| {
            ring_edges(&ring).any(|(a, b)| near(a, b)) || Polygon::new(ring).contains(at)
        }),
        // Lines that cross the whole plan would be met everywhere in a stage that is not theirs.
        Object::GridLine(line) => editor.stage == Stage::Shell && near(line.from, line.to),
        Object::SectionLine(line) => near(line.from, line.to),
        Object::Framing(framing) => {
            editor.stage == Stage::Steel
                && members
                    .iter()
                    .any(|it| it.framing == framing.id && near(it.start, it.end()))
        }
        Object::Bay(bay) => std::iter::once(&bay.outline)
            .chain(&bay.holes)
            .any(|ring| ring_edges(ring).any(|(a, b)| near(a, b))),
    }
}

/// What lies wholly in a box: of the open stage, or of every stage where nothing of it does.
pub(crate) fn objects_in(editor: &Editor, within: &Extent) -> BTreeSet<ObjectId> {
    let all: Vec<ObjectId> = editor
        .placed
        .objects()
        .iter()
        .filter(|it| !matches!(it.id, ObjectId::Framing(_)) && is_shown(editor, &it.id))
        .filter(|it| !it.extent.is_empty() && within.holds(&it.extent))
        .map(|it| it.id.clone())
        .collect();
    let of_stage: BTreeSet<ObjectId> = all
        .iter()
        .filter(|id| stage_of(id) == editor.stage)
        .cloned()
        .collect();
    if of_stage.is_empty() {
        all.into_iter().collect()
    } else {
        of_stage
    }
}
