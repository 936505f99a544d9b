//! Scale bar and north arrow.

use super::labels::Labels;
use super::pen::Pen;
use crate::editor::camera::narrow;
use crate::editor::figures::length;
use crate::editor::theme::TextSize;
use crate::units::{Length, UnitSystem};
use eframe::egui::{Align2, Painter, Rect, Shape, Stroke, StrokeKind, Vec2, pos2};

/// Distance from the edge of the canvas, points.
const MARGIN: f32 = 20.0;

/// Greatest length of the scale bar, points.
const LONGEST: f32 = 140.0;

/// The bar: four parts, of which two are dark.
pub(super) fn scale_bar(
    pen: &mut Pen<'_>,
    labels: &mut Labels,
    painter: &Painter,
    units: UnitSystem,
) {
    let roles = pen.roles;
    let length_m = bar_length(pen.camera.site_length(LONGEST), units);
    let width = pen.camera.screen_length(length_m);
    let corner = pen.camera.rect().right_bottom() - Vec2::splat(MARGIN);
    let bar = Rect::from_min_max(pos2(corner.x - width, corner.y - 5.0), corner);
    for part in 0..4_u8 {
        let from = bar.left() + width * f32::from(part) / 4.0;
        let piece = Rect::from_min_size(pos2(from, bar.top()), Vec2::new(width / 4.0, 5.0));
        let fill = if part % 2 == 0 {
            roles.wall
        } else {
            roles.ground
        };
        pen.add(Shape::rect_filled(piece, 0.0, fill));
    }
    pen.add(Shape::rect_stroke(
        bar,
        0.0,
        Stroke::new(1.0, roles.wall),
        StrokeKind::Middle,
    ));
    let font = TextSize::Small.font();
    let said = length(units, Length::metres(length_m));
    let said = said.replace(".00", "");
    let mut taken = bar;
    for (at, align, text) in [
        (bar.left_top(), Align2::CENTER_BOTTOM, "0"),
        (bar.right_top(), Align2::RIGHT_BOTTOM, said.as_str()),
    ] {
        let at = at - Vec2::new(0.0, 2.0);
        taken = taken.union(painter.text(at, align, text, font.clone(), roles.grid_text));
    }
    labels.keep_off(taken.expand(4.0));
}

/// The greatest round length that is no longer than `most_m`.
fn bar_length(most_m: f64, units: UnitSystem) -> f64 {
    let unit = match units {
        UnitSystem::Metric => 1.0,
        UnitSystem::FeetInches => 0.3048,
    };
    let steps = [1.0, 2.0, 4.0];
    let mut best = unit / 1000.0;
    let mut decade = unit / 1000.0;
    while decade <= most_m {
        for step in steps {
            if step * decade <= most_m {
                best = step * decade;
            }
        }
        decade *= 10.0;
    }
    best
}

/// North is up on the plan; the arrow says so.
pub(super) fn north(pen: &mut Pen<'_>, labels: &mut Labels, painter: &Painter) {
    let roles = pen.roles;
    let corner = pen.camera.rect().right_top();
    let foot = corner + Vec2::new(-MARGIN, MARGIN + 22.0);
    let tip = foot - Vec2::new(0.0, 20.0);
    let half = Vec2::new(narrow(5.0), 0.0);
    let notch = foot - Vec2::new(0.0, 5.0);
    pen.add(Shape::convex_polygon(
        vec![tip, foot - half, notch],
        roles.wall,
        Stroke::NONE,
    ));
    pen.add(Shape::closed_line(
        vec![tip, foot + half, notch],
        Stroke::new(1.0, roles.wall),
    ));
    let text = painter.text(
        tip - Vec2::new(0.0, 1.0),
        Align2::CENTER_BOTTOM,
        "N",
        TextSize::Small.bold(),
        roles.grid_text,
    );
    labels.keep_off(
        text.union(Rect::from_two_pos(tip - half, foot + half))
            .expand(4.0),
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bar_is_a_round_length_that_fits() {
        for (most_m, expected) in [(12.7, 10.0), (9.9, 4.0), (0.35, 0.2), (4100.0, 4000.0)] {
            let found = bar_length(most_m, UnitSystem::Metric);
            assert!((found - expected).abs() < 1e-9, "{most_m}: {found}");
        }
    }
}
