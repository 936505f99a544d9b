//! The colours, by role, light and dark.

use eframe::egui::Color32;

/// Colours of panels, text and controls.
#[derive(Debug, PartialEq)]
pub struct Palette {
    /// Panels.
    pub ground: Color32,
    /// Fields, cards, buttons: paper on the ground.
    pub paper: Color32,
    /// Under the pointer, and behind chosen rows.
    pub band: Color32,
    /// Hairlines between parts.
    pub rule: Color32,
    /// Outlines of cards and buttons.
    pub edge: Color32,
    /// Outlines of fields, which must be found without hovering.
    pub field_edge: Color32,
    /// Text.
    pub ink: Color32,
    /// Labels and second lines.
    pub soft_ink: Color32,
    /// Sources, units, column headings, what is not there yet.
    pub faint_ink: Color32,
    /// The chosen segment, the main button.
    pub solid: Color32,
    /// The main button under the pointer.
    pub solid_hover: Color32,
    /// Text on [`Self::solid`].
    pub on_solid: Color32,
    /// The stage that is open, and little else: the colour of the runs.
    pub accent: Color32,
    /// Focus, links, text selection's frame.
    pub focus: Color32,
    /// Behind selected text.
    pub selected_text: Color32,
    /// A breach, as text and shape.
    pub breach: Color32,
    /// Behind a breach.
    pub breach_tint: Color32,
    /// A caution, as text and shape.
    pub caution: Color32,
    /// Behind a caution.
    pub caution_tint: Color32,
    /// A note, as text and shape.
    pub note: Color32,
    /// In order, current, exact.
    pub ok: Color32,
    /// The status line.
    pub bar: Color32,
    /// Text on the status line.
    pub bar_ink: Color32,
    /// Second text on the status line.
    pub bar_soft: Color32,
    /// A breach on the status line.
    pub bar_breach: Color32,
    /// A caution, or work going on, on the status line.
    pub bar_caution: Color32,
    /// "Up to date" on the status line.
    pub bar_ok: Color32,
    /// Cast by menus and questions.
    pub shadow: Color32,
}

/// Colours of the drawing. Steel in cool greys by weight, obstructions as quiet hatched
/// solids, runs as the only saturated things.
#[derive(Debug, PartialEq)]
pub struct CanvasRoles {
    /// The paper.
    pub ground: Color32,
    /// The floor of a bay.
    pub floor: Color32,
    /// Outline of a bay: the heaviest line.
    pub wall: Color32,
    /// An opening in a wall, and its door drawn open.
    pub opening: Color32,
    /// Grid lines.
    pub grid: Color32,
    /// Bubbles and letters of grid lines.
    pub grid_text: Color32,
    /// Members while another stage is open.
    pub member_quiet: Color32,
    /// Members.
    pub member: Color32,
    /// A member that is not there, or not where the drawing has it.
    pub member_changed: Color32,
    /// Girders, walls that bear, the roof line in a profile.
    pub steel: Color32,
    /// Inside of a member's section in a profile.
    pub steel_fill: Color32,
    /// Panel points and other places to hang from.
    pub hang_point: Color32,
    /// Outline of an obstruction.
    pub obstruction: Color32,
    /// Its hatch.
    pub obstruction_hatch: Color32,
    /// Its ground.
    pub obstruction_fill: Color32,
    /// Its name and heights.
    pub obstruction_text: Color32,
    /// Tube of a run.
    pub run: Color32,
    /// Burner of a run.
    pub burner: Color32,
    /// A run's name.
    pub run_text: Color32,
    /// Keep-clear envelope.
    pub envelope: Color32,
    /// Inside of an envelope.
    pub envelope_fill: Color32,
    /// A hanger's ring and suspension.
    pub hanger: Color32,
    /// Inside of a hanger's ring.
    pub hanger_fill: Color32,
    /// A cross channel.
    pub channel: Color32,
    /// A hanger's length.
    pub hanger_text: Color32,
    /// A load as a bar.
    pub load: Color32,
    /// A load in figures.
    pub load_text: Color32,
    /// A breach.
    pub breach: Color32,
    /// Inside of what is breached.
    pub breach_fill: Color32,
    /// A caution.
    pub caution: Color32,
    /// A note.
    pub note: Color32,
    /// What is selected.
    pub selection: Color32,
    /// Inside of what is selected, and the box that selects.
    pub selection_fill: Color32,
    /// What the pointer is over.
    pub hover: Color32,
    /// Dimensions that come and go while something moves.
    pub dimension: Color32,
    /// Dimensions that stay.
    pub dimension_quiet: Color32,
    /// What the pointer snaps to.
    pub snap: Color32,
    /// What is being drawn, before it is there.
    pub draft: Color32,
    /// A work spot.
    pub work_spot: Color32,
    /// Ground behind a label that would lie on lines.
    pub label_ground: Color32,
}

const fn rgb(hex: u32) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    Color32::from_rgb(r, g, b)
}

