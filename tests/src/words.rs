//! Every distinct text of the program that a person can see, read from the sources: string
//! literals outside tests, the help of commands, the tables and the README.

#![expect(clippy::expect_used, reason = "a source that cannot be read fails its test")]

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// A text, and the first place it stands at, as `app/src/main.rs:12`.
pub type Words = BTreeMap<String, String>;

/// Reads the project whose root is `root`.
///
/// # Panics
/// Where a file cannot be read.
pub fn of_project(root: &Path) -> Words {
    let mut words = Words::new();
    for package in ["app/src", "app/service/src", "core"] {
        for file in files(&root.join(package), "rs") {
            let name = place(root, &file);
            let inside = file.strip_prefix(root).unwrap_or(&file);
            let parts: Vec<_> = inside.iter().map(|part| part.to_string_lossy()).collect();
            let test =
                |part: &str| ["tests", "benches", "tests.rs", "testing.rs"].contains(&part);
            if parts.iter().any(|part| test(part)) || !parts.iter().any(|part| part == "src") {
                continue;
            }
            // Only clap shows a doc comment to people.
            let help = name.starts_with("app/src/commands");
            for (line, text) in texts(&read(&file), help) {
                add(&mut words, &text, &format!("{name}:{line}"));
            }
        }
    }
    for file in files(&root.join("assets/tables"), "ron") {
        let name = place(root, &file);
        for (line, text) in texts(&read(&file), false) {
            add(&mut words, &text, &format!("{name}:{line}"));
        }
    }
    for (number, line) in (1..).zip(read(&root.join("README.md")).lines()) {
        add(&mut words, line, &format!("README.md:{number}"));
    }
    words
}

fn place(root: &Path, file: &Path) -> String {
    file.strip_prefix(root).unwrap_or(file).display().to_string()
}

fn read(file: &Path) -> String {
    fs::read_to_string(file).expect("a source can be read")
}

