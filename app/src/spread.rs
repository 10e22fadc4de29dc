//! Where things in a row are drawn: each at its place, clear of its neighbours.

/// Places along a line for things of half-widths `half` that belong at `at`, in order, with `clear` between them: each
/// as near to its own place as the row allows, none before `first`.
pub fn spread(at: &[f64], half: &[f64], clear: f64, first: f64, last: f64) -> Vec<f64> {
    let mut places: Vec<f64> = Vec::with_capacity(at.len());
    // From the left each keeps clear of the one before it.
    for (index, (at, half_width)) in at.iter().zip(half).enumerate() {
        let least = match index.checked_sub(1) {
            Some(before) => places[before] + half[before] + clear + half_width,
            None => first + half_width,
        };
        places.push(at.max(least));
    }
    // What was pushed too far comes back, and takes those before it along.
    let mut most = last;
    for (place, half_width) in places.iter_mut().zip(half).rev() {
        *place = place.min(most - half_width);
        most = *place - half_width - clear;
    }
    places
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_room_stays_below_its_place() {
        let places = spread(&[50.0, 200.0], &[20.0, 20.0], 8.0, 0.0, 400.0);
        assert_eq!(places, [50.0, 200.0]);
    }

    #[test]
    fn what_would_touch_is_moved_on_and_keeps_its_order() {
        let places = spread(&[10.0, 30.0, 300.0], &[20.0, 30.0, 20.0], 8.0, 0.0, 400.0);
        assert_eq!(places, [20.0, 78.0, 300.0]);
    }

    #[test]
    fn at_the_end_of_the_row_all_move_back() {
        let places = spread(&[10.0, 380.0, 390.0], &[20.0, 20.0, 20.0], 8.0, 0.0, 400.0);
        assert_eq!(places, [20.0, 332.0, 380.0]);
    }
}
