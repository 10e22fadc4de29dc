//! Numbers and names as a card says them.

use crate::bar::Billet;
use crate::design::Side;
use crate::drift::SectionSize;
use crate::solid::{Solid, Tip};
use crate::units::{GRAMS_PER_KG, KG_PER_OUNCE, Length, MM_PER_INCH, System, show_length};

/// A length without its unit, to 0.1 mm or to 1/64 in, as a rule and a caliper read it.
pub(super) fn length(mm: f64, system: System) -> String {
    let step = match system {
        System::Metric => 0.1,
        System::Imperial => MM_PER_INCH / 64.0,
    };
    show_length(Length::mm((mm / step).round() * step), system)
}

/// "28 × 19"
pub(super) fn pair(size: SectionSize, system: System) -> String {
    let [long, wide] = [size.length_mm, size.width_mm].map(|mm| length(mm, system));
    format!("{long} × {wide}")
}

/// "pein end", or "front face end" where both ends are alike.
pub(super) fn at_end(solid: &Solid, side: Side) -> String {
    let word = |side: Side| match solid.head().end(side).tip {
        Tip::Face(_) => "face",
        Tip::Ball(_) => "ball",
        Tip::Pein(_) => "pein",
    };
    if word(side) == word(side.other()) {
        format!("{} {} end", side.word(), word(side))
    } else {
        format!("{} end", word(side))
    }
}

/// Masses that are told in whole steps of this many kg: a gram, or a tenth of an ounce.
pub(super) const fn step_kg(system: System) -> f64 {
    match system {
        System::Metric => 1.0 / GRAMS_PER_KG,
        System::Imperial => 0.1 * KG_PER_OUNCE,
    }
}

/// So many steps of [`step_kg`] with their unit.
pub(super) fn steps(count: i64, system: System) -> String {
    match system {
        System::Metric => format!("{count} g"),
        System::Imperial => format!("{}.{} oz", count / 10, count % 10),
    }
}

/// A mass in whole steps of [`step_kg`].
pub(super) fn mass(kg: f64, system: System) -> String {
    steps((kg / step_kg(system)).round() as i64, system)
}

/// `parts` in whole steps whose sum is that of all, rounded: what rounding leaves over goes to those that lost most by
/// it.
pub(super) fn adding_up(parts: &[f64], step: f64) -> Vec<i64> {
    let exact: Vec<f64> = parts.iter().map(|part| part / step).collect();
    let mut whole: Vec<i64> = exact.iter().map(|part| part.floor() as i64).collect();
    let sum = exact.iter().sum::<f64>().round() as i64;
    let left = (sum - whole.iter().sum::<i64>()).max(0) as usize;
    let mut order: Vec<usize> = (0..parts.len()).collect();
    order.sort_by(|a, b| {
        (exact[*b] - exact[*b].floor()).total_cmp(&(exact[*a] - exact[*a].floor()))
    });
    for index in order.into_iter().take(left) {
        whole[index] += 1;
    }
    whole
}

/// What a head weighs on its way, kg: expected, and at least so that it still finishes at its target with the chosen
/// confidence.
///
/// Expected is the cut less what is lost by then; at least is the finished head and what is expected to go later, and as
/// many standard deviations of that as the confidence asks for.
pub(super) fn stages(billet: &Billet) -> [(&'static str, f64, f64); 4] {
    use crate::bar::LossKind::{Dressing, ForgingScale, Grinding, HardeningScale, Slug, Trimming};
    let deviations = if billet.spread_kg > 0.0 {
        billet.reserve_mass_kg / billet.spread_kg
    } else {
        0.0
    };
    let after = |gone: &[crate::bar::LossKind]| {
        let (mut lost, mut later, mut variance) = (0.0, 0.0, 0.0);
        for loss in &billet.losses {
            if gone.contains(&loss.kind) {
                lost += loss.mass_kg;
            } else {
                later += loss.mass_kg;
                variance += loss.spread_kg * loss.spread_kg;
            }
        }
        let least = billet.finished_kg + later + deviations * variance.sqrt();
        (billet.cut_mass_kg - lost, least)
    };
    let stage = |name, gone: &[_]| {
        let (expected, least) = after(gone);
        (name, expected, least)
    };
    [
        stage("billet", &[]),
        stage("after forging", &[Slug, ForgingScale, Trimming]),
        stage(
            "after the heats",
            &[Slug, ForgingScale, Trimming, HardeningScale],
        ),
        stage(
            "finished",
            &[
                Slug,
                ForgingScale,
                Trimming,
                HardeningScale,
                Grinding,
                Dressing,
            ],
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_told_adds_up_to_the_last_step() {
        let parts = [1.0004, 0.0124, 0.0333, 0.0333, 0.0104, 0.00049];
        let told = adding_up(&parts, 1e-3);
        let sum: f64 = parts.iter().sum();
        assert_eq!(told.iter().sum::<i64>(), (sum * 1e3).round() as i64);
        for (told, part) in told.iter().zip(parts) {
            assert!((*told as f64 - part * 1e3).abs() < 1.0, "{told} for {part}");
        }
    }

    #[test]
    fn lengths_are_told_as_a_rule_reads_them() {
        assert_eq!(length(65.93, System::Metric), "65.9");
        assert_eq!(length(-2.04, System::Metric), "−2");
        assert_eq!(length(57.2, System::Imperial), "2 1/4");
        assert_eq!(steps(123, System::Imperial), "12.3 oz");
    }
}
