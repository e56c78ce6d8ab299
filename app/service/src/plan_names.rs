//! What a plan is called: one name for tabs, lists, questions and printouts, and plans of one
//! picture told apart.

use std::collections::BTreeMap;
use std::path::Path;

use sightedge_core::spec::Document;

use crate::files;

/// A plan's name: its title, else its picture's file; with the mat's name where the plan has
/// several mats.
pub fn plan_name(document: &Document) -> String {
    let name = files::title_of(document);
    match document.chosen() {
        Some(mat) if document.variants.len() > 1 && !mat.name.is_empty() => {
            format!("{name}, {}", mat.name)
        }
        _ => name,
    }
}

/// The names of several plans, each with where it is saved. Those of one name also carry the
/// plan's file, and its folder where that is the same too.
pub fn told_apart<'a>(
    plans: impl IntoIterator<Item = (&'a Document, &'a Path)>,
) -> Vec<String> {
    let plans: Vec<(String, &Path)> =
        plans.into_iter().map(|(document, path)| (plan_name(document), path)).collect();
    let mut names: Vec<String> = plans.iter().map(|(name, _)| name.clone()).collect();
    let more: [fn(&str, &Path) -> String; 3] = [
        // The plan that has its picture's own name needs no other.
        |name, path| {
            let stem = stem(path);
            if stem == name { stem } else { format!("{name} ({stem})") }
        },
        |name, path| {
            let folder = path.parent().and_then(Path::file_name).unwrap_or_default();
            format!("{name} ({} in {})", stem(path), folder.to_string_lossy())
        },
        |name, path| format!("{name} ({})", path.display()),
    ];
    for longer in more {
        let mut count: BTreeMap<String, usize> = BTreeMap::new();
        for name in &names {
            *count.entry(name.clone()).or_default() += 1;
        }
        for (shown, (name, path)) in names.iter_mut().zip(&plans) {
            if count.get(shown).is_some_and(|count| *count > 1) {
                *shown = longer(name, path);
            }
        }
    }
    names
}

/// A plan's file without its ending.
fn stem(path: &Path) -> String {
    let name = path.file_name().unwrap_or(path.as_os_str()).to_string_lossy();
    name.strip_suffix(".sightedge.ron").unwrap_or(&name).to_owned()
}

#[cfg(test)]
mod tests {
    use sightedge_core::geometry::{Point, Rect, Size};
    use sightedge_core::length::{Length, Unit};
    use sightedge_core::material::Tables;
    use sightedge_core::spec::{Picture, Start};

    use super::*;

    fn plan(picture: &str) -> Document {
        let size = Size::new(Length::mm(200), Length::mm(300));
        let (path, sha256) = (picture.to_owned(), String::new());
        let picture = Picture { path, sha256, width_px: 2000, height_px: 3000 };
        let image = Rect::new(Point::default(), size);
        let (id, unit) = (String::new(), Unit::Millimetre);
        Start { id, unit, picture, sheet: size, image }.plan(Tables::shipped())
    }

    #[track_caller]
    fn case(plans: &[(&str, &str)], expected: &[&str]) {
        let documents: Vec<Document> = plans.iter().map(|(picture, _)| plan(picture)).collect();
        let paths = plans.iter().map(|(_, path)| Path::new(*path));
        assert_eq!(told_apart(documents.iter().zip(paths)), expected);
    }

    #[test]
    fn plans_of_one_picture_are_told_apart() {
        case(&[("a.tif", "/x/a.sightedge.ron")], &["a.tif"]);
        case(
            &[("a.tif", "/x/a.sightedge.ron"), ("b.tif", "/x/b.sightedge.ron")],
            &["a.tif", "b.tif"],
        );
        case(
            &[("a.tif", "/x/a.sightedge.ron"), ("a.tif", "/x/wide.sightedge.ron")],
            &["a.tif (a)", "a.tif (wide)"],
        );
        case(
            &[("a.tif", "/x/a.sightedge.ron"), ("a.tif", "/y/a.sightedge.ron")],
            &["a.tif (a in x)", "a.tif (a in y)"],
        );
        // As the window names a plan's file by its picture.
        case(
            &[("a.tif", "/x/a.tif.sightedge.ron"), ("a.tif", "/x/wide.sightedge.ron")],
            &["a.tif", "a.tif (wide)"],
        );
        case(
            &[("a.tif", "/v/x/a.sightedge.ron"), ("a.tif", "/w/x/a.sightedge.ron")],
            &["a.tif (/v/x/a.sightedge.ron)", "a.tif (/w/x/a.sightedge.ron)"],
        );
    }

    #[test]
    fn the_title_comes_first_and_one_of_several_mats_is_named() {
        let mut document = plan("a.tif");
        document.works[0].title = "Slack water".to_owned();
        assert_eq!(plan_name(&document), "Slack water");
        let mut other = document.variants[0].clone();
        other.id.0 += 1;
        other.name = "wide".to_owned();
        document.variants[0].name = "narrow".to_owned();
        document.variants.push(other);
        let chosen = document.chosen().unwrap().name.clone();
        assert_eq!(plan_name(&document), format!("Slack water, {chosen}"));
    }
}
