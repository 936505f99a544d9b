//! Tubes, reflectors, irradiance and shadows against worked values, and against what must
//! hold whatever the figures are.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use rafterglow::geometry::{Bounds, ConvexSolid, DVec2, DVec3, Frame};
use rafterglow::warmth::SIGMA;
use rafterglow::warmth::irradiance::{LineSource, Piece};
use rafterglow::warmth::reflector::{CrossSection, Spread, bare_strength};
use rafterglow::warmth::shadow::{hidden, shaded};
use rafterglow::warmth::source::{Balance, CELLS, Declared, Gas, Legs, Optics, Tube, calibrated};
use serde_json::Value;
use std::f64::consts::{PI, TAU};
use std::sync::LazyLock;

static REFERENCES: LazyLock<Value> = LazyLock::new(|| {
    let text = include_str!("../references/warmth.json");
    serde_json::from_str(text).unwrap()
});

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

fn vector(value: &Value) -> DVec3 {
    let [x, y, z] = [0, 1, 2].map(|k| number(&value[k]));
    DVec3::new(x, y, z)
}

fn close(what: &str, found: f64, expected: f64, allowed: f64) {
    let off = (found - expected).abs();
    assert!(
        off <= allowed,
        "{what}: {found}, expected {expected} within {allowed}"
    );
}

fn tube(input: &Value) -> Tube {
    let of = |name: &str| number(&input[name]);
    let is_hairpin = input.get("legs").is_some();
    let own = if is_hairpin { "a_self" } else { "a_tube" };
    Tube {
        input_net_w: of("Q"),
        gas: Gas {
            a: of("a"),
            b: of("b"),
            air_k: of("Tair"),
        },
        flame_m: of("lf"),
        length_m: of("L"),
        legs: if is_hairpin { Legs::Two } else { Legs::One },
        diameter_m: of("D"),
        emissivity: of("eps"),
        inside: of("h_i"),
        outside: of("h_o"),
        optics: Optics {
            room: of("a_room"),
            hood: of("a_refl"),
            own: of(own),
            other: if is_hairpin { of("a_other") } else { 0.0 },
        },
        round_k: of("Ta"),
        room_k: of("Tr"),
    }
}

/// The wall's temperature at a station, between the middles of cells on a line.
fn wall_at(balance: &Balance, station_m: f64) -> f64 {
    let cells = &balance.cells;
    let k = cells
        .iter()
        .position(|it| station_m <= it.station_m)
        .unwrap_or(cells.len() - 1)
        .max(1);
    let (a, b) = (cells[k - 1], cells[k]);
    let part = (station_m - a.station_m) / (b.station_m - a.station_m);
    a.wall_k + part * (b.wall_k - a.wall_k)
}

#[test]
fn tubes_are_as_hot_as_worked_out_and_their_balance_closes() {
    for reference in list(&REFERENCES["tubes"]) {
        let tube = tube(&reference["input"]);
        let id = reference["id"].as_str().unwrap();
        for (n_cells, parts, kelvin) in [(CELLS, 0.002, 6.0), (96, 0.0005, 1.5)] {
            let found = tube.balance(n_cells);
            let part = |watts: f64| watts / tube.input_net_w;
            assert!(found.defect(&tube) < 1e-12, "{id}: {}", found.defect(&tube));
            close(
                id,
                found.efficiency(&tube),
                number(&reference["efficiency"]),
                parts,
            );
            close(id, part(found.room_w), number(&reference["room"]), parts);
            close(id, part(found.hood_w), number(&reference["hood"]), parts);
            close(
                id,
                part(found.convection_w),
                number(&reference["convection"]),
                parts,
            );
            close(id, found.exhaust_k, number(&reference["exhaust_k"]), kelvin);
            for pair in list(&reference["wall_k"]) {
                let station_m = number(&pair[0]);
                // Where the wall warms up a line between two cells is coarse.
                let warming = if station_m < 2.0 {
                    1.0 / count(n_cells)
                } else {
                    0.0
                };
                let off = close_to_end(&found, &tube, station_m) + 150.0 * warming;
                close(
                    id,
                    wall_at(&found, station_m),
                    number(&pair[1]),
                    kelvin + off,
                );
            }
        }
    }
}

fn count(n: usize) -> f64 {
    f64::from(u32::try_from(n).unwrap())
}

/// Beyond the last cell's middle a line is drawn on: half a cell of the fall there.
fn close_to_end(found: &Balance, tube: &Tube, station_m: f64) -> f64 {
    let last = found.cells.last().unwrap();
    if station_m < last.station_m.min(tube.length_m) {
        0.0
    } else {
        3.0
    }
}

