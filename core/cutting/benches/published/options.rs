//! What is asked for on the command line.

use sightedge_cutting::{Effort, Problem, Stages};

/// What is to be run, and how.
#[derive(Clone)]
pub(crate) struct Options {
    pub(crate) families: Vec<String>,
    pub(crate) every: usize,
    pub(crate) skip: usize,
    pub(crate) stages: Option<String>,
    pub(crate) turn: Option<String>,
    pub(crate) only: Option<String>,
    pub(crate) seconds: f64,
    pub(crate) peers: bool,
    pub(crate) verbose: bool,
    /// Prices each certificate again.
    pub(crate) prove: bool,
    /// For the instances that are made here.
    pub(crate) seed: u64,
}

impl Options {
    pub(crate) fn read() -> Self {
        let args: Vec<String> = std::env::args().skip(1).collect();
        let value = |flag: &str| {
            let at = args.iter().position(|a| a == flag)?;
            args.get(at + 1).cloned()
        };
        let number =
            |flag: &str, or: f64| value(flag).and_then(|v| v.parse::<f64>().ok()).unwrap_or(or);
        let known = [
            "bins",
            "stock",
            "shows",
            "mm",
            "drop-outs",
            "large",
            "made-bins",
            "made-stock",
            "made-shows",
            "made-mm",
        ];
        let families = args.iter().filter(|a| known.contains(&a.as_str())).cloned().collect();
        Self {
            families,
            every: number("--every", 1.0) as usize,
            skip: number("--skip", 0.0) as usize,
            stages: value("--stages"),
            turn: value("--turn"),
            only: value("--only"),
            seconds: number("--seconds", 4.0),
            peers: args.iter().any(|a| a == "--peers"),
            verbose: args.iter().any(|a| a == "--verbose"),
            prove: args.iter().any(|a| a == "--prove"),
            seed: number("--seed", 1.0) as u64,
        }
    }

    pub(crate) fn family(&self, name: &str) -> bool {
        self.families.is_empty() || self.families.iter().any(|f| f == name)
    }

    pub(crate) fn effort(&self) -> Effort {
        Effort { steps: (self.seconds * 8e8) as u64, seed: 1 }
    }

    pub(crate) fn chosen<'a>(
        &'a self,
        problems: &'a [(String, Problem)],
    ) -> impl Iterator<Item = &'a (String, Problem)> {
        let only = self.only.as_deref().unwrap_or_default();
        let wanted = move |name: &str| only.split(',').any(|part| name.contains(part));
        let wanted = problems.iter().filter(move |(name, _)| wanted(name));
        wanted.skip(self.skip).step_by(self.every.max(1))
    }

    /// The same where the peer would solve another problem.
    pub(crate) fn without_peers(&self) -> Self {
        Self { peers: false, ..self.clone() }
    }

    /// The limits of stages and whether pieces are turned, as asked for, each with its word.
    pub(crate) fn ways(&self) -> Vec<(Stages, &'static str, bool, &'static str)> {
        let mut ways = Vec::new();
        for (stages, word) in [(Stages::Any, "any"), (Stages::Three, "3")] {
            for (turn, way) in [(true, "rotated"), (false, "oriented")] {
                let skipped =
                    |wish: &Option<String>, is: &str| wish.as_ref().is_some_and(|w| w != is);
                if !skipped(&self.stages, word) && !skipped(&self.turn, way) {
                    ways.push((stages, word, turn, way));
                }
            }
        }
        ways
    }
}
