//! The tables of a DXF file.

use crate::geometry::DVec2;
use crate::sheets::dxf::blocks::Block;
use crate::sheets::dxf::look::{self, APPLICATION};
use crate::sheets::dxf::tags::{Handle, Handles, Tags};

/// The objects to which others refer, whichever section they are in.
#[derive(Debug, Clone, Copy)]
pub(super) struct Anchors {
    /// Block record of model space.
    pub(super) model: Handle,
    /// Block record of paper space.
    pub(super) paper: Handle,
    /// Layout of model space.
    pub(super) model_layout: Handle,
    /// Layout of paper space.
    pub(super) paper_layout: Handle,
    /// The plot style of all layers.
    pub(super) plot_style: Handle,
}

impl Anchors {
    /// Takes a handle for each.
    pub(super) fn new(handles: &mut Handles) -> Self {
        Self {
            model: handles.take(),
            paper: handles.take(),
            model_layout: handles.take(),
            paper_layout: handles.take(),
            plot_style: handles.take(),
        }
    }
}

/// What model space covers: least and greatest corner, in its unit.
pub(super) type Extents = (DVec2, DVec2);

/// All tables, in the order that readers expect.
pub(super) fn tables(
    handles: &mut Handles,
    anchors: &Anchors,
    blocks: &[Block],
    extents: Extents,
) -> Tags {
    let mut tags = Tags::default();
    table(&mut tags, handles, "VPORT", |tags, handles, table| {
        viewport(tags, handles, table, extents)
    });
    table(&mut tags, handles, "LTYPE", look::line_types);
    table(&mut tags, handles, "LAYER", |tags, handles, table| {
        look::layers(tags, handles, table, anchors.plot_style);
    });
    table(&mut tags, handles, "STYLE", look::styles);
    table(&mut tags, handles, "VIEW", |_, _, _| {});
    table(&mut tags, handles, "UCS", |_, _, _| {});
    table(&mut tags, handles, "APPID", applications);
    table(&mut tags, handles, "DIMSTYLE", dimension_style);
    table(
        &mut tags,
        handles,
        "BLOCK_RECORD",
        |tags, handles, table| {
            records(tags, handles, table, anchors, blocks);
        },
    );
    tags
}

/// One table. Its count is a hint that readers ignore; entries follow until its end.
fn table(
    tags: &mut Tags,
    handles: &mut Handles,
    name: &str,
    entries: impl FnOnce(&mut Tags, &mut Handles, Handle),
) {
    let handle = handles.take();
    tags.tag(0, "TABLE");
    tags.tag(2, name);
    tags.tag(5, handle);
    tags.tag(330, Handle::NOBODY);
    tags.tag(100, "AcDbSymbolTable");
    tags.tag(70, 1);
    if name == "DIMSTYLE" {
        tags.tag(100, "AcDbDimStyleTable");
    }
    entries(tags, handles, handle);
    tags.tag(0, "ENDTAB");
}

/// The view that model space opens with: all of it.
fn viewport(tags: &mut Tags, handles: &mut Handles, table: Handle, (least, most): Extents) {
    let size = most - least;
    tags.object("VPORT", handles.take(), table);
    tags.tag(100, "AcDbSymbolTableRecord");
    tags.tag(100, "AcDbViewportTableRecord");
    tags.tag(2, "*Active");
    tags.tag(70, 0);
    tags.point_2d(10, DVec2::ZERO);
    tags.point_2d(11, DVec2::ONE);
    tags.point_2d(12, least.midpoint(most));
    tags.point_2d(13, DVec2::ZERO);
    tags.point_2d(14, DVec2::ONE);
    tags.point_2d(15, DVec2::ONE);
    tags.point_2d(16, DVec2::ZERO);
    tags.real(36, 1.0);
    tags.point(17, DVec2::ZERO);
    // The height that shows all of it in a window of this aspect, and a little around.
    let aspect = 1.6;
    tags.real(40, 1.05 * size.y.max(size.x / aspect).max(1.0));
    tags.real(41, aspect);
    tags.real(42, 50.0);
    for code in [43, 44, 50, 51] {
        tags.real(code, 0.0);
    }
    for (code, value) in [
        (71, 0),
        (72, 1000),
        (73, 1),
        (74, 3),
        (75, 0),
        (76, 0),
        (77, 0),
        (78, 0),
        (281, 0),
        (65, 1),
    ] {
        tags.tag(code, value);
    }
}

fn applications(tags: &mut Tags, handles: &mut Handles, table: Handle) {
    for name in ["ACAD", "AcAecLayerStandard", APPLICATION] {
        tags.object("APPID", handles.take(), table);
        tags.tag(100, "AcDbSymbolTableRecord");
        tags.tag(100, "AcDbRegAppTableRecord");
        tags.tag(2, name);
        tags.tag(70, 0);
    }
}

/// The style that every file has. Our own dimensions are lines and texts, which keep
/// their looks in every reader; this is for what a user adds: sizes in millimetres of
/// paper.
fn dimension_style(tags: &mut Tags, handles: &mut Handles, table: Handle) {
    tags.tag(0, "DIMSTYLE");
    tags.tag(105, handles.take());
    tags.tag(330, table);
    tags.tag(100, "AcDbSymbolTableRecord");
    tags.tag(100, "AcDbDimStyleTableRecord");
    tags.tag(2, "Standard");
    tags.tag(70, 0);
    for (code, value) in [
        (40, 1.0),
        (41, 2.5),
        (42, 0.625),
        (43, 3.75),
        (44, 1.25),
        (140, 2.5),
        (141, 2.5),
        (144, 1.0),
        (147, 0.625),
    ] {
        tags.real(code, value);
    }
    for (code, value) in [(77, 1), (271, 2), (272, 2)] {
        tags.tag(code, value);
    }
}

fn records(tags: &mut Tags, _: &mut Handles, table: Handle, anchors: &Anchors, blocks: &[Block]) {
    record(
        tags,
        table,
        anchors.model,
        MODEL_SPACE,
        anchors.model_layout,
    );
    record(
        tags,
        table,
        anchors.paper,
        PAPER_SPACE,
        anchors.paper_layout,
    );
    for block in blocks {
        record(tags, table, block.record, &block.name, Handle::NOBODY);
    }
}

/// Name of the block that is model space.
pub(super) const MODEL_SPACE: &str = "*Model_Space";
/// Name of the block that is paper space.
pub(super) const PAPER_SPACE: &str = "*Paper_Space";

fn record(tags: &mut Tags, table: Handle, handle: Handle, name: &str, layout: Handle) {
    tags.object("BLOCK_RECORD", handle, table);
    tags.tag(100, "AcDbSymbolTableRecord");
    tags.tag(100, "AcDbBlockTableRecord");
    tags.tag(2, name);
    tags.tag(340, layout);
    // Without a unit, so that readers don't convert what the insertion scales.
    tags.tag(70, 0);
    tags.tag(280, 1);
    tags.tag(281, 0);
}
