//! What the picked hanger carries, what it is made of, and how it moves: all of it from
//! the study.

use crate::editor::figures::{angle, force, length};
use crate::editor::hangers::percent;
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::editor::widgets::heading_ui;
use crate::geometry::tolerance;
use crate::hanging::{Hanger, LoadCases, NoMakeUp, Suspension};
use crate::study::{HangerHardware, LegHardware, Made, Part, RunStudy, Study, to_verify};
use crate::units::{
    Angle, Force, Length, Precision, Quantity as _, Rounding, SmallLength, UnitSystem,
};
use eframe::egui;
use egui::{Color32, Label, RichText, Ui};

/// Width of the facts' names, points.
const NAME_WIDTH: f32 = 17.0 * STEP;

/// One thing to know of a hanger: its name, and what is known, a line each.
#[derive(Debug, Clone, PartialEq)]
struct Fact {
    name: &'static str,
    lines: Vec<Line>,
}

/// A line of a fact.
#[derive(Debug, Clone, PartialEq)]
enum Line {
    /// As it should be.
    Said(String),
    /// Nobody knows, or it can't be.
    Open(String),
}

/// All there is to know of a hanger, by its place on its run.
pub(super) fn hardware_ui(
    ui: &mut Ui,
    units: UnitSystem,
    study: &Study,
    run: &RunStudy,
    place: usize,
) {
    let Some(hanger) = run.hanging.hangers.get(place) else {
        return;
    };
    heading_ui(ui, &format!("Hanger {}", place + 1), "", None);
    let palette = &Theme::of(ui).palette;
    let (ink, soft, open) = (palette.ink, palette.soft_ink, palette.caution);
    let verify = to_verify(study, run, place)
        .into_iter()
        .map(|it| Line::Open(it.label().to_owned()));
    let verify = Fact {
        name: "verify on site",
        lines: verify.collect(),
    };
    let said = said(units, run, hanger, run.hardware.get(place));
    ui.spacing_mut().item_spacing.y = STEP / 2.0;
    for fact in said.iter().chain([&verify]) {
        if !fact.lines.is_empty() {
            fact_ui(ui, fact, soft, (ink, open));
        }
    }
    ui.spacing_mut().item_spacing.y = STEP;
}

fn fact_ui(ui: &mut Ui, fact: &Fact, soft: Color32, (ink, open): (Color32, Color32)) {
    let small = |text: &str, colour| {
        let text = RichText::new(text).font(TextSize::Small.font());
        Label::new(text.color(colour)).wrap()
    };
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = STEP;
        ui.vertical(|ui| {
            ui.set_width(NAME_WIDTH);
            ui.add(small(fact.name, soft));
        });
        ui.vertical(|ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 0.0;
            for line in &fact.lines {
                let (text, colour) = match line {
                    Line::Said(text) => (text, ink),
                    Line::Open(text) => (text, open),
                };
                ui.add(small(text, colour));
            }
        });
    });
}

fn said(
    units: UnitSystem,
    run: &RunStudy,
    hanger: &Hanger,
    hardware: Option<&HangerHardware>,
) -> Vec<Fact> {
    let fact = |name, text: String| Fact {
        name,
        lines: vec![Line::Said(text)],
    };
    let mut all = vec![load(units, &hanger.cases)];
    let n_legs = hanger.suspensions.len();
    for (nth, suspension) in hanger.suspensions.iter().enumerate() {
        let leg = hardware.and_then(|it| it.legs.get(nth));
        all.extend(suspended(
            units,
            hanger,
            suspension,
            leg,
            Side::of(nth, n_legs),
        ));
    }
    all.push(clamp(hardware));
    let newtons = Force::newtons;
    let toward = |by: f64| if by < 0.0 { "burner" } else { "exhaust" };
    let moved = small(units, hanger.movement_m.abs());
    let is_still = hanger.movement_m.abs() < SHOWN_AS_STILL_M;
    all.push(fact(
        "movement",
        if is_still {
            "none: it stays where it is".to_owned()
        } else {
            format!("{moved} toward {} when hot", toward(hanger.movement_m))
        },
    ));
    all.push(fact(
        "swing",
        angle(units, Angle::degrees(hanger.swing_rad.to_degrees())),
    ));
    all.push(fact(
        "side pull",
        force(units, newtons(hanger.side_pull_n.abs())),
    ));
    all.push(fact("least length", least(units, run, hanger)));
    all
}

/// Less than any figure of a movement shows, m.
const SHOWN_AS_STILL_M: f64 = 0.0005;

/// Which suspension of a hanger, as its facts are called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    Only,
    Left,
    Right,
}

impl Side {
    const fn of(nth: usize, n_legs: usize) -> Self {
        match (n_legs, nth) {
            (1, _) => Self::Only,
            (_, 0) => Self::Left,
            _ => Self::Right,
        }
    }

