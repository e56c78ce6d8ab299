//! A show or gallery that gets another name.

use clap::Args;
use serde_json::json;

use super::super::outcome::CliError;
use super::super::{Exit, Streams};
use super::Asked;
use super::given::Noted;
use sightedge_service::{record, wording};

/// Another name for a show: its prints get it, each with an entry in its history
#[derive(Args, Debug)]
#[command(after_help = "\
Example:
  sightedge edition rename-show Harbour \"Harbour Hall\"")]
pub(super) struct RenameShow {
    /// What it is named now
    #[arg(value_name = "SHOW")]
    from: String,
    /// Its new name; one that is there already makes the two one show
    #[arg(value_name = "NAME")]
    to: String,
    #[command(flatten)]
    noted: Noted,
    /// For other programs
    #[arg(long)]
    json: bool,
}

impl RenameShow {
    pub(super) fn run(
        &self,
        asked: &mut Asked,
        streams: &mut Streams<'_>,
    ) -> Result<Exit, CliError> {
        let done =
            record::rename_show(asked.record(), &self.from, &self.to, &self.noted.note())?;
        let name = done.made.first().map_or("", |print| print.now.place.as_str());
        if self.json {
            let told =
                json!({ "show": name, "prints": done.made.len(), "joined": done.joined });
            writeln!(streams.out, "{told:#}")?;
        } else {
            let count = wording::count(done.made.len(), "print");
            let joined = if done.joined > 0 {
                format!("; {} were there already", done.joined)
            } else {
                String::new()
            };
            writeln!(streams.out, "{name}: {count} renamed{joined}")?;
        }
        Ok(Exit::Done)
    }
}
