//! Lays framing: one drag inside a bay, the way its members run.

use super::sketch::{Act, Form, Ghost, Sketch, Stand};
use crate::editor::extent::wall;
use crate::editor::figures::length;
use crate::editor::intent::Intent;
use crate::editor::make::{self, Made};
use crate::geometry::DVec2;
use crate::geometry::math::atan2;
use crate::geometry::polygon::Polygon;
use crate::site::{Bay, Site};
use crate::units::{Angle, Length};
use std::sync::Arc;

/// Members within 12 degrees of a wall, or of square to it, are meant to run so, sine:
/// few roofs are framed askew, and a hand is not steady.
const ALONG_WALL: f64 = 0.208;

pub(super) fn act(sketch: &mut Sketch, act: Act, stand: &Stand<'_>) -> Vec<Intent> {
    let (from, to) = match act {
        Act::Press(at) => {
            sketch.pressed = Some(at);
            sketch.points.clear();
            return Vec::new();
        }
        Act::Release(at) => match sketch.pressed.take() {
            Some(from) => (from, at),
            None => return Vec::new(),
        },
        Act::Click(at) => match sketch.points.pop() {
            Some(from) => (from, at),
            None => {
                sketch.points.push(at);
                return Vec::new();
            }
        },
        Act::Move(_) | Act::Finish => return Vec::new(),
    };
    framing(from, to, stand).map_or_else(Vec::new, |made| vec![Intent::Make(made)])
}

/// The framing for a stroke from one point to another: its members run along the stroke,
/// one of them passes through it, and they are counted from the wall at their left.
fn framing(from: DVec2, to: DVec2, stand: &Stand<'_>) -> Option<Made> {
    let editor = stand.editor;
    let site = editor.committed();
    let bay = bay_at(site, from).or_else(|| bay_at(site, to))?;
    let direction = settled(bay, (to - from).try_normalize()?);
    let right = -direction.perp();
    let first_corner = bay
        .outline
        .iter()
        .copied()
        .min_by(|a, b| a.dot(right).total_cmp(&b.dot(right)))?;
    let mut drafts = editor.drafts.clone();
    if let Some(spacing) = stand.typed.first_m {
        drafts.framing.spacing = Length::metres(spacing);
    }
    let spacing = drafts.framing.spacing.as_metres();
    let off = (from - first_corner).dot(right).rem_euclid(spacing);
    // On the wall itself there is no member: the first is one spacing in.
    let on_wall = off < 0.02 || spacing - off < 0.02;
    drafts.framing.first = Length::metres(if on_wall { spacing } else { off });
    drafts.framing.bears_on = make::bearers(&site.grid, bay, direction);
    let bearing = atan2(direction.x, direction.y)
        .to_degrees()
        .rem_euclid(360.0);
    // A stroke along a wall has that wall's bearing, not one a hair beside it.
    let bearing = (bearing * 1e6).round() / 1e6;
    Some(make::framing(
        site,
        &drafts,
        bay,
        first_corner,
        Angle::degrees(bearing),
    ))
}

fn bay_at(site: &Site, at: DVec2) -> Option<&Arc<Bay>> {
    site.bays
        .iter()
        .find(|bay| Polygon::new(bay.outline.clone()).contains(at))
}

/// The direction of a stroke, or of the wall that it runs along or across.
fn settled(bay: &Bay, direction: DVec2) -> DVec2 {
    let walls = (0..bay.outline.len()).filter_map(|edge| {
        let (a, b) = wall(bay, edge)?;
        (b - a).try_normalize()
    });
    walls
        .flat_map(|along| [along, along.perp()])
        .flat_map(|along| [along, -along])
        .filter(|along| along.perp_dot(direction).abs() < ALONG_WALL && 0.0 < along.dot(direction))
        .min_by(|a, b| {
            let off = |along: &DVec2| along.perp_dot(direction).abs();
            off(a).total_cmp(&off(b))
        })
        .unwrap_or(direction)
}

pub(super) fn ghost(sketch: &Sketch, at: DVec2, stand: &Stand<'_>) -> Ghost {
    let site = stand.editor.committed();
    let spacing = stand
        .typed
        .first_m
        .map_or(stand.editor.drafts.framing.spacing, Length::metres);
    let said = length(site.units, spacing);
    let Some(from) = sketch.from() else {
        return Ghost::hint(if site.bays.is_empty() {
            "Framing needs a bay: draw one first".to_owned()
        } else {
            format!("Drag along one member; the others follow every {said}")
        });
    };
    let mut ghost = Ghost::hint(format!(
        "Let go to lay members every {said}, or type their spacing"
    ));
    ghost.lines.push((vec![from, at], Form::Open));
    if let Some(made) = framing(from, at, stand) {
        ghost.lines.extend(members_of(site, &made));
    }
    ghost
}

/// The members that a framing would have, as light lines.
fn members_of(site: &Site, made: &Made) -> Vec<(Vec<DVec2>, Form)> {
    let Ok(next) = made.edit.apply(site) else {
        return Vec::new();
    };
    let id = made.ids.first().map(|id| id.as_str().to_owned());
    crate::structure::members(&next)
        .iter()
        .filter(|member| Some(member.framing.as_str()) == id.as_deref())
        .map(|member| (vec![member.start, member.end()], Form::Light))
        .collect()
}
