//! Bays and the openings in their walls.

use super::pen::{DASHED, LONG_DASH_DOUBLE_DOT, Pen};
use crate::editor::extent::{jambs, wall};
use crate::editor::stage::Stage;
use crate::geometry::DVec2;
use crate::geometry::polygon::signed_area;
use crate::site::{Bay, Opening, OpeningKind, Site};
use crate::structure::{DoorPart, door_space};
use eframe::egui::Stroke;

/// Thickness of a wall on the screen, points.
const WALL: f32 = 3.0;

/// The floors.
pub(super) fn floors(pen: &mut Pen<'_>, site: &Site) {
    for bay in &site.bays {
        pen.fill(&bay.outline, &bay.holes, pen.roles.floor);
    }
}

/// The walls. A gap in a wall (an opening) is drawn over it.
pub(super) fn walls(pen: &mut Pen<'_>, site: &Site, stage: Stage) {
    let thickness = if stage == Stage::Shell {
        WALL + 1.0
    } else {
        WALL
    };
    let stroke = Stroke::new(thickness, pen.roles.wall);
    for bay in &site.bays {
        if bay.open_edges.is_empty() {
            pen.closed(&bay.outline, stroke);
        } else {
            for edge in 0..bay.outline.len() {
                let Some((a, b)) = wall(bay, edge) else {
                    continue;
                };
                if bay.open_edges.contains(&edge) {
                    pen.dashed(a, b, Stroke::new(1.0, pen.roles.wall), DASHED);
                } else {
                    pen.line(a, b, stroke);
                }
            }
        }
        for hole in &bay.holes {
            pen.closed(hole, stroke);
        }
    }
}

/// The openings, doors with the space that they take when they stand open.
pub(super) fn openings(pen: &mut Pen<'_>, site: &Site) {
    for opening in &site.openings {
        let bay = site.bays.iter().find(|bay| bay.id == opening.bay);
        if let Some(bay) = bay
            && let Some((a, b)) = jambs(opening, bay)
        {
            draw_opening(pen, opening, bay, a, b);
        }
    }
}

/// Unit vector from a wall into its bay.
pub(super) fn inward(bay: &Bay, a: DVec2, b: DVec2) -> DVec2 {
    let left = (b - a).normalize_or(DVec2::X).perp();
    if signed_area(&bay.outline) < 0.0 {
        -left
    } else {
        left
    }
}

fn draw_opening(pen: &mut Pen<'_>, opening: &Opening, bay: &Bay, a: DVec2, b: DVec2) {
    let colour = pen.roles.opening;
    let thin = Stroke::new(1.0, colour);
    let inward = inward(bay, a, b);
    // The gap, then its two faces and its jambs.
    pen.line(a, b, Stroke::new(WALL + 2.0, pen.roles.floor));
    let half = pen.camera.site_length(WALL / 2.0 + 0.5);
    for side in [inward * half, -inward * half] {
        pen.line(a + side, b + side, thin);
    }
    let jamb = inward * pen.camera.site_length(WALL + 1.0);
    for end in [a, b] {
        pen.line(end - jamb, end + jamb, Stroke::new(1.5, colour));
    }
    if opening.kind == OpeningKind::Window {
        pen.line(a, b, thin);
    }
    for leaf in door_space(bay, opening) {
        for part in [DoorPart::Travel, DoorPart::Open] {
            let ring = leaf.plan(part);
            if pen.sees(&ring) {
                pen.closed_dashed(&ring, thin, LONG_DASH_DOUBLE_DOT);
            }
        }
    }
}
