//! Whether a mesh is a closed, oriented surface in one piece.

use super::TriMesh;

/// What a closed mesh consists of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Topology {
    /// Number of vertices.
    pub vertices: usize,
    /// Number of edges.
    pub edges: usize,
    /// Number of triangles.
    pub faces: usize,
    /// Vertices − edges + faces: 2 for a ball, 0 for a ring, such as a head with its eye.
    pub euler: i64,
}

/// Why a mesh is not a closed, oriented surface in one piece.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum MeshFault {
    /// A triangle without vertices.
    #[error("The mesh is empty: a closed surface needs at least four triangles.")]
    Empty,
    /// An index beyond the vertices.
    #[error("Triangle {triangle} names vertex {vertex}, but there are only {count}.")]
    NoSuchVertex {
        /// Index of the triangle.
        triangle: usize,
        /// The index it names.
        vertex: u32,
        /// Number of vertices.
        count: usize,
    },
    /// A coordinate that is no number.
    #[error("Vertex {0} has a coordinate that is not a number.")]
    NotANumber(usize),
    /// Two vertices at the same place.
    #[error("Vertices {0} and {1} lie at the same place.")]
    RepeatedVertex(usize, usize),
    /// A vertex without triangles.
    #[error("Vertex {0} belongs to no triangle.")]
    LooseVertex(usize),
    /// A triangle with a repeated corner or without area.
    #[error("Triangle {0} has no area.")]
    Degenerate(usize),
    /// A directed edge that two triangles have.
    #[error("Two triangles run from vertex {0} to vertex {1}: one of them is the wrong way round.")]
    Repeated(u32, u32),
    /// A directed edge without its reverse.
    #[error("The surface is open between vertices {0} and {1}.")]
    Open(u32, u32),
    /// More than one surface.
    #[error("The surface is in {0} pieces instead of one.")]
    Pieces(usize),
}

/// Checks that `mesh` is a closed, oriented surface in one piece: no vertex repeated (bit by
/// bit) or loose, no triangle without area, every directed edge once and its reverse once, all
/// triangles connected.
///
/// # Errors
/// The first fault found.
pub fn check_closed(mesh: &TriMesh) -> Result<Topology, MeshFault> {
    if mesh.triangles.is_empty() {
        return Err(MeshFault::Empty);
    }
    check_vertices(mesh)?;
    check_triangles(mesh)?;
    let edges = count_edges(mesh)?;
    let pieces = count_pieces(mesh)?;
    if pieces > 1 {
        return Err(MeshFault::Pieces(pieces));
    }
    let (vertices, faces) = (mesh.positions.len(), mesh.triangles.len());
    Ok(Topology {
        vertices,
        edges,
        faces,
        euler: vertices as i64 - edges as i64 + faces as i64,
    })
}

fn check_vertices(mesh: &TriMesh) -> Result<(), MeshFault> {
    let mut keys = Vec::with_capacity(mesh.positions.len());
    for (index, position) in mesh.positions.iter().enumerate() {
        if position.iter().any(|value| !value.is_finite()) {
            return Err(MeshFault::NotANumber(index));
        }
        // Adding zero makes one zero of the two that differ in their sign bit.
        keys.push((position.map(|value| (value + 0.0).to_bits()), index));
    }
    keys.sort_unstable();
    match keys.windows(2).find(|pair| pair[0].0 == pair[1].0) {
        Some(pair) => Err(MeshFault::RepeatedVertex(pair[0].1, pair[1].1)),
        None => Ok(()),
    }
}

fn check_triangles(mesh: &TriMesh) -> Result<(), MeshFault> {
    let count = mesh.positions.len();
    for (index, triangle) in mesh.triangles.iter().enumerate() {
        if let Some(vertex) = triangle.iter().find(|v| **v as usize >= count) {
            return Err(MeshFault::NoSuchVertex {
                triangle: index,
                vertex: *vertex,
                count,
            });
        }
        let [a, b, c] = *triangle;
        let repeated = a == b || b == c || c == a;
        if repeated || mesh.area_vector(*triangle) == [0.0; 3] {
            return Err(MeshFault::Degenerate(index));
        }
    }
    Ok(())
}

