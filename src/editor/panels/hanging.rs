//! How the picked run hangs: each hanger with what it hangs from, its length, its load.

mod hardware;

use super::advice::advice_ui;
use crate::editor::Editor;
use crate::editor::command::Command;
use crate::editor::figures::{bare_length, force, length};
use crate::editor::hangers::{
    Stride, Toward, broken, is_too_much, limit_in_words, part, percent, said,
};
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::theme::{STEP, TextSize, Theme};
use crate::editor::widgets::{
    Column, Table, TableRow, Tone, heading_ui, hint_ui, message_ui, rule_ui, small_button_ui,
};
use crate::findings::{bound_words, together_words};
use crate::hanging::{Hanger, Hanging, Kind, Limit, Loss, Obstacle, Status};
use crate::site::RunId;
use crate::study::{RunStudy, Study};
use crate::units::{Force, Length, UnitSystem};
use eframe::egui;
use egui::{
    Align, Color32, CornerRadius, Id, Rect, Response, Role, Sense, Stroke, StrokeKind, Ui, Vec2,
    WidgetInfo, pos2, vec2,
};

const COLUMNS: [Column; 6] = [
    Column::words("#", 12.0),
    Column::words("from", 74.0),
    Column::figures("at", 36.0),
    Column::figures("length", 36.0),
    Column::figures("load", 40.0),
    Column::figures("of allowed", 54.0),
];

const FEET_COLUMNS: [Column; 6] = [
    Column::words("#", 10.0),
    Column::words("from", 53.0),
    Column::figures("at", 54.0),
    Column::figures("length", 54.0),
    Column::figures("load", 38.0),
    Column::figures("used", 57.0),
];

/// Height of a hanger's row, points.
const ROW_HEIGHT: f32 = 5.0 * STEP;

/// How a run hangs, once it has been worked out.
pub(super) fn hanging_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, id: &RunId) {
    let (Some(study), Some(run)) = (editor.results.study(), editor.results.run(id)) else {
        return;
    };
    let hanging = &run.hanging;
    let (state, colour) = state(ui, hanging.status);
    rule_ui(ui);
    heading_ui(ui, "Hanging", state, Some(colour));
    if hanging.status == Status::Locked {
        kept_mark_ui(ui);
    }
    proof_ui(ui, study, run);
    let units = editor.site().units;
    // Above the table: what is previewed changes the table, and must not move the buttons.
    advice_ui(ui, editor, intents, id);
    if hanging.hangers.is_empty() {
        if let Some(obstacle) = &hanging.obstacle {
            obstacle_ui(ui, obstacle, units);
        }
    } else {
        table_ui(ui, editor, intents, study, run, units);
    }
    lost_ui(ui, hanging, units);
    picked_ui(ui, editor, intents, run);
    acts_ui(ui, editor, intents, hanging);
    // Below everything that is clicked: how much there is to say differs by hanger.
    if let Some((_, place)) = editor.selection.hanger() {
        hardware::hardware_ui(ui, units, study, run, place);
    }
}

/// A padlock: the hangers stay where they are.
fn kept_mark_ui(ui: &Ui) {
    let colour = Theme::of(ui).palette.soft_ink;
    // At the left of the words "kept where they are", which end at the panel's edge.
    let right = ui.max_rect().right();
    let galley = ui.painter().layout_no_wrap(
        "kept where they are".to_owned(),
        TextSize::Small.font(),
        colour,
    );
    let middle = ui.cursor().top() - ui.spacing().item_spacing.y - 2.5 * STEP;
    let at = pos2(right - galley.size().x - 3.0 * STEP, middle);
    let square = Rect::from_center_size(at, Vec2::splat(3.5 * STEP));
    Icon::Lock.paint(ui.painter(), square, colour);
}

/// What can be done with the picked hanger.
fn picked_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, run: &RunStudy) {
    let Some((_, place)) = editor.selection.hanger() else {
        return;
    };
    let Some(hanger) = run.hanging.hangers.get(place) else {
        return;
    };
    let number = place + 1;
    let units = editor.site().units;
    hint_ui(ui, &format!("Hanger {number}: {}", said(units, &hanger.at)));
    for wrong in broken(units, &run.hanging.breaches, place) {
        message_ui(ui, Tone::Breach, &wrong);
    }
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = STEP;
        for (label, toward) in [
            ("Toward burner", Toward::Burner),
            ("Toward exhaust", Toward::Exhaust),
        ] {
            let to = editor.hanger_beyond(toward, Stride::Direct);
            let clicked = ui
                .add_enabled_ui(to.is_some(), |ui| small_button_ui(ui, label))
                .inner
                .on_hover_text("To the next place that it could hang from")
                .clicked();
            if clicked && let Some(to) = to {
                intents.push(Intent::MoveHanger(Box::new(to)));
            }
        }
    });
}

