use super::*;
use crate::catalogue::Kind;
use crate::derived::derive;
use crate::finding::Severity;
use crate::material::Tables;
use crate::sample::reference;
use crate::spec::Fixing;

fn recorded() -> Recorded {
    Recorded {
        title: "Slack water".to_owned(),
        maker: "Ada Brook".to_owned(),
        taken: Some(2021),
        printed: Some(2025),
        notation: Some(Notation { kind: Kind::Numbered, number: 3, of: 25 }),
        numerals: Numerals::Roman,
    }
}

fn made(
    change: impl FnOnce(&mut Document),
    recorded: &Recorded,
    wish: &Wish,
) -> (Inscription, Derived) {
    let mut document = reference();
    change(&mut document);
    let variant = document.chosen().unwrap();
    let derived = derive(&document, variant, Tables::shipped());
    let made = inscription(&document, variant, &derived, recorded, wish).unwrap();
    (made, derived)
}

fn texts(lines: &[Written]) -> Vec<&str> {
    lines.iter().map(|one| one.text.as_str()).collect()
}

#[track_caller]
fn found(made: &Inscription, wanted: &str) {
    let found: Vec<String> = made
        .findings
        .iter()
        .map(|one| format!("{} {}", one.severity.key(), one.rule))
        .collect();
    assert_eq!(found.join(", "), wanted, "{:?}", made.findings);
}

/// Source: galleries' print guides; common practice: title, (c) year taken, year printed where
/// it differs, name, n/N, signature.
#[test]
fn the_usual_words() {
    let (usual, _) = made(|_| {}, &recorded(), &Wish::default());
    assert_eq!(
        texts(&usual.back),
        ["Slack water", "© 2021, printed 2025", "Ada Brook", "3/25"]
    );
    assert!(usual.back[3].sign);
    let same = Recorded { printed: Some(2021), ..recorded() };
    let (usual, _) = made(|_| {}, &same, &Wish::default());
    assert_eq!(usual.back[1].text, "© 2021");
    // What is not known is left out, line and all.
    let (usual, _) = made(|_| {}, &Recorded::default(), &Wish::default());
    assert_eq!(texts(&usual.back), [""], "only a place to sign");
}

#[track_caller]
fn refused(template: &str, wanted: &str) {
    let document = reference();
    let variant = document.chosen().unwrap();
    let derived = derive(&document, variant, Tables::shipped());
    let wish = Wish { back: vec![template.to_owned()], ..Wish::default() };
    let words = inscription(&document, variant, &derived, &recorded(), &wish).unwrap_err();
    assert!(words.contains(wanted), "{words}");
}

#[test]
fn templates_of_ones_own() {
    let own = Wish {
        back: vec!["{maker}: {title}[ ({printed})]".to_owned(), "No. {number}".to_owned()],
        ..Wish::default()
    };
    let (own, _) = made(|_| {}, &recorded(), &own);
    assert_eq!(texts(&own.back), ["Ada Brook: Slack water (2025)", "No. 3/25"]);
    refused("{prize}", "\"prize\" in \"{prize}\" is nothing the record knows: one of title,");
    refused("{title", "has a { without its }");
    refused("[{title}", "has a [ without its ]");
}

/// Source: national archives' care guides: pencil; film-marking pen on resin-coated paper.
#[test]
fn what_one_writes_with() {
    let (usual, _) = made(|_| {}, &recorded(), &Wish::default());
    assert_eq!(usual.tool.with, "a soft pencil, 2B");
    assert!(usual.tool.how.contains("The paper is not named"));
    let coated = |document: &mut Document| {
        let papers = &Tables::shipped().papers;
        let coated = papers.iter().find(|paper| paper.fibre == Fibre::ResinCoated);
        document.variants[0].mat.behind.paper = coated.cloned();
    };
    let (coated, _) = made(coated, &recorded(), &Wish::default());
    assert_eq!(coated.tool.with, "a film-marking pen");
    assert!(coated.tool.how.contains("dry"));
}

/// The reference piece: a margin of 2 1/2 in below the image, of which 3/8 in shows.
#[test]
fn where_it_stands() {
    let (usual, derived) = made(|_| {}, &recorded(), &Wish::default());
    let window = &derived.layout.exact.openings[0];
    for one in &usual.back {
        assert!(out_of(one.place, window.sheet), "on the sheet");
        assert!(one.place.top() > window.image.bottom(), "behind the margin");
    }
    assert!(!usual.behind_image);
    // 3 + 7 mm do not go into 3/8 in.
    found(&usual, "stop inscription-hidden, stop inscription-hidden");
    let on_mat = Wish { front: Front::Mat, ..Wish::default() };
    let (on_mat, derived) = made(|_| {}, &recorded(), &on_mat);
    found(&on_mat, "");
    let face = derived.layout.exact.openings[0].layers[0].face.bounds;
    assert_eq!(texts(&on_mat.front), ["3/25", ""]);
    assert_eq!(on_mat.front[1].place.right(), face.right());
    assert!(on_mat.front[0].place.right() < on_mat.front[1].place.left());
    let nothing = Wish { front: Front::Nothing, ..Wish::default() };
    found(&made(|_| {}, &recorded(), &nothing).0, "");
}

