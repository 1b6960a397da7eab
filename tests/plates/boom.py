"""Plates of The Boom, Oilskins and Slack Water, 1939 to 1964."""

import ground
from body import LATER, ODILE, SKIN, WOMAN, Pose, between, foot, hair, hand, head, neck_shadow, skin
from brush import INK, dots, edge, fill, light, loop, mix, num, oval, sampled, shade, shape, sliver, stroke, tube
from garments import (bathing, bodice, buttons, cap, coat, cord, fall, hem_line, lapels, neckline, pushed, skirt, sleeve, trousers,
                      watch)
from slip import _gansey
from sound import ribs
from stage import BONE, DARK, GREEN, stand, stand_collar

GREY = "#8d867c"
SALT = "#5b5148"


def watch_uniform(art):
    ground.studio(art, "#b3aa90", 650, 91)
    pose = Pose(ODILE, arms=((11, 4), (11, 4)), legs=((2, 1), (5, 4)), sway=3, tilt=1, counter=-1, turn=0.3, head=(1, 0, 2))
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
    text = art.folds(serge, [[(-60, 240), (-40, 270), (-50, 318)], [(60, 240), (44, 270), (50, 318)], [(-20, 280), (-14, 300), (-20, 322)], [(24, 280), (20, 300), (24, 322)]], 9, 0.7, 0.5)
    bodice(art, pose, serge, neckline(pose, 0.34, 34, "v"), (10, 14, 26, 10), "waist", 26, text, shaped=False, size=12, shine=0.9)
    a, b = pose.point("waist", -1, 17, 30), pose.point("waist", 1, 17, 30)
    d = tube([a, pose.middle("waist", 0, 38), b], [13, 13, 13])
    art.form(d, serge, size=5, shine=0.9)
    x, y = b[0] - 22, b[1] + 4
    art.form(shape([(x - 12, y - 5), (x + 12, y - 7)], [(x + 12, y - 7), (x + 12, y + 6)], [(x + 12, y + 6), (x - 12, y + 7)]), "#8a8270", size=3)
    art.add(stroke(edge([(pose.turn * 6 + 3, body["sh_y"] + 26), (4, 240), (4, 316)]), shade(serge), 4, 0.9))
    for side in (-1, 1):
        x, y = pose.middle("bust", side * 0.5, 6)
        art.form(shape([(x - 22, y - 6), (x + 22, y - 6)], [(x + 22, y - 6), (x + 23, y + 40)], [(x + 23, y + 40), (x - 23, y + 40)], [(x - 23, y + 40), (x - 22, y - 6)]), serge, size=5, shine=0.9)
        art.form(shape([(x - 24, y - 8), (x + 24, y - 8)], [(x + 24, y - 8), (x + 23, y + 8)], [(x + 23, y + 8), (x, y + 15), (x - 23, y + 8)]), serge, size=3, shine=0.9)
        buttons(art, [(x, y + 9)], "#8a8270", 3.4)
    # The shirt's collar open, the tie two fingers down, the blouse's collar hooked open.
    art.form(shape([(-18, body["neck"] - 6), (22, body["neck"] - 6)], [(22, body["neck"] - 6), (4, body["sh_y"] + 34)], [(4, body["sh_y"] + 34), (-18, body["neck"] - 6)]), shirt, size=4)
    art.form(shape([(-4, body["sh_y"] + 6), (9, body["sh_y"] + 6)], [(9, body["sh_y"] + 6), (12, body["sh_y"] + 48)], [(12, body["sh_y"] + 48), (-6, body["sh_y"] + 48)]), "black", size=3)
    art.form(oval(3, body["sh_y"] + 4, 9, 8), "black", size=3)
    for side in (-1, 1):
        art.form(shape([(side * 17 + 2, body["neck"] - 10), (side * 5 + 3, body["sh_y"] + 2)], [(side * 5 + 3, body["sh_y"] + 2), (side * 27 + 2, body["sh_y"] + 10)], [(side * 27 + 2, body["sh_y"] + 10), (side * 24, body["neck"] - 4)]), shirt, size=3)
        art.form(shape([pose.shoulder(side, 0.27, 9), (side * 28, body["sh_y"] + 12), (side * 12 + 3, body["sh_y"] + 46)], [(side * 12 + 3, body["sh_y"] + 46), (side * 50, body["sh_y"] + 26)], [(side * 50, body["sh_y"] + 26), pose.shoulder(side, 0.52, 8)]), serge, size=4, shine=0.9)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "swept", DARK)
    w = body["head"]
    steel = "#3c3f3a"
    for side in (-1, 1):
        art.line([(side * w * 0.95, 44), (side * w * 0.8 + 2, 86), (4, 106)], "#4a4334", 4.5, 1)
    art.form(shape([(-w * 1.62, 36), (-w * 1.1, 10), (-w * 0.7, -16), (0, -24), (w * 0.7, -16), (w * 1.1, 10), (w * 1.62, 36)], [(w * 1.62, 36), (w * 0.8, 44), (2, 46), (-w * 0.8, 44), (-w * 1.62, 36)]), steel, size=9, shine=0.9)
    art.add(f'<g transform="translate(-17 6)">{stroke("M0 0V18M0 9H11M11 0V18M18 0L22 18L27 6L31 18L35 0", "#f1efe6", 3.4, 0.95)}</g>')
    art.end()
    art.end()


