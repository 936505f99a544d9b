//! Studies sites away from the window, which never waits long for them.

use crate::catalogue::Catalogue;
use crate::findings::{Finding, SurveyReport, judge, survey_report};
use crate::site::Site;
use crate::study::{Study, restudy, study};
use eframe::egui::Context;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::time::Duration;

/// What is to be studied.
#[derive(Debug, Clone)]
pub(super) struct Request {
    /// Grows with every request.
    pub(super) generation: u64,
    pub(super) site: Arc<Site>,
    pub(super) catalogue: Arc<Catalogue>,
}

/// What came of it.
#[derive(Debug, Clone)]
pub(super) struct Answer {
    /// The request's.
    pub(super) generation: u64,
    pub(super) study: Arc<Study>,
    pub(super) findings: Arc<Vec<Finding>>,
    /// What the survey changes; nothing where every member is as drawn.
    pub(super) survey: Option<Arc<SurveyReport>>,
}

/// What was studied last, to be studied again only where something changed.
#[derive(Debug, Default)]
pub(super) struct Known {
    study: Option<Arc<Study>>,
    /// The same as drawn.
    drawn: Option<Study>,
}

/// Who studies.
#[derive(Debug)]
pub(super) enum Worker {
    /// The caller, at once: for tests, which then need no clock.
    Inline(Box<Known>),
    /// A thread of its own.
    Thread(Thread),
}

/// The thread and the ways to and from it.
#[derive(Debug)]
pub(super) struct Thread {
    desk: Arc<Desk>,
    answers: Receiver<Answer>,
}

/// Where the newest request lies until the thread takes it: older ones are replaced
/// unread, because nobody wants their answers any more.
#[derive(Debug, Default)]
struct Desk {
    wanted: Mutex<Wanted>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct Wanted {
    request: Option<Request>,
    is_closed: bool,
}

impl Worker {
    /// A worker that answers at once.
    pub(super) fn inline() -> Self {
        Self::Inline(Box::default())
    }

    /// A worker on a thread of its own; the window is drawn again when it has answered.
    /// Where the system grants no thread, one that answers at once.
    pub(super) fn thread(ctx: Context) -> Self {
        let desk = Arc::new(Desk::default());
        let (sender, answers) = channel();
        let at_desk = Arc::clone(&desk);
        let spawned = std::thread::Builder::new()
            .name("study".to_owned())
            .spawn(move || work(&at_desk, &sender, &ctx));
        match spawned {
            Ok(_handle) => Self::Thread(Thread { desk, answers }),
            Err(_no_thread) => Self::inline(),
        }
    }

    /// Asks for a study; the answer at once, if this worker is that kind.
    pub(super) fn ask(&mut self, request: Request) -> Option<Answer> {
        match self {
            Self::Inline(known) => Some(known.answer(&request)),
            Self::Thread(thread) => {
                thread.desk.put(request);
                None
            }
        }
    }

    /// The newest answer that has come in, waited for at most so long.
    pub(super) fn newest(&self, wait: Duration) -> Option<Answer> {
        let Self::Thread(thread) = self else {
            return None;
        };
        let mut newest = None;
        while let Ok(answer) = thread.answers.try_recv() {
            newest = Some(answer);
        }
        newest.or_else(|| thread.answers.recv_timeout(wait).ok())
    }
}

impl Drop for Thread {
    fn drop(&mut self) {
        self.desk.close();
    }
}

impl Desk {
    fn put(&self, request: Request) {
        // A thread that panicked leaves nothing half written here.
        let mut wanted = self.wanted.lock().unwrap_or_else(PoisonError::into_inner);
        wanted.request = Some(request);
        self.changed.notify_one();
    }

    fn close(&self) {
        let mut wanted = self.wanted.lock().unwrap_or_else(PoisonError::into_inner);
        wanted.is_closed = true;
        self.changed.notify_one();
    }

    /// Waits for a request; none when the desk is closed.
    fn take(&self) -> Option<Request> {
        let mut wanted = self.wanted.lock().unwrap_or_else(PoisonError::into_inner);
        loop {
            if wanted.is_closed {
                return None;
            }
            if let Some(request) = wanted.request.take() {
                return Some(request);
            }
            wanted = self
                .changed
                .wait(wanted)
                .unwrap_or_else(PoisonError::into_inner);
        }
    }
}

fn work(desk: &Desk, answers: &Sender<Answer>, ctx: &Context) {
    let mut known = Known::default();
    while let Some(request) = desk.take() {
        let answer = known.answer(&request);
        if answers.send(answer).is_err() {
            return;
        }
        ctx.request_repaint();
    }
}

impl Known {
    fn answer(&mut self, request: &Request) -> Answer {
        let (site, catalogue) = (&request.site, &request.catalogue);
        let study = Arc::new(match &self.study {
            Some(before) => restudy(before, site, catalogue),
            None => study(site, catalogue),
        });
        let findings = judge(site, catalogue, &study);
        let (survey, drawn) = survey_report(&study, &findings, self.drawn.as_ref()).unzip();
        self.study = Some(Arc::clone(&study));
        self.drawn = drawn;
        Answer {
            generation: request.generation,
            study,
            findings: Arc::new(findings),
            survey: survey.map(Arc::new),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn request(generation: u64) -> Request {
        Request {
            generation,
            site: Arc::new(Site::default()),
            catalogue: Arc::new(Catalogue::default()),
        }
    }

    #[test]
    fn the_newest_request_is_answered_and_the_thread_ends_with_its_worker() {
        let mut worker = Worker::thread(Context::default());
        for generation in 1..=50 {
            assert!(worker.ask(request(generation)).is_none());
        }
        let mut last = 0;
        // Answers may come one by one; the last is the newest asked for.
        for _ in 0..50 {
            if let Some(answer) = worker.newest(Duration::from_secs(5)) {
                assert!(last < answer.generation);
                last = answer.generation;
            }
            if last == 50 {
                break;
            }
        }
        assert_eq!(last, 50);
    }

    #[test]
    fn the_inline_worker_answers_at_once() {
        let answer = Worker::inline().ask(request(7));
        assert_eq!(answer.map(|answer| answer.generation), Some(7));
    }
}
