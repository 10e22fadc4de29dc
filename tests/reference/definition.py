"""The head from its design file, straight from the definition of its shape.

Nothing here integrates. `Head` reads a design into numbers (millimetres, radians) and answers, for any point,
whether it is steel (`Head.inside`, written with implicit equations only); the functions that the integrators share
(widths, chords, heights) are written apart, from the parametric form of the same definition.

Axes: x along the head to the front face, y across, z along the handle to the top, origin in the middle of the eye.
An end is described with u = x in front and u = -x behind.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from math import asin, atan, cos, radians, sin, sqrt, tan

import numpy as np

ROUND = sqrt(0.5)
OCTAGON = 2 - sqrt(2)


def length(text):
    """Millimetres of "58 mm", "5.8 cm", "2.25 in" or "2 1/4 in"; absent is 0."""
    if text is None:
        return 0.0
    *number, unit = text.split()
    return float(sum(Fraction(part) for part in number)) * {"mm": 1.0, "cm": 10.0, "in": 25.4}[unit]


def angle(text):
    """Radians of "3°"; absent is 0."""
    return radians(float(text.rstrip("°"))) if text else 0.0


def density(text):
    """kg/mm³ of "7.85 g/cm³"."""
    number, unit = text.split()
    assert unit == "g/cm³"
    return float(number) * 1e-6


def sag(r2, curvature):
    """Depth of a sphere or circle of this curvature at the squared distance r2 from its apex."""
    return curvature * r2 / (1 + np.sqrt(np.maximum(1 - curvature * curvature * r2, 0.0)))


@dataclass
class Section:
    """Half-width a, half-height b, corner c across and d up, weight w of the corner's conic."""

    a: float
    b: float
    c: float
    d: float
    w: float

    @staticmethod
    def read(part):
        a = length(part["width"]) / 2
        b = length(part["height"]) / 2 if part.get("height") else a
        corner = part["corner"]
        if corner == "sharp":
            return Section(a, b, 0.0, 0.0, 0.0)
        if corner == "octagon":
            return Section(a, b, OCTAGON * a, OCTAGON * b, 0.0)
        if corner == "round":
            return Section(a, b, a, b, ROUND)
        (kind, size), = corner.items()
        if kind == "chamfer":
            return Section(a, b, length(size["size"]), length(size["size"]), 0.0)
        if kind == "rounded":
            return Section(a, b, length(size["radius"]), length(size["radius"]), ROUND)
        return Section(a, b, length(size["across"]), length(size["up"]), size["weight"])

    def numbers(self):
        return np.array([self.a, self.b, self.c, self.d, self.w])


def in_section(y, z, a, b, c, d, w):
    """Whether (y, z) lies in a section: the implicit form, α + β + 2w√(αβ) ≥ 1 in the corners."""
    with np.errstate(divide="ignore", invalid="ignore"):
        across = (a - np.abs(y)) / c
        up = (b - np.abs(z)) / d
    inside = (np.abs(y) <= a) & (np.abs(z) <= b)
    corner = inside & (across < 1) & (up < 1)
    across, up = np.where(corner, across, 1.0), np.where(corner, up, 1.0)
    return inside & (across + up + 2 * w * np.sqrt(across * up) >= 1)


def half_width(z, a, b, c, d, w):
    """Half-width of a section at height z, from the conic solved for α. Outside |z| < b it goes on as a line, so that
    whoever looks for crossings finds them; nobody integrates it there."""
    height = np.abs(z)
    d_safe = np.where(d > 0, d, 1.0)
    beta = np.clip((b - height) / d_safe, 0.0, 1.0)
    root = np.sqrt(np.maximum(1 - (1 - w * w) * beta, 0.0)) - w * np.sqrt(beta)
    return a - np.where(d > 0, c * root * root, 0.0) - np.maximum(height - b, 0.0)


@dataclass
class Span:
    """The body between two stations, u0 <= u <= u1."""

    u0: float
    u1: float
    first: np.ndarray
    last: np.ndarray
    smooth: bool

    def numbers(self, u):
        """The section's five numbers at u, as an array of shape (5, ...)."""
        tau = (np.asarray(u) - self.u0) / (self.u1 - self.u0)
        g = 3 * tau**2 - 2 * tau**3 if self.smooth else tau
        first, last = self.first.copy(), self.last.copy()
        if first[2] == 0:
            first[4] = last[4]
        if last[2] == 0:
            last[4] = first[4]
        return np.array([p + (q - p) * g for p, q in zip(first, last)])


