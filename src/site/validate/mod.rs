//! The door: what enters the document is checked here, once.
//!
//! A file goes through [`Site::validate`] as a whole, an edit through the checks of
//! what it touches. Behind the door numbers are finite, sizes positive, polygons
//! simple, ids known and unique, and counts low enough to compute with.

mod against;
mod as_built;
mod building;
mod layout;
mod members;
mod names;
mod settings;
mod shape;

pub use against::validate_against;

use super::object::{Object, ObjectId};
use super::{Scheme, SchemeId, Site};
use crate::problem::{Bounds, Check, Problems};
use std::fmt;

/// Greatest distance from the origin along x and y, m.
pub const FARTHEST_M: f64 = 10_000.0;
/// Least spacing of members, m.
pub const LEAST_SPACING_M: f64 = 0.1;
/// Most member spans of a site.
pub const MOST_MEMBERS: usize = 20_000;
/// Most panel points of a site: 25 on each of the most members.
pub const MOST_PANEL_POINTS: usize = 500_000;
/// Most runs of a site, over all its schemes.
pub const MOST_RUNS: usize = 5_000;
/// Most corners of all outlines of a site.
pub const MOST_CORNERS: usize = 200_000;
/// The greatest height above the floor, m.
pub const HIGHEST_M: f64 = 200.0;

/// Most objects of one kind. Real sites have tens, large ones hundreds.
const MOST_GRID_LINES: usize = 1_000;
const MOST_BAYS: usize = 500;
const MOST_OPENINGS: usize = 5_000;
const MOST_FRAMINGS: usize = 1_000;
const MOST_OBSTRUCTIONS: usize = 20_000;
const MOST_WORK_SPOTS: usize = 5_000;
const MOST_SECTIONS: usize = 500;
const MOST_SCHEMES: usize = 100;
const MOST_ACCEPTANCES: usize = 5_000;

/// Coordinates in plan.
const PLAN: Bounds = Bounds::metres(-FARTHEST_M, FARTHEST_M);
/// Elevations above the finished floor.
const ELEVATION: Bounds = Bounds::metres(0.0, HIGHEST_M);
/// Sizes: a millimetre is the least that anybody draws.
const SIZE: Bounds = Bounds::metres(0.001, FARTHEST_M);
/// Bearings. They are brought into 0 to 360 when they enter; what needs more than a
/// thousand turns for that is a slip of the keyboard.
const BEARING: Bounds = Bounds::degrees(-360_000.0, 360_000.0);

/// Longest name, in bytes.
const NAME_BYTES: usize = 400;
/// Longest note, in bytes.
const NOTE_BYTES: usize = 20_000;

impl Site {
    /// Whether the whole document can be used: all numbers finite and sane, sizes
    /// positive, polygons simple, ids known and unique, counts within the caps.
    ///
    /// # Errors
    /// Every problem that was met, the first twenty of them in words.
    pub fn validate(&self) -> Result<(), Problems> {
        // Past its caps a site is noise: its parts are not worth a look, nor the time.
        self.check_counts()?;
        let mut problems = Problems::default();
        settings::check(self, &mut problems);
        names::check_unique(self, &mut problems);
        for (path, object) in self.objects_with_paths() {
            check_object(self, &object, path, &mut problems);
        }
        for (i, scheme) in self.schemes.iter().enumerate() {
            layout::check_scheme(scheme, i, &mut problems);
            for (j, run) in scheme.runs.iter().enumerate() {
                let object = Object::Run(run.clone());
                check_object(self, &object, Path::Run(i, j), &mut problems);
            }
        }
        members::check_totals(self, &mut problems);
        check_measurements(self, &mut problems);
        problems.into_result()
    }

    fn check_counts(&self) -> Result<(), Problems> {
        let n_runs = self.schemes.iter().map(|scheme| scheme.runs.len()).sum();
        let counts = [
            ("grid", self.grid.len(), MOST_GRID_LINES),
            ("bays", self.bays.len(), MOST_BAYS),
            ("openings", self.openings.len(), MOST_OPENINGS),
            ("framings", self.framings.len(), MOST_FRAMINGS),
            ("obstructions", self.obstructions.len(), MOST_OBSTRUCTIONS),
            ("work_spots", self.work_spots.len(), MOST_WORK_SPOTS),
            ("sections", self.sections.len(), MOST_SECTIONS),
            ("runs of all schemes", n_runs, MOST_RUNS),
            ("acceptances", self.acceptances.len(), MOST_ACCEPTANCES),
            (
                "corners of all outlines",
                shape::n_corners(self),
                MOST_CORNERS,
            ),
        ];
        let mut problems = Problems::default();
        let mut check = Check::new(&mut problems, "");
        check.count("schemes", self.schemes.len(), 1, MOST_SCHEMES);
        for (field, found, most) in counts {
            check.count(field, found, 0, most);
        }
        problems.into_result()
    }

    /// The objects outside the schemes, each with its place in the file.
    fn objects_with_paths(&self) -> impl Iterator<Item = (Path, Object)> {
        macro_rules! list {
            ($field:ident, $kind:ident) => {
                self.$field.iter().enumerate().map(|(i, it)| {
                    let path = Path::List(stringify!($field), i);
                    (path, Object::$kind(it.clone()))
                })
            };
        }
        list!(grid, GridLine)
            .chain(list!(bays, Bay))
            .chain(list!(openings, Opening))
            .chain(list!(framings, Framing))
            .chain(list!(obstructions, Obstruction))
            .chain(list!(work_spots, WorkSpot))
            .chain(list!(sections, SectionLine))
    }
}

