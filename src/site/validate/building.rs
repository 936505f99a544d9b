//! Grid lines, bays, openings and obstructions.

use super::{BEARING, ELEVATION, FARTHEST_M, HIGHEST_M, NAME_BYTES, NOTE_BYTES, SIZE, shape};
use crate::geometry::tolerance::{LIMIT, SAME_POINT};
use crate::problem::{Bounds, Check, Problems};
use crate::site::{
    Bay, Construction, Door, Footprint, GridLine, Obstruction, Opening, Particulars, Roof, Site,
};

/// Pitches, rise over run: 2 is steeper than any roof that a heater hangs under.
const PITCH: Bounds = Bounds::plain(0.0, 2.0);
/// U-values: single glazing has about 6.
const U_VALUE: Bounds = Bounds::new(0.0, 20.0, "W/(m2 K)");
/// Temperature limits of objects.
const OBJECT_LIMIT: Bounds = Bounds::new(-50.0, 1_000.0, "degC");
/// Eaves: the least is no building, but nothing breaks.
const EAVE: Bounds = Bounds::metres(0.1, HIGHEST_M);
/// Collateral allowances of roofs: usual are 100 to 500 Pa; 10 kPa is a heavy floor's.
const COLLATERAL: Bounds = Bounds::new(0.0, 10_000.0, "Pa");
/// Heights of what has one.
const HEIGHT: Bounds = Bounds::metres(0.001, HIGHEST_M);
/// A track above the head of a door: less than this leaves no room for its leaf.
const TRACK_HEIGHT: Bounds = Bounds::metres(0.15, 30.0);
/// Radii of tracks: a leaf of panels can't follow a tighter bend.
const TRACK_RADIUS: Bounds = Bounds::metres(0.1, 5.0);
/// Drums: a leaf of any length rolls up to more than the least.
const DRUM: Bounds = Bounds::metres(0.1, 5.0);
/// How far a lift raises, how near a hook comes.
const TRAVEL: Bounds = Bounds::metres(0.0, HIGHEST_M);

pub(super) fn check_grid_line(line: &GridLine, check: &mut Check<'_>) {
    shape::check_point("from", line.from, check);
    shape::check_point("to", line.to, check);
    if line.from.distance(line.to) <= SAME_POINT {
        check.refuse("to", "the place of `from`", "a second point of the line");
    }
    check.text("notes", &line.notes, NOTE_BYTES);
}

pub(super) fn check_bay(bay: &Bay, check: &mut Check<'_>) {
    check.text("name", &bay.name, NAME_BYTES);
    check.text("notes", &bay.notes, NOTE_BYTES);
    shape::check_area(&bay.outline, &bay.holes, check);
    check.number("eave", bay.eave.as_metres(), EAVE);
    check_roof(&bay.roof, check);
    check_construction("wall", &bay.wall, check);
    check_construction("deck", &bay.deck, check);
    if let Some(collateral) = bay.collateral {
        check.number("collateral", collateral.as_pascals(), COLLATERAL);
    }
    check.count("open_edges", bay.open_edges.len(), 0, bay.outline.len());
    let mut seen = std::collections::BTreeSet::new();
    for (i, edge) in bay.open_edges.iter().enumerate() {
        let n_edges = bay.outline.len();
        if *edge >= n_edges {
            let accepted = format_args!("an edge of the outline: less than {n_edges}");
            check.refuse(format_args!("open_edges[{i}]"), edge, accepted);
        } else if !seen.insert(*edge) {
            let found = format_args!("{edge} again");
            check.refuse(format_args!("open_edges[{i}]"), found, "each edge once");
        }
    }
}

fn check_roof(roof: &Roof, check: &mut Check<'_>) {
    match roof {
        Roof::Flat => {}
        Roof::SingleSlope {
            rises_toward,
            pitch,
        } => {
            check.number("roof.rises_toward", rises_toward.as_degrees(), BEARING);
            check.number("roof.pitch", *pitch, PITCH);
        }
        Roof::Gable {
            ridge_through,
            ridge_bearing,
            pitch,
        } => {
            shape::check_point("roof.ridge_through", *ridge_through, check);
            check.number("roof.ridge_bearing", ridge_bearing.as_degrees(), BEARING);
            check.number("roof.pitch", *pitch, PITCH);
        }
    }
}

fn check_construction(field: &str, construction: &Construction, check: &mut Check<'_>) {
    let name = format_args!("{field}.name");
    check.text(name, &construction.name, NAME_BYTES);
    let u_value = construction.u_value.as_watts_per_square_metre_kelvin();
    check.number(format_args!("{field}.u_value"), u_value, U_VALUE);
}

