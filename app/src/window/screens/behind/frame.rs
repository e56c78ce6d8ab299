//! The frame and what goes into it, the bag of a piece without one, and the wall.

use egui::Ui;
use sightedge_core::command::Command;
use sightedge_core::geometry::Size;
use sightedge_core::length::Length;
use sightedge_core::material::{Filler, Frame, Glazing};
use sightedge_core::package::{
    contents_of, keep_usual, unmeasured, usual_allowance, usual_centre,
};
use sightedge_core::spec::{BoardBy, FrameSize, Hanging, Hooks, Package, Placement};

use super::parts::{Open, mass, number};
use crate::window::context::{Requests, View};
use crate::window::widgets::{
    Entry, Hint, LengthField, Picture, asked, choice, field_width, group, hinted, list, note,
    pick, row,
};

pub(super) fn show(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    group(ui, "The frame", |ui| {
        frame(ui, view, requests);
        if view.mat.assembly.framed() {
            size(ui, view, requests);
            layers(ui, view, requests);
        } else {
            bag(ui, view, requests);
        }
        weighed(ui, view, requests);
    });
    if view.mat.assembly.framed() {
        group(ui, "The wall", |ui| wall(ui, view, requests));
    }
}

fn put(view: &View<'_>, package: Package) -> Command {
    Command::SetPackage(view.variant, Box::new(package))
}

fn frame(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let package = &view.mat.assembly.package;
    let hint = Hint::new("The moulding, a frame you have and measured, or none");
    asked(ui, "frame", &hint, |ui| {
        let none = "None: matted and bagged";
        let own = "A frame you have, measured";
        let chosen = match (&package.frame, package.size) {
            (Some(frame), _) if frame.id.is_empty() => own,
            (Some(frame), _) => frame.name.as_str(),
            (None, Some(_)) => own,
            (None, None) => none,
        };
        let entry =
            |words: &str, colour, value| Entry { words: words.to_owned(), colour, value };
        let known = view.tables.frames.iter();
        let options = [
            entry(none, None, None),
            entry(own, None, Some(unmeasured("Your own frame", view.unit()))),
        ]
        .into_iter()
        .chain(known.map(|frame| entry(&frame.name, frame.colour, Some(frame.clone()))));
        let width = field_width(ui, 1);
        if let Some(frame) = list(ui, &format!("Frame: {chosen}"), chosen, width, options) {
            let size = if frame.is_some() { package.size } else { None };
            let mut package = Package { frame, size, ..package.clone() };
            keep_usual(&mut package, view.tables);
            requests.run(put(view, package));
        }
    });
    let Some(frame) = &package.frame else { return };
    let set = |frame: Frame| put(view, Package { frame: Some(frame), ..package.clone() });
    row(ui, "rabbet depth", |ui| {
        let width = field_width(ui, 2);
        let packed = view.derived.assembly.package.as_ref();
        let needed = packed.map(|packed| packed.rabbet).unwrap_or_default();
        Open {
            name: "Depth of the rabbet",
            given: frame.rabbet_depth,
            usual: Some(needed),
            unit: view.unit(),
            width,
            hint: Hint::new(
                "From the lip back; until you measure it, as deep as the package needs.",
            )
            .picture(Picture::RabbetDepth),
        }
        .show(ui, requests, |rabbet_depth| set(Frame { rabbet_depth, ..frame.clone() }));
    });
    let hint = Hint::new("How far the frame’s lip reaches over the edge of what goes in")
        .picture(Picture::Lip);
    asked(ui, "lip", &hint, |ui| {
        let lip = LengthField::new("Lip", frame.lip, view.unit()).width(field_width(ui, 2));
        requests.length(ui, lip, |lip| set(Frame { lip: at_least(lip), ..frame.clone() }));
    });
}

fn at_least(length: Length) -> Length {
    length.max(Length::ZERO)
}

