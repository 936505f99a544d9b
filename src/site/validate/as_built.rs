//! Members as built: what was measured must be possible.

use super::members::extent;
use super::{ELEVATION, FARTHEST_M, MOST_MEMBERS, NOTE_BYTES};
use crate::geometry::tolerance::{LIMIT, SAME_POINT};
use crate::problem::{Bounds, Check};
use crate::site::bay::along;
use crate::site::{
    Bay, Framing, GridId, GridLine, HeightAt, MeasuredAt, MeasuredHeight, MemberAdjustment, Site,
};
use crate::units::Length;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Greatest deviation from the drawing, m.
const FARTHEST_OFF_M: f64 = 50.0;
/// As-built deviations.
const DEVIATION: Bounds = Bounds::metres(-FARTHEST_OFF_M, FARTHEST_OFF_M);
/// A member found farther from its drawing than so many spacings is another member: the
/// whole set may have been laid a spacing off, but then each is measured where it is.
const MOST_SPACINGS_OFF: f64 = 3.0;
/// A place on a member may lie so far outside its bay, m: seats reach into the wall.
const SEAT_M: f64 = 1.0;

/// Checks what is said of a framing's members whatever the framing is.
pub(super) fn check_deviations(framing: &Framing, check: &mut Check<'_>) {
    check.count("as_built", framing.as_built.len(), 0, MOST_MEMBERS);
    let mut seen = BTreeSet::new();
    for (i, adjustment) in framing.as_built.iter().enumerate() {
        let (member, moved, raised) = (
            format_args!("as_built[{i}].member"),
            format_args!("as_built[{i}].moved"),
            format_args!("as_built[{i}].raised"),
        );
        check.count(member, adjustment.member, 1, MOST_MEMBERS);
        if !seen.insert(adjustment.member) {
            let found = format_args!("{} again", adjustment.member);
            check.refuse(member, found, "each member once");
        }
        check.number(moved, adjustment.moved.as_metres(), DEVIATION);
        check.number(raised, adjustment.raised.as_metres(), DEVIATION);
        let notes = format_args!("as_built[{i}].notes");
        check.text(notes, &adjustment.notes, NOTE_BYTES);
    }
}

/// Checks what was measured of the members of a sound framing.
pub(super) fn check_measurements(framing: &Framing, site: &Site, check: &mut Check<'_>) {
    let Some(bay) = site.bays.iter().find(|bay| bay.id == framing.bay) else {
        return;
    };
    for (i, adjustment) in framing.as_built.iter().enumerate() {
        let look = Look {
            framing,
            adjustment,
            bay,
            grid: &site.grid,
            i,
        };
        if let Some(measured) = &adjustment.measured_at {
            look.check_place(measured, check);
        }
        if let Some(height) = &adjustment.measured_height {
            look.check_height(height, check);
        }
    }
    check_order(framing, &site.grid, check);
}

/// A look at one adjustment of a framing.
struct Look<'a> {
    framing: &'a Framing,
    adjustment: &'a MemberAdjustment,
    bay: &'a Bay,
    grid: &'a [Arc<GridLine>],
    i: usize,
}

