//! The few positions at which a cut can be worth making.
//!
//! Normal positions (Herz 1972; Christofides and Whitlock 1977) are sums of piece sides;
//! raster points (Terno, Lindemann and Scheithauer 1987; Scheithauer and Terno 1996) keep of
//! these only what is left when the rest of the sheet is again a sum.

use std::collections::BTreeSet;

/// All sums of `sides` from 0 to `length`, ascending; `None` beyond `most` of them.
pub(crate) fn normal(sides: &[i64], length: i64, most: usize) -> Option<Vec<i64>> {
    const DENSE: i64 = 1 << 20;
    if let (true, Ok(cells)) = (length <= DENSE, usize::try_from(length + 1)) {
        let mut reached = vec![false; cells];
        reached[0] = true;
        for &side in sides {
            let Ok(side) = usize::try_from(side) else { continue };
            for at in side..cells {
                if reached[at - side] {
                    reached[at] = true;
                }
            }
        }
        let sums: Vec<i64> =
            (0..=length).zip(&reached).filter(|(_, r)| **r).map(|(at, _)| at).collect();
        return (sums.len() <= most).then_some(sums);
    }
    let mut sums = BTreeSet::from([0]);
    let mut next = Some(0);
    while let Some(at) = next {
        sums.extend(sides.iter().map(|side| at + side).filter(|sum| *sum <= length));
        if sums.len() > most {
            return None;
        }
        next = sums.range(at + 1..).next().copied();
    }
    Some(sums.into_iter().collect())
}

/// The raster points above 0 of a sheet's side, from its normal positions.
pub(crate) fn raster(normal: &[i64], length: i64) -> Vec<i64> {
    let mut points: Vec<i64> = normal
        .iter()
        .filter_map(|s| floor(normal, length - s))
        .map(|at| normal[at])
        .filter(|p| *p > 0)
        .collect();
    points.sort_unstable();
    points.dedup();
    points
}

/// Index of the greatest of `points` not above `length`.
pub(crate) fn floor(points: &[i64], length: i64) -> Option<usize> {
    points.partition_point(|p| *p <= length).checked_sub(1)
}

/// Index of the least of `points` not below `length`.
pub(crate) fn ceil(points: &[i64], length: i64) -> Option<usize> {
    let at = points.partition_point(|p| *p < length);
    (at < points.len()).then_some(at)
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test fails by panicking")]
mod tests {
    use super::*;

    /// Source: by hand after Scheithauer and Terno (1996): sides 3 and 5 on a length of 12.
    #[test]
    fn positions_of_a_small_sheet() {
        let sums = normal(&[3, 5], 12, 100).unwrap();
        assert_eq!(sums, [0, 3, 5, 6, 8, 9, 10, 11, 12], "normal positions");
        assert_eq!(raster(&sums, 12), [3, 6, 9, 12], "raster points");
        let scaled = normal(&[3 << 20, 5 << 20], 12 << 20, 100).unwrap();
        let expected: Vec<i64> = sums.iter().map(|s| s << 20).collect();
        assert_eq!(scaled, expected, "long lengths go another way");
        assert_eq!(normal(&[1], 100, 50), None, "too many");
        assert_eq!((floor(&sums, 7), ceil(&sums, 7)), (Some(3), Some(4)), "around 7");
    }
}
