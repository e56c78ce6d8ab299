//! What makes no sense is named, with a way out, and the rest is planned.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::print_stderr,
    reason = "a test fails by panicking and says what it could not run"
)]

use sightedge_cutting::{
    Effort, Piece, Plan, Problem, Stages, Stock, Supply, Trim, checker, instance, solve_quietly,
};

fn piece(name: &str, width: i64, height: i64, copies: u32) -> Piece {
    Piece { name: name.to_owned(), width, height, copies, may_turn: false }
}

fn stock(name: &str, width: i64, height: i64, cost: i64, supply: Supply) -> Stock {
    Stock { name: name.to_owned(), width, height, cost, supply, trim: Trim::default() }
}

fn solved(problem: &Problem) -> Plan {
    let plan = solve_quietly(problem, Effort { steps: 40_000_000, seed: 1 });
    checker::check(problem, &plan).unwrap();
    plan
}

/// The board most people start from, in eighths of an inch, and one sound piece.
fn sound() -> Problem {
    Problem {
        stocks: vec![stock("museum board", 320, 256, 1, Supply::Unlimited)],
        pieces: vec![piece("Harbour, window mat", 128, 160, 4)],
        ..Problem::default()
    }
}

#[track_caller]
fn complains(problem: &Problem, expected: &str) {
    let plan = solved(problem);
    let messages: Vec<String> = plan.complaints.iter().map(ToString::to_string).collect();
    assert_eq!(messages, [expected], "complaints");
    assert_eq!(plan.missing[0], 0, "the sound piece is planned");
    assert_eq!(plan.cost, 2, "the sound piece takes two sheets");
}

/// Source: common practice.
#[test]
fn nonsense_is_named_and_the_rest_planned() {
    let mut problem = sound();
    problem.pieces.push(piece("Dune, backing", 400, 100, 1));
    complains(
        &problem,
        "Dune, backing is 400 x 100 and fits no sheet; the largest leaves 320 x 256 after trim. \
         Add a larger sheet or make the piece smaller; it was left out",
    );
    problem.pieces[1] = piece("Dune, backing", 250, 300, 1);
    complains(
        &problem,
        "Dune, backing is 250 x 300 and fits no sheet; the largest leaves 320 x 256 after trim. \
         Let it be turned, or add a larger sheet; it was left out",
    );
    problem.pieces[1] = piece("Dune, backing", 0, 300, 1);
    complains(
        &problem,
        "Dune, backing is 0 x 300: both sides must be above 0 and no longer than 1000000000. Correct its size; \
         it was left out",
    );
    problem.pieces[1] = piece("Dune, backing", 10, 10, u32::MAX);
    complains(
        &problem,
        "Dune, backing asks for 4294967295 copies or more: at most 1000000 pieces are planned at once. \
         Lower the count or split the job; it was left out",
    );
    problem.pieces[1] = piece("Dune, fillet", 300, 4, 1);
    problem.least_strip = 6;
    complains(
        &problem,
        "Dune, fillet is 4 wide where the cutter holds no less than 6. Cut it by hand or lower \
         the narrowest strip; it was left out",
    );
    let mut problem = sound();
    problem.kerf = -1;
    complains(&problem, "the kerf is -1: it must be 0 or more. It was taken as 0");
    let mut problem = sound();
    problem.stocks.push(stock("offcut", 0, 5, 1, Supply::InHand(1)));
    complains(
        &problem,
        "stock offcut is 0 x 5. Both sides must be above 0, and no longer than can be cut; it was left out",
    );
    problem.stocks[1] = stock("drop-out", 128, 160, 0, Supply::Window { piece: 0, each: 1 });
    complains(
        &problem,
        "stock drop-out is 128 x 160, which its piece cannot hold. A drop-out must be smaller \
         than the piece it falls out of; it was left out",
    );
}

/// Source: common practice.
#[test]
fn no_stock_and_too_little_stock() {
    let mut problem = sound();
    problem.stocks.clear();
    let plan = solved(&problem);
    assert_eq!(
        plan.complaints[0].to_string(),
        "there is no sheet to cut Harbour, window mat from. Add a stock of its board; it was \
         left out",
        "no stock"
    );
    let mut problem = sound();
    problem.stocks[0].supply = Supply::InHand(1);
    let plan = solved(&problem);
    assert_eq!(
        plan.complaints[0].to_string(),
        "the sheets in hand ran out before 2 of Harbour, window mat could be cut. Add sheets, \
         or make fewer",
        "too little"
    );
    assert!(!plan.bound.proved, "nothing is proved while pieces are missing");
}

