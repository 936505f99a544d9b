//! The header of a DXF file and the classes that it uses.

use crate::geometry::DVec2;
use crate::sheets::dxf::space::ModelUnit;
use crate::sheets::dxf::tables::Extents;
use crate::sheets::dxf::tags::{Handle, Tags};
use crate::sheets::mark::Sheet;
use crate::sheets::metadata::{CREATOR, Metadata};

/// The header variables. `seed` is greater than every handle of the file.
pub(super) fn header(
    about: &Metadata,
    sheet: &Sheet,
    unit: ModelUnit,
    (least, most): Extents,
    seed: Handle,
) -> Tags {
    let mut tags = Tags::default();
    let mut set = |name: &str, write: &dyn Fn(&mut Tags)| {
        tags.tag(9, name);
        write(&mut tags);
    };
    let paper = DVec2::new(sheet.size.width_mm(), sheet.size.height_mm());
    // Insertion unit, metric or not, how lengths are shown and to what precision: metres to
    // the millimetre; feet and inches to the sixteenth.
    let (insertion, metric, shown, precision) = match unit {
        ModelUnit::Metres => (6, 1, 2, 3),
        ModelUnit::Inches => (1, 0, 4, 4),
    };
    set("$ACADVER", &|t| t.tag(1, "AC1024"));
    set("$DWGCODEPAGE", &|t| t.tag(3, "ANSI_1252"));
    set("$LASTSAVEDBY", &|t| t.tag(1, CREATOR));
    for (name, value) in [
        ("Title", about.title.as_str()),
        ("Sheet", sheet.title.as_str()),
        ("Subject", about.subject.as_str()),
        ("Author", about.author.as_str()),
    ] {
        if !value.is_empty() {
            set("$CUSTOMPROPERTYTAG", &|t| t.tag(1, name));
            set("$CUSTOMPROPERTY", &|t| t.attached_text(1, value));
        }
    }
    if let Some(date) = about.issued {
        set("$CUSTOMPROPERTYTAG", &|t| t.tag(1, "Issued"));
        set("$CUSTOMPROPERTY", &|t| t.tag(1, date));
    }
    set("$INSBASE", &|t| t.point(10, DVec2::ZERO));
    set("$EXTMIN", &|t| t.point(10, least));
    set("$EXTMAX", &|t| t.point(10, most));
    set("$LIMMIN", &|t| t.point_2d(10, least));
    set("$LIMMAX", &|t| t.point_2d(10, most));
    set("$LTSCALE", &|t| t.real(40, 1.0));
    set("$TEXTSTYLE", &|t| t.tag(7, "REGULAR"));
    set("$CLAYER", &|t| t.tag(8, "0"));
    set("$DIMSTYLE", &|t| t.tag(2, "Standard"));
    set("$LUNITS", &|t| t.tag(70, shown));
    set("$LUPREC", &|t| t.tag(70, precision));
    set("$HANDSEED", &|t| t.tag(5, seed));
    set("$TILEMODE", &|t| t.tag(70, 1));
    set("$PEXTMIN", &|t| t.point(10, DVec2::ZERO));
    set("$PEXTMAX", &|t| t.point(10, paper));
    set("$PLIMMIN", &|t| t.point_2d(10, DVec2::ZERO));
    set("$PLIMMAX", &|t| t.point_2d(10, paper));
    // Each entity scales its line type itself, so that dashes are right in both spaces.
    set("$PSLTSCALE", &|t| t.tag(70, 0));
    set("$MEASUREMENT", &|t| t.tag(70, metric));
    set("$LWDISPLAY", &|t| t.tag(290, 1));
    set("$INSUNITS", &|t| t.tag(70, insertion));
    tags
}

/// The classes of what isn't built into every reader.
pub(super) fn classes() -> Tags {
    let mut tags = Tags::default();
    for (name, class, application, flags, entity) in [
        (
            "ACDBDICTIONARYWDFLT",
            "AcDbDictionaryWithDefault",
            "ObjectDBX Classes",
            0,
            0,
        ),
        (
            "ACDBPLACEHOLDER",
            "AcDbPlaceHolder",
            "ObjectDBX Classes",
            0,
            0,
        ),
        ("LAYOUT", "AcDbLayout", "ObjectDBX Classes", 0, 0),
        ("WIPEOUT", "AcDbWipeout", "WipeOut", 127, 1),
        ("WIPEOUTVARIABLES", "AcDbWipeoutVariables", "WipeOut", 0, 0),
    ] {
        tags.tag(0, "CLASS");
        tags.tag(1, name);
        tags.tag(2, class);
        tags.tag(3, application);
        tags.tag(90, flags);
        tags.tag(91, 0);
        tags.tag(280, 0);
        tags.tag(281, entity);
    }
    tags
}
