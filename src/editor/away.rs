//! An answer that is worked out away from the window, which never waits for it.

use eframe::egui::Context;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// Work on a thread of its own.
#[derive(Debug)]
pub(super) struct Away<T>(Receiver<T>);

/// What has become of it.
pub(super) enum Answer<T> {
    /// It is done.
    There(T),
    /// It is still being done.
    NotYet,
    /// It never will be: the thread ended without an answer.
    Never,
}

impl<T: Send + 'static> Away<T> {
    /// Begins the work; the window is woken when it is done. None where the machine has
    /// no thread to spare: whoever asks asks again.
    pub(super) fn begin(
        name: &str,
        ctx: &Context,
        work: impl FnOnce() -> T + Send + 'static,
    ) -> Option<Self> {
        let (sender, receiver) = channel();
        let ctx = ctx.clone();
        let spawned = std::thread::Builder::new()
            .name(name.to_owned())
            .spawn(move || {
                // The window may be gone by now, or want something else.
                if sender.send(work()).is_ok() {
                    ctx.request_repaint();
                }
            });
        spawned.is_ok().then_some(Self(receiver))
    }

    /// Looks, without waiting.
    pub(super) fn answer(&self) -> Answer<T> {
        match self.0.try_recv() {
            Ok(answer) => Answer::There(answer),
            Err(TryRecvError::Empty) => Answer::NotYet,
            Err(TryRecvError::Disconnected) => Answer::Never,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_answer_comes_once_and_a_thread_that_fails_never_answers() {
        let ctx = Context::default();
        let waited = |away: &Away<u8>| loop {
            match away.answer() {
                Answer::NotYet => std::thread::yield_now(),
                Answer::There(found) => return Some(found),
                Answer::Never => return None,
            }
        };
        let seven = Away::begin("seven", &ctx, || 7_u8).map(|away| waited(&away));
        assert_eq!(seven, Some(Some(7)));
        let fails = Away::begin("fails", &ctx, || -> u8 {
            std::panic::resume_unwind(Box::new(()))
        });
        assert_eq!(fails.map(|away| waited(&away)), Some(None));
    }
}
