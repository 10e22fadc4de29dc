"""Makes heads.json: mass properties of the reference heads, computed from the definition of the shape alone.

    python -m venv .venv && .venv/bin/pip install -r requirements.txt
    .venv/bin/python heads.py            all heads (a few minutes)
    .venv/bin/python heads.py 5 7        only these, the others stay as they are

Every head is integrated three times (`routes.py`): by slices with FINE and with COARSE nodes per piece, and by columns,
which share neither variables nor cuts with the slices. The value is the one by slices, FINE; its accuracy is three
times the larger of the two differences, and never less than ROUNDOFF of the number's own scale. A fourth count, which
knows nothing but "is this point steel?" in implicit form (`Head.inside`), guards against an error that the
other three could share: quasi-random points must agree to COUNT_LIMIT of the number's scale.
Soundness is asserted: cheek walls, the eye's distance from the block's ends, land under the rim.

Every number in heads.json has a `value` and an `accuracy` (absolute, in the number's own unit): mm³, kg, mm, kg mm².
Off-diagonal terms of the tensor are −∫xy dm. `inertia_handle_axis` is about the z axis, also with a cocked eye;
`inertia_true_handle_axis` is about the line along (tan α, tan β, 1).
"""

import json
import sys
from pathlib import Path

import numpy as np
from scipy.stats import qmc

from definition import Head, half_width, sag, ROUND
from designs import DESIGNS
from routes import by_columns, by_slices

COARSE, FINE, COLUMNS = 14, 22, 16
ROUNDOFF = 1e-12
COUNT_POINTS, COUNT_LIMIT = 2**22, 2e-4
WALL, END_WALL = 6.0, 4.0
FILE = Path(__file__).with_name("heads.json")


def results(moments, head):
    """Results from the ten moments, by name."""
    v, x, y, z, xx, yy, zz, xy, yz, zx = moments
    rho = head.density
    cx, cy, cz = x / v, y / v, z / v
    xx0, yy0, zz0 = xx - v * cx * cx, yy - v * cy * cy, zz - v * cz * cz
    xy0, yz0, zx0 = xy - v * cx * cy, yz - v * cy * cz, zx - v * cz * cx
    second = np.array([[xx, xy, zx], [xy, yy, yz], [zx, yz, zz]])
    axis = np.array([head.eye.along, head.eye.across, 1.0])
    axis /= np.linalg.norm(axis)
    return {
        "volume": v,
        "mass": rho * v,
        "centroid": np.array([cx, cy, cz]),
        "inertia_centroid": rho * np.array([
            [yy0 + zz0, -xy0, -zx0], [-xy0, xx0 + zz0, -yz0], [-zx0, -yz0, xx0 + yy0]]),
        "inertia_handle_axis": rho * (xx + yy),
        "inertia_true_handle_axis": rho * (np.trace(second) - axis @ second @ axis),
    }


def scales(values, head):
    """The size against which an error of each result counts: a length for the centroid, the trace for a tensor."""
    longest = head.ends[0].reach + head.ends[1].reach
    size = np.trace(values["inertia_centroid"])
    return {"volume": values["volume"], "mass": values["mass"], "centroid": longest, "inertia_centroid": size,
            "inertia_handle_axis": size, "inertia_true_handle_axis": size}


