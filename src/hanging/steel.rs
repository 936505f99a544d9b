//! Member spans as something to hang from, and the channel laid across two of them.

use std::sync::Arc;

use super::candidate::Place;
use crate::geometry::{DVec2, tolerance};

/// What may be hung at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Capacity {
    /// Nobody has said. It excludes nothing, and is reported: an engineer decides.
    Unknown,
    /// The greatest allowed load, N.
    Known(f64),
}

impl Capacity {
    /// Whether a load passes; anything passes where nobody has said.
    #[must_use]
    pub fn allows(self, load_n: f64) -> bool {
        load_n <= self.greatest_n()
    }

    /// The greatest load that passes, N, tolerance counted; infinite where nobody has
    /// said.
    #[must_use]
    pub fn greatest_n(self) -> f64 {
        match self {
            Self::Unknown => f64::INFINITY,
            Self::Known(allowed_n) => allowed_n * (1.0 + tolerance::LIMIT),
        }
    }

    /// The lesser of two; unknown if either is.
    #[must_use]
    pub fn lesser(self, other: Self) -> Self {
        match (self, other) {
            (Self::Known(a), Self::Known(b)) => Self::Known(a.min(b)),
            _ => Self::Unknown,
        }
    }
}

/// Where along a span hangers may be attached.
#[derive(Debug, Clone, PartialEq)]
pub enum HangPoints {
    /// An open-web joist or a truss.
    Panels {
        /// Positions of the panel points along the span, m, ascending; the first is
        /// panel point number 1. Chord panel j lies between points j and j + 1.
        points_m: Vec<f64>,
        /// Allowed sum of the loads at any one panel point.
        allowed: Capacity,
        /// Allowed sum of the loads off panel points within any one chord panel;
        /// none if nothing may be hung there.
        off_panel: Option<Capacity>,
        /// Allowed sum of all loads on this span, wherever they hang; none if each
        /// panel point and chord panel is judged alone.
        in_all: Option<Capacity>,
    },
    /// A beam or a purlin: anywhere in its usable range.
    Anywhere {
        /// Allowed load of one attachment (a clamp, a clip).
        allowed: Capacity,
        /// Allowed sum of all attachments to this span (a purlin's share of the
        /// collateral allowance); none if each attachment is judged alone.
        in_all: Option<Capacity>,
    },
}

/// One member span, straight in plan, as something to hang from.
#[derive(Debug, Clone, PartialEq)]
pub struct SpanInSpace {
    /// The member's id, such as `J-20/AB`.
    pub id: Arc<str>,
    /// Which framing it belongs to. All spans of a framing are parallel.
    pub framing: usize,
    /// Its member's place in the framing, counted across the framing. Two spans are
    /// neighbours when they belong to one framing and their rows differ by one, so
    /// the caller decides whether a missing member parts its neighbours.
    pub row: usize,
    /// Plan position of the span's start: 0 on its own scale.
    pub start: DVec2,
    /// Unit vector in plan along the span.
    pub direction: DVec2,
    /// Where something may be attached, m from the start, both ends included.
    pub usable_m: (f64, f64),
    /// Attach elevation along the span: (m from the start, z in m), ascending,
    /// straight between the points, level beyond the outermost. At least one point.
    pub attach_m: Vec<(f64, f64)>,
    /// Where along it, and how much.
    pub hang_points: HangPoints,
}

impl SpanInSpace {
    /// Plan point at a position along the span.
    #[must_use]
    pub fn plan_at(&self, position_m: f64) -> DVec2 {
        self.start + self.direction * position_m
    }

    /// Position along the span whose plan point has `plan` abreast of it, m.
    #[must_use]
    pub fn position_abreast(&self, plan: DVec2) -> f64 {
        (plan - self.start).dot(self.direction)
    }

    /// Whether something may be attached at a position.
    #[must_use]
    pub fn usable_at(&self, position_m: f64) -> bool {
        self.usable_m.0 - tolerance::LIMIT <= position_m
            && position_m <= self.usable_m.1 + tolerance::LIMIT
    }

    /// What takes a load at a position: a panel point that is near enough, else the
    /// chord panel, or the line member as such.
    #[must_use]
    pub fn place_at(&self, position_m: f64) -> Place {
        let HangPoints::Panels { points_m, .. } = &self.hang_points else {
            return Place::Line;
        };
        let before = points_m.partition_point(|&point| point < position_m);
        let near = |which: usize| {
            points_m.get(which).is_some_and(|&point| {
                (point - position_m).abs() <= tolerance::ON_PANEL_POINT + tolerance::LIMIT
            })
        };
        if near(before) {
            Place::PanelPoint(before + 1)
        } else if before > 0 && near(before - 1) {
            Place::PanelPoint(before)
        } else {
            Place::ChordPanel(before)
        }
    }

