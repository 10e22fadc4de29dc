//! The answers, as they are printed.

use serde::Serialize;

use super::{CliError, Freedom, Held, RuleAnswer};
use crate::design::{Design, DesignFile, Dim, Quantity};
use crate::fit::{self, LimitMove, Obstacle, Residual};
use crate::mass::{TrueAxis, mass_properties, surface_area};
use crate::mesh::TriMesh;
use crate::units::{Measure, Rule, System};

/// What a head weighs and how it lies in the hand. Axes and signs as on the crate page.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Weighed {
    /// Volume.
    pub volume_mm3: f64,
    /// Mass.
    pub mass_kg: f64,
    /// Area of the whole surface, the eye's wall included.
    pub surface_mm2: f64,
    /// Centroid.
    pub centroid_mm: [f64; 3],
    /// Inertia tensor about the centroid; off the diagonal −∫xy dm.
    pub inertia_centroid_kg_mm2: [[f64; 3]; 3],
    /// Moment of inertia about the z axis.
    pub inertia_handle_axis_kg_mm2: f64,
    /// Principal moments about the centroid, smallest first.
    pub principal_moments_kg_mm2: [f64; 3],
    /// Mass in front of the handle axis.
    pub front_mass_kg: f64,
    /// Mass behind it.
    pub back_mass_kg: f64,
    /// The balance: centroid in front of the handle axis.
    pub offset_mm: f64,
    /// Tilt of the head hung on a pin; positive: the front hangs down.
    pub hang_angle_deg: f64,
    /// The least cheek wall.
    pub least_wall_mm: Option<f64>,
    /// Where on the wall of the eye it is.
    pub least_wall_at_mm: Option<[f64; 3]>,
    /// With a cocked eye, how far the faces are out of square with the true handle axis;
    /// positive: the wedge side leans towards the front.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub out_of_square_deg: Option<f64>,
    /// With a cocked eye, how far the centroid lies to the side of the true handle axis, towards +y.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sideways_mm: Option<f64>,
}

impl Weighed {
    /// Weighs `design`.
    ///
    /// # Errors
    /// Why it is not sound.
    pub fn of(design: &Design) -> Result<Self, CliError> {
        let solid = design.build().map_err(CliError::Unsound)?;
        let mass = mass_properties(&solid);
        let wall = solid.head().least_wall();
        let axis = TrueAxis::of(&solid, mass.centroid);
        Ok(Self {
            volume_mm3: mass.volume,
            mass_kg: mass.mass,
            surface_mm2: surface_area(&solid),
            centroid_mm: mass.centroid,
            inertia_centroid_kg_mm2: mass.inertia_centroid,
            inertia_handle_axis_kg_mm2: mass.inertia_handle_axis,
            principal_moments_kg_mm2: mass.principal_moments,
            front_mass_kg: mass.front_mass,
            back_mass_kg: mass.back_mass,
            offset_mm: mass.balance(),
            hang_angle_deg: mass.hang_angle.to_degrees(),
            least_wall_mm: wall.map(|wall| wall.thickness),
            least_wall_at_mm: wall.map(|wall| wall.at),
            out_of_square_deg: axis.map(|axis| axis.out_of_square.to_degrees()),
            sideways_mm: axis.map(|axis| axis.sideways),
        })
    }
}

/// What became of the holds.
#[derive(Debug, Serialize)]
pub struct FitAnswer {
    /// "met", "out_of_reach", "contradictory" or "step_limit".
    pub outcome: &'static str,
    /// Every hold with what became of it.
    pub residuals: Vec<FitResidual>,
    /// The sizes that moved.
    pub changed: Vec<SizeChange>,
    /// The limits and conditions of soundness that the design rests on, the one that costs most
    /// first.
    pub active_bounds: Vec<String>,
    /// Out of reach: what would bring the holds within reach. Every entry is enough by itself, its
    /// limits moved together.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub limits_to_move: Vec<Vec<LimitChange>>,
    /// The holds that contradict each other.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub contradicting: Vec<&'static str>,
    /// Largest component, in steps, of the first-order condition of a nearest design; null when
    /// the fit did not settle.
    pub optimality: f64,
    /// The design, as a design file.
    pub design: DesignFile,
    /// The design on a rule, where one was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rule: Option<RuleAnswer>,
}

/// A hold and what became of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FitResidual {
    /// The name of the quantity, as after `--hold`.
    pub hold: &'static str,
    /// "kg", "mm", "kg·mm²", or "" for a ratio.
    pub unit: &'static str,
    /// What the design gives.
    pub value: f64,
    /// The least that counts as met; null when there is none.
    pub low: f64,
    /// The most that counts as met; null when there is none.
    pub high: f64,
    /// How far the value lies outside: negative below, positive above, 0 when met.
    pub miss: f64,
    /// What keeps the fit from meeting the hold, the greatest obstacle first.
    pub in_the_way: Vec<String>,
}

