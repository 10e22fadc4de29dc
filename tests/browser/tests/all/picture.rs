//! The shaded picture: it shows the head, it turns, and where it cannot be had the rest works.

use headwright_browser::{Page, Picture, View, browse, key};

const NO_WEBGL2: &str = "const real = HTMLCanvasElement.prototype.getContext;
HTMLCanvasElement.prototype.getContext = function (kind, ...rest) {
    return kind === 'webgl2' ? null : real.call(this, kind, ...rest);
};";

/// The name under which a screen reader knows the picture: what it weighs and how it hangs.
const PICTURE: &str = "the head hanging from its handle…";

fn photograph(page: &Page) -> Picture {
    let place = page.show(&page.wait_for("image", PICTURE));
    page.picture_of(place.bounds)
}

/// The picture once it has stopped changing.
fn at_rest(page: &Page) -> Picture {
    page.rest(|| photograph(page))
}

#[test]
fn the_shaded_picture_shows_the_head_and_turns_by_arrows_and_drag() {
    browse("the picture turns", View::desktop(), |page| {
        let first = at_rest(page);
        page.save_picture("picture-first");
        assert!(
            first.colours() > 200,
            "shaded, not flat: {} colours",
            first.colours()
        );
        assert!(first.share_of_ground() < 0.9, "not blank");
        page.press("image", PICTURE);
        assert_eq!(page.focused().0, "image", "the picture takes the focus");
        page.keys(&[key::RIGHT, key::RIGHT, key::UP]);
        let turned = at_rest(page);
        assert!(turned.difference(&first) > 0.02, "arrows turn it");
        page.keys(&[key::LEFT, key::LEFT, key::DOWN]);
        assert!(at_rest(page).difference(&first) < 0.01, "and turn it back");
        let place = page.place_of(&page.wait_for("image", PICTURE));
        let (x, y) = place.middle();
        page.drag((x - 50.0, y), (x + 60.0, y + 15.0));
        let dragged = at_rest(page);
        page.save_picture("picture-dragged");
        assert!(dragged.difference(&first) > 0.02, "the mouse turns it");
        page.press("button", "Turn it back");
        assert!(
            at_rest(page).difference(&first) < 0.01,
            "and it can be turned back"
        );
    });
}

#[test]
fn the_picture_follows_the_sizes() {
    browse("the picture follows", View::desktop(), |page| {
        let first = at_rest(page);
        page.enter("cheek height, mm", "52");
        page.wait("the picture shows the change", || {
            photograph(page).difference(&first) > 0.01
        });
    });
}

#[test]
fn a_finger_turns_the_picture_on_a_phone() {
    browse("the picture turns by touch", View::phone(), |page| {
        let first = at_rest(page);
        assert!(first.colours() > 200, "shaded: {} colours", first.colours());
        let place = page.place_of(&page.wait_for("image", PICTURE));
        let (x, y) = place.middle();
        page.drag((x - 60.0, y), (x + 60.0, y));
        let dragged = at_rest(page);
        page.save_picture("picture-phone-dragged");
        assert!(dragged.difference(&first) > 0.02, "the finger turns it");
    });
}

#[test]
fn without_webgl2_a_sentence_says_so_and_the_drawing_still_works() {
    browse("no WebGL2", View::desktop().with(NO_WEBGL2), |page| {
        page.wait_for_text("This browser cannot shade the head (it has no WebGL2)");
        let before = page.picture();
        page.enter("cheek width, mm", "45");
        page.enter("front face offset, mm", "62");
        page.wait("the drawing follows", || {
            page.picture().difference(&before) > 0.005
        });
        page.enter("hold weight at, kg", "1.1 kg");
        page.wait_for_region("finished weight", "1.100 kg");
        page.save_picture("no-webgl2");
    });
}
