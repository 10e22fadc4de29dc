//! The words that a smith may not know, each explained where it stands.
//!
//! A word is pressed and a line opens beneath it; what it says is fetched with the first one
//! ([`said`], [`sketch`]). That a word means what is said of it is common practice, no source.

use leptos::prelude::*;

use super::fetched;
use super::state::Workspace;
use headwright::design::Dim;

mod meaning;
mod said;
mod sizes;
mod sketch;

pub use meaning::Meaning;

/// Makes the terms from one list, so that none can be left out of [`Term::ALL`].
macro_rules! terms {
    ($($term:ident $words:literal,)*) => {
        /// Which word is explained.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        enum Key { $($term,)* }

        #[expect(non_upper_case_globals, reason = "the terms are named as the variants of an enum are")]
        impl Term {
            $(
                #[doc = concat!("“", $words, "”")]
                pub const $term: Self = Self { key: Key::$term, words: $words };
            )*

            /// Every term.
            #[cfg(test)]
            const ALL: &[Self] = &[$(Self::$term,)*];
        }
    };
}

/// A word that is explained. It bears its text, so that the words of a sheet come with that sheet.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Term {
    key: Key,
    /// The word as it stands on the sheets.
    words: &'static str,
}

terms! {
    // The head.
    Weight "finished weight",
    Balance "balance",
    HangAngle "hang angle",
    Hold "hold",
    Held "held",
    Tolerance "plus or minus",
    OutOfReach "out of reach",
    Free "free",
    Locked "locked",
    Fit "fit",
    InHand "in hand",
    Alike "as the front",
    Rule "rule",
    ForgedWithin "forged within",
    Reaches "reaches",
    Inertia "inertia about the handle",
    LeastWall "least cheek wall",
    Principal "principal inertia",
    Centroid "centroid",
    EyeSteel "steel in the eye’s place",
    OutOfSquare "out of square",
    Cheeks "cheeks",
    Swell "swell",
    Lug "lug",
    Eye "eye",
    Mouth "mouth",
    Waist "waist",
    Wall "eye wall",
    Cock "cocked eye",
    Neck "neck",
    Run "run up to it",
    Corners "corners",
    Face "face",
    Land "land",
    Crown "crown",
    Edge "edge",
    Drop "drop",
    Ball "ball",
    Pein "pein",
    Nose "nose",
    Rocker "rocker",
    Hollow "hollow",
    Density "density",
    // The handle.
    Gravity "specific gravity",
    Moisture "moisture",
    Butt "butt",
    Grip "grip",
    Oval "oval",
    Tongue "tongue",
    Shoulder "shoulder",
    Kerf "kerf",
    Wedge "wedge",
    Crush "crush",
    CrossWedge "cross wedge",
    BalancePoint "balance point",
    GripInertia "inertia about the grip",
    // The bar.
    Billet "billet",
    Reserve "heads in a hundred",
    Spread "spread",
    Slug "slug",
    Web "web",
    Scale "scale",
    Dressing "dressing",
    Need "area needed",
    Draw "draw",
    Upset "upset",
    Fuller "fuller",
    Marks "marks",
    Heats "heats",
    Trimming "end trimming",
    Slit "slit and slot",
    Drift "drift",
    Bolster "bolster",
    Room "room round the punch",
    HotSize "hot size",
    SawKerf "kerf of the saw",
    EndWaste "end waste",
    // The heat treatment.
    Normalize "normalize",
    Harden "harden",
    Quench "quench",
    Temper "temper",
    TemperColour "temper colour",
    Ac1 "Ac1",
    Ac3 "Ac3",
    Ms "Ms",
    Martensite "martensite",
    Brittle "brittle range",
    Soak "soak",
    Agitation "agitation",
    Analysis "analysis",
    Hrc "HRC",
    Skin "skin and middle",
    Thickest "thickest section",
    EndQuench "end-quench bar",
    IdealDiameter "ideal diameter",
    // The swing.
    FaceOffset "face offset",
    Twist "twist",
    EffectiveMass "effective mass",
    Percussion "centre of percussion",
    Sting "sting",
    Momentum "momentum and impulse",
    Tilt "tilt",
    Print "print",
    TurningMoment "turning moment",
    Stature "stature and knuckles",
    StandOff "stand-off",
    // The log.
    Build "build",
    HeatCounted "heat +1",
    Weighing "weighing",
    TypedMinutes "typed minutes",
    LeftOut "left out",
    AsForged "as forged",
    HotReading "hot and cold reading",
    OneDeviation "give or take (±)",
    TakesLoss "takes from the ledger",
    ToWeight "brings it to its weight",
    OnHandle "puts the handle on",
    Target "target",
    InProportion "in proportion",
    Explains "would explain it",
    OffBy "may be off by",
    LearningCurve "learning curve",
    PerDoubling "percent of each doubling",
    NextBuild "nine of ten next builds",
    PublishedDefault "default",
    BetweenTwo "yours, head to head",
    BuildsBehind "number of builds",
    NineInTen "nine heads in ten",
    FarOut "far out",
    Wage "an hour is to pay",
    Overhead "overhead",
    Consumables "consumables",
    Spoiled "spoiled pieces",
    Fees "fees",
    // The starters.
    DrawingOut "drawing out",
    Planishing "planishing",
    Striker "striker",
}

