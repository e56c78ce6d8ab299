//! Small shows worked out by hand.

use sightedge_core::command::{Command, apply};
use sightedge_core::geometry::{Rect, Sides, Size};
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_core::spec::{
    BoardBy, Document, Layer, LayerId, Limits, Picture, Placement, Start,
};
use sightedge_cutting::{Cut, Effort, Stages, Supply, solve_quietly};

use super::materials::{Prices, materials};
use super::model::{BoardPlan, Cutting, Sheet, Shop};
use super::{DropOuts, Manner, Taken, counted, jobs, narrower};

fn inches(n: i64) -> Length {
    Length::inches(n, 0, 1)
}

/// A sheet of 6 × 8 in in a mat so large, centred.
pub(super) fn plan(width: i64, height: i64) -> Document {
    let sheet = Size::new(inches(6), inches(8));
    let picture = Picture {
        path: "slack-water.jpg".to_owned(),
        sha256: "0".repeat(64),
        width_px: 2400,
        height_px: 3200,
    };
    let image = Rect::at_origin(sheet);
    let start = Start { id: "sample".to_owned(), unit: Unit::Inch, picture, sheet, image };
    let mut document = start.plan(Tables::shipped());
    let size = Size::new(inches(width), inches(height));
    document.variants[0].mat.board_by = BoardBy::Outer { size, placement: Placement::Centred };
    document
}

fn shop(sheets: &[(i64, i64)]) -> Shop {
    let sheet = |(width, height): &(i64, i64)| Sheet {
        width: inches(*width).units(),
        height: inches(*height).units(),
        ..Sheet::default()
    };
    Shop { sheets: sheets.iter().map(sheet).collect(), ..Shop::usual(Unit::Inch) }
}

fn cut(plans: &[(String, Document, u32)], shop: &Shop) -> Cutting {
    let jobs = jobs(&counted(plans), &shop.stock(), shop.manner());
    let boards = jobs.iter().map(|job| {
        let plan = solve_quietly(&job.problem, Effort::seconds(1));
        BoardPlan::new(job, plan, shop, Unit::Inch)
    });
    Cutting { boards: boards.collect(), ..Cutting::default() }
}

/// Source: by hand. Mat and backing of 16 × 20 in out of 32 1/4 × 40 1/4 in with 1/8 in of
/// trim: one cut makes two parts, the first of them one long.
#[test]
fn cuts_come_in_their_order_with_their_stops() {
    let plans = [("ebb".to_owned(), plan(16, 20), 2)];
    let mut shop = shop(&[(0, 0)]);
    shop.sheets[0].width = Length::inches(32, 1, 4).units();
    shop.sheets[0].height = Length::inches(40, 1, 4).units();
    let cutting = cut(&plans, &shop);
    let [board] = cutting.boards.as_slice() else { panic!("{} boards", cutting.boards.len()) };
    assert_eq!(board.counts().to_string(), "1 sheet to buy");
    assert_eq!(board.faults(), Vec::<String>::new());
    assert_eq!(board.bound(), "No plan can use fewer than 1 sheet.");
    let sequence = cutting.sequence(0, 0).unwrap();
    let steps = &sequence.cuts;
    assert_eq!(steps.len(), 3, "{steps:?}");
    let set_at = |at: usize| board.length(steps[at].stop);
    assert!(steps[0].stage == 1 && steps[1].stage == 2 && steps[2].stage == 2, "{steps:?}");
    let first = if steps[0].cut == Cut::Upright { inches(16) } else { inches(20) };
    assert_eq!(set_at(0), first);
    assert_eq!(set_at(1) + set_at(0), inches(36));
    // Each cut is on a piece with a name: the sheet, then both halves of it.
    let teller = board.teller(Unit::Inch, str::to_owned);
    assert_eq!(
        teller.first(&sequence).unwrap(),
        "A, 32 1/4 × 40 1/4 in, trim 1/8 in off each edge: A, 32 × 40 in"
    );
    let told = [0, 1, 2].map(|cut| teller.cut(&sequence, cut).unwrap());
    let [half, edges] = if first == inches(16) {
        ["16 × 40 in", "left lower lower"]
    } else {
        ["32 × 20 in", "lower left left"]
    };
    let found: Vec<&str> = told.iter().map(|cut| cut.edge.trim_end_matches(" edge")).collect();
    assert_eq!(found.join(" "), edges);
    assert_eq!(told[0].piece, "A, 32 × 40 in");
    assert_eq!(told[0].falls, ["A1", "A2"].map(|name| format!("{name}, {half}")));
    assert_eq!(told[1].piece, format!("A1, {half}"));
    assert_eq!(told[2].piece, format!("A2, {half}"));
    for (at, fell) in told[1].falls.iter().chain(&told[2].falls).enumerate() {
        assert!(fell.starts_with(&format!("A{}, 16 × 20 in, ebb, ", at + 3)), "{fell}");
    }
    let line = told[1].line();
    let edge = if first == inches(16) { "lower edge" } else { "left edge" };
    let begin = format!("A1, {half}, {edge} against the stop, stop {}", told[1].stop);
    assert!(line.starts_with(&begin), "{line}");
    assert_eq!(
        teller.sheet(0),
        format!("{}, 32 1/4 × 40 1/4 in, sheet 1", board.name),
        "board and stock size with every cut"
    );
    // Three cuts and four trims: 32 + 2 x 20 or 40 + 2 x 16, and twice 32 1/4 + 40 1/4.
    let totals = board.totals();
    assert_eq!(totals.cuts, 7);
    let long = board.length(i64::try_from(totals.cut_length).unwrap());
    assert_eq!(long, inches(217));
    assert!((0.0..0.02).contains(&totals.waste), "{}", totals.waste);
}

