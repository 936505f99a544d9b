//! Every object on the plan as a node that a screen reader and a test can find.

use crate::editor::Editor;
use crate::editor::camera::Camera;
use crate::editor::figures::{angle, length, position};
use crate::editor::hangers::said;
use crate::editor::intent::Intent;
use crate::editor::placed::PlacedObject;
use crate::site::{Object, ObjectId, Site};
use eframe::egui::accesskit::Action;
use eframe::egui::{Rect, Role, Sense, Ui, Vec2, WidgetInfo};
use std::collections::BTreeSet;

/// Adds a node for each object, under the plan's own. Nobody pays for it unless
/// something listens.
pub(super) fn nodes(ui: &Ui, camera: &Camera, editor: &Editor, intents: &mut Vec<Intent>) {
    let plan = ui.unique_id();
    if ui.ctx().accesskit_node_builder(plan, |_| ()).is_none() {
        return;
    }
    for it in editor.placed.objects() {
        if !it.extent.is_empty() {
            node(ui, camera, editor, it, intents);
        }
    }
}

/// Adds a node for each hanger of the only picked run.
pub(super) fn hanger_nodes(ui: &Ui, camera: &Camera, editor: &Editor, intents: &mut Vec<Intent>) {
    let plan = ui.unique_id();
    let listens = ui.ctx().accesskit_node_builder(plan, |_| ()).is_some();
    let Some(study) = editor.hung_run().filter(|_| listens) else {
        return;
    };
    let axis = study.geometry.axis();
    let run = &study.run.id;
    let units = editor.site().units;
    for (place, hanger) in study.hanging.hangers.iter().enumerate() {
        let at = camera.screen_from_site(axis.point(hanger.at.station_m).truncate());
        let rect = Rect::from_center_size(at, Vec2::splat(10.0)).intersect(camera.rect());
        let node = ui.scope_id().with(("hanger", run.as_str(), place));
        let response = ui.interact(rect, node, Sense::hover());
        let picked = editor.selection.hanger() == Some((run, place));
        let name = format!("{run} hanger {}", place + 1);
        response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, picked, &name));
        ui.ctx().accesskit_node_builder(node, |builder| {
            builder.set_description(said(units, &hanger.at));
            builder.add_action(Action::Click);
        });
        if ui.input(|input| input.has_accesskit_action_request(node, Action::Click)) {
            intents.push(Intent::PickHanger(Some((run.clone(), place))));
        }
    }
}

fn node(
    ui: &Ui,
    camera: &Camera,
    editor: &Editor,
    placed: &PlacedObject,
    intents: &mut Vec<Intent>,
) {
    let (id, reach) = (&placed.id, placed.extent);
    let rect = Rect::from_two_pos(
        camera.screen_from_site(reach.least),
        camera.screen_from_site(reach.greatest),
    );
    let node = ui.scope_id().with((id.kind_label(), id.as_str()));
    // The pointer is the plan's: it picks by shape, not by rectangle.
    let response = ui.interact(rect.intersect(camera.rect()), node, Sense::hover());
    let picked = editor.selection.has(id);
    let name = name(id, &placed.object);
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, picked, &name));
    ui.ctx().accesskit_node_builder(node, |builder| {
        builder.set_description(description(editor.site(), placed));
        builder.add_action(Action::Click);
    });
    if ui.input(|input| input.has_accesskit_action_request(node, Action::Click)) {
        intents.push(Intent::Pick(BTreeSet::from([id.clone()])));
    }
}

/// The name that is said: what it is and its id.
fn name(id: &ObjectId, object: &Object) -> String {
    match object {
        Object::Obstruction(it) => format!("{} {id}", it.kind.label()),
        _ => format!("{} {id}", id.kind_label()),
    }
}

/// Where it is and how large.
fn description(site: &Site, placed: &PlacedObject) -> String {
    let units = site.units;
    let reach = placed.extent;
    match &placed.object {
        Object::Run(run) => format!(
            "{} {}, burner at {}, bearing {}, tube {} high",
            run.family,
            run.size,
            position(site, run.burner),
            angle(units, run.bearing),
            length(units, run.tube_height)
        ),
        Object::WorkSpot(spot) => format!("at {}", position(site, spot.at)),
        _ => {
            let size = reach.size();
            let part = |m: f64| length(units, crate::units::Length::metres(m));
            format!(
                "{} by {}, south-west corner at {}",
                part(size.x),
                part(size.y),
                position(site, reach.least)
            )
        }
    }
}
