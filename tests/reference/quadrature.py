"""Integration of moments over planar regions whose integrand has kinks and square-root ends.

The ten moments of a body, in this order: 1, x, y, z, xx, yy, zz, xy, yz, zx.
"""

import numpy as np

GRID = 65


def rule(low, high, n):
    """Gauss-Legendre nodes and weights on [low, high] after t = S(S(s)), S = 3s² − 2s³.

    The substitution is flat to third order at both ends, so that square-root and logarithmic ends, which the edges of
    bodies have wherever two surfaces touch, no longer slow the rule down.
    """
    s, weight = np.polynomial.legendre.leggauss(n)
    s, weight = (s + 1) / 2, weight / 2
    for _ in range(2):
        weight = weight * 6 * s * (1 - s)
        s = s * s * (3 - 2 * s)
    return low + (high - low) * s, (high - low) * weight


def crossings(switches, low, high):
    """Zeros of the rows of `switches(points)` between low and high, as a sorted list of (place, row).

    A grid finds changes of sign; every local extreme that comes near zero is refined, so that two zeros between two
    grid points are found too; bisection does the rest.
    """
    points = np.linspace(low, high, GRID)
    values = switches(points)
    sign = np.signbit(values)
    row, at = np.nonzero(sign[:, 1:] != sign[:, :-1])
    left, right = points[at], points[at + 1]
    size = np.abs(values)
    dip = (size[:, 1:-1] < size[:, :-2]) & (size[:, 1:-1] < size[:, 2:])
    dip &= (sign[:, 1:-1] == sign[:, :-2]) & (sign[:, 1:-1] == sign[:, 2:])
    # A dip that stays higher than the fall towards it cannot reach zero between its neighbours.
    fall = np.maximum(size[:, :-2], size[:, 2:]) - size[:, 1:-1]
    dip &= size[:, 1:-1] < 0.6 * fall
    dip_row, dip_at = np.nonzero(dip)
    if len(dip_row):
        a, b = points[dip_at], points[dip_at + 2]
        index = np.arange(len(dip_row))
        side = np.where(sign[dip_row, dip_at + 1], -1.0, 1.0)
        for _ in range(18):
            m1, m2 = a + (b - a) * 0.45, a + (b - a) * 0.55
            f1, f2 = side * switches(m1)[dip_row, index], side * switches(m2)[dip_row, index]
            a, b = np.where(f1 < f2, a, m1), np.where(f1 < f2, m2, b)
        bottom = (a + b) / 2
        turned = np.signbit(switches(bottom)[dip_row, index]) != sign[dip_row, dip_at + 1]
        row = np.concatenate([row, dip_row[turned], dip_row[turned]])
        left = np.concatenate([left, points[dip_at][turned], bottom[turned]])
        right = np.concatenate([right, bottom[turned], points[dip_at + 2][turned]])
    if not len(row):
        return []
    index = np.arange(len(row))
    at_left, at_right = switches(left)[row, index], switches(right)[row, index]
    for step in range(80):
        # Regula falsi after Illinois, and a bisection every fourth time for those that it serves badly.
        with np.errstate(divide="ignore", invalid="ignore"):
            share = at_left / (at_left - at_right)
        share = np.where(np.isfinite(share) & (step % 4 < 3), share, 0.5)
        middle = left + (right - left) * share
        value = switches(middle)[row, index]
        same = np.signbit(value) == np.signbit(at_left)
        done = (right - left < 1e-14 * (high - low)) | (value == 0)
        left, right = np.where(same | done, middle, left), np.where(same & ~done, right, middle)
        at_left, at_right = (
            np.where(same, value, at_left / np.where(step % 4 < 3, 2, 1)),
            np.where(same, at_right / np.where(step % 4 < 3, 2, 1), value),
        )
        if done.all():
            break
    return sorted(zip((left + right) / 2, row))


def pieces(patch, outer):
    """The stretches of the inner interval that hold anything, cut at every switch, and a signature of the cuts."""
    low, high = patch.inner(outer)
    if not high > low:
        return [], ()
    found = [(low, -1), *crossings(lambda inner: patch.switches(outer, inner), low, high), (high, -2)]
    # Switches that vanish together are one cut; which of them comes first is chance.
    cuts = []
    for place, row in found:
        if cuts and place - cuts[-1][0] < 1e-9:
            cuts[-1][1].add(row)
        else:
            cuts.append((place, {row}))
    middles = np.array([(a[0] + b[0]) / 2 for a, b in zip(cuts, cuts[1:])])
    if not len(middles):
        return [], ()
    full = patch.columns(outer, middles)[0] > 0
    kept = [(a, b) for a, b, holds in zip(cuts, cuts[1:], full) if holds]
    signature = tuple((frozenset(a[1]), frozenset(b[1])) for a, b in kept)
    return [(a[0], b[0]) for a, b in kept], signature


def outer_breaks(patch, scan=20):
    """Where the cutting of the inner interval changes its pattern, by scan and bisection, besides the known breaks."""
    known = sorted(patch.breaks)
    breaks = [known[0]]
    for low, high in zip(known, known[1:]):
        if high - low < 1e-12:
            continue
        points = low + (high - low) * (np.arange(scan) + 0.5) / scan
        signatures = [pieces(patch, p)[1] for p in points]
        for a, b, sa, sb in zip(points, points[1:], signatures, signatures[1:]):
            # Between two patterns there may be a third: each change found splits off what is left.
            while sa != sb:
                left, right = a, b
                for _ in range(34):
                    middle = (left + right) / 2
                    signature = pieces(patch, middle)[1]
                    if signature == sa:
                        left = middle
                    else:
                        right, met = middle, signature
                breaks.append((left + right) / 2)
                if right == b:
                    break
                a, sa = right, met
                if b - a < 1e-9:
                    break
        # The pattern may change between the last point of the scan and the known break.
        for inner_point, edge, signature in ((points[0], low, signatures[0]), (points[-1], high, signatures[-1])):
            near = edge + (inner_point - edge) * 1e-6
            if pieces(patch, near)[1] != signature:
                left, right = inner_point, near
                for _ in range(34):
                    middle = (left + right) / 2
                    if pieces(patch, middle)[1] == signature:
                        left = middle
                    else:
                        right = middle
                breaks.append((left + right) / 2)
        breaks.append(high)
    return sorted(set(breaks))


def integrate(patch, n):
    """The ten moments of a patch with n nodes per piece in either direction.

    A patch has `breaks` (ends of the outer variable and its known kinks), `inner(outer)` (the inner interval),
    `switches(outer, inner)` (rows that vanish where the integrand has a kink) and `columns(outer, inner)`
    (the ten moments of the column over each point, times the measure).
    """
    if not hasattr(patch, "found"):
        patch.found = outer_breaks(patch)
    total = np.zeros(10)
    for low, high in zip(patch.found, patch.found[1:]):
        if high - low < 1e-11:
            continue
        for outer, weight in zip(*rule(low, high, n)):
            for a, b in pieces(patch, outer)[0]:
                inner, inner_weight = rule(a, b, n)
                total += weight * (patch.columns(outer, inner) @ inner_weight)
    return total


def column(x, y1, y2, z):
    """Moments of columns along y from y1 to y2 over the points (x, z); empty where y2 <= y1."""
    y2 = np.maximum(y1, y2)
    m0, m1, m2 = y2 - y1, (y2**2 - y1**2) / 2, (y2**3 - y1**3) / 3
    x, z = x + 0 * m0, z + 0 * m0
    return np.array([m0, x * m0, m1, z * m0, x * x * m0, m2, z * z * m0, x * m1, z * m1, z * x * m0])
