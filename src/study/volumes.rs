//! Obstructions as solids, each kind by its few numbers.

use crate::geometry::segment::thick_line;
use crate::geometry::{ConvexSolid, DVec2, Elevation, Polygon};
use crate::site::bay::along;
use crate::site::obstruction::{Footprint, ObstructionKind};
use crate::site::{Bay, Obstruction};
use crate::structure::roof_slabs;
use std::sync::Arc;

/// The outlines of an obstruction in plan: one area, or the pieces of a line with a width.
#[must_use]
pub fn footprint_outlines(footprint: &Footprint) -> Vec<Polygon> {
    match footprint {
        Footprint::Area { outline, holes } => {
            vec![Polygon {
                outline: outline.clone(),
                holes: holes.clone(),
            }]
        }
        Footprint::Line { points, width } => match thick_line(points, width.as_metres()) {
            Ok(outline) => vec![outline],
            // A line that doubles back has no simple outline: each piece stands for itself.
            Err(_) => points
                .windows(2)
                .map(|pair| piece_outline(pair[0], pair[1], width.as_metres()))
                .collect(),
        },
    }
}

fn piece_outline(a: DVec2, b: DVec2, width_m: f64) -> Polygon {
    let half = (b - a).normalize_or_zero().perp() * (width_m / 2.0);
    Polygon::new(vec![a - half, b - half, b + half, a + half])
}

/// The solids of an obstruction. A skylight lies in the roof of the bay that it is over.
#[must_use]
pub fn obstruction_solids(obstruction: &Obstruction, bays: &[Arc<Bay>]) -> Vec<ConvexSolid> {
    let (bottom_m, top_m) = (obstruction.bottom.as_metres(), obstruction.top.as_metres());
    let particulars = &obstruction.particulars;
    let raised_m = top_m + particulars.lift.map_or(0.0, |lift| lift.as_metres());
    match &obstruction.footprint {
        Footprint::Line { points, width } => {
            let end_m = particulars
                .bottom_at_end
                .map_or(bottom_m, |end| end.as_metres());
            if obstruction.kind == ObstructionKind::Stairs {
                // From the floor up to a line of steps.
                return line(points, width.as_metres(), [bottom_m; 2], [bottom_m, top_m]);
            }
            if end_m != bottom_m {
                let depth_m = raised_m - bottom_m;
                let tops = [raised_m, end_m + depth_m];
                return line(points, width.as_metres(), [bottom_m, end_m], tops);
            }
        }
        Footprint::Area { outline, .. } => {
            if let Some(slope) = particulars.top_slope {
                let up = along(slope.rises_toward);
                let lowest = outline.iter().map(|p| up.dot(*p));
                let lowest = up * lowest.fold(f64::INFINITY, f64::min);
                let top = Elevation::along(lowest, up, raised_m, slope.pitch);
                return upright(obstruction, Elevation::level(bottom_m), top);
            }
        }
    }
    match obstruction.kind {
        ObstructionKind::Skylight => skylight(obstruction, bays),
        ObstructionKind::CraneTravel => {
            let mut solids = upright_level(obstruction, bottom_m, raised_m);
            solids.extend(hook_space(obstruction));
            solids
        }
        _ => upright_level(obstruction, bottom_m, raised_m),
    }
}

fn upright(obstruction: &Obstruction, bottom: Elevation, top: Elevation) -> Vec<ConvexSolid> {
    footprint_outlines(&obstruction.footprint)
        .iter()
        .flat_map(|outline| ConvexSolid::prisms(outline, bottom, top))
        .collect()
}

fn upright_level(obstruction: &Obstruction, bottom_m: f64, top_m: f64) -> Vec<ConvexSolid> {
    let (bottom, top) = (Elevation::level(bottom_m), Elevation::level(top_m));
    upright(obstruction, bottom, top)
}

