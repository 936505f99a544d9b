//! How long a section takes, and a frame of the site in space.
//!
//! `cargo bench --bench views`. Prints medians; the budget of a frame is 33 ms.
#![expect(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench prints, and stops where it can't go on"
)]

#[path = "../tests/suite/made.rs"]
mod made;
mod support;

use made::{Shed, shed};
use rafterglow::catalogue::Catalogue;
use rafterglow::findings::judge;
use rafterglow::geometry::DVec2;
use rafterglow::site::Site;
use rafterglow::study::study;
use rafterglow::views::section::{default_line, section};
use rafterglow::views::space::{Camera, Finish, Inks, draw, runs_scene, site_scene};
use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;
use support::median_ms;

/// A window of 1280 by 800 points at rest, and as it is drawn while something moves.
const SIZE: (usize, usize) = (1280, 800);
const MOVING: (usize, usize) = (768, 480);

fn measure(name: &str, site: Site, catalogue: &Arc<Catalogue>) {
    let site = Arc::new(site);
    let study = study(&site, catalogue);
    let findings = judge(&site, catalogue, &study);
    let line = default_line(&site, catalogue).unwrap();
    let cut = median_ms(51, || {
        black_box(section(&site, &study, &findings, black_box(&line)));
    });
    let still = site_scene(&site, &study);
    let runs = runs_scene(&study, &findings);
    let build = median_ms(15, || {
        black_box(site_scene(&site, black_box(&study)));
    });
    let build_runs = median_ms(15, || {
        black_box(runs_scene(black_box(&study), &findings));
    });
    let size = DVec2::new(1280.0, 800.0);
    let all = still.bounds.union(runs.bounds);
    let camera = Camera::default().fitted(&all, size);
    println!(
        "{name}: {} runs, {} members, {} obstructions, {} faces",
        study.runs.len(),
        study.structure.members.len(),
        site.obstructions.len(),
        still.n_faces() + runs.n_faces()
    );
    println!("  a section                 {cut:9.3} ms");
    println!("  the building in space     {build:9.3} ms");
    println!("  the runs in space         {build_runs:9.3} ms");
    for (what, camera) in [
        ("all in view", camera),
        ("half as far", camera.nearer(2.0)),
        ("eight times nearer", camera.nearer(8.0)),
    ] {
        let frame = |size, finish, n_threads| {
            let mut turn = 0.0;
            median_ms(21, || {
                turn += 3.0;
                let camera = camera.orbited(turn, 0.0);
                let scenes = [&still, &runs];
                black_box(draw(
                    &scenes,
                    &camera,
                    &Inks::PAPER,
                    size,
                    finish,
                    n_threads,
                ));
            })
        };
        println!(
            "  {what}: moving {:.1} ms with one thread, {:.1} with two; whole {:.1}; at rest {:.1}",
            frame(MOVING, Finish::Quick, 1),
            frame(MOVING, Finish::Quick, 2),
            frame(SIZE, Finish::Quick, 2),
            frame(SIZE, Finish::Fine, 2)
        );
    }
}

fn main() {
    let catalogue = Arc::new(rafterglow::store::catalogue_file::embedded());
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-sites/freight-shed.ron");
    measure(
        "freight shed",
        rafterglow::store::open(&sample).unwrap(),
        &catalogue,
    );
    measure("made shed, large", shed(Shed::LARGE), &catalogue);
}
