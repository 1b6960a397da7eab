"""Plates of The Sound, 1925 to 1929: wool in water, and what was borrowed to be dry in."""

import ground
from body import COSIMA, MAN, ODILE, SKIN, Pose, along, between, foot, hair, hand, head, neck_shadow, skin
from brush import INK, dots, edge, fill, light, loop, mix, oval, sampled, shade, shape, sliver, stroke, tube
from garments import (band, bathing, beard, bodice, buttons, cap, coat, cord, fall, goggles, hem_line, lapels, neckline, peaked,
                      pushed, skirt, sleeve, souwester, trousers, watch)
from slip import _gansey
from stage import BONE, DARK, GREEN, stand, stand_collar

WET = "#cfa98c"


def ribs(colour, step=7, opacity=0.4):
    """The rib of a knitted costume."""
    return "".join(stroke(edge([(x, 110), (x * 0.92, 280), (x, 520)]), light(colour), 1.2, opacity) for x in range(-98, 104, step))


def club_costume(art):
    ground.sea(art, "#dcd4c0", "#a4ada0", 350, None, 12, "#9b9b8d")
    ground.rail(art, 590)
    pose = Pose(ODILE, arms=((40, -52), (12, 3)), legs=((0, 0), (9, 6)), sway=9, tilt=5, counter=-4, turn=0.5, head=(1, 0, 4))
    stand(art, pose, 752, 712)
    skin(art, pose, hands=(None, "easy"))
    body = pose.body
    for side in (-1, 1):
        art.form(pose.leg(side, [4, 5, 8, 6, 4, 4], 0.3), "black", size=9, shine=0.9, inside=ribs("black"))
    bathing(art, pose, "black", ("square", 0.46), (0.3, 0.62), leg=0.2, inside=ribs("black") + band(pose, "waist", -46, 17, BONE))
    a, b = pose.point("waist", -1, 5, 26), pose.point("waist", 1, 5, 26)
    line = hem_line(-80, 84, body["hip_y"] + 68, 3, 4, 10)
    art.form(shape([a, pose.point("hip", -1, 7), line[0]], line, [line[-1], pose.point("hip", 1, 8), b], [b, pose.middle("waist", 0, 36), a]), "black",
             inside=ribs("black", 8, 0.5) + art.folds("black", fall(a, b, line, 4), 7, 0.7, 0.5), size=10, shine=0.9)
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


def _robe(art, pose, wool, stripe, hem_y, hem, gap, ease=(14, 18, 24, 28), open_top=90, new_sleeves=None, neck=None):
    inside = stroke(edge([(x, y - 34) for x, y in hem_line(hem[0] - 10, hem[1] + 10, hem_y, 5, 4, 8)]), stripe, 30, 0.96)
    return coat(art, pose, wool, hem_y, hem, ease, neck or neckline(pose, 0.34, open_top, "v"), inside=inside, folds=7, gap=gap)


