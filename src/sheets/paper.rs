//! Paper: sheet sizes, frames, scales, and the way from the site to the paper.
//!
//! Paper space is in millimetres from the sheet's top left corner, x to the right,
//! y **down**. This is the only place of the sheets where y is flipped.

use crate::geometry::{DVec2, math};
use crate::sheets::scale::Scale;

/// A point on paper: millimetres from the sheet's top left corner, y down.
pub type PaperPoint = DVec2;

/// A named sheet size. A sizes are those of ISO 5457 (trimmed), ANSI sizes those of
/// ASME Y14.1, ARCH sizes those customary for buildings in feet and inches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the names are the sizes' own")]
pub enum Format {
    A4,
    A3,
    A2,
    A1,
    A0,
    AnsiA,
    AnsiB,
    AnsiC,
    AnsiD,
    AnsiE,
    ArchD,
    ArchE,
    /// Cut to what is on it: a picture. Shorter and longer side in micrometres.
    Cut {
        short_um: u32,
        long_um: u32,
    },
}

impl Format {
    /// All sizes that have a name.
    pub const ALL: [Self; 12] = [
        Self::A4,
        Self::A3,
        Self::A2,
        Self::A1,
        Self::A0,
        Self::AnsiA,
        Self::AnsiB,
        Self::AnsiC,
        Self::AnsiD,
        Self::AnsiE,
        Self::ArchD,
        Self::ArchE,
    ];

    /// The size's name as drawings print it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::A2 => "A2",
            Self::A1 => "A1",
            Self::A0 => "A0",
            Self::AnsiA => "ANSI A",
            Self::AnsiB => "ANSI B",
            Self::AnsiC => "ANSI C",
            Self::AnsiD => "ANSI D",
            Self::AnsiE => "ANSI E",
            Self::ArchD => "ARCH D",
            Self::ArchE => "ARCH E",
            Self::Cut { .. } => "cut",
        }
    }

    /// Shorter and longer side in millimetres.
    #[must_use]
    pub const fn sides_mm(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
            Self::A2 => (420.0, 594.0),
            Self::A1 => (594.0, 841.0),
            Self::A0 => (841.0, 1189.0),
            Self::AnsiA => (8.5 * 25.4, 11.0 * 25.4),
            Self::AnsiB => (11.0 * 25.4, 17.0 * 25.4),
            Self::AnsiC => (17.0 * 25.4, 22.0 * 25.4),
            Self::AnsiD => (22.0 * 25.4, 34.0 * 25.4),
            Self::AnsiE => (34.0 * 25.4, 44.0 * 25.4),
            Self::ArchD => (24.0 * 25.4, 36.0 * 25.4),
            Self::ArchE => (36.0 * 25.4, 48.0 * 25.4),
            Self::Cut { short_um, long_um } => (short_um as f64 / 1000.0, long_um as f64 / 1000.0),
        }
    }
}

/// Which side of a sheet is at the top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Orientation {
    /// The longer side lies across.
    Landscape,
    /// The longer side stands.
    Portrait,
}

/// A sheet's size and orientation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SheetSize {
    /// Which size.
    pub format: Format,
    /// Which way round.
    pub orientation: Orientation,
}

/// Margin at the left edge, where sheets are bound, mm (ISO 5457, 5.1).
const BINDING_MARGIN_MM: f64 = 20.0;
/// Margin at the other edges, mm (ISO 5457, 5.1).
const MARGIN_MM: f64 = 10.0;

impl SheetSize {
    /// A size with its longer side across.
    #[must_use]
    pub const fn landscape(format: Format) -> Self {
        Self {
            format,
            orientation: Orientation::Landscape,
        }
    }

    /// A size standing upright.
    #[must_use]
    pub const fn portrait(format: Format) -> Self {
        Self {
            format,
            orientation: Orientation::Portrait,
        }
    }

