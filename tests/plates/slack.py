"""Plates of Slack Water, 1957 to 1964: honours, and one swim for herself."""

import ground
from body import LATER, Pose
from brush import edge, fill, light, loop, mix, oval, sampled, shade, shape, stroke, tube
from figure import SKIN, foot, hair, hand, head, neck_shadow, skin
from garments import bathing, bodice, buttons, hem_line, neckline, pushed, skirt, sleeve
from hats import cap
from stage import BONE, GREEN, GREY, stand


def freedom_gown(art):
    """The portrait in oils: sleeves thrown back, under protest."""
    ground.hall(art, "#6c6248", "#40382b", False, 700)
    pose = Pose(
        LATER,
        arms=((16, -20), (34, -46)),
        legs=((0, 0), (6, 4)),
        sway=6,
        tilt=3,
        counter=-4,
        turn=0.5,
        head=(3, 0, 5),
    )
    stand(art, pose, 764, 700)
    crimson, ochre, dark_suit = "#5c1f2a", "#b8862f", "#2b2b2e"
    body = pose.body
    low = body["hip_y"] + 300
    skin(art, pose, feet="none", hands=("easy", None))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#a98a70", size=6)
        foot(art, pose, side, "black", "heel")
    line = hem_line(-172, 178, low, 10, 5, 12)
    back = shape(
        [(-90, body["sh_y"] + 30), (-120, body["hip_y"]), line[0]],
        line,
        [line[-1], (124, body["hip_y"]), (90, body["sh_y"] + 30)],
    )
    art.form(back, mix(crimson, "#1a0a0d", 0.45), size=12)
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#a98a70", size=6)
        foot(art, pose, side, "black", "heel")
    for side in (-1, 1):
        sleeve(art, pose, side, dark_suit, [7, 9, 10, 7, 5], 0, 0.82, shine=0.9)
    skirt(art, pose, dark_suit, ("waist", 0, 6), body["hip_y"] + 158, (-84, 96), 2, 3, 3, hips=10, shine=0.9)
    bodice(
        art,
        pose,
        dark_suit,
        neckline(pose, 0.34, 22),
        (7, 8, 12, 10),
        "hip",
        -20,
        stroke(edge([(pose.turn * 6, 165), (4, 260), (6, 380)]), "#0f0f11", 2.4, 1),
        shaped=True,
        shine=0.9,
    )
    buttons(art, [(pose.turn * 6 + k, 200 + k * 40) for k in range(4)], "#4a4a4e", 5)
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.34, 8),
            (side * 46, body["bust_y"]),
            (side * 58, body["waist_y"]),
            (side * 70, body["hip_y"] + 80),
            (side * 82, low + 6),
        ]
        hem = [(side * 82, low + 6), (side * 126, low + 10), (side * 176, low - 4)]
        outer = [
            hem[-1],
            (side * 128, body["hip_y"]),
            pose.point("waist", side, 40),
            pose.point("bust", side, 26),
            pose.point("sh", side, 14, 36),
            pose.shoulder(side, 0.94, 11),
            pose.shoulder(side, 0.34, 8),
        ]
        strokes = [
            [(side * 84, body["bust_y"]), (side * 104, body["hip_y"]), (side * 118, low)],
            [(side * 110, body["waist_y"] + 30), (side * 132, body["hip_y"] + 90), (side * 152, low - 8)],
        ]
        art.form(
            shape(inner, hem, outer), crimson, inside=art.folds(crimson, strokes, 14, 0.7, 0.4, 2), size=14
        )
        facing = inner + [
            (side * 108, low + 8),
            (side * 96, body["hip_y"] + 80),
            (side * 80, body["waist_y"]),
            (side * 68, body["bust_y"]),
            pose.shoulder(side, 0.56, 10),
        ]
        art.form(shape(inner, facing[5:]), ochre, size=6, shine=0.9)
        # The fur-cloth edge and the bell sleeve thrown back over the shoulder.
        art.add(stroke(edge([(x - side * 3, y) for x, y in inner]), "#efe6d2", 9, 0.95))
        art.add(stroke(edge(hem), "#efe6d2", 10, 0.95))
        for k, (x, y) in enumerate(sampled(inner, 4)[2:]):
            if k % 3 == 0:
                art.add(fill(oval(x - side * 3, y, 1.6, 3.4), "#2b2320", 0.9))
        bell = [
            pose.shoulder(side, 0.6, 16),
            (side * 112, body["sh_y"] + 4),
            (side * 152, body["bust_y"] + 30),
            (side * 168, body["hip_y"] + 40),
            (side * 130, body["hip_y"] + 70),
            (side * 112, body["bust_y"] + 60),
            pose.point("sh", side, 4, 50),
        ]
        art.form(
            loop(bell),
            crimson,
            size=10,
            inside=art.folds(
                crimson,
                [
                    [
                        (side * 96, body["sh_y"] + 20),
                        (side * 126, body["bust_y"] + 60),
                        (side * 138, body["hip_y"] + 50),
                    ]
                ],
                12,
            )
            + stroke(
                edge(
                    [
                        (side * 168, body["hip_y"] + 30),
                        (side * 150, body["hip_y"] + 66),
                        (side * 126, body["hip_y"] + 60),
                    ]
                ),
                "#efe6d2",
                11,
                0.95,
            ),
        )
    sleeve(art, pose, 1, dark_suit, [7, 9, 10, 7, 5], 0, 0.82, shine=0.9, merge=True)
    _, _, wrist = pose.arms[1]
    art.form(tube([pose.arm_at(1, 0.8), wrist], [12, 10]), SKIN, size=4)
    hand(art, wrist, -50, 1, SKIN, "fist", 0.95)
    art.form(
        tube(
            [(wrist[0] - 34, wrist[1] + 40), (wrist[0] - 8, wrist[1] - 2), (wrist[0] + 4, wrist[1] - 28)],
            [11, 12, 11],
        ),
        "#efe3c4",
        size=5,
    )
    art.add(
        stroke(
            edge(
                [(wrist[0] - 18, wrist[1] + 8), (wrist[0] - 10, wrist[1] + 14), (wrist[0] + 2, wrist[1] + 14)]
            ),
            "#8c2f2f",
            5,
            1,
        )
    )
    sleeve_x, sleeve_y = pose.arms[-1][2]
    art.form(tube([pose.arm_at(-1, 0.8), (sleeve_x, sleeve_y)], [12, 10]), SKIN, size=4)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", GREY)
    w = body["head"]
    art.form(
        loop(
            [
                (-w * 1.1, 22),
                (-w * 1.6, 6),
                (-w * 1.5, -14),
                (-w * 0.6, -30),
                (w * 0.4, -30),
                (w * 1.4, -16),
                (w * 1.6, 4),
                (w * 1.1, 22),
                (0, 26),
            ]
        ),
        "black",
        size=8,
        shine=0.95,
        inside=art.folds(
            "black",
            [[(-w, 14), (-w * 0.4, -10), (0, -26)], [(w, 14), (w * 0.6, -8), (w * 0.2, -26)]],
            7,
            0.8,
            0.7,
        ),
    )
    art.end()
    art.end()


