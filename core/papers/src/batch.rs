//! The papers of many plans into one folder, with progress and a way to stop.

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc;
use std::time::SystemTime;

use sightedge_core::date::Date;
use sightedge_core::derived::derive;
use sightedge_core::export::{cut_list, dxf, svg};
use sightedge_core::file::reference;
use sightedge_core::file::store::{self, System};
use sightedge_core::material::Tables;
use sightedge_core::plates::{CutAt, Seen, cuts};
use sightedge_core::spec::{Document, Inscribed, Variant};

use crate::names::{belongs_to_another, of_print, stem, unique};
use crate::{
    Archive, House, Kind, Order, OrderList, Paper, PapersError, forget, purchases,
    purchases_csv, write,
};

/// What is written of each plan.
#[derive(Clone, Debug)]
pub struct Choice {
    /// Papers.
    pub kinds: Vec<Kind>,
    /// The cut drawing as SVG.
    pub svg: bool,
    /// The cut drawing as DXF, in both versions.
    pub dxf: bool,
    /// The cut list.
    pub csv: bool,
    /// What is printed on; `None` for what is usual where the plan's unit is.
    pub paper: Option<Paper>,
    /// The day written on the papers; `None` for the last one in the plan's log, else the day
    /// its file was saved.
    pub date: Option<Date>,
    /// The day of a time where the person is; `None` where that is not known.
    pub day_there: fn(SystemTime) -> Option<Date>,
    /// Which mat, by its name; `None` for the chosen one.
    pub variant: Option<String>,
    /// Which edge of the bevel machines follow.
    pub cut_at: CutAt,
    /// From which side machines see the board.
    pub seen: Seen,
    /// Which rules PDFs keep.
    pub archive: Archive,
    /// Tables of materials; `None` for those that ship.
    pub tables: Option<Tables>,
    /// What is written on the print at the bench, by the id of its plan, where that is another
    /// print than the plan's own.
    pub at_bench: BTreeMap<String, Inscribed>,
    /// Whose papers they are.
    pub house: House,
}

impl Default for Choice {
    /// All of it.
    fn default() -> Self {
        Self {
            kinds: Kind::ALL.to_vec(),
            svg: true,
            dxf: true,
            csv: true,
            paper: None,
            date: None,
            day_there: |_| None,
            variant: None,
            cut_at: CutAt::default(),
            seen: Seen::default(),
            archive: Archive::default(),
            tables: None,
            at_bench: BTreeMap::new(),
            house: House::default(),
        }
    }
}

/// What was written of one plan.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Written {
    /// The files, in the order they were written.
    pub files: Vec<PathBuf>,
    /// What the person should know.
    pub notes: Vec<String>,
}

/// How one plan ended.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Outcome {
    /// Which plan.
    pub plan: PathBuf,
    /// What was written, or why nothing more could be.
    pub ended: Result<Written, PapersError>,
}

/// How far it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Progress<'a> {
    /// Plans that are done.
    pub done: usize,
    /// All plans.
    pub of: usize,
    /// The one that was just done.
    pub last: &'a Outcome,
}

