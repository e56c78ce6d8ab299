//! The print: its sheet and the image on it.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::geometry::{Point, Rect, Size};

use super::Asks;
use crate::view::View;
use crate::widgets::{LengthField, field_width, group, row};

pub(super) fn show(ui: &mut Ui, view: &View<'_>, asks: &mut Asks) {
    let work = view.work;
    let (sheet, image) = (work.sheet, work.image);
    let whole = image == Rect::at_origin(sheet);
    // The image keeps its margins' proportion: it stays where it is unless it was all of it.
    let on = |sheet: Size| {
        let image = if whole { Rect::at_origin(sheet) } else { image };
        Command::SetPaper(work.id, sheet, image)
    };
    group(ui, "The print", |ui| {
        row(ui, "paper", |ui| {
            let name = name_of(view, sheet);
            let width = field_width(ui, 1);
            egui::ComboBox::from_id_salt("paper")
                .width(width)
                .selected_text(name)
                .show_ui(ui, |ui| {
                    for known in &view.tables.sheets {
                        let lying = sheet.width > sheet.height;
                        let size = if lying { known.size.turned() } else { known.size };
                        let label = ui.selectable_label(size == sheet, known.name.as_str());
                        if label.clicked() && size != sheet {
                            asks.run(on(size));
                        }
                    }
                })
                .response
                .widget_info(|| {
                    egui::WidgetInfo::labeled(egui::Role::ComboBox, true, "Paper size")
                });
        });
        row(ui, "sheet", |ui| asks.size(ui, "Sheet", sheet, view, on));
        row(ui, "image", |ui| {
            asks.size(ui, "Image", image.size, view, |size| {
                // About its middle, as it is centred on most sheets.
                let (x, _) = (image.size.width - size.width).halves();
                let (y, _) = (image.size.height - size.height).halves();
                let at = Point::new(image.at.x + x, image.at.y + y);
                Command::SetPaper(work.id, sheet, Rect::new(at, size))
            });
        });
        row(ui, "at", |ui| {
            let width = field_width(ui, 2);
            let to = |at| Command::SetPaper(work.id, sheet, Rect::new(at, image.size));
            let x =
                LengthField::new("Image from the left", image.at.x, view.unit()).width(width);
            asks.length(ui, x, |x| to(Point::new(x, image.at.y)))
                .on_hover_text("From the sheet's left edge to the image");
            let y =
                LengthField::new("Image from the top", image.at.y, view.unit()).width(width);
            asks.length(ui, y, |y| to(Point::new(image.at.x, y)))
                .on_hover_text("From the sheet's top edge to the image");
        });
        let ppi = resolution(view);
        let mut about = format!("{ppi} ppi at this size. ");
        about.push_str(&view.said.join(" "));
        crate::widgets::note(ui, about.trim());
    });
}

/// True pixels per inch at the printed size, the lower of both directions.
fn resolution(view: &View<'_>) -> i64 {
    let (picture, image) = (&view.work.picture, view.work.image.size);
    let ppi = |pixels: u32, length: sightedge_core::length::Length| {
        if !length.is_positive() {
            return 0;
        }
        let inch = i128::from(sightedge_core::length::Length::INCH.units());
        let ppi = i128::from(pixels) * inch / i128::from(length.units());
        i64::try_from(ppi).unwrap_or(i64::MAX)
    };
    ppi(picture.width_px, image.width).min(ppi(picture.height_px, image.height))
}

fn name_of<'a>(view: &View<'a>, sheet: Size) -> &'a str {
    let known = view.tables.sheets.iter();
    known
        .filter(|row| row.size == sheet || row.size == sheet.turned())
        .map(|row| row.name.as_str())
        .next()
        .unwrap_or("Own size")
}
