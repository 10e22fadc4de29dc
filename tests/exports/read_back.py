"""Reads exported heads with public readers and prints what each finds.

    python read_back.py FILE...

The answer is a JSON list with one object for each file and reader: `file`, `reader`, whether the
surface is `closed`, how many `bodies` and which `euler` characteristic it has where the reader can
tell, `volume` and the corners of the `box` in the file's own unit and axes, and what else the
format carries: `unit`, `name`, `mass_kg`, `normals`, `material`.
"""

import importlib.util
import json
import sys

import numpy
import pygltflib
import stl.mesh
import trimesh


def box(points):
    """The least and the greatest corner of the points."""
    return [points.min(axis=0).tolist(), points.max(axis=0).tolist()]


def volume(corners):
    """The sum of the tetrahedra from the origin over triangles given by their corners."""
    a, b, c = (corners[:, k].astype(float) for k in range(3))
    return float(numpy.einsum("ij,ij->i", a, numpy.cross(b, c)).sum() / 6)


def closed(triangles):
    """Whether every side of a triangle is run through once and once the other way."""
    sides = numpy.concatenate([triangles[:, [k, (k + 1) % 3]] for k in range(3)])
    there = {tuple(side) for side in sides.tolist()}
    return len(there) == len(sides) and all((b, a) in there for a, b in there)


def merged(points):
    """A number for each point, the same for points at the very same place."""
    return numpy.unique(points, axis=0, return_inverse=True)[1].reshape(-1)


def with_trimesh(file):
    """Any of the formats, as trimesh merges and judges it."""
    scene = trimesh.load_scene(file)
    mesh = scene.to_mesh()
    # A viewer's file has one vertex for each normal of a place.
    mesh.merge_vertices(merge_tex=True, merge_norm=True)
    bodies = trimesh.graph.connected_components(mesh.face_adjacency, engine="networkx")
    found = {
        "closed": bool(mesh.is_watertight and mesh.is_winding_consistent),
        "bodies": len(bodies),
        "euler": int(mesh.euler_number),
        "triangles": len(mesh.faces),
        "volume": float(mesh.volume),
        "box": mesh.bounds.tolist(),
    }
    if not file.endswith(".stl"):
        found |= {"unit": scene.units, "name": next(iter(scene.geometry))}
    return found


def with_numpy_stl(file):
    """STL, with the normals as the file has them."""
    mesh = stl.mesh.Mesh.from_file(file, calculate_normals=False)
    points = mesh.vectors.reshape(-1, 3)
    facing = numpy.cross(mesh.v1 - mesh.v0, mesh.v2 - mesh.v0)
    facing /= numpy.linalg.norm(facing, axis=1, keepdims=True)
    return {
        # Its own judgement and sum go through every side in Python: seconds, on a slow machine many.
        "closed": closed(merged(points).reshape(-1, 3)),
        "triangles": len(mesh.vectors),
        "volume": volume(mesh.vectors),
        "box": box(points),
        # Of slivers the 32 bits of the corners leave the direction less exact.
        "normals": bool(numpy.einsum("ij,ij->i", facing, mesh.normals).min() > 0.99),
    }


def with_lib3mf(file):
    """3MF, read strictly: a warning is a fault."""
    import lib3mf

    model = lib3mf.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(True)
    reader.ReadFromFile(file)
    assert reader.GetWarningCount() == 0, [
        reader.GetWarning(k) for k in range(reader.GetWarningCount())
    ]
    objects = model.GetMeshObjects()
    assert objects.Count() == 1
    objects.MoveNext()
    mesh = objects.GetCurrentMeshObject()
    items = model.GetBuildItems()
    assert items.Count() == 1
    items.MoveNext()
    # Columns of three: the last one is the shift.
    turn = numpy.array([list(row) for row in items.GetCurrent().GetObjectTransform().Fields])
    points = numpy.array([list(vertex.Coordinates) for vertex in mesh.GetVertices()])
    points = points @ turn[:3] + turn[3]
    triangles = numpy.array([list(t.Indices) for t in mesh.GetTriangleIndices()])
    group = model.GetMetaDataGroup()
    entries = [group.GetMetaData(k) for k in range(group.GetMetaDataCount())]
    metadata = {entry.GetKey(): entry.GetValue() for entry in entries}
    return {
        "closed": bool(mesh.IsManifoldAndOriented()) and closed(triangles),
        "triangles": len(triangles),
        "volume": volume(points[triangles]),
        "box": box(points),
        "unit": model.GetUnit().name,
        "name": mesh.GetName(),
        "title": metadata["Title"],
        "mass_kg": float(metadata["urn:headwright:head:mass_kg"]),
    }


def with_pygltflib(file):
    """Binary glTF, number by number."""
    gltf = pygltflib.GLTF2().load(file)
    binary = gltf.binary_blob()

    def numbers(index, kind, width):
        accessor = gltf.accessors[index]
        view = gltf.bufferViews[accessor.bufferView]
        return numpy.frombuffer(
            binary, kind, accessor.count * width, view.byteOffset or 0
        ).reshape(-1, width)

    [node], [mesh], [material] = gltf.nodes, gltf.meshes, gltf.materials
    [primitive] = mesh.primitives
    assert primitive.material == 0 and node.mesh == 0
    points = numbers(primitive.attributes.POSITION, "<f4", 3)
    normals = numbers(primitive.attributes.NORMAL, "<f4", 3)
    triangles = numbers(primitive.indices, "<u4", 1).reshape(-1, 3)
    corners = points[triangles].astype(float)
    facing = numpy.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    along = numpy.einsum("ij,ikj->ik", facing, normals[triangles])
    lengths = numpy.linalg.norm(normals, axis=1)
    return {
        "closed": closed(merged(points)[triangles]),
        "triangles": len(triangles),
        "volume": volume(corners),
        "box": box(points),
        "name": node.name,
        "mass_kg": node.extras["mass_kg"],
        "normals": bool(abs(lengths - 1).max() < 1e-5 and along.min() > 0),
        "material": material.name,
        "metallic": material.pbrMetallicRoughness.metallicFactor,
    }


READERS = {
    "stl": {"trimesh": with_trimesh, "numpy-stl": with_numpy_stl},
    "3mf": {"trimesh": with_trimesh, "lib3mf": with_lib3mf},
    "glb": {"trimesh": with_trimesh, "pygltflib": with_pygltflib},
}


def main():
    """Reads every file with every reader of its format that there is."""
    if importlib.util.find_spec("lib3mf") is None:
        del READERS["3mf"]["lib3mf"]
    answers = []
    for file in sys.argv[1:]:
        for reader, read in READERS[file.rpartition(".")[2]].items():
            answers.append({"file": file, "reader": reader} | read(file))
    json.dump(answers, sys.stdout)


if __name__ == "__main__":
    main()
