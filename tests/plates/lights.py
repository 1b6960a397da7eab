"""Plates of The Lights, 1930 to 1938: everyone dresses her."""

import random

import ground
from body import COSIMA, ODILE, SKIN, WOMAN, Pose, between, foot, hair, hand, head, neck_shadow, skin
from brush import INK, dots, edge, fill, light, loop, mix, num, oval, sampled, shade, shape, sliver, stroke, tube
from garments import (band, bathing, bodice, buttons, cap, cloche, coat, fall, goggles, hem_line, neckline, pushed, skirt, sleeve,
                      trousers)
from sound import ribs
from stage import BONE, DARK, GREEN, stand, stand_collar


def _fur(d_points, colour, seed, wide):
    """Fur along a line: a soft body and many short hairs."""
    chance = random.Random(seed)
    text = ""
    line = sampled(d_points, 14)
    for x, y in line:
        for _ in range(16):
            a, b = x + chance.uniform(-wide, wide), y + chance.uniform(-wide, wide)
            text += stroke(f"M{num(a)} {num(b)}l{num(chance.uniform(-4, 3))} {num(chance.uniform(5, 11))}", chance.choice([shade(colour), light(colour), mix(colour, shade(colour), 0.4)]),
                           1.5, 0.6)
    return text


def _newsreel_coat(art, pose, near=False):
    coat_colour, coney = "#4d3a2c", "#c8a97a"
    body = pose.body
    stand_collar(art, pose, coney, 8, 52)
    skin(art, pose, feet="none", hands=("easy", None))
    for side in (1, -1):
        art.form(pose.leg(side, 1), "#bb9878", size=6)
        foot(art, pose, side, "#3a2a20", "heel")
        x, y = pose.legs[side][2]
        for bar in (8, 18):
            art.line([(x - 12, y + bar), (x, y + bar + 4), (x + 12, y + bar)], "#3a2a20", 4, 1)
        art.soft(oval(x, y + 42, 18, 7), "#191310", 0.6, 2)
    # A cocoon: wide at the hip, narrow at the hem, lapped to the left and held shut by one fist.
    low = body["hip_y"] + 168
    line = hem_line(-70, 76, low, 5, 3, 12)
    left = [pose.shoulder(-1, 0.4, 8), pose.shoulder(-1, 0.94, 10), pose.point("bust", -1, 26), pose.point("waist", -1, 58), pose.point("hip", -1, 52), line[0]]
    right = [line[-1], pose.point("hip", 1, 54), pose.point("waist", 1, 60), pose.point("bust", 1, 26), pose.shoulder(1, 0.94, 10), pose.shoulder(1, 0.4, 8)]
    fx, fy = 44, body["hip_y"] - 44
    text = art.folds(coat_colour, [[(fx, fy), (10, fy - 60), (-64, body["bust_y"] + 10)], [(fx, fy), (-10, fy - 14), (-88, fy - 50)], [(fx, fy + 4), (-16, fy + 36), (-94, fy + 24)],
                                   [(fx, fy + 8), (0, fy + 90), (-58, low - 20)], [(fx + 4, fy + 10), (30, fy + 110), (10, low)], [(fx + 8, fy), (74, fy + 40), (70, low - 20)],
                                   [(fx + 8, fy - 4), (88, fy - 40), (92, fy - 60)]], 13, 0.65, 0.5, 2)
    text += stroke(edge([(fx + 2, fy), (fx + 16, fy + 100), (fx + 8, low + 6)]), shade(coat_colour), 4, 0.9)
    sleeve(art, pose, -1, coat_colour, [14, 20, 22, 17, 14], 0, 0.68)
    sleeve(art, pose, 1, coat_colour, [14, 20, 22, 17, 14], 0, 0.68)
    art.form(shape(left, line, right, [right[-1], (pose.turn * 6, body["sh_y"]), left[0]]), coat_colour, inside=text, size=15, shine=0.8)
    # The shawl collar of coney, down to the hip.
    for side in (-1, 1):
        top = pose.shoulder(side, 0.3, 16)
        end = (fx - 2, fy - 8) if side < 0 else (fx + 6, fy - 12)
        line_of = [top, (side * 52, body["sh_y"] + 36), (side * 40 + 8, body["bust_y"] + 24), between((side * 40 + 8, body["bust_y"] + 24), end, 0.6), end]
        d = tube(line_of, [19, 25, 24, 17, 6])
        art.form(d, coney, inside=_fur(line_of, coney, 3 + side, 24), size=9)
    sleeve(art, pose, 1, coat_colour, [14, 20, 22, 17, 14], 0, 0.68, merge=True)
    for side, at in ((-1, 0.66), (1, 0.68)):
        a, b = pose.arm_at(side, at - 0.05), pose.arm_at(side, at + 0.12)
        ring = [a, between(a, b, 0.5), b]
        art.form(tube(ring, [31, 34, 27]), coney, inside=_fur(ring, coney, 8 + side, 30), size=9)
        c = pose.arm_at(side, at + 0.17)
        art.form(tube([b, c], [19, 16]), "#d8c3a4", size=4)
        art.form(tube([pose.arm_at(side, at + 0.16), pose.arms[side][2]], [12, 9.5]), SKIN, size=4)
    hand(art, pose.arms[-1][2], 4, -1, SKIN, "easy", 0.98)
    hand(art, pose.arms[1][2], -64, 1, SKIN, "fist", 1.0)
    bx, by = fx + 40, fy + 22
    art.form(oval(bx, by, 14, 14), "#2b1f17", size=4, shine=0.9)
    for k in (-3, 3):
        art.add(fill(oval(bx + k, by, 1.6, 1.6), "#d8c3a4"))
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    w = body["head"]
    for side in (-1, 1):
        art.form(loop([(side * w * 1.03, 48), (side * w * 0.72, 46), (side * w * 0.78, 60), (side * w * 0.56, 72), (side * w * 0.82, 73), (side * w * 1.02, 62)]), DARK, size=3)
    cloche(art, pose, "#2f3a30", "#54614f")
    art.end()


