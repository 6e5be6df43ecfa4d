//! Any two things weighed against each other, drawn.

use crate::model::compared::{Cell, Ranked};
use crate::model::format;
use crate::plot::{Axis, Drawing, TradeoffInput, TradeoffPoint, put_in_order, tradeoff};
use crate::ui::{Case, Part, Pick, Picture, live, use_case};
use arcminute_core::rank::Extent;
use leptos::prelude::*;

/// Something to weigh: its name, how it runs, its value and how that is written.
struct Weighed {
    name: &'static str,
    less_is_better: bool,
    ratio: bool,
    value: fn(&Cell) -> Option<f64>,
    words: fn(f64) -> String,
}

/// The lengths of a thing without end are drawn as this; it is said in words.
const WITHOUT_END_MM: f64 = 2000.0;

fn extent_mm(extent: Option<Extent>) -> Option<f64> {
    match extent? {
        Extent::Of(length) => Some(length.mm().min(WITHOUT_END_MM)),
        Extent::Unlimited => Some(WITHOUT_END_MM),
    }
}

const WEIGHED: [Weighed; 6] = [
    Weighed {
        name: "Chance of the goal",
        less_is_better: false,
        ratio: false,
        value: |cell| Some(cell.prediction.chance * 100.0),
        words: |value| format!("{} %", format::decimals(value, 0)),
    },
    Weighed {
        name: "Width seen at once",
        less_is_better: false,
        ratio: true,
        value: |cell| cell.width.map(|width| width.cm()),
        words: |value| format!("{} cm", format::trimmed(value, 1)),
    },
    Weighed {
        name: "Room for the hand",
        less_is_better: false,
        ratio: false,
        value: |cell| extent_mm(cell.merits.hand_room).map(|mm| mm / 10.0),
        words: |value| format!("{} cm", format::trimmed(value, 0)),
    },
    Weighed {
        name: "Depth of focus",
        less_is_better: false,
        ratio: false,
        value: |cell| extent_mm(cell.merits.depth).map(|mm| mm / 10.0),
        words: |value| format!("{} cm", format::trimmed(value, 1)),
    },
    Weighed {
        name: "Light",
        less_is_better: false,
        ratio: false,
        value: |cell| cell.merits.light.map(|light| light * 100.0),
        words: |value| format!("{} %", format::decimals(value, 0)),
    },
    Weighed {
        name: "Power, times",
        less_is_better: true,
        ratio: true,
        value: |cell| cell.merits.power.map(|power| power.size()),
        words: |value| format::trimmed(value, 1),
    },
];

/// The aids that have a chance, by two of these.
#[component]
pub(super) fn Tradeoff(
    /// The aids in order.
    ranked: Part<Ranked>,
) -> impl IntoView {
    let case = use_case();
    let (across, up) = (RwSignal::new(1_usize), RwSignal::new(0_usize));
    let weighed = Part::new(move || points(case, &ranked.get(), (across.get(), up.get())));
    let picture = Part::new(move || drawn(weighed.get(), (across.get(), up.get())));
    // The points from left to right, so that the arrow keys go along them.
    let along = Part::new(move || {
        let mut points = weighed.get();
        put_in_order(&mut points, |one, other| one.across < other.across);
        points.into_iter().map(|point| (point.key, point.name, point.chosen)).collect::<Vec<_>>()
    });
    let at = Part::new(move || along.get().iter().position(|point| point.2).map_or(0, |place| place + 1));
    let go_to = Callback::new(move |place: usize| {
        if let Some((key, ..)) = along.get().get(place.wrapping_sub(1)) {
            case.choose_aid(key);
        }
    });
    let point = live(move || {
        let names = along.get().into_iter().map(|(_, name, _)| name);
        let options = ["none of them".to_owned()].into_iter().chain(names).collect();
        view! { <Pick key="tradeoff-point" label="Point" options=options chosen=at.signal() on_choose=go_to/> }.into_any()
    });
    let options = || WEIGHED.iter().map(|weighed| weighed.name.to_owned()).collect::<Vec<_>>();
    let choose = |signal: RwSignal<usize>| Callback::new(move |place| signal.set(place));
    view! {
        <h3>"What is gained and what it costs"</h3>
        <div class="row">
            <Pick key="tradeoff-up" label="Upward" options=options() chosen=up.into() on_choose=choose(up)/>
            <Pick key="tradeoff-across" label="Across" options=options() chosen=across.into() on_choose=choose(across)/>
            {point}
        </div>
        <Picture
            key="tradeoff-picture"
            drawing=picture
            on_pick=Callback::new(move |id: String| case.look_at(&id))
        />
    }
    .into_any()
}

/// The aids that have a chance and of which both things are known.
fn points(case: Case, ranked: &Ranked, (across, up): (usize, usize)) -> Vec<TradeoffPoint> {
    let (table, list, draft) = (case.table.read(), case.list.read(), case.draft.read());
    let (Some(wish), Some(across), Some(up)) =
        (table.wish_of(case.answer.read().goal), WEIGHED.get(across), WEIGHED.get(up))
    else {
        return Vec::new();
    };
    let places = ranked.front.iter().copied().chain(ranked.beaten.iter().map(|beaten| beaten.0));
    let point = |aid: usize| {
        let cell = table.cell(aid, wish)?.as_ref().ok()?;
        let listed = list.1.list.get(aid)?;
        Some(TradeoffPoint {
            key: listed.id.clone(),
            name: listed.title(),
            across: (across.value)(cell)?,
            up: (up.value)(cell)?,
            chosen: draft.bench.looked_at() == listed.id,
        })
    };
    places.filter_map(point).collect()
}

fn drawn(points: Vec<TradeoffPoint>, (across, up): (usize, usize)) -> Option<Drawing> {
    let (across, up) = (WEIGHED.get(across)?, WEIGHED.get(up)?);
    let axis = |weighed: &'static Weighed| Axis {
        name: weighed.name.into(),
        less_is_better: weighed.less_is_better,
        ratio: weighed.ratio,
        words: &weighed.words,
    };
    tradeoff(&TradeoffInput { across: axis(across), up: axis(up), points })
}
