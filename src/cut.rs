//! The cutting list: which piece is cut from which bar?
//!
//! An [`Order`] is pieces, stock lengths, a kerf and an end waste; a [`Search`] finds its [`CuttingList`], and says at
//! any time what every list takes at least.
//!
//! # What a cut takes
//! Pieces are cut from the bar's free end on, one after the other, with one kerf between two of them. Behind the last
//! one at least the end waste must be left, and the cut that frees the last piece is taken from what is left; it is
//! not made when the piece ends at the bar's own end. So a bar takes n pieces when
//! Σ length + (n − 1) · kerf + end waste ≤ bar.
//!
//! # What is best
//! In this order: everything is cut; what the bars cost is least, or, without prices, their length, which with one
//! stock length is their number; of lists that cost the same, the one with less steel, which is the one with less
//! offcut, since pieces and kerfs are the same. Up to here a list is proved best when [`Bound::proved`] says so.
//! Then the offcut is gathered in one length, until dealing the pieces of that bar and any one other out anew would
//! not make it longer; that is not proved to be the longest.
//! Where all stock is counted and is not enough, bars of the longest length are missing, as few as can be.
//!
//! # How it is found
//! A first list fills bar after bar. The linear relaxation over all ways to cut a bar, solved by the library microlp,
//! gives a lower bound that is exact in whole numbers whatever the library's rounding. Then the sets of bars that
//! could be bought are tried in order of their cost, and a set is refuted or packed by a search over ways to cut.
//! Lengths count in whole nanometres, and what a bar costs in whole hundredths: so it is shown, summed and proved.
//!
//! # Limits
//! Orders of up to 60 pieces are proved best in all that were tried, hundreds drawn at random with one to three stock
//! lengths, counted and priced; that none exists that is not proved is not shown. Of larger ones many are. A search
//! ends after [`MOST_WORK`] units with its best list and the
//! bound.

mod choices;
mod error;
mod first;
mod gather;
mod grid;
mod knapsack;
mod message;
mod order;
mod pack;
mod plan;
mod problem;
mod relax;
mod search;
mod valued;

pub use error::CutError;
pub use message::{Message, answer};
pub use order::{
    KERF_MM, LENGTH_MM, MOST_LINES, MOST_PIECES, MOST_STOCK, NAME_CHARACTERS, Order, PRICE, Piece,
    Stock, bar_length,
};
pub use plan::{Aim, Bound, CutBar, CutPiece, CuttingList, Totals};
pub use search::{CutErrors, MOST_WORK, Progress, Search};
