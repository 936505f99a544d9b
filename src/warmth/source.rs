//! The energy balance along a tube: from the burner's input to what radiates, what warms
//! the air round it, and what leaves by the flue.
//!
//! Marched in cells from the burner. What leaves the gas is what is counted, so the
//! balance closes to rounding. A hairpin's legs see each other and are marched in turn
//! until neither changes.

mod calibrate;
mod leg;

pub use calibrate::{Calibrated, Declared, calibrated};

use super::SIGMA;
use crate::geometry::math::exp;
use leg::{Leg, Wall};
use std::f64::consts::PI;

/// Where radiation that leaves a tube goes, as parts that sum to 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Optics {
    /// Into the room.
    pub room: f64,
    /// Into the reflector, which gives it to the air above.
    pub hood: f64,
    /// Back to the tube itself.
    pub own: f64,
    /// To the other leg of a hairpin.
    pub other: f64,
}

impl Optics {
    /// A tube without a reflector.
    pub const BARE: Self = Self {
        room: 1.0,
        hood: 0.0,
        own: 0.0,
        other: 0.0,
    };
}

/// Sensible enthalpy flow of the burnt gas over that of the air that it began as,
/// `A (T - T0) + B / 2 (T^2 - T0^2)`, W.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gas {
    /// A, W/K.
    pub a: f64,
    /// B, W/K2; 0 or more.
    pub b: f64,
    /// T0, the temperature of the combustion air, K.
    pub air_k: f64,
}

impl Gas {
    /// Of natural gas (methane) burnt with an excess air ratio of 1.2 to 1.8, by linear
    /// fits of the enthalpies of its products: within 1 % from 300 to 1,200 K.
    #[must_use]
    pub fn methane(input_net_w: f64, air_ratio: f64, air_k: f64) -> Self {
        let kilowatts = input_net_w / 1000.0;
        Self {
            a: kilowatts * (0.447_06 + (air_ratio - 1.2) * 0.331_13),
            b: kilowatts * (1.0317e-4 + (air_ratio - 1.2) * 5.842e-5),
            air_k,
        }
    }

    /// The temperature at which it carries a flow, K.
    fn temperature_k(&self, flow_w: f64) -> f64 {
        let Self { a, b, air_k } = *self;
        if b <= 0.0 {
            return air_k + flow_w / a;
        }
        // The positive root of B/2 T^2 + A T - (flow + A T0 + B/2 T0^2).
        let c = flow_w + a * air_k + b / 2.0 * air_k * air_k;
        2.0 * c / (a + (a * a + 2.0 * b * c).sqrt())
    }

    /// Change of flow with temperature, W/K.
    fn slope(&self, gas_k: f64) -> f64 {
        self.a + self.b * gas_k
    }
}

/// How many legs a tube has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Legs {
    /// Straight.
    One,
    /// A hairpin of two equal legs beside each other.
    Two,
}

/// A tube and the fire in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    /// Heat input, net calorific value, W.
    pub input_net_w: f64,
    /// The gas in it.
    pub gas: Gas,
    /// 1/e length of the flame, m: 1.5 to 3.
    pub flame_m: f64,
    /// Hot length, m; of a hairpin both legs.
    pub length_m: f64,
    /// Whether it is a hairpin.
    pub legs: Legs,
    /// Outside diameter, m.
    pub diameter_m: f64,
    /// Emissivity of its outside, 0 to 1.
    pub emissivity: f64,
    /// Heat transfer inside, W/(m2 K).
    pub inside: f64,
    /// Convection outside, W/(m2 K).
    pub outside: f64,
    /// Where its radiation goes.
    pub optics: Optics,
    /// Temperature of the air round it, K.
    pub round_k: f64,
    /// Radiant temperature of the room that it sees, K.
    pub room_k: f64,
}

/// A length of tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cell {
    /// Its middle along the hot length from the burner, m.
    pub station_m: f64,
    /// Temperature of its wall, K.
    pub wall_k: f64,
    /// Net radiation into the room, W per metre of tube.
    pub room_w_per_m: f64,
}

