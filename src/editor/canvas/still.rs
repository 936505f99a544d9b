//! What stands still while something is dragged: drawn once, kept as triangles, drawn
//! again only when the site, the view or the colours change.

use super::labels::{Label, Labels};
use super::pen::Pen;
use super::{grid, obstructions, shell, steel};
use crate::editor::Editor;
use crate::editor::camera::Camera;
use crate::editor::stage::Stage;
use crate::editor::theme::{CanvasRoles, Theme};
use crate::editor::view::{Layer, View};
use crate::site::Site;
use crate::structure::Structure;
use eframe::egui::epaint::{ClippedShape, Mesh, Primitive};
use eframe::egui::{Context, Painter, Shape, TextureId};
use std::sync::Arc;

/// The plan without runs, as triangles, with the labels that it asks for.
#[derive(Debug)]
pub(super) struct Still {
    key: Key,
    meshes: Vec<Arc<Mesh>>,
    pub(super) labels: Vec<Arc<Label>>,
}

/// What the drawing depends on.
#[derive(Debug)]
struct Key {
    site: Arc<Site>,
    structure: Option<Arc<Structure>>,
    camera: Camera,
    roles: &'static CanvasRoles,
    stage: Stage,
    view: View,
    resolution: f32,
}

impl Key {
    fn of(ctx: &Context, editor: &Editor, camera: &Camera) -> Self {
        Self {
            site: Arc::clone(editor.document.shown()),
            structure: editor.structure().cloned(),
            camera: *camera,
            roles: &Theme::of(ctx).canvas,
            stage: editor.stage,
            view: editor.view.clone(),
            resolution: ctx.pixels_per_point(),
        }
    }

    fn is_same(&self, other: &Self) -> bool {
        let same_structure = match (&self.structure, &other.structure) {
            (Some(one), Some(other)) => Arc::ptr_eq(one, other),
            (None, None) => true,
            _ => false,
        };
        same_structure
            && self.camera == other.camera
            && std::ptr::eq(self.roles, other.roles)
            && self.stage == other.stage
            && self.view == other.view
            && self.resolution == other.resolution
            && (Arc::ptr_eq(&self.site, &other.site) || same_things(&self.site, &other.site))
    }
}

/// Whether everything that stands still is pointer-equal.
pub(in crate::editor) fn same_things(one: &Site, other: &Site) -> bool {
    fn same<T>(one: &[Arc<T>], other: &[Arc<T>]) -> bool {
        one.len() == other.len() && one.iter().zip(other).all(|(a, b)| Arc::ptr_eq(a, b))
    }
    one.units == other.units
        && same(&one.grid, &other.grid)
        && same(&one.bays, &other.bays)
        && same(&one.openings, &other.openings)
        && same(&one.obstructions, &other.obstructions)
}

impl Still {
    /// The drawing: the known one if nothing that it depends on has changed.
    pub(super) fn follow(
        known: Option<Self>,
        ctx: &Context,
        editor: &Editor,
        camera: &Camera,
        hatch: TextureId,
    ) -> Self {
        let key = Key::of(ctx, editor, camera);
        match known {
            Some(known) if known.key.is_same(&key) => known,
            _ => Self::draw(ctx, key, hatch),
        }
    }

    fn draw(ctx: &Context, key: Key, hatch: TextureId) -> Self {
        let mut labels = Labels::default();
        let mut pen = Pen::new(&key.camera, key.roles);
        let (site, view) = (&key.site, &key.view);
        let members = key.structure.as_ref().map_or(&[][..], |it| &it.members);
        shell::floors(&mut pen, site);
        if view.shows(Layer::Grid) {
            grid::lines(&mut pen, site, key.stage);
        }
        if view.shows(Layer::Obstructions) {
            obstructions::solids(&mut pen, site, key.stage, hatch);
        }
        if view.shows(Layer::Steel) {
            steel::members(&mut pen, members, key.stage);
            steel::hang_points(&mut pen, &mut labels, members, key.stage);
        }
        shell::walls(&mut pen, site, key.stage);
        if view.shows(Layer::Openings) {
            shell::openings(&mut pen, site);
        }
        if view.shows(Layer::Labels) {
            obstructions::names(&pen, &mut labels, site, key.stage);
            steel::names(&pen, &mut labels, members, key.stage);
        }
        let meshes = triangles(ctx, pen.into_shapes(), &key);
        Self {
            key,
            meshes,
            labels: labels.into_wanted(),
        }
    }

    pub(super) fn paint(&self, painter: &Painter) {
        painter.extend(self.meshes.iter().map(|mesh| Shape::Mesh(Arc::clone(mesh))));
    }
}

fn triangles(ctx: &Context, shapes: Vec<Shape>, key: &Key) -> Vec<Arc<Mesh>> {
    let clip_rect = key.camera.rect();
    let shapes = shapes
        .into_iter()
        .map(|shape| ClippedShape::new(clip_rect, shape))
        .collect();
    ctx.tessellate(shapes, key.resolution)
        .into_iter()
        .filter_map(|part| match part.primitive {
            Primitive::Mesh(mesh) => Some(Arc::new(mesh)),
            Primitive::Callback(_) => None,
        })
        .collect()
}