def grease_robe(art):
    """Magnesium light on the slip: from behind, the robe off both shoulders and held by its belt, the back half done."""
    ground.night(art, "#4a4d46", 610, (290, 250), "#f3e7c6", False, 0.8)
    for y in (640, 676, 720, 770):
        art.line([(0, y), (300, y + 10), (600, y + 2)], "#23241f", 5, 0.45)
    tone = "#e2c3a2"
    pose = Pose(ODILE, arms=((26, -38), (24, -40)), legs=((0, 0), (5, 3)), sway=6, tilt=4, head=(-3, 0, -5), back=True, reach=((1, 0.8), (1, 0.8)))
    stand(art, pose, 752, 712)
    robe, stripe = "#8a8577", "#5c2323"
    body = pose.body
    skin(art, pose, tone, feet="none", hands=(None, None))
    for side in (-1, 1):
        art.form(pose.leg(side, 3), "ivory", size=6)
        foot(art, pose, side, "ivory", "shoe", sole="#1a1714")
    for points, wide in (([(-58, 164), (-20, 172), (30, 166)], 20), ([(-52, 186), (-10, 196), (44, 186)], 22), ([(-46, 212), (0, 218), (50, 206)], 20),
                         ([(-40, 236), (-14, 240), (10, 236)], 15)):
        art.soft(sliver(sampled(points), wide), "#4d463c", 0.6, 3.5, within=pose.torso())
    line = hem_line(-106, 114, body["hip_y"] + 292, 6, 4, 10)
    a, b = pose.point("waist", -1, 12, 4), pose.point("waist", 1, 12, 4)
    text = art.folds(robe, fall(a, b, sampled(line, 3), 8, reach=0.98), 10, 0.6, 0.4, 1.6)
    text += stroke(edge([(x, y - 38) for x, y in line]), stripe, 34, 0.97)
    art.form(shape([a, pose.point("hip", -1, 26), line[0]], line, [line[-1], pose.point("hip", 1, 28), b], [b, pose.middle("waist", 0, 18), a]), robe, inside=text, size=13)
    # The upper half turned down over the belt, its sleeves hanging.
    for side in (-1, 1):
        x, y = pose.point("waist", side, 4, 20)
        art.form(shape([(x - side * 14, y), (x + side * 30, y + 40), (x + side * 42, y + 190)], [(x + side * 42, y + 190), (x + side * 12, y + 200), (x - side * 4, y + 192)],
                       [(x - side * 4, y + 192), (x + side * 2, y + 80), (x - side * 34, y + 10)]), robe, size=9,
                 inside=art.folds(robe, [[(x - side * 6, y + 8), (x + side * 18, y + 70), (x + side * 22, y + 190)], [(x, y + 60), (x + side * 14, y + 110), (x + side * 10, y + 196)]], 8))
    over = hem_line(-78, 84, body["waist_y"] + 96, 8, 3, 22)
    text = art.folds(robe, fall(a, b, sampled(over, 3), 6), 9, 0.55, 0.4, 1.4)
    art.form(shape([a, pose.point("waist", -1, 30, 40), over[0]], over, [over[-1], pose.point("waist", 1, 30, 40), b], [b, pose.middle("waist", 0, 22), a]), robe, inside=text, size=10)
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
        art.add(stroke(f"M{x + 9:.0f} {y + 7:.0f}L{x + 16:.0f} {y + 12:.0f}L{x + 22:.0f} {y + 9:.0f}M{x + 16:.0f} {y + 12:.0f}L{x + 14:.0f} {y + 18:.0f}", INK, 1.1))


def _crossing(art, pose, tone=SKIN, hands=("easy", None), legs=True):
    body = pose.body
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
    art.form(tube([(w * 0.82, 42), (w * 1.05, 49), (w * 1.12, 42)], [4, 6, 4]), mix(GREEN, "#ffffff", 0.1), size=3)
    art.form(oval(w * 1.02, 60, 6, 10), SKIN, size=3, line=1)
    art.form(shape([(-w * 0.98, 26), (-w * 0.62, 22)], [(-w * 0.62, 22), (-w * 0.64, 38)], [(-w * 0.64, 38), (-w * 0.98, 42)]), mix(GREEN, "#46524a", 0.6), size=2, line=0.8)


def crossing_plate(art):
    """The plate that everybody knows: she walks."""
    ground.sea(art, "#dfd6be", "#a3aca0", 330, 640, 21, "#a09f92")
    pose = Pose(ODILE, arms=((14, 8), (19, -6)), legs=((-4, -6), (14, 7)), sway=8, tilt=5, counter=-5, turn=0.6, head=(3, 0, 6),
                stride=((1, 1), (0.95, 0.97)))
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
    pose = Pose(ODILE, arms=((26, 14), (46, 62)), legs=((2, 0), (8, 4)), sway=7, tilt=4, counter=-7, turn=0.7, head=(4, 0, 9))
    stand(art, pose, 1085, 1030, 262)
    _crossing(art, pose, "#dcb994", hands=("easy", "easy"), legs=False)
    neck_shadow(art, pose)
    head(art, pose, "#dcb994", ears=False)
    _rolled_cap(art, pose)
    goggles(art, pose, "#3a2f26", 10, crack=True)
    art.end()
    art.end()
    ground.water_before(art, "#57625a", 600, 4)


def _cloak(art, pose, hem_y, hem, lining, opened=0):
    cloth, red = "#1d2230", "#6b1f24"
    body = pose.body
    line = hem_line(hem[0], hem[1], hem_y, 12, 5, 12)
    neck = [pose.shoulder(side, 0.3, 9) for side in (-1, 1)]
    left = [neck[0], pose.shoulder(-1, 0.62, 12), pose.point("sh", -1, 16, 40), pose.point("waist", -1, 62), between(pose.point("hip", -1, 70), line[0], 0.5), line[0]]
    right = [line[-1], between(pose.point("hip", 1, 70), line[-1], 0.5), pose.point("waist", 1, 64), pose.point("sh", 1, 16, 40), pose.shoulder(1, 0.62, 12), neck[1]]
    a, b = pose.point("sh", -1, -10, 30), pose.point("sh", 1, -10, 30)
    text = art.folds(cloth, fall(a, b, sampled(line, 3), 9, reach=0.99), 14, 0.75, 0.55, 2)
    return shape(left, line, right, [neck[1], (pose.turn * 6, body["sh_y"] - 12), neck[0]]), text, cloth, red, line


