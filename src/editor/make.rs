//! New objects: a draft with an id of its own and a place.

use super::drafts::Drafts;
use crate::geometry::polygon::Polygon;
use crate::geometry::{DVec2, tolerance};
use crate::site::Edit;
use crate::site::bay::along;
use crate::site::grid::families;
use crate::site::id::next_free;
use crate::site::{
    Bay, Footprint, Framing, GridId, GridLine, Obstruction, Opening, Roof, Run, SectionLine, Side,
    Site, WorkSpot,
};
use crate::site::{Object, ObjectId};
use crate::units::{Angle, Length};
use std::sync::Arc;

/// A step that makes something: its name, its edit, and what is new.
#[derive(Debug, Clone)]
pub(crate) struct Made {
    /// The step's name.
    pub name: String,
    /// What it changes.
    pub edit: Edit,
    /// What is new.
    pub ids: Vec<ObjectId>,
}

impl Made {
    /// One new object, put into the site.
    pub(crate) fn one(verb: &str, object: Object) -> Self {
        let id = object.id();
        Self {
            name: format!("{verb} {id}"),
            edit: Edit::Put(object),
            ids: vec![id],
        }
    }
}

/// The least free name for an object that is like another: same letters, next number.
/// `extra` are names that are about to be taken.
pub(crate) fn fresh_name(site: &Site, like: &ObjectId, extra: &[ObjectId]) -> String {
    let known = site.object_ids();
    let taken: Vec<&str> = known
        .iter()
        .chain(extra)
        .filter(|id| id.kind_label() == like.kind_label())
        .map(ObjectId::as_str)
        .collect();
    let prefix = like.as_str().trim_end_matches(|c: char| c.is_ascii_digit());
    match like {
        ObjectId::Framing(_) if !taken.contains(&prefix) && !prefix.is_empty() => prefix.to_owned(),
        ObjectId::GridLine(_) | ObjectId::SectionLine(_) => next_letter(like.as_str(), &taken),
        _ => next_free(prefix, taken.into_iter()),
    }
}

/// The name that follows in a lettering and is free: `B` after `A`, `8` after `7`.
fn next_letter(after: &str, taken: &[&str]) -> String {
    let mut name = after.to_owned();
    // Each turn yields a new name, and the site has finitely many.
    while taken.contains(&name.as_str()) || name.is_empty() {
        name = successor(&name);
    }
    name
}

/// The next in a lettering: digits count on, letters run on to two letters after Z.
fn successor(name: &str) -> String {
    let digits = name.len() - name.trim_end_matches(|c: char| c.is_ascii_digit()).len();
    let (head, tail) = name.split_at(name.len() - digits);
    if digits > 0 {
        return match tail.parse::<u64>() {
            Ok(number) => format!("{head}{}", number.saturating_add(1)),
            Err(_too_long) => format!("{name}1"),
        };
    }
    match head.chars().last() {
        None => "A".to_owned(),
        Some('Z') => format!("{head}A"),
        Some(last @ 'A'..='Y') => {
            let next = char::from_u32(u32::from(last) + 1).unwrap_or('A');
            format!("{}{next}", &head[..head.len() - 1])
        }
        Some(_) => format!("{head}2"),
    }
}

/// A bay with the draft's heights, roof and constructions.
pub(crate) fn bay(site: &Site, drafts: &Drafts, outline: Vec<DVec2>) -> Made {
    let roof = match &drafts.bay.roof {
        // A ridge runs through the middle of the bay that it covers.
        Roof::Gable {
            ridge_bearing,
            pitch,
            ..
        } => Roof::Gable {
            ridge_through: super::extent::Extent::of(outline.iter().copied()).middle(),
            ridge_bearing: *ridge_bearing,
            pitch: *pitch,
        },
        other => other.clone(),
    };
    let name = fresh_name(site, &ObjectId::Bay("B".into()), &[]);
    Made::one(
        "Draw bay",
        Object::Bay(Arc::new(Bay {
            id: name.as_str().into(),
            outline,
            roof,
            ..drafts.bay.clone()
        })),
    )
}

