//! What there is: works, the prints of one, a show, what happened.

use clap::Args;
use serde_json::{Value, json};
use sightedge_studio::{Edition, EditionRow, Print, State, Totals, Work, WorkId, WorkRow};

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::given::OneEdition;
use super::{Asked, history, print_json, print_line};
use sightedge_service::record;

const NOTHING: &str = "Nothing here yet: sightedge edition new adds a work.";

/// What there is: works, the prints of one, a show, what happened
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  sightedge edition list --search water
  sightedge edition list W0001 --history")]
pub(super) struct List {
    /// Its prints; without it, all works
    #[arg(value_name = "WORK")]
    work: Option<String>,
    /// Find by title, maker, medium, number, buyer or show
    #[arg(long, value_name = "TEXT", conflicts_with_all = ["work", "show"])]
    search: Option<String>,
    /// Works that were entered by mistake and withdrawn
    #[arg(long, conflicts_with_all = ["work", "show"])]
    withdrawn: bool,
    /// The prints at this show
    #[arg(long, value_name = "NAME", conflicts_with = "work")]
    show: Option<String>,
    /// What happened to the work and its prints
    #[arg(long)]
    history: bool,
    #[command(flatten)]
    one: OneEdition,
    /// For other programs
    #[arg(long)]
    json: bool,
}

impl List {
    /// Whether all works are asked for, or those found among them.
    pub(super) fn is_of_all(&self) -> bool {
        self.work.is_none() && self.show.is_none()
    }

    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        match (&self.work, &self.show) {
            (Some(work), _) => self.one(work, asked, streams),
            (None, Some(show)) => self.at_show(show, asked, streams),
            (None, None) => self.all(asked, streams),
        }
    }

    /// Refuses what has a meaning only of one work.
    pub(super) fn check(&self) -> Result<(), CliError> {
        let of_one = [(self.history, "history"), (self.one.edition.is_some(), "in")];
        match of_one.iter().find(|(given, _)| *given && self.work.is_none()) {
            None => Ok(()),
            Some((_, option)) => Err(CliError::usage(format!(
                "--{option} is for one work: give its catalogue number, as in sightedge edition \
                 list W0012 --{option}"
            ))),
        }
    }

    /// The list where no record is begun yet; looking begins none.
    pub(super) fn nothing(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        if self.json {
            writeln!(streams.out, "{:#}", json!({ "works": [], "sums": [] }))?;
        } else {
            writeln!(streams.out, "{NOTHING}")?;
        }
        Ok(Exit::Done)
    }

    fn all(&self, asked: &mut Asked, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let search = record::sought(self.search.as_deref().unwrap_or_default());
        let held = match search.as_str() {
            "" => Vec::new(),
            search => asked.record().held_by(search)?,
        };
        let all = asked.record().index()?;
        let which =
            if self.withdrawn { record::Withdrawn::Only } else { record::Withdrawn::Hidden };
        let at = record::found(&all, &search, &held, which);
        let found: Vec<&WorkRow> = at.into_iter().filter_map(|at| all.get(at)).collect();
        let sums = asked.record().sums()?;
        if self.json {
            let works: Vec<Value> = found.iter().map(|row| row_json(row, &held)).collect();
            writeln!(streams.out, "{:#}", json!({ "works": works, "sums": sums }))?;
            return Ok(Exit::Done);
        }
        if found.is_empty() {
            if !search.is_empty() {
                writeln!(streams.out, "No work, buyer or show matches \"{search}\".")?;
            } else if self.withdrawn {
                writeln!(streams.out, "No work is withdrawn.")?;
            } else {
                writeln!(streams.out, "{NOTHING}")?;
            }
        }
        for row in &found {
            let what = &row.work.what;
            let by = if what.maker.is_empty() { "" } else { ", " };
            writeln!(streams.out, "{:<8}{}{by}{}", row.work.catalogue, what.title, what.maker)?;
            for one in &row.editions {
                writeln!(
                    streams.out,
                    "        edition {}: {}",
                    one.edition.id.0,
                    counts(&one.edition, one.totals)
                )?;
                // The prints that the search is about.
                for (_, print) in held.iter().filter(|(_, it)| it.edition == one.edition.id) {
                    writeln!(streams.out, "          {}", print_line(&one.edition, print))?;
                }
            }
        }
        // They are of all works.
        let whole = search.is_empty() && !self.withdrawn;
        for line in record::sums_in_words(&sums).iter().filter(|_| whole) {
            writeln!(streams.out, "{line}")?;
        }
        Ok(Exit::Done)
    }

    fn one(
        &self,
        work: &str,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let mut row = asked.work(work)?;
        if self.history {
            return history::tell(asked, &row, self.json, streams);
        }
        if self.one.edition.is_some() {
            let only = asked.edition(work, None, &self.one)?.1.id;
            row.editions.retain(|one| one.edition.id == only);
        }
        let mut lists = Vec::new();
        for one in &row.editions {
            let prints = asked.record().prints(one.edition.id)?;
            if self.json {
                let prints: Vec<Value> =
                    prints.iter().map(|print| print_json(&one.edition, print)).collect();
                let mut told = edition_whole(asked, one)?;
                told["prints"] = prints.into();
                lists.push(told);
                continue;
            }
            writeln!(
                streams.out,
                "{} {}, edition {}: {}",
                row.work.catalogue,
                row.work.what.title,
                one.edition.id.0,
                counts(&one.edition, one.totals)
            )?;
            for print in prints.iter().filter(|print| print.live) {
                writeln!(streams.out, "  {}", print_line(&one.edition, print))?;
            }
        }
        if self.json {
            let told = json!({
                "catalogue": row.work.catalogue, "withdrawn": row.work.withdrawn,
                "work": row.work.what,
                "formats": formats(asked, row.work.id)?, "editions": lists,
            });
            writeln!(streams.out, "{told:#}")?;
        }
        Ok(Exit::Done)
    }

    fn at_show(
        &self,
        show: &str,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let found = asked.record().at_show(show)?;
        if found.is_empty() {
            return Err(CliError::unreadable(format!(
                "nothing is at {show}: {}",
                asked.shows()?
            )));
        }
        if self.json {
            let told: Vec<Value> = found
                .iter()
                .map(|(work, edition, print)| {
                    json!({
                        "catalogue": work.catalogue,
                        "title": work.what.title,
                        "maker": work.what.maker,
                        "print": print_json(edition, print),
                    })
                })
                .collect();
            writeln!(streams.out, "{:#}", json!({ "show": show, "prints": told }))?;
            return Ok(Exit::Done);
        }
        for (work, edition, print) in &found {
            let Work { catalogue, what, .. } = work;
            let by = if what.maker.is_empty() { "" } else { ", " };
            let price = print.now.price.as_ref().map(ToString::to_string).unwrap_or_default();
            let sold = if print.now.state == State::Sold { "  sold" } else { "" };
            writeln!(
                streams.out,
                "{catalogue:<8}{}{by}{}  {}  {price}{sold}",
                what.title,
                what.maker,
                edition.what.notation(print.kind, print.number)
            )?;
        }
        Ok(Exit::Done)
    }
}

