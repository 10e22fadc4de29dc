//! The command line as a person or a script meets it: what goes in, what comes out, how it ends.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use headwright::design::{Design, starter, starter_names};
use headwright::mesh;
use serde_json::Value;

#[path = "cli/card.rs"]
mod card;
#[path = "cli/cut.rs"]
mod cut;
#[path = "cli/drifts.rs"]
mod drifts;
#[path = "cli/heat.rs"]
mod heat;
#[path = "cli/log.rs"]
mod log;
#[path = "cli/plan.rs"]
mod plan;
#[path = "cli/rack.rs"]
mod rack;
#[path = "cli/readings.rs"]
mod readings;
#[path = "cli/refused.rs"]
mod refused;
#[path = "cli/swing.rs"]
mod swing;

/// Runs the binary with `input` on standard input.
fn run(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_headwright"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the binary starts");
    // A command that does not read may close its input first; that is its right.
    let _ = child.stdin.take().expect("an input").write_all(input);
    child.wait_with_output().expect("the binary ends")
}

#[track_caller]
fn check_answer(arguments: &[&str], input: &str) -> Value {
    let output = run(arguments, input.as_bytes());
    let errors = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {errors}");
    assert_eq!(errors, "", "{arguments:?}");
    let answer: Value = serde_json::from_slice(&output.stdout).expect("one JSON value");
    assert!(answer.is_object(), "{arguments:?}");
    answer
}

#[track_caller]
fn check_refused(arguments: &[&str], input: &[u8], sentence: &str) {
    let output = run(arguments, input);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}");
    assert!(output.stdout.is_empty(), "{arguments:?}");
    let errors = String::from_utf8(output.stderr).expect("UTF-8");
    assert_eq!(errors, format!("{sentence}\n"), "{arguments:?}");
}

fn keys(value: &Value) -> Vec<&str> {
    // The answer's own order is lost on reading; the set is what is promised.
    let entries = value.as_object().expect("an object");
    entries.keys().map(String::as_str).collect()
}

fn sorted<'a>(keys: &[&'a str]) -> Vec<&'a str> {
    let mut keys = keys.to_vec();
    keys.sort_unstable();
    keys
}

fn number(value: &Value, key: &str) -> f64 {
    value[key].as_f64().expect("a number")
}

#[track_caller]
fn check_close(left: f64, right: f64, relative: f64) {
    let off = (left - right).abs();
    assert!(
        off <= relative * left.abs().max(right.abs()),
        "{left} is not {right}"
    );
}

/// A head that is alike on no two sides.
fn lopsided() -> Design {
    let mut design = starter("rounding").expect("a starter");
    for (dim, text) in [
        ("front.reach", "2 5/16 in"),
        ("back.face.width", "36 mm"),
        ("eye.top.width", "22 mm"),
        ("eye.waist_height", "1.5 mm"),
        ("cheeks.offset", "0.75 mm"),
    ] {
        let dim = dim.parse().expect("a dimension");
        let size: headwright::units::Measure = text.parse().expect("a size");
        // Lopsided: no size takes its fellow at the other end along.
        design = design
            .apply(headwright::design::Edit::Alike(dim, false))
            .apply(headwright::design::Edit::set(dim, size));
    }
    assert_eq!(design.build().err(), None);
    design
}

/// A file of this test in the folder that tests may write to.
fn file(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name)
}

