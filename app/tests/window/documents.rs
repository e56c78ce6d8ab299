//! Plans opened, kept, saved and closed: nothing a person made is ever lost.

use std::path::Path;

use egui::{Key, Modifiers, ViewportCommand};
use sightedge_core::file::store::Overwrite;
use sightedge_core::spec::EntryKind;
use sightedge_service::files;
use sightedge_service::storage::Storage;

use crate::support::{Plans, Window, in_inches, inches, open, size};

const NO_RESOLUTION: &str = "states no resolution: its sheet is taken at 300 ppi";

/// Makes a change that is not saved.
fn change(window: &mut Window) {
    window.open_sides("Reveal");
    window.type_in("Reveal, top", "1/2");
    window.key(Key::Enter);
    assert_eq!(window.steps().0, Some("reveal"));
}

#[test]
fn a_picture_without_resolution_is_taken_at_300_ppi_with_a_note() {
    let plans = Plans::new();
    let window = open(&[&plans.picture("print.png")]);
    let work = &window.document().works[0];
    // 1100 × 1500 pixels at 300 to the inch.
    assert_eq!((in_inches(work.sheet.width), in_inches(work.sheet.height)), {
        ("3.6667 in".to_owned(), "5 in".to_owned())
    });
    assert!(window.said().contains(NO_RESOLUTION), "{}", window.said());
    let log = &window.document().log;
    let noted = |entry: &&sightedge_core::spec::Entry| {
        entry.kind == EntryKind::Choice && entry.text.contains(NO_RESOLUTION)
    };
    assert!(log.iter().any(|entry| noted(&entry)), "{log:?}");
}

/// No standard size keeps the borders of a picture even that is three times as wide as high: it
/// gets one of its own, and the window says so.
#[test]
fn a_panorama_gets_a_size_of_its_own_and_hears_of_it() {
    let plans = Plans::new();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/demo");
    let copied = plans.folder().join("long-ebb.jpg");
    std::fs::copy(demo.join("long-ebb.jpg"), &copied).unwrap();
    let window = open(&[&copied]);
    // 14 3/4 × 4 3/4 and twice 2 in, up to the half inch.
    let outer = window.session().derived().layout.exact.outer;
    assert_eq!((in_inches(outer.width), in_inches(outer.height)), {
        ("19 in".to_owned(), "9 in".to_owned())
    });
    let words = "so the mat has a size of its own, 19 in × 9 in.";
    assert!(window.said().replace('\u{a0}', " ").contains(words), "{}", window.said());
}

#[test]
fn a_drop_opens_a_picture_its_plan_and_several_at_once() {
    let plans = Plans::new();
    let (reference, in_hand) = (plans.reference(), plans.in_hand());
    let bare = plans.picture("bare.png");
    let mut window = open(&[]);
    assert!(window.has("Open the demo"), "{}", window.texts());
    window.drop_files(&[&bare]);
    assert_eq!(window.app().open_plans(), 1);
    assert_eq!(window.session().title(), "bare.png");
    // A picture with a plan beside it opens the plan.
    window.drop_files(&[&plans.folder().join("slack-water.png"), &in_hand]);
    assert_eq!(window.app().open_plans(), 3);
    // One that is open already comes to the front.
    window.drop_files(&[&reference]);
    assert_eq!(window.app().open_plans(), 3);
    assert_eq!(window.session().title(), "slack-water.png");
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
}

#[test]
fn plans_side_by_side_keep_their_own_steps() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    window.drop_files(&[&plans.in_hand()]);
    window.click("slack-water.png");
    change(&mut window);
    assert!(window.has("slack-water.png •"), "the tab says it is not saved");
    window.click("mooring.png");
    assert_eq!(window.steps(), (None, None));
    window.key_with(Modifiers::CTRL, Key::Tab);
    assert_eq!(window.steps(), (Some("reveal"), None));
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.steps(), (None, Some("reveal")));
}

#[test]
fn what_cannot_be_opened_is_told_in_plain_words() {
    let plans = Plans::new();
    let odd = plans.folder().join("letter.jpg");
    std::fs::write(&odd, "Dear Sir or Madam").unwrap();
    let mut window = open(&[&odd]);
    assert!(window.texts().contains("This could not be opened"), "{}", window.texts());
    assert!(window.texts().contains("letter.jpg"), "{}", window.texts());
    window.click("Close");
    assert!(window.has("Open the demo"), "{}", window.texts());
}

