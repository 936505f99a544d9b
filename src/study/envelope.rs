//! A run as clearance sees it, from the document and the catalogue.

use crate::catalogue::{Family, FamilyShape, HeaterSize, KeepClearBand, ShieldSet};
use crate::clearance::{
    self, BurnerBox, ExhaustBox, Form, KeepClear, KeepClearRow, Required, RowShields, RunBodies,
    RunFigures,
};
use crate::geometry::Frame;
use crate::site::policy::PolicyItem;
use crate::site::{Policy, Run, RunShape, Shields, Side};

/// The run's bodies in space.
pub(super) fn bodies(run: &Run, family: &Family, size: &HeaterSize) -> RunBodies {
    let figures = RunFigures {
        leg_length_m: family.leg_length(size).as_metres(),
        form: form(run, family),
        tube_diameter_m: family.tube_diameter.as_metres(),
        reflector: family.reflector.profile.clone(),
        tilt_degrees: run.tilt.as_degrees(),
        burner: BurnerBox {
            length_m: family.burner.length.as_metres(),
            width_m: family.burner.width.as_metres(),
            above_axis_m: family.burner.above_axis.as_metres(),
            below_axis_m: family.burner.below_axis.as_metres(),
        },
        exhaust: ExhaustBox {
            length_m: family.exhaust.length.as_metres(),
            diameter_m: family.exhaust.diameter.as_metres(),
        },
    };
    RunBodies {
        frame: Frame::sloped(
            run.burner.extend(run.tube_height.as_metres()),
            run.bearing.as_degrees(),
            family.hanging.slope,
        ),
        bodies: clearance::bodies(&figures),
    }
}

/// The family's form with the run's return side. A checked site's run has its family's form.
pub(super) fn form(run: &Run, family: &Family) -> Form {
    match family.shape {
        FamilyShape::Straight => Form::Straight,
        FamilyShape::Hairpin {
            leg_spacing,
            bend_length,
            ..
        } => Form::Hairpin {
            leg_spacing_m: leg_spacing.as_metres(),
            bend_length_m: bend_length.as_metres(),
            return_leg: match run.shape {
                RunShape::Hairpin {
                    return_leg: Side::Right,
                } => clearance::Side::Right,
                RunShape::Hairpin {
                    return_leg: Side::Left,
                }
                | RunShape::Straight => clearance::Side::Left,
            },
        },
    }
}

/// The size's distances to what burns at the run's tilt and shields; none outside every
/// tilt band.
pub(super) fn keep_clear(run: &Run, bands: &[KeepClearBand]) -> Option<KeepClear> {
    let shields = match run.shields {
        Shields::None => clearance::Shields::None,
        Shields::Left => clearance::Shields::Left,
        Shields::Right => clearance::Shields::Right,
        Shields::Both => clearance::Shields::Both,
    };
    clearance::keep_clear(&rows(bands), run.tilt.as_degrees(), shields)
}

/// The greatest figure of all bands in each direction, for a tilt that none of them has.
pub(super) fn greatest_keep_clear(bands: &[KeepClearBand]) -> KeepClear {
    let greatest = |figure: fn(&KeepClear) -> f64| {
        rows(bands)
            .iter()
            .map(|row| figure(&row.distances))
            .fold(0.0, f64::max)
    };
    KeepClear {
        above_m: greatest(|figures| figures.above_m),
        below_m: greatest(|figures| figures.below_m),
        front_m: greatest(|figures| figures.front_m),
        rear_m: greatest(|figures| figures.rear_m),
        burner_end_m: greatest(|figures| figures.burner_end_m),
        exhaust_end_m: greatest(|figures| figures.exhaust_end_m),
    }
}

fn rows(bands: &[KeepClearBand]) -> Vec<KeepClearRow> {
    bands
        .iter()
        .map(|band| KeepClearRow {
            tilt_from_degrees: band.tilt_from.as_degrees(),
            tilt_to_degrees: band.tilt_to.as_degrees(),
            shields: match band.shields {
                ShieldSet::None => RowShields::None,
                ShieldSet::Front => RowShields::Front,
                ShieldSet::Rear => RowShields::Rear,
                ShieldSet::Both => RowShields::Both,
            },
            distances: KeepClear {
                above_m: band.distances.above.as_metres(),
                below_m: band.distances.below.as_metres(),
                front_m: band.distances.front.as_metres(),
                rear_m: band.distances.rear.as_metres(),
                burner_end_m: band.distances.burner_end.as_metres(),
                exhaust_end_m: band.distances.exhaust_end.as_metres(),
            },
        })
        .collect()
}

/// The distances to what does not burn: policy, the same for every heater.
pub(super) fn to_what_does_not_burn(policy: &Policy) -> Required {
    let value = |item| policy.value(item);
    let side_m = value(PolicyItem::NonCombustibleSide);
    let end_m = value(PolicyItem::NonCombustibleEnd);
    Required {
        above_m: value(PolicyItem::NonCombustibleAbove),
        below_m: value(PolicyItem::NonCombustibleBelow),
        left_m: side_m,
        right_m: side_m,
        near_end_m: end_m,
        far_end_m: end_m,
    }
}
