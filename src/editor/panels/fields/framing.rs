//! Fields of a framing.

use super::UNKNOWN;
use crate::editor::widgets::{Form, section_ui};
use crate::site::{
    Allowance, BayId, BottomChord, Framing, GridId, HangFrom, MemberKind, Panels, Site,
};
use crate::units::{Length, SmallLength};
use eframe::egui::Ui;

const KINDS: [MemberKind; 4] = [
    MemberKind::OpenWebJoist,
    MemberKind::TimberTruss,
    MemberKind::Purlin,
    MemberKind::Beam,
];

const CHORDS: [(BottomChord, &str); 2] = [
    (BottomChord::Parallel, "as roof"),
    (BottomChord::Level, "level"),
];

/// Where from a load may hang, in words.
const HANG_FROM: [(HangFrom, &str); 3] = [
    (HangFrom::BottomChord, "bottom chord"),
    (HangFrom::TopChord, "top chord"),
    (HangFrom::Flange, "flange"),
];

/// Panel points for a kind of member that had none.
const NEW_PANELS: Panels = Panels {
    first: Length::metres(0.6),
    spacing: Length::metres(0.6),
};

/// The fields of framings: members, panel points, allowed loads.
pub(in crate::editor::panels) fn framing_fields_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Framing>,
    site: &Site,
) {
    let kinds = KINDS.map(|kind| (kind, kind.label().to_owned()));
    form.choice(ui, "Members", &kinds, |it| it.kind, take_kind);
    form.quantity(ui, "First at", |it| it.first, |it, first| it.first = first);
    form.quantity(
        ui,
        "Spacing",
        |it| it.spacing,
        |it, spacing| {
            it.spacing = spacing;
        },
    );
    form.optional(
        ui,
        "Number",
        "as many as fit",
        |it| it.count.and_then(|count| u32::try_from(count).ok()),
        |it, count: Option<u32>| it.count = count.and_then(|count| usize::try_from(count).ok()),
    );
    bears_on_ui(ui, form, site);
    section_ui(ui, "Section", "");
    let sections: [(&str, Read, Write); 3] = [
        ("Depth", |it| it.depth, |it, to| it.depth = to),
        ("Seat", |it| it.seat, |it, to| it.seat = to),
        ("Width", |it| it.width, |it, to| it.width = to),
    ];
    for (label, read, write) in sections {
        small_ui(ui, form, label, read, write);
    }
    if form.common(|it| it.kind.has_panel_points()) == Some(true) {
        form.segments(
            ui,
            "Bottom chord",
            &CHORDS,
            |it| it.bottom,
            |it, bottom| {
                it.bottom = bottom;
            },
        );
        panels_ui(ui, form);
    }
    section_ui(ui, "To hang from", "");
    let places = HANG_FROM.map(|(place, label)| (place, label.to_owned()));
    form.choice(
        ui,
        "Hang from",
        &places,
        |it| it.hang_from,
        |it, from| {
            it.hang_from = from;
        },
    );
    small_ui(
        ui,
        form,
        "Clamp drop",
        |it| it.clamp_drop,
        |it, to| {
            it.clamp_drop = to;
        },
    );
    allowances_ui(ui, form);
}

type Read = fn(&Framing) -> Length;
type Write = fn(&mut Framing, Length);

fn small_ui(ui: &mut Ui, form: &mut Form<'_, Framing>, label: &str, read: Read, write: Write) {
    form.quantity(
        ui,
        label,
        |it| SmallLength(read(it)),
        |it, SmallLength(to)| write(it, to),
    );
}

fn panels_ui(ui: &mut Ui, form: &mut Form<'_, Framing>) {
    let of = |it: &Framing| it.panels.unwrap_or(NEW_PANELS);
    form.quantity(
        ui,
        "First panel",
        |it| of(it).first,
        |it, first| {
            it.panels = Some(Panels { first, ..of(it) });
        },
    );
    form.quantity(
        ui,
        "Panel spacing",
        |it| of(it).spacing,
        |it, spacing| {
            it.panels = Some(Panels { spacing, ..of(it) });
        },
    );
}

