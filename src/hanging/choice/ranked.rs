//! Best-first search through the sets of a ladder.

use std::cmp::Ordering;

use super::RankedSet;
use super::ladder::Ladder;

/// What is said of the first few rungs of sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Beginning {
    /// Sets may begin so.
    Promising,
    /// No set that begins so is wanted.
    Lost,
    /// No further set is wanted at all.
    Enough,
}

/// Says it.
pub(super) type Judgement<'a> = &'a dyn Fn(&[usize]) -> Beginning;

/// How many rungs a beginning has when that is asked.
const ASKED: std::ops::RangeInclusive<usize> = 3..=MOST_ASKED;
/// The most of them.
pub(in crate::hanging) const MOST_ASKED: usize = 6;

/// All sets of a ladder that obey its rule, in the order of preference.
#[derive(Debug)]
pub(super) struct RankedSets {
    ladder: Ladder,
    /// The first hangers with which a set can be completed, best first.
    firsts: Vec<Bound>,
    nodes: Vec<Node>,
    /// The paths of all nodes, one after the other.
    paths: Vec<usize>,
    /// Least first, as a binary heap. Most comparisons end with the figures, so they
    /// stand here beside the number of their node.
    heap: Vec<(Figures, usize)>,
    /// No further set is wanted.
    enough: bool,
}

/// A beginning of a set, or a whole set, waiting in the heap. It stands for itself
/// and for its later siblings: only when it leaves is the next of them put in.
#[derive(Debug, Clone, Copy)]
struct Node {
    bound: Bound,
    /// The node that it continues; none for a first hanger.
    parent: Option<usize>,
    /// Its path is `paths[path..path + length]`.
    path: usize,
    length: usize,
    spent: u64,
    widest_nm: i64,
}

/// Cost, greatest gap (nm), number.
type Figures = (u64, i64, u32);

/// The least that a beginning can come to; siblings differ in `step` at least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
struct Bound {
    cost: u64,
    gap_nm: i64,
    number: u32,
    step: Step,
}

/// How a beginning goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
enum Step {
    /// It is a whole set.
    #[default]
    End,
    /// With this rung.
    Rung(usize),
}

impl RankedSets {
    /// Starts the search.
    pub(super) fn new(ladder: Ladder) -> Self {
        let mut firsts: Vec<Bound> = ladder
            .firsts()
            .filter_map(|rung| {
                let rest = ladder.rest_of_first(rung);
                (!rest.is_dead_end()).then(|| Bound {
                    cost: u64::from(ladder.rungs[rung].cost) + rest.cost,
                    gap_nm: rest.gap_nm,
                    number: 1 + rest.number,
                    step: Step::Rung(rung),
                })
            })
            .collect();
        firsts.sort_unstable();
        let mut search = Self {
            ladder,
            firsts,
            nodes: Vec::new(),
            paths: Vec::new(),
            heap: Vec::new(),
            enough: false,
        };
        if let Some(first) = search.next_child(None, None, &|_| Beginning::Promising) {
            search.put(first);
        }
        search
    }

    /// Whether it was said that no further set is wanted.
    pub(super) fn has_had_enough(&self) -> bool {
        self.enough
    }