@dataclass
class End:
    """One end: spans from the block's end u_e outwards, then the tip."""

    sign: int
    u_e: float
    drop: float
    reach: float
    kind: str
    tip: dict
    spans: list = field(default_factory=list)
    tip_from: float = 0.0

    def centre(self, u):
        """Height z_c of the end's axis at u."""
        return -tan(self.drop) * (u - self.u_e)

    @staticmethod
    def read(data, sign, u_e, block):
        reach = length(data["reach"])
        kind = next(k for k in ("face", "ball", "pein") if k in data)
        tip = data[kind]
        end = End(sign, u_e, angle(data.get("drop")), reach, kind, {})
        if kind == "face":
            section = Section.read(tip)
            crown = 0.0 if tip["crown"] == "flat" else 1 / length(tip["crown"]["radius"])
            edge_kind, edge = ("sharp", 0.0) if tip["edge"] == "sharp" else next(iter(tip["edge"].items()))
            end.tip = dict(section=section, crown=crown, edge=length(edge) if edge else 0.0, edge_kind=edge_kind)
            end.tip_from = reach - sag(section.b**2, crown) - length(tip["land"])
            last = section.numbers()
        elif kind == "ball":
            r, n = length(tip["diameter"]) / 2, length(tip["neck"]) / 2
            assert n <= 0.98 * r
            end.tip = dict(r=r, n=n)
            end.tip_from = reach - r - sqrt(r * r - n * n)
            last = np.array([n, n, n, n, ROUND])
        else:
            section = Section.read(tip)
            end.tip_from = length(tip["at"])
            end.tip = Pein(section, tip, end.tip_from, reach)
            last = section.numbers()
        stations = [(u_e, block, None)]
        for neck in data.get("necks", []):
            stations.append((length(neck["at"]), Section.read(neck).numbers(), neck["transition"]))
        stations.append((end.tip_from, last, data["transition"]))
        for (u0, first, _), (u1, second, transition) in zip(stations, stations[1:]):
            assert u1 - u0 >= 0.5, "stations are at least 0.5 mm apart and in order"
            end.spans.append(Span(u0, u1, first, second, transition == "smooth"))
        return end


