//! The objects of a site, whatever their kind, and how they are found.

use super::id::next_free;
use super::{
    Bay, BayId, Framing, FramingId, GridId, GridLine, Obstruction, ObstructionId, Opening,
    OpeningId, Run, RunId, Scheme, SchemeId, SectionId, SectionLine, Site, WorkSpot, WorkSpotId,
};
use std::fmt;
use std::sync::Arc;

/// An object of a site.
#[derive(Debug, Clone, PartialEq)]
pub enum Object {
    /// A column line.
    GridLine(Arc<GridLine>),
    /// A heated space.
    Bay(Arc<Bay>),
    /// An opening in a wall.
    Opening(Arc<Opening>),
    /// Roof members.
    Framing(Arc<Framing>),
    /// Something in the way.
    Obstruction(Arc<Obstruction>),
    /// A place where somebody works.
    WorkSpot(Arc<WorkSpot>),
    /// Where the site is cut for a section.
    SectionLine(Arc<SectionLine>),
    /// A heater of the shown scheme.
    Run(Arc<Run>),
}

/// Which object of a site.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ObjectId {
    /// A column line.
    GridLine(GridId),
    /// A heated space.
    Bay(BayId),
    /// An opening in a wall.
    Opening(OpeningId),
    /// Roof members.
    Framing(FramingId),
    /// Something in the way.
    Obstruction(ObstructionId),
    /// A place where somebody works.
    WorkSpot(WorkSpotId),
    /// Where the site is cut for a section.
    SectionLine(SectionId),
    /// A heater of the shown scheme.
    Run(RunId),
}

impl Object {
    /// Its id.
    pub fn id(&self) -> ObjectId {
        match self {
            Self::GridLine(it) => ObjectId::GridLine(it.id.clone()),
            Self::Bay(it) => ObjectId::Bay(it.id.clone()),
            Self::Opening(it) => ObjectId::Opening(it.id.clone()),
            Self::Framing(it) => ObjectId::Framing(it.id.clone()),
            Self::Obstruction(it) => ObjectId::Obstruction(it.id.clone()),
            Self::WorkSpot(it) => ObjectId::WorkSpot(it.id.clone()),
            Self::SectionLine(it) => ObjectId::SectionLine(it.id.clone()),
            Self::Run(it) => ObjectId::Run(it.id.clone()),
        }
    }

    /// The same object under another id.
    #[must_use]
    pub fn with_id(&self, id: &str) -> Self {
        /// A copy of an object with its id replaced.
        macro_rules! renamed {
            ($kind:ident, $it:expr) => {
                Self::$kind(Arc::new($kind {
                    id: id.into(),
                    ..$kind::clone($it)
                }))
            };
        }
        match self {
            Self::GridLine(it) => renamed!(GridLine, it),
            Self::Bay(it) => renamed!(Bay, it),
            Self::Opening(it) => renamed!(Opening, it),
            Self::Framing(it) => renamed!(Framing, it),
            Self::Obstruction(it) => renamed!(Obstruction, it),
            Self::WorkSpot(it) => renamed!(WorkSpot, it),
            Self::SectionLine(it) => renamed!(SectionLine, it),
            Self::Run(it) => renamed!(Run, it),
        }
    }

    /// Whether this is the very same object in memory: what is has not changed.
    pub fn is_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::GridLine(a), Self::GridLine(b)) => Arc::ptr_eq(a, b),
            (Self::Bay(a), Self::Bay(b)) => Arc::ptr_eq(a, b),
            (Self::Opening(a), Self::Opening(b)) => Arc::ptr_eq(a, b),
            (Self::Framing(a), Self::Framing(b)) => Arc::ptr_eq(a, b),
            (Self::Obstruction(a), Self::Obstruction(b)) => Arc::ptr_eq(a, b),
            (Self::WorkSpot(a), Self::WorkSpot(b)) => Arc::ptr_eq(a, b),
            (Self::SectionLine(a), Self::SectionLine(b)) => Arc::ptr_eq(a, b),
            (Self::Run(a), Self::Run(b)) => Arc::ptr_eq(a, b),
            _ => false,
        }
    }
}

impl ObjectId {
    /// Its text, as people say it: `R3`.
    pub fn as_str(&self) -> &str {
        match self {
            Self::GridLine(id) => id.as_str(),
            Self::Bay(id) => id.as_str(),
            Self::Opening(id) => id.as_str(),
            Self::Framing(id) => id.as_str(),
            Self::Obstruction(id) => id.as_str(),
            Self::WorkSpot(id) => id.as_str(),
            Self::SectionLine(id) => id.as_str(),
            Self::Run(id) => id.as_str(),
        }
    }

    /// The trade's word for such an object.
    pub const fn kind_label(&self) -> &'static str {
        match self {
            Self::GridLine(_) => "grid line",
            Self::Bay(_) => "bay",
            Self::Opening(_) => "opening",
            Self::Framing(_) => "framing",
            Self::Obstruction(_) => "obstruction",
            Self::WorkSpot(_) => "work spot",
            Self::SectionLine(_) => "section line",
            Self::Run(_) => "run",
        }
    }

    /// The id of an object of the same kind under another name.
    #[must_use]
    pub fn renamed(&self, to: &str) -> Self {
        match self {
            Self::GridLine(_) => Self::GridLine(to.into()),
            Self::Bay(_) => Self::Bay(to.into()),
            Self::Opening(_) => Self::Opening(to.into()),
            Self::Framing(_) => Self::Framing(to.into()),
            Self::Obstruction(_) => Self::Obstruction(to.into()),
            Self::WorkSpot(_) => Self::WorkSpot(to.into()),
            Self::SectionLine(_) => Self::SectionLine(to.into()),
            Self::Run(_) => Self::Run(to.into()),
        }
    }
}

