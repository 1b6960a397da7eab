"""Plates of Oilskins, 1947 to 1956: she puts on the old man's coat."""

import ground
from body import LATER, Pose
from brush import (
    between,
    edge,
    light,
    loop,
    mix,
    oval,
    shade,
    shape,
    stroke,
    tube,
)
from figure import SKIN, foot, hair, hand, head, neck_shadow, skin
from garments import (
    bathing,
    bodice,
    buttons,
    cord,
    hem_line,
    neckline,
    pushed,
    sleeve,
    trousers,
    watch,
)
from pilot import gansey_on
from stage import BONE, GREEN, SALT, stand


def _ochre(art, pose, near=False):
    """Ivo's coat on her: it sweeps the boots."""
    oil, dark = "#b8862f", "#6e4f1f"
    body = pose.body
    skin(art, pose, feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "black", "boot")
        joint, knee, ankle = pose.legs[side]
        art.form(
            tube(
                [between(knee, ankle, 0.1), between(knee, ankle, 0.6), (ankle[0], ankle[1] + 6)], [31, 25, 22]
            ),
            "black",
            size=7,
            shine=0.9,
        )
        x, y = between(knee, ankle, 0.16)
        art.form(tube([(x - 31, y), (x, y + 6), (x + 31, y)], [10, 11, 10]), "#efece2", size=4)
        foot(art, pose, side, "black", "boot")
    trousers(art, pose, "#23283a", (8, 10, 12, 10, 8, 6), 0.62)
    gansey_on(art, pose, "#2b3138", SKIN)
    cord(art, pose, "waist", 42, 13, 3, "#2c241c", 6)
    if not near:
        x, y = pose.middle("waist", -0.35, 66)
        art.line([(x, y - 12), (x - 2, y + 2), (x - 2, y + 12)], "#2c241c", 3, 1)
        watch(art, x - 2, y + 24, 12)
    x, y = pose.middle("waist", 0.28, 66)
    art.line([(x, y - 10), (x + 1, y + 6)], "#2c241c", 2.4, 1)
    art.form(tube([(x - 6, y + 12), (x + 9, y + 11)], [4.5, 6]), "silver", size=2)
    low = body["hip_y"] + 286
    line = hem_line(-150, 156, low, 12, 5, 12)
    for side in (-1, 1):
        sleeve(art, pose, side, oil, [12, 17, 20, 18, 20], 0, 0.9, shine=0.9)
        a, b = pose.arm_at(side, 0.76), pose.arm_at(side, 0.9)
        art.form(tube([a, between(a, b, 0.5), b], [33, 34, 34], False, False), mix(oil, dark, 0.35), size=7)
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.3, 9),
            (side * 34, body["sh_y"] + 36),
            (side * 44, body["waist_y"]),
            (side * 56, body["hip_y"] + 90),
            (side * 64, low + 10),
        ]
        hem = [(side * 64, low + 10)] + (
            [p for p in line if p[0] < -80][::-1] if side < 0 else [p for p in line if p[0] > 80]
        )
        outer = [
            hem[-1],
            pose.point("hip", side, 58),
            pose.point("waist", side, 42),
            pose.point("bust", side, 26),
            pose.point("sh", side, 14, 36),
            pose.shoulder(side, 0.94, 10),
            pose.shoulder(side, 0.6, 10),
            pose.shoulder(side, 0.3, 9),
        ]
        strokes = [
            [(side * 76, body["bust_y"] + 20), (side * 96, body["hip_y"]), (side * 112, low - 8)],
            [(side * 58, body["waist_y"]), (side * 78, body["hip_y"] + 100), (side * 88, low)],
            [(side * 92, body["waist_y"] + 20), (side * 112, body["hip_y"] + 90), (side * 134, low - 10)],
        ]
        text = art.folds(oil, strokes, 13, 0.55, 0.5, 2)
        text += art.soft_text(oval(side * 92, low - 50, 50, 70), dark, 0.6, 22) + art.soft_text(
            oval(side * 76, body["sh_y"] + 14, 36, 20), dark, 0.5, 12
        )
        art.form(shape(inner, hem, outer), oil, inside=text, size=15, shine=0.95)
        if side > 0:
            fly = [(x + side * 2, y) for x, y in inner]
            art.form(
                shape(
                    fly,
                    [
                        (fly[-1][0] - 26, fly[-1][1]),
                        (fly[-2][0] - 26, fly[-2][1]),
                        (fly[-3][0] - 24, fly[-3][1]),
                        (fly[-4][0] - 20, fly[-4][1] + 10),
                    ],
                    [(fly[-4][0] - 20, fly[-4][1] + 10), fly[0]],
                ),
                mix(oil, dark, 0.18),
                size=5,
            )
        for at in range(5):
            y = body["sh_y"] + 58 + at * 62
            x = side * (38 + (y - 180) * 0.055)
            art.form(tube([(x - side * 2, y), (x + side * 20, y - 2)], [5.4, 4.6]), "#d8bd6a", size=3)
        cord_d = shape(
            [pose.shoulder(side, 0.24, 17), (side * 22, body["sh_y"] + 16), (side * 32, body["sh_y"] + 44)],
            [(side * 32, body["sh_y"] + 44), (side * 60, body["sh_y"] + 30), pose.shoulder(side, 0.6, 11)],
            [pose.shoulder(side, 0.6, 11), pose.shoulder(side, 0.24, 17)],
        )
        art.form(
            cord_d,
            dark,
            inside="".join(stroke(f"M{k} 80V230", light(dark), 1.3, 0.5) for k in range(-90, 92, 6)),
            size=5,
        )


