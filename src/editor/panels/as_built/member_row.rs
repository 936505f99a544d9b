//! One member of the as-built table: what the drawing says, what the tape says.

use crate::editor::Editor;
use crate::editor::figures::brief;
use crate::editor::icons::Icon;
use crate::editor::intent::Intent;
use crate::editor::panels::ask::judged;
use crate::editor::theme::{ROW, STEP, Theme};
use crate::editor::widgets::{
    Column, Entry, Figure, Shown, Table, TableRow, Tone, icon_button_ui, lines_ui, message_ui,
    text_ui,
};
use crate::site::as_built::compass;
use crate::site::{
    Edit, Framing, GridLine, HeightAt, MeasuredAt, MeasuredHeight, MemberAdjustment, Object,
};
use crate::structure::DrawnFraming;
use crate::study::survey::{MemberDifference, MemberState};
use crate::units::{Length, Quantity, SmallLength, UnitSystem};
use eframe::egui;
use egui::style::ScrollAnimation;
use egui::{Key, Rect, Sense, Ui, vec2};
use std::sync::Arc;

const COLUMNS: [Column; 5] = [
    Column::words("Member", 15.0),
    Column::words("Position", 23.0),
    Column::words("Height", 21.0),
    Column::words("Gone", 9.0),
    Column::words("", 8.0),
];

const FEET_COLUMNS: [Column; 5] = [
    Column::words("Member", 13.0),
    Column::words("Position", 25.0),
    Column::words("Height", 25.0),
    Column::words("Gone", 8.0),
    Column::words("", 7.0),
];

/// Beginning of what says by how much a member is off, instead of where it is.
const BY: &str = "by ";

/// What all rows have in common.
pub(super) struct Survey<'a> {
    pub(super) editor: &'a Editor,
    pub(super) framing: &'a Framing,
    pub(super) drawn: &'a DrawnFraming<'a>,
    /// The grid line that positions are measured from.
    pub(super) from: Option<Arc<GridLine>>,
    /// Where heights are measured.
    pub(super) place: HeightAt,
    pub(super) n_members: usize,
}

/// Which field of a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum Field {
    #[default]
    Position,
    Height,
}

/// The field that the keyboard goes to next.
#[derive(Debug, Clone, Copy, Default)]
struct Next {
    member: usize,
    field: Field,
    since: u64,
}

impl Survey<'_> {
    fn units(&self) -> UnitSystem {
        self.editor.site().units
    }

    fn adjustment(&self, number: usize) -> Option<&MemberAdjustment> {
        self.framing.as_built.iter().find(|it| it.member == number)
    }

    fn difference(&self, number: usize) -> Option<&MemberDifference> {
        let report = self.editor.results.survey()?;
        let members = &report.survey.members;
        members
            .iter()
            .find(|it| it.framing == self.framing.id && it.number == number)
    }

    /// The framing with a change of what is said of one member.
    fn changed(&self, number: usize, change: impl FnOnce(&mut MemberAdjustment)) -> Edit {
        let mut framing = self.framing.clone();
        let known = framing.as_built.iter().position(|it| it.member == number);
        let mut adjustment = known.map_or_else(
            || MemberAdjustment::as_drawn(number),
            |k| framing.as_built.remove(k),
        );
        change(&mut adjustment);
        if !adjustment.says_nothing() {
            framing.as_built.push(adjustment);
            framing.as_built.sort_by_key(|it| it.member);
        }
        Edit::Put(Object::Framing(Arc::new(framing)))
    }

    /// The same, tried on the site.
    fn tried(
        &self,
        number: usize,
        change: impl FnOnce(&mut MemberAdjustment),
    ) -> Result<Edit, String> {
        let edit = self.changed(number, change);
        judged(self.editor.committed(), &edit).map(|()| edit)
    }
}

/// The headings.
pub(super) fn head_ui(ui: &mut Ui, units: UnitSystem) {
    table(units).head_ui(ui);
}

fn table(units: UnitSystem) -> Table<'static> {
    let columns = match units {
        UnitSystem::Metric => &COLUMNS,
        UnitSystem::FeetInches => &FEET_COLUMNS,
    };
    Table::new(columns, ROW + STEP)
}

