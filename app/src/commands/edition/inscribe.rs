//! What is written on a print and on its mat.

use std::path::PathBuf;

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::file::store::Overwrite;
use sightedge_core::finding::Severity;
use sightedge_core::geometry::Rect;
use sightedge_core::inscription::{Written, inscription};
use sightedge_core::length::Length;
use sightedge_core::rules::worst;
use sightedge_core::spec::{Back, Front, Inscribed, Lettering};

use super::super::outcome::CliError;
use super::super::plans::OneMat;
use super::super::values::Read;
use super::super::{Exit, Streams};
use super::given::OneEdition;
use super::{Asked, notation};
use sightedge_service::record::at_bench::{Prints, inscribed};
use sightedge_service::{files, record};

/// What is written on a print and its mat, with what, and where
#[derive(Args, Debug)]
#[command(after_help = "\
Lines of your own may hold {title} {taken} {printed} {maker} {number} {sign}.

Example:
  sightedge edition inscribe W0001 1/25 print.jpg --front margin")]
pub(super) struct Inscribe {
    /// Its catalogue number
    #[arg(value_name = "WORK")]
    work: String,
    /// As it is written
    #[arg(value_name = "NUMBER")]
    number: String,
    /// The plan that the print goes with
    #[arg(value_name = "PLAN")]
    plan: PathBuf,
    /// Where it is signed: margin, mat or nothing
    #[arg(long, value_name = "PLACE", value_parser = Read(front))]
    front: Option<Front>,
    /// Where it is written on the back: margin or image
    #[arg(long, value_name = "PLACE", value_parser = Read(behind))]
    behind: Option<Back>,
    /// Lines of your own for the back
    #[arg(long, value_name = "LINE|LINE")]
    back: Option<String>,
    /// What stands on it now
    #[arg(long, value_name = "TEXT")]
    stands: Option<String>,
    /// Keep it in the plan
    #[arg(long)]
    save: bool,
    #[command(flatten)]
    one: OneEdition,
    /// For other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    mat: OneMat,
}

fn front(name: &str, text: &str) -> Result<Front, String> {
    Front::from_key(text).ok_or_else(|| {
        format!("--{name} {text} is no place to write: use margin, mat or nothing")
    })
}

fn behind(name: &str, text: &str) -> Result<Back, String> {
    Back::from_key(text)
        .ok_or_else(|| format!("--{name} {text} is no place on the back: use margin or image"))
}

impl Inscribe {
    /// What the options ask to be written otherwise than the plan says.
    fn wished(&self, lettering: &mut Lettering) {
        if let Some(stands) = &self.stands {
            lettering.already_written.clone_from(stands);
        }
        lettering.front = self.front.unwrap_or(lettering.front);
        lettering.behind = self.behind.unwrap_or(lettering.behind);
        if let Some(lines) = &self.back {
            lettering.back = lines.split('|').map(ToOwned::to_owned).collect();
        }
    }

    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let (work, edition) = asked.edition(&self.work, Some(&self.number), &self.one)?;
        let named = notation(&self.number)?;
        let mut plan = self.mat.open(&self.plan, streams)?;
        record::PlanOfPrint::of(&plan.document, &plan.path).is_for(&work)?;
        let prints = asked.record().prints(edition.id)?;
        let held = prints.iter().find(|print| {
            print.live && (print.kind, print.number) == (named.kind, named.number)
        });
        let held = held.map(|print| print.id);
        let recorded = record::recorded(&work, &edition, named.kind, named.number, held);
        // What the plan says already stays, unless something else is asked for.
        let usual = streams.storage.settings().words.lettering();
        let Inscribed { mut lettering, recorded } = inscribed(&plan.document, recorded, &usual);
        self.wished(&mut lettering);
        let front = lettering.front;
        plan.document.inscribed = Some(Inscribed { lettering, recorded });
        let derived = plan.derived();
        let made = inscription(&plan.document, &plan.variant().mat, &derived.layout)
            .ok_or_else(|| CliError::unreadable("the plan has no window: add one first"))?
            .map_err(CliError::usage)?;
        let record = asked.opened.read();
        let own = Prints::of(record, &plan.document)?.finding(&plan.document, &usual);
        let of_rules = derived.findings.iter();
        let of_rules = of_rules.filter(|finding| finding.rule.starts_with("inscription-"));
        let findings: Vec<_> = own.into_iter().chain(of_rules.cloned()).collect();
        if self.save {
            // It was read a moment ago: what changed since is another's work.
            let stamp = files::open(&plan.path)
                .map(|opened| opened.stamp)
                .map_err(|error| CliError::unreadable(error.to_string()))?;
            files::save(&plan.path, &plan.document, Overwrite::This(&stamp))
                .map_err(|error| CliError::unwritten(error.to_string()))?;
        }
        let unit = plan.document.unit;
        if self.json {
            let findings: Vec<Value> = findings
            .iter()
            .map(|one| {
                json!({
                    "rule": one.rule, "severity": one.severity.key(), "message": one.message,
                    "source": one.source,
                })
            })
            .collect();
            let told = json!({
                "back": made.back.iter().map(line_json).collect::<Vec<_>>(),
                "behind_image": made.behind_image,
                "front": made.front.iter().map(line_json).collect::<Vec<_>>(),
                "with": made.tool.with,
                "how": made.tool.how,
                "findings": findings,
            });
            writeln!(streams.out, "{told:#}")?;
        } else {
            let out = &mut *streams.out;
            let sheet = derived.layout.exact.openings.first().map(|window| window.sheet);
            let sheet = sheet.unwrap_or_default();
            let behind =
                if made.behind_image { "behind the image" } else { "behind the margin" };
            writeln!(out, "On the back of the sheet, {behind}, with {}", made.tool.with)?;
            for line in &made.back {
                writeln!(out, "  {}", words(line, sheet, |length| length.near(unit)))?;
            }
            if !made.front.is_empty() {
                writeln!(out, "{}", front.place_and_time())?;
                for line in &made.front {
                    writeln!(out, "  {}", signed(line))?;
                }
            }
            writeln!(out, "{}", made.tool.how)?;
            for one in &findings {
                writeln!(out, "{}: {}: {}", one.severity.name(), one.rule, one.message)?;
            }
        }
        Ok(match worst(&findings) {
            Some(Severity::Fault) => Exit::Fault,
            Some(Severity::Caution) => Exit::Caution,
            Some(Severity::Note) | None => Exit::Done,
        })
    }
}

fn signed(line: &Written) -> String {
    let sign = if line.sign { "(sign here)" } else { "" };
    format!("{} {sign}", line.text).trim().to_owned()
}

/// A line, and how far it ends above the sheet's bottom edge.
fn words(line: &Written, sheet: Rect, text: impl Fn(Length) -> String) -> String {
    let above = sheet.bottom() - line.place.bottom();
    format!("{:<40} {} above the edge", signed(line), text(above))
}

fn line_json(line: &Written) -> Value {
    json!({
        "text": line.text,
        "sign": line.sign,
        "left_mm": line.place.left().to_mm(),
        "top_mm": line.place.top().to_mm(),
        "width_mm": line.place.size.width.to_mm(),
        "height_mm": line.place.size.height.to_mm(),
    })
}