def ochre_spring(art):
    ground.sea(art, "#d6d3c4", "#9fa99f", 330, 660, 101, "#94978c")
    pose = Pose(
        LATER,
        arms=((16, 4), (22, -2)),
        legs=((1, 0), (8, 5)),
        sway=7,
        tilt=4,
        counter=-3,
        turn=0.6,
        head=(3, 0, 6),
    )
    stand(art, pose, 756, 708)
    _ochre(art, pose)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
    art.end()
    art.end()


def ochre_near(art):
    """Nearer, with the watch in her hand: the clips, the cuffs, the cord."""
    ground.studio(art, "#8f958b", 900, 103)
    pose = Pose(
        LATER,
        arms=((22, -28), (24, -70)),
        legs=((1, 0), (8, 5)),
        sway=5,
        tilt=3,
        counter=-5,
        turn=-0.6,
        head=(-4, 2, -12),
        reach=((1, 1), (1, 0.82)),
    )
    stand(art, pose, 1180, 1130, 300)
    _ochre(art, pose, True)
    _, elbow, wrist = pose.arms[1]
    a, b = pose.arm_at(1, 0.72), pose.arm_at(1, 0.88)
    sleeve(art, pose, 1, "#b8862f", [10, 15, 17, 16, 14], 0, 0.9, shine=0.9, merge=True)
    art.form(tube([pose.arm_at(1, 0.85), wrist], [11, 10]), SKIN, size=4)
    art.form(
        tube([a, between(a, b, 0.5), b], [33, 34, 34], False, False), mix("#b8862f", "#6e4f1f", 0.35), size=7
    )
    hand(art, wrist, -86, 1, SKIN, "fist", 1.1)
    watch(art, wrist[0] - 26, wrist[1] - 14, 19)
    art.line(
        [(wrist[0] - 30, wrist[1] + 6), (wrist[0] - 20, wrist[1] + 70), (10, pose.body["waist_y"] + 60)],
        "#2c241c",
        3.4,
        1,
    )
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
    art.end()
    art.end()


