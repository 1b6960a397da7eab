"""Plates of The Sound, 1925 to 1929: what was borrowed or given to be dry in."""

import ground
from body import COSIMA, ODILE, Pose
from brush import between, dots, edge, fill, oval, sampled, shade, shape, sliver, stroke, tube
from figure import foot, hair, hand, head, neck_shadow, skin
from garments import bathing, bodice, coat, cord, fall, hem_line, neckline, pushed, sleeve
from stage import DARK, WET, stand, stand_collar


def _cloak(art, pose, hem_y, hem, lining, opened=0):
    cloth, red = "#1d2230", "#6b1f24"
    body = pose.body
    line = hem_line(hem[0], hem[1], hem_y, 12, 5, 12)
    neck = [pose.shoulder(side, 0.3, 9) for side in (-1, 1)]
    left = [
        neck[0],
        pose.shoulder(-1, 0.62, 12),
        pose.point("sh", -1, 16, 40),
        pose.point("waist", -1, 62),
        between(pose.point("hip", -1, 70), line[0], 0.5),
        line[0],
    ]
    right = [
        line[-1],
        between(pose.point("hip", 1, 70), line[-1], 0.5),
        pose.point("waist", 1, 64),
        pose.point("sh", 1, 16, 40),
        pose.shoulder(1, 0.62, 12),
        neck[1],
    ]
    a, b = pose.point("sh", -1, -10, 30), pose.point("sh", 1, -10, 30)
    text = art.folds(cloth, fall(a, b, sampled(line, 3), 9, reach=0.99), 14, 0.75, 0.55, 2)
    return (
        shape(left, line, right, [neck[1], (pose.turn * 6, body["sh_y"] - 12), neck[0]]),
        text,
        cloth,
        red,
        line,
    )


def boat_cloak(art):
    """On back to front, the clasp behind the neck; one slipper. By lantern on the shingle."""
    ground.night(art, "#6a6a5c", 600, (300, 250), "#f1dcaa", True, 0.95)
    pose = Pose(ODILE, arms=((12, 2), (12, 2)), legs=((0, 0), (7, 4)), turn=-0.5, head=(-3, 0, -7))
    stand(art, pose, 752, 700)
    skin(art, pose, WET, legs=(1, -1), feet="bare", hands=(None, None))
    foot(art, pose, 1, "ivory", "shoe")
    body = pose.body
    d, text, cloth, red, line = _cloak(art, pose, body["hip_y"] + 232, (-158, 162), True)
    art.form(d, cloth, inside=text, size=16, shine=1.0)
    # One fist holds it shut from within; where it turns over, the red shalloon shows.
    fx, fy = 10, body["bust_y"] + 22
    turned = shape(
        [(fx, fy), (fx + 40, fy + 90), (fx + 62, fy + 240), (line[6][0], line[6][1])],
        [line[6], (fx + 14, fy + 270), (fx - 4, fy + 120), (fx, fy)],
    )
    art.form(
        turned,
        red,
        inside=art.folds(red, [[(fx + 4, fy + 10), (fx + 34, fy + 120), (fx + 48, fy + 350)]], 9),
        size=8,
    )
    roll = tube(
        [
            pose.shoulder(-1, 0.28, 10),
            (-26, body["sh_y"] + 4),
            (pose.turn * 6, body["sh_y"] + 16),
            (30, body["sh_y"] + 4),
            pose.shoulder(1, 0.28, 10),
        ],
        [8, 12, 15, 12, 8],
    )
    art.form(roll, red, size=6)
    hand(art, (fx - 26, fy + 8), 96, -1, WET, "fist", 0.95)
    for share in (-0.6, -0.2, 0.5):
        art.soft(
            sliver(sampled([(fx, fy + 6), (share * 90, fy + 20), (share * 190, fy + 90)]), 12),
            "#0c0e15",
            0.6,
            3,
            within=d,
        )
    neck_shadow(art, pose)
    head(art, pose, WET)
    hair(art, pose, "swept", "#1d1816")
    art.end()
    art.end()


