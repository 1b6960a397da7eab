//! `shirr bring pictures`, and pictures that mean harm.

use image::{DynamicImage, Rgb, RgbImage};

use super::*;

/// Puts pictures of stripes on the desk, one for each name, no two alike.
fn pictures(desk: &Desk, folder: &str, names: &[&str]) -> PathBuf {
    let dir = desk.path(folder);
    fs::create_dir_all(&dir).unwrap();
    for (seed, name) in (1..).zip(names) {
        let shade =
            |x: u32, y: u32| if (x * seed / 60 + y * (seed + 1) / 80).is_multiple_of(2) { 40 } else { 200 };
        RgbImage::from_fn(240, 320, |x, y| Rgb([shade(x, y), 120, 90])).save(dir.join(name)).unwrap();
    }
    dir
}

#[test]
fn a_preview_changes_nothing_and_the_change_is_one_that_undo_takes_back() {
    let desk = Desk::new();
    let board = desk.board("board", &[]);
    pictures(&desk, "scans", &["1919 gala gown.png", "smock.png"]);
    let before = files(&board);
    let run = desk.shirr(&["bring", "pictures", "scans", "board", "--dry-run"]);
    assert_eq!(run.code, 0, "{}{}", run.out, run.err);
    assert!(
        run.out.contains("new outfit `gala-gown`") && run.out.contains("worn 1919 by its name"),
        "{}",
        run.out
    );
    assert!(run.out.contains("a further source of “Smock”") && run.out.contains("preview"), "{}", run.out);
    assert_eq!(files(&board), before);
    let run = desk.shirr(&["bring", "pictures", "scans", "board"]);
    assert_eq!(run.code, 0, "{}{}", run.out, run.err);
    let copied = fs::read(board.join("images/gala-gown.png")).unwrap();
    assert_eq!(copied, fs::read(desk.path("scans/1919 gala gown.png")).unwrap());
    assert!(
        fs::read_to_string(board.join("outfits/gala-gown.yaml")).unwrap().contains("images/gala-gown.png")
    );
    let after = files(&board);
    let run = desk.shirr(&["bring", "pictures", "scans", "board"]);
    assert!(run.out.contains("the board has all of these already"), "{}", run.out);
    assert_eq!(files(&board), after, "bringing it in twice changes nothing");
    assert_eq!(desk.shirr(&["check", "board"]).code, 0);
}

#[test]
fn the_preview_says_what_the_change_says() {
    let desk = Desk::new();
    desk.board("board", &[]);
    let scans = pictures(&desk, "scans", &["smock.png"]);
    // Patches of many lights: stripes are not known again when they are smaller.
    let light = |x: u32, y: u32| ((x / 40 + 6 * (y / 40)).wrapping_mul(0x9e37_79b9) >> 24) as u8;
    let whole = DynamicImage::from(RgbImage::from_fn(240, 320, |x, y| Rgb([light(x, y), 120, 90])));
    whole.save(scans.join("1919 gala gown.png")).unwrap();
    assert_eq!(desk.shirr(&["bring", "pictures", "scans", "board"]).code, 0);
    whole.thumbnail(150, 200).save(scans.join("smaller print.png")).unwrap();
    fs::copy(scans.join("smaller print.png"), scans.join("twice.png")).unwrap();
    whole.thumbnail(120, 160).save(scans.join("smock 2.png")).unwrap();
    let preview = desk.shirr(&["bring", "pictures", "scans", "board", "--dry-run"]);
    let change = desk.shirr(&["bring", "pictures", "scans", "board"]);
    let but_the_last = |text: &str| text.trim_end().rsplit_once('\n').unwrap().0.to_owned();
    assert_eq!(but_the_last(&preview.out), but_the_last(&change.out));
    assert!(
        change.out.contains("smaller print.png  a further source of “Gala gown”, like"),
        "{}",
        change.out
    );
    assert!(change.out.contains("twice.png  the same as smaller print.png"), "{}", change.out);
}

