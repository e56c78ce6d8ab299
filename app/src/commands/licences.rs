//! `sightedge --licences`: the licences of all that is inside the program.

use std::io::Write;

/// What each part is, and the text of its licence.
const PARTS: [(&str, &str); 4] = [
    (
        "Sightedge is under the MIT licence or the Apache licence 2.0, as you choose.",
        include_str!("../../../LICENSE-MIT"),
    ),
    ("The Apache licence 2.0", include_str!("../../../LICENSE-APACHE")),
    (
        "The typeface, Inter, is under the SIL Open Font License.",
        include_str!("../../../assets/fonts/OFL.txt"),
    ),
    (
        "Pictures in printouts are written by an encoder that is based in part on the work of \
         the Independent JPEG Group.",
        include_str!("../../../assets/licences/crates.txt"),
    ),
];

/// Writes them all.
pub(super) fn write(out: &mut dyn Write) -> std::io::Result<()> {
    let rule = "=".repeat(78);
    for (what, text) in PARTS {
        writeln!(out, "{rule}\n{what}\n{rule}\n\n{}\n", text.trim())?;
    }
    Ok(())
}
