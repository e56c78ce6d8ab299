//! The proof of a plan's bound, for other programs.

use serde::Serialize;

use crate::plan::Plan;
use crate::problem::Problem;

/// The proof of a plan's bound, with all that is needed to check it.
///
/// No pattern of a stock sells for more than `cost * numerator / denominator + rent` within
/// the stages; so every plan costs at least `total * denominator / numerator`.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct CertificateReport {
    /// `2`, `3` or `any`.
    pub stages: &'static str,
    /// Width that each cut removes.
    pub kerf: i64,
    /// What it proves: no plan costs less.
    pub lower_bound: i64,
    /// Price units in `denominator` units of cost.
    pub numerator: i64,
    /// Units of cost in `numerator` price units.
    pub denominator: i64,
    /// Whether the claim is only about patterns that hold no piece oftener than it is wanted
    /// (`copies`).
    pub within_demand: bool,
    /// All pieces' prices less all limited stocks' rents, in price units.
    pub total: i64,
    /// A price for each piece.
    pub pieces: Vec<PriceReport>,
    /// A rent for each stock.
    pub stocks: Vec<RentReport>,
}

/// A piece and its price.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct PriceReport {
    /// Index of the piece, from 0.
    pub piece: usize,
    /// Width.
    pub width: i64,
    /// Height.
    pub height: i64,
    /// How many are planned (0 where it was left out).
    pub copies: u32,
    /// Whether it may be turned.
    pub may_turn: bool,
    /// In price units.
    pub price: i64,
}

/// A stock and its rent.
#[derive(Clone, Debug, Eq, PartialEq, Serialize)]
pub struct RentReport {
    /// Usable width, trim taken off.
    pub width: i64,
    /// Usable height, trim taken off.
    pub height: i64,
    /// Cost of one sheet.
    pub cost: i64,
    /// How many there are at most; absent without limit.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub copies: Option<u64>,
    /// In price units.
    pub rent: i64,
}

impl CertificateReport {
    /// The certificate of `plan`, written out.
    #[must_use]
    pub fn new(problem: &Problem, plan: &Plan) -> Self {
        let proof = &plan.certificate;
        let planned = |piece: usize| {
            let copies = problem.pieces.get(piece).map_or(0, |p| p.copies);
            if plan.missing.get(piece) == Some(&copies) { 0 } else { copies }
        };
        let pieces: Vec<PriceReport> = problem
            .pieces
            .iter()
            .enumerate()
            .map(|(piece, p)| PriceReport {
                piece,
                width: p.width,
                height: p.height,
                copies: planned(piece),
                may_turn: p.may_turn,
                price: proof.prices.get(piece).copied().unwrap_or(0),
            })
            .collect();
        let stocks: Vec<RentReport> = problem
            .stocks
            .iter()
            .enumerate()
            .map(|(at, s)| RentReport {
                width: s.width - s.trim.left - s.trim.right,
                height: s.height - s.trim.bottom - s.trim.top,
                cost: s.cost,
                copies: s.supply.most(planned),
                rent: proof.rents.get(at).copied().unwrap_or(0),
            })
            .collect();
        let sold: i64 = pieces.iter().map(|p| p.price * i64::from(p.copies)).sum();
        let rented: i64 = stocks
            .iter()
            .map(|s| s.rent * s.copies.and_then(|n| i64::try_from(n).ok()).unwrap_or(0))
            .sum();
        Self {
            stages: match problem.stages.limit() {
                Some(2) => "2",
                Some(_) => "3",
                None => "any",
            },
            kerf: problem.kerf.max(0),
            lower_bound: plan.bound.cost,
            numerator: proof.numerator,
            denominator: proof.denominator,
            within_demand: proof.within_demand,
            total: sold - rented,
            pieces,
            stocks,
        }
    }
}
