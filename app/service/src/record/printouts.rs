//! The studio's printouts: what the record has of prints, set and written as PDF, for window and
//! commands alike.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use sightedge_core::catalogue::{Kind, Order, dimensions};
use sightedge_core::date::Date;
use sightedge_core::geometry::Size;
use sightedge_core::length::{Length, Unit};
use sightedge_papers::{
    Archive, Grid, House, Paper, Piece, StudioOrder, StudioPaper, lay_out_studio,
};
use sightedge_studio::{Edition, Error, Format, FormatId, Print, Record, State, Work};

/// Common practice; storage of prints by ISO 18920.
const CARE: &str = "Keep out of the sun, at 30 to 50 % relative humidity, away from outer walls. \
                    Open the frame only where it is clean and dry.";

/// A print with its work and its edition.
pub type Whole = (Work, Edition, Print);

/// How labels are printed, as the person set it. Lengths are kept in units of 1/720 µm.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(default)]
pub struct Labels {
    /// Each on a page of its own size.
    pub single: bool,
    /// On what; as is usual where none was chosen.
    pub sheet: Option<Paper>,
    /// Side by side on a sheet.
    pub columns: u32,
    /// One above the other.
    pub rows: u32,
    width: i64,
    height: i64,
    left: i64,
    top: i64,
    across: i64,
    down: i64,
}

/// A length of [`Labels`].
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Measure {
    /// Of one label.
    Width,
    /// Of one label.
    Height,
    /// From the sheet's left edge.
    Left,
    /// From the sheet's top edge.
    Top,
    /// Between columns.
    Across,
    /// Between rows.
    Down,
}

impl Default for Labels {
    fn default() -> Self {
        Self::usual(Paper::A4)
    }
}

impl Labels {
    /// Two by four in the middle of that sheet, in whole fractions of an inch on a sheet that is
    /// measured in inches.
    pub const fn usual(sheet: Paper) -> Self {
        let (size, margin) = match sheet.unit() {
            Unit::Inch => (
                [Length::inches(3, 1, 2), Length::inches(2, 3, 8)],
                [Length::inches(0, 3, 4), Length::inches(0, 3, 4)],
            ),
            Unit::Millimetre => {
                ([Length::mm(90), Length::mm(60)], [Length::mm(15), Length::mm(16)])
            }
        };
        Self {
            single: false,
            sheet: None,
            columns: 2,
            rows: 4,
            width: size[0].units(),
            height: size[1].units(),
            left: margin[0].units(),
            top: margin[1].units(),
            across: 0,
            down: 0,
        }
    }

    /// The same on another sheet; what was as is usual on the one before is so on the other.
    #[must_use]
    pub fn on(self, before: Paper, sheet: Option<Paper>) -> Self {
        let as_usual = Self { sheet: None, single: self.single, ..Self::usual(before) };
        let same = Self { sheet: None, ..self } == as_usual;
        let new = Self { single: self.single, ..Self::usual(sheet.unwrap_or(before)) };
        Self { sheet, ..if same { new } else { self } }
    }

    const fn place(&mut self, measure: Measure) -> &mut i64 {
        match measure {
            Measure::Width => &mut self.width,
            Measure::Height => &mut self.height,
            Measure::Left => &mut self.left,
            Measure::Top => &mut self.top,
            Measure::Across => &mut self.across,
            Measure::Down => &mut self.down,
        }
    }

    /// One of its lengths.
    pub const fn get(mut self, measure: Measure) -> Length {
        Length::from_units(*self.place(measure))
    }

    /// Sets one of its lengths.
    pub const fn set(&mut self, measure: Measure, length: Length) {
        *self.place(measure) = length.units();
    }

    /// The paper that these make.
    ///
    /// # Errors
    /// Says in `unit` what does not fit, and what to do.
    pub fn paper(self, sheet: Paper, unit: Unit) -> Result<StudioPaper, String> {
        let get = |measure| self.get(measure);
        let size = [get(Measure::Width), get(Measure::Height)];
        if self.single {
            return Grid::large_enough(size, unit).map(|()| StudioPaper::Single(size));
        }
        let grid = Grid {
            columns: self.columns,
            rows: self.rows,
            width: size[0],
            height: size[1],
            left: get(Measure::Left),
            top: get(Measure::Top),
            across: get(Measure::Across),
            down: get(Measure::Down),
        };
        grid.fits(sheet, unit).map(|()| StudioPaper::Labels(grid))
    }
}

