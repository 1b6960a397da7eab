"""Bodies and poses: proportions, joints, skin, heads, hair, hands and feet. No face is ever drawn, only its planes.

Units: a head is 100 high, the ground is y = `ground`, x = 0 is the middle, the viewer's left is side -1.
"""

import math

from brush import INK, light, loop, mix, oval, sampled, shade, shape, sliver, stroke, tube

WOMAN = dict(head=35, chin=98, neck=128, sh_y=150, sh=82, bust_y=212, bust=60, waist_y=284, waist=45, hip_y=384,
             hip=64, thigh=172, shin=174, foot=46, upper=130, fore=112, neck_w=17, thick=1.0, man=False)
ODILE = dict(WOMAN, sh=87, bust=65, waist=50, hip=65, neck=126, sh_y=149, neck_w=17, thick=1.04)
LATER = dict(ODILE, waist=60, bust=70, hip=72, thick=1.08)
COSIMA = dict(WOMAN, head=33, sh=79, bust=57, waist=41, hip=60, thigh=178, shin=180, neck=132, sh_y=154, thick=0.93)
MAN = dict(WOMAN, head=37, sh=100, bust=78, waist=68, hip=66, neck=124, sh_y=146, waist_y=292, hip_y=388, thigh=166,
           shin=166, upper=136, fore=118, neck_w=23, thick=1.16, man=True)
GIRL = dict(WOMAN, head=40, neck=114, sh_y=130, sh=62, bust_y=180, bust=47, waist_y=236, waist=44, hip_y=304, hip=50,
            thigh=116, shin=116, foot=40, upper=96, fore=84, neck_w=14, thick=0.8)
CHILD = dict(WOMAN, head=40, neck=108, sh_y=122, sh=52, bust_y=162, bust=43, waist_y=206, waist=43, hip_y=262, hip=46,
             thigh=88, shin=88, foot=36, upper=78, fore=68, neck_w=13, thick=0.76)

SKIN = "#d9b597"


def along(origin, turn, length):
    """From a point, `turn` degrees from straight down (positive to the viewer's right)."""
    turn = math.radians(turn)
    return origin[0] + math.sin(turn) * length, origin[1] + math.cos(turn) * length


def between(a, b, share):
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


