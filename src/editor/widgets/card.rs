//! Cards: one thing that is said, with what can be done about it.

use crate::editor::icons::Icon;
use crate::editor::theme::{STEP, TextSize, Theme};
use eframe::egui;
use egui::{
    Align, Color32, CornerRadius, Frame, Label, Layout, Margin, Rect, RichText, Sense, Stroke, Ui,
    Vec2, vec2,
};

/// How grave something is: a shape, a word and a colour that belong together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tone {
    /// Must not stay.
    Breach,
    /// Must be looked at.
    Caution,
    /// Worth knowing.
    Note,
}

impl Tone {
    /// Its shape.
    pub const fn icon(self) -> Icon {
        match self {
            Self::Breach => Icon::Breach,
            Self::Caution => Icon::Caution,
            Self::Note => Icon::Note,
        }
    }

    /// Its word.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Breach => "Breach",
            Self::Caution => "Caution",
            Self::Note => "Note",
        }
    }

    /// Its ink.
    pub fn colour(self, ui: &Ui) -> Color32 {
        let palette = &Theme::of(ui).palette;
        match self {
            Self::Breach => palette.breach,
            Self::Caution => palette.caution,
            Self::Note => palette.note,
        }
    }
}

/// A card with a shape, a title and whatever `contents` puts under it. The bar at its
/// left edge is as grave as the card.
pub fn card_ui<R>(ui: &mut Ui, tone: Tone, title: &str, contents: impl FnOnce(&mut Ui) -> R) -> R {
    let palette = &Theme::of(ui).palette;
    let colour = tone.colour(ui);
    let inner = Frame::new()
        .fill(palette.paper)
        .stroke(Stroke::new(1.0, palette.edge))
        .corner_radius(CornerRadius::same(3))
        .inner_margin(Margin {
            left: 12,
            right: 10,
            top: 7,
            bottom: 8,
        })
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = 1.5 * STEP;
                let (mark, response) = ui.allocate_exact_size(vec2(14.0, 17.0), Sense::hover());
                tone.icon().paint(
                    ui.painter(),
                    Rect::from_center_size(mark.center(), Vec2::splat(13.0)),
                    colour,
                );
                response.on_hover_text(tone.label());
                ui.add(
                    Label::new(
                        RichText::new(title)
                            .font(TextSize::Body.bold())
                            .color(colour),
                    )
                    .wrap(),
                );
            });
            contents(ui)
        });
    let rect = inner.response.rect;
    let bar = Rect::from_min_size(rect.min, vec2(3.0, rect.height()));
    ui.painter().rect_filled(
        bar,
        CornerRadius {
            nw: 3,
            sw: 3,
            ne: 0,
            se: 0,
        },
        colour,
    );
    inner.inner
}

/// One line of text that is a caution or a breach, with its shape.
pub fn message_ui(ui: &mut Ui, tone: Tone, text: &str) {
    let colour = tone.colour(ui);
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = STEP;
        let (mark, _) = ui.allocate_exact_size(vec2(12.0, 15.0), Sense::hover());
        tone.icon().paint(
            ui.painter(),
            Rect::from_center_size(mark.center(), Vec2::splat(11.0)),
            colour,
        );
        ui.with_layout(Layout::top_down(Align::Min), |ui| {
            ui.add(
                Label::new(
                    RichText::new(text)
                        .font(TextSize::Small.font())
                        .color(colour),
                )
                .wrap(),
            );
        });
    });
}
