//! Nothing that is typed or opened makes the program panic: a million lengths and a million
//! plans, from noise to plans with one thing wrong.

use std::panic::catch_unwind;
use std::sync::LazyLock;

use sightedge_core::file::{read_versioned_bytes, write};
use sightedge_core::layout::layout;
use sightedge_core::length::{Length, Unit, first_unit, parse, parse_list, parse_pair};
use sightedge_tests::plans;
use sightedge_tests::random::Random;

const COUNT: u64 = 1_000_000;

/// Runs `check` on that many seeds; a panic is told with its seed.
fn none_panics(check: fn(u64)) {
    let workers = 4;
    std::thread::scope(|scope| {
        for worker in 0..workers {
            scope.spawn(move || {
                for seed in (worker..COUNT).step_by(workers.try_into().unwrap_or(1)) {
                    assert!(catch_unwind(|| check(seed)).is_ok(), "seed {seed} panicked");
                }
            });
        }
    });
}

/// Bytes as they come.
fn noise(random: &mut Random, most: u64) -> Vec<u8> {
    (0..random.below(most)).map(|_| random.number().to_be_bytes()[0]).collect()
}

const PIECES: [&str; 64] = [
    "0",
    "1",
    "2",
    "13",
    "1/2",
    "13 1/2",
    "999999999999",
    "0000000000001",
    "000000000000",
    "9223372036854775807",
    "1/0",
    "0/0",
    "1/999999999999",
    ".",
    ".5",
    "5.",
    ",",
    "1,5",
    "-",
    "--",
    "−",
    "–",
    "+",
    "*",
    "/",
    "÷",
    "\u{2044}",
    "(",
    ")",
    "((((((((",
    "))))))))",
    " ",
    "\t",
    "\u{a0}",
    "\u{3000}",
    "½",
    "⅒",
    "¹",
    "⁴⁄₀",
    "¹⁄₂",
    "⁹⁹⁹⁹⁹⁹⁹⁹⁹⁹⁹⁹",
    "in",
    "in.",
    "inches",
    "\"",
    "″",
    "''",
    "'",
    "′",
    "ft",
    "ft.",
    "mm",
    "cm",
    "m",
    "km",
    "µm",
    "x",
    "X",
    "×",
    "é",
    "🖼",
    "\0",
    "1e9",
    "NaN",
];

fn length_text(random: &mut Random) -> String {
    if random.once_in(4) {
        return String::from_utf8_lossy(&noise(random, 24)).into_owned();
    }
    (0..random.below(10)).map(|_| random.one_of(&PIECES)).collect()
}

#[test]
fn a_million_lengths() {
    none_panics(|seed| {
        let typed = length_text(&mut Random::new(seed));
        let unit = if seed % 2 == 0 { Unit::Inch } else { Unit::Millimetre };
        match parse(&typed, unit) {
            Ok(length) => assert!(length.abs() <= Length::MOST, "{typed:?}: {length:?}"),
            Err(error) => assert!(!error.to_string().is_empty(), "{typed:?}"),
        }
        let several = if seed % 3 == 0 {
            parse_list(&typed, unit)
        } else {
            parse_pair(&typed, unit).map(|(width, height)| vec![width, height])
        };
        match several {
            Ok(lengths) => {
                assert!(lengths.iter().all(|l| l.abs() <= Length::MOST), "{typed:?}");
            }
            Err(error) => assert!(!error.to_string().is_empty(), "{typed:?}"),
        }
        first_unit(&typed);
    });
}

/// Whole plans, one line each: without indentation there is less to read.
static PLANS: LazyLock<Vec<String>> = LazyLock::new(|| {
    [plans::reference(), plans::in_hand()]
        .iter()
        .map(|plan| write(plan).lines().skip(1).map(str::trim).collect::<Vec<_>>().join(" "))
        .collect()
});

/// The beginnings and ends of a plan's words: what is in quotes, names, numbers, brackets.
fn tokens(plan: &str) -> Vec<(usize, usize)> {
    let mut tokens = Vec::new();
    let mut rest = plan.char_indices().peekable();
    while let Some((start, c)) = rest.next() {
        let mut end = start + c.len_utf8();
        let mut more = |goes_on: &dyn Fn(char) -> bool| {
            while let Some((at, next)) = rest.next_if(|(_, next)| goes_on(*next)) {
                end = at + next.len_utf8();
            }
        };
        match c {
            '"' => {
                more(&|next| next != '"');
                rest.next();
                end += 1;
            }
            c if c.is_alphanumeric() => more(&|next| next.is_alphanumeric() || next == '_'),
            c if c.is_whitespace() => continue,
            _ => {}
        }
        tokens.push((start, end.min(plan.len())));
    }
    tokens
}

static TOKENS: LazyLock<Vec<Vec<(usize, usize)>>> =
    LazyLock::new(|| PLANS.iter().map(|plan| tokens(plan)).collect());

