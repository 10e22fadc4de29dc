//! 3MF, the format of printers: a package around one XML text.

use std::fmt::Write;

use super::{TriMesh, zip};

const CONTENT_TYPES: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
"#;

const RELATIONSHIPS: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
"#;

const MODEL: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02" xmlns:head="urn:headwright:head">
"#;

/// `mesh` as a 3MF file in millimetres: one object called `name`, the handle axis upright, on
/// the plate.
///
/// The metadata hold the name as `Title`, the finished mass in words as `Description`, and
/// `mass_kg` as the number `head:mass_kg`. The text is stored as it is, not compressed; the same
/// head makes the same bytes.
///
/// # Accuracy
/// Coordinates have five decimals: rounded by at most 5e-6 mm.
///
/// # Source
/// 3MF Consortium, Core Specification and Reference Guide, version 1.4.0, chapters 2 to 4, in the
/// package of ECMA-376 part 2.
pub fn write_threemf(mesh: &TriMesh, name: &str, mass_kg: f64) -> Vec<u8> {
    let model = model(mesh, name, mass_kg);
    zip::package(&[
        ("[Content_Types].xml", CONTENT_TYPES.as_bytes()),
        ("_rels/.rels", RELATIONSHIPS.as_bytes()),
        ("3D/3dmodel.model", model.as_bytes()),
    ])
}

fn model(mesh: &TriMesh, name: &str, mass_kg: f64) -> String {
    let name = escaped(name);
    let mut text = String::with_capacity(
        1024 + 56 * mesh.positions.len() + 48 * mesh.triangles.len() + 2 * name.len(),
    );
    text.push_str(MODEL);
    // Writing to a text cannot fail.
    let _ = write!(
        text,
        "<metadata name=\"Title\">{name}</metadata>\n\
         <metadata name=\"Application\">Headwright</metadata>\n\
         <metadata name=\"Description\">Hammer head, finished mass {mass_kg:.3} kg</metadata>\n\
         <metadata name=\"head:mass_kg\" type=\"xs:decimal\">{mass_kg:.6}</metadata>\n\
         <resources>\n<object id=\"1\" type=\"model\" name=\"{name}\">\n<mesh>\n<vertices>\n"
    );
    for [x, y, z] in &mesh.positions {
        let _ = writeln!(text, "<vertex x=\"{x:.5}\" y=\"{y:.5}\" z=\"{z:.5}\"/>");
    }
    text.push_str("</vertices>\n<triangles>\n");
    for [a, b, c] in &mesh.triangles {
        let _ = writeln!(text, "<triangle v1=\"{a}\" v2=\"{b}\" v3=\"{c}\"/>");
    }
    // A printer's room begins at its corner: the head is moved out of the negative.
    let [x, y, z] = mesh.bounding_box().map_or([0.0; 3], |[least, _]| least);
    let _ = write!(
        text,
        "</triangles>\n</mesh>\n</object>\n</resources>\n<build>\n\
         <item objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 1 {:.5} {:.5} {:.5}\"/>\n\
         </build>\n</model>\n",
        -x, -y, -z
    );
    text
}

/// `text` fit for XML, between tags and in an attribute. What XML has no place for becomes a space.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\u{FFFE}' | '\u{FFFF}' => escaped.push(' '),
            c if c.is_control() => escaped.push(' '),
            c => escaped.push(c),
        }
    }
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mesh::Patch;

    /// A corner of a cube, closed.
    fn corner() -> TriMesh {
        TriMesh {
            positions: vec![
                [-1.0, 0.0, 0.5],
                [1.0, 0.0, 0.5],
                [0.0, 2.0, 0.5],
                [0.0, 0.0, 1.25],
            ],
            triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]],
            patches: vec![Patch::Cheek; 4],
        }
    }

    #[test]
    fn a_name_stays_a_name_whatever_it_holds() {
        assert_eq!(
            escaped("<&\"> Bär’s\t4\u{0}\u{FFFF}1/2\""),
            "&lt;&amp;&quot;&gt; Bär’s 4  1/2&quot;"
        );
        let text = model(&corner(), "<&\">", 0.25);
        assert_eq!(text.matches("&lt;&amp;&quot;&gt;").count(), 2);
        assert!(!text.contains("<&"));
    }

    #[test]
    fn the_model_names_its_unit_its_mass_and_every_vertex_and_triangle() {
        let text = model(&corner(), "Corner", 0.123_456_78);
        expect_test::expect![[r#"
            <?xml version="1.0" encoding="UTF-8"?>
            <model unit="millimeter" xml:lang="en" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02" xmlns:head="urn:headwright:head">
            <metadata name="Title">Corner</metadata>
            <metadata name="Application">Headwright</metadata>
            <metadata name="Description">Hammer head, finished mass 0.123 kg</metadata>
            <metadata name="head:mass_kg" type="xs:decimal">0.123457</metadata>
            <resources>
            <object id="1" type="model" name="Corner">
            <mesh>
            <vertices>
            <vertex x="-1.00000" y="0.00000" z="0.50000"/>
            <vertex x="1.00000" y="0.00000" z="0.50000"/>
            <vertex x="0.00000" y="2.00000" z="0.50000"/>
            <vertex x="0.00000" y="0.00000" z="1.25000"/>
            </vertices>
            <triangles>
            <triangle v1="0" v2="2" v3="1"/>
            <triangle v1="0" v2="1" v3="3"/>
            <triangle v1="1" v2="2" v3="3"/>
            <triangle v1="2" v2="0" v3="3"/>
            </triangles>
            </mesh>
            </object>
            </resources>
            <build>
            <item objectid="1" transform="1 0 0 0 1 0 0 0 1 1.00000 -0.00000 -0.50000"/>
            </build>
            </model>
        "#]]
        .assert_eq(&text);
    }
}
