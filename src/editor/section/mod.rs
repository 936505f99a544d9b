//! The section in the window: live, to scale, with its measures. Heaters that are cut can
//! be dragged across and up.

mod drag;
mod draw;
mod heaters;
mod measures;
mod things;

use super::Editor;
use super::camera::SideCamera;
use super::canvas::hatch::Hatch;
use super::intent::Intent;
use super::theme::{STEP, TextSize, Theme};
use crate::catalogue::Catalogue;
use crate::findings::Finding;
use crate::geometry::{DVec2, DVec3};
use crate::site::{Run, RunId, SectionId, SectionLine, Site};
use crate::study::Study;
use crate::views::section::{default_line, line_through, place_in, words};
use crate::views::{Section, section};
use drag::Drag;
use eframe::egui::{
    Align2, PointerButton, Pos2, Rect, Response, Role, Sense, Ui, UiBuilder, Vec2, WidgetInfo,
};
use std::sync::Arc;

/// Screen points a metre at which what was asked for is shown, at least.
const NEAR: f64 = 90.0;

/// The section's own state.
#[derive(Debug, Default)]
pub(crate) struct SectionView {
    /// The line that was asked for; else the picked one, else the first, else one across
    /// the middle of a bay.
    pub(crate) wanted: Option<SectionId>,
    /// A line that nobody drew, through something that was to be shown and that no drawn
    /// line shows.
    passing: Option<SectionLine>,
    /// What is to be in the middle of the next frame.
    goal: Option<DVec3>,
    camera: Option<SideCamera>,
    /// The camera of the last frame.
    drawn: Option<SideCamera>,
    drag: Option<Drag>,
    known: Option<Known>,
    /// The section of the site as it is, while something that is offered is previewed.
    standing: Option<Arc<Section>>,
    hatch: Hatch,
}

/// A section and what it was cut from.
#[derive(Debug)]
struct Known {
    study: Arc<Study>,
    findings: Arc<Vec<Finding>>,
    section: Arc<Section>,
}

impl SectionView {
    /// Brings the whole section into view.
    pub(crate) fn fit(&mut self) {
        self.camera = None;
    }

    /// Brings a place into view: in the line that is shown, else in another one that shows
    /// it, else in one through it. Whether that could be done.
    pub(crate) fn look_at(
        &mut self,
        (site, catalogue): (&Site, &Catalogue),
        place: DVec3,
        run: Option<&Run>,
    ) -> bool {
        let shown = self.line(site, catalogue);
        let shows = |line: &SectionLine| place_in(line, place).is_some();
        if !shown.as_ref().is_some_and(shows) {
            if let Some(line) = site.sections.iter().find(|line| shows(line)) {
                self.show_line(line.id.clone());
            } else if let Some(line) = line_through(site, place.truncate(), run) {
                self.passing = Some(line);
            } else {
                return false;
            }
        }
        self.goal = Some(place);
        true
    }

    /// Shows a drawn line.
    fn show_line(&mut self, id: SectionId) {
        self.wanted = Some(id);
        self.passing = None;
    }

    /// Whether a line is shown that nobody drew.
    pub(crate) fn is_passing(&self) -> bool {
        self.passing.is_some()
    }

    /// Enlarges by a factor about the middle.
    pub(crate) fn zoom_middle(&mut self, factor: f64) {
        if let Some(camera) = &mut self.camera {
            let middle = camera.rect().center();
            camera.zoom(factor, middle);
        }
    }

    /// The line that is shown; none in a site with neither a section line nor a bay.
    pub(crate) fn line(&self, site: &Site, catalogue: &Catalogue) -> Option<SectionLine> {
        if self.passing.is_some() {
            return self.passing.clone();
        }
        let wanted = self.wanted.as_ref();
        let of_wanted = wanted.and_then(|id| site.sections.iter().find(|line| line.id == *id));
        of_wanted
            .or_else(|| site.sections.first())
            .map(|line| line.as_ref().clone())
            .or_else(|| default_line(site, catalogue))
    }

    /// Where a heater that is cut is on the screen, as last drawn.
    fn point_of(&self, run: &RunId) -> Option<Pos2> {
        let known = self.known.as_ref()?;
        let cut = known.section.runs.iter().find(|it| it.run == *run)?;
        let camera = self.drawn?;
        Some(camera.screen_from_side(cut.at.x, cut.at.y))
    }

    fn follow(&mut self, editor: &Editor) -> Option<Arc<Section>> {
        // Where the study is behind, the section is of the site that was studied.
        let study = editor.study()?;
        let line = self.line(editor.site(), &editor.catalogue)?;
        let findings = editor.results.findings();
        if let Some(known) = &self.known
            && Arc::ptr_eq(&known.study, study)
            && Arc::ptr_eq(&known.findings, findings)
            && known.section.line == line
        {
            return Some(Arc::clone(&known.section));
        }
        let is_same_line = self
            .known
            .as_ref()
            .is_some_and(|known| known.section.line == line);
        if !is_same_line && self.drag.is_none() {
            self.camera = None;
        }
        let before = self.known.as_ref().filter(|known| {
            known.section.line == line && Arc::ptr_eq(&known.study.site, editor.committed_arc())
        });
        if let Some(before) = before {
            self.standing = Some(Arc::clone(&before.section));
        }
        let section = Arc::new(section(&study.site, study, findings, &line));
        self.known = Some(Known {
            study: Arc::clone(study),
            findings: Arc::clone(findings),
            section: Arc::clone(&section),
        });
        Some(section)
    }
}

