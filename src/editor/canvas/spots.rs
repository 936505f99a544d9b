//! Work spots.

use super::labels::{Label, Labels, Weight};
use super::pen::Pen;
use crate::editor::theme::TextSize;
use crate::site::Site;
use eframe::egui::{Align2, Shape, Stroke, Vec2};

/// The spots: a head and shoulders in a ring, and their names.
pub(super) fn spots(pen: &mut Pen<'_>, labels: &mut Labels, site: &Site) {
    let stroke = Stroke::new(1.4, pen.roles.work_spot);
    for spot in &site.work_spots {
        if !pen.sees(&[spot.at]) {
            continue;
        }
        let at = pen.at(spot.at);
        pen.add(Shape::circle_filled(at, 8.0, pen.roles.ground));
        pen.add(Shape::circle_stroke(at, 8.0, stroke));
        pen.add(Shape::circle_filled(
            at - Vec2::new(0.0, 2.0),
            2.2,
            pen.roles.work_spot,
        ));
        let shoulders = [(-3.5, 4.0), (-2.0, 1.8), (2.0, 1.8), (3.5, 4.0)]
            .map(|(x, y)| at + Vec2::new(x, y))
            .to_vec();
        pen.add(Shape::line(shoulders, stroke));
        let named = if spot.name.is_empty() {
            spot.id.to_string()
        } else {
            spot.name.clone()
        };
        labels.want(Label {
            text: named,
            font: TextSize::Small.font(),
            colour: pen.roles.work_spot,
            ground: Some(pen.roles.label_ground),
            weight: Weight::Thing,
            places: vec![
                (at + Vec2::new(12.0, 0.0), Align2::LEFT_CENTER),
                (at - Vec2::new(12.0, 0.0), Align2::RIGHT_CENTER),
                (at + Vec2::new(0.0, 11.0), Align2::CENTER_TOP),
            ],
        });
    }
}
