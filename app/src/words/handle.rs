//! The names of steps that change the handle.

use headwright::handle::{CrossWedge, Handle, Shoulder, Station, Wedge, Wood};
use headwright::units::{Length, System, show_number};

use super::length;

/// Name of the step from `before` to `after`: "handle length 350 mm", "wood white ash".
pub fn step(before: &Handle, after: &Handle, system: System) -> String {
    let show = |size: Length| length(size.in_mm(), system);
    let mut changed = Vec::new();
    let mut note = |differs: bool, name: String| {
        if differs {
            changed.push(name);
        }
    };
    note(
        before.wood != after.wood,
        format!("wood {}", wood(&after.wood)),
    );
    note(
        before.moisture_percent != after.moisture_percent,
        format!("moisture {} %", show_number(after.moisture_percent)),
    );
    note(
        before.length != after.length,
        format!("handle length {}", show(after.length)),
    );
    // The ovals near the head go with a new length.
    note(
        before.stations != after.stations && before.length == after.length,
        ovals(&before.stations, &after.stations, system),
    );
    note(
        before.grip != after.grip,
        format!("grip {}", show(after.grip)),
    );
    note(
        before.shoulder != after.shoulder,
        match after.shoulder {
            Shoulder::FillsMouth => "shoulder".to_owned(),
            Shoulder::None => "no shoulder".to_owned(),
        },
    );
    note(
        before.proud != after.proud,
        format!("tongue stands out {}", show(after.proud)),
    );
    note(
        before.kerf != after.kerf,
        match (before.kerf, after.kerf) {
            (_, None) => "no kerf".to_owned(),
            (Some(before), Some(after)) if before.depth == after.depth => {
                format!("kerf width {}", show(after.width))
            }
            (_, Some(after)) => format!("kerf depth {}", show(after.depth)),
        },
    );
    note(
        before.wedge != after.wedge && (after.kerf.is_some() || before.kerf.is_none()),
        wedge(before.wedge.as_ref(), after.wedge.as_ref(), system),
    );
    note(
        before.cross_wedge != after.cross_wedge,
        cross(before.cross_wedge, after.cross_wedge, system),
    );
    match changed.as_slice() {
        [one] => one.clone(),
        // A wedge is driven into a kerf that is sawn for it.
        [_, both] if before.kerf.is_none() && after.wedge.is_some() => both.clone(),
        [] => "the handle".to_owned(),
        _ => "the usual handle".to_owned(),
    }
}

fn wood(wood: &Wood) -> String {
    match wood {
        Wood::Species(species) => species.words().to_owned(),
        Wood::Own { name, .. } => name.clone(),
    }
}

fn ovals(before: &[Station], after: &[Station], system: System) -> String {
    let show = |size: Length| length(size.in_mm(), system);
    let both = before.iter().zip(after);
    match both.enumerate().find(|(_, (a, b))| a != b) {
        _ if after.len() > before.len() => "an oval more".to_owned(),
        _ if after.len() < before.len() => "an oval less".to_owned(),
        Some((index, (a, b))) => {
            let (word, size) = if a.depth != b.depth {
                ("depth", b.depth)
            } else if a.width != b.width {
                ("width", b.width)
            } else {
                ("place", b.at)
            };
            format!("oval {} {word} {}", index + 1, show(size))
        }
        None => "ovals".to_owned(),
    }
}

fn wedge(before: Option<&Wedge>, after: Option<&Wedge>, system: System) -> String {
    let show = |size: Length| length(size.in_mm(), system);
    match (before, after) {
        (_, None) => "no wedge".to_owned(),
        (None, Some(_)) => "a wedge".to_owned(),
        (Some(a), Some(b)) if a.wood != b.wood => format!("wedge wood {}", wood(&b.wood)),
        (Some(a), Some(b)) if a.length != b.length => {
            format!("wedge length {}", show(b.length))
        }
        (Some(a), Some(b)) if a.crush != b.crush => format!("wedge crush {}", show(b.crush)),
        (Some(_), Some(b)) => match b.thick {
            Some(thick) => format!("wedge thick end {}", show(thick)),
            None => "wedge as thick as the mouth asks".to_owned(),
        },
    }
}

fn cross(before: Option<CrossWedge>, after: Option<CrossWedge>, system: System) -> String {
    let show = |size: Length| length(size.in_mm(), system);
    match (before, after) {
        (_, None) => "no cross wedge".to_owned(),
        (None, Some(_)) => "a cross wedge".to_owned(),
        (Some(a), Some(b)) if a.length != b.length => {
            format!("cross wedge length {}", show(b.length))
        }
        (Some(a), Some(b)) if a.thick != b.thick => {
            format!("cross wedge thick end {}", show(b.thick))
        }
        (Some(_), Some(b)) => format!("cross wedge width {}", show(b.width)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::starter;
    use headwright::handle::Species;

    fn named(change: impl FnOnce(&mut Handle), system: System) -> String {
        let before = starter("rounding").expect("a starter").handle;
        let mut after = before.clone();
        change(&mut after);
        step(&before, &after, system)
    }

    #[test]
    fn a_step_is_called_after_what_it_changed() {
        let metric = |change: fn(&mut Handle)| named(change, System::Metric);
        assert_eq!(
            metric(|h| h.wood = Wood::Species(Species::WhiteAsh)),
            "wood white ash"
        );
        assert_eq!(
            metric(|h| {
                h.length = Length::mm(341.0);
                h.stations[3].at = Length::mm(271.0);
            }),
            "handle length 341 mm"
        );
        assert_eq!(
            metric(|h| h.stations[1].depth = Length::mm(39.0)),
            "oval 2 depth 39 mm"
        );
        assert_eq!(metric(|h| h.stations.truncate(4)), "an oval less");
        assert_eq!(
            metric(|h| {
                h.kerf = None;
                h.wedge = None;
            }),
            "no kerf"
        );
        assert_eq!(metric(|h| h.wedge = None), "no wedge");
        assert_eq!(
            metric(|h| {
                h.moisture_percent = 8.0;
                h.grip = Length::mm(90.0);
                h.wedge = None;
            }),
            "the usual handle"
        );
        let inches = named(|h| h.grip = Length::inches(3.25), System::Imperial);
        assert_eq!(inches, "grip 3 1/4 in");
    }
}