class Pose:
    """Where a body's joints are. Arms and legs are pairs of degrees outwards: (upper, lower) for left and right."""

    def __init__(self, body, arms=((10, 4), (10, 4)), legs=((0, 0), (6, 4)), sway=7, tilt=4, counter=-3, head=(0, 0, 3),
                 turn=0.4, reach=((1, 1), (1, 1)), stride=((1, 1), (1, 1)), back=False):
        self.body, self.turn, self.sway, self.tilt, self.counter = body, turn, sway, tilt, counter
        self.head, self.back = head, back
        self.arms, self.legs = {}, {}
        for side, arm, far in ((-1, arms[0], reach[0]), (1, arms[1], reach[1])):
            shoulder = self.point("sh", side, -20, 18)
            elbow = along(shoulder, side * arm[0], body["upper"] * far[0])
            wrist = along(elbow, side * arm[1], body["fore"] * far[1])
            self.arms[side] = [shoulder, elbow, wrist]
        for side, leg, far in ((-1, legs[0], stride[0]), (1, legs[1], stride[1])):
            joint = self.point("hip", side, -body["hip"] * 0.46, 10)
            knee = along(joint, side * leg[0], body["thigh"] * far[0])
            ankle = along(knee, side * leg[1], body["shin"] * far[1])
            self.legs[side] = [joint, knee, ankle]
        self.ground = max(self.legs[-1][2][1], self.legs[1][2][1]) + body["foot"]

    def centre(self, level):
        body = self.body
        share = {"sh": 0.0, "bust": 0.15, "waist": 0.65, "hip": 1.0}[level]
        return self.sway * share, body[level + "_y"]

    def slant(self, level):
        return {"sh": self.counter, "bust": self.counter * 0.8, "waist": self.tilt * 0.4, "hip": self.tilt}[level]

    def point(self, level, side, ease=0.0, down=0.0):
        """The body's outline at a level, with ease, and further down along the body."""
        x, y = self.centre(level)
        turn = math.radians(self.slant(level))
        out = side * (self.body[level] + ease)
        return x + out * math.cos(turn) - down * math.sin(turn), y + out * math.sin(turn) + down * math.cos(turn)

    def middle(self, level, across=0.0, down=0.0):
        """A point on the front: across is a share of the half width; the front's middle turns with the body."""
        x, y = self.centre(level)
        turn = math.radians(self.slant(level))
        out = across * self.body[level] + self.turn * 6
        return x + out * math.cos(turn) - down * math.sin(turn), y + out * math.sin(turn) + down * math.cos(turn)

    def shoulder(self, side, share, lift=3.0):
        """On the slope from neck to shoulder: `share` of the half width, lifted off the skin."""
        body = self.body
        rise = 18 if body["man"] else 13
        slope = [(body["neck_w"] / body["sh"], body["neck"] - 2 - body["sh_y"]), (0.46, -rise), (0.74, -4), (0.94, 12), (1.0, 24)]
        share = max(share, slope[0][0])
        for (a, up), (b, down) in zip(slope, slope[1:]):
            if share <= b:
                y = up + (down - up) * (share - a) / (b - a)
                break
        else:
            y = 24
        return self.point("sh", side, -body["sh"] * (1 - share) + (lift if share > 0.9 else 0), y - lift)

    def side(self, side, ease=(0, 0, 0, 0), man=False):
        """Down the side from armpit to hip, with ease at armpit, bust, waist and hip."""
        body = self.body
        high = self.point("waist", side, (body["hip"] - body["waist"]) * (0.5 if not body["man"] else 0.3) + ease[2],
                          (body["hip_y"] - body["waist_y"]) * 0.5)
        return [self.point("bust", side, 1 + ease[0], -16), self.point("bust", side, ease[1], 6),
                self.point("waist", side, ease[2]), high, self.point("hip", side, ease[3])]

    def arm(self, side, ease=0.0, start=0.0, end=1.0, cuff=None):
        """A sleeve's outline, or the arm's own where there is no ease; start and end are shares of the arm."""
        thick = self.body["thick"]
        bones = self.arms[side]
        points = [bones[0], between(bones[0], bones[1], 0.45), bones[1], between(bones[1], bones[2], 0.28), bones[2]]
        if self._bent(side):
            points[2] = between(points[2], between(points[1], points[3], 0.5), 0.08)
        widths = [22 * thick, 19.5 * thick, 14.5 * thick, 15.5 * thick, 9.2 * thick]
        eased = list(ease) if isinstance(ease, (list, tuple)) else [ease] * 5
        if any(eased):
            # Set in: the shoulder keeps its slope.
            eased[0] = eased[0] * 0.3 - 4
        widths = [width + more for width, more in zip(widths, eased)]
        spots = [0, 0.24, 0.53, 0.66, 1.0]
        line, wide = sampled(points, 8), [w for w, _ in sampled([(w, 0) for w in widths], 8)]
        share = [s for s, _ in sampled([(s, 0) for s in spots], 8)]
        keep = [at for at, value in enumerate(share) if start - 1e-6 <= value <= end + 1e-6]
        line, wide = [line[at] for at in keep], [wide[at] for at in keep]
        if cuff is not None:
            wide[-1] = cuff
        return tube(line[::2] if len(line) > 8 else line, wide[::2] if len(wide) > 8 else wide, True,
                    ease == 0.0)

    def arm_at(self, side, share):
        bones = self.arms[side]
        if share < 0.53:
            return between(bones[0], bones[1], share / 0.53)
        return between(bones[1], bones[2], (share - 0.53) / 0.47)

    def _bent(self, side):
        a, b, c = self.arms[side]
        return abs(math.atan2(b[0] - a[0], b[1] - a[1]) - math.atan2(c[0] - b[0], c[1] - b[1])) > 0.8

    def leg(self, side, ease=0.0, end=1.0):
        thick = self.body["thick"]
        joint, knee, ankle = self.legs[side]
        bow = side * 4
        points = [between(joint, knee, -0.02), between(joint, knee, 0.45), knee,
                  (between(knee, ankle, 0.3)[0] + bow * 0.8, between(knee, ankle, 0.3)[1]),
                  between(knee, ankle, 0.7), ankle]
        points[1] = (points[1][0] + bow, points[1][1])
        scale = (self.body["thigh"] / 164) ** 0.5
        widths = [36, 33, 20.5, 22.5, 14, 10.5] if not self.body["man"] else [34, 31, 21.5, 23, 15, 12]
        widths = [width * thick * scale + (ease if not isinstance(ease, (list, tuple)) else ease[at])
                  for at, width in enumerate(widths)]
        spots = [0, 0.225, 0.5, 0.65, 0.85, 1.0]
        line, wide = sampled(points, 8), [w for w, _ in sampled([(w, 0) for w in widths], 8)]
        share = [s for s, _ in sampled([(s, 0) for s in spots], 8)]
        keep = [at for at, value in enumerate(share) if value <= end + 1e-6]
        line, wide = [line[at] for at in keep], [wide[at] for at in keep]
        return tube(line[::2] if len(line) > 10 else line, wide[::2] if len(wide) > 10 else wide, True, end >= 1.0)

    def torso(self):
        body = self.body

        def half(side):
            rise, wide = (13, body["neck_w"]) if not body["man"] else (18, body["neck_w"])
            return [(side * wide, body["chin"] - 16), (side * wide, body["chin"] + 6), (side * (wide + 4), body["neck"]),
                    self.point("sh", side, -body["sh"] * 0.54, -rise), self.point("sh", side, -body["sh"] * 0.26, -4),
                    self.point("sh", side, -body["sh"] * 0.06, 12), self.point("sh", side, -3, 34),
                    *self.side(side), self.point("hip", side, -3, 30)]

        left, right = half(-1), half(1)
        return loop(left + [self.point("hip", -1, -body["hip"] * 0.98, 36)] + right[::-1])


