//! Things near runs as rules speak of them: what they are called, in which direction
//! they lie, which of several members or parts of a door governs.

use super::say::{list, worst};
use super::{Context, Subject};
use crate::clearance::{Direction, Measured, Reach};
use crate::geometry::Polygon;
use crate::geometry::tolerance;
use crate::site::obstruction::ObstructionKind;
use crate::site::{
    Bay, Combustibility, Framing, FramingId, MemberId, Obstruction, ObstructionId, Opening,
    OpeningId,
};
use crate::structure::DoorPart;
use crate::study::{Clearance, RunStudy, Thing, footprint_outlines};
use std::sync::Arc;

/// One thing near a run, or several members of one framing, or a door both open and on
/// its way, of which the worst governs.
pub(super) struct Nearby<'a> {
    /// The thing that governs.
    pub(super) governing: &'a Clearance,
    /// All of them, in the order of the structure.
    pub(super) all: Vec<&'a Clearance>,
}

/// What things are told of together.
#[derive(PartialEq)]
enum Together {
    /// Members: one move cures them all, and a row of trusses would fill the list.
    Framing(FramingId),
    /// A door: where it rests and what it passes are one fault.
    Door(OpeningId),
}

/// The things near a run that pass a test; members of one framing together, and the
/// parts of one door.
pub(super) fn nearby<'a>(
    context: &Context<'_>,
    run: &'a RunStudy,
    passes: impl Fn(&Clearance) -> bool,
) -> Vec<Nearby<'a>> {
    together(
        context,
        run.clearance.near.iter().filter(|near| passes(near)),
    )
}

/// Things near a run; members of one framing together, and the parts of one door.
pub(super) fn together<'a>(
    context: &Context<'_>,
    things: impl Iterator<Item = &'a Clearance>,
) -> Vec<Nearby<'a>> {
    let mut groups: Vec<(Option<Together>, Vec<&'a Clearance>)> = Vec::new();
    for near in things {
        let with = match &near.thing {
            Thing::Member(id) => {
                framing_of(context, id).map(|framing| Together::Framing(framing.id.clone()))
            }
            Thing::Door(id, _) => Some(Together::Door(id.clone())),
            _ => None,
        };
        match groups
            .iter_mut()
            .find(|(known, _)| known.is_some() && *known == with)
        {
            Some((_, all)) => all.push(near),
            None => groups.push((with, vec![near])),
        }
    }
    groups
        .into_iter()
        .filter_map(|(_, all)| {
            let governing = worst(all.iter().copied(), |near| missing_m(&near.measured))?;
            Some(Nearby { governing, all })
        })
        .collect()
}

/// How much is missing in the governing direction, m.
fn missing_m(measured: &Measured) -> f64 {
    measured
        .governing_reach()
        .map_or(f64::NEG_INFINITY, Reach::missing_m)
}

impl Nearby<'_> {
    /// The run, then the things.
    pub(super) fn subjects(&self, run: &RunStudy) -> Vec<Subject> {
        let things = self.all.iter().map(|near| Subject::from(&near.thing));
        let mut subjects: Vec<Subject> = std::iter::once(Subject::Run(run.run.id.clone()))
            .chain(things)
            .collect();
        // Both parts of a door are one subject.
        subjects.dedup();
        subjects
    }

    /// What people call it: `goods on racking O1`, `timber truss T-03 (and T-04)`.
    pub(super) fn name(&self, context: &Context<'_>) -> String {
        let name = name(context, &self.governing.thing);
        let others: Vec<Subject> = self
            .all
            .iter()
            .filter(|near| near.thing != self.governing.thing)
            .filter(|near| !matches!(near.thing, Thing::Door(..)))
            .map(|near| Subject::from(&near.thing))
            .collect();
        if others.is_empty() {
            name
        } else {
            format!("{name} (likewise {})", list(&others))
        }
    }
}

/// The framing that a member belongs to. Its id says so: looking through thousands of
/// members for it would be slow.
pub(super) fn framing_of<'a>(context: &Context<'a>, member: &MemberId) -> Option<&'a Framing> {
    let framings = context.site.framings.iter();
    framings
        .map(Arc::as_ref)
        .find(|framing| member.is_of(&framing.id))
}

/// Whether a thing reaches into the heater itself. Touching is not reaching in.
pub(super) fn is_in_heater(near: &Clearance) -> bool {
    near.inside_body_m > tolerance::LIMIT
}

/// Whether a thing is a hazard zone.
pub(super) fn is_hazard_zone(near: &Clearance) -> bool {
    near.kind == Some(ObstructionKind::HazardZone)
}

