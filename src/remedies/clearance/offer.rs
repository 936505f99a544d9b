//! A change that cures a breach, as it is offered.

use super::way::{Move, Way};
use super::{Case, Cure, edit};
use crate::findings::{Phrase, cost_words};
use crate::hanging::{Candidate, Outcome};
use crate::site::bay::along;
use crate::site::edit::Edit;
use crate::site::{Run, RunId, Shields};
use crate::study::{RunStudy, Study};
use crate::units::{Angle, Length, Power, Quantity, UnitSystem};
use std::sync::Arc;

/// A change of one run that cures a breach, proven by a full study.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// The run.
    pub run: RunId,
    /// The way.
    pub way: Way,
    /// The least change of this way that cures the breach.
    pub least: Measure,
    /// What is offered: with room for building where there is room, in round figures.
    pub offered: Measure,
    /// The offered change.
    pub edit: Edit,
    /// What else changes with it.
    pub change: Change,
    /// What to do, in words and figures.
    pub text: Vec<Phrase>,
}

/// How much a run is changed.
#[derive(Debug, Clone, PartialEq)]
pub enum Measure {
    /// Moved so far, m.
    Moved(Move, f64),
    /// Tilted to this.
    Tilted(Angle),
    /// With these side shields.
    Shielded(Shields),
    /// Turned end for end.
    Turned,
    /// Of another size.
    Resized {
        /// The size.
        size: String,
        /// Whether the far end stays rather than the burner.
        moves_burner: bool,
    },
}

/// What a change of a run brings with it: figures before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Hangers.
    pub n_hangers: (usize, usize),
    /// Those on cross channels.
    pub n_channels: (usize, usize),
    /// Those off panel points.
    pub n_off_panel: (usize, usize),
    /// What its hangers cost, thousandths of one at a panel point; none where it can't
    /// be hung.
    pub cost: (Option<u64>, Option<u64>),
    /// Heat input of the run, net calorific value.
    pub input_net: (Power, Power),
    /// Other runs that hang otherwise because they share steel with it, in the scheme's
    /// order.
    pub rehung: Vec<RunId>,
}

impl Change {
    /// What differs when the study of a run's site becomes another.
    fn between(run: &RunStudy, before: &Study, after: &Study) -> Self {
        let changed = after.run(&run.run.id).map_or(run, |changed| changed);
        let [was, is] = [run, changed].map(|run| Outcome::of_hanging(&run.hanging));
        let others = before.runs.iter().filter(|it| it.run.id != run.run.id);
        let hangs_otherwise = |it: &&Arc<RunStudy>| {
            let again = after.run(&it.run.id);
            again.is_some_and(|again| places(again).ne(places(it)))
        };
        Self {
            n_hangers: (was.n_hangers, is.n_hangers),
            n_channels: (was.n_channels, is.n_channels),
            n_off_panel: (was.n_off_panel, is.n_off_panel),
            cost: (was.cost, is.cost),
            input_net: (run.size.input_net, changed.size.input_net),
            rehung: others
                .filter(hangs_otherwise)
                .map(|it| it.run.id.clone())
                .collect(),
        }
    }

    /// What differs, as it follows the sentence that says what to do; nothing where
    /// nothing does.
    #[must_use]
    pub fn words(&self, units: UnitSystem) -> String {
        let mut parts = Vec::new();
        for (what, (before, after)) in [
            ("hangers", self.n_hangers),
            ("cross channels", self.n_channels),
            ("hangers off panel points", self.n_off_panel),
        ] {
            if before != after {
                parts.push(format!("{what} {before} to {after}"));
            }
        }
        if let (Some(before), Some(after)) = self.cost
            && before != after
        {
            let (before, after) = (cost_words(before), cost_words(after));
            parts.push(format!("cost of hanging {before} to {after}"));
        }
        let (before, after) = self.input_net;
        if before != after {
            parts.push(format!(
                "input {} to {}",
                before.show(units),
                after.show_with_unit(units)
            ));
        }
        parts.extend(
            self.rehung
                .iter()
                .map(|run| format!("the hangers of {run}")),
        );
        if parts.is_empty() {
            String::new()
        } else {
            format!(" Changes: {}.", parts.join(", "))
        }
    }
}