class Pein:
    """Arm ∩ slab, beyond the station u_s, before drop. ξ runs along the edge, η across it, both from the end's axis.

    The corner break of size e: the arm's outline at u is narrowed, seen along the slab's thickness. With
    t = e − (λ − (v − u_s)) the depth into the last e of the slab's length (0 ≤ t ≤ e), |ξ| ≤ X(u) − (e − √(e² − t²)),
    where X(u) is half the arm's chord along the edge direction at that u. So it is a quarter round of radius e in the
    plane of the slab at both sharp ends of the edge.
    """

    def __init__(self, section, tip, u_s, reach):
        self.section, self.u_s, self.reach = section, u_s, reach
        self.lam = reach - u_s
        self.phi = angle(tip.get("direction"))
        self.cos, self.sin = cos(self.phi), sin(self.phi)
        if abs(self.cos) < 1e-15:
            self.cos = 0.0
        self.rho, self.edge = length(tip["nose"]), length(tip["edge"])
        self.rocker = 1 / length(tip["rocker"]) if tip.get("rocker") else 0.0
        self.hollow, self.corner_break = length(tip.get("hollow")), length(tip.get("corner_break"))
        self.radius = self._radius()
        self.grow = self.edge / 2 / self.radius - 1
        self.h0 = section.a * abs(self.sin) + section.b * abs(self.cos)
        self.u_c = reach - self.rho
        base = self.u_c - u_s
        distance = sqrt(base**2 + self.h0**2)
        assert distance > self.rho and self.rho <= self.h0
        psi = asin(self.rho / distance) - atan(self.h0 / base)
        self.u_t, self.h_t = self.u_c - self.rho * sin(psi), self.rho * cos(psi)
        v = np.linspace(u_s, reach, 4001)[:-1]
        assert (self.thickness(v) > 0).all(), "the hollow eats through the pein"
        assert sag((self.edge / 2) ** 2, self.rocker) < self.lam / 2
        assert self.corner_break < self.edge / 2

    def _radius(self):
        """Distance of the station's outline from its centre in the direction of the edge, by bisection."""
        low, high = 0.0, self.section.a + self.section.b
        for _ in range(200):
            middle = (low + high) / 2
            if in_section(middle * self.cos, middle * self.sin, *self.section.numbers()):
                low = middle
            else:
                high = middle
        return low

    def scale(self, u):
        return 1 + self.grow * (u - self.u_s) / self.lam

    def shorten(self, xi):
        """Length of the slab at ξ as a part of its length on the axis."""
        return 1 - sag(xi * xi, self.rocker) / self.lam

    def thickness(self, v):
        """Half the slab's thickness h(v)."""
        tau = np.clip((v - self.u_s) / (self.u_t - self.u_s), 0.0, 1.0)
        line = self.h0 + (self.h_t - self.h0) * tau - 6.75 * self.hollow * tau * (1 - tau) ** 2
        nose = np.sqrt(np.maximum(self.rho**2 - (v - self.u_c) ** 2, 0.0))
        return np.where(v < self.u_t, line, nose)

    def limit(self, u, v):
        """Greatest |ξ| that the corner break leaves; a large number outside it."""
        e = self.corner_break
        t = np.clip(e - (self.reach - v), 0.0, e)
        return np.where(t > 0, self.radius * self.scale(u) - (e - np.sqrt(e * e - t * t)), 1e6)

    def inside(self, u, y, z):
        xi, eta = y * self.cos + z * self.sin, z * self.cos - y * self.sin
        k = self.scale(u)
        s = self.section
        v = self.u_s + (u - self.u_s) / self.shorten(xi)
        return (
            in_section(y, z, s.a * k, s.b * k, s.c * k, s.d * k, s.w)
            & (v <= self.reach)
            & (np.abs(eta) <= self.thickness(v))
            & (np.abs(xi) <= self.limit(u, v))
        )


class Eye:
    """The plug that is taken out, without end."""

    def __init__(self, data, z_top, z_bottom):
        self.outline, self.arc = data["outline"], data.get("wall", "straight") == "arc"
        self.z_t, self.z_b, self.z_w = z_top, z_bottom, length(data["waist_height"])
        assert z_bottom + 2 <= self.z_w <= z_top - 2
        self.along, self.across = tan(angle(data.get("cock_along"))), tan(angle(data.get("cock_across")))
        self.mouth_break = length(data.get("mouth_break"))
        self.levels = {name: self._level(data[name]) for name in ("top", "waist", "bottom")}

    def _level(self, level):
        p = length(level["length"]) / 2
        q = p if self.outline == "round" else length(level["width"]) / 2
        c, d = {
            "round": (p, p),
            "ellipse": (p, q),
            "obround": (q, q),
            "rounded_rectangle": (length(level.get("radius")), length(level.get("radius"))),
        }[self.outline]
        return np.array([p, q, c, d])

    def numbers(self, z):
        """p, q, c, d of the outline at the levels z: an array of shape (4, ...)."""
        z = np.asarray(z, dtype=float)
        above = z >= self.z_w
        tau = np.where(above, (z - self.z_w) / (self.z_t - self.z_w), (self.z_w - z) / (self.z_w - self.z_b))
        g = tau * tau if self.arc else tau
        k = self.mouth_break
        extra = np.maximum(0.0, k - (self.z_t - z)) + np.maximum(0.0, k - (z - self.z_b)) if k else 0.0 * z
        top, waist, bottom = (self.levels[name] for name in ("top", "waist", "bottom"))
        return np.array([w + (np.where(above, t, o) - w) * g + extra for t, w, o in zip(top, waist, bottom)])

    def inside(self, x, y, z):
        p, q, c, d = self.numbers(z)
        return in_section(x - z * self.along, y - z * self.across, p, q, c, d, ROUND)


