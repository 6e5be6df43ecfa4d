//! The grammar of printed formulas: written out with all its brackets, a formula is read as itself.

use arcminute_core::explain::Expression;
use arcminute_core::scan::LONGEST;

/// Longest formula that is read, in bytes.
const LONGEST_READ: usize = 400;

/// Any text no longer than an entry.
pub(crate) fn any(text: &str) {
    if LONGEST < text.len() {
        return;
    }
    match Expression::parse(text) {
        Ok(expression) => understood(text, &expression),
        Err(error) => assert!(text.is_char_boundary(error.at), "`{text}` stops at {}", error.at),
    }
}

fn understood(text: &str, expression: &Expression<'_>) {
    let mut written = String::new();
    write(expression, &mut written);
    if LONGEST_READ < written.len() {
        // A row of signs grows past it with its brackets.
        let refused = Expression::parse(&written).expect_err("it is too long");
        assert_eq!(refused.at, LONGEST_READ, "`{written}`");
        return;
    }
    let again = Expression::parse(&written);
    let again = again.unwrap_or_else(|error| panic!("`{written}` stops at {}", error.at));
    assert!(same(&again, expression), "`{text}` is read as {expression:?}, `{written}` as {again:?}");
    for name in expression.names() {
        assert!(text.contains(name) && !name.is_empty(), "`{text}` has no name `{name}`");
    }
    // A number of more than fifteen digits may come back otherwise in its last bits, and a tangent makes anything of that.
    if again == *expression {
        assert_eq!(bits(&again), bits(expression), "`{text}`");
    }
    if let Some(name) = expression.names().first() {
        assert!(expression.value(&|_| None).is_err(), "`{text}` has a value without `{name}`");
    }
}

/// Its value to the last bit, with one half for each name.
fn bits<'a>(expression: &Expression<'a>) -> Result<u64, &'a str> {
    expression.value(&|_| Some(0.5)).map(f64::to_bits)
}

fn write(expression: &Expression<'_>, text: &mut String) {
    match expression {
        Expression::Number(number) => *text += &number.to_string(),
        Expression::Name(name) => *text += name,
        Expression::Negative(inner) => {
            *text += "(-";
            write(inner, text);
            text.push(')');
        }
        Expression::Binary(operator, left, right) => {
            text.push('(');
            write(left, text);
            text.push(*operator);
            write(right, text);
            text.push(')');
        }
        Expression::Call(name, arguments) => {
            *text += name;
            for (index, argument) in arguments.iter().enumerate() {
                text.push(if index == 0 { '(' } else { ',' });
                write(argument, text);
            }
            text.push(')');
        }
    }
}

fn same(one: &Expression<'_>, other: &Expression<'_>) -> bool {
    match (one, other) {
        (Expression::Number(one), Expression::Number(other)) => (one - other).abs() <= 1e-14 * other.abs(),
        (Expression::Name(one), Expression::Name(other)) => one == other,
        (Expression::Negative(one), Expression::Negative(other)) => same(one, other),
        (Expression::Binary(one, a, b), Expression::Binary(other, c, d)) => {
            one == other && same(a, c) && same(b, d)
        }
        (Expression::Call(one, a), Expression::Call(other, b)) => {
            one == other && a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
        }
        _ => false,
    }
}