def boom_dungarees(art):
    ground.studio(art, "#c0b7a2", 640, 95)
    ground.net(art, -30, -10, 260, 660, "#4a4034", 0.5, 44)
    ground.net(art, 400, -10, 240, 660, "#4a4034", 0.4, 44)
    pose = Pose(ODILE, arms=((38, -48), (14, 0)), legs=((1, 0), (10, 6)), sway=8, tilt=5, counter=-4, turn=-0.8, head=(-5, 0, -10))
    stand(art, pose, 752, 706)
    drill, rust = "#3d4652", "#9a6a3a"
    body = pose.body
    skin(art, pose, feet="none", hands=(None, None))
    for side in (-1, 1):
        foot(art, pose, side, "#2a231d", "boot")
    striped = "".join(stroke(edge([(x, 80), (x * 1.05, 260), (x, 520)]), "#5f5a52", 3.2, 0.75) for x in range(-150, 160, 11))
    for side in (1, -1):
        sleeve(art, pose, side, "#b7ac98", 8, 0, 0.5, inside=striped)
        pushed(art, pose, side, "#b7ac98", 0.5, 20, 2)
    bodice(art, pose, "#b7ac98", neckline(pose, 0.26, 16), (8, 8, 12, 8), "waist", 10, striped, shaped=True)
    art.form(tube([(-20, body["neck"] - 4), (pose.turn * 4, body["sh_y"] - 6), (20, body["neck"] - 4)], [4, 5, 4]), "#b7ac98", size=2)
    trousers(art, pose, drill, (14, 17, 21, 20, 22, 24), 0.97, top=-6, inside="".join(art.soft_text(oval(x, y, w, h), rust, 0.62, 8) for x, y, w, h in ((-52, body["hip_y"] + 70, 22, 34), (66, body["hip_y"] + 64, 22, 30), (-14, body["hip_y"] + 110, 14, 24))))
    for side in (-1, 1):
        x, y = pose.legs[side][1]
        art.form(shape([(x - 33, y - 40), (x + 33, y - 38)], [(x + 33, y - 38), (x + 30, y + 40)], [(x + 30, y + 40), (x - 31, y + 38)]), "#8d8673", size=5, deep=0.7)
        zig = "M" + "L".join(f"{x - 30 + k * 6:.0f} {y - 36 + (6 if k % 2 else 0):.0f}" for k in range(11))
        art.add(stroke(zig, "#a2342a", 2, 0.95))
    a, b = pose.point("waist", -1, 12, -4), pose.point("waist", 1, 12, -4)
    bib_top = body["bust_y"] - 16
    bib = shape([a, (-62, body["waist_y"] - 30), (-44, bib_top)], [(-44, bib_top), (pose.turn * 6, bib_top + 5), (44, bib_top)], [(44, bib_top), (62, body["waist_y"] - 30), b], [b, pose.middle("waist", 0, 8), a])
    art.form(bib, drill, inside=art.folds(drill, [[(-30, 230), (-20, 260), (-26, 284)], [(34, 230), (20, 258), (24, 284)]], 8) + stroke(f"M-40 {bib_top + 12}H40", light(drill), 1.6, 0.8, "5 4"), size=8)
    art.form(shape([(2, bib_top + 22), (34, bib_top + 22)], [(34, bib_top + 22), (33, bib_top + 58)], [(33, bib_top + 58), (4, bib_top + 58)]), drill, size=3)
    art.line([(14, bib_top + 14), (14, bib_top + 40)], "#c9a878", 4, 1)
    # The right strap holds; the left is unbuttoned for the shoulder that was hurt, and hangs.
    p = pose.shoulder(-1, 0.5, 8)
    art.form(tube([(p[0], p[1] - 2), (-46, body["sh_y"] + 30), (-36, bib_top + 8)], [9, 9, 8]), drill, size=4)
    buttons(art, [(-36, bib_top + 9), (36, bib_top + 9)], "#b5a06a", 5)
    art.form(tube([pose.point("waist", 1, 8, -20), (92, body["waist_y"] + 30), (84, body["waist_y"] + 96)], [8, 9, 7]), drill, size=4)
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
    d = shape([(-w * 1.04, 52), (-w * 1.14, 26), (-w * 0.8, -8), (0, -16), (w * 0.84, -8), (w * 1.14, 26), (w * 1.04, 52)], [(w * 1.04, 52), (w * 0.7, 36), (turn, 26), (-w * 0.7, 36), (-w * 1.04, 52)])
    strokes = [[(-w, 44), (-w * 0.6, 8), (turn - 2, -6)], [(w, 44), (w * 0.6, 8), (turn + 4, -6)], [(-w * 0.9, 48), (-w * 0.4, 22), (turn - 4, 6)], [(w * 0.9, 48), (w * 0.5, 22), (turn + 6, 6)]]
    art.form(d, cloth, inside=art.folds(cloth, strokes, 7, 0.8, 0.5), size=7, shine=0.9)
    art.form(loop([(turn - 18, -2), (turn - 6, -26), (turn + 10, -28), (turn + 20, -6), (turn + 10, 12), (turn - 10, 13)]), cloth, size=5, shine=0.9, inside=art.folds(cloth, [[(turn - 14, 4), (turn, -10), (turn + 14, -16)]], 6, 0.8))
    art.end()
    art.end()


