//! Out and in again: the same bytes. Texts meant to do harm stay texts.

use super::support::{TODAY, edition, fresh, issue, next, now};
use sightedge_studio::exchange::{TABLES, from_csv, from_ron, to_csv, to_ron};
use sightedge_studio::{
    Change, Correction, Dump, Issue, Kind, Money, NewEdition, NewFormat, NewWork, Note,
    PrintDetails, Record, State, TakenOver, Tier,
};

fn hostile() -> Vec<String> {
    [
        "",
        " ",
        "'); DROP TABLE print; --",
        "\" OR 1=1 --",
        "=cmd|' /C calc'!A0",
        "=HYPERLINK(\"http://x\",\"y\")",
        "+1",
        "-2+3",
        "@SUM(A1)",
        " =HYPERLINK(\"http://x\",\"y\")",
        "\u{a0}\u{3000}+1",
        "\u{200b}@SUM(A1)",
        "＝1+1",
        " ＋1",
        "－1",
        "＠SUM(A1)",
        "\n=1",
        "'quoted",
        "''twice",
        "\tTab",
        "\rReturn",
        "line\nline\r\nline",
        "a,b;c\"d\"",
        "\u{202e}gnp.tnirp\u{202c}",
        "\u{05e9}\u{05dc}\u{05d5}\u{05dd} 3/25",
        "\u{feff}mark",
        "e\u{301} \u{1f469}\u{200d}\u{1f3a8}",
        "\u{1}\u{7f}\u{85}",
        "%s%n{}\\x00\\",
        "NULL",
        "true",
        "1e999",
    ]
    .iter()
    .map(|text| (*text).to_owned())
    .chain(["ä".repeat(10_000), format!("={}", "1+".repeat(5_000)), "\u{202e}".repeat(10_000)])
    .collect()
}

fn full(record: &mut dyn Record) {
    for (n, text) in hostile().iter().enumerate() {
        let work = NewWork {
            title: text.clone(),
            maker: text.clone(),
            taken: Some(i64::try_from(n).unwrap()),
            printed: None,
            medium: text.clone(),
            process: text.clone(),
            paper: text.clone(),
            signed: text.clone(),
            authorised: text.clone(),
            master: text.clone(),
            others: text.clone(),
            picture: text.clone(),
            sha256: text.clone(),
            notes: text.clone(),
        };
        let work = record.add_work(&work, None, &Note::because(TODAY, text)).unwrap();
        let format = NewFormat { name: text.clone(), image_w: 5, ..NewFormat::default() };
        let id = record.add_format(work, &format, &now()).unwrap();
        let format = NewFormat { image_w: 6, ..format };
        record.correct_format(id, &format, &Note::because("2025-12-01", text)).unwrap();
        let of = NewEdition { format: Some(id), name: text.clone(), ..NewEdition::of(20, 10) };
        let edition = record.open_edition(work, &of, &now()).unwrap();
        let price = Money { cents: 5, currency: "EUR".into() };
        record.set_tier(&Tier { edition, from: 1, price }, &now()).unwrap();
        let stock = PrintDetails {
            place: text.clone(),
            buyer: text.clone(),
            plan: text.clone(),
            plan_file: text.clone(),
            printed: TODAY.into(),
            ..PrintDetails::default()
        };
        let print = record.issue(&Issue { stock, ..next(edition) }, &now()).unwrap();
        assert_eq!(record.print(print.id).unwrap().now.buyer, *text);
        if n % 2 == 0 {
            record.change(print.id, &Change::Void, &Note::because(TODAY, text)).unwrap();
        }
    }
    let (_, edition) = edition(record, 60);
    let sold = (1..=47).filter(|number| *number != 13).collect();
    let taken = TakenOver { edition, from: 1, to: 47, sold };
    record.take_over(&taken, &now()).unwrap();
    let proof = record.issue(&Issue { kind: Kind::Artist, ..next(edition) }, &now()).unwrap();
    let gone = Change::Move { to: State::Destroyed, place: None, buyer: None, price: None };
    record.change(proof.id, &gone, &now()).unwrap();
    record.replace(proof.id, &now()).unwrap();
    let mistaken = record.add_work(&NewWork::default(), None, &now()).unwrap();
    let withdrawn = Correction { withdrawn: Some(true), ..Correction::default() };
    record.correct(mistaken, &withdrawn, &Note::because(TODAY, "twice")).unwrap();
}

