//! Every published or worked value in `tests/references/hanging.json`, reproduced through
//! the engines within the tolerance that stands beside it.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use crate::made::{Shed, shed};
use rafterglow::geometry::DVec2;
use rafterglow::geometry::math::sin;
use rafterglow::hanging::{
    BeamLoad, Capacity, ChannelCheck, ChannelLay, ChannelStock, GRAVITY, Growth, HangPoints, Place,
    PointLoad, SpanInSpace, Support, TemperatureRise, leg_factor, mean_rise_k,
};
use rafterglow::site::{BottomChord, HangFrom, MemberKind, Roof};
use rafterglow::structure::structure;
use rafterglow::units::{Angle, Force, Length};
use serde_json::Value;
use std::sync::Arc;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

/// How far from the reference value a result may be.
#[derive(Clone, Copy)]
enum Within {
    Part(f64),
    Absolute(f64),
}

/// The tolerance as the reference states it.
fn within(stated: &str) -> Within {
    let first = stated.split_whitespace().next().unwrap();
    match (first.parse::<f64>(), stated) {
        (Ok(number), _) if stated.contains('%') => Within::Part(number / 100.0),
        (Ok(number), _) if stated.contains("mm") => Within::Absolute(number / 1000.0),
        (Ok(number), _) => Within::Absolute(number),
        (Err(_), "exact") => Within::Part(1e-9),
        _ => panic!("no tolerance in {stated:?}"),
    }
}

fn check(id: &str, what: &str, value: f64, expected: f64, within: Within) {
    let allowed = match within {
        Within::Part(part) => part * expected.abs(),
        Within::Absolute(most) => most,
    };
    assert!(
        (value - expected).abs() <= allowed + 1e-12,
        "{id} {what}: {value}, expected {expected} within {allowed}"
    );
}

fn beam(length_m: f64, kg_per_m: f64, points: &[(f64, f64)], stiffness_n_m2: f64) -> BeamLoad {
    BeamLoad {
        length_m,
        spread_n_per_m: kg_per_m * GRAVITY,
        points: points
            .iter()
            .map(|&(station_m, kg)| PointLoad {
                station_m,
                force_n: kg * GRAVITY,
            })
            .collect(),
        stiffness_n_m2,
    }
}

/// What hangers at stations carry, kg; `low_m` is how low each is.
fn carried_kg(load: &BeamLoad, stations_m: &[f64], low_m: &[f64]) -> Vec<f64> {
    let supports: Vec<Support> = stations_m
        .iter()
        .zip(low_m)
        .map(|(&station_m, &low_m)| Support {
            station_m,
            offset_m: -low_m,
        })
        .collect();
    let held = load.held_by(&supports).unwrap();
    held.pull_n.iter().map(|pull| pull / GRAVITY).collect()
}

fn equal_spans(case: &Value, id: &str, within: Within) {
    let n_spans = number(&case["inputs"]["spans"]);
    let stations: Vec<f64> = numbers(&case["outputs"]["R"])
        .iter()
        .zip(0..)
        .map(|(_, nth)| 3.0 * f64::from(nth))
        .collect();
    let load = beam(3.0 * n_spans, 6.5, &[], 1e5);
    let carried = carried_kg(&load, &stations, &vec![0.0; stations.len()]);
    for (kg, expected) in carried.iter().zip(numbers(&case["outputs"]["R"])) {
        check(id, "R", kg / (6.5 * 3.0), expected, within);
    }
}

fn burner_outboard(case: &Value, id: &str, within: Within) {
    let inputs = &case["inputs"];
    let points: Vec<(f64, f64)> = inputs["point_loads"]
        .as_array()
        .unwrap()
        .iter()
        .map(|point| (number(&point["x_m"]), number(&point["kg"])))
        .collect();
    let load = beam(
        number(&inputs["length_m"]),
        number(&inputs["uniform_kg_m"]),
        &points,
        1e5,
    );
    let stations = numbers(&inputs["hangers_x_m"]);
    let carried = carried_kg(&load, &stations, &vec![0.0; stations.len()]);
    for (kg, expected) in carried.iter().zip(numbers(&case["outputs"]["R_kg"])) {
        check(id, "R", *kg, expected, within);
    }
    let total: f64 = carried.iter().sum();
    check(
        id,
        "total",
        total,
        number(&case["outputs"]["total_kg"]),
        within,
    );
}

