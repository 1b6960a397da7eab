"""Brush and paper: smooth outlines, modelled forms, folds, and the print that is made of them.

Knows nothing of bodies or garments.
"""

import colorsys
import io
import math

import numpy as np
import resvg_py
from PIL import Image, ImageDraw, ImageFilter, ImageFont

WIDE, HIGH = 600, 800
INK = "#211c1a"


# Colour


def rgb(colour):
    names = {"black": "#1b1b1e", "white": "#f4f2ec", "ivory": "#f1e9d2", "silver": "#c4c6c6"}
    text = names.get(colour, colour).lstrip("#")
    return tuple(int(text[at : at + 2], 16) for at in (0, 2, 4))


def hexed(values):
    return "#" + "".join(f"{max(0, min(255, round(value))):02x}" for value in values)


def mix(one, other, share):
    return hexed(a + (b - a) * share for a, b in zip(rgb(one), rgb(other)))


def luma(colour):
    r, g, b = rgb(colour)
    return 0.299 * r + 0.587 * g + 0.114 * b


def shade(colour):
    """The colour of its own shadow: darker, a little cooler, and for white a blue grey."""
    if luma(colour) > 205:
        return mix(mix(colour, "#5d6474", 0.62), "#7a6a58", 0.15)
    return mix(mix(colour, "#15110f", 0.64), "#2b2530", 0.08)


def light(colour):
    if luma(colour) < 60:
        return mix(colour, "#a39e96", 0.42)
    hue, bright, full = colorsys.rgb_to_hls(*(value / 255 for value in rgb(colour)))
    lit = colorsys.hls_to_rgb(hue, bright + (1 - bright) * 0.45, full * 0.9)
    return mix(hexed(value * 255 for value in lit), "#fff3dc", 0.3)


# Outlines


def num(value):
    return f"{value:.1f}"


def _beziers(points, closed):
    last = len(points)
    found = []
    for at in range(last if closed else last - 1):
        if closed:
            a, b, c, d = (points[(at + step) % last] for step in (-1, 0, 1, 2))
        else:
            a, b = points[max(at - 1, 0)], points[at]
            c, d = points[at + 1], points[min(at + 2, last - 1)]
        found.append(
            (
                (b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6),
                (c[0] - (d[0] - b[0]) / 6, c[1] - (d[1] - b[1]) / 6),
                c,
            )
        )
    return found


def _commands(points, closed=False):
    return "".join(
        "C" + " ".join(f"{num(x)} {num(y)}" for x, y in three) for three in _beziers(points, closed)
    )


def loop(points):
    """A smooth closed outline."""
    return f"M{num(points[0][0])} {num(points[0][1])}{_commands(points, True)}Z"


def edge(points):
    """A smooth open line."""
    return f"M{num(points[0][0])} {num(points[0][1])}{_commands(points)}"


def shape(*sides):
    """A closed outline of smooth sides that meet in corners."""
    d = f"M{num(sides[0][0][0])} {num(sides[0][0][1])}"
    for at, side in enumerate(sides):
        if at:
            d += f"L{num(side[0][0])} {num(side[0][1])}"
        d += _commands(side)
    return d + "Z"


def sampled(points, each=10):
    """Points along the smooth open line through these."""
    found = [points[0]]
    before = points[0]
    for one, two, end in _beziers(points, False):
        for step in range(1, each + 1):
            t = step / each
            u = 1 - t
            found.append(
                tuple(
                    u**3 * before[k] + 3 * u * u * t * one[k] + 3 * u * t * t * two[k] + t**3 * end[k]
                    for k in (0, 1)
                )
            )
        before = end
    return found


def tube(points, widths, round_start=True, round_end=True):
    """A limb: a line with half widths at its points, tapered smoothly between them."""
    middle = sampled(points)
    halves = [value for value, _ in sampled([(width, 0) for width in widths])]
    left, right, turns = [], [], []
    for at, (x, y) in enumerate(middle):
        a, b = middle[max(at - 1, 0)], middle[min(at + 1, len(middle) - 1)]
        turn = math.atan2(b[1] - a[1], b[0] - a[0])
        turns.append(turn)
        across = (math.sin(turn) * halves[at], -math.cos(turn) * halves[at])
        left.append((x + across[0], y + across[1]))
        right.append((x - across[0], y - across[1]))

    def cap(at, start):
        x, y = middle[at]
        return [
            (
                x + math.cos(turns[at] + start + math.pi * k / 8) * halves[at],
                y + math.sin(turns[at] + start + math.pi * k / 8) * halves[at],
            )
            for k in range(1, 8)
        ]

    ring = left + (cap(-1, -math.pi / 2) if round_end else []) + right[::-1]
    ring += cap(0, math.pi / 2) if round_start else []
    return "M" + "L".join(f"{num(x)} {num(y)}" for x, y in ring) + "Z"


