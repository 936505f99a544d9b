//! Tables: columns that line up whatever stands in them, words at the left, figures at
//! the right.

use super::card::{Tone, message_ui};
use crate::editor::theme::{ROW, STEP, TextSize, Theme};
use eframe::egui;
use egui::{
    Align, Align2, Color32, Label, Layout, Rect, RichText, Sense, Stroke, Ui, UiBuilder, pos2, vec2,
};

/// One column.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Its heading, small and faint.
    pub title: &'static str,
    /// Its part of the width, against the other columns' parts.
    pub share: f32,
    /// Words at the left, figures at the right.
    pub align: Align,
}

impl Column {
    /// A column of words.
    pub const fn words(title: &'static str, share: f32) -> Self {
        Self {
            title,
            share,
            align: Align::Min,
        }
    }

    /// A column of figures.
    pub const fn figures(title: &'static str, share: f32) -> Self {
        Self {
            title,
            share,
            align: Align::Max,
        }
    }
}

/// A table whose columns share the width of the panel.
#[derive(Debug)]
pub struct Table<'a> {
    columns: &'a [Column],
    row_height: f32,
}

/// A row being filled from the left.
#[derive(Debug)]
pub struct TableRow<'a> {
    columns: &'a [Column],
    rect: Rect,
    /// Height of a row that holds one line.
    line: f32,
    next: usize,
    /// Why what was typed into one of its fields can't be used.
    refusal: Option<String>,
}

/// Room between columns, points.
const GAP: f32 = 1.5 * STEP;

impl<'a> Table<'a> {
    /// A table with its columns and the height of its rows, points.
    pub const fn new(columns: &'a [Column], row_height: f32) -> Self {
        Self {
            columns,
            row_height,
        }
    }

    /// The headings, small and faint, over a hairline.
    pub fn head_ui(&self, ui: &mut Ui) {
        let palette = &Theme::of(ui).palette;
        let size = vec2(ui.available_width(), 5.0 * STEP);
        let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
        let mut row = TableRow {
            columns: self.columns,
            rect,
            line: rect.height(),
            next: 0,
            refusal: None,
        };
        for column in self.columns {
            let (cell, align) = row.take();
            let (at, anchor) = match align {
                Align::Max => (cell.right_center(), Align2::RIGHT_CENTER),
                _ => (cell.left_center(), Align2::LEFT_CENTER),
            };
            let title = column.title;
            let font = TextSize::Small.font();
            ui.painter()
                .with_clip_rect(cell.expand2(vec2(GAP, 0.0)))
                .text(at, anchor, title, font, palette.faint_ink);
        }
        let line = Stroke::new(1.0, palette.rule);
        ui.painter().hline(rect.x_range(), rect.bottom(), line);
    }

    /// One row, filled by `cells`. It grows with what stands in it, such as a refusal
    /// beneath a field.
    pub fn row_ui<R>(&self, ui: &mut Ui, cells: impl FnOnce(&mut Ui, &mut TableRow<'_>) -> R) -> R {
        let least = vec2(ui.available_width(), self.row_height);
        let mut row = TableRow {
            columns: self.columns,
            rect: Rect::from_min_size(ui.cursor().min, least),
            line: self.row_height.min(ROW + STEP),
            next: 0,
            refusal: None,
        };
        let made = cells(ui, &mut row);
        ui.allocate_rect(row.rect, Sense::hover());
        if let Some(reason) = row.refusal {
            message_ui(ui, Tone::Breach, &reason);
        }
        made
    }
}

impl TableRow<'_> {
    /// Puts something into the next cell, downward from its top.
    pub fn cell_ui<R>(&mut self, ui: &mut Ui, contents: impl FnOnce(&mut Ui) -> R) -> R {
        let (cell, align) = self.take();
        let builder = UiBuilder::new()
            .max_rect(cell.shrink2(vec2(0.0, STEP / 2.0)))
            .layout(Layout::top_down(align));
        let mut cell_ui = ui.new_child(builder.id_salt(("cell", self.next)));
        let made = contents(&mut cell_ui);
        let bottom = cell_ui.min_rect().bottom() + STEP / 2.0;
        self.rect.max.y = self.rect.max.y.max(bottom);
        made
    }

    /// Tells under the row why what was typed into one of its fields can't be used.
    pub fn refused(&mut self, reason: Option<String>) {
        self.refusal = self.refusal.take().or(reason);
    }

    /// Puts one line of text into the next cell, in the middle of a line of controls.
    pub fn text_ui(&mut self, ui: &mut Ui, text: &str, colour: Color32) {
        let (cell, align) = self.take();
        let line = cell.with_max_y(cell.top() + self.line);
        let layout = match align {
            Align::Max => Layout::right_to_left(Align::Center),
            _ => Layout::left_to_right(Align::Center),
        };
        let builder = UiBuilder::new()
            .max_rect(line)
            .layout(layout)
            .id_salt(("cell", self.next));
        ui.new_child(builder)
            .add(Label::new(RichText::new(text).color(colour)).truncate());
    }

    fn take(&mut self) -> (Rect, Align) {
        let n_columns = self.columns.len();
        let all: f32 = self.columns.iter().map(|column| column.share).sum();
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let gaps = GAP * n_columns.saturating_sub(1) as f32;
        let room = self.rect.width() - gaps;
        let width_of = |column: &Column| room * column.share / all.max(f32::MIN_POSITIVE);
        let before = &self.columns[..self.next.min(n_columns)];
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let gaps_before = GAP * self.next as f32;
        let left = self.rect.left() + before.iter().map(width_of).sum::<f32>() + gaps_before;
        let column = self.columns.get(self.next);
        self.next += 1;
        let size = vec2(column.map_or(0.0, width_of), self.rect.height());
        let rect = Rect::from_min_size(pos2(left, self.rect.top()), size);
        (rect, column.map_or(Align::Min, |column| column.align))
    }
}
