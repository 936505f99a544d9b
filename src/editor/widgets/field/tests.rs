//! A form of two fields, worked by keys and pointer.

use super::*;
use crate::editor::theme::Theme;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use egui_kittest::{Harness, Node};

#[derive(Default)]
struct Form {
    height: Option<u32>,
    other: u32,
    n_reads: u32,
}

fn form() -> Harness<'static, Form> {
    let state = Form {
        height: Some(6),
        ..Form::default()
    };
    Harness::builder()
        .with_context_setup(Theme::install)
        .build_ui_state(
            |ui, form: &mut Form| {
                let shown = form.height.map(|height| height.to_string());
                let shown = shown.as_deref().map_or(Shown::Several, Shown::One);
                let taken = Entry::new("Height", shown).show(ui, |text| {
                    form.n_reads += 1;
                    text.parse::<u32>()
                        .map_err(|error| format!("“{text}” is no number: {error}"))
                });
                if let Some(height) = taken {
                    form.height = Some(height);
                }
                let shown = form.other.to_string();
                let taken = Entry::new("Other", Shown::One(&shown)).show(ui, |text| {
                    text.parse::<u32>().map_err(|error| error.to_string())
                });
                if let Some(other) = taken {
                    form.other = other;
                }
            },
            state,
        )
}

fn field<'a>(harness: &'a Harness<'_, Form>, name: &'a str) -> Node<'a> {
    harness.get_by_role_and_label(egui::accesskit::Role::TextInput, name)
}

fn enter(harness: &mut Harness<'_, Form>, name: &str, text: &str) {
    field(harness, name).focus();
    harness.run();
    field(harness, name).type_text(text);
    harness.run();
}

#[test]
fn what_is_typed_replaces_the_value_on_enter() {
    let mut harness = form();
    enter(&mut harness, "Height", "12");
    assert_eq!(harness.state().height, Some(6), "not before it is entered");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().height, Some(12));
    assert_eq!(field(&harness, "Height").value().as_deref(), Some("12"));
}

#[test]
fn going_on_with_tab_enters_and_leads_to_the_next_field() {
    let mut harness = form();
    enter(&mut harness, "Height", "12");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().height, Some(12));
    assert!(field(&harness, "Other").is_focused());
}

#[test]
fn a_click_elsewhere_enters_when_the_button_goes_down() {
    let mut harness = form();
    enter(&mut harness, "Height", "12");
    harness.drag_at(egui::pos2(300.0, 300.0));
    harness.run();
    assert_eq!(harness.state().height, Some(12));
}

#[test]
fn escape_brings_the_old_value_back() {
    let mut harness = form();
    enter(&mut harness, "Height", "12");
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(harness.state().height, Some(6));
    assert_eq!(field(&harness, "Height").value().as_deref(), Some("6"));
    assert!(!field(&harness, "Height").is_focused());
}

#[test]
fn what_cannot_be_used_stays_in_the_field_with_the_reason() {
    let mut harness = form();
    enter(&mut harness, "Height", "six");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().height, Some(6));
    assert_eq!(field(&harness, "Height").value().as_deref(), Some("six"));
    harness.get_by_label("“six” is no number: invalid digit found in string");

    // Put right, it is taken; the reason goes.
    enter(&mut harness, "Height", "7");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().height, Some(7));
    assert!(
        harness
            .query_by_label("“six” is no number: invalid digit found in string")
            .is_none()
    );
}

#[test]
fn what_cannot_be_used_is_taken_back_by_escape_and_keeps_the_focus_after_enter() {
    let mut harness = form();
    enter(&mut harness, "Height", "six");
    harness.key_press(Key::Enter);
    harness.run();
    assert!(field(&harness, "Height").is_focused());
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(field(&harness, "Height").value().as_deref(), Some("6"));
    assert!(
        harness
            .query_by_label("“six” is no number: invalid digit found in string")
            .is_none()
    );
}

#[test]
fn a_value_that_changes_underneath_drops_what_was_typed_against_it() {
    let mut harness = form();
    enter(&mut harness, "Height", "six");
    harness.key_press(Key::Tab);
    harness.run();
    harness.state_mut().height = Some(9);
    harness.run();
    assert_eq!(field(&harness, "Height").value().as_deref(), Some("9"));
}

#[test]
fn text_that_was_not_touched_is_never_read() {
    let mut harness = form();
    for name in ["Height", "Other", "Height"] {
        field(&harness, name).focus();
        harness.run();
    }
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().n_reads, 0);
}

#[test]
fn several_values_are_shown_as_such_and_replaced_by_one() {
    let mut harness = form();
    harness.state_mut().height = None;
    harness.run();
    assert_eq!(
        field(&harness, "Height").accesskit_node().placeholder(),
        Some("several")
    );
    enter(&mut harness, "Height", "4");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().height, Some(4));
}
