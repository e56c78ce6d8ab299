//! The board turned over or its mat lifted, seen in the air that is chosen.

mod hand;

use egui::{
    CentralPanel, Color32, Frame, Panel, Rect, Response, Role, Sense, Slider, Ui, WidgetInfo,
};
use sightedge_core::drawing::Drawing;
use sightedge_core::geometry::{Rect as BoardRect, Seen, Size};
use sightedge_core::hinges::HingePlan;
use sightedge_core::material::Humidity;
use sightedge_core::plates::{self, AssemblyView, HumidityShown, Look, Subject};
use sightedge_core::spec::Front;

use super::held;
use crate::window::canvas::grips::Grips;
use crate::window::canvas::overlay::inks;
use crate::window::canvas::paint::{Inks, paint};
use crate::window::canvas::{self, Camera, Lens};
use crate::window::context::{Requests, ScreenContext, View};
use crate::window::session::PlanSession;
use crate::window::textures::Wanted;
use crate::window::theme;
use crate::window::widgets::{choice, quiet};
use hand::Drag;

/// Text of figures on the board, in points.
const FIGURE: f32 = 12.0;
/// How much larger than true movement is drawn, unless it is drawn true.
const LARGER: u8 = 10;

/// How it is looked at, and what is in hand.
#[derive(Debug, Default)]
pub(super) struct Canvas {
    way: AssemblyView,
    /// Whether movement is drawn no larger than it is.
    no_larger: bool,
    /// The humidity that is shown; `None`: that at which it was hinged.
    now: Option<Humidity>,
    camera: Camera,
    /// The part of the window it takes up.
    room: Option<Rect>,
    grips: Grips<usize>,
    drag: Option<Drag>,
}

/// What a frame of the canvas works with.
#[derive(Clone, Copy)]
struct Scene<'a> {
    view: &'a View<'a>,
    plan: &'a HingePlan,
    lens: Lens,
    outer: Size,
    room: Rect,
}

impl Canvas {
    /// The humidity that is shown, within the range, and how large movement is drawn.
    pub(super) fn air(&self, view: &View<'_>) -> HumidityShown {
        let sheets = &view.derived.assembly.sheets;
        let times = if self.no_larger { 1 } else { LARGER };
        let Some(movement) = sheets.first().map(|sheet| &sheet.movement) else {
            return HumidityShown { now: sightedge_core::movement::USUAL_ROOM, times };
        };
        let (dry, damp) = (movement.bound.dry.humidity, movement.bound.damp.humidity);
        HumidityShown { now: self.now.unwrap_or(movement.hinged_at).clamp(dry, damp), times }
    }

    /// From which side the board is seen.
    pub(super) const fn seen(&self) -> Seen {
        match self.way {
            AssemblyView::TurnedOver => Seen::Back,
            AssemblyView::MatLifted => Seen::Front,
        }
    }