    /// The greatest allowed sum of the loads at a place; none where only each
    /// attachment alone is limited. Off panel points of a span that takes nothing
    /// there, nothing.
    #[must_use]
    pub fn allowed_sum(&self, place: Place) -> Option<Capacity> {
        match (&self.hang_points, place) {
            (HangPoints::Panels { allowed, .. }, Place::PanelPoint(_)) => Some(*allowed),
            (HangPoints::Panels { off_panel, .. }, Place::ChordPanel(_)) => {
                Some(off_panel.unwrap_or(Capacity::Known(0.0)))
            }
            (HangPoints::Panels { .. } | HangPoints::Anywhere { .. }, _) => self.allowed_in_all(),
        }
    }

    /// The greatest allowed sum of everything that hangs from this span; none where
    /// only its places are limited.
    #[must_use]
    pub fn allowed_in_all(&self) -> Option<Capacity> {
        match &self.hang_points {
            HangPoints::Panels { in_all, .. } | HangPoints::Anywhere { in_all, .. } => *in_all,
        }
    }

    /// The places whose sums a load at a place counts in: that place and, where a
    /// joist or truss is limited in all too, the span as a whole.
    pub fn counted_at(&self, place: Place) -> impl Iterator<Item = Place> + use<> {
        let whole =
            (place != Place::Line && self.allowed_in_all().is_some()).then_some(Place::Line);
        std::iter::once(place).chain(whole)
    }

    /// The greatest allowed load of one attachment at a place, sums apart.
    #[must_use]
    pub fn allowed_single(&self, place: Place) -> Capacity {
        match &self.hang_points {
            HangPoints::Anywhere { allowed, .. } => *allowed,
            HangPoints::Panels { .. } => self.allowed_sum(place).unwrap_or(Capacity::Unknown),
        }
    }

    /// The greatest load that one hanger may bring to a place where nothing else
    /// hangs; unknown as soon as one of the limits is.
    #[must_use]
    pub fn allowed_alone(&self, place: Place) -> Capacity {
        self.counted_at(place)
            .filter_map(|counted| self.allowed_sum(counted))
            .fold(self.allowed_single(place), Capacity::lesser)
    }

    /// Attach elevation at a position along the span, m; 0 if the span has none.
    #[must_use]
    pub fn attach_at(&self, position_m: f64) -> f64 {
        // Two or three points as a rule: a look along them is quicker than a search.
        let after = self
            .attach_m
            .iter()
            .position(|&(known_m, _)| known_m >= position_m)
            .unwrap_or(self.attach_m.len());
        let before = after.checked_sub(1).and_then(|i| self.attach_m.get(i));
        match (before, self.attach_m.get(after)) {
            (Some(&(from_m, from_z)), Some(&(to_m, to_z))) => {
                from_z + (to_z - from_z) * ((position_m - from_m) / (to_m - from_m))
            }
            (Some(&(_, z)), None) | (None, Some(&(_, z))) => z,
            (None, None) => 0.0,
        }
    }
}

/// What one hanger of each kind costs, in whole thousandths of a hanger at a panel
/// point (policy; defaults 1000, 1000, 1500, 4000).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct KindCosts {
    /// At a panel point.
    pub panel: u32,
    /// Anywhere on a beam or a purlin.
    pub line: u32,
    /// Off panel points, within what is allowed there.
    pub off_panel: u32,
    /// From a cross channel.
    pub channel: u32,
}

impl Default for KindCosts {
    fn default() -> Self {
        Self {
            panel: 1_000,
            line: 1_000,
            off_panel: 1_500,
            channel: 4_000,
        }
    }
}

/// The channel that is laid across two members, simply supported on them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChannelStock {
    /// Its depth below the attach elevation of its members, m.
    pub depth_m: f64,
    /// Least distance from the hanger to each of its members, m.
    pub least_end_m: f64,
    /// Greatest distance between its members, m.
    pub greatest_span_m: f64,
    /// Greatest difference between the attach elevations of its ends, m.
    pub greatest_step_m: f64,
    /// Second moment of area, m4.
    pub second_moment_m4: f64,
    /// Section modulus, m3.
    pub section_modulus_m3: f64,
    /// Allowed bending stress, Pa.
    pub allowed_stress_pa: f64,
    /// Modulus of elasticity, Pa.
    pub elasticity_pa: f64,
    /// Greatest deflection as a part of the span, such as 1/240.
    pub greatest_deflection_ratio: f64,
}

impl Default for ChannelStock {
    /// Channel 41 x 41 x 2.5 mm: I 0.185 in4, Z 0.202 in3, Fb 25 ksi, E 29.5 Msi,
    /// as trade load tables for support channel give it; hanging rail to S/240.
    fn default() -> Self {
        const INCH: f64 = 0.0254;
        const PSI: f64 = 6_894.757_293_168;
        Self {
            depth_m: 0.041,
            least_end_m: 0.05,
            greatest_span_m: 3.0,
            greatest_step_m: 0.10,
            second_moment_m4: 0.185 * INCH * INCH * INCH * INCH,
            section_modulus_m3: 0.202 * INCH * INCH * INCH,
            allowed_stress_pa: 25_000.0 * PSI,
            elasticity_pa: 29_500_000.0 * PSI,
            greatest_deflection_ratio: 1.0 / 240.0,
        }
    }
}
