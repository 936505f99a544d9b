//! Labels that never lie on each other: the important ones are placed first, each at
//! the first of its places that is free, and what finds no place is left out.

use eframe::egui::text::LayoutJob;
use eframe::egui::{Align, Align2, Color32, FontId, Galley, Painter, Pos2, Rect, Vec2};
use std::sync::Arc;

/// How much a label matters, most first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::editor) enum Weight {
    /// What is being drawn or moved.
    Drawn,
    /// Names of runs: a breach is said of one.
    Run,
    /// Breaches.
    Breach,
    /// Names of grid lines.
    Grid,
    /// Hangers.
    Hanger,
    /// Obstructions, work spots.
    Thing,
    /// Members.
    Steel,
}

/// A label that wants a place.
#[derive(Debug, Clone)]
pub(in crate::editor) struct Label {
    pub(in crate::editor) text: String,
    pub(in crate::editor) font: FontId,
    pub(in crate::editor) colour: Color32,
    /// Ground behind it, where it would lie on lines.
    pub(in crate::editor) ground: Option<Color32>,
    pub(in crate::editor) weight: Weight,
    /// Where it may stand, best first.
    pub(in crate::editor) places: Vec<(Pos2, Align2)>,
}

/// Cells of the index that finds what a label would lie on, points.
const CELL: f32 = 64.0;

/// What is taken on the canvas, and the labels that want a place.
#[derive(Debug, Default)]
pub(in crate::editor) struct Labels {
    wanted: Vec<Arc<Label>>,
    taken: Vec<Rect>,
    cells: std::collections::BTreeMap<(i32, i32), Vec<usize>>,
}

impl Labels {
    /// Asks for a place.
    pub(in crate::editor) fn want(&mut self, label: Label) {
        self.wanted.push(Arc::new(label));
    }

    /// Asks for places again for what asked before.
    pub(in crate::editor) fn want_again(&mut self, labels: &[Arc<Label>]) {
        self.wanted.extend(labels.iter().cloned());
    }

    /// What was asked for, to be asked for again.
    pub(in crate::editor) fn into_wanted(self) -> Vec<Arc<Label>> {
        self.wanted
    }

    /// Keeps labels away from something that is drawn.
    pub(in crate::editor) fn keep_off(&mut self, rect: Rect) {
        let place = self.taken.len();
        for cell in cells(rect) {
            self.cells.entry(cell).or_default().push(place);
        }
        self.taken.push(rect);
    }

    /// Whether nothing is there.
    pub(in crate::editor) fn is_free(&self, rect: Rect) -> bool {
        cells(rect).all(|cell| {
            self.cells.get(&cell).is_none_or(|there| {
                there
                    .iter()
                    .all(|place| !self.taken[*place].intersects(rect))
            })
        })
    }

    /// Places and paints what was asked for, inside `within`; how many found a place.
    pub(in crate::editor) fn paint(mut self, painter: &Painter, within: Rect) -> usize {
        let mut wanted = std::mem::take(&mut self.wanted);
        wanted.sort_by_key(|label| label.weight);
        let mut n_placed = 0;
        for label in wanted {
            let near = |(at, _): &(Pos2, Align2)| within.expand(80.0).contains(*at);
            if !label.places.iter().any(near) {
                continue;
            }
            let galley = centred(painter, &label);
            let size = galley.size();
            let found = label.places.iter().find_map(|(at, align)| {
                let rect = align.anchor_size(*at, size);
                let claimed = rect.expand2(Vec2::new(3.0, 1.0));
                (within.contains_rect(rect) && self.is_free(claimed)).then_some((rect, claimed))
            });
            if let Some((rect, claimed)) = found {
                if let Some(ground) = label.ground {
                    painter.rect_filled(rect.expand2(Vec2::new(2.0, 0.0)), 2.0, ground);
                }
                painter.galley(rect.center_top(), galley, label.colour);
                self.keep_off(claimed);
                n_placed += 1;
            }
        }
        n_placed
    }
}

/// The text laid out, each of its lines about its middle.
fn centred(painter: &Painter, label: &Label) -> Arc<Galley> {
    let mut job = LayoutJob::simple(
        label.text.clone(),
        label.font.clone(),
        label.colour,
        f32::INFINITY,
    );
    job.halign = Align::Center;
    painter.layout_job(job)
}

fn cells(rect: Rect) -> impl Iterator<Item = (i32, i32)> {
    let (from, to) = (cell(rect.min), cell(rect.max));
    (from.0..=to.0).flat_map(move |x| (from.1..=to.1).map(move |y| (x, y)))
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a float that is out of range becomes the nearest whole number"
)]
fn cell(at: Pos2) -> (i32, i32) {
    /// Farther off than any screen; keeps the number of cells of one rectangle small.
    const FAR: f32 = 200.0;
    let index = |value: f32| (value / CELL).floor().clamp(-FAR, FAR) as i32;
    (index(at.x), index(at.y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use eframe::egui::pos2;

    #[test]
    fn what_is_taken_stays_taken_across_cells() {
        let mut labels = Labels::default();
        labels.keep_off(Rect::from_min_max(pos2(60.0, 60.0), pos2(70.0, 70.0)));
        assert!(!labels.is_free(Rect::from_min_max(pos2(66.0, 66.0), pos2(200.0, 80.0))));
        assert!(labels.is_free(Rect::from_min_max(pos2(71.0, 60.0), pos2(200.0, 80.0))));
    }
}
