//! What several runs together put on each place.

use std::collections::BTreeMap;

use super::candidate::Place;
use super::loads::LoadPlace;
use super::outcome::Hanging;
use super::steel::Capacity;

/// All that one place carries.
#[derive(Debug, Clone, PartialEq)]
pub struct PlaceLoad {
    /// The sum, N.
    pub sum_n: f64,
    /// What the sum may be; none where each attachment is judged alone.
    pub allowed: Option<Capacity>,
    /// Who puts it there.
    pub parts: Vec<LoadPart>,
}

/// One hanger's part of what a place carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadPart {
    /// The run, by its place in what was handed over.
    pub run: usize,
    /// Its hanger, from the burner.
    pub hanger: usize,
    /// Its load there, N.
    pub load_n: f64,
}

impl PlaceLoad {
    /// Whether the sum is allowed.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.allowed
            .is_none_or(|allowed| allowed.allows(self.sum_n))
    }
}

/// Sums the loads of several runs by panel point, chord panel and line member, and of
/// joists and trusses that are limited in all by span too: each run's own sum, run
/// after run, as the choice of hangers adds them.
#[must_use]
pub fn total<'a>(runs: impl IntoIterator<Item = &'a Hanging>) -> BTreeMap<LoadPlace, PlaceLoad> {
    let mut places: BTreeMap<LoadPlace, PlaceLoad> = BTreeMap::new();
    for (run, hanging) in runs.into_iter().enumerate() {
        for (hanger, at) in hanging.hangers.iter().enumerate() {
            for hold in &at.load.holds {
                let part = LoadPart {
                    run,
                    hanger,
                    load_n: hold.load_n,
                };
                add(
                    &mut places,
                    hold.place.clone(),
                    (hold.sum_n, hold.allowed_sum),
                    part,
                );
                if hold.place.place != Place::Line && hold.allowed_in_all.is_some() {
                    let whole = LoadPlace {
                        member: hold.place.member.clone(),
                        place: Place::Line,
                    };
                    add(
                        &mut places,
                        whole,
                        (hold.span_sum_n, hold.allowed_in_all),
                        part,
                    );
                }
            }
        }
    }
    places
}

/// Adds a hanger's part to a place, and with the first part of its run the run's sum.
fn add(
    places: &mut BTreeMap<LoadPlace, PlaceLoad>,
    place: LoadPlace,
    (sum_of_run_n, allowed): (f64, Option<Capacity>),
    part: LoadPart,
) {
    let known = places.entry(place).or_insert_with(|| PlaceLoad {
        sum_n: 0.0,
        allowed,
        parts: Vec::new(),
    });
    if known.parts.last().is_none_or(|last| last.run != part.run) {
        known.sum_n += sum_of_run_n;
    }
    known.parts.push(part);
}