/// What printouts say of these prints; sizes first in the unit of what they are printed on.
///
/// # Errors
/// Where the record cannot be read.
pub fn pieces(record: &dyn Record, prints: &[Whole], unit: Unit) -> Result<Vec<Piece>, Error> {
    let index = record.index()?;
    let mut pieces = Vec::new();
    for (work, edition, print) in prints {
        let row = index.iter().find(|row| row.work.id == work.id);
        let editions: Vec<&Edition> =
            row.iter().flat_map(|row| &row.editions).map(|row| &row.edition).collect();
        let formats = record.formats(work.id)?;
        pieces.push(piece((work, edition, print), &formats, &editions, unit));
    }
    Ok(pieces)
}

fn piece(
    (work, edition, print): (&Work, &Edition, &Print),
    formats: &[Format],
    editions: &[&Edition],
    unit: Unit,
) -> Piece {
    let what = &work.what;
    let years = [what.taken, what.printed.filter(|year| Some(*year) != what.taken)];
    let year = |year: Option<i64>| year.map(|year| year.to_string()).unwrap_or_default();
    let years: Vec<String> = years.iter().flatten().map(ToString::to_string).collect();
    let medium: Vec<&str> = [what.medium.as_str(), what.paper.as_str()]
        .into_iter()
        .filter(|text| !text.is_empty())
        .collect();
    let format = format_of(edition, print.now.format, formats);
    let size = |size: Option<Size>| {
        let size = size.filter(|size| size.is_positive());
        let order = match unit {
            Unit::Inch => Order::InchesFirst,
            Unit::Millimetre => Order::CentimetresFirst,
        };
        size.map(|size| dimensions(&[size.height, size.width], order)).unwrap_or_default()
    };
    let picture = Some(PathBuf::from(&what.picture)).filter(|path| path.is_file());
    Piece {
        catalogue: work.catalogue.clone(),
        title: what.title.clone(),
        artist: what.maker.clone(),
        year: years.join(", printed "),
        taken: year(what.taken),
        printed: year(what.printed.or(what.taken)),
        medium: medium.join(", "),
        process: what.medium.clone(),
        support: what.paper.clone(),
        dimensions: size(format.map(|format| format.what.image())),
        sheet: size(format.map(|format| format.what.sheet())),
        edition: edition.what.notation(print.kind, print.number),
        size: match edition.what.size {
            0 => String::new(),
            size => format!("{size} and no more"),
        },
        proofs: proofs(edition),
        others: others(edition, editions, formats, &size),
        price: print.now.price.as_ref().map(ToString::to_string).unwrap_or_default(),
        sold: print.now.state == State::Sold,
        care: CARE.to_owned(),
        digest: super::digest(work, edition, print),
        picture,
    }
}

/// The size of a print; one of several that is not noted is not guessed.
fn format_of<'a>(
    edition: &Edition,
    own: Option<FormatId>,
    formats: &'a [Format],
) -> Option<&'a Format> {
    let id = own.or(edition.what.format);
    let only = || match formats {
        [one] => Some(one),
        _ => None,
    };
    formats.iter().find(|one| Some(one.id) == id).or_else(only)
}

/// How many of each kind of proof an edition has.
fn proofs(edition: &Edition) -> String {
    let kinds = Kind::ALL.into_iter().filter(|kind| *kind != Kind::Numbered);
    let counted = kinds.filter_map(|kind| {
        let count = edition.what.count(kind);
        (count > 0).then(|| format!("{count} {} ({})", kind.letters(), kind.name()))
    });
    let all: Vec<String> = counted.collect();
    if all.is_empty() { "none".to_owned() } else { all.join(", ") }
}

/// The other editions of the same work.
fn others(
    own: &Edition,
    editions: &[&Edition],
    formats: &[Format],
    size: &impl Fn(Option<Size>) -> String,
) -> String {
    let others = editions.iter().filter(|other| other.id != own.id).map(|other| {
        let format = format_of(other, None, formats);
        let image = size(format.map(|format| format.what.image()));
        let of = if image.is_empty() { String::new() } else { format!(", image {image}") };
        let name = other.what.name.trim();
        let name = if name.is_empty() { String::new() } else { format!("“{name}”: ") };
        format!("{name}{} numbered prints{of}", other.what.size)
    });
    let all: Vec<String> = others.collect();
    if all.is_empty() { "none recorded on this date".to_owned() } else { all.join("; ") }
}

/// What is written.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Written {
    /// The files, each whole.
    pub files: Vec<PathBuf>,
    /// What the person should know.
    pub told: Vec<String>,
}