/// The corners of a rectangle between two opposite corners.
pub(crate) fn rectangle(a: DVec2, b: DVec2) -> Vec<DVec2> {
    let (from, to) = (a.min(b), a.max(b));
    vec![from, DVec2::new(to.x, from.y), to, DVec2::new(from.x, to.y)]
}

/// A grid line. It is lettered on from the last line of its direction; the first of a
/// direction begins with `1` where it runs north, and with `A` where it runs east.
pub(crate) fn grid_line(site: &Site, from: DVec2, to: DVec2) -> Made {
    let name = grid_name(site, from, to, &[]);
    let line = Arc::new(GridLine {
        id: name.as_str().into(),
        from,
        to,
        notes: String::new(),
    });
    let bearings = with_bearings(site, std::slice::from_ref(&line));
    let mut made = Made::one("Draw grid line", Object::GridLine(line));
    if !bearings.is_empty() {
        let line = made.edit;
        made.edit = Edit::All(std::iter::once(line).chain(bearings).collect());
    }
    made
}

/// The name that a new grid line would get.
pub(crate) fn grid_name(site: &Site, from: DVec2, to: DVec2, extra: &[ObjectId]) -> String {
    let direction = (to - from).normalize_or(DVec2::X);
    let last = families(&site.grid)
        .into_iter()
        .find(|family| family[0].direction().perp_dot(direction).abs() < 0.02)
        .and_then(|family| family.last().map(|line| line.id.as_str().to_owned()));
    let runs_north = direction.y.abs() > direction.x.abs();
    let start = last.unwrap_or_else(|| if runs_north { "1" } else { "A" }.to_owned());
    fresh_name(site, &ObjectId::GridLine(start.as_str().into()), extra)
}

/// A grid line as it is laid: with the framings whose members it crosses, which bear on
/// it from then on. They can be told otherwise, and one undo takes all of it back.
pub(crate) fn with_bearings(site: &Site, lines: &[Arc<GridLine>]) -> Vec<Edit> {
    site.framings
        .iter()
        .filter_map(|framing| {
            let bay = site.bays.iter().find(|bay| bay.id == framing.bay)?;
            let found = bearers(lines, bay, along(framing.bearing));
            let mut bears_on = framing.bears_on.clone();
            for id in found {
                if !bears_on.contains(&id) {
                    bears_on.push(id);
                }
            }
            (bears_on != framing.bears_on).then(|| {
                Edit::Put(Object::Framing(Arc::new(Framing {
                    bears_on,
                    ..Framing::clone(framing)
                })))
            })
        })
        .collect()
}

/// The grid lines that cross the members inside the bay, which the spans bear on, and
/// those along its walls, which name the ends: `J-05/BC` is found in a hall,
/// `J-05/Bw.2` is not.
pub(crate) fn bearers(grid: &[Arc<GridLine>], bay: &Bay, direction: DVec2) -> Vec<GridId> {
    let outline = Polygon::new(bay.outline.clone());
    let is_inside = |line: &GridLine| {
        let pieces = outline.clip_segment(line.from, line.to);
        0.5 < pieces.iter().map(|piece| piece.length_m()).sum::<f64>()
    };
    let is_along_wall = |line: &GridLine| {
        let is_on = |at: DVec2| line.offset_of(at).abs() <= tolerance::BEARING;
        outline.edges().any(|(a, b)| is_on(a) && is_on(b))
    };
    grid.iter()
        .filter(|line| 0.7 < line.direction().perp_dot(direction).abs())
        .filter(|line| is_inside(line) || is_along_wall(line))
        .map(|line| line.id.clone())
        .collect()
}

