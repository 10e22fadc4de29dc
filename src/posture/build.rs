//! How a smith is built: from a stature or from heights that were measured, by a table.

/// What is known of a smith, mm over the floor, shod as at work.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Smith {
    /// Stature alone; all else is the table's.
    Stature {
        /// Its value.
        mm: f64,
    },
    /// Measured standing upright with hanging arms; the stature is only for the figure.
    Measured {
        /// Height of the knuckles of the closed fist.
        knuckle_mm: f64,
        /// Height of the shoulder's point.
        shoulder_mm: f64,
    },
}

/// Whose average lengths are taken.
///
/// # Source
/// - R. Drillis and R. Contini, Body Segment Parameters, TR-1166-03, New York University, 1966, as drawn in D. A. Winter,
///   Biomechanics and Motor Control of Human Movement, figure 4.1: read in public copies of the figure's numbers, the
///   report itself was not; the group that was measured is not known well.
/// - C. C. Gordon and others, 2012 Anthropometric Survey of U.S. Army Personnel, NATICK/TR-15/007, 2014 (ANSUR II): means of
///   each person's ratio, computed from the public data of 4082 men and 1986 women; soldiers, not the general public.
///   Shoulder: acromial height; upper arm: acromion to radiale; forearm: radiale to stylion.
/// - Knuckles: S. Pheasant, Bodyspace, British adults, 755 of 1740 mm for men and 720 of 1610 mm for women (from memory);
///   the men's with Drillis and Contini.
/// - Hips and chin, for the figure alone: Drillis and Contini throughout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Table {
    /// Drillis and Contini, 1966.
    DrillisContini,
    /// The men of ANSUR II.
    AnsurMen,
    /// The women of ANSUR II.
    AnsurWomen,
}

/// Heights and lengths as shares of the stature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proportions {
    /// Height of the shoulder.
    pub shoulder: f64,
    /// Shoulder to elbow.
    pub upper_arm: f64,
    /// Elbow to wrist.
    pub forearm: f64,
    /// Height of the knuckles of a hanging fist.
    pub knuckle: f64,
    /// Height of the hip.
    pub hip: f64,
    /// Height of the chin.
    pub chin: f64,
}

impl Table {
    /// All of them, the usual first.
    pub const ALL: [Self; 3] = [Self::DrillisContini, Self::AnsurMen, Self::AnsurWomen];

    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::DrillisContini => "Drillis and Contini 1966",
            Self::AnsurMen => "ANSUR II, men",
            Self::AnsurWomen => "ANSUR II, women",
        }
    }

    /// Its shares of the stature.
    pub const fn proportions(self) -> Proportions {
        let (shoulder, upper_arm, forearm, knuckle) = match self {
            Self::DrillisContini => (0.818, 0.186, 0.146, 0.434),
            Self::AnsurMen => (0.8203, 0.1909, 0.1525, 0.434),
            Self::AnsurWomen => (0.8198, 0.1911, 0.1482, 0.447),
        };
        Proportions {
            shoulder,
            upper_arm,
            forearm,
            knuckle,
            hip: 0.530,
            chin: 0.870,
        }
    }
}

/// A smith's heights over the floor and lengths, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Build {
    /// Stature.
    pub stature_mm: f64,
    /// Height of the shoulder.
    pub shoulder_mm: f64,
    /// Height of the knuckles of a hanging fist.
    pub knuckle_mm: f64,
    /// Shoulder to elbow.
    pub upper_arm_mm: f64,
    /// Elbow to wrist.
    pub forearm_mm: f64,
    /// Wrist to the middle of the grip.
    pub hand_mm: f64,
    /// Height of the hip.
    pub hip_mm: f64,
    /// Height of the chin.
    pub chin_mm: f64,
}

impl Build {
    /// `smith` by `table`. Of measured heights the arm, shoulder to knuckles, is divided in the table's proportions, and
    /// the stature follows from the shoulder.
    pub fn of(smith: Smith, table: Table) -> Self {
        let shares = table.proportions();
        let (stature, shoulder, knuckle) = match smith {
            Smith::Stature { mm } => (mm, shares.shoulder * mm, shares.knuckle * mm),
            Smith::Measured {
                knuckle_mm,
                shoulder_mm,
            } => (shoulder_mm / shares.shoulder, shoulder_mm, knuckle_mm),
        };
        let arm = shoulder - knuckle;
        let of_arm = arm / (shares.shoulder - shares.knuckle);
        let (upper_arm, forearm) = (of_arm * shares.upper_arm, of_arm * shares.forearm);
        Self {
            stature_mm: stature,
            shoulder_mm: shoulder,
            knuckle_mm: knuckle,
            upper_arm_mm: upper_arm,
            forearm_mm: forearm,
            hand_mm: arm - upper_arm - forearm,
            hip_mm: shares.hip * stature,
            chin_mm: shares.chin * stature,
        }
    }
}