/// Source: by hand. Of 33 × 41 in one mat and one backing of 16 × 20 in are cut; offcuts cost
/// nothing, so the next job takes them first.
#[test]
fn what_is_left_is_stock_and_used_first() {
    let plans = [("ebb".to_owned(), plan(16, 20), 1)];
    let mut shop = shop(&[(33, 41)]);
    shop.sheets[0].in_hand = Some(3);
    let mut cutting = cut(&plans, &shop);
    assert!(!cutting.is_cut(), "nothing is ticked");
    cutting.boards[0].cut.fill(1);
    assert!(cutting.is_cut(), "all is ticked");
    shop.settle(&mut cutting);
    assert_eq!(shop.sheets[0].in_hand, Some(2));
    let offcuts: Vec<&Sheet> = shop.sheets.iter().filter(|sheet| sheet.offcut).collect();
    assert!(!offcuts.is_empty(), "{:?}", shop.sheets);
    let storage = shop.keep_from;
    assert!(offcuts.iter().all(|o| o.width.min(o.height) >= storage), "{offcuts:?}");
    // A small mat with its backing comes out of them.
    let small = [("mooring".to_owned(), plan(12, 14), 1)];
    let next = cut(&small, &shop);
    assert_eq!((next.boards[0].plan.cost, next.boards[0].faults()), (0, Vec::new()));
    assert!(next.is_whole(), "what is kept fits together");
    let mut damaged = next;
    damaged.boards[0].cut.clear();
    assert!(!damaged.is_whole(), "a list too short is seen");
}

