//! Heater families with their makers' figures, and the hardware that hangs them, each
//! with its source.
//!
//! The bundled families are invented, generic and marked so. A user enters the
//! figures of the certified manual of the heater that will be bought.

pub mod family;
pub mod hardware;
pub mod validate;
mod validate_hardware;

pub use family::{
    BurnerBody, ExhaustFitting, Family, FamilyShape, Figures, HangerEyes, HangingFigures,
    HeaterSize, KeepClearBand, KeepClearFigures, LeastSuspension, MountingHeights, Reflector,
    ShieldSet, Source,
};
pub use hardware::{
    Adjuster, AttachedTo, Attachment, Form, HardwareTable, Strength, SuspensionKind, SuspensionSize,
};

use std::sync::Arc;

/// All families and all hardware at hand: what is embedded and what a user added.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Catalogue {
    families: Vec<Arc<Family>>,
    /// What suspensions are made of. Without any, no hardware is chosen.
    pub hardware: HardwareTable,
}

impl Catalogue {
    /// Made from families; of two with one id, the later replaces the earlier, so that
    /// a user's file can replace an embedded family.
    pub fn new(families: impl IntoIterator<Item = Family>) -> Self {
        let mut catalogue = Self::default();
        for family in families {
            catalogue.put(family);
        }
        catalogue
    }

    /// Adds a family, or replaces the one with its id.
    pub fn put(&mut self, family: Family) {
        let family = Arc::new(family);
        match self.families.iter_mut().find(|known| known.id == family.id) {
            Some(known) => *known = family,
            None => self.families.push(family),
        }
    }

    /// The families, in the order in which they were added.
    pub fn families(&self) -> &[Arc<Family>] {
        &self.families
    }

    /// The family with an id.
    pub fn family(&self, id: &str) -> Option<&Arc<Family>> {
        self.families.iter().find(|family| family.id == id)
    }

    /// The size of a family.
    pub fn size(&self, family: &str, size: &str) -> Option<(&Arc<Family>, &HeaterSize)> {
        let family = self.family(family)?;
        Some((family, family.sizes.iter().find(|known| known.id == size)?))
    }
}
