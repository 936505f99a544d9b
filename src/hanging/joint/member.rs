//! One run of a group: its best set for each room that it was left.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::places::{Others, PlaceLoads, Places};
use crate::hanging::candidate::{Candidate, Gathering, Kind, NANOMETRES, Place};
use crate::hanging::case::{Case, Room};
use crate::hanging::limit::{Bound, Limit, LimitBreach};
use crate::hanging::loads::{HoldLoad, Judge, LoadPlace};
use crate::hanging::obstacle::obstacle;
use crate::hanging::outcome::{Hanging, Status, finish};
use crate::hanging::search::{MOST_SETS, search};
use crate::hanging::steel::Capacity;

/// The most that a run may put on places, N, ascending by place.
pub(super) type Caps = Vec<(usize, f64)>;

/// One run of a group.
pub(super) struct Member<'a> {
    /// Its place in the scheme's order.
    pub(super) order: usize,
    case: &'a Case<'a>,
    alone: &'a Hanging,
    /// Its candidates, once they are needed.
    all: Option<Gathering<'a>>,
    /// What it comes to under the caps tried so far; the first is without any.
    states: Vec<State>,
    /// The number of the state for each caps, by the bits of their loads, and for the most
    /// sets to be tried.
    known: BTreeMap<(Vec<(usize, u64)>, usize), usize>,
}

/// A run's best set under some caps.
struct State {
    caps: Caps,
    /// The best set, or the best found; none if there is none, or none was found.
    set: Option<Vec<Candidate>>,
    /// What that puts on places.
    loads: PlaceLoads,
    tried: usize,
    complete: bool,
    key: Arc<Key>,
}

/// How a set ranks among those of its run; a lower bound where the best set isn't known.
/// Derived order: cost, greatest gap, number, stations, then member ids and the rest that
/// candidates of one station are ordered by. What is unknown comes before what is known.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key {
    cost: u64,
    known: Option<Rank>,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    gap_nm: i64,
    number: usize,
    stations_nm: Vec<i64>,
    holds: Vec<(Vec<Arc<str>>, Kind, u64, Place)>,
}

impl Rank {
    fn new(set: &[Candidate]) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a station is a whole number of nanometres on a tube"
        )]
        let stations_nm: Vec<i64> = set
            .iter()
            .map(|at| (at.station_m * NANOMETRES).round() as i64)
            .collect();
        let gaps = stations_nm.windows(2).map(|pair| pair[1] - pair[0]);
        let holds = |at: &Candidate| {
            let members = at.holds().map(|hold| Arc::clone(&hold.member)).collect();
            // A lean has no sign: its bits are in its order.
            (members, at.kind, at.lean_rad.to_bits(), at.first.place)
        };
        Self {
            gap_nm: gaps.max().unwrap_or(0),
            number: set.len(),
            holds: set.iter().map(holds).collect(),
            stations_nm,
        }
    }
}

impl<'a> Member<'a> {
    pub(super) fn new(
        order: usize,
        case: &'a Case<'a>,
        alone: &'a Hanging,
        places: &mut Places,
    ) -> Self {
        let set = alone.hangers.iter().map(|hanger| hanger.at.clone());
        let first = State::new(
            Caps::new(),
            Some(set.collect()),
            places.loads(alone.hangers.iter().map(|hanger| &hanger.load)),
            0,
            alone.status == Status::Solved,
            alone.least_cost.unwrap_or(0),
        );
        Self {
            order,
            case,
            alone,
            all: None,
            states: vec![first],
            known: BTreeMap::from([((Vec::new(), MOST_SETS), 0)]),
        }
    }

    /// The state under some caps, after `most` sets at most, and the sets that had to be
    /// tried for it now.
    pub(super) fn under(&mut self, caps: Caps, most: usize, places: &mut Places) -> (usize, usize) {
        let bits = caps
            .iter()
            .map(|&(place, most_n)| (place, most_n.to_bits()))
            .collect();
        let asked = (bits, most);
        if let Some(&state) = self.known.get(&asked) {
            return (state, 0);
        }
        let room = self.room(&caps, places);
        let case = Case {
            room: &room,
            ..*self.case
        };
        let all = self.candidates().within(&case);
        let found = search(&all, most);
        let load = case.weight.beam_load(case.run.tube_length_m);
        let loads = found
            .chosen
            .as_ref()
            .and_then(|set| Judge::new(case, &load).loads(set))
            .map_or_else(PlaceLoads::new, |loads| places.loads(loads.iter()));
        let state = State::new(
            caps,
            found.chosen,
            loads,
            found.tried,
            found.complete,
            found.least_cost.unwrap_or(u64::MAX),
        );
        self.states.push(state);
        let number = self.states.len() - 1;
        self.known.insert(asked, number);
        (number, found.tried)
    }

