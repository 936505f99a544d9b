//! Words that several pages use of the same thing.

use crate::catalogue::{Family, FamilyShape};
use crate::geometry::{DVec2, math};
use crate::hanging::{Kind, Limit, Place};
use crate::site::bay::along;
use crate::site::{Combustibility, Obstruction, ObstructionKind, Run, Shields, Site};
use crate::study::{Assumption, CutPiece, RunStudy, Study};

use super::figures::Figures;

/// How a hanger gets its hold.
pub(super) const fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Panel => "panel point",
        Kind::Line => "beam or purlin",
        Kind::OffPanel => "off panel point",
        Kind::Channel => "cross channel",
    }
}

/// A place of a member: `panel point 4`, `chord, point 4 to 5`, `attachment`.
pub(super) fn place(place: Place) -> String {
    match place {
        Place::PanelPoint(number) => format!("panel point {number}"),
        Place::ChordPanel(before) => format!("chord, point {before} to {}", before + 1),
        Place::Line => "attachment".to_owned(),
    }
}

/// The size of a suspension, or why there is none.
pub(super) fn size(piece: &CutPiece) -> String {
    match &piece.size {
        None => format!("no {} is strong enough", piece.kind.label()),
        Some(size) if piece.cut_m.is_none() => format!("{size}: can't be made up"),
        Some(size) => size.clone(),
    }
}

/// What a suspension is made of: `grade 30 chain 1/4 in, 18 links`.
pub(super) fn hardware(piece: Option<&CutPiece>) -> String {
    let Some(piece) = piece else {
        return String::new();
    };
    let size = size(piece);
    match piece.links {
        Some(1) => format!("{size}, 1 link"),
        Some(links) => format!("{size}, {links} links"),
        None => size,
    }
}

/// What must be looked at on site, by letters that [`VERIFY_KEY`] explains.
pub(super) fn verify(piece: Option<&CutPiece>, capacity_unknown: bool) -> String {
    let assumed = piece.map_or(&[][..], |piece| &piece.verify[..]);
    let mut letters: Vec<&str> = assumed.iter().map(|&it| verify_letter(it)).collect();
    let of_capacity = verify_letter(Assumption::CapacityUnknown);
    if capacity_unknown && !letters.contains(&of_capacity) {
        letters.insert(0, of_capacity);
    }
    letters.join(" ")
}

const fn verify_letter(assumption: Assumption) -> &'static str {
    match assumption {
        Assumption::CapacityUnknown => "c",
        Assumption::MemberNotSurveyed => "m",
        Assumption::GenericHardware => "h",
        Assumption::UncertifiedHeater => "f",
    }
}

/// What the letters of [`verify`] mean.
pub(super) const VERIFY_KEY: &str = "Verify on site before cutting and hanging: c what the steel may carry (unknown: engineer), m where the member is and how high (as drawn, not measured), h the hardware's figures (generic), f the heater's figures (not certified).";

/// Number of a hanger within its run, from 1 at the burner: `R3.2`.
pub(super) fn hanger_id(run: &Run, index: usize) -> String {
    format!("{}.{}", run.id, index + 1)
}

/// The side to which a run's reflector aims, as a unit vector in plan; none where it
/// isn't tilted. Positive tilt aims left, seen along the bearing.
pub(super) fn aim(run: &Run) -> Option<DVec2> {
    let tilt = run.tilt.as_degrees();
    let left = along(run.bearing).perp();
    (tilt != 0.0).then_some(if tilt > 0.0 { left } else { -left })
}

/// The compass point of a plan direction, of eight.
pub(super) fn compass(direction: DVec2) -> &'static str {
    let bearing = math::atan2(direction.x, direction.y).to_degrees();
    // Eight points, each from 22.5 degrees before it to 22.5 degrees after.
    const POINTS: [(&str, f64); 9] = [
        ("S", -157.5),
        ("SW", -112.5),
        ("W", -67.5),
        ("NW", -22.5),
        ("N", 22.5),
        ("NE", 67.5),
        ("E", 112.5),
        ("SE", 157.5),
        ("S", f64::INFINITY),
    ];
    POINTS
        .iter()
        .find(|(_, until)| bearing < *until)
        .map_or("S", |(name, _)| name)
}

/// How a run's reflector is tilted: `tilt 15° S`, `level`.
pub(super) fn tilt(run: &Run, figures: Figures) -> String {
    match aim(run) {
        Some(direction) => {
            let turn = figures.set_angle(run.tilt);
            format!(
                "tilt {} {}",
                turn.trim_start_matches('-'),
                compass(direction)
            )
        }
        None => "level".to_owned(),
    }
}

/// Which side shields a run has, by the compass.
pub(super) fn shields(run: &Run) -> String {
    let left = along(run.bearing).perp();
    match run.shields {
        Shields::None => "none".to_owned(),
        Shields::Left => compass(left).to_owned(),
        Shields::Right => compass(-left).to_owned(),
        Shields::Both => "both sides".to_owned(),
    }
}