def boat_cloak(art):
    """On back to front, the clasp behind the neck; one slipper. By lantern on the shingle."""
    ground.night(art, "#6a6a5c", 600, (300, 250), "#f1dcaa", True, 0.95)
    pose = Pose(ODILE, arms=((12, 2), (12, 2)), legs=((0, 0), (7, 4)), turn=-0.5, head=(-3, 0, -7))
    stand(art, pose, 752, 700)
    skin(art, pose, WET, legs=(1, -1), feet="bare", hands=(None, None))
    foot(art, pose, 1, "ivory", "shoe")
    body = pose.body
    d, text, cloth, red, line = _cloak(art, pose, body["hip_y"] + 232, (-158, 162), True)
    art.form(d, cloth, inside=text, size=16, shine=1.0)
    # One fist holds it shut from within; where it turns over, the red shalloon shows.
    fx, fy = 10, body["bust_y"] + 22
    turned = shape([(fx, fy), (fx + 40, fy + 90), (fx + 62, fy + 240), (line[6][0], line[6][1])], [line[6], (fx + 14, fy + 270), (fx - 4, fy + 120), (fx, fy)])
    art.form(turned, red, inside=art.folds(red, [[(fx + 4, fy + 10), (fx + 34, fy + 120), (fx + 48, fy + 350)]], 9), size=8)
    roll = tube([pose.shoulder(-1, 0.28, 10), (-26, body["sh_y"] + 4), (pose.turn * 6, body["sh_y"] + 16), (30, body["sh_y"] + 4), pose.shoulder(1, 0.28, 10)], [8, 12, 15, 12, 8])
    art.form(roll, red, size=6)
    hand(art, (fx - 26, fy + 8), 96, -1, WET, "fist", 0.95)
    for share in (-0.6, -0.2, 0.5):
        art.soft(sliver(sampled([(fx, fy + 6), (share * 90, fy + 20), (share * 190, fy + 90)]), 12), "#0c0e15", 0.6, 3, within=d)
    neck_shadow(art, pose)
    head(art, pose, WET)
    hair(art, pose, "swept", "#1d1816")
    art.end()
    art.end()


def boat_cloak_sketch(art):
    """The sketch for the town hall: walking, the cloak flung, and both slippers."""
    art.add(fill("M0 0H600V800H0Z", "#e6d6b4"))
    for points, wide, colour, opacity in (([(-40, 150), (300, 90), (640, 170)], 190, "#c9a66a", 0.55), ([(-40, 330), (300, 300), (640, 350)], 160, "#b98f63", 0.35),
                                          ([(-40, 520), (300, 500), (640, 530)], 120, "#93917a", 0.7), ([(-40, 620), (300, 610), (640, 600)], 120, "#7f8270", 0.7),
                                          ([(-40, 740), (300, 730), (640, 750)], 140, "#a08f6c", 0.8)):
        art.soft(sliver(sampled(points), wide), colour, opacity, 9)
    pose = Pose(ODILE, arms=((34, 40), (30, 44)), legs=((-6, -8), (16, 6)), sway=6, tilt=5, counter=-5, turn=0.7, head=(4, 0, 7), stride=((1, 1), (0.95, 0.96)))
    stand(art, pose, 748, 690, 296)
    body = pose.body
    d, text, cloth, red, line = _cloak(art, pose, body["hip_y"] + 258, (-206, 196), True)
    art.form(d, red, inside=art.folds(red, fall((-60, 150), (60, 150), sampled(line, 3), 8), 14, 0.7, 0.4, 2), size=16)
    skin(art, pose, "#d8b08a", feet="none", hands=(None, None))
    for side in (-1, 1):
        foot(art, pose, side, "ivory", "shoe")
    bathing(art, pose, "black", ("scoop", 0.5), (0.42, 0.62), leg="high")
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.32, 9), (side * 60, body["bust_y"] + 10), (side * 84, body["hip_y"]), (side * 92, body["hip_y"] + 150), line[3 if side < 0 else -4]]
        outer_hem = line[:4][::-1] if side < 0 else line[-4:]
        outer = [outer_hem[-1], (side * 178, body["hip_y"] + 60), pose.point("waist", side, 74), pose.point("sh", side, 17, 40), pose.shoulder(side, 0.62, 12), pose.shoulder(side, 0.32, 9)]
        a, b = pose.shoulder(side, 0.4), pose.point("sh", side, 12, 44)
        strokes = [[between(a, b, k / 3), (side * (78 + k * 22), body["hip_y"]), (side * (100 + k * 26), body["hip_y"] + 240)] for k in range(4)]
        art.form(shape(inner, outer_hem, outer), cloth, inside=art.folds(cloth, strokes, 13, 0.75, 0.55, 2), size=14, shine=1.0)
        art.add(stroke(edge(inner), red, 7, 1))
    art.form(tube([pose.shoulder(-1, 0.34, 9), (pose.turn * 5, body["sh_y"] + 8), pose.shoulder(1, 0.34, 9)], [10, 13, 10]), red, size=5)
    neck_shadow(art, pose)
    head(art, pose, "#d8b08a", ears=False)
    cap(art, pose, GREEN, 34)
    art.end()
    art.end()


