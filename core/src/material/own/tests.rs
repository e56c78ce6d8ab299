use super::*;

/// Every row that ships, taken as a person's own, is the same row.
#[test]
fn what_ships_can_be_edited() {
    let shipped = Tables::shipped();
    for kind in Kind::ALL {
        let mut own = OwnTables::default();
        for row in cells(shipped, *kind) {
            assert_eq!(row.len(), kind.fields().len(), "{kind:?}");
            let put = own.put(*kind, row.clone());
            assert!(put.is_ok(), "{row:?}: {put:?}");
        }
        let again = own.tables();
        assert_eq!(cells(&again, *kind), cells(shipped, *kind), "{kind:?}");
        assert_eq!(OwnTables::read(&own.text()), Ok(own), "{kind:?}");
    }
    assert_eq!(OwnTables::default().tables(), Tables::default());
}

fn paper(change: &[(usize, &str)]) -> Result<OwnTables, String> {
    let mut row = cells(Tables::shipped(), Kind::Papers).remove(0);
    for (column, text) in change {
        (*text).clone_into(&mut row[*column]);
    }
    let mut own = OwnTables::default();
    own.put(Kind::Papers, row).map(|()| own).map_err(|error| error.to_string())
}

#[test]
fn a_wrong_cell_is_refused_with_field_and_reason() {
    #[track_caller]
    fn case(column: usize, text: &str, wanted: &str) {
        let found = paper(&[(column, text)]).unwrap_err();
        assert!(found.contains(wanted), "{found}");
    }
    case(0, " ", "the row has no id");
    case(2, "silk", "cotton-300, fibre: \"silk\" is not known: use one of fibre, resin-coated");
    case(4, "heavy", "cotton-300, g/m²: \"heavy\" is not a whole number");
    case(4, "0", "cotton-300, mass_gsm: 0 is out of range: use 1 to 5000");
    case(5, "5", "cotton-300, thickness: give a unit");
    case(6, "white", "cotton-300, white: \"white\" is not a colour");
    case(7, "2", "cotton-300, along: \"2\" is not a growth");
    case(9, "maybe", "cotton-300, water-based: \"maybe\" is neither yes nor no");
    assert!(paper(&[(4, ""), (5, ""), (7, ""), (8, "")]).is_ok(), "not known");
}

#[test]
fn own_rows_replace_shipped_ones_and_can_be_removed() {
    let mut own = paper(&[(1, "Cotton \"as bought\" {x} \\ ☂"), (4, "315")]).unwrap();
    assert!(own.has(Kind::Papers, "cotton-300"));
    let merged = Tables::shipped().clone().with(own.tables());
    let found = merged.paper("cotton-300").unwrap();
    assert_eq!(
        (found.mass_gsm, found.name.as_str()),
        (Some(315), "Cotton \"as bought\" {x} \\ ☂")
    );
    assert_eq!(merged.papers.len(), Tables::shipped().papers.len());
    own.remove(Kind::Papers, "cotton-300");
    assert_eq!(own, OwnTables::default());
}

#[test]
fn a_board_tells_its_ply_mass_sheets_and_price() {
    let mut row = cells(Tables::shipped(), Kind::Boards).remove(0);
    for (column, text) in [(5, "4"), (6, "1100"), (7, "32x40in, 80x120cm"), (8, "14.50")] {
        text.clone_into(&mut row[column]);
    }
    let mut own = OwnTables::default();
    own.put(Kind::Boards, row.clone()).unwrap();
    let tables = own.tables();
    let facts = tables.facts(&row[0]).unwrap();
    assert_eq!((facts.ply, facts.sheets.len()), (Some(4), 2));
    assert_eq!(tables.board(&row[0]).and_then(|board| board.mass_gsm), Some(1100));
    for (column, text, wanted) in [
        (5, "99", "ply: 99 is out of range: use 1 to 24"),
        (7, "32x", "sheets: "),
        (8, "dear", "price: \"dear\" is not a price: give an amount, as in 14.50"),
    ] {
        let mut wrong = row.clone();
        text.clone_into(&mut wrong[column]);
        let error = own.put(Kind::Boards, wrong).unwrap_err().to_string();
        assert!(error.contains(wanted), "{error}");
    }
}

fn step(change: &[(usize, &str)]) -> Result<OwnTables, String> {
    let mut row = cells(Tables::shipped(), Kind::Steps).remove(3);
    for (column, text) in change {
        (*text).clone_into(&mut row[*column]);
    }
    let mut own = OwnTables::default();
    own.put(Kind::Steps, row).map(|()| own).map_err(|error| error.to_string())
}

