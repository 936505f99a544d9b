//! What is cut and what is seen: building, obstructions, heaters, suspensions.

use super::Drawing;
use crate::clearance::Part;
use crate::geometry::DVec2;
use crate::sheets::hatch::Hatch;
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Circle, Finish, Mark};
use crate::sheets::pages::labels::{Label, Spot, Wording};
use crate::sheets::pages::plan::style;
use crate::sheets::pen::{Ink, LineKind, Pen, PenWidth};
use crate::sheets::text::{Across, Along, Anchor};
use crate::study::Thing;
use crate::views::Section;
use crate::views::section::{Cut, words};

impl Drawing<'_> {
    /// What is seen behind the plane, lightly; what is nearer hides what is farther.
    pub(super) fn seen(&mut self, section: &Section) {
        for it in &section.seen {
            for area in &it.areas {
                let paper = Area::new(self.ring(area));
                self.draw(Mark::new(layer(&it.thing), paper).ink(Ink::Paper));
            }
            for ends in it.outline.iter().chain(&it.lines) {
                let line = self.line(Pen::HAIR, *ends);
                self.draw(Mark::new(layer(&it.thing), line).ink(Ink::Grey));
            }
        }
    }

    /// Keep-clear envelopes: hatched lightly, outlined in dashes.
    pub(super) fn envelopes(&mut self, section: &Section) {
        let pen = Pen::of(PenWidth::W018, LineKind::Dashed);
        for it in &section.envelopes {
            for area in &it.areas {
                let hatch = Hatch::new(self.ring(area), 45.0, 3.2, Pen::HAIR);
                let mark = Mark::new(Layer::HeatClearance, hatch).ink(Ink::Ember);
                self.draw(mark.of("envelope", it.run.as_str()));
            }
            for ends in &it.outline {
                let line = self.line(pen, *ends);
                let mark = Mark::new(Layer::HeatClearance, line).ink(Ink::Ember);
                self.taken.avoid(&mark.shape);
                self.draw(mark.of("envelope", it.run.as_str()));
            }
        }
    }

    /// What is cut, in heavy lines.
    pub(super) fn cut(&mut self, section: &Section) {
        for it in &section.cut {
            for area in &it.areas {
                let ring = self.ring(area);
                let paper = Area::new(ring.clone());
                match (it.kind, &it.thing) {
                    (Some(kind), _) => {
                        self.draw(Mark::new(Layer::Obstruction, paper).ink(Ink::Paper));
                        for mark in style::fills(kind, &ring, &[]) {
                            self.draw(mark);
                        }
                    }
                    (None, Thing::Member(_)) => {
                        self.draw(Mark::new(Layer::Member, paper).ink(Ink::Grey));
                    }
                    (None, _) => self.draw(Mark::new(Layer::Wall, paper).ink(Ink::LightGrey)),
                }
            }
            let pen = outline_pen(it);
            for ends in &it.outline {
                let mark = Mark::new(layer(&it.thing), self.line(pen, *ends)).ink(Ink::Black);
                self.taken.avoid(&mark.shape);
                self.draw(mark);
            }
        }
    }

    /// The heaters that are cut.
    pub(super) fn runs(&mut self, section: &Section) {
        for run in &section.runs {
            let id = run.run.as_str();
            for (part, area) in &run.areas {
                let ink = if *part == Part::Tube || *part == Part::Burner {
                    Ink::Ember
                } else {
                    Ink::LightGrey
                };
                let ring = self.ring(area);
                let fill = Mark::new(Layer::HeatTube, Area::new(ring.clone())).ink(ink);
                self.draw(fill.of("run", id).key());
                let outline = crate::sheets::mark::Polyline::closed(Pen::THIN, ring);
                self.draw(Mark::new(Layer::HeatTube, outline).of("run", id));
            }
            for ends in &run.reflector {
                let line = self.line(Pen::MEDIUM, *ends);
                self.draw(Mark::new(Layer::HeatTube, line).of("run", id).key());
            }
        }
    }

    /// Suspensions.
    pub(super) fn suspensions(&mut self, section: &Section) {
        for hanger in &section.hangers {
            let id = format!("{}.{}", hanger.run, hanger.number);
            let line = self.line(Pen::MEDIUM, (hanger.attach, hanger.eye));
            self.draw(Mark::new(Layer::HeatHanger, line).of("hanger", &id).key());
            for (at, radius_mm) in [(hanger.attach, 0.9), (hanger.eye, 0.5)] {
                let circle = Circle {
                    centre: self.at(at),
                    radius_mm,
                    finish: Finish::Filled,
                };
                self.draw(Mark::new(Layer::HeatHanger, circle).of("hanger", &id).key());
            }
        }
    }

    /// The lengths of suspensions.
    pub(super) fn hangers(&mut self, section: &Section) {
        for hanger in &section.hangers {
            let id = format!("{}.{}", hanger.run, hanger.number);
            let middle = self.at((hanger.attach + hanger.eye) / 2.0);
            let length = words::length(self.figures.units(), hanger.length_m);
            let spot = |x: f64, along| Spot {
                at: middle + DVec2::X * x,
                turn_degrees: 0.0,
                anchor: Anchor {
                    along,
                    across: Across::Middle,
                },
            };
            let spots = vec![spot(1.4, Along::Start), spot(-1.4, Along::End)];
            let letters = Lettering::condensed(2.5);
            self.label(&Label {
                tries: vec![
                    (
                        Wording::line(format!("{id}: {length}"), letters),
                        spots.clone(),
                    ),
                    (Wording::line(length, letters), spots),
                ],
                leader: None,
                layer: Layer::HeatText,
                ink: Ink::Black,
            });
        }
    }

    /// Names of what is cut and has one.
    pub(super) fn names(&mut self, section: &Section) {
        for it in &section.cut {
            if it.kind.is_none() {
                continue;
            }
            let name = words::thing(self.input.site, &it.thing);
            let Some((low, high)) = crate::geometry::polygon::bounds(&it.areas.concat()) else {
                continue;
            };
            let top = self.figures.place_with_unit(high.y);
            let (a, b) = (self.at(low), self.at(high));
            let middle = (a + b) / 2.0;
            let spot = |at: DVec2, turn_degrees: f64, across| Spot {
                at,
                turn_degrees,
                anchor: Anchor {
                    along: Along::Middle,
                    across,
                },
            };
            let letters = Lettering::condensed(2.5);
            let full = Wording {
                lines: vec![name.clone(), format!("top {top}")],
                lettering: letters,
            };
            let (wide_mm, high_mm) = (b.x - a.x, a.y - b.y);
            let mut inside = Vec::new();
            if full.width_mm() < wide_mm && full.height_mm() < high_mm {
                inside.push(spot(middle, 0.0, Across::Middle));
                let under_top = DVec2::new(middle.x, b.y + 1.4);
                inside.push(spot(under_top, 0.0, Across::Top));
            } else if full.width_mm() < high_mm && full.height_mm() < wide_mm {
                inside.push(spot(middle, 90.0, Across::Middle));
            }
            let tip = DVec2::new(b.x, middle.y);
            self.label(&Label {
                tries: vec![(full.clone(), inside)],
                leader: Some((tip, vec![full])),
                layer: Layer::Text,
                ink: Ink::Black,
            });
        }
    }
}

fn outline_pen(it: &Cut) -> Pen {
    match (it.kind, &it.thing) {
        (Some(kind), _) => Pen::of(PenWidth::W035, style::line(kind)),
        (None, Thing::Member(_)) => Pen::MEDIUM,
        (None, _) => Pen::BOLD,
    }
}

fn layer(thing: &Thing) -> Layer {
    match thing {
        Thing::Member(_) => Layer::Member,
        Thing::Wall(..) | Thing::Deck(_) => Layer::Wall,
        Thing::Run(_) => Layer::HeatTube,
        _ => Layer::Obstruction,
    }
}
