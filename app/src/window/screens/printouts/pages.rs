//! The pages of one paper, as they will print: what to look at, how near, and the pixels of
//! what is seen.

use std::collections::BTreeMap;

use egui::{
    Button, Color32, ColorImage, Context, Key, Rect, Role, ScrollArea, Sense, Stroke,
    StrokeKind, TextureHandle, TextureOptions, Ui, Vec2, WidgetInfo, pos2, vec2,
};
use sightedge_papers::Kind;

use super::{Front, Printouts};
use crate::window::theme;
use crate::window::widgets::{choice, quiet};

/// Round pages and between them, in points.
const ROOM: f32 = 20.0;
/// Points of the screen for a millimetre at 100 %, as for print: 96 an inch.
const POINTS: f32 = 96.0 / 25.4;
/// Steps of nearness, in percent.
const STEPS: [f32; 9] = [25.0, 50.0, 75.0, 100.0, 125.0, 150.0, 200.0, 300.0, 400.0];
/// No page is made of more pixels than that.
const MOST_PIXELS: f32 = 24.0e6;

/// How near pages are looked at.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(super) enum Zoom {
    /// All of a page.
    #[default]
    Page,
    /// As wide as there is room.
    Width,
    /// In percent.
    Percent(f32),
}

impl Zoom {
    /// A step nearer than `now`, in percent.
    pub(super) fn nearer(now: f32) -> Self {
        let step = STEPS.into_iter().find(|step| *step > now * 1.01);
        Self::Percent(step.unwrap_or(STEPS[STEPS.len() - 1]))
    }

    /// A step farther than `now`, in percent.
    pub(super) fn farther(now: f32) -> Self {
        let step = STEPS.into_iter().rev().find(|step| *step < now * 0.99);
        Self::Percent(step.unwrap_or(STEPS[0]))
    }
}

/// The pages of the paper in front.
#[derive(Default)]
pub(super) struct Pages {
    sizes: Vec<[f32; 2]>,
    pub(super) told: Vec<String>,
    error: Option<String>,
    /// Whether they are being set.
    expected: bool,
    /// Each page with the pixels an inch it was painted with.
    painted: BTreeMap<usize, (f64, TextureHandle)>,
    /// The pixels an inch that were asked for last.
    asked: BTreeMap<usize, f64>,
    percent: f32,
    /// Where it was scrolled to, to go on from there by key.
    scrolled: Vec2,
}

impl std::fmt::Debug for Pages {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Pages").field("sizes", &self.sizes).finish_non_exhaustive()
    }
}

impl Pages {
    /// How near they are, in percent.
    pub(super) const fn percent(&self) -> f32 {
        self.percent
    }

    /// Pages are on their way: of another paper or plan, or the same ones changed, which stay
    /// in sight meanwhile.
    pub(super) fn expect(&mut self, other: bool) {
        self.expected = true;
        self.error = None;
        self.asked.clear();
        if other {
            self.sizes.clear();
            self.painted.clear();
            self.told.clear();
            self.scrolled = Vec2::ZERO;
        }
    }

    pub(super) fn laid(&mut self, sizes: Vec<[f64; 2]>, told: Vec<String>) {
        self.expected = false;
        self.told = told;
        self.sizes = sizes.into_iter().map(|size| size.map(narrow)).collect();
        let count = self.sizes.len();
        self.painted.retain(|page, _| *page < count);
        // What is in sight is of the pages before these.
        for (ppi, _) in self.painted.values_mut() {
            *ppi = 0.0;
        }
        self.asked.clear();
    }

    pub(super) fn failed(&mut self, why: String) {
        self.expected = false;
        self.sizes.clear();
        self.painted.clear();
        self.error = Some(why);
    }

    pub(super) fn painted(
        &mut self,
        context: &Context,
        page: usize,
        ppi: f64,
        image: ColorImage,
    ) {
        if image.size[0] == 0 || !self.asked.get(&page).is_some_and(|is| same(*is, ppi)) {
            return;
        }
        let name = format!("page {page}");
        let texture = context.load_texture(name, image, TextureOptions::LINEAR);
        self.painted.insert(page, (ppi, texture));
    }