def civic_georgette(art):
    ground.hall(art, "#5e4a3a", "#433629")
    tone = "#d4b48f"
    pose = Pose(ODILE, arms=((9, -4), (12, -10)), legs=((0, 0), (6, 3)), sway=7, tilt=4, turn=0.4, head=(2, 0, 4))
    stand(art, pose, 752, 704)
    gown, pale = "#6f8f7d", "#cfd8c4"
    body = pose.body
    skin(art, pose, tone, feet="none")
    for side in (1, -1):
        art.form(pose.leg(side, 1.0), "#d9c3a2", size=6)
        foot(art, pose, side, "#7d9a86", "heel")
        x, y = pose.legs[side][2]
        art.line([(x - 12, y + 12), (x, y + 17), (x + 12, y + 11)], "#7d9a86", 4, 1)
    # A slip, then the handkerchief hem in six points, sheer over it.
    top_l, top_r = pose.point("hip", -1, 10, -2), pose.point("hip", 1, 10, -2)
    slip_hem = hem_line(-72, 84, body["hip_y"] + 152, 4, 4, 6)
    art.form(shape([top_l, slip_hem[0]], slip_hem, [slip_hem[-1], top_r], [top_r, top_l]), pale, size=9)
    tips = [(-112, 214), (-66, 250), (-22, 226), (28, 256), (76, 222), (124, 246)]
    for at, (tip, low) in enumerate(tips):
        a, b = between(top_l, top_r, max(0, (at - 0.8) / 5.4)), between(top_l, top_r, min(1, (at + 1.5) / 5.4))
        tip = (tip, body["hip_y"] + low)
        text = art.folds(gown, [[between(a, b, k), between(between(a, b, k), tip, 0.55), between(between(a, b, 0.3 + k * 0.4), tip, 0.93)] for k in (0.2, 0.55, 0.85)], 8, 0.45, 0.5, 1.4)
        text += art.soft_text(oval(tip[0], tip[1] - 30, 26, 44), pale, 0.6, 10)
        art.form(shape([a, ((a[0] + tip[0]) / 2 - 20, (a[1] + tip[1]) / 2), tip], [tip, ((b[0] + tip[0]) / 2 + 18, (b[1] + tip[1]) / 2), b], [b, a]), gown, inside=text, size=8, line=1)
    sleeves = []
    for side in (-1, 1):
        art.group('opacity="0.78"')
        sleeve(art, pose, side, pale, [6, 9, 12, 9, 8], 0, 0.55)
        art.end()
        x, y = pose.arm_at(side, 0.55)
        pushed(art, pose, side, gown, 0.57, 20, 2)
        sleeves.append((x, y))
    text = art.folds(gown, [[pose.middle("bust", k, -20), pose.middle("waist", k * 1.1, 0), pose.middle("hip", k * 0.95, -12)] for k in (-0.85, -0.5, -0.15, 0.25, 0.6, 0.9)], 8, 0.4, 0.45, 1.6)
    text += art.soft_text(oval(-20, 220, 40, 60), pale, 0.45, 16)
    bodice(art, pose, gown, neckline(pose, 0.66, 9, "boat"), (10, 12, 22, 15), "hip", 2, text, shaped=False, size=11)
    for x, y in sleeves:
        art.add(dots([(x + k * 6 - 17, y + 1 + abs(k - 3) * -1.2) for k in range(7)], 3.6, "#b8c2b0"))
    a, b = pose.point("hip", -1, 16, 2), pose.point("hip", 1, 16, 2)
    art.add(stroke(edge([a, pose.middle("hip", 0, 10), b]), shade(gown), 10, 0.7))
    # The covered cork float, pinned a hand too low.
    x, y = pose.middle("hip", 0.62, 62)
    for ring, colour in ((27, "#93a08c"), (19, "#b8c2b0"), (10, "#e2e8d8")):
        art.form(oval(x, y, ring, ring * 0.94), colour, size=3, line=1)
    art.add(dots([(x + 23 * c, y + 22 * s) for c, s in ((1, 0), (0.7, 0.7), (0, 1), (-0.7, 0.7), (-1, 0), (-0.7, -0.7), (0, -1), (0.7, -0.7))], 3, "#e2e8d8"))
    for k in (-1, 0, 1):
        art.line([(x + k * 6, y + 26), (x + k * 10, y + 54), (x + k * 12, y + 82)], "#b8c2b0", 3, 0.95, "1 5")
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "bob", DARK)
    art.end()
    art.end()