/// A colour with an opacity, 0 to 255.
const fn clear(hex: u32, opacity: u8) -> Color32 {
    let [_, r, g, b] = hex.to_be_bytes();
    // Kept premultiplied, in the way that blends in gamma space.
    Color32::from_rgba_premultiplied(
        thinned(r, opacity),
        thinned(g, opacity),
        thinned(b, opacity),
        opacity,
    )
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a byte times a byte over 255 is a byte"
)]
const fn thinned(channel: u8, opacity: u8) -> u8 {
    ((channel as u16 * opacity as u16 + 127) / 255) as u8
}

pub(super) const LIGHT: Palette = Palette {
    ground: rgb(0xF5F4F0),
    paper: rgb(0xFDFCFA),
    band: rgb(0xEAE8E2),
    rule: rgb(0xDEDBD3),
    edge: rgb(0xC9C5BB),
    field_edge: rgb(0x8C8981),
    ink: rgb(0x22262B),
    soft_ink: rgb(0x50555C),
    faint_ink: rgb(0x63666B),
    solid: rgb(0x23272D),
    solid_hover: rgb(0x3C424A),
    on_solid: rgb(0xFDFCFA),
    accent: rgb(0xC2460F),
    focus: rgb(0x1F5FAF),
    selected_text: rgb(0xC6DAF2),
    breach: rgb(0xA3004F),
    breach_tint: rgb(0xFAEEF3),
    caution: rgb(0x7A5B00),
    caution_tint: rgb(0xF8F2E2),
    note: rgb(0x4C5968),
    ok: rgb(0x1F6A48),
    bar: rgb(0x23272D),
    bar_ink: rgb(0xF1EFEA),
    bar_soft: rgb(0xB4B8BC),
    bar_breach: rgb(0xFF9CC8),
    bar_caution: rgb(0xE9C46A),
    bar_ok: rgb(0x9BD8B7),
    shadow: clear(0x000000, 36),
};

pub(super) const LIGHT_CANVAS: CanvasRoles = CanvasRoles {
    ground: rgb(0xFDFCFA),
    floor: rgb(0xFFFFFF),
    wall: rgb(0x1E2227),
    opening: rgb(0x575C63),
    grid: rgb(0x9AA0A6),
    grid_text: rgb(0x2B3036),
    member_quiet: rgb(0xC9D3DA),
    member: rgb(0x7E95A4),
    member_changed: rgb(0x3D5A73),
    steel: rgb(0x2F3B45),
    steel_fill: rgb(0xDCE5EB),
    hang_point: rgb(0x6E8392),
    obstruction: rgb(0x7A7E83),
    obstruction_hatch: rgb(0xCBCAC5),
    obstruction_fill: rgb(0xF5F4F0),
    obstruction_text: rgb(0x5A5E64),
    run: rgb(0xC84B16),
    burner: rgb(0x8A2D0B),
    run_text: rgb(0x22262B),
    envelope: rgb(0xC2602F),
    envelope_fill: clear(0xC84B16, 16),
    hanger: rgb(0x22262B),
    hanger_fill: rgb(0xFFFFFF),
    channel: rgb(0x22262B),
    hanger_text: rgb(0x22262B),
    load: rgb(0xE9CFC3),
    load_text: rgb(0x5F554F),
    breach: rgb(0xA3004F),
    breach_fill: clear(0xA3004F, 34),
    caution: rgb(0x7A5B00),
    note: rgb(0x4C5968),
    selection: rgb(0x1F5FAF),
    selection_fill: clear(0x1F5FAF, 22),
    hover: rgb(0x4E7FC0),
    dimension: rgb(0x1F5FAF),
    dimension_quiet: rgb(0x666A70),
    snap: rgb(0x1F5FAF),
    draft: rgb(0x4E7FC0),
    work_spot: rgb(0x1F6A48),
    label_ground: rgb(0xFDFCFA),
};

pub(super) const DARK: Palette = Palette {
    ground: rgb(0x212429),
    paper: rgb(0x191B1F),
    band: rgb(0x2E3238),
    rule: rgb(0x373B42),
    edge: rgb(0x4A4F57),
    field_edge: rgb(0x7C828B),
    ink: rgb(0xEAE7E1),
    soft_ink: rgb(0xBFC0C0),
    faint_ink: rgb(0xA2A5A9),
    solid: rgb(0xE4E1DA),
    solid_hover: rgb(0xFFFDF8),
    on_solid: rgb(0x1B1D21),
    accent: rgb(0xF0783F),
    focus: rgb(0x7FB2F0),
    selected_text: rgb(0x2C4C74),
    breach: rgb(0xFF8FBF),
    breach_tint: rgb(0x33202B),
    caution: rgb(0xE3BE62),
    caution_tint: rgb(0x302A1C),
    note: rgb(0xAEBBC9),
    ok: rgb(0x86CBA6),
    bar: rgb(0x121417),
    bar_ink: rgb(0xEAE7E1),
    bar_soft: rgb(0xA9ADB2),
    bar_breach: rgb(0xFF8FBF),
    bar_caution: rgb(0xE3BE62),
    bar_ok: rgb(0x86CBA6),
    shadow: clear(0x000000, 110),
};