    /// Shows them on `grey`; `paint` asks for a page at so many pixels an inch. Gives another
    /// zoom where the person pinched or turned the wheel for it.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        kind: Kind,
        zoom: Zoom,
        grey: Color32,
        paint: &mut dyn FnMut(usize, f64),
    ) -> Option<Zoom> {
        let room = ui.available_rect_before_wrap();
        ui.painter().rect_filled(room, 0.0, grey);
        if self.sizes.is_empty() {
            self.nothing_yet(ui, room, grey);
            return None;
        }
        let scale = self.scale(zoom, room.size());
        self.percent = scale / POINTS * 100.0;
        let pinched = ui.ui_contains_pointer().then(|| ui.input(egui::InputState::zoom_delta));
        let pinched = pinched.filter(|by| (*by - 1.0).abs() > 1e-3).map(|by| {
            Zoom::Percent((self.percent * by).clamp(STEPS[0], STEPS[STEPS.len() - 1]))
        });
        let size = |page: &[f32; 2]| vec2(page[0], page[1]) * scale;
        let wide = self.sizes.iter().map(|page| size(page).x).fold(0.0, f32::max);
        let high: f32 = self.sizes.iter().map(|page| size(page).y + ROOM).sum();
        let all = vec2(wide + 2.0 * ROOM, high + ROOM).max(room.size());
        let to = self.scrolled_by_key(ui, room.size(), all);
        let mut area = ScrollArea::both().auto_shrink([false, false]).id_salt(kind.key());
        if let Some(to) = to {
            area = area.scroll_offset(to);
        }
        let density = ui.pixels_per_point();
        let longest = ui.ctx().input(|input| input.max_texture_side);
        let output = area.show_viewport(ui, |ui, seen| {
            let (rect, _) = ui.allocate_exact_size(all, Sense::hover());
            let mut y = ROOM.max(f32::midpoint(all.y - high, ROOM));
            let count = self.sizes.len();
            for (index, page) in self.sizes.iter().enumerate() {
                let size = size(page);
                let at = vec2(((all.x - size.x) / 2.0).max(ROOM), y);
                y += size.y + ROOM;
                let place = Rect::from_min_size(rect.min + at, size);
                let name = format!("{}, page {} of {count}", kind.name(), index + 1);
                let response = ui.interact(place, ui.scope_id().with(index), Sense::hover());
                response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
                if !seen.intersects(Rect::from_min_size(at.to_pos2(), size)) {
                    self.painted.remove(&index);
                    self.asked.remove(&index);
                    continue;
                }
                let exact = scale * 25.4 * density;
                let ppi = f64::from(exact.min(most(*page, longest)));
                self.sheet(ui, index, place);
                let there = self.painted.get(&index).is_some_and(|(is, _)| same(*is, ppi));
                if !there
                    && !self.expected
                    && !self.asked.get(&index).is_some_and(|is| same(*is, ppi))
                {
                    self.asked.insert(index, ppi);
                    paint(index, ppi);
                }
            }
        });
        self.scrolled = output.state.clamped_offset();
        pinched
    }

    /// One page on its ground.
    fn sheet(&self, ui: &Ui, index: usize, place: Rect) {
        // On whole pixels, so that nothing is blurred.
        let density = ui.pixels_per_point();
        let corner = pos2(
            (place.min.x * density).round() / density,
            (place.min.y * density).round() / density,
        );
        let place = Rect::from_min_size(corner, place.size());
        let painter = ui.painter();
        painter.rect_filled(place, 0.0, theme::PAPER.field);
        if let Some((_, texture)) = self.painted.get(&index) {
            let uv = Rect::from_min_max(pos2(0.0, 0.0), pos2(1.0, 1.0));
            painter.image(texture.id(), place, uv, Color32::WHITE);
        }
        let line = Stroke::new(1.0, theme::PAPER.line);
        painter.rect_stroke(place, 0.0, line, StrokeKind::Outside);
    }

    fn nothing_yet(&self, ui: &mut Ui, room: Rect, grey: Color32) {
        let text = match (&self.error, self.expected) {
            (Some(why), _) => why.as_str(),
            (None, true) => "Setting the pages…",
            (None, false) => return,
        };
        let ink = if grey.r() > 128 { Color32::BLACK } else { Color32::WHITE };
        let place =
            Rect::from_center_size(room.center(), vec2(460.0_f32.min(room.width()), 80.0));
        let text = egui::RichText::new(text).color(ink);
        ui.put(place, egui::Label::new(text).wrap());
    }

    fn scale(&self, zoom: Zoom, room: Vec2) -> f32 {
        let wide = self.sizes.iter().map(|page| page[0]).fold(1.0, f32::max);
        let high = self.sizes.iter().map(|page| page[1]).fold(1.0, f32::max);
        // A scroll bar may lie at the edge.
        let across = (room.x - 2.0 * ROOM - 4.0).max(60.0) / wide;
        match zoom {
            Zoom::Page => across.min((room.y - 2.0 * ROOM).max(60.0) / high),
            Zoom::Width => across,
            Zoom::Percent(percent) => POINTS * percent / 100.0,
        }
    }

    /// Where the keys for pages and lines lead, while nothing is typed.
    fn scrolled_by_key(&self, ui: &Ui, room: Vec2, all: Vec2) -> Option<Vec2> {
        let free = ui.memory(|memory| memory.focused().is_none());
        if !free || all.y <= room.y + 1.0 {
            return None;
        }
        let most = all.y - room.y;
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        let now = self.scrolled;
        let steps = [
            (Key::PageDown, now.y + room.y * 0.9),
            (Key::PageUp, now.y - room.y * 0.9),
            (Key::ArrowDown, now.y + 60.0),
            (Key::ArrowUp, now.y - 60.0),
            (Key::Home, 0.0),
            (Key::End, most),
        ];
        let to = steps.into_iter().find(|(key, _)| pressed(*key))?.1;
        Some(vec2(now.x, to.clamp(0.0, most)))
    }
}

