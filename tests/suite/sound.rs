//! A sound site with something of every kind, for the tests of the document and its files.

use rafterglow::geometry::DVec2;
use rafterglow::site::framing::{Allowance, BottomChord, HangFrom, MemberKind, Panels};
use rafterglow::site::policy::Override;
use rafterglow::site::{
    Acceptance, Bay, Combustibility, Construction, Footprint, Framing, GridLine, Hanging, HeightAt,
    LockedAt, LockedHanger, MeasuredAt, MeasuredHeight, MemberAdjustment, Obstruction,
    ObstructionKind, Opening, OpeningKind, PolicyItem, Roof, Run, RunShape, Scheme, SectionLine,
    Shields, Side, Site, WorkSpot,
};
use rafterglow::units::{Angle, Force, Length, Temperature, ThermalTransmittance};
use std::sync::Arc;

/// Metres.
pub(crate) fn m(metres: f64) -> Length {
    Length::metres(metres)
}

/// Degrees.
pub(crate) fn deg(degrees: f64) -> Angle {
    Angle::degrees(degrees)
}

fn points<const N: usize>(points: [(f64, f64); N]) -> Vec<DVec2> {
    points.map(DVec2::from).to_vec()
}

fn text(text: &str) -> String {
    text.to_owned()
}

/// A freight shed of two bays with one of everything in and round it.
pub(crate) fn site() -> Site {
    Site {
        name: text("Freight shed, Skerry Harbour"),
        place: text("North quay 3"),
        grid: grid(),
        bays: vec![Arc::new(shed()), Arc::new(annexe())],
        openings: vec![Arc::new(door())],
        framings: vec![Arc::new(joists()), Arc::new(purlins())],
        obstructions: vec![Arc::new(rack()), Arc::new(duct())],
        work_spots: vec![Arc::new(bench())],
        sections: vec![Arc::new(across())],
        schemes: vec![
            Arc::new(Scheme {
                id: "A".into(),
                name: text("Straight"),
                runs: vec![Arc::new(straight()), Arc::new(locked())],
                notes: String::new(),
            }),
            Arc::new(Scheme {
                id: "B".into(),
                name: text("Hairpins"),
                runs: vec![Arc::new(hairpin())],
                notes: text("cheaper by two burners"),
            }),
        ],
        shown_scheme: "A".into(),
        acceptances: vec![
            Acceptance {
                rule: text("slack-hanger"),
                subjects: vec![text("R2"), text("J-03/AB")],
                reason: text("seen on site"),
                date: text("3 May"),
            },
            Acceptance {
                rule: text("mounting-height"),
                subjects: vec![text("R1")],
                reason: text("nobody works there"),
                date: String::new(),
            },
        ],
        policy: rafterglow::site::Policy::default().with(
            PolicyItem::CostOffPanel,
            Some(Override {
                value: 2.5,
                reason: text("the joists' engineer wants none"),
            }),
        ),
        notes: text("Line 1\nline 2: \"quoted\", a \\ and (brackets] \u{2014} 20 \u{b0}C"),
        ..Site::default()
    }
}

fn grid() -> Vec<Arc<GridLine>> {
    let line = |id: &str, from: (f64, f64), to: (f64, f64)| {
        Arc::new(GridLine {
            id: id.into(),
            from: from.into(),
            to: to.into(),
            notes: String::new(),
        })
    };
    vec![
        line("A", (-2.0, 0.0), (32.0, 0.0)),
        line("B", (-2.0, 12.0), (32.0, 12.0)),
        line("C", (-2.0, 24.0), (32.0, 24.0)),
        line("1", (0.0, -2.0), (0.0, 26.0)),
        line("10", (30.0, -2.0), (30.0, 26.0)),
    ]
}

fn steel() -> Construction {
    Construction {
        name: text("insulated panel"),
        u_value: ThermalTransmittance::watts_per_square_metre_kelvin(0.28),
        burns: Combustibility::NonCombustible,
        facing: None,
    }
}

