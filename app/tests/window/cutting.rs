//! The place where a show is cut out of sheets.

use std::path::Path;

use egui::Key;
use sightedge::window::request::{AppCommand, Screen};
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};
use sightedge_core::spec::{BoardBy, Document, Placement};
use sightedge_service::cutting::model::{Cutting, Shop};
use sightedge_service::storage::Storage;

use crate::support::{Plans, Window, size};

/// Plans of three sizes on one board: by hand, 20 x 26 and its backing fill most of a
/// 32 x 40 in sheet each.
fn show() -> Plans {
    let plans = Plans::new();
    for (name, outer) in [("ebb.png", "20x26"), ("=1+2.png", "16x20"), ("mooring.png", "16x20")]
    {
        plans.plan(name, |document| {
            let (size, placement) = (size(outer), Placement::Centred);
            document.variants[0].mat.board_by = BoardBy::Outer { size, placement };
        });
    }
    plans
}

/// A folder where the stock is one size without limit, its search short.
fn state() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let mut shop = Shop::usual(Unit::Inch);
    shop.sheets.truncate(1);
    (shop.seconds, shop.give) = (1, 0);
    Storage::at(folder.path()).write("stock.ron", &shop).unwrap();
    folder
}

fn room(state: &Path, plan: Option<&Path>) -> Window {
    let files: Vec<&Path> = plan.into_iter().collect();
    let mut window = Window::new(Storage::at(state), 1.0, &files);
    let shortcut = Screen::Cutting.shortcut().unwrap();
    window.key_with(shortcut.modifiers, shortcut.logical_key);
    window
}

fn add(window: &mut Window, folder: &Path) {
    window.click("A folder of plans, or a plan");
    window.type_text(&folder.display().to_string());
    window.key(Key::Enter);
}

fn found(state: &Path) -> Cutting {
    Storage::at(state).read::<Cutting>("cutting.ron").0.unwrap()
}

#[test]
fn a_folder_becomes_sheets_with_a_bound_in_plain_words() {
    let (plans, state) = (show(), state());
    let mut window = room(state.path(), None);
    assert!(window.texts().contains("None yet: open a plan"), "{}", window.texts());
    add(&mut window, plans.folder());
    for name in ["=1+2.png", "ebb.png", "mooring.png"] {
        assert_eq!(window.field(&format!("How many of {name}")), "1");
    }
    window.click("Find the fewest sheets");
    // Three mats and three backings: 2 x (20 x 26) and 4 x (16 x 20) in.
    // Source: by hand. Two sheets have 2 x 1260 sq. in. within the trim, the pieces 2320;
    // beside 20 x 26 there is no place for 16 x 20 that leaves room for a second one.
    let texts = window.texts();
    assert!(texts.contains("3 sheets to buy"), "{texts}");
    assert!(texts.contains("No plan can use fewer than 3 sheets."), "{texts}");
    let cutting = found(state.path());
    let pieces: u32 =
        cutting.boards.iter().flat_map(|b| &b.problem.pieces).map(|p| p.copies).sum();
    assert_eq!(pieces, 6);
    // Twice as many of one: another search.
    window.type_in("How many of mooring.png", "3");
    window.key(Key::Enter);
    assert!(window.texts().contains("The plans have changed"), "{}", window.texts());
    window.click("Find the fewest sheets");
    assert!(!window.texts().contains("The plans have changed"), "{}", window.texts());
    let cutting = found(state.path());
    let pieces: u32 =
        cutting.boards.iter().flat_map(|b| &b.problem.pieces).map(|p| p.copies).sum();
    assert_eq!(pieces, 10);
}

#[test]
fn what_is_cut_survives_and_what_is_left_goes_into_the_stock() {
    let (plans, state) = (show(), state());
    let mut window = room(state.path(), None);
    add(&mut window, plans.folder());
    window.click("Find the fewest sheets");
    let sheets = found(state.path()).boards[0].plan.patterns.len();
    tick(&mut window);
    drop(window);
    let mut window = room(state.path(), None);
    let cutting = found(state.path());
    assert!(cutting.boards[0].cut[0] > 0, "the tick is kept: {:?}", cutting.boards[0].cut);
    assert!(!window.has("Put what is left into the stock"), "not all is cut");
    assert!(window.texts().contains("cut: only the rest is planned."), "{}", window.texts());
    for number in 1..sheets {
        let name = window
            .seen()
            .into_iter()
            .find(|one| {
                one.name.starts_with(&format!("{}: ", sightedge_cutting::letters(number)))
                    && one.rect.height() < 100.0
            })
            .unwrap();
        window.click_at(name.rect.center());
        tick(&mut window);
    }
    assert!(found(state.path()).is_cut(), "{:?}", found(state.path()).boards[0].cut);
    window.click("Put what is left into the stock");
    let shop = Storage::at(state.path()).read::<Shop>("stock.ron").0.unwrap();
    let offcuts = shop.sheets.iter().filter(|sheet| sheet.offcut);
    let least = offcuts.map(|sheet| sheet.width.min(sheet.height)).min();
    assert!(least.is_some_and(|side| side >= shop.keep_from), "{:?}", shop.sheets);
    assert!(!window.has("Put what is left into the stock"), "once is enough");
}