def _ochre(art, pose, near=False):
    """Ivo's coat on her: it sweeps the boots."""
    oil, dark = "#b8862f", "#6e4f1f"
    body = pose.body
    skin(art, pose, feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "black", "boot")
        joint, knee, ankle = pose.legs[side]
        art.form(tube([between(knee, ankle, 0.1), between(knee, ankle, 0.6), (ankle[0], ankle[1] + 6)], [31, 25, 22]), "black", size=7, shine=0.9)
        x, y = between(knee, ankle, 0.16)
        art.form(tube([(x - 31, y), (x, y + 6), (x + 31, y)], [10, 11, 10]), "#efece2", size=4)
        foot(art, pose, side, "black", "boot")
    trousers(art, pose, "#23283a", (8, 10, 12, 10, 8, 6), 0.62)
    _gansey(art, pose, "#2b3138", SKIN)
    cord(art, pose, "waist", 42, 13, 3, "#2c241c", 6)
    if not near:
        x, y = pose.middle("waist", -0.35, 66)
        art.line([(x, y - 12), (x - 2, y + 2), (x - 2, y + 12)], "#2c241c", 3, 1)
        watch(art, x - 2, y + 24, 12)
    x, y = pose.middle("waist", 0.28, 66)
    art.line([(x, y - 10), (x + 1, y + 6)], "#2c241c", 2.4, 1)
    art.form(tube([(x - 6, y + 12), (x + 9, y + 11)], [4.5, 6]), "silver", size=2)
    low = body["hip_y"] + 286
    line = hem_line(-150, 156, low, 12, 5, 12)
    for side in (-1, 1):
        sleeve(art, pose, side, oil, [12, 17, 20, 18, 20], 0, 0.9, shine=0.9)
        a, b = pose.arm_at(side, 0.76), pose.arm_at(side, 0.9)
        art.form(tube([a, between(a, b, 0.5), b], [33, 34, 34], False, False), mix(oil, dark, 0.35), size=7)
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.3, 9), (side * 34, body["sh_y"] + 36), (side * 44, body["waist_y"]), (side * 56, body["hip_y"] + 90), (side * 64, low + 10)]
        hem = [(side * 64, low + 10)] + ([p for p in line if p[0] < -80][::-1] if side < 0 else [p for p in line if p[0] > 80])
        outer = [hem[-1], pose.point("hip", side, 58), pose.point("waist", side, 42), pose.point("bust", side, 26), pose.point("sh", side, 14, 36), pose.shoulder(side, 0.94, 10), pose.shoulder(side, 0.6, 10), pose.shoulder(side, 0.3, 9)]
        strokes = [[(side * 76, body["bust_y"] + 20), (side * 96, body["hip_y"]), (side * 112, low - 8)], [(side * 58, body["waist_y"]), (side * 78, body["hip_y"] + 100), (side * 88, low)],
                   [(side * 92, body["waist_y"] + 20), (side * 112, body["hip_y"] + 90), (side * 134, low - 10)]]
        text = art.folds(oil, strokes, 13, 0.55, 0.5, 2)
        text += art.soft_text(oval(side * 92, low - 50, 50, 70), dark, 0.6, 22) + art.soft_text(oval(side * 76, body["sh_y"] + 14, 36, 20), dark, 0.5, 12)
        art.form(shape(inner, hem, outer), oil, inside=text, size=15, shine=0.95)
        if side > 0:
            fly = [(x + side * 2, y) for x, y in inner]
            art.form(shape(fly, [(fly[-1][0] - 26, fly[-1][1]), (fly[-2][0] - 26, fly[-2][1]), (fly[-3][0] - 24, fly[-3][1]), (fly[-4][0] - 20, fly[-4][1] + 10)], [(fly[-4][0] - 20, fly[-4][1] + 10), fly[0]]), mix(oil, dark, 0.18), size=5)
        for at in range(5):
            y = body["sh_y"] + 58 + at * 62
            x = side * (38 + (y - 180) * 0.055)
            art.form(tube([(x - side * 2, y), (x + side * 20, y - 2)], [5.4, 4.6]), "#d8bd6a", size=3)
        cord_d = shape([pose.shoulder(side, 0.24, 17), (side * 22, body["sh_y"] + 16), (side * 32, body["sh_y"] + 44)], [(side * 32, body["sh_y"] + 44), (side * 60, body["sh_y"] + 30), pose.shoulder(side, 0.6, 11)], [pose.shoulder(side, 0.6, 11), pose.shoulder(side, 0.24, 17)])
        art.form(cord_d, dark, inside="".join(stroke(f"M{k} 80V230", light(dark), 1.3, 0.5) for k in range(-90, 92, 6)), size=5)


