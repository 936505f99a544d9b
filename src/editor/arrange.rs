//! Moving, turning, copying and lining up what is picked: from a site and some ids to
//! one edit.

use super::extent::{Extent, extent};
use super::make::{Made, fresh_name};
use crate::catalogue::Catalogue;
use crate::geometry::DVec2;
use crate::site::Edit;
use crate::site::bay::along;
use crate::site::place::{self, moved, turned};
use crate::site::{Framing, Object, ObjectId, Opening, Site};
use crate::units::{Angle, Length};
use eframe::egui::Key;
use std::collections::BTreeSet;
use std::sync::Arc;

/// A direction of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Way {
    /// Up the plan.
    North,
    /// To the right.
    East,
    /// Down the plan.
    South,
    /// To the left.
    West,
}

impl Way {
    /// All four.
    pub const ALL: [Self; 4] = [Self::North, Self::East, Self::South, Self::West];

    /// Its name.
    pub const fn label(self) -> &'static str {
        match self {
            Self::North => "north",
            Self::East => "east",
            Self::South => "south",
            Self::West => "west",
        }
    }

    /// The arrow that points to it.
    pub(crate) const fn key(self) -> Key {
        match self {
            Self::North => Key::ArrowUp,
            Self::East => Key::ArrowRight,
            Self::South => Key::ArrowDown,
            Self::West => Key::ArrowLeft,
        }
    }

    /// Unit vector toward it.
    pub(crate) const fn vector(self) -> DVec2 {
        match self {
            Self::North => DVec2::Y,
            Self::East => DVec2::X,
            Self::South => DVec2::NEG_Y,
            Self::West => DVec2::NEG_X,
        }
    }
}

/// What is brought into line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Edge {
    /// West edges.
    West,
    /// East edges.
    East,
    /// North edges.
    North,
    /// South edges.
    South,
    /// Middles, one above the other.
    MiddleAcross,
    /// Middles, side by side.
    MiddleUp,
}

impl Edge {
    /// All of them, as offered.
    pub const ALL: [Self; 6] = [
        Self::West,
        Self::East,
        Self::North,
        Self::South,
        Self::MiddleAcross,
        Self::MiddleUp,
    ];

    /// The name of the command.
    pub const fn label(self) -> &'static str {
        match self {
            Self::West => "Line up west edges",
            Self::East => "Line up east edges",
            Self::North => "Line up north edges",
            Self::South => "Line up south edges",
            Self::MiddleAcross => "Line up middles on a north-south line",
            Self::MiddleUp => "Line up middles on an east-west line",
        }
    }

    /// What the command does.
    pub const fn explanation(self) -> &'static str {
        match self {
            Self::West => "Move what is picked to its westernmost edge",
            Self::East => "Move what is picked to its easternmost edge",
            Self::North => "Move what is picked to its northernmost edge",
            Self::South => "Move what is picked to its southernmost edge",
            Self::MiddleAcross => "Move what is picked east or west until the middles are in line",
            Self::MiddleUp => "Move what is picked north or south until the middles are in line",
        }
    }
}

/// An axis of the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Axis {
    /// West to east.
    Across,
    /// South to north.
    Up,
}

impl Axis {
    const fn unit(self) -> DVec2 {
        match self {
            Self::Across => DVec2::X,
            Self::Up => DVec2::Y,
        }
    }
}

/// The picked objects, with what must move along: the framing of a bay.
fn carried(site: &Site, ids: &BTreeSet<ObjectId>) -> BTreeSet<ObjectId> {
    let mut all = ids.clone();
    for framing in &site.framings {
        if ids.contains(&ObjectId::Bay(framing.bay.clone())) {
            all.insert(ObjectId::Framing(framing.id.clone()));
        }
    }
    // An opening goes with its wall; moved as well, it would go twice as far.
    for opening in &site.openings {
        if ids.contains(&ObjectId::Bay(opening.bay.clone())) {
            all.remove(&ObjectId::Opening(opening.id.clone()));
        }
    }
    all
}

fn objects(site: &Site, ids: &BTreeSet<ObjectId>) -> Vec<Object> {
    ids.iter()
        .filter_map(|id| Some(unbound(site, ids, site.object(id)?)))
        .collect()
}

fn put(objects: impl IntoIterator<Item = Object>) -> Edit {
    Edit::All(objects.into_iter().map(Edit::Put).collect())
}

