//! The QR code of a link, read by another hand.

use super::*;
use headwright::share::qr::{Code, LEAST_PX};

/// What a reader makes of `code`, drawn in points, `LEAST_PX` to a module.
fn read(code: &Code) -> String {
    let wide = code.across() as usize;
    let mut dark = vec![false; wide * wide];
    for [x, y, run] in code.runs() {
        for across in x..x + run {
            dark[y as usize * wide + across as usize] = true;
        }
    }
    let module = LEAST_PX as usize;
    let mut picture =
        rqrr::PreparedImage::prepare_from_greyscale(wide * module, wide * module, |x, y| {
            if dark[y / module * wide + x / module] {
                0
            } else {
                255
            }
        });
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1);
    grids[0].decode().expect("it is readable").1
}

#[test]
fn the_code_of_every_starters_link_is_read_as_the_link() {
    for name in starter_names() {
        let link = encode(&starter(name).expect("a starter")).expect("goes");
        let address = format!("https://smith.example/headwright/#{link}");
        let code =
            Code::of(&address, |code| code.across() * LEAST_PX <= 350).expect("it has a code");
        assert!(
            code.across() * LEAST_PX <= 350,
            "{name}: {} modules",
            code.across()
        );
        assert_eq!(read(&code), address, "{name}");
    }
}

#[test]
fn a_code_is_as_sure_as_it_has_room_and_keeps_its_margin_white() {
    let text = "h".repeat(300);
    let wide = Code::of(&text, |_| true).expect("a code");
    let narrow = Code::of(&text, |code| code.across() < wide.across()).expect("a code");
    assert!(narrow.across() < wide.across());
    for code in [wide, narrow] {
        let inside = 4..code.across() - 4;
        for [x, y, run] in code.runs() {
            assert!(inside.contains(&x) && inside.contains(&y) && x + run <= inside.end);
        }
        assert_eq!(read(&code), text);
    }
    assert!(Code::of(&"h".repeat(3000), |_| true).is_none());
}

#[test]
fn the_path_of_a_code_has_a_piece_for_every_run() {
    let code = Code::of("https://smith.example/", |_| true).expect("a code");
    let path = code.path();
    assert_eq!(path.matches('M').count(), code.runs().len());
    assert!(path.starts_with("M4 4h7v1h-7z"), "{path}");
}
