//! Every hanger can be found with a tape: dimensions close, and so do the offsets of
//! the schedule.

use rafterglow::geometry::DVec2;
use rafterglow::sheets::{Layer, Mark, Sheet};
use rafterglow::site::Site;
use rafterglow::units::{Length, Quantity, UnitSystem};

use super::sites::Set;
use super::texts;

/// Places are shown to the centimetre or to the eighth of an inch.
const SHOWN_M: f64 = 0.005 + 1e-9;
const SHOWN_FEET_M: f64 = 0.0254 / 16.0 + 1e-9;

/// The figures of all dimensions that run from a line, in metres.
fn figures(sheet: &Sheet, from: &str, units: UnitSystem) -> Vec<f64> {
    let of = |mark: &&Mark| {
        mark.layer == Layer::Dimension
            && mark
                .subject
                .as_ref()
                .is_some_and(|it| it.starts_with(&format!("dimension:{from} ")))
    };
    let marks = sheet.marks.iter().filter(of);
    let figures = marks
        .flat_map(Mark::texts)
        .map(|text| parsed(text.content(), units));
    figures.collect()
}

/// A shown length in metres, whatever minus sign it has.
fn parsed(text: &str, units: UnitSystem) -> f64 {
    Length::parse(&text.replace('−', "-"), units)
        .unwrap()
        .as_metres()
}

fn has(figures: &[f64], measure: f64, within: f64) -> bool {
    figures
        .iter()
        .any(|figure| (figure - measure).abs() <= within)
}

#[test]
fn chains_reach_every_grid_line_and_close_on_the_last() {
    for units in UnitSystem::ALL {
        let mut set = Set::small();
        set.change(|site| site.units = units);
        let within = if units == UnitSystem::Metric {
            SHOWN_M
        } else {
            SHOWN_FEET_M
        };
        let plan = &set.sheets()[0];
        // Lines 1 to 3 every 18.3 m; A to C every 12 m.
        for (from, spacing) in [("1", 18.3), ("A", 12.0)] {
            let figures = figures(plan, from, units);
            for number in 0..3 {
                assert!(
                    has(&figures, spacing * f64::from(number), within),
                    "{from}: {figures:?}"
                );
            }
            let last = figures.iter().copied().fold(0.0, f64::max);
            assert!(
                (last - 2.0 * spacing).abs() <= within,
                "the chain closes at the last line"
            );
        }
    }
}

#[test]
fn first_and_last_hangers_are_dimensioned_both_ways() {
    for set in [
        Set::small(),
        Set::sample("freight-shed"),
        Set::sample("boat-hall"),
    ] {
        let plan = &set.sheets()[0];
        let units = set.site().units;
        let (from_1, from_a) = (figures(plan, "1", units), figures(plan, "A", units));
        for run in &set.study().runs {
            let ends = [run.hanging.hangers.first(), run.hanging.hangers.last()];
            let axis = run.axis_ends().0;
            let is_level = (run.run.bearing.as_degrees() - 90.0).abs() < 1e-9;
            for hanger in ends.into_iter().flatten() {
                let at = hanger.at.attach;
                // Across the run the tube's axis is dimensioned.
                let (x, y) = if is_level {
                    (at.x, axis.y)
                } else {
                    (axis.x, at.y)
                };
                assert!(
                    has(&from_1, x, SHOWN_M),
                    "{}: {x} of {from_1:?}",
                    run.run.id
                );
                assert!(
                    has(&from_a, y, SHOWN_M),
                    "{}: {y} of {from_a:?}",
                    run.run.id
                );
            }
        }
    }
}

#[test]
fn every_stop_of_a_chain_has_its_stroke_to_scale() {
    use rafterglow::sheets::{Pen, Shape};
    let set = Set::small();
    let plan = &set.sheets()[0];
    let scale = plan.viewports[0].scale;
    let origin = plan.viewports[0].paper_from_site(DVec2::ZERO);
    // Strokes across dimension lines, by their middles.
    let strokes: Vec<DVec2> = plan
        .marks
        .iter()
        .filter(|mark| mark.layer == Layer::Dimension)
        .filter_map(|mark| match &mark.shape {
            Shape::Polyline(line) if line.pen == Pen::MEDIUM => {
                Some(line.points[0].midpoint(line.points[1]))
            }
            _ => None,
        })
        .collect();
    let is_at = |measure: f64, along: &dyn Fn(DVec2) -> f64| {
        // The figure is rounded to the centimetre, the stroke is not.
        let slack = scale.paper_mm(SHOWN_M) + 0.1;
        measure == 0.0
            || strokes
                .iter()
                .any(|at| (along(*at) - scale.paper_mm(measure)).abs() < slack)
    };
    for measure in figures(plan, "1", UnitSystem::Metric) {
        assert!(is_at(measure, &|at| at.x - origin.x), "{measure} from 1");
    }
    for measure in figures(plan, "A", UnitSystem::Metric) {
        assert!(is_at(measure, &|at| origin.y - at.y), "{measure} from A");
    }
}

/// `B + 2.40` or `on B`: the line and the offset in metres.
fn offset(text: &str, units: UnitSystem) -> Option<(String, f64)> {
    if let Some(line) = text.strip_prefix("on ") {
        return Some((line.to_owned(), 0.0));
    }
    let (line, rest) = text.split_once(' ')?;
    let sign = match rest.chars().next()? {
        '+' => 1.0,
        '−' => -1.0,
        _ => return None,
    };
    let figure = rest.chars().skip(1).collect::<String>();
    Length::parse(figure.trim(), units)
        .ok()
        .map(|it| (line.to_owned(), sign * it.as_metres()))
}

/// The x of a numbered line or the y of a lettered one.
fn line_at(site: &Site, id: &str) -> f64 {
    let line = site
        .grid
        .iter()
        .find(|line| line.id.as_str() == id)
        .unwrap();
    if line.direction().x.abs() < 0.5 {
        line.from.x
    } else {
        line.from.y
    }
}

#[test]
fn every_hanger_of_the_schedule_is_where_its_offsets_say() {
    for units in UnitSystem::ALL {
        for mut set in [Set::small(), Set::sample("net-store")] {
            set.change(|site| site.units = units);
            let within = if units == UnitSystem::Metric {
                SHOWN_M
            } else {
                SHOWN_FEET_M
            };
            let sheets = set.sheets();
            let listed: Vec<String> = sheets.iter().skip(1).flat_map(texts).collect();
            for (id, at) in set.hangers() {
                let row = listed.iter().position(|text| *text == id).unwrap();
                let found: Vec<(String, f64)> = listed[row + 1..row + 3]
                    .iter()
                    .filter_map(|text| offset(text, units))
                    .collect();
                assert_eq!(found.len(), 2, "{id}: {:?}", &listed[row..row + 3]);
                for (line, offset) in found {
                    let is_letter = line.chars().all(char::is_alphabetic);
                    let measured = if is_letter { at.y } else { at.x };
                    let said = line_at(set.site(), &line) + offset;
                    assert!(
                        (said - measured).abs() <= within,
                        "{id}: {line} {offset} for {measured}"
                    );
                }
            }
        }
    }
}