pub(super) const DARK_CANVAS: CanvasRoles = CanvasRoles {
    ground: rgb(0x191B1F),
    floor: rgb(0x1C1F23),
    wall: rgb(0xECE9E3),
    opening: rgb(0xB2B5B8),
    grid: rgb(0x6A7077),
    grid_text: rgb(0xD6D5D1),
    member_quiet: rgb(0x3B454D),
    member: rgb(0x6F8796),
    member_changed: rgb(0xA9C4D8),
    steel: rgb(0xC6D2DB),
    steel_fill: rgb(0x34414B),
    hang_point: rgb(0x8298A7),
    obstruction: rgb(0x8B8F94),
    obstruction_hatch: rgb(0x45484D),
    obstruction_fill: rgb(0x24272B),
    obstruction_text: rgb(0xB4B6B9),
    run: rgb(0xF0783F),
    burner: rgb(0xFFA476),
    run_text: rgb(0xEAE7E1),
    envelope: rgb(0xD98A63),
    envelope_fill: clear(0xF0783F, 20),
    hanger: rgb(0xEAE7E1),
    hanger_fill: rgb(0x191B1F),
    channel: rgb(0xEAE7E1),
    hanger_text: rgb(0xEAE7E1),
    load: rgb(0x5A4036),
    load_text: rgb(0xC9BDB6),
    breach: rgb(0xFF8FBF),
    breach_fill: clear(0xFF8FBF, 44),
    caution: rgb(0xE3BE62),
    note: rgb(0xAEBBC9),
    selection: rgb(0x7FB2F0),
    selection_fill: clear(0x7FB2F0, 30),
    hover: rgb(0x9CC3F3),
    dimension: rgb(0x7FB2F0),
    dimension_quiet: rgb(0xA2A5A9),
    snap: rgb(0x7FB2F0),
    draft: rgb(0x9CC3F3),
    work_spot: rgb(0x86CBA6),
    label_ground: rgb(0x191B1F),
};

#[cfg(test)]
impl Palette {
    /// Every text with every ground that it is set on.
    pub(super) fn texts(&self) -> Vec<(&'static str, Color32, Color32)> {
        let mut pairs = Vec::new();
        for ground in [self.ground, self.paper, self.band] {
            pairs.extend([
                ("ink", self.ink, ground),
                ("soft ink", self.soft_ink, ground),
                ("faint ink", self.faint_ink, ground),
                ("breach", self.breach, ground),
                ("caution", self.caution, ground),
                ("note", self.note, ground),
                ("ok", self.ok, ground),
                ("focus", self.focus, ground),
            ]);
        }
        for tint in [self.breach_tint, self.caution_tint] {
            pairs.extend([
                ("ink on tint", self.ink, tint),
                ("soft ink on tint", self.soft_ink, tint),
                ("breach on tint", self.breach, tint),
                ("caution on tint", self.caution, tint),
            ]);
        }
        pairs.extend([
            ("on solid", self.on_solid, self.solid),
            ("on solid, hovered", self.on_solid, self.solid_hover),
            ("selected text", self.ink, self.selected_text),
            ("bar", self.bar_ink, self.bar),
            ("bar, soft", self.bar_soft, self.bar),
            ("bar, breach", self.bar_breach, self.bar),
            ("bar, caution", self.bar_caution, self.bar),
            ("bar, ok", self.bar_ok, self.bar),
        ]);
        pairs
    }

    /// Every shape that must be seen to work a control, with its grounds.
    pub(super) fn shapes(&self) -> Vec<(&'static str, Color32, Color32)> {
        let mut pairs = Vec::new();
        for ground in [self.ground, self.paper] {
            pairs.extend([
                ("field edge", self.field_edge, ground),
                ("accent", self.accent, ground),
                ("focus", self.focus, ground),
                ("solid", self.solid, ground),
            ]);
        }
        pairs
    }
}

#[cfg(test)]
impl CanvasRoles {
    /// Every text on the canvas.
    pub(super) fn texts(&self) -> Vec<(&'static str, Color32)> {
        vec![
            ("grid text", self.grid_text),
            ("obstruction text", self.obstruction_text),
            ("run text", self.run_text),
            ("hanger text", self.hanger_text),
            ("load text", self.load_text),
            ("breach", self.breach),
            ("caution", self.caution),
            ("note", self.note),
            ("dimension", self.dimension),
            ("dimension, quiet", self.dimension_quiet),
            ("snap", self.snap),
        ]
    }

    /// Every line and mark that carries meaning of its own.
    pub(super) fn shapes(&self) -> Vec<(&'static str, Color32)> {
        vec![
            ("wall", self.wall),
            ("opening", self.opening),
            ("member", self.member),
            ("member, changed", self.member_changed),
            ("steel", self.steel),
            ("hang point", self.hang_point),
            ("obstruction", self.obstruction),
            ("run", self.run),
            ("burner", self.burner),
            ("envelope", self.envelope),
            ("hanger", self.hanger),
            ("channel", self.channel),
            ("selection", self.selection),
            ("hover", self.hover),
            ("draft", self.draft),
            ("work spot", self.work_spot),
        ]
    }
}
