//! Groups of readings that stand folded until somebody opens them: what takes poses of its own is not solved for a heading.

use super::App;
use kernel::Group;

/// The heading of a group is pressed: it opens, or folds again.
#[derive(Clone, Copy, Debug)]
pub struct Fold(pub Group);

/// The groups that begin folded.
pub const FOLDED: [Group; 3] = [Group::Rig, Group::Compliance, Group::Space];

impl App {
    /// Opens a group, or folds it again.
    pub(super) fn fold(&mut self, Fold(group): Fold) {
        match self.unfolded.iter().position(|open| *open == group) {
            Some(at) => {
                self.unfolded.remove(at);
            }
            None => self.unfolded.push(group),
        }
    }

    /// True if the readings of a group are shown.
    pub fn unfolds(&self, group: Group) -> bool {
        !FOLDED.contains(&group) || self.unfolded.contains(&group)
    }
}
