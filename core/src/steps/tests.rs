use super::*;
use crate::catalogue::{Kind, Notation};
use crate::command::{Command, Measured, apply, as_cut};
use crate::derived::derive;
use crate::geometry::Size;
use crate::length::Unit;
use crate::sample::{inches, plain, reference, sides};
use crate::spec::{
    Entry, EntryKind, HingeAt, Inscribed, LayerId, Lettering, OpeningId, Recorded,
};
use crate::weight::Weights;

mod hands;

fn of(document: &Document) -> Vec<Step> {
    let variant = &document.variants[0];
    let derived = derive(document, variant, Tables::shipped());
    steps(document, variant, &derived, Tables::shipped())
}

/// The words of one step.
#[track_caller]
fn text_of(document: &Document, id: &str) -> String {
    of(document).iter().find(|step| step.id == id).map(Step::text).unwrap()
}

/// Source: common practice: inscribe on a clear bench first, dust last, then sign the mat.
#[test]
fn from_the_plan() {
    let steps = of(&reference());
    let ids: Vec<_> = steps.iter().map(|step| step.id.as_str()).collect();
    assert_eq!(
        ids,
        [
            "clear",
            "inscribe",
            "cut",
            "undermats",
            "backing",
            "hinge-mat",
            "place",
            "weight",
            "hinges",
            "yielding",
            "dry",
            "close",
            "dust",
            "sign",
            "weights",
            "bag"
        ]
    );
    let text = |id: &str| steps.iter().find(|step| step.id == id).unwrap().text();
    assert!(text("cut").contains("window 11 7/8 in × 16 in"), "{}", text("cut"));
    assert!(
        text("cut").contains("top 4 1/2 in, right 3 13/16 in, bottom 5 1/2 in, left 4 5/16 in"),
        "{}",
        text("cut")
    );
    assert!(text("undermats").contains("blank 19 1/2 in × 25 1/2 in"), "{}", text("undermats"));
    assert!(text("hinges").starts_with("2 T hinges, each tab 1 1/2 in wide"));
    assert!(text("yielding").contains("at 1 in holds"), "{}", text("yielding"));
    assert!(text("bag").contains("20 1/4 in × 26 1/4 in"));
    assert!(steps.iter().all(|step| !step.text().contains(['{', '}'])));
    assert!(steps.iter().zip(1..).all(|(step, number)| step.number == number));
    assert!(!steps[2].cautions.is_empty(), "blades");
}

#[test]
fn a_frame_brings_its_own_steps_and_cautions() {
    let mut document = plain("8x10");
    let package = &mut document.variants[0].mat.assembly.package;
    package.frame = Tables::shipped().frame("gallery-wood").cloned();
    package.glazing = Tables::shipped().glazing("glass-2").cloned();
    let steps = of(&document);
    let glaze = steps.iter().find(|step| step.id == "glaze").unwrap();
    assert!(glaze.cautions[0].starts_with("Glass: gloves"), "{glaze:?}");
    assert!(steps.iter().any(|step| step.id == "hang" && !step.cautions.is_empty()));
    assert!(steps.iter().all(|step| step.id != "bag"));
}

#[test]
fn ticks_are_kept_in_the_log() {
    let mut document = reference();
    let id = document.variants[0].id;
    let cut = step(&document, "cut");
    tick(&mut document.log, id, &cut, "2026-03-02");
    assert!(of(&document).iter().all(|step| step.done == (step.id == "cut")));
    assert_eq!(step(&document, "cut").ticked, "2026-03-02");
    untick(&mut document.log, id, &cut);
    assert!(of(&document).iter().all(|step| !step.done));
    // One that was kept before ticks kept their step is done as it was.
    tick(&mut document.log, id, &cut, "2026-03-02");
    document.log[0].ticked = None;
    assert!(step(&document, "cut").done);
}

fn step(document: &Document, id: &str) -> Step {
    of(document).into_iter().find(|step| step.id == id).unwrap()
}

/// The reference piece with that print at the bench.
fn with_print(print: Option<u32>, number: u32) -> Document {
    let notation = Some(Notation { kind: Kind::Numbered, number, of: 25 });
    let recorded = Recorded { notation, print, ..Recorded::default() };
    let inscribed = Some(Inscribed { lettering: Lettering::default(), recorded });
    Document { inscribed, ..reference() }
}