impl From<&Thing> for Subject {
    /// The subject that a thing is.
    fn from(thing: &Thing) -> Self {
        match thing {
            Thing::Obstruction(id) => Self::Obstruction(id.clone()),
            Thing::Member(id) => Self::Member(id.clone()),
            Thing::Wall(bay, edge) => Self::Wall(bay.clone(), *edge),
            Thing::Deck(bay) => Self::Deck(bay.clone()),
            Thing::Door(id, _) => Self::Opening(id.clone()),
            Thing::Run(id) => Self::Run(id.clone()),
        }
    }
}

/// What people call a thing.
pub(super) fn name(context: &Context<'_>, thing: &Thing) -> String {
    match thing {
        Thing::Obstruction(id) => obstruction_name(context, id),
        Thing::Member(id) => {
            let framing = framing_of(context, id);
            let kind = framing.map_or("member", |framing| framing.kind.label());
            format!("{kind} {id}")
        }
        Thing::Wall(bay, edge) => format!("wall {} of {bay}", edge + 1),
        Thing::Deck(bay) => format!("the roof of {bay}"),
        Thing::Door(id, part) => {
            let moves = match part {
                DoorPart::Open => "open",
                DoorPart::Travel => "travelling",
            };
            format!("{moves} {}", opening_name(context, id))
        }
        Thing::Run(id) => id.to_string(),
    }
}

/// What people call an opening: `sectional door D1`.
pub(super) fn opening_name(context: &Context<'_>, id: &OpeningId) -> String {
    let known = context.site.openings.iter().find(|it| it.id == *id);
    let kind = known.map_or("opening", |it| it.kind.label());
    format!("{kind} {id}")
}

/// The vehicle door of a bay with the highest head; of several the first.
pub(super) fn tallest_vehicle_door<'a>(context: &Context<'a>, bay: &Bay) -> Option<&'a Opening> {
    let doors = context.site.openings.iter().map(Arc::as_ref);
    let of_bay = doors.filter(|door| door.bay == bay.id && door.takes_vehicles());
    worst(of_bay, |door| (door.sill + door.height).as_metres())
}

/// The obstructions of a kind of which any corner is in a bay.
pub(super) fn obstructions_in<'a>(
    context: &Context<'a>,
    bay: &Bay,
    kind: ObstructionKind,
) -> impl Iterator<Item = &'a Obstruction> {
    let floor = Polygon {
        outline: bay.outline.clone(),
        holes: bay.holes.clone(),
    };
    let all = context.site.obstructions.iter().map(Arc::as_ref);
    all.filter(move |it| {
        it.kind == kind
            && footprint_outlines(&it.footprint)
                .iter()
                .flat_map(|outline| &outline.outline)
                .any(|corner| floor.contains(*corner))
    })
}

/// What people call an obstruction: `goods on racking O1 (North rack)`.
pub(super) fn obstruction_name(context: &Context<'_>, id: &ObstructionId) -> String {
    let known = context.site.obstructions.iter().find(|it| it.id == *id);
    let Some(known) = known else {
        return id.to_string();
    };
    let kind = match known.kind {
        ObstructionKind::Racking => "goods on racking",
        ObstructionKind::Other => "obstruction",
        kind => kind.label(),
    };
    match known.name.as_str() {
        "" => format!("{kind} {id}"),
        name => format!("{kind} {id} ({name})"),
    }
}

/// Where a thing lies from a run: `below its tube and reflector`.
pub(super) fn towards(run: &RunStudy, reach: &Reach) -> String {
    let part = reach.part.label();
    match reach.direction {
        Direction::Above => format!("above its {part}"),
        Direction::Below => format!("below its {part}"),
        Direction::Left | Direction::Right => {
            let side = reach.direction.label();
            format!("to the {side} of its {part}{}", aim(run, reach.direction))
        }
        Direction::NearEnd | Direction::FarEnd => format!("beyond its {part}"),
    }
}

/// Which side of a tilted reflector a side is.
fn aim(run: &RunStudy, side: Direction) -> &'static str {
    let tilt = run.run.tilt.as_degrees();
    let is_left = side == Direction::Left;
    if tilt.to_radians().abs() <= tolerance::LIMIT {
        ""
    } else if (tilt > 0.0) == is_left {
        " (the aimed side)"
    } else {
        " (the rear)"
    }
}

/// What is said of a thing of which nobody knows whether it burns.
pub(super) const fn if_unknown(burns: Combustibility) -> &'static str {
    match burns {
        Combustibility::Unknown => {
            " Whether it burns is not known, so it is taken to burn: verify on site."
        }
        Combustibility::Combustible | Combustibility::NonCombustible => "",
    }
}