def hand(art, wrist, turn, side, skin, kind="easy", scale=1.0):
    """A hand hanging from a wrist, `turn` degrees from straight down; the thumb is on the body's side."""
    shapes = {
        "easy": ([(-8, -9), (10, -12), (26, -13), (44, -11), (62, -5), (68, 0), (60, 6), (46, 10), (28, 12), (10, 10),
                  (-8, 9)], [(6, 8), (18, 16), (34, 23), (42, 22), (36, 14), (20, 6)],
                 [[(36, -4), (62, -2)], [(34, 3), (58, 4)]]),
        "fist": ([(-8, -9), (8, -14), (24, -17), (36, -12), (40, 0), (36, 12), (24, 15), (8, 12), (-8, 9)],
                 [(8, 8), (16, 14), (26, 13), (32, 4), (24, 0), (14, 2)],
                 [[(38, -7), (27, -8)], [(40, 0), (28, -1)]]),
        "hip": ([(-8, -9), (8, -13), (24, -14), (40, -10), (48, -2), (44, 8), (28, 12), (10, 11), (-8, 9)],
                [(6, 8), (16, 16), (24, 20), (30, 16), (24, 8), (14, 4)], [[(28, -3), (44, -2)]]),
    }
    palm, thumb, lines = shapes[kind]
    angle = math.radians(90 - turn)
    flip = -side

    def put(points):
        placed = []
        for x, y in points:
            x, y = x * scale, y * scale * flip
            placed.append((wrist[0] + x * math.cos(angle) + y * math.sin(angle),
                           wrist[1] + x * math.sin(angle) - y * math.cos(angle)))
        return placed

    if side > 0:
        put_side = put
    else:
        put_side = put
    art.form(loop(put_side(palm)), skin, size=5, line=1.1)
    art.form(loop(put_side(thumb)), skin, size=3, line=1.0, deep=0.5)
    for line in lines:
        art.line(put_side(line), shade(skin), 1.1, 0.7)
    return put_side([(30, 0)])[0]


