//! Idle costs nothing: no frame is asked for, and none differs.

use std::time::Duration;

use egui::{Key, Modifiers};

use crate::support::{Plans, Window, open};

#[track_caller]
fn rests(window: &mut Window) {
    // What was changed is kept safe, what was hovered is forgotten.
    window.wait(3.0);
    window.frame();
    let shapes = window.shapes().to_vec();
    for frame in 0..60 {
        window.frame();
        assert_eq!(window.repaint_delay(), Duration::MAX, "frame {frame} asks for another");
        assert!(window.asked().is_empty(), "frame {frame} asks {:?}", window.asked());
        assert!(window.shapes() == shapes, "frame {frame} differs");
    }
}

#[test]
fn sixty_idle_frames_change_nothing() {
    let plans = Plans::new();
    rests(&mut open(&[]));
    let mut window = open(&[&plans.reference()]);
    let before = window.document().clone();
    rests(&mut window);
    assert_eq!(*window.document(), before);
    assert_eq!(window.steps(), (None, None));
    // After a drag too, and with another plan beside it.
    let from = window.handle("Reveal, right: ").center();
    let by = window.points("0.4");
    window.drag(from, (by, 0.0));
    window.drop_files(&[&plans.in_hand()]);
    rests(&mut window);
}

#[test]
fn every_place_of_work_rests() {
    let plans = Plans::new();
    let mut window = open(&[&plans.reference()]);
    for room in [Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6] {
        window.key_with(Modifiers::COMMAND, room);
        rests(&mut window);
    }
}
