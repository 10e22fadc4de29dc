//! Sound designs drawn at random, over everything a design can say.

use std::collections::BTreeMap;

use headwright::bar::Bar;
use headwright::design::{
    Ball, Cheeks, Corner, Crown, Design, Edge, End, Eye, EyeLevel, EyeOutline, Face, Holds, Neck,
    Outline, Tip, Transition, Wall,
};
use headwright::units::{Density, Length};
use proptest::prelude::*;

/// A length in mm. Two of three are multiples of half a millimetre: such sizes meet each other
/// exactly, as those of real designs do.
fn mm(value: f64, whole: bool) -> Length {
    Length::mm(if whole {
        (2.0 * value).round() / 2.0
    } else {
        value
    })
}

fn whole() -> impl Strategy<Value = bool> {
    prop_oneof![2 => Just(true), 1 => Just(false)]
}

/// A section of at least `least` across and up, at most `most`.
fn outline(least: f64, most: f64) -> impl Strategy<Value = Outline> {
    (
        (0u8..6, any::<bool>(), whole()),
        (0.0..1.0, 0.0..1.0),
        (0.0..1.0, 0.0..1.0),
        prop_oneof![Just(0.0), Just(0.95), 0.0..0.95],
    )
        .prop_map(
            move |((kind, equal, whole), (width, height), (across, up), weight)| {
                let size = |share: f64| mm(least + share * (most - least), whole);
                let (width, height) = (size(width), size(height));
                let other = if equal { width } else { height };
                let (half_width, half_height) = (0.5 * width.in_mm(), 0.5 * other.in_mm());
                let part = |share: f64, half: f64| {
                    // Corners of full size are a case of their own: one in ten.
                    if share > 0.9 {
                        Length::mm(half)
                    } else {
                        mm((share * half).max(0.5), whole)
                    }
                };
                let least_half = half_width.min(half_height);
                let corner = match kind {
                    0 => Corner::Sharp,
                    1 => Corner::Chamfer {
                        size: part(across, least_half),
                    },
                    2 => Corner::Octagon,
                    3 => Corner::Rounded {
                        radius: part(across, least_half),
                    },
                    4 => Corner::Round,
                    _ => Corner::Conic {
                        across: part(across, half_width),
                        up: part(up, half_height),
                        weight,
                    },
                };
                if equal {
                    Outline::equal(width, corner)
                } else {
                    Outline::new(width, height, corner)
                }
            },
        )
}

fn transition() -> impl Strategy<Value = Transition> {
    prop_oneof![Just(Transition::Straight), Just(Transition::Smooth)]
}

fn eye() -> impl Strategy<Value = Eye> {
    let level = (0.0..1.0, 0.0..1.0, 0.0..1.0);
    (
        (0u8..4, whole(), 14.0..30.0, 0.5..1.0),
        (level.clone(), level.clone(), level),
        prop_oneof![Just(0.0), -6.0..6.0],
    )
        .prop_map(
            |((kind, whole, length, slender), (top, waist, bottom), height)| {
                let outline = match kind {
                    0 => EyeOutline::Round,
                    1 => EyeOutline::Ellipse,
                    2 => EyeOutline::Obround,
                    _ => EyeOutline::RoundedRectangle,
                };
                let level = |(longer, wider, radius): (f64, f64, f64), flare: f64| {
                    let length = length + flare * longer;
                    let width: f64 = length * slender + flare * wider;
                    let width = mm(width.min(length), whole).in_mm().min(length);
                    EyeLevel {
                        length: mm(length, whole),
                        width: (kind != 0).then(|| Length::mm(width)),
                        radius: (kind == 3).then(|| {
                            let half = 0.5 * width;
                            Length::mm(if radius > 0.9 {
                                half
                            } else {
                                0.5 + radius * (half - 0.5)
                            })
                        }),
                    }
                };
                Eye {
                    outline,
                    top: level(top, 4.0),
                    waist: level(waist, 0.0),
                    bottom: level(bottom, 4.0),
                    waist_height: mm(height, whole),
                    wall: Wall::Straight,
                    cock_along: None,
                    cock_across: None,
                    mouth_break: None,
                }
            },
        )
}

fn face() -> impl Strategy<Value = Face> {
    (
        outline(16.0, 60.0),
        (0u8..3, 0.0..1.0),
        (0u8..3, 0.0..1.0),
        (0.0..1.0, whole()),
    )
        .prop_map(|(outline, (crown, curve), (edge, size), (land, whole))| {
            let half_width = 0.5 * outline.width.in_mm();
            let half_height = 0.5 * outline.height.unwrap_or(outline.width).in_mm();
            let farthest = half_width.hypot(half_height);
            let radius: f64 = farthest * 1.02 / (1.0 - 0.97 * curve);
            let crown = match crown {
                0 => Crown::Flat,
                _ => Crown::Radius(mm(radius.clamp(5.0, 2000.0).ceil(), whole)),
            };
            let most: f64 = 0.95 * half_width.min(half_height);
            let leg = mm(most.min(0.25 + size * size * most), whole);
            let leg = Length::mm(leg.in_mm().max(0.25));
            let (edge, drop) = match edge {
                0 => (Edge::Sharp, 0.0),
                1 => (Edge::Rounded(leg), leg.in_mm()),
                _ => (Edge::Chamfered(leg), leg.in_mm()),
            };
            let fall = match crown {
                Crown::Flat => 0.0,
                Crown::Radius(radius) => {
                    let r = radius.in_mm();
                    let sag = |x: f64| r - (r * r - x * x).max(0.0).sqrt();
                    sag(farthest) - sag(half_height)
                }
            };
            // Shortest lands are a case of their own.
            let spare = if land < 0.1 { 0.0 } else { 12.0 * land };
            Face {
                outline,
                land: Length::mm((fall + drop + spare).max(0.5)),
                crown,
                edge,
            }
        })
}

