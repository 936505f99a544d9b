//! Where marks go in a DXF file: model space at full size, paper space, blocks.

use crate::geometry::DVec2;
use crate::sheets::mark::{Shape, Sheet};
use crate::sheets::oriented_box::OrientedBox;
use crate::sheets::paper::{PaperPoint, SheetSize, View, Viewport};
use crate::sheets::text::Text;

/// The unit of model space.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ModelUnit {
    /// For sites in metres.
    Metres,
    /// For sites in feet and inches; readers show feet and inches.
    Inches,
}

impl ModelUnit {
    /// Units in a metre.
    #[must_use]
    pub const fn per_metre(self) -> f64 {
        match self {
            Self::Metres => 1.0,
            Self::Inches => 1.0 / 0.0254,
        }
    }
}

/// A place for marks.
#[derive(Debug, Clone, Copy)]
pub(super) enum Space<'a> {
    /// Model space, through a viewport whose view is shifted by so much, m.
    Model(&'a Viewport, DVec2, ModelUnit),
    /// Paper space: millimetres, y up.
    Paper(SheetSize),
    /// A block: millimetres round its origin, y up.
    Block,
}

impl Space<'_> {
    /// Where a point of the paper goes.
    pub(super) fn point(&self, paper: PaperPoint) -> DVec2 {
        match self {
            Self::Model(viewport, shift_m, unit) => {
                (viewport.site_from_paper(paper) + *shift_m) * unit.per_metre()
            }
            Self::Paper(size) => size.counted_up(paper),
            Self::Block => DVec2::new(paper.x, -paper.y),
        }
    }

    /// Units in a millimetre of paper.
    pub(super) fn per_mm(&self) -> f64 {
        match self {
            Self::Model(viewport, _, unit) => viewport.scale.site_m(1.0) * unit.per_metre(),
            Self::Paper(_) | Self::Block => 1.0,
        }
    }

    /// The turn here of something turned on paper, degrees anticlockwise.
    pub(super) fn turn_degrees(&self, paper_degrees: f64) -> f64 {
        match self {
            Self::Model(viewport, ..) => paper_degrees - viewport.turn_degrees,
            Self::Paper(_) | Self::Block => paper_degrees,
        }
    }
}

/// How far each viewport's view is shifted in model space, m: the plan stays where the
/// site has it, other views stand beside it in their order, their feet level with its
/// lower edge.
pub(super) fn shifts_m(sheet: &Sheet) -> Vec<DVec2> {
    let boxes = boxes_m(sheet);
    let plans = || {
        sheet
            .viewports
            .iter()
            .zip(&boxes)
            .filter(|(v, _)| v.view == View::Plan)
            .filter_map(|(_, b)| *b)
    };
    let plan_right = plans()
        .map(|(_, most)| most.x)
        .fold(f64::NEG_INFINITY, f64::max);
    let plan_foot = plans()
        .map(|(least, _)| least.y)
        .fold(f64::INFINITY, f64::min);
    let mut right = if plan_right.is_finite() {
        plan_right
    } else {
        0.0
    };
    let foot = if plan_foot.is_finite() {
        plan_foot
    } else {
        0.0
    };
    let mut shifts = Vec::new();
    for (viewport, around) in sheet.viewports.iter().zip(&boxes) {
        shifts.push(match (viewport.view, around) {
            (View::Plan, _) | (_, None) => DVec2::ZERO,
            (View::Detached, Some((least, most))) => {
                let shift = DVec2::new(right + BESIDE_M - least.x, foot - least.y);
                right += BESIDE_M + most.x - least.x;
                shift
            }
        });
    }
    shifts
}

/// Distance between views that stand side by side, m.
const BESIDE_M: f64 = 10.0;

/// The box round the marks of each viewport, in its own site coordinates, m.
fn boxes_m(sheet: &Sheet) -> Vec<Option<(DVec2, DVec2)>> {
    let mut boxes = vec![None; sheet.viewports.len()];
    for mark in &sheet.marks {
        let (Some(id), Some(viewport)) = (mark.viewport, sheet.viewport_of(mark)) else {
            continue;
        };
        for paper in outer_points(&mark.shape) {
            boxes[id.0] = grown(boxes[id.0], viewport.site_from_paper(paper));
        }
    }
    boxes
}

