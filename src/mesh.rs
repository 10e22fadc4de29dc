//! The head as triangles: for the picture, for export and for checking the quadrature.
//!
//! [`tessellate`] divides the exact surface by a chord tolerance. The mesh is watertight,
//! oriented outwards, in one piece and of genus 1 for every sound head, because it is woven from
//! rings and strips by index: whether two vertices are the same is never asked of their
//! positions. Sharp edges of the definition are edges of the mesh.
//!
//! ```
//! use headwright::{design, mass, mesh};
//!
//! let solid = design::starter("rounding").expect("a starter").build().expect("sound");
//! let woven = mesh::tessellate(&solid, mesh::SCREEN);
//! let topology = mesh::check_closed(&woven).expect("watertight");
//! assert_eq!(topology.euler, 0);
//! let exact = mass::mass_properties(&solid).volume;
//! assert!((woven.volume() / exact - 1.0).abs() < 1e-3);
//! ```

use crate::design::Side;
use crate::solid::Solid;

mod block;
mod closed;
mod display;
mod end;
mod eye;
mod format;
mod glb;
mod integrals;
mod outline;
mod pein;
mod stl;
mod threemf;
mod weave;
mod zip;

pub use closed::{MeshFault, Topology, check_closed};
pub use display::{Display, display};
pub use format::Format;
pub use glb::write_glb;
pub use stl::{STL_HEADER, write_stl};
pub use threemf::write_threemf;

/// Chord tolerance for the screen, mm: finer than a pixel of any picture of a head.
pub const SCREEN: f64 = 0.01;
/// Chord tolerance for export, mm: finer than any file or printer.
pub const STL: f64 = 0.0015;
/// The finest chord tolerance, mm; a smaller one is taken as this.
pub const FINEST: f64 = 1e-5;
/// The coarsest chord tolerance, mm; a larger one is taken as this.
pub const COARSEST: f64 = 5.0;

/// What a triangle is part of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Patch {
    /// The outside of the cheek block.
    Cheek,
    /// The body between the block and a land, a ball or the nose of a pein.
    Neck,
    /// The straight run behind a face.
    Land,
    /// The broken rim of a face.
    Edge,
    /// A striking face, a ball or the nose of a pein.
    Crown,
    /// The wall of the eye.
    Eye,
}

/// A closed surface of triangles; lengths in mm, axes of the crate page, corners
/// counter-clockwise as seen from outside.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TriMesh {
    /// Vertices.
    pub positions: Vec<[f64; 3]>,
    /// Corners of the triangles, as indices into the vertices.
    pub triangles: Vec<[u32; 3]>,
    /// What each triangle is part of.
    pub patches: Vec<Patch>,
}

impl TriMesh {
    /// The smallest box along the axes around the mesh: least and greatest corner, mm. An empty
    /// mesh has none.
    pub fn bounding_box(&self) -> Option<[[f64; 3]; 2]> {
        let first = *self.positions.first()?;
        let mut corners = [first; 2];
        for position in &self.positions {
            for (axis, value) in position.iter().enumerate() {
                corners[0][axis] = corners[0][axis].min(*value);
                corners[1][axis] = corners[1][axis].max(*value);
            }
        }
        Some(corners)
    }

    /// The corners of a triangle.
    fn corners(&self, triangle: [u32; 3]) -> [[f64; 3]; 3] {
        triangle.map(|k| self.positions[k as usize])
    }
}

/// Divides the surface of `solid` so that it is nowhere further than about `accuracy`, mm, from
/// its triangles.
///
/// # Accuracy
/// Vertices lie on the surface; spacings go with the root of `accuracy`, so that volume and
/// inertia converge to those of [`mass_properties`](crate::mass::mass_properties) at second
/// order in the spacing. `accuracy` is taken between [`FINEST`] and [`COARSEST`].
pub fn tessellate(solid: &Solid, accuracy: f64) -> TriMesh {
    // A comparison with what is no number is false: such an accuracy is the coarsest.
    let accuracy = if accuracy < COARSEST {
        accuracy.max(FINEST)
    } else {
        COARSEST
    };
    let head = solid.head();
    let mut weaver = weave::Weaver::default();
    let rings = block::block(&mut weaver, accuracy, head);
    for (side, ring) in Side::BOTH.into_iter().zip(rings) {
        end::end(&mut weaver, accuracy, side, head.end(side), ring);
    }
    weaver.mesh
}
