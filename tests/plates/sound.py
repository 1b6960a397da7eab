"""Plates of The Sound, 1925 to 1929: wool in water."""

import ground
from body import COSIMA, ODILE, Pose
from brush import INK, between, edge, light, mix, oval, sampled, shape, sliver, stroke, tube
from figure import SKIN, foot, hair, hand, head, neck_shadow, skin
from garments import band, bathing, buttons, cord, fall, hem_line, ribs
from hats import cap, goggles
from stage import BONE, DARK, GREEN, stand


def club_costume(art):
    ground.sea(art, "#dcd4c0", "#a4ada0", 350, None, 12, "#9b9b8d")
    ground.rail(art, 590)
    pose = Pose(
        ODILE,
        arms=((40, -52), (12, 3)),
        legs=((0, 0), (9, 6)),
        sway=9,
        tilt=5,
        counter=-4,
        turn=0.5,
        head=(1, 0, 4),
    )
    stand(art, pose, 752, 712)
    skin(art, pose, hands=(None, "easy"))
    body = pose.body
    for side in (-1, 1):
        art.form(pose.leg(side, [4, 5, 8, 6, 4, 4], 0.3), "black", size=9, shine=0.9, inside=ribs("black"))
    bathing(
        art,
        pose,
        "black",
        ("square", 0.46),
        (0.3, 0.62),
        leg=0.2,
        inside=ribs("black") + band(pose, "waist", -46, 17, BONE),
    )
    a, b = pose.point("waist", -1, 5, 26), pose.point("waist", 1, 5, 26)
    line = hem_line(-80, 84, body["hip_y"] + 68, 3, 4, 10)
    art.form(
        shape(
            [a, pose.point("hip", -1, 7), line[0]],
            line,
            [line[-1], pose.point("hip", 1, 8), b],
            [b, pose.middle("waist", 0, 36), a],
        ),
        "black",
        inside=ribs("black", 8, 0.5) + art.folds("black", fall(a, b, line, 4), 7, 0.7, 0.5),
        size=10,
        shine=0.9,
    )
    for at in range(3):
        x, y = pose.shoulder(1, 0.34 + at * 0.12, 0)
        if at:
            buttons(art, [(x, y + 4)], "#3a3a3c", 4.2)
        else:
            art.line([(x - 4, y + 1), (x + 3, y + 9)], BONE, 1.6, 0.9)
    hand(art, pose.arms[-1][2], 42, -1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    cap(art, pose, GREEN, 36)
    goggles(art, pose, "#3a2f26", 14)
    art.end()
    art.end()


def grease_robe(art):
    """Magnesium light on the slip: from behind, the robe off both shoulders and held by its belt, the back half done."""
    ground.night(art, "#4a4d46", 610, (290, 250), "#f3e7c6", False, 0.8)
    for y in (640, 676, 720, 770):
        art.line([(0, y), (300, y + 10), (600, y + 2)], "#23241f", 5, 0.45)
    tone = "#e2c3a2"
    pose = Pose(
        ODILE,
        arms=((26, -38), (24, -40)),
        legs=((0, 0), (5, 3)),
        sway=6,
        tilt=4,
        head=(-3, 0, -5),
        back=True,
        reach=((1, 0.8), (1, 0.8)),
    )
    stand(art, pose, 752, 712)
    robe, stripe = "#8a8577", "#5c2323"
    body = pose.body
    skin(art, pose, tone, feet="none", hands=(None, None))
    for side in (-1, 1):
        art.form(pose.leg(side, 3), "ivory", size=6)
        foot(art, pose, side, "ivory", "shoe", sole="#1a1714")
    for points, wide in (
        ([(-58, 164), (-20, 172), (30, 166)], 20),
        ([(-52, 186), (-10, 196), (44, 186)], 22),
        ([(-46, 212), (0, 218), (50, 206)], 20),
        ([(-40, 236), (-14, 240), (10, 236)], 15),
    ):
        art.soft(sliver(sampled(points), wide), "#4d463c", 0.6, 3.5, within=pose.torso())
    line = hem_line(-106, 114, body["hip_y"] + 292, 6, 4, 10)
    a, b = pose.point("waist", -1, 12, 4), pose.point("waist", 1, 12, 4)
    text = art.folds(robe, fall(a, b, sampled(line, 3), 8, reach=0.98), 10, 0.6, 0.4, 1.6)
    text += stroke(edge([(x, y - 38) for x, y in line]), stripe, 34, 0.97)
    art.form(
        shape(
            [a, pose.point("hip", -1, 26), line[0]],
            line,
            [line[-1], pose.point("hip", 1, 28), b],
            [b, pose.middle("waist", 0, 18), a],
        ),
        robe,
        inside=text,
        size=13,
    )
    # The upper half turned down over the belt, its sleeves hanging.
    for side in (-1, 1):
        x, y = pose.point("waist", side, 4, 20)
        art.form(
            shape(
                [(x - side * 14, y), (x + side * 30, y + 40), (x + side * 42, y + 190)],
                [(x + side * 42, y + 190), (x + side * 12, y + 200), (x - side * 4, y + 192)],
                [(x - side * 4, y + 192), (x + side * 2, y + 80), (x - side * 34, y + 10)],
            ),
            robe,
            size=9,
            inside=art.folds(
                robe,
                [
                    [(x - side * 6, y + 8), (x + side * 18, y + 70), (x + side * 22, y + 190)],
                    [(x, y + 60), (x + side * 14, y + 110), (x + side * 10, y + 196)],
                ],
                8,
            ),
        )
    over = hem_line(-78, 84, body["waist_y"] + 96, 8, 3, 22)
    text = art.folds(robe, fall(a, b, sampled(over, 3), 6), 9, 0.55, 0.4, 1.4)
    art.form(
        shape(
            [a, pose.point("waist", -1, 30, 40), over[0]],
            over,
            [over[-1], pose.point("waist", 1, 30, 40), b],
            [b, pose.middle("waist", 0, 22), a],
        ),
        robe,
        inside=text,
        size=10,
    )
    cord(art, pose, "waist", 2, 13, 4, "#2c241c", 6)
    head(art, pose, tone)
    hair(art, pose, "back", DARK)
    art.end()
    art.end()


def _goggles_in_hand(art, x, y, crack=True):
    for at in (-1, 1):
        art.form(oval(x + at * 15, y + 12, 13, 11), "#3a2f26", size=3)
        art.form(oval(x + at * 15, y + 12, 9, 7.5), "#b9c4bd", size=3, line=0.8)
    art.line([(x - 28, y + 10), (x - 6, y - 22), (x + 6, y - 22), (x + 28, y + 10)], "#3a2f26", 3.5, 1)
    if crack:
        art.add(
            stroke(
                f"M{x + 9:.0f} {y + 7:.0f}L{x + 16:.0f} {y + 12:.0f}L{x + 22:.0f} {y + 9:.0f}M{x + 16:.0f} {y + 12:.0f}L{x + 14:.0f} {y + 18:.0f}",
                INK,
                1.1,
            )
        )


def _crossing(art, pose, tone=SKIN, hands=("easy", None), legs=True):
    skin(art, pose, tone, hands=hands, feet="bare" if legs else "none")
    rib = ribs("black", 9, 0.45)
    for y in range(110, 450, 26):
        rib += stroke(edge([(-100, y), (0, y + 6), (100, y)]), light("black"), 0.9, 0.18)
    bathing(art, pose, "black", ("scoop", 0.5), (0.42, 0.62), leg="high", inside=rib, rise=4)
    x, y = pose.shoulder(1, 0.5, 0)
    buttons(art, [(x + 5, y + 12)], "#47443f", 4.6)
    art.line([(x - 3, y + 2), (x - 8, y + 7), (x - 6, y + 13)], BONE, 1.6, 1)
    for px, py, long in ((-38, 332, 20), (26, 350, 24), (-8, 300, 16), (40, 270, 14)):
        art.line([(px, py), (px + 2, py + long)], "#6d6a66", 1.4, 0.5)


def _rolled_cap(art, pose):
    """Rolled up over the left ear, to hear the boat."""
    w = pose.body["head"]
    cap(art, pose, GREEN, 34)
    art.form(
        tube([(w * 0.82, 42), (w * 1.05, 49), (w * 1.12, 42)], [4, 6, 4]), mix(GREEN, "#ffffff", 0.1), size=3
    )
    art.form(oval(w * 1.02, 60, 6, 10), SKIN, size=3, line=1)
    art.form(
        shape(
            [(-w * 0.98, 26), (-w * 0.62, 22)],
            [(-w * 0.62, 22), (-w * 0.64, 38)],
            [(-w * 0.64, 38), (-w * 0.98, 42)],
        ),
        mix(GREEN, "#46524a", 0.6),
        size=2,
        line=0.8,
    )


def crossing_plate(art):
    """The plate that everybody knows: she walks."""
    ground.sea(art, "#dfd6be", "#a3aca0", 330, 640, 21, "#a09f92")
    pose = Pose(
        ODILE,
        arms=((14, 8), (19, -6)),
        legs=((-4, -6), (14, 7)),
        sway=8,
        tilt=5,
        counter=-5,
        turn=0.6,
        head=(3, 0, 6),
        stride=((1, 1), (0.95, 0.97)),
    )
    stand(art, pose, 756, 716, 292)
    _crossing(art, pose, hands=("easy", "fist"))
    x, y = pose.arms[1][2]
    _goggles_in_hand(art, x + 4, y + 44)
    for side, drops in ((-1, ((0.3, 8), (0.6, 6))), (1, ((0.4, 7), (0.7, 6)))):
        for share, long in drops:
            px, py = between(pose.legs[side][0], pose.legs[side][2], share)
            art.line([(px - 9, py), (px - 8, py + long * 2)], "#f6efe2", 1.6, 0.7)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    _rolled_cap(art, pose)
    art.end()
    art.end()


def crossing_film(art):
    """The landing by lantern, waist and up, out of the water."""
    ground.night(art, "#444b46", 470, (455, 330), "#f0dcae", False, 0.9)
    ground.ripples(art, "#5b655d", 470, 800, 9)
    art.form(tube([(470, 250), (470, 330)], [4, 4]), "#2a2824", size=3)
    art.form(oval(470, 352, 27, 34), "#f7e6b6", size=6, deep=0.3)
    for x in (446, 470, 494):
        art.line([(x, 322), (x + (x - 470) * 0.2, 352), (x, 384)], "#2a2824", 3, 1)
    for y in (318, 388):
        art.form(oval(470, y, 26, 7), "#2a2824", size=3)
    pose = Pose(
        ODILE,
        arms=((26, 14), (46, 62)),
        legs=((2, 0), (8, 4)),
        sway=7,
        tilt=4,
        counter=-7,
        turn=0.7,
        head=(4, 0, 9),
    )
    stand(art, pose, 1085, 1030, 262)
    _crossing(art, pose, "#dcb994", hands=("easy", "easy"), legs=False)
    neck_shadow(art, pose)
    head(art, pose, "#dcb994", ears=False)
    _rolled_cap(art, pose)
    goggles(art, pose, "#3a2f26", 10, crack=True)
    art.end()
    art.end()
    ground.water_before(art, "#57625a", 600, 4)


def record_costume(art):
    ground.sea(art, "#a9a592", "#6f7d74", 300, 630, 31, "#7d8078")
    pose = Pose(
        COSIMA,
        arms=((10, 4), (42, -58)),
        legs=((-1, 0), (9, 6)),
        sway=10,
        tilt=6,
        counter=-5,
        turn=-0.5,
        head=(-3, 0, -6),
    )
    stand(art, pose, 754, 716)
    tone = "#dcbca0"
    skin(art, pose, tone, hands=("easy", None))
    white = "#eeece4"
    text = (
        ribs(white, 8, 0.5)
        + art.soft_text(oval(-40, 300, 34, 90), "#b0b0ac", 0.6, 14)
        + art.soft_text(oval(46, 250, 24, 80), "#b0b0ac", 0.6, 14)
    )
    outlines, _ = bathing(art, pose, "white", ("round", 0.3), (0.3, 0.5), leg=0.16, inside=text, under=-2)
    for side in (-1, 1):
        joint, knee, _ = pose.legs[side]
        x, y = between(joint, knee, 0.3)
        art.line([(x - 34, y + 2), (x, y + 7), (x + 33, y)], "#9c9d9b", 5, 1)
    hand(art, pose.arms[1][2], -44, 1, tone, "hip", 0.9)
    for x, y in ((-30, 470), (28, 520), (-52, 180), (60, 190)):
        art.soft(oval(x, y, 12, 22), "#8d8a80", 0.35, 5)
    neck_shadow(art, pose)
    head(art, pose, tone, ears=False)
    cap(art, pose, "white", 34)
    art.end()
    art.end()
