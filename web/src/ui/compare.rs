//! A table for comparing; on a narrow page each row becomes a card.

use leptos::prelude::*;

/// A table with these columns. The roles are written out because the cards of a narrow page would lose them.
#[component]
pub fn Compare(
    /// Key, unique on the page.
    #[prop(into)]
    key: String,
    /// Headings of the columns.
    columns: &'static [&'static str],
    /// The rows.
    rows: AnyView,
) -> impl IntoView {
    let headings = columns
        .iter()
        .map(|column| view! { <th scope="col" role="columnheader">{*column}</th> }.into_any())
        .collect_view();
    view! {
        <div class="compare">
            <table id=key role="table">
                <thead role="rowgroup"><tr role="row">{headings}</tr></thead>
                <tbody role="rowgroup">{rows}</tbody>
            </table>
        </div>
    }
    .into_any()
}