fn counts(edition: &Edition, totals: Totals) -> String {
    let mut told = format!("{} of {} issued", totals.issued, edition.what.size);
    for (count, what) in [
        (totals.proofs, if totals.proofs == 1 { "proof" } else { "proofs" }),
        (totals.studio, State::Studio.name()),
        (totals.show, State::Show.name()),
        (totals.sold, State::Sold.name()),
        (totals.unknown, State::Unknown.name()),
        (totals.destroyed, State::Destroyed.name()),
    ] {
        if count > 0 {
            told = format!("{told}, {count} {what}");
        }
    }
    told
}

/// A work and its editions; `held` are the prints that a search is about.
fn row_json(row: &WorkRow, held: &[(WorkId, Print)]) -> Value {
    let found = |one: &EditionRow| {
        let its = held.iter().filter(|(_, print)| print.edition == one.edition.id);
        its.map(|(_, print)| print_json(&one.edition, print)).collect::<Vec<_>>()
    };
    json!({
        "catalogue": row.work.catalogue,
        "withdrawn": row.work.withdrawn,
        "work": row.work.what,
        "found": row.editions.iter().flat_map(found).collect::<Vec<_>>(),
        "editions": row.editions.iter().map(edition_json).collect::<Vec<_>>(),
    })
}

fn edition_json(row: &EditionRow) -> Value {
    let EditionRow { edition, totals } = row;
    let what = &edition.what;
    json!({
        "id": edition.id.0,
        "size": what.size,
        "proof_share": what.proof_share,
        "artists_proofs": what.artist,
        "printers_proofs": what.printer,
        "hors_commerce": what.hors_commerce,
        "trial_proofs": what.trial,
        "numerals": what.numerals().key(),
        "totals": totals,
    })
}

/// An edition and what its prints cost from a number on.
pub(super) fn edition_whole(asked: &Asked, row: &EditionRow) -> Result<Value, CliError> {
    let tiers = asked.opened.read().tiers(row.edition.id)?;
    let mut told = edition_json(row);
    told["prices"] = tiers
        .iter()
        .map(|tier| json!({ "from": tier.from, "price": tier.price.to_string() }))
        .collect();
    Ok(told)
}

/// The sizes in which a work is printed; 0 where nothing is known.
pub(super) fn formats(asked: &Asked, work: WorkId) -> Result<Value, CliError> {
    let formats = asked.opened.read().formats(work)?;
    let told = formats.iter().map(|format| {
        let (image, sheet) = (format.what.image(), format.what.sheet());
        json!({
            "id": format.id.0,
            "name": format.what.name,
            "image_width_mm": image.width.to_mm(),
            "image_height_mm": image.height.to_mm(),
            "sheet_width_mm": sheet.width.to_mm(),
            "sheet_height_mm": sheet.height.to_mm(),
        })
    });
    Ok(told.collect())
}
