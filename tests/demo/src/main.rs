//! Writes the demo pictures: `sightedge-demo <folder> [divisor] [file]`.

use std::error::Error;
use std::path::PathBuf;

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let folder = words
        .next()
        .map(PathBuf::from)
        .ok_or("no folder given; wanted where the pictures go: sightedge-demo assets/demo")?;
    let divisor = match words.next() {
        None => 1,
        Some(word) => word
            .parse()
            .map_err(|_| format!("\"{word}\" is not a divisor: try 4 for a quick look"))?,
    };
    let only = words.next();
    for picture in sightedge_demo::all() {
        if only.as_deref().is_some_and(|name| name != picture.file) {
            continue;
        }
        let picture = picture.smaller(divisor);
        let (width, height) = picture.size;
        let file = picture.jpeg(&picture.whole(), width, height)?;
        std::fs::write(folder.join(picture.file), file)?;
    }
    Ok(())
}
