//! The study of one run: how it hangs and what it comes near to.

use super::case::{RunCase, hang_alone};
use super::hardware::{HangerHardware, Store};
use super::neighbours::{Neighbours, Placed, lawful_from_cranes, neighbours};
use super::surroundings::Thing;
use super::{Spans, Surroundings, envelope, heater, steel};
use crate::catalogue::{Catalogue, Family, HeaterSize};
use crate::clearance::{
    CheckedRun, KeepClear, Measured, Obstacle, Required, RunBodies, Stacking, StackingGround,
    check_obstacle, check_run,
};
use crate::geometry::{Bounds, DVec2, DVec3, Polygon, tolerance};
use crate::hanging::{
    Candidate, Case, ChannelStock, Hanging, HangingRule, Kind, KindCosts, RunGeometry, SpanInSpace,
    candidates, mean_rise_k,
};
use crate::site::obstruction::ObstructionKind;
use crate::site::policy::PolicyItem;
use crate::site::{self, BayId, Combustibility, MemberId, Run, Site};
use crate::units::{Length, UnitSystem};
use std::sync::Arc;

/// How far beyond a run's envelope things are still measured, m: what is nearer than
/// this is worth showing although nothing is wrong.
pub(super) const MARGIN_M: f64 = 0.5;

/// The study of one run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunStudy {
    /// The run.
    pub run: Arc<Run>,
    /// Its family.
    pub family: Arc<Family>,
    /// Its size.
    pub size: HeaterSize,
    /// Its tube in space.
    pub geometry: RunGeometry,
    /// What its maker asks of its hangers.
    pub rule: HangingRule,
    /// How it hangs.
    pub hanging: Arc<Hanging>,
    /// How it would hang if no other run were there: the same, unless others leave it
    /// less room.
    pub alone: Arc<Hanging>,
    /// What hangs each of its hangers, in their order; empty without a hardware table.
    pub hardware: Vec<HangerHardware>,
    /// What it comes near to.
    pub clearance: RunClearance,
}

/// What a run comes near to, and where it is.
#[derive(Debug, Clone, PartialEq)]
pub struct RunClearance {
    /// Its bodies in its own frame.
    pub bodies: RunBodies,
    /// The maker's distances at its tilt and shields; none outside every tilt band.
    pub keep_clear: Option<KeepClear>,
    /// Distances in force to what burns, by the run's directions, hot. Outside every
    /// tilt band the greatest figures of all bands stand in.
    pub to_what_burns: Required,
    /// Distances that the law asks for to cranes, hot.
    pub to_cranes: Required,
    /// The same to what does not burn: policy's figures.
    pub to_what_does_not_burn: Required,
    /// Distances to where paint is sprayed, hot.
    pub to_spraying: Required,
    /// Keep-clear envelope round each body, (s, l, u).
    pub envelope: Vec<Bounds>,
    /// Everything near, nearest classes as measured.
    pub near: Vec<Clearance>,
    /// What codes and service ask of its neighbourhood besides.
    pub neighbours: Neighbours,
    /// Its lowest part, and the greatest height of goods on the floor below it.
    pub stacking: Stacking,
    /// The bay over whose floor its burner hangs.
    pub bay: Option<BayId>,
    /// Length of its plan outline that lies outside every bay, m.
    pub outside_m: f64,
    /// The plan point that lies farthest outside.
    pub outside_at: Option<DVec2>,
}

/// One thing near a run.
#[derive(Debug, Clone, PartialEq)]
pub struct Clearance {
    /// What it is.
    pub thing: Thing,
    /// Its kind, of an obstruction.
    pub kind: Option<ObstructionKind>,
    /// Whether it burns.
    pub burns: Combustibility,
    /// How near it is.
    pub measured: Measured,
    /// How deep it reaches into the heater itself, m: not negative; 0 where it only comes near.
    pub inside_body_m: f64,
}

