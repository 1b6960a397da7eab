"""Garments of the usual kinds, cut to a pose: costumes, skirts, bodices, coats, trousers, and their small things.

What belongs to one outfit alone stands with its plate.
"""

from brush import (
    INK,
    between,
    dots,
    edge,
    fill,
    light,
    num,
    oval,
    sampled,
    shade,
    shape,
    sliver,
    stroke,
    tube,
)


def bathing(
    art,
    pose,
    colour,
    neck=("scoop", 0.62),
    straps=(0.4, 0.62),
    leg="high",
    inside=None,
    ease=2.5,
    rise=0,
    under=0,
    deep=0.85,
    shine=0.75,
):
    """A bathing costume. `neck` is its form and how far it goes down from shoulder to bust."""
    body = pose.body
    form, down = neck
    low = body["sh_y"] + (body["bust_y"] - body["sh_y"]) * down
    top = body["sh_y"] - 13

    def strap(side, share):
        return pose.shoulder(side, share)

    def half(side):
        return [
            strap(side, straps[1]),
            pose.point("bust", side, -body["bust"] * 0.2, -38),
            pose.point("bust", side, -3, -16 + under),
        ]

    necks = {
        "scoop": [
            strap(1, straps[0]),
            pose.point("bust", 1, -body["bust"] * 0.52, low - body["bust_y"] - 8),
            (pose.turn * 6, low),
            pose.point("bust", -1, -body["bust"] * 0.52, low - body["bust_y"] - 8),
            strap(-1, straps[0]),
        ],
        "round": [
            strap(1, straps[0]),
            (pose.turn * 6 + body["neck_w"], low - 6),
            (pose.turn * 6, low),
            (pose.turn * 6 - body["neck_w"], low - 6),
            strap(-1, straps[0]),
        ],
    }
    if form == "square":
        left, right = strap(-1, straps[0]), strap(1, straps[0])
        neckline = [
            [right, (right[0] - 2, low - 4)],
            [(right[0] - 2, low), (pose.turn * 6, low + 2), (left[0] + 2, low)],
            [(left[0] + 2, low - 4), left],
        ]
    else:
        neckline = [necks[form]]
    left_arm = half(-1)
    right_arm = half(1)
    fork = pose.middle("hip", 0, 38)
    if leg == "high":
        foot = [
            [
                pose.point("hip", 1, 1 + ease, 12 - rise),
                pose.point("hip", 1, -26, 30 - rise * 0.4),
                (fork[0] + 9, fork[1]),
            ],
            [(fork[0] + 9, fork[1]), (fork[0] - 9, fork[1])],
            [
                (fork[0] - 9, fork[1]),
                pose.point("hip", -1, -26, 30 - rise * 0.4),
                pose.point("hip", -1, 1 + ease, 12 - rise),
            ],
        ]
        more = []
    else:
        foot = [[pose.point("hip", 1, ease, 20), (fork[0], fork[1] + 4), pose.point("hip", -1, ease, 20)]]
        more = [
            pose.leg(-1, [ease, ease, ease + 4, 4, 4, 4], leg),
            pose.leg(1, [ease, ease, ease + 4, 4, 4, 4], leg),
        ]
    trunk = shape(
        left_arm,
        pose.side(-1, (-1, ease, ease, ease)),
        *[part[::-1] for part in foot[::-1]],
        pose.side(1, (-1, ease, ease, ease))[::-1],
        right_arm[::-1],
        *neckline,
    )
    text = shaping(art, pose, colour) + (inside or "")
    outlines = more + [trunk]
    art.form(outlines, colour, inside=text, size=10, deep=deep, shine=shine)
    return outlines, top


def ribs(colour, step=7, opacity=0.4):
    """The rib of a knitted costume."""
    return "".join(
        stroke(edge([(x, 110), (x * 0.92, 280), (x, 520)]), light(colour), 1.2, opacity)
        for x in range(-98, 104, step)
    )


