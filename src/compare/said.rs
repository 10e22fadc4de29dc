//! What two hammers differ in, in sentences that the numbers bear out.

use super::figure::{Figure, percent};
use super::measured::{Conditions, Measured};
use crate::design::length_in_words;
use crate::swing::Surface;
use crate::units::System;

/// What is compared, and how it is said.
struct Pair<'a> {
    a: &'a Measured,
    b: &'a Measured,
    names: [&'a str; 2],
    system: System,
}

/// What `b` is against `a`; `names` are theirs.
///
/// Every sentence follows from numbers that differ by more than [`Figure::alike`]; where nothing does, that is said.
pub fn words(
    [a, b]: [&Measured; 2],
    names: [&str; 2],
    conditions: &Conditions,
    system: System,
) -> Vec<String> {
    let pair = Pair {
        a,
        b,
        names,
        system,
    };
    let beside = length_in_words(conditions.off_mm.abs(), system);
    let told = [
        pair.twist(&beside),
        pair.strikes(&beside),
        pair.tilt(conditions),
        pair.hand(),
        pair.grip(),
        pair.sting(),
    ];
    let mut said = vec![capital(&pair.held())];
    said.extend(
        told.into_iter()
            .flatten()
            .map(|sentence| capital(&sentence)),
    );
    if said.len() == 1 {
        let differs = Figure::ALL
            .iter()
            .any(|figure| pair.change(*figure).is_some());
        let rest = if differs {
            "What else differs stands in the table."
        } else {
            "In nothing that is compared do they differ enough to be felt."
        };
        said.push(rest.to_owned());
    }
    said
}

impl Pair<'_> {
    /// How much more of it `b` has, when they are not called the same.
    fn change(&self, figure: Figure) -> Option<f64> {
        figure.change(self.a.get(figure), self.b.get(figure))
    }

    fn percent(&self, figure: Figure) -> String {
        percent((self.b.get(figure) / self.a.get(figure) - 1.0).abs())
    }

    fn show(&self, figure: Figure, change: f64) -> String {
        figure.show(change.abs(), self.system)
    }

    /// Whether weight and balance are the same, first of all.
    fn held(&self) -> String {
        let [name_a, name_b] = self.names;
        let weight = self.change(Figure::HeadMass).map(|by| {
            let by_how_much = self.show(Figure::HeadMass, by);
            format!(
                "its head is {by_how_much} {}",
                than(by, ["heavier", "lighter"])
            )
        });
        let balance = self.change(Figure::Balance).map(|by| {
            let by_how_much = self.show(Figure::Balance, by);
            format!(
                "it balances {by_how_much} farther to the {}",
                than(by, ["front", "back"])
            )
        });
        match (weight, balance) {
            (None, None) => {
                format!("{name_a} and {name_b}: heads of the same weight that balance alike.")
            }
            (Some(one), None) => format!("{name_b} against {name_a}: {one} and balances alike."),
            (None, Some(one)) => format!("{name_b} against {name_a}: as heavy a head, but {one}."),
            (Some(one), Some(other)) => {
                format!("{name_b} against {name_a}: {one}, and {other}.")
            }
        }
    }

    fn twist(&self, beside: &str) -> Option<String> {
        let inertia = self.change(Figure::HandleInertia)?;
        let twist = self.change(Figure::Twist)?;
        Some(format!(
            "{}: {} {} inertia about the handle. The same blow, {beside} beside the middle, twists it {} {}, but it \
             is {} to turn over in the hand.",
            self.names[1],
            self.percent(Figure::HandleInertia),
            than(inertia, ["more", "less"]),
            self.percent(Figure::Twist),
            than(twist, ["more", "less"]),
            than(inertia, ["slower", "quicker"]),
        ))
    }

    fn strikes(&self, beside: &str) -> Option<String> {
        let by = self.change(Figure::StrikesBeside)?;
        Some(format!(
            "A blow {beside} beside the middle has {} {} behind it.",
            self.show(Figure::StrikesBeside, by),
            than(by, ["more", "less"])
        ))
    }

    /// Of two faces alone: nothing else has an edge that marks.
    fn tilt(&self, conditions: &Conditions) -> Option<String> {
        let is_face = |one: &Measured| {
            let surface = &one.tool.end(conditions.side).striker.surface;
            matches!(surface, Surface::Face { .. })
        };
        let by = self
            .change(Figure::Tilt)
            .filter(|_| is_face(self.a) && is_face(self.b))?;
        Some(format!(
            "The handle of {} may tilt {} {} before the edge of the face marks the work.",
            self.names[1],
            self.show(Figure::Tilt, by),
            than(by, ["more", "less"])
        ))
    }

    fn hand(&self) -> Option<String> {
        let by = self.change(Figure::Hand)?;
        let elbow = self.change(Figure::Elbow).map(|turn| {
            let how = than(turn, ["straighter", "more bent"]);
            format!(", the elbow {} {how}", self.show(Figure::Elbow, turn))
        });
        let anvil = self.change(Figure::Anvil).map(|lift| {
            let way = than(lift, ["higher", "lower"]);
            format!(
                "; for the same arm the anvil would stand {} {way}",
                self.show(Figure::Anvil, lift)
            )
        });
        Some(format!(
            "At its blow the hand is {} {}{}{}.",
            self.show(Figure::Hand, by),
            than(by, ["farther above the work", "nearer to the work"]),
            elbow.unwrap_or_default(),
            anvil.unwrap_or_default()
        ))
    }

    fn grip(&self) -> Option<String> {
        let by = self.change(Figure::GripInertia)?;
        Some(format!(
            "The same swing asks {} {} of hand and arm: so much {} is its inertia about the grip.",
            self.percent(Figure::GripInertia),
            than(by, ["more", "less"]),
            than(by, ["larger", "smaller"])
        ))
    }

    fn sting(&self) -> Option<String> {
        let [before, after] = [self.a, self.b].map(|one| one.get(Figure::Sting).abs());
        let by = Figure::Sting.change(before, after)?;
        Some(format!(
            "A blow jerks the grip {} {}.",
            self.show(Figure::Sting, by),
            than(by, ["more", "less"])
        ))
    }
}

/// The first of two words for more, the second for less.
fn than(by: f64, [more, less]: [&'static str; 2]) -> &'static str {
    if by > 0.0 { more } else { less }
}

/// `sentence` as a sentence begins.
fn capital(sentence: &str) -> String {
    let mut characters = sentence.chars();
    characters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(characters).collect()
    })
}
