//! Moving, turning and mirroring objects, or a whole site.
//!
//! An opening lies in a wall by edge and distance, so it goes where its bay goes: on its
//! own it stays as it is. A mirrored outline keeps the order of its corners, so that
//! edges keep their numbers and openings their places.

use super::bay::along;
use super::normal;
use super::{
    Bay, Footprint, Framing, GridLine, Hanging, MemberAdjustment, Object, Obstruction, Particulars,
    Roof, Run, RunShape, Scheme, SectionLine, Site, TopSlope, WorkSpot,
};
use crate::geometry::DVec2;
use crate::geometry::math::{atan, cos, sin_cos_degrees};
use crate::units::{Angle, Length};
use std::sync::Arc;

/// A line to mirror about: endless, through a point, at a bearing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MirrorLine {
    /// A point of it, m.
    pub through: DVec2,
    /// Its bearing; either way along it is the same line.
    pub bearing: Angle,
}

/// A way of placing things elsewhere that keeps every distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Motion {
    /// Moved by a vector, m.
    Move(DVec2),
    /// Turned clockwise, as bearings count, about a point.
    Turn {
        /// The point that stays, m.
        about: DVec2,
        /// How far, clockwise.
        by: Angle,
    },
    /// Mirrored about a line: left becomes right.
    Mirror(MirrorLine),
}

/// The object moved by a vector, m.
pub fn moved(object: &Object, by: DVec2) -> Object {
    Motion::Move(by).object(object)
}

/// The object turned clockwise about a point.
pub fn turned(object: &Object, about: DVec2, by: Angle) -> Object {
    Motion::Turn { about, by }.object(object)
}

/// The object mirrored about a line. Left and right of a run change places: tilt,
/// shields and the side of a hairpin's return leg.
pub fn mirrored(object: &Object, line: MirrorLine) -> Object {
    Motion::Mirror(line).object(object)
}

/// A run turned end for end where it lies: the burner goes to where the exhaust
/// (hairpin: the bend) was.
///
/// `leg` is the length of its tube, or of one leg of a hairpin, and `slope` the fall
/// along it. The reflector keeps its compass side, so the tilt changes its sign, the
/// shields and the return leg their side. The burner keeps its height. Locked hangers
/// stay at their places and are numbered from the new burner; of a run whose hangers are
/// solved, the fixed hanger is again the first.
pub fn end_for_end(run: &Run, leg: Length, slope: f64) -> Run {
    let mut next = mirror_sides(run);
    let plan_length = leg.as_metres() * cos(atan(slope));
    next.burner = run.burner + along(run.bearing) * plan_length;
    next.bearing = normal::bearing(run.bearing + Angle::degrees(180.0));
    match &mut next.hanging {
        Hanging::Solved => next.fixed_hanger = None,
        Hanging::Locked(hangers) => {
            hangers.reverse();
            for hanger in hangers.iter_mut() {
                hanger.station = leg - hanger.station;
            }
            let n_hangers = hangers.len();
            next.fixed_hanger = run
                .fixed_hanger
                .map(|number| (n_hangers + 1).saturating_sub(number).max(1));
        }
    }
    next
}

impl Motion {
    /// Where a plan point goes.
    pub fn point(&self, point: DVec2) -> DVec2 {
        match *self {
            Self::Move(by) => point + by,
            Self::Turn { about, by } => {
                let (sin, cos) = sin_cos_degrees(by.as_degrees());
                let arm = point - about;
                about + DVec2::new(arm.x * cos + arm.y * sin, arm.y * cos - arm.x * sin)
            }
            Self::Mirror(line) => {
                let axis = along(line.bearing);
                let arm = point - line.through;
                line.through + axis * (2.0 * arm.dot(axis)) - arm
            }
        }
    }

    /// What a bearing becomes, in 0 to 360 degrees.
    pub fn bearing(&self, bearing: Angle) -> Angle {
        normal::bearing(match *self {
            Self::Move(_) => bearing,
            Self::Turn { by, .. } => bearing + by,
            Self::Mirror(line) => line.bearing * 2.0 - bearing,
        })
    }

