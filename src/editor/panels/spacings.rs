//! Grid lines from their spacings, typed as people read them off a drawing:
//! `6 x 12 m`, or `5 m; 4 x 6 m; 5 m`.

use crate::editor::make::with_bearings;
use crate::geometry::DVec2;
use crate::site::{Edit, GridId, GridLine, Object, ObjectId, Site};
use crate::units::{Length, Quantity, UnitSystem};
use std::sync::Arc;

/// How far a grid line reaches beyond the building, so that its bubble stands free, m.
const OVERREACH_M: f64 = 3.0;

/// Most spacings in one direction: a typing slip must not fill the plan with lines.
const MOST_SPACINGS: usize = 200;

/// Which way lines run, and so how they are named.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Naming {
    /// `1`, `2`, ...: lines that run north, counted eastward.
    Numbers,
    /// `A`, `B`, ...: lines that run east, counted northward.
    Letters,
}

/// Reads spacings.
pub(super) fn parse(text: &str, system: UnitSystem) -> Result<Vec<Length>, String> {
    let mut spacings = Vec::new();
    for part in text
        .split([';', '+'])
        .map(str::trim)
        .filter(|part| !part.is_empty())
    {
        let (count, spacing) = counted(part)?;
        let spacing = Length::parse(spacing, system).map_err(|error| error.to_string())?;
        if spacing.as_metres() < 0.1 {
            return Err(format!(
                "“{part}”: grid lines stand at least {} apart",
                Length::metres(0.1).show_with_unit(system)
            ));
        }
        if spacings.len() + count > MOST_SPACINGS {
            return Err(format!("at most {MOST_SPACINGS} spacings in one direction"));
        }
        spacings.extend(std::iter::repeat_n(spacing, count));
    }
    if spacings.is_empty() {
        return Err("enter spacings such as 6 x 12 m, or 5 m; 4 x 6 m; 5 m".to_owned());
    }
    Ok(spacings)
}

/// `6 x 12 m` is six of 12 m, `12 m` is one.
fn counted(part: &str) -> Result<(usize, &str), String> {
    let Some((count, spacing)) = part.split_once(['x', 'X', '×', '*']) else {
        return Ok((1, part));
    };
    match count.trim().parse() {
        Ok(count) if (1..=MOST_SPACINGS).contains(&count) => Ok((count, spacing)),
        _ => Err(format!(
            "“{}” is no number of spacings; enter 1 to {MOST_SPACINGS}",
            count.trim()
        )),
    }
}

/// Grid lines at spacings in place of those that had this naming before. They begin at
/// the building's south-west corner, or at the origin where there is none.
pub(super) fn lay(site: &Site, naming: Naming, spacings: &[Length]) -> Edit {
    let (least, greatest) = building(site);
    let is_named_so = |line: &GridLine| {
        let numbered = line.id.as_str().starts_with(|c: char| c.is_ascii_digit());
        numbered == (naming == Naming::Numbers)
    };
    let names: Vec<String> = (0..=spacings.len()).map(|k| name(naming, k)).collect();
    let mut edits: Vec<Edit> = site
        .grid
        .iter()
        .filter(|line| is_named_so(line) && !names.contains(&line.id.as_str().to_owned()))
        .map(|line| Edit::Remove(ObjectId::GridLine(line.id.clone())))
        .collect();
    let mut at = 0.0;
    for (k, name) in names.iter().enumerate() {
        let (from, to) = match naming {
            Naming::Numbers => (
                DVec2::new(least.x + at, greatest.y.max(least.y + 1.0) + OVERREACH_M),
                DVec2::new(least.x + at, least.y - OVERREACH_M),
            ),
            Naming::Letters => (
                DVec2::new(least.x - OVERREACH_M, least.y + at),
                DVec2::new(greatest.x.max(least.x + 1.0) + OVERREACH_M, least.y + at),
            ),
        };
        edits.push(Edit::Put(Object::GridLine(Arc::new(GridLine {
            id: GridId::new(name),
            from,
            to,
            notes: String::new(),
        }))));
        at += spacings.get(k).map_or(0.0, |spacing| spacing.as_metres());
    }
    // Framings that were there first come to bear on the lines that cross them.
    if let Ok(next) = Edit::All(edits.clone()).apply(site) {
        let laid: Vec<Arc<GridLine>> = next
            .grid
            .iter()
            .filter(|line| names.iter().any(|name| name == line.id.as_str()))
            .cloned()
            .collect();
        edits.extend(with_bearings(&next, &laid));
    }
    Edit::All(edits)
}

