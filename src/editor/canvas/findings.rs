//! Findings where they are: a shape, a colour and words together.

use super::labels::{Label, Labels, Weight};
use super::pen::Pen;
use crate::editor::Editor;
use crate::editor::results::Results;
use crate::editor::stage::Stage;
use crate::editor::theme::{CanvasRoles, TextSize};
use crate::findings::{Bound, Dimension, Finding, Severity, Subject};
use crate::site::ObjectId;
use crate::units::{Angle, AreaLoad, Force, Length, Quantity};
use eframe::egui::{Align2, Color32, Pos2, Rect, Shape, Stroke, Vec2};

/// Half the size of a mark, points.
const SIZE: f32 = 8.0;

/// The marks: breaches and cautions; notes only of what is picked.
pub(super) fn marks(pen: &mut Pen<'_>, labels: &mut Labels, editor: &Editor) {
    for finding in editor.results.findings().iter() {
        let picked = &editor.selection.ids;
        let is_picked = picked.iter().any(|id| concerns(finding, id));
        if finding.severity == Severity::Note && !is_picked {
            continue;
        }
        let Some(place) = Results::place_of(finding) else {
            continue;
        };
        if !pen.sees(&[place]) {
            continue;
        }
        let at = pen.at(place);
        let at = stand(pen, labels, at, colour(pen.roles, finding.severity));
        let colour = colour(pen.roles, finding.severity);
        mark(pen, finding, at, colour);
        // Where something else is worked on, a mark is enough until it is picked.
        let is_forward = matches!(editor.stage, Stage::Runs | Stage::Sheets);
        if is_picked || (finding.severity == Severity::Breach && is_forward) {
            words(pen, labels, editor, finding, at, colour);
        }
    }
}

/// Where a mark stands: at its place if nothing else is there, else beside it, with a line
/// that leads to it.
fn stand(pen: &mut Pen<'_>, labels: &mut Labels, place: Pos2, colour: Color32) -> Pos2 {
    /// Steps around the place, nearest first, in marks.
    const AROUND: [(f32, f32); 13] = [
        (0.0, 0.0),
        (1.3, -1.0),
        (-1.3, -1.0),
        (1.3, 1.0),
        (-1.3, 1.0),
        (0.0, -1.7),
        (0.0, 1.7),
        (2.5, -1.0),
        (-2.5, -1.0),
        (2.5, 1.0),
        (-2.5, 1.0),
        (3.7, 0.0),
        (-3.7, 0.0),
    ];
    let rect = |at: Pos2| Rect::from_center_size(at, Vec2::splat(2.0 * SIZE));
    let at = AROUND
        .iter()
        .map(|(x, y)| place + Vec2::new(*x, *y) * (1.7 * SIZE))
        .find(|at| labels.is_free(rect(*at)))
        .unwrap_or(place);
    if at != place {
        pen.add(Shape::line_segment([place, at], Stroke::new(1.0, colour)));
        pen.add(Shape::circle_filled(place, 1.8, colour));
    }
    labels.keep_off(rect(at));
    at
}

/// Whether a finding is about an object.
pub(in crate::editor) fn concerns(finding: &Finding, id: &ObjectId) -> bool {
    finding.subjects.iter().any(|subject| match (subject, id) {
        (Subject::Run(run) | Subject::Hanger(run, _), ObjectId::Run(id)) => run == id,
        (Subject::Obstruction(it), ObjectId::Obstruction(id)) => it == id,
        (Subject::Opening(it), ObjectId::Opening(id)) => it == id,
        (Subject::Framing(it), ObjectId::Framing(id)) => it == id,
        (Subject::Bay(it) | Subject::Deck(it) | Subject::Wall(it, _), ObjectId::Bay(id)) => {
            it == id
        }
        _ => false,
    })
}

/// The colour of a severity.
pub(in crate::editor) const fn colour(roles: &CanvasRoles, severity: Severity) -> Color32 {
    match severity {
        Severity::Breach => roles.breach,
        Severity::Caution => roles.caution,
        Severity::Note => roles.note,
    }
}

/// Triangle: breach. Diamond: caution. Ring: note. Accepted ones are hollow.
fn mark(pen: &mut Pen<'_>, finding: &Finding, at: Pos2, colour: Color32) {
    let ground = pen.roles.ground;
    for shape in mark_shapes(finding, at, colour, ground) {
        pen.add(shape);
    }
}

