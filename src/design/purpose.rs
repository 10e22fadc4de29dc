//! What a hammer is for.

/// What a starter is for, in a smith's words: common practice, no source.
///
/// It belongs to the starter, not to the head that is made of it, and stands in no file or link.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// Most work at the anvil.
    General,
    /// To make steel longer or broader.
    Drawing,
    /// To work beside what stands up.
    Corners,
    /// To smooth, and to work sheet and rivets.
    Planishing,
    /// For two hands.
    Striking,
}

impl Purpose {
    /// Every purpose, the most common first.
    pub const ALL: [Self; 5] = [
        Self::General,
        Self::Drawing,
        Self::Corners,
        Self::Planishing,
        Self::Striking,
    ];

    /// In a few words: "drawing out and spreading".
    pub const fn words(self) -> &'static str {
        match self {
            Self::General => "general forging",
            Self::Drawing => "drawing out and spreading",
            Self::Corners => "shoulders, corners and scrolls",
            Self::Planishing => "planishing, sheet and rivets",
            Self::Striking => "striking with two hands",
        }
    }

    /// What serves it, in a sentence.
    pub const fn sentence(self) -> &'static str {
        match self {
            Self::General => {
                "One hammer for most of the day: it draws, bends and sets down, and its flat face leaves few marks."
            }
            Self::Drawing => {
                "A round face or a pein touches little steel at a blow and moves it far; a pein moves it square to its edge."
            }
            Self::Corners => {
                "A square face works up to a shoulder, a long one gets in beside what stands up."
            }
            Self::Planishing => {
                "Broad, smooth faces even out what others have marked; a ball spreads a rivet and sinks sheet."
            }
            Self::Striking => {
                "For the striker, who follows the smith’s hand hammer: heavy, with broad faces."
            }
        }
    }
}
