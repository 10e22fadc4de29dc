//! The card: what does the smith take to the saw, the fire and the bench, on paper?
//!
//! [`Card::of`] takes a design and what the workshop has of its own ([`Asked`]) and gives pages of A4 or letter, in mm:
//! the shop sheet, then templates at 1:1. [`drawing`] gives the head's drawing at 1:1 on a page as large as it needs.
//! [`svg()`] writes a page, [`pdf()`] all of them with their fonts. After the one door nothing fails.
//!
//! # How a card is laid out
//! - Nothing stands nearer to a paper's edge than [`MARGIN_MM`], which every printer leaves.
//! - Every page has a line of [`CHECK_LINE_MM`], divided as a rule is, that shows whether it was printed at its size.
//! - The first page has name, weight, balance, views to a scale of ISO 5455 and the cut with its marks; the rest are
//!   sections in two columns, none parted from its heading, on as few pages as hold them whole, each as early as it can
//!   stand.
//! - Templates stand upright in rows on the last pages, with sections below them where there is room. One that is longer
//!   than a page is parted across it, clear of marks and texts, with a letter at both sides of every joint, and says so.
//! - Figures are 2.5 mm tall or taller, lines 0.5 mm and 0.25 mm wide after ISO 128-2.
//! - What the fonts have no letter for is a question mark.
//!
//! # What is on it
//! Gauges are the exact curves of the design: a crown over the whole of its face, 140° of a ball, a pein's flanks
//! in the middle of its edge, a rocker along it. The place of a touchmark is [`Touchmark`]. Weights at each stage are
//! reckoned as the bar's reserve is. The QR code holds the address of the page and the design's link; its modules are
//! [`LEAST_MODULE_MM`] or more, and where they would not be with the design's note in it, the code leaves that out and says
//! so. The note is printed in words.
//!
//! # Examples
//! ```
//! use headwright::card::{Asked, Card, Paper, pdf};
//! use headwright::design;
//!
//! let design = design::starter("rounding").expect("a starter");
//! let card = Card::of(&design, &Asked { date: "4 March", ..Asked::default() })?;
//! assert!(card.pages.iter().all(|page| page.size == Paper::A4.size_mm()));
//! assert!(pdf(&card.pages, &design.name).starts_with(b"%PDF"));
//! # Ok::<(), headwright::card::CardError>(())
//! ```

use crate::bar::{BarError, Billet, billet};
use crate::design::{Design, DesignError, LONGEST_NAME, Side};
use crate::drift::{self, Drifting};
use crate::handle::{self, Made};
use crate::heat;
use crate::mass::{MassProperties, causes, mass_properties};
use crate::plan::{self, HotError, HotSizes, USUAL_HOT_CELSIUS, hot_sizes};
use crate::share::link;
use crate::solid::Solid;
use crate::units::System;

mod column;
mod ink;
mod letters;
mod pdf;
mod qr;
mod sections;
mod sheet;
mod sizes;
mod svg;
mod template;
mod templates;
mod touchmark;
mod views;
mod words;

pub use ink::{Anchor, Bounds, Ink, Page, Path, Pen, Point, Text};
pub use letters::Font;
pub use pdf::pdf;
pub use qr::LEAST_MODULE_MM;
pub use svg::svg;
pub use touchmark::{CLEAR_MM, DEEPEST_MM, LEAST_FLAT_MM, MOST_OF_WALL, Surface, Touchmark};

/// What stays white at every edge of a page, mm.
pub const MARGIN_MM: f64 = 12.0;
/// Length of the line that is measured to check a print, mm.
pub const CHECK_LINE_MM: f64 = 100.0;
/// Room for the QR code beside the views, mm; a larger one stands below.
const ROOM_FOR_CODE_MM: f64 = 38.0;

/// A paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 mm × 297 mm.
    #[default]
    A4,
    /// 8 1/2 in × 11 in.
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "a4",
            Self::Letter => "letter",
        }
    }

    /// Its width and height, mm.
    pub const fn size_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
        }
    }
}

/// What a card says beyond its design.
#[derive(Clone, Debug, PartialEq)]
pub struct Asked<'a> {
    /// What it is printed on.
    pub paper: Paper,
    /// The day, in words; empty for none.
    pub date: &'a str,
    /// The address of the page that opens a link, without `#`; without one there is no QR code.
    pub link_base: Option<&'a str>,
    /// The end of the billet that marks are measured from.
    pub from: Side,
    /// The heat of the hot sizes, at which the eye is drifted too, °C.
    pub celsius: f64,
    /// What the head is drifted with.
    pub drifting: Drifting,
    /// The units; left out, those of the rule of its bar.
    pub system: Option<System>,
}