def shaping(art, pose, colour):
    """How a body shows through what is close to it."""
    body = pose.body
    lit, dark = light(colour), shade(colour)
    text = ""
    if not body["man"]:
        for side in (-1, 1):
            x, y = pose.middle("bust", side * 0.48, 0)
            text += art.soft_text(oval(x - 5, y - 8, body["bust"] * 0.26, 17), lit, 0.5, 7)
            text += art.soft_text(
                sliver(sampled([(x - 24, y + 12), (x + 2, y + 25), (x + 25, y + 10)]), 9), dark, 0.5, 3
            )
    x, y = pose.middle("waist", -0.2, 46)
    text += art.soft_text(oval(x - 6, y, body["waist"] * 0.42, 30), lit, 0.32, 10)
    for side, lean in ((-1, 10), (1, -10)):
        a, b = pose.point("waist", side, -4, 4), pose.middle("waist", side * 0.3, 22)
        text += art.soft_text(sliver(sampled([a, between(a, b, 0.5), b]), 6), dark, 0.45, 2)
    return text


def band(pose, level, down, wide, colour, bow=5):
    """A band across the front, for the inside of a form."""
    a, b, m = (
        pose.point(level, -1, 12, down),
        pose.point(level, 1, 12, down),
        pose.middle(level, 0, down + bow),
    )
    lower = [(x, y + wide) for x, y in (b, m, a)]
    return fill(shape([a, m, b], lower), colour)


def hem_line(left, right, y, wave=6, count=5, dip=8):
    """A hem's wavy line from left to right, with the dip of a hem that goes round."""
    points = []
    for at in range(count * 2 + 1):
        share = at / (count * 2)
        bow = dip * (1 - (share * 2 - 1) ** 2)
        points.append((left + (right - left) * share, y + bow + (wave if at % 2 else -wave) * 0.5))
    return points


def fall(top_left, top_right, hem, count, lean=0.0, reach=1.0, start=0.04):
    """Folds that fan from a line at the top to a hem."""
    found = []
    for at in range(count):
        share = (at + 0.6) / count
        a = between(top_left, top_right, 0.5 + (share - 0.5) * 0.9)
        b = hem[min(len(hem) - 1, round(share * (len(hem) - 1)))]
        a = between(a, b, start + (0.10 if at % 2 else 0.0))
        b = between(a, b, reach - (0.12 if at % 3 == 1 else 0))
        found.append([a, ((a[0] + b[0]) / 2 + lean + (b[0] - a[0]) * 0.12, (a[1] + b[1]) / 2), b])
    return found


def skirt(
    art,
    pose,
    colour,
    top=("waist", 0, 5),
    hem_y=600,
    hem=(-90, 90),
    wave=8,
    count=5,
    folds=7,
    inside="",
    dip=10,
    hips=6,
    deep=0.85,
    wide=9,
    shine=0.6,
):
    level, drop, ease = top
    a, b = pose.point(level, -1, ease, drop), pose.point(level, 1, ease, drop)
    line = hem_line(hem[0], hem[1], hem_y, wave, count, dip)
    left = [
        a,
        pose.point("hip", -1, hips, -4),
        between(pose.point("hip", -1, hips, 40), line[0], 0.45),
        line[0],
    ]
    right = [
        line[-1],
        between(pose.point("hip", 1, hips, 40), line[-1], 0.45),
        pose.point("hip", 1, hips, -4),
        b,
    ]
    if level == "hip":
        left, right = [a, between(a, line[0], 0.4), line[0]], [line[-1], between(b, line[-1], 0.4), b]
    d = shape(left, line, right, [b, pose.middle(level, 0, drop + 4), a])
    art.form(
        d,
        colour,
        inside=art.folds(colour, fall(a, b, sampled(line, 3), folds), wide) + inside,
        size=12,
        deep=deep,
        shine=shine,
    )
    return d, line


def bodice(
    art,
    pose,
    colour,
    neck,
    ease=(6, 6, 8, 8),
    to="hip",
    drop=0,
    inside="",
    shaped=True,
    deep=0.85,
    size=10,
    shine=0.6,
    lift=0,
):
    """The upper part of anything dry. `neck` are the points of the neckline from right to left."""
    body = pose.body

    def half(side):
        slope = [
            pose.shoulder(side, share, 4 + lift)
            for share in (start, 0.46, 0.74, 0.94)
            if share >= start - 0.001
        ]
        return slope + [pose.point("sh", side, 4, 30), pose.point("bust", side, ease[0], -10)]

    start = abs(neck[0][0]) / body["sh"] if neck else 0.2
    start = min(0.44, start)

    sides = {"waist": 3, "hip": 5}[to]
    left, right = pose.side(-1, ease)[:sides], pose.side(1, ease)[:sides]
    if drop:
        left = left + [pose.point(to, -1, ease[3], drop)]
        right = right + [pose.point(to, 1, ease[3], drop)]
    foot = [left[-1], pose.middle(to, 0, drop + 7), right[-1]]
    d = shape(half(-1) + left[1:], foot, right[1:][::-1] + half(1)[::-1], neck)
    art.form(
        d,
        colour,
        inside=(shaping(art, pose, colour) if shaped else "") + inside,
        size=size,
        deep=deep,
        shine=shine,
    )
    return d