def baths_whistle(art):
    """The duffel on the shoulders like a cape, its sleeves empty."""
    ground.tiles(art, "#a9b3a2", 620)
    pose = Pose(
        LATER,
        arms=((9, -14), (9, -12)),
        legs=((1, 0), (8, 5)),
        sway=7,
        tilt=4,
        counter=-3,
        turn=-0.4,
        head=(-2, 0, -4),
    )
    stand(art, pose, 754, 706)
    duffel, horn = "#a3916c", "#4a3a28"
    body = pose.body
    skin(art, pose, feet="none", hands=("easy", "easy"))
    low = body["hip_y"] + 150
    back = shape(
        [(-140, low - 6), (-100, body["bust_y"]), (0, body["neck"])],
        [(0, body["neck"]), (100, body["bust_y"]), (142, low - 6)],
        [(142, low - 6), (0, low + 12), (-140, low - 6)],
    )
    art.form(back, shade(duffel), size=10)
    skin(art, pose, feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "#8a6b45", "shoe", sole="#5e4528")
        x, y = pose.legs[side][2]
        art.add(stroke(edge([(x - 17, y + 26), (x, y + 18), (x + 15, y + 25)]), "#4a3a28", 8, 1))
    trousers(
        art,
        pose,
        "#3c3a38",
        (9, 12, 16, 14, 17, 19),
        0.96,
        crease=True,
        inside="".join(
            art.soft_text(oval(pose.legs[s][2][0], pose.legs[s][2][1] - 60, 16, 40), "#8d877c", 0.55, 10)
            for s in (-1, 1)
        ),
    )
    for side in (-1, 1):
        sleeve(art, pose, side, BONE, [6, 8, 9, 6, 6], 0, 0.5)
        pushed(art, pose, side, BONE, 0.5, 20, 2)
    bodice(
        art,
        pose,
        BONE,
        neckline(pose, 0.3, 36, "v"),
        (6, 7, 10, 8),
        "waist",
        26,
        art.folds(BONE, [[(-50, 240), (-30, 270), (-34, 306)], [(50, 240), (34, 270), (36, 306)]], 7, 0.4)
        + stroke(edge([(pose.turn * 6, 178), (0, 250), (4, 320)]), shade(BONE), 1.8, 0.8),
    )
    buttons(art, [(pose.turn * 5 + k, 196 + k * 30) for k in range(4)], "#d0c6ae", 3.6)
    for side in (-1, 1):
        x, y = pose.middle("bust", side * 0.48, -2)
        art.form(
            shape(
                [(x - 19, y - 6), (x + 19, y - 6)],
                [(x + 19, y - 6), (x + 18, y + 34)],
                [(x + 18, y + 34), (x, y + 39), (x - 18, y + 34)],
            ),
            BONE,
            size=3,
            deep=0.6,
        )
        art.form(
            shape(
                [(side * 17 + 2, body["neck"] - 8), (pose.turn * 6 + side * 3, body["sh_y"] + 28)],
                [(pose.turn * 6 + side * 3, body["sh_y"] + 28), (side * 36, body["sh_y"] + 18)],
                [(side * 36, body["sh_y"] + 18), (side * 27, body["neck"])],
            ),
            BONE,
            size=4,
        )
    a, b = pose.point("waist", -1, 11, 22), pose.point("waist", 1, 11, 22)
    art.add(stroke(edge([a, pose.middle("waist", 0, 30), b]), "#2a2723", 9, 1))
    art.line(
        [
            (-14, body["sh_y"]),
            (-6, body["bust_y"] + 20),
            (2, body["bust_y"] + 48),
            (12, body["bust_y"] + 20),
            (20, body["sh_y"]),
        ],
        "#2c241c",
        2.6,
        1,
    )
    art.form(tube([(-6, body["bust_y"] + 54), (12, body["bust_y"] + 53)], [5, 7.5]), "silver", size=3)
    hem_line(-152, 156, low, 6, 4, 8)
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.32, 10),
            (side * 52, body["bust_y"] - 6),
            (side * 62, body["waist_y"]),
            (side * 74, body["hip_y"] + 40),
            (side * 80, low + 6),
        ]
        hem = [(side * 80, low + 6), (side * 116, low + 8), (side * 152, low - 4)]
        outer = [
            hem[-1],
            (side * 140, body["hip_y"]),
            (side * 124, body["waist_y"] - 10),
            pose.point("sh", side, 22, 40),
            pose.shoulder(side, 0.94, 14),
            pose.shoulder(side, 0.6, 13),
            pose.shoulder(side, 0.32, 10),
        ]
        art.form(
            shape(inner, hem, outer),
            duffel,
            inside=art.folds(
                duffel,
                [
                    [(side * 84, body["bust_y"]), (side * 100, body["hip_y"]), (side * 104, low - 6)],
                    [(side * 112, body["waist_y"]), (side * 124, body["hip_y"] + 40), (side * 132, low - 10)],
                ],
                12,
            ),
            size=13,
        )
        # An empty sleeve hanging outside.
        arm = [
            pose.point("sh", side, 14, 34),
            (side * 138, body["waist_y"]),
            (side * 142, body["hip_y"] + 60),
        ]
        art.form(
            tube(arm, [24, 25, 23], True, False),
            duffel,
            size=9,
            inside=art.folds(
                duffel,
                [
                    [(side * 120, 220), (side * 138, 270), (side * 130, 330)],
                    [(side * 150, 300), (side * 134, 350), (side * 146, 400)],
                ],
                8,
            ),
        )
        art.form(oval(side * 142, body["hip_y"] + 60, 23, 7), shade(duffel), size=3)
        for row in range(3):
            x, y = side * (60 + row * 5), body["bust_y"] + 22 + row * 66
            if side > 0:
                art.form(
                    tube([(x - 4, y - 12), (x + 4, y + 12)], [5, 5]), "#8f6f45" if row == 1 else horn, size=3
                )
                art.line([(x, y), (x + 12, y - 4), (x + 26, y)], "#d8cba8", 3.4, 1)
            else:
                art.add(
                    stroke(
                        edge([(x, y - 4), (x + 16, y - 7), (x + 18, y + 5), (x, y + 4)]), "#d8cba8", 3.4, 1
                    )
                )
        art.form(
            shape(
                [
                    pose.shoulder(side, 0.24, 20),
                    (side * 34, body["sh_y"] + 16),
                    (side * 48, body["sh_y"] + 40),
                ],
                [
                    (side * 48, body["sh_y"] + 40),
                    (side * 74, body["sh_y"] + 20),
                    pose.shoulder(side, 0.66, 16),
                ],
                [pose.shoulder(side, 0.66, 16), pose.shoulder(side, 0.24, 20)],
            ),
            duffel,
            size=6,
        )
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
    art.end()
    art.end()