/// The shapes of a finding's mark.
pub(in crate::editor) fn mark_shapes(
    finding: &Finding,
    at: Pos2,
    colour: Color32,
    ground: Color32,
) -> Vec<Shape> {
    let corners: &[(f32, f32)] = match finding.severity {
        Severity::Breach => &[(0.0, -1.0), (1.0, 0.8), (-1.0, 0.8)],
        Severity::Caution => &[(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)],
        Severity::Note => {
            return vec![
                Shape::circle_filled(at, SIZE * 0.7, ground),
                Shape::circle_stroke(at, SIZE * 0.7, Stroke::new(1.6, colour)),
            ];
        }
    };
    let points: Vec<Pos2> = corners
        .iter()
        .map(|(x, y)| at + Vec2::new(*x, *y) * SIZE)
        .collect();
    let (fill, ink) = if finding.accepted.is_some() {
        (ground, colour)
    } else {
        (colour, ground)
    };
    let mut shapes = vec![Shape::convex_polygon(
        points,
        fill,
        Stroke::new(1.2, colour),
    )];
    if finding.severity == Severity::Breach {
        let stem = [at + Vec2::new(0.0, -3.2), at + Vec2::new(0.0, 1.6)];
        shapes.push(Shape::line_segment(stem, Stroke::new(1.6, ink)));
        shapes.push(Shape::circle_filled(at + Vec2::new(0.0, 4.2), 1.0, ink));
    }
    shapes
}

fn words(
    pen: &Pen<'_>,
    labels: &mut Labels,
    editor: &Editor,
    finding: &Finding,
    at: Pos2,
    colour: Color32,
) {
    let off = SIZE + 4.0;
    labels.want(Label {
        text: short(editor, finding),
        font: TextSize::Small.font(),
        colour,
        ground: Some(pen.roles.label_ground),
        weight: Weight::Breach,
        places: vec![
            (at + Vec2::new(off, 0.0), Align2::LEFT_CENTER),
            (at - Vec2::new(off, 0.0), Align2::RIGHT_CENTER),
            (at - Vec2::new(0.0, off), Align2::CENTER_BOTTOM),
            (at + Vec2::new(0.0, off), Align2::CENTER_TOP),
            (at + Vec2::new(off, 2.0 * off), Align2::LEFT_CENTER),
            (at + Vec2::new(off, -2.0 * off), Align2::LEFT_CENTER),
        ],
    });
}

/// What is wrong, in a few words: by how much where that is a figure.
pub(in crate::editor) fn short(editor: &Editor, finding: &Finding) -> String {
    // A rule's name is the fault in the fewest words; its title is for the list.
    let fault = finding.rule.replace('-', " ");
    match amiss(editor, finding) {
        Some(by) => format!("{fault}: {by}"),
        None => fault,
    }
}

/// By how much a limit is missed. What is missing is never rounded to nothing.
fn amiss(editor: &Editor, finding: &Finding) -> Option<String> {
    use crate::units::{Precision, Rounding};
    if finding.severity == Severity::Note {
        return None;
    }
    let (measured, required) = (finding.measured?, finding.required?);
    let (by, word) = match finding.bound {
        Bound::Least => (required - measured, "short"),
        Bound::Greatest => (measured - required, "too much"),
    };
    let units = editor.site().units;
    let precision = Precision {
        decimals: 2,
        inch_parts: 8,
    };
    let figure = match finding.dimension {
        Dimension::Length => {
            let length = Length::metres(by);
            Length::with_unit(length.show_rounded(units, precision, Rounding::Up), units)
        }
        Dimension::Force => {
            let force = Force::newtons(by);
            let whole = Precision::decimals(0);
            Force::with_unit(force.show_rounded(units, whole, Rounding::Up), units)
        }
        Dimension::Angle => {
            let angle = Angle::degrees(by);
            let tenth = Precision::decimals(1);
            Angle::with_unit(angle.show_rounded(units, tenth, Rounding::Up), units)
        }
        Dimension::AreaLoad => {
            let load = AreaLoad::pascals(by);
            let shown = AreaLoad::sheet_precision(units);
            AreaLoad::with_unit(load.show_rounded(units, shown, Rounding::Up), units)
        }
        Dimension::Number => return None,
    };
    (0.0 < by).then(|| format!("{figure} {word}"))
}