/// Ticks every copy of the sheet in front.
fn tick(window: &mut Window) {
    let boxes: Vec<_> = window
        .seen()
        .into_iter()
        .filter(|one| one.name == "cut" || one.name.starts_with("Cut, "))
        .collect();
    window.click_at(boxes.last().unwrap().rect.center());
}

#[test]
fn the_list_is_a_table_without_formulas_and_writes_over_nothing() {
    let (plans, state) = (show(), state());
    let mut window = room(state.path(), None);
    add(&mut window, plans.folder());
    window.click("Find the fewest sheets");
    for name in ["cutting list.csv", "cutting list 2.csv"] {
        window.click("Write table");
        let path = plans.folder().join(name);
        assert!(window.said().ends_with(&path.display().to_string()), "{}", window.said());
        let mut rows = csv::Reader::from_path(&path).unwrap();
        let rows: Vec<csv::StringRecord> = rows.records().map(Result::unwrap).collect();
        assert!(rows.iter().all(|row| row.len() == 17), "every row has every column");
        for cut in rows.iter().filter(|row| &row[5] == "cut") {
            let edge = ["left edge", "lower edge"].contains(&&cut[15]);
            let falls = cut[16].split(' ').all(|name| name.starts_with(&cut[14][..1]));
            assert!(edge && falls && !cut[14].is_empty(), "its piece, edge and parts: {cut:?}");
        }
        let pieces = rows.iter().filter(|row| &row[5] == "piece");
        let copies: u32 = pieces.map(|row| row[2].parse::<u32>().unwrap()).sum();
        assert_eq!(copies, 6);
        assert!(rows.iter().any(|row| row[7].starts_with("'=1+2")), "{rows:?}");
        let runs = |cell: &str| cell.starts_with(['=', '+', '@']);
        assert!(!rows.iter().any(|row| row.iter().any(runs)), "{rows:?}");
    }
}

/// Source: PDF 1.7 (ISO 32000-1) 7.5.2, the head of a file.
#[test]
fn the_paper_is_written_beside_the_list() {
    let (plans, state) = (show(), state());
    let mut window = room(state.path(), None);
    add(&mut window, plans.folder());
    window.click("Find the fewest sheets");
    window.click("Write sheets");
    let path = plans.folder().join("cutting list.pdf");
    assert!(window.said().ends_with(&path.display().to_string()), "{}", window.said());
    assert!(std::fs::read(&path).unwrap().starts_with(b"%PDF-1."), "a PDF");
}

#[test]
fn nonsense_is_refused_and_damage_is_put_aside() {
    let state = state();
    std::fs::write(state.path().join("cutting.ron"), "(boards: [(").unwrap();
    let mut window = room(state.path(), None);
    assert!(window.said().contains("cutting.ron cannot be read"), "{}", window.said());
    assert!(state.path().join("cutting.unreadable").exists(), "what was there is kept");
    for (field, typed, words) in [
        ("Sheet 1, price", "-3", "is no price"),
        ("Sheet 1, in hand", "some", "is no count"),
        ("Sheet 1, width", "0", "does not fit. Type a length from"),
        ("Width of cut (kerf)", "-1", "does not fit. Type a length from"),
        ("Width of cut (kerf)", "1e999", "is not a length"),
    ] {
        window.type_in(field, typed);
        window.key(Key::Enter);
        // A length is refused at its field, an amount or a count at the foot.
        let told = window.texts();
        assert!(told.contains(words), "{field} {typed}: {told}");
    }
    add(&mut window, Path::new("/nowhere/at all"));
    assert!(window.said().contains("/nowhere/at all"), "{}", window.said());
    let shop = Storage::at(state.path()).read::<Shop>("stock.ron").0.unwrap();
    assert_eq!((shop.sheets[0].price, shop.kerf), (None, 0));
}

