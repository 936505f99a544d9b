//! `catalogue`: check a catalogue file and print it as a table.

use super::arguments::CatalogueFile;
use super::{Failure, Outcome, answer};
use crate::catalogue::{Family, FamilyShape};
use crate::store;
use crate::units::Length;
use std::fmt::Write;

pub(super) fn run(file: &CatalogueFile) -> Result<Outcome, Failure> {
    let families = store::open_catalogue(&file.file).map_err(|error| Failure(error.to_string()))?;
    let mut out = String::new();
    for family in &families {
        // Writing to a String can't fail.
        let _ok = table(&mut out, family);
    }
    answer(&out);
    Ok(Outcome::Clean)
}

fn metres(length: Length) -> String {
    format!("{:.2} m", length.as_metres())
}

fn table(out: &mut String, family: &Family) -> std::fmt::Result {
    let certified = if family.source.certified {
        "certified"
    } else {
        "NOT CERTIFIED: not for construction"
    };
    let shape = match family.shape {
        FamilyShape::Straight => "straight".to_owned(),
        FamilyShape::Hairpin { leg_spacing, .. } => {
            format!("hairpin (U-tube), legs {} apart", metres(leg_spacing))
        }
    };
    writeln!(out, "{} - {}, {shape}", family.id, family.name)?;
    writeln!(
        out,
        "{certified}; {} {} {}",
        family.source.document, family.source.revision, family.source.date
    )?;
    writeln!(
        out,
        "\n  {:<14}{:>10}{:>10}{:>10}{:>18}",
        "size", "input net", "tube", "burner", "least suspension"
    )?;
    for size in &family.sizes {
        writeln!(
            out,
            "  {:<14}{:>7.1} kW{:>10}{:>7.1} kg{:>18}",
            size.id,
            size.input_net.as_kilowatts(),
            metres(size.tube_length),
            size.burner_mass.as_kilograms(),
            metres(family.least_suspension(size))
        )?;
    }
    let hanging = &family.hanging;
    let window = |from: Length, to: Length| format!("{} to {}", metres(from), metres(to));
    writeln!(out, "\n  hanging")?;
    for (what, figure) in [
        (
            "first hanger from the flange",
            window(hanging.first_least, hanging.first_greatest),
        ),
        (
            "second after the first",
            window(hanging.second_least, hanging.second_greatest),
        ),
        (
            "further ones apart",
            window(hanging.spacing_least, hanging.spacing_greatest),
        ),
        ("end overhang at most", metres(hanging.overhang_greatest)),
        ("off tube joints at least", metres(hanging.joint_keep_off)),
        ("tube joints every", metres(family.joint_spacing)),
        (
            "slope",
            format!("{:.1} mm/m down from the burner", hanging.slope * 1000.0),
        ),
        (
            "swing at most",
            format!("{:.1} deg", hanging.swing_greatest.as_degrees()),
        ),
        (
            "lean at most",
            format!("{:.1} deg", hanging.lean_greatest.as_degrees()),
        ),
        (
            "mass per metre",
            format!(
                "{:.2} kg/m",
                family.mass_per_metre().as_kilograms_per_metre()
            ),
        ),
        (
            "mounting height",
            window(family.mounting.least, family.mounting.greatest),
        ),
    ] {
        writeln!(out, "    {what:<30}{figure}")?;
    }
    writeln!(
        out,
        "\n  keep clear, m\n    {:<16}{:<8}{:>7}{:>7}{:>7}{:>7}{:>8}{:>9}",
        "tilt", "shields", "above", "below", "front", "rear", "burner", "exhaust"
    )?;
    for band in &family.keep_clear {
        let clear = &band.distances;
        let shields = format!("{:?}", band.shields).to_lowercase();
        writeln!(
            out,
            "    {:<16}{shields:<8}{:>7.2}{:>7.2}{:>7.2}{:>7.2}{:>8.2}{:>9.2}",
            format!(
                "{:.0} to {:.0} deg",
                band.tilt_from.as_degrees(),
                band.tilt_to.as_degrees()
            ),
            clear.above.as_metres(),
            clear.below.as_metres(),
            clear.front.as_metres(),
            clear.rear.as_metres(),
            clear.burner_end.as_metres(),
            clear.exhaust_end.as_metres()
        )?;
    }
    writeln!(out)
}
