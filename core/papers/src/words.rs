//! Texts in the papers' typeface: how wide they are, where they break, how figures are set.

use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit, typeset};

use crate::direction::is_leftward;
use crate::shape::shape;

/// Millimetres in a point: 1/72 in.
pub(crate) const POINT: f64 = 25.4 / 72.0;

/// From the top of a line to its base, in sizes of its letters.
pub(crate) const ASCENT: f64 = 0.78;

/// A way of setting text: size in points, weight as in CSS, grey or black.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Style {
    pub(crate) size: f64,
    pub(crate) weight: u16,
    pub(crate) quiet: bool,
}

// No text of any printout is smaller than 8 points.
pub(crate) const TITLE: Style = Style { size: 17.0, weight: 600, quiet: false };
pub(crate) const LONG_TITLE: Style = Style { size: 12.5, weight: 600, quiet: false };
pub(crate) const SUBTITLE: Style = Style { size: 9.0, weight: 400, quiet: true };
pub(crate) const HEADING: Style = Style { size: 10.0, weight: 600, quiet: false };
pub(crate) const BODY: Style = Style { size: 9.0, weight: 400, quiet: false };
pub(crate) const STRONG: Style = Style { size: 9.0, weight: 600, quiet: false };
pub(crate) const SMALL: Style = Style { size: 8.0, weight: 400, quiet: true };

impl Style {
    /// From one line to the next, in millimetres.
    pub(crate) fn pitch(self) -> f64 {
        self.size * 1.38 * POINT
    }

    /// Whether it is set in the heavier face.
    pub(crate) const fn is_strong(self) -> bool {
        self.weight > 500
    }

    /// How wide a line of `text` is set, in millimetres.
    pub(crate) fn width(self, text: &str) -> f64 {
        shape(text, self.is_strong()).width * self.size * POINT
    }

    /// How many bytes of `text`, in whole letters, are no wider than `width` with `end` behind
    /// them.
    fn fitting(self, text: &str, end: &str, width: f64) -> usize {
        let ends: Vec<usize> = text.char_indices().map(|(at, c)| at + c.len_utf8()).collect();
        let fits =
            |at: &usize| self.width(&format!("{}{end}", text[..*at].trim_end())) <= width;
        // A text may be long and a line is short: no more of it is measured than a few lines.
        let mut reach = 16;
        while ends.get(reach - 1).is_some_and(fits) {
            reach *= 2;
        }
        let ends = &ends[..reach.min(ends.len())];
        ends.partition_point(fits).checked_sub(1).map_or(0, |last| ends[last])
    }

