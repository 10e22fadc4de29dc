//! Pictures of the page, to be compared point by point.

use std::collections::HashMap;
use std::io::Cursor;

/// A picture in red, green and blue.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    width: usize,
    points: Vec<[u8; 3]>,
}

/// How far two channels may differ and count as the same.
const ALIKE: u8 = 12;
/// The same for two points that stand a part of a point apart.
const LIKE: u8 = 60;

impl Picture {
    /// Reads a PNG as the browser writes it: eight bits, with or without transparency.
    pub fn read(bytes: &[u8]) -> Self {
        let decoder = png::Decoder::new(Cursor::new(bytes));
        let mut reader = decoder.read_info().expect("a picture is a PNG");
        let size = reader.output_buffer_size().expect("a picture has a size");
        let mut data = vec![0; size];
        let info = reader.next_frame(&mut data).expect("a picture is whole");
        let channels = info.color_type.samples();
        assert!(channels >= 3, "the browser writes colours");
        let points = data[..info.buffer_size()]
            .chunks_exact(channels)
            .map(|point| [point[0], point[1], point[2]])
            .collect();
        Self {
            width: info.width as usize,
            points,
        }
    }

    /// The share of points, 0 to 1, that have the most frequent colour.
    pub fn share_of_ground(&self) -> f64 {
        let mut counts = HashMap::new();
        for point in &self.points {
            *counts.entry(point).or_insert(0_usize) += 1;
        }
        let most = counts.values().copied().max().unwrap_or_default();
        most as f64 / self.points.len() as f64
    }

    /// What a reader of QR codes makes of the only code on it.
    pub fn code(&self) -> Option<String> {
        let bright = |x: usize, y: usize| {
            let point = self.points[y * self.width + x];
            (point.iter().map(|channel| u32::from(*channel)).sum::<u32>() / 3) as u8
        };
        let height = self.points.len() / self.width;
        let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(self.width, height, bright);
        match prepared.detect_grids().as_slice() {
            [grid] => grid.decode().ok().map(|(_, text)| text),
            _ => None,
        }
    }

    /// How many different colours there are.
    pub fn colours(&self) -> usize {
        let all: std::collections::HashSet<_> = self.points.iter().collect();
        all.len()
    }

    /// The share of points, 0 to 1, that differ plainly from those of a picture of the same size.
    pub fn difference(&self, other: &Self) -> f64 {
        assert_eq!(self.width, other.width, "pictures of the same size");
        assert_eq!(
            self.points.len(),
            other.points.len(),
            "pictures of the same size"
        );
        let pairs = self.points.iter().zip(&other.points);
        let differing = pairs
            .filter(|(a, b)| a.iter().zip(*b).any(|(a, b)| a.abs_diff(*b) > ALIKE))
            .count();
        differing as f64 / self.points.len() as f64
    }

    /// The share of points, 0 to 1, that no point of the other picture within one of its place is like: lines and letters
    /// that another painter has put a part of a point aside are the same, one that is missing in either is not.
    pub fn missing(&self, other: &Self) -> f64 {
        assert_eq!(
            (self.width, self.points.len()),
            (other.width, other.points.len()),
            "pictures of the same size"
        );
        self.unmatched(other).max(other.unmatched(self))
    }

    fn unmatched(&self, other: &Self) -> f64 {
        let width = self.width;
        let height = self.points.len() / width;
        let around = |at: usize, end: usize| at.saturating_sub(1)..=(at + 1).min(end - 1);
        let matched = |(index, point): &(usize, &[u8; 3])| {
            let (x, y) = (index % width, index / width);
            around(y, height).any(|y| {
                around(x, width).any(|x| {
                    let there = other.points[y * width + x];
                    point.iter().zip(there).all(|(a, b)| a.abs_diff(b) <= LIKE)
                })
            })
        };
        let all = self.points.iter().enumerate();
        let unmatched = all.filter(|each| !matched(each)).count();
        unmatched as f64 / self.points.len() as f64
    }
}
