//! Notes, cautions, and the warning that a sheet is not for construction.

use crate::findings::CAUTIONS;
use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Mark, Polyline};
use crate::sheets::paper::{PaperPoint, PaperRect};
use crate::sheets::pen::Pen;
use crate::sheets::text::{Anchor, Text};

use super::PageInput;
use super::block::Block;
use super::wording::{counted, uncertified};

/// Distance between the baselines of a note's lines, mm.
const PITCH_MM: f64 = 3.75;
/// What lies between two notes beyond that, mm.
const BETWEEN_MM: f64 = 0.4;
const LETTERING: Lettering = Lettering::condensed(2.5);
/// Room for a note's number, mm.
const NUMBER_MM: f64 = 5.0;

/// A heading and numbered notes, as wide as asked.
pub(super) fn numbered(heading: &str, notes: &[String], width_mm: f64) -> Block {
    let mut block = heading_block(heading, width_mm);
    for (index, note) in notes.iter().enumerate() {
        let number = format!("{}", index + 1);
        let mut baseline = block.height_mm + LETTERING.height_mm;
        block.marks.push(text(&number, LETTERING, 0.0, baseline));
        let lines = LETTERING.wrapped(note, width_mm - NUMBER_MM);
        for line in &lines {
            block.marks.push(text(line, LETTERING, NUMBER_MM, baseline));
            baseline += PITCH_MM;
        }
        block.height_mm = baseline - LETTERING.height_mm + BETWEEN_MM;
    }
    block
}

/// A heading for a block, with the distance to what follows.
pub(super) fn heading_block(heading: &str, width_mm: f64) -> Block {
    let bold = Lettering::bold(3.0);
    let mut block = Block::empty(width_mm, 5.2);
    block.marks.push(text(heading, bold, 0.0, bold.height_mm));
    block
}

/// The cautions that every sheet carries, as one paragraph.
pub(super) fn cautions(width_mm: f64) -> Block {
    let mut block = Block::empty(width_mm, 0.0);
    let mut baseline = LETTERING.height_mm;
    for line in LETTERING.wrapped(&CAUTIONS.join(" "), width_mm) {
        block.marks.push(text(&line, LETTERING, 0.0, baseline));
        baseline += PITCH_MM;
    }
    block.height_mm = baseline - PITCH_MM + 1.0;
    block
}

/// The framed warning, while a used family's figures are not certified or a breach is
/// open, with its reasons. Nothing where neither is.
pub(super) fn warning(input: &PageInput<'_>, width_mm: f64) -> Option<Block> {
    let reasons = reasons(input);
    if reasons.is_empty() {
        return None;
    }
    let room_mm = width_mm - 6.0;
    let big = [5.0, 4.5, 4.0, 3.5, 3.0, 2.5]
        .into_iter()
        .map(Lettering::bold)
        .find(|letters| letters.width_mm(WARNING) <= room_mm)
        .unwrap_or(Lettering::bold(2.5));
    let mut lines = vec![(WARNING, big)];
    lines.extend(reasons.iter().map(|reason| (reason.as_str(), LETTERING)));
    let mut block = Block::empty(width_mm, 0.0);
    let mut baseline = 1.4;
    for (content, lettering) in lines {
        baseline += lettering.height_mm;
        let fits = lettering.shortened(content, room_mm);
        let at = DVec2::new(width_mm / 2.0, baseline);
        let text = Text::anchored(&fits, lettering, at, 0.0, Anchor::MIDDLE);
        block.marks.push(Mark::new(Layer::Frame, text));
        baseline += 1.3;
    }
    block.height_mm = baseline + 0.6;
    let place = PaperRect::at(PaperPoint::ZERO, width_mm, block.height_mm);
    let outline = Polyline::around(Pen::HEAVY, place.inset(0.35));
    block.marks.push(Mark::new(Layer::Frame, outline));
    Some(block)
}

/// What stands in the frame.
const WARNING: &str = "NOT FOR CONSTRUCTION";

/// Why the sheets are not for construction.
fn reasons(input: &PageInput<'_>) -> Vec<String> {
    let names = uncertified(input.study);
    let open = input
        .findings
        .iter()
        .filter(|finding| finding.is_open_breach());
    let n_open = open.count();
    let mut reasons = Vec::new();
    if 0 < n_open {
        let n = counted(n_open, "breach is open", "breaches are open");
        reasons.push(format!("{n}, see the findings"));
    }
    if !names.is_empty() {
        reasons.push(format!(
            "heater figures are not certified: {}",
            names.join(", ")
        ));
    }
    reasons
}

pub(super) fn text(content: &str, lettering: Lettering, x: f64, y: f64) -> Mark {
    Mark::new(
        Layer::Text,
        Text::new(content, lettering, PaperPoint::new(x, y)),
    )
}