/// A box that holds one more point.
pub(super) fn grown(around: Option<(DVec2, DVec2)>, point: DVec2) -> Option<(DVec2, DVec2)> {
    Some(around.map_or((point, point), |(least, most)| {
        (least.min(point), most.max(point))
    }))
}

/// Points whose box holds the shape.
pub(super) fn outer_points(shape: &Shape) -> Vec<PaperPoint> {
    let round = |centre: PaperPoint, radius_mm: f64| {
        let corner = DVec2::splat(radius_mm.abs());
        vec![centre - corner, centre + corner]
    };
    match shape {
        Shape::Polyline(line) => line.points.clone(),
        Shape::Area(area) => area.outline.clone(),
        Shape::Circle(circle) => round(circle.centre, circle.radius_mm),
        Shape::Arc(arc) => round(arc.centre, arc.radius_mm),
        Shape::Hatch(hatch) => hatch.outline.clone(),
        Shape::Text(text) => text
            .ink_box()
            .map_or(Vec::new(), |ink| ink.corners().to_vec()),
        Shape::Picture(picture) => picture.place.corners().to_vec(),
        Shape::Symbol(used) => {
            let shown = used
                .shown()
                .filter_map(Text::ink_box)
                .flat_map(OrientedBox::corners);
            std::iter::once(used.at).chain(shown).collect()
        }
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

    use super::*;
    use crate::sheets::layer::Layer;
    use crate::sheets::mark::{Mark, Polyline};
    use crate::sheets::paper::{Format, PaperRect};
    use crate::sheets::pen::Pen;
    use crate::sheets::scale::Scale;

    /// A view of a rectangle of the site, drawn as an outline.
    fn add_view(sheet: &mut Sheet, view: View, denominator: f64, width_m: f64, height_m: f64) {
        let window = PaperRect::at(PaperPoint::new(30.0, 30.0), 200.0, 100.0);
        let middle = DVec2::new(width_m, height_m) / 2.0;
        let scale = Scale { denominator };
        let id = sheet.add_viewport(Viewport::centred("view", view, window, scale, middle));
        let corners = [
            (0.0, 0.0),
            (width_m, 0.0),
            (width_m, height_m),
            (0.0, height_m),
        ]
        .map(|(x, y)| sheet.viewports[id.0].paper_from_site(DVec2::new(x, y)));
        sheet.draw(Mark::new(Layer::Wall, Polyline::closed(Pen::BOLD, corners)).through(id));
    }

    #[test]
    fn other_views_stand_beside_the_plan() {
        let mut sheet = Sheet::new("05", "Sections", SheetSize::landscape(Format::A3));
        add_view(&mut sheet, View::Detached, 50.0, 36.0, 9.0);
        add_view(&mut sheet, View::Plan, 200.0, 72.0, 36.0);
        add_view(&mut sheet, View::Detached, 20.0, 4.0, 3.0);
        let shifts = shifts_m(&sheet);
        let boxes = boxes_m(&sheet);
        assert_eq!(
            shifts[1],
            DVec2::ZERO,
            "the plan keeps the site's coordinates"
        );
        let placed: Vec<(DVec2, DVec2)> = boxes
            .iter()
            .zip(&shifts)
            .map(|(around, &shift)| around.map(|(a, b)| (a + shift, b + shift)).unwrap())
            .collect();
        assert!(
            (placed[0].0 - DVec2::new(82.0, 0.0)).length() < 1e-9,
            "{:?}",
            placed[0]
        );
        assert!(
            (placed[2].0 - DVec2::new(128.0, 0.0)).length() < 1e-9,
            "{:?}",
            placed[2]
        );
    }

    #[test]
    fn model_space_is_full_size_in_its_unit() {
        let mut sheet = Sheet::new("05", "Plan", SheetSize::landscape(Format::A3));
        add_view(&mut sheet, View::Plan, 200.0, 72.0, 36.0);
        let viewport = &sheet.viewports[0];
        let corner = viewport.paper_from_site(DVec2::new(72.0, 36.0));
        let space = Space::Model(viewport, DVec2::ZERO, ModelUnit::Inches);
        assert!((space.point(corner) * 0.0254 - DVec2::new(72.0, 36.0)).length() < 1e-9);
        assert!((space.per_mm() * 0.0254 - 0.2).abs() < 1e-12);
    }
}
