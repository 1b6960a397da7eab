"""Plates of Ivo Karsk, pilot's mate, and the gansey that two people wear."""

import ground
from body import MAN, Pose
from brush import edge, light, loop, oval, sampled, shade, shape, sliver, stroke, tube
from figure import foot, hand, head, neck_shadow, skin
from garments import bodice, buttons, coat, cord, hem_line, neckline, sleeve, trousers, watch
from hats import beard, bowler, peaked, souwester
from stage import stand


def gansey_on(art, pose, wool, tone, cut="hip", push=None):
    body = pose.body
    text = ""
    for at in range(-3, 4):
        x = at * 20 + pose.turn * 6
        for y in range(body["sh_y"] - 10, int(body["bust_y"]) + 30, 9):
            if at % 2:
                text += stroke(
                    f"M{x - 4} {y}L{x + 4} {y + 5}M{x + 4} {y}L{x - 4} {y + 5}", light(wool), 1.8, 0.9
                )
            else:
                text += stroke(f"M{x - 6} {y}H{x + 6}", light(wool), 1.8, 0.9)
        text += stroke(f"M{x - 10} {body['sh_y'] - 20}V{body['bust_y'] + 34}", shade(wool), 1.4, 0.8)
    text += stroke(
        edge([(-110, body["bust_y"] + 36), (0, body["bust_y"] + 42), (110, body["bust_y"] + 36)]),
        light(wool),
        2,
        0.7,
    )
    for step in range(26):
        x = -86 + step * 7
        text += stroke(f"M{x} {body['hip_y'] - 34}V{body['hip_y'] + 10}", shade(wool), 2.4, 0.55)
    text += art.folds(
        wool,
        [
            [pose.point("waist", -1, 8), pose.middle("waist", -0.3, 20), pose.middle("hip", 0, -30)],
            [pose.point("waist", 1, 8), pose.middle("waist", 0.4, 26), pose.middle("hip", 0.2, -24)],
        ],
        7,
        0.35,
        0.18,
        2,
    )
    for side in (-1, 1):
        sleeve(
            art,
            pose,
            side,
            wool,
            [7, 6, 6, 4, 4],
            0,
            push or 0.97,
            shine=0.95,
            inside=art.soft_text(oval(*pose.arm_at(side, 0.54), 14, 20), light(wool), 0.6, 5),
        )
    d = bodice(art, pose, wool, neckline(pose, 0.28, 6), (8, 8, 9, 8), cut, 4, text, shaped=False, shine=0.95)
    art.form(
        tube(
            [(-24, body["sh_y"] - 26), (pose.turn * 4, body["sh_y"] - 16), (26, body["sh_y"] - 26)],
            [9, 10, 9],
        ),
        wool,
        size=4,
        shine=0.9,
    )
    return d


def _pilot(art, pose, tone):
    moleskin = "#6b5b45"
    skin(art, pose, tone, feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "#2a211b", "boot")
    trousers(art, pose, moleskin, (12, 15, 18, 16, 20, 24), 0.97)
    for side in (-1, 1):
        x, y = pose.legs[side][1]
        art.form(
            shape(
                [(x - 30, y - 34), (x + 30, y - 32)],
                [(x + 30, y - 32), (x + 28, y + 34)],
                [(x + 28, y + 34), (x - 28, y + 32)],
            ),
            "#b3a68c",
            size=5,
            deep=0.6,
        )
        art.add(
            stroke(
                f"M{x - 26:.0f} {y - 29:.0f}H{x + 26:.0f}V{y + 28:.0f}H{x - 24:.0f}Z",
                "#6f634e",
                1.4,
                0.8,
                "4 4",
            )
        )
    gansey_on(art, pose, "#2b3138", tone)
    cord(art, pose, "hip", -14, 10, 3, "#2c241c", 6)
    x, y = pose.point("hip", 1, -14, 0)
    art.form(
        loop([(x - 10, y - 10), (x + 2, y - 14), (x + 10, y - 2), (x, y + 8), (x - 10, y + 2)]),
        "#2c241c",
        size=3,
    )
    art.line([(x, y + 4), (x - 2, y + 20), (x - 4, y + 30)], "#2c241c", 3, 1)
    watch(art, x - 4, y + 42, 12)


