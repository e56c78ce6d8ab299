//! Opening the window, and one plain sentence where there can be none.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;

use crate::window::app::App;
use sightedge_service::monitors::{Look, Told};
use sightedge_service::storage::Storage;

/// Shows the window with `files` open until it is closed.
///
/// # Errors
/// Names what is missing on this system, and what works without a window.
pub fn run(files: Vec<PathBuf>) -> Result<(), String> {
    let storage = Storage::usual();
    let (width, height) = storage.settings().window;
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_title("Sightedge")
            .with_app_id("sightedge")
            .with_inner_size([width, height])
            .with_min_inner_size([900.0, 600.0])
            .with_icon(egui::IconData::default()),
        renderer: eframe::Renderer::Glow,
        persist_window: false,
        centered: true,
        ..eframe::NativeOptions::default()
    };
    // A missing library panics inside the window's own crates: their words are for programmers.
    let hook = std::panic::take_hook();
    let words = std::sync::Arc::new(std::sync::Mutex::new(String::new()));
    let heard = std::sync::Arc::clone(&words);
    std::panic::set_hook(Box::new(move |panic| {
        if let Ok(mut words) = heard.lock() {
            *words = panic.to_string();
        }
    }));
    let shown = catch_unwind(AssertUnwindSafe(|| {
        eframe::run_native(
            "sightedge",
            options,
            Box::new(|creation| {
                let mut app = App::new(&creation.egui_ctx, storage, files);
                if let Ok(program) = std::env::current_exe() {
                    app.decode_apart(program);
                }
                app.watch_monitors(&creation.egui_ctx, Look::default());
                Ok(Box::new(app))
            }),
        )
    }));
    std::panic::set_hook(hook);
    match shown {
        Ok(Ok(())) => Ok(()),
        Ok(Err(error)) => Err(missing(&format!("{error} {error:?}"))),
        Err(_) => Err(missing(&words.lock().map(|words| words.clone()).unwrap_or_default())),
    }
}

/// What is missing, from what the system said.
fn missing(said: &str) -> String {
    let low = said.to_lowercase();
    let what = if low.contains("xkbcommon") {
        "the library libxkbcommon-x11 is missing (on Debian: libxkbcommon-x11-0)"
    } else if low.contains("noglutinconfigs")
        || low.contains("glutin")
        || low.contains("opengl")
    {
        "no OpenGL was found (on Debian: libgl1 and libgl1-mesa-dri)"
    } else if low.contains("libx11") || low.contains("xcursor") || low.contains("xlib") {
        "a library of the X window system is missing (on Debian: libx11-6 libxcursor1 libxi6 \
         libx11-xcb1)"
    } else if low.contains("eventloop") || low.contains("display") || low.contains("wayland") {
        "no display was found (neither DISPLAY nor WAYLAND_DISPLAY leads to one)"
    } else {
        let first: String = said.lines().next().unwrap_or_default().chars().take(160).collect();
        return format!(
            "the window stopped: {first}. Unsaved work was kept and is offered at the next start; \
             without a window, new, figures, check and picture do the job (sightedge --help)"
        );
    };
    format!(
        "no window can be shown: {what}; without one, new, figures, check and picture do the \
         job (sightedge --help)"
    )
}

impl eframe::App for App {
    fn logic(&mut self, context: &egui::Context, frame: &mut eframe::Frame) {
        if let Some(window) = frame.winit_window() {
            let monitor = window.current_monitor();
            if self.stands_on(monitor.and_then(|monitor| monitor.name())) {
                let all = window.available_monitors().filter_map(|monitor| {
                    let (at, size) = (monitor.position(), monitor.size());
                    let (at, pixels) = ((at.x, at.y), (size.width, size.height));
                    Some(Told { output: monitor.name()?, at, pixels })
                });
                self.told_of_monitors(all.collect());
            }
        }
        Self::logic(self, context);
    }

    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        Self::ui(self, ui);
    }

    fn clear_color(&self, visuals: &egui::Visuals) -> [f32; 4] {
        visuals.panel_fill.to_normalized_gamma_f32()
    }
}
