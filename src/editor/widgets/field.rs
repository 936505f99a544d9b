//! Typing a value.
//!
//! What is typed is taken as a whole: by Enter, by going on with Tab, or by a click
//! elsewhere. Escape brings the old value back. What can't be used stays in the field,
//! marked, with the reason beneath it, until it is put right or taken back; nothing
//! else changes. Text that was not touched is never taken, so that a value which is
//! shown rounded survives being looked at.

use super::card::{Tone, message_ui};
use crate::editor::theme::{ROW, TextSize, Theme};
use eframe::egui;
use egui::text::{CCursor, CCursorRange};
use egui::text_edit::TextEditState;
use egui::{
    Align2, CornerRadius, EventFilter, Frame, Id, Key, Margin, Modifiers, Response, RichText,
    Stroke, TextEdit, Ui, vec2,
};

/// What a field stands for when nobody types in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shown<'a> {
    /// This value.
    One(&'a str),
    /// This value, which is too long to be read at a glance: a brief form of it stands
    /// there until somebody types.
    Brief {
        /// The value.
        exact: &'a str,
        /// What stands there meanwhile.
        brief: &'a str,
    },
    /// The values of several objects, which differ.
    Several,
}

/// A field for one value.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'a> {
    name: &'a str,
    shown: Shown<'a>,
    mark: &'a str,
    suffix: &'a str,
    hint: &'a str,
    lines: usize,
    reason: Reason,
}

/// Where the reason of a refusal is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reason {
    Beneath,
    Elsewhere,
}

/// What is being typed.
#[derive(Debug, Clone, Default)]
struct Typing {
    text: String,
    /// What the field showed when typing began.
    from: String,
    /// Why the text can't be used, once somebody wanted it to be.
    refusal: Option<String>,
}

impl<'a> Entry<'a> {
    /// A field with its name for screen readers, which is also what tells it from its
    /// neighbours: within one panel no two fields may have one name.
    pub const fn new(name: &'a str, shown: Shown<'a>) -> Self {
        Self {
            name,
            shown,
            mark: "",
            suffix: "",
            hint: "",
            lines: 1,
            reason: Reason::Beneath,
        }
    }

    /// A field without room beneath it, such as a cell of a table: its reason is told by
    /// whoever shows it, who gets it from [`Self::refusal`].
    #[must_use]
    pub const fn reason_elsewhere(mut self) -> Self {
        self.reason = Reason::Elsewhere;
        self
    }

    /// Why what stands in the field can't be used, if it can't.
    pub fn refusal(&self, ui: &Ui) -> Option<String> {
        let typing: Option<Typing> = ui.data(|data| data.get_temp(self.id(ui)));
        typing?.refusal
    }

    /// Puts the keyboard into the field, as the next of a column that is typed downward.
    pub fn take_focus(&self, ui: &Ui) {
        let id = self.id(ui);
        ui.memory_mut(|memory| memory.request_focus(id));
    }

    /// Whether somebody is typing in the field.
    pub fn has_focus(&self, ui: &Ui) -> bool {
        let id = self.id(ui);
        ui.memory(|memory| memory.has_focus(id))
    }

    fn id(&self, ui: &Ui) -> Id {
        ui.scope_id().with(("entry", self.name))
    }

    /// A word at the beginning of the field, such as the grid line that is measured from.
    #[must_use]
    pub const fn mark(mut self, mark: &'a str) -> Self {
        self.mark = mark;
        self
    }

    /// A unit, or a word, at the end of the field.
    #[must_use]
    pub const fn suffix(mut self, suffix: &'a str) -> Self {
        self.suffix = suffix;
        self
    }

    /// What stands in an empty field.
    #[must_use]
    pub const fn hint(mut self, hint: &'a str) -> Self {
        self.hint = hint;
        self
    }

    /// A field of several lines, where Enter begins a new one.
    #[must_use]
    pub const fn lines(mut self, lines: usize) -> Self {
        self.lines = lines;
        self
    }

