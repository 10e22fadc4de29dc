//! The stub of the handle that the head hangs on: in the eye as wide as the waist, above it as the stem is.

use super::view::BREAK;
use headwright::mass::PIN_HEIGHT;
use headwright::mesh::{Display, Patch, TriMesh, display};
use headwright::solid::{Piece, Solid};

/// The number by which the shader knows wood; steel has those of [`Patch`].
pub const WOOD: f32 = 6.0;

/// Share of the eye's waist that the handle fills: it must not touch the wall in the picture.
const FILL: f64 = 0.97;
/// How far the tongue stands out on the grip side, mm.
const TONGUE: f64 = 2.0;
/// Height of the waves of the broken end, mm, and their length as a share of the handle.
const WAVE: (f64, f64) = (1.6, 1.2);
/// Rings of the stub: two of the tongue, two of the stem.
const RINGS: u32 = 4;
/// Points on a quarter of the outline's corner.
const POINTS: usize = 8;

/// Over how much of its length the stub goes from the one to the other, mm.
const SHOULDER: f64 = 1.0;

/// Adds the handle, whose stem has the half-depth and half-width `stem`, to the arrays of the head.
pub fn add(solid: &Solid, stem: [f64; 2], shown: &mut Display) {
    let mut handle = display(&stub(solid, stem));
    for vertex in handle.vertices.chunks_mut(Display::STRIDE) {
        vertex[6] = WOOD;
    }
    let first = shown.vertex_count() as u32;
    shown.vertices.append(&mut handle.vertices);
    shown
        .triangles
        .extend(handle.triangles.iter().map(|k| k + first));
    shown.edges.append(&mut handle.edges);
}

/// A body over the eye's waist that becomes the stem at the upper mouth, its upper end broken off in a wave.
fn stub(solid: &Solid, stem: [f64; 2]) -> TriMesh {
    let eye = &solid.head().eye;
    let tongue = outline(solid);
    let stem = in_the_directions_of(&tongue, stem);
    let low = eye.mouths[0] - TONGUE;
    let high = PIN_HEIGHT + BREAK;
    let mouth = eye.mouths[1].min(high - 4.0 * SHOULDER);
    let wave = |x: f64| WAVE.0 * (x / eye.waist.p * std::f64::consts::PI * WAVE.1).sin();
    let count = tongue.len() as u32;
    let mut mesh = TriMesh::default();
    let mut ring = |points: &[[f64; 2]], height: &dyn Fn(f64) -> f64| {
        let lifted = points.iter().map(|[x, y]| [*x, *y, height(*x)]);
        mesh.positions.extend(lifted);
    };
    ring(&tongue, &|_| low);
    ring(&tongue, &|_| mouth);
    ring(&stem, &|_| mouth + SHOULDER);
    ring(&stem, &|x| high + wave(x));
    let middles = [RINGS * count, RINGS * count + 1];
    mesh.positions.extend([[0.0, 0.0, low], [0.0, 0.0, high]]);
    for k in 0..count {
        let next = (k + 1) % count;
        for first in (0..RINGS - 1).map(|ring| ring * count) {
            let above = first + count;
            mesh.triangles.extend([
                [first + k, first + next, above + k],
                [first + next, above + next, above + k],
            ]);
        }
        let top = (RINGS - 1) * count;
        mesh.triangles
            .extend([[next, k, middles[0]], [top + k, top + next, middles[1]]]);
    }
    mesh.patches = vec![Patch::Cheek; mesh.triangles.len()];
    mesh
}

/// Points of the ellipse of these half-sizes, one in the direction of each of `points`.
fn in_the_directions_of(points: &[[f64; 2]], [depth, width]: [f64; 2]) -> Vec<[f64; 2]> {
    let out = |[x, y]: &[f64; 2]| {
        let share = (x / depth).hypot(y / width).recip();
        [x * share, y * share]
    };
    points.iter().map(out).collect()
}

/// The outline of the waist, a little smaller, counter-clockwise as seen from above.
fn outline(solid: &Solid) -> Vec<[f64; 2]> {
    let section = solid.head().eye.waist.section();
    let mut quarter: Vec<[f64; 2]> = Vec::new();
    for piece in section.pieces() {
        let steps = if piece == Piece::Corner { POINTS } else { 1 };
        for step in 0..=steps {
            let (x, y, ..) = section.along(piece, step as f64 / steps as f64);
            let point = [x * FILL, y * FILL];
            // The end of a piece is the beginning of the next.
            if step > 0 || quarter.is_empty() {
                quarter.push(point);
            }
        }
    }
    let last = quarter.len() - 1;
    let out = |sign: f64| {
        quarter[..last]
            .iter()
            .map(move |[x, y]| [sign * x, sign * y])
    };
    let back = |sign: f64| {
        let reversed = quarter[1..].iter().rev();
        reversed.map(move |[x, y]| [-sign * x, sign * y])
    };
    out(1.0)
        .chain(back(1.0))
        .chain(out(-1.0))
        .chain(back(-1.0))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use headwright::design::{EyeOutline, starter};
    use headwright::mesh::check_closed;

    #[test]
    fn the_stub_is_a_closed_body_inside_every_eye_and_above_it_the_stem() {
        for outline in [
            EyeOutline::Round,
            EyeOutline::Ellipse,
            EyeOutline::Obround,
            EyeOutline::RoundedRectangle,
        ] {
            let mut design = starter("short").expect("a starter");
            design.eye.outline = outline;
            design.cheeks.outline.width = headwright::units::Length::mm(70.0);
            let solid = design.build().expect("sound");
            let stem = [14.0, 6.0];
            let stub = stub(&solid, stem);
            assert_eq!(check_closed(&stub).expect("closed").euler, 2);
            assert!(stub.volume() > 0.0);
            let waist = solid.head().eye.waist;
            let mouth = solid.head().eye.mouths[1];
            for [x, y, z] in &stub.positions {
                if *z <= mouth {
                    assert!(x.abs() < waist.p && y.abs() < waist.q);
                } else {
                    assert!((x / stem[0]).hypot(y / stem[1]) <= 1.0 + 1e-12);
                }
            }
        }
    }
}
