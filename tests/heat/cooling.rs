//! Cooling rounds and plates against a numerical solution that knows no series, and against their limits.

use approx::{assert_abs_diff_eq, assert_relative_eq};
use headwright::heat::cooling::{
    Plate, RATES, Round, end_quench_by_half_mm, end_quench_by_rate_mm,
};

/// When a round of this Biot number (hR/k) comes to half of its first temperature at its skin, halfway in and at its
/// centre, by finite volumes: `cells` rings of equal thickness, implicit in time after Crank and Nicolson with a step in
/// proportion to the ring, begun with a few fully implicit steps because the skin is shocked.
fn half_times(biot: f64, cells: usize) -> [f64; 3] {
    const SHOCKED: usize = 4;
    let ring = 1.0 / cells as f64;
    let step = 0.01 * ring / f64::max(biot, 1.0);
    // What flows in for each degree from the inner and to the outer neighbour, per heat capacity.
    let flow = |k: usize| {
        let volume = (k as f64 + 0.5) * ring * ring;
        let inner = k as f64 / volume;
        let outer = if k + 1 == cells {
            1.0 / (0.5 * ring + 1.0 / biot) / volume
        } else {
            (k + 1) as f64 / volume
        };
        (inner, outer)
    };
    let flows: Vec<(f64, f64)> = (0..cells).map(flow).collect();
    let mut left = vec![1.0; cells];
    let places = |left: &[f64]| {
        let last = left[cells - 1];
        let skin = last / (1.0 + 0.5 * ring * biot);
        let halfway = 0.5 * (left[cells / 2 - 1] + left[cells / 2]);
        [skin, halfway, (9.0 * left[0] - left[1]) / 8.0]
    };
    let (mut found, mut before) = ([None; 3], [1.0; 3]);
    let mut time = 0.0;
    for count in 0.. {
        // The first steps are quarters of one, wholly implicit.
        let (step, implicit) = if count < SHOCKED {
            (0.25 * step, 1.0)
        } else {
            (step, 0.5)
        };
        left = stepped(&left, &flows, step, implicit);
        let now = places(&left);
        for place in 0..3 {
            if found[place].is_none() && now[place] <= 0.5 {
                let share = (before[place] - 0.5) / (before[place] - now[place]);
                found[place] = Some(time + share * step);
            }
        }
        if let [Some(skin), Some(halfway), Some(centre)] = found {
            return [skin, halfway, centre];
        }
        (before, time) = (now, time + step);
    }
    [f64::NAN; 3]
}

/// One step in time: a tridiagonal system, solved after Thomas.
fn stepped(left: &[f64], flows: &[(f64, f64)], step: f64, implicit: f64) -> Vec<f64> {
    let cells = left.len();
    let at = |k: usize| if k < cells { left[k] } else { 0.0 };
    let (mut upper, mut right) = (vec![0.0; cells], vec![0.0; cells]);
    for k in 0..cells {
        let (inner, outer) = flows[k];
        let gain = inner * (at(k.wrapping_sub(1)) - left[k]) + outer * (at(k + 1) - left[k]);
        let gain = if k == 0 {
            outer * (at(1) - left[0])
        } else {
            gain
        };
        let (a, c) = (-implicit * step * inner, -implicit * step * outer);
        let b = 1.0 - a - c;
        let d = left[k] + (1.0 - implicit) * step * gain;
        let (upper_before, right_before) = if k == 0 {
            (0.0, 0.0)
        } else {
            (upper[k - 1], right[k - 1])
        };
        let pivot = b - a * upper_before;
        // Beyond the last ring is the bath, at nothing.
        upper[k] = c / pivot;
        right[k] = (d - a * right_before) / pivot;
    }
    let mut solved = right.clone();
    for k in (0..cells - 1).rev() {
        solved[k] -= upper[k] * solved[k + 1];
    }
    solved
}

#[test]
fn half_times_of_a_round_are_those_of_an_independent_solution() {
    for biot in [0.2, 0.75, 3.0, 8.0] {
        let [coarse, fine, finest] = [50, 100, 200].map(|cells| half_times(biot, cells));
        let round = Round::new(biot);
        for (place, rho) in [1.0, 0.5, 0.0].into_iter().enumerate() {
            // Of second order: a cell half as thick leaves a quarter of the error.
            let order = (coarse[place] - fine[place]) / (fine[place] - finest[place]);
            assert!((3.2..5.5).contains(&order), "Bi {biot}, ρ {rho}: {order}");
            let limit = finest[place] + (finest[place] - fine[place]) / 3.0;
            let series = round.fourier_at(0.5, rho);
            assert_relative_eq!(series, limit, max_relative = 2e-5);
        }
    }
}

#[test]
fn an_ideal_quench_halves_the_centre_at_the_published_fourier_number() {
    // Grossmann's ideal diameter, 0.2005 by the first zeros of J₀.
    assert_abs_diff_eq!(Round::new(1e7).fourier_at(0.5, 0.0), 0.2005, epsilon = 5e-5);
}

#[test]
fn a_mild_quench_cools_a_round_and_a_plate_evenly() {
    let biot = 1e-4;
    let (round, plate) = (Round::new(biot), Plate::new(biot));
    for share in [0.2, 0.7, 1.6] {
        // −dθ/dFo = 2 Bi θ for a round, Bi θ for a plate.
        let left = f64::exp(-share);
        for rho in [0.0, 0.5, 1.0] {
            let fourier = share / (2.0 * biot);
            assert_relative_eq!(round.left(fourier, rho), left, max_relative = 1e-4);
        }
        assert_relative_eq!(plate.left(share / biot), left, max_relative = 1e-4);
    }
}

