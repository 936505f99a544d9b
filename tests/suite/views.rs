//! Sections and pictures: areas against values by hand, mirrored and turned sites, pixels
//! of known boxes.
#![expect(clippy::unwrap_used, reason = "a test fails by panicking")]

use super::folder::Folder;
use super::made::{Shed, shed};
use rafterglow::catalogue::Catalogue;
use rafterglow::findings::{Finding, judge};
use rafterglow::geometry::{DVec2, DVec3};
use rafterglow::sheets::clashes;
use rafterglow::sheets::pages::{PageInput, plan_set, section_sheet};
use rafterglow::sheets::png::png_of_rgb;
use rafterglow::site::place::{MirrorLine, Motion};
use rafterglow::site::{SectionLine, Side, Site};
use rafterglow::store;
use rafterglow::study::{Study, Thing, study};
use rafterglow::units::{Angle, Length};
use rafterglow::views::section::default_line;
use rafterglow::views::space::{Camera, Finish, Inks, draw, runs_scene, site_scene, thing_at};
use rafterglow::views::{Section, section};
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

fn catalogue() -> Arc<Catalogue> {
    Arc::new(store::embedded_catalogue())
}

fn sample(name: &str) -> Site {
    let path = format!("{}/sample-sites/{name}.ron", env!("CARGO_MANIFEST_DIR"));
    store::open(path.as_ref()).unwrap()
}

/// A site with its study and findings.
struct Studied {
    site: Arc<Site>,
    study: Study,
    findings: Vec<Finding>,
}

fn studied(site: Site) -> Studied {
    let site = Arc::new(site);
    let catalogue = catalogue();
    let study = study(&site, &catalogue);
    let findings = judge(&site, &catalogue, &study);
    Studied {
        site,
        study,
        findings,
    }
}

impl Studied {
    fn cut(&self, line: &SectionLine) -> Section {
        section(&self.site, &self.study, &self.findings, line)
    }
}

fn line(from: (f64, f64), to: (f64, f64), looks: Side) -> SectionLine {
    SectionLine {
        id: "A".into(),
        from: from.into(),
        to: to.into(),
        looks,
        depth: Length::metres(5.0),
        notes: String::new(),
    }
}

/// Area that is cut of walls, of decks, of members, and of obstructions, m2.
fn areas(section: &Section) -> [f64; 4] {
    let mut sums = [0.0; 4];
    for cut in &section.cut {
        let kind = match cut.thing {
            Thing::Wall(..) => 0,
            Thing::Deck(_) => 1,
            Thing::Member(_) => 2,
            _ => 3,
        };
        sums[kind] += cut.area_m2();
    }
    sums
}

#[test]
fn a_shed_cut_across_shows_its_walls_and_its_deck() {
    let studied = studied(shed(Shed::SMALL));
    let bay = &studied.site.bays[0];
    let roof = bay.roof_planes();
    let depth = bay.outline.iter().map(|p| p.y).fold(0.0, f64::max);
    let x = 9.0;
    let cut = studied.cut(&line((x, -1.0), (x, depth + 1.0), Side::Left));
    // By hand: two walls of 0.2 m up to the roof, a deck of 0.2 m over the bay's depth;
    // over each wall the roof goes on at its pitch.
    let mean = |from: f64, to: f64| {
        let at = |y: f64| roof.elevation_at(DVec2::new(x, y));
        f64::midpoint(at(from), at(to))
    };
    let walls = 0.2 * (mean(-0.2, 0.0) + mean(depth, depth + 0.2));
    let [found_walls, found_deck, ..] = areas(&cut);
    assert!((found_walls - walls).abs() < 1e-6, "{found_walls} {walls}");
    assert!((found_deck - 0.2 * depth).abs() < 1e-6, "{found_deck}");
    assert!(cut.grid.len() >= 2);
}

