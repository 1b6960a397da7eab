//! What is worn on the head, as it sits there.

use super::figure::{BROW, CHIN, CROWN, HEAD};
use super::pen::Pen;
use crate::picture::flat::model::Path;
use crate::picture::flat::read::{Garment, Head, Mark};

/// Draws it.
pub(super) fn draw(pen: &mut Pen<'_>, garment: &Garment, kind: Head) {
    match kind {
        Head::BathingCap => bathing_cap(pen, garment),
        Head::Cap => peaked(pen),
        Head::FlatCap => flat(pen),
        Head::Brim => brimmed(pen, garment, 66.0),
        Head::WideBrim => brimmed(pen, garment, 96.0),
        Head::Bowler => bowler(pen),
        Head::Cloche => cloche(pen, garment),
        Head::Turban => turban(pen),
        Head::Scarf => scarf(pen),
        Head::Helmet => helmet(pen, garment),
        Head::Souwester => souwester(pen),
        Head::Tam => tam(pen),
        Head::Pillbox => pillbox(pen),
        Head::Balaclava => balaclava(pen),
        Head::Knit => knit(pen),
        Head::Small => small(pen, garment),
    }
}

/// A crown of this half width from a height up to the top of the head and back.
fn dome(wide: f32, low: f32, top: f32, sag: f32) -> Path {
    let path =
        Path::at(0.0, top).curve((wide * 0.72, top), (wide + 1.0, top + (low - top) * 0.36), (wide, low));
    path.bend((wide * 0.5, low + sag), (0.0, low + sag)).both_halves()
}

fn band(pen: &mut Pen<'_>, wide: f32, y: f32, high: f32, sag: f32) {
    let path = Path::at(0.0, y + sag - high)
        .bend((wide * 0.5, y + sag - high), (wide, y - high))
        .line(wide, y)
        .bend((wide * 0.5, y + sag), (0.0, y + sag))
        .both_halves();
    let cloth = pen.cloth.in_second();
    pen.with(cloth).part(&path);
}

fn bathing_cap(pen: &mut Pen<'_>, garment: &Garment) {
    let cap = Path::at(0.0, CROWN - 4.0)
        .curve((26.0, CROWN - 4.0), (38.0, CROWN + 18.0), (37.0, BROW + 4.0))
        .curve((38.0, 116.0), (37.0, 126.0), (33.0, 132.0))
        .curve((27.0, 128.0), (28.0, 106.0), (22.0, BROW + 3.0))
        .bend((10.0, BROW - 4.0), (0.0, BROW - 4.0))
        .both_halves();
    pen.body(&cap);
    pen.seam(
        &Path::at(0.0, BROW - 10.0)
            .bend((13.0, BROW - 10.0), (26.0, BROW - 2.0))
            .curve((33.0, 108.0), (31.0, 122.0), (34.0, 127.0))
            .twice(),
    );
    pen.fold(&Path::at(0.0, CROWN - 2.0).line(0.0, BROW - 12.0));
    pen.fold(
        &Path::at(6.0, CROWN - 2.0)
            .curve((20.0, CROWN + 6.0), (24.0, CROWN + 20.0), (24.0, BROW - 6.0))
            .twice(),
    );
    if garment.has(Mark::ChinStrap) {
        pen.edge(&Path::at(33.0, 132.0).curve((30.0, 146.0), (18.0, CHIN + 4.0), (0.0, CHIN + 5.0)).twice());
    }
}

fn peaked(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, CROWN - 6.0)
            .curve((30.0, CROWN - 8.0), (54.0, CROWN), (50.0, CROWN + 14.0))
            .curve((46.0, CROWN + 24.0), (38.0, 84.0), (36.0, 88.0))
            .bend((20.0, 92.0), (0.0, 92.0))
            .both_halves(),
    );
    pen.part(
        &Path::at(0.0, 84.0)
            .bend((20.0, 84.0), (36.0, 80.0))
            .line(36.0, BROW - 2.0)
            .bend((18.0, BROW + 3.0), (0.0, BROW + 3.0))
            .both_halves(),
    );
    pen.part(
        &Path::at(0.0, BROW + 1.0)
            .bend((18.0, BROW + 1.0), (35.0, BROW - 5.0))
            .curve((34.0, BROW + 6.0), (20.0, BROW + 17.0), (0.0, BROW + 17.0))
            .both_halves(),
    );
    pen.button(0.0, 91.0, 4.0);
    pen.fold(&Path::at(10.0, CROWN).bend((30.0, CROWN + 4.0), (40.0, CROWN + 14.0)).twice());
}