    /// A page cut to so many millimetres, whichever way round; at least one and at most
    /// four thousand.
    #[must_use]
    pub fn cut(width_mm: f64, height_mm: f64) -> Self {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "clamped to a few million"
        )]
        let um = |mm: f64| (mm.clamp(1.0, 4_000.0) * 1000.0).round() as u32;
        let (width_um, height_um) = (um(width_mm), um(height_mm));
        let format = Format::Cut {
            short_um: width_um.min(height_um),
            long_um: width_um.max(height_um),
        };
        if height_um <= width_um {
            Self::landscape(format)
        } else {
            Self::portrait(format)
        }
    }

    /// Width of the sheet, mm.
    #[must_use]
    pub const fn width_mm(self) -> f64 {
        let (short, long) = self.format.sides_mm();
        match self.orientation {
            Orientation::Landscape => long,
            Orientation::Portrait => short,
        }
    }

    /// Height of the sheet, mm.
    #[must_use]
    pub const fn height_mm(self) -> f64 {
        let (short, long) = self.format.sides_mm();
        match self.orientation {
            Orientation::Landscape => short,
            Orientation::Portrait => long,
        }
    }

    /// The whole sheet.
    #[must_use]
    pub const fn bounds(self) -> PaperRect {
        PaperRect {
            left: 0.0,
            top: 0.0,
            right: self.width_mm(),
            bottom: self.height_mm(),
        }
    }

    /// The frame that limits the drawing: 20 mm from the left edge, where sheets are
    /// bound, and 10 mm from the others.
    #[must_use]
    pub const fn frame(self) -> PaperRect {
        PaperRect {
            left: BINDING_MARGIN_MM,
            top: MARGIN_MM,
            right: self.width_mm() - MARGIN_MM,
            bottom: self.height_mm() - MARGIN_MM,
        }
    }

    /// The point counted upwards from the sheet's bottom left corner, as files with y
    /// up want it. Its own inverse.
    #[must_use]
    pub fn counted_up(self, paper: PaperPoint) -> DVec2 {
        DVec2::new(paper.x, self.height_mm() - paper.y)
    }
}

/// An upright rectangle on paper, mm, y down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PaperRect {
    /// Least x.
    pub left: f64,
    /// Least y.
    pub top: f64,
    /// Greatest x.
    pub right: f64,
    /// Greatest y.
    pub bottom: f64,
}

impl PaperRect {
    /// From the top left corner, a width and a height, mm.
    #[must_use]
    pub fn at(corner: PaperPoint, width_mm: f64, height_mm: f64) -> Self {
        Self {
            left: corner.x,
            top: corner.y,
            right: corner.x + width_mm,
            bottom: corner.y + height_mm,
        }
    }

    /// Width, mm.
    #[must_use]
    pub const fn width_mm(self) -> f64 {
        self.right - self.left
    }

    /// Height, mm.
    #[must_use]
    pub const fn height_mm(self) -> f64 {
        self.bottom - self.top
    }

    /// The middle.
    #[must_use]
    pub fn centre(self) -> PaperPoint {
        PaperPoint::new(
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.top, self.bottom),
        )
    }

    /// The corners: top left, top right, bottom right, bottom left.
    #[must_use]
    pub fn corners(self) -> [PaperPoint; 4] {
        [
            PaperPoint::new(self.left, self.top),
            PaperPoint::new(self.right, self.top),
            PaperPoint::new(self.right, self.bottom),
            PaperPoint::new(self.left, self.bottom),
        ]
    }

    /// Smaller by `margin_mm` on every side; larger where it is negative.
    #[must_use]
    pub fn inset(self, margin_mm: f64) -> Self {
        Self {
            left: self.left + margin_mm,
            top: self.top + margin_mm,
            right: self.right - margin_mm,
            bottom: self.bottom - margin_mm,
        }
    }

    /// Whether the point is inside or on the edge.
    #[must_use]
    pub fn contains(self, point: PaperPoint) -> bool {
        self.left <= point.x
            && point.x <= self.right
            && self.top <= point.y
            && point.y <= self.bottom
    }
}

/// What a viewport looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum View {
    /// The site from above; x east, y north.
    Plan,
    /// A section, a profile, or a second look at a part of the plan. Files that hold the
    /// site at full size place it beside the plan.
    Detached,
}

/// A window of a sheet through which the site is seen to scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Viewport {
    /// What is seen, in a word or two: `plan`, `section A-A`.
    pub name: String,
    /// Plan or another view.
    pub view: View,
    /// Where on the sheet; what goes beyond is cut off.
    pub window: PaperRect,
    /// To which scale.
    pub scale: Scale,
    /// The point of the site that lies at `paper_anchor`, m.
    pub site_anchor: DVec2,
    /// The point of the paper on which `site_anchor` lies.
    pub paper_anchor: PaperPoint,
    /// How far the site is turned on the paper, degrees anticlockwise as seen; 0 has
    /// plan north up.
    pub turn_degrees: f64,
}

impl Viewport {
    /// A view with north up, with `site_anchor` in the middle of the window.
    #[must_use]
    pub fn centred(
        name: &str,
        view: View,
        window: PaperRect,
        scale: Scale,
        site_anchor: DVec2,
    ) -> Self {
        Self {
            name: name.to_owned(),
            view,
            window,
            scale,
            site_anchor,
            paper_anchor: window.centre(),
            turn_degrees: 0.0,
        }
    }