def newsreel_film(art):
    ground.quay(art, "#a9a08c", "#cfc8b6", "#9da396", 600, 14)
    pose = Pose(ODILE, arms=((14, 2), (34, -62)), legs=((0, 0), (5, 3)), sway=7, tilt=4, counter=-4, turn=0.5, head=(4, 4, 8), reach=((1, 1), (1, 0.9)))
    stand(art, pose, 748, 690)
    _newsreel_coat(art, pose)
    art.end()


def newsreel_still(art):
    """The publicity still: nearer, before studio paper."""
    ground.studio(art, "#b9b2a2", 900, 23)
    pose = Pose(ODILE, arms=((20, -14), (36, -66)), legs=((0, 0), (5, 3)), sway=4, tilt=3, counter=-6, turn=-0.6, head=(-4, 4, -9), reach=((1, 1), (1, 0.86)))
    stand(art, pose, 1120, 1060, 300)
    _newsreel_coat(art, pose, True)
    art.end()


def pavilion_wrap(art):
    """The showcard: flat colour, and stripes that run one way."""
    ground.spotlight(art, "#a8663f", "#d89a58")
    pose = Pose(ODILE, arms=((36, -48), (12, -2)), legs=((-2, -2), (10, 6)), sway=9, tilt=5, counter=-4, turn=0.5, head=(3, 0, 6))
    stand(art, pose, 748, 700)
    body = pose.body
    stand_collar(art, pose, BONE, 18, 44)
    skin(art, pose, feet="bare", hands=(None, "easy"))
    for side in (-1, 1):
        x, y = pose.legs[side][2]
        art.line([(x - 18, y + 32), (x, y + 24), (x + 16, y + 30)], BONE, 8, 1)
        art.line([(x - 20, y + 47), (x, y + 53), (x + 18, y + 47)], "#b08a5c", 6, 1)
    bathing(art, pose, "black", ("scoop", 0.6), (0.4, 0.6), leg="high")
    stripes = "".join(stroke(f"M{x} 60L{x - 620} 680", "black", 26, 1) for x in range(-160, 900, 56))
    sleeve(art, pose, 1, BONE, [10, 13, 16, 16, 20], 0, 0.92, inside=stripes)
    sleeve(art, pose, -1, BONE, [10, 13, 17, 16, 20], 0, 0.92, inside=stripes)
    coat(art, pose, BONE, body["hip_y"] + 214, (-112, 126), (12, 15, 16, 28), neckline(pose, 0.3, 128, "v"), folds=6, gap=(body["hip_y"] - 30, -20, 58), inside=stripes, deep=0.95)
    for side in (-1, 1):
        low = (pose.turn * 6 + side * 3, body["waist_y"] - 2)
        art.form(shape([pose.shoulder(side, 0.26, 16), (side * 24, body["bust_y"] - 8), low], [low, (side * 46, body["bust_y"] + 8), (side * 60, body["sh_y"] + 26), pose.shoulder(side, 0.55, 9)],
                       [pose.shoulder(side, 0.55, 9), pose.shoulder(side, 0.26, 16)]), "black", size=6, shine=0.9)
    art.add(stroke(edge([pose.point("waist", -1, 16, 2), pose.middle("waist", 0, 8), pose.point("waist", 1, 16, 2)]), "black", 11, 1))
    for k in (0, 14):
        art.form(tube([(14, body["waist_y"] + 6), (24 + k, body["waist_y"] + 60), (22 + k, body["waist_y"] + 118 + k)], [5, 6, 7]), "black", size=3, shine=0.9)
    sleeve(art, pose, -1, BONE, [10, 13, 17, 16, 20], 0, 0.92, inside=stripes, merge=True)
    hand(art, pose.arms[-1][2], 44, -1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    cap(art, pose, "black", 34)
    art.end()
    art.end()


def exhibition_costume(art):
    ground.spotlight(art, "#8c6f5e", "#d9b48c")
    pose = Pose(ODILE, arms=((44, -58), (150, 168)), legs=((-3, -3), (12, 6)), sway=10, tilt=6, counter=4, turn=-0.5, head=(-2, 0, -5))
    stand(art, pose, 752, 640)
    body = pose.body
    skin(art, pose, hands=(None, "easy"), arms=(-1, 1))
    bolt = [(70, 140), (14, 224), (44, 226), (-16, 318), (20, 316), (-74, 440), (-24, 330), (-50, 332), (-6, 250), (-34, 246), (34, 132)]
    flash = "M" + "L".join(f"{x} {y}" for x, y in bolt) + "Z"
    bathing(art, pose, "black", ("scoop", 0.62), (0.4, 0.6), leg=0.12, inside=ribs("black", 9, 0.35) + fill(flash, BONE) + stroke(flash, shade(BONE), 1.4, 0.8))
    d, line = skirt(art, pose, "black", ("waist", 30, 5), body["hip_y"] + 62, (-86, 96), 3, 9, 0, hips=7,
                    inside="".join(stroke(edge([(x, 300), (x * 1.12, 400), (x * 1.25, 470)]), light("black") if k % 2 else "#000000", 2.2, 0.8) for k, x in enumerate(range(-74, 84, 8)))
                    + fill("M-6 300L-34 318L20 316L-74 452L-20 334L-54 336Z", BONE), shine=0.9)
    a, b = pose.point("waist", -1, 6, 22), pose.point("waist", 1, 6, 22)
    art.add(stroke(edge([a, pose.middle("waist", 0, 32), b]), shade("white"), 17, 1))
    art.add(stroke(edge([a, pose.middle("waist", 0, 32), b]), "white", 14, 1))
    x, y = b[0] - 10, b[1] + 1
    art.form(shape([(x - 10, y - 12), (x + 9, y - 13)], [(x + 9, y - 13), (x + 9, y + 13)], [(x + 9, y + 13), (x - 10, y + 13)], [(x - 10, y + 13), (x - 10, y - 12)]), "silver", size=3)
    art.add(stroke(f"M{x:.0f} {y - 9:.0f}V{y + 9:.0f}", INK, 2, 0.8))
    hand(art, pose.arms[-1][2], 46, -1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    scales = "".join(stroke(f"M{x - 6} {y}Q{x} {y + 11} {x + 6} {y}", light("black"), 1.8, 0.9) for row, y in enumerate(range(-4, 66, 9)) for x in range(-48 + (row % 2) * 6, 50, 12))
    cap(art, pose, "black", 34, inside=scales)
    w = body["head"]
    art.line([(-w * 0.98, 62), (-w * 0.62 + pose.turn * 5, 88), (pose.turn * 6, 100)], "#2a2a2c", 4.5, 1)
    art.line([(w * 0.98, 62), (w * 0.62 + pose.turn * 5, 88), (pose.turn * 6, 100)], "#2a2a2c", 4.5, 1)
    art.end()
    art.end()


def beach_pyjamas(art):
    ground.sea(art, "#b7b8a8", "#75857c", 320, 640, 51, "#86897c")
    pose = Pose(ODILE, arms=((14, 10), (42, -56)), legs=((-3, -1), (13, 8)), sway=9, tilt=5, counter=-5, turn=0.5, head=(3, 2, 6))
    stand(art, pose, 760, 690)
    sand, rust = "#d9c9a3", "#b4532f"
    body = pose.body
    skin(art, pose, hands=("easy", None))
    fork = pose.middle("hip", 0, 46)
    for side in (1, -1):
        joint, knee, ankle = pose.legs[side]
        hem = [(ankle[0] - 66, ankle[1] + 18), (ankle[0] - 30, ankle[1] + 28), (ankle[0], ankle[1] + 20), (ankle[0] + 34, ankle[1] + 30), (ankle[0] + 66, ankle[1] + 18)]
        outer = [pose.point("waist", side, 4, 0), pose.point("hip", side, 8, -10), (knee[0] + side * 44, knee[1]), hem[0] if side < 0 else hem[-1]]
        inner = [hem[-1] if side < 0 else hem[0], (knee[0] - side * 30, knee[1]), (fork[0] + side * 2, fork[1]), pose.middle("waist", 0.0, 0)]
        along_hem = hem if side < 0 else hem[::-1]
        strokes = [[(joint[0] + k * 22, joint[1] + 30 + abs(k) * 40), (knee[0] + k * 28, knee[1]), (ankle[0] + k * 48, ankle[1] + 22)] for k in (-0.95, -0.5, 0.0, 0.5, 0.95)]
        text = art.folds(sand, strokes, 9, 0.42, 0.4, 1.8)
        text += art.soft_text(f"M{ankle[0] - 120:.0f} {knee[1] + 34:.0f}H{ankle[0] + 120:.0f}V{ankle[1] + 60:.0f}H{ankle[0] - 120:.0f}Z", "#8d7b58", 0.62, 7)
        text += stroke(edge([(x - side * 7, y) for x, y in outer]), rust, 12, 1)
        art.form(shape(outer, along_hem, inner), sand, inside=text, size=12)
    for row in range(4):
        x, y = pose.point("waist", 1, -2, 14 + row * 18)
        buttons(art, [(x - 6, y)], "#efe6cf", 3.6)
    text = art.folds(rust, [[(-50, 214), (-24, 232), (6, 238)], [(52, 212), (30, 236), (26, 280)], [(-40, 244), (-22, 262), (-18, 286)], [(-4, 170), (-10, 200), (-4, 226)]], 6, 0.4, 0.3)
    top_l, top_r = (-20, body["neck"] + 2), (22, body["neck"] + 2)
    left = [top_l, (-42, body["sh_y"] + 22), pose.point("bust", -1, 3, -2), pose.point("waist", -1, 4, -10), pose.point("waist", -1, 5, 4)]
    right = [(x, y) for x, y in [top_r, (46, body["sh_y"] + 22), pose.point("bust", 1, 3, -2), pose.point("waist", 1, 4, -10), pose.point("waist", 1, 5, 4)]]
    art.form(shape(left, [left[-1], pose.middle("waist", 0, 12), right[-1]], right[::-1], [top_r, (4, body["sh_y"] + 8), top_l]), rust, inside=text, size=9)
    for side in (-1, 1):
        art.line([(side * 20, body["neck"] + 4), (side * 18, body["chin"] + 12)], rust, 9, 1)
    hand(art, pose.arms[1][2], -46, 1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "bob", DARK)
    w = body["head"]
    brim = loop([(-w * 3.0, 30), (-w * 1.6, 6), (0, -2), (w * 1.6, 4), (w * 3.0, 24), (w * 1.8, 38), (0, 42), (-w * 1.8, 42)])
    weave = "".join(stroke(edge([(-w * r, 28 + r), (0, 4 + (r * 9)), (w * r, 24 + r)]), shade(sand), 1.3, 0.55) for r in (1.0, 1.4, 1.8, 2.2, 2.6))
    art.form(brim, sand, inside=weave, size=7)
    crown = shape([(-w * 1.02, 18), (-w * 0.94, -12), (-w * 0.5, -34), (w * 0.4, -36), (w * 0.94, -14), (w * 1.02, 16)], [(w * 1.02, 16), (0, 26), (-w * 1.02, 18)])
    art.form(crown, sand, inside="".join(stroke(edge([(-w, y), (0, y + 7), (w, y - 2)]), shade(sand), 1.3, 0.5) for y in range(-30, 20, 8)), size=8)
    art.end()
    art.end()


def ball_gown(art):
    """From behind: the swimmer's muscle fills the drape that was meant to fall."""
    ground.hall(art, "#4a3a34", "#33291f", True, 650)
    tone = "#dcbb98"
    pose = Pose(ODILE, arms=((26, -46), (16, -14)), legs=((0, 0), (5, 3)), sway=9, tilt=5, counter=-4, turn=0.2, head=(5, 0, 8), back=True, reach=((1, 0.95), (1, 1)))
    stand(art, pose, 748, 704, 296)
    satin, lit = "#7f9a8c", "#a9bdb0"
    body = pose.body
    skin(art, pose, tone, legs=(), feet="none", hands=(None, None))
    foot(art, pose, 1, "silver", "heel")
    line = hem_line(-112, 146, body["hip_y"] + 344, 10, 4, 12)
    line = [(x, y + (22 if x > 60 else 0)) for x, y in line]
    a, b = pose.point("waist", -1, 3, -2), pose.point("waist", 1, 3, -2)
    left = [pose.point("bust", -1, 2, 4), a, pose.point("hip", -1, 4, -4), (-58, body["hip_y"] + 130), line[0]]
    right = [line[-1], (88, body["hip_y"] + 130), pose.point("hip", 1, 5, -4), b, pose.point("bust", 1, 2, 4)]
    low = pose.middle("waist", 0, 12)
    scoop = [[pose.point("bust", 1, 2, 4), (54, body["waist_y"] - 34), (34, body["waist_y"] - 8), (low[0] - 2, low[1])], [(low[0] - 2, low[1]), (-30, body["waist_y"] - 8), (-50, body["waist_y"] - 34), pose.point("bust", -1, 2, 4)]]
    strokes = [[(low[0], low[1] + 6), (-30, body["hip_y"] + 60), (-92, body["hip_y"] + 330)], [(low[0] + 6, low[1] + 10), (8, body["hip_y"] + 140), (-30, body["hip_y"] + 340)],
               [(low[0] + 8, low[1] + 8), (46, body["hip_y"] + 120), (40, body["hip_y"] + 344)], [pose.point("hip", 1, -10, 20), (70, body["hip_y"] + 150), (116, body["hip_y"] + 340)],
               [pose.point("hip", -1, -8, 20), (-54, body["hip_y"] + 150), (-70, body["hip_y"] + 330)]]
    text = art.folds(satin, strokes, 14, 0.5, 0.0, 2)
    for x, y, w, h in ((-34, body["hip_y"] - 6, 20, 36), (34, body["hip_y"] - 4, 18, 34), (-46, body["hip_y"] + 180, 12, 110), (14, body["hip_y"] + 220, 10, 110), (70, body["hip_y"] + 220, 14, 100), (-52, body["bust_y"] + 50, 7, 30)):
        text += art.soft_text(oval(x, y, w, h), mix(lit, "#ffffff", 0.25), 0.75, 8)
    art.form(shape(left, line, right, *scoop), satin, inside=text, size=11, lit=lit, shine=0.85)
    for side in (-1, 1):
        p = pose.shoulder(side, 0.5, 1)
        art.line([p, (side * 50, body["bust_y"] - 22), pose.point("bust", side, -7, 10)], satin, 5, 1)
        art.line([(p[0] - 1, p[1]), (side * 50 - 1, body["bust_y"] - 22), pose.point("bust", side, -8, 10)], lit, 1.4, 0.9)
    # The train over the left arm, wound like a rope.
    wx, wy = pose.arm_at(-1, 0.78)
    rope = [(-84, body["hip_y"] + 260), (-128, body["hip_y"] + 120), (-126, wy + 34), (wx + 4, wy - 4)]
    art.form(tube(rope, [16, 21, 18, 14]), satin, lit=lit, shine=0.9, size=8, inside=art.folds(satin, [[(-98, body["hip_y"] + 250), (-136, body["hip_y"] + 110), (-120, wy + 20)], [(-112, body["hip_y"] + 180), (-118, body["hip_y"] + 90), (-118, wy + 40)]], 7))
    art.form(pose.arm(-1), tone, size=7)
    for k in range(3):
        x, y = pose.arm_at(-1, 0.7 + k * 0.05)
        art.form(tube([(x - 20, y - 9 + k * 2), (x, y + 3), (x + 18, y + 10)], [9, 11, 9]), satin, lit=lit, shine=0.9, size=4)
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
    pose = Pose(COSIMA, arms=((12, 6), (30, 20)), legs=((-1, 0), (9, 5)), sway=10, tilt=6, counter=-5, turn=-0.5, head=(-4, 0, -7))
    stand(art, pose, 748, 716, 304)
    lame = "#dcdcd6"
    body = pose.body
    # The cape of white velvet, let fall behind and caught on one arm.
    cape = shape([pose.shoulder(-1, 0.5, 10), (-96, body["bust_y"] + 30), (-128, body["hip_y"] - 40)], [(-128, body["hip_y"] - 40), (-40, body["hip_y"] + 10), (60, body["waist_y"] + 60), (140, body["hip_y"] - 70)],
                 [(140, body["hip_y"] - 70), (98, body["bust_y"] + 30), pose.shoulder(1, 0.6, 6)], [pose.shoulder(1, 0.6, 6), pose.shoulder(-1, 0.5, 10)])
    art.form(cape, "white", inside=art.folds("white", [[(-70, 170), (-96, 270), (-104, 370)], [(84, 200), (104, 270), (112, 330)], [(-40, 200), (-70, 300), (-70, 380)]], 12), size=11, deep=0.95)
    skin(art, pose, tone, legs=(), feet="none", hands=("easy", "easy"))
    line = hem_line(-124, 150, body["hip_y"] + 368, 12, 4, 10)
    left = [pose.point("bust", -1, 2, -2), pose.point("waist", -1, 3), pose.point("hip", -1, 4), (-44, body["hip_y"] + 160), line[0]]
    right = [line[-1], (86, body["hip_y"] + 170), pose.point("hip", 1, 4), pose.point("waist", 1, 3), pose.point("bust", 1, 2, -2)]
    top_r, top_l = pose.shoulder(1, 0.5, 3), pose.shoulder(-1, 0.5, 3)
    neck = [top_r, (34, body["sh_y"] + 30), (0, body["sh_y"] + 40), (-34, body["sh_y"] + 30), top_l]
    strokes = [[pose.point("hip", -1, -8, -10), (-14, body["hip_y"] + 120), (-84, body["hip_y"] + 360)], [pose.middle("hip", 0.3, -20), (24, body["hip_y"] + 180), (-10, body["hip_y"] + 366)],
               [pose.point("hip", 1, -10, -6), (58, body["hip_y"] + 170), (64, body["hip_y"] + 370)], [pose.point("hip", 1, -3, 10), (80, body["hip_y"] + 190), (120, body["hip_y"] + 360)],
               [pose.point("waist", 1, -4, 6), pose.middle("waist", 0, 26), pose.point("hip", -1, -10, -30)], [pose.point("bust", 1, -10, 30), pose.middle("waist", 0.1, -14), pose.point("waist", -1, -4, 6)]]
    text = art.folds(lame, strokes, 13, 0.55, 0.0, 2)
    for x, y, w, h in ((-26, 200, 16, 22), (32, 204, 13, 20), (-22, body["hip_y"] - 14, 24, 50), (8, body["hip_y"] + 130, 12, 110), (44, body["hip_y"] + 250, 12, 90), (-54, body["hip_y"] + 280, 10, 70), (98, body["hip_y"] + 300, 10, 60)):
        text += art.soft_text(oval(x, y, w, h), "#ffffff", 0.9, 7)
    chance = random.Random(4)
    text += "".join(fill(oval(chance.uniform(-110, 140), chance.uniform(170, 780), 1.2, 1.2), "#ffffff", 0.8) for _ in range(240))
    art.form(shape([top_l, (-56, body["bust_y"] - 34), left[0]], left, line, right, [right[-1], (58, body["bust_y"] - 34), top_r], neck), lame, inside=text, size=11, dark="#6c7076", lit="#ffffff", shine=0.9)
    for k in range(3):
        art.line([(-30 + k * 4, body["sh_y"] + 40 + k * 13), (0, body["sh_y"] + 54 + k * 13), (30 - k * 4, body["sh_y"] + 40 + k * 13)], "#7d8086", 2.4, 0.6)
    art.form(tube([pose.arm_at(1, 0.34), pose.arm_at(1, 0.56), (118, body["hip_y"] - 40)], [16, 19, 14]), "white", size=7)
    neck_shadow(art, pose, tone)
    head(art, pose, tone)
    hair(art, pose, "waves", "#c9a765")
    art.end()
    art.end()


def _race_number(art, pose, word, colour, y=26):
    """The painted word on a rubber cap, half worn off."""
    paths = {"R": "M0 12V0H5Q9 0 9 3.4T5 6.6H0M5 6.6L9 12", "A": "M0 12L4.5 0L9 12M1.8 8H7.2", "C": "M9 2Q7 0 5 0Q0 0 0 6T5 12Q7 12 9 10", "E": "M8 0H0V12H8M0 6H6",
             "1": "M2 3L5 0V12", "2": "M0 3Q1 0 4.5 0Q9 0 9 3.4Q9 6 0 12H9"}
    x = -30 + pose.turn * 6
    for letter in word:
        if letter != " ":
            art.add(f'<g transform="translate({x:.1f} {y - 10}) scale(0.86)">{stroke(paths[letter], colour, 2.6, 0.95)}</g>')
        x += 10.2 if letter != " " else 6


def race_black(art):
    ground.sea(art, "#d9d2bd", "#a2aa9d", 310, 620, 61, "#9a9b8c")
    pose = Pose(ODILE, arms=((12, 2), (40, -54)), legs=((0, 0), (9, 5)), sway=9, tilt=5, counter=-5, turn=-0.5, head=(-3, 0, -6))
    stand(art, pose, 754, 714)
    skin(art, pose, hands=("fist", None))
    # One strap only, on the left, and that undone and tucked flat.
    bathing(art, pose, "black", ("scoop", 0.72), (0.5, 0.62), leg="high", rise=16, under=4,
            inside=ribs("black", 7, 0.4) + band(pose, "bust", 26, 19, BONE, 8))
    x, y = pose.shoulder(1, 0.56, 2)
    buttons(art, [(x + 3, y + 16)], "#4a4744", 4.6)
    wx, wy = pose.arms[-1][2]
    for at in (-1, 1):
        art.form(oval(wx - 4 + at * 14, wy + 44, 13, 12), "#3b4a40", size=3)
        art.form(oval(wx - 4 + at * 14, wy + 44, 8, 7.5), "#b9c4bd", size=3, line=0.8)
    art.line([(wx - 26, wy + 42), (wx - 8, wy + 18), (wx + 18, wy + 40)], "#3b4a40", 4, 1)
    hand(art, pose.arms[1][2], -44, 1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose, ears=False)
    cap(art, pose, GREEN, 36)
    _race_number(art, pose, "RACE 2", "#f1efe6", 24)
    art.end()
    art.end()


def race_white(art):
    """From the umpires' launch: shoulders above the water, one cap white."""
    ground.sea(art, "#8f9388", "#5f6d65", 250, None, 71)
    pose = Pose(COSIMA, arms=((52, 70), (60, 118)), legs=((0, 0), (5, 3)), turn=-0.6, head=(-5, 14, -10), counter=-8)
    stand(art, pose, 1500, 1380, 292)
    tone = "#dfbf9f"
    skin(art, pose, tone, hands=("easy", "easy"), feet="none")
    bathing(art, pose, "white", ("round", 0.5), (0.16, 0.34), leg="high", inside=ribs("#eeece4", 8, 0.5), under=4)
    neck_shadow(art, pose, tone)
    head(art, pose, tone, ears=False)
    cap(art, pose, "white", 34)
    _race_number(art, pose, "RACE 1", "#1b1b1e", 12)
    goggles(art, pose, "white", 48, "#59655f")
    w = pose.body["head"]
    for side in (-1, 1):
        art.line([(side * w * 0.98, 62), (side * w * 0.62 + pose.turn * 5, 88), (pose.turn * 6, 100)], "#f4f2ec", 4.5, 1)
    art.end()
    art.end()
    ground.water_before(art, "#5b6962", 520, 8)
    for x, y, wide in ((120, 540, 90), (470, 532, 100), (300, 560, 150)):
        art.soft(sliver(sampled([(x - wide, y), (x, y - 12), (x + wide, y + 2)], 6), 18), "#f4f1e6", 0.75, 3)


def lido_linen(art):
    ground.tiles(art, "#7d9184", 610)
    pose = Pose(ODILE, arms=((12, -2), (38, -52)), legs=((-2, -1), (9, 5)), sway=8, tilt=5, counter=-4, turn=0.5, head=(3, 0, 5))
    stand(art, pose, 752, 708)
    body = pose.body
    skin(art, pose, hands=("easy", None))
    for side in (-1, 1):
        x, y = pose.legs[side][2]
        for down in (24, 34):
            art.line([(x - 17, y + down + 6), (x, y + down), (x + 15, y + down + 5)], "#c9b28a", 5.5, 1)
        art.line([(x, y + 8), (x - 1, y + 34)], "#c9b28a", 4, 1)
        art.line([(x - 20, y + 46), (x, y + 52), (x + 18, y + 46)], "#d8c79f", 6, 1)
    linen = BONE
    low = body["hip_y"] + 214
    line = hem_line(-118, 128, low, 10, 4, 8)
    a, b = pose.point("waist", -1, 4, 2), pose.point("waist", 1, 4, 2)
    mid = pose.middle("waist", 0, 8)
    open_at = (mid[0] + 5, body["hip_y"] + 96)
    text = art.folds(linen, fall(a, b, sampled(line, 3), 8), 10, 0.42, 0.4, 1.6)
    text += art.folds(linen, [[(-40, body["hip_y"] - 30), (0, body["hip_y"] - 22), (44, body["hip_y"] - 32)], [(-44, body["hip_y"] + 4), (-4, body["hip_y"] + 12), (40, body["hip_y"] + 2)]], 6, 0.4, 0.3)
    text += stroke(edge([mid, (mid[0] + 4, body["hip_y"]), open_at]), shade(linen), 1.8, 0.8)
    left_hem, right_hem = [p for p in line if p[0] < -8], [p for p in line if p[0] > 40]
    d = shape([a, pose.point("hip", -1, 12, -6), left_hem[0]], left_hem + [(-4, low + 8)], [(-4, low + 8), (mid[0], body["hip_y"] + 150), open_at], [open_at, (mid[0] + 12, body["hip_y"] + 150), (40, low + 6)], [(40, low + 6)] + right_hem,
              [right_hem[-1], pose.point("hip", 1, 12, -6), b], [b, mid, a])
    art.form(d, linen, inside=text, size=12)
    for side in (-1, 1):
        sleeve(art, pose, side, linen, [9, 10, 9, 5, 5], 0, 0.3)
        x, y = pose.arm_at(side, 0.02)
        art.form(loop([(x - 26, y + 16), (x - 20, y - 16), (x + 2, y - 24), (x + 22, y - 14), (x + 27, y + 18), (x, y + 26)]), linen, size=7,
                 inside=art.folds(linen, [[(x - 10, y - 16), (x - 8, y), (x - 12, y + 18)], [(x + 6, y - 18), (x + 6, y), (x + 8, y + 18)]], 5))
        x, y = pose.arm_at(side, 0.3)
        art.form(tube([(x - 25, y + 2), (x, y + 6), (x + 25, y + 2)], [6, 7, 6]), linen, size=3)
    text = art.folds(linen, [[(-44, 230), (-30, 256), (-34, 284)], [(44, 230), (34, 256), (36, 284)], [(-14, 250), (-10, 270), (-12, 286)]], 6, 0.4)
    bodice(art, pose, linen, neckline(pose, 0.32, 40, "v"), (5, 6, 6, 6), "waist", 2, text + stroke(edge([(pose.turn * 6, 176), (mid[0], mid[1])]), shade(linen), 1.8, 0.8))
    for side in (-1, 1):
        art.form(shape([pose.shoulder(side, 0.2, 9), (pose.turn * 6 + side * 3, body["sh_y"] + 32)], [(pose.turn * 6 + side * 3, body["sh_y"] + 32), (side * 38, body["sh_y"] + 36), (side * 46, body["sh_y"] + 8)], [(side * 46, body["sh_y"] + 8), pose.shoulder(side, 0.42, 7)],
                       [pose.shoulder(side, 0.42, 7), pose.shoulder(side, 0.2, 9)]), linen, size=4)
        x, y = pose.middle("hip", side * 0.62, 24)
        art.form(shape([(x - 23, y - 6), (x + 23, y - 4)], [(x + 23, y - 4), (x + 21, y + 44)], [(x + 21, y + 44), (x - 21, y + 43)], [(x - 21, y + 43), (x - 23, y - 6)]), linen, size=4, deep=0.6)
        art.line([(x - 23, y + 5), (x + 23, y + 7)], shade(linen), 1.5, 0.8)
    buttons(art, [(pose.turn * 6 + k * 0.6, 190 + k * 23) for k in range(4)], "black", 5)
    buttons(art, [(mid[0] + 2 + k * 0.8, mid[1] + 32 + k * 31) for k in range(5)], "black", 5)
    buttons(art, [(mid[0] + 11 + k * 8, open_at[1] + 32 + k * 27) for k in range(4)], "black", 4.6)
    art.add(stroke(edge([a, pose.middle("waist", 0, 11), b]), "#101012", 17, 1))
    art.add(stroke(edge([(a[0] + 4, a[1] - 3), pose.middle("waist", -0.2, 5)]), "#8d8d90", 2.4, 0.8))
    x, y = pose.middle("waist", 0, 10)
    art.add(stroke(f"M{x - 9:.0f} {y - 7:.0f}h18v14h-18z", "silver", 3, 1))
    hand(art, pose.arms[1][2], -46, 1, SKIN, "hip", 0.95)
    neck_shadow(art, pose)
    head(art, pose)
    hair(art, pose, "swept", DARK)
    art.end()
    art.end()


def wedding(art):
    """Bridie's: bias satin, and a veil of herring net worn low on the brow."""
    ground.studio(art, "#76695a", 660, 81)
    tone = "#dbbd9e"
    pose = Pose(WOMAN, arms=((13, -24), (13, -22)), legs=((0, 0), (5, 3)), sway=5, tilt=3, turn=0.3, head=(1, 0, 3))
    stand(art, pose, 750, 704)
    body = pose.body
    net = "#e9e0c8"
    veil = shape([(-40, 8), (-96, body["bust_y"]), (-150, body["hip_y"] + 130), (-186, body["hip_y"] + 390)], [(-186, body["hip_y"] + 390), (0, body["hip_y"] + 402), (190, body["hip_y"] + 390)],
                 [(190, body["hip_y"] + 390), (152, body["hip_y"] + 130), (98, body["bust_y"]), (40, 8)], [(40, 8), (0, -8), (-40, 8)])
    art.add(fill(veil, net, 0.34))
    mesh = "".join(stroke(edge([(k * 8, 0), (k * 20, 300), (k * 40, 800)]), "#fbf6e6", 1.1, 0.55) for k in range(-6, 7))
    mesh += "".join(stroke(edge([(-200, y), (0, y + 12), (200, y)]), "#fbf6e6", 1.0, 0.45) for y in range(10, 800, 22))
    art.add(f'<g clip-path="url(#{art.clip(veil)})">{mesh}</g>')
    skin(art, pose, tone, legs=(), feet="none", hands=(None, None))
    ivory = "ivory"
    for side in (-1, 1):
        foot(art, pose, side, ivory, "heel")
    line = hem_line(-116, 124, body["hip_y"] + 348, 12, 4, 8)
    yoke_l, yoke_r, vee = pose.point("hip", -1, 6, -34), pose.point("hip", 1, 6, -34), pose.middle("hip", 0, 4)
    strokes = fall(yoke_l, yoke_r, sampled(line, 3), 7, start=0.08)
    text = art.folds(ivory, strokes, 12, 0.4, 0.5, 2)
    art.form(shape([yoke_l, pose.point("hip", -1, 7), (-62, body["hip_y"] + 130), line[0]], line, [line[-1], (74, body["hip_y"] + 130), pose.point("hip", 1, 7), yoke_r], [yoke_r, vee], [vee, yoke_l]), ivory, inside=text, size=12, shine=0.9)
    text = art.folds(ivory, [[(-46, 220), (-20, 256), (-26, 300)], [(46, 220), (24, 256), (30, 300)], [(-40, 318), (0, 330), (44, 318)]], 7, 0.35)
    text += dots([(pose.turn * 6 + 1, 214 + k * 13) for k in range(12)], 2.8, "#fffaf0")
    bodice(art, pose, ivory, neckline(pose, 0.36, 34), (4, 5, 5, 6), "hip", -24, text)
    art.add(stroke("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in (yoke_l, vee, yoke_r)), shade(ivory), 1.8, 0.8))
    for k in range(3):
        art.line([(-34 + k * 5, body["sh_y"] + 12 + k * 14), (2, body["sh_y"] + 34 + k * 15), (38 - k * 5, body["sh_y"] + 12 + k * 14)], shade(ivory), 3, 0.55)
    for side in (-1, 1):
        sleeve(art, pose, side, ivory, [6, 6, 6, 4, 4], 0, 1.0, shine=0.8)
        x, y = pose.arms[side][2]
        hand(art, (x, y), -side * 40, side, tone, "easy", 0.8)
        art.form(shape([(x - 14, y - 12), (x + 13, y - 12)], [(x + 13, y - 12), (x - side * 14 + 2, y + 27)], [(x - side * 14 + 2, y + 27), (x - 14, y - 12)]), ivory, size=3, line=1)
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
    low = shape([(-w * 1.14, 74), (-w * 1.18, 34), (-w * 0.84, 0), (0, -13), (w * 0.86, 0), (w * 1.18, 34), (w * 1.14, 74)],
                [(w * 1.0, 70), (w * 0.86, 42), (4, 32), (-w * 0.84, 42), (-w * 1.0, 70)])
    art.form(low, net, size=6, inside="".join(stroke(edge([(k * 9, -14), (k * 11, 20), (k * 12, 70)]), shade(net), 1, 0.6) for k in range(-4, 5)) + "".join(stroke(edge([(-60, y), (0, y - 8), (60, y)]), shade(net), 1, 0.6) for y in range(0, 70, 9)))
    art.add(dots([(-w * 0.86 + 4 + k * 7.4, 42 - 9 * (1 - ((k - 4) / 4.5) ** 2)) for k in range(9)], 2.2, "#fffdf4"))
    art.end()
    art.end()
