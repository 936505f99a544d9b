//! The legend: what is on the plan, and nothing else.

use crate::geometry::DVec2;
use crate::hanging::Kind;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::paper::{PaperPoint, PaperRect};
use crate::sheets::pen::Pen;
use crate::sheets::symbol::SymbolUse;
use crate::sheets::text::{Anchor, Text};
use crate::site::{Framing, ObstructionKind};

use super::block::Block;
use super::figures::{Figures, UNKNOWN_CAPACITY};
use super::hangers;
use super::notes::{heading_block, text};
use super::plan::building::DOOR;
use super::plan::symbols::{self, Symbols};
use super::plan::{steel, style};
use super::{PageInput, wording};

/// One line of the legend: a sample, drawn round the origin, and what it means.
struct Item {
    sample: Vec<Mark>,
    meaning: String,
}

const LETTERING: Lettering = Lettering::condensed(2.5);
/// Height of a line, mm.
const PITCH_MM: f64 = 4.3;
/// Width of the samples' column, mm.
const SAMPLE_MM: f64 = 12.0;
/// A meaning is shortened to this, mm.
const MOST_MEANING_MM: f64 = 62.0;

/// The legend in so many columns.
pub(super) fn draw(input: &PageInput<'_>, n_columns: usize) -> Block {
    let items = items(input);
    if items.is_empty() {
        return Block::default();
    }
    let widths = items.iter().map(|item| LETTERING.width_mm(&item.meaning));
    let meaning_mm = widths.fold(0.0, f64::max).min(MOST_MEANING_MM);
    let column_mm = SAMPLE_MM + meaning_mm + 4.0;
    let n_rows = items.len().div_ceil(n_columns.max(1));
    let mut block = heading_block("Legend", 0.0);
    let top = block.height_mm;
    for (column, items) in items.chunks(n_rows).enumerate() {
        let left = (0..column).fold(0.0, |x, _| x + column_mm);
        let mut middle = top + PITCH_MM / 2.0 - 0.6;
        for item in items {
            let corner = DVec2::new(left + SAMPLE_MM / 2.0 - 1.0, middle);
            block.marks.extend(item.sample.iter().map(|mark| Mark {
                shape: mark.shape.moved(0.0, corner),
                ..mark.clone()
            }));
            let meaning = LETTERING.shortened(&item.meaning, MOST_MEANING_MM);
            block
                .marks
                .push(text(&meaning, LETTERING, left + SAMPLE_MM, middle + 1.25));
            middle += PITCH_MM;
        }
        block.height_mm = block.height_mm.max(middle - PITCH_MM / 2.0);
        block.width_mm = left + column_mm - 4.0;
    }
    block
}

fn items(input: &PageInput<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    of_runs(input, &mut items);
    of_hangers(input, &mut items);
    for framing in &input.site.framings {
        let drawn = &input.study.structure.members;
        if drawn.iter().any(|member| member.framing == framing.id) {
            items.push(of_framing(framing, Figures::of(input.site)));
        }
    }
    if input
        .site
        .openings
        .iter()
        .any(|it| it.kind.motion().is_some())
    {
        let swatch = PaperRect::at(PaperPoint::new(-4.5, -1.5), 8.0, 3.0);
        let outline = Polyline::closed(DOOR, swatch.corners());
        let sample = Mark::new(Layer::Opening, outline);
        items.push(item(vec![sample], "door: on its way and open"));
    }
    items.extend(of_obstructions(input));
    items
}

/// A line for each way in which obstructions are drawn: kinds that look alike share it,
/// and each thing on the plan is named.
fn of_obstructions(input: &PageInput<'_>) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    for kind in ObstructionKind::ALL {
        if !input.site.obstructions.iter().any(|it| it.kind == kind) {
            continue;
        }
        let next = of_obstruction(kind);
        let alike = items.iter_mut().find(|it| {
            let together = LETTERING.width_mm(&format!("{}, {}", it.meaning, next.meaning));
            it.sample == next.sample && together <= MOST_MEANING_MM
        });
        match alike {
            Some(known) => known.meaning = format!("{}, {}", known.meaning, next.meaning),
            None => items.push(next),
        }
    }
    items
}

fn item(sample: Vec<Mark>, meaning: impl Into<String>) -> Item {
    Item {
        sample,
        meaning: meaning.into(),
    }
}

fn tube(ends: [PaperPoint; 2]) -> Mark {
    Mark::new(Layer::HeatTube, Polyline::open(Pen::BOLD, ends))
}

