//! Lower bounds in whole numbers.
//!
//! Any prices for the pieces bound the cost of every plan: if no pattern of a sheet sells for
//! more than the sheet costs, the sheets cost at least what all pieces sell for (Farley 1990,
//! here with a rent for each sheet whose number is limited).

use crate::prepare::{Instance, Sheet};

/// Prices with the proof of what they bound.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Proof {
    /// For each kind.
    pub(crate) prices: Vec<i64>,
    /// For each sheet.
    pub(crate) rents: Vec<i64>,
    /// `num / den` price units are one unit of cost.
    pub(crate) num: i64,
    pub(crate) den: i64,
    /// The bound, in grains, rounded up (every plan costs a whole number of them).
    pub(crate) bound: i64,
    /// The bound before rounding up, in grains.
    pub(crate) exact: f64,
    /// It holds for patterns that use a piece at most as often as it is wanted, and says
    /// nothing of others.
    pub(crate) proper: bool,
}

/// The bound that `prices` prove, where no pattern of sheet `s` sells for more than
/// `most[s]`.
#[allow(
    clippy::as_conversions,
    clippy::cast_precision_loss,
    reason = "the unrounded bound is for display and comparison only"
)]
pub(crate) fn prove(inst: &Instance, prices: &[i64], most: &[i64]) -> Option<Proof> {
    let selling =
        inst.sheets.iter().zip(most).filter(|(s, most)| s.avail.is_none() && **most > 0);
    if selling.clone().any(|(s, _)| s.cost == 0) {
        // Sheets that cost nothing and have no limit: these prices prove nothing.
        return None;
    }
    let tightest = selling.max_by(|(a, va), (b, vb)| {
        let cross = |v: i64, c: i64| i128::from(v) * i128::from(c);
        cross(**va, b.cost).cmp(&cross(**vb, a.cost))
    });
    let (num, den) = if let Some((sheet, most)) = tightest {
        (*most, sheet.cost)
    } else {
        // All sheets are limited: any scale will do; the dearest sheet breaks even.
        let dearest = inst.sheets.iter().zip(most).max_by_key(|(s, _)| s.cost)?;
        (*dearest.1, dearest.0.cost)
    };
    if num <= 0 || den <= 0 {
        return None;
    }
    let wide = |n: i64| i128::from(n);
    let mut total: i128 =
        inst.kinds.iter().zip(prices).map(|(k, p)| i128::from(k.copies) * wide(*p)).sum();
    let mut rents = vec![0; inst.sheets.len()];
    for ((sheet, most), rent) in inst.sheets.iter().zip(most).zip(&mut rents) {
        if let Some(avail) = sheet.avail {
            let above = wide(*most) - (wide(sheet.cost) * wide(num)).div_euclid(wide(den));
            *rent = i64::try_from(above.max(0)).ok()?;
            total -= i128::from(avail) * wide(*rent);
        }
    }
    let worth = total.max(0) * wide(den);
    let bound = i64::try_from(-(-worth).div_euclid(wide(num))).ok()?;
    Some(Proof {
        prices: prices.to_vec(),
        rents,
        num,
        den,
        bound: payable(inst, bound),
        exact: worth as f64 / num as f64,
        proper: false,
    })
}

/// Sums beyond this are not enumerated.
const MOST_SUMS: i64 = 400_000;

/// The least sum of sheets' costs that is no less than `bound`: with sheets at 83 and 155 no
/// plan costs 100.
fn payable(inst: &Instance, bound: i64) -> i64 {
    let mut costs: Vec<i64> = inst.sheets.iter().map(|s| s.cost).filter(|c| *c > 0).collect();
    costs.sort_unstable();
    costs.dedup();
    let Some(least) = costs.first().copied() else { return bound };
    let Some(top) = bound.checked_add(least).filter(|top| *top <= MOST_SUMS) else {
        return bound;
    };
    if bound <= 0 || least == 1 {
        return bound;
    }
    let index = |sum: i64| usize::try_from(sum).unwrap_or(0);
    let mut paid = vec![false; index(top) + 1];
    paid[0] = true;
    for cost in costs {
        for sum in cost..=top {
            if paid[index(sum - cost)] {
                paid[index(sum)] = true;
            }
        }
    }
    (bound..=top).find(|sum| paid[index(*sum)]).unwrap_or(bound)
}

/// The area bound: every piece sells for its area.
pub(crate) fn by_area(inst: &Instance) -> Option<Proof> {
    // Areas up to 10^18 times a million copies would overflow prices in the certificate's
    // readers; halving the precision of huge areas only weakens the bound.
    let mut shift = 0;
    let largest = inst.sheets.iter().map(Sheet::area).max()?;
    while largest >> shift > 1 << 40 {
        shift += 1;
    }
    let prices: Vec<i64> = inst.kinds.iter().map(|k| k.area() >> shift).collect();
    let most: Vec<i64> = inst.sheets.iter().map(|s| -((-s.area()) >> shift)).collect();
    prove(inst, &prices, &most)
}
