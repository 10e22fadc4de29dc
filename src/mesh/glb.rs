//! glTF in its binary form, the format of viewers.

use super::{Display, TriMesh, display};

const MAGIC: u32 = 0x4654_6C67;
const VERSION: u32 = 2;
const JSON: u32 = 0x4E4F_534A;
const BINARY: u32 = 0x004E_4942;
/// Millimetres in the format's metre.
const MM: f64 = 1000.0;

/// What bare steel gives back of light that falls straight on it, red, green and blue, linear:
/// that of iron.
///
/// # Source
/// S. Lagarde, Feeding a physically based shading model, 2011, table of metals (from memory).
const STEEL: &str = "[0.56,0.57,0.58,1.0]";
/// Between a polish and a ground face; chosen by eye.
const ROUGHNESS: &str = "0.45";

/// `mesh` as a binary glTF file: one node called `name` in bare steel, `mass_kg` in its extras.
///
/// # Units and shape
/// The format is in metres with y up. A point (x, y, z) of the head, in mm, is written as
/// (x, z, −y)/1000: the head stands with its handle axis upright and its front to the right, as
/// in the side view. The vertices themselves are turned, so that no reader has to.
///
/// Normals are smooth over roundings and split at sharp edges, where a place has as many
/// vertices as it has normals: the surface is closed by place, not by index.
/// `mesh` has at least one triangle: the format knows no empty list.
///
/// # Accuracy
/// Coordinates are rounded to 32 bits: 8e-6 mm on a head of 100 mm.
///
/// # Source
/// Khronos Group, glTF 2.0 Specification, sections 3 and 4.
pub fn write_glb(mesh: &TriMesh, name: &str, mass_kg: f64) -> Vec<u8> {
    let display = display(mesh);
    let (binary, [least, most]) = buffer(&display);
    let mut json = document(&display, [least, most], binary.len(), name, mass_kg);
    // A chunk ends on four bytes; blanks mean nothing in JSON. The numbers of the other are whole fours.
    while !json.len().is_multiple_of(4) {
        json.push(' ');
    }
    let length = 12 + 8 + json.len() + 8 + binary.len();
    let mut bytes = Vec::with_capacity(length);
    for word in [MAGIC, VERSION, length as u32, json.len() as u32, JSON] {
        bytes.extend(word.to_le_bytes());
    }
    bytes.extend(json.as_bytes());
    for word in [binary.len() as u32, BINARY] {
        bytes.extend(word.to_le_bytes());
    }
    bytes.extend(binary);
    bytes
}

/// A direction of the head in the axes of the format.
fn upright([x, y, z]: [f32; 3]) -> [f32; 3] {
    // Not −0, which some readers print.
    [x, z, 0.0 - y]
}

/// Positions, normals and indices one after the other, and the least and greatest coordinates.
fn buffer(display: &Display) -> (Vec<u8>, [[f32; 3]; 2]) {
    let count = display.vertex_count();
    let mut bytes = Vec::with_capacity(count * 24 + display.triangles.len() * 4);
    let mut limits = [[f32::INFINITY; 3], [f32::NEG_INFINITY; 3]];
    let vertices = || display.vertices.chunks_exact(Display::STRIDE);
    for vertex in vertices() {
        let position =
            upright([vertex[0], vertex[1], vertex[2]]).map(|value| (f64::from(value) / MM) as f32);
        for (axis, value) in position.into_iter().enumerate() {
            limits[0][axis] = limits[0][axis].min(value);
            limits[1][axis] = limits[1][axis].max(value);
            bytes.extend(value.to_le_bytes());
        }
    }
    for vertex in vertices() {
        for value in upright([vertex[3], vertex[4], vertex[5]]) {
            bytes.extend(value.to_le_bytes());
        }
    }
    for index in &display.triangles {
        bytes.extend(index.to_le_bytes());
    }
    (bytes, limits)
}

/// The JSON that says what the numbers are.
fn document(
    display: &Display,
    [least, most]: [[f32; 3]; 2],
    bytes: usize,
    name: &str,
    mass_kg: f64,
) -> String {
    // A text is always JSON.
    let name = serde_json::to_string(name).unwrap_or_default();
    let vertices = display.vertex_count();
    let indices = display.triangles.len();
    // The format asks for the very numbers of the buffer: as 64 bits they are written in full.
    let exact = |corner: [f32; 3]| {
        let [x, y, z] = corner.map(f64::from);
        format!("[{x},{y},{z}]")
    };
    let (least, most) = (exact(least), exact(most));
    let (normals, triangles) = (vertices * 12, vertices * 24);
    let indexed = bytes - triangles;
    format!(
        "{{\"asset\":{{\"version\":\"2.0\",\"generator\":\"Headwright\"}},\
         \"scene\":0,\"scenes\":[{{\"nodes\":[0]}}],\
         \"nodes\":[{{\"name\":{name},\"mesh\":0,\"extras\":{{\"mass_kg\":{mass_kg:.6}}}}}],\
         \"meshes\":[{{\"name\":{name},\"primitives\":[{{\
         \"attributes\":{{\"POSITION\":0,\"NORMAL\":1}},\"indices\":2,\"material\":0}}]}}],\
         \"materials\":[{{\"name\":\"steel\",\"pbrMetallicRoughness\":{{\
         \"baseColorFactor\":{STEEL},\"metallicFactor\":1.0,\"roughnessFactor\":{ROUGHNESS}}}}}],\
         \"accessors\":[\
         {{\"bufferView\":0,\"componentType\":5126,\"count\":{vertices},\"type\":\"VEC3\",\
         \"min\":{least},\"max\":{most}}},\
         {{\"bufferView\":1,\"componentType\":5126,\"count\":{vertices},\"type\":\"VEC3\"}},\
         {{\"bufferView\":2,\"componentType\":5125,\"count\":{indices},\"type\":\"SCALAR\"}}],\
         \"bufferViews\":[\
         {{\"buffer\":0,\"byteLength\":{normals},\"target\":34962}},\
         {{\"buffer\":0,\"byteOffset\":{normals},\"byteLength\":{normals},\"target\":34962}},\
         {{\"buffer\":0,\"byteOffset\":{triangles},\"byteLength\":{indexed},\"target\":34963}}],\
         \"buffers\":[{{\"byteLength\":{bytes}}}]}}"
    )
}

