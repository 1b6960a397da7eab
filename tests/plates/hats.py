"""Caps, hats, goggles and a beard, painted within an open head."""

from brush import INK, edge, fill, light, loop, mix, num, oval, shade, shape, stroke


def cap(art, pose, colour, low=34, tail="", inside="", ears=True, deep=0.8):
    """A bathing cap drawn over the ears."""
    w, turn = pose.body["head"], pose.turn * 6
    d = shape(
        [
            (-w * 1.05, 66 if ears else 46),
            (-w * 1.1, 36),
            (-w * 0.82, 2),
            (0, -7),
            (w * 0.82, 2),
            (w * 1.1, 36),
            (w * 1.05, 66 if ears else 46),
        ],
        [
            (w * 0.95, 64 if ears else 46),
            (w * 0.8, 40),
            (turn, low - 5),
            (-w * 0.78, 40),
            (-w * 0.95, 64 if ears else 46),
        ],
    )
    text = art.soft_text(oval(-w * 0.4, 10, w * 0.3, 9), light(colour), 0.75, 3)
    text += stroke(
        edge([(-w * 0.95, 62), (-w * 0.8, 42), (turn, low - 2), (w * 0.8, 42), (w * 0.95, 62)]),
        shade(colour),
        2.2,
        0.5,
    )
    art.form(d, colour, inside=text + inside, size=7, deep=deep, shine=0.8)


def race_number(art, pose, word, colour, y=26):
    """The painted word on a rubber cap, half worn off."""
    paths = {
        "R": "M0 12V0H5Q9 0 9 3.4T5 6.6H0M5 6.6L9 12",
        "A": "M0 12L4.5 0L9 12M1.8 8H7.2",
        "C": "M9 2Q7 0 5 0Q0 0 0 6T5 12Q7 12 9 10",
        "E": "M8 0H0V12H8M0 6H6",
        "1": "M2 3L5 0V12",
        "2": "M0 3Q1 0 4.5 0Q9 0 9 3.4Q9 6 0 12H9",
    }
    x = -30 + pose.turn * 6
    for letter in word:
        if letter != " ":
            art.add(
                f'<g transform="translate({x:.1f} {y - 10}) scale(0.86)">{stroke(paths[letter], colour, 2.6, 0.95)}</g>'
            )
        x += 10.2 if letter != " " else 6


def goggles(art, pose, colour, y=16, glass="#b9c4bd", strap=True, crack=False):
    w, turn = pose.body["head"], pose.turn * 8
    if strap:
        art.add(stroke(edge([(-w * 1.06, y + 12), (turn, y - 1), (w * 1.06, y + 12)]), colour, 6, 1))
    for at in (-1, 1):
        x = turn + at * w * 0.43
        art.form(oval(x, y, w * 0.36, 10.5), colour, size=3)
        art.form(oval(x, y, w * 0.24, 7), glass, size=3, line=0.8)
        art.add(fill(oval(x - 3, y - 3, 3, 2), "#ffffff", 0.85))
        if crack and at > 0:
            art.add(
                stroke(
                    f"M{num(x - 6)} {y - 5}L{num(x + 1)} {y}L{num(x + 6)} {y - 3}M{num(x + 1)} {y}L{num(x - 1)} {y + 6}",
                    INK,
                    0.9,
                )
            )


def cloche(art, pose, colour, ribbon):
    w, turn = pose.body["head"], pose.turn * 6
    d = shape(
        [
            (-w * 1.12, 58),
            (-w * 1.14, 28),
            (-w * 0.8, -8),
            (0, -17),
            (w * 0.84, -8),
            (w * 1.14, 28),
            (w * 1.1, 56),
        ],
        [(w * 1.1, 56), (w * 0.5, 52), (turn, 44), (-w * 0.35, 34), (-w * 0.8, 34), (-w * 1.12, 58)],
    )
    text = art.soft_text(oval(-w * 0.4, 4, w * 0.32, 12), light(colour), 0.6, 4)
    text += stroke(edge([(-w * 1.15, 34), (-w * 0.4, 24), (turn, 24), (w * 1.15, 38)]), ribbon, 8, 1)
    text += fill(f"M{num(w * 0.2)} 22L{num(w * 0.95)} 30L{num(w * 0.6)} 12L{num(w * 0.72)} 40Z", ribbon)
    art.form(d, colour, inside=text, size=8)


