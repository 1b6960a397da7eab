"""Plates of The Slip, 1911 to 1924: a childhood on the quay."""

import ground
from body import CHILD, GIRL, Pose
from brush import between, edge, light, loop, mix, oval, sampled, shade, shape, stroke, tube
from figure import foot, hair, hand, head, neck_shadow, skin
from garments import bathing, bodice, fall, hem_line, neckline, pushed, skirt, sleeve
from hats import cap
from stage import DARK, GREEN, seven, stand, twelve


def quay_smock(art):
    ground.quay(art, stone="#8f8a78", sky="#d9c9a4", water="#8f9a8a", floor=560, post=False)
    pose = Pose(CHILD, arms=((14, 8), (52, 86)), legs=((0, 0), (5, 3)), turn=-0.4, head=(0, 0, -4))
    stand(art, pose, 752, 640, 275)
    smock, dark = "#b9a98a", "#8f8168"
    skin(art, pose, feet="none", hands=("easy", "fist"))
    for side in (-1, 1):
        art.form(pose.leg(side, 1.5), "black", size=6, shine=0.8)
        foot(art, pose, side, "#6d6a66", "bare")
    for side, end in ((-1, 0.58), (1, 0.5)):
        sleeve(art, pose, side, smock, 9, 0, end, folds=True)
        pushed(art, pose, side, smock, end, 22, 2)
    line = hem_line(-82, 92, 374, 8, 4, 10)
    left = [
        pose.point("sh", -1, -18, -8),
        pose.point("sh", -1, 8, 24),
        pose.point("bust", -1, 14, 0),
        pose.point("hip", -1, 24),
        line[0],
    ]
    right = [
        line[-1],
        pose.point("hip", 1, 26),
        pose.point("bust", 1, 14, 0),
        pose.point("sh", 1, 8, 24),
        pose.point("sh", 1, -18, -8),
    ]
    d = shape(left, line, right, [right[-1], (12, 116), (0, 120), (-14, 116), left[0]])
    yoke_a, yoke_b = pose.point("bust", -1, 14, 8), pose.point("bust", 1, 14, 8)
    text = art.folds(smock, fall(yoke_a, yoke_b, sampled(line, 3), 10, reach=0.98), 7)
    for row in range(6):
        y = 134 + row * 8
        zig = [(x, y + (4 if at % 2 else 0)) for at, x in enumerate(range(-66, 70, 7))]
        text += stroke("M" + "L".join(f"{a} {b}" for a, b in zig), dark, 2, 0.95)
    text += stroke(edge([yoke_a, (0, 180), yoke_b]), shade(smock), 3, 0.5)
    art.form(d, smock, inside=text, size=10)
    art.form(loop([(-26, 116), (0, 123), (26, 116), (20, 108), (0, 112), (-20, 108)]), smock, size=3)
    # The crab on its string.
    x, y = pose.arms[1][2][0] + 28, pose.arms[1][2][1] + 4
    art.line([(x, y), (x + 3, y + 70), (x + 1, y + 132)], "#4a3b2c", 1.8, 0.9)
    cx, cy = x + 1, y + 146
    for side in (-1, 1):
        for down in (-4, 4, 11):
            art.line(
                [(cx, cy + down), (cx + side * 22, cy + down - 6), (cx + side * 30, cy + down + 8)],
                "#7a3f2c",
                3,
                1,
            )
        art.form(
            loop(
                [
                    (cx + side * 16, cy - 10),
                    (cx + side * 26, cy - 24),
                    (cx + side * 34, cy - 18),
                    (cx + side * 24, cy - 8),
                ]
            ),
            "#9a4c32",
            size=2,
        )
    art.form(oval(cx, cy, 20, 13), "#9a4c32", size=4)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "bob", DARK)
    art.end()
    art.end()


