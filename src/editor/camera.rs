//! Where on the screen a plan point is. The only place of the window that flips y:
//! up in the site, down on the screen.

use crate::geometry::DVec2;
use eframe::egui::{Pos2, Rect, Vec2, pos2};

/// The view of the plan: which site point is in the middle, and how large a metre is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camera {
    centre: DVec2,
    /// Screen points per metre.
    scale: f64,
    /// Where the canvas is on the screen.
    rect: Rect,
    /// What is to be in view, whatever becomes of the canvas's size, until the user
    /// looks elsewhere.
    wanted: Option<(DVec2, DVec2)>,
}

/// Least and greatest scale, screen points per metre: from a site of several
/// kilometres to a single hanger filling the canvas.
const SCALES: (f64, f64) = (0.1, 2_000.0);

/// Part of the canvas that a fitted site may take; the rest is for bubbles and labels.
const FIT: f64 = 0.82;

impl Default for Camera {
    fn default() -> Self {
        Self {
            centre: DVec2::ZERO,
            scale: 12.0,
            rect: Rect::from_min_size(Pos2::ZERO, Vec2::new(640.0, 480.0)),
            wanted: None,
        }
    }
}

impl Camera {
    /// Screen points per metre.
    pub fn scale(&self) -> f64 {
        self.scale
    }

    /// The canvas on the screen.
    pub fn rect(&self) -> Rect {
        self.rect
    }

    /// The screen position of a site point.
    pub fn screen_from_site(&self, point: DVec2) -> Pos2 {
        let offset = (point - self.centre) * self.scale;
        let middle = self.rect.center();
        pos2(middle.x + narrow(offset.x), middle.y - narrow(offset.y))
    }

    /// The site point at a screen position.
    pub fn site_from_screen(&self, at: Pos2) -> DVec2 {
        let offset = at - self.rect.center();
        self.centre + DVec2::new(f64::from(offset.x), -f64::from(offset.y)) / self.scale
    }

    /// A screen vector for a site vector.
    pub fn screen_vector(&self, vector: DVec2) -> Vec2 {
        Vec2::new(
            narrow(vector.x * self.scale),
            narrow(-vector.y * self.scale),
        )
    }

    /// A length on the screen, in screen points.
    pub fn screen_length(&self, length_m: f64) -> f32 {
        narrow(length_m * self.scale)
    }

    /// A length of the site, m, for screen points.
    pub fn site_length(&self, points: f32) -> f64 {
        f64::from(points) / self.scale
    }

    /// The south-west and north-east corners of what is in view.
    pub fn in_view(&self) -> (DVec2, DVec2) {
        let a = self.site_from_screen(self.rect.left_bottom());
        let b = self.site_from_screen(self.rect.right_top());
        (a.min(b), a.max(b))
    }

    /// Tells the camera where the canvas is.
    pub(crate) fn set_rect(&mut self, rect: Rect) {
        self.rect = rect;
        if let Some((least, greatest)) = self.wanted {
            self.fit_now(least, greatest);
        }
    }

    /// Moves the plan under the pointer by screen points.
    pub(crate) fn pan(&mut self, by: Vec2) {
        if by != Vec2::ZERO {
            self.wanted = None;
        }
        self.centre -= DVec2::new(f64::from(by.x), -f64::from(by.y)) / self.scale;
    }

    /// Enlarges by a factor, keeping the site point under `at` where it is.
    pub(crate) fn zoom(&mut self, factor: f64, at: Pos2) {
        self.wanted = None;
        let fixed = self.site_from_screen(at);
        self.scale = (self.scale * factor).clamp(SCALES.0, SCALES.1);
        self.centre += fixed - self.site_from_screen(at);
    }

    /// Enlarges by a factor about the middle of the canvas.
    pub(crate) fn zoom_middle(&mut self, factor: f64) {
        self.zoom(factor, self.rect.center());
    }

    /// Brings a stretch of the plan into view from the next layout on.
    pub(crate) fn fit(&mut self, least: DVec2, greatest: DVec2) {
        self.wanted = Some((least, greatest));
    }

    /// Brings a point into view at a scale at which a single heater can be read; stays
    /// where it is when the point is already well in view.
    pub(crate) fn go_to(&mut self, point: DVec2) {
        /// Screen points per metre at which a hanger's label has room.
        const READABLE: f64 = 36.0;
        self.wanted = None;
        if self.scale < READABLE / 2.0 {
            self.scale = READABLE;
        }
        if !self
            .rect
            .shrink(80.0)
            .contains(self.screen_from_site(point))
        {
            self.centre = point;
        }
    }

    fn fit_now(&mut self, least: DVec2, greatest: DVec2) {
        let size = (greatest - least).max(DVec2::splat(1.0));
        let room = DVec2::new(f64::from(self.rect.width()), f64::from(self.rect.height()));
        self.centre = (least + greatest) / 2.0;
        self.scale = (room * FIT / size).min_element().clamp(SCALES.0, SCALES.1);
    }
}

/// The view of the run profile: stations to the right, elevations up, one scale for both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SideCamera {
    /// Station and elevation in the middle, m.
    middle: DVec2,
    /// Screen points per metre.
    scale: f64,
    rect: Rect,
}

impl SideCamera {
    /// A view of stations and elevations from `least` to `greatest`, true to scale.
    pub(crate) fn fitting(least: DVec2, greatest: DVec2, rect: Rect) -> Self {
        let size = (greatest - least).max(DVec2::splat(0.1));
        let room = DVec2::new(f64::from(rect.width()), f64::from(rect.height()));
        Self {
            middle: (least + greatest) / 2.0,
            scale: (room / size).min_element().clamp(SCALES.0, SCALES.1),
            rect,
        }
    }

