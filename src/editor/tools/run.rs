//! Places runs: the burner, then the direction toward the exhaust.

use super::settle::{limit_m, settled};
use super::sketch::{Act, Form, Ghost, Measure, Sketch, Stand};
use crate::editor::extent::RunPlan;
use crate::editor::figures::angle;
use crate::editor::intent::Intent;
use crate::editor::make::{self, Made};
use crate::geometry::DVec2;
use crate::geometry::math::atan2;
use crate::site::{Edit, Object, Run};
use crate::units::Angle;
use std::sync::Arc;

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    match act {
        Act::Press(at) => {
            sketch.pressed = Some(at);
            sketch.points.clear();
            Vec::new()
        }
        Act::Move(at) => match sketch.from() {
            // Hangers, envelope and breaches are there before the run is.
            Some(from) => preview(from, at, stand),
            None => Vec::new(),
        },
        Act::Release(at) => match sketch.pressed.take() {
            Some(from) => place(from, at, stand),
            None => Vec::new(),
        },
        Act::Click(at) => match sketch.points.pop() {
            Some(from) => place(from, at, stand),
            None => {
                sketch.points.push(at);
                Vec::new()
            }
        },
        Act::Finish => match sketch.points.pop() {
            Some(from) => place(from, from, stand),
            None => Vec::new(),
        },
    }
}

fn made(from: DVec2, to: DVec2, stand: &Stand<'_>) -> Made {
    let bearing = bearing(from, to, stand);
    let (from, _) = settled_at(from, bearing, stand);
    make::run(
        stand.editor.committed(),
        &stand.editor.drafts,
        from,
        bearing,
    )
}

/// The burner drawn along the run until its first hanger comes under a member, and under
/// which.
fn settled_at(from: DVec2, bearing: Angle, stand: &Stand<'_>) -> (DVec2, Option<String>) {
    let editor = stand.editor;
    let run = Run {
        burner: from,
        bearing,
        ..editor.drafts.run.clone()
    };
    if !editor.view.snapping {
        return (from, None);
    }
    let limit_m = limit_m(stand.camera);
    match settled(stand.members, &editor.catalogue, &run, limit_m) {
        Some((by, said)) => (from + by, Some(said)),
        None => (from, None),
    }
}

fn preview(from: DVec2, to: DVec2, stand: &Stand<'_>) -> Vec<Intent> {
    let made = made(from, to, stand);
    vec![Intent::Preview {
        name: made.name,
        edit: made.edit,
    }]
}

fn place(from: DVec2, to: DVec2, stand: &Stand<'_>) -> Vec<Intent> {
    let made = made(from, to, stand);
    let mut drafts = stand.editor.drafts.clone();
    // The next run begins the way the last one points.
    if let Edit::Put(Object::Run(run)) = &made.edit {
        drafts.run.bearing = run.bearing;
    }
    vec![Intent::Drafts(Box::new(drafts)), Intent::Make(made)]
}

/// The bearing toward the pointer; the draft's where the pointer says nothing; what was
/// typed where something was.
fn bearing(from: DVec2, to: DVec2, stand: &Stand<'_>) -> Angle {
    if let Some(degrees) = stand.typed.plain {
        return Angle::degrees(degrees.rem_euclid(360.0));
    }
    let toward = to - from;
    if toward.length() < 1e-6 {
        return stand.editor.drafts.run.bearing;
    }
    let degrees = atan2(toward.x, toward.y).to_degrees();
    // The hand can't aim finer than this; square is square.
    let step = if (degrees / 90.0 - (degrees / 90.0).round()).abs() < 0.03 {
        90.0
    } else {
        1.0
    };
    Angle::degrees(((degrees / step).round() * step).rem_euclid(360.0))
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    let editor = stand.editor;
    let units = editor.site().units;
    let Some(from) = sketch.from() else {
        let mut ghost = Ghost::hint(if editor.drafts.run.family.is_empty() {
            "There is no heater family to place"
        } else {
            "Click where the burner hangs"
        });
        let (burner, settles) = settled_at(at, editor.drafts.run.bearing, stand);
        ghost.settles = settles;
        let run = Run {
            burner,
            ..editor.drafts.run.clone()
        };
        ghost.lines.push((outline(&run, stand), Form::Closed));
        return ghost;
    };
    let bearing = bearing(from, at, stand);
    let mut ghost = Ghost::hint(format!(
        "Click toward the exhaust, or type the bearing: {}",
        angle(units, bearing)
    ));
    let (burner, settles) = settled_at(from, bearing, stand);
    ghost.settles = settles;
    let run = Run {
        burner,
        bearing,
        ..editor.drafts.run.clone()
    };
    let plan = RunPlan::of(&run, &editor.catalogue);
    ghost.measures.push(Measure {
        a: plan.flange,
        b: plan.end(),
        text: angle(units, bearing),
    });
    ghost
}

fn outline(run: &Run, stand: &Stand<'_>) -> Vec<DVec2> {
    let run = Arc::new(run.clone());
    RunPlan::of(&run, &stand.editor.catalogue)
        .corners()
        .to_vec()
}
