"""What stands behind and before a figure: studio paper, quay, sea, hall, night. Always calmer than the garment."""

import math
import random

from brush import HIGH, WIDE, edge, mix, num, oval, sampled, sliver, stroke, tube


def _sky(art, stops):
    parts = "".join(f'<stop offset="{at}" stop-color="{colour}"/>' for at, colour in stops)
    name = art._name(f'<linearGradient id="@" x1="0" y1="0" x2="0" y2="1">{parts}</linearGradient>')
    art.add(f'<rect width="{WIDE}" height="{HIGH}" fill="url(#{name})"/>')


def _glow(art, x, y, radius, colour, opacity=0.8):
    name = art._name(
        f'<radialGradient id="@" gradientUnits="userSpaceOnUse" cx="{x}" cy="{y}" r="{radius}">'
        f'<stop offset="0" stop-color="{colour}" stop-opacity="{opacity}"/>'
        f'<stop offset="1" stop-color="{colour}" stop-opacity="0"/></radialGradient>'
    )
    art.add(f'<rect width="{WIDE}" height="{HIGH}" fill="url(#{name})"/>')


def studio(art, colour, floor=640, seed=1):
    """Painted paper that runs down onto the floor."""
    _sky(
        art,
        [
            (0, mix(colour, "#000000", 0.12)),
            (floor / HIGH, colour),
            (floor / HIGH + 0.03, mix(colour, "#000000", 0.16)),
            (1, mix(colour, "#ffffff", 0.06)),
        ],
    )
    _glow(art, 250, 300, 430, mix(colour, "#ffffff", 0.55), 0.6)
    chance = random.Random(seed)
    for _ in range(26):
        x, y = chance.uniform(0, WIDE), chance.uniform(0, floor - 20)
        turn = chance.uniform(-0.6, 0.6)
        points = [(x - 90, y - 90 * turn), (x, y + 8), (x + 90, y + 90 * turn)]
        art.soft(
            sliver(sampled(points, 4), chance.uniform(30, 60)),
            mix(colour, chance.choice(["#ffffff", "#000000"]), 0.3),
            0.16,
            14,
        )


def sea(art, sky="#cfc8b4", water="#8d998d", horizon=330, shore=None, seed=2, far=None):
    """Sky, a horizon, water, and a shore where one is given."""
    _sky(
        art,
        [
            (0, mix(sky, "#8a8a82", 0.28)),
            (horizon / HIGH, mix(sky, "#ffffff", 0.35)),
            (horizon / HIGH + 0.001, mix(water, sky, 0.45)),
            (1, mix(water, "#20302c", 0.2)),
        ],
    )
    chance = random.Random(seed)
    for _ in range(9):
        x, y = chance.uniform(0, WIDE), chance.uniform(20, horizon - 40)
        art.soft(
            sliver(sampled([(x - 190, y), (x, y - 10), (x + 190, y + 4)], 4), chance.uniform(16, 34)),
            mix(sky, "#ffffff", 0.6),
            0.4,
            9,
        )
    if far:
        art.soft(
            f"M0 {horizon}C80 {horizon - 26} 190 {horizon - 40} 270 {horizon - 12}S420 {horizon - 8} 600 {horizon}Z",
            far,
            0.75,
            1.2,
        )
    ripples(art, water, horizon + 4, shore or HIGH, seed)
    if shore:
        beach = mix("#b3a78d", sky, 0.25)
        line = [(0, shore + 8), (120, shore - 4), (260, shore + 8), (400, shore - 2), (600, shore + 6)]
        art.flat(edge(line) + f"L{WIDE} {HIGH}L0 {HIGH}Z", beach)
        art.add(stroke(edge([(x, y - 2) for x, y in line]), "#f4f0e4", 7, 0.75))
        for _ in range(170):
            x, y = chance.uniform(0, WIDE), chance.uniform(shore + 12, HIGH)
            art.flat(
                oval(x, y, chance.uniform(2, 8), chance.uniform(1, 3.4)),
                mix(beach, chance.choice(["#4b463c", "#ffffff"]), 0.35),
                0.5,
            )


def ripples(art, water, top, foot, seed, strength=0.55):
    chance = random.Random(seed)
    for _ in range(90):
        share = chance.random() ** 1.5
        y = top + (foot - top) * share
        x, long = chance.uniform(-20, WIDE + 20), 18 + 95 * share
        colour = mix(water, chance.choice(["#f3f0e2", "#2b3d38", "#f3f0e2"]), 0.5)
        art.soft(
            sliver(sampled([(x - long, y), (x, y - 2 - 4 * share), (x + long, y + 1)], 4), 1.4 + 6 * share),
            colour,
            strength,
            0.8,
        )


