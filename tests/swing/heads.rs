//! What must hold of every sound head on a handle.

use approx::assert_relative_eq;
use headwright::design::{Side, starter, starter_names};
use headwright::swing::{Body, Drive, Held, Striker, Surface, Tool, tool};
use nalgebra::{Matrix3, Rotation3, Vector3};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::common::sound_designs;
use super::{elliptic, on_a_rod, upright};

const CASES: u32 = 300;

proptest! {
    #![proptest_config(ProptestConfig {
        cases: CASES,
        rng_seed: RngSeed::Fixed(11),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn masses_energies_and_shares_of_any_head_add_up(
        design in sound_designs(), speed in 3.0..12.0, turn in 0.0..std::f64::consts::TAU, share in 0.0..=1.0
    ) {
        let tool = on_a_rod(&design);
        let mass = tool.mass_kg();
        assert_relative_eq!(tool.balance_from_butt_mm + tool.balance_from_eye_mm, 320.0, max_relative = 1e-9);
        let inertia = tool.inertia_swing_kg_mm2;
        prop_assert!(inertia < tool.inertia_grip_kg_mm2);
        for end in &tool.ends {
            prop_assert!(end.effective_mass_kg <= mass * (1.0 + 1e-12));
            // No sting at the centre of percussion, and against the blow nearer to the hand.
            let slope = -tool.lever_mm / inertia;
            assert_relative_eq!(end.sting_per_ns, slope * end.beyond_percussion_mm, max_relative = 1e-6, epsilon = 1e-9);
            let side = end.striker.side;
            let swing = tool.swing(side, Drive::HeadSpeed { m_per_s: speed }).expect("a swing");
            prop_assert!(swing.delivered_j <= swing.energy_j * (1.0 + 1e-12));
            let again = tool.swing(side, Drive::Energy { joules: swing.energy_j }).expect("a swing");
            assert_relative_eq!(again.momentum_ns, swing.momentum_ns, max_relative = 1e-12);
            for angle in [end.tilt.in_swing, end.tilt.about_handle] {
                prop_assert!((0.0..=std::f64::consts::FRAC_PI_2).contains(&angle), "{angle}");
            }
            let (sin, cos) = turn.sin_cos();
            let far = share * end.striker.reach_towards([cos, sin]);
            let off = tool.off_centre(side, [far * cos, far * sin]).expect("on the face");
            let shares = off.shares;
            assert_relative_eq!(shares.straight + shares.swing + shares.twist, 1.0, max_relative = 1e-9);
            assert_relative_eq!(shares.straight, off.effective_mass_kg / mass, max_relative = 1e-12);
        }
        let centred = tool.off_centre(Side::Front, [0.0, 0.0]).expect("on the face");
        assert_relative_eq!(centred.effective_mass_kg, tool.ends[0].effective_mass_kg, max_relative = 1e-12);
    }

    /// A half turn about an upright handle: the ends change places, and so do the signs of what points to the front.
    #[test]
    fn a_head_turned_about_its_handle_changes_its_ends(design in sound_designs()) {
        let solid = design.build().expect("sound");
        let head = Body::of_head(&solid);
        let [x, y, z] = head.centroid_mm;
        let mut turned = Body { centroid_mm: [-x, -y, z], ..head };
        for (i, j) in [(0, 2), (2, 0), (1, 2), (2, 1)] {
            turned.inertia_kg_mm2[i][j] *= -1.0;
        }
        let [front, back] = Striker::both(&solid);
        let around = |end: &Striker, side| {
            let [x, y, z] = end.point_mm;
            let mut turned = Striker { side, point_mm: [-x, -y, z], ..*end };
            if let Surface::Pein { direction, .. } = &mut turned.surface {
                *direction *= -1.0;
            }
            turned
        };
        let ends = [around(&back, Side::Front), around(&front, Side::Back)];
        let (handle, held) = (elliptic(0.25, -150.0, 340.0, [15.0, 11.0]), upright(-270.0, -320.0));
        let one = tool(&head, &handle, &held, &[front, back]).expect("a tool");
        let other = tool(&turned, &handle, &held, &ends).expect("a tool");
        let same = |a: f64, b: f64| assert_relative_eq!(a, b, max_relative = 1e-9, epsilon = 1e-9);
        same(one.percussion_mm, other.percussion_mm);
        same(one.inertia_handle_axis_kg_mm2, other.inertia_handle_axis_kg_mm2);
        same(one.inertia_head_axis_kg_mm2, other.inertia_head_axis_kg_mm2);
        same(one.turning_moment_nmm, -other.turning_moment_nmm);
        same(one.hang_angle, -other.hang_angle);
        for side in Side::BOTH {
            let (here, there) = (one.end(side), other.end(side.other()));
            same(here.effective_mass_kg, there.effective_mass_kg);
            same(here.sting_per_ns, there.sting_per_ns);
            let far = here.striker.reach_towards([1.0, 0.5]);
            let (here, there) = (
                one.off_centre(side, [far * 0.8, far * 0.4]).expect("on the face"),
                other.off_centre(side.other(), [far * -0.8, far * 0.4]).expect("on the face"),
            );
            same(here.effective_mass_kg, there.effective_mass_kg);
            same(here.turning_per_ns[2], there.turning_per_ns[2]);
            same(here.turning_per_ns[1], -there.turning_per_ns[1]);
        }
    }
}

