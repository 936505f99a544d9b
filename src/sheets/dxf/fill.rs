//! Filled and hatched surfaces, and cleared paper, as DXF entities.

use crate::geometry::DVec2;
use crate::sheets::dxf::entity::Sink;
use crate::sheets::dxf::look::{self, Look};
use crate::sheets::dxf::space::grown;
use crate::sheets::hatch::Hatch;
use crate::sheets::mark::{Arc, Circle};
use crate::sheets::paper::{PaperPoint, directions};
use crate::sheets::pen::{Ink, Pen};

/// A filled polygon. In the ink of the paper it clears what lies under it; a cleared
/// surface has no holes in this format, so that holes stay as they were drawn.
pub(super) fn area(sink: &mut Sink<'_>, rings: &[&[PaperPoint]], ink: Ink, look: &Look<'_>) {
    let rings: Vec<&[PaperPoint]> = rings
        .iter()
        .copied()
        .filter(|ring| 2 < ring.len())
        .collect();
    match (ink, &rings[..]) {
        (_, []) => {}
        (Ink::Paper, [outline]) => cleared(sink, outline, look),
        (Ink::Paper, _) => {}
        _ => {
            begin_hatch(sink, "SOLID", 1, look);
            sink.tags.tag(91, rings.len());
            for (index, ring) in rings.iter().enumerate() {
                boundary(sink, ring, index);
            }
            sink.tags.tag(75, 0);
            sink.tags.tag(76, 1);
            sink.tags.tag(98, 0);
            look::subject(sink.tags, look);
        }
    }
}

/// A disc, or a cleared one.
pub(super) fn disc(sink: &mut Sink<'_>, circle: &Circle, ink: Ink, look: &Look<'_>) {
    if ink == Ink::Paper {
        cleared(sink, &polygon(circle), look);
        return;
    }
    let radius = circle.radius_mm.abs() * sink.space.per_mm();
    let centre = sink.space.point(circle.centre);
    begin_hatch(sink, "SOLID", 1, look);
    sink.tags.tag(91, 1);
    // A polyline of two half circles: a bulge of 1 is half a turn.
    sink.tags.tag(92, 3);
    sink.tags.tag(72, 1);
    sink.tags.tag(73, 1);
    sink.tags.tag(93, 2);
    for side in [-radius, radius] {
        sink.tags.point_2d(10, centre + DVec2::new(side, 0.0));
        sink.tags.real(42, 1.0);
    }
    sink.tags.tag(97, 0);
    sink.tags.tag(75, 0);
    sink.tags.tag(76, 1);
    sink.tags.tag(98, 0);
    look::subject(sink.tags, look);
}

/// A hatch as lines that readers draw themselves.
pub(super) fn hatch(sink: &mut Sink<'_>, hatch: &Hatch, look: &Look<'_>) {
    let Some(&[on_a_line, _]) = hatch.lines().first() else {
        return;
    };
    let rings: Vec<&[PaperPoint]> = hatch.rings().filter(|ring| 2 < ring.len()).collect();
    let spacing = hatch.drawn_spacing_mm() * sink.space.per_mm();
    let degrees = sink.space.turn_degrees(hatch.angle_degrees);
    let base = sink.space.point(on_a_line);
    // A step to the next line, y up.
    let (along, _) = directions(degrees);
    let step = DVec2::new(along.y, along.x) * spacing;
    begin_hatch_with(sink, "_USER", 0, look, Some(hatch.pen));
    sink.tags.tag(91, rings.len());
    for (index, ring) in rings.iter().enumerate() {
        boundary(sink, ring, index);
    }
    sink.tags.tag(75, 0);
    sink.tags.tag(76, 0);
    sink.tags.real(52, degrees.rem_euclid(360.0));
    sink.tags.real(41, spacing);
    sink.tags.tag(77, 0);
    sink.tags.tag(78, 1);
    sink.tags.real(53, degrees.rem_euclid(360.0));
    sink.tags.real(43, base.x);
    sink.tags.real(44, base.y);
    sink.tags.real(45, step.x);
    sink.tags.real(46, step.y);
    sink.tags.tag(79, 0);
    sink.tags.tag(98, 0);
    look::subject(sink.tags, look);
}

fn begin_hatch(sink: &mut Sink<'_>, pattern: &str, solid: u8, look: &Look<'_>) {
    begin_hatch_with(sink, pattern, solid, look, None);
}

fn begin_hatch_with(
    sink: &mut Sink<'_>,
    pattern: &str,
    solid: u8,
    look: &Look<'_>,
    pen: Option<Pen>,
) {
    sink.begin("HATCH", look);
    if let Some(pen) = pen {
        look::pen(sink.tags, pen, sink.space.per_mm());
    }
    sink.tags.tag(100, "AcDbHatch");
    sink.tags.point(10, DVec2::ZERO);
    sink.tags.point_2d(210, DVec2::ZERO);
    sink.tags.real(230, 1.0);
    sink.tags.tag(2, pattern);
    sink.tags.tag(70, solid);
    sink.tags.tag(71, 0);
}

/// A ring of a hatch; the first is the outer one.
fn boundary(sink: &mut Sink<'_>, ring: &[PaperPoint], index: usize) {
    sink.tags.tag(92, if index == 0 { 3 } else { 2 });
    sink.tags.tag(72, 0);
    sink.tags.tag(73, 1);
    sink.tags.tag(93, ring.len());
    for &at in ring {
        let at = sink.space.point(at);
        sink.tags.point_2d(10, at);
    }
    sink.tags.tag(97, 0);
}

/// A disc as a polygon round it, for what knows no circles.
fn polygon(circle: &Circle) -> Vec<PaperPoint> {
    let arc = Arc {
        centre: circle.centre,
        radius_mm: circle.radius_mm.abs(),
        from_degrees: 0.0,
        sweep_degrees: 360.0,
        pen: Pen::THIN,
    };
    (0..24)
        .map(|step| arc.point_at(15.0 * f64::from(step)))
        .collect()
}

/// Hides what was drawn before within an outline.
pub(super) fn cleared(sink: &mut Sink<'_>, outline: &[PaperPoint], look: &Look<'_>) {
    let corners: Vec<DVec2> = outline.iter().map(|&at| sink.space.point(at)).collect();
    let around = corners
        .iter()
        .fold(None, |around, &corner| grown(around, corner));
    let Some((least, most)) = around else { return };
    let size = most - least;
    if size.min_element() <= 0.0 {
        return;
    }
    // An image of one pixel, stretched over the outline's box and clipped to the outline.
    sink.begin("WIPEOUT", look);
    sink.tags.tag(100, "AcDbWipeout");
    sink.tags.tag(90, 0);
    sink.tags.point(10, least);
    sink.tags.point(11, DVec2::new(size.x, 0.0));
    sink.tags.point(12, DVec2::new(0.0, size.y));
    sink.tags.point_2d(13, DVec2::ONE);
    sink.tags.tag(340, 0);
    sink.tags.tag(70, 7);
    sink.tags.tag(280, 1);
    sink.tags.tag(281, 50);
    sink.tags.tag(282, 50);
    sink.tags.tag(283, 0);
    sink.tags.tag(360, 0);
    sink.tags.tag(71, 2);
    sink.tags.tag(91, corners.len() + 1);
    for &corner in corners.iter().chain(corners.first()) {
        // Pixels are counted from the middle, y down.
        let part = (corner - least) / size;
        sink.tags
            .point_2d(14, DVec2::new(part.x - 0.5, 0.5 - part.y));
    }
    sink.tags.tag(290, 0);
    look::subject(sink.tags, look);
}