    /// Whether left and right change places.
    pub const fn swaps_sides(&self) -> bool {
        matches!(self, Self::Mirror(_))
    }

    /// Where an object goes.
    pub fn object(&self, object: &Object) -> Object {
        match object {
            Object::GridLine(it) => Object::GridLine(self.grid_line(it)),
            Object::Bay(it) => Object::Bay(self.bay(it)),
            Object::Opening(it) => Object::Opening(Arc::clone(it)),
            Object::Framing(it) => Object::Framing(self.framing(it)),
            Object::Obstruction(it) => Object::Obstruction(self.obstruction(it)),
            Object::WorkSpot(it) => Object::WorkSpot(self.work_spot(it)),
            Object::SectionLine(it) => Object::SectionLine(self.section_line(it)),
            Object::Run(it) => Object::Run(self.run(it)),
        }
    }

    /// Where a whole site goes: every object, of every scheme.
    pub fn site(&self, site: &Site) -> Site {
        Site {
            grid: site.grid.iter().map(|it| self.grid_line(it)).collect(),
            bays: site.bays.iter().map(|it| self.bay(it)).collect(),
            framings: site.framings.iter().map(|it| self.framing(it)).collect(),
            obstructions: site
                .obstructions
                .iter()
                .map(|it| self.obstruction(it))
                .collect(),
            work_spots: site
                .work_spots
                .iter()
                .map(|it| self.work_spot(it))
                .collect(),
            sections: site
                .sections
                .iter()
                .map(|it| self.section_line(it))
                .collect(),
            schemes: site
                .schemes
                .iter()
                .map(|scheme| {
                    Arc::new(Scheme {
                        runs: scheme.runs.iter().map(|it| self.run(it)).collect(),
                        ..scheme.as_ref().clone()
                    })
                })
                .collect(),
            ..site.clone()
        }
    }

    fn points(&self, points: &[DVec2]) -> Vec<DVec2> {
        points.iter().map(|point| self.point(*point)).collect()
    }

    fn rings(&self, rings: &[Vec<DVec2>]) -> Vec<Vec<DVec2>> {
        rings.iter().map(|ring| self.points(ring)).collect()
    }

    fn grid_line(&self, line: &GridLine) -> Arc<GridLine> {
        Arc::new(GridLine {
            from: self.point(line.from),
            to: self.point(line.to),
            ..line.clone()
        })
    }

    fn bay(&self, bay: &Bay) -> Arc<Bay> {
        Arc::new(Bay {
            outline: self.points(&bay.outline),
            holes: self.rings(&bay.holes),
            roof: self.roof(&bay.roof),
            ..bay.clone()
        })
    }

    fn roof(&self, roof: &Roof) -> Roof {
        match *roof {
            Roof::Flat => Roof::Flat,
            Roof::SingleSlope {
                rises_toward,
                pitch,
            } => Roof::SingleSlope {
                rises_toward: self.bearing(rises_toward),
                pitch,
            },
            Roof::Gable {
                ridge_through,
                ridge_bearing,
                pitch,
            } => Roof::Gable {
                ridge_through: self.point(ridge_through),
                ridge_bearing: self.bearing(ridge_bearing),
                pitch,
            },
        }
    }

    /// Members are counted to the right of the bearing. In a mirror that is the left, so
    /// a mirrored framing runs the other way: its members, their numbers and their
    /// as-built moves are then the mirrored ones, each with its number.
    fn framing(&self, framing: &Framing) -> Arc<Framing> {
        let (bearing, as_built) = if self.swaps_sides() {
            let mirrored = framing.as_built.iter().map(MemberAdjustment::mirrored);
            let bearing = framing.bearing + Angle::degrees(180.0);
            (self.bearing(bearing), mirrored.collect())
        } else {
            (self.bearing(framing.bearing), framing.as_built.clone())
        };
        Arc::new(Framing {
            anchor: self.point(framing.anchor),
            bearing,
            as_built,
            ..framing.clone()
        })
    }

