//! The objects of a DXF file that aren't drawn: dictionaries and layouts.

use crate::geometry::DVec2;
use crate::sheets::dxf::tables::{Anchors, Extents};
use crate::sheets::dxf::tags::{Handle, Handles, Tags};
use crate::sheets::mark::Sheet;

/// All objects, the root dictionary first.
pub(super) fn objects(
    handles: &mut Handles,
    anchors: &Anchors,
    sheet: &Sheet,
    extents: Extents,
    paper_viewport: Handle,
) -> Tags {
    let mut tags = Tags::default();
    let root = handles.take();
    let [
        groups,
        layouts,
        line_styles,
        plot_settings,
        plot_styles,
        wipeouts,
    ] = std::array::from_fn(|_| handles.take());
    dictionary(
        &mut tags,
        root,
        Handle::NOBODY,
        &[
            ("ACAD_GROUP", groups),
            ("ACAD_LAYOUT", layouts),
            ("ACAD_MLINESTYLE", line_styles),
            ("ACAD_PLOTSETTINGS", plot_settings),
            ("ACAD_PLOTSTYLENAME", plot_styles),
            ("ACAD_WIPEOUT_VARS", wipeouts),
        ],
    );
    dictionary(&mut tags, groups, root, &[]);
    let name = layout_name(&sheet.title);
    dictionary(
        &mut tags,
        layouts,
        root,
        &[
            ("Model", anchors.model_layout),
            (&name, anchors.paper_layout),
        ],
    );
    let line_style = handles.take();
    dictionary(&mut tags, line_styles, root, &[("Standard", line_style)]);
    multiline_style(&mut tags, line_style, line_styles);
    dictionary(&mut tags, plot_settings, root, &[]);
    plot_style_dictionary(&mut tags, plot_styles, root, anchors.plot_style);
    tags.object("ACDBPLACEHOLDER", anchors.plot_style, plot_styles);
    // Cleared surfaces show no edge.
    tags.object("WIPEOUTVARIABLES", wipeouts, root);
    tags.tag(100, "AcDbWipeoutVariables");
    tags.tag(70, 0);
    model_layout(&mut tags, anchors, layouts, sheet, extents);
    paper_layout(&mut tags, anchors, layouts, sheet, &name, paper_viewport);
    tags
}

fn dictionary(tags: &mut Tags, handle: Handle, owner: Handle, entries: &[(&str, Handle)]) {
    tags.object("DICTIONARY", handle, owner);
    tags.tag(100, "AcDbDictionary");
    tags.tag(281, 1);
    for (name, entry) in entries {
        tags.tag(3, name);
        tags.tag(350, entry);
    }
}

fn plot_style_dictionary(tags: &mut Tags, handle: Handle, owner: Handle, normal: Handle) {
    tags.object("ACDBDICTIONARYWDFLT", handle, owner);
    tags.tag(100, "AcDbDictionary");
    tags.tag(281, 1);
    tags.tag(3, "Normal");
    tags.tag(350, normal);
    tags.tag(100, "AcDbDictionaryWithDefault");
    tags.tag(340, normal);
}

fn multiline_style(tags: &mut Tags, handle: Handle, owner: Handle) {
    tags.object("MLINESTYLE", handle, owner);
    tags.tag(100, "AcDbMlineStyle");
    tags.tag(2, "Standard");
    tags.tag(70, 0);
    tags.tag(3, "");
    tags.tag(62, 256);
    tags.real(51, 90.0);
    tags.real(52, 90.0);
    tags.tag(71, 2);
    for offset in [0.5, -0.5] {
        tags.real(49, offset);
        tags.tag(62, 256);
        tags.tag(6, "ByLayer");
    }
}

/// The sheet's title as a name that layouts may have.
fn layout_name(title: &str) -> String {
    let illegal = |c: char| c.is_control() || "<>/\\\":;?*|,=`'^%".contains(c);
    let name: String = title
        .chars()
        .map(|c| if illegal(c) { '-' } else { c })
        .take(60)
        .collect();
    match name.trim() {
        "" => "Sheet".to_owned(),
        name if name.eq_ignore_ascii_case("model") => "Sheet Model".to_owned(),
        name => name.to_owned(),
    }
}

fn model_layout(
    tags: &mut Tags,
    anchors: &Anchors,
    owner: Handle,
    sheet: &Sheet,
    (least, most): Extents,
) {
    tags.object("LAYOUT", anchors.model_layout, owner);
    // Flag 1024: the settings of model space.
    plot_settings(tags, sheet, 1024);
    layout(tags, "Model", 0, least, most);
    tags.tag(330, anchors.model);
}

fn paper_layout(
    tags: &mut Tags,
    anchors: &Anchors,
    owner: Handle,
    sheet: &Sheet,
    name: &str,
    viewport: Handle,
) {
    tags.object("LAYOUT", anchors.paper_layout, owner);
    // Flags 512 (initialised), 128 (line weights are printed), 32 (plot styles are used).
    plot_settings(tags, sheet, 672);
    layout(
        tags,
        name,
        1,
        DVec2::ZERO,
        DVec2::new(sheet.size.width_mm(), sheet.size.height_mm()),
    );
    tags.tag(330, anchors.paper);
    tags.tag(331, viewport);
}

/// The sheet's size, no margins but those drawn, one to one, in millimetres.
fn plot_settings(tags: &mut Tags, sheet: &Sheet, flags: u16) {
    let (width, height) = (sheet.size.width_mm(), sheet.size.height_mm());
    let paper = sheet.size.format.name().replace(' ', "_");
    tags.tag(100, "AcDbPlotSettings");
    tags.tag(1, "");
    tags.tag(2, "");
    tags.tag(4, format!("{paper}_({width:.2}_x_{height:.2}_MM)"));
    tags.tag(6, "");
    for code in [40, 41, 42, 43] {
        tags.real(code, 0.0);
    }
    tags.real(44, width);
    tags.real(45, height);
    for code in [46, 47, 48, 49, 140, 141] {
        tags.real(code, 0.0);
    }
    tags.real(142, 1.0);
    tags.real(143, 1.0);
    for (code, value) in [(70, flags), (72, 1), (73, 0), (74, 5)] {
        tags.tag(code, value);
    }
    tags.tag(7, "");
    for (code, value) in [(75, 16), (76, 0), (77, 2), (78, 300)] {
        tags.tag(code, value);
    }
    tags.real(147, 1.0);
    tags.real(148, 0.0);
    tags.real(149, 0.0);
}

fn layout(tags: &mut Tags, name: &str, place: u8, least: DVec2, most: DVec2) {
    tags.tag(100, "AcDbLayout");
    tags.tag(1, name);
    tags.tag(70, 1);
    tags.tag(71, place);
    tags.point_2d(10, least);
    tags.point_2d(11, most);
    tags.point(12, DVec2::ZERO);
    tags.point(14, least);
    tags.point(15, most);
    tags.real(146, 0.0);
    tags.point(13, DVec2::ZERO);
    tags.point(16, DVec2::X);
    tags.point(17, DVec2::Y);
    tags.tag(76, 0);
}
