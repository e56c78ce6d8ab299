//! Window and commands refuse the same of the record, in the same words.

use sightedge::commands::run_with;
use sightedge_service::storage::Storage;
use sightedge_service::wording::whole;

use crate::editions::{window, works};
use crate::support::{Plans, Window};

/// What the command says that is refused, as the window sets it.
fn refused(plans: &Plans, line: &[&str]) -> String {
    let words = ["edition"].iter().chain(line).map(Into::into).collect::<Vec<_>>();
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let exit = run_with(&Storage::at(plans.folder()), &words, &mut out, &mut err);
    assert!(matches!(exit.number(), 3 | 4) && out.is_empty(), "{line:?}: {exit:?}");
    let words = String::from_utf8(err).unwrap();
    whole(words.trim_end().strip_prefix("sightedge: ").unwrap())
}

/// The command is refused; so is what `typed` does in the window, which shows the same words.
#[track_caller]
fn case(line: &[&str], open: &[&str], typed: &[(&str, &str)], press: &str) {
    let plans = Plans::new();
    works(&plans, 1, 3);
    let mut window: Window = window(&plans, &[]);
    window.click("W0001 Weir 1, 3 of 25 issued");
    for button in open {
        window.click(button);
    }
    for (field, text) in typed {
        window.type_in(field, text);
    }
    window.click(press);
    let words = refused(&plans, line);
    // It may be wrapped, and figures stay with their units.
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let shown = plain(&window.texts());
    assert!(shown.contains(&plain(&words)), "{words}\n{shown}");
}

#[test]
fn a_work_and_its_edition() {
    let new = ["new", "--size", "5"];
    case(&new, &["Add a work…"], &[("Edition of", "5")], "Add the work");
    let typed = |more: &[(&'static str, &'static str)]| {
        let mut typed = vec![("Title", "Weir"), ("Edition of", "5")];
        typed.extend(more);
        typed
    };
    let new = |more: &[&'static str]| {
        let mut new = vec!["new", "--title", "Weir", "--size", "5"];
        new.extend(more);
        new
    };
    let add = |line: &[&str], typed: &[(&str, &str)]| {
        case(line, &["Add a work…"], typed, "Add the work");
    };
    add(&["new", "--title", "W", "--size", "0"], &[("Title", "W"), ("Edition of", "0")]);
    add(&new(&["--proofs", "101"]), &typed(&[("Proofs, %", "101")]));
    add(&new(&["--issued", "1..9"]), &typed(&[("Issued before", "9")]));
    add(
        &new(&["--issued", "1..3", "--sold", "4"]),
        &typed(&[("Issued before", "3"), ("Sold of these", "4")]),
    );
    add(&new(&["--price", "soon"]), &typed(&[("Price", "soon")]));
    add(
        &new(&["--price", "1:8 EUR,6:9"]),
        &typed(&[("Price", "8 EUR"), ("Price 2 from number", "6"), ("Price 2", "9")]),
    );
    add(
        &new(&["--price", "1:8 EUR,1:9"]),
        &typed(&[("Price", "8 EUR"), ("Price 2 from number", "1"), ("Price 2", "9")]),
    );
}

#[test]
fn a_size() {
    case(&["new", "--of", "W0001"], &["Another size…"], &[], "Add the size");
    case(
        &["new", "--of", "W0001", "--format", "large"],
        &["Another size…"],
        &[("Name of the size", "large")],
        "Add the size",
    );
    let sides = ["Image width", "Image height", "Sheet width", "Sheet height"];
    let typed: Vec<_> = sides.into_iter().zip(["9 in", "9 in", "8 in", "8 in"]).collect();
    case(
        &["new", "--of", "W0001", "--image", "9x9in", "--sheet", "8x8in"],
        &["Another size…"],
        &typed,
        "Add the size",
    );
}

#[test]
fn a_work_withdrawn_or_renumbered() {
    let open = ["Correct the work…", "Withdrawn: it was entered by mistake"];
    case(&["correct", "W0001", "--withdraw"], &open, &[], "Save it");
    case(
        &["correct", "W0001", "--withdraw", "--why", "twice"],
        &open,
        &[("Why", "twice")],
        "Save it",
    );
    let number = ["correct", "W0001", "--catalogue", "A7"];
    case(&number, &["Correct the work…"], &[("Number", "A7")], "Save it");
}

#[test]
fn what_is_put_right() {
    case(
        &["correct", "W0001", "--title", " "],
        &["Correct the work…"],
        &[("Title", " ")],
        "Save it",
    );
    case(
        &["correct", "W0001", "--picture", "/nowhere/weir.png"],
        &["Correct the work…"],
        &[("Picture", "/nowhere/weir.png")],
        "Save it",
    );
    case(
        &["correct", "W0001", "--price", "26:5"],
        &["Terms and prices…"],
        &[("Price 2 from number", "26"), ("Price 2", "5")],
        "Save it",
    );
}

#[test]
fn what_is_done_to_prints() {
    let three = ["3/25, sold", "Correct 3/25…"];
    let correct = |more: &[&'static str]| {
        let mut line = vec!["correct", "W0001", "3/25"];
        line.extend(more);
        line
    };
    case(&correct(&["--printed", "soon"]), &three, &[("Printed on", "soon")], "Save it");
    case(&correct(&["--price", "soon"]), &three, &[("Price", "soon")], "Save it");
    let unnamed = ["3/25, sold", "Correct 3/25…", "It is: sold", "at a show"];
    case(&correct(&["--to", "show"]), &unnamed, &[], "Save it");
    case(&["move", "W0001", "3/25", "--to", "show"], &["3/25, sold"], &[], "To the show");
    case(
        &["move", "W0001", "3/25", "--to", "returned", "--price", "soon"],
        &["3/25, sold"],
        &[("Price", "soon")],
        "Returned",
    );
    case(
        &["move", "W0001", "3/25", "--to", "returned", "--date", "last week"],
        &["3/25, sold"],
        &[("Day", "last week")],
        "Returned",
    );
    let located = |numbers: &'static str| ["move", "W0001", numbers, "--to", "sold"];
    for numbers in ["2,3", "2-x", "2, 9-7"] {
        case(&located(numbers), &["Enter where they are…"], &[("Numbers", numbers)], "Save it");
    }
}
