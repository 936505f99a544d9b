//! Ids that people can read and say over the phone: `R3`, `J-07`.

use serde::{Deserialize, Serialize};
use std::fmt;
use std::sync::Arc;

macro_rules! id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(Arc<str>);

        impl $name {
            /// Made from its text.
            pub fn new(text: impl AsRef<str>) -> Self { Self(Arc::from(text.as_ref())) }

            /// Its text.
            pub fn as_str(&self) -> &str { &self.0 }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(&self.0) }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self { Self::new(text) }
        }
    };
}

id!(
    /// A grid line's name as the drawings letter it: `A`, `7`.
    GridId
);
id!(
    /// A bay: `B1`.
    BayId
);
id!(
    /// A set of parallel members: `J` for members `J-01`, `J-02`, ...
    FramingId
);
id!(
    /// One member span: `J-20/AB`.
    MemberId
);
id!(
    /// An obstruction: `O4`.
    ObstructionId
);
id!(
    /// An opening in a wall: `D2`.
    OpeningId
);
id!(
    /// A heater as placed: `R3`.
    RunId
);
id!(
    /// A work spot: `W1`.
    WorkSpotId
);
id!(
    /// A section line's letter as the sheets name it: `A`.
    SectionId
);
id!(
    /// A named alternative layout: `A`.
    SchemeId
);

/// What stands for a wall where the label of a member span names the lines at its ends.
pub const WALL: &str = "w";

impl MemberId {
    /// The part of a span's id that names the lines at its ends, the one nearer the
    /// lowest grid line first: `AB`, but `A-12`, as longer names would run together.
    pub fn span_between(near: &str, far: &str) -> String {
        let is_short = |name: &str| name.chars().count() == 1;
        let joint = if is_short(near) && is_short(far) {
            ""
        } else {
            "-"
        };
        format!("{near}{joint}{far}")
    }

    /// Whether it names a member of a framing: `J-20/AB` and `J-20` do of `J`,
    /// `J-2-01/AB` does of `J-2` alone.
    pub fn is_of(&self, framing: &FramingId) -> bool {
        self.number_in(framing).is_some()
    }

    /// The member's number and what follows it, where it is one of the framing's:
    /// `20/AB` of `J-20/AB`.
    pub(super) fn number_in(&self, framing: &FramingId) -> Option<&str> {
        let rest = self.0.strip_prefix(framing.as_str())?.strip_prefix('-')?;
        let number = rest.split('/').next().unwrap_or(rest);
        let is_number = !number.is_empty() && number.bytes().all(|b| b.is_ascii_digit());
        is_number.then_some(rest)
    }
}

/// The least free id of the form prefix + number, so that a new object never takes
/// the name of one that is there: `next_free("R", ["R1", "R3"])` is `R2`.
pub fn next_free<'a>(prefix: &str, taken: impl Iterator<Item = &'a str>) -> String {
    let mut numbers: Vec<u64> = taken
        .filter_map(|id| id.strip_prefix(prefix))
        .filter_map(|tail| tail.parse().ok())
        .collect();
    numbers.sort_unstable();
    numbers.dedup();
    let mut free = 1;
    for number in numbers {
        if number == free {
            free += 1;
        }
    }
    format!("{prefix}{free}")
}

/// Orders names as people do: `2` before `10`, `A` before `B`, digits before letters.
pub fn natural_order(left: &str, right: &str) -> std::cmp::Ordering {
    let (mut a, mut b) = (left, right);
    loop {
        match (a.chars().next(), b.chars().next()) {
            (None, None) => return left.cmp(right),
            (None, Some(_)) => return std::cmp::Ordering::Less,
            (Some(_), None) => return std::cmp::Ordering::Greater,
            (Some(x), Some(y)) if x.is_ascii_digit() && y.is_ascii_digit() => {
                let (number_a, rest_a) = leading_number(a);
                let (number_b, rest_b) = leading_number(b);
                // Longer digit strings are larger once leading zeros are gone, so no number is too big to compare.
                let order = number_a
                    .len()
                    .cmp(&number_b.len())
                    .then_with(|| number_a.cmp(number_b));
                if order.is_ne() {
                    return order;
                }
                (a, b) = (rest_a, rest_b);
            }
            (Some(x), Some(y)) => {
                if x != y {
                    return x.cmp(&y);
                }
                (a, b) = (&a[x.len_utf8()..], &b[y.len_utf8()..]);
            }
        }
    }
}

fn leading_number(text: &str) -> (&str, &str) {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    (text[..end].trim_start_matches('0'), &text[end..])
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cmp::Ordering;

    #[test]
    fn next_free_fills_the_first_gap() {
        assert_eq!(
            next_free("R", ["R1", "R3", "rack", "R03"].into_iter()),
            "R2"
        );
        assert_eq!(next_free("R", [].into_iter()), "R1");
    }

    #[test]
    fn a_member_is_of_one_framing() {
        let of = |member: &str, framing: &str| MemberId::from(member).is_of(&framing.into());
        assert!(of("J-20/AB", "J") && of("J-20", "J") && of("J-2-01/AB", "J-2"));
        assert!(!of("J-2-01/AB", "J") && !of("K-20/AB", "J") && !of("J-", "J"));
        assert!(!of("J20", "J") && !of("", ""));
    }

    #[test]
    fn natural_order_reads_numbers_as_numbers() {
        assert_eq!(natural_order("J-9", "J-10"), Ordering::Less);
        assert_eq!(natural_order("2", "A"), Ordering::Less);
        assert_eq!(natural_order("R007", "R7"), Ordering::Less);
        assert_eq!(natural_order("R7", "R7"), Ordering::Equal);
        assert_eq!(natural_order("A", "AA"), Ordering::Less);
    }
}
