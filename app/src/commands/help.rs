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

pub(super) const ALL: &str = "
sightedge: plan, judge and draw the mat around a print

  sightedge [PICTURE or PLAN ...]  the window; everything below works without one

  sightedge new PICTURE ...        from a picture and a few measures to a saved plan
  sightedge figures PLAN           every number of a plan
  sightedge check PLAN...          what would fail, and what mends it
  sightedge hinges PLAN            how the sheet is held, and how it moves with humidity
  sightedge package PLAN           layers, depth, mass, frame, wire and hooks
  sightedge steps PLAN             what is done at the bench, in order
  sightedge as-cut PLAN ...        a window that came out otherwise, and what still passes
  sightedge picture PLAN ...       the matted picture, face on, as a PNG
  sightedge papers PLAN...         what goes to the bench: sheets, templates, cut drawings
  sightedge preview PICTURE ...    a picture in its true colours, smaller

  sightedge cut PLAN|FOLDER...     boards, liners and backings out of the fewest sheets
  sightedge edition WORD ...       what is numbered, where each print is, what is sold

Each verb tells more with --help, as in: sightedge new --help

A plan lies beside its picture, as in print.jpg.sightedge.ron; where PLAN is wanted, the
picture will do. --variant NAME chooses among the mats of a plan.

Lengths: 13 1/2, 13-1/2in, .060in, 343mm, 34.3cm, 1' 2\", 16 - 2*1/8. A number without a unit
takes the plan's; of a new plan, the first unit typed; with none at all, inches.
W is width, H is height.

Exit codes: 0 done, 1 a check found a Caution, 2 a Stop, 3 something could not be read or is not
there, 4 the command is not understood or refused, 5 something could not be written, 6 only part
was done.
";

pub(super) const NEW: &str = "
sightedge new PICTURE: from a picture and a few measures to a plan, saved beside it

The print
  --sheet WxH           the paper; without it, pixels and resolution of the picture
  --image WxH           the printed area, or one side of it: W alone, or xH; the other follows
                        by the picture's proportion; without it, the whole sheet
  --image-at X,Y        its place from the sheet's top left; without it, centred

The window (of the innermost layer)
  --overlap L|T,R,B,L   how far the mat lies on the sheet; without it, 1/8 in or 3 mm
  --reveal L|T,R,B,L    or: paper shown round the image; negative where image is covered

The board
  --outer WxH           its size, with one of
      --centred               the window in the middle (the usual)
      --bottom-extra L        the bottom border wider than the top by this
      --bottom-ratio B:T      bottom to top, as in 6:5
      --optical               at the optical centre
  --border T,R,B,L      or: the top mat's borders (one length for all four)
  --outer WxH --window WxH   or: a mat in hand, as measured
                        without any: the smallest standard size with 2 in (50 mm) all round and
                        even borders; for squares and panoramas, a size of its own
  --liner L[,L[,L]]     one to three liners, each by its offset from the layer above
  --thickness L         of every layer; without it, .060 in or 1.4 mm
  --exhibition          hold the borders to the exhibition rule

Behind the mat (all of it may be left open)
  --paper NAME          a paper of the tables, yours or the program's, or any other
  --process NAME        how the picture was made: inkjet, silver, darkroom-colour, pressed ...
  --along C --across C  how it grows along and across its grain, in % per % RH
  --grain width|height  the way its grain runs
  --hinged-at RH        the humidity of the room where it is hinged, in %
  --hangs-at A..B       the driest and the dampest where it will hang
  --hinge-at X[,X..]    middles of the hinges from the sheet's left edge, seen from the front;
                        the first one holds the place, the others hang loose
  --hinge-kind KIND     t, v, pass-through, corners or strips; without it, the program chooses
  --tissue NAME         a hinge tissue or tape of the tables

