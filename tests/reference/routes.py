"""Two ways to the ten moments of a head, which share the definition's formulas but neither variables nor cuts.

| part | slices | columns |
| --- | --- | --- |
| block, spans | sections x = const in closed boundary integrals, Gauss in x | columns along y over z, then x |
| face | rings of inset δ and the outline's own parameter | columns along x over z, then y |
| ball | discs x = const | columns along y over z, then x |
| pein | columns along η over v (the slab's own length), then ξ | columns along η over ξ, then u |
| plug in body | columns along y over z, then x | columns along y over x, then z |

Spans and tips are integrated in (u, y, z) and turned by the end's sign afterwards.
"""

import numpy as np

from definition import ROUND, half_width, inset, sag
from quadrature import column, integrate, rule


class Patch:
    """What `integrate` wants, given as functions."""

    def __init__(self, breaks, inner, switches, columns):
        self.breaks, self.inner, self.switches, self.columns = breaks, inner, switches, columns


def rows(points, *values):
    """Stack switch values, constants spread over the points."""
    zero = 0.0 * points
    return np.array([value + zero for value in values])


# Slices


def conic(t, c, d, w):
    """Corner from the flat y = a (t = 0) to the flat z = b (t = 1): distances from both flats and their derivatives."""
    W = (1 - t) ** 2 + 2 * w * t * (1 - t) + t**2
    dW = -2 * (1 - t) + 2 * w * (1 - 2 * t) + 2 * t
    across, up = t**2 / W, (1 - t) ** 2 / W
    d_across, d_up = (2 * t * W - t**2 * dW) / W**2, (-2 * (1 - t) * W - (1 - t) ** 2 * dW) / W**2
    return c * across, d * up, c * d_across, d * d_up


def section_moments(a, b, c, d, w, n):
    """Area, ∫y² and ∫z² of a section about its middle."""
    t, weight = np.polynomial.legendre.leggauss(n)
    t, weight = (t + 1) / 2, weight / 2
    across, up, _, d_up = conic(t, c, d, w)
    y, z, dz = a - across, b - up, -d_up * weight
    flat = b - d
    return 4 * np.array([
        a * flat + y @ dz, (a**3 * flat + y**3 @ dz) / 3, a * flat**3 / 3 + (y * z**2) @ dz])


def slices(u0, u1, numbers_and_middle, n):
    """Moments of a body between u0 and u1 by its sections."""
    x, weight = np.polynomial.legendre.leggauss(n)
    total = np.zeros(10)
    for u, wu in zip(u0 + (u1 - u0) * (x + 1) / 2, weight * (u1 - u0) / 2):
        numbers, m = numbers_and_middle(u)
        area, yy, zz = section_moments(*numbers, n)
        total += wu * np.array([area, u * area, 0, m * area, u * u * area, yy, zz + m * m * area, 0, 0, u * m * area])
    return total


def shifted(moments, m):
    """Moments after a move by m along z."""
    v, x, y, z, xx, yy, zz, xy, yz, zx = moments
    return np.array([v, x, y, z + m * v, xx, yy, zz + 2 * m * z + m * m * v, xy, yz + m * y, zx + m * x])


def face_height(end, r2, delta):
    tip = end.tip
    rest = np.maximum(tip["edge"] - delta, 0.0)
    depth = rest if tip["edge_kind"] == "chamfered" else tip["edge"] - np.sqrt(tip["edge"] ** 2 - rest**2)
    return end.reach - sag(r2, tip["crown"]) - depth


def face_by_rings(end, n):
    s, e = end.tip["section"], end.tip["edge"]
    total = np.zeros(10)
    t, wt = np.polynomial.legendre.leggauss(n)
    t, wt = (t + 1) / 2, wt / 2
    across, up, d_across, d_up = conic(t, s.c, s.d, s.w)
    one = np.ones_like(t)
    pieces = [(s.a * one, t * (s.b - s.d), 0 * one, (s.b - s.d) * one), (s.a - across, s.b - up, -d_across, -d_up),
              ((1 - t) * (s.a - s.c), s.b * one, -(s.a - s.c) * one, 0 * one)]
    cuts = [0.0, e, min(s.a, s.b)] if e else [0.0, min(s.a, s.b)]
    for low, high in zip(cuts, cuts[1:]):
        for delta, wd in zip(*rule(low, high, n)):
            fy, fz = 1 - delta / s.a, 1 - delta / s.b
            for by, bz, dy, dz in pieces:
                measure = wd * wt * (fy * -dy * bz / s.b + fz * dz * by / s.a)
                y, z = fy * by, fz * bz
                top = face_height(end, y * y + z * z, delta)
                # Over the four quarters odd moments in y and z cancel.
                v, _, ux, _, _, uxx, *_ = column(0 * y, end.tip_from, top, 0 * y) @ measure
                m0 = top - end.tip_from
                total += 4 * np.array([v, ux, 0, 0, uxx, (m0 * y * y) @ measure, (m0 * z * z) @ measure, 0, 0, 0])
    return shifted(total, end.centre(end.tip_from))


