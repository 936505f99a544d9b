//! Scenes seen by a camera, as pixels.

use super::camera::{Camera, Lens, NEAREST_M};
use super::inks::{Inks, Rgb, Tone};
use super::raster::{Band, Patch, Stroke, packed};
use super::scene::{Body, Face, Scene, Sides};
use crate::geometry::{DVec2, DVec3};

/// How finely a picture is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Finish {
    /// One sample a pixel: while something moves.
    Quick,
    /// Four samples a pixel: at rest, and in files.
    Fine,
}

impl Finish {
    const fn samples(self) -> usize {
        match self {
            Self::Quick => 1,
            Self::Fine => 2,
        }
    }
}

/// A picture.
#[derive(Debug, Clone, PartialEq)]
pub struct Image {
    /// Width, pixels.
    pub width: usize,
    /// Height, pixels.
    pub height: usize,
    /// Red, green, blue, row by row from the top.
    pub rgb: Vec<u8>,
    nearness: Vec<f32>,
}

impl Image {
    /// The colour of a pixel; none outside the picture.
    #[must_use]
    pub fn pixel(&self, x: usize, y: usize) -> Option<Rgb> {
        let place = self.place(x, y)? * 3;
        let rgb = self.rgb.get(place..place + 3)?;
        Some([rgb[0], rgb[1], rgb[2]])
    }

    /// Whether a point at a depth (m) is hidden at a pixel by something that is nearer by
    /// more than a hand's breadth. Outside the picture nothing is hidden.
    #[must_use]
    pub fn hides(&self, x: usize, y: usize, depth_m: f64) -> bool {
        /// A name belongs to a point inside its thing, or on its face, m.
        const WITHIN_M: f64 = 0.5;
        let near = self.place(x, y).and_then(|it| self.nearness.get(it));
        near.is_some_and(|&near| 0.0 < near && 1.0 / f64::from(near) < depth_m - WITHIN_M)
    }

    fn place(&self, x: usize, y: usize) -> Option<usize> {
        (x < self.width && y < self.height).then_some(y * self.width + x)
    }
}

/// Rows of a band: fixed, so that nothing depends on how many threads share them.
const BAND_ROWS: usize = 64;
/// Most threads that are used.
const MOST_THREADS: usize = 2;

/// Draws scenes. The pixels are the same whatever the number of threads, of which at most
/// two are used.
#[must_use]
pub fn draw(
    scenes: &[&Scene],
    camera: &Camera,
    inks: &Inks,
    (width, height): (usize, usize),
    finish: Finish,
    n_threads: usize,
) -> Image {
    let samples = finish.samples();
    let (wide, high) = (width * samples, height * samples);
    #[expect(clippy::cast_precision_loss, reason = "a picture has few columns")]
    let size = DVec2::new(wide as f64, high as f64);
    let list = List::new(scenes, camera.lens(size), size, inks, samples);
    let mut colours = vec![packed(inks.ground); wide * high];
    let mut nearness = vec![0.0_f32; wide * high];
    if 0 < wide * high {
        let rows = BAND_ROWS * wide;
        let bands: Vec<Band<'_>> = colours
            .chunks_mut(rows)
            .zip(nearness.chunks_mut(rows))
            .enumerate()
            .map(|(k, (colours, nearness))| Band {
                width: wide,
                top: k * BAND_ROWS,
                colours,
                nearness,
            })
            .collect();
        list.draw_into(bands, n_threads.clamp(1, MOST_THREADS));
    }
    if samples == 1 {
        let mut rgb = vec![0; colours.len() * 3];
        for (bytes, colour) in rgb.chunks_exact_mut(3).zip(&colours) {
            bytes.copy_from_slice(&colour.to_be_bytes()[1..]);
        }
        return Image {
            width,
            height,
            rgb,
            nearness,
        };
    }
    reduced(&colours, &nearness, (width, height), samples)
}

