//! What the heat does: how hot a tube is along its length, where its reflector throws the
//! radiation, and what arrives at a place, with and without what stands in the way.
//!
//! Net calorific value throughout. Temperatures in K, irradiance in W/m2.

pub mod irradiance;
pub mod reflector;
pub mod shadow;
pub mod source;

/// Stefan-Boltzmann constant, W/(m2 K4).
pub const SIGMA: f64 = 5.670_374_419e-8;
