//! The area curve: what the bar must supply at every station, and what it supplies.

use serde::Serialize;

use super::profile::Profile;
use crate::bar::{Billet, LossKind};
use crate::design::Side;

/// How far, as a share, the area needed may lie from the bar's and still be left alone: common practice, no source.
/// Rolled bar is itself true to no more than this.
pub const LEFT_ALONE: f64 = 0.03;

/// What is done to the bar at a station.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Work {
    /// Made thicker: the bar has too little.
    Upset,
    /// Drawn out: the bar has too much. Over the eye, that steel is pushed aside by the punch and forged back.
    Draw,
    /// Drawn between two thicker places: a neck.
    Fuller,
    /// Left as it is, within [`LEFT_ALONE`].
    Leave,
}

impl Work {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Upset => "upset",
            Self::Draw => "draw",
            Self::Fuller => "fuller",
            Self::Leave => "leave",
        }
    }
}

/// A piece of the head's length with the area that the bar must supply for it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Station {
    /// x where the piece begins, mm. Beyond the finished ends stands what is trimmed and ground off.
    pub from_mm: f64,
    /// x where it ends, mm.
    pub to_mm: f64,
    /// x of the section that it is known by, mm.
    pub x_mm: f64,
    /// Area of the finished, pierced head there, mm².
    pub finished_mm2: f64,
    /// Area needed: finished head, slug and this station's share of losses, reserve and rounding, mm².
    pub need_mm2: f64,
    /// Area needed over the bar's.
    pub ratio: f64,
    /// What is done there.
    pub work: Work,
}

impl Station {
    /// Length of the piece, mm.
    pub fn length_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }
}

/// A stretch of the head over which the same is done to the bar.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// x where it begins, mm.
    pub from_mm: f64,
    /// x where it ends, mm.
    pub to_mm: f64,
    /// What is done.
    pub work: Work,
    /// Area needed over the bar's, where it is farthest from 1.
    pub ratio: f64,
    /// Length of the bar that goes into it, mm.
    pub bar_length_mm: f64,
}

/// What the bar must supply along the head, from back to front.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct AreaCurve {
    /// Area of the bar, mm².
    pub bar_mm2: f64,
    /// Pieces of the head's length. The sum of need × length is the volume of the cut.
    pub stations: Vec<Station>,
    /// The same, gathered by what is done.
    pub stretches: Vec<Stretch>,
}

impl AreaCurve {
    /// Volume needed, mm³: ∫A_need dx.
    pub fn volume_mm3(&self) -> f64 {
        self.stations
            .iter()
            .map(|station| station.need_mm2 * station.length_mm())
            .sum()
    }

    /// Volume that forging has to move, mm³: ∫|A_need − A_bar| dx.
    ///
    /// # Accuracy
    /// About 1e-3 of itself: a station lies on one side of the bar's area or the other.
    pub fn moved_mm3(&self) -> f64 {
        self.stations
            .iter()
            .map(|station| (station.need_mm2 - self.bar_mm2).abs() * station.length_mm())
            .sum()
    }

    /// Where `x` comes from on the billet: the distance from its back end, mm.
    ///
    /// The billet behind the place has the volume that is needed behind `x`. Exact at stations of the head and at
    /// the handle axis, linear inside a piece.
    pub fn from_back_mm(&self, x: f64) -> f64 {
        let mut volume = 0.0;
        for station in &self.stations {
            let within = (x.min(station.to_mm) - station.from_mm).max(0.0);
            volume += station.need_mm2 * within;
        }
        volume / self.bar_mm2
    }

    /// The station that needs most.
    pub fn thickest(&self) -> Option<&Station> {
        let greater = |a: &&Station, b: &&Station| a.need_mm2.total_cmp(&b.need_mm2);
        self.stations.iter().max_by(greater)
    }
}