    /// The next best set whose beginning is no lost case, if there is one.
    pub(super) fn next_set(&mut self, judge: Judgement<'_>) -> Option<RankedSet<'_>> {
        let mut least = self.take_least()?;
        loop {
            let node = self.nodes[least];
            if let Some(sibling) = self.next_child(node.parent, Some(node.bound), judge) {
                self.put(sibling);
            }
            if self.enough {
                return None;
            }
            if node.bound.step == Step::End {
                return Some(RankedSet {
                    rungs: self.path(&node),
                    cost: node.bound.cost,
                    greatest_gap_nm: node.bound.gap_nm,
                });
            }
            // Its first continuation is nearly always the least of all that wait, and
            // needn't wait itself.
            let child = self.next_child(Some(least), None, judge);
            least = match (child, self.heap.first()) {
                (Some(child), Some(&waiting))
                    if self.order(waiting, (self.figures(child), child)).is_lt() =>
                {
                    self.put(child);
                    self.take_least()?
                }
                (Some(child), _) => child,
                (None, _) => self.take_least()?,
            };
        }
    }

    /// Makes the least continuation of `parent` that is beyond `after`.
    fn next_child(
        &mut self,
        parent: Option<usize>,
        after: Option<Bound>,
        judge: Judgement<'_>,
    ) -> Option<usize> {
        let begun = parent.map(|number| self.nodes[number]);
        let (bound, begun) = match begun {
            None => (
                self.least_first(after)?,
                Node {
                    bound: Bound::default(),
                    parent: None,
                    path: 0,
                    length: 0,
                    spent: 0,
                    widest_nm: 0,
                },
            ),
            Some(begun) => (self.least_hopeful_child(&begun, after, judge)?, begun),
        };
        let mut node = Node {
            bound,
            parent,
            ..begun
        };
        if let Step::Rung(rung) = bound.step {
            if let Some(last) = self.last_rung(&begun) {
                let gap_nm = self.station_nm(rung) - self.station_nm(last);
                node.widest_nm = node.widest_nm.max(gap_nm);
            }
            node.spent += u64::from(self.ladder.rungs[rung].cost);
            node.path = self.paths.len();
            node.length += 1;
            self.paths
                .extend_from_within(begun.path..begun.path + begun.length);
            self.paths.push(rung);
        }
        self.nodes.push(node);
        Some(self.nodes.len() - 1)
    }

    fn least_first(&self, after: Option<Bound>) -> Option<Bound> {
        let passed = after.map_or(0, |after| {
            self.firsts.partition_point(|&first| first <= after)
        });
        self.firsts.get(passed).copied()
    }

    /// The least continuation beyond `after` whose beginning is no lost case.
    fn least_hopeful_child(
        &mut self,
        parent: &Node,
        after: Option<Bound>,
        judge: Judgement<'_>,
    ) -> Option<Bound> {
        let least = self.least_child(parent, after)?;
        if !ASKED.contains(&(parent.length + 1)) || self.is_hopeful(parent, least, judge) {
            return Some(least);
        }
        // Where one is lost many are: all of them in order, not a search for each.
        let last = self.last_rung(parent)?;
        let mut others: Vec<Bound> = self
            .ladder
            .followers(last, parent.length)
            .filter(|&rung| !self.ladder.rest[rung].is_dead_end())
            .map(|rung| self.bound(parent, last, rung))
            .chain(self.end(parent, last))
            .filter(|&bound| least < bound)
            .collect();
        others.sort_unstable();
        others
            .into_iter()
            .find(|&bound| self.enough || self.is_hopeful(parent, bound, judge))
            .filter(|_| !self.enough)
    }

    fn is_hopeful(&mut self, parent: &Node, bound: Bound, judge: Judgement<'_>) -> bool {
        let Step::Rung(rung) = bound.step else {
            return true;
        };
        let mut beginning = [rung; MOST_ASKED];
        beginning[..parent.length].copy_from_slice(self.path(parent));
        let beginning = judge(&beginning[..=parent.length]);
        self.enough |= beginning == Beginning::Enough;
        beginning == Beginning::Promising
    }

    fn least_child(&self, parent: &Node, after: Option<Bound>) -> Option<Bound> {
        let last = self.last_rung(parent)?;
        let is_beyond = |bound: &Bound| after.is_none_or(|after| after < *bound);
        let mut least = self.end(parent, last).filter(is_beyond);
        let least_cost = after.map_or(0, |after| after.cost);
        for rung in self.ladder.followers(last, parent.length) {
            // Most are out by their cost alone; a dead end's is beyond all sums.
            let cost = self.ladder.through[rung].saturating_add(parent.spent);
            if cost < least_cost || cost > least.map_or(u64::MAX - 1, |least| least.cost) {
                continue;
            }
            let bound = self.bound(parent, last, rung);
            if is_beyond(&bound) && least.is_none_or(|least| bound < least) {
                least = Some(bound);
            }
        }
        least
    }

    /// A beginning as a whole set, where the tube may end with it.
    fn end(&self, parent: &Node, last: usize) -> Option<Bound> {
        self.ladder.may_end(last).then(|| Bound {
            cost: parent.spent,
            gap_nm: parent.widest_nm,
            number: u32::try_from(parent.length).unwrap_or(u32::MAX),
            step: Step::End,
        })
    }

    /// A beginning continued with a rung that is no dead end.
    fn bound(&self, parent: &Node, last: usize, rung: usize) -> Bound {
        let rest = self.ladder.rest[rung];
        let gap_nm = self.station_nm(rung) - self.station_nm(last);
        Bound {
            cost: parent.spent + self.ladder.through[rung],
            gap_nm: parent.widest_nm.max(gap_nm).max(rest.gap_nm),
            number: u32::try_from(parent.length).unwrap_or(u32::MAX - 1) + 1 + rest.number,
            step: Step::Rung(rung),
        }
    }

    fn station_nm(&self, rung: usize) -> i64 {
        self.ladder.rungs[rung].station_nm
    }

    fn path(&self, node: &Node) -> &[usize] {
        &self.paths[node.path..node.path + node.length]
    }

    fn last_rung(&self, node: &Node) -> Option<usize> {
        self.path(node).last().copied()
    }

    fn figures(&self, node: usize) -> Figures {
        let bound = &self.nodes[node].bound;
        (bound.cost, bound.gap_nm, bound.number)
    }

    /// The order of preference, as far as two nodes are known. A beginning never
    /// comes after its own continuations.
    fn order(&self, a: (Figures, usize), b: (Figures, usize)) -> Ordering {
        a.0.cmp(&b.0).then_with(|| {
            let (a, b) = (self.path(&self.nodes[a.1]), self.path(&self.nodes[b.1]));
            // Rungs ascend by station, so that where two paths part, their rungs are
            // in the order of their stations, unless these are the same.
            let parts = a.iter().zip(b).filter(|(a, b)| a != b);
            parts
                .map(|(&a, &b)| self.station_nm(a).cmp(&self.station_nm(b)))
                .find(|order| order.is_ne())
                .unwrap_or_else(|| a.len().cmp(&b.len()))
                .then_with(|| a.cmp(b))
        })
    }

    fn put(&mut self, node: usize) {
        let mut at = self.heap.len();
        self.heap.push((self.figures(node), node));
        while at > 0 {
            let above = (at - 1) / 2;
            if self.order(self.heap[above], self.heap[at]).is_le() {
                break;
            }
            self.heap.swap(above, at);
            at = above;
        }
    }

    fn take_least(&mut self) -> Option<usize> {
        let last = self.heap.len().checked_sub(1)?;
        self.heap.swap(0, last);
        let (_, least) = self.heap.pop()?;
        let mut at = 0;
        loop {
            let (left, right) = (2 * at + 1, 2 * at + 2);
            let mut lesser = at;
            for below in [left, right] {
                if below < self.heap.len()
                    && self.order(self.heap[below], self.heap[lesser]).is_lt()
                {
                    lesser = below;
                }
            }
            if lesser == at {
                return Some(least);
            }
            self.heap.swap(at, lesser);
            at = lesser;
        }
    }
}