/// The reference lets hangers push; ours go slack, so the change is taken where none has
/// gone slack yet, and scaled.
fn level_error(case: &Value, id: &str, within: Within) {
    let load = beam(
        12.0,
        number(&case["inputs"]["w_kg_m"]),
        &[],
        number(&case["inputs"]["EI_Nm2"]),
    );
    let stations = [0.0, 3.0, 6.0, 9.0, 12.0];
    let level = carried_kg(&load, &stations, &[0.0; 5]);
    let (low_m, part) = (0.002, 2.0 / 5.0);
    let low = carried_kg(&load, &stations, &[0.0, 0.0, low_m, 0.0, 0.0]);
    let expected = numbers(&case["outputs"]["R_level_kg"]);
    let changes = numbers(&case["outputs"]["dR_kg"]);
    for hanger in 0..5 {
        check(id, "level", level[hanger], expected[hanger], within);
        let change = (low[hanger] - level[hanger]) / part;
        check(id, "change", change, changes[hanger], within);
    }
    // As its reading says: slack from 3.3 mm on, and the neighbours then carry about 35 kg.
    let slack = carried_kg(&load, &stations, &[0.0, 0.0, 0.0034, 0.0, 0.0]);
    let taut = carried_kg(&load, &stations, &[0.0, 0.0, 0.0032, 0.0, 0.0]);
    assert!(slack[2] == 0.0 && taut[2] > 0.0);
    check(id, "neighbour", slack[1], 35.0, Within::Absolute(0.5));
}

fn off_panel(case: &Value, id: &str) {
    let pounds = |value: &Value| Force::pounds_force(number(value)).as_newtons();
    let limit = Capacity::Known(pounds(&case["inputs"]["limit_lb"]));
    let span = SpanInSpace {
        id: Arc::from("J-1"),
        framing: 0,
        row: 0,
        start: DVec2::ZERO,
        direction: DVec2::X,
        usable_m: (0.0, 10.0),
        attach_m: vec![(0.0, 6.0)],
        hang_points: HangPoints::Panels {
            points_m: vec![1.0, 2.0, 3.0],
            allowed: Capacity::Unknown,
            off_panel: Some(limit),
            in_all: None,
        },
    };
    let load = pounds(&case["inputs"]["reaction_lb"]);
    let at = |position_m| span.allowed_alone(span.place_at(position_m));
    assert_eq!(span.place_at(2.0), Place::PanelPoint(2), "{id}");
    // At the panel point it is the engineer's to say, between them it is too much.
    assert_eq!(at(2.0), Capacity::Unknown, "{id}");
    assert!(!at(2.5).allows(load) && at(2.5).allows(load * 0.8), "{id}");
}

fn sloped_roof(case: &Value, id: &str, within: Within) {
    let inputs = &case["inputs"];
    let mut site = shed(Shed {
        runs_along: 1,
        rows: 2,
        stacks_per_row: 0,
    });
    let mut bay = site.bays[0].as_ref().clone();
    bay.eave = Length::metres(number(&inputs["eave_underside_m"]));
    bay.roof = Roof::SingleSlope {
        rises_toward: Angle::degrees(0.0),
        pitch: number(&inputs["pitch"]),
    };
    let mut purlins = site.framings[0].as_ref().clone();
    purlins.kind = MemberKind::Purlin;
    purlins.panels = None;
    // Along the eave; member 1 is the nearest to it.
    purlins.bearing = Angle::degrees(270.0);
    purlins.anchor = DVec2::ZERO;
    let distances = numbers(&inputs["distance_from_eave_m"]);
    purlins.first = Length::metres(distances[0]);
    purlins.spacing = Length::metres(distances[1] - distances[0]);
    purlins.depth = Length::metres(number(&inputs["structure_depth_m"]));
    purlins.clamp_drop = Length::ZERO;
    purlins.bears_on = Vec::new();
    purlins.hang_from = HangFrom::Flange;
    purlins.bottom = BottomChord::Parallel;
    site.bays = vec![Arc::new(bay)];
    site.framings = vec![Arc::new(purlins)];
    site.schemes = rafterglow::site::Site::default().schemes;
    let built = structure(&site);
    let hanger_z = number(&inputs["hanger_point_m"]);
    for (nth, expected) in numbers(&case["outputs"]["length_m"]).iter().enumerate() {
        let member = &built.members[nth];
        let y = member.plan_at(1.0).y;
        check(id, "distance", y, distances[nth], Within::Absolute(1e-9));
        let length = member.attach_at(1.0) - hanger_z;
        check(id, "length", length, *expected, within);
    }
}

