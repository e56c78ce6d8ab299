//! What the verbs are and take, in plain words.

/// The part of a verb's help that is about `word`, with what goes for all words; all of it
/// where there is none. A part begins with its word behind two spaces and ends where the next
/// one begins.
pub(super) fn about(help: &str, word: Option<&str>) -> String {
    let help = help.trim();
    let Some((verb, word)) = name(help).zip(word) else { return help.to_owned() };
    let (parts, common) = help
        .split_once("\n\n")
        .and_then(|(_, rest)| rest.split_once("\n\n"))
        .unwrap_or_default();
    let mut within = false;
    let mut told = String::new();
    for line in parts.lines() {
        if let Some(begins) = line.strip_prefix("  ").filter(|rest| !rest.starts_with(' ')) {
            within = begins.split(' ').next() == Some(word);
            if within {
                // Typed on the left, said of it on the right of a wide gap.
                let (typed, said) = begins.split_once("  ").unwrap_or((begins, ""));
                let colon = if said.is_empty() { "" } else { ": " };
                told = format!("{told}{verb} {typed}{colon}{}\n", said.trim_start());
            }
        } else if within {
            told = format!("{told}{line}\n");
        }
    }
    if told.is_empty() { help.to_owned() } else { format!("{told}\n{common}") }
}

/// What is typed to run the verb, where its help has parts: those begin with a plain word.
fn name(help: &str) -> Option<&str> {
    help.split_once(" WORD").map(|(name, _)| name)
}

pub(super) const EDITION: &str = "
sightedge edition WORD ...: what is numbered, where each print is, what is sold

  new [PLAN]            a work and its edition; title, sizes and paper from the plan
      --title T --maker M --taken Y --printed Y --medium M --paper P --catalogue C
      --size N              how many; fixed by the first print that is issued
      --proofs PERCENT      artist's proofs, at most; without it, 10
      --pp N --hc N --tp N  other proofs; --fraction numbers them 2/5 instead of II/V
      --of WORK --format NAME --image WxH --sheet WxH   another size; --size: counted apart
      --issued A..B --sold N,N..N   numbers out already, whereabouts unknown; those sold
      --price N:P,N:P       what prints cost from a number on: 1:800 EUR,11:1200 EUR
  issue WORK [PLAN]     the next number; --number N another free one
      --kind ap|pp|hc|bat|tp --printed DAY --matted DAY --price P
  list [WORK]           --search TEXT, --show NAME, --history
  move WORK NUMBER --to studio|show|sold|returned|destroyed|voided|replaced
      --place NAME --buyer TEXT --price P   NUMBER as 1..40,42: all these, whereabouts unknown
      --yes                 replaced: a new print gets the number, which cannot be undone
  correct WORK          corrects an entry; what is not given stays, \"\" clears
      --title T --maker M --taken Y --printed Y --medium M --paper P --picture FILE --notes TEXT
      --image WxH --sheet WxH   the size it is printed in; --format NAME, which one of several
      --size N --proofs PERCENT --pp N --hc N --tp N   its edition, until a print is issued
      --fraction|--roman --price N:P,N:P   how proofs are numbered; what prints to come cost
  correct WORK NUMBER [PLAN]   the same of one print, and the plan it goes with
      --to studio|show|sold|returned|unknown|destroyed --place NAME --buyer TEXT --price P
      --printed DAY --matted DAY   of one print the day; without NUMBER, --printed is a year
  inscribe WORK NUMBER PLAN   what is written on this print and its mat, with what, and where;
      --save keeps it in the plan
      --front margin|mat|nothing --behind margin|image   where; --stands TEXT what is there now
      --back LINE|LINE      lines of your own: {title} {taken} {printed} {maker} {number} {sign}
  papers WORK NUMBER|PLAN --out FOLDER   label and certificate; of a PLAN, for its print at the
      bench; with --show NAME: prices, wall labels, labels for the backing, list of what is left
      --grid 2x4 --label WxH --sheet-of a4|letter   labels, columns x rows; mm, on letter in
      --margin LEFTxTOP --gap WxH   where they lie on it; without, touching, in the middle
      --single              each label on a page of its own size
  export FILE.ron|FOLDER    the whole record: a file or CSV tables; --replace what is there
  import FILE.ron|FOLDER    the same into an empty studio
  folder [FOLDER|usual]     where the record is kept; with a folder, from now on there
  check                 whether record and backups are whole; --put-back one of these FILEs

  --studio FOLDER       where the record is kept; without it, where the window keeps it
  --in ID               one edition of several of a work
  --date DAY --why TEXT when and why, for the history; without a date, today
  --json                for other programs

WORK is a catalogue number such as W0012; NUMBER is as it is written: 3/25, AP II/V. Nothing is
deleted: what is voided keeps its history. Of one word only: sightedge edition WORD --help
";