/// One row. Of hundreds only those in sight are made, and the ones before and behind,
/// so that the keyboard finds the next.
pub(super) fn member_ui(
    ui: &mut Ui,
    survey: &Survey<'_>,
    intents: &mut Vec<Intent>,
    number: usize,
) {
    let id = ui.scope_id().with(("height of row", number));
    let height = ui
        .data(|data| data.get_temp::<f32>(id))
        .unwrap_or(ROW + STEP);
    let size = vec2(ui.available_width(), height);
    let expected = Rect::from_min_size(ui.cursor().min, size);
    let reach = 2.0 * (ROW + STEP);
    if !ui.clip_rect().expand(reach).intersects(expected) {
        ui.allocate_exact_size(size, Sense::hover());
        return;
    }
    let wanted = ui.scope_id().with("next field");
    let pass = ui.ctx().cumulative_pass_nr();
    // Not before the next frame: in this one the key that was pressed is still down.
    let next: Option<Next> = ui.data(|data| data.get_temp(wanted));
    let next = next
        .filter(|next| next.member == number && next.since < pass)
        .map(|next| next.field);
    if next.is_some() {
        ui.data_mut(|data| data.remove_temp::<Next>(wanted));
        ui.scroll_to_rect_animation(expected, None, ScrollAnimation::none());
    }
    let mut went_on = None;
    ui.push_id(number, |ui| {
        let row = Row {
            survey,
            number,
            name: format!("{}-{number:02}", survey.framing.id),
            next,
        };
        table(survey.units()).row_ui(ui, |ui, cells| {
            went_on = row.cells_ui(ui, cells, intents);
        });
        row.below_ui(ui, intents);
    });
    if let Some(field) = went_on
        && number < survey.n_members
    {
        let next = Next {
            member: number + 1,
            field,
            since: pass,
        };
        ui.data_mut(|data| data.insert_temp(wanted, next));
        ui.request_repaint();
    }
    let height = ui.min_rect().bottom() - expected.top();
    ui.data_mut(|data| {
        data.insert_temp(id, height);
    });
}

struct Row<'a> {
    survey: &'a Survey<'a>,
    number: usize,
    /// `J-07`.
    name: String,
    /// The field that the keyboard goes to now.
    next: Option<Field>,
}