/// What to write.
#[derive(Clone, Debug)]
pub struct Wanted {
    /// What the files are called first: a print's number, a show's name.
    pub of: String,
    /// The printouts.
    pub kinds: Vec<StudioPaper>,
    /// What they are printed on.
    pub sheet: Paper,
    /// The day that stands on them.
    pub date: Date,
    /// The folder they go to.
    pub out: PathBuf,
    /// Whose they are.
    pub house: House,
}

/// Writes printouts of these prints, each in the place of one of the same name.
///
/// # Errors
/// Says what could not be written and what to do.
pub fn write(wanted: &Wanted, pieces: &[Piece]) -> Result<Written, String> {
    let Wanted { of, kinds, sheet, date, out, house } = wanted;
    let archive = Archive::default();
    let order = StudioOrder { pieces, paper: *sheet, date: *date, archive, house };
    std::fs::create_dir_all(out).map_err(|error| {
        format!("{} cannot be made: {error}; choose another folder", out.display())
    })?;
    let mut written = Written::default();
    for kind in kinds {
        let laid = lay_out_studio(kind, &order).map_err(|error| error.to_string())?;
        for told in laid.notes() {
            if !written.told.contains(told) {
                written.told.push(told.clone());
            }
        }
        let bytes = laid.pdf().map_err(|error| error.to_string())?;
        let file = out.join(format!("{}-{}.pdf", file_name(of), ending(kind)));
        crate::storage::write_whole(&file, &bytes).map_err(|error| {
            format!(
                "{} cannot be written: {error}; see that the disk has room and the file is not \
                 open elsewhere, or choose another folder",
                file.display()
            )
        })?;
        written.files.push(file);
    }
    sightedge_papers::forget();
    Ok(written)
}

const fn ending(kind: &StudioPaper) -> &'static str {
    match kind {
        StudioPaper::Labels(_) | StudioPaper::Single(_) => "labels",
        StudioPaper::Certificate => "certificate",
        StudioPaper::Wall => "wall-labels",
        StudioPaper::Prices(_) => "prices",
        StudioPaper::Consignment { .. } => "consignment",
    }
}

/// What every system takes as a name; letters of any script stay.
fn file_name(of: &str) -> String {
    let name: String =
        of.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).take(60).collect();
    let name = name.trim_matches('-');
    if name.is_empty() { "printouts".to_owned() } else { name.to_owned() }
}

/// A folder for printouts, unless one is chosen: beside the record.
pub fn usual_out(studio: &Path) -> PathBuf {
    studio.join("printouts")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_files_are_of_any_script_and_hold_no_path() {
        for (of, wanted) in [
            ("W0001 3/25", "W0001-3-25"),
            ("../../etc/passwd", "etc-passwd"),
            ("Hafen: Süd", "Hafen--Süd"),
            ("///", "printouts"),
        ] {
            assert_eq!(file_name(of), wanted, "{of}");
        }
    }

    /// Two by four, touching, in the middle: 2 × 3 1/2 + 2 × 3/4 = 8 1/2, 4 × 2 3/8 + 2 × 3/4 = 11.
    #[test]
    fn labels_are_measured_as_their_sheet() {
        for sheet in [Paper::Letter, Paper::A4] {
            let labels = Labels::usual(sheet);
            assert!(labels.paper(sheet, sheet.unit()).is_ok(), "{sheet:?}");
            let size =
                [Measure::Width, Measure::Height].map(|one| labels.get(one).near(sheet.unit()));
            let wanted = match sheet {
                Paper::Letter => ["3 1/2 in", "2 3/8 in"],
                Paper::A4 => ["90 mm", "60 mm"],
            };
            assert_eq!(size, wanted);
        }
        let other = Labels::usual(Paper::A4).on(Paper::A4, Some(Paper::Letter));
        assert_eq!(
            other,
            Labels { sheet: Some(Paper::Letter), ..Labels::usual(Paper::Letter) }
        );
        let mut own = Labels::usual(Paper::A4);
        own.set(Measure::Width, Length::mm(80));
        assert_eq!(own.on(Paper::A4, Some(Paper::Letter)).get(Measure::Width), Length::mm(80));
    }

    #[test]
    fn labels_are_kept_as_they_were_set() {
        let mut labels = Labels::default();
        labels.set(Measure::Across, Length::inch_128ths(16));
        labels.set(Measure::Left, Length::mm(12));
        let kept: Labels = ron::from_str(&ron::to_string(&labels).unwrap()).unwrap();
        assert_eq!(kept, labels);
        assert!(labels.paper(Paper::A4, Unit::Millimetre).is_ok());
        labels.columns = 3;
        let refused = labels.paper(Paper::A4, Unit::Millimetre).unwrap_err();
        assert!(refused.starts_with("3 columns of labels with a margin of 12 mm take"));
    }
}
