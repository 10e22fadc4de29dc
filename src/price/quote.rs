//! From costs to a price and back.

use serde::{Serialize, Serializer};

use super::costs::{Costs, LARGEST_SUM_CENTS, MONEY_CENTS, Steel, WAGE_CENTS};
use super::error::PriceError;
use super::money::Money;

/// Minutes of an hour.
const HOUR: f64 = 60.0;
/// How much faster the work is thought to be, in minutes.
const FASTER: f64 = 10.0;
/// By how much of a cent a price may be short before it is rounded up to the next: far more than roundoff, far less
/// than any coin.
const SLACK_CENTS: f64 = 1e-6;

/// What is given; the other follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// What an hour is to pay.
    Wage(Money),
    /// What a head sells for.
    Price(Money),
}

/// What a price is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Item {
    /// The bar.
    Steel,
    /// Handle and wedge.
    Wood,
    /// What is used up.
    Consumables,
    /// The fire.
    Fuel,
    /// The smith's work.
    Labour,
    /// The shop.
    Overhead,
    /// Pieces that came to nothing.
    Spoiled,
    /// Parcel and postage.
    Post,
    /// What goes to whoever sells or cashes it.
    Fees,
}

impl Item {
    /// The words for it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Wood => "wood",
            Self::Consumables => "consumables",
            Self::Fuel => "fuel",
            Self::Labour => "labour",
            Self::Overhead => "overhead",
            Self::Spoiled => "spoiled pieces",
            Self::Post => "post",
            Self::Fees => "fees",
        }
    }
}

/// A line of the ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// What for.
    pub item: Item,
    /// How much.
    #[serde(rename = "cents", serialize_with = "in_cents")]
    pub amount: Money,
}

/// What ten minutes less on every head would be worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct TenMinutes {
    /// By how much the price of a head could fall with the same wage.
    #[serde(rename = "price_cents", serialize_with = "in_cents")]
    pub off_price: Money,
    /// By how much the wage for an hour would rise with the same price.
    #[serde(rename = "wage_cents_per_hour", serialize_with = "in_cents")]
    pub on_wage: Money,
}

/// A price and what it is made of.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quote {
    /// The word for the money.
    pub currency: String,
    /// What a head sells for.
    #[serde(rename = "price_cents", serialize_with = "in_cents")]
    pub price: Money,
    /// What an hour pays at that price, rounded down; below 0 where the price does not pay what goes into the head.
    #[serde(rename = "wage_cents_per_hour", serialize_with = "in_cents")]
    pub wage: Money,
    /// The ledger of one head; adds up to the price.
    pub one: Vec<Line>,
    /// How many good heads the batch has.
    pub heads: u32,
    /// How many pieces are begun for them, on average.
    pub pieces: f64,
    /// How long the batch takes with what is spoiled, in hours.
    pub hours: f64,
    /// What the batch sells for.
    #[serde(rename = "batch_cents", serialize_with = "in_cents")]
    pub batch_price: Money,
    /// The ledger of the batch; adds up to what it sells for.
    pub batch: Vec<Line>,
    /// What ten minutes less on every head would be worth, the fire burning as long; nothing when there are no more
    /// than that, or when an hour pays nothing.
    pub ten_minutes: Option<TenMinutes>,
}

/// The price for what is `wanted`, and what it is made of.
///
/// # Errors
/// Everything that is wrong with costs, wage or price; when nothing is, a sum beyond [`LARGEST_SUM_CENTS`].
// Inlined with what it asks: the page's is built for size, and once.
#[inline]
pub fn quote(costs: &Costs, wanted: Wanted) -> Result<Quote, Vec<PriceError>> {
    let mut errors = costs.check();
    errors.extend(wanted.check());
    if !errors.is_empty() {
        return Err(errors);
    }
    let each = Each::of(costs);
    let (price, wage) = match wanted {
        Wanted::Wage(wage) => (each.price(wage.to_reckon()), wage.to_reckon()),
        Wanted::Price(price) => (price.in_cents(), each.wage(price.to_reckon())),
    };
    let heads = f64::from(costs.heads);
    let one = each.lines(price as f64);
    let sums = one.iter().map(|(_, cents)| cents.abs());
    let largest = sums.fold(price as f64, f64::max) * heads;
    if largest > LARGEST_SUM_CENTS {
        return Err(vec![PriceError::Sum(Money::cents(largest.ceil() as i64))]);
    }
    let batch_cents = price.saturating_mul(i64::from(costs.heads));
    // Where the price pays nothing, less work only means less of it to bear the loss.
    let ten_minutes = (costs.minutes > FASTER && wage >= 0.0).then(|| {
        let faster = Each::of(&Costs {
            minutes: costs.minutes - FASTER,
            ..costs.clone()
        });
        let on_wage = faster.wage(price as f64) - each.wage(price as f64);
        TenMinutes {
            off_price: Money::cents(each.price(wage) - faster.price(wage)),
            on_wage: Money::cents(on_wage.round() as i64),
        }
    });
    Ok(Quote {
        currency: costs.currency.clone(),
        price: Money::cents(price),
        wage: Money::cents((each.wage(price as f64) + SLACK_CENTS).floor() as i64),
        heads: costs.heads,
        pieces: heads * each.pieces,
        hours: heads * each.hours,
        batch_price: Money::cents(batch_cents),
        batch: ledger(&one.map(|(item, cents)| (item, cents * heads)), batch_cents),
        one: ledger(&one, price),
        ten_minutes,
    })
}