/// What is explained: a word, or a size of the head.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// A word.
    Term(Term),
    /// A size.
    Size(Dim),
}

impl Subject {
    /// Its name.
    fn words(self) -> String {
        match self {
            Self::Term(term) => term.words.to_owned(),
            Self::Size(dim) => dim.words(),
        }
    }
}

/// The words of a part of a sheet, each to be pressed for what it means; one is open at a time.
#[component]
pub fn Words(
    /// Id of what opens, one on the page.
    #[prop(into)]
    id: String,
    /// The words.
    terms: &'static [Term],
) -> impl IntoView {
    let open = RwSignal::new(None::<Term>);
    // Folded away until they are asked for: who knows them steps over them at once.
    let unfolded = RwSignal::new(false);
    let opens = id.clone();
    let all: Vec<String> = terms
        .iter()
        .map(|&term| Subject::Term(term).words())
        .collect();
    let line = move || {
        let words = terms.iter().map(|&term| {
            let is_open = Signal::derive(move || open.get() == Some(term));
            let press = move || open.set((!is_open.get_untracked()).then_some(term));
            view! { <Word subject=Subject::Term(term) is_open=is_open opens=opens.clone() press=press /> }
        });
        unfolded.get().then(|| words.collect_view())
    };
    view! {
        <div class="words" role="group" aria-label="what the words mean">
            <p class="words-line">
                <button
                    type="button"
                    class="words-fold"
                    aria-label=format!("words explained: {}", all.join(", "))
                    aria-expanded=move || unfolded.get().to_string()
                    on:click=move |_| {
                        open.set(None);
                        unfolded.update(|unfolded| *unfolded = !*unfolded);
                    }
                >
                    <span>"words explained"</span>
                </button>
                {line}
            </p>
            {move || {
                open.get().map(|term| view! { <Said subject=Subject::Term(term) id=id.clone() /> })
            }}
        </div>
    }
}

/// The name of the size in hand, to be pressed for what it is; what was opened for one size stays
/// open for the next.
#[component]
pub fn SizeWord(
    /// The size.
    dim: Dim,
    /// Id of what opens.
    #[prop(into)]
    opens: String,
) -> impl IntoView {
    let open = Workspace::here().explains;
    view! {
        <Word
            subject=Subject::Size(dim)
            is_open=open
            opens=opens
            press=move || open.update(|open| *open = !*open)
        />
    }
}

/// What a size is, while that is asked for.
#[component]
pub fn SizeSaid(
    /// The size.
    dim: Dim,
    /// Id of what opens.
    #[prop(into)]
    id: String,
) -> impl IntoView {
    let open = Workspace::here().explains;
    move || {
        open.get()
            .then(|| view! { <Said subject=Subject::Size(dim) id=id.clone() /> })
    }
}

/// A word with its dotted line.
#[component]
pub fn Word(
    /// What it names.
    subject: Subject,
    /// Whether its explanation is open.
    #[prop(into)]
    is_open: Signal<bool>,
    /// Id of that.
    opens: String,
    /// Opens and closes it.
    #[prop(into)]
    press: Callback<()>,
) -> impl IntoView {
    let words = subject.words();
    // A press on the name of a size belongs to that size, which stays in hand.
    let size = match subject {
        Subject::Term(_) => None,
        Subject::Size(dim) => Some(dim.to_string()),
    };
    view! {
        <button
            type="button"
            class="word"
            data-size=size
            aria-label=format!("what {words} means")
            aria-expanded=move || is_open.get().to_string()
            aria-controls=move || is_open.get().then(|| opens.clone())
            on:click=move |_| press.run(())
        >
            <span>{words.clone()}</span>
        </button>
    }
}

/// The line that opens.
#[component]
pub fn Said(
    /// What it is about.
    subject: Subject,
    /// Its id.
    id: String,
) -> impl IntoView {
    view! {
        <div class="meaning" id=id>
            <fetched::Meaning subject=subject />
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::path::Path;

    /// All that is written in `folder` but here.
    fn sources(folder: &Path, text: &mut String) {
        for entry in std::fs::read_dir(folder).expect("a folder").flatten() {
            let path = entry.path();
            if path.is_dir() && !path.ends_with("terms") {
                sources(&path, text);
            } else if path.is_file() && !path.ends_with("terms.rs") {
                text.push_str(&std::fs::read_to_string(&path).expect("a source"));
            }
        }
    }

    #[test]
    fn every_term_stands_on_a_sheet() {
        let mut text = String::new();
        sources(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join("src"),
            &mut text,
        );
        for Term { key, .. } in Term::ALL {
            let name = format!("Term::{key:?},");
            let last = format!("Term::{key:?}]");
            assert!(text.contains(&name) || text.contains(&last), "{key:?}");
        }
    }
}