/// An opening in a wall.
pub(crate) fn opening(
    site: &Site,
    drafts: &Drafts,
    bay: &Bay,
    edge: usize,
    from_m: f64,
    width_m: f64,
) -> Made {
    let name = fresh_name(site, &ObjectId::Opening("D".into()), &[]);
    Made::one(
        "Cut opening",
        Object::Opening(Arc::new(Opening {
            id: name.as_str().into(),
            bay: bay.id.clone(),
            edge,
            from_corner: Length::metres(from_m),
            width: Length::metres(width_m),
            ..drafts.opening.clone()
        })),
    )
}

/// Framing under a bay's roof. It bears on the grid lines that cross its members.
pub(crate) fn framing(
    site: &Site,
    drafts: &Drafts,
    bay: &Bay,
    anchor: DVec2,
    bearing: Angle,
) -> Made {
    let name = fresh_name(site, &ObjectId::Framing(drafts.framing.id.clone()), &[]);
    Made::one(
        "Lay framing",
        Object::Framing(Arc::new(Framing {
            id: name.as_str().into(),
            bay: bay.id.clone(),
            anchor,
            bearing,
            ..drafts.framing.clone()
        })),
    )
}

/// An obstruction.
pub(crate) fn obstruction(site: &Site, drafts: &Drafts, footprint: Footprint) -> Made {
    let name = fresh_name(site, &ObjectId::Obstruction("O".into()), &[]);
    Made::one(
        &format!("Draw {}", drafts.obstruction.kind.label()),
        Object::Obstruction(Arc::new(Obstruction {
            id: name.as_str().into(),
            footprint,
            ..drafts.obstruction.clone()
        })),
    )
}

/// A work spot.
pub(crate) fn work_spot(site: &Site, drafts: &Drafts, at: DVec2) -> Made {
    let name = fresh_name(site, &ObjectId::WorkSpot("W".into()), &[]);
    Made::one(
        "Mark work spot",
        Object::WorkSpot(Arc::new(WorkSpot {
            id: name.as_str().into(),
            at,
            ..drafts.work_spot.clone()
        })),
    )
}

/// A section line, lettered on from those that are there.
pub(crate) fn section_line(
    site: &Site,
    from: DVec2,
    to: DVec2,
    looks: Side,
    depth: Length,
) -> Made {
    let name = fresh_name(site, &ObjectId::SectionLine("A".into()), &[]);
    Made::one(
        "Draw section line",
        Object::SectionLine(Arc::new(SectionLine {
            id: name.as_str().into(),
            from,
            to,
            looks,
            depth,
            notes: String::new(),
        })),
    )
}

/// A run.
pub(crate) fn run(site: &Site, drafts: &Drafts, burner: DVec2, bearing: Angle) -> Made {
    let name = fresh_name(site, &ObjectId::Run("R".into()), &[]);
    Made::one(
        "Place",
        Object::Run(Arc::new(Run {
            id: name.as_str().into(),
            burner,
            bearing,
            ..drafts.run.clone()
        })),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check_successor(name: &str, expected: &str) {
        assert_eq!(successor(name), expected);
    }

    #[test]
    fn letterings_go_on() {
        check_successor("A", "B");
        check_successor("Z", "ZA");
        check_successor("7", "8");
        check_successor("09", "10");
        check_successor("C2", "C3");
        check_successor("", "A");
        check_successor("é", "é2");
    }

    #[test]
    fn new_grid_lines_are_lettered_by_direction() {
        let mut site = Site::default();
        let mut put = |from: (f64, f64), to: (f64, f64)| {
            let (from, to) = (DVec2::from(from), DVec2::from(to));
            let made = grid_line(&site, from, to);
            if let Edit::Put(Object::GridLine(line)) = made.edit {
                site.grid.push(line);
            }
            made.ids[0].as_str().to_owned()
        };
        assert_eq!(put((0.0, 0.0), (9.0, 0.0)), "A");
        assert_eq!(put((0.0, 0.0), (0.0, 9.0)), "1");
        assert_eq!(put((0.0, 4.0), (9.0, 4.0)), "B");
        assert_eq!(put((5.0, 0.0), (5.0, 9.0)), "2");
    }
}
