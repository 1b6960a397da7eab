"""Plates of The Lights, 1930 to 1938: two gowns and a wedding."""

import random

import ground
from body import COSIMA, ODILE, WOMAN, Pose
from brush import (
    dots,
    edge,
    fill,
    mix,
    oval,
    sampled,
    shade,
    shape,
    stroke,
    tube,
)
from figure import foot, hair, hand, head, neck_shadow, skin
from garments import (
    bodice,
    fall,
    hem_line,
    neckline,
    sleeve,
)
from stage import DARK, stand


def ball_gown(art):
    """From behind: the swimmer's muscle fills the drape that was meant to fall."""
    ground.hall(art, "#4a3a34", "#33291f", True, 650)
    tone = "#dcbb98"
    pose = Pose(
        ODILE,
        arms=((26, -46), (16, -14)),
        legs=((0, 0), (5, 3)),
        sway=9,
        tilt=5,
        counter=-4,
        turn=0.2,
        head=(5, 0, 8),
        back=True,
        reach=((1, 0.95), (1, 1)),
    )
    stand(art, pose, 748, 704, 296)
    satin, lit = "#7f9a8c", "#a9bdb0"
    body = pose.body
    skin(art, pose, tone, legs=(), feet="none", hands=(None, None))
    foot(art, pose, 1, "silver", "heel")
    line = hem_line(-112, 146, body["hip_y"] + 344, 10, 4, 12)
    line = [(x, y + (22 if x > 60 else 0)) for x, y in line]
    a, b = pose.point("waist", -1, 3, -2), pose.point("waist", 1, 3, -2)
    left = [
        pose.point("bust", -1, 2, 4),
        a,
        pose.point("hip", -1, 4, -4),
        (-58, body["hip_y"] + 130),
        line[0],
    ]
    right = [line[-1], (88, body["hip_y"] + 130), pose.point("hip", 1, 5, -4), b, pose.point("bust", 1, 2, 4)]
    low = pose.middle("waist", 0, 12)
    scoop = [
        [
            pose.point("bust", 1, 2, 4),
            (54, body["waist_y"] - 34),
            (34, body["waist_y"] - 8),
            (low[0] - 2, low[1]),
        ],
        [
            (low[0] - 2, low[1]),
            (-30, body["waist_y"] - 8),
            (-50, body["waist_y"] - 34),
            pose.point("bust", -1, 2, 4),
        ],
    ]
    strokes = [
        [(low[0], low[1] + 6), (-30, body["hip_y"] + 60), (-92, body["hip_y"] + 330)],
        [(low[0] + 6, low[1] + 10), (8, body["hip_y"] + 140), (-30, body["hip_y"] + 340)],
        [(low[0] + 8, low[1] + 8), (46, body["hip_y"] + 120), (40, body["hip_y"] + 344)],
        [pose.point("hip", 1, -10, 20), (70, body["hip_y"] + 150), (116, body["hip_y"] + 340)],
        [pose.point("hip", -1, -8, 20), (-54, body["hip_y"] + 150), (-70, body["hip_y"] + 330)],
    ]
    text = art.folds(satin, strokes, 14, 0.5, 0.0, 2)
    for x, y, w, h in (
        (-34, body["hip_y"] - 6, 20, 36),
        (34, body["hip_y"] - 4, 18, 34),
        (-46, body["hip_y"] + 180, 12, 110),
        (14, body["hip_y"] + 220, 10, 110),
        (70, body["hip_y"] + 220, 14, 100),
        (-52, body["bust_y"] + 50, 7, 30),
    ):
        text += art.soft_text(oval(x, y, w, h), mix(lit, "#ffffff", 0.25), 0.75, 8)
    art.form(shape(left, line, right, *scoop), satin, inside=text, size=11, lit=lit, shine=0.85)
    for side in (-1, 1):
        p = pose.shoulder(side, 0.5, 1)
        art.line([p, (side * 50, body["bust_y"] - 22), pose.point("bust", side, -7, 10)], satin, 5, 1)
        art.line(
            [(p[0] - 1, p[1]), (side * 50 - 1, body["bust_y"] - 22), pose.point("bust", side, -8, 10)],
            lit,
            1.4,
            0.9,
        )
    # The train over the left arm, wound like a rope.
    wx, wy = pose.arm_at(-1, 0.78)
    rope = [(-84, body["hip_y"] + 260), (-128, body["hip_y"] + 120), (-126, wy + 34), (wx + 4, wy - 4)]
    art.form(
        tube(rope, [16, 21, 18, 14]),
        satin,
        lit=lit,
        shine=0.9,
        size=8,
        inside=art.folds(
            satin,
            [
                [(-98, body["hip_y"] + 250), (-136, body["hip_y"] + 110), (-120, wy + 20)],
                [(-112, body["hip_y"] + 180), (-118, body["hip_y"] + 90), (-118, wy + 40)],
            ],
            7,
        ),
    )
    art.form(pose.arm(-1), tone, size=7)
    for k in range(3):
        x, y = pose.arm_at(-1, 0.7 + k * 0.05)
        art.form(
            tube([(x - 20, y - 9 + k * 2), (x, y + 3), (x + 18, y + 10)], [9, 11, 9]),
            satin,
            lit=lit,
            shine=0.9,
            size=4,
        )
    art.form(pose.arm(1), tone, size=7)
    for side, bend in ((-1, 20), (1, 10)):
        _, elbow, wrist = pose.arms[side]
        hand(art, wrist, side * -20 if side > 0 else 40, side, "ivory", "easy" if side > 0 else "fist", 0.95)
        for k in range(2):
            x, y = pose.arm_at(side, 0.97 - k * 0.045)
            art.form(tube([(x - 13, y), (x, y + 3), (x + 13, y)], [6, 7, 6]), "ivory", size=3)
    head(art, pose, tone)
    hair(art, pose, "back", DARK)
    art.end()
    art.end()


