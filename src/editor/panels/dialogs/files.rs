//! Questions about files. A path can always be typed: a desktop may have no dialogs.

use super::{Leave, answers_ui, entered, question_ui, trouble_ui, typed_ui};
use crate::editor::Editor;
use crate::editor::chooser::Purpose;
use crate::editor::dialog::{Answer, Dialog, Replacing, Waiting};
use crate::editor::intent::Intent;
use crate::editor::panels::menus::{folder, site_ui, stem};
use crate::editor::theme::{ROW, STEP};
use crate::editor::widgets::{hint_ui, main_button_ui, plain_button_ui, section_ui};
use eframe::egui;
use egui::{Button, Context, ScrollArea, Ui, vec2};
use std::path::PathBuf;

const WIDTH: f32 = 120.0 * STEP;

/// Which file to open.
pub(super) fn open_ui(
    ctx: &Context,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    path: &str,
    trouble: Option<&str>,
) {
    let mut typed = path.to_owned();
    let mut open = None;
    let left = question_ui(ctx, "Open a site", WIDTH, Leave::Freely, |ui| {
        let field = path_ui(ui, editor, intents, Purpose::OpenSite, &mut typed);
        trouble_ui(ui, trouble);
        if entered(ui, &field) && !typed.trim().is_empty() {
            open = Some(PathBuf::from(typed.trim()));
        }
        recent_ui(ui, editor, &mut open);
        answers_ui(ui, |ui| {
            ui.add_enabled_ui(!typed.trim().is_empty(), |ui| {
                if main_button_ui(ui, "Open").clicked() {
                    open = Some(PathBuf::from(typed.trim()));
                }
            });
            if plain_button_ui(ui, "Cancel").clicked() {
                intents.push(Intent::Ask(None));
            }
        });
    });
    if let Some(path) = open {
        intents.push(Intent::Answer(Answer::OpenPath(path)));
    } else if left {
        intents.push(Intent::Ask(None));
    } else if typed != path {
        intents.push(Intent::Ask(Some(Dialog::Open {
            path: typed,
            trouble: None,
        })));
    }
}

/// Which file to write.
pub(super) fn save_ui(ctx: &Context, editor: &Editor, intents: &mut Vec<Intent>, dialog: &Dialog) {
    let Dialog::SaveAs {
        path,
        trouble,
        may_replace,
        then,
    } = dialog
    else {
        return;
    };
    let mut typed = path.clone();
    let mut save = None;
    let left = question_ui(ctx, "Save the site", WIDTH, Leave::Freely, |ui| {
        let field = path_ui(ui, editor, intents, Purpose::SaveSite, &mut typed);
        trouble_ui(ui, trouble.as_deref());
        if entered(ui, &field) && !typed.trim().is_empty() {
            save = Some(Replacing::Sites);
        }
        answers_ui(ui, |ui| {
            ui.add_enabled_ui(!typed.trim().is_empty(), |ui| {
                if main_button_ui(ui, "Save").clicked() {
                    save = Some(Replacing::Sites);
                }
            });
            if *may_replace && plain_button_ui(ui, "Replace what is there").clicked() {
                save = Some(Replacing::Anything);
            }
            if plain_button_ui(ui, "Cancel").clicked() {
                intents.push(Intent::Ask(None));
            }
        });
    });
    if let Some(over) = save {
        let path = PathBuf::from(typed.trim());
        intents.push(Intent::Answer(Answer::SaveTo(path, over)));
    } else if left {
        intents.push(Intent::Ask(None));
    } else if typed != *path {
        intents.push(Intent::Ask(Some(Dialog::SaveAs {
            path: typed,
            trouble: None,
            may_replace: false,
            then: then.clone(),
        })));
    }
}

/// Which file to draw into.
pub(super) fn picture_ui(
    ctx: &Context,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    path: &str,
    trouble: Option<&str>,
) {
    let mut typed = path.to_owned();
    let mut save = false;
    let left = question_ui(ctx, "Save the picture", WIDTH, Leave::Freely, |ui| {
        let field = path_ui(ui, editor, intents, Purpose::SavePicture, &mut typed);
        hint_ui(
            ui,
            "The ending says how it is written: png, svg, pdf; a section also dxf.",
        );
        trouble_ui(ui, trouble);
        let is_given = !typed.trim().is_empty();
        save = entered(ui, &field) && is_given;
        answers_ui(ui, |ui| {
            ui.add_enabled_ui(is_given, |ui| {
                save |= main_button_ui(ui, "Save").clicked();
            });
            if plain_button_ui(ui, "Cancel").clicked() {
                intents.push(Intent::Ask(None));
            }
        });
    });
    if save {
        let path = PathBuf::from(typed.trim());
        intents.push(Intent::Answer(Answer::SavePicture(path)));
    } else if left {
        intents.push(Intent::Ask(None));
    } else if typed != path {
        intents.push(Intent::Ask(Some(Dialog::SavePicture {
            path: typed,
            trouble: None,
        })));
    }
}

/// A path, typed or chosen with the desktop's dialog.
fn path_ui(
    ui: &mut Ui,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    purpose: Purpose,
    typed: &mut String,
) -> egui::Response {
    ui.horizontal(|ui| {
        let field = ui
            .scope(|ui| {
                ui.set_width(ui.available_width() - 26.0 * STEP);
                typed_ui(ui, "Path", typed, "path of the file")
            })
            .inner;
        let label = if editor.files.is_choosing() {
            "Choosing…"
        } else {
            "Choose…"
        };
        let button = Button::new(label).min_size(vec2(ui.available_width(), ROW));
        if ui
            .add_enabled(!editor.files.is_choosing(), button)
            .on_hover_text("With the desktop's own dialog, where it has one")
            .clicked()
        {
            intents.push(Intent::Browse(purpose));
        }
        field
    })
    .inner
}

fn recent_ui(ui: &mut Ui, editor: &Editor, open: &mut Option<PathBuf>) {
    let recent = &editor.files.recent;
    if recent.is_empty() {
        return;
    }
    section_ui(ui, "Worked on lately", "");
    ScrollArea::vertical().max_height(6.0 * ROW).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for path in recent {
            if site_ui(ui, &stem(path), &folder(path)) {
                *open = Some(path.clone());
            }
        }
    });
}

/// What becomes of unsaved work.
pub(super) fn unsaved_ui(
    ctx: &Context,
    editor: &Editor,
    intents: &mut Vec<Intent>,
    then: &Waiting,
) {
    let site = editor.committed();
    let name = if site.name.is_empty() {
        "this site"
    } else {
        &site.name
    };
    let title = format!("Save what you changed in {name}?");
    let left = question_ui(ctx, &title, WIDTH, Leave::Freely, |ui| {
        hint_ui(
            ui,
            match then {
                Waiting::Close => "The window is about to close.",
                Waiting::New => "An empty site is about to take its place.",
                Waiting::Open | Waiting::OpenPath(_) | Waiting::Sample(_) => {
                    "Another site is about to take its place."
                }
            },
        );
        answers_ui(ui, |ui| {
            if main_button_ui(ui, "Save").clicked() {
                intents.push(Intent::Answer(Answer::SaveFirst(then.clone())));
            }
            if plain_button_ui(ui, "Don't save").clicked() {
                intents.push(Intent::Answer(Answer::GiveUpChanges(then.clone())));
            }
            if plain_button_ui(ui, "Cancel").clicked() {
                intents.push(Intent::Ask(None));
            }
        });
    });
    if left {
        intents.push(Intent::Ask(None));
    }
}
