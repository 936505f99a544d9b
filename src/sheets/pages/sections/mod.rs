//! Sections: the site cut along each drawn line, to scale, with its measures.

mod measures;
mod things;

use crate::geometry::{DVec2, math};
use crate::sheets::layer::Layer;
use crate::sheets::lettering::Lettering;
use crate::sheets::mark::{Area, Circle, Finish, Mark, Polyline, Sheet, Standing, ViewportId};
use crate::sheets::paper::{PaperPoint, PaperRect, View, Viewport};
use crate::sheets::pen::{LineKind, Pen, PenWidth};
use crate::sheets::scale::Scale;
use crate::sheets::text::{Anchor, Text};
use crate::site::SectionLine;
use crate::views::{Section, section as cut};

use super::figures::Figures;
use super::fit::{series, sheet_size};
use super::labels::{Label, Taken};
use super::{Draft, PageInput, foot, scale_bar, wording};

/// Room round what is drawn, mm: at the left for levels, above for the bubbles of grid
/// lines, below for the chain of dimensions and the name of the section.
const LEFT_MM: f64 = 24.0;
const RIGHT_MM: f64 = 8.0;
const TOP_MM: f64 = 20.0;
const BOTTOM_MM: f64 = 44.0;
/// Radius of a grid line's bubble, mm.
const BUBBLE_MM: f64 = 4.0;

/// A sheet for each section line of the site.
pub(super) fn sections(input: &PageInput<'_>) -> Vec<Draft> {
    let lines = input.site.sections.iter();
    lines.map(|line| section(input, line)).collect()
}

/// The sheet of one section.
pub(super) fn section(input: &PageInput<'_>, line: &SectionLine) -> Draft {
    let site = input.site;
    let section = cut(site, input.study, input.findings, line);
    let mut sheet = Sheet::new(
        &format!("section-{}", file_name(line)),
        &format!("Section {}", line.label()),
        sheet_size(site.sheets.paper),
    );
    let room = foot::draw(&mut sheet, input);
    let wide_mm = room.width_mm() - LEFT_MM - RIGHT_MM;
    let high_mm = room.height_mm() - TOP_MM - BOTTOM_MM;
    let scale = series(site.units).fitting(section.width_m, section.top_m, wide_mm, high_mm);
    let drawn = DVec2::new(section.width_m, section.top_m) * scale.mm_per_metre();
    let middle = PaperPoint::new(
        room.left + LEFT_MM + (wide_mm - drawn.x) / 2.0 + drawn.x / 2.0,
        room.top + TOP_MM + drawn.y / 2.0 + (high_mm - drawn.y).max(0.0) * 0.35,
    );
    let mut viewport = Viewport::centred(
        &format!("section {}", line.label()),
        View::Detached,
        room,
        scale,
        DVec2::new(section.width_m, section.top_m) / 2.0,
    );
    viewport.paper_anchor = middle;
    let through = sheet.add_viewport(viewport.clone());
    let mut drawing = Drawing {
        input,
        figures: Figures::of(site),
        taken: Taken::none(sheet.size, room.inset(0.5)),
        sheet,
        viewport,
        through,
    };
    drawing.everything(&section, scale);
    Draft {
        sheet: drawing.sheet,
        supplement: format!("{}, {}", looking(line), wording::scheme(site)),
        scale: series(site.units).label(scale),
    }
}

/// The line's letter as part of a file's name: letters and digits alone.
fn file_name(line: &SectionLine) -> String {
    let kept = line
        .id
        .as_str()
        .chars()
        .filter(|c| c.is_ascii_alphanumeric());
    kept.collect::<String>().to_lowercase()
}

/// Which way one looks: `looking N`.
fn looking(line: &SectionLine) -> String {
    format!("looking {}", wording::compass(line.looking()))
}

/// A section's sheet while it is drawn.
struct Drawing<'a> {
    input: &'a PageInput<'a>,
    figures: Figures,
    sheet: Sheet,
    viewport: Viewport,
    through: ViewportId,
    taken: Taken,
}