fn brought_in(dump: &Dump) -> Dump {
    let (_folder, mut opened) = fresh();
    opened.record().fill(dump).unwrap();
    assert_eq!(opened.read().check().unwrap(), Vec::<String>::new());
    opened.read().dump().unwrap()
}

#[test]
fn ron_out_in_out_is_the_same_to_the_byte() {
    let (_folder, mut opened) = fresh();
    full(opened.record());
    let first = to_ron(&opened.read().dump().unwrap()).unwrap();
    let read = from_ron(&first, "studio.ron").unwrap();
    let second = to_ron(&brought_in(&read)).unwrap();
    assert!(first == second, "the second export differs");
    assert!(first.len() > 100_000);
}

#[test]
fn csv_out_in_out_is_the_same_to_the_byte() {
    let (_folder, mut opened) = fresh();
    full(opened.record());
    let dump = opened.read().dump().unwrap();
    let first = to_csv(&dump).unwrap();
    let read =
        from_csv(|name| Ok(first.iter().find(|(file, _)| *file == name).unwrap().1.clone()))
            .unwrap();
    assert!(read == dump, "tables lose nothing");
    let second = to_csv(&brought_in(&read)).unwrap();
    assert!(first == second, "the second export differs");
    assert_eq!(first.iter().map(|table| table.0).collect::<Vec<_>>(), TABLES);
}

/// Whoever sorts the table of prints by another column gets the same record.
#[test]
fn a_print_may_stand_before_the_one_it_replaces() {
    let (_folder, mut opened) = fresh();
    full(opened.record());
    let dump = opened.read().dump().unwrap();
    let mut sorted = dump.clone();
    sorted.prints.reverse();
    assert!(brought_in(&sorted) == dump, "the order of the prints changed the record");
}

/// Source: OWASP, CSV Injection: cells that begin with = + - @, in full width, too, or with tab,
/// return or line feed are run; blanks before them are passed over.
#[test]
fn no_cell_of_text_is_a_formula() {
    let (_folder, mut opened) = fresh();
    full(opened.record());
    let mut cells = 0;
    for (name, table) in to_csv(&opened.read().dump().unwrap()).unwrap() {
        let mut reader =
            csv::ReaderBuilder::new().has_headers(false).from_reader(table.as_bytes());
        for row in reader.records() {
            for cell in &row.unwrap() {
                cells += 1;
                let unseen = |c: char| c.is_whitespace() || c.is_control() || c == '\u{200b}';
                let runs = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
                let formula = cell.trim_start_matches(unseen).starts_with(runs);
                let begins = cell.starts_with(['\t', '\r', '\n']);
                assert!(!formula && !begins, "{name}: {cell}");
            }
        }
    }
    assert!(cells > 1000, "{cells}");
}

#[test]
fn an_imported_record_continues_the_numbers() {
    let (_folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 5);
    issue(opened.record(), of);
    let dump = opened.read().dump().unwrap();
    let (_folder, mut second) = fresh();
    second.record().fill(&dump).unwrap();
    assert_eq!(issue(second.record(), of).number, 2);
    let again = second.record().fill(&dump).unwrap_err().to_string();
    assert!(again.starts_with("the record holds works already: import into a new"), "{again}");
    // The history writes itself again.
    assert!(second.read().dump().unwrap().history.len() > dump.history.len());
}