fn allowances_ui(ui: &mut Ui, form: &mut Form<'_, Framing>) {
    let has_panels = form.common(|it| it.kind.has_panel_points()) == Some(true);
    let at = if has_panels {
        "At panel point"
    } else {
        "At any place"
    };
    let of_load = |load: Option<_>| load.map_or(Allowance::Unknown, Allowance::Known);
    form.optional(
        ui,
        at,
        UNKNOWN,
        |it| it.allowed_at_point.known(),
        |it, load| it.allowed_at_point = of_load(load),
    );
    if has_panels {
        form.optional(
            ui,
            "Off panel",
            UNKNOWN,
            |it| it.allowed_off_panel.known(),
            |it, load| it.allowed_off_panel = of_load(load),
        );
    }
    form.optional(
        ui,
        "One span in all",
        UNKNOWN,
        |it| it.allowed_in_all,
        |it, load| it.allowed_in_all = load,
    );
}

/// The lines that cut members into spans, as one text: `A, B, D`.
fn bears_on_ui(ui: &mut Ui, form: &mut Form<'_, Framing>, site: &Site) {
    let shown = form.common(|it| {
        let ids: Vec<&str> = it.bears_on.iter().map(GridId::as_str).collect();
        ids.join(", ")
    });
    form.entry(
        ui,
        "Bears on",
        shown,
        "",
        "the walls alone",
        |text| lines_named(text, site),
        |it, lines| it.bears_on = lines,
    );
}

fn lines_named(text: &str, site: &Site) -> Result<Vec<GridId>, String> {
    text.split([',', ';', ' '])
        .map(str::trim)
        .filter(|name| !name.is_empty())
        .map(|name| {
            site.grid
                .iter()
                .map(|line| &line.id)
                .find(|id| id.as_str().eq_ignore_ascii_case(name))
                .cloned()
                .ok_or_else(|| {
                    let known: Vec<&str> = site.grid.iter().map(|line| line.id.as_str()).collect();
                    format!(
                        "there is no grid line “{name}”; there are {}",
                        if known.is_empty() {
                            "none".to_owned()
                        } else {
                            known.join(", ")
                        }
                    )
                })
        })
        .collect()
}

/// The bays, for a framing that is to carry another roof.
pub(in crate::editor::panels) fn framing_place_ui(
    ui: &mut Ui,
    form: &mut Form<'_, Framing>,
    site: &Site,
) {
    let bays: Vec<(BayId, String)> = site
        .bays
        .iter()
        .map(|bay| (bay.id.clone(), super::titled(bay.id.as_str(), &bay.name)))
        .collect();
    form.choice(
        ui,
        "Bay",
        &bays,
        |it| it.bay.clone(),
        |it, bay| it.bay = bay,
    );
    form.pair(
        ui,
        "Counted from",
        ["Counted from, east", "Counted from, north"],
        ["E", "N"],
        |it, axis| Length::metres(it.anchor[axis]),
        |it, axis, to: Length| it.anchor[axis] = to.as_metres(),
    );
    form.quantity(
        ui,
        "Bearing",
        |it| it.bearing,
        |it, bearing| {
            it.bearing = bearing;
        },
    );
}

/// Members of another kind hang from another place, and have panel points or have not.
fn take_kind(it: &mut Framing, kind: MemberKind) {
    if kind.has_panel_points() {
        it.panels = it.panels.or(Some(NEW_PANELS));
        if it.hang_from == HangFrom::Flange {
            it.hang_from = HangFrom::BottomChord;
        }
    } else {
        it.panels = None;
        it.hang_from = HangFrom::Flange;
        it.bottom = BottomChord::Parallel;
    }
    it.kind = kind;
}