fn stock(i_in4: f64, z_in3: f64, ratio: f64) -> ChannelStock {
    let inch = Length::inches(1.0).as_metres();
    ChannelStock {
        second_moment_m4: i_in4 * inch.powi(4),
        section_modulus_m3: z_in3 * inch.powi(3),
        greatest_deflection_ratio: ratio,
        ..ChannelStock::default()
    }
}

/// The allowed even load of a channel, lb, from what it bears at midspan, and its sag
/// under that, inches.
fn even_load(i_in4: f64, z_in3: f64, span_in: f64) -> (f64, f64) {
    let span_m = Length::inches(span_in).as_metres();
    let lay = ChannelLay {
        span_m,
        to_first_m: span_m / 2.0,
    };
    let endless = stock(i_in4, z_in3, f64::INFINITY);
    let at_midspan = ChannelCheck::greatest_load_n(&endless, lay);
    let sag_m = ChannelCheck::new(&endless, lay, at_midspan).deflection_m;
    let pounds = Force::newtons(at_midspan).as_pounds_force();
    (2.0 * pounds, Length::metres(sag_m).as_inches() / 0.8)
}

fn even_load_to(i_in4: f64, span_in: f64, ratio: f64) -> f64 {
    let span_m = Length::inches(span_in).as_metres();
    let stiff = ChannelStock {
        allowed_stress_pa: f64::INFINITY,
        ..stock(i_in4, 1.0, 1.0 / ratio)
    };
    let lay = ChannelLay {
        span_m,
        to_first_m: span_m / 2.0,
    };
    1.6 * Force::newtons(ChannelCheck::greatest_load_n(&stiff, lay)).as_pounds_force()
}

fn channel(case: &Value, id: &str, within: Within) {
    let inputs = &case["inputs"];
    let (i, z) = (number(&inputs["I_in4"]), number(&inputs["S_in3"]));
    let span = number(&inputs["span_in"]);
    let outputs = &case["outputs"];
    let (even, sag) = even_load(i, z, span);
    check(id, "W", even, number(&outputs["W_lb"]), within);
    check(
        id,
        "midspan",
        even / 2.0,
        number(&outputs["midspan_point_lb"]),
        within,
    );
    check(id, "sag", sag, number(&outputs["deflection_in"]), within);
    let to_240 = even_load_to(i, span, 240.0);
    check(id, "S/240", to_240, number(&outputs["W_L240_lb"]), within);
    let to_360 = even_load_to(i, span, 360.0);
    check(id, "S/360", to_360, number(&outputs["W_L360_lb"]), within);
}

fn published_channel(case: &Value, id: &str, within: Within) {
    let (i, z, slots) = if id.contains("slotted") {
        (0.123, 0.158, 0.9)
    } else {
        (0.302, 0.242, 1.0)
    };
    let span = number(&case["inputs"]["span_in"]);
    let outputs = &case["outputs"];
    let (even, _) = even_load(i, z, span);
    check(id, "W", slots * even, number(&outputs["W_lb"]), within);
    // Tables print the lesser of strength and stiffness.
    for (name, ratio) in [("W_L240_lb", 240.0), ("W_L360_lb", 360.0)] {
        if let Some(expected) = outputs.get(name) {
            let least = even.min(even_load_to(i, span, ratio));
            check(id, name, least, number(expected), within);
        }
    }
}

