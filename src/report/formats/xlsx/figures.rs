//! The first column of a sheet whose rows have figures: each above its caption, small enough to read the row beside it.

use rust_xlsxwriter::{Format as Style, FormatAlign, Image, ObjectMovement, Worksheet, XlsxError};

use crate::bring::table::cut;
use crate::picture::photo;
use crate::report::document::Table;
use crate::report::figure::Figure;

/// Its heading.
const HEADING: &str = "Picture";

/// The room for a figure, in pixels of a spreadsheet, and below it for its caption.
const ROOM: (u32, u32) = (150, 160);
const CAPTION: u32 = 38;

/// Between a figure and the lines round it.
const AIR: u32 = 4;

/// The most characters that say what a figure is: half of what Excel takes, as some count twice there.
const LONGEST_ALT: usize = 127;

/// How large a flat is drawn: twice its room, for paper.
const DRAWN: (u32, u32) = (240, 320);

pub(super) fn write(sheet: &mut Worksheet, table: &Table, head: &Style) -> Result<(), XlsxError> {
    let caption = Style::new()
        .set_text_wrap()
        .set_italic()
        .set_font_size(9)
        .set_align(FormatAlign::Bottom)
        .set_align(FormatAlign::Center);
    sheet.write_string_with_format(0, 0, HEADING, head)?;
    sheet.set_column_width_pixels(0, ROOM.0 + 2 * AIR)?;
    for (row, number) in (1..).zip(0..table.rows().len()) {
        let Some(figure) = table.figure(number) else { continue };
        let Some((bytes, says)) = file(figure) else { continue };
        let image = Image::new_from_buffer(&bytes)?
            .set_scale_to_size(ROOM.0, ROOM.1, true)
            .set_alt_text(says.chars().take(LONGEST_ALT).collect::<String>())
            .set_object_movement(ObjectMovement::MoveAndSizeWithCells);
        let wide = (image.width() * scale(&image)).round() as u32;
        sheet.set_row_height_pixels(row, ROOM.1 + CAPTION + AIR)?;
        sheet.write_string_with_format(row, 0, cut(figure.caption()), &caption)?;
        sheet.insert_image_with_offset(row, 0, &image, AIR + ROOM.0.saturating_sub(wide) / 2, AIR)?;
    }
    Ok(())
}

/// By how much it is made smaller or larger to stand in its room.
fn scale(image: &Image) -> f64 {
    (f64::from(ROOM.0) / image.width()).min(f64::from(ROOM.1) / image.height())
}

/// A figure's file, and what it is for those who do not see it.
fn file(figure: &Figure) -> Option<(Vec<u8>, &str)> {
    match figure {
        Figure::Flat(flat) => {
            let pixels = flat.pixels(DRAWN.0, DRAWN.1, Some([255; 3]))?;
            Some((photo::png(&pixels).ok()?, figure.caption()))
        }
        Figure::Picture(picture) => Some((picture.jpeg.to_vec(), picture.name.as_str())),
    }
}
