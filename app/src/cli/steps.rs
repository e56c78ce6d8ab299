//! `sightedge steps`: what is done at the bench, in order.

use serde_json::{Value, json};
use sightedge_core::steps::{Step, steps};

use super::options::{Known, Options};
use super::outcome::Trouble;
use super::{Exit, Streams, Verb, help, plans};

pub(super) const VERB: Verb = Verb {
    known: Known { verb: "steps", values: &["variant"], flags: &["json"] },
    help: help::STEPS,
    run,
};

fn run(options: &Options, streams: &mut Streams<'_>) -> Result<Exit, Trouble> {
    let plan = plans::open(&options.word("a plan")?, options, streams)?;
    let steps = steps(&plan.document, plan.variant(), &plan.derived(), &plan.tables);
    if options.has("json") {
        let steps: Vec<Value> = steps.iter().map(to_json).collect();
        writeln!(streams.out, "{:#}", json!({ "steps": steps }))?;
        return Ok(Exit::Done);
    }
    for step in &steps {
        let done = if step.done { " (done)" } else { "" };
        writeln!(streams.out, "{:>2}. {}{done}", step.number, step.title)?;
        writeln!(streams.out, "    {}", step.text())?;
        for caution in &step.cautions {
            writeln!(streams.out, "    Caution: {caution}")?;
        }
    }
    Ok(Exit::Done)
}

fn to_json(step: &Step) -> Value {
    json!({
        "number": step.number,
        "id": step.id,
        "title": step.title,
        "text": step.text(),
        "cautions": step.cautions,
        "done": step.done,
    })
}
