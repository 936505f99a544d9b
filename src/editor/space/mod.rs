//! The site in space: walked round with the mouse or the arrows, drawn by the processor
//! and handed over as one picture.

mod fine;
mod input;

use super::Editor;
use super::canvas::findings::{colour, mark_shapes};
use super::canvas::labels::{Label, Labels, Weight};
use super::canvas::still::same_things;
use super::intent::Intent;
use super::theme::{CanvasRoles, TextSize, Theme, faded};
use crate::findings::{Finding, Severity};
use crate::geometry::{Bounds, DVec2, DVec3};
use crate::site::ObjectId;
use crate::study::Study;
use crate::views::space::{
    Camera, CaptionOf, Finish, Image, Inks, Rgb, Scene, draw, runs_scene, site_scene,
};
use eframe::egui::{
    Align2, Color32, ColorImage, Context, Pos2, Rect, Response, Role, Sense, Shape, Stroke,
    TextureHandle, TextureOptions, Ui, UiBuilder, Vec2, WidgetInfo, pos2,
};
use fine::{FinePicture, Pace};
use std::sync::Arc;
use std::time::{Duration, Instant};

/// The view's own state.
#[derive(Default)]
pub(crate) struct SpaceView {
    /// Where one stands.
    camera: Option<Camera>,
    /// The picture's size for which the whole site was brought into view, until somebody
    /// moves.
    fitted: Option<DVec2>,
    scenes: Option<Scenes>,
    picture: Option<Picture>,
    /// When something last moved, s.
    moved_at: f64,
    fine: FinePicture,
    pace: Pace,
}

impl std::fmt::Debug for SpaceView {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("SpaceView")
            .field("camera", &self.camera)
            .finish_non_exhaustive()
    }
}

/// What is drawn, and what it was made from.
struct Scenes {
    study: Arc<Study>,
    findings: Arc<Vec<Finding>>,
    still: Arc<Scene>,
    runs: Arc<Scene>,
}

/// The picture that is shown, and what it shows.
struct Picture {
    texture: TextureHandle,
    image: Image,
    key: Key,
}

#[derive(Debug, Clone, Copy, PartialEq)]
struct Key {
    camera: Camera,
    /// What it fills, points.
    fills: Vec2,
    /// Columns and rows.
    size: (usize, usize),
    finish: Finish,
    inks: Inks,
}

impl Key {
    /// Whether both show the same thing from the same place, however finely.
    fn shows_as(&self, other: &Self) -> bool {
        self.camera == other.camera
            && self.fills == other.fills
            && self.inks == other.inks
            && self.size != (0, 0)
    }
}

/// After so long without motion the picture is drawn finely, s.
const AT_REST_S: f64 = 0.15;

impl SpaceView {
    /// A view whose pictures are there at once and always of one size: for tests, which
    /// have no clock.
    pub(super) fn inline() -> Self {
        Self {
            fine: FinePicture::inline(),
            pace: Pace::fixed(),
            ..Self::default()
        }
    }

    /// Steps back until the whole site is in view.
    pub(crate) fn fit(&mut self) {
        self.fitted = Some(DVec2::ZERO);
    }

    /// Brings a place into the middle, near enough to see a single heater.
    pub(crate) fn look_at(&mut self, place: DVec2) {
        /// Half of what a heater hangs at, m: between floor and roof.
        const HEIGHT_M: f64 = 4.0;
        /// From here a heater fills a good part of the picture, m.
        const NEAR_M: f64 = 40.0;
        let camera = self.camera.unwrap_or_default();
        self.fitted = None;
        self.camera = Some(Camera {
            target: place.extend(HEIGHT_M),
            distance_m: camera.distance_m.min(NEAR_M),
            ..camera
        });
    }

    /// Nearer by a factor.
    pub(crate) fn nearer(&mut self, factor: f64) {
        if let Some(camera) = &mut self.camera {
            *camera = camera.nearer(factor);
            self.fitted = None;
        }
    }

    /// Where one stands.
    pub(crate) fn camera(&self) -> Option<&Camera> {
        self.camera.as_ref()
    }

