//! `sightedge cut`: boards, undermats and backings of a show out of the fewest and cheapest sheets.

mod published;
mod told;

use std::path::PathBuf;
use std::time::{Duration, Instant};

use clap::Args;
use serde_json::json;
use sightedge_core::length::{Length, Unit};
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;
use sightedge_cutting::report::Report;
use sightedge_cutting::{Control, Effort, Plan, Problem, Stages, checker, solve};

use self::published::Proof;
use super::lengths::Measure;
use super::outcome::CliError;
use super::plans::{OneMat, gathered};
use super::values::Read;
use super::{Exit, Streams, refusal};
use sightedge_service::cutting::materials::{Prices, materials};
use sightedge_service::cutting::narrower::{Offer, Sum, offers};
use sightedge_service::cutting::{
    BoardJob, DropOuts, Manner, StockSheet, Taken, jobs, stock_for,
};

/// How long narrower borders are tried.
const LONGEST_TRIALS: Duration = Duration::from_secs(20);

/// Boards, undermats and backings out of the fewest and cheapest sheets
#[derive(Args, Debug)]
#[command(after_help = "\
The table of sheets has the columns board,width,height,price,in_hand,offcut. board: an id, a name
or *; price and in_hand may be empty; offcut: yes for a piece left over, used first, one where
in_hand is empty. The pattern or grain of a board that has one runs along the height.

A plan that is named twice is cut twice. The sheet is A, what falls from it A1, A2 ...: each cut
names its piece, the edge of that piece that lies against the stop as the sheet lies with its
face up, where the stop is set, and what falls; pencil the names on the backs. With --json it is
each pattern's sequence. Blades: a fresh one, fingers behind the guard.

Example:
  sightedge cut shows/spring --stock stock.csv --drop-outs")]
pub(super) struct Cut {
    /// The plans, or folders that hold some
    #[arg(value_name = "PLAN|FOLDER", required_unless_present = "instance")]
    plans: Vec<PathBuf>,
    /// The sheets to cut from: a CSV table, as below; without it, the sizes
    /// boards are commonly sold in, by area
    #[arg(long, value_name = "FILE", conflicts_with = "instance", verbatim_doc_comment)]
    stock: Option<PathBuf>,
    /// How often a sheet may be cut across
    #[arg(long, value_name = "2|3|any", value_parser = Read(rounds), default_value = "3")]
    rounds: Stages,
    #[command(flatten)]
    drop_outs: Reused,
    /// How long to try, for each board
    #[arg(long, value_name = "N", value_parser = Read(seconds), default_value = "4")]
    seconds: u64,
    /// Try whether borders narrower by up to so much save a sheet, as in 1/8 in
    #[arg(long, value_name = "LENGTH", conflicts_with = "instance")]
    give: Option<Measure>,
    /// For other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    mat: OneMat,
    #[command(flatten)]
    proof: Proof,
}

/// What of the boards that are cut is cut again.
#[derive(Args, Debug)]
struct Reused {
    /// Cut up what falls from the innermost windows, too
    #[arg(long, conflicts_with = "instance")]
    drop_outs: bool,
    /// And what is taped back while an undermat is cut through it
    #[arg(long)]
    taped_back: bool,
}

fn rounds(name: &str, text: &str) -> Result<Stages, String> {
    match text {
        "3" => Ok(Stages::Three),
        "2" => Ok(Stages::Two),
        "any" => Ok(Stages::Any),
        other => Err(format!("--{name} {other} is no number of rounds: use 2, 3 or any")),
    }
}

fn seconds(name: &str, text: &str) -> Result<u64, String> {
    let read = text.parse().ok().filter(|seconds| (1..=3600).contains(seconds));
    read.ok_or_else(|| format!("--{name} {text} is no time: give 1 to 3600 seconds"))
}

