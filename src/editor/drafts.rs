//! What the next object will be like: the forms of the stages edit these, the tools
//! place copies of them.

use crate::catalogue::{Catalogue, FamilyShape};
use crate::geometry::DVec2;
use crate::site::{
    Allowance, Bay, BottomChord, Combustibility, Construction, Footprint, Framing, HangFrom,
    Hanging, MemberKind, Obstruction, ObstructionKind, Opening, OpeningKind, Panels, Roof, Run,
    RunShape, Shields, Side, WorkSpot,
};
use crate::units::{Angle, Length, ThermalTransmittance, UnitSystem};

/// How obstructions are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum DrawnAs {
    /// From corner to corner.
    #[default]
    Rectangle,
    /// Corner after corner.
    Polygon,
    /// Along its centre line, with a width.
    Line,
    /// Corner after corner, or from corner to corner: a hole in what is drawn there.
    Hole,
}

impl DrawnAs {
    /// All ways, in the order in which they are offered.
    pub(crate) const ALL: [Self; 4] = [Self::Rectangle, Self::Polygon, Self::Line, Self::Hole];

    /// Its name.
    pub(crate) const fn label(self) -> &'static str {
        match self {
            Self::Rectangle => "Rectangle",
            Self::Polygon => "Polygon",
            Self::Line => "Line",
            Self::Hole => "Hole",
        }
    }
}

/// What the next object of each kind will be like. Ids and places are filled in when
/// it is placed.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Drafts {
    /// The next bay: its heights, roof and constructions.
    pub bay: Bay,
    /// The next opening: its kind and size.
    pub opening: Opening,
    /// The next framing: everything but its bay, anchor and bearing.
    pub framing: Framing,
    /// The next obstruction: its kind and heights.
    pub obstruction: Obstruction,
    /// How obstructions are drawn.
    pub drawn_as: DrawnAs,
    /// Width of an obstruction that is drawn as a line.
    pub line_width: Length,
    /// The next work spot.
    pub work_spot: WorkSpot,
    /// How far behind the next section line things are shown.
    pub section_depth: Length,
    /// The next run: its family, size, height, tilt, shields, zone.
    pub run: Run,
    /// How many copies a repetition makes.
    pub repeat_count: usize,
    /// Distance from one copy to the next.
    pub repeat_spacing: Length,
    /// Bearing along which copies are made.
    pub repeat_bearing: Angle,
}

impl Drafts {
    /// Planning figures, in the middle of what the trade meets, with the first family
    /// of the catalogue.
    pub(crate) fn new(catalogue: &Catalogue, units: UnitSystem) -> Self {
        let drafts = Self {
            bay: bay(),
            opening: opening(),
            framing: framing(),
            obstruction: obstruction(ObstructionKind::Racking),
            drawn_as: DrawnAs::default(),
            line_width: Length::metres(0.6),
            work_spot: work_spot(),
            section_depth: Length::metres(6.0),
            run: run(catalogue),
            repeat_count: 3,
            repeat_spacing: Length::metres(6.0),
            repeat_bearing: Angle::degrees(90.0),
        };
        match units {
            UnitSystem::Metric => drafts,
            UnitSystem::FeetInches => drafts.in_inches(),
        }
    }

    /// The same figures in the nearest half inches: who works in feet and inches expects a
    /// joist spacing of 6', not of 6' 0.05".
    fn in_inches(mut self) -> Self {
        let framing = &mut self.framing;
        let opening = &mut self.opening;
        let obstruction = &mut self.obstruction;
        for length in [
            &mut self.bay.eave,
            &mut opening.width,
            &mut opening.height,
            &mut framing.first,
            &mut framing.spacing,
            &mut framing.depth,
            &mut framing.seat,
            &mut framing.width,
            &mut framing.clamp_drop,
            &mut obstruction.bottom,
            &mut obstruction.top,
            &mut self.line_width,
            &mut self.work_spot.height,
            &mut self.section_depth,
            &mut self.run.tube_height,
            &mut self.repeat_spacing,
        ] {
            *length = half_inches(*length);
        }
        if let Some(panels) = &mut framing.panels {
            panels.first = half_inches(panels.first);
            panels.spacing = half_inches(panels.spacing);
        }
        self
    }