def foot(art, pose, side, colour, kind="bare", out=10, sole=None):
    """A foot or shoe from the front."""
    x, y = pose.legs[side][2]
    scale = pose.body["foot"] / 46 * (1.12 if pose.body["man"] else 1.0)
    shapes = {
        "bare": [(-10, -8), (-12, 10), (-19, 28), (-20, 40), (-8, 46), (8, 45), (16, 36), (13, 14), (10, -8)],
        "shoe": [(-11, -4), (-13, 12), (-19, 28), (-17, 43), (-3, 49), (10, 46), (16, 32), (12, 10), (11, -4)],
        "heel": [(-10, 2), (-11, 14), (-15, 30), (-12, 48), (-2, 54), (8, 50), (13, 32), (10, 12), (10, 2)],
        "boot": [(-17, -60), (-16, -20), (-17, 8), (-25, 28), (-23, 44), (-5, 50), (13, 47), (20, 32), (16, 8),
                 (15, -20), (17, -60)],
    }
    turn = math.radians(-side * out)

    def put(points):
        return [(x + (px * -side * math.cos(turn) - py * math.sin(turn)) * scale,
                 y + (px * -side * math.sin(turn) + py * math.cos(turn)) * scale) for px, py in points]

    art.soft(oval(*put([(2, 46)])[0], 34 * scale, 7 * scale), INK, 0.4, 5)
    art.form(loop(put(shapes[kind])), colour, size=6, line=1.2)
    if kind == "bare":
        for at in (-12, -5, 2, 8):
            art.line(put([(at, 45), (at + 1, 38)]), shade(colour), 1, 0.6)
    if sole:
        art.line(put([(-18, 42), (-4, 49), (12, 46)]), sole, 3, 0.9)
    return put


