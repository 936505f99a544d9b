//! Every tolerance of the program, with its reason.

/// How figures are typed, shown and rounded. They stand with the quantities, which
/// may not know geometry.
pub use crate::units::tolerance::{ROUNDING_STEP, TIDY, TIDY_LENGTH};

/// How far beyond a limit a length (m), angle (rad) or relative load must be to be a
/// breach. Equal passes. Smaller, and rounding in a rotated site makes breaches out
/// of nothing; larger, and a real breach of a hair's breadth passes.
pub const LIMIT: f64 = 1e-6;

/// Two plan points closer than this are the same corner, m. Smaller, and a polygon
/// drawn with a snapped first and last point is refused; larger, and short but real
/// edges vanish.
pub const SAME_POINT: f64 = 1e-6;

/// Stations are rounded to this, m, so that two ways of computing the same hang
/// point name the same station.
pub const STATION: f64 = 1e-9;

/// An off-panel hang point or a channel's end this near to a panel point is at the
/// panel point, m: the clamp's own length along the chord.
pub const ON_PANEL_POINT: f64 = 0.025;

/// Two cross channels on the same two members this near to each other along them are
/// one, m: half a channel's width, so that a channel laid in the middle has each of its
/// hangers within a centimetre of its place. Smaller, and two pieces would have to lie
/// in one place; larger, and hangers lean that were computed plumb.
pub const SAME_CHANNEL: f64 = 0.02;

/// Two unit vectors whose cross product is shorter than this are parallel. Smaller,
/// and an edge's rounding makes a second direction beside it; larger, and a slightly
/// tapered solid is measured as if it were straight (1e-12 over 100 m is 0.1 nm).
pub const PARALLEL: f64 = 1e-12;

/// Two unit vectors whose dot product is smaller than this are square to each other,
/// as far as a nearest point found by iteration tells. Smaller, and one of many equally
/// near points is taken for the only one; larger, and a run's least slope is ignored.
pub const SQUARE: f64 = 1e-5;

/// The nearest points of two solids are known to within this, m. Smaller, and
/// rounding at 10 km from the origin (1e-12 m) makes certain answers doubtful; larger,
/// and the error shows beside [`LIMIT`].
pub const DISTANCE: f64 = 1e-9;

/// A grid line that crosses a member this near to its end is where it bears, m. Smaller,
/// and a wall drawn a millimetre off its grid line leaves a sliver of a member; larger,
/// and a real stub is swallowed.
pub const BEARING: f64 = 0.01;

/// Sine of the angle within which a grid line runs along members, as far as a tape
/// held square to them tells: a millimetre in a metre. Smaller, and a line drawn from
/// rounded coordinates can't be measured from; larger, and the distance depends on
/// where along the line the tape is held.
pub const ALONG_MEMBERS: f64 = 1e-3;

/// Relative rounding of the contact-solved beam: a reaction is not a push, and a lift
/// not a stretch, within this part of the weight (of the weight times the cube of the
/// tube length over its stiffness). Smaller, and rounding makes a hanger change
/// between taut and slack without end; larger, and sums of reactions miss 1e-9.
pub const BEAM: f64 = 1e-11;

/// Marks on paper that share less than this, mm, touch but don't lie on each other.
/// Smaller, and neighbouring table cells of a turned text overlap by rounding; larger,
/// and an overlap that can be seen with a lens passes.
pub const PAPER_TOUCH_MM: f64 = 1e-6;

/// Relative rounding of a sum of loads at one place. Smaller, and where an overload is
/// split into cases, rounding leaves a gap between them; larger, and a case keeps loads
/// that are sure to be too much (two loads of interest differ by far more).
pub const LOAD_SUM: f64 = 1e-13;
