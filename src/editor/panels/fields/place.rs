//! Where a thing is, as a crew reads it: from the nearest grid line of each direction,
//! or from the origin where there are none.

use crate::editor::widgets::Form;
use crate::geometry::DVec2;
use crate::site::GridLine;
use crate::site::grid::{families, nearest, offset_from};
use crate::units::Length;
use eframe::egui::Ui;
use std::sync::Arc;

/// The fields of a place. Grid lines are those nearest to the first subject; a typed
/// distance moves each subject square to its line.
pub(in crate::editor::panels) fn place_fields_ui<T: Clone>(
    ui: &mut Ui,
    form: &mut Form<'_, T>,
    grid: &[Arc<GridLine>],
    first: DVec2,
    read: impl Fn(&T) -> DVec2,
    write: impl Fn(&mut T, DVec2),
) {
    let lines: Vec<Measured> = families(grid)
        .into_iter()
        .take(2)
        .filter_map(|family| Measured::nearest(family, first))
        .collect();
    let [one, other] = lines.as_slice() else {
        form.pair(
            ui,
            "At",
            ["East", "North"],
            ["E", "N"],
            |it, axis| Length::metres(read(it)[axis]),
            |it, axis, to: Length| {
                let mut at = read(it);
                at[axis] = to.as_metres();
                write(it, at);
            },
        );
        return;
    };
    let measured = [one, other];
    form.pair(
        ui,
        "At",
        [
            &format!("From {}", one.line.id),
            &format!("From {}", other.line.id),
        ],
        [one.line.id.as_str(), other.line.id.as_str()],
        |it, which| Length::metres(measured[which].offset(read(it))),
        |it, which, to: Length| {
            let measured = measured[which];
            let offset = |at| measured.offset(at);
            write(it, moved(read(it), &measured.line, offset, to.as_metres()));
        },
    );
}

/// A grid line that is measured from, with the others of its direction.
struct Measured {
    family: Vec<Arc<GridLine>>,
    line: Arc<GridLine>,
}

impl Measured {
    /// The line of a family that is nearest to a point.
    fn nearest(family: Vec<Arc<GridLine>>, at: DVec2) -> Option<Self> {
        let found = nearest(&family, at)?;
        let line = family.iter().find(|line| line.id == found.line).cloned()?;
        Some(Self { family, line })
    }

    fn offset(&self, at: DVec2) -> f64 {
        offset_from(&self.family, &self.line, at).offset_m
    }
}

/// The point at another offset from a line, straight across it.
fn moved(at: DVec2, line: &GridLine, offset: impl Fn(DVec2) -> f64, to_m: f64) -> DVec2 {
    let across = line.direction().perp();
    // Which way offsets grow is the lettering's business, not the line's.
    let grows = if offset(at + across) > offset(at) {
        1.0
    } else {
        -1.0
    };
    at + across * grows * (to_m - offset(at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_offset_is_met_and_the_other_direction_stays() {
        let line = |id: &str, from: (f64, f64), to: (f64, f64)| {
            Arc::new(GridLine {
                id: id.into(),
                from: from.into(),
                to: to.into(),
                notes: String::new(),
            })
        };
        // Lettered against the way that the lines were drawn, and out of square.
        let family = [
            line("A", (30.0, 1.0), (0.0, 0.0)),
            line("B", (0.0, 12.0), (30.0, 13.0)),
        ];
        let at = DVec2::new(7.0, 3.0);
        let offset = |at: DVec2| offset_from(&family, &family[0], at).offset_m;
        for to_m in [-2.0, 0.0, 4.25] {
            let found = moved(at, &family[0], offset, to_m);
            assert!((offset(found) - to_m).abs() < 1e-12);
            let along = family[0].direction();
            assert!((found - at).dot(along).abs() < 1e-12);
        }
    }
}