def ball_by_discs(end, n):
    r = end.tip["r"]
    x, weight = np.polynomial.legendre.leggauss(n)
    low, high = end.tip_from, end.reach
    u, wu = low + (high - low) * (x + 1) / 2, weight * (high - low) / 2
    r2 = r * r - (u - end.reach + r) ** 2
    area, second = np.pi * r2 @ wu, np.pi / 4 * r2**2 @ wu
    moments = np.array([area, u * np.pi * r2 @ wu, 0, 0, u * u * np.pi * r2 @ wu, second, second, 0, 0, 0])
    return shifted(moments, end.centre(low))


# Columns


def body_patch(u_breaks, z_range, numbers_and_middle):
    """A body of sections by columns along y: z outside, x inside."""
    def switches(z, u):
        (a, b, c, d, w), m = numbers_and_middle(u)
        h = z - m
        kinks = [u - k for k in u_breaks[1:-1]]
        return rows(u, h - b, h + b, h - (b - d), h + (b - d), *kinks)

    def columns(z, u):
        (a, b, c, d, w), m = numbers_and_middle(u)
        y = np.where(np.abs(z - m) < b, half_width(z - m, a, b, c, d, w), 0.0)
        return column(u, -y, y, z)

    return Patch(z_range, lambda z: (u_breaks[0], u_breaks[-1]), switches, columns)


def heights(numbers_and_middle, places):
    """Least and greatest height of a body over sample places; enough because heights have their extremes there."""
    low, high = [], []
    for u in places:
        (a, b, c, d, w), m = numbers_and_middle(u)
        low += [m - b, m - b + d]
        high += [m + b, m + b - d]
    return [min(low)] + sorted(set(low + high) - {min(low), max(high)}) + [max(high)]


def span_section(end, span):
    return lambda u: (span.numbers(u), end.centre(np.asarray(u)))


def span_patch(end, span):
    section = span_section(end, span)
    # With drop on a smooth run the height may have its extreme inside the span.
    fine = np.linspace(span.u0, span.u1, 2001)
    (_, b, *_), m = section(fine)
    ends = heights(section, [span.u0, span.u1])
    ends += [np.min(m - b), np.max(m + b)]
    return body_patch([span.u0, span.u1], sorted(set(float(e) for e in ends)), section)


def ball_patch(end):
    r, m = end.tip["r"], end.centre(end.tip_from)
    middle = end.reach - r

    def columns(z, u):
        y = np.sqrt(np.maximum(r * r - (u - middle) ** 2 - (z - m) ** 2, 0.0))
        return column(u, -y, y, z)

    def switches(z, u):
        return rows(u, r * r - (u - middle) ** 2 - (z - m) ** 2)

    return Patch([m - r, m - end.tip["n"], m, m + end.tip["n"], m + r], lambda z: (end.tip_from, end.reach), switches, columns)


def face_patch(end):
    s, e = end.tip["section"], end.tip["edge"]

    def depth(y, z):
        return inset(s, y, z, e) if e else 0 * y

    def inner(z):
        return 0.0, float(half_width(z, *s.numbers()))

    def switches(z, y):
        delta = depth(y, z + 0 * y)
        iy, iz = y / (1 - delta / s.a), z / (1 - delta / s.b)
        shrunk = half_width(z / (1 - e / s.b), *s.numbers()) * (1 - e / s.a)
        return rows(y, y - shrunk, iz - (s.b - s.d), iy - (s.a - s.c), z - (s.b - e))

    def columns(z, y):
        top = face_height(end, y * y + z * z, depth(y, z + 0 * y) if e else 0 * y)
        m = column(0 * y, end.tip_from, top, 0 * y)
        v = m[0]
        none = 0 * y
        # Columns run along u here: its moments stand where column() puts those of y.
        return 4 * np.array([v, m[2], none, none, m[5], v * y * y, v * z * z, none, none, none])

    breaks = {0.0, s.b - s.d, (s.b - s.d) * (1 - e / s.b), s.b - e, s.b}
    return Patch(sorted(breaks), inner, switches, columns)