#[test]
fn saving_writes_the_plan_beside_its_picture_and_it_opens_again() {
    let plans = Plans::new();
    let picture = plans.picture("print.png");
    let mut window = open(&[&picture]);
    assert!(!files::plan_of(&picture).exists(), "opening alone writes nothing");
    change(&mut window);
    window.key_with(Modifiers::COMMAND, Key::S);
    assert!(!window.session().is_unsaved(), "{}", window.said());
    let saved = files::open(&files::plan_of(&picture)).unwrap().document;
    assert_eq!(saved, *window.document());
    let again = open(&[&picture]);
    assert_eq!(*again.document(), saved);
    assert!(!again.session().is_unsaved(), "it was just opened");
}

#[test]
fn saving_takes_what_is_typed_in_a_field() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = open(&[&plan]);
    window.type_in("Sheet width", "14");
    window.key_with(Modifiers::COMMAND, Key::S);
    assert_eq!(files::open(&plan).unwrap().document.works[0].sheet, size("14x19"));
    assert!(!window.session().is_unsaved(), "all is saved");
}

#[test]
fn revert_goes_back_to_what_was_saved_and_can_be_taken_back() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    change(&mut window);
    window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::R);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    assert!(!window.session().is_unsaved(), "it is as saved");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.reveal(), "1/2 in, 1/4 in, 3/8 in, 1/4 in");
}

#[test]
fn a_plan_with_unsaved_work_asks_before_it_closes() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = open(&[&plan]);
    change(&mut window);
    window.key_with(Modifiers::COMMAND, Key::W);
    assert!(window.has("Save before closing?"), "{}", window.texts());
    window.click("Keep working");
    assert_eq!(window.app().open_plans(), 1);
    window.key_with(Modifiers::COMMAND, Key::W);
    window.click("Save and close");
    assert_eq!(window.app().open_plans(), 0);
    let mut window = open(&[&plan]);
    assert_eq!(window.reveal(), "1/2 in, 1/4 in, 3/8 in, 1/4 in");
    // Nothing to lose: nothing to ask.
    window.key_with(Modifiers::COMMAND, Key::W);
    assert_eq!(window.app().open_plans(), 0);
}

#[test]
fn the_window_asks_for_each_plan_before_it_closes() {
    let plans = Plans::new();
    let (first, second) = (plans.reference(), plans.plan("other.png", |_| {}));
    let mut window = open(&[&first]);
    change(&mut window);
    window.drop_files(&[&second]);
    change(&mut window);
    window.close();
    assert!(window.asked().contains(&ViewportCommand::CancelClose), "{:?}", window.asked());
    window.settle();
    // Once back to work: the window stays.
    window.click("Keep working");
    window.settle();
    assert_eq!(window.app().open_plans(), 2);
    window.close();
    window.settle();
    window.click("Save and close");
    assert_eq!(window.app().open_plans(), 1);
    assert!(window.has("Save before closing?"), "{}", window.texts());
    let at = window.find("Close without saving").rect.center();
    window.move_to(at);
    window.button(at, true);
    window.button(at, false);
    let mut closed = false;
    for _ in 0..10 {
        closed |= window.asked().contains(&ViewportCommand::Close);
        window.frame();
    }
    assert!(closed, "the window does not close");
    let top = |plan: &Path| {
        let window = open(&[plan]);
        window.reveal()
    };
    assert_eq!(top(&first), "1/2 in, 1/4 in, 3/8 in, 1/4 in");
    assert_eq!(top(&second), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
}

/// As after a crash: what was kept bears the number of a program that no longer runs.
fn crash(storage: &Path) {
    let unsaved = storage.join("unsaved");
    for entry in std::fs::read_dir(&unsaved).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let (_, rest) = name.split_once('-').unwrap();
        std::fs::rename(&path, unsaved.join(format!("4194305-{rest}"))).unwrap();
    }
}

