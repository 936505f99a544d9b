//! The hanging plan: building, grid, members, runs and hangers to scale, with every
//! first and last hanger dimensioned from the grid.

pub(super) mod building;
mod channels;
mod grid;
mod obstructions;
mod run_names;
mod run_shape;
mod runs;
pub(super) mod steel;
pub(super) mod style;
pub(super) mod symbols;

use crate::geometry::DVec2;
use crate::sheets::mark::{Mark, Sheet, Standing, ViewportId};
use crate::sheets::paper::{PaperPoint, PaperRect, Viewport};
use crate::sheets::scale::Scale;

use super::bounds::Extent;
use super::datum::Axes;
use super::figures::Figures;
use super::fit::{Drawn, Fitted, Furniture, arrangements, fit, series, sheet_size};
use super::labels::{Label, Taken};
use super::running::{self, Stop};
use super::{Draft, PageInput, legend, notes, scale_bar, title_block, wording};

/// The page's name, and its title.
pub(super) const NAME: (&str, &str) = ("hanging-plan", "Hanging plan");

/// Draws the hanging plan.
pub(super) fn hanging_plan(input: &PageInput<'_>) -> Vec<Draft> {
    let plan = Plan::new(input);
    let first = plan.draw(&Told::default());
    let told = first.found;
    // What found no room is told in the notes, which takes room in turn; so the sheet
    // is drawn again once that is known.
    let draft = if told == Told::default() {
        first.draft
    } else {
        plan.draw(&told).draft
    };
    vec![draft]
}

/// What is only known once the sheet is drawn, and told in its notes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Told {
    /// A figure or a name found no room.
    something_left_out: bool,
    /// The scale is not the one that was asked for.
    scale_not_as_asked: bool,
    /// How much is said of each run.
    of_runs: run_names::Said,
}

struct Plan<'a> {
    input: &'a PageInput<'a>,
    axes: Axes,
    extent: Extent,
    stops: [Vec<Stop>; 2],
}

/// A plan sheet, and what its notes must tell.
struct DrawnPlan {
    draft: Draft,
    found: Told,
}

impl<'a> Plan<'a> {
    fn new(input: &'a PageInput<'a>) -> Self {
        let figures = Figures::of(input.site);
        let axes = Axes::of(input.site);
        let extent = Extent::of(input.site, input.study, &axes);
        let level = |direction: DVec2| axes.is_level(direction);
        let upright = |direction: DVec2| axes.is_upright(direction);
        let along_x = axes.along_x.as_ref().map_or_else(Vec::new, |datum| {
            running::stops(datum, level, upright, input.study, figures)
        });
        let along_y = axes.along_y.as_ref().map_or_else(Vec::new, |datum| {
            running::stops(datum, upright, level, input.study, figures)
        });
        Self {
            input,
            extent,
            stops: [along_x, along_y],
            axes,
        }
    }

    fn draw(&self, told: &Told) -> DrawnPlan {
        let site = self.input.site;
        let size = sheet_size(site.sheets.paper);
        let furniture = Furniture {
            legend: &|n_columns| legend::draw(self.input, n_columns),
            notes: &|width_mm| {
                let numbered = notes::numbered("Notes", &self.notes(told), width_mm);
                numbered.over(&notes::cautions(width_mm), 1.0)
            },
            warning: &|width_mm| notes::warning(self.input, width_mm),
        };
        let arrangements = arrangements(size, &furniture);
        let edges = grid::bubble_edges(&self.axes);
        let drawn = Drawn {
            axes: &self.axes,
            extent: &self.extent,
            stops: [&self.stops[0], &self.stops[1]],
            edges,
            bubbles_mm: &|scale| grid::reach_mm(&self.axes, scale),
            radii_mm: grid::radii_mm(&self.axes),
        };
        let asked = site.sheets.scale.map(f64::from);
        let mut sheet = Sheet::new(NAME.0, NAME.1, size);
        let Some(fitted) = fit(&drawn, &arrangements, asked, site.units) else {
            // Nothing that is farther apart than the scales reach passes the site's checks.
            return DrawnPlan {
                draft: self.draft(sheet, None),
                found: Told::default(),
            };
        };
        let arrangement = &arrangements[fitted.arrangement];
        for (corner, block) in &arrangement.blocks {
            block.at(*corner).for_each(|mark| sheet.draw(mark));
        }
        let scale = fitted.viewport.scale;
        let label = series(site.units).label(scale);
        let figures = Figures::of(site);
        let bar = scale_bar::draw(scale, &label, self.axes.turn_degrees, figures);
        bar.at(arrangement.scale_bar)
            .for_each(|mark| sheet.draw(mark));
        let mut drawing = Drawing::new(self.input, &self.axes, sheet, &fitted);
        let of_runs = drawing.everything(&fitted, edges);
        let found = Told {
            something_left_out: 0 < fitted.n_left_out || drawing.left_out,
            scale_not_as_asked: !fitted.scale_as_asked,
            of_runs,
        };
        DrawnPlan {
            draft: self.draft(drawing.sheet, Some(scale)),
            found,
        }
    }

    fn draft(&self, sheet: Sheet, scale: Option<Scale>) -> Draft {
        let site = self.input.site;
        Draft {
            sheet,
            supplement: wording::scheme(site),
            scale: scale.map_or_else(String::new, |scale| series(site.units).label(scale)),
        }
    }