/// A size that a fit moved.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SizeChange {
    /// Its path.
    pub size: String,
    /// What it was.
    pub from: String,
    /// What it is.
    pub to: String,
}

/// A limit of a free size, and where it would have to be.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LimitChange {
    /// The size's path.
    pub size: String,
    /// "lower" or "upper".
    pub limit: &'static str,
    /// Where it is.
    pub from: String,
    /// Where it would have to be.
    pub to: String,
}

impl LimitChange {
    fn of(moved: &LimitMove) -> Self {
        Self {
            size: moved.dim.to_string(),
            limit: if moved.upper { "upper" } else { "lower" },
            from: moved.from.to_string(),
            to: moved.to.to_string(),
        }
    }
}

/// The most ways to bring holds within reach that are told.
const MOST_RELIEFS: usize = 8;

impl FitAnswer {
    /// Fits `design`, its sizes free or locked as `freedom` has it over what it says itself, to
    /// `holds`, or to its own when there are none, and puts the answer on `rule` when there is one. The holds go into the answer's design in the place of its own.
    ///
    /// # Errors
    /// Why the design is not sound, that nothing is held, or that it has no such size.
    pub fn of(
        design: &Design,
        holds: &[Held],
        freedom: &[Freedom],
        rule: Option<Rule>,
    ) -> Result<Self, CliError> {
        let mut held = design.clone();
        for freedom in freedom {
            held = freedom.on(&held)?;
        }
        let held = holds.iter().fold(held, |design, hold| hold.on(&design));
        let targets = if holds.is_empty() {
            fit::targets(design)
        } else {
            holds.iter().map(|hold| hold.target()).collect()
        };
        if targets.is_empty() {
            return Err(CliError::NothingHeld);
        }
        let fitted = fit::fit_to(&held, &targets).map_err(CliError::Unsound)?;
        let words = |obstacles: &[Obstacle]| -> Vec<String> {
            let words = obstacles.iter().map(|o| o.words(System::Metric));
            words.collect()
        };
        let in_the_way = words(&fitted.in_the_way);
        let residuals = fitted
            .residuals
            .iter()
            .map(|residual| FitResidual::of(residual, &in_the_way));
        Ok(Self {
            outcome: fitted.outcome.word(),
            residuals: residuals.collect(),
            changed: changes(design, &fitted.design, &fitted.changed),
            active_bounds: words(&fitted.active),
            limits_to_move: fit::reliefs(&held, &targets, &fitted, MOST_RELIEFS, &|_| fit::FINEST)
                .iter()
                .map(|moves| moves.iter().map(LimitChange::of).collect())
                .collect(),
            contradicting: fitted
                .contradicting
                .iter()
                .map(|held| held.name())
                .collect(),
            optimality: fitted.optimality,
            design: fitted.design.to_file(),
            rule: rule.map(|rule| RuleAnswer::of(&fitted.design, &targets, rule)),
        })
    }
}

impl FitResidual {
    fn of(residual: &Residual, in_the_way: &[String]) -> Self {
        let target = residual.target;
        Self {
            hold: target.quantity.name(),
            unit: unit(target.quantity),
            value: residual.value,
            low: target.low,
            high: target.high,
            miss: residual.miss,
            in_the_way: if residual.miss == 0.0 {
                Vec::new()
            } else {
                in_the_way.to_vec()
            },
        }
    }
}

/// The unit that a quantity is answered in.
pub(super) fn unit(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Mass | Quantity::ToolMass => "kg",
        Quantity::Balance | Quantity::Length | Quantity::LeastWall | Quantity::ToolBalance => "mm",
        Quantity::Inertia | Quantity::GripInertia => "kg·mm²",
        Quantity::ReachRatio => "",
    }
}

/// What `changed` were in `before` and are in `after`.
pub(super) fn changes(before: &Design, after: &Design, changed: &[Dim]) -> Vec<SizeChange> {
    let written = |size: Option<Measure>| size.map_or_else(String::new, |size| size.to_string());
    let change = |dim: &Dim| SizeChange {
        size: dim.to_string(),
        from: written(before.size(*dim)),
        to: written(after.size(*dim)),
    };
    changed.iter().map(change).collect()
}

/// What was written of a mesh.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MeshAnswer {
    /// The file.
    pub file: String,
    /// Triangles in it.
    pub triangles: usize,
    /// Volume inside them.
    pub volume_mm3: f64,
}

impl MeshAnswer {
    /// Describes `mesh`, which went to `file`.
    pub fn of(mesh: &TriMesh, file: &std::ffi::OsStr) -> Self {
        Self {
            file: file.to_string_lossy().into_owned(),
            triangles: mesh.triangles.len(),
            volume_mm3: mesh.volume(),
        }
    }
}