/// A line whose bottom and top rise evenly from its first point to its last. Each piece
/// reaches half a width beyond an inner point, so that no corner is left open.
fn line(points: &[DVec2], width_m: f64, bottoms_m: [f64; 2], tops_m: [f64; 2]) -> Vec<ConvexSolid> {
    let whole_m: f64 = points
        .windows(2)
        .map(|pair| pair[0].distance(pair[1]))
        .sum();
    let last = points.len().saturating_sub(2);
    let half_m = width_m / 2.0;
    let mut station_m = 0.0;
    let mut solids = Vec::new();
    for (k, pair) in points.windows(2).enumerate() {
        let length_m = pair[0].distance(pair[1]);
        let direction = (pair[1] - pair[0]).normalize_or_zero();
        let plane = |[from_m, to_m]: [f64; 2]| {
            let slope = (to_m - from_m) / whole_m;
            Elevation::along(pair[0], direction, from_m + slope * station_m, slope)
        };
        let reach = |is_end: bool| if is_end { 0.0 } else { half_m };
        let from = pair[0] - direction * reach(k == 0);
        let to = pair[1] + direction * reach(k == last);
        let ring = piece_outline(from, to, width_m).outline;
        solids.extend(ConvexSolid::prism(&ring, plane(bottoms_m), plane(tops_m)));
        station_m += length_m;
    }
    solids
}

/// Where a crane's hook passes with its load: from the floor to the bridge, within what
/// the hook reaches of the runway. Of a crane drawn as an area, all of it.
fn hook_space(obstruction: &Obstruction) -> Vec<ConvexSolid> {
    let Some(approach) = obstruction.particulars.hook_approach else {
        return Vec::new();
    };
    let approach_m = approach.as_metres();
    let outlines = match &obstruction.footprint {
        Footprint::Area { .. } => footprint_outlines(&obstruction.footprint),
        Footprint::Line { points, width } => {
            let width_m = width.as_metres() - 2.0 * approach_m;
            let shorter = shortened(points, approach_m);
            match thick_line(&shorter, width_m) {
                Ok(outline) if 0.0 < width_m => vec![outline],
                _ => Vec::new(),
            }
        }
    };
    let top = Elevation::level(obstruction.bottom.as_metres());
    outlines
        .iter()
        .flat_map(|outline| ConvexSolid::prisms(outline, Elevation::level(0.0), top))
        .collect()
}

/// A line without a stretch at either end; its two end pieces give it up.
fn shortened(points: &[DVec2], by_m: f64) -> Vec<DVec2> {
    let mut shorter = points.to_vec();
    let n = points.len();
    if 2 <= n {
        let toward = |from: DVec2, to: DVec2| {
            from + (to - from).normalize_or_zero() * by_m.min(from.distance(to) / 2.0)
        };
        shorter[0] = toward(points[0], points[1]);
        shorter[n - 1] = toward(points[n - 1], points[n - 2]);
    }
    shorter
}