fn of_runs(input: &PageInput<'_>, items: &mut Vec<Item>) {
    let runs = &input.study.runs;
    if runs.is_empty() {
        return;
    }
    let burner = PaperRect::at(PaperPoint::new(-4.6, -0.9), 2.4, 1.8);
    let tip = PaperPoint::new(4.0, 0.0);
    items.push(item(
        vec![
            Mark::new(Layer::HeatTube, Area::new(burner.corners())),
            tube([PaperPoint::new(-2.2, 0.0), tip]),
            Mark::new(Layer::HeatTube, symbols::exhaust(tip, DVec2::X)),
        ],
        "tube from burner to exhaust",
    ));
    if runs.iter().any(|run| wording::aim(&run.run).is_some()) {
        let from = PaperPoint::new(-0.5, -1.6);
        let mut sample = vec![tube([
            PaperPoint::new(-4.0, -1.6),
            PaperPoint::new(3.0, -1.6),
        ])];
        let arrow = symbols::tilt(from, DVec2::Y, 3.2);
        sample.extend(
            arrow
                .into_iter()
                .map(|part| Mark::new(Layer::HeatTube, part)),
        );
        items.push(item(sample, "side that the reflector aims at"));
    }
}

fn of_hangers(input: &PageInput<'_>, items: &mut Vec<Item>) {
    let hung = hangers::all(input.study);
    let symbols = Symbols::for_pitch(f64::INFINITY);
    for kind in [Kind::Panel, Kind::Line, Kind::OffPanel, Kind::Channel] {
        if !hung.iter().any(|it| it.hanger.at.kind == kind) {
            continue;
        }
        let mut sample = Vec::new();
        if kind == Kind::Channel {
            let ends = [PaperPoint::new(-4.0, 0.0), PaperPoint::new(3.0, 0.0)];
            let channel = symbols::channel(ends[0], ends[1]);
            sample.extend(
                channel
                    .into_iter()
                    .map(|it| Mark::new(Layer::HeatHanger, it)),
            );
        }
        let used = SymbolUse::new(symbols.hanger(kind), PaperPoint::new(-0.5, 0.0));
        sample.push(Mark::new(Layer::HeatHanger, used));
        let list = match kind {
            Kind::Channel => ", C1: channel list",
            Kind::Panel | Kind::Line | Kind::OffPanel => "",
        };
        items.push(item(
            sample,
            format!("hanger: {}{list}", wording::kind(kind)),
        ));
    }
    let sign = |x: f64| {
        let at = PaperPoint::new(x, 0.0);
        let text = Text::anchored("v", LETTERING, at, 0.0, Anchor::CENTRE);
        Mark::new(Layer::Text, text)
    };
    if hung.iter().any(hangers::HungAt::is_overloaded) {
        let at = PaperPoint::new(-0.5, 0.0);
        let used = SymbolUse::new(symbols.hanger(Kind::Line), at);
        let mut sample = vec![Mark::new(Layer::HeatHanger, used)];
        let cross = symbols.overloaded(at);
        sample.extend(cross.into_iter().map(|it| Mark::new(Layer::HeatHanger, it)));
        items.push(item(sample, "carries more than is allowed"));
    }
    if hung.iter().any(hangers::HungAt::must_be_verified) {
        let used = SymbolUse::new(symbols.hanger(Kind::Line), PaperPoint::new(-1.4, 0.0));
        let sample = vec![Mark::new(Layer::HeatHanger, used), sign(1.2)];
        items.push(item(sample, format!("load allowed {UNKNOWN_CAPACITY}")));
    }
    if input
        .site
        .obstructions
        .iter()
        .any(|it| wording::is_assumed(it))
    {
        items.push(item(vec![sign(-0.5)], "taken to burn: verify on site"));
    }
}

fn of_framing(framing: &Framing, figures: Figures) -> Item {
    let line = Polyline::open(
        steel::pen(framing.kind),
        [PaperPoint::new(-4.0, 0.0), PaperPoint::new(3.0, 0.0)],
    );
    let sample = Mark::new(Layer::Member, line).ink(steel::ink(framing.kind));
    let meaning = format!(
        "{} {}, {} on centre",
        framing.kind.label(),
        framing.id,
        figures.place(framing.spacing.as_metres())
    );
    item(vec![sample], meaning)
}

fn of_obstruction(kind: ObstructionKind) -> Item {
    let swatch = PaperRect::at(PaperPoint::new(-4.5, -1.5), 8.0, 3.0);
    item(style::marks(kind, &swatch.corners(), &[]), kind.label())
}