/// Source: common practice: one drop-out in four windows' worth of board serves a small mat.
#[test]
fn drop_outs_follow_their_window() {
    let mut problem = sound();
    problem.pieces.push(piece("Study, window mat", 88, 112, 4));
    assert_eq!(solved(&problem).cost, 3, "two sheets of large mats, one of small");
    let window = Supply::Window { piece: 0, each: 1 };
    problem.stocks.push(stock("drop-out of Harbour", 96, 124, 0, window));
    let plan = solved(&problem);
    assert_eq!(plan.cost, 2, "the small mats come out of the windows");
    assert!(plan.bound.proved, "and nothing can be cheaper");
    assert_eq!(plan.patterns.last().map(|p| p.stock), Some(1), "drop-outs come last");
}

/// Source: Farley (1990): costs that share no measure leave the bound as it is.
#[test]
fn mixed_costs_round_to_what_they_share() {
    let mut problem = sound();
    problem.stages = Stages::Any;
    problem.stocks = vec![
        stock("large", 320, 256, 1000, Supply::Unlimited),
        stock("small", 160, 128, 270, Supply::Unlimited),
    ];
    let plan = solved(&problem);
    assert_eq!(plan.bound.cost % 10, 0, "the costs share 10");
    assert_eq!(plan.cost, 2000, "two large sheets");
}

/// Source: RFC 4180 for the table; common practice for the words.
#[test]
fn tables_that_cannot_be_read() {
    let messages =
        |table: &str| instance::read(table.as_bytes(), "a", true).unwrap_err().to_string();
    assert_eq!(
        messages("instance,kind,width\na,sheet,1"),
        "the table has no column height: the first line must name instance, kind, width and \
         height (copies and cost where there are any)",
        "heading"
    );
    assert_eq!(
        messages("instance,kind,width,height\na,sheet,1,x"),
        "line 2, column height: found \"x\", expected a whole number. Correct it",
        "number"
    );
    assert_eq!(
        messages("instance,kind,width,height\na,board,1,2"),
        "line 2, column kind: found \"board\", expected sheet or piece. Correct it",
        "kind"
    );
    assert_eq!(
        messages("instance,kind,width,height\nb,sheet,1,2"),
        "the table has no instance a; it has b. Choose one of these",
        "name"
    );
    let table = "kind,\"instance\",height,width,cost\r\nsheet,a,10,20,\r\npiece,a,3,4,\r\n";
    let problem = instance::read(table.as_bytes(), "a", true).unwrap().problem;
    assert_eq!((problem.stocks[0].width, problem.stocks[0].cost), (20, 1), "sheet");
    assert_eq!((problem.pieces[0].width, problem.pieces[0].copies), (4, 1), "piece");
}

/// Source: common practice: who mends a table mends all of it at once.
#[test]
fn every_bad_row_is_reported_and_the_rest_planned() {
    let table = "instance,kind,width,height,copies\n\
                 a,sheet,32,40,\na,sheet,x,40,\na,piece,8,10,-2\na,piece,8,10,0\na,piece,8,10,3\n";
    let read = instance::read(table.as_bytes(), "a", true).unwrap();
    let messages: Vec<String> = read.bad.iter().map(ToString::to_string).collect();
    assert_eq!(
        messages,
        [
            "line 3, column width: found \"x\", expected a whole number. Correct it",
            "line 4, column copies: found \"-2\", expected a count of 1 or more. Correct it",
            "line 5, column copies: found \"0\", expected a count of 1 or more. Correct it",
        ]
    );
    assert_eq!((read.problem.stocks.len(), read.problem.pieces.len()), (1, 1), "the rest");
    let nothing =
        "instance,kind,width,height,copies\na,sheet,32,40,\na,piece,8,10,0\na,piece,8,y,1\n";
    let error = instance::read(nothing.as_bytes(), "a", true).unwrap_err().to_string();
    assert!(error.contains("line 3") && error.contains("line 4"), "{error}");
}

/// Source: common practice: lengths in fine units, or a printer's run, must not hang the solver.
#[test]
fn huge_numbers_are_planned_all_the_same() {
    let mut problem = Problem { stages: Stages::Any, ..Problem::default() };
    problem.stocks.push(stock("board", 812_799_999, 1_015_999_997, 1250, Supply::Unlimited));
    for index in 0..30 {
        let (width, height) =
            (80_000_007 + 9_700_001 * index, 101_000_003 + 12_300_007 * index);
        let copies = 20 + 3 * u32::try_from(index).unwrap();
        problem.pieces.push(piece(&format!("mat {index}"), width, height, copies));
    }
    let plan = solved(&problem);
    assert!(plan.bound.gap < 0.2, "gap {}", plan.bound.gap);
    let mut problem = sound();
    problem.pieces[0].copies = 600_000;
    problem.pieces.push(piece("Study, window mat", 88, 112, 400_000));
    let plan = solved(&problem);
    assert!(plan.bound.gap < 0.01, "gap {}", plan.bound.gap);
}
