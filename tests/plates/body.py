"""Bodies and poses: proportions, and where the joints and the outlines are. Paints nothing.

Units: a head is 100 high, the ground is y = `ground`, x = 0 is the middle, the viewer's left is side -1.
"""

import math

from brush import between, loop, sampled, tube

WOMAN = dict(
    head=35,
    chin=98,
    neck=128,
    sh_y=150,
    sh=82,
    bust_y=212,
    bust=60,
    waist_y=284,
    waist=45,
    hip_y=384,
    hip=64,
    thigh=172,
    shin=174,
    foot=46,
    upper=130,
    fore=112,
    neck_w=17,
    thick=1.0,
    man=False,
)


ODILE = dict(WOMAN, sh=87, bust=65, waist=50, hip=65, neck=126, sh_y=149, neck_w=17, thick=1.04)


LATER = dict(ODILE, waist=60, bust=70, hip=72, thick=1.08)


COSIMA = dict(
    WOMAN, head=33, sh=79, bust=57, waist=41, hip=60, thigh=178, shin=180, neck=132, sh_y=154, thick=0.93
)


MAN = dict(
    WOMAN,
    head=37,
    sh=100,
    bust=78,
    waist=68,
    hip=66,
    neck=124,
    sh_y=146,
    waist_y=292,
    hip_y=388,
    thigh=166,
    shin=166,
    upper=136,
    fore=118,
    neck_w=23,
    thick=1.16,
    man=True,
)


GIRL = dict(
    WOMAN,
    head=40,
    neck=114,
    sh_y=130,
    sh=62,
    bust_y=180,
    bust=47,
    waist_y=236,
    waist=44,
    hip_y=304,
    hip=50,
    thigh=116,
    shin=116,
    foot=40,
    upper=96,
    fore=84,
    neck_w=14,
    thick=0.8,
)


CHILD = dict(
    WOMAN,
    head=40,
    neck=108,
    sh_y=122,
    sh=52,
    bust_y=162,
    bust=43,
    waist_y=206,
    waist=43,
    hip_y=262,
    hip=46,
    thigh=88,
    shin=88,
    foot=36,
    upper=78,
    fore=68,
    neck_w=13,
    thick=0.76,
)


def along(origin, turn, length):
    """From a point, `turn` degrees from straight down (positive to the viewer's right)."""
    turn = math.radians(turn)
    return origin[0] + math.sin(turn) * length, origin[1] + math.cos(turn) * length


class Pose:
    """Where a body's joints are. Arms and legs are pairs of degrees outwards: (upper, lower) for left and right."""

    def __init__(
        self,
        body,
        arms=((10, 4), (10, 4)),
        legs=((0, 0), (6, 4)),
        sway=7,
        tilt=4,
        counter=-3,
        head=(0, 0, 3),
        turn=0.4,
        reach=((1, 1), (1, 1)),
        stride=((1, 1), (1, 1)),
        back=False,
    ):
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
        return {"sh": self.counter, "bust": self.counter * 0.8, "waist": self.tilt * 0.4, "hip": self.tilt}[
            level
        ]

    def point(self, level, side, ease=0.0, down=0.0):
        """The body's outline at a level, with ease, and further down along the body."""
        x, y = self.centre(level)
        turn = math.radians(self.slant(level))
        out = side * (self.body[level] + ease)
        return x + out * math.cos(turn) - down * math.sin(turn), y + out * math.sin(turn) + down * math.cos(
            turn
        )

    def middle(self, level, across=0.0, down=0.0):
        """A point on the front: across is a share of the half width; the front's middle turns with the body."""
        x, y = self.centre(level)
        turn = math.radians(self.slant(level))
        out = across * self.body[level] + self.turn * 6
        return x + out * math.cos(turn) - down * math.sin(turn), y + out * math.sin(turn) + down * math.cos(
            turn
        )

    def shoulder(self, side, share, lift=3.0):
        """On the slope from neck to shoulder: `share` of the half width, lifted off the skin."""
        body = self.body
        rise = 18 if body["man"] else 13
        slope = [
            (body["neck_w"] / body["sh"], body["neck"] - 2 - body["sh_y"]),
            (0.46, -rise),
            (0.74, -4),
            (0.94, 12),
            (1.0, 24),
        ]
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
        high = self.point(
            "waist",
            side,
            (body["hip"] - body["waist"]) * (0.5 if not body["man"] else 0.3) + ease[2],
            (body["hip_y"] - body["waist_y"]) * 0.5,
        )
        return [
            self.point("bust", side, 1 + ease[0], -16),
            self.point("bust", side, ease[1], 6),
            self.point("waist", side, ease[2]),
            high,
            self.point("hip", side, ease[3]),
        ]

    def arm(self, side, ease=0.0, start=0.0, end=1.0, cuff=None):
        """A sleeve's outline, or the arm's own where there is no ease; start and end are shares of the arm."""
        thick = self.body["thick"]
        bones = self.arms[side]
        points = [
            bones[0],
            between(bones[0], bones[1], 0.45),
            bones[1],
            between(bones[1], bones[2], 0.28),
            bones[2],
        ]
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
        return tube(
            line[::2] if len(line) > 8 else line, wide[::2] if len(wide) > 8 else wide, True, ease == 0.0
        )

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
        points = [
            between(joint, knee, -0.02),
            between(joint, knee, 0.45),
            knee,
            (between(knee, ankle, 0.3)[0] + bow * 0.8, between(knee, ankle, 0.3)[1]),
            between(knee, ankle, 0.7),
            ankle,
        ]
        points[1] = (points[1][0] + bow, points[1][1])
        scale = (self.body["thigh"] / 164) ** 0.5
        widths = [36, 33, 20.5, 22.5, 14, 10.5] if not self.body["man"] else [34, 31, 21.5, 23, 15, 12]
        widths = [
            width * thick * scale + (ease if not isinstance(ease, (list, tuple)) else ease[at])
            for at, width in enumerate(widths)
        ]
        spots = [0, 0.225, 0.5, 0.65, 0.85, 1.0]
        line, wide = sampled(points, 8), [w for w, _ in sampled([(w, 0) for w in widths], 8)]
        share = [s for s, _ in sampled([(s, 0) for s in spots], 8)]
        keep = [at for at, value in enumerate(share) if value <= end + 1e-6]
        line, wide = [line[at] for at in keep], [wide[at] for at in keep]
        return tube(
            line[::2] if len(line) > 10 else line, wide[::2] if len(wide) > 10 else wide, True, end >= 1.0
        )

    def torso(self):
        body = self.body

        def half(side):
            rise, wide = (13, body["neck_w"]) if not body["man"] else (18, body["neck_w"])
            return [
                (side * wide, body["chin"] - 16),
                (side * wide, body["chin"] + 6),
                (side * (wide + 4), body["neck"]),
                self.point("sh", side, -body["sh"] * 0.54, -rise),
                self.point("sh", side, -body["sh"] * 0.26, -4),
                self.point("sh", side, -body["sh"] * 0.06, 12),
                self.point("sh", side, -3, 34),
                *self.side(side),
                self.point("hip", side, -3, 30),
            ]

        left, right = half(-1), half(1)
        return loop(left + [self.point("hip", -1, -body["hip"] * 0.98, 36)] + right[::-1])
