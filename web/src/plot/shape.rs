//! The shapes that pictures are made of.

use std::fmt::Write as _;

/// Where a text's own place is on its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The text begins there.
    Start,
    /// The text is centred there.
    Middle,
    /// The text ends there.
    End,
}

impl Anchor {
    /// The value of the SVG attribute `text-anchor`.
    #[must_use]
    pub fn svg(self) -> &'static str {
        match self {
            Self::Start => "start",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// One shape in drawing units, y downward as in SVG. The class says what it is; the style sheet says how it looks.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// An outline given as SVG path data.
    Path {
        /// Path data.
        d: String,
        /// Class.
        class: &'static str,
    },
    /// A straight line.
    Line {
        /// Start, across.
        x1: f64,
        /// Start, down.
        y1: f64,
        /// End, across.
        x2: f64,
        /// End, down.
        y2: f64,
        /// Class.
        class: &'static str,
    },
    /// A circle.
    Circle {
        /// Centre, across.
        cx: f64,
        /// Centre, down.
        cy: f64,
        /// Radius.
        r: f64,
        /// Class.
        class: &'static str,
    },
    /// A disc that can be picked: a click on it gives its key.
    Pick {
        /// Centre, across.
        cx: f64,
        /// Centre, down.
        cy: f64,
        /// Radius.
        r: f64,
        /// Class.
        class: &'static str,
        /// What it stands for.
        key: String,
    },
    /// An upright ellipse.
    Ellipse {
        /// Centre, across.
        cx: f64,
        /// Centre, down.
        cy: f64,
        /// Half width.
        rx: f64,
        /// Half height.
        ry: f64,
        /// Class.
        class: &'static str,
    },
    /// A rectangle.
    Rect {
        /// Left side.
        x: f64,
        /// Upper side.
        y: f64,
        /// Width.
        width: f64,
        /// Height.
        height: f64,
        /// Class.
        class: &'static str,
    },
    /// A line of text.
    Text {
        /// Its place, across.
        x: f64,
        /// Its base line, down.
        y: f64,
        /// What of it stands at the place.
        anchor: Anchor,
        /// The text, as read.
        content: String,
        /// Class.
        class: &'static str,
    },
}

/// The part of the drawing plane that is shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ViewBox {
    /// Left side.
    pub x: f64,
    /// Upper side.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// A picture, and the same in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// What is shown, in drawing units.
    pub view_box: ViewBox,
    /// Millimetres that a drawing unit stands for, when the drawing is to scale: 1 prints at true size.
    pub unit_mm: Option<f64>,
    /// One line that names the picture.
    pub title: String,
    /// The whole content in sentences.
    pub description: String,
    /// The numbers in it, as label and value.
    pub rows: Vec<(String, String)>,
    /// The shapes, back to front.
    pub shapes: Vec<Shape>,
}

/// A coordinate with three decimals and no negative zero.
///
/// ```
/// use arcminute_web::plot::shape::number;
/// assert_eq!((number(-31.5), number(-0.0001)), ("-31.500".into(), "0.000".into()));
/// ```
#[must_use]
pub fn number(value: f64) -> String {
    let text = format!("{value:.3}");
    if text == "-0.000" { "0.000".into() } else { text }
}

impl ViewBox {
    /// The value of the SVG attribute `viewBox`.
    #[must_use]
    pub fn svg(&self) -> String {
        [self.x, self.y, self.width, self.height].map(number).join(" ")
    }
}

