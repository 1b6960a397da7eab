"""Plates of The Boom and of the peace after it, 1939 to 1948."""

import ground
from body import ODILE, WOMAN, Pose
from brush import between, edge, fill, light, loop, oval, sampled, shade, shape, sliver, stroke, tube
from figure import foot, hair, hand, head, neck_shadow, skin
from garments import bodice, buttons, neckline, pushed, skirt, sleeve, trousers
from stage import BONE, DARK, GREEN, stand


def watch_uniform(art):
    ground.studio(art, "#b3aa90", 650, 91)
    pose = Pose(
        ODILE,
        arms=((11, 4), (11, 4)),
        legs=((2, 1), (5, 4)),
        sway=3,
        tilt=1,
        counter=-1,
        turn=0.3,
        head=(1, 0, 2),
    )
    stand(art, pose, 752, 700)
    serge, shirt = "#23283a", "#b9b6a6"
    body = pose.body
    skin(art, pose, feet="none")
    for side in (-1, 1):
        foot(art, pose, side, "black", "boot")
    trousers(art, pose, serge, (13, 16, 20, 20, 22, 18), 0.97)
    for side in (-1, 1):
        x, y = between(pose.legs[side][1], pose.legs[side][2], 0.88)
        art.add(stroke(edge([(x - 27, y), (x, y + 6), (x + 27, y)]), "#11141d", 6, 1))
        art.line([(x + side * 4, y + 4), (x + side * 12, y + 24)], "#11141d", 3, 1)
    for side in (-1, 1):
        sleeve(art, pose, side, shirt, [6, 8, 9, 6, 6], 0.3, 0.86)
        sleeve(art, pose, side, serge, [10, 14, 15, 12, 12], 0, 0.7, shine=0.9)
        pushed(art, pose, side, serge, 0.7, 23, 2)
        pushed(art, pose, side, shirt, 0.84, 18, 1)
    text = art.folds(
        serge,
        [
            [(-60, 240), (-40, 270), (-50, 318)],
            [(60, 240), (44, 270), (50, 318)],
            [(-20, 280), (-14, 300), (-20, 322)],
            [(24, 280), (20, 300), (24, 322)],
        ],
        9,
        0.7,
        0.5,
    )
    bodice(
        art,
        pose,
        serge,
        neckline(pose, 0.34, 34, "v"),
        (10, 14, 26, 10),
        "waist",
        26,
        text,
        shaped=False,
        size=12,
        shine=0.9,
    )
    a, b = pose.point("waist", -1, 17, 30), pose.point("waist", 1, 17, 30)
    d = tube([a, pose.middle("waist", 0, 38), b], [13, 13, 13])
    art.form(d, serge, size=5, shine=0.9)
    x, y = b[0] - 22, b[1] + 4
    art.form(
        shape(
            [(x - 12, y - 5), (x + 12, y - 7)],
            [(x + 12, y - 7), (x + 12, y + 6)],
            [(x + 12, y + 6), (x - 12, y + 7)],
        ),
        "#8a8270",
        size=3,
    )
    art.add(stroke(edge([(pose.turn * 6 + 3, body["sh_y"] + 26), (4, 240), (4, 316)]), shade(serge), 4, 0.9))
    for side in (-1, 1):
        x, y = pose.middle("bust", side * 0.5, 6)
        art.form(
            shape(
                [(x - 22, y - 6), (x + 22, y - 6)],
                [(x + 22, y - 6), (x + 23, y + 40)],
                [(x + 23, y + 40), (x - 23, y + 40)],
                [(x - 23, y + 40), (x - 22, y - 6)],
            ),
            serge,
            size=5,
            shine=0.9,
        )
        art.form(
            shape(
                [(x - 24, y - 8), (x + 24, y - 8)],
                [(x + 24, y - 8), (x + 23, y + 8)],
                [(x + 23, y + 8), (x, y + 15), (x - 23, y + 8)],
            ),
            serge,
            size=3,
            shine=0.9,
        )
        buttons(art, [(x, y + 9)], "#8a8270", 3.4)
    # The shirt's collar open, the tie two fingers down, the blouse's collar hooked open.
    art.form(
        shape(
            [(-18, body["neck"] - 6), (22, body["neck"] - 6)],
            [(22, body["neck"] - 6), (4, body["sh_y"] + 34)],
            [(4, body["sh_y"] + 34), (-18, body["neck"] - 6)],
        ),
        shirt,
        size=4,
    )
    art.form(
        shape(
            [(-4, body["sh_y"] + 6), (9, body["sh_y"] + 6)],
            [(9, body["sh_y"] + 6), (12, body["sh_y"] + 48)],
            [(12, body["sh_y"] + 48), (-6, body["sh_y"] + 48)],
        ),
        "black",
        size=3,
    )
    art.form(oval(3, body["sh_y"] + 4, 9, 8), "black", size=3)
    for side in (-1, 1):
        art.form(
            shape(
                [(side * 17 + 2, body["neck"] - 10), (side * 5 + 3, body["sh_y"] + 2)],
                [(side * 5 + 3, body["sh_y"] + 2), (side * 27 + 2, body["sh_y"] + 10)],
                [(side * 27 + 2, body["sh_y"] + 10), (side * 24, body["neck"] - 4)],
            ),
            shirt,
            size=3,
        )
        art.form(
            shape(
                [
                    pose.shoulder(side, 0.27, 9),
                    (side * 28, body["sh_y"] + 12),
                    (side * 12 + 3, body["sh_y"] + 46),
                ],
                [(side * 12 + 3, body["sh_y"] + 46), (side * 50, body["sh_y"] + 26)],
                [(side * 50, body["sh_y"] + 26), pose.shoulder(side, 0.52, 8)],
            ),
            serge,
            size=4,
            shine=0.9,
        )
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "swept", DARK)
    w = body["head"]
    steel = "#3c3f3a"
    for side in (-1, 1):
        art.line([(side * w * 0.95, 44), (side * w * 0.8 + 2, 86), (4, 106)], "#4a4334", 4.5, 1)
    art.form(
        shape(
            [
                (-w * 1.62, 36),
                (-w * 1.1, 10),
                (-w * 0.7, -16),
                (0, -24),
                (w * 0.7, -16),
                (w * 1.1, 10),
                (w * 1.62, 36),
            ],
            [(w * 1.62, 36), (w * 0.8, 44), (2, 46), (-w * 0.8, 44), (-w * 1.62, 36)],
        ),
        steel,
        size=9,
        shine=0.9,
    )
    art.add(
        f'<g transform="translate(-17 6)">{stroke("M0 0V18M0 9H11M11 0V18M18 0L22 18L27 6L31 18L35 0", "#f1efe6", 3.4, 0.95)}</g>'
    )
    art.end()
    art.end()


