//! Names of files that every system takes, and that no two plans share.

use std::collections::BTreeMap;
use std::path::Path;

use sightedge_core::spec::Document;

/// A name is no longer, in bytes of UTF-8, so that an ending and a folder find room.
const MOST: usize = 120;

/// `name` as a file's name that every system takes: what one of them forbids becomes `-`, dots
/// and spaces at its ends go, and a name that one of them reserves gets a `_`.
/// Source: Naming Files, Paths, and Namespaces (the largest system's own reference); POSIX.
pub fn safe(name: &str) -> String {
    let forbidden = |c: char| c.is_control() || "<>:\"/\\|?*".contains(c);
    let mut safe: String = name.chars().map(|c| if forbidden(c) { '-' } else { c }).collect();
    while safe.len() > MOST {
        safe.pop();
    }
    let trimmed = safe.trim_matches(|c: char| c == '.' || c.is_whitespace());
    let stem = trimmed.split('.').next().unwrap_or_default().to_ascii_uppercase();
    let numbered = |start: &str| {
        stem.strip_prefix(start).is_some_and(|rest| {
            matches!(rest, "¹" | "²" | "³")
                || (rest.len() == 1 && rest.starts_with(|c: char| c.is_ascii_digit()))
        })
    };
    let reserved = matches!(stem.as_str(), "CON" | "PRN" | "AUX" | "NUL")
        || numbered("COM")
        || numbered("LPT");
    match trimmed {
        "" => "picture".to_owned(),
        name if reserved => format!("_{name}"),
        name => name.to_owned(),
    }
}

/// What the papers of a plan are called: after its picture, else after its title.
pub(crate) fn stem(document: &Document) -> String {
    let work = document.works.first();
    let path = work.map_or("", |work| work.picture.path.as_str());
    let file = path.rsplit('/').next().unwrap_or_default();
    let stem = file.rsplit_once('.').map_or(file, |(stem, _)| stem);
    safe(if stem.is_empty() { work.map_or("", |work| work.title.as_str()) } else { stem })
}

/// A print's number in a file's name: `3-25` for 3/25.
pub(crate) fn of_print(number: &str) -> String {
    number.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect()
}

/// A stem for each plan, given as its id and the stem it would have alone: where two plans
/// would share one, or a file of another plan is there already, part of the id is added.
/// Capitals count as small letters: some systems make no difference.
pub fn unique(plans: &[(String, String)], taken: impl Fn(&str, &str) -> bool) -> Vec<String> {
    let mut first: BTreeMap<String, &str> = BTreeMap::new();
    plans
        .iter()
        .map(|(id, stem)| {
            let owner = *first.entry(stem.to_lowercase()).or_insert(id);
            if owner == id && !taken(stem, id) {
                return stem.clone();
            }
            // The id is long enough to tell plans apart; its beginning nearly always is.
            let short: String = id.chars().take(8).collect();
            let name = format!("{stem}-{}", safe(&short));
            let owner = *first.entry(name.to_lowercase()).or_insert(id);
            if owner == id && !taken(&name, id) { name } else { format!("{stem}-{}", safe(id)) }
        })
        .collect()
}

/// Whether a file that is there was written for another plan: its text holds no id of this one.
pub(crate) fn belongs_to_another(path: &Path, id: &str) -> bool {
    match std::fs::read(path) {
        Ok(bytes) => !bytes.windows(id.len().max(1)).any(|part| part == id.as_bytes()),
        // What is there and cannot be read is not ours to replace.
        Err(error) => error.kind() != std::io::ErrorKind::NotFound,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers() {
        assert_eq!(of_print("3/25"), "3-25");
        assert_eq!(of_print("AP II/V"), "AP-II-V");
    }

    #[test]
    fn safe_names() {
        for (name, wanted) in [
            ("slack-water", "slack-water"),
            ("a/b\\c:d", "a-b-c-d"),
            ("..hidden. ", "hidden"),
            ("con", "_con"),
            ("COM1.x", "_COM1.x"),
            ("common", "common"),
            ("", "picture"),
            ("Ōtsu 大津", "Ōtsu 大津"),
        ] {
            assert_eq!(safe(name), wanted);
        }
        assert!(safe(&"é".repeat(200)).len() <= MOST, "long names are cut");
    }

    #[test]
    fn no_two_plans_share_a_name() {
        let plan = |id: &str, stem: &str| (id.to_owned(), stem.to_owned());
        let plans =
            [plan("aaaaaaaa11", "ebb"), plan("bbbbbbbb22", "Ebb"), plan("aaaaaaaa33", "ebb")];
        let names = unique(&plans, |_, _| false);
        assert_eq!(names, ["ebb", "Ebb-bbbbbbbb", "ebb-aaaaaaaa"]);
        let names = unique(&plans[..1], |name, _| name == "ebb");
        assert_eq!(names, ["ebb-aaaaaaaa"]);
    }
}
