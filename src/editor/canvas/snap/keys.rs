//! The points of objects by which they catch on others.

use crate::editor::Editor;
use crate::editor::extent::{Extent, RunPlan, outlines};
use crate::geometry::DVec2;
use crate::site::Object;

/// The points of an object that catch when it is moved.
pub(crate) fn keys(editor: &Editor, object: &Object) -> Vec<DVec2> {
    match object {
        Object::GridLine(line) => vec![line.from, line.to],
        Object::SectionLine(line) => vec![line.from, line.to],
        Object::Bay(bay) => bay.outline.clone(),
        Object::Obstruction(it) => {
            let mut keys: Vec<DVec2> = outlines(it).into_iter().flatten().collect();
            keys.push(Extent::of(keys.iter().copied()).middle());
            keys
        }
        Object::WorkSpot(spot) => vec![spot.at],
        Object::Run(run) => {
            let plan = RunPlan::of(run, &editor.catalogue);
            vec![plan.flange, plan.end()]
        }
        Object::Opening(_) | Object::Framing(_) => Vec::new(),
    }
}
