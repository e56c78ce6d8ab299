//! `sightedge cut`: boards, liners and backings of a show out of the fewest and cheapest sheets.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use serde_json::json;
use sightedge_core::geometry::Sides;
use sightedge_core::length::{Length, Unit, parse};
use sightedge_core::material::Tables;
use sightedge_core::spec::Document;
use sightedge_cutting::report::{CertificateReport, Report};
use sightedge_cutting::{
    Control, Counts, Effort, Plan, Problem, Stages, checker, instance, sequences, solve,
};

use super::options::{Known, Options};
use super::outcome::CliError;
use super::{Exit, Streams, Verb, help, plans};
use sightedge_service::cutting::materials::{Prices, materials};
use sightedge_service::cutting::narrower::{Change, Face, Offer, Sum, offers};
use sightedge_service::cutting::telling::{BLADES, Teller};
use sightedge_service::cutting::{
    BoardJob, DropOuts, Manner, StockSheet, Taken, bound, jobs, stock_for,
};
use sightedge_service::files;

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "cut",
        values: &[
            "stock",
            "stages",
            "seconds",
            "instance",
            "name",
            "certificate",
            "variant",
            "give",
        ],
        flags: &["drop-outs", "taped-back", "no-turn", "json"],
    },
    help: help::CUT,
    run,
};

/// How long narrower borders are tried.
const LONGEST_TRIALS: Duration = Duration::from_secs(20);

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    options.needs("name", "instance")?;
    options.needs("no-turn", "instance")?;
    options.one_of(&["instance", "stock"])?;
    options.one_of(&["instance", "drop-outs"])?;
    options.one_of(&["instance", "give"])?;
    options.needs("taped-back", "drop-outs")?;
    let stages = stages(options)?;
    let seconds = seconds(options)?;
    match options.path("instance") {
        Some(file) => published(options, &file, stages, seconds, streams),
        None => show(options, stages, seconds, streams),
    }
}

fn stages(options: &Options) -> Result<Stages, CliError> {
    match options.text("stages")? {
        None | Some("3") => Ok(Stages::Three),
        Some("2") => Ok(Stages::Two),
        Some("any") => Ok(Stages::Any),
        Some(other) => Err(CliError::usage(format!(
            "--stages {other} is no number of stages: 2, 3 or any is wanted"
        ))),
    }
}

