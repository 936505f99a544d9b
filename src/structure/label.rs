//! What a member span is called: `J-20/AB`.

use super::member::MemberEnd;
use crate::site::MemberId;
use crate::site::id::WALL;

/// The part of a span's id behind its member's: the lines at its two ends, the end
/// nearer the lowest grid line first; `w` stands for a wall.
///
/// Empty for the only span of a member that bears on walls alone.
pub(super) fn span_label(
    near: &MemberEnd,
    far: &MemberEnd,
    n_spans: usize,
    index: usize,
) -> String {
    let name = |end: &MemberEnd| match end {
        MemberEnd::OnLine(id) => id.as_str().to_owned(),
        MemberEnd::AtWall => WALL.to_owned(),
    };
    match (near, far) {
        (MemberEnd::AtWall, MemberEnd::AtWall) if n_spans == 1 => String::new(),
        (MemberEnd::AtWall, MemberEnd::AtWall) => format!("/{}", index + 1),
        _ => format!("/{}", MemberId::span_between(&name(near), &name(far))),
    }
}

/// A member's id: the framing's letters and its number, two digits at least.
pub(super) fn member_label(framing: &str, number: usize) -> String {
    format!("{framing}-{number:02}")
}
