//! `catalogue`: check a catalogue file and print it as a table.

use super::arguments::CatalogueFile;
use super::{Failure, Outcome, answer};
use crate::catalogue::{
    Family, FamilyShape, Form, HangerEyes, HardwareTable, KeepClearBand, Source, Strength,
};
use crate::store::{self, CatalogueContents};
use crate::units::Length;
use std::fmt::Write;

pub(super) fn run(file: &CatalogueFile) -> Result<Outcome, Failure> {
    let contents =
        store::open_catalogue_contents(&file.file).map_err(|error| Failure(error.to_string()))?;
    let mut out = String::new();
    // Writing to a String can't fail.
    match contents {
        CatalogueContents::Families(families) => {
            for family in &families {
                let _ok = table(&mut out, family);
            }
        }
        CatalogueContents::Hardware(hardware) => {
            let _ok = hardware_table(&mut out, &hardware);
        }
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
            "suspensions of a hanger",
            match hanging.eyes {
                HangerEyes::One => "one".to_owned(),
                HangerEyes::Two { apart } => {
                    format!("two, their eyes {} apart across", metres(apart))
                }
            },
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
    keep_clear_table(out, "", &family.keep_clear)?;
    for size in &family.sizes {
        if let Some(heights) = size.mounting {
            let heights = window(heights.least, heights.greatest);
            writeln!(out, "\n  mounting height of {}: {heights}", size.id)?;
        }
        if !size.keep_clear.is_empty() {
            keep_clear_table(out, &format!(" of {}", size.id), &size.keep_clear)?;
        }
    }
    writeln!(out)
}

fn keep_clear_table(out: &mut String, of: &str, bands: &[KeepClearBand]) -> std::fmt::Result {
    writeln!(
        out,
        "\n  keep clear{of}, m\n    {:<16}{:<8}{:>7}{:>7}{:>7}{:>7}{:>8}{:>9}",
        "tilt", "shields", "above", "below", "front", "rear", "burner", "exhaust"
    )?;
    for band in bands {
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
    Ok(())
}

/// A strength in words, with the design factor that it is meant for.
fn strength(strength: Strength) -> String {
    match strength {
        Strength::Limit { load, factor } => {
            format!("{:.0} N at {factor}:1", load.as_newtons())
        }
        Strength::Break { load, terminations } => format!(
            "breaks at {:.0} N, terminations leave {terminations}",
            load.as_newtons()
        ),
    }
}

fn hardware_table(out: &mut String, hardware: &HardwareTable) -> std::fmt::Result {
    let source = |source: &Source| source.document.clone();
    writeln!(out, "chain, rod and wire rope")?;
    for size in &hardware.sizes {
        let form = match &size.form {
            Form::Chain { link } => format!("links of {:.1} mm", link.as_millimetres()),
            Form::Rod { thread } => format!("thread {thread}"),
            Form::Rope { loops } => format!("{} more for its loops", metres(*loops)),
        };
        let offered = if size.offered { "" } else { ", never chosen" };
        writeln!(
            out,
            "  {:<16}{}, {form}, {}, end fittings {}, pieces of {} to {}{offered}",
            size.id,
            size.name,
            strength(size.strength),
            metres(size.ends),
            metres(size.least),
            metres(size.greatest),
        )?;
        writeln!(out, "  {:<16}{}", "", source(&size.source))?;
    }
    writeln!(out, "\nadjusters")?;
    for adjuster in &hardware.adjusters {
        let kinds: Vec<&str> = adjuster.serves.iter().map(|kind| kind.label()).collect();
        writeln!(
            out,
            "  {:<16}{}, for {}, {} to {}, {}",
            adjuster.id,
            adjuster.name,
            kinds.join(" and "),
            metres(adjuster.shortest),
            metres(adjuster.longest),
            strength(adjuster.strength),
        )?;
        writeln!(out, "  {:<16}{}", "", source(&adjuster.source))?;
    }
    writeln!(out, "\nclamps and brackets")?;
    for attachment in &hardware.attachments {
        let to: Vec<&str> = attachment.holds_to.iter().map(|to| to.label()).collect();
        writeln!(
            out,
            "  {:<16}{}, to {}, takes {}, {}",
            attachment.id,
            attachment.name,
            to.join(" and "),
            metres(attachment.make_up),
            strength(attachment.strength),
        )?;
        writeln!(out, "  {:<16}{}", "", source(&attachment.source))?;
    }
    Ok(())
}
