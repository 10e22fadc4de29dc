//! What stands first: lists in the order of a number.
//!
//! A sort of the standard library is made anew for every type and comparison, each as large as a
//! whole part of the page; these two are made once, or are short.

/// The places of `keys` from the least key to the greatest; equal ones keep their order.
pub fn order(keys: &[f64]) -> Vec<usize> {
    let mut places: Vec<usize> = (0..keys.len()).collect();
    places.sort_by(|i, j| keys[*i].total_cmp(&keys[*j]));
    places
}

/// Sorts a list of a few dozen by `key`; equal ones keep their order.
pub fn sort_few<T>(list: &mut [T], key: impl Fn(&T) -> f64) {
    for end in 1..list.len() {
        let mut at = end;
        while at > 0 && key(&list[at - 1]).total_cmp(&key(&list[at])).is_gt() {
            list.swap(at - 1, at);
            at -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const KEYS: [f64; 7] = [2.0, -1.0, 2.0, 0.5, -3.0, 2.0, 0.5];
    const PLACES: [usize; 7] = [4, 1, 3, 6, 0, 2, 5];

    #[test]
    fn places_follow_their_keys_and_equal_ones_keep_their_order() {
        assert_eq!(order(&KEYS), PLACES);
    }

    #[test]
    fn a_short_list_is_sorted_and_equal_ones_keep_their_order() {
        let mut places = [0, 1, 2, 3, 4, 5, 6];
        sort_few(&mut places, |k| KEYS[*k]);
        assert_eq!(places, PLACES);
    }
}
