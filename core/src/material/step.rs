//! A step at the bench as it stands in a table.

use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, SeqAccess, Visitor};

use super::error::TableError;
use super::rows::{Row, RowReader};

/// A step at the bench before its figures are filled in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepRow {
    /// Its id.
    pub id: String,
    /// In a few words.
    pub title: String,
    /// What is done, in parts that are read one at a time; `{names}` stand for figures of the
    /// plan.
    pub text: Vec<String>,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// Which plans have it; one of [`StepRow::WHENS`].
    pub when: String,
}

impl StepRow {
    /// What `when` may say: nothing for every plan.
    pub const WHENS: [&str; 20] = [
        "",
        "never",
        "to-cut",
        "undermats-to-cut",
        "hinged",
        "t-hinges",
        "v-hinges",
        "pass-through",
        "turned-over",
        "left-lying",
        "yielding",
        "corners",
        "strips",
        "glued",
        "signed-back",
        "signed-margin",
        "signed-mat",
        "framed",
        "spaced",
        "unframed",
    ];
}

impl StepRow {
    /// The figures of a plan that `{names}` in a step may stand for.
    pub const FIGURES: [&str; 89] = [
        "backing",
        "backing_board",
        "bag",
        "behind",
        "board",
        "clean",
        "count",
        "cover",
        "cover_inset",
        "cross",
        "cut",
        "cut_face",
        "cut_how",
        "cut_seen",
        "depth",
        "drying",
        "face_first",
        "gap",
        "gap_words",
        "glass_caution",
        "glass_size",
        "glazing",
        "glue",
        "hang_caution",
        "hinge_caution",
        "hold",
        "hook_load",
        "hook_rating",
        "hooks",
        "joint",
        "kind",
        "lies",
        "lip",
        "locating",
        "longer",
        "loose_stops",
        "mass",
        "mat_edge",
        "mat_gap",
        "mat_length",
        "mat_tape",
        "others",
        "others_are",
        "outer",
        "overlap_bottom",
        "overlap_left",
        "overlap_right",
        "overlap_top",
        "places",
        "point_corner",
        "points_across",
        "points_down",
        "rabbet",
        "reach",
        "ring_rating",
        "rings",
        "rise",
        "set",
        "sheet_left",
        "sheet_top",
        "shows",
        "signing",
        "slack",
        "slit",
        "slit_below",
        "spacer",
        "spacer_across",
        "stack_back",
        "start",
        "stick",
        "sticky",
        "stop_bottom",
        "stop_left",
        "stop_right",
        "stop_top",
        "stuck_stops",
        "tab_long",
        "tab_width",
        "tape_over",
        "tissue",
        "undermats",
        "undermats_face",
        "undermats_loose",
        "window",
        "wire",
        "words",
        "writing",
        "yield_gap",
        "yield_long",
    ];

    /// Why `text` cannot be filled in: a brace that does not close, or a name of no figure.
    pub(super) fn wrong(text: &str) -> Option<String> {
        let mut rest = text;
        while let Some((_, after)) = rest.split_once('{') {
            let Some((name, assembly)) = after.split_once('}') else {
                return Some(format!("the brace before \"{after}\" is not closed: add a }}"));
            };
            if !Self::FIGURES.contains(&name) {
                return Some(format!(
                    "{{{name}}} is not a figure of a plan: use one of {}",
                    Self::FIGURES.join(", ")
                ));
            }
            rest = assembly;
        }
        None
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Step")]
pub(super) struct SavedStep {
    id: String,
    title: String,
    #[serde(deserialize_with = "parts")]
    text: Vec<String>,
    cautions: Vec<String>,
    when: String,
}

impl Row for SavedStep {
    type Model = StepRow;
    fn into_model(self) -> Result<StepRow, TableError> {
        let row = RowReader(&self.id);
        if !StepRow::WHENS.contains(&self.when.as_str()) {
            let why = format!(
                "\"{}\" is not known: use one of {}, or leave it empty",
                self.when,
                StepRow::WHENS.get(1..).unwrap_or_default().join(", ")
            );
            return Err(row.fail("when", &why));
        }
        if self.id.is_empty() || !self.id.chars().all(|c| c.is_ascii_lowercase() || c == '-') {
            return Err(row.fail("id", "use small letters and -, as in hinge-mat"));
        }
        if self.title.trim().is_empty() {
            return Err(row.fail("title", "a step needs one: write a few words"));
        }
        let text = self.text.iter().map(|part| ("text", part));
        let said = self.cautions.iter().map(|caution| ("cautions", caution));
        for (field, text) in std::iter::once(("title", &self.title)).chain(text).chain(said) {
            if let Some(why) = StepRow::wrong(text) {
                return Err(row.fail(field, &why));
            }
        }
        let Self { id, title, text, cautions, when } = self;
        Ok(StepRow { id, title, text, cautions, when })
    }
}

/// One text or several: what a person wrote before steps had parts is read as one part.
fn parts<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<String>, D::Error> {
    struct Parts;
    impl<'de> Visitor<'de> for Parts {
        type Value = Vec<String>;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("text in quotes, or several such texts in square brackets")
        }
        fn visit_str<E>(self, text: &str) -> Result<Self::Value, E> {
            Ok(vec![text.to_owned()])
        }
        fn visit_seq<A: SeqAccess<'de>>(self, mut texts: A) -> Result<Self::Value, A::Error> {
            let mut parts = Vec::new();
            while let Some(text) = texts.next_element()? {
                parts.push(text);
            }
            Ok(parts)
        }
    }
    from.deserialize_any(Parts)
}

/// Steps in the order of `ids`; one that is not named there stays behind the one that was
/// before it.
pub(super) fn ordered(steps: Vec<StepRow>, ids: &[String]) -> Vec<StepRow> {
    let place = |id: &str| ids.iter().position(|one| one == id);
    let mut last = 0;
    let mut placed: Vec<(usize, StepRow)> = steps
        .into_iter()
        .map(|step| {
            // Those at the head that are named nowhere stay there.
            last = place(&step.id).map_or(last, |place| place + 1);
            (last, step)
        })
        .collect();
    placed.sort_by_key(|(place, _)| *place);
    placed.into_iter().map(|(_, step)| step).collect()
}
