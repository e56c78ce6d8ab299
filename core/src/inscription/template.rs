//! The person's own words with the record's figures in them.
//!
//! `{title}`, `{taken}`, `{printed}`, `{maker}`, `{number}` stand for what the record knows and
//! `{sign}` for a place to sign. What is between `[` and `]` is left out where something in it
//! is not known.

use crate::spec::Recorded;

/// The fields there are.
pub const FIELDS: [&str; 6] = ["title", "taken", "printed", "maker", "number", "sign"];

/// A line of text, and whether a place to sign follows it.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct Line {
    pub(super) text: String,
    pub(super) sign: bool,
}

/// A template with its fields filled in; `None` where nothing is left of it.
///
/// # Errors
/// Says which field is not known, and which there are.
pub(super) fn filled(template: &str, recorded: &Recorded) -> Result<Option<Line>, String> {
    let mut line = Line::default();
    let mut rest = template;
    while let Some(start) = rest.find('[') {
        let (before, after) = rest.split_at(start);
        let Some((inside, behind)) = after[1..].split_once(']') else {
            return Err(format!(
                "\"{template}\" has a [ without its ]: put both round what may be left out"
            ));
        };
        plain(before, template, recorded, &mut line)?;
        let mut part = Line::default();
        if plain(inside, template, recorded, &mut part)? {
            line.text.push_str(&part.text);
            line.sign |= part.sign;
        }
        rest = behind;
    }
    plain(rest, template, recorded, &mut line)?;
    let text = line.text.split_whitespace().collect::<Vec<_>>().join(" ");
    let said = text.chars().any(char::is_alphanumeric);
    line.text = text;
    Ok((said || line.sign).then_some(line))
}

/// Fills `text` in; whether all of its fields are known.
fn plain(
    text: &str,
    template: &str,
    recorded: &Recorded,
    line: &mut Line,
) -> Result<bool, String> {
    let mut known = true;
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        line.text.push_str(before);
        let Some((field, behind)) = after.split_once('}') else {
            return Err(format!("\"{template}\" has a {{ without its }}: try {{title}}"));
        };
        if field == "sign" {
            line.sign = true;
        } else {
            let value = value(field, recorded).ok_or_else(|| {
                format!(
                    "\"{field}\" in \"{template}\" is not a field of the record: use one of {}",
                    FIELDS.join(", ")
                )
            })?;
            known &= !value.is_empty();
            line.text.push_str(&value);
        }
        rest = behind;
    }
    line.text.push_str(rest);
    Ok(known)
}

fn value(field: &str, recorded: &Recorded) -> Option<String> {
    let Recorded { title, maker, taken, printed, notation, numerals, print: _ } = recorded;
    let year = |year: &Option<i64>| year.map(|year| year.to_string()).unwrap_or_default();
    Some(match field {
        "title" => title.clone(),
        "maker" => maker.clone(),
        "taken" => year(taken),
        // Said only where it differs. Source: common practice.
        "printed" if printed == taken => String::new(),
        "printed" => year(printed),
        "number" => notation.map(|notation| notation.text(*numerals)).unwrap_or_default(),
        _ => return None,
    })
}