#[test]
fn weigh_answers_with_the_promised_keys_and_numbers_that_agree() {
    let weighed = check_answer(&["weigh", "-"], &lopsided().to_json());
    let promised = [
        "volume_mm3",
        "mass_kg",
        "surface_mm2",
        "centroid_mm",
        "inertia_centroid_kg_mm2",
        "inertia_handle_axis_kg_mm2",
        "principal_moments_kg_mm2",
        "front_mass_kg",
        "back_mass_kg",
        "offset_mm",
        "hang_angle_deg",
        "least_wall_mm",
        "least_wall_at_mm",
    ];
    assert_eq!(sorted(&keys(&weighed)), sorted(&promised));

    let mass = number(&weighed, "mass_kg");
    check_close(mass, number(&weighed, "volume_mm3") * 7.85e-6, 1e-12);
    let (front, back) = (
        number(&weighed, "front_mass_kg"),
        number(&weighed, "back_mass_kg"),
    );
    check_close(front + back, mass, 1e-12);
    assert!((front - back).abs() > 0.01, "the head is lopsided");

    let list = |value: &Value| -> Vec<f64> {
        let list = value.as_array().expect("a list").iter();
        list.map(|number| number.as_f64().expect("a number"))
            .collect()
    };
    let centroid = list(&weighed["centroid_mm"]);
    check_close(centroid[0], number(&weighed, "offset_mm"), 1e-15);
    let angle = centroid[0].atan2(40.0 - centroid[2]).to_degrees();
    check_close(angle, number(&weighed, "hang_angle_deg"), 1e-12);
    assert!(
        centroid[0] > 0.5 && centroid[2].abs() > 0.001,
        "{centroid:?}"
    );

    let tensor: Vec<Vec<f64>> = weighed["inertia_centroid_kg_mm2"]
        .as_array()
        .expect("rows")
        .iter()
        .map(list)
        .collect();
    for (i, row) in tensor.iter().enumerate() {
        for (j, entry) in row.iter().enumerate() {
            assert_eq!(*entry, tensor[j][i]);
        }
    }
    assert!(
        tensor[0][2].abs() > 1e-3,
        "an upright eye off the middle tilts the axes"
    );
    let moments = list(&weighed["principal_moments_kg_mm2"]);
    assert!(moments[0] <= moments[1] && moments[1] <= moments[2]);
    let trace: f64 = (0..3).map(|i| tensor[i][i]).sum();
    check_close(moments.iter().sum(), trace, 1e-12);
    // Parallel axes: about the handle axis it is that about the centroid and m·(x² + y²).
    let about_axis = tensor[2][2] + mass * (centroid[0].powi(2) + centroid[1].powi(2));
    check_close(
        about_axis,
        number(&weighed, "inertia_handle_axis_kg_mm2"),
        1e-12,
    );
}

#[test]
fn a_design_is_read_from_a_file_as_well_as_from_standard_input() {
    let path = file("weigh me.headwright.json");
    std::fs::write(&path, lopsided().to_json()).expect("written");
    let named = check_answer(&["weigh", path.to_str().expect("UTF-8")], "");
    assert_eq!(named, check_answer(&["weigh", "-"], &lopsided().to_json()));
}

#[test]
fn a_fit_weighs_what_was_held_when_it_is_weighed_again() {
    let design = lopsided().to_json();
    let holds = ["--hold", "mass=1.15kg", "--hold", "offset=0mm"];
    let arguments = [&["fit", "-"][..], &holds].concat();
    let fitted = check_answer(&arguments, &design);
    assert_eq!(
        sorted(&keys(&fitted)),
        sorted(&[
            "outcome",
            "residuals",
            "changed",
            "active_bounds",
            "optimality",
            "design"
        ])
    );
    assert_eq!(fitted["active_bounds"], Value::Array(vec![]));
    assert!(number(&fitted, "optimality") < 1e-6);
    assert_eq!(fitted["outcome"], "met");
    let again = check_answer(&["weigh", "-"], &fitted["design"].to_string());
    assert!((number(&again, "mass_kg") - 1.15).abs() <= 1e-4);
    assert!(number(&again, "offset_mm").abs() <= 0.01);

    let residuals = fitted["residuals"].as_array().expect("a list");
    assert_eq!(residuals[0]["hold"], "mass");
    check_close(
        number(&residuals[0], "value"),
        number(&again, "mass_kg"),
        1e-9,
    );
    assert_eq!(residuals[1]["hold"], "offset");
    assert!(residuals.iter().all(|residual| residual["miss"] == 0.0));

    // What is said to have changed is what differs between the two designs.
    let before = lopsided();
    let after = Design::from_json(&fitted["design"].to_string()).expect("reads");
    let said: Vec<&str> = fitted["changed"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|change| change["size"].as_str().expect("a path"))
        .collect();
    let differs: Vec<String> = before
        .sizes()
        .into_iter()
        .filter(|(dim, length)| after.size(*dim) != Some(*length))
        .map(|(dim, _)| dim.to_string())
        .collect();
    assert_eq!(said, differs);
    assert!(!said.is_empty());

    // The holds went into the design: fitting it to its own holds leaves it alone.
    let settled = check_answer(&["fit", "-"], &fitted["design"].to_string());
    assert_eq!(settled["outcome"], "met");
    assert_eq!(settled["changed"], Value::Array(vec![]));
}