#[test]
fn a_contradictory_export_is_not_imported() {
    #[track_caller]
    fn case(change: impl FnOnce(&mut Dump), wanted: &str) {
        let (_folder, mut opened) = fresh();
        let (_, of) = edition(opened.record(), 5);
        issue(opened.record(), of);
        issue(opened.record(), of);
        let mut dump = opened.read().dump().unwrap();
        change(&mut dump);
        let (_folder, mut empty) = fresh();
        let refused = empty.record().fill(&dump).unwrap_err().to_string();
        assert!(refused.contains(wanted), "{refused}");
        assert!(empty.read().index().unwrap().is_empty(), "all or nothing");
        assert!(empty.read().dump().unwrap().settings.is_empty());
    }
    case(|dump| dump.prints[1].number = 1, "another print has this number");
    case(|dump| dump.prints[1].number = 6, "the number is beyond the edition");
    case(|dump| dump.prints[1].edition.0 = 9, "the record cannot hold this");
    case(|dump| dump.history.clear(), "has no history");
    case(
        |dump| dump.version = 3,
        "this export is in form 3, and this program reads forms 1 to 2",
    );
    case(
        |dump| dump.editions[0].what.artist = 6,
        "more artist's proofs than the percentage allows",
    );
}

/// Form 1 has none of the fields a certificate needs: they are empty, and nothing is withdrawn.
#[test]
fn an_export_of_form_1_means_what_it_meant() {
    let (_folder, mut opened) = fresh();
    let (_, of) = edition(opened.record(), 5);
    issue(opened.record(), of);
    let dump = opened.read().dump().unwrap();
    let mut older = dump.clone();
    older.version = 1;
    let mut ron = to_ron(&older).unwrap();
    for field in ["process", "signed", "authorised", "master", "others"] {
        ron =
            ron.replace(&format!("{field}: \"\", "), "").replace(&format!("{field}:\"\","), "");
        let lines = ron.lines().filter(|line| !line.trim().starts_with(&format!("{field}:")));
        ron = lines.collect::<Vec<_>>().join("\n");
        assert!(!ron.contains(field), "{field} is left: {ron}");
    }
    let lines = ron.lines().filter(|line| !line.trim().starts_with("withdrawn:"));
    let ron = lines.collect::<Vec<_>>().join("\n").replace("withdrawn: false, ", "");
    assert!(brought_in(&from_ron(&ron, "older.ron").unwrap()) == dump, "{ron}");
    let tables = to_csv(&older).unwrap();
    let works = "id,catalogue,title,maker,taken,printed,medium,paper,picture,sha256,notes\n\
                 1,W0001,Slack water,Ada Brook,2021,2025,pigment print,,,,\n";
    let read = from_csv(|name| {
        let table = tables.iter().find(|(file, _)| *file == name).unwrap();
        Ok(if name == "works.csv" { works.to_owned() } else { table.1.clone() })
    });
    assert!(brought_in(&read.unwrap()) == dump, "tables of form 1");
}

#[test]
fn a_spoilt_export_says_where() {
    let ron = from_ron("(version: 1,\n  settings: [oops]", "mine.ron").unwrap_err().to_string();
    assert!(ron.starts_with("mine.ron is no exported record (line 2, column "), "{ron}");
    let table = from_csv(|name| {
        Ok(if name == "settings.csv" { "form,key,value\n1,,\n" } else { "id\nx\n" }.to_owned())
    });
    let table = table.unwrap_err().to_string();
    assert!(table.starts_with("works.csv is no exported table ("), "{table}");
}

#[test]
fn texts_that_no_export_can_hold_are_refused() {
    let (_folder, mut opened) = fresh();
    let nul = NewWork { title: "a\0b".into(), ..NewWork::default() };
    let refused = opened.record().add_work(&nul, None, &now()).unwrap_err().to_string();
    assert!(
        refused.contains("the title: there is a character in it that cannot be shown (NUL)"),
        "{refused}"
    );
    let long = NewWork { notes: "x".repeat(100_001), ..NewWork::default() };
    let refused = opened.record().add_work(&long, None, &now()).unwrap_err().to_string();
    assert!(
        refused.contains("the notes: 100001 characters are too many, at most 100000 fit"),
        "{refused}"
    );
}