fn size(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    #[derive(Clone, Copy, PartialEq)]
    enum By {
        Mat,
        Rabbet,
        Contents,
    }
    let package = &view.mat.assembly.package;
    let Some(packed) = &view.derived.assembly.package else { return };
    let allowance = package.allowance.unwrap_or(usual_allowance(view.unit()));
    let rabbet = packed.framed.as_ref().map_or(packed.contents, |framed| framed.rabbet);
    let hint = Hint::new(
        "The mat: the frame is made for it. Rabbet: you give the frame’s inside. Package: you give \
         the size of what goes in, which is smaller by the allowance",
    );
    asked(ui, "size from", &hint, |ui| {
        let by = match package.size {
            None => By::Mat,
            Some(FrameSize::Rabbet(_)) => By::Rabbet,
            Some(FrameSize::Contents(_)) => By::Contents,
        };
        let options = [(By::Mat, "the mat"), (By::Rabbet, "rabbet"), (By::Contents, "package")];
        let width = field_width(ui, 1);
        if let Some(by) = choice(ui, "Frame sized by", Some(by), &options, width) {
            let size = match by {
                By::Mat => None,
                By::Rabbet => Some(FrameSize::Rabbet(rabbet)),
                By::Contents => {
                    Some(FrameSize::Contents(contents_of(FrameSize::Rabbet(rabbet), allowance)))
                }
            };
            requests.run(put(view, Package { size, ..package.clone() }));
        }
    });
    if let Some(size) = package.size {
        let (name, given) = match size {
            FrameSize::Rabbet(size) => ("Rabbet", size),
            FrameSize::Contents(size) => ("Package", size),
        };
        let hint = Hint::new("Width and height, as you measured them");
        asked(ui, &name.to_lowercase(), &hint, |ui| {
            requests.size(ui, name, given, view, |typed: Size| {
                let size = match size {
                    FrameSize::Rabbet(_) => FrameSize::Rabbet(typed),
                    FrameSize::Contents(_) => FrameSize::Contents(typed),
                };
                put(view, Package { size: Some(size), ..package.clone() })
            });
        });
        let wanted = contents_of(size, allowance);
        let outer = view.derived.layout.exact.outer;
        if wanted != packed.contents && wanted != outer && wanted.is_positive() {
            row(ui, "", |ui| {
                let size = wanted
                    .extent_text(|side| sightedge_service::wording::length(side, view.unit()));
                let words = format!("Make the mat {size}");
                if ui.button(words).clicked() {
                    let placement = match view.mat.board_by {
                        BoardBy::Outer { placement, .. } => placement,
                        BoardBy::Borders(_) => Placement::Centred,
                    };
                    let board_by = BoardBy::Outer { size: wanted, placement };
                    requests.run(Command::SetBoardBy(view.variant, board_by));
                }
            });
        }
    }
    row(ui, "allowance", |ui| {
        let width = field_width(ui, 2);
        Open {
            name: "Allowance",
            given: package.allowance,
            usual: Some(usual_allowance(view.unit())),
            unit: view.unit(),
            width,
            hint: Hint::new(
                "How much smaller than the rabbet the package is, both sides together.",
            )
            .picture(Picture::Allowance),
        }
        .show(ui, requests, |allowance| put(view, Package { allowance, ..package.clone() }));
    });
}

