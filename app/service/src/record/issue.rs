//! A print issued: it gets its number, and its size where that is new to the work.

use sightedge_studio::{
    Choice, EditionId, Error, FormatId, Issue, Kind, NewFormat, Note, Price, Print,
    PrintDetails, Record,
};

use super::plan::PlanOfPrint;
use super::prices::in_usual;

/// A print to be issued, as it was typed.
#[derive(Clone, Debug)]
pub struct Issuing {
    /// From which edition.
    pub edition: EditionId,
    /// What it is.
    pub kind: Kind,
    /// Its number.
    pub choice: Choice,
    /// The plan it goes with.
    pub plan: Option<PlanOfPrint>,
    /// The size that was picked for it; `None` for that of its edition, else that of its plan.
    pub format: Option<FormatId>,
    /// What it costs; `None` for what its number costs.
    pub price: Option<Price>,
    /// The day it was printed, or nothing.
    pub printed: String,
    /// The day it was matted, or nothing.
    pub matted: String,
}

impl Issuing {
    /// Of an edition, with no more said of it.
    pub fn of(edition: EditionId, kind: Kind, choice: Choice) -> Self {
        let (printed, matted) = (String::new(), String::new());
        Self { edition, kind, choice, plan: None, format: None, price: None, printed, matted }
    }
}

/// A print that was issued.
#[derive(Clone, Debug)]
pub struct Issued {
    /// The print.
    pub print: Print,
    /// Its size, where that is new to the work.
    pub new_size: Option<NewFormat>,
    /// Whether its plan is of another size than its edition.
    pub other_size: bool,
}

/// Issues a print in one step: where it is refused, no size is added either.
///
/// # Errors
/// Where the plan is of another picture, the number is taken or there is none left.
pub fn issue(record: &mut dyn Record, issuing: Issuing, note: &Note) -> Result<Issued, Error> {
    let Issuing { edition, kind, choice, plan, format, price, printed, matted } = issuing;
    let of = record.edition(edition)?;
    let formats = record.formats(of.work)?;
    let mut stock = PrintDetails { format, printed, matted, ..PrintDetails::default() };
    let (mut size, mut other_size) = (None, false);
    if let Some(plan) = plan {
        plan.is_for(&record.work(of.work)?)?;
        other_size = of.what.format.is_some_and(|own| plan.format(&formats) != Some(own));
        size = Some(plan.size).filter(|size| *size != NewFormat::default());
        (stock.plan, stock.plan_file) = (plan.id, plan.file);
    }
    stock.price = price.map(|price| in_usual(record, price)).transpose()?;
    let print =
        record.issue(&Issue { edition, kind, choice, stock, size: size.clone() }, note)?;
    let new = |id: FormatId| formats.iter().all(|there| there.id != id);
    let new_size = size.filter(|_| print.now.format.is_some_and(new));
    Ok(Issued { print, new_size, other_size })
}