def boom_dungarees(art):
    ground.studio(art, "#c0b7a2", 640, 95)
    ground.net(art, -30, -10, 260, 660, "#4a4034", 0.5, 44)
    ground.net(art, 400, -10, 240, 660, "#4a4034", 0.4, 44)
    pose = Pose(
        ODILE,
        arms=((38, -48), (14, 0)),
        legs=((1, 0), (10, 6)),
        sway=8,
        tilt=5,
        counter=-4,
        turn=-0.8,
        head=(-5, 0, -10),
    )
    stand(art, pose, 752, 706)
    drill, rust = "#3d4652", "#9a6a3a"
    body = pose.body
    skin(art, pose, feet="none", hands=(None, None))
    for side in (-1, 1):
        foot(art, pose, side, "#2a231d", "boot")
    striped = "".join(
        stroke(edge([(x, 80), (x * 1.05, 260), (x, 520)]), "#5f5a52", 3.2, 0.75) for x in range(-150, 160, 11)
    )
    for side in (1, -1):
        sleeve(art, pose, side, "#b7ac98", 8, 0, 0.5, inside=striped)
        pushed(art, pose, side, "#b7ac98", 0.5, 20, 2)
    bodice(art, pose, "#b7ac98", neckline(pose, 0.26, 16), (8, 8, 12, 8), "waist", 10, striped, shaped=True)
    art.form(
        tube([(-20, body["neck"] - 4), (pose.turn * 4, body["sh_y"] - 6), (20, body["neck"] - 4)], [4, 5, 4]),
        "#b7ac98",
        size=2,
    )
    trousers(
        art,
        pose,
        drill,
        (14, 17, 21, 20, 22, 24),
        0.97,
        top=-6,
        inside="".join(
            art.soft_text(oval(x, y, w, h), rust, 0.62, 8)
            for x, y, w, h in (
                (-52, body["hip_y"] + 70, 22, 34),
                (66, body["hip_y"] + 64, 22, 30),
                (-14, body["hip_y"] + 110, 14, 24),
            )
        ),
    )
    for side in (-1, 1):
        x, y = pose.legs[side][1]
        art.form(
            shape(
                [(x - 33, y - 40), (x + 33, y - 38)],
                [(x + 33, y - 38), (x + 30, y + 40)],
                [(x + 30, y + 40), (x - 31, y + 38)],
            ),
            "#8d8673",
            size=5,
            deep=0.7,
        )
        zig = "M" + "L".join(f"{x - 30 + k * 6:.0f} {y - 36 + (6 if k % 2 else 0):.0f}" for k in range(11))
        art.add(stroke(zig, "#a2342a", 2, 0.95))
    a, b = pose.point("waist", -1, 12, -4), pose.point("waist", 1, 12, -4)
    bib_top = body["bust_y"] - 16
    bib = shape(
        [a, (-62, body["waist_y"] - 30), (-44, bib_top)],
        [(-44, bib_top), (pose.turn * 6, bib_top + 5), (44, bib_top)],
        [(44, bib_top), (62, body["waist_y"] - 30), b],
        [b, pose.middle("waist", 0, 8), a],
    )
    art.form(
        bib,
        drill,
        inside=art.folds(drill, [[(-30, 230), (-20, 260), (-26, 284)], [(34, 230), (20, 258), (24, 284)]], 8)
        + stroke(f"M-40 {bib_top + 12}H40", light(drill), 1.6, 0.8, "5 4"),
        size=8,
    )
    art.form(
        shape(
            [(2, bib_top + 22), (34, bib_top + 22)],
            [(34, bib_top + 22), (33, bib_top + 58)],
            [(33, bib_top + 58), (4, bib_top + 58)],
        ),
        drill,
        size=3,
    )
    art.line([(14, bib_top + 14), (14, bib_top + 40)], "#c9a878", 4, 1)
    # The right strap holds; the left is unbuttoned for the shoulder that was hurt, and hangs.
    p = pose.shoulder(-1, 0.5, 8)
    art.form(tube([(p[0], p[1] - 2), (-46, body["sh_y"] + 30), (-36, bib_top + 8)], [9, 9, 8]), drill, size=4)
    buttons(art, [(-36, bib_top + 9), (36, bib_top + 9)], "#b5a06a", 5)
    art.form(
        tube(
            [pose.point("waist", 1, 8, -20), (92, body["waist_y"] + 30), (84, body["waist_y"] + 96)],
            [8, 9, 7],
        ),
        drill,
        size=4,
    )
    sleeve(art, pose, -1, "#b7ac98", 8, 0, 0.5, inside=striped, merge=True)
    pushed(art, pose, -1, "#b7ac98", 0.5, 20, 2)
    for side in (-1, 1):
        _, elbow, wrist = pose.arms[side]
        a, b = pose.arm_at(side, 0.74), wrist
        art.form(tube([a, between(a, b, 0.6), b], [23, 17, 14], False), "#a58a63", size=6)
        hand(art, wrist, 46 if side < 0 else 2, side, "#a58a63", "hip" if side < 0 else "easy", 1.12)
    neck_shadow(art, pose)
    head(art, pose, ears=True)
    w, turn = body["head"], pose.turn * 6
    cloth = GREEN
    d = shape(
        [
            (-w * 1.04, 52),
            (-w * 1.14, 26),
            (-w * 0.8, -8),
            (0, -16),
            (w * 0.84, -8),
            (w * 1.14, 26),
            (w * 1.04, 52),
        ],
        [(w * 1.04, 52), (w * 0.7, 36), (turn, 26), (-w * 0.7, 36), (-w * 1.04, 52)],
    )
    strokes = [
        [(-w, 44), (-w * 0.6, 8), (turn - 2, -6)],
        [(w, 44), (w * 0.6, 8), (turn + 4, -6)],
        [(-w * 0.9, 48), (-w * 0.4, 22), (turn - 4, 6)],
        [(w * 0.9, 48), (w * 0.5, 22), (turn + 6, 6)],
    ]
    art.form(d, cloth, inside=art.folds(cloth, strokes, 7, 0.8, 0.5), size=7, shine=0.9)
    art.form(
        loop(
            [
                (turn - 18, -2),
                (turn - 6, -26),
                (turn + 10, -28),
                (turn + 20, -6),
                (turn + 10, 12),
                (turn - 10, 13),
            ]
        ),
        cloth,
        size=5,
        shine=0.9,
        inside=art.folds(cloth, [[(turn - 14, 4), (turn, -10), (turn + 14, -16)]], 6, 0.8),
    )
    art.end()
    art.end()


