//! What the verb tells of itself.

use super::bench;

/// `edition WORD --help` tells of that word alone, and what goes for all words; both are parts of
/// the one text that `edition --help` shows.
#[test]
fn help_of_one_word() {
    let bench = bench("help");
    let said = |line: &str| {
        let said = bench.run(line);
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
        said.out
    };
    let all = said("edition --help");
    let words = [
        "new", "issue", "list", "move", "correct", "inscribe", "papers", "export", "import",
        "folder", "check",
    ];
    for word in words {
        let of_word = said(&format!("edition {word} --help"));
        assert!(of_word.starts_with(&format!("sightedge edition {word}")), "{of_word}");
        for other in words.iter().filter(|other| **other != word) {
            assert!(!of_word.contains(&format!("edition {other} ")), "{word}: {of_word}");
        }
        for common in ["  --studio FOLDER ", "  --in ID ", "WORK is a catalogue number"] {
            assert!(of_word.contains(common), "{word}: {of_word}");
        }
        for line in of_word.lines() {
            let line = line.strip_prefix("sightedge edition ").unwrap_or(line).trim();
            let parts = line.split_once(": ").map_or([line, ""], |(typed, told)| [typed, told]);
            let there = parts.iter().all(|part| all.contains(part));
            assert!(there && line.chars().count() <= 100, "{word}: {line}");
        }
    }
    let correct = said("edition correct W0001 --help");
    assert!(
        correct.contains("--picture FILE") && correct.contains("--matted DAY"),
        "{correct}"
    );
    assert!(!correct.contains("--grid"), "{correct}");
    assert_eq!(said("edition sell --help"), all, "no word of it: all there is");
    assert_eq!(said("help"), said("--help"));
}