fn count_edges(mesh: &TriMesh) -> Result<usize, MeshFault> {
    let mut directed: Vec<(u32, u32)> = mesh
        .triangles
        .iter()
        .flat_map(|[a, b, c]| [(*a, *b), (*b, *c), (*c, *a)])
        .collect();
    directed.sort_unstable();
    if let Some(pair) = directed.windows(2).find(|pair| pair[0] == pair[1]) {
        return Err(MeshFault::Repeated(pair[0].0, pair[0].1));
    }
    match directed
        .iter()
        .find(|(from, to)| directed.binary_search(&(*to, *from)).is_err())
    {
        Some((from, to)) => Err(MeshFault::Open(*from, *to)),
        None => Ok(directed.len() / 2),
    }
}

fn count_pieces(mesh: &TriMesh) -> Result<usize, MeshFault> {
    let mut parents: Vec<usize> = (0..mesh.positions.len()).collect();
    let mut used = vec![false; mesh.positions.len()];
    fn root(parents: &mut [usize], mut k: usize) -> usize {
        while parents[k] != k {
            parents[k] = parents[parents[k]];
            k = parents[k];
        }
        k
    }
    for triangle in &mesh.triangles {
        let [a, b, c] = triangle.map(|v| v as usize);
        for v in [a, b, c] {
            used[v] = true;
        }
        for (v, w) in [(a, b), (b, c)] {
            let (v, w) = (root(&mut parents, v), root(&mut parents, w));
            parents[v] = w;
        }
    }
    if let Some(loose) = used.iter().position(|used| !used) {
        return Err(MeshFault::LooseVertex(loose));
    }
    Ok((0..parents.len()).filter(|k| parents[*k] == *k).count())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mesh::Patch;

    fn mesh(positions: &[[f64; 3]], triangles: &[[u32; 3]]) -> TriMesh {
        TriMesh {
            positions: positions.to_vec(),
            triangles: triangles.to_vec(),
            patches: vec![Patch::Cheek; triangles.len()],
        }
    }

    const CORNERS: [[f64; 3]; 4] = [
        [0.0, 0.0, 0.0],
        [3.0, 0.0, 0.0],
        [0.0, 4.0, 0.0],
        [0.0, 0.0, 5.0],
    ];
    const SIDES: [[u32; 3]; 4] = [[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]];

    #[test]
    fn a_tetrahedron_is_closed_and_a_ball() {
        let topology = check_closed(&mesh(&CORNERS, &SIDES)).expect("closed");
        assert_eq!((topology.edges, topology.euler), (6, 2));
    }

    #[test]
    fn a_missing_side_leaves_it_open() {
        let fault = check_closed(&mesh(&CORNERS, &SIDES[..3])).expect_err("open");
        assert!(matches!(fault, MeshFault::Open(..)), "{fault}");
    }

    #[test]
    fn a_side_the_wrong_way_round_is_found() {
        let mut sides = SIDES;
        sides[2].swap(0, 1);
        let fault = check_closed(&mesh(&CORNERS, &sides)).expect_err("turned");
        assert!(matches!(fault, MeshFault::Repeated(..)), "{fault}");
    }

    #[test]
    fn vertices_at_the_same_place_are_found_whatever_the_sign_of_zero() {
        let mut corners = CORNERS.to_vec();
        corners.push([-0.0, 4.0, 0.0]);
        let fault = check_closed(&mesh(&corners, &SIDES)).expect_err("repeated");
        assert_eq!(fault, MeshFault::RepeatedVertex(2, 4));
    }

    #[test]
    fn a_triangle_without_area_is_found() {
        let mut corners = CORNERS;
        corners[2] = [1.5, 0.0, 0.0];
        let fault = check_closed(&mesh(&corners, &SIDES)).expect_err("flat");
        assert_eq!(fault, MeshFault::Degenerate(0));
    }

    #[test]
    fn two_bodies_are_not_one() {
        let mut corners = CORNERS.to_vec();
        corners.extend(CORNERS.map(|[x, y, z]| [x + 10.0, y, z]));
        let mut sides = SIDES.to_vec();
        sides.extend(SIDES.map(|side| side.map(|v| v + 4)));
        assert_eq!(
            check_closed(&mesh(&corners, &sides)),
            Err(MeshFault::Pieces(2))
        );
    }

    #[test]
    fn faults_are_sentences() {
        let nothing = check_closed(&mesh(&[], &[])).expect_err("empty");
        assert!(nothing.to_string().ends_with('.'));
        let beyond = check_closed(&mesh(&CORNERS, &[[0, 1, 9]])).expect_err("beyond");
        assert_eq!(
            beyond.to_string(),
            "Triangle 0 names vertex 9, but there are only 4."
        );
    }
}