#[test]
fn a_heater_that_is_cut_comes_with_its_envelope_its_heights_and_its_room() {
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let studied = studied(sample(name));
        let line = default_line(&studied.site, &catalogue()).unwrap();
        let cut = studied.cut(&line);
        assert!(!cut.runs.is_empty(), "{name}");
        for run in &cut.runs {
            let known = studied.study.run(&run.run).unwrap();
            let envelope = cut.envelopes.iter().find(|it| it.run == run.run).unwrap();
            // Square to a straight run the tube's envelope is its box in (l, u).
            let low = envelope.areas.iter().flatten().map(|p| p.y);
            let lowest = low.fold(f64::INFINITY, f64::min);
            let below = known.clearance.to_what_burns.below_m;
            let body = run.boxes.iter().flatten().map(|p| p.y);
            let body = body.fold(f64::INFINITY, f64::min);
            assert!((body - below - lowest).abs() < 1e-3, "{name} {}", run.run);
            let height = cut.heights.iter().find(|it| it.run == run.run).unwrap();
            assert!(height.lowest_m <= body + 1e-9);
        }
        for room in &cut.rooms {
            let drawn = room.from.distance(room.to);
            assert!(
                (drawn - room.room.available_m.abs()).abs() < 2e-3,
                "{name} {room:?}"
            );
        }
    }
}

