//! Tables of comma-separated values, of which no cell is run. Source: RFC 4180, IETF, 2005: lines
//! end with CR LF, a cell with a comma, a quote or a line break stands in quotes, a quote within
//! is doubled.
//!
//! A spreadsheet takes what begins with `=`, `+`, `-` or `@` for a formula, and runs it. What a
//! person typed has an apostrophe put before it where it might be one, which is taken off again
//! when the table is read.

use std::borrow::Cow;

use serde::Serialize;

/// Why a table could not be written or read.
pub use csv::Error;

/// The letters that a formula begins with. Source: OWASP, CSV Injection: these, also in full
/// width, and tab, return and line feed.
const STARTS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/// Whether a spreadsheet passes over a letter before it looks for a formula: blanks, controls, and
/// marks that are not seen.
fn passed_over(letter: char) -> bool {
    let unseen = matches!(letter, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{feff}');
    letter.is_whitespace() || letter.is_control() || unseen
}

/// A text as it stands in a cell, where no spreadsheet runs it.
pub fn cell(text: &str) -> Cow<'_, str> {
    let first = text.chars().find(|letter| !passed_over(*letter));
    let runs = first.is_some_and(|letter| STARTS.contains(&letter));
    // One that is there already is doubled, so that the reader takes off the other.
    if runs || text.starts_with(['\t', '\r', '\n', '\'']) {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

/// The text that a cell stands for.
pub fn text_of(cell: &str) -> &str {
    cell.strip_prefix('\'').unwrap_or(cell)
}

/// A table that is being written.
#[derive(Debug)]
pub struct Table(csv::Writer<Vec<u8>>);

impl Default for Table {
    fn default() -> Self {
        let mut form = csv::WriterBuilder::new();
        Self(form.terminator(csv::Terminator::CRLF).from_writer(Vec::new()))
    }
}

impl Table {
    /// Adds a row of cells.
    ///
    /// # Errors
    /// Where it has more or fewer than the rows before.
    pub fn row<C: AsRef<[u8]>>(
        &mut self,
        cells: impl IntoIterator<Item = C>,
    ) -> Result<(), Error> {
        self.0.write_record(cells)
    }

    /// Adds a row of a struct's fields; the first brings their names above it.
    ///
    /// # Errors
    /// Where it is not flat, or has more or fewer fields than the rows before.
    pub fn fields(&mut self, row: impl Serialize) -> Result<(), Error> {
        self.0.serialize(row)
    }

    /// The table.
    ///
    /// # Errors
    /// Where a cell is no text, which none of ours is.
    pub fn text(self) -> Result<String, Error> {
        let other = |error: String| Error::from(std::io::Error::other(error));
        let bytes = self.0.into_inner().map_err(|error| other(error.to_string()))?;
        String::from_utf8(bytes).map_err(|error| other(error.to_string()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: OWASP, CSV Injection.
    #[test]
    fn nothing_is_run_and_all_is_read_again() {
        for (text, wanted) in [
            ("=1+1", "'=1+1"),
            (" =HYPERLINK(\"x\")", "' =HYPERLINK(\"x\")"),
            ("\u{a0}\u{3000}=1", "'\u{a0}\u{3000}=1"),
            ("\u{feff}=1", "'\u{feff}=1"),
            ("\u{200b}=1", "'\u{200b}=1"),
            ("\u{1}=1", "'\u{1}=1"),
            ("＝1", "'＝1"),
            ("＋1", "'＋1"),
            ("－1", "'－1"),
            (" ＠SUM(A1)", "' ＠SUM(A1)"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("-2", "'-2"),
            ("+2", "'+2"),
            ("\t1", "'\t1"),
            ("\r1", "'\r1"),
            ("\n1", "'\n1"),
            ("'tis", "''tis"),
            ("'", "''"),
            ("", ""),
            (" ", " "),
            ("Slack water", "Slack water"),
            ("a=b", "a=b"),
            ("(=1)", "(=1)"),
            ("− 2", "− 2"),
        ] {
            assert_eq!(cell(text), wanted);
            assert_eq!(text_of(&cell(text)), text);
        }
    }

    #[test]
    fn cells_in_quotes() {
        let mut table = Table::default();
        table.row(["a,b", "say \"so\"", "c", "d\ne"]).unwrap();
        table.row(["", " f ", "g\r", ""]).unwrap();
        let wanted = "\"a,b\",\"say \"\"so\"\"\",c,\"d\ne\"\r\n, f ,\"g\r\",\r\n";
        assert_eq!(table.text().unwrap(), wanted);
    }
}
