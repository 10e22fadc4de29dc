//! A mesh made ready for a picture: normals that are smooth or split, sharp edges as lines.

use super::{Patch, TriMesh};

/// Cosine of the crease angle, 28°: two triangles that turn by less look like one smooth
/// surface, more is a sharp edge. A finer tolerance than [`SCREEN`](super::SCREEN) does not turn
/// by as much on any rounding that a design can have.
const CREASE: f64 = 0.883;

/// Cosine of half the crease angle: normals that close to their mean are within it of each other.
const HALF_CREASE: f64 = 0.9703;

/// Normals closer than this, as a cosine, are one.
const SAME: f64 = 0.99999;

/// Arrays for a graphics processor.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Display {
    /// [`Display::STRIDE`] numbers for each vertex: position, mm; unit normal of the smooth
    /// surface it is on; the patch as a number, in the order of [`Patch`]; unit vector outwards
    /// that is the same on all sides of a sharp edge.
    pub vertices: Vec<f32>,
    /// Three indices for each triangle, counter-clockwise as seen from outside.
    pub triangles: Vec<u32>,
    /// Six numbers for each sharp edge: its ends, mm.
    pub edges: Vec<f32>,
}

impl Display {
    /// Numbers for each vertex.
    pub const STRIDE: usize = 10;

    /// Number of vertices.
    pub fn vertex_count(&self) -> usize {
        self.vertices.len() / Self::STRIDE
    }
}

/// Makes `mesh` ready for a picture.
pub fn display(mesh: &TriMesh) -> Display {
    let facets: Vec<Facet> = mesh
        .triangles
        .iter()
        .map(|triangle| Facet::new(mesh, *triangle))
        .collect();
    let corners = Corners::new(mesh);
    let mut display = Display {
        vertices: Vec::with_capacity(mesh.positions.len() * Display::STRIDE * 5 / 4),
        triangles: vec![0; mesh.triangles.len() * 3],
        edges: Vec::new(),
    };
    let mut shading = Shading::default();
    for (vertex, position) in mesh.positions.iter().enumerate() {
        let around = corners.around(vertex);
        let smooth = shading.group(mesh, &facets, around);
        let first = display.vertex_count() as u32;
        let outwards = shading.outwards();
        for group in &shading.groups {
            let [x, y, z] = position.map(|v| v as f32);
            let [nx, ny, nz] = group.normal.map(|v| v as f32);
            let [ox, oy, oz] = outwards.map(|v| v as f32);
            let patch = f32::from(group.patch as u8);
            let numbers = [x, y, z, nx, ny, nz, patch, ox, oy, oz];
            display.vertices.extend_from_slice(&numbers);
        }
        for (corner, group) in around.iter().zip(&shading.chosen) {
            display.triangles[*corner as usize] = first + group;
        }
        if !smooth {
            sharp_edges(mesh, &facets, vertex as u32, around, &mut display.edges);
        }
    }
    display
}

/// A triangle's normal, as long as its area and of unit length.
struct Facet {
    area: [f64; 3],
    unit: [f64; 3],
}

impl Facet {
    fn new(mesh: &TriMesh, triangle: [u32; 3]) -> Self {
        let area = mesh.area_vector(triangle);
        Self {
            area,
            unit: unit(area),
        }
    }
}

fn dot(p: [f64; 3], q: [f64; 3]) -> f64 {
    p[0] * q[0] + p[1] * q[1] + p[2] * q[2]
}

fn unit(v: [f64; 3]) -> [f64; 3] {
    let length = dot(v, v).sqrt();
    if length > 0.0 {
        v.map(|component| component / length)
    } else {
        [0.0; 3]
    }
}

fn add(sum: &mut [f64; 3], v: [f64; 3]) {
    for (component, more) in sum.iter_mut().zip(v) {
        *component += more;
    }
}

/// The corners of triangles at each vertex: corner 3t + k is corner k of triangle t.
struct Corners {
    starts: Vec<u32>,
    list: Vec<u32>,
}

impl Corners {
    fn new(mesh: &TriMesh) -> Self {
        let mut starts = vec![0u32; mesh.positions.len() + 1];
        let all = || mesh.triangles.iter().flatten().map(|v| *v as usize);
        for v in all() {
            starts[v + 1] += 1;
        }
        for v in 1..starts.len() {
            starts[v] += starts[v - 1];
        }
        let mut next = starts.clone();
        let mut list = vec![0; mesh.triangles.len() * 3];
        for (corner, v) in all().enumerate() {
            list[next[v] as usize] = corner as u32;
            next[v] += 1;
        }
        Self { starts, list }
    }

    fn around(&self, vertex: usize) -> &[u32] {
        &self.list[self.starts[vertex] as usize..self.starts[vertex + 1] as usize]
    }
}

/// A normal of a vertex, for the triangles of one patch.
struct Group {
    normal: [f64; 3],
    patch: Patch,
}

/// The normals at one vertex, and which of them each triangle around it takes.
#[derive(Default)]
struct Shading {
    groups: Vec<Group>,
    chosen: Vec<u32>,
}

