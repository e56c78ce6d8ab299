//! What is shown beside the lists, and what comes back once a page is left.

use std::path::{Path, PathBuf};

use super::form::Form;
use super::messages::Damage;
use super::printouts::Printouts;

/// The page in front. Two of them lie over another page, which is in front again once they are
/// left.
#[derive(Debug, Default)]
pub(super) enum Page {
    /// What is chosen in the list in front: a work and its numbers, or a show.
    #[default]
    Chosen,
    /// Something is typed.
    Form(Box<Form>),
    /// Printouts of a print or a show are set up and written.
    Printouts(Box<Printouts>),
    /// Where the record is kept is chosen.
    Home(HomePage),
    /// The record is damaged: a backup is chosen.
    Damage(DamagePage),
}

/// Choosing the folder of the record.
#[derive(Debug, Default)]
pub(super) struct HomePage {
    /// What was chosen so far.
    pub(super) folder: Option<PathBuf>,
    under: Box<Page>,
}

/// Choosing a backup in place of a damaged record.
#[derive(Debug)]
pub(super) struct DamagePage {
    pub(super) damage: Damage,
    under: Box<Page>,
}

impl Page {
    /// Whether that is what lies under all others.
    const fn is_over(&self) -> bool {
        matches!(self, Self::Home(_) | Self::Damage(_))
    }

    /// The page under those that lie over another.
    fn lowest(&mut self) -> &mut Self {
        match self {
            Self::Home(HomePage { under, .. }) | Self::Damage(DamagePage { under, .. }) => {
                under.lowest()
            }
            lowest => lowest,
        }
    }

    fn lowest_ref(&self) -> &Self {
        match self {
            Self::Home(HomePage { under, .. }) | Self::Damage(DamagePage { under, .. }) => {
                under.lowest_ref()
            }
            lowest => lowest,
        }
    }

    /// Brings a page to the front. Only the one of a damaged record stays over it.
    pub(super) fn open(&mut self, page: Self) {
        match self {
            Self::Damage(damage) => damage.under.open(page),
            front => *front = page,
        }
    }

    /// Lets the folder of the record be chosen.
    pub(super) fn choose_home(&mut self) {
        match self {
            Self::Home(page) => page.folder = None,
            Self::Damage(_) => {}
            Self::Chosen | Self::Form(_) | Self::Printouts(_) => {
                let under = Box::new(std::mem::take(self));
                *self = Self::Home(HomePage { folder: None, under });
            }
        }
    }

    /// The record is damaged.
    pub(super) fn damaged(&mut self, damage: Damage) {
        if let Self::Damage(page) = self {
            page.damage = damage;
        } else {
            let under = Box::new(std::mem::take(self));
            *self = Self::Damage(DamagePage { damage, under });
        }
    }

    /// Leaves the page in front: what it lay over is there again.
    pub(super) fn leave(&mut self) {
        *self = match std::mem::take(self) {
            Self::Home(HomePage { under, .. }) | Self::Damage(DamagePage { under, .. }) => {
                *under
            }
            Self::Chosen | Self::Form(_) | Self::Printouts(_) => Self::Chosen,
        };
    }

    /// Leaves those of the record's folder and of a damaged record.
    pub(super) fn leave_over(&mut self) {
        while self.is_over() {
            self.leave();
        }
    }

    /// Whether the record is damaged.
    pub(super) const fn is_damage(&self) -> bool {
        matches!(self, Self::Damage(_))
    }

    /// The form, in front or not.
    pub(super) fn form(&self) -> Option<&Form> {
        match self.lowest_ref() {
            Self::Form(form) => Some(form),
            _ => None,
        }
    }

    fn form_mut(&mut self) -> Option<&mut Form> {
        match self.lowest() {
            Self::Form(form) => Some(form),
            _ => None,
        }
    }

    /// The printouts, in front or not.
    pub(super) fn printouts_mut(&mut self) -> Option<&mut Printouts> {
        match self.lowest() {
            Self::Printouts(printouts) => Some(printouts),
            _ => None,
        }
    }

    /// Closes the form, wherever it lies.
    pub(super) fn close_form(&mut self) {
        let lowest = self.lowest();
        if matches!(lowest, Self::Form(_)) {
            *lowest = Self::Chosen;
        }
    }

    /// Closes the printouts, wherever they lie.
    pub(super) fn close_printouts(&mut self) {
        let lowest = self.lowest();
        if matches!(lowest, Self::Printouts(_)) {
            *lowest = Self::Chosen;
        }
    }

    /// A folder for the record was chosen in a dialog.
    pub(super) fn home_chosen(&mut self, folder: PathBuf) {
        if let Self::Home(page) = self {
            page.folder = Some(folder);
        }
    }

    /// A file for the work's picture was chosen in a dialog.
    pub(super) fn picture_chosen(&mut self, file: &Path) {
        if let Some(form) = self.form_mut() {
            form.picture(file);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::window::screens::editions::form::{FormPage, New};

    fn form() -> Page {
        Page::Form(Box::new(FormPage::New(New::default()).into()))
    }

    fn damage() -> Damage {
        Damage { words: String::new(), backup: None, backups: Vec::new() }
    }

    /// What is typed is there again once what lay over it is left.
    #[test]
    fn a_form_outlasts_what_lies_over_it() {
        let mut page = form();
        page.choose_home();
        page.damaged(damage());
        page.damaged(damage());
        assert!(page.is_damage() && page.form().is_some(), "{page:?}");
        page.leave();
        assert!(matches!(page, Page::Home(_)) && page.form().is_some(), "{page:?}");
        page.choose_home();
        page.leave();
        assert!(matches!(page, Page::Form(_)), "{page:?}");
        page.leave();
        assert!(matches!(page, Page::Chosen), "{page:?}");
    }

    #[test]
    fn what_is_opened_stays_under_a_damaged_record() {
        let mut page = Page::default();
        page.choose_home();
        page.damaged(damage());
        page.open(form());
        assert!(page.is_damage(), "{page:?}");
        page.leave();
        assert!(matches!(page, Page::Form(_)), "{page:?}");
        page.choose_home();
        page.close_form();
        page.leave_over();
        assert!(matches!(page, Page::Chosen), "{page:?}");
    }
}
