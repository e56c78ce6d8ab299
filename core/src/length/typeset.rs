//! Numbers for the eye: real fractions, a true minus.

use super::signs;

/// Plain text with its fractions and minuses set as they are in print, in letters that need
/// no shaping: `4 3/16` becomes `4 ³⁄₁₆`. What stands between “ and ” is someone's own words,
/// such as the number of a print, and stays as it is.
pub fn typeset(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    let mut before = ' ';
    while let Some(c) = rest.chars().next() {
        if c == '“'
            && let Some(end) = rest.find('”')
        {
            let (quoted, after) = rest.split_at(end);
            out.push_str(quoted);
            rest = after;
            before = '“';
            continue;
        }
        if c.is_ascii_digit()
            && !before.is_ascii_digit()
            && before != '.'
            && before != '/'
            && let Some((fraction, after)) = fraction(rest)
        {
            out.push_str(&fraction);
            rest = after;
            before = '0';
            continue;
        }
        let next = rest[c.len_utf8()..].chars().next();
        let minus = c == '-'
            && !before.is_alphanumeric()
            && next.is_some_and(|next| next.is_ascii_digit() || next == '.');
        out.push(if minus { '−' } else { c });
        before = c;
        rest = &rest[c.len_utf8()..];
    }
    out
}

/// A fraction at the start of `text`, set, and what follows it.
fn fraction(text: &str) -> Option<(String, &str)> {
    let (over, rest) = digits(text);
    let (under, rest) = digits(rest.strip_prefix('/')?);
    let sound = !under.is_empty()
        && over.len() <= 3
        && under.len() <= 3
        && !rest.starts_with(|c: char| c == '/' || c == '.' || c.is_ascii_digit());
    sound.then(|| (signs::set(over, under), rest))
}

fn digits(text: &str) -> (&str, &str) {
    let end = text.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len());
    text.split_at(end)
}

#[cfg(test)]
mod tests {
    use super::typeset;

    #[test]
    fn sets_fractions() {
        for (text, wanted) in [
            ("13 1/2 in", "13 ½ in"),
            ("4 3/16", "4 ³⁄₁₆"),
            ("-1/8 in", "−⅛ in"),
            ("3.8037 in", "3.8037 in"),
            ("a 4-ply board", "a 4-ply board"),
            ("2026-03-01", "2026-03-01"),
            ("-2.5 mm", "−2.5 mm"),
            ("“3/25” stands 1/2 in below", "“3/25” stands ½ in below"),
            ("“3/25 and 1/2", "“³⁄₂₅ and ½"),
        ] {
            assert_eq!(typeset(text), wanted);
        }
    }
}
