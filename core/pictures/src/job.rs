//! A picture job as a request and a reply that can be written down, so that it may run in a
//! child process: a decoder that panics, runs on or is killed takes nothing else with it.
//!
//! The request is one line of RON. The reply is one line of RON and, for pixels, the raw RGBA
//! bytes after it. Before it come, if it takes long, a line with how many pixels the picture
//! has (`pixels 24000000`) and lines with how far the work is, in thousandths (`374`).

use std::io::{BufRead, BufReader, Read, Write};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use serde::{Deserialize, Serialize};

use crate::{
    CancelToken, ContentHash, Facts, Limits, PictureError, Preview, Target, content_hash,
    first_look, preview, probe,
};

/// What is to be done with a picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Request {
    /// The file.
    pub path: PathBuf,
    /// What is wanted of it.
    pub work: Work,
    /// What it may cost.
    pub limits: Limits,
}

/// What is wanted of a picture.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Work {
    /// What its headers say.
    Probe,
    /// Something to show at once, its longer side at most this many pixels.
    FirstLook(u32),
    /// Its pixels.
    Preview(Target),
    /// Its content hash.
    Hash,
}

/// The result of a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub enum Reply {
    /// Headers.
    Facts(Facts),
    /// Pixels.
    Preview(Preview),
    /// The format has no first look.
    NoFirstLook,
    /// The hash.
    Hash(ContentHash),
    /// Why there is no result.
    Failed(PictureError),
}

/// The longest line that is read as a request or a reply's head.
const LONGEST_LINE: u64 = 1 << 20;

#[allow(clippy::needless_pass_by_value, reason = "handed to map_err as it is")]
fn broken(detail: impl std::fmt::Display) -> PictureError {
    PictureError::Crashed { detail: detail.to_string() }
}

fn write_line<T: Serialize>(value: &T, out: &mut impl Write) -> std::io::Result<()> {
    let line = ron::to_string(value).map_err(std::io::Error::other)?;
    out.write_all(line.as_bytes())?;
    out.write_all(b"\n")
}

fn line(from: &mut impl BufRead) -> Result<String, PictureError> {
    let mut line = String::new();
    from.take(LONGEST_LINE).read_line(&mut line).map_err(broken)?;
    if line.is_empty() {
        return Err(broken("it sent no answer"));
    }
    Ok(line)
}

impl Request {
    /// Does the work, here and now.
    #[must_use]
    pub fn run(&self, token: &CancelToken) -> Reply {
        let Self { path, work, limits } = self;
        let done = match *work {
            Work::Probe => probe(path, limits).map(Reply::Facts),
            Work::FirstLook(side) => first_look(path, side, limits, token)
                .map(|look| look.map_or(Reply::NoFirstLook, Reply::Preview)),
            Work::Preview(target) => preview(path, target, limits, token).map(Reply::Preview),
            Work::Hash => content_hash(path, token).map(Reply::Hash),
        };
        done.unwrap_or_else(Reply::Failed)
    }

    /// Writes it down.
    ///
    /// # Errors
    /// What `out` says.
    pub fn write(&self, out: &mut impl Write) -> std::io::Result<()> {
        write_line(self, out)
    }

    /// Reads one that was written down.
    ///
    /// # Errors
    /// It is not one.
    pub fn read(from: &mut impl BufRead) -> Result<Self, PictureError> {
        ron::from_str(&line(from)?).map_err(broken)
    }

    /// Has `command` do the work: a process that calls [`serve`] on its standard streams. It
    /// ends with the job, and is ended when it takes too long, holds too much or is called off.
    #[must_use]
    pub fn run_in_child(&self, command: &mut Command, token: &CancelToken) -> Reply {
        let child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
        match child {
            Ok(child) => self.attend(child, token).unwrap_or_else(Reply::Failed),
            Err(error) => Reply::Failed(broken(format!("its process did not start: {error}"))),
        }
    }