def skin(art, pose, tone=SKIN, legs=(1, -1), arms=(-1, 1), hands=("easy", "easy"), feet="bare", bend=(0, 0),
         glove=None):
    """The whole body as one modelled form, with hands and feet."""
    body = pose.body
    for side in legs:
        if feet == "bare":
            foot(art, pose, side, tone)
    for side, kind, more in ((-1, hands[0], bend[0]), (1, hands[1], bend[1])):
        if side in arms and kind:
            _, elbow, wrist = pose.arms[side]
            turn = math.degrees(math.atan2(wrist[0] - elbow[0], wrist[1] - elbow[1])) + more
            hand(art, wrist, turn, side, glove or tone, kind, 0.9 * body["thick"] if body["thick"] > 0.85 else 0.72)
    parts = [pose.leg(side) for side in legs] + [pose.torso()] + [pose.arm(side) for side in arms]
    name = art.round(shade(tone), light(tone), 10, 0.78, 0.55)
    ink = mix(shade(tone), INK, 0.5)
    rims = "".join(stroke(d, ink, 2.2, 0.75) for d in parts)
    art.add(rims + f'<g filter="url(#{name})">' + "".join(f'<path d="{d}" fill="{tone}"/>' for d in parts) + "</g>")
    dark = shade(tone)
    whole = parts
    y, wide = body["neck"] + 10, body["sh"]
    text = ""
    for side in arms:
        shoulder, elbow, _ = pose.arms[side]
        pit = pose.point("bust", side, 0, -14)
        text += art.soft_text(sliver(sampled([pose.point("bust", side, -6, -30), pit, between(pit, elbow, 0.3)]), 6), dark,
                              0.5, 2)
    # Collarbones or shoulder blades, knees, shins, and what lies between the legs.
    if pose.back:
        low = body["waist_y"] + 60
        text += art.soft_text(sliver(sampled([(1, body["sh_y"]), (pose.sway * 0.3, body["bust_y"]), pose.middle("waist", 0, 0), (pose.sway * 0.8, low)]), 9),
                              dark, 0.5, 2.2)
    for side in (-1, 1):
        if pose.back:
            x, y = side * wide * 0.4, body["bust_y"] - 16
            text += art.soft_text(sliver(sampled([(x - side * 16, y - 30), (x - side * 12, y + 8), (x + side * 10, y + 24)]), 9), dark, 0.5, 2.6)
            text += art.soft_text(oval(x, y - 12, 17, 26), light(tone), 0.4, 7)
            text += art.soft_text(oval(side * 20 + pose.sway * 0.5, body["waist_y"] + 10, 9, 40), light(tone), 0.3, 6)
        else:
            text += art.soft_text(sliver(sampled([(side * 6 + pose.turn * 4, y + 6), (side * wide * 0.36, y + 3),
                                                  (side * wide * 0.66, y + 4)]), 4), dark, 0.42, 1.2)
        if side in legs:
            joint, knee, ankle = pose.legs[side]
            text += art.soft_text(sliver(sampled([(knee[0] - 11, knee[1] + 2), (knee[0], knee[1] + 11),
                                                  (knee[0] + 12, knee[1] + 3)]), 5), dark, 0.4, 1.5)
            text += art.soft_text(tube([between(joint, knee, 0.25), between(joint, knee, 0.6), between(joint, knee, 0.95)],
                                       [12, 11, 6]), light(tone), 0.4, 6)
            text += art.soft_text(tube([between(knee, ankle, 0.1), between(knee, ankle, 0.5), between(knee, ankle, 0.9)],
                                       [7, 7, 3]), light(tone), 0.4, 4)
            text += art.soft_text(tube([(joint[0] + 24, joint[1]), (knee[0] + 15, knee[1] - 20), (knee[0] + 17, knee[1] + 40),
                                        (ankle[0] + 7, ankle[1])], [11, 8, 8, 4]), dark, 0.35, 5)
    art.add(f'<g clip-path="url(#{art.clip(whole)})">{text}</g>')


def neck_shadow(art, pose, tone=SKIN):
    body = pose.body
    wide = body["neck_w"]
    d = shape([(-wide, body["chin"] - 16), (0, body["chin"] - 16), (wide, body["chin"] - 16)],
              [(wide, body["chin"] + 16), (wide * 0.3, body["neck"]), (-wide * 0.6, body["chin"] + 14),
               (-wide, body["chin"] + 2)])
    art.soft(d, shade(tone), 0.6, 2.4, within=d)


