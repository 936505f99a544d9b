//! The hatch of obstructions: one small tile, repeated by the graphics card, so that
//! two thousand hatched solids cost two thousand quads.

use super::pen::HATCH_TILE;
use eframe::egui::{
    Color32, ColorImage, Context, TextureHandle, TextureId, TextureOptions, TextureWrapMode,
};

/// The tile, made for the resolution of the screen that the window is on.
#[derive(Default)]
pub(in crate::editor) struct Hatch {
    tile: Option<(f32, TextureHandle)>,
}

impl std::fmt::Debug for Hatch {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Hatch")
    }
}

impl Hatch {
    /// The tile's texture: white lines at 45 degrees on nothing.
    pub(in crate::editor) fn texture(&mut self, ctx: &Context) -> TextureId {
        let resolution = ctx.pixels_per_point();
        match &self.tile {
            Some((known, tile)) if *known == resolution => tile.id(),
            _ => {
                let options = TextureOptions {
                    wrap_mode: TextureWrapMode::Repeat,
                    ..TextureOptions::LINEAR
                };
                let tile = ctx.load_texture("hatch", tile(resolution), options);
                let id = tile.id();
                self.tile = Some((resolution, tile));
                id
            }
        }
    }
}

/// One line from corner to corner, a point wide, its edges softened over one texel.
fn tile(resolution: f32) -> ColorImage {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a tile has a handful of texels"
    )]
    let side = (HATCH_TILE * resolution).round().clamp(4.0, 64.0) as usize;
    let mut image = ColorImage::filled([side, side], Color32::TRANSPARENT);
    for y in 0..side {
        for x in 0..side {
            // Distance from the line x + y = side, which the tile repeats, in texels.
            let sum = (x + y + 1) % side;
            let off = sum.min(side - sum);
            #[expect(clippy::cast_precision_loss, reason = "a handful of texels")]
            let distance = off as f32 * std::f32::consts::FRAC_1_SQRT_2;
            let cover = (resolution * 0.5 + 0.5 - distance).clamp(0.0, 1.0);
            image[(x, y)] = Color32::WHITE.gamma_multiply(cover);
        }
    }
    image
}
