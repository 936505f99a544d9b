//! `study()`: everything that is computed from a site and a catalogue.
//!
//! Pure and total: no clock, no files, no errors. A half-drawn site gives a study with
//! gaps. [`restudy`] gives the same study to the bit, computing again only what changed.

mod case;
mod channels;
mod cut_list;
mod envelope;
mod hardware;
mod heater;
mod loads_table;
mod neighbours;
mod pairs;
mod reuse;
mod rooms;
mod run;
mod steel;
mod surroundings;
pub mod survey;
mod together;
mod totals;
mod volumes;

pub use channels::{ChannelPiece, OnChannel, channel_list, channel_plan};
pub use cut_list::{
    Assumption, ChannelClamps, CutList, CutPiece, Leg, PartTotal, StockTotal, cut_list, to_verify,
};
pub use hardware::{HangerHardware, LegHardware, Made, Part};
pub use loads_table::{BayLoad, LoadHere, LoadsTable, PlaceLoads, SpanLoad, loads_table};
pub use neighbours::{FloorBelow, NearHeads, Neighbours};
pub use pairs::RunPair;
pub use rooms::{Room, direction_word, rooms, worst_rooms};
pub use run::{Clearance, RunClearance, RunStudy, kept_hanger};
pub use surroundings::{Surrounding, Surroundings, Thing};
pub use together::RunGroup;
pub use totals::Totals;
pub use volumes::{footprint_outlines, obstruction_solids};

use crate::catalogue::Catalogue;
use crate::clearance::{Class, Required, least_move};
use crate::geometry::DVec3;
use crate::hanging::{Candidate, Case, LoadPlace, PlaceLoad, Settled, SpanInSpace};
use crate::site::{Run, RunId, Site};
use crate::structure::{Structure, structure};
use reuse::Reuse;
use run::BegunRun;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Everything computed from a site and a catalogue.
#[derive(Debug, Clone)]
pub struct Study {
    /// The site that was studied.
    pub site: Arc<Site>,
    /// The catalogue that it was studied with.
    pub catalogue: Arc<Catalogue>,
    /// The building in space.
    pub structure: Arc<Structure>,
    /// What runs must keep clear of.
    pub surroundings: Arc<Surroundings>,
    /// The runs of the shown scheme, in its order. A run whose family or size the
    /// catalogue does not have is left out; the catalogue check names it.
    pub runs: Vec<Arc<RunStudy>>,
    /// Runs that had to be hung together, by the first of each group.
    pub groups: Vec<Arc<RunGroup>>,
    /// Runs that come near each other.
    pub pairs: Vec<Arc<RunPair>>,
    /// What all runs together put on each hang point.
    pub loads: BTreeMap<LoadPlace, PlaceLoad>,
    /// Sums over the runs.
    pub totals: Totals,
    spans: Arc<Spans>,
}

/// The member spans as the hanging engine sees them, with their index.
#[derive(Debug, PartialEq, Default)]
struct Spans {
    all: Vec<Arc<SpanInSpace>>,
    index: steel::SpanIndex,
}

impl PartialEq for Study {
    fn eq(&self, other: &Self) -> bool {
        self.site == other.site
            && self.catalogue == other.catalogue
            && self.structure == other.structure
            && self.surroundings == other.surroundings
            && self.runs == other.runs
            && self.groups == other.groups
            && self.pairs == other.pairs
            && self.loads == other.loads
            && self.totals == other.totals
            && self.spans == other.spans
    }
}

/// Class of another run.
const ANOTHER_RUN: Class = Class(2);

impl Spans {
    fn new(structure: &Structure) -> Self {
        let all = steel::spans(structure);
        let index = steel::SpanIndex::new(&all);
        Self { all, index }
    }
}

/// Studies a site.
#[must_use]
pub fn study(site: &Arc<Site>, catalogue: &Arc<Catalogue>) -> Study {
    build(None, site, catalogue)
}

/// Studies a site that differs from one already studied; equals [`study`] to the bit.
#[must_use]
pub fn restudy(before: &Study, site: &Arc<Site>, catalogue: &Arc<Catalogue>) -> Study {
    build(Some(before), site, catalogue)
}

