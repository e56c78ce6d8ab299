//! The cutting of a show: plans in, the fewest sheets out, cut after cut to the bench.

mod bench;
mod choosing;
mod cuts;
mod drawing;
mod fields;
mod marks;
mod offered;
mod search;
mod sheet;
mod shop;
mod worker;

use std::path::PathBuf;

use egui::{Frame, Margin, Panel, RichText, ScrollArea, Ui};
use sightedge_core::length::Unit;
use sightedge_core::spec::Document;

use crate::window::context::{Requests, ScreenContext};
use crate::window::session::SessionId;
use crate::window::theme;
use crate::window::widgets::{main_button, quiet};
use crate::window::workers::Keep;
use offered::Narrowing;
use search::{Chosen, Found, Search};
use sightedge_service::cutting::model::{Cutting, Shop};
use sightedge_service::cutting::narrower::Offer;
use sightedge_service::wording;
use worker::Workers;

/// One plan in the list.
#[derive(Debug)]
struct Wanted {
    title: String,
    /// Of an open plan; its document is the window's.
    session: Option<SessionId>,
    path: PathBuf,
    /// Of a plan that is not open.
    document: Option<Document>,
    count: u32,
}

/// What the place keeps between frames.
#[derive(Debug, Default)]
pub struct Sheets {
    /// Whether what is kept was read.
    loaded: bool,
    shop: Shop,
    shop_kept: Shop,
    wanted: Vec<Wanted>,
    workers: Option<Workers>,
    cutting: Option<Cutting>,
    /// What a checker found wrong with each board's plan.
    faults: Vec<String>,
    /// The plans that `cutting` is for; `None` where an earlier session asked.
    asked: Option<Vec<Chosen>>,
    search: Option<Search>,
    share: f32,
    offers: Vec<Offer>,
    /// The offer whose mats are shown before and after.
    opened: Option<usize>,
    /// Plans that are being opened to be narrowed.
    narrowing: Vec<Narrowing>,
    /// The board and the sheet in front.
    board: usize,
    pattern: usize,
    /// The cut of that sheet that is shown on its piece.
    step: usize,
    /// Where the list was last written to, or will be.
    list: Option<String>,
}