/// Source: our own choice: 3000 ticks; the oldest goes when there is one more.
#[test]
fn as_many_ticks_as_are_kept() {
    let document = reference();
    let id = document.variants[0].id;
    let old = |number: usize| Entry {
        when: "2026-01-01".to_owned(),
        kind: EntryKind::Tick,
        text: format!("1/old-{number}"),
        ticked: None,
    };
    let mut log: Vec<Entry> = (1..3000).map(old).collect();
    tick(&mut log, id, &step(&document, "cut"), "2026-03-02");
    assert_eq!((log.len(), log[0].text.as_str()), (3000, "1/old-1"));
    tick(&mut log, id, &step(&document, "clear"), "2026-03-02");
    assert_eq!((log.len(), log[0].text.as_str()), (3000, "1/old-2"));
}

#[test]
fn ticks_belong_to_the_print_at_the_bench() {
    let mut log = Vec::new();
    let done = |print: Option<u32>, number: u32, log: &[Entry]| {
        let document = Document { log: log.to_owned(), ..with_print(print, number) };
        let done = of(&document).into_iter().filter(|step| step.done).map(|step| step.id);
        done.collect::<Vec<_>>()
    };
    let id = reference().variants[0].id;
    tick(&mut log, id, &step(&with_print(Some(7), 1), "cut"), "2026-03-02");
    tick(&mut log, id, &step(&with_print(Some(7), 1), "inscribe"), "2026-03-02");
    tick(&mut log, id, &step(&with_print(None, 2), "clear"), "2026-03-03");
    assert_eq!(done(Some(7), 1, &log), ["inscribe", "cut"]);
    assert_eq!(done(Some(8), 1, &log), [""; 0], "a new print under the same number");
    assert_eq!(done(None, 2, &log), ["clear"], "one that no record knows");
    let alone = Document { log: log.clone(), ..reference() };
    assert!(of(&alone).iter().all(|step| !step.done), "the plan alone");
    // One print's tick is taken out, the other's stays.
    tick(&mut log, id, &step(&with_print(Some(8), 1), "cut"), "2026-03-04");
    untick(&mut log, id, &step(&with_print(Some(7), 1), "cut"));
    assert_eq!(done(Some(7), 1, &log), ["inscribe"]);
    assert_eq!(done(Some(8), 1, &log), ["cut"]);
}

#[test]
fn a_step_that_changed_is_open_again_and_says_what() {
    let mut document = with_print(Some(7), 1);
    let id = document.variants[0].id;
    for name in ["cut", "dust"] {
        let step = step(&document, name);
        tick(&mut document.log, id, &step, "2026-03-02");
    }
    let before = document.clone();
    document.variants[0].mat.openings[0].window_by =
        crate::spec::WindowBy::Reveal(sides("1/2"));
    let cut = step(&document, "cut");
    assert!(!cut.done);
    let texts = cut.changed_in_words().unwrap();
    assert!(
        texts.starts_with("Open again, for it changed since it was ticked on 2026-03-02. ")
    );
    assert!(
        texts.contains(
            "Was: window 11 7/8 in × 16 in at the sight edge. Now: window 12 3/8 in × "
        ),
        "{texts}"
    );
    assert!(!texts.contains(&cut.title), "only what changed: {texts}");
    assert!(step(&document, "dust").done, "nothing of it changed");
    // Ticked once more, it is done as it is now; and there is one tick of it.
    tick(&mut document.log, id, &cut, "2026-03-05");
    assert_eq!(step(&document, "cut").changed, [""; 0]);
    assert_eq!(document.log.len(), 2);
    document.variants = before.variants;
    assert!(!step(&document, "cut").done, "changed back, it is another one again");
    // Words count as figures do.
    let mut tables = Tables::shipped().clone();
    let row = tables.steps.iter_mut().find(|row| row.id == "dust").unwrap();
    row.text.push("Under raking light.".to_owned());
    let variant = &document.variants[0];
    let derived = derive(&document, variant, &tables);
    let steps = steps(&document, variant, &derived, &tables);
    let dust = steps.iter().find(|step| step.id == "dust").unwrap();
    assert_eq!(
        (dust.done, dust.changed.as_slice()),
        (false, &["New: Under raking light.".to_owned()][..])
    );
}

