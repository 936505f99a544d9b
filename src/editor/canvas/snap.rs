//! Where the pointer catches: on points, on lines, in line with other things, square to
//! where it came from, and else on round distances from the grid.

mod keys;
mod rail;
mod round;

pub(crate) use keys::keys;

use crate::editor::Editor;
use crate::editor::camera::Camera;
use crate::editor::extent::{RunPlan, outlines};
use crate::geometry::DVec2;
use crate::geometry::polygon::ring_edges;
use crate::geometry::segment::{distance_to_segment, meeting};
use crate::site::grid::{families, nearest};
use crate::site::{Object, ObjectId, Site};
use crate::structure::Member;
use crate::units::UnitSystem;
use rail::Rail;
use round::round_step;
use std::collections::BTreeSet;
use std::sync::Arc;

/// How near the pointer must be to catch, points.
const REACH: f32 = 9.0;
/// How near it must be to fall in line with something far away.
const IN_LINE: f32 = 5.0;

/// Where the pointer is, and why there.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Snapped {
    /// The site point.
    pub(crate) at: DVec2,
    /// What it caught on; none where it is free or rounded.
    pub(crate) why: Option<String>,
    /// Lines that show what it is in line with.
    pub(crate) guides: Vec<(DVec2, DVec2)>,
}

impl Snapped {
    pub(crate) fn free(at: DVec2) -> Self {
        Self {
            at,
            why: None,
            guides: Vec::new(),
        }
    }
}

#[derive(Debug, Clone)]
struct SnapPoint {
    at: DVec2,
    what: &'static str,
    of: ObjectId,
}

#[derive(Debug, Clone)]
struct SnapLine {
    a: DVec2,
    b: DVec2,
    what: &'static str,
    of: ObjectId,
}

/// What there is to catch on; made again when the site is another one.
#[derive(Debug, Default)]
pub(crate) struct SnapIndex {
    site: Option<Arc<Site>>,
    points: Vec<SnapPoint>,
    lines: Vec<SnapLine>,
}

/// What is asked of the index.
#[derive(Debug)]
pub(crate) struct Query<'a> {
    pub(crate) camera: &'a Camera,
    pub(crate) units: UnitSystem,
    pub(crate) members: &'a [Arc<Member>],
    /// Where the line that is being drawn began.
    pub(crate) from: Option<DVec2>,
    /// What is being moved and so can't be caught on.
    pub(crate) moving: &'a BTreeSet<ObjectId>,
}

impl SnapIndex {
    /// Follows the committed site: what is half done is nothing to catch on.
    pub(crate) fn follow(&mut self, editor: &Editor) {
        let site = editor.document.committed();
        let known = self.site.as_ref();
        if known.is_some_and(|known| Arc::ptr_eq(known, site)) {
            return;
        }
        self.site = Some(Arc::clone(site));
        self.points.clear();
        self.lines.clear();
        for id in site.object_ids() {
            if let Some(object) = site.object(&id) {
                self.learn(editor, &id, &object);
            }
        }
        self.learn_crossings(site);
    }

    fn learn(&mut self, editor: &Editor, id: &ObjectId, object: &Object) {
        match object {
            Object::GridLine(line) => {
                self.line(id, "grid line", line.from, line.to);
            }
            Object::Bay(bay) => {
                for ring in std::iter::once(&bay.outline).chain(&bay.holes) {
                    self.ring(id, ring, "wall", "corner of", "middle of a wall of");
                }
            }
            Object::Obstruction(it) => {
                for ring in outlines(it) {
                    self.ring(id, &ring, "edge of", "corner of", "middle of a side of");
                }
            }
            Object::Run(run) => {
                let plan = RunPlan::of(run, &editor.catalogue);
                self.point(id, "burner of", plan.flange);
                self.point(id, "end of", plan.end());
                self.line(id, "axis of", plan.flange, plan.end());
            }
            Object::WorkSpot(spot) => self.point(id, "", spot.at),
            Object::Opening(_) | Object::Framing(_) | Object::SectionLine(_) => {}
        }
    }

    fn point(&mut self, of: &ObjectId, what: &'static str, at: DVec2) {
        let of = of.clone();
        self.points.push(SnapPoint { at, what, of });
    }

    fn line(&mut self, of: &ObjectId, what: &'static str, a: DVec2, b: DVec2) {
        let of = of.clone();
        self.lines.push(SnapLine { a, b, what, of });
    }

    fn ring(
        &mut self,
        of: &ObjectId,
        ring: &[DVec2],
        edge: &'static str,
        corner: &'static str,
        middle: &'static str,
    ) {
        for (a, b) in ring_edges(ring) {
            self.point(of, corner, a);
            self.point(of, middle, (a + b) / 2.0);
            self.line(of, edge, a, b);
        }
    }

