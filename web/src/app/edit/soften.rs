//! Changes of what gives way: bushes, the subframe on its mounts, what the rack is bolted to, where a bush was tightened.

use super::{hundredth, sound};
use crate::app::refusal::Refusal;
use crate::document::Document;
use kernel::{Anchor, Bush, Few, Layout, Member, Mount, Subframe, SubframeMount, Vec3};

/// A change of what gives way.
#[derive(Clone, Debug)]
pub enum Soften {
    /// A usual bush wherever there can be one, or none anywhere.
    Usual(bool),
    /// What gives way at one place, or nothing there.
    Bush(Anchor, Option<Bush>),
    /// The subframe, or none.
    Subframe(Option<Subframe>),
    /// A mount of the subframe: another in its place, one more behind the last, or none there.
    Mount(usize, Option<SubframeMount>),
    /// A mount is dragged to a place, mm.
    MountAt(usize, Vec3),
    /// All mounts get this stiffness, N/mm.
    Mounts(Vec3),
    /// The subframe carries something, or does not.
    Carry(Anchor, bool),
    /// What the rack is bolted to.
    RackOn(Mount),
    /// The travel, mm, at which the bush at a member's inner joint was tightened; `None` for where the car stands.
    Tightened(Member, Option<f64>),
}

impl Soften {
    /// The document after it, if the layout has no problem that it did not have before.
    pub fn on(self, document: &Document) -> Result<Document, Refusal> {
        if document.sealed() {
            return Err(Refusal::NotInExercise);
        }
        let mut after = document.clone();
        let layout = &mut after.layout;
        match self {
            Soften::Usual(true) => layout.stiffness = layout.usual_stiffness(),
            Soften::Usual(false) => layout.stiffness = Few::default(),
            Soften::Bush(at, Some(bush)) => layout.stiffness.insert(at, bush),
            Soften::Bush(at, None) => layout.stiffness.remove(&at),
            Soften::Subframe(subframe) => layout.subframe = subframe,
            Soften::Mount(at, mount) => mounts(layout, |mounts| match mount {
                Some(mount) if at < mounts.len() => mounts[at] = mount,
                Some(mount) => mounts.push(mount),
                None if at < mounts.len() => drop(mounts.remove(at)),
                None => {}
            }),
            Soften::MountAt(at, to) => mounts(layout, |mounts| {
                if let Some(mount) = mounts.get_mut(at) {
                    // Only the left ones are given: a hand can't take one across the centre plane.
                    mount.at = Vec3::new(to.x, to.y.max(0.0), to.z).map(hundredth);
                }
            }),
            Soften::Mounts(stiffness) => {
                mounts(layout, |mounts| mounts.iter_mut().for_each(|mount| mount.stiffness = stiffness));
            }
            Soften::Carry(what, does) => carry(layout, what, does),
            Soften::RackOn(mount) => {
                if let Some(rack) = &mut layout.rack {
                    rack.mount = mount;
                }
                // A list of its own says the same.
                if layout.subframe.as_ref().is_some_and(|subframe| subframe.carries.is_some()) {
                    carry(layout, Anchor::Rack, mount == Mount::Subframe);
                }
            }
            Soften::Tightened(member, Some(travel)) => {
                layout.changes.tightened.insert(member, hundredth(travel));
            }
            Soften::Tightened(member, None) => layout.changes.tightened.remove(&member),
        }
        sound(document, after)
    }
}

fn mounts(layout: &mut Layout, change: impl FnOnce(&mut Vec<SubframeMount>)) {
    if let Some(subframe) = &mut layout.subframe {
        change(&mut subframe.mounts);
    }
}

/// What the subframe carries becomes a list of its own, unless that says what would be carried anyway.
fn carry(layout: &mut Layout, what: Anchor, does: bool) {
    let all = Anchor::all(layout);
    let carried = |layout: &Layout, at: &Anchor| layout.subframe_carries(*at);
    let list: Vec<Anchor> =
        all.iter().copied().filter(|at| if *at == what { does } else { carried(layout, at) }).collect();
    if let Some(subframe) = &mut layout.subframe {
        subframe.carries = None;
    }
    let usual: Vec<Anchor> = all.iter().copied().filter(|at| carried(layout, at)).collect();
    if let Some(subframe) = &mut layout.subframe {
        subframe.carries = (list != usual).then_some(list);
    }
}
