//! Doors as solids: where the leaf rests open, and what it passes on its way there.

use super::WALL_M;
use crate::geometry::math::{cos, sin_cos_degrees};
use crate::geometry::pieces::convex_hull;
use crate::geometry::polygon::signed_area;
use crate::geometry::{ConvexSolid, DVec2, DVec3, Elevation};
use crate::site::{Bay, DoorMotion, DoorSide, Leaves, Opening};
use crate::units::Length;
use std::f64::consts::FRAC_PI_2;

/// A place of a door's leaf.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum DoorPart {
    /// Where it rests open.
    Open,
    /// What it passes between closed and open, where it does not rest.
    Travel,
}

/// The space that one leaf takes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LeafSpace {
    /// Where it rests open, with its track, drum or rail.
    pub open: Vec<ConvexSolid>,
    /// What it passes besides; of a swing door the whole sector.
    pub travel: Vec<ConvexSolid>,
}

impl LeafSpace {
    /// The outline in plan round one of its parts, convex, counter-clockwise; empty
    /// where it has no such part.
    pub fn plan(&self, part: DoorPart) -> Vec<DVec2> {
        let solids = match part {
            DoorPart::Open => &self.open,
            DoorPart::Travel => &self.travel,
        };
        let corners = solids.iter().flat_map(ConvexSolid::vertices);
        convex_hull(&corners.copied().map(DVec3::truncate).collect::<Vec<_>>())
    }
}

/// Thickness of a leaf that runs in a track, with its rollers and the track, m.
const TRACKED_M: f64 = 0.10;
/// How far a track, or the brackets of a drum, reach beyond either jamb, m.
const BESIDE_M: f64 = 0.10;
/// How far a level track reaches beyond the open leaf, for springs and buffers, m.
const BEYOND_M: f64 = 0.5;
/// Thickness of a leaf on hinges, m.
const HINGED_M: f64 = 0.06;
/// What a sliding leaf takes before the wall, with its guides, m.
const SLIDING_M: f64 = 0.15;
/// The rail of a sliding leaf with its hangers, above the head, m.
const RAIL_M: f64 = 0.25;
/// Pieces of a quarter circle. The straight pieces touch it from outside: they reach
/// beyond it by at most 1 / cos(90 degrees / 24) - 1 = 0.22 % of its radius, 4 mm of a
/// leaf of 2 m, and never fall short of it.
const PIECES: u32 = 12;

/// The space that the leaves of an opening take; none of a window, or where the bay has
/// no such wall.
pub fn door_space(bay: &Bay, opening: &Opening) -> Vec<LeafSpace> {
    let (Some(motion), Some(wall)) = (opening.kind.motion(), Wall::of(bay, opening)) else {
        return Vec::new();
    };
    match motion {
        DoorMotion::Track => vec![tracked(&wall, opening)],
        DoorMotion::Drum => vec![rolled(&wall, opening)],
        DoorMotion::Hinges => wall.leaves(opening, hinged),
        DoorMotion::Slide => wall.leaves(opening, sliding),
    }
}

/// An opening in its wall.
struct Wall {
    /// The nearer jamb on the face that the leaf moves before.
    jamb: DVec2,
    /// Unit vector toward the farther jamb.
    along: DVec2,
    /// Unit vector away from the wall, to the side that the leaf moves on.
    out: DVec2,
    width_m: f64,
    sill_m: f64,
    head_m: f64,
    /// From the head up to the roof.
    room_m: f64,
}

