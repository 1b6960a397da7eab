"""The painted figure: skin, head, hair, hands and feet. No face is ever drawn, only its planes."""

import math

from brush import (
    INK,
    between,
    light,
    loop,
    mix,
    oval,
    sampled,
    shade,
    shape,
    sliver,
    stroke,
    tube,
)

SKIN = "#d9b597"


def hand(art, wrist, turn, side, skin, kind="easy", scale=1.0):
    """A hand hanging from a wrist, `turn` degrees from straight down; the thumb is on the body's side."""
    shapes = {
        "easy": (
            [
                (-8, -9),
                (10, -12),
                (26, -13),
                (44, -11),
                (62, -5),
                (68, 0),
                (60, 6),
                (46, 10),
                (28, 12),
                (10, 10),
                (-8, 9),
            ],
            [(6, 8), (18, 16), (34, 23), (42, 22), (36, 14), (20, 6)],
            [[(36, -4), (62, -2)], [(34, 3), (58, 4)]],
        ),
        "fist": (
            [(-8, -9), (8, -14), (24, -17), (36, -12), (40, 0), (36, 12), (24, 15), (8, 12), (-8, 9)],
            [(8, 8), (16, 14), (26, 13), (32, 4), (24, 0), (14, 2)],
            [[(38, -7), (27, -8)], [(40, 0), (28, -1)]],
        ),
        "hip": (
            [(-8, -9), (8, -13), (24, -14), (40, -10), (48, -2), (44, 8), (28, 12), (10, 11), (-8, 9)],
            [(6, 8), (16, 16), (24, 20), (30, 16), (24, 8), (14, 4)],
            [[(28, -3), (44, -2)]],
        ),
    }
    palm, thumb, lines = shapes[kind]
    angle = math.radians(90 - turn)
    flip = -side

    def put(points):
        placed = []
        for x, y in points:
            x, y = x * scale, y * scale * flip
            placed.append(
                (
                    wrist[0] + x * math.cos(angle) + y * math.sin(angle),
                    wrist[1] + x * math.sin(angle) - y * math.cos(angle),
                )
            )
        return placed

    art.form(loop(put(palm)), skin, size=5, line=1.1)
    art.form(loop(put(thumb)), skin, size=3, line=1.0, deep=0.5)
    for line in lines:
        art.line(put(line), shade(skin), 1.1, 0.7)
    return put([(30, 0)])[0]


def foot(art, pose, side, colour, kind="bare", out=10, sole=None):
    """A foot or shoe from the front."""
    x, y = pose.legs[side][2]
    scale = pose.body["foot"] / 46 * (1.12 if pose.body["man"] else 1.0)
    shapes = {
        "bare": [(-10, -8), (-12, 10), (-19, 28), (-20, 40), (-8, 46), (8, 45), (16, 36), (13, 14), (10, -8)],
        "shoe": [
            (-11, -4),
            (-13, 12),
            (-19, 28),
            (-17, 43),
            (-3, 49),
            (10, 46),
            (16, 32),
            (12, 10),
            (11, -4),
        ],
        "heel": [(-10, 2), (-11, 14), (-15, 30), (-12, 48), (-2, 54), (8, 50), (13, 32), (10, 12), (10, 2)],
        "boot": [
            (-17, -60),
            (-16, -20),
            (-17, 8),
            (-25, 28),
            (-23, 44),
            (-5, 50),
            (13, 47),
            (20, 32),
            (16, 8),
            (15, -20),
            (17, -60),
        ],
    }
    turn = math.radians(-side * out)

    def put(points):
        return [
            (
                x + (px * -side * math.cos(turn) - py * math.sin(turn)) * scale,
                y + (px * -side * math.sin(turn) + py * math.cos(turn)) * scale,
            )
            for px, py in points
        ]

    art.soft(oval(*put([(2, 46)])[0], 34 * scale, 7 * scale), INK, 0.4, 5)
    art.form(loop(put(shapes[kind])), colour, size=6, line=1.2)
    if kind == "bare":
        for at in (-12, -5, 2, 8):
            art.line(put([(at, 45), (at + 1, 38)]), shade(colour), 1, 0.6)
    if sole:
        art.line(put([(-18, 42), (-4, 49), (12, 46)]), sole, 3, 0.9)
    return put