/// A plan of an edition of any size stays one that can be opened.
#[test]
fn ticks_of_a_thousand_prints_stay_small() {
    let mut log = Vec::new();
    let id = reference().variants[0].id;
    let all = of(&with_print(Some(1), 1));
    for print in 1..=1000 {
        for one in &all {
            let one = Step { print: Some(PrintRef::Recorded(print)), ..one.clone() };
            tick(&mut log, id, &one, "2026-03-02");
        }
    }
    let document = Document { log, ..with_print(Some(1000), 25) };
    let text = crate::file::write(&document);
    assert!(text.len() < crate::file::MOST_BYTES * 3 / 4, "{}", text.len());
    let last = crate::file::read(&text, "x").unwrap();
    assert_eq!(last, document);
    let newest = of(&last);
    // What is written on the print is of its own number.
    let own = |step: &&Step| !["inscribe", "sign", "sign-margin"].contains(&step.id.as_str());
    let open: Vec<_> = newest.iter().filter(own).filter(|step| !step.done).collect();
    assert!(open.is_empty(), "the newest are whole: {open:?}");
    // Of the oldest that are kept the text is gone, and that one changed is seen all the same.
    let oldest = last.log.iter().find_map(|entry| entry.ticked.as_ref()?.print).unwrap();
    let PrintRef::Recorded(oldest) = oldest else { unreachable!("it is of the record") };
    let mut then = Document { log: last.log, ..with_print(Some(oldest), 1) };
    assert!(of(&then).iter().all(|one| one.changed.is_empty()), "nothing changed yet");
    then.variants[0].mat.openings[0].window_by = crate::spec::WindowBy::Reveal(sides("1/2"));
    let changed: Vec<_> = of(&then).into_iter().filter(|one| !one.changed.is_empty()).collect();
    assert!(!changed.is_empty(), "a step that changed is open again");
    assert!(changed.iter().all(|one| !one.done));
    assert_eq!(changed[0].changed, ["What it said then is no longer kept."]);
}

/// What a person's own step may name is what a plan with everything in it gives.
#[test]
fn every_figure_of_a_step_is_known() {
    let mut document = reference();
    let assembly = &mut document.variants[0].mat.assembly;
    assembly.package.frame = Tables::shipped().frame("gallery-wood").cloned();
    assembly.package.glazing = Tables::shipped().glazing("glass-2").cloned();
    assembly.package.spacer = Some(inches("1/8"));
    let variant = &document.variants[0];
    let derived = derive(&document, variant, Tables::shipped());
    let mut known = StepRow::FIGURES;
    known.sort_unstable();
    let given = figures(&document, variant, &derived).names();
    assert_eq!(given, known);
}

#[test]
fn a_step_of_never_is_left_out() {
    let document = reference();
    let variant = &document.variants[0];
    let mut tables = Tables::shipped().clone();
    tables.steps[0].when = "never".to_owned();
    let derived = derive(&document, variant, &tables);
    let steps = steps(&document, variant, &derived, &tables);
    assert_eq!((steps[0].id.as_str(), steps[0].number), ("inscribe", 1));
}

/// The reference piece with one layer entered as it was cut: no more than planned, or so much
/// wider.
fn cut(document: &mut Document, layer: LayerId, wider: &str) {
    let id = document.variants[0].id;
    let laid = crate::layout::layout(document, &document.variants[0].mat).exact;
    let lies = laid.openings[0].layers.iter().find(|cut| cut.layer == layer).unwrap();
    let sight = lies.sight.bounds.size;
    let measured = Measured {
        outer: None,
        layer: Some(layer),
        sight: Size::new(sight.width + inches(wider), sight.height),
        left: lies.borders.left,
        top: lies.borders.top,
        seen: crate::geometry::Seen::Front,
    };
    let command = as_cut(document, id, OpeningId(1), measured).unwrap();
    assert_eq!(apply(document, &command), Ok(()));
}

