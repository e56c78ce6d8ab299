//! What each word tells of itself, and that it takes nothing else.

use sightedge_tests::commands::commands;

use super::{bench, done, refused};

/// `edition WORD --help` tells of that word alone; `edition --help` names all of them.
#[test]
fn help_of_one_word() {
    let bench = bench("help");
    let said = |line: &str| {
        let said = bench.run(line);
        assert_eq!((said.exit, said.err.as_str()), (0, ""), "{line}: {said:?}");
        said.out
    };
    let all = said("edition --help");
    let words = commands().into_iter().filter(|command| command.typed.len() == 2);
    let words: Vec<_> = words.filter(|command| command.typed[0] == "edition").collect();
    assert_eq!(words.len(), 12);
    for word in &words {
        let name = &word.typed[1];
        let of_word = said(&format!("edition {name} --help"));
        assert!(of_word.contains(&format!("\nUsage: sightedge edition {name} ")), "{of_word}");
        assert!(all.contains(&format!("\n  {name} ")), "{all}");
        for option in &word.options {
            assert!(of_word.contains(option.as_str()), "{name} {option}: {of_word}");
        }
        assert!(word.options.iter().any(|option| option == "--record"), "{name}");
    }
    let correct = said("edition correct W0001 --help");
    assert!(
        correct.contains("--picture <FILE>") && correct.contains("--matted <DAY>"),
        "{correct}"
    );
    assert!(!correct.contains("--grid"), "{correct}");
    assert_eq!(said("help edition correct"), correct);
    assert_eq!(said("help"), said("--help"));
}

/// What a word does not use is refused, and nothing is done.
#[test]
fn a_word_takes_its_own_options_alone() {
    let bench = bench("options");
    done(&bench, "new --title Weir --size 5", "W0001");
    for (line, wanted) in [
        (
            "issue W0001 --to sold --buyer Bob --size 99",
            "there is no option --to; see sightedge edition issue --help",
        ),
        ("issue W0001 --nubmer 3", "there is no option --nubmer: did you mean --number? See"),
        ("move W0001 1/5 --to sold --kind ap", "there is no option --kind"),
        ("list --grid 2x4", "there is no option --grid"),
        ("list --date 2025-11-30", "there is no option --date"),
        ("list W0001 --show Hall", "WORK and --show cannot be used together: give one of them"),
        ("list --history", "--history is for one work: give its catalogue"),
        ("list --in 1", "--in is for one work: give its catalogue number"),
        ("printouts W0001 --show Hall --out @out", "cannot be used together: give one of them"),
        ("printouts --show Hall --out @out --json", "there is no option --json"),
        ("new --of W0001 --title Sill --size 3", "cannot be used together: give one of them"),
        ("export @a.ron --in 1", "there is no option --in"),
        ("import @a.ron --why so", "there is no option --why"),
        ("check --save", "there is no option --save"),
        ("folder", "--record is for once: leave out --record"),
        ("move W0001 1/5", "--to is missing: where it goes: studio, show, sold, returned,"),
        ("move W0001", "a number is missing: sightedge edition move WORK NUMBER; see"),
        ("issue", "a work is missing: sightedge edition issue WORK [PLAN]; see sightedge"),
        (
            "isue W0001",
            "\"isue\" is not a command for editions: did you mean issue? Use one of new, issue,",
        ),
    ] {
        refused(&bench, line, 4, wanted);
    }
    done(&bench, "list", "edition 1: 0 of 5 issued");
}
