//! Which source file of a package takes something from which other, read from the sources:
//! `use` declarations and paths in the code, through re-exports to the file that defines.

#![expect(clippy::expect_used, reason = "a source that cannot be read fails its test")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// The place of a module in its package: `["window", "canvas"]`.
type Module = Vec<String>;

/// One `use`, as written: its path and the name it brings, `*` for all.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Import {
    path: Vec<String>,
    name: String,
    public: bool,
}

/// What is read of one source file.
#[derive(Debug, Default)]
struct Source {
    file: PathBuf,
    imports: Vec<Import>,
    /// Paths in the code besides `use`, at least two names long.
    paths: BTreeSet<Vec<String>>,
    defined: BTreeSet<String>,
}

/// The files of a package, and what each takes from the others.
#[derive(Debug)]
pub struct Imports {
    modules: BTreeMap<Module, Source>,
}

/// A file of a package, named from its `src`, and the files it takes something from.
pub type Graph = BTreeMap<String, BTreeSet<String>>;

impl Imports {
    /// Reads the package whose sources lie in `folder`; files that hold only tests are left out.
    ///
    /// # Panics
    /// Where a file cannot be read.
    pub fn read(folder: &Path) -> Self {
        let mut modules = BTreeMap::new();
        for file in files(folder) {
            if is_test(&file) {
                continue;
            }
            let inside = file.strip_prefix(folder).unwrap_or(&file).to_owned();
            let mut module: Module = inside
                .with_extension("")
                .iter()
                .map(|part| part.to_string_lossy().into_owned())
                .collect();
            match module.last().map(String::as_str) {
                Some("mod" | "lib") => drop(module.pop()),
                Some("main") => continue,
                _ => {}
            }
            let text = fs::read_to_string(&file).expect("a source file can be read");
            modules.insert(module, Source { file: inside, ..read(&text) });
        }
        Self { modules }
    }

    /// Who takes something from whom. A re-export is no use of what it passes on, and what a
    /// module takes from those it is part of is within its own walls.
    pub fn graph(&self) -> Graph {
        let mut graph = Graph::new();
        for (module, source) in &self.modules {
            let uses = graph.entry(name(source)).or_default();
            let imports = source.imports.iter().filter(|import| !import.public);
            let imports = imports.map(|import| &import.path);
            for path in imports.chain(&source.paths) {
                for found in self.files_of(module, path) {
                    if module.starts_with(&found) {
                        continue;
                    }
                    let found = name(&self.modules[&found]);
                    if found != name(source) {
                        uses.insert(found);
                    }
                }
            }
        }
        graph
    }

    /// The modules that define what a path names, seen from `module`.
    fn files_of(&self, module: &Module, path: &[String]) -> BTreeSet<Module> {
        let Some((first, rest)) = path.split_first() else { return BTreeSet::new() };
        let (from, rest) = match first.as_str() {
            "crate" => (Vec::new(), rest.to_vec()),
            "self" => (module.clone(), rest.to_vec()),
            "super" => {
                let ups = path.iter().take_while(|part| *part == "super").count();
                let up = module.len().saturating_sub(ups);
                (module[..up].to_vec(), path[ups..].to_vec())
            }
            // A child of this module, or a name that a `use` brought in.
            _ => {
                let mut child = module.clone();
                child.push(first.clone());
                if self.modules.contains_key(&child) {
                    (module.clone(), path.to_vec())
                } else {
                    let source = &self.modules[module];
                    let brought = source.imports.iter().find(|one| one.name == *first);
                    let Some(brought) = brought else { return BTreeSet::new() };
                    // The `use` itself counts already; what lies below it is looked for.
                    let whole: Vec<String> =
                        brought.path.iter().chain(rest.iter()).cloned().collect();
                    if whole.first() == Some(first) {
                        return BTreeSet::new();
                    }
                    return self.files_of(module, &whole);
                }
            }
        };
        self.resolve(from, &rest, &mut BTreeSet::new())
    }

    /// Walks down from `at` to the module that defines what is named.
    fn resolve(
        &self,
        at: Module,
        path: &[String],
        seen: &mut BTreeSet<(Module, String)>,
    ) -> BTreeSet<Module> {
        let Some(source) = self.modules.get(&at) else { return BTreeSet::new() };
        let Some((first, rest)) = path.split_first() else { return BTreeSet::from([at]) };
        let mut child = at.clone();
        child.push(first.clone());
        if self.modules.contains_key(&child) {
            return self.resolve(child, rest, seen);
        }
        if !seen.insert((at.clone(), first.clone())) {
            return BTreeSet::new();
        }
        if first == "*" || source.defined.contains(first) {
            return BTreeSet::from([at]);
        }
        let named = source.imports.iter().filter(|one| one.name == *first);
        let all = source.imports.iter().filter(|one| one.public && one.name == "*");
        for one in named.chain(all) {
            let mut whole = one.path.clone();
            if one.name == "*" {
                whole.pop();
                whole.push(first.clone());
            }
            whole.extend(rest.iter().cloned());
            let found = self.files_of_import(&at, &whole, seen);
            if !found.is_empty() {
                return found;
            }
        }
        BTreeSet::from([at])
    }