/// Source: by hand. 16 1/8 is the most that goes twice into 32 1/4 in; 1/8 in of trim on each
/// edge leaves 32: mats of 16 1/16 × 20 need a sheet each, less a sixteenth on each side they
/// share one.
#[test]
fn a_step_narrower_saves_a_sheet_unless_a_check_forbids_it() {
    let mut document = plan(16, 20);
    let size = Size::new(Length::inches(16, 1, 16), Length::inches(20, 1, 16));
    document.variants[0].mat.board_by = BoardBy::Outer { size, placement: Placement::Centred };
    let mut shop = shop(&[(0, 0)]);
    shop.sheets[0].width = Length::inches(32, 1, 4).units();
    shop.sheets[0].height = Length::inches(40, 1, 4).units();
    let plans = [("ebb".to_owned(), document.clone(), 2)];
    let most = Length::inches(0, 1, 8);
    let offers = |plans: &[(String, Document, u32)], most| {
        let mut shown = narrower::Sum::default();
        let now = cut(plans, &shop);
        for board in &now.boards {
            shown.add(&board.problem, &board.plan);
        }
        narrower::offers(
            plans,
            (&shop.stock(), shop.manner(), Tables::shipped()),
            most,
            shown,
            &mut || false,
        )
    };
    let found = offers(&plans, most);
    let step = document.ruler.step();
    assert_eq!(found.first().map(|o| (o.plan, o.by)), Some((Some(0), step)), "{found:?}");
    assert!(found[0].sheets >= 1, "{found:?}");
    // Each mat before and after, and what it saves, is known before anything is changed.
    let [change] = found[0].changes.as_slice() else { panic!("{found:?}") };
    let (outer, borders) =
        (change.faces.map(|face| face.outer), change.faces.map(|f| f.borders));
    let smaller = Size::new(size.width - step * 2, size.height - step * 2);
    assert_eq!((change.plan, change.by, outer), (0, step, [size, smaller]));
    assert_eq!(borders[0].left - borders[1].left, step);
    let [board, border] = change.told(Unit::Inch);
    assert_eq!(board, "board 16 1/16 × 20 1/16 in → 15 15/16 × 19 15/16 in");
    assert!(border.starts_with("top mat’s borders ") && border.contains(" → "), "{border}");
    let [before, after] = found[0].sums;
    assert_eq!(before.sheets - after.sheets, found[0].sheets);
    let words = format!(" instead of {}, ", before.sheets);
    assert!(found[0].comes_to().contains(&words), "{}", found[0].comes_to());
    assert!(offers(&plans, Length::ZERO).is_empty(), "nothing may be given");
    // The border is held to what the person allows.
    let (width, _) = (size.width - inches(6)).halves();
    let least_border = Some(width + inches(1));
    document.variants[0].mat.limits = Limits { least_border, ..Limits::default() };
    let borders = Sides::all(width + inches(1));
    document.variants[0].mat.board_by = BoardBy::Borders(borders);
    assert_eq!(
        narrower::narrower(&document, step, Tables::shipped()),
        None,
        "a check would be the worse"
    );
    // A strip of 1/2 in is narrow already; less than half of what holds is graver.
    let mut narrow = plan(6, 8);
    let wide = |n: i64| Length::inches(n, 3, 4);
    let size = Size::new(wide(6), wide(8));
    narrow.variants[0].mat.board_by = BoardBy::Outer { size, placement: Placement::Centred };
    assert_eq!(narrower::narrower(&narrow, step, Tables::shipped()), None, "caution to stop");
}

/// Source: by hand, the same on sheets of 32 × 40 in whose edges are used as they come: the three
/// cuts alone, 32 + 2 x 20 or 40 + 2 x 16 in.
#[test]
fn an_edge_that_is_not_trimmed_is_no_cut() {
    let plans = [("ebb".to_owned(), plan(16, 20), 2)];
    let shop = Shop { trim: 0, ..shop(&[(32, 40)]) };
    let cutting = cut(&plans, &shop);
    let board = &cutting.boards[0];
    let totals = board.totals();
    assert_eq!(totals.cuts, 3);
    assert_eq!(board.length(i64::try_from(totals.cut_length).unwrap()), inches(72));
}

