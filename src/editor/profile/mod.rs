//! The run profile: the picked run seen from the side, true to scale, with everything
//! that hangs it and stands below it. Its height and its place along its axis can be
//! dragged.

mod below;
mod drag;
mod draw;
mod hangers;
mod keys;
mod measures;
mod nodes;
mod scene;

use super::Editor;
use super::canvas::hud;
use super::figures;
use super::hangers::HangerDrag;
use super::intent::Intent;
use super::theme::{STEP, TextSize, Theme};
use crate::hanging::{Kind, Status};
use crate::study::RunStudy;
use crate::units::{Length, Quantity, UnitSystem};
use drag::Drag;
use eframe::egui::text::{LayoutJob, TextFormat, TextWrapping};
use eframe::egui::{Align2, Painter, Rect, Role, Sense, Ui, UiBuilder, Vec2, WidgetInfo};
use scene::Scene;

/// Height of the line above the drawing, points.
const HEAD: f32 = 30.0;

/// The profile's own state.
#[derive(Debug, Default)]
pub(crate) struct Profile {
    drag: Option<Drag>,
}

impl Profile {
    /// Drops what is being dragged; whether anything was.
    pub(crate) fn drop_drag(&mut self) -> bool {
        self.drag.take().is_some()
    }
}

/// The run profile.
pub(super) fn profile_ui(
    ui: &mut Ui,
    profile: &mut Profile,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) {
    let theme = Theme::of(ui);
    let whole = ui.available_rect_before_wrap();
    ui.painter().rect_filled(whole, 0.0, theme.canvas.ground);
    let (head, body) = whole.split_top_bottom_at_y(whole.top() + HEAD);
    ui.painter().rect_filled(head, 0.0, theme.palette.ground);
    let rule = eframe::egui::Stroke::new(1.0, theme.palette.rule);
    ui.painter().hline(whole.x_range(), whole.top(), rule);
    let studied = editor
        .selection
        .run()
        .and_then(|id| editor.results.run(id))
        .cloned();
    match studied {
        Some(study) => shown_ui(ui, profile, editor, &study, head, body, intents),
        None => empty_ui(ui, editor, head, body),
    }
}

fn empty_ui(ui: &mut Ui, editor: &Editor, head: Rect, body: Rect) {
    let theme = Theme::of(ui);
    title(ui, head, "Run profile", "");
    let text = if editor.site().scheme().runs.is_empty() {
        "Once a run is placed it is shown here from the side"
    } else if editor.selection.run().is_some() && editor.results.are_current() {
        "The catalogue does not have this heater, so nothing is known of it"
    } else {
        "Pick a run to see it from the side: its hangers, what they carry, what stands below"
    };
    let response = ui.interact(body, ui.scope_id().with("empty"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, text));
    ui.painter().text(
        body.center(),
        Align2::CENTER_CENTER,
        text,
        TextSize::Body.font(),
        theme.palette.faint_ink,
    );
}

fn shown_ui(
    ui: &mut Ui,
    profile: &mut Profile,
    editor: &Editor,
    study: &RunStudy,
    head: Rect,
    body: Rect,
    intents: &mut Vec<Intent>,
) {
    let units = editor.site().units;
    let id = &study.run.id;
    let kept = match study.hanging.status {
        Status::Locked => ", hangers kept",
        _ => "",
    };
    title(
        ui,
        head,
        &format!("{id} from the side{kept}"),
        &summary(units, study),
    );
    let builder = UiBuilder::new()
        .id_salt("profile")
        .max_rect(body)
        .sense(Sense::click_and_drag());
    ui.scope_builder(builder, |ui| {
        ui.set_min_size(body.size());
        ui.shrink_clip_rect(body);
        let mut room = body.shrink2(Vec2::new(6.0 * STEP, 2.0 * STEP));
        room.min.y += measures::STRIP;
        let scene = Scene::new(editor, study, profile.drag.as_ref(), room);
        let painter = ui.painter().with_clip_rect(body);
        draw::draw(&painter, editor, study, &scene);
        let response = ui.response();
        profile.drag = drag::follow(
            ui,
            &response,
            profile.drag.take(),
            editor,
            study,
            &scene,
            intents,
        );
        response
            .widget_info(|| WidgetInfo::labeled(Role::Group, true, format!("{id} from the side")));
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_description(summary(units, study));
        });
        keys::read(ui, &response, editor, intents);
        if let Some(hanger) = profile.drag.as_ref().and_then(drag::Drag::hanger) {
            chips(ui, &painter, editor, &scene, hanger);
        }
        nodes::nodes(ui, editor, study, &scene, intents);
    });
}