/// Source: common practice: what is cut is not cut again; the undermat is cut to the window that is
/// there.
#[test]
fn what_is_cut_has_no_step_for_cutting_it() {
    let ids = |document: &Document| -> Vec<String> {
        of(document).into_iter().map(|step| step.id).filter(|id| id.contains('u')).collect()
    };
    let text = |document: &Document| {
        of(document).iter().find(|step| step.id == "undermats").map(Step::text).unwrap()
    };
    let plan = reference();
    assert!(ids(&plan).contains(&"cut".to_owned()));
    assert!(text(&plan).starts_with("For each undermat in turn"), "{}", text(&plan));
    let top = plan.variants[0].mat.layers[0].id;
    for wider in ["0", "1/8"] {
        let mut document = plan.clone();
        cut(&mut document, top, wider);
        let mut wanted = ids(&plan);
        wanted.retain(|id| id != "cut");
        assert_eq!(ids(&document), wanted, "{wider} wider");
        let window = if wider == "0" { "11 7/8 in × 16 in" } else { "12 in × 16 in" };
        let contents = format!(
            "Cut already: the top mat (window {window}, as measured). For each undermat in turn"
        );
        assert!(text(&document).starts_with(&contents), "{}", text(&document));
        // Planned otherwise, what is cut stays as it is; said to be cut again, it is.
        let id = document.variants[0].id;
        let offset = Command::SetOffset(id, OpeningId(1), LayerId(2), sides("1/2"));
        assert_eq!(apply(&mut document, &offset), Ok(()));
        assert_eq!(ids(&document), wanted, "{wider} wider");
        assert!(text(&document).starts_with(&contents), "{}", text(&document));
        let anew = Command::CutAnew(id, OpeningId(1), top);
        assert_eq!(apply(&mut document, &anew), Ok(()));
        assert_eq!(ids(&document), ids(&plan), "{wider} wider");
        assert!(
            text(&document).starts_with("For each undermat in turn"),
            "{}",
            text(&document)
        );
    }
}

/// Source: derived (D): the innermost window of 11 1/2 × 15 5/8 in stays as the picture wants it,
/// a third layer's 1/8 in and the reference's 3/16 in lie round it, and the middle one came out
/// 1/16 in wider. Those above the measured one are cut too.
#[test]
fn of_three_layers_two_are_cut() {
    let mut document = reference();
    let mat = &mut document.variants[0].mat;
    let third = crate::spec::Layer { id: LayerId(7), ..mat.layers[1].clone() };
    mat.layers.push(third);
    mat.openings[0].offsets.insert(LayerId(7), sides("1/8"));
    cut(&mut document, LayerId(2), "1/16");
    let steps = of(&document);
    assert!(steps.iter().all(|step| step.id != "cut"));
    let undermats = steps.iter().find(|step| step.id == "undermats").unwrap();
    let [already, stick, last, from, loose] = undermats.parts.as_slice() else {
        panic!("{undermats:?}")
    };
    assert_eq!(
        already,
        "Cut already: the top mat (window 12 1/8 in × 16 1/4 in, as measured), undermat 1 (window \
         11 13/16 in × 15 7/8 in, as measured)."
    );
    assert!(stick.ends_with("then cut its window:"), "{stick}");
    let blank = "undermat 2 (White cotton, 4-ply), blank 19 1/4 in × 25 1/4 in, 1/2 in inside the \
                 top mat's edges on every side, bevel 45°, the blade leaning away from the window, \
                 stops top 4 13/16 in, right 4 1/8 in, ";
    assert!(last.starts_with(blank), "{last}");
    assert!(last.ends_with('.') && !last.contains("undermat 1"), "{last}");
    assert!(from.contains("from the back and run from the top mat's edge"), "{from}");
    let own = "from its own edge: undermat 2, top 4 5/16 in, right 3 5/8 in, ";
    assert!(loose.contains(own) && !loose.contains("undermat 1"), "{loose}");
}

/// Each part is one thing to read: signs inside a figure part nothing.
#[test]
fn parts_come_from_the_template() {
    let steps = of(&reference());
    let parts = |id: &str| {
        steps.iter().find(|step| step.id == id).map(|step| step.parts.clone()).unwrap()
    };
    assert_eq!(
        parts("cut"),
        [
            "Board 20 in × 26 in (White cotton, 4-ply), face down in the cutter, its head away \
             from you;",
            "bevel 45°, the blade leaning away from the window;",
            "window 11 7/8 in × 16 in at the sight edge;",
            "stops from the back, top 4 1/2 in, right 3 13/16 in, bottom 5 1/2 in, left \
             4 5/16 in.",
        ]
    );
    assert_eq!(parts("undermats").len(), 4);
    let mut tables = Tables::shipped().clone();
    tables.steps[0].text =
        vec!["No. 3 (soft; 2B), 3.5 in; e.g. at {locating}".to_owned(), "{tissue}.".to_owned()];
    let document = reference();
    let variant = &document.variants[0];
    let derived = derive(&document, variant, &tables);
    let own = super::steps(&document, variant, &derived, &tables).remove(0);
    assert_eq!(own.id, "clear");
    assert_eq!(
        own.parts,
        ["No. 3 (soft; 2B), 3.5 in; e.g. at 1 in", "a tissue weaker than the sheet."]
    );
    assert_eq!(own.text(), own.parts.join(" "));
}

