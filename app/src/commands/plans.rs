//! Opening the plans that commands are given.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::Args;
use sightedge_core::derived::{Derived, derive};
use sightedge_core::finding::Finding;
use sightedge_core::material::Tables;
use sightedge_core::spec::{Document, Variant};

use super::Streams;
use super::outcome::CliError;
use sightedge_service::{files, picture_facts};

/// One plan and one of its mats.
#[derive(Args, Debug)]
pub(super) struct OnePlan {
    /// The plan, or the picture it lies beside
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

/// One of the mats of a plan.
#[derive(Args, Debug)]
pub(super) struct OneMat {
    /// Another mat than the chosen one
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
        let id = match &self.mat {
            Some(name) => find_mat(&document, name, &path)?.id,
            None => document.chosen,
        };
        let index = document.variants.iter().position(|variant| variant.id == id);
        let index = index.unwrap_or_default();
        Ok(Opened { path, document, tables: streams.tables()?, index })
    }
}

/// The mat of that name.
pub(super) fn find_mat<'d>(
    document: &'d Document,
    name: &str,
    path: &Path,
) -> Result<&'d Variant, CliError> {
    let found = document.variants.iter().find(|variant| variant.name == *name);
    found.ok_or_else(|| {
        let names: Vec<_> =
            document.variants.iter().map(|variant| variant.name.as_str()).collect();
        CliError::usage(format!(
            "there is no mat \"{name}\" in {}: it holds {}",
            path.display(),
            names.join(", ")
        ))
    })
}

/// A plan that was opened, with the variant asked for.
#[derive(Debug)]
pub(super) struct Opened {
    pub(super) path: PathBuf,
    pub(super) document: Document,
    pub(super) tables: Arc<Tables>,
    index: usize,
}

impl Opened {
    /// The variant asked for.
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
            "{} is the picture itself, which is never written over: give another name",
            out.display()
        )));
    }
    Ok(())
}