def white_robe(art):
    """Poolside: a collar up behind, deep cuffs, a cord tied once."""
    ground.tiles(art, "#6f8076", 610)
    pose = Pose(COSIMA, arms=((10, -20), (38, -50)), legs=((-2, -1), (9, 5)), sway=9, tilt=5, counter=-4, turn=-0.5, head=(-3, 0, -5))
    stand(art, pose, 752, 722)
    body = pose.body
    stand_collar(art, pose, "white", 2, 34)
    skin(art, pose, "#e0c0a4", feet="bare", hands=("easy", None))
    for side in (-1, 1):
        x, y = pose.legs[side][2]
        art.line([(x - 15, y + 28), (x, y + 22), (x + 15, y + 28)], "#fbfaf5", 6, 1)
        art.line([(x - 20, y + 46), (x, y + 52), (x + 18, y + 46)], "#b58a5c", 5, 1)
    bathing(art, pose, "white", ("scoop", 0.6), (0.4, 0.6), leg="high")
    for side in (-1, 1):
        sleeve(art, pose, side, "white", [8, 12, 14, 12, 16], 0, 0.92)
    coat(art, pose, "white", body["hip_y"] + 196, (-104, 112), (12, 14, 14, 24), neckline(pose, 0.3, 118, "v"), folds=7, gap=(body["hip_y"] - 10, -16, 52), deep=0.9)
    for side in (-1, 1):
        a = pose.shoulder(side, 0.26, 16)
        low = (pose.turn * 6 + side * 4, body["waist_y"] - 4)
        art.form(shape([a, (side * 22, body["bust_y"] - 6), low], [low, (side * 46, body["bust_y"] + 12), (side * 54, body["sh_y"] + 20), pose.shoulder(side, 0.55, 9)], [pose.shoulder(side, 0.55, 9), a]), "white", size=7, deep=0.9)
    cord(art, pose, "waist", 0, 15, 2, "#cfcabd", 6)
    for k in (0, 10):
        art.line([(-24, body["waist_y"] + 6), (-34 - k, body["waist_y"] + 60), (-30 - k, body["waist_y"] + 128 + k)], "#cfcabd", 4.5, 1)
        art.form(tube([(-30 - k, body["waist_y"] + 126 + k), (-30 - k, body["waist_y"] + 148 + k)], [3, 7]), "#e9e5da", size=3)
    sleeve(art, pose, 1, "white", [8, 12, 14, 12, 16], 0, 0.94, merge=True)
    for side, share in ((-1, 0.86), (1, 0.9)):
        x, y = pose.arm_at(side, share)
        a, b = pose.arm_at(side, share - 0.06), pose.arm_at(side, share + 0.05)
        art.form(tube([a, b], [25, 27], False, False), "white", size=6, deep=0.95)
    hand(art, pose.arms[1][2], -46, 1, "#e0c0a4", "hip", 0.9)
    neck_shadow(art, pose)
    head(art, pose, "#e0c0a4")
    hair(art, pose, "waves", "#c9a765")
    art.end()
    art.end()


