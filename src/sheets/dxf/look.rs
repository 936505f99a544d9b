//! Colours, line types, line weights and text styles in a DXF file.

use crate::sheets::dxf::tags::{Handle, Handles, Tags};
use crate::sheets::fonts::Face;
use crate::sheets::layer::Layer;
use crate::sheets::pen::{DOT, Ink, LineKind, Pen};

/// Name under which our own data is attached to entities.
pub(super) const APPLICATION: &str = "RAFTERGLOW";

/// The layer of the viewports' borders, which isn't printed.
pub(super) const VIEWPORT_LAYER: &str = "G-VIEWPORT";

/// Where an entity's colour comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Colour {
    /// From its layer.
    OfLayer,
    /// From the use of the block that it is in.
    OfBlock,
    /// Its own.
    Own(Ink),
}

/// How an entity looks and what it draws.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look<'a> {
    /// The layer's name.
    pub(super) layer: &'a str,
    /// Its colour.
    pub(super) colour: Colour,
    /// Kind and id of the object of the site that it draws.
    pub(super) subject: Option<&'a str>,
}

/// Begins an entity. In model and paper space the owner is that space's block record.
pub(super) fn begin(
    tags: &mut Tags,
    kind: &str,
    handles: &mut Handles,
    owner: Owner,
    look: &Look<'_>,
) -> Handle {
    let handle = handles.take();
    tags.object(kind, handle, owner.record);
    tags.tag(100, "AcDbEntity");
    if owner.on_paper == OnPaper::Yes {
        tags.tag(67, 1);
    }
    tags.tag(8, look.layer);
    match look.colour {
        Colour::OfLayer => {}
        Colour::OfBlock => tags.tag(62, 0),
        Colour::Own(ink) => colour(tags, ink),
    }
    handle
}

/// Whether an entity of the entities section lies on paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum OnPaper {
    /// In model space or in a block.
    No,
    /// In paper space.
    Yes,
}

/// To what an entity belongs.
#[derive(Debug, Clone, Copy)]
pub(super) struct Owner {
    /// The block record of its space or block.
    pub(super) record: Handle,
    /// Whether that is paper space.
    pub(super) on_paper: OnPaper,
}

/// Attaches the subject to the entity that was written last.
pub(super) fn subject(tags: &mut Tags, look: &Look<'_>) {
    if let Some(subject) = look.subject {
        tags.tag(1001, APPLICATION);
        tags.attached_text(1000, subject);
    }
}

/// Line type, its scale and the line weight. `per_mm` is how many units a millimetre
/// of paper has where the line is drawn.
pub(super) fn pen(tags: &mut Tags, pen: Pen, per_mm: f64) {
    if pen.kind != LineKind::Continuous {
        tags.tag(6, line_type(pen.kind));
        // Patterns are defined in line widths.
        tags.real(48, pen.width.mm() * per_mm);
    }
    tags.tag(370, hundredths(pen.width.mm()));
}

/// The line weight, hundredths of a millimetre.
fn hundredths(width_mm: f64) -> String {
    format!("{:.0}", width_mm * 100.0)
}

/// A line type's name in the file.
const fn line_type(kind: LineKind) -> &'static str {
    match kind {
        LineKind::Continuous => "Continuous",
        LineKind::Dashed => "DASHED",
        LineKind::LongDashDot => "LONG-DASH-DOT",
        LineKind::LongDashDoubleDot => "LONG-DASH-DOUBLE-DOT",
    }
}

/// The name of a face's text style.
pub(super) const fn style(face: Face) -> &'static str {
    match face {
        Face::Regular => "REGULAR",
        Face::Bold => "BOLD",
        Face::Condensed => "CONDENSED",
    }
}

/// The nearest colour of the format's palette, for readers that know no others.
const fn palette(ink: Ink) -> u16 {
    match ink {
        // White on a dark screen, black on paper.
        Ink::Black | Ink::Step(..) => 7,
        Ink::DarkGrey => 251,
        Ink::Grey => 253,
        Ink::LightGrey => 254,
        Ink::Paper => 255,
        Ink::Ember => 32,
        Ink::Lake => 144,
        Ink::Alarm => 14,
    }
}

/// The palette's colour, and the true one where it differs.
fn colour(tags: &mut Tags, ink: Ink) {
    tags.tag(62, palette(ink));
    if ink != Ink::Black {
        let [red, green, blue] = ink.rgb();
        tags.tag(420, u32::from_be_bytes([0, red, green, blue]));
    }
}