#[test]
fn a_hairpins_legs_heat_each_other() {
    let reference = &REFERENCES["hairpin"];
    let tube = tube(&reference["input"]);
    let found = tube.balance(96);
    let output = &reference["output"];
    let part = |watts: f64| watts / tube.input_net_w;
    assert!(found.defect(&tube) < 1e-9, "{}", found.defect(&tube));
    close(
        "efficiency",
        found.efficiency(&tube),
        number(&output["eta_th"]),
        0.001,
    );
    close("room", part(found.room_w), number(&output["f_room"]), 0.001);
    let cell_m = tube.length_m / 96.0;
    let hot: f64 = found.cells[..48]
        .iter()
        .map(|it| it.room_w_per_m * cell_m)
        .sum();
    close("hot leg", part(hot), number(&output["f_room_hot"]), 0.001);
    let stations = list(&output["x"]).iter().map(number);
    for (k, x_m) in stations.enumerate() {
        close(
            "hot",
            wall_at(&found, x_m),
            number(&output["Tw_hot"][k]),
            2.0,
        );
        let back = wall_at(&found, tube.length_m - x_m);
        close("return", back, number(&output["Tw_return"][k]), 2.0);
    }
}

#[test]
fn a_tube_that_only_convects_cools_as_the_closed_form_says() {
    let base = tube(&REFERENCES["tubes"][0]["input"]);
    let plain = Tube {
        input_net_w: 37_796.25,
        gas: Gas {
            a: 25.0,
            b: 0.0,
            air_k: 288.15,
        },
        flame_m: 1e-4,
        emissivity: 0.0,
        ..base
    };
    let expected = number(&REFERENCES["linear_end_k"]);
    close("exhaust", plain.balance(2_000).exhaust_k, expected, 0.5);
}

#[test]
fn what_is_declared_is_what_is_found() {
    let base = tube(&REFERENCES["tubes"][0]["input"]);
    let found = calibrated(
        &base,
        &Declared {
            efficiency: 0.9,
            radiant: number(&REFERENCES["calibrated"]["f_room"]),
        },
    );
    assert!(found.efficiency_off.abs() < 1e-6 && found.radiant_off.abs() < 1e-6);
    let inside = number(&REFERENCES["calibrated"]["h_i"]);
    close("inside", found.tube.inside, inside, 0.01 * inside);
    close("optics", found.tube.optics.room, base.optics.room, 0.002);
    // More than the tube can radiate is said, not bent.
    let asked = Declared {
        efficiency: 0.9,
        radiant: 0.89,
    };
    assert!(0.05 < calibrated(&base, &asked).radiant_off);
}

#[test]
fn more_input_never_makes_a_colder_tube() {
    let base = tube(&REFERENCES["tubes"][0]["input"]);
    let mut before = base.balance(CELLS);
    for watts in [42_000.0, 46_000.0, 60_000.0] {
        let ratio = watts / base.input_net_w;
        let gas = Gas {
            a: base.gas.a * ratio,
            b: base.gas.b * ratio,
            ..base.gas
        };
        let found = Tube {
            input_net_w: watts,
            gas,
            ..base
        }
        .balance(CELLS);
        assert!(before.room_w < found.room_w);
        for (a, b) in before.cells.iter().zip(&found.cells) {
            assert!(a.wall_k < b.wall_k);
        }
        before = found;
    }
}

fn profile(value: &Value) -> Vec<DVec2> {
    list(value)
        .iter()
        .map(|point| DVec2::new(number(&point[0]), number(&point[1])))
        .collect()
}

fn hood(reflectance: f64) -> CrossSection {
    let reference = &REFERENCES["hoods"][0];
    CrossSection {
        tubes: vec![DVec2::ZERO],
        radius_m: number(&reference["a"]),
        profile: profile(&reference["polyline"]),
        reflectance,
    }
}

fn strengths(section: &CrossSection, reference: &Value, name: &str, allowed: f64) {
    let angles = list(&reference["psi_deg"]).iter().map(number);
    for (degrees, expected) in angles.zip(list(&reference[name])) {
        let found = section.strength(degrees.to_radians(), 8_000);
        close(
            &format!("{name} at {degrees}"),
            found,
            number(expected),
            allowed,
        );
    }
}