const VALUES: [&str; 72] = [
    "0",
    "1",
    "2",
    "-1",
    "16",
    "4294967295",
    "4294967296",
    "18446744073709551616",
    "1.5",
    "\"\"",
    "\"x\"",
    "\"0 in\"",
    "\"1 in\"",
    "\"-1 in\"",
    "\"1000 m\"",
    "\"-1000 m\"",
    "\"1001 m\"",
    "\"0.000000055 in\"",
    "\"1 m x 1 m\"",
    "\"1000 m x 1000 m\"",
    "\"0.000000055 in x 1000 m\"",
    "\"1000 m x 0.000000055 in\"",
    "\"1 in x 0 in\"",
    "\"1 in x\"",
    "\"x x x\"",
    "\"30 degrees\"",
    "\"89 degrees\"",
    "\"45.05 degrees\"",
    "\"degrees\"",
    "\"#fff\"",
    "\"#ÿ\"",
    "\"lignin\"",
    "true",
    "false",
    "inch",
    "millimetre",
    "centred",
    "optical",
    "bottom_extra(\"1000 m\")",
    "bottom_extra(\"-1000 m\")",
    "bottom_ratio(bottom: 0, top: 0)",
    "bottom_ratio(bottom: 4294967295, top: 1)",
    "free(left: \"-1000 m\", top: \"1000 m\")",
    "rectangle",
    "straight",
    "open(\"30 degrees\")",
    "reverse(\"89 degrees\")",
    "outer(size: \"0.000000055 in x 1000 m\", placement: optical)",
    "outer(size: \"1000 m x 1000 m\", placement: bottom_ratio(bottom: 1, top: 4294967295))",
    "borders(top: \"1000 m\", right: \"1000 m\", bottom: \"1000 m\", left: \"1000 m\")",
    "reveal(top: \"1000 m\", right: \"1000 m\", bottom: \"1000 m\", left: \"1000 m\")",
    "reveal(top: \"-9 m\", right: \"-9 m\", bottom: \"-9 m\", left: \"-9 m\")",
    "in_hand(sight: \"1000 m x 1000 m\", overlap_left: \"-1000 m\", overlap_top: \"1000 m\")",
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ":",
    ",",
    "()",
    "[]",
    "None",
    "Some(1)",
    "'c'",
    "r#\"raw\"#",
    "/*",
    "//",
    "b\"\"",
    "\\",
    "\u{301}",
];

const LENGTHS: [&str; 8] = [
    "\"0 in\"",
    "\"1/2 in\"",
    "\"-1 in\"",
    "\"1000 m\"",
    "\"-1000 m\"",
    "\"-0.000000055 in\"",
    "\"343 mm\"",
    "\"16 in - 2*1/8 in\"",
];

const SIZES: [&str; 6] = [
    "\"1 m x 1 m\"",
    "\"1000 m x 1000 m\"",
    "\"0.000000055 in x 1000 m\"",
    "\"1000 m x 0.000000055 in\"",
    "\"0.000000055 in x 0.000000055 in\"",
    "\"8x10 in\"",
];

fn is_measure(word: &str) -> bool {
    word.ends_with(" in\"") || word.ends_with(" mm\"")
}

/// A word to put in the place of `word`.
fn another(random: &mut Random, word: &str) -> &'static str {
    match (is_measure(word), word.contains(" x ")) {
        _ if random.once_in(4) => random.one_of(&VALUES),
        (true, true) => random.one_of(&SIZES),
        (true, false) => random.one_of(&LENGTHS),
        (false, _) => random.one_of(&VALUES),
    }
}

fn plan_text(random: &mut Random) -> Vec<u8> {
    match random.below(10) {
        0 => noise(random, 200),
        1 | 2 => {
            let head = random.one_of(&["", "(", "(version: 5, ", "(version: 5, works: [("]);
            let mut text = head.to_owned();
            for _ in 0..random.below(30) {
                text.push_str(random.one_of(&VALUES));
                text.push_str(random.one_of(&["", " ", ": ", ", "]));
            }
            text.into_bytes()
        }
        3 => {
            // Bytes changed, one thing taken out, cut off.
            let mut bytes = PLANS[random.index(PLANS.len())].clone().into_bytes();
            for _ in 0..random.below(4) {
                let at = random.index(bytes.len());
                bytes[at] = random.number().to_be_bytes()[0];
            }
            if random.once_in(2) {
                bytes.truncate(random.index(bytes.len()));
            }
            bytes
        }
        _ => {
            // One to three words in the place of others, mostly of their own sort: often
            // still a plan.
            let which = random.index(PLANS.len());
            let (mut plan, tokens) = (PLANS[which].clone(), &TOKENS[which]);
            let few = random.one_of(&[1, 1, 1, 2, 3]);
            let measures: Vec<_> = tokens
                .iter()
                .copied()
                .filter(|(start, end)| is_measure(&plan[*start..*end]))
                .collect();
            let of = if random.once_in(3) { tokens } else { &measures };
            let mut places: Vec<_> = (0..few).map(|_| random.one_of(of)).collect();
            places.sort_unstable();
            places.dedup();
            for (start, end) in places.into_iter().rev() {
                let word = another(random, &plan[start..end]);
                plan.replace_range(start..end, word);
            }
            plan.into_bytes()
        }
    }
}

#[test]
fn a_million_plans() {
    none_panics(|seed| {
        let bytes = plan_text(&mut Random::new(seed));
        match read_versioned_bytes(&bytes, "plan") {
            Ok(found) => {
                for variant in &found.document.variants {
                    layout(&found.document, &variant.mat);
                }
            }
            Err(error) => {
                let words = error.to_string();
                assert!(words.starts_with("plan") && words.len() < 2000, "{words}");
            }
        }
    });
}

/// Most of what is generated must get past the first check, or the million proves little.
#[test]
fn enough_of_them_are_plans() {
    let opened = (0..5000)
        .filter(|seed| {
            read_versioned_bytes(&plan_text(&mut Random::new(*seed)), "plan").is_ok()
        })
        .count();
    assert!(opened > 1000, "only {opened} of 5000 opened");
}