    fn learn_crossings(&mut self, site: &Site) {
        let grids = families(&site.grid);
        for (place, one) in grids.iter().enumerate() {
            for other in &grids[place + 1..] {
                for a in one {
                    for b in other {
                        if let Some(met) = meeting(a.from, a.to, b.from, b.to) {
                            self.points.push(SnapPoint {
                                at: met.place(),
                                what: "crossing of grid lines",
                                of: ObjectId::GridLine(
                                    format!("{} and {}", a.id, b.id).as_str().into(),
                                ),
                            });
                        }
                    }
                }
            }
        }
    }

    /// Catches a point.
    pub(crate) fn snap(&self, at: DVec2, query: &Query<'_>) -> Snapped {
        self.catch(at, query)
            .unwrap_or_else(|| Snapped::free(self.rounded(at, query)))
    }

    /// Catches a point, unless there is nothing to catch on.
    pub(crate) fn catch(&self, at: DVec2, query: &Query<'_>) -> Option<Snapped> {
        let reach = query.camera.site_length(REACH);
        if let Some(found) = self.nearest_point(at, reach, query) {
            return Some(found);
        }
        let mut rails = self.rails(at, reach, query);
        rails.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        let first = rails.first()?;
        let second = rails[1..].iter().find_map(|rail| {
            let met = first.meets(rail)?;
            ((met - at).length() <= 1.5 * reach).then_some((rail, met))
        });
        Some(match second {
            Some((rail, met)) => Snapped {
                at: met,
                why: Some(format!("{}, {}", first.why, rail.why)),
                guides: [first, rail]
                    .into_iter()
                    .filter_map(|rail| rail.guide(met))
                    .collect(),
            },
            None => {
                let along = (at - first.point).dot(first.direction);
                let on = first.point + first.direction * along;
                let on = self.rounded_on(on, first, query);
                Snapped {
                    at: on,
                    why: Some(first.why.clone()),
                    guides: first.guide(on).into_iter().collect(),
                }
            }
        })
    }

    fn nearest_point(&self, at: DVec2, reach: f64, query: &Query<'_>) -> Option<Snapped> {
        let mine = self
            .points
            .iter()
            .filter(|point| !query.moving.contains(&point.of))
            .map(|point| ((point.at - at).length(), point))
            .filter(|(distance, _)| *distance <= reach)
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let panel = panel_point_near(at, reach, query);
        match (mine, panel) {
            (Some((near, _)), Some((nearer, snapped))) if nearer < near => Some(snapped),
            (Some((_, point)), _) => Some(Snapped {
                at: point.at,
                why: Some(format!("{} {}", point.what, point.of).trim().to_owned()),
                guides: Vec::new(),
            }),
            (None, panel) => panel.map(|(_, snapped)| snapped),
        }
    }

    fn rails(&self, at: DVec2, reach: f64, query: &Query<'_>) -> Vec<Rail> {
        let mut rails = Vec::new();
        for line in &self.lines {
            if query.moving.contains(&line.of) {
                continue;
            }
            let off = distance_to_segment(at, line.a, line.b);
            if off <= reach {
                let why = format!("{} {}", line.what, line.of);
                rails.extend(Rail::new(line.a, line.b - line.a, off, why));
            }
        }
        for member in query.members {
            let off = distance_to_segment(at, member.start, member.end());
            if off <= reach {
                let why = format!("member {}", member.id);
                rails.extend(Rail::new(member.start, member.direction, off, why));
            }
        }
        let in_line = query.camera.site_length(IN_LINE);
        if let Some(from) = query.from {
            for (direction, off) in [
                (DVec2::X, (at.y - from.y).abs()),
                (DVec2::Y, (at.x - from.x).abs()),
            ] {
                if off <= in_line && 2.0 * reach < (at - from).length() {
                    rails.extend(Rail::new(from, direction, off, "square".to_owned()));
                }
            }
        }
        rails.extend(self.in_line(at, in_line, DVec2::X, query));
        rails.extend(self.in_line(at, in_line, DVec2::Y, query));
        rails
    }