fn files(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder of sources can be read") {
        let path = entry.expect("a folder of sources can be read").path();
        if path.is_dir() {
            found.extend(files(&path, extension));
        } else if path.extension().is_some_and(|found| found == extension) {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// Keeps what reads like words: a space in it, or a capital at its beginning.
fn add(words: &mut Words, text: &str, place: &str) {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let letters = text.chars().filter(|c| c.is_alphabetic()).count();
    let capital = text.chars().find(|c| c.is_alphanumeric()).is_some_and(char::is_uppercase);
    let sql =
        ["SELECT ", "INSERT ", "UPDATE ", "DELETE ", "CREATE ", "PRAGMA ", "DROP ", "FROM "];
    if letters < 2
        || !(capital || text.contains(' ') || text.contains('…'))
        || sql.iter().any(|word| text.starts_with(word))
    {
        return;
    }
    words.entry(text).or_insert_with(|| place.to_owned());
}

/// The string literals of Rust or RON with their lines, tests and attributes left out; with
/// `help`, documentation too, a paragraph at a time.
fn texts(source: &str, help: bool) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    let mut doc = String::new();
    let chars: Vec<char> = source.chars().collect();
    let (mut at, mut line) = (0, 1);
    // How deep in braces, and the depth at which tests began.
    let (mut depth, mut tests, mut tests_next) = (0_usize, None, false);
    let starts = |at: usize, word: &str| {
        word.chars().enumerate().all(|(n, c)| chars.get(at + n) == Some(&c))
    };
    while let Some(&c) = chars.get(at) {
        if starts(at, "//") {
            let end = (at..chars.len()).find(|&n| chars[n] == '\n').unwrap_or(chars.len());
            let text: String = chars[at..end].iter().collect();
            match text.strip_prefix("///").filter(|_| help && tests.is_none()) {
                Some("") => doc.push('\n'),
                Some(text) => doc.push_str(text),
                None => {}
            }
            at = end;
            let next = chars[end..].iter().collect::<String>();
            let goes_on = next.trim_start().starts_with("///");
            if !goes_on && !doc.is_empty() {
                found.extend(doc.split('\n').map(|text| (line, text.to_owned())));
                doc.clear();
            }
            continue;
        }
        if starts(at, "#[") || starts(at, "#![") {
            let end = closing(&chars, at);
            let text: String = chars[at..end].iter().collect();
            tests_next |= text.starts_with("#[cfg(test)]");
            // Help stands in attributes, too.
            if help && text.starts_with("#[command") {
                found.extend(
                    texts(&text[2..], false).into_iter().map(|(n, t)| (line + n - 1, t)),
                );
            }
            line += text.matches('\n').count();
            at = end;
            continue;
        }
        match c {
            '\n' => line += 1,
            '{' => {
                depth += 1;
                if tests_next && tests.is_none() {
                    tests = Some(depth);
                }
                tests_next = false;
            }
            '}' => {
                if tests == Some(depth) {
                    tests = None;
                }
                depth = depth.saturating_sub(1);
            }
            ';' => tests_next = false,
            '\'' => {
                // A character, or a lifetime, which no quote ends.
                let end = if chars.get(at + 1) == Some(&'\\') {
                    (at + 3..chars.len()).find(|&n| chars[n] == '\'')
                } else {
                    Some(at + 2).filter(|&n| chars.get(n) == Some(&'\''))
                };
                at = end.unwrap_or(at);
            }
            '"' => {
                let hashes = chars[..at].iter().rev().take_while(|c| **c == '#').count();
                let raw = at > hashes && chars[at - hashes - 1] == 'r';
                let (text, end) = literal(&chars, at + 1, raw.then_some(hashes));
                if tests.is_none() {
                    found.push((line, text));
                }
                line += chars[at..end].iter().filter(|c| **c == '\n').count();
                at = end - 1;
            }
            _ => {}
        }
        at += 1;
    }
    found
}

/// A literal from behind its first quote: what it says, and where the next character stands.
fn literal(chars: &[char], from: usize, raw: Option<usize>) -> (String, usize) {
    let (mut text, mut at) = (String::new(), from);
    while let Some(&c) = chars.get(at) {
        at += 1;
        match (c, raw) {
            ('"', None) => break,
            ('"', Some(hashes)) if chars[at..].iter().take(hashes).all(|c| *c == '#') => {
                at += hashes;
                break;
            }
            ('\\', None) => {
                let escaped = chars.get(at).copied().unwrap_or_default();
                at += 1;
                match escaped {
                    'n' => text.push('\n'),
                    '\n' => {
                        at += chars[at..].iter().take_while(|c| c.is_whitespace()).count();
                    }
                    'u' => {
                        let code: String =
                            chars[at + 1..].iter().take_while(|c| **c != '}').collect();
                        at += code.len() + 2;
                        let code = u32::from_str_radix(&code, 16).ok();
                        text.extend(code.and_then(char::from_u32));
                    }
                    other => text.push(other),
                }
            }
            _ => text.push(c),
        }
    }
    (text, at)
}

/// Where an attribute that begins at `at` has ended.
fn closing(chars: &[char], at: usize) -> usize {
    let (mut depth, mut n) = (0_usize, at);
    while let Some(&c) = chars.get(n) {
        match c {
            '[' => depth += 1,
            ']' if depth == 1 => return n + 1,
            ']' => depth -= 1,
            '"' => {
                let hashes = chars[..n].iter().rev().take_while(|c| **c == '#').count();
                let raw = n > hashes && chars[n - hashes - 1] == 'r';
                n = literal(chars, n + 1, raw.then_some(hashes)).1 - 1;
            }
            _ => {}
        }
        n += 1;
    }
    chars.len()
}

#[cfg(test)]
mod tests {
    use super::texts;

    #[track_caller]
    fn case(source: &str, wanted: &[&str]) {
        let found: Vec<_> = texts(source, true).into_iter().map(|(_, text)| text).collect();
        assert_eq!(found, wanted, "{source}");
    }

    #[test]
    fn literals_and_help_are_read() {
        case("fn a<'b>(c: &'b str) { say(\"Cut \\\n   the mat\"); }", &["Cut the mat"]);
        case("let c = '\"'; let d = \"a \\u{d7} b\";", &["a × b"]);
        case("r#\"say \"this\"\"# // \"not this\"", &["say \"this\""]);
        case("/// The sheet\n/// to cut\nsheet: u8,", &[" The sheet to cut"]);
        case("#[command(after_help = \"Example:\")] struct S;", &["Example:"]);
        case("#[expect(dead_code, reason = \"why\")] fn a() {}", &[]);
        case("#[cfg(test)] mod tests { \"no\" } \"yes\"", &["yes"]);
        case("#[cfg(test)] mod tests; \"yes\"", &["yes"]);
    }
}
