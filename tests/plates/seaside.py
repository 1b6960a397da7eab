"""Plates of The Lights, 1930 to 1938: what she was dressed in for the beach and the Lido."""

import ground
from body import ODILE, Pose
from brush import (
    edge,
    loop,
    sampled,
    shade,
    shape,
    stroke,
    tube,
)
from figure import SKIN, hair, hand, head, neck_shadow, skin
from garments import (
    bodice,
    buttons,
    fall,
    hem_line,
    neckline,
    sleeve,
)
from stage import BONE, DARK, stand


def beach_pyjamas(art):
    ground.sea(art, "#b7b8a8", "#75857c", 320, 640, 51, "#86897c")
    pose = Pose(
        ODILE,
        arms=((14, 10), (42, -56)),
        legs=((-3, -1), (13, 8)),
        sway=9,
        tilt=5,
        counter=-5,
        turn=0.5,
        head=(3, 2, 6),
    )
    stand(art, pose, 760, 690)
    sand, rust = "#d9c9a3", "#b4532f"
    body = pose.body
    skin(art, pose, hands=("easy", None))
    fork = pose.middle("hip", 0, 46)
    for side in (1, -1):
        joint, knee, ankle = pose.legs[side]
        hem = [
            (ankle[0] - 66, ankle[1] + 18),
            (ankle[0] - 30, ankle[1] + 28),
            (ankle[0], ankle[1] + 20),
            (ankle[0] + 34, ankle[1] + 30),
            (ankle[0] + 66, ankle[1] + 18),
        ]
        outer = [
            pose.point("waist", side, 4, 0),
            pose.point("hip", side, 8, -10),
            (knee[0] + side * 44, knee[1]),
            hem[0] if side < 0 else hem[-1],
        ]
        inner = [
            hem[-1] if side < 0 else hem[0],
            (knee[0] - side * 30, knee[1]),
            (fork[0] + side * 2, fork[1]),
            pose.middle("waist", 0.0, 0),
        ]
        along_hem = hem if side < 0 else hem[::-1]
        strokes = [
            [
                (joint[0] + k * 22, joint[1] + 30 + abs(k) * 40),
                (knee[0] + k * 28, knee[1]),
                (ankle[0] + k * 48, ankle[1] + 22),
            ]
            for k in (-0.95, -0.5, 0.0, 0.5, 0.95)
        ]
        text = art.folds(sand, strokes, 9, 0.42, 0.4, 1.8)
        text += art.soft_text(
            f"M{ankle[0] - 120:.0f} {knee[1] + 34:.0f}H{ankle[0] + 120:.0f}V{ankle[1] + 60:.0f}H{ankle[0] - 120:.0f}Z",
            "#8d7b58",
            0.62,
            7,
        )
        text += stroke(edge([(x - side * 7, y) for x, y in outer]), rust, 12, 1)
        art.form(shape(outer, along_hem, inner), sand, inside=text, size=12)
    for row in range(4):
        x, y = pose.point("waist", 1, -2, 14 + row * 18)
        buttons(art, [(x - 6, y)], "#efe6cf", 3.6)
    text = art.folds(
        rust,
        [
            [(-50, 214), (-24, 232), (6, 238)],
            [(52, 212), (30, 236), (26, 280)],
            [(-40, 244), (-22, 262), (-18, 286)],
            [(-4, 170), (-10, 200), (-4, 226)],
        ],
        6,
        0.4,
        0.3,
    )
    top_l, top_r = (-20, body["neck"] + 2), (22, body["neck"] + 2)
    left = [
        top_l,
        (-42, body["sh_y"] + 22),
        pose.point("bust", -1, 3, -2),
        pose.point("waist", -1, 4, -10),
        pose.point("waist", -1, 5, 4),
    ]
    right = [
        (x, y)
        for x, y in [
            top_r,
            (46, body["sh_y"] + 22),
            pose.point("bust", 1, 3, -2),
            pose.point("waist", 1, 4, -10),
            pose.point("waist", 1, 5, 4),
        ]
    ]
    art.form(
        shape(
            left,
            [left[-1], pose.middle("waist", 0, 12), right[-1]],
            right[::-1],
            [top_r, (4, body["sh_y"] + 8), top_l],
        ),
        rust,
        inside=text,
        size=9,
    )
    for side in (-1, 1):
        art.line([(side * 20, body["neck"] + 4), (side * 18, body["chin"] + 12)], rust, 9, 1)
    hand(art, pose.arms[1][2], -46, 1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "bob", DARK)
    w = body["head"]
    brim = loop(
        [
            (-w * 3.0, 30),
            (-w * 1.6, 6),
            (0, -2),
            (w * 1.6, 4),
            (w * 3.0, 24),
            (w * 1.8, 38),
            (0, 42),
            (-w * 1.8, 42),
        ]
    )
    weave = "".join(
        stroke(edge([(-w * r, 28 + r), (0, 4 + (r * 9)), (w * r, 24 + r)]), shade(sand), 1.3, 0.55)
        for r in (1.0, 1.4, 1.8, 2.2, 2.6)
    )
    art.form(brim, sand, inside=weave, size=7)
    crown = shape(
        [(-w * 1.02, 18), (-w * 0.94, -12), (-w * 0.5, -34), (w * 0.4, -36), (w * 0.94, -14), (w * 1.02, 16)],
        [(w * 1.02, 16), (0, 26), (-w * 1.02, 18)],
    )
    art.form(
        crown,
        sand,
        inside="".join(
            stroke(edge([(-w, y), (0, y + 7), (w, y - 2)]), shade(sand), 1.3, 0.5) for y in range(-30, 20, 8)
        ),
        size=8,
    )
    art.end()
    art.end()


