//! The signs of which fractions are set, to read and to write.

/// Figures above the stroke.
const ABOVE: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
/// Figures below it.
const BELOW: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];
/// The fractions that Unicode has ready, those first that the typeface has, too.
const READY: [(char, (i128, i128)); 18] = [
    ('½', (1, 2)),
    ('¼', (1, 4)),
    ('¾', (3, 4)),
    ('⅛', (1, 8)),
    ('⅜', (3, 8)),
    ('⅝', (5, 8)),
    ('⅞', (7, 8)),
    ('⅓', (1, 3)),
    ('⅔', (2, 3)),
    ('⅕', (1, 5)),
    ('⅖', (2, 5)),
    ('⅗', (3, 5)),
    ('⅘', (4, 5)),
    ('⅙', (1, 6)),
    ('⅚', (5, 6)),
    ('⅐', (1, 7)),
    ('⅑', (1, 9)),
    ('⅒', (1, 10)),
];

/// How many of them the typeface has.
const IN_THE_TYPEFACE: usize = 7;

fn figure(signs: [char; 10], sign: char) -> Option<i128> {
    signs.iter().position(|s| *s == sign).and_then(|at| i128::try_from(at).ok())
}

/// The value of a figure above the stroke.
pub(super) fn superscript(sign: char) -> Option<i128> {
    figure(ABOVE, sign)
}

/// The value of a figure below the stroke.
pub(super) fn subscript(sign: char) -> Option<i128> {
    figure(BELOW, sign)
}

/// What a ready fraction stands for.
pub(super) fn vulgar(sign: char) -> Option<(i128, i128)> {
    READY.iter().find(|(ready, _)| *ready == sign).map(|(_, parts)| *parts)
}

/// A fraction set: the typeface's ready one where there is one, else built of small figures.
pub(super) fn set(over: &str, under: &str) -> String {
    let mut ready = READY.iter().take(IN_THE_TYPEFACE);
    let number = |text: &str| text.parse::<i128>().ok().filter(|_| !text.starts_with('0'));
    let wanted = number(over).zip(number(under));
    if let Some((ready, _)) = ready.find(|(_, parts)| Some(*parts) == wanted) {
        return ready.to_string();
    }
    let small = |digits: &str, signs: [char; 10]| -> String {
        let digits = digits.chars().filter_map(|c| c.to_digit(10));
        digits.filter_map(|d| signs.get(usize::try_from(d).ok()?).copied()).collect()
    };
    format!("{}\u{2044}{}", small(over, ABOVE), small(under, BELOW))
}