/// What is just long enough is kept, and what comes of a second job is added to what is there.
#[test]
fn offcuts_are_kept_and_added_up() {
    let plans = [("ebb".to_owned(), plan(16, 20), 1)];
    let mut shop = shop(&[(33, 41)]);
    let cutting = cut(&plans, &shop);
    let board = &cutting.boards[0];
    let one = Length::from_units(1);
    let all = board.offcuts(one);
    let least = all.iter().map(|(width, height, _)| *width.min(height)).min().unwrap();
    assert_eq!(board.offcuts(least), all);
    assert!(board.offcuts(least + one).len() < all.len());
    let in_hand = |shop: &Shop| {
        let offcuts = shop.sheets.iter().filter(|sheet| sheet.offcut);
        offcuts.map(|sheet| sheet.in_hand.unwrap()).collect::<Vec<_>>()
    };
    // The same show cut twice.
    shop.settle(&mut cutting.clone());
    let first = in_hand(&shop);
    assert!(!first.is_empty() && !first.contains(&0), "{first:?}");
    shop.settle(&mut cutting.clone());
    assert_eq!(in_hand(&shop), first.iter().map(|count| count * 2).collect::<Vec<_>>());
}

#[test]
fn no_drop_out_is_stock_before_it_is_asked_for() {
    for unit in [Unit::Inch, Unit::Millimetre] {
        let shop = Shop::usual(unit);
        assert!(!shop.drop_outs && !shop.taped_back, "{unit:?}");
    }
}

/// Source: by hand, from the rules of the package: a bag is 1/4 in larger each way; tape from
/// mat to backing runs along the long side.
#[test]
fn materials_of_two_bagged_pieces() {
    let plans = [("ebb".to_owned(), plan(16, 20), 2)];
    let prices = Prices { glazing: None, tape: Some(90), bag: Some(35) };
    let lines = materials(&counted(&plans), Unit::Inch, prices, Tables::shipped());
    let of = |what: &str| lines.iter().find(|line| line.what == what).cloned();
    let bag = of("Bags, inside at least").unwrap();
    assert_eq!((bag.amount.as_str(), bag.cost), ("2 of 16 1/4 × 20 1/4 in", Some(70)));
    let tape = of("Tape, mat to backing").unwrap();
    // 2 x 20 in are 1.11 yards.
    assert_eq!((tape.amount.as_str(), tape.cost), ("1.2 yd", Some(100)));
}

#[test]
fn an_offcut_without_a_count_is_one() {
    let mut shop = shop(&[(20, 24)]);
    shop.sheets[0].offcut = true;
    let plans = [("ebb".to_owned(), plan(16, 20), 1)];
    let jobs = jobs(&counted(&plans), &shop.stock(), Manner::new(Stages::Any, DropOuts::None));
    let stock = &jobs[0].problem.stocks[0];
    assert_eq!((stock.cost, stock.supply), (0, Supply::InHand(1)));
}

/// Source: by hand: a board with a pattern and one without are two boards, though their names
/// are one; what is left of the first is no stock for the second.
#[test]
fn boards_of_one_name_share_no_offcuts() {
    let patterned = |turns: bool| {
        let mut document = plan(16, 20);
        let mat = &mut document.variants[0].mat;
        for layer in &mut mat.layers {
            layer.board.turns = turns;
        }
        mat.backing.board = mat.layers[0].board.clone();
        [("ebb".to_owned(), document, 1)]
    };
    let mut shop = shop(&[(33, 41)]);
    shop.settle(&mut cut(&patterned(false), &shop));
    let offcuts = |shop: &Shop| shop.sheets.iter().filter(|s| s.offcut).count();
    assert!(offcuts(&shop) > 0, "{:?}", shop.sheets);
    for (turns, cuts_them) in [(false, true), (true, false)] {
        let plans = patterned(turns);
        let manner = Manner::new(Stages::Any, DropOuts::None);
        let jobs = jobs(&counted(&plans), &shop.stock(), manner);
        let found = jobs[0].problem.stocks.iter().any(|s| s.name.starts_with("offcut"));
        assert_eq!(found, cuts_them, "turns: {turns}");
    }
}