/// Writes what is chosen of every plan into `out`, which is made where it is missing. It
/// names each plan that fails and goes on with the others. `watch` is called on the calling thread after each
/// plan; once `stop` is set no further plan is begun, and what is missing is not in the result.
///
/// # Errors
/// Where the folder cannot be made.
pub fn write_all(
    plans: &[PathBuf],
    out: &Path,
    choice: &Choice,
    stop: &AtomicBool,
    watch: &mut dyn FnMut(Progress<'_>),
) -> Result<Vec<Outcome>, PapersError> {
    fs::create_dir_all(out).map_err(|error| unwritten(out, &error))?;
    let opened: Vec<Result<Document, PapersError>> = plans
        .iter()
        .map(|plan| open(plan).map(|document| with_print(document, choice)))
        .collect();
    let alone: Vec<(String, String)> = opened
        .iter()
        .map(|plan| {
            plan.as_ref().map_or_else(
                |_| (String::new(), String::new()),
                |document| (document.id.clone(), stem(document)),
            )
        })
        .collect();
    let documents = opened.iter().filter_map(|plan| plan.as_ref().ok());
    let names = named(documents, &alone, out, choice)?;
    // Many plans share one order list.
    let mut rest = choice.clone();
    let mut listed = Written::default();
    if plans.len() > 1 && choice.kinds.contains(&Kind::Order) {
        rest.kinds.retain(|kind| *kind != Kind::Order);
        listed = order_list(plans, &opened, out, choice)?;
    }
    let first = opened.iter().position(Result::is_ok);
    let (choice, listed) = (&rest, &listed);
    let next = AtomicUsize::new(0);
    let (send, receive) = mpsc::channel();
    let workers = std::thread::available_parallelism().map_or(1, usize::from).min(plans.len());
    let mut outcomes: Vec<(usize, Outcome)> = Vec::with_capacity(plans.len());
    std::thread::scope(|scope| {
        for _ in 0..workers {
            let (send, next, opened, names) = (send.clone(), &next, &opened, &names);
            scope.spawn(move || {
                while !stop.load(Ordering::Relaxed) {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let (Some(plan), Some(name), Some(document)) =
                        (plans.get(index), names.get(index), opened.get(index))
                    else {
                        break;
                    };
                    let mut ended = match document {
                        Ok(document) => one(plan, document, out, name, choice),
                        Err(error) => Err(error.clone()),
                    };
                    if let Ok(written) = ended.as_mut()
                        && Some(index) == first
                    {
                        written.files.extend(listed.files.iter().cloned());
                        written.notes.extend(listed.notes.iter().cloned());
                    }
                    forget();
                    if send.send((index, Outcome { plan: plan.clone(), ended })).is_err() {
                        break;
                    }
                }
            });
        }
        drop(send);
        while let Ok((index, outcome)) = receive.recv() {
            outcomes.push((index, outcome));
            if let Some((_, last)) = outcomes.last() {
                watch(Progress { done: outcomes.len(), of: plans.len(), last });
            }
        }
    });
    outcomes.sort_by_key(|(index, _)| *index);
    Ok(outcomes.into_iter().map(|(_, outcome)| outcome).collect())
}

/// The plan with the print at the bench that was chosen for it.
fn with_print(mut document: Document, choice: &Choice) -> Document {
    if let Some(inscribed) = choice.at_bench.get(&document.id) {
        document.inscribed = Some(inscribed.clone());
    }
    document
}

/// Writes what is chosen of one plan that is open, saved or not, into `out`, which is made
/// where it is missing. `plan` is where it lies, or will.
///
/// # Errors
/// Where a file cannot be written.
pub fn write_plan(
    document: &Document,
    plan: &Path,
    out: &Path,
    choice: &Choice,
) -> Result<Written, PapersError> {
    fs::create_dir_all(out).map_err(|error| unwritten(out, &error))?;
    let alone = [(document.id.clone(), stem(document))];
    let names = named(std::iter::once(document), &alone, out, choice)?;
    let name = names.first().map_or("picture", String::as_str);
    let written = one(plan, document, out, name, choice);
    forget();
    written
}

/// A name for each plan's files in `out`.
fn named<'a>(
    documents: impl Iterator<Item = &'a Document>,
    alone: &[(String, String)],
    out: &Path,
    choice: &Choice,
) -> Result<Vec<String>, PapersError> {
    let endings: BTreeMap<&str, Vec<String>> =
        documents.map(|plan| (plan.id.as_str(), endings(choice, plan))).collect();
    let existing_files = existing_files(out).map_err(|error| unwritten(out, &error))?;
    Ok(unique(alone, |name, id| {
        endings.get(id).into_iter().flatten().any(|ending| {
            let file = format!("{name}{ending}").to_lowercase();
            existing_files.get(&file).is_some_and(|path| belongs_to_another(path, id))
        })
    }))
}

