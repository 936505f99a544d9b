//! Members in space: clipped to their bay, cut at the lines that they bear on.

use super::height::{Elevations, elevation_at, elevations, raised};
use super::label::{member_label, span_label};
use super::layout::{PlanSpan, exact, lowest_line, n_members, spans_of_line};
use crate::geometry::polygon::Polygon;
use crate::geometry::{DVec2, tolerance};
use crate::site::bay::along;
use crate::site::framing::{Allowance, MemberKind};
use crate::site::{Bay, Framing, FramingId, GridId, GridLine, MemberAdjustment, MemberId, Site};
use crate::units::Force;
use std::collections::BTreeMap;
use std::sync::Arc;

/// One member span: what hangers hang from.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    /// Its id: `J-20/AB`.
    pub id: MemberId,
    /// Its framing.
    pub framing: FramingId,
    /// Place of its framing in the site's list.
    pub framing_index: usize,
    /// Its member's number: 20 for `J-20`.
    pub number: usize,
    /// Its member's place among those of the framing that are there, by position.
    pub row: usize,
    /// What it is.
    pub kind: MemberKind,
    /// Plan position of the end nearer the lowest grid line, m.
    pub start: DVec2,
    /// Unit vector from there to the other end.
    pub direction: DVec2,
    /// Length in plan, m.
    pub length_m: f64,
    /// The lines at its start and its end.
    pub ends: [MemberEnd; 2],
    /// Where its member lies: distance to the right of the framing's anchor, m.
    pub offset_m: f64,
    /// How much higher it lies than the drawing has it at this place, m.
    pub raised_m: f64,
    /// Its top (underside of the deck): (m from the start, z), ascending, straight between.
    pub top_m: Vec<(f64, f64)>,
    /// The underside of its bottom chord or flange, likewise.
    pub underside_m: Vec<(f64, f64)>,
    /// Where a suspension's upper end comes to lie, likewise.
    pub attach_m: Vec<(f64, f64)>,
    /// Stretch that may be hung from, m from the start; none if there is none.
    pub usable_m: Option<(f64, f64)>,
    /// Panel points, numbered from 1; none for a beam or purlin.
    pub panel_points: Vec<PanelPoint>,
    /// Load allowed at one panel point, or at any one place of a beam or purlin.
    pub allowed_at_point: Allowance,
    /// Load allowed in all within one chord panel.
    pub allowed_off_panel: Allowance,
    /// Load allowed on the whole span, all its places together, if anybody has said.
    pub allowed_in_all: Option<Force>,
    /// Width of its chord or flange, m.
    pub width_m: f64,
    /// Whether it differs from the drawing.
    pub is_as_built: bool,
}

/// What a member's end lies on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MemberEnd {
    /// A grid line.
    OnLine(GridId),
    /// The bay's outline, away from any grid line that the framing bears on.
    AtWall,
}

/// A panel point of a joist or truss.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanelPoint {
    /// Its number, from 1.
    pub number: usize,
    /// Its position, m from the member's start.
    pub at_m: f64,
}

impl Member {
    /// Plan point at a position along it.
    #[must_use]
    pub fn plan_at(&self, position_m: f64) -> DVec2 {
        self.start + self.direction * position_m
    }

    /// Plan position of its far end.
    #[must_use]
    pub fn end(&self) -> DVec2 {
        self.plan_at(self.length_m)
    }

    /// Elevation of the attach line at a position, m.
    #[must_use]
    pub fn attach_at(&self, position_m: f64) -> f64 {
        elevation_at(&self.attach_m, position_m)
    }

    /// Elevation of its top at a position, m.
    #[must_use]
    pub fn top_at(&self, position_m: f64) -> f64 {
        elevation_at(&self.top_m, position_m)
    }

    /// Elevation of its underside at a position, m.
    #[must_use]
    pub fn underside_at(&self, position_m: f64) -> f64 {
        elevation_at(&self.underside_m, position_m)
    }
}

/// Every member span of a site.
pub fn members(site: &Site) -> Vec<Arc<Member>> {
    let mut all = Vec::new();
    for (index, framing) in site.framings.iter().enumerate() {
        if let Some(bay) = site.bays.iter().find(|bay| bay.id == framing.bay) {
            members_of(framing, index, bay, &site.grid, &mut all);
        }
    }
    all
}

