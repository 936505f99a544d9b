//! Shapes and distances. Knows no heater.
//!
//! Site space: right-handed, x east, y north, z up, finished floor z = 0, metres.
//! y is flipped only in `editor/camera.rs` and `sheets/paper.rs`.

pub mod bounds;
pub mod clip;
pub mod cut;
pub mod distance;
pub mod frame;
pub mod math;
pub mod orientation;
pub mod parting;
pub mod pieces;
pub mod polygon;
pub mod prism;
pub mod segment;
pub mod solid;
pub mod tolerance;
pub mod validity;

pub use bounds::Bounds;
pub use clip::Interval;
pub use cut::UprightPlane;
pub use frame::Frame;
pub use polygon::Polygon;
pub use prism::Elevation;
pub use solid::ConvexSolid;
pub use validity::PolygonFault;

/// A point or a vector in plan, metres.
pub use glam::DVec2;
/// A point or a vector in space, metres.
pub use glam::DVec3;