def curtain_skirt(art):
    """Bridie on the step of the reopened shop."""
    ground.studio(art, "#c4baa6", 650, 107)
    for x, wide in ((-10, 120), (490, 130)):
        art.add(fill(f"M{x} 120H{x + wide}V560H{x}Z", "#8f8a78", 0.35))
        art.add(stroke(f"M{x} 120H{x + wide}V560H{x}Z", "#5b5446", 4, 0.35))
    art.flat("M0 680H600V800H0Z", "#a89d88", 0.8)
    tone = "#d9b99a"
    pose = Pose(
        WOMAN,
        arms=((38, -50), (14, 2)),
        legs=((-1, 0), (7, 4)),
        sway=6,
        tilt=4,
        counter=-3,
        turn=0.4,
        head=(2, 0, 4),
    )
    stand(art, pose, 740, 690)
    body = pose.body
    skin(art, pose, tone, feet="none", hands=(None, "easy"))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#b89a7c", size=6)
        foot(art, pose, side, "#2f2723", "heel")
    d, line = skirt(
        art,
        pose,
        "#4a2e36",
        ("waist", 4, 3),
        body["hip_y"] + 240,
        (-176, 182),
        20,
        6,
        12,
        hips=34,
        dip=16,
        wide=12,
        shine=0.75,
    )
    art.add(stroke(edge([(x, y + 5) for x, y in line[:5]]), "#e9e0c8", 3, 0.9))
    blouse = BONE
    sleeve(art, pose, -1, blouse, [7, 11, 14, 12, 9], 0, 0.9)
    sleeve(art, pose, 1, blouse, [7, 11, 14, 12, 9], 0, 0.9)
    pushed(art, pose, 1, blouse, 0.9, 15, 2)
    bodice(art, pose, blouse, neckline(pose, 0.26, 12), (6, 6, 5, 5), "waist", 0, shaped=True)
    felt = "#5f6b4a"
    for side in (-1, 1):
        x = pose.turn * 6
        inner = [
            pose.shoulder(side, 0.42, 6),
            (side * 30 + x, body["bust_y"] - 20),
            (x + side * 4, body["waist_y"] - 40),
            (x + side * 3, body["waist_y"] + 4),
            (x + side * 18, body["waist_y"] + 30),
        ]
        outer = [
            pose.point("waist", side, 8, 20),
            pose.point("waist", side, 7, -6),
            pose.point("bust", side, 7, 0),
            pose.point("bust", side, -4, -30),
            pose.shoulder(side, 0.72, 7),
        ]
        art.form(
            shape(inner, [inner[-1], outer[0]], outer, [outer[-1], inner[0]]),
            felt,
            size=8,
            inside=art.soft_text(
                sliver(sampled([(side * 40, 210), (side * 30, 250), (side * 34, 284)]), 8),
                shade(felt),
                0.5,
                2,
            ),
        )
        art.add(stroke(edge(inner), "#c9b48a", 3, 0.95))
        art.add(stroke(edge(outer), "#c9b48a", 3, 0.95))
        art.form(
            shape(
                [
                    (x * 0.4 + side * 16, body["neck"] - 8),
                    (x + side * 3, body["sh_y"] + 6),
                    (side * 24 + x, body["sh_y"] + 22),
                ],
                [
                    (side * 24 + x, body["sh_y"] + 22),
                    (side * 42, body["sh_y"] + 4),
                    (side * 30, body["neck"] + 2),
                ],
            ),
            blouse,
            size=4,
        )
    buttons(art, [(pose.turn * 6 + 1, body["waist_y"] - 30 + k * 18) for k in range(3)], "#c9b48a", 3.4)
    for k in range(9):
        x, y = 30 + k * 4.2, body["bust_y"] - 24 + k * 1.2
        art.line([(x, y), (x + 1, y + 13)], "#e6e4dc", 1.7, 1)
    sleeve(art, pose, -1, blouse, [7, 11, 14, 12, 9], 0, 0.9, merge=True)
    pushed(art, pose, -1, blouse, 0.9, 15, 1)
    hand(art, pose.arms[-1][2], 46, -1, tone, "hip", 0.9)
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "waves", "#6b4a33")
    art.end()
    art.end()