/// Each pixel the mean of its samples; its depth that of its nearest sample.
fn reduced(
    colours: &[u32],
    nearness: &[f32],
    (width, height): (usize, usize),
    samples: usize,
) -> Image {
    let wide = width * samples;
    let mut rgb = Vec::with_capacity(width * height * 3);
    let mut near = Vec::with_capacity(width * height);
    let count = u32::try_from(samples * samples).unwrap_or(1).max(1);
    for y in 0..height {
        for x in 0..width {
            let (mut r, mut g, mut b, mut nearest) = (0, 0, 0, 0.0_f32);
            for v in 0..samples {
                let row = (y * samples + v) * wide + x * samples;
                for place in row..row + samples {
                    let [_, red, green, blue] = colours[place].to_be_bytes();
                    r += u32::from(red);
                    g += u32::from(green);
                    b += u32::from(blue);
                    nearest = nearest.max(nearness[place]);
                }
            }
            rgb.extend([r, g, b].map(|sum| byte((sum + count / 2) / count)));
            near.push(nearest);
        }
    }
    Image {
        width,
        height,
        rgb,
        nearness: near,
    }
}

fn byte(value: u32) -> u8 {
    u8::try_from(value).unwrap_or(u8::MAX)
}

/// Everything that is seen, on the picture.
#[derive(Default)]
struct List {
    corners: Vec<[f32; 2]>,
    solid: Vec<Patch>,
    /// The farthest first.
    clear: Vec<(f64, Patch)>,
    lines: Vec<Stroke>,
    edges: Vec<Stroke>,
    /// Edges of what is translucent.
    outlines: Vec<Stroke>,
    /// Room for the corners of one face.
    scratch: Vec<DVec3>,
}

/// What a list is made with.
struct View<'a> {
    lens: Lens,
    size: DVec2,
    inks: &'a Inks,
    light: DVec3,
    /// Width of the thinnest line, pixels.
    thin: u16,
}

impl List {
    fn new(scenes: &[&Scene], lens: Lens, size: DVec2, inks: &Inks, samples: usize) -> Self {
        // Over the left shoulder of whoever looks.
        let light = (lens.up * 0.8 - lens.forward * 0.6 - lens.right * 0.4).normalize();
        let view = View {
            lens,
            size,
            inks,
            light,
            thin: u16::try_from(samples).unwrap_or(1),
        };
        let mut list = Self::default();
        let mut local = Vec::new();
        for scene in scenes {
            for body in &scene.bodies {
                list.body(&view, scene, body, &mut local);
            }
            for line in &scene.lines {
                let ends = [line.from, line.to].map(|end| view.lens.local(end));
                let middle = f64::midpoint(ends[0].z, ends[1].z).max(NEAREST_M);
                let wide = view.lens.focal * line.width_m / middle;
                let colour = packed(view.inks.line(line.tone));
                if let Some(stroke) = view.stroke(ends, wide, colour, u8::MAX) {
                    let reach =
                        DVec2::new(stroke.to[0] - stroke.from[0], stroke.to[1] - stroke.from[1]);
                    let least = line.least_px * f64::from(view.thin);
                    if least <= reach.length() {
                        list.lines.push(stroke);
                    }
                }
            }
        }
        list.clear.sort_by(|a, b| b.0.total_cmp(&a.0));
        list
    }

