//! The person's own boards, nearest first.

use super::{Lab, delta_e_2000};

/// `boards` (anything, with its colour) by their CIEDE2000 from `wanted`, nearest first; equal
/// ones keep their order.
pub fn nearest_boards<B>(
    boards: impl IntoIterator<Item = (B, Lab)>,
    wanted: Lab,
) -> Vec<(B, f64)> {
    let mut all: Vec<(B, f64)> = boards
        .into_iter()
        .map(|(board, colour)| (board, delta_e_2000(colour, wanted)))
        .collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nearest_first_and_stable() {
        let boards = [
            ("dark", Lab::new(20.0, 0.0, 0.0)),
            ("white", Lab::new(96.0, 0.0, 2.0)),
            ("same white", Lab::new(96.0, 0.0, 2.0)),
            ("grey", Lab::new(60.0, 0.0, 0.0)),
        ];
        let found = nearest_boards(boards, Lab::new(95.0, 0.0, 0.0));
        let names: Vec<&str> = found.iter().map(|(name, _)| *name).collect();
        assert_eq!(names, ["white", "same white", "grey", "dark"], "by difference");
        assert!(found[0].1 < 3.0 && found[3].1 > 40.0, "with the numbers: {found:?}");
    }
}
