//! How the picked run hangs: each hanger with what it hangs from, its length, its load.

use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::figures::{bare_length, force, length};
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, Theme};
use crate::editor::widgets::{
    Column, Table, TableRow, Tone, heading_ui, hint_ui, link_ui, message_ui, rule_ui,
};
use crate::hanging::{Capacity, Hanger, Hanging, Kind, Limit, Loss, Obstacle, Status};
use crate::site::RunId;
use crate::study::{RunStudy, Study};
use crate::units::{Force, Length, UnitSystem};
use eframe::egui;
use egui::{Color32, Rect, Ui, Vec2, pos2};

const COLUMNS: [Column; 6] = [
    Column::words("#", 12.0),
    Column::words("from", 74.0),
    Column::figures("at", 36.0),
    Column::figures("length", 36.0),
    Column::figures("load", 40.0),
    Column::figures("of allowed", 54.0),
];

const FEET_COLUMNS: [Column; 6] = [
    Column::words("#", 12.0),
    Column::words("from", 66.0),
    Column::figures("at", 50.0),
    Column::figures("length", 50.0),
    Column::figures("load", 42.0),
    Column::figures("of allowed", 46.0),
];

/// How a run hangs, once it has been worked out.
pub(super) fn hanging_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, id: &RunId) {
    let (Some(study), Some(run)) = (editor.results.study(), editor.results.run(id)) else {
        return;
    };
    let hanging = &run.hanging;
    let (state, colour) = state(ui, hanging.status);
    rule_ui(ui);
    heading_ui(ui, "Hanging", state, Some(colour));
    let units = editor.site().units;
    if hanging.hangers.is_empty() {
        if let Some(obstacle) = &hanging.obstacle {
            obstacle_ui(ui, obstacle, units);
        }
    } else {
        table_ui(ui, study, run, units);
    }
    lost_ui(ui, hanging, units);
    ui.add_space(STEP);
    let label = if hanging.status == Status::Locked {
        "Let the program choose the hangers again"
    } else {
        "Keep the hangers where they are"
    };
    if link_ui(ui, label).clicked() {
        intents.push(Intent::Command(Command::LockHangers));
    }
}

fn state(ui: &Ui, status: Status) -> (&'static str, Color32) {
    let palette = &Theme::of(ui).palette;
    match status {
        Status::Solved => ("exact, cheapest", palette.ok),
        Status::Locked => ("kept where they are", palette.soft_ink),
        Status::Unproven => ("best found, not proven", palette.caution),
        Status::Impossible => ("can't be hung", palette.breach),
    }
}

fn table_ui(ui: &mut Ui, study: &Study, run: &RunStudy, units: UnitSystem) {
    let columns = match units {
        UnitSystem::Metric => &COLUMNS,
        UnitSystem::FeetInches => &FEET_COLUMNS,
    };
    let table = Table::new(columns, 5.0 * STEP);
    table.head_ui(ui);
    ui.spacing_mut().item_spacing.y = 0.0;
    for (k, hanger) in run.hanging.hangers.iter().enumerate() {
        ui.push_id(k, |ui| {
            table.row_ui(ui, |ui, row| hanger_ui(ui, row, study, hanger, k, units));
        });
    }
    ui.spacing_mut().item_spacing.y = STEP;
    if run
        .hanging
        .hangers
        .iter()
        .any(|hanger| part(study, hanger).is_none())
    {
        message_ui(
            ui,
            Tone::Caution,
            "unknown: engineer. Nobody has said yet what these places may carry.",
        );
    }
    if run
        .hanging
        .hangers
        .iter()
        .any(|hanger| hanger.at.kind == Kind::Channel)
    {
        hint_ui(ui, "A triangle marks a cross channel over two members.");
    }
}

fn hanger_ui(
    ui: &mut Ui,
    row: &mut TableRow<'_>,
    study: &Study,
    hanger: &Hanger,
    k: usize,
    units: UnitSystem,
) {
    let palette = &Theme::of(ui).palette;
    let (ink, soft) = (palette.ink, palette.soft_ink);
    if hanger.at.kind == Kind::Channel {
        channel_mark_ui(ui, row);
    } else {
        row.text_ui(ui, &(k + 1).to_string(), ink);
    }
    row.text_ui(ui, &from(hanger), ink);
    let metres = Length::metres;
    row.text_ui(ui, &bare_length(units, metres(hanger.at.station_m)), soft);
    row.text_ui(ui, &bare_length(units, metres(hanger.at.suspension_m)), ink);
    if hanger.load.slack {
        row.text_ui(ui, "slack", palette.caution);
    } else {
        row.text_ui(ui, &force(units, Force::newtons(hanger.load.load_n)), ink);
    }
    match part(study, hanger) {
        None => row.text_ui(ui, "unknown", palette.caution),
        Some(part) if part > 1.0 + crate::geometry::tolerance::LIMIT => {
            row.text_ui(ui, &percent(part), palette.breach);
        }
        Some(part) => row.text_ui(ui, &percent(part), ink),
    }
}

/// A hanger on a cross channel has a small triangle in place of its number.
fn channel_mark_ui(ui: &mut Ui, row: &mut TableRow<'_>) {
    let colour = Theme::of(ui).palette.ink;
    row.cell_ui(ui, |ui| {
        let size = Vec2::splat(4.0 * STEP);
        let (rect, response) = ui.allocate_exact_size(size, egui::Sense::hover());
        let icon =
            Rect::from_center_size(pos2(rect.left() + 5.0, rect.center().y), Vec2::splat(9.0));
        Icon::Channel.paint(ui.painter(), icon, colour);
        response.on_hover_text("On a cross channel over two members");
    });
}

