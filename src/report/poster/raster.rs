//! Our SVG as PNG. The letters are in the binary and no font of the system is looked for, so that each machine draws the
//! same; nothing is loaded from anywhere.

use std::ops::RangeInclusive;
use std::sync::Arc;

use png::{BitDepth, ColorType, PixelDimensions, Unit};
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{ImageHrefResolver, Options, Tree, fontdb};

use super::letters::Weight;

/// The dots per inch that can be asked for: from a proof to what a printer can do.
pub const DPI: RangeInclusive<u32> = 36..=600;

/// The most pixels of a sheet: four bytes each while it is drawn.
const MOST: u64 = 100_000_000;

/// An inch in millimetres.
const INCH: f64 = 25.4;

/// Why a sheet is not drawn as pixels.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Unprinted {
    /// It would not fit into memory.
    #[error(
        "at {dpi} dots per inch this sheet has {wide} × {high} pixels, more than the {} million that are drawn: expected {most} dots per inch or fewer",
        MOST / 1_000_000
    )]
    TooLarge {
        /// Dots per inch that were asked for.
        dpi: u32,
        /// Pixels in a row.
        wide: u32,
        /// Rows.
        high: u32,
        /// The most dots per inch that would do.
        most: u32,
    },
    /// The drawing itself failed.
    #[error("the sheet cannot be drawn: {0}")]
    Undrawn(String),
}

pub(super) fn png(svg: &str, (wide, high): (f64, f64), dpi: u32) -> Result<Vec<u8>, Unprinted> {
    let dots = |length: f64| (length / INCH * f64::from(dpi)).round() as u32;
    let (across, down) = (dots(wide), dots(high));
    if u64::from(across) * u64::from(down) > MOST {
        let most = (MOST as f64 / (wide * high)).sqrt() * INCH;
        return Err(Unprinted::TooLarge { dpi, wide: across, high: down, most: most as u32 });
    }
    let undrawn = |why: &dyn std::fmt::Display| Unprinted::Undrawn(why.to_string());
    let tree = Tree::from_str(svg, &options()).map_err(|error| undrawn(&error))?;
    let mut pixels = Pixmap::new(across, down).ok_or_else(|| undrawn(&"it has no size"))?;
    let size = tree.size();
    let scale = Transform::from_scale(across as f32 / size.width(), down as f32 / size.height());
    resvg::render(&tree, scale, &mut pixels.as_mut());
    encoded(&pixels, dpi).map_err(|error| undrawn(&error))
}

/// Our letters whatever family is named, and pictures only from within the sheet.
fn options() -> Options<'static> {
    let mut fonts = fontdb::Database::new();
    for weight in [Weight::Regular, Weight::Bold] {
        fonts.load_font_data(weight.font().to_vec());
    }
    let family = fonts.faces().next().and_then(|face| face.families.first()).map(|(name, _)| name.clone());
    if let Some(family) = family {
        fonts.set_serif_family(family);
    }
    let resolver = ImageHrefResolver {
        resolve_data: ImageHrefResolver::default_data_resolver(),
        resolve_string: Box::new(|_, _| None),
    };
    Options { fontdb: Arc::new(fonts), image_href_resolver: resolver, ..Options::default() }
}

/// Without opacity, as the paper is white everywhere; row by row, so that it is not in memory twice.
fn encoded(pixels: &Pixmap, dpi: u32) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, pixels.width(), pixels.height());
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    let per_metre = (f64::from(dpi) * 1_000.0 / INCH).round() as u32;
    encoder.set_pixel_dims(Some(PixelDimensions { xppu: per_metre, yppu: per_metre, unit: Unit::Meter }));
    let mut writer = encoder.write_header()?;
    let mut stream = writer.stream_writer()?;
    let row = pixels.width() as usize * 4;
    let mut line = Vec::with_capacity(row / 4 * 3);
    for row in pixels.data().chunks_exact(row) {
        line.clear();
        line.extend(row.chunks_exact(4).flat_map(|pixel| pixel.iter().take(3).copied()));
        std::io::Write::write_all(&mut stream, &line)?;
    }
    stream.finish()?;
    writer.finish()?;
    Ok(bytes)
}
