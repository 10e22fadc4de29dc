//! Binary STL.

use super::TriMesh;

/// The 80 bytes at the head of a file, up to the zeros that fill them.
pub const STL_HEADER: &str = "Headwright; lengths in mm";

const HEADER_BYTES: usize = 80;
const TRIANGLE_BYTES: usize = 50;

/// `mesh` as a binary STL file, lengths in mm.
///
/// Each triangle is its unit normal, its corners counter-clockwise as seen from outside, all as
/// little-endian 32-bit floats, and two zero bytes.
///
/// # Accuracy
/// Coordinates are rounded to 32 bits: 4e-6 mm on a head of 100 mm.
///
/// # Source
/// The format has no standard; as described in M. Burns, Automated Fabrication, Prentice Hall
/// 1993, section 6.5 (from memory).
pub fn write_stl(mesh: &TriMesh) -> Vec<u8> {
    // The format counts in 32 bits; vertices are counted in 32 bits too, and a closed surface of
    // genus 1 has twice as many triangles as vertices, so that a mesh near the limit would not
    // fit into memory first. What is beyond is left out rather than miscounted.
    let count = u32::try_from(mesh.triangles.len()).unwrap_or(u32::MAX);
    let mut bytes = Vec::with_capacity(HEADER_BYTES + 4 + count as usize * TRIANGLE_BYTES);
    bytes.extend_from_slice(STL_HEADER.as_bytes());
    bytes.resize(HEADER_BYTES, 0);
    bytes.extend_from_slice(&count.to_le_bytes());
    for triangle in mesh.triangles.iter().take(count as usize) {
        let normal = mesh.area_vector(*triangle);
        let length = normal.iter().map(|n| n * n).sum::<f64>().sqrt();
        let unit = normal.map(|n| if length > 0.0 { n / length } else { 0.0 });
        for point in [unit].iter().chain(&mesh.corners(*triangle)) {
            for value in point {
                bytes.extend_from_slice(&(*value as f32).to_le_bytes());
            }
        }
        bytes.extend_from_slice(&[0, 0]);
    }
    bytes
}
