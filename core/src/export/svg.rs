//! Cut drawings as SVG: user units are millimetres, one group a board, every path closed.
//!
//! Lines have a class each: `sightedge-cut`, `sightedge-score` and
//! `sightedge-reference`, each a group of its own within its board's. All are black: the class
//! says what to do, and dashes show it to the eye. Source: Scalable Vector
//! Graphics (SVG) 1.1, W3C, 2011.

use std::fmt::Write as _;

use super::{Kind, decimal, kind};
use crate::drawing::around;
use crate::geometry::Rect;
use crate::plates::{Part, closed_lines};

/// Writes the boards of one mat; `title` and `id` are the plan's.
pub fn write(parts: &[Part], title: &str, id: &str) -> String {
    let bounds =
        parts.iter().map(|part| part.drawing.bounds).reduce(around).unwrap_or_default();
    let Rect { at, size } = bounds;
    let [x, y, w, h] = [at.x, at.y, size.width, size.height].map(decimal);
    let mut out = String::with_capacity(2048);
    out.push_str("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    add(
        &mut out,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{w}mm\" \
             height=\"{h}mm\" viewBox=\"{x} {y} {w} {h}\">\n  <title>{}</title>\n  \
             <desc>Millimetres. Plan {}</desc>\n  <style>path{{fill:none;stroke:#000;stroke-width:0.2}}\
             .sightedge-score{{stroke-dasharray:4 1}}\
             .sightedge-reference{{stroke-dasharray:1 1}}</style>\n",
            escaped(title),
            escaped(id)
        ),
    );
    for (number, part) in (1..).zip(parts) {
        add(
            &mut out,
            format_args!(
                "  <g id=\"board-{number}\">\n    <title>{}</title>\n    <desc>{}</desc>\n",
                escaped(&part.name),
                escaped(&part.board)
            ),
        );
        for wanted in Kind::ALL {
            let mut paths = String::new();
            for (points, _) in
                closed_lines(&part.drawing).filter(|(_, pen)| kind(*pen) == wanted)
            {
                paths.push_str("      <path d=\"");
                for (index, point) in points.iter().enumerate() {
                    let step = if index == 0 { "M" } else { " L" };
                    add(
                        &mut paths,
                        format_args!("{step}{} {}", decimal(point.x), decimal(point.y)),
                    );
                }
                paths.push_str(" Z\"/>\n");
            }
            if !paths.is_empty() {
                let class = wanted.class();
                add(&mut out, format_args!("    <g class=\"{class}\">\n{paths}    </g>\n"));
            }
        }
        out.push_str("  </g>\n");
    }
    out.push_str("</svg>\n");
    out
}

fn add(out: &mut String, what: std::fmt::Arguments<'_>) {
    // Memory takes every letter: there is nothing that could fail.
    out.write_fmt(what).unwrap_or_default();
}

/// Text between tags or in quotes; letters that XML 1.0 has no place for are left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{9}' | '\u{a}' | '\u{d}' => out.push(' '),
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::escaped;

    #[test]
    fn names_are_text() {
        assert_eq!(escaped("a<b> & \"c\"\u{1}\n"), "a&lt;b&gt; &amp; &quot;c&quot; ");
    }
}