#[test]
fn holds_are_read_in_every_notation() {
    let design = lopsided().to_json();
    for (hold, low, high) in [
        ("mass=1.15kg", 1.1499, 1.1501),
        ("mass=2 lb 8 oz", 1.133_880_925, 1.134_080_925),
        ("mass=1.15kg±10g", 1.14, 1.16),
        ("mass = 1.15 kg +- 10 g", 1.14, 1.16),
        ("mass=1150g+/-0.01kg", 1.14, 1.16),
        ("mass=1.1kg..1.2kg", 1.1, 1.2),
        ("offset=0mm", -0.01, 0.01),
        ("offset=-0.1cm", -1.01, -0.99),
        ("offset=1/16 in ± 1/64 in", 1.190_625, 1.984_375),
        ("offset=-1mm..1 mm", -1.0, 1.0),
        ("inertia=1100 kg mm2 ± 20 kg·mm²", 1080.0, 1120.0),
        ("inertia=4 lb in2", 1_169.558_613_716_8, 1_171.558_613_716_8),
        ("reach_ratio=5/4", 1.249, 1.251),
        ("length=105mm..4 1/4in", 105.0, 107.95),
        ("least_wall=9mm ± 1/64in", 8.603_125, 9.396_875),
    ] {
        let fitted = check_answer(&["fit", "-", "--hold", hold], &design);
        assert_eq!(fitted["outcome"], "met", "{hold}");
        let residual = &fitted["residuals"][0];
        let off = 1e-8 * f64::abs(high);
        assert!(
            (number(residual, "low") - low).abs() < off,
            "{hold}: {residual}"
        );
        assert!(
            (number(residual, "high") - high).abs() < off,
            "{hold}: {residual}"
        );
        let value = number(residual, "value");
        assert!(low <= value && value <= high, "{hold}: {value}");
    }
}

#[test]
fn a_hold_may_have_one_end_alone() {
    let design = lopsided().to_json();
    let least = check_answer(&["fit", "-", "--hold", "mass=1.2kg.."], &design);
    assert_eq!(least["outcome"], "met");
    let residual = &least["residuals"][0];
    assert_eq!(
        (&residual["low"], &residual["high"]),
        (&1.2.into(), &Value::Null)
    );
    assert!((number(residual, "value") - 1.2).abs() < 1e-4, "{residual}");
    let most = check_answer(&["fit", "-", "--hold", "length = ..4 in"], &design);
    let residual = &most["residuals"][0];
    assert_eq!(
        (&residual["low"], &residual["high"]),
        (&Value::Null, &101.6.into())
    );
    assert!(
        (number(residual, "value") - 101.6).abs() < 1e-3,
        "{residual}"
    );
}

#[test]
fn sizes_are_freed_and_locked_for_a_fit() {
    let design = lopsided().to_json();
    let paths = |answer: &Value| -> Vec<String> {
        let changed = answer["changed"].as_array().expect("a list");
        let path = |change: &Value| change["size"].as_str().expect("a path").to_owned();
        changed.iter().map(path).collect()
    };
    let held = ["fit", "-", "--hold", "mass=1.1kg"];
    let usual = check_answer(&held, &design);
    assert!(paths(&usual).contains(&"cheeks.width".to_owned()));
    let locked = check_answer(&[&held[..], &["--lock", "cheeks.width"]].concat(), &design);
    assert_eq!(locked["outcome"], "met");
    assert!(!paths(&locked).contains(&"cheeks.width".to_owned()));

    let mut arguments = held.to_vec();
    for path in ["cheeks.width", "cheeks.height", "front.reach", "back.reach"] {
        arguments.extend(["--lock", path]);
    }
    arguments.extend(["--free", "front.face.width=20mm..60mm"]);
    let face = check_answer(&arguments, &design);
    assert_eq!(face["outcome"], "met");
    assert_eq!(paths(&face), ["front.face.width"]);
    assert!(face["design"]["design"]["free"]["front.face.width"]["high"] == "60 mm");
    arguments.extend(["--lock", "front.face.width", "--free", "front.reach"]);
    let reach = check_answer(&arguments, &design);
    assert_eq!(paths(&reach), ["front.reach"], "the later one counts");
}