#[test]
fn a_mirrored_or_turned_site_is_cut_the_same() {
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let mut site = sample(name);
        let line = default_line(&site, &catalogue()).unwrap();
        site.sections = vec![Arc::new(line)];
        let before = studied(site.clone());
        let expected = before.cut(&site.sections[0]);
        let motions = [
            Motion::Move(DVec2::new(120.0, -45.0)),
            Motion::Turn {
                about: DVec2::new(3.0, 4.0),
                by: Angle::degrees(33.0),
            },
            Motion::Mirror(MirrorLine {
                through: DVec2::new(1.0, 2.0),
                bearing: Angle::degrees(70.0),
            }),
        ];
        for motion in motions {
            let moved = motion.site(&site);
            let line = Arc::clone(&moved.sections[0]);
            let found = studied(moved).cut(&line);
            for (found, expected) in areas(&found).into_iter().zip(areas(&expected)) {
                assert!((found - expected).abs() < 1e-6, "{name} {motion:?}");
            }
            assert_eq!(found.runs.len(), expected.runs.len());
            assert_eq!(found.rooms.len(), expected.rooms.len());
            // A mirrored site is seen from the other side: left is right.
            let width = expected.width_m;
            for (found, expected) in found.runs.iter().zip(&expected.runs) {
                let u = if motion.swaps_sides() {
                    width - expected.at.x
                } else {
                    expected.at.x
                };
                assert!((found.at.x - u).abs() < 1e-6, "{name} {motion:?}");
                assert!((found.at.y - expected.at.y).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn looking_the_other_way_swaps_left_and_right_and_cuts_the_same() {
    let studied = studied(sample("boat-hall"));
    let line = default_line(&studied.site, &catalogue()).unwrap();
    let other = SectionLine {
        looks: line.looks.opposite(),
        ..line.clone()
    };
    let (one, other) = (studied.cut(&line), studied.cut(&other));
    for (a, b) in areas(&one).into_iter().zip(areas(&other)) {
        assert!((a - b).abs() < 1e-6);
    }
    assert!((one.runs[0].at.x - (one.width_m - other.runs[0].at.x)).abs() < 1e-9);
}

#[test]
fn the_picture_does_not_depend_on_the_threads() {
    let studied = studied(sample("net-store"));
    let still = site_scene(&studied.site, &studied.study);
    let runs = runs_scene(&studied.study, &studied.findings);
    let size = DVec2::new(211.0, 149.0);
    let camera = Camera::default().fitted(&still.bounds.union(runs.bounds), size);
    for finish in [Finish::Quick, Finish::Fine] {
        let with = |n| {
            draw(
                &[&still, &runs],
                &camera,
                &Inks::PAPER,
                (211, 149),
                finish,
                n,
            )
        };
        let one = with(1);
        assert!(one == with(2) && one == with(7));
        let inked = one
            .rgb
            .chunks(3)
            .filter(|it| **it != Inks::PAPER.ground[..]);
        assert!(2_000 < inked.count());
    }
}

/// A breach is seen in the breach's colour, on the picture of its site.
#[test]
fn envelopes_of_breaches_have_their_colour() {
    let of = |name: &str| {
        let studied = studied(sample(name));
        let runs = runs_scene(&studied.study, &studied.findings);
        let size = DVec2::new(300.0, 200.0);
        let camera = Camera::default().fitted(&runs.bounds, size);
        let image = draw(
            &[&runs],
            &camera,
            &Inks::PAPER,
            (300, 200),
            Finish::Quick,
            1,
        );
        let breach = Inks::PAPER.breach;
        // Edges of an envelope are blended: nearer to the breach's colour than to the ground.
        image
            .rgb
            .chunks(3)
            .filter(|it| it[0].abs_diff(breach[0]) < 40 && it[1] < 90 && 60 < it[2])
            .count()
    };
    assert_eq!(of("boat-hall"), 0);
    assert!(100 < of("net-store"));
}

#[test]
fn what_is_pointed_at_is_met() {
    let studied = studied(sample("boat-hall"));
    let run = &studied.study.runs[0];
    let at = run.geometry.axis().point(2.0);
    let found = thing_at(&studied.study, at - DVec3::Z * 1.5, DVec3::Z);
    assert_eq!(found, Some(Thing::Run(run.run.id.clone())));
}

fn run_cli(arguments: &[&str]) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_rafterglow"))
        .args(arguments)
        .output()
        .unwrap()
}

#[test]
fn sections_and_pictures_are_written_in_every_format() {
    let folder = Folder::new("views-cli");
    let site = format!("{}/sample-sites/boat-hall.ron", env!("CARGO_MANIFEST_DIR"));
    for (ending, begins) in [
        ("svg", &b"<?xml"[..]),
        ("pdf", b"%PDF"),
        ("png", b"\x89PNG"),
        ("dxf", b"  0"),
    ] {
        let file = folder.file(&format!("a.{ending}"));
        let path = file.display().to_string();
        let done = run_cli(&["section", &site, "-o", &path, "--dpi", "60"]);
        assert!(
            done.status.success(),
            "{}",
            String::from_utf8_lossy(&done.stderr)
        );
        let bytes = std::fs::read(&file).unwrap();
        assert!(bytes.starts_with(begins), "{ending}: {:?}", &bytes[..8]);
    }
    let svg = std::fs::read_to_string(folder.file("a.svg")).unwrap();
    assert!(svg.contains("Section A-A") && svg.contains("1 : 100"));
    let file = folder.file("b.png");
    let path = file.display().to_string();
    let done = run_cli(&[
        "picture", &site, "-o", &path, "--from", "140", "--tilt", "35", "--width", "90", "--dpi",
        "100",
    ]);
    assert!(
        done.status.success(),
        "{}",
        String::from_utf8_lossy(&done.stderr)
    );
    let png = std::fs::read(&file).unwrap();
    // Width in pixels, from the header: 90 mm at 100 dots an inch.
    let width = u32::from_be_bytes([png[16], png[17], png[18], png[19]]);
    assert!((354..=355).contains(&width), "{width}");
}

#[test]
fn what_cannot_be_drawn_is_refused_in_words() {
    let folder = Folder::new("views-refused");
    let site = format!("{}/sample-sites/boat-hall.ron", env!("CARGO_MANIFEST_DIR"));
    let path = |name: &str| folder.file(name).display().to_string();
    for (arguments, words) in [
        (
            vec!["section", &site, "Z", "-o", &path("a.svg")],
            "no section line Z",
        ),
        (
            vec!["section", &site, "-o", &path("a.bmp")],
            "svg, pdf, png or dxf",
        ),
        (
            vec!["picture", &site, "-o", &path("a.dxf")],
            "png, pdf or svg",
        ),
        (
            vec!["picture", &site, "-o", &path("a.png"), "--tilt", "120"],
            "--tilt",
        ),
        (
            vec![
                "picture",
                &site,
                "-o",
                &path("a.png"),
                "--width",
                "2000",
                "--dpi",
                "1200",
            ],
            "megapixels",
        ),
    ] {
        let done = run_cli(&arguments);
        assert_eq!(done.status.code(), Some(2));
        let said = String::from_utf8_lossy(&done.stderr).into_owned();
        assert!(said.contains(words), "{said}");
    }
    assert!(folder.names().is_empty());
}

/// Lines that cut through the sites in many places: square to the walls, slanting, along
/// a run, past everything.
fn lines_through(site: &Site) -> Vec<SectionLine> {
    let bay = &site.bays[0];
    let low = bay.outline.iter().copied().reduce(DVec2::min).unwrap() - 1.0;
    let high = bay.outline.iter().copied().reduce(DVec2::max).unwrap() + 1.0;
    let mut lines = Vec::new();
    for part in [0.1, 0.3, 0.55, 0.8] {
        let at = low.lerp(high, part);
        lines.push(line((at.x, low.y), (at.x, high.y), Side::Left));
        lines.push(line((low.x, at.y), (high.x, at.y), Side::Right));
        lines.push(line((low.x, at.y), (high.x, high.y), Side::Left));
    }
    for run in &site.scheme().runs {
        let along = rafterglow::site::bay::along(run.bearing);
        let (from, to) = (run.burner - along * 2.0, run.burner + along * 14.0);
        lines.push(line(from.into(), to.into(), Side::Left));
    }
    lines.push(line(
        (low.x - 9.0, low.y - 9.0),
        (low.x - 8.0, low.y - 4.0),
        Side::Right,
    ));
    lines
}

#[test]
fn nothing_on_a_section_sheet_lies_on_its_texts() {
    let catalogue = catalogue();
    for name in ["freight-shed", "boat-hall", "net-store"] {
        let studied = studied(sample(name));
        let input = PageInput {
            site: &studied.site,
            catalogue: &catalogue,
            study: &studied.study,
            findings: &studied.findings,
            date: None,
        };
        for line in lines_through(&studied.site) {
            let sheet = section_sheet(&input, &line);
            let found: Vec<String> = clashes(&sheet).iter().map(ToString::to_string).collect();
            assert!(
                found.is_empty(),
                "{name}, {} to {}: {found:#?}",
                line.from,
                line.to
            );
        }
    }
}

#[test]
fn a_drawn_section_is_a_sheet_of_the_set() {
    let catalogue = catalogue();
    let mut site = sample("boat-hall");
    let line = default_line(&site, &catalogue).unwrap();
    site.sections = vec![Arc::new(SectionLine {
        id: "C".into(),
        ..line
    })];
    let studied = studied(site);
    let input = PageInput {
        site: &studied.site,
        catalogue: &catalogue,
        study: &studied.study,
        findings: &studied.findings,
        date: None,
    };
    let titles: Vec<String> = plan_set(&input).iter().map(|it| it.title.clone()).collect();
    assert!(titles.contains(&"Section C-C".to_owned()), "{titles:?}");
}

/// A small picture of each sample site, against one that was looked at. `UPDATE=1` writes
/// them afresh.
#[test]
fn pictures_are_as_they_were_looked_at() {
    for name in ["boat-hall", "net-store"] {
        let studied = studied(sample(name));
        let still = site_scene(&studied.site, &studied.study);
        let runs = runs_scene(&studied.study, &studied.findings);
        let size = DVec2::new(160.0, 100.0);
        let camera = Camera::default().fitted(&still.bounds.union(runs.bounds), size);
        let scenes = [&still, &runs];
        let image = draw(&scenes, &camera, &Inks::PAPER, (160, 100), Finish::Fine, 2);
        let path = format!(
            "{}/tests/expected/views/{name}.png",
            env!("CARGO_MANIFEST_DIR")
        );
        if std::env::var_os("UPDATE").is_some() {
            let png = png_of_rgb(160, 100, &image.rgb).unwrap();
            std::fs::create_dir_all(Path::new(&path).parent().unwrap()).unwrap();
            std::fs::write(&path, png).unwrap();
        }
        let file = std::io::BufReader::new(std::fs::File::open(&path).unwrap());
        let mut reader = png::Decoder::new(file).read_info().unwrap();
        let mut known = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut known).unwrap();
        assert_eq!(known.len(), image.rgb.len());
        let off: u64 = known
            .iter()
            .zip(&image.rgb)
            .map(|(a, b)| u64::from(a.abs_diff(*b)))
            .sum();
        // A mean of half a step of a colour: rounding, but no line that moved.
        let mean = off as f64 / known.len() as f64;
        assert!(mean < 0.5, "{name}: {mean}");
    }
}
