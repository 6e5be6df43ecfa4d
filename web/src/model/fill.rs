//! Reading a struct from a file, field by field, as derived code would, but in a fraction of its room on the page:
//! derived code reads each struct twice, by names and in order.
//!
//! A name that is not known, stands twice or is missing where it is required refuses the whole.

use serde::de::{Deserialize, Error, MapAccess};

/// A struct whose fields are read by name from a map.
pub(crate) trait Fields<'de, A: MapAccess<'de>> {
    /// Names of the fields, at most 32; and those without which there is no struct.
    fn names(&self) -> [&'static [&'static str]; 2];
    /// Reads what stands behind the name at this place of the list.
    fn read(&mut self, place: usize, map: &mut A) -> Result<(), A::Error>;
}

/// Reads a field; once for all fields of a type.
#[inline(never)]
pub(crate) fn put<'de, T: Deserialize<'de>, A: MapAccess<'de>>(
    field: &mut T,
    map: &mut A,
) -> Result<(), A::Error> {
    *field = map.next_value()?;
    Ok(())
}

/// Fills a struct; once for all structs.
#[inline(never)]
pub(crate) fn fill<'de, A: MapAccess<'de>>(
    into: &mut dyn Fields<'de, A>,
    map: &mut A,
) -> Result<(), A::Error> {
    let [names, required] = into.names();
    let mut seen = 0_u32;
    while let Some(name) = map.next_key::<String>()? {
        let trouble = match place(names, &name) {
            None => "unknown",
            Some(place) if seen >> place & 1 == 1 => "duplicate",
            Some(place) => {
                seen |= 1 << place;
                into.read(place, map)?;
                continue;
            }
        };
        return Err(refused(trouble, &name));
    }
    let missing = required.iter().find(|name| place(names, name).is_none_or(|at| seen >> at & 1 == 0));
    missing.map_or(Ok(()), |name| Err(refused("missing", name)))
}

fn refused<E: Error>(trouble: &str, name: &str) -> E {
    E::custom(format!("{trouble} field `{name}`"))
}

fn place(names: &[&str], name: &str) -> Option<usize> {
    names.iter().position(|known| *known == name)
}

/// `fields!(Struct { a, b } required { a })`: how it is read from a file.
macro_rules! fields {
    ($struct:ident { $($field:ident),+ $(,)? } required { $($required:ident),* }) => {
        impl<'de, A: serde::de::MapAccess<'de>> $crate::model::fill::Fields<'de, A> for $struct {
            fn names(&self) -> [&'static [&'static str]; 2] {
                [&[$(stringify!($field)),+], &[$(stringify!($required)),*]]
            }
            fn read(&mut self, place: usize, map: &mut A) -> Result<(), A::Error> {
                let mut places = 0..;
                $(if places.next() == Some(place) {
                    return $crate::model::fill::put(&mut self.$field, map);
                })+
                Ok(())
            }
        }
        impl<'de> serde::Deserialize<'de> for $struct {
            fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                struct Filled;
                impl<'de> serde::de::Visitor<'de> for Filled {
                    type Value = $struct;
                    fn expecting(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                        formatter.write_str("an object")
                    }
                    fn visit_map<A: serde::de::MapAccess<'de>>(self, mut map: A) -> Result<$struct, A::Error> {
                        let mut filled = <$struct>::default();
                        $crate::model::fill::fill(&mut filled, &mut map)?;
                        Ok(filled)
                    }
                }
                deserializer.deserialize_map(Filled)
            }
        }
    };
}
pub(crate) use fields;

/// A choice by its name in a file: the name of the variant in small letters with low lines.
pub(crate) fn choice<'de, T: Copy, D: serde::Deserializer<'de>>(
    deserializer: D,
    all: &[T],
    names: &[&str],
) -> Result<T, D::Error> {
    let text = String::deserialize(deserializer)?;
    let found = names.iter().zip(all).find(|(name, _)| is_named(&text, name));
    found.map(|(_, one)| *one).ok_or_else(|| D::Error::custom(format!("unknown choice `{text}`")))
}

/// Whether `pupil_top` is `PupilTop`.
fn is_named(text: &str, variant: &str) -> bool {
    let mut name = String::new();
    for letter in variant.chars() {
        if letter.is_ascii_uppercase() && !name.is_empty() {
            name.push('_');
        }
        name.push(letter.to_ascii_lowercase());
    }
    name == text
}

#[cfg(test)]
mod tests {
    use serde::Serialize;

    #[derive(Debug, Default, PartialEq, Serialize)]
    struct Pair {
        first: String,
        second: Option<f64>,
    }
    fields!(Pair { first, second } required { first });

    fn read(text: &str) -> Result<Pair, String> {
        serde_json::from_str(text).map_err(|error| error.to_string())
    }

    #[test]
    fn a_struct_is_read_by_its_names() {
        let both = Pair { first: "a".into(), second: Some(2.0) };
        assert_eq!(read(r#"{ "second": 2, "first": "a" }"#), Ok(both));
        assert_eq!(read(r#"{ "first": "" }"#), Ok(Pair::default()), "what is not required");
    }

    #[test]
    fn what_derived_code_would_refuse_is_refused() {
        for (text, said) in [
            (r#"{ "first": "a", "third": 1 }"#, "unknown field `third` at line 1 column 23"),
            (r#"{ "first": "a", "first": "b" }"#, "duplicate field `first` at line 1 column 23"),
            (r#"{ "second": 1 }"#, "missing field `first` at line 1 column 15"),
            (r#"["a", 1]"#, "invalid type: sequence, expected an object at line 1 column 0"),
            (r#"{ "first": 1 }"#, "invalid type: integer `1`, expected a string at line 1 column 12"),
        ] {
            assert_eq!(read(text), Err(said.into()), "{text}");
        }
    }

    #[test]
    fn a_choice_is_read_by_its_name() {
        let read = |text: &str| {
            let text = serde_json::Value::from(text);
            super::choice(text, &[1, 2], &["PupilTop", "A4"]).map_err(|error| error.to_string())
        };
        assert_eq!((read("pupil_top"), read("a4")), (Ok(1), Ok(2)));
        assert_eq!(read("PupilTop"), Err("unknown choice `PupilTop`".into()));
    }
}
