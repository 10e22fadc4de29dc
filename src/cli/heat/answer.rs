//! A heat treatment as JSON.

use serde::Serialize;

use super::HeatAsked;
use crate::cli::CliError;
use crate::design::{Design, Edit};
use crate::heat::{
    Agitation, Band, Bath, CAUTIONS, Caution, Composition, EndHardness, Grade, HARDNESS_WINDOWS,
    HardnessWindow, Kind, Medium, Note, Plan, Severity, Span, Stated, Step, Tempering, plan,
};
use crate::units::System;

/// What is to be said beside every number of a heat treatment.
const ESTIMATE: &str = "Hardness, depth and temperatures are estimates from composition and section: try them on a piece of the same bar before the head.";

/// How the head is normalized, hardened and tempered. Where no formula holds a number is null, and a note says why.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HeatAnswer {
    /// What is to be said beside every number.
    pub estimate: &'static str,
    /// Mass of the head.
    pub mass_kg: f64,
    /// The thickest section, which a soak warms through.
    pub thickest_mm: f64,
    /// The steel.
    pub steel: SteelAnswer,
    /// How the grade is treated.
    pub practice: PracticeAnswer,
    /// Where it transforms.
    pub critical: CriticalAnswer,
    /// How deep it hardens.
    pub hardenability: HardenabilityAnswer,
    /// The quench.
    pub quench: QuenchAnswer,
    /// What the bath takes up; null for air.
    pub bath: Option<Bath>,
    /// Hardness of the front end.
    pub front: EndHardness,
    /// Hardness of the back end.
    pub back: EndHardness,
    /// The temper, and ways round a brittle one.
    pub temper: Tempering,
    /// The steps of the work.
    pub steps: Vec<Step>,
    /// What is to be said of it.
    pub notes: Vec<Note>,
    /// What goes with every heat treatment.
    pub cautions: [Caution; CAUTIONS.len()],
    /// What public standards ask for.
    pub hardness_windows: [HardnessWindow; HARDNESS_WINDOWS.len()],
    #[serde(skip)]
    pub(super) plan: Plan,
    #[serde(skip)]
    pub(super) system: System,
}

/// A steel.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SteelAnswer {
    /// Its grade.
    pub grade: Grade,
    /// What that is, in words.
    pub words: &'static str,
    /// What kind of steel it is.
    pub kind: Kind,
    /// The analysis of the bar, where there is one.
    pub analysis_percent: Option<Composition>,
    /// The analysis or the range of the grade.
    pub composition_percent: Stated<Span>,
    /// The grade's density.
    pub density_kg_per_m3: Stated<f64>,
}

/// How a grade is treated.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PracticeAnswer {
    /// Forging heat.
    pub forge_celsius: Stated<Band>,
    /// Normalizing heat; null where it must not be normalized.
    pub normalize_celsius: Option<Stated<Band>>,
    /// Heat to warm through at before the hardening heat.
    pub preheat_celsius: Option<Stated<Band>>,
    /// Hardening heat.
    pub harden_celsius: Stated<Band>,
    /// Hardness at the skin after a quench that suits.
    pub as_quenched_hrc: Stated<Band>,
    /// The quench that suits.
    pub usual_quench: Medium,
    /// The usual temper.
    pub usual_temper_celsius: f64,
    /// How often it is tempered.
    pub usual_tempers: u8,
}

/// Where transformations begin and end.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CriticalAnswer {
    /// Where austenite begins on heating.
    pub ac1_celsius: Option<Stated<f64>>,
    /// Where the last ferrite goes on heating.
    pub ac3_celsius: Option<Stated<f64>>,
    /// Where martensite begins on cooling.
    pub ms_celsius: Option<Stated<Band>>,
}

/// How deep a steel hardens.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HardenabilityAnswer {
    /// Ideal diameter.
    pub ideal_diameter_mm: Option<Stated<Band>>,
    /// Hardness of its martensite.
    pub martensite_hrc: Stated<Band>,
    /// The end-quench curve; empty where no formula holds.
    pub end_quench: Vec<EndQuenchAnswer>,
}

/// A point of an end-quench curve.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EndQuenchAnswer {
    /// Distance from the quenched end.
    pub distance_mm: f64,
    /// Hardness there.
    pub hrc: Band,
}

/// A quench.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct QuenchAnswer {
    /// In what.
    pub medium: Medium,
    /// How the head is moved.
    pub agitation: Agitation,
    /// How warm the bath is.
    pub bath_celsius: f64,
    /// Its severity.
    pub severity_per_inch: Severity,
}

impl HeatAnswer {
    /// The heat treatment of `design`, with what was asked in the place of its own. Another steel brings its density.
    ///
    /// # Errors
    /// Why head or heat treatment are not to be had.
    pub fn of(design: &Design, asked: &HeatAsked) -> Result<Self, CliError> {
        let system = design.bar.rule.system();
        let heat = asked.heat(&design.heat);
        let design = design.apply(Edit::Heat(Box::new(heat)));
        let solid = design.build().map_err(CliError::Unsound)?;
        let plan = plan(&solid, &heat).map_err(|errors| CliError::Treatment(errors, system))?;
        Ok(Self::new(plan, system))
    }

    fn new(plan: Plan, system: System) -> Self {
        let Plan {
            steel,
            practice,
            critical,
            quench,
            ..
        } = plan;
        let [front, back] = plan.ends;
        let curve = plan.hardenability.end_quench.iter();
        Self {
            estimate: ESTIMATE,
            mass_kg: plan.mass_kg,
            thickest_mm: plan.thickest_mm,
            steel: SteelAnswer {
                grade: steel.grade,
                words: steel.grade.words(),
                kind: steel.grade.kind(),
                analysis_percent: steel.analysis,
                composition_percent: plan.composition,
                density_kg_per_m3: plan.density_kg_per_m3,
            },
            practice: PracticeAnswer {
                forge_celsius: practice.forge,
                normalize_celsius: practice.normalize,
                preheat_celsius: practice.preheat,
                harden_celsius: practice.harden,
                as_quenched_hrc: practice.as_quenched,
                usual_quench: practice.medium,
                usual_temper_celsius: practice.temper_celsius,
                usual_tempers: practice.tempers,
            },
            critical: CriticalAnswer {
                ac1_celsius: critical.ac1,
                ac3_celsius: critical.ac3,
                ms_celsius: critical.ms,
            },
            hardenability: HardenabilityAnswer {
                ideal_diameter_mm: plan.hardenability.ideal_mm,
                martensite_hrc: plan.hardenability.martensite_hrc,
                end_quench: curve
                    .map(|&(distance_mm, hrc)| EndQuenchAnswer { distance_mm, hrc })
                    .collect(),
            },
            quench: QuenchAnswer {
                medium: quench.medium,
                agitation: quench.agitation,
                bath_celsius: quench.bath_celsius,
                severity_per_inch: plan.severity,
            },
            bath: plan.bath,
            front,
            back,
            temper: plan.tempering.clone(),
            steps: plan.steps(System::Metric),
            notes: plan.notes.clone(),
            cautions: CAUTIONS,
            hardness_windows: HARDNESS_WINDOWS,
            plan,
            system,
        }
    }
}
