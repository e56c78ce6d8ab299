//! The print: its sheet and the image on it.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::geometry::{Point, Rect, Side, Size};
use sightedge_core::length::Length;
use sightedge_core::spec::{Picture, margins};

use crate::window::context::{Requests, View};
use crate::window::widgets::{
    Hint, Picture as Shown, SidesEvent, SidesField, asked, field_width, heading, hinted,
    labelled, list, lock, note,
};

/// What stands for a size that no table has.
pub(super) const CUSTOM: &str = "Custom size";

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let work = view.work;
    let (sheet, image) = (work.sheet, work.image);
    let on = |other: Size| Command::SetPaper(work.id, other, image_on(image, sheet, other));
    let hint = Hint::new("A standard size for the sheet of paper; type another below");
    heading(ui, "The print", |ui| {
        let lying = sheet.width > sheet.height;
        let width = field_width(ui, 1);
        let chosen = sightedge_service::wording::sides(name_of(view, sheet), lying);
        let known = view.tables.sheets.iter().map(|known| {
            let size = if lying { known.size.turned() } else { known.size };
            (sightedge_service::wording::sides(&known.name, lying), size).into()
        });
        let picked = hinted(ui, &hint, |ui| list(ui, "Paper size", &chosen, width, known));
        if let Some(size) = picked {
            requests.run(on(size));
        }
    });
    let hint = Hint::new("Width and height of the whole sheet of paper");
    asked(ui, "sheet", &hint, |ui| requests.size(ui, "Sheet", sheet, view, on));
    let id = ui.make_persistent_id("image set free");
    let set_free = ui.data(|data| data.get_temp(id)).unwrap_or(false);
    // A plan whose image was set free says so by its sides.
    let kept = work.picture.is_kept_by(image.size);
    let locked = kept && !set_free;
    let to = |size| Command::SetPaper(work.id, sheet, about_its_middle(image, size));
    let hint = Hint::new("Width and height of the printed image, without its margins");
    let (beside, ()) = hinted(ui, &hint, |ui| {
        labelled(ui, "image", |ui| {
            requests.size(ui, "Image", image.size, view, |size| {
                to(if locked { following(&work.picture, image.size, size) } else { size })
            });
        })
    });
    let pressed = lock(ui, beside, "Keep the picture's proportion", locked)
        .on_hover_text(if locked {
            "Type the width or the height, and the other follows by the picture's proportion. \
             Press to set both free."
        } else {
            "Width and height are free. Press to keep the picture's proportion."
        })
        .clicked();
    if pressed {
        ui.data_mut(|data| data.insert_temp(id, locked));
        if !kept && let Some(size) = work.picture.largest_in(image.size) {
            requests.run(to(size));
        }
    }
    let hint = Hint::new(
        "The paper left round the image. One figure for all sides fits the image inside that \
         margin; one side by itself moves the image on the sheet.",
    )
    .picture(Shown::Margin);
    let field = SidesField {
        label: "margins",
        name: "Image margin",
        sides: margins(sheet, image),
        unit: view.unit(),
        enabled: true,
        hint: &hint,
        leaves: Some(sheet),
    };
    let keeps = locked.then_some(&work.picture);
    requests.sides(ui, field, |typed| {
        Command::SetPaper(work.id, sheet, in_margins(image, sheet, keeps, typed))
    });
    let ppi = resolution(view);
    let mut about = format!("{ppi} ppi at this size. ");
    about.push_str(&view.said.join(" "));
    note(ui, about.trim());
}

/// The image with other margins: moved by one side, or as large as all four leave it, in the
/// proportion of the picture that it `keeps`.
fn in_margins(image: Rect, sheet: Size, keeps: Option<&Picture>, typed: SidesEvent) -> Rect {
    let Size { width, height } = image.size;
    let at = match typed {
        SidesEvent::One(Side::Left, left) => Point::new(left, image.at.y),
        SidesEvent::One(Side::Right, right) => {
            Point::new(sheet.width - width - right, image.at.y)
        }
        SidesEvent::One(Side::Top, top) => Point::new(image.at.x, top),
        SidesEvent::One(Side::Bottom, bottom) => {
            Point::new(image.at.x, sheet.height - height - bottom)
        }
        SidesEvent::All(sides) => {
            let room = Size::new(
                sheet.width - sides.left - sides.right,
                sheet.height - sides.top - sides.bottom,
            );
            let size = keeps.and_then(|picture| picture.largest_in(room)).unwrap_or(room);
            let all = Rect::new(Point::new(sides.left, sides.top), room);
            return about_its_middle(all, size);
        }
    };
    Rect::new(at, image.size)
}

/// The image of another size about its own middle, as it is centred on most sheets.
fn about_its_middle(image: Rect, size: Size) -> Rect {
    let (x, _) = (image.size.width - size.width).halves();
    let (y, _) = (image.size.height - size.height).halves();
    Rect::new(Point::new(image.at.x + x, image.at.y + y), size)
}

/// The size asked for, with the side that was not typed in the picture's proportion: exactly, as
/// a printer makes it, not on the maker's ruler.
fn following(picture: &Picture, old: Size, asked: Size) -> Size {
    let follows = if asked.width == old.width {
        picture.width_at(asked.height).map(|width| Size::new(width, asked.height))
    } else {
        picture.height_at(asked.width).map(|height| Size::new(asked.width, height))
    };
    follows.unwrap_or(asked)
}