def lame_gown(art):
    ground.hall(art, "#3f3a3d", "#2b282b", True, 650)
    tone = "#e2c4a6"
    pose = Pose(
        COSIMA,
        arms=((12, 6), (30, 20)),
        legs=((-1, 0), (9, 5)),
        sway=10,
        tilt=6,
        counter=-5,
        turn=-0.5,
        head=(-4, 0, -7),
    )
    stand(art, pose, 748, 716, 304)
    lame = "#dcdcd6"
    body = pose.body
    # The cape of white velvet, let fall behind and caught on one arm.
    cape = shape(
        [pose.shoulder(-1, 0.5, 10), (-96, body["bust_y"] + 30), (-128, body["hip_y"] - 40)],
        [
            (-128, body["hip_y"] - 40),
            (-40, body["hip_y"] + 10),
            (60, body["waist_y"] + 60),
            (140, body["hip_y"] - 70),
        ],
        [(140, body["hip_y"] - 70), (98, body["bust_y"] + 30), pose.shoulder(1, 0.6, 6)],
        [pose.shoulder(1, 0.6, 6), pose.shoulder(-1, 0.5, 10)],
    )
    art.form(
        cape,
        "white",
        inside=art.folds(
            "white",
            [
                [(-70, 170), (-96, 270), (-104, 370)],
                [(84, 200), (104, 270), (112, 330)],
                [(-40, 200), (-70, 300), (-70, 380)],
            ],
            12,
        ),
        size=11,
        deep=0.95,
    )
    skin(art, pose, tone, legs=(), feet="none", hands=("easy", "easy"))
    line = hem_line(-124, 150, body["hip_y"] + 368, 12, 4, 10)
    left = [
        pose.point("bust", -1, 2, -2),
        pose.point("waist", -1, 3),
        pose.point("hip", -1, 4),
        (-44, body["hip_y"] + 160),
        line[0],
    ]
    right = [
        line[-1],
        (86, body["hip_y"] + 170),
        pose.point("hip", 1, 4),
        pose.point("waist", 1, 3),
        pose.point("bust", 1, 2, -2),
    ]
    top_r, top_l = pose.shoulder(1, 0.5, 3), pose.shoulder(-1, 0.5, 3)
    neck = [top_r, (34, body["sh_y"] + 30), (0, body["sh_y"] + 40), (-34, body["sh_y"] + 30), top_l]
    strokes = [
        [pose.point("hip", -1, -8, -10), (-14, body["hip_y"] + 120), (-84, body["hip_y"] + 360)],
        [pose.middle("hip", 0.3, -20), (24, body["hip_y"] + 180), (-10, body["hip_y"] + 366)],
        [pose.point("hip", 1, -10, -6), (58, body["hip_y"] + 170), (64, body["hip_y"] + 370)],
        [pose.point("hip", 1, -3, 10), (80, body["hip_y"] + 190), (120, body["hip_y"] + 360)],
        [pose.point("waist", 1, -4, 6), pose.middle("waist", 0, 26), pose.point("hip", -1, -10, -30)],
        [pose.point("bust", 1, -10, 30), pose.middle("waist", 0.1, -14), pose.point("waist", -1, -4, 6)],
    ]
    text = art.folds(lame, strokes, 13, 0.55, 0.0, 2)
    for x, y, w, h in (
        (-26, 200, 16, 22),
        (32, 204, 13, 20),
        (-22, body["hip_y"] - 14, 24, 50),
        (8, body["hip_y"] + 130, 12, 110),
        (44, body["hip_y"] + 250, 12, 90),
        (-54, body["hip_y"] + 280, 10, 70),
        (98, body["hip_y"] + 300, 10, 60),
    ):
        text += art.soft_text(oval(x, y, w, h), "#ffffff", 0.9, 7)
    chance = random.Random(4)
    text += "".join(
        fill(oval(chance.uniform(-110, 140), chance.uniform(170, 780), 1.2, 1.2), "#ffffff", 0.8)
        for _ in range(240)
    )
    art.form(
        shape(
            [top_l, (-56, body["bust_y"] - 34), left[0]],
            left,
            line,
            right,
            [right[-1], (58, body["bust_y"] - 34), top_r],
            neck,
        ),
        lame,
        inside=text,
        size=11,
        dark="#6c7076",
        lit="#ffffff",
        shine=0.9,
    )
    for k in range(3):
        art.line(
            [
                (-30 + k * 4, body["sh_y"] + 40 + k * 13),
                (0, body["sh_y"] + 54 + k * 13),
                (30 - k * 4, body["sh_y"] + 40 + k * 13),
            ],
            "#7d8086",
            2.4,
            0.6,
        )
    art.form(
        tube([pose.arm_at(1, 0.34), pose.arm_at(1, 0.56), (118, body["hip_y"] - 40)], [16, 19, 14]),
        "white",
        size=7,
    )
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "waves", "#c9a765")
    art.end()
    art.end()