    /// Follows the study; whether anything changed.
    fn follow(&mut self, study: &Arc<Study>, findings: &Arc<Vec<Finding>>) -> bool {
        let known = self.scenes.take();
        match known {
            Some(known)
                if Arc::ptr_eq(&known.study, study) && Arc::ptr_eq(&known.findings, findings) =>
            {
                self.scenes = Some(known);
                false
            }
            known => {
                let stands = known.as_ref().is_some_and(|known| {
                    Arc::ptr_eq(&known.study.structure, &study.structure)
                        && Arc::ptr_eq(&known.study.surroundings, &study.surroundings)
                        && same_things(&known.study.site, &study.site)
                });
                let still = match known {
                    Some(known) if stands => known.still,
                    _ => Arc::new(site_scene(&study.site, study)),
                };
                self.fine.give_up();
                self.scenes = Some(Scenes {
                    study: Arc::clone(study),
                    findings: Arc::clone(findings),
                    still,
                    runs: Arc::new(runs_scene(study, findings)),
                });
                self.picture = self.picture.take().map(|mut picture| {
                    picture.key.size = (0, 0);
                    picture
                });
                true
            }
        }
    }
}

/// The site in space.
pub(super) fn space_ui(
    ui: &mut Ui,
    view: &mut SpaceView,
    editor: &Editor,
    intents: &mut Vec<Intent>,
) {
    let rect = ui.max_rect();
    let roles = &Theme::of(ui).canvas;
    ui.painter().rect_filled(rect, 0.0, roles.ground);
    let Some(study) = editor.study() else {
        return;
    };
    let changed = view.follow(study, editor.results.findings());
    let builder = UiBuilder::new()
        .id_salt("space")
        .max_rect(rect)
        .sense(Sense::click_and_drag());
    ui.scope_builder(builder, |ui| {
        ui.set_min_size(rect.size());
        ui.shrink_clip_rect(rect);
        let response = ui.response();
        let size = points(rect);
        let mut camera = standing(view, size);
        let before = camera;
        let changed = changed || view.camera != Some(camera);
        input::read(ui, &response, &mut camera, size, editor);
        input::pick(&response, &camera, rect, study, intents);
        if camera != before {
            view.fitted = None;
        }
        let moves = changed || camera != before || response.dragged();
        view.camera = Some(camera);
        show(ui, view, rect, moves);
        name(ui, view, editor, rect, roles);
        describe(&response, editor, &camera);
    });
}

fn points(rect: Rect) -> DVec2 {
    DVec2::new(f64::from(rect.width()), f64::from(rect.height())).max(DVec2::ONE)
}

/// The camera; where it stands nowhere yet, from where all is in view.
fn standing(view: &mut SpaceView, size: DVec2) -> Camera {
    let known = view.camera.unwrap_or_default();
    let is_placed = view.camera.is_some() && view.fitted.is_none_or(|it| it == size);
    match &view.scenes {
        Some(scenes) if !is_placed => {
            view.fitted = Some(size);
            let all = scenes.still.bounds.union(scenes.runs.bounds);
            let all = if all.low.cmple(all.high).all() {
                all
            } else {
                Bounds {
                    low: DVec3::ZERO,
                    high: DVec3::splat(10.0),
                }
            };
            known.fitted(&all, size)
        }
        _ => known,
    }
}

/// Draws the picture where it is not up to date, and shows it.
fn show(ui: &Ui, view: &mut SpaceView, rect: Rect, moves: bool) {
    let now = ui.input(|input| input.time);
    if moves {
        view.moved_at = now;
    }
    let (Some(camera), Some(scenes)) = (view.camera, &view.scenes) else {
        return;
    };
    let is_at_rest = AT_REST_S <= now - view.moved_at;
    let side = |points: f32, per_point: f32| {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to what a screen has"
        )]
        let pixels = (points * per_point).round().clamp(1.0, 8_192.0) as usize;
        pixels
    };
    let key = |finish: Finish, per_point: f32| Key {
        camera,
        fills: rect.size(),
        size: (
            side(rect.width(), per_point),
            side(rect.height(), per_point),
        ),
        finish,
        inks: inks(&Theme::of(ui).canvas),
    };
    // While something moves it is the motion that is looked at; at rest, the detail.
    let quick = key(Finish::Quick, view.pace.per_point());
    let mut drawn = None;
    if is_at_rest {
        let fine = key(Finish::Fine, ui.ctx().pixels_per_point());
        if view.picture.as_ref().is_none_or(|it| it.key != fine) {
            let of = [&scenes.still, &scenes.runs];
            drawn = view.fine.of(fine, of, ui.ctx()).map(|image| (fine, image));
        }
    } else {
        ui.ctx()
            .request_repaint_after(Duration::from_secs_f64(AT_REST_S));
    }
    // What shows the same from the same place stays until something finer is there.
    let is_shown = |it: &Picture| it.key.shows_as(&quick);
    if drawn.is_none() && !view.picture.as_ref().is_some_and(is_shown) {
        let scenes = [&*scenes.still, &*scenes.runs];
        let began = Instant::now();
        let image = draw(&scenes, &camera, &quick.inks, quick.size, quick.finish, 2);
        view.pace.took(began.elapsed());
        drawn = Some((quick, image));
    }
    if let Some((key, image)) = drawn {
        let texture = view.picture.take().map(|it| it.texture);
        view.picture = Some(handed_over(ui.ctx(), texture, image, key));
    }
    if let Some(picture) = &view.picture {
        let whole = Rect::from_min_max(Pos2::ZERO, pos2(1.0, 1.0));
        ui.painter()
            .image(picture.texture.id(), rect, whole, Color32::WHITE);
    }
}