#[test]
fn prices_and_stock_are_kept_and_a_piece_too_large_is_named() {
    let (plans, state) = (show(), state());
    let mut window = room(state.path(), None);
    window.type_in("Sheet 1, price", "12,5");
    window.key(Key::Enter);
    window.type_in("Sheet 1, width", "18");
    window.key(Key::Enter);
    window.type_in("Sheet 1, height", "24");
    window.key(Key::Enter);
    let shop = Storage::at(state.path()).read::<Shop>("stock.ron").0.unwrap();
    assert_eq!(shop.sheets[0].price, Some(1250));
    add(&mut window, plans.folder());
    window.click("Find the fewest sheets");
    let texts = window.texts();
    assert!(texts.contains("ebb.png, mat is"), "{texts}");
    assert!(texts.contains("fits no sheet"), "{texts}");
    // Four pieces of 16 x 20 in, one on a sheet of 18 x 24.
    assert!(texts.contains("50.00"), "{texts}");
}

#[test]
fn by_keys_alone_and_then_it_rests() {
    let (plans, state) = (show(), state());
    let plan = plans.folder().join("mooring.png.sightedge.ron");
    let mut window = room(state.path(), Some(&plan));
    for _ in 0..200 {
        if window.focused() == "Find the fewest sheets" {
            break;
        }
        window.key(Key::Tab);
    }
    assert_eq!(window.focused(), "Find the fewest sheets");
    window.key(Key::Enter);
    assert!(window.texts().contains("1 sheet"), "{}", window.texts());
    for _ in 0..200 {
        if window.focused() == "cut" {
            break;
        }
        window.key(Key::Tab);
    }
    window.key(Key::Space);
    assert!(found(state.path()).is_cut(), "ticked by a key");
    window.wait(3.0);
    window.frame();
    let shapes = window.shapes().to_vec();
    for _ in 0..20 {
        window.frame();
        assert_eq!(window.repaint_delay(), std::time::Duration::MAX);
        assert!(window.shapes() == shapes, "a frame differs");
    }
}

/// Source: by hand. Mats and backings of 16 × 20 in out of 32 1/4 × 40 1/4 in less 1/8 in of
/// trim all round: one cut through the sheet, and one through each half.
#[test]
fn each_cut_is_on_its_piece_alike_in_window_list_and_drawing() {
    let (plans, state) = (Plans::new(), state());
    plans.plan("ebb.png", |document| {
        let (size, placement) = (size("16x20"), Placement::Centred);
        document.variants[0].mat.board_by = BoardBy::Outer { size, placement };
    });
    sheets_for_four(state.path());
    let mut window = room(state.path(), None);
    add(&mut window, plans.folder());
    window.type_in("How many of ebb.png", "2");
    window.key(Key::Enter);
    window.click("Find the fewest sheets");
    let texts = window.texts();
    let trimmed =
        sightedge_service::wording::set("A, 32 1/4 × 40 1/4 in, trim 1/8 in off each edge");
    for words in ["1 sheet to buy", "A: sheet 1", &trimmed] {
        assert!(texts.contains(words), "{words}: {texts}");
    }
    let cutting = found(state.path());
    let sequence = cutting.sequence(0, 0).unwrap();
    let teller = cutting.boards[0].teller(Unit::Inch, sightedge_service::wording::set);
    assert_eq!(sequence.cuts.len(), 3, "{sequence:?}");
    for number in 0..3 {
        let line =
            format!("Cut {}: {}", number + 1, teller.cut(&sequence, number).unwrap().line());
        let row = window.find(&line).rect.center();
        assert!(line.contains(" against the stop, stop "), "{line}");
        // On the drawing, the stop is told with the piece that it is of.
        window.click_at(row);
        window.move_to(egui::pos2(1.0, 1.0));
        window.settle();
        let of = &sequence.pieces[sequence.cuts[number].of].name;
        let chip = format!("{of}: stop {}", teller.cut(&sequence, number).unwrap().stop);
        let texts = window.texts();
        assert!(texts.lines().any(|line| line == chip), "{chip}: {texts}");
    }
}

fn a_sixteenth_too_large(document: &mut Document) {
    let wide = Length::inches(16, 1, 16);
    let size = Size::new(wide, wide + Length::inches(4, 0, 1));
    document.variants[0].mat.board_by = BoardBy::Outer { size, placement: Placement::Centred };
}

/// 32 1/4 × 40 1/4 in alone, borders that may give an eighth.
fn sheets_for_four(state: &Path) {
    let mut shop = Shop::usual(Unit::Inch);
    shop.sheets.truncate(1);
    shop.sheets[0].width = Length::inches(32, 1, 4).units();
    shop.sheets[0].height = Length::inches(40, 1, 4).units();
    (shop.seconds, shop.give) = (1, Length::inches(0, 1, 8).units());
    Storage::at(state).write("stock.ron", &shop).unwrap();
}

fn wide(document: &Document) -> Length {
    match document.variants[0].mat.board_by {
        BoardBy::Outer { size, .. } => size.width,
        BoardBy::Borders(_) => Length::ZERO,
    }
}

