//! A step at the bench as it stands in a table.

/// A step at the bench before its figures are filled in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepRow {
    /// Its id.
    pub id: String,
    /// In a few words.
    pub title: String,
    /// What is done; `{names}` stand for figures of the plan.
    pub text: String,
    /// What to beware of.
    pub cautions: Vec<String>,
    /// Which plans have it; one of [`StepRow::WHENS`].
    pub when: String,
}

impl StepRow {
    /// What `when` may say: nothing for every plan.
    pub const WHENS: [&str; 11] = [
        "",
        "never",
        "to-cut",
        "liners-to-cut",
        "hinged",
        "yielding",
        "corners",
        "strips",
        "glued",
        "framed",
        "unframed",
    ];
}

impl StepRow {
    /// The figures of a plan that `{names}` in a step may stand for.
    pub const FIGURES: [&str; 41] = [
        "bag",
        "behind",
        "count",
        "depth",
        "gap",
        "glass_caution",
        "glazing",
        "glue",
        "hanging",
        "hold",
        "kind",
        "liners",
        "locating",
        "longer",
        "mass",
        "mat_edge",
        "mat_gap",
        "mat_length",
        "mat_tape",
        "outer",
        "overlap_bottom",
        "overlap_left",
        "overlap_right",
        "overlap_top",
        "places",
        "rabbet",
        "reach",
        "rise",
        "sheet_left",
        "sheet_top",
        "signing",
        "slack",
        "stop_bottom",
        "stop_left",
        "stop_right",
        "stop_top",
        "tab_width",
        "tissue",
        "window",
        "words",
        "writing",
    ];

    /// Why `text` cannot be filled in: a brace that does not close, or a name of no figure.
    pub(super) fn wrong(text: &str) -> Option<String> {
        let mut rest = text;
        while let Some((_, after)) = rest.split_once('{') {
            let Some((name, behind)) = after.split_once('}') else {
                return Some(format!(
                    "the brace before \"{after}\" does not close: }} is wanted"
                ));
            };
            if !Self::FIGURES.contains(&name) {
                return Some(format!(
                    "{{{name}}} is no figure of a plan: one of {} is wanted",
                    Self::FIGURES.join(", ")
                ));
            }
            rest = behind;
        }
        None
    }
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