def head(art, pose, tone=SKIN, ears=True):
    """Head of simple planes, leaning as the pose says. Leaves a group open for hair and hats: close with `art.end()`."""
    dx, dy, lean = pose.head
    body = pose.body
    art.group(f'transform="translate({dx:.1f} {dy:.1f}) rotate({lean} 0 {body["chin"]})"')
    w, turn = body["head"], pose.turn * 6
    man = 1.06 if body["man"] else 1.0
    d = loop([(0, 1), (w * 0.72, 10), (w, 38), (w * 0.93 + turn * 0.1, 62), (w * 0.66 * man + turn * 0.6, 84),
              (w * 0.24 + turn, 98), (-w * 0.24 + turn, 98), (-w * 0.66 * man + turn * 0.8, 84),
              (-w * 0.93 + turn * 0.5, 62), (-w, 38), (-w * 0.72, 10)])
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
    text += art.soft_text(sliver(sampled([(turn * 1.1 + 2, 50), (turn * 1.5 + 5, 66), (turn * 1.4 + 1, 71)]), 6), dark, 0.42, 1.4)
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
        outer = [(-w * 1.06, 72), (-w * 1.16, 40), (-w * 0.86, 4), (0, -9), (w * 0.86, 4), (w * 1.16, 40), (w * 1.08, 74)]
        inner = [(w * 0.84, 72), (w * 0.86, 44), (w * 0.6 + turn, 28), (turn, 26), (-w * 0.5 + turn, 30), (-w * 0.84, 46),
                 (-w * 0.8, 72)]
        strands = [[(-4, -6), (-w * 0.7, 14), (-w, 60)], [(6, -6), (w * 0.8, 16), (w * 1.02, 62)],
                   [(0, -6), (-w * 0.3, 10), (-w * 0.5, 28)]]
    elif kind == "swept":
        outer = [(-w * 1.02, 62), (-w * 1.12, 36), (-w * 0.84, 2), (0, -10), (w * 0.86, 2), (w * 1.12, 36), (w * 1.04, 62)]
        inner = [(w * 0.9, 50), (w * 0.74, 30), (w * 0.34 + turn, 22), (-w * 0.1 + turn, 20), (-w * 0.7, 32), (-w * 0.9, 52)]
        strands = [[(w * 0.3, 14), (w * 0.8, 20), (w * 1.0, 52)], [(w * 0.1, 10), (-w * 0.7, 14), (-w, 50)],
                   [(0, -6), (w * 0.7, 6), (w * 1.05, 36)], [(0, 2), (-w * 0.6, 2), (-w * 1.06, 36)]]
    elif kind == "waves":
        outer = [(-w * 1.0, 78), (-w * 1.2, 62), (-w * 1.06, 44), (-w * 1.16, 26), (-w * 0.8, 0), (0, -9), (w * 0.84, 2),
                 (w * 1.18, 28), (w * 1.06, 46), (w * 1.2, 64), (w * 0.98, 80)]
        inner = [(w * 0.86, 66), (w * 0.78, 44), (w * 0.9, 30), (w * 0.2 + turn, 18), (-w * 0.5 + turn, 26), (-w * 0.82, 40),
                 (-w * 0.76, 52), (-w * 0.88, 66)]
        strands = [[(w * 0.1, 8), (-w * 0.5, 14), (-w * 0.8, 24), (-w * 1.0, 42)],
                   [(w * 0.2, 0), (-w * 0.5, 4), (-w * 1.04, 24)], [(w * 0.3, 8), (w * 0.8, 16), (w * 1.0, 44)],
                   [(-w * 0.9, 50), (-w * 1.04, 60), (-w * 0.96, 72)], [(w * 0.94, 50), (w * 1.08, 60), (w * 1.0, 74)]]
    elif kind == "cropped":
        outer = [(-w * 1.0, 56), (-w * 1.04, 34), (-w * 0.8, 2), (0, -8), (w * 0.8, 2), (w * 1.04, 34), (w * 1.0, 56)]
        inner = [(w * 0.9, 40), (w * 0.74, 24), (turn + 6, 18), (-w * 0.6, 22), (-w * 0.9, 42)]
        strands = [[(8, 10), (-w * 0.6, 10), (-w * 0.95, 40)], [(10, 8), (w * 0.7, 12), (w * 0.95, 40)]]
    elif kind == "back":
        outer = [(-w * 0.8, 88), (-w * 1.12, 56), (-w * 1.06, 24), (-w * 0.6, -4), (0, -9), (w * 0.6, -4), (w * 1.06, 24),
                 (w * 1.12, 56), (w * 0.8, 88)]
        inner = [(w * 0.4, 94), (0, 98), (-w * 0.4, 94)]
        strands = [[(0, -4), (-w * 0.8, 20), (-w * 0.9, 70)], [(2, -4), (w * 0.8, 20), (w * 0.9, 72)], [(0, 0), (4, 40), (0, 88)],
                   [(0, 0), (-w * 0.4, 40), (-w * 0.45, 86)], [(2, 0), (w * 0.45, 40), (w * 0.45, 86)]]
    d = shape(outer, inner)
    art.form(d, colour, inside=art.folds(colour, strands, 4, 0.5, 0.5, 0.8), size=6, line=1.0)