impl Wall {
    fn of(bay: &Bay, opening: &Opening) -> Option<Self> {
        let from = *bay.outline.get(opening.edge)?;
        let to = bay.outline[(opening.edge + 1) % bay.outline.len()];
        let along = (to - from).try_normalize()?;
        // To the left of a counter-clockwise outline is inside.
        let inward = if signed_area(&bay.outline) > 0.0 {
            along.perp()
        } else {
            -along.perp()
        };
        let jamb = from + along * opening.from_corner.as_metres();
        let width_m = opening.width.as_metres();
        let head_m = (opening.sill + opening.height).as_metres();
        let roof = bay.roof_planes();
        let lowest = roof
            .elevation_at(jamb)
            .min(roof.elevation_at(jamb + along * width_m));
        let (jamb, out) = match (opening.kind.motion()?, opening.door.side) {
            (DoorMotion::Hinges | DoorMotion::Slide, DoorSide::Outside) => {
                (jamb - inward * WALL_M, -inward)
            }
            _ => (jamb, inward),
        };
        Some(Self {
            jamb,
            along,
            out,
            width_m,
            sill_m: opening.sill.as_metres(),
            head_m,
            room_m: lowest - head_m,
        })
    }

    /// An upright box: from and to along the wall, out from it, and in height, m.
    fn slab(&self, along: [f64; 2], out: [f64; 2], height: [f64; 2]) -> Option<ConvexSolid> {
        let corner = |a: f64, o: f64| self.jamb + self.along * a + self.out * o;
        let ring = [
            corner(along[0], out[0]),
            corner(along[1], out[0]),
            corner(along[1], out[1]),
            corner(along[0], out[1]),
        ];
        let [bottom, top] = height.map(Elevation::level);
        ConvexSolid::prism(&ring, bottom, top)
    }

    /// A profile of (out, elevation), drawn out over the width of the opening and what
    /// reaches beside it.
    fn drawn_out(&self, profile: &[DVec2]) -> Option<ConvexSolid> {
        let origin = self.jamb - self.along * BESIDE_M;
        let along = self.along * (self.width_m + 2.0 * BESIDE_M);
        ConvexSolid::extruded(profile, origin, self.out, along)
    }

    /// The space of each leaf: a whole one at a jamb, or two halves. A leaf is told its
    /// width and the wall as seen from its own jamb.
    fn leaves(&self, opening: &Opening, leaf: fn(&Self, f64) -> LeafSpace) -> Vec<LeafSpace> {
        let far = Self {
            jamb: self.jamb + self.along * self.width_m,
            along: -self.along,
            ..*self
        };
        match opening.leaves() {
            Leaves::Near => vec![leaf(self, self.width_m)],
            Leaves::Far => vec![leaf(&far, self.width_m)],
            Leaves::Both => {
                let half_m = self.width_m / 2.0;
                vec![leaf(self, half_m), leaf(&far, half_m)]
            }
        }
    }
}

/// Up along a track: upright, round a bend, level under the roof.
fn tracked(wall: &Wall, opening: &Opening) -> LeafSpace {
    let half_m = TRACKED_M / 2.0;
    let leaf_m = wall.head_m - wall.sill_m;
    let room = Length::metres(wall.room_m);
    let level_top_m = wall.head_m + opening.track_height(room).as_metres();
    let axis_m = level_top_m - half_m;
    // A bend can't begin under the floor of the opening.
    let radius_m = opening
        .track_radius()
        .as_metres()
        .min(axis_m - wall.sill_m)
        .max(half_m);
    let bend_m = axis_m - radius_m;
    let beside = [-BESIDE_M, wall.width_m + BESIDE_M];
    let upright = |from_m: f64, to_m: f64| wall.slab(beside, [0.0, TRACKED_M], [from_m, to_m]);
    let travel = upright(wall.sill_m, wall.head_m.min(bend_m));
    // How much of the open leaf stays upright above the head.
    let upright_m = (bend_m - wall.head_m).max(0.0);
    let mut open: Vec<ConvexSolid> = Vec::new();
    if leaf_m <= upright_m {
        open.extend(upright(wall.head_m, wall.head_m + leaf_m));
    } else {
        open.extend(upright(wall.head_m, bend_m));
        open.extend(bend(half_m + radius_m, bend_m, radius_m).filter_map(|it| wall.drawn_out(&it)));
        let from_m = half_m + radius_m;
        let to_m = from_m.max(leaf_m - upright_m) + BEYOND_M;
        open.extend(wall.slab(
            beside,
            [from_m, to_m],
            [level_top_m - TRACKED_M, level_top_m],
        ));
    }
    LeafSpace {
        open,
        travel: travel.into_iter().collect(),
    }
}

