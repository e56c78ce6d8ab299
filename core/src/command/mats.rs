//! Several mats for one picture: new from another, renamed, removed, reordered, chosen.

use super::{Command, Refusal, as_cut};
use crate::spec::{Choice, Document, Mat, Variant, VariantId};

/// The command that adds a copy of the mat `of` right behind it, under `name`. What was cut of
/// `of` is not cut of the copy: it follows what was planned. `None` where there is no such mat.
pub fn copy_mat(document: &Document, of: VariantId, name: &str) -> Option<Command> {
    let at = document.variants.iter().position(|variant| variant.id == of)?;
    let mut mat = document.variants.get(at)?.mat.clone();
    as_cut::forget_cuts(&mut mat);
    Some(Command::AddMat(at + 1, Box::new(variant(document, name, mat))))
}

/// The command that adds `mat` behind all others, under `name`.
pub fn new_mat(document: &Document, name: &str, mat: Mat) -> Command {
    Command::AddMat(document.variants.len(), Box::new(variant(document, name, mat)))
}

fn variant(document: &Document, name: &str, mat: Mat) -> Variant {
    Variant { id: next_id(document), name: name.trim().to_owned(), mat }
}

/// A name that no mat of the plan has yet: `Second`, `Third` … `Sixth`, then `Mat 7` and on.
pub fn free_name(document: &Document) -> String {
    const NAMES: [&str; 6] = ["First", "Second", "Third", "Fourth", "Fifth", "Sixth"];
    let count = document.variants.len();
    let names = NAMES.iter().skip(count).map(|name| (*name).to_owned());
    let numbers = (count + 1..).map(|number| format!("Mat {number}"));
    names.chain(numbers).find(|name| !has_name(document, name, None)).unwrap_or_default()
}

/// Whether a mat other than `except` has that name, large and small letters alike.
fn has_name(document: &Document, name: &str, except: Option<VariantId>) -> bool {
    let name = name.trim().to_lowercase();
    let others = document.variants.iter().filter(|variant| Some(variant.id) != except);
    others.into_iter().any(|variant| variant.name.trim().to_lowercase() == name)
}

fn next_id(document: &Document) -> VariantId {
    let highest = document.variants.iter().map(|variant| variant.id.0).max();
    VariantId(highest.map_or(1, |id| id.saturating_add(1)))
}

pub(super) fn add(
    document: &mut Document,
    at: usize,
    variant: &Variant,
) -> Result<(), Refusal> {
    if document.variants.len() >= Mat::MOST_IN_PLAN {
        return Err(Refusal::Mats);
    }
    if document.variant(variant.id).is_some() {
        return Err(Refusal::Gone("place of that mat"));
    }
    check_name(document, &variant.name, None)?;
    document.variants.insert(at.min(document.variants.len()), variant.clone());
    Ok(())
}

pub(super) fn rename(
    document: &mut Document,
    id: VariantId,
    name: &str,
) -> Result<(), Refusal> {
    check_name(document, name, Some(id))?;
    let at = index(document, id)?;
    name.trim().clone_into(&mut document.variants[at].name);
    Ok(())
}

/// Where the chosen mat is removed, the one that takes its place is to be made, and nobody has
/// chosen it.
pub(super) fn remove(document: &mut Document, id: VariantId) -> Result<(), Refusal> {
    let at = index(document, id)?;
    if document.variants.len() == 1 {
        return Err(Refusal::LastMat);
    }
    document.variants.remove(at);
    if document.chosen == id {
        let next = document.variants.get(at).or_else(|| document.variants.last());
        document.chosen = next.map_or(document.chosen, |variant| variant.id);
        document.choice = None;
    }
    Ok(())
}

pub(super) fn reorder(
    document: &mut Document,
    id: VariantId,
    to: usize,
) -> Result<(), Refusal> {
    let at = index(document, id)?;
    let variant = document.variants.remove(at);
    document.variants.insert(to.min(document.variants.len()), variant);
    Ok(())
}

pub(super) fn choose(
    document: &mut Document,
    id: VariantId,
    choice: Option<&Choice>,
) -> Result<(), Refusal> {
    index(document, id)?;
    document.chosen = id;
    document.choice = choice.cloned();
    Ok(())
}

fn check_name(
    document: &Document,
    name: &str,
    except: Option<VariantId>,
) -> Result<(), Refusal> {
    if name.trim().is_empty() {
        return Err(Refusal::NoName);
    }
    if has_name(document, name, except) {
        return Err(Refusal::NameTaken);
    }
    Ok(())
}