def ochre_spring(art):
    ground.sea(art, "#d6d3c4", "#9fa99f", 330, 660, 101, "#94978c")
    pose = Pose(LATER, arms=((16, 4), (22, -2)), legs=((1, 0), (8, 5)), sway=7, tilt=4, counter=-3, turn=0.6, head=(3, 0, 6))
    stand(art, pose, 756, 708)
    _ochre(art, pose)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
    art.end()
    art.end()


def ochre_near(art):
    """Nearer, with the watch in her hand: the clips, the cuffs, the cord."""
    ground.studio(art, "#8f958b", 900, 103)
    pose = Pose(LATER, arms=((22, -28), (24, -70)), legs=((1, 0), (8, 5)), sway=5, tilt=3, counter=-5, turn=-0.6, head=(-4, 2, -12), reach=((1, 1), (1, 0.82)))
    stand(art, pose, 1180, 1130, 300)
    _ochre(art, pose, True)
    _, elbow, wrist = pose.arms[1]
    a, b = pose.arm_at(1, 0.72), pose.arm_at(1, 0.88)
    sleeve(art, pose, 1, "#b8862f", [10, 15, 17, 16, 14], 0, 0.9, shine=0.9, merge=True)
    art.form(tube([pose.arm_at(1, 0.85), wrist], [11, 10]), SKIN, size=4)
    art.form(tube([a, between(a, b, 0.5), b], [33, 34, 34], False, False), mix("#b8862f", "#6e4f1f", 0.35), size=7)
    hand(art, wrist, -86, 1, SKIN, "fist", 1.1)
    watch(art, wrist[0] - 26, wrist[1] - 14, 19)
    art.line([(wrist[0] - 30, wrist[1] + 6), (wrist[0] - 20, wrist[1] + 70), (10, pose.body["waist_y"] + 60)], "#2c241c", 3.4, 1)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
    art.end()
    art.end()