fn handed_over(ctx: &Context, texture: Option<TextureHandle>, image: Image, key: Key) -> Picture {
    let shown = ColorImage::from_rgb([image.width, image.height], &image.rgb);
    let texture = match texture {
        Some(mut texture) => {
            texture.set(shown, TextureOptions::LINEAR);
            texture
        }
        None => ctx.load_texture("site in space", shown, TextureOptions::LINEAR),
    };
    Picture {
        texture,
        image,
        key,
    }
}

/// Names of runs, grid lines and of the obstructions that can be seen, and the marks of
/// breaches.
fn name(ui: &Ui, view: &SpaceView, editor: &Editor, rect: Rect, roles: &'static CanvasRoles) {
    let (Some(camera), Some(scenes), Some(picture)) = (view.camera, &view.scenes, &view.picture)
    else {
        return;
    };
    let size = points(rect);
    let painter = ui.painter().with_clip_rect(rect);
    let mut labels = Labels::default();
    let at = |place: DVec3| {
        let seen = camera.see(place, size)?;
        let at = rect.min + Vec2::new(single(seen.at.x), single(seen.at.y));
        rect.contains(at).then_some((at, seen))
    };
    let findings = editor.results.findings();
    for finding in findings.iter().filter(|it| it.severity == Severity::Breach) {
        let Some((place, _)) = finding.place.and_then(at) else {
            continue;
        };
        let around = [(0.0, 0.0), (0.0, -20.0), (17.0, -10.0), (-17.0, -10.0)];
        let free = around
            .iter()
            .map(|(x, y)| place + Vec2::new(*x, *y))
            .find(|at| labels.is_free(Rect::from_center_size(*at, Vec2::splat(18.0))));
        let Some(stand) = free else {
            continue;
        };
        let colour = colour(roles, finding.severity);
        if stand != place {
            painter.line_segment([place, stand], Stroke::new(1.0, colour));
        }
        painter.extend(mark_shapes(finding, stand, colour, roles.ground));
        labels.keep_off(Rect::from_center_size(stand, Vec2::splat(18.0)));
    }
    for caption in scenes.runs.captions.iter().chain(&scenes.still.captions) {
        let Some((place, seen)) = at(caption.at) else {
            continue;
        };
        let (font, colour, weight, id) = match &caption.of {
            CaptionOf::Run(id) => (
                TextSize::Small.bold(),
                roles.run_text,
                Weight::Run,
                Some(id),
            ),
            CaptionOf::Obstruction(id) => (
                TextSize::Small.font(),
                roles.obstruction_text,
                Weight::Thing,
                Some(id),
            ),
            CaptionOf::Grid => (TextSize::Small.font(), roles.grid_text, Weight::Steel, None),
        };
        let pixel =
            seen.at / size * DVec2::new(wide(picture.image.width), wide(picture.image.height));
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "within the picture"
        )]
        let is_hidden = picture
            .image
            .hides(pixel.x as usize, pixel.y as usize, seen.depth_m);
        if is_hidden && weight != Weight::Run {
            continue;
        }
        let is_picked = id.is_some_and(|id| editor.selection.has(id));
        if is_picked {
            painter.add(Shape::circle_stroke(
                place,
                6.0,
                Stroke::new(2.0, roles.selection),
            ));
        }
        labels.want(Label {
            text: caption.text.clone(),
            font,
            colour: if is_picked { roles.selection } else { colour },
            ground: Some(faded(roles.label_ground, 0.8)),
            weight,
            places: vec![
                (place - Vec2::new(0.0, 7.0), Align2::CENTER_BOTTOM),
                (place + Vec2::new(9.0, 0.0), Align2::LEFT_CENTER),
                (place - Vec2::new(9.0, 0.0), Align2::RIGHT_CENTER),
                (place + Vec2::new(0.0, 7.0), Align2::CENTER_TOP),
                (place + Vec2::new(14.0, -14.0), Align2::LEFT_BOTTOM),
                (place + Vec2::new(-14.0, -14.0), Align2::RIGHT_BOTTOM),
                (place + Vec2::new(14.0, 14.0), Align2::LEFT_TOP),
                (place + Vec2::new(-14.0, 14.0), Align2::RIGHT_TOP),
            ],
        });
    }
    labels.paint(&painter, rect.shrink(4.0));
}

