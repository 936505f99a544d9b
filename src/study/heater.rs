//! One run in the words of the engines: what the catalogue says of its family, looked
//! up for its size.

use crate::catalogue::{Family, FamilyShape, HangerEyes, HeaterSize};
use crate::geometry::tolerance;
use crate::hanging::{
    Eyes, HangingRule, PointMass, RunGeometry, RunWeight, TemperatureRise, Window,
};
use crate::site::Run;
use crate::site::bay::along;
use crate::units::Length;

/// Elastic modulus of the hot tube's steel, Pa: 170 GPa near 300 degC, against 210 GPa
/// cold (EN 1993-1-2, table 3.1). Only slack and level errors depend on it.
const HOT_STEEL_PA: f64 = 170.0e9;

/// Where the run's tube is.
pub(super) fn geometry(run: &Run, family: &Family, size: &HeaterSize) -> RunGeometry {
    let tube_length_m = family.leg_length(size).as_metres();
    RunGeometry {
        flange: run.burner.extend(run.tube_height.as_metres()),
        heading: along(run.bearing),
        slope: family.hanging.slope,
        tube_length_m,
        eye_rise_m: family.hanging.eye_rise.as_metres(),
        eyes: match family.hanging.eyes {
            HangerEyes::One => Eyes::One,
            HangerEyes::Two { apart } => Eyes::Two {
                apart_m: apart.as_metres(),
                tilt_rad: run.tilt.as_degrees().to_radians(),
            },
        },
        rise: TemperatureRise::assumed(tube_length_m),
    }
}

/// What its maker asks of its hangers, and the site's floor for its suspensions.
pub(super) fn hanging_rule(
    family: &Family,
    size: &HeaterSize,
    least_suspension_m: f64,
) -> HangingRule {
    let figures = &family.hanging;
    let window = |least: Length, greatest: Length| Window {
        least_m: least.as_metres(),
        greatest_m: greatest.as_metres(),
    };
    HangingRule {
        first: window(figures.first_least, figures.first_greatest),
        second: window(figures.second_least, figures.second_greatest),
        spacing: window(figures.spacing_least, figures.spacing_greatest),
        greatest_overhang_m: figures.overhang_greatest.as_metres(),
        joints_m: joints(family, size),
        joint_keep_off_m: figures.joint_keep_off.as_metres(),
        least_suspension_m: family
            .least_suspension(size)
            .as_metres()
            .max(least_suspension_m),
        greatest_lean_rad: figures.lean_greatest.as_degrees().to_radians(),
        greatest_swing_rad: figures.swing_greatest.as_degrees().to_radians(),
    }
}

/// Stations of the tube joints: multiples of the joint spacing strictly inside the leg.
pub(super) fn joints(family: &Family, size: &HeaterSize) -> Vec<f64> {
    let spacing = family.joint_spacing.as_metres();
    let leg = family.leg_length(size).as_metres();
    (1_u32..)
        .map(|n| spacing * f64::from(n))
        .take_while(|station| *station < leg - tolerance::SAME_POINT)
        .collect()
}

/// What hangs on its hangers.
pub(super) fn weight(family: &Family, size: &HeaterSize) -> RunWeight {
    let leg = family.leg_length(size).as_metres();
    let burner = PointMass {
        station_m: -family.burner.centre_behind_flange.as_metres(),
        mass_kg: size.burner_mass.as_kilograms(),
    };
    let half_fitting = family.exhaust.length.as_metres() / 2.0;
    let exhaust_mass = family.exhaust.mass.as_kilograms();
    let (legs, single) = match family.shape {
        FamilyShape::Straight => (
            1.0,
            vec![
                burner,
                PointMass {
                    station_m: leg + half_fitting,
                    mass_kg: exhaust_mass,
                },
            ],
        ),
        // A hairpin's exhaust comes back to the burner's end.
        FamilyShape::Hairpin {
            bend_length,
            bend_mass,
            ..
        } => (
            2.0,
            vec![
                burner,
                PointMass {
                    station_m: -half_fitting,
                    mass_kg: exhaust_mass,
                },
                PointMass {
                    station_m: leg + bend_length.as_metres() / 2.0,
                    mass_kg: bend_mass.as_kilograms(),
                },
            ],
        ),
    };
    RunWeight {
        spread_kg_per_m: family.mass_per_metre().as_kilograms_per_metre(),
        single,
        stiffness_n_m2: legs * tube_stiffness(family),
    }
}

/// Bending stiffness of one tube, N m2: E pi (D^4 - d^4) / 64.
fn tube_stiffness(family: &Family) -> f64 {
    let outside = family.tube_diameter.as_metres();
    let inside = outside - 2.0 * family.tube_wall.as_metres();
    let fourth = |x: f64| x * x * x * x;
    HOT_STEEL_PA * std::f64::consts::PI * (fourth(outside) - fourth(inside)) / 64.0
}
