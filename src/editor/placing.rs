//! Objects at another place or another bearing.

use crate::geometry::DVec2;
use crate::geometry::math::sin_cos_degrees;
use crate::site::{Bay, Footprint, Framing, GridLine, Object, Obstruction, Roof, Run, WorkSpot};
use crate::units::Angle;
use std::sync::Arc;

/// A rigid motion of the plan: turned clockwise about the origin, then moved.
#[derive(Debug, Clone, Copy)]
struct Motion {
    sine: f64,
    cosine: f64,
    clockwise: Angle,
    by: DVec2,
}

impl Motion {
    fn point(&self, p: DVec2) -> DVec2 {
        DVec2::new(
            p.x * self.cosine + p.y * self.sine,
            p.y * self.cosine - p.x * self.sine,
        ) + self.by
    }

    fn points(&self, points: &[DVec2]) -> Vec<DVec2> {
        points.iter().map(|p| self.point(*p)).collect()
    }

    fn rings(&self, rings: &[Vec<DVec2>]) -> Vec<Vec<DVec2>> {
        rings.iter().map(|ring| self.points(ring)).collect()
    }

    fn bearing(&self, bearing: Angle) -> Angle {
        let turned = bearing.as_degrees() + self.clockwise.as_degrees();
        if self.clockwise == Angle::ZERO {
            bearing
        } else {
            Angle::degrees(turned.rem_euclid(360.0))
        }
    }

    fn roof(&self, roof: &Roof) -> Roof {
        match roof {
            Roof::Flat => Roof::Flat,
            Roof::SingleSlope {
                rises_toward,
                pitch,
            } => Roof::SingleSlope {
                rises_toward: self.bearing(*rises_toward),
                pitch: *pitch,
            },
            Roof::Gable {
                ridge_through,
                ridge_bearing,
                pitch,
            } => Roof::Gable {
                ridge_through: self.point(*ridge_through),
                ridge_bearing: self.bearing(*ridge_bearing),
                pitch: *pitch,
            },
        }
    }

    fn object(&self, object: &Object) -> Object {
        match object {
            Object::GridLine(it) => Object::GridLine(Arc::new(GridLine {
                from: self.point(it.from),
                to: self.point(it.to),
                ..GridLine::clone(it)
            })),
            Object::Bay(it) => Object::Bay(Arc::new(Bay {
                outline: self.points(&it.outline),
                holes: self.rings(&it.holes),
                roof: self.roof(&it.roof),
                ..Bay::clone(it)
            })),
            // It has no place of its own: it goes with its wall.
            Object::Opening(it) => Object::Opening(Arc::clone(it)),
            Object::Framing(it) => Object::Framing(Arc::new(Framing {
                anchor: self.point(it.anchor),
                bearing: self.bearing(it.bearing),
                ..Framing::clone(it)
            })),
            Object::Obstruction(it) => Object::Obstruction(Arc::new(Obstruction {
                footprint: match &it.footprint {
                    Footprint::Area { outline, holes } => Footprint::Area {
                        outline: self.points(outline),
                        holes: self.rings(holes),
                    },
                    Footprint::Line { points, width } => Footprint::Line {
                        points: self.points(points),
                        width: *width,
                    },
                },
                ..Obstruction::clone(it)
            })),
            Object::WorkSpot(it) => Object::WorkSpot(Arc::new(WorkSpot {
                at: self.point(it.at),
                ..WorkSpot::clone(it)
            })),
            Object::Run(it) => Object::Run(Arc::new(Run {
                burner: self.point(it.burner),
                bearing: self.bearing(it.bearing),
                ..Run::clone(it)
            })),
        }
    }
}

/// An object moved by a plan vector.
pub(super) fn moved(object: &Object, by: DVec2) -> Object {
    Motion {
        sine: 0.0,
        cosine: 1.0,
        clockwise: Angle::ZERO,
        by,
    }
    .object(object)
}

/// An object turned clockwise about a point.
pub(super) fn turned(object: &Object, about: DVec2, clockwise: Angle) -> Object {
    let (sine, cosine) = sin_cos_degrees(clockwise.as_degrees());
    let turn = Motion {
        sine,
        cosine,
        clockwise,
        by: DVec2::ZERO,
    };
    Motion {
        by: about - turn.point(about),
        ..turn
    }
    .object(object)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_turn_clockwise_sends_north_to_east() {
        let spot = |at: DVec2| {
            Object::GridLine(Arc::new(GridLine {
                id: "A".into(),
                from: at,
                to: at + DVec2::Y,
                notes: String::new(),
            }))
        };
        let about = DVec2::new(2.0, 1.0);
        let turned = turned(&spot(about), about, Angle::degrees(90.0));
        let Object::GridLine(line) = turned else {
            panic!("a grid line stays one");
        };
        assert_eq!(line.from, about);
        assert_eq!(line.to, about + DVec2::X);
    }
}
