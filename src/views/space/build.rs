//! A studied site as a scene: what stands still, and the runs.

use super::inks::Tone;
use super::scene::{Caption, CaptionOf, Scene};
use crate::clearance::Part;
use crate::findings::{Finding, Subject};
use crate::geometry::{ConvexSolid, DVec2, DVec3, Polygon};
use crate::hanging::Hanger;
use crate::site::bay::Bay;
use crate::site::framing::MemberKind;
use crate::site::obstruction::ObstructionKind;
use crate::site::{ObjectId, Opening, RunId, Site};
use crate::structure::{DoorPart, Member, Part as BuildingPart, PartOf, WALL_M};
use crate::study::{RunStudy, Study, Surrounding, Thing};
use crate::views::heater::HeaterForm;
use crate::views::section::web_of;
use std::collections::{BTreeMap, BTreeSet};

/// Everything covers what its tone says.
const PLAIN: u16 = 256;

/// Floors, walls, decks, members, obstructions, grid lines.
#[must_use]
pub fn site_scene(site: &Site, study: &Study) -> Scene {
    let mut scene = Scene::default();
    for bay in &site.bays {
        floor(&mut scene, bay);
    }
    let outlines: BTreeMap<&str, Polygon> = site
        .bays
        .iter()
        .map(|bay| {
            let outline = Polygon {
                outline: bay.outline.clone(),
                holes: bay.holes.clone(),
            };
            (bay.id.as_str(), outline)
        })
        .collect();
    for part in &study.structure.parts {
        match &part.of {
            PartOf::Wall(bay, _) => wall(&mut scene, part, outlines.get(bay.as_str())),
            PartOf::Deck(_) => {
                for solid in &part.solids {
                    scene.solid(Tone::Deck, solid, |_, _| PLAIN);
                }
            }
            PartOf::Member(_) => {}
        }
    }
    for opening in &site.openings {
        let bay = site.bays.iter().find(|bay| bay.id == opening.bay);
        if let Some(bay) = bay {
            outline_of_opening(&mut scene, bay, opening);
        }
    }
    // The first parts of the building are the members, in their order.
    for (member, part) in study.structure.members.iter().zip(&study.structure.parts) {
        steel(&mut scene, member, part);
    }
    for thing in &study.surroundings.things {
        obstruction(&mut scene, site, thing);
    }
    grid(&mut scene, site);
    scene
}

fn floor(scene: &mut Scene, bay: &Bay) {
    let outline = Polygon {
        outline: bay.outline.clone(),
        holes: bay.holes.clone(),
    };
    for piece in outline.convex_pieces() {
        let ring: Vec<DVec3> = piece.iter().map(|p| p.extend(0.0)).collect();
        scene.sheet(Tone::Floor, &ring, &[]);
    }
}

/// The inside of a wall is more of a wall than its outside: one looks through the near
/// walls onto the far ones.
fn wall(scene: &mut Scene, part: &BuildingPart, outline: Option<&Polygon>) {
    /// Out from a face, m: enough to be on one side of it.
    const OUT_M: f64 = WALL_M / 2.0;
    for solid in &part.solids {
        scene.solid(Tone::Wall, solid, |centre, normal| {
            let before = centre.truncate() + normal.truncate() * OUT_M;
            let is_inside = outline.is_some_and(|outline| outline.contains(before));
            if normal.z.abs() < 0.5 && is_inside {
                420
            } else {
                90
            }
        });
    }
}

fn outline_of_opening(scene: &mut Scene, bay: &Bay, opening: &Opening) {
    let n_corners = bay.outline.len();
    let (Some(&a), Some(&b)) = (
        bay.outline.get(opening.edge),
        bay.outline.get((opening.edge + 1) % n_corners.max(1)),
    ) else {
        return;
    };
    let along = (b - a).normalize_or_zero();
    let from = a + along * opening.from_corner.as_metres();
    let to = from + along * opening.width.as_metres();
    let (low, high) = (
        opening.sill.as_metres(),
        (opening.sill + opening.height).as_metres(),
    );
    let corners = [
        from.extend(low),
        to.extend(low),
        to.extend(high),
        from.extend(high),
    ];
    for k in 0..4 {
        scene.line(Tone::Wall, corners[k], corners[(k + 1) % 4], 0.05);
    }
}

/// Depth of the chords of joists and trusses as they are drawn, m.
const CHORD_M: f64 = 0.07;
/// A web is drawn where its pieces are seen longer than this, pixels.
const LEAST_WEB_PX: f64 = 5.0;

/// Joists and trusses as chords and web, beams and purlins as bars.
fn steel(scene: &mut Scene, member: &Member, part: &BuildingPart) {
    if !member.kind.has_panel_points() {
        let width_m = match member.kind {
            MemberKind::Beam => member.width_m,
            _ => member.width_m.max(0.06),
        };
        let depth_m = member.top_at(0.0) - member.underside_at(0.0);
        if 0.15 < depth_m {
            for solid in &part.solids {
                scene.solid(Tone::Member, solid, |_, _| PLAIN);
            }
            return;
        }
        chord(scene, member, &member.underside_m, width_m, depth_m / 2.0);
        return;
    }
    chord(scene, member, &member.top_m, CHORD_M, -CHORD_M / 2.0);
    chord(scene, member, &member.underside_m, CHORD_M, CHORD_M / 2.0);
    for (a, b) in web_of(member) {
        scene.fine_line(Tone::Member, a, b, 0.025, LEAST_WEB_PX);
    }
}

fn chord(scene: &mut Scene, member: &Member, corners: &[(f64, f64)], width_m: f64, up_m: f64) {
    let at = |&(at_m, z): &(f64, f64)| member.plan_at(at_m).extend(z + up_m);
    for pair in corners.windows(2) {
        scene.line(Tone::Member, at(&pair[0]), at(&pair[1]), width_m);
    }
}

