//! A change that cures a breach, as it is offered.

use super::way::{Move, Way};
use super::{Case, Cure, edit};
use crate::findings::Phrase;
use crate::hanging::Kind;
use crate::site::bay::along;
use crate::site::edit::Edit;
use crate::site::{Run, RunId, Shields};
use crate::study::RunStudy;
use crate::units::{Angle, Length, Power, Quantity, UnitSystem};

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

/// A figure before and after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// Hangers.
    pub n_hangers: (usize, usize),
    /// Cross channels.
    pub n_channels: (usize, usize),
    /// Heat input of the run, net calorific value.
    pub input_net: (Power, Power),
}

impl Change {
    /// What differs between a run before and after.
    #[must_use]
    pub fn between(before: &RunStudy, after: &RunStudy) -> Self {
        let n_channels = |run: &RunStudy| {
            let hangers = run.hanging.hangers.iter();
            hangers
                .filter(|hanger| hanger.at.kind == Kind::Channel)
                .count()
        };
        let n_hangers = |run: &RunStudy| run.hanging.hangers.len();
        Self {
            n_hangers: (n_hangers(before), n_hangers(after)),
            n_channels: (n_channels(before), n_channels(after)),
            input_net: (before.size.input_net, after.size.input_net),
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
        ] {
            if before != after {
                parts.push(format!("{what} {before} to {after}"));
            }
        }
        let (before, after) = self.input_net;
        if before != after {
            parts.push(format!(
                "input {} to {}",
                before.show(units),
                after.show_with_unit(units)
            ));
        }
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
        let before = case.run;
        let after = cure.tried.study.run(&before.run.id);
        Self {
            run: before.run.id.clone(),
            way,
            text: text(&before.run, &offered),
            least,
            offered,
            edit: edit(&cure.run),
            change: Change::between(before, after.map_or(before, |after| after)),
        }
    }
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