/// The image on another sheet: as large as it was, or in its own proportion as large as goes on
/// it; its margins grow and shrink by equal parts.
fn image_on(image: Rect, sheet: Size, other: Size) -> Rect {
    let Size { width, height } = image.size;
    let (wide, high) = (other.width.units().into(), other.height.units().into());
    let fits = width <= other.width && height <= other.height;
    let size = if fits || !image.size.is_positive() || !other.is_positive() {
        image.size
    } else if other.width.scaled(height.units().into(), width.units().into()) <= other.height {
        Size::new(other.width, height.scaled(wide, width.units().into()))
    } else {
        Size::new(width.scaled(high, height.units().into()), other.height)
    };
    // Its middle keeps its distance from the sheet's middle where that leaves it on the sheet.
    let at = |from: Length, old: Length, length: Length, sheet: Length, other: Length| {
        let (middle, _) = (from * 2 + old - sheet + other - length).halves();
        middle.max(Length::ZERO).min((other - length).max(Length::ZERO))
    };
    let x = at(image.at.x, width, size.width, sheet.width, other.width);
    let y = at(image.at.y, height, size.height, sheet.height, other.height);
    Rect::new(Point::new(x, y), size)
}

/// True pixels per inch at the printed size, the lower of both directions.
fn resolution(view: &View<'_>) -> i64 {
    let (picture, image) = (&view.work.picture, view.work.image.size);
    let ppi = |pixels: u32, length: Length| {
        if !length.is_positive() {
            return 0;
        }
        let inch = i128::from(Length::INCH.units());
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
        .unwrap_or(CUSTOM)
}

#[cfg(test)]
mod tests {
    use super::*;
    use sightedge_core::geometry::Sides;

    fn size(width: i64, height: i64) -> Size {
        Size::new(Length::mm(width), Length::mm(height))
    }

    #[track_caller]
    fn case(image: [i64; 4], sheet: (i64, i64), other: (i64, i64), wanted: [i64; 4]) {
        let rect = |[x, y, w, h]: [i64; 4]| {
            Rect::new(Point::new(Length::mm(x), Length::mm(y)), size(w, h))
        };
        let (sheet, other) = (size(sheet.0, sheet.1), size(other.0, other.1));
        assert_eq!(image_on(rect(image), sheet, other), rect(wanted));
    }

    #[test]
    fn the_image_keeps_its_size_or_its_proportion() {
        // Centred, and lying high on the sheet.
        case([20, 30, 100, 140], (140, 200), (160, 240), [30, 50, 100, 140]);
        case([20, 10, 100, 140], (140, 200), (160, 240), [30, 30, 100, 140]);
        // All of the sheet: never out of proportion.
        case([0, 0, 100, 150], (100, 150), (200, 150), [50, 0, 100, 150]);
        case([0, 0, 100, 150], (100, 150), (100, 75), [25, 0, 50, 75]);
        case([0, 0, 100, 150], (100, 150), (50, 205), [0, 65, 50, 75]);
    }

    /// Source: derived; 2200 × 3000 pixels are 11 × 15 in.
    #[test]
    fn margins_move_the_image_or_fit_it() {
        let picture = Picture {
            path: String::new(),
            sha256: String::new(),
            width_px: 2200,
            height_px: 3000,
        };
        let rect = |x, y, w, h| Rect::new(Point::new(Length::mm(x), Length::mm(y)), size(w, h));
        let (image, sheet) = (rect(20, 30, 110, 150), size(200, 300));
        let one = |side, mm| SidesEvent::One(side, Length::mm(mm));
        for (typed, wanted) in [
            (one(Side::Left, 5), rect(5, 30, 110, 150)),
            (one(Side::Right, 5), rect(85, 30, 110, 150)),
            (one(Side::Top, 5), rect(20, 5, 110, 150)),
            (one(Side::Bottom, 5), rect(20, 145, 110, 150)),
        ] {
            assert_eq!(in_margins(image, sheet, Some(&picture), typed), wanted, "{typed:?}");
        }
        // 45 all round leaves 110 × 210, of which the picture fills the width.
        let all = SidesEvent::All(Sides::all(Length::mm(45)));
        assert_eq!(in_margins(image, sheet, Some(&picture), all), rect(45, 75, 110, 150));
        assert_eq!(in_margins(image, sheet, None, all), rect(45, 45, 110, 210));
    }

    /// Source: derived; 2200 × 3000 pixels are 11 × 15 in.
    #[test]
    fn the_other_side_follows_exactly() {
        let picture = |width_px, height_px| Picture {
            path: String::new(),
            sha256: String::new(),
            width_px,
            height_px,
        };
        let (tall, old) = (picture(2200, 3000), size(220, 300));
        assert_eq!(following(&tall, old, size(110, 300)), size(110, 150));
        assert_eq!(following(&tall, old, size(220, 150)), size(110, 150));
        assert_eq!(following(&tall, old, old), old);
        assert_eq!(following(&picture(0, 0), old, size(110, 300)), size(110, 300));
    }
}