/// A plan in that unit with all that is usual, in a frame and on a wall, and much amiss with it.
fn with_all(unit: Unit, faulty: bool) -> Document {
    let mut document = plain(if unit == Unit::Inch { "13x19" } else { "329x483mm" });
    apply(&mut document, &Command::SetUnit(unit)).unwrap();
    let tables = Tables::shipped();
    let assembly = &mut document.variants[0].mat.assembly;
    assembly.paper = tables.paper("etching-300").cloned();
    assembly.package.frame = Some(crate::package::unmeasured("Own", unit));
    assembly.package.mass_g = Some(5000);
    let length = |inch: &str, mm: i64| match unit {
        Unit::Inch => inches(inch),
        Unit::Millimetre => crate::length::Length::mm(mm),
    };
    assembly.hanging.rings_apart = Some(length("12", 300));
    assembly.hanging.rise = Some(length("1", 25));
    assembly.hanging.rings_below = Some(length("6", 150));
    assembly.corners_glued = Some(length("1/2", 12));
    if faulty {
        let (first, last) = (length("4", 100), length("7", 178));
        assembly.hinging.at =
            vec![HingeAt { x: first, locates: true }, HingeAt { x: last, locates: false }];
        assembly.hinging.tissue = tables.tissue("gummed-linen").cloned();
        assembly.package.frame.as_mut().unwrap().rabbet_depth = Some(length("3/8", 9));
        assembly.hanging.wire_rated_g = Some(5000);
        assembly.hanging.hook_rated_g = Some(1000);
        let mat = &mut document.variants[0].mat;
        mat.openings[0].window_by = crate::spec::WindowBy::Reveal(sides("-3/4"));
        mat.backing.size = Some(Size::new(length("15", 380), length("20", 500)));
    }
    document
}

/// In what is told of an inch plan no metric figure is alone, in that of a metric one no inch;
/// one in brackets beside the other, as in the name of a pane, is not.
#[test]
fn no_figure_of_the_other_unit() {
    for unit in [Unit::Inch, Unit::Millimetre] {
        let others: &[&str] = match unit {
            Unit::Inch => &["mm", "cm", "g", "kg", "N", "kPa"],
            Unit::Millimetre => &["in", "lb", "oz"],
        };
        for faulty in [false, true] {
            let document = with_all(unit, faulty);
            let derived = derive(&document, &document.variants[0], Tables::shipped());
            let texts = derived.findings.iter().map(|finding| {
                let [found, wanted] = finding.amounts(unit, document.weights());
                let remedy = finding.remedy.as_ref().map(|remedy| remedy.words.as_str());
                format!("{} | {found} | {wanted} | {}", finding.message, remedy.unwrap_or(""))
            });
            let texts: Vec<_> = texts.chain(of(&document).iter().map(Step::text)).collect();
            assert!(!faulty || derived.findings.len() > 8, "{texts:#?}");
            for text in texts {
                let words: Vec<&str> = text.split_whitespace().collect();
                for (at, two) in words.windows(2).enumerate() {
                    let number = two[0].ends_with(|c: char| c.is_ascii_digit());
                    let sign = two[1].trim_end_matches(|c: char| !c.is_alphanumeric());
                    let beside = two[0].starts_with('(')
                        || words.get(at + 2).is_some_and(|next| next.starts_with('('));
                    assert!(
                        !number || beside || !others.contains(&sign),
                        "{unit:?}: {two:?} in {text}"
                    );
                }
            }
        }
    }
}

/// Source: derived: 5 kg are 11 lb; half of them by the sine of atan(25 / 150) are 149 N.
#[test]
fn weights_apart_from_the_unit() {
    let mut document = with_all(Unit::Millimetre, false);
    let text = |document: &Document| {
        let steps = of(document);
        steps.iter().map(Step::text).collect::<Vec<_>>().join(" ")
    };
    assert!(text(&document).contains("Mass 5 kg."), "{}", text(&document));
    assert!(text(&document).contains("149 N (15.2 kg) on each side"), "{}", text(&document));
    apply(&mut document, &Command::SetWeights(Some(Weights::Pounds))).unwrap();
    assert!(text(&document).contains("Mass 11 lb."), "{}", text(&document));
    assert!(text(&document).contains("33.5 lb on each side"), "{}", text(&document));
    assert!(text(&document).contains(" mm above the floor"), "{}", text(&document));
}
