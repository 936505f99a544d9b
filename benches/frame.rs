//! How long one frame of the window takes on a large site: laying out, drawing the
//! plan, and turning shapes into triangles; without the graphics driver.
//!
//! `cargo bench --bench frame`.
#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench prints, and stops where it can't go on"
)]

#[path = "../tests/suite/made.rs"]
mod made;

use eframe::egui::{Context, Event, Modifiers, PointerButton, Pos2, RawInput, Rect, vec2};
use made::{Shed, shed};
use rafterglow::editor::Editor;
use rafterglow::editor::theme::Theme;
use rafterglow::site::{RunId, Site};
use std::hint::black_box;
use std::sync::Arc;
use std::time::Instant;

const SIZE: (f32, f32) = (1600.0, 1000.0);

/// One frame; how long it took, ms, and how many triangles it drew.
fn frame(ctx: &Context, editor: &mut Editor, time: f64, events: Vec<Event>) -> (f64, usize) {
    let input = RawInput {
        screen_rect: Some(Rect::from_min_size(Pos2::ZERO, vec2(SIZE.0, SIZE.1))),
        time: Some(time),
        events,
        ..RawInput::default()
    };
    let start = Instant::now();
    let mut output = ctx.run_ui(input, |ui| editor.show(ui));
    let pixels_per_point = output.pixels_per_point;
    let shapes = std::mem::take(&mut output.shapes);
    output.drop_without_applying_deltas();
    let primitives = ctx.tessellate(shapes, pixels_per_point);
    let took = start.elapsed().as_secs_f64() * 1e3;
    let triangles = primitives
        .iter()
        .map(|primitive| match &primitive.primitive {
            eframe::egui::epaint::Primitive::Mesh(mesh) => mesh.indices.len() / 3,
            eframe::egui::epaint::Primitive::Callback(_) => 0,
        })
        .sum();
    black_box(&primitives);
    (took, triangles)
}

fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}

fn measure(name: &str, site: Site) {
    let catalogue = Arc::new(rafterglow::store::embedded_catalogue());
    let ctx = Context::default();
    Theme::install(&ctx);
    let mut editor = Editor::for_test(site, catalogue);
    for warm_up in 0..5 {
        frame(&ctx, &mut editor, f64::from(warm_up), Vec::new());
    }
    let mut triangles = 0;
    let still: Vec<f64> = (0..60)
        .map(|n| {
            let (took, drawn) = frame(&ctx, &mut editor, 10.0 + f64::from(n) / 60.0, Vec::new());
            triangles = drawn;
            took
        })
        .collect();
    // Dragging the run in the middle; the study is inline here, so the frame carries it too.
    let scheme = editor.site().scheme();
    let run = &scheme.runs[scheme.runs.len() / 2];
    assert!(
        editor
            .study()
            .unwrap()
            .run(&RunId::new(run.id.as_str()))
            .is_some()
    );
    let at = editor.camera().screen_from_site(run.burner) + vec2(20.0, 0.0);
    let press = |pressed| Event::PointerButton {
        pos: at,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    frame(&ctx, &mut editor, 20.0, vec![Event::PointerMoved(at)]);
    frame(&ctx, &mut editor, 20.1, vec![press(true)]);
    let dragged: Vec<f64> = (0..60_u8)
        .map(|n| {
            let to = at + vec2(8.0 + f32::from(n), 3.0);
            frame(
                &ctx,
                &mut editor,
                20.2 + f64::from(n) / 60.0,
                vec![Event::PointerMoved(to)],
            )
            .0
        })
        .collect();
    println!("{name}: {} runs, {triangles} triangles", scheme.runs.len());
    println!("  at rest       {:7.2} ms", median(still));
    println!(
        "  run dragged   {:7.2} ms, the study of the moved run included",
        median(dragged)
    );
}

fn main() {
    let [first, ..] = rafterglow::store::samples::SAMPLES;
    measure("freight shed", first.open().unwrap());
    measure("made shed, large", shed(Shed::LARGE));
}
