//! The person's usual words for inscriptions, as they are remembered.

use serde::{Deserialize, Serialize};
use sightedge_core::inscription::sound;
use sightedge_core::spec::{Back, Front, Wish};

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
        Self::of(&Wish::default())
    }
}

impl Words {
    /// Those of an inscription; what stands on that one print is its own.
    pub fn of(wish: &Wish) -> Self {
        let Wish { back, behind, front, left, right, stands: _ } = wish;
        Self {
            back: back.clone(),
            behind: behind.key().to_owned(),
            front: front.key().to_owned(),
            left: left.clone(),
            right: right.clone(),
        }
    }

    /// What a new inscription begins with: what was spoilt in the file is as it usually is.
    pub fn wish(&self) -> Wish {
        let usual = Wish::default();
        let whole = |line: &String| sound(line).is_ok();
        let line = |own: &String, usual: String| if whole(own) { own.clone() } else { usual };
        Wish {
            back: if self.back.iter().all(whole) { self.back.clone() } else { usual.back },
            behind: Back::from_key(&self.behind).unwrap_or_default(),
            front: Front::from_key(&self.front).unwrap_or_default(),
            left: line(&self.left, usual.left),
            right: line(&self.right, usual.right),
            stands: String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        let mut wish = Wish { front: Front::Mat, behind: Back::Image, ..Wish::default() };
        wish.back = vec!["{maker}: {title}".to_owned()];
        assert_eq!(Words::of(&wish).wish(), wish);
        let spoilt =
            Words { left: "{prize}".to_owned(), front: "?".to_owned(), ..Words::of(&wish) };
        assert_eq!(spoilt.wish(), Wish { front: Front::Margin, ..wish });
    }
}