fn layers(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let package = &view.mat.assembly.package;
    let packed = view.derived.assembly.package.as_ref();
    let hint = Hint::new("Glass or acrylic over the mat");
    asked(ui, "glazing", &hint, |ui| {
        let used = packed.and_then(|packed| packed.framed.as_ref());
        let chosen = used.map_or("", |framed| framed.glazing.name.as_str());
        let options = view.tables.glazing.iter().map(|one| (one.name.clone(), one.clone()));
        let width = field_width(ui, 1);
        if let Some(glazing) = pick::<Glazing>(ui, "Glazing", chosen, width, options) {
            requests.run(put(view, Package { glazing: Some(glazing), ..package.clone() }));
        }
    });
    row(ui, "spacer", |ui| {
        let width = field_width(ui, 2);
        Open {
            name: "Spacer",
            given: package.spacer,
            usual: Some(Length::ZERO),
            unit: view.unit(),
            width,
            hint: Hint::new("A strip that keeps the glazing off the mat, hidden by the lip.")
                .picture(Picture::Spacer),
        }
        .show(ui, requests, |spacer| put(view, Package { spacer, ..package.clone() }));
    });
    let hint = Hint::new("The board behind the backing, which fills the frame’s depth");
    asked(ui, "filler board", &hint, |ui| {
        let usual = view.tables.filler("foam-5");
        let used = package.filler.as_ref().or(usual);
        let chosen = used.map_or("", |filler| filler.name.as_str());
        let options = view.tables.fillers.iter().map(|one| (one.name.clone(), one.clone()));
        let width = field_width(ui, 1);
        if let Some(filler) = pick::<Filler>(ui, "Behind the backing", chosen, width, options) {
            requests.run(put(view, Package { filler: Some(filler), ..package.clone() }));
        }
    });
}

fn bag(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let package = &view.mat.assembly.package;
    let hint = Hint::new("The clear bag of a piece that is sold without a frame");
    asked(ui, "bag", &hint, |ui| {
        let none = "Not chosen";
        let chosen = package.bag.as_ref().map_or(none, |bag| bag.name.as_str());
        let known = view.tables.bags.iter();
        let options = std::iter::once((none.to_owned(), None))
            .chain(known.map(|bag| (bag.name.clone(), Some(bag.clone()))));
        let width = field_width(ui, 1);
        if let Some(bag) = pick(ui, "Bag", chosen, width, options) {
            requests.run(put(view, Package { bag, ..package.clone() }));
        }
    });
}

fn weighed(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let package = &view.mat.assembly.package;
    let Some(packed) = &view.derived.assembly.package else { return };
    let hint = Hint::new("Estimated from the layers, or as you weighed the finished piece");
    asked(ui, "mass", &hint, |ui| {
        let width = 150.0;
        let weighed = package.mass_g.is_some();
        let options = [(false, "estimated"), (true, "weighed")];
        if let Some(weighed) = choice(ui, "Mass by", Some(weighed), &options, width) {
            let mass_g = weighed.then(|| grams(packed.mass_g));
            requests.run(put(view, Package { mass_g, ..package.clone() }));
        }
        let rest = field_width(ui, 1);
        let typed =
            package.mass_g.and_then(|grams| mass(ui, "Mass", grams, view.weights(), rest));
        if let Some(mass) = typed.filter(|grams| *grams > 0) {
            requests.run(put(view, Package { mass_g: Some(mass), ..package.clone() }));
        }
    });
}

/// Whole grams, at least one.
#[expect(
    clippy::as_conversions,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held within the range first"
)]
fn grams(mass: f64) -> u32 {
    mass.round().clamp(1.0, 1e6) as u32
}

