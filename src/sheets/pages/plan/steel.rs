//! Members, thin, with their numbers.

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Mark, Polyline};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, Pen};
use crate::sheets::text::Anchor;
use crate::site::{Framing, MemberKind};

use super::{Drawing, reading_turn};
use crate::sheets::pages::labels::{Label, Spot, Wording};

/// Draws every member span as a line.
pub(super) fn draw(drawing: &mut Drawing<'_>) {
    for member in &drawing.input.study.structure.members {
        let ends = [drawing.at(member.start), drawing.at(member.end())];
        let mark = Mark::new(Layer::Member, Polyline::open(pen(member.kind), ends));
        drawing.draw(mark.ink(ink(member.kind)).of("member", member.id.as_str()));
    }
}

/// The pen of a kind of member.
pub(in crate::sheets::pages) const fn pen(kind: MemberKind) -> Pen {
    match kind {
        MemberKind::OpenWebJoist | MemberKind::Purlin => Pen::HAIR,
        MemberKind::Beam | MemberKind::TimberTruss => Pen::FINE,
    }
}

/// The ink of a kind of member.
pub(in crate::sheets::pages) const fn ink(kind: MemberKind) -> Ink {
    match kind {
        MemberKind::OpenWebJoist | MemberKind::Purlin => Ink::Grey,
        MemberKind::Beam | MemberKind::TimberTruss => Ink::DarkGrey,
    }
}

/// Names members by their number, each once, as many as there is room for at an even
/// step: every one, every second, every fifth and so on. All names of a framing stand in
/// one row across it, as far as they can.
pub(super) fn name(drawing: &mut Drawing<'_>) {
    for framing in &drawing.input.site.framings {
        let step = step(drawing.mm(framing.spacing.as_metres()));
        let named: Vec<Named> = whole_members(drawing, framing)
            .into_iter()
            .filter(|member| member.number.is_multiple_of(step))
            .collect();
        let Some(row_mm) = best_row(drawing, &named) else {
            continue;
        };
        for member in &named {
            let mut rows: Vec<f64> = member.rows().collect();
            rows.sort_by(|a, b| (a - row_mm).abs().total_cmp(&(b - row_mm).abs()));
            let label = Label {
                tries: vec![(
                    member.wording.clone(),
                    rows.into_iter().map(|row| member.spot(row)).collect(),
                )],
                leader: None,
                layer: Layer::MemberText,
                ink: Ink::DarkGrey,
            };
            drawing.label(&label, "member", &member.id);
        }
    }
}

/// A member, all of its spans, as far as naming it goes.
struct Named {
    id: String,
    number: usize,
    wording: Wording,
    from: PaperPoint,
    direction: DVec2,
    length_mm: f64,
}

/// Distance between the rows in which names may stand, mm.
const ROW_MM: f64 = 4.0;
/// Distance of the first row from the end of a member, mm.
const FIRST_ROW_MM: f64 = 2.0;

impl Named {
    /// Distances from the member's start of the middles of names, mm.
    fn rows(&self) -> impl Iterator<Item = f64> + use<> {
        let first = FIRST_ROW_MM + self.wording.width_mm() / 2.0;
        let last = self.length_mm - first;
        let mut next = first;
        std::iter::from_fn(move || {
            let row = next;
            next += ROW_MM;
            (row <= last).then_some(row)
        })
    }

    fn spot(&self, row_mm: f64) -> Spot {
        Spot {
            at: self.from + self.direction * row_mm,
            turn_degrees: reading_turn(self.direction),
            anchor: Anchor::CENTRE,
        }
    }
}

/// The members of a framing, each from the start of its first span to the end of its last.
fn whole_members(drawing: &Drawing<'_>, framing: &Framing) -> Vec<Named> {
    let lettering = Lettering::condensed(2.5);
    let all = drawing.input.study.structure.members.iter();
    let spans: Vec<_> = all.filter(|span| span.framing == framing.id).collect();
    let by_member = spans.chunk_by(|a, b| a.number == b.number);
    let whole = by_member.filter_map(|spans| {
        let (first, last) = (spans.first()?, spans.last()?);
        // The id of the member without its span: J-20 of J-20/AB.
        let id = first.id.as_str();
        let name = id.split('/').next().unwrap_or(id);
        let ends = [first.start, first.end(), last.start, last.end()].map(|end| drawing.at(end));
        let direction = drawing.direction(first.direction);
        let along = ends.map(|end| (end - ends[0]).dot(direction));
        let (low, high) = along.iter().fold((0.0_f64, 0.0_f64), |(low, high), &at| {
            (low.min(at), high.max(at))
        });
        Some(Named {
            id: id.to_owned(),
            number: first.number,
            wording: Wording::line(name, lettering),
            from: ends[0] + direction * low,
            direction,
            length_mm: high - low,
        })
    });
    whole.collect()
}

/// The row in which most names have room; of several the one nearest the first end.
fn best_row(drawing: &Drawing<'_>, named: &[Named]) -> Option<f64> {
    let longest = named
        .iter()
        .max_by(|a, b| a.length_mm.total_cmp(&b.length_mm))?;
    let mut best: Option<(usize, f64)> = None;
    for row in longest.rows() {
        let has_room = |member: &&Named| drawing.taken.has_room(&member.wording, &member.spot(row));
        let n = named.iter().filter(has_room).count();
        if best.is_none_or(|(most, _)| most < n) {
            best = Some((n, row));
        }
    }
    best.map(|(_, row)| row)
}

/// How many members there are to a name, so that names are at least 6 mm apart.
fn step(spacing_mm: f64) -> usize {
    const APART_MM: f64 = 6.0;
    let mut decade = 1_u32;
    loop {
        for factor in [1, 2, 5] {
            let step = decade.saturating_mul(factor);
            if APART_MM <= spacing_mm * f64::from(step) || u32::MAX / 10 < step {
                return usize::try_from(step).unwrap_or(usize::MAX);
            }
        }
        decade *= 10;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_at_an_even_step() {
        assert_eq!(step(18.3), 1);
        assert_eq!(step(3.66), 2);
        assert_eq!(step(1.83), 5);
        assert_eq!(step(0.001), 10_000);
        assert!(0 < step(0.0));
    }
}