    fn obstruction(&self, obstruction: &Obstruction) -> Arc<Obstruction> {
        let footprint = match &obstruction.footprint {
            Footprint::Area { outline, holes } => Footprint::Area {
                outline: self.points(outline),
                holes: self.rings(holes),
            },
            Footprint::Line { points, width } => Footprint::Line {
                points: self.points(points),
                width: *width,
            },
        };
        let top_slope = obstruction.particulars.top_slope.map(|slope| TopSlope {
            rises_toward: self.bearing(slope.rises_toward),
            ..slope
        });
        Arc::new(Obstruction {
            footprint,
            particulars: Particulars {
                top_slope,
                ..obstruction.particulars
            },
            ..obstruction.clone()
        })
    }

    fn work_spot(&self, spot: &WorkSpot) -> Arc<WorkSpot> {
        Arc::new(WorkSpot {
            at: self.point(spot.at),
            ..spot.clone()
        })
    }

    /// In a mirror the other side is looked at: the section is the mirrored one.
    fn section_line(&self, line: &SectionLine) -> Arc<SectionLine> {
        let looks = if self.swaps_sides() {
            line.looks.opposite()
        } else {
            line.looks
        };
        Arc::new(SectionLine {
            from: self.point(line.from),
            to: self.point(line.to),
            looks,
            ..line.clone()
        })
    }

    fn run(&self, run: &Run) -> Arc<Run> {
        let sided = if self.swaps_sides() {
            mirror_sides(run)
        } else {
            run.clone()
        };
        Arc::new(Run {
            burner: self.point(run.burner),
            bearing: self.bearing(run.bearing),
            ..sided
        })
    }
}

