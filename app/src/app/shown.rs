//! What is shown in a frame: the line at the foot, the places of work, the plan in front.

use egui::{Context, Frame, Panel, Ui};

use super::{App, RAIL, desks};
use crate::action::{Action, Deed};
use crate::canvas::Shows;
use crate::panels::{self, Asks};
use crate::rooms::{self, Hall, Room};
use crate::view::View;
use crate::{theme, widgets};

impl App {
    pub(super) fn foot(&mut self, ui: &mut Ui, bar: Frame) {
        Panel::bottom("foot").frame(bar).exact_size(28.0).show(ui, |ui| {
            ui.horizontal_centered(|ui| {
                let bench = self.benches.get(self.front);
                let text = match (&self.said, bench) {
                    (Some(said), _) => said.clone(),
                    (None, Some(bench)) => {
                        let under = bench.canvas.hint().filter(|_| self.room == Room::Mat);
                        let hand = under.unwrap_or_else(|| self.rooms.hand(self.room));
                        crate::canvas::for_keyboard(ui.ctx(), hand)
                    }
                    (None, None) => String::new(),
                };
                if let Some(bench) = bench {
                    let now = ui.input(|input| input.time);
                    match widgets::opening(ui, self.textures.opening(bench.id, now)) {
                        Some(true) => self.textures.go_on(bench.id),
                        Some(false) => self.textures.stop(bench.id),
                        None => {}
                    }
                }
                // What has just been done or refused is said aloud, what can be done quietly.
                let text = if self.said.is_some() {
                    egui::RichText::new(text)
                } else {
                    widgets::quiet(ui, &text)
                };
                ui.add(egui::Label::new(text).truncate());
            });
        });
    }

    /// The list of places of work; none while there is but one, or nothing to work on.
    pub(super) fn rail(&mut self, ui: &mut Ui, asks: &mut Asks) {
        let open = !self.benches.is_empty();
        let apart = Room::ALL.into_iter().any(|room| !room.needs_plan());
        if Room::ALL.len() < 2 || !(open || apart) {
            return;
        }
        let palette = theme::palette(ui);
        let frame = Frame::new().fill(palette.panel).inner_margin(egui::Margin {
            left: 8,
            right: 8,
            top: 12,
            bottom: 8,
        });
        let room = self.room;
        let pressed = Panel::left("places")
            .frame(frame)
            .resizable(false)
            .exact_size(RAIL)
            .show(ui, |ui| {
                let desks = desks(&self.benches);
                let hall = Hall {
                    desks: &desks,
                    front: open.then_some(self.front),
                    pictures: &[],
                    settings: &self.settings,
                    keep: &self.keep,
                    own: &self.own,
                    tables: &self.tables,
                    decoder: self.jobs.decoder(),
                    prints: None,
                };
                rooms::rail(ui, room, open, |room| self.rooms.waits(room, hall))
            })
            .inner;
        asks.actions.extend(pressed.map(|room| Action::Do(Deed::Go(room))));
    }

    /// What the studio's record has to say of the plan in front.
    pub(super) fn attend(&mut self, context: &Context, asks: &mut Asks) {
        let desks = desks(&self.benches);
        let hall = Hall {
            desks: &desks,
            front: (!desks.is_empty()).then_some(self.front),
            pictures: &[],
            settings: &self.settings,
            keep: &self.keep,
            own: &self.own,
            tables: &self.tables,
            decoder: self.jobs.decoder(),
            prints: None,
        };
        self.rooms.attend(context, hall, asks);
    }

    /// The place of work in front, other than the mat.
    pub(super) fn place(&mut self, ui: &mut Ui, asks: &mut Asks) {
        let open = !self.benches.is_empty();
        let front = self.benches.get(self.front);
        let pictures = front.map(|bench| self.textures.shown(bench.id)).unwrap_or_default();
        let desks = desks(&self.benches);
        let hall = Hall {
            desks: &desks,
            front: open.then_some(self.front),
            pictures: &pictures,
            settings: &self.settings,
            keep: &self.keep,
            own: &self.own,
            tables: &self.tables,
            decoder: self.jobs.decoder(),
            prints: None,
        };
        self.rooms.show(ui, self.room, hall, asks);
        if let Some(bench) = self.benches.get(self.front)
            && let Some(path) = bench.desk.picture()
            && let Some(wanted) =
                self.rooms.wanted(self.room, &bench.desk, ui.pixels_per_point())
        {
            self.textures.want(&mut self.jobs, ui.ctx(), bench.id, &path, wanted);
        }
    }

