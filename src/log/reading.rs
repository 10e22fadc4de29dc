//! Caliper and scale at a head, hot or cold, and the one door that takes what they showed.
//!
//! A caliper reading at a heat is brought to its cold size by [`growth`], the law of the plan's hot sizes: cold = hot /
//! (1 + growth). What scale and grinding still take off is no part of it: a size that is still to be worked is measured
//! again afterwards.

use super::build::Step;
use super::event::READING;
use super::story::bare;
use super::{CELSIUS, WEIGHED_KG};
use crate::bar::{Billet, Limit, LossKind, billet};
use crate::design::{Design, Dim, Edit, Size};
use crate::fit::{ANGLE_STEP, Accuracy};
use crate::mass::{MassProperties, causes, mass_properties};
use crate::plan::{HOT_CELSIUS, growth, growth_uncertainty};
use crate::solid::Solid;
use crate::units::{Angle, Length, Mass, Measure, Rule};

mod error;

pub use error::ReadingError;

/// How far off a length may be that a caliper or a hammer gave, mm either way.
pub const WITHIN_MM: Limit = Limit {
    least: 0.001,
    most: 20.0,
};
/// The same of an angle, degrees.
pub const WITHIN_DEGREES: Limit = Limit {
    least: 0.01,
    most: 45.0,
};
/// The same of a scale, kg.
pub const WITHIN_KG: Limit = Limit {
    least: 1e-6,
    most: 1.0,
};
/// What of a line of the ledger is still to come.
const SHARE: Limit = Limit {
    least: 0.0,
    most: 1.0,
};

/// A size as it was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Which.
    pub dim: Dim,
    /// What the caliper showed.
    pub size: Measure,
    /// The heat of the steel, °C; cold when nothing is said, and below what the growth of steel is known for, where it
    /// shrinks by less than a thousandth.
    pub celsius: Option<f64>,
}

/// What the scale showed.
#[derive(Clone, Debug, PartialEq)]
pub struct Weighing {
    /// The head as it was then.
    pub mass: Mass,
    /// What of each line of the ledger goes only afterwards, as a share of the line; lines that are not named are gone.
    pub to_come: Vec<(LossKind, f64)>,
}

/// What was measured and weighed of a head.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Readings {
    /// Its sizes; of several readings of one the last counts.
    pub sizes: Vec<Reading>,
    /// Its weight, without a handle.
    pub weighed: Option<Weighing>,
}

/// How far off a number may be, either way; every value between is as likely as any other, so that one standard
/// deviation is the half-width over √3.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Precision {
    /// A caliper at cold steel.
    pub cold: Length,
    /// A caliper at hot steel, besides what is not known of its growth.
    pub hot: Length,
    /// A bevel.
    pub angle: Angle,
    /// The scale.
    pub scale: Mass,
    /// What was not measured, about what is written.
    pub forged: Accuracy,
}

impl Precision {
    /// 0.1 mm cold and 0.5 mm hot, 1°, 1 g; what was not measured within half a division of `rule` and 1° (all of it
    /// common practice, no source).
    pub fn usual(rule: Rule) -> Self {
        let division = rule.division();
        let half = (0.5 * division.in_mm()).clamp(WITHIN_MM.least, WITHIN_MM.most);
        Self {
            cold: Length::mm(0.1),
            hot: Length::mm(0.5),
            angle: ANGLE_STEP,
            scale: Mass::grams(1.0),
            forged: Accuracy::within(division.with_mm(half)),
        }
    }

    fn check(&self) -> Vec<ReadingError> {
        let mut errors = Vec::new();
        for (what, value, limit, unit) in [
            ("a cold caliper", self.cold.in_mm(), WITHIN_MM, "mm"),
            ("a hot caliper", self.hot.in_mm(), WITHIN_MM, "mm"),
            (
                "a measured angle",
                self.angle.in_degrees(),
                WITHIN_DEGREES,
                "°",
            ),
            ("the scale", self.scale.in_kg(), WITHIN_KG, "kg"),
            (
                "a length that was not measured",
                self.forged.length.in_mm(),
                WITHIN_MM,
                "mm",
            ),
            (
                "an angle that was not measured",
                self.forged.angle.in_degrees(),
                WITHIN_DEGREES,
                "°",
            ),
        ] {
            if !limit.admits(value) {
                errors.push(ReadingError::Within {
                    what,
                    value,
                    limit,
                    unit,
                });
            }
        }
        errors
    }

    /// Half-width of what was not measured of `dim`.
    pub(super) fn unmeasured(&self, dim: Dim) -> f64 {
        if dim.is_angle() {
            self.forged.angle.in_degrees()
        } else {
            self.forged.length.in_mm()
        }
    }
}