def between(a, b, share):
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def sliver(points, width):
    """A brush stroke, thick in the middle and thin at both ends."""
    count = len(points)
    halves = [width * (0.12 + math.sin(math.pi * at / (count - 1)) * 0.5) for at in range(count)]
    return tube(points, halves)


def oval(x, y, across, down):
    return loop(
        [(x + across * math.cos(k * math.pi / 4), y + down * math.sin(k * math.pi / 4)) for k in range(8)]
    )


# Painting


class Art:
    """What is painted so far, in the order of painting."""

    def __init__(self):
        self.defs, self.parts, self.kept = [], [], {}

    def _name(self, text):
        if text not in self.kept:
            self.kept[text] = f"d{len(self.kept)}"
            self.defs.append(text.replace("@", self.kept[text]))
        return self.kept[text]

    def add(self, text):
        self.parts.append(text)

    def group(self, *attributes):
        self.add("<g " + " ".join(attributes) + ">")

    def end(self):
        self.add("</g>")

    def clip(self, d):
        outlines = [d] if isinstance(d, str) else d
        return self._name(
            '<clipPath id="@">' + "".join(f'<path d="{one}"/>' for one in outlines) + "</clipPath>"
        )

    def blur(self, size):
        return self._name(
            f'<filter id="@" x="-60%" y="-60%" width="220%" height="220%" '
            f'color-interpolation-filters="sRGB"><feGaussianBlur stdDeviation="{size}"/></filter>'
        )

    def rough(self, size=2.0, grain=0.02, seed=3):
        """A hand's edge."""
        return self._name(
            f'<filter id="@" x="-5%" y="-5%" width="110%" height="110%" color-interpolation-filters="sRGB">'
            f'<feTurbulence type="fractalNoise" baseFrequency="{grain}" numOctaves="2" seed="{seed}" result="n"/>'
            f'<feDisplacementMap in="SourceGraphic" in2="n" scale="{size}" xChannelSelector="R" '
            f'yChannelSelector="G"/></filter>'
        )

    def fade(self, start, end):
        """A mask that lets nothing through at the start and everything from the end on."""
        name = self._name(
            f'<linearGradient id="@" gradientUnits="userSpaceOnUse" x1="{num(start[0])}" y1="{num(start[1])}" '
            f'x2="{num(end[0])}" y2="{num(end[1])}"><stop offset="0.15" stop-color="#000"/>'
            f'<stop offset="1" stop-color="#fff"/></linearGradient>'
        )
        return self._name(
            f'<mask id="@" maskUnits="userSpaceOnUse" x="-500" y="-200" width="1000" height="1400">'
            f'<rect x="-500" y="-200" width="1000" height="1400" fill="url(#{name})"/></mask>'
        )

    def round(self, dark, lit, size, deep, shine):
        """Light from the upper left on whatever is painted within."""
        return self._name(
            f'<filter id="@" x="-10%" y="-10%" width="120%" height="120%" color-interpolation-filters="sRGB">'
            f'<feGaussianBlur in="SourceAlpha" stdDeviation="{size}" result="b"/>'
            f'<feOffset in="b" dx="{-size * 1.0}" dy="{-size * 0.55}" result="o"/>'
            f'<feComposite in="SourceAlpha" in2="o" operator="out" result="s"/>'
            f'<feFlood flood-color="{dark}" flood-opacity="{deep}"/><feComposite in2="s" operator="in" result="s2"/>'
            f'<feOffset in="b" dx="{size * 0.8}" dy="{size * 0.5}" result="p"/>'
            f'<feComposite in="SourceAlpha" in2="p" operator="out" result="l"/>'
            f'<feFlood flood-color="{lit}" flood-opacity="{shine}"/><feComposite in2="l" operator="in" result="l2"/>'
            f'<feMerge><feMergeNode in="SourceGraphic"/><feMergeNode in="l2"/><feMergeNode in="s2"/></feMerge>'
            f"</filter>"
        )

    def form(self, d, colour, inside="", size=9, deep=0.8, shine=0.6, line=1.3, dark=None, lit=None):
        """One modelled form of one outline or several; `inside` is painted on it and shaded with it."""
        outlines = [d] if isinstance(d, str) else d
        dark, lit = dark or shade(colour), lit or light(colour)
        name = self.round(dark, lit, size, deep, shine)
        if line:
            ink = mix(dark, INK, 0.55)
            self.add("".join(stroke(one, ink, line * 2, 0.8) for one in outlines))
        within = f'<g clip-path="url(#{self.clip(outlines)})">{inside}</g>' if inside else ""
        plain = "".join(fill(one, colour) for one in outlines)
        self.add(f'<g filter="url(#{name})">{plain}{within}</g>')

    def soft(self, d, colour, opacity=0.4, blur=6, within=None):
        text = self.soft_text(d, colour, opacity, blur)
        self.add(f'<g clip-path="url(#{self.clip(within)})">{text}</g>' if within else text)

    def soft_text(self, d, colour, opacity=0.4, blur=6):
        run = f' filter="url(#{self.blur(blur)})"' if blur else ""
        return f'<path d="{d}" fill="{hexed(rgb(colour))}" fill-opacity="{opacity}"{run}/>'

    def line(self, points, colour=INK, width=1.4, opacity=0.8, dash=None):
        self.add(stroke(edge(points), colour, width, opacity, dash))

    def flat(self, d, colour, opacity=1.0):
        self.add(fill(d, colour, opacity))

    def folds(self, colour, strokes, wide=7, opacity=0.55, lit=0.35, blur=1.2):
        """Text of folds: each a dark stroke with a light one on its left."""
        text = ""
        for points in strokes:
            points = sampled(points, 5)
            beside = [(x - wide * 0.75, y - wide * 0.1) for x, y in points]
            text += self.soft_text(sliver(beside, wide), light(colour), lit, blur)
            text += self.soft_text(sliver(points, wide), shade(colour), opacity, blur)
        return text

    def svg(self):
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDE}" height="{HIGH}" '
            f'viewBox="0 0 {WIDE} {HIGH}"><defs>{"".join(self.defs)}</defs>{"".join(self.parts)}</svg>'
        )


