//! Pixels with depths: flat faces and lines drawn into one band of a picture.
//!
//! A depth is kept as its inverse, which is linear over a flat face in perspective;
//! greater is nearer, 0 is nothing.

/// Rows of a picture that are drawn by one thread.
pub(super) struct Band<'a> {
    /// Width of the picture, pixels.
    pub(super) width: usize,
    /// The first row.
    pub(super) top: usize,
    /// Red, green, blue, from the highest byte but one down.
    pub(super) colours: &'a mut [u32],
    pub(super) nearness: &'a mut [f32],
}

/// A convex face on the picture.
#[derive(Debug, Clone, Copy)]
pub(super) struct Patch {
    /// Its corners: from and until, in the list of corners.
    pub(super) corners: [u32; 2],
    /// Inverse depth at pixel (x, y): `gradient . (x, y) + base`.
    pub(super) gradient: [f64; 2],
    pub(super) base: f64,
    pub(super) colour: u32,
    /// How much it covers, 0 to 255; 255 hides what is behind it.
    pub(super) cover: u8,
    /// Least and greatest y.
    pub(super) rows: [f32; 2],
}

/// A line on the picture.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stroke {
    /// Its ends: x, y, inverse depth.
    pub(super) from: [f64; 3],
    pub(super) to: [f64; 3],
    /// Its width, whole pixels, at least 1.
    pub(super) width: u16,
    pub(super) colour: u32,
    /// How much it covers, 0 to 255; 255 hides what is behind it.
    pub(super) cover: u8,
}

/// Lines win over what is at the same depth but for rounding: by this part of it.
const LINE_WINS: f32 = 1.000_3;

pub(super) const fn packed([r, g, b]: [u8; 3]) -> u32 {
    u32::from_be_bytes([0, r, g, b])
}

/// A colour over another one: `cover` in 256ths, 0 to 256.
const fn blended(under: u32, over: u32, cover: u32) -> u32 {
    let rest = 256 - cover;
    // Red and blue share a word, with room for the carry of each.
    let red_blue = ((under & 0x00FF_00FF) * rest + (over & 0x00FF_00FF) * cover) >> 8;
    let green = ((under & 0x0000_FF00) * rest + (over & 0x0000_FF00) * cover) >> 8;
    (red_blue & 0x00FF_00FF) | (green & 0x0000_FF00)
}

/// The first pixel whose middle lies at or beyond a coordinate.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the picture; `as` saturates"
)]
fn first_pixel(at: f64, end: usize) -> usize {
    ((at - 0.5).ceil().max(0.0) as usize).min(end)
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a picture has far fewer rows and columns than 2^52"
)]
const fn middle(pixel: usize) -> f64 {
    pixel as f64 + 0.5
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a picture has far fewer rows than 2^52"
)]
const fn edge(row: usize) -> f64 {
    row as f64
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "depths of pixels are single precision"
)]
const fn single(value: f64) -> f32 {
    value as f32
}

