//! Round distances, for where nothing catches.

use crate::editor::camera::Camera;
use crate::units::UnitSystem;

/// The finest round step that a hand can hit at this zoom, m.
pub(crate) fn round_step(camera: &Camera, units: UnitSystem) -> f64 {
    const METRIC: [f64; 6] = [0.01, 0.05, 0.1, 0.5, 1.0, 5.0];
    const INCHES: [f64; 6] = [0.25, 1.0, 3.0, 6.0, 12.0, 60.0];
    let fits = |step: &f64| 3.0 <= camera.screen_length(*step);
    match units {
        UnitSystem::Metric => METRIC.into_iter().find(fits).unwrap_or(10.0),
        UnitSystem::FeetInches => INCHES
            .into_iter()
            .map(|inches| inches * 0.0254)
            .find(fits)
            .unwrap_or(3.048),
    }
}