#[test]
fn a_plate_in_an_ideal_quench_cools_as_the_series_of_odd_terms() {
    // θ = 4/π Σ (−1)ⁿ/(2n+1) exp(−(2n+1)² π² Fo / 4), of handbooks (from memory).
    let plate = Plate::new(1e8);
    for fourier in [0.05, 0.2, 0.6, 1.5] {
        let terms = (0..40).map(|n| {
            let odd = f64::from(2 * n + 1);
            let sign = if n % 2 == 0 { 1.0 } else { -1.0 };
            let rate = (odd * std::f64::consts::FRAC_PI_2).powi(2);
            sign / odd * (-rate * fourier).exp()
        });
        let left = 4.0 / std::f64::consts::PI * terms.sum::<f64>();
        assert_abs_diff_eq!(plate.left(fourier), left, epsilon = 1e-6);
    }
}

#[test]
fn a_body_begins_whole_and_only_cools() {
    for biot in [0.03, 0.6, 5.0] {
        let (round, plate) = (Round::new(biot), Plate::new(biot));
        assert_abs_diff_eq!(round.left(1e-3, 0.0), 1.0, epsilon = 1e-6);
        assert_abs_diff_eq!(plate.left(1e-3), 1.0, epsilon = 1e-6);
        let mut before = [1.0; 3];
        for k in 1..200 {
            let fourier = 0.02 * f64::from(k);
            let now = [1.0, 0.5, 0.0].map(|rho| round.left(fourier, rho));
            assert!(now[0] < now[1] && now[1] < now[2], "the skin is coldest");
            assert!((0..3).all(|place| now[place] < before[place]));
            before = now;
        }
    }
}

#[test]
fn a_rate_is_the_slope_of_what_is_left() {
    let round = Round::new(1.3);
    for (fourier, rho) in [(0.05, 1.0), (0.3, 0.5), (0.7, 0.0)] {
        let step = 1e-5;
        let slope =
            (round.left(fourier - step, rho) - round.left(fourier + step, rho)) / (2.0 * step);
        assert_relative_eq!(round.falls(fourier, rho), slope, max_relative = 1e-6);
    }
}

#[test]
fn the_ideal_diameters_of_bars_come_out_as_reckoned_by_another_hand() {
    // Ideal diameter, in, that leaves the centre of a round half martensite: from the definition of Grossmann, Asimow and
    // Urban (1939), by a shorter series of another program.
    const SEVERITIES: [f64; 9] = [0.20, 0.25, 0.35, 0.50, 0.70, 1.0, 1.5, 2.0, 5.0];
    const TABLE: [(f64, [f64; 9]); 9] = [
        (0.50, [2.14, 1.93, 1.65, 1.41, 1.22, 1.06, 0.92, 0.83, 0.66]),
        (0.75, [2.66, 2.40, 2.07, 1.79, 1.56, 1.38, 1.21, 1.11, 0.92]),
        (1.00, [3.11, 2.82, 2.45, 2.12, 1.88, 1.67, 1.49, 1.38, 1.18]),
        (1.25, [3.53, 3.21, 2.80, 2.44, 2.18, 1.95, 1.76, 1.65, 1.43]),
        (1.50, [3.92, 3.57, 3.13, 2.75, 2.47, 2.23, 2.02, 1.91, 1.68]),
        (1.75, [4.29, 3.92, 3.45, 3.05, 2.75, 2.50, 2.29, 2.17, 1.93]),
        (2.00, [4.64, 4.25, 3.76, 3.34, 3.03, 2.77, 2.55, 2.43, 2.19]),
        (2.50, [5.31, 4.89, 4.35, 3.91, 3.57, 3.30, 3.07, 2.94, 2.69]),
        (3.00, [5.95, 5.50, 4.93, 4.46, 4.11, 3.82, 3.58, 3.45, 3.19]),
    ];
    let ideal = Round::new(1e7).fourier_at(0.5, 0.0);
    for (diameter, row) in TABLE {
        for (severity, inches) in SEVERITIES.into_iter().zip(row) {
            let fourier = Round::new(severity * diameter).fourier_at(0.5, 0.0);
            let needed = diameter * (fourier / ideal).sqrt();
            assert_abs_diff_eq!(needed, inches, epsilon = 0.01);
        }
    }
}

#[test]
fn the_end_quench_bar_is_at_half_temperature_where_the_error_function_is_a_half() {
    for alpha_t in [3.0, 40.0, 700.0] {
        let x = end_quench_by_half_mm(alpha_t);
        assert_abs_diff_eq!(
            libm::erf(0.5 * x / f64::sqrt(alpha_t)),
            0.5,
            epsilon = 1e-12
        );
    }
}

#[test]
fn a_rate_finds_its_place_on_the_chart_and_beyond() {
    for (sixteenths, fahrenheit) in RATES {
        let mm = end_quench_by_rate_mm(fahrenheit / 1.8);
        assert_relative_eq!(mm, sixteenths * 25.4 / 16.0, max_relative = 1e-12);
    }
    // Faster is nearer to the end, down to no rate at all.
    let rates = [1e6, 400.0, 271.0, 30.0, 2.0, 0.5, 1e-9, 0.0];
    let places = rates.map(end_quench_by_rate_mm);
    assert!(
        places.windows(2).all(|pair| pair[0] < pair[1]),
        "{places:?}"
    );
    assert!(places[7].is_finite());
}
