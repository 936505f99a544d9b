//! Where the parts of a plan sheet go, and the largest scale at which the plan fits.

use crate::geometry::DVec2;
use crate::sheets::paper::{Format, PaperPoint, PaperRect, SheetSize, View, Viewport};
use crate::sheets::scale::{Scale, ScaleSeries};
use crate::site::Paper;
use crate::units::UnitSystem;

use super::block::Block;
use super::bounds::Extent;
use super::datum::Axes;
use super::foot::GAP_MM;
use super::running::{self, Chain, Edge, Rank, Stop};
use super::{scale_bar, title_block};

/// The sheet of a plan: A4 stands upright (ISO 5457, 4.1), all others lie.
pub(super) const fn sheet_size(paper: Paper) -> SheetSize {
    match paper {
        Paper::A4 => SheetSize::portrait(Format::A4),
        Paper::A3 => SheetSize::landscape(Format::A3),
        Paper::A2 => SheetSize::landscape(Format::A2),
        Paper::A1 => SheetSize::landscape(Format::A1),
        Paper::A0 => SheetSize::landscape(Format::A0),
        Paper::AnsiB => SheetSize::landscape(Format::AnsiB),
        Paper::AnsiC => SheetSize::landscape(Format::AnsiC),
        Paper::AnsiD => SheetSize::landscape(Format::AnsiD),
        Paper::AnsiE => SheetSize::landscape(Format::AnsiE),
    }
}

/// What stands on a plan sheet beside the plan and the title block.
pub(super) struct Furniture<'a> {
    /// The legend in so many columns.
    pub legend: &'a dyn Fn(usize) -> Block,
    /// The notes, as wide as asked.
    pub notes: &'a dyn Fn(f64) -> Block,
    /// The warning, as wide as asked, if there is one.
    pub warning: &'a dyn Fn(f64) -> Option<Block>,
}

/// One way to arrange a plan sheet.
pub(super) struct Arrangement {
    /// What is left for the plan.
    pub room: PaperRect,
    /// Where the scale bar's top left corner goes.
    pub scale_bar: PaperPoint,
    /// Everything else, with its top left corner.
    pub blocks: Vec<(PaperPoint, Block)>,
}

/// The arrangements of a sheet: a strip below the plan, a column at its right, and, on
/// a sheet that is too narrow for both, a stack below.
pub(super) fn arrangements(size: SheetSize, furniture: &Furniture<'_>) -> Vec<Arrangement> {
    let found = [strip(size, furniture), column(size, furniture)];
    let mut found: Vec<Arrangement> = found.into_iter().flatten().collect();
    if found.is_empty() {
        found.push(stack(size, furniture));
    }
    found
}

/// Notes narrower than this are a pillar, mm.
const LEAST_NOTES_MM: f64 = 75.0;
/// Notes wider than this tire the eye, mm.
const MOST_NOTES_MM: f64 = 170.0;
/// The band above the title block: the scale bar, and the warning at its right.
struct Band {
    top: f64,
    scale_bar: PaperPoint,
    blocks: Vec<(PaperPoint, Block)>,
}

fn band(size: SheetSize, furniture: &Furniture<'_>) -> Band {
    let title = title_block::place(size);
    let left = title.left + scale_bar::WIDTH_MM;
    let warning = (furniture.warning)(title.right - left - GAP_MM);
    let warning_mm = warning.as_ref().map_or(0.0, |block| block.height_mm);
    let top = title.top - GAP_MM - warning_mm.max(scale_bar::HEIGHT_MM);
    let place = PaperPoint::new(left, title.top - GAP_MM - warning_mm);
    Band {
        top,
        scale_bar: PaperPoint::new(title.left, title.top - GAP_MM - scale_bar::HEIGHT_MM),
        blocks: warning.into_iter().map(|block| (place, block)).collect(),
    }
}

/// Legend and notes side by side at the left of the title block and its band.
fn strip(size: SheetSize, furniture: &Furniture<'_>) -> Option<Arrangement> {
    let frame = size.frame();
    let title = title_block::place(size);
    let left_mm = title.left - frame.left - 3.0 * GAP_MM;
    let pairs = (1..=3).filter_map(|n_columns| {
        let legend = (furniture.legend)(n_columns);
        let notes_mm = left_mm - legend.width_mm - 2.0 * GAP_MM;
        (LEAST_NOTES_MM <= notes_mm).then(|| {
            let notes = (furniture.notes)(notes_mm.min(MOST_NOTES_MM));
            (legend.height_mm.max(notes.height_mm), legend, notes)
        })
    });
    let (height, legend, notes) = pairs.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let band = band(size, furniture);
    let top = (frame.bottom - height - 1.0).min(band.top);
    let legend_at = PaperPoint::new(frame.left + GAP_MM, top);
    let notes_at = legend_at + DVec2::new(legend.width_mm + 2.0 * GAP_MM, 0.0);
    let mut blocks = band.blocks;
    blocks.extend([(legend_at, legend), (notes_at, notes)]);
    Some(Arrangement {
        room: PaperRect {
            bottom: top - 2.0,
            ..frame
        },
        scale_bar: band.scale_bar,
        blocks,
    })
}