impl Wanted {
    #[inline]
    pub(super) fn check(self) -> Option<PriceError> {
        match self {
            Self::Wage(wage) if wage.in_cents() == 0 => Some(PriceError::NoWage),
            Self::Wage(wage) => {
                (!WAGE_CENTS.admits(wage.to_reckon())).then_some(PriceError::Wage(wage))
            }
            Self::Price(price) => {
                (!MONEY_CENTS.admits(price.to_reckon())).then_some(PriceError::Price(price))
            }
        }
    }
}

/// What goes into one good head, in cents and hours.
struct Each {
    steel: f64,
    wood: f64,
    consumables: f64,
    fuel: f64,
    post: f64,
    /// Of an hour.
    overhead: f64,
    /// Hours of work on the head itself and its share of what is done once.
    own_hours: f64,
    /// Hours of work on a piece, good or spoiled.
    piece_hours: f64,
    /// The same hours with those on spoiled pieces.
    hours: f64,
    /// Pieces begun for a good head.
    pieces: f64,
    /// What of the price is left when the fees are paid, as a share.
    kept: f64,
}

impl Each {
    #[inline]
    fn of(costs: &Costs) -> Self {
        let pieces = 1.0 / (1.0 - costs.spoiled_percent / 100.0);
        let piece_hours = costs.minutes / HOUR;
        let own_hours = piece_hours + costs.batch_minutes / HOUR / f64::from(costs.heads);
        Self {
            steel: match costs.steel {
                Steel::Each(money) => money.to_reckon(),
                Steel::List { cost, pieces } => cost.to_reckon() / f64::from(pieces),
            },
            wood: costs.wood.to_reckon(),
            consumables: costs.consumables.to_reckon(),
            fuel: costs.fuel_per_hour.to_reckon() * costs.heat_minutes / HOUR,
            post: costs.post.to_reckon(),
            overhead: costs.overhead_per_hour.to_reckon(),
            own_hours,
            piece_hours,
            hours: own_hours + (pieces - 1.0) * piece_hours,
            pieces,
            kept: 1.0 - costs.fees_percent / 100.0,
        }
    }

    /// All that is no work and no fee.
    #[inline]
    fn goods(&self) -> f64 {
        (self.steel + self.consumables + self.fuel) * self.pieces + self.wood + self.post
    }

    /// The least price in whole cents that pays the wage.
    #[inline]
    fn price(&self, wage: f64) -> i64 {
        let needed = self.goods() + (wage + self.overhead) * self.hours;
        (needed / self.kept - SLACK_CENTS).ceil() as i64
    }

    /// What an hour pays at the price.
    #[inline]
    fn wage(&self, price: f64) -> f64 {
        (price * self.kept - self.goods()) / self.hours - self.overhead
    }

    /// What the price is made of; adds up to it but for roundoff.
    #[inline]
    fn lines(&self, price: f64) -> [(Item, f64); 9] {
        let wage = self.wage(price);
        let of_piece =
            self.steel + self.consumables + self.fuel + (wage + self.overhead) * self.piece_hours;
        [
            (Item::Steel, self.steel),
            (Item::Wood, self.wood),
            (Item::Consumables, self.consumables),
            (Item::Fuel, self.fuel),
            (Item::Labour, wage * self.own_hours),
            (Item::Overhead, self.overhead * self.own_hours),
            (Item::Spoiled, of_piece * (self.pieces - 1.0)),
            (Item::Post, self.post),
            (Item::Fees, price * (1.0 - self.kept)),
        ]
    }
}

/// The lines in whole cents, which add up to `total`: each rounded down, and what is missing given, a cent each, to those
/// that lost most by it, the first of those alike.
#[inline]
fn ledger(lines: &[(Item, f64)], total: i64) -> Vec<Line> {
    // A whole amount that roundoff left a little short stays whole.
    let down = |cents: f64| (cents + SLACK_CENTS).floor();
    let mut ledger: Vec<Line> = lines
        .iter()
        .map(|(item, cents)| Line {
            item: *item,
            amount: Money::cents(down(*cents) as i64),
        })
        .collect();
    let mut by_loss: Vec<usize> = (0..lines.len()).collect();
    by_loss.sort_by(|a, b| {
        let lost = |at: usize| lines[at].1 - down(lines[at].1);
        lost(*b).total_cmp(&lost(*a))
    });
    let sum: i64 = ledger.iter().map(|line| line.amount.in_cents()).sum();
    let missing = usize::try_from(total - sum).unwrap_or_default();
    for at in by_loss.into_iter().take(missing) {
        let amount = &mut ledger[at].amount;
        *amount = Money::cents(amount.in_cents() + 1);
    }
    ledger
}

fn in_cents<S: Serializer>(money: &Money, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_i64(money.in_cents())
}
