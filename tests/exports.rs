//! What is exported is read back by public readers that know nothing of this program.

use std::path::{Path, PathBuf};
use std::process::Command;

use headwright::design::{Design, starter, starter_names};
use headwright::mass::mass_properties;
use headwright::mesh::{Format, STL, TriMesh, check_closed, tessellate};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, RngSeed, TestRunner};
use serde_json::Value;

mod common;
#[path = "common/references.rs"]
mod references;

/// A chord tolerance that makes small files, mm: what is asked of a file does not depend on it.
const COARSE: f64 = 0.1;

/// A name with everything that XML and JSON have to write otherwise.
const AWKWARD: &str = "Bär’s <&\"> 4\" & 'so' \\ on";

/// A head written to a file, and what is to be found in it.
struct Written {
    path: PathBuf,
    format: Format,
    name: String,
    mass_kg: f64,
    mesh: TriMesh,
}

fn named(starter_name: &str) -> Design {
    starter(starter_name).expect("a starter")
}

fn head(design: &Design, accuracy: f64) -> (TriMesh, f64) {
    let solid = design.build().expect("sound");
    (tessellate(&solid, accuracy), mass_properties(&solid).mass)
}

/// Writes `mesh` in every format into the folder that tests may write to.
fn written(file: &str, name: &str, mesh: &TriMesh, mass_kg: f64) -> Vec<Written> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("exports");
    std::fs::create_dir_all(&folder).expect("a folder");
    let write = |format: Format| {
        let path = folder.join(format!("{file}.{}", format.ending()));
        std::fs::write(&path, format.write(mesh, name, mass_kg)).expect("written");
        Written {
            path,
            format,
            name: name.to_owned(),
            mass_kg,
            mesh: mesh.clone(),
        }
    };
    Format::ALL.map(write).into()
}

/// The readers of a format. The one of the 3MF consortium has no package for Linux on ARM.
fn readers(format: Format) -> Vec<&'static str> {
    match format {
        Format::Stl => vec!["trimesh", "numpy-stl"],
        Format::ThreeMf if cfg!(target_arch = "aarch64") => vec!["trimesh"],
        Format::ThreeMf => vec!["trimesh", "lib3mf"],
        Format::Glb => vec!["trimesh", "pygltflib"],
    }
}