/// Spreads the losses of `billet` over `profile` and holds the sum against a bar of `bar_mm2`.
pub(super) fn area_curve(profile: &Profile, billet: &Billet, bar_mm2: f64) -> AreaCurve {
    let mm3_per_kg = bar_mm2 * billet.cut_length_mm / billet.cut_mass_kg;
    let (mut slug, mut skin, mut trimmed, mut ground) = (0.0, 0.0, 0.0, 0.0);
    for loss in &billet.losses {
        let volume = loss.mass_kg * mm3_per_kg;
        match loss.kind {
            LossKind::Slug => slug += volume,
            LossKind::ForgingScale | LossKind::HardeningScale | LossKind::Dressing => {
                skin += volume;
            }
            LossKind::Trimming => trimmed += volume,
            LossKind::Grinding => ground += volume,
        }
    }
    // Finished head, reserve and rounding: whatever is not lost.
    let rest = billet.cut_mass_kg * mm3_per_kg - slug - skin - trimmed - ground;
    let grown = rest / profile.volume;
    let skin_sum: f64 = profile
        .cells
        .iter()
        .map(|cell| cell.body.sqrt() * cell.length())
        .sum();
    // The same length of bar is trimmed off both ends, and the same depth ground off.
    let both = profile.end_areas[0] + profile.end_areas[1];
    let closing = Side::BOTH.map(|side| {
        let area = profile.end_areas[side as usize];
        let depth = 0.5 * trimmed / area + ground / both;
        let lacks: f64 = profile
            .cells
            .iter()
            .filter(|cell| cell.closes == Some(side))
            .map(|cell| (area - cell.body).max(0.0) * cell.length())
            .sum();
        Closing {
            area,
            share: if lacks > 0.0 {
                (depth * area / lacks).min(1.0)
            } else {
                0.0
            },
            beyond: (depth - lacks / area).max(0.0),
        }
    });
    let mut stations: Vec<Station> = profile
        .cells
        .iter()
        .map(|cell| {
            let mut need = grown * cell.pierced + skin / skin_sum * cell.body.sqrt();
            if cell.x.abs() < profile.slot {
                need += slug / (2.0 * profile.slot);
            }
            if let Some(side) = cell.closes {
                let Closing { area, share, .. } = closing[side as usize];
                need += share * (area - cell.body).max(0.0);
            }
            station([cell.from, cell.to], cell.x, cell.pierced, need, bar_mm2)
        })
        .collect();
    let [front, back] = &closing;
    if let (true, Some(first)) = (back.beyond > 0.0, profile.cells.first()) {
        let span = [first.from - back.beyond, first.from];
        let middle = first.from - 0.5 * back.beyond;
        stations.insert(0, station(span, middle, 0.0, back.area, bar_mm2));
    }
    if let (true, Some(last)) = (front.beyond > 0.0, profile.cells.last()) {
        let span = [last.to, last.to + front.beyond];
        let middle = last.to + 0.5 * front.beyond;
        stations.push(station(span, middle, 0.0, front.area, bar_mm2));
    }
    mark_necks(&mut stations, profile.eye);
    AreaCurve {
        stretches: stretches(&stations, bar_mm2),
        bar_mm2,
        stations,
    }
}

/// What trimming and grinding take off an end.
struct Closing {
    /// Area of the end before it is closed, mm².
    area: f64,
    /// Share that is filled of what the closing end lacks of a prism.
    share: f64,
    /// Length that stands beyond the finished end, mm.
    beyond: f64,
}

fn station(
    [from_mm, to_mm]: [f64; 2],
    x_mm: f64,
    finished_mm2: f64,
    need_mm2: f64,
    bar_mm2: f64,
) -> Station {
    let ratio = need_mm2 / bar_mm2;
    let work = if ratio > 1.0 + LEFT_ALONE {
        Work::Upset
    } else if ratio < 1.0 - LEFT_ALONE {
        Work::Draw
    } else {
        Work::Leave
    };
    Station {
        from_mm,
        to_mm,
        x_mm,
        finished_mm2,
        need_mm2,
        ratio,
        work,
    }
}

/// Makes [`Work::Fuller`] of what is drawn between two thicker places outside the eye.
///
/// A drawn stretch whose neighbours on both sides are not drawn is fullered whole; where the bar is too thick on a
/// side all along, only the dip is.
fn mark_necks(stations: &mut [Station], [back, front]: [f64; 2]) {
    let in_eye = |station: &Station| back < station.x_mm && station.x_mm < front;
    let mut before = Vec::with_capacity(stations.len());
    let mut most = 0.0_f64;
    for station in stations.iter() {
        before.push(most);
        most = most.max(station.need_mm2);
    }
    let mut dips = vec![false; stations.len()];
    most = 0.0;
    for (index, station) in stations.iter().enumerate().rev() {
        dips[index] = station.need_mm2 < (1.0 - LEFT_ALONE) * before[index].min(most);
        most = most.max(station.need_mm2);
    }
    let mut begin = 0;
    while begin < stations.len() {
        let drawn = |station: &Station| station.work == Work::Draw && !in_eye(station);
        if !drawn(&stations[begin]) {
            begin += 1;
            continue;
        }
        let count = stations[begin..].iter().take_while(|s| drawn(s)).count();
        let end = begin + count;
        let thicker = |station: Option<&Station>| station.is_some_and(|s| s.work != Work::Draw);
        let previous = begin.checked_sub(1).and_then(|index| stations.get(index));
        let between = thicker(previous) && thicker(stations.get(end));
        for index in begin..end {
            if between || dips[index] {
                stations[index].work = Work::Fuller;
            }
        }
        begin = end;
    }
}