impl Shape {
    /// Class of the shape.
    #[must_use]
    pub fn class(&self) -> &'static str {
        match self {
            Self::Path { class, .. }
            | Self::Line { class, .. }
            | Self::Circle { class, .. }
            | Self::Pick { class, .. }
            | Self::Ellipse { class, .. }
            | Self::Rect { class, .. }
            | Self::Text { class, .. } => class,
        }
    }

    /// The shape as an SVG element.
    ///
    /// ```
    /// use arcminute_web::plot::Shape;
    /// let pupil = Shape::Circle { cx: -31.5, cy: -23.0, r: 2.0, class: "pupil" };
    /// assert_eq!(pupil.svg(), r#"<circle class="pupil" cx="-31.500" cy="-23.000" r="2.000"/>"#);
    /// ```
    #[must_use]
    pub fn svg(&self) -> String {
        match self {
            Self::Path { d, class } => format!(r#"<path class="{class}" d="{}"/>"#, escaped(d)),
            Self::Line { x1, y1, x2, y2, class } => {
                element("line", class, &[("x1", *x1), ("y1", *y1), ("x2", *x2), ("y2", *y2)])
            }
            Self::Circle { cx, cy, r, class } => {
                element("circle", class, &[("cx", *cx), ("cy", *cy), ("r", *r)])
            }
            Self::Pick { cx, cy, r, class, key } => format!(
                r#"<circle class="{class}" data-pick="{}" cx="{}" cy="{}" r="{}"/>"#,
                escaped(key),
                number(*cx),
                number(*cy),
                number(*r)
            ),
            Self::Ellipse { cx, cy, rx, ry, class } => {
                element("ellipse", class, &[("cx", *cx), ("cy", *cy), ("rx", *rx), ("ry", *ry)])
            }
            Self::Rect { x, y, width, height, class } => {
                element("rect", class, &[("x", *x), ("y", *y), ("width", *width), ("height", *height)])
            }
            Self::Text { x, y, anchor, content, class } => format!(
                r#"<text class="{class}" x="{}" y="{}" text-anchor="{}">{}</text>"#,
                number(*x),
                number(*y),
                anchor.svg(),
                escaped(content)
            ),
        }
    }
}

impl Drawing {
    /// The whole drawing as an SVG document with title and description, at true size when it is to scale.
    #[must_use]
    pub fn svg(&self) -> String {
        let size = self.unit_mm.map_or(String::new(), |unit| {
            let (width, height) = (number(self.view_box.width * unit), number(self.view_box.height * unit));
            format!(r#" width="{width}mm" height="{height}mm""#)
        });
        let mut text = format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="{}"{size}><title>{}</title><desc>{}</desc>"#,
            self.view_box.svg(),
            escaped(&self.title),
            escaped(&self.description)
        );
        for shape in &self.shapes {
            text.push_str(&shape.svg());
        }
        text.push_str("</svg>");
        text
    }
}

fn element(name: &str, class: &str, attributes: &[(&str, f64)]) -> String {
    let mut text = format!(r#"<{name} class="{class}""#);
    for (attribute, value) in attributes {
        // Writing into a String cannot fail.
        let _ = write!(text, r#" {attribute}="{}""#, number(*value));
    }
    text.push_str("/>");
    text
}

/// Text with the characters that mean something in a document written out.
fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            other => safe.push(other),
        }
    }
    safe
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_cannot_leave_its_element() {
        let content = r#"3 < 4 & "5" > 4"#.into();
        let text = Shape::Text { x: 0.0, y: -0.0, anchor: Anchor::Middle, content, class: "note" };
        assert_eq!(
            text.svg(),
            r#"<text class="note" x="0.000" y="0.000" text-anchor="middle">3 &lt; 4 &amp; &quot;5&quot; &gt; 4</text>"#
        );
    }

    #[test]
    fn a_drawing_to_scale_says_its_size() {
        let drawing = Drawing {
            view_box: ViewBox { x: -10.0, y: 0.0, width: 20.0, height: 5.5 },
            unit_mm: Some(1.0),
            title: "bar".into(),
            description: "A bar.".into(),
            rows: Vec::new(),
            shapes: vec![Shape::Rect { x: -10.0, y: 0.0, width: 20.0, height: 1.0, class: "bar" }],
        };
        assert_eq!(
            drawing.svg(),
            concat!(
                r#"<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="-10.000 0.000 20.000 5.500""#,
                r#" width="20.000mm" height="5.500mm"><title>bar</title><desc>A bar.</desc>"#,
                r#"<rect class="bar" x="-10.000" y="0.000" width="20.000" height="1.000"/></svg>"#
            )
        );
        let loose = Drawing { unit_mm: None, ..drawing };
        assert!(!loose.svg().contains("mm\""), "no size without a scale");
    }
}