fn shed() -> Bay {
    Bay {
        id: "B1".into(),
        name: text("Shed"),
        outline: points([(0.0, 0.0), (30.0, 0.0), (30.0, 24.0), (0.0, 24.0)]),
        holes: vec![points([
            (10.0, 8.0),
            (12.0, 8.0),
            (12.0, 10.0),
            (10.0, 10.0),
        ])],
        eave: m(7.0),
        roof: Roof::SingleSlope {
            rises_toward: deg(0.0),
            pitch: 0.05,
        },
        wall: steel(),
        deck: steel(),
        open_edges: vec![1],
        collateral: None,
        used_as: Default::default(),
        notes: String::new(),
    }
}

fn annexe() -> Bay {
    Bay {
        id: "B2".into(),
        name: String::new(),
        outline: points([
            (30.0, 0.0),
            (42.0, 0.0),
            (42.0, 9.0),
            (36.0, 12.0),
            (30.0, 9.0),
        ]),
        holes: Vec::new(),
        eave: m(5.0),
        roof: Roof::Gable {
            ridge_through: DVec2::new(36.0, 4.5),
            ridge_bearing: deg(90.0),
            pitch: 0.2,
        },
        wall: steel(),
        deck: Construction {
            name: text("boards"),
            burns: Combustibility::Combustible,
            ..steel()
        },
        open_edges: vec![4],
        collateral: None,
        used_as: Default::default(),
        notes: text("built later"),
    }
}

fn door() -> Opening {
    Opening {
        id: "D1".into(),
        bay: "B1".into(),
        edge: 0,
        from_corner: m(4.0),
        width: m(3.6),
        sill: m(0.0),
        height: m(4.2),
        kind: OpeningKind::SectionalDoor,
        door: Default::default(),
        notes: String::new(),
    }
}

fn joists() -> Framing {
    Framing {
        id: "J".into(),
        bay: "B1".into(),
        kind: MemberKind::OpenWebJoist,
        anchor: DVec2::ZERO,
        bearing: deg(0.0),
        first: m(0.915),
        spacing: m(1.83),
        count: None,
        depth: m(0.6),
        seat: m(0.064),
        width: m(0.1),
        bears_on: vec!["A".into(), "B".into(), "C".into()],
        bottom: BottomChord::Parallel,
        hang_from: HangFrom::BottomChord,
        clamp_drop: m(0.05),
        panels: Some(Panels {
            first: m(0.9),
            spacing: m(1.2),
        }),
        allowed_at_point: Allowance::Known(Force::newtons(900.0)),
        allowed_off_panel: Allowance::Known(Force::newtons(445.0)),
        allowed_in_all: None,
        as_built: vec![
            MemberAdjustment {
                moved: m(0.12),
                raised: m(-0.03),
                notes: text("measured"),
                ..MemberAdjustment::as_drawn(4)
            },
            MemberAdjustment {
                measured_at: Some(MeasuredAt {
                    from: "1".into(),
                    distance: m(10.315),
                }),
                measured_height: Some(MeasuredHeight {
                    height: m(7.15),
                    at: HeightAt::FromLine {
                        line: "B".into(),
                        distance: m(2.0),
                    },
                }),
                ..MemberAdjustment::as_drawn(6)
            },
            MemberAdjustment {
                measured_at: Some(MeasuredAt {
                    from: "10".into(),
                    distance: m(13.725 - 30.0),
                }),
                measured_height: Some(MeasuredHeight {
                    height: m(6.38),
                    at: HeightAt::LowEnd,
                }),
                ..MemberAdjustment::as_drawn(8)
            },
        ],
        notes: String::new(),
    }
}

