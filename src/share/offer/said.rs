//! How a hammer sits in the hand, in sentences for who is to use it.

use crate::design::{Design, Side, TipShape, length_in_words};
use crate::handle::{self, Made};
use crate::mass::{MassProperties, mass_properties};
use crate::solid::Solid;
use crate::units::{System, show_mass};

/// A head that balances nearer to the handle than this, mm, is said to hang level.
const LEVEL_MM: f64 = 1.0;
/// Reaches that differ by less than this share are said to be as long.
const AS_LONG: f64 = 0.05;

/// How `design`, which is made as `solid`, sits in the hand: whether it hangs level, which end is the longer one, how its
/// peins lie, and what it weighs on its handle. No size of the workshop is named.
pub fn in_the_hand(design: &Design, solid: &Solid, system: System) -> Vec<String> {
    let drawn = mass_properties(solid);
    let mut said = vec![level(design, &drawn, system), reaches(design)];
    said.extend(Side::BOTH.into_iter().filter_map(|side| pein(design, side)));
    if let Ok(made) = handle::make(solid, &design.handle) {
        said.push(on_its_handle(&drawn, &made, system));
    }
    said
}

/// An end by what it is worked into; by its place too where both are the same.
fn end(design: &Design, side: Side) -> String {
    let [own, other] = [side, side.other()].map(|side| TipShape::of(&design.end(side).tip).words());
    if own == other {
        format!("the {} {own}", side.word())
    } else {
        format!("the {own}")
    }
}

fn level(design: &Design, drawn: &MassProperties, system: System) -> String {
    let mm = drawn.balance();
    let show = |mm: f64| length_in_words(mm, system);
    if mm.abs() < LEVEL_MM {
        return "The head balances on the handle, within a millimetre: neither end drops."
            .to_owned();
    }
    let side = if mm > 0.0 { Side::Front } else { Side::Back };
    // To tenths, as nothing finer is felt.
    let tenths = (10.0 * mm.abs()).round() / 10.0;
    let end = end(design, side);
    format!(
        "The head balances {} from the handle, towards {end}: held loosely, {end} drops.",
        show(tenths)
    )
}

fn reaches(design: &Design) -> String {
    let [front, back] = Side::BOTH.map(|side| design.end(side).reach.in_mm());
    let share = front.max(back) / front.min(back) - 1.0;
    if share < AS_LONG {
        return "Both ends reach as far from the handle.".to_owned();
    }
    let longer = if front > back {
        Side::Front
    } else {
        Side::Back
    };
    let [long, short] = [longer, longer.other()].map(|side| end(design, side));
    let percent = (100.0 * share).round();
    format!(
        "The longer end is {long}: it reaches {percent} % farther from the handle than {short}."
    )
}

fn pein(design: &Design, side: Side) -> Option<String> {
    let shape = TipShape::of(&design.end(side).tip);
    let lies = match shape {
        TipShape::CrossPein => "lies across the handle",
        TipShape::StraightPein => "lies along the handle",
        TipShape::DiagonalPein => "lies aslant to the handle",
        TipShape::Face | TipShape::Ball => return None,
    };
    Some(format!("The edge of {} {lies}.", end(design, side)))
}

fn on_its_handle(drawn: &MassProperties, made: &Made, system: System) -> String {
    let all = show_mass(drawn.mass + made.mass_kg, system);
    format!("On its handle the hammer weighs about {all}.")
}