/// The section.
pub(super) fn section_ui(
    ui: &mut Ui,
    view: &mut SectionView,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) {
    let rect = ui.max_rect();
    let roles = &Theme::of(ui).canvas;
    ui.painter().rect_filled(rect, 0.0, roles.ground);
    // A section line that is picked is the one to see.
    if let Some(crate::site::ObjectId::SectionLine(id)) = editor.selection.single() {
        view.show_line(id.clone());
    }
    let Some(section) = view.follow(editor) else {
        empty_ui(ui, rect);
        return;
    };
    let builder = UiBuilder::new()
        .id_salt("section")
        .max_rect(rect)
        .sense(Sense::click_and_drag());
    ui.scope_builder(builder, |ui| {
        ui.set_min_size(rect.size());
        ui.shrink_clip_rect(rect);
        let response = ui.response();
        let mut camera = match view.camera {
            Some(camera) => camera.on(rect),
            None => fitting(&section, rect),
        };
        if let Some(place) = view.goal.take() {
            camera = camera.looking_at(section.plane.seen(place), NEAR);
            view.camera = Some(camera);
        }
        navigate(ui, &response, view, &mut camera);
        view.drawn = Some(camera);
        let hatch = view.hatch.texture(ui);
        let painter = ui.painter().with_clip_rect(rect);
        let standing = view.standing.as_deref();
        draw::draw(&painter, editor, (&section, standing), &camera, hatch);
        view.drag = drag::follow(
            ui,
            &response,
            view.drag.take(),
            editor,
            (&section, &camera),
            intents,
        );
        // A hand that drags must not have the view run from it.
        if view.drag.is_some() {
            view.camera = Some(camera);
        }
        describe(&response, editor, &section);
    });
}

fn empty_ui(ui: &Ui, rect: Rect) {
    let text = "Draw a bay, or a section line, to see the site cut";
    let response = ui.interact(rect, ui.scope_id().with("no section"), Sense::hover());
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, text));
    ui.painter().text(
        rect.center(),
        Align2::CENTER_CENTER,
        text,
        TextSize::Body.font(),
        Theme::of(ui).palette.faint_ink,
    );
}

impl Editor {
    /// Where a heater is on the screen in the section that is shown, if it is cut.
    pub fn section_point(&self, run: &RunId) -> Option<Pos2> {
        self.section.point_of(run)
    }
}

/// All of the section in view, with room for bubbles, the chain and the names.
fn fitting(section: &Section, rect: Rect) -> SideCamera {
    let room = Rect::from_min_max(
        rect.min + Vec2::new(18.0 * STEP, 14.0 * STEP),
        rect.max - Vec2::new(8.0 * STEP, 16.0 * STEP),
    );
    let most = DVec2::new(section.width_m, section.top_m);
    SideCamera::fitting(DVec2::ZERO, most, room).centred_on(rect, room)
}

/// Pans with the middle or the second button, and with the first beside the heaters;
/// zooms with the wheel.
fn navigate(ui: &Ui, response: &Response, view: &mut SectionView, camera: &mut SideCamera) {
    let is_held = response.dragged_by(PointerButton::Middle)
        || response.dragged_by(PointerButton::Secondary)
        || (response.dragged_by(PointerButton::Primary) && view.drag.is_none());
    let mut moved = false;
    if is_held && response.drag_delta() != Vec2::ZERO && !response.drag_started() {
        camera.pan(response.drag_delta());
        moved = true;
    }
    if let Some(at) = response.hover_pos() {
        let (scroll, pinch) = ui.input(|input| (input.smooth_scroll_delta(), input.zoom_delta()));
        if scroll.y != 0.0 {
            let turn = (f64::from(scroll.y) / 700.0).clamp(-0.5, 0.5);
            camera.zoom((1.0 + turn) / (1.0 - turn), at);
            moved = true;
        }
        if pinch != 1.0 {
            camera.zoom(f64::from(pinch), at);
            moved = true;
        }
    }
    if moved || view.camera.is_some() {
        view.camera = Some(*camera);
    }
}

/// What the section shows, for whoever can't see it.
fn describe(response: &Response, editor: &Editor, section: &Section) {
    let name = format!("Section {}", section.line.label());
    response.widget_info(|| WidgetInfo::labeled(Role::Group, true, &name));
    response.ctx.accesskit_node_builder(response.id, |node| {
        node.set_description(said(editor, section));
    });
}

/// Which heaters are cut, how high they hang, with how much room.
fn said(editor: &Editor, section: &Section) -> String {
    let site = editor.site();
    let units = site.units;
    let mut parts: Vec<String> = Vec::new();
    for height in &section.heights {
        parts.push(format!(
            "{}, {}, {}",
            words::height(units, height),
            words::lowest(units, height),
            words::stacking(units, height)
        ));
    }
    for envelope in &section.envelopes {
        parts.push(format!("keep-clear envelope of {}", envelope.run));
    }
    for room in &section.rooms {
        parts.push(format!(
            "{} {} to {}: {}",
            room.run,
            room.room.direction.label(),
            words::thing(site, &room.room.thing),
            words::room(units, &room.room)
        ));
    }
    if parts.is_empty() {
        "no heater is cut".to_owned()
    } else {
        parts.join("; ")
    }
}

/// Where a screen position is in the section: (u, z).
fn place(camera: &SideCamera, at: Pos2) -> DVec2 {
    camera.side_from_screen(at)
}