/// What a dragged hanger snaps to, and what would be wrong there.
fn chips(ui: &Ui, painter: &Painter, editor: &Editor, scene: &Scene, drag: &HangerDrag) {
    let Some(to) = drag.to() else {
        return;
    };
    let at = scene.at(drag.axis().eye(to.station_m));
    let (caught, warning) = (drag.said(editor), drag.warning(editor));
    hud::said(ui, painter, at, caught.as_deref(), warning.as_deref());
}

fn title(ui: &Ui, head: Rect, name: &str, said: &str) {
    let palette = &Theme::of(ui).palette;
    let painter = ui.painter().with_clip_rect(head);
    let left = head.left_center() + Vec2::new(4.0 * STEP, 0.0);
    let named = painter.text(
        left,
        Align2::LEFT_CENTER,
        name,
        TextSize::Body.bold(),
        palette.ink,
    );
    let right = head.right() - 4.0 * STEP;
    let least = named.right() + 6.0 * STEP;
    let font = TextFormat::simple(TextSize::Body.font(), palette.soft_ink);
    let mut job = LayoutJob::single_section(said.to_owned(), font);
    // Where both have no room the name stays.
    job.wrap = TextWrapping::truncate_at_width((right - least).max(0.0));
    let galley = painter.layout_job(job);
    let from = (right - galley.size().x).max(least);
    let at = eframe::egui::pos2(from, head.center().y - galley.size().y / 2.0);
    painter.galley(at, galley, palette.soft_ink);
}

/// The run's hanging in one line.
fn summary(units: UnitSystem, study: &RunStudy) -> String {
    let hanging = &study.hanging;
    let slope = format!("slope {} mm/m", study.geometry.slope * 1000.0);
    if hanging.hangers.is_empty() {
        let why = match hanging.status {
            Status::Impossible => "it can't be hung from here",
            Status::Unproven => "no way to hang it was found",
            Status::Solved | Status::Locked => "it has no hangers",
        };
        return format!("{slope} · {why}");
    }
    let growth = crate::units::SmallLength(Length::metres(hanging.growth.total_m));
    let precision = crate::units::Precision {
        decimals: 0,
        inch_parts: 16,
    };
    let growth = crate::units::SmallLength::with_unit(
        growth.show_rounded(units, precision, crate::units::Rounding::Nearest),
        units,
    );
    let count = |kind: Kind| {
        let hangers = hanging.hangers.iter();
        hangers.filter(|hanger| hanger.at.kind == kind).count()
    };
    let kinds = [
        (count(Kind::Panel), "on panel points"),
        (count(Kind::Line), "on beams or purlins"),
        (count(Kind::OffPanel), "off panel points"),
        (count(Kind::Channel), "on channels"),
    ];
    let kinds: Vec<String> = kinds
        .iter()
        .filter(|(count, _)| 0 < *count)
        .map(|(count, name)| format!("{count} {name}"))
        .collect();
    let lowest = figures::length(
        units,
        Length::metres(study.clearance.stacking.lowest_part_m),
    );
    format!(
        "{} · lowest part {lowest} · {slope} · grows {growth}",
        kinds.join(", ")
    )
}