/// What a hanger hangs from: member and panel point, or both members of a channel.
fn from(hanger: &Hanger) -> String {
    let first = &hanger.at.first;
    match &hanger.at.second {
        Some(second) => format!("{} · {}", first.member, second.member),
        None => match first.place.panel_point() {
            Some(number) => format!("{} p{number}", first.member),
            None => first.member.to_string(),
        },
    }
}

/// The greatest part of what is allowed that a hanger's places carry, all runs counted;
/// none where nobody has said what is allowed.
fn part(study: &Study, hanger: &Hanger) -> Option<f64> {
    let of = |load_n: f64, allowed: Capacity| match allowed {
        Capacity::Unknown => None,
        Capacity::Known(allowed_n) if allowed_n > 0.0 => Some(load_n / allowed_n),
        Capacity::Known(_) => Some(if load_n > 0.0 { f64::INFINITY } else { 0.0 }),
    };
    let mut greatest = of(hanger.load.load_n, hanger.load.allowed)?;
    for hold in &hanger.load.holds {
        greatest = greatest.max(of(hold.load_n, hold.allowed_single)?);
        if let Some(place) = study.loads.get(&hold.place)
            && let Some(allowed) = place.allowed
        {
            greatest = greatest.max(of(place.sum_n, allowed)?);
        }
    }
    Some(greatest)
}

/// Whole percent, up: rounding never makes too much look allowed.
fn percent(part: f64) -> String {
    if !part.is_finite() {
        return "none".to_owned();
    }
    let percent = part * 100.0;
    let within = part <= 1.0 + crate::geometry::tolerance::LIMIT;
    let shown = if within {
        percent.ceil().min(100.0)
    } else {
        percent.ceil().max(101.0)
    };
    format!("{shown:.0} %")
}

/// Why a run can't be hung, and what would help.
fn obstacle_ui(ui: &mut Ui, obstacle: &Obstacle, units: UnitSystem) {
    message_ui(
        ui,
        Tone::Breach,
        "No set of hangers obeys the maker's rule and the loads.",
    );
    let (from_m, to_m) = obstacle.longest_stretch_m;
    if to_m > from_m {
        hint_ui(
            ui,
            &format!(
                "Longest stretch without a place to hang from: {} to {} along the tube.",
                length(units, Length::metres(from_m)),
                length(units, Length::metres(to_m))
            ),
        );
    }
    if obstacle.helps.is_empty() {
        hint_ui(
            ui,
            "No single limit stands in the way: shift the run, or add steel.",
        );
    } else {
        let limits: Vec<&str> = obstacle
            .helps
            .iter()
            .map(|limit| in_words(*limit))
            .collect();
        hint_ui(
            ui,
            &format!("It could hang but for any one of: {}.", limits.join("; ")),
        );
    }
    for overload in &obstacle.overloads {
        if let (Some(place), Limit::Load) = (&overload.place, overload.limit) {
            hint_ui(
                ui,
                &format!(
                    "{} would carry {}, {} is allowed.",
                    place.member,
                    force(units, Force::newtons(overload.measured)),
                    force(units, Force::newtons(overload.required))
                ),
            );
        }
    }
}

/// Kept hangers that hold nothing any more.
fn lost_ui(ui: &mut Ui, hanging: &Hanging, units: UnitSystem) {
    for lost in &hanging.lost {
        let why = match lost.why {
            Loss::OffTube => "it is beyond the tube's end",
            Loss::NoSuchMember => "its member is not there",
            Loss::NoHold => "its members offer no place for it",
            Loss::NotAbove => "the steel is not above the tube there",
        };
        let members: Vec<&str> = lost.hanger.members.iter().map(AsRef::as_ref).collect();
        message_ui(
            ui,
            Tone::Breach,
            &format!(
                "The hanger kept at {} on {} holds nothing: {why}.",
                length(units, Length::metres(lost.hanger.station_m)),
                members.join(" · ")
            ),
        );
    }
}

/// A limit, as one says it on site.
const fn in_words(limit: Limit) -> &'static str {
    match limit {
        Limit::FirstHanger => "where the first hanger may be",
        Limit::SecondHanger => "where the second hanger may be",
        Limit::LeastSpacing => "the least spacing",
        Limit::GreatestSpacing => "the greatest spacing",
        Limit::EndOverhang => "the end overhang",
        Limit::Joint => "the distance from tube joints",
        Limit::Suspension => "the least suspension",
        Limit::Lean => "the lean across the run",
        Limit::Swing => "the swing along the run",
        Limit::Load => "the allowed loads",
        Limit::ChannelBending => "the channel's strength",
        Limit::ChannelDeflection => "the channel's stiffness",
        Limit::Balance => "the balance on its hangers",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_never_makes_too_much_look_allowed() {
        assert_eq!(percent(0.481), "49 %");
        assert_eq!(percent(1.0), "100 %");
        assert_eq!(percent(1.000_01), "101 %");
        assert_eq!(percent(2.34), "234 %");
        assert_eq!(percent(0.0), "0 %");
        assert_eq!(percent(f64::INFINITY), "none");
    }
}
