//! Jobs in a child process: this program is its own child.
#![allow(
    clippy::print_stdout,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a test program without the usual harness, which plays its child's part too"
)]

mod support;

use std::io::{BufReader, Write};
use std::process::Command;
use std::time::{Duration, Instant};

use sightedge_pictures::job::{Reply, Request, Work, serve};
use sightedge_pictures::{CancelToken, Limits, PictureError, Preview, Size, Target, write_png};

fn main() {
    match std::env::args().nth(1).as_deref() {
        Some("--serve") => {
            let mut input = BufReader::new(std::io::stdin());
            serve(&mut input, &mut std::io::stdout().lock()).unwrap();
        }
        Some("--panic") => panic!("as a decoder might"),
        Some("--abort") => std::process::abort(),
        Some("--hang") => std::thread::sleep(Duration::from_mins(10)),
        Some("--slow") => {
            // As the child tells it, then silence.
            std::io::stdout().write_all(b"pixels 24000000\n12\n374\n").unwrap();
            std::io::stdout().flush().unwrap();
            std::thread::sleep(Duration::from_mins(10));
        }
        Some("--nonsense") => std::io::stdout().write_all(b"Facts(what)\n").unwrap(),
        Some("--swell") => {
            let mut held = Vec::new();
            loop {
                held.push(vec![1u8; 16 << 20]);
                std::thread::sleep(Duration::from_millis(2));
            }
        }
        // Listing tests, as tools ask for: there is one.
        Some("--list") => println!("child: test"),
        _ => all(),
    }
}

fn child(role: &str) -> Command {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.arg(role).stderr(std::process::Stdio::null());
    command
}

