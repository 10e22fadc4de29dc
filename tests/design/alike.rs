//! Front and back alike: kept through every edit, and cut.

use std::collections::BTreeSet;

use headwright::design::{
    Ball, Corner, Crown, Design, Dim, Edge, Edit, Hold, Part, Quantity, Range, Side, Size, Tip,
    Transition, starter, starter_names,
};
use headwright::units::{Angle, Length, Mass, Measure};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use super::{cut, dim, edited, rounding, set};

const WIDTHS: [&str; 2] = ["front.face.width", "back.face.width"];

fn sizes<const N: usize>(design: &Design, paths: [&str; N]) -> [Option<f64>; N] {
    paths.map(|path| design.size(dim(path)).map(|size| size.number()))
}

/// That every tie has two ends with one value, and that the back is not free by itself.
#[track_caller]
fn check_ties(design: &Design) {
    for back in &design.alike {
        assert_eq!(back.side(), Some(Side::Back), "{back}");
        assert_ne!(back.size, Size::Reach, "{back}");
        let front = back.mirrored().expect("a fellow");
        let value = design.size(*back);
        assert!(value.is_some(), "{back} is there");
        assert_eq!(value, design.size(front), "{back}");
        assert!(!design.free.contains_key(back), "{back}");
        assert_eq!(design.is_free(*back), design.is_free(front), "{back}");
        assert_eq!(design.leader(*back), front);
        assert_eq!(design.follower(front), Some(*back));
        assert!(design.has_pair(*back));
    }
    let pairs: Vec<Dim> = design.pairs();
    for (dim, _) in design.sizes() {
        assert_eq!(design.has_pair(dim), pairs.contains(&dim), "{dim}");
    }
}

#[test]
fn starters_begin_with_all_that_is_equal_alike() {
    for name in starter_names() {
        let design = starter(name).expect("listed");
        check_ties(&design);
        let equal: BTreeSet<Dim> = design.equal_pairs().into_iter().collect();
        assert_eq!(design.alike, equal, "{name}");
    }
    let names: Vec<String> = rounding().alike.iter().map(ToString::to_string).collect();
    assert_eq!(
        names,
        [
            "back.neck1.width",
            "back.neck1.at",
            "back.face.width",
            "back.face.edge"
        ]
    );
}

#[test]
fn setting_either_of_two_that_are_alike_sets_both() {
    for (path, mm) in WIDTHS.into_iter().zip([41.0, 37.5]) {
        let design = edited(&[set(path, mm)]);
        assert_eq!(sizes(&design, WIDTHS), [Some(mm); 2]);
        check_ties(&design);
    }
    // In the notation it was given in, and by the edits of a rim and a corner too.
    let inches = edited(&[Edit::set(dim(WIDTHS[0]), Length::inches(1.5))]);
    assert_eq!(
        inches.size(dim(WIDTHS[1])),
        Some(Length::inches(1.5).into())
    );
    let rim = edited(&[Edit::Edge(Side::Back, Edge::Rounded(Length::mm(3.0)))]);
    assert_eq!(
        rim.size(dim("front.face.edge")),
        Some(Length::mm(3.0).into())
    );
}

#[test]
fn a_tie_that_is_cut_leaves_both_where_they_are_and_apart() {
    for path in WIDTHS {
        let design = edited(&[Edit::Alike(dim(path), false)]);
        assert_eq!(sizes(&design, WIDTHS), [Some(39.0); 2]);
        let design = design.apply(set(WIDTHS[0], 42.0));
        assert_eq!(sizes(&design, WIDTHS), [Some(42.0), Some(39.0)]);
        let design = design.apply(Edit::Alike(dim(path), true));
        assert_eq!(
            sizes(&design, WIDTHS),
            [Some(42.0); 2],
            "the back takes the front’s"
        );
    }
}

