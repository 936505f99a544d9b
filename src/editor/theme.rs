//! The look: paper and ink, in one place.
//!
//! A colour is asked for by its role, never by its value; this module alone makes
//! colours. Text comes in four sizes, distances are multiples of four points.
//! Whoever has an `Ui` or a `Context` gets the theme in force by [`Theme::of`].

mod fonts;
mod palette;
mod style;

pub use palette::{CanvasRoles, Palette};

use crate::store::preferences::Look;
use eframe::egui;
use egui::{Color32, FontFamily, FontId};

/// Distances are multiples of this many points.
pub const STEP: f32 = 4.0;

/// Height of one line of controls: fields, buttons, choices. All panels use it, so
/// that their rows line up.
pub const ROW: f32 = 7.0 * STEP;

/// The four text sizes, in points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TextSize {
    /// Sources, units, column headings.
    Small,
    /// Everything that has no reason to be otherwise.
    Body,
    /// The name of a panel.
    Heading,
    /// The one line that an empty window begins with.
    Title,
}

impl TextSize {
    /// All four, smallest first.
    pub const ALL: [Self; 4] = [Self::Small, Self::Body, Self::Heading, Self::Title];

    /// Height of the letters' box, points.
    pub const fn points(self) -> f32 {
        match self {
            Self::Small => 11.5,
            Self::Body => 13.0,
            Self::Heading => 16.0,
            Self::Title => 22.0,
        }
    }

    /// The regular face at this size.
    pub fn font(self) -> FontId {
        FontId::new(self.points(), FontFamily::Proportional)
    }

    /// The bold face at this size.
    pub fn bold(self) -> FontId {
        FontId::new(self.points(), fonts::bold())
    }
}

/// Which of the two palettes a person wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ThemeChoice {
    /// What the desktop says.
    #[default]
    Desktop,
    /// Dark ink on light paper.
    Light,
    /// Light ink on dark paper.
    Dark,
}

impl ThemeChoice {
    /// All choices, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Desktop, Self::Light, Self::Dark];

    /// Its name on the screen.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Desktop => "As the desktop",
            Self::Light => "Light",
            Self::Dark => "Dark",
        }
    }

    /// Puts the choice in force.
    pub fn apply(self, ctx: &egui::Context) {
        let preference = match self {
            Self::Desktop => egui::ThemePreference::System,
            Self::Light => egui::ThemePreference::Light,
            Self::Dark => egui::ThemePreference::Dark,
        };
        if ctx.options(|options| options.theme_preference) != preference {
            ctx.set_theme(preference);
        }
    }
}

impl From<Look> for ThemeChoice {
    fn from(look: Look) -> Self {
        match look {
            Look::Desktop => Self::Desktop,
            Look::Light => Self::Light,
            Look::Dark => Self::Dark,
        }
    }
}

impl From<ThemeChoice> for Look {
    fn from(choice: ThemeChoice) -> Self {
        match choice {
            ThemeChoice::Desktop => Self::Desktop,
            ThemeChoice::Light => Self::Light,
            ThemeChoice::Dark => Self::Dark,
        }
    }
}

/// A complete look.
#[derive(Debug, PartialEq)]
pub struct Theme {
    /// Colours of panels, text and controls.
    pub palette: Palette,
    /// Colours of the drawing on the canvas and in the run profile.
    pub canvas: CanvasRoles,
}

static LIGHT: Theme = Theme {
    palette: palette::LIGHT,
    canvas: palette::LIGHT_CANVAS,
};
static DARK: Theme = Theme {
    palette: palette::DARK,
    canvas: palette::DARK_CANVAS,
};

impl Theme {
    /// Dark ink on light paper.
    pub const fn light() -> &'static Self {
        &LIGHT
    }

    /// Light ink on dark paper.
    pub const fn dark() -> &'static Self {
        &DARK
    }

    /// The theme in force. An `Ui` will do: it derefs to its context.
    pub fn of(ctx: &egui::Context) -> &'static Self {
        match ctx.theme() {
            egui::Theme::Light => Self::light(),
            egui::Theme::Dark => Self::dark(),
        }
    }

    /// Loads the fonts and both looks into a new window, once, before its first frame.
    pub fn install(ctx: &egui::Context) {
        ctx.set_fonts(fonts::definitions());
        // Where the desktop does not say, paper is light.
        ctx.options_mut(|options| options.fallback_theme = egui::Theme::Light);
        ctx.set_style_of(egui::Theme::Light, style::style(Self::light()));
        ctx.set_style_of(egui::Theme::Dark, style::style(Self::dark()));
    }
}

/// The same colour, less of it: 1 leaves it as it is, 0 leaves nothing.
#[must_use]
pub fn faded(colour: Color32, opacity: f32) -> Color32 {
    colour.gamma_multiply(opacity)
}

/// Contrast of two opaque colours after WCAG 2.2, 1 (none) to 21 (black on white).
#[cfg(test)]
fn contrast(one: Color32, other: Color32) -> f32 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Relative luminance after WCAG 2.2, 0 to 1.
#[cfg(test)]
fn luminance(colour: Color32) -> f32 {
    let linear = egui::Rgba::from(colour);
    0.2126 * linear.r() + 0.7152 * linear.g() + 0.0722 * linear.b()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contrast_of_black_on_white_is_twenty_one() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-3);
        assert!((contrast(Color32::WHITE, Color32::WHITE) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn every_text_can_be_read_on_every_ground_it_stands_on() {
        for theme in [Theme::light(), Theme::dark()] {
            for (name, text, ground) in theme.palette.texts() {
                let found = contrast(text, ground);
                assert!(found >= 4.5, "{name}: {found:.2}");
            }
            for (name, text) in theme.canvas.texts() {
                let found = contrast(text, theme.canvas.ground);
                assert!(found >= 4.5, "canvas {name}: {found:.2}");
            }
        }
    }

    #[test]
    fn every_shape_that_carries_meaning_stands_out_from_its_ground() {
        for theme in [Theme::light(), Theme::dark()] {
            for (name, shape, ground) in theme.palette.shapes() {
                let found = contrast(shape, ground);
                assert!(found >= 3.0, "{name}: {found:.2}");
            }
            for (name, shape) in theme.canvas.shapes() {
                let found = contrast(shape, theme.canvas.ground);
                assert!(found >= 3.0, "canvas {name}: {found:.2}");
            }
        }
    }

    #[test]
    fn text_sizes_ascend() {
        assert!(
            TextSize::ALL
                .windows(2)
                .all(|pair| pair[0].points() < pair[1].points())
        );
    }
}
