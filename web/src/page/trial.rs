//! Trial: what was reached with the aid that is looked at, against its prediction, and what to check when it falls short.

use crate::model::compared::{is_of, trial};
use crate::model::draft::GoalKind;
use crate::model::field::FieldId;
use crate::model::list::ListedAid;
use crate::model::shown;
use crate::ui::{Entry, Part, Working, is, items, live, use_case};
use arcminute_core::explain::{Explain, Step};
use arcminute_core::trial::TrialVerdict;
use leptos::prelude::*;

/// Key of the heading.
pub(super) const TRIAL_NAME: &str = "trial-name";

/// The trial of the aid that is looked at.
#[component]
pub(super) fn Trial() -> impl IntoView {
    let case = use_case();
    let predicted = Part::new(move || match case.looked.read().as_ref() {
        Some(looked) => shown::trial_predicted(&case.answer.read(), looked),
        None => "No aid is looked at yet: choose one on Bench.".into(),
    });
    let near = case.of_answer(|answer| answer.goal_answer().is_some_and(|goal| goal.kind == GoalKind::Print));
    let judged = move || {
        let (answer, looked) = (case.answer.read(), case.looked.read());
        looked.as_ref().and_then(|looked| trial(&answer, looked))
    };
    let of = move |take: fn(&TrialVerdict) -> Vec<String>| {
        Part::new(move || judged().and_then(Result::ok).map(|verdict| take(&verdict)).unwrap_or_default())
    };
    let of_another = move || {
        let (answer, looked, list) = (case.answer.read(), case.looked.read(), case.list.read());
        let looked = looked.as_ref().filter(|looked| !is_of(&answer, looked))?;
        let has_words = answer.trial.acuity.is_some() || answer.trial.print.is_some();
        let tried = list.1.list.iter().find(|aid| aid.id == answer.tried);
        let tried = tried.map_or_else(|| answer.tried.clone(), ListedAid::title);
        has_words.then(|| shown::trial_of_another(&tried, &looked.aid.title()))
    };
    let words = Part::new(move || match judged() {
        None => of_another().unwrap_or_default(),
        Some(Ok(verdict)) => shown::trial_words(&verdict),
        Some(Err(error)) => format!("{error}; {}", error.hint()),
    });
    let checks = of(shown::trial_checks);
    let steps = Part::new(move || {
        judged().and_then(Result::ok).map(|verdict| verdict.steps()).unwrap_or_else(Vec::<Step>::new)
    });
    view! {
        <section id="trial" aria-labelledby=TRIAL_NAME>
            <h2 id=TRIAL_NAME tabindex="-1">"Trial"</h2>
            <p class="help">"Test with the aid as you tested without it, then enter what was reached."</p>
            <p id="trial-predicted">{predicted.signal()}</p>
            <div hidden=is(move || near.get())><Entry field=FieldId::TrialAcuity/></div>
            <div hidden=is(move || !near.get())><Entry field=FieldId::TrialPrint/></div>
            <p class="answer" id="trial-verdict" role="status">{words.signal()}</p>
            <div hidden=is(move || checks.get().is_empty())>
                <ol id="trial-checks">{live(move || items(checks.get()))}</ol>
                <p class="help">"Where no cost stands, no law is known that would tell it."</p>
            </div>
            <div hidden=is(move || steps.get().is_empty())>
                <Working key="trial-working" of="the trial" steps=steps/>
            </div>
            <Entry field=FieldId::TrialBeside/>
            <Entry field=FieldId::TrialNotes/>
        </section>
    }
    .into_any()
}
