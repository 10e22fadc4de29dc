//! Wrong input: exit status 2, nothing on standard output, one sentence on standard error.

use headwright::design::{Design, starter_names};

use super::{check_refused, file, lopsided, run};

#[test]
fn wrong_arguments_are_refused_in_one_sentence() {
    let design = lopsided().to_json();
    let refused = |arguments: &[&str], sentence: &str| {
        check_refused(arguments, design.as_bytes(), sentence);
    };
    refused(
        &[],
        "Say what to do: weigh, fit, effects, bar, drift, cut, swing, compare, heat, log, forged, measured, price, card, draw, rack, mesh, starter or schema; headwright --help tells how.",
    );
    refused(
        &["wiegh", "-"],
        "There is no command “wiegh”; the commands are weigh, fit, effects, bar, drift, cut, swing, compare, heat, log, forged, measured, price, card, draw, rack, mesh, starter and schema.",
    );
    for command in ["weigh", "fit", "effects", "bar", "drift", "cut", "mesh"] {
        refused(
            &[command],
            &format!("Name the design file after {command}, or - to read it from standard input."),
        );
    }
    refused(
        &["weigh", "-", "b"],
        "“b” is too much: weigh takes one design.",
    );
    refused(
        &["starter", "light", "b"],
        "“b” is too much: starter takes one name.",
    );
    refused(
        &["schema", "b"],
        "“b” is too much: schema takes nothing more.",
    );
    refused(
        &["weigh", "-", "--hold", "mass=1kg"],
        "weigh has no option --hold; headwright --help lists them.",
    );
    refused(
        &["bar", "-", "--out", "x"],
        "bar has no option --out; headwright --help lists them.",
    );
    for beside in [&["--hot", "1000C"], &["--slot", "12mm"]] {
        let arguments = [&["bar", "-", "--piece", "1.4kg"][..], beside].concat();
        let option = beside[0];
        refused(
            &arguments,
            &format!("bar --piece has no option {option}; headwright --help lists them."),
        );
    }
    refused(
        &["weigh", "-", "--rule", "1mm"],
        "weigh has no option --rule; headwright --help lists them.",
    );
    refused(
        &["weigh", "-", "--free", "front.reach"],
        "weigh has no option --free; headwright --help lists them.",
    );
    refused(
        &["bar", "-", "--lock", "front.reach"],
        "bar has no option --lock; headwright --help lists them.",
    );
    refused(
        &["fit", "-", "--free"],
        "Say after --free a size and its limits, such as front.reach=50mm..70mm.",
    );
    refused(
        &["fit", "-", "--lock"],
        "Say after --lock a size, such as front.reach.",
    );
    refused(
        &["fit", "-", "--accuracy", "1mm"],
        "fit has no option --accuracy; headwright --help lists them.",
    );
    refused(
        &["effects", "-", "--rule"],
        "Say after --rule the smallest division, such as 1mm or 1/16in.",
    );
    refused(
        &["effects", "-", "--rule", "1mm", "--rule", "2mm"],
        "--rule is given twice.",
    );
    refused(
        &["effects", "-", "--rule", "0mm"],
        "The rule: The smallest division you measure with is 0 mm. It must be at least 0.01 mm and at most 100 mm.",
    );
    refused(
        &["effects", "-", "--rule", "1kg"],
        "The rule: “1kg” is a mass, but a length is needed here. Use mm, cm or in.",
    );
    refused(
        &["effects", "-", "--accuracy=-1mm"],
        "An accuracy of -1 mm can’t be: it is how far off a length may be, either way.",
    );
    refused(
        &["effects", "-", "--accuracy", "wide"],
        "The accuracy: “wide” is not a number with a unit. Write a length such as 58 mm or 2 1/4 in.",
    );
    refused(
        &["weigh", "-", "--fast"],
        "weigh has no option --fast; headwright --help lists them.",
    );
    refused(
        &["weigh", "-", "-x"],
        "weigh has no option -x; headwright --help lists them.",
    );
    refused(
        &["--fast"],
        "headwright has no option --fast; headwright --help lists them.",
    );
    refused(
        &["mesh", "-"],
        "Say where the mesh goes: mesh DESIGN --out head.stl.",
    );
    refused(
        &["mesh", "-", "--out"],
        "Say after --out the file it goes to, such as head.stl or card.pdf.",
    );
    refused(
        &["mesh", "-", "--out", "a.stl", "--out", "b.stl"],
        "--out is given twice; say one file.",
    );
    for name in [
        "head",
        "head.obj",
        "head.gltf",
        "stl",
        "head.stl.gz",
        "head.",
    ] {
        refused(
            &["mesh", "never read", "--out", name],
            &format!(
                "“{name}” does not say its format: a mesh goes to a file that ends in .stl, .3mf or .glb."
            ),
        );
    }
    refused(
        &["fit", "-", "--hold"],
        "Say after --hold what to keep, such as mass=1.1kg.",
    );
    refused(
        &["fit", "-"],
        "Nothing is held: say what to keep, such as --hold mass=1.1kg --hold offset=0mm.",
    );
    let names: Vec<&str> = starter_names().collect();
    refused(
        &["starter", "gavel"],
        &format!(
            "There is no starter “gavel”; the starters are {}.",
            names.join(", ")
        ),
    );
}