class Chord:
    """The arm's station cut by lines across the edge direction: from η = low to high at ξ."""

    def __init__(self, pein):
        self.p = pein
        s = pein.section
        vertices = [(sy * y, sz * z) for y, z in ((s.a, s.b - s.d), (s.a - s.c, s.b)) for sy in (1, -1) for sz in (1, -1)]
        self.kinks = sorted({round(y * pein.cos + z * pein.sin, 13) for y, z in vertices})
        # Farthest point in the direction of the edge: at a vertex or on a corner, found by search.
        t = np.linspace(0, 1, 200001)
        across, up, _, _ = conic(t, s.c, s.d, s.w)
        reach = (s.a - across) * abs(pein.cos) + (s.b - up) * abs(pein.sin)
        k = int(np.argmax(reach))
        low, high = t[max(k - 1, 0)], t[min(k + 1, len(t) - 1)]
        for _ in range(100):
            m1, m2 = low + (high - low) * 0.45, low + (high - low) * 0.55
            f1, f2 = (self._support(m) for m in (m1, m2))
            low, high = (m1, high) if f1 < f2 else (low, m2)
        self.most = max(self._support((low + high) / 2), self._support(0.0), self._support(1.0))
        self.pieces = self._pieces()

    def _support(self, t):
        s = self.p.section
        across, up, _, _ = conic(t, s.c, s.d, s.w)
        return (s.a - across) * abs(self.p.cos) + (s.b - up) * abs(self.p.sin)

    def _pieces(self):
        """For every stretch of ξ between kinks, which piece of the outline bounds the chord above; see `_on`."""
        s, co, si = self.p.section, self.p.cos, self.p.sin
        ends = [-self.most, *[k for k in self.kinks if abs(k) < self.most - 1e-9], self.most]
        chosen = []
        for low, high in zip(ends, ends[1:]):
            xi, best = np.array([(low + high) / 2]), (-np.inf, None)
            for sign in (1, -1):
                flats = []
                if si:
                    flats.append((sign * s.a, si, co, s.b - s.d, -sign * s.a * si))
                if co:
                    flats.append((sign * s.b, co, si, s.a - s.c, sign * s.b * co))
                for along_z, (at, divide, other, most, constant) in zip((bool(si), False), flats):
                    # On y = at: z = (ξ − at cos)/sin, η = z cos − at sin; on z = at: y = (ξ − at sin)/cos, η = at cos − y sin.
                    place = (xi - at * other) / divide
                    slope = (other if along_z else -other) / divide
                    eta = constant + slope * (xi - at * other)
                    if abs(place[0]) <= most and eta[0] > best[0]:
                        best = (eta[0], (1.0, constant - slope * at * other, slope, 0.0, 0.0, 0.0))
                for up in (1, -1) if s.c and s.w == 0 else ():
                    # A chamfer is one more flat, between two vertices.
                    y, z = sign * np.array([s.a, s.a - s.c]), up * np.array([s.b - s.d, s.b])
                    (x1, x2), (e1, e2) = y * co + z * si, z * co - y * si
                    slope = (e2 - e1) / (x2 - x1) if abs(x2 - x1) > 1e-9 else np.inf
                    eta = e1 + slope * (xi - x1)
                    if min(x1, x2) <= xi[0] <= max(x1, x2) and np.isfinite(slope) and eta[0] > best[0]:
                        best = (eta[0], (1.0, e1 - slope * x1, slope, 0.0, 0.0, 0.0))
                for up in (1, -1) if s.c and s.w > 0 else ():
                    for root in (1, -1):
                        piece = (0.0, 0.0, 0.0, sign, up, root)
                        eta = self._on(xi, *(np.array([value]) for value in piece))
                        if np.isfinite(eta[0]) and eta[0] > best[0]:
                            best = (eta[0], piece)
            chosen.append(best[1])
        return np.array(ends[1:-1]), np.array(chosen).T

    def _on(self, xi, flat, constant, slope, sign, up, root):
        """η at ξ on a flat (constant + slope ξ) or on the corner in the quarter (sign, up), one of its two points.

        y = sign (a − c t²/W) and z = up (b − d (1 − t)²/W) in ξ = y cos φ + z sin φ is a quadratic in t.
        """
        s, co, si = self.p.section, self.p.cos, self.p.sin
        gap = xi - sign * s.a * co - up * s.b * si
        P, Q = sign * s.c * co, up * s.d * si
        qa = gap * (2 - 2 * s.w) + P + Q
        half = gap * (s.w - 1) - Q
        qc = gap + Q
        under = half * half - qa * qc
        under = np.where((under < 0) & (under > -1e-7 * (half * half + np.abs(qa * qc))), 0.0, under)
        with np.errstate(all="ignore"):
            q = -(half + np.where(half >= 0, 1.0, -1.0) * np.sqrt(under))
            t = np.where(root > 0, q / qa, qc / q)
            inside = (t >= -1e-6) & (t <= 1 + 1e-6)
            t = np.clip(t, 0.0, 1.0)
            W = 1 - (2 - 2 * s.w) * t * (1 - t)
            eta = up * (s.b - s.d * (1 - t) ** 2 / W) * co - sign * (s.a - s.c * t * t / W) * si
        return np.where(flat > 0, constant + slope * xi, np.where(inside, eta, np.nan))

    def _upper(self, xi):
        ends, chosen = self.pieces
        return self._on(xi, *chosen[:, np.searchsorted(ends, xi)])

    def at(self, xi):
        """Low and high η at ξ; beyond the outline, where nobody integrates, as at its end."""
        xi = np.clip(xi, -self.most, self.most)
        return -self._upper(-xi), self._upper(xi)