/// Source: by hand: one offcut that any board may be cut from, and two boards that want it.
#[test]
fn what_one_board_takes_is_gone_for_the_next() {
    let mut two = plan(16, 20);
    let mat = &mut two.variants[0].mat;
    mat.backing.board = mat.layers[0].board.clone();
    mat.backing.board.name = "Another board".to_owned();
    mat.backing.board.id = "another".to_owned();
    let mut shop = shop(&[(17, 21), (33, 41)]);
    (shop.sheets[0].offcut, shop.sheets[0].in_hand) = (true, Some(1));
    let plans = [("ebb".to_owned(), two, 1)];
    let jobs = jobs(&counted(&plans), &shop.stock(), Manner::new(Stages::Any, DropOuts::None));
    assert_eq!(jobs.len(), 2, "two boards");
    let (mut taken, mut free) = (Taken::default(), 0);
    for job in jobs {
        let job = taken.rest(job);
        let plan = solve_quietly(&job.problem, Effort::seconds(1));
        taken.add(&job, &plan);
        free += u32::from(plan.cost == 0);
    }
    assert_eq!(free, 1, "one of them gets it");
}

/// Source: common practice: what falls from the top mat is taped back into its window while the
/// undermat is cut through it.
#[test]
fn taped_back_drop_outs_are_stock_only_when_asked_for() {
    let mut document = plan(16, 20);
    let variant = &document.variants[0];
    let layer = Layer { id: LayerId(7), ..variant.mat.layers[0].clone() };
    let add = Command::AddLayer(variant.id, layer, Sides::all(Length::inches(0, 1, 4)));
    apply(&mut document, &add).unwrap();
    let plans = [("ebb".to_owned(), document, 1)];
    let drop_outs = |drop_outs| {
        let manner = Manner::new(Stages::Any, drop_outs);
        let jobs = jobs(&counted(&plans), &shop(&[(33, 41)]).stock(), manner);
        let mut found = Vec::new();
        for job in &jobs {
            for stock in &job.problem.stocks {
                if let Supply::Window { piece, .. } = stock.supply {
                    found.push(job.problem.pieces[piece].name.clone());
                }
            }
        }
        found
    };
    assert_eq!(drop_outs(DropOuts::None), Vec::<String>::new());
    assert_eq!(drop_outs(DropOuts::Free), ["ebb, undermat 1"], "the innermost window");
    assert_eq!(drop_outs(DropOuts::All), ["ebb, mat", "ebb, undermat 1"], "and the taped back");
}

/// Source: by hand. Two mats and two backings of 16 × 20 in; a bought sheet of 33 × 41 holds
/// four, an offcut of 17 × 21 one: with three offcuts in hand one sheet more is bought, and no
/// plan buys fewer; the offcuts are no sheets to buy.
#[test]
fn sheets_to_buy_and_offcuts_in_hand_are_counted_apart() {
    let plans = [("ebb".to_owned(), plan(16, 20), 2)];
    let mut shop = shop(&[(33, 41), (17, 21)]);
    (shop.sheets[1].offcut, shop.sheets[1].in_hand) = (true, Some(3));
    let cutting = cut(&plans, &shop);
    let board = &cutting.boards[0];
    let counts = board.counts();
    assert_eq!(counts.bought, 1, "{counts}");
    assert!(counts.to_string().starts_with("1 sheet to buy"), "{counts}");
    assert_eq!(board.bound(), "No plan can buy fewer than 1 sheet.");
    // Whole sheets in hand that have a price are counted by the bound, too.
    shop.sheets.push(Sheet { in_hand: Some(1), ..shop.sheets[0].clone() });
    let both = cut(&plans, &shop);
    assert_eq!(
        both.boards[0].bound(),
        "No plan can use fewer than 1 sheet, offcuts not counted."
    );
    shop.sheets.remove(1);
    assert_eq!(cut(&plans, &shop).boards[0].bound(), "No plan can use fewer than 1 sheet.");
}

