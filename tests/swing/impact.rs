//! Blows on bodies that nothing holds: what is kept, what is shared, and that no frame is preferred.

use approx::assert_relative_eq;
use headwright::design::Side;
use headwright::swing::{Body, FreeBody};
use nalgebra::{Rotation3, Vector3};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{block_on_a_rod, cuboid, elliptic};

fn vector() -> impl Strategy<Value = Vector3<f64>> {
    [-100.0..100.0, -100.0..100.0, -100.0..100.0].prop_map(Vector3::from)
}

/// A body of seven balls of unlike mass, anywhere, and where each lies.
fn cloud() -> impl Strategy<Value = Vec<Body>> {
    let ball = (0.01..1.0, vector(), 1.0..20.0).prop_map(
        |(mass_kg, at, radius): (f64, Vector3<f64>, f64)| {
            let own = 0.4 * mass_kg * radius * radius;
            Body {
                mass_kg,
                centroid_mm: at.into(),
                inertia_kg_mm2: [[own, 0.0, 0.0], [0.0, own, 0.0], [0.0, 0.0, own]],
            }
        },
    );
    prop::collection::vec(ball, 7)
}

fn free(body: &Body) -> FreeBody {
    FreeBody::new(body, "body").expect("a body")
}

fn turned(ball: &Body, by: &Rotation3<f64>, then: &Vector3<f64>) -> Body {
    Body {
        centroid_mm: (by * Vector3::from(ball.centroid_mm) + then).into(),
        ..*ball
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 200,
        rng_seed: RngSeed::Fixed(7),
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// Of every ball by itself: the impulse is their momentum, its moment about any point their angular momentum, and
    /// half of the impulse times the struck point's speed their energy.
    #[test]
    fn momentum_angular_momentum_and_energy_are_those_of_the_impulse(
        balls in cloud(), at in vector(), impulse in vector(), about in vector()
    ) {
        let body = free(&Body::joined(&balls));
        let struck = body.struck(at.into(), impulse.into());
        let turning = Vector3::from(struck.turning_rad_per_s);
        let (mut momentum, mut angular, mut energy) = (Vector3::zeros(), Vector3::zeros(), 0.0);
        for ball in &balls {
            let place = Vector3::from(ball.centroid_mm);
            let velocity = Vector3::from(body.velocity_at(&struck, ball.centroid_mm));
            // A ball's own moment, in kg·m².
            let own = ball.inertia_kg_mm2[0][0] * 1e-6;
            momentum += velocity * ball.mass_kg;
            angular += (place - about).cross(&velocity) * 1e-3 * ball.mass_kg + turning * own;
            energy += 0.5 * (ball.mass_kg * velocity.norm_squared() + own * turning.norm_squared());
        }
        let moment = (at - about).cross(&impulse) * 1e-3;
        prop_assert!((momentum - impulse).norm() < 1e-9 * impulse.norm());
        prop_assert!((angular - moment).norm() < 1e-9 * (moment.norm() + impulse.norm()));
        let point = Vector3::from(body.velocity_at(&struck, at.into()));
        assert_relative_eq!(energy, 0.5 * impulse.dot(&point), max_relative = 1e-9);
        // The effective mass is the impulse over the speed that the point gains along it.
        let mass = body.effective_mass_kg(at.into(), impulse.into());
        assert_relative_eq!(mass, impulse.norm_squared() / impulse.dot(&point), max_relative = 1e-9);
        prop_assert!(mass <= body.body().mass_kg * (1.0 + 1e-12));
    }

    /// Bodies turned and moved before they are joined are struck alike.
    #[test]
    fn a_turned_and_moved_body_takes_a_blow_as_before(
        balls in cloud(), at in vector(), impulse in vector(), angles in vector(), by in vector()
    ) {
        let [roll, pitch, yaw]: [f64; 3] = angles.into();
        let rotation = Rotation3::from_euler_angles(roll, pitch, yaw);
        let here = Body::joined(&balls);
        let moved: Vec<Body> = balls.iter().map(|ball| turned(ball, &rotation, &by)).collect();
        let there = Body::joined(&moved);
        let (at_there, impulse_there) = (rotation * at + by, rotation * impulse);
        assert_relative_eq!(
            here.inertia_about_line(at.into(), impulse.into()),
            there.inertia_about_line(at_there.into(), impulse_there.into()),
            max_relative = 1e-9
        );
        let (here, there) = (free(&here), free(&there));
        assert_relative_eq!(
            here.effective_mass_kg(at.into(), impulse.into()),
            there.effective_mass_kg(at_there.into(), impulse_there.into()),
            max_relative = 1e-9
        );
        let turning = |body: &FreeBody, at: Vector3<f64>, impulse: Vector3<f64>| {
            Vector3::from(body.struck(at.into(), impulse.into()).turning_rad_per_s)
        };
        let (before, after) = (turning(&here, at, impulse), turning(&there, at_there, impulse_there));
        prop_assert!((rotation * before - after).norm() < 1e-8 * (1.0 + before.norm()));
    }
}

#[test]
fn a_blow_across_the_middle_twists_by_its_distance_over_the_inertia() {
    let tool = block_on_a_rod();
    let centred = tool.end(Side::Front).effective_mass_kg;
    let off = tool
        .off_centre(Side::Front, [9.0, 0.0])
        .expect("on the face");
    // About the handle 1404 kg·mm²: 9/1404 per kg·mm, a thousandfold per kg·m.
    assert_relative_eq!(
        off.handle_twist_per_ns,
        9.0e3 / 1404.0,
        max_relative = 1e-12
    );
    assert_eq!(off.swing_twist_per_ns, 0.0);
    // The free tool turns about its own centroid, whose x and z are coupled by a product of inertia: from the sums about
    // the centroid (4.8/1.4, −28.8/1.4), Ixx = 6427.34…, Izz = 1387.54… and Izx below.
    let (x, z) = (4.8 / 1.4, -28.8 / 1.4);
    let xx = 354.8 + 6_665.0 - 1.4 * z * z;
    let zz = 1_404.0 - 1.4 * x * x;
    let zx = -(1.2 * 4.0 * 1.0 - 1.4 * x * z);
    let inverse = xx / (xx * zz - zx * zx);
    let expected = 1.0 / (1.0 / centred + 81.0 * inverse);
    assert_relative_eq!(off.effective_mass_kg, expected, max_relative = 1e-12);
    assert_relative_eq!(off.lost_share, off.shares.twist, max_relative = 1e-12);
    assert_relative_eq!(
        off.shares.twist,
        81.0 * inverse * expected,
        max_relative = 1e-12
    );
    // The impulse pushes the front's +y side back: a turn to the left about z.
    assert_relative_eq!(off.turning_per_ns[2], 9.0e3 * inverse, max_relative = 1e-12);
    let other = tool
        .off_centre(Side::Front, [-9.0, 0.0])
        .expect("on the face");
    assert_eq!(other.effective_mass_kg, off.effective_mass_kg);
    assert_eq!(other.handle_twist_per_ns, -off.handle_twist_per_ns);
}

#[test]
fn a_blow_along_the_handle_moves_the_line_of_the_blow() {
    let tool = block_on_a_rod();
    let off = tool
        .off_centre(Side::Front, [0.0, 5.0])
        .expect("on the face");
    let beyond = 287.0 - tool.lever_mm;
    let swing = tool.inertia_swing_kg_mm2;
    assert_relative_eq!(off.swing_twist_per_ns, 5.0e3 / swing, max_relative = 1e-12);
    let expected = 1.0 / (1.0 / 1.4 + beyond * beyond / swing);
    assert_relative_eq!(off.effective_mass_kg, expected, max_relative = 1e-12);
    assert_relative_eq!(
        off.shares.swing,
        beyond * beyond / swing * expected,
        max_relative = 1e-12
    );
    assert_eq!(off.shares.twist, 0.0);
    // Towards the balance point the work gets more of the blow, not less.
    let nearer = tool
        .off_centre(Side::Front, [0.0, -5.0])
        .expect("on the face");
    assert!(off.lost_share > 0.0 && nearer.lost_share < 0.0);
}

#[test]
fn a_body_that_is_not_where_it_is_struck_still_turns_about_its_centroid() {
    let body = free(&Body::joined(&[
        cuboid(1.2, [4.0, 0.0, 1.0], [110.0, 40.0, 44.0]),
        elliptic(0.2, -150.0, 360.0, [14.0, 10.0]),
    ]));
    let struck = body.struck([59.0, 9.0, 2.0], [-3.0, 0.0, 0.0]);
    let centroid = body.body().centroid_mm;
    assert_eq!(body.velocity_at(&struck, centroid), struck.velocity_m_per_s);
    assert_eq!(struck.velocity_m_per_s, [-3.0 / 1.4, 0.0, 0.0]);
}
