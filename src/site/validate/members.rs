//! Framings, and how many members they make, computed before any is built.

use super::{
    BEARING, FARTHEST_M, LEAST_SPACING_M, MOST_MEMBERS, MOST_PANEL_POINTS, NOTE_BYTES, PLAN,
    as_built, shape,
};
use crate::geometry::DVec2;
use crate::geometry::tolerance::SAME_POINT;
use crate::problem::{Bounds, Check, Problems};
use crate::site::bay::along;
use crate::site::{Allowance, Bay, Framing, HangFrom, Site};

/// Depths of members and seats: the greatest.
const DEEPEST_M: f64 = 20.0;
/// Loads that an engineer may allow: up to a hundred tonnes.
const LOAD: Bounds = Bounds::new(0.0, 1e6, "N");
/// The first panel point from the span's end.
const FIRST_PANEL: Bounds = Bounds::metres(0.0, 1_000.0);
/// Spacing of panel points.
const PANEL_SPACING: Bounds = Bounds::metres(LEAST_SPACING_M, 1_000.0);

pub(super) fn check_framing(framing: &Framing, site: &Site, check: &mut Check<'_>) {
    check.text("notes", &framing.notes, NOTE_BYTES);
    if !site.bays.iter().any(|bay| bay.id == framing.bay) {
        check.refuse("bay", &framing.bay, "the id of a bay of this site");
    }
    shape::check_point("anchor", framing.anchor, check);
    if let Some(count) = framing.count {
        check.count("count", count, 1, MOST_MEMBERS);
    }
    let metres = Bounds::metres;
    let lengths = [
        ("first", framing.first, PLAN),
        (
            "spacing",
            framing.spacing,
            metres(LEAST_SPACING_M, FARTHEST_M),
        ),
        ("depth", framing.depth, metres(0.001, DEEPEST_M)),
        ("seat", framing.seat, metres(0.0, DEEPEST_M)),
        ("width", framing.width, metres(0.001, 5.0)),
        ("clamp_drop", framing.clamp_drop, metres(0.0, 5.0)),
    ];
    for (field, length, bounds) in lengths {
        check.number(field, length.as_metres(), bounds);
    }
    check.number("bearing", framing.bearing.as_degrees(), BEARING);
    check_bearing_lines(framing, site, check);
    check_hang_points(framing, check);
    as_built::check_deviations(framing, check);
}

fn check_bearing_lines(framing: &Framing, site: &Site, check: &mut Check<'_>) {
    check.count("bears_on", framing.bears_on.len(), 0, site.grid.len());
    let mut seen = std::collections::BTreeSet::new();
    for (i, line) in framing.bears_on.iter().enumerate() {
        let field = format_args!("bears_on[{i}]");
        if !seen.insert(line) {
            check.refuse(field, format_args!("{line} again"), "each line once");
        } else if !site.grid.iter().any(|known| known.id == *line) {
            check.refuse(field, line, "the id of a grid line of this site");
        }
    }
}

fn check_hang_points(framing: &Framing, check: &mut Check<'_>) {
    let (kind, label) = (framing.kind, framing.kind.label());
    match (&framing.panels, kind.has_panel_points()) {
        (Some(panels), true) => {
            check.number("panels.first", panels.first.as_metres(), FIRST_PANEL);
            check.number("panels.spacing", panels.spacing.as_metres(), PANEL_SPACING);
        }
        (None, true) => {
            let accepted = format_args!("where the panel points of the {label} are");
            check.refuse("panels", "None", accepted);
        }
        (Some(_), false) => {
            let accepted = format_args!("None: a {label} has no panel points");
            check.refuse("panels", "panel points", accepted);
        }
        (None, false) => {}
    }
    let has_chords = kind.has_panel_points();
    match framing.hang_from {
        HangFrom::BottomChord | HangFrom::TopChord if !has_chords => {
            let found = format_args!("{:?}", framing.hang_from);
            check.refuse("hang_from", found, format_args!("Flange for a {label}"));
        }
        HangFrom::Flange if has_chords => {
            let accepted = format_args!("BottomChord or TopChord for a {label}");
            check.refuse("hang_from", "Flange", accepted);
        }
        HangFrom::BottomChord | HangFrom::TopChord | HangFrom::Flange => {}
    }
    let allowances = [
        ("allowed_at_point", framing.allowed_at_point),
        ("allowed_off_panel", framing.allowed_off_panel),
    ];
    for (field, allowance) in allowances {
        if let Allowance::Known(force) = allowance {
            check.number(field, force.as_newtons(), LOAD);
        }
    }
    if let Some(force) = framing.allowed_in_all {
        check.number("allowed_in_all", force.as_newtons(), LOAD);
    }
}

