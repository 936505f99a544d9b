//! Keys: which command they ask for.

use super::Editor;
use super::command::Command;
use super::intent::Intent;
use super::view::Aspect;
use eframe::egui::{Context, Event, Modifiers};

/// Reads the keys of this frame as commands.
///
/// While a question waits only the window's own keys reach it; while text is being
/// typed, plain keys are text; while a dimension is being typed on the plan, they are
/// part of it.
pub(super) fn read(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>) {
    if editor.dialog.is_some() || ctx.any_popup_open() {
        return;
    }
    let in_field = ctx.text_edit_focused();
    let on_plan = editor.canvas.is_typing();
    // A button that has the focus keeps the arrows, which move the focus.
    let elsewhere = ctx.memory(|memory| memory.focused()).is_some() && !editor.canvas.has_focus;
    // In space the arrows walk round the site.
    let drawing = editor.canvas.takes_arrows(editor.tool)
        || (editor.view.aspect == Aspect::Space && !editor.view.beside);
    let mut commands = Command::all();
    // Keys with more modifiers first, so that Shift is not lost on its plain sibling.
    commands.sort_by_key(|command| {
        std::cmp::Reverse(command.key().map_or(0, |key| count(key.modifiers)))
    });
    for command in commands {
        let Some(shortcut) = command.key() else {
            continue;
        };
        let is_plain = !shortcut.modifiers.command && !shortcut.modifiers.alt;
        // Escape is no part of a dimension: it drops what was typed.
        let is_text = in_field || (on_plan && command != Command::LetGo);
        if is_plain && is_text {
            continue;
        }
        let is_nudge = matches!(command, Command::Nudge(_) | Command::NudgeFinely(_));
        if is_nudge && (elsewhere || drawing) {
            continue;
        }
        if ctx.input_mut(|input| input.consume_shortcut(&shortcut)) && command.is_possible(editor) {
            intents.push(Intent::Command(command));
        }
    }
    // A plus sign is Shift and another key on many keyboards; it arrives as text.
    let plus = ctx.input(|input| input.events.contains(&Event::Text("+".to_owned())));
    if plus && !in_field && !on_plan && !intents.iter().any(is_zoom) {
        intents.push(Intent::Command(Command::ZoomIn));
    }
}

fn is_zoom(intent: &Intent) -> bool {
    matches!(intent, Intent::Command(Command::ZoomIn))
}

fn count(modifiers: Modifiers) -> u8 {
    u8::from(modifiers.shift) + u8::from(modifiers.alt) + u8::from(modifiers.command)
}
