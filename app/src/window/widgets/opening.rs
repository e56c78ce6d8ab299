//! How the opening of a picture stands: a bar that moves, and a way to stop it.

use egui::{ProgressBar, Ui, WidgetInfo};

use super::quiet;
use crate::window::textures::Opening;

/// Shows it, where there is something to show. Gives what was pressed: `false` to stop, `true`
/// to open the picture after all.
pub fn opening(ui: &mut Ui, opening: Opening) -> Option<bool> {
    match opening {
        Opening::Quiet => None,
        Opening::Goes { share, long } => {
            ui.label(quiet(ui, "Opening the picture…"));
            let bar = ui.add(ProgressBar::new(share).desired_width(96.0).desired_height(6.0));
            bar.widget_info(|| {
                let text = format!("Opening the picture, {:.0} %", share * 100.0);
                WidgetInfo::labeled(egui::Role::ProgressIndicator, true, text)
            });
            (long && ui.small_button("Stop").clicked()).then_some(false)
        }
        Opening::Stopped => {
            ui.label(quiet(ui, "The picture was not opened to its end."));
            ui.small_button("Open it").clicked().then_some(true)
        }
    }
}
