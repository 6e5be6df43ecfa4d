//! Mounts the page.

fn main() {
    arcminute_web::platform::start();
    leptos::mount::mount_to_body(arcminute_web::app::App);
}