impl Band<'_> {
    fn n_rows(&self) -> usize {
        self.colours.len().checked_div(self.width).unwrap_or(0)
    }

    /// Draws a face where nothing nearer is. A pixel belongs to it if its middle does;
    /// of two faces that share an edge just one takes it.
    pub(super) fn patch(&mut self, patch: &Patch, corners: &[[f32; 2]]) {
        let end = self.top + self.n_rows();
        let from = first_pixel(f64::from(patch.rows[0]), end).max(self.top);
        let until = first_pixel(f64::from(patch.rows[1]), end);
        let ring = &corners[patch.corners[0] as usize..patch.corners[1] as usize];
        for row in from..until {
            let Some((left, right)) = span(ring, middle(row)) else {
                continue;
            };
            let first = first_pixel(left, self.width);
            let last = first_pixel(right, self.width);
            if first < last {
                self.run(patch, row, first, last);
            }
        }
    }

    /// One row of a face.
    fn run(&mut self, patch: &Patch, row: usize, first: usize, last: usize) {
        let begin = patch.gradient[0] * middle(first) + patch.gradient[1] * middle(row);
        let begin = single(begin + patch.base);
        let step = single(patch.gradient[0]);
        let place = (row - self.top) * self.width;
        let nearness = &mut self.nearness[place + first..place + last];
        let colours = &mut self.colours[place + first..place + last];
        // Counted in whole numbers: a running sum would keep the pixels from being done
        // several at a time.
        let steps = 0_u16..;
        if patch.cover == u8::MAX {
            for ((known, pixel), at) in nearness.iter_mut().zip(colours).zip(steps) {
                let near = begin + step * f32::from(at);
                let wins = *known < near;
                *known = if wins { near } else { *known };
                *pixel = if wins { patch.colour } else { *pixel };
            }
        } else {
            let cover = u32::from(patch.cover);
            for ((known, pixel), at) in nearness.iter().zip(colours).zip(steps) {
                let near = begin + step * f32::from(at);
                let mixed = blended(*pixel, patch.colour, cover);
                *pixel = if *known < near { mixed } else { *pixel };
            }
        }
    }

    /// Draws a line where nothing nearer is.
    pub(super) fn stroke(&mut self, stroke: &Stroke) {
        let [dx, dy] = [stroke.to[0] - stroke.from[0], stroke.to[1] - stroke.from[1]];
        let is_flat = dy.abs() <= dx.abs();
        let major = usize::from(!is_flat);
        let (a, b) = if stroke.from[major] <= stroke.to[major] {
            (stroke.from, stroke.to)
        } else {
            (stroke.to, stroke.from)
        };
        let length = b[major] - a[major];
        if length <= 0.0 {
            return;
        }
        let minor = 1 - major;
        let slope = (b[minor] - a[minor]) / length;
        let fall = (b[2] - a[2]) / length;
        let (top, bottom) = (self.top, self.top + self.n_rows());
        let [over, under] = [
            stroke.from[1].min(stroke.to[1]),
            stroke.from[1].max(stroke.to[1]),
        ];
        let reach = f64::from(stroke.width) + 1.0;
        if under + reach < edge(top) || edge(bottom) < over - reach {
            return;
        }
        let back = (f64::from(stroke.width) - 1.0) / 2.0;
        let (low, high) = if is_flat {
            (0, self.width)
        } else {
            (top, bottom)
        };
        let (mut begin, mut end) = (a[major], b[major]);
        if is_flat && 1e-6 < slope.abs() {
            // Only the stretch that crosses these rows.
            let at = |y: f64| a[0] + (y - a[1]) / slope;
            let (one, other) = (at(edge(top) - reach), at(edge(bottom) + reach));
            begin = begin.max(one.min(other));
            end = end.min(one.max(other));
        }
        let first = first_pixel(begin, high).max(low);
        let last = first_pixel(end, high);
        for step in first..last {
            let along = middle(step) - a[major];
            let across = a[minor] + slope * along - back;
            let near = single(a[2] + fall * along);
            for k in 0..stroke.width {
                let at = across + f64::from(k);
                if at < 0.0 {
                    continue;
                }
                let at = first_pixel(at.floor() + 0.5, usize::MAX);
                let (x, y) = if is_flat { (step, at) } else { (at, step) };
                if x < self.width && top <= y && y < bottom {
                    self.dot(stroke, x, y, near);
                }
            }
        }
    }

    fn dot(&mut self, stroke: &Stroke, x: usize, y: usize, near: f32) {
        let place = (y - self.top) * self.width + x;
        if near * LINE_WINS < self.nearness[place] {
            return;
        }
        if stroke.cover == u8::MAX {
            self.colours[place] = stroke.colour;
            self.nearness[place] = self.nearness[place].max(near);
        } else {
            let cover = u32::from(stroke.cover);
            self.colours[place] = blended(self.colours[place], stroke.colour, cover);
        }
    }
}

