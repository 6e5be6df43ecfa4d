//! A case kept on this device: only when that is asked for, only sealed, and erased by one press.

use super::keep_file::NO_WAY_BACK;
use crate::model::kept;
use crate::platform;
use crate::ui::{Secret, fold, help, part, press, text, told, use_case, warning, when, words};
use leptos::prelude::*;

const HEAD: &str = "Keep it on this device";

const NOT_HERE: &str = "Not offered where the page is opened from a file: in some browsers every other file on this computer \
    could then read what is kept. It would be sealed, and it could still be copied. Save a sealed file in its place.";

const WARNING: &str = "Off until you turn it on. One case is kept, in this browser only, sealed. Do not use it on a computer \
    that others use.";

const FOR_DEVICE: Secret = Secret {
    key: "device-secret",
    label: "Passphrase for this device",
    show: "Show the passphrase for this device",
};

const OF_KEPT: Secret = Secret {
    key: "kept-secret",
    label: "Passphrase of the kept case",
    show: "Show the passphrase of the kept case",
};

/// Keeps the case on this device, where that may be.
pub(super) fn on_device() -> AnyView {
    let inside = if platform::may_keep_case() { keeping() } else { vec![help(NOT_HERE)] };
    part("device-head", HEAD, inside)
}

fn keeping() -> Vec<AnyView> {
    let case = use_case();
    let keep = case.keep;
    let (secret, again, said) = (text(), text(), text());
    let write = move |passphrase: &str| {
        let sealed = kept::seal(&case.draft.read_untracked(), passphrase, platform::fresh())?;
        let when = [platform::today(), platform::time_of_day()].join(" ");
        if !platform::keep_case(&when, &sealed) {
            return Err("This browser keeps nothing here. Save a sealed file.");
        }
        keep.device_secret.set(passphrase.to_owned());
        keep.look_at_device();
        case.is_saved_now();
        secret.set(String::new());
        again.set(String::new());
        Ok(())
    };
    let tell = move |done: Result<(), &'static str>| {
        said.set(done.err().unwrap_or("The case is kept as it is now.").into());
    };
    let first = Callback::new(move |()| {
        let (typed, twice) = (secret.get_untracked(), again.get_untracked());
        tell(kept::chosen(&typed, &twice).and_then(write));
    });
    let once_more = Callback::new(move |()| tell(write(&keep.device_secret.get_untracked())));
    let is_known = move || !keep.device_secret.read().is_empty();
    let choose = move || {
        vec![
            help(NO_WAY_BACK),
            FOR_DEVICE.chosen(secret, again, first),
            press("device-keep", "Keep this case, sealed", first),
        ]
    };
    vec![
        help(WARNING),
        when(
            move || !keep.kept.read().is_empty() && !is_known(),
            || warning("The case that is kept already is replaced."),
        ),
        when(move || !is_known(), choose),
        when(is_known, move || press("device-again", "Keep as it is now", once_more)),
        told("device-told", said),
    ]
}

/// Stands in the header while a case is kept: since when, how to open it, how to erase it. Nothing opens by itself.
#[component]
pub fn KeptBadge() -> impl IntoView {
    let keep = use_case().keep;
    when(move || !keep.kept.read().is_empty(), badge)
}

fn badge() -> AnyView {
    let keep = use_case().keep;
    let since = words(move || format!("A case is kept on this device, sealed, since {}.", keep.kept.get()));
    let inside = vec![
        fold("kept-open", "Open the kept case", keep.kept_opens),
        press("kept-erase", "Erase the kept case", Callback::new(move |()| keep.erase_device())),
        when(move || keep.kept_opens.get(), ask),
    ];
    view! {
        <div class="kept" role="group" aria-labelledby="kept-said">
            <p id="kept-said">{since}</p>
            {inside}
        </div>
    }
    .into_any()
}

/// Asks for the passphrase of the kept case; what was typed is gone when it is closed.
fn ask() -> Vec<AnyView> {
    let case = use_case();
    let keep = case.keep;
    let (secret, said) = (text(), text());
    let open = Callback::new(move |()| {
        let (_, sealed) = platform::kept_case().unwrap_or_default();
        let passphrase = secret.get_untracked();
        match kept::unseal(&sealed, &passphrase) {
            Ok(draft) => {
                case.begin_or_ask(*draft);
                if !keep.asks.get_untracked() {
                    keep.device_secret.set(passphrase);
                }
            }
            Err(why) => said.set(why),
        }
    });
    vec![OF_KEPT.typed(secret, open), press("kept-unseal", "Open it", open), told("kept-told", said)]
}
