//! The search through the places of an area, nearest or cheapest first.
//!
//! Branch and bound over rectangles of places: the heap holds rectangles by the best that
//! any of their places can be, and single places by what they are. A rectangle that
//! leaves the heap is left out if none of its places can cost little enough
//! ([`super::relaxed`]), else cut in four; a place is tried exactly. So places come out in
//! the order of preference, as if all of them had been tried.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use super::Outcome;
use super::places::{Area, Distance, Extent, Shift};
use super::relaxed::Relaxed;
use crate::hanging::case::Case;
use crate::hanging::outcome::Status;

/// The most that one search looks at: places and rectangles. More, and it doesn't keep up
/// with a drag.
const MOST_LOOKED_AT: usize = 20_000;

/// The most work that one search spends on sets of hangers whose loads are not allowed,
/// in beginnings of such sets left at once.
const MOST_WORK: usize = 12_000;

/// Rectangles of so few places aren't worth a bound.
const FEW: i64 = 2;

/// What is preferred.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// The nearest place, then the cheapest.
    Nearest,
    /// The cheapest place, then the nearest.
    Cheapest,
}

/// What is sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Aim {
    /// Places where the run's hangers cost less than this, in thousandths;
    /// [`u64::MAX`] for any place where it can be hung.
    pub below: u64,
    /// In which order.
    pub order: Order,
}

/// A place that was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Place {
    /// Where.
    pub shift: Shift,
    /// What hanging the run there comes to.
    pub outcome: Outcome,
}

/// Places of an area that have what is sought, one after the other.
///
/// Places where the run isn't turned are nearer than all others; else the less any point
/// of its tube moves, and along alone before across alone before both. The place where
/// the run is, is the nearest of all.
#[derive(Debug)]
pub struct Seek<'a> {
    case: Case<'a>,
    area: &'a Area,
    aim: Aim,
    heap: BinaryHeap<Waiting>,
    relaxed: Relaxed,
    looked_at: usize,
    tried: usize,
    /// Places passed over for want of a proof.
    unproven: usize,
    work: usize,
}

/// What waits in the heap.
#[derive(Debug, Clone, Copy)]
struct Waiting {
    order: Order,
    distance: Distance,
    /// Its cost, or a lower bound of it.
    cost: u64,
    gap_nm: i64,
    what: What,
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum What {
    /// Places not looked at yet.
    Rectangle(Rectangle),
    /// Places whose least cost is known.
    Bounded(Rectangle),
    /// A place that has what is sought.
    Found(Place),
}

/// Places from and to, both included.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Rectangle {
    turn: usize,
    along: (i32, i32),
    across: (i32, i32),
}

impl<'a> Seek<'a> {
    /// Starts a search round the place of a case's run. Its spans must be all that are
    /// near enough to any place of the area.
    #[must_use]
    pub fn new(case: Case<'a>, area: &'a Area, aim: Aim) -> Self {
        let mut seek = Self {
            case,
            area,
            aim,
            heap: BinaryHeap::new(),
            relaxed: Relaxed::default(),
            looked_at: 0,
            tried: 0,
            unproven: 0,
            work: 0,
        };
        for along in thirds(area.along) {
            for across in thirds(area.across) {
                seek.wait_for(Rectangle {
                    turn: 0,
                    along,
                    across,
                });
            }
        }
        for turn in 1..=area.turns.len() {
            seek.wait_for(Rectangle {
                turn,
                along: (0, 0),
                across: (0, 0),
            });
        }
        seek
    }

    /// The next place; none if there is none, or if enough was looked at.
    pub fn next_place(&mut self) -> Option<Place> {
        while let Some(next) = self.heap.pop() {
            if let What::Found(place) = next.what {
                return Some(place);
            }
            if self.looked_at >= MOST_LOOKED_AT || self.work >= MOST_WORK {
                self.heap.push(next);
                return None;
            }
            match next.what {
                What::Found(_) => {}
                What::Bounded(rectangle) => self.cut(rectangle),
                What::Rectangle(rectangle) => self.look_at(rectangle, next),
            }
        }
        None
    }

    /// Whether no place is left that wasn't looked at, up to a proof.
    #[must_use]
    pub fn has_looked_everywhere(&self) -> bool {
        self.heap.is_empty() && self.unproven == 0
    }

    /// How many places were tried exactly, and how many rectangles and places looked at.
    #[must_use]
    pub fn counts(&self) -> (usize, usize) {
        (self.tried, self.looked_at)
    }

    fn look_at(&mut self, rectangle: Rectangle, waiting: Waiting) {
        if rectangle.count() == 1 {
            self.looked_at += 1;
            self.try_place(rectangle.least());
            return;
        }
        if rectangle.count() <= FEW {
            self.cut(rectangle);
            return;
        }
        self.looked_at += 1;
        let (middle, half_along_m, half_across_m) = rectangle.middle();
        let run = self.area.run_at(self.case.run, middle);
        let case = Case {
            run: &run,
            ..self.case
        };
        let cost = self
            .relaxed
            .least_cost(&case, (half_along_m, half_across_m), self.aim.below);
        if cost >= self.aim.below {
            return;
        }
        match self.aim.order {
            Order::Nearest => self.cut(rectangle),
            Order::Cheapest => self.heap.push(Waiting {
                cost: cost.max(waiting.cost),
                what: What::Bounded(rectangle),
                ..waiting
            }),
        }
    }