/// What goes elsewhere without the grid lines that its members were measured from takes
/// the members along as they are.
fn unbound(site: &Site, ids: &BTreeSet<ObjectId>, object: Object) -> Object {
    let Object::Framing(framing) = &object else {
        return object;
    };
    let left_behind: Vec<_> = site
        .grid
        .iter()
        .map(|line| &line.id)
        .filter(|id| !ids.contains(&ObjectId::GridLine((*id).clone())))
        .filter(|id| framing.is_measured_from(id))
        .collect();
    if left_behind.is_empty() {
        return object;
    }
    let settled = left_behind
        .into_iter()
        .fold(Framing::clone(framing), |known, id| {
            known.settled(id, &site.grid)
        });
    Object::Framing(Arc::new(settled))
}

/// An object moved; an opening slides along its wall and stays within it.
fn shifted(site: &Site, object: &Object, by: DVec2) -> Object {
    match object {
        Object::Opening(opening) => Object::Opening(Arc::new(slid(site, opening, by))),
        other => moved(other, by),
    }
}

fn slid(site: &Site, opening: &Opening, by: DVec2) -> Opening {
    let mut slid = opening.clone();
    if let Some(bay) = site.bays.iter().find(|bay| bay.id == opening.bay)
        && let Some((a, b)) = super::extent::wall(bay, opening.edge)
    {
        let room = ((b - a).length() - opening.width.as_metres()).max(0.0);
        let along_m = by.dot((b - a).normalize_or(DVec2::X));
        let from_m = opening.from_corner.as_metres() + along_m;
        slid.from_corner = Length::metres(from_m.clamp(0.0, room));
    }
    slid
}

/// Everything picked moved by a plan vector.
pub(crate) fn shift(site: &Site, ids: &BTreeSet<ObjectId>, by: DVec2) -> Edit {
    put(objects(site, &carried(site, ids))
        .iter()
        .map(|object| shifted(site, object, by)))
}

/// Everything picked turned clockwise about a point.
pub(crate) fn turn(site: &Site, ids: &BTreeSet<ObjectId>, about: DVec2, by: Angle) -> Edit {
    put(objects(site, &carried(site, ids))
        .iter()
        .filter(|object| !matches!(object, Object::Opening(_)))
        .map(|object| turned(object, about, by)))
}

/// Picked runs with burner and exhaust swapped. The tube stays where it is in plan; aim,
/// shields and return leg keep their compass sides.
pub(crate) fn end_for_end(site: &Site, catalogue: &Catalogue, ids: &BTreeSet<ObjectId>) -> Edit {
    put(objects(site, ids).into_iter().filter_map(|object| {
        let Object::Run(run) = object else {
            return None;
        };
        let (family, size) = catalogue.size(&run.family, &run.size)?;
        let turned = place::end_for_end(&run, family.leg_length(size), family.hanging.slope);
        Some(Object::Run(Arc::new(turned)))
    }))
}

/// Copies of what is picked, each `step` farther than the one before.
pub(crate) fn repeat(site: &Site, ids: &BTreeSet<ObjectId>, count: usize, step: DVec2) -> Made {
    // The copies stand beside the grid lines that the originals were measured from.
    let originals: Vec<Object> = objects(site, ids)
        .into_iter()
        .map(|object| unbound(site, &BTreeSet::new(), object))
        .collect();
    let mut new = Vec::new();
    let mut edits = Vec::new();
    for turn in 1..=count {
        #[expect(clippy::cast_precision_loss, reason = "a count of copies is small")]
        let by = step * turn as f64;
        for object in &originals {
            let name = fresh_name(site, &object.id(), &new);
            let copy = shifted(site, object, by).with_id(&name);
            new.push(copy.id());
            edits.push(Edit::Put(copy));
        }
    }
    let name = match (originals.as_slice(), count) {
        ([only], 1) => format!("Duplicate {}", only.id()),
        ([only], _) => format!("Repeat {}", only.id()),
        (_, 1) => "Duplicate".to_owned(),
        _ => "Repeat".to_owned(),
    };
    Made {
        name,
        edit: Edit::All(edits),
        ids: new,
    }
}

/// The plan vector for steps of a distance along a bearing.
pub(crate) fn step(bearing: Angle, spacing: Length) -> DVec2 {
    along(bearing) * spacing.as_metres()
}

/// What is picked taken out, with what can't be without it.
pub(crate) fn remove(ids: &BTreeSet<ObjectId>) -> Edit {
    // What belongs to a bay goes with it; taken out first, it is still there to be taken.
    let (bays, others): (Vec<_>, Vec<_>) = ids
        .iter()
        .cloned()
        .partition(|id| matches!(id, ObjectId::Bay(_)));
    Edit::All(others.into_iter().chain(bays).map(Edit::Remove).collect())
}