/// The run with left and right exchanged.
fn mirror_sides(run: &Run) -> Run {
    let shape = match run.shape {
        RunShape::Straight => RunShape::Straight,
        RunShape::Hairpin { return_leg } => RunShape::Hairpin {
            return_leg: return_leg.opposite(),
        },
    };
    Run {
        shape,
        // 0 is taken as it is: its negative would be another text in the file.
        tilt: if run.tilt == Angle::ZERO {
            Angle::ZERO
        } else {
            -run.tilt
        },
        shields: run.shields.swapped(),
        ..run.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::{Allowance, BottomChord, HangFrom, LockedHanger, MemberKind, Shields, Side};

    fn run() -> Run {
        Run {
            id: "R1".into(),
            family: "test".to_owned(),
            size: "20".to_owned(),
            burner: DVec2::new(2.0, 3.0),
            tube_height: Length::metres(5.0),
            bearing: Angle::degrees(90.0),
            shape: RunShape::Hairpin {
                return_leg: Side::Left,
            },
            tilt: Angle::degrees(20.0),
            shields: Shields::Right,
            hanging: Hanging::Solved,
            fixed_hanger: None,
            suspension: None,
            exhaust: Default::default(),
            zone: String::new(),
            notes: String::new(),
        }
    }

    fn framing() -> Framing {
        Framing {
            id: "P".into(),
            bay: "B1".into(),
            kind: MemberKind::Purlin,
            anchor: DVec2::new(1.0, 2.0),
            bearing: Angle::degrees(30.0),
            first: Length::metres(0.4),
            spacing: Length::metres(1.5),
            count: None,
            depth: Length::metres(0.2),
            seat: Length::metres(0.2),
            width: Length::metres(0.06),
            bears_on: Vec::new(),
            bottom: BottomChord::Parallel,
            hang_from: HangFrom::Flange,
            clamp_drop: Length::metres(0.05),
            panels: None,
            allowed_at_point: Allowance::Unknown,
            allowed_off_panel: Allowance::Unknown,
            allowed_in_all: None,
            as_built: Vec::new(),
            notes: String::new(),
        }
    }

    /// Members 0 and 1 of a framing as lines in plan, and the way to the right of it.
    fn lines(framing: &Framing) -> [DVec2; 2] {
        let right = -along(framing.bearing).perp();
        [0.0, 1.0]
            .map(|k| framing.anchor + right * (framing.first + framing.spacing * k).as_metres())
    }

    #[test]
    fn turning_is_clockwise_like_bearings() {
        let quarter = Motion::Turn {
            about: DVec2::new(1.0, 1.0),
            by: Angle::degrees(90.0),
        };
        assert_eq!(quarter.point(DVec2::new(1.0, 3.0)), DVec2::new(3.0, 1.0));
        let bearing = quarter.bearing(Angle::degrees(300.0));
        assert_eq!(bearing, Angle::degrees(30.0));
        // What lay along a bearing lies along the turned bearing.
        let there = quarter.point(DVec2::ONE + along(Angle::degrees(300.0)));
        assert!((there - DVec2::ONE - along(bearing)).length() < 1e-15);
    }

    #[test]
    fn a_mirror_exchanges_left_and_right_of_a_run() {
        let line = MirrorLine {
            through: DVec2::new(0.0, 10.0),
            bearing: Angle::degrees(90.0),
        };
        let Object::Run(image) = mirrored(&Object::Run(Arc::new(run())), line) else {
            unreachable!("a run stays a run");
        };
        assert_eq!(image.burner, DVec2::new(2.0, 17.0));
        assert_eq!(image.bearing, Angle::degrees(90.0));
        assert_eq!(image.tilt, Angle::degrees(-20.0));
        assert_eq!(image.shields, Shields::Left);
        let return_leg = Side::Right;
        assert_eq!(image.shape, RunShape::Hairpin { return_leg });
        let back = mirrored(&Object::Run(image), line);
        assert_eq!(back, Object::Run(Arc::new(run())));
    }

    #[test]
    fn mirrored_members_keep_their_numbers() {
        let framing = framing();
        for degrees in [0.0, 37.0, 90.0, 211.0] {
            let line = MirrorLine {
                through: DVec2::new(4.0, -2.0),
                bearing: Angle::degrees(degrees),
            };
            let motion = Motion::Mirror(line);
            let image = motion.framing(&framing);
            for (found, drawn) in lines(&image).into_iter().zip(lines(&framing)) {
                assert!((found - motion.point(drawn)).length() < 1e-12);
            }
            // Moved to the right in the drawing is moved to the right in the image.
            let right = |it: &Framing| it.anchor - along(it.bearing).perp();
            assert!((right(&image) - motion.point(right(&framing))).length() < 1e-12);
        }
    }

    #[test]
    fn end_for_end_keeps_the_place_and_the_compass_side() {
        let slope = 0.004;
        let leg = Length::metres(9.0);
        let hanger = |station: f64| LockedHanger {
            station: Length::metres(station),
            members: vec!["J-01".into()],
            at: None,
        };
        let drawn = Run {
            hanging: Hanging::Locked(vec![hanger(0.5), hanger(2.5), hanger(8.0)]),
            fixed_hanger: Some(1),
            suspension: None,
            ..run()
        };
        let turned = end_for_end(&drawn, leg, slope);
        assert_eq!(turned.bearing, Angle::degrees(270.0));
        // The aim was left of east, so north; right of west is north too.
        assert_eq!(turned.tilt, Angle::degrees(-20.0));
        assert_eq!(turned.shields, Shields::Left);
        assert_eq!(turned.fixed_hanger, Some(3));
        let Hanging::Locked(hangers) = &turned.hanging else {
            unreachable!("locked hangers stay locked");
        };
        let stations: Vec<f64> = hangers.iter().map(|it| it.station.as_metres()).collect();
        assert_eq!(stations, [1.0, 6.5, 8.5]);
        let back = end_for_end(&turned, leg, slope);
        assert!((back.burner - drawn.burner).length() < 1e-12);
        let burner = drawn.burner;
        assert_eq!(Run { burner, ..back }, drawn);
    }
}