impl Drawing<'_> {
    fn everything(&mut self, section: &Section, scale: Scale) {
        self.seen(section);
        self.envelopes(section);
        self.cut(section);
        self.floor(section);
        self.grid(section);
        self.runs(section);
        self.suspensions(section);
        self.chain(section);
        // All lines first: what is written keeps off them.
        self.measure_lines(section);
        self.rooms(section);
        self.findings(section);
        self.heights(section);
        self.hangers(section);
        self.names(section);
        self.wide_rooms(section);
        self.title(section, scale);
    }

    /// Where a point of the section lies.
    fn at(&self, p: DVec2) -> PaperPoint {
        self.viewport.paper_from_site(p)
    }

    fn ring(&self, ring: &[DVec2]) -> Vec<PaperPoint> {
        ring.iter().map(|p| self.at(*p)).collect()
    }

    fn line(&self, pen: Pen, (a, b): (DVec2, DVec2)) -> Polyline {
        Polyline::open(pen, [self.at(a), self.at(b)])
    }

    /// Draws a mark of the section.
    fn draw(&mut self, mark: Mark) {
        if mark.standing == Standing::Key {
            self.taken.take(&mark.shape);
        }
        self.sheet.draw(mark.through(self.through));
    }

    /// Draws a label if it finds room; whether it did.
    fn label(&mut self, label: &Label) -> bool {
        let Some(marks) = self.taken.place(label) else {
            return false;
        };
        for mark in marks {
            self.sheet.draw(mark.through(self.through));
        }
        true
    }

    /// The floor, with the ground below it hatched.
    fn floor(&mut self, section: &Section) {
        let (a, b) = (
            self.at(DVec2::ZERO),
            self.at(DVec2::new(section.width_m, 0.0)),
        );
        let strip = PaperRect {
            left: a.x,
            top: a.y,
            right: b.x,
            bottom: a.y + 2.0,
        };
        let hatch = crate::sheets::hatch::Hatch::new(strip.corners(), 45.0, 1.6, Pen::HAIR);
        self.draw(Mark::new(Layer::Hatch, hatch));
        self.draw(Mark::new(Layer::Wall, Polyline::open(Pen::HEAVY, [a, b])).key());
        let level = self.figures.elevation(0.0);
        self.level(a - DVec2::X * 3.0, &format!("{level} floor"));
    }

    /// A level mark with its figure at the left of a point.
    fn level(&mut self, at: PaperPoint, said: &str) {
        let head = [at, at + DVec2::new(-1.3, -2.2), at + DVec2::new(1.3, -2.2)];
        self.draw(Mark::new(Layer::Dimension, Area::new(head)).key());
        let line = Polyline::open(Pen::FINE, [at - DVec2::X * 4.0, at + DVec2::X * 3.0]);
        self.draw(Mark::new(Layer::Dimension, line));
        let text = Text::anchored(
            said,
            Lettering::condensed(2.5),
            at + DVec2::new(-2.4, -0.9),
            0.0,
            Anchor::END,
        );
        let mark = Mark::new(Layer::Dimension, text);
        self.taken.take(&mark.shape);
        self.draw(mark);
    }

    /// Grid lines that cross the section, with bubbles above.
    fn grid(&mut self, section: &Section) {
        let top = self.at(DVec2::new(0.0, section.top_m)).y - 7.0;
        let bottom = self.at(DVec2::ZERO).y + 12.0;
        let pen = Pen::of(PenWidth::W018, LineKind::LongDashDot);
        let mut last_mm = f64::NEG_INFINITY;
        for (u, id) in &section.grid {
            let x = self.at(DVec2::new(*u, 0.0)).x;
            let ends = [PaperPoint::new(x, top), PaperPoint::new(x, bottom)];
            let line = Mark::new(Layer::Grid, Polyline::open(pen, ends));
            self.taken.avoid(&line.shape);
            self.draw(line);
            // Bubbles of lines that lie closer than one is wide would lie on each other.
            if x - last_mm < 2.0 * BUBBLE_MM {
                continue;
            }
            last_mm = x;
            let centre = PaperPoint::new(x, top - BUBBLE_MM);
            let circle = Circle {
                centre,
                radius_mm: BUBBLE_MM,
                finish: Finish::Drawn(Pen::THIN),
            };
            self.draw(Mark::new(Layer::Grid, circle).key());
            let text = Text::anchored(
                id.as_str(),
                Lettering::regular(3.0),
                centre,
                0.0,
                Anchor::CENTRE,
            );
            self.draw(Mark::new(Layer::Grid, text));
        }
    }

    /// The name of the section, which way it looks, its scale bar.
    fn title(&mut self, section: &Section, scale: Scale) {
        let site = self.input.site;
        let label = series(site.units).label(scale);
        let bar = scale_bar::bar(scale, &label, self.figures);
        let room = self.viewport.window;
        let corner = PaperPoint::new(
            room.right - scale_bar::WIDTH_MM,
            room.bottom - scale_bar::HEIGHT_MM,
        );
        let below = self.at(DVec2::ZERO) + DVec2::Y * 29.0;
        let corner = PaperPoint::new(below.x - 3.0, below.y.min(corner.y));
        let marks: Vec<Mark> = bar.at(corner).collect();
        for mark in marks {
            self.sheet.draw(mark);
        }
        let below = self.at(DVec2::ZERO) + DVec2::Y * 24.0;
        let at = PaperPoint::new(
            below.x,
            below.y.min(room.bottom - scale_bar::HEIGHT_MM - 5.0),
        );
        let name = format!("Section {}", section.line.label());
        let bold = Lettering::bold(5.0);
        let beside = at + DVec2::new(bold.width_mm(&name) + 5.0, 0.0);
        let said = format!(
            "{}, {} deep, bearing of the cut {:.0}°",
            looking(&section.line),
            self.figures.place_with_unit(section.line.depth.as_metres()),
            bearing(section.plane.along)
        );
        for (text, lettering, at) in [
            (name.as_str(), bold, at),
            (said.as_str(), Lettering::regular(2.5), beside),
        ] {
            self.sheet
                .draw(Mark::new(Layer::Text, Text::new(text, lettering, at)));
        }
    }
}

/// The bearing of a plan direction, degrees.
fn bearing(direction: DVec2) -> f64 {
    math::atan2(direction.x, direction.y)
        .to_degrees()
        .rem_euclid(360.0)
}