/// What is picked moved until edges or middles are in line.
pub(crate) fn line_up(
    site: &Site,
    catalogue: &Catalogue,
    ids: &BTreeSet<ObjectId>,
    edge: Edge,
) -> Edit {
    let placed = placed(site, catalogue, ids);
    let all = placed
        .iter()
        .fold(Extent::EMPTY, |all, (_, extent)| all.joined(*extent));
    put(placed.iter().map(|(object, extent)| {
        let by = match edge {
            Edge::West => DVec2::new(all.least.x - extent.least.x, 0.0),
            Edge::East => DVec2::new(all.greatest.x - extent.greatest.x, 0.0),
            Edge::North => DVec2::new(0.0, all.greatest.y - extent.greatest.y),
            Edge::South => DVec2::new(0.0, all.least.y - extent.least.y),
            Edge::MiddleAcross => DVec2::new(all.middle().x - extent.middle().x, 0.0),
            Edge::MiddleUp => DVec2::new(0.0, all.middle().y - extent.middle().y),
        };
        shifted(site, object, by)
    }))
}

/// What is picked spread out: the outermost two stay, the middles of the others are
/// parted evenly.
pub(crate) fn space_evenly(
    site: &Site,
    catalogue: &Catalogue,
    ids: &BTreeSet<ObjectId>,
    axis: Axis,
) -> Edit {
    let unit = axis.unit();
    let mut placed = placed(site, catalogue, ids);
    placed.sort_by(|(_, a), (_, b)| a.middle().dot(unit).total_cmp(&b.middle().dot(unit)));
    let (Some((_, first)), Some((_, last))) = (placed.first(), placed.last()) else {
        return Edit::All(Vec::new());
    };
    let (from, to) = (first.middle().dot(unit), last.middle().dot(unit));
    let gaps = placed.len().saturating_sub(1).max(1);
    put(placed.iter().enumerate().map(|(place, (object, extent))| {
        #[expect(clippy::cast_precision_loss, reason = "a count of objects is small")]
        let wanted = from + (to - from) * (place as f64 / gaps as f64);
        shifted(site, object, unit * (wanted - extent.middle().dot(unit)))
    }))
}

