//! The places of members where sums of loads are limited, by number, and the room that
//! loads leave there.

use std::collections::BTreeMap;

use super::split::sum_n;
use crate::geometry::tolerance;
use crate::hanging::loads::{HangerLoad, HoldLoad, LoadPlace};

/// What one run puts on each place whose sum is limited: ascending by place, N.
pub(super) type PlaceLoads = Vec<(usize, f64)>;

/// Numbers for places, in the order in which they were met.
#[derive(Debug, Default)]
pub(super) struct Places {
    numbers: BTreeMap<LoadPlace, usize>,
    known: Vec<(LoadPlace, f64)>,
}

impl Places {
    /// What one run's hangers put on each place whose sum is limited.
    pub(super) fn loads<'a>(
        &mut self,
        hangers: impl Iterator<Item = &'a HangerLoad>,
    ) -> PlaceLoads {
        let mut loads: PlaceLoads = hangers
            .flat_map(|hanger| &hanger.holds)
            .flat_map(HoldLoad::limited_sums)
            .filter_map(|(place, sum_n, allowed)| {
                let limit_n = allowed.greatest_n();
                let counts = limit_n < f64::INFINITY && sum_n > 0.0;
                counts.then(|| (self.number(place, limit_n), sum_n))
            })
            .collect();
        loads.sort_unstable_by_key(|&(place, _)| place);
        // Two hangers at one place both bring the run's sum there.
        loads.dedup_by_key(|&mut (place, _)| place);
        loads
    }

    fn number(&mut self, place: LoadPlace, limit_n: f64) -> usize {
        if let Some(&number) = self.numbers.get(&place) {
            return number;
        }
        let number = self.known.len();
        self.numbers.insert(place.clone(), number);
        self.known.push((place, limit_n));
        number
    }

    /// The place with a number.
    pub(super) fn place(&self, number: usize) -> &LoadPlace {
        &self.known[number].0
    }

    /// The greatest sum that passes there, N.
    pub(super) fn limit_n(&self, number: usize) -> f64 {
        self.known[number].1
    }
}

/// What all runs but one put on places.
#[derive(Debug, Default)]
pub(super) struct Others {
    /// Loads with their run's place in the scheme's order, ascending by it, N.
    loads: BTreeMap<usize, Vec<(usize, f64)>>,
}

impl Others {
    /// Adds a run's loads; runs come in the scheme's order.
    pub(super) fn add(&mut self, order: usize, loads: &[(usize, f64)]) {
        for &(place, load_n) in loads {
            self.loads.entry(place).or_default().push((order, load_n));
        }
    }

    /// The sum at a place with what one more run puts there.
    pub(super) fn sum_with(&self, place: usize, order: usize, load_n: f64) -> f64 {
        let others = self.loads.get(&place).map_or(&[][..], Vec::as_slice);
        let (before, after) = others.split_at(others.partition_point(|&(other, _)| other < order));
        let own = (order, load_n);
        sum_n(
            before
                .iter()
                .chain([&own])
                .chain(after)
                .map(|&(_, load_n)| load_n),
        )
    }

    /// The room that is left for one more run at each place, N.
    pub(super) fn caps(&self, order: usize, places: &Places) -> Vec<(usize, f64)> {
        let room_n = |place: usize| {
            let limit_n = places.limit_n(place);
            let left_n = (limit_n - self.sum_with(place, order, 0.0)).max(0.0);
            if self.sum_with(place, order, left_n) <= limit_n {
                left_n
            } else {
                (left_n - limit_n * tolerance::LOAD_SUM).max(0.0)
            }
        };
        self.loads
            .keys()
            .map(|&place| (place, room_n(place)))
            .collect()
    }
}