    const fn choose(self, names: [&'static str; 3]) -> &'static str {
        match self {
            Self::Only => names[0],
            Self::Left => names[1],
            Self::Right => names[2],
        }
    }
}

/// What it carries, and whose fault the worst of it is.
fn load(units: UnitSystem, cases: &LoadCases) -> Fact {
    let newtons = |load_n: f64| force(units, Force::newtons(load_n));
    let worst = cases.worst();
    let mut lines = vec![Line::Said(format!("{} level", newtons(cases.level_n)))];
    let text = match worst.by {
        None => "no other case is worse".to_owned(),
        Some(by) => {
            let is_slack = worst == cases.neighbour_slack;
            let how = if is_slack { "slack" } else { "hung low" };
            format!(
                "{} at worst: hanger {} {how}",
                newtons(worst.load_n),
                by + 1
            )
        }
    };
    lines.push(Line::Said(text));
    if cases.tips_without {
        lines.push(Line::Open("without it the run would tip".to_owned()));
    }
    Fact {
        name: "load",
        lines,
    }
}

/// One suspension: pull, size, cut and adjuster.
fn suspended(
    units: UnitSystem,
    hanger: &Hanger,
    suspension: &Suspension,
    leg: Option<&LegHardware>,
    side: Side,
) -> Vec<Fact> {
    let newtons = |load_n: f64| force(units, Force::newtons(load_n));
    let pull = Fact {
        name: side.choose(["pull", "pull, left", "pull, right"]),
        lines: vec![Line::Said(format!(
            "{} level, {} at worst",
            newtons(suspension.pull_n),
            newtons(hanger.greatest_pull_n(suspension))
        ))],
    };
    let size = Fact {
        name: side.choose(["hardware", "hardware, left", "hardware, right"]),
        lines: leg.map_or_else(unknown, |leg| {
            let none = || vec![Line::Open(format!("no {} bears that: engineer", leg.kind))];
            let size = leg.size.as_ref();
            size.map_or_else(none, |it| used(&it.part.name, it))
        }),
    };
    let made = leg.and_then(|leg| leg.made.as_ref());
    let (cut, adjuster) = match made {
        None => (unknown(), unknown()),
        Some(Err(fault)) => (vec![Line::Open(cannot(units, fault))], Vec::new()),
        Some(Ok(made)) => (cut(units, made), adjuster(units, made)),
    };
    let cut = Fact {
        name: side.choose(["cut", "cut, left", "cut, right"]),
        lines: cut,
    };
    let adjuster = Fact {
        name: side.choose(["adjuster", "adjuster, left", "adjuster, right"]),
        lines: adjuster,
    };
    vec![pull, size, cut, adjuster]
}

fn unknown() -> Vec<Line> {
    vec![Line::Open("unknown: engineer".to_owned())]
}

/// A part by its name, and how much of what it may bear is used.
fn used<T>(name: &str, part: &Part<T>) -> Vec<Line> {
    let share = percent(part.used());
    vec![
        Line::Said(name.to_owned()),
        Line::Said(format!("{share} of what it may carry")),
    ]
}

fn clamp(hardware: Option<&HangerHardware>) -> Fact {
    let none = || vec![Line::Open("no clamp bears that: engineer".to_owned())];
    Fact {
        name: "clamp",
        lines: hardware.map_or_else(unknown, |it| {
            let clamp = it.attachment.as_ref();
            clamp.map_or_else(none, |it| used(&it.part.name, it))
        }),
    }
}

fn cut(units: UnitSystem, made: &Made) -> Vec<Line> {
    let cut = small(units, made.make_up.cut_m);
    let text = match made.make_up.links {
        None => cut,
        Some(1) => format!("{cut}, 1 link"),
        Some(links) => format!("{cut}, {links} links"),
    };
    vec![Line::Said(text)]
}

fn adjuster(units: UnitSystem, made: &Made) -> Vec<Line> {
    let (least_m, greatest_m) = made.make_up.range_m;
    match &made.adjuster {
        None => vec![Line::Said("none: cut to length".to_owned())],
        Some(it) => vec![
            Line::Said(it.part.name.clone()),
            Line::Said(format!(
                "set at {}; in all {} to {}",
                small(units, made.make_up.adjuster_set_m),
                small(units, least_m),
                small(units, greatest_m)
            )),
        ],
    }
}

fn cannot(units: UnitSystem, fault: &NoMakeUp) -> String {
    match *fault {
        NoMakeUp::TooShort(least_m) => {
            format!("can't be so short: at least {}", small(units, least_m))
        }
        NoMakeUp::TooLong(greatest_m) => {
            format!("can't be so long: at most {}", small(units, greatest_m))
        }
        NoMakeUp::Between(nearest_m) => {
            format!("no whole links: nearest {}", small(units, nearest_m))
        }
    }
}

/// The least suspension, and who asks for it.
fn least(units: UnitSystem, run: &RunStudy, hanger: &Hanger) -> String {
    let least = &hanger.least_suspension;
    let of_family_m = run.family.least_suspension(&run.size).as_metres();
    let who = if least.growth_governs() {
        "growth governs"
    } else if of_family_m < least.by_rule_m - tolerance::LIMIT {
        "the site's figure governs"
    } else {
        "the family's figure governs"
    };
    let figure = length(units, Length::metres(least.required_m()));
    format!("{figure}: {who}")
}

/// A length as hardware is cut: millimetres, or sixteenths of an inch.
fn small(units: UnitSystem, metres: f64) -> String {
    let precision = Precision {
        decimals: 0,
        inch_parts: 16,
    };
    let length = SmallLength(Length::metres(metres));
    let text = length.show_rounded(units, precision, Rounding::Nearest);
    SmallLength::with_unit(text, units)
}
