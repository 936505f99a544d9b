//! Hangers by hand: where a hanger of the picked run could be, what the run is then, and
//! how that is said. The plan, the run profile and the panel all go through here.

mod change;
mod drag;
mod load;
mod reach;
mod words;

pub(crate) use change::{added, moved, place_of, stations, widest_gap, without};
pub(crate) use drag::HangerDrag;
pub(crate) use load::{is_too_much, part, percent};
pub(crate) use reach::{Aim, HangPoints, Stride, Toward, across, aimed, next};
pub(crate) use words::{broken, limit_in_words, said};
