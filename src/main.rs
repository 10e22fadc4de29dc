//! Mounts the browser app.

fn main() {
    // A panic would be a fault of ours; the hook writes it to the console and nowhere else.
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(headwright::app::App);
}
