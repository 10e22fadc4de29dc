//! The parts that a head may do without: drawn by shares, placed where the rest leaves room.

use headwright::design::{Design, Lugs, Outline, Pein, Side, Tip, Wall};
use headwright::solid::{self, LEAST_FACE, MOST_ROCKER};
use headwright::units::{Angle, Length};
use proptest::prelude::*;

use super::{lifted, outline};

/// A share of the way from the least to the most; either is a case of its own.
fn share() -> impl Strategy<Value = f64> {
    prop_oneof![1 => Just(0.0), 8 => 0.0..1.0, 1 => Just(1.0)]
}

/// Something in `there` of ten designs.
fn perhaps<S: Strategy>(there: u32, what: S) -> impl Strategy<Value = Option<S::Value>>
where
    S::Value: Clone,
{
    prop::option::weighted(f64::from(there) / 10.0, what)
}

/// An angle of at most `most` degrees either way: mostly small, sometimes the most.
fn angle(most: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => -0.4 * most..0.4 * most,
        2 => -most..most,
        1 => Just(most),
        1 => Just(-most),
        1 => Just(0.0),
    ]
}

/// A length from nothing to `most`: mostly `often` or less.
fn length(often: f64, most: f64) -> impl Strategy<Value = f64> {
    prop_oneof![2 => Just(0.0), 6 => 0.0..often, 2 => 0.0..most]
}

/// What is added to a plain block and eye.
#[derive(Clone, Debug, Default)]
pub struct Parts {
    swell: Option<f64>,
    /// Share of the length, height of top and bottom.
    lugs: Option<(f64, f64, f64)>,
    arc: bool,
    mouth_break: Option<f64>,
    cock: [Option<f64>; 2],
    drop: [Option<f64>; 2],
}

/// Draws them, each with a moderate chance.
pub fn parts() -> impl Strategy<Value = Parts> {
    let lug = || length(8.0, 30.0);
    let cock = || perhaps(3, angle(10.0));
    let drop = || perhaps(3, angle(15.0));
    (
        perhaps(4, length(4.0, 20.0)),
        perhaps(4, (share(), lug(), lug())),
        any::<bool>(),
        perhaps(
            3,
            prop_oneof![8 => 0.2..3.0, 1 => Just(0.2), 1 => 3.0..10.0],
        ),
        (cock(), cock()),
        (drop(), drop()),
    )
        .prop_map(|(swell, lugs, arc, mouth_break, cock, drop)| Parts {
            swell,
            lugs,
            arc,
            mouth_break,
            cock: cock.into(),
            drop: drop.into(),
        })
}

impl Parts {
    /// Gives `design` these parts, its lugs as long as they may be.
    pub fn put_on(&self, design: &mut Design) {
        let length = design.cheeks.length.in_mm();
        design.cheeks.swell = self.swell.map(Length::mm);
        self.put_lugs(design, length);
        let eye = &mut design.eye;
        eye.wall = if self.arc { Wall::Arc } else { Wall::Straight };
        eye.mouth_break = self.mouth_break.map(Length::mm);
        [eye.cock_along, eye.cock_across] = self.cock.map(|angle| angle.map(Angle::degrees));
        for (side, angle) in Side::BOTH.into_iter().zip(self.drop) {
            design.end_mut(side).drop = angle.map(Angle::degrees);
        }
    }

    /// Gives `design` its lugs where they may be at most `most` long.
    pub fn put_lugs(&self, design: &mut Design, most: f64) {
        design.cheeks.lugs = self.lugs.map(|(share, top, bottom)| Lugs {
            length: Length::mm(10.0 + share * (most - 10.0)),
            top: Length::mm(top),
            bottom: Length::mm(bottom),
        });
    }
}

/// Where the sizes of a pein lie between their least and their most.
#[derive(Clone, Debug)]
pub struct PeinShares {
    /// From where it begins to its tip, mm.
    pub length: f64,
    edge: f64,
    nose: f64,
    rocker: Option<f64>,
    hollow: Option<f64>,
    corner_break: Option<f64>,
}

/// A pein with its outline and direction, and the shares of the rest.
pub fn pein() -> impl Strategy<Value = (Pein, PeinShares)> {
    let right = [0.0, 90.0, -90.0, 45.0, -45.0];
    (
        outline(16.0, 60.0),
        prop_oneof![prop::sample::select(right.to_vec()), -90.0..90.0],
        prop_oneof![8 => 12.0..60.0, 1 => 2.0..12.0, 1 => 60.0..110.0],
        (share(), share()),
        (
            perhaps(4, share()),
            perhaps(4, share()),
            perhaps(4, share()),
        ),
    )
        .prop_map(
            |(outline, direction, length, (edge, nose), (rocker, hollow, corner_break))| {
                (
                    unsized_pein(outline, direction),
                    PeinShares {
                        length,
                        edge,
                        nose,
                        rocker,
                        hollow,
                        corner_break,
                    },
                )
            },
        )
}

/// A pein that is to be placed and given its sizes.
fn unsized_pein(outline: Outline, direction: f64) -> Pein {
    Pein {
        at: Length::mm(0.0),
        outline,
        direction: Angle::degrees(direction),
        edge: Length::mm(4.0),
        nose: Length::mm(0.5),
        rocker: None,
        hollow: None,
        corner_break: None,
    }
}

impl PeinShares {
    /// Gives the pein of `design` on `side`, which has its place, its sizes.
    pub fn put_on(&self, design: &mut Design, side: Side) {
        let mut set = |size: &dyn Fn(&solid::Pein<f64>, &mut Pein)| {
            let solid::Tip::Pein(lifted) = lifted(design).end(side).tip else {
                return;
            };
            if let Tip::Pein(pein) = &mut design.end_mut(side).tip {
                size(&lifted, pein);
            }
        };
        let within = |share: f64, low: f64, high: f64| Length::mm(low + share * (high - low));
        set(&|solid, pein| {
            // From a third to twice the chord there, in even ratios.
            let edge = 2.0 * solid.radius * 6f64.powf(self.edge) / 3.0;
            pein.edge = Length::mm(edge.clamp(4.0, 150.0));
            let (length, root) = (solid.length(), solid.root);
            let room = (length * length + root * root) / (2.0 * length + 0.2);
            let most = room.min(root).clamp(0.5, 40.0);
            pein.nose = within(self.nose * self.nose, 0.5, most);
        });
        set(&|solid, pein| {
            let most = solid.most_hollow(LEAST_FACE).min(20.0);
            pein.hollow = self
                .hollow
                .map(|share| within(share * share, 0.0, 0.999 * most));
            let most = (solid.half_edge.min(solid.length()) - LEAST_FACE).min(30.0);
            pein.corner_break = self
                .corner_break
                .filter(|_| most > 0.2)
                .map(|share| within(share * share, 0.2, most));
            let farthest = solid.farthest();
            let radius = |half: f64, depth: f64| {
                let depth = depth.min(half);
                (half * half + depth * depth) / (2.0 * depth)
            };
            let least = radius(solid.half_edge, 0.5 * solid.length())
                .max(radius(farthest, MOST_ROCKER * solid.length()))
                .max(farthest / MOST_ROCKER)
                .max(10.0);
            pein.rocker = self
                .rocker
                .filter(|_| least < 2000.0)
                .map(|share| Length::mm((least * (2000.0 / least).powf(share)).min(2000.0)));
        });
    }
}