/// Everything in a column as wide as the title block, at the right.
fn column(size: SheetSize, furniture: &Furniture<'_>) -> Option<Arrangement> {
    let frame = size.frame();
    let title = title_block::place(size);
    // Half of the width at least stays for the plan, or a strip is better.
    if title.left - frame.left < frame.width_mm() / 2.0 {
        return None;
    }
    let left = title.left + GAP_MM;
    let band = band(size, furniture);
    let mut blocks = band.blocks;
    let mut y = band.top;
    let notes = (furniture.notes)(title_block::WIDTH_MM - 2.0 * GAP_MM);
    for block in [notes, (furniture.legend)(2)] {
        y -= GAP_MM + block.height_mm;
        blocks.push((PaperPoint::new(left, y), block));
    }
    (frame.top <= y).then_some(Arrangement {
        room: PaperRect {
            right: title.left - GAP_MM,
            ..frame
        },
        scale_bar: band.scale_bar,
        blocks,
    })
}

/// Legend and notes side by side below the plan, above the title block and its band.
fn stack(size: SheetSize, furniture: &Furniture<'_>) -> Arrangement {
    let frame = size.frame();
    let width_mm = frame.width_mm() - 2.0 * GAP_MM;
    let left = frame.left + GAP_MM;
    let band = band(size, furniture);
    let mut blocks = band.blocks;
    let legend = (furniture.legend)(1);
    let notes = (furniture.notes)(width_mm - legend.width_mm - 2.0 * GAP_MM);
    let top = band.top - legend.height_mm.max(notes.height_mm) - GAP_MM;
    let notes_at = PaperPoint::new(left + width_mm - notes.width_mm, top);
    blocks.extend([(PaperPoint::new(left, top), legend), (notes_at, notes)]);
    Arrangement {
        room: PaperRect {
            bottom: top - GAP_MM,
            ..frame
        },
        scale_bar: band.scale_bar,
        blocks,
    }
}

/// What is drawn in the plan, as far as its size matters.
pub(super) struct Drawn<'a> {
    /// How it lies on the sheet.
    pub axes: &'a Axes,
    /// How large it is.
    pub extent: &'a Extent,
    /// What is dimensioned along x and along y.
    pub stops: [&'a [Stop]; 2],
    /// On which edges the grid's bubbles stand, for x and for y.
    pub edges: [Edge; 2],
    /// How far bubbles reach beyond the figures, mm, for x and for y.
    pub bubbles_mm: &'a dyn Fn(Scale) -> [f64; 2],
    /// Radius of the bubbles, mm, for x and for y; 0 where there are none.
    pub radii_mm: [f64; 2],
}

/// A plan that fits its sheet.
pub(super) struct Fitted {
    /// Which of the arrangements.
    pub arrangement: usize,
    /// The window to the site.
    pub viewport: Viewport,
    /// The box of the paper on which what is drawn lies, without dimensions.
    pub plan: PaperRect,
    /// The dimensions.
    pub chains: Vec<Chain>,
    /// How many dimensions found no room.
    pub n_left_out: usize,
    /// Whether the scale that was asked for is the scale.
    pub scale_as_asked: bool,
}

/// Distances of the dimension lines from the plan, mm: where there is room, so much that
/// openings are named between; else as little as can be read.
const LINE_MM: [f64; 2] = [9.0, 2.8];
/// Distance of the plan from the frame and from furniture where no dimensions are, mm.
const MARGIN_MM: f64 = 2.0;

/// The scales of a series from 1:10 on, largest first. Beyond the series' smallest they
/// go on by tens, so that everything fits at some scale.
fn scales(units: UnitSystem) -> Vec<Scale> {
    let series = series(units);
    let mut scales = series.scales();
    scales.retain(|scale| 10.0 <= scale.denominator);
    while let Some(&last) = scales.last() {
        if 1e9 < last.denominator {
            break;
        }
        scales.push(Scale {
            denominator: last.denominator * 10.0,
        });
    }
    scales
}

/// The scales that are customary with a unit system.
pub(super) const fn series(units: UnitSystem) -> ScaleSeries {
    match units {
        UnitSystem::Metric => ScaleSeries::Iso5455,
        UnitSystem::FeetInches => ScaleSeries::InchesToTheFoot,
    }
}

