//! The measures of a section: where the runs hang, how high, and with how much room.

use super::Drawing;
use crate::findings::Severity;
use crate::geometry::DVec2;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Mark, Polyline};
use crate::sheets::pages::labels::{Label, Spot, Wording};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::{Ink, LineKind, Pen, PenWidth};
use crate::sheets::text::{Across, Along, Anchor, Text};
use crate::views::Section;
use crate::views::section::{Height, RoomSeen, words};

/// Length of an arrow head, mm.
const ARROW_MM: f64 = 2.2;

impl Drawing<'_> {
    /// Below the floor: from grid line to run to grid line.
    pub(super) fn chain(&mut self, section: &Section) {
        let mut stops: Vec<f64> = section.grid.iter().map(|(u, _)| *u).collect();
        stops.extend(section.runs.iter().map(|run| run.at.x));
        stops.retain(|u| 0.0 <= *u && *u <= section.width_m);
        stops.sort_by(f64::total_cmp);
        // A run under a grid line has no distance from it.
        stops.dedup_by(|a, b| (*a - *b).abs() < 0.005);
        let y = self.at(DVec2::ZERO).y + 8.0;
        let points: Vec<PaperPoint> = stops
            .iter()
            .map(|u| PaperPoint::new(self.at(DVec2::new(*u, 0.0)).x, y))
            .collect();
        for point in &points {
            let tick = [
                *point + DVec2::new(-1.0, 1.0),
                *point + DVec2::new(1.0, -1.0),
            ];
            self.draw(Mark::new(Layer::Dimension, Polyline::open(Pen::MEDIUM, tick)).key());
        }
        let letters = Lettering::condensed(2.5);
        for (pair, stop) in points.windows(2).zip(stops.windows(2)) {
            let line = Polyline::open(Pen::FINE, [pair[0], pair[1]]);
            self.draw(Mark::new(Layer::Dimension, line).key());
            let figure = self.figures.place(stop[1] - stop[0]);
            if letters.width_mm(&figure) + 2.0 <= pair[1].x - pair[0].x {
                let at = pair[0].midpoint(pair[1]) - DVec2::Y * 1.1;
                let text = Text::anchored(&figure, letters, at, 0.0, Anchor::MIDDLE);
                let mark = Mark::new(Layer::Dimension, text);
                self.taken.take(&mark.shape);
                self.draw(mark);
            }
        }
        for run in &section.runs {
            let x = self.at(run.at).x;
            let pen = Pen::of(PenWidth::W013, LineKind::LongDashDot);
            let top = self.at(DVec2::ZERO).y;
            let ends = [PaperPoint::new(x, top), PaperPoint::new(x, y + 1.5)];
            self.draw(Mark::new(Layer::Dimension, Polyline::open(pen, ends)));
        }
    }

    /// From the floor to each run's lowest part; what may be stacked below it.
    pub(super) fn heights(&mut self, section: &Section) {
        for height in &section.heights {
            self.stacking(height);
            self.height(section, height);
        }
    }

    /// The lines of all measures, and the marks of breaches.
    pub(super) fn measure_lines(&mut self, section: &Section) {
        for height in &section.heights {
            if let Some(ends) = stacking_line(height) {
                let pen = Pen::of(PenWidth::W035, LineKind::Dashed);
                let line = self.line(pen, ends);
                self.draw(Mark::new(Layer::HeatClearance, line).key());
            }
            let [foot, head] = self.height_line(section, height);
            let level = self.at(DVec2::new(height.axis.x, height.lowest_m));
            let across = Polyline::open(Pen::HAIR, [level, head - DVec2::X * 1.5]);
            self.draw(Mark::new(Layer::Dimension, across));
            self.dimension(foot, head, Ink::Black);
        }
        for room in section.rooms.iter().filter(|it| it.room.is_tight()) {
            self.room_line(room);
        }
        for (index, place) in &section.findings {
            if self.is_breach(*index) {
                let at = self.at(*place);
                let ring = [
                    at + DVec2::new(0.0, -1.9),
                    at + DVec2::new(1.8, 1.3),
                    at + DVec2::new(-1.8, 1.3),
                ];
                let mark = Mark::new(Layer::Finding, Area::new(ring)).ink(Ink::Alarm);
                self.draw(mark.of("finding", &(index + 1).to_string()).key());
            }
        }
    }

    /// From the heater's part to as far as the thing is, and aside to its nearest point.
    fn room_line(&mut self, seen: &RoomSeen) {
        let (to, contact) = (self.at(seen.to), self.at(seen.contact));
        self.dimension(self.at(seen.from), to, ink_of(seen));
        if 0.6 < to.distance(contact) {
            let aside = Polyline::open(Pen::HAIR, [to, contact]);
            let mark = Mark::new(Layer::Dimension, aside).ink(ink_of(seen));
            self.draw(mark.key());
        }
    }

    fn is_breach(&self, index: usize) -> bool {
        let finding = self.input.findings.get(index);
        finding.is_some_and(|it| it.severity == Severity::Breach)
    }

    /// From the floor to the level of the lowest part, at the edge of the envelope, so
    /// that nothing of the run lies on it.
    fn height_line(&self, section: &Section, height: &Height) -> [PaperPoint; 2] {
        let u = height.stacking_from_to.0.clamp(0.0, section.width_m);
        [
            self.at(DVec2::new(u, 0.0)),
            self.at(DVec2::new(u, height.lowest_m)),
        ]
    }

    fn height(&mut self, section: &Section, height: &Height) {
        let [foot, head] = self.height_line(section, height);
        let units = self.figures.units();
        let middle = foot.midpoint(head);
        let spot = |at: f64, x: f64, across| Spot {
            at: PaperPoint::new(middle.x + x, middle.y + at),
            turn_degrees: 90.0,
            anchor: Anchor {
                along: Along::Middle,
                across,
            },
        };
        let letters = Lettering::regular(2.5);
        // Beside its line, never beyond its ends.
        let half_mm = foot.distance(head) / 2.0;
        let shifts = [0.0, 0.3, -0.3, 0.6, -0.6].map(|part| part * half_mm);
        let spots: Vec<Spot> = shifts
            .into_iter()
            .flat_map(|by| [spot(by, -1.1, Across::Baseline), spot(by, 1.1, Across::Top)])
            .collect();
        self.label(&Label {
            tries: vec![
                (
                    Wording::line(words::lowest(units, height), letters),
                    spots.clone(),
                ),
                (
                    Wording::line(self.figures.place(height.lowest_m), letters),
                    spots,
                ),
            ],
            leader: None,
            layer: Layer::Dimension,
            ink: Ink::Black,
        });
        let name = Wording::line(words::height(units, height), Lettering::bold(2.5));
        let at = self.at(height.axis);
        let beside = |by: DVec2, along| Spot {
            at: at + by,
            turn_degrees: 0.0,
            anchor: Anchor {
                along,
                across: Across::Middle,
            },
        };
        let spots = vec![
            beside(DVec2::new(7.0, 3.5), Along::Start),
            beside(DVec2::new(-7.0, 3.5), Along::End),
            beside(DVec2::new(7.0, -5.0), Along::Start),
            beside(DVec2::new(-7.0, -5.0), Along::End),
        ];
        self.label(&Label {
            tries: vec![(name.clone(), spots)],
            leader: Some((at, vec![name])),
            layer: Layer::HeatText,
            ink: Ink::Black,
        });
    }

    fn stacking(&mut self, height: &Height) {
        let Some(ends) = stacking_line(height) else {
            return;
        };
        let (a, b) = (self.at(ends.0), self.at(ends.1));
        let middle = a.midpoint(b);
        let spot = |at: PaperPoint, along, across| Spot {
            at,
            turn_degrees: 0.0,
            anchor: Anchor { along, across },
        };
        let spots = vec![
            spot(middle + DVec2::Y * 1.2, Along::Middle, Across::Top),
            spot(middle - DVec2::Y * 1.2, Along::Middle, Across::Baseline),
            spot(b + DVec2::X * 1.5, Along::Start, Across::Middle),
            spot(a - DVec2::X * 1.5, Along::End, Across::Middle),
        ];
        let said = words::stacking(self.figures.units(), height);
        let wording = Wording::line(said, Lettering::condensed(2.5));
        self.label(&Label {
            tries: vec![(wording.clone(), spots)],
            leader: Some((b, vec![wording])),
            layer: Layer::HeatText,
            ink: Ink::Black,
        });
    }

    /// The room where there is little of it, breaches with their word.
    pub(super) fn rooms(&mut self, section: &Section) {
        // Breaches first: they get the best places.
        let tight = section.rooms.iter().filter(|it| it.room.is_tight());
        let mut rooms: Vec<&RoomSeen> = tight.collect();
        rooms.sort_by_key(|it| !it.room.is_breach());
        for room in rooms {
            self.room(room);
        }
    }

    /// The room where there is plenty, as a bare figure: wherever neither its line nor the
    /// figure is in the way of what must be said.
    pub(super) fn wide_rooms(&mut self, section: &Section) {
        let letters = Lettering::condensed(2.5);
        for seen in section.rooms.iter().filter(|it| !it.room.is_tight()) {
            let ends = [seen.from, seen.to, seen.contact].map(|end| self.at(end));
            let [a, b, contact] = ends;
            // One with its arrows outside would take the place of what must be said.
            let is_long = 2.5 * ARROW_MM <= a.distance(b);
            let passes = |from, to| self.taken.passes_texts(from, to, ARROW_MM * 0.18);
            if !is_long || !passes(a, b) || !passes(b, contact) {
                continue;
            }
            let said = words::available(self.figures.units(), &seen.room);
            let placed = self.label(&Label {
                tries: vec![(Wording::line(said, letters), beside(a, b))],
                leader: None,
                layer: Layer::Dimension,
                ink: Ink::Black,
            });
            if placed {
                self.room_line(seen);
            }
        }
    }

    fn room(&mut self, room: &RoomSeen) {
        let ink = ink_of(room);
        let (a, b) = (self.at(room.from), self.at(room.to));
        let said = words::room_to(self.input.site, &room.room);
        let letters = if room.room.is_breach() {
            Lettering::bold(2.5)
        } else {
            Lettering::condensed(2.5)
        };
        let (middle, spots) = (a.midpoint(b), beside(a, b));
        let units = self.figures.units();
        let line = |said: String| Wording::line(said, letters);
        let (long, short) = (line(said), line(words::room(units, &room.room)));
        self.label(&Label {
            tries: vec![(long.clone(), spots.clone()), (short.clone(), spots)],
            leader: Some((middle, vec![long, short])),
            layer: Layer::Dimension,
            ink,
        });
    }

    /// A dimension line with an arrow at each end; from outside where it is too short.
    fn dimension(&mut self, a: PaperPoint, b: PaperPoint, ink: Ink) {
        let length = a.distance(b);
        if length < 0.05 {
            return;
        }
        let along = (b - a) / length;
        let is_short = length < 2.5 * ARROW_MM;
        let out = if is_short { 2.0 * ARROW_MM } else { 0.0 };
        let ends = [a - along * out, b + along * out];
        let line = Polyline::open(Pen::FINE, ends);
        self.draw(Mark::new(Layer::Dimension, line).ink(ink).key());
        let inward = if is_short { -1.0 } else { 1.0 };
        for (tip, way) in [(a, along * inward), (b, along * -inward)] {
            let back = tip + way * ARROW_MM;
            let half = way.perp() * (ARROW_MM * 0.18);
            let head = Area::new([tip, back + half, back - half]);
            self.draw(Mark::new(Layer::Dimension, head).ink(ink).key());
        }
    }

    /// The numbers of breaches in the list of findings.
    pub(super) fn findings(&mut self, section: &Section) {
        for (index, place) in &section.findings {
            if !self.is_breach(*index) {
                continue;
            }
            let at = self.at(*place);
            let said = Wording::line(format!("finding {}", index + 1), Lettering::bold(2.5));
            let spot = |by: DVec2, along| Spot {
                at: at + by,
                turn_degrees: 0.0,
                anchor: Anchor {
                    along,
                    across: Across::Middle,
                },
            };
            self.label(&Label {
                tries: vec![(
                    said.clone(),
                    vec![
                        spot(DVec2::new(3.0, 0.0), Along::Start),
                        spot(DVec2::new(-3.0, 0.0), Along::End),
                        spot(DVec2::new(0.0, -4.0), Along::Middle),
                        spot(DVec2::new(0.0, 4.0), Along::Middle),
                    ],
                )],
                leader: Some((at, vec![said])),
                layer: Layer::Finding,
                ink: Ink::Alarm,
            });
        }
    }
}

