//! The form of a heater as people know it: tubes, reflector, burner, in space.

use crate::catalogue::FamilyShape;
use crate::clearance::Part;
use crate::geometry::math::sin_cos_degrees;
use crate::geometry::{ConvexSolid, DVec2, DVec3};
use crate::study::RunStudy;

/// Sides of the prism that a tube is drawn as.
const SIDES: u32 = 12;

/// A heater in space. Its boxes are those that clearances are measured from; tubes and
/// reflector lie within them.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterForm {
    /// Burner, return bend, exhaust fitting.
    pub boxes: Vec<(Part, ConvexSolid)>,
    /// The box round tube and tilted reflector.
    pub around_tube: Option<ConvexSolid>,
    /// Each leg of the tube, as a prism of twelve sides.
    pub tubes: Vec<ConvexSolid>,
    /// The reflector's flat strips, four corners each, in order round the strip.
    pub reflector: Vec<[DVec3; 4]>,
}

impl HeaterForm {
    /// The heater of a studied run.
    #[must_use]
    pub fn of(study: &RunStudy) -> Self {
        let frame = &study.clearance.bodies.frame;
        let length_m = study.family.leg_length(&study.size).as_metres();
        let radius_m = study.family.tube_diameter.as_metres() / 2.0;
        let legs = match study.family.shape {
            FamilyShape::Straight => vec![0.0],
            FamilyShape::Hairpin { leg_spacing, .. } => {
                let half_m = leg_spacing.as_metres() / 2.0;
                vec![half_m, -half_m]
            }
        };
        let point = |s: f64, l: f64, u: f64| frame.site_from_local(DVec3::new(s, l, u));
        let tubes = legs
            .into_iter()
            .filter_map(|left_m| {
                let ring: Vec<(f64, f64)> = (0..SIDES)
                    .map(|k| {
                        // Flats above and below: the axis lies half a side from a corner.
                        let turn = (f64::from(k) + 0.5) * 360.0 / f64::from(SIDES);
                        let (sin, cos) = sin_cos_degrees(turn);
                        (left_m + radius_m * cos, radius_m * sin)
                    })
                    .collect();
                ConvexSolid::tube(
                    &ring
                        .iter()
                        .map(|&(l, u)| point(0.0, l, u))
                        .collect::<Vec<_>>(),
                    &ring
                        .iter()
                        .map(|&(l, u)| point(length_m, l, u))
                        .collect::<Vec<_>>(),
                )
            })
            .collect();
        let (sin, cos) = sin_cos_degrees(study.run.tilt.as_degrees());
        let turned = |p: &DVec2| DVec2::new(p.x * cos - p.y * sin, p.x * sin + p.y * cos);
        let profile: Vec<DVec2> = study.family.reflector.profile.iter().map(turned).collect();
        let reflector = profile
            .windows(2)
            .map(|pair| {
                let [a, b] = [pair[0], pair[1]];
                [
                    point(0.0, a.x, a.y),
                    point(length_m, a.x, a.y),
                    point(length_m, b.x, b.y),
                    point(0.0, b.x, b.y),
                ]
            })
            .collect();
        let solids = study.clearance.bodies.solids();
        let (around, boxes): (Vec<_>, Vec<_>) = solids
            .into_iter()
            .partition(|(part, _)| *part == Part::Tube);
        Self {
            boxes,
            around_tube: around.into_iter().next().map(|(_, solid)| solid),
            tubes,
            reflector,
        }
    }
}