def loft_pinafore(art):
    ground.studio(art, "#b5a78e", 660, 5)
    ground.net(art, -10, -10, 190, 620, "#4a4034", 0.35)
    ground.net(art, 440, -10, 190, 560, "#4a4034", 0.3)
    tone = "#cdb08f"
    pose = Pose(seven(), arms=((16, -6), (20, -46)), legs=((0, 0), (5, 3)), turn=0.4, head=(0, 0, 4))
    stand(art, pose, 750, 690)
    frock, apron = "#2b2f3a", "#a8987c"
    skin(art, pose, tone, feet="none", hands=("easy", "hip"))
    body = pose.body
    for side in (-1, 1):
        art.form(pose.leg(side, 2), "#2a2624", size=6)
        foot(art, pose, side, "#3a2c22", "boot", sole="#1d1713")
        x, y = pose.legs[side][2]
        for step in range(4):
            art.line([(x - 7, y - 34 + step * 11), (x + 7, y - 30 + step * 11)], "#8a7a5c", 1.6, 0.9)
    d, line = skirt(
        art,
        pose,
        frock,
        ("waist", 0, 8),
        body["hip_y"] + 172,
        (-84, 92),
        7,
        4,
        6,
        hips=20,
        shine=0.9,
        inside="".join(
            stroke(edge([(-120, y), (0, y + 10), (130, y)]), shade(frock), 3, 0.9)
            for y in (body["hip_y"] + 118, body["hip_y"] + 134)
        ),
    )
    for side in (-1, 1):
        sleeve(art, pose, side, frock, 8, 0, 0.47, shine=0.9)
        pushed(art, pose, side, frock, 0.47, 18, 2)
    bodice(art, pose, frock, neckline(pose, 0.34, 14), (8, 9, 10, 18), "hip", 0, shaped=False, shine=0.9)
    low = hem_line(-78, 86, body["hip_y"] + 116, 7, 4, 9)
    top_l, top_r = pose.point("sh", -1, -body["sh"] * 0.46, -2), pose.point("sh", 1, -body["sh"] * 0.46, -2)
    left = [
        top_l,
        pose.point("bust", -1, -12, 0),
        pose.point("waist", -1, 12, 6),
        pose.point("hip", -1, 24),
        low[0],
    ]
    right = [
        low[-1],
        pose.point("hip", 1, 26),
        pose.point("waist", 1, 12, 6),
        pose.point("bust", 1, -12, 0),
        top_r,
    ]
    d = shape(
        left,
        low,
        right,
        [top_r, pose.middle("bust", 0.42, -28)],
        [pose.middle("bust", 0.42, -28), pose.middle("bust", 0, -24), pose.middle("bust", -0.42, -28)],
        [pose.middle("bust", -0.42, -28), top_l],
    )
    text = art.folds(
        apron, fall(pose.point("waist", -1, 12), pose.point("waist", 1, 12), sampled(low, 3), 7), 8
    )
    for d_edge in (left, right):
        text += stroke(edge(d_edge), "#6f6351", 5, 0.9)
    art.form(d, apron, inside=text, size=10)
    # Ties crossed and knotted in front; the pocket with its netting needle and the red darn.
    y = body["waist_y"] + 8
    art.add(
        stroke(
            edge([pose.point("waist", -1, 12, 4), (2, y + 14), pose.point("waist", 1, 12, 2)]),
            "#6f6351",
            7,
            1,
        )
    )
    for side in (-1, 1):
        art.form(
            loop([(3, y + 12), (side * 22 + 3, y + 4), (side * 26 + 3, y + 18), (3, y + 16)]),
            "#8f8168",
            size=3,
        )
        art.line([(3, y + 14), (side * 10 + 3, y + 44), (side * 14 + 3, y + 66)], "#7d705a", 5, 1)
    px, py = 26, body["hip_y"] + 22
    art.form(tube([(px + 20, py - 46), (px + 23, py + 10)], [4.5, 6]), "#c9a878", size=2)
    art.form(
        shape(
            [(px - 6, py - 6), (px + 46, py - 2)],
            [(px + 46, py - 2), (px + 44, py + 46)],
            [(px + 44, py + 46), (px - 4, py + 44)],
        ),
        mix(apron, "#6f6351", 0.25),
        size=4,
    )
    art.add(
        stroke(
            "M" + "L".join(f"{px + step * 5} {py - 4 + (5 if step % 2 else -1)}" for step in range(9)),
            "#a2342a",
            2.4,
            1,
        )
    )
    hand(art, pose.arms[1][2], -50, 1, tone, "hip", 0.72)
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "bob", DARK)
    art.end()
    art.end()