def fill(d, colour, opacity=1.0):
    return f'<path d="{d}" fill="{hexed(rgb(colour))}" fill-opacity="{opacity}"/>'


def stroke(d, colour=INK, width=1.4, opacity=0.8, dash=None):
    run = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<path d="{d}" fill="none" stroke="{hexed(rgb(colour))}" stroke-width="{width}" '
        f'stroke-opacity="{opacity}" stroke-linecap="round" stroke-linejoin="round"{run}/>'
    )


def dots(points, radius, colour, rim=INK):
    return "".join(
        f'<circle cx="{num(x)}" cy="{num(y)}" r="{radius}" fill="{hexed(rgb(colour))}" stroke="{rim}" '
        f'stroke-width="{radius * 0.22:.2f}" stroke-opacity="0.7"/>'
        f'<circle cx="{num(x - radius * 0.3)}" cy="{num(y - radius * 0.3)}" r="{radius * 0.3:.2f}" '
        f'fill="{light(colour)}" fill-opacity="0.8"/>'
        for x, y in points
    )


# Printing


def _noise(seed, soft):
    drawn = np.random.default_rng(seed).standard_normal((HIGH, WIDE)).astype("float32")
    scale = Image.fromarray(np.uint8(np.clip(drawn * 32 + 128, 0, 255))).filter(
        ImageFilter.GaussianBlur(soft)
    )
    values = np.asarray(scale, dtype="float32") - 128
    return values / max(1e-6, values.std())


def printed(art, number, seed, kind):
    """The finished print: the picture on its paper, with its number in the margin."""
    raw = resvg_py.svg_to_bytes(svg_string=art.svg())
    picture = Image.open(io.BytesIO(bytes(raw))).convert("RGB")
    values = np.asarray(picture, dtype="float32")
    grain = {"gouache": (2.6, 1.7), "wash": (2.8, 2.0), "plate": (2.2, 1.4), "film": (3.4, 1.5)}[kind]
    values = values + (_noise(seed, grain[1]) * grain[0])[..., None]
    values = values + (_noise(seed + 7, 24) * (3.2 if kind in ("wash", "gouache") else 2.0))[..., None]
    down, across = np.mgrid[0:HIGH, 0:WIDE]
    far = ((across - WIDE / 2) / WIDE) ** 2 + ((down - HIGH / 2) / HIGH) ** 2
    values *= (1 - far * {"gouache": 0.10, "wash": 0.06, "plate": 0.28, "film": 0.42}[kind])[..., None]
    picture = Image.fromarray(np.uint8(np.clip(values, 0, 255)))

    paper = {"gouache": "#efe9da", "wash": "#f3eee0", "plate": "#e9dfc8", "film": "#191817"}[kind]
    sheet = Image.new("RGB", (WIDE, HIGH), paper)
    side, foot, radius = {
        "gouache": (12, 30, 1),
        "wash": (14, 32, 1),
        "plate": (13, 30, 5),
        "film": (13, 26, 38),
    }[kind]
    box = (side, side, WIDE - side, HIGH - foot)
    mask = Image.new("L", (WIDE * 2, HIGH * 2), 0)
    ImageDraw.Draw(mask).rounded_rectangle([edge * 2 for edge in box], radius * 2, fill=255)
    sheet.paste(picture, (0, 0), mask.resize((WIDE, HIGH), Image.LANCZOS))
    pen = ImageDraw.Draw(sheet)
    if kind != "film":
        pen.rounded_rectangle(box, radius, outline=mix(paper, INK, 0.55), width=1)
        pen.rectangle((0, 0, WIDE - 1, HIGH - 1), outline=mix(paper, INK, 0.25))
    font = ImageFont.load_default(15)
    pen.text(
        (side + 4, HIGH - foot + 5),
        number,
        font=font,
        fill=mix(paper, INK if kind != "film" else "#d9d2c0", 0.7),
    )
    return sheet
