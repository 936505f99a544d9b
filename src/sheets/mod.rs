//! The plan set: sheets as lists of marks, and the writers that read them.
//!
//! ```text
//! Site + Study --> Vec<Sheet> --+--> pdf::pdf
//!                               +--> svg::svg --> png::png
//!                               '--> dxf::dxf
//! ```
//!
//! A [`Sheet`] is everything that a page shows, in paper millimetres from its top
//! left corner, y down. The writers and the print preview read the same marks and
//! decide nothing about them, so they can't disagree. All writers are pure: the
//! same sheets give the same bytes.

mod check;
pub mod curve;
pub mod dxf;
pub mod error;
pub mod files;
pub mod fonts;
pub mod hatch;
pub mod layer;
pub mod lettering;
pub mod mark;
pub mod metadata;
mod number;
pub mod occupied;
pub mod oriented_box;
pub mod overlap;
pub mod pages;
pub mod paper;
pub mod pdf;
pub mod pen;
pub mod png;
pub mod scale;
pub mod svg;
pub mod symbol;
pub mod text;

pub use error::SheetError;
pub use fonts::Face;
pub use hatch::Hatch;
pub use layer::Layer;
pub use lettering::Lettering;
pub use mark::{
    Arc, Area, Circle, Ends, Finish, Mark, Picture, Polyline, Shape, Sheet, Standing, ViewportId,
};
pub use metadata::{IssueDate, Metadata};
pub use occupied::{Clash, Occupied, clashes};
pub use oriented_box::OrientedBox;
pub use paper::{Format, Orientation, PaperPoint, PaperRect, SheetSize, View, Viewport};
pub use pen::{Ink, LineKind, Pen, PenWidth};
pub use scale::{Scale, ScaleSeries};
pub use symbol::{Field, FieldText, Part, Symbol, SymbolUse};
pub use text::{Across, Along, Anchor, Backing, Text};