def neckline(pose, wide=0.3, deep=20, form="round"):
    """Points of a neckline, right to left, beginning and ending on the shoulder."""
    body = pose.body
    right, left = [pose.shoulder(side, wide, 4) for side in (1, -1)]
    low = (pose.turn * 6, body["sh_y"] - 8 + deep)
    if form == "v":
        return [right, between(right, low, 0.5), low, between(low, left, 0.5), left]
    if form == "boat":
        return [right, (pose.turn * 6, right[1] + deep), left]
    return [
        right,
        (low[0] + (right[0] - low[0]) * 0.7, low[1] - deep * 0.25),
        low,
        (low[0] + (left[0] - low[0]) * 0.7, low[1] - deep * 0.25),
        left,
    ]


def sleeve(
    art,
    pose,
    side,
    colour,
    ease=6,
    start=0.0,
    end=1.0,
    cuff=None,
    folds=True,
    inside="",
    deep=0.85,
    line=1.3,
    shine=0.6,
    merge=False,
):
    """A sleeve. One that lies before its bodice of the same cloth merges into it at the shoulder."""
    d = pose.arm(side, ease, start, end, cuff)
    text = ""
    if folds:
        shoulder, elbow, wrist = pose.arms[side]
        strokes = []
        for at, slant in ((0.47, 10), (0.54, 3), (0.61, -6), (0.2, -12), (0.86, 6), (0.93, 2)):
            if at < end:
                x, y = pose.arm_at(side, at)
                strokes.append([(x - 17, y - slant), (x, y + slant * 0.2), (x + 15, y + slant)])
        text = art.folds(colour, strokes, 5, 0.5, 0.3, 1.2)
    if merge:
        art.group(f'mask="url(#{art.fade(pose.arm_at(side, -0.02), pose.arm_at(side, 0.34))})"')
    art.form(d, colour, inside=text + inside, size=8, deep=deep, line=line, shine=shine)
    if merge:
        art.end()
    return d


def pushed(art, pose, side, colour, at=0.5, wide=19, rolls=2):
    """A sleeve shoved up: its rolls around the arm."""
    for roll in range(rolls):
        x, y = pose.arm_at(side, at - roll * 0.035)
        a, b = pose.arm_at(side, at - 0.05), pose.arm_at(side, at + 0.02)
        across = (b[1] - a[1], -(b[0] - a[0]))
        size = (across[0] ** 2 + across[1] ** 2) ** 0.5 or 1
        across = (across[0] / size * wide, across[1] / size * wide)
        art.form(
            tube(
                [(x - across[0], y - across[1] - 2), (x, y + 4), (x + across[0], y + across[1] - 2)],
                [6, 8, 6],
            ),
            colour,
            size=4,
            line=1.1,
        )


def trousers(
    art,
    pose,
    colour,
    ease=(8, 8, 10, 8, 14, 18),
    end=1.0,
    inside="",
    top=0,
    folds=True,
    deep=0.85,
    crease=False,
):
    fork = pose.middle("hip", 0, 44)
    block = shape(
        [
            pose.point("waist", -1, 6, top),
            *pose.side(-1, (0, 0, 6, ease[0]))[3:],
            pose.point("hip", -1, ease[0] - 1, 40),
        ],
        [fork, (fork[0] + 1, fork[1])],
        [
            pose.point("hip", 1, ease[0] - 1, 40),
            *pose.side(1, (0, 0, 6, ease[0]))[3:][::-1],
            pose.point("waist", 1, 6, top),
        ],
    )
    text = ""
    if folds:
        strokes = []
        for side in (-1, 1):
            joint, knee, ankle = pose.legs[side]
            strokes += [
                [
                    (fork[0] + side * 4, fork[1] - 6),
                    between(joint, knee, 0.25),
                    (joint[0] + side * 24, joint[1] - 4),
                ],
                [(knee[0] - 18, knee[1] - 14), (knee[0] - 2, knee[1] - 2), (knee[0] + 14, knee[1] - 8)],
                [(knee[0] - 14, knee[1] + 16), (knee[0] + 2, knee[1] + 22), (knee[0] + 18, knee[1] + 12)],
                [(ankle[0] - 18, ankle[1] - 26), (ankle[0], ankle[1] - 18), (ankle[0] + 16, ankle[1] - 24)],
                [between(joint, knee, 0.3), between(knee, ankle, 0.2), between(knee, ankle, 0.9)],
            ]
        strokes.append([pose.middle("waist", 0, 20), pose.middle("hip", 0, 0), fork])
        text = art.folds(colour, strokes, 6, 0.55, 0.3, 1.4)
    if crease:
        for side in (-1, 1):
            text += stroke(edge(pose.legs[side]), light(colour), 1.6, 0.6)
    for side in (-1, 1):
        art.form(pose.leg(side, list(ease), end), colour, inside=text + inside, size=11, deep=deep)
    art.form(block, colour, inside=text + inside, size=11, deep=deep, line=0.8)
    return block