    /// The nearest thing that `at` is in line with along an axis.
    fn in_line(&self, at: DVec2, reach: f64, axis: DVec2, query: &Query<'_>) -> Option<Rail> {
        let across = axis.perp();
        let (least, greatest) = query.camera.in_view();
        let found = self
            .points
            .iter()
            .filter(|point| point.what != "crossing of grid lines")
            .filter(|point| !query.moving.contains(&point.of))
            .filter(|point| point.at.cmpge(least).all() && point.at.cmple(greatest).all())
            .map(|point| ((point.at - at).dot(across).abs(), point))
            .filter(|(off, _)| *off <= reach)
            .min_by(|a, b| {
                let far = |point: &SnapPoint| (point.at - at).length();
                (a.0.total_cmp(&b.0)).then_with(|| far(a.1).total_cmp(&far(b.1)))
            })?;
        let (off, point) = found;
        let mut rail = Rail::new(point.at, axis, off, format!("in line with {}", point.of))?;
        // Being on something beats being in line with something.
        rail.cost += reach;
        rail.shows_guide = true;
        Some(rail)
    }

    /// A free point at round distances from the nearest grid lines.
    fn rounded(&self, at: DVec2, query: &Query<'_>) -> DVec2 {
        let step = round_step(query.camera, query.units);
        let base = self.round_base(at);
        base + ((at - base) / step).round() * step
    }

    /// A point on a line, at a round distance along it.
    fn rounded_on(&self, on: DVec2, rail: &Rail, query: &Query<'_>) -> DVec2 {
        let step = round_step(query.camera, query.units);
        let base = self.round_base(on);
        let along = (on - base).dot(rail.direction);
        on + rail.direction * ((along / step).round() * step - along)
    }

    /// Where round distances are counted from: the nearest grid lines that run along
    /// the axes, else the origin.
    fn round_base(&self, at: DVec2) -> DVec2 {
        let mut base = DVec2::ZERO;
        let Some(site) = &self.site else {
            return base;
        };
        for family in families(&site.grid) {
            let Some(found) = nearest(&family, at) else {
                continue;
            };
            let Some(line) = family.iter().find(|line| line.id == found.line) else {
                continue;
            };
            let direction = line.direction();
            if direction.x.abs() < 1e-9 {
                base.x = line.from.x;
            } else if direction.y.abs() < 1e-9 {
                base.y = line.from.y;
            }
        }
        base
    }
}

/// The panel point near a plan point, where panel points are drawn.
fn panel_point_near(at: DVec2, reach: f64, query: &Query<'_>) -> Option<(f64, Snapped)> {
    query
        .members
        .iter()
        .filter(|member| distance_to_segment(at, member.start, member.end()) <= reach)
        .filter_map(|member| {
            let along = (at - member.start).dot(member.direction);
            let point = member
                .panel_points
                .iter()
                .min_by(|a, b| (a.at_m - along).abs().total_cmp(&(b.at_m - along).abs()))?;
            let place = member.plan_at(point.at_m);
            let distance = (place - at).length();
            let apart = match member.panel_points.as_slice() {
                [a, b, ..] => b.at_m - a.at_m,
                _ => f64::INFINITY,
            };
            // Panel points closer than the reach would never let go.
            (distance <= reach && 2.0 * reach <= apart).then(|| {
                let why = format!("panel point {} of {}", point.number, member.id);
                (
                    distance,
                    Snapped {
                        at: place,
                        why: Some(why),
                        guides: Vec::new(),
                    },
                )
            })
        })
        .min_by(|a, b| a.0.total_cmp(&b.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::site::GridLine;

    fn editor() -> Editor {
        let line = |id: &str, from: (f64, f64), to: (f64, f64)| {
            Arc::new(GridLine {
                id: id.into(),
                from: from.into(),
                to: to.into(),
                notes: String::new(),
            })
        };
        let site = Site {
            grid: vec![
                line("A", (-2.0, 0.0), (40.0, 0.0)),
                line("B", (-2.0, 12.3), (40.0, 12.3)),
                line("1", (0.0, -2.0), (0.0, 20.0)),
            ],
            ..Site::default()
        };
        Editor::new(site, Arc::new(Catalogue::default()))
    }

    fn check(at: (f64, f64), expected: (f64, f64), why: Option<&str>) {
        let editor = editor();
        let mut index = SnapIndex::default();
        index.follow(&editor);
        let camera = Camera::default();
        let found = index.snap(
            at.into(),
            &Query {
                camera: &camera,
                units: UnitSystem::Metric,
                members: &[],
                from: None,
                moving: &BTreeSet::new(),
            },
        );
        assert!(
            (found.at - DVec2::from(expected)).length() < 1e-9,
            "{found:?}"
        );
        assert_eq!(found.why.as_deref(), why);
    }

    #[test]
    fn points_beat_lines_and_lines_beat_round_distances() {
        check(
            (0.3, 0.4),
            (0.0, 0.0),
            Some("crossing of grid lines A and 1"),
        );
        check((7.2, 0.4), (7.0, 0.0), Some("grid line A"));
        // Free, it is at a round distance from B, not from the origin.
        check((7.2, 9.2), (7.0, 9.3), None);
    }
}
