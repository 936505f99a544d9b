//! Pictures for who looks closely, drawn away from the window; and how coarse they may be
//! while something moves.

use super::Key;
use crate::editor::away::{Answer, Away};
use crate::views::space::{Image, Scene, draw};
use eframe::egui::Context;
use std::sync::Arc;
use std::time::Duration;

/// The fine picture that is being drawn.
#[derive(Default)]
pub(super) struct FinePicture {
    /// Whether it is there before the frame is.
    is_inline: bool,
    pending: Option<(Key, Away<Image>)>,
}

impl FinePicture {
    pub(super) fn inline() -> Self {
        Self {
            is_inline: true,
            pending: None,
        }
    }

    /// What is being drawn is no longer wanted: it shows what is gone.
    pub(super) fn give_up(&mut self) {
        self.pending = None;
    }

    /// The picture, once it is there; begun if it was not.
    pub(super) fn of(
        &mut self,
        key: Key,
        scenes: [&Arc<Scene>; 2],
        ctx: &Context,
    ) -> Option<Image> {
        if self.is_inline {
            return Some(drawn(&key, scenes.map(|it| &**it), 2));
        }
        match self.pending.take() {
            Some((pending, away)) if pending == key => match away.answer() {
                Answer::There(image) => return Some(image),
                Answer::NotYet => {
                    self.pending = Some((pending, away));
                    return None;
                }
                Answer::Never => {}
            },
            _ => {}
        }
        let scenes = scenes.map(Arc::clone);
        // One core is left to the window.
        let work = move || drawn(&key, [&*scenes[0], &*scenes[1]], 1);
        self.pending = Away::begin("picture in space", ctx, work).map(|away| (key, away));
        None
    }
}

fn drawn(key: &Key, scenes: [&Scene; 2], n_threads: usize) -> Image {
    draw(
        &scenes,
        &key.camera,
        &key.inks,
        key.size,
        key.finish,
        n_threads,
    )
}

/// Pixels a point while something moves: as many as this machine draws 30 times a second
/// with time to spare for the rest of the window.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pace {
    is_fixed: bool,
    per_point: f32,
}

impl Default for Pace {
    fn default() -> Self {
        Self {
            is_fixed: false,
            per_point: Self::AT_FIRST,
        }
    }
}

impl Pace {
    const AT_FIRST: f32 = 0.6;
    const COARSEST: f32 = 0.3;
    const FINEST: f32 = 1.0;
    /// Longer than this is felt as a jerk, s.
    const TOO_LONG_S: f32 = 0.026;
    /// Shorter than this leaves room for more pixels, s.
    const SHORT_S: f32 = 0.012;

    pub(super) fn fixed() -> Self {
        Self {
            is_fixed: true,
            ..Self::default()
        }
    }

    pub(super) const fn per_point(self) -> f32 {
        self.per_point
    }

    /// Follows how long the last picture took. The time goes with the number of pixels,
    /// at most.
    pub(super) fn took(&mut self, time: Duration) {
        let took_s = time.as_secs_f32();
        if self.is_fixed {
            return;
        }
        if Self::TOO_LONG_S < took_s {
            let less = (Self::SHORT_S / took_s).sqrt().max(0.7);
            self.per_point = (self.per_point * less).max(Self::COARSEST);
        } else if took_s < Self::SHORT_S {
            self.per_point = (self.per_point * 1.05).min(Self::FINEST);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pace_settles_where_pictures_take_a_frame() {
        // A machine that draws a point-sized picture in 60 ms.
        let mut pace = Pace::default();
        for _ in 0..40 {
            let per_point = pace.per_point();
            pace.took(Duration::from_secs_f32(0.06 * per_point * per_point));
        }
        let took_s = 0.06 * pace.per_point() * pace.per_point();
        assert!(took_s <= Pace::TOO_LONG_S, "{took_s}");
        assert!(Pace::COARSEST < pace.per_point());
        // However slow it is, something can still be made out.
        for _ in 0..40 {
            pace.took(Duration::from_secs(1));
        }
        assert_eq!(pace.per_point(), Pace::COARSEST);
    }
}