/// One entry of the line type table for each line type, and the three that every file
/// has.
pub(super) fn line_types(tags: &mut Tags, handles: &mut Handles, table: Handle) {
    for name in ["ByBlock", "ByLayer", "Continuous"] {
        line_type_entry(tags, handles.take(), table, name, "", &[]);
    }
    for (kind, description) in [
        (LineKind::Dashed, "Dashed, ISO 128 number 02"),
        (
            LineKind::LongDashDot,
            "Long-dashed dotted, ISO 128 number 04",
        ),
        (
            LineKind::LongDashDoubleDot,
            "Long-dashed double-dotted, ISO 128 number 05",
        ),
    ] {
        line_type_entry(
            tags,
            handles.take(),
            table,
            line_type(kind),
            description,
            kind.pattern(),
        );
    }
}

fn line_type_entry(
    tags: &mut Tags,
    handle: Handle,
    table: Handle,
    name: &str,
    description: &str,
    pattern: &[f64],
) {
    tags.object("LTYPE", handle, table);
    tags.tag(100, "AcDbSymbolTableRecord");
    tags.tag(100, "AcDbLinetypeTableRecord");
    tags.tag(2, name);
    tags.tag(70, 0);
    tags.tag(3, description);
    tags.tag(72, 65);
    tags.tag(73, pattern.len());
    tags.real(40, pattern.iter().sum());
    for (index, length) in pattern.iter().enumerate() {
        // Down is positive, up is negative, a touch of the pen has no length.
        let down = if *length <= DOT { 0.0 } else { *length };
        tags.real(49, if index % 2 == 0 { down } else { -length });
        tags.tag(74, 0);
    }
}

/// One entry of the layer table for each layer, whether it is used or not, so that all
/// our files have the same.
pub(super) fn layers(tags: &mut Tags, handles: &mut Handles, table: Handle, plot_style: Handle) {
    layer_entry(tags, handles.take(), table, plot_style, "0", Ink::Black);
    for layer in Layer::ALL {
        layer_entry(
            tags,
            handles.take(),
            table,
            plot_style,
            layer.name(),
            layer.ink(),
        );
        tags.tag(1001, "AcAecLayerStandard");
        tags.tag(1000, "");
        tags.tag(1000, layer.description());
    }
    layer_entry(
        tags,
        handles.take(),
        table,
        plot_style,
        VIEWPORT_LAYER,
        Ink::Grey,
    );
}

fn layer_entry(
    tags: &mut Tags,
    handle: Handle,
    table: Handle,
    plot_style: Handle,
    name: &str,
    ink: Ink,
) {
    tags.object("LAYER", handle, table);
    tags.tag(100, "AcDbSymbolTableRecord");
    tags.tag(100, "AcDbLayerTableRecord");
    tags.tag(2, name);
    tags.tag(70, 0);
    colour(tags, ink);
    tags.tag(6, "Continuous");
    if name == VIEWPORT_LAYER {
        tags.tag(290, 0);
    }
    tags.tag(370, 25);
    tags.tag(390, plot_style);
}

/// One entry of the text style table for each face, and the one that every file has.
pub(super) fn styles(tags: &mut Tags, handles: &mut Handles, table: Handle) {
    style_entry(tags, handles.take(), table, "Standard", "DejaVuSans.ttf");
    for face in Face::ALL {
        let (file, family, weight) = match face {
            Face::Regular => ("DejaVuSans.ttf", "DejaVu Sans", 0),
            Face::Bold => ("DejaVuSans-Bold.ttf", "DejaVu Sans", 0x200_0000),
            Face::Condensed => ("DejaVuSansCondensed.ttf", "DejaVu Sans Condensed", 0),
        };
        style_entry(tags, handles.take(), table, style(face), file);
        tags.tag(1001, "ACAD");
        tags.tag(1000, family);
        tags.tag(1071, weight);
    }
}

fn style_entry(tags: &mut Tags, handle: Handle, table: Handle, name: &str, file: &str) {
    tags.object("STYLE", handle, table);
    tags.tag(100, "AcDbSymbolTableRecord");
    tags.tag(100, "AcDbTextStyleTableRecord");
    tags.tag(2, name);
    tags.tag(70, 0);
    tags.real(40, 0.0);
    tags.real(41, 1.0);
    tags.real(50, 0.0);
    tags.tag(71, 0);
    tags.real(42, 2.5);
    tags.tag(3, file);
    tags.tag(4, "");
}
