//! Every hanger as a node that a screen reader and a test can find.

use super::scene::Scene;
use crate::editor::Editor;
use crate::editor::figures;
use crate::editor::intent::Intent;
use crate::hanging::{Capacity, Hanger, Place};
use crate::study::RunStudy;
use crate::units::{Force, Length, UnitSystem};
use eframe::egui::accesskit::Action;
use eframe::egui::{Rect, Role, Sense, Ui, Vec2, WidgetInfo};

pub(super) fn nodes(
    ui: &Ui,
    editor: &Editor,
    study: &RunStudy,
    scene: &Scene,
    intents: &mut Vec<Intent>,
) {
    if ui
        .ctx()
        .accesskit_node_builder(ui.unique_id(), |_| ())
        .is_none()
    {
        return;
    }
    let units = editor.site().units;
    let axis = study.geometry.axis();
    for (place, hanger) in study.hanging.hangers.iter().enumerate() {
        let eye = axis.eye(hanger.at.station_m);
        let attach = hanger.at.attach;
        let rect = Rect::from_two_pos(scene.at(eye), scene.at(attach)).expand2(Vec2::splat(4.0));
        let rect = rect.intersect(scene.camera.rect());
        let id = ui.scope_id().with(("hanger", place));
        let response = ui.interact(rect, id, Sense::hover());
        let name = format!("Hanger {} of {}", place + 1, study.run.id);
        response.widget_info(|| WidgetInfo::labeled(Role::ListItem, true, &name));
        let run = &study.run.id;
        let picked = editor.selection.hanger() == Some((run, place));
        ui.ctx().accesskit_node_builder(id, |node| {
            node.set_description(description(units, hanger));
            node.set_selected(picked);
            node.add_action(Action::Click);
        });
        if ui.input(|input| input.has_accesskit_action_request(id, Action::Click)) {
            intents.push(Intent::PickHanger(Some((run.clone(), place))));
        }
        let said = description(units, hanger);
        response.on_hover_text(format!("{name}: {said}"));
    }
}

/// Where it holds, how long it is, what it carries.
fn description(units: UnitSystem, hanger: &Hanger) -> String {
    let holds: Vec<String> = hanger
        .at
        .holds()
        .map(|hold| match hold.place {
            Place::PanelPoint(number) => format!("panel point {number} of {}", hold.member),
            Place::ChordPanel(number) => {
                format!(
                    "{} between panel points {number} and {}",
                    hold.member,
                    number + 1
                )
            }
            Place::Line => hold.member.to_string(),
        })
        .collect();
    let length = figures::length(units, Length::metres(hanger.at.suspension_m));
    let load = figures::force(units, Force::newtons(hanger.load.load_n));
    let allowed = match hanger.load.allowed {
        Capacity::Known(newtons) => {
            format!(
                "of {} allowed",
                figures::force(units, Force::newtons(newtons))
            )
        }
        Capacity::Unknown => "allowed load unknown: engineer".to_owned(),
    };
    let from = if hanger.at.channel.is_some() {
        "on a cross channel from"
    } else {
        "on"
    };
    format!(
        "{from} {}, {length} long, {load} {allowed}",
        holds.join(" to ")
    )
}
