//! The sequence of cuts, done again from the JSON alone as one would at the bench: start with
//! the sheet, trim it, cut each named piece at its stop, and count what falls.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by panicking")]

mod support;

use std::collections::BTreeMap;

use serde_json::Value;
use sightedge_cutting::report::Report;
use sightedge_cutting::{
    Effort, Piece, Problem, Stages, Stock, Supply, Trim, solve_quietly, which,
};
use support::{Dice, load, problem};

fn whole(value: &Value, key: &str) -> i64 {
    value[key].as_i64().unwrap_or_else(|| panic!("{key} in {value}"))
}

fn word<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key].as_str().unwrap_or_else(|| panic!("{key} in {value}"))
}

/// Cuts one sheet by its sequence; the sizes on the bench in the end, by name.
fn cut(sequence: &Value, (wide, high): (i64, i64)) -> BTreeMap<String, (i64, i64)> {
    let kerf = whole(sequence, "kerf");
    let off = |edge: &str| whole(&sequence["trim"], edge);
    let trimmed = (wide - off("left") - off("right"), high - off("bottom") - off("top"));
    let mut bench = BTreeMap::from([(word(sequence, "sheet").to_owned(), trimmed)]);
    let mut ever: Vec<String> = bench.keys().cloned().collect();
    for (at, step) in sequence["cuts"].as_array().unwrap().iter().enumerate() {
        assert_eq!(whole(step, "number"), i64::try_from(at).unwrap() + 1, "{step}");
        let size = bench.remove(word(step, "piece"));
        let (width, height) = size.unwrap_or_else(|| panic!("no such piece: {step}"));
        assert_eq!((whole(step, "width"), whole(step, "height")), (width, height), "{step}");
        let stop = whole(step, "stop");
        let (first, second) = match word(step, "edge") {
            "left edge" => ((stop, height), (width - stop - kerf, height)),
            "lower edge" => ((width, stop), (width, height - stop - kerf)),
            other => panic!("{other}: {step}"),
        };
        let falls = step["falls"].as_array().unwrap();
        let left = second.0 > 0 && second.1 > 0;
        assert!(stop > 0 && stop < width.max(height), "a cut beyond its piece: {step}");
        assert_eq!(falls.len(), 1 + usize::from(left), "what falls: {step}");
        for (size, named) in [first, second].into_iter().zip(falls) {
            assert_eq!((whole(named, "width"), whole(named, "height")), size, "{step}");
            let name = word(named, "name").to_owned();
            assert!(!ever.contains(&name), "{name} is the name of two pieces: {sequence}");
            ever.push(name.clone());
            bench.insert(name, size);
        }
    }
    bench
}

/// What each name is in the end, as the sequence says: the piece's number, where it is one.
fn said(sequence: &Value) -> BTreeMap<String, Option<u64>> {
    let mut said = BTreeMap::new();
    let steps = sequence["cuts"].as_array().unwrap();
    let falls = steps.iter().flat_map(|step| step["falls"].as_array().unwrap());
    for named in falls.chain([&sequence["trimmed"]]) {
        if word(named, "becomes") != "cut" {
            said.insert(word(named, "name").to_owned(), named["piece"].as_u64());
        }
    }
    said
}

/// Cuts all sheets of a report and holds that exactly the wanted pieces fall out; `problem` is
/// read for nothing but sizes and counts that are wanted.
fn replay(problem: &Problem, report: &Value, first: usize) {
    let mut made = vec![0_u64; problem.pieces.len()];
    let mut sheets = BTreeMap::<&str, u64>::new();
    let mut letters = Vec::new();
    for pattern in report["patterns"].as_array().unwrap() {
        let copies = pattern["copies"].as_u64().unwrap();
        *sheets.entry(word(pattern, "source")).or_default() += copies;
        let sequence = &pattern["sequence"];
        letters.push(word(sequence, "sheet").to_owned());
        let stock = (whole(&pattern["stock"], "width"), whole(&pattern["stock"], "height"));
        let bench = cut(sequence, stock);
        let said = said(sequence);
        let names: Vec<&String> = bench.keys().collect();
        assert_eq!(names, said.keys().collect::<Vec<_>>(), "what lies there: {sequence}");
        for (name, piece) in said {
            let Some(piece) = piece else { continue };
            let piece = usize::try_from(piece).unwrap();
            let Piece { width, height, may_turn, .. } = problem.pieces[piece];
            let fits =
                bench[&name] == (width, height) || may_turn && bench[&name] == (height, width);
            assert!(fits, "{name} is {:?}, wanted {width} x {height}", bench[&name]);
            made[piece] += copies;
        }
    }
    for missing in report["missing"].as_array().into_iter().flatten() {
        made[usize::try_from(whole(missing, "piece")).unwrap()] +=
            missing["copies"].as_u64().unwrap();
    }
    let wanted: Vec<u64> = problem.pieces.iter().map(|p| u64::from(p.copies)).collect();
    assert_eq!(made, wanted, "exactly the wanted pieces");
    for (source, key) in
        [("bought", "sheets_bought"), ("in hand", "sheets_in_hand"), ("drop-out", "drop_outs")]
    {
        let counted = sheets.get(source).copied().unwrap_or(0);
        assert_eq!(report[key].as_u64(), Some(counted), "{key}");
    }
    let expected: Vec<String> =
        (0..letters.len()).map(|at| sightedge_cutting::letters(first + at)).collect();
    assert_eq!(letters, expected, "a letter for each sheet");
}