def water_before(art, water, top, seed=5, foam=True, clear=0.25):
    """Water in front of whoever stands in it."""
    name = art._name(
        f'<linearGradient id="@" x1="0" y1="{top}" x2="0" y2="{HIGH}" gradientUnits="userSpaceOnUse">'
        f'<stop offset="0" stop-color="{mix(water, "#ffffff", 0.12)}" stop-opacity="{1 - clear}"/>'
        f'<stop offset="0.35" stop-color="{water}" stop-opacity="0.96"/>'
        f'<stop offset="1" stop-color="{mix(water, "#1c2a28", 0.35)}"/></linearGradient>'
    )
    line = [
        (0, top + 3),
        (90, top - 3),
        (190, top + 4),
        (300, top - 1),
        (410, top + 4),
        (520, top - 3),
        (600, top + 2),
    ]
    art.add(f'<path d="{edge(line)}L{WIDE} {HIGH}L0 {HIGH}Z" fill="url(#{name})"/>')
    ripples(art, water, top + 6, HIGH, seed, 0.6)
    if foam:
        for wide, down, thick in ((118, 2, 5), (150, 14, 4), (190, 30, 4)):
            art.soft(
                sliver(
                    sampled([(300 - wide, top + down), (300, top + down + 9), (300 + wide, top + down)], 6),
                    thick * 2,
                ),
                "#f4f1e6",
                0.75,
                1,
            )


def quay(art, stone="#a99f8a", sky="#d2cab6", water="#98a094", floor=610, seed=3, post=True):
    """A harbour's edge: sky, a strip of water, a far mole, stone slabs."""
    sea(art, sky, water, 380, None, seed, mix("#7d7a70", sky, 0.4))
    art.flat(f"M0 {floor}L{WIDE} {floor - 10}V{HIGH}H0Z", stone)
    art.flat(f"M0 {floor}L{WIDE} {floor - 10}V{floor + 8}L0 {floor + 18}Z", mix(stone, "#ffffff", 0.28))
    chance = random.Random(seed)
    dark = mix(stone, "#2a2620", 0.45)
    for row, y in enumerate((floor + 44, floor + 84, floor + 138, floor + 200)):
        art.add(stroke(edge([(0, y), (200, y - 4), (600, y - 12)]), dark, 2.2, 0.5))
        for _ in range(4):
            x = chance.uniform(0, WIDE)
            art.add(
                stroke(f"M{num(x)} {y - 3}L{num(x + (x - 300) * 0.12)} {y + 40 + row * 8}", dark, 2, 0.45)
            )
    for _ in range(40):
        x, y = chance.uniform(0, WIDE), chance.uniform(floor + 20, HIGH)
        art.soft(
            oval(x, y, chance.uniform(10, 40), chance.uniform(3, 8)),
            mix(stone, chance.choice(["#ffffff", "#3a352c"]), 0.4),
            0.28,
            3,
        )
    if post:
        tone = mix(stone, "#2a2620", 0.55)
        art.form(tube([(520, floor + 34), (518, floor - 34)], [24, 21]), tone, size=8)
        art.form(oval(518, floor - 42, 30, 13), tone, size=5)


def hall(art, wall="#6d5a48", floor_colour="#4d4036", panels=True, floor=640):
    _sky(
        art,
        [
            (0, mix(wall, "#000000", 0.25)),
            (0.5, wall),
            (floor / HIGH, mix(wall, "#000000", 0.12)),
            (floor / HIGH + 0.001, floor_colour),
            (1, mix(floor_colour, "#ffffff", 0.14)),
        ],
    )
    _glow(art, 260, 280, 420, mix(wall, "#ffe9c4", 0.5), 0.55)
    if panels:
        for x in (18, 168, 318, 468):
            d = f"M{x} 60H{x + 116}V{floor - 70}H{x}Z"
            art.add(stroke(d, mix(wall, "#000000", 0.5), 3, 0.28))
            art.add(stroke(f"M{x + 4} {floor - 66}H{x + 120}V64", mix(wall, "#ffffff", 0.5), 2, 0.25))
    art.flat(f"M0 {floor - 26}H{WIDE}V{floor}H0Z", mix(wall, "#000000", 0.3), 0.6)


