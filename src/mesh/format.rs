//! The formats in which a mesh leaves the program.

use super::{TriMesh, write_glb, write_stl, write_threemf};

/// A format of files that hold a head's shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Format {
    /// Binary STL: bare triangles, for any printer.
    Stl,
    /// 3MF: with unit, name and mass, for printers of today.
    ThreeMf,
    /// Binary glTF: with normals and steel, for showing.
    Glb,
}

impl Format {
    /// Every format, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Stl, Self::ThreeMf, Self::Glb];

    /// What a file's name ends in, after the dot.
    pub fn ending(self) -> &'static str {
        match self {
            Self::Stl => "stl",
            Self::ThreeMf => "3mf",
            Self::Glb => "glb",
        }
    }

    /// The name of the format itself.
    pub fn name(self) -> &'static str {
        match self {
            Self::Stl => "STL",
            Self::ThreeMf => "3MF",
            Self::Glb => "glTF",
        }
    }

    /// Its media type.
    ///
    /// # Source
    /// IANA, media types, tree `model`.
    pub fn media_type(self) -> &'static str {
        match self {
            Self::Stl => "model/stl",
            Self::ThreeMf => "model/3mf",
            Self::Glb => "model/gltf-binary",
        }
    }

    /// The format that belongs to the ending of a file's name, in small or capital letters.
    pub fn of_ending(ending: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|format| format.ending().eq_ignore_ascii_case(ending))
    }

    /// `mesh` as a file of this format, with the head's name and its finished mass, kg, where
    /// the format has a place for them.
    pub fn write(self, mesh: &TriMesh, name: &str, mass_kg: f64) -> Vec<u8> {
        match self {
            Self::Stl => write_stl(mesh),
            Self::ThreeMf => write_threemf(mesh, name, mass_kg),
            Self::Glb => write_glb(mesh, name, mass_kg),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_ending_belongs_to_one_format_in_small_or_capital_letters() {
        for format in Format::ALL {
            assert_eq!(Format::of_ending(format.ending()), Some(format));
            let capital = format.ending().to_uppercase();
            assert_eq!(Format::of_ending(&capital), Some(format));
        }
        for other in ["", "gltf", "obj", ".stl", "stl "] {
            assert_eq!(Format::of_ending(other), None, "{other}");
        }
    }
}
