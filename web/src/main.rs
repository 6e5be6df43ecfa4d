//! Mounts the page.

fn main() {
    leptos::mount::mount_to_body(|| leptos::view! { <main><h1>"Arcminute"</h1></main> });
}