def boucle_suit(art):
    """A frame of the telerecording."""
    ground.studio(art, "#b1aca0", 660, 113)
    pose = Pose(
        LATER,
        arms=((12, -4), (14, -30)),
        legs=((0, 0), (6, 3)),
        sway=6,
        tilt=4,
        counter=-3,
        turn=-0.5,
        head=(-3, 0, -6),
    )
    stand(art, pose, 750, 706)
    black, bone = "#1e1e20", BONE
    body = pose.body
    skin(art, pose, feet="none", hands=("easy", "easy"))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#b4957a", size=6)
        foot(art, pose, side, "black", "shoe")
    loops = ""
    for at in range(520):
        x, y = (at * 73) % 300 - 150, (at * 131) % 500 + 110
        loops += stroke(f"M{x} {y}q3 -5 6 0t-3 5", light(black) if at % 3 else "#3a3a3d", 1.5, 0.75)
    skirt(
        art,
        pose,
        black,
        ("waist", 0, 6),
        body["hip_y"] + 168,
        (-88, 104),
        3,
        3,
        4,
        hips=12,
        inside=loops + stroke(edge([(14, 300), (20, 420), (16, 560)]), "#0c0c0d", 5, 0.8),
        shine=0.9,
    )
    bodice(art, pose, bone, neckline(pose, 0.36, 12), (5, 6, 8, 6), "waist", 8)
    for side in (-1, 1):
        sleeve(art, pose, side, black, [9, 12, 13, 11, 11], 0, 0.66, inside=loops, shine=0.9)
        pushed(art, pose, side, black, 0.66, 22, 1)
        x, y = pose.arm_at(side, 0.69)
        art.form(tube([(x - 22, y + 2), (x, y + 7), (x + 22, y + 2)], [5, 6, 5]), bone, size=3)
    low = body["hip_y"] - 20
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.4, 7),
            (side * 34, body["bust_y"] - 20),
            (side * 24 + 2, body["waist_y"] - 10),
            (side * 22 + 4, low + 8),
        ]
        hem = [(side * 22 + 4, low + 8), (side * 56, low + 6), pose.point("hip", side, 17, -22)]
        outer = [
            hem[-1],
            pose.point("waist", side, 16),
            pose.point("bust", side, 11),
            pose.point("sh", side, 7, 34),
            pose.shoulder(side, 0.94, 7),
            pose.shoulder(side, 0.4, 7),
        ]
        art.form(
            shape(inner, hem, outer),
            black,
            inside=loops
            + art.folds(black, [[(side * 58, 210), (side * 50, 270), (side * 56, 350)]], 10, 0.7, 0.5),
            size=10,
            shine=0.9,
        )
        for line, move in ((inner, (side * 5, 0)), (hem, (0, -5))):
            moved = [(x + move[0], y + move[1]) for x, y in line]
            art.add(
                stroke(edge(moved), shade(bone), 10, 1)
                + stroke(edge(moved), bone, 7.5, 1)
                + stroke(edge(moved), shade(bone), 1, 0.7, "2 3")
            )
        x, y = pose.middle("waist", side * 0.72, 40)
        art.add(stroke(f"M{x - 18:.0f} {y:.0f}H{x + 18:.0f}", bone, 6, 1))
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "waves", GREY)
    art.end()
    art.end()


