//! A demonstration sheet with every kind of mark, drawn as a drafter would.

use std::sync::Arc as Shared;

use rafterglow::geometry::DVec2;
use rafterglow::sheets::{
    Anchor, Arc, Area, Circle, Finish, Format, Hatch, Ink, IssueDate, Layer, Lettering, LineKind,
    Mark, Metadata, PaperPoint, PaperRect, Part, Pen, PenWidth, Picture, Polyline, Scale, Sheet,
    SheetSize, Symbol, SymbolUse, Text, View, Viewport, ViewportId, text,
};

const LENGTH_M: f64 = 60.0;
const WIDTH_M: f64 = 30.0;

/// Where the hanger R2.3 of the demonstration is, m.
pub(super) const A_HANGER: DVec2 = DVec2::new(24.0, 18.0);

pub(super) fn about() -> Metadata {
    Metadata {
        title: "Skerry Harbour, freight shed".to_owned(),
        subject: "Demonstration of the drawing list".to_owned(),
        author: "A. Drafter".to_owned(),
        language: "en".to_owned(),
        issued: "2031-03-02".parse::<IssueDate>().ok(),
    }
}

/// A plan at 1 : 200 on A3, turned on the paper by so many degrees.
pub(super) fn sheet(turn_degrees: f64) -> Sheet {
    let mut sheet = Sheet::new(
        "02-hanging-plan",
        "Hanging plan",
        SheetSize::landscape(Format::A3),
    );
    let window = PaperRect::at(PaperPoint::new(20.5, 10.5), 389.0, 226.0);
    let scale = Scale { denominator: 200.0 };
    let mut plan = Viewport::centred(
        "plan",
        View::Plan,
        window,
        scale,
        DVec2::new(LENGTH_M, WIDTH_M) / 2.0,
    );
    plan.turn_degrees = turn_degrees;
    plan.paper_anchor.y += 12.0;
    let plan = sheet.add_viewport(plan);
    furniture(&mut sheet);
    Plan {
        sheet: &mut sheet,
        id: plan,
    }
    .draw();
    sheet
}

struct Plan<'a> {
    sheet: &'a mut Sheet,
    id: ViewportId,
}

