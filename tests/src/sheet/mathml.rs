//! A formula's text as `MathML`: fractions, roots, powers and indices as they are written by hand.

use arcminute_core::explain::Expression;

/// It lowers the index also where the reader's computer has no font for mathematics.
const LOWERED: &str = "<mpadded voffset=\"-0.2em\">";

/// Characters that a line of the printed sheet holds.
const WIDEST: usize = 78;

/// `gives = text` as `MathML`, with the text itself as what is read aloud or copied.
///
/// A sum too long for a line is broken between its terms.
///
/// # Errors
/// The text, when it is no formula.
pub(super) fn equation(gives: &str, text: &str) -> Result<String, String> {
    let expression = Expression::parse(text).map_err(|_| format!("`{text}` is no formula"))?;
    let head = format!("{}<mo>=</mo>", symbol(gives));
    let room = WIDEST.saturating_sub(gives.len() + 3);
    let mut lines = vec![(String::new(), 0)];
    for (sign, term) in terms(&expression) {
        let width = width(term) + 3;
        let full = lines.last().is_some_and(|(_, taken)| 0 < *taken && room < taken + width);
        if full {
            lines.push((String::new(), 0));
        }
        let first = lines.len() == 1 && lines[0].1 == 0;
        if let Some((line, taken)) = lines.last_mut() {
            if !first || sign == '-' {
                *line += &operator(sign);
            }
            *line += &summand(term, sign);
            *taken += width;
        }
    }
    let body = if let [(line, _)] = lines.as_slice() {
        format!("<mrow>{head}{line}</mrow>")
    } else {
        let row = |(at, (line, _)): (usize, &(String, usize))| {
            let head = if at == 0 { head.as_str() } else { "" };
            format!("<mtr><mtd>{head}</mtd><mtd>{line}</mtd></mtr>")
        };
        format!("<mtable>{}</mtable>", lines.iter().enumerate().map(row).collect::<String>())
    };
    Ok(format!("<math display=\"block\" alttext=\"{gives} = {text}\">{body}</math>"))
}

/// The terms of a sum with their signs, from left to right.
fn terms<'e, 'a>(expression: &'e Expression<'a>) -> Vec<(char, &'e Expression<'a>)> {
    match expression {
        Expression::Binary(sign @ ('+' | '-'), left, right) => {
            let mut all = terms(left);
            all.push((*sign, right));
            all
        }
        other => vec![('+', other)],
    }
}

/// A term; a sum or a sign change behind a minus or a plus is bracketed.
fn summand(term: &Expression<'_>, sign: char) -> String {
    match term {
        Expression::Binary('+' | '-', ..) => bracketed(term),
        Expression::Negative(_) if sign == '-' => bracketed(term),
        _ => written(term),
    }
}

fn operator(sign: char) -> String {
    let sign = match sign {
        '-' => '−',
        '*' => '·',
        other => other,
    };
    format!("<mo>{sign}</mo>")
}

fn bracketed(inner: &Expression<'_>) -> String {
    between("(", &written(inner), ")")
}

/// Brackets that grow with a fraction, and with nothing else.
fn between(open: &str, inside: &str, close: &str) -> String {
    let grow = if inside.contains("<mfrac>") {
        "stretchy=\"true\" symmetric=\"false\""
    } else {
        "stretchy=\"false\""
    };
    let bracket =
        |form: &str, sign: &str| format!("<mo form=\"{form}\" lspace=\"0\" rspace=\"0\" {grow}>{sign}</mo>");
    bracket("prefix", open) + inside + &bracket("postfix", close)
}

/// Anything, without brackets round it.
fn written(expression: &Expression<'_>) -> String {
    match expression {
        Expression::Number(number) => format!("<mn>{}</mn>", constant(*number)),
        Expression::Name(name) => symbol(name),
        Expression::Negative(inner) => format!("{}{}", operator('-'), summand(inner, '-')),
        Expression::Binary('^', base, power) => {
            let base = match base.as_ref() {
                Expression::Name(_) | Expression::Number(_) => written(base),
                other => bracketed(other),
            };
            format!("<msup><mrow>{base}</mrow><mrow>{}</mrow></msup>", written(power))
        }
        Expression::Binary('*' | '/', ..) => product(expression),
        Expression::Binary(..) => {
            let mut text = String::new();
            for (at, (sign, term)) in terms(expression).into_iter().enumerate() {
                if 0 < at {
                    text += &operator(sign);
                }
                text += &summand(term, if at == 0 { '+' } else { sign });
            }
            text
        }
        Expression::Call(name, arguments) => call(name, arguments),
    }
}

/// The factors above and below the line of a product, and whether its sign is turned.
#[derive(Default)]
struct Factors<'e, 'a> {
    above: Vec<&'e Expression<'a>>,
    below: Vec<&'e Expression<'a>>,
    negative: bool,
}

impl<'e, 'a> Factors<'e, 'a> {
    fn of(expression: &'e Expression<'a>) -> Self {
        let mut factors = Self::default();
        factors.gather(expression, true);
        factors
    }

