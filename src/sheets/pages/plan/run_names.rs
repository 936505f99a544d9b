//! What runs and their hangers are called on the plan.

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::Ink;
use crate::sheets::text::{Across, Along, Anchor};
use crate::study::RunStudy;

use super::runs::{DrawnRun, free_station};
use super::{Drawing, reading_turn};
use crate::sheets::pages::hangers::HungAt;
use crate::sheets::pages::labels::{Label, Spot, Wording};
use crate::sheets::pages::wording;

/// Letters of hanger numbers.
const LETTERS: Lettering = Lettering::condensed(2.5);
/// Letters of run names.
const NAME_LETTERS: Lettering = Lettering::regular(2.5);

/// How much farther than just beyond the numbers a name may stand, mm.
const FARTHER_MM: f64 = 2.5;

/// Names runs and numbers hangers; returns how much is said of each run.
pub(super) fn name(drawing: &mut Drawing<'_>, runs: &[DrawnRun<'_>]) -> Said {
    let number_all = hangers_are_roomy(runs);
    for run in runs {
        let n = run.hangers.len();
        for (index, hanger) in run.hangers.iter().enumerate() {
            if index == 0 || index + 1 == n {
                number(drawing, run, hanger);
            }
        }
    }
    let said = how_much_fits(runs, drawing);
    for run in runs {
        name_run(drawing, run, said);
    }
    if number_all {
        for run in runs {
            let n = run.hangers.len();
            let inner = run.hangers.iter().enumerate();
            for (_, hanger) in inner.filter(|(index, _)| 0 < *index && index + 1 < n) {
                number(drawing, run, hanger);
            }
        }
    }
    said
}

/// How much is said of each run; the same for all of a sheet, so that it reads evenly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Said {
    /// Size, height and tilt on one line.
    #[default]
    All,
    /// The same on two lines.
    OnTwoLines,
    /// The height.
    Height,
    /// The id alone.
    IdAlone,
}

impl Said {
    const FULLEST_FIRST: [Self; 4] = [Self::All, Self::OnTwoLines, Self::Height, Self::IdAlone];

    /// What a note says of what is missing; none where nothing is.
    pub(super) const fn missing(self) -> Option<&'static str> {
        match self {
            Self::All | Self::OnTwoLines => None,
            Self::Height => Some("Size and tilt of each run: hanging schedule."),
            Self::IdAlone => Some("Size, height and tilt of each run: hanging schedule."),
        }
    }
}

/// Whether the numbers of neighbouring hangers fit side by side everywhere.
fn hangers_are_roomy(runs: &[DrawnRun<'_>]) -> bool {
    const APART_MM: f64 = 1.0;
    runs.iter().all(|run| {
        let direction = run.direction();
        run.hangers.windows(2).all(|pair| {
            let apart = pair[0].1.distance(pair[1].1);
            let text = format!("{}v", pair[1].0.index + 1);
            // Numbers stand level: beside an upright run their height counts.
            let needed = if direction.y.abs() < direction.x.abs() {
                LETTERS.width_mm(&text)
            } else {
                LETTERS.height_mm
            };
            needed + APART_MM <= apart
        })
    })
}

impl DrawnRun<'_> {
    fn direction(&self) -> DVec2 {
        (self.axis[1] - self.axis[0]).normalize_or_zero()
    }

    /// The side of the run, on paper, on which its hangers are numbered: that to which
    /// it is tilted, so that the arrow doesn't meet its name; else above it, or at the left
    /// of an upright run.
    fn number_side(&self) -> DVec2 {
        let across = self.direction().perp();
        if let Some(aim) = self.aim {
            return if 0.0 < across.dot(aim) {
                across
            } else {
                -across
            };
        }
        let is_upright = across.x.abs() > across.y.abs();
        let looks_back = if is_upright {
            across.x > 0.0
        } else {
            across.y > 0.0
        };
        if looks_back { -across } else { across }
    }
}