fn all() {
    let folder = support::folder("child");
    let rgba: Vec<u8> =
        support::scene(120, 80).chunks(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect();
    let size = Size::new(120, 80);
    let path = folder.join("a.png");
    write_png(
        &Preview { size, rgba, picture: size, findings: vec![] },
        &mut std::fs::File::create(&path).unwrap(),
    )
    .unwrap();
    let limits = Limits { time: Duration::from_secs(20), ..Limits::default() };
    let request = |work| Request { path: path.clone(), work, limits };
    let token = CancelToken::default();
    let works =
        [Work::Probe, Work::FirstLook(64), Work::Preview(Target::Longest(60)), Work::Hash];
    for work in works {
        let there = request(work).run_in_child(&mut child("--serve"), &token);
        assert_eq!(there, request(work).run(&token), "{work:?}: the same in a child");
    }
    let missing = Request { path: folder.join("none.jpg"), ..request(Work::Probe) };
    let told = missing.run_in_child(&mut child("--serve"), &token);
    assert!(matches!(told, Reply::Failed(PictureError::Unreadable { .. })), "{told:?}");
    for role in ["--panic", "--abort", "--nonsense"] {
        let told = request(Work::Probe).run_in_child(&mut child(role), &token);
        assert!(
            matches!(told, Reply::Failed(PictureError::Crashed { .. })),
            "{role}: {told:?}"
        );
    }
    let short = Limits { time: Duration::from_millis(10), ..limits };
    let slow = Request { limits: short, ..request(Work::Probe) };
    let told = slow.run_in_child(&mut child("--hang"), &token);
    assert!(matches!(told, Reply::Failed(PictureError::TooSlow { .. })), "{told:?}");
    watchdog(&request(Work::Probe));
    if cfg!(target_os = "linux") {
        let little = Request { limits: Limits { memory: 0, ..limits }, ..request(Work::Probe) };
        let told = little.run_in_child(&mut child("--swell"), &token);
        assert!(matches!(told, Reply::Failed(PictureError::TooMuchMemory { .. })), "{told:?}");
    }
    let called_off = CancelToken::default();
    called_off.cancel();
    let start = Instant::now();
    let told = request(Work::Probe).run_in_child(&mut child("--hang"), &called_off);
    assert_eq!(told, Reply::Failed(PictureError::Cancelled), "called off");
    assert!(start.elapsed() < Duration::from_secs(10), "at once");
    follows(&request(Work::Probe));
    tells(&folder);
    stops(&folder);
    println!("child: all passed");
}

/// A child that hangs is ended after a time that follows from what it said of the picture's
/// size: here none but the limit's is left, and the words name the size.
fn watchdog(request: &Request) {
    let limits = Limits { time: Duration::from_millis(500), ..request.limits };
    let request = Request { limits, ..request.clone() };
    let told = request.run_in_child(&mut child("--slow"), &CancelToken::default());
    let Reply::Failed(error) = told else { panic!("{told:?}") };
    assert_eq!(
        error.to_string(),
        "the picture was not open after 0 s, the most that one of 24 MP may take: its file may \
         be damaged, so export it anew as TIFF or JPEG, or open it again when the machine is \
         less busy",
        "found, needed, what to do"
    );
    let limits = Limits::default();
    for (bytes, pixels, seconds) in [
        (1_000, None, 10),
        (1_000, Some(4_000_000), 11),
        (50_000_000, Some(24_000_000), 21),
        (u64::MAX, Some(u64::MAX), 60),
    ] {
        assert_eq!(limits.allowed(bytes, pixels), Duration::from_secs(seconds), "{pixels:?}");
    }
}

/// How far the child is reaches whoever watches, who can call it off then.
fn follows(request: &Request) {
    let token = CancelToken::default();
    let (other, request) = (token.clone(), request.clone());
    let job = std::thread::spawn(move || request.run_in_child(&mut child("--slow"), &other));
    let began = Instant::now();
    while token.per_mille() < 374 {
        assert!(began.elapsed() < Duration::from_secs(10), "told only {}", token.per_mille());
        std::thread::sleep(Duration::from_millis(5));
    }
    assert_eq!(token.per_mille(), 374, "as told");
    assert_eq!(token.pixels(), Some(24_000_000), "and how large it is");
    token.cancel();
    assert_eq!(job.join().unwrap(), Reply::Failed(PictureError::Cancelled), "called off");
    assert!(began.elapsed() < Duration::from_secs(10), "at once");
}

/// Work that takes long tells how far it is: in thousandths, upwards, the reply last.
fn tells(folder: &std::path::Path) {
    let (width, height) = (4000_u32, 4000_u32);
    let path = folder.join("large.png");
    let rgba = vec![200_u8; 4000 * 4000 * 4];
    let size = Size::new(width, height);
    write_png(
        &Preview { size, rgba, picture: size, findings: vec![] },
        &mut std::fs::File::create(&path).unwrap(),
    )
    .unwrap();
    let target = Target::Longest(3999);
    let limits = Limits::default();
    let mut line = Vec::new();
    Request { path, work: Work::Preview(target), limits }.write(&mut line).unwrap();
    let mut answer = Vec::new();
    serve(&mut line.as_slice(), &mut answer).unwrap();
    let token = CancelToken::default();
    let reply = Reply::read(&mut answer.as_slice(), &token).unwrap();
    assert!(matches!(reply, Reply::Preview(_)), "the reply comes last");
    let lines = answer.split(|byte| *byte == b'\n').map(String::from_utf8_lossy);
    // Once, how many pixels there are; then how far it is.
    let (sizes, lines): (Vec<_>, Vec<_>) =
        lines.partition(|line: &std::borrow::Cow<'_, str>| line.starts_with("pixels "));
    assert!(sizes.iter().all(|line| line == "pixels 16000000"), "{sizes:?}");
    assert!(sizes.len() <= 1, "{sizes:?}");
    let far: Vec<u32> = lines.iter().map_while(|line| line.parse().ok()).collect();
    assert!(far.is_sorted() && far.iter().all(|far| *far <= 1000), "{far:?}");
    // A machine that is through within a tenth of a second has nothing to tell.
    println!("child: told {far:?} on the way");
    assert_eq!(token.per_mille(), far.last().copied().unwrap_or(0), "and is read back");
}

/// A person who calls off the decoding of a large JPEG is free within a tenth of a second, and
/// saw before how far it was. A busy machine gets three tries.
fn stops(folder: &std::path::Path) {
    let path = folder.join("large.jpg");
    let mut bytes = Vec::new();
    let mut encoder = jpeg_encoder::Encoder::new(&mut bytes, 90);
    encoder.set_progressive(true);
    let grey: Vec<u8> = support::scene(4800, 4800).into_iter().step_by(3).collect();
    encoder.encode(&grey, 4800, 4800, jpeg_encoder::ColorType::Luma).unwrap();
    std::fs::write(&path, bytes).unwrap();
    let work = Work::Preview(Target::Longest(2048));
    let request = Request { path, work, limits: Limits::default() };
    let mut times = Vec::new();
    for _ in 0..3 {
        let token = CancelToken::default();
        let (other, request) = (token.clone(), request.clone());
        let job =
            std::thread::spawn(move || request.run_in_child(&mut child("--serve"), &other));
        while token.per_mille() == 0 && !job.is_finished() {
            std::thread::sleep(Duration::from_millis(2));
        }
        let far = token.per_mille();
        let began = Instant::now();
        token.cancel();
        let reply = job.join().unwrap();
        times.push((began.elapsed(), far));
        assert!((1..1000).contains(&far), "{far} thousandths were told while it was decoded");
        assert_eq!(reply, Reply::Failed(PictureError::Cancelled), "called off");
    }
    println!("child: called off in {times:?}");
    assert!(times.iter().any(|t| t.0 < Duration::from_millis(100)), "{times:?}");
}