/// A ball on a neck of any thickness up to the most.
fn ball() -> impl Strategy<Value = Ball> {
    (8.0..70.0, 0.0..1.0, whole()).prop_map(|(diameter, share, whole)| {
        let diameter = mm(diameter, whole);
        let most = 0.98 * diameter.in_mm();
        let neck = mm(4.0 + share * (most - 4.0), whole).in_mm();
        Ball {
            diameter,
            // Thickest necks are a case of their own.
            neck: Length::mm(if share > 0.9 { most } else { neck.min(most) }),
        }
    })
}

fn tip() -> impl Strategy<Value = Tip> {
    prop_oneof![
        3 => face().prop_map(Tip::Face),
        1 => ball().prop_map(Tip::Ball),
    ]
}

/// An end whose stations follow each other from the block's end outwards.
fn end() -> impl Strategy<Value = (End, Vec<f64>)> {
    let gap = 0.5..25.0;
    (
        prop::collection::vec((outline(16.0, 60.0), transition(), gap.clone()), 0..=2),
        (tip(), transition(), gap),
    )
        .prop_map(|(necks, (tip, transition, last))| {
            let mut gaps: Vec<f64> = necks.iter().map(|(.., gap)| *gap).collect();
            gaps.push(last);
            let necks = necks
                .into_iter()
                .map(|(outline, transition, _)| Neck {
                    at: Length::mm(0.0),
                    outline,
                    transition,
                })
                .collect();
            let end = End {
                necks,
                transition,
                reach: Length::mm(0.0),
                drop: None,
                tip,
            };
            (end, gaps)
        })
}

/// Puts the stations of an end at their gaps from the block's end.
fn place((mut end, gaps): (End, Vec<f64>), block_end: f64) -> End {
    let mut at = block_end;
    for (neck, gap) in end.necks.iter_mut().zip(&gaps) {
        at += gap;
        neck.at = Length::mm(at);
    }
    let last = gaps.last().copied().unwrap_or(1.0);
    let face = match &end.tip {
        Tip::Face(face) => face,
        // Refused for now, so never drawn.
        Tip::Pein(_) => return end,
        Tip::Ball(ball) => {
            let (r, n) = (0.5 * ball.diameter.in_mm(), 0.5 * ball.neck.in_mm());
            end.reach = Length::mm(at + last + 1e-6 + (r * r - n * n).sqrt() + r);
            return end;
        }
    };
    let half = 0.5 * face.outline.height.unwrap_or(face.outline.width).in_mm();
    let sag = match face.crown {
        Crown::Flat => 0.0,
        Crown::Radius(radius) => {
            let r = radius.in_mm();
            r - (r * r - half * half).max(0.0).sqrt()
        }
    };
    // A hair more than the gap: the land begins where sag and land, rounded, leave it.
    end.reach = Length::mm(at + last + 1e-6 + sag + face.land.in_mm());
    end
}

/// Sound designs over the whole space of options: faces and balls, every corner, outline, crown,
/// edge and transition, unequal widths and heights, up to two necks on either end, eyes off the middle,
/// waists off the middle, mouths that differ, walls and lands down to the least.
pub fn sound_designs() -> impl Strategy<Value = Design> {
    let room = prop_oneof![Just(0.0), 0.0..12.0];
    (
        (outline(24.0, 64.0), room, prop_oneof![Just(0.0), -8.0..8.0]),
        eye(),
        (end(), end()),
        2000.0f64..20000.0,
    )
        .prop_filter_map("sound", |((outline, room, offset), eye, ends, density)| {
            let longest = [&eye.top, &eye.waist, &eye.bottom]
                .map(|level| level.length.in_mm())
                .into_iter()
                .fold(0.0, f64::max);
            let length = longest + 8.0 + 2.0 * f64::abs(offset) + room;
            let design = Design {
                name: "Drawn at random".to_owned(),
                note: String::new(),
                density: Density::kg_per_m3(density),
                cheeks: Cheeks {
                    length: Length::mm(length),
                    outline,
                    offset: Length::mm(offset),
                    swell: None,
                    lugs: None,
                },
                eye,
                front: place(ends.0, 0.5 * length - offset),
                back: place(ends.1, 0.5 * length + offset),
                holds: Holds::default(),
                free: BTreeMap::new(),
                bar: Bar::default(),
            };
            design.build().is_ok().then_some(design)
        })
}