/// Where a row's middle line enters and leaves a convex ring.
fn span(ring: &[[f32; 2]], y: f64) -> Option<(f64, f64)> {
    let (mut left, mut right) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut before = *ring.last()?;
    for &corner in ring {
        let (y0, y1) = (f64::from(before[1]), f64::from(corner[1]));
        if (y0 <= y) != (y1 <= y) {
            let part = (y - y0) / (y1 - y0);
            let x = f64::from(before[0]) + part * (f64::from(corner[0]) - f64::from(before[0]));
            left = left.min(x);
            right = right.max(x);
        }
        before = corner;
    }
    (left < right).then_some((left, right))
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Picture {
        colours: Vec<u32>,
        nearness: Vec<f32>,
    }

    impl Picture {
        fn new() -> Self {
            Self {
                colours: vec![0; 80],
                nearness: vec![0.0; 80],
            }
        }

        fn band(&mut self) -> Band<'_> {
            Band {
                width: 10,
                top: 0,
                colours: &mut self.colours,
                nearness: &mut self.nearness,
            }
        }

        fn count(&self, colour: u32) -> usize {
            self.colours.iter().filter(|it| **it == colour).count()
        }
    }

    fn level(corners: u32, near: f64, colour: u32, cover: u8) -> Patch {
        Patch {
            corners: [0, corners],
            gradient: [0.0, 0.0],
            base: near,
            colour,
            cover,
            rows: [0.0, 8.0],
        }
    }

    #[test]
    fn a_face_covers_the_pixels_whose_middles_it_holds() {
        let mut picture = Picture::new();
        let square = [[2.0, 1.0], [7.0, 1.0], [7.0, 4.0], [2.0, 4.0]];
        picture.band().patch(&level(4, 0.5, 9, 255), &square);
        assert_eq!(picture.count(9), 15);
        assert_eq!(picture.colours[12], 9);
        // Two triangles of a square leave no gap and take no pixel twice.
        let mut picture = Picture::new();
        let halves = [
            [[0.0, 0.0], [8.0, 0.0], [8.0, 8.0]],
            [[0.0, 0.0], [8.0, 8.0], [0.0, 8.0]],
        ];
        for half in &halves {
            picture.band().patch(&level(3, 0.5, 0x80, 128), half);
        }
        assert_eq!(picture.count(0x40), 64);
    }

    #[test]
    fn the_nearer_face_is_seen_whichever_comes_first() {
        let square = [[0.0, 0.0], [10.0, 0.0], [10.0, 8.0], [0.0, 8.0]];
        for order in [[(0.5, 1), (0.25, 2)], [(0.25, 2), (0.5, 1)]] {
            let mut picture = Picture::new();
            for (near, colour) in order {
                picture.band().patch(&level(4, near, colour, 255), &square);
            }
            assert_eq!(picture.count(1), 80);
        }
    }

    #[test]
    fn a_line_is_hidden_by_what_is_nearer_and_lies_on_its_own_face() {
        let square = [[0.0, 0.0], [5.0, 0.0], [5.0, 8.0], [0.0, 8.0]];
        let line = |near: f64| Stroke {
            from: [0.0, 4.5, near],
            to: [10.0, 4.5, near],
            width: 1,
            colour: 7,
            cover: 255,
        };
        let mut picture = Picture::new();
        picture.band().patch(&level(4, 0.5, 1, 255), &square);
        picture.band().stroke(&line(0.4));
        assert_eq!(picture.count(7), 5);
        picture.band().stroke(&line(0.5));
        assert_eq!(picture.count(7), 10);
    }

    #[test]
    fn blending_keeps_channels_apart() {
        assert_eq!(blended(0x00FF_FFFF, 0, 128), 0x007F_7F7F);
        assert_eq!(blended(0x00FF_0000, 0x0000_00FF, 256), 0x0000_00FF);
        assert_eq!(blended(0x0012_3456, 0x00FF_FFFF, 0), 0x0012_3456);
    }
}