def baths_whistle(art):
    """The duffel on the shoulders like a cape, its sleeves empty."""
    ground.tiles(art, "#a9b3a2", 620)
    pose = Pose(LATER, arms=((9, -14), (9, -12)), legs=((1, 0), (8, 5)), sway=7, tilt=4, counter=-3, turn=-0.4, head=(-2, 0, -4))
    stand(art, pose, 754, 706)
    duffel, horn = "#a3916c", "#4a3a28"
    body = pose.body
    skin(art, pose, feet="none", hands=("easy", "easy"))
    low = body["hip_y"] + 150
    back = shape([(-140, low - 6), (-100, body["bust_y"]), (0, body["neck"])], [(0, body["neck"]), (100, body["bust_y"]), (142, low - 6)], [(142, low - 6), (0, low + 12), (-140, low - 6)])
    art.form(back, shade(duffel), size=10)
    skin(art, pose, feet="none", hands=("easy", "easy"))
    for side in (-1, 1):
        foot(art, pose, side, "#8a6b45", "shoe", sole="#5e4528")
        x, y = pose.legs[side][2]
        art.add(stroke(edge([(x - 17, y + 26), (x, y + 18), (x + 15, y + 25)]), "#4a3a28", 8, 1))
    trousers(art, pose, "#3c3a38", (9, 12, 16, 14, 17, 19), 0.96, crease=True, inside="".join(art.soft_text(oval(pose.legs[s][2][0], pose.legs[s][2][1] - 60, 16, 40), "#8d877c", 0.55, 10) for s in (-1, 1)))
    for side in (-1, 1):
        sleeve(art, pose, side, BONE, [6, 8, 9, 6, 6], 0, 0.5)
        pushed(art, pose, side, BONE, 0.5, 20, 2)
    bodice(art, pose, BONE, neckline(pose, 0.3, 36, "v"), (6, 7, 10, 8), "waist", 26, art.folds(BONE, [[(-50, 240), (-30, 270), (-34, 306)], [(50, 240), (34, 270), (36, 306)]], 7, 0.4) + stroke(edge([(pose.turn * 6, 178), (0, 250), (4, 320)]), shade(BONE), 1.8, 0.8))
    buttons(art, [(pose.turn * 5 + k, 196 + k * 30) for k in range(4)], "#d0c6ae", 3.6)
    for side in (-1, 1):
        x, y = pose.middle("bust", side * 0.48, -2)
        art.form(shape([(x - 19, y - 6), (x + 19, y - 6)], [(x + 19, y - 6), (x + 18, y + 34)], [(x + 18, y + 34), (x, y + 39), (x - 18, y + 34)]), BONE, size=3, deep=0.6)
        art.form(shape([(side * 17 + 2, body["neck"] - 8), (pose.turn * 6 + side * 3, body["sh_y"] + 28)], [(pose.turn * 6 + side * 3, body["sh_y"] + 28), (side * 36, body["sh_y"] + 18)], [(side * 36, body["sh_y"] + 18), (side * 27, body["neck"])]), BONE, size=4)
    a, b = pose.point("waist", -1, 11, 22), pose.point("waist", 1, 11, 22)
    art.add(stroke(edge([a, pose.middle("waist", 0, 30), b]), "#2a2723", 9, 1))
    art.line([(-14, body["sh_y"]), (-6, body["bust_y"] + 20), (2, body["bust_y"] + 48), (12, body["bust_y"] + 20), (20, body["sh_y"])], "#2c241c", 2.6, 1)
    art.form(tube([(-6, body["bust_y"] + 54), (12, body["bust_y"] + 53)], [5, 7.5]), "silver", size=3)
    line = hem_line(-152, 156, low, 6, 4, 8)
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.32, 10), (side * 52, body["bust_y"] - 6), (side * 62, body["waist_y"]), (side * 74, body["hip_y"] + 40), (side * 80, low + 6)]
        hem = [(side * 80, low + 6), (side * 116, low + 8), (side * 152, low - 4)]
        outer = [hem[-1], (side * 140, body["hip_y"]), (side * 124, body["waist_y"] - 10), pose.point("sh", side, 22, 40), pose.shoulder(side, 0.94, 14), pose.shoulder(side, 0.6, 13), pose.shoulder(side, 0.32, 10)]
        art.form(shape(inner, hem, outer), duffel, inside=art.folds(duffel, [[(side * 84, body["bust_y"]), (side * 100, body["hip_y"]), (side * 104, low - 6)], [(side * 112, body["waist_y"]), (side * 124, body["hip_y"] + 40), (side * 132, low - 10)]], 12), size=13)
        # An empty sleeve hanging outside.
        arm = [pose.point("sh", side, 14, 34), (side * 138, body["waist_y"]), (side * 142, body["hip_y"] + 60)]
        art.form(tube(arm, [24, 25, 23], True, False), duffel, size=9, inside=art.folds(duffel, [[(side * 120, 220), (side * 138, 270), (side * 130, 330)], [(side * 150, 300), (side * 134, 350), (side * 146, 400)]], 8))
        art.form(oval(side * 142, body["hip_y"] + 60, 23, 7), shade(duffel), size=3)
        for row in range(3):
            x, y = side * (60 + row * 5), body["bust_y"] + 22 + row * 66
            if side > 0:
                art.form(tube([(x - 4, y - 12), (x + 4, y + 12)], [5, 5]), "#8f6f45" if row == 1 else horn, size=3)
                art.line([(x, y), (x + 12, y - 4), (x + 26, y)], "#d8cba8", 3.4, 1)
            else:
                art.add(stroke(edge([(x, y - 4), (x + 16, y - 7), (x + 18, y + 5), (x, y + 4)]), "#d8cba8", 3.4, 1))
        art.form(shape([pose.shoulder(side, 0.24, 20), (side * 34, body["sh_y"] + 16), (side * 48, body["sh_y"] + 40)], [(side * 48, body["sh_y"] + 40), (side * 74, body["sh_y"] + 20), pose.shoulder(side, 0.66, 16)], [pose.shoulder(side, 0.66, 16), pose.shoulder(side, 0.24, 20)]), duffel, size=6)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", SALT)
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
    pose = Pose(WOMAN, arms=((38, -50), (14, 2)), legs=((-1, 0), (7, 4)), sway=6, tilt=4, counter=-3, turn=0.4, head=(2, 0, 4))
    stand(art, pose, 740, 690)
    body = pose.body
    skin(art, pose, tone, feet="none", hands=(None, "easy"))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#b89a7c", size=6)
        foot(art, pose, side, "#2f2723", "heel")
    d, line = skirt(art, pose, "#4a2e36", ("waist", 4, 3), body["hip_y"] + 240, (-176, 182), 20, 6, 12, hips=34, dip=16, wide=12, shine=0.75)
    art.add(stroke(edge([(x, y + 5) for x, y in line[:5]]), "#e9e0c8", 3, 0.9))
    blouse = BONE
    sleeve(art, pose, -1, blouse, [7, 11, 14, 12, 9], 0, 0.9)
    sleeve(art, pose, 1, blouse, [7, 11, 14, 12, 9], 0, 0.9)
    pushed(art, pose, 1, blouse, 0.9, 15, 2)
    bodice(art, pose, blouse, neckline(pose, 0.26, 12), (6, 6, 5, 5), "waist", 0, shaped=True)
    felt = "#5f6b4a"
    for side in (-1, 1):
        x = pose.turn * 6
        inner = [pose.shoulder(side, 0.42, 6), (side * 30 + x, body["bust_y"] - 20), (x + side * 4, body["waist_y"] - 40), (x + side * 3, body["waist_y"] + 4), (x + side * 18, body["waist_y"] + 30)]
        outer = [pose.point("waist", side, 8, 20), pose.point("waist", side, 7, -6), pose.point("bust", side, 7, 0), pose.point("bust", side, -4, -30), pose.shoulder(side, 0.72, 7)]
        art.form(shape(inner, [inner[-1], outer[0]], outer, [outer[-1], inner[0]]), felt, size=8, inside=art.soft_text(sliver(sampled([(side * 40, 210), (side * 30, 250), (side * 34, 284)]), 8), shade(felt), 0.5, 2))
        art.add(stroke(edge(inner), "#c9b48a", 3, 0.95))
        art.add(stroke(edge(outer), "#c9b48a", 3, 0.95))
        art.form(shape([(x * 0.4 + side * 16, body["neck"] - 8), (x + side * 3, body["sh_y"] + 6), (side * 24 + x, body["sh_y"] + 22)], [(side * 24 + x, body["sh_y"] + 22), (side * 42, body["sh_y"] + 4), (side * 30, body["neck"] + 2)]), blouse, size=4)
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