def boat_cloak_sketch(art):
    """The sketch for the town hall, from behind: back to front, the clasp at the nape, and both slippers."""
    art.add(fill("M0 0H600V800H0Z", "#e6d6b4"))
    for points, wide, colour, opacity in (
        ([(-40, 150), (300, 90), (640, 170)], 190, "#c9a66a", 0.55),
        ([(-40, 330), (300, 300), (640, 350)], 160, "#b98f63", 0.35),
        ([(-40, 520), (300, 500), (640, 530)], 120, "#93917a", 0.7),
        ([(-40, 620), (300, 610), (640, 600)], 120, "#7f8270", 0.7),
        ([(-40, 740), (300, 730), (640, 750)], 140, "#a08f6c", 0.8),
    ):
        art.soft(sliver(sampled(points), wide), colour, opacity, 9)
    pose = Pose(
        ODILE,
        arms=((34, 40), (30, 44)),
        legs=((-6, -8), (16, 6)),
        sway=6,
        tilt=5,
        counter=-5,
        turn=0.7,
        head=(4, 0, 7),
        stride=((1, 1), (0.95, 0.96)),
        back=True,
    )
    stand(art, pose, 748, 690, 296)
    body = pose.body
    d, text, cloth, red, line = _cloak(art, pose, body["hip_y"] + 258, (-206, 196), True)
    art.form(
        d,
        red,
        inside=art.folds(red, fall((-60, 150), (60, 150), sampled(line, 3), 8), 14, 0.7, 0.4, 2),
        size=16,
    )
    skin(art, pose, "#d8b08a", feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "ivory", "shoe")
    bathing(art, pose, "black", ("scoop", 0.5), (0.42, 0.62), leg="high")
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.32, 9),
            (side * 60, body["bust_y"] + 10),
            (side * 84, body["hip_y"]),
            (side * 92, body["hip_y"] + 150),
            line[3 if side < 0 else -4],
        ]
        outer_hem = line[:4][::-1] if side < 0 else line[-4:]
        outer = [
            outer_hem[-1],
            (side * 178, body["hip_y"] + 60),
            pose.point("waist", side, 74),
            pose.point("sh", side, 17, 40),
            pose.shoulder(side, 0.62, 12),
            pose.shoulder(side, 0.32, 9),
        ]
        a, b = pose.shoulder(side, 0.4), pose.point("sh", side, 12, 44)
        strokes = [
            [
                between(a, b, k / 3),
                (side * (78 + k * 22), body["hip_y"]),
                (side * (100 + k * 26), body["hip_y"] + 240),
            ]
            for k in range(4)
        ]
        art.form(
            shape(inner, outer_hem, outer),
            cloth,
            inside=art.folds(cloth, strokes, 13, 0.75, 0.55, 2),
            size=14,
            shine=1.0,
        )
        art.add(stroke(edge(inner), red, 7, 1))
    art.form(
        tube(
            [pose.shoulder(-1, 0.34, 9), (pose.turn * 5, body["sh_y"] + 8), pose.shoulder(1, 0.34, 9)],
            [10, 13, 10],
        ),
        red,
        size=5,
    )
    y = pose.body["sh_y"] + 8
    for side in (-1, 1):
        art.form(oval(side * 13 + 4, y, 12, 13), "#b08d3f", size=4, shine=0.9)
        art.form(oval(side * 13 + 4, y + 2, 6, 6), "#8a6a2a", size=2, line=0.8)
    art.line([(-8, y), (4, y + 4), (16, y)], "#b08d3f", 4, 1)
    head(art, pose, "#d8b08a")
    hair(art, pose, "back", "#1d1816")
    art.end()
    art.end()