def coat(
    art,
    pose,
    colour,
    hem_y,
    hem=(-100, 100),
    ease=(14, 16, 22, 24),
    neck=None,
    inside="",
    folds=6,
    wave=6,
    dip=8,
    deep=0.88,
    gap=None,
    shine=0.6,
    wide=9,
):
    """A long coat's body. `gap` is how far the fronts stand apart at the hem, from where."""
    body = pose.body
    neck = neck or neckline(pose, 0.3, 40, "v")
    line = hem_line(hem[0], hem[1], hem_y, wave, 4, dip)
    start = min(0.44, abs(neck[0][0]) / body["sh"])

    def half(side):
        slope = [
            pose.shoulder(side, share, 6) for share in (start, 0.46, 0.74, 0.94) if share >= start - 0.001
        ]
        return slope + [
            pose.point("sh", side, 8, 32),
            pose.point("bust", side, ease[0], 0),
            pose.point("waist", side, ease[2], 0),
            pose.point("hip", side, ease[3], 0),
            between(pose.point("hip", side, ease[3], 0), line[0 if side < 0 else -1], 0.5),
            line[0 if side < 0 else -1],
        ]

    if gap:
        start_y, left_x, right_x = gap
        x = neck[len(neck) // 2][0]
        fork = (x, start_y)

        def fit(at):
            return min(line, key=lambda point: abs(point[0] - at))

        left_hem = [point for point in line if point[0] < left_x] + [(left_x, fit(left_x)[1])]
        right_hem = [(right_x, fit(right_x)[1])] + [point for point in line if point[0] > right_x]
        foot = [
            left_hem,
            [left_hem[-1], ((x + left_x) / 2 + 2, (start_y + hem_y) / 2), fork],
            [fork, ((x + right_x) / 2 - 2, (start_y + hem_y) / 2), right_hem[0]],
            right_hem,
        ]
    else:
        foot = [line]
    d = shape(half(-1), *foot, half(1)[::-1], neck)
    a, b = pose.point("waist", -1, ease[2]), pose.point("waist", 1, ease[2])
    text = art.folds(colour, fall(a, b, sampled(line, 3), folds, reach=0.97, start=0.1), wide, 0.5, 0.3, 1.6)
    art.form(d, colour, inside=text + inside, size=13, deep=deep, shine=shine)
    return d


def buttons(art, points, colour, radius=4.5):
    art.add(dots(points, radius, colour))


def cord(art, pose, level, down, ease, turns, colour, step=5):
    for at in range(turns):
        a, b = pose.point(level, -1, ease, down + at * step), pose.point(level, 1, ease, down + at * step)
        art.add(stroke(edge([a, pose.middle(level, 0, down + at * step + 5), b]), shade(colour), 5.4, 1))
        art.add(
            stroke(edge([a, pose.middle(level, 0, down + at * step + 5), b]), light(colour), 1.3, 0.8, "3 4")
        )


def watch(art, x, y, radius=9, colour="silver"):
    art.form(oval(x, y, radius, radius), colour, size=3, line=1.3)
    art.add(fill(oval(x, y, radius * 0.68, radius * 0.68), "#f6f2e6"))
    art.add(
        stroke(
            f"M{num(x)} {num(y)}V{num(y - radius * 0.5)}M{num(x)} {num(y)}H{num(x + radius * 0.35)}", INK, 1
        )
    )