/// South-west and north-east corner of all bays; without a bay, of the lines that are
/// there already.
fn building(site: &Site) -> (DVec2, DVec2) {
    let corners: Vec<DVec2> = if site.bays.is_empty() {
        site.grid
            .iter()
            .flat_map(|line| [line.from, line.to])
            .collect()
    } else {
        site.bays
            .iter()
            .flat_map(|bay| bay.outline.clone())
            .collect()
    };
    if corners.is_empty() {
        return (DVec2::ZERO, DVec2::new(20.0, 20.0));
    }
    corners.iter().fold(
        (DVec2::INFINITY, DVec2::NEG_INFINITY),
        |(least, greatest), corner| (least.min(*corner), greatest.max(*corner)),
    )
}

/// The name of the k-th line: letters run on to two after Z, leaving out I and O, which
/// are read as figures.
fn name(naming: Naming, k: usize) -> String {
    const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
    match naming {
        Naming::Numbers => (k + 1).to_string(),
        Naming::Letters => {
            let letter = |k: usize| char::from(LETTERS[k % LETTERS.len()]);
            match k / LETTERS.len() {
                0 => letter(k).to_string(),
                round => format!("{}{}", letter(round - 1), letter(k)),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, system: UnitSystem, expected_m: &[f64]) {
        let found = parse(text, system).unwrap_or_default();
        let found: Vec<f64> = found.iter().map(|spacing| spacing.as_metres()).collect();
        assert_eq!(found.len(), expected_m.len(), "{text}: {found:?}");
        for (found, expected) in found.iter().zip(expected_m) {
            assert!((found - expected).abs() < 1e-9, "{text}");
        }
    }

    #[test]
    fn spacings_are_read_as_typed() {
        check("3 x 12 m", UnitSystem::Metric, &[12.0, 12.0, 12.0]);
        check("5; 2x6; 5", UnitSystem::Metric, &[5.0, 6.0, 6.0, 5.0]);
        check("2 × 25'", UnitSystem::FeetInches, &[7.62, 7.62]);
        check("1.5", UnitSystem::Metric, &[1.5]);
    }

    #[test]
    fn what_is_no_spacing_is_refused() {
        for text in [
            "",
            "x",
            "0 x 12",
            "-1 x 3",
            "999999999 x 1",
            "3 x",
            "0.01",
            "many",
        ] {
            assert!(parse(text, UnitSystem::Metric).is_err(), "{text}");
        }
    }

    #[test]
    fn names_run_on_and_leave_out_what_reads_as_a_figure() {
        let letters: Vec<String> = (0..50).map(|k| name(Naming::Letters, k)).collect();
        assert_eq!(letters[8], "J");
        assert_eq!(letters[23], "Z");
        assert_eq!(letters[24], "AA");
        assert!(!letters.iter().any(|name| name.contains(['I', 'O'])));
        assert_eq!(name(Naming::Numbers, 0), "1");
    }

    #[test]
    fn laying_again_replaces_the_lines_of_that_naming_only() {
        let twice = Length::metres(6.0);
        let lay_on = |site: &Site, naming, count| {
            lay(site, naming, &vec![twice; count])
                .apply(site)
                .unwrap_or_default()
        };
        let site = lay_on(&Site::default(), Naming::Numbers, 4);
        let site = lay_on(&site, Naming::Letters, 2);
        let site = lay_on(&site, Naming::Numbers, 2);
        let mut ids: Vec<&str> = site.grid.iter().map(|line| line.id.as_str()).collect();
        ids.sort_unstable();
        assert_eq!(ids, ["1", "2", "3", "A", "B", "C"]);
    }
}