/// What is in a folder, by names in small letters: some systems make no difference.
fn existing_files(folder: &Path) -> io::Result<BTreeMap<String, PathBuf>> {
    fs::read_dir(folder)?
        .map(|entry| {
            let entry = entry?;
            Ok((entry.file_name().to_string_lossy().to_lowercase(), entry.path()))
        })
        .collect()
}

/// How the file of one paper ends. The steps are those of one print: with its number, so that
/// the next print's do not replace them.
fn ending(kind: Kind, document: &Document) -> String {
    let print = document.inscribed.as_ref().map(|own| own.recorded.number());
    match print.filter(|number| kind == Kind::Steps && !number.is_empty()) {
        Some(number) => format!("-{}-{}.pdf", kind.key(), of_print(&number)),
        None => format!("-{}.pdf", kind.key()),
    }
}

/// How the files of one plan end.
fn endings(choice: &Choice, document: &Document) -> Vec<String> {
    let mut endings: Vec<String> =
        choice.kinds.iter().map(|kind| ending(*kind, document)).collect();
    if choice.kinds.contains(&Kind::Order) {
        endings.push("-order.csv".to_owned());
    }
    let drawings: [(bool, &[&str]); 3] = [
        (choice.svg, &["-cut.svg"]),
        (choice.dxf, &["-cut-newer-machines.dxf", "-cut-older-machines.dxf"]),
        (choice.csv, &["-cut.csv"]),
    ];
    for (wanted, names) in drawings {
        if wanted {
            endings.extend(names.iter().map(|name| (*name).to_owned()));
        }
    }
    endings
}

fn open(plan: &Path) -> Result<Document, PapersError> {
    store::open(&System, &store::meant_by(plan))
        .map(|opened| opened.document)
        .map_err(|error| PapersError::Plan(error.to_string()))
}

fn variant<'a>(
    document: &'a Document,
    plan: &Path,
    choice: &Choice,
) -> Result<&'a Variant, PapersError> {
    let found = match &choice.variant {
        Some(name) => document.variants.iter().find(|variant| variant.name == *name),
        None => document.chosen(),
    };
    found.ok_or_else(|| {
        let names: Vec<_> = document.variants.iter().map(|v| v.name.as_str()).collect();
        PapersError::Plan(format!(
            "{} has no mat \"{}\": it holds {}",
            plan.display(),
            choice.variant.as_deref().unwrap_or_default(),
            names.join(", ")
        ))
    })
}

/// Writes one order list for all plans that could be opened, as PDF and as a table.
fn order_list(
    plans: &[PathBuf],
    opened: &[Result<Document, PapersError>],
    out: &Path,
    choice: &Choice,
) -> Result<Written, PapersError> {
    let tables = choice.tables.as_ref().unwrap_or(Tables::shipped());
    let mut found = Vec::with_capacity(plans.len());
    let mut date = choice.date;
    for (plan, document) in plans.iter().zip(opened) {
        let Ok(document) = document else { continue };
        let Ok(variant) = variant(document, plan, choice) else { continue };
        found.push((document, &variant.mat, derive(document, variant, tables)));
        if choice.date.is_none() {
            date = date.max(day_of(document, plan, choice.day_there));
        }
    }
    let mut written = Written::default();
    let (Some((first, ..)), Some(date)) = (found.first(), date) else { return Ok(written) };
    let unit = first.unit;
    let all =
        purchases(found.iter().map(|(document, mat, derived)| (*document, *mat, derived)));
    let csv =
        purchases_csv(&all, unit).map_err(|error| unwritten(out, &io::Error::other(error)))?;
    let path = out.join("order-list.csv");
    put(&path, csv.as_bytes())?;
    written.files.push(path);
    let list = OrderList {
        purchases: &all,
        plans: found.len(),
        unit,
        paper: choice.paper.unwrap_or(Paper::usual(unit)),
        date,
        archive: choice.archive,
        house: &choice.house,
    };
    let laid = list.lay_out()?;
    let path = out.join("order-list.pdf");
    put(&path, &laid.pdf()?)?;
    written.files.push(path);
    written.notes.extend(laid.notes().iter().cloned());
    Ok(written)
}

