//! What the window has to ask before it goes on: one question at a time, in plain words, each
//! button saying what it does.

use std::path::{Path, PathBuf};

use egui::{Context, Key, Modal, RichText, Ui};

use crate::window::session::SessionId;
use crate::window::theme;
use crate::window::workers::{Onto, Purpose};
use sightedge_service::files::{self, There};
use sightedge_service::recovery::Unsaved;
use sightedge_service::wording;

/// A question.
#[derive(Clone, Debug)]
pub struct Question {
    title: String,
    words: String,
    kind: Kind,
    /// Whether it was shown before: at first, the first button has the focus.
    shown: bool,
}

#[derive(Clone, Debug)]
enum Kind {
    Tell,
    Path(Purpose, String),
    Restore(Box<Unsaved>),
    Close(SessionId),
    Overwrite(SessionId),
    /// Another file than the plan's own: where, and what it may write over.
    Replace(SessionId, PathBuf, Onto),
    Changed(SessionId),
    Typed,
}

/// What was answered.
#[derive(Clone, Debug)]
pub enum Answer {
    /// Leave everything as it is.
    Nothing,
    /// Open this file.
    Open(PathBuf),
    /// Save under this name.
    SaveAs(SessionId, PathBuf),
    /// Take this file as the plan's picture.
    Relink(SessionId, PathBuf),
    /// Take this file as the colour profile of the screen.
    Profile(PathBuf),
    /// Open what was not saved.
    Restore(Box<Unsaved>),
    /// Forget what was not saved.
    Forget(Box<Unsaved>),
    /// Save, then close.
    SaveAndClose(SessionId),
    /// Close without saving.
    Discard(SessionId),
    /// Write over what is on disk.
    Overwrite(SessionId),
    /// Save there, over what was seen there.
    Replace(SessionId, PathBuf, Onto),
    /// Ask for another name to save under.
    AnotherName(SessionId),
    /// Take what is on disk.
    TakeTheirs(SessionId),
    /// Give up what is typed in a page of the record.
    GiveUpTyped,
}

impl Question {
    fn new(title: &str, words: String, kind: Kind) -> Self {
        Self { title: title.to_owned(), words, kind, shown: false }
    }

    /// Tells of a failure.
    pub fn tell(title: &str, words: &str) -> Self {
        Self::new(title, words.to_owned(), Kind::Tell)
    }

    /// Asks for a path to be typed: this system has no dialog.
    pub fn path(purpose: Purpose, near: Option<PathBuf>) -> Self {
        let (title, words) = match purpose {
            Purpose::Open => ("Open a picture or a plan", "Type its path:"),
            Purpose::SaveAs(_) => ("Save the plan as", "Type the path of the new file:"),
            Purpose::Relink(_) => ("Show where the picture is now", "Type its path:"),
            Purpose::Profile => ("The colour profile of this screen", "Type its path:"),
        };
        let typed = match (purpose, near) {
            (Purpose::Open | Purpose::Relink(_) | Purpose::Profile, Some(near)) => {
                let folder = near.parent().map(|folder| folder.display().to_string());
                folder.map(|folder| format!("{folder}/")).unwrap_or_default()
            }
            (_, near) => near.map(|near| near.display().to_string()).unwrap_or_default(),
        };
        Self::new(title, words.to_owned(), Kind::Path(purpose, typed))
    }

    /// Offers work of an earlier session.
    pub fn restore(unsaved: Unsaved) -> Self {
        let name = files::title_of(&unsaved.document);
        let when = unsaved.age().map(ago).unwrap_or_default();
        let words = format!(
            "The program closed while the plan for {name} had unsaved changes. A copy was \
             kept{when}.\n\nIts file: {}",
            unsaved.plan.display()
        );
        Self::new("Unsaved work was found", words, Kind::Restore(Box::new(unsaved)))
    }

    /// Asks before a plan closes.
    pub fn close(id: SessionId, title: &str) -> Self {
        let words = format!("The plan for {title} has changes that are not saved.");
        Self::new("Save before closing?", words, Kind::Close(id))
    }

    /// Asks before something on disk is written over.
    pub fn overwrite(id: SessionId, plan: &Path, why: &str) -> Self {
        let words = format!("{why}\n\nWriting over it keeps a backup of {}.", plan.display());
        Self::new("The file has changed", words, Kind::Overwrite(id))
    }

    /// Asks before `title` is saved where another file lies.
    pub fn replace(id: SessionId, title: &str, path: &Path, there: There) -> Self {
        let day = there.day.map(|day| format!(", last saved on {day}")).unwrap_or_default();
        let (what, onto) = if let Some((name, stamp)) = there.plan {
            (format!("the plan for {name}{day}"), Onto::Seen(stamp))
        } else {
            (format!("a file that does not open as a plan{day}"), Onto::Anything)
        };
        let words = format!(
            "{} is {what}. The plan for {title} would replace it; the old file would be kept as \
             a backup with .bak added to its name.",
            path.display()
        );
        let kind = Kind::Replace(id, path.to_owned(), onto);
        Self::new("Replace this file?", words, kind)
    }

    /// Asks what to do about a plan that changed on disk.
    pub fn changed(id: SessionId, title: &str) -> Self {
        let words = format!(
            "Someone else, or another program, changed the file of the plan for {title}. You can \
             undo it if you take the changed one."
        );
        Self::new("The plan’s file has changed", words, Kind::Changed(id))
    }