    fn files_of_import(
        &self,
        module: &Module,
        path: &[String],
        seen: &mut BTreeSet<(Module, String)>,
    ) -> BTreeSet<Module> {
        match path.first().map(String::as_str) {
            Some("crate") => self.resolve(Vec::new(), &path[1..], seen),
            Some("self") => self.resolve(module.clone(), &path[1..], seen),
            Some("super") => {
                let ups = path.iter().take_while(|part| *part == "super").count();
                let up = module.len().saturating_sub(ups);
                self.resolve(module[..up].to_vec(), &path[ups..], seen)
            }
            Some(first) => {
                let mut child = module.clone();
                child.push(first.to_owned());
                if self.modules.contains_key(&child) {
                    self.resolve(module.clone(), path, seen)
                } else {
                    BTreeSet::new()
                }
            }
            None => BTreeSet::new(),
        }
    }
}

/// The circles of a graph, each as the files that reach one another.
pub fn circles(graph: &Graph) -> Vec<BTreeSet<String>> {
    let reach = |from: &String| {
        let (mut seen, mut open) = (BTreeSet::new(), vec![from]);
        while let Some(next) = open.pop() {
            for other in graph.get(next).into_iter().flatten() {
                if seen.insert(other.clone()) {
                    open.push(other);
                }
            }
        }
        seen
    };
    let all: BTreeMap<&String, BTreeSet<String>> =
        graph.keys().map(|one| (one, reach(one))).collect();
    let mut found: Vec<BTreeSet<String>> = Vec::new();
    for (one, reached) in &all {
        let inside = |other: &&String| all.get(other).is_some_and(|back| back.contains(*one));
        let circle: BTreeSet<String> = reached.iter().filter(inside).cloned().collect();
        if !circle.is_empty() && !found.contains(&circle) {
            found.push(circle);
        }
    }
    found
}