    fn notes(&self, told: &Told) -> Vec<String> {
        let site = self.input.site;
        let figures = Figures::of(site);
        let mut notes = Vec::new();
        let datums = [&self.axes.along_x, &self.axes.along_y];
        let names: Vec<&str> = datums
            .into_iter()
            .flatten()
            .map(|it| it.name.as_str())
            .collect();
        if names.is_empty() {
            notes.push("There is no grid line and no wall to measure from.".to_owned());
        } else {
            notes.push(format!(
                "Dimensions in {}, running from {}: along a run to the attach points of its first and last hanger, across it to the tube axis. Elevations are above finished floor; + is the tube axis at the burner.",
                figures.plan_unit(),
                names.join(" and ")
            ));
        }
        notes.push("Hangers are numbered from the burner: R3.2 is hanger 2 of run R3. The hanging schedule locates each and gives its load and suspension.".to_owned());
        notes.push(
            "Nothing hangs from roof deck, bridging, pipe, conduit or ceiling grid.".to_owned(),
        );
        notes.extend(told.of_runs.missing().map(str::to_owned));
        if told.something_left_out {
            notes.push("Figures and names that find no room at this scale are left out; the hanging schedule has every hanger.".to_owned());
        }
        if let (true, Some(asked)) = (told.scale_not_as_asked, site.sheets.scale) {
            let label = series(site.units).label(Scale {
                denominator: f64::from(asked),
            });
            notes.push(format!(
                "The scale {label} was asked for; the plan does not fit this paper at it."
            ));
        }
        notes
    }
}

/// A plan sheet while it is drawn.
struct Drawing<'a> {
    input: &'a PageInput<'a>,
    figures: Figures,
    axes: &'a Axes,
    sheet: Sheet,
    viewport: Viewport,
    through: ViewportId,
    /// Where the plan lies, without its dimensions.
    plan: PaperRect,
    taken: Taken,
    left_out: bool,
}

impl<'a> Drawing<'a> {
    fn new(input: &'a PageInput<'a>, axes: &'a Axes, mut sheet: Sheet, fitted: &Fitted) -> Self {
        let viewport = fitted.viewport.clone();
        let through = sheet.add_viewport(viewport.clone());
        let taken = Taken::none(sheet.size, viewport.window.inset(0.5));
        let mut drawing = Self {
            input,
            figures: Figures::of(input.site),
            axes,
            sheet,
            viewport,
            through,
            plan: fitted.plan,
            taken,
            left_out: false,
        };
        let title = title_block::place(drawing.sheet.size);
        let title = crate::sheets::mark::Area::new(title.corners());
        drawing.taken.take(&title.into());
        drawing
    }

    /// Draws all of it, what lies below first; returns how much is said of each run.
    fn everything(&mut self, fitted: &Fitted, edges: [running::Edge; 2]) -> run_names::Said {
        obstructions::draw(self);
        steel::draw(self);
        building::draw(self);
        grid::draw(self, &fitted.chains, edges);
        let channels = channels::draw(self);
        let runs = runs::draw(self);
        // Before the runs: a channel's name has few places, a run's many.
        channels::name(self, &channels);
        let of_runs = run_names::name(self, &runs);
        obstructions::name(self);
        steel::name(self);
        building::name(self);
        of_runs
    }

    /// Where a point of the site lies.
    fn at(&self, site: DVec2) -> PaperPoint {
        self.viewport.paper_from_site(site)
    }

    /// A unit vector of the site as it lies on the paper, y down.
    fn direction(&self, site: DVec2) -> DVec2 {
        let up = self.axes.on_paper(site);
        DVec2::new(up.x, -up.y)
    }

    /// Length on paper of a length on site, mm.
    fn mm(&self, site_m: f64) -> f64 {
        self.viewport.scale.paper_mm(site_m)
    }

    /// Draws a mark of the plan.
    fn draw(&mut self, mark: Mark) {
        if mark.standing == Standing::Key {
            self.taken.take(&mark.shape);
        }
        self.sheet.draw(mark.through(self.through));
    }

    /// Draws a mark that names had better not lie on.
    fn draw_avoided(&mut self, mark: Mark) {
        self.taken.avoid(&mark.shape);
        self.draw(mark);
    }

    /// Draws a label if it finds room; whether it did.
    fn label(&mut self, label: &Label, kind: &str, id: &str) -> bool {
        let Some(marks) = self.taken.place(label) else {
            return false;
        };
        for mark in marks {
            self.sheet.draw(mark.of(kind, id).through(self.through));
        }
        true
    }
}

/// The turn of a text along a direction of the paper (y down), degrees anticlockwise,
/// so that it reads from the bottom or from the right.
fn reading_turn(direction: DVec2) -> f64 {
    let degrees = crate::geometry::math::atan2(-direction.y, direction.x).to_degrees();
    // A hair past upright counts as upright, so that all texts of a row agree.
    const HAIR: f64 = 1e-6;
    if 90.0 + HAIR < degrees {
        degrees - 180.0
    } else if degrees <= -90.0 + HAIR {
        degrees + 180.0
    } else {
        degrees
    }
}