def civic_georgette(art):
    ground.hall(art, "#5e4a3a", "#433629")
    tone = "#d4b48f"
    pose = Pose(
        ODILE, arms=((9, -4), (12, -10)), legs=((0, 0), (6, 3)), sway=7, tilt=4, turn=0.4, head=(2, 0, 4)
    )
    stand(art, pose, 752, 704)
    gown, pale = "#6f8f7d", "#cfd8c4"
    body = pose.body
    skin(art, pose, tone, feet="none")
    for side in (1, -1):
        art.form(pose.leg(side, 1.0), "#d9c3a2", size=6)
        foot(art, pose, side, "#7d9a86", "heel")
        x, y = pose.legs[side][2]
        art.line([(x - 12, y + 12), (x, y + 17), (x + 12, y + 11)], "#7d9a86", 4, 1)
    # A slip, then the handkerchief hem in six points, sheer over it.
    top_l, top_r = pose.point("hip", -1, 10, -2), pose.point("hip", 1, 10, -2)
    slip_hem = hem_line(-72, 84, body["hip_y"] + 152, 4, 4, 6)
    art.form(shape([top_l, slip_hem[0]], slip_hem, [slip_hem[-1], top_r], [top_r, top_l]), pale, size=9)
    tips = [(-112, 214), (-66, 250), (-22, 226), (28, 256), (76, 222), (124, 246)]
    for at, (tip, low) in enumerate(tips):
        a, b = (
            between(top_l, top_r, max(0, (at - 0.8) / 5.4)),
            between(top_l, top_r, min(1, (at + 1.5) / 5.4)),
        )
        tip = (tip, body["hip_y"] + low)
        text = art.folds(
            gown,
            [
                [
                    between(a, b, k),
                    between(between(a, b, k), tip, 0.55),
                    between(between(a, b, 0.3 + k * 0.4), tip, 0.93),
                ]
                for k in (0.2, 0.55, 0.85)
            ],
            8,
            0.45,
            0.5,
            1.4,
        )
        text += art.soft_text(oval(tip[0], tip[1] - 30, 26, 44), pale, 0.6, 10)
        art.form(
            shape(
                [a, ((a[0] + tip[0]) / 2 - 20, (a[1] + tip[1]) / 2), tip],
                [tip, ((b[0] + tip[0]) / 2 + 18, (b[1] + tip[1]) / 2), b],
                [b, a],
            ),
            gown,
            inside=text,
            size=8,
            line=1,
        )
    sleeves = []
    for side in (-1, 1):
        art.group('opacity="0.78"')
        sleeve(art, pose, side, pale, [6, 9, 12, 9, 8], 0, 0.55)
        art.end()
        x, y = pose.arm_at(side, 0.55)
        pushed(art, pose, side, gown, 0.57, 20, 2)
        sleeves.append((x, y))
    text = art.folds(
        gown,
        [
            [pose.middle("bust", k, -20), pose.middle("waist", k * 1.1, 0), pose.middle("hip", k * 0.95, -12)]
            for k in (-0.85, -0.5, -0.15, 0.25, 0.6, 0.9)
        ],
        8,
        0.4,
        0.45,
        1.6,
    )
    text += art.soft_text(oval(-20, 220, 40, 60), pale, 0.45, 16)
    bodice(
        art,
        pose,
        gown,
        neckline(pose, 0.66, 9, "boat"),
        (10, 12, 22, 15),
        "hip",
        2,
        text,
        shaped=False,
        size=11,
    )
    for x, y in sleeves:
        art.add(dots([(x + k * 6 - 17, y + 1 + abs(k - 3) * -1.2) for k in range(7)], 3.6, "#b8c2b0"))
    a, b = pose.point("hip", -1, 16, 2), pose.point("hip", 1, 16, 2)
    art.add(stroke(edge([a, pose.middle("hip", 0, 10), b]), shade(gown), 10, 0.7))
    # The covered cork float, pinned a hand too low.
    x, y = pose.middle("hip", 0.62, 62)
    for ring, colour in ((27, "#93a08c"), (19, "#b8c2b0"), (10, "#e2e8d8")):
        art.form(oval(x, y, ring, ring * 0.94), colour, size=3, line=1)
    art.add(
        dots(
            [
                (x + 23 * c, y + 22 * s)
                for c, s in (
                    (1, 0),
                    (0.7, 0.7),
                    (0, 1),
                    (-0.7, 0.7),
                    (-1, 0),
                    (-0.7, -0.7),
                    (0, -1),
                    (0.7, -0.7),
                )
            ],
            3,
            "#e2e8d8",
        )
    )
    for k in (-1, 0, 1):
        art.line([(x + k * 6, y + 26), (x + k * 10, y + 54), (x + k * 12, y + 82)], "#b8c2b0", 3, 0.95, "1 5")
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "bob", DARK)
    art.end()
    art.end()


