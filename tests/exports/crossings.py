"""Looks for triangles of a surface that pass through each other, by the exact predicates of CGAL.

    python crossings.py FOLDER

FOLDER holds pairs of files: NAME.vertices, three doubles each, and NAME.triangles, three 64-bit
indices each. The answer is a JSON object of how many pairs of triangles cross in each NAME.
"""

import json
import pathlib
import sys

import numpy
from igl.copyleft.cgal import remesh_self_intersections


def crossings(path):
    """How many pairs of triangles cross, in a surface that is not changed."""
    vertices = numpy.fromfile(path, dtype="<f8").reshape(-1, 3)
    triangles = numpy.fromfile(path.with_suffix(".triangles"), dtype="<i8").reshape(-1, 3)
    found = remesh_self_intersections(vertices, triangles, detect_only=True)
    return len(found[2])


files = sorted(pathlib.Path(sys.argv[1]).glob("*.vertices"))
print(json.dumps({path.stem: crossings(path) for path in files}))