#[cfg(test)]
mod tests {
    use serde_json::Value;

    use super::*;
    use crate::design::starter;
    use crate::mesh::{SCREEN, tessellate};

    fn mesh() -> TriMesh {
        let design = starter("rounding").expect("a starter");
        tessellate(&design.build().expect("sound"), SCREEN)
    }

    fn word(bytes: &[u8], at: usize) -> u32 {
        u32::from_le_bytes(bytes[at..at + 4].try_into().expect("four bytes"))
    }

    fn float(bytes: &[u8], at: usize) -> f32 {
        f32::from_bits(word(bytes, at))
    }

    /// The two chunks of a file.
    fn chunks(bytes: &[u8]) -> (Value, &[u8]) {
        assert_eq!(bytes[..4], *b"glTF");
        assert_eq!(word(bytes, 4), 2);
        assert_eq!(word(bytes, 8) as usize, bytes.len());
        let json = word(bytes, 12) as usize;
        assert_eq!(bytes[16..20], *b"JSON");
        assert_eq!(json % 4, 0);
        let binary = word(bytes, 20 + json) as usize;
        assert_eq!(bytes[24 + json..28 + json], *b"BIN\0");
        assert_eq!(28 + json + binary, bytes.len());
        let document = serde_json::from_slice(&bytes[20..20 + json]).expect("JSON");
        (document, &bytes[28 + json..])
    }

    #[test]
    fn the_views_fill_the_buffer_one_after_the_other() {
        let bytes = write_glb(&mesh(), "Rounding", 1.1);
        let (document, binary) = chunks(&bytes);
        let mut end = 0;
        for view in document["bufferViews"].as_array().expect("a list") {
            assert_eq!(view["byteOffset"].as_u64().unwrap_or(0), end);
            end += view["byteLength"].as_u64().expect("a length");
        }
        assert_eq!(end, binary.len() as u64);
        assert_eq!(document["buffers"][0]["byteLength"], end);
    }

    #[test]
    fn the_head_is_turned_upright_and_written_in_metres() {
        let mesh = mesh();
        let bytes = write_glb(&mesh, "Rounding", 1.1);
        let (document, binary) = chunks(&bytes);
        let [least, most] = mesh.bounding_box().expect("not empty");
        let position = &document["accessors"][0];
        let close = |value: &Value, mm: f64| {
            let value = value.as_f64().expect("a number");
            assert!((1000.0 * value - mm).abs() < 1e-5, "{value} is not {mm} mm");
        };
        for (axis, [low, high]) in [
            [least[0], most[0]],
            [least[2], most[2]],
            [-most[1], -least[1]],
        ]
        .into_iter()
        .enumerate()
        {
            close(&position["min"][axis], low);
            close(&position["max"][axis], high);
        }
        // The numbers said to be the least and the greatest stand in the buffer.
        let count = position["count"].as_u64().expect("a count") as usize;
        for axis in 0..3 {
            let values = (0..count).map(|k| float(binary, 12 * k + 4 * axis));
            let least = values.clone().fold(f32::INFINITY, f32::min);
            let most = values.fold(f32::NEG_INFINITY, f32::max);
            assert_eq!(position["min"][axis], f64::from(least));
            assert_eq!(position["max"][axis], f64::from(most));
        }
    }

    #[test]
    fn every_triangle_faces_the_way_of_its_normals() {
        let bytes = write_glb(&mesh(), "Rounding", 1.1);
        let (document, binary) = chunks(&bytes);
        let count = document["accessors"][0]["count"].as_u64().expect("a count") as usize;
        let three = |at: usize| [0, 4, 8].map(|skip| f64::from(float(binary, at + skip)));
        let indices: Vec<usize> = (24 * count..binary.len())
            .step_by(4)
            .map(|at| word(binary, at) as usize)
            .collect();
        assert_eq!(document["accessors"][2]["count"], indices.len());
        for triangle in indices.chunks(3) {
            let [a, b, c] = [0, 1, 2].map(|k| three(12 * triangle[k]));
            let [u, v] = [b, c].map(|p| [p[0] - a[0], p[1] - a[1], p[2] - a[2]]);
            let facing = [
                u[1] * v[2] - u[2] * v[1],
                u[2] * v[0] - u[0] * v[2],
                u[0] * v[1] - u[1] * v[0],
            ];
            for index in triangle {
                let n = three(12 * (count + index));
                assert!((n.iter().map(|k| k * k).sum::<f64>() - 1.0).abs() < 1e-5);
                let along: f64 = n.iter().zip(facing).map(|(n, f)| n * f).sum();
                assert!(along > 0.0, "{triangle:?}");
            }
        }
    }

    #[test]
    fn a_name_and_the_mass_travel_along() {
        let name = "<&\"> \\ Bär’s\n4\u{1}";
        let bytes = write_glb(&mesh(), name, 1.234_567_8);
        let (document, _) = chunks(&bytes);
        assert_eq!(document["nodes"][0]["name"], name);
        assert_eq!(document["nodes"][0]["extras"]["mass_kg"], 1.234_568);
        assert_eq!(document["materials"][0]["name"], "steel");
    }
}
