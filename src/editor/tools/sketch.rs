//! What a tool is told, what it keeps between frames, and what it shows.

use crate::editor::Editor;
use crate::editor::camera::Camera;
use crate::geometry::DVec2;
use crate::structure::Member;
use std::sync::Arc;

/// What the user did on the plan, in site space, already snapped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Act {
    /// The button went down here and began to drag.
    Press(DVec2),
    /// The pointer is here; with the button down after a press.
    Move(DVec2),
    /// The button went up here after a drag.
    Release(DVec2),
    /// A click here.
    Click(DVec2),
    /// Enter, or a double click: what is drawn is complete.
    Finish,
}

/// What is half drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Sketch {
    /// Points that are placed.
    pub(crate) points: Vec<DVec2>,
    /// Where the button went down, while it is down.
    pub(crate) pressed: Option<DVec2>,
    /// The line that was made last, from which a typed spacing counts on.
    pub(crate) last: Option<(DVec2, DVec2)>,
}

impl Sketch {
    /// Where the piece that is being drawn begins.
    pub(crate) fn from(&self) -> Option<DVec2> {
        self.pressed.or(self.points.last().copied())
    }

    /// Whether nothing has been drawn.
    pub(crate) fn is_empty(&self) -> bool {
        self.points.is_empty() && self.pressed.is_none()
    }
}

/// What a tool reads.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stand<'a> {
    pub(crate) editor: &'a Editor,
    pub(crate) camera: &'a Camera,
    pub(crate) members: &'a [Arc<Member>],
    /// What has been typed while drawing, as far as it can be read.
    pub(crate) typed: Typed,
}

/// Numbers typed while drawing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Typed {
    /// The first, as a length in m.
    pub(crate) first_m: Option<f64>,
    /// The second, behind an `x`, as a length in m.
    pub(crate) second_m: Option<f64>,
    /// The first, as a plain number: a bearing, a count.
    pub(crate) plain: Option<f64>,
}

/// What a tool shows of what it is about to make.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Ghost {
    /// Lines, each closed or not.
    pub(crate) lines: Vec<(Vec<DVec2>, Form)>,
    /// Lengths to be written beside lines.
    pub(crate) measures: Vec<Measure>,
    /// What a click or Enter would do.
    pub(crate) hint: String,
    /// What the object settles on, beside what the pointer catches on.
    pub(crate) settles: Option<String>,
}

/// How a line of a ghost is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// From the first point to the last.
    Open,
    /// Back to the first point, with a light fill.
    Closed,
    /// A row of dots: what follows from what is drawn.
    Light,
}

/// A length beside a line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Measure {
    /// One end.
    pub(crate) a: DVec2,
    /// The other end.
    pub(crate) b: DVec2,
    /// The figure.
    pub(crate) text: String,
}

impl Ghost {
    pub(crate) fn hint(hint: impl Into<String>) -> Self {
        Self {
            hint: hint.into(),
            ..Self::default()
        }
    }

    /// A measured side.
    pub(crate) fn measure(&mut self, stand: &Stand<'_>, a: DVec2, b: DVec2) {
        let length = crate::units::Length::metres((b - a).length());
        if 1e-3 < length.as_metres() {
            self.measures.push(Measure {
                a,
                b,
                text: crate::editor::figures::length(stand.editor.site().units, length),
            });
        }
    }
}

/// The end of a piece that begins at `from`: at the pointer, or as far toward it as was
/// typed.
pub(crate) fn constrained(from: DVec2, to: DVec2, typed: &Typed) -> DVec2 {
    match typed.first_m {
        Some(length_m) => from + (to - from).normalize_or(DVec2::X) * length_m,
        None => to,
    }
}

/// The far corner of a rectangle that begins at `from`: at the pointer, or as wide and
/// as deep toward it as was typed.
pub(crate) fn far_corner(from: DVec2, to: DVec2, typed: &Typed) -> DVec2 {
    let sign = |value: f64| if value < 0.0 { -1.0 } else { 1.0 };
    DVec2::new(
        typed
            .first_m
            .map_or(to.x, |width| from.x + width * sign(to.x - from.x)),
        typed
            .second_m
            .map_or(to.y, |depth| from.y + depth * sign(to.y - from.y)),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_numbers_replace_what_the_pointer_says() {
        let from = DVec2::new(1.0, 1.0);
        let both = Typed {
            first_m: Some(10.0),
            second_m: Some(4.0),
            plain: None,
        };
        assert_eq!(
            far_corner(from, DVec2::new(-3.0, 9.0), &both),
            DVec2::new(-9.0, 5.0)
        );
        let one = Typed {
            second_m: None,
            ..both
        };
        assert_eq!(
            far_corner(from, DVec2::new(3.0, 9.0), &one),
            DVec2::new(11.0, 9.0)
        );
        assert_eq!(
            constrained(from, DVec2::new(1.0, 3.0), &one),
            DVec2::new(1.0, 11.0)
        );
    }
}
