//! What the panels and the tools want done. They only read the editor; everything that
//! changes is asked for here and carried out in one place at the end of the frame.

use super::chooser::Purpose;
use super::command::Command;
use super::dialog::{Answer, Dialog};
use super::drafts::Drafts;
use super::make::Made;
use super::set_writer::Order;
use super::theme::ThemeChoice;
use super::way_advice::Breach;
use crate::geometry::DVec3;
use crate::hanging::Candidate;
use crate::site::Edit;
use crate::site::{ObjectId, RunId};
use crate::units::Length;
use std::collections::BTreeSet;

/// Something that is wanted.
#[derive(Debug, Clone)]
pub(crate) enum Intent {
    /// An edit, as one step that can be undone under its name ("Move R3").
    CarryOut {
        /// The step's name.
        name: String,
        /// The edit.
        edit: Edit,
    },
    /// Something new, as one step; it is picked.
    Make(Made),
    /// An edit shown, not yet done; the next one replaces it.
    Preview {
        /// The name of the step that it would be.
        name: String,
        /// The edit, of the committed site.
        edit: Edit,
    },
    /// Why nothing was done is told.
    Tell(String),
    /// The preview becomes a step.
    CommitPreview,
    /// The preview is given up.
    DropPreview,
    /// These are picked, and nothing else.
    Pick(BTreeSet<ObjectId>),
    /// These are picked too.
    PickAlso(BTreeSet<ObjectId>),
    /// Picked if it isn't, let go if it is.
    TogglePick(ObjectId),
    /// The picked hanger is moved to another hang point, as one step.
    MoveHanger(Box<Candidate>),
    /// One hanger more on the picked run, at a hang point, as one step.
    AddHanger(Box<Candidate>),
    /// A suggestion for a run is previewed, or none any more.
    ShowSuggestion(Option<(RunId, usize)>),
    /// A suggestion for a run is taken, as one step.
    TakeSuggestion(RunId, usize),
    /// The ways out of a breach are sought, and its run is picked; or none any more.
    SeekWaysOut(Option<Breach>),
    /// One of them is previewed, or none any more.
    ShowWayOut(Option<usize>),
    /// One of them is taken, as one step.
    TakeWayOut(usize),
    /// Shifts of all runs are sought, each by at most this.
    SeekSiteShift(Length),
    /// The shifts that were found are taken, as one step.
    TakeSiteShift,
    /// One hanger of a run is picked, with its run; or none.
    PickHanger(Option<(RunId, usize)>),
    /// The pointer is over this, here or in a list.
    Hover(Option<ObjectId>),
    /// The pointer is on a finding in the list, by its place.
    PointAt(usize),
    /// A command.
    Command(Command),
    /// A place is brought into view, with what it is about picked.
    GoTo {
        /// Where.
        place: Option<DVec3>,
        /// What it is about.
        subjects: BTreeSet<ObjectId>,
    },
    /// The next objects will be like this.
    Drafts(Box<Drafts>),
    /// A question is put, changed, or taken away.
    Ask(Option<Dialog>),
    /// A question is answered.
    Answer(Answer),
    /// A theme is chosen.
    Theme(ThemeChoice),
    /// The desktop's file dialog is wanted.
    Browse(Purpose),
    /// The plan set is to be written like this.
    OrderSet(Order),
    /// The plan set is written as ordered.
    WriteSet,
    /// The user has read what was said.
    Dismiss,
}

/// Something said to the user, in the status line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Message {
    /// The sentence.
    pub text: String,
    /// Whether something went wrong.
    pub kind: MessageKind,
}

/// Whether something went wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum MessageKind {
    /// Something was done.
    Done,
    /// Something could not be done.
    Trouble,
}

impl Message {
    /// Something was done.
    pub(crate) fn done(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            kind: MessageKind::Done,
        }
    }

    /// Something could not be done.
    pub(crate) fn trouble(text: impl Into<String>) -> Self {
        Self {
            text: text.into(),
            kind: MessageKind::Trouble,
        }
    }
}
