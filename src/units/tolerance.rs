//! The tolerances of typing and showing. `geometry::tolerance` lists them again,
//! so that every tolerance of the program can be read in one place.

/// A length this close to a tidy figure (a hundredth of a millimetre, a sixteenth or
/// a thousandth of an inch) is shown as that figure, m. Smaller, and sums of snapped
/// lengths show their rounding noise; larger, and leaving a field could move a thing
/// by more than anybody meant.
pub const TIDY_LENGTH: f64 = 1e-9;

/// The same for every other quantity, for figures of up to nine digits: relative or,
/// below one, absolute, in the base unit. Smaller, and the noise of a few hundred sums is
/// shown; larger, and figures that somebody typed with all their digits are changed.
pub const TIDY: f64 = 1e-13;

/// A figure this far on the wrong side of a step still counts as the step when it is
/// rounded to the safe side: m, rad, or relative, as the quantity's limits are judged.
/// It equals the margin beyond which a limit is breached: smaller, and 4.0 m computed
/// as 3.999 999 999 6 m prints as 3.9 m; larger, and a breach prints as a pass.
pub const ROUNDING_STEP: f64 = 1e-6;