/// Where the input goes.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// From the burner on, all of one length.
    pub cells: Vec<Cell>,
    /// Radiation into the room, W.
    pub room_w: f64,
    /// Radiation into the reflector, W.
    pub hood_w: f64,
    /// Convection from the tube, W.
    pub convection_w: f64,
    /// With the flue gas, W.
    pub flue_w: f64,
    /// Temperature of the gas at the exhaust, K.
    pub exhaust_k: f64,
}

impl Balance {
    /// Thermal efficiency, of net calorific value, 0 to 1.
    #[must_use]
    pub fn efficiency(&self, tube: &Tube) -> f64 {
        1.0 - self.flue_w / tube.input_net_w
    }

    /// What doesn't add up, as a part of the input.
    #[must_use]
    pub fn defect(&self, tube: &Tube) -> f64 {
        let out_w = self.room_w + self.hood_w + self.convection_w + self.flue_w;
        (out_w / tube.input_net_w - 1.0).abs()
    }
}

/// Cells that give the efficiency to 0.0002 and temperatures to a few K.
pub const CELLS: usize = 24;
/// A hairpin's legs are marched until no wall changes by more than this, K.
const SETTLED_K: f64 = 1e-7;
/// Five to eight turns settle; beyond this many the tube is no heater.
const MOST_TURNS: usize = 60;

impl Tube {
    /// Its balance in so many cells; of a hairpin an even number.
    #[must_use]
    pub fn balance(&self, n_cells: usize) -> Balance {
        let n_cells = match self.legs {
            Legs::One => n_cells.max(1),
            Legs::Two => n_cells.max(2).next_multiple_of(2),
        };
        let mut walls = vec![self.round_k; n_cells];
        let mut last = self.march(&mut walls);
        if self.legs == Legs::Two {
            for _ in 0..MOST_TURNS {
                let before = walls.clone();
                last = self.march(&mut walls);
                let change = before.iter().zip(&walls).map(|(a, b)| (a - b).abs());
                if change.fold(0.0, f64::max) < SETTLED_K {
                    break;
                }
            }
        }
        last
    }

    /// Once from burner to exhaust, with the other leg's walls as they are known.
    fn march(&self, walls: &mut [f64]) -> Balance {
        let n_cells = walls.len();
        let cell_m = self.length_m / count(n_cells);
        let area_m2 = PI * self.diameter_m * cell_m;
        let spent = 1.0 - exp(-self.length_m / self.flame_m);
        let released = |from_m: f64, to_m: f64| {
            let left = |at_m: f64| exp(-at_m / self.flame_m);
            self.input_net_w * (left(from_m) - left(to_m)) / spent
        };
        let mut balance = Balance {
            cells: Vec::with_capacity(n_cells),
            room_w: 0.0,
            hood_w: 0.0,
            convection_w: 0.0,
            flue_w: 0.0,
            exhaust_k: self.gas.air_k,
        };
        let mut flow_w = 0.0;
        let mut guess_k = self.round_k + 200.0;
        for k in 0..n_cells {
            let from_m = count(k) * cell_m;
            let release_w = released(from_m, from_m + cell_m);
            // Legs lie beside each other: the first cell faces the last.
            let partner_k = match self.legs {
                Legs::One => self.room_k,
                Legs::Two => walls[n_cells - 1 - k],
            };
            let leg = Leg {
                tube: self,
                partner_k,
                area_m2,
                flow_w,
                release_w,
            };
            let wall: Wall = leg.solved(guess_k);
            guess_k = wall.wall_k;
            walls[k] = wall.wall_k;
            flow_w += release_w - wall.out_w();
            balance.room_w += wall.room_w;
            balance.hood_w += wall.hood_w;
            // What one leg gives the other is no loss: it cancels in the sum.
            balance.convection_w += wall.convection_w + wall.exchange_w;
            balance.cells.push(Cell {
                station_m: from_m + cell_m / 2.0,
                wall_k: wall.wall_k,
                room_w_per_m: wall.room_w / cell_m,
            });
        }
        balance.flue_w = flow_w;
        balance.exhaust_k = self.gas.temperature_k(flow_w);
        balance
    }
}

/// Emissive power of a black surface, W/m2.
fn black(kelvin: f64) -> f64 {
    SIGMA * kelvin.powi(4)
}

#[expect(clippy::cast_precision_loss, reason = "cells are counted in tens")]
const fn count(n: usize) -> f64 {
    n as f64
}