def wedding(art):
    """Bridie's: bias satin, and a veil of herring net worn low on the brow."""
    ground.studio(art, "#76695a", 660, 81)
    tone = "#dbbd9e"
    pose = Pose(
        WOMAN, arms=((13, -24), (13, -22)), legs=((0, 0), (5, 3)), sway=5, tilt=3, turn=0.3, head=(1, 0, 3)
    )
    stand(art, pose, 750, 704)
    body = pose.body
    net = "#e9e0c8"
    veil = shape(
        [(-40, 8), (-96, body["bust_y"]), (-150, body["hip_y"] + 130), (-186, body["hip_y"] + 390)],
        [(-186, body["hip_y"] + 390), (0, body["hip_y"] + 402), (190, body["hip_y"] + 390)],
        [(190, body["hip_y"] + 390), (152, body["hip_y"] + 130), (98, body["bust_y"]), (40, 8)],
        [(40, 8), (0, -8), (-40, 8)],
    )
    art.add(fill(veil, net, 0.34))
    mesh = "".join(
        stroke(edge([(k * 8, 0), (k * 20, 300), (k * 40, 800)]), "#fbf6e6", 1.1, 0.55) for k in range(-6, 7)
    )
    mesh += "".join(
        stroke(edge([(-200, y), (0, y + 12), (200, y)]), "#fbf6e6", 1.0, 0.45) for y in range(10, 800, 22)
    )
    art.add(f'<g clip-path="url(#{art.clip(veil)})">{mesh}</g>')
    skin(art, pose, tone, legs=(), feet="none", hands=(None, None))
    ivory = "ivory"
    for side in (-1, 1):
        foot(art, pose, side, ivory, "heel")
    line = hem_line(-116, 124, body["hip_y"] + 348, 12, 4, 8)
    yoke_l, yoke_r, vee = (
        pose.point("hip", -1, 6, -34),
        pose.point("hip", 1, 6, -34),
        pose.middle("hip", 0, 4),
    )
    text = art.folds(
        ivory,
        [
            [(-46, 220), (-20, 256), (-26, 300)],
            [(46, 220), (24, 256), (30, 300)],
            [(-40, 318), (0, 330), (44, 318)],
        ],
        7,
        0.35,
    )
    text += dots([(pose.turn * 6 + 1, 214 + k * 13) for k in range(12)], 2.8, "#fffaf0")
    bodice(art, pose, ivory, neckline(pose, 0.36, 34), (4, 5, 5, 6), "hip", 4, text)
    strokes = fall(yoke_l, yoke_r, sampled(line, 3), 7, start=0.08)
    text = art.folds(ivory, strokes, 12, 0.4, 0.5, 2)
    art.form(
        shape(
            [yoke_l, pose.point("hip", -1, 7), (-62, body["hip_y"] + 130), line[0]],
            line,
            [line[-1], (74, body["hip_y"] + 130), pose.point("hip", 1, 7), yoke_r],
            [yoke_r, vee],
            [vee, yoke_l],
        ),
        ivory,
        inside=text,
        size=12,
        shine=0.9,
    )
    art.add(
        stroke("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in (yoke_l, vee, yoke_r)), shade(ivory), 1.8, 0.8)
    )
    for k in range(3):
        art.line(
            [
                (-34 + k * 5, body["sh_y"] + 12 + k * 14),
                (2, body["sh_y"] + 34 + k * 15),
                (38 - k * 5, body["sh_y"] + 12 + k * 14),
            ],
            shade(ivory),
            3,
            0.55,
        )
    for side in (-1, 1):
        sleeve(art, pose, side, ivory, [6, 6, 6, 4, 4], 0, 1.0, shine=0.8)
        x, y = pose.arms[side][2]
        hand(art, (x, y), -side * 40, side, tone, "easy", 0.8)
        art.form(
            shape(
                [(x - 14, y - 12), (x + 13, y - 12)],
                [(x + 13, y - 12), (x - side * 14 + 2, y + 27)],
                [(x - side * 14 + 2, y + 27), (x - 14, y - 12)],
            ),
            ivory,
            size=3,
            line=1,
        )
    # Sea pinks in the hands: colour on the plate.
    chance = random.Random(3)
    for _ in range(15):
        x, y = 4 + chance.uniform(-30, 30), body["hip_y"] + 30 + chance.uniform(-24, 18)
        art.line([(x, y), (4, body["hip_y"] + 74)], "#5f6b4a", 2, 0.9)
        art.form(oval(x, y, 8, 7), chance.choice(["#b98088", "#c99aa0", "#d9b8b6"]), size=3, line=0.8)
    neck_shadow(art, pose, tone)
    head(art, pose, tone, ears=False)
    hair(art, pose, "swept", "#6b4a33")
    w = body["head"]
    low = shape(
        [
            (-w * 1.14, 74),
            (-w * 1.18, 34),
            (-w * 0.84, 0),
            (0, -13),
            (w * 0.86, 0),
            (w * 1.18, 34),
            (w * 1.14, 74),
        ],
        [(w * 1.0, 70), (w * 0.86, 42), (4, 32), (-w * 0.84, 42), (-w * 1.0, 70)],
    )
    art.form(
        low,
        net,
        size=6,
        inside="".join(
            stroke(edge([(k * 9, -14), (k * 11, 20), (k * 12, 70)]), shade(net), 1, 0.6) for k in range(-4, 5)
        )
        + "".join(stroke(edge([(-60, y), (0, y - 8), (60, y)]), shade(net), 1, 0.6) for y in range(0, 70, 9)),
    )
    art.add(
        dots(
            [(-w * 0.86 + 4 + k * 7.4, 42 - 9 * (1 - ((k - 4) / 4.5) ** 2)) for k in range(9)], 2.2, "#fffdf4"
        )
    )
    art.end()
    art.end()
