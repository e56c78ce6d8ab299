//! What is requested of a picture, and what comes of it, ready to be shown: nothing is left to
//! be done to its pixels in a frame.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;

use egui::ColorImage;
use sightedge_core::geometry;
use sightedge_pictures::colour::{Palette, Vision, palette_of, simulate};
use sightedge_pictures::job::{Reply, Request, Work};
use sightedge_pictures::{
    CancelToken, Facts, Finding, Limits, PictureError, Preview, Size, Target, ToDisplay,
};

use sightedge_service::picture_facts;

/// The word that makes this program a decoder of one picture, in a process of its own.
pub const DECODER: &str = "decode-one-picture";

/// What a picture job is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Part {
    /// Something to show at once.
    FirstLook,
    /// The whole picture.
    Whole,
    /// What is seen of it.
    Detail,
    /// What is known of it besides: its colours, what its file says.
    About,
}

impl Part {
    /// The higher comes first.
    pub(super) const fn urgency(self) -> u8 {
        match self {
            Self::FirstLook => 2,
            Self::Whole | Self::Detail => 1,
            Self::About => 0,
        }
    }
}

/// A request for a picture's pixels, or for what is known of it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PictureRequest {
    /// What for.
    pub part: Part,
    /// How many pixels of what of it.
    pub target: Target,
    /// As whom it is seen.
    pub vision: Option<Vision>,
    /// No two requests of a session share one.
    pub number: u64,
}

/// Pixels for the screen.
#[derive(Debug)]
pub struct Pixels {
    /// They themselves.
    pub image: ColorImage,
    /// Their size.
    pub size: Size,
    /// The size of all of the picture.
    pub picture: Size,
}

/// What is known of a picture once it is there.
#[derive(Clone, Debug, Default)]
pub struct About {
    /// Its colours.
    pub palette: Option<Palette>,
    /// What is worth saying about its file.
    pub said: Vec<String>,
    /// The size at which its file asks to be printed.
    pub stated: Option<geometry::Size>,
}

/// What came of a request.
#[derive(Debug)]
pub enum PictureReply {
    /// Pixels.
    Pixels(Box<Pixels>),
    /// What is known.
    About(Box<About>),
}

/// Why nothing came.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum NoPicture {
    /// It was cancelled, or there is nothing quick to show.
    Nothing,
    /// What was found, and what to do.
    Failed(String),
}

/// The colours of a picture are drawn from it at this size, so that they are the same whatever
/// size it is shown at.
const COLOURS: Target = Target::Longest(320);

/// Where pictures are decoded.
#[derive(Clone, Debug, Default)]
pub struct Decoder {
    program: Option<PathBuf>,
    display: Option<Arc<ToDisplay>>,
}

impl Decoder {
    /// In processes of `program` from now on.
    pub(super) fn apart(&mut self, program: PathBuf) {
        self.program = Some(program);
    }

    /// For this monitor from now on; `None`: as sRGB. Gives whether that is another one.
    pub(super) fn show_on(&mut self, display: Option<Arc<ToDisplay>>) -> bool {
        let other = self.display != display;
        self.display = display;
        other
    }

    /// Whether its pixels look on the screen as those of `other`.
    pub fn shows_like(&self, other: &Self) -> bool {
        self.display == other.display
    }

    fn run(&self, path: &Path, work: Work, token: &CancelToken) -> Reply {
        let request = Request { path: path.to_owned(), work, limits: Limits::default() };
        match &self.program {
            Some(program) => request.run_in_child(Command::new(program).arg(DECODER), token),
            None => request.run(token),
        }
    }

    /// What a picture's headers say.
    pub(super) fn probe(&self, path: &Path) -> Result<Facts, PictureError> {
        match self.run(path, Work::Probe, &CancelToken::default()) {
            Reply::Facts(facts) => Ok(facts),
            Reply::Failed(error) => Err(error),
            Reply::Preview(_) | Reply::NoFirstLook | Reply::Hash(_) => {
                Err(PictureError::Crashed { detail: "it answered another question".into() })
            }
        }
    }

    /// A small picture, its longer side so many pixels.
    ///
    /// # Errors
    /// Why there is none.
    pub fn small(&self, path: &Path, longest: u32) -> Result<ColorImage, NoPicture> {
        let work = Work::Preview(Target::Longest(longest));
        let preview = self.preview(path, work, &CancelToken::default())?;
        Ok(self.image(preview))
    }

    /// Carries out a request.
    pub(super) fn bring(
        &self,
        path: &Path,
        request: PictureRequest,
        token: &CancelToken,
    ) -> Result<PictureReply, NoPicture> {
        // Its turn came too late.
        if token.is_cancelled() {
            return Err(NoPicture::Nothing);
        }
        match request.part {
            Part::FirstLook => self.pixels(path, Work::FirstLook(FIRST), request.vision, token),
            Part::Whole | Part::Detail => {
                self.pixels(path, Work::Preview(request.target), request.vision, token)
            }
            Part::About => self.about(path, token).map(|a| PictureReply::About(Box::new(a))),
        }
    }

    fn pixels(
        &self,
        path: &Path,
        work: Work,
        vision: Option<Vision>,
        token: &CancelToken,
    ) -> Result<PictureReply, NoPicture> {
        let mut preview = self.preview(path, work, token)?;
        if let Some(vision) = vision {
            simulate(&mut preview.rgba, vision);
        }
        let (size, picture) = (preview.size, preview.picture);
        let image = self.image(preview);
        Ok(PictureReply::Pixels(Box::new(Pixels { image, size, picture })))
    }

    fn about(&self, path: &Path, token: &CancelToken) -> Result<About, NoPicture> {
        let facts = self.probe(path).map_err(no_picture)?;
        let small = self.preview(path, Work::Preview(COLOURS), token)?;
        // A picture that is smaller than that is not enlarged, which is nothing to tell here.
        let said = small.findings.iter().filter(|f| !matches!(f, Finding::NotEnlarged { .. }));
        Ok(About {
            palette: palette_of(&small.rgba, small.size),
            said: said.map(Finding::message).collect(),
            stated: picture_facts::stated_size(&facts),
        })
    }

    fn preview(
        &self,
        path: &Path,
        work: Work,
        token: &CancelToken,
    ) -> Result<Preview, NoPicture> {
        match self.run(path, work, token) {
            Reply::Preview(preview) => Ok(preview),
            Reply::Failed(error) => Err(no_picture(error)),
            Reply::NoFirstLook | Reply::Facts(_) | Reply::Hash(_) => Err(NoPicture::Nothing),
        }
    }

    /// For the screen: in the monitor's own colours.
    fn image(&self, mut preview: Preview) -> ColorImage {
        if let Some(display) = &self.display {
            display.apply(&mut preview.rgba);
        }
        let pixels = |side: u32| usize::try_from(side).unwrap_or(0);
        let size = [pixels(preview.size.width), pixels(preview.size.height)];
        ColorImage::from_rgba_unmultiplied(size, &preview.rgba)
    }
}

/// The longer side of a first look, in pixels.
const FIRST: u32 = 512;

fn no_picture(error: PictureError) -> NoPicture {
    match error {
        PictureError::Cancelled => NoPicture::Nothing,
        error => NoPicture::Failed(error.to_string()),
    }
}