/// Writes what is chosen of one plan.
fn one(
    plan: &Path,
    document: &Document,
    out: &Path,
    name: &str,
    choice: &Choice,
) -> Result<Written, PapersError> {
    let variant = variant(document, plan, choice)?;
    let tables = choice.tables.as_ref().unwrap_or(Tables::shipped());
    let derived = derive(document, variant, tables);
    let folder = folder(plan);
    let picture = |work: &sightedge_core::spec::Work| {
        let path = reference::resolve(&folder, &work.picture.path);
        (!work.picture.path.is_empty()).then_some(path)
    };
    let order = Order {
        document,
        variant,
        derived: &derived,
        picture: &picture,
        paper: choice.paper.unwrap_or(Paper::usual(document.unit)),
        date: choice.date.or_else(|| day_of(document, plan, choice.day_there)).ok_or_else(
            || {
                PapersError::Plan(format!(
                    "{} has no date, nor has its file: give one with --date",
                    plan.display()
                ))
            },
        )?,
        tables,
        steps: None,
        archive: choice.archive,
        house: &choice.house,
    };
    let mut written = Written::default();
    let mut put = |ending: &str, bytes: &[u8]| {
        let path = out.join(format!("{name}{ending}"));
        put(&path, bytes)?;
        written.files.push(path);
        Ok(())
    };
    let mut notes = Vec::new();
    for kind in &choice.kinds {
        if *kind == Kind::Order {
            let all = purchases([(document, &variant.mat, &derived)]);
            let list = purchases_csv(&all, document.unit);
            let list = list.map_err(|error| unwritten(out, &io::Error::other(error)))?;
            put("-order.csv", list.as_bytes())?;
        }
        let made = write(*kind, &order)?;
        for words in made.notes {
            if !notes.contains(&words) {
                notes.push(words);
            }
        }
        put(&ending(*kind, document), &made.bytes)?;
    }
    if choice.svg || choice.dxf {
        let layout = &derived.layout;
        let parts = cuts(&variant.mat, layout, document.unit, choice.cut_at, choice.seen);
        let title = document.works.first().map_or("", |work| work.title.as_str());
        let id = document.id.as_str();
        if choice.svg {
            put("-cut.svg", svg::write(&parts, title, id).as_bytes())?;
        }
        if choice.dxf {
            for (ending, version) in [
                ("-cut-newer-machines.dxf", dxf::Version::R2000),
                ("-cut-older-machines.dxf", dxf::Version::R12),
            ] {
                put(ending, dxf::write(&parts, version, id).as_bytes())?;
            }
        }
    }
    if choice.csv {
        let list = cut_list::write(document, &variant.mat, &derived.layout);
        let list = list.map_err(|error| unwritten(out, &io::Error::other(error)))?;
        put("-cut.csv", list.as_bytes())?;
    }
    written.notes = notes;
    Ok(written)
}

fn folder(plan: &Path) -> PathBuf {
    let plan = plan.canonicalize().unwrap_or_else(|_| plan.to_owned());
    plan.parent().map_or_else(|| PathBuf::from("."), Path::to_owned)
}

/// The day of the plan: the last in its log, else the one its file was saved on; `None` where
/// there is neither. `day_there` is the day of a time where the person is.
pub fn day_of(
    document: &Document,
    plan: &Path,
    day_there: fn(SystemTime) -> Option<Date>,
) -> Option<Date> {
    let logged = document.log.iter().filter_map(|entry| entry.when.parse::<Date>().ok()).max();
    logged.or_else(|| {
        let saved = fs::metadata(plan).and_then(|facts| facts.modified()).ok()?;
        day_there(saved)
    })
}

/// Writes a file so that it is there whole or not at all.
fn put(path: &Path, bytes: &[u8]) -> Result<(), PapersError> {
    store::write_whole(&System, path, bytes).map_err(|error| unwritten(path, &error))
}

fn unwritten(path: &Path, error: &io::Error) -> PapersError {
    PapersError::Unwritten { path: path.to_owned(), why: error.to_string() }
}