    fn body(&mut self, view: &View<'_>, scene: &Scene, body: &Body, local: &mut Vec<DVec3>) {
        let Some(radius_px) = view.radius(body) else {
            return;
        };
        let samples = f64::from(view.thin);
        if radius_px < 0.4 * samples {
            return;
        }
        let range = |[from, until]: [u32; 2]| from as usize..until as usize;
        let first = body.corners[0];
        let corners = &scene.corners[range(body.corners)];
        local.clear();
        local.extend(corners.iter().map(|corner| view.lens.local(*corner)));
        let at = |corner: u32| local[(corner - first) as usize];
        for face in &scene.faces[range(body.faces)] {
            let ring = &scene.rings[face.from as usize..face.until as usize];
            self.face(view, body.tone, face, ring, &at);
        }
        if radius_px < 3.0 * samples {
            return;
        }
        let cover = body.tone.edge_cover();
        let colour = packed(view.inks.line(body.tone));
        for &[a, b] in &scene.edges[range(body.edges)] {
            let Some(stroke) = view.stroke([at(a), at(b)], 0.0, colour, cover) else {
                continue;
            };
            if body.tone.cover() == u8::MAX {
                self.edges.push(stroke);
            } else {
                self.outlines.push(stroke);
            }
        }
    }

    fn face(
        &mut self,
        view: &View<'_>,
        tone: Tone,
        face: &Face,
        ring: &[u32],
        at: &impl Fn(u32) -> DVec3,
    ) {
        let Some(&first) = ring.first() else {
            return;
        };
        let normal = view.turned(face.normal);
        let offset = normal.dot(at(first));
        // The eye is the origin: outside the face's plane where the offset is below zero.
        if face.sides == Sides::Outer && 0.0 <= offset || offset.abs() < 1e-9 {
            return;
        }
        let mut points = std::mem::take(&mut self.scratch);
        clipped(ring, at, &mut points);
        self.project(view, tone, face, normal, offset, &points);
        self.scratch = points;
    }

    /// A face in the camera's axes onto the picture.
    fn project(
        &mut self,
        view: &View<'_>,
        tone: Tone,
        face: &Face,
        normal: DVec3,
        offset: f64,
        points: &[DVec3],
    ) {
        if points.len() < 3 {
            return;
        }
        let from = self.corners.len();
        let (mut low, mut high) = (DVec2::INFINITY, DVec2::NEG_INFINITY);
        let mut depth_m = 0.0;
        for point in points {
            let pixel = view.lens.pixel(*point);
            (low, high) = (low.min(pixel), high.max(pixel));
            depth_m += point.z;
            self.corners.push([single(pixel.x), single(pixel.y)]);
        }
        let is_off = high.x < 0.0 || high.y < 0.0 || view.size.x < low.x || view.size.y < low.y;
        if is_off {
            self.corners.truncate(from);
            return;
        }
        // 1 / depth over the plane: n . (slope x, slope y, 1) / offset.
        let focal = view.lens.focal;
        let gradient = [normal.x / focal / offset, -normal.y / focal / offset];
        let base = normal.z / offset
            - gradient[0] * view.lens.middle.x
            - gradient[1] * view.lens.middle.y
            // Edges lie on their faces: these give way by less than a pixel's slope.
            - 0.75 * (gradient[0].abs() + gradient[1].abs());
        let facing = if 0.0 < offset {
            -face.normal
        } else {
            face.normal
        };
        let cover = u32::from(tone.cover()) * u32::from(face.weight) / 256;
        let patch = Patch {
            corners: [place(from), place(self.corners.len())],
            gradient,
            base,
            colour: packed(shaded(view.inks.face(tone), facing.dot(view.light), tone)),
            cover: byte(cover),
            rows: [single(low.y), single(high.y)],
        };
        if patch.cover == u8::MAX {
            self.solid.push(patch);
        } else {
            #[expect(clippy::cast_precision_loss, reason = "a face has few corners")]
            self.clear.push((depth_m / points.len() as f64, patch));
        }
    }

    fn draw_into(&self, bands: Vec<Band<'_>>, n_threads: usize) {
        if n_threads < 2 {
            for mut band in bands {
                self.draw_band(&mut band);
            }
            return;
        }
        let (mut even, mut odd) = (Vec::new(), Vec::new());
        for (k, band) in bands.into_iter().enumerate() {
            if k % 2 == 0 {
                even.push(band);
            } else {
                odd.push(band);
            }
        }
        std::thread::scope(|scope| {
            scope.spawn(|| {
                for band in &mut odd {
                    self.draw_band(band);
                }
            });
            for band in &mut even {
                self.draw_band(band);
            }
        });
    }