/// What an edit has touched, to be checked when all of it is done.
#[derive(Debug, Default)]
pub(super) struct Touched {
    /// Objects put or renamed, each with the scheme that was shown at that moment.
    pub(super) objects: Vec<(SchemeId, ObjectId)>,
    /// Schemes put.
    pub(super) schemes: Vec<SchemeId>,
}

/// Checks what an edit has touched, and what stands on it: a bay's openings, and the
/// number of members and what was measured of them where a bay, a framing or a grid line
/// changed. The settings are few and checked always.
pub(super) fn check_touched(site: &Site, touched: &Touched) -> Result<(), Problems> {
    site.check_counts()?;
    let mut problems = Problems::default();
    settings::check(site, &mut problems);
    // Looking up one id at a time pays while they are few.
    let is_few = touched.objects.len() <= 50;
    if !is_few {
        names::check_unique(site, &mut problems);
    }
    let mut steel_touched = false;
    for (scheme, id) in &touched.objects {
        // What was put and then removed by the same edit is not there to be checked.
        let Some((path, object)) = locate(site, scheme, id) else {
            continue;
        };
        if is_few {
            names::check_alone(site, id, path, &mut problems);
        }
        check_object(site, &object, path, &mut problems);
        steel_touched |= matches!(
            object,
            Object::Bay(_) | Object::Framing(_) | Object::GridLine(_)
        );
        if let Object::Bay(bay) = &object {
            for (i, opening) in site.openings.iter().enumerate() {
                if opening.bay == bay.id {
                    let path = Path::List("openings", i);
                    let object = Object::Opening(opening.clone());
                    check_object(site, &object, path, &mut problems);
                }
            }
        }
    }
    for (i, scheme) in site.schemes.iter().enumerate() {
        if touched.schemes.contains(&scheme.id) {
            check_whole_scheme(site, scheme, i, &mut problems);
        }
    }
    if steel_touched {
        members::check_totals(site, &mut problems);
        check_measurements(site, &mut problems);
    }
    problems.into_result()
}

/// What was measured must be possible where the steel is. A document that is refused
/// for anything else is not looked at: most of it would follow from that.
fn check_measurements(site: &Site, problems: &mut Problems) {
    if !problems.is_empty() {
        return;
    }
    for (i, framing) in site.framings.iter().enumerate() {
        if framing.is_measured() {
            let mut check = Check::of(problems, Path::List("framings", i), &framing.id);
            as_built::check_measurements(framing, site, &mut check);
        }
    }
}

fn check_whole_scheme(site: &Site, scheme: &Scheme, i: usize, problems: &mut Problems) {
    layout::check_scheme(scheme, i, problems);
    names::check_runs_unique(site, scheme, i, problems);
    for (j, run) in scheme.runs.iter().enumerate() {
        let object = Object::Run(run.clone());
        check_object(site, &object, Path::Run(i, j), problems);
    }
}

fn check_object(site: &Site, object: &Object, path: Path, problems: &mut Problems) {
    let id = object.id();
    let mut check = Check::of(problems, path, &id);
    names::check_text("id", id.as_str(), &mut check);
    match object {
        Object::GridLine(it) => building::check_grid_line(it, &mut check),
        Object::Bay(it) => building::check_bay(it, &mut check),
        Object::Opening(it) => building::check_opening(it, site, &mut check),
        Object::Framing(it) => members::check_framing(it, site, &mut check),
        Object::Obstruction(it) => building::check_obstruction(it, &mut check),
        Object::WorkSpot(it) => layout::check_work_spot(it, &mut check),
        Object::SectionLine(it) => layout::check_section(it, &mut check),
        Object::Run(it) => layout::check_run(it, site, &mut check),
    }
}

/// Where an object stands in the file.
#[derive(Debug, Clone, Copy)]
enum Path {
    /// An entry of one of the site's lists.
    List(&'static str, usize),
    /// A run, by its scheme's place and its own.
    Run(usize, usize),
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::List(name, i) => write!(f, "{name}[{i}]"),
            Self::Run(scheme, i) => write!(f, "schemes[{scheme}].runs[{i}]"),
        }
    }
}

/// The object with an id and its place; a run is looked for in the named scheme.
fn locate(site: &Site, scheme: &SchemeId, id: &ObjectId) -> Option<(Path, Object)> {
    macro_rules! in_list {
        ($field:ident, $kind:ident, $id:expr) => {{
            let i = site.$field.iter().position(|known| known.id == *$id)?;
            let object = Object::$kind(site.$field[i].clone());
            Some((Path::List(stringify!($field), i), object))
        }};
    }
    match id {
        ObjectId::GridLine(id) => in_list!(grid, GridLine, id),
        ObjectId::Bay(id) => in_list!(bays, Bay, id),
        ObjectId::Opening(id) => in_list!(openings, Opening, id),
        ObjectId::Framing(id) => in_list!(framings, Framing, id),
        ObjectId::Obstruction(id) => in_list!(obstructions, Obstruction, id),
        ObjectId::WorkSpot(id) => in_list!(work_spots, WorkSpot, id),
        ObjectId::SectionLine(id) => in_list!(sections, SectionLine, id),
        ObjectId::Run(id) => {
            let i = site.schemes.iter().position(|known| known.id == *scheme)?;
            let runs = &site.schemes[i].runs;
            let j = runs.iter().position(|known| known.id == *id)?;
            Some((Path::Run(i, j), Object::Run(runs[j].clone())))
        }
    }
}