fn purlins() -> Framing {
    Framing {
        id: "P".into(),
        bay: "B2".into(),
        kind: MemberKind::Purlin,
        anchor: DVec2::new(30.0, 0.0),
        bearing: deg(90.0),
        first: m(-8.6),
        spacing: m(1.5),
        count: Some(7),
        depth: m(0.2),
        seat: m(0.2),
        width: m(0.06),
        bears_on: Vec::new(),
        bottom: BottomChord::Parallel,
        hang_from: HangFrom::Flange,
        clamp_drop: m(0.04),
        panels: None,
        allowed_at_point: Allowance::Unknown,
        allowed_off_panel: Allowance::Unknown,
        allowed_in_all: None,
        as_built: Vec::new(),
        notes: String::new(),
    }
}

fn rack() -> Obstruction {
    Obstruction {
        id: "O1".into(),
        name: text("Rack 1"),
        kind: ObstructionKind::Racking,
        footprint: Footprint::Area {
            outline: points([(5.0, 14.0), (20.0, 14.0), (20.0, 16.4), (5.0, 16.4)]),
            holes: vec![points([(8.0, 14.8), (9.0, 14.8), (8.5, 15.6)])],
        },
        bottom: m(0.0),
        top: m(4.8),
        upright_top: Some(m(4.5)),
        burns: Combustibility::Combustible,
        temperature_limit: Some(Temperature::celsius(60.0)),
        particulars: Default::default(),
        notes: String::new(),
    }
}

fn duct() -> Obstruction {
    Obstruction {
        id: "O2".into(),
        name: String::new(),
        kind: ObstructionKind::Duct,
        footprint: Footprint::Line {
            points: points([(2.0, 20.0), (14.0, 20.0), (16.5, 22.25)]),
            width: m(0.5),
        },
        bottom: m(5.0),
        top: m(5.5),
        upright_top: None,
        burns: Combustibility::NonCombustible,
        temperature_limit: None,
        particulars: Default::default(),
        notes: String::new(),
    }
}

fn across() -> SectionLine {
    SectionLine {
        id: "A".into(),
        from: DVec2::new(6.0, -1.0),
        to: DVec2::new(6.0, 13.0),
        looks: Side::Right,
        depth: m(4.0),
        notes: text("through the bench"),
    }
}

fn bench() -> WorkSpot {
    WorkSpot {
        id: "W1".into(),
        name: text("Packing bench"),
        at: DVec2::new(25.0, 6.0),
        height: m(1.1),
        activity_met: 1.6,
        clothing_clo: 0.9,
        notes: String::new(),
    }
}

fn straight() -> Run {
    Run {
        id: "R1".into(),
        family: text("generic-straight"),
        size: text("36-12"),
        burner: DVec2::new(3.0, 6.0),
        tube_height: m(5.6),
        bearing: deg(90.0),
        shape: RunShape::Straight,
        tilt: deg(15.0),
        shields: Shields::Left,
        hanging: Hanging::Solved,
        fixed_hanger: None,
        suspension: None,
        exhaust: Default::default(),
        zone: text("dock"),
        notes: String::new(),
    }
}

fn locked() -> Run {
    let hanger = |station: f64, members: &[&str]| LockedHanger {
        station: m(station),
        members: members.iter().map(|it| (*it).into()).collect(),
        at: (members.len() == 1).then_some(LockedAt::PanelPoint(3)),
    };
    Run {
        id: "R2".into(),
        size: text("22-9"),
        burner: DVec2::new(3.0, 18.0),
        tilt: deg(0.0),
        shields: Shields::None,
        hanging: Hanging::Locked(vec![
            hanger(0.4, &["J-03/BC"]),
            hanger(2.2, &["J-04/BC", "J-05/BC"]),
            hanger(4.6, &["J-06/BC.2"]),
        ]),
        fixed_hanger: Some(2),
        suspension: None,
        ..straight()
    }
}

fn hairpin() -> Run {
    Run {
        family: text("generic-hairpin"),
        size: text("45-18"),
        shape: RunShape::Hairpin {
            return_leg: Side::Right,
        },
        bearing: deg(12.5),
        tilt: deg(-20.0),
        shields: Shields::None,
        ..straight()
    }
}