    fn attend(&self, mut child: Child, token: &CancelToken) -> Result<Reply, PictureError> {
        let (input, output) = (child.stdin.take(), child.stdout.take());
        if let Some(mut input) = input {
            // A child that is gone already says so by its end.
            drop(self.write(&mut input));
        }
        let Some(output) = output else { return Err(broken("its process did not answer")) };
        let told = token.clone();
        let reader =
            std::thread::spawn(move || Reply::read(&mut BufReader::new(output), &told));
        let file_bytes = std::fs::metadata(&self.path).map_or(0, |meta| meta.len());
        let began = Instant::now();
        let stopped = loop {
            if reader.is_finished() {
                break None;
            }
            if token.is_cancelled() {
                break Some(PictureError::Cancelled);
            }
            // A little longer than the job's own limit, which ends more gently.
            let pixels = token.pixels();
            let allowed = self.limits.allowed(file_bytes, pixels);
            if began.elapsed() > allowed.saturating_add(Duration::from_secs(2)) {
                break Some(PictureError::too_slow(allowed, pixels));
            }
            let limit = self.limits.memory.saturating_add(OWN_MEMORY);
            if let Some(wanted) = resident(child.id()).filter(|&held| held > limit) {
                break Some(PictureError::TooMuchMemory { wanted, limit: self.limits.memory });
            }
            std::thread::sleep(Duration::from_millis(4));
        };
        if stopped.is_some() {
            // Fails only where the child has ended by itself.
            drop(child.kill());
        }
        let ended = child.wait();
        let reply = reader.join().unwrap_or_else(|_| Err(broken("its answer made no sense")));
        match (stopped, reply) {
            (Some(stopped), _) => Err(stopped),
            (None, Ok(reply)) => Ok(reply),
            (None, Err(error)) => match ended {
                Ok(status) if !status.success() => {
                    Err(broken(format!("its process ended with {status}")))
                }
                _ => Err(error),
            },
        }
    }
}

/// What a process holds beside the picture: itself, tables, the estimate's slack.
const OWN_MEMORY: u64 = 192 << 20;

/// Bytes a process holds, where the system reports them.
fn resident(process: u32) -> Option<u64> {
    let text = std::fs::read_to_string(format!("/proc/{process}/statm")).ok()?;
    let pages: u64 = text.split_whitespace().nth(1)?.parse().ok()?;
    // Pages of 4 KiB: where they are larger, the limit is reached later.
    Some(pages * 4096)
}

impl Reply {
    /// Writes it down.
    ///
    /// # Errors
    /// What `out` says.
    pub fn write(&self, out: &mut impl Write) -> std::io::Result<()> {
        write_line(self, out)?;
        if let Self::Preview(preview) = self {
            out.write_all(&preview.rgba)?;
        }
        out.flush()
    }

    /// Reads one that was written down; how far the work is until then goes to `token`.
    ///
    /// # Errors
    /// It is not one, or its pixels are not all there.
    pub fn read(from: &mut impl BufRead, token: &CancelToken) -> Result<Self, PictureError> {
        let mut words = line(from)?;
        loop {
            let told = words.trim_end();
            if let Ok(per_mille) = told.parse() {
                token.advance(per_mille);
            } else if let Some(Ok(pixels)) = told.strip_prefix(PIXELS).map(str::parse) {
                token.has_pixels(pixels);
            } else {
                break;
            }
            words = line(from)?;
        }
        let mut reply: Self = ron::from_str(&words).map_err(broken)?;
        if let Self::Preview(preview) = &mut reply {
            let wanted = preview.size.pixels().saturating_mul(4);
            from.take(wanted).read_to_end(&mut preview.rgba).map_err(broken)?;
            if u64::try_from(preview.rgba.len()) != Ok(wanted) {
                return Err(broken("its pixels broke off"));
            }
        }
        Ok(reply)
    }
}

/// What the line with the picture's pixels begins with.
const PIXELS: &str = "pixels ";
/// How often a child reports progress; quick work ends before the first report.
const TELL_EVERY: Duration = Duration::from_millis(100);
/// What the work may put on its thread's stack; as much as a program's first thread has.
const STACK: usize = 8 << 20;

/// The child's side: one request from `input`, its reply to `output`, before it how far the
/// work is.
///
/// # Errors
/// The reply cannot be written.
pub fn serve(input: &mut impl BufRead, output: &mut impl Write) -> std::io::Result<()> {
    let request = match Request::read(input) {
        Ok(request) => request,
        Err(error) => return Reply::Failed(error).write(output),
    };
    let token = CancelToken::default();
    let (sender, receiver) = channel();
    let working = token.clone();
    std::thread::Builder::new().stack_size(STACK).spawn(move || {
        // The other end waits for it.
        drop(sender.send(request.run(&working)));
    })?;
    let (mut told, mut sized) = (0, None);
    let reply = loop {
        match receiver.recv_timeout(TELL_EVERY) {
            Ok(reply) => break reply,
            Err(RecvTimeoutError::Timeout) => {
                if let Some(pixels) = token.pixels().filter(|pixels| sized != Some(*pixels)) {
                    sized = Some(pixels);
                    writeln!(output, "{PIXELS}{pixels}")?;
                    output.flush()?;
                }
                let far = token.per_mille();
                if far > told {
                    told = far;
                    writeln!(output, "{far}")?;
                    output.flush()?;
                }
            }
            Err(RecvTimeoutError::Disconnected) => {
                break Reply::Failed(broken("it could not be decoded"));
            }
        }
    };
    reply.write(output)
}