/// What all runs of a site have in common.
pub(super) struct Setting<'a> {
    site: &'a Site,
    spans: &'a Spans,
    surroundings: &'a Surroundings,
    pub(super) costs: KindCosts,
    pub(super) channel: ChannelStock,
    /// How far a single hanger may hang low unnoticed, m.
    pub(super) level_error_m: f64,
    /// The least suspension whatever a maker allows, m.
    pub(super) least_suspension_m: f64,
    hardware: Store<'a>,
    to_what_does_not_burn: Required,
    bays: Vec<(BayId, Polygon)>,
}

impl<'a> Setting<'a> {
    pub(super) fn new(
        (site, catalogue): (&'a Site, &'a Catalogue),
        spans: &'a Spans,
        surroundings: &'a Surroundings,
    ) -> Self {
        Self {
            hardware: Store::new(site, &catalogue.hardware),
            site,
            spans,
            surroundings,
            costs: steel::costs(&site.policy),
            channel: steel::channel(site),
            level_error_m: site.policy.value(PolicyItem::HangerLevelError),
            least_suspension_m: site.policy.value(PolicyItem::LeastSuspension),
            to_what_does_not_burn: envelope::to_what_does_not_burn(&site.policy),
            bays: site
                .bays
                .iter()
                .map(|bay| {
                    (
                        bay.id.clone(),
                        Polygon {
                            outline: bay.outline.clone(),
                            holes: bay.holes.clone(),
                        },
                    )
                })
                .collect(),
        }
    }

    /// The spans that a run may reach, up to `farther_m` from where it is: a channel's
    /// members are at most its span away, and a leaning suspension reaches less.
    pub(super) fn spans_near(
        &self,
        geometry: &RunGeometry,
        farther_m: f64,
    ) -> Vec<Arc<SpanInSpace>> {
        let axis = geometry.axis();
        let (from, to) = (
            axis.point(0.0).truncate(),
            axis.point(geometry.tube_length_m).truncate(),
        );
        self.spans
            .index
            .near(from, to, self.channel.greatest_span_m.max(1.0) + farther_m)
            .into_iter()
            .map(|index| Arc::clone(&self.spans.all[index]))
            .collect()
    }
}

/// A run whose hanging by itself is known.
pub(super) struct BegunRun<'a> {
    pub(super) run: &'a Arc<Run>,
    pub(super) family: &'a Arc<Family>,
    pub(super) size: &'a HeaterSize,
    pub(super) alone: Arc<Hanging>,
}

impl<'a> BegunRun<'a> {
    pub(super) fn new(
        setting: &Setting<'_>,
        run: &'a Arc<Run>,
        (family, size): (&'a Arc<Family>, &'a HeaterSize),
        known: Option<Arc<Hanging>>,
    ) -> Self {
        let alone = known.unwrap_or_else(|| Arc::new(hang_alone(setting, run, family, size)));
        Self {
            run,
            family,
            size,
            alone,
        }
    }

    pub(super) fn case(&self, setting: &Setting<'_>) -> RunCase {
        RunCase::new(setting, self.run, self.family, self.size)
    }
}

impl RunStudy {
    pub(super) fn new(setting: &Setting<'_>, begun: &BegunRun<'_>, hanging: &Arc<Hanging>) -> Self {
        let (run, family, size) = (begun.run, begun.family, begun.size);
        let geometry = heater::geometry(run, family, size);
        let rule = heater::hanging_rule(family, size, setting.least_suspension_m);
        let clearance = clearance(setting, run, family, size, hanging);
        let hardware = setting.hardware.of_run(run, hanging);
        Self {
            run: Arc::clone(run),
            family: Arc::clone(family),
            size: size.clone(),
            geometry,
            rule,
            hanging: Arc::clone(hanging),
            alone: Arc::clone(&begun.alone),
            hardware,
            clearance,
        }
    }

    /// The tube's axis at its two ends, in space.
    #[must_use]
    pub fn axis_ends(&self) -> (DVec3, DVec3) {
        let axis = self.geometry.axis();
        (axis.point(0.0), axis.point(self.geometry.tube_length_m))
    }

    /// The run with its hangers kept where they are.
    #[must_use]
    pub fn with_kept_hangers(&self) -> Run {
        let hangers = self
            .hanging
            .hangers
            .iter()
            .map(|hanger| kept_hanger(&hanger.at))
            .collect();
        Run {
            hanging: site::Hanging::Locked(hangers),
            ..self.run.as_ref().clone()
        }
    }
}