impl Sheets {
    /// Shows the place.
    pub(super) fn show(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        self.load(cx, requests);
        self.follow(cx, requests);
        let palette = theme::palette(ui);
        let frame = |left, right| {
            let margin = Margin { left, right, top: 6, bottom: 8 };
            Frame::new().fill(palette.panel).inner_margin(margin)
        };
        Panel::left("what to cut").frame(frame(16, 4)).resizable(false).exact_size(372.0).show(
            ui,
            |ui| {
                Panel::bottom("search").frame(Frame::new()).show_separator_line(false).show(
                    ui,
                    |ui| {
                        ui.add_space(8.0);
                        self.start(ui, cx, requests);
                    },
                );
                ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
                    ui.set_width(ui.available_width() - 12.0);
                    let plans = rows(ui.available_height(), self.shop.sheets.len());
                    self.choosing(ui, cx, requests, plans);
                    let unit = self.unit(cx);
                    let boards = self.board_names(cx);
                    let sheets = rows(ui.available_height() + 200.0, self.wanted.len());
                    shop::show(ui, &mut self.shop, &boards, unit, sheets, requests);
                });
            },
        );
        if self.cutting.is_some() {
            Panel::right("at the bench")
                .frame(frame(16, 16))
                .resizable(false)
                .exact_size(284.0)
                .show(ui, |ui| self.bench(ui, requests));
        }
        egui::CentralPanel::default().frame(frame(16, 16)).show(ui, |ui| {
            if self.cutting.is_some() {
                self.drawn(ui, cx, requests);
            } else {
                empty(ui);
            }
        });
        if self.shop != self.shop_kept {
            self.shop_kept = self.shop.clone();
            requests.keep(Keep::Stock(Box::new(self.shop.clone())));
        }
    }

    /// Whether all is cut and what is left waits to go into the stock.
    pub(super) fn waits(&self) -> bool {
        self.cutting.as_ref().is_some_and(|cutting| cutting.is_cut() && !cutting.settled)
    }

    /// Jobs that are not done.
    pub(super) fn pending(&self) -> usize {
        usize::from(self.search.is_some())
            + self.workers.as_ref().map_or(0, Workers::pending)
            + self.narrowing.len()
    }

    /// What lengths are read in: the plan's in front, else the person's usual unit.
    fn unit(&self, cx: ScreenContext<'_>) -> Unit {
        let front = cx.session().map(|session| session.document().unit);
        let listed = self.wanted.iter().find_map(|wanted| Some(wanted.document.as_ref()?.unit));
        front.or(listed).unwrap_or(cx.settings.unit())
    }

    fn load(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        if self.loaded {
            return;
        }
        self.loaded = true;
        let shop = cx.storage.stock(requests);
        self.shop = shop.unwrap_or_else(|| Shop::of(self.unit(cx), cx.tables));
        self.shop_kept = self.shop.clone();
        if let Some(cutting) = cx.storage.cutting(requests) {
            if cutting.is_whole() {
                self.cutting = Some(cutting);
            } else {
                requests.said = Some(
                    "The cutting plan kept from last time is damaged and was left out: find the \
                     sheets again."
                        .to_owned(),
                );
            }
        }
    }

    fn workers(&mut self, context: &egui::Context) -> &mut Workers {
        self.workers.get_or_insert_with(|| Workers::new(context))
    }

    /// Takes in what the workers replied, and the plans that were opened or closed.
    fn follow(&mut self, cx: ScreenContext<'_>, requests: &mut Requests) {
        self.follow_sessions(cx);
        self.follow_folders(requests);
        self.follow_narrowing(cx, requests);
        let written = self.workers.as_mut().map(|workers| workers.lists.replies());
        if let Some(said) = written.unwrap_or_default().pop() {
            requests.said = Some(said);
        }
        let Some(search) = &mut self.search else { return };
        let mut found = None;
        for reply in search.found() {
            match reply {
                Found::Better(cutting, share) => {
                    self.share = share;
                    found = Some((*cutting, false));
                }
                Found::Best(cutting) => {
                    self.share = 1.0;
                    found = Some((*cutting, true));
                }
                Found::Offers(offers) => (self.offers, self.opened) = (offers, None),
                Found::Failed(words) => requests.said = Some(wording::whole(&words)),
            }
        }
        if search.is_over() {
            self.search = None;
        }
        if let Some((cutting, done)) = found {
            self.faults = cutting
                .boards
                .iter()
                .flat_map(|board| {
                    board.faults().into_iter().map(|fault| format!("{}: {fault}", board.name))
                })
                .collect();
            if done && self.faults.is_empty() {
                requests.keep(Keep::Cutting(Box::new(cutting.clone())));
            }
            self.cutting = Some(cutting);
            self.put_in_front(self.board, self.pattern);
        }
    }

    /// Brings a sheet to the front; one that is not there gives way to the first.
    fn put_in_front(&mut self, board: usize, pattern: usize) {
        if (board, pattern) != (self.board, self.pattern) {
            self.step = 0;
        }
        let boards = self.cutting.as_ref().map_or(&[][..], |cutting| &cutting.boards);
        self.board = if board < boards.len() { board } else { 0 };
        let patterns = boards.get(self.board).map_or(0, |b| b.plan.patterns.len());
        self.pattern = if pattern < patterns { pattern } else { 0 };
    }

    /// The button that starts the search, and how far it is.
    fn start(&mut self, ui: &mut Ui, cx: ScreenContext<'_>, requests: &mut Requests) {
        let width = ui.available_width() - 12.0;
        if let Some(search) = &self.search {
            let words = if self.share < 1.0 {
                format!("Looking for fewer sheets: {:.0} %", self.share * 100.0)
            } else {
                "Trying whether narrower borders save a sheet".to_owned()
            };
            let bar =
                egui::ProgressBar::new(self.share).desired_width(width).desired_height(6.0);
            ui.label(quiet(ui, &words));
            ui.add(bar).widget_info(|| {
                egui::WidgetInfo::labeled(egui::Role::ProgressIndicator, true, &words)
            });
            let looking = self.share < 1.0;
            let stop = if looking { "Stop, keep the best" } else { "Stop looking" };
            if ui.add_sized([width, 34.0], egui::Button::new(stop)).clicked() {
                if looking {
                    search.keep_best();
                } else {
                    search.cancel();
                }
            }
            return;
        }
        let plans = self.chosen(cx);
        let ticked = self.cutting.as_ref().map_or(0, Cutting::ticked);
        if ticked > 0 {
            ui.horizontal(|ui| {
                ui.set_max_width(width);
                let words = format!(
                    "{} cut: only the rest is planned.",
                    wording::count(ticked, "sheet")
                );
                ui.label(quiet(ui, &words));
                let hint = "All sheets are planned anew, as if none were cut";
                if ui.button("Untick all").on_hover_text(hint).clicked()
                    && let Some(cutting) = &mut self.cutting
                {
                    cutting.untick();
                    requests.keep(Keep::Cutting(Box::new(cutting.clone())));
                }
            });
        }
        let off = plans
            .is_empty()
            .then_some("Open a plan, or add a folder of plans, and give it a count");
        let size = egui::vec2(width, 34.0);
        if main_button(ui, "Find the fewest sheets", size, off).1 {
            let metric = self.unit(cx) == Unit::Millimetre;
            self.share = 0.0;
            self.offers.clear();
            self.opened = None;
            self.narrowing.clear();
            self.asked = Some(plans.clone());
            let context = ui.ctx().clone();
            let (shop, tables) = (self.shop.clone(), cx.tables.clone());
            let done = self.cutting.as_ref().map(Cutting::done).unwrap_or_default();
            let request = search::Request { plans, shop, metric, tables, done };
            self.search = Some(Search::start(context, request));
            requests.said = None;
        }
    }

    /// Whether better plans may still come.
    const fn is_looking(&self) -> bool {
        self.search.is_some() && self.share < 1.0
    }

    /// Whether plans or counts changed since the sheets were found.
    fn is_stale(&self, cx: ScreenContext<'_>) -> bool {
        self.asked.as_ref().is_some_and(|asked| *asked != self.chosen(cx))
    }
}

/// How many rows a list gets in a column so high, beside another one of so many: what all the
/// rest leaves, and never fewer than four.
fn rows(height: f32, others: usize) -> f32 {
    const REST: f32 = 470.0;
    let others = f32::from(u8::try_from(others).unwrap_or(u8::MAX)).min(4.0);
    ((height - REST) / (theme::ROW + theme::GAP) - others).floor().max(4.0)
}

fn empty(ui: &mut Ui) {
    let room = ui.available_rect_before_wrap();
    let size = egui::vec2(420.0_f32.min(room.width() - 32.0), 200.0);
    let area = egui::Align2::CENTER_CENTER.align_size_within_rect(size, room);
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.spacing_mut().item_spacing.y = 8.0;
        let title = "Cut a show out of the fewest sheets";
        ui.label(RichText::new(title).family(theme::strong()).size(theme::HEADING));
        ui.label(
            "Open plans, or add a folder of them, and set how many of each. List the sheets you \
             buy and the offcuts you have. Every mat, undermat and backing is then laid out with \
             straight cuts from edge to edge.",
        );
        ui.label(quiet(ui, "Begin at the left, then press “Find the fewest sheets”."));
    });
}