/// What can be done with the hangers of the run.
fn acts_ui(ui: &mut Ui, editor: &Editor, intents: &mut Vec<Intent>, hanging: &Hanging) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = STEP;
        if let Some((_, place)) = editor.selection.hanger() {
            let name = format!("Remove hanger {}", place + 1);
            if small_button_ui(ui, &name).clicked() {
                intents.push(Intent::Command(Command::Delete));
            }
        }
        let label = if hanging.status == Status::Locked {
            "Solve again"
        } else {
            "Keep all"
        };
        let does = Command::LockHangers.explanation();
        if small_button_ui(ui, label).on_hover_text(does).clicked() {
            intents.push(Intent::Command(Command::LockHangers));
        }
        let does = Command::AddHanger.explanation();
        let add = small_button_ui(ui, "Add a hanger").on_hover_text(does);
        if add.clicked() {
            intents.push(Intent::Command(Command::AddHanger));
        }
    });
}

/// What other runs have to do with it, and how far its cost is from what is proven.
fn proof_ui(ui: &mut Ui, study: &Study, run: &RunStudy) {
    let hanging = &run.hanging;
    let Some(cost) = hanging.cost.filter(|_| hanging.status != Status::Locked) else {
        return;
    };
    let is_open = hanging.status == Status::Unproven;
    match study.group(&run.run.id) {
        Some(group) => {
            hint_ui(ui, &together_words(group, &run.run.id));
            if is_open {
                let bound = bound_words(group.cost, group.least_cost);
                hint_ui(ui, &format!("Of the group: {bound}."));
            }
        }
        None if is_open => {
            let bound = bound_words(cost, hanging.least_cost.unwrap_or(0));
            hint_ui(ui, &format!("Of these hangers: {bound}."));
        }
        None => {}
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

fn table_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    study: &Study,
    run: &RunStudy,
    units: UnitSystem,
) {
    let columns = match units {
        UnitSystem::Metric => &COLUMNS,
        UnitSystem::FeetInches => &FEET_COLUMNS,
    };
    let table = Table::new(columns, ROW_HEIGHT);
    table.head_ui(ui);
    ui.spacing_mut().item_spacing.y = 0.0;
    for (k, hanger) in run.hanging.hangers.iter().enumerate() {
        ui.push_id(k, |ui| {
            let is_picked = editor.selection.hanger() == Some((&run.run.id, k));
            if row_ground_ui(ui, study, hanger, k, is_picked, units) {
                intents.push(Intent::PickHanger(Some((run.run.id.clone(), k))));
            }
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

/// The ground of a hanger's row, which picks it; whether it was clicked.
fn row_ground_ui(
    ui: &Ui,
    study: &Study,
    hanger: &Hanger,
    k: usize,
    is_picked: bool,
    units: UnitSystem,
) -> bool {
    let size = vec2(ui.available_width(), ROW_HEIGHT);
    let rect = Rect::from_min_size(ui.cursor().min, size);
    let response = ui.interact(rect, ui.scope_id().with("row"), Sense::click());
    let load = force(units, Force::newtons(hanger.load.load_n));
    let of_allowed = part(study, hanger).map_or_else(
        || "allowed load unknown: engineer".to_owned(),
        |part| format!("{} of allowed", percent(part)),
    );
    let long = length(units, Length::metres(hanger.at.suspension_m));
    let name = format!(
        "Hanger {}, {}, suspension {long}, {load}, {of_allowed}",
        k + 1,
        said(units, &hanger.at)
    );
    response.widget_info(|| WidgetInfo::selected(Role::ListBoxOption, true, is_picked, &name));
    let palette = &Theme::of(ui).palette;
    let row = rect.expand2(vec2(STEP, 0.0));
    let corner = CornerRadius::same(3);
    if is_picked {
        ui.painter().rect_filled(row, corner, palette.selected_text);
        come_into_sight(ui, &response, k);
    } else if response.hovered() {
        ui.painter().rect_filled(row, corner, palette.band);
    }
    if response.has_focus() {
        let line = Stroke::new(2.0, palette.focus);
        ui.painter()
            .rect_stroke(row, corner, line, StrokeKind::Inside);
    }
    response.clicked()
}

/// Scrolls to the picked hanger's row when another one is picked, and not again: a hand
/// that scrolls on must not be pulled back.
fn come_into_sight(ui: &Ui, response: &Response, k: usize) {
    let id = Id::unique("hanger shown last");
    let shown = ui.data(|data| data.get_temp::<(Id, usize)>(id));
    if shown != Some((response.id, k)) {
        response.scroll_to_me(Some(Align::Center));
        ui.data_mut(|data| data.insert_temp(id, (response.id, k)));
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
        Some(part) if is_too_much(part) => {
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
            .map(|limit| limit_in_words(*limit))
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