fn flat(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, CROWN + 2.0)
            .curve((34.0, CROWN), (56.0, CROWN + 12.0), (50.0, 84.0))
            .curve((46.0, 94.0), (40.0, BROW), (36.0, BROW))
            .bend((18.0, BROW + 4.0), (0.0, BROW + 4.0))
            .both_halves(),
    );
    pen.button(0.0, CROWN + 3.0, 4.0);
    pen.seam(&Path::at(2.0, CROWN + 5.0).bend((10.0, 80.0), (12.0, BROW)).twice());
    pen.seam(&Path::at(4.0, CROWN + 5.0).bend((30.0, 70.0), (36.0, BROW - 3.0)).twice());
    pen.part(
        &Path::at(0.0, BROW - 2.0)
            .bend((20.0, BROW - 3.0), (34.0, BROW - 4.0))
            .curve((36.0, BROW + 8.0), (20.0, BROW + 13.0), (0.0, BROW + 13.0))
            .both_halves(),
    );
}

fn brimmed(pen: &mut Pen<'_>, garment: &Garment, wide: f32) {
    let tall = garment.has(Mark::ThreePiece);
    let top = if tall { CROWN - 16.0 } else { CROWN - 6.0 };
    let brim = Path::at(0.0, BROW - 14.0)
        .curve((wide * 0.6, BROW - 15.0), (wide * 0.92, BROW - 8.0), (wide, BROW - 2.0))
        .curve((wide * 0.94, BROW + 8.0), (wide * 0.5, BROW + 16.0), (0.0, BROW + 16.0))
        .both_halves();
    pen.body(&brim);
    pen.fold(&Path::at(wide * 0.9, BROW).bend((wide * 0.5, BROW + 10.0), (0.0, BROW + 10.0)).twice());
    let crown = Path::at(0.0, top + 3.0)
        .curve((10.0, top - 2.0), (26.0, top - 2.0), (32.0, top + 12.0))
        .curve((36.0, 76.0), (37.0, 84.0), (38.0, BROW - 2.0))
        .bend((20.0, BROW + 5.0), (0.0, BROW + 5.0))
        .both_halves();
    pen.part(&crown);
    pen.fold(&Path::at(0.0, top + 3.0).bend((-2.0, top + 14.0), (2.0, top + 24.0)));
    band(pen, 38.0, BROW - 3.0, 10.0, 6.0);
    trimmings(pen, garment);
    if garment.has(Mark::ChinStrap) {
        pen.seam(
            &Path::at(36.0, BROW + 10.0).curve((34.0, 136.0), (18.0, CHIN + 4.0), (0.0, CHIN + 5.0)).twice(),
        );
    }
}

fn trimmings(pen: &mut Pen<'_>, garment: &Garment) {
    if garment.has(Mark::Feather) {
        let second = pen.cloth.second;
        pen.bead(
            &Path::at(30.0, BROW - 6.0)
                .curve((40.0, 76.0), (48.0, 54.0), (60.0, 34.0))
                .curve((64.0, 58.0), (54.0, 84.0), (34.0, BROW - 4.0))
                .close(),
            second,
        );
    }
    if garment.has(Mark::HatVeil) {
        let net = Path::at(0.0, BROW + 2.0)
            .line(40.0, BROW - 4.0)
            .curve((42.0, 118.0), (34.0, 134.0), (0.0, 136.0))
            .both_halves();
        let cloth = pen.cloth;
        let mut pen = pen.with(cloth);
        pen.stitch(&net);
        for x in [-24.0, -12.0, 0.0, 12.0, 24.0] {
            pen.stitch(&Path::lines(&[(x, BROW + 2.0), (x + 4.0, 133.0)]));
        }
        for y in [108.0, 118.0, 128.0] {
            pen.stitch(&Path::at(-38.0, y - 4.0).bend((0.0, y + 4.0), (38.0, y - 4.0)));
        }
    }
}

fn bowler(pen: &mut Pen<'_>) {
    pen.body(&dome(37.0, BROW - 2.0, CROWN - 14.0, 6.0));
    band(pen, 37.5, BROW - 4.0, 11.0, 6.0);
    let brim = Path::at(0.0, BROW)
        .curve((24.0, BROW), (42.0, BROW - 4.0), (50.0, BROW - 14.0))
        .curve((60.0, BROW - 18.0), (60.0, BROW - 6.0), (54.0, BROW - 2.0))
        .curve((40.0, BROW + 8.0), (20.0, BROW + 11.0), (0.0, BROW + 11.0))
        .both_halves();
    pen.part(&brim);
}