fn solve_and_replay(problem: &Problem, steps: u64, first: usize) {
    let plan = solve_quietly(problem, Effort { steps, seed: 1 });
    let report = Report::lettered(problem, &plan, 0.0, None, first);
    let text = serde_json::to_string(&report).unwrap();
    replay(problem, &serde_json::from_str(&text).unwrap(), first);
}

/// Source: the same instances that `published.rs` checks: Berkey and Wang (1987); Martello and
/// Vigo (1998); Cintra, Miyazawa, Wakabayashi and Xavier (2008); generated shows.
#[test]
fn what_falls_of_published_instances_is_what_was_wanted() {
    for family in ["bin-packing", "stock-sheets", "shows-small", "shows-big"] {
        let Some((problems, _)) = load(family) else { return };
        for (_, problem) in problems.iter().step_by(8) {
            for stages in [Stages::Two, Stages::Three, Stages::Any] {
                let problem = Problem { stages, ..problem.clone() };
                solve_and_replay(&problem, 2_000_000, 0);
            }
        }
    }
}

/// Source: the problem's own conditions: trims, kerfs, limited stocks and drop-outs at random.
#[test]
fn what_falls_of_random_sheets_is_what_was_wanted() {
    let mut dice = Dice(22);
    for number in 0..2_000 {
        solve_and_replay(&problem(&mut dice), 300_000, number % 30);
    }
}

/// Source: by hand. Three of 6 × 4 out of 20 × 4: two cuts, the second on what the first left,
/// so that its stop is 6 again and not 12 from the sheet's edge.
#[test]
fn a_stop_is_from_the_edge_of_the_piece_that_is_cut() {
    let stock = |name: &str, (width, height), supply, cost| Stock {
        name: name.to_owned(),
        width,
        height,
        cost,
        supply,
        trim: Trim::all(1),
    };
    let piece =
        |copies| Piece { name: "mat".to_owned(), width: 6, height: 4, copies, may_turn: false };
    let problem = Problem {
        stocks: vec![stock("22 × 6", (22, 6), Supply::Unlimited, 9)],
        pieces: vec![piece(9)],
        ..Problem::default()
    };
    let plan = solve_quietly(&problem, Effort::seconds(1));
    let report = serde_json::to_value(Report::new(&problem, &plan, 0.0, None)).unwrap();
    let pattern = &report["patterns"][0];
    assert_eq!(which(&problem, &plan, 0), "sheets 1 to 3, alike");
    assert_eq!(word(pattern, "which"), "sheets 1 to 3, alike");
    let steps = pattern["sequence"]["cuts"].as_array().unwrap();
    let described: Vec<(&str, i64, i64, &str)> = steps
        .iter()
        .map(|s| (word(s, "piece"), whole(s, "width"), whole(s, "stop"), word(s, "edge")))
        .collect();
    let edge = "left edge";
    assert_eq!(described, [("A", 20, 6, edge), ("A2", 14, 6, edge), ("A4", 8, 6, edge)]);
    let last: Vec<(&str, &str)> = steps[2]["falls"]
        .as_array()
        .unwrap()
        .iter()
        .map(|fell| (word(fell, "name"), word(fell, "becomes")))
        .collect();
    assert_eq!(last, [("A5", "piece"), ("A6", "rest")]);
}

/// Source: by hand: one piece a sheet, four pieces; one sheet in hand, a piece that has a
/// window: one in hand, and the others to buy.
#[test]
fn sheets_bought_and_owned_are_counted_apart() {
    let stock = |name: &str, side, supply, cost| Stock {
        name: name.to_owned(),
        width: side,
        height: side,
        cost,
        supply,
        trim: Trim::default(),
    };
    let piece = |name: &str, side, copies| Piece {
        name: name.to_owned(),
        width: side,
        height: side,
        copies,
        may_turn: false,
    };
    let window = Supply::Window { piece: 0, each: 1 };
    let problem = Problem {
        stocks: vec![
            stock("bought", 10, Supply::Unlimited, 5),
            stock("offcut", 11, Supply::InHand(2), 0),
            stock("drop-out", 4, window, 0),
        ],
        pieces: vec![piece("mat", 8, 5), piece("small", 4, 1)],
        ..Problem::default()
    };
    let plan = solve_quietly(&problem, Effort::seconds(1));
    let counts = sightedge_cutting::Counts::of(&problem, &plan);
    assert_eq!(counts.to_string(), "3 sheets to buy, 2 in hand, 1 drop-out");
    let report = serde_json::to_value(Report::new(&problem, &plan, 0.0, None)).unwrap();
    replay(&problem, &report, 0);
    let mut described: Vec<String> =
        (0..plan.patterns.len()).map(|at| which(&problem, &plan, at)).collect();
    described.sort();
    assert_eq!(
        described,
        ["drop-out 1", "sheets 1 to 3, alike", "sheets in hand 1 and 2, alike"]
    );
}