impl Row<'_> {
    /// The cells; hands back the field that was left downward by Enter.
    fn cells_ui(
        &self,
        ui: &mut Ui,
        row: &mut TableRow<'_>,
        intents: &mut Vec<Intent>,
    ) -> Option<Field> {
        let palette = &Theme::of(ui).palette;
        let adjustment = self.survey.adjustment(self.number);
        let ink = if adjustment.is_some() {
            palette.ink
        } else {
            palette.soft_ink
        };
        row.text_ui(ui, &self.name, ink);
        let by_position = self.position_ui(ui, row, intents);
        let by_height = self.height_ui(ui, row, intents);
        row.cell_ui(ui, |ui| {
            let mut missing = adjustment.is_some_and(|it| it.missing);
            let response = ui
                .checkbox(&mut missing, "")
                .accessible_name(format!("{} is not there", self.name));
            if response.changed() {
                let edit = self.survey.changed(self.number, |it| it.missing = missing);
                intents.push(self.step("whether it is there", edit));
            }
        });
        row.cell_ui(ui, |ui| {
            let name = format!("{} is as drawn", self.name);
            if adjustment.is_some() && icon_button_ui(ui, Icon::Close, &name).clicked() {
                let as_drawn = MemberAdjustment::as_drawn(self.number);
                let edit = self.survey.changed(self.number, |it| *it = as_drawn);
                intents.push(self.step("as drawn", edit));
            }
        });
        by_position.or(by_height)
    }

    fn step(&self, what: &str, edit: Edit) -> Intent {
        Intent::CarryOut {
            name: format!("Set {what} of {}", self.name),
            edit,
        }
    }

    fn position_ui(
        &self,
        ui: &mut Ui,
        row: &mut TableRow<'_>,
        intents: &mut Vec<Intent>,
    ) -> Option<Field> {
        let (survey, units) = (self.survey, self.survey.units());
        let adjustment = survey.adjustment(self.number);
        let measured = adjustment.and_then(|it| it.measured_at.as_ref());
        let moved = adjustment.map_or(Length::ZERO, |it| it.moved);
        let shown =
            measured.map_or_else(|| off_by(moved, units), |it| Figure::of(it.distance, units));
        let from = survey.from.as_ref();
        let mark = measured
            .filter(|it| from.is_none_or(|line| line.id != it.from))
            .map_or("", |it| it.from.as_str());
        let drawn = from.and_then(|line| {
            let line_m = survey.framing.line_offset_m(line)?;
            Some(survey.framing.drawn_offset_m(self.number) - line_m)
        });
        let hint = drawn.map_or_else(String::new, |it| brief(units, Length::metres(it)));
        let name = format!("measured position of {}", self.name);
        let entry = Entry::new(&name, shown.shown()).mark(mark).hint(&hint);
        let read = |text: &str| {
            let change = read_position(text, units, from.map(AsRef::as_ref))?;
            survey.tried(self.number, change)
        };
        self.field_ui(ui, row, intents, entry, Field::Position, read)
    }

    fn height_ui(
        &self,
        ui: &mut Ui,
        row: &mut TableRow<'_>,
        intents: &mut Vec<Intent>,
    ) -> Option<Field> {
        let (survey, units) = (self.survey, self.survey.units());
        let adjustment = survey.adjustment(self.number);
        let measured = adjustment.and_then(|it| it.measured_height.as_ref());
        let raised = adjustment.map_or(Length::ZERO, |it| it.raised);
        let shown =
            measured.map_or_else(|| off_by(raised, units), |it| Figure::of(it.height, units));
        let mark = match measured.map(|it| &it.at) {
            Some(at) if *at != survey.place => match at {
                HeightAt::LowEnd => "low",
                HeightAt::FromLine { line, .. } => line.as_str(),
                HeightAt::FromAnchor(_) => "kept",
            },
            _ => "",
        };
        let drawn = survey.drawn.surface_m(self.number, &survey.place);
        let hint = drawn.map_or_else(String::new, |it| brief(units, Length::metres(it)));
        let name = format!("measured height of {}", self.name);
        let entry = Entry::new(&name, shown.shown()).mark(mark).hint(&hint);
        let read = |text: &str| {
            let change = read_height(text, units, &survey.place)?;
            survey.tried(self.number, change)
        };
        self.field_ui(ui, row, intents, entry, Field::Height, read)
    }

    /// A field; hands back itself where it was left downward by Enter.
    fn field_ui(
        &self,
        ui: &mut Ui,
        row: &mut TableRow<'_>,
        intents: &mut Vec<Intent>,
        entry: Entry<'_>,
        field: Field,
        read: impl FnOnce(&str) -> Result<Edit, String>,
    ) -> Option<Field> {
        let entry = entry.reason_elsewhere();
        let mut went_on = None;
        let refusal = row.cell_ui(ui, |ui| {
            if self.next == Some(field) {
                entry.take_focus(ui);
            }
            let was_typing = entry.has_focus(ui);
            if let Some(edit) = entry.show(ui, read) {
                let what = match field {
                    Field::Position => "measured position",
                    Field::Height => "measured height",
                };
                intents.push(self.step(what, edit));
            }
            let refusal = entry.refusal(ui);
            let is_left = was_typing && ui.input(|input| input.key_pressed(Key::Enter));
            if is_left && refusal.is_none() {
                went_on = Some(field);
            }
            refusal
        });
        row.refused(refusal);
        went_on
    }

    /// Under the row of a member that is not as drawn: the difference, and the note.
    fn below_ui(&self, ui: &mut Ui, intents: &mut Vec<Intent>) {
        let Some(adjustment) = self.survey.adjustment(self.number) else {
            return;
        };
        if let Some(difference) = self.survey.difference(self.number) {
            lines_ui(ui, &self.in_words(difference));
            if let Some(neighbour) = difference.beyond {
                let framing = &self.survey.framing.id;
                let text =
                    format!("That is beyond {framing}-{neighbour:02}: is it another member?");
                message_ui(ui, Tone::Caution, &text);
            }
        }
        let name = format!("note on {}", self.name);
        let noted = text_ui(ui, &name, Shown::One(&adjustment.notes), "Note");
        if let Some(notes) = noted {
            match self.survey.tried(self.number, |it| it.notes = notes) {
                Ok(edit) => intents.push(self.step("note", edit)),
                Err(reason) => message_ui(ui, Tone::Breach, &reason),
            }
        }
        ui.add_space(STEP);
    }

    fn in_words(&self, difference: &MemberDifference) -> String {
        let units = self.survey.units();
        match difference.state {
            MemberState::Missing => return "Not there.".to_owned(),
            MemberState::NotInBay => return "No such member under this roof.".to_owned(),
            MemberState::Found => {}
        }
        let right = self.survey.framing.right();
        let side = compass(if difference.moved_m < 0.0 {
            -right
        } else {
            right
        });
        let place = small(difference.moved_m, units).map_or_else(
            || "Where it is drawn".to_owned(),
            |by| format!("{by} {side}"),
        );
        let way = if difference.raised_m < 0.0 {
            "lower"
        } else {
            "higher"
        };
        let height = small(difference.raised_m, units)
            .map_or_else(|| "as high as drawn".to_owned(), |by| format!("{by} {way}"));
        format!("{place}, {height}.")
    }
}