impl Plan<'_> {
    fn at(&self, x_m: f64, y_m: f64) -> PaperPoint {
        self.sheet.viewports[self.id.0].paper_from_site(DVec2::new(x_m, y_m))
    }

    fn turn(&self) -> f64 {
        self.sheet.viewports[self.id.0].turn_degrees
    }

    fn add(&mut self, mark: Mark) {
        self.sheet.draw(mark.through(self.id));
    }

    fn rect(&self, x: f64, y: f64, width: f64, height: f64) -> Vec<PaperPoint> {
        vec![
            self.at(x, y),
            self.at(x + width, y),
            self.at(x + width, y + height),
            self.at(x, y + height),
        ]
    }

    fn draw(mut self) {
        self.members();
        self.racks();
        self.walls();
        self.grid();
        self.runs();
        self.dimensions();
    }

    fn members(&mut self) {
        let mut x = 1.83;
        while x < LENGTH_M {
            let line = Polyline::open(Pen::FINE, [self.at(x, 0.0), self.at(x, WIDTH_M)]);
            self.add(Mark::new(Layer::Member, line));
            x += 1.83;
        }
    }

    fn racks(&mut self) {
        for (number, y) in [(1, 4.0), (2, 18.5)] {
            let outline = self.rect(36.0, y, 20.0, 3.0);
            let middle = self.at(46.0, y + 1.5);
            let label = Text::anchored(
                "racking, top 4.80",
                Lettering::regular(2.5),
                middle,
                self.turn(),
                Anchor::CENTRE,
            );
            let room = label
                .ink_box()
                .expect("there is ink")
                .grown(1.2)
                .corners()
                .to_vec();
            let mut hatch = Hatch::new(outline.clone(), 45.0 + self.turn(), 2.5, Pen::HAIR);
            hatch.holes.push(room.clone());
            self.add(Mark::new(Layer::Obstruction, Area::new(outline.clone())).ink(Ink::Paper));
            self.add(Mark::new(Layer::Hatch, hatch));
            let id = format!("O{number}");
            self.add(
                Mark::new(Layer::Obstruction, Polyline::closed(Pen::THIN, outline))
                    .of("obstruction", &id),
            );
            self.add(Mark::new(Layer::Obstruction, label).of("obstruction", &id));
        }
    }

    fn walls(&mut self) {
        let inner = self.rect(0.0, 0.0, LENGTH_M, WIDTH_M);
        let outer = self.rect(-0.4, -0.4, LENGTH_M + 0.8, WIDTH_M + 0.8);
        self.add(
            Mark::new(
                Layer::Wall,
                Area {
                    outline: outer,
                    holes: vec![inner],
                },
            )
            .of("bay", "B1"),
        );
        for x in [5.0, 17.0, 27.0] {
            let gap = self.rect(x, -0.4, 4.0, 0.4);
            self.add(Mark::new(Layer::Opening, Area::new(gap.clone())).ink(Ink::Paper));
            self.add(Mark::new(Layer::Opening, Polyline::closed(Pen::THIN, gap)));
            let swing = Arc {
                centre: self.at(x, 0.0),
                radius_mm: 20.0,
                from_degrees: self.turn(),
                sweep_degrees: 90.0,
                pen: Pen::of(PenWidth::W018, LineKind::LongDashDoubleDot),
            };
            let leaf = Polyline::open(swing.pen, [self.at(x, 0.0), self.at(x, 4.0)]);
            self.add(Mark::new(Layer::Opening, swing));
            self.add(Mark::new(Layer::Opening, leaf));
        }
    }

    fn grid(&mut self) {
        let bubble = Shared::new(Symbol {
            name: "GRID-BUBBLE".to_owned(),
            parts: vec![
                Part::inked(
                    Circle {
                        centre: PaperPoint::ZERO,
                        radius_mm: 4.0,
                        finish: Finish::Filled,
                    },
                    Ink::Paper,
                ),
                Part::new(Circle {
                    centre: PaperPoint::ZERO,
                    radius_mm: 4.0,
                    finish: Finish::Drawn(Pen::THIN),
                }),
            ],
        });
        let pen = Pen::of(PenWidth::W018, LineKind::LongDashDot);
        for number in 0..6 {
            let x = 12.0 * f64::from(number);
            self.grid_line(
                &bubble,
                &(number + 1).to_string(),
                pen,
                (x, -1.5),
                (x, WIDTH_M + 6.0),
            );
        }
        for (number, name) in ["A", "B", "C"].into_iter().enumerate() {
            let y = 15.0 * f64::from(u32::try_from(number).expect("three of them"));
            self.grid_line(&bubble, name, pen, (LENGTH_M + 1.5, y), (-6.0, y));
        }
    }

    fn grid_line(
        &mut self,
        bubble: &Shared<Symbol>,
        name: &str,
        pen: Pen,
        from: (f64, f64),
        to: (f64, f64),
    ) {
        let [from, to] = [from, to].map(|(x, y)| self.at(x, y));
        let centre = to + (to - from).normalize() * 4.0;
        self.add(Mark::new(Layer::Grid, Polyline::open(pen, [from, to])));
        let letter = Text::anchored(name, Lettering::regular(3.5), centre, 0.0, Anchor::CENTRE);
        let bubble = SymbolUse::new(bubble, centre).showing("NAME", letter);
        self.add(
            Mark::new(Layer::Grid, bubble)
                .ink(Ink::Black)
                .key()
                .of("grid", name),
        );
    }

    fn runs(&mut self) {
        let hanger = Shared::new(Symbol {
            name: "HANGER-PANEL".to_owned(),
            parts: vec![
                Part::inked(
                    Circle {
                        centre: PaperPoint::ZERO,
                        radius_mm: 0.9,
                        finish: Finish::Filled,
                    },
                    Ink::Paper,
                ),
                Part::new(Circle {
                    centre: PaperPoint::ZERO,
                    radius_mm: 0.9,
                    finish: Finish::Drawn(Pen::THIN),
                }),
            ],
        });
        let corner = |x, y| PaperPoint::new(x, y);
        let burner = Shared::new(Symbol {
            name: "BURNER".to_owned(),
            parts: vec![Part::new(Area::new([
                corner(-3.0, -1.5),
                corner(0.0, -1.5),
                corner(0.0, 1.5),
                corner(-3.0, 1.5),
            ]))],
        });
        for (number, (x, y)) in [
            (3.0, 25.0),
            (16.84, 25.0),
            (30.68, 25.0),
            (44.52, 25.0),
            (3.0, 12.0),
            (16.84, 12.0),
        ]
        .into_iter()
        .enumerate()
        {
            let run = format!("R{}", number + 1);
            let [start, end] = [self.at(x, y), self.at(x + 12.0, y)];
            self.add(
                Mark::new(Layer::HeatTube, Polyline::open(Pen::BOLD, [start, end]))
                    .key()
                    .of("run", &run),
            );
            let used = SymbolUse::new(&burner, start).turned(self.turn());
            self.add(Mark::new(Layer::HeatTube, used).key().of("run", &run));
            let tips = [self.at(x + 11.6, y + 0.4), end, self.at(x + 11.6, y - 0.4)];
            self.add(Mark::new(Layer::HeatTube, Polyline::open(Pen::MEDIUM, tips)).key());
            for count in 0..6 {
                let station = 0.5 + f64::from(count) * 2.33;
                let id = format!("{run}.{}", count + 1);
                let used = SymbolUse::new(&hanger, self.at(x + station, y)).keeping("ID", &id);
                self.add(Mark::new(Layer::HeatHanger, used).key().of("hanger", &id));
                if count % 5 == 0 {
                    let label = Text::anchored(
                        &id,
                        Lettering::condensed(2.5),
                        self.at(x + station, y + 0.45),
                        self.turn(),
                        Anchor::MIDDLE,
                    );
                    self.add(Mark::new(Layer::HeatText, label).of("hanger", &id));
                }
            }
            let label = Text::anchored(
                &format!("{run} 36 kW  z 6.20  tilt 15° S"),
                Lettering::regular(2.5),
                self.at(x, y - 1.1),
                self.turn(),
                Anchor::START,
            )
            .on_cleared_paper(0.4);
            self.add(Mark::new(Layer::HeatText, label).of("run", &run));
        }
        let spot = SymbolUse::new(&hanger, self.at(A_HANGER.x, A_HANGER.y)).keeping("ID", "CHECK");
        self.add(
            Mark::new(Layer::HeatHanger, spot)
                .key()
                .of("hanger", "CHECK"),
        );
    }

    fn dimensions(&mut self) {
        let y = WIDTH_M + 3.0;
        let line = Polyline::open(Pen::FINE, [self.at(0.0, y), self.at(LENGTH_M, y)]);
        self.add(Mark::new(Layer::Dimension, line).key());
        for (x, value) in [
            (0.0, "0.00"),
            (3.5, "3.50"),
            (17.34, "17.34"),
            (31.18, "31.18"),
            (60.0, "60.00"),
        ] {
            let tick = [self.at(x - 0.2, y - 0.2), self.at(x + 0.2, y + 0.2)];
            self.add(Mark::new(Layer::Dimension, Polyline::open(Pen::MEDIUM, tick)).key());
            let figure = Text::anchored(
                value,
                Lettering::regular(2.5),
                self.at(x + 0.25, y + 0.3),
                self.turn(),
                Anchor::START,
            );
            self.add(Mark::new(Layer::Dimension, figure));
        }
        let x = -3.0;
        let line = Polyline::open(Pen::FINE, [self.at(x, 0.0), self.at(x, WIDTH_M)]);
        self.add(Mark::new(Layer::Dimension, line).key());
        for (y, value) in [
            (0.0, "0.00"),
            (12.0, "12.00"),
            (25.0, "25.00"),
            (30.0, "30.00"),
        ] {
            let tick = [self.at(x - 0.2, y - 0.2), self.at(x + 0.2, y + 0.2)];
            self.add(Mark::new(Layer::Dimension, Polyline::open(Pen::MEDIUM, tick)).key());
            let figure = Text::anchored(
                value,
                Lettering::regular(2.5),
                self.at(x - 0.3, y + 0.25),
                90.0 + self.turn(),
                Anchor::START,
            );
            self.add(Mark::new(Layer::Dimension, figure));
        }
    }
}