    /// Follows a change of the units shown, unless somebody has changed the figures.
    pub(crate) fn follow_units(&mut self, catalogue: &Catalogue, from: UnitSystem, to: UnitSystem) {
        if *self == Self::new(catalogue, from) {
            *self = Self::new(catalogue, to);
        }
    }

    /// The next obstruction, with a footprint of the form that it will be drawn in.
    pub(crate) fn next_obstruction(&self) -> Obstruction {
        let mut next = self.obstruction.clone();
        if self.drawn_as == DrawnAs::Line {
            next.footprint = Footprint::Line {
                points: Vec::new(),
                width: self.line_width,
            };
        }
        next
    }

    /// The next obstruction is to be like this. Of another kind it is drawn in the way that
    /// is usual for it: pipes along their middle, cranes along their runway.
    pub(crate) fn take_obstruction(&mut self, obstruction: Obstruction) {
        if obstruction.kind != self.obstruction.kind {
            match obstruction.kind.usual_width() {
                Some(width) => {
                    self.drawn_as = DrawnAs::Line;
                    self.line_width = width;
                }
                None if self.drawn_as == DrawnAs::Line => self.drawn_as = DrawnAs::Rectangle,
                None => {}
            }
        } else if let Footprint::Line { width, .. } = obstruction.footprint {
            self.line_width = width;
        }
        self.obstruction = Obstruction {
            footprint: self.obstruction.footprint.clone(),
            ..obstruction
        };
    }

    /// The next framing is of another kind: its depth, panels and loads become what is
    /// usual for it.
    pub(crate) fn take_framing_kind(&mut self, kind: MemberKind) {
        self.framing = Framing {
            bears_on: std::mem::take(&mut self.framing.bears_on),
            ..framing_of(kind)
        };
    }
}

/// The nearest half inch, or the nearest half foot of what is more than 3 feet.
fn half_inches(length: Length) -> Length {
    let inches = length.as_inches();
    let step = if inches < 36.0 { 0.5 } else { 6.0 };
    Length::inches((inches / step).round() * step)
}

/// The shape of a run of a family; a hairpin keeps the side of its return leg.
fn shape(family: &FamilyShape, known: RunShape) -> RunShape {
    match (family, known) {
        (FamilyShape::Straight, _) => RunShape::Straight,
        (FamilyShape::Hairpin { .. }, RunShape::Hairpin { .. }) => known,
        (FamilyShape::Hairpin { .. }, RunShape::Straight) => RunShape::Hairpin {
            return_leg: Side::Left,
        },
    }
}

fn construction(name: &str, u_value: f64) -> Construction {
    Construction {
        name: name.to_owned(),
        u_value: ThermalTransmittance::watts_per_square_metre_kelvin(u_value),
        burns: Combustibility::Unknown,
        facing: None,
    }
}

fn bay() -> Bay {
    Bay {
        id: "".into(),
        name: String::new(),
        outline: Vec::new(),
        holes: Vec::new(),
        eave: Length::metres(7.0),
        roof: Roof::Flat,
        wall: construction("insulated metal panel", 0.5),
        deck: construction("insulated metal deck", 0.4),
        open_edges: Vec::new(),
        collateral: None,
        used_as: Default::default(),
        notes: String::new(),
    }
}

fn opening() -> Opening {
    Opening {
        id: "".into(),
        bay: "".into(),
        edge: 0,
        from_corner: Length::ZERO,
        width: Length::metres(4.0),
        sill: Length::ZERO,
        height: Length::metres(4.2),
        kind: OpeningKind::SectionalDoor,
        door: Default::default(),
        notes: String::new(),
    }
}

fn framing() -> Framing {
    framing_of(MemberKind::OpenWebJoist)
}

fn framing_of(kind: MemberKind) -> Framing {
    // Middle-of-the-road figures; loads are the engineer's to say, so they start unknown.
    let (id, spacing, depth, hang_from) = match kind {
        MemberKind::OpenWebJoist => ("J", 1.83, 0.61, HangFrom::BottomChord),
        MemberKind::TimberTruss => ("T", 3.6, 1.2, HangFrom::BottomChord),
        MemberKind::Purlin => ("P", 1.5, 0.2, HangFrom::Flange),
        MemberKind::Beam => ("G", 6.0, 0.4, HangFrom::Flange),
    };
    let panels = kind.has_panel_points().then_some(Panels {
        first: Length::metres(0.6),
        spacing: Length::metres(0.6),
    });
    Framing {
        id: id.into(),
        bay: "".into(),
        kind,
        anchor: DVec2::ZERO,
        bearing: Angle::ZERO,
        first: Length::metres(spacing),
        spacing: Length::metres(spacing),
        count: None,
        depth: Length::metres(depth),
        seat: Length::metres(0.064),
        width: Length::metres(0.1),
        bears_on: Vec::new(),
        bottom: BottomChord::Parallel,
        hang_from,
        clamp_drop: Length::metres(0.03),
        panels,
        allowed_at_point: Allowance::Unknown,
        allowed_off_panel: Allowance::Unknown,
        allowed_in_all: None,
        as_built: Vec::new(),
        notes: String::new(),
    }
}