fn growth(case: &Value, id: &str, within: Within) {
    let length = number(&case["inputs"]["length_m"]);
    check(
        id,
        "rise",
        mean_rise_k(length),
        number(&case["inputs"]["mean_rise_K"]),
        within,
    );
    let growth_mm = Growth::new(&TemperatureRise::assumed(length), length, 0.0).total_m * 1000.0;
    check(
        id,
        "growth",
        growth_mm,
        number(&case["outputs"]["growth_mm"]),
        within,
    );
    let swing = number(&case["inputs"]["max_swing_deg"]).to_radians();
    let least = growth_mm / sin(swing);
    check(
        id,
        "least suspension",
        least,
        number(&case["outputs"]["min_suspension_mm"]),
        within,
    );
}

/// What the bundled table allows for a size, lb, its terminations left out, at the
/// design factor of its own reference.
fn allowed_lb(id: &str, factor: f64, terminations: f64) -> f64 {
    use rafterglow::catalogue::hardware::Strength;
    let catalogue = rafterglow::store::catalogue_file::embedded();
    let size = catalogue.hardware.sizes.iter().find(|size| size.id == id);
    let strength = match size.unwrap_or_else(|| panic!("no {id}")).strength {
        Strength::Break { load, .. } => Strength::Break { load, terminations },
        limit => limit,
    };
    strength.allowed(factor).as_pounds_force()
}

fn hardware(case: &Value, id: &str, within: Within) {
    let size = case["inputs"]["size_in"].as_str().unwrap();
    let outputs = &case["outputs"];
    match id.split('.').next().unwrap() {
        "rod" => {
            let allowed = allowed_lb(&format!("rod-{size}"), 5.0, 1.0);
            let expected = number(&outputs["lb_newer_10700psi"]);
            check(id, "allowed", allowed, expected, within);
            let stress = 10_700.0 * number(&case["inputs"]["root_area_in2"]);
            check(id, "root area", stress, expected, within);
        }
        // A limit is stored in newtons to four places.
        "chain" => {
            let name = format!("chain-30-{size}");
            let stored = Within::Part(1e-6);
            let at_4 = allowed_lb(&name, 4.0, 1.0);
            check(id, "limit", at_4, number(&outputs["wll_lb"]), stored);
            check(
                id,
                "break",
                4.0 * at_4,
                number(&outputs["break_lb"]),
                stored,
            );
            let at_5 = allowed_lb(&name, 5.0, 1.0);
            check(id, "at 5", at_5, number(&outputs["at_5_to_1_lb"]), stored);
        }
        _ => {
            let factor = number(&case["inputs"]["design_factor"]);
            let allowed = allowed_lb(&format!("rope-{size}"), factor, 1.0);
            check(
                id,
                "allowed",
                allowed,
                number(&outputs["wll_lb"]),
                Within::Part(1e-6),
            );
        }
    }
}

fn bridle(case: &Value, id: &str, within: Within) {
    let factors = numbers(&case["outputs"]["factor"]);
    for (degrees, factor) in numbers(&case["inputs"]["deg"]).iter().zip(factors) {
        check(
            id,
            "leg",
            leg_factor(2, degrees.to_radians()),
            factor,
            within,
        );
    }
}

#[test]
fn every_reference_value_is_met() {
    let text = include_str!("../references/hanging.json");
    let cases: Vec<Value> = serde_json::from_str(text).unwrap();
    for case in &cases {
        let id = case["id"].as_str().unwrap();
        let stated = case["tolerance"].as_str().unwrap();
        if id == "hang.sji" {
            off_panel(case, id);
            continue;
        }
        let within = within(stated);
        match id {
            "hang.2span" | "hang.3span" | "hang.4span" => equal_spans(case, id, within),
            "hang.burner.out" => burner_outboard(case, id, within),
            "hang.level" => level_error(case, id, within),
            "hang.slope" => sloped_roof(case, id, within),
            "rope.vee" => bridle(case, id, within),
            _ if id.starts_with("strut.published") => published_channel(case, id, within),
            _ if id.starts_with("strut.") => channel(case, id, within),
            _ if id.starts_with("expand.") => growth(case, id, within),
            _ if ["rod.", "chain.", "rope."]
                .iter()
                .any(|kind| id.starts_with(kind)) =>
            {
                hardware(case, id, within);
            }
            _ => panic!("nobody reproduces {id}"),
        }
    }
    assert_eq!(cases.len(), 27);
}
