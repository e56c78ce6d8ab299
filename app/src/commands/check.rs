//! `sightedge check`: what would fail.

use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::derived::derive;
use sightedge_core::finding::{Finding, Severity, Since};
use sightedge_core::geometry::{Seen, Side};
use sightedge_core::length::{Length, Unit};
use sightedge_core::rules::worst;
use sightedge_core::spec::{Document, VariantId};

use super::at_bench::AtBench;
use super::outcome::CliError;
use super::plans::{Plans, Told};
use super::{Exit, Streams};

/// What would fail, by how much, and how to mend it
#[derive(Args, Debug)]
#[command(after_help = "\
Ends with 0 (nothing above a Note), 1 (a Caution) or 2 (a Fault), the worst of all plans; with 6
where some plans were left out.

Examples:
  sightedge check print.jpg --json
  sightedge check shows/spring")]
pub(super) struct Check {
    /// Folder of the record; if not given, the window's record
    #[arg(long, value_name = "FOLDER")]
    record: Option<PathBuf>,
    /// As JSON, for other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    plans: Plans,
}

impl Check {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        let bench = AtBench::of(None, self.record.as_deref(), streams)?;
        self.plans.each(self.json, streams, |plan, streams| {
            let mut findings = plan.findings();
            findings.extend(bench.finding(&plan.document)?);
            findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
            let exit = code(&findings);
            if !self.json {
                write_all(&findings, &plan.document, streams)?;
                return Ok(Told::ended(exit, Value::Null));
            }
            let unit = plan.document.unit;
            let findings: Vec<Value> = findings.iter().map(|one| to_json(one, unit)).collect();
            let plan = plan.path.display().to_string();
            Ok(Told::ended(exit, json!({ "plan": plan, "findings": findings })))
        })
    }
}

/// The findings of the chosen mat, in words.
pub(super) fn print(document: &Document, streams: &mut Streams<'_>) -> Result<(), CliError> {
    let Some(variant) = document.chosen() else { return Ok(()) };
    let findings = derive(document, variant, &*streams.tables()?).findings;
    write_all(&findings, document, streams)
}

/// What a cut brought about, judged against what was found before it, and how a check of the
/// mat ends.
pub(super) fn tell_cut(
    before: &[Finding],
    document: &Document,
    id: VariantId,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let Some(variant) = document.variant(id) else { return Ok(Exit::Done) };
    let findings = derive(document, variant, &*streams.tables()?).findings;
    let since = Since::of(before, &findings);
    writeln!(streams.out, "{}", since.as_cut())?;
    for finding in &since.brought {
        write_one(finding, document, streams)?;
    }
    if !since.before.is_empty() {
        writeln!(streams.out, "{}", Since::BEFORE)?;
        for finding in &since.before {
            write_one(finding, document, streams)?;
        }
    }
    seen_from_the_front(&findings, streams)?;
    Ok(code(&findings))
}

fn code(findings: &[Finding]) -> Exit {
    match worst(findings) {
        Some(Severity::Fault) => Exit::Fault,
        Some(Severity::Caution) => Exit::Caution,
        Some(Severity::Note) | None => Exit::Done,
    }
}

fn write_all(
    findings: &[Finding],
    document: &Document,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    if findings.is_empty() {
        writeln!(streams.out, "Nothing would fail.")?;
    }
    for finding in findings {
        write_one(finding, document, streams)?;
    }
    seen_from_the_front(findings, streams)
}

/// Said once, where a finding names the left or the right.
fn seen_from_the_front(
    findings: &[Finding],
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let turns = |side| matches!(side, Side::Left | Side::Right);
    if findings.iter().any(|finding| finding.place.side.is_some_and(turns)) {
        writeln!(streams.out, "Left and right are seen {}.", Seen::Front.words())?;
    }
    Ok(())
}

fn write_one(
    finding: &Finding,
    document: &Document,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let [found, wanted] = finding.amounts(document.unit, document.weights());
    let side = finding.place.side.map(|side| format!(", {}", side.name()));
    writeln!(
        streams.out,
        "{}: {}{}: {} ({found} found, {wanted} needed; {})",
        finding.severity.name(),
        finding.rule,
        side.unwrap_or_default(),
        finding.message,
        finding.source
    )?;
    if let Some(remedy) = &finding.remedy {
        writeln!(streams.out, "    {}", remedy.words)?;
    }
    Ok(())
}

pub(super) fn to_json(finding: &Finding, unit: Unit) -> Value {
    json!({
        "rule": finding.rule,
        "severity": finding.severity.key(),
        "opening": finding.place.opening.map(|id| id.0),
        "layer": finding.place.layer.map(|id| id.0),
        "side": finding.place.side.map(Side::name),
        "measured_mm": finding.measured.length().map(Length::to_mm),
        "required_mm": finding.required.length().map(Length::to_mm),
        "measured_text": finding.measured.text(unit),
        "required_text": finding.required.text(unit),
        "source": finding.source,
        "message": finding.message,
        "remedy": finding.remedy.as_ref().map(|remedy| remedy.words.as_str()),
    })
}