    fn gather(&mut self, expression: &'e Expression<'a>, above: bool) {
        match expression {
            Expression::Binary('*', left, right) => {
                self.gather(left, above);
                self.gather(right, above);
            }
            Expression::Binary('/', left, right) if above => {
                self.gather(left, true);
                self.gather(right, false);
            }
            Expression::Negative(inner) if above => {
                self.negative = !self.negative;
                self.gather(inner, true);
            }
            other if above => self.above.push(other),
            other => self.below.push(other),
        }
    }
}

fn product(expression: &Expression<'_>) -> String {
    let factors = Factors::of(expression);
    let sign = if factors.negative { operator('-') } else { String::new() };
    if factors.below.is_empty() {
        return format!("{sign}{}", row(&factors.above, factors.negative));
    }
    format!(
        "{sign}<mfrac><mrow>{}</mrow><mrow>{}</mrow></mfrac>",
        row(&factors.above, false),
        row(&factors.below, false)
    )
}

/// Factors side by side; a sum that stands alone needs no brackets, unless a sign stands before it.
fn row(factors: &[&Expression<'_>], signed: bool) -> String {
    let alone = factors.len() == 1 && !signed;
    let one = |factor: &&Expression<'_>| match factor {
        Expression::Binary('+' | '-', ..) | Expression::Negative(_) if !alone => bracketed(factor),
        _ => written(factor),
    };
    factors.iter().map(one).collect::<Vec<_>>().join(&operator('*'))
}