/// Where one stands and what is there, for whoever can't see it.
fn describe(response: &Response, editor: &Editor, camera: &Camera) {
    response.widget_info(|| WidgetInfo::labeled(Role::Group, true, "Site in 3-D"));
    response.ctx.accesskit_node_builder(response.id, |node| {
        let site = editor.site();
        let breaches = editor.count_findings(Severity::Breach);
        node.set_description(format!(
            "seen from {:.0}°, {:.0}° above level, {:.0} m away; {} runs, {} obstructions, {breaches} breaches; arrows walk round, Shift and arrows move, plus and minus go nearer and farther",
            camera.from_degrees,
            camera.tilt_degrees,
            camera.distance_m,
            site.scheme().runs.len(),
            site.obstructions.len()
        ));
    });
}

/// The plan's colours for the site in space.
fn inks(roles: &CanvasRoles) -> Inks {
    let rgb = |colour: Color32| -> Rgb { [colour.r(), colour.g(), colour.b()] };
    let between = |a: Color32, b: Color32, part: f32| rgb(a.lerp_to_gamma(b, part));
    Inks {
        ground: rgb(roles.ground),
        floor: between(roles.ground, roles.obstruction, 0.13),
        wall: rgb(roles.wall),
        member: rgb(roles.member),
        obstruction: between(roles.obstruction_fill, roles.obstruction, 0.16),
        obstruction_edge: rgb(roles.obstruction),
        run: rgb(roles.run),
        burner: rgb(roles.burner),
        reflector: between(roles.run, roles.ground, 0.5),
        hanger: rgb(roles.hanger),
        envelope: rgb(roles.envelope),
        breach: rgb(roles.breach),
        grid: rgb(roles.grid),
        text: rgb(roles.run_text),
    }
}

fn single(value: f64) -> f32 {
    super::camera::narrow(value)
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a picture has some thousand columns"
)]
const fn wide(n: usize) -> f64 {
    n as f64
}

/// What is picked by a click on a thing.
fn object_of(thing: &crate::study::Thing) -> Option<ObjectId> {
    use crate::study::Thing;
    match thing {
        Thing::Obstruction(id) => Some(ObjectId::Obstruction(id.clone())),
        Thing::Run(id) => Some(ObjectId::Run(id.clone())),
        Thing::Door(id, _) => Some(ObjectId::Opening(id.clone())),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_on_paper_have_the_plans_colours() {
        let of_theme = inks(&Theme::light().canvas);
        for (found, expected) in [
            (Inks::PAPER.ground, of_theme.ground),
            (Inks::PAPER.wall, of_theme.wall),
            (Inks::PAPER.member, of_theme.member),
            (Inks::PAPER.obstruction_edge, of_theme.obstruction_edge),
            (Inks::PAPER.run, of_theme.run),
            (Inks::PAPER.burner, of_theme.burner),
            (Inks::PAPER.hanger, of_theme.hanger),
            (Inks::PAPER.envelope, of_theme.envelope),
            (Inks::PAPER.breach, of_theme.breach),
            (Inks::PAPER.grid, of_theme.grid),
            (Inks::PAPER.text, of_theme.text),
        ] {
            assert_eq!(found, expected);
        }
    }
}