/// A hanger at a hang point, as the document keeps it.
#[must_use]
pub fn kept_hanger(at: &Candidate) -> site::LockedHanger {
    site::LockedHanger {
        station: Length::metres(at.station_m),
        members: at.members().map(MemberId::new).collect(),
        at: match at.kind {
            Kind::Panel => at.first.place.panel_point().map(site::LockedAt::PanelPoint),
            Kind::OffPanel => Some(site::LockedAt::OffPanel),
            Kind::Line | Kind::Channel => None,
        },
    }
}

/// Hands on all that decides how a run hangs, as if no other were there.
pub(super) fn with_case<R>(
    setting: &Setting<'_>,
    study: &RunStudy,
    run: &Run,
    farther_m: f64,
    work: impl FnOnce(&Case<'_>) -> R,
) -> R {
    let owned = RunCase::within(setting, run, &study.family, &study.size, farther_m);
    work(&owned.case(setting))
}

/// Every hang point that was considered for a run.
pub(super) fn considered(setting: &Setting<'_>, run: &RunStudy) -> Vec<Candidate> {
    candidates(&RunCase::new(setting, &run.run, &run.family, &run.size).case(setting))
}

fn clearance(
    setting: &Setting<'_>,
    run: &Run,
    family: &Family,
    size: &HeaterSize,
    hanging: &Hanging,
) -> RunClearance {
    let bodies = envelope::bodies(run, family, size);
    let keep_clear = envelope::keep_clear(run, family.keep_clear_of(size));
    let form = envelope::form(run, family);
    // Without hangers nothing says where the tube is fixed: all of its growth counts.
    let leg = family.leg_length(size).as_metres();
    let growth = if hanging.hangers.is_empty() {
        crate::hanging::EXPANSION_PER_K * mean_rise_k(leg) * leg
    } else {
        hanging.growth.exhaust_end_m
    };
    let to_what_burns = keep_clear
        .unwrap_or_else(|| envelope::greatest_keep_clear(family.keep_clear_of(size)))
        .required(run.tilt.as_degrees(), &form)
        .with_margin(setting.site.policy.value(PolicyItem::KeepClearMargin))
        .with_jet(&form, jet_m(setting.site, run))
        .with_hot_movement(growth);
    let to_what_does_not_burn = setting.to_what_does_not_burn.with_hot_movement(growth);
    let checked = CheckedRun {
        required: vec![Some(to_what_burns), Some(to_what_does_not_burn)],
        bodies: bodies.clone(),
    };
    let near = check_run(&checked, &setting.surroundings.obstacles, MARGIN_M)
        .into_iter()
        .map(|measured| near_thing(setting.surroundings, &bodies, measured))
        .collect();
    let envelope: Vec<Bounds> = bodies.envelope(&to_what_burns).collect();
    let ground = ground(setting.site);
    let stacking = bodies.stacking(&to_what_burns, &ground);
    let hull = plan_hull(&bodies, bodies.bodies.iter().map(|body| &body.local));
    let (outside_m, outside_at) = outside(setting, &hull);
    let bay = setting
        .bays
        .iter()
        .find(|(_, outline)| outline.contains(run.burner))
        .map(|(id, _)| id.clone());
    let to_cranes = lawful_from_cranes(&setting.site.policy).with_hot_movement(growth);
    let to_spraying = Required::all_round(setting.site.policy.value(PolicyItem::SprayDistance))
        .with_hot_movement(growth);
    let placed = Placed {
        bodies: &bodies,
        growth_m: growth,
        to_cranes: &to_cranes,
        to_spraying: &to_spraying,
        tilt_degrees: run.tilt.as_degrees(),
        hull: &hull,
        stacking: &stacking,
        posted_step: ground.step,
    };
    let neighbours = neighbours(
        &placed,
        setting.surroundings,
        &setting.bays,
        &setting.site.policy,
    );
    RunClearance {
        bodies,
        keep_clear,
        to_what_burns,
        to_cranes,
        to_spraying,
        to_what_does_not_burn,
        envelope,
        near,
        neighbours,
        stacking,
        bay,
        outside_m,
        outside_at,
    }
}

/// How far the jet of an exhaust into the hall reaches beyond the fitting, m.
fn jet_m(site: &Site, run: &Run) -> f64 {
    match run.exhaust {
        site::Exhaust::Vented => 0.0,
        site::Exhaust::Unvented => site.policy.value(PolicyItem::ExhaustJet),
    }
}

fn near_thing(surroundings: &Surroundings, bodies: &RunBodies, measured: Measured) -> Clearance {
    let thing = &surroundings.things[measured.obstacle];
    let inside_body_m = if measured.is_breach() {
        depth_in_body(bodies, &surroundings.obstacles.all()[measured.obstacle])
    } else {
        0.0
    };
    Clearance {
        thing: thing.thing.clone(),
        kind: thing.kind,
        burns: thing.burns,
        measured,
        inside_body_m,
    }
}

/// How deep an obstacle reaches into the heater itself, m, not negative.
pub(super) fn depth_in_body(bodies: &RunBodies, obstacle: &Obstacle) -> f64 {
    let touching = CheckedRun {
        bodies: bodies.clone(),
        required: vec![Some(Required::all_round(0.0)); 3],
    };
    check_obstacle(&touching, 0, obstacle, 0.0)
        .map_or(0.0, |measured| (-measured.separation_m).max(0.0))
}

/// Goods stand on the finished floor; the posted figure is a multiple of 0.1 m or 4 in.
fn ground(site: &Site) -> StackingGround {
    StackingGround {
        surface_m: 0.0,
        level_error_m: site.policy.value(PolicyItem::LevelError),
        step: match site.units {
            UnitSystem::Metric => Length::millimetres(100.0),
            UnitSystem::FeetInches => Length::inches(4.0),
        },
    }
}

/// The outline in plan round boxes given in (s, l, u).
fn plan_hull<'a>(bodies: &'a RunBodies, boxes: impl Iterator<Item = &'a Bounds>) -> Vec<DVec2> {
    let corners: Vec<DVec2> = boxes
        .flat_map(|local| bodies.frame.corners(local))
        .map(DVec3::truncate)
        .collect();
    crate::geometry::pieces::convex_hull(&corners)
}

