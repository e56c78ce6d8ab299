//! Texts that run from right to left, beside figures that do not.

use std::collections::BTreeSet;
use std::ops::Range;

/// Whether a letter runs from right to left: those of Hebrew, Arabic and their neighbours, from
/// memory of the blocks, and the mark that says so.
pub(crate) fn is_leftward(c: char) -> bool {
    matches!(c, '\u{590}'..='\u{8ff}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefc}')
        || matches!(c, '\u{10800}'..='\u{10fff}' | '\u{1e800}'..='\u{1efff}' | '\u{200f}')
}

/// `text` without what is never drawn and would turn its neighbours round, and with a question
/// mark for each letter that is `missing`.
pub(crate) fn cleaned(text: &str, missing: &BTreeSet<char>) -> String {
    text.chars()
        .filter(|c| !c.is_control() && !matches!(c, '\u{202a}'..='\u{202e}' | '\u{feff}'))
        .map(|c| if missing.contains(&c) { '?' } else { c })
        .collect()
}

/// `text` with each stretch that runs from right to left kept apart from the figures beside
/// it; what is kept apart already stays. Source: Unicode Standard Annex #9, first strong
/// isolate and its end.
pub(crate) fn apart(text: String) -> String {
    if !text.contains(is_leftward) {
        return text;
    }
    // From the first such letter to the last one with nothing between that parts them.
    let parts = |c: char| c.is_alphabetic() || ",;:()[]“”\"\u{b7}".contains(c);
    let mut stretches: Vec<Range<usize>> = Vec::new();
    let mut goes_on = false;
    let mut within = 0_u32;
    for (at, c) in text.char_indices() {
        match c {
            '\u{2066}'..='\u{2068}' => within += 1,
            '\u{2069}' => within = within.saturating_sub(1),
            _ => {}
        }
        if within > 0 {
            goes_on = false;
        } else if is_leftward(c) {
            let end = at + c.len_utf8();
            match stretches.last_mut().filter(|_| goes_on) {
                Some(last) => last.end = end,
                None => stretches.push(at..end),
            }
            goes_on = true;
        } else if parts(c) {
            goes_on = false;
        }
    }
    let mut made = String::with_capacity(text.len() + stretches.len() * 6);
    let mut at = 0;
    for stretch in stretches {
        made.push_str(&text[at..stretch.start]);
        made.push('\u{2068}');
        made.push_str(&text[stretch.clone()]);
        made.push('\u{2069}');
        at = stretch.end;
    }
    made.push_str(&text[at..]);
    made
}

#[cfg(test)]
mod tests {
    use crate::shape::shape;

    /// The letters of a text from left to right, as they are drawn.
    fn seen(text: &str) -> String {
        let shaped = shape(text, false);
        let glyphs = shaped.runs.iter().flat_map(|run| &run.glyphs);
        glyphs.map(|glyph| &shaped.text[glyph.text.clone()]).collect()
    }

    /// Source: Unicode Standard Annex #9: what is kept apart turns nothing round beside it.
    #[test]
    fn a_title_from_right_to_left_turns_no_figure_round() {
        for (text, wanted) in [
            ("שקע", "עקש"),
            ("שקע 4 ⁵⁄₁₆", "עקש 4 ⁵⁄₁₆"),
            ("4 ⁵⁄₁₆ שקע, 2021", "4 ⁵⁄₁₆ עקש, 2021"),
            ("שקע שפל \u{b7} 3/25 \u{b7} 11 ½ in", "לפש עקש \u{b7} 3/25 \u{b7} 11 ½ in"),
            ("\u{2068}שקע\u{2069}, 2021 \u{b7} שפל 3", "עקש, 2021 \u{b7} לפש 3"),
            // Within one title its own order stays.
            ("שקע 12 שפל", "לפש 12 עקש"),
            ("\u{200f}4 ⁵⁄₁₆", "4 ⁵⁄₁₆"),
            // An override that somebody pasted is gone.
            ("\u{202e}4 5/16", "4 5/16"),
        ] {
            assert_eq!(seen(text), wanted, "{text}");
        }
    }
}
