//! Sites made in code, as large as wanted.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::allow_attributes,
    reason = "shared by tests and benches, each of which uses a part"
)]

use rafterglow::geometry::DVec2;
use rafterglow::site::*;
use rafterglow::units::{Angle, Force, Length, ThermalTransmittance};
use std::sync::Arc;

fn m(metres: f64) -> Length {
    Length::metres(metres)
}

/// How large a made shed is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Shed {
    /// Runs along it, one every 18.3 m.
    pub(crate) runs_along: u32,
    /// Rows of runs, one every 12 m, each in the middle of a span.
    pub(crate) rows: u32,
    /// Stacks of goods along each row of runs.
    pub(crate) stacks_per_row: u32,
}

impl Shed {
    pub(crate) const SMALL: Self = Self {
        runs_along: 2,
        rows: 2,
        stacks_per_row: 6,
    };
    /// 200 runs, 2,000 member spans, 2,000 obstructions.
    pub(crate) const LARGE: Self = Self {
        runs_along: 20,
        rows: 10,
        stacks_per_row: 200,
    };

    fn length(self) -> f64 {
        18.3 * f64::from(self.runs_along)
    }

    fn depth(self) -> f64 {
        12.0 * f64::from(self.rows)
    }
}

fn surface(burns: Combustibility) -> Construction {
    Construction {
        name: String::new(),
        u_value: ThermalTransmittance::watts_per_square_metre_kelvin(0.5),
        burns,
        facing: None,
    }
}

fn grid(id: String, from: (f64, f64), to: (f64, f64)) -> Arc<GridLine> {
    Arc::new(GridLine {
        id: GridId::new(id),
        from: from.into(),
        to: to.into(),
        notes: String::new(),
    })
}

/// A shed with joists across it at 1.83 m, spanning 12 m between grid lines, and runs
/// along it under panel points.
pub(crate) fn shed(size: Shed) -> Site {
    let (length, depth) = (size.length(), size.depth());
    let cross_lines = (0..=size.rows).map(|row| {
        let y = 12.0 * f64::from(row);
        let letter = char::from(b'A' + u8::try_from(row).unwrap());
        grid(letter.to_string(), (-2.0, y), (length + 2.0, y))
    });
    let long_lines = (0..=size.runs_along).map(|column| {
        let x = 18.3 * f64::from(column);
        grid((column + 1).to_string(), (x, -2.0), (x, depth + 2.0))
    });
    let bay = Bay {
        id: "B1".into(),
        name: "shed".into(),
        outline: [(0.0, 0.0), (length, 0.0), (length, depth), (0.0, depth)]
            .map(DVec2::from)
            .to_vec(),
        holes: Vec::new(),
        eave: m(7.2),
        roof: Roof::SingleSlope {
            rises_toward: Angle::degrees(0.0),
            pitch: 0.005,
        },
        wall: surface(Combustibility::NonCombustible),
        deck: surface(Combustibility::NonCombustible),
        open_edges: Vec::new(),
        collateral: None,
        used_as: Default::default(),
        notes: String::new(),
    };
    let joists = Framing {
        id: "J".into(),
        bay: "B1".into(),
        kind: MemberKind::OpenWebJoist,
        anchor: DVec2::ZERO,
        bearing: Angle::degrees(0.0),
        first: m(0.915),
        spacing: m(1.83),
        count: None,
        depth: m(0.6),
        seat: m(0.064),
        width: m(0.1),
        bears_on: cross_lines.clone().map(|line| line.id.clone()).collect(),
        bottom: BottomChord::Parallel,
        hang_from: HangFrom::BottomChord,
        clamp_drop: m(0.05),
        panels: Some(Panels {
            first: m(1.2),
            spacing: m(1.2),
        }),
        allowed_at_point: Allowance::Known(Force::newtons(900.0)),
        allowed_off_panel: Allowance::Known(Force::newtons(445.0)),
        allowed_in_all: None,
        as_built: Vec::new(),
        notes: String::new(),
    };
    let mut obstructions = Vec::new();
    let mut runs = Vec::new();
    for row in 0..size.rows {
        let y = 12.0 * f64::from(row) + 6.0;
        for column in 0..size.runs_along {
            let number = row * size.runs_along + column + 1;
            runs.push(Arc::new(Run {
                id: RunId::new(format!("R{number}")),
                family: "generic-straight".into(),
                size: "36-12".into(),
                burner: DVec2::new(18.3 * f64::from(column) + 2.5, y),
                tube_height: m(5.7),
                bearing: Angle::degrees(90.0),
                shape: RunShape::Straight,
                tilt: Angle::degrees(0.0),
                shields: Shields::None,
                hanging: Hanging::Solved,
                fixed_hanger: None,
                suspension: None,
                exhaust: Default::default(),
                zone: String::new(),
                notes: String::new(),
            }));
        }
        for stack in 0..size.stacks_per_row {
            let x = length / f64::from(size.stacks_per_row) * f64::from(stack);
            obstructions.push(Arc::new(Obstruction {
                id: ObstructionId::new(format!("O{}", row * size.stacks_per_row + stack + 1)),
                name: String::new(),
                kind: ObstructionKind::StoredGoods,
                footprint: Footprint::Area {
                    outline: [(0.1, 2.0), (1.3, 2.0), (1.3, 4.4), (0.1, 4.4)]
                        .map(|(dx, dy)| DVec2::new(x + dx, y + dy))
                        .to_vec(),
                    holes: Vec::new(),
                },
                bottom: m(0.0),
                top: m(3.0 + f64::from(stack % 3) * 0.4),
                upright_top: None,
                burns: Combustibility::Combustible,
                temperature_limit: None,
                particulars: Default::default(),
                notes: String::new(),
            }));
        }
    }
    let mut lines: Vec<Arc<GridLine>> = cross_lines.collect();
    lines.extend(long_lines);
    Site {
        name: "made shed".into(),
        grid: lines,
        bays: vec![Arc::new(bay)],
        framings: vec![Arc::new(joists)],
        obstructions,
        schemes: vec![Arc::new(Scheme {
            id: "A".into(),
            name: String::new(),
            runs,
            notes: String::new(),
        })],
        ..Site::default()
    }
}