/// A stretch shorter than this, mm, between two that are worked alike is worked with them.
const LEAST_STRETCH: f64 = 1.0;

fn stretches(stations: &[Station], bar_mm2: f64) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for station in stations {
        let next = Stretch {
            from_mm: station.from_mm,
            to_mm: station.to_mm,
            work: station.work,
            ratio: station.ratio,
            bar_length_mm: station.need_mm2 * station.length_mm() / bar_mm2,
        };
        add(&mut stretches, next);
    }
    let mut gathered: Vec<Stretch> = Vec::with_capacity(stretches.len());
    for index in 0..stretches.len() {
        let mut stretch = stretches[index];
        if let (Some(last), Some(next)) = (gathered.last(), stretches.get(index + 1)) {
            let short = stretch.to_mm - stretch.from_mm < LEAST_STRETCH;
            if short && last.work == next.work {
                (stretch.work, stretch.ratio) = (last.work, last.ratio);
            }
        }
        add(&mut gathered, stretch);
    }
    gathered
}

/// Adds `next`, to the last stretch if it is worked alike.
fn add(stretches: &mut Vec<Stretch>, next: Stretch) {
    match stretches.last_mut() {
        Some(last) if last.work == next.work => {
            last.to_mm = next.to_mm;
            last.bar_length_mm += next.bar_length_mm;
            if (next.ratio - 1.0).abs() > (last.ratio - 1.0).abs() {
                last.ratio = next.ratio;
            }
        }
        _ => stretches.push(next),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Stations of 10 mm with these needs, on a bar of 100 mm².
    fn row(needs: &[f64], eye: [f64; 2]) -> Vec<Station> {
        let mut stations: Vec<Station> = needs
            .iter()
            .enumerate()
            .map(|(index, need)| {
                let from = 10.0 * index as f64;
                station([from, from + 10.0], from + 5.0, *need, *need, 100.0)
            })
            .collect();
        mark_necks(&mut stations, eye);
        stations
    }

    #[track_caller]
    fn check_works(needs: &[f64], eye: [f64; 2], expected: &[Work]) {
        let works: Vec<Work> = row(needs, eye).iter().map(|station| station.work).collect();
        assert_eq!(works, expected);
    }

    const NO_EYE: [f64; 2] = [1e3, 1e3];

    #[test]
    fn a_bar_of_just_the_area_needed_asks_for_no_forging() {
        let stations = row(&[100.0; 5], NO_EYE);
        let curve = AreaCurve {
            bar_mm2: 100.0,
            stretches: stretches(&stations, 100.0),
            stations,
        };
        assert_eq!(curve.moved_mm3(), 0.0);
        assert_eq!(curve.stretches.len(), 1);
        assert_eq!(curve.stretches[0].work, Work::Leave);
        assert_eq!(curve.from_back_mm(23.0), 23.0);
    }

    #[test]
    fn a_neck_between_thicker_places_is_fullered_and_a_taper_is_drawn() {
        use Work::{Draw, Fuller, Leave, Upset};
        check_works(
            &[100.0, 60.0, 90.0, 120.0, 80.0, 50.0],
            NO_EYE,
            &[Leave, Fuller, Fuller, Upset, Draw, Draw],
        );
        // A bar too thick all along: only the dip.
        check_works(
            &[90.0, 60.0, 80.0, 90.0],
            NO_EYE,
            &[Draw, Fuller, Fuller, Draw],
        );
    }

    #[test]
    fn what_the_punch_pushes_aside_at_the_eye_is_no_neck() {
        use Work::{Draw, Upset};
        check_works(
            &[120.0, 60.0, 60.0, 120.0],
            [10.0, 30.0],
            &[Upset, Draw, Draw, Upset],
        );
    }

    #[test]
    fn a_sliver_between_two_stretches_worked_alike_belongs_to_them() {
        let mut stations = row(&[120.0, 100.0, 120.0], NO_EYE);
        stations[1].to_mm = 10.5;
        stations[2].from_mm = 10.5;
        let stretches = stretches(&stations, 100.0);
        assert_eq!(stretches.len(), 1);
        let sum: f64 = 12.0 + 0.5 + 1.2 * 19.5;
        assert!((stretches[0].bar_length_mm - sum).abs() < 1e-12);
    }
}
