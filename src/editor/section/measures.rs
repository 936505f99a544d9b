//! The measures of a section: from grid line to run, heights, room, findings.

use super::draw::Drawing;
use crate::editor::canvas::dimension::{beside, dimension, keep_off_line};
use crate::editor::canvas::findings::{colour, mark_shapes, short};
use crate::editor::canvas::labels::Weight;
use crate::editor::canvas::pen::DASHED;
use crate::editor::figures;
use crate::editor::theme::TextSize;
use crate::findings::Severity;
use crate::geometry::DVec2;
use crate::site::ObjectId;
use crate::units::Length;
use crate::views::section::{Height, RoomSeen, words};
use eframe::egui::{Align2, Pos2, Rect, Stroke, Vec2, pos2};

impl Drawing<'_> {
    /// Below the floor: from grid line to run to grid line.
    pub(super) fn chain(&mut self) {
        let mut stops: Vec<f64> = self.section.grid.iter().map(|(u, _)| *u).collect();
        stops.extend(self.section.runs.iter().map(|run| run.at.x));
        stops.retain(|u| 0.0 <= *u && *u <= self.section.width_m);
        stops.sort_by(f64::total_cmp);
        stops.dedup_by(|a, b| (*a - *b).abs() < 0.005);
        let y = self.at(DVec2::ZERO).y + 24.0;
        let stroke = Stroke::new(1.0, self.roles.dimension_quiet);
        let xs: Vec<f32> = stops
            .iter()
            .map(|u| self.at(DVec2::new(*u, 0.0)).x)
            .collect();
        for x in &xs {
            let tick = [pos2(x - 3.0, y + 3.0), pos2(x + 3.0, y - 3.0)];
            self.painter
                .line_segment(tick, Stroke::new(1.4, stroke.color));
        }
        for (x, stop) in xs.windows(2).zip(stops.windows(2)) {
            self.painter
                .line_segment([pos2(x[0], y), pos2(x[1], y)], stroke);
            let apart = figures::bare_length(self.units, Length::metres(stop[1] - stop[0]));
            let galley = self.painter.layout_no_wrap(
                apart,
                TextSize::Small.font(),
                self.roles.dimension_quiet,
            );
            let middle = f32::midpoint(x[0], x[1]);
            if galley.size().x + 8.0 < x[1] - x[0] {
                let at = pos2(middle - galley.size().x / 2.0, y - galley.size().y - 1.0);
                self.labels.keep_off(Rect::from_min_size(at, galley.size()));
                self.painter.galley(at, galley, self.roles.dimension_quiet);
            }
        }
    }

    /// From the floor to the lowest part; what may be stacked below.
    pub(super) fn height(&mut self, height: &Height) {
        let axis = self.at(height.axis);
        // At the edge of the envelope, so that nothing of the run lies on it.
        let x = self.at(DVec2::new(height.stacking_from_to.0, 0.0)).x;
        let (foot, head) = (
            pos2(x, self.at(DVec2::ZERO).y),
            pos2(x, self.at(DVec2::new(0.0, height.lowest_m)).y),
        );
        self.dimension([foot, head], Stroke::new(1.0, self.roles.dimension_quiet));
        let hair = Stroke::new(0.7, self.roles.dimension_quiet);
        self.painter.hline(x - 5.0..=axis.x, head.y, hair);
        let quiet = self.small(self.roles.dimension_quiet);
        let places = [0.5_f32, 0.35, 0.65, 0.2, 0.8]
            .into_iter()
            .flat_map(|part| {
                let at = foot + (head - foot) * part;
                [
                    (at - Vec2::new(6.0, 0.0), Align2::RIGHT_CENTER),
                    (at + Vec2::new(14.0, 0.0), Align2::LEFT_CENTER),
                ]
            })
            .collect();
        let lowest = words::lowest(self.units, height);
        self.label(lowest, quiet, Weight::Hanger, places);
        let z = height.stacking.as_metres();
        if 0.0 < z {
            let (from, to) = height.stacking_from_to;
            let ends = [self.at(DVec2::new(from, z)), self.at(DVec2::new(to, z))];
            self.dashed(ends, Stroke::new(1.6, self.roles.caution), DASHED);
            let middle = ends[0] + (ends[1] - ends[0]) * 0.5;
            let places = vec![
                (middle + Vec2::new(0.0, 3.0), Align2::CENTER_TOP),
                (middle - Vec2::new(0.0, 3.0), Align2::CENTER_BOTTOM),
                (ends[1] + Vec2::new(5.0, 0.0), Align2::LEFT_CENTER),
                (ends[0] - Vec2::new(5.0, 0.0), Align2::RIGHT_CENTER),
                (middle + Vec2::new(0.0, 18.0), Align2::CENTER_TOP),
            ];
            let look = self.small(self.roles.caution);
            let said = words::stacking(self.units, height);
            self.label(said, look, Weight::Run, places);
        }
        let name = words::height(self.units, height);
        let look = self.bold(self.roles.run_text);
        let away = Vec2::new(26.0, 0.0);
        let places = [10.0, 24.0, -14.0, -28.0, 38.0]
            .into_iter()
            .flat_map(|down| {
                let at = axis + Vec2::new(0.0, down);
                [
                    (at + away, Align2::LEFT_CENTER),
                    (at - away, Align2::RIGHT_CENTER),
                ]
            })
            .collect();
        self.label(name, look, Weight::Run, places);
    }

    /// The room in a direction: of the picked run, and where little is to spare, with what
    /// it is to and what is needed; else the figure alone.
    pub(super) fn room(&mut self, seen: &RoomSeen) {
        let room = &seen.room;
        let id = ObjectId::Run(seen.run.clone());
        let is_picked = self.editor.selection.has(&id);
        let is_breach = room.is_breach();
        let colour = if is_breach {
            self.roles.breach
        } else if is_picked || room.is_tight() {
            self.roles.dimension
        } else {
            self.roles.dimension_quiet
        };
        let ends = [self.at(seen.from), self.at(seen.to)];
        let stroke = Stroke::new(if is_breach { 1.8 } else { 1.0 }, colour);
        self.dimension(ends, stroke);
        keep_off_line(&mut self.labels, ends);
        let contact = self.at(seen.contact);
        if 3.0 < (contact - ends[1]).length() {
            let aside = [ends[1], contact];
            self.painter.line_segment(aside, Stroke::new(0.7, colour));
            keep_off_line(&mut self.labels, aside);
        }
        self.painter.circle_filled(contact, 2.0, colour);
        let site = self.editor.site();
        let told = if is_picked || room.is_tight() {
            words::room_to(site, room)
        } else {
            words::available(self.units, room)
        };
        let said = match words::inside(self.units, room) {
            Some(inside) => format!("{told}\n{inside}"),
            None => told,
        };
        let (look, weight) = if is_breach {
            (self.bold(colour), Weight::Breach)
        } else if is_picked || room.is_tight() {
            (self.small(colour), Weight::Hanger)
        } else {
            (self.small(colour), Weight::Steel)
        };
        // Beside what of the line is in view.
        let view = self.painter.clip_rect();
        if !view.intersects(Rect::from_two_pos(ends[0], ends[1])) {
            return;
        }
        self.label(said, look, weight, beside(ends.map(|end| view.clamp(end))));
    }

    /// A dimension line.
    fn dimension(&self, ends: [Pos2; 2], stroke: Stroke) {
        let mut shapes = Vec::new();
        dimension(&mut shapes, ends, stroke);
        self.painter.extend(shapes);
    }

    /// Marks where something is amiss: shape, colour and words together.
    pub(super) fn findings(&mut self) {
        let findings = self.editor.results.findings();
        for (index, place) in &self.section.findings {
            let Some(finding) = findings.get(*index) else {
                continue;
            };
            let at = self.at(*place);
            if !self.painter.clip_rect().contains(at) {
                continue;
            }
            let colour = colour(self.roles, finding.severity);
            let size = Vec2::splat(18.0);
            let around = [
                Vec2::ZERO,
                Vec2::new(15.0, -14.0),
                Vec2::new(-15.0, -14.0),
                Vec2::new(15.0, 14.0),
                Vec2::new(-15.0, 14.0),
                Vec2::new(0.0, -24.0),
                Vec2::new(30.0, 0.0),
                Vec2::new(-30.0, 0.0),
            ];
            let free = around
                .iter()
                .map(|by| at + *by)
                .find(|at| self.labels.is_free(Rect::from_center_size(*at, size)));
            let Some(stand) = free else {
                continue;
            };
            if stand != at {
                self.painter
                    .line_segment([at, stand], Stroke::new(1.0, colour));
                self.painter.circle_filled(at, 1.8, colour);
            }
            self.painter
                .extend(mark_shapes(finding, stand, colour, self.roles.ground));
            self.labels.keep_off(Rect::from_center_size(stand, size));
            if finding.severity == Severity::Breach {
                let look = self.small(colour);
                let text = short(self.editor, finding);
                let off = 12.0;
                let places = vec![
                    (stand + Vec2::new(off, 0.0), Align2::LEFT_CENTER),
                    (stand - Vec2::new(off, 0.0), Align2::RIGHT_CENTER),
                    (stand - Vec2::new(0.0, off), Align2::CENTER_BOTTOM),
                    (stand + Vec2::new(0.0, off), Align2::CENTER_TOP),
                ];
                self.label(text, look, Weight::Breach, places);
            }
        }
    }
}