#[test]
fn unsaved_work_is_kept_and_offered_after_a_crash() {
    let plans = Plans::new();
    let plan = plans.reference();
    let state = tempfile::tempdir().unwrap();
    let storage = || Storage::at(state.path());
    let mut window = Window::new(storage(), 1.0, &[&plan]);
    change(&mut window);
    window.wait(2.0);
    let worked_on = window.document().clone();
    drop(window);
    crash(state.path());
    // The very plan is opened again: it must not stand there twice.
    let mut window = Window::new(storage(), 1.0, &[&plan]);
    assert!(window.has("Unsaved work was found"), "{}", window.texts());
    assert_eq!(window.focused(), "Open it");
    window.key(Key::Enter);
    assert_eq!(window.app().open_plans(), 1);
    assert_eq!(*window.document(), worked_on);
    assert!(window.session().is_unsaved(), "it is still to be saved");
    // Closed without a further change, it is asked for as well.
    window.wait(2.0);
    window.key_with(Modifiers::COMMAND, Key::W);
    assert!(window.has("Save before closing?"), "{}", window.texts());
    window.click("Keep working");
    window.close();
    assert!(window.asked().contains(&ViewportCommand::CancelClose), "{:?}", window.asked());
    window.settle();
    window.click("Save and close");
    let saved = files::open(&plan).unwrap().document;
    assert_eq!(saved, worked_on);
    // What is saved is offered no more.
    assert!(storage().left_unsaved().is_empty(), "{:?}", storage().left_unsaved());
    let left = std::fs::read_dir(state.path().join("unsaved")).unwrap().count();
    assert_eq!(left, 0, "files are left");
}

/// What is changed while a save is under way is still kept once that ends.
#[test]
fn what_is_changed_during_a_save_stays_kept() {
    let plans = Plans::new();
    let state = tempfile::tempdir().unwrap();
    let mut window = Window::new(Storage::at(state.path()), 1.0, &[&plans.reference()]);
    change(&mut window);
    // The save's answer is taken in a later frame than both.
    window.press_at_once(Modifiers::COMMAND, &[Key::S, Key::Z]);
    assert!(window.session().is_unsaved(), "{}", window.said());
    let left = std::fs::read_dir(state.path().join("unsaved")).unwrap().count();
    assert_eq!(left, 1, "it is kept");
    let worked_on = window.document().clone();
    drop(window);
    crash(state.path());
    let kept = Storage::at(state.path()).left_unsaved();
    assert_eq!(kept[0].document, worked_on);
}

#[test]
fn unsaved_work_that_is_declined_is_forgotten() {
    let plans = Plans::new();
    let state = tempfile::tempdir().unwrap();
    let mut window = Window::new(Storage::at(state.path()), 1.0, &[&plans.reference()]);
    change(&mut window);
    window.wait(2.0);
    drop(window);
    crash(state.path());
    let mut window = Window::new(Storage::at(state.path()), 1.0, &[]);
    window.click("Discard it");
    assert_eq!(window.app().open_plans(), 0);
    let window = Window::new(Storage::at(state.path()), 1.0, &[]);
    assert!(!window.has("Unsaved work was found"), "{}", window.texts());
}

#[test]
fn the_window_remembers_its_theme_its_surround_and_what_was_opened() {
    let plans = Plans::new();
    let state = tempfile::tempdir().unwrap();
    let plan = plans.reference();
    let mut window = Window::new(Storage::at(state.path()), 1.0, &[&plan]);
    let dark = window.app().settings().dark;
    window.key_with(Modifiers::COMMAND, Key::T);
    window.key_with(Modifiers::COMMAND, Key::D);
    window.click("More");
    window.click("Surround of grey 188");
    drop(window);
    let window = Window::new(Storage::at(state.path()), 1.0, &[]);
    let settings = window.app().settings();
    assert_eq!((settings.dark, settings.surround, settings.dimensions), (!dark, 188, false));
    // By the name of the picture, which is what a person looks for.
    assert_eq!(settings.recent, [plans.folder().join("slack-water.png")]);
}

/// Lets the watcher of files, which looks every two seconds, see a change.
fn seen_outside(window: &mut Window, done: impl Fn(&Window) -> bool) {
    for _ in 0..200 {
        window.settle();
        if done(window) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    panic!("nothing was seen within ten seconds: {}", window.texts());
}

#[test]
fn a_plan_changed_outside_asks_and_loses_neither_side() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = open(&[&plan]);
    change(&mut window);
    let mut theirs = files::open(&plan).unwrap().document;
    theirs.works[0].sheet.width = inches("15");
    files::save(&plan, &theirs, Overwrite::Anything).unwrap();
    seen_outside(&mut window, |window| window.has("The plan’s file has changed"));
    window.click("Open the changed file");
    assert_eq!(in_inches(window.document().works[0].sheet.width), "15 in");
    assert!(!window.session().is_unsaved(), "it is what lies on disk");
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.reveal(), "1/2 in, 1/4 in, 3/8 in, 1/4 in");
}