#[test]
fn a_tube_without_a_reflector_sends_the_same_everywhere() {
    let bare = CrossSection {
        tubes: vec![DVec2::ZERO],
        radius_m: 0.05,
        profile: Vec::new(),
        reflectance: 0.0,
    };
    close("strength", bare.strength(0.7, 4_000), 1.0, 1e-3);
    let optics = bare.optics(100);
    close("room", optics.room, 1.0, 1e-12);
}

#[test]
fn mirrors_and_plates_send_what_their_closed_forms_say() {
    for reference in list(&REFERENCES["mirrors"]) {
        let height_m = number(&reference["mirror_height"]);
        let mirror = CrossSection {
            tubes: vec![DVec2::ZERO],
            radius_m: number(&reference["a"]),
            profile: vec![DVec2::new(-40.0, height_m), DVec2::new(40.0, height_m)],
            reflectance: 1.0,
        };
        // So wide a mirror spreads the rays thin: the angle's own few are enough.
        let near = CrossSection {
            profile: vec![DVec2::new(-2.0, height_m), DVec2::new(2.0, height_m)],
            ..mirror.clone()
        };
        let angles = list(&reference["psi_deg"]).iter().map(number);
        for (degrees, expected) in angles.zip(list(&reference["J_over_J0"])) {
            if degrees < 70.0 {
                let found = near.strength(degrees.to_radians(), 60_000);
                close("mirror", found, number(expected), 0.002);
            }
        }
        close(
            "own",
            mirror.optics(1_000).own,
            number(&reference["a_tube"]),
            0.001,
        );
    }
    let reference = &REFERENCES["plate"];
    let (half_m, height_m) = (
        number(&reference["half_width"]),
        number(&reference["height"]),
    );
    let plate = CrossSection {
        tubes: vec![DVec2::ZERO],
        radius_m: 0.05,
        profile: vec![DVec2::new(-half_m, height_m), DVec2::new(half_m, height_m)],
        reflectance: 0.0,
    };
    strengths(&plate, reference, "J_over_J0", 0.002);
}

#[test]
fn hoods_send_and_keep_what_was_worked_out() {
    for reference in list(&REFERENCES["hoods"]) {
        let section = hood(number(&reference["rho"]));
        strengths(&section, reference, "J_over_J0", 0.004);
        let optics = section.optics(600);
        for (found, name) in [
            (optics.room, "a_room"),
            (optics.hood, "a_refl"),
            (optics.own, "a_tube"),
        ] {
            close(name, found, number(&reference[name]), 0.001);
        }
        let sum = optics.room + optics.hood + optics.own + optics.other;
        close("sum", sum, 1.0, 1e-9);
        let spread = Spread::traced(&section, 360, 1_000);
        close("mean", spread.mean(), optics.room, 0.002);
    }
}

#[test]
fn two_legs_share_a_reflector() {
    let reference = &REFERENCES["two_legs"];
    let centres = profile(&reference["centres"]);
    let section = CrossSection {
        tubes: centres.clone(),
        radius_m: 0.05,
        profile: profile(&reference["polyline"]),
        reflectance: number(&reference["rho"]),
    };
    strengths(&section, reference, "J1_over_J0", 0.006);
    let back = CrossSection {
        tubes: vec![centres[1], centres[0]],
        ..section.clone()
    };
    strengths(&back, reference, "J2_over_J0", 0.006);
    let optics = section.optics(600);
    let budget = &reference["budget"];
    close("room", optics.room, number(&budget["room"]), 0.001);
    close("own", optics.own, number(&budget["self"]), 0.001);
    close("other", optics.other, number(&budget["other"]), 0.001);
}

/// A bare line of emissive power 1: its strength is the tube's width over pi.
fn line(from: DVec3, to: DVec3, radius_m: f64, power: f64) -> LineSource {
    let length_m = from.distance(to);
    LineSource {
        start: from,
        along: (to - from) / length_m,
        pieces: vec![Piece {
            from_m: 0.0,
            to_m: length_m,
            strength: 2.0 * radius_m * power / PI,
        }],
        spread: Spread::even(),
        tilt_rad: 0.0,
    }
}

fn reference_line() -> LineSource {
    line(
        DVec3::new(0.0, 0.0, 6.0),
        DVec3::new(12.0, 0.0, 6.0),
        0.05,
        1.0,
    )
}

#[test]
fn a_line_sends_what_was_worked_out_and_nearly_what_the_tube_does() {
    let source = reference_line();
    for reference in list(&REFERENCES["lines"]) {
        let normal = vector(&reference["n"]).normalize();
        let found = source.irradiance(vector(&reference["P"]), normal);
        let id = reference["id"].as_str().unwrap();
        let expected = number(&reference["F"]);
        close(id, found, expected, 1e-9 * expected.abs() + 1e-15);
        let exact = number(&reference["exact"]);
        close(id, found, exact, 0.013 * exact);
    }
}