def poolside_shorts(art):
    """Colour film of eight millimetres: at the Lido, the cardigan tied round her shoulders."""
    ground.tiles(art, "#a3b09c", 600)
    pose = Pose(
        LATER,
        arms=((40, -50), (14, 2)),
        legs=((-2, -2), (12, 7)),
        sway=9,
        tilt=5,
        counter=-4,
        turn=0.6,
        head=(3, 0, 7),
    )
    stand(art, pose, 752, 706)
    body = pose.body
    skin(art, pose, hands=(None, "easy"))
    shorts = "#3c3a38"
    text = art.folds(
        "white",
        [
            [(-50, 250), (-24, 272), (-34, 300)],
            [(50, 250), (30, 272), (38, 300)],
            [(-44, 302), (0, 310), (46, 300)],
        ],
        7,
        0.4,
    )
    letters = {
        "A": "M0 20L8 0L16 20M3 13H13",
        "L": "M0 0V20H11",
        "D": "M0 0V20H5Q15 20 15 10T5 0Z",
        "E": "M12 0H0V20H12M0 10H10",
    }
    for at, letter in enumerate("ALDE"):
        text += f'<g transform="translate({-45 + at * 21} 250)">{stroke(letters[letter], GREEN, 4, 0.95)}</g>'
    bathing(art, pose, "white", ("scoop", 0.52), (0.36, 0.6), leg="high", inside=text, ease=6)
    pleats = "".join(
        stroke(
            edge(
                [
                    pose.middle("waist", k, 8),
                    pose.middle("hip", k * 1.05, -30),
                    pose.middle("hip", k * 0.9, 60),
                ]
            ),
            "#201e1d",
            2.6,
            0.8,
        )
        for k in (-0.62, -0.3, 0.35, 0.68)
    )
    trousers(art, pose, shorts, (12, 18, 22, 20, 20, 20), 0.36, inside=pleats, folds=False)
    art.add(
        stroke(
            edge([pose.point("waist", -1, 6, 4), pose.middle("waist", 0, 12), pose.point("waist", 1, 6, 4)]),
            shade(shorts),
            13,
            1,
        )
    )
    for side in (-1, 1):
        x, y = between(pose.legs[side][0], pose.legs[side][1], 0.57)
        art.line([(x - 46, y + 2), (x, y + 10), (x + 46, y)], light(shorts), 1.6, 0.8)
    wool = GREEN
    rib = "".join(stroke(edge([(x, 100), (x + 3, 330)]), light(wool), 1.2, 0.4) for x in range(-130, 130, 7))
    for side in (-1, 1):
        cape = [
            pose.shoulder(side, 0.3, 10),
            pose.shoulder(side, 0.7, 12),
            pose.point("sh", side, 12, 26),
            pose.point("sh", side, 10, 70),
            pose.point("sh", side, -14, 58),
            (side * 40, body["sh_y"] + 26),
            (side * 14, body["sh_y"] + 22),
        ]
        art.form(
            loop(cape),
            wool,
            inside=rib
            + art.folds(
                wool,
                [
                    [
                        pose.shoulder(side, 0.5, 8),
                        (side * 62, body["sh_y"] + 24),
                        (side * 74, body["sh_y"] + 60),
                    ]
                ],
                8,
                0.7,
                0.4,
            ),
            size=8,
            shine=0.9,
        )
    knot = (pose.turn * 6 + 2, body["sh_y"] + 36)
    for side, turn in ((-1, 58), (1, 70)):
        arm = [
            (side * 44, body["sh_y"] + 10),
            knot,
            (knot[0] + side * 22, knot[1] + 36),
            (knot[0] + side * 32, knot[1] + turn),
        ]
        art.form(tube(arm, [16, 12, 14, 13], True, False), wool, size=7, shine=0.9, inside=rib)
    art.form(oval(knot[0], knot[1], 17, 14), wool, size=5, shine=0.9)
    hand(art, pose.arms[-1][2], 44, -1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
    art.end()
    art.end()