/// Frame, notes, legend and title block: what lies on the sheet itself.
fn furniture(sheet: &mut Sheet) {
    let frame = sheet.size.frame();
    sheet.draw(Mark::new(Layer::Frame, Polyline::around(Pen::HEAVY, frame)));
    let mut say = |content: &str, lettering: Lettering, x: f64, y: f64| {
        sheet.draw(Mark::new(
            Layer::Text,
            Text::new(content, lettering, PaperPoint::new(x, y)),
        ));
    };
    say("Legend", Lettering::bold(3.5), 26.0, 243.0);
    say("keep-clear envelope", Lettering::regular(2.5), 40.0, 251.0);
    say("hidden edge", Lettering::regular(2.5), 40.0, 257.0);
    say("grid line", Lettering::regular(2.5), 40.0, 263.0);
    say(
        "Signs: ⌀ 100  ± 5  ≥ 2.5 m  ≤ 40 kW  m²  √  △ □ ○ ✓",
        Lettering::condensed(2.5),
        26.0,
        281.0,
    );
    say("Notes", Lettering::bold(3.5), 110.0, 243.0);
    for (number, kind) in [
        LineKind::LongDashDoubleDot,
        LineKind::Dashed,
        LineKind::LongDashDot,
    ]
    .into_iter()
    .enumerate()
    {
        let y = 250.0 + 6.0 * f64::from(u32::try_from(number).expect("three of them"));
        let ends = [PaperPoint::new(26.0, y), PaperPoint::new(38.0, y)];
        sheet.draw(Mark::new(
            Layer::Text,
            Polyline::open(Pen::of(PenWidth::W025, kind), ends),
        ));
    }
    let notes = "Dimensions in metres from grid lines 1 and A to hanger centres. Elevations from finished floor to the tube's axis at the burner.\nThe heater's certified manual, local codes & the authority having jurisdiction have the last word.";
    for line in text::paragraph(
        notes,
        Lettering::regular(2.5),
        PaperPoint::new(110.0, 251.0),
        95.0,
    ) {
        sheet.draw(Mark::new(Layer::Text, line));
    }
    sheet.draw(Mark::new(Layer::Text, picture()));
    for (number, ink) in [
        Ink::Black,
        Ink::DarkGrey,
        Ink::Grey,
        Ink::LightGrey,
        Ink::Ember,
        Ink::Lake,
        Ink::Alarm,
    ]
    .into_iter()
    .enumerate()
    {
        let x = 212.0 + 7.0 * f64::from(u32::try_from(number).expect("seven of them"));
        let patch = PaperRect::at(PaperPoint::new(x, 275.0), 6.0, 6.0).corners();
        sheet.draw(Mark::new(Layer::Text, Area::new(patch)).ink(ink));
    }
    title_block(sheet);
}