/// The picked objects that have a place of their own, with their extents.
fn placed(site: &Site, catalogue: &Catalogue, ids: &BTreeSet<ObjectId>) -> Vec<(Object, Extent)> {
    objects(site, ids)
        .into_iter()
        .filter(|object| !matches!(object, Object::Framing(_)))
        .map(|object| {
            let extent = extent(site, catalogue, &object);
            (object, extent)
        })
        .filter(|(_, extent)| !extent.is_empty())
        .collect()
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::editor::drafts::Drafts;
    use crate::editor::make;
    use crate::site::Footprint;
    use crate::units::UnitSystem;

    /// A site with a bay, framing, a door and three racks of different sizes.
    fn site() -> (Site, Catalogue) {
        let catalogue = Catalogue::default();
        let drafts = Drafts::new(&catalogue, UnitSystem::Metric);
        let mut site = Site::default();
        let outline = make::rectangle(DVec2::ZERO, DVec2::new(30.0, 20.0));
        site = make::bay(&site, &drafts, outline)
            .edit
            .apply(&site)
            .unwrap();
        let bay = Arc::clone(&site.bays[0]);
        let framing = make::framing(&site, &drafts, &bay, DVec2::ZERO, Angle::ZERO);
        site = framing.edit.apply(&site).unwrap();
        let door = make::opening(&site, &drafts, &bay, 0, 5.0, 4.0);
        site = door.edit.apply(&site).unwrap();
        for (x, y, width) in [(2.0, 3.0, 1.0), (11.0, 6.0, 2.0), (20.0, 4.0, 5.0)] {
            let from = DVec2::new(x, y);
            let outline = make::rectangle(from, from + DVec2::new(width, 1.0));
            let footprint = Footprint::Area {
                outline,
                holes: Vec::new(),
            };
            let rack = make::obstruction(&site, &drafts, footprint);
            site = rack.edit.apply(&site).unwrap();
        }
        (site, catalogue)
    }

    fn racks() -> BTreeSet<ObjectId> {
        ["O1", "O2", "O3"]
            .map(|id| ObjectId::Obstruction(id.into()))
            .into()
    }

    fn extents(site: &Site, catalogue: &Catalogue) -> Vec<Extent> {
        site.obstructions
            .iter()
            .map(|it| extent(site, catalogue, &Object::Obstruction(Arc::clone(it))))
            .collect()
    }

    #[test]
    fn lining_up_brings_edges_together_and_moves_nothing_else() {
        let (site, catalogue) = site();
        for (edge, axis, place) in [
            (Edge::West, DVec2::X, 2.0),
            (Edge::East, DVec2::X, 25.0),
            (Edge::South, DVec2::Y, 3.0),
            (Edge::North, DVec2::Y, 7.0),
        ] {
            let edit = line_up(&site, &catalogue, &racks(), edge);
            let after = edit.apply(&site).unwrap();
            for (now, was) in extents(&after, &catalogue)
                .iter()
                .zip(extents(&site, &catalogue))
            {
                let corner = match edge {
                    Edge::West | Edge::South => now.least,
                    _ => now.greatest,
                };
                assert!((corner.dot(axis) - place).abs() < 1e-9, "{edge:?}");
                let across = DVec2::ONE - axis;
                assert!((now.least - was.least).dot(across).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn spacing_evenly_leaves_the_outermost_where_they_are() {
        let (site, catalogue) = site();
        let edit = space_evenly(&site, &catalogue, &racks(), Axis::Across);
        let after = edit.apply(&site).unwrap();
        let middles: Vec<f64> = extents(&after, &catalogue)
            .iter()
            .map(|it| it.middle().x)
            .collect();
        assert!((middles[0] - 2.5).abs() < 1e-9 && (middles[2] - 22.5).abs() < 1e-9);
        assert!((middles[1] - 12.5).abs() < 1e-9);
    }

    #[test]
    fn copies_follow_each_other_and_have_names_of_their_own() {
        let (site, catalogue) = site();
        let one = BTreeSet::from([ObjectId::Obstruction("O1".into())]);
        let made = repeat(&site, &one, 3, DVec2::new(0.0, 2.0));
        let after = made.edit.apply(&site).unwrap();
        assert_eq!(after.obstructions.len(), 6);
        let all = extents(&after, &catalogue);
        for (copy, place) in all[3..].iter().zip([5.0, 7.0, 9.0]) {
            assert!((copy.least - DVec2::new(2.0, place)).length() < 1e-9);
        }
        let names: BTreeSet<&str> = after.obstructions.iter().map(|it| it.id.as_str()).collect();
        assert_eq!(names.len(), 6);
    }

    #[test]
    fn a_bay_takes_its_framing_and_its_doors_along() {
        let (site, catalogue) = site();
        let by = DVec2::new(7.0, -3.0);
        let bay = BTreeSet::from([ObjectId::Bay("B1".into()), ObjectId::Opening("D1".into())]);
        let after = shift(&site, &bay, by).apply(&site).unwrap();
        assert_eq!(after.framings[0].anchor, site.framings[0].anchor + by);
        // The door keeps its place in its wall.
        assert_eq!(after.openings, site.openings);
        let gone = remove(&bay).apply(&site).unwrap();
        assert!(gone.bays.is_empty() && gone.framings.is_empty() && gone.openings.is_empty());
        assert_eq!(extents(&gone, &catalogue).len(), 3);
    }

    #[test]
    fn a_door_slides_along_its_wall_and_stays_in_it() {
        let (site, _) = site();
        let door = BTreeSet::from([ObjectId::Opening("D1".into())]);
        let from = |by: f64| {
            let after = shift(&site, &door, DVec2::new(by, 4.0))
                .apply(&site)
                .unwrap();
            after.openings[0].from_corner.as_metres()
        };
        assert!((from(2.0) - 7.0).abs() < 1e-9);
        assert!((from(100.0) - 26.0).abs() < 1e-9);
        assert!(from(-100.0).abs() < 1e-9);
    }

    #[test]
    fn four_quarter_turns_come_back() {
        let (site, catalogue) = site();
        let mut turned = site.clone();
        for _ in 0..4 {
            let edit = turn(
                &turned,
                &racks(),
                DVec2::new(3.0, 8.0),
                Angle::degrees(90.0),
            );
            turned = edit.apply(&turned).unwrap();
        }
        for (now, was) in extents(&turned, &catalogue)
            .iter()
            .zip(extents(&site, &catalogue))
        {
            assert!((now.least - was.least).length() < 1e-9);
        }
    }
}