def night(
    art,
    tone="#3a4140",
    floor=640,
    lamp=(300, 260),
    warm="#e9d6a8",
    shingle=True,
    strength=0.75,
    seed=4,
    radius=430,
):
    _sky(
        art,
        [
            (0, mix(tone, "#000000", 0.35)),
            (0.55, tone),
            (floor / HIGH, mix(tone, "#000000", 0.15)),
            (floor / HIGH + 0.002, mix(tone, warm, 0.3)),
            (1, mix(tone, "#000000", 0.2)),
        ],
    )
    _glow(art, lamp[0], lamp[1], radius, warm, strength)
    if shingle:
        chance = random.Random(seed)
        for _ in range(220):
            x, y = chance.uniform(0, WIDE), floor + 6 + (HIGH - floor) * chance.random() ** 0.8
            art.flat(
                oval(x, y, chance.uniform(3, 11), chance.uniform(1.6, 5)),
                mix(mix(tone, warm, 0.4), chance.choice(["#1a1a18", "#f2e6c8"]), 0.4),
                0.5,
            )


def tiles(art, tone="#a8b5a6", floor=620):
    """A bath's wall and its wet floor."""
    _sky(
        art,
        [
            (0, mix(tone, "#000000", 0.1)),
            (floor / HIGH, tone),
            (floor / HIGH + 0.001, mix(tone, "#57645c", 0.5)),
            (1, mix(tone, "#ffffff", 0.2)),
        ],
    )
    _glow(art, 220, 260, 380, "#fbf8ea", 0.45)
    for x in range(-10, WIDE, 42):
        art.add(stroke(f"M{x} 0V{floor}", mix(tone, "#2f3d36", 0.5), 1, 0.3))
    for y in range(0, floor, 42):
        art.add(stroke(f"M0 {y}H{WIDE}", mix(tone, "#2f3d36", 0.5), 1, 0.3))
    art.flat(f"M0 {floor - 84}H{WIDE}V{floor - 62}H0Z", mix(tone, "#2e4a3d", 0.6), 0.7)
    ripples(art, mix(tone, "#57645c", 0.4), floor + 8, HIGH, 3, 0.4)


def rail(art, y=560, colour="#6d5138"):
    """A boat's rail before or behind a figure."""
    for x in (40, 190, 410, 560):
        art.form(tube([(x, y + 4), (x, HIGH)], [6, 7]), mix(colour, "#ffffff", 0.15), size=4)
    art.form(tube([(-20, y + 6), (300, y), (620, y + 6)], [9, 9, 9]), colour, size=5)


def net(art, x, y, wide, high, colour="#4a4034", opacity=0.4, step=26):
    """Hanging net."""
    for at in range(0, wide + step, step):
        art.add(
            stroke(
                edge(
                    [
                        (x + at, y),
                        (x + at + 16, y + high * 0.33),
                        (x + at - 6, y + high * 0.66),
                        (x + at + 10, y + high),
                    ]
                ),
                colour,
                1.2,
                opacity,
            )
        )
        art.add(
            stroke(
                edge(
                    [
                        (x + at, y),
                        (x + at - 18, y + high * 0.33),
                        (x + at + 8, y + high * 0.66),
                        (x + at - 10, y + high),
                    ]
                ),
                colour,
                1.2,
                opacity,
            )
        )
    for at in range(0, high, step):
        art.add(
            stroke(
                edge([(x, y + at), (x + wide * 0.5, y + at + 9), (x + wide, y + at)]),
                colour,
                0.9,
                opacity * 0.7,
            )
        )


def spotlight(art, tone, beam):
    _sky(
        art,
        [
            (0, mix(tone, "#000000", 0.2)),
            (0.8, tone),
            (0.81, mix(tone, "#000000", 0.3)),
            (1, mix(tone, "#ffffff", 0.1)),
        ],
    )
    for turn in range(-60, 61, 24):
        a, b = math.radians(turn - 6), math.radians(turn + 6)
        art.flat(
            f"M300 700L{num(300 + 1000 * math.sin(a))} {num(700 - 1000 * math.cos(a))}L{num(300 + 1000 * math.sin(b))} {num(700 - 1000 * math.cos(b))}Z",
            beam,
            0.35,
        )
    art.flat(oval(300, 700, 250, 50), beam, 0.5)