#[test]
fn wrong_holds_are_refused_in_one_sentence() {
    let design = lopsided().to_json();
    for (hold, sentence) in [
        (
            "mass",
            "“mass” is not a hold; write a quantity and a value, such as mass=1.1kg or offset=0mm.",
        ),
        (
            "weight=1kg",
            "“weight” can’t be held; a hold is on mass, offset, inertia, reach_ratio, length, least_wall, tool_mass, balance_point or grip_inertia.",
        ),
        (
            "mass=1mm",
            "The hold on mass: “1mm” is a length, but a mass is needed here. Use g, kg, oz or lb.",
        ),
        (
            "mass=1.1",
            "The hold on mass: “1.1” has no unit. Write a mass such as 1.1 kg or 2 lb 6 oz.",
        ),
        (
            "mass=",
            "The hold on mass: Nothing is written here. Write a mass such as 1.1 kg or 2 lb 6 oz.",
        ),
        (
            "mass=NaN kg",
            "The hold on mass: “NaN kg” is not a number with a unit. Write a mass such as 1.1 kg \
             or 2 lb 6 oz.",
        ),
        (
            "mass=1e999kg",
            "The hold on mass: “1e999kg” is too large to be a mass.",
        ),
        (
            "mass=0kg",
            "The hold on mass, “0kg”, must be more than nothing.",
        ),
        (
            "mass=-1kg",
            "The hold on mass, “-1kg”, must be more than nothing.",
        ),
        (
            "mass=1kg±-1g",
            "The hold on mass, “1kg±-1g”, has a tolerance below nothing.",
        ),
        (
            "mass=2kg..1kg",
            "The hold on mass, “2kg..1kg”, has a lower limit above its upper one.",
        ),
        (
            "offset=1mm..-1mm",
            "The hold on offset, “1mm..-1mm”, has a lower limit above its upper one.",
        ),
    ] {
        check_refused(&["fit", "-", "--hold", hold], design.as_bytes(), sentence);
    }
}

#[test]
fn wrong_sizes_and_limits_are_refused_in_one_sentence() {
    let design = lopsided().to_json();
    for (option, text, sentence) in [
        (
            "--free",
            "nose",
            "There is no dimension called “nose”; a name looks like cheeks.length or front.reach.",
        ),
        (
            "--lock",
            "front.pein.nose",
            "This design has no size front.pein.nose; a design file lists those that it has.",
        ),
        (
            "--free",
            "front.reach=60mm",
            "“60mm” is no range; write two limits, such as front.reach=50mm..70mm.",
        ),
        (
            "--free",
            "front.reach=60mm..x",
            "The limits of front.reach: “x” is not a number with a unit. Write a length such as \
             58 mm or 2 1/4 in.",
        ),
        (
            "--free",
            "front.reach=1°..2°",
            "The limits of front.reach are to be lengths.",
        ),
        (
            "--free",
            "front.reach=70mm..60mm",
            "The limits of front.reach, “70mm..60mm”, begin above their end.",
        ),
    ] {
        let arguments = ["fit", "-", "--hold", "mass=1kg", option, text];
        check_refused(&arguments, design.as_bytes(), sentence);
    }
}