/// How high goods may be stacked, as a line; none where nothing may be.
fn stacking_line(height: &Height) -> Option<(DVec2, DVec2)> {
    let z = height.stacking.as_metres();
    let (from, to) = height.stacking_from_to;
    (0.0 < z).then(|| (DVec2::new(from, z), DVec2::new(to, z)))
}

/// Beside the middle of a dimension line, then beside its other parts.
fn beside(a: PaperPoint, b: PaperPoint) -> Vec<Spot> {
    let middle = a.midpoint(b);
    let is_level = (a.y - b.y).abs() < (a.x - b.x).abs();
    let spot = |by: DVec2, along, across| Spot {
        at: middle + by,
        turn_degrees: 0.0,
        anchor: Anchor { along, across },
    };
    let parts = [0.0, 0.25, -0.25, 0.45, -0.45].map(|part| (b - a) * part);
    parts
        .into_iter()
        .flat_map(|by| {
            if is_level {
                [
                    spot(by - DVec2::Y * 1.1, Along::Middle, Across::Baseline),
                    spot(by + DVec2::Y * 1.1, Along::Middle, Across::Top),
                ]
            } else {
                [
                    spot(by + DVec2::X * 1.4, Along::Start, Across::Middle),
                    spot(by - DVec2::X * 1.4, Along::End, Across::Middle),
                ]
            }
        })
        .collect()
}

fn ink_of(room: &RoomSeen) -> Ink {
    if room.room.is_breach() {
        Ink::Alarm
    } else {
        Ink::Black
    }
}