fn seconds(options: &Options) -> Result<u64, CliError> {
    let Some(text) = options.text("seconds")? else { return Ok(4) };
    text.parse().ok().filter(|seconds| (1..=3600).contains(seconds)).ok_or_else(|| {
        CliError::usage(format!("--seconds {text} is no time: 1 to 3600 are wanted"))
    })
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

/// No plan is told that the checker, which knows nothing of the solver, finds fault with.
fn sound(problem: &Problem, plan: &Plan) -> Result<(), CliError> {
    checker::check(problem, plan).map_err(|faults| {
        let first = faults.first().map(ToString::to_string).unwrap_or_default();
        CliError::unreadable(format!(
            "a plan was found that does not check, and is not shown: {first}. This is a fault of \
             the program: please report it"
        ))
    })
}

fn published(
    options: &Options,
    file: &Path,
    stages: Stages,
    seconds: u64,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let name = options.text("name")?.ok_or_else(|| {
        CliError::usage("--name is wanted beside --instance: which one of the file's")
    })?;
    let table = std::fs::File::open(file).map_err(|error| {
        CliError::unreadable(format!(
            "{} cannot be read: {error}; check the name",
            file.display()
        ))
    })?;
    let instance::Read { mut problem, bad } =
        instance::read(table, name, !options.has("no-turn"))
            .map_err(|error| CliError::unreadable(error.to_string()))?;
    problem.stages = stages;
    let (plan, took) = timed(&problem, seconds);
    sound(&problem, &plan)?;
    certificate(options, &[(&problem, &plan)])?;
    let mut report = Report::new(&problem, &plan, took, None);
    let refused = bad.iter().map(|row| format!("{row}; it was left out"));
    report.complaints.splice(0..0, refused);
    if options.has("json") {
        let text = serde_json::to_string_pretty(&report).map_err(std::io::Error::other)?;
        writeln!(streams.out, "{text}")?;
    } else {
        writeln!(
            streams.out,
            "{}, cost {}; no plan can cost less than {}{}",
            sheets(report.sheets),
            report.cost,
            report.lower_bound,
            if report.proved { ", so this one is proved" } else { "" }
        )?;
        for complaint in &report.complaints {
            writeln!(streams.err, "sightedge: {complaint}")?;
        }
    }
    let whole = report.missing.is_empty() && bad.is_empty();
    Ok(if whole { Exit::Done } else { Exit::Partly })
}

fn certificate(options: &Options, plans: &[(&Problem, &Plan)]) -> Result<(), CliError> {
    let Some(path) = options.path("certificate") else { return Ok(()) };
    let written: Vec<CertificateReport> =
        plans.iter().map(|(problem, plan)| CertificateReport::new(problem, plan)).collect();
    let text = match written.as_slice() {
        [one] => serde_json::to_string_pretty(one),
        all => serde_json::to_string_pretty(all),
    };
    let text = text.map_err(std::io::Error::other)?;
    std::fs::write(&path, text).map_err(|error| {
        CliError::unwritten(format!(
            "{} cannot be written: {error}; choose another place",
            path.display()
        ))
    })
}

fn show(
    options: &Options,
    stages: Stages,
    seconds: u64,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let mut exit = Exit::Done;
    let mut opened: Vec<(String, Document)> = Vec::new();
    for path in gathered(options)? {
        match plans::open(&path, options, streams) {
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
    let stock = match options.path("stock") {
        Some(file) => {
            let (sheets, bad) = sightedge_service::cutting::stock_file::read(&file, unit)
                .map_err(CliError::unreadable)?;
            for words in bad {
                writeln!(streams.err, "sightedge: {words}; it was left out")?;
                exit = Exit::Partly;
            }
            sheets
        }
        None => stock_for(&named, unit, &tables),
    };
    let manner = Manner::new(stages, drop_outs(options));
    let give = give(options, unit)?;
    let jobs = jobs(&named, &stock, manner);
    let mut taken = Taken::default();
    let mut solved: Vec<(BoardJob, Plan, f64)> = Vec::new();
    for job in jobs {
        let job = taken.rest(job);
        let (plan, took) = timed(&job.problem, seconds);
        taken.add(&job, &plan);
        solved.push((job, plan, took));
    }
    let pairs: Vec<(&Problem, &Plan)> =
        solved.iter().map(|(job, plan, _)| (&job.problem, plan)).collect();
    certificate(options, &pairs)?;
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
        if options.has("json") {
            boards.push(json!({
                "board": job.board.name,
                "thickness_mm": job.board.thickness.to_mm(),
                "turns": job.board.turns,
                "cost_is": if job.priced { "price in hundredths" } else { "square centimetres" },
                "plan": serde_json::to_value(&report).map_err(std::io::Error::other)?,
            }));
        } else {
            tell(job, plan, first, unit, streams)?;
            for complaint in job.complaints(plan, unit) {
                writeln!(streams.err, "sightedge: {complaint}")?;
            }
        }
        first += plan.patterns.len();
    }
    let materials = materials(&named, unit, Prices::default(), &tables);
    let offers = narrower(&opened, (&stock, manner, &tables), give, &solved);
    if options.has("json") {
        let lines = materials
            .iter()
            .map(|line| json!({ "what": line.what, "amount": line.amount }))
            .collect::<Vec<_>>();
        let mut all = json!({ "boards": boards, "materials": lines });
        if give.is_some() {
            all["narrower"] = offers.iter().map(|offer| written(offer, &opened)).collect();
        }
        writeln!(streams.out, "{all:#}")?;
        return Ok(exit);
    }
    for line in &materials {
        writeln!(streams.out, "{}: {}", line.what, line.amount)?;
    }
    tell_offers(&offers, &opened, unit, streams)?;
    Ok(exit)
}

/// A mat before and after, for other programs.
fn changed(change: &Change, opened: &[(String, Document)]) -> serde_json::Value {
    let face = |face: Face| {
        let Sides { top, right, bottom, left } = face.borders.map(Length::to_mm);
        json!({
            "outer_mm": [face.outer.width.to_mm(), face.outer.height.to_mm()],
            "top_mat_borders_mm": { "top": top, "right": right, "bottom": bottom, "left": left },
        })
    };
    let [before, after] = change.faces;
    json!({ "plan": opened[change.plan].0, "before": face(before), "after": face(after) })
}

/// An offer for other programs.
fn written(offer: &Offer, opened: &[(String, Document)]) -> serde_json::Value {
    json!({
        "plan": offer.plan.map(|at| &opened[at].0),
        "by_mm": offer.by.to_mm(),
        "sheets_saved": offer.sheets,
        "cost_saved": offer.cost,
        "changes": offer.changes.iter().map(|change| changed(change, opened)).collect::<Vec<_>>(),
    })
}

fn drop_outs(options: &Options) -> DropOuts {
    match (options.has("drop-outs"), options.has("taped-back")) {
        (false, _) => DropOuts::None,
        (true, false) => DropOuts::Free,
        (true, true) => DropOuts::All,
    }
}

fn tell_offers(
    offers: &[Offer],
    opened: &[(String, Document)],
    unit: Unit,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    for offer in offers {
        let plan = offer.plan.map_or("all mats", |at| &opened[at].0);
        let (by, saves, sum) = (offer.by.text(unit), offer.saves(), offer.comes_to());
        writeln!(streams.out, "Borders {by} narrower on {plan} {saves}: {sum}")?;
        // Each plan is listed once, however often it is named.
        let mut told: Vec<String> = Vec::new();
        for change in &offer.changes {
            let [board, borders] = change.told(unit);
            let line = format!("  {}: {board}; {borders}", opened[change.plan].0);
            if !told.contains(&line) {
                writeln!(streams.out, "{line}")?;
                told.push(line);
            }
        }
    }
    Ok(())
}

/// How much each border may give to save a sheet; `None` where nothing is to be tried.
fn give(options: &Options, unit: Unit) -> Result<Option<Length>, CliError> {
    let Some(text) = options.text("give")? else { return Ok(None) };
    let length =
        parse(text, unit).map_err(|error| CliError::usage(format!("--give: {error}")))?;
    if length.is_negative() || length > Length::mm(100) {
        return Err(CliError::usage(format!(
            "--give {text}: borders give from 0 to 4 in (100 mm); try 1/8 in or 3 mm"
        )));
    }
    Ok(Some(length))
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

/// The plans named, and those in the folders named.
fn gathered(options: &Options) -> Result<Vec<PathBuf>, CliError> {
    if options.words().is_empty() {
        return Err(CliError::usage(
            "a plan or a folder of plans is wanted; see sightedge cut --help",
        ));
    }
    let mut found = Vec::new();
    for path in options.words().iter().map(PathBuf::from) {
        if !path.is_dir() {
            found.push(path);
            continue;
        }
        let inside = files::plans_in(&path).map_err(|error| {
            CliError::unreadable(format!("{} cannot be read: {error}", path.display()))
        })?;
        found.extend(inside);
    }
    Ok(found)
}

fn sheets(count: u64) -> String {
    if count == 1 { "1 sheet".to_owned() } else { format!("{count} sheets") }
}

/// A board's sheets, cut by cut; each line says of which board and sheet it is, so that none
/// can be taken for another's.
fn tell(
    job: &BoardJob,
    plan: &Plan,
    first: usize,
    unit: Unit,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let out = &mut *streams.out;
    writeln!(
        out,
        "{}, {}{}: {}. {}",
        job.board.name,
        job.board.thickness.text(unit),
        if job.board.turns { "" } else { ", the pattern along the height" },
        Counts::of(&job.problem, plan),
        bound::in_words(&job.problem, plan, job.priced)
    )?;
    let (board, problem, set) = (job.board.name.as_str(), &job.problem, str::to_owned);
    let teller = Teller { board, problem, plan, step: job.unit, unit, set };
    for (number, sequence) in sequences(&job.problem, plan, first).iter().enumerate() {
        let sheet = teller.sheet(number);
        if let Some(words) = teller.first(sequence) {
            writeln!(out, "  {sheet}: {words}")?;
        }
        for cut in 0..sequence.cuts.len() {
            if let Some(told) = teller.cut(sequence, cut) {
                writeln!(out, "  {sheet}, cut {}: {}", cut + 1, told.line())?;
            }
        }
    }
    if !plan.patterns.is_empty() {
        writeln!(out, "  Edges as the sheet lies with its face up. {BLADES}")?;
    }
    Ok(())
}