impl fmt::Display for ObjectId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

impl Site {
    /// The object with an id; a run is looked for in the shown scheme.
    pub fn object(&self, id: &ObjectId) -> Option<Object> {
        match id {
            ObjectId::GridLine(id) => find(&self.grid, id).map(Object::GridLine),
            ObjectId::Bay(id) => find(&self.bays, id).map(Object::Bay),
            ObjectId::Opening(id) => find(&self.openings, id).map(Object::Opening),
            ObjectId::Framing(id) => find(&self.framings, id).map(Object::Framing),
            ObjectId::Obstruction(id) => find(&self.obstructions, id).map(Object::Obstruction),
            ObjectId::WorkSpot(id) => find(&self.work_spots, id).map(Object::WorkSpot),
            ObjectId::SectionLine(id) => find(&self.sections, id).map(Object::SectionLine),
            ObjectId::Run(id) => find(&self.scheme().runs, id).map(Object::Run),
        }
    }

    /// The least free id of the form prefix + number. An id names one thing, so all
    /// kinds of objects count, and the runs of every scheme.
    pub fn free_id(&self, prefix: &str) -> String {
        let ids = self.object_ids();
        let runs = self.schemes.iter().flat_map(|scheme| &scheme.runs);
        let taken = ids.iter().map(ObjectId::as_str);
        next_free(prefix, taken.chain(runs.map(|run| run.id.as_str())))
    }

    /// The ids of all objects: grid lines, bays, openings, framings, obstructions, work
    /// spots, section lines, and the shown scheme's runs, each kind in its own order.
    pub fn object_ids(&self) -> Vec<ObjectId> {
        let scheme = self.scheme();
        let grid = self.grid.iter().map(|it| ObjectId::GridLine(it.id.clone()));
        let bays = self.bays.iter().map(|it| ObjectId::Bay(it.id.clone()));
        let openings = self.openings.iter();
        let openings = openings.map(|it| ObjectId::Opening(it.id.clone()));
        let framings = self.framings.iter();
        let framings = framings.map(|it| ObjectId::Framing(it.id.clone()));
        let obstructions = self.obstructions.iter();
        let obstructions = obstructions.map(|it| ObjectId::Obstruction(it.id.clone()));
        let work_spots = self.work_spots.iter();
        let work_spots = work_spots.map(|it| ObjectId::WorkSpot(it.id.clone()));
        let sections = self.sections.iter();
        let sections = sections.map(|it| ObjectId::SectionLine(it.id.clone()));
        let runs = scheme.runs.iter().map(|it| ObjectId::Run(it.id.clone()));
        grid.chain(bays)
            .chain(openings)
            .chain(framings)
            .chain(obstructions)
            .chain(work_spots)
            .chain(sections)
            .chain(runs)
            .collect()
    }
}

/// What every object has: an id of its own type.
pub(super) trait Identified {
    /// The id's type.
    type Id: PartialEq;
    /// The id.
    fn id(&self) -> &Self::Id;
}

macro_rules! identified {
    ($($object:ident, $id:ident;)*) => {
        $(impl Identified for $object {
            type Id = $id;
            fn id(&self) -> &$id { &self.id }
        })*
    };
}

identified! {
    GridLine, GridId;
    Bay, BayId;
    Opening, OpeningId;
    Framing, FramingId;
    Obstruction, ObstructionId;
    WorkSpot, WorkSpotId;
    SectionLine, SectionId;
    Run, RunId;
    Scheme, SchemeId;
}

/// The object of a list with an id.
pub(super) fn find<T: Identified>(list: &[Arc<T>], id: &T::Id) -> Option<Arc<T>> {
    list.iter().find(|known| known.id() == id).cloned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec2;
    use crate::units::Length;

    #[test]
    fn an_object_is_found_by_its_id_and_keeps_its_kind_when_renamed() {
        let spot = Arc::new(WorkSpot {
            id: "W1".into(),
            name: String::new(),
            at: DVec2::new(1.0, 2.0),
            height: Length::metres(1.1),
            activity_met: 1.6,
            clothing_clo: 0.9,
            notes: String::new(),
        });
        let site = Site {
            work_spots: vec![Arc::clone(&spot)],
            ..Site::default()
        };
        let id = ObjectId::WorkSpot("W1".into());
        assert_eq!(site.object_ids(), std::slice::from_ref(&id));
        let found = site.object(&id);
        assert!(found.is_some_and(|found| found.is_same(&Object::WorkSpot(Arc::clone(&spot)))));
        assert_eq!(site.object(&ObjectId::Run("W1".into())), None);
        let renamed = Object::WorkSpot(spot).with_id("W9");
        assert_eq!(renamed.id(), id.renamed("W9"));
    }
}
