//! Corrections of a print, by a new entry.

use sightedge_studio::{
    Change, Error, FormatId, Note, Price, Print, PrintDetails, Record, State,
};

use super::correct::unchanged;
use super::moving::{keeps_place, shown_at};
use super::plan::PlanOfPrint;
use super::prices::in_usual;

/// What is so of a print from now on; what is `None` stays.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct PrintCorrection {
    /// Where it is.
    pub state: Option<State>,
    /// Which show or gallery, where it is or was sold.
    pub place: Option<String>,
    /// Who has it.
    pub buyer: Option<String>,
    /// What it costs; nothing where that is not known.
    pub price: Option<Option<Price>>,
    /// The day it was printed, or nothing.
    pub printed: Option<String>,
    /// The day it was matted, or nothing.
    pub matted: Option<String>,
    /// Its plan, or none. Its size is then that of the plan, where the work has such a size.
    pub plan: Option<Option<PlanOfPrint>>,
    /// The size it is of; goes before that of its plan.
    pub format: Option<Option<FormatId>>,
}

/// Corrects what differs of a print that the person saw as `was`; returns it as it is then.
///
/// # Errors
/// Where others changed it meanwhile, or a part of it is refused.
pub fn correct_print(
    record: &mut dyn Record,
    was: &Print,
    what: PrintCorrection,
    note: &Note,
) -> Result<Print, Error> {
    unchanged(was, &record.print(was.id)?, "the print")?;
    let now = corrected(record, was, what)?;
    if now == was.now {
        return Ok(was.clone());
    }
    record.change(was.id, &Change::Correct(Box::new(now)), note)
}

/// The print with what is said in the place of what stands.
fn corrected(
    record: &dyn Record,
    was: &Print,
    what: PrintCorrection,
) -> Result<PrintDetails, Error> {
    let PrintCorrection { state, place, buyer, price, printed, matted, plan, format } = what;
    let mut now = was.now.clone();
    now.state = state.unwrap_or(now.state);
    if let Some(named) = place {
        now.place = shown_at(record, now.state, &named)?;
    } else if now.state != was.now.state && !keeps_place(now.state) {
        // A print that has left the show loses the name of it.
        now.place.clear();
    }
    for (given, field) in
        [(buyer, &mut now.buyer), (printed, &mut now.printed), (matted, &mut now.matted)]
    {
        if let Some(given) = given {
            *field = given;
        }
    }
    match plan {
        Some(Some(plan)) => {
            let edition = record.edition(was.edition)?;
            plan.is_for(&record.work(edition.work)?)?;
            now.format = plan.format(&record.formats(edition.work)?).or(now.format);
            (now.plan, now.plan_file) = (plan.id, plan.file);
        }
        Some(None) => (now.plan, now.plan_file) = (String::new(), String::new()),
        None => {}
    }
    now.format = format.unwrap_or(now.format);
    if let Some(price) = price {
        now.price = price.map(|price| in_usual(record, price)).transpose()?;
    }
    Ok(now)
}