The frame and the wall
  --rabbet WxH          the rabbet of a frame in hand; with the allowance it gives the outer
                        size, unless --outer says another
  --allowance L         how much smaller than the rabbet the contents are, both sides
                        together; without it, 1/8 in or 3 mm
  --frame NAME          a moulding of the tables, or any other
  --glazing NAME        of the tables; without it, acrylic of 1/8 in
  --bag WxH             or, without a frame: the bag it goes into, inside
  --mass M              weighed: 5.9kg, 13lb or 2lb3oz; a bare number is pounds, or grams where
                        --weights g or --unit mm says so; without it, from the layers
  --rings L --rise L    from ring to ring; how far the pulled-up wire stands above them
  --hooks N[,L]         1, or 2 that far apart; without it, half of what the rings are apart
  --rings-below L       from the frame's top down to the rings
  --frame-size WxH      the frame from outside
  --centre-height L     the picture's middle above the floor; without it, 60 in or 1450 mm

The plan
  --unit in|mm          what bare numbers mean
  --weights lb|g        what weights and forces are shown in; without it, as the unit
  --ruler N             the maker's ruler: 8, 16, 32 or 64 parts of an inch; 1, 2, 5 or 10 of a mm
  --save FILE           elsewhere than beside the picture
  --replace             write over an existing plan (the old one is kept as a backup)

Example: sightedge new print.jpg --sheet 13x19in --image 11x15 --outer 20x26 --reveal 1/4 --optical
";

pub(super) const FIGURES: &str = "
sightedge figures PLAN: every number of a plan, exact and on the maker's ruler

  --ruler N             another ruler than the plan's
  --json                for other programs: *_mm unrounded, *_text in the plan's unit
  --variant NAME        another mat than the chosen one

Border alone is the top mat's; every other one is named with its layer. What was entered as cut
is marked \"cut, as measured\" and is the same in both sets. Stops are from the back, all else is
from the front.

In the JSON, \"bench\" is the set on the ruler, all beside it the exact one. Of an opening:
  sight, borders        of its innermost window: the liner's where there is one
  reveal, overlap       paper shown round the image; how far the mat lies on the sheet
  sheet, image          size, and distances from the board's edges
Of a layer, the top mat first:
  sight, face, back     its window at the sight edge, on the board's face and on its back
  borders               from the board's edges to its own sight edge
  offset                its strips: from the sight edge of the layer above to its own
  flat, bevel           of a strip, what shows of the face and of the cut; negative where the
                        layer above hides it
  blank, drop_out       what it is cut from; what of the piece that falls out can be used
  stops, stops_loose    its borders from the back: from the top mat's edge, from its blank's own
  measured              whether it is cut already: its figures are then as measured
";

pub(super) const CHECK: &str = "
sightedge check PLAN...: what would fail, by how much, and what mends it

  --studio FOLDER       where the record is kept that knows the print at the bench; without it,
                        where the window keeps it
  --json                for other programs
  --variant NAME        another mat than the chosen one

Ends with 0 (nothing above a Note), 1 (a Caution) or 2 (a Stop); the worst of several wins.
";

pub(super) const HINGES: &str = "
sightedge hinges PLAN: how the sheet is held, where, by how much, and how it moves

  --json                for other programs
  --variant NAME        another mat than the chosen one

Moist hinging of valuable works belongs to a trained conservator; pressure-sensitive tape does
not belong on them at all.
";

pub(super) const PACKAGE: &str = "
sightedge package PLAN: layers, depth, mass, what the lip hides, wire and hooks, the bag

  --json                for other programs; rabbet_mm is the least depth of rabbet, room for
                        points and dust cover counted
  --variant NAME        another mat than the chosen one

Hanging: two hooks, and hardware rated for the wall and the weight. Heavy or public work
follows local codes and a licensed installer; some places require laminated glass.
";

pub(super) const STEPS: &str = "
sightedge steps PLAN: what is done at the bench, in order, with its numbers and cautions

  --print NUMBER        for this print of the plan, as in 3/25; without it, the one that the plan
                        has at the bench, else the lowest in the studio that is not matted yet
  --in ID               of that edition, where two editions of the plan have the number
  --studio FOLDER       where the record is kept; without it, where the window keeps it
  --json                for other programs
  --variant NAME        another mat than the chosen one

