"""The head of benches/kernels.rs, changed in its height and rebuilt by general-purpose kernels.

    python kernels.py TURNS

Prints a JSON object: for each kernel the milliseconds of one change with volume, centroid and
inertia (`weigh`), of the triangles to 0.01 mm besides (`mesh`), and the volume in mm³.
"""

import json
import math
import sys
import time

import manifold3d
import numpy
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge, BRepBuilderAPI_MakePolygon, BRepBuilderAPI_MakeWire
from OCP.BRepGProp import BRepGProp
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.GC import GC_MakeArcOfCircle
from OCP.GProp import GProp_GProps
from OCP.gp import gp_Pnt

TOLERANCE = 0.01
WIDTH, LENGTH, CHAMFER = 44.0, 42.0, 7.0
FACE, REACH, LAND = 38.0, 60.0, 14.0
# Height, half-length and half-width of the eye's outline at mouth, waist and mouth.
MOUTH, WAIST = (16.0, 11.0), (14.0, 9.5)


def octagon(width, height, leg):
    """Corners (y, z) of a chamfered rectangle, once round."""
    a, b = width / 2, height / 2
    quarter = [(a, b - leg), (a - leg, b)]
    half = quarter + [(-y, z) for y, z in reversed(quarter)]
    return half + [(-y, -z) for y, z in half]


def stations(height):
    """x and corners of the sections from the back face to the front face."""
    block = octagon(WIDTH, height, CHAMFER)
    face = octagon(FACE, FACE, FACE * (1 - math.sqrt(0.5)))
    half = LENGTH / 2
    return [(-REACH, face), (LAND - REACH, face), (-half, block), (half, block), (REACH - LAND, face), (REACH, face)]


def eye(height):
    """z, half-length and half-width of the outline at the mouths and the waist."""
    return [(-height / 2, *MOUTH), (0.0, *WAIST), (height / 2, *MOUTH)]


def boundary_wire(points):
    polygon = BRepBuilderAPI_MakePolygon()
    for point in points:
        polygon.Add(gp_Pnt(*point))
    polygon.Close()
    return polygon.Wire()


def obround_wire(z, p, q):
    straight = p - q
    wire = BRepBuilderAPI_MakeWire()
    for way in (1, -1):
        corners = [gp_Pnt(way * straight, -way * q, z), gp_Pnt(way * p, 0, z), gp_Pnt(way * straight, way * q, z)]
        wire.Add(BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(*corners).Value()).Edge())
        wire.Add(BRepBuilderAPI_MakeEdge(corners[2], gp_Pnt(-way * straight, way * q, z)).Edge())
    return wire.Wire()


def loft(wires):
    through = BRepOffsetAPI_ThruSections(True, True)
    for wire in wires:
        through.AddWire(wire)
    through.Build()
    return through.Shape()


def boundary_representation(height, with_mesh):
    """OpenCASCADE: ruled lofts and a cut."""
    body = loft([boundary_wire([(x, y, z) for y, z in corners]) for x, corners in stations(height)])
    head = BRepAlgoAPI_Cut(body, loft([obround_wire(*level) for level in eye(height)])).Shape()
    properties = GProp_GProps()
    # The adaptive rule (VolumePropertiesGK) agrees on this head to 1e-13 and takes 20 s.
    BRepGProp.VolumeProperties_s(head, properties)
    properties.CentreOfMass()
    properties.MatrixOfInertia()
    if with_mesh:
        BRepMesh_IncrementalMesh(head, TOLERANCE)
    return properties.Mass()


def outline(p, q):
    """Points of an obround whose chords are within the tolerance."""
    count = math.ceil(math.pi / math.sqrt(8 * TOLERANCE / q))
    turns = [math.pi * (k / count - 0.5) for k in range(count + 1)]
    right = [(p - q + q * math.cos(t), q * math.sin(t)) for t in turns]
    return right + [(-x, -y) for x, y in right]


def mesh_booleans(height, with_mesh):
    """manifold: hulls of the runs, joined, less the hulls of the eye's halves."""
    del with_mesh  # It has nothing but triangles.
    rings = [[(x, y, z) for y, z in corners] for x, corners in stations(height)]
    levels = [[(x, y, z) for x, y in outline(p, q)] for z, p, q in eye(height)]
    hulls = lambda rows: [manifold3d.Manifold.hull_points(numpy.array(a + b)) for a, b in zip(rows, rows[1:])]
    join = lambda parts: manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Add)
    head = join(hulls(rings)) - join(hulls(levels))
    triangles = head.to_mesh64()
    corners = triangles.vert_properties[:, :3][triangles.tri_verts]
    # Volume, centroid and second moments of the tetrahedra from the origin.
    a, b, c = (corners[:, k] for k in range(3))
    volumes = numpy.einsum("ij,ij->i", a, numpy.cross(b, c)) / 6
    total = corners.sum(axis=1)
    (volumes[:, None] * total).sum(axis=0) / 4
    numpy.einsum("i,ikj,ikl->jl", volumes, corners, corners) + numpy.einsum("i,ij,il->jl", volumes, total, total)
    return volumes.sum()


def timed(kernel, turns, with_mesh):
    """Milliseconds of one change, the median of all."""
    times = []
    for turn in range(turns):
        start = time.perf_counter()
        kernel(44.0 + 0.5 * (turn % 2), with_mesh)
        times.append((time.perf_counter() - start) * 1e3)
    return sorted(times)[turns // 2]


turns = int(sys.argv[1])
kernels = {"OpenCASCADE (cadquery-ocp)": boundary_representation, "manifold3d": mesh_booleans}
answer = {
    name: {
        "weigh": timed(kernel, turns, False),
        "mesh": timed(kernel, turns, True),
        "volume": kernel(44.0, False),
    }
    for name, kernel in kernels.items()
}
print(json.dumps(answer))
