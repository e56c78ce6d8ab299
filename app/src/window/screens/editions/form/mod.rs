//! What is typed of the record: a new work, one put right, another size, an edition's terms, a
//! print put right. What was typed stays until it is in the record.

mod back;
mod edition;
mod fields;
mod new;
mod print;
mod size;
mod terms;
mod whereabouts;
mod work;

use std::path::PathBuf;

use egui::{Button, RichText, Ui};
use sightedge_core::length::Unit;
use sightedge_studio::{Note, Subject};

use super::talk::Change;
use crate::window::{theme, widgets};
use sightedge_service::record;

pub(super) use new::New;
pub(super) use print::Correction;
pub(super) use size::{Another, pick_size, words as size_words};
pub(super) use terms::Terms;
pub(super) use whereabouts::{Whereabouts, unknown};
pub(super) use work::Details;

/// What is added is asked for with all of it in sight, for nothing takes it out again.
const STAYS: &str = "What is added stays in the record: it can be corrected later, never taken \
                     out. Look through it before you add it.";

/// What is being typed.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum Page {
    New(New),
    Work(Details),
    Size(Another),
    Terms(Terms),
    Print(Correction),
    Where(Whereabouts),
}

impl Page {
    fn settle(&mut self) {
        match self {
            Self::New(page) => page.settle(),
            Self::Size(page) => page.settle(),
            Self::Terms(page) => page.settle(),
            Self::Work(_) | Self::Print(_) | Self::Where(_) => {}
        }
    }
}

/// A page and what is wrong with what was typed there.
#[derive(Clone, Debug)]
pub(super) struct Form {
    page: Page,
    /// As it was before anything was typed.
    begun: Page,
    wrong: Option<String>,
}

/// What the person wants.
pub(super) enum Wish {
    Leave,
    /// The dialog for the work's picture, beginning there.
    Picture(PathBuf),
    Make(Change),
}

impl From<Page> for Form {
    fn from(mut page: Page) -> Self {
        // Its rows are as they are shown, so that nothing but typing changes it.
        page.settle();
        Self { begun: page.clone(), page, wrong: None }
    }
}

impl Form {
    /// The record refused it, for that reason.
    pub(super) fn refused(&mut self, words: &str) {
        self.wrong = Some(sightedge_service::wording::whole(words));
    }

    /// Whether something was typed that is nowhere else yet.
    pub(super) fn typed(&self) -> bool {
        self.page != self.begun
    }

    /// What is put right there, for its history.
    pub(super) fn subjects(&self) -> Vec<Subject> {
        match &self.page {
            Page::New(_) | Page::Size(_) | Page::Where(_) => Vec::new(),
            Page::Work(page) => page.subjects(),
            Page::Terms(page) => vec![page.subject()],
            Page::Print(page) => vec![page.subject()],
        }
    }

    /// The picture that was chosen for the work.
    pub(super) fn picture(&mut self, path: &std::path::Path) {
        if let Page::Work(details) = &mut self.page {
            details.picture(path);
        }
    }

    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit) -> Option<Wish> {
        let heading = match &self.page {
            Page::New(_) => "A work and its edition".to_owned(),
            Page::Work(page) => page.heading(),
            Page::Size(page) => page.heading(),
            Page::Terms(page) => page.heading(),
            Page::Print(page) => page.heading(),
            Page::Where(page) => page.heading(),
        };
        let shown = widgets::fitted(ui, &heading, ui.available_width() * 0.8);
        ui.label(RichText::new(shown).family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        let mut wish = None;
        let (typing, was) = (ui.memory(egui::Memory::focused), self.page.clone());
        // The buttons stay in sight however long the page is.
        let tall = (ui.available_height() - 200.0).max(160.0);
        egui::ScrollArea::vertical()
            .id_salt(("form", &heading))
            .max_height(tall)
            .auto_shrink([false, true])
            .show(ui, |ui| match &mut self.page {
                Page::New(page) => page.show(ui, unit),
                Page::Work(page) => wish = page.show(ui, unit),
                Page::Size(page) => page.show(ui, unit),
                Page::Terms(page) => page.show(ui),
                Page::Print(page) => page.show(ui, unit),
                Page::Where(page) => page.show(ui),
            });
        if self.page != was {
            // What is being mended is no longer complained of.
            self.wrong = None;
        }
        // Enter in a field leaves it, and keeps all of the page.
        let entered = ui.input(|input| input.key_pressed(egui::Key::Enter))
            && typing.is_some()
            && ui.memory(egui::Memory::focused).is_none();
        ui.add_space(8.0);
        if let Some(wrong) = &self.wrong {
            let text = RichText::new(wrong).color(theme::palette(ui).stop);
            ui.add(egui::Label::new(text).wrap());
        }
        ui.horizontal(|ui| {
            ui.add_space(88.0);
            let words = match &self.page {
                Page::New(_) => "Add the work",
                Page::Size(_) => "Add the size",
                Page::Work(_) | Page::Terms(_) | Page::Print(_) | Page::Where(_) => "Save it",
            };
            let palette = theme::palette(ui);
            let text = RichText::new(words).color(palette.on_accent);
            if ui.add(Button::new(text).fill(palette.accent)).clicked() || entered {
                match self.read(unit) {
                    Ok(change) => {
                        self.wrong = None;
                        wish = Some(Wish::Make(change));
                    }
                    Err(wrong) => self.refused(&wrong),
                }
            }
            if ui.add(Button::new("Cancel")).clicked() {
                wish = Some(Wish::Leave);
            }
        });
        wish
    }

    fn read(&self, unit: Unit) -> Result<Change, String> {
        match &self.page {
            Page::New(page) => page.read(),
            Page::Work(page) => page.read(unit),
            Page::Size(page) => page.read(unit),
            Page::Terms(page) => page.read(),
            Page::Print(page) => page.read(),
            Page::Where(page) => page.read(),
        }
    }
}

/// The entry of what is made now, and why.
fn note(why: &str) -> Note {
    Note::because(&record::today(), why.trim())
}
