//! Ticks: each belongs to a print of the plan, and to the plan alone where it has no print. A
//! tick keeps the step as it was, so that one whose words or figures changed since is open again.

use crate::spec::{Document, Entry, EntryKind, PrintRef, Ticked, VariantId};

use super::Step;

/// As many letters of ticked steps as a plan keeps, so that it stays far below the most that one
/// may hold; of the oldest only a digest is kept. Source: our own choice.
const MOST_LETTERS: usize = 100_000;

/// As many ticks as a plan keeps; the oldest go. Source: our own choice.
const MOST_TICKS: usize = 3_000;

/// How a tick is written in the log.
fn mark(variant: VariantId, step: &str) -> String {
    format!("{variant}/{step}")
}

/// Which print of the plan is at the bench.
pub fn at_the_bench(document: &Document) -> Option<PrintRef> {
    document.inscribed.as_ref().and_then(|inscribed| inscribed.recorded.which())
}

fn is_of(entry: &Entry, mark: &str, print: Option<PrintRef>) -> bool {
    let of = entry.ticked.as_ref().and_then(|ticked| ticked.print);
    entry.kind == EntryKind::Tick && entry.text == mark && of == print
}

/// The tick of a step for the print at the bench.
pub(super) fn tick_of<'a>(
    document: &'a Document,
    variant: VariantId,
    step: &str,
) -> Option<&'a Entry> {
    let (mark, print) = (mark(variant, step), at_the_bench(document));
    document.log.iter().rev().find(|entry| is_of(entry, &mark, print))
}

/// Whether a step was ticked for the print at the bench, changed since or not.
pub fn is_ticked(document: &Document, variant: VariantId, step: &str) -> bool {
    tick_of(document, variant, step).is_some()
}

/// Ticks a step for its print; `when` as the log has it.
pub fn tick(log: &mut Vec<Entry>, variant: VariantId, step: &Step, when: &str) {
    untick(log, variant, step);
    log.push(Entry {
        when: when.to_owned(),
        kind: EntryKind::Tick,
        text: mark(variant, &step.id),
        ticked: Some(Ticked { print: step.print, step: step.contents() }),
    });
    keep_small(log);
}

/// Takes the tick of a step for its print out of the log.
pub fn untick(log: &mut Vec<Entry>, variant: VariantId, step: &Step) {
    let mark = mark(variant, &step.id);
    log.retain(|entry| !is_of(entry, &mark, step.print));
}

/// Drops the oldest ticks, so that the log stays small.
fn keep_small(log: &mut Vec<Entry>) {
    let (mut letters, mut ticks) = (0, 0);
    for at in (0..log.len()).rev() {
        let Some(entry) = log.get_mut(at).filter(|entry| entry.kind == EntryKind::Tick) else {
            continue;
        };
        ticks += 1;
        if ticks > MOST_TICKS {
            log.remove(at);
            continue;
        }
        if let Some(ticked) = &mut entry.ticked {
            letters += ticked.step.iter().map(String::len).sum::<usize>();
            if letters > MOST_LETTERS {
                ticked.step = shortened(&ticked.step);
            }
        }
    }
}

/// What the digest of a step begins with, where its text is not kept.
const DIGEST: &str = "digest ";

/// A step's digest in place of its text: enough to see that it changed, not how. What has none
/// to keep, or is one already, stays.
fn shortened(step: &[String]) -> Vec<String> {
    if step.is_empty() || digest_in(step).is_some() {
        return step.to_vec();
    }
    vec![digest(step)]
}

fn digest_in(step: &[String]) -> Option<&String> {
    let [only] = step else { return None };
    Some(only).filter(|only| only.starts_with(DIGEST))
}

/// Source: FNV-1a of 64 bits, its offset and prime from memory of its authors' page; saved
/// plans hold it, so it stays as it is.
fn digest(step: &[String]) -> String {
    let bytes = step.iter().flat_map(|part| part.bytes().chain([0]));
    let sum = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |sum, byte| {
        (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{DIGEST}{sum:016x}")
}

/// What changed in a step since it was ticked, a sentence each; empty where that is not known.
pub(super) fn changed(entry: &Entry, now: &[String]) -> Vec<String> {
    let was = entry.ticked.as_ref().map_or(&[][..], |ticked| ticked.step.as_slice());
    if was.is_empty() || was == now {
        return Vec::new();
    }
    if let Some(kept) = digest_in(was) {
        if *kept == digest(now) {
            return Vec::new();
        }
        return vec!["What it said then is no longer kept.".to_owned()];
    }
    let plain = |text: &String| text.trim_end_matches(['.', ';', ',']).to_owned();
    if was.len() == now.len() {
        let both = was.iter().zip(now).filter(|(was, now)| was != now);
        return both
            .map(|(was, now)| format!("Was: {}. Now: {}.", plain(was), plain(now)))
            .collect();
    }
    let gone = was.iter().filter(|part| !now.contains(part));
    let new = now.iter().filter(|part| !was.contains(part));
    let mut sentences: Vec<String> = gone
        .map(|part| format!("No longer: {}.", plain(part)))
        .chain(new.map(|part| format!("New: {}.", plain(part))))
        .collect();
    if sentences.is_empty() {
        sentences.push("The same words, in another order.".to_owned());
    }
    sentences
}