/// The most pixels an inch that a page may have.
fn most(page: [f32; 2], longest: usize) -> f32 {
    let inches = page.map(|mm| (mm / 25.4).max(0.1));
    let side = u16::try_from(longest).map_or(f32::from(u16::MAX), f32::from);
    let area = (MOST_PIXELS / (inches[0] * inches[1])).sqrt();
    area.min(side / inches[0].max(inches[1]))
}

/// Whether two are the same pixels an inch.
fn same(one: f64, two: f64) -> bool {
    (one - two).abs() < 1e-6
}

#[expect(clippy::as_conversions, clippy::cast_possible_truncation, reason = "millimetres")]
const fn narrow(mm: f64) -> f32 {
    mm as f32
}

impl Printouts {
    /// How near the pages are shown, and to the viewer.
    fn tools(&mut self, ui: &mut Ui, front: &Front<'_>) {
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            let hint = "Opens this printout in your viewer, which can print it";
            if ui.button("Open to print").on_hover_text(hint).clicked() {
                let wanted = self.wanted(front);
                self.workers(ui).viewer.request(wanted);
            }
            ui.add_space(8.0);
            self.nearness(ui);
        });
    }

    /// Above the pages: which paper, how near, and to the viewer.
    pub(super) fn bar(&mut self, ui: &mut Ui, front: &Front<'_>) {
        let frame = egui::Frame::new().inner_margin(egui::Margin::symmetric(12, 6));
        frame.show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.set_min_height(theme::ROW);
                let kinds = Kind::ALL.map(|kind| (kind, kind.name()));
                // In a narrow window the choice has a row of its own.
                let room = ui.available_width();
                let wide = if room < 740.0 { room } else { 590.0 };
                if let Some(kind) = choice(ui, "Printout shown", Some(self.kind), &kinds, wide)
                {
                    self.kind = kind;
                }
                if wide < room {
                    self.tools(ui, front);
                }
            });
            if ui.available_width() < 740.0 {
                ui.horizontal(|ui| self.tools(ui, front));
            }
            for words in self.pages.told.clone() {
                ui.add(egui::Label::new(quiet(ui, &words)).truncate()).on_hover_text(words);
            }
        });
    }

    /// From the right: the ways to look nearer and farther.
    fn nearness(&mut self, ui: &mut Ui) {
        let now = self.pages.percent();
        let button = |ui: &mut Ui, label: &str, name: &str, on: bool| {
            let response = ui.add(Button::new(label).selected(on)).on_hover_text(name);
            response.widget_info(|| WidgetInfo::selected(Role::Button, true, on, name));
            response.clicked()
        };
        if button(ui, "Width", "As wide as there is room", self.zoom == Zoom::Width) {
            self.zoom = Zoom::Width;
        }
        if button(ui, "Page", "All of a page", self.zoom == Zoom::Page) {
            self.zoom = Zoom::Page;
        }
        if button(ui, "+", "Zoom in", false) {
            self.zoom = Zoom::nearer(now);
        }
        let (rect, response) = ui.allocate_exact_size(vec2(52.0, theme::ROW), Sense::hover());
        let text = if now > 0.0 { format!("{now:.0} %") } else { String::new() };
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &text));
        ui.painter().text(
            rect.center(),
            egui::Align2::CENTER_CENTER,
            text,
            egui::FontId::proportional(theme::BODY),
            theme::palette(ui).quiet,
        );
        if button(ui, "\u{2212}", "Zoom out", false) {
            self.zoom = Zoom::farther(now);
        }
    }
}