    fn draw_band(&self, band: &mut Band<'_>) {
        for patch in &self.solid {
            band.patch(patch, &self.corners);
        }
        for stroke in self.lines.iter().chain(&self.edges) {
            band.stroke(stroke);
        }
        for (_, patch) in &self.clear {
            band.patch(patch, &self.corners);
        }
        for stroke in &self.outlines {
            band.stroke(stroke);
        }
    }
}

/// The part of a face before the camera, in the camera's axes.
fn clipped(ring: &[u32], at: &impl Fn(u32) -> DVec3, kept: &mut Vec<DVec3>) {
    kept.clear();
    let Some(&last) = ring.last() else {
        return;
    };
    let mut before = at(last);
    for &corner in ring {
        let here = at(corner);
        if (before.z < NEAREST_M) != (here.z < NEAREST_M) {
            kept.push(before.lerp(here, (NEAREST_M - before.z) / (here.z - before.z)));
        }
        if NEAREST_M <= here.z {
            kept.push(here);
        }
        before = here;
    }
}

impl View<'_> {
    fn turned(&self, way: DVec3) -> DVec3 {
        let lens = &self.lens;
        DVec3::new(way.dot(lens.right), way.dot(lens.up), way.dot(lens.forward))
    }

    /// Radius on the picture of the ball round a body, pixels; none where it is out of the
    /// picture.
    fn radius(&self, body: &Body) -> Option<f64> {
        let centre = self.lens.local(body.centre);
        if centre.z + body.radius_m < NEAREST_M {
            return None;
        }
        let nearest = centre.z - body.radius_m;
        if nearest < NEAREST_M {
            return Some(f64::INFINITY);
        }
        let radius = self.lens.focal * body.radius_m / nearest;
        let at = self.lens.pixel(centre);
        let is_in = -radius <= at.x
            && at.x <= self.size.x + radius
            && -radius <= at.y
            && at.y <= self.size.y + radius;
        is_in.then_some(radius)
    }

    /// A line in the camera's axes as it lies on the picture.
    fn stroke(&self, ends: [DVec3; 2], wide: f64, colour: u32, cover: u8) -> Option<Stroke> {
        /// No line is wider than this, pixels.
        const WIDEST: f64 = 64.0;
        let [mut a, mut b] = ends;
        if a.z < NEAREST_M && b.z < NEAREST_M {
            return None;
        }
        if a.z < NEAREST_M {
            a = a.lerp(b, (NEAREST_M - a.z) / (b.z - a.z));
        } else if b.z < NEAREST_M {
            b = b.lerp(a, (NEAREST_M - b.z) / (a.z - b.z));
        }
        let end = |p: DVec3| {
            let pixel = self.lens.pixel(p);
            [pixel.x, pixel.y, 1.0 / p.z]
        };
        let (from, to) = (end(a), end(b));
        let beside = |k: usize, size: f64| {
            (from[k] < 0.0 && to[k] < 0.0) || (size < from[k] && size < to[k])
        };
        if beside(0, self.size.x) || beside(1, self.size.y) {
            return None;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to a few pixels"
        )]
        let width = wide.round().clamp(f64::from(self.thin), WIDEST) as u16;
        Some(Stroke {
            from,
            to,
            width,
            colour,
            cover,
        })
    }
}

/// A face in the light: what is turned away is darker, but never dark.
fn shaded(colour: Rgb, toward_light: f64, tone: Tone) -> Rgb {
    if tone == Tone::Floor {
        return colour;
    }
    let light = 0.78 + 0.22 * toward_light;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a byte times at most 1"
    )]
    colour.map(|channel| (f64::from(channel) * light).round() as u8)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "places on the picture are single precision"
)]
const fn single(value: f64) -> f32 {
    value as f32
}

