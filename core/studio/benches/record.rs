//! 10,000 works with 100,000 prints opened; the next number issued, beside a plain write of
//! 4 KiB with fsync on the same disk, by turns in the same run. The targets: under 1 s; within
//! three times the plain write and 2 ms.
#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a bench prints, and fails by panicking"
)]

use std::fs::File;
use std::io::{Seek, SeekFrom, Write};
use std::time::{Duration, Instant};

use sightedge_studio::{
    Choice, EditionId, Issue, Kind, NewEdition, NewWork, Note, PrintDetails, TakenOver,
    exchange, open,
};

const TODAY: &str = "2025-11-30";
const WORKS: i64 = 10_000;
const EACH: u32 = 10;
const TURNS: usize = 300;

fn main() {
    let folder = tempfile::tempdir_in(std::env::current_dir().unwrap()).unwrap();
    fill(folder.path());
    let size = std::fs::metadata(folder.path().join(sightedge_studio::FILE)).unwrap().len();
    println!("{WORKS} works, {} prints, {} MB", WORKS * i64::from(EACH), size / 1_000_000);

    let mut opening: Vec<Duration> = (0..7)
        .map(|_| {
            let start = Instant::now();
            let opened = open(folder.path(), TODAY).unwrap();
            let index = opened.read().index().unwrap();
            assert_eq!(i64::try_from(index.len()).unwrap(), WORKS);
            start.elapsed()
        })
        .collect();
    let open_in = median(&mut opening);
    println!("opened, checked and listed: {} ms (wanted: under 1000)", ms(open_in));

    let mut opened = open(folder.path(), TODAY).unwrap();
    let mut plain = File::create(folder.path().join("plain")).unwrap();
    let (mut written, mut issued) = (Vec::new(), Vec::new());
    let block = [7_u8; 4096];
    for turn in 0..TURNS {
        let start = Instant::now();
        plain.seek(SeekFrom::Start(0)).unwrap();
        plain.write_all(&block).unwrap();
        plain.sync_all().unwrap();
        written.push(start.elapsed());

        let edition = EditionId(1 + i64::try_from(turn).unwrap() * 7 % WORKS);
        let issue = Issue {
            edition,
            kind: Kind::Numbered,
            choice: Choice::Next,
            stock: PrintDetails::default(),
            size: None,
        };
        let start = Instant::now();
        opened.record().issue(&issue, &Note::at(TODAY)).unwrap();
        issued.push(start.elapsed());
    }
    let (write, issue) = (median(&mut written), median(&mut issued));
    let limit = write * 3 + Duration::from_millis(2);
    println!(
        "next number, on the disk: {} ms; 4 KiB and fsync: {} ms; {:.2} of the limit of {} ms",
        ms(issue),
        ms(write),
        issue.as_secs_f64() / limit.as_secs_f64(),
        ms(limit)
    );
}

/// As an export that is brought in, which is also the quickest way.
fn fill(folder: &std::path::Path) {
    let mut opened = open(folder, TODAY).unwrap();
    let note = Note::at(TODAY);
    let work = NewWork {
        title: "Slack water at the old quay, evening".into(),
        maker: "Ada Brook".into(),
        medium: "pigment print".into(),
        ..NewWork::default()
    };
    let record = opened.record();
    let first = record.add_work(&work, None, &note).unwrap();
    let of = record.open_edition(first, &NewEdition::of(25, 10), &note).unwrap();
    let sold = (1..=EACH).filter(|number| *number != 3).collect();
    let taken = TakenOver { edition: of, from: 1, to: EACH, sold };
    record.take_over(&taken, &note).unwrap();
    let one = record.dump().unwrap();
    let mut all = one.clone();
    for n in 1..WORKS {
        let mut work = one.works[0].clone();
        work.id.0 += n;
        work.catalogue = format!("W{:05}", n + 1);
        all.works.push(work);
        let mut edition = one.editions[0].clone();
        edition.id.0 += n;
        edition.work.0 += n;
        all.editions.push(edition);
        for print in &one.prints {
            let mut print = print.clone();
            print.id.0 += n * i64::from(EACH);
            print.edition.0 += n;
            all.prints.push(print);
        }
        let steps = i64::try_from(one.history.len()).unwrap();
        for entry in &one.history {
            let mut entry = entry.clone();
            entry.id += n * steps;
            entry.subject_id += n * if entry.subject == "print" { i64::from(EACH) } else { 1 };
            all.history.push(entry);
        }
    }
    drop(opened);
    std::fs::remove_file(folder.join(sightedge_studio::FILE)).unwrap();
    let mut opened = open(folder, TODAY).unwrap();
    opened.record().fill(&all).unwrap();
    let start = Instant::now();
    let bytes = exchange::to_ron(&opened.read().dump().unwrap()).unwrap().len();
    println!("exported: {} MB in {} ms", bytes / 1_000_000, ms(start.elapsed()));
}

fn median(times: &mut [Duration]) -> Duration {
    times.sort();
    times[times.len() / 2]
}

fn ms(time: Duration) -> String {
    format!("{:.2}", time.as_secs_f64() * 1000.0)
}