/// That all framings together stay within the caps.
pub(super) fn check_totals(site: &Site, problems: &mut Problems) {
    let mut total = Amount::default();
    for (i, framing) in site.framings.iter().enumerate() {
        let Some(bay) = site.bays.iter().find(|bay| bay.id == framing.bay) else {
            continue;
        };
        let amount = amount(framing, bay, site);
        total.spans = total.spans.saturating_add(amount.spans);
        total.panel_points = total.panel_points.saturating_add(amount.panel_points);
        let (found, most, field, what) = if total.spans > MOST_MEMBERS {
            (total.spans, MOST_MEMBERS, "spacing", "members")
        } else if total.panel_points > MOST_PANEL_POINTS {
            let found = total.panel_points;
            (found, MOST_PANEL_POINTS, "panels.spacing", "panel points")
        } else {
            continue;
        };
        let mut check = Check::of(problems, format_args!("framings[{i}]"), &framing.id);
        let found = format_args!("{found} {what} in the site up to this framing");
        let accepted = format_args!("at most {most} in all: a wider spacing or a smaller count");
        check.refuse(field, found, accepted);
        return;
    }
}

/// How much a framing makes, at most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Amount {
    spans: usize,
    panel_points: usize,
}

/// Counts from spacing and extent alone. Numbers that the other checks refuse count as
/// nothing here, so that they are reported once.
fn amount(framing: &Framing, bay: &Bay, site: &Site) -> Amount {
    let heading = along(framing.bearing);
    let (first, spacing) = (framing.first.as_metres(), framing.spacing.as_metres());
    let across = extent(bay, framing.anchor, -heading.perp());
    let lengthwise = extent(bay, framing.anchor, heading);
    let usable = first.is_finite() && LEAST_SPACING_M <= spacing;
    let (Some(across), Some(lengthwise), true) = (across, lengthwise, usable) else {
        return Amount::default();
    };
    // Member k lies at first + k spacing, for k of 0 and up; all are numbered, also those
    // that lie before the bay.
    let reach = (across.greatest_m - first + SAME_POINT) / spacing;
    let fitting = whole(reach.floor() + 1.0);
    let n_lines = framing.count.map_or(fitting, |count| count.min(fitting));
    let cuts = |line: &crate::site::GridLine| {
        extent(bay, line.from, line.direction().perp())
            .is_some_and(|side| side.least_m < -SAME_POINT && SAME_POINT < side.greatest_m)
    };
    let n_cuts = framing
        .bears_on
        .iter()
        .filter_map(|id| site.grid.iter().find(|line| line.id == *id))
        .filter(|line| cuts(line))
        .count();
    let n_panels = framing.panels.map_or(0, |panels| {
        let spacing = panels.spacing.as_metres().max(LEAST_SPACING_M);
        whole(((lengthwise.greatest_m - lengthwise.least_m) / spacing).ceil())
    });
    Amount {
        spans: n_lines.saturating_mul(n_cuts + 1),
        panel_points: n_lines.saturating_mul(n_panels),
    }
}

pub(super) struct Extent {
    pub(super) least_m: f64,
    pub(super) greatest_m: f64,
}

/// How far a bay's outline reaches along a unit vector, measured from a point.
pub(super) fn extent(bay: &Bay, from: DVec2, along: DVec2) -> Option<Extent> {
    let mut reach = bay.outline.iter().map(|corner| (*corner - from).dot(along));
    let first = reach.next()?;
    let (least_m, greatest_m) = reach.fold((first, first), |(lo, hi), x| (lo.min(x), hi.max(x)));
    // Between two places of the plan there is no more than its diagonal.
    let diagonal = 3.0 * FARTHEST_M;
    (-diagonal <= least_m && greatest_m <= diagonal).then_some(Extent {
        least_m,
        greatest_m,
    })
}

/// A whole count from a computed one; none where it is negative or no number.
fn whole(count: f64) -> usize {
    /// Above every cap, far below the end of the integers.
    const PLENTY: f64 = 1e9;
    #[expect(
        clippy::cast_possible_truncation,
        reason = "between 0 and a thousand million by the clamp; not-a-number becomes 0"
    )]
    let whole = count.clamp(0.0, PLENTY) as usize;
    whole
}