def skin(
    art,
    pose,
    tone=SKIN,
    legs=(1, -1),
    arms=(-1, 1),
    hands=("easy", "easy"),
    feet="bare",
    bend=(0, 0),
    glove=None,
):
    """The whole body as one modelled form, with hands and feet."""
    body = pose.body
    for side in legs:
        if feet == "bare":
            foot(art, pose, side, tone)
    for side, kind, more in ((-1, hands[0], bend[0]), (1, hands[1], bend[1])):
        if side in arms and kind:
            _, elbow, wrist = pose.arms[side]
            turn = math.degrees(math.atan2(wrist[0] - elbow[0], wrist[1] - elbow[1])) + more
            hand(
                art,
                wrist,
                turn,
                side,
                glove or tone,
                kind,
                0.9 * body["thick"] if body["thick"] > 0.85 else 0.72,
            )
    parts = [pose.leg(side) for side in legs] + [pose.torso()] + [pose.arm(side) for side in arms]
    name = art.round(shade(tone), light(tone), 10, 0.78, 0.55)
    ink = mix(shade(tone), INK, 0.5)
    rims = "".join(stroke(d, ink, 2.2, 0.75) for d in parts)
    art.add(
        rims
        + f'<g filter="url(#{name})">'
        + "".join(f'<path d="{d}" fill="{tone}"/>' for d in parts)
        + "</g>"
    )
    dark = shade(tone)
    whole = parts
    y, wide = body["neck"] + 10, body["sh"]
    text = ""
    for side in arms:
        shoulder, elbow, _ = pose.arms[side]
        pit = pose.point("bust", side, 0, -14)
        text += art.soft_text(
            sliver(sampled([pose.point("bust", side, -6, -30), pit, between(pit, elbow, 0.3)]), 6),
            dark,
            0.5,
            2,
        )
    # Collarbones or shoulder blades, knees, shins, and what lies between the legs.
    if pose.back:
        low = body["waist_y"] + 60
        text += art.soft_text(
            sliver(
                sampled(
                    [
                        (1, body["sh_y"]),
                        (pose.sway * 0.3, body["bust_y"]),
                        pose.middle("waist", 0, 0),
                        (pose.sway * 0.8, low),
                    ]
                ),
                9,
            ),
            dark,
            0.5,
            2.2,
        )
    for side in (-1, 1):
        if pose.back:
            x, y = side * wide * 0.4, body["bust_y"] - 16
            text += art.soft_text(
                sliver(
                    sampled([(x - side * 16, y - 30), (x - side * 12, y + 8), (x + side * 10, y + 24)]), 9
                ),
                dark,
                0.5,
                2.6,
            )
            text += art.soft_text(oval(x, y - 12, 17, 26), light(tone), 0.4, 7)
            text += art.soft_text(
                oval(side * 20 + pose.sway * 0.5, body["waist_y"] + 10, 9, 40), light(tone), 0.3, 6
            )
        else:
            text += art.soft_text(
                sliver(
                    sampled(
                        [
                            (side * 6 + pose.turn * 4, y + 6),
                            (side * wide * 0.36, y + 3),
                            (side * wide * 0.66, y + 4),
                        ]
                    ),
                    4,
                ),
                dark,
                0.42,
                1.2,
            )
        if side in legs:
            joint, knee, ankle = pose.legs[side]
            text += art.soft_text(
                sliver(
                    sampled(
                        [(knee[0] - 11, knee[1] + 2), (knee[0], knee[1] + 11), (knee[0] + 12, knee[1] + 3)]
                    ),
                    5,
                ),
                dark,
                0.4,
                1.5,
            )
            text += art.soft_text(
                tube(
                    [between(joint, knee, 0.25), between(joint, knee, 0.6), between(joint, knee, 0.95)],
                    [12, 11, 6],
                ),
                light(tone),
                0.4,
                6,
            )
            text += art.soft_text(
                tube(
                    [between(knee, ankle, 0.1), between(knee, ankle, 0.5), between(knee, ankle, 0.9)],
                    [7, 7, 3],
                ),
                light(tone),
                0.4,
                4,
            )
            text += art.soft_text(
                tube(
                    [
                        (joint[0] + 24, joint[1]),
                        (knee[0] + 15, knee[1] - 20),
                        (knee[0] + 17, knee[1] + 40),
                        (ankle[0] + 7, ankle[1]),
                    ],
                    [11, 8, 8, 4],
                ),
                dark,
                0.35,
                5,
            )
    art.add(f'<g clip-path="url(#{art.clip(whole)})">{text}</g>')


