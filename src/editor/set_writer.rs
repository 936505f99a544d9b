//! Writing the plan set from the window: what was ordered, and whoever writes it.

use super::intent::Message;
use super::today::today;
use crate::catalogue::Catalogue;
use crate::findings::judge;
use crate::sheets::files::{Format, files};
use crate::sheets::metadata::IssueDate;
use crate::sheets::pages::PageInput;
use crate::site::Site;
use crate::store::{OutputFile, write_all};
use crate::study::study;
use eframe::egui::Context;
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::Duration;

/// What is to be written, as the form holds it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Order {
    /// The folder, as typed.
    pub folder: String,
    /// Date of issue, as typed; empty for none.
    pub date: String,
    /// The formats.
    pub formats: BTreeSet<Format>,
}

impl Default for Order {
    fn default() -> Self {
        Self {
            folder: String::new(),
            date: today(),
            formats: BTreeSet::from([Format::Pdf, Format::Csv]),
        }
    }
}

/// Whoever writes.
#[derive(Debug, Default)]
pub(crate) struct SetWriter {
    /// What the form holds.
    pub(crate) order: Order,
    at_work: Option<Receiver<Message>>,
}

/// How often a window with nothing else to do looks whether the set is written.
const LOOK_AGAIN: Duration = Duration::from_millis(100);

impl SetWriter {
    /// Whether a set is being written.
    pub(crate) fn is_at_work(&self) -> bool {
        self.at_work.is_some()
    }

    /// Begins to write the ordered set of a site. What is wrong with the order is said
    /// at once.
    pub(super) fn begin(
        &mut self,
        site: &Arc<Site>,
        catalogue: &Arc<Catalogue>,
    ) -> Option<Message> {
        if self.is_at_work() {
            return Some(Message::trouble("A plan set is being written already."));
        }
        let job = match Job::new(&self.order, site, catalogue) {
            Ok(job) => job,
            Err(fault) => return Some(Message::trouble(fault)),
        };
        let (sender, receiver) = channel();
        self.at_work = Some(receiver);
        let begun = std::thread::Builder::new()
            .name("plan set".to_owned())
            .spawn(move || {
                // A window that has gone wants no answer.
                let _gone = sender.send(job.write());
            });
        match begun {
            Ok(_) => None,
            Err(fault) => {
                self.at_work = None;
                Some(Message::trouble(format!(
                    "The plan set could not be begun: {fault}"
                )))
            }
        }
    }

    /// What there is to say once the set is written, or has failed.
    pub(super) fn tend(&mut self, ctx: &Context) -> Option<Message> {
        match self.at_work.as_ref()?.try_recv() {
            Ok(message) => {
                self.at_work = None;
                Some(message)
            }
            Err(TryRecvError::Empty) => {
                ctx.request_repaint_after(LOOK_AGAIN);
                None
            }
            Err(TryRecvError::Disconnected) => {
                self.at_work = None;
                Some(Message::trouble(
                    "The plan set was given up: a fault of the program.",
                ))
            }
        }
    }
}

/// A set to be written, with everything that it takes.
struct Job {
    folder: PathBuf,
    date: Option<IssueDate>,
    formats: Vec<Format>,
    site: Arc<Site>,
    catalogue: Arc<Catalogue>,
}

impl Job {
    fn new(order: &Order, site: &Arc<Site>, catalogue: &Arc<Catalogue>) -> Result<Self, String> {
        if order.folder.is_empty() {
            return Err("Name the folder that the sheets go into.".to_owned());
        }
        if order.formats.is_empty() {
            return Err("Tick at least one format.".to_owned());
        }
        let date = match order.date.as_str() {
            "" => None,
            text => Some(
                text.parse()
                    .map_err(|fault| format!("Date of issue: {fault}"))?,
            ),
        };
        Ok(Self {
            folder: PathBuf::from(&order.folder),
            date,
            formats: order.formats.iter().copied().collect(),
            site: Arc::clone(site),
            catalogue: Arc::clone(catalogue),
        })
    }

    fn write(&self) -> Message {
        // The shown study may be of a preview; the set is of what a save would write.
        let study = study(&self.site, &self.catalogue);
        let findings = judge(&self.site, &self.catalogue, &study);
        let input = PageInput {
            site: &self.site,
            catalogue: &self.catalogue,
            study: &study,
            findings: &findings,
            date: self.date,
        };
        let made = match files(&input, &self.formats) {
            Ok(made) => made,
            Err(fault) => {
                return Message::trouble(format!("The plan set could not be made: {fault}"));
            }
        };
        let made: Vec<OutputFile> = made
            .into_iter()
            .map(|(name, bytes)| OutputFile { name, bytes })
            .collect();
        match write_all(&self.folder, &made) {
            Ok(()) => Message::done(format!(
                "{} files written into {}",
                made.len(),
                self.folder.display()
            )),
            Err(fault) => Message::trouble(format!("Nothing was written: {fault}")),
        }
    }
}
