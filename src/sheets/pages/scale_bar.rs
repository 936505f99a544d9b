//! Scale bar and north arrow.

use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::paper::{PaperPoint, PaperRect, directions};
use crate::sheets::pen::Pen;
use crate::sheets::scale::Scale;
use crate::sheets::text::{Anchor, Text};
use crate::units::{Length, UnitSystem};

use super::block::Block;
use super::figures::Figures;

/// Width of the block, mm.
pub(super) const WIDTH_MM: f64 = 82.0;
/// Height of the block, mm.
pub(super) const HEIGHT_MM: f64 = 13.0;
/// The bar is at most this long, mm.
const MOST_BAR_MM: f64 = 56.0;
/// Parts of the bar.
const N_PARTS: u8 = 4;

/// A scale bar of four parts, each a round length, with the scale in words, and the
/// direction of plan north.
pub(super) fn draw(scale: Scale, label: &str, turn_degrees: f64, figures: Figures) -> Block {
    let mut block = bar(scale, label, figures);
    let arrow = north(PaperPoint::new(WIDTH_MM - 6.0, 8.0), turn_degrees);
    block.marks.extend(arrow);
    block
}

/// The same without plan north, which a section does not have.
pub(super) fn bar(scale: Scale, label: &str, figures: Figures) -> Block {
    let mut block = Block::empty(WIDTH_MM, HEIGHT_MM);
    let part_m = part_length(scale, figures.units());
    let part_mm = scale.paper_mm(part_m);
    let (left, top) = (3.0, 4.4);
    let lettering = Lettering::condensed(2.5);
    for index in 0..=N_PARTS {
        let x = left + f64::from(index) * part_mm;
        let figure = match figures.units() {
            UnitSystem::Metric => plain(f64::from(index) * part_m),
            UnitSystem::FeetInches => plain(Length::metres(f64::from(index) * part_m).as_feet()),
        };
        let at = PaperPoint::new(x, top - 1.4);
        let text = Text::anchored(&figure, lettering, at, 0.0, Anchor::MIDDLE);
        block.marks.push(Mark::new(Layer::Text, text));
        if index < N_PARTS {
            let place = PaperRect::at(PaperPoint::new(x, top), part_mm, 1.6);
            if index % 2 == 0 {
                block
                    .marks
                    .push(Mark::new(Layer::Text, Area::new(place.corners())));
            }
            block
                .marks
                .push(Mark::new(Layer::Text, Polyline::around(Pen::FINE, place)));
        }
    }
    let unit = match figures.units() {
        UnitSystem::Metric => "m",
        UnitSystem::FeetInches => "ft",
    };
    let unit_at = PaperPoint::new(left + f64::from(N_PARTS) * part_mm + 3.4, top + 2.0);
    block
        .marks
        .push(Mark::new(Layer::Text, Text::new(unit, lettering, unit_at)));
    let words = format!("scale {label}");
    let words_at = PaperPoint::new(left, top + 6.4);
    block.marks.push(Mark::new(
        Layer::Text,
        Text::new(&words, Lettering::regular(2.5), words_at),
    ));
    block
}

/// The length of one part: a 1, 2, 4, 5 or 8 times a power of ten of metres or feet,
/// the longest with which the bar is short enough.
fn part_length(scale: Scale, units: UnitSystem) -> f64 {
    let unit_m = match units {
        UnitSystem::Metric => 1.0,
        UnitSystem::FeetInches => Length::feet(1.0).as_metres(),
    };
    let most_m = scale.site_m(MOST_BAR_MM) / f64::from(N_PARTS);
    let mut best = unit_m / 1000.0;
    let mut decade = unit_m / 1000.0;
    while decade <= most_m {
        for step in [1.0, 2.0, 4.0, 5.0, 8.0] {
            if decade * step <= most_m {
                best = decade * step;
            }
        }
        decade *= 10.0;
    }
    best
}

/// A figure without needless digits.
fn plain(value: f64) -> String {
    let rounded = (value * 1000.0).round() / 1000.0;
    format!("{rounded}")
}

/// An arrow to plan north round a point.
fn north(middle: PaperPoint, turn_degrees: f64) -> Vec<Mark> {
    let (right, up) = directions(turn_degrees);
    let point = |x: f64, y: f64| middle + right * x + up * y;
    let west_half = [point(0.0, 4.2), point(0.0, -2.4), point(-2.0, -4.2)];
    let east_half = [point(0.0, 4.2), point(2.0, -4.2), point(0.0, -2.4)];
    let name = Text::anchored(
        "N",
        Lettering::bold(3.0),
        point(0.0, 6.3),
        0.0,
        Anchor::CENTRE,
    );
    vec![
        Mark::new(Layer::Text, Area::new(west_half)),
        Mark::new(Layer::Text, Polyline::closed(Pen::FINE, east_half)),
        Mark::new(Layer::Text, name),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::DVec2;

    #[test]
    fn bars_are_round_long_enough_and_to_scale() {
        for units in UnitSystem::ALL {
            for denominator in [10.0, 48.0, 100.0, 192.0, 500.0, 10_000.0] {
                let scale = Scale { denominator };
                let bar_mm = 4.0 * scale.paper_mm(part_length(scale, units));
                assert!(
                    (MOST_BAR_MM / 2.0..=MOST_BAR_MM).contains(&bar_mm),
                    "{bar_mm} at {denominator}"
                );
            }
        }
        let part = part_length(Scale { denominator: 200.0 }, UnitSystem::Metric);
        assert!((part - 2.0).abs() < 1e-12);
        assert_eq!(plain(0.30000000000000004), "0.3");
    }

    #[test]
    fn north_turns_with_the_plan() {
        let tip = |degrees| {
            let marks = north(PaperPoint::new(50.0, 50.0), degrees);
            marks[2].texts()[0]
                .ink_box()
                .map(|ink| (ink.centre - DVec2::splat(50.0)).normalize())
        };
        assert!(tip(0.0).is_some_and(|up| up.distance(-DVec2::Y) < 0.05));
        assert!(tip(45.0).is_some_and(|up| up.distance(DVec2::new(-0.707, -0.707)) < 0.05));
    }
}