fn cloche(pen: &mut Pen<'_>, garment: &Garment) {
    let hat = Path::at(0.0, CROWN - 8.0)
        .curve((26.0, CROWN - 8.0), (39.0, CROWN + 10.0), (40.0, 94.0))
        .curve((41.0, 108.0), (46.0, 118.0), (53.0, 128.0))
        .curve((36.0, 122.0), (20.0, 112.0), (0.0, 112.0))
        .both_halves();
    pen.body(&hat);
    let rim = Path::at(0.0, 100.0).bend((22.0, 100.0), (40.5, 104.0));
    let top = Path::at(0.0, 86.0).bend((22.0, 86.0), (39.0, 89.0));
    let ribbon = top.line(40.5, 104.0).then(&rim.reversed()).both_halves();
    let cloth = pen.cloth.in_second();
    let mut other = pen.with(cloth);
    other.part(&ribbon);
    other.part(&Path::lines(&[(26.0, 82.0), (40.0, 92.0), (30.0, 108.0), (22.0, 96.0)]).close());
    pen.fold(&Path::at(0.0, CROWN - 2.0).curve((16.0, CROWN), (26.0, CROWN + 8.0), (28.0, 82.0)).twice());
    trimmings(pen, garment);
}

fn turban(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, CROWN - 10.0)
            .curve((32.0, CROWN - 10.0), (46.0, CROWN + 14.0), (42.0, BROW))
            .curve((40.0, BROW + 12.0), (36.0, BROW + 18.0), (34.0, BROW + 18.0))
            .curve((26.0, BROW + 6.0), (12.0, BROW + 3.0), (0.0, BROW + 3.0))
            .both_halves(),
    );
    for (x, y) in [(42.0, 84.0), (44.0, 96.0), (40.0, 108.0), (36.0, 72.0)] {
        pen.seam(&Path::at(4.0, 78.0).bend((24.0, y - 14.0), (x, y)).twice());
    }
    let ear = Path::at(0.0, 72.0)
        .curve((12.0, 52.0), (30.0, 48.0), (30.0, 60.0))
        .curve((30.0, 70.0), (12.0, 76.0), (0.0, 76.0))
        .close();
    pen.part(&ear.mirrored());
    pen.part(&ear);
    pen.part(&Path::ellipse(0.0, 74.0, 9.0, 11.0));
}

fn scarf(pen: &mut Pen<'_>) {
    let outline = Path::at(0.0, CROWN - 6.0)
        .curve((28.0, CROWN - 6.0), (44.0, CROWN + 20.0), (42.0, 110.0))
        .curve((40.0, 134.0), (22.0, CHIN + 2.0), (0.0, CHIN + 14.0))
        .line(0.0, CHIN + 4.0)
        .curve((18.0, 146.0), (29.0, 128.0), (29.0, 108.0))
        .curve((27.0, 92.0), (14.0, 84.0), (0.0, 84.0));
    let half = outline.close();
    pen.body(&half.mirrored());
    pen.body(&half);
    pen.cloth_in(&Path::lines(&[(-2.0, CROWN - 4.0), (2.0, CROWN - 4.0), (2.0, 82.0), (-2.0, 82.0)]).close());
    let tail = Path::at(0.0, CHIN + 8.0)
        .curve((14.0, CHIN + 12.0), (26.0, CHIN + 22.0), (30.0, CHIN + 40.0))
        .line(10.0, CHIN + 30.0)
        .close();
    pen.part(&tail.mirrored());
    pen.part(&tail);
    pen.part(&Path::ellipse(0.0, CHIN + 9.0, 8.0, 7.0));
    pen.fold(&Path::at(6.0, CROWN).curve((26.0, CROWN + 8.0), (36.0, 90.0), (35.0, 112.0)).twice());
}

fn helmet(pen: &mut Pen<'_>, garment: &Garment) {
    pen.body(&dome(46.0, BROW - 10.0, CROWN - 16.0, 10.0));
    pen.part(
        &Path::at(0.0, BROW - 6.0)
            .curve((30.0, BROW - 6.0), (48.0, BROW - 12.0), (54.0, BROW - 16.0))
            .curve((70.0, BROW - 10.0), (72.0, BROW - 4.0), (66.0, BROW - 1.0))
            .curve((44.0, BROW + 6.0), (20.0, BROW + 8.0), (0.0, BROW + 8.0))
            .both_halves(),
    );
    if pen.cloth.has_second {
        pen.trim(&Path::lines(&[(-13.0, 62.0), (-7.0, 80.0), (0.0, 66.0), (7.0, 80.0), (13.0, 62.0)]), 3.2);
    }
    let strap = garment.has(Mark::ChinStrap) || garment.marks.is_empty();
    if strap {
        pen.seam(
            &Path::at(40.0, BROW + 4.0).curve((36.0, 136.0), (18.0, CHIN + 6.0), (0.0, CHIN + 7.0)).twice(),
        );
    }
}

