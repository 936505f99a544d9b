//! How long a whole study takes, and how long it takes again after one run has moved.
//!
//! `cargo bench --bench study`. Prints medians; the ratio of afresh to again is the
//! figure that holds on any machine.
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
use rafterglow::site::edit::{Edit, Object};
use rafterglow::site::place::moved;
use rafterglow::study::{restudy, study};
use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;
use support::median_ms;

fn measure(name: &str, site: Site, catalogue: &Arc<Catalogue>) {
    let site = Arc::new(site);
    let before = study(&site, catalogue);
    let scheme = site.scheme();
    let run = &scheme.runs[scheme.runs.len() / 2];
    let step = Edit::Put(moved(&Object::Run(Arc::clone(run)), DVec2::new(0.01, 0.0)));
    let next = Arc::new(step.apply(&site).unwrap());
    // The bench proves nothing if the two differ.
    assert!(restudy(&before, &next, catalogue) == study(&next, catalogue));
    let afresh = median_ms(15, || {
        black_box(study(black_box(&next), catalogue));
    });
    let again = median_ms(101, || {
        black_box(restudy(&before, black_box(&next), catalogue));
    });
    let apply = median_ms(101, || {
        black_box(step.apply(black_box(&site)).unwrap());
    });
    let judged = median_ms(31, || {
        black_box(judge(&next, catalogue, black_box(&before)));
    });
    println!(
        "{name}: {} runs, {} members, {} obstructions",
        before.runs.len(),
        before.structure.members.len(),
        site.obstructions.len()
    );
    println!("  afresh            {afresh:9.3} ms");
    println!(
        "  one run moved     {again:9.3} ms   ({:.0} times less)",
        afresh / again
    );
    println!("  the edit itself   {apply:9.3} ms");
    println!("  all findings      {judged:9.3} ms");
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