    fn try_place(&mut self, shift: Shift) {
        let run = self.area.run_at(self.case.run, shift);
        let there = Case {
            run: &run,
            ..self.case
        };
        let (outcome, work) = Outcome::below(&there, self.aim.below);
        self.tried += 1;
        self.unproven += usize::from(outcome.status == Status::Unproven);
        self.work += work;
        if let Some(cost) = outcome.cost.filter(|&cost| cost < self.aim.below) {
            self.heap.push(Waiting {
                order: self.aim.order,
                distance: self.area.distance(self.case.run, shift, Extent::Place),
                cost,
                gap_nm: outcome.greatest_gap_nm,
                what: What::Found(Place { shift, outcome }),
            });
        }
    }

    fn cut(&mut self, rectangle: Rectangle) {
        for along in halves(rectangle.along).into_iter().flatten() {
            for across in halves(rectangle.across).into_iter().flatten() {
                self.wait_for(Rectangle {
                    along,
                    across,
                    ..rectangle
                });
            }
        }
    }

    fn wait_for(&mut self, rectangle: Rectangle) {
        let extent = if rectangle.count() == 1 {
            Extent::Place
        } else {
            Extent::Rectangle
        };
        let distance = self.area.distance(self.case.run, rectangle.least(), extent);
        self.heap.push(Waiting {
            order: self.aim.order,
            distance,
            cost: 0,
            gap_nm: 0,
            what: What::Rectangle(rectangle),
        });
    }
}

impl Rectangle {
    fn count(&self) -> i64 {
        let length = |(from, to): (i32, i32)| i64::from(to) - i64::from(from) + 1;
        length(self.along) * length(self.across)
    }

    /// Its place that is nearest to the run; all of it is on one side of the run's place.
    fn least(&self) -> Shift {
        let least = |(from, to): (i32, i32)| if from > 0 { from } else { to.min(0) };
        Shift {
            along: least(self.along),
            across: least(self.across),
            turn: self.turn,
        }
    }

    /// A place in it, and the farthest that it reaches from there along and across, m.
    fn middle(&self) -> (Shift, f64, f64) {
        let middle = |(from, to): (i32, i32)| from.midpoint(to);
        let shift = Shift {
            along: middle(self.along),
            across: middle(self.across),
            turn: self.turn,
        };
        let half = |(from, to): (i32, i32), at: i32| f64::from((to - at).max(at - from));
        (
            shift,
            half(self.along, shift.along) * super::STEP_M,
            half(self.across, shift.across) * super::STEP_M,
        )
    }
}

/// The steps behind, at and before the run's place.
fn thirds(reach: i32) -> Vec<(i32, i32)> {
    if reach <= 0 {
        vec![(0, 0)]
    } else {
        vec![(-reach, -1), (0, 0), (1, reach)]
    }
}

/// A stretch of steps in two.
fn halves((from, to): (i32, i32)) -> [Option<(i32, i32)>; 2] {
    let middle = from.midpoint(to);
    if from == to {
        return [Some((from, to)), None];
    }
    // Towards zero a midpoint of negative steps may be the upper end.
    let middle = middle.min(to - 1);
    [Some((from, middle)), Some((middle + 1, to))]
}

impl Waiting {
    /// The order of preference; what isn't looked at yet before what is found, as it may
    /// be better.
    fn preference(&self, other: &Self) -> Ordering {
        let by_turn = self.distance.is_turned.cmp(&other.distance.is_turned);
        let by_distance = by_turn
            .then(self.distance.size.total_cmp(&other.distance.size))
            .then(self.distance.ways.cmp(&other.distance.ways));
        let by_cost = self.cost.cmp(&other.cost);
        let by_both = match self.order {
            Order::Nearest => by_distance.then(by_cost),
            Order::Cheapest => by_cost.then(by_distance),
        };
        by_both
            .then(self.gap_nm.cmp(&other.gap_nm))
            .then_with(|| self.what.tie().cmp(&other.what.tie()))
    }
}

impl What {
    /// What decides between equals: forward before back, left before right.
    fn tie(&self) -> (bool, usize, bool, i32, bool, i32) {
        let (found, shift) = match self {
            Self::Rectangle(rectangle) | Self::Bounded(rectangle) => (false, rectangle.least()),
            Self::Found(place) => (true, place.shift),
        };
        (
            found,
            shift.turn,
            shift.along < 0,
            shift.along.abs(),
            shift.across < 0,
            shift.across.abs(),
        )
    }
}

impl Ord for Waiting {
    /// The greatest is the most preferred, as the heap hands that out.
    fn cmp(&self, other: &Self) -> Ordering {
        other.preference(self)
    }
}

impl PartialOrd for Waiting {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Waiting {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Waiting {}