#[test]
fn what_cannot_be_alike_is_not_tied() {
    let same = [
        // The reaches set the balance.
        Edit::Alike(dim("back.reach"), true),
        Edit::Alike(dim("cheeks.width"), true),
        Edit::Alike(dim("back.neck2.width"), true),
        Edit::Alike(dim("back.ball.diameter"), true),
    ];
    for edit in same {
        assert_eq!(rounding().apply(edit), rounding());
    }
    // The leg of a chamfer is not the radius of a rounding.
    let edges = edited(&[Edit::Edge(Side::Back, Edge::Chamfered(Length::mm(2.0)))]);
    assert!(!edges.has_pair(dim("back.face.edge")));
    assert!(!edges.alike.contains(&dim("back.face.edge")));
    assert_eq!(
        edges.size(dim("front.face.edge")),
        Some(Length::mm(2.0).into())
    );
    let corner = |side, corner| Edit::Corner(Part::Face(side), corner);
    let (size, radius) = (Length::mm(5.0), Length::mm(5.0));
    let corners = edited(&[
        corner(Side::Front, Corner::Chamfer { size }),
        corner(Side::Back, Corner::Rounded { radius }),
    ]);
    assert!(!corners.has_pair(dim("back.face.corner")));
}

#[test]
fn a_size_that_goes_away_on_one_side_takes_its_tie_with_it() {
    let ball = Tip::Ball(Ball {
        diameter: Length::mm(39.0),
        neck: Length::mm(28.0),
    });
    for side in Side::BOTH {
        let tip = Edit::Tip(side, Box::new(ball.clone()), Length::mm(60.0));
        let left = edited(&[tip]).alike;
        assert_eq!(left, [dim("back.neck1.width"), dim("back.neck1.at")].into());
        let left = edited(&[Edit::RemoveNeck(side)]).alike;
        assert_eq!(left, [dim("back.face.width"), dim("back.face.edge")].into());
    }
    let heights = edited(&[
        Edit::Equal(Part::Face(Side::Front), false),
        Edit::Equal(Part::Face(Side::Back), false),
        Edit::Alike(dim("back.face.height"), true),
    ]);
    assert!(heights.alike.contains(&dim("back.face.height")));
    let gone = heights.apply(Edit::Equal(Part::Face(Side::Front), true));
    assert!(!gone.alike.contains(&dim("back.face.height")));
    assert!(gone.alike.contains(&dim("back.face.width")));
    // A neck that gets another number is not as what has its old one.
    let width = dim("back.neck1.width");
    let inner = edited(&[
        cut("back.neck1.at"),
        set("front.reach", 90.0),
        set("front.neck1.at", 70.0),
        set("front.neck1.width", 42.0),
    ]);
    assert!(inner.alike.contains(&width));
    let added = inner.apply(Edit::AddNeck(Side::Front));
    assert_eq!(added.size(dim("front.neck1.width")), added.size(width));
    assert!(!added.alike.contains(&width));
}

#[test]
fn two_that_are_alike_are_free_or_locked_together_as_the_front() {
    let range = Range::new(Length::mm(30.0), Length::mm(45.0));
    for path in WIDTHS {
        let free = edited(&[Edit::Free(dim(path), range)]);
        assert_eq!(WIDTHS.map(|path| free.range(dim(path))), [Some(range); 2]);
        assert!(free.free.contains_key(&dim(WIDTHS[0])));
        check_ties(&free);
        let locked = free.apply(Edit::Lock(dim(WIDTHS[1])));
        assert_eq!(WIDTHS.map(|path| locked.is_free(dim(path))), [false; 2]);
    }
    // The back’s own limits end with the tie.
    let parted = edited(&[cut(WIDTHS[1]), Edit::Free(dim(WIDTHS[1]), range)]);
    assert_eq!(WIDTHS.map(|path| parted.is_free(dim(path))), [false, true]);
    let tied = parted.apply(Edit::Alike(dim(WIDTHS[0]), true));
    assert_eq!(WIDTHS.map(|path| tied.is_free(dim(path))), [false; 2]);
    check_ties(&tied);
}

