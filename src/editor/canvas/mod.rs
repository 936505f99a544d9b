//! The plan: where everything is drawn, picked and moved.

pub(super) mod dimension;
pub(super) mod findings;
mod furniture;
mod grid;
pub(super) mod hangers;
pub(super) mod hatch;
pub(super) mod hit;
pub(super) mod hud;
mod input;
pub(super) mod labels;
mod measures;
mod menu;
mod nodes;
mod obstructions;
mod overlay;
pub(super) mod pen;
mod reach;
pub(super) mod runs;
mod sections;
mod shell;
pub(super) mod snap;
mod spots;
mod steel;
pub(super) mod still;

use super::Editor;
use super::camera::Camera;
use super::intent::Intent;
use super::stage::Stage;
use super::theme::Theme;
use super::tools::ToolKind;
use super::tools::entry::Entry;
use super::tools::pick::Gesture;
use super::tools::sketch::{Ghost, Sketch};
use super::view::Layer;
use crate::geometry::DVec2;
use eframe::egui::{Response, Role, Sense, Ui, UiBuilder, WidgetInfo};
use hatch::Hatch;
use labels::Labels;
use pen::Pen;
use snap::{SnapIndex, Snapped};
use still::Still;

/// The plan's own state.
#[derive(Debug, Default)]
pub(crate) struct Canvas {
    /// The view.
    pub(crate) camera: Camera,
    /// Whether the keys go to the plan.
    pub(crate) has_focus: bool,
    /// Where the pointer is, and what it caught on.
    pub(crate) pointer: Option<Snapped>,
    /// What a click would do, for the status line.
    pub(crate) hint: String,
    sketch: Sketch,
    gesture: Option<Gesture>,
    entry: Entry,
    trouble: Option<String>,
    /// The keyboard's pointer, while it leads.
    cursor: Option<DVec2>,
    /// Where the menu was opened.
    menu_at: Option<DVec2>,
    /// Whether the last scroll was a stroke of two fingers.
    by_pad: bool,
    index: SnapIndex,
    hatch: Hatch,
    still: Option<Still>,
}

impl Canvas {
    /// Another view lies over the plan: it has neither pointer nor keys.
    pub(crate) fn rest(&mut self) {
        self.has_focus = false;
        self.pointer = None;
        self.hint.clear();
    }

    /// Whether a dimension is being typed.
    pub(crate) fn is_typing(&self) -> bool {
        !self.entry.is_empty()
    }

    /// Whether the arrows move the pointer of a tool.
    pub(crate) fn takes_arrows(&self, tool: ToolKind) -> bool {
        self.has_focus && tool != ToolKind::Pick
    }

    /// Drops what is half drawn, typed or dragged; whether there was anything.
    pub(crate) fn drop_drawing(&mut self) -> bool {
        let was_drawing =
            !self.entry.is_empty() || !self.sketch.is_empty() || self.gesture.is_some();
        self.entry.clear();
        self.trouble = None;
        self.gesture = None;
        self.sketch = Sketch {
            last: self.sketch.last.filter(|_| was_drawing),
            ..Sketch::default()
        };
        was_drawing
    }
}

/// The plan.
pub(crate) fn canvas_ui(
    ui: &mut Ui,
    canvas: &mut Canvas,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) {
    let rect = ui.available_rect_before_wrap();
    canvas.camera.set_rect(rect);
    canvas.index.follow(editor);
    let builder = UiBuilder::new()
        .id_salt("plan")
        .max_rect(rect)
        .sense(Sense::click_and_drag());
    ui.scope_builder(builder, |ui| {
        ui.set_min_size(rect.size());
        ui.shrink_clip_rect(rect);
        let response = ui.response();
        let ghost = input::read(ui, &response, canvas, editor, intents);
        canvas.hint.clone_from(&ghost.hint);
        draw(ui, canvas, editor, &ghost);
        menu::menu_ui(&response, canvas, editor, intents);
        describe(&response, editor, canvas);
        nodes::nodes(ui, &canvas.camera, editor, intents);
        nodes::hanger_nodes(ui, &canvas.camera, editor, intents);
    });
}

