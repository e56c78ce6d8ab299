//! The studio's own head: who stands on the pages that leave the house.

use std::path::PathBuf;

use egui::Ui;
use sightedge_papers::House;

use crate::window::context::Requests;
use crate::window::request::Action;
use crate::window::widgets;

/// The fields for it; what is typed is kept in the settings.
pub(super) fn show(ui: &mut Ui, house: &House, requests: &mut Requests) {
    let mut new = house.clone();
    let text = |ui: &mut Ui, label: &str, name: &str, now: &str, hint: &str| {
        let mut typed = None;
        widgets::row(ui, label, |ui| {
            let width = widgets::field_width(ui, 1);
            typed = widgets::text(ui, name, now, hint, width);
        });
        typed
    };
    widgets::group(ui, "Your studio", |ui| {
        if let Some(typed) = text(ui, "name", "Studio name", &house.name, "on certificates") {
            typed.trim().clone_into(&mut new.name);
        }
        // A comma ends a line of an address.
        let address = house.address.replace('\n', ", ");
        let hint = "street, town";
        if let Some(typed) = text(ui, "address", "Studio address", &address, hint) {
            let lines: Vec<&str> = typed.split(',').map(str::trim).collect();
            new.address = lines.join("\n");
        }
        let hint = "telephone, mail";
        if let Some(typed) = text(ui, "contact", "Studio contact", &house.contact, hint) {
            typed.trim().clone_into(&mut new.contact);
        }
        let logo = house.logo.as_ref().map(|path| path.display().to_string());
        let hint = "a picture file";
        if let Some(typed) = text(ui, "logo", "Logo file", &logo.unwrap_or_default(), hint) {
            let typed = typed.trim();
            new.logo = (!typed.is_empty()).then(|| PathBuf::from(typed));
        }
    });
    if new != *house {
        requests.actions.push(Action::House(Box::new(new)));
    }
}