fn title_block(sheet: &mut Sheet) {
    let frame = sheet.size.frame();
    let block = PaperRect {
        left: frame.right - 110.0,
        top: frame.bottom - 48.0,
        ..frame
    };
    sheet.draw(Mark::new(Layer::Frame, Polyline::around(Pen::BOLD, block)));
    for (up, pen) in [(38.0, Pen::MEDIUM), (26.0, Pen::THIN), (13.0, Pen::THIN)] {
        let y = block.bottom - up;
        let ends = [
            PaperPoint::new(block.left, y),
            PaperPoint::new(block.right, y),
        ];
        sheet.draw(Mark::new(Layer::Frame, Polyline::open(pen, ends)));
    }
    let mut say = |content: &str, lettering: Lettering, right: f64, up: f64| {
        let at = PaperPoint::new(block.left + right, block.bottom - up);
        sheet.draw(Mark::new(Layer::Frame, Text::new(content, lettering, at)));
    };
    say(
        "Skerry Harbour · Freight shed",
        Lettering::bold(3.5),
        2.0,
        41.0,
    );
    say("title", Lettering::condensed(2.5), 2.0, 34.0);
    say("Hanging plan", Lettering::bold(5.0), 2.0, 27.5);
    say("date of issue", Lettering::condensed(2.5), 2.0, 22.0);
    say("2031-03-02", Lettering::regular(3.5), 2.0, 15.0);
    say("scale", Lettering::condensed(2.5), 80.0, 22.0);
    say("1 : 200", Lettering::regular(3.5), 80.0, 15.0);
    say("document", Lettering::condensed(2.5), 2.0, 9.0);
    let name = "SH-FS-02, made for the owner of the freight shed at Skerry Harbour";
    say(
        &Lettering::regular(3.5).shortened(name, 74.0),
        Lettering::regular(3.5),
        2.0,
        2.0,
    );
}

/// A small picture that is not alike in its four corners.
pub(super) fn picture() -> Picture {
    let (width, height) = (64_u8, 32_u8);
    let mut pixels = Vec::new();
    for y in 0..height {
        for x in 0..width {
            pixels.extend([x * 4, 255 - y * 8, if x < 32 { 60 } else { 200 }]);
        }
    }
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, u32::from(width), u32::from(height));
    encoder.set_color(png::ColorType::Rgb);
    let mut writer = encoder.write_header().expect("the header is legal");
    writer
        .write_image_data(&pixels)
        .expect("as many pixels as announced");
    writer.finish().expect("memory takes everything");
    Picture {
        png: bytes.into(),
        place: PaperRect::at(PaperPoint::new(212.0, 243.0), 48.0, 24.0),
    }
}