#[test]
fn a_fit_that_cannot_be_says_why_and_ends_well() {
    let design = lopsided().to_json();
    let far = check_answer(&["fit", "-", "--hold", "mass=9kg"], &design);
    assert_eq!(far["outcome"], "out_of_reach");
    let residual = &far["residuals"][0];
    assert!(number(residual, "miss") < -1.0);
    let in_the_way = residual["in_the_way"].as_array().expect("a list");
    assert!(!in_the_way.is_empty());
    assert_eq!(residual["in_the_way"], far["active_bounds"]);
    for obstacle in in_the_way {
        let words = obstacle.as_str().expect("words");
        assert!(words.contains(" mm"), "{words} names no limit");
    }
    let moves = far["limits_to_move"].as_array().expect("a list");
    let change = &moves[0][0];
    assert_eq!(
        sorted(&keys(change)),
        sorted(&["size", "limit", "from", "to"])
    );
    let [size, to] = ["size", "to"].map(|key| change[key].as_str().expect("a text"));
    let wider = format!("{size}=20mm..{to}");
    let near = ["fit", "-", "--hold", "mass=9kg", "--free", &wider];
    if moves[0].as_array().map(Vec::len) == Some(1) {
        assert_eq!(check_answer(&near, &design)["outcome"], "met", "{wider}");
    }
    let twice = ["fit", "-", "--hold", "mass=1kg", "--hold", "mass=1.2kg"];
    let contrary = check_answer(&twice, &design);
    assert_eq!(contrary["outcome"], "contradictory");
    assert_eq!(contrary["contradicting"], Value::from(vec!["mass"]));
    assert_eq!(contrary["residuals"].as_array().map(Vec::len), Some(2));
}

#[test]
fn a_fit_on_a_rule_says_what_is_left_over_when_it_is_weighed_again() {
    let holds = ["fit", "-", "--hold", "mass=1.15kg", "--hold", "offset=0mm"];
    let plain = check_answer(&holds, &lopsided().to_json());
    for (rule, unit) in [("1mm", " mm"), ("1/16in", " in")] {
        let arguments = [&holds[..], &["--rule", rule]].concat();
        let answer = check_answer(&arguments, &lopsided().to_json());
        assert_eq!(answer["design"], plain["design"]);
        let rule = &answer["rule"];
        let promised = [
            "division",
            "outcome",
            "exact",
            "left_over",
            "changed",
            "design",
        ];
        assert_eq!(sorted(&keys(rule)), sorted(&promised));
        assert_eq!(rule["outcome"], "rounded");
        assert_eq!(rule["exact"], true);
        let weighed = check_answer(&["weigh", "-"], &rule["design"].to_string());
        let left = rule["left_over"].as_array().expect("a list");
        for (left, (hold, unit, key, wanted)) in left.iter().zip([
            ("mass", "kg", "mass_kg", 1.15),
            ("offset", "mm", "offset_mm", 0.0),
        ]) {
            assert_eq!(
                sorted(&keys(left)),
                sorted(&["hold", "unit", "value", "left_over"])
            );
            assert_eq!((&left["hold"], &left["unit"]), (&hold.into(), &unit.into()));
            let off = number(&weighed, key) - wanted;
            assert!(
                (number(left, "left_over") - off).abs() < 1e-9,
                "{left} {off}"
            );
            assert!(off.abs() > 1e-6, "a coarse rule leaves something over");
        }
        let changed = rule["changed"].as_array().expect("a list");
        assert!(!changed.is_empty());
        for change in changed {
            let to = change["to"].as_str().expect("a size");
            assert!(to.ends_with(unit) && !to.contains('.'), "{change}");
        }
    }
}

#[test]
fn a_fit_that_goes_on_no_rule_says_why_and_ends_well() {
    let mut design = lopsided();
    let reach: headwright::design::Dim = "front.reach".parse().expect("one");
    let mm = headwright::units::Length::mm;
    design.free.clear();
    design
        .free
        .insert(reach, headwright::design::Range::new(mm(58.2), mm(58.8)));
    let arguments = ["fit", "-", "--hold", "mass=1.1kg", "--rule", "1mm"];
    let answer = check_answer(&arguments, &design.to_json());
    let rule = &answer["rule"];
    assert_eq!(rule["outcome"], "no_division");
    assert_eq!(rule["design"], Value::Null);
    let reason = rule["reason"].as_str().expect("a sentence");
    assert!(reason.contains("58.2 mm and 58.8 mm"), "{reason}");
}