/// Straight, or hairpin.
pub(super) const fn shape(family: &Family) -> &'static str {
    match family.shape {
        FamilyShape::Straight => "straight",
        FamilyShape::Hairpin { .. } => "hairpin (U-tube)",
    }
}

/// A limit as a sentence names it.
pub(super) const fn limit(limit: Limit) -> &'static str {
    match limit {
        Limit::FirstHanger => "place of the first hanger",
        Limit::SecondHanger => "distance to the second hanger",
        Limit::LeastSpacing => "least spacing",
        Limit::GreatestSpacing => "greatest spacing",
        Limit::EndOverhang => "greatest end overhang",
        Limit::Joint => "distance from tube joints",
        Limit::Suspension => "least suspension",
        Limit::Lean => "greatest lean",
        Limit::Swing => "greatest swing",
        Limit::Load => "load allowed on the steel",
        Limit::ChannelBending => "strength of a cross channel",
        Limit::ChannelDeflection => "stiffness of a cross channel",
        Limit::Balance => "balance on its hangers",
    }
}

/// What an obstruction is called on sheets: its name, or its kind.
pub(super) fn obstruction_name(obstruction: &Obstruction) -> &str {
    if obstruction.name.trim().is_empty() {
        obstruction.kind.label()
    } else {
        &obstruction.name
    }
}

/// The height of an obstruction: its highest, or from lowest to highest where it does
/// not stand on the floor.
pub(super) fn obstruction_height(obstruction: &Obstruction, figures: Figures) -> String {
    if obstruction.kind == ObstructionKind::Skylight {
        return "in the roof".to_owned();
    }
    let top = figures.place(obstruction.highest().as_metres());
    let bottom_m = obstruction.lowest().as_metres();
    if bottom_m > 0.0 {
        format!("{} to {top}", figures.place(bottom_m))
    } else {
        format!("top {top}")
    }
}

/// Whether nobody has looked yet if it burns.
pub(super) fn is_assumed(obstruction: &Obstruction) -> bool {
    obstruction.burns == Combustibility::Unknown
}

/// Why a run has no hangers, as one sentence; none where it has.
pub(super) fn why_not_hung(run: &RunStudy, figures: Figures) -> Option<String> {
    let hanging = &run.hanging;
    if !hanging.hangers.is_empty() {
        return None;
    }
    let Some(obstacle) = &hanging.obstacle else {
        return Some("No hangers are placed.".to_owned());
    };
    let mut text = "Can't be hung: no set of hangers keeps every limit.".to_owned();
    let names: Vec<&str> = obstacle.helps.iter().map(|&it| limit(it)).collect();
    if let Some((last, others)) = names.split_last() {
        let list = if others.is_empty() {
            (*last).to_owned()
        } else {
            format!("{} or {last}", others.join(", "))
        };
        text += &format!(" Any one of these lifted would help: {list}.");
    }
    let (from_m, to_m) = obstacle.longest_stretch_m;
    if from_m < to_m {
        text += &format!(
            " Longest stretch without a place to hang from: {} to {} from the burner.",
            figures.place(from_m),
            figures.place_with_unit(to_m)
        );
    }
    Some(text)
}

/// Names of the used families whose figures are not those of a certified manual, by
/// their order in the catalogue's runs.
pub(super) fn uncertified(study: &Study) -> Vec<&str> {
    let mut names: Vec<&str> = Vec::new();
    for run in &study.runs {
        let name = run.family.name.as_str();
        if !run.family.source.certified && !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// The site and where it is: `Skerry Harbour · freight shed`.
pub(super) fn project(site: &Site) -> String {
    let parts: Vec<&str> = [site.place.trim(), site.name.trim()]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    parts.join(" · ")
}

/// The shown scheme: `scheme A, two rows`.
pub(super) fn scheme(site: &Site) -> String {
    let scheme = site.scheme();
    if scheme.name.trim().is_empty() {
        format!("scheme {}", scheme.id)
    } else {
        format!("scheme {}, {}", scheme.id, scheme.name)
    }
}

/// `1 run`, `12 runs`.
pub(super) fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{n} {}", if n == 1 { one } else { many })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_have_their_compass_point() {
        let of = |x: f64, y: f64| compass(DVec2::new(x, y));
        assert_eq!(of(0.0, 1.0), "N");
        assert_eq!(of(1.0, 0.0), "E");
        assert_eq!(of(-1.0, 0.0), "W");
        assert_eq!(of(0.0, -1.0), "S");
        assert_eq!(of(-0.0, -1.0), "S");
        assert_eq!(of(-1.0, -1.0), "SW");
        assert_eq!(of(1.0, 1.2), "NE");
    }
}
