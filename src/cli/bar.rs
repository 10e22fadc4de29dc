//! What `bar` answers: what to cut, or what a piece that is cut already gives.

use serde::Serialize;

use super::report::{SizeChange, changes};
use super::{Asked, CliError, PlanAnswer, table};
use crate::bar;
use crate::design::{Design, DesignFile};
use crate::fit;
use crate::mass::{causes, mass_properties};
use crate::units::Mass;

/// What to cut, and where it goes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BarAnswer {
    /// Expected billet: finished head and losses.
    pub billet_mass_kg: f64,
    /// What the chosen confidence adds.
    pub reserve_mass_kg: f64,
    /// What rounding up to the rule adds.
    pub rounding_mass_kg: f64,
    /// The cut: the sum of the three.
    pub cut_mass_kg: f64,
    /// Its length.
    pub cut_length_mm: f64,
    /// The finished head, the target: the expected billet less all losses.
    pub finished_kg: f64,
    /// One standard deviation of the sum of the losses.
    pub spread_kg: f64,
    /// What a head from this cut is expected to weigh when it is forged and hardened.
    pub before_grinding_kg: f64,
    /// What it is expected to weigh after grinding and dressing, before the rest is ground off to the target.
    pub after_grinding_kg: f64,
    /// Above the first and below the second it then weighs, with the chosen confidence each.
    pub finished_range_kg: [f64; 2],
    /// The areas that cause losses.
    pub areas: CauseAreas,
    /// Where the rest goes, each line with its `kind` for a program, `mass_kg`, `percent_of_cut`, `spread_kg`,
    /// `source` and `certainty`: read, memory, common_practice or own.
    pub losses: Vec<bar::LossMass>,
    /// How the bar becomes the head.
    #[serde(flatten)]
    pub plan: PlanAnswer,
}

/// The areas of the head that losses are reckoned from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CauseAreas {
    /// The whole finished surface, which stands for what is hot.
    pub surface_mm2: f64,
    /// What is ground at the front.
    pub front_face_mm2: f64,
    /// What is ground at the back.
    pub back_face_mm2: f64,
}

impl BarAnswer {
    /// The cut for `design`, with what is `asked` of the way from bar to head.
    ///
    /// # Errors
    /// Why the design is not sound or its bar can't be worked from.
    pub fn of(design: &Design, asked: &Asked) -> Result<Self, CliError> {
        let solid = design.build().map_err(CliError::Unsound)?;
        let causes = causes(&solid, &mass_properties(&solid));
        let billet = bar::billet(&causes, design.density, &design.bar)
            .map_err(|errors| CliError::BarOf(errors, design.bar.rule.system()))?;
        let [front_face_mm2, back_face_mm2] = causes.face_mm2;
        Ok(Self {
            billet_mass_kg: billet.billet_mass_kg,
            reserve_mass_kg: billet.reserve_mass_kg,
            rounding_mass_kg: billet.rounding_mass_kg,
            cut_mass_kg: billet.cut_mass_kg,
            cut_length_mm: billet.cut_length_mm,
            finished_kg: billet.finished_kg,
            spread_kg: billet.spread_kg,
            before_grinding_kg: billet.before_grinding_kg,
            after_grinding_kg: billet.after_grinding_kg,
            finished_range_kg: billet.finished_range_kg,
            areas: CauseAreas {
                surface_mm2: causes.surface_mm2,
                front_face_mm2,
                back_face_mm2,
            },
            plan: PlanAnswer::of(design, &solid, &billet, asked)?,
            losses: billet.losses,
        })
    }

    /// The answer for `design` to be read, in the units of its rule.
    pub fn table(&self, design: &Design) -> String {
        let rule = design.bar.rule;
        table::bar(self, &design.bar.section.words(rule.system()), rule)
    }
}

/// What a piece that is cut and weighed gives.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PieceAnswer {
    /// The piece.
    pub piece_mass_kg: f64,
    /// The finished head that is to be expected of it: the piece less all losses.
    pub finished_kg: f64,
    /// One standard deviation of it.
    pub spread_kg: f64,
    /// Above the first and below the second it finishes, with the chosen confidence each.
    pub finished_range_kg: [f64; 2],
    /// What it is expected to weigh before grinding and dressing.
    pub before_grinding_kg: f64,
    /// Where the rest goes.
    pub losses: Vec<bar::LossMass>,
    /// Other holds of the design that could not be kept with this mass.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub holds_missed: Vec<&'static str>,
    /// The sizes that were moved to come to that mass.
    pub changed: Vec<SizeChange>,
    /// The design with them, as a design file.
    pub design: DesignFile,
}

impl PieceAnswer {
    /// What `piece` gives when `design` is forged of it.
    ///
    /// # Errors
    /// Why the design is not sound, its bar can't be worked from, or no head of this design comes from the piece.
    pub fn of(design: &Design, piece: Mass) -> Result<Self, CliError> {
        let fitted = fit::to_piece(design, piece)
            .map_err(|error| CliError::Piece(error, design.bar.rule.system()))?;
        let given = fitted.piece;
        Ok(Self {
            piece_mass_kg: given.piece_kg,
            finished_kg: given.finished_kg,
            spread_kg: given.spread_kg,
            finished_range_kg: given.finished_range_kg,
            before_grinding_kg: given.before_grinding_kg,
            losses: given.losses,
            holds_missed: fitted.missed.iter().map(|held| held.name()).collect(),
            changed: changes(design, &fitted.design, &fitted.changed),
            design: fitted.design.to_file(),
        })
    }

    /// The answer for `design` to be read, in the units of its rule.
    pub fn table(&self, design: &Design) -> String {
        table::piece(self, design.bar.rule.system())
    }
}