#[test]
fn effects_say_what_a_step_adds_when_it_is_taken_and_weighed() {
    let arguments = ["effects", "-", "--rule", "1/64 in", "--accuracy", "0.5mm"];
    let answer = check_answer(&arguments, &lopsided().to_json());
    let promised = [
        "step_mm",
        "step_deg",
        "accuracy_mm",
        "accuracy_deg",
        "mass_kg",
        "mass_spread_kg",
        "effects",
    ];
    assert_eq!(sorted(&keys(&answer)), sorted(&promised));
    assert_eq!(number(&answer, "step_mm"), 25.4 / 64.0);
    assert_eq!(number(&answer, "accuracy_mm"), 0.5);
    let before = check_answer(&["weigh", "-"], &lopsided().to_json());
    assert_eq!(number(&answer, "mass_kg"), number(&before, "mass_kg"));
    let effects = answer["effects"].as_array().expect("a list");
    // Of two that are alike the front's stands for both.
    assert_eq!(
        effects.len(),
        lopsided().sizes().len() - lopsided().alike.len()
    );
    let reach = effects
        .iter()
        .find(|effect| effect["size"] == "front.reach");
    let reach = reach.expect("the front's reach");
    let added = ["mass_kg", "offset_mm", "inertia_handle_axis_kg_mm2"];
    assert_eq!(
        sorted(&keys(reach)),
        sorted(&[&["size", "value"][..], &added].concat())
    );
    assert_eq!(reach["value"], "2 5/16 in");
    let size: headwright::units::Measure = "2 21/64 in".parse().expect("a size");
    let edit = headwright::design::Edit::set("front.reach".parse().expect("one"), size);
    let after = check_answer(&["weigh", "-"], &lopsided().apply(edit).to_json());
    for key in added {
        check_close(
            number(&after, key) - number(&before, key),
            number(reach, key),
            0.02,
        );
    }
    // √Σ (∂m/∂d · h)²/3 from the answer's own numbers, front and back each by itself; no angle
    // in this head.
    let squares = effects.iter().flat_map(|effect| {
        let with = effect
            .get("with")
            .map_or(0.0, |with| number(with, "mass_kg"));
        [number(effect, "mass_kg") - with, with].map(|mass| {
            let off = mass / number(&answer, "step_mm") * 0.5;
            off * off / 3.0
        })
    });
    check_close(
        number(&answer, "mass_spread_kg"),
        squares.sum::<f64>().sqrt(),
        1e-12,
    );
    // Without options the bar's own rule and half of it.
    let plain = check_answer(&["effects", "-"], &lopsided().to_json());
    let division = lopsided().bar.rule.division().in_mm();
    assert_eq!(number(&plain, "step_mm"), division);
    assert_eq!(number(&plain, "accuracy_mm"), 0.5 * division);
}

#[test]
fn the_bar_adds_up() {
    let bar = check_answer(&["bar", "-"], &lopsided().to_json());
    let promised = [
        "billet_mass_kg",
        "reserve_mass_kg",
        "rounding_mass_kg",
        "cut_mass_kg",
        "cut_length_mm",
        "finished_kg",
        "spread_kg",
        "before_grinding_kg",
        "after_grinding_kg",
        "finished_range_kg",
        "areas",
        "losses",
        "area_curve",
        "marks",
        "upsets",
        "hot_dimensions",
        "cautions",
        "drifts",
    ];
    assert_eq!(sorted(&keys(&bar)), sorted(&promised));
    let losses = bar["losses"].as_array().expect("a list");
    assert_eq!(losses.len(), 6);
    for loss in losses {
        let promised = [
            "kind",
            "name",
            "mass_kg",
            "percent_of_cut",
            "spread_kg",
            "source",
            "certainty",
        ];
        assert_eq!(sorted(&keys(loss)), sorted(&promised));
    }
    let finished = number(
        &check_answer(&["weigh", "-"], &lopsided().to_json()),
        "mass_kg",
    );
    let lost: f64 = losses.iter().map(|loss| number(loss, "mass_kg")).sum();
    let billet = number(&bar, "billet_mass_kg");
    check_close(billet, finished + lost, 1e-12);
    let (reserve, rounding) = (
        number(&bar, "reserve_mass_kg"),
        number(&bar, "rounding_mass_kg"),
    );
    check_close(
        number(&bar, "cut_mass_kg"),
        billet + reserve + rounding,
        1e-12,
    );
    // 45 mm round bar, cut on whole millimetres.
    let area = std::f64::consts::PI / 4.0 * 45.0 * 45.0;
    let length = number(&bar, "cut_length_mm");
    check_close(number(&bar, "cut_mass_kg"), length * area * 7.85e-6, 1e-12);
    assert_eq!(length.fract(), 0.0);
    assert!(reserve > 0.0 && rounding >= 0.0 && rounding < area * 7.85e-6);
}