impl Look<'_> {
    fn line(&self, id: &GridId) -> Option<&GridLine> {
        let line = self.grid.iter().find(|known| known.id == *id)?;
        Some(line)
    }

    fn check_place(&self, measured: &MeasuredAt, check: &mut Check<'_>) {
        let (i, framing) = (self.i, self.framing);
        let field = format_args!("as_built[{i}].measured_at");
        if self.adjustment.moved != Length::ZERO {
            let found = "a measured place beside `moved`";
            check.refuse(field, found, "one of the two: leave `moved` out");
            return;
        }
        let from = format_args!("as_built[{i}].measured_at.from");
        let Some(line) = self.line(&measured.from) else {
            check.refuse(from, &measured.from, "the id of a grid line of this site");
            return;
        };
        let Some(line_m) = framing.line_offset_m(line) else {
            let found = format_args!("{}, which does not run along the members", line.id);
            let accepted = format_args!(
                "a grid line parallel to them, at a bearing of {} degrees",
                tidy(framing.bearing.as_degrees())
            );
            check.refuse(from, found, accepted);
            return;
        };
        let distance_m = measured.distance.as_metres();
        let n_before = check.n_problems();
        let plan = Bounds::metres(-FARTHEST_M, FARTHEST_M);
        let distance = format_args!("as_built[{i}].measured_at.distance");
        check.number(distance, distance_m, plan);
        if check.n_problems() > n_before {
            return;
        }
        let member = self.adjustment.member;
        let (built_m, drawn_m) = (line_m + distance_m, framing.drawn_offset_m(member));
        let most_m = (MOST_SPACINGS_OFF * framing.spacing.as_metres()).min(FARTHEST_OFF_M);
        let off_m = (built_m - drawn_m).abs();
        let place = format_args!(
            "{}-{member:02} at {} m from {}",
            framing.id,
            tidy(distance_m),
            line.id
        );
        if off_m > most_m + LIMIT {
            let found = format_args!("{place}, {} m from where it is drawn", tidy(off_m));
            let accepted = format_args!(
                "{} m from {} as drawn, and at most {} m off: is it another member?",
                tidy(drawn_m - line_m),
                line.id,
                tidy(most_m)
            );
            check.refuse(distance, found, accepted);
            return;
        }
        if let Some(across) = extent(self.bay, framing.anchor, framing.right()) {
            let (least_m, greatest_m) = (across.least_m - line_m, across.greatest_m - line_m);
            if !(least_m - SAME_POINT <= distance_m && distance_m <= greatest_m + SAME_POINT) {
                let found = format_args!("{place}, outside bay {}", self.bay.id);
                let accepted = format_args!("{} to {} m", tidy(least_m), tidy(greatest_m));
                check.refuse(distance, found, accepted);
            }
        }
    }

    fn check_height(&self, measured: &MeasuredHeight, check: &mut Check<'_>) {
        let (i, framing) = (self.i, self.framing);
        if self.adjustment.raised != Length::ZERO {
            let field = format_args!("as_built[{i}].measured_height");
            let found = "a measured height beside `raised`";
            check.refuse(field, found, "one of the two: leave `raised` out");
            return;
        }
        let height = format_args!("as_built[{i}].measured_height.height");
        check.number(height, measured.height.as_metres(), ELEVATION);
        let at = format_args!("as_built[{i}].measured_height.at");
        if let Some(id) = measured.at.line() {
            let Some(line) = self.line(id) else {
                check.refuse(at, id, "the id of a grid line of this site");
                return;
            };
            if !line.crosses(along(framing.bearing)) {
                let found = format_args!("{id}, which does not cross the members");
                check.refuse(at, found, "a grid line that crosses them, or LowEnd");
                return;
            }
        }
        let offset_m = framing.built_offset_m(self.adjustment, self.grid);
        let Some(station_m) = framing.height_station_m(&measured.at, offset_m, self.grid) else {
            return;
        };
        let Some(along) = extent(self.bay, framing.anchor, along(framing.bearing)) else {
            return;
        };
        let zero_m = match &measured.at {
            HeightAt::FromLine { distance, .. } => station_m - distance.as_metres(),
            HeightAt::LowEnd | HeightAt::FromAnchor(_) => 0.0,
        };
        let (least_m, greatest_m) = (along.least_m - SEAT_M, along.greatest_m + SEAT_M);
        if !(least_m <= station_m && station_m <= greatest_m) {
            let found = format_args!(
                "a place {} m along {}-{:02}, outside bay {}",
                tidy(station_m - zero_m),
                framing.id,
                self.adjustment.member,
                self.bay.id
            );
            let (least_m, greatest_m) = (least_m - zero_m, greatest_m - zero_m);
            let accepted = format_args!("{} to {} m", tidy(least_m), tidy(greatest_m));
            check.refuse(at, found, accepted);
        }
    }
}

/// Members that were measured lie in the order of their numbers: a tape that says
/// otherwise was read beside another member.
fn check_order(framing: &Framing, grid: &[Arc<GridLine>], check: &mut Check<'_>) {
    let measured: BTreeMap<usize, (usize, f64)> = framing
        .as_built
        .iter()
        .enumerate()
        .filter(|(_, it)| it.measured_at.is_some() && !it.missing)
        .map(|(i, it)| (it.member, (i, framing.built_offset_m(it, grid))))
        .collect();
    let neighbours = measured.iter().zip(measured.iter().skip(1));
    for ((before, (_, before_m)), (member, (i, at_m))) in neighbours {
        if *at_m <= before_m + SAME_POINT {
            let field = format_args!("as_built[{i}].measured_at.distance");
            let found = format_args!(
                "{0}-{member:02} at or before {0}-{before:02}, which was measured too",
                framing.id
            );
            let accepted = "members in the order of their numbers: which of the two is it?";
            check.refuse(field, found, accepted);
        }
    }
}

/// A length to the tenth of a millimetre, without the noise of computing.
fn tidy(metres: f64) -> f64 {
    let tidy = (metres * 1e4).round() / 1e4;
    // Never the negative zero.
    tidy + 0.0
}