/// The bend of a track as convex profiles of (out, elevation): a quarter turn about
/// (centre, from), from upright to level. Each holds its part of the ring.
fn bend(centre_m: f64, from_m: f64, radius_m: f64) -> impl Iterator<Item = Vec<DVec2>> {
    let centre = DVec2::new(centre_m, from_m);
    let step = 90.0 / f64::from(PIECES);
    let (inner_m, outer_m) = (radius_m - TRACKED_M / 2.0, radius_m + TRACKED_M / 2.0);
    let at = move |degrees: f64, reach_m: f64| {
        let (sin, cos) = sin_cos_degrees(degrees);
        centre + DVec2::new(-cos, sin) * reach_m
    };
    (0..PIECES).map(move |piece| {
        let from = f64::from(piece) * step;
        let mut ring = vec![
            at(from, outer_m),
            at(from + step / 2.0, outer_m / beyond()),
            at(from + step, outer_m),
            at(from + step, inner_m),
        ];
        // Straight across the inner circle is on the safe side of it.
        if 0.0 < inner_m {
            ring.push(at(from, inner_m));
        }
        ring
    })
}

/// Cosine of half a piece's turn: a corner of the straight pieces is so much farther out.
fn beyond() -> f64 {
    cos(FRAC_PI_2 / f64::from(2 * PIECES))
}

/// Onto a drum above the head.
fn rolled(wall: &Wall, opening: &Opening) -> LeafSpace {
    let drum_m = opening.drum().as_metres();
    let beside = [-BESIDE_M, wall.width_m + BESIDE_M];
    let height = [wall.head_m, wall.head_m + drum_m];
    let sill_to_head = [wall.sill_m, wall.head_m];
    LeafSpace {
        open: wall
            .slab(beside, [0.0, drum_m], height)
            .into_iter()
            .collect(),
        travel: wall
            .slab(beside, [0.0, TRACKED_M], sill_to_head)
            .into_iter()
            .collect(),
    }
}

/// About hinges at its jamb by a quarter turn. Closed, the leaf is within the wall.
fn hinged(wall: &Wall, leaf_m: f64) -> LeafSpace {
    let height = [wall.sill_m, wall.head_m];
    let reach_m = DVec2::new(leaf_m, HINGED_M).length();
    let step = 90.0 / f64::from(PIECES);
    let at = |degrees: f64, reach_m: f64| {
        let (sin, cos) = sin_cos_degrees(degrees);
        wall.jamb + (wall.along * cos + wall.out * sin) * reach_m
    };
    let mut sector = vec![wall.jamb, at(0.0, reach_m)];
    sector.extend((0..PIECES).map(|piece| at((f64::from(piece) + 0.5) * step, reach_m / beyond())));
    sector.push(at(90.0, reach_m));
    let [bottom, top] = height.map(Elevation::level);
    LeafSpace {
        open: wall
            .slab([0.0, HINGED_M], [0.0, leaf_m], height)
            .into_iter()
            .collect(),
        travel: ConvexSolid::prism(&sector, bottom, top)
            .into_iter()
            .collect(),
    }
}