/// Source: by hand. Of 16 1/16 × 20 1/16 in no more than three come out of 32 1/4 × 40 1/4 in
/// less 1/8 in of trim all round; a sixteenth narrower on each side, four.
#[test]
fn a_plan_that_is_not_open_is_opened_and_narrowed_and_undone() {
    let (plans, state) = (Plans::new(), state());
    plans.plan("ebb.png", a_sixteenth_too_large);
    sheets_for_four(state.path());
    let mut window = room(state.path(), None);
    add(&mut window, plans.folder());
    window.type_in("How many of ebb.png", "2");
    window.key(Key::Enter);
    window.click("Find the fewest sheets");
    let texts = window.texts();
    assert!(texts.contains("narrower on ebb.png save a sheet against this plan"), "{texts}");
    // First each mat before and after, and what it saves; nothing is changed by looking.
    assert!(!window.has("Open and narrow it"), "{texts}");
    window.click("Show what changes…");
    let texts = window.texts();
    let board =
        sightedge_service::wording::set("board 16 1/16 × 20 1/16 in → 15 15/16 × 19 15/16 in");
    for words in
        ["ebb.png, 2 mats", &board, "top mat’s borders ", "Saves: 1 sheet instead of 2"]
    {
        assert!(texts.contains(words), "{words}: {texts}");
    }
    assert_eq!(window.app().open_plans(), 0, "nothing was opened");
    window.click("Open and narrow it");
    let texts = window.texts();
    assert!(texts.contains("Narrowed: "), "{texts}");
    let step = window.session().document().ruler.step();
    assert_eq!(wide(window.document()) + step * 2, Length::inches(16, 1, 16));
    press(&mut window, &AppCommand::Undo);
    assert_eq!(wide(window.document()), Length::inches(16, 1, 16));
}

/// Source: by hand. Two of 16 1/16 × 20 1/16 in and two a sixteenth narrower on each side do not
/// come out of 32 × 40 in: both mats have to give.
#[test]
fn all_mats_are_narrowed_at_once_and_each_undone_by_itself() {
    let (plans, state) = (Plans::new(), state());
    let ebb = plans.plan("ebb.png", a_sixteenth_too_large);
    let flood = plans.plan("flood.png", a_sixteenth_too_large);
    sheets_for_four(state.path());
    let mut window = Window::new(Storage::at(state.path()), 1.0, &[&ebb, &flood]);
    let shortcut = Screen::Cutting.shortcut().unwrap();
    window.key_with(shortcut.modifiers, shortcut.logical_key);
    window.click("Find the fewest sheets");
    let texts = window.texts();
    assert!(texts.contains("narrower on all mats save a sheet against this plan"), "{texts}");
    window.click("Show what changes…");
    let texts = window.texts();
    for words in ["ebb.png, 1 mat", "flood.png, 1 mat", "Saves: 1 sheet instead of 2"] {
        assert!(texts.contains(words), "{words}: {texts}");
    }
    let board =
        sightedge_service::wording::set("board 16 1/16 × 20 1/16 in → 15 15/16 × 19 15/16 in");
    assert_eq!(texts.matches(&board).count(), 2, "each mat: {texts}");
    assert_eq!(window.steps(), (None, None), "nothing is changed by looking");
    window.click("Narrow them all");
    let texts = window.texts();
    // In the order in which they were opened, which is that of the disk.
    let said = ["Narrowed: ebb.png, flood.png.", "Narrowed: flood.png, ebb.png."];
    assert!(said.iter().any(|said| texts.contains(said)), "{texts}");
    let before = Length::inches(16, 1, 16);
    let narrow = before - window.document().ruler.step() * 2;
    assert_eq!(wide(window.document()), narrow, "the one in front");
    press(&mut window, &AppCommand::Undo);
    assert_eq!(wide(window.document()), before, "undone");
    press(&mut window, &AppCommand::NextPlan);
    assert_eq!(wide(window.document()), narrow, "the other is narrowed still");
    press(&mut window, &AppCommand::Undo);
    assert_eq!(wide(window.document()), before, "and undone by itself");
}

fn press(window: &mut Window, deed: &AppCommand) {
    let shortcut = deed.shortcut().unwrap();
    window.key_with(shortcut.modifiers, shortcut.logical_key);
}

#[test]
fn a_folder_that_is_dropped_is_a_show() {
    let (plans, state) = (show(), state());
    let mut window = Window::new(Storage::at(state.path()), 1.0, &[]);
    window.drop_files(&[plans.folder()]);
    for name in ["=1+2.png", "ebb.png", "mooring.png"] {
        assert_eq!(window.field(&format!("How many of {name}")), "1");
    }
}