    pub(super) fn plan(&mut self, ui: &mut Ui, asks: &mut Asks) {
        let palette = theme::palette(ui);
        let Some(bench) = self.benches.get_mut(self.front) else { return };
        let about = self.textures.about(bench.id);
        let margin = egui::Margin { left: 16, right: 4, top: 6, bottom: 4 };
        let left = Frame::new().fill(palette.panel).inner_margin(margin);
        let side =
            Frame::new().fill(palette.panel).inner_margin(egui::Margin::symmetric(16, 8));
        let at_bench = self.rooms.at_bench(&bench.desk, &self.settings);
        if let Some(view) = View::of(&bench.desk, about) {
            let view = View { at_bench: at_bench.as_ref(), ..view };
            Panel::left("decisions")
                .frame(left)
                .resizable(true)
                .default_size(372.0)
                .size_range(340.0..=460.0)
                .show(ui, |ui| {
                    ui.push_id(bench.id, |ui| {
                        egui::ScrollArea::vertical().auto_shrink([false, false]).show(
                            ui,
                            |ui| {
                                // Room for the bar, which lies over what it scrolls.
                                ui.set_width(ui.available_width() - 12.0);
                                panels::mat(ui, &view, asks);
                            },
                        );
                    });
                });
            Panel::right("judged")
                .frame(side)
                .resizable(true)
                .default_size(268.0)
                .size_range(220.0..=400.0)
                .show(ui, |ui| {
                    Panel::bottom("figures")
                        .frame(Frame::new())
                        .show_separator_line(true)
                        .show(ui, |ui| {
                            ui.add_space(8.0);
                            panels::figures(ui, &view);
                        });
                    panels::checks(ui, &view, asks);
                });
        }
        let shows = Shows {
            dimensions: self.settings.dimensions,
            hidden: self.settings.hidden,
            corner: self.settings.corner,
            surround: self.settings.surround,
            vision: self.vision,
        };
        self.textures.see_as(self.vision);
        let textures = self.textures.shown(bench.id);
        let error = self.textures.error(bench.id).map(ToOwned::to_owned);
        egui::CentralPanel::default().frame(Frame::new()).show(ui, |ui| {
            ui.push_id(bench.id, |ui| {
                let canvas = bench.canvas.show(ui, &bench.desk, shows, &textures);
                asks.actions.extend(canvas);
                if let Some(error) = error
                    && crate::canvas::trouble(ui, &error)
                {
                    asks.actions.push(Action::Do(Deed::FindPicture));
                }
            });
        });
        let lost = self.textures.error(bench.id).is_some();
        if lost
            && !bench.looked_for
            && let (Some(path), Some(work)) =
                (bench.desk.picture(), bench.desk.kept().works.first())
            && !path.exists()
        {
            bench.looked_for = true;
            let sha256 = work.picture.sha256.clone();
            self.jobs.find(bench.id, bench.desk.plan.clone(), sha256);
        }
        if let (Some(path), Some(view)) = (bench.desk.picture(), View::of(&bench.desk, None))
            && let Some(wanted) = bench.canvas.wanted(view.window.image, ui.pixels_per_point())
        {
            self.textures.want(&mut self.jobs, ui.ctx(), bench.id, &path, wanted);
        }
    }

    /// The window's title.
    pub(super) fn entitle(&mut self, context: &Context) {
        let title = match self.benches.get(self.front) {
            Some(bench) => {
                let mark = if bench.is_work() { " •" } else { "" };
                format!("{}{mark} – Sightedge", bench.desk.title())
            }
            None => "Sightedge".to_owned(),
        };
        if title != self.title {
            context.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
        let size = context.input(|input| input.viewport().inner_rect.map(|rect| rect.size()));
        if let Some(size) = size
            && size.x >= 400.0
            && size.y >= 300.0
        {
            self.settings.window = (size.x.round(), size.y.round());
        }
    }
}