def white_robe(art):
    """Poolside: a collar up behind, deep cuffs, a cord tied once."""
    ground.tiles(art, "#6f8076", 610)
    pose = Pose(
        COSIMA,
        arms=((10, -20), (38, -50)),
        legs=((-2, -1), (9, 5)),
        sway=9,
        tilt=5,
        counter=-4,
        turn=-0.5,
        head=(-3, 0, -5),
    )
    stand(art, pose, 752, 722)
    body = pose.body
    stand_collar(art, pose, "white", 2, 34)
    skin(art, pose, "#e0c0a4", feet="bare", hands=("easy", None))
    for side in (-1, 1):
        x, y = pose.legs[side][2]
        art.line([(x - 15, y + 28), (x, y + 22), (x + 15, y + 28)], "#fbfaf5", 6, 1)
        art.line([(x - 20, y + 46), (x, y + 52), (x + 18, y + 46)], "#b58a5c", 5, 1)
    bathing(art, pose, "white", ("scoop", 0.6), (0.4, 0.6), leg="high")
    for side in (-1, 1):
        sleeve(art, pose, side, "white", [8, 12, 14, 12, 16], 0, 0.92)
    coat(
        art,
        pose,
        "white",
        body["hip_y"] + 196,
        (-104, 112),
        (12, 14, 14, 24),
        neckline(pose, 0.3, 118, "v"),
        folds=7,
        gap=(body["hip_y"] - 10, -16, 52),
        deep=0.9,
    )
    for side in (-1, 1):
        a = pose.shoulder(side, 0.26, 16)
        low = (pose.turn * 6 + side * 4, body["waist_y"] - 4)
        art.form(
            shape(
                [a, (side * 22, body["bust_y"] - 6), low],
                [
                    low,
                    (side * 46, body["bust_y"] + 12),
                    (side * 54, body["sh_y"] + 20),
                    pose.shoulder(side, 0.55, 9),
                ],
                [pose.shoulder(side, 0.55, 9), a],
            ),
            "white",
            size=7,
            deep=0.9,
        )
    cord(art, pose, "waist", 0, 15, 2, "#cfcabd", 6)
    for k in (0, 10):
        art.line(
            [
                (-24, body["waist_y"] + 6),
                (-34 - k, body["waist_y"] + 60),
                (-30 - k, body["waist_y"] + 128 + k),
            ],
            "#cfcabd",
            4.5,
            1,
        )
        art.form(
            tube([(-30 - k, body["waist_y"] + 126 + k), (-30 - k, body["waist_y"] + 148 + k)], [3, 7]),
            "#e9e5da",
            size=3,
        )
    sleeve(art, pose, 1, "white", [8, 12, 14, 12, 16], 0, 0.94, merge=True)
    for side, share in ((-1, 0.86), (1, 0.9)):
        x, y = pose.arm_at(side, share)
        a, b = pose.arm_at(side, share - 0.06), pose.arm_at(side, share + 0.05)
        art.form(tube([a, b], [25, 27], False, False), "white", size=6, deep=0.95)
    hand(art, pose.arms[1][2], -46, 1, "#e0c0a4", "hip", 0.9)
    neck_shadow(art, pose)
    head(art, pose, "#e0c0a4")
    hair(art, pose, "waves", "#c9a765")
    art.end()
    art.end()
