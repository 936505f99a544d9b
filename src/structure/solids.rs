//! Members, walls and roof decks as convex solids, for clearance and for shadows.

use super::member::Member;
use crate::geometry::pieces::cut_by_line;
use crate::geometry::polygon::{Polygon, ring_edges, signed_area};
use crate::geometry::{ConvexSolid, DVec2, Elevation, tolerance};
use crate::site::bay::RoofPlanes;
use crate::site::{Bay, BayId, Combustibility, MemberId, Site};
use std::sync::Arc;

/// Thickness of a wall, outward from the bay's outline, m.
pub const WALL_M: f64 = 0.2;
/// Thickness that a roof deck is given, upward, m: enough that nothing passes through.
const DECK_M: f64 = 0.2;

/// A part of the building as one or more convex solids.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is.
    pub of: PartOf,
    /// Whether it burns.
    pub burns: Combustibility,
    /// Its solids.
    pub solids: Vec<ConvexSolid>,
}

/// What a part of the building is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartOf {
    /// A member span.
    Member(MemberId),
    /// The wall along an edge of a bay's outline (holes count on behind the outline).
    Wall(BayId, usize),
    /// A bay's roof deck.
    Deck(BayId),
}

/// Each member span as a bar of its width between its underside and its top.
pub(super) fn of_members(members: &[Arc<Member>]) -> Vec<Part> {
    members
        .iter()
        .map(|member| Part {
            of: PartOf::Member(member.id.clone()),
            burns: if member.kind.is_timber() {
                Combustibility::Combustible
            } else {
                Combustibility::NonCombustible
            },
            solids: member_solids(member),
        })
        .collect()
}

fn member_solids(member: &Member) -> Vec<ConvexSolid> {
    let half = member.direction.perp() * (member.width_m / 2.0);
    // The roof line has every corner that the underside has.
    member
        .top_m
        .windows(2)
        .filter_map(|pair| {
            let (from, to) = (pair[0].0, pair[1].0);
            let (a, b) = (member.plan_at(from), member.plan_at(to));
            let plane = |z_from: f64, z_to: f64| {
                Elevation::along(a, member.direction, z_from, (z_to - z_from) / (to - from))
            };
            ConvexSolid::prism(
                &[a - half, b - half, b + half, a + half],
                plane(member.underside_at(from), member.underside_at(to)),
                plane(pair[0].1, pair[1].1),
            )
        })
        .collect()
}

/// The walls and the roof decks of every bay.
pub(super) fn of_shell(site: &Site) -> Vec<Part> {
    site.bays
        .iter()
        .flat_map(|bay| walls(bay).chain(std::iter::once(deck(bay))))
        .collect()
}

fn walls(bay: &Bay) -> impl Iterator<Item = Part> + '_ {
    let roof = bay.roof_planes();
    let rings = std::iter::once(&bay.outline).chain(&bay.holes).enumerate();
    let edges = rings.flat_map(|(ring_index, ring)| {
        // To the right of a counter-clockwise outline is outside; a hole is the other way round.
        let counter_clockwise = signed_area(ring) > 0.0;
        let outward = if counter_clockwise == (ring_index == 0) {
            -1.0
        } else {
            1.0
        };
        ring_edges(ring).map(move |edge| (edge, outward))
    });
    edges
        .enumerate()
        .filter(|(index, _)| !bay.open_edges.contains(index))
        .map(move |(index, ((a, b), outward))| {
            let out = (b - a).normalize_or_zero().perp() * (outward * WALL_M);
            let ring = [a, b, b + out, a + out];
            Part {
                of: PartOf::Wall(bay.id.clone(), index),
                burns: bay.wall.inside_burns(),
                solids: under_roof(&ring, &roof)
                    .filter_map(|(piece, plane)| {
                        ConvexSolid::prism(&piece, Elevation::level(0.0), plane)
                    })
                    .collect(),
            }
        })
}

fn deck(bay: &Bay) -> Part {
    let roof = bay.roof_planes();
    let outline = Polygon {
        outline: bay.outline.clone(),
        holes: bay.holes.clone(),
    };
    Part {
        of: PartOf::Deck(bay.id.clone()),
        burns: bay.deck.inside_burns(),
        solids: roof_slabs(&outline, &roof),
    }
}

