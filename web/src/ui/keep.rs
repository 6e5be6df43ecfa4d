//! What happens to the case as a whole: taken back, saved, replaced, locked, wiped.

use super::{Case, Place};
use crate::model::draft::Draft;
use crate::model::field::FieldId;
use crate::model::kept::{self, DEFAULT_MINUTES, History, Phase, phase};
use crate::platform;
use leptos::prelude::*;

/// Key of the heading of the locked page.
pub const LOCKED: &str = "locked";
/// Key of the question before a case that is not saved is replaced.
pub const REPLACE: &str = "replace-ask";

/// What goes with the case and is no part of it. Empty texts stand for what is not there.
#[derive(Clone, Copy)]
pub struct Keep {
    /// Steps back and forth.
    pub history: RwSignal<History>,
    /// What the last step back or forth was.
    pub stepped: RwSignal<String>,
    /// What is said aloud, politely: the result, or one of these.
    pub said: RwSignal<String>,
    /// Whether the part that saves, opens and locks is open.
    pub open: RwSignal<bool>,
    /// Whether it is asked if a case that is not saved may be replaced.
    pub asks: RwSignal<bool>,
    /// The case that would replace it.
    next: RwSignal<Draft>,
    /// The case as it was last saved, opened or begun.
    saved: RwSignal<Draft>,
    /// Whether it is asked if the lock may wipe what is not saved.
    pub asks_lock: RwSignal<bool>,
    /// Whether the page is locked.
    pub locked: RwSignal<bool>,
    /// The case behind the lock, sealed.
    pub behind: RwSignal<String>,
    /// Whether the case behind the lock was not saved.
    behind_unsaved: RwSignal<bool>,
    /// Minutes without a touch after which the page locks.
    pub minutes: RwSignal<usize>,
    /// Seconds until the lock, while it is near; else none.
    pub seconds: RwSignal<usize>,
    /// The passphrase of the lock.
    pub lock_secret: RwSignal<String>,
    /// The passphrase of the case that is kept on this device.
    pub device_secret: RwSignal<String>,
    /// When the case that is kept on this device was kept.
    pub kept: RwSignal<String>,
    /// Whether its passphrase is asked for.
    pub kept_opens: RwSignal<bool>,
    /// When the page was last touched.
    touched: StoredValue<f64>,
}

/// A text that is empty at first; once for all of them.
#[inline(never)]
#[must_use]
pub fn text() -> RwSignal<String> {
    RwSignal::new(String::new())
}

/// When the case that is kept on this device was kept; empty if none is.
fn kept_since() -> String {
    platform::kept_case().map(|kept| kept.0).unwrap_or_default()
}

impl Keep {
    pub(super) fn new() -> Self {
        Self {
            history: RwSignal::new(History::default()),
            stepped: text(),
            said: text(),
            open: RwSignal::new(false),
            asks: RwSignal::new(false),
            next: RwSignal::new(Draft::default()),
            saved: RwSignal::new(Draft::default()),
            asks_lock: RwSignal::new(false),
            locked: RwSignal::new(false),
            behind: text(),
            behind_unsaved: RwSignal::new(false),
            minutes: RwSignal::new(DEFAULT_MINUTES),
            seconds: RwSignal::new(0),
            lock_secret: text(),
            device_secret: text(),
            kept: RwSignal::new(kept_since()),
            kept_opens: RwSignal::new(false),
            touched: StoredValue::new(platform::now_ms()),
        }
    }

    /// What the lock does with the case: `wipes` or `seals`.
    #[must_use]
    pub fn lock_does(self) -> &'static str {
        if self.lock_secret.read().is_empty() { "wipes" } else { "seals" }
    }

    /// Notes what is kept on this device now.
    pub fn look_at_device(self) {
        self.kept.set(kept_since());
    }

    /// Erases what is kept on this device.
    pub fn erase_device(self) {
        platform::forget_case();
        self.device_secret.set(String::new());
        self.look_at_device();
    }
}

impl Case {
    /// Follows the draft with the history, the clock with the lock, and the browser's leave with a wiped page.
    pub fn watch(self) {
        Effect::new(move |_| {
            let now = self.draft.read();
            self.keep
                .history
                .maybe_update(|history| history.note(&now, platform::doing(), platform::now_ms()));
        });
        platform::on_touch_and_each_second(move || self.touch(), move || self.tick());
        // The boxes of the case have the steps of the case; those for a passphrase or a search have their own.
        let is_ours = move |key: &str| {
            let goals = self.draft.read_untracked().goals.len();
            FieldId::all(goals).iter().any(|field| field.info().key == key)
        };
        platform::on_step_keys(is_ours, move |forth| self.step(forth));
        platform::on_leaving(move || self.is_unsaved(), move || self.start_anew());
    }

    /// Begins with a case: what was there before is gone, its history, its voice, and the part that opened it.
    pub fn begin(self, draft: Draft) {
        let keep = self.keep;
        keep.history.set(History::from(draft.clone()));
        keep.saved.set(draft.clone());
        keep.next.set(Draft::default());
        for text in [keep.stepped, keep.said, keep.device_secret] {
            text.set(String::new());
        }
        for open in [keep.asks, keep.asks_lock, keep.open, keep.kept_opens] {
            open.set(false);
        }
        keep.seconds.set(0);
        self.draft.set(draft);
        self.place.set(Place::Person);
        platform::focus_soon(Place::Person.heading_id());
    }

    /// Begins with a case, and asks first if that would lose work.
    pub fn begin_or_ask(self, draft: Draft) {
        if self.is_unsaved() {
            self.stay();
            self.keep.next.set(draft);
            self.keep.asks.set(true);
            platform::focus_soon(REPLACE.into());
        } else {
            self.begin(draft);
        }
    }

