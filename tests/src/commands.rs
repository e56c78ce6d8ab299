//! The headless commands, run in a folder of their own, and their figures read back.

use std::any::TypeId;
use std::ffi::OsString;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use serde_json::Value;
use sightedge_core::length::{Length, Unit, parse};
use sightedge_service::storage::Storage;

/// How a command ended and what it said.
#[derive(Clone, Debug)]
pub struct Said {
    /// Its exit code.
    pub exit: u8,
    /// On standard output.
    pub out: String,
    /// On standard error.
    pub err: String,
}

/// Runs a command within this process, with the tables of the program alone.
pub fn run<S: Into<OsString> + Clone>(arguments: &[S]) -> Said {
    run_with(&Storage::nothing(), arguments)
}

/// Runs a command within this process, with the person's own tables from `keep`.
pub fn run_with<S: Into<OsString> + Clone>(storage: &Storage, arguments: &[S]) -> Said {
    let arguments: Vec<OsString> = arguments.iter().cloned().map(Into::into).collect();
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let exit = sightedge::commands::run_with(storage, &arguments, &mut out, &mut err).number();
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    Said { exit, out: text(out), err: text(err) }
}

/// A command of the program, such as `new` or `edition issue`.
#[derive(Clone, Debug)]
pub struct Command {
    /// As it is typed behind the program's name.
    pub typed: Vec<String>,
    /// Its options, with their dashes.
    pub options: Vec<String>,
    /// Those of them that take a file or a folder.
    pub paths: Vec<String>,
    /// The commands that its help shows as examples, without the program's name.
    pub examples: Vec<String>,
}

/// All commands, each before those below it.
pub fn commands() -> Vec<Command> {
    let mut found = Vec::new();
    below(&sightedge::commands::command(), &[], &mut found);
    found
}

fn below(parent: &clap::Command, begins: &[String], found: &mut Vec<Command>) {
    for command in parent.get_subcommands() {
        if command.get_name() == "help" {
            continue;
        }
        let typed = [begins, &[command.get_name().to_owned()]].concat();
        let (mut options, mut paths) = (Vec::new(), Vec::new());
        for arg in command.get_arguments() {
            let Some(name) = arg.get_long() else { continue };
            options.push(format!("--{name}"));
            if arg.get_value_parser().type_id() == TypeId::of::<PathBuf>() {
                paths.push(format!("--{name}"));
            }
        }
        let help = command.get_after_help().map(ToString::to_string).unwrap_or_default();
        let examples = help.lines().filter_map(|line| line.strip_prefix("  sightedge "));
        let examples = examples.map(ToOwned::to_owned).collect();
        found.push(Command { typed: typed.clone(), options, paths, examples });
        below(command, &typed, found);
    }
}

/// Words as they are typed: parted by spaces, but not within double quotes.
pub fn typed(line: &str) -> Vec<String> {
    let (mut words, mut word, mut quoted, mut any) = (Vec::new(), String::new(), false, false);
    for c in line.chars() {
        match c {
            '"' => (quoted, any) = (!quoted, true),
            ' ' if !quoted => {
                if any || !word.is_empty() {
                    words.push(std::mem::take(&mut word));
                }
                any = false;
            }
            c => word.push(c),
        }
    }
    if any || !word.is_empty() {
        words.push(word);
    }
    words
}

/// An empty folder with a picture in it.
#[derive(Clone, Debug)]
pub struct Bench {
    folder: PathBuf,
}

impl Bench {
    /// The picture's name.
    pub const PICTURE: &str = "print.png";
    /// The plan that belongs beside it.
    pub const PLAN: &str = "print.png.sightedge.ron";