/// What lies in a roof over an outline: a deck, or a skylight in it.
pub fn roof_slabs(outline: &Polygon, roof: &RoofPlanes) -> Vec<ConvexSolid> {
    outline
        .convex_pieces()
        .iter()
        .flat_map(|piece| under_roof(piece, roof).collect::<Vec<_>>())
        .filter_map(|(piece, plane)| ConvexSolid::prism(&piece, plane, plane.raised(DECK_M)))
        .collect()
}

/// A convex ring parted along the ridge, each part with the roof plane over it.
fn under_roof<'a>(
    ring: &'a [DVec2],
    roof: &'a RoofPlanes,
) -> impl Iterator<Item = (Vec<DVec2>, Elevation)> + 'a {
    roof.planes
        .iter()
        .enumerate()
        .filter_map(move |(index, &(base_m, gradient))| {
            let mut piece = ring.to_vec();
            for (other, &(c, g)) in roof.planes.iter().enumerate() {
                if other != index {
                    // The roof is the lowest plane: kept where this one is not above the other.
                    piece = cut_by_line(&piece, gradient - g, c - base_m);
                }
            }
            let is_area = piece.len() >= 3 && signed_area(&piece).abs() > tolerance::SAME_POINT;
            is_area.then_some((piece, Elevation { base_m, gradient }))
        })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec3;
    use crate::site::{Construction, Roof};
    use crate::units::{Angle, Length, ThermalTransmittance};

    /// An L-shaped bay, drawn clockwise, under a gable along its long side.
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
            outline: [
                (0.0, 0.0),
                (0.0, 10.0),
                (8.0, 10.0),
                (8.0, 20.0),
                (20.0, 20.0),
                (20.0, 0.0),
            ]
            .map(DVec2::from)
            .to_vec(),
            holes: Vec::new(),
            eave: Length::metres(6.0),
            roof: Roof::Gable {
                ridge_through: DVec2::new(10.0, 10.0),
                ridge_bearing: Angle::degrees(90.0),
                pitch: 0.2,
            },
            wall: plain.clone(),
            deck: plain,
            open_edges: vec![2],
            collateral: None,
            used_as: Default::default(),
            notes: String::new(),
        }
    }

    fn inside(part: &Part, x: f64, y: f64, z: f64) -> bool {
        part.solids
            .iter()
            .any(|solid| solid.contains(DVec3::new(x, y, z)))
    }

    #[test]
    fn walls_stand_outside_the_outline_up_to_the_roof() {
        let walls: Vec<Part> = walls(&bay()).collect();
        assert_eq!(walls.len(), 5, "the open edge has no wall");
        let west = &walls[0];
        assert!(inside(west, -0.1, 5.0, 3.0) && inside(west, -0.1, 9.9, 7.9));
        assert!(
            !inside(west, -0.1, 5.0, 7.1),
            "the roof over y = 5 is at 7.0"
        );
        assert!(!inside(west, 0.01, 5.0, 3.0) && !inside(west, -0.21, 5.0, 3.0));
    }

    #[test]
    fn a_gable_end_wall_is_parted_at_the_ridge() {
        let walls: Vec<Part> = walls(&bay()).collect();
        let east = &walls[3];
        assert_eq!(east.of, PartOf::Wall("B1".into(), 4));
        assert!(inside(east, 20.1, 10.0, 7.99) && !inside(east, 20.1, 2.0, 6.5));
        assert!(inside(east, 20.1, 2.0, 6.39));
    }

    #[test]
    fn the_deck_lies_on_the_roof_over_the_outline_only() {
        let deck = deck(&bay());
        for (x, y) in [(1.0, 1.0), (10.0, 10.0), (15.0, 18.0), (19.0, 3.0)] {
            let z = bay().roof_planes().elevation_at(DVec2::new(x, y));
            assert!(
                inside(&deck, x, y, z + 0.1) && !inside(&deck, x, y, z - 0.01),
                "at {x}, {y}"
            );
        }
        assert!(!inside(&deck, 4.0, 15.0, 7.1), "outside the L");
    }
}
