//! From the finished head back to the cut.

use serde::Serialize;

use super::Bar;
use super::causes::Causes;
use super::error::BarError;
use super::limits::DENSITY_KG_PER_M3;
use super::loss::{Certainty, LossKind};
use super::normal::quantile;
use crate::units::{Density, Length};

/// What to cut, and the account of where it goes. All masses in kg.
///
/// `cut_mass_kg = billet_mass_kg + reserve_mass_kg + rounding_mass_kg = cut_length_mm × area × density`
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Billet {
    /// The finished head.
    pub finished_kg: f64,
    /// What is lost, in the order of the bar's lines.
    pub losses: Vec<LossMass>,
    /// Expected billet: finished head and losses. As likely as not it is enough.
    pub billet_mass_kg: f64,
    /// One standard deviation of the sum of the losses.
    pub spread_kg: f64,
    /// What the chosen confidence adds: z(confidence) × spread.
    pub reserve_mass_kg: f64,
    /// What rounding the cut up to the rule adds. Less than one division's mass.
    pub rounding_mass_kg: f64,
    /// The cut.
    pub cut_mass_kg: f64,
    /// Length of the cut in mm, a multiple of the rule's division.
    pub cut_length_mm: f64,
    /// What a head from this cut is expected to weigh before faces and surfaces are worked to the target: the cut
    /// less all losses but grinding and dressing.
    pub before_grinding_kg: f64,
    /// What it is expected to weigh when faces and surfaces have lost what is expected, and is then still above the
    /// target by reserve and rounding: the cut less all losses. The rest is ground off to the target.
    pub after_grinding_kg: f64,
    /// Above the first and below the second a head from this cut comes out with the chosen confidence each, before
    /// more is ground off to the target: what it weighs after grinding ∓ z(confidence) × spread. The first is the
    /// target and the rounding.
    pub finished_range_kg: [f64; 2],
}

/// One line of loss in kg.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LossMass {
    /// What is lost, for a program.
    pub kind: LossKind,
    /// What is lost, in words.
    pub name: &'static str,
    /// Expected loss.
    pub mass_kg: f64,
    /// Its share of the cut (or of the piece), in percent.
    pub percent_of_cut: f64,
    /// One standard deviation of it, in kg.
    pub spread_kg: f64,
    /// Where the numbers come from.
    pub source: String,
    /// How surely they are known.
    pub certainty: Certainty,
}

impl LossMass {
    pub(super) fn of_cut(self, cut_kg: f64) -> Self {
        Self {
            percent_of_cut: self.mass_kg / cut_kg * 100.0,
            ..self
        }
    }
}

/// What is lost, added up.
pub(super) struct Account {
    /// The lines; of no cut yet.
    pub losses: Vec<LossMass>,
    /// All that is lost.
    pub lost_kg: f64,
    /// What of it goes at the grinder and the file.
    pub lost_after_forging_kg: f64,
    /// One standard deviation of all that is lost.
    pub spread_kg: f64,
}

/// What a bar in order loses on the way to a head of these `causes`.
pub(super) fn account(causes: &Causes, density: Density, bar: &Bar) -> Account {
    let (mut lost_kg, mut lost_after_forging_kg, mut variance) = (0.0, 0.0, 0.0);
    let mut losses = Vec::with_capacity(bar.losses.len());
    for loss in &bar.losses {
        let (mass_kg, spread_kg) = loss.amount.in_kg(causes, density, bar.section);
        lost_kg += mass_kg;
        if loss.kind.is_after_forging() {
            lost_after_forging_kg += mass_kg;
        }
        variance += spread_kg * spread_kg;
        losses.push(LossMass {
            kind: loss.kind,
            name: loss.kind.words(),
            mass_kg,
            percent_of_cut: 0.0,
            spread_kg,
            source: loss.source.clone(),
            certainty: loss.certainty,
        });
    }
    Account {
        losses,
        lost_kg,
        lost_after_forging_kg,
        spread_kg: variance.sqrt(),
    }
}

/// The billet for a head of these `causes` from `bar`.
///
/// # Errors
/// Everything that is wrong with the bar ([`Bar::check`]), the causes and the density.
///
/// # Examples
/// ```
/// use headwright::bar::{Bar, Causes, Loss, LossAmount, LossKind, billet};
/// use headwright::units::Density;
///
/// let causes = Causes {
///     head_kg: 1.0,
///     eye_kg: 0.16,
///     surface_mm2: 20_000.0,
///     face_mm2: [1400.0, 1300.0],
///     eye_height_mm: 40.0,
///     eye_mm: [28.0, 19.0],
/// };
/// let amount = LossAmount::PercentOfHead { expected: 6.0, spread: 2.0 };
/// let scale = Loss { amount, ..Loss::usual().remove(1) };
/// let bar = Bar { losses: vec![scale], confidence: 0.5, ..Bar::default() };
/// let billet = billet(&causes, Density::STEEL, &bar)?;
/// assert!((billet.billet_mass_kg - 1.06).abs() < 1e-12);
/// assert_eq!(billet.reserve_mass_kg, 0.0);
/// # Ok::<(), Vec<headwright::bar::BarError>>(())
/// ```
pub fn billet(causes: &Causes, density: Density, bar: &Bar) -> Result<Billet, Vec<BarError>> {
    let mut errors = bar.check();
    errors.extend(causes.check());
    errors.extend(bar.check_on(causes, density));
    if !DENSITY_KG_PER_M3.admits(density.in_kg_per_m3()) {
        errors.push(BarError::Density { value: density });
    }
    if !errors.is_empty() {
        return Err(errors);
    }

    let Account {
        losses,
        lost_kg,
        lost_after_forging_kg,
        spread_kg,
    } = account(causes, density, bar);
    let finished_kg = causes.head_kg;
    let billet_mass_kg = finished_kg + lost_kg;
    let reserve_mass_kg = quantile(bar.confidence) * spread_kg;
    let needed_kg = billet_mass_kg + reserve_mass_kg;
    let kg_per_mm = bar.section.mass_kg(Length::mm(1.0), density);
    let cut_length_mm = bar.rule.round_up(needed_kg / kg_per_mm);
    let cut_mass_kg = cut_length_mm * kg_per_mm;
    let after_grinding_kg = cut_mass_kg - lost_kg;
    Ok(Billet {
        finished_kg,
        losses: losses
            .into_iter()
            .map(|loss| loss.of_cut(cut_mass_kg))
            .collect(),
        billet_mass_kg,
        spread_kg,
        reserve_mass_kg,
        rounding_mass_kg: cut_mass_kg - needed_kg,
        cut_mass_kg,
        cut_length_mm,
        before_grinding_kg: after_grinding_kg + lost_after_forging_kg,
        after_grinding_kg,
        finished_range_kg: [
            (after_grinding_kg - reserve_mass_kg).max(0.0),
            after_grinding_kg + reserve_mass_kg,
        ],
    })
}
