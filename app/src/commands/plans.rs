//! Opening the plans that commands are given.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::derived::{Derived, derive};
use sightedge_core::finding::Finding;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Variant};

use super::outcome::CliError;
use super::{Exit, Streams};
use sightedge_service::{files, picture_facts};

/// One plan and one of its mats.
#[derive(Args, Debug)]
pub(super) struct OnePlan {
    /// The plan, or the picture it is beside
    #[arg(value_name = "PLAN")]
    plan: PathBuf,
    #[command(flatten)]
    mat: OneMat,
}

impl OnePlan {
    pub(super) fn open(&self, streams: &mut Streams<'_>) -> Result<Opened, CliError> {
        self.mat.open(&self.plan, streams)
    }
}

/// Plans, or folders of plans, and one mat of each.
#[derive(Args, Debug)]
pub(super) struct Plans {
    /// The plans, the pictures they are beside, or folders of plans
    #[arg(value_name = "PLAN|FOLDER", required = true)]
    plans: Vec<PathBuf>,
    #[command(flatten)]
    mat: OneMat,
}

/// What a command has to say of one plan: how it ends, and a value for other programs.
pub(super) struct Told {
    pub(super) exit: Exit,
    pub(super) json: Value,
    /// The same value with its fields in an order that reads well, where that is not theirs.
    pub(super) text: Option<String>,
}

impl Told {
    /// A value, and nothing that went wrong.
    pub(super) fn done(json: Value) -> Self {
        Self::ended(Exit::Done, json)
    }

    /// A value, and how a check of it ends.
    pub(super) fn ended(exit: Exit, json: Value) -> Self {
        Self { exit, json, text: None }
    }
}

impl Plans {
    /// Whether a folder or more than one plan is named, so that the answer is a list.
    pub(super) fn several(&self) -> bool {
        self.plans.len() > 1 || self.plans.iter().any(|path| path.is_dir())
    }

    /// Opens each plan and has `tell` say it: in words, or with `json` as a value. Of several,
    /// one that cannot be told is named, and the others go on.
    pub(super) fn each(
        &self,
        json: bool,
        streams: &mut Streams<'_>,
        mut tell: impl FnMut(Opened, &mut Streams<'_>) -> Result<Told, CliError>,
    ) -> Result<Exit, CliError> {
        if !self.several() {
            let path = self.plans.first().map_or(Path::new(""), PathBuf::as_path);
            let told = tell(self.mat.open(path, streams)?, streams)?;
            if json {
                let text = told.text.unwrap_or_else(|| format!("{:#}", told.json));
                writeln!(streams.out, "{text}")?;
            }
            return Ok(told.exit);
        }
        let (mut worst, mut left_out, mut list) = (Exit::Done, None, Vec::new());
        for path in gathered(&self.plans)? {
            let told = self.mat.open(&path, streams).and_then(|plan| {
                let path = plan.path.clone();
                if !json {
                    writeln!(streams.out, "{}", path.display())?;
                }
                Ok((path, tell(plan, streams)?))
            });
            let (path, value) = match told {
                Ok((path, told)) => {
                    worst = worst.max(told.exit);
                    (path, told.json)
                }
                Err(trouble) => {
                    writeln!(streams.err, "sightedge: {}", trouble.words)?;
                    left_out = left_out.max(Some(trouble.exit));
                    (path, json!({ "error": trouble.words }))
                }
            };
            list.push(with_plan(&path, value));
        }
        let all = list.iter().all(|one| one.get("error").is_some());
        if json {
            writeln!(streams.out, "{:#}", Value::Array(list))?;
        }
        Ok(match left_out {
            None => worst,
            Some(exit) if all => exit,
            Some(_) => Exit::Partly,
        })
    }
}

/// The value with the plan's name in it.
fn with_plan(path: &Path, mut value: Value) -> Value {
    if let Value::Object(fields) = &mut value {
        fields.insert("plan".to_owned(), json!(path.display().to_string()));
    }
    value
}

/// The plans that are named, and those in the folders that are.
pub(super) fn gathered(named: &[PathBuf]) -> Result<Vec<PathBuf>, CliError> {
    let mut found = Vec::new();
    for path in named {
        if !path.is_dir() {
            found.push(path.clone());
            continue;
        }
        let inside = files::plans_in(path).map_err(|error| {
            CliError::unreadable(format!("{} cannot be read: {error}", path.display()))
        })?;
        if inside.is_empty() {
            return Err(CliError::unreadable(format!(
                "{} has no plan in it: make one with sightedge new",
                path.display()
            )));
        }
        found.extend(inside);
    }
    Ok(found)
}

/// One of the mats of a plan.
#[derive(Args, Debug)]
pub(super) struct OneMat {
    /// Which mat of the plan; if not given, the chosen one
    #[arg(long, value_name = "NAME")]
    pub(super) mat: Option<String>,
}

impl OneMat {
    /// Opens a plan; given a picture, the plan beside it.
    pub(super) fn open(
        &self,
        path: &Path,
        streams: &mut Streams<'_>,
    ) -> Result<Opened, CliError> {
        let path = files::meant_by(path);
        let document = files::open(&path)
            .map(|opened| opened.document)
            .map_err(|error| CliError::unreadable(error.to_string()))?;
        let variants = &document.variants;
        let index = if let Some(name) = &self.mat {
            variants.iter().position(|variant| variant.name == *name).ok_or_else(|| {
                let names: Vec<_> =
                    variants.iter().map(|variant| variant.name.as_str()).collect();
                CliError::usage(format!(
                    "there is no mat \"{name}\" in {}: it has {}",
                    path.display(),
                    names.join(", ")
                ))
            })?
        } else {
            let chosen = variants.iter().position(|variant| variant.id == document.chosen);
            chosen.unwrap_or_default()
        };
        Ok(Opened { path, document, tables: streams.tables()?, index })
    }
}

/// A plan that was opened, with the mat asked for.
#[derive(Debug)]
pub(super) struct Opened {
    pub(super) path: PathBuf,
    pub(super) document: Document,
    pub(super) tables: Arc<Tables>,
    index: usize,
}

impl Opened {
    /// The mat asked for.
    pub(super) fn variant(&self) -> &Variant {
        &self.document.variants[self.index]
    }

    pub(super) fn derived(&self) -> Derived {
        derive(&self.document, self.variant(), &self.tables)
    }

    /// What would fail, and what the pictures' files have to say to it.
    pub(super) fn findings(&self) -> Vec<Finding> {
        let Derived { layout, mut findings, .. } = self.derived();
        let mat = &self.variant().mat;
        // Notes, so they come last.
        findings.extend(picture_facts::other_sizes(&self.document, mat, &layout, &self.path));
        findings
    }
}

/// Refuses to write to `out` where the picture itself lies.
pub(super) fn spare(picture: &Path, out: &Path) -> Result<(), CliError> {
    let same = matches!((picture.canonicalize(), out.canonicalize()), (Ok(a), Ok(b)) if a == b);
    if same {
        return Err(CliError::usage(format!(
            "{} is the picture itself, which is never changed: give another name",
            out.display()
        )));
    }
    Ok(())
}