#[test]
fn a_piece_gives_a_head_and_its_sizes() {
    let answer = check_answer(&["bar", "-", "--piece", "1.2kg"], &lopsided().to_json());
    let promised = [
        "piece_mass_kg",
        "finished_kg",
        "spread_kg",
        "finished_range_kg",
        "before_grinding_kg",
        "losses",
        "changed",
        "design",
    ];
    let held = answer.get("holds_missed").is_some();
    let missed = held.then_some("holds_missed");
    let promised: Vec<&str> = promised.into_iter().chain(missed).collect();
    assert_eq!(sorted(&keys(&answer)), sorted(&promised));
    let losses = answer["losses"].as_array().expect("a list");
    let lost: f64 = losses.iter().map(|loss| number(loss, "mass_kg")).sum();
    check_close(number(&answer, "finished_kg") + lost, 1.2, 1e-9);
    let fitted = answer["design"].to_string();
    let weighed = check_answer(&["weigh", "-"], &fitted);
    let off = number(&weighed, "mass_kg") - number(&answer, "finished_kg");
    assert!(off.abs() < 1e-6, "{off}");
    assert!(!answer["changed"].as_array().expect("a list").is_empty());
}

#[test]
fn a_mesh_goes_to_its_file_and_holds_the_heads_volume() {
    let path = file("head.stl");
    let name = path.to_str().expect("UTF-8");
    let answer = check_answer(&["mesh", "-", "--out", name], &lopsided().to_json());
    let bytes = std::fs::read(&path).expect("written");
    let count = u32::from_le_bytes(bytes[80..84].try_into().expect("four bytes"));
    assert_eq!(answer["triangles"], count);
    assert_eq!(bytes.len(), 84 + 50 * count as usize);
    // The sum of the tetrahedra from the origin over the triangles of the file itself.
    let float = |at: usize| {
        f64::from(f32::from_le_bytes(
            bytes[at..at + 4].try_into().expect("four bytes"),
        ))
    };
    let corner = |at: usize| [float(at), float(at + 4), float(at + 8)];
    let volume: f64 = (0..count as usize)
        .map(|index| {
            let [a, b, c] = [12, 24, 36].map(|skip| corner(84 + 50 * index + skip));
            (a[0] * (b[1] * c[2] - b[2] * c[1])
                + a[1] * (b[2] * c[0] - b[0] * c[2])
                + a[2] * (b[0] * c[1] - b[1] * c[0]))
                / 6.0
        })
        .sum();
    let exact = number(
        &check_answer(&["weigh", "-"], &lopsided().to_json()),
        "volume_mm3",
    );
    check_close(volume, exact, 2e-4);
    check_close(number(&answer, "volume_mm3"), volume, 1e-6);
}

#[test]
fn the_ending_of_the_file_chooses_the_format() {
    let design = lopsided();
    let head = mesh::tessellate(&design.build().expect("sound"), mesh::STL);
    let mass = number(&check_answer(&["weigh", "-"], &design.to_json()), "mass_kg");
    for (name, format) in [
        ("by ending.stl", mesh::Format::Stl),
        ("by ending.3mf", mesh::Format::ThreeMf),
        ("by ending.glb", mesh::Format::Glb),
        ("by ending.STL", mesh::Format::Stl),
        ("by.ending.3MF", mesh::Format::ThreeMf),
        ("by.stl.Glb", mesh::Format::Glb),
    ] {
        let path = file(name);
        let path_text = path.to_str().expect("UTF-8");
        let answer = check_answer(&["mesh", "-", "--out", path_text], &design.to_json());
        assert_eq!(answer["file"], path_text);
        assert_eq!(answer["triangles"], head.triangles.len());
        let bytes = std::fs::read(&path).expect("written");
        assert!(bytes == format.write(&head, &design.name, mass), "{name}");
    }
}

