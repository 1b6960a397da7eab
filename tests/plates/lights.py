"""Plates of The Lights, 1930 to 1938: the pier, the tank, the newsreel and the race."""

import random

import ground
from body import COSIMA, ODILE, Pose
from brush import (
    INK,
    between,
    edge,
    fill,
    light,
    loop,
    mix,
    num,
    oval,
    sampled,
    shade,
    shape,
    sliver,
    stroke,
    tube,
)
from figure import SKIN, foot, hand, head, neck_shadow, skin
from garments import (
    band,
    bathing,
    buttons,
    coat,
    hem_line,
    neckline,
    ribs,
    skirt,
    sleeve,
)
from hats import cap, cloche, goggles, race_number
from stage import BONE, DARK, GREEN, stand, stand_collar


def _fur(d_points, colour, seed, wide):
    """Fur along a line: a soft body and many short hairs."""
    chance = random.Random(seed)
    text = ""
    line = sampled(d_points, 14)
    for x, y in line:
        for _ in range(16):
            a, b = x + chance.uniform(-wide, wide), y + chance.uniform(-wide, wide)
            text += stroke(
                f"M{num(a)} {num(b)}l{num(chance.uniform(-4, 3))} {num(chance.uniform(5, 11))}",
                chance.choice([shade(colour), light(colour), mix(colour, shade(colour), 0.4)]),
                1.5,
                0.6,
            )
    return text


def _newsreel_coat(art, pose, near=False):
    coat_colour, coney = "#4d3a2c", "#c8a97a"
    body = pose.body
    stand_collar(art, pose, coney, 8, 52)
    skin(art, pose, feet="none", hands=("easy", None))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#bb9878", size=6)
        foot(art, pose, side, "#3a2a20", "heel")
        x, y = pose.legs[side][2]
        for bar in (8, 18):
            art.line([(x - 12, y + bar), (x, y + bar + 4), (x + 12, y + bar)], "#3a2a20", 4, 1)
        art.soft(oval(x, y + 42, 18, 7), "#191310", 0.6, 2)
    # A cocoon: wide at the hip, narrow at the hem, lapped to the left and held shut by one fist.
    low = body["hip_y"] + 168
    line = hem_line(-70, 76, low, 5, 3, 12)
    left = [
        pose.shoulder(-1, 0.4, 8),
        pose.shoulder(-1, 0.94, 10),
        pose.point("bust", -1, 26),
        pose.point("waist", -1, 58),
        pose.point("hip", -1, 52),
        line[0],
    ]
    right = [
        line[-1],
        pose.point("hip", 1, 54),
        pose.point("waist", 1, 60),
        pose.point("bust", 1, 26),
        pose.shoulder(1, 0.94, 10),
        pose.shoulder(1, 0.4, 8),
    ]
    fx, fy = 44, body["hip_y"] - 44
    text = art.folds(
        coat_colour,
        [
            [(fx, fy), (10, fy - 60), (-64, body["bust_y"] + 10)],
            [(fx, fy), (-10, fy - 14), (-88, fy - 50)],
            [(fx, fy + 4), (-16, fy + 36), (-94, fy + 24)],
            [(fx, fy + 8), (0, fy + 90), (-58, low - 20)],
            [(fx + 4, fy + 10), (30, fy + 110), (10, low)],
            [(fx + 8, fy), (74, fy + 40), (70, low - 20)],
            [(fx + 8, fy - 4), (88, fy - 40), (92, fy - 60)],
        ],
        13,
        0.65,
        0.5,
        2,
    )
    text += stroke(edge([(fx + 2, fy), (fx + 16, fy + 100), (fx + 8, low + 6)]), shade(coat_colour), 4, 0.9)
    sleeve(art, pose, -1, coat_colour, [14, 20, 22, 17, 14], 0, 0.68)
    sleeve(art, pose, 1, coat_colour, [14, 20, 22, 17, 14], 0, 0.68)
    art.form(
        shape(left, line, right, [right[-1], (pose.turn * 6, body["sh_y"]), left[0]]),
        coat_colour,
        inside=text,
        size=15,
        shine=0.8,
    )
    # The shawl collar of coney, down to the hip.
    for side in (-1, 1):
        top = pose.shoulder(side, 0.3, 16)
        end = (fx - 2, fy - 8) if side < 0 else (fx + 6, fy - 12)
        line_of = [
            top,
            (side * 52, body["sh_y"] + 36),
            (side * 40 + 8, body["bust_y"] + 24),
            between((side * 40 + 8, body["bust_y"] + 24), end, 0.6),
            end,
        ]
        d = tube(line_of, [19, 25, 24, 17, 6])
        art.form(d, coney, inside=_fur(line_of, coney, 3 + side, 24), size=9)
    sleeve(art, pose, 1, coat_colour, [14, 20, 22, 17, 14], 0, 0.68, merge=True)
    for side, at in ((-1, 0.66), (1, 0.68)):
        a, b = pose.arm_at(side, at - 0.05), pose.arm_at(side, at + 0.12)
        ring = [a, between(a, b, 0.5), b]
        art.form(tube(ring, [31, 34, 27]), coney, inside=_fur(ring, coney, 8 + side, 30), size=9)
        c = pose.arm_at(side, at + 0.17)
        art.form(tube([b, c], [19, 16]), "#d8c3a4", size=4)
        art.form(tube([pose.arm_at(side, at + 0.16), pose.arms[side][2]], [12, 9.5]), SKIN, size=4)
    hand(art, pose.arms[-1][2], 4, -1, SKIN, "easy", 0.98)
    hand(art, pose.arms[1][2], -64, 1, SKIN, "fist", 1.0)
    bx, by = fx + 40, fy + 22
    art.form(oval(bx, by, 14, 14), "#2b1f17", size=4, shine=0.9)
    for k in (-3, 3):
        art.add(fill(oval(bx + k, by, 1.6, 1.6), "#d8c3a4"))
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    w = body["head"]
    for side in (-1, 1):
        art.form(
            loop(
                [
                    (side * w * 1.03, 48),
                    (side * w * 0.72, 46),
                    (side * w * 0.78, 60),
                    (side * w * 0.56, 72),
                    (side * w * 0.82, 73),
                    (side * w * 1.02, 62),
                ]
            ),
            DARK,
            size=3,
        )
    cloche(art, pose, "#2f3a30", "#54614f")
    art.end()


