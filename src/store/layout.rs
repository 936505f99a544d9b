//! Lays out a document's text for people: what fits on a line stands on one line.
//!
//! The text notation is bracketed lists of items. A list that fits stays whole, such as
//! a point or a short object; one that doesn't gets one item per line. So a moved corner
//! changes one line, and an outline does not take a page.

/// Longest line where a list is still kept whole, in characters.
const LINE: usize = 100;
/// One level of indent.
const INDENT: &str = "    ";

/// The text with line breaks and indents. Nothing but blanks between its words changes.
///
/// `compact` is what the serializer writes without any layout: brackets match, strings
/// are quoted with backslash escapes, and there are no comments.
pub(super) fn laid_out(compact: &str) -> String {
    let mut out = String::with_capacity(compact.len() * 2);
    let mut words = Words::new(compact);
    put_item(&item(&mut words), 0, 0, &mut out);
    out.push('\n');
    out
}

/// What stands between two commas: words and lists, `roof: Gable(...)`.
type Item<'a> = Vec<Node<'a>>;

enum Node<'a> {
    Word(&'a str),
    List {
        open: &'a str,
        items: Vec<Item<'a>>,
        close: &'a str,
        /// Characters that it takes on one line.
        width: usize,
    },
}

impl Node<'_> {
    fn width(&self) -> usize {
        match self {
            Self::Word(":") => 2,
            Self::Word(word) => word.chars().count(),
            Self::List { width, .. } => *width,
        }
    }
}

/// Reads nodes up to a comma, which it takes, or a closing bracket, which it leaves.
fn item<'a>(words: &mut Words<'a>) -> Item<'a> {
    let mut item = Vec::new();
    while let Some(word) = words.peek() {
        match word {
            ")" | "]" | "}" => break,
            "," => {
                words.next();
                break;
            }
            "(" | "[" | "{" => item.push(list(words)),
            _ => {
                words.next();
                item.push(Node::Word(word));
            }
        }
    }
    item
}

fn list<'a>(words: &mut Words<'a>) -> Node<'a> {
    let open = words.next().unwrap_or_default();
    let mut items = Vec::new();
    while words
        .peek()
        .is_some_and(|word| !matches!(word, ")" | "]" | "}"))
    {
        items.push(item(words));
    }
    let close = words.next().unwrap_or_default();
    let inside: usize = items.iter().flatten().map(Node::width).sum();
    let commas = items.len().saturating_sub(1) * ", ".len();
    Node::List {
        open,
        width: open.len() + inside + commas + close.len(),
        items,
        close,
    }
}

/// Puts an item, with `after` characters still to follow on its last line.
fn put_item(item: &Item<'_>, indent: usize, after: usize, out: &mut String) {
    for node in item {
        match node {
            Node::Word(":") => out.push_str(": "),
            Node::Word(word) => out.push_str(word),
            Node::List {
                open,
                items,
                close,
                width,
            } => {
                out.push_str(open);
                if column(out) + width - open.len() + after <= LINE {
                    put_whole(items, out);
                } else {
                    for item in items {
                        new_line(indent + 1, out);
                        put_item(item, indent + 1, ",".len(), out);
                        out.push(',');
                    }
                    new_line(indent, out);
                }
                out.push_str(close);
            }
        }
    }
}

fn put_whole(items: &[Item<'_>], out: &mut String) {
    for (i, item) in items.iter().enumerate() {
        if i > 0 {
            out.push_str(", ");
        }
        // Within a list that fits everything fits, so nothing breaks.
        for node in item {
            match node {
                Node::Word(":") => out.push_str(": "),
                Node::Word(word) => out.push_str(word),
                Node::List {
                    open, items, close, ..
                } => {
                    out.push_str(open);
                    put_whole(items, out);
                    out.push_str(close);
                }
            }
        }
    }
}

fn new_line(indent: usize, out: &mut String) {
    out.push('\n');
    for _ in 0..indent {
        out.push_str(INDENT);
    }
}

fn column(out: &str) -> usize {
    out.rsplit('\n').next().unwrap_or(out).chars().count()
}

/// The words of a compact text: brackets, commas, colons, strings, and all else up to
/// the next of these.
struct Words<'a> {
    /// The word that comes next.
    current: Option<&'a str>,
    /// What stands behind it.
    rest: &'a str,
}

impl<'a> Words<'a> {
    fn new(text: &'a str) -> Self {
        let mut words = Self {
            current: None,
            rest: text,
        };
        words.next();
        words
    }

    const fn peek(&self) -> Option<&'a str> {
        self.current
    }

    fn next(&mut self) -> Option<&'a str> {
        let text = self.rest.trim_start();
        let end = match text.bytes().next() {
            None => 0,
            Some(b'(' | b')' | b'[' | b']' | b'{' | b'}' | b',' | b':') => 1,
            Some(b'"') => string_end(text),
            Some(_) => text.bytes().position(ends_word).unwrap_or(text.len()),
        };
        // All that ends a word is ASCII, so the cut falls between characters.
        let (word, rest) = text.split_at_checked(end).unwrap_or((text, ""));
        self.rest = rest;
        std::mem::replace(&mut self.current, (!word.is_empty()).then_some(word))
    }
}

const fn ends_word(byte: u8) -> bool {
    matches!(
        byte,
        b'(' | b')' | b'[' | b']' | b'{' | b'}' | b',' | b':' | b'"' | b' ' | b'\t' | b'\r' | b'\n'
    )
}

/// Where a quoted string ends, its quotes included.
fn string_end(text: &str) -> usize {
    let mut is_escaped = false;
    for (i, c) in text.char_indices().skip(1) {
        match c {
            _ if is_escaped => is_escaped = false,
            '\\' => is_escaped = true,
            '"' => return i + 1,
            _ => {}
        }
    }
    text.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(compact: &str, expected: &str) {
        assert_eq!(laid_out(compact), expected);
    }

    #[test]
    fn what_fits_stays_on_a_line() {
        check(
            "(id:\"B1\",outline:[(0.0,1.5),(2.0,3.0)],roof:Gable(pitch:0.1),none:[])",
            "(id: \"B1\", outline: [(0.0, 1.5), (2.0, 3.0)], roof: Gable(pitch: 0.1), none: [])\n",
        );
    }

    #[test]
    fn what_does_not_fit_gets_a_line_each() {
        let long = "x".repeat(60);
        check(
            &format!("(name:\"{long}\",other:Some(\"{long}\"),at:(1.0,2.0))"),
            &format!(
                "(\n    name: \"{long}\",\n    other: Some(\"{long}\"),\n    at: (1.0, 2.0),\n)\n"
            ),
        );
    }

    #[test]
    fn a_line_of_exactly_the_limit_is_kept_and_one_more_is_broken() {
        for (n, is_whole) in [(LINE - 4, true), (LINE - 3, false)] {
            let text = laid_out(&format!("(\"{}\")", "x".repeat(n)));
            assert_eq!(text.lines().count() == 1, is_whole, "{n}");
        }
    }

    #[test]
    fn strings_are_left_alone() {
        let text = r#"(notes:"a, (b): [\"c\"] \\",id:r#cost)"#;
        check(text, "(notes: \"a, (b): [\\\"c\\\"] \\\\\", id: r#cost)\n");
    }
}
