//! Required distances: the heater's own by tilt band and shields, or others.

use super::bodies::{Form, RunBodies};
use super::direction::Direction;
use crate::geometry::{Bounds, DVec3, tolerance};

/// Shields fitted, seen along the bearing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shields {
    /// None.
    None,
    /// On the left.
    Left,
    /// On the right.
    Right,
    /// On both sides.
    Both,
}

/// Shields of a table's row, seen from the aimed side.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowShields {
    /// None.
    None,
    /// On the aimed side.
    Front,
    /// On the other side.
    Rear,
    /// On both sides.
    Both,
}

/// Distances that must stay clear of what burns, from the outermost part in each direction, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeepClear {
    /// Above.
    pub above_m: f64,
    /// Below.
    pub below_m: f64,
    /// On the aimed side.
    pub front_m: f64,
    /// On the other side.
    pub rear_m: f64,
    /// Beyond the burner.
    pub burner_end_m: f64,
    /// Beyond the exhaust, and beyond the bend of a hairpin.
    pub exhaust_end_m: f64,
}

/// One row of a heater's table: a tilt band and a set of shields.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeepClearRow {
    /// Least tilt of the band, either way, degrees.
    pub tilt_from_degrees: f64,
    /// Greatest tilt of the band, either way, degrees.
    pub tilt_to_degrees: f64,
    /// The shields that the row holds for.
    pub shields: RowShields,
    /// The distances.
    pub distances: KeepClear,
}

/// The distances in force at a tilt with a set of shields.
///
/// At the common edge of two bands each figure is the larger of the two. At no tilt
/// there is no aimed side: a single shield is then looked up as if on either, and the
/// larger figure taken. `None` where no band holds the tilt with these shields: such a
/// run is not allowed at all.
#[must_use]
pub fn keep_clear(rows: &[KeepClearRow], tilt_degrees: f64, shields: Shields) -> Option<KeepClear> {
    let tilt = tilt_degrees.abs().to_radians();
    let in_band = |row: &&KeepClearRow| {
        row.tilt_from_degrees.to_radians() - tolerance::LIMIT <= tilt
            && tilt <= row.tilt_to_degrees.to_radians() + tolerance::LIMIT
    };
    let wanted: &[RowShields] = match (aim(tilt_degrees), shields) {
        (_, Shields::None) => &[RowShields::None],
        (_, Shields::Both) => &[RowShields::Both],
        (Aim::Left, Shields::Left) | (Aim::Right, Shields::Right) => &[RowShields::Front],
        (Aim::Left, Shields::Right) | (Aim::Right, Shields::Left) => &[RowShields::Rear],
        (Aim::Down, Shields::Left | Shields::Right) => &[RowShields::Front, RowShields::Rear],
    };
    rows.iter()
        .filter(|row| wanted.contains(&row.shields))
        .filter(in_band)
        .map(|row| row.distances)
        .reduce(KeepClear::larger)
}

impl KeepClear {
    fn larger(self, other: Self) -> Self {
        Self {
            above_m: self.above_m.max(other.above_m),
            below_m: self.below_m.max(other.below_m),
            front_m: self.front_m.max(other.front_m),
            rear_m: self.rear_m.max(other.rear_m),
            burner_end_m: self.burner_end_m.max(other.burner_end_m),
            exhaust_end_m: self.exhaust_end_m.max(other.exhaust_end_m),
        }
    }