/// One random edit of a design, of every kind that can touch a tie.
fn edit(design: &Design, (kind, which, share): (u8, usize, f64)) -> Edit {
    let sizes = design.sizes();
    let (dim, size) = sizes[which % sizes.len()];
    let side = Side::BOTH[which % 2];
    let mm = |mm: f64| Length::mm((mm * 2.0).round() / 2.0);
    let part = [
        Part::Neck(side, 0),
        Part::Neck(side, 1),
        Part::Face(side),
        Part::Pein(side),
    ][which / 2 % 4];
    let corners = [
        Corner::Sharp,
        Corner::Chamfer {
            size: mm(4.0 * share),
        },
        Corner::Rounded {
            radius: mm(4.0 * share),
        },
        Corner::Octagon,
        Corner::Conic {
            across: mm(4.0),
            up: mm(5.0 * share),
            weight: 0.5,
        },
    ];
    let other = starter(
        starter_names()
            .nth(which % starter_names().count())
            .expect("one"),
    )
    .expect("a starter");
    match kind % 18 {
        0..=2 => Edit::Set(dim, size.with_number(size.number() * (0.9 + 0.2 * share))),
        3 => Edit::Alike(dim, true),
        4 => Edit::Alike(dim, which % 3 == 0),
        5 => Edit::Free(
            dim,
            Range {
                low: size,
                high: size,
            },
        ),
        6 => Edit::Lock(dim),
        7 => Edit::Corner(part, corners[which % 5]),
        8 => Edit::Equal(part, which % 3 == 0),
        9 => Edit::Crown(
            side,
            if which % 3 == 0 {
                Crown::Flat
            } else {
                Crown::Radius(mm(200.0 * share))
            },
        ),
        10 => Edit::Edge(
            side,
            [
                Edge::Sharp,
                Edge::Rounded(mm(3.0)),
                Edge::Chamfered(mm(3.0 * share)),
            ][which % 3],
        ),
        11 => Edit::Tip(
            side,
            Box::new(other.end(Side::BOTH[which / 2 % 2]).tip.clone()),
            mm(60.0),
        ),
        12 => Edit::AddNeck(side),
        13 => Edit::RemoveNeck(side),
        14 => Edit::Transition(part, Transition::Straight),
        15 => Edit::Optional(
            Part::End(side).size(Size::Drop),
            (which % 3 > 0).then(|| Angle::degrees((4.0 * share).round()).into()),
        ),
        16 => Edit::Optional(
            Part::Pein(side).size([Size::Rocker, Size::Hollow, Size::CornerBreak][which / 2 % 3]),
            (which % 5 > 0).then(|| Measure::from(mm(3.0 * share))),
        ),
        // What comes from elsewhere may say anything.
        _ => {
            let mut other = if which % 3 == 0 {
                other
            } else {
                design.clone()
            };
            other.alike.insert(dim);
            other.free.insert(
                dim,
                Range {
                    low: size,
                    high: size,
                },
            );
            Edit::Replace(Box::new(other))
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, rng_seed: RngSeed::Fixed(3), ..ProptestConfig::default() })]

    #[test]
    fn ties_hold_after_any_edits(
        start in 0usize..100,
        edits in prop::collection::vec((any::<u8>(), 0..10_000_usize, 0.0..1.0), 100),
    ) {
        let name = starter_names().nth(start % starter_names().count()).expect("one");
        let mut design = starter(name).expect("a starter");
        for one in edits {
            let edit = edit(&design, one);
            let after = design.apply(edit.clone());
            check_ties(&after);
            if let Edit::Set(dim, size) = edit {
                // What is given is taken, by the one that is alike too, and by no other.
                for ((other, old), (_, new)) in design.sizes().into_iter().zip(after.sizes()) {
                    let takes = design.leader(other) == design.leader(dim);
                    prop_assert_eq!(new, if takes { size } else { old }, "{}", other);
                }
                prop_assert_eq!(&after.alike, &design.alike);
            }
            design = after;
        }
    }
}

#[test]
fn what_concerns_no_size_leaves_the_ties_alone() {
    let weight = Hold::About {
        value: Mass::kg(1.0),
        tolerance: None,
    };
    for edit in [
        Edit::Name("another".to_owned()),
        Edit::hold(Quantity::Mass, weight),
        set("front.reach", 60.0),
    ] {
        assert_eq!(edited(&[edit]).alike, rounding().alike);
    }
}
