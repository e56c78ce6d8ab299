//! `sightedge steps`: what is done at the bench, in order.

use serde_json::{Value, json};
use sightedge_core::finding::{Finding, Severity};
use sightedge_core::steps::{Step, steps, to_read_first};

use super::at_bench::{AtBench, Taken};
use super::options::{Known, Options};
use super::outcome::CliError;
use super::{Exit, Streams, Verb, check, help, plans};

pub(super) const VERB: Verb = Verb {
    known: Known {
        verb: "steps",
        values: &["print", "in", "studio", "variant"],
        flags: &["json"],
    },
    help: help::STEPS,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let mut plan = plans::open(&options.word("a plan")?, options, streams)?;
    let bench = AtBench::of(options, streams)?;
    let Taken { print, finding } = bench.take(&mut plan.document, streams)?;
    let steps = steps(&plan.document, plan.variant(), &plan.derived(), &plan.tables);
    // What is at the bench comes first, then what would fail of the plan itself.
    let found = plan.findings();
    let findings: Vec<&Finding> = finding.iter().chain(to_read_first(&found)).collect();
    let stop = findings.iter().any(|finding| finding.severity == Severity::Stop);
    let exit = if stop { Exit::Stop } else { Exit::Done };
    if options.has("json") {
        let number = plan.document.inscribed.as_ref().map(|own| own.recorded.number());
        let number = number.filter(|number| !number.is_empty());
        let steps: Vec<Value> = steps.iter().map(to_json).collect();
        let unit = plan.document.unit;
        let findings: Vec<Value> =
            findings.iter().map(|one| check::to_json(one, unit)).collect();
        let told = json!({ "print": number, "findings": findings, "steps": steps });
        writeln!(streams.out, "{told:#}")?;
        return Ok(exit);
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
            (false, _) => " (to do again)",
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
    Ok(exit)
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
