//! One way to write each value: bearings from 0 up to 360 degrees.

use super::{Framing, Object, Obstruction, Roof, Run, Scheme, Site, TopSlope};
use crate::units::Angle;
use std::sync::Arc;

/// A bearing in 0 to 360 degrees, 360 excluded; what is no number stays as it is.
pub(super) fn bearing(bearing: Angle) -> Angle {
    let degrees = bearing.as_degrees();
    if (0.0..360.0).contains(&degrees) {
        return bearing;
    }
    let turned = degrees.rem_euclid(360.0);
    // A hair below 0 rounds up to a whole turn.
    Angle::degrees(if turned == 360.0 { 0.0 } else { turned })
}

/// An object with its bearings in range; the same object where they are already.
pub(super) fn object(object: &Object) -> Object {
    match object {
        Object::Bay(bay) => {
            let turned = roof(&bay.roof);
            if turned == bay.roof {
                return object.clone();
            }
            let mut next = bay.as_ref().clone();
            next.roof = turned;
            Object::Bay(Arc::new(next))
        }
        Object::Framing(framing) if bearing(framing.bearing) != framing.bearing => {
            Object::Framing(Arc::new(Framing {
                bearing: bearing(framing.bearing),
                ..framing.as_ref().clone()
            }))
        }
        Object::Obstruction(it) => Object::Obstruction(obstruction(it)),
        Object::Run(it) => Object::Run(run(it)),
        _ => object.clone(),
    }
}

/// A scheme with the bearings of its runs in range; the same where they are already.
pub(super) fn scheme(scheme: &Arc<Scheme>) -> Arc<Scheme> {
    let is_normal = |run: &Arc<Run>| bearing(run.bearing) == run.bearing;
    if scheme.runs.iter().all(is_normal) {
        return Arc::clone(scheme);
    }
    Arc::new(Scheme {
        runs: scheme.runs.iter().map(run).collect(),
        ..scheme.as_ref().clone()
    })
}

fn obstruction(it: &Arc<Obstruction>) -> Arc<Obstruction> {
    let Some(slope) = it.particulars.top_slope else {
        return Arc::clone(it);
    };
    let turned = bearing(slope.rises_toward);
    if turned == slope.rises_toward {
        return Arc::clone(it);
    }
    let mut next = it.as_ref().clone();
    next.particulars.top_slope = Some(TopSlope {
        rises_toward: turned,
        ..slope
    });
    Arc::new(next)
}

fn run(run: &Arc<Run>) -> Arc<Run> {
    let turned = bearing(run.bearing);
    if turned == run.bearing {
        return Arc::clone(run);
    }
    Arc::new(Run {
        bearing: turned,
        ..run.as_ref().clone()
    })
}

fn roof(roof: &Roof) -> Roof {
    match *roof {
        Roof::Flat => Roof::Flat,
        Roof::SingleSlope {
            rises_toward,
            pitch,
        } => Roof::SingleSlope {
            rises_toward: bearing(rises_toward),
            pitch,
        },
        Roof::Gable {
            ridge_through,
            ridge_bearing,
            pitch,
        } => Roof::Gable {
            ridge_through,
            ridge_bearing: bearing(ridge_bearing),
            pitch,
        },
    }
}

impl Site {
    /// The site with all bearings from 0 up to 360 degrees.
    #[must_use]
    pub fn normalised(mut self) -> Self {
        for bay in &mut self.bays {
            if let Object::Bay(next) = object(&Object::Bay(Arc::clone(bay))) {
                *bay = next;
            }
        }
        for framing in &mut self.framings {
            if let Object::Framing(next) = object(&Object::Framing(Arc::clone(framing))) {
                *framing = next;
            }
        }
        for it in &mut self.obstructions {
            *it = obstruction(it);
        }
        for it in &mut self.schemes {
            *it = scheme(it);
        }
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bearings_come_into_one_turn() {
        for (found, expected) in [
            (0.0, 0.0),
            (359.5, 359.5),
            (360.0, 0.0),
            (-90.0, 270.0),
            (-1e-20, 0.0),
            (725.0, 5.0),
        ] {
            assert_eq!(bearing(Angle::degrees(found)), Angle::degrees(expected));
        }
        assert!(bearing(Angle::degrees(f64::NAN)).as_degrees().is_nan());
    }
}
