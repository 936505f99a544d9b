//! The outermost layer of every file: its name, its format number, its content.
//!
//! `Rafterglow(format: 1, site: (...))`: the format comes first and is looked at before
//! the rest, so that a file of a later version is refused for what it is and not for
//! whatever field of it is met first.

use super::{StoreError, layout};
use ron::error::SpannedError;
use serde::de::{Deserialize, DeserializeSeed, Deserializer, Error, MapAccess, Visitor};
use serde::ser::{Serialize, SerializeStruct, Serializer};
use std::cell::Cell;
use std::fmt;
use std::marker::PhantomData;
use std::path::Path;

/// A kind of file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Kind {
    /// What people call such a file.
    pub(super) label: &'static str,
    /// Its first word.
    pub(super) head: &'static str,
    /// Its fields: `format`, then that of its content.
    pub(super) fields: &'static [&'static str; 2],
    /// The newest format of it.
    pub(super) format: u64,
}

/// How deep brackets may nest. A document needs a dozen levels; more could exhaust the
/// stack.
const DEEPEST: usize = 64;

/// Most brackets and commas of a file. A site at all its caps has less; many more, and
/// reading them takes longer than anybody waits for an error message.
const MOST_MARKS: usize = 1_500_000;

/// The content of a file's text.
pub(super) fn read<T: for<'de> Deserialize<'de>>(
    kind: Kind,
    path: &Path,
    text: &str,
) -> Result<T, StoreError> {
    // Some editors begin a text file with a byte order mark.
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(StoreError::Empty {
            path: path.to_owned(),
            expected: kind.label,
            head: kind.head,
        });
    }
    let is_mark = |byte: &u8| matches!(byte, b'(' | b'[' | b'{' | b',');
    let n_marks = text.bytes().filter(is_mark).count();
    if n_marks > MOST_MARKS {
        return Err(StoreError::TooMuch {
            path: path.to_owned(),
            n_marks,
            most: MOST_MARKS,
        });
    }
    let format = Cell::new(None);
    let seed = Envelope {
        kind,
        format: &format,
        content: PhantomData,
    };
    let options = ron::Options::default().with_recursion_limit(DEEPEST);
    options
        .from_str_seed(text, seed)
        .map_err(|fault| match format.get() {
            Some(format) if format > kind.format => StoreError::Newer {
                path: path.to_owned(),
                format,
                known: kind.format,
            },
            found => malformed(kind, path, text, &fault, found),
        })
}

/// The word of the text at a line and a column, both from 1, as far as it is one.
fn word_at(text: &str, line: usize, column: usize) -> Option<String> {
    /// Enough to recognise it by.
    const LONGEST: usize = 24;
    let rest = text.lines().nth(line.checked_sub(1)?)?;
    let word: String = rest
        .chars()
        .skip(column.checked_sub(1)?)
        .take_while(|c| !c.is_whitespace() && !matches!(c, ',' | ')' | ']' | '}' | ':'))
        .take(LONGEST)
        .collect();
    (!word.is_empty()).then_some(word)
}

/// `format` is the one found, if reading came that far; if not, the file may well be
/// something else altogether.
fn malformed(
    kind: Kind,
    path: &Path,
    text: &str,
    fault: &SpannedError,
    format: Option<u64>,
) -> StoreError {
    use ron::Error as Fault;
    let mut message = match &fault.code {
        Fault::ExceededRecursionLimit => format!("brackets nest deeper than {DEEPEST} levels"),
        Fault::ExpectedDifferentStructName { found, .. } if format.is_none() => {
            format!("found `{found}`")
        }
        other => other.to_string(),
    };
    // What the parser expected says nothing of what stands there instead.
    if message.starts_with("Expected")
        && let Some(found) = word_at(text, fault.span.end.line, fault.span.end.col)
    {
        message += &format!(", found `{found}`");
    }
    if format.is_none() {
        let (label, head, [format, _]) = (kind.label, kind.head, kind.fields);
        message += &format!(
            "; a {label} begins with `{head}({format}: {}, `",
            kind.format
        );
    }
    StoreError::Malformed {
        path: path.to_owned(),
        line: fault.span.end.line,
        column: fault.span.end.col,
        message,
    }
}

/// The text of a file with a content.
pub(super) fn text_of<T: Serialize>(
    kind: Kind,
    path: &Path,
    content: &T,
) -> Result<String, StoreError> {
    let compact =
        ron::to_string(&Filled { kind, content }).map_err(|fault| StoreError::Unwritable {
            path: path.to_owned(),
            message: fault.to_string(),
        })?;
    Ok(format!("{}{}", kind.head, layout::laid_out(&compact)))
}

struct Filled<'a, T> {
    kind: Kind,
    content: &'a T,
}

impl<T: Serialize> Serialize for Filled<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let [format, content] = *self.kind.fields;
        let mut file = serializer.serialize_struct(self.kind.head, 2)?;
        file.serialize_field(format, &self.kind.format)?;
        file.serialize_field(content, self.content)?;
        file.end()
    }
}

struct Envelope<'a, T> {
    kind: Kind,
    /// The format found, for the message when what follows is refused.
    format: &'a Cell<Option<u64>>,
    content: PhantomData<T>,
}

impl<'de, T: Deserialize<'de>> DeserializeSeed<'de> for Envelope<'_, T> {
    type Value = T;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<T, D::Error> {
        deserializer.deserialize_struct(self.kind.head, self.kind.fields, self)
    }
}

impl<'de, T: Deserialize<'de>> Visitor<'de> for Envelope<'_, T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [format, content] = *self.kind.fields;
        write!(f, "`{format}` and then `{content}`")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<T, A::Error> {
        let [format, content] = *self.kind.fields;
        expect_field(&mut map, format, self.kind)?;
        let found: u64 = map.next_value()?;
        self.format.set(Some(found));
        if !(1..=self.kind.format).contains(&found) {
            let accepted = format_args!("1 to {}", self.kind.format);
            return Err(A::Error::custom(format_args!(
                "found format {found}; accepted: {accepted}"
            )));
        }
        expect_field(&mut map, content, self.kind)?;
        let value = map.next_value()?;
        match map.next_key::<String>()? {
            None => Ok(value),
            Some(other) => Err(A::Error::unknown_field(&other, self.kind.fields)),
        }
    }
}

fn expect_field<'de, A: MapAccess<'de>>(
    map: &mut A,
    expected: &'static str,
    kind: Kind,
) -> Result<(), A::Error> {
    match map.next_key::<String>()? {
        Some(found) if found == expected => Ok(()),
        Some(found) => Err(A::Error::custom(format_args!(
            "found `{found}` where a {} has `{expected}`",
            kind.label
        ))),
        None => Err(A::Error::missing_field(expected)),
    }
}
