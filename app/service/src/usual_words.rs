//! The person's usual words for inscriptions, as they are remembered.

use serde::{Deserialize, Serialize};
use sightedge_core::inscription::check_template;
use sightedge_core::spec::{Back, Front, Lettering};

/// Words and places that a new inscription begins with.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Words {
    back: Vec<String>,
    behind: String,
    front: String,
    left: String,
    right: String,
}

impl Default for Words {
    fn default() -> Self {
        Self::of(&Lettering::default())
    }
}

impl Words {
    /// Those of an inscription; what stands on that one print is its own.
    pub fn of(lettering: &Lettering) -> Self {
        let Lettering { back, behind, front, left, right, already_written: _ } = lettering;
        Self {
            back: back.clone(),
            behind: behind.key().to_owned(),
            front: front.key().to_owned(),
            left: left.clone(),
            right: right.clone(),
        }
    }

    /// What a new inscription begins with: what was spoilt in the file is as it usually is.
    pub fn lettering(&self) -> Lettering {
        let usual = Lettering::default();
        let whole = |line: &String| check_template(line).is_ok();
        let line = |own: &String, usual: String| if whole(own) { own.clone() } else { usual };
        Lettering {
            back: if self.back.iter().all(whole) { self.back.clone() } else { usual.back },
            behind: Back::from_key(&self.behind).unwrap_or_default(),
            front: Front::from_key(&self.front).unwrap_or_default(),
            left: line(&self.left, usual.left),
            right: line(&self.right, usual.right),
            already_written: String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        let mut lettering =
            Lettering { front: Front::Mat, behind: Back::Image, ..Lettering::default() };
        lettering.back = vec!["{maker}: {title}".to_owned()];
        assert_eq!(Words::of(&lettering).lettering(), lettering);
        let spoilt = Words {
            left: "{prize}".to_owned(),
            front: "?".to_owned(),
            ..Words::of(&lettering)
        };
        assert_eq!(spoilt.lettering(), Lettering { front: Front::Margin, ..lettering });
    }
}
