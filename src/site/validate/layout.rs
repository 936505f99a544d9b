//! Schemes, runs, work spots and section lines.

use super::{BEARING, ELEVATION, HIGHEST_M, NAME_BYTES, NOTE_BYTES, SIZE, names, shape};
use crate::problem::{Bounds, Check, Problems};
use crate::site::{Hanging, LockedAt, Run, Scheme, SectionLine, Site, WorkSpot};

/// Most hangers that a run may have locked.
const MOST_HANGERS: usize = 1_000;
/// Most panel points that a member may have: every 0.1 m of 10 km.
const MOST_PANEL_POINTS: usize = 100_000;
/// Stations of locked hangers: past the end of any tube.
const STATION: Bounds = Bounds::metres(0.0, 1_000.0);

/// Shorter than this a section shows nothing that could be read, m.
const LEAST_SECTION_M: f64 = 0.1;

pub(super) fn check_scheme(scheme: &Scheme, i: usize, problems: &mut Problems) {
    let mut check = Check::of(problems, format_args!("schemes[{i}]"), &scheme.id);
    names::check_text("id", scheme.id.as_str(), &mut check);
    check.text("name", &scheme.name, NAME_BYTES);
    check.text("notes", &scheme.notes, NOTE_BYTES);
}

pub(super) fn check_run(run: &Run, site: &Site, check: &mut Check<'_>) {
    check.given("family", &run.family, NAME_BYTES);
    check.given("size", &run.size, NAME_BYTES);
    check.text("zone", &run.zone, NAME_BYTES);
    check.text("notes", &run.notes, NOTE_BYTES);
    shape::check_point("burner", run.burner, check);
    let height = Bounds::metres(0.001, HIGHEST_M);
    check.number("tube_height", run.tube_height.as_metres(), height);
    check.number("bearing", run.bearing.as_degrees(), BEARING);
    let tilt = Bounds::degrees(-90.0, 90.0);
    check.number("tilt", run.tilt.as_degrees(), tilt);
    if let Some(hanger) = run.fixed_hanger {
        check.count("fixed_hanger", hanger, 1, MOST_HANGERS);
    }
    if let Hanging::Locked(hangers) = &run.hanging {
        check.count("hanging.Locked", hangers.len(), 1, MOST_HANGERS);
        let mut before = f64::NEG_INFINITY;
        for (i, hanger) in hangers.iter().enumerate() {
            let station = hanger.station.as_metres();
            let field = format_args!("hanging.Locked[{i}].station");
            check.number(field, station, STATION);
            if station <= before {
                let accepted = format_args!("more than the one before it, {before} m");
                check.refuse(field, format_args!("{station} m"), accepted);
            }
            before = station;
            let field = format_args!("hanging.Locked[{i}].members");
            check.count(field, hanger.members.len(), 1, 2);
            if let Some(LockedAt::PanelPoint(number)) = hanger.at {
                let field = format_args!("hanging.Locked[{i}].at.PanelPoint");
                check.count(field, number, 1, MOST_PANEL_POINTS);
            }
            for member in &hanger.members {
                let is_known = site.framings.iter().any(|it| member.is_of(&it.id));
                if !is_known {
                    let accepted = "a member of a framing of this site, such as J-20/AB";
                    check.refuse(field, member, accepted);
                }
            }
        }
    }
}

pub(super) fn check_work_spot(spot: &WorkSpot, check: &mut Check<'_>) {
    check.text("name", &spot.name, NAME_BYTES);
    check.text("notes", &spot.notes, NOTE_BYTES);
    shape::check_point("at", spot.at, check);
    check.number("height", spot.height.as_metres(), ELEVATION);
    let activity = Bounds::new(0.8, 4.0, "met");
    check.number("activity_met", spot.activity_met, activity);
    let clothing = Bounds::new(0.0, 2.0, "clo");
    check.number("clothing_clo", spot.clothing_clo, clothing);
}

/// A section has a length to be drawn, and looks some way into the site.
pub(super) fn check_section(line: &SectionLine, check: &mut Check<'_>) {
    check.text("notes", &line.notes, NOTE_BYTES);
    shape::check_point("from", line.from, check);
    shape::check_point("to", line.to, check);
    let length = line.from.distance(line.to);
    if length < LEAST_SECTION_M {
        let found = format_args!("a line {length} m long");
        let accepted = format_args!("another point, at least {LEAST_SECTION_M} m from its start");
        check.refuse("to", found, accepted);
    }
    check.number("depth", line.depth.as_metres(), SIZE);
}
