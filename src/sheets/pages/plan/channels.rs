//! Cross channels across their members, with their names.

use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::Mark;
use crate::sheets::pages::labels::{Label, Spot, Wording};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::Ink;
use crate::sheets::text::Anchor;
use crate::study::channel_list;

use super::{Drawing, symbols};

const LETTERS: Lettering = Lettering::condensed(2.5);

/// A channel as it was drawn.
pub(super) struct DrawnChannel {
    name: String,
    ends: [PaperPoint; 2],
}

/// Draws every piece of channel.
pub(super) fn draw(drawing: &mut Drawing<'_>) -> Vec<DrawnChannel> {
    let pieces = channel_list(drawing.input.study);
    pieces
        .into_iter()
        .map(|piece| {
            let ends = piece.ends.map(|end| drawing.at(end));
            for line in symbols::channel(ends[0], ends[1]) {
                drawing.draw(
                    Mark::new(Layer::HeatHanger, line)
                        .key()
                        .of("channel", &piece.name),
                );
            }
            DrawnChannel {
                name: piece.name,
                ends,
            }
        })
        .collect()
}

/// Names them, beyond one of their ends or beside them.
pub(super) fn name(drawing: &mut Drawing<'_>, channels: &[DrawnChannel]) {
    for channel in channels {
        let label = label(channel);
        if !drawing.label(&label, "channel-name", &channel.name) {
            drawing.left_out = true;
        }
    }
}

fn label(channel: &DrawnChannel) -> Label {
    let [from, to] = channel.ends;
    let along = (to - from).normalize_or_zero();
    let wording = Wording::line(&channel.name, LETTERS);
    let half = DVec2::new(LETTERS.width_mm(&channel.name), LETTERS.height_mm) / 2.0;
    let away = |direction: DVec2| {
        direction * (1.4 + half.x * direction.x.abs() + half.y * direction.y.abs())
    };
    let mut places = vec![to + away(along), from - away(along)];
    for across in [along.perp(), -along.perp()] {
        for part in [0.85, 0.15, 0.7, 0.3] {
            places.push(from.lerp(to, part) + away(across));
        }
    }
    let spots = places
        .into_iter()
        .map(|at| Spot {
            at,
            turn_degrees: 0.0,
            anchor: Anchor::CENTRE,
        })
        .collect();
    Label {
        tries: vec![(wording.clone(), spots)],
        leader: Some((to, vec![wording])),
        layer: Layer::HeatText,
        ink: Ink::Black,
    }
}
