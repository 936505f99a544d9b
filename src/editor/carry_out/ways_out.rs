//! Asks for, shows and takes ways out of a breach.

use crate::editor::Editor;
use crate::editor::intent::Message;
use crate::editor::way_advice::Breach;
use crate::remedies::clearance::{Measure, Move, Offer, Way};
use crate::site::ObjectId;

impl Editor {
    /// Asks for the ways out of a breach, and picks the run that would change; or asks
    /// for none any more.
    pub(super) fn seek_ways_out(&mut self, breach: Option<Breach>) {
        if let Some(breach) = &breach {
            let run = ObjectId::Run(breach.run.clone());
            if self.selection.single() != Some(&run) {
                self.selection.pick([run].into_iter().collect());
            }
        }
        self.way_advice.want(breach);
    }

    /// Shows a way out as if it were taken; or nothing any more.
    pub(super) fn show_way_out(&mut self, which: Option<usize>) {
        let found = which.and_then(|which| Some((which, self.way_advice.offer(which)?.clone())));
        match found {
            Some((which, offer)) => {
                self.preview(&step_name(&offer), offer.edit);
                self.way_advice.shown = Some(which);
            }
            None if self.way_advice.shown.take().is_some() => {
                self.previewed = None;
                self.document.cancel_preview();
            }
            None => {}
        }
    }

    /// Takes a way out, as one step.
    pub(super) fn take_way_out(&mut self, which: usize) {
        let Some(offer) = self.way_advice.offer(which).cloned() else {
            return;
        };
        self.way_advice.shown = None;
        self.previewed = None;
        self.document.cancel_preview();
        let name = step_name(&offer);
        if self.step(&name, &offer.edit) {
            self.message = Some(Message::done(format!("{name}, as offered")));
        }
    }
}

/// What the step is called.
fn step_name(offer: &Offer) -> String {
    let run = &offer.run;
    match (offer.way, &offer.offered) {
        (Way::Height, Measure::Moved(Move::Down, _)) => format!("Lower {run}"),
        (Way::Height, _) => format!("Raise {run}"),
        (Way::Across, _) => format!("Move {run} across"),
        (Way::Along, _) => format!("Move {run} along"),
        (Way::Tilt, _) => format!("Tilt {run}"),
        (Way::Shield, _) => format!("Change the side shields of {run}"),
        (Way::EndForEnd, _) => format!("Turn {run} end for end"),
        (Way::SmallerSize, _) => format!("Take a smaller size for {run}"),
    }
}