#[test]
fn two_heaters_add_up_and_only_what_is_before_a_receiver_counts() {
    for reference in list(&REFERENCES["two_heaters"]) {
        let normal = vector(&reference["n"]).normalize();
        let sum: f64 = ["A", "B"]
            .iter()
            .map(|name| {
                let heater = &reference[*name];
                let ends = [0, 1].map(|k| vector(&heater["axis"][k]));
                let source = line(ends[0], ends[1], 0.05, number(&heater["M"]));
                source.irradiance(vector(&reference["P"]), normal)
            })
            .sum();
        let expected = number(&reference["E"]);
        close("both", sum, expected, 0.006 * expected);
    }
}

#[test]
fn a_tube_that_cools_along_its_length_is_stronger_at_its_burner() {
    let mut source = reference_line();
    source.pieces = (0..48)
        .map(|k| {
            let from_m = f64::from(k) * 0.25;
            let kelvin = 700.0 - 25.0 * (from_m + 0.125);
            Piece {
                from_m,
                to_m: from_m + 0.25,
                strength: 0.1 / PI * 0.85 * SIGMA * kelvin.powi(4),
            }
        })
        .collect();
    for reference in list(&REFERENCES["nonuniform"]) {
        let found = source.irradiance(vector(&reference["P"]), DVec3::Z);
        let expected = number(&reference["E"]);
        close("floor", found, expected, 0.006 * expected);
    }
}

#[test]
fn a_tilted_hood_throws_to_its_side() {
    let spread = Spread::traced(&hood(0.95), 720, 4_000);
    for reference in list(&REFERENCES["far_field"]) {
        // Across, up, along becomes along, left, up.
        let turned = |v: DVec3| DVec3::new(v.z, v.x, v.y);
        let mut source = line(DVec3::ZERO, DVec3::new(6.0, 0.0, 0.0), 0.05, PI);
        source.spread = spread.clone();
        source.tilt_rad = number(&reference["tilt_deg"]).to_radians();
        let found = source.irradiance(
            turned(vector(&reference["P"])),
            turned(vector(&reference["n"])),
        );
        let expected = number(&reference["far"]);
        close(
            &reference["P"].to_string(),
            found,
            expected,
            0.004 * expected + 1e-6,
        );
    }
}

#[test]
fn nothing_is_lost_or_invented_in_a_closed_room() {
    let size = DVec3::new(20.0, 12.0, 7.0);
    let from = DVec3::new(5.0, 4.0, 5.5);
    let bare = line(from, DVec3::new(15.0, 4.0, 5.5), 0.05, 1.0);
    let hooded = |tilt: f64| LineSource {
        spread: Spread::traced(&hood(0.95), 720, 2_000),
        tilt_rad: tilt.to_radians(),
        ..bare.clone()
    };
    // What the bare tube sends in all.
    let sent_w = TAU * 0.05 * 10.0;
    for (name, source) in [
        ("line_bare", bare.clone()),
        ("hood_tilt0", hooded(0.0)),
        ("hood_tilt30", hooded(30.0)),
    ] {
        let expected = &REFERENCES["boxes"][name];
        let faces = [
            ("floor", 2, 0.0),
            ("roof", 2, size.z),
            ("x0", 0, 0.0),
            ("x1", 0, size.x),
            ("y0", 1, 0.0),
            ("y1", 1, size.y),
        ];
        let mut sum = 0.0;
        for (face, axis, at) in faces {
            let part = onto(&source, size, axis, at) / sent_w;
            let wanted = number(&expected["fractions"][face]);
            close(&format!("{name} {face}"), part, wanted, 0.003);
            sum += part;
        }
        close(name, sum, number(&expected["sum"]), 0.003);
    }
}

/// What lands on a face of a room, W.
fn onto(source: &LineSource, size: DVec3, axis: usize, at: f64) -> f64 {
    const STEP_M: f64 = 0.2;
    let (i, j) = ((axis + 1) % 3, (axis + 2) % 3);
    let mut normal = DVec3::ZERO;
    normal[axis] = if at == 0.0 { 1.0 } else { -1.0 };
    let cells = |length: f64| {
        (0..)
            .map(|k| (f64::from(k) + 0.5) * STEP_M)
            .take_while(move |x| *x < length)
    };
    let mut sum = 0.0;
    for x in cells(size[i]) {
        for y in cells(size[j]) {
            let mut place = DVec3::ZERO;
            (place[axis], place[i], place[j]) = (at, x, y);
            sum += source.irradiance(place, normal) * STEP_M * STEP_M;
        }
    }
    sum
}