fn out_of(place: Rect, within: Rect) -> bool {
    !place.within(within).least().is_negative()
}

#[test]
fn a_narrow_margin_sends_it_behind_the_image() {
    let wish = Wish { front: Front::Nothing, ..Wish::default() };
    let full = |document: &mut Document| {
        let work = &mut document.works[0];
        work.image = Rect::at_origin(work.sheet);
    };
    let (made_full, _) = made(full, &recorded(), &wish);
    assert!(made_full.behind_image);
    found(&made_full, "note inscription-behind-image");
    let wanted = Wish { behind: Back::Image, ..wish };
    let (made_there, _) = made(|_| {}, &recorded(), &wanted);
    found(&made_there, "");
    assert!(made_there.behind_image);
}

#[test]
fn a_lip_hides_the_signature_and_a_narrow_border_has_no_room() {
    let on_mat = Wish { front: Front::Mat, ..Wish::default() };
    let narrow = |bottom: Length, framed: bool| {
        move |document: &mut Document| {
            let mat = &mut document.variants[0].mat;
            let Fixing::Borders(sides) = &mut mat.fixing else { panic!("the reference's") };
            sides.bottom = bottom;
            if framed {
                mat.behind.package.frame = Tables::shipped().frame("gallery-wood").cloned();
            }
        }
    };
    // 3 + 7 mm and the bevel's 0.06 in.
    let room = Length::mm(10) + Length::inch_1000ths(60);
    found(&made(narrow(room, false), &recorded(), &on_mat).0, "");
    let less = room - Length::um(1);
    found(
        &made(narrow(less, false), &recorded(), &on_mat).0,
        "stop inscription-hidden, stop inscription-hidden",
    );
    // A 1/4 in lip hides 1/4 in below.
    found(
        &made(narrow(room, true), &recorded(), &on_mat).0,
        "stop inscription-lip, stop inscription-lip",
    );
    let clear = room + Length::inches(0, 1, 4);
    found(&made(narrow(clear, true), &recorded(), &on_mat).0, "");
}

#[test]
fn what_stands_there_against_the_record() {
    #[track_caller]
    fn case(kind: Kind, numerals: Numerals, stands: &str, wanted: &str) {
        let notation = Some(Notation { kind, number: 2, of: 5 });
        let recorded = Recorded { notation, numerals, ..recorded() };
        let wish = Wish { front: Front::Nothing, stands: stands.to_owned(), ..Wish::default() };
        found(&made(|_| {}, &recorded, &wish).0, wanted);
    }
    case(Kind::Numbered, Numerals::Roman, "2/5", "");
    case(Kind::Numbered, Numerals::Roman, " 2/5 ", "");
    case(Kind::Numbered, Numerals::Roman, "", "");
    case(Kind::Numbered, Numerals::Roman, "3/5", "stop inscription-record");
    case(Kind::Numbered, Numerals::Roman, "2/50", "stop inscription-record");
    case(Kind::Numbered, Numerals::Roman, "AP II/V", "stop inscription-record");
    case(Kind::Artist, Numerals::Roman, "AP II/V", "");
    case(Kind::Artist, Numerals::Roman, "AP 2/5", "caution inscription-numerals");
    case(Kind::Artist, Numerals::Fraction, "AP 2/5", "");
    case(Kind::Artist, Numerals::Fraction, "ap ii/v", "caution inscription-numerals");
    case(Kind::BonATirer, Numerals::Fraction, "BAT", "stop inscription-record");
}

/// The back is drawn as one sees it: what is at the sheet's right from the front is at its
/// left there.
#[test]
fn both_sides_are_drawn() {
    let on_mat = Wish { front: Front::Mat, ..Wish::default() };
    let (made, derived) = made(|_| {}, &recorded(), &on_mat);
    let at = |drawing: &Drawing, wanted: &str| {
        drawing
            .items
            .iter()
            .find_map(|item| match item {
                Item::Text(text) if text.text == wanted => Some(text.at),
                _ => None,
            })
            .unwrap()
    };
    let outer = derived.layout.exact.outer;
    let back = at(&made.back_drawing(&derived), "Slack water");
    assert_eq!(back.x, outer.width - made.back[0].place.right());
    let sheet = derived.layout.exact.openings[0].sheet;
    assert_eq!(back.x, outer.width - sheet.right() + CLEAR, "from the left, seen from behind");
    let front = made.front_drawing(&derived);
    assert_eq!(at(&front, "3/25").x, made.front[0].place.left());
    assert!(front.items.len() >= 4);
    for severity in made.findings.iter().map(|finding| finding.severity) {
        assert_ne!(severity, Severity::Stop);
    }
}
