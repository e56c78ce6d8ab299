//! The program's own words: all in one listing, none of them banned.

use std::path::Path;

use sightedge_tests::words;

/// Phrases no framer would say, each with what to say instead. Small letters.
const BANNED: &[(&str, &str)] = &[
    ("is wanted", "what is missing, or what to give"),
    ("are wanted", "what is missing, or what to give"),
    ("were wanted", "what to give"),
    ("is told", "shown, listed"),
    ("are told", "shown, listed"),
    ("not said", "not given"),
    ("was said", "given"),
    ("were said", "given"),
    ("gives back", "cancels, restores"),
    ("puts right", "corrects"),
    ("put right", "correct"),
    ("called so", "of that name"),
    ("out of all measure", "what the limit is"),
    ("cannot be meant", "what the limit is"),
    ("below nothing", "less than zero"),
    ("than nothing", "less than zero"),
    ("where it lies", "where it is"),
    ("where it shall lie", "where to place it"),
    ("where they lie", "where they are"),
    ("lately", "recently"),
    ("nearer", "closer"),
    ("farther", "further away"),
    ("taken back", "undid"),
    ("done again", "redid"),
    ("as is best", "automatic"),
    ("the others yield", "the others let the sheet move"),
    ("borders give", "try narrower borders"),
    ("upright", "vertical, portrait"),
    ("what stands there now", "what is there now"),
    ("how many there are to be", "edition size"),
    ("out already", "issued before"),
    ("come back", "returned"),
    ("of the room", "of the humidity"),
    ("each bears", "each carries"),
    ("rated for 0", "say that no rating is given"),
    ("in this room", "here"),
    ("by the one named above", "the artist's name"),
    ("under their eyes", "supervised by"),
    ("δe", "close match; the number on hover"),
    ("ciede2000", "close match; the number on hover"),
    ("liner", "undermat"),
    ("variant", "mat"),
    ("verb ", "command"),
    ("verbs", "commands"),
    ("shall", "is, must"),
    ("as it is meant", "what is meant"),
];

#[test]
fn no_phrase_is_banned() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap();
    let words = words::of_project(root);
    assert!(words.len() > 2000, "the sources hold {} texts", words.len());
    let lines: Vec<String> =
        words.iter().map(|(text, place)| format!("{text}\t{place}\n")).collect();
    let target = Path::new(env!("CARGO_TARGET_TMPDIR")).parent().unwrap();
    std::fs::write(target.join("words.txt"), lines.concat()).unwrap();
    let mut wrong = Vec::new();
    for (text, place) in &words {
        let small = text.to_lowercase();
        for (phrase, instead) in BANNED.iter().filter(|(phrase, _)| small.contains(phrase)) {
            wrong.push(format!("{place}: \"{phrase}\" ({instead}) in: {text}"));
        }
    }
    assert!(wrong.is_empty(), "{} texts:\n{}", wrong.len(), wrong.join("\n"));
}