/// Along the wall, past its jamb.
fn sliding(wall: &Wall, leaf_m: f64) -> LeafSpace {
    let height = [wall.sill_m, wall.head_m + RAIL_M];
    let strip = |along| {
        wall.slab(along, [0.0, SLIDING_M], height)
            .into_iter()
            .collect()
    };
    LeafSpace {
        open: strip([-leaf_m, 0.0]),
        travel: strip([0.0, leaf_m]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::{Combustibility, Construction, OpeningKind, Roof};
    use crate::units::ThermalTransmittance;

    /// A bay drawn clockwise, so that inside is not where it is first guessed.
    fn bay() -> Bay {
        let plain = Construction {
            name: String::new(),
            u_value: ThermalTransmittance::watts_per_square_metre_kelvin(0.5),
            burns: Combustibility::NonCombustible,
            facing: None,
        };
        Bay {
            id: "B1".into(),
            name: String::new(),
            used_as: Default::default(),
            collateral: None,
            outline: [(0.0, 0.0), (0.0, 20.0), (30.0, 20.0), (30.0, 0.0)]
                .map(DVec2::from)
                .to_vec(),
            holes: Vec::new(),
            eave: Length::metres(7.0),
            roof: Roof::Flat,
            wall: plain.clone(),
            deck: plain,
            open_edges: Vec::new(),
            notes: String::new(),
        }
    }

    /// In the west wall, from 5 to 9 m north, 4 m high.
    fn opening(kind: OpeningKind) -> Opening {
        Opening {
            id: "D1".into(),
            bay: "B1".into(),
            edge: 0,
            from_corner: Length::metres(5.0),
            width: Length::metres(4.0),
            sill: Length::ZERO,
            height: Length::metres(4.0),
            kind,
            door: Default::default(),
            notes: String::new(),
        }
    }

    fn holds(solids: &[ConvexSolid], at: DVec3) -> bool {
        // A hair of room: the leaf's face is the volume's face.
        solids.iter().any(|solid| {
            solid
                .faces()
                .iter()
                .all(|face| face.normal.dot(at) <= face.offset + 1e-9)
        })
    }

    /// Where a point of a tracked leaf is: `s` m along the track's middle from the sill,
    /// `off` m to the outside of it.
    fn on_track(s: f64, off: f64, bend_m: f64, radius_m: f64) -> DVec2 {
        let quarter = FRAC_PI_2 * radius_m;
        let centre = DVec2::new(TRACKED_M / 2.0 + radius_m, bend_m);
        if s <= bend_m {
            DVec2::new(TRACKED_M / 2.0 - off, s)
        } else if s <= bend_m + quarter {
            let (sin, cos) = sin_cos_degrees(((s - bend_m) / radius_m).to_degrees());
            centre + DVec2::new(-cos, sin) * (radius_m + off)
        } else {
            DVec2::new(centre.x + s - bend_m - quarter, bend_m + radius_m + off)
        }
    }

    fn check_tracked(door: &Opening, bend_m: f64, radius_m: f64) {
        let spaces = door_space(&bay(), door);
        let [space] = spaces.as_slice() else {
            panic!("one leaf, not {}", spaces.len());
        };
        let all: Vec<ConvexSolid> = space.open.iter().chain(&space.travel).cloned().collect();
        for lift in 0..=40 {
            let lifted = 4.0 * f64::from(lift) / 40.0;
            for along in 0..=80 {
                let s = lifted + 4.0 * f64::from(along) / 80.0;
                for off in [-TRACKED_M / 2.0, 0.0, TRACKED_M / 2.0] {
                    let at = on_track(s, off, bend_m, radius_m);
                    for y in [5.0, 7.3, 9.0] {
                        let at = DVec3::new(at.x, y, at.y);
                        assert!(holds(&all, at), "{:?} lifted {lifted}: {at}", door.kind);
                        if lift == 40 {
                            assert!(holds(&space.open, at), "{:?} open: {at}", door.kind);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_sectional_leaf_stays_within_its_space_all_the_way_up() {
        // Usual track: its top 0.4 m over the head, bent by 0.35 m.
        check_tracked(&opening(OpeningKind::SectionalDoor), 4.0, 0.35);
        // High lift: 1.2 m over the head.
        check_tracked(&opening(OpeningKind::HighLiftDoor), 4.8, 0.35);
        let mut wide = opening(OpeningKind::DockDoor);
        wide.door.track_radius = Some(Length::metres(0.8));
        check_tracked(&wide, 3.55, 0.8);
    }

    #[test]
    fn an_open_sectional_door_lies_half_a_metre_farther_in_than_it_is_high() {
        let space = &door_space(&bay(), &opening(OpeningKind::SectionalDoor))[0];
        let plan = space.plan(DoorPart::Open);
        let reach = plan.iter().map(|p| p.x).fold(0.0, f64::max);
        assert!((reach - 4.5).abs() < 1e-12, "{reach}");
        let inside = |z: f64| holds(&space.open, DVec3::new(3.0, 7.0, z));
        assert!(inside(4.3) && inside(4.4) && !inside(4.29) && !inside(4.41));
        assert!(!holds(&space.open, DVec3::new(0.05, 7.0, 3.0)));
    }

    #[test]
    fn a_high_lift_takes_no_more_than_the_roof_allows_unless_it_is_told() {
        let mut low = bay();
        low.eave = Length::metres(4.9);
        let top = |opening: &Opening| {
            door_space(&low, opening)[0]
                .open
                .iter()
                .map(|solid| solid.bounds().high.z)
                .fold(0.0, f64::max)
        };
        let mut door = opening(OpeningKind::HighLiftDoor);
        assert!((top(&door) - 4.9).abs() < 1e-12);
        door.door.track_height = Some(Length::metres(4.2));
        // Lifted by more than its height the leaf stays upright.
        door.height = Length::metres(2.0);
        assert!((top(&door) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_swinging_leaf_stays_within_its_sector_and_the_sector_is_hardly_larger() {
        for side in [DoorSide::Inside, DoorSide::Outside] {
            let mut door = opening(OpeningKind::SwingDoor);
            door.door.side = side;
            let spaces = door_space(&bay(), &door);
            assert_eq!(spaces.len(), 2, "two leaves");
            let (face, out) = match side {
                DoorSide::Inside => (0.0, 1.0),
                DoorSide::Outside => (-WALL_M, -1.0),
            };
            for degrees in 0..=90 {
                let (sin, cos) = sin_cos_degrees(f64::from(degrees));
                for reach in [0.0, 1.0, 2.0] {
                    let x = face + out * reach * sin;
                    for (space, y) in spaces.iter().zip([5.0 + reach * cos, 9.0 - reach * cos]) {
                        assert!(holds(&space.travel, DVec3::new(x, y, 1.0)));
                        if degrees == 90 {
                            assert!(holds(&space.open, DVec3::new(x, y, 1.0)));
                        }
                    }
                }
            }
            let radius = DVec2::new(2.0, HINGED_M).length();
            let farthest = spaces[0].travel[0]
                .vertices()
                .iter()
                .map(|v| v.truncate().distance(DVec2::new(face, 5.0)))
                .fold(0.0, f64::max);
            assert!(radius < farthest && farthest < radius * 1.0022);
        }
    }

    #[test]
    fn leaves_slide_past_their_own_jamb() {
        let mut door = opening(OpeningKind::SlidingDoor);
        let reach = |door: &Opening| {
            let spaces = door_space(&bay(), door);
            let ys = spaces
                .iter()
                .flat_map(|space| space.plan(DoorPart::Open))
                .map(|p| p.y);
            ys.fold((f64::INFINITY, 0.0), |(low, high): (f64, f64), y| {
                (low.min(y), high.max(y))
            })
        };
        assert_eq!(reach(&door), (9.0, 13.0));
        door.door.leaves = Some(Leaves::Near);
        assert_eq!(reach(&door), (1.0, 5.0));
        door.door.leaves = Some(Leaves::Both);
        assert_eq!(reach(&door), (3.0, 11.0));
    }

    #[test]
    fn a_drum_hangs_over_the_head_and_a_window_takes_nothing() {
        let space = &door_space(&bay(), &opening(OpeningKind::RollUpDoor))[0];
        assert!(holds(&space.open, DVec3::new(0.4, 7.0, 4.4)));
        assert!(!holds(&space.open, DVec3::new(0.6, 7.0, 4.4)));
        assert!(holds(&space.travel, DVec3::new(0.05, 7.0, 2.0)));
        assert!(door_space(&bay(), &opening(OpeningKind::Window)).is_empty());
    }
}