impl Shading {
    /// Finds the normals that the triangles around a vertex need, each the mean over all that
    /// are within the crease angle, by area: a large flat beside a rounding keeps its own normal.
    /// Returns whether the surface is smooth there.
    fn group(&mut self, mesh: &TriMesh, facets: &[Facet], around: &[u32]) -> bool {
        self.groups.clear();
        self.chosen.clear();
        let facet = |corner: &u32| &facets[*corner as usize / 3];
        let mut sum = [0.0; 3];
        for corner in around {
            add(&mut sum, facet(corner).area);
        }
        let mean = unit(sum);
        let smooth = around
            .iter()
            .all(|corner| dot(facet(corner).unit, mean) >= HALF_CREASE);
        for corner in around {
            let patch = mesh.patches[*corner as usize / 3];
            let group = if smooth {
                self.find(patch, |_| true)
                    .unwrap_or_else(|| self.push(mean, patch))
            } else {
                let normal = near(facets, around, facet(corner).unit);
                self.find(patch, |known| dot(known, normal) >= SAME)
                    .unwrap_or_else(|| self.push(normal, patch))
            };
            self.chosen.push(group);
        }
        smooth
    }

    fn find(&self, patch: Patch, alike: impl Fn([f64; 3]) -> bool) -> Option<u32> {
        let alike = |group: &Group| group.patch == patch && alike(group.normal);
        self.groups.iter().position(alike).map(|k| k as u32)
    }

    fn push(&mut self, normal: [f64; 3], patch: Patch) -> u32 {
        self.groups.push(Group { normal, patch });
        self.groups.len() as u32 - 1
    }

    fn outwards(&self) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for group in &self.groups {
            add(&mut sum, group.normal);
        }
        unit(sum)
    }
}

/// The mean normal of the triangles around a vertex that are within the crease angle of `own`.
fn near(facets: &[Facet], around: &[u32], own: [f64; 3]) -> [f64; 3] {
    let mut sum = [0.0; 3];
    for other in around {
        let facet = &facets[*other as usize / 3];
        if dot(own, facet.unit) >= CREASE {
            add(&mut sum, facet.area);
        }
    }
    unit(sum)
}

/// Adds the sharp edges from `vertex` to vertices of higher index.
fn sharp_edges(
    mesh: &TriMesh,
    facets: &[Facet],
    vertex: u32,
    around: &[u32],
    edges: &mut Vec<f32>,
) {
    let neighbour = |corner: u32, steps: u32| {
        let (triangle, k) = (corner / 3, corner % 3);
        mesh.triangles[triangle as usize][((k + steps) % 3) as usize]
    };
    for corner in around {
        let end = neighbour(*corner, 1);
        if end < vertex {
            continue;
        }
        // The triangle on the other side of the edge runs through it backwards.
        let other = around.iter().find(|other| neighbour(**other, 2) == end);
        let Some(other) = other else { continue };
        let [one, two] = [corner, other].map(|corner| facets[*corner as usize / 3].unit);
        if dot(one, two) < CREASE {
            for v in [vertex, end] {
                edges.extend(mesh.positions[v as usize].map(|value| value as f32));
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::starter;
    use crate::mesh::{SCREEN, tessellate};

    fn shown(name: &str) -> (TriMesh, Display) {
        let design = starter(name).expect("a starter");
        let mesh = tessellate(&design.build().expect("sound"), SCREEN);
        let shown = display(&mesh);
        (mesh, shown)
    }

    fn vertex(display: &Display, k: u32) -> &[f32] {
        &display.vertices[k as usize * Display::STRIDE..][..Display::STRIDE]
    }

    #[test]
    fn every_triangle_keeps_its_corners_and_faces_as_its_normals_do() {
        let (mesh, shown) = shown("rounding");
        assert_eq!(shown.triangles.len(), 3 * mesh.triangles.len());
        for (triangle, corners) in mesh.triangles.iter().zip(shown.triangles.chunks(3)) {
            let own = unit(mesh.area_vector(*triangle));
            for (v, k) in triangle.iter().zip(corners) {
                let numbers = vertex(&shown, *k);
                let at = mesh.positions[*v as usize].map(|value| value as f32);
                assert_eq!(numbers[..3], at);
                let normal = [3, 4, 5].map(|i| f64::from(numbers[i]));
                assert!((dot(normal, normal) - 1.0).abs() < 1e-5);
                assert!(dot(normal, own) > 0.8, "{normal:?} {own:?}");
            }
        }
    }

    #[test]
    fn a_vertex_is_split_only_where_normal_or_patch_change() {
        let (mesh, shown) = shown("rounding");
        let added = shown.vertex_count() - mesh.positions.len();
        assert!(added > 0 && added < mesh.positions.len() / 2, "{added}");
    }

    #[test]
    fn the_chamfered_cheeks_show_their_edges_and_the_rounded_rim_shows_none() {
        let (mesh, shown) = shown("rounding");
        let [low, high] = mesh.bounding_box().expect("not empty");
        let mut along = 0;
        for edge in shown.edges.chunks(6) {
            let (from, to) = (&edge[..3], &edge[3..]);
            if (from[0] - to[0]).abs() > 40.0 {
                along += 1;
            }
            // Land, rounded rim and crown go over smoothly: no edge in the outer millimetres.
            for x in [from[0], to[0]].map(f64::from) {
                assert!(x < high[0] - 6.0 && x > low[0] + 6.0, "{edge:?}");
            }
        }
        assert_eq!(along, 8, "two edges at each of four chamfers");
    }
}
