//! The site cut along a section line: what is cut, what is seen behind, and the measures.
//!
//! Coordinates are (u, z): metres along the plane from its left end as one looks at it,
//! and metres above the finished floor.

mod line;
mod measures;
mod runs;
mod things;
pub mod words;

pub use line::{default_line, line_through, plane_of};
pub use measures::{Height, RoomSeen};
pub(in crate::views) use things::web_of;

pub use runs::{CutEnvelope, CutRun, HangerSeen};

use crate::findings::{Finding, Severity};
use crate::geometry::{DVec2, DVec3, UprightPlane};
use crate::site::obstruction::ObstructionKind;
use crate::site::{GridId, SectionLine, Site};
use crate::study::{Study, Thing};

/// The site cut along a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The line.
    pub line: SectionLine,
    /// Its plane; u is 0 at its left end.
    pub plane: UprightPlane,
    /// Length of the line, m.
    pub width_m: f64,
    /// The highest thing shown, m above the floor.
    pub top_m: f64,
    /// Grid lines that cross it, from left to right.
    pub grid: Vec<(f64, GridId)>,
    /// What is seen behind the plane, the farthest first.
    pub seen: Vec<Seen>,
    /// Walls, decks, members and obstructions that are cut.
    pub cut: Vec<Cut>,
    /// Keep-clear envelopes that are cut.
    pub envelopes: Vec<CutEnvelope>,
    /// Heaters that are cut.
    pub runs: Vec<CutRun>,
    /// Suspensions near the plane: of each run the nearest.
    pub hangers: Vec<HangerSeen>,
    /// Heights of the runs that are cut, with what may be stacked below them.
    pub heights: Vec<Height>,
    /// Distances available to what governs, in each direction of each run that is cut.
    pub rooms: Vec<RoomSeen>,
    /// Findings that lie near the plane, by their place in the list, worst first.
    pub findings: Vec<(usize, DVec2)>,
}

/// A thing seen behind the plane.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// What it is.
    pub thing: Thing,
    /// Its kind, of an obstruction.
    pub kind: Option<ObstructionKind>,
    /// Convex areas, counter-clockwise.
    pub areas: Vec<Vec<DVec2>>,
    /// Their common outline.
    pub outline: Vec<(DVec2, DVec2)>,
    /// Lines on it: the web of a joist.
    pub lines: Vec<(DVec2, DVec2)>,
    /// How far behind the plane it begins, m.
    pub behind_m: f64,
}

/// A thing that is cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// What it is.
    pub thing: Thing,
    /// Its kind, of an obstruction.
    pub kind: Option<ObstructionKind>,
    /// Convex areas, counter-clockwise.
    pub areas: Vec<Vec<DVec2>>,
    /// Their common outline.
    pub outline: Vec<(DVec2, DVec2)>,
}

impl Cut {
    /// The area that is cut, m2; where its solids overlap it counts twice.
    #[must_use]
    pub fn area_m2(&self) -> f64 {
        let area = |ring: &Vec<DVec2>| crate::geometry::polygon::signed_area(ring);
        self.areas.iter().map(area).sum()
    }
}

/// How far in front of the plane a finding still belongs to the section, m: its place is
/// the nearest point of something that the plane may just miss.
const IN_FRONT_M: f64 = 0.3;

/// Cuts a studied site along a line.
#[must_use]
pub fn section(site: &Site, study: &Study, findings: &[Finding], line: &SectionLine) -> Section {
    let stage = Stage::of(line);
    let Stage { plane, width_m, .. } = stage;
    let (cut, mut seen) = things::things(&stage, study);
    let runs = runs::runs(&stage, study, &mut seen);
    // Decks, then walls, lie behind everything that is under the roof; the rest by distance.
    let rank = |it: &Seen| match it.thing {
        Thing::Deck(_) => 0,
        Thing::Wall(..) => 1,
        _ => 2,
    };
    seen.sort_by(|a, b| {
        rank(a)
            .cmp(&rank(b))
            .then(b.behind_m.total_cmp(&a.behind_m))
            .then_with(|| a.thing.cmp(&b.thing))
    });
    let envelopes = runs::envelopes(&stage, study);
    let hangers = runs::hangers(&stage, study);
    let heights = measures::heights(&runs, study);
    let rooms = measures::rooms(&stage, &runs, &cut, study);
    let top_m = top(&cut, &seen, &envelopes);
    Section {
        line: line.clone(),
        plane,
        width_m,
        top_m,
        grid: line::grid(&stage, site),
        seen,
        cut,
        envelopes,
        runs,
        hangers,
        heights,
        rooms,
        findings: near(&stage, findings),
    }
}

/// The plane and how much of the site on and behind it is shown.
#[derive(Debug, Clone, Copy)]
struct Stage {
    plane: UprightPlane,
    width_m: f64,
    depth_m: f64,
}

/// Where a place is in the section along a line; none if it isn't on the plane, or a
/// little before it, or up to the line's depth behind it.
#[must_use]
pub fn place_in(line: &SectionLine, place: DVec3) -> Option<DVec2> {
    Stage::of(line).shows(place)
}

impl Stage {
    fn of(line: &SectionLine) -> Self {
        let (plane, width_m) = plane_of(line);
        Self {
            plane,
            width_m,
            depth_m: line.depth.as_metres(),
        }
    }

    /// Where a place on the plane, or near enough to it, is seen.
    fn shows(&self, place: DVec3) -> Option<DVec2> {
        let behind_m = self.plane.behind_m(place);
        let at = self.plane.seen(place);
        let is_near = -IN_FRONT_M <= behind_m
            && behind_m <= self.depth_m
            && 0.0 <= at.x
            && at.x <= self.width_m;
        is_near.then_some(at)
    }

    /// A convex area between the ends of the line; empty where nothing is left.
    fn within(&self, area: &[DVec2]) -> Vec<DVec2> {
        use crate::geometry::pieces::cut_by_line;
        if area.iter().all(|p| 0.0 <= p.x && p.x <= self.width_m) {
            return area.to_vec();
        }
        let right = cut_by_line(area, DVec2::X, self.width_m);
        let both = cut_by_line(&right, -DVec2::X, 0.0);
        if both.len() < 3 { Vec::new() } else { both }
    }
}

fn top(cut: &[Cut], seen: &[Seen], envelopes: &[CutEnvelope]) -> f64 {
    let cut = cut.iter().flat_map(|it| &it.areas);
    let seen = seen.iter().flat_map(|it| &it.areas);
    let envelopes = envelopes.iter().flat_map(|it| &it.areas);
    let points = cut.chain(seen).chain(envelopes).flatten();
    points.map(|p| p.y).fold(3.0, f64::max)
}

/// Breaches and cautions that lie on the plane, or a little before it, or up to its depth
/// behind it.
fn near(stage: &Stage, findings: &[Finding]) -> Vec<(usize, DVec2)> {
    let places = findings.iter().enumerate();
    places
        .filter(|(_, finding)| finding.severity != Severity::Note)
        .filter_map(|(index, finding)| {
            let place = finding.place?;
            stage.shows(place).map(|at| (index, at))
        })
        .collect()
}