/// The answer of a script in `tests/exports`.
fn answer<'a>(script: &str, paths: impl Iterator<Item = &'a Path>) -> Value {
    let python = std::env::var_os("HEADWRIGHT_PYTHON").expect(
        "HEADWRIGHT_PYTHON names no Python: run `bash .ci/check`, which makes one with the readers, \
         or set it to a Python that has what tests/exports/requirements.txt lists.",
    );
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/exports");
    let output = Command::new(python)
        .arg(folder.join(script))
        .args(paths)
        .output()
        .expect("the Python of HEADWRIGHT_PYTHON starts");
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{errors}");
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// What every reader found in the files, with the file it belongs to.
fn read_back(files: &[Written]) -> Vec<(&Written, Value)> {
    let found = answer("read_back.py", files.iter().map(|file| file.path.as_path()));
    let answers = found.as_array().expect("a list").clone();
    let expected: Vec<(&Written, &str)> = files
        .iter()
        .flat_map(|file| readers(file.format).into_iter().map(move |r| (file, r)))
        .collect();
    assert_eq!(answers.len(), expected.len(), "each file by each reader");
    let pair = |((file, reader), answer): ((_, _), Value)| {
        let file: &Written = file;
        assert_eq!(answer["file"], file.path.to_str().expect("UTF-8"));
        assert_eq!(answer["reader"], reader);
        (file, answer)
    };
    expected.into_iter().zip(answers).map(pair).collect()
}

/// The least and the greatest corner that a file must have in its own unit and axes.
fn expected_box(file: &Written) -> [[f64; 3]; 2] {
    let [least, most] = file.mesh.bounding_box().expect("not empty");
    match file.format {
        Format::Stl => [least, most],
        // On the plate, in its corner.
        Format::ThreeMf => [[0.0; 3], [0, 1, 2].map(|k| most[k] - least[k])],
        // In metres, the handle axis upright.
        Format::Glb => [
            [least[0], least[2], -most[1]],
            [most[0], most[2], -least[1]],
        ]
        .map(|corner| corner.map(|mm| mm / 1000.0)),
    }
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// Asserts all that a file must say of its head.
fn check(file: &Written, found: &Value) {
    let place = format!("{} by {}", file.path.display(), found["reader"]);
    let unit: f64 = match file.format {
        Format::Glb => 1e-3,
        Format::Stl | Format::ThreeMf => 1.0,
    };
    assert_eq!(found["closed"], true, "{place}");
    assert_eq!(found["triangles"], file.mesh.triangles.len(), "{place}");
    let ratio = number(&found["volume"]) / unit.powi(3) / file.mesh.volume();
    assert!((ratio - 1.0).abs() < 1e-5, "{place}: {ratio}");
    for (corner, expected) in expected_box(file).iter().enumerate() {
        for (axis, expected) in expected.iter().enumerate() {
            let off = number(&found["box"][corner][axis]) - expected;
            assert!(off.abs() < 2e-5 * unit, "{place}, corner {corner}: {off}");
        }
    }
    let reader = found["reader"].as_str().expect("a name");
    if reader == "trimesh" {
        assert_eq!(found["bodies"], 1, "{place}");
        let topology = check_closed(&file.mesh).expect("closed");
        assert_eq!(found["euler"], topology.euler, "{place}");
    }
    if reader == "numpy-stl" || reader == "pygltflib" {
        assert_eq!(found["normals"], true, "{place}");
    }
    // STL has no place for a name, and trimesh makes one up where there is none.
    let nameless = file.name.is_empty() && reader == "trimesh";
    if file.format != Format::Stl && !nameless {
        assert_eq!(found["name"], file.name, "{place}");
    }
    if reader == "lib3mf" || reader == "pygltflib" {
        let off = number(&found["mass_kg"]) - file.mass_kg;
        assert!(off.abs() <= 5.1e-7, "{place}: {off} kg");
    }
    match reader {
        "trimesh" if file.format == Format::ThreeMf => assert_eq!(found["unit"], "millimeter"),
        "trimesh" if file.format == Format::Glb => assert_eq!(found["unit"], "meters"),
        "lib3mf" => {
            assert_eq!(found["unit"], "MilliMeter");
            assert_eq!(found["title"], file.name);
        }
        "pygltflib" => {
            assert_eq!(found["material"], "steel");
            assert_eq!(found["metallic"], 1.0);
        }
        _ => {}
    }
}

#[test]
fn an_exported_head_reads_back_as_the_solid_it_was() {
    let design = named("rounding");
    let (mesh, mass) = head(&design, STL);
    for (file, found) in read_back(&written("rounding", &design.name, &mesh, mass)) {
        check(file, &found);
    }
}

#[test]
fn every_starter_reads_back_whatever_its_name() {
    let mut files = Vec::new();
    for starter_name in starter_names() {
        let design = named(starter_name);
        let (mesh, mass) = head(&design, COARSE);
        let file = format!("coarse-{starter_name}");
        files.extend(written(&file, &design.name, &mesh, mass));
    }
    let (mesh, mass) = head(&named("square"), COARSE);
    files.extend(written("awkward", AWKWARD, &mesh, mass));
    files.extend(written("nameless", "", &mesh, mass));
    for (file, found) in read_back(&files) {
        check(file, &found);
    }
}

#[test]
fn every_reference_head_reads_back() {
    let mut files = Vec::new();
    for (k, (name, design)) in references::reference_heads().into_iter().enumerate() {
        let (mesh, mass) = head(&design, COARSE);
        files.extend(written(&format!("reference-{k}"), &name, &mesh, mass));
    }
    for (file, found) in read_back(&files) {
        check(file, &found);
    }
}

/// Writes the corners and the triangles of `mesh` as plain numbers.
fn write_numbers(folder: &Path, name: &str, mesh: &TriMesh) {
    let corners = mesh.positions.iter().flatten();
    let corners: Vec<u8> = corners.flat_map(|number| number.to_le_bytes()).collect();
    let triangles = mesh.triangles.iter().flatten();
    let triangles: Vec<u8> = triangles
        .flat_map(|index| i64::from(*index).to_le_bytes())
        .collect();
    std::fs::write(folder.join(name).with_extension("vertices"), corners).expect("written");
    std::fs::write(folder.join(name).with_extension("triangles"), triangles).expect("written");
}

#[test]
fn no_triangle_of_a_random_head_passes_through_another() {
    const HEADS: u32 = 300;
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("crossings");
    std::fs::create_dir_all(&folder).expect("a folder");
    let config = Config {
        rng_seed: RngSeed::Fixed(1),
        ..Config::default()
    };
    let mut runner = TestRunner::new(config);
    for k in 0..HEADS {
        let drawn = common::sound_designs().new_tree(&mut runner);
        let design = drawn.expect("a design").current();
        write_numbers(&folder, &k.to_string(), &head(&design, COARSE).0);
    }
    // A cheek pulled through the head shows that a crossing would be found.
    let (mut mesh, _) = head(&named("rounding"), COARSE);
    mesh.positions[0][1] -= 100.0;
    write_numbers(&folder, "pulled", &mesh);
    let found = answer("crossings.py", [folder.as_path()].into_iter());
    let found = found.as_object().expect("an object");
    assert_eq!(found.len(), HEADS as usize + 1);
    for (name, count) in found {
        assert_eq!(*count == 0, name != "pulled", "{name}: {count} crossings");
    }
}

#[test]
fn a_missing_triangle_is_seen_by_every_reader() {
    let (mut mesh, mass) = head(&named("rounding"), COARSE);
    mesh.triangles.pop();
    mesh.patches.pop();
    for (file, found) in read_back(&written("open", "Open", &mesh, mass)) {
        assert_eq!(found["closed"], false, "{}: {found}", file.path.display());
        assert_eq!(found["triangles"], mesh.triangles.len());
    }
}

#[test]
fn the_same_head_makes_the_same_file() {
    let (mesh, mass) = head(&named("sledge"), COARSE);
    for format in Format::ALL {
        let bytes = format.write(&mesh, AWKWARD, mass);
        assert!(bytes == format.write(&mesh.clone(), AWKWARD, mass));
        assert!(
            bytes != format.write(&head(&named("square"), COARSE).0, AWKWARD, mass),
            "{} does not look at the mesh",
            format.name()
        );
    }
}
