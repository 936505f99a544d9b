//! What suspensions are made of: chain, rod and wire rope by size, adjusters, and the
//! clamps that hold them to the steel, each with its strength and its source.
//!
//! The bundled table holds open trade values and generic make-up lengths. A user enters
//! the figures of what will be bought.

use super::Source;
use crate::units::{Force, Length};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::sync::Arc;

/// What a suspension is made of.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Serialize, Deserialize,
)]
pub enum SuspensionKind {
    /// Chain, cut to whole links.
    #[default]
    Chain,
    /// Threaded rod with a swivel at both ends.
    Rod,
    /// Wire rope with a loop at both ends.
    Rope,
}

impl SuspensionKind {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Chain, Self::Rod, Self::Rope];

    /// Its name on screen and paper.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Chain => "chain",
            Self::Rod => "threaded rod",
            Self::Rope => "wire rope",
        }
    }

    /// Whether it is what is used where nobody chose, so that files need not say it.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}

impl fmt::Display for SuspensionKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.label())
    }
}

/// How much a piece bears.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Strength {
    /// A load limit that its standard or maker states.
    Limit {
        /// The limit.
        load: Force,
        /// The design factor that it already holds.
        factor: f64,
    },
    /// The least load at which it breaks.
    Break {
        /// That load.
        load: Force,
        /// What its terminations leave of it, 0 to 1.
        terminations: f64,
    },
}

impl Strength {
    /// The load that it may carry with a design factor of at least so much. A limit with
    /// a lesser factor is reduced, one with a greater is taken as stated.
    #[must_use]
    pub fn allowed(self, design_factor: f64) -> Force {
        match self {
            Self::Limit { load, factor } => load * (factor / design_factor).min(1.0),
            Self::Break { load, terminations } => load * (terminations / design_factor),
        }
    }
}

/// How a suspension is brought to its length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Form {
    /// Whole links.
    Chain {
        /// Length that each link adds: the inside length of a link.
        link: Length,
    },
    /// Cut rod.
    Rod {
        /// Its thread.
        thread: String,
    },
    /// Cut rope.
    Rope {
        /// Rope that the two loops at its ends take beyond its length.
        loops: Length,
    },
}

/// One size of chain, rod or wire rope.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SuspensionSize {
    /// Its id: of two with one id the later replaces the earlier.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// What it is, and how it is cut.
    pub form: Form,
    /// How much it bears.
    pub strength: Strength,
    /// What its two end fittings (quick links, swivels) take of the suspension.
    pub ends: Length,
    /// Least length that is cut.
    pub least: Length,
    /// Greatest length in one piece.
    pub greatest: Length,
    /// Whether the program may choose it. What it does not offer stands here for
    /// comparison: hanger rod is never thinner than 3/8 in.
    #[serde(default = "yes", skip_serializing_if = "is_yes")]
    pub offered: bool,
    /// Where its figures come from.
    pub source: Source,
}

/// What lets a suspension be lengthened and shortened once it hangs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Adjuster {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// What it is used with.
    pub serves: Vec<SuspensionKind>,
    /// What it adds to the suspension when wound in.
    pub shortest: Length,
    /// What it adds when wound out.
    pub longest: Length,
    /// How much it bears.
    pub strength: Strength,
    /// Where its figures come from.
    pub source: Source,
}

/// What something is attached to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum AttachedTo {
    /// The chord of an open-web steel joist.
    OpenWebJoist,
    /// A purlin.
    Purlin,
    /// The flange of a beam.
    Beam,
    /// The chord of a timber truss.
    TimberTruss,
    /// A cross channel.
    Channel,
}

impl AttachedTo {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::OpenWebJoist,
        Self::Purlin,
        Self::Beam,
        Self::TimberTruss,
        Self::Channel,
    ];

    /// Its name on screen and paper.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::OpenWebJoist => "open-web joist",
            Self::Purlin => "purlin",
            Self::Beam => "beam",
            Self::TimberTruss => "timber truss",
            Self::Channel => "cross channel",
        }
    }
}