What would fail, and what can harm the print, comes before the first step; with a Stop among
them it ends with 2.
";

pub(super) const AS_CUT: &str = "
sightedge as-cut PLAN --window WxH --left L --top L: a window as it came out, measured at its
sight edge. It stays as measured, in every figure and on every paper; what is still to be cut
lies in the middle of it. Says what the cut brought about, and what was open before it

  --window WxH          the window
  --left L --top L      from the board's left and top edge to it
  --from front|back     which side of the board was up: from the back, left and right change
                        places; without it, the front
  --outer WxH           the board, one for all layers; without it, as planned or as measured
                        before
  --layer N             the layer that was measured, 1 for the top one: the liners below it are
                        still to be cut and follow; without it, the innermost
  --anew                instead of measures: that window is to be cut again, in another board
  --variant NAME        another mat than the chosen one

The plan is saved with it; the one before is kept as a backup. Ends as check does.
";

pub(super) const PICTURE: &str = "
sightedge picture PLAN --out FILE.png: the matted picture, face on

  --out FILE.png        the file to write
  --width PX            its width in pixels; without it, 1600
  --variant NAME        another mat than the chosen one
";

pub(super) const PAPERS: &str = "
sightedge papers PLAN|FOLDER... --out DIR: what goes to the bench, as files

  --out DIR             the folder to write to; made where it is missing

What to write; without any of these, all of them
  --sheet               the plan sheet: picture, drawing, section, every figure, one page
  --cutter              the cutter's card: blanks and stops from the back, layer by layer
  --template            true-size templates for the sheet's place, hinges and corners
  --steps               the steps at the bench, to tick off
  --svg                 the cut drawing, in millimetres, a group a board
  --dxf                 the cut drawing as DXF 2000 and release 12, a layer a board and kind
  --csv                 the cut list

  --print NUMBER        the steps for this print of the plan, as in 3/25; without it, as for steps
  --in ID               of that edition, where two editions of the plan have the number
  --studio FOLDER       where the record is kept; without it, where the window keeps it
  --paper a4|letter     without it, letter for plans in inches and A4 for those in millimetres
  --date YYYY-MM-DD     the day written on the papers; without it, the one saved in the plan
  --variant NAME        another mat than the chosen one

Files are named after the picture, as in slack-water-plan.pdf, and replace only those of the
same plan. Of a FOLDER, every plan in it. It names each plan that fails and goes on with the
others: the exit code is then 6.
";

pub(super) const PREVIEW: &str = "
sightedge preview PICTURE --out FILE.png: a picture in its true colours, smaller

  --out FILE            the file to write, .png or .ppm
  --size PX             its longer side in pixels; without it, 2048; never enlarged
";

pub(super) const CUT: &str = "
sightedge cut PLAN|FOLDER...: boards, liners and backings out of the fewest and cheapest sheets

  --stock FILE          the sheets to cut from: a CSV table board,width,height,price,in_hand,
                        offcut (board: an id, a name or *; price and in_hand may be empty;
                        offcut: yes for a piece left over, used first, one where in_hand is
                        empty; the pattern or grain of a board that has one runs along the
                        height);
                        without it, the sizes boards are commonly sold in, by area
  --stages 2|3|any      how often a sheet may be cut across; without it, 3
  --drop-outs           cut up what falls from the innermost windows, too
  --taped-back          and what is taped back while a liner is cut through it
  --seconds N           how long to try, for each board; without it, 4
  --give LENGTH         try whether borders that give so much save a sheet, as in 1/8 in
  --json                for other programs
  --certificate FILE    writes the proof of the bound in whole numbers
  --variant NAME        another mat than the chosen one

A plan that is named twice is cut twice. The sheet is A, what falls from it A1, A2 ...: each cut
names its piece, the edge of that piece that lies against the stop as the sheet lies with its
face up, where the stop is set, and what falls; pencil the names on the backs. With --json it is
each pattern's sequence. Blades: a fresh one, fingers behind the guard.

sightedge cut --instance FILE.csv --name NAME [--no-turn]: a published problem instead
";

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