fn call(name: &str, arguments: &[Expression<'_>]) -> String {
    let inside = arguments.iter().map(written).collect::<Vec<_>>().join("<mo>,</mo>");
    let function = match name {
        "sqrt" => return format!("<msqrt><mrow>{inside}</mrow></msqrt>"),
        "abs" => return between("|", &inside, "|"),
        "ceil" => return between("⌈", &inside, "⌉"),
        "exp" => return format!("<msup><mi>e</mi><mrow>{inside}</mrow></msup>"),
        "log10" => "<msub><mi>log</mi><mn>10</mn></msub>".to_owned(),
        "asin" => "<mi>arcsin</mi>".to_owned(),
        "acos" => "<mi>arccos</mi>".to_owned(),
        "atan" => "<mi>arctan</mi>".to_owned(),
        "Phi" => "<mi>Φ</mi>".to_owned(),
        other => format!("<mi>{other}</mi>"),
    };
    function + &between("(", &inside, ")")
}

/// A number; those that the texts spell out in full as they are usually written.
fn constant(number: f64) -> String {
    match number.to_string().as_str() {
        "3.141592653589793" => "π".into(),
        "1.959963984540054" => "1.96".into(),
        other => other.into(),
    }
}

/// Base, index and primes of a name: `F_v'` is `F`, `v`, `′`.
pub(super) fn parts(name: &str) -> (String, String, String) {
    let bare = name.trim_end_matches('\'');
    let primes = "′".repeat(name.len() - bare.len());
    let (base, index) = bare.split_once('_').unwrap_or((bare, ""));
    let greek = match base {
        "beta" => "β",
        "tau" => "τ",
        "phi" => "φ",
        "theta" => "θ",
        "delta" => "δ",
        "omega" => "ω",
        "rho" => "ρ",
        "sigma" => "σ",
        other => other,
    };
    (greek.into(), index.replace('_', " "), primes)
}

fn symbol(name: &str) -> String {
    let (base, index, primes) = parts(name);
    let base = format!("<mi>{base}</mi>");
    if index.is_empty() && primes.is_empty() {
        return base;
    }
    let lowered = format!("{LOWERED}<mtext>{index}</mtext></mpadded>");
    match (index.is_empty(), primes.is_empty()) {
        (_, true) => format!("<msub>{base}{lowered}</msub>"),
        (true, false) => format!("<msup>{base}<mo>{primes}</mo></msup>"),
        (false, false) => format!("<msubsup>{base}{lowered}<mo>{primes}</mo></msubsup>"),
    }
}

/// About how many characters wide it is set.
fn width(expression: &Expression<'_>) -> usize {
    let joined = |factors: &[&Expression<'_>]| factors.iter().map(|factor| width(factor) + 2).sum::<usize>();
    match expression {
        Expression::Number(number) => constant(*number).chars().count(),
        Expression::Name(name) => name.len(),
        Expression::Negative(inner) => width(inner) + 2,
        Expression::Binary('*' | '/', ..) => {
            let factors = Factors::of(expression);
            joined(&factors.above).max(joined(&factors.below))
        }
        Expression::Binary('^', base, power) => width(base) + width(power).div_ceil(2),
        Expression::Binary(_, left, right) => width(left) + width(right) + 3,
        Expression::Call(name, arguments) => {
            name.len() + 2 + arguments.iter().map(|argument| width(argument) + 2).sum::<usize>()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{LOWERED, equation};

    /// `MathML` without what stands round every equation.
    fn of(text: &str) -> String {
        let whole = equation("y", text).expect("well formed");
        let start = whole.find("<mo>=</mo>").expect("an equals sign") + "<mo>=</mo>".len();
        let mut plain =
            whole[start..].trim_end_matches("</mrow></math>").replace(LOWERED, "").replace("</mpadded>", "");
        for form in ["prefix", "postfix"] {
            for grow in ["stretchy=\"false\"", "stretchy=\"true\" symmetric=\"false\""] {
                let said = format!(" form=\"{form}\" lspace=\"0\" rspace=\"0\" {grow}");
                plain = plain.replace(&said, "");
            }
        }
        plain
    }

    #[test]
    fn quotients_are_fractions() {
        let fraction =
            |above: &str, below: &str| format!("<mfrac><mrow>{above}</mrow><mrow>{below}</mrow></mfrac>");
        assert_eq!(of("1 / V"), fraction("<mn>1</mn>", "<mi>V</mi>"));
        assert_eq!(
            of("a / 2 / b * c"),
            fraction("<mi>a</mi><mo>·</mo><mi>c</mi>", "<mn>2</mn><mo>·</mo><mi>b</mi>")
        );
        assert_eq!(of("-a / b"), format!("<mo>−</mo>{}", fraction("<mi>a</mi>", "<mi>b</mi>")));
        assert_eq!(of("(a + b) / c"), fraction("<mi>a</mi><mo>+</mo><mi>b</mi>", "<mi>c</mi>"));
        assert_eq!(of("a / (b / c)"), fraction("<mi>a</mi>", &fraction("<mi>b</mi>", "<mi>c</mi>")));
    }

    #[test]
    fn brackets_stand_where_they_are_needed() {
        assert_eq!(
            of("a * (b + c)"),
            "<mi>a</mi><mo>·</mo><mo>(</mo><mi>b</mi><mo>+</mo><mi>c</mi><mo>)</mo>"
        );
        assert_eq!(
            of("a - (b - c)"),
            "<mi>a</mi><mo>−</mo><mo>(</mo><mi>b</mi><mo>−</mo><mi>c</mi><mo>)</mo>"
        );
        assert_eq!(of("a - b - c"), "<mi>a</mi><mo>−</mo><mi>b</mi><mo>−</mo><mi>c</mi>");
        assert_eq!(
            of("-(a + b) * c"),
            "<mo>−</mo><mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mo>)</mo><mo>·</mo><mi>c</mi>"
        );
        let power = "<msup><mrow><mo>(</mo><mi>a</mi><mo>·</mo><mi>b</mi><mo>)</mo></mrow><mrow><mn>2</mn></mrow></msup>";
        assert_eq!(of("(a * b)^2"), power);
    }

    #[test]
    fn brackets_grow_with_fractions_only() {
        let of = |text| equation("y", text).expect("well formed");
        assert!(of("ln(x)").contains("stretchy=\"false\">(</mo>"), "{}", of("ln(x)"));
        assert!(of("ln(x / 2)").contains("symmetric=\"false\">(</mo>"), "{}", of("ln(x / 2)"));
    }

    #[test]
    fn names_carry_their_index_and_prime() {
        assert_eq!(of("F_o"), "<msub><mi>F</mi><mtext>o</mtext></msub>");
        assert_eq!(of("d'"), "<msup><mi>d</mi><mo>′</mo></msup>");
        assert_eq!(of("F_v'"), "<msubsup><mi>F</mi><mtext>v</mtext><mo>′</mo></msubsup>");
        assert_eq!(of("theta_0"), "<msub><mi>θ</mi><mtext>0</mtext></msub>");
        assert_eq!(of("3.141592653589793"), "<mn>π</mn>");
    }

    #[test]
    fn functions_are_written_by_their_signs() {
        assert_eq!(of("sqrt(2)"), "<msqrt><mrow><mn>2</mn></mrow></msqrt>");
        assert_eq!(of("abs(M)"), "<mo>|</mo><mi>M</mi><mo>|</mo>");
        assert_eq!(of("exp(x)"), "<msup><mi>e</mi><mrow><mi>x</mi></mrow></msup>");
        assert_eq!(of("atan(x)"), "<mi>arctan</mi><mo>(</mo><mi>x</mi><mo>)</mo>");
        assert_eq!(of("max(a, b)"), "<mi>max</mi><mo>(</mo><mi>a</mi><mo>,</mo><mi>b</mi><mo>)</mo>");
    }

    #[test]
    fn a_long_sum_is_broken_between_terms() {
        let long = ["quite_a_long_name"; 6].join(" + ");
        let whole = equation("y", &long).expect("well formed");
        assert!(whole.contains("<mtable><mtr>"), "{whole}");
        assert!(whole.contains("<mtr><mtd></mtd><mtd><mo>+</mo>"), "{whole}");
        assert!(!equation("y", "a + b").expect("well formed").contains("<mtable>"));
        assert_eq!(equation("y", "a +"), Err("`a +` is no formula".into()));
    }
}
