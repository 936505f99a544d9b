//! What a site asks of the catalogue.

use super::Path;
use crate::catalogue::{Catalogue, Family, FamilyShape};
use crate::problem::{Check, Problems};
use crate::site::{Run, RunShape, Site};

/// Whether the catalogue holds every heater that the site's runs name, in all schemes.
///
/// # Errors
/// Every run whose family or size is unknown, or whose shape is not its family's.
pub fn validate_against(site: &Site, catalogue: &Catalogue) -> Result<(), Problems> {
    let mut problems = Problems::default();
    for (i, scheme) in site.schemes.iter().enumerate() {
        for (j, run) in scheme.runs.iter().enumerate() {
            let mut check = Check::of(&mut problems, Path::Run(i, j), &run.id);
            check_heater(run, catalogue, &mut check);
        }
    }
    problems.into_result()
}

fn check_heater(run: &Run, catalogue: &Catalogue, check: &mut Check<'_>) {
    let Some(family) = catalogue.family(&run.family) else {
        let known = listed(catalogue.families().iter().map(|family| family.id.as_str()));
        let accepted = format_args!(
            "one of {known}, or a catalogue file that holds {:?} given along with the site",
            run.family
        );
        check.refuse("family", format_args!("{:?}", run.family), accepted);
        return;
    };
    if !family.sizes.iter().any(|size| size.id == run.size) {
        let known = listed(family.sizes.iter().map(|size| size.id.as_str()));
        let accepted = format_args!("one of {known} of family {}", family.id);
        check.refuse("size", format_args!("{:?}", run.size), accepted);
    }
    match (run.shape, family.shape) {
        (RunShape::Straight, FamilyShape::Straight)
        | (RunShape::Hairpin { .. }, FamilyShape::Hairpin { .. }) => {}
        (RunShape::Straight, FamilyShape::Hairpin { .. }) => {
            check.refuse("shape", "Straight", of_family(family, "Hairpin"));
        }
        (RunShape::Hairpin { .. }, FamilyShape::Straight) => {
            check.refuse("shape", "Hairpin", of_family(family, "Straight"));
        }
    }
}

fn of_family(family: &Family, shape: &str) -> String {
    format!("{shape}, as family {} is", family.id)
}

/// The first few of a list of ids.
fn listed<'a>(ids: impl Iterator<Item = &'a str>) -> String {
    /// Enough to see the pattern of the ids in one line.
    const SHOWN: usize = 12;
    let mut ids = ids.peekable();
    let mut text: Vec<&str> = ids.by_ref().take(SHOWN).collect();
    if text.is_empty() {
        text.push("(none)");
    }
    if ids.peek().is_some() {
        text.push("...");
    }
    text.join(", ")
}