#[test]
fn a_wrong_step_is_refused_with_field_and_reason() {
    #[track_caller]
    fn case(column: usize, text: &str, wanted: &str) {
        let found = step(&[(column, text)]).unwrap_err();
        assert!(found.starts_with(wanted), "{found}");
    }
    case(1, " ", "cut, title: a step needs one");
    case(
        1,
        "Cut {widow}",
        "cut, title: {widow} is not a figure of a plan: use one of backing, ",
    );
    case(
        2,
        "Window {widow}.",
        "cut, text: {widow} is not a figure of a plan: use one of backing, ",
    );
    case(2, "Window {window", "cut, text: the brace before \"window\" is not closed: add a }");
    case(3, "Mind {x}", "cut, cautions: {x} is not a figure");
    case(4, "later", "cut, when: \"later\" is not known: use one of never, to-cut, ");
    case(0, "cut 2", "cut 2, id: use small letters and -");
    assert!(step(&[(2, "Window {window}."), (3, ""), (4, "never")]).is_ok());
}

/// The order of work is a person's own; a step that it does not name stays behind the one that
/// was before it.
#[test]
fn steps_are_put_in_another_order() {
    let shipped = Tables::shipped();
    let ids = |own: &OwnTables| -> Vec<String> {
        let tables = shipped.clone().with(own.tables());
        tables.steps.into_iter().map(|row| row.id).collect()
    };
    let laid = |own: &OwnTables| shipped.clone().with(own.tables());
    let mut own = OwnTables::default();
    let plain = ids(&own);
    own.move_step(&laid(&own), &plain[0], true);
    own.move_step(&laid(&own), "nowhere", false);
    assert_eq!(own, OwnTables::default(), "nothing is before the first");
    own.move_step(&laid(&own), "sign", true);
    own.move_step(&laid(&own), "sign", true);
    let moved = ids(&own);
    let place = |ids: &[String], id: &str| ids.iter().position(|one| one == id);
    assert_eq!(place(&moved, "sign").map(|at| at + 2), place(&plain, "sign"));
    assert!(own.has_order());
    assert_eq!(OwnTables::read(&own.text()), Ok(own.clone()), "{}", own.text());
    // One of the person's own, added after the order was made, stands last.
    let mut with = own.clone();
    let mut row = cells(shipped, Kind::Steps).remove(0);
    "own".clone_into(&mut row[0]);
    with.put(Kind::Steps, row).unwrap();
    assert_eq!(ids(&with).last().map(String::as_str), Some("own"));
    with.move_step(&laid(&with), "own", true);
    with.remove(Kind::Steps, "own");
    assert_eq!(ids(&with).len(), plain.len());
    // Moved back, there is no order of one's own any more.
    own.move_step(&laid(&own), "sign", false);
    own.move_step(&laid(&own), "sign", false);
    assert_eq!((own.has_order(), ids(&own)), (false, plain));
    let partly = OwnTables::read("(steps_order: [\"cut\", \"inscribe\"])").unwrap();
    assert_eq!(ids(&partly)[..3], ["clear", "cut", "undermats"]);
}

/// Sizes of one's own are kept in the unit they are named in.
#[test]
fn sizes_of_ones_own() {
    let mut own = OwnTables::default();
    let row = ["house square", "254x254mm", "measured"].map(str::to_owned).to_vec();
    own.put(Kind::Outer, row.clone()).unwrap();
    let again = OwnTables::read(&own.text()).unwrap();
    assert_eq!(
        cells(&again.tables(), Kind::Outer),
        [["house square", "254 mmx254 mm", "measured"]]
    );
    let wrong = own.put(Kind::Stock, vec![row[0].clone(), "9".to_owned(), String::new()]);
    assert!(wrong.unwrap_err().to_string().starts_with("house square, size: give a unit"));
}

/// What a person wrote before a step had parts is one part, and is kept as such.
#[test]
fn a_step_of_one_text_still_opens() {
    let read = |text: &str| {
        OwnTables::read(&format!(
            "(steps: [(id: \"cut\", title: \"Cut\", text: {text}, cautions: [], when: \"\")])"
        ))
    };
    let own = read("\"Board {outer}; 3.5 in.\"").unwrap();
    assert_eq!(own.tables().steps[0].text, ["Board {outer}; 3.5 in."]);
    assert_eq!(OwnTables::read(&own.text()), Ok(own));
    let parts = read("[\"Board {outer};\", \"then rest.\"]").unwrap();
    assert_eq!(cells(&parts.tables(), Kind::Steps)[0][2], "Board {outer}; | then rest.");
    let wrong = read("7").unwrap_err().to_string();
    assert!(
        wrong.contains("text in quotes, or several such texts in square brackets"),
        "{wrong}"
    );
}