    /// Asks before what is typed of the record is given up.
    pub fn typed() -> Self {
        let words = "What you typed in Editions is not in the record yet.".to_owned();
        Self::new("Discard what you typed?", words, Kind::Typed)
    }

    /// Whether it is about that plan.
    pub fn is_about(&self, id: SessionId) -> bool {
        match self.kind {
            Kind::Close(about)
            | Kind::Overwrite(about)
            | Kind::Replace(about, ..)
            | Kind::Changed(about) => about == id,
            Kind::Tell | Kind::Path(..) | Kind::Restore(_) | Kind::Typed => false,
        }
    }

    /// Shows the question; gives the answer once there is one.
    pub fn show(&mut self, context: &Context) -> Option<Answer> {
        let mut answer = None;
        let first_time = !std::mem::replace(&mut self.shown, true);
        let frame = egui::Frame::popup(&context.global_style()).inner_margin(16.0);
        let modal = Modal::new(egui::Id::unique("asking")).frame(frame).show(context, |ui| {
            ui.set_width(460.0);
            ui.label(RichText::new(&self.title).family(theme::strong()).size(theme::HEADING));
            ui.add_space(4.0);
            ui.label(&self.words);
            ui.add_space(8.0);
            answer = self.kind.buttons(ui, first_time);
        });
        if answer.is_none() && modal.should_close() {
            answer = Some(Answer::Nothing);
        }
        answer
    }
}

impl Kind {
    fn buttons(&mut self, ui: &mut Ui, first_time: bool) -> Option<Answer> {
        let mut answer = None;
        if let Self::Path(purpose, typed) = self {
            let edit = egui::TextEdit::singleline(typed).desired_width(444.0);
            let response = ui.add(edit);
            response
                .widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Path"));
            if !response.has_focus() && !response.lost_focus() {
                response.request_focus();
            }
            let enter =
                response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            let path = PathBuf::from(typed.trim());
            let words = match purpose {
                Purpose::Open => "Open",
                Purpose::Relink(_) => "Use this picture",
                Purpose::Profile => "Use this profile",
                Purpose::SaveAs(_) => "Save",
            };
            ui.horizontal(|ui| {
                let ready = !path.as_os_str().is_empty();
                if ui.add_enabled(ready, first(ui, words)).clicked() || (enter && ready) {
                    answer = Some(match purpose {
                        Purpose::Open => Answer::Open(path.clone()),
                        Purpose::SaveAs(id) => Answer::SaveAs(*id, path.clone()),
                        Purpose::Relink(id) => Answer::Relink(*id, path.clone()),
                        Purpose::Profile => Answer::Profile(path.clone()),
                    });
                }
                if ui.button("Cancel").clicked() {
                    answer = Some(Answer::Nothing);
                }
            });
            return answer;
        }
        // The first has the Enter key: it loses nothing.
        let choices: Vec<(&str, Answer)> = match self {
            Self::Tell | Self::Path(..) => vec![("Close", Answer::Nothing)],
            Self::Restore(unsaved) => vec![
                ("Open it", Answer::Restore(unsaved.clone())),
                ("Discard it", Answer::Forget(unsaved.clone())),
            ],
            Self::Close(id) => vec![
                ("Save and close", Answer::SaveAndClose(*id)),
                ("Close without saving", Answer::Discard(*id)),
                ("Keep working", Answer::Nothing),
            ],
            Self::Overwrite(id) => vec![
                ("Cancel", Answer::Nothing),
                ("Open the changed file", Answer::TakeTheirs(*id)),
                ("Write over it", Answer::Overwrite(*id)),
            ],
            Self::Replace(id, path, onto) => vec![
                ("Choose another name…", Answer::AnotherName(*id)),
                ("Replace it", Answer::Replace(*id, path.clone(), onto.clone())),
                ("Cancel", Answer::Nothing),
            ],
            Self::Typed => {
                vec![("Keep typing", Answer::Nothing), ("Discard it", Answer::GiveUpTyped)]
            }
            Self::Changed(id) => vec![
                ("Keep this version", Answer::Nothing),
                ("Open the changed file", Answer::TakeTheirs(*id)),
            ],
        };
        ui.horizontal(|ui| {
            for (index, (words, given)) in choices.into_iter().enumerate() {
                let response = if index == 0 {
                    let response = ui.add(first(ui, words));
                    if first_time {
                        response.request_focus();
                    }
                    response
                } else {
                    ui.button(words)
                };
                if response.has_focus() {
                    // On the accent, the usual mark of focus would not be seen.
                    let stroke = egui::Stroke::new(1.5, theme::palette(ui).text);
                    let ring = response.rect.expand(3.0);
                    ui.painter().rect_stroke(ring, 6.0, stroke, egui::StrokeKind::Middle);
                }
                if response.clicked() {
                    answer = Some(given);
                }
            }
        });
        answer
    }
}

/// How long ago, in words.
fn ago(age: std::time::Duration) -> String {
    let minutes = age.as_secs() / 60;
    let (count, unit) = match minutes {
        0 => return " a moment ago".to_owned(),
        1..60 => (minutes, "minute"),
        60..1440 => (minutes / 60, "hour"),
        _ => (minutes / 1440, "day"),
    };
    format!(" {} ago", wording::count(count, unit))
}

/// The button that most will press.
fn first(ui: &Ui, words: &str) -> egui::Button<'static> {
    let palette = theme::palette(ui);
    egui::Button::new(RichText::new(words.to_owned()).color(palette.on_accent))
        .fill(palette.accent)
}