def school_sailor(art):
    ground.studio(art, "#8d7b62", 668, 9)
    tone = "#cfb18f"
    pose = Pose(GIRL, arms=((9, 2), (9, 4)), legs=((0, 0), (5, 3)), turn=0.3, head=(0, 0, 2))
    stand(art, pose, 752, 712)
    blouse, navy = "ivory", "#252a38"
    body = pose.body
    skin(art, pose, tone, feet="none")
    for side in (-1, 1):
        art.form(pose.leg(side, 1.5), "black", size=6, shine=0.8)
        foot(art, pose, side, "#241f1d", "shoe")
    line = hem_line(-96, 104, body["hip_y"] + 116, 4, 9, 8)
    top_l, top_r = pose.point("hip", -1, 12, -20), pose.point("hip", 1, 12, -20)
    text = "".join(
        stroke(
            edge(
                [
                    between(top_l, top_r, at / 14),
                    between(
                        between(top_l, top_r, at / 14),
                        line[min(len(line) - 1, round(at / 14 * (len(line) - 1)))],
                        0.5,
                    ),
                    line[min(len(line) - 1, round(at / 14 * (len(line) - 1)))],
                ]
            ),
            "#0f1219" if at % 2 else light(navy),
            3.4 if at % 2 else 2,
            0.8,
        )
        for at in range(15)
    )
    text += stroke(edge([(x, y - 24) for x, y in line]), "#d9d4c4", 1.8, 0.8)
    art.form(
        shape([top_l, line[0]], line, [line[-1], top_r], [top_r, pose.middle("hip", 0, -16), top_l]),
        navy,
        inside=text,
        size=10,
        shine=0.7,
    )
    for side in (-1, 1):
        sleeve(art, pose, side, blouse, [9, 10, 10, 8, 8], 0, 0.56)
        pushed(art, pose, side, blouse, 0.56, 20, 2)
    bloused = art.folds(
        blouse,
        [
            [pose.middle("waist", x, -20), pose.middle("waist", x * 1.1, 20), pose.middle("hip", x * 1.1, -8)]
            for x in (-0.8, -0.4, 0.1, 0.5, 0.9)
        ],
        6,
    )
    bodice(
        art,
        pose,
        blouse,
        neckline(pose, 0.36, 46, "v"),
        (9, 12, 20, 17),
        "hip",
        -2,
        bloused,
        shaped=False,
        size=11,
    )
    a, b = pose.point("hip", -1, 17, -8), pose.point("hip", 1, 17, -8)
    art.add(stroke(edge([a, pose.middle("hip", 0, 2), b]), shade(blouse), 2.4, 0.7))
    art.add(
        stroke(edge([(a[0], a[1] + 7), pose.middle("hip", 0, 9), (b[0], b[1] + 7)]), shade(blouse), 1.6, 0.6)
    )
    # Dickey, and the deep square collar with three rows of tape: one corner has come loose.
    art.form(
        shape(
            [(-19, body["sh_y"] - 14), (0, body["sh_y"] - 8), (21, body["sh_y"] - 14)],
            [(21, body["sh_y"] - 14), (2, body["sh_y"] + 44), (-19, body["sh_y"] - 14)],
        ),
        blouse,
        size=4,
    )
    for row in range(3):
        art.line(
            [
                (-13 + row * 3, body["sh_y"] + 1 + row * 8),
                (0, body["sh_y"] + 4 + row * 8),
                (14 - row * 3, body["sh_y"] + 1 + row * 8),
            ],
            navy,
            2.2,
            0.9,
        )
    for side in (-1, 1):
        neck = (side * 22, body["sh_y"] - 17)
        out, low = (side * (body["sh"] - 6), body["sh_y"] + 4), (side * 4 + 2, body["sh_y"] + 62)
        corner = (
            (side * (body["sh"] - 16), body["sh_y"] + 44)
            if side > 0
            else (side * (body["sh"] - 8), body["sh_y"] + 36)
        )
        d = shape(
            [neck, out],
            [out, corner],
            [corner, between(corner, low, 0.6), low],
            [low, between(low, neck, 0.5), neck],
        )
        text = ""
        for step in (5, 10, 15):
            inner = [(x - side * step * 0.8, y - step * 0.6) for x, y in (out, corner, low)]
            text += stroke("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in inner), "#f1e9d2", 2, 1)
        art.form(d, navy, inside=text, size=4, shine=0.8)
        if side < 0:
            art.form(
                shape(
                    [corner, (corner[0] + 16, corner[1] - 12)],
                    [(corner[0] + 16, corner[1] - 12), (corner[0] + 18, corner[1] + 8), corner],
                ),
                mix(navy, "#ffffff", 0.25),
                size=2,
            )
    art.form(
        loop(
            [
                (2, body["sh_y"] + 56),
                (-12, body["sh_y"] + 68),
                (-8, body["sh_y"] + 104),
                (2, body["sh_y"] + 72),
                (14, body["sh_y"] + 104),
                (16, body["sh_y"] + 68),
            ]
        ),
        navy,
        size=4,
    )
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "bob", DARK)
    art.end()
    art.end()