    fn candidates(&mut self) -> &Gathering<'a> {
        let case = self.case;
        self.all.get_or_insert_with(|| Gathering::done(case))
    }

    /// Caps as room at the spans of this run's case; the others can't be reached.
    fn room(&self, caps: &[(usize, f64)], places: &Places) -> Vec<Room> {
        let room = |&(number, left_n): &(usize, f64)| {
            let place = places.place(number);
            let mut spans = self.case.spans.iter();
            Some(Room {
                span: spans.position(|span| span.id == place.member)?,
                place: place.place,
                left_n,
            })
        };
        caps.iter().filter_map(room).collect()
    }

    pub(super) fn caps(&self, state: usize) -> &[(usize, f64)] {
        &self.states[state].caps
    }

    pub(super) fn loads(&self, state: usize) -> &[(usize, f64)] {
        &self.states[state].loads
    }

    pub(super) fn key(&self, state: usize) -> &Arc<Key> {
        &self.states[state].key
    }

    /// A lower bound of what it costs under the caps, thousandths.
    pub(super) fn least_cost(&self, state: usize) -> u64 {
        self.states[state].key.cost
    }

    /// What the found set costs, thousandths; nothing if none was found.
    pub(super) fn cost(&self, state: usize) -> u64 {
        let set = self.states[state].set.iter().flatten();
        set.map(|at| u64::from(at.cost)).sum()
    }

    /// Whether a set was found.
    pub(super) fn hangs(&self, state: usize) -> bool {
        self.states[state].set.is_some()
    }

    /// Whether what was found is proven.
    pub(super) fn is_proven(&self, state: usize) -> bool {
        self.states[state].complete
    }

    /// The run with the set of a state.
    pub(super) fn hanging(&self, state: usize, proven: bool) -> Hanging {
        let status = if proven {
            Status::Solved
        } else {
            Status::Unproven
        };
        let mut hanging = if state == 0 {
            self.alone.clone()
        } else {
            let chosen = &self.states[state];
            let set = chosen.set.clone().unwrap_or_default();
            finish(self.case, status, set, chosen.tried, None)
        };
        hanging.status = status;
        hanging.least_cost = if proven {
            hanging.cost
        } else {
            self.alone.least_cost
        };
        hanging
    }

    /// The run left out, beside others, with what stands in its way.
    pub(super) fn left_out(&mut self, others: &Others, places: &Places, proven: bool) -> Hanging {
        let room = self.room(&others.caps(self.order, places), places);
        let case = Case {
            room: &room,
            ..*self.case
        };
        let mut obstacle = obstacle(&self.candidates().within(&case));
        obstacle.together = self.states[0]
            .loads
            .iter()
            .filter_map(|&(place, load_n)| {
                let measured = others.sum_with(place, self.order, load_n);
                (measured > places.limit_n(place))
                    .then(|| self.overload(places.place(place), measured))
            })
            .collect();
        let status = if proven {
            Status::Impossible
        } else {
            Status::Unproven
        };
        let tried = self.states.iter().map(|state| state.tried).sum();
        finish(self.case, status, Vec::new(), tried, Some(obstacle))
    }

    /// What this run as it hangs alone makes too much at a place, together with others.
    fn overload(&self, place: &LoadPlace, measured: f64) -> LimitBreach {
        let mut hangers = Vec::new();
        let mut required = 0.0;
        for (which, hanger) in self.alone.hangers.iter().enumerate() {
            for (at, _, allowed) in hanger.load.holds.iter().flat_map(HoldLoad::limited_sums) {
                if let (true, Capacity::Known(allowed_n)) = (at == *place, allowed) {
                    hangers.push(which);
                    required = allowed_n;
                }
            }
        }
        hangers.dedup();
        LimitBreach {
            limit: Limit::Load,
            hangers,
            place: Some(place.clone()),
            measured,
            required,
            bound: Bound::Greatest,
        }
    }
}

impl State {
    fn new(
        caps: Caps,
        set: Option<Vec<Candidate>>,
        loads: PlaceLoads,
        tried: usize,
        complete: bool,
        least_cost: u64,
    ) -> Self {
        let known = set.as_deref().filter(|_| complete).map(Rank::new);
        Self {
            caps,
            set,
            loads,
            tried,
            complete,
            key: Arc::new(Key {
                cost: least_cost,
                known,
            }),
        }
    }
}
