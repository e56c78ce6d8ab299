//! Stock sheets into boards by straight edge-to-edge cuts.
//!
//! One [`Problem`] is one board colour: kinds of sheet with cost and number, kinds of piece
//! with number, the cutter's limits. [`solve`] gives a [`Plan`]: patterns with their cuts, and
//! a bound that no plan can beat, with its proof. Lengths are whole numbers of any one unit,
//! costs whole numbers of the smallest unit of money. Nothing here reads a clock: effort is
//! counted in steps, and the caller says when to stop. [`sequences`] turns a plan into cuts one
//! after another, each on a piece with a name.
//!
//! ```
//! use sightedge_cutting::{Effort, instance, solve_quietly};
//!
//! let table = "instance,kind,width,height,copies\n\
//!              show,sheet,320,256,\n\
//!              show,piece,128,160,4\n";
//! let problem = instance::read(table.as_bytes(), "show", true).unwrap().problem;
//! let plan = solve_quietly(&problem, Effort::default());
//! assert_eq!((plan.sheets, plan.bound.proved), (1, true));
//! ```
//!
//! # What is sought
//!
//! The lowest cost; at that cost few set-ups; then one large remnant. A plan keeps to
//! two stages, three, or any number; a stage is a set of parallel cuts, and one further cut
//! may trim a part that holds a single piece (the "non-exact" case of the literature). The
//! first cuts of each sheet may run either way. Drop-outs of windows are sheets that cost
//! nothing and are there once their piece is cut; as each is smaller than its piece, cutting
//! from the largest down always respects that.
//!
//! # How
//!
//! 1. Kerf is removed from the problem: a piece grown by one kerf in a sheet grown by one kerf is
//!    the same problem without it.
//! 2. A greedy start, then a local search that empties a few sheets and fills them by random
//!    rules, keeping what is no worse by the sum of squared fillings (Falkenauer 1996).
//! 3. Column generation (Gilmore and Gomory 1961, 1963, 1965): the master is solved by a
//!    revised simplex, patterns are priced exactly. Any stages: Gilmore and Gomory's (1966)
//!    recursion, in the order of Beasley (1985), over raster points (Terno, Lindemann and
//!    Scheithauer 1987; Scheithauer and Terno 1996; Cintra, Miyazawa, Wakabayashi and Xavier
//!    2008). Two and three stages: nested knapsacks. Strips alone are priced first where that
//!    is much quicker. Duals are smoothed (Wentges 1997; Pessoa, Sadykov, Uchoa and Vanderbeck
//!    2018).
//! 4. Every pricing bounds all plans (Farley 1990), with a rent for sheets whose number is
//!    limited. Prices are whole numbers, rounded to the safe side, so the bound is exact; it
//!    is rounded up to the next sum that some sheets cost together, and no further.
//! 5. Dives into the covering master over all patterns seen (Vanderbeck 2000; Belov and
//!    Scheithauer 2006): fix the surest, solve again, and cut what little remains by local
//!    search; then branch and bound over those patterns whose reduced cost leaves them a chance;
//!    further patterns from pricing what remains at perturbed duals. Rounds of these and of local
//!    search go on until cost and bound meet or the effort is spent.
//! 6. At that cost, a dive that repeats patterns as often as the relaxation allows seeks fewer
//!    set-ups, and the emptiest sheet is packed anew for one large remnant.
//!
//! The bound is first that of patterns without regard to how often a piece is wanted: quick,
//! and the proof is one price a piece that anybody can check. Where it falls short and few
//! pieces share a sheet, sets of pieces within the demand are priced by branch and bound over
//! the smallest boxes that hold them (after Christofides and Whitlock 1977; Clautiaux, Jouglet
//! and El Hayek 2013); that proof, too, is one price a piece, and says that it is within the
//! demand. [`checker`] prices both kinds again, sharing nothing with the solver. On sheets with
//! very many cutting positions sizes are rounded for pricing (pieces down, sheets down): the
//! bound stays true and gets weaker.
//!
//! # Literature
//!
//! - Beasley (1985), *Algorithms for unconstrained two-dimensional guillotine cutting*.
//! - Belov, Scheithauer (2006), *A branch-and-cut-and-price algorithm for one-dimensional
//!   stock cutting and two-dimensional two-stage cutting*.
//! - Christofides, Whitlock (1977), *An algorithm for two-dimensional cutting problems*.
//! - Cintra, Miyazawa, Wakabayashi, Xavier (2008), *Algorithms for two-dimensional cutting
//!   stock and strip packing problems using dynamic programming and column generation*.
//! - Clautiaux, Jouglet, El Hayek (2013), *A new graph-theoretical model for the guillotine-
//!   cutting problem*.
//! - Falkenauer (1996), *A hybrid grouping genetic algorithm for bin packing*.
//! - Farley (1990), *A note on bounding a class of linear programming problems, including
//!   cutting stock problems*.
//! - Gilmore, Gomory (1961, 1963), *A linear programming approach to the cutting-stock
//!   problem*; (1965) *Multistage cutting stock problems of two and more dimensions*; (1966)
//!   *The theory and computation of knapsack functions*.
//! - Herz (1972), *Recursive computational procedure for two-dimensional stock cutting*.
//! - Pessoa, Sadykov, Uchoa, Vanderbeck (2018), *Automation and combination of linear-
//!   programming based stabilization techniques in column generation*.
//! - Scheithauer, Terno (1996), *The G4-heuristic for the pallet loading problem*; Terno,
//!   Lindemann, Scheithauer (1987), *Zuschnittprobleme und ihre praktische Lösung*.
//! - Vanderbeck (2000), *On Dantzig-Wolfe decomposition in integer programming and ways to
//!   perform branching in a branch-and-price algorithm*.
//! - Wentges (1997), *Weighted Dantzig-Wolfe decomposition for linear mixed-integer
//!   programming*.

mod answer;
mod bound;
mod branch;
pub mod checker;
mod counts;
mod dive;
mod effort;
mod fill;
mod finish;
mod grid;
pub mod instance;
mod master;
mod plan;
mod pool;
mod prepare;
mod pricing;
mod problem;
mod proper;
pub mod report;
mod rng;
mod search;
mod sequence;
mod simplex;
mod solve;
mod solver;
mod tidy;
mod tree;

pub use counts::{Counts, Source, source, which};
pub use effort::{Control, Effort, Progress};
pub use plan::{Bound, Certificate, Cut, Fate, Part, Pattern, Placement, Plan};
pub use problem::{
    BadStock, Complaint, DEAREST, LONGEST, MOST_COPIES, Piece, Problem, Stages, Stock, Supply,
    Trim,
};
pub use sequence::{
    Becomes, Instruction, LengthFormat, NamedPiece, Sequence, Step, letters, sequences,
};
pub use solve::{solve, solve_quietly};
