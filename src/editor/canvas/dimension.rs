//! Dimension lines, in points: in the plan and in sections alike.

use super::labels::Labels;
use eframe::egui::{Align2, Pos2, Rect, Shape, Stroke, Vec2};

/// Length of an arrow, points.
const ARROW: f32 = 7.0;

/// A line with an arrow at each end, from outside where it is short.
pub(in crate::editor) fn dimension(shapes: &mut Vec<Shape>, [a, b]: [Pos2; 2], stroke: Stroke) {
    let length = (b - a).length();
    if length < 0.5 {
        return;
    }
    let along = (b - a) / length;
    let is_short = length < 2.5 * ARROW;
    let out = if is_short { 2.0 * ARROW } else { 0.0 };
    let ends = [a - along * out, b + along * out];
    shapes.push(Shape::line_segment(ends, stroke));
    let inward = if is_short { -1.0 } else { 1.0 };
    for (tip, way) in [(a, along * inward), (b, along * -inward)] {
        let back = tip + way * ARROW;
        let half = way.rot90() * 2.0;
        let head = vec![tip, back + half, back - half];
        shapes.push(Shape::convex_polygon(head, stroke.color, Stroke::NONE));
    }
}

/// Keeps labels off a line, whichever way it runs.
pub(in crate::editor) fn keep_off_line(labels: &mut Labels, [a, b]: [Pos2; 2]) {
    /// Side of the squares that cover it, points.
    const SIDE: f32 = 6.0;
    /// Longer than any screen; what is beyond can't be seen.
    const LONGEST: f32 = 6_000.0;
    let length = (b - a).length().min(LONGEST);
    let along = (b - a).normalized();
    let is_straight = along.x.abs() < 1e-3 || along.y.abs() < 1e-3;
    if is_straight {
        labels.keep_off(Rect::from_two_pos(a, a + along * length).expand(2.0));
        return;
    }
    let mut gone = 0.0;
    while gone < length {
        let at = a + along * gone;
        labels.keep_off(Rect::from_center_size(at, Vec2::splat(SIDE)));
        gone += SIDE;
    }
}

/// Where the figure of a line may stand: beside its middle, then beside its other parts,
/// nearer ones first.
pub(in crate::editor) fn beside([a, b]: [Pos2; 2]) -> Vec<(Pos2, Align2)> {
    const PARTS: [f32; 7] = [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95];
    let is_level = (a.y - b.y).abs() < (a.x - b.x).abs();
    let mut places = Vec::new();
    for off in [5.0_f32, 20.0, 36.0] {
        for part in PARTS {
            let at = a + (b - a) * part;
            if is_level {
                places.push((at - Vec2::new(0.0, off), Align2::CENTER_BOTTOM));
                places.push((at + Vec2::new(0.0, off), Align2::CENTER_TOP));
            } else {
                places.push((at + Vec2::new(off + 3.0, 0.0), Align2::LEFT_CENTER));
                places.push((at - Vec2::new(off + 3.0, 0.0), Align2::RIGHT_CENTER));
            }
        }
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;
    use eframe::egui::pos2;

    #[test]
    fn labels_keep_off_a_slanting_line_and_not_off_its_box() {
        let mut labels = Labels::default();
        keep_off_line(&mut labels, [pos2(0.0, 0.0), pos2(100.0, 100.0)]);
        let square = |x: f32, y: f32| Rect::from_center_size(pos2(x, y), Vec2::splat(4.0));
        assert!(!labels.is_free(square(50.0, 50.0)));
        assert!(labels.is_free(square(80.0, 20.0)));
    }

    #[test]
    fn a_short_line_has_its_arrows_outside() {
        let mut shapes = Vec::new();
        let stroke = Stroke::default();
        dimension(&mut shapes, [pos2(0.0, 0.0), pos2(5.0, 0.0)], stroke);
        let Some(Shape::LineSegment { points, .. }) = shapes.first() else {
            panic!("a line comes first");
        };
        assert!(points[0].x < 0.0 && 5.0 < points[1].x);
    }
}
