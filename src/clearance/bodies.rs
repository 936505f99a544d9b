//! What a run is made of, as boxes along its own axes.

use crate::geometry::math::sin_cos_degrees;
use crate::geometry::{Bounds, ConvexSolid, DVec2, DVec3, Frame};

/// A side, seen along the bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// The form of the tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Form {
    /// One tube along the axis.
    Straight,
    /// Two legs beside the axis, joined by a bend at the far end (U-tube). Burner and
    /// exhaust are both at the near end.
    Hairpin {
        /// Distance between the axes of the legs, m.
        leg_spacing_m: f64,
        /// How far the bend reaches beyond the legs, m.
        bend_length_m: f64,
        /// The side of the leg that comes back to the exhaust.
        return_leg: Side,
    },
}

/// The burner's body: a box behind the flange, centred on the burner leg's axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BurnerBox {
    /// Length behind the flange, m.
    pub length_m: f64,
    /// Width, m.
    pub width_m: f64,
    /// Reach above the tube axis, m.
    pub above_axis_m: f64,
    /// Reach below the tube axis, m.
    pub below_axis_m: f64,
}

/// The exhaust fitting: a box beyond the tube's exhaust end, centred on its axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ExhaustBox {
    /// Length beyond the tube, m.
    pub length_m: f64,
    /// Width and height, m.
    pub diameter_m: f64,
}

/// The plain figures that a run's bodies are built from.
#[derive(Debug, Clone, PartialEq)]
pub struct RunFigures {
    /// Length of the tube, or of one leg, m.
    pub leg_length_m: f64,
    /// The form of the tube.
    pub form: Form,
    /// Outside diameter of the tube, m.
    pub tube_diameter_m: f64,
    /// The reflector's cross-section at no tilt, points (left, up) from the axis, m.
    pub reflector: Vec<DVec2>,
    /// Turn of the reflector about the axis, degrees; positive aims left.
    pub tilt_degrees: f64,
    /// The burner's body.
    pub burner: BurnerBox,
    /// The exhaust fitting.
    pub exhaust: ExhaustBox,
}

/// A part of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// The burner's body.
    Burner,
    /// The tube, or both legs, with the tilted reflector.
    Tube,
    /// The bend of a hairpin.
    Bend,
    /// The exhaust fitting.
    Exhaust,
}

impl Part {
    /// The trade's name for it.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Burner => "burner",
            Self::Tube => "tube and reflector",
            Self::Bend => "return bend",
            Self::Exhaust => "exhaust fitting",
        }
    }
}

/// One part of a run with its bounding box in (s, l, u), cold, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Body {
    /// Which part.
    pub part: Part,
    /// Its box: station along the tube from the burner flange, left, up.
    pub local: Bounds,
}

/// A run as clearance sees it: boxes along the axes of its frame.
#[derive(Debug, Clone, PartialEq)]
pub struct RunBodies {
    /// The tube axis at the burner flange (of a hairpin: midway between the legs),
    /// with the run's bearing and slope.
    pub frame: Frame,
    /// The bodies.
    pub bodies: Vec<Body>,
}

impl RunBodies {
    /// The bodies as solids in site space, each with its part; one without a volume is left out.
    #[must_use]
    pub fn solids(&self) -> Vec<(Part, ConvexSolid)> {
        self.bodies
            .iter()
            .filter_map(|body| {
                Some((
                    body.part,
                    ConvexSolid::turned_box(&self.frame, &body.local)?,
                ))
            })
            .collect()
    }
}

/// The bodies of a run: burner, tube with tilted reflector, bend, exhaust fitting.
///
/// The tilt turns the reflector about the axis, not the burner.
#[must_use]
pub fn bodies(figures: &RunFigures) -> Vec<Body> {
    let length_m = figures.leg_length_m;
    let radius_m = figures.tube_diameter_m / 2.0;
    let (burner_l, exhaust_l, bend) = match figures.form {
        Form::Straight => (0.0, 0.0, None),
        Form::Hairpin {
            leg_spacing_m,
            bend_length_m,
            return_leg,
        } => {
            let half_m = leg_spacing_m / 2.0;
            let exhaust_l = match return_leg {
                Side::Left => half_m,
                Side::Right => -half_m,
            };
            let reach_m = half_m + radius_m;
            let bend = Body {
                part: Part::Bend,
                local: Bounds {
                    low: DVec3::new(length_m, -reach_m, -radius_m),
                    high: DVec3::new(length_m + bend_length_m, reach_m, radius_m),
                },
            };
            (-exhaust_l, exhaust_l, Some(bend))
        }
    };
    let burner = &figures.burner;
    let exhaust = &figures.exhaust;
    let half_exhaust_m = exhaust.diameter_m / 2.0;
    // The exhaust of a hairpin leaves at the near end, beside the burner.
    let (exhaust_from, exhaust_to) = match figures.form {
        Form::Straight => (length_m, length_m + exhaust.length_m),
        Form::Hairpin { .. } => (-exhaust.length_m, 0.0),
    };
    let mut bodies = vec![
        Body {
            part: Part::Burner,
            local: Bounds {
                low: DVec3::new(
                    -burner.length_m,
                    burner_l - burner.width_m / 2.0,
                    -burner.below_axis_m,
                ),
                high: DVec3::new(0.0, burner_l + burner.width_m / 2.0, burner.above_axis_m),
            },
        },
        Body {
            part: Part::Tube,
            local: tube_with_reflector(figures, burner_l.abs() + radius_m, radius_m),
        },
    ];
    bodies.extend(bend);
    bodies.push(Body {
        part: Part::Exhaust,
        local: Bounds {
            low: DVec3::new(exhaust_from, exhaust_l - half_exhaust_m, -half_exhaust_m),
            high: DVec3::new(exhaust_to, exhaust_l + half_exhaust_m, half_exhaust_m),
        },
    });
    bodies
}

