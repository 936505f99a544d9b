//! The run and its surroundings as seen from the side, and how large they are drawn.

use super::below::{Solid, solids};
use super::drag::Drag;
use crate::clearance::Part;
use crate::editor::Editor;
use crate::editor::camera::SideCamera;
use crate::geometry::polygon::Polygon;
use crate::geometry::{Bounds, DVec2, DVec3};
use crate::site::Site;
use crate::structure::Member;
use crate::study::RunStudy;
use eframe::egui::{Pos2, Rect};
use std::sync::Arc;

/// A member where the run passes under it.
#[derive(Debug, Clone)]
pub(super) struct Crossing {
    pub(super) member: Arc<Member>,
    /// Station of the run's plan axis there, m.
    pub(super) station_m: f64,
    /// Width of its section along the run, m.
    pub(super) width_m: f64,
    /// Its top and underside there, m.
    pub(super) top_m: f64,
    pub(super) underside_m: f64,
}

/// Everything that is drawn.
#[derive(Debug)]
pub(super) struct Scene {
    pub(super) camera: SideCamera,
    /// Unit vector in plan along the run, and where station 0 is.
    heading: DVec2,
    flange: DVec2,
    /// Underside of the deck: station and elevation, m.
    pub(super) roof: Vec<DVec2>,
    pub(super) crossings: Vec<Crossing>,
    pub(super) solids: Vec<Solid>,
    /// Outline of the keep-clear envelope: stations and elevations.
    pub(super) envelope: Vec<DVec2>,
}

/// Members within this angle of the run are not cut by it but lie along it, sine.
const ALONG: f64 = 0.26;

impl Scene {
    pub(super) fn new(editor: &Editor, study: &RunStudy, drag: Option<&Drag>, room: Rect) -> Self {
        let geometry = &study.geometry;
        let site = editor.site();
        let (heading, flange) = (geometry.heading, geometry.flange.truncate());
        let envelope = side_outline(study);
        let body_from = study
            .clearance
            .bodies
            .bodies
            .iter()
            .filter(|body| body.part == Part::Burner)
            .map(|body| body.local.low.x)
            .fold(0.0, f64::min);
        let reach = |pick: fn(f64, f64) -> f64, start: f64, axis: fn(&DVec2) -> f64| {
            envelope.iter().map(axis).fold(start, pick)
        };
        let from = reach(f64::min, body_from, |p| p.x) - 0.3;
        let to = reach(f64::max, geometry.tube_length_m, |p| p.x) + 0.3;
        let roof = roof_line(site, flange, heading, from, to);
        let crossings = crossings(editor.members(), flange, heading, from, to);
        let solids = solids(editor, study, flange, heading, (from, to));
        let lowest = reach(f64::min, geometry.flange.z - 1.0, |p| p.y);
        let top = roof
            .iter()
            .map(|p| p.y)
            .fold(geometry.flange.z + 0.5, f64::max);
        // What stands below is shown as far as it matters: its top, not the whole way
        // down to the floor.
        let below = solids
            .iter()
            .map(|solid| solid.top_m)
            .filter(|z| *z < lowest && lowest - 1.2 < *z)
            .fold(lowest, f64::min);
        let least = DVec2::new(from, below - 0.35);
        let greatest = DVec2::new(to, top + 0.3);
        let camera = match drag {
            // The scale stays while something is dragged, or it would run from the hand.
            Some(drag) => drag.camera,
            None => SideCamera::fitting(least, greatest, room),
        };
        Self {
            camera,
            heading,
            flange,
            roof,
            crossings,
            solids,
            envelope,
        }
    }

    /// The station abreast of a plan point, along the plan axis.
    pub(super) fn station(&self, point: DVec2) -> f64 {
        (point - self.flange).dot(self.heading)
    }

    /// A point in space, on the screen.
    pub(super) fn at(&self, point: DVec3) -> Pos2 {
        self.camera
            .screen_from_side(self.station(point.truncate()), point.z)
    }

    /// The plan point on the run's axis that a place of the screen is abreast of.
    pub(super) fn plan_at(&self, at: Pos2) -> DVec2 {
        self.flange + self.heading * self.camera.station_from_screen(at.x)
    }

    /// Unit vector in plan along the run.
    pub(super) fn heading(&self) -> DVec2 {
        self.heading
    }
}

/// The envelope's boxes from the side: station by station as high and as low as any
/// reaches there.
fn side_outline(study: &RunStudy) -> Vec<DVec2> {
    let bodies = &study.clearance.bodies;
    let turned: Vec<Bounds> = study
        .clearance
        .envelope
        .iter()
        .map(|it| Bounds {
            low: crate::geometry::DVec3::new(it.low.x, it.low.z, 0.0),
            high: crate::geometry::DVec3::new(it.high.x, it.high.z, 0.0),
        })
        .collect();
    crate::editor::canvas::runs::stepped(&turned)
        .into_iter()
        .map(|(s, u)| {
            let at = bodies
                .frame
                .site_from_local(crate::geometry::DVec3::new(s, 0.0, u));
            let plan = at.truncate() - study.geometry.flange.truncate();
            DVec2::new(plan.dot(study.geometry.heading), at.z)
        })
        .collect()
}

/// The underside of the deck along the run, bay by bay.
fn roof_line(site: &Site, flange: DVec2, heading: DVec2, from: f64, to: f64) -> Vec<DVec2> {
    /// Pieces of the line: enough that a ridge is no blunter than its stroke.
    const PIECES: u32 = 120;
    let bays: Vec<(Polygon, crate::site::bay::RoofPlanes)> = site
        .bays
        .iter()
        .map(|bay| {
            let polygon = Polygon {
                outline: bay.outline.clone(),
                holes: bay.holes.clone(),
            };
            (polygon, bay.roof_planes())
        })
        .collect();
    (0..=PIECES)
        .filter_map(|piece| {
            let station = from + (to - from) * f64::from(piece) / f64::from(PIECES);
            let at = flange + heading * station;
            let (_, roof) = bays.iter().find(|(polygon, _)| polygon.contains(at))?;
            Some(DVec2::new(station, roof.elevation_at(at)))
        })
        .collect()
}

fn crossings(
    members: &[Arc<Member>],
    flange: DVec2,
    heading: DVec2,
    from: f64,
    to: f64,
) -> Vec<Crossing> {
    members
        .iter()
        .filter_map(|member| {
            let cross = heading.perp_dot(member.direction);
            if cross.abs() < ALONG {
                return None;
            }
            let arm = member.start - flange;
            let station_m = arm.perp_dot(member.direction) / cross;
            let position_m = arm.perp_dot(heading) / cross;
            let is_met = from <= station_m
                && station_m <= to
                && 0.0 <= position_m
                && position_m <= member.length_m;
            is_met.then(|| Crossing {
                member: Arc::clone(member),
                station_m,
                width_m: member.width_m / cross.abs(),
                top_m: member.top_at(position_m),
                underside_m: member.underside_at(position_m),
            })
        })
        .collect()
}