def lido_linen(art):
    ground.tiles(art, "#7d9184", 610)
    pose = Pose(
        ODILE,
        arms=((12, -2), (38, -52)),
        legs=((-2, -1), (9, 5)),
        sway=8,
        tilt=5,
        counter=-4,
        turn=0.5,
        head=(3, 0, 5),
    )
    stand(art, pose, 752, 708)
    body = pose.body
    skin(art, pose, hands=("easy", None))
    for side in (-1, 1):
        x, y = pose.legs[side][2]
        for down in (24, 34):
            art.line([(x - 17, y + down + 6), (x, y + down), (x + 15, y + down + 5)], "#c9b28a", 5.5, 1)
        art.line([(x, y + 8), (x - 1, y + 34)], "#c9b28a", 4, 1)
        art.line([(x - 20, y + 46), (x, y + 52), (x + 18, y + 46)], "#d8c79f", 6, 1)
    linen = BONE
    low = body["hip_y"] + 214
    line = hem_line(-118, 128, low, 10, 4, 8)
    a, b = pose.point("waist", -1, 4, 2), pose.point("waist", 1, 4, 2)
    mid = pose.middle("waist", 0, 8)
    open_at = (mid[0] + 5, body["hip_y"] + 96)
    text = art.folds(linen, fall(a, b, sampled(line, 3), 8), 10, 0.42, 0.4, 1.6)
    text += art.folds(
        linen,
        [
            [(-40, body["hip_y"] - 30), (0, body["hip_y"] - 22), (44, body["hip_y"] - 32)],
            [(-44, body["hip_y"] + 4), (-4, body["hip_y"] + 12), (40, body["hip_y"] + 2)],
        ],
        6,
        0.4,
        0.3,
    )
    text += stroke(edge([mid, (mid[0] + 4, body["hip_y"]), open_at]), shade(linen), 1.8, 0.8)
    left_hem, right_hem = [p for p in line if p[0] < -8], [p for p in line if p[0] > 40]
    d = shape(
        [a, pose.point("hip", -1, 12, -6), left_hem[0]],
        left_hem + [(-4, low + 8)],
        [(-4, low + 8), (mid[0], body["hip_y"] + 150), open_at],
        [open_at, (mid[0] + 12, body["hip_y"] + 150), (40, low + 6)],
        [(40, low + 6)] + right_hem,
        [right_hem[-1], pose.point("hip", 1, 12, -6), b],
        [b, mid, a],
    )
    art.form(d, linen, inside=text, size=12)
    for side in (-1, 1):
        sleeve(art, pose, side, linen, [9, 10, 9, 5, 5], 0, 0.3)
        x, y = pose.arm_at(side, 0.02)
        art.form(
            loop(
                [
                    (x - 26, y + 16),
                    (x - 20, y - 16),
                    (x + 2, y - 24),
                    (x + 22, y - 14),
                    (x + 27, y + 18),
                    (x, y + 26),
                ]
            ),
            linen,
            size=7,
            inside=art.folds(
                linen,
                [
                    [(x - 10, y - 16), (x - 8, y), (x - 12, y + 18)],
                    [(x + 6, y - 18), (x + 6, y), (x + 8, y + 18)],
                ],
                5,
            ),
        )
        x, y = pose.arm_at(side, 0.3)
        art.form(tube([(x - 25, y + 2), (x, y + 6), (x + 25, y + 2)], [6, 7, 6]), linen, size=3)
    text = art.folds(
        linen,
        [
            [(-44, 230), (-30, 256), (-34, 284)],
            [(44, 230), (34, 256), (36, 284)],
            [(-14, 250), (-10, 270), (-12, 286)],
        ],
        6,
        0.4,
    )
    bodice(
        art,
        pose,
        linen,
        neckline(pose, 0.32, 40, "v"),
        (5, 6, 6, 6),
        "waist",
        2,
        text + stroke(edge([(pose.turn * 6, 176), (mid[0], mid[1])]), shade(linen), 1.8, 0.8),
    )
    for side in (-1, 1):
        art.form(
            shape(
                [pose.shoulder(side, 0.2, 9), (pose.turn * 6 + side * 3, body["sh_y"] + 32)],
                [
                    (pose.turn * 6 + side * 3, body["sh_y"] + 32),
                    (side * 38, body["sh_y"] + 36),
                    (side * 46, body["sh_y"] + 8),
                ],
                [(side * 46, body["sh_y"] + 8), pose.shoulder(side, 0.42, 7)],
                [pose.shoulder(side, 0.42, 7), pose.shoulder(side, 0.2, 9)],
            ),
            linen,
            size=4,
        )
        x, y = pose.middle("hip", side * 0.62, 24)
        art.form(
            shape(
                [(x - 23, y - 6), (x + 23, y - 4)],
                [(x + 23, y - 4), (x + 21, y + 44)],
                [(x + 21, y + 44), (x - 21, y + 43)],
                [(x - 21, y + 43), (x - 23, y - 6)],
            ),
            linen,
            size=4,
            deep=0.6,
        )
        art.line([(x - 23, y + 5), (x + 23, y + 7)], shade(linen), 1.5, 0.8)
    buttons(art, [(pose.turn * 6 + k * 0.6, 190 + k * 23) for k in range(4)], "black", 5)
    buttons(art, [(mid[0] + 2 + k * 0.8, mid[1] + 32 + k * 31) for k in range(5)], "black", 5)
    buttons(art, [(mid[0] + 11 + k * 8, open_at[1] + 32 + k * 27) for k in range(4)], "black", 4.6)
    art.add(stroke(edge([a, pose.middle("waist", 0, 11), b]), "#101012", 17, 1))
    art.add(stroke(edge([(a[0] + 4, a[1] - 3), pose.middle("waist", -0.2, 5)]), "#8d8d90", 2.4, 0.8))
    x, y = pose.middle("waist", 0, 10)
    art.add(stroke(f"M{x - 9:.0f} {y - 7:.0f}h18v14h-18z", "silver", 3, 1))
    hand(art, pose.arms[1][2], -46, 1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "swept", DARK)
    art.end()
    art.end()