def freedom_gown(art):
    """The portrait in oils: sleeves thrown back, under protest."""
    ground.hall(art, "#6c6248", "#40382b", False, 700)
    pose = Pose(LATER, arms=((16, -20), (34, -46)), legs=((0, 0), (6, 4)), sway=6, tilt=3, counter=-4, turn=0.5, head=(3, 0, 5))
    stand(art, pose, 764, 700)
    crimson, ochre, dark_suit = "#5c1f2a", "#b8862f", "#2b2b2e"
    body = pose.body
    low = body["hip_y"] + 300
    skin(art, pose, feet="none", hands=("easy", None))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#a98a70", size=6)
        foot(art, pose, side, "black", "heel")
    line = hem_line(-172, 178, low, 10, 5, 12)
    back = shape([(-90, body["sh_y"] + 30), (-120, body["hip_y"]), line[0]], line, [line[-1], (124, body["hip_y"]), (90, body["sh_y"] + 30)])
    art.form(back, mix(crimson, "#1a0a0d", 0.45), size=12)
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#a98a70", size=6)
        foot(art, pose, side, "black", "heel")
    for side in (-1, 1):
        sleeve(art, pose, side, dark_suit, [7, 9, 10, 7, 5], 0, 0.82, shine=0.9)
    skirt(art, pose, dark_suit, ("waist", 0, 6), body["hip_y"] + 158, (-84, 96), 2, 3, 3, hips=10, shine=0.9)
    bodice(art, pose, dark_suit, neckline(pose, 0.34, 22), (7, 8, 12, 10), "hip", -20, stroke(edge([(pose.turn * 6, 165), (4, 260), (6, 380)]), "#0f0f11", 2.4, 1), shaped=True, shine=0.9)
    buttons(art, [(pose.turn * 6 + k, 200 + k * 40) for k in range(4)], "#4a4a4e", 5)
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.34, 8), (side * 46, body["bust_y"]), (side * 58, body["waist_y"]), (side * 70, body["hip_y"] + 80), (side * 82, low + 6)]
        hem = [(side * 82, low + 6), (side * 126, low + 10), (side * 176, low - 4)]
        outer = [hem[-1], (side * 128, body["hip_y"]), pose.point("waist", side, 40), pose.point("bust", side, 26), pose.point("sh", side, 14, 36), pose.shoulder(side, 0.94, 11), pose.shoulder(side, 0.34, 8)]
        strokes = [[(side * 84, body["bust_y"]), (side * 104, body["hip_y"]), (side * 118, low)], [(side * 110, body["waist_y"] + 30), (side * 132, body["hip_y"] + 90), (side * 152, low - 8)]]
        art.form(shape(inner, hem, outer), crimson, inside=art.folds(crimson, strokes, 14, 0.7, 0.4, 2), size=14)
        facing = inner + [(side * 108, low + 8), (side * 96, body["hip_y"] + 80), (side * 80, body["waist_y"]), (side * 68, body["bust_y"]), pose.shoulder(side, 0.56, 10)]
        art.form(shape(inner, facing[5:]), ochre, size=6, shine=0.9)
        # The fur-cloth edge and the bell sleeve thrown back over the shoulder.
        art.add(stroke(edge([(x - side * 3, y) for x, y in inner]), "#efe6d2", 9, 0.95))
        art.add(stroke(edge(hem), "#efe6d2", 10, 0.95))
        for k, (x, y) in enumerate(sampled(inner, 4)[2:]):
            if k % 3 == 0:
                art.add(fill(oval(x - side * 3, y, 1.6, 3.4), "#2b2320", 0.9))
        bell = [pose.shoulder(side, 0.6, 16), (side * 112, body["sh_y"] + 4), (side * 152, body["bust_y"] + 30), (side * 168, body["hip_y"] + 40), (side * 130, body["hip_y"] + 70), (side * 112, body["bust_y"] + 60), pose.point("sh", side, 4, 50)]
        art.form(loop(bell), crimson, size=10, inside=art.folds(crimson, [[(side * 96, body["sh_y"] + 20), (side * 126, body["bust_y"] + 60), (side * 138, body["hip_y"] + 50)]], 12) + stroke(edge([(side * 168, body["hip_y"] + 30), (side * 150, body["hip_y"] + 66), (side * 126, body["hip_y"] + 60)]), "#efe6d2", 11, 0.95))
    sleeve(art, pose, 1, dark_suit, [7, 9, 10, 7, 5], 0, 0.82, shine=0.9, merge=True)
    _, _, wrist = pose.arms[1]
    art.form(tube([pose.arm_at(1, 0.8), wrist], [12, 10]), SKIN, size=4)
    hand(art, wrist, -50, 1, SKIN, "fist", 0.95)
    art.form(tube([(wrist[0] - 34, wrist[1] + 40), (wrist[0] - 8, wrist[1] - 2), (wrist[0] + 4, wrist[1] - 28)], [11, 12, 11]), "#efe3c4", size=5)
    art.add(stroke(edge([(wrist[0] - 18, wrist[1] + 8), (wrist[0] - 10, wrist[1] + 14), (wrist[0] + 2, wrist[1] + 14)]), "#8c2f2f", 5, 1))
    sleeve_x, sleeve_y = pose.arms[-1][2]
    art.form(tube([pose.arm_at(-1, 0.8), (sleeve_x, sleeve_y)], [12, 10]), SKIN, size=4)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "cropped", GREY)
    w = body["head"]
    art.form(loop([(-w * 1.1, 22), (-w * 1.6, 6), (-w * 1.5, -14), (-w * 0.6, -30), (w * 0.4, -30), (w * 1.4, -16), (w * 1.6, 4), (w * 1.1, 22), (0, 26)]), "black", size=8, shine=0.95, inside=art.folds("black", [[(-w, 14), (-w * 0.4, -10), (0, -26)], [(w, 14), (w * 0.6, -8), (w * 0.2, -26)]], 7, 0.8, 0.7))
    art.end()
    art.end()


