//! Tables: columns that line up whatever stands in them, words at the left, figures at
//! the right.

use crate::editor::theme::{STEP, TextSize, Theme};
use eframe::egui;
use egui::{
    Align, Color32, Label, Layout, Rect, RichText, Sense, Stroke, Ui, UiBuilder, pos2, vec2,
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
    next: usize,
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

    /// The headings.
    pub fn head_ui(&self, ui: &mut Ui) {
        let palette = &Theme::of(ui).palette;
        let mut row = self.space(ui, 5.0 * STEP);
        let rect = row.rect;
        for column in self.columns {
            row.cell_ui(ui, |ui| {
                ui.add(
                    Label::new(
                        RichText::new(column.title)
                            .font(TextSize::Small.font())
                            .color(palette.faint_ink),
                    )
                    .truncate(),
                );
            });
        }
        ui.painter().hline(
            rect.x_range(),
            rect.bottom(),
            Stroke::new(1.0, palette.rule),
        );
    }

    /// One row, filled by `cells`.
    pub fn row_ui<R>(&self, ui: &mut Ui, cells: impl FnOnce(&mut Ui, &mut TableRow<'_>) -> R) -> R {
        let mut row = self.space(ui, self.row_height);
        cells(ui, &mut row)
    }

    fn space(&self, ui: &mut Ui, height: f32) -> TableRow<'a> {
        let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        TableRow {
            columns: self.columns,
            rect,
            next: 0,
        }
    }
}

impl TableRow<'_> {
    /// Where the whole row is.
    pub const fn rect(&self) -> Rect {
        self.rect
    }

    /// Puts something into the next cell.
    pub fn cell_ui<R>(&mut self, ui: &mut Ui, contents: impl FnOnce(&mut Ui) -> R) -> R {
        let (rect, align) = self.take();
        let layout = match align {
            Align::Max => Layout::right_to_left(Align::Center),
            _ => Layout::left_to_right(Align::Center),
        };
        ui.scope_builder(UiBuilder::new().max_rect(rect).layout(layout), |ui| {
            ui.shrink_clip_rect(rect.expand2(vec2(GAP / 2.0, 0.0)));
            contents(ui)
        })
        .inner
    }

    /// Puts text into the next cell.
    pub fn text_ui(&mut self, ui: &mut Ui, text: &str, colour: Color32) {
        self.cell_ui(ui, |ui| {
            ui.add(Label::new(RichText::new(text).color(colour)).truncate());
        });
    }

    fn take(&mut self) -> (Rect, Align) {
        let n_columns = self.columns.len();
        let all: f32 = self.columns.iter().map(|column| column.share).sum();
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let room = self.rect.width() - GAP * n_columns.saturating_sub(1) as f32;
        let width_of = |column: &Column| room * column.share / all.max(f32::MIN_POSITIVE);
        #[expect(clippy::cast_precision_loss, reason = "a handful of columns")]
        let left = self.rect.left()
            + self.columns[..self.next.min(n_columns)]
                .iter()
                .map(width_of)
                .sum::<f32>()
            + GAP * self.next as f32;
        let column = self.columns.get(self.next);
        self.next += 1;
        let width = column.map_or(0.0, width_of);
        let rect =
            Rect::from_min_size(pos2(left, self.rect.top()), vec2(width, self.rect.height()));
        (rect, column.map_or(Align::Min, |column| column.align))
    }
}