def pein_parts(end):
    """Switches and columns of a pein at points (u, v, ξ)."""
    p = end.tip
    chord = Chord(p)

    def switches(u, v, xi):
        k = p.scale(u)
        low, high = (k * side for side in chord.at(xi / k))
        h = p.thickness(v)
        values = [high - h, high + h, low - h, low + h, v - p.u_t, xi - k * chord.most, xi + k * chord.most]
        values += [xi - k * kink for kink in chord.kinks]
        if p.corner_break:
            within = p.radius * k
            t = np.clip(p.corner_break - (p.reach - v), 0.0, p.corner_break)
            within = within - (p.corner_break - np.sqrt(p.corner_break**2 - t * t))
            values += [v - (p.reach - p.corner_break), xi - within, xi + within]
        return rows(u + v + xi, *values)

    def columns(u, v, xi, measure):
        k = p.scale(u)
        low, high = (k * side for side in chord.at(xi / k))
        h = p.thickness(v)
        steel = (np.abs(xi) < k * chord.most) & (np.abs(xi) <= p.limit(u, v))
        low, high = np.maximum(low, -h), np.minimum(high, h)
        v0, x, e, s, xx, ee, ss, xe, es, sx = column(u, np.where(steel, low, 0), np.where(steel, high, 0), xi)
        co, si, m = p.cos, p.sin, end.centre(u)
        turned = np.array([
            v0, x, co * s - si * e, si * s + co * e, xx,
            co * co * ss - 2 * co * si * es + si * si * ee, si * si * ss + 2 * co * si * es + co * co * ee,
            co * sx - si * xe, co * si * (ss - ee) + (co * co - si * si) * es, si * sx + co * xe])
        return shifted(turned, m) * measure

    return chord, switches, columns


def pein_by_length(end):
    """v outside, ξ inside."""
    p = end.tip
    chord, switches, columns = pein_parts(end)
    most = chord.most * max(1.0, 1 + p.grow)
    along = lambda v, xi: p.u_s + (v - p.u_s) * p.shorten(xi)
    breaks = {p.u_s, p.u_t, p.reach} | ({p.reach - p.corner_break} if p.corner_break else set())
    return Patch(sorted(breaks), lambda v: (-most, most), lambda v, xi: switches(along(v, xi), v, xi),
                 lambda v, xi: columns(along(v, xi), v, xi, p.shorten(xi)))


def pein_by_width(end):
    """ξ outside, u inside."""
    p = end.tip
    chord, switches, columns = pein_parts(end)
    most = chord.most * max(1.0, 1 + p.grow)
    along = lambda xi, u: p.u_s + (u - p.u_s) / p.shorten(xi)
    inner = lambda xi: (p.u_s, p.u_s + p.lam * float(p.shorten(np.float64(xi))))
    return Patch(list(np.linspace(-most, most, 9)), inner, lambda xi, u: switches(u, along(xi, u), xi),
                 lambda xi, u: columns(u, along(xi, u), xi, 1.0))