#[test]
fn the_sting_of_a_head_alike_on_both_sides_is_what_the_free_body_does_to_the_grip() {
    let mut seen = 0;
    for name in starter_names() {
        let design = starter(name).expect("a starter");
        let tool = on_a_rod(&design);
        for end in &tool.ends {
            // Whatever is not alike on both sides of the swing has a product of inertia with y.
            let about = tool.free.body().inertia_kg_mm2;
            if about[0][1].abs() + about[1][2].abs() > 1e-6 {
                continue;
            }
            seen += 1;
            let way = match end.striker.side {
                Side::Front => -1.0,
                Side::Back => 1.0,
            };
            let struck = tool.free.struck(end.striker.point_mm, [way, 0.0, 0.0]);
            let grip = Vector3::from(tool.free.velocity_at(&struck, [0.0, 0.0, -270.0]));
            assert_relative_eq!(
                way * grip.x,
                end.sting_per_ns,
                max_relative = 1e-9,
                epsilon = 1e-12
            );
        }
    }
    assert!(seen > 4, "{seen} ends of starters are alike on both sides");
}

/// A head and its handle turned together about the head's length are swung in a plane that is turned as much.
#[test]
fn a_tool_turned_about_the_heads_length_swings_as_before() {
    let solid = super::solid("rounding");
    let turn = Rotation3::from_axis_angle(&Vector3::x_axis(), 0.35);
    let place = |at: [f64; 3]| <[f64; 3]>::from(turn * Vector3::from(at));
    let body = |body: &Body| {
        let tensor = Matrix3::from_fn(|i, j| body.inertia_kg_mm2[i][j]);
        let turned = turn * tensor * turn.inverse();
        Body {
            mass_kg: body.mass_kg,
            centroid_mm: place(body.centroid_mm),
            inertia_kg_mm2: std::array::from_fn(|i| std::array::from_fn(|j| turned[(i, j)])),
        }
    };
    let (head, handle) = (
        Body::of_head(&solid),
        elliptic(0.25, -150.0, 340.0, [15.0, 11.0]),
    );
    let (held, ends) = (upright(-270.0, -320.0), Striker::both(&solid));
    let around = Held {
        grip_mm: place(held.grip_mm),
        butt_mm: place(held.butt_mm),
        axis: place(held.axis).map(|part| 7.0 * part),
    };
    let ends_around = ends.map(|end| Striker {
        point_mm: place(end.point_mm),
        ..end
    });
    let one = tool(&head, &handle, &held, &ends).expect("a tool");
    let other = tool(&body(&head), &body(&handle), &around, &ends_around).expect("a tool");
    let numbers = |tool: &Tool| {
        let [front, back] = tool.ends.map(|end| {
            [
                end.line_mm,
                end.sting_per_ns,
                end.effective_mass_kg,
                end.swing_mass_kg,
            ]
        });
        let whole = [
            tool.balance_from_butt_mm,
            tool.balance_from_eye_mm,
            tool.lever_mm,
            tool.inertia_grip_kg_mm2,
            tool.inertia_swing_kg_mm2,
            tool.inertia_head_axis_kg_mm2,
            tool.inertia_handle_axis_kg_mm2,
            tool.gyration_mm,
            tool.percussion_mm,
            tool.turning_moment_nmm,
        ];
        [front.as_slice(), &back, &whole].concat()
    };
    for (before, after) in numbers(&one).into_iter().zip(numbers(&other)) {
        assert_relative_eq!(before, after, max_relative = 1e-9, epsilon = 1e-9);
    }
}
