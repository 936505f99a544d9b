//! One family of icons: round-ended strokes of one weight on a grid of 24, drawn as
//! shapes so that they are sharp at any size and take the ink of their surroundings.

mod drawing;

use eframe::egui;
use egui::epaint::{CircleShape, PathShape, PathStroke};
use egui::{Color32, Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, Vec2};

/// An icon.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "an icon's name is its meaning")]
pub enum Icon {
    // Stages, in the order of the job.
    Shell,
    Steel,
    Obstructions,
    Runs,
    Sheets,
    // Tools.
    Select,
    DrawBay,
    GridLine,
    Opening,
    Framing,
    Box,
    WorkSpot,
    PlaceRun,
    SectionLine,
    Repeat,
    TurnEnd,
    Rotate,
    Lock,
    Measure,
    // Acts.
    Undo,
    Redo,
    Close,
    Down,
    Right,
    Light,
    Folder,
    // On the plan and in tables.
    Channel,
    // Severities: shape and colour together, and never one without the other.
    Breach,
    Caution,
    Note,
}

impl Icon {
    /// All icons.
    pub const ALL: &'static [Self] = &[
        Self::Shell,
        Self::Steel,
        Self::Obstructions,
        Self::Runs,
        Self::Sheets,
        Self::Select,
        Self::DrawBay,
        Self::GridLine,
        Self::Opening,
        Self::Framing,
        Self::Box,
        Self::WorkSpot,
        Self::PlaceRun,
        Self::SectionLine,
        Self::Repeat,
        Self::TurnEnd,
        Self::Rotate,
        Self::Lock,
        Self::Measure,
        Self::Undo,
        Self::Redo,
        Self::Close,
        Self::Down,
        Self::Right,
        Self::Light,
        Self::Folder,
        Self::Channel,
        Self::Breach,
        Self::Caution,
        Self::Note,
    ];

    /// Draws it into the largest square in the middle of `rect`.
    pub fn paint(self, painter: &Painter, rect: Rect, colour: Color32) {
        let side = rect.width().min(rect.height());
        let square = Rect::from_center_size(rect.center(), Vec2::splat(side));
        painter.extend(self.shapes(square, colour));
    }

    /// Its shapes in a square.
    pub(crate) fn shapes(self, square: Rect, colour: Color32) -> Vec<Shape> {
        let unit = square.width() / drawing::GRID;
        // Large icons would look fat, small ones thin, if weight grew with size.
        let weight = (1.6 * unit).clamp(1.2, 2.0);
        let at = |(x, y): (f32, f32)| -> Pos2 { square.min + egui::vec2(x, y) * unit };
        let stroke = Stroke::new(weight, colour);
        drawing::parts(self)
            .iter()
            .map(|part| match *part {
                drawing::Part::Open(points) => {
                    Shape::line(points.iter().copied().map(at).collect(), stroke)
                }
                drawing::Part::Closed(points) => {
                    Shape::closed_line(points.iter().copied().map(at).collect(), stroke)
                }
                drawing::Part::Filled(points) => Shape::Path(PathShape {
                    points: points.iter().copied().map(at).collect(),
                    closed: true,
                    fill: colour,
                    stroke: PathStroke::NONE,
                }),
                drawing::Part::Ring(centre, radius) => {
                    Shape::Circle(CircleShape::stroke(at(centre), radius * unit, stroke))
                }
                drawing::Part::Dot(centre, radius) => {
                    Shape::Circle(CircleShape::filled(at(centre), radius * unit, colour))
                }
            })
            .collect()
    }

    /// Shows it as a picture that stands beside words which say the same; it has no
    /// name of its own and takes no clicks.
    pub fn show(self, ui: &mut Ui, side: f32, colour: Color32) -> Response {
        let (rect, response) = ui.allocate_exact_size(Vec2::splat(side), Sense::hover());
        self.paint(ui.painter(), rect, colour);
        response
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_icon_is_drawn_and_stays_on_its_grid() {
        for icon in Icon::ALL {
            let parts = drawing::parts(*icon);
            assert!(!parts.is_empty(), "{icon:?}");
            for part in parts {
                for (x, y) in part.reach() {
                    assert!((1.0..=23.0).contains(&x), "{icon:?}: x {x}");
                    assert!((1.0..=23.0).contains(&y), "{icon:?}: y {y}");
                }
            }
        }
    }

    #[test]
    fn no_two_icons_look_alike() {
        for (k, one) in Icon::ALL.iter().enumerate() {
            for other in &Icon::ALL[k + 1..] {
                assert_ne!(
                    drawing::parts(*one),
                    drawing::parts(*other),
                    "{one:?} {other:?}"
                );
            }
        }
    }
}