impl Default for Asked<'_> {
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            date: "",
            link_base: None,
            from: Side::Front,
            celsius: USUAL_HOT_CELSIUS,
            drifting: Drifting::default(),
            system: None,
        }
    }
}

/// Why there is no card.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CardError {
    /// A design that cannot be made.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))]
    Design(Vec<DesignError>),
    /// A bar that cannot be worked from.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "))]
    Bar(Vec<BarError>),
    /// A heat that the growth of steel is not known for.
    #[error(transparent)]
    Hot(#[from] HotError),
}

impl CardError {
    /// The sentences, with lengths in the units that the smith reads.
    pub fn sentence(&self, system: System) -> String {
        match self {
            Self::Design(errors) => told(errors, |error| error.sentence(system)),
            Self::Bar(errors) => told(errors, |error| error.sentence(system)),
            Self::Hot(error) => error.to_string(),
        }
    }
}

fn told<E>(errors: &[E], sentence: impl Fn(&E) -> String) -> String {
    errors.iter().map(sentence).collect::<Vec<_>>().join(" ")
}

/// A printed shop sheet and its templates.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Its pages.
    pub pages: Vec<Page>,
}

/// Everything that a card tells.
struct Known<'a> {
    design: &'a Design,
    solid: &'a Solid,
    system: System,
    date: &'a str,
    mass: MassProperties,
    billet: Billet,
    plan: plan::Plan,
    hot: HotSizes,
    drifts: Result<drift::Plan, String>,
    heat: Result<heat::Plan, String>,
    handle: Result<Made, String>,
    touchmark: Option<Touchmark>,
    link: Option<Result<Link, String>>,
}

/// The address of the page with a design's link.
struct Link {
    whole: String,
    /// The same without the design's note, where it has one.
    without_note: Option<String>,
}

impl Link {
    fn of(design: &Design, base: &str) -> Result<Self, link::LinkError> {
        let address = |design: &Design| Ok(format!("{base}#{}", link::encode(design)?));
        let without_note = (!design.note.is_empty()).then(|| Design {
            note: String::new(),
            ..design.clone()
        });
        Ok(Self {
            whole: address(design)?,
            without_note: without_note.as_ref().map(address).transpose()?,
        })
    }
}

impl Known<'_> {
    fn name(&self) -> &str {
        name(self.design)
    }
}

/// The name as it stands on the card: no longer than a name may be.
fn name(design: &Design) -> &str {
    let name = design.name.trim();
    let end = name.char_indices().nth(LONGEST_NAME);
    match end.and_then(|(end, _)| name.get(..end)).unwrap_or(name) {
        "" => "Hammer head",
        name => name,
    }
}

impl Card {
    /// The card of `design`. What drifts, heat or handle cannot be is said where they
    /// would stand.
    ///
    /// # Errors
    /// Why there is no head, no cut, or no growth at that heat.
    pub fn of(design: &Design, asked: &Asked) -> Result<Self, CardError> {
        let solid = design.build().map_err(CardError::Design)?;
        let system = asked.system.unwrap_or_else(|| design.bar.rule.system());
        let link = asked
            .link_base
            .map(|base| Link::of(design, base).map_err(|error| error.to_string()));
        // What is sawn and marked is measured with a rule of the units that are shown, as on the screen.
        let mut in_hand = design.clone();
        in_hand.bar.rule = design.bar.rule.in_system(system);
        let design = &in_hand;
        let mass = mass_properties(&solid);
        let billet =
            billet(&causes(&solid, &mass), design.density, &design.bar).map_err(CardError::Bar)?;
        let drifts = drift::plan(&solid, &design.bar, &asked.drifting, asked.celsius);
        let known = Known {
            system,
            date: asked.date,
            hot: hot_sizes(design, asked.celsius)?,
            plan: plan::plan(&solid, &billet, &design.bar, asked.from),
            drifts: drifts.map_err(|errors| told(&errors, |error| error.sentence(system))),
            heat: heat::plan(&solid, &design.heat)
                .map_err(|errors| told(&errors, |error| error.sentence(system))),
            handle: handle::make(&solid, &design.handle)
                .map_err(|errors| told(&errors, |error| error.sentence(system))),
            touchmark: Touchmark::of(&solid),
            link,
            design,
            solid: &solid,
            mass,
            billet,
        };
        Ok(Self {
            pages: sheet::pages(&known, asked.paper),
        })
    }
}

/// The drawing of the head at 1:1 with every size in the units of `system`, on a page as large as it needs.
///
/// # Errors
/// Why there is no head.
pub fn drawing(design: &Design, system: System) -> Result<Page, Vec<DesignError>> {
    let solid = design.build()?;
    Ok(sheet::drawing(design, &solid, system))
}
