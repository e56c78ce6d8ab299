//! Pictures being opened: many at once, slow ones, ones that are stopped.

use std::path::{Path, PathBuf};

use egui::{Key, Modifiers};
use sightedge::window::workers::DECODED_AT_ONCE;

use crate::support::{Plans, Window, open};

/// Bytes this process holds, where the system tells.
fn resident() -> Option<u64> {
    let text = std::fs::read_to_string("/proc/self/statm").ok()?;
    let pages: u64 = text.split_whitespace().nth(1)?.parse().ok()?;
    Some(pages * 4096)
}

/// Fifty pictures at once: few are decoded at a time and few are kept, and the window goes on
/// drawing though not one of them is ever done.
#[test]
fn fifty_pictures_keep_the_window_live_and_memory_bounded() {
    const COUNT: usize = 50;
    let plans = Plans::new();
    let (program, slow) = decoder(&plans);
    std::fs::remove_file(&slow).unwrap();
    let first = plans.picture("print-0.png");
    let mut files = vec![first.clone()];
    for number in 1..COUNT {
        let path = plans.folder().join(format!("print-{number}.png"));
        std::fs::copy(&first, &path).unwrap();
        files.push(path);
    }
    let mut window = open(&[]);
    window.decode_apart(program);
    let before = resident();
    let files: Vec<&Path> = files.iter().map(PathBuf::as_path).collect();
    window.let_fall(&files);
    frames_until(&mut window, "all open", |window| window.app().open_plans() == COUNT);
    window.wait(1.0);
    // Three pictures, and what is seen of them, are kept at most.
    let bounded = |window: &Window, when: &str| {
        let (held, decoded) = window.app().pictures_held();
        assert!(held.textures <= 6, "{when}: {held:?}");
        assert!(held.bytes <= 6 * 1100 * 1500 * 4, "{when}: {held:?}");
        assert!(decoded <= DECODED_AT_ONCE, "{when}: {decoded} decoded at once");
        held
    };
    for _ in 0..8 {
        window.key_with(Modifiers::CTRL, Key::Tab);
        bounded(&window, "each seen in turn");
    }
    let held = bounded(&window, "some seen");
    assert!(held.textures > 0, "the one in front is there");
    std::fs::write(&slow, "").unwrap();
    let began = std::time::Instant::now();
    for _ in 0..COUNT {
        window.press_with(Modifiers::CTRL, Key::Tab);
        bounded(&window, "none done");
    }
    let took = began.elapsed().as_secs_f32();
    // What was asked for a picture that is not looked at any more is called off: its first look
    // and the whole of the last one, at most, are left.
    frames_until(&mut window, "called off", |window| window.app().pending() <= 2);
    println!("fifty pictures: {took:.2} s for 50 frames while none is done; {held:?}");
    if let (Some(before), Some(after)) = (before, resident()) {
        let grown = after.saturating_sub(before) >> 20;
        println!("fifty pictures: {grown} MiB more than with none");
        // Other tests share this process.
        assert!(grown < 1024, "{grown} MiB");
    }
}

/// A decoder that tells of 37 % and no more while a file `slow` lies beside it.
fn decoder(plans: &Plans) -> (PathBuf, PathBuf) {
    use std::os::unix::fs::PermissionsExt;
    let slow = plans.folder().join("slow");
    std::fs::write(&slow, "").unwrap();
    let path = plans.folder().join("decoder.sh");
    let script = format!(
        "#!/bin/sh\nif [ -e '{}' ]; then echo 374; exec sleep 600; fi\nexec '{}' \"$@\"\n",
        slow.display(),
        env!("CARGO_BIN_EXE_sightedge"),
    );
    std::fs::write(&path, script).unwrap();
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o755)).unwrap();
    (path, slow)
}

fn frames_until(window: &mut Window, what: &str, done: impl Fn(&Window) -> bool) {
    for _ in 0..4000 {
        if done(window) {
            return;
        }
        window.frame();
        std::thread::sleep(std::time::Duration::from_millis(3));
    }
    panic!("never {what}: {}", window.texts());
}

/// Quick work is not spoken of; slow work shows how far it is, and can be stopped and taken up
/// again; what refines a picture that is there is silent, however long it takes.
#[test]
fn slow_openings_are_shown_and_stopped() {
    let plans = Plans::new();
    let (program, slow) = decoder(&plans);
    let plan = plans.reference();
    let mut window = open(&[]);
    window.decode_apart(program);
    window.let_fall(&[&plan]);
    frames_until(&mut window, "opened", |window| window.app().open_plans() == 1);
    window.frame();
    window.frame();
    assert!(!window.has("Stop"), "too early to stop");
    frames_until(&mut window, "shown", |window| window.has("Opening the picture, 37 %"));
    assert!(window.texts().contains("Opening the picture…"));
    frames_until(&mut window, "to be stopped", |window| window.has("Stop"));
    window.click("Stop");
    assert_eq!(window.app().pending(), 0, "its processes are ended");
    assert!(window.texts().contains("The picture was not opened to its end."));
    // The window rests, and asks for nothing again.
    window.wait(1.0);
    assert_eq!(window.app().pending(), 0);
    std::fs::remove_file(&slow).unwrap();
    window.click("Open it");
    window.wait(1.0);
    assert!(!window.texts().contains("not opened to its end"), "it is there");
    assert!(window.app().pictures_held().0.textures >= 1);
    std::fs::write(&slow, "").unwrap();
    for _ in 0..3 {
        window.press_with(Modifiers::COMMAND, Key::Plus);
    }
    for _ in 0..40 {
        window.frame();
        assert!(!window.texts().contains("Opening"), "finer pixels come in silence");
    }
    assert!(window.app().pending() > 0, "finer pixels are being made");
}