def last_robe(art):
    """Dawn at slack water: the robe of 1926 over the shoulders, a green cap."""
    ground.sea(art, "#d9c4a4", "#a3a695", 350, 650, 127, "#a09584")
    art.soft(oval(430, 345, 90, 26), "#f7e6bd", 0.9, 12)
    pose = Pose(
        dict(LATER, waist=62),
        arms=((18, 6), (16, 4)),
        legs=((0, 0), (7, 4)),
        sway=7,
        tilt=4,
        counter=-3,
        turn=-0.6,
        head=(-4, 0, -8),
    )
    stand(art, pose, 754, 700)
    robe, stripe, patch = "#8a8577", "#5c2323", "#a9a79b"
    body = pose.body
    low = body["hip_y"] + 250
    line = hem_line(-140, 146, low, 10, 4, 10)
    back = shape(
        [(-96, body["sh_y"] + 20), (-116, body["hip_y"]), line[0]],
        line,
        [line[-1], (118, body["hip_y"]), (96, body["sh_y"] + 20)],
        [(96, body["sh_y"] + 20), (0, body["sh_y"] - 24), (-96, body["sh_y"] + 20)],
    )
    art.form(
        back,
        shade(robe),
        size=10,
        inside=stroke(edge([(x, y - 30) for x, y in line]), mix(stripe, "#000000", 0.4), 28, 1),
    )
    skin(art, pose, "#d6b394", hands=("easy", "easy"))
    for side in (-1, 1):
        art.form(pose.leg(side, [3, 3, 6, 4, 4, 4], 0.06), "black", size=6)
    bathing(art, pose, "black", ("scoop", 0.56), (0.38, 0.58), leg=0.07, shine=0.9)
    x, y = pose.shoulder(1, 0.48, 2)
    art.line([(x, y + 16), (x + 7, y + 30), (x + 4, y + 44)], "#efe9da", 1.8, 1)
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.42, 9),
            (side * 62, body["bust_y"] - 6),
            (side * 76, body["waist_y"]),
            (side * 82, body["hip_y"] + 40),
            (side * 78, low + 6),
        ]
        hem = [(side * 78, low + 6), (side * 110, low + 8), (side * 143, low - 4)]
        outer = [
            hem[-1],
            (side * 132, body["hip_y"]),
            (side * 118, body["waist_y"] - 10),
            pose.point("sh", side, 20, 40),
            pose.shoulder(side, 0.94, 12),
            pose.shoulder(side, 0.42, 9),
        ]
        text = art.folds(
            robe,
            [
                [(side * 90, body["bust_y"]), (side * 104, body["hip_y"]), (side * 100, low - 6)],
                [(side * 112, body["waist_y"]), (side * 122, body["hip_y"] + 60), (side * 128, low - 10)],
            ],
            12,
        )
        text += stroke(edge([(x, y - 32) for x, y in hem]), stripe, 32, 0.97)
        art.form(shape(inner, hem, outer), robe, inside=text, size=13)
        arm = [
            pose.point("sh", side, 14, 34),
            (side * 134, body["waist_y"] + 4),
            (side * 138, body["hip_y"] + 40),
        ]
        art.form(
            tube(arm, [25, 29, 30], True, False),
            patch,
            size=9,
            inside=art.folds(
                patch,
                [
                    [(side * 116, 220), (side * 138, 270), (side * 128, 330)],
                    [(side * 150, 290), (side * 132, 340), (side * 146, 390)],
                ],
                9,
            ),
        )
        art.form(oval(side * 138, body["hip_y"] + 40, 30, 8), shade(patch), size=3)
    neck_shadow(art, pose)
    head(art, pose, "#d6b394", ears=False)
    cap(art, pose, GREEN, 34)
    art.end()
    art.end()