/// Fits the plan: at the scale asked for if it fits, else at the next smaller one that
/// does; at the largest that fits where none is asked for. Of the arrangements that fit
/// the first is taken.
pub(super) fn fit(
    drawn: &Drawn<'_>,
    arrangements: &[Arrangement],
    asked: Option<f64>,
    units: UnitSystem,
) -> Option<Fitted> {
    let smaller = scales(units);
    let smaller = smaller
        .iter()
        .copied()
        .filter(|scale| asked.is_none_or(|denominator| denominator < scale.denominator));
    let tried = asked
        .map(|denominator| Scale { denominator })
        .into_iter()
        .chain(smaller);
    let trials = tried.flat_map(|scale| {
        LINE_MM
            .into_iter()
            .map(move |line_mm| Trial::new(drawn, scale, line_mm))
    });
    for trial in trials {
        for (index, arrangement) in arrangements.iter().enumerate() {
            let scale = trial.scale;
            if let Some(plan) = trial.plan_in(arrangement.room) {
                let mut viewport = Viewport::centred(
                    "plan",
                    View::Plan,
                    arrangement.room,
                    scale,
                    drawn.extent.centre_on_site(drawn.axes),
                );
                viewport.paper_anchor = plan.centre();
                viewport.turn_degrees = drawn.axes.turn_degrees;
                return Some(Fitted {
                    arrangement: index,
                    viewport,
                    plan,
                    chains: trial.chains,
                    n_left_out: trial.n_left_out,
                    scale_as_asked: asked.is_none_or(|it| it.total_cmp(&scale.denominator).is_eq()),
                });
            }
        }
    }
    None
}

/// The plan at one scale: its size and what stands round it.
struct Trial {
    scale: Scale,
    size_mm: DVec2,
    chains: Vec<Chain>,
    n_left_out: usize,
    margins_mm: [f64; 4],
}

impl Trial {
    fn new(drawn: &Drawn<'_>, scale: Scale, line_mm: f64) -> Self {
        let mut chains = Vec::new();
        let mut n_left_out = 0;
        let datums = [&drawn.axes.along_x, &drawn.axes.along_y];
        for ((datum, stops), edge) in datums.into_iter().zip(drawn.stops).zip(drawn.edges) {
            if let Some(datum) = datum {
                let (found, n) =
                    running::chains(datum, stops, edge, line_mm, drawn.axes, drawn.extent, scale);
                chains.extend(found);
                n_left_out += n;
            }
        }
        let bubbles_mm = (drawn.bubbles_mm)(scale);
        let margins_mm = Edge::ALL.map(|edge| {
            let figures = chains
                .iter()
                .filter(|chain| chain.edge == edge)
                .map(Chain::reach_mm);
            let figures = figures.fold(0.0, f64::max);
            let bubbles = drawn.edges.iter().zip(bubbles_mm);
            let bubbles = bubbles.filter(|(of, _)| **of == edge).map(|(_, mm)| mm);
            (figures + bubbles.fold(0.0, f64::max)).max(MARGIN_MM)
        });
        let size_mm = drawn.extent.size() * scale.mm_per_metre();
        let overhangs_mm = Edge::ALL.map(|edge| {
            // Chains along x stand above or below, so that they may go beyond the sides.
            let radius = drawn.radii_mm[usize::from(edge.is_level())];
            overhang_mm(&chains, edge, size_mm, radius)
        });
        let mut margins_mm = margins_mm;
        for (margin, overhang) in margins_mm.iter_mut().zip(overhangs_mm) {
            *margin = margin.max(overhang);
        }
        Self {
            scale,
            size_mm,
            chains,
            n_left_out,
            margins_mm,
        }
    }

    /// Where the plan lies in a room, in the middle of what its margins leave; none if
    /// it doesn't fit.
    fn plan_in(&self, room: PaperRect) -> Option<PaperRect> {
        let [top, bottom, left, right] = self.margins_mm;
        let spare = DVec2::new(
            room.width_mm() - left - right - self.size_mm.x,
            room.height_mm() - top - bottom - self.size_mm.y,
        );
        if spare.min_element() < 0.0 {
            return None;
        }
        let corner = PaperPoint::new(room.left + left, room.top + top) + spare / 2.0;
        Some(PaperRect::at(corner, self.size_mm.x, self.size_mm.y))
    }
}

/// How far the figures and bubbles of chains that run square to an edge go beyond it,
/// mm: those of a chain above the plan may go beyond its left and its right edge.
fn overhang_mm(chains: &[Chain], edge: Edge, size_mm: DVec2, radius_mm: f64) -> f64 {
    /// Half the height of a figure, and some room.
    const HALF_MM: f64 = 2.0;
    let square = chains
        .iter()
        .filter(|chain| chain.edge.is_level() != edge.is_level());
    let beyond = square.filter_map(|chain| {
        let first = chain.figure_mm.first()? - HALF_MM;
        let last = chain.figure_mm.last()? + HALF_MM;
        let lines = chain.stops.iter().zip(&chain.along_mm);
        let lines = lines
            .filter(|(stop, _)| stop.rank == Rank::Line)
            .map(|(_, along)| *along);
        let first = lines
            .clone()
            .fold(first, |least, along| least.min(along - radius_mm - 0.4));
        let last = lines.fold(last, |most, along| most.max(along + radius_mm + 0.4));
        Some(match edge {
            Edge::Left | Edge::Top => -first,
            Edge::Right => last - size_mm.x,
            Edge::Bottom => last - size_mm.y,
        })
    });
    beyond.fold(0.0, f64::max)
}
