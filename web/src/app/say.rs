//! What the page says.

use super::App;
use super::refusal::Refusal;

/// What the page says.
#[derive(Clone, Debug)]
pub enum Say {
    /// A sentence.
    Sentence(String),
    /// Nothing more.
    Nothing,
}

impl App {
    /// Says it, in place of what was said before.
    pub(super) fn say(&mut self, say: Say) {
        self.notices = match say {
            Say::Sentence(sentence) => vec![sentence],
            Say::Nothing => Vec::new(),
        };
    }

    /// Says why something was not done.
    pub(super) fn refuse(&mut self, why: &Refusal) {
        self.notices = why.sentences();
    }
}