def counted(head):
    """The ten moments by counting quasi-random points."""
    block = head.block
    half = max([block.section.a + block.swell] + [part.numbers(np.linspace(part.u0, part.u1, 9))[0].max()
               for end in head.ends for part in end.spans] + [end.tip.edge for end in head.ends if end.kind == "pein"]
               + [end.tip["r"] for end in head.ends if end.kind == "ball"])
    tall = half + block.section.b + block.top + block.bottom
    low, high = np.array([-head.ends[1].reach, -half, -tall]), np.array([head.ends[0].reach, half, tall])
    points, total = qmc.Sobol(3, seed=20), np.zeros(10)
    chunk = 2**18
    for _ in range(COUNT_POINTS // chunk):
        x, y, z = (low + (high - low) * points.random(chunk)).T
        steel = head.inside(x, y, z)
        x, y, z = x[steel], y[steel], z[steel]
        total += [len(x), x.sum(), y.sum(), z.sum(), x @ x, y @ y, z @ z, x @ y, y @ z, z @ x]
    return total * np.prod(high - low) / COUNT_POINTS


def check_sound(head):
    """Assert what makes a head sound beyond what reading it asserts; returns the least cheek wall found on a grid."""
    block, eye, s = head.block, head.eye, head.block.section
    least = np.inf
    level = s.b - s.d if s.b - s.d >= s.b / 2 else s.b / 2
    for z in np.linspace(-level, level, 401):
        p, q, c, d = eye.numbers(z)
        x = z * eye.along + np.linspace(-p, p, 401)
        (a, b, bc, bd, w), middle = block.numbers(x)
        body = half_width(z - middle, a, b, bc, bd, w)
        plug = half_width(x - z * eye.along, q, p, d, c, ROUND)
        least = min(least, (body - plug - abs(z * eye.across)).min())
    assert least >= WALL, f"cheek wall {least} mm"
    for z in np.linspace(eye.z_b, eye.z_t, 401):
        p, q, c, d = eye.numbers(z)
        assert c <= p + 1e-12 and d <= q + 1e-12, "the eye's corner is larger than its outline"
        assert block.front - (z * eye.along + p) >= END_WALL, "the eye comes too near the block's front end"
        assert block.back + (z * eye.along - p) >= END_WALL, "the eye comes too near the block's back end"
    for end in head.ends:
        if end.kind == "face":
            f = end.tip["section"]
            rim = np.linspace(0, f.b, 1001)
            r2 = (half_width(rim, *f.numbers()) ** 2 + rim**2).max()
            assert end.tip["crown"] ** 2 * r2 < 0.98
            assert end.reach - sag(r2, end.tip["crown"]) - end.tip["edge"] >= end.tip_from, "no land left at the rim"
    return least


def reference(document):
    """One entry of heads.json."""
    head = Head(document["design"])
    wall = check_sound(head)
    coarse = results(sum(by_slices(head, COARSE).values()), head)
    fine = results(sum(by_slices(head, FINE).values()), head)
    columns = results(sum(by_columns(head, COLUMNS).values()), head)
    count = results(counted(head), head)
    scale = scales(fine, head)
    stated, worst, counted_off = {}, {"resolutions": 0.0, "routes": 0.0}, 0.0
    for name, value in fine.items():
        doubled, routes = np.abs(value - coarse[name]), np.abs(value - columns[name])
        accuracy = 3 * np.maximum(doubled, routes) + ROUNDOFF * scale[name]
        # One accuracy for a whole vector or tensor: its worst term's.
        stated[name] = {"value": (np.asarray(value) + 0.0).tolist(), "accuracy": float(f"{np.max(accuracy):.2g}")}
        worst["resolutions"] = max(worst["resolutions"], float(np.max(doubled) / scale[name]))
        worst["routes"] = max(worst["routes"], float(np.max(routes) / scale[name]))
        counted_off = max(counted_off, float(np.max(np.abs(value - count[name])) / scale[name]))
    assert counted_off < COUNT_LIMIT, f"{document['design']['name']}: counting points differs by {counted_off}"
    shown = {name: float(f"{value:.1e}") for name, value in {**worst, "count": counted_off}.items()}
    print(f"{document['design']['name']}: wall {wall:.2f} mm, volume {fine['volume']:.6f} mm³, differences {shown}", flush=True)
    return {"design": document, "results": stated, "relative_differences": shown}


UNITS = {"volume": "mm³", "mass": "kg", "centroid": "mm", "inertia_centroid": "kg mm²",
         "inertia_handle_axis": "kg mm²", "inertia_true_handle_axis": "kg mm²"}


def main():
    chosen = [int(number) for number in sys.argv[1:]] or range(1, len(DESIGNS) + 1)
    entries = json.loads(FILE.read_text(encoding="utf-8"))["heads"] if FILE.exists() else []
    entries = {entry["design"]["design"]["name"]: entry for entry in entries}
    for number in chosen:
        document = DESIGNS[number - 1]
        entries[document["design"]["name"]] = reference(document)
        heads = [entries[d["design"]["name"]] for d in DESIGNS if d["design"]["name"] in entries]
        text = json.dumps({"made_by": "heads.py", "units": UNITS, "heads": heads}, indent=1, ensure_ascii=False)
        FILE.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
