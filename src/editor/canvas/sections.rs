//! Section lines: thick at their ends, with an arrow and a letter at each.

use super::labels::{Label, Labels, Weight};
use super::pen::{LONG_DASH_DOT, Pen};
use crate::editor::theme::TextSize;
use crate::geometry::DVec2;
use crate::site::{SectionLine, Site};
use eframe::egui::{Align2, Rect, Shape, Stroke, Vec2};

/// Length of the thick piece at an end, points.
const END: f32 = 18.0;
/// Length of an arrow, points.
const ARROW: f32 = 17.0;

/// The lines with their letters.
pub(super) fn sections(pen: &mut Pen<'_>, labels: &mut Labels, site: &Site) {
    for line in &site.sections {
        section(pen, labels, line);
    }
}

fn section(pen: &mut Pen<'_>, labels: &mut Labels, line: &SectionLine) {
    let ink = pen.roles.wall;
    pen.dashed(line.from, line.to, Stroke::new(1.0, ink), LONG_DASH_DOT);
    let inward = pen.camera.screen_vector(line.direction()).normalized();
    let way = pen.camera.screen_vector(line.looking()).normalized();
    for (end, inward) in [(line.from, inward), (line.to, -inward)] {
        if pen.sees(&[end]) {
            end_mark(pen, labels, line, end, [inward, way]);
        }
    }
}

/// One end: a thick stroke along the line, an arrow the way one looks, the letter.
fn end_mark(
    pen: &mut Pen<'_>,
    labels: &mut Labels,
    line: &SectionLine,
    end: DVec2,
    [inward, way]: [Vec2; 2],
) {
    let ink = pen.roles.wall;
    let at = pen.at(end);
    let thick = Stroke::new(2.4, ink);
    pen.add(Shape::line_segment([at, at + inward * END], thick));
    let tip = at + way * ARROW;
    pen.add(Shape::line_segment(
        [at, tip - way * 7.0],
        Stroke::new(1.4, ink),
    ));
    let neck = tip - way * 9.0;
    let half = inward * 4.0;
    let head = vec![tip, neck + half, neck - half];
    pen.add(Shape::convex_polygon(head, ink, Stroke::NONE));
    labels.keep_off(Rect::from_two_pos(at, at + inward * END).expand(2.0));
    labels.keep_off(Rect::from_two_pos(at, tip).expand(4.0));
    let beside = |by: Vec2| (at + by, Align2::CENTER_CENTER);
    labels.want(Label {
        text: line.id.to_string(),
        font: TextSize::Heading.bold(),
        colour: ink,
        ground: None,
        weight: Weight::Grid,
        places: vec![
            beside(way * 12.0 - inward * 13.0),
            beside(-way * 13.0),
            beside(way * 14.0 + inward * 13.0),
        ],
    });
}