/// Every Rust file under `path`.
///
/// # Panics
/// Where a folder cannot be read.
pub fn files(path: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(path).expect("a folder can be read") {
        let path = entry.expect("a folder can be read").path();
        if path.is_dir() {
            found.extend(files(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found
}

/// Whether a file holds nothing but tests.
pub fn is_test(path: &Path) -> bool {
    let names = ["tests.rs", "testing.rs", "sample.rs"];
    path.file_name().is_some_and(|name| names.iter().any(|n| name == *n))
        || path.parent().is_some_and(|folder| folder.ends_with("tests"))
}

/// The code of a file, without comments, texts and the tests at its end.
pub fn code(text: &str) -> String {
    let own = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let own = own.split("#[cfg(test)]\npub(crate) mod ").next().unwrap_or_default();
    let (mut code, mut chars) = (String::new(), own.chars().peekable());
    while let Some(c) = chars.next() {
        match c {
            '/' if chars.peek() == Some(&'/') => {
                while chars.peek().is_some_and(|c| *c != '\n') {
                    chars.next();
                }
            }
            '"' => {
                code.push_str("\"\"");
                while let Some(c) = chars.next() {
                    match c {
                        '\\' => drop(chars.next()),
                        '"' => break,
                        _ => {}
                    }
                }
            }
            // A quote in a character, which would begin a text.
            '\'' if chars.peek() == Some(&'"') => drop(chars.next()),
            c => code.push(c),
        }
    }
    code
}

fn name(source: &Source) -> String {
    source.file.display().to_string()
}

fn read(text: &str) -> Source {
    let code = code(text);
    let words = words(&code);
    let mut source = Source::default();
    let mut at = 0;
    while at < words.len() {
        let word = words[at].as_str();
        let before = at.checked_sub(1).map_or("", |at| words[at].as_str());
        match word {
            "use" => {
                let end = (at..words.len()).find(|i| words[*i] == ";").unwrap_or(words.len());
                let public = before == "pub" || before == ")";
                import(&words[at + 1..end], &[], public, &mut source.imports);
                at = end;
            }
            "struct" | "enum" | "fn" | "trait" | "type" | "const" | "static" | "union" => {
                source.defined.extend(words.get(at + 1).cloned());
            }
            "::" if is_name(before) => {
                // From the first name of the path on.
                let mut first = at - 1;
                while first >= 2 && words[first - 1] == "::" && is_name(&words[first - 2]) {
                    first -= 2;
                }
                let (mut path, mut next) = (vec![words[first].clone()], first + 1);
                while words.get(next).is_some_and(|word| word == "::")
                    && words.get(next + 1).is_some_and(|word| is_name(word))
                {
                    path.push(words[next + 1].clone());
                    next += 2;
                }
                at = next.max(at + 1) - 1;
                if path.len() > 1 {
                    source.paths.insert(path);
                }
            }
            _ => {}
        }
        at += 1;
    }
    source
}

fn is_name(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_alphabetic() || c == '_')
}

/// Names, `::` and single other characters.
fn words(code: &str) -> Vec<String> {
    let (mut found, mut chars) = (Vec::new(), code.chars().peekable());
    while let Some(c) = chars.next() {
        if c.is_ascii_alphanumeric() || c == '_' {
            let mut word = String::from(c);
            while let Some(c) = chars.next_if(|c| c.is_ascii_alphanumeric() || *c == '_') {
                word.push(c);
            }
            found.push(word);
        } else if c == ':' && chars.next_if_eq(&':').is_some() {
            found.push("::".to_owned());
        } else if !c.is_whitespace() {
            found.push(c.to_string());
        }
    }
    found
}

/// Spreads the tree of one `use`.
fn import(words: &[String], before: &[String], public: bool, found: &mut Vec<Import>) {
    let mut path = before.to_vec();
    let mut at = 0;
    while at < words.len() {
        match words[at].as_str() {
            "::" => {}
            "{" => {
                let (mut depth, mut from) = (0, at + 1);
                for (i, word) in words.iter().enumerate().skip(at) {
                    match word.as_str() {
                        "{" => depth += 1,
                        "}" => depth -= 1,
                        _ => {}
                    }
                    if (depth == 1 && word == ",") || depth == 0 {
                        import(&words[from..i], &path, public, found);
                        from = i + 1;
                    }
                    if depth == 0 {
                        break;
                    }
                }
                return;
            }
            "as" => {
                let name = words.get(at + 1).cloned().unwrap_or_default();
                found.push(Import { path, name, public });
                return;
            }
            "self" if !before.is_empty() && path.len() == before.len() => {}
            name => path.push(name.to_owned()),
        }
        at += 1;
    }
    if path.len() > 1 || (path.len() == 1 && before.is_empty() && !words.is_empty()) {
        let name = path.last().cloned().unwrap_or_default();
        found.push(Import { path, name, public });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn graph(files: &[(&str, &str)]) -> Graph {
        let folder = tempfile::tempdir().unwrap();
        for (name, text) in [("lib.rs", "mod a;")].iter().chain(files) {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        Imports::read(folder.path()).graph()
    }

    #[track_caller]
    fn case(files: &[(&str, &str)], from: &str, wanted: &[&str]) {
        let graph = graph(files);
        let found: Vec<&str> = graph[from].iter().map(String::as_str).collect();
        assert_eq!(found, wanted, "{graph:?}");
    }

    #[test]
    fn a_name_leads_to_the_file_that_defines_it() {
        let facade = ("a/mod.rs", "mod b;\nmod c;\npub use b::B;\npub struct A;");
        let b = ("a/b.rs", "pub struct B;");
        let c = ("a/c.rs", "use super::{A, B};\n");
        case(&[facade, b, c], "a/c.rs", &["a/b.rs"]);
        case(&[facade, b, c], "a/mod.rs", &[]);
        let d = ("d.rs", "use crate::a::{self, c as other};\nfn f() -> a::B { other::x() }");
        case(&[facade, b, c, d], "d.rs", &["a/b.rs", "a/c.rs", "a/mod.rs"]);
        let e = ("e.rs", "// crate::a::B\nfn f() { \"crate::a::B\"; crate::a::A; }");
        case(&[facade, b, c, e], "e.rs", &["a/mod.rs"]);
        let all = ("a/mod.rs", "mod b;\nmod c;\npub use b::*;\npub struct A;");
        case(&[all, b, c], "a/c.rs", &["a/b.rs"]);
    }

    #[test]
    fn a_circle_is_found() {
        let circle = graph(&[
            ("a.rs", "use crate::b::B;\npub struct A;"),
            ("b.rs", "use crate::c::C;\npub struct B;"),
            ("c.rs", "fn f() -> crate::a::A {}\npub struct C;"),
            ("d.rs", "use crate::a::A;"),
        ]);
        let found = circles(&circle);
        assert_eq!(found, [BTreeSet::from(["a.rs", "b.rs", "c.rs"].map(String::from))]);
        let tests = graph(&[
            ("a.rs", "pub struct A;\n#[cfg(test)]\nmod tests { use crate::b::B; }"),
            ("b.rs", "use crate::a::A;\npub struct B;"),
        ]);
        assert_eq!(circles(&tests), Vec::<BTreeSet<String>>::new());
    }
}