def bowler(art, pose, colour):
    w = pose.body["head"]
    art.form(
        loop(
            [
                (-w * 1.32, 20),
                (-w * 1.5, 14),
                (-w * 0.8, 24),
                (0, 28),
                (w * 0.8, 24),
                (w * 1.5, 12),
                (w * 1.34, 20),
                (w * 0.7, 33),
                (0, 36),
                (-w * 0.7, 33),
            ]
        ),
        colour,
        size=4,
    )
    crown = shape(
        [
            (-w * 0.98, 25),
            (-w * 1.0, 0),
            (-w * 0.74, -26),
            (-w * 0.1, -34),
            (w * 0.3, -25),
            (w * 0.62, -27),
            (w * 0.98, -4),
            (w * 0.98, 25),
        ],
        [(w * 0.98, 25), (0, 31), (-w * 0.98, 25)],
    )
    text = art.soft_text(oval(w * 0.34, -22, 12, 7), shade(colour), 0.8, 3)
    text += art.soft_text(oval(-w * 0.45, -10, 11, 16), light(colour), 0.7, 4)
    text += stroke(edge([(-w, 17), (0, 23), (w, 17)]), shade(colour), 10, 0.8)
    art.form(crown, colour, inside=text, size=8)


def peaked(art, pose, colour):
    w, turn = pose.body["head"], pose.turn * 6
    crown = loop(
        [
            (-w * 1.04, 26),
            (-w * 1.24, 6),
            (-w * 0.9, -14),
            (0, -20),
            (w * 0.95, -14),
            (w * 1.24, 6),
            (w * 1.04, 26),
            (0, 30),
        ]
    )
    art.form(crown, colour, inside=stroke(edge([(-w, 22), (0, 26), (w, 22)]), shade(colour), 10, 0.7), size=7)
    art.form(
        shape(
            [(-w * 0.86, 26), (0, 29), (w * 0.86, 26)],
            [(w * 0.86, 26), (w * 0.6 + turn, 44), (turn, 48), (-w * 0.6 + turn, 44), (-w * 0.86, 26)],
        ),
        mix(colour, "#000000", 0.35),
        size=4,
        shine=0.9,
    )


def souwester(art, pose, colour):
    w = pose.body["head"]
    art.form(
        loop(
            [
                (-w * 1.1, 30),
                (-w * 1.75, 58),
                (-w * 1.6, 72),
                (-w * 0.9, 48),
                (0, 40),
                (w * 0.9, 48),
                (w * 1.6, 72),
                (w * 1.75, 58),
                (w * 1.1, 30),
            ]
        ),
        colour,
        size=6,
    )
    crown = shape(
        [
            (-w * 1.08, 38),
            (-w * 1.04, 8),
            (-w * 0.7, -18),
            (0, -26),
            (w * 0.72, -18),
            (w * 1.04, 8),
            (w * 1.08, 38),
        ],
        [(w * 1.08, 38), (0, 30), (-w * 1.08, 38)],
    )
    folds = art.folds(
        colour, [[(0, -25), (-w * 0.3, 0), (-w * 0.4, 34)], [(2, -25), (w * 0.4, 0), (w * 0.5, 34)]], 3
    )
    art.form(crown, colour, inside=folds, size=8)
    art.form(
        shape([(-w * 1.1, 38), (0, 26), (w * 1.1, 38)], [(w * 1.2, 50), (0, 40), (-w * 1.2, 50)]),
        colour,
        size=3,
    )


def beard(art, pose, colour):
    w, turn = pose.body["head"], pose.turn * 6
    d = shape(
        [
            (-w * 0.97, 54),
            (-w * 0.94, 78),
            (-w * 0.6 + turn, 102),
            (turn, 112),
            (w * 0.6 + turn, 102),
            (w * 0.94, 78),
            (w * 0.97, 54),
        ],
        [(w * 0.76, 68), (w * 0.36 + turn, 73), (turn * 1.3, 71), (-w * 0.36 + turn, 73), (-w * 0.76, 68)],
    )
    strokes = [
        [(k * 7 + turn, 74), (k * 8 + turn, 90), (k * 7 + turn * 1.2, 108 - abs(k) * 3)]
        for k in (-3, -2, -1, 0, 1, 2, 3)
    ]
    art.form(d, colour, inside=art.folds(colour, strokes, 3, 0.4, 0.2, 0.9), size=8, line=0.9)
    art.add(art.soft_text(oval(turn * 1.3, 80, 10, 2.4), "#5a3a34", 0.6, 0.8))