fn describe(response: &Response, editor: &Editor, canvas: &Canvas) {
    response.widget_info(|| WidgetInfo::labeled(Role::ListBox, true, "Plan"));
    let at = canvas
        .pointer
        .as_ref()
        .map(|pointer| super::figures::position(editor.site(), pointer.at));
    response.ctx.accesskit_node_builder(response.id, |node| {
        let said = [at.as_deref().unwrap_or(""), canvas.hint.as_str()];
        node.set_description(said.join("; "));
    });
}

/// Opacity of the runs: less where the building under them is worked on.
const fn quietness(stage: Stage) -> f32 {
    match stage {
        Stage::Shell | Stage::Steel => 0.5,
        Stage::Obstructions | Stage::Runs | Stage::Sheets => 1.0,
    }
}

fn draw(ui: &Ui, canvas: &mut Canvas, editor: &Editor, ghost: &Ghost) {
    let roles = &Theme::of(ui).canvas;
    let painter = ui.painter().with_clip_rect(canvas.camera.rect());
    painter.rect_filled(canvas.camera.rect(), 0.0, roles.ground);
    let hatch = canvas.hatch.texture(ui);
    let still = Still::follow(canvas.still.take(), ui, editor, &canvas.camera, hatch);
    still.paint(&painter);

    let members = editor.members();
    let view = &editor.view;
    let mut labels = Labels::default();
    let mut pen = Pen::new(&canvas.camera, roles);
    furniture::scale_bar(&mut pen, &mut labels, &painter, editor.site().units);
    furniture::north(&mut pen, &mut labels, &painter);
    if view.shows(Layer::Grid) {
        grid::bubbles(&mut pen, &mut labels, editor.site());
    }
    if view.shows(Layer::WorkSpots) {
        spots::spots(&mut pen, &mut labels, editor.site());
    }
    if view.shows(Layer::Sections) {
        sections::sections(&mut pen, &mut labels, editor.site());
    }
    if view.shows(Layer::Runs) {
        let mut over = Pen::new(&canvas.camera, roles);
        runs::runs(&mut over, &mut labels, editor);
        reach::hang_points(&mut over, &mut labels, editor);
        let mut painter = painter.clone();
        painter.set_opacity(quietness(editor.stage));
        painter.extend(over.into_shapes());
    }
    overlay::picked(&mut pen, editor, members);
    if view.shows(Layer::Findings) {
        findings::marks(&mut pen, &mut labels, editor);
    }
    if view.shows(Layer::Measures) && view.shows(Layer::Runs) {
        measures::measures(&mut pen, &mut labels, editor);
    }
    overlay::grips(&mut pen, editor);
    overlay::before_suggestion(&mut pen, &mut labels, editor);
    if matches!(canvas.gesture, Some(Gesture::Move { .. })) {
        overlay::suggested(&mut pen, &mut labels, editor);
    }
    overlay::ghost(&mut pen, &mut labels, ghost);
    overlay::pick_box(&mut pen, canvas.gesture.as_ref());
    let leads = editor.tool != ToolKind::Pick || canvas.gesture.is_some();
    let pointer = canvas.pointer.as_ref().filter(|_| leads);
    if let Some(pointer) = pointer {
        hud::catch(&mut pen, pointer);
    }
    if canvas.cursor.is_some()
        && let Some(pointer) = pointer
    {
        let at = pen.at(pointer.at);
        hud::cursor(&mut pen, at);
    }
    painter.extend(pen.into_shapes());
    labels.want_again(&still.labels);
    labels.paint(&painter, canvas.camera.rect());
    if let Some(pointer) = pointer {
        let warning = match &canvas.gesture {
            Some(Gesture::Hanger(drag)) => drag.warning(editor),
            _ => None,
        };
        let at = canvas.camera.screen_from_site(pointer.at);
        hud::chips(
            ui,
            &painter,
            at,
            pointer.why.as_deref(),
            &canvas.entry,
            canvas.trouble.as_deref().or(warning.as_deref()),
        );
    }
    canvas.still = Some(still);
}
