//! What is drawn alike in many places of a plan, and in its legend.

use std::sync::Arc;

use crate::geometry::DVec2;
use crate::hanging::Kind;
use crate::sheets::mark::{Area, Circle, Finish, Polyline, Shape};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::symbol::{Part, Symbol};

/// The symbols of one plan, all drawn for the same size of a hanger.
#[derive(Debug, Clone)]
pub(in crate::sheets::pages) struct Symbols {
    /// Half the size of a hanger's mark, mm.
    pub half_mm: f64,
    panel: Arc<Symbol>,
    line: Arc<Symbol>,
    off_panel: Arc<Symbol>,
    channel: Arc<Symbol>,
}

/// Half the size of a hanger's mark where there is room, mm.
const HALF_MM: f64 = 1.0;
/// Half the size of the smallest mark that can still be told apart, mm.
const LEAST_HALF_MM: f64 = 0.45;

impl Symbols {
    /// For hangers that are at least so far apart on paper, mm.
    pub(in crate::sheets::pages) fn for_pitch(pitch_mm: f64) -> Self {
        let half_mm = (0.3 * pitch_mm).clamp(LEAST_HALF_MM, HALF_MM);
        let square = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
        let diamond = [(0.0, -1.35), (1.35, 0.0), (0.0, 1.35), (-1.35, 0.0)];
        let triangle = [(0.0, -1.35), (1.25, 0.85), (-1.25, 0.85)];
        let circle = Circle {
            centre: PaperPoint::ZERO,
            radius_mm: half_mm,
            finish: Finish::Drawn(Pen::THIN),
        };
        let disc = Circle {
            finish: Finish::Filled,
            ..circle
        };
        let symbol = |name: &str, parts: Vec<Part>| {
            Arc::new(Symbol {
                name: name.to_owned(),
                parts,
            })
        };
        let outlined = |name: &str, corners: &[(f64, f64)]| {
            let corners: Vec<PaperPoint> = corners
                .iter()
                .map(|&(x, y)| DVec2::new(x, y) * half_mm)
                .collect();
            symbol(
                name,
                vec![
                    Part::inked(Area::new(corners.clone()), Ink::Paper),
                    Part::new(Polyline::closed(Pen::THIN, corners)),
                ],
            )
        };
        Self {
            half_mm,
            panel: symbol(
                "HANGER-PANEL",
                vec![Part::inked(disc, Ink::Paper), Part::new(circle)],
            ),
            line: outlined("HANGER-LINE", &square),
            off_panel: outlined("HANGER-OFF-PANEL", &diamond),
            channel: outlined("HANGER-CHANNEL", &triangle),
        }
    }

    /// The mark of a hanger by the way it gets its hold.
    pub(in crate::sheets::pages) const fn hanger(&self, kind: Kind) -> &Arc<Symbol> {
        match kind {
            Kind::Panel => &self.panel,
            Kind::Line => &self.line,
            Kind::OffPanel => &self.off_panel,
            Kind::Channel => &self.channel,
        }
    }

    /// What says that a hang point carries too much: a cross over its hanger's mark.
    pub(in crate::sheets::pages) fn overloaded(&self, at: PaperPoint) -> [Shape; 2] {
        let reach_mm = (2.1 * self.half_mm).max(LEAST_CROSS_MM);
        [DVec2::new(1.0, 1.0), DVec2::new(1.0, -1.0)].map(|direction| {
            let arm = direction * (reach_mm * std::f64::consts::FRAC_1_SQRT_2);
            Polyline::open(Pen::MEDIUM, [at - arm, at + arm]).into()
        })
    }
}

/// Half the length of the smallest cross that can still be seen over a tube, mm.
const LEAST_CROSS_MM: f64 = 1.4;

/// The open end of an exhaust: a chevron with its tip at the point, pointing along.
pub(in crate::sheets::pages) fn exhaust(tip: PaperPoint, along: DVec2) -> Shape {
    let across = along.perp();
    let wing = |side: f64| tip - along * 1.7 + across * (side * 1.3);
    Polyline::open(Pen::MEDIUM, [wing(1.0), tip, wing(-1.0)]).into()
}

/// An arrow from a tube towards the side that its reflector aims at: shaft and head.
pub(in crate::sheets::pages) fn tilt(from: PaperPoint, along: DVec2, length_mm: f64) -> [Shape; 2] {
    let tip = from + along * length_mm;
    let neck = tip - along * 1.6;
    let across = along.perp() * 0.6;
    [
        Polyline::open(Pen::FINE, [from, neck]).into(),
        Area::new([tip, neck + across, neck - across]).into(),
    ]
}

/// A cross channel between its two members, with a tick where it lies on each.
pub(in crate::sheets::pages) fn channel(from: PaperPoint, to: PaperPoint) -> [Shape; 3] {
    let across = (to - from).normalize_or_zero().perp() * 0.8;
    let tick = |at: PaperPoint| Polyline::open(Pen::MEDIUM, [at - across, at + across]).into();
    [
        Polyline::open(Pen::MEDIUM, [from, to]).into(),
        tick(from),
        tick(to),
    ]
}