/// A size that was measured, cold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// What was read.
    pub reading: Reading,
    /// What it is cold.
    pub cold: Measure,
    /// What the design says.
    pub designed: Option<Measure>,
    /// How far the cold size may be off by the caliper, mm or degrees either way.
    pub caliper_within: f64,
    /// How far it may be off by what is not known of the growth of this steel, mm either way; every size at that heat is
    /// off with it.
    pub growth_within: f64,
}

/// What was measured and weighed, taken: after this nothing fails.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// The design with every measured size set and locked, each by itself: front and back are forged apart, so that two
    /// that were alike are so no longer.
    pub design: Design,
    /// The sizes, in the order of the readings.
    pub sizes: Vec<Measured>,
    /// What the head is to weigh when all losses have gone, by the scale: kg, and one standard deviation of it.
    pub by_scale: Option<[f64; 2]>,
    pub(super) solid: Solid,
    pub(super) weighed: MassProperties,
}

impl Taken {
    /// Takes `readings` of a head that is made by `design`.
    ///
    /// # Errors
    /// Everything that is wrong with the readings, each a sentence; only when nothing is, what is wrong with the head that
    /// they describe, or with its bar where losses are still to come.
    pub fn of(
        design: &Design,
        readings: &Readings,
        precision: &Precision,
    ) -> Result<Self, Vec<ReadingError>> {
        let mut measured = design.clone();
        let (sizes, mut errors) = cold_sizes(design, readings, precision);
        for size in &sizes {
            let dim = size.reading.dim;
            match set_and_locked(&measured, dim, size.cold) {
                Some(design) => measured = design,
                None => errors.push(ReadingError::NoSuchSize(dim)),
            }
        }
        if !errors.is_empty() {
            return Err(errors);
        }
        let solid = measured
            .build()
            .map_err(|reasons| vec![ReadingError::Unsound(reasons)])?;
        let weighed = mass_properties(&solid);
        let by_scale = readings.weighed.as_ref();
        let by_scale = by_scale.map(|it| it.finished(&measured, &solid, &weighed, precision));
        Ok(Self {
            by_scale: by_scale.transpose()?,
            design: measured,
            sizes,
            solid,
            weighed,
        })
    }

    /// The reading of `dim`, if it was measured.
    pub fn size(&self, dim: Dim) -> Option<&Measured> {
        self.sizes.iter().find(|size| size.reading.dim == dim)
    }
}

/// The sizes that were measured, cold, and what is wrong with the readings.
fn cold_sizes(
    design: &Design,
    readings: &Readings,
    precision: &Precision,
) -> (Vec<Measured>, Vec<ReadingError>) {
    let mut errors = precision.check();
    errors.extend(readings.check());
    let mut sizes = Vec::new();
    for (place, reading) in readings.sizes.iter().enumerate() {
        let mut later = readings.sizes.iter().skip(place + 1);
        if !later.any(|other| other.dim == reading.dim) {
            sizes.push(reading.cold(design, precision));
        }
    }
    (sizes, errors)
}

impl Measured {
    /// How far it may be off by caliper and growth together, mm or degrees either way.
    pub fn within(&self) -> f64 {
        self.caliper_within.hypot(self.growth_within)
    }
}

impl Readings {
    /// How many times as long as `design` the head is: the geometric mean of measured over written lengths; nothing where
    /// no length was measured.
    ///
    /// # Errors
    /// Everything that is wrong with the readings.
    pub(super) fn share(
        &self,
        design: &Design,
        precision: &Precision,
    ) -> Result<Option<f64>, Vec<ReadingError>> {
        let (sizes, errors) = cold_sizes(design, self, precision);
        if !errors.is_empty() {
            return Err(errors);
        }
        let shares = sizes.iter().filter_map(|size| {
            let share = size.cold.number() / size.designed?.number();
            let goes = !size.reading.dim.is_angle() && share.is_finite() && share > 0.0;
            goes.then(|| share.ln())
        });
        let shares: Vec<f64> = shares.collect();
        let mean = shares.iter().sum::<f64>() / shares.len() as f64;
        Ok((!shares.is_empty()).then(|| mean.exp()))
    }

