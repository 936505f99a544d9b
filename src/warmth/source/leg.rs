//! One cell of a tube: the wall temperature at which as much comes in as goes out.

use super::{Tube, black};
use crate::warmth::SIGMA;

/// A cell and what it meets.
pub(super) struct Leg<'a> {
    pub(super) tube: &'a Tube,
    /// Wall of the other leg there; without one it doesn't matter.
    pub(super) partner_k: f64,
    pub(super) area_m2: f64,
    /// Enthalpy flow that comes in, W.
    pub(super) flow_w: f64,
    /// What burns in it, W.
    pub(super) release_w: f64,
}

/// The cell, solved.
pub(super) struct Wall {
    pub(super) wall_k: f64,
    pub(super) room_w: f64,
    pub(super) hood_w: f64,
    /// To the other leg, W.
    pub(super) exchange_w: f64,
    pub(super) convection_w: f64,
}

impl Wall {
    pub(super) const fn out_w(&self) -> f64 {
        self.room_w + self.hood_w + self.exchange_w + self.convection_w
    }
}

/// Newton from the cell before converges in about four steps.
const MOST_STEPS: usize = 40;
const CLOSE_K: f64 = 1e-10;

impl Leg<'_> {
    /// The root of a function that falls with the wall's temperature all the way.
    pub(super) fn solved(&self, guess_k: f64) -> Wall {
        let tube = self.tube;
        let mut wall_k = guess_k;
        for _ in 0..MOST_STEPS {
            let wall = self.at(wall_k);
            let out = wall.out_w() / self.area_m2;
            let gas_k = self.gas_k(&wall);
            let missing = tube.inside * (gas_k - wall_k) - out;
            let rise = self.rise(wall_k);
            let gas_falls = 0.5 * self.area_m2 * rise / tube.gas.slope(gas_k);
            let step = missing / (tube.inside * (gas_falls + 1.0) + rise);
            wall_k = (wall_k + step).max(1.0);
            if step.abs() < CLOSE_K {
                break;
            }
        }
        self.at(wall_k)
    }

    /// Mean temperature of the gas in the cell.
    fn gas_k(&self, wall: &Wall) -> f64 {
        let middle_w = self.flow_w + (self.release_w - wall.out_w()) / 2.0;
        self.tube.gas.temperature_k(middle_w)
    }

    /// What leaves a wall of some temperature.
    fn at(&self, wall_k: f64) -> Wall {
        let tube = self.tube;
        let optics = &tube.optics;
        let room = black(tube.room_k);
        let (own, partner) = self.radiosities(black(wall_k), black(self.partner_k), room);
        let area_m2 = self.area_m2;
        Wall {
            wall_k,
            room_w: area_m2 * optics.room * (own - room),
            hood_w: area_m2 * optics.hood * (own - room),
            exchange_w: area_m2 * optics.other * (own - partner),
            convection_w: area_m2 * tube.outside * (wall_k - tube.round_k),
        }
    }

    /// What leaves both legs, W/m2: grey and diffuse, each coming back to itself and to
    /// the other in parts.
    fn radiosities(&self, black: f64, partner: f64, room: f64) -> (f64, f64) {
        let (back, across, determinant) = self.returned();
        let (emissivity, optics) = (self.tube.emissivity, &self.tube.optics);
        let from_room = (1.0 - emissivity) * (optics.room + optics.hood) * room;
        let (one, other) = (
            emissivity * black + from_room,
            emissivity * partner + from_room,
        );
        (
            (back * one + across * other) / determinant,
            (back * other + across * one) / determinant,
        )
    }

    fn returned(&self) -> (f64, f64, f64) {
        let reflected = 1.0 - self.tube.emissivity;
        let back = 1.0 - reflected * self.tube.optics.own;
        let across = reflected * self.tube.optics.other;
        (back, across, back * back - across * across)
    }

    /// How much more leaves it per degree, W/(m2 K).
    fn rise(&self, wall_k: f64) -> f64 {
        let (back, across, determinant) = self.returned();
        let optics = &self.tube.optics;
        let emitted = self.tube.emissivity * 4.0 * SIGMA * wall_k.powi(3) / determinant;
        let parts = optics.room + optics.hood + optics.other;
        emitted * (parts * back - optics.other * across) + self.tube.outside
    }
}