impl Cut {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        self.proof.check()?;
        if self.drop_outs.taped_back && !self.drop_outs.drop_outs {
            return Err(refusal::needs("taped-back", "drop-outs"));
        }
        match &self.proof.instance {
            Some(file) => self.published(file, streams),
            None => self.show(streams),
        }
    }

    fn show(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let mut exit = Exit::Done;
        let mut opened: Vec<(String, Document)> = Vec::new();
        for path in gathered(&self.plans)? {
            match self.mat.open(&path, streams) {
                Ok(plan) => {
                    let name = plan.path.file_name().unwrap_or_default().to_string_lossy();
                    let title = name.trim_end_matches(".sightedge.ron").to_owned();
                    opened.push((title, plan.document));
                }
                Err(trouble) => {
                    writeln!(streams.err, "sightedge: {}", trouble.words)?;
                    exit = Exit::Partly;
                }
            }
        }
        let Some((_, first)) = opened.first() else {
            return Err(CliError::unreadable(
                "no plan was found: name plans, or a folder that holds some".to_owned(),
            ));
        };
        let unit = first.unit;
        let tables = streams.tables()?;
        let named: Vec<(String, &Document)> =
            opened.iter().map(|(title, document)| (title.clone(), document)).collect();
        let stock = match &self.stock {
            Some(file) => {
                let (sheets, bad) = sightedge_service::cutting::stock_file::read(file, unit)
                    .map_err(CliError::unreadable)?;
                for words in bad {
                    writeln!(streams.err, "sightedge: {words}; it was left out")?;
                    exit = Exit::Partly;
                }
                sheets
            }
            None => stock_for(&named, unit, &tables),
        };
        let manner = Manner::new(self.rounds, self.drop_outs.which());
        let give = self.give(unit)?;
        let jobs = jobs(&named, &stock, manner);
        let mut taken = Taken::default();
        let mut solved: Vec<(BoardJob, Plan, f64)> = Vec::new();
        for job in jobs {
            let job = taken.rest(job);
            let (plan, took) = timed(&job.problem, self.seconds);
            taken.add(&job, &plan);
            solved.push((job, plan, took));
        }
        let pairs: Vec<(&Problem, &Plan)> =
            solved.iter().map(|(job, plan, _)| (&job.problem, plan)).collect();
        self.proof.write(&pairs)?;
        let mut boards = Vec::new();
        // Sheets are called A, B ... through all boards.
        let mut first = 0;
        for (job, plan, took) in &solved {
            sound(&job.problem, plan)?;
            let scale = Some(job.unit.to_mm());
            let report = Report::lettered(&job.problem, plan, *took, scale, first);
            if !report.missing.is_empty() {
                exit = Exit::Partly;
            }
            if self.json {
                boards.push(json!({
                "board": job.board.name,
                "thickness_mm": job.board.thickness.to_mm(),
                "turns": job.board.turns,
                "cost_is": if job.priced { "price in hundredths" } else { "square centimetres" },
                "plan": serde_json::to_value(&report).map_err(std::io::Error::other)?,
            }));
            } else {
                told::board(job, plan, first, unit, streams)?;
                for complaint in job.complaints(plan, unit) {
                    writeln!(streams.err, "sightedge: {complaint}")?;
                }
            }
            first += plan.patterns.len();
        }
        let materials = materials(&named, unit, Prices::default(), &tables);
        let offers = narrower(&opened, (&stock, manner, &tables), give, &solved);
        if self.json {
            let lines = materials
                .iter()
                .map(|line| json!({ "what": line.what, "amount": line.amount }))
                .collect::<Vec<_>>();
            let mut all = json!({ "boards": boards, "materials": lines });
            if give.is_some() {
                all["narrower"] =
                    offers.iter().map(|offer| told::offer(offer, &opened)).collect();
            }
            writeln!(streams.out, "{all:#}")?;
            return Ok(exit);
        }
        for line in &materials {
            writeln!(streams.out, "{}: {}", line.what, line.amount)?;
        }
        told::offers(&offers, &opened, unit, streams)?;
        Ok(exit)
    }

    /// How much each border may give to save a sheet; `None` where nothing is to be tried.
    fn give(&self, unit: Unit) -> Result<Option<Length>, CliError> {
        let Some(typed) = &self.give else { return Ok(None) };
        let length = typed.length(unit)?;
        if length.is_negative() || length > Length::mm(100) {
            return Err(CliError::usage(format!(
                "--give {}: borders can be narrowed by 0 to 4 in (100 mm); try 1/8 in or 3 mm",
                typed.text
            )));
        }
        Ok(Some(length))
    }
}

impl Reused {
    fn which(&self) -> DropOuts {
        match (self.drop_outs, self.taped_back) {
            (false, _) => DropOuts::None,
            (true, false) => DropOuts::Free,
            (true, true) => DropOuts::All,
        }
    }
}

/// Solves within so many seconds and says how many it took.
fn timed(problem: &Problem, seconds: u64) -> (Plan, f64) {
    let started = Instant::now();
    let limit = Duration::from_secs(seconds);
    let mut should_stop = || started.elapsed() >= limit;
    let control = Control { should_stop: &mut should_stop, progress: &mut |_| {} };
    let plan = solve(problem, Effort::seconds(seconds), control);
    (plan, started.elapsed().as_secs_f64())
}

/// No plan is shown that the checker, which knows nothing of the solver, finds fault with.
fn sound(problem: &Problem, plan: &Plan) -> Result<(), CliError> {
    checker::check(problem, plan).map_err(|faults| {
        let first = faults.first().map(ToString::to_string).unwrap_or_default();
        CliError::unreadable(format!(
            "a plan was found that does not check, and is not shown: {first}. This is a fault of \
             the program: please report it"
        ))
    })
}

/// Trials with borders that give a little; a plan counts once for each time it is named.
fn narrower(
    opened: &[(String, Document)],
    supplies: (&[StockSheet], Manner, &Tables),
    give: Option<Length>,
    solved: &[(BoardJob, Plan, f64)],
) -> Vec<Offer> {
    let Some(most) = give else { return Vec::new() };
    let mut shown = Sum::default();
    for (job, plan, _) in solved {
        shown.add(&job.problem, plan);
    }
    let until = Instant::now() + LONGEST_TRIALS;
    let plans: Vec<(String, Document, u32)> =
        opened.iter().map(|(title, document)| (title.clone(), document.clone(), 1)).collect();
    offers(&plans, supplies, most, shown, &mut || Instant::now() >= until)
}
