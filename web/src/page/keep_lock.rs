//! The lock: how long the case may lie open, what then becomes of it, the bar that says it is near, and the locked page.

use super::keep_file::NO_WAY_BACK;
use crate::model::kept::{self, DEFAULT_MINUTES, MINUTES};
use crate::ui::{LOCKED, Pick, Secret, help, part, press, text, told, use_case, when, words};
use leptos::prelude::*;

const HOW: &str = "A bar says that it is near. Any key or touch goes on. Without a passphrase the lock wipes the case. With one \
    it holds the case sealed in this page, until the page is closed. The steps back are gone in both.";

const FOR_LOCK: Secret =
    Secret { key: "lock-secret", label: "Passphrase for the lock", show: "Show the passphrase for the lock" };

const OF_LOCK: Secret =
    Secret { key: "unlock-secret", label: "Passphrase of the lock", show: "Show the passphrase of the lock" };

/// What the lock will do.
pub(super) fn what_comes(minutes: usize, does: &str) -> String {
    let plural = if minutes == 1 { "" } else { "s" };
    format!("After {minutes} minute{plural} without a touch the page locks and {does} the case.")
}

/// How long, and with which passphrase.
pub(super) fn locking() -> AnyView {
    let keep = use_case().keep;
    let (secret, again, said) = (text(), text(), text());
    let chosen = Signal::derive(move || {
        let minutes = keep.minutes.get();
        MINUTES.iter().position(|one| *one == minutes).unwrap_or_default()
    });
    let on_choose = Callback::new(move |place: usize| {
        keep.minutes.set(MINUTES.get(place).copied().unwrap_or(DEFAULT_MINUTES));
    });
    let set = Callback::new(move |()| {
        let (typed, twice) = (secret.get_untracked(), again.get_untracked());
        said.set(match kept::chosen(&typed, &twice) {
            Ok(passphrase) => {
                keep.lock_secret.set(passphrase.to_owned());
                secret.set(String::new());
                again.set(String::new());
                "The lock now seals the case.".into()
            }
            Err(why) => why.into(),
        });
    });
    let unset = Callback::new(move |()| {
        keep.lock_secret.set(String::new());
        said.set("The lock now wipes the case.".into());
    });
    let is_set = move || !keep.lock_secret.read().is_empty();
    let choose = move || {
        vec![
            help(NO_WAY_BACK),
            FOR_LOCK.chosen(secret, again, set),
            press("lock-set", "Have the lock seal the case", set),
        ]
    };
    let options = MINUTES.iter().map(|minutes| format!("{minutes} min")).collect::<Vec<_>>();
    let minutes = view! {
        <Pick key="lock-minutes" label="Lock after, without a touch" options=options chosen=chosen on_choose=on_choose/>
    };
    part(
        "lock-head",
        "Lock",
        vec![
            minutes.into_any(),
            help(HOW),
            when(move || !is_set(), choose),
            when(is_set, move || press("lock-unset", "Have the lock wipe the case", unset)),
            told("lock-told", said),
        ],
    )
}

/// Says that the lock is near, each second; the voice says it once.
#[component]
pub fn NearBar() -> impl IntoView {
    let keep = use_case().keep;
    let left = words(move || {
        format!("The page locks and {} the case in {} s.", keep.lock_does(), keep.seconds.get())
    });
    when(
        move || keep.seconds.get() != 0,
        move || {
            view! {
                <div class="near" id="lock-near">
                    <p aria-hidden="true">{left}</p>
                    // The press alone is a touch.
                    {press("go-on", "Go on", Callback::new(|()| ()))}
                </div>
            }
        },
    )
}

/// All there is while the page is locked.
#[component]
pub fn Locked() -> impl IntoView {
    let case = use_case();
    let (secret, said) = (text(), text());
    let unlock = Callback::new(move |()| {
        if let Err(why) = case.unlock(&secret.get_untracked()) {
            said.set(why);
        }
    });
    let start_anew = Callback::new(move |()| case.start_anew());
    let inside = if case.keep.behind.read_untracked().is_empty() {
        vec![
            help("The page is empty: there was no case, or it was wiped."),
            press("anew", "Start anew", start_anew),
        ]
    } else {
        vec![
            help("A case is sealed behind the lock. Type the passphrase of the lock."),
            OF_LOCK.typed(secret, unlock),
            told("unlock-told", said),
            press("unlock", "Unlock", unlock),
            press("anew", "Start anew, without the sealed case", start_anew),
        ]
    };
    view! {
        <main id="work" class="locked" tabindex="-1">
            <h1 id=LOCKED tabindex="-1">"Arcminute is locked"</h1>
            {inside}
        </main>
    }
    .into_any()
}