    /// Shows the field. When the user has entered something that `read` can use, hands
    /// back what it is.
    pub fn show<T>(self, ui: &mut Ui, read: impl FnOnce(&str) -> Result<T, String>) -> Option<T> {
        let id = self.id(ui);
        let from = match self.shown {
            Shown::One(text) | Shown::Brief { exact: text, .. } => text,
            Shown::Several => "",
        };
        let mut typing: Option<Typing> = ui.data(|data| data.get_temp(id));
        let had_focus = ui.memory(|memory| memory.has_focus(id));
        // What was typed against another value is about something that is gone.
        if !had_focus && typing.as_ref().is_some_and(|typing| typing.from != from) {
            typing = None;
        }
        let mut text = match (&typing, self.shown) {
            (Some(typing), _) => typing.text.clone(),
            (None, Shown::Brief { brief, .. }) if !had_focus => format!("≈ {brief}"),
            _ => from.to_owned(),
        };
        let refusal = typing.as_ref().and_then(|typing| typing.refusal.clone());
        // Taken here, before a shortcut makes something of it.
        let restores =
            had_focus && ui.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));

        let response = self.edit_ui(ui, id, &mut text, refusal.as_deref());
        if response.gained_focus() {
            // The brief form gives way to the exact one in the next frame.
            let longest = text.chars().count().max(from.chars().count());
            select_all(ui, id, longest);
        }
        if restores {
            response.surrender_focus();
            typing = None;
        } else if response.changed() {
            let typing = typing.get_or_insert_with(|| Typing {
                from: from.to_owned(),
                ..Typing::default()
            });
            typing.text = text;
            typing.refusal = None;
        }

        let is_done = !restores && self.is_done(ui, &response, had_focus);
        let mut taken = None;
        if is_done && let Some(entered) = typing.take_if(|typing| typing.refusal.is_none()) {
            if entered.text != from {
                match read(&entered.text) {
                    Ok(value) => taken = Some(value),
                    Err(reason) => {
                        // After Enter the user is still here and puts it right at once.
                        if ui.input(|input| input.key_pressed(Key::Enter)) {
                            response.request_focus();
                        }
                        typing = Some(Typing {
                            refusal: Some(reason),
                            ..entered
                        });
                    }
                }
            }
            ui.request_repaint();
        }
        ui.data_mut(|data| {
            if let Some(typing) = typing {
                data.insert_temp(id, typing);
            } else {
                data.remove_temp::<Typing>(id);
            }
        });
        taken
    }

    /// Whether what was typed is to be taken now.
    fn is_done(&self, ui: &Ui, response: &Response, had_focus: bool) -> bool {
        // A click elsewhere counts when the button goes down: what it does then, such as
        // picking another object, must find the value already taken.
        let clicked_away = had_focus
            && ui.input(|input| {
                input.pointer.any_pressed()
                    && input
                        .pointer
                        .interact_pos()
                        .is_some_and(|at| !response.rect.contains(at))
            });
        // A screen reader sets a value without going into the field.
        let set_from_outside = response.changed() && !response.has_focus() && !had_focus;
        response.lost_focus() || clicked_away || set_from_outside
    }

    /// The field itself, with the refusal beneath.
    fn edit_ui(self, ui: &mut Ui, id: Id, text: &mut String, refusal: Option<&str>) -> Response {
        let palette = &Theme::of(ui).palette;
        let is_focused = ui.memory(|memory| memory.has_focus(id));
        let (weight, edge) = match (refusal, is_focused) {
            (Some(_), _) => (2.0, palette.breach),
            (None, true) => (2.0, palette.focus),
            (None, false) => (1.0, palette.field_edge),
        };
        let frame = Frame::new()
            .fill(palette.paper)
            .stroke(Stroke::new(weight, edge))
            .corner_radius(CornerRadius::same(3))
            // The outline is as thick as the margin is thin: the text stays where it is.
            .inner_margin(Margin::symmetric(
                if weight > 1.0 { 7 } else { 8 },
                if weight > 1.0 { 3 } else { 4 },
            ));
        let hint = match self.shown {
            Shown::Several => "several",
            Shown::One(_) | Shown::Brief { .. } => self.hint,
        };
        let width = ui.available_width();
        let has_suffix = !self.suffix.is_empty() && !text.is_empty();
        let mut edit = if self.lines > 1 {
            TextEdit::multiline(text).desired_rows(self.lines)
        } else {
            TextEdit::singleline(text)
        };
        edit = edit
            .id(id)
            // Escape is ours: left to the toolkit it would only take the focus away.
            .event_filter(EventFilter {
                horizontal_arrows: true,
                vertical_arrows: true,
                tab: false,
                escape: true,
            })
            .frame(frame)
            .desired_width(width)
            .min_size(vec2(0.0, ROW))
            .align(if self.lines > 1 {
                Align2::LEFT_TOP
            } else {
                Align2::LEFT_CENTER
            })
            .hint_text(RichText::new(hint).color(palette.faint_ink));
        let aside = |words: &str| {
            RichText::new(words)
                .font(TextSize::Small.font())
                .color(palette.faint_ink)
        };
        if !self.mark.is_empty() {
            edit = edit.prefix(aside(self.mark));
        }
        if has_suffix {
            edit = edit.suffix(aside(self.suffix));
        }
        let response = ui.add(edit).accessible_name(self.name);
        if let Some(reason) = refusal {
            if self.reason == Reason::Beneath {
                ui.scope(|ui| {
                    ui.set_max_width(width);
                    message_ui(ui, Tone::Breach, reason);
                });
            }
            ui.accesskit_node_builder(id, |node| {
                node.set_invalid(egui::accesskit::Invalid::True);
                node.set_description(reason);
            });
        }
        response
    }
}

/// Marks the whole text, so that what is typed next replaces it.
pub(crate) fn select_all(ui: &Ui, id: Id, n_chars: usize) {
    if let Some(mut state) = TextEditState::load(ui, id) {
        let end = CCursor::new(n_chars);
        state
            .cursor
            .set_char_range(Some(CCursorRange::two(CCursor::default(), end)));
        state.store(ui, id);
    }
}

/// A field for words, which takes whatever is typed.
pub fn text_ui(ui: &mut Ui, name: &str, shown: Shown<'_>, hint: &str) -> Option<String> {
    Entry::new(name, shown)
        .hint(hint)
        .show(ui, |text| Ok(text.trim().to_owned()))
}

#[cfg(test)]
mod tests;