    /// A folder of that name under `temporary`, emptied, with a small picture that states no
    /// resolution.
    ///
    /// # Errors
    /// Where the folder cannot be made.
    pub fn new(temporary: &str, name: &str) -> io::Result<Self> {
        let folder = Path::new(temporary).join(name);
        match fs::remove_dir_all(&folder) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => fs::create_dir_all(&folder)?,
        }
        let bench = Self { folder };
        bench.put(Self::PICTURE, &png((22, 30), None, [31, 58, 96])?)?;
        Ok(bench)
    }

    /// A file in the folder.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    /// Puts a file into the folder.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn put(&self, name: &str, bytes: &[u8]) -> io::Result<()> {
        fs::write(self.path(name), bytes)
    }

    /// Runs a command as it is typed; every word that starts with `@` is a file in the folder,
    /// where the person's own tables are, too.
    pub fn run(&self, line: &str) -> Said {
        let here = |word: String| match word.strip_prefix('@') {
            Some(name) => self.path(name).into_os_string(),
            None => word.into(),
        };
        let words: Vec<_> = typed(line).into_iter().map(here).collect();
        run_with(&Storage::at(&self.folder), &words)
    }

    /// Makes the plan of the picture with `options`, over one that is there.
    pub fn new_plan(&self, options: &str) -> Said {
        self.run(&format!("new @{} --replace {options}", Self::PICTURE))
    }

    /// The figures of the picture's plan.
    ///
    /// # Errors
    /// What the command says.
    pub fn figures(&self, options: &str) -> Result<Value, String> {
        self.json(&format!("figures @{} --json {options}", Self::PLAN))
    }

    /// The figures of a plan made with `options`.
    ///
    /// # Errors
    /// What the command says.
    pub fn figures_of(&self, options: &str) -> Result<Value, String> {
        let said = self.new_plan(options);
        if said.exit == 0 { self.figures("") } else { Err(said.err) }
    }

    /// What a command writes as JSON.
    ///
    /// # Errors
    /// What the command says on standard error.
    pub fn json(&self, line: &str) -> Result<Value, String> {
        let said = self.run(line);
        serde_json::from_str(&said.out).map_err(|error| format!("{error}: {}", said.err))
    }
}

/// A picture of one colour; `ppm` is its resolution in pixels a metre.
///
/// # Errors
/// What the encoder says.
pub fn png(size: (u32, u32), ppm: Option<u32>, colour: [u8; 3]) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, size.0, size.1);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_pixel_dims(ppm.map(|n| png::PixelDimensions {
        xppu: n,
        yppu: n,
        unit: png::Unit::Meter,
    }));
    let pixels = u64::from(size.0) * u64::from(size.1);
    let pixels = colour.repeat(usize::try_from(pixels).unwrap_or(0));
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&pixels)?;
    writer.finish()?;
    Ok(bytes)
}

/// The texts of `names` in `value`, as in `20, 26` for `["width", "height"]`; the unit is left
/// out where it is `unit`.
pub fn texts(value: &Value, names: &[&str], unit: Unit) -> String {
    let text = |name: &&str| {
        let text = value[format!("{name}_text")].as_str().unwrap_or("missing");
        let sign = text.strip_suffix(unit.sign()).map(str::trim_end);
        sign.unwrap_or(text).to_owned()
    };
    names.iter().map(text).collect::<Vec<_>>().join(", ")
}

/// Width and height in inches.
pub fn size(value: &Value) -> String {
    texts(value, &["width", "height"], Unit::Inch)
}

/// Top, right, bottom, left in inches.
pub fn four(value: &Value) -> String {
    texts(value, &["top", "right", "bottom", "left"], Unit::Inch)
}

/// Everything wrong with the lengths anywhere in `value`: each `*_mm` must be the length that
/// the `*_text` beside it says, to the last digit that is written.
pub fn wrong_texts(value: &Value) -> Vec<String> {
    let mut wrong = Vec::new();
    match value {
        Value::Array(list) => list.iter().for_each(|v| wrong.extend(wrong_texts(v))),
        Value::Object(fields) => {
            for (name, field) in fields {
                wrong.extend(wrong_texts(field));
                let Some(stem) = name.strip_suffix("_mm") else { continue };
                let text = fields.get(&format!("{stem}_text")).and_then(Value::as_str);
                let read = text.map(|text| parse(text, Unit::Inch).map(Length::to_mm));
                let Some((Ok(read), mm)) = read.zip(field.as_f64()) else {
                    wrong.push(format!("{name}: {field} beside {text:?}"));
                    continue;
                };
                // Four decimals of an inch are written, or three of a millimetre.
                if (read - mm).abs() > 0.000_05 * 25.4 {
                    wrong.push(format!("{name}: {mm} mm is written as {text:?}"));
                }
            }
        }
        _ => {}
    }
    wrong
}