impl Offer {
    pub(super) fn new(
        case: &Case<'_>,
        way: Way,
        least: Measure,
        offered: Measure,
        cure: &Cure,
    ) -> Self {
        let run = case.run;
        Self {
            run: run.run.id.clone(),
            way,
            text: text(&run.run, &offered),
            least,
            offered,
            edit: edit(&cure.run),
            change: Change::between(run, case.base.study, &cure.tried.study),
        }
    }
}

/// Where a run hangs from its steel: what a crew would notice.
fn places(run: &RunStudy) -> impl Iterator<Item = &Candidate> {
    run.hanging.hangers.iter().map(|hanger| &hanger.at)
}

fn text(run: &Run, offered: &Measure) -> Vec<Phrase> {
    let id = &run.id;
    match offered {
        Measure::Moved(step, by_m) => {
            let (verb, whither) = match step {
                Move::Up => ("Raise", String::new()),
                Move::Down => ("Lower", String::new()),
                Move::Left | Move::Right | Move::Forward | Move::Back => {
                    ("Move", format!(", {}", whither(run, *step)))
                }
            };
            vec![
                Phrase::words(format!("{verb} {id} by ")),
                Phrase::LengthUp(Length::metres(*by_m)),
                Phrase::words(format!("{whither}.")),
            ]
        }
        Measure::Tilted(tilt) => {
            let side = if tilt.as_degrees() < 0.0 {
                "right"
            } else {
                "left"
            };
            if tilt.as_degrees() == 0.0 {
                return vec![Phrase::words(format!("Set the reflector of {id} level."))];
            }
            vec![
                Phrase::words(format!("Tilt the reflector of {id} to ")),
                Phrase::Angle(tilt.abs()),
                Phrase::words(format!(", aimed {side} as seen from its burner.")),
            ]
        }
        Measure::Shielded(shields) => vec![Phrase::words(match shields {
            Shields::None => format!("Take the side shields off {id}."),
            Shields::Left => {
                format!("Fit a side shield on the left of {id}, and none on its right.")
            }
            Shields::Right => {
                format!("Fit a side shield on the right of {id}, and none on its left.")
            }
            Shields::Both => format!("Fit side shields on both sides of {id}."),
        })],
        Measure::Turned => vec![Phrase::words(format!(
            "Turn {id} end for end where it lies, its burner to where its far end is."
        ))],
        Measure::Resized { size, moves_burner } => vec![Phrase::words(format!(
            "Take size {size} for {id}, its {} where it is.",
            if *moves_burner { "far end" } else { "burner" }
        ))],
    }
}

/// Along or across, and the compass point nearest to where a level move goes.
fn whither(run: &Run, step: Move) -> String {
    let how = match step {
        Move::Left | Move::Right => "across",
        Move::Up | Move::Down | Move::Forward | Move::Back => "along its tube",
    };
    let to = step.direction(run).truncate();
    const POINTS: [(&str, f64); 8] = [
        ("north", 0.0),
        ("north-east", 45.0),
        ("east", 90.0),
        ("south-east", 135.0),
        ("south", 180.0),
        ("south-west", 225.0),
        ("west", 270.0),
        ("north-west", 315.0),
    ];
    let nearest = POINTS.iter().max_by(|(_, a), (_, b)| {
        let towards = |bearing: f64| along(Angle::degrees(bearing)).dot(to);
        towards(*a).total_cmp(&towards(*b))
    });
    nearest.map_or_else(
        || how.to_owned(),
        |(point, _)| format!("{how}, to the {point}"),
    )
}
