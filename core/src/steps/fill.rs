//! Figures put in the place of their names.

use std::collections::BTreeMap;

/// What `{names}` in a step stand for; a figure may be a list.
#[derive(Default)]
pub(super) struct Figures(BTreeMap<&'static str, Vec<String>>);

impl Figures {
    /// Sets one figure.
    pub(super) fn insert(&mut self, name: &'static str, text: String) {
        self.0.insert(name, vec![text]);
    }

    /// Sets a list.
    pub(super) fn list(&mut self, name: &'static str, texts: Vec<String>) {
        self.0.insert(name, texts);
    }

    /// `{name}` replaced by its figure; what has none is left out.
    pub(super) fn filled(&self, text: &str) -> String {
        let mut made = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once('{') {
            made.push_str(before);
            let Some((name, behind)) = after.split_once('}') else {
                rest = after;
                continue;
            };
            made.push_str(&self.0.get(name).map_or(String::new(), |texts| texts.join("; ")));
            rest = behind;
        }
        made.push_str(rest);
        made
    }

    /// Each text filled in; one that is only the name of a list makes a part for each of its
    /// entries, and one without words none.
    pub(super) fn parts(&self, texts: &[String]) -> Vec<String> {
        let mut parts = Vec::with_capacity(texts.len());
        for text in texts {
            let alone = text.strip_prefix('{').and_then(|rest| rest.split_once('}'));
            let whole = alone.filter(|(_, end)| matches!(*end, "" | "."));
            match whole.and_then(|(name, end)| Some((self.0.get(name)?.split_last()?, end))) {
                Some(((last, before), end)) => {
                    parts.extend(before.iter().map(|entry| format!("{entry};")));
                    parts.push(format!("{last}{end}"));
                }
                None => parts.push(self.filled(text)),
            }
        }
        parts.retain(|part| !matches!(part.trim(), "" | "."));
        parts
    }

    /// The names of all figures, in order.
    #[cfg(test)]
    pub(super) fn names(&self) -> Vec<&'static str> {
        self.0.keys().copied().collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Parts come from the step and from lists, never from signs inside a figure.
    #[test]
    fn a_part_is_a_text_or_an_entry_of_a_list() {
        let mut figures = Figures::default();
        figures.insert("rag", "Low tide; St. Anne (3.5 in; 2 of 5)".to_owned());
        figures.insert("nothing", String::new());
        figures.list(
            "undermats",
            vec!["undermat 1, 2.5 in".to_owned(), "undermat 2, .5 in".to_owned()],
        );
        figures.list("none", Vec::new());
        let parts = |texts: &[&str]| {
            let texts: Vec<_> = texts.iter().map(|text| (*text).to_owned()).collect();
            figures.parts(&texts)
        };
        assert_eq!(
            parts(&[
                "{nothing}",
                "On {rag}.",
                "cut: {undermats}.",
                "{undermats}.",
                "{none}.",
                "{x}"
            ]),
            [
                "On Low tide; St. Anne (3.5 in; 2 of 5).",
                "cut: undermat 1, 2.5 in; undermat 2, .5 in.",
                "undermat 1, 2.5 in;",
                "undermat 2, .5 in.",
            ]
        );
    }
}