#[test]
fn files_that_cannot_be_read_or_written_are_refused_in_one_sentence() {
    let folder = env!("CARGO_TARGET_TMPDIR");
    let missing = file("no such.headwright.json");
    let missing = missing.to_str().expect("UTF-8");
    let shown = |name: &str| {
        let characters: Vec<char> = name.chars().collect();
        if characters.len() <= 60 {
            name.to_owned()
        } else {
            characters[..59].iter().collect::<String>() + "…"
        }
    };
    for command in [
        &["weigh", missing][..],
        &["bar", missing],
        &["fit", missing],
    ] {
        check_refused(
            command,
            b"",
            &format!(
                "The design file “{}” can’t be read: there is no such file.",
                shown(missing)
            ),
        );
    }
    check_refused(
        &["weigh", folder],
        b"",
        &format!(
            "The design file “{}” can’t be read: it is a folder.",
            shown(folder)
        ),
    );
    check_refused(
        &["weigh", "-"],
        &[0x7b, 0xff, 0xfe],
        "The design file “standard input” is not text: it is not UTF-8.",
    );
    check_refused(
        &["weigh", "-"],
        &vec![b' '; 1_000_001],
        "The design file “standard input” is larger than 1000 kB, which no design is.",
    );
    let folder = file("folder.stl");
    std::fs::create_dir_all(&folder).expect("made");
    let folder = folder.to_str().expect("UTF-8");
    check_refused(
        &["mesh", "-", "--out", folder],
        lopsided().to_json().as_bytes(),
        &format!("“{}” can’t be written: it is a folder.", shown(folder)),
    );
}

#[test]
fn designs_that_are_none_or_unsound_are_refused_on_one_line() {
    check_refused(
        &["weigh", "-"],
        b"",
        "This is not a design file: it is empty.",
    );
    check_refused(
        &["bar", "-"],
        b"{}",
        "This is not a design file: its format is not “headwright design”.",
    );
    let text = lopsided()
        .to_json()
        .replace("\"30 mm\"", "\"45 mm\"")
        .replace("\"48 mm\"", "\"4.8 mm\"");
    let design = Design::from_json(&text).expect("reads");
    let reasons = design.build().expect_err("unsound");
    for command in [
        &["weigh", "-"][..],
        &["bar", "-"],
        &["fit", "-", "--hold", "mass=1kg"],
        &["mesh", "-", "--out", "never.stl"],
    ] {
        let sentences: Vec<String> = reasons.iter().map(ToString::to_string).collect();
        check_refused(command, text.as_bytes(), &sentences.join(" "));
    }
    assert!(!std::path::Path::new("never.stl").exists());
    let bar = lopsided()
        .to_json()
        .replace("\"confidence\": 0.9", "\"confidence\": 2.0");
    check_refused(
        &["bar", "-"],
        bar.as_bytes(),
        "The confidence is 2. It must be at least 0.5 (as likely as not) and at most 0.999.",
    );
}

#[test]
fn a_piece_that_gives_no_head_is_refused_with_a_sentence() {
    let text = lopsided().to_json();
    for (piece, sentence) in [
        (
            "0.02kg",
            "The piece weighs 0.02 kg and the losses take 0.021967 kg of it, so that no head is left.",
        ),
        (
            "0kg",
            "The piece weighs 0 kg. It must weigh at least 0.001 kg and at most 200 kg.",
        ),
    ] {
        check_refused(&["bar", "-", "--piece", piece], text.as_bytes(), sentence);
    }
    check_refused(
        &["bar", "-", "--piece"],
        b"",
        "Say after --piece the mass of the piece, such as 1.42kg.",
    );
    check_refused(
        &["bar", "-", "--piece", "1kg", "--piece", "1kg"],
        b"",
        "--piece is given twice.",
    );
    check_refused(
        &["weigh", "-", "--piece", "1kg"],
        b"",
        "weigh has no option --piece; headwright --help lists them.",
    );
}

#[test]
fn two_reasons_are_told_together() {
    let design = lopsided();
    let mut text = design.to_json();
    for (from, to) in [
        ("\"length\": \"42 mm\"", "\"length\": \"30 mm\""),
        ("\"54 mm\"", "\"20 mm\""),
    ] {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    let output = run(&["weigh", "-"], text.as_bytes());
    let errors = String::from_utf8(output.stderr).expect("UTF-8");
    assert_eq!(errors.lines().count(), 1);
    assert!(errors.contains("The eye is 30 mm long"), "{errors}");
    assert!(errors.contains("At the back"), "{errors}");
}