def record_costume(art):
    ground.sea(art, "#a9a592", "#6f7d74", 300, 630, 31, "#7d8078")
    pose = Pose(COSIMA, arms=((10, 4), (42, -58)), legs=((-1, 0), (9, 6)), sway=10, tilt=6, counter=-5, turn=-0.5, head=(-3, 0, -6))
    stand(art, pose, 754, 716)
    tone = "#dcbca0"
    skin(art, pose, tone, hands=("easy", None))
    white = "#eeece4"
    text = ribs(white, 8, 0.5) + art.soft_text(oval(-40, 300, 34, 90), "#b0b0ac", 0.6, 14) + art.soft_text(oval(46, 250, 24, 80), "#b0b0ac", 0.6, 14)
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
    _gansey(art, pose, "#2b3138", tone)
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
            art.form(loop([(x - 22, y - 30), (x + 8, y - 26), (x + 10, y + 26), (x - 18, y + 30), (x - 27, y)]), patch, size=5)
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.3, 8), (side * 40, body["bust_y"]), (side * 46, body["waist_y"]), (side * 60, body["hip_y"] + 60), (side * 62, low + 8)]
        hem = [(side * 62, low + 8), (side * 96, low + 4), line[0 if side < 0 else -1]]
        outer = [hem[-1], pose.point("hip", side, 34), pose.point("waist", side, 26), pose.point("bust", side, 17), pose.point("sh", side, 10, 34), pose.shoulder(side, 0.94, 8), pose.shoulder(side, 0.6, 8), pose.shoulder(side, 0.3, 8)]
        strokes = [[(side * 80, body["waist_y"]), (side * 92, body["hip_y"] + 40), (side * 98, low - 10)], [(side * 60, body["waist_y"] + 20), (side * 74, body["hip_y"] + 80), (side * 76, low)]]
        art.form(shape(inner, hem, outer), cloth, inside=art.folds(cloth, strokes, 12, 0.7, 0.5, 2), size=13, shine=1.0)
        art.form(shape([pose.shoulder(side, 0.26, 16), (side * 40, body["bust_y"] + 34)], [(side * 40, body["bust_y"] + 34), (side * 78, body["sh_y"] + 52), (side * 64, body["sh_y"] + 34), (side * 76, body["sh_y"] + 18), pose.shoulder(side, 0.5, 11)],
                       [pose.shoulder(side, 0.5, 11), pose.shoulder(side, 0.26, 16)]), cloth, size=6, shine=1.0)
        for row in range(4):
            odd = side > 0 and row in (1, 3)
            buttons(art, [(side * (58 + row * 2.4), body["bust_y"] + 62 + row * 44)], "#a98d5f" if odd else "#5d5142", 6)
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
    d = coat(art, pose, oil, body["hip_y"] + 236, (-146, 142), (18, 24, 32, 38), neckline(pose, 0.26, 18, "v"), folds=9, wave=12, dip=10, shine=0.95, wide=12,
             inside=art.soft_text(oval(-96, 560, 50, 90), dark, 0.55, 20) + art.soft_text(oval(100, 500, 40, 130), dark, 0.6, 20) + art.soft_text(oval(60, 180, 40, 30), dark, 0.35, 14))
    fly = [(14, body["sh_y"] + 8), (20, body["waist_y"]), (26, body["hip_y"] + 80), (30, body["hip_y"] + 240)]
    art.add(stroke(edge(fly), dark, 3, 0.8))
    art.add(stroke(edge([(x - 26, y) for x, y in fly]), dark, 1.6, 0.5))
    for at in range(5):
        y = body["sh_y"] + 26 + at * 62
        x = 12 + at * 2.2
        art.form(tube([(x - 13, y), (x + 11, y + (6 if at == 0 else 0))], [5, 5]), "#d2b45e", size=3)
    for side in (-1, 1):
        art.form(shape([(side * 12 + 3, body["chin"] + 26), pose.shoulder(side, 0.5, 10)], [pose.shoulder(side, 0.5, 10), (side * 50, body["sh_y"] + 30), (side * 14 + 6, body["sh_y"] + 12)], [(side * 14 + 6, body["sh_y"] + 12), (side * 12 + 3, body["chin"] + 26)]), dark, size=5)
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    beard(art, pose, "#5b5148")
    souwester(art, pose, "#b8862f")
    art.end()
    art.end()
    ground.rail(art, 690, "#5b4632")