/// The box round the tubes, which reach `reach_m` to the sides and `radius_m` up and
/// down, and the reflector's cross-section turned by the tilt.
fn tube_with_reflector(figures: &RunFigures, reach_m: f64, radius_m: f64) -> Bounds {
    // Aiming left turns "down" (0, -1) towards "left" (1, 0), which lifts the left edge.
    let (sin, cos) = sin_cos_degrees(figures.tilt_degrees);
    let tubes = Bounds {
        low: DVec3::new(0.0, -reach_m, -radius_m),
        high: DVec3::new(figures.leg_length_m, reach_m, radius_m),
    };
    figures.reflector.iter().fold(tubes, |bounds, p| {
        let turned = DVec2::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
        Bounds {
            low: DVec3::new(
                bounds.low.x,
                bounds.low.y.min(turned.x),
                bounds.low.z.min(turned.y),
            ),
            high: DVec3::new(
                bounds.high.x,
                bounds.high.y.max(turned.x),
                bounds.high.z.max(turned.y),
            ),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A tube of 0.1 m under a flat reflector 0.6 m wide, 0.05 to 0.15 m above the axis.
    fn figures(form: Form, tilt_degrees: f64) -> RunFigures {
        RunFigures {
            leg_length_m: 12.0,
            form,
            tube_diameter_m: 0.1,
            reflector: [(-0.3, -0.05), (-0.2, 0.15), (0.2, 0.15), (0.3, -0.05)]
                .map(DVec2::from)
                .to_vec(),
            tilt_degrees,
            burner: BurnerBox {
                length_m: 0.5,
                width_m: 0.4,
                above_axis_m: 0.25,
                below_axis_m: 0.15,
            },
            exhaust: ExhaustBox {
                length_m: 0.2,
                diameter_m: 0.12,
            },
        }
    }

    fn check(figures: &RunFigures, expected: &[(Part, [f64; 3], [f64; 3])]) {
        let found = bodies(figures);
        assert_eq!(found.len(), expected.len());
        for (body, (part, low, high)) in found.iter().zip(expected) {
            assert_eq!(body.part, *part);
            assert!(
                body.local.low.abs_diff_eq(DVec3::from(*low), 1e-12)
                    && body.local.high.abs_diff_eq(DVec3::from(*high), 1e-12),
                "{body:?}"
            );
        }
    }

    #[test]
    fn a_straight_run_has_three_bodies_in_a_row() {
        check(
            &figures(Form::Straight, 0.0),
            &[
                (Part::Burner, [-0.5, -0.2, -0.15], [0.0, 0.2, 0.25]),
                (Part::Tube, [0.0, -0.3, -0.05], [12.0, 0.3, 0.15]),
                (Part::Exhaust, [12.0, -0.06, -0.06], [12.2, 0.06, 0.06]),
            ],
        );
    }

    #[test]
    fn a_hairpin_has_burner_and_exhaust_at_one_end() {
        let form = Form::Hairpin {
            leg_spacing_m: 0.4,
            bend_length_m: 0.3,
            return_leg: Side::Right,
        };
        check(
            &figures(form, 0.0),
            &[
                (Part::Burner, [-0.5, 0.0, -0.15], [0.0, 0.4, 0.25]),
                (Part::Tube, [0.0, -0.3, -0.05], [12.0, 0.3, 0.15]),
                (Part::Bend, [12.0, -0.25, -0.05], [12.3, 0.25, 0.05]),
                (Part::Exhaust, [-0.2, -0.26, -0.06], [0.0, -0.14, 0.06]),
            ],
        );
    }

    #[test]
    fn aiming_left_lifts_the_left_edge_and_leaves_the_burner() {
        let found = bodies(&figures(Form::Straight, 90.0));
        // A quarter turn: what was left is up, what was up is right.
        assert!(
            found[1]
                .local
                .low
                .abs_diff_eq(DVec3::new(0.0, -0.15, -0.3), 1e-12)
        );
        assert!(
            found[1]
                .local
                .high
                .abs_diff_eq(DVec3::new(12.0, 0.05, 0.3), 1e-12)
        );
        assert_eq!(found[0], bodies(&figures(Form::Straight, 0.0))[0]);
    }

    #[test]
    fn tilting_the_other_way_is_the_mirror_image() {
        let left = bodies(&figures(Form::Straight, 30.0))[1].local;
        let right = bodies(&figures(Form::Straight, -30.0))[1].local;
        assert!((left.low.y + right.high.y).abs() < 1e-12);
        assert!((left.low.z - right.low.z).abs() < 1e-12);
        assert!((left.high.z - right.high.z).abs() < 1e-12);
    }
}