def regatta_wool(art):
    ground.sea(art, "#d6ccb6", "#a9b1a2", 300, 600, 6, "#98988a")
    pose = Pose(twelve(), arms=((14, 6), (22, -18)), legs=((0, 0), (6, 4)), turn=-0.3, head=(0, 0, -5))
    stand(art, pose, 752, 700)
    wool, trim = "#26303a", "#d9cfb4"
    body = pose.body
    skin(art, pose, hands=("easy", None))
    for side in (-1, 1):
        end = 0.42
        d = pose.leg(side, [5, 7, 10, 6, 4, 4], end)
        art.form(d, wool, size=8, shine=0.9)
    outlines, _ = bathing(
        art,
        pose,
        wool,
        ("round", 0.06),
        (0.3, 0.72),
        leg=0.2,
        ease=5,
        inside="".join(
            stroke(edge([(x, 120), (x + 2, 250), (x + 1, 420)]), shade(wool), 1.6, 0.5)
            for x in range(-80, 90, 9)
        ),
    )
    # The modesty skirt, pulled up at one side in a fist.
    x, y = pose.arms[1][2]
    a, b = pose.point("waist", -1, 6, 10), pose.point("waist", 1, 7, 10)
    hemline = [
        (-74, body["hip_y"] + 92),
        (-48, body["hip_y"] + 101),
        (-16, body["hip_y"] + 94),
        (14, body["hip_y"] + 92),
        (40, body["hip_y"] + 62),
        (x + 6, y + 34),
    ]
    text = art.folds(
        wool,
        [
            [a, (-52, body["hip_y"]), (-56, body["hip_y"] + 92)],
            [pose.middle("waist", -0.2, 10), (-14, body["hip_y"] + 20), (-12, body["hip_y"] + 92)],
            [pose.middle("waist", 0.3, 10), (30, body["hip_y"]), (x - 6, y + 20)],
            [pose.middle("waist", 0.7, 10), (50, body["hip_y"] - 20), (x, y + 8)],
            [(10, body["hip_y"] + 84), (30, body["hip_y"] + 40), (x - 2, y + 22)],
        ],
        8,
    )
    text += stroke(edge(hemline), trim, 15, 1)
    art.form(
        shape(
            [a, pose.point("hip", -1, 12), hemline[0]],
            hemline,
            [hemline[-1], (x + 16, y + 4), pose.point("hip", 1, 9, -20), b],
            [b, pose.middle("waist", 0, 16), a],
        ),
        wool,
        inside=text,
        size=10,
        shine=0.9,
    )
    art.add(
        stroke(
            edge(
                [pose.point("waist", -1, 6, 10), pose.middle("waist", 0, 18), pose.point("waist", 1, 7, 10)]
            ),
            trim,
            9,
            1,
        )
    )
    ring = [
        (body["neck_w"] + 12 + pose.turn * 6, body["sh_y"] - 12),
        (pose.turn * 6 + 14, body["sh_y"] - 2),
        (pose.turn * 6, body["sh_y"]),
        (pose.turn * 6 - 14, body["sh_y"] - 2),
        (-body["neck_w"] - 12 + pose.turn * 6, body["sh_y"] - 12),
    ]
    art.add(stroke(edge(ring), trim, 7, 1))
    for at in range(3):
        px, py = pose.shoulder(1, 0.4 + at * 0.14, 1)
        py += 5
        art.form(tube([(px - 3, py - 7), (px + 3, py + 8)], [3.4, 3.4]), "#a9794a", size=2)
    hand(art, (x, y), -14, 1, "#d9b597", "fist", 0.85)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    cap(
        art,
        pose,
        GREEN,
        46,
        ears=True,
        inside="".join(
            stroke(edge([(k, -8), (k * 1.3, 20), (k * 1.5, 50)]), shade(GREEN), 1.2, 0.6)
            for k in range(-34, 36, 8)
        ),
    )
    art.end()
    art.end()
