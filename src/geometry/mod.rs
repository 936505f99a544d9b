//! Shapes and distances. Knows no heater.
//!
//! Site space: right-handed, x east, y north, z up, finished floor z = 0, metres.
//! y is flipped only in `editor/camera.rs` and `sheets/paper.rs`.

pub mod math;
pub mod tolerance;

/// A point or a vector in plan, metres.
pub use glam::DVec2;
/// A point or a vector in space, metres.
pub use glam::DVec3;