/// A clamp, clip or bracket by which a suspension hangs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Attachment {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// What it holds to.
    pub holds_to: Vec<AttachedTo>,
    /// What it takes of the suspension below the attach point. Its drop below the steel
    /// is the framing's clamp drop, or the channel's depth, and not counted again.
    pub make_up: Length,
    /// How much it bears.
    pub strength: Strength,
    /// Where its figures come from.
    pub source: Source,
}

/// All hardware at hand.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HardwareTable {
    /// Chain, rod and wire rope by size.
    #[serde(default)]
    pub sizes: Vec<Arc<SuspensionSize>>,
    /// Adjusters; of those that would do, the first is used.
    #[serde(default)]
    pub adjusters: Vec<Arc<Adjuster>>,
    /// Clamps, clips and brackets; of those that would do, the first is used.
    #[serde(default)]
    pub attachments: Vec<Arc<Attachment>>,
}

impl SuspensionSize {
    /// What it is.
    #[must_use]
    pub const fn kind(&self) -> SuspensionKind {
        match self.form {
            Form::Chain { .. } => SuspensionKind::Chain,
            Form::Rod { .. } => SuspensionKind::Rod,
            Form::Rope { .. } => SuspensionKind::Rope,
        }
    }
}

impl HardwareTable {
    /// Whether there is nothing to hang anything from.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.sizes.is_empty()
    }

    /// Adds all of another table; entries of one id are replaced.
    pub fn put_all(&mut self, other: Self) {
        put_all(&mut self.sizes, other.sizes, |it| &it.id);
        put_all(&mut self.adjusters, other.adjusters, |it| &it.id);
        put_all(&mut self.attachments, other.attachments, |it| &it.id);
    }
}

fn put_all<T>(known: &mut Vec<Arc<T>>, added: Vec<Arc<T>>, id: impl Fn(&T) -> &str) {
    for new in added {
        match known.iter_mut().find(|old| id(old) == id(&new)) {
            Some(old) => *old = new,
            None => known.push(new),
        }
    }
}

const fn yes() -> bool {
    true
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde asks with a reference"
)]
const fn is_yes(value: &bool) -> bool {
    *value
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pounds(force: Force) -> f64 {
        force.as_pounds_force()
    }

    /// CODES-like practice: chain break is four times its limit, so 0.8 of it at 5:1;
    /// codes.json `chain.g30.*` and `rope.7x19.*`.
    #[test]
    fn limits_are_brought_to_the_design_factor() {
        let chain = Strength::Limit {
            load: Force::pounds_force(400.0),
            factor: 4.0,
        };
        assert!((pounds(chain.allowed(5.0)) - 320.0).abs() < 1e-9);
        assert!((pounds(chain.allowed(4.0)) - 400.0).abs() < 1e-9);
        assert!(
            (pounds(chain.allowed(3.0)) - 400.0).abs() < 1e-9,
            "never more"
        );
        let rope = |terminations| Strength::Break {
            load: Force::pounds_force(480.0),
            terminations,
        };
        assert!((pounds(rope(1.0).allowed(5.0)) - 96.0).abs() < 1e-9);
        assert!((pounds(rope(0.8).allowed(5.0)) - 76.8).abs() < 1e-9);
    }

    #[test]
    fn entries_of_one_id_are_replaced() {
        let adjuster = |name: &str| {
            Arc::new(Adjuster {
                id: "a".to_owned(),
                name: name.to_owned(),
                serves: vec![SuspensionKind::Chain],
                shortest: Length::metres(0.1),
                longest: Length::metres(0.2),
                strength: Strength::Limit {
                    load: Force::newtons(1.0),
                    factor: 5.0,
                },
                source: Source {
                    document: "test".to_owned(),
                    revision: String::new(),
                    date: String::new(),
                    certified: false,
                },
            })
        };
        let table = |name| HardwareTable {
            adjusters: vec![adjuster(name)],
            ..HardwareTable::default()
        };
        let mut all = table("old");
        all.put_all(table("new"));
        assert_eq!(all.adjusters.len(), 1);
        assert_eq!(all.adjusters[0].name, "new");
    }
}