fn wall(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let hanging = view.mat.assembly.hanging;
    let set = |hanging: Hanging| Command::SetHanging(view.variant, hanging);
    let Some(packed) = &view.derived.assembly.package else { return };
    let unit = view.unit();
    let hint = Hint::new("Hooks in the wall: two keep the picture level");
    asked(ui, "hooks", &hint, |ui| {
        let width = field_width(ui, 2);
        let two = matches!(hanging.hooks, Hooks::Two(_));
        let options = [(false, "one"), (true, "two")];
        if let Some(two) = choice(ui, "Hooks", Some(two), &options, width) {
            let apart = hanging.rings_apart.unwrap_or(packed.contents.width).scaled(1, 2);
            let hooks = if two { Hooks::Two(apart) } else { Hooks::One };
            requests.run(set(Hanging { hooks, ..hanging }));
        }
        if let Hooks::Two(apart) = hanging.hooks {
            let hint = Hint::new("From hook to hook").picture(Picture::HooksApart);
            let field = LengthField::new("Hooks apart", apart, unit).width(width).hint(&hint);
            requests.length(ui, field, |apart| {
                set(Hanging { hooks: Hooks::Two(at_least(apart)), ..hanging })
            });
        }
    });
    let outside = packed.framed.as_ref().map_or(packed.contents, |framed| framed.outside);
    let mut open = |ui: &mut Ui,
                    (label, name): (&str, &str),
                    (given, usual): (Option<Length>, Option<Length>),
                    hint: Hint,
                    to: fn(Hanging, Option<Length>) -> Hanging| {
        row(ui, label, |ui| {
            let width = field_width(ui, 2);
            Open { name, given, usual, unit, width, hint }
                .show(ui, requests, |length| set(to(hanging, length)));
        });
    };
    open(
        ui,
        ("rings apart", "Rings apart"),
        (hanging.rings_apart, None),
        Hint::new("From ring to ring on the frame’s back.").picture(Picture::RingsApart),
        |hanging, rings_apart| Hanging { rings_apart, ..hanging },
    );
    open(
        ui,
        ("rings down", "Rings below the frame's top"),
        (hanging.rings_below, None),
        Hint::new("From the frame’s top down to the rings.").picture(Picture::RingsBelow),
        |hanging, rings_below| Hanging { rings_below, ..hanging },
    );
    open(
        ui,
        ("wire rise", "Rise of the wire"),
        (hanging.rise, None),
        Hint::new("How far the wire, pulled up by the hooks, is above the rings.")
            .picture(Picture::Rise),
        |hanging, rise| Hanging { rise, ..hanging },
    );
    open(
        ui,
        ("centre height", "Middle above the floor"),
        (hanging.centre, Some(usual_centre(unit))),
        Hint::new("From the floor to the middle of the picture.").picture(Picture::Centre),
        |hanging, centre| Hanging { centre, ..hanging },
    );
    let hint = Hint::new("Outside width and height of the frame").picture(Picture::Outside);
    asked(ui, "frame outside", &hint, |ui| {
        let size = hanging.frame_size.unwrap_or(outside);
        requests.size(ui, "Frame outside", size, view, |size| {
            set(Hanging { frame_size: Some(size), ..hanging })
        });
    });
    ratings(ui, view, requests);
}

/// What the parts are rated for, and how many times what they carry that must be.
fn ratings(ui: &mut Ui, view: &View<'_>, requests: &mut Requests) {
    let hanging = view.mat.assembly.hanging;
    let set = |hanging: Hanging| Command::SetHanging(view.variant, hanging);
    let hint = Hint::new(
        "How many times what it carries each part must be rated for: four is trade habit",
    );
    asked(ui, "safety factor", &hint, |ui| {
        let width = field_width(ui, 2);
        let factor = hanging.factor_tenths.unwrap_or(40).div_ceil(10);
        if let Some(factor) = number(ui, "Safety factor", factor, 1..=20, "times", width) {
            requests.run(set(Hanging { factor_tenths: Some(factor * 10), ..hanging }));
        }
    });
    row(ui, "wire, hooks", |ui| {
        let width = field_width(ui, 2);
        let rated = |grams: Option<u32>| grams.unwrap_or(0);
        let hint = Hint::new("The pull that the wire and each ring are rated for");
        let name = "Wire and each ring are rated for";
        let wire = rated(hanging.wire_rated_g);
        let typed = hinted(ui, &hint, |ui| mass(ui, name, wire, view.weights(), width));
        if let Some(grams) = typed {
            let wire_rated_g = Some(grams).filter(|grams| *grams > 0);
            requests.run(set(Hanging { wire_rated_g, ..hanging }));
        }
        let hint = Hint::new("The weight that each hook is rated for");
        let name = "Each hook is rated for";
        let hook = rated(hanging.hook_rated_g);
        let typed = hinted(ui, &hint, |ui| mass(ui, name, hook, view.weights(), width));
        if let Some(grams) = typed {
            let hook_rated_g = Some(grams).filter(|grams| *grams > 0);
            requests.run(set(Hanging { hook_rated_g, ..hanging }));
        }
    });
    note(ui, "What wire and hooks are rated for, by their makers; leave empty if not known.");
}
