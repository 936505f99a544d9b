//! Symbols as DXF blocks, and their uses as insertions with attributes.

use std::sync::Arc;

use crate::geometry::DVec2;
use crate::sheets::dxf::entity::{Sink, text_body};
use crate::sheets::dxf::look::{self, Colour, Look, OnPaper, Owner};
use crate::sheets::dxf::space::Space;
use crate::sheets::dxf::tags::{Handle, Handles, Tags};
use crate::sheets::lettering::{LEAST_HEIGHT_MM, Lettering};
use crate::sheets::mark::{Shape, Sheet};
use crate::sheets::paper::PaperPoint;
use crate::sheets::pen::Ink;
use crate::sheets::symbol::{Field, FieldText, Symbol, SymbolUse};
use crate::sheets::text::Text;

/// A symbol's block.
#[derive(Debug)]
pub(super) struct Block {
    symbol: Arc<Symbol>,
    /// Its name in the file.
    pub(super) name: String,
    /// Its block record.
    pub(super) record: Handle,
    /// The tags of its attributes, by first use.
    fields: Vec<(String, FieldText)>,
}

/// One block for each different symbol that the sheet uses, by first use.
pub(super) fn blocks(sheet: &Sheet, handles: &mut Handles) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for mark in &sheet.marks {
        let Shape::Symbol(used) = &mark.shape else {
            continue;
        };
        let index = find(&blocks, &used.symbol).unwrap_or_else(|| {
            let name = free_name(&blocks, &used.symbol.name);
            blocks.push(Block {
                symbol: Arc::clone(&used.symbol),
                name,
                record: handles.take(),
                fields: Vec::new(),
            });
            blocks.len() - 1
        });
        for field in &used.fields {
            let fields = &mut blocks[index].fields;
            if fields.iter().all(|(tag, _)| *tag != field.tag) {
                fields.push((field.tag.clone(), field.text.clone()));
            }
        }
    }
    blocks
}

fn find(blocks: &[Block], symbol: &Arc<Symbol>) -> Option<usize> {
    blocks
        .iter()
        .position(|block| Arc::ptr_eq(&block.symbol, symbol) || block.symbol == *symbol)
}

/// A name that no block has, of the characters that names may have.
fn free_name(blocks: &[Block], wanted: &str) -> String {
    let legal = |c: char| c.is_ascii_alphanumeric() || c == '-' || c == '_';
    let mut plain: String = wanted
        .chars()
        .map(|c| if legal(c) { c } else { '-' })
        .take(60)
        .collect();
    if plain.is_empty() {
        plain.push_str("SYMBOL");
    }
    let taken = |name: &str| {
        blocks
            .iter()
            .any(|block| block.name.eq_ignore_ascii_case(name))
    };
    let mut name = plain.clone();
    let mut number = 2;
    while taken(&name) {
        name = format!("{plain}-{number}");
        number += 1;
    }
    name
}

/// An attribute's tag: capitals, digits and hyphens.
fn legal_tag(tag: &str) -> String {
    let legal = |c: char| {
        if c.is_ascii_alphanumeric() {
            c.to_ascii_uppercase()
        } else {
            '-'
        }
    };
    let tag: String = tag.chars().map(legal).take(60).collect();
    if tag.is_empty() {
        "FIELD".to_owned()
    } else {
        tag
    }
}

/// Writes the blocks' definitions.
pub(super) fn define(tags: &mut Tags, handles: &mut Handles, blocks: &[Block]) {
    for block in blocks {
        begin_block(
            tags,
            handles,
            block.record,
            &block.name,
            if block.fields.is_empty() { 0 } else { 2 },
        );
        let owner = Owner {
            record: block.record,
            on_paper: OnPaper::No,
        };
        let mut sink = Sink {
            tags,
            handles,
            owner,
            space: Space::Block,
        };
        for part in &block.symbol.parts {
            let colour = part.ink.map_or(Colour::OfBlock, Colour::Own);
            // Layer 0 takes on the layer of the insertion.
            let look = Look {
                layer: "0",
                colour,
                subject: None,
            };
            sink.shape(&part.shape, part.ink.unwrap_or(Ink::Black), &look);
        }
        for (tag, text) in &block.fields {
            define_field(&mut sink, tag, text);
        }
        end_block(tags, handles, block.record);
    }
}