    /// `text` in lines no wider than `width` millimetres; a word that is wider alone is broken.
    pub(crate) fn lines(self, text: &str, width: f64) -> Vec<String> {
        let mut lines = Vec::new();
        for paragraph in text.lines() {
            let mut line = String::new();
            // Only at plain spaces: a figure and its unit stay together.
            for word in paragraph.split(' ').filter(|word| !word.is_empty()) {
                let longer =
                    if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
                if self.width(&longer) <= width {
                    line = longer;
                    continue;
                }
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                }
                let mut rest = word;
                while self.width(rest) > width {
                    let first = rest.chars().next().map_or(0, char::len_utf8);
                    let (part, next) = rest.split_at(self.fitting(rest, "", width).max(first));
                    if next.is_empty() {
                        break;
                    }
                    lines.push(part.to_owned());
                    rest = next;
                }
                rest.clone_into(&mut line);
            }
            if !line.is_empty() {
                lines.push(line);
            }
        }
        lines
    }

    /// `text` in lines as [`Style::lines`] makes them, the last of `most` shortened where there
    /// would be more.
    pub(crate) fn at_most(self, text: &str, width: f64, most: usize) -> Vec<String> {
        let mut lines = self.lines(text, width);
        if lines.len() > most {
            let rest = lines.drain(most.saturating_sub(1)..).collect::<Vec<_>>().join(" ");
            lines.push(self.shortened(&rest, width));
        }
        lines
    }

    /// Those parts that say something with a mark between them, in no more than `most` lines;
    /// the mark stands within a line, never at its end.
    pub(crate) fn listed(self, parts: &[&str], width: f64, most: usize) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        for part in parts.iter().filter(|part| !part.is_empty()) {
            if let Some(last) = lines.last_mut() {
                let longer = format!("{last} \u{b7} {part}");
                if self.width(&longer) <= width {
                    *last = longer;
                    continue;
                }
            }
            lines.extend(self.lines(part, width));
        }
        if lines.len() > most {
            let rest = lines.drain(most.saturating_sub(1)..).collect::<Vec<_>>().join(" ");
            lines.push(self.shortened(&rest, width));
        }
        lines
    }

    /// `text` on one line no wider than `width`, with an ellipsis where it was longer.
    pub(crate) fn shortened(self, text: &str, width: f64) -> String {
        self.shortened_before("", text, width)
    }

    /// The same with room left for `end`, which is to stand right behind it.
    fn shortened_before(self, end: &str, text: &str, width: f64) -> String {
        if self.width(&format!("{text}{end}")) <= width {
            return text.to_owned();
        }
        let kept = self.fitting(text, &format!("…{end}"), width);
        format!("{}…", text[..kept].trim_end())
    }

    /// A title and its year, as `Slack water, 2021`, in no more than `most` lines: a title that
    /// is too long is shortened, the year stays. One in a script that runs from right to left
    /// is kept apart, so that the year follows it.
    pub(crate) fn titled(
        self,
        title: &str,
        year: &str,
        width: f64,
        most: usize,
    ) -> Vec<String> {
        let comma = if title.is_empty() || year.is_empty() { "" } else { "," };
        let tail = if comma.is_empty() { year.to_owned() } else { format!(", {year}") };
        let whole = self.at_most(title, width, most);
        let mut lines: Vec<String> = whole.iter().map(|line| isolated(line)).collect();
        lines.pop();
        let last = whole.last().cloned().unwrap_or_default();
        // Letters stand closer in some pairs: what is drawn as one line is measured as one.
        let fits = |end: &str| self.width(&format!("{last}{end}")) <= width;
        if fits(&tail) {
            lines.push(isolated(&last) + &tail);
        } else if lines.len() + 1 < most && fits(comma) {
            lines.extend([isolated(&last) + comma, year.to_owned()]);
        } else {
            // The rest of it once more, for what was left out may be less by then.
            let kept = lines.len();
            let rest = self.lines(title, width).drain(kept..).collect::<Vec<_>>().join(" ");
            let short = self.shortened_before(&tail, &rest, width);
            lines.push(isolated(&short) + &tail);
        }
        lines
    }
}

/// A text that runs from right to left, kept apart from what stands before and after it.
/// Source: Unicode Standard Annex #9, first strong isolate and its end.
fn isolated(text: &str) -> String {
    if text.contains(is_leftward) { format!("\u{2068}{text}\u{2069}") } else { text.to_owned() }
}

/// A text with its figures set, each kept on one line with its unit.
pub(crate) fn prose(text: &str) -> String {
    let set = typeset(text);
    let mut made = String::with_capacity(set.len());
    let mut before = "";
    for word in set.split(' ') {
        let sign = word.trim_end_matches(|c: char| !c.is_alphanumeric() && c != '%');
        let unit = matches!(
            sign,
            "in" | "mm" | "cm" | "m" | "ft" | "lb" | "oz" | "g" | "kg" | "N" | "%" | "×"
        );
        let figure = before.ends_with(|c: char| c.is_numeric());
        if !before.is_empty() || !made.is_empty() {
            // A fraction stays with its whole number: `4` alone at the end of a line costs a board.
            let fraction = word.starts_with(|c: char| c.is_numeric() && !c.is_ascii_digit());
            made.push(if (unit || fraction) && figure { '\u{a0}' } else { ' ' });
        }
        made.push_str(word);
        before = word;
    }
    made
}

/// A length without its unit, set.
pub(crate) fn number(length: Length, unit: Unit) -> String {
    let text = length.text(unit);
    typeset(text.rsplit_once(' ').map_or(text.as_str(), |(number, _)| number))
        .replace(' ', "\u{a0}")
}

