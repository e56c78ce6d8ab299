//! `sightedge steps`: what is done at the bench, in order.

use clap::Args;
use serde_json::{Value, json};
use sightedge_core::finding::{Finding, Severity};
use sightedge_core::steps::{Step, steps, to_read_first};

use super::at_bench::{AtBench, Taken, WhichPrint};
use super::outcome::CliError;
use super::plans::{Opened, Plans, Told};
use super::{Exit, Streams, check};

/// What to do at the bench, in order, with every figure and caution
#[derive(Args, Debug)]
#[command(after_help = "\
What would fail, and what can harm the print, comes before the first step. Ends with 2 where that
is a Fault, and with 6 where some plans were left out.

Examples:
  sightedge steps print.jpg
  sightedge steps shows/spring --json")]
pub(super) struct Steps {
    #[command(flatten)]
    print: WhichPrint,
    /// As JSON, for other programs
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    plans: Plans,
}

impl Steps {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
        if self.print.print.is_some() && self.plans.several() {
            return Err(CliError::usage(
                "--print names one print, so give one plan with it, not several or a folder",
            ));
        }
        let bench = self.print.find(streams)?;
        self.plans.each(self.json, streams, |plan, streams| self.tell(&bench, plan, streams))
    }

    fn tell(
        &self,
        bench: &AtBench<'_>,
        mut plan: Opened,
        streams: &mut Streams<'_>,
    ) -> Result<Told, CliError> {
        let Taken { print, finding } = bench.take(&mut plan.document, streams)?;
        let steps = steps(&plan.document, plan.variant(), &plan.derived(), &plan.tables);
        // What is at the bench comes first, then what would fail of the plan itself.
        let found = plan.findings();
        let findings: Vec<&Finding> = finding.iter().chain(to_read_first(&found)).collect();
        let fault = findings.iter().any(|finding| finding.severity == Severity::Fault);
        let exit = if fault { Exit::Fault } else { Exit::Done };
        if self.json {
            let number = plan.document.inscribed.as_ref().map(|own| own.recorded.number());
            let number = number.filter(|number| !number.is_empty());
            let steps: Vec<Value> = steps.iter().map(to_json).collect();
            let unit = plan.document.unit;
            let findings: Vec<Value> =
                findings.iter().map(|one| check::to_json(one, unit)).collect();
            let json = json!({ "print": number, "findings": findings, "steps": steps });
            return Ok(Told::ended(exit, json));
        }
        if let Some(print) = print {
            writeln!(streams.out, "The print at the bench: {print}")?;
        }
        for finding in &findings {
            writeln!(streams.out, "{}: {}", finding.severity.name(), finding.message)?;
        }
        for step in &steps {
            let done = match (step.done, step.changed.as_slice()) {
                (true, _) => " (done)",
                (false, []) => "",
                (false, _) => " (do it again)",
            };
            writeln!(streams.out, "{:>2}. {}{done}", step.number, step.title)?;
            writeln!(streams.out, "    {}", step.text())?;
            if let Some(words) = step.changed_in_words() {
                writeln!(streams.out, "    {words}")?;
            }
            for caution in &step.cautions {
                writeln!(streams.out, "    Caution: {caution}")?;
            }
        }
        Ok(Told::ended(exit, Value::Null))
    }
}

fn to_json(step: &Step) -> Value {
    json!({
        "number": step.number,
        "id": step.id,
        "title": step.title,
        "text": step.text(),
        "cautions": step.cautions,
        "done": step.done,
        "changed": step.changed,
    })
}