/// Begins a block; flag 2 announces attributes.
pub(super) fn begin_block(
    tags: &mut Tags,
    handles: &mut Handles,
    record: Handle,
    name: &str,
    flags: u8,
) {
    tags.object("BLOCK", handles.take(), record);
    tags.tag(100, "AcDbEntity");
    tags.tag(8, "0");
    tags.tag(100, "AcDbBlockBegin");
    tags.tag(2, name);
    tags.tag(70, flags);
    tags.point(10, DVec2::ZERO);
    tags.tag(3, name);
    tags.tag(1, "");
}

/// Ends a block.
pub(super) fn end_block(tags: &mut Tags, handles: &mut Handles, record: Handle) {
    tags.object("ENDBLK", handles.take(), record);
    tags.tag(100, "AcDbEntity");
    tags.tag(8, "0");
    tags.tag(100, "AcDbBlockEnd");
}

fn define_field(sink: &mut Sink<'_>, tag: &str, text: &FieldText) {
    let (lettering, flags) = match text {
        FieldText::Shown(text) => (text.lettering(), 0),
        FieldText::Hidden(_) => (Lettering::regular(LEAST_HEIGHT_MM), HIDDEN),
    };
    let look = Look {
        layer: "0",
        colour: Colour::OfBlock,
        subject: None,
    };
    let nothing = Text::new("", lettering, PaperPoint::ZERO);
    sink.begin("ATTDEF", &look);
    text_body(sink.tags, &nothing, DVec2::ZERO, &sink.space);
    sink.tags.tag(100, "AcDbAttributeDefinition");
    sink.tags.tag(280, 0);
    sink.tags.tag(3, "");
    sink.tags.tag(2, legal_tag(tag));
    sink.tags.tag(70, flags);
    sink.tags.tag(280, 0);
}

/// Flag of an attribute that isn't drawn.
const HIDDEN: u8 = 1;

/// Writes a use of a symbol. A symbol that has no block isn't of the sheet from which
/// the blocks were made, and draws nothing.
pub(super) fn insert(sink: &mut Sink<'_>, blocks: &[Block], used: &SymbolUse, look: &Look<'_>) {
    let Some(block) = find(blocks, &used.symbol).map(|index| &blocks[index]) else {
        return;
    };
    let at = sink.space.point(used.at);
    let scale = sink.space.per_mm();
    let handle = look::begin(sink.tags, "INSERT", sink.handles, sink.owner, look);
    sink.tags.tag(100, "AcDbBlockReference");
    if !used.fields.is_empty() {
        sink.tags.tag(66, 1);
    }
    sink.tags.tag(2, &block.name);
    sink.tags.point(10, at);
    for code in [41, 42, 43] {
        sink.tags.real(code, scale);
    }
    sink.tags.real(
        50,
        sink.space.turn_degrees(used.turn_degrees).rem_euclid(360.0),
    );
    look::subject(sink.tags, look);
    if used.fields.is_empty() {
        return;
    }
    let plain = Look {
        subject: None,
        ..*look
    };
    let owner = Owner {
        record: handle,
        ..sink.owner
    };
    for field in &used.fields {
        attribute(sink, owner, field, used.at, &plain);
    }
    look::begin(sink.tags, "SEQEND", sink.handles, owner, &plain);
}

fn attribute(sink: &mut Sink<'_>, owner: Owner, field: &Field, at: PaperPoint, look: &Look<'_>) {
    let (text, flags) = match &field.text {
        FieldText::Shown(text) => (text.clone(), 0),
        FieldText::Hidden(value) => (
            Text::new(value, Lettering::regular(LEAST_HEIGHT_MM), at),
            HIDDEN,
        ),
    };
    look::begin(sink.tags, "ATTRIB", sink.handles, owner, look);
    let start = sink.space.point(text.start());
    text_body(sink.tags, &text, start, &sink.space);
    sink.tags.tag(100, "AcDbAttribute");
    sink.tags.tag(280, 0);
    sink.tags.tag(2, legal_tag(&field.tag));
    sink.tags.tag(70, flags);
    sink.tags.tag(280, 0);
}