class Block:
    """The cheek block with swell and lugs, in x."""

    def __init__(self, data):
        self.section = Section.read(data)
        self.offset, full = length(data["offset"]), length(data["length"])
        self.front, self.back = -self.offset + full / 2, self.offset + full / 2
        self.swell = length(data.get("swell"))
        lugs = data.get("lugs") or {}
        self.lug = length(lugs.get("length")) / 2
        self.top, self.bottom = length(lugs.get("top")), length(lugs.get("bottom"))
        assert self.lug <= min(self.front, self.back)

    def numbers(self, x):
        """The section's five numbers and the height of its middle at x."""
        x = np.asarray(x, dtype=float)
        s = self.section
        end = np.where(x >= 0, self.front, self.back)
        a = s.a + self.swell * (1 - (x / end) ** 2) ** 2
        q = np.where(np.abs(x) < self.lug, (1 - (x / (self.lug or 1.0)) ** 2) ** 2, 0.0)
        b = s.b + (self.top + self.bottom) * q / 2
        zero = 0.0 * x
        return np.array([a, b, s.c + zero, s.d + zero, s.w + zero]), (self.top - self.bottom) * q / 2

    def breaks(self):
        """Where the formulas in x change."""
        return sorted({-self.back, -self.lug, 0.0, self.lug, self.front})


class Head:
    """A design, read."""

    def __init__(self, design):
        self.density = density(design["density"])
        self.block = Block(design["cheeks"])
        b = self.block
        numbers = b.section.numbers()
        self.eye = Eye(design["eye"], b.section.b + b.top, -b.section.b - b.bottom)
        self.ends = [End.read(design["front"], 1, b.front, numbers), End.read(design["back"], -1, b.back, numbers)]

    def inside(self, x, y, z):
        """Whether the points are steel."""
        steel = np.zeros(x.shape, dtype=bool)
        part = (x >= -self.block.back) & (x <= self.block.front)
        numbers, middle = self.block.numbers(x[part])
        steel[part] = in_section(y[part], z[part] - middle, *numbers)
        for end in self.ends:
            u_all = end.sign * x
            for span in end.spans:
                part = (u_all > span.u0) & (u_all <= span.u1)
                u = u_all[part]
                steel[part] = in_section(y[part], z[part] - end.centre(u), *span.numbers(u))
            part = (u_all > end.tip_from) & (u_all <= end.reach)
            u, yy, zz = u_all[part], y[part], z[part]
            if end.kind == "face":
                steel[part] = in_face(end, u, yy, zz - end.centre(end.tip_from))
            elif end.kind == "ball":
                r = end.tip["r"]
                middle = end.centre(end.tip_from)
                steel[part] = (u - end.reach + r) ** 2 + yy**2 + (zz - middle) ** 2 <= r * r
            else:
                steel[part] = end.tip.inside(u, yy, zz - end.centre(u))
        return steel & ~self.eye.inside(x, y, z)


def inset(section, y, z, most):
    """How far (y, z) lies inside the section's outline, by shrinking it, at most `most`; by bisection."""
    s = section
    low, high = np.zeros(np.shape(y)), np.full(np.shape(y), float(most))
    for _ in range(60):
        middle = (low + high) / 2
        fits = in_section(y / (1 - middle / s.a), z / (1 - middle / s.b), s.a, s.b, s.c, s.d, s.w)
        low, high = np.where(fits, middle, low), np.where(fits, high, middle)
    return (low + high) / 2


def in_face(end, u, y, z):
    """Whether points beyond the land's start are under the face."""
    tip = end.tip
    s, e = tip["section"], tip["edge"]
    under = in_section(y, z, s.a, s.b, s.c, s.d, s.w)
    depth = np.zeros(u.shape)
    if e:
        # Only points near the rim are asked: all others lie deeper than the edge.
        near = under & ~in_section(y / (1 - e / s.a), z / (1 - e / s.b), s.a, s.b, s.c, s.d, s.w)
        rest = e - inset(s, y[near], z[near], e)
        depth[near] = rest if tip["edge_kind"] == "chamfered" else e - np.sqrt(e * e - rest * rest)
    return under & (u <= end.reach - sag(y * y + z * z, tip["crown"]) - depth)
