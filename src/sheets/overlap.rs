//! What lies on what: oriented boxes against everything that can be drawn.
//!
//! Boxes against boxes, straight lines, circles and polygons are exact; arcs are taken
//! as chords that stray from them by at most [`CHORD_SAGITTA_MM`]. Touching is not
//! lying on. Broken lines count as unbroken, pens have their width.

use crate::geometry::{DVec2, tolerance};
use crate::sheets::mark::{Arc, Finish, Shape};
use crate::sheets::oriented_box::OrientedBox;
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, Pen};

/// How far the chords that stand for an arc may stray from it, mm: a tenth of the
/// thinnest pen.
const CHORD_SAGITTA_MM: f64 = 0.013;

/// A simple form that a text may lie on.
#[derive(Debug, Clone, PartialEq)]
pub enum Ground {
    /// A box, filled.
    Box(OrientedBox),
    /// A straight line with its pen's half width, mm.
    Line([PaperPoint; 2], f64),
    /// A circle drawn with a pen of this half width: centre, radius, half width, mm.
    Ring(PaperPoint, f64, f64),
    /// A disc: centre, radius, mm.
    Disc(PaperPoint, f64),
    /// A filled polygon by its rings; what lies in an even number of them is free.
    Polygon(Vec<Vec<PaperPoint>>),
}

/// Whether the two boxes share more than an edge or a corner.
#[must_use]
pub fn boxes_overlap(a: &OrientedBox, b: &OrientedBox) -> bool {
    // Two convex forms are apart if they are apart along the normal of one of their sides.
    let between = b.centre - a.centre;
    [a.along, a.across(), b.along, b.across()]
        .iter()
        .all(|&axis| {
            reach(a, axis) + reach(b, axis) - between.dot(axis).abs() > tolerance::PAPER_TOUCH_MM
        })
}

/// How far a box reaches from its centre along an axis.
fn reach(of: &OrientedBox, axis: DVec2) -> f64 {
    of.half.x * of.along.dot(axis).abs() + of.half.y * of.across().dot(axis).abs()
}

/// Whether the box and the form share more than their edges.
#[must_use]
pub fn lies_on(area: &OrientedBox, ground: &Ground) -> bool {
    match ground {
        Ground::Box(other) => boxes_overlap(area, other),
        Ground::Line([from, to], half_width_mm) => {
            let [from, to] = [inside(area, *from), inside(area, *to)];
            beneath(distance_to_segment(area.half, from, to), *half_width_mm)
        }
        Ground::Disc(centre, radius_mm) => beneath(
            distance_to_point(area.half, inside(area, *centre)),
            *radius_mm,
        ),
        Ground::Ring(centre, radius_mm, half_width_mm) => {
            let centre = inside(area, *centre);
            let farthest = (centre.abs() + area.half).length();
            beneath(
                distance_to_point(area.half, centre),
                radius_mm + half_width_mm,
            ) && radius_mm - half_width_mm < farthest - tolerance::PAPER_TOUCH_MM
        }
        Ground::Polygon(rings) => {
            let edges = rings.iter().flat_map(|ring| {
                (0..ring.len()).map(|index| [ring[index], ring[(index + 1) % ring.len()]])
            });
            is_within(rings, area.centre)
                || edges
                    .into_iter()
                    .any(|[from, to]| crosses_inner(area, from, to))
        }
    }
}

/// Whether a distance is truly less than a reach.
fn beneath(distance_mm: f64, reach_mm: f64) -> bool {
    distance_mm < reach_mm - tolerance::PAPER_TOUCH_MM
}

/// The point as seen from the box: its centre the origin, its sides along the axes.
fn inside(area: &OrientedBox, point: PaperPoint) -> DVec2 {
    let from_centre = point - area.centre;
    DVec2::new(from_centre.dot(area.along), from_centre.dot(area.across()))
}

/// Whether an edge passes through the box, not only along its side.
fn crosses_inner(area: &OrientedBox, from: PaperPoint, to: PaperPoint) -> bool {
    let half = (area.half - DVec2::splat(tolerance::PAPER_TOUCH_MM)).max(DVec2::ZERO);
    clipped(half, inside(area, from), inside(area, to))
}

