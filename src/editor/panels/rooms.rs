//! The room on all sides of the picked run, as a table: a row for each direction.

use crate::clearance::Direction;
use crate::editor::Editor;
use crate::editor::theme::{STEP, Theme};
use crate::editor::widgets::{Column, Table, Tone, heading_ui, message_ui, rule_ui};
use crate::site::RunId;
use crate::study::{Room, RunStudy, direction_word, worst_rooms};
use crate::units::UnitSystem;
use crate::views::section::words;
use eframe::egui::{Role, Sense, Ui, WidgetInfo};

const COLUMNS: [Column; 4] = [
    Column::words("towards", 76.0),
    Column::figures("room", 46.0),
    Column::figures("needs", 38.0),
    Column::words("to", 84.0),
];

const FEET_COLUMNS: [Column; 4] = [
    Column::words("towards", 72.0),
    Column::figures("room", 64.0),
    Column::figures("needs", 52.0),
    Column::words("to", 66.0),
];

/// Height of a row, points.
const ROW_HEIGHT: f32 = 5.0 * STEP;

/// Above, below, the two sides, the two ends.
const ORDER: [Direction; 6] = [
    Direction::Above,
    Direction::Below,
    Direction::Left,
    Direction::Right,
    Direction::NearEnd,
    Direction::FarEnd,
];

/// The table, once the run has been worked out.
pub(super) fn rooms_ui(ui: &mut Ui, editor: &Editor, id: &RunId) {
    let Some(run) = editor.results.run(id) else {
        return;
    };
    let units = editor.site().units;
    let worst = worst_rooms(editor.rooms.of(id));
    let n_breaches = worst.iter().flatten().filter(|it| it.is_breach()).count();
    let palette = &Theme::of(ui).palette;
    let (state, colour) = match n_breaches {
        0 => ("enough on all sides".to_owned(), None),
        1 => ("too little on 1 side".to_owned(), Some(palette.breach)),
        n => (format!("too little on {n} sides"), Some(palette.breach)),
    };
    rule_ui(ui);
    heading_ui(ui, "Room", &state, colour);
    let columns = match units {
        UnitSystem::Metric => &COLUMNS,
        UnitSystem::FeetInches => &FEET_COLUMNS,
    };
    let table = Table::new(columns, ROW_HEIGHT);
    table.head_ui(ui);
    for direction in ORDER {
        let room = worst[direction.index()];
        let cells = Cells::new(editor, run, direction, room);
        let is_breach = room.is_some_and(Room::is_breach);
        let ink = if is_breach {
            palette.breach
        } else {
            palette.ink
        };
        let top = ui.cursor().top();
        table.row_ui(ui, |ui, row| {
            row.text_ui(ui, &cells.towards, ink);
            row.text_ui(ui, &cells.available, ink);
            row.text_ui(ui, &cells.required, palette.soft_ink);
            row.text_ui(ui, &cells.to, palette.soft_ink);
        });
        let rect = ui.min_rect().with_min_y(top);
        let response = ui.interact(rect, ui.scope_id().with(direction.label()), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, cells.said()));
        response.on_hover_text(cells.said());
    }
    ui.add_space(STEP);
    for room in worst.into_iter().flatten() {
        if let Some(inside) = words::inside(units, room) {
            let thing = words::thing(editor.site(), &room.thing);
            message_ui(ui, Tone::Breach, &format!("{thing}: {inside}"));
        }
    }
}

/// What a row says.
struct Cells {
    towards: String,
    available: String,
    required: String,
    to: String,
}

impl Cells {
    fn new(editor: &Editor, run: &RunStudy, direction: Direction, room: Option<&Room>) -> Self {
        let units = editor.site().units;
        let towards = direction_word(run, direction).to_owned();
        let nothing = || "–".to_owned();
        let bare = |said: String| match units {
            // The unit stands in the words for whoever can't see the table.
            UnitSystem::Metric => said.trim_end_matches(" m").to_owned(),
            UnitSystem::FeetInches => said,
        };
        let Some(room) = room else {
            let lowest_m = run.clearance.stacking.lowest_part_m;
            let is_floor = direction == Direction::Below && 0.0 < lowest_m;
            return Self {
                towards,
                available: if is_floor {
                    bare(words::room_under(units, lowest_m))
                } else {
                    nothing()
                },
                required: nothing(),
                to: if is_floor { "floor" } else { "nothing there" }.to_owned(),
            };
        };
        let mark = if room.is_breach() { "▲ " } else { "" };
        Self {
            towards,
            available: format!("{mark}{}", bare(words::available(units, room))),
            required: bare(words::required(units, room)),
            to: words::thing(editor.site(), &room.thing),
        }
    }

    fn said(&self) -> String {
        format!(
            "{}: {} to {}, needs {}",
            self.towards, self.available, self.to, self.required
        )
    }
}