    /// What is wanted of the picture: only under the lifted mat is it seen.
    pub(super) fn wanted(&self, image: BoardRect, pixels_per_point: f32) -> Option<Wanted> {
        if self.way != AssemblyView::MatLifted {
            return None;
        }
        canvas::wanted(self.camera.lens?, self.room?, image, pixels_per_point)
    }

    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        session: &PlanSession,
        view: &View<'_>,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        let palette = theme::palette(ui);
        let bar = Frame::new().fill(palette.panel).inner_margin(egui::Margin {
            left: 12,
            right: 12,
            top: 6,
            bottom: 6,
        });
        Panel::top("behind way").frame(bar).show(ui, |ui| {
            // Where both have no room beside each other, below each other.
            ui.horizontal_wrapped(|ui| {
                let ways = [
                    (AssemblyView::TurnedOver, "Turned over"),
                    (AssemblyView::MatLifted, "Mat lifted"),
                ];
                if let Some(way) = choice(ui, "Seen", Some(self.way), &ways, 208.0) {
                    self.way = way;
                }
                let words = format!("Left and right are seen {}", self.seen().words());
                ui.label(quiet(ui, &words));
            });
        });
        Panel::bottom("behind air").frame(bar).show(ui, |ui| self.humidity(ui, view));
        CentralPanel::default().frame(Frame::new()).show(ui, |ui| {
            self.board(ui, session, view, cx, requests);
        });
    }

    fn humidity(&mut self, ui: &mut Ui, view: &View<'_>) {
        let Some(sheet) = view.derived.assembly.sheets.first() else { return };
        let bound = &sheet.movement.bound;
        let (dry, damp) = (bound.dry.humidity.tenths(), bound.damp.humidity.tenths());
        let now = self.air(view).now;
        ui.horizontal(|ui| {
            ui.label(quiet(ui, &format!("{} %", bound.dry.humidity.text())));
            let mut tenths = now.tenths();
            ui.spacing_mut().slider_width = (ui.available_width() - 318.0).max(80.0);
            let slider = Slider::new(&mut tenths, dry..=damp.max(dry)).show_value(false);
            let response = ui.add_enabled(damp > dry, slider);
            let words = format!("Humidity shown: {} %", now.text());
            response.widget_info(|| {
                let mut info = WidgetInfo::labeled(Role::Slider, true, &words);
                info.value = Some(f64::from(now.tenths()) / 10.0);
                info
            });
            if tenths != now.tenths() {
                self.now = Humidity::from_tenths(tenths);
            }
            ui.label(quiet(ui, &format!("{} %", bound.damp.humidity.text())));
            ui.add_space(4.0);
            ui.label(format!("now {} %", now.text()));
            let sizes = [(false, "10 × larger"), (true, "true size")];
            let shown = Some(self.no_larger);
            if let Some(no_larger) = choice(ui, "Movement drawn", shown, &sizes, 190.0) {
                self.no_larger = no_larger;
            }
        });
    }

    fn board(
        &mut self,
        ui: &mut Ui,
        session: &PlanSession,
        view: &View<'_>,
        cx: ScreenContext<'_>,
        requests: &mut Requests,
    ) {
        let room = ui.available_rect_before_wrap();
        let id = ui.scope_id().with("ground");
        let ground = ui.interact(room, id, Sense::click_and_drag());
        ui.advance_cursor_after_rect(room);
        self.room = Some(room);
        let painter = ui.painter_at(room);
        let surround = cx.settings.surround;
        painter.rect_filled(room, 0.0, Color32::from_gray(surround));
        let layout = &view.derived.layout;
        let outer = layout.exact.outer;
        let lens = self.look(ui, outer, layout.exact.backing, room, &ground);
        let of = Subject { mat: view.mat, layout, sheets: &view.derived.assembly.sheets };
        let air = self.air(view);
        let look = Look { surround, ..Look::default() };
        let height = lens.length(FIGURE);
        let drawing = plates::assembly(self.way, of, Some(air), &look, view.unit(), height);
        let under = match self.way {
            AssemblyView::TurnedOver => look.core,
            AssemblyView::MatLifted => view.mat.backing.board.colour,
        };
        let ink = inks(surround, Some(under));
        let ink = Inks { line: ink.board, ..ink };
        paint(&painter, lens, &drawing, ink, None, &|_| cx.pictures.to_vec());
        // On paper, whatever board lies below it.
        let ink = inks(surround, Some(look.core));
        self.writing(&painter, lens, view, Inks { line: ink.board, ..ink });
        let Some(plan) = held::plan(view) else { return };
        let scene = Scene { view, plan, lens, outer, room };
        self.hinges(ui, session, scene, requests);
        self.keys(ui, scene, requests);
        self.tell(ui, scene);
    }

    /// What is written on the side that is seen.
    fn writing(&self, painter: &egui::Painter, lens: Lens, view: &View<'_>, ink: Inks) {
        let Some(inscription) = &view.derived.inscription else { return };
        let wish = view.document.inscribed.as_ref().map(|inscribed| inscribed.lettering.front);
        let items = match self.way {
            AssemblyView::TurnedOver => {
                plates::inscription::on_back(inscription, &view.derived.layout)
            }
            // What stands on the mat is lifted with it.
            AssemblyView::MatLifted if wish == Some(Front::Margin) => {
                plates::inscription::on_front(inscription)
            }
            AssemblyView::MatLifted => return,
        };
        let drawing = Drawing { items, ..Drawing::default() };
        paint(painter, lens, &drawing, ink, None, &|_| Vec::new());
    }

    fn look(
        &mut self,
        ui: &Ui,
        outer: Size,
        backing: BoardRect,
        room: Rect,
        ground: &Response,
    ) -> Lens {
        self.camera.follow(ui, ground);
        if ground.double_clicked() {
            self.camera.fit = true;
        }
        let all = BoardRect::at_origin(outer);
        let all = if backing.size.is_positive() && !all.within(backing).least().is_negative() {
            self.way.seen(backing, outer)
        } else {
            all
        };
        let lens = match self.camera.lens {
            Some(lens) if !self.camera.fit => lens,
            _ => Lens::fit(all, room.shrink(28.0)),
        }
        .on_pixels(ui.pixels_per_point());
        self.camera.lens = Some(lens);
        lens
    }
}
