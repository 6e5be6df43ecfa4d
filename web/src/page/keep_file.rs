//! A case as a file: sealed or plain, saved and opened.

use crate::model::kept::{self, Found};
use crate::platform::{self, Chosen};
use crate::ui::{Choice, Secret, help, part, press, text, told, use_case, warning, when};
use leptos::html::Input;
use leptos::prelude::*;

/// What a passphrase costs when it is lost; stands before each place where one is chosen.
pub(super) const NO_WAY_BACK: &str = "Nobody can find a passphrase again: without it the case is lost. Write it down, away from this computer.";

const PLAIN: &str = "Whoever has a plain file can read all of the case, and programs that copy files to other computers \
    copy it too. Choose it only where the place it goes to is protected.";

const FOR_FILE: Secret =
    Secret { key: "save-secret", label: "Passphrase for the file", show: "Show the passphrase for the file" };

const OF_FILE: Secret =
    Secret { key: "open-secret", label: "Passphrase of the file", show: "Show the passphrase of the file" };

/// Saves the case as a file.
pub(super) fn save() -> AnyView {
    let case = use_case();
    let plain = RwSignal::new(false);
    let (secret, again, said) = (text(), text(), text());
    let save = Callback::new(move |()| {
        let draft = case.draft.read_untracked();
        let is_plain = plain.get_untracked();
        let content = if is_plain {
            kept::plain(&draft)
        } else {
            kept::chosen(&secret.read_untracked(), &again.read_untracked())
                .and_then(|secret| kept::seal(&draft, secret, platform::fresh()))
                .map(|sealed| sealed.text().to_owned())
        };
        said.set(match content {
            Ok(content) => {
                let kind = if is_plain { "plain" } else { "sealed" };
                let name = kept::file_name(&draft.label, &platform::today(), kind);
                platform::hand_over(&name, "application/json", &content);
                case.is_saved_now();
                secret.set(String::new());
                again.set(String::new());
                format!("Handed to the browser as {name}. The file stays where the browser puts it until you delete it.")
            }
            Err(why) => why.into(),
        });
    });
    let choice = view! {
        <Choice
            key="save-as"
            legend="As what"
            options=vec!["Sealed with a passphrase", "Plain, for anyone to read"]
            chosen=Signal::derive(move || usize::from(plain.get()))
            on_choose=Callback::new(move |place| plain.set(place == 1))
        />
    };
    let sealed = move || {
        vec![
            help(NO_WAY_BACK),
            FOR_FILE.chosen(secret, again, save),
            press("save-sealed", "Save the sealed file", save),
        ]
    };
    let open = move || vec![warning(PLAIN), press("save-plain", "Save the plain file", save)];
    part(
        "save-head",
        "Save this case",
        vec![
            choice.into_any(),
            when(move || !plain.get(), sealed),
            when(move || plain.get(), open),
            told("save-told", said),
        ],
    )
}

/// Opens a file.
pub(super) fn open() -> AnyView {
    let case = use_case();
    let file: NodeRef<Input> = NodeRef::new();
    let (sealed, secret, said) = (text(), text(), text());
    let taken = move |found: Result<Found, String>| match found {
        Ok(Found::Case(draft)) => {
            said.set(String::new());
            sealed.set(String::new());
            secret.set(String::new());
            case.begin_or_ask(*draft);
        }
        Ok(Found::Sealed(content)) => {
            said.set("This file is sealed. Type its passphrase.".into());
            sealed.set(content);
            platform::focus_soon(OF_FILE.key.into());
        }
        Err(why) => said.set(why),
    };
    let load = move |_| {
        if let Some(input) = file.get_untracked() {
            // What is said anew is said again, even in the same words.
            for text in [sealed, secret, said] {
                text.set(String::new());
            }
            platform::read_chosen(&input, kept::MOST_BYTES as f64, move |chosen| {
                taken(match chosen {
                    Chosen::TooLarge { .. } => Err(kept::TOO_LARGE.into()),
                    Chosen::Unreadable { .. } => Err(kept::UNREADABLE.into()),
                    Chosen::Read { bytes, .. } => kept::look(bytes),
                });
            });
        }
    };
    let unseal = Callback::new(move |()| {
        let found = kept::unseal(&sealed.read_untracked(), &secret.read_untracked());
        taken(found.map(Found::Case));
    });
    let chooser = view! {
        <div class="entry">
            <label for="open-file">"A file of a case"</label>
            <p class="help" id="open-file-help">"Sealed or plain. It is read here and goes nowhere."</p>
            <input
                type="file"
                id="open-file"
                accept=".json"
                aria-describedby="open-file-help open-told"
                node_ref=file
                on:change=load
            />
        </div>
    };
    let ask = move || vec![OF_FILE.typed(secret, unseal), press("open-sealed", "Open the file", unseal)];
    part(
        "open-head",
        "Open a case",
        vec![chooser.into_any(), told("open-told", said), when(move || !sealed.read().is_empty(), ask)],
    )
}