/// Source: by hand. Four mats and four backings of 16 × 20 in, four a sheet of 32 1/4 × 40 1/4 in:
/// two sheets. One is cut; the other three plans' worth is planned alone.
#[test]
fn what_is_cut_stays_and_only_the_rest_is_planned() {
    let plans = [("ebb".to_owned(), plan(16, 20), 4)];
    let mut shop = shop(&[(0, 0)]);
    let quarter = Length::inches(0, 1, 4).units();
    (shop.sheets[0].width, shop.sheets[0].height) =
        (inches(32).units() + quarter, inches(40).units() + quarter);
    shop.sheets[0].in_hand = Some(2);
    let mut first = cut(&plans, &shop);
    let sheets = |cutting: &Cutting| -> u64 {
        cutting.boards.iter().map(|board| board.plan.sheets).sum()
    };
    let pieces = |boards: &[BoardPlan]| -> u32 {
        boards.iter().flat_map(|board| &board.problem.pieces).map(|piece| piece.copies).sum()
    };
    let all = pieces(&first.boards);
    assert!(first.done().is_empty() && first.ticked() == 0);
    first.boards[0].cut[0] = 1;
    let names: Vec<_> =
        first.sequence(0, 0).unwrap().pieces.into_iter().map(|p| p.name).collect();
    let done = first.done();
    assert_eq!((done.len(), first.ticked()), (1, 1));
    assert_eq!(done[0].faults(), Vec::<String>::new());
    let made = pieces(&done);
    assert!(made > 0 && made < all, "{made} of {all}");
    assert_eq!(shop.without(&done).sheets[0].in_hand, Some(1), "the sheet is used");

    let left = shop.without(&done);
    let jobs = super::jobs_after(&done, &counted(&plans), &left.stock(), left.manner());
    let rest: Vec<BoardPlan> = jobs
        .iter()
        .map(|job| {
            let plan = solve_quietly(&job.problem, Effort::seconds(1));
            BoardPlan::new(job, plan, &left, Unit::Inch)
        })
        .collect();
    assert_eq!(pieces(&rest), all - made, "what is cut is not cut again");
    let whole =
        Cutting { boards: done.into_iter().chain(rest).collect(), ..Cutting::default() };
    assert!(whole.is_whole() && !whole.is_cut());
    assert_eq!(sheets(&whole), sheets(&first), "no sheet more than before");
    // What is pencilled on the backs stays true, and no other sheet has that letter.
    let again: Vec<_> =
        whole.sequence(0, 0).unwrap().pieces.into_iter().map(|p| p.name).collect();
    assert_eq!(again, names);
    assert_ne!(whole.sequence(1, 0).unwrap().pieces[0].name, names[0]);
    // A third search goes on from there.
    assert_eq!(pieces(&whole.done()), made);
    let mut undone = whole;
    undone.untick();
    assert!(undone.done().is_empty());
}

/// Each sheet's offcut goes into the stock as the sheet is cut, once, and is not undone by a tick.
#[test]
fn offcuts_go_into_the_stock_sheet_by_sheet() {
    let plans = [("ebb".to_owned(), plan(16, 20), 1)];
    let mut shop = shop(&[(40, 60)]);
    shop.sheets[0].in_hand = Some(5);
    let mut cutting = cut(&plans, &shop);
    let keep_from = Length::from_units(shop.keep_from);
    let board = &mut cutting.boards[0];
    assert_eq!(board.unsettled(0), 0);
    board.cut[0] = 1;
    let left = board.offcuts_of(0, 1, keep_from);
    assert!(!left.is_empty(), "{board:?}");
    shop.settle_cut(board, 0);
    assert_eq!((board.unsettled(0), board.settled(0)), (0, 1));
    assert_eq!(shop.sheets[0].in_hand, Some(4), "the sheet is out of the stock");
    let offcuts = |shop: &Shop| {
        shop.sheets.iter().filter(|it| it.offcut).filter_map(|it| it.in_hand).sum::<u32>()
    };
    let kept = offcuts(&shop);
    assert_eq!(kept, left.iter().map(|one| one.2).sum::<u32>());
    shop.settle_cut(board, 0);
    assert_eq!(offcuts(&shop), kept, "once is enough");
    cutting.untick();
    assert_eq!(cutting.boards[0].cut[0], 1, "what is in the stock stays cut");
    shop.settle(&mut cutting);
    assert_eq!((offcuts(&shop), shop.sheets[0].in_hand), (kept, Some(4)));
}