/// A place in a list; lists stay far below the limit.
fn place(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    #![expect(clippy::unwrap_used, reason = "a test fails by panicking")]
    use super::*;
    use crate::geometry::math::tan;
    use crate::geometry::{Bounds, ConvexSolid, Frame};

    fn cube(tone: Tone, low: [f64; 3], side: f64) -> Scene {
        let low = DVec3::from(low);
        let local = Bounds {
            low,
            high: low + side,
        };
        let mut scene = Scene::default();
        let solid = ConvexSolid::turned_box(&Frame::AXES, &local).unwrap();
        scene.solid(tone, &solid, |_, _| 256);
        scene
    }

    /// From the south, level, 10 m from the origin; 200 pixels span 2 x 17 degrees.
    fn camera() -> Camera {
        Camera {
            target: DVec3::ZERO,
            from_degrees: 180.0,
            tilt_degrees: 0.0,
            distance_m: 10.0,
        }
    }

    fn picture(scenes: &[&Scene]) -> Image {
        draw(
            scenes,
            &camera(),
            &Inks::PAPER,
            (200, 100),
            Finish::Quick,
            1,
        )
    }

    #[test]
    fn a_cube_covers_the_pixels_that_it_should() {
        // Its south face is 1 m wide, 9.5 m away.
        let image = picture(&[&cube(Tone::Obstruction, [-0.5, -0.5, -0.5], 1.0)]);
        let half = 0.5 / 9.5 * 100.0 / tan(17_f64.to_radians());
        let row: Vec<bool> = (0..200)
            .map(|x| image.pixel(x, 50) != Some(Inks::PAPER.ground))
            .collect();
        let covered = |x: f64| (x + 0.5 - 100.0).abs() < half;
        for (x, is_covered) in row.iter().enumerate() {
            let x = f64::from(u16::try_from(x).unwrap());
            // The edge's own line may take the pixel beside it.
            if 1.0 < ((x + 0.5 - 100.0).abs() - half).abs() {
                assert_eq!(*is_covered, covered(x), "at {x}");
            }
        }
        assert_eq!(image.pixel(100, 5), Some(Inks::PAPER.ground));
        assert_eq!(image.pixel(300, 5), None);
    }

    #[test]
    fn what_is_nearer_is_seen_in_whatever_order_it_comes() {
        let near = cube(Tone::Burner, [-0.5, -3.0, -0.5], 1.0);
        let far = cube(Tone::Tube, [-1.0, 1.0, -1.0], 2.0);
        let (one, other) = (picture(&[&near, &far]), picture(&[&far, &near]));
        assert_eq!(one, other);
        let alone = picture(&[&near]);
        assert_eq!(one.pixel(100, 50), alone.pixel(100, 50));
        // Beside the near one, 23 pixels from the middle, the far one is seen up to 29.
        assert_eq!(one.pixel(126, 50), picture(&[&far]).pixel(126, 50));
        assert!(one.hides(100, 50, 11.0) && !one.hides(100, 50, 7.2));
    }

    #[test]
    fn what_is_behind_or_beside_the_camera_does_no_harm() {
        for low in [[0.0, -30.0, 0.0], [-1.0, -11.0, -1.0], [400.0, 0.0, 0.0]] {
            let image = picture(&[&cube(Tone::Envelope, low, 2.0)]);
            assert_eq!(image.rgb.len(), 200 * 100 * 3);
        }
    }

    #[test]
    fn one_looks_through_an_envelope() {
        let envelope = cube(Tone::Envelope, [-1.0, -3.0, -1.0], 2.0);
        let burner = cube(Tone::Burner, [-0.3, -0.3, -0.3], 0.6);
        let both = picture(&[&envelope, &burner]).pixel(100, 50);
        assert_ne!(both, picture(&[&burner]).pixel(100, 50));
        assert_ne!(both, picture(&[&envelope]).pixel(100, 50));
    }
}
