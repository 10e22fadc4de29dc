//! Choices packed into one large number, each taking no more room than it has alternatives.
//!
//! A choice is a value v below a count n. The number is built from the last choice to the first,
//! N ← N·n + v, and taken apart from the first to the last, v = N mod n, N ← ⌊N/n⌋: a choice
//! among five takes log₂ 5 bits, not three. The same code walks a design for writing and for
//! reading; a [`Coder`] either takes note of a choice or makes it.

/// What was read is no packed design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::share) struct Fault;

/// One direction of packing.
pub(in crate::share) trait Coder {
    /// A value below `count`, which is at most 2³². A writer keeps `value` and gives it back; a
    /// reader gives back what it reads and does not look at `value`.
    fn choice(&mut self, value: u64, count: u64) -> Result<u64, Fault>;

    /// Yes or no.
    fn flag(&mut self, value: bool) -> Result<bool, Fault> {
        Ok(self.choice(u64::from(value), 2)? == 1)
    }

    /// Any 64 bits.
    fn bits(&mut self, value: u64) -> Result<u64, Fault> {
        let low = self.choice(value & 0xffff_ffff, 1 << 32)?;
        let high = self.choice(value >> 32, 1 << 32)?;
        Ok(high << 32 | low)
    }

    /// A value below the count of one of several kinds, of which some are likelier than others.
    ///
    /// `kinds` are weights and counts; the weights add up to [`WEIGHTS`]. A kind of weight w takes
    /// log₂(256/w) bits beyond its value: the choice among the 256 already carries v mod w.
    fn weighted(
        &mut self,
        (kind, value): (usize, u64),
        kinds: &[(u64, u64)],
    ) -> Result<(usize, u64), Fault> {
        let start: u64 = kinds.iter().take(kind).map(|(weight, _)| weight).sum();
        let weight = kinds.get(kind).map_or(1, |(weight, _)| *weight);
        let mut slot = self.choice(start + value % weight, WEIGHTS)?;
        for (found, (weight, count)) in kinds.iter().enumerate() {
            if slot < *weight {
                let rest = self.choice(value / weight, count.div_ceil(*weight))?;
                let value = rest * weight + slot;
                return if value < *count {
                    Ok((found, value))
                } else {
                    Err(Fault)
                };
            }
            slot -= weight;
        }
        Err(Fault)
    }
}

/// What the weights of the kinds add up to.
pub(super) const WEIGHTS: u64 = 256;

/// Takes note of choices.
#[derive(Default)]
pub(in crate::share) struct Writer {
    choices: Vec<(u64, u64)>,
}

impl Coder for Writer {
    fn choice(&mut self, value: u64, count: u64) -> Result<u64, Fault> {
        if value >= count {
            return Err(Fault);
        }
        self.choices.push((value, count));
        Ok(value)
    }
}

impl Writer {
    /// The number, lowest byte first, without idle zeros.
    pub fn finish(self) -> Vec<u8> {
        let mut limbs: Vec<u32> = Vec::new();
        for (value, count) in self.choices.into_iter().rev() {
            let mut carry = value;
            for limb in &mut limbs {
                // At most (2³² − 1)·2³² + 2³² − 1, which is what 64 bits hold.
                let sum = u64::from(*limb) * count + carry;
                *limb = sum as u32;
                carry = sum >> 32;
            }
            if carry > 0 {
                limbs.push(carry as u32);
            }
        }
        let mut bytes: Vec<u8> = limbs.into_iter().flat_map(u32::to_le_bytes).collect();
        while bytes.last() == Some(&0) {
            bytes.pop();
        }
        bytes
    }
}

/// Makes the choices that were noted.
pub(in crate::share) struct Reader {
    limbs: Vec<u32>,
}

impl Reader {
    /// Reads from a number, lowest byte first.
    pub fn new(bytes: &[u8]) -> Self {
        let limb = |chunk: &[u8]| {
            let shifted = chunk.iter().zip([0, 8, 16, 24]);
            shifted.fold(0, |limb, (byte, by)| limb | u32::from(*byte) << by)
        };
        Self {
            limbs: bytes.chunks(4).map(limb).collect(),
        }
    }

    /// Whether all that was noted has been read.
    pub fn is_done(&self) -> bool {
        self.limbs.iter().all(|limb| *limb == 0)
    }
}

impl Coder for Reader {
    fn choice(&mut self, _: u64, count: u64) -> Result<u64, Fault> {
        if count == 0 {
            return Err(Fault);
        }
        let mut rest = 0;
        for limb in self.limbs.iter_mut().rev() {
            let part = rest << 32 | u64::from(*limb);
            *limb = (part / count) as u32;
            rest = part % count;
        }
        Ok(rest)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn choices_come_back_in_the_order_they_were_noted() {
        let choices = [
            (2, 3),
            (0, 1),
            (70_000, 100_000),
            (0, 7),
            (u64::from(u32::MAX), 1 << 32),
            (1, 2),
            (0, 9),
        ];
        let mut writer = Writer::default();
        for (value, count) in choices {
            assert_eq!(writer.choice(value, count), Ok(value));
        }
        let mut reader = Reader::new(&writer.finish());
        for (value, count) in choices {
            assert_eq!(reader.choice(0, count), Ok(value));
        }
        assert!(reader.is_done());
    }

    #[test]
    fn a_choice_takes_no_more_room_than_it_has_alternatives() {
        let mut writer = Writer::default();
        for _ in 0..1000 {
            writer.choice(4, 5).expect("in range");
        }
        // 1000 · log₂ 5 = 2322 bits are 291 bytes; three bits each would be 375.
        assert_eq!(writer.finish().len(), 291);
    }

    #[test]
    fn a_likely_kind_is_short_and_an_unlikely_one_comes_back_as_well() {
        let kinds = [(200, 1000), (50, 1 << 20), (6, 1)];
        let length = |kind, value| {
            let mut writer = Writer::default();
            for _ in 0..100 {
                writer.weighted((kind, value), &kinds).expect("in range");
            }
            let bytes = writer.finish();
            let mut reader = Reader::new(&bytes);
            for _ in 0..100 {
                assert_eq!(reader.weighted((0, 0), &kinds), Ok((kind, value)));
            }
            bytes.len()
        };
        // log₂(256/200 · 1000) = 10.3 bits, log₂(256/50 · 2²⁰) = 22.4 bits, log₂(256/6) = 5.4 bits,
        // with up to one bit more where a weight does not divide its count.
        assert!(length(0, 999) <= 135, "{}", length(0, 999));
        assert!(
            length(1, (1 << 20) - 1) <= 285,
            "{}",
            length(1, (1 << 20) - 1)
        );
        assert!(length(2, 0) <= 101, "{}", length(2, 0));
    }

    #[test]
    fn a_value_beyond_its_count_is_a_fault_both_ways() {
        assert_eq!(Writer::default().choice(5, 5), Err(Fault));
        // Of the 256 slots 100 are one kind of only three values: the fourth is no value.
        let kinds = [(100, 3), (156, 1)];
        assert_eq!(Reader::new(&[3]).weighted((0, 0), &kinds), Err(Fault));
    }
}