    /// Begins with the case that was asked about.
    pub fn replace(self) {
        self.begin(self.keep.next.get_untracked());
    }

    /// Leaves the case that was asked about.
    pub fn stay(self) {
        self.keep.next.set(Draft::default());
        self.keep.asks.set(false);
        self.keep.asks_lock.set(false);
    }

    /// The case as it is now was handed over or kept.
    pub fn is_saved_now(self) {
        self.keep.saved.set(self.draft.get_untracked());
    }

    /// Whether leaving would lose work.
    #[must_use]
    pub fn is_unsaved(self) -> bool {
        let behind =
            self.keep.behind_unsaved.get_untracked() && !self.keep.behind.read_untracked().is_empty();
        behind || *self.draft.read_untracked() != *self.keep.saved.read_untracked()
    }

    /// A step back, or forth.
    pub fn step(self, forth: bool) {
        if self.keep.locked.get_untracked() {
            return;
        }
        let mut stepped = String::from(if forth { "Nothing to redo." } else { "Nothing to undo." });
        let mut now = None;
        self.keep.history.update(|history| {
            now = if forth { history.redo() } else { history.undo() };
            if now.is_some() {
                let done = if forth { "Redone" } else { "Undone" };
                let place = history.place_of_change(&self.draft.read_untracked());
                let left = if forth { history.forth() } else { history.back() };
                stepped = format!("{done}: a change in {place}. More steps: {left}.");
            }
        });
        if let Some(now) = now {
            self.draft.set(now);
        }
        self.keep.said.set(stepped.clone());
        self.keep.stepped.set(stepped);
    }

    /// Locks the page at a press, and asks first if that would wipe what is not saved.
    pub fn lock_or_ask(self) {
        if self.keep.lock_secret.read_untracked().is_empty() && self.is_unsaved() {
            self.stay();
            self.keep.asks_lock.set(true);
            platform::focus_soon(REPLACE.into());
        } else {
            self.lock();
        }
    }

    /// Locks the page: the case is sealed with the passphrase of the lock, or wiped where there is none.
    pub fn lock(self) {
        let keep = self.keep;
        if keep.locked.get_untracked() {
            return;
        }
        let draft = self.draft.get_untracked();
        let unsaved = self.is_unsaved();
        let secret = keep.lock_secret.get_untracked();
        let sealed = if secret.is_empty() || draft == Draft::default() {
            String::new()
        } else {
            // What cannot be sealed must not stay: the locked page says that it was wiped.
            kept::seal(&draft, &secret, platform::fresh())
                .map(|sealed| sealed.text().to_owned())
                .unwrap_or_default()
        };
        self.leave_nothing();
        keep.behind_unsaved.set(unsaved && !sealed.is_empty());
        keep.behind.set(sealed);
        keep.locked.set(true);
        platform::focus_soon(LOCKED.into());
    }

    /// Opens the lock.
    ///
    /// # Errors
    /// Why it does not open, in one sentence.
    pub fn unlock(self, passphrase: &str) -> Result<(), String> {
        let keep = self.keep;
        let draft = kept::unseal(&keep.behind.read_untracked(), passphrase)?;
        let unsaved = keep.behind_unsaved.get_untracked();
        self.start_anew();
        self.begin(*draft);
        keep.lock_secret.set(passphrase.to_owned());
        if unsaved {
            keep.saved.set(Draft::default());
        }
        Ok(())
    }

    /// Opens the lock on an empty case; what was sealed behind it is gone.
    pub fn start_anew(self) {
        self.keep.behind.set(String::new());
        self.keep.behind_unsaved.set(false);
        self.keep.locked.set(false);
        self.keep.touched.set_value(platform::now_ms());
        self.leave_nothing();
    }

    /// The page is as if it had just been opened, but for the list of aids and the minutes until it locks.
    fn leave_nothing(self) {
        self.begin(Draft::default());
        self.keep.lock_secret.set(String::new());
    }

    /// The page was touched: the wait begins anew, unless it is over.
    fn touch(self) {
        let now = platform::now_ms();
        if (0.0..500.0).contains(&(now - self.keep.touched.get_value())) {
            // A moving pointer touches it many times a second.
            return;
        }
        if self.phase_at(now) == Phase::Over {
            self.lock();
        } else {
            self.keep.touched.set_value(now);
            self.calm();
        }
    }

    /// A second has passed.
    fn tick(self) {
        match self.phase_at(platform::now_ms()) {
            Phase::Over => self.lock(),
            Phase::Near(seconds) => {
                if self.keep.seconds.get_untracked() == 0 {
                    let does = self.keep.lock_does();
                    self.keep.said.set(format!(
                        "Nobody has touched the page for a while. Soon it locks and {does} the case. Press any key to go on."
                    ));
                }
                self.keep.seconds.set(seconds);
            }
            Phase::Calm => self.calm(),
        }
    }

    /// The lock is not near.
    fn calm(self) {
        if self.keep.seconds.get_untracked() != 0 {
            self.keep.seconds.set(0);
            self.keep.said.set(String::new());
        }
    }

    /// Whether there is nothing of a person: no case, no step to one, none that waits for an answer.
    fn holds_nothing(self) -> bool {
        let steps = {
            let history = self.keep.history.read_untracked();
            history.back() + history.forth()
        };
        steps == 0 && !self.keep.asks.get_untracked() && *self.draft.read_untracked() == Draft::default()
    }

    /// How near the lock is; never where there is nothing of a person.
    fn phase_at(self, now: f64) -> Phase {
        if self.keep.locked.get_untracked() || self.holds_nothing() {
            self.keep.touched.set_value(now);
        }
        phase(now - self.keep.touched.get_value(), self.keep.minutes.get_untracked())
    }
}
