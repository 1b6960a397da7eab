"""Draws the demo board's plates: `python plates.py FOLDER [NAME ...]` writes them into a folder, all or the named ones."""

import io
import sys
import zlib
from pathlib import Path

from PIL import Image

import boom
import coach
import gowns
import landing
import lights
import pilot
import seaside
import slack
import slip
import sound
from brush import Art, printed

# name, drawing, kind of print, number in the margin, how the file lies (Exif), day of the scan (Exif)
PLATES = [
    ("od-1914-quay-smock", slip.quay_smock, "gouache", "212", 1, None),
    ("od-1918-loft-pinafore", slip.loft_pinafore, "plate", "1142", 1, None),
    ("od-1921-school-sailor", slip.school_sailor, "plate", "1388", 1, "2025:03:11 10:24:07"),
    ("od-1923-regatta-wool", slip.regatta_wool, "plate", "1507", 1, None),
    ("iv-1919-gansey", pilot.gansey, "plate", "1160", 1, None),
    ("od-1926-club-costume", sound.club_costume, "plate", "P.0433", 1, None),
    ("od-1926-grease-robe", sound.grease_robe, "plate", "P.0429", 1, None),
    ("od-1927-crossing-costume", sound.crossing_plate, "plate", "7", 1, "2025:05:06 16:02:51"),
    ("od-1927-crossing-costume-2", sound.crossing_film, "film", "74", 1, None),
    ("od-1927-boat-cloak", landing.boat_cloak, "film", "74", 1, None),
    ("od-1927-boat-cloak-2", landing.boat_cloak_sketch, "gouache", "TH 9", 1, None),
    ("od-1927-civic-georgette", landing.civic_georgette, "plate", "2210", 6, None),
    ("co-1926-white-robe", landing.white_robe, "plate", "27", 1, None),
    ("co-1928-record-costume", sound.record_costume, "plate", "9", 1, None),
    ("iv-1926-pilot-coat", pilot.pilot_coat, "plate", "P.0432", 1, None),
    ("iv-1925-oilskin-long", pilot.oilskin_long, "wash", "P.0440", 1, None),
    ("iv-1919-gansey-2", pilot.the_one_saved, "gouache", "TH 3", 1, None),
    ("od-1930-newsreel-coat", lights.newsreel_film, "film", "103", 1, None),
    ("od-1930-newsreel-coat-2", lights.newsreel_still, "plate", "103, still", 1, "2025:05:06 16:20:13"),
    ("od-1930-pavilion-wrap", lights.pavilion_wrap, "gouache", "G.0064", 1, None),
    ("od-1931-exhibition-costume", lights.exhibition_costume, "plate", "P.0520", 1, None),
    ("br-1931-wedding", gowns.wedding, "plate", "C 14", 1, None),
    ("od-1932-beach-pyjamas", seaside.beach_pyjamas, "plate", "frame 6", 1, None),
    ("od-1933-ball-gown", gowns.ball_gown, "plate", "2588, left", 1, None),
    ("co-1933-lame-gown", gowns.lame_gown, "plate", "2588, right", 1, None),
    ("od-1934-race-costume", lights.race_black, "plate", "P.0563", 1, None),
    ("co-1934-race-costume", lights.race_white, "film", "158", 1, None),
    ("od-1936-lido-linen", seaside.lido_linen, "wash", "works 40/5", 8, None),
    ("od-1940-watch-uniform", boom.watch_uniform, "plate", "war 6", 1, None),
    ("od-1940-boom-dungarees", boom.boom_dungarees, "plate", "war 11/31", 1, None),
    ("od-1947-ochre-oilskin", coach.ochre_spring, "plate", "P.0702", 1, "2025:06:17 09:41:30"),
    ("od-1947-ochre-oilskin-2", coach.ochre_near, "wash", "after P.0702", 1, None),
    ("br-1948-curtain-skirt", boom.curtain_skirt, "plate", "D 22", 1, None),
    ("od-1951-baths-whistle", coach.baths_whistle, "wash", "works 52/2", 1, None),
    ("od-1951-poolside-shorts", coach.poolside_shorts, "film", "8 mm", 1, None),
    ("od-1959-freedom-gown", slack.freedom_gown, "gouache", "TH 17", 1, None),
    ("od-1961-boucle-suit", slack.boucle_suit, "film", "L.V. 26", 1, None),
    ("od-1964-last-robe", slack.last_robe, "plate", "P.1203", 1, None),
]


def write(folder, plate, seed):
    name, draw, kind, number, lies, scanned = plate
    art = Art()
    draw(art)
    picture = printed(art, number, seed, kind)
    exif = Image.Exif()
    if lies != 1:
        # The pixels lie on their side, and the tag says how a viewer sets them up again.
        picture = picture.transpose({6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}[lies])
        exif[0x0112] = lies
    if scanned:
        exif.get_ifd(0x8769)[0x9003] = scanned
    tags = {"exif": exif.tobytes()} if lies != 1 or scanned else {}
    for quality in (82, 78, 74, 70, 66):
        held = io.BytesIO()
        picture.save(held, "JPEG", quality=quality, optimize=True, progressive=False, **tags)
        if held.tell() <= 47_500:
            break
    (folder / f"{name}.jpg").write_bytes(held.getvalue())


def main(folder, *names):
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    for plate in PLATES:
        if not names or plate[0] in names:
            write(folder, plate, zlib.crc32(plate[0].encode()))


if __name__ == "__main__":
    main(*sys.argv[1:])
