//! Changes of a run that have no distance: tilt, shields, turned, another size.

use super::offer::{Measure, Offer};
use super::way::Way;
use super::{Blocking, Case, Cure};
use crate::catalogue::HeaterSize;
use crate::geometry::tolerance;
use crate::hanging::Status;
use crate::site::place::end_for_end;
use crate::site::{Run, Shields};
use crate::units::Angle;

/// Tilts are set by eye against a scale: steps of this, degrees, and the bands' ends.
const TILT_STEP_DEGREES: f64 = 5.0;

impl Case<'_> {
    /// The least change of a way that is a cure.
    pub(super) fn least_change(&self, way: Way, blocking: &mut Option<Blocking>) -> Option<Offer> {
        let changes = match way {
            Way::Tilt => self.tilts(),
            Way::Shield => self.shields(),
            Way::EndForEnd => self.turned(),
            Way::SmallerSize => self.smaller_sizes(),
            Way::Height | Way::Across | Way::Along => Vec::new(),
        };
        changes.into_iter().find_map(|(measure, run)| {
            let study = self.studied(&run)?;
            let hung_as_before = {
                let impossible = |status: Status| status == Status::Impossible;
                let changed = study.run(&run.id)?;
                impossible(self.run.hanging.status) || !impossible(changed.hanging.status)
            };
            let tried = hung_as_before
                .then(|| self.proven(study, blocking))
                .flatten()?;
            let least = 0.0;
            let cure = Cure { run, least, tried };
            Some(Offer::new(self, way, measure.clone(), measure, &cure))
        })
    }

    /// The tilts that the maker's table has, those nearest to the run's own first; of two
    /// equally near, the one of the same aim. Whether they hold with the run's shields,
    /// the study says.
    fn tilts(&self) -> Vec<(Measure, Run)> {
        let run = &*self.run.run;
        let now = run.tilt.as_degrees();
        let mut tilts: Vec<f64> = Vec::new();
        for band in self.family().keep_clear_of(self.size()) {
            let (from, to) = (band.tilt_from.as_degrees(), band.tilt_to.as_degrees());
            let first = (from / TILT_STEP_DEGREES).ceil();
            let steps = std::iter::successors(Some(first), |n| Some(n + 1.0))
                .map(|n| n * TILT_STEP_DEGREES)
                .take_while(|tilt| *tilt <= to);
            for tilt in steps.chain([from, to]) {
                tilts.extend([tilt, -tilt]);
            }
        }
        let key = |tilt: &f64| ((tilt - now).abs(), (tilt * now < 0.0, *tilt));
        tilts.sort_by(|a, b| {
            let ((near_a, (turns_a, a)), (near_b, (turns_b, b))) = (key(a), key(b));
            near_a
                .total_cmp(&near_b)
                .then(turns_a.cmp(&turns_b))
                .then(a.total_cmp(&b))
        });
        tilts.dedup();
        tilts.retain(|tilt| (tilt - now).abs().to_radians() > tolerance::LIMIT);
        tilts
            .into_iter()
            .map(|tilt| {
                let changed = Run {
                    tilt: Angle::degrees(tilt),
                    ..run.clone()
                };
                (Measure::Tilted(Angle::degrees(tilt)), changed)
            })
            .collect()
    }

    /// Other sets of shields: one shield more or less before two. Whether the maker gives
    /// distances for them, the study says.
    fn shields(&self) -> Vec<(Measure, Run)> {
        let run = &*self.run.run;
        let now = run.shields;
        let sides = |shields: Shields| match shields {
            Shields::None => (false, false),
            Shields::Left => (true, false),
            Shields::Right => (false, true),
            Shields::Both => (true, true),
        };
        let n_changed = |shields: &Shields| {
            let ((left, right), (left_now, right_now)) = (sides(*shields), sides(now));
            u8::from(left != left_now) + u8::from(right != right_now)
        };
        let mut sets = vec![Shields::None, Shields::Left, Shields::Right, Shields::Both];
        sets.retain(|shields| *shields != now);
        sets.sort_by_key(n_changed);
        sets.into_iter()
            .map(|shields| {
                let changed = Run {
                    shields,
                    ..run.clone()
                };
                (Measure::Shielded(shields), changed)
            })
            .collect()
    }

    fn turned(&self) -> Vec<(Measure, Run)> {
        let run = &*self.run.run;
        let leg = self.family().leg_length(self.size());
        let turned = end_for_end(run, leg, self.family().hanging.slope);
        vec![(Measure::Turned, turned)]
    }

    /// Sizes of less input, the greatest first; the burner stays, or else the far end.
    fn smaller_sizes(&self) -> Vec<(Measure, Run)> {
        let run = &*self.run.run;
        let mut sizes: Vec<&HeaterSize> = self
            .family()
            .sizes
            .iter()
            .filter(|size| size.input_net < self.size().input_net)
            .collect();
        sizes.sort_by(|a, b| {
            b.input_net
                .as_watts()
                .total_cmp(&a.input_net.as_watts())
                .then(
                    b.tube_length
                        .as_metres()
                        .total_cmp(&a.tube_length.as_metres()),
                )
        });
        sizes
            .into_iter()
            .flat_map(|size| {
                let changed = Run {
                    size: size.id.clone(),
                    ..run.clone()
                };
                let shorter = self.family().leg_length(self.size()).as_metres()
                    - self.family().leg_length(size).as_metres();
                let at_far_end = super::way::Move::Forward.moved(&changed, shorter);
                [false, true].map(|moves_burner| {
                    let run = if moves_burner { &at_far_end } else { &changed };
                    let measure = Measure::Resized {
                        size: size.id.clone(),
                        moves_burner,
                    };
                    (measure, run.clone())
                })
            })
            .collect()
    }
}
