//! The editor as a window of the desktop.

use super::Editor;
use super::chooser::DesktopChooser;
use super::dialog::{Dialog, Waiting};
use super::theme::Theme;
use crate::store;
use eframe::egui::{Context, Ui, ViewportBuilder, ViewportCommand};
use eframe::{App, NativeOptions};
use std::sync::Arc;

/// Least and first size of the window, points.
const LEAST_SIZE: [f32; 2] = [960.0, 640.0];
const FIRST_SIZE: [f32; 2] = [1440.0, 900.0];

/// Opens a window on an editor, with the desktop's file dialogs and the folder for what
/// lasts, and returns when it is closed.
///
/// # Errors
/// Why there is no window: most often that there is no display.
pub fn open_window(editor: Editor) -> Result<(), String> {
    let mut editor = editor.with_chooser(Arc::new(DesktopChooser));
    // Without such a folder nothing lasts but what is saved; that stops nobody.
    if let Ok(dir) = store::state_dir() {
        editor = editor.with_state_dir(dir);
    }
    let options = NativeOptions {
        viewport: ViewportBuilder::default()
            .with_title(editor.title())
            .with_app_id("rafterglow")
            .with_inner_size(FIRST_SIZE)
            .with_min_inner_size(LEAST_SIZE),
        ..NativeOptions::default()
    };
    eframe::run_native(
        "rafterglow",
        options,
        Box::new(|creation| {
            Theme::install(&creation.egui_ctx);
            Ok(Box::new(Window {
                title: editor.title(),
                editor,
            }))
        }),
    )
    .map_err(|error| error.to_string())
}

struct Window {
    editor: Editor,
    /// The title that the window has.
    title: String,
}

impl Window {
    /// Unsaved work is asked about before the window goes.
    fn guard_closing(&mut self, ctx: &Context) {
        let closing = ctx.input(|input| input.viewport().close_requested());
        if closing && !self.editor.document.is_saved() && !self.editor.may_close {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.editor.dialog = Some(Dialog::Unsaved {
                then: Waiting::Close,
            });
        }
        if self.editor.may_close && !closing {
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    fn keep_title(&mut self, ctx: &Context) {
        let title = self.editor.title();
        if title != self.title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }
}

impl App for Window {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.guard_closing(ui);
        self.editor.show(ui);
        self.keep_title(ui);
    }
}