    /// The screen position of a station and an elevation.
    pub(crate) fn screen_from_side(&self, station_m: f64, z_m: f64) -> Pos2 {
        let offset = (DVec2::new(station_m, z_m) - self.middle) * self.scale;
        let middle = self.rect.center();
        pos2(middle.x + narrow(offset.x), middle.y - narrow(offset.y))
    }

    /// The station at a place across the screen, m.
    pub(crate) fn station_from_screen(&self, x: f32) -> f64 {
        self.middle.x + f64::from(x - self.rect.center().x) / self.scale
    }

    /// A length from the side, m, for screen points.
    pub(crate) fn site_length(&self, points: f32) -> f64 {
        f64::from(points) / self.scale
    }

    /// The station and elevation at a screen position.
    pub(crate) fn side_from_screen(&self, at: Pos2) -> DVec2 {
        self.middle + self.side_vector(at - self.rect.center())
    }

    /// Screen points per metre.
    pub(crate) fn scale(&self) -> f64 {
        self.scale
    }

    /// Moves what is seen under the pointer by screen points.
    pub(crate) fn pan(&mut self, by: Vec2) {
        self.middle -= self.side_vector(by);
    }

    /// The same view with a station and elevation in its middle, at least so large.
    pub(crate) fn looking_at(self, place: DVec2, least_scale: f64) -> Self {
        Self {
            middle: place,
            scale: self.scale.max(least_scale).clamp(SCALES.0, SCALES.1),
            ..self
        }
    }

    /// Enlarges by a factor, keeping what is under `at` where it is.
    pub(crate) fn zoom(&mut self, factor: f64, at: Pos2) {
        let fixed = self.side_from_screen(at);
        self.scale = (self.scale * factor).clamp(SCALES.0, SCALES.1);
        self.middle += fixed - self.side_from_screen(at);
    }

    /// The same drawing as the view of a larger part of the screen, of which `part` was one.
    pub(crate) fn centred_on(self, rect: Rect, part: Rect) -> Self {
        let by = self.side_vector(rect.center() - part.center());
        Self {
            middle: self.middle + by,
            rect,
            ..self
        }
    }

    /// The same view on another part of the screen.
    pub(crate) fn on(self, rect: Rect) -> Self {
        Self { rect, ..self }
    }

    /// The station and elevation that a screen vector amounts to.
    pub(crate) fn side_vector(&self, by: Vec2) -> DVec2 {
        DVec2::new(f64::from(by.x), -f64::from(by.y)) / self.scale
    }

    /// A length on the screen, in screen points.
    pub(crate) fn screen_length(&self, length_m: f64) -> f32 {
        narrow(length_m * self.scale)
    }

    /// Where it is on the screen.
    pub(crate) fn rect(&self) -> Rect {
        self.rect
    }

    /// The stations at its left and right edge, m.
    pub(crate) fn stations(&self) -> (f64, f64) {
        let half = f64::from(self.rect.width()) / 2.0 / self.scale;
        (self.middle.x - half, self.middle.x + half)
    }
}

/// Screen positions are single precision; what is far off the screen may lose digits.
#[expect(
    clippy::cast_possible_truncation,
    reason = "screen positions are single precision"
)]
pub(crate) fn narrow(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn camera() -> Camera {
        let mut camera = Camera::default();
        camera.set_rect(Rect::from_min_size(
            pos2(300.0, 40.0),
            Vec2::new(800.0, 600.0),
        ));
        camera
    }

    #[test]
    fn screen_and_site_are_each_others_inverse_and_y_points_up() {
        let camera = camera();
        let point = DVec2::new(12.25, -3.5);
        assert!((camera.site_from_screen(camera.screen_from_site(point)) - point).length() < 1e-4);
        let north = camera.screen_from_site(point + DVec2::Y);
        assert!(north.y < camera.screen_from_site(point).y);
    }

    #[test]
    fn zooming_keeps_the_point_under_the_pointer() {
        let mut camera = camera();
        let at = pos2(410.0, 510.0);
        let before = camera.site_from_screen(at);
        camera.zoom(3.7, at);
        assert!((camera.site_from_screen(at) - before).length() < 1e-9);
    }

    #[test]
    fn what_was_fitted_stays_in_view_when_the_canvas_changes_its_size() {
        let mut camera = camera();
        let greatest = DVec2::new(72.0, 36.0);
        camera.fit(DVec2::ZERO, greatest);
        for width in [800.0, 300.0, 1200.0] {
            camera.set_rect(Rect::from_min_size(Pos2::ZERO, Vec2::new(width, 500.0)));
            let (from, to) = camera.in_view();
            assert!(from.cmple(DVec2::ZERO).all() && to.cmpge(greatest).all());
        }
        camera.pan(Vec2::new(40.0, 0.0));
        let before = camera.scale();
        camera.set_rect(Rect::from_min_size(Pos2::ZERO, Vec2::new(300.0, 500.0)));
        assert_eq!(camera.scale(), before);
    }

    #[test]
    fn fitting_shows_all_of_it_whatever_its_shape() {
        for (least, greatest) in [
            (DVec2::ZERO, DVec2::new(72.0, 36.0)),
            (DVec2::new(1e6, 1e6), DVec2::new(1e6 + 3.0, 1e6 + 400.0)),
            (DVec2::ZERO, DVec2::ZERO),
        ] {
            let mut camera = Camera::default();
            camera.fit(least, greatest);
            camera.set_rect(Rect::from_min_size(
                pos2(300.0, 40.0),
                Vec2::new(800.0, 600.0),
            ));
            let (from, to) = camera.in_view();
            assert!(from.cmple(least).all() && to.cmpge(greatest).all());
        }
    }
}