#[test]
fn a_folder_with_files_that_mean_harm_brings_in_the_others_and_names_them() {
    let desk = Desk::new();
    let board = desk.board("board", &[]);
    let scans = pictures(&desk, "scans", &["good.png"]);
    // A PNG that says it has 60,000 by 60,000 pixels; all of its checksums are right.
    let size = 60_000_u32.to_be_bytes();
    let header = [&size[..], &size[..], &[8, 6, 0, 0, 0]].concat();
    let chunks = [(b"IHDR", header), (b"IDAT", vec![0x78, 0x9c, 3, 0, 0, 0, 0, 1]), (b"IEND", Vec::new())];
    let mut bomb = b"\x89PNG\r\n\x1a\n".to_vec();
    for (kind, data) in chunks {
        let named = [&kind[..], &data[..]].concat();
        bomb.extend(u32::try_from(data.len()).unwrap().to_be_bytes());
        bomb.extend(&named);
        bomb.extend(crc(&named).to_be_bytes());
    }
    fs::write(scans.join("bomb.png"), bomb).unwrap();
    let whole = fs::read(scans.join("good.png")).unwrap();
    fs::write(scans.join("cut.png"), &whole[..whole.len() / 3]).unwrap();
    fs::write(scans.join("words.jpg"), "no picture").unwrap();
    // The content says what it is, whatever the name.
    RgbImage::from_pixel(60, 80, Rgb([9, 120, 60]))
        .save_with_format(scans.join("wrongly named.jpg"), image::ImageFormat::Png)
        .unwrap();
    let run = desk.shirr(&["bring", "pictures", "scans", "board"]);
    assert_eq!(run.code, 1, "{}{}", run.out, run.err);
    for name in ["bomb.png", "cut.png", "words.jpg"] {
        assert!(run.out.contains(&format!("left out: {name}")), "{}", run.out);
    }
    assert!(run.out.contains("more than are read"), "{}", run.out);
    assert!(board.join("images/good.png").exists() && board.join("images/wrongly-named.png").exists());
}

/// CRC-32 as PNG has it (ISO 3309).
fn crc(bytes: &[u8]) -> u32 {
    let step = |crc: u32, byte: &u8| {
        (0..8).fold(
            crc ^ u32::from(*byte),
            |crc, _| if crc & 1 == 1 { 0xedb8_8320 ^ (crc >> 1) } else { crc >> 1 },
        )
    };
    !bytes.iter().fold(!0, step)
}

#[test]
fn what_is_no_folder_and_who_is_no_character_are_told_with_what_to_do() {
    let desk = Desk::new();
    desk.board("board", &[]);
    let run = desk.shirr(&["bring", "pictures", "nowhere", "board"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("name a folder of pictures"), "{}", run.err);
    pictures(&desk, "scans", &["a.png"]);
    let run = desk.shirr(&["bring", "pictures", "scans", "board", "--character", "Adda"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("did you mean `ada`?"), "{}", run.err);
}

#[cfg(unix)]
#[test]
fn a_folder_of_images_that_is_a_link_out_of_the_board_is_not_written_into() {
    let desk = Desk::new();
    let board = desk.board("board", &[]);
    pictures(&desk, "scans", &["a.png"]);
    let elsewhere = desk.path("elsewhere");
    fs::create_dir_all(&elsewhere).unwrap();
    std::os::unix::fs::symlink(&elsewhere, board.join("images")).unwrap();
    let before = files(&board.join("outfits"));
    let run = desk.shirr(&["bring", "pictures", "scans", "board"]);
    assert_eq!(run.code, 2, "{}", run.out);
    assert!(run.err.contains("nothing is changed") && run.err.contains("a link leads out"), "{}", run.err);
    assert_eq!(fs::read_dir(&elsewhere).unwrap().count(), 0);
    assert_eq!(files(&board.join("outfits")), before);
}
