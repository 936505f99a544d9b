//! Lays out, hangs and checks overhead gas-fired radiant tube heaters.
//!
//! ```text
//! Site + Catalogue --study()--> Study { structure, hanging, clearance, totals }
//!                                 |--> findings::judge() --> Findings --> remedies (edits, tried by a full study)
//!                                 |--> views: Section, Scene --> window, sheet, picture
//!                                 |--> editor (draws the study; never computes)
//!                                 '--> sheets (paper mm) --> PDF, SVG, DXF; SVG --> PNG; CSV
//! ```
//!
//! The modules stand in reading order; each imports only from those above it.
//! `store` alone touches files, `editor` alone knows the window toolkit.

pub mod problem;
pub mod units;

pub mod geometry;

pub mod catalogue;
pub mod site;

pub mod structure;

pub mod clearance;
pub mod hanging;
pub mod warmth;

pub mod study;

pub mod findings;

pub mod remedies;

pub mod views;

pub mod sheets;

pub mod store;

pub mod cli;
pub mod editor;