/// Distance of a point from an upright box round the origin with these half sides.
fn distance_to_point(half: DVec2, point: DVec2) -> f64 {
    (point.abs() - half).max(DVec2::ZERO).length()
}

/// Distance of a segment from an upright box round the origin with these half sides.
fn distance_to_segment(half: DVec2, from: DVec2, to: DVec2) -> f64 {
    if clipped(half, from, to) {
        return 0.0;
    }
    // They are apart, so the nearest points are an end of the segment or a corner of the box.
    let ends = distance_to_point(half, from).min(distance_to_point(half, to));
    let corners = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
    corners.iter().fold(ends, |least, &(x, y)| {
        let corner = half * DVec2::new(x, y);
        least.min(point_to_segment(corner, from, to))
    })
}

fn point_to_segment(point: DVec2, from: DVec2, to: DVec2) -> f64 {
    let along = to - from;
    let length_squared = along.length_squared();
    let t = if length_squared > 0.0 {
        (point - from).dot(along) / length_squared
    } else {
        0.0
    };
    point.distance(from + along * t.clamp(0.0, 1.0))
}

/// Whether a segment meets an upright box round the origin with these half sides: the
/// stretches of the segment within each pair of sides have a point in common.
fn clipped(half: DVec2, from: DVec2, to: DVec2) -> bool {
    let mut enters = 0.0_f64;
    let mut leaves = 1.0_f64;
    for (at, run, half) in [
        (from.x, to.x - from.x, half.x),
        (from.y, to.y - from.y, half.y),
    ] {
        if run == 0.0 {
            if half < at.abs() {
                return false;
            }
        } else {
            let (a, b) = ((-half - at) / run, (half - at) / run);
            enters = enters.max(a.min(b));
            leaves = leaves.min(a.max(b));
        }
    }
    enters <= leaves
}

/// Whether a point lies in an odd number of rings.
fn is_within(rings: &[Vec<PaperPoint>], point: PaperPoint) -> bool {
    let mut odd = false;
    for ring in rings {
        for (index, a) in ring.iter().enumerate() {
            let b = ring[(index + 1) % ring.len()];
            let crosses = (a.y <= point.y) != (b.y <= point.y)
                && point.x < a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x);
            odd ^= crosses;
        }
    }
    odd
}

/// The simple forms that a shape is made of. Texts give the box of their ink; what a
/// symbol clears with paper is free for text.
#[must_use]
pub fn grounds(shape: &Shape) -> Vec<Ground> {
    let half = |pen: Pen| pen.width.mm() / 2.0;
    match shape {
        Shape::Polyline(line) => line
            .segments()
            .map(|ends| Ground::Line(ends, half(line.pen)))
            .collect(),
        Shape::Area(area) => vec![Ground::Polygon(area.rings().map(<[_]>::to_vec).collect())],
        Shape::Circle(circle) => vec![match circle.finish {
            Finish::Drawn(pen) => Ground::Ring(circle.centre, circle.radius_mm, half(pen)),
            Finish::Filled => Ground::Disc(circle.centre, circle.radius_mm),
        }],
        Shape::Arc(arc) => chords(arc)
            .windows(2)
            .map(|ends| Ground::Line([ends[0], ends[1]], half(arc.pen)))
            .collect(),
        Shape::Hatch(hatch) => hatch
            .lines()
            .into_iter()
            .map(|ends| Ground::Line(ends, half(hatch.pen)))
            .collect(),
        Shape::Text(text) => text.ink_box().map(Ground::Box).into_iter().collect(),
        Shape::Picture(picture) => vec![Ground::Box(OrientedBox {
            centre: picture.place.centre(),
            along: DVec2::X,
            half: DVec2::new(picture.place.width_mm(), picture.place.height_mm()) / 2.0,
        })],
        Shape::Symbol(used) => used
            .drawn(Ink::Black)
            .iter()
            .filter(|(_, ink)| *ink != Ink::Paper)
            .flat_map(|(shape, _)| grounds(shape))
            .collect(),
    }
}