/// An opening lies within its wall: between the corners of its edge and under the roof.
pub(super) fn check_opening(opening: &Opening, site: &Site, check: &mut Check<'_>) {
    check.text("notes", &opening.notes, NOTE_BYTES);
    let n_before = check.n_problems();
    let from_corner = Bounds::metres(0.0, FARTHEST_M);
    check.number("from_corner", opening.from_corner.as_metres(), from_corner);
    check.number("width", opening.width.as_metres(), SIZE);
    check.number("sill", opening.sill.as_metres(), ELEVATION);
    check.number("height", opening.height.as_metres(), HEIGHT);
    check_door(&opening.door, check);
    let Some(bay) = site.bays.iter().find(|bay| bay.id == opening.bay) else {
        check.refuse("bay", &opening.bay, "the id of a bay of this site");
        return;
    };
    let n_edges = bay.outline.len();
    if opening.edge >= n_edges {
        let accepted = format_args!("an edge of bay {}: less than {n_edges}", bay.id);
        check.refuse("edge", opening.edge, accepted);
        return;
    }
    if bay.open_edges.contains(&opening.edge) {
        let found = format_args!("{}, which is open", opening.edge);
        check.refuse("edge", found, "an edge that has a wall");
    }
    // A bay that is refused itself says nothing of what would fit in it.
    if check.n_problems() == n_before && has_sane_numbers(bay) {
        check_fit(opening, bay, check);
    }
}

fn check_door(door: &Door, check: &mut Check<'_>) {
    let figures = [
        ("door.track_height", door.track_height, TRACK_HEIGHT),
        ("door.track_radius", door.track_radius, TRACK_RADIUS),
        ("door.drum", door.drum, DRUM),
    ];
    for (field, figure, bounds) in figures {
        if let Some(figure) = figure {
            check.number(field, figure.as_metres(), bounds);
        }
    }
}

fn has_sane_numbers(bay: &Bay) -> bool {
    let mut scratch = Problems::default();
    let mut check = Check::new(&mut scratch, "");
    check.number("eave", bay.eave.as_metres(), EAVE);
    check_roof(&bay.roof, &mut check);
    for corner in &bay.outline {
        shape::check_point("outline", *corner, &mut check);
    }
    scratch.is_empty()
}

fn check_fit(opening: &Opening, bay: &Bay, check: &mut Check<'_>) {
    let from = bay.outline[opening.edge];
    let to = bay.outline[(opening.edge + 1) % bay.outline.len()];
    let near = opening.from_corner.as_metres();
    let far = near + opening.width.as_metres();
    let length = from.distance(to);
    if far > length + LIMIT {
        let accepted = format_args!("an opening within the {length:.3} m of its wall");
        check.refuse("width", format_args!("a jamb at {far:.3} m"), accepted);
        return;
    }
    let along = (to - from).normalize_or_zero();
    let roof = bay.roof_planes();
    let at = |distance: f64| roof.elevation_at(from + along * distance);
    let lowest = at(near).min(at(far));
    let head = (opening.sill + opening.height).as_metres();
    if head > lowest + LIMIT {
        let accepted = format_args!("a head under the roof, which is at {lowest:.3} m there");
        check.refuse("height", format_args!("a head at {head:.3} m"), accepted);
    }
}

pub(super) fn check_obstruction(obstruction: &Obstruction, check: &mut Check<'_>) {
    check.text("name", &obstruction.name, NAME_BYTES);
    check.text("notes", &obstruction.notes, NOTE_BYTES);
    match &obstruction.footprint {
        Footprint::Area { outline, holes } => shape::check_area(outline, holes, check),
        Footprint::Line { points, width } => shape::check_line(points, width.as_metres(), check),
    }
    let (bottom, top) = (obstruction.bottom.as_metres(), obstruction.top.as_metres());
    check.number("bottom", bottom, ELEVATION);
    check.number("top", top, ELEVATION);
    if top <= bottom {
        let accepted = format_args!("more than its bottom, {bottom} m");
        check.refuse("top", format_args!("{top} m"), accepted);
    }
    if let Some(upright_top) = obstruction.upright_top {
        check.number("upright_top", upright_top.as_metres(), ELEVATION);
    }
    if let Some(limit) = obstruction.temperature_limit {
        check.number("temperature_limit", limit.as_celsius(), OBJECT_LIMIT);
    }
    check_particulars(&obstruction.particulars, check);
}

fn check_particulars(particulars: &Particulars, check: &mut Check<'_>) {
    let lengths = [
        ("bottom_at_end", particulars.bottom_at_end, ELEVATION),
        ("lift", particulars.lift, TRAVEL),
        ("hook_approach", particulars.hook_approach, TRAVEL),
        ("deflector", particulars.deflector, ELEVATION),
        ("wing_top", particulars.wing_top, ELEVATION),
    ];
    for (field, length, bounds) in lengths {
        if let Some(length) = length {
            check.number(
                format_args!("particulars.{field}"),
                length.as_metres(),
                bounds,
            );
        }
    }
    if let Some(slope) = particulars.top_slope {
        let bearing = slope.rises_toward.as_degrees();
        check.number("particulars.top_slope.rises_toward", bearing, BEARING);
        check.number("particulars.top_slope.pitch", slope.pitch, PITCH);
    }
}