fn build(before: Option<&Study>, site: &Arc<Site>, catalogue: &Arc<Catalogue>) -> Study {
    let reuse = Reuse::new(before, site, catalogue);
    let structure = reuse
        .structure()
        .unwrap_or_else(|| Arc::new(structure(site)));
    let spans = reuse
        .spans()
        .unwrap_or_else(|| Arc::new(Spans::new(&structure)));
    let surroundings = reuse
        .surroundings()
        .unwrap_or_else(|| Arc::new(Surroundings::new(site, &structure)));
    let setting = run::Setting::new((site, catalogue), &spans, &surroundings);
    let scheme = site.scheme();
    let begun: Vec<BegunRun<'_>> = scheme
        .runs
        .iter()
        .filter_map(|run| {
            let (family, size) = catalogue.size(&run.family, &run.size)?;
            let alone = reuse.alone(run, family);
            Some(BegunRun::new(&setting, run, (family, size), alone))
        })
        .collect();
    let Settled {
        hangings,
        loads,
        groups,
    } = together::hang_all(&setting, &reuse, &begun);
    let runs: Vec<Arc<RunStudy>> = begun
        .iter()
        .zip(&hangings)
        .map(|(begun, hanging)| {
            reuse
                .run(begun.run, begun.family, hanging)
                .unwrap_or_else(|| Arc::new(RunStudy::new(&setting, begun, hanging)))
        })
        .collect();
    let pairs = pairs::near_pairs(&runs, &site.policy, &reuse);
    let totals = Totals::new(&runs);
    Study {
        site: Arc::clone(site),
        catalogue: Arc::clone(catalogue),
        structure,
        surroundings,
        runs,
        groups: groups.into_iter().map(|group| group.answer).collect(),
        pairs,
        loads,
        totals,
        spans,
    }
}

impl Study {
    /// The study of one run.
    #[must_use]
    pub fn run(&self, id: &RunId) -> Option<&Arc<RunStudy>> {
        self.runs.iter().find(|known| known.run.id == *id)
    }

    /// Hands all to `work` that decides how a run of this study would hang if it were as
    /// `tried` has it (the same family and size) and no other run were there, with the
    /// spans that it may reach from up to `farther_m` away.
    pub fn with_case<R>(
        &self,
        run: &RunStudy,
        tried: &Run,
        farther_m: f64,
        work: impl FnOnce(&Case<'_>) -> R,
    ) -> R {
        let setting = run::Setting::new(
            (&self.site, &self.catalogue),
            &self.spans,
            &self.surroundings,
        );
        run::with_case(&setting, run, tried, farther_m, work)
    }

    /// How far a run must move in a direction (a unit vector) until a thing that is near
    /// it is outside its keep-clear envelope, m; 0 where it is outside already.
    #[must_use]
    pub fn least_move(&self, run: &RunStudy, near: &Clearance, direction: DVec3) -> f64 {
        let obstacles = self.surroundings.obstacles.all();
        let clearance = &run.clearance;
        obstacles
            .get(near.measured.obstacle)
            .map_or(0.0, |obstacle| {
                least_move(
                    &clearance.bodies,
                    &clearance.to_what_burns,
                    obstacle,
                    direction,
                )
            })
    }

    /// How far a run must move in a direction (a unit vector in site space) until it is as
    /// far from something as is required, m; 0 where it is.
    #[must_use]
    pub fn least_move_from(
        &self,
        run: &RunStudy,
        near: &Clearance,
        required: &Required,
        direction: DVec3,
    ) -> f64 {
        let obstacles = self.surroundings.obstacles.all();
        obstacles.get(near.measured.obstacle).map_or(0.0, |it| {
            least_move(&run.clearance.bodies, required, it, direction)
        })
    }

    /// The group that a run had to be hung in, if there is one.
    #[must_use]
    pub fn group(&self, id: &RunId) -> Option<&RunGroup> {
        let mut groups = self.groups.iter();
        groups
            .find(|group| group.runs.contains(id))
            .map(|group| &**group)
    }

    /// Every hang point that was considered for a run, so that anybody can check its
    /// hanging. Worked out when asked for: a long run has hundreds.
    #[must_use]
    pub fn considered(&self, run: &RunStudy) -> Vec<Candidate> {
        let setting = run::Setting::new(
            (&self.site, &self.catalogue),
            &self.spans,
            &self.surroundings,
        );
        run::considered(&setting, run)
    }
}
