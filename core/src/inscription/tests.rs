use super::*;
use crate::catalogue::{Kind, Notation, Numerals};
use crate::derived::{Derived, derive};
use crate::material::Tables;
use crate::sample::reference;
use crate::spec::Lettering;

fn recorded() -> Recorded {
    Recorded {
        title: "Slack water".to_owned(),
        maker: "Ada Brook".to_owned(),
        taken: Some(2021),
        printed: Some(2025),
        notation: Some(Notation { kind: Kind::Numbered, number: 3, of: 25 }),
        numerals: Numerals::Roman,
        print: None,
    }
}

fn made(
    change: impl FnOnce(&mut Document),
    recorded: &Recorded,
    lettering: &Lettering,
) -> (Inscription, Derived) {
    let mut document = reference();
    change(&mut document);
    document.inscribed =
        Some(Inscribed { lettering: lettering.clone(), recorded: recorded.clone() });
    let variant = document.chosen().unwrap();
    let mut derived = derive(&document, variant, Tables::shipped());
    (derived.inscription.take().unwrap(), derived)
}

fn texts(lines: &[Written]) -> Vec<&str> {
    lines.iter().map(|one| one.text.as_str()).collect()
}

/// Source: galleries' print guides; common practice: title, (c) year taken, year printed where
/// it differs, name, n/N, signature.
#[test]
fn the_usual_words() {
    let (usual, _) = made(|_| {}, &recorded(), &Lettering::default());
    assert_eq!(
        texts(&usual.back),
        ["Slack water", "© 2021, printed 2025", "Ada Brook", "3/25"]
    );
    assert!(usual.back[3].sign);
    let same = Recorded { printed: Some(2021), ..recorded() };
    let (usual, _) = made(|_| {}, &same, &Lettering::default());
    assert_eq!(usual.back[1].text, "© 2021");
    // What is not known is left out, line and all.
    let (usual, _) = made(|_| {}, &Recorded::default(), &Lettering::default());
    assert_eq!(texts(&usual.back), [""], "only a place to sign");
}

#[track_caller]
fn refused(template: &str, wanted: &str) {
    let mut document = reference();
    let lettering = Lettering { back: vec![template.to_owned()], ..Lettering::default() };
    document.inscribed = Some(Inscribed { lettering, recorded: recorded() });
    let layout = crate::layout::layout(&document, &document.variants[0].mat);
    let made = inscription(&document, &document.variants[0].mat, &layout);
    let words = made.unwrap().unwrap_err();
    assert!(words.contains(wanted), "{words}");
    assert_eq!(check_template(template), Err(words));
}

#[test]
fn templates_of_ones_own() {
    let own = Lettering {
        back: vec!["{maker}: {title}[ ({printed})]".to_owned(), "No. {number}".to_owned()],
        ..Lettering::default()
    };
    let (own, _) = made(|_| {}, &recorded(), &own);
    assert_eq!(texts(&own.back), ["Ada Brook: Slack water (2025)", "No. 3/25"]);
    refused(
        "{prize}",
        "\"prize\" in \"{prize}\" is not a field of the record: use one of title,",
    );
    refused("{title", "has a { without its }");
    refused("[{title}", "has a [ without its ]");
}

/// Source: national archives' care guides: pencil; film-marking pen on resin-coated paper.
#[test]
fn what_one_writes_with() {
    let (usual, _) = made(|_| {}, &recorded(), &Lettering::default());
    assert_eq!(usual.tool.with, "a soft pencil, 2B");
    assert!(usual.tool.how.contains("does not name the paper"));
    let coated = |document: &mut Document| {
        let papers = &Tables::shipped().papers;
        let coated = papers.iter().find(|paper| paper.fibre == Fibre::ResinCoated);
        document.variants[0].mat.assembly.paper = coated.cloned();
    };
    let (coated, _) = made(coated, &recorded(), &Lettering::default());
    assert_eq!(coated.tool.with, "a film-marking pen");
    assert!(coated.tool.how.contains("dry"));
}

/// The reference piece: a margin of 2 1/2 in below the image, of which 3/8 in shows.
#[test]
fn where_it_stands() {
    let (usual, derived) = made(|_| {}, &recorded(), &Lettering::default());
    let window = &derived.layout.exact.openings[0];
    for one in &usual.back {
        assert!(out_of(one.place, window.sheet), "on the sheet");
        assert!(one.place.top() > window.image.bottom(), "behind the margin");
    }
    assert!(!usual.behind_image);
    let on_mat = Lettering { front: Front::Mat, ..Lettering::default() };
    let (on_mat, derived) = made(|_| {}, &recorded(), &on_mat);
    let face = derived.layout.exact.openings[0].layers[0].face.bounds;
    assert_eq!(texts(&on_mat.front), ["3/25", ""]);
    assert_eq!(on_mat.front[1].place.right(), face.right());
    assert!(on_mat.front[0].place.right() < on_mat.front[1].place.left());
    let nothing = Lettering { front: Front::Nothing, ..Lettering::default() };
    assert!(made(|_| {}, &recorded(), &nothing).0.front.is_empty());
}

fn out_of(place: Rect, within: Rect) -> bool {
    !place.within(within).least().is_negative()
}

/// Where the record has no title, the plan's stands in; without a wish nothing is written.
#[test]
fn the_plans_own_title() {
    let named = |document: &mut Document| document.works[0].title = "Low tide".to_owned();
    let (made, _) = made(named, &Recorded::default(), &Lettering::default());
    assert_eq!(made.back[0].text, "Low tide");
    let bare = reference();
    let derived = derive(&bare, bare.chosen().unwrap(), Tables::shipped());
    assert_eq!(derived.inscription, None);
}
