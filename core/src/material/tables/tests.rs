use super::*;

#[test]
fn what_ships_can_be_read() {
    for (name, text) in [
        ("outer", include_str!("../../../../assets/tables/outer-sizes.ron")),
        ("sheets", include_str!("../../../../assets/tables/print-sheets.ron")),
        ("boards", include_str!("../../../../assets/tables/boards.ron")),
        ("papers", include_str!("../../../../assets/tables/papers.ron")),
        ("tissues", include_str!("../../../../assets/tables/tissues.ron")),
        ("glazing", include_str!("../../../../assets/tables/glazing.ron")),
        ("frames", include_str!("../../../../assets/tables/frames.ron")),
        ("bags", include_str!("../../../../assets/tables/bags.ron")),
        ("steps", include_str!("../../../../assets/tables/steps.ron")),
    ] {
        let read = Tables::read(text);
        assert!(read.is_ok(), "{name}: {read:?}");
    }
    let shipped = Tables::shipped();
    assert!(shipped.board("cotton-4-white").is_some(), "the usual board");
    assert_eq!(
        shipped.largest_stock(),
        Some(Size::new(Length::inches(40, 0, 1), Length::inches(60, 0, 1)))
    );
}

#[test]
fn a_wrong_entry_is_refused_with_field_and_reason() {
    let wrong = |text: &str| Tables::read(text).map_err(|e| e.to_string());
    assert_eq!(
        wrong("(outer: [(name: \"odd\", size: \"16x\", origin: \"\")])"),
        Err("odd, size: give a unit, as in 16x20in or 400x500mm".to_owned())
    );
    let board = |colour: &str, thickness: &str, grade: &str| {
        wrong(&format!(
            "(boards: [(id: \"b\", name: \"\", colour: \"{colour}\", \
             thickness: \"{thickness}\", grade: \"{grade}\")])"
        ))
    };
    assert_eq!(
        board("white", "1 mm", "unknown"),
        Err("b, colour: \"white\" is not a colour: try #f4f1ea".to_owned())
    );
    assert_eq!(
        board("#fff", "0 mm", "unknown"),
        Err("b, thickness: 0 mm is not a board's thickness: use 0.05 to 30 mm".to_owned())
    );
    assert!(board("#fff", "1 mm", "fine").is_err_and(|e| e.contains("is not a grade")));
    let frame = |depth: &str, lip: &str| {
        wrong(&format!(
            "(frames: [(id: \"f\", name: \"\", rabbet_depth: {depth}, lip: \"{lip}\", \
             face: \"20mm\", mass_g_per_m: 3, origin: \"\")])"
        ))
    };
    assert!(frame("Some(\"12mm\")", "6mm").is_ok());
    assert!(frame("None", "6mm").is_ok());
    assert_eq!(frame("None", "6"), Err("f, lip: give a unit, as in 1/4in or 6mm".to_owned()));
    assert_eq!(
        frame("None", "30mm"),
        Err("f, face: 20mm is out of range: use 30 mm to 500 mm".to_owned())
    );
    let paper = |along: &str, fibre: &str| {
        wrong(&format!(
            "(papers: [(id: \"p\", name: \"\", fibre: \"{fibre}\", process: \"inkjet\", \
             mass_gsm: None, thickness: None, white: None, along: Some(\"{along}\"), \
             across: None, water_based: true, pencil: true, origin: \"\")])"
        ))
    };
    assert!(paper("0.01", "cotton").is_ok());
    assert_eq!(
        paper("lots", "cotton"),
        Err("p, along: \"lots\" is not a growth: give percent per % RH, 0 to 1, as in 0.015"
            .to_owned())
    );
    assert!(paper("0.01", "silk").is_err_and(|e| e.starts_with("p, fibre: \"silk\"")));
    assert!(wrong("(boards: [(id: 3)])").is_err_and(|e| e.starts_with("line 1, column")));
}