/// A length with its unit, set.
pub(crate) fn length(length: Length, unit: Unit) -> String {
    format!("{}\u{a0}{}", number(length, unit), unit.sign())
}

/// A length that is measured but lies on no ruler, with its unit, set.
pub(crate) fn near(length: Length, unit: Unit) -> String {
    typeset(&length.near(unit)).replace(' ', "\u{a0}")
}

/// The same in both units, the plan's first.
pub(crate) fn both(one: Length, unit: Unit) -> String {
    format!("{} ({})", length(one, unit), length(one, other(unit)))
}

/// Width × height with the unit once.
pub(crate) fn extent(size: Size, unit: Unit) -> String {
    size.extent_text(|side| length(side, unit))
}

/// The same in both units, the plan's first.
pub(crate) fn extents(size: Size, unit: Unit) -> String {
    format!("{} ({})", extent(size, unit), extent(size, other(unit)))
}

/// The unit that the plan does not have.
pub(crate) const fn other(unit: Unit) -> Unit {
    match unit {
        Unit::Inch => Unit::Millimetre,
        Unit::Millimetre => Unit::Inch,
    }
}

/// The unit's name, for the head of a column.
pub(crate) const fn unit_name(unit: Unit) -> &'static str {
    match unit {
        Unit::Inch => "Inches",
        Unit::Millimetre => "Millimetres",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stay_on_one_line() {
        let set = prose("stops left 4 1/16 in, right 4 1/4 in; 2 hinges of 1/2 in");
        let parts: Vec<&str> = set.split(' ').collect();
        let wanted =
            ["stops", "left", "4\u{a0}¹⁄₁₆\u{a0}in,", "right", "4\u{a0}¼\u{a0}in;", "2"];
        assert_eq!(parts[..6], wanted);
        assert_eq!(parts[6..], ["hinges", "of", "½\u{a0}in"]);
    }

    #[test]
    fn a_mark_never_ends_a_line() {
        let parts = ["Ada Brook", "", "pigment print", "3/25"];
        let lines = |fits: &str, most| BODY.listed(&parts, BODY.width(fits) + 0.01, most);
        assert_eq!(lines("Ada Brook \u{b7} pigment print \u{b7} 3/25", 4).len(), 1);
        assert_eq!(
            lines("Ada Brook \u{b7} pigment print", 4),
            ["Ada Brook \u{b7} pigment print", "3/25"]
        );
        assert_eq!(lines("pigment print", 4), ["Ada Brook", "pigment print", "3/25"]);
        assert_eq!(lines("pigment print", 1), ["Ada Brook…"]);
    }

    #[test]
    fn a_year_stays_behind_its_title() {
        /// In a width in which `fits` has just room.
        #[track_caller]
        fn case(title: &str, year: &str, fits: &str, most: usize, wanted: &[&str]) {
            let width = BODY.width(fits) + 0.01;
            let lines = BODY.titled(title, year, width, most);
            assert_eq!(lines, wanted);
            for line in &lines {
                let drawn: String =
                    line.chars().filter(|c| !matches!(c, '\u{2068}' | '\u{2069}')).collect();
                assert!(BODY.width(&drawn) <= width, "{line}");
            }
        }
        let long = "Slack water at low tide";
        case("Slack water", "2021", "Slack water, 2021", 1, &["Slack water, 2021"]);
        case("Slack water", "", "Slack water, 2021", 2, &["Slack water"]);
        case("", "2021", "Slack water", 2, &["2021"]);
        case(long, "2021", "Slack…, 2021", 1, &["Slack…, 2021"]);
        case(long, "2021", "low tide, 2021", 2, &["Slack water at", "low tide, 2021"]);
        case(long, "2021", "Slack water", 2, &["Slack water", "at l…, 2021"]);
        case("Slack water", "2021", "Slack water,", 2, &["Slack water,", "2021"]);
        // Source: Unicode Standard Annex #9: the isolate keeps the year to its right.
        case("שקע", "2021", "Slack water, 2021", 1, &["\u{2068}שקע\u{2069}, 2021"]);
    }
}