/// A difference without its sign; nothing where there is none that a tape could tell.
fn small(metres: f64, units: UnitSystem) -> Option<String> {
    let is_any = crate::study::survey::SAME_LENGTH_M < metres.abs();
    is_any.then(|| {
        let length = SmallLength(Length::metres(metres.abs()));
        let precision = SmallLength::sheet_precision(units);
        let text = length.show_rounded(units, precision, crate::units::Rounding::Nearest);
        SmallLength::with_unit(text, units)
    })
}

/// What a member was said to be off by, as it is typed.
fn off_by(length: Length, units: UnitSystem) -> Figure {
    if length == Length::ZERO {
        return Figure::default();
    }
    let text = SmallLength(length).show(units);
    Figure::from(format!("{BY}{}", SmallLength::with_unit(text, units)))
}

type Change = Box<dyn FnOnce(&mut MemberAdjustment)>;

fn read_off(text: &str, units: UnitSystem) -> Option<Result<Length, String>> {
    let rest = text.trim().strip_prefix(BY)?;
    Some(
        SmallLength::parse(rest, units)
            .map(|it| it.0)
            .map_err(|error| error.to_string()),
    )
}

fn read_position(text: &str, units: UnitSystem, from: Option<&GridLine>) -> Result<Change, String> {
    let (moved, measured_at) = if text.trim().is_empty() {
        (Length::ZERO, None)
    } else if let Some(off) = read_off(text, units) {
        (off?, None)
    } else {
        let distance = Length::parse(text, units).map_err(|error| error.to_string())?;
        let Some(line) = from else {
            return Err(
                "there is no grid line to measure from; “by 30 mm” says what it is off by"
                    .to_owned(),
            );
        };
        let from = line.id.clone();
        (Length::ZERO, Some(MeasuredAt { from, distance }))
    };
    Ok(Box::new(move |it| {
        it.moved = moved;
        it.measured_at = measured_at;
    }))
}

fn read_height(text: &str, units: UnitSystem, at: &HeightAt) -> Result<Change, String> {
    let (raised, measured_height) = if text.trim().is_empty() {
        (Length::ZERO, None)
    } else if let Some(off) = read_off(text, units) {
        (off?, None)
    } else {
        let height = Length::parse(text, units).map_err(|error| error.to_string())?;
        let at = at.clone();
        (Length::ZERO, Some(MeasuredHeight { height, at }))
    };
    Ok(Box::new(move |it| {
        it.raised = raised;
        it.measured_height = measured_height;
    }))
}