fn souwester(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, 106.0)
            .curve((34.0, 104.0), (50.0, 110.0), (60.0, 128.0))
            .curve((58.0, 96.0), (48.0, 86.0), (38.0, 82.0))
            .line(0.0, 80.0)
            .both_halves(),
    );
    pen.part(&dome(38.0, 90.0, CROWN - 10.0, 8.0));
    for x in [14.0, 28.0] {
        pen.seam(&Path::at(0.0, CROWN - 10.0).bend((x, CROWN), (x, 94.0)).twice());
    }
    pen.part(
        &Path::at(0.0, 94.0)
            .bend((22.0, 93.0), (38.0, 86.0))
            .curve((50.0, 92.0), (56.0, 104.0), (60.0, 128.0))
            .curve((46.0, 112.0), (24.0, 108.0), (0.0, 108.0))
            .both_halves(),
    );
    pen.stitch(&Path::at(0.0, 102.0).curve((24.0, 102.0), (44.0, 104.0), (54.0, 116.0)).twice());
}

fn tam(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, CROWN - 4.0)
            .curve((40.0, CROWN - 8.0), (66.0, CROWN + 10.0), (60.0, 82.0))
            .curve((56.0, 94.0), (42.0, 92.0), (36.0, 92.0))
            .bend((18.0, 96.0), (0.0, 96.0))
            .both_halves(),
    );
    pen.part(
        &Path::at(0.0, 92.0)
            .bend((18.0, 92.0), (36.0, 88.0))
            .line(36.0, BROW + 2.0)
            .bend((18.0, BROW + 6.0), (0.0, BROW + 6.0))
            .both_halves(),
    );
    pen.part(&Path::ellipse(0.0, CROWN - 7.0, 6.0, 6.0));
    for x in [18.0, 38.0] {
        pen.fold(&Path::at(x * 0.3, CROWN).bend((x, 68.0), (x, 88.0)).twice());
    }
}

fn pillbox(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, 50.0)
            .bend((24.0, 50.0), (33.0, 56.0))
            .line(34.0, 84.0)
            .bend((18.0, 92.0), (0.0, 92.0))
            .both_halves(),
    );
    pen.part(&Path::ellipse(0.0, 56.0, 33.0, 8.0));
}

fn balaclava(pen: &mut Pen<'_>) {
    pen.body(
        &Path::at(0.0, CROWN - 6.0)
            .curve((28.0, CROWN - 6.0), (42.0, CROWN + 20.0), (40.0, 110.0))
            .curve((39.0, 132.0), (36.0, 150.0), (46.0, 180.0))
            .bend((20.0, 192.0), (0.0, 192.0))
            .both_halves(),
    );
    let face = Path::ellipse(0.0, 118.0, 24.0, 26.0);
    pen.fill(&face, [255; 3]);
    pen.edge(&face);
}

fn knit(pen: &mut Pen<'_>) {
    pen.body(&dome(38.0, BROW + 2.0, CROWN - 12.0, 6.0));
    pen.part(
        &Path::at(0.0, BROW - 10.0)
            .bend((20.0, BROW - 10.0), (39.0, BROW - 15.0))
            .line(40.0, BROW + 4.0)
            .bend((20.0, BROW + 10.0), (0.0, BROW + 10.0))
            .both_halves(),
    );
    for x in [-30.0, -20.0, -10.0, 0.0, 10.0, 20.0, 30.0] {
        pen.fold(&Path::lines(&[(x, BROW - 10.0), (x, BROW + 6.0)]));
        pen.fold(&Path::at(x * 0.4, CROWN - 8.0).bend((x, 66.0), (x, BROW - 14.0)));
    }
}

fn small(pen: &mut Pen<'_>, garment: &Garment) {
    let hat = Path::at(-34.0, 80.0)
        .curve((-30.0, 56.0), (10.0, 40.0), (30.0, 56.0))
        .curve((40.0, 64.0), (42.0, 76.0), (HEAD + 6.0, 84.0))
        .curve((14.0, 74.0), (-14.0, 74.0), (-34.0, 80.0))
        .close();
    pen.body(&hat);
    pen.part(
        &Path::at(-42.0, 84.0)
            .curve((-14.0, 70.0), (20.0, 72.0), (48.0, 88.0))
            .curve((18.0, 84.0), (-14.0, 84.0), (-42.0, 84.0))
            .close(),
    );
    trimmings(pen, garment);
}