def neck_shadow(art, pose, tone=SKIN):
    body = pose.body
    wide = body["neck_w"]
    d = shape(
        [(-wide, body["chin"] - 16), (0, body["chin"] - 16), (wide, body["chin"] - 16)],
        [
            (wide, body["chin"] + 16),
            (wide * 0.3, body["neck"]),
            (-wide * 0.6, body["chin"] + 14),
            (-wide, body["chin"] + 2),
        ],
    )
    art.soft(d, shade(tone), 0.6, 2.4, within=d)


def head(art, pose, tone=SKIN, ears=True):
    """Head of simple planes, leaning as the pose says. Leaves a group open for hair and hats: close with `art.end()`."""
    dx, dy, lean = pose.head
    body = pose.body
    art.group(f'transform="translate({dx:.1f} {dy:.1f}) rotate({lean} 0 {body["chin"]})"')
    w, turn = body["head"], pose.turn * 6
    man = 1.06 if body["man"] else 1.0
    d = loop(
        [
            (0, 1),
            (w * 0.72, 10),
            (w, 38),
            (w * 0.93 + turn * 0.1, 62),
            (w * 0.66 * man + turn * 0.6, 84),
            (w * 0.24 + turn, 98),
            (-w * 0.24 + turn, 98),
            (-w * 0.66 * man + turn * 0.8, 84),
            (-w * 0.93 + turn * 0.5, 62),
            (-w, 38),
            (-w * 0.72, 10),
        ]
    )
    dark = shade(tone)
    if ears and not pose.back:
        for side in (-1, 1):
            if side * turn < 4:
                art.form(oval(side * (w - 1), 56, 6, 11), tone, size=3, line=1)
    art.form(d, tone, size=10, deep=0.7, shine=0.5)
    if pose.back:
        return
    text = art.soft_text(oval(-w * 0.42 + turn, 50, w * 0.24, 3.6), dark, 0.34, 2.4)
    text += art.soft_text(oval(w * 0.46 + turn, 50, w * 0.22, 3.6), dark, 0.34, 2.4)
    text += art.soft_text(
        sliver(sampled([(turn * 1.1 + 2, 50), (turn * 1.5 + 5, 66), (turn * 1.4 + 1, 71)]), 6),
        dark,
        0.42,
        1.4,
    )
    text += art.soft_text(oval(turn * 1.3 - 1, 81, 9, 2.6), mix(dark, "#8a2f2a", 0.45), 0.42, 1.0)
    text += art.soft_text(oval(turn * 1.2, 90, 9, 2.5), dark, 0.25, 1.6)
    text += art.soft_text(oval(-w * 0.5 + turn, 68, 9, 7), "#c8664e", 0.16, 4)
    text += art.soft_text(oval(w * 0.55 + turn, 68, 8, 7), "#c8664e", 0.16, 4)
    art.add(f'<g clip-path="url(#{art.clip(d)})">{text}</g>')