def plug_parts(head):
    """Switches and columns of the plug inside the body at points (x, z)."""
    block, eye = head.block, head.eye

    def widths(x, z):
        (a, b, c, d, w), m = block.numbers(x)
        p, q, pc, qd = eye.numbers(z)
        X = x - z * eye.along
        return half_width(z - m, a, b, c, d, w), half_width(X, q, p, qd, pc, ROUND), z * eye.across, X, p, pc, b, d, z - m

    def switches(x, z):
        body, plug, yc, X, p, pc, b, d, h = widths(x, z)
        values = [p - X, p + X, X - (p - pc), X + (p - pc), yc + plug - body, yc - plug + body]
        values += [h - b, h + b, h - (b - d), h + (b - d), z - eye.z_w, x]
        if block.lug:
            values += [x - block.lug, x + block.lug]
        if eye.mouth_break:
            values += [z - eye.z_t + eye.mouth_break, z - eye.z_b - eye.mouth_break]
        return rows(x + z, *values)

    def columns(x, z):
        body, plug, yc, X, p, pc, b, d, h = widths(x, z)
        both = (np.abs(X) < p) & (np.abs(h) < b)
        body, plug = np.where(both, body, 0.0), np.where(both, plug, 0.0)
        return column(x, np.maximum(yc - plug, -body), np.where(both, np.minimum(yc + plug, body), -1e9), z)

    return switches, columns


def plug_by_height(head):
    """z outside, x inside."""
    switches, columns = plug_parts(head)
    eye, s = head.eye, head.block.section
    breaks = {eye.z_t, eye.z_b, eye.z_w, s.b, -s.b, s.b - s.d, s.d - s.b}
    if eye.mouth_break:
        breaks |= {eye.z_t - eye.mouth_break, eye.z_b + eye.mouth_break}

    def inner(z):
        p = float(eye.numbers(z)[0])
        return z * eye.along - p, z * eye.along + p

    return Patch(sorted(breaks), inner, lambda z, x: switches(x, z), lambda z, x: columns(x, z))


def plug_by_length(head):
    """x outside, z inside."""
    switches, columns = plug_parts(head)
    eye, block = head.eye, head.block
    z = np.array([eye.z_b, eye.z_w, eye.z_t])
    p, _, c, _ = eye.numbers(z)
    low, high = np.min(z * eye.along - p), np.max(z * eye.along + p)
    # The ends and corners of the outline at waist and mouths are where most patterns change.
    known = [-block.lug, 0.0, block.lug, *(z * eye.along - p), *(z * eye.along + p)]
    known += [*(z * eye.along - p + c), *(z * eye.along + p - c)]
    breaks = {float(low), float(high)} | {round(float(x), 12) for x in known if low + 1e-9 < x < high - 1e-9}
    return Patch(sorted(breaks), lambda x: (eye.z_b, eye.z_t), switches, columns)


# Assembly


def turned(moments, sign):
    """Moments in x from those in u."""
    flip = np.ones(10)
    flip[[1, 7, 9]] = sign
    return flip * moments


def block_pieces(block):
    return [(low, high) for low, high in zip(block.breaks(), block.breaks()[1:]) if high > low]


def by_slices(head, n):
    """Moments of each part by the first way."""
    parts = {"block": sum(slices(low, high, head.block.numbers, n) for low, high in block_pieces(head.block))}
    for end in head.ends:
        name = "front" if end.sign > 0 else "back"
        total = sum(slices(span.u0, span.u1, span_section(end, span), n) for span in end.spans)
        parts[name + " spans"] = turned(total, end.sign)
        tip = {"face": face_by_rings, "ball": ball_by_discs}.get(end.kind)
        if end.kind == "pein":
            end.by_length = getattr(end, "by_length", None) or pein_by_length(end)
            tip = lambda end, n: integrate(end.by_length, n)
        parts[f"{name} {end.kind}"] = turned(tip(end, n), end.sign)
    head.by_height = getattr(head, "by_height", None) or plug_by_height(head)
    parts["plug"] = -integrate(head.by_height, n)
    return parts


def by_columns(head, n):
    """Moments of each part by the second way."""
    block = head.block
    s = block.section
    z_range = sorted({s.b + block.top, s.b, s.b - s.d, s.d - s.b, -s.b, -s.b - block.bottom})
    parts = {"block": integrate(body_patch(block.breaks(), z_range, block.numbers), n)}
    for end in head.ends:
        name = "front" if end.sign > 0 else "back"
        total = sum(integrate(span_patch(end, span), n) for span in end.spans)
        parts[name + " spans"] = turned(total, end.sign)
        tip = {"face": face_patch, "ball": ball_patch, "pein": pein_by_width}[end.kind](end)
        moments = integrate(tip, n)
        if end.kind == "face":
            moments = shifted(moments, end.centre(end.tip_from))
        parts[f"{name} {end.kind}"] = turned(moments, end.sign)
    parts["plug"] = -integrate(plug_by_length(head), n)
    return parts