    /// Where a point of the site (m) lies on the paper.
    #[must_use]
    pub fn paper_from_site(&self, site: DVec2) -> PaperPoint {
        let (sin, cos) = math::sin_cos_degrees(self.turn_degrees);
        let from_anchor = (site - self.site_anchor) * self.scale.mm_per_metre();
        let turned = DVec2::new(cos, sin).rotate(from_anchor);
        self.paper_anchor + DVec2::new(turned.x, -turned.y)
    }

    /// Which point of the site (m) lies at a point of the paper. Inverse of
    /// [`Self::paper_from_site`].
    #[must_use]
    pub fn site_from_paper(&self, paper: PaperPoint) -> DVec2 {
        let (sin, cos) = math::sin_cos_degrees(-self.turn_degrees);
        let from_anchor = paper - self.paper_anchor;
        let turned = DVec2::new(cos, sin).rotate(DVec2::new(from_anchor.x, -from_anchor.y));
        self.site_anchor + turned / self.scale.mm_per_metre()
    }

    /// How far something is turned on the paper, degrees anticlockwise as seen, of its
    /// turn on the site, degrees anticlockwise from east.
    #[must_use]
    pub fn paper_turn_degrees(&self, site_turn_degrees: f64) -> f64 {
        site_turn_degrees + self.turn_degrees
    }
}

/// Unit vectors on paper along and up a line turned by degrees anticlockwise as seen.
pub(super) fn directions(turn_degrees: f64) -> (DVec2, DVec2) {
    let (sin, cos) = math::sin_cos_degrees(turn_degrees);
    (DVec2::new(cos, -sin), DVec2::new(-sin, -cos))
}

/// A point turned about the paper's origin by degrees anticlockwise as seen.
pub(super) fn turned(point: PaperPoint, turn_degrees: f64) -> PaperPoint {
    let (along, up) = directions(turn_degrees);
    along * point.x - up * point.y
}

#[cfg(test)]
mod tests {
    use super::*;

    fn viewport(turn_degrees: f64) -> Viewport {
        let window = PaperRect::at(PaperPoint::new(30.0, 20.0), 360.0, 200.0);
        let scale = Scale { denominator: 200.0 };
        let mut viewport =
            Viewport::centred("plan", View::Plan, window, scale, DVec2::new(36.0, 18.0));
        viewport.turn_degrees = turn_degrees;
        viewport
    }

    #[test]
    fn north_is_up_and_east_is_right() {
        let plan = viewport(0.0);
        assert_eq!(
            plan.paper_from_site(DVec2::new(36.0, 18.0)),
            plan.window.centre()
        );
        assert_eq!(
            plan.paper_from_site(DVec2::new(37.0, 18.0)) - plan.window.centre(),
            DVec2::new(5.0, 0.0)
        );
        assert_eq!(
            plan.paper_from_site(DVec2::new(36.0, 19.0)) - plan.window.centre(),
            DVec2::new(0.0, -5.0)
        );
    }

    #[test]
    fn a_quarter_turn_puts_east_up() {
        let plan = viewport(90.0);
        assert_eq!(
            plan.paper_from_site(DVec2::new(37.0, 18.0)) - plan.window.centre(),
            DVec2::new(0.0, -5.0)
        );
    }

    #[test]
    fn paper_and_site_are_inverse() {
        for turn_degrees in [0.0, 33.0, 90.0, 217.5] {
            let plan = viewport(turn_degrees);
            for site in [
                DVec2::ZERO,
                DVec2::new(72.0, 36.0),
                DVec2::new(-10_000.0, 9_999.5),
            ] {
                let back = plan.site_from_paper(plan.paper_from_site(site));
                assert!(
                    back.distance(site) < 1e-10,
                    "{site} came back as {back} at {turn_degrees}"
                );
            }
        }
    }

    #[test]
    fn lengths_are_to_scale() {
        let plan = viewport(33.0);
        let length = plan
            .paper_from_site(DVec2::new(72.0, 0.0))
            .distance(plan.paper_from_site(DVec2::ZERO));
        assert!((length - 360.0).abs() < 1e-9);
    }

    #[test]
    fn frames_leave_room_for_binding() {
        let size = SheetSize::landscape(Format::A3);
        assert_eq!((size.width_mm(), size.height_mm()), (420.0, 297.0));
        let frame = size.frame();
        assert_eq!(
            (frame.left, frame.top, frame.right, frame.bottom),
            (20.0, 10.0, 410.0, 287.0)
        );
        for format in Format::ALL {
            let (short, long) = format.sides_mm();
            assert!(short < long, "{}", format.name());
        }
    }
}
