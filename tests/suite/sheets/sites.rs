//! Sites for the tests of sheets, studied.

use std::path::Path;
use std::sync::Arc;

use rafterglow::catalogue::Catalogue;
use rafterglow::findings::judge;
use rafterglow::geometry::DVec2;
use rafterglow::sheets::Sheet;
use rafterglow::sheets::pages::{PageInput, csv, plan_set};
use rafterglow::site::place::turned;
use rafterglow::site::*;
use rafterglow::store;
use rafterglow::study::{Study, study};
use rafterglow::units::{Angle, Length};

use crate::made::{Shed, shed};

/// A site with its study, of which sheets are made.
pub(super) struct Set {
    site: Arc<Site>,
    catalogue: Arc<Catalogue>,
    study: Study,
}

impl Set {
    pub(super) fn of(site: Site) -> Self {
        Self::with(site, store::embedded_catalogue())
    }

    pub(super) fn with(site: Site, catalogue: Catalogue) -> Self {
        let (site, catalogue) = (Arc::new(site), Arc::new(catalogue));
        let study = study(&site, &catalogue);
        Self {
            site,
            catalogue,
            study,
        }
    }

    /// Four runs.
    pub(super) fn small() -> Self {
        Self::of(shed(Shed::SMALL))
    }

    /// Four hundred runs among four hundred stacks.
    pub(super) fn large() -> Self {
        Self::of(shed(Shed {
            runs_along: 20,
            rows: 20,
            stacks_per_row: 20,
        }))
    }

    /// A sample site.
    pub(super) fn sample(name: &str) -> Self {
        let path = format!("{}/sample-sites/{name}.ron", env!("CARGO_MANIFEST_DIR"));
        Self::of(store::open(Path::new(&path)).unwrap())
    }

    /// The small shed turned by 33 degrees, with one run at a slant to it.
    pub(super) fn slanting() -> Self {
        let mut site = shed(Shed::SMALL);
        let mut run = site.schemes[0].runs[0].as_ref().clone();
        run.bearing = Angle::degrees(72.0);
        let mut scheme = site.schemes[0].as_ref().clone();
        scheme.runs[0] = Arc::new(run);
        site.schemes[0] = Arc::new(scheme);
        let about = DVec2::new(120.0, -40.0);
        for id in site.object_ids() {
            let object = site.object(&id).unwrap();
            site = edit::Edit::Put(turned(&object, about, Angle::degrees(33.0)))
                .apply(&site)
                .unwrap();
        }
        Self::of(site)
    }

    /// Changes the site and studies it again.
    pub(super) fn change(&mut self, change: impl FnOnce(&mut Site)) {
        let mut site = self.site.as_ref().clone();
        change(&mut site);
        *self = Self::with(site, self.catalogue.as_ref().clone());
    }

    pub(super) fn site(&self) -> &Site {
        &self.site
    }

    pub(super) fn study(&self) -> &Study {
        &self.study
    }

    /// Every sheet of the set, dated.
    pub(super) fn sheets(&self) -> Vec<Sheet> {
        self.drawn_by(plan_set)
    }

    /// The schedule as comma-separated values.
    pub(super) fn csv(&self) -> String {
        self.drawn_by(|input| csv::hanging_schedule(input).unwrap())
    }

    pub(super) fn drawn_by<T>(&self, draw: impl FnOnce(&PageInput<'_>) -> T) -> T {
        let findings = judge(&self.site, &self.catalogue, &self.study);
        draw(&PageInput {
            site: &self.site,
            catalogue: &self.catalogue,
            study: &self.study,
            findings: &findings,
            date: "2031-03-02".parse().ok(),
        })
    }

    /// Every hanger's id and the plan place of its attach point.
    pub(super) fn hangers(&self) -> impl Iterator<Item = (String, DVec2)> + '_ {
        self.study.runs.iter().flat_map(|run| {
            let hangers = run.hanging.hangers.iter().enumerate();
            hangers.map(|(index, hanger)| {
                (
                    format!("{}.{}", run.run.id, index + 1),
                    hanger.at.attach.truncate(),
                )
            })
        })
    }
}

/// A length in metres.
pub(super) fn m(metres: f64) -> Length {
    Length::metres(metres)
}