def newsreel_film(art):
    ground.quay(art, "#a9a08c", "#cfc8b6", "#9da396", 600, 14)
    pose = Pose(
        ODILE,
        arms=((14, 2), (34, -62)),
        legs=((0, 0), (5, 3)),
        sway=7,
        tilt=4,
        counter=-4,
        turn=0.5,
        head=(4, 4, 8),
        reach=((1, 1), (1, 0.9)),
    )
    stand(art, pose, 748, 690)
    _newsreel_coat(art, pose)
    art.end()


def newsreel_still(art):
    """The publicity still: nearer, before studio paper."""
    ground.studio(art, "#b9b2a2", 900, 23)
    pose = Pose(
        ODILE,
        arms=((20, -14), (36, -66)),
        legs=((0, 0), (5, 3)),
        sway=4,
        tilt=3,
        counter=-6,
        turn=-0.6,
        head=(-4, 4, -9),
        reach=((1, 1), (1, 0.86)),
    )
    stand(art, pose, 1120, 1060, 300)
    _newsreel_coat(art, pose, True)
    art.end()


def pavilion_wrap(art):
    """The showcard: flat colour, and stripes that run one way."""
    ground.spotlight(art, "#a8663f", "#d89a58")
    pose = Pose(
        ODILE,
        arms=((36, -48), (12, -2)),
        legs=((-2, -2), (10, 6)),
        sway=9,
        tilt=5,
        counter=-4,
        turn=0.5,
        head=(3, 0, 6),
    )
    stand(art, pose, 748, 700)
    body = pose.body
    stand_collar(art, pose, BONE, 18, 44)
    skin(art, pose, feet="bare", hands=(None, "easy"))
    for side in (-1, 1):
        x, y = pose.legs[side][2]
        art.line([(x - 18, y + 32), (x, y + 24), (x + 16, y + 30)], BONE, 8, 1)
        art.line([(x - 20, y + 47), (x, y + 53), (x + 18, y + 47)], "#b08a5c", 6, 1)
    bathing(art, pose, "black", ("scoop", 0.6), (0.4, 0.6), leg="high")
    stripes = "".join(stroke(f"M{x} 60L{x - 620} 680", "black", 26, 1) for x in range(-160, 900, 56))
    sleeve(art, pose, 1, BONE, [10, 13, 16, 16, 20], 0, 0.92, inside=stripes)
    sleeve(art, pose, -1, BONE, [10, 13, 17, 16, 20], 0, 0.92, inside=stripes)
    coat(
        art,
        pose,
        BONE,
        body["hip_y"] + 214,
        (-112, 126),
        (12, 15, 16, 28),
        neckline(pose, 0.3, 128, "v"),
        folds=6,
        gap=(body["hip_y"] - 30, -20, 58),
        inside=stripes,
        deep=0.95,
    )
    for side in (-1, 1):
        low = (pose.turn * 6 + side * 3, body["waist_y"] - 2)
        art.form(
            shape(
                [pose.shoulder(side, 0.26, 16), (side * 24, body["bust_y"] - 8), low],
                [
                    low,
                    (side * 46, body["bust_y"] + 8),
                    (side * 60, body["sh_y"] + 26),
                    pose.shoulder(side, 0.55, 9),
                ],
                [pose.shoulder(side, 0.55, 9), pose.shoulder(side, 0.26, 16)],
            ),
            "black",
            size=6,
            shine=0.9,
        )
    art.add(
        stroke(
            edge([pose.point("waist", -1, 16, 2), pose.middle("waist", 0, 8), pose.point("waist", 1, 16, 2)]),
            "black",
            11,
            1,
        )
    )
    for k in (0, 14):
        art.form(
            tube(
                [
                    (14, body["waist_y"] + 6),
                    (24 + k, body["waist_y"] + 60),
                    (22 + k, body["waist_y"] + 118 + k),
                ],
                [5, 6, 7],
            ),
            "black",
            size=3,
            shine=0.9,
        )
    sleeve(art, pose, -1, BONE, [10, 13, 17, 16, 20], 0, 0.92, inside=stripes, merge=True)
    hand(art, pose.arms[-1][2], 44, -1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    cap(art, pose, "black", 34)
    art.end()
    art.end()


def exhibition_costume(art):
    ground.spotlight(art, "#8c6f5e", "#d9b48c")
    pose = Pose(
        ODILE,
        arms=((44, -58), (150, 168)),
        legs=((-3, -3), (12, 6)),
        sway=10,
        tilt=6,
        counter=4,
        turn=-0.5,
        head=(-2, 0, -5),
    )
    stand(art, pose, 752, 640)
    body = pose.body
    skin(art, pose, hands=(None, "easy"), arms=(-1, 1))
    bolt = [
        (70, 140),
        (14, 224),
        (44, 226),
        (-16, 318),
        (20, 316),
        (-74, 440),
        (-24, 330),
        (-50, 332),
        (-6, 250),
        (-34, 246),
        (34, 132),
    ]
    flash = "M" + "L".join(f"{x} {y}" for x, y in bolt) + "Z"
    bathing(
        art,
        pose,
        "black",
        ("scoop", 0.62),
        (0.4, 0.6),
        leg=0.12,
        inside=ribs("black", 9, 0.35) + fill(flash, BONE) + stroke(flash, shade(BONE), 1.4, 0.8),
    )
    d, line = skirt(
        art,
        pose,
        "black",
        ("waist", 30, 5),
        body["hip_y"] + 62,
        (-86, 96),
        3,
        9,
        0,
        hips=7,
        inside="".join(
            stroke(
                edge([(x, 300), (x * 1.12, 400), (x * 1.25, 470)]),
                light("black") if k % 2 else "#000000",
                2.2,
                0.8,
            )
            for k, x in enumerate(range(-74, 84, 8))
        )
        + fill("M-6 300L-34 318L20 316L-74 452L-20 334L-54 336Z", BONE),
        shine=0.9,
    )
    a, b = pose.point("waist", -1, 6, 22), pose.point("waist", 1, 6, 22)
    art.add(stroke(edge([a, pose.middle("waist", 0, 32), b]), shade("white"), 17, 1))
    art.add(stroke(edge([a, pose.middle("waist", 0, 32), b]), "white", 14, 1))
    x, y = b[0] - 10, b[1] + 1
    art.form(
        shape(
            [(x - 10, y - 12), (x + 9, y - 13)],
            [(x + 9, y - 13), (x + 9, y + 13)],
            [(x + 9, y + 13), (x - 10, y + 13)],
            [(x - 10, y + 13), (x - 10, y - 12)],
        ),
        "silver",
        size=3,
    )
    art.add(stroke(f"M{x:.0f} {y - 9:.0f}V{y + 9:.0f}", INK, 2, 0.8))
    hand(art, pose.arms[-1][2], 46, -1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    scales = "".join(
        stroke(f"M{x - 6} {y}Q{x} {y + 11} {x + 6} {y}", light("black"), 1.8, 0.9)
        for row, y in enumerate(range(-4, 66, 9))
        for x in range(-48 + (row % 2) * 6, 50, 12)
    )
    cap(art, pose, "black", 34, inside=scales)
    w = body["head"]
    art.line([(-w * 0.98, 62), (-w * 0.62 + pose.turn * 5, 88), (pose.turn * 6, 100)], "#2a2a2c", 4.5, 1)
    art.line([(w * 0.98, 62), (w * 0.62 + pose.turn * 5, 88), (pose.turn * 6, 100)], "#2a2a2c", 4.5, 1)
    art.end()
    art.end()


def race_black(art):
    ground.sea(art, "#d9d2bd", "#a2aa9d", 310, 620, 61, "#9a9b8c")
    pose = Pose(
        ODILE,
        arms=((12, 2), (40, -54)),
        legs=((0, 0), (9, 5)),
        sway=9,
        tilt=5,
        counter=-5,
        turn=-0.5,
        head=(-3, 0, -6),
    )
    stand(art, pose, 754, 714)
    skin(art, pose, hands=("fist", None))
    # One strap only, on the left, and that undone and tucked flat.
    bathing(
        art,
        pose,
        "black",
        ("scoop", 0.72),
        (0.5, 0.62),
        leg="high",
        rise=16,
        under=4,
        inside=ribs("black", 7, 0.4) + band(pose, "bust", 26, 19, BONE, 8),
    )
    x, y = pose.shoulder(1, 0.56, 2)
    buttons(art, [(x + 3, y + 16)], "#4a4744", 4.6)
    wx, wy = pose.arms[-1][2]
    for at in (-1, 1):
        art.form(oval(wx - 4 + at * 14, wy + 44, 13, 12), "#3b4a40", size=3)
        art.form(oval(wx - 4 + at * 14, wy + 44, 8, 7.5), "#b9c4bd", size=3, line=0.8)
    art.line([(wx - 26, wy + 42), (wx - 8, wy + 18), (wx + 18, wy + 40)], "#3b4a40", 4, 1)
    hand(art, pose.arms[1][2], -44, 1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    cap(art, pose, GREEN, 36)
    race_number(art, pose, "RACE 2", "#f1efe6", 24)
    art.end()
    art.end()


def race_white(art):
    """From the umpires' launch: shoulders above the water, one cap white."""
    ground.sea(art, "#8f9388", "#5f6d65", 250, None, 71)
    pose = Pose(
        COSIMA, arms=((52, 70), (60, 118)), legs=((0, 0), (5, 3)), turn=-0.6, head=(-5, 14, -10), counter=-8
    )
    stand(art, pose, 1500, 1380, 292)
    tone = "#dfbf9f"
    skin(art, pose, tone, hands=("easy", "easy"), feet="none")
    bathing(
        art, pose, "white", ("round", 0.5), (0.16, 0.34), leg="high", inside=ribs("#eeece4", 8, 0.5), under=4
    )
    neck_shadow(art, pose, tone)
    head(art, pose, tone, ears=False)
    cap(art, pose, "white", 34)
    race_number(art, pose, "RACE 1", "#1b1b1e", 12)
    goggles(art, pose, "white", 48, "#59655f")
    w = pose.body["head"]
    for side in (-1, 1):
        art.line(
            [(side * w * 0.98, 62), (side * w * 0.62 + pose.turn * 5, 88), (pose.turn * 6, 100)],
            "#f4f2ec",
            4.5,
            1,
        )
    art.end()
    art.end()
    ground.water_before(art, "#5b6962", 520, 8)
    for x, y, wide in ((120, 540, 90), (470, 532, 100), (300, 560, 150)):
        art.soft(sliver(sampled([(x - wide, y), (x, y - 12), (x + wide, y + 2)], 6), 18), "#f4f1e6", 0.75, 3)