fn members_of(
    framing: &Framing,
    framing_index: usize,
    bay: &Bay,
    grid: &[Arc<GridLine>],
    all: &mut Vec<Arc<Member>>,
) {
    let outline = Polygon {
        outline: bay.outline.clone(),
        holes: bay.holes.clone(),
    };
    let roof = bay.roof_planes();
    let heading = along(framing.bearing);
    let right = -heading.perp();
    let cuts: Vec<&GridLine> = framing
        .bears_on
        .iter()
        .filter_map(|id| grid.iter().find(|line| line.id == *id))
        .map(Arc::as_ref)
        .filter(|line| line.crosses(heading))
        .collect();
    let lowest = lowest_line(&cuts, grid, heading);
    let survey: BTreeMap<usize, &MemberAdjustment> = framing
        .as_built
        .iter()
        .rev()
        .map(|known| (known.member, known))
        .collect();
    let mut present: Vec<(f64, usize, Option<&MemberAdjustment>)> =
        (0..n_members(framing, &outline))
            .map(|k| {
                let adjustment = survey.get(&(k + 1)).copied();
                let offset = adjustment.map_or_else(
                    || framing.drawn_offset_m(k + 1),
                    |known| framing.built_offset_m(known, grid),
                );
                (offset, k, adjustment)
            })
            .filter(|(_, _, adjustment)| !adjustment.is_some_and(|known| known.missing))
            .collect();
    present.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let first_new = all.len();
    for (row, &(offset, k, adjustment)) in present.iter().enumerate() {
        let origin = framing.anchor + right * offset;
        let spans = spans_of_line(&outline, origin, heading, &cuts, lowest);
        let n_spans = spans.len();
        let raised_m = adjustment.map_or(0.0, |known| {
            raised(framing, known, grid, &roof, offset, &spans)
        });
        for (index, span) in spans.into_iter().enumerate() {
            let label = member_label(framing.id.as_str(), k + 1)
                + &span_label(&span.ends[0], &span.ends[1], n_spans, index);
            all.push(Arc::new(in_space(
                framing,
                framing_index,
                k + 1,
                row,
                offset,
                raised_m,
                adjustment.is_some(),
                elevations(framing, &roof, &span, raised_m),
                span,
                MemberId::new(label),
            )));
        }
    }
    all[first_new..].sort_by_key(|member| member.number);
    number_repeats(&mut all[first_new..]);
}

/// Two spans of one member between the same two lines (a bay with a notch) get an
/// ordinal behind their label, so that every id names one span.
fn number_repeats(members: &mut [Arc<Member>]) {
    for i in 1..members.len() {
        let earlier = members[..i]
            .iter()
            .rev()
            .take_while(|known| known.number == members[i].number)
            .filter(|known| {
                let plain = known.id.as_str().split('.').next();
                plain == Some(members[i].id.as_str())
            })
            .count();
        if earlier > 0 {
            let numbered = MemberId::new(format!("{}.{}", members[i].id, earlier + 1));
            Arc::make_mut(&mut members[i]).id = numbered;
        }
    }
}

#[expect(
    clippy::too_many_arguments,
    reason = "all of them name what one span is; a struct would be used once"
)]
fn in_space(
    framing: &Framing,
    framing_index: usize,
    number: usize,
    row: usize,
    offset_m: f64,
    raised_m: f64,
    is_as_built: bool,
    elevations: Elevations,
    span: PlanSpan,
    id: MemberId,
) -> Member {
    let clamp = framing.clamp_drop.as_metres();
    let surface = elevations.surface_m.iter();
    let attach_m = surface.map(|(at, z)| (*at, z - clamp)).collect();
    let panel_points = panel_points(framing, span.length_m);
    let usable_m = if framing.kind.has_panel_points() {
        panel_points
            .first()
            .zip(panel_points.last())
            .map(|(first, last)| (first.at_m, last.at_m))
    } else {
        Some((0.0, span.length_m))
    };
    Member {
        id,
        framing: framing.id.clone(),
        framing_index,
        number,
        row,
        kind: framing.kind,
        start: span.start,
        direction: span.direction,
        length_m: span.length_m,
        ends: span.ends,
        offset_m,
        raised_m,
        top_m: elevations.top_m,
        underside_m: elevations.underside_m,
        attach_m,
        usable_m,
        panel_points,
        allowed_at_point: framing.allowed_at_point,
        allowed_off_panel: framing.allowed_off_panel,
        allowed_in_all: framing.allowed_in_all,
        width_m: framing.width.as_metres(),
        is_as_built,
    }
}

