//! How far the hangers are apart, over the roof: each gap with its figure, and with its
//! limit where it breaks it.

use super::draw::{Colour, Side};
use crate::editor::canvas::labels::Weight;
use crate::editor::figures;
use crate::editor::theme::faded;
use crate::geometry::tolerance;
use crate::hanging::Window;
use crate::units::{Length, Precision, Quantity, Rounding};
use eframe::egui::{Align2, Pos2, Rect, Shape, Stroke, Vec2, pos2};

/// Height of the strip that the measures take, points.
pub(super) const STRIP: f32 = 18.0;

/// One gap along the tube.
struct Gap {
    from_m: f64,
    to_m: f64,
    limits: Window,
}

impl Gap {
    /// Whether it is too short or too long, and the limit that says so.
    fn fault(&self) -> Option<(&'static str, f64)> {
        let long = self.to_m - self.from_m;
        if long < self.limits.least_m - tolerance::LIMIT {
            Some(("at least", self.limits.least_m))
        } else if self.limits.greatest_m + tolerance::LIMIT < long {
            Some(("at most", self.limits.greatest_m))
        } else {
            None
        }
    }
}

impl Side<'_> {
    /// Flange to first hanger, hanger to hanger, last hanger to the tube's end.
    fn gaps(&self) -> Vec<Gap> {
        let rule = &self.study.rule;
        let hangers = &self.study.hanging.hangers;
        let mut marks = vec![0.0];
        marks.extend(hangers.iter().map(|it| it.at.station_m));
        marks.push(self.study.geometry.tube_length_m);
        let last = marks.len() - 2;
        marks
            .windows(2)
            .enumerate()
            .map(|(place, pair)| Gap {
                from_m: pair[0],
                to_m: pair[1],
                limits: match place {
                    0 => rule.first,
                    _ if place == last => Window {
                        least_m: 0.0,
                        greatest_m: rule.greatest_overhang_m,
                    },
                    1 => rule.second,
                    _ => rule.spacing,
                },
            })
            .collect()
    }

    pub(super) fn measures(&mut self) {
        if self.study.hanging.hangers.is_empty() {
            return;
        }
        let y = self.painter.clip_rect().top() + 6.0 + STRIP / 2.0;
        let axis = self.study.geometry.axis();
        let quiet = Stroke::new(0.8, self.roles.dimension_quiet);
        let x = |station: f64| self.scene.at(axis.point(station)).x;
        let gaps = self.gaps();
        let gaps: Vec<(Gap, f32, f32)> = gaps
            .into_iter()
            .map(|gap| {
                let (a, b) = (x(gap.from_m), x(gap.to_m));
                (gap, a, b)
            })
            .collect();
        for (hanger, (_, at, _)) in self.study.hanging.hangers.iter().zip(&gaps[1..]) {
            // Down to where it holds.
            let head = self.scene.at(hanger.at.attach);
            let line = Stroke::new(0.6, faded(self.roles.dimension_quiet, 0.5));
            self.painter
                .line_segment([pos2(*at, y + 4.0), pos2(head.x, head.y - 5.0)], line);
        }
        for (gap, a, b) in gaps {
            let fault = gap.fault();
            let stroke = match fault {
                Some(_) => Stroke::new(1.6, self.roles.breach),
                None => quiet,
            };
            let (from, to) = (pos2(a, y), pos2(b, y));
            self.painter.line_segment([from, to], stroke);
            for end in [from, to] {
                self.tick(end, stroke);
            }
            self.figure(&gap, from + (to - from) * 0.5, b - a, fault);
        }
    }

    /// The slanted stroke that ends a dimension (ISO 129-1).
    fn tick(&self, at: Pos2, stroke: Stroke) {
        let arm = Vec2::new(3.0, -3.0);
        self.painter.line_segment([at - arm, at + arm], stroke);
    }

    fn figure(&mut self, gap: &Gap, middle: Pos2, room: f32, fault: Option<(&str, f64)>) {
        let long = Length::metres(gap.to_m - gap.from_m);
        let Some((word, limit_m)) = fault else {
            // Less room than a figure takes: the ends say enough.
            if 30.0 <= room {
                let text = figures::bare_length(self.units, long);
                let places = vec![(middle, Align2::CENTER_CENTER)];
                self.label(text, Weight::Hanger, Colour::Quiet, places);
            }
            return;
        };
        let precision = Precision {
            decimals: 2,
            inch_parts: 4,
        };
        // Rounded away from the limit, or both would read the same.
        let away = if word == "at most" {
            Rounding::Up
        } else {
            Rounding::Down
        };
        let is = long.show_rounded(self.units, precision, away);
        let may = figures::length(self.units, Length::metres(limit_m));
        let text = format!("{is}, {word} {may}");
        let at = middle - Vec2::new(room / 2.0 - 9.0, 0.0);
        let corners = [(0.0, -6.0), (6.0, 4.5), (-6.0, 4.5)];
        let points = corners.map(|(x, y)| at + Vec2::new(x, y)).to_vec();
        self.painter.add(Shape::convex_polygon(
            points,
            self.roles.breach,
            Stroke::NONE,
        ));
        self.labels
            .keep_off(Rect::from_center_size(at, Vec2::splat(12.0)));
        let under = Vec2::new(0.0, 9.0);
        let places = vec![
            (middle + Vec2::new(5.0, 0.0), Align2::CENTER_CENTER),
            (middle + under, Align2::CENTER_TOP),
            (middle + Vec2::new(room / 2.0, 9.0), Align2::RIGHT_TOP),
            (middle + Vec2::new(-room / 2.0, 9.0), Align2::LEFT_TOP),
            (
                middle + Vec2::new(room / 2.0 + 8.0, 0.0),
                Align2::LEFT_CENTER,
            ),
        ];
        self.label(text, Weight::Breach, Colour::Breach, places);
    }
}