#[test]
fn saving_over_what_someone_else_saved_asks_and_keeps_a_backup() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = open(&[&plan]);
    change(&mut window);
    let mut theirs = files::open(&plan).unwrap().document;
    theirs.works[0].sheet.width = inches("15");
    files::save(&plan, &theirs, Overwrite::Anything).unwrap();
    window.key_with(Modifiers::COMMAND, Key::S);
    let requests =
        window.has("The file has changed") || window.has("The plan’s file has changed");
    assert!(requests, "{}", window.texts());
    assert_eq!(files::open(&plan).unwrap().document, theirs);
    if window.has("The plan’s file has changed") {
        // The watcher was faster; the answer leaves what is here, and saving asks again.
        window.click("Keep this version");
        window.key_with(Modifiers::COMMAND, Key::S);
    }
    window.click("Write over it");
    assert_eq!(files::open(&plan).unwrap().document, *window.document());
    assert!(!window.session().is_unsaved(), "it is saved");
}

#[test]
fn a_picture_changed_outside_is_read_again_as_a_step() {
    let plans = Plans::new();
    let plan = plans.reference();
    let mut window = open(&[&plan]);
    let before = window.document().works[0].picture.sha256.clone();
    let picture = plans.folder().join("slack-water.png");
    let mut bytes = std::fs::read(&picture).unwrap();
    // Behind the end of the picture: other bytes, the same look.
    bytes.extend(b"edited");
    std::fs::write(&picture, bytes).unwrap();
    seen_outside(&mut window, |window| window.steps().0 == Some("picture"));
    assert_ne!(window.document().works[0].picture.sha256, before);
    window.key_with(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.document().works[0].picture.sha256, before);
}

#[test]
fn a_picture_that_is_gone_is_told_and_the_plan_still_works() {
    let plans = Plans::new();
    let plan = plans.reference();
    std::fs::remove_file(plans.folder().join("slack-water.png")).unwrap();
    let mut window = open(&[&plan]);
    assert!(window.texts().contains("slack-water.png"), "{}", window.texts());
    change(&mut window);
    assert_eq!(window.reveal(), "1/2 in, 1/4 in, 3/8 in, 1/4 in");
}

/// Saves as `path`: chosen in the system's dialog, or typed where it has none.
fn save_as(window: &mut Window, path: &Path, typed: bool) {
    window.answer_dialog(if typed { None } else { Some(path) });
    window.key_with(Modifiers::COMMAND | Modifiers::SHIFT, Key::S);
    if typed {
        window.key_with(Modifiers::COMMAND, Key::A);
        window.type_text(&path.display().to_string());
        window.key(Key::Enter);
    }
}

/// The day on which a file was written, as it is shown.
fn day(path: &Path) -> String {
    let saved = std::fs::metadata(path).unwrap().modified().unwrap();
    sightedge_service::dates::day_of(saved).unwrap().to_string()
}

#[test]
fn save_as_over_another_plan_asks_whoever_chose_the_name() {
    for typed in [false, true] {
        let plans = Plans::new();
        let (own, other) = (plans.reference(), plans.in_hand());
        let [own_before, other_before] =
            [&own, &other].map(|path| std::fs::read(path).unwrap());
        let picture = plans.folder().join("mooring.png");
        // By the plan's name, and by the picture's, which means the plan beside it.
        for path in [&other, &picture] {
            let mut window = open(&[&own]);
            change(&mut window);
            save_as(&mut window, path, typed);
            let texts = window.texts();
            let named = format!("is the plan for mooring.png, last saved on {}", day(&other));
            for words in ["Replace this file?", &named, "The plan for slack-water.png"] {
                assert!(texts.contains(words), "{words}, typed {typed}: {texts}");
            }
            assert!(texts.contains(&other.display().to_string()), "{texts}");
            // The Enter key loses nothing: it asks for another name.
            assert_eq!(window.focused(), "Choose another name…", "typed {typed}");
            window.answer_dialog(None);
            window.key(Key::Enter);
            assert!(window.has("Save the plan as"), "{}", window.texts());
            window.click("Cancel");
            assert_eq!(std::fs::read(&other).unwrap(), other_before, "left as it was");
            assert_eq!(window.session().plan, own);
            assert!(window.session().is_unsaved(), "nothing was saved");
        }
        let mut window = open(&[&own]);
        change(&mut window);
        save_as(&mut window, &other, typed);
        window.click("Replace it");
        assert_eq!(window.session().plan, other);
        assert!(!window.session().is_unsaved(), "{}", window.said());
        assert_eq!(files::open(&other).unwrap().document, *window.document());
        let backup = std::path::PathBuf::from(format!("{}.bak", other.display()));
        assert_eq!(std::fs::read(backup).unwrap(), other_before, "kept as a backup");
        assert_eq!(std::fs::read(&own).unwrap(), own_before, "its own plan is in peace");
    }
}