/// How much of a plan outline lies outside every bay, and its farthest corner outside;
/// the middle of all that are equally far, so that a turned site names the same place.
fn outside(setting: &Setting<'_>, hull: &[DVec2]) -> (f64, Option<DVec2>) {
    let mut outside_m = 0.0;
    let mut farthest: Option<(f64, Vec<DVec2>)> = None;
    for (a, b) in crate::geometry::polygon::ring_edges(hull) {
        let mut stretches: Vec<(f64, f64)> = setting
            .bays
            .iter()
            .flat_map(|(_, outline)| outline.clip_segment(a, b))
            .map(|stretch| (stretch.from_m, stretch.to_m))
            .collect();
        stretches.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut covered = 0.0;
        let mut reached: f64 = 0.0;
        for (from, to) in stretches {
            covered += (to - from.max(reached)).max(0.0);
            reached = reached.max(to);
        }
        outside_m += (a.distance(b) - covered).max(0.0);
        let away = setting
            .bays
            .iter()
            .map(|(_, outline)| {
                if outline.contains(a) {
                    0.0
                } else {
                    outline.distance_to_boundary(a)
                }
            })
            .fold(f64::INFINITY, f64::min);
        if away <= 0.0 {
            continue;
        }
        match &mut farthest {
            Some((known, _)) if away + tolerance::DISTANCE < *known => {}
            Some((known, corners)) if away <= *known + tolerance::DISTANCE => corners.push(a),
            _ => farthest = Some((away, vec![a])),
        }
    }
    // Summing clipped stretches leaves rounding behind.
    if outside_m <= tolerance::LIMIT * 10.0 {
        return (0.0, None);
    }
    #[expect(
        clippy::cast_precision_loss,
        reason = "an outline has far fewer corners than 2^52"
    )]
    let middle = |corners: Vec<DVec2>| corners.iter().sum::<DVec2>() / corners.len() as f64;
    (outside_m, farthest.map(|(_, corners)| middle(corners)))
}
