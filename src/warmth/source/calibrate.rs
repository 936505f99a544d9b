//! Heat transfer and optics that give what the maker declares.

use super::{Balance, CELLS, Optics, Tube};

/// What a certified manual declares of a size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Declared {
    /// Thermal efficiency, of net calorific value, 0 to 1.
    pub efficiency: f64,
    /// Radiation into the room over net input, 0 to 1; below the efficiency.
    pub radiant: f64,
}

/// A tube that gives what is declared.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibrated {
    /// The tube, its inside transfer and its optics set.
    pub tube: Tube,
    /// Its balance.
    pub balance: Balance,
    /// Declared less found, of the efficiency: not 0 where no transfer gives it.
    pub efficiency_off: f64,
    /// Declared less found, of the radiant part: not 0 where the convection leaves less,
    /// or the reflector lets out less.
    pub radiant_off: f64,
}

/// Bounds of what may be inside, W/(m2 K): still air to a sooting torch.
const INSIDE: (f64, f64) = (1.0, 2000.0);
const HALVINGS: usize = 50;

/// Sets a tube's inside transfer to the declared efficiency, then, at a fixed sum, how
/// much of what leaves tube and reflector gets into the room to the declared radiant
/// part. Each is monotone.
#[must_use]
pub fn calibrated(tube: &Tube, declared: &Declared) -> Calibrated {
    let lost = tube.optics.room + tube.optics.hood;
    let with_room = |room: f64| {
        let optics = Optics {
            room,
            hood: lost - room,
            ..tube.optics
        };
        with_efficiency(&Tube { optics, ..*tube }, declared.efficiency)
    };
    let (mut low, mut high) = (0.0, lost);
    for _ in 0..HALVINGS {
        let room = f64::midpoint(low, high);
        let (tried, balance) = with_room(room);
        if balance.room_w < declared.radiant * tried.input_net_w {
            low = room;
        } else {
            high = room;
        }
    }
    let (tube, balance) = with_room(f64::midpoint(low, high));
    Calibrated {
        efficiency_off: declared.efficiency - balance.efficiency(&tube),
        radiant_off: declared.radiant - balance.room_w / tube.input_net_w,
        tube,
        balance,
    }
}

/// The inside transfer that gives an efficiency.
fn with_efficiency(tube: &Tube, efficiency: f64) -> (Tube, Balance) {
    let (mut low, mut high) = INSIDE;
    for _ in 0..HALVINGS {
        // Halved by ratio: the bounds are orders of magnitude apart.
        let inside = (low * high).sqrt();
        let tried = Tube { inside, ..*tube };
        if tried.balance(CELLS).efficiency(&tried) < efficiency {
            low = inside;
        } else {
            high = inside;
        }
    }
    let found = Tube {
        inside: (low * high).sqrt(),
        ..*tube
    };
    let balance = found.balance(CELLS);
    (found, balance)
}