    fn check(&self) -> Vec<ReadingError> {
        let mut errors = Vec::new();
        if self.sizes.is_empty() && self.weighed.is_none() {
            errors.push(ReadingError::Nothing);
        }
        for Reading { dim, size, celsius } in &self.sizes {
            if dim.is_angle() != matches!(size, Measure::Angle(_)) {
                errors.push(ReadingError::Kind {
                    dim: *dim,
                    size: *size,
                });
            } else if !READING.admits(size.number()) {
                errors.push(ReadingError::Size {
                    dim: *dim,
                    size: *size,
                });
            }
            let most = HOT_CELSIUS.most;
            let limit = Limit { most, ..CELSIUS };
            if let Some(celsius) = celsius.filter(|celsius| !limit.admits(*celsius)) {
                errors.push(ReadingError::Heat {
                    dim: *dim,
                    celsius,
                    limit,
                });
            }
        }
        if let Some(Weighing { mass, to_come }) = &self.weighed {
            if !WEIGHED_KG.admits(mass.in_kg()) {
                errors.push(ReadingError::Weight(mass.in_kg()));
            }
            let shares = to_come.iter().filter(|(_, share)| !SHARE.admits(*share));
            errors.extend(shares.map(|(kind, share)| ReadingError::Share {
                kind: *kind,
                share: *share,
            }));
        }
        errors
    }
}

impl Reading {
    /// The reading cold, at a heat that was checked.
    fn cold(&self, design: &Design, precision: &Precision) -> Measured {
        let celsius = self.celsius.unwrap_or(HOT_CELSIUS.least);
        let growth = growth(celsius).ok().filter(|_| !self.dim.is_angle());
        let growth = growth.unwrap_or(0.0);
        let number = self.size.number() / (1.0 + growth);
        let is_hot = celsius > HOT_CELSIUS.least;
        let caliper_within = match (self.dim.is_angle(), is_hot) {
            (true, _) => precision.angle.in_degrees(),
            (false, true) => precision.hot.in_mm() / (1.0 + growth),
            (false, false) => precision.cold.in_mm(),
        };
        Measured {
            reading: *self,
            cold: self.size.with_number(number),
            designed: design.size(self.dim),
            caliper_within,
            growth_within: number.abs() * growth * growth_uncertainty(celsius) / (1.0 + growth),
        }
    }
}

impl Weighing {
    /// A head that weighed `mass` when the step at `place` of `steps` was done. Of a line that goes at several steps each
    /// takes alike (a guess), and what goes once the handle is on counts for nothing.
    pub fn after(mass: Mass, steps: &[Step], place: usize) -> Self {
        let taking = |kind: LossKind, from: usize| {
            let steps = bare(steps).iter().skip(from);
            steps.filter(|step| step.weight.takes(kind)).count() as f64
        };
        let share = |kind: LossKind| (kind, taking(kind, place + 1) / taking(kind, 0));
        let shares = LossKind::ALL.into_iter().map(share);
        Self {
            mass,
            to_come: shares.filter(|(_, share)| *share > 0.0).collect(),
        }
    }

    /// What the head is to weigh when all losses have gone, kg, with one standard deviation.
    fn finished(
        &self,
        design: &Design,
        solid: &Solid,
        weighed: &MassProperties,
        precision: &Precision,
    ) -> Result<[f64; 2], Vec<ReadingError>> {
        let scale = precision.scale.in_kg();
        let (mut kg, mut variance) = (self.mass.in_kg(), scale * scale / 3.0);
        let share_of = |kind| {
            let of_kind = self.to_come.iter().filter(|(other, _)| *other == kind);
            of_kind.map(|(_, share)| share).sum::<f64>().min(SHARE.most)
        };
        if self.to_come.iter().any(|(_, share)| *share > 0.0) {
            let Billet { losses, .. } =
                billet(&causes(solid, weighed), design.density, &design.bar)
                    .map_err(|reasons| vec![ReadingError::Bar(reasons)])?;
            for loss in &losses {
                let share = share_of(loss.kind);
                kg -= share * loss.mass_kg;
                variance += (share * loss.spread_kg).powi(2);
            }
        }
        if kg <= 0.0 {
            return Err(vec![ReadingError::AllLost {
                kg: self.mass.in_kg(),
                lost_kg: self.mass.in_kg() - kg,
            }]);
        }
        Ok([kg, variance.sqrt()])
    }
}

/// `design` with `dim` at `size` and locked; nothing where it has no such size.
fn set_and_locked(design: &Design, dim: Dim, size: Measure) -> Option<Design> {
    let mut design = design.clone();
    if design.size(dim).is_none() {
        // A height that follows its width, or a size that the design does without.
        design = match dim.size {
            Size::Height | Size::Width => design.apply(Edit::Equal(dim.part, false)),
            _ => design.apply(Edit::Optional(dim, Some(size))),
        };
    }
    design.size(dim)?;
    let tied = design.follower(dim).or_else(|| {
        let leads = design.leader(dim) != dim;
        leads.then_some(dim)
    });
    if let Some(back) = tied {
        // What was not measured of the two may still move.
        let range = design.range(dim);
        design = design.apply(Edit::Alike(dim, false));
        if let Some(range) = range {
            design = design.apply(Edit::Free(back, range));
        }
    }
    Some(design.apply(Edit::Set(dim, size)).apply(Edit::Lock(dim)))
}
