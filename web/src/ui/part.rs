//! A derived value that tells its readers only when it changes, at the price of one memo type for all values.

use leptos::prelude::*;
use std::any::Any;
use std::marker::PhantomData;
use std::sync::Arc;

/// A value that can be compared without naming its type.
trait Value: Any + Send + Sync {
    fn same(&self, other: &dyn Value) -> bool;
    fn as_any(&self) -> &dyn Any;
}

impl<T: PartialEq + Send + Sync + 'static> Value for T {
    fn same(&self, other: &dyn Value) -> bool {
        other.as_any().downcast_ref::<T>() == Some(self)
    }
    fn as_any(&self) -> &dyn Any {
        self
    }
}

#[derive(Clone)]
struct Erased(Arc<dyn Value>);

impl PartialEq for Erased {
    fn eq(&self, other: &Self) -> bool {
        self.0.same(other.0.as_ref())
    }
}

/// A derived value.
pub struct Part<T> {
    memo: Memo<Erased>,
    of: PhantomData<fn() -> T>,
}

impl<T> Clone for Part<T> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<T> Copy for Part<T> {}

impl<T: Clone + PartialEq + Send + Sync + 'static> Part<T> {
    /// A value derived from whatever `value` reads.
    pub fn new(value: impl Fn() -> T + Send + Sync + 'static) -> Self {
        let value: Box<dyn Fn() -> Erased + Send + Sync> = Box::new(move || Erased(Arc::new(value())));
        Self { memo: Memo::new(move |_| value()), of: PhantomData }
    }

    /// The value; who asks is told when it changes.
    ///
    /// # Panics
    /// Never: the memo holds what [`Part::new`] put there.
    #[must_use]
    pub fn get(self) -> T {
        let value = self.memo.get();
        let value: Option<&T> = (*value.0).as_any().downcast_ref();
        value.cloned().expect("a part holds its own type")
    }
}

impl<T: Clone + PartialEq + Send + Sync + 'static> Part<T> {
    /// The value as a signal, to stand in a view.
    #[must_use]
    pub fn signal(self) -> Signal<T> {
        self.into()
    }
}

impl<T: Clone + PartialEq + Send + Sync + 'static> From<Part<T>> for Signal<T> {
    fn from(part: Part<T>) -> Self {
        Signal::derive(move || part.get())
    }
}
