//! One side of the trade-off: its name, its unit, its amounts in words.

use std::fmt::Write;

use super::super::super::words;
use super::super::holds::unit;
use headwright::design::{Design, Quantity};
use headwright::fit::Traded;
use headwright::mass::MassProperties;
use headwright::solid::Solid;
use headwright::units::{Amount, System};

/// The name that a choice of it has on the page.
pub fn key(side: Traded) -> String {
    match side {
        Traded::Quantity(quantity) => quantity.name().to_owned(),
        Traded::Size(dim) => dim.to_string(),
    }
}

/// What has this name.
pub fn called(key: &str) -> Option<Traded> {
    let quantity = Quantity::ALL.into_iter().find(|q| q.name() == key);
    let size = || key.parse().ok().map(Traded::Size);
    quantity.map(Traded::Quantity).or_else(size)
}

/// What `design` has of it; nothing when it has no such size.
pub fn value(
    side: Traded,
    design: &Design,
    solid: &Solid,
    weighed: &MassProperties,
) -> Option<f64> {
    match side {
        Traded::Quantity(quantity) => Some(quantity.of(solid, weighed, &design.handle)),
        Traded::Size(dim) => design.size(dim).map(|size| size.number()),
    }
}

/// The least and the most of it that is held.
pub fn held(side: Traded, design: &Design) -> Option<(f64, f64)> {
    let Traded::Quantity(quantity) = side else {
        return None;
    };
    let hold = design.holds.get(quantity)?.map(|amount| amount.number());
    Some(hold.ends(quantity.default_tolerance()))
}

/// An amount of it: "1.100 kg", "71.2 mm".
pub fn said(side: Traded, number: f64, system: System) -> String {
    match side {
        Traded::Quantity(Quantity::Balance) => {
            let (number, place) = words::balance(number, system);
            format!("{number} {place}")
        }
        Traded::Quantity(quantity) => match quantity.amount(number, system) {
            Amount::Length(_) => words::about(number, system),
            amount => amount.words(system),
        },
        Traded::Size(dim) => words::limit(dim, number, system),
    }
}

/// A pair at the edge: "1.100 kg: front face offset at most 71 mm".
pub fn pair(x: (Traded, f64), y: (Traded, f64), upper: bool, system: System) -> String {
    // The less of a balance to the back, the more of it is to the back.
    let back = y.0 == Traded::Quantity(Quantity::Balance) && y.1 < 0.0;
    let at = if upper != back { "at most" } else { "at least" };
    format!(
        "{}: {} {at} {}",
        said(x.0, x.1, system),
        y.0.words(),
        said(y.0, y.1, system)
    )
}

/// What stands at its axis: "weight, kg".
pub fn title(side: Traded, system: System) -> String {
    let unit = match side {
        // Figures in pounds and ounces carry their units.
        Traded::Quantity(quantity) => match unit(quantity, system) {
            "lb" => "",
            unit => unit,
        },
        Traded::Size(dim) => words::unit_of(dim, system),
    };
    let comma = if unit.is_empty() { "" } else { ", " };
    format!("{}{comma}{unit}", side.words())
}

/// All that can be chosen of `design`, the sizes by their parts, as options of a list.
pub fn options(design: &Design, chosen: Traded) -> String {
    let mut html = String::new();
    let mut group = |name: &str, sides: Vec<(Traded, String)>| {
        let _ = write!(html, "<optgroup label=\"{name}\">");
        for (side, words) in sides {
            let selected = if side == chosen { " selected" } else { "" };
            let _ = write!(
                html,
                "<option value={}{selected}>{words}</option>",
                key(side)
            );
        }
        html.push_str("</optgroup>");
    };
    let quantity = |q: Quantity| (Traded::Quantity(q), q.words().to_owned());
    group("head", Quantity::ALL.map(quantity).to_vec());
    for part in words::groups(design) {
        let size = |dim| (Traded::Size(dim), dim.words());
        let sizes = words::sizes_of(design, part).into_iter().map(size);
        group(words::heading_of(design, part), sizes.collect());
    }
    html
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{Part, Side, Size, starter};

    const WEIGHT: Traded = Traded::Quantity(Quantity::Mass);
    const REACH: Traded = Traded::Size(Part::End(Side::Front).size(Size::Reach));

    #[test]
    fn a_pair_is_said_in_the_units_that_are_shown() {
        let said = |upper, system| pair((WEIGHT, 1.1), (REACH, 71.04), upper, system);
        assert_eq!(
            said(true, System::Metric),
            "1.100 kg: front face offset at most 71 mm"
        );
        assert_eq!(
            said(false, System::Imperial),
            "2 lb 6.8 oz: front face offset at least 2 51/64 in"
        );
        let balance = |upper, mm| {
            let y = (Traded::Quantity(Quantity::Balance), mm);
            pair((WEIGHT, 1.1), y, upper, System::Metric)
        };
        assert_eq!(
            balance(false, -3.0),
            "1.100 kg: balance at most 3 mm to the back"
        );
        assert_eq!(
            balance(true, 3.0),
            "1.100 kg: balance at most 3 mm to the front"
        );
    }

    #[test]
    fn everything_that_can_be_chosen_is_found_again_by_its_name() {
        let design = starter("rounding").expect("a starter");
        let sizes = design.sizes().into_iter().map(|(dim, _)| Traded::Size(dim));
        let all = Quantity::ALL.into_iter().map(Traded::Quantity).chain(sizes);
        let html = options(&design, REACH);
        for side in all {
            assert_eq!(called(&key(side)), Some(side));
            assert!(html.contains(&format!("value={}", key(side))), "{side:?}");
        }
        assert_eq!(html.matches(" selected").count(), 1);
        assert_eq!(called("anything"), None);
    }
}
