//! The sample sites, embedded, so that they open from any folder.

use super::{StoreError, parse};
use crate::site::Site;
use std::path::Path;

/// A sample site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sample {
    /// The stem of its file under `sample-sites/`.
    pub name: &'static str,
    /// What it shows, in a few words.
    pub about: &'static str,
    text: &'static str,
}

/// The samples; the first is what a new user sees first.
pub const SAMPLES: [Sample; 3] = [
    Sample {
        name: "freight-shed",
        about: "open-web joists, racks, dock doors; 13 straight runs",
        text: include_str!("../../sample-sites/freight-shed.ron"),
    },
    Sample {
        name: "boat-hall",
        about: "timber trusses, a travelling hoist, tall boats; 9 hairpins",
        text: include_str!("../../sample-sites/boat-hall.ron"),
    },
    Sample {
        name: "net-store",
        about: "purlins; one breach of each main kind",
        text: include_str!("../../sample-sites/net-store.ron"),
    },
];

impl Sample {
    /// The sample as a site.
    ///
    /// # Errors
    /// Never for the samples here, which a test opens; the type says so because it is
    /// read like any other file.
    pub fn open(&self) -> Result<Site, StoreError> {
        parse(Path::new(self.name), self.text)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sample_opens() {
        for sample in SAMPLES {
            let site = sample.open();
            assert!(site.is_ok(), "{}: {:?}", sample.name, site.err());
        }
    }
}