fn solid(value: &Value) -> ConvexSolid {
    let local = Bounds {
        low: vector(&value[0]),
        high: vector(&value[1]),
    };
    ConvexSolid::turned_box(&Frame::AXES, &local).unwrap()
}

#[test]
fn a_box_hides_exactly_what_it_hides() {
    let source = reference_line();
    let whole = (source.start, source.along, 12.0);
    for reference in list(&REFERENCES["shadows"]) {
        let place = vector(&reference["P"]);
        let solid = solid(&reference["box"]);
        let found = hidden(place, whole, &solid);
        match reference["hidden_interval"].as_array() {
            Some(ends) => {
                let (from, to) = found.unwrap();
                close("from", from, number(&ends[0]), 1e-9);
                close("to", to, number(&ends[1]), 1e-9);
            }
            None => assert_eq!(found, None),
        }
        let shaded = shaded(&source, place, vector(&reference["n"]), &[solid]);
        let expected = number(&reference["F_line"]);
        close("shaded", shaded, expected, 1e-6 * expected);
    }
}

#[test]
fn shadows_that_overlap_are_counted_once() {
    let source = reference_line();
    let place = DVec3::new(6.0, 0.5, 0.0);
    let cube = |x: f64, half: f64| {
        let local = Bounds {
            low: DVec3::new(x - half, -1.0, 2.0),
            high: DVec3::new(x + half, 1.0, 3.0),
        };
        ConvexSolid::turned_box(&Frame::AXES, &local).unwrap()
    };
    let (one, other) = (cube(5.5, 0.7), cube(6.2, 0.7));
    let both = shaded(&source, place, DVec3::Z, &[one.clone(), other.clone()]);
    let turned = shaded(
        &source,
        place,
        DVec3::Z,
        &[other.clone(), one.clone(), one.clone()],
    );
    assert_eq!(both, turned);
    // By many short pieces, each seen or not.
    let n = 3_000;
    let mut sum = 0.0;
    for k in 0..n {
        let from_m = 12.0 * f64::from(k) / f64::from(n);
        let to_m = 12.0 * f64::from(k + 1) / f64::from(n);
        let target = source.start + source.along * f64::midpoint(from_m, to_m);
        let is_hidden = [&one, &other].iter().any(|solid| {
            (0..1_200).any(|step| {
                let at = place.lerp(target, f64::from(step) / 1_200.0);
                solid
                    .faces()
                    .iter()
                    .all(|face| face.normal.dot(at) < face.offset)
            })
        });
        if !is_hidden {
            sum += source.irradiance_between(place, DVec3::Z, (from_m, to_m));
        }
    }
    close("by pieces", both, sum, 0.005 * sum);
}

#[test]
fn from_the_burner_to_the_floor() {
    let tube = tube(&REFERENCES["tubes"][0]["input"]);
    let balance = tube.balance(96);
    let cell_m = tube.length_m / 96.0;
    let mut source = reference_line();
    source.spread = Spread::traced(&hood(0.95), 720, 4_000);
    source.pieces = balance
        .cells
        .iter()
        .map(|cell| Piece {
            from_m: cell.station_m - cell_m / 2.0,
            to_m: cell.station_m + cell_m / 2.0,
            strength: bare_strength(cell.room_w_per_m / tube.optics.room),
        })
        .collect();
    for row in list(&REFERENCES["end_to_end"]) {
        let place = DVec3::new(number(&row[0]), number(&row[1]), 0.0);
        let expected = number(&row[2]);
        let found = source.irradiance(place, DVec3::Z);
        close(&format!("{place}"), found, expected, 0.005 * expected);
        // Turned about the vertical and mirrored, it is the same.
        let turn = |v: DVec3| DVec3::new(-v.y, v.x, v.z);
        let turned = LineSource {
            start: turn(source.start),
            along: turn(source.along),
            ..source.clone()
        };
        close(
            "turned",
            turned.irradiance(turn(place), DVec3::Z),
            found,
            1e-9 * found,
        );
        let across = DVec3::new(place.x, -place.y, place.z);
        close(
            "mirrored",
            source.irradiance(across, DVec3::Z),
            found,
            2e-3 * found,
        );
    }
}
