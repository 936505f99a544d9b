//! The building in space, from what the user drew: members with their hang points,
//! walls and roof decks as solids.

mod doors;
mod height;
mod label;
mod layout;
mod member;
mod solids;

pub use doors::{DoorPart, LeafSpace, door_space};
pub use height::DrawnFraming;
pub use member::{Member, MemberEnd, PanelPoint, members};
pub use solids::{Part, PartOf, WALL_M, roof_slabs};

use crate::site::Site;
use std::sync::Arc;

/// The building in space.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Structure {
    /// Every member span, ordered by framing, member number, then position.
    pub members: Vec<Arc<Member>>,
    /// Members, walls and roof decks as solids, in that order.
    pub parts: Vec<Part>,
}

impl Structure {
    /// The member span with an id.
    pub fn member(&self, id: &str) -> Option<&Arc<Member>> {
        self.members.iter().find(|member| member.id.as_str() == id)
    }
}

/// Builds the structure of a site. Whatever can't be built (a framing whose bay is
/// gone) is left out.
#[must_use]
pub fn structure(site: &Site) -> Structure {
    let members = members(site);
    let mut parts = solids::of_members(&members);
    parts.extend(solids::of_shell(site));
    Structure { members, parts }
}
