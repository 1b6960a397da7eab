//! Pixels: what a picture is once it is decoded or drawn, whoever made it.

/// Pixels in rows from the top, each red, green, blue and opacity in sRGB, one byte each, not premultiplied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pixels {
    /// Pixels in a row.
    pub width: u32,
    /// Rows.
    pub height: u32,
    /// Four bytes a pixel.
    pub rgba: Vec<u8>,
}

impl Pixels {
    /// The longest side that is drawn.
    pub const MOST: u32 = 8192;

    /// Red, green and blue of a pixel; `None` outside.
    pub fn at(&self, x: u32, y: u32) -> Option<[u8; 3]> {
        self.pixel(x, y).map(|[red, green, blue, _]| [red, green, blue])
    }

    /// Whether a pixel hides more than half of what lies behind it.
    pub fn is_opaque(&self, x: u32, y: u32) -> bool {
        self.pixel(x, y).is_some_and(|[.., opacity]| opacity > u8::MAX / 2)
    }

    fn pixel(&self, x: u32, y: u32) -> Option<[u8; 4]> {
        if x >= self.width || y >= self.height {
            return None;
        }
        let start = (y as usize * self.width as usize + x as usize) * 4;
        self.rgba.get(start..start + 4)?.try_into().ok()
    }
}