def boucle_suit(art):
    """A frame of the telerecording."""
    ground.studio(art, "#b1aca0", 660, 113)
    pose = Pose(LATER, arms=((12, -4), (14, -30)), legs=((0, 0), (6, 3)), sway=6, tilt=4, counter=-3, turn=-0.5, head=(-3, 0, -6))
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
    skirt(art, pose, black, ("waist", 0, 6), body["hip_y"] + 168, (-88, 104), 3, 3, 4, hips=12, inside=loops + stroke(edge([(14, 300), (20, 420), (16, 560)]), "#0c0c0d", 5, 0.8), shine=0.9)
    bodice(art, pose, bone, neckline(pose, 0.36, 12), (5, 6, 8, 6), "waist", 8)
    for side in (-1, 1):
        sleeve(art, pose, side, black, [9, 12, 13, 11, 11], 0, 0.66, inside=loops, shine=0.9)
        pushed(art, pose, side, black, 0.66, 22, 1)
        x, y = pose.arm_at(side, 0.69)
        art.form(tube([(x - 22, y + 2), (x, y + 7), (x + 22, y + 2)], [5, 6, 5]), bone, size=3)
    low = body["hip_y"] - 20
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.4, 7), (side * 34, body["bust_y"] - 20), (side * 24 + 2, body["waist_y"] - 10), (side * 22 + 4, low + 8)]
        hem = [(side * 22 + 4, low + 8), (side * 56, low + 6), pose.point("hip", side, 17, -22)]
        outer = [hem[-1], pose.point("waist", side, 16), pose.point("bust", side, 11), pose.point("sh", side, 7, 34), pose.shoulder(side, 0.94, 7), pose.shoulder(side, 0.4, 7)]
        art.form(shape(inner, hem, outer), black, inside=loops + art.folds(black, [[(side * 58, 210), (side * 50, 270), (side * 56, 350)]], 10, 0.7, 0.5), size=10, shine=0.9)
        for line, move in ((inner, (side * 5, 0)), (hem, (0, -5))):
            moved = [(x + move[0], y + move[1]) for x, y in line]
            art.add(stroke(edge(moved), shade(bone), 10, 1) + stroke(edge(moved), bone, 7.5, 1) + stroke(edge(moved), shade(bone), 1, 0.7, "2 3"))
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
    pose = Pose(dict(LATER, waist=62), arms=((18, 6), (16, 4)), legs=((0, 0), (7, 4)), sway=7, tilt=4, counter=-3, turn=-0.6, head=(-4, 0, -8))
    stand(art, pose, 754, 700)
    robe, stripe, patch = "#8a8577", "#5c2323", "#a9a79b"
    body = pose.body
    low = body["hip_y"] + 250
    line = hem_line(-140, 146, low, 10, 4, 10)
    back = shape([(-96, body["sh_y"] + 20), (-116, body["hip_y"]), line[0]], line, [line[-1], (118, body["hip_y"]), (96, body["sh_y"] + 20)], [(96, body["sh_y"] + 20), (0, body["sh_y"] - 24), (-96, body["sh_y"] + 20)])
    art.form(back, shade(robe), size=10, inside=stroke(edge([(x, y - 30) for x, y in line]), mix(stripe, "#000000", 0.4), 28, 1))
    skin(art, pose, "#d6b394", hands=("easy", "easy"))
    for side in (-1, 1):
        art.form(pose.leg(side, [3, 3, 6, 4, 4, 4], 0.06), "black", size=6)
    bathing(art, pose, "black", ("scoop", 0.56), (0.38, 0.58), leg=0.07, shine=0.9)
    x, y = pose.shoulder(1, 0.48, 2)
    art.line([(x, y + 16), (x + 7, y + 30), (x + 4, y + 44)], "#efe9da", 1.8, 1)
    for side in (-1, 1):
        inner = [pose.shoulder(side, 0.42, 9), (side * 62, body["bust_y"] - 6), (side * 76, body["waist_y"]), (side * 82, body["hip_y"] + 40), (side * 78, low + 6)]
        hem = [(side * 78, low + 6), (side * 110, low + 8), (side * 143, low - 4)]
        outer = [hem[-1], (side * 132, body["hip_y"]), (side * 118, body["waist_y"] - 10), pose.point("sh", side, 20, 40), pose.shoulder(side, 0.94, 12), pose.shoulder(side, 0.42, 9)]
        text = art.folds(robe, [[(side * 90, body["bust_y"]), (side * 104, body["hip_y"]), (side * 100, low - 6)], [(side * 112, body["waist_y"]), (side * 122, body["hip_y"] + 60), (side * 128, low - 10)]], 12)
        text += stroke(edge([(x, y - 32) for x, y in hem]), stripe, 32, 0.97)
        art.form(shape(inner, hem, outer), robe, inside=text, size=13)
        arm = [pose.point("sh", side, 14, 34), (side * 134, body["waist_y"] + 4), (side * 138, body["hip_y"] + 40)]
        art.form(tube(arm, [25, 29, 30], True, False), patch, size=9, inside=art.folds(patch, [[(side * 116, 220), (side * 138, 270), (side * 128, 330)], [(side * 150, 290), (side * 132, 340), (side * 146, 390)]], 9))
        art.form(oval(side * 138, body["hip_y"] + 40, 30, 8), shade(patch), size=3)
    neck_shadow(art, pose)
    head(art, pose, "#d6b394", ears=False)
    cap(art, pose, GREEN, 34)
    art.end()
    art.end()