    /// The distances by the run's own directions.
    ///
    /// The front is the aimed side; at no tilt both sides take the larger figure. The
    /// near end of a hairpin has burner and exhaust and takes the larger figure; its
    /// bend takes the exhaust end's.
    #[must_use]
    pub fn required(&self, tilt_degrees: f64, form: &Form) -> Required {
        let (left_m, right_m) = match aim(tilt_degrees) {
            Aim::Left => (self.front_m, self.rear_m),
            Aim::Right => (self.rear_m, self.front_m),
            Aim::Down => {
                let larger = self.front_m.max(self.rear_m);
                (larger, larger)
            }
        };
        let near_end_m = match form {
            Form::Straight => self.burner_end_m,
            Form::Hairpin { .. } => self.burner_end_m.max(self.exhaust_end_m),
        };
        Required {
            above_m: self.above_m,
            below_m: self.below_m,
            left_m,
            right_m,
            near_end_m,
            far_end_m: self.exhaust_end_m,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Aim {
    Left,
    Right,
    Down,
}

fn aim(tilt_degrees: f64) -> Aim {
    if tilt_degrees.to_radians() > tolerance::LIMIT {
        Aim::Left
    } else if tilt_degrees.to_radians() < -tolerance::LIMIT {
        Aim::Right
    } else {
        Aim::Down
    }
}

/// Required distances by the run's own directions, from a body's outermost part, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Required {
    /// Above.
    pub above_m: f64,
    /// Below.
    pub below_m: f64,
    /// To the left.
    pub left_m: f64,
    /// To the right.
    pub right_m: f64,
    /// Beyond the near end: the burner, and the exhaust of a hairpin.
    pub near_end_m: f64,
    /// Beyond the far end: the exhaust, or the bend of a hairpin.
    pub far_end_m: f64,
}

impl Required {
    /// The greater of two in each direction.
    #[must_use]
    pub const fn or_more(self, other: Self) -> Self {
        Self {
            above_m: self.above_m.max(other.above_m),
            below_m: self.below_m.max(other.below_m),
            left_m: self.left_m.max(other.left_m),
            right_m: self.right_m.max(other.right_m),
            near_end_m: self.near_end_m.max(other.near_end_m),
            far_end_m: self.far_end_m.max(other.far_end_m),
        }
    }

    /// The same distance all round.
    #[must_use]
    pub const fn all_round(distance_m: f64) -> Self {
        Self {
            above_m: distance_m,
            below_m: distance_m,
            left_m: distance_m,
            right_m: distance_m,
            near_end_m: distance_m,
            far_end_m: distance_m,
        }
    }

    /// Farther beyond the far end by what the hot tube moves there.
    #[must_use]
    pub fn with_hot_movement(self, movement_m: f64) -> Self {
        Self {
            far_end_m: self.far_end_m + movement_m,
            ..self
        }
    }

    /// Farther all round by a margin.
    #[must_use]
    pub fn with_margin(self, margin_m: f64) -> Self {
        Self {
            above_m: self.above_m + margin_m,
            below_m: self.below_m + margin_m,
            left_m: self.left_m + margin_m,
            right_m: self.right_m + margin_m,
            near_end_m: self.near_end_m + margin_m,
            far_end_m: self.far_end_m + margin_m,
        }
    }

    /// Farther beyond the end that the exhaust leaves at by the reach of its jet: the far
    /// end, or the near end of a hairpin.
    #[must_use]
    pub fn with_jet(self, form: &Form, jet_m: f64) -> Self {
        match form {
            Form::Straight => Self {
                far_end_m: self.far_end_m + jet_m,
                ..self
            },
            Form::Hairpin { .. } => Self {
                near_end_m: self.near_end_m + jet_m,
                ..self
            },
        }
    }

    /// The distance required in a direction, m.
    #[must_use]
    pub const fn towards(&self, direction: Direction) -> f64 {
        match direction {
            Direction::Above => self.above_m,
            Direction::Below => self.below_m,
            Direction::Left => self.left_m,
            Direction::Right => self.right_m,
            Direction::NearEnd => self.near_end_m,
            Direction::FarEnd => self.far_end_m,
        }
    }

    /// A body's box grown by the distances: the envelope round it, in (s, l, u).
    #[must_use]
    pub fn envelope(&self, body: &Bounds) -> Bounds {
        Bounds {
            low: body.low - DVec3::new(self.near_end_m, self.right_m, self.below_m),
            high: body.high + DVec3::new(self.far_end_m, self.left_m, self.above_m),
        }
    }
}

impl RunBodies {
    /// The keep-clear envelope: one box a body, in (s, l, u), in the order of the bodies.
    pub fn envelope(&self, required: &Required) -> impl Iterator<Item = Bounds> + Clone {
        self.bodies
            .iter()
            .map(|body| required.envelope(&body.local))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(from: f64, to: f64, shields: RowShields, figures: [f64; 6]) -> KeepClearRow {
        let [
            above_m,
            below_m,
            front_m,
            rear_m,
            burner_end_m,
            exhaust_end_m,
        ] = figures;
        KeepClearRow {
            tilt_from_degrees: from,
            tilt_to_degrees: to,
            shields,
            distances: KeepClear {
                above_m,
                below_m,
                front_m,
                rear_m,
                burner_end_m,
                exhaust_end_m,
            },
        }
    }

    fn table() -> Vec<KeepClearRow> {
        vec![
            row(0.0, 15.0, RowShields::None, [0.2, 1.6, 1.0, 0.9, 0.6, 0.7]),
            row(15.0, 45.0, RowShields::None, [0.3, 1.5, 1.4, 0.4, 0.6, 0.7]),
            row(0.0, 45.0, RowShields::Front, [0.2, 1.7, 0.6, 1.0, 0.6, 0.7]),
            row(0.0, 45.0, RowShields::Rear, [0.2, 1.8, 1.2, 0.5, 0.6, 0.7]),
        ]
    }

    fn sides(tilt_degrees: f64, shields: Shields) -> Option<(f64, f64)> {
        keep_clear(&table(), tilt_degrees, shields).map(|distances| {
            let required = distances.required(tilt_degrees, &Form::Straight);
            (required.left_m, required.right_m)
        })
    }

    #[test]
    fn the_front_is_the_aimed_side() {
        assert_eq!(sides(30.0, Shields::None), Some((1.4, 0.4)));
        assert_eq!(sides(-30.0, Shields::None), Some((0.4, 1.4)));
        assert_eq!(sides(30.0, Shields::Left), Some((0.6, 1.0)));
        assert_eq!(sides(-30.0, Shields::Left), Some((0.5, 1.2)));
    }

    #[test]
    fn at_no_tilt_both_sides_take_the_larger() {
        assert_eq!(sides(0.0, Shields::None), Some((1.0, 1.0)));
        // As if on either side: the larger of both rows, then of both sides.
        assert_eq!(sides(0.0, Shields::Right), Some((1.2, 1.2)));
        assert_eq!(sides(0.0, Shields::Right), sides(0.0, Shields::Left));
    }

    #[test]
    fn at_the_edge_of_a_band_each_figure_is_the_larger() {
        let found = keep_clear(&table(), 15.0, Shields::None);
        let expected = row(0.0, 0.0, RowShields::None, [0.3, 1.6, 1.4, 0.9, 0.6, 0.7]);
        assert_eq!(found, Some(expected.distances));
        assert_eq!(keep_clear(&table(), -15.0, Shields::None), found);
        assert_eq!(keep_clear(&table(), 15.0 + 1e-9, Shields::None), found);
    }

    #[test]
    fn outside_all_bands_there_is_none() {
        assert_eq!(keep_clear(&table(), 45.1, Shields::None), None);
        assert_eq!(keep_clear(&table(), 0.0, Shields::Both), None);
        assert_eq!(keep_clear(&[], 0.0, Shields::None), None);
        assert_eq!(keep_clear(&table(), f64::NAN, Shields::None), None);
    }

    #[test]
    fn the_ends_of_a_hairpin() {
        let form = Form::Hairpin {
            leg_spacing_m: 0.4,
            bend_length_m: 0.3,
            return_leg: crate::clearance::Side::Left,
        };
        let distances = row(0.0, 0.0, RowShields::None, [0.2, 1.6, 1.0, 0.9, 0.6, 0.7]).distances;
        let required = distances.required(0.0, &form).with_hot_movement(0.04);
        assert_eq!((required.near_end_m, required.far_end_m), (0.7, 0.74));
        let straight = distances.required(0.0, &Form::Straight);
        assert_eq!((straight.near_end_m, straight.far_end_m), (0.6, 0.7));
    }
}
