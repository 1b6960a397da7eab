"""Where a figure stands on its plate, the bodies between two ages, and colours that run through the life."""

import body as bodies
from brush import (
    INK,
    loop,
    mix,
    oval,
    shade,
)

DARK = "#2e2420"


GREEN = "#1f4a37"


BONE = "#e3d8bd"


WET = "#cfa98c"


GREY = "#8d867c"


SALT = "#5b5148"


def stand(art, pose, foot=748, tall=None, x=300, lift=0):
    """Opens the figure's group: `tall` is how high it is from crown to sole, in pixels."""
    scale = (tall or 700) / pose.ground
    art.soft(oval(x + 10, foot - 4, 120 * scale, 15 * scale), INK, 0.35, 9)
    art.group(
        f'transform="translate({x} {foot}) scale({scale:.4f}) translate(0 {-pose.ground + lift:.1f})"',
        f'filter="url(#{art.rough(1.5)})"',
    )
    return scale


def seven():
    """The body of a child of seven, between three and ten."""
    small, big = bodies.CHILD, bodies.GIRL
    return {key: (small[key] + big[key]) / 2 if not isinstance(small[key], bool) else False for key in small}


def twelve():
    girl, grown = bodies.GIRL, bodies.WOMAN
    return {
        key: girl[key] * 0.62 + grown[key] * 0.38 if not isinstance(girl[key], bool) else False
        for key in girl
    }


def stand_collar(art, pose, colour, high=18, wide=38):
    """A collar turned up behind the neck; drawn before the skin."""
    chin = pose.body["chin"]
    d = loop(
        [
            (-wide - 4, pose.body["sh_y"] - 6),
            (-wide, chin + 8),
            (-wide + 5, chin - high),
            (0, chin - high - 6),
            (wide - 5, chin - high),
            (wide, chin + 8),
            (wide + 4, pose.body["sh_y"] - 6),
            (0, pose.body["sh_y"] + 4),
        ]
    )
    art.form(d, mix(colour, shade(colour), 0.35), size=8)