/// Points on an arc, near enough for its chords to stand for it. An arc so large that
/// its chords can't be counted in thousands is off the sheet and gets coarser ones.
fn chords(arc: &Arc) -> Vec<PaperPoint> {
    let sweep = arc.sweep_degrees.clamp(-360.0, 360.0);
    let radius = arc.radius_mm.abs().max(CHORD_SAGITTA_MM);
    // A chord of angle a strays from its circle by r (1 - cos(a/2)), close to r a^2 / 8.
    let step = (8.0 * CHORD_SAGITTA_MM / radius)
        .sqrt()
        .to_degrees()
        .clamp(0.1, 30.0);
    let n_steps = (sweep.abs() / step).ceil().max(1.0);
    let mut points = Vec::new();
    let mut number = 0.0;
    while number <= n_steps {
        points.push(arc.point_at(arc.from_degrees + sweep * number / n_steps));
        number += 1.0;
    }
    points
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheets::mark::{Area, Circle};
    use crate::sheets::paper::directions;

    fn a_box(x: f64, y: f64, width: f64, height: f64, degrees: f64) -> OrientedBox {
        OrientedBox {
            centre: PaperPoint::new(x, y),
            along: directions(degrees).0,
            half: DVec2::new(width, height) / 2.0,
        }
    }

    /// Whether the forms share a point of a fine raster of the first one: slow, but
    /// shares nothing with the test by separating axes.
    fn share_a_raster_point(a: &OrientedBox, holds: impl Fn(PaperPoint) -> bool) -> bool {
        (0..=60).any(|i| {
            (0..=60).any(|j| {
                let (u, v) = (f64::from(i) / 30.0 - 1.0, f64::from(j) / 30.0 - 1.0);
                holds(a.centre + a.along * (a.half.x * u) + a.across() * (a.half.y * v))
            })
        })
    }

    #[test]
    fn touching_boxes_do_not_overlap() {
        let a = a_box(0.0, 0.0, 10.0, 4.0, 0.0);
        assert!(!boxes_overlap(&a, &a_box(10.0, 0.0, 10.0, 4.0, 0.0)));
        assert!(boxes_overlap(&a, &a_box(9.999, 0.0, 10.0, 4.0, 0.0)));
        assert!(boxes_overlap(&a, &a));
    }

    #[test]
    fn turned_boxes_are_apart_though_their_bounds_are_not() {
        let a = a_box(0.0, 0.0, 40.0, 3.0, 45.0);
        assert!(!boxes_overlap(&a, &a_box(10.0, 10.0, 8.0, 3.0, 0.0)));
        assert!(boxes_overlap(&a, &a_box(10.0, -10.0, 8.0, 3.0, 0.0)));
        // Crossing, though neither holds a corner of the other.
        assert!(boxes_overlap(&a, &a_box(0.0, 0.0, 40.0, 3.0, -45.0)));
    }

    #[test]
    fn boxes_agree_with_a_raster() {
        let mut random = fastrand::Rng::with_seed(17);
        let (mut n_over, mut n_apart) = (0, 0);
        for _ in 0..500 {
            let mut any = || {
                a_box(
                    random.f64() * 20.0,
                    random.f64() * 20.0,
                    1.0 + random.f64() * 15.0,
                    1.0 + random.f64() * 4.0,
                    random.f64() * 360.0,
                )
            };
            let (a, b) = (any(), any());
            let holds = |p: PaperPoint| distance_to_point(b.half, inside(&b, p)) == 0.0;
            let seen = share_a_raster_point(&a, holds);
            // A raster may miss a sliver, so ask it only about boxes a little larger and smaller.
            if seen {
                assert!(boxes_overlap(&a.grown(1e-3), &b), "{a:?} {b:?}");
                n_over += 1;
            } else {
                assert!(
                    !boxes_overlap(&a.grown(-0.4), &b.grown(-0.4)),
                    "{a:?} {b:?}"
                );
                n_apart += 1;
            }
        }
        assert!(
            50 < n_over && 50 < n_apart,
            "{n_over} over, {n_apart} apart"
        );
    }

    #[test]
    fn lines_have_their_width() {
        let area = a_box(0.0, 0.0, 10.0, 4.0, 30.0);
        let line_at = |height: f64, half_width: f64| {
            let (along, up) = directions(30.0);
            Ground::Line(
                [up * height - along * 3.0, up * height + along * 3.0],
                half_width,
            )
        };
        assert!(lies_on(&area, &line_at(2.1, 0.125)));
        assert!(!lies_on(&area, &line_at(2.1, 0.09)));
        assert!(!lies_on(&area, &line_at(2.1, 0.1)), "touching");
        assert!(lies_on(&area, &line_at(0.0, 0.065)), "wholly inside");
        let past_the_corner = Ground::Line(
            [PaperPoint::new(9.0, 0.0), PaperPoint::new(9.0, -9.0)],
            0.35,
        );
        assert!(!lies_on(&area, &past_the_corner));
    }

    #[test]
    fn a_text_within_a_ring_is_free_until_it_meets_the_line() {
        let ring = Ground::Ring(PaperPoint::ZERO, 5.0, 0.125);
        assert!(!lies_on(&a_box(0.0, 0.0, 6.0, 3.0, 0.0), &ring));
        assert!(lies_on(&a_box(0.0, 0.0, 9.6, 3.0, 0.0), &ring));
        assert!(lies_on(&a_box(5.0, 0.0, 1.0, 1.0, 0.0), &ring));
        assert!(!lies_on(&a_box(9.0, 0.0, 1.0, 1.0, 0.0), &ring));
        let disc = Ground::Disc(PaperPoint::ZERO, 5.0);
        assert!(lies_on(&a_box(0.0, 0.0, 6.0, 3.0, 0.0), &disc));
    }

    #[test]
    fn holes_are_free() {
        let square = |half: f64| {
            a_box(0.0, 0.0, 2.0 * half, 2.0 * half, 0.0)
                .corners()
                .to_vec()
        };
        let frame = Shape::from(Area {
            outline: square(10.0),
            holes: vec![square(5.0)],
        });
        let [ground] = &grounds(&frame)[..] else {
            panic!("one polygon")
        };
        assert!(!lies_on(&a_box(0.0, 0.0, 9.0, 3.0, 0.0), ground));
        assert!(lies_on(&a_box(0.0, 0.0, 11.0, 3.0, 0.0), ground));
        assert!(
            lies_on(&a_box(7.5, 0.0, 2.0, 2.0, 20.0), ground),
            "wholly inside"
        );
        assert!(
            lies_on(&a_box(0.0, 0.0, 60.0, 60.0, 20.0), ground),
            "wholly around"
        );
        assert!(
            !lies_on(&a_box(11.0, 0.0, 2.0, 2.0, 0.0), ground),
            "touching"
        );
    }

    #[test]
    fn chords_keep_to_their_arc() {
        let arc = Arc {
            centre: PaperPoint::new(3.0, 4.0),
            radius_mm: 50.0,
            from_degrees: 10.0,
            sweep_degrees: -200.0,
            pen: Pen::THIN,
        };
        let points = chords(&arc);
        assert!(points.len() < 400);
        for pair in points.windows(2) {
            let sagitta = 50.0 - pair[0].midpoint(pair[1]).distance(arc.centre);
            assert!(sagitta <= CHORD_SAGITTA_MM * 1.01);
        }
        let length: f64 = points
            .windows(2)
            .map(|pair| pair[0].distance(pair[1]))
            .sum();
        assert!((length - 50.0 * 200.0_f64.to_radians()).abs() < 0.1);
    }

    #[test]
    fn every_drawn_shape_has_a_ground() {
        let circle = Circle {
            centre: PaperPoint::ZERO,
            radius_mm: 1.0,
            finish: Finish::Drawn(Pen::BOLD),
        };
        assert_eq!(
            grounds(&circle.into()),
            [Ground::Ring(PaperPoint::ZERO, 1.0, 0.25)]
        );
    }
}
