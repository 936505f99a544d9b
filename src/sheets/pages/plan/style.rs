//! How obstructions are drawn, by their kind; the same in the plan and its legend.

use crate::sheets::hatch::Hatch;
use crate::sheets::layer::Layer;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, LineKind, Pen, PenWidth};
use crate::site::ObstructionKind;

/// Direction and spacing of a light hatch, and the outline's line type.
struct Style {
    hatches: &'static [(f64, f64)],
    line: LineKind,
    fill: Option<Ink>,
}

/// Hatches are light and far apart, so that a grey print keeps the text on them.
const fn style(kind: ObstructionKind) -> Style {
    let (hatches, line, fill): (&[(f64, f64)], _, _) = match kind {
        ObstructionKind::Racking => (&[(45.0, 3.0)], LineKind::Continuous, None),
        ObstructionKind::StoredGoods => (&[(135.0, 3.0)], LineKind::Continuous, None),
        ObstructionKind::ParkedVehicle | ObstructionKind::Boat => {
            (&[(0.0, 3.0)], LineKind::Continuous, None)
        }
        ObstructionKind::Aircraft => (&[(0.0, 4.0)], LineKind::LongDashDoubleDot, None),
        ObstructionKind::Stairs => (&[(90.0, 2.0)], LineKind::Continuous, None),
        ObstructionKind::Mezzanine => (&[(0.0, 5.0)], LineKind::Continuous, None),
        ObstructionKind::LiftedVehicle => (&[(0.0, 3.0)], LineKind::LongDashDoubleDot, None),
        ObstructionKind::CraneTravel => (&[(90.0, 5.0)], LineKind::LongDashDoubleDot, None),
        ObstructionKind::DoorTravel => (&[], LineKind::LongDashDoubleDot, None),
        ObstructionKind::Duct | ObstructionKind::CableTray | ObstructionKind::Skylight => {
            (&[], LineKind::Dashed, None)
        }
        ObstructionKind::HazardZone => (
            &[(45.0, 4.0), (135.0, 4.0)],
            LineKind::LongDashDoubleDot,
            None,
        ),
        ObstructionKind::Column => (&[], LineKind::Continuous, Some(Ink::DarkGrey)),
        ObstructionKind::Partition => (&[], LineKind::Continuous, Some(Ink::LightGrey)),
        ObstructionKind::Pipe
        | ObstructionKind::Lamp
        | ObstructionKind::Sprinkler
        | ObstructionKind::Other => (&[], LineKind::Continuous, None),
    };
    Style {
        hatches,
        line,
        fill,
    }
}

/// The outline and the hatches of one polygon of an obstruction, hatches first.
pub(in crate::sheets::pages) fn marks(
    kind: ObstructionKind,
    outline: &[PaperPoint],
    holes: &[Vec<PaperPoint>],
) -> Vec<Mark> {
    let style = style(kind);
    let mut marks = fills(kind, outline, holes);
    let pen = Pen::of(PenWidth::W018, style.line);
    for ring in std::iter::once(outline).chain(holes.iter().map(Vec::as_slice)) {
        marks.push(Mark::new(Layer::Obstruction, Polyline::closed(pen, ring)));
    }
    marks
}

/// The type of its outline.
pub(in crate::sheets::pages) fn line(kind: ObstructionKind) -> LineKind {
    style(kind).line
}

/// What lies within the outline: hatches, or a fill.
pub(in crate::sheets::pages) fn fills(
    kind: ObstructionKind,
    outline: &[PaperPoint],
    holes: &[Vec<PaperPoint>],
) -> Vec<Mark> {
    let style = style(kind);
    let mut marks = Vec::new();
    if let Some(ink) = style.fill {
        let area = Area {
            outline: outline.to_vec(),
            holes: holes.to_vec(),
        };
        marks.push(Mark::new(Layer::Hatch, area).ink(ink));
    }
    for &(angle_degrees, spacing_mm) in style.hatches {
        let mut hatch = Hatch::new(outline, angle_degrees, spacing_mm, Pen::HAIR);
        hatch.holes = holes.to_vec();
        marks.push(Mark::new(Layer::Hatch, hatch));
    }
    marks
}
