//! Instances of our own, of which no answers are known.

use sightedge_cutting::{Control, Effort, Stages, Supply, solve};

use crate::measure::{Sums, clock};
use crate::options::Options;
use crate::{data, made};

/// What drop-outs save on invented shows.
pub(crate) fn drop_outs(o: &Options, loops: f64) {
    for (what, sizes, copies) in [("small", 4, 12), ("big", 12, 16)] {
        let mut dice = data::Dice(8);
        let (mut with, mut without) = (Sums::default(), Sums::default());
        for number in 0..40 {
            let problem = data::show(&mut dice, sizes, copies);
            let mut plain = problem.clone();
            plain.stocks.retain(|s| matches!(s.supply, Supply::Unlimited));
            if number % o.every.max(1) == 0 {
                // The peer knows no drop-outs.
                let o = o.without_peers();
                with.run(&format!("{what} {number} with"), &problem, None, &o);
                without.run(&format!("{what} {number} without"), &plain, None, &o);
            }
        }
        let saved = 100.0 * (1.0 - with.cost / without.cost);
        with.print(&format!("{what} shows with drop-outs"), loops);
        without.print(&format!("{what} shows without"), loops);
        println!("    drop-outs save {saved:.1} %");
    }
}

/// Bins by the recipes of the literature, one of each class and number of pieces.
pub(crate) fn made_bins(o: &Options, loops: f64) {
    for (stages, word, turn, way) in o.ways() {
        let mut dice = data::Dice(o.seed);
        let mut all = Vec::new();
        for class in 1..=10 {
            for pieces in [20, 40, 60, 80, 100] {
                let problem = made::bins(&mut dice, class, pieces);
                all.push((format!("class {class}, {pieces} pieces"), problem));
            }
        }
        let mut sums = Sums::default();
        for (name, problem) in o.chosen(&all) {
            sums.run(name, &data::with(problem, stages, turn), None, o);
        }
        sums.print(&format!("made bins, {word} stages, {way}"), loops);
    }
}

/// Stock sheets by the recipe of the literature.
pub(crate) fn made_stock(o: &Options, loops: f64) {
    let mut dice = data::Dice(o.seed);
    let mut all = Vec::new();
    for side in [250, 500, 1000] {
        for sizes in [10, 20, 30, 50] {
            all.push((format!("{side}, {sizes} sizes"), made::sheets(&mut dice, side, sizes)));
        }
    }
    let mut sums = Sums::default();
    for (name, problem) in o.chosen(&all) {
        sums.run(name, problem, None, o);
    }
    sums.print("made stock sheets, 2 stages, rotated", loops);
}

pub(crate) fn made_shows(o: &Options, loops: f64, millimetres: bool) {
    for (big, word, count) in [(false, "small", 60), (true, "big", 30)] {
        let mut dice = data::Dice(o.seed);
        let mut all = Vec::new();
        for number in 0..count {
            let problem = made::show(&mut dice, big);
            let problem = data::with(&problem, Stages::Any, number % 3 > 0);
            let problem = if millimetres { data::in_millimetres(&problem) } else { problem };
            all.push((format!("{word} {number}"), problem));
        }
        let mut sums = Sums::default();
        for (name, problem) in o.chosen(&all) {
            sums.run(name, problem, None, o);
        }
        let unit = if millimetres { " in whole millimetres" } else { "" };
        sums.print(&format!("made shows, {word}{unit}"), loops);
    }
}

/// 2,000 pieces of 200 sizes: the first plan, and the gap after the effort.
pub(crate) fn large() {
    let problem = data::large(&mut data::Dice(200));
    let from = clock();
    let mut first = None;
    let mut progress = |_: &sightedge_cutting::Progress<'_>| {
        first.get_or_insert_with(|| clock() - from);
    };
    let control = Control { should_stop: &mut || false, progress: &mut progress };
    let plan = solve(&problem, Effort::seconds(8), control);
    let took = clock() - from;
    println!(
        "2,000 pieces of 200 sizes: cost {}, bound {}, gap {:.2} %, first plan after {:.3} s, \
         all {took:.1} s",
        plan.cost,
        plan.bound.cost,
        100.0 * plan.bound.gap,
        first.unwrap_or(took)
    );
}