/// Whatever is in the way and no part of the building.
fn obstruction(scene: &mut Scene, site: &Site, thing: &Surrounding) {
    let Some(kind) = thing.kind else {
        if let Thing::Door(_, part) = &thing.thing {
            let tone = match part {
                DoorPart::Open => Tone::Obstruction,
                DoorPart::Travel => Tone::Sweep,
            };
            for solid in &thing.solids {
                scene.solid(tone, solid, |_, _| PLAIN);
            }
        }
        return;
    };
    let tone = match kind {
        ObstructionKind::CraneTravel
        | ObstructionKind::DoorTravel
        | ObstructionKind::HazardZone
        | ObstructionKind::Aircraft
        | ObstructionKind::LiftedVehicle => Tone::Sweep,
        _ => Tone::Obstruction,
    };
    for solid in &thing.solids {
        scene.solid(tone, solid, |_, _| PLAIN);
    }
    let Thing::Obstruction(id) = &thing.thing else {
        return;
    };
    let known = site.obstructions.iter().find(|it| it.id == *id);
    let middle = thing
        .solids
        .iter()
        .map(|solid| *solid.bounds())
        .reduce(crate::geometry::Bounds::union);
    if let (Some(known), Some(around)) = (known, middle) {
        let name = if known.name.trim().is_empty() {
            kind.label()
        } else {
            &known.name
        };
        scene.captions.push(Caption {
            of: CaptionOf::Obstruction(ObjectId::Obstruction(id.clone())),
            text: format!("{name} {id}"),
            at: around.centre().truncate().extend(around.high.z),
        });
    }
}

fn grid(scene: &mut Scene, site: &Site) {
    for line in &site.grid {
        let floor = |p: DVec2| p.extend(0.0);
        scene.line(Tone::Grid, floor(line.from), floor(line.to), 0.0);
        scene.captions.push(Caption {
            of: CaptionOf::Grid,
            text: line.id.to_string(),
            at: floor(line.from),
        });
    }
}

/// The runs of the studied scheme: heaters, suspensions, cross channels, envelopes.
#[must_use]
pub fn runs_scene(study: &Study, findings: &[Finding]) -> Scene {
    let mut scene = Scene::default();
    let members: BTreeMap<&str, &Member> = study
        .structure
        .members
        .iter()
        .map(|member| (member.id.as_str(), member.as_ref()))
        .collect();
    let breached = breached(findings);
    for run in &study.runs {
        heater(&mut scene, run);
        for hanger in &run.hanging.hangers {
            suspension(&mut scene, run, hanger, &members);
        }
        let tone = if breached.contains(&run.run.id) {
            Tone::Breach
        } else {
            Tone::Envelope
        };
        let frame = &run.clearance.bodies.frame;
        for local in &run.clearance.envelope {
            if let Some(solid) = ConvexSolid::turned_box(frame, local) {
                scene.solid(tone, &solid, |_, _| PLAIN);
            }
        }
        let axis = run.geometry.axis();
        let middle = axis.point(run.geometry.tube_length_m / 2.0);
        scene.captions.push(Caption {
            of: CaptionOf::Run(ObjectId::Run(run.run.id.clone())),
            text: run.run.id.to_string(),
            at: middle,
        });
    }
    scene
}

/// Runs that have an open breach with something that comes too near: an obstruction, a
/// part of the building, or another run.
fn breached(findings: &[Finding]) -> BTreeSet<RunId> {
    let mut runs = BTreeSet::new();
    for finding in findings.iter().filter(|it| it.is_open_breach()) {
        let things = finding
            .subjects
            .iter()
            .filter(|subject| !matches!(subject, Subject::Run(_) | Subject::Hanger(..)));
        let of_runs = finding.subjects.iter().filter_map(|subject| match subject {
            Subject::Run(id) => Some(id.clone()),
            _ => None,
        });
        let of_runs: Vec<RunId> = of_runs.collect();
        if 0 < things.count() || 1 < of_runs.len() {
            runs.extend(of_runs);
        }
    }
    runs
}

fn heater(scene: &mut Scene, run: &RunStudy) {
    let form = HeaterForm::of(run);
    for tube in &form.tubes {
        // The sides of the prism stand for a round tube: their seams are no edges.
        scene.smooth(Tone::Tube, tube);
    }
    for (part, solid) in &form.boxes {
        let tone = match part {
            Part::Burner => Tone::Burner,
            Part::Tube | Part::Bend | Part::Exhaust => Tone::Reflector,
        };
        scene.solid(tone, solid, |_, _| PLAIN);
    }
    let n_strips = form.reflector.len();
    for (k, strip) in form.reflector.iter().enumerate() {
        let edged = [k == 0, true, k + 1 == n_strips, true];
        scene.sheet(Tone::Reflector, strip, &edged);
    }
}

/// From the attach point to the eye; of a cross channel also the channel.
fn suspension(
    scene: &mut Scene,
    run: &RunStudy,
    hanger: &Hanger,
    members: &BTreeMap<&str, &Member>,
) {
    let eye = run.geometry.axis().eye(hanger.at.station_m);
    scene.line(Tone::Hanger, hanger.at.attach, eye, 0.02);
    if hanger.at.channel.is_none() {
        return;
    }
    let ends: Vec<DVec3> = hanger
        .at
        .holds()
        .filter_map(|hold| {
            let member = members.get(&*hold.member)?;
            let at = member.plan_at(hold.position_m);
            Some(at.extend(member.attach_at(hold.position_m)))
        })
        .collect();
    if let [a, b] = ends[..] {
        scene.line(Tone::Hanger, a, b, 0.05);
    }
}