def hair(art, pose, kind, colour):
    """Hair, within an open head."""
    w, turn = pose.body["head"], pose.turn * 6
    strands = []
    if kind == "bob":
        outer = [
            (-w * 1.06, 72),
            (-w * 1.16, 40),
            (-w * 0.86, 4),
            (0, -9),
            (w * 0.86, 4),
            (w * 1.16, 40),
            (w * 1.08, 74),
        ]
        inner = [
            (w * 0.84, 72),
            (w * 0.86, 44),
            (w * 0.6 + turn, 28),
            (turn, 26),
            (-w * 0.5 + turn, 30),
            (-w * 0.84, 46),
            (-w * 0.8, 72),
        ]
        strands = [
            [(-4, -6), (-w * 0.7, 14), (-w, 60)],
            [(6, -6), (w * 0.8, 16), (w * 1.02, 62)],
            [(0, -6), (-w * 0.3, 10), (-w * 0.5, 28)],
        ]
    elif kind == "swept":
        outer = [
            (-w * 1.02, 62),
            (-w * 1.12, 36),
            (-w * 0.84, 2),
            (0, -10),
            (w * 0.86, 2),
            (w * 1.12, 36),
            (w * 1.04, 62),
        ]
        inner = [
            (w * 0.9, 50),
            (w * 0.74, 30),
            (w * 0.34 + turn, 22),
            (-w * 0.1 + turn, 20),
            (-w * 0.7, 32),
            (-w * 0.9, 52),
        ]
        strands = [
            [(w * 0.3, 14), (w * 0.8, 20), (w * 1.0, 52)],
            [(w * 0.1, 10), (-w * 0.7, 14), (-w, 50)],
            [(0, -6), (w * 0.7, 6), (w * 1.05, 36)],
            [(0, 2), (-w * 0.6, 2), (-w * 1.06, 36)],
        ]
    elif kind == "waves":
        outer = [
            (-w * 1.0, 78),
            (-w * 1.2, 62),
            (-w * 1.06, 44),
            (-w * 1.16, 26),
            (-w * 0.8, 0),
            (0, -9),
            (w * 0.84, 2),
            (w * 1.18, 28),
            (w * 1.06, 46),
            (w * 1.2, 64),
            (w * 0.98, 80),
        ]
        inner = [
            (w * 0.86, 66),
            (w * 0.78, 44),
            (w * 0.9, 30),
            (w * 0.2 + turn, 18),
            (-w * 0.5 + turn, 26),
            (-w * 0.82, 40),
            (-w * 0.76, 52),
            (-w * 0.88, 66),
        ]
        strands = [
            [(w * 0.1, 8), (-w * 0.5, 14), (-w * 0.8, 24), (-w * 1.0, 42)],
            [(w * 0.2, 0), (-w * 0.5, 4), (-w * 1.04, 24)],
            [(w * 0.3, 8), (w * 0.8, 16), (w * 1.0, 44)],
            [(-w * 0.9, 50), (-w * 1.04, 60), (-w * 0.96, 72)],
            [(w * 0.94, 50), (w * 1.08, 60), (w * 1.0, 74)],
        ]
    elif kind == "cropped":
        outer = [
            (-w * 1.0, 56),
            (-w * 1.04, 34),
            (-w * 0.8, 2),
            (0, -8),
            (w * 0.8, 2),
            (w * 1.04, 34),
            (w * 1.0, 56),
        ]
        inner = [(w * 0.9, 40), (w * 0.74, 24), (turn + 6, 18), (-w * 0.6, 22), (-w * 0.9, 42)]
        strands = [[(8, 10), (-w * 0.6, 10), (-w * 0.95, 40)], [(10, 8), (w * 0.7, 12), (w * 0.95, 40)]]
    elif kind == "back":
        outer = [
            (-w * 0.8, 88),
            (-w * 1.12, 56),
            (-w * 1.06, 24),
            (-w * 0.6, -4),
            (0, -9),
            (w * 0.6, -4),
            (w * 1.06, 24),
            (w * 1.12, 56),
            (w * 0.8, 88),
        ]
        inner = [(w * 0.4, 94), (0, 98), (-w * 0.4, 94)]
        strands = [
            [(0, -4), (-w * 0.8, 20), (-w * 0.9, 70)],
            [(2, -4), (w * 0.8, 20), (w * 0.9, 72)],
            [(0, 0), (4, 40), (0, 88)],
            [(0, 0), (-w * 0.4, 40), (-w * 0.45, 86)],
            [(2, 0), (w * 0.45, 40), (w * 0.45, 86)],
        ]
    d = shape(outer, inner)
    art.form(d, colour, inside=art.folds(colour, strands, 4, 0.5, 0.5, 0.8), size=6, line=1.0)