fn skylight(obstruction: &Obstruction, bays: &[Arc<Bay>]) -> Vec<ConvexSolid> {
    let mut solids = Vec::new();
    for outline in footprint_outlines(&obstruction.footprint) {
        let corner = outline.outline.first().copied().unwrap_or_default();
        let over = bays.iter().find(|bay| {
            let floor = Polygon {
                outline: bay.outline.clone(),
                holes: bay.holes.clone(),
            };
            floor.contains(corner)
        });
        match over {
            Some(bay) => solids.extend(roof_slabs(&outline, &bay.roof_planes())),
            None => solids.extend(ConvexSolid::prisms(
                &outline,
                Elevation::level(obstruction.bottom.as_metres()),
                Elevation::level(obstruction.top.as_metres()),
            )),
        }
    }
    solids
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec3;
    use crate::site::{Combustibility, Particulars, TopSlope};
    use crate::units::{Angle, Length};

    fn metres(m: f64) -> Option<Length> {
        Some(Length::metres(m))
    }

    fn obstruction(
        kind: ObstructionKind,
        footprint: Footprint,
        particulars: Particulars,
    ) -> Obstruction {
        Obstruction {
            id: "O1".into(),
            name: String::new(),
            kind,
            footprint,
            bottom: Length::metres(4.0),
            top: Length::metres(5.0),
            upright_top: None,
            burns: Combustibility::Unknown,
            temperature_limit: None,
            particulars,
            notes: String::new(),
        }
    }

    fn run_of(width: f64) -> Footprint {
        Footprint::Line {
            points: [(0.0, 0.0), (6.0, 0.0), (6.0, 4.0)]
                .map(DVec2::from)
                .to_vec(),
            width: Length::metres(width),
        }
    }

    fn square() -> Footprint {
        Footprint::Area {
            outline: [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
                .map(DVec2::from)
                .to_vec(),
            holes: Vec::new(),
        }
    }

    fn check(it: &Obstruction, inside: &[[f64; 3]], outside: &[[f64; 3]]) {
        let solids = obstruction_solids(it, &[]);
        let holds = |at: &[f64; 3]| solids.iter().any(|solid| solid.contains(DVec3::from(*at)));
        for at in inside {
            assert!(holds(at), "{:?} should hold {at:?}", it.kind);
        }
        for at in outside {
            assert!(!holds(at), "{:?} should not hold {at:?}", it.kind);
        }
    }

    #[test]
    fn a_duct_rises_evenly_round_its_corner() {
        let particulars = Particulars {
            bottom_at_end: metres(5.0),
            ..Particulars::default()
        };
        let duct = obstruction(ObstructionKind::Duct, run_of(0.5), particulars);
        // 10 m long, 0.1 m up for each.
        check(
            &duct,
            &[
                [0.0, 0.0, 4.01],
                [3.0, 0.2, 4.31],
                [3.0, 0.0, 5.29],
                [6.0, 3.99, 5.0],
                [6.2, -0.2, 4.7],
            ],
            &[
                [3.0, 0.0, 4.29],
                [3.0, 0.0, 5.31],
                [6.0, 4.1, 5.5],
                [3.0, 0.3, 4.5],
            ],
        );
    }

    #[test]
    fn stairs_are_a_wedge_and_a_lifted_vehicle_stands_up_to_its_raised_top() {
        let mut stairs = obstruction(ObstructionKind::Stairs, run_of(1.0), Particulars::default());
        stairs.bottom = Length::ZERO;
        check(
            &stairs,
            &[[6.0, 3.9, 4.9], [1.0, 0.0, 0.4]],
            &[[1.0, 0.0, 0.6], [6.0, 0.2, 3.3]],
        );
        let particulars = Particulars {
            lift: metres(1.9),
            ..Particulars::default()
        };
        let raised = obstruction(ObstructionKind::LiftedVehicle, square(), particulars);
        check(&raised, &[[1.0, 1.0, 6.85]], &[[1.0, 1.0, 6.95]]);
    }

    #[test]
    fn a_top_slopes_up_from_its_lowest_corner() {
        let particulars = Particulars {
            top_slope: Some(TopSlope {
                rises_toward: Angle::degrees(270.0),
                pitch: 0.5,
            }),
            ..Particulars::default()
        };
        let it = obstruction(ObstructionKind::Other, square(), particulars);
        check(
            &it,
            &[[4.0, 1.0, 4.99], [0.0, 1.0, 6.99]],
            &[[4.0, 1.0, 5.01], [2.0, 1.0, 6.01]],
        );
    }

    #[test]
    fn a_crane_takes_its_bridge_everywhere_and_its_hook_where_it_reaches() {
        let particulars = Particulars {
            hook_approach: metres(0.9),
            ..Particulars::default()
        };
        let footprint = Footprint::Line {
            points: vec![DVec2::ZERO, DVec2::new(30.0, 0.0)],
            width: Length::metres(12.0),
        };
        let crane = obstruction(ObstructionKind::CraneTravel, footprint, particulars);
        check(
            &crane,
            &[[0.1, 5.9, 4.5], [1.0, 5.0, 0.1], [29.0, -5.0, 3.9]],
            &[[0.8, 0.0, 2.0], [15.0, 5.2, 2.0], [15.0, 0.0, 5.1]],
        );
    }
}