#[test]
fn save_as_over_what_is_no_plan_says_so() {
    let plans = Plans::new();
    let own = plans.reference();
    let odd = plans.folder().join("odd.sightedge.ron");
    std::fs::write(&odd, "Dear Sir or Madam").unwrap();
    let mut window = open(&[&own]);
    save_as(&mut window, &odd, false);
    let words = format!("a file that does not open as a plan, last saved on {}", day(&odd));
    assert!(window.texts().contains(&words), "{}", window.texts());
    window.click("Cancel");
    assert_eq!(std::fs::read(&odd).unwrap(), b"Dear Sir or Madam");
    // Where nothing lies, nothing is asked; over its own plan it is a save like any other.
    let free = plans.folder().join("free.sightedge.ron");
    for path in [&free, &free, &own] {
        save_as(&mut window, path, false);
        if *path == own {
            window.click("Replace it");
        }
        assert!(!window.has("Replace this file?"), "{}", window.texts());
        assert!(window.said().contains(&path.display().to_string()), "{}", window.said());
    }
}

#[test]
fn a_plan_that_was_saved_as_leaves_the_pictures_own_plan_in_peace() {
    let plans = Plans::new();
    let own = plans.reference();
    let before = std::fs::read(&own).unwrap();
    let below = plans.folder().join("matted");
    std::fs::create_dir(&below).unwrap();
    let elsewhere = below.join("second.sightedge.ron");
    let mut window = open(&[&own]);
    change(&mut window);
    // A save under the old name that is still under way must not bring the plan back there.
    save_as(&mut window, &elsewhere, false);
    assert_eq!(window.session().plan, elsewhere);
    assert_eq!(window.document().works[0].picture.path, "../slack-water.png");
    window.type_in("Reveal", "1/2, left 1/4");
    window.key(Key::Enter);
    window.key_with(Modifiers::COMMAND, Key::S);
    assert!(!window.session().is_unsaved(), "{}", window.said());
    assert_eq!(std::fs::read(&own).unwrap(), before, "neither changed nor written over");
    assert_eq!(files::open(&elsewhere).unwrap().document, *window.document());
    // Undo goes back over the save and still finds the picture.
    for _ in 0..2 {
        window.key_with(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(window.steps().0, None);
    assert_eq!(window.reveal(), "1/4 in, 1/4 in, 3/8 in, 1/4 in");
    assert!(window.session().picture().unwrap().exists(), "{:?}", window.session().picture());
    // Both plans open side by side: each keeps its own file.
    window.drop_files(&[&own]);
    assert_eq!(window.app().open_plans(), 2);
    change(&mut window);
    save_as(&mut window, &elsewhere, false);
    assert!(window.texts().contains("That plan is open"), "{}", window.texts());
    window.click("Close");
    assert_eq!(window.session().plan, own);
}

#[test]
fn its_own_saves_are_never_someone_elses() {
    let plans = Plans::new();
    let own = plans.reference();
    let mut window = open(&[&own]);
    let elsewhere = plans.folder().join("second.sightedge.ron");
    // Saves on each other's heels: the second waits for the first.
    window.open_sides("Reveal");
    for (top, path) in [("1/2", None), ("5/8", Some(&elsewhere)), ("3/4", None)] {
        window.type_in("Reveal, top", top);
        window.key(Key::Enter);
        if let Some(path) = path {
            window.answer_dialog(Some(path.as_path()));
        }
        let between = if path.is_some() { Modifiers::SHIFT } else { Modifiers::NONE };
        for more in [Modifiers::NONE, between, Modifiers::NONE] {
            window.press_with(Modifiers::COMMAND | more, Key::S);
        }
        window.settle();
        for words in ["The file has changed", "changed", "Replace this file?"] {
            assert!(!window.texts().contains(words), "{words}: {}", window.texts());
        }
    }
    // The watcher of files looks every two seconds.
    for _ in 0..50 {
        window.settle();
        std::thread::sleep(std::time::Duration::from_millis(50));
        assert!(!window.has("The plan’s file has changed"), "{}", window.texts());
    }
    assert_eq!(window.session().plan, elsewhere);
    assert!(!window.session().is_unsaved(), "{}", window.said());
    let top = |plan: &Path| files::open(plan).unwrap().document;
    assert_eq!(top(&elsewhere), *window.document());
    assert_ne!(top(&own), *window.document(), "the last changes are not its own");
}
