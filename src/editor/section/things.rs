//! What is cut and what is seen of the building and of what stands in it.

use super::draw::Drawing;
use crate::editor::canvas::labels::Weight;
use crate::editor::canvas::pen::{DASHED, LONG_DASH_DOT, LONG_DASH_DOUBLE_DOT};
use crate::editor::figures;
use crate::editor::theme::{TextSize, faded};
use crate::geometry::DVec2;
use crate::site::ObstructionKind;
use crate::study::Thing;
use crate::units::Length;
use crate::views::section::{Cut, Seen, words};
use eframe::egui::{Align2, Pos2, Rect, Stroke, Vec2, pos2};

/// Radius of a grid line's bubble, points.
const BUBBLE: f32 = 11.0;

impl Drawing<'_> {
    /// Seen behind the plane: light, the nearer hiding the farther.
    pub(super) fn seen(&self, it: &Seen) {
        let ground = match it.thing {
            Thing::Obstruction(_) => self.roles.obstruction_fill,
            _ => self.roles.floor,
        };
        for area in &it.areas {
            self.fill(area, ground);
            if let Thing::Run(_) = it.thing {
                self.fill(area, faded(self.roles.run, 0.10));
            }
        }
        let colour = match it.thing {
            Thing::Run(_) => faded(self.roles.run, 0.55),
            Thing::Member(_) => self.roles.member_quiet,
            _ => faded(self.roles.obstruction, 0.55),
        };
        for ends in &it.lines {
            self.line(*ends, Stroke::new(0.7, colour));
        }
        for ends in &it.outline {
            self.line(*ends, Stroke::new(1.0, colour));
        }
    }

    pub(super) fn envelopes(&self) {
        for it in &self.section.envelopes {
            let is_breached = self
                .section
                .rooms
                .iter()
                .any(|room| room.run == it.run && room.room.is_breach());
            let colour = if is_breached {
                self.roles.breach
            } else {
                self.roles.envelope
            };
            for area in &it.areas {
                self.hatched(area, faded(colour, 0.22));
            }
            for (a, b) in &it.outline {
                let ends = [self.at(*a), self.at(*b)];
                self.dashed(ends, Stroke::new(1.2, colour), DASHED);
            }
        }
    }

    pub(super) fn cut(&self, it: &Cut) {
        let (ground, hatch, stroke) = match (it.kind, &it.thing) {
            (Some(_), _) => (
                self.roles.obstruction_fill,
                Some(self.roles.obstruction_hatch),
                Stroke::new(1.4, self.roles.obstruction_text),
            ),
            (None, Thing::Member(_)) => (
                self.roles.steel_fill,
                None,
                Stroke::new(1.4, self.roles.steel),
            ),
            (None, _) => (
                self.roles.steel_fill,
                Some(self.roles.obstruction_hatch),
                Stroke::new(2.2, self.roles.wall),
            ),
        };
        for area in &it.areas {
            self.fill(area, ground);
            if let Some(hatch) = hatch {
                self.hatched(area, hatch);
            }
        }
        let passes = matches!(
            it.kind,
            Some(
                ObstructionKind::CraneTravel
                    | ObstructionKind::DoorTravel
                    | ObstructionKind::HazardZone
                    | ObstructionKind::Aircraft
            )
        );
        for (a, b) in &it.outline {
            let ends = [self.at(*a), self.at(*b)];
            if passes {
                self.dashed(ends, stroke, LONG_DASH_DOUBLE_DOT);
            } else {
                self.painter.line_segment(ends, stroke);
            }
        }
    }

    pub(super) fn floor(&self) {
        let (a, b) = (
            self.at(DVec2::ZERO),
            self.at(DVec2::new(self.section.width_m, 0.0)),
        );
        let strip = Rect::from_min_max(a, b + Vec2::new(0.0, 7.0));
        let to = |p: Pos2| self.camera.side_from_screen(p);
        let ring = [
            to(strip.left_bottom()),
            to(strip.right_bottom()),
            to(strip.right_top()),
            to(strip.left_top()),
        ];
        self.hatched(&ring, self.roles.obstruction);
        self.painter
            .line_segment([a, b], Stroke::new(2.4, self.roles.wall));
    }

    pub(super) fn grid(&mut self) {
        let top = self.at(DVec2::new(0.0, self.section.top_m)).y - 12.0;
        let bottom = self.at(DVec2::ZERO).y + 34.0;
        let stroke = Stroke::new(1.0, self.roles.grid);
        for (u, id) in &self.section.grid {
            let x = self.at(DVec2::new(*u, 0.0)).x;
            self.dashed([pos2(x, top), pos2(x, bottom)], stroke, LONG_DASH_DOT);
            let centre = pos2(x, top - BUBBLE);
            let rect = Rect::from_center_size(centre, Vec2::splat(2.0 * BUBBLE));
            if !self.labels.is_free(rect) {
                continue;
            }
            self.labels.keep_off(rect);
            self.painter
                .circle_filled(centre, BUBBLE, self.roles.ground);
            self.painter
                .circle_stroke(centre, BUBBLE, Stroke::new(1.0, self.roles.grid_text));
            self.painter.text(
                centre,
                Align2::CENTER_CENTER,
                id.as_str(),
                TextSize::Small.font(),
                self.roles.grid_text,
            );
        }
    }

    /// Names of what is cut.
    pub(super) fn names(&mut self) {
        let section = self.section;
        for it in &section.cut {
            if it.kind.is_none() {
                continue;
            }
            let name = words::thing(self.editor.site(), &it.thing);
            let points: Vec<Pos2> = it.areas.iter().flat_map(|area| self.ring(area)).collect();
            let rect = Rect::from_points(&points);
            let high = it.areas.iter().flatten().map(|p| p.y).fold(0.0, f64::max);
            let top = figures::length(self.units, Length::metres(high));
            let places = vec![
                (rect.center(), Align2::CENTER_CENTER),
                (rect.center_top() + Vec2::new(0.0, 4.0), Align2::CENTER_TOP),
                (
                    rect.center_top() - Vec2::new(0.0, 4.0),
                    Align2::CENTER_BOTTOM,
                ),
                (
                    rect.center_bottom() - Vec2::new(0.0, 6.0),
                    Align2::CENTER_BOTTOM,
                ),
                (
                    rect.right_center() + Vec2::new(5.0, 0.0),
                    Align2::LEFT_CENTER,
                ),
                (
                    rect.left_center() - Vec2::new(5.0, 0.0),
                    Align2::RIGHT_CENTER,
                ),
            ];
            let look = self.small(self.roles.obstruction_text);
            self.label(format!("{name}\ntop {top}"), look, Weight::Thing, places);
        }
    }
}
