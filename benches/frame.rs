//! How much a frame of the window costs on a large site: the window's own work and the
//! turning of shapes into triangles, without the graphics card, in processor time.
//!
//! `cargo bench --bench frame`. Prints the mean of many; the aim is less
//! than 16 ms.
#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench prints, and stops where it can't go on"
)]

#[path = "../tests/suite/made.rs"]
mod made;

use eframe::egui::{
    Context, Event, Key, Modifiers, MouseWheelSource, MouseWheelUnit, PointerButton, Pos2,
    RawInput, Rect, TouchPhase, Vec2, pos2,
};
use made::{Shed, shed};
use rafterglow::catalogue::Catalogue;
use rafterglow::editor::Editor;
use rafterglow::editor::theme::Theme;
use rafterglow::geometry::DVec2;
use rafterglow::site::Site;
use std::hint::black_box;
use std::sync::Arc;
use std::time::{Duration, Instant};

const SIZE: Vec2 = Vec2::new(1600.0, 1000.0);

/// Long enough for the first study of any site here.
const FIRST_STUDY: Duration = Duration::from_millis(500);

/// Time that this thread has had on a processor, so that a busy machine measures the
/// same; where the system does not tell, time that has passed.
struct Clock {
    on_processor_ns: Option<u64>,
    passed: Instant,
}

impl Clock {
    fn start() -> Self {
        Self {
            on_processor_ns: on_processor_ns(),
            passed: Instant::now(),
        }
    }

    fn elapsed_ms(&self) -> f64 {
        match (self.on_processor_ns, on_processor_ns()) {
            (Some(from), Some(to)) => (to - from) as f64 / 1e6,
            _ => self.passed.elapsed().as_secs_f64() * 1e3,
        }
    }
}

/// The scheduler's account of this thread (proc(5), `schedstat`).
fn on_processor_ns() -> Option<u64> {
    let account = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    account.split_whitespace().next()?.parse().ok()
}

struct Window {
    ctx: Context,
    editor: Editor,
    time: f64,
}

impl Window {
    /// A window on a site, with an editor that studies in its frames or away from them.
    fn on(site: Site, editor: fn(Site, Arc<Catalogue>) -> Editor) -> Self {
        let ctx = Context::default();
        Theme::install(&ctx);
        let catalogue = Arc::new(rafterglow::store::embedded_catalogue());
        let mut window = Self {
            ctx,
            editor: editor(site, catalogue),
            time: 0.0,
        };
        for _ in 0..5 {
            window.frame(Vec::new());
        }
        window
    }

    /// One frame; milliseconds.
    fn frame(&mut self, events: Vec<Event>) -> f64 {
        self.time += 1.0 / 60.0;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, SIZE)),
            time: Some(self.time),
            events,
            ..RawInput::default()
        };
        let start = Clock::start();
        let mut output = self.ctx.run_ui(input, |ui| self.editor.show(ui));
        let shapes = std::mem::take(&mut output.shapes);
        black_box(self.ctx.tessellate(shapes, output.pixels_per_point));
        let took = start.elapsed_ms();
        output.drop_without_applying_deltas();
        took
    }

    fn run_on_screen(&self, index: usize) -> Pos2 {
        let run = self.editor.site().scheme().runs[index].clone();
        let on = run.burner + DVec2::new(2.0, 0.0);
        self.editor.camera().screen_from_site(on)
    }

    fn button(at: Pos2, pressed: bool) -> Event {
        Event::PointerButton {
            pos: at,
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        }
    }
}

/// The mean: the scheduler accounts in ticks, of which many frames get none.
fn report(name: &str, times: &[f64]) {
    let mean = times.iter().sum::<f64>() / times.len() as f64;
    println!("  {name:28} {mean:7.2} ms");
}

fn frames(window: &mut Window, n: usize, mut events: impl FnMut(usize) -> Vec<Event>) -> Vec<f64> {
    (0..n).map(|frame| window.frame(events(frame))).collect()
}

fn measure(name: &str, site: Site) {
    println!("{name}");
    let mut window = Window::on(site.clone(), Editor::for_test);
    let at = window.run_on_screen(0);
    report("nothing happens", &frames(&mut window, 100, |_| Vec::new()));
    let times = frames(&mut window, 100, |frame| {
        let by = if frame % 2 == 0 { 3.0 } else { 0.0 };
        vec![Event::PointerMoved(at + Vec2::new(by, 20.0))]
    });
    report("the pointer moves", &times);
    let times = frames(&mut window, 100, |frame| {
        let delta = if frame % 2 == 0 { 3.0 } else { -3.0 };
        vec![Event::MouseWheel {
            unit: MouseWheelUnit::Point,
            delta: Vec2::splat(delta),
            phase: TouchPhase::Move,
            modifiers: Modifiers::NONE,
            source: MouseWheelSource::Trackpad,
        }]
    });
    report("the plan is panned", &times);
    drag(&mut window, "dragged, with all studies");
    // Near enough for every label.
    for _ in 0..14 {
        let key = Event::Key {
            key: Key::Plus,
            physical_key: None,
            pressed: true,
            repeat: false,
            modifiers: Modifiers::NONE,
        };
        window.frame(vec![key]);
    }
    report("near", &frames(&mut window, 100, |_| Vec::new()));
    // As people have it: the study and what it suggests are sought away from the window.
    let mut window = Window::on(site, Editor::new);
    std::thread::sleep(FIRST_STUDY);
    drag(&mut window, "a run is dragged");
}

fn drag(window: &mut Window, name: &str) {
    let middle = window.editor.site().scheme().runs.len() / 2;
    let at = window.run_on_screen(middle);
    window.frame(vec![Event::PointerMoved(at)]);
    window.frame(vec![Window::button(at, true)]);
    let to = |frame: usize| {
        let step = f32::from(u8::try_from(frame % 40).unwrap());
        pos2(at.x + 8.0 + step, at.y + 4.0 + step / 2.0)
    };
    let times = frames(window, 100, |frame| vec![Event::PointerMoved(to(frame))]);
    report(name, &times);
    window.frame(vec![Window::button(to(39), false)]);
    window.frame(vec![Event::PointerGone]);
}

fn main() {
    let sample = concat!(env!("CARGO_MANIFEST_DIR"), "/sample-sites/freight-shed.ron");
    measure(
        "freight shed",
        rafterglow::store::open(sample.as_ref()).unwrap(),
    );
    measure("made shed, large", shed(Shed::LARGE));
}