def gansey(art):
    ground.quay(art, "#b0a690", "#d8cfba", "#a5ab9c", 590, 8)
    tone = "#c9a585"
    pose = Pose(MAN, arms=((11, 5), (10, 6)), legs=((3, 2), (8, 5)), turn=0.4, head=(0, 0, 2))
    stand(art, pose, 756, 690)
    _pilot(art, pose, tone)
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    beard(art, pose, "#5b5148")
    bowler(art, pose, "#2a2624")
    art.end()
    art.end()


def the_one_saved(art):
    """The painting: half length, nearer, against a storm that has gone by."""
    ground.sea(art, "#b9a67e", "#6f786b", 470, None, 11)
    for x, y, wide in ((110, 120, 90), (480, 90, 80), (330, 210, 60)):
        art.soft(
            sliver(sampled([(x - 240, y + 40), (x, y - 20), (x + 240, y + 10)], 5), wide), "#7d7259", 0.5, 18
        )
    art.soft(sliver(sampled([(20, 430), (300, 405), (600, 440)], 5), 34), "#e9d8a8", 0.8, 10)
    tone = "#c99f7a"
    pose = Pose(
        MAN, arms=((14, -20), (12, -34)), legs=((3, 2), (8, 5)), turn=-0.6, head=(-4, 0, -5), counter=2
    )
    stand(art, pose, 1150, 1090, 305)
    _pilot(art, pose, tone)
    for side, bend in ((-1, 26), (1, -40)):
        hand(art, pose.arms[side][2], bend, side, tone, "fist", 1.05)
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    beard(art, pose, "#5b5148")
    bowler(art, pose, "#2a2624")
    art.end()
    art.end()


def pilot_coat(art):
    ground.sea(art, "#d3cbb7", "#9aa497", 340, None, 17)
    tone = "#c9a585"
    pose = Pose(MAN, arms=((12, -4), (13, 2)), legs=((2, 2), (7, 4)), turn=-0.5, head=(-2, 0, -4))
    stand(art, pose, 756, 706)
    body = pose.body
    cloth, patch = "#20242c", "#6b5b45"
    skin(art, pose, tone, feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "#221c18", "boot")
    trousers(art, pose, "#4b4338", (10, 13, 16, 14, 18, 20), 0.97)
    gansey_on(art, pose, "#2b3138", tone)
    cord(art, pose, "hip", -30, 10, 3, "#2c241c", 6)
    x, y = pose.point("hip", 1, -44, -14)
    art.line([(x, y - 4), (x - 2, y + 12), (x - 2, y + 22)], "#2c241c", 3, 1)
    watch(art, x - 2, y + 34, 11)
    low = body["hip_y"] + 206
    line = hem_line(-124, 130, low, 8, 4, 10)
    for side in (-1, 1):
        sleeve(art, pose, side, cloth, [12, 15, 16, 13, 15], 0, 1.02, shine=1.0)
        if side < 0:
            x, y = pose.arm_at(-1, 0.55)
            art.form(
                loop([(x - 22, y - 30), (x + 8, y - 26), (x + 10, y + 26), (x - 18, y + 30), (x - 27, y)]),
                patch,
                size=5,
            )
    for side in (-1, 1):
        inner = [
            pose.shoulder(side, 0.3, 8),
            (side * 40, body["bust_y"]),
            (side * 46, body["waist_y"]),
            (side * 60, body["hip_y"] + 60),
            (side * 62, low + 8),
        ]
        hem = [(side * 62, low + 8), (side * 96, low + 4), line[0 if side < 0 else -1]]
        outer = [
            hem[-1],
            pose.point("hip", side, 34),
            pose.point("waist", side, 26),
            pose.point("bust", side, 17),
            pose.point("sh", side, 10, 34),
            pose.shoulder(side, 0.94, 8),
            pose.shoulder(side, 0.6, 8),
            pose.shoulder(side, 0.3, 8),
        ]
        strokes = [
            [(side * 80, body["waist_y"]), (side * 92, body["hip_y"] + 40), (side * 98, low - 10)],
            [(side * 60, body["waist_y"] + 20), (side * 74, body["hip_y"] + 80), (side * 76, low)],
        ]
        art.form(
            shape(inner, hem, outer),
            cloth,
            inside=art.folds(cloth, strokes, 12, 0.7, 0.5, 2),
            size=13,
            shine=1.0,
        )
        art.form(
            shape(
                [pose.shoulder(side, 0.26, 16), (side * 40, body["bust_y"] + 34)],
                [
                    (side * 40, body["bust_y"] + 34),
                    (side * 78, body["sh_y"] + 52),
                    (side * 64, body["sh_y"] + 34),
                    (side * 76, body["sh_y"] + 18),
                    pose.shoulder(side, 0.5, 11),
                ],
                [pose.shoulder(side, 0.5, 11), pose.shoulder(side, 0.26, 16)],
            ),
            cloth,
            size=6,
            shine=1.0,
        )
        for row in range(4):
            odd = side > 0 and row in (1, 3)
            buttons(
                art,
                [(side * (58 + row * 2.4), body["bust_y"] + 62 + row * 44)],
                "#a98d5f" if odd else "#5d5142",
                6,
            )
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    beard(art, pose, "#5b5148")
    peaked(art, pose, "#20242c")
    art.end()
    art.end()


