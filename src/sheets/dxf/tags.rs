//! The lines of a DXF file: group codes, values, handles.

use std::fmt::{Display, Write as _};

use crate::geometry::DVec2;
use crate::sheets::number::decimal;

/// What identifies an object in the file. Zero is nobody.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Handle(pub(super) u64);

impl Handle {
    /// Owner of what nobody owns.
    pub(super) const NOBODY: Self = Self(0);
}

impl Display for Handle {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:X}", self.0)
    }
}

/// Gives out handles, each once.
#[derive(Debug)]
pub(super) struct Handles {
    next: u64,
}

impl Handles {
    /// The first handle is 1.
    pub(super) const fn new() -> Self {
        Self { next: 1 }
    }

    /// A handle that nobody has.
    pub(super) fn take(&mut self) -> Handle {
        let handle = Handle(self.next);
        self.next += 1;
        handle
    }

    /// The handle that will be given next: greater than all in the file.
    pub(super) const fn seed(&self) -> Handle {
        Handle(self.next)
    }
}

/// Lines of a file being written.
#[derive(Debug, Default)]
pub(super) struct Tags {
    text: String,
}

impl Tags {
    /// A group code and its value as it stands.
    pub(super) fn tag(&mut self, code: u16, value: impl Display) {
        writeln!(self.text, "{code:>3}\n{value}").expect("a string takes everything");
    }

    /// A group code and a number with a decimal point.
    pub(super) fn real(&mut self, code: u16, value: f64) {
        let mut number = decimal(value, 9);
        if !number.contains('.') {
            number.push_str(".0");
        }
        self.tag(code, number);
    }

    /// A point in the plane under three group codes: `code`, `code + 10`, `code + 20`.
    pub(super) fn point(&mut self, code: u16, at: DVec2) {
        self.point_2d(code, at);
        self.real(code + 20, 0.0);
    }

    /// A point in the plane under two group codes.
    pub(super) fn point_2d(&mut self, code: u16, at: DVec2) {
        self.real(code, at.x);
        self.real(code + 10, at.y);
    }

    /// A group code and a text that a person wrote.
    pub(super) fn text(&mut self, code: u16, value: &str) {
        self.tag(code, encoded(value, MOST_BYTES));
    }

    /// A group code and a text among attached data, where less room is.
    pub(super) fn attached_text(&mut self, code: u16, value: &str) {
        self.tag(code, encoded(value, MOST_ATTACHED_BYTES));
    }

    /// Begins an object of a kind with a handle and an owner.
    pub(super) fn object(&mut self, kind: &str, handle: Handle, owner: Handle) {
        self.tag(0, kind);
        self.tag(5, handle);
        self.tag(330, owner);
    }

    /// Everything between a section's begin and its end.
    pub(super) fn section(&mut self, name: &str, content: &Self) {
        self.tag(0, "SECTION");
        self.tag(2, name);
        self.append(content);
        self.tag(0, "ENDSEC");
    }

    /// Other lines after these.
    pub(super) fn append(&mut self, other: &Self) {
        self.text.push_str(&other.text);
    }

    /// The lines.
    pub(super) fn into_text(self) -> String {
        self.text
    }
}

/// The longest text, bytes: the format allows 2049.
const MOST_BYTES: usize = 2_000;

/// The longest text among attached data, bytes: the format allows 255.
const MOST_ATTACHED_BYTES: usize = 250;

/// A text as a value: one line of at most so many bytes. Carets, which begin control
/// characters, and doubled percent signs, which begin signs, are written so that they
/// stay what they are.
fn encoded(value: &str, most_bytes: usize) -> String {
    let mut out = String::new();
    let doubled = value.contains("%%");
    for character in value.chars() {
        let length = out.len();
        match character {
            '^' => out.push_str("^ "),
            '%' if doubled => out.push_str("%%%"),
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
        if most_bytes < out.len() {
            out.truncate(length);
            break;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_keep_to_their_line() {
        assert_eq!(encoded("a\nb", 9), "a b");
        assert_eq!(encoded("2^3", 9), "2^ 3");
        assert_eq!(encoded("50%", 9), "50%");
        assert_eq!(encoded("%%d", 9), "%%%%%%d");
        assert_eq!(encoded(&"é".repeat(1000), 255).len(), 254);
    }

    #[test]
    fn reals_have_a_point() {
        let mut tags = Tags::default();
        tags.real(40, 3.0);
        tags.real(40, -0.25);
        assert_eq!(tags.into_text(), " 40\n3.0\n 40\n-0.25\n");
    }
}