fn number(drawing: &mut Drawing<'_>, run: &DrawnRun<'_>, hanger: &(HungAt<'_>, PaperPoint)) {
    let (hung, at) = hanger;
    let mark = if hung.must_be_verified() { "v" } else { "" };
    let text = format!("{}{mark}", hung.index + 1);
    let half = DVec2::new(LETTERS.width_mm(&text), LETTERS.height_mm) / 2.0;
    let side = run.number_side();
    let along = run.direction();
    let spot = |direction: DVec2, more_mm: f64, shift_mm: f64| Spot {
        at: *at
            + direction
                * (run.half_mm
                    + 1.2
                    + more_mm
                    + half.x * direction.x.abs()
                    + half.y * direction.y.abs())
            + along * shift_mm,
        turn_degrees: 0.0,
        anchor: Anchor::CENTRE,
    };
    let mut spots = Vec::new();
    for direction in [side, -side] {
        for (more_mm, shift_mm) in [
            (0.0, 0.0),
            (0.0, 1.2),
            (0.0, -1.2),
            (0.2, 2.2),
            (0.2, -2.2),
            (0.2, 3.2),
            (0.2, -3.2),
            (1.0, 0.0),
        ] {
            spots.push(spot(direction, more_mm, shift_mm));
        }
    }
    let label = Label {
        tries: vec![(Wording::line(text, LETTERS), spots)],
        leader: None,
        layer: Layer::HeatText,
        ink: Ink::Black,
    };
    if !drawing.label(&label, "hanger-number", &hung.id) {
        drawing.left_out = true;
    }
}

/// The most that fits every run of a sheet.
fn how_much_fits(runs: &[DrawnRun<'_>], drawing: &Drawing<'_>) -> Said {
    // A name may be a little longer than its run.
    const LONGER: f64 = 1.25;
    let fits = |said: Said| {
        runs.iter().all(|run| {
            let length = run.axis[0].distance(run.axis[1]);
            run_name(drawing, run.run, said).width_mm() <= length * LONGER
        })
    };
    Said::FULLEST_FIRST
        .into_iter()
        .find(|&said| fits(said))
        .unwrap_or(Said::IdAlone)
}

fn run_name(drawing: &Drawing<'_>, run: &RunStudy, said: Said) -> Wording {
    let figures = drawing.figures;
    let height = figures.elevation(run.run.tube_height.as_metres());
    let mut first = vec![run.run.id.as_str().to_owned()];
    let mut second = Vec::new();
    match said {
        Said::All | Said::OnTwoLines => {
            first.push(run.size.id.clone());
            second.push(height);
            if wording::aim(&run.run).is_some() {
                second.push(wording::tilt(&run.run, figures));
            }
        }
        Said::Height => first.push(height),
        Said::IdAlone => {}
    }
    if run.hanging.hangers.is_empty() {
        first.push("NOT HUNG".to_owned());
    }
    let lines = if said == Said::OnTwoLines {
        vec![first.join("  "), second.join("  ")]
    } else {
        vec![[first, second].concat().join("  ")]
    };
    Wording {
        lines,
        lettering: NAME_LETTERS,
    }
}

/// Names a run, rather at the end of a leader than with less than the sheet says of all.
fn name_run(drawing: &mut Drawing<'_>, run: &DrawnRun<'_>, said: Said) {
    let [from, to] = run.axis;
    let leg_m = run.run.geometry.tube_length_m;
    let tip_part = free_station(run.run, leg_m, 0.35) / leg_m.max(f64::MIN_POSITIVE);
    let tip = from.lerp(to, tip_part);
    let allowed = Said::FULLEST_FIRST.into_iter().skip_while(|it| *it != said);
    let (all, less): (Vec<Said>, Vec<Said>) =
        allowed.partition(|it| it.missing() == said.missing());
    let mut try_names = |said: &[Said]| {
        let wordings: Vec<Wording> = said
            .iter()
            .map(|&it| run_name(drawing, run.run, it))
            .collect();
        let label = Label {
            tries: wordings
                .iter()
                .map(|it| (it.clone(), name_spots(run, it)))
                .collect(),
            leader: Some((tip, wordings)),
            layer: Layer::HeatText,
            ink: Ink::Black,
        };
        drawing.label(&label, "run", run.run.run.id.as_str())
    };
    if !try_names(&all) {
        try_names(&less);
        drawing.left_out = true;
    }
}

/// Along the run on the side without numbers, then beyond the numbers, then in line with
/// the run before its burner and behind its end.
fn name_spots(run: &DrawnRun<'_>, name: &Wording) -> Vec<Spot> {
    let direction = run.direction();
    let turn_degrees = reading_turn(direction);
    let side = -run.number_side();
    let [from, to] = run.axis;
    let away_mm = run.half_mm + 1.2 + name.height_mm() / 2.0;
    let beyond_numbers_mm = away_mm + LETTERS.height_mm + 0.9;
    let mut spots = Vec::new();
    for (side, away_mm) in [
        (side, away_mm),
        (-side, beyond_numbers_mm),
        (side, beyond_numbers_mm),
        (-side, beyond_numbers_mm + FARTHER_MM),
        (side, beyond_numbers_mm + FARTHER_MM),
    ] {
        for part in [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9] {
            spots.push(Spot {
                at: from.lerp(to, part) + side * away_mm,
                turn_degrees,
                anchor: Anchor::CENTRE,
            });
        }
    }
    let (before, behind) = if 0.0 < direction.x {
        (Along::End, Along::Start)
    } else {
        (Along::Start, Along::End)
    };
    for (at, along) in [
        (to + direction * 4.0, behind),
        (from - direction * 4.5, before),
    ] {
        spots.push(Spot {
            at,
            turn_degrees,
            anchor: Anchor {
                along,
                across: Across::Middle,
            },
        });
    }
    spots
}
