//! Things near runs as rules speak of them: what they are called, in which direction
//! they lie, which of several members governs.

use super::say::{list, worst};
use super::{Context, Subject};
use crate::clearance::{Direction, Measured, Reach};
use crate::geometry::tolerance;
use crate::site::obstruction::ObstructionKind;
use crate::site::{Combustibility, Framing, FramingId, MemberId, ObstructionId};
use crate::study::{Clearance, RunStudy, Thing};
use std::sync::Arc;

/// One thing near a run, or several members of one framing, of which the worst governs.
pub(super) struct Nearby<'a> {
    /// The thing that governs.
    pub(super) governing: &'a Clearance,
    /// All of them, in the order of the structure.
    pub(super) all: Vec<&'a Clearance>,
}

/// The things near a run that pass a test; members of one framing together, because
/// one move cures them all and a row of trusses would fill the list.
pub(super) fn nearby<'a>(
    context: &Context<'_>,
    run: &'a RunStudy,
    passes: impl Fn(&Clearance) -> bool,
) -> Vec<Nearby<'a>> {
    let mut groups: Vec<(Option<FramingId>, Vec<&'a Clearance>)> = Vec::new();
    for near in run.clearance.near.iter().filter(|near| passes(near)) {
        let framing = match &near.thing {
            Thing::Member(id) => framing_of(context, id).map(|framing| framing.id.clone()),
            _ => None,
        };
        match groups
            .iter_mut()
            .find(|(known, _)| known.is_some() && *known == framing)
        {
            Some((_, all)) => all.push(near),
            None => groups.push((framing, vec![near])),
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
        std::iter::once(Subject::Run(run.run.id.clone()))
            .chain(things)
            .collect()
    }

    /// What people call it: `goods on racking O1`, `timber truss T-03 (and T-04)`.
    pub(super) fn name(&self, context: &Context<'_>) -> String {
        let name = name(context, &self.governing.thing);
        let others: Vec<Subject> = self
            .all
            .iter()
            .filter(|near| near.thing != self.governing.thing)
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
        Thing::Run(id) => id.to_string(),
    }
}

fn obstruction_name(context: &Context<'_>, id: &ObstructionId) -> String {
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
