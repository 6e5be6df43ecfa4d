//! Lists of a few things, kept in place: no allocator, and nothing in them can panic.
//!
//! Room is given by the type, and what does not fit is handed back. They are `arrayvec` lists without the ways of it that
//! panic when there is no room: extending, collecting, and copying, which it does by collecting.

use arrayvec::ArrayVec;
use core::ops::{Deref, DerefMut};

/// A list with room for `ROOM` items.
///
/// ```
/// use arcminute_core::list::List;
/// let mut list = List::<u8, 2>::new();
/// assert_eq!((list.try_push(1), list.try_push(2), list.try_push(3)), (Ok(()), Ok(()), Err(3)));
/// assert_eq!(list[..], [1, 2]);
/// assert_eq!(list.clone(), list);
/// ```
#[derive(Debug, PartialEq)]
pub struct List<T, const ROOM: usize>(ArrayVec<T, ROOM>);

impl<T, const ROOM: usize> List<T, ROOM> {
    /// Nothing yet.
    ///
    /// ```
    /// use arcminute_core::list::List;
    /// assert!(List::<u8, 2>::new().is_empty());
    /// ```
    #[must_use]
    pub fn new() -> Self {
        Self(ArrayVec::new())
    }
    /// The item of a list of one; nothing if there is no room for it.
    ///
    /// ```
    /// use arcminute_core::list::List;
    /// assert_eq!(List::<_, 2>::of_one("right").as_slice(), ["right"]);
    /// assert!(List::<_, 0>::of_one("right").is_empty());
    /// ```
    #[must_use]
    pub fn of_one(item: T) -> Self {
        let mut list = Self::new();
        let _ = list.try_push(item);
        list
    }
    /// What is in it, in order.
    ///
    /// ```
    /// use arcminute_core::list::List;
    /// let eyes: List<_, 2> = ["right", "left"].into();
    /// assert_eq!(eyes.as_slice().last(), Some(&"left"));
    /// ```
    #[must_use]
    pub fn as_slice(&self) -> &[T] {
        &self.0
    }
    /// Puts it at the end.
    ///
    /// # Errors
    /// The item itself when the list is full.
    ///
    /// ```
    /// use arcminute_core::list::List;
    /// let mut list = List::<_, 1>::new();
    /// assert_eq!([list.try_push("right"), list.try_push("left")], [Ok(()), Err("left")]);
    /// ```
    pub fn try_push(&mut self, item: T) -> Result<(), T> {
        self.0.try_push(item).map_err(|full| full.element())
    }
    /// Puts all of them at the end.
    ///
    /// # Errors
    /// Nothing was put there: there is no room for all of them.
    ///
    /// ```
    /// use arcminute_core::list::{List, NoRoom};
    /// let mut list = List::<_, 3>::of_one(1);
    /// assert_eq!(list.try_push_all(&[2, 3, 4]), Err(NoRoom));
    /// assert_eq!(list[..], [1]); // nothing of it
    /// assert_eq!(list.try_push_all(&[2, 3]), Ok(()));
    /// ```
    pub fn try_push_all(&mut self, items: &[T]) -> Result<(), NoRoom>
    where
        T: Copy,
    {
        self.0.try_extend_from_slice(items).map_err(|_| NoRoom)
    }
}

/// A list has no room for what it was to take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoRoom;

impl<T: Clone, const ROOM: usize> Clone for List<T, ROOM> {
    fn clone(&self) -> Self {
        let mut copy = Self::new();
        for item in self {
            // There is as much room in the one as in the other.
            let _ = copy.try_push(item.clone());
        }
        copy
    }
}

impl<T, const ROOM: usize> Default for List<T, ROOM> {
    fn default() -> Self {
        Self::new()
    }
}

impl<T, const ROOM: usize> Deref for List<T, ROOM> {
    type Target = [T];
    fn deref(&self) -> &[T] {
        &self.0
    }
}

impl<T, const ROOM: usize> DerefMut for List<T, ROOM> {
    fn deref_mut(&mut self) -> &mut [T] {
        &mut self.0
    }
}

impl<T, const ROOM: usize> From<[T; ROOM]> for List<T, ROOM> {
    fn from(items: [T; ROOM]) -> Self {
        Self(items.into())
    }
}

impl<T, const ROOM: usize> IntoIterator for List<T, ROOM> {
    type Item = T;
    type IntoIter = arrayvec::IntoIter<T, ROOM>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<'a, T, const ROOM: usize> IntoIterator for &'a List<T, ROOM> {
    type Item = &'a T;
    type IntoIter = core::slice::Iter<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_is_handed_back() {
        let mut list = List::<u8, 3>::of_one(1);
        assert_eq!(list.try_push_all(&[2, 3, 4]), Err(NoRoom), "four in all");
        assert_eq!(list[..], [1], "nothing of it was put there");
        assert_eq!(list.try_push_all(&[2, 3]), Ok(()), "three in all");
        assert_eq!(list.try_push(4), Err(4));
        assert_eq!(list.clone()[..], [1, 2, 3], "a copy has all of it");
        assert!(list.into_iter().eq([1, 2, 3]), "in order");
        assert!(List::<u8, 0>::of_one(1).is_empty(), "no room at all");
        assert_eq!(List::from([5, 6])[..], [5, 6]);
    }
}