/// An obstruction of a kind at its usual heights, not yet drawn.
pub(super) fn obstruction(kind: ObstructionKind) -> Obstruction {
    let (bottom, top, burns) = kind.usual();
    let (particulars, temperature_limit) = kind.usual_particulars();
    Obstruction {
        id: "".into(),
        name: String::new(),
        kind,
        footprint: Footprint::Area {
            outline: Vec::new(),
            holes: Vec::new(),
        },
        bottom,
        top,
        upright_top: None,
        burns,
        temperature_limit,
        particulars,
        notes: String::new(),
    }
}

fn work_spot() -> WorkSpot {
    WorkSpot {
        id: "".into(),
        name: String::new(),
        at: DVec2::ZERO,
        height: Length::metres(1.1),
        activity_met: 1.6,
        clothing_clo: 1.0,
        notes: String::new(),
    }
}

fn run(catalogue: &Catalogue) -> Run {
    let mut drafts_run = Run {
        id: "".into(),
        family: String::new(),
        size: String::new(),
        burner: DVec2::ZERO,
        tube_height: Length::metres(5.5),
        bearing: Angle::degrees(90.0),
        shape: RunShape::Straight,
        tilt: Angle::ZERO,
        shields: Shields::None,
        hanging: Hanging::Solved,
        fixed_hanger: None,
        suspension: None,
        exhaust: Default::default(),
        zone: String::new(),
        notes: String::new(),
    };
    if let Some(family) = catalogue.families().first() {
        drafts_run.family = family.id.clone();
        drafts_run.size = family
            .sizes
            .first()
            .map_or_else(String::new, |size| size.id.clone());
        drafts_run.shape = shape(&family.shape, drafts_run.shape);
    }
    drafts_run
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_round_in_the_units_shown() {
        let catalogue = Catalogue::default();
        let drafts = Drafts::new(&catalogue, UnitSystem::FeetInches);
        assert_eq!(drafts.framing.spacing, Length::inches(72.0));
        assert_eq!(drafts.framing.depth, Length::inches(24.0));
        assert_eq!(drafts.bay.eave, Length::inches(276.0));
    }

    #[test]
    fn a_duct_is_drawn_along_its_middle_and_a_rack_again_by_its_corners() {
        let mut drafts = Drafts::new(&Catalogue::default(), UnitSystem::Metric);
        drafts.take_obstruction(obstruction(ObstructionKind::Pipe));
        assert_eq!(drafts.drawn_as, DrawnAs::Line);
        assert_eq!(drafts.line_width, Length::metres(0.1));
        drafts.drawn_as = DrawnAs::Polygon;
        let named = Obstruction {
            name: "Steam".to_owned(),
            ..drafts.obstruction.clone()
        };
        drafts.take_obstruction(named);
        assert_eq!(drafts.drawn_as, DrawnAs::Polygon, "of the same kind");
        drafts.drawn_as = DrawnAs::Line;
        drafts.take_obstruction(obstruction(ObstructionKind::Racking));
        assert_eq!(drafts.drawn_as, DrawnAs::Rectangle);
    }

    #[test]
    fn units_are_followed_until_a_figure_is_changed() {
        use UnitSystem::{FeetInches, Metric};
        let catalogue = Catalogue::default();
        let mut drafts = Drafts::new(&catalogue, Metric);
        drafts.follow_units(&catalogue, Metric, FeetInches);
        assert_eq!(drafts, Drafts::new(&catalogue, FeetInches));
        drafts.framing.spacing = Length::metres(2.0);
        let changed = drafts.clone();
        drafts.follow_units(&catalogue, FeetInches, Metric);
        assert_eq!(drafts, changed);
    }
}
