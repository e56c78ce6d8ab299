//! What is typed of the record: a new work, a corrected one, another size, an edition's terms, a
//! corrected print. What was typed stays until it is in the record.

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

use super::messages::Change;
use crate::window::{theme, widgets};
use sightedge_service::record;

pub(super) use new::New;
pub(super) use print::Correction;
pub(super) use size::{Another, pick_size, words as size_words};
pub(super) use terms::Terms;
pub(super) use whereabouts::{Whereabouts, unknown};
pub(super) use work::Details;

/// What is added is asked for with all of it in sight, for nothing takes it out again.
const STAYS: &str = "What you add stays in the record: it can be corrected or withdrawn later, \
                     never deleted.";

/// What is being typed.
#[derive(Clone, PartialEq, Debug)]
pub(super) enum FormPage {
    New(New),
    Work(Details),
    Size(Another),
    Terms(Terms),
    Print(Correction),
    Where(Whereabouts),
}

impl FormPage {
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
    page: FormPage,
    /// As it was before anything was typed.
    registration: FormPage,
    wrong: Option<String>,
}

/// What was pressed on a page.
pub(super) enum FormEvent {
    Leave,
    /// The dialog for the work's picture, beginning there.
    ChoosePicture(PathBuf),
    Save(Change),
}

impl From<FormPage> for Form {
    fn from(mut page: FormPage) -> Self {
        // Its rows are as they are shown, so that nothing but typing changes it.
        page.settle();
        Self { registration: page.clone(), page, wrong: None }
    }
}

impl Form {
    /// The record refused it, for that reason.
    pub(super) fn refused(&mut self, words: &str) {
        self.wrong = Some(sightedge_service::wording::whole(words));
    }

    /// Whether something was typed that is nowhere else yet.
    pub(super) fn typed(&self) -> bool {
        self.page != self.registration
    }

    /// What is corrected there, for its history.
    pub(super) fn subjects(&self) -> Vec<Subject> {
        match &self.page {
            FormPage::New(_) | FormPage::Size(_) | FormPage::Where(_) => Vec::new(),
            FormPage::Work(page) => page.subjects(),
            FormPage::Terms(page) => vec![page.subject()],
            FormPage::Print(page) => vec![page.subject()],
        }
    }

    /// The picture that was chosen for the work.
    pub(super) fn picture(&mut self, path: &std::path::Path) {
        if let FormPage::Work(details) = &mut self.page {
            details.picture(path);
        }
    }

    /// `cost` is the hint of an empty price.
    pub(super) fn show(&mut self, ui: &mut Ui, unit: Unit, cost: &str) -> Option<FormEvent> {
        let heading = match &self.page {
            FormPage::New(_) => "A work and its edition".to_owned(),
            FormPage::Work(page) => page.heading(),
            FormPage::Size(page) => page.heading(),
            FormPage::Terms(page) => page.heading(),
            FormPage::Print(page) => page.heading(),
            FormPage::Where(page) => page.heading(),
        };
        let shown = widgets::fitted(ui, &heading, ui.available_width() * 0.8);
        ui.label(RichText::new(shown).family(theme::strong()).size(theme::HEADING));
        ui.add_space(8.0);
        let mut event = None;
        let (typing, was) = (ui.memory(egui::Memory::focused), self.page.clone());
        // The buttons stay in sight however long the page is, and some of the history where there
        // is one.
        let below = if self.subjects().is_empty() { 64.0 } else { 188.0 };
        let below = below + if self.wrong.is_some() { 40.0 } else { 0.0 };
        let tall = (ui.available_height() - below).max(160.0);
        egui::ScrollArea::vertical()
            .id_salt(("form", &heading))
            .max_height(tall)
            .auto_shrink([false, true])
            .show(ui, |ui| match &mut self.page {
                FormPage::New(page) => page.show(ui, unit, cost),
                FormPage::Work(page) => event = page.show(ui, unit),
                FormPage::Size(page) => page.show(ui, cost),
                FormPage::Terms(page) => page.show(ui, cost),
                FormPage::Print(page) => page.show(ui, unit, cost),
                FormPage::Where(page) => page.show(ui),
            });
        if self.page != was {
            // What is being corrected is no longer complained of.
            self.wrong = None;
        }
        // Enter in a field leaves it, and keeps all of the page.
        let entered = ui.input(|input| input.key_pressed(egui::Key::Enter))
            && typing.is_some()
            && ui.memory(egui::Memory::focused).is_none();
        ui.add_space(8.0);
        if let Some(wrong) = &self.wrong {
            let text = RichText::new(wrong).color(theme::palette(ui).fault);
            ui.add(egui::Label::new(text).wrap());
        }
        ui.horizontal(|ui| {
            ui.add_space(88.0);
            let words = match &self.page {
                FormPage::New(_) => "Add the work",
                FormPage::Size(_) => "Add the size",
                FormPage::Work(_)
                | FormPage::Terms(_)
                | FormPage::Print(_)
                | FormPage::Where(_) => "Save it",
            };
            let palette = theme::palette(ui);
            let text = RichText::new(words).color(palette.on_accent);
            if ui.add(Button::new(text).fill(palette.accent)).clicked() || entered {
                match self.read(unit) {
                    Ok(change) => {
                        self.wrong = None;
                        event = Some(FormEvent::Save(change));
                    }
                    Err(wrong) => self.refused(&wrong),
                }
            }
            if ui.add(Button::new("Cancel")).clicked() {
                event = Some(FormEvent::Leave);
            }
        });
        event
    }

    fn read(&self, unit: Unit) -> Result<Change, String> {
        match &self.page {
            FormPage::New(page) => page.read(),
            FormPage::Work(page) => page.read(unit),
            FormPage::Size(page) => page.read(unit),
            FormPage::Terms(page) => page.read(),
            FormPage::Print(page) => page.read(),
            FormPage::Where(page) => page.read(),
        }
    }
}

/// The entry of what is made now, and why.
fn note(why: &str) -> Note {
    Note::because(&record::today(), why.trim())
}