#[test]
fn weigh_says_how_thin_the_cheeks_get_and_where() {
    // An eye 21 mm wide at its mouths, in cheeks 42 mm wide that are flat up to 15 mm.
    let weighed = check_answer(
        &["weigh", "-"],
        &starter("rounding").expect("one").to_json(),
    );
    let wide = 19.0 + 2.0 * 15.0 / 21.0;
    check_close(
        number(&weighed, "least_wall_mm"),
        0.5 * (42.0 - wide),
        1e-12,
    );
    let at = weighed["least_wall_at_mm"].as_array().expect("a place");
    check_close(at[1].as_f64().expect("a number"), 0.5 * wide, 1e-12);
    check_close(at[2].as_f64().expect("a number").abs(), 15.0, 1e-12);
}

#[test]
fn weigh_lays_a_cocked_eye_against_the_true_handle_axis() {
    let cock = |path: &str, degrees: f64| {
        let angle = headwright::units::Angle::degrees(degrees);
        let dim = path.parse().expect("a dimension");
        headwright::design::Edit::Optional(dim, Some(angle.into()))
    };
    // A pein that drops: without it the centroid of body and eye both lie beside no leaning axis.
    let design = starter("cross")
        .expect("one")
        .apply(cock("eye.cock_along", 1.5))
        .apply(cock("eye.cock_across", -1.0));
    let weighed = check_answer(&["weigh", "-"], &design.to_json());
    let [along, across] = [1.5f64, -1.0].map(|degrees| degrees.to_radians().tan());
    let square = (along / (along * along + across * across + 1.0).sqrt()).asin();
    check_close(
        number(&weighed, "out_of_square_deg"),
        square.to_degrees(),
        1e-12,
    );
    let centroid = |k: usize| weighed["centroid_mm"][k].as_f64().expect("a number");
    let (sin, cos) = (-1f64).to_radians().sin_cos();
    let aside = centroid(1) * cos - centroid(2) * sin;
    assert!(aside.abs() > 1e-3, "{aside}");
    assert!((number(&weighed, "sideways_mm") - aside).abs() < 1e-12);
}

#[test]
fn starters_are_listed_one_word_a_line_and_each_can_be_printed_and_weighed() {
    let output = run(&["starter"], b"");
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).expect("UTF-8");
    let names: Vec<&str> = text.lines().collect();
    assert!(names.len() >= 6);
    assert_eq!(names, starter_names().collect::<Vec<_>>());
    for name in names {
        assert!(!name.contains(char::is_whitespace));
        let design = check_answer(&["starter", name], "");
        let weighed = check_answer(&["weigh", "-"], &design.to_string());
        let mass = number(&weighed, "mass_kg");
        assert!((0.5..=3.5).contains(&mass), "{name} weighs {mass} kg");
    }
}

#[test]
fn the_schema_is_the_one_beside_the_app() {
    let output = run(&["schema"], b"");
    let kept = include_str!("../public/design.schema.json");
    assert!(String::from_utf8(output.stdout).expect("UTF-8") == kept);
}

#[test]
fn help_names_every_command_and_the_version_is_the_packages() {
    for flag in ["--help", "-h"] {
        let output = run(&[flag], b"");
        assert_eq!(output.status.code(), Some(0));
        let help = String::from_utf8(output.stdout).expect("UTF-8");
        for command in [
            "weigh",
            "fit",
            "effects",
            "bar",
            "drift",
            "swing",
            "compare",
            "mesh",
            "starter",
            "schema",
            "--sweep",
            "--stature",
            "--hold",
            "--out",
            "--rule",
            "--accuracy",
            "--hot",
            "--from",
            "--table",
            "--slot",
            "--slit",
        ] {
            assert!(help.contains(command), "{command}");
        }
    }
    let output = run(&["--version"], b"");
    let expected = concat!("headwright ", env!("CARGO_PKG_VERSION"), "\n");
    assert_eq!(String::from_utf8_lossy(&output.stdout), expected);
}

#[test]
fn a_reader_that_closes_early_is_no_error() {
    // The schema is longer than a pipe holds only on some systems; the closed end is what counts.
    for arguments in [&["schema"][..], &["--help"], &["starter", "light"]] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_headwright"))
            .args(arguments)
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the binary starts");
        drop(child.stdout.take());
        let output = child.wait_with_output().expect("the binary ends");
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
        assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    }
}
