//! What a field asks for: a sentence on hover, and a small picture that lights up the measured
//! distance while the field has the focus.

use egui::{Context, Id, Label, Response, RichText, Ui};

use super::picture::{self, Picture};
use crate::window::theme;

/// What a field asks for.
#[derive(Clone, Debug, PartialEq)]
pub struct Hint {
    words: String,
    picture: Option<Picture>,
}

impl Hint {
    /// In words.
    pub fn new(words: impl Into<String>) -> Self {
        Self { words: words.into(), picture: None }
    }

    /// With a picture that shows what is measured.
    #[must_use]
    pub const fn picture(mut self, picture: Picture) -> Self {
        self.picture = Some(picture);
        self
    }

    /// With another sentence.
    #[must_use]
    pub fn and(mut self, more: &str) -> Self {
        self.words = format!("{} {more}", self.words);
        self
    }

    /// Shows the hint while the pointer rests on `response`, and its picture beside the fields
    /// while `response` has the focus.
    pub fn on(&self, ui: &Ui, response: Response) -> Response {
        if let Some(picture) = self.picture.filter(|_| response.has_focus()) {
            light(ui.ctx(), picture, &self.words);
        }
        if self.words.is_empty() {
            return response;
        }
        let enabled = response.enabled();
        let show = |ui: &mut Ui| {
            ui.set_max_width(picture::SIZE.x);
            ui.add(Label::new(&self.words).wrap());
            if let Some(picture) = self.picture {
                picture::show(ui, picture);
            }
        };
        if enabled { response.on_hover_ui(show) } else { response.on_disabled_hover_ui(show) }
    }
}

fn hints() -> Id {
    Id::unique("hints of the rows that are being shown")
}

/// Shows `contents`; fields in it that have no hint of their own have this one.
pub fn hinted<R>(ui: &mut Ui, hint: &Hint, contents: impl FnOnce(&mut Ui) -> R) -> R {
    let stack = |ui: &Ui, change: &dyn Fn(&mut Vec<Hint>)| {
        ui.data_mut(|data| change(data.get_temp_mut_or_default::<Vec<Hint>>(hints())));
    };
    stack(ui, &|all| all.push(hint.clone()));
    let made = contents(ui);
    stack(ui, &|all| drop(all.pop()));
    made
}

/// The hint of the row that is being shown.
fn row_hint(ui: &Ui) -> Option<Hint> {
    ui.data(|data| data.get_temp::<Vec<Hint>>(hints())).and_then(|all| all.last().cloned())
}

/// Gives `response` its row's hint.
pub fn with_row_hint(ui: &Ui, response: Response) -> Response {
    match row_hint(ui) {
        Some(hint) => hint.on(ui, response),
        None => response,
    }
}

/// The picture of the field that has the focus, and when it was last shown.
#[derive(Clone, Debug)]
struct Lit {
    picture: Picture,
    words: String,
    pass: u64,
}

fn lit() -> Id {
    Id::unique("what the field with the focus measures")
}

fn light(context: &Context, picture: Picture, words: &str) {
    let pass = context.cumulative_pass_nr();
    let before: Option<Lit> = context.data(|data| data.get_temp(lit()));
    let same = before.is_some_and(|lit| lit.picture == picture && lit.pass + 1 >= pass);
    let now = Lit { picture, words: words.to_owned(), pass };
    context.data_mut(|data| data.insert_temp(lit(), now));
    if !same {
        context.request_repaint();
    }
}

/// What the field with the focus measures, in a picture and in words, at the foot of a panel of
/// fields; nothing where none of them has one. Shown before the fields are.
pub fn measured(ui: &mut Ui, name: &'static str) {
    let pass = ui.ctx().cumulative_pass_nr();
    let lit: Option<Lit> = ui.data(|data| data.get_temp(lit()));
    let Some(lit) = lit.filter(|lit| lit.pass + 1 >= pass) else { return };
    egui::Panel::bottom(name).frame(egui::Frame::new()).show_separator_line(true).show(
        ui,
        |ui| {
            ui.add_space(6.0);
            ui.horizontal_top(|ui| {
                picture::show(ui, lit.picture);
                ui.vertical(|ui| {
                    let quiet = theme::palette(ui).quiet;
                    let words = RichText::new(&lit.words).size(theme::SMALL).color(quiet);
                    ui.add(Label::new(words).wrap());
                });
            });
            ui.add_space(4.0);
        },
    );
}