fn panel_points(framing: &Framing, length_m: f64) -> Vec<PanelPoint> {
    let Some(panels) = framing.panels.filter(|_| framing.kind.has_panel_points()) else {
        return Vec::new();
    };
    let (first, spacing) = (panels.first.as_metres(), panels.spacing.as_metres());
    if spacing <= 0.0 {
        return Vec::new();
    }
    (0..)
        .map(|j| PanelPoint {
            number: j + 1,
            at_m: first + spacing * exact(j),
        })
        .take_while(|point| point.at_m < length_m - tolerance::SAME_POINT)
        .collect()
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::site::framing::{BottomChord, HangFrom};
    use crate::site::{Combustibility, Construction, Panels, Roof};
    use crate::units::{Angle, Length, ThermalTransmittance};

    fn line(id: &str, from: (f64, f64), to: (f64, f64)) -> Arc<GridLine> {
        Arc::new(GridLine {
            id: id.into(),
            from: from.into(),
            to: to.into(),
            notes: String::new(),
        })
    }

    /// A 20 x 24 m bay, eave 6 m at the south, rising 0.05 to the north; joists run
    /// south to north at 2 m, bearing on A (y 0), B (y 12), C (y 24).
    fn site() -> Site {
        let plain = Construction {
            name: String::new(),
            u_value: ThermalTransmittance::watts_per_square_metre_kelvin(0.5),
            burns: Combustibility::NonCombustible,
            facing: None,
        };
        let bay = Bay {
            id: "B1".into(),
            name: String::new(),
            outline: [(0.0, 0.0), (20.0, 0.0), (20.0, 24.0), (0.0, 24.0)]
                .map(DVec2::from)
                .to_vec(),
            holes: Vec::new(),
            eave: Length::metres(6.0),
            roof: Roof::SingleSlope {
                rises_toward: Angle::degrees(0.0),
                pitch: 0.05,
            },
            wall: plain.clone(),
            deck: plain,
            open_edges: Vec::new(),
            collateral: None,
            used_as: Default::default(),
            notes: String::new(),
        };
        let framing = Framing {
            id: "J".into(),
            bay: "B1".into(),
            kind: MemberKind::OpenWebJoist,
            anchor: DVec2::ZERO,
            bearing: Angle::degrees(0.0),
            first: Length::metres(1.0),
            spacing: Length::metres(2.0),
            count: None,
            depth: Length::metres(0.6),
            seat: Length::metres(0.064),
            width: Length::metres(0.1),
            bears_on: vec!["A".into(), "B".into(), "C".into()],
            bottom: BottomChord::Parallel,
            hang_from: HangFrom::BottomChord,
            clamp_drop: Length::metres(0.05),
            panels: Some(Panels {
                first: Length::metres(1.5),
                spacing: Length::metres(1.2),
            }),
            allowed_at_point: Allowance::Known(Force::newtons(900.0)),
            allowed_off_panel: Allowance::Unknown,
            allowed_in_all: None,
            as_built: Vec::new(),
            notes: String::new(),
        };
        Site {
            grid: vec![
                line("A", (-1.0, 0.0), (21.0, 0.0)),
                line("C", (-1.0, 24.0), (21.0, 24.0)),
                line("B", (-1.0, 12.0), (21.0, 12.0)),
            ],
            bays: vec![Arc::new(bay)],
            framings: vec![Arc::new(framing)],
            ..Site::default()
        }
    }

    fn changed(site: &Site, change: impl FnOnce(&mut Framing)) -> Site {
        let mut site = site.clone();
        change(Arc::make_mut(&mut site.framings[0]));
        site
    }

    fn member<'a>(all: &'a [Arc<Member>], id: &str) -> &'a Member {
        all.iter().find(|member| member.id.as_str() == id).unwrap()
    }

    #[test]
    fn one_member_per_span_between_its_lines() {
        let all = members(&site());
        assert_eq!(all.len(), 20);
        let span = member(&all, "J-03/AB");
        assert_eq!((span.start, span.length_m), (DVec2::new(5.0, 0.0), 12.0));
        let points: Vec<f64> = span.panel_points.iter().map(|p| p.at_m).collect();
        assert_eq!(points.len(), 9);
        assert!((points[8] - 11.1).abs() < 1e-12);
        let upper = member(&all, "J-03/BC");
        assert_eq!(
            upper.start,
            DVec2::new(5.0, 12.0),
            "panel points restart in each span"
        );
    }

    #[test]
    fn attach_elevation_follows_roof_depth_and_clamp() {
        let all = members(&site());
        let span = member(&all, "J-03/BC");
        assert!((span.attach_at(2.0) - (6.0 + 0.05 * 14.0 - 0.6 - 0.05)).abs() < 1e-12);
        let top = changed(&site(), |f| f.hang_from = HangFrom::TopChord);
        let all = members(&top);
        assert!((member(&all, "J-03/BC").attach_at(2.0) - (6.7 - 0.064 - 0.05)).abs() < 1e-12);
        let level = changed(&site(), |f| f.bottom = BottomChord::Level);
        let all = members(&level);
        assert!((member(&all, "J-03/BC").attach_at(9.0) - (6.6 - 0.65)).abs() < 1e-12);
    }

    #[test]
    fn panel_points_count_from_the_lowest_line_whichever_way_members_run() {
        let south = changed(&site(), |f| {
            f.bearing = Angle::degrees(180.0);
            f.anchor = DVec2::new(20.0, 24.0);
        });
        let all = members(&south);
        let span = member(&all, "J-01/AB");
        assert_eq!(span.start, DVec2::new(19.0, 0.0));
        assert!((span.plan_at(span.panel_points[0].at_m).y - 1.5).abs() < 1e-12);
    }

    #[test]
    fn a_missing_member_makes_its_neighbours_neighbours() {
        let survey = changed(&site(), |f| {
            f.as_built = vec![
                MemberAdjustment {
                    missing: true,
                    ..MemberAdjustment::as_drawn(3)
                },
                MemberAdjustment {
                    moved: Length::metres(-0.5),
                    raised: Length::metres(0.02),
                    ..MemberAdjustment::as_drawn(4)
                },
            ];
        });
        let all = members(&survey);
        assert_eq!(all.len(), 18);
        let moved = member(&all, "J-04/AB");
        assert_eq!(moved.start.x, 6.5);
        assert!((moved.attach_at(0.0) - 5.37).abs() < 1e-12);
        assert!(moved.is_as_built);
        assert_eq!(moved.row, member(&all, "J-02/AB").row + 1);
    }

    #[test]
    fn a_notch_gives_two_spans_with_two_names() {
        let mut notched = site();
        Arc::make_mut(&mut notched.bays[0]).holes = vec![
            [(4.0, 4.0), (6.0, 4.0), (6.0, 6.0), (4.0, 6.0)]
                .map(DVec2::from)
                .to_vec(),
        ];
        let all = members(&notched);
        let ids: Vec<&str> = all
            .iter()
            .filter(|m| m.number == 3)
            .map(|m| m.id.as_str())
            .collect();
        assert_eq!(ids, ["J-03/Aw", "J-03/wB", "J-03/BC"]);
    }

    #[test]
    fn a_gable_breaks_a_span_at_the_ridge() {
        let mut gable = site();
        Arc::make_mut(&mut gable.bays[0]).roof = Roof::Gable {
            ridge_through: DVec2::new(0.0, 10.0),
            ridge_bearing: Angle::degrees(90.0),
            pitch: 0.1,
        };
        let all = members(&gable);
        let span = member(&all, "J-01/AB");
        assert_eq!(span.top_m.len(), 3);
        assert!((span.top_at(10.0) - 7.4).abs() < 1e-12);
        assert!((span.top_at(11.0) - 7.3).abs() < 1e-12);
    }
}
