//! Fewer pixels: each new one is a mean of all that it covers, most of its middle, weighted by opacity, so that stripes
//! and checks turn into their mean and never into other stripes. (A plain mean takes whole pixels, so that at 300 to
//! 70 it takes four here and five there: other stripes again.)

use fast_image_resize::images::{Image, ImageRef};
use fast_image_resize::{FilterType, PixelType, ResizeAlg, ResizeOptions, Resizer};
use image::{DynamicImage, GrayImage, RgbImage, RgbaImage};

/// As large as `size` fits into `within`, with the same proportions; never larger than `size`, never without pixels.
pub(super) fn fitted(size: (u32, u32), within: (u32, u32)) -> (u32, u32) {
    let (width, height) = (size.0.max(1), size.1.max(1));
    let (wide, high) = (within.0.clamp(1, width), within.1.clamp(1, height));
    // As fractions: width/height against wide/high, without rounding.
    let (of_width, of_height) = (u64::from(wide) * u64::from(height), u64::from(high) * u64::from(width));
    let rounded = |product: u64, by: u32, most: u32| {
        u32::try_from((product + u64::from(by) / 2) / u64::from(by)).unwrap_or(most).clamp(1, most)
    };
    if of_width <= of_height {
        (wide, rounded(of_width, width, high))
    } else {
        (rounded(of_height, height, wide), high)
    }
}

/// The picture at `target`, or as it is where it is no larger than that.
pub(super) fn smaller(image: DynamicImage, target: (u32, u32)) -> RgbaImage {
    let (from, to) =
        ((image.width(), image.height()), (image.width().min(target.0), image.height().min(target.1)));
    if from == to {
        return image.into_rgba8();
    }
    let reduced = match &image {
        DynamicImage::ImageLuma8(grey) => reduced(grey, PixelType::U8, from, to)
            .and_then(|samples| GrayImage::from_raw(to.0, to.1, samples))
            .map(DynamicImage::from),
        DynamicImage::ImageRgb8(rgb) => reduced(rgb, PixelType::U8x3, from, to)
            .and_then(|samples| RgbImage::from_raw(to.0, to.1, samples))
            .map(DynamicImage::from),
        other => reduced(&other.to_rgba8(), PixelType::U8x4, from, to)
            .and_then(|samples| RgbaImage::from_raw(to.0, to.1, samples))
            .map(DynamicImage::from),
    };
    // The sides are those of the samples, so it is always reduced; if not, more pixels are better than none.
    reduced.unwrap_or(image).into_rgba8()
}

fn reduced(samples: &[u8], channels: PixelType, from: (u32, u32), to: (u32, u32)) -> Option<Vec<u8>> {
    let source = ImageRef::new(from.0, from.1, samples, channels).ok()?;
    let mut result = Image::new(to.0, to.1, channels);
    let mean = ResizeOptions::new().resize_alg(ResizeAlg::Convolution(FilterType::Bilinear));
    Resizer::new().resize(&source, &mut result, &mean).ok()?;
    Some(result.into_vec())
}
