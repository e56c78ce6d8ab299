//! Whether every text has the room it needs.

use egui::Shape;
use egui::accesskit::Role;

use super::{Seen, Window};

/// By so much, in points, may a text be wider than its room: letters have soft edges.
const SOFT: f32 = 1.0;

impl Window {
    /// The texts of the last frame that are cut off or wider than what they stand in, each with
    /// the width it needs and the width it has.
    pub(crate) fn misfits(&self) -> Vec<String> {
        let screen = self.harness.ctx.content_rect();
        let holders: Vec<Seen> = self
            .seen()
            .into_iter()
            .filter_map(|seen| {
                let holds = matches!(
                    seen.role,
                    Role::Button
                        | Role::RadioButton
                        | Role::CheckBox
                        | Role::ComboBox
                        | Role::Tab
                        | Role::Label
                        | Role::MenuItem
                );
                holds.then_some(seen)
            })
            .collect();
        let mut found = Vec::new();
        for clipped in self.shapes() {
            each(&clipped.shape, &mut |text| {
                let (rect, words) = (text.visual_bounding_rect(), text.galley.text().trim());
                let clip = clipped.clip_rect.intersect(screen);
                // What is scrolled out of sight, or lies under what is not seen at all.
                if words.is_empty() || !clip.is_positive() || !clip.intersects(rect) {
                    return;
                }
                if rect.left() < clip.left() - SOFT || rect.right() > clip.right() + SOFT {
                    let has = rect.intersect(clip).width();
                    found.push(format!("{words:?} needs {:.0}, has {has:.0}", rect.width()));
                } else if text.galley.elided {
                    found.push(format!("{words:?} is shortened"));
                } else {
                    // By its words too: what is scrolled out of sight lies under other things.
                    let around = holders.iter().filter(|holder| {
                        let named = holder.name.contains(words) || holder.value.contains(words);
                        named && holder.rect.contains(rect.center())
                    });
                    let holder =
                        around.map(|holder| holder.rect.width()).min_by(f32::total_cmp);
                    if let Some(has) = holder.filter(|has| has + SOFT < rect.width()) {
                        found
                            .push(format!("{words:?} needs {:.0}, has {has:.0}", rect.width()));
                    }
                }
            });
        }
        found.sort();
        found.dedup();
        found
    }
}

fn each(shape: &Shape, see: &mut impl FnMut(&egui::epaint::TextShape)) {
    match shape {
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| each(shape, see)),
        Shape::Text(text) => see(text),
        _ => {}
    }
}