fn index(document: &Document, id: VariantId) -> Result<usize, Refusal> {
    let at = document.variants.iter().position(|variant| variant.id == id);
    at.ok_or(Refusal::Gone("mat"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::command::apply;
    use crate::sample::reference;

    fn names(document: &Document) -> String {
        let names: Vec<_> = document.variants.iter().map(|one| one.name.as_str()).collect();
        names.join(", ")
    }

    /// The reference piece with copies of its mat under these names.
    fn with(more: &[&str]) -> Document {
        let mut document = reference();
        for name in more {
            let last = document.variants.last().unwrap().id;
            let command = copy_mat(&document, last, name).unwrap();
            apply(&mut document, &command).unwrap();
        }
        document
    }

    #[test]
    fn a_copy_stands_behind_its_original_and_is_the_same_mat() {
        let mut document = with(&["Wide"]);
        assert_eq!(names(&document), "First, Wide");
        assert_eq!(document.variants[0].mat, document.variants[1].mat);
        assert_eq!(document.chosen, document.variants[0].id, "a copy is not chosen");
        let first = document.variants[0].id;
        let command = copy_mat(&document, first, " Dark ").unwrap();
        apply(&mut document, &command).unwrap();
        assert_eq!(names(&document), "First, Dark, Wide");
        let ids: std::collections::BTreeSet<_> =
            document.variants.iter().map(|one| one.id).collect();
        assert_eq!(ids.len(), 3);
        assert_eq!(copy_mat(&document, VariantId(99), "None"), None);
    }

    #[test]
    fn names_differ() {
        let mut document = with(&["Wide"]);
        let (first, wide) = (document.variants[0].id, document.variants[1].id);
        let mut refused = |command: Command, why: Refusal| {
            let before = document.clone();
            assert_eq!(apply(&mut document, &command), Err(why), "{command:?}");
            assert_eq!(document, before);
        };
        refused(Command::RenameMat(wide, " first".to_owned()), Refusal::NameTaken);
        refused(Command::RenameMat(wide, "  ".to_owned()), Refusal::NoName);
        refused(Command::RenameMat(VariantId(9), "x".to_owned()), Refusal::Gone("mat"));
        refused(
            copy_mat(&reference(), first, "wide").unwrap(),
            Refusal::Gone("place of that mat"),
        );
        apply(&mut document, &Command::RenameMat(wide, "WIDE".to_owned())).unwrap();
        assert_eq!(names(&document), "First, WIDE", "its own name in other letters");
    }

    #[test]
    fn free_names_follow_the_order() {
        assert_eq!(free_name(&reference()), "Second");
        assert_eq!(free_name(&with(&["Third"])), "Fourth");
        assert_eq!(free_name(&with(&["b", "c", "d", "e", "f"])), "Mat 7");
        assert_eq!(free_name(&with(&["b", "c", "d", "e", "Mat 7"])), "Mat 8");
    }

    #[test]
    fn the_last_mat_stays_and_the_chosen_one_is_followed_by_its_neighbour() {
        let mut document = with(&["Wide", "Dark"]);
        let [first, wide, dark] = [0, 1, 2].map(|at| document.variants[at].id);
        let choice = Choice { when: "2026-03-01".to_owned(), words: "The calm one".to_owned() };
        apply(&mut document, &Command::Choose(wide, Some(choice.clone()))).unwrap();
        assert_eq!((document.chosen, &document.choice), (wide, &Some(choice.clone())));
        apply(&mut document, &Command::RemoveMat(first)).unwrap();
        assert_eq!((document.chosen, &document.choice), (wide, &Some(choice)));
        apply(&mut document, &Command::RemoveMat(wide)).unwrap();
        assert_eq!((document.chosen, &document.choice), (dark, &None));
        let last = apply(&mut document, &Command::RemoveMat(dark));
        assert_eq!(last, Err(Refusal::LastMat));
        assert_eq!(names(&document), "Dark");
    }

    #[test]
    fn mats_are_reordered_up_to_the_end() {
        let mut document = with(&["Wide", "Dark"]);
        let first = document.variants[0].id;
        apply(&mut document, &Command::MoveMat(first, 1)).unwrap();
        assert_eq!(names(&document), "Wide, First, Dark");
        apply(&mut document, &Command::MoveMat(first, 99)).unwrap();
        assert_eq!(names(&document), "Wide, Dark, First");
        apply(&mut document, &Command::MoveMat(first, 0)).unwrap();
        assert_eq!(names(&document), "First, Wide, Dark");
    }

    #[test]
    fn a_plan_holds_so_many_mats_and_no_more() {
        let names: Vec<String> = (2..=Mat::MOST_IN_PLAN).map(|n| format!("Mat {n}")).collect();
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let mut document = with(&names);
        let command = copy_mat(&document, document.chosen, "One more").unwrap();
        assert_eq!(apply(&mut document, &command), Err(Refusal::Mats));
    }
}