def oilskin_long(art):
    """In the boat, in a squall."""
    ground.sea(art, "#8b8f86", "#6f7b74", 400, None, 41)
    for at in range(46):
        x, y = (at * 137) % 640, (at * 211) % 700
        art.line([(x, y), (x - 16, y + 46)], "#d9dad0", 1.6, 0.35)
    tone = "#c9a585"
    pose = Pose(MAN, arms=((20, -16), (26, 4)), legs=((4, 3), (9, 5)), turn=0.5, head=(3, 0, 5), counter=2)
    stand(art, pose, 770, 716)
    oil, dark = "#c0902f", "#7a5a26"
    body = pose.body
    skin(art, pose, tone, feet="none", hands=("fist", "fist"))
    for side in (-1, 1):
        foot(art, pose, side, "#231e1a", "boot")
        art.form(pose.leg(side, [4, 4, 8, 8, 10, 10]), "#231e1a", size=7)
        foot(art, pose, side, "#231e1a", "boot")
    for side in (-1, 1):
        sleeve(art, pose, side, oil, [10, 14, 16, 14, 16], 0, 1.0, shine=0.9)
    coat(
        art,
        pose,
        oil,
        body["hip_y"] + 236,
        (-146, 142),
        (18, 24, 32, 38),
        neckline(pose, 0.26, 18, "v"),
        folds=9,
        wave=12,
        dip=10,
        shine=0.95,
        wide=12,
        inside=art.soft_text(oval(-96, 560, 50, 90), dark, 0.55, 20)
        + art.soft_text(oval(100, 500, 40, 130), dark, 0.6, 20)
        + art.soft_text(oval(60, 180, 40, 30), dark, 0.35, 14),
    )
    fly = [(14, body["sh_y"] + 8), (20, body["waist_y"]), (26, body["hip_y"] + 80), (30, body["hip_y"] + 240)]
    art.add(stroke(edge(fly), dark, 3, 0.8))
    art.add(stroke(edge([(x - 26, y) for x, y in fly]), dark, 1.6, 0.5))
    for at in range(5):
        y = body["sh_y"] + 26 + at * 62
        x = 12 + at * 2.2
        art.form(tube([(x - 13, y), (x + 11, y + (6 if at == 0 else 0))], [5, 5]), "#d2b45e", size=3)
    for side in (-1, 1):
        art.form(
            shape(
                [(side * 12 + 3, body["chin"] + 26), pose.shoulder(side, 0.5, 10)],
                [
                    pose.shoulder(side, 0.5, 10),
                    (side * 50, body["sh_y"] + 30),
                    (side * 14 + 6, body["sh_y"] + 12),
                ],
                [(side * 14 + 6, body["sh_y"] + 12), (side * 12 + 3, body["chin"] + 26)],
            ),
            dark,
            size=5,
        )
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    beard(art, pose, "#5b5148")
    souwester(art, pose, "#b8862f")
    art.end()
    art.end()
    ground.rail(art, 690, "#5b4632")
