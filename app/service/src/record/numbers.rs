//! Several numbers of an edition as a person types them.

/// More in one range are a slip.
const MOST: u32 = 100_000;

/// The numbers that a text such as `3, 7, 10-20` names, in their order, each once; `10..20` is
/// the same as `10-20`.
///
/// # Errors
/// Names the part that is no number or range, and shows how they are typed.
pub fn numbers(text: &str) -> Result<Vec<u32>, String> {
    let plain = text.replace("..", "-").replace('–', "-").replace(" - ", "-");
    let mut all = Vec::new();
    for part in plain.split([',', ';', ' ']).filter(|part| !part.is_empty()) {
        let (from, to) = part.split_once('-').unwrap_or((part, part));
        let (from, to) = (from.parse::<u32>(), to.parse::<u32>());
        let (Ok(from @ 1..), Ok(to)) = (from, to) else {
            return Err(format!(
                "\"{part}\" is no number of an edition: type numbers and ranges, as in 3, 7, \
                 10-20"
            ));
        };
        if to < from || to - from >= MOST {
            return Err(format!(
                "\"{part}\" is no range: the lower number comes first, as in 10-20"
            ));
        }
        all.extend(from..=to);
    }
    all.sort_unstable();
    all.dedup();
    Ok(all)
}

/// Numbers in rising order as one says them: `3, 7, 10-20`.
pub fn numbers_in_words(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|one, next| one.checked_add(1) == Some(*next));
    let words = runs.map(|run| match run {
        [] => String::new(),
        [one] => one.to_string(),
        [one, two] => format!("{one}, {two}"),
        [first, .., last] => format!("{first}-{last}"),
    });
    words.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_and_ranges() {
        #[track_caller]
        fn case(text: &str, wanted: Result<&[u32], &str>) {
            let read = numbers(text);
            match wanted {
                Ok(wanted) => assert_eq!(read.as_deref(), Ok(wanted), "{text}"),
                Err(words) => assert!(read.clone().unwrap_err().starts_with(words), "{read:?}"),
            }
        }
        case("", Ok(&[]));
        case("7", Ok(&[7]));
        case("3, 7,10-12", Ok(&[3, 7, 10, 11, 12]));
        case("12..13 3", Ok(&[3, 12, 13]));
        case("3 - 5; 4", Ok(&[3, 4, 5]));
        case("3/25", Err("\"3/25\" is no number of an edition: type numbers"));
        case("0", Err("\"0\" is no number"));
        case("x-3", Err("\"x-3\" is no number"));
        case("9-3", Err("\"9-3\" is no range: the lower number comes first"));
        for text in ["", "7", "3, 7, 10-20, 22, 23"] {
            assert_eq!(numbers(text).map(|read| numbers_in_words(&read)), Ok(text.to_owned()));
        }
        case("1-4000000000", Err("\"1-4000000000\" is no range"));
    }
}
